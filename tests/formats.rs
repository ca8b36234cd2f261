//! Findings as data for others: SARIF that keeps to its schema and points at the right words, Markdown,
//! and tables that no spreadsheet takes for formulas.
//!
//! The schema in `tests/sarif/` is that of OASIS for SARIF 2.1.0, as its technical committee publishes it.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test reads the files that it is about"
)]

use evenhand::analysis::{Checked, Options, check};
use evenhand::load::{Loaded, load};
use evenhand::report::{markdown, sarif, table};
use serde_json::Value;
use std::fs;
use std::path::Path;

fn text(path: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap()
}

fn loaded(path: &str) -> (Loaded, Checked) {
    let Ok(loaded) = load(path, text(path)) else {
        panic!("{path} can't be used");
    };
    let checked = check(&loaded.ruleset, &Options::default());
    (loaded, checked)
}

const RULESETS: [&str; 3] = [
    "rulesets/grappling-draft.yaml",
    "rulesets/ball.yaml",
    "tests/browser/hostile.yaml",
];

fn keeps_to_schema(log: &str) -> Value {
    let schema = text("tests/sarif/sarif-schema-2.1.0.json");
    let mut schema: Value = serde_json::from_str(&schema).unwrap();
    // The published pattern of a language has a bracket too many and is no regular expression.
    for of in ["run", "toolComponent"] {
        let language = &mut schema["definitions"][of]["properties"]["language"];
        let pattern = language.as_object_mut().unwrap().remove("pattern");
        assert!(pattern.is_some(), "{of}");
    }
    let log: Value = serde_json::from_str(log).unwrap();
    let validator = jsonschema::draft7::options()
        .should_validate_formats(true)
        .build(&schema)
        .unwrap();
    let wrong: Vec<String> = validator
        .iter_errors(&log)
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    log
}

/// The words of a region, by its numbers alone: lines and characters counted from one, the end just
/// behind the last character.
fn words(text: &str, region: &Value) -> String {
    let number = |key: &str| usize::try_from(region[key].as_u64().unwrap()).unwrap();
    let lines: Vec<&str> = text.split('\n').collect();
    let (first, last) = (number("startLine"), number("endLine"));
    let mut words = String::new();
    for at in first..=last {
        let letters: Vec<char> = lines[at - 1].chars().collect();
        let from = if at == first {
            number("startColumn") - 1
        } else {
            0
        };
        let to = if at == last {
            number("endColumn") - 1
        } else {
            letters.len()
        };
        words.extend(&letters[from..to]);
        if at < last {
            words.push('\n');
        }
    }
    words
}

#[test]
fn sarif_keeps_to_its_schema_and_its_regions_are_right() {
    let mut regions = 0;
    for path in RULESETS {
        let (loaded, checked) = loaded(path);
        let log = sarif::checked(&loaded.ruleset, &loaded.warnings, &checked).unwrap();
        let log = keeps_to_schema(&log);
        let results = log["runs"][0]["results"].as_array().unwrap();
        assert_eq!(results.len(), checked.findings.len(), "{path}");
        let text = text(path);
        for (result, finding) in results.iter().zip(&checked.findings) {
            let rule = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
            let id = &log["runs"][0]["tool"]["driver"]["rules"][rule]["id"];
            assert_eq!(*id, result["ruleId"]);
            assert_eq!(result["ruleId"], finding.kind.word());
            assert_eq!(
                result["suppressions"].is_array(),
                finding.accepted.is_some()
            );
            let places = [&result["locations"], &result["relatedLocations"]];
            let places = places.into_iter().filter_map(Value::as_array).flatten();
            let places: Vec<&Value> = places.collect();
            assert_eq!(places.len(), finding.labels.len(), "{path}");
            for (place, (span, _)) in places.iter().zip(&finding.labels) {
                let region = &place["physicalLocation"]["region"];
                let slice = loaded.ruleset.sources.slice(*span);
                assert_eq!(words(&text, region), slice);
                assert_eq!(region["snippet"]["text"], slice);
                regions += 1;
            }
        }
    }
    assert!(regions > 50, "{regions}");
}

#[test]
fn what_cannot_be_used_is_told_in_sarif_too() {
    let Err(refused) = load("böse datei.yaml", "ruleset: [\n") else {
        panic!("a broken file was taken");
    };
    let log = keeps_to_schema(&sarif::problems(&refused.sources, &refused.problems).unwrap());
    let run = &log["runs"][0];
    assert_eq!(run["invocations"][0]["executionSuccessful"], false);
    assert_eq!(
        run["artifacts"][0]["location"]["uri"],
        "b%C3%B6se%20datei.yaml"
    );
    let notes = &run["invocations"][0]["toolConfigurationNotifications"];
    assert_eq!(notes.as_array().unwrap().len(), refused.problems.len());
    keeps_to_schema(&sarif::unreadable("/no/such", "there is no such file").unwrap());
}

#[test]
fn a_table_has_a_row_for_each_finding_and_no_formula() {
    for path in RULESETS {
        let (loaded, checked) = loaded(path);
        let text = table::checked(&loaded.ruleset, &checked).unwrap();
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let columns = reader.headers().unwrap().len();
        let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
        assert_eq!(rows.len(), checked.findings.len());
        let (accepted, open): (Vec<_>, Vec<_>) = checked
            .findings
            .iter()
            .partition(|finding| finding.accepted.is_some());
        for (row, finding) in rows.iter().zip(open.into_iter().chain(accepted)) {
            assert_eq!(row.len(), columns);
            assert_eq!(&row[2], finding.kind.word());
            assert!(row[3].ends_with(finding.headline.as_str()));
            let cautioned = row[19].contains("officials and the rules in force");
            assert_eq!(cautioned, !row[9].is_empty(), "{row:?}");
            let formula = |cell: &str| cell.starts_with(['=', '+', '-', '@']);
            assert!(!row.iter().any(formula), "{row:?}");
        }
    }
}

#[test]
fn markdown_tells_every_finding_and_no_text_becomes_markup() {
    for path in RULESETS {
        let (loaded, checked) = loaded(path);
        let page = markdown::checked(&loaded.ruleset, &checked);
        let entries = page.lines().filter(|line| line.starts_with("### ")).count();
        assert_eq!(entries, checked.findings.len(), "{path}");
        assert!(page.contains("officials and the rules in force"));
        let bare = page
            .char_indices()
            .filter(|(_, letter)| *letter == '<')
            .any(|(at, _)| {
                !page[..at].ends_with('\\') && page[..at].matches('`').count().is_multiple_of(2)
            });
        assert!(!bare, "{path}");
    }
}
