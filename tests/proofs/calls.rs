//! `prove` and `recheck` as they are called: what is written where, and the exit codes.

use super::{LARGE_SUM, folder, program, root};
use std::fs;
use std::path::Path;

/// Runs the program in a folder; its exit code, and all that it says.
fn run(folder: &Path, arguments: &[&str]) -> (i32, String) {
    let (code, printed, beside) = program::run_in(folder, arguments);
    (code, printed + &beside)
}

#[test]
fn a_record_is_made_checked_damaged_and_refused() {
    let place = folder("calls");
    fs::copy(root().join("rulesets/ball.yaml"), place.join("ball.yaml")).unwrap();
    let (code, said) = run(&place, &["prove", "ball.yaml"]);
    assert_eq!(code, 0, "{said}");
    assert!(said.contains("proofs/ball:"), "{said}");
    assert!(
        said.lines().all(|line| line.chars().count() <= 80),
        "{said}"
    );
    // The ruleset is found where it stands beside the records.
    let (code, said) = run(&place, &["recheck", "proofs/ball"]);
    assert_eq!(code, 0, "{said}");
    assert!(
        said.contains("Everything that is recorded holds."),
        "{said}"
    );
    assert!(said.contains("Not recorded:"), "{said}");
    let (code, json) = run(
        &place,
        &["recheck", "proofs/ball", "ball.yaml", "--format", "json"],
    );
    assert_eq!(code, 0);
    let report: serde_json::Value = serde_json::from_str(&json).unwrap();
    let schema = fs::read_to_string(root().join("docs/schemas/recheck-1.json")).unwrap();
    let schema = serde_json::from_str(&schema).unwrap();
    jsonschema::validate(&schema, &report).unwrap();
    let manifest = fs::read_to_string(place.join("proofs/ball/manifest.json")).unwrap();
    let manifest = serde_json::from_str(&manifest).unwrap();
    let schema = fs::read_to_string(root().join("docs/schemas/proof-1.json")).unwrap();
    jsonschema::validate(&serde_json::from_str(&schema).unwrap(), &manifest).unwrap();
    // Made once more over the first one, to the byte, by however many threads.
    let file = place.join("proofs/ball/SHA256SUMS");
    let first = fs::read(&file).unwrap();
    assert_eq!(run(&place, &["prove", "ball.yaml", "--jobs", "1"]).0, 0);
    assert_eq!(fs::read(&file).unwrap(), first);

    let damaged = place.join("proofs/ball/gap-set.cnf");
    let text = fs::read_to_string(&damaged).unwrap();
    fs::write(&damaged, text.replace(" 0\n", " 1 0\n")).unwrap();
    let (code, said) = run(&place, &["recheck", "proofs/ball"]);
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("refused gap-set.cnf"), "{said}");
    fs::write(&damaged, [0xff, 0xfe, 0x00]).unwrap();
    assert_eq!(run(&place, &["recheck", "proofs/ball"]).0, 1);
    // Another text of the ruleset.
    fs::write(&damaged, text).unwrap();
    let rules = fs::read_to_string(place.join("ball.yaml")).unwrap();
    fs::write(place.join("ball.yaml"), rules + "\n").unwrap();
    let (code, said) = run(&place, &["recheck", "proofs/ball"]);
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("another text of the ruleset"), "{said}");
}

#[test]
fn what_cannot_be_used_is_said_and_left_alone() {
    let place = folder("unusable");
    let (code, said) = run(&place, &["recheck", "nowhere"]);
    assert_eq!(
        (code, said.contains("there is no such file")),
        (2, true),
        "{said}"
    );
    fs::write(place.join("rules.yaml"), "ruleset: Nothing\n").unwrap();
    let (code, said) = run(&place, &["prove", "rules.yaml"]);
    assert_eq!(
        (code, said.contains("no `attributes`")),
        (2, true),
        "{said}"
    );
    assert!(!place.join("proofs").exists());
    // A folder with something else in it is not written into.
    fs::copy(root().join("rulesets/ball.yaml"), place.join("ball.yaml")).unwrap();
    fs::create_dir(place.join("letters")).unwrap();
    fs::write(place.join("letters/a.txt"), "dear").unwrap();
    let (code, said) = run(&place, &["prove", "ball.yaml", "--output", "letters"]);
    assert_eq!(
        (code, said.contains("was left as it is")),
        (2, true),
        "{said}"
    );
    let (code, said) = run(&place, &["recheck", "letters", "ball.yaml"]);
    assert_eq!((code, said.contains("is no record")), (2, true), "{said}");
    // A record whose ruleset is nowhere to be found.
    assert_eq!(
        run(
            &place,
            &["prove", "ball.yaml", "--output", "deep/er/record"]
        )
        .0,
        0
    );
    fs::remove_file(place.join("ball.yaml")).unwrap();
    let (code, said) = run(&place, &["recheck", "deep/er/record"]);
    assert_eq!((code, said.contains("is not found")), (2, true), "{said}");
}

#[test]
fn what_rests_on_a_solver_or_stayed_open_has_an_exit_code_of_its_own() {
    let place = folder("trust");
    fs::write(place.join("long.yaml"), LARGE_SUM).unwrap();
    let (code, said) = run(&place, &["prove", "long.yaml"]);
    assert_eq!(code, 0, "{said}");
    assert!(said.contains("on the word of solvers"), "{said}");
    let (code, said) = run(&place, &["recheck", "proofs/long"]);
    assert_eq!(code, 3, "{said}");
    assert!(said.contains("answered by Z3"), "{said}");
    let (code, said) = run(&place, &["prove", "long.yaml", "--seconds", "0.001"]);
    assert_eq!(code, 3, "{said}");
    assert!(said.contains("open "), "{said}");
    let (code, said) = run(&place, &["recheck", "proofs/long"]);
    assert!(matches!(code, 0 | 3), "{said}");
    assert!(said.contains("(undecided)"), "{said}");
}
