//! The commands about amendments as people and scripts meet them.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test runs the program and reads what it has written"
)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Runs the program; its exit code, standard output and standard error.
fn run(arguments: &[&str]) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("LC_ALL", "C.UTF-8")
        .env_remove("NO_COLOR")
        .output()
        .unwrap();
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    let code = output.status.code().unwrap();
    (code, text(&output.stdout), text(&output.stderr))
}

/// A file of this test in an empty folder of its own.
fn file(test: &str, name: &str, text: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(test);
    fs::create_dir_all(&folder).unwrap();
    let path = folder.join(name);
    fs::write(&path, text).unwrap();
    path
}

fn shown(path: &Path) -> &str {
    path.to_str().unwrap()
}

const BALL: &str = "rulesets/ball.yaml";
const THREATS: &str = "\
amendment: Threats
to: {ruleset: Rules of wall rally, edition: \"2030\"}
changes:
  - repeal: \"4.5\"
";

#[test]
fn apply_prints_the_text_and_tells_warnings_beside_it() {
    let amendment = file("apply", "threats.yaml", THREATS);
    let (code, text, beside) = run(&["apply", BALL, shown(&amendment)]);
    assert_eq!(code, 0, "{beside}");
    let base = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(BALL)).unwrap();
    let start = base.find("  - id: \"4.5\"").unwrap();
    let end = base.find("\nprinciples:").unwrap();
    assert_eq!(text, format!("{}{}", &base[..start], &base[end..]));
    assert!(
        beside.contains("edition `2030`; the file's edition is `2031`"),
        "{beside}"
    );
    let output = file("apply", "out.yaml", "");
    let (code, printed, _) = run(&["apply", BALL, shown(&amendment), "-o", shown(&output)]);
    assert_eq!((code, printed.as_str()), (0, ""));
    assert_eq!(fs::read_to_string(&output).unwrap(), text);
}

#[test]
fn apply_refuses_what_cannot_be_made_and_calls_it_wrong_calls() {
    let amendment = file(
        "refused",
        "a.yaml",
        "amendment: A\nchanges:\n  - repeal: \"8\"\n",
    );
    let (code, text, beside) = run(&["apply", BALL, shown(&amendment)]);
    assert_eq!((code, text.as_str()), (2, ""));
    assert!(
        beside.contains("There is no clause `8` to change"),
        "{beside}"
    );
    assert!(beside.contains(BALL), "{beside}");
    let (code, _, beside) = run(&["apply", BALL]);
    assert_eq!(code, 2);
    assert!(
        beside.contains("The amendment file is missing."),
        "{beside}"
    );
    assert!(
        beside.contains("evenhand apply RULESET AMENDMENT"),
        "{beside}"
    );
    let (code, _, beside) = run(&["apply", BALL, BALL]);
    assert_eq!(code, 2);
    assert!(beside.contains("expected an amendment"), "{beside}");
}

#[test]
fn a_local_variation_is_checked_as_the_rules_stand_with_it() {
    let amendment = file("with", "threats.yaml", THREATS);
    let (code, text, _) = run(&["check", BALL, "--quiet"]);
    assert_eq!(code, 0, "{text}");
    let (code, text, _) = run(&["check", BALL, "--with", shown(&amendment)]);
    assert_eq!(code, 1, "{text}");
    assert!(
        text.contains("Nothing is ruled on sanction where offence is threat"),
        "{text}"
    );
    assert!(text.contains("another edition"), "{text}");
}
