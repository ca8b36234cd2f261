//! The program as people and scripts call it: what it prints where, its exit code, files for it to
//! read.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "tests; each test file uses a part of this"
)]

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A call of the program in the folder of the repository, with nobody to ask.
pub(crate) fn evenhand(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_evenhand"));
    command
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("LC_ALL", "C.UTF-8")
        .env_remove("NO_COLOR")
        .stdin(Stdio::null());
    command
}

/// Runs the program; its exit code, standard output and standard error.
pub(crate) fn run(arguments: &[&str]) -> (i32, String, String) {
    finished(&evenhand(arguments).output().unwrap())
}

/// The same in a folder of its own.
pub(crate) fn run_in(folder: &Path, arguments: &[&str]) -> (i32, String, String) {
    finished(&evenhand(arguments).current_dir(folder).output().unwrap())
}

/// What a run came to: its exit code, standard output and standard error.
pub(crate) fn finished(output: &Output) -> (i32, String, String) {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    let code = output.status.code().unwrap();
    (code, text(&output.stdout), text(&output.stderr))
}

/// A file of this test in a folder of its own.
pub(crate) fn file(test: &str, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
    fs::create_dir_all(&folder).unwrap();
    let path = folder.join(name);
    fs::write(&path, bytes).unwrap();
    path
}

/// A path as it is typed.
pub(crate) fn shown(path: &Path) -> &str {
    path.to_str().unwrap()
}

/// A text that must be JSON.
pub(crate) fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

/// Holds a JSON output to the schema of its format.
pub(crate) fn keeps_to_schema(output: &Value) {
    let format = output["format"].as_str().unwrap();
    let name = format.trim_start_matches("evenhand/").replace('/', "-");
    let path = format!("{}/docs/schemas/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let schema = json(&fs::read_to_string(path).unwrap());
    let validator = jsonschema::validator_for(&schema).unwrap();
    let faults: Vec<String> = validator
        .iter_errors(output)
        .map(|fault| format!("{}: {fault}", fault.instance_path()))
        .collect();
    assert!(faults.is_empty(), "{faults:#?}");
}
