//! Published JSON Schemas are those of the types that are printed.
//!
//! Renew them with `RENEW=1 cargo test --test schemas`, and look at what has changed: whatever a
//! program that reads the output could notice needs a new format number.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test reads the files that it is about"
)]

use std::fs;
use std::path::Path;

#[test]
fn committed_schemas_are_the_generated_ones() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/schemas");
    let schemas = evenhand::report::json::schemas().unwrap();
    let mut expected: Vec<&str> = Vec::new();
    for (name, schema) in &schemas {
        let path = folder.join(name);
        if std::env::var_os("RENEW").is_some() {
            fs::write(&path, schema).unwrap();
        }
        let committed = fs::read_to_string(&path).unwrap_or_default();
        assert!(
            committed == *schema,
            "docs/schemas/{name} is not what the types say"
        );
        expected.push(name);
    }
    let mut there: Vec<String> = fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    there.sort();
    expected.sort_unstable();
    assert_eq!(there, expected);
}

#[test]
fn schemas_are_of_the_2020_draft_and_sound() {
    for (name, schema) in evenhand::report::json::schemas().unwrap() {
        let schema: serde_json::Value = serde_json::from_str(&schema).unwrap();
        assert_eq!(
            schema["$schema"], "https://json-schema.org/draft/2020-12/schema",
            "{name}"
        );
        jsonschema::meta::validate(&schema).unwrap();
        assert!(
            !jsonschema::is_valid(&schema, &serde_json::json!({})),
            "{name}"
        );
    }
}
