//! Ctrl-C, once and once more.
#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a test makes files and runs programs"
)]

use std::fs;
use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Child, Command, Stdio};

/// So many attributes that nothing uses that the report is longer than a pipe holds: the program
/// cannot end before somebody reads it.
fn long_report() -> String {
    let mut yaml = String::from("ruleset: Long\nattributes:\n  used:\n");
    for index in 0..2_000 {
        yaml += &["  idle_", &index.to_string(), ":\n"].concat();
    }
    yaml.push_str("rulings:\n  penalty:\n    scale: [none, caution]\n    otherwise: none\n");
    yaml.push_str("clauses:\n  - id: \"1\"\n    when: used\n    ruling: {penalty: caution}\n");
    yaml
}

fn press_ctrl_c(child: &Child) {
    let sent = Command::new("kill")
        .args(["-INT", &child.id().to_string()])
        .status();
    assert!(sent.unwrap().success());
}

#[test]
fn ctrl_c_once_more_ends_at_once() {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("long-report.yaml");
    fs::write(&file, long_report()).unwrap();
    let mut child = Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .args(["check", "--only", "unused", "--format", "json"])
        .arg(&file)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // The first byte shows that the report is under way; the rest waits for a reader.
    let mut first = [0];
    let mut report = child.stdout.take().unwrap();
    report.read_exact(&mut first).unwrap();
    press_ctrl_c(&child);
    let mut words = BufReader::new(child.stderr.take().unwrap()).lines();
    let told = words
        .by_ref()
        .map(Result::unwrap)
        .find(|line| !line.is_empty());
    assert!(told.is_some_and(|line| line.contains("Press Ctrl-C again to end at once")));
    assert_eq!(
        child.try_wait().unwrap(),
        None,
        "it ended before the report was read"
    );
    press_ctrl_c(&child);
    assert_eq!(child.wait().unwrap().code(), Some(130));
    let mut rest = Vec::new();
    report.read_to_end(&mut rest).unwrap();
    assert_ne!(rest.last(), Some(&b'\n'), "the report came to its end");
}
