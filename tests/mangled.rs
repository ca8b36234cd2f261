//! Files that were mangled are refused or read, never a reason to fall over.

#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test reads the files that it is about"
)]

use evenhand::load::load;
use evenhand::problem::Gravity;
use proptest::prelude::*;
use std::fs;
use std::path::Path;

/// Words that stand in many places of a ruleset, to be put where they do not belong.
const WORDS: &[&str] = &[
    "always",
    "not",
    "is",
    "phase",
    "penalty",
    "99999999999999999999",
    "-0.1",
    "0",
    "[]",
    "{}",
    "every other clause",
    "'5'",
    "at least",
    "none",
    "(",
    "is same as",
    "2 *",
    "ground, ground",
];

fn texts() -> Vec<String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    [
        "tests/language/whole.yaml",
        "rulesets/ball.yaml",
        "rulesets/throws.yaml",
    ]
    .iter()
    .map(|name| fs::read_to_string(root.join(name)).unwrap())
    .collect()
}

/// What is done to a text: words of it are dropped, doubled, exchanged or replaced.
fn mangled(text: &str, slips: &[(usize, usize, usize)]) -> String {
    let mut words: Vec<&str> = text.split_inclusive([' ', ',', '\n', ']', ')']).collect();
    for (kind, at, other) in slips {
        let (at, other) = (at % words.len(), other % words.len());
        match kind % 4 {
            0 => words[at] = "",
            1 => words.swap(at, other),
            2 => words[at] = words[other],
            _ => words[at] = WORDS[other % WORDS.len()],
        }
    }
    words.concat()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_mangled_file_is_refused_with_places_or_read(
        which in 0..3usize,
        slips in prop::collection::vec((0..4usize, 0..100_000usize, 0..100_000usize), 1..6),
    ) {
        let text = mangled(&texts()[which], &slips);
        match load("mangled.yaml", text.clone()) {
            Ok(loaded) => prop_assert!(loaded.warnings.iter().all(|it| it.gravity == Gravity::Warning)),
            Err(refused) => {
                prop_assert!(refused.problems.iter().any(|it| it.gravity == Gravity::Error));
                for problem in &refused.problems {
                    let end = problem.span.end as usize;
                    prop_assert!(end <= text.len() && text.is_char_boundary(end), "{}", problem.headline);
                }
            }
        }
    }
}
