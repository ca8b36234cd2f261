//! Records of verdicts: that there is one for each, that they hold, and that they can be made again to the
//! byte.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stderr,
    clippy::disallowed_methods,
    clippy::case_sensitive_file_extension_comparisons,
    clippy::format_collect,
    missing_docs,
    reason = "a test says what went wrong by failing, reads files, and says what it skips"
)]

mod calls;
mod damage;
#[path = "../common/program.rs"]
mod program;
#[path = "../support/mod.rs"]
mod support;
mod translation;

use evenhand::analysis::{KINDS, Options};
use evenhand::load::load;
use evenhand::model::{Kind, Ruleset};
use evenhand::proof::prove::{Prover, Recorded};
use evenhand::proof::recheck::{Report, recheck};
use evenhand::proof::{ClaimVerdict, Files, Manifest, Method, SUMS, digest};
use evenhand::report::caution::caution;
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use support::random_ruleset;

/// The rulesets of the repository that have a record in it.
const RECORDED: &[&str] = &["ball", "grappling", "throws"];

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A ruleset with the fingerprint of its text.
fn loaded(name: &str, text: &str) -> Option<(Ruleset, String)> {
    let ruleset = load(name, text).ok()?.ruleset;
    Some((ruleset, digest(text.as_bytes())))
}

fn of_repository(name: &str) -> (Ruleset, String) {
    let text = fs::read_to_string(root().join(format!("rulesets/{name}.yaml"))).unwrap();
    loaded(name, &text).unwrap()
}

fn record(file: &str, ruleset: &Ruleset, fingerprint: &str) -> Recorded {
    let prover = Prover {
        ruleset,
        file: file.to_owned(),
        fingerprint: fingerprint.to_owned(),
        caution: caution(ruleset),
        second: &|_| None,
    };
    prover.record(&Options::default()).unwrap()
}

fn rechecked(ruleset: &Ruleset, fingerprint: &str, files: &Files) -> Report {
    recheck(ruleset, fingerprint, files).unwrap()
}

/// The record of a ruleset, which must hold.
fn good_record(name: &str, text: &str) -> (Ruleset, String, Recorded) {
    let (ruleset, fingerprint) = loaded(name, text).unwrap();
    let recorded = record(name, &ruleset, &fingerprint);
    let report = rechecked(&ruleset, &fingerprint, &recorded.files);
    assert_eq!(report.refused, [], "{text}");
    (ruleset, fingerprint, recorded)
}

/// Files once more under fingerprints that fit them: what somebody does who alters a record with care.
fn resealed(files: &Files) -> Files {
    let mut files = files.clone();
    let text = files.get("manifest.json").unwrap();
    let mut manifest: Manifest = serde_json::from_str(text).unwrap();
    let sum = |name: &str| files.get(name).map(|text| digest(text.as_bytes()));
    for claim in &mut manifest.claims {
        let mut records: Vec<&mut evenhand::proof::FileRecord> = Vec::new();
        records.extend(claim.scenarios.as_mut());
        records.extend(claim.smtlib.as_mut());
        for question in &mut claim.none {
            if let Method::Clauses {
                clauses,
                words,
                refutation,
            } = &mut question.by
            {
                records.extend([clauses, words, refutation]);
            }
        }
        for record in records {
            if let Some(sum) = sum(&record.file) {
                record.sha256 = sum;
            }
        }
    }
    let text = serde_json::to_string_pretty(&manifest).unwrap() + "\n";
    files.insert("manifest.json".to_owned(), text);
    let others = files.iter().filter(|(name, _)| *name != SUMS);
    let lines = others.map(|(name, text)| format!("{}  {name}\n", digest(text.as_bytes())));
    let lines: String = lines.collect();
    files.insert(SUMS.to_owned(), lines);
    files
}

/// The record of a ruleset of the repository: it holds, nothing is taken on trust, and whatever the check
/// tells of is claimed or said to have no record.
fn whole_record(name: &str) -> (Ruleset, String, Files) {
    let (ruleset, fingerprint) = of_repository(name);
    let recorded = record(&format!("{name}.yaml"), &ruleset, &fingerprint);
    assert_eq!(recorded.open, [] as [String; 0], "{name}");
    let report = rechecked(&ruleset, &fingerprint, &recorded.files);
    assert_eq!(report.refused, [], "{name}");
    assert_eq!(report.trusted, [] as [String; 0], "{name}");
    assert_eq!(report.holds.len(), recorded.manifest.claims.len(), "{name}");
    let claimed = |kind: &Kind| {
        let mut claims = recorded.manifest.claims.iter();
        claims.any(|it| it.kind == kind.word())
    };
    let of_text = [Kind::StepEdge, Kind::Unused, Kind::Wording];
    for kind in KINDS {
        let said = recorded.manifest.not_recorded.iter();
        let mut said = said.filter(|it| it.kind == kind.word());
        assert_ne!(claimed(kind), said.next().is_some(), "{name}, {kind}");
        assert_eq!(claimed(kind), !of_text.contains(kind), "{name}, {kind}");
    }
    let faults = recorded.manifest.claims.iter();
    let faults = faults.filter(|claim| {
        let kind = Kind::from_word(&claim.kind);
        claim.verdict == ClaimVerdict::Found
            && kind.is_some_and(|kind| kind.severity() == evenhand::model::Severity::Fault)
    });
    assert_eq!(faults.count() > 0, name == "grappling-draft", "{name}");
    (ruleset, fingerprint, recorded.files)
}

#[test]
fn every_verdict_of_a_draft_with_faults_has_a_record_that_holds() {
    whole_record("grappling-draft");
}

/// What cvc5 answers to each question of a text; `None` where it isn't installed.
fn cvc5(path: &Path) -> Option<Vec<String>> {
    let output = Command::new("cvc5")
        // Where it takes longer than this for one question, it says that it does not know.
        .args(["--incremental", "--lang", "smt2", "--tlimit-per=30000"])
        .arg(path)
        .output()
        .ok()?;
    let words = String::from_utf8_lossy(&output.stdout).into_owned();
    Some(words.lines().map(str::to_owned).collect())
}

/// A folder of this test, empty.
fn folder(test: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"))
        .join("proofs")
        .join(test);
    if folder.exists() {
        fs::remove_dir_all(&folder).unwrap();
    }
    fs::create_dir_all(&folder).unwrap();
    folder
}

/// Asks cvc5 every question of a record; how many there were, unless it isn't installed.
fn second_solver_agrees(name: &str, files: &Files) -> Option<usize> {
    let folder = folder(name);
    let mut asked = 0;
    for (file, text) in files.iter().filter(|(file, _)| file.ends_with(".smt2")) {
        let path = folder.join(file);
        fs::write(&path, text).unwrap();
        let expected: Vec<&str> = text
            .lines()
            .filter_map(|line| line.strip_prefix("(set-info :status "))
            .map(|status| status.trim_end_matches(')'))
            .collect();
        assert!(!expected.is_empty(), "{name}/{file}");
        let Some(answers) = cvc5(&path) else {
            eprintln!("skipped: cvc5 is not installed");
            return None;
        };
        assert_eq!(answers, expected, "{name}/{file}");
        asked += answers.len();
    }
    Some(asked)
}

/// What the repository has recorded of a ruleset.
fn kept_record(name: &str) -> Files {
    let folder = root().join("proofs").join(name);
    let mut files = Files::new();
    for entry in fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        let file = path.file_name().unwrap().to_str().unwrap().to_owned();
        files.insert(file, fs::read_to_string(&path).unwrap());
    }
    files
}

#[test]
fn a_second_solver_agrees_on_every_claim_of_the_rulesets() {
    for name in RECORDED {
        if let Some(asked) = second_solver_agrees(name, &kept_record(name)) {
            assert!(asked >= 80, "{name}: {asked}");
        }
    }
}

#[test]
fn the_records_of_the_repository_hold_and_come_out_the_same() {
    for name in RECORDED {
        let kept = kept_record(name);
        let (ruleset, fingerprint, again) = whole_record(name);
        for (file, text) in &again {
            assert!(
                kept.get(file) == Some(text),
                "proofs/{name}/{file} is out of date: make proofs"
            );
        }
        assert_eq!(kept.len(), again.len(), "{name}");
        let report = rechecked(&ruleset, &fingerprint, &kept);
        assert_eq!(report.refused, [], "{name}");
    }
}

/// What a verdict is about: its kind, a dimension, a principle.
type About<'a> = (&'a str, Option<String>, Option<String>);

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn random_rulesets_have_records_that_hold(yaml in random_ruleset::yaml()) {
        let Some((ruleset, fingerprint)) = loaded("random.yaml", &yaml) else { return Ok(()) };
        let budget = evenhand::solve::Budget::unlimited();
        if evenhand::analysis::no_scenario(&ruleset, &budget).is_some() {
            return Ok(());
        }
        let recorded = record("random.yaml", &ruleset, &fingerprint);
        prop_assert_eq!(&recorded.open, &Vec::<String>::new());
        let report = rechecked(&ruleset, &fingerprint, &recorded.files);
        prop_assert_eq!(&report.refused, &[], "{}", yaml);
        prop_assert_eq!(report.holds.len(), recorded.manifest.claims.len());
        // The record and the check say the same.
        let checked = evenhand::analysis::check(&ruleset, &Options::default());
        let said: BTreeMap<About<'_>, ClaimVerdict> = recorded
            .manifest
            .claims
            .iter()
            .map(|claim| {
                let about = (claim.kind.as_str(), claim.dimension.clone(), claim.principle.clone());
                (about, claim.verdict)
            })
            .collect();
        for verdict in &checked.verdicts {
            let dimension = verdict.dimension.map(|it| ruleset[it].name.clone());
            let about = (verdict.kind.word(), dimension, verdict.principle.clone());
            let of_text = [Kind::StepEdge, Kind::Unused, Kind::Wording];
            let said = said.get(&about).map(|it| *it == ClaimVerdict::Proved);
            let proved = verdict.outcome == evenhand::analysis::Outcome::Proved;
            let expected = (!of_text.contains(&verdict.kind)).then_some(proved);
            prop_assert_eq!(said, expected, "{:?}\n{}", about, yaml);
        }
    }
}

proptest! {
    #![proptest_config(cases(6))]

    #[test]
    fn a_second_solver_agrees_on_random_claims(yaml in random_ruleset::yaml()) {
        let Some((ruleset, fingerprint)) = loaded("random.yaml", &yaml) else { return Ok(()) };
        let budget = evenhand::solve::Budget::unlimited();
        if evenhand::analysis::no_scenario(&ruleset, &budget).is_none() {
            let recorded = record("random.yaml", &ruleset, &fingerprint);
            second_solver_agrees("random", &recorded.files);
        }
    }
}

/// Three numbers in one sum: too many choices for clauses.
const LARGE_SUM: &str = "\
ruleset: Long times
attributes:
  first:
    number: 0 to 120
  second:
    number: 0 to 120
  third:
    number: 0 to 120
rulings:
  penalty:
    scale: [none, caution]
clauses:
  - id: \"1\"
    when: first + second + third at least 20
    ruling: {penalty: caution}
  - id: \"2\"
    when: first + second + third less than 20
    ruling: {penalty: none}
";

#[test]
fn what_has_no_clauses_rests_on_solvers_and_is_said_to() {
    let (ruleset, fingerprint, recorded) = good_record("long.yaml", LARGE_SUM);
    let report = rechecked(&ruleset, &fingerprint, &recorded.files);
    assert!(!report.trusted.is_empty());
    assert!(
        report
            .trusted
            .iter()
            .all(|words| words.contains("answered by Z3"))
    );
    // With fewer steps there are clauses, and nothing is taken on trust.
    let short = LARGE_SUM.replace("0 to 120", "0 to 12");
    let (ruleset, fingerprint, recorded) = good_record("short.yaml", &short);
    let report = rechecked(&ruleset, &fingerprint, &recorded.files);
    assert_eq!(report.trusted, [] as [String; 0]);
    // A second solver that is there is named; one that answers otherwise is a fault.
    let (ruleset, fingerprint) = loaded("long.yaml", LARGE_SUM).unwrap();
    let with = |none: bool| {
        Prover {
            ruleset: &ruleset,
            file: "long.yaml".to_owned(),
            fingerprint: fingerprint.clone(),
            caution: Vec::new(),
            second: &|script| {
                assert!(script.contains("(check-sat)"));
                Some(("another 1.0".to_owned(), none))
            },
        }
        .record(&Options::default())
    };
    let manifest = with(true).unwrap().files.remove("manifest.json").unwrap();
    assert!(manifest.contains("another 1.0"));
    assert!(
        with(false)
            .unwrap_err()
            .0
            .contains("does not agree with itself")
    );
}
