//! What is wrong with a file, as data: each `NAME.yaml` in `tests/language` stands beside a
//! `NAME.expect` that lists its problems, a line each and in order:
//!
//! ```text
//! LINE:COLUMN 'the underlined words' the headline
//! ```
//!
//! Line ends in the underlined words are written as spaces, tabs as `\t`; a place at the end of a
//! line may have no words. An empty `.expect` says that the file is right.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test that reads its data from files"
)]

use evenhand::problem::Problem;
use evenhand::read;
use evenhand::source::{Source, Sources};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Every problem of a ruleset file, in the order of places.
fn problems_of(text: &str) -> Vec<Problem> {
    let source = Source::new("file.yaml", text);
    let mut sources = Sources::default();
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let draft = read::ruleset(&source, id, &mut problems);
    assert!(
        draft.is_some() || !problems.is_empty(),
        "a file without a draft has a problem"
    );
    problems
}

/// A problem as a line of an `.expect` file. The place is counted here, by a plain loop over the
/// text, so that it cannot be wrong in the way in which the program's own count might be.
fn line_of(text: &str, problem: &Problem) -> String {
    let (start, end) = (problem.span.start as usize, problem.span.end as usize);
    assert!(
        start <= end && end <= text.len(),
        "the place of `{}` lies in the file",
        problem.headline
    );
    assert!(
        text.is_char_boundary(start) && text.is_char_boundary(end),
        "the place of `{}` cuts no character",
        problem.headline
    );
    let words = &text[start..end];
    let at_line_end = text[end..].starts_with(['\n', '\r']) || end == text.len();
    assert!(
        !words.is_empty() || at_line_end || start == 0,
        "`{}` underlines something",
        problem.headline
    );
    let tabs = words.contains('\t') && words.trim().is_empty();
    assert!(
        words.trim() == words || tabs,
        "`{}` underlines words, no blanks around them: `{words}`",
        problem.headline
    );
    let (mut line, mut column) = (1, 1);
    for character in text[..start].chars() {
        if character == '\n' {
            line += 1;
            column = 1;
        } else {
            column += 1;
        }
    }
    let words = if tabs {
        words.replace('\t', "\\t")
    } else {
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    format!("{line}:{column} '{words}' {}", problem.headline)
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/language")
}

#[test]
fn every_file_has_the_problems_that_stand_beside_it() {
    let mut names = BTreeSet::new();
    for entry in std::fs::read_dir(folder()).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        names.insert(name);
    }
    assert!(!names.is_empty());
    let mut wrong = Vec::new();
    for name in names {
        let text = std::fs::read_to_string(folder().join(format!("{name}.yaml"))).unwrap();
        let expect = std::fs::read_to_string(folder().join(format!("{name}.expect")))
            .unwrap_or_else(|_| panic!("{name}.expect stands beside {name}.yaml"));
        let found: String = problems_of(&text)
            .iter()
            .map(|problem| line_of(&text, problem) + "\n")
            .collect();
        if found != expect {
            wrong.push(format!(
                "--- {name}, expected\n{expect}--- {name}, found\n{found}"
            ));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.concat());
}
