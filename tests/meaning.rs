//! What is said of a file that has something wrong in it, word for word, as data: each `NAME.yaml`
//! stands beside a `NAME.expect` that lists its problems, in order. The files of `tests/meaning` can
//! be read and break a rule of meaning; those of `tests/advice` are what people write at first, and
//! show that they are told what to write instead:
//!
//! ```text
//! LINE:COLUMN 'the underlined words' the headline
//!     what is said under the words
//!     LINE:COLUMN 'other words' what is said under them
//!     help: what to write instead
//! ```
//!
//! A warning says so before its headline.

#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test reads the files that it is about"
)]

use evenhand::load::load;
use evenhand::problem::{Gravity, Problem};
use evenhand::source::{Sources, Span};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests")
        .join(name)
}

fn shown(sources: &Sources, problem: &Problem) -> String {
    let at = |span: Span| {
        let words = sources.slice(span);
        let words: Vec<&str> = words.split_whitespace().collect();
        assert!(!words.is_empty(), "`{}` underlines words", problem.headline);
        format!("{} '{}'", sources.place(span).position, words.join(" "))
    };
    let warning = match problem.gravity {
        Gravity::Error => "",
        Gravity::Warning => "warning: ",
    };
    let mut lines = vec![
        format!("{} {warning}{}", at(problem.span), problem.headline),
        format!("    {}", problem.label),
    ];
    let others = problem.others.iter();
    lines.extend(others.map(|(span, words)| format!("    {} {words}", at(*span))));
    lines.extend(problem.help.iter().map(|help| format!("    help: {help}")));
    lines.join("\n") + "\n"
}

#[test]
fn every_file_with_a_wrong_meaning_has_the_problems_that_stand_beside_it() {
    compare(&folder("meaning"));
}

#[test]
fn what_people_write_at_first_is_answered_by_what_to_write() {
    compare(&folder("advice"));
}

fn compare(folder: &Path) {
    let files = fs::read_dir(folder).unwrap();
    let names: BTreeSet<String> = files
        .map(|file| file.unwrap().path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "yaml")
        })
        .map(|path| path.file_stem().unwrap().to_str().unwrap().to_owned())
        .collect();
    assert!(!names.is_empty());
    let mut wrong = Vec::new();
    for name in names {
        let text = fs::read_to_string(folder.join(format!("{name}.yaml"))).unwrap();
        let expect = fs::read_to_string(folder.join(format!("{name}.expect"))).unwrap_or_default();
        let (sources, problems) = match load(format!("{name}.yaml"), text) {
            Ok(loaded) => (loaded.ruleset.sources, loaded.warnings),
            Err(refused) => (refused.sources, refused.problems),
        };
        let found: String = problems
            .iter()
            .map(|problem| shown(&sources, problem))
            .collect();
        if found != expect {
            wrong.push(format!(
                "--- {name}, expected\n{expect}--- {name}, found\n{found}"
            ));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.concat());
}
