//! The tour of `README.md` is true: its commands are run, its edits made, and what it shows compared.
//!
//! A block fenced as `console` holds commands behind `$ ` and what they print; a line `[...]` stands
//! for lines left out. A block fenced as `diff FILE` is made in that file: lines behind `-` go, those
//! behind `+` take their place. Commands of other programs are not run.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test runs the program and reads what it has written"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A fenced block: what stands behind the fence, and its lines.
fn blocks(text: &str) -> Vec<(String, Vec<String>)> {
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    let mut open = false;
    for line in text.lines() {
        if let Some(info) = line.strip_prefix("```") {
            open = !open;
            if open {
                found.push((info.trim().to_owned(), Vec::new()));
            }
        } else if open {
            found.last_mut().unwrap().1.push(line.to_owned());
        }
    }
    found
}

/// The commands of a block, each with what it prints.
fn commands(lines: &[String]) -> Vec<(String, Vec<String>)> {
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for line in lines {
        match line.strip_prefix("$ ") {
            Some(command) => found.push((command.to_owned(), Vec::new())),
            None => found.last_mut().unwrap().1.push(line.clone()),
        }
    }
    found
}

/// The words of a command; what stands in double quotes is one.
fn words(arguments: &str) -> Vec<&str> {
    let pieces = arguments.split('"').enumerate();
    let words = pieces.flat_map(|(index, piece)| match index % 2 {
        0 => piece.split_whitespace().collect::<Vec<_>>(),
        _ => vec![piece],
    });
    words.collect()
}

/// Whether lines are as expected, where `[...]` stands for any number of them.
fn fits(expected: &[String], lines: &[String]) -> bool {
    match expected.split_first() {
        None => lines.is_empty(),
        Some((first, rest)) if first == "[...]" => {
            (0..=lines.len()).any(|skipped| fits(rest, &lines[skipped..]))
        }
        Some((first, rest)) => lines
            .split_first()
            .is_some_and(|(line, others)| line == first && fits(rest, others)),
    }
}

fn folder() -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("readme");
    if folder.exists() {
        fs::remove_dir_all(&folder).unwrap();
    }
    fs::create_dir_all(folder.join("rulesets")).unwrap();
    let rulesets = Path::new(env!("CARGO_MANIFEST_DIR")).join("rulesets");
    for entry in fs::read_dir(rulesets).unwrap().map(Result::unwrap) {
        fs::copy(
            entry.path(),
            folder.join("rulesets").join(entry.file_name()),
        )
        .unwrap();
    }
    folder
}

fn edit(folder: &Path, name: &str, lines: &[String]) {
    let side = |sign: char, other: char| -> String {
        let kept = lines.iter().filter(|line| !line.starts_with(other));
        let kept: Vec<String> = kept.map(|line| line.replacen([sign, ' '], "", 1)).collect();
        kept.join("\n") + "\n"
    };
    let (before, after) = (side('-', '+'), side('+', '-'));
    let path = folder.join(name);
    let text = fs::read_to_string(&path).unwrap();
    assert_eq!(
        text.matches(&before).count(),
        1,
        "{name} has no such lines:\n{before}"
    );
    fs::write(&path, text.replace(&before, &after)).unwrap();
}

#[test]
fn the_tour_of_the_readme_is_true() {
    let readme = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let readme = fs::read_to_string(readme).unwrap();
    let folder = folder();
    let mut compared = 0;
    for (info, lines) in blocks(&readme) {
        if let Some(name) = info.strip_prefix("diff ") {
            edit(&folder, name, &lines);
        }
        if info != "console" {
            continue;
        }
        for (command, expected) in commands(&lines) {
            let Some(arguments) = command.strip_prefix("evenhand ") else {
                continue;
            };
            let run = Command::new(env!("CARGO_BIN_EXE_evenhand"))
                .args(words(arguments))
                .current_dir(&folder)
                .env("LC_ALL", "C.UTF-8")
                .output()
                .unwrap();
            assert!(
                run.stderr.is_empty(),
                "{command}: {}",
                String::from_utf8_lossy(&run.stderr)
            );
            if expected.is_empty() {
                continue;
            }
            let printed = String::from_utf8(run.stdout).unwrap();
            let lines: Vec<String> = printed.lines().map(str::to_owned).collect();
            assert!(
                fits(&expected, &lines),
                "README.md says of `{command}`:\n{}\n\nbut it prints:\n{printed}",
                expected.join("\n")
            );
            compared += 1;
        }
    }
    assert!(compared >= 5, "{compared} outputs were compared");
}

#[test]
fn lines_left_out_are_any_lines() {
    let lines = |words: &str| words.split(' ').map(str::to_owned).collect::<Vec<_>>();
    assert!(fits(&lines("a [...] d"), &lines("a b c d")));
    assert!(fits(&lines("a [...]"), &lines("a")));
    assert!(!fits(&lines("a [...] d"), &lines("a b c")));
    assert!(!fits(&lines("a"), &lines("a b")));
}
