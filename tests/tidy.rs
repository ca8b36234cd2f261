//! Holds the house in order: which module may use which, how files begin, how long they are, that
//! what documents name is there, and which file may name which crate.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    clippy::case_sensitive_file_extension_comparisons,
    reason = "a test reads the files that it is about"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The modules of the crate, lowest first; a module may use its own row and those before it.
const LAYERS: &[&[&str]] = &[
    &["source", "problem"],
    &["read"],
    &["model"],
    &["load"],
    &["logic"],
    &["solve"],
    &["analysis"],
    &["labels"],
    &["narration"],
    &["amendment", "graph", "scenario", "cases", "proof"],
    &["quiz"],
    &["report"],
    &["cli"],
];

/// Crates that only one part of the house may name, and that part.
const CRATES: &[(&str, &[&str])] = &[
    ("z3", &["src/solve/z3.rs"]),
    ("serde_yaml", &[]),
    ("saphyr_parser", &["src/read/"]),
    ("biodivine_lib_bdd", &["src/logic/"]),
    ("serde_json", &["src/report/", "src/proof/"]),
    ("schemars", &["src/report/", "src/proof/"]),
    ("batsat", &["src/proof/prove/"]),
    ("dratify", &["src/proof/recheck/"]),
    ("sha2", &["src/proof/"]),
    ("miette", &["src/report/text/"]),
    ("owo_colors", &["src/report/text/"]),
    ("textwrap", &["src/report/text/"]),
    ("pulldown_cmark", &["src/report/text/"]),
    (
        "csv",
        &["src/cases/", "src/report/quiz.rs", "src/report/table.rs"],
    ),
    ("askama", &["src/report/html/"]),
    ("calamine", &["src/cases/"]),
    ("rust_xlsxwriter", &["src/cases/"]),
    ("clap", &["src/cli/"]),
    ("clap_complete", &["src/cli/"]),
    ("clap_mangen", &["src/cli/"]),
    ("dialoguer", &["src/cli/"]),
    ("indicatif", &["src/cli/"]),
    ("ctrlc", &["src/cli/"]),
    ("terminal_size", &["src/cli/"]),
    ("oorandom", &["src/scenario/", "src/quiz/"]),
];

/// The most lines of a file, its tests left out; `main.rs` has less.
const MOST_LINES: usize = 700;
const MOST_LINES_OF_MAIN: usize = 40;

/// What no file says: machine paths, places that only some people have, work put off, who or what
/// wrote it and on whose order. In pieces, so that this file does not say it either.
const BANNED: &[&str] = &[
    concat!("sha", "red/"),
    concat!("/wo", "rk/"),
    concat!("/tm", "p/"),
    concat!("/ro", "ot/"),
    concat!("/ho", "me/"),
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
    concat!("X", "XX"),
    concat!("lorem ", "ipsum"),
    concat!("design", " document"),
    concat!("hel", "per session"),
    concat!("the br", "ief says"),
    concat!("work", "tree"),
    concat!("language", " model"),
    concat!("index.", "crates", ".io"),
    concat!("static.", "crates", ".io"),
    concat!("as an", " AI"),
];

/// Folders and files that are looked at.
const FOLDERS: &[&str] = &[
    "src", "tests", "benches", "docs", "rulesets", "proofs", ".ci",
];
const ROOT_FILES: &[&str] = &[
    "Cargo.toml",
    "Makefile",
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "BENCHMARKS.md",
    "clippy.toml",
    "deny.toml",
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder, in order, as a path from the root with `/` and its text.
fn files(folder: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut open = vec![PathBuf::from(folder)];
    while let Some(path) = open.pop() {
        let Ok(entries) = fs::read_dir(root().join(&path)) else {
            continue;
        };
        for entry in entries.map(Result::unwrap) {
            let below = path.join(entry.file_name());
            // What npm has installed is others'.
            if entry.file_name() == "node_modules" {
                continue;
            }
            if entry.file_type().unwrap().is_dir() {
                open.push(below);
            } else if let Ok(text) = fs::read_to_string(entry.path()) {
                found.push((below.to_string_lossy().replace('\\', "/"), text));
            }
        }
    }
    found.sort();
    found
}

fn all_files() -> Vec<(String, String)> {
    let in_root = ROOT_FILES.iter().map(|name| {
        (
            (*name).to_owned(),
            fs::read_to_string(root().join(name)).unwrap(),
        )
    });
    let below = FOLDERS.iter().flat_map(|folder| files(folder));
    in_root.chain(below).collect()
}

/// Whether a source file is for tests alone.
fn is_for_tests(path: &str) -> bool {
    path.ends_with("/tests.rs") || path.contains("/tests/") || path.ends_with("/testing.rs")
}

/// The part of a source file that is not its tests.
fn without_tests(text: &str) -> &str {
    text.find("\n#[cfg(test)]\nmod ")
        .filter(|at| text[*at..].contains(" {\n"))
        .map_or(text, |at| &text[..=at])
}

/// The lines of code, comments left out, with their numbers.
fn code(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let lines = text.lines().enumerate();
    lines
        .map(|(index, line)| (index + 1, line.split("// ").next().unwrap_or(line)))
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
}

fn row(module: &str) -> Option<usize> {
    LAYERS.iter().position(|row| row.contains(&module))
}

/// The modules that a text names by `crate::`, with their lines; `use crate::{a, b}` included.
fn used(text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    for (number, line) in code(without_tests(text)) {
        for after in line.split("crate::").skip(1) {
            let heads: Vec<&str> = match after.strip_prefix('{') {
                Some(list) => list.split(',').collect(),
                None => vec![after],
            };
            for head in heads {
                let name: String = head
                    .trim()
                    .chars()
                    .take_while(|letter| letter.is_alphanumeric() || *letter == '_')
                    .collect();
                if !name.is_empty() {
                    found.push((number, name));
                }
            }
        }
    }
    found
}

/// The arrows of a file that run back.
fn wrong_arrows(path: &str, text: &str) -> Vec<String> {
    let Some(own) = path
        .strip_prefix("src/")
        .and_then(|path| path.split(['/', '.']).next())
        .filter(|own| !["lib", "main"].contains(own))
    else {
        return Vec::new();
    };
    let Some(own_row) = row(own) else {
        return vec![format!(
            "{path}: where does `{own}` stand? Put it into LAYERS"
        )];
    };
    used(text)
        .into_iter()
        .filter_map(|(line, other)| match row(&other) {
            Some(row) if row <= own_row => None,
            Some(_) => Some(format!(
                "{path}:{line}: `{own}` uses `{other}`, which comes after it"
            )),
            None => Some(format!("{path}:{line}: where does `{other}` stand?")),
        })
        .collect()
}

/// Lines that name a crate elsewhere than where it belongs.
fn wrong_crates(path: &str, text: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    for (name, places) in CRATES {
        if places.iter().any(|place| path.starts_with(place)) {
            continue;
        }
        for (number, line) in code(without_tests(text)) {
            let named = line.match_indices(&format!("{name}::")).any(|(at, _)| {
                let before = &line[..at];
                !before.ends_with("::")
                    && !before.ends_with(|letter: char| letter.is_alphanumeric() || letter == '_')
            });
            if named || line.trim() == format!("use {name};") {
                wrong.push(format!(
                    "{path}:{number}: names {name}, which belongs to {places:?}"
                ));
            }
        }
    }
    wrong
}

/// Paths into the tree that a document names.
fn named_paths(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let separators = |letter: char| letter.is_whitespace() || "`'\"()[]<>,;|*".contains(letter);
    for word in text.split(separators) {
        let word = word.trim_end_matches(['.', ':', '!', '?']);
        let word = word.split('#').next().unwrap_or(word);
        let word = word.split(':').next().unwrap_or(word);
        let in_tree = FOLDERS.iter().any(|folder| {
            word.strip_prefix(folder)
                .is_some_and(|rest| rest.starts_with('/'))
        });
        if in_tree || ROOT_FILES.contains(&word) {
            found.push(word.to_owned());
        }
    }
    for target in text.split("](").skip(1) {
        let target = target.split([')', '#']).next().unwrap_or("");
        if !target.is_empty() && !target.contains("://") {
            found.push(target.to_owned());
        }
    }
    found
}

fn nothing(wrong: &[String]) {
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

#[test]
fn arrows_run_one_way() {
    let sources = files("src");
    let sources = sources.iter().filter(|(path, _)| !is_for_tests(path));
    let wrong: Vec<String> = sources
        .flat_map(|(path, text)| wrong_arrows(path, text))
        .collect();
    nothing(&wrong);
}

/// What the check of a record may use of this crate: nothing that solves, and nothing of what makes
/// records. Its rules also know nothing of formulas, and nobody's scenarios.
fn wrong_independence(path: &str, text: &str) -> Vec<String> {
    let Some(file) = path.strip_prefix("src/proof/recheck/") else {
        return Vec::new();
    };
    let mut banned = vec![
        "solve", "analysis", "Formula", "Theory", "Layers", "Replay", "is_true", "is_false",
    ];
    if file.starts_with("rules") || file == "statement.rs" {
        banned.extend(["logic", "Scenario", "Evaluator"]);
    }
    let names = |line: &str, name: &str| {
        let words = line.split(|sign: char| !sign.is_alphanumeric() && sign != '_');
        words.into_iter().any(|word| word == name)
    };
    let mut wrong = Vec::new();
    for (number, line) in code(without_tests(text)) {
        let uses = line.trim_start().starts_with("use ") || line.contains("crate::");
        let listed = line.trim_end().ends_with(',') && !line.contains(['(', '=']);
        let named = banned.iter().filter(|name| names(line, name));
        if uses || listed {
            wrong.extend(named.map(|name| format!("{path}:{number}: uses {name}")));
        }
        if line.contains("super::prove") || line.contains("proof::prove") {
            wrong.push(format!("{path}:{number}: uses what makes records"));
        }
    }
    wrong
}

#[test]
fn the_check_of_records_stands_on_its_own() {
    let sources = files("src/proof/recheck");
    assert!(sources.len() > 5);
    let wrong: Vec<String> = sources
        .iter()
        .flat_map(|(path, text)| wrong_independence(path, text))
        .collect();
    nothing(&wrong);
    let solver = "use crate::solve::Z3Solver;\n";
    assert_eq!(
        wrong_independence("src/proof/recheck/a.rs", solver).len(),
        1
    );
    let list = "use crate::logic::{\n    Formula, Scenario,\n};\n";
    assert_eq!(wrong_independence("src/proof/recheck/a.rs", list).len(), 1);
    assert_eq!(
        wrong_independence("src/proof/recheck/rules.rs", list).len(),
        3
    );
    let maker = "use super::super::prove;\nuse crate::proof::prove::x;\n";
    assert_eq!(wrong_independence("src/proof/recheck/a.rs", maker).len(), 2);
}

#[test]
fn crates_are_named_where_they_belong() {
    let sources = files("src");
    let sources = sources.iter().filter(|(path, _)| !is_for_tests(path));
    let wrong: Vec<String> = sources
        .flat_map(|(path, text)| wrong_crates(path, text))
        .collect();
    nothing(&wrong);
}

#[test]
fn every_file_says_why_it_exists() {
    let sources = ["src", "tests", "benches"].into_iter().flat_map(files);
    let wrong: Vec<String> = sources
        .filter(|(path, text)| path.ends_with(".rs") && !text.starts_with("//! "))
        .map(|(path, _)| format!("{path}: does not begin with `//!`"))
        .collect();
    nothing(&wrong);
}

#[test]
fn no_file_is_two_ideas() {
    let wrong: Vec<String> = files("src")
        .iter()
        .filter(|(path, _)| path.ends_with(".rs") && !is_for_tests(path))
        .map(|(path, text)| (path, without_tests(text).lines().count()))
        .filter(|(path, lines)| {
            let most = if *path == "src/main.rs" {
                MOST_LINES_OF_MAIN
            } else {
                MOST_LINES
            };
            *lines > most
        })
        .map(|(path, lines)| format!("{path}: {lines} lines"))
        .collect();
    nothing(&wrong);
}

#[test]
fn what_documents_name_is_there() {
    let mut wrong = Vec::new();
    for (path, text) in all_files().iter().filter(|(path, _)| path.ends_with(".md")) {
        let folder = root().join(path).parent().unwrap().to_owned();
        for named in named_paths(text) {
            if !root().join(&named).exists() && !folder.join(&named).exists() {
                wrong.push(format!("{path}: names {named}, which is not there"));
            }
        }
    }
    nothing(&wrong);
}

/// Every text that git keeps; without git, what the folders hold.
fn kept_files() -> Vec<(String, String)> {
    let listed = Command::new("git")
        .args(["ls-files", "-z"])
        .current_dir(root())
        .output();
    let names = match listed {
        Ok(output) if output.status.success() => String::from_utf8(output.stdout).unwrap(),
        _ => return all_files(),
    };
    let texts = names.split_terminator('\0').filter_map(|name| {
        let text = fs::read_to_string(root().join(name)).ok()?;
        Some((name.to_owned(), text))
    });
    texts.collect()
}

#[test]
fn no_file_speaks_of_somebodys_machine() {
    let mut wrong = Vec::new();
    for (path, text) in kept_files() {
        for (number, line) in text.lines().enumerate() {
            for banned in BANNED.iter().filter(|banned| line.contains(**banned)) {
                wrong.push(format!("{path}:{}: says {banned}", number + 1));
            }
        }
    }
    nothing(&wrong);
}

#[test]
fn every_dependency_carries_its_reason() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let dependencies = manifest.split("[dependencies]").nth(1).unwrap();
    let dependencies = dependencies.split("\n[").next().unwrap();
    let mut reasoned = false;
    let mut wrong = Vec::new();
    for line in dependencies.lines() {
        match line.trim() {
            "" => reasoned = false,
            line if line.starts_with('#') => reasoned = true,
            line if !reasoned => wrong.push(format!("Cargo.toml: no reason above `{line}`")),
            _ => {}
        }
    }
    nothing(&wrong);
}

#[test]
fn the_watch_itself_sees_what_it_should() {
    let back = "//! Head.\nuse crate::report::text;\n";
    assert_eq!(wrong_arrows("src/logic/a.rs", back).len(), 1);
    assert_eq!(wrong_arrows("src/cli/a.rs", back).len(), 0);
    assert_eq!(wrong_arrows("src/nowhere.rs", "").len(), 1);
    let list = "use crate::{model, cli};\nfn f() { crate::solve::x() }\n// crate::cli::no\n";
    let found: Vec<String> = used(list).into_iter().map(|(_, name)| name).collect();
    assert_eq!(found, ["model", "cli", "solve"]);
    let tests = "fn a() {}\n\n#[cfg(test)]\nmod tests {\n    use crate::cli::b;\n}\n";
    assert_eq!(used(tests), []);
    assert_eq!(wrong_crates("src/logic/a.rs", "use z3::Solver;\n").len(), 1);
    assert_eq!(
        wrong_crates("src/logic/a.rs", "pub use self::z3::Z3Solver;\n").len(),
        0
    );
    assert_eq!(
        named_paths("See `src/a.rs`, [b](docs/b.md#part) and evenhand check x.yaml."),
        ["src/a.rs", "docs/b.md", "docs/b.md"]
    );
}
