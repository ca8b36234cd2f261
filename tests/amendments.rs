//! Amendments laid over rulesets: the text that comes of them, and what is told of those that can't be made.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod common;
mod support;

use evenhand::load::{Layered, Loaded, load, load_with};
use evenhand::model::Ruleset;
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::BTreeSet;
use support::{random_amendment, random_ruleset};

/// A ruleset with all places taken out, to compare what is said and not where.
fn said(ruleset: &Ruleset) -> String {
    let mut bare = ruleset.clone();
    bare.sources = evenhand::source::Sources::default();
    // Nor is it said which amendments it came from.
    bare.layers.clear();
    let mut text = String::new();
    let told = format!("{bare:?}");
    let mut rest = told.as_str();
    while let Some(at) = rest.find("Span {") {
        text.push_str(&rest[..at]);
        let end = rest[at..].find('}').unwrap();
        rest = &rest[at + end + 1..];
    }
    text + rest
}

fn layered(base: &str, drafts: &[&str]) -> Layered {
    let drafts: Vec<(String, String)> = drafts
        .iter()
        .enumerate()
        .map(|(index, text)| (format!("draft-{index}.yaml"), (*text).to_owned()))
        .collect();
    match Layered::read("base.yaml", base, &drafts) {
        Ok(layered) => layered,
        Err(refused) => panic!("{:#?}", refused.problems),
    }
}

/// The text with amendments in it; it must say what the amendments make on the tree.
fn consolidated(base: &str, drafts: &[&str]) -> String {
    let layered = layered(base, drafts);
    let all: Vec<usize> = (0..drafts.len()).collect();
    let text = match layered.consolidated() {
        Ok(text) => text,
        Err(problems) => panic!("{problems:#?}"),
    };
    let laid = layered.with(&all).unwrap();
    let read = load("consolidated.yaml", text.as_str()).unwrap();
    assert_eq!(said(&laid.ruleset), said(&read.ruleset), "{text}");
    // What was taken over from the base is warned of as well.
    let warned = |loaded: &Loaded| {
        let warnings = loaded.warnings.iter().map(|it| it.headline.clone());
        let mut warnings: Vec<String> = warnings.collect();
        warnings.sort();
        warnings
    };
    assert_eq!(warned(&laid), warned(&read), "{text}");
    text
}

const BASE: &str = "\
# Opening words
ruleset: Small rules
edition: \"1\"   # a comment

quantities:
  limit: 2 s
  least:
    by: side
    columns: [low_mark, high_mark]
    left: [1 s, 2 s]
    right: [2 s, \"-\"]

attributes:
  side:
    choice: [left, right]   # two sides

  held:
  seconds: {number: 0 to 4, unit: s}

terms:
  long:
    text: >
      Held for
      a while.
    means: seconds at least limit
background:
  - id: B1
    never: held and seconds less than low_mark
rulings:
  penalty: {scale: [none, caution], otherwise: none}
clauses:
  # The first clause.
  - id: \"1\"
    title: One
    when: long
    ruling: {penalty: caution}

  # The second clause.
  - id: \"2\"
    when: held
    ruling: {penalty: caution}   # and no more
    notwithstanding: [\"1\"]
  - {id: \"3\", when: side is left and not held, ruling: {penalty: none}, notwithstanding: [\"1\"]}
principles:
  - id: P1
    whenever: held
    expect: penalty is caution
headings:
  \"1\": Ones
accepted:
  - finding: no-effect
    clauses: [\"2\"]
";

fn draft(changes: &str) -> String {
    format!("amendment: A draft\nchanges:\n{changes}")
}

#[test]
fn what_is_not_changed_keeps_every_byte() {
    let changes = "  - insert:
      id: \"2a\"
      when: |
        held
        and side is right
      ruling: {penalty: none}
    before: \"3\"
  - set:
      quantity: low_mark
      row: left
      to: 2 s
  - set: {clause: \"3\", when: side is left}
  - set:
      attribute: held
      label: is held
  - set: {heading: \"1\", title: The ones}
";
    let text = consolidated(BASE, &[&draft(changes)]);
    let expected = BASE
        .replace(
            "  - {id: \"3\", when: side is left and not held,",
            "  - id: \"2a\"\n    when: |\n      held\n      and side is right\n    ruling: {penalty: none}\n  - {id: \"3\", when: side is left,",
        )
        .replace("left: [1 s,", "left: [2 s,")
        .replace("  held:\n", "  held:\n    label: is held\n")
        .replace("\"1\": Ones", "\"1\":\n    title: The ones");
    assert_eq!(text, expected);
}

#[test]
fn a_repeal_takes_out_what_an_insertion_put_in() {
    let inserted = "  - insert: {id: \"2a\", when: held, ruling: {penalty: none}}
    after: \"2\"
  - insert:
      id: \"0\"
      when: held
      ruling:
        penalty: none
    before: \"1\"
  - insert: {term: short, means: not long}
  - insert:
      attribute: windy
      choice:
        calm: no wind
        wild: much wind
    after: held
  - insert: {quantity: more, to: 3 s}
  - insert: {principle: P2, whenever: always, expect: penalty is none}
  - insert: {background: B2, never: held and side is left}
  - insert: {heading: \"2\", title: Twos}
";
    let repealed = "  - repeal: \"2a\"
  - repeal: \"0\"
  - repeal: {term: short}
  - repeal: {attribute: windy}
  - repeal: {quantity: more}
  - repeal: {principle: P2}
  - repeal: {background: B2}
  - repeal: {heading: \"2\"}
";
    let with = consolidated(BASE, &[&draft(inserted)]);
    assert_ne!(with, BASE);
    assert_eq!(consolidated(&with, &[&draft(repealed)]), BASE);
    assert_eq!(
        consolidated(BASE, &[&draft(inserted), &draft(repealed)]),
        BASE
    );
    // Line ends of another kind, and a last line without one.
    let other = BASE.replace('\n', "\r\n");
    let with = consolidated(&other, &[&draft(inserted)]);
    assert!(!with.replace("\r\n", "").contains('\n'));
    assert_eq!(consolidated(&with, &[&draft(repealed)]), other);
    let bare = BASE.trim_end();
    assert_eq!(
        consolidated(bare, &[&draft(inserted), &draft(repealed)]),
        bare
    );
}

#[test]
fn references_follow_a_renumbering() {
    let base = BASE.replace("clauses: [\"2\"]", "clauses: [\"1\"]");
    let text = consolidated(&base, &[&draft("  - renumber: \"1\"\n    to: 4(a)\n")]);
    let expected = base
        .replace("id: \"1\"", "id: \"4(a)\"")
        .replace("notwithstanding: [\"1\"]", "notwithstanding: [\"4(a)\"]")
        .replace("  \"1\": Ones", "  \"4(a)\": Ones")
        .replace("clauses: [\"1\"]", "clauses: [\"4(a)\"]");
    assert_eq!(text, expected);
}

#[test]
fn a_key_drives_out_what_said_it_in_another_way() {
    let changes = "  - set: {term: long, narrow: seconds at least 3, broad: seconds at least 2}
  - set: {attribute: seconds, scale: [short, long_time]}
  - set: {background: B1, always: not held or side is left}
  - replace: {term: long}
    with: {means: seconds is long_time}
  - replace: {quantity: least}
    with: 2 s
  - repeal: {quantity: least}
  - set: {principle: P1, impartial_to: side}
";
    let text = consolidated(BASE, &[&draft(changes)]);
    for (line, there) in [
        ("  long: {means: seconds is long_time}", true),
        ("  seconds: {scale: [short, long_time]}", true),
        ("    always: not held or side is left", true),
        ("narrow", false),
        ("unit", false),
        ("expect", false),
        ("least:", false),
    ] {
        assert_eq!(text.contains(line), there, "{line}\n{text}");
    }
}

#[test]
fn an_alias_that_shares_what_is_changed_is_said_and_not_broken() {
    let base = BASE
        .replace("when: long\n", "when: &when long\n")
        .replace("when: held\n", "when: *when\n");
    let changes = draft("  - set: {clause: \"1\", when: held}\n");
    let layered = layered(&base, &[&changes]);
    let problems = layered.consolidated().unwrap_err();
    assert_eq!(
        problems[0].headline,
        "the change can't be written into the text: set clause 1"
    );
    // Laid over the base it is fine all the same.
    layered.with(&[0]).unwrap();
}

/// What is told of a draft that can't be used: the headline, the words underlined, the other words.
fn told(changes: &str) -> Vec<String> {
    let text = draft(changes);
    let refused = load_with("base.yaml", BASE, &[("draft.yaml".to_owned(), text)]);
    let refused = refused.expect_err("the draft can be used");
    refused
        .problems
        .iter()
        .map(|problem| {
            let place = refused.sources.place(problem.span);
            let others: Vec<String> = problem
                .others
                .iter()
                .map(|(span, words)| {
                    let place = refused.sources.place(*span);
                    format!("{}:{} {words}", place.file, place.position.line.0)
                })
                .collect();
            format!(
                "{}:{} {} [{}]",
                place.file,
                place.position.line.0,
                problem.headline,
                others.join("; ")
            )
        })
        .collect()
}

#[test]
fn a_change_that_cannot_be_made_names_both_places() {
    for (changes, expected) in [
        (
            "  - repeal: \"17.5\"\n",
            "draft.yaml:3 there is no clause `17.5` to change [base.yaml:33 the ruleset's clauses begin here]",
        ),
        (
            "  - set: {term: lonh, means: held}\n",
            "draft.yaml:3 there is no term `lonh` to change [base.yaml:21 there is `long`]",
        ),
        (
            "  - insert: {id: \"3\", when: held, ruling: {penalty: none}}\n",
            "draft.yaml:3 there is a clause `3` already [base.yaml:43 the name is taken here]",
        ),
        (
            "  - renumber: \"3\"\n    to: \"2\"\n",
            "draft.yaml:4 there is a clause `2` already [base.yaml:39 the name is taken here]",
        ),
        (
            "  - repeal: \"1\"\n",
            "draft.yaml:3 clause `1` is taken away, and others still refer to it [base.yaml:42 still refers to it; base.yaml:43 still refers to it]",
        ),
        (
            "  - repeal: {term: long}\n",
            "draft.yaml:3 term `long` is taken away, and others still refer to it [base.yaml:35 still refers to it]",
        ),
        (
            "  - repeal: {attribute: held}\n",
            "draft.yaml:3 attribute `held` is taken away, and others still refer to it [base.yaml:28 still refers to it; base.yaml:40 still refers to it; base.yaml:43 still refers to it; base.yaml:46 still refers to it]",
        ),
        (
            "  - renumber: \"3\"\n    to: \"5\"\n  - repeal: \"3\"\n",
            "draft.yaml:5 there is no clause `3` to change [draft.yaml:3 taken away or renumbered here]",
        ),
        (
            "  - set: {quantity: low_mark, row: middle, to: 1 s}\n",
            "draft.yaml:3 the table has no row `middle` [base.yaml:7 the table]",
        ),
        (
            "  - set: {clause: \"2\", leave_out: unless}\n",
            "draft.yaml:3 the clause `2` has no `unless` to leave out [base.yaml:39 its keys begin here]",
        ),
        (
            "  - set: {clause: \"2\", when: hold}\n",
            "draft.yaml:3 `hold` is not a name in this ruleset []",
        ),
        (
            "  - delete: \"2\"\n",
            "draft.yaml:3 `delete` is no key of a change []",
        ),
    ] {
        assert_eq!(told(changes)[0], expected, "{changes}");
    }
}

#[test]
fn the_changes_that_follow_from_a_repeal_are_offered() {
    let repeal = "  - repeal: \"1\"\n";
    let text = draft(repeal);
    let refused = load_with("base.yaml", BASE, &[("draft.yaml".to_owned(), text)]);
    let help = refused.unwrap_err().problems[0].help.clone().unwrap();
    let follow = [
        "- set: {clause: \"2\", leave_out: notwithstanding}",
        "- set: {clause: \"3\", leave_out: notwithstanding}",
    ];
    assert_eq!(
        help,
        format!(
            "add the changes that follow from it: `{}` `{}`",
            follow[0], follow[1]
        )
    );
    let changes = format!("{repeal}  {}\n  {}\n", follow[0], follow[1]);
    let text = consolidated(BASE, &[&draft(&changes)]);
    assert!(!text.contains("notwithstanding"), "{text}");
}

#[test]
fn an_accepted_finding_goes_with_its_clause() {
    let text = consolidated(BASE, &[&draft("  - repeal: \"2\"\n")]);
    assert!(!text.contains("accepted"), "{text}");
    let more = format!("{BASE}  - finding: no-effect\n    clauses: [\"1\"]\n");
    let text = consolidated(&more, &[&draft("  - repeal: \"2\"\n")]);
    assert!(text.ends_with("accepted:\n  - finding: no-effect\n    clauses: [\"1\"]\n"));
}

#[test]
fn a_draft_for_another_edition_is_a_warning() {
    let text = "amendment: A\nto:\n  ruleset: Small rules\n  edition: \"0\"\nchanges:\n  - set: {clause: \"2\", when: not held}\n";
    let loaded = load_with(
        "base.yaml",
        BASE,
        &[("draft.yaml".to_owned(), text.to_owned())],
    );
    let headlines: Vec<String> = loaded
        .unwrap()
        .warnings
        .into_iter()
        .map(|warning| warning.headline)
        .collect();
    assert_eq!(
        headlines,
        ["the amendment is written for edition `0`; the file's edition is `1`"]
    );
}

/// The fenced blocks of a page with the words after the fence.
fn blocks(page: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for part in page.split("\n```").collect::<Vec<_>>().chunks(2) {
        if let [_, block] = part {
            let (mark, text) = block.split_once('\n').unwrap();
            found.push((mark.to_owned(), text.to_owned()));
        }
    }
    found
}

#[test]
fn the_page_on_amendments_is_true() {
    let language = common::text_of("docs/language.md");
    let example = blocks(&language)
        .into_iter()
        .find(|(mark, _)| mark == "yaml ruleset")
        .unwrap()
        .1;
    let mut seen = BTreeSet::new();
    for (mark, text) in blocks(&common::text_of("docs/amendments.md")) {
        match mark.as_str() {
            "yaml amendment" => {
                consolidated(&example, &[&text]);
            }
            "yaml changes" => {
                consolidated(&example, &[&draft(&text)]);
            }
            "yaml refused" => {
                let (reason, changes) = text.split_once('\n').unwrap();
                let drafts = [("draft.yaml".to_owned(), draft(changes))];
                let refused = load_with("base.yaml", example.as_str(), &drafts).unwrap_err();
                let headline = &refused.problems[0].headline;
                assert_eq!(&reason[2..], headline, "{changes}");
            }
            other => panic!("a block of an unknown kind: {other}"),
        }
        seen.insert(mark);
    }
    assert_eq!(seen.len(), 3);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    /// The text and the tree come to the same, whatever the draft.
    #[test]
    fn text_and_tree_agree(yaml in random_ruleset::yaml(), tape in vec(any::<u16>(), 4..40)) {
        let Ok(base) = load("base.yaml", yaml.as_str()) else { return Ok(()) };
        let amendment = random_amendment::write_amendment(&base.ruleset, &tape);
        let drafts = [("draft.yaml".to_owned(), amendment.clone())];
        let layered = match Layered::read("base.yaml", yaml.as_str(), &drafts) {
            Ok(layered) => layered,
            Err(refused) => panic!("{amendment}\n{:#?}", refused.problems),
        };
        let Ok(laid) = layered.with(&[0]) else { return Ok(()) };
        let text = layered.consolidated().unwrap();
        let read = load("consolidated.yaml", text.as_str()).unwrap();
        prop_assert_eq!(said(&laid.ruleset), said(&read.ruleset), "{}\n{}", amendment, text);
        // Lines that are in both and only in the base: all that is gone was changed.
        let kept: BTreeSet<&str> = text.lines().collect();
        let lost = yaml.lines().filter(|line| !kept.contains(line)).count();
        let changes = layered.amendments[0].changes.len();
        prop_assert!(lost <= changes * 30, "{lost} lines lost\n{amendment}\n{text}");
    }
}
