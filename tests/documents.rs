//! Every example of the language reference is read as the program reads a file.
//!
//! A block says after `yaml` what it is: `ruleset`, the whole example; `part`, sections that are added
//! to it; `conditions`, a list of conditions, each tried in a clause of its own; `refused`, a part that
//! can't be used.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests"
)]

mod common;

use common::{load_text, text_of};
use evenhand::analysis::KINDS;
use evenhand::model::Kind;

const REFERENCE: &str = "docs/language.md";

/// A fenced block: the line it starts on, the words after the fence, its text.
struct Block {
    line: usize,
    mark: String,
    text: String,
}

fn blocks(page: &str) -> Vec<Block> {
    let mut found: Vec<Block> = Vec::new();
    let mut open = false;
    for (line, number) in page.lines().zip(1..) {
        match line.strip_prefix("```") {
            Some(mark) if !open => {
                found.push(Block {
                    line: number,
                    mark: mark.to_owned(),
                    text: String::new(),
                });
                open = true;
            }
            Some(_) => open = false,
            None if open => {
                let text = &mut found.last_mut().unwrap().text;
                text.push_str(line);
                text.push('\n');
            }
            None => {}
        }
    }
    assert!(!open, "a block is not closed");
    found
}

/// The sections of a ruleset in order: the key that opens each, and its lines.
fn sections(text: &str) -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = Vec::new();
    for line in text.lines() {
        let opens = line.starts_with(|first: char| first.is_ascii_lowercase());
        match found.last_mut() {
            Some((_, body)) if !opens => {
                body.push_str(line);
                body.push('\n');
            }
            _ => {
                let key = line.split(':').next().unwrap_or_default();
                found.push((key.to_owned(), format!("{line}\n")));
            }
        }
    }
    found
}

/// The example with the sections of a part added to its own.
fn added(example: &str, part: &str) -> String {
    let mut all = sections(example);
    for (key, text) in sections(part) {
        match all.iter_mut().find(|(known, _)| *known == key) {
            Some((_, body)) => {
                let (_, lines) = text.split_once('\n').unwrap();
                *body = format!("{}\n{lines}", body.trim_end());
            }
            None => all.push((key, text)),
        }
    }
    all.into_iter().map(|(_, body)| body).collect()
}

fn example(all: &[Block]) -> &str {
    let whole: Vec<&Block> = all
        .iter()
        .filter(|block| block.mark == "yaml ruleset")
        .collect();
    match whole.as_slice() {
        [one] => &one.text,
        other => panic!("{} whole examples, expected one", other.len()),
    }
}

fn accepted(name: &str, text: &str) {
    if let Err(problems) = load_text(name, text) {
        panic!("{name}: {problems:#?}\n{text}");
    }
}

#[test]
fn the_kinds_looked_for_are_said() {
    let page = text_of(REFERENCE);
    let sentence = page.split("This version looks for ").nth(1).unwrap();
    let sentence = sentence.split('.').next().unwrap();
    let said: Vec<&str> = sentence.split('`').skip(1).step_by(2).collect();
    let looked_for: Vec<&str> = KINDS.iter().map(|kind| kind.word()).collect();
    assert_eq!(said, looked_for);
    for kind in Kind::ALL {
        let row = format!("| `{kind}` |");
        let line = page.lines().find(|line| line.starts_with(&row));
        let line = line.unwrap_or_else(|| panic!("no row for {kind}"));
        assert!(
            line.ends_with(&format!("| {} |", kind.severity())),
            "{line}"
        );
    }
}

#[test]
fn the_reserved_words_are_said() {
    let page = text_of(REFERENCE);
    let row = page
        .lines()
        .find(|line| line.starts_with("| words that name nothing |"));
    let said: Vec<&str> = row.unwrap().split('`').skip(1).step_by(2).collect();
    assert_eq!(said, evenhand::read::RESERVED);
}

#[test]
fn every_block_says_what_it_is() {
    for block in blocks(&text_of(REFERENCE)) {
        let known = [
            "yaml ruleset",
            "yaml part",
            "yaml conditions",
            "yaml refused",
            "yaml scenario",
            "yaml scenario refused",
        ];
        assert!(
            known.contains(&block.mark.as_str()),
            "{REFERENCE}:{}: `{}`",
            block.line,
            block.mark
        );
    }
}

#[test]
fn examples_are_rulesets() {
    let page = text_of(REFERENCE);
    let all = blocks(&page);
    let example = example(&all);
    accepted("the example", example);
    let parts = all.iter().filter(|block| block.mark == "yaml part");
    for block in parts {
        let name = format!("{REFERENCE}:{}", block.line);
        accepted(&name, &added(example, &block.text));
    }
}

#[test]
fn conditions_are_conditions() {
    let page = text_of(REFERENCE);
    let all = blocks(&page);
    let example = example(&all);
    let lists = all.iter().filter(|block| block.mark == "yaml conditions");
    for block in lists {
        for line in block.text.lines() {
            let condition = line.strip_prefix("- ").expect("a list of conditions");
            // A dimension of its own, so that a condition may read the example's.
            let part = format!(
                "rulings:\n  noted:\n    choice: [yes_it_is, no_it_is_not]\nclauses:\n  - id: \"9.9\"\n    when: {condition}\n    ruling: {{noted: yes_it_is}}\n"
            );
            accepted(
                &format!("{REFERENCE}:{}: {condition}", block.line),
                &added(example, &part),
            );
        }
    }
}

/// What is wrong with a scenario of the whole example, if anything is.
fn wrong_with(example: &str, scenario: &str) -> Option<String> {
    let ruleset = load_text("the example", example).unwrap();
    let incident = match evenhand::scenario::incident(&ruleset, Some(("s", scenario)), &[]) {
        Ok(incident) => incident,
        Err(refused) => return refused.problems.first().map(|it| it.headline.clone()),
    };
    let budget = evenhand::solve::Budget::unlimited();
    match evenhand::scenario::standing(&ruleset, &incident, &budget) {
        evenhand::scenario::Standing::Impossible(problem) => Some(problem.headline),
        _ => None,
    }
}

#[test]
fn scenarios_are_scenarios_of_the_example() {
    let page = text_of(REFERENCE);
    let all = blocks(&page);
    let background = "background:\n  - never: hold is pin and phase is standing\n";
    let example = added(example(&all), background);
    let of = |mark: &str| {
        let blocks: Vec<&Block> = all.iter().filter(|block| block.mark == mark).collect();
        assert!(!blocks.is_empty(), "{mark}");
        blocks
    };
    for block in of("yaml scenario") {
        assert_eq!(wrong_with(&example, &block.text), None, "{}", block.line);
    }
    for block in of("yaml scenario refused") {
        let (reason, facts) = block.text.split_once('\n').unwrap();
        assert_eq!(
            wrong_with(&example, facts).as_deref(),
            reason.strip_prefix("# ")
        );
    }
}

/// The first line of a refused block is a comment that says the headline of its first problem.
#[test]
fn what_is_said_to_be_refused_is_refused_for_that_reason() {
    let page = text_of(REFERENCE);
    let all = blocks(&page);
    let example = example(&all);
    let refused = all.iter().filter(|block| block.mark == "yaml refused");
    let mut wrong = Vec::new();
    for block in refused {
        let (reason, part) = block.text.split_once('\n').unwrap();
        let problems = load_text("refused", &added(example, part)).expect_err("a refusal");
        let said = problems.first().map(|problem| problem.headline.as_str());
        if reason.strip_prefix("# ") != said {
            wrong.push(format!("{REFERENCE}:{}: {said:?}", block.line));
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}
