//! The rulesets of rulesets/ read a second time, by `serde_yaml`, which shares no code with `read/`.
//!
//! What both must agree on: the attributes, terms and dimensions by name and in order, and every
//! clause's id, title and wording to the letter.

#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a test says what went wrong by failing, and reads files"
)]

use evenhand::model::Origin;
use serde_yaml::Value;
use std::path::Path;

/// A text as the second reader has it; numbers keep the words only where they are quoted.
fn words(value: Option<&Value>) -> String {
    value.and_then(Value::as_str).unwrap_or_default().to_owned()
}

fn keys(root: &Value, section: &str) -> Vec<String> {
    let section = root.get(section).and_then(Value::as_mapping);
    let keys = section.into_iter().flat_map(|mapping| mapping.keys());
    keys.map(|key| key.as_str().unwrap().to_owned()).collect()
}

#[test]
fn both_readers_read_the_same() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("rulesets");
    let mut clauses_read = 0;
    for name in ["grappling", "grappling-draft", "throws", "ball"] {
        let text = std::fs::read_to_string(folder.join(format!("{name}.yaml"))).unwrap();
        let second: Value = serde_yaml::from_str(&text).unwrap();
        let ruleset = evenhand::load::load(name, text).unwrap().ruleset;

        assert_eq!(ruleset.title, words(second.get("ruleset")), "{name}");
        let stated = ruleset
            .attributes
            .iter()
            .filter(|it| it.origin == Origin::Stated);
        let attributes: Vec<String> = stated.map(|it| it.name.clone()).collect();
        assert_eq!(attributes, keys(&second, "attributes"), "{name}");
        let terms: Vec<String> = ruleset.terms.iter().map(|it| it.name.clone()).collect();
        assert_eq!(terms, keys(&second, "terms"), "{name}");
        let dimensions: Vec<String> = ruleset
            .dimensions
            .iter()
            .map(|it| it.name.clone())
            .collect();
        assert_eq!(dimensions, keys(&second, "rulings"), "{name}");

        let clauses = second.get("clauses").and_then(Value::as_sequence).unwrap();
        assert_eq!(ruleset.clauses.len(), clauses.len(), "{name}");
        for (ours, theirs) in ruleset.clauses.iter().zip(clauses) {
            let title = ours
                .title
                .as_ref()
                .map(ToString::to_string)
                .unwrap_or_default();
            let text = ours
                .text
                .as_ref()
                .map(ToString::to_string)
                .unwrap_or_default();
            assert_eq!(ours.id, words(theirs.get("id")), "{name}");
            assert_eq!(title, words(theirs.get("title")), "{name} {}", ours.id);
            assert_eq!(
                text.trim_end(),
                words(theirs.get("text")).trim_end(),
                "{name} {}",
                ours.id
            );
            clauses_read += 1;
        }
    }
    assert!(
        clauses_read > 150,
        "the rulesets have become small: {clauses_read} clauses"
    );
}
