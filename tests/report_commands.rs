//! `evenhand report` as people and scripts meet it: what is asked for stands on the page, and what can't
//! be used is told.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test runs the program and reads what it has written"
)]

#[path = "common/program.rs"]
mod program;

use program::{file, run, shown};
use std::fs;

const BALL: &str = "rulesets/ball.yaml";
const STROKES: &str = "rulesets/ball-strokes.yaml";
const LET: &str = "rulesets/ball-let.yaml";

/// The page that a call writes, and its exit code.
fn page(name: &str, arguments: &[&str]) -> (i32, String) {
    let output = file("report", name, "");
    let mut call = vec!["report", BALL, "--quiet", "--output", shown(&output)];
    call.extend(arguments);
    let (code, out, err) = run(&call);
    assert_eq!((out.as_str(), err.as_str()), ("", ""), "{call:?}");
    (code, fs::read_to_string(&output).unwrap())
}

/// What is said where a call can't be used.
fn refused(arguments: &[&str]) -> String {
    let output = file("report", "refused.html", "");
    let mut call = vec!["report", BALL, "--quiet", "--output", shown(&output)];
    call.extend(arguments);
    let (code, out, err) = run(&call);
    assert_eq!(code, 2, "{call:?}");
    assert_eq!(fs::read_to_string(&output).unwrap(), "", "{call:?}");
    out + &err
}

#[test]
fn what_is_not_asked_for_is_not_there() {
    let (code, page) = page("plain.html", &[]);
    assert_eq!(code, 0);
    assert!(page.contains("id=\"verdict\""));
    for part in ["draft", "cases", "quiz", "key"] {
        let part = format!("id=\"{part}\"");
        assert!(!page.contains(&part), "{part}");
    }
}

#[test]
fn a_draft_says_on_the_page_what_vet_says() {
    let (code, page) = page("draft.html", &["--amendment", STROKES]);
    assert_eq!(code, 0);
    let (_, vetted, _) = run(&["vet", BALL, STROKES, "--quiet"]);
    let verdict = vetted.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains(&verdict), "{verdict}");
    // The rules on the page, and their fingerprint, are those that the draft is to.
    let foot = |page: &str| {
        page.split("Fingerprint")
            .nth(1)
            .map(|foot| foot[..60].to_owned())
    };
    let (_, plain) = self::page("beside.html", &[]);
    assert_eq!(foot(&page), foot(&plain));
}

/// Cases to the rally game: one that the text bears out, one that it does not.
const CASES: &str = "\
cases:
  - id: right
    facts: {matter: rally, let_called: yes}
    ruled: {point: nobody}
  - id: wrong
    facts: {matter: rally, let_called: yes}
    ruled: {point: receiver}
";

#[test]
fn a_case_book_says_on_the_page_what_cases_says() {
    let book = file("report", "book.yaml", CASES);
    let (code, page) = page("cases.html", &["--cases", shown(&book), "--amendment", LET]);
    assert_eq!(code, 0);
    let (_, said, _) = run(&["cases", BALL, shown(&book), "--quiet"]);
    let summary = said.split("\n\n").next().unwrap();
    let summary = summary.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(summary.starts_with("Of 2 cases"), "{summary}");
    assert!(page.contains(&summary), "{summary}");
    assert!(page.contains("Cases whose answer changes"));
    let bad = file(
        "report",
        "bad-book.yaml",
        "cases:\n  - id: 1\n    facts: {nothing: 1}\n",
    );
    let said = refused(&["--cases", shown(&bad)]);
    assert!(said.contains("bad-book.yaml, line 3"), "{said}");
}

#[test]
fn questions_are_those_of_the_quiz() {
    let (code, page) = page("quiz.html", &["--quiz", "2", "--seed", "3"]);
    assert_eq!(code, 0);
    let (_, said, _) = run(&[
        "quiz", BALL, "--count", "2", "--seed", "3", "--format", "json",
    ]);
    let quiz = program::json(&said);
    let questions = quiz["questions"].as_array().unwrap();
    assert_eq!(questions.len(), 2);
    assert_eq!(
        page.matches("id=\"question-").count(),
        4,
        "each with its heading"
    );
    for question in questions {
        let title = question["title"].as_str().unwrap();
        assert!(page.contains(title), "{title}");
    }
    let said = refused(&["--seed", "3"]);
    assert!(
        said.contains("--seed is for questions: add --quiz."),
        "{said}"
    );
    let said = refused(&["--quiz", "2", "--clause", "99"]);
    assert!(said.contains("99"), "{said}");
}

#[test]
fn the_order_of_questions_is_that_of_a_dimension() {
    let (_, first) = page("first.html", &[]);
    assert!(first.contains("From question to ruling: <bdi>The set</bdi>"));
    let (code, point) = page("point.html", &["--chart", "point"]);
    assert_eq!(code, 0);
    assert!(point.contains("From question to ruling: <bdi>The point</bdi>"));
    let said = refused(&["--chart", "points"]);
    assert!(said.contains("Did you mean `point`?"), "{said}");
}

#[test]
fn what_the_time_leaves_open_is_said_and_has_a_code() {
    let (code, page) = page("short.html", &["--quiz", "2", "--seconds", "0.000001"]);
    assert_eq!(code, 3);
    assert!(page.contains("The order of questions stayed undecided"));
    assert!(page.contains("it stayed undecided whether both can be met at once"));
}

#[test]
fn several_drafts_are_vetted_together_and_alone() {
    let (code, page) = page("drafts.html", &["--amendment", STROKES, "--amendment", LET]);
    assert_eq!(code, 0);
    assert!(page.contains("What the drafts change"));
    for title in ["Fewer strokes on the serve", "No let for a foot fault"] {
        assert!(
            page.contains(&format!("“<bdi>{title}</bdi>” alone:")),
            "{title}"
        );
    }
}

#[test]
fn a_draft_that_cannot_be_used_is_told_with_its_place() {
    let draft = file(
        "report",
        "bad.yaml",
        "amendment: A\nchanges:\n  - repeal: \"8\"\n",
    );
    let said = refused(&["--amendment", shown(&draft)]);
    assert!(said.contains("There is no clause `8` to change"), "{said}");
    assert!(said.contains("bad.yaml, line 3"), "{said}");
    let said = refused(&["--amendment", "nowhere.yaml"]);
    assert!(said.contains("nowhere.yaml"), "{said}");
}
