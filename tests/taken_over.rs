//! The check of a later edition takes over what the check of the earlier one answered; it must find just
//! what a check of its own finds, on random small rulesets and random drafts.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod support;

use evenhand::amendment::vet;
use evenhand::analysis::{Checked, Finding, Method, Options, check, check_editions};
use evenhand::load::{Layered, load};
use evenhand::model::{ClauseId, Kind, Ruleset};
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::{BTreeMap, VecDeque};
use std::fmt::Write;
use support::{random_amendment, random_ruleset};

/// A finding as far as it does not hang on which of many incidents is shown.
fn told(ruleset: &Ruleset, finding: &Finding) -> String {
    let ids = finding.clauses.iter();
    let ids: Vec<&str> = ids.map(|id| ruleset[*id].id.as_str()).collect();
    let words = finding.labels.iter().map(|(span, said)| {
        let words = ruleset.sources.slice(*span);
        format!("{words}: {said}")
    });
    let words: Vec<String> = words.collect();
    let about = (&finding.principle, &finding.attribute, &finding.term);
    let dimension = finding.dimension.map(|id| &ruleset[id].name);
    let (general, share) = (&finding.general, &finding.share);
    let whole = (
        &finding.headline,
        &finding.help,
        &finding.scenario,
        &finding.pair,
    );
    format!(
        "{:?} {dimension:?} {about:?} {ids:?} {words:#?} {general:?} {share:?} {whole:?} {:?}",
        finding.kind, finding.accepted
    )
}

fn by_ids(before: &Ruleset, after: &Ruleset) -> Vec<Option<ClauseId>> {
    let earlier = before.clauses.iter().enumerate();
    let earlier: BTreeMap<&str, ClauseId> = earlier
        .map(|(index, clause)| (clause.id.as_str(), ClauseId::new(index)))
        .collect();
    let later = after.clauses.iter();
    later
        .map(|clause| earlier.get(clause.id.as_str()).copied())
        .collect()
}

/// A ruleset as it stands and with a draft made, if that can be made.
fn editions(yaml: &str, amendment: &str) -> Option<(Ruleset, Ruleset)> {
    let drafts = [("draft.yaml".to_owned(), amendment.to_owned())];
    let layered = Layered::read("base.yaml", yaml, &drafts).ok()?;
    let after = layered.with(&[0]).ok()?;
    Some((layered.base.ruleset, after.ruleset))
}

/// Holds a draft to a ruleset, if it can be made, by the ids of clauses.
fn draft_held(
    yaml: &str,
    amendment: &str,
    method: Method,
    told: fn(&Ruleset, &Finding) -> String,
) -> Result<(), String> {
    let Some((before, after)) = editions(yaml, amendment) else {
        return Ok(());
    };
    let held = held(&before, &after, &by_ids(&before, &after), method, told);
    held.map_err(|wrong| format!("{wrong}\n{yaml}\n{amendment}"))
}

/// What a finding is about, whatever incident shows it.
fn about(ruleset: &Ruleset, finding: &Finding) -> String {
    let by_incident = matches!(finding.kind, Kind::BrokenPrinciple | Kind::TurnsOnJudgement);
    let ids = finding.clauses.iter().filter(|_| !by_incident);
    let mut ids: Vec<&str> = ids.map(|id| ruleset[*id].id.as_str()).collect();
    ids.sort_unstable();
    let dimension = finding.dimension.filter(|_| !by_incident);
    format!(
        "{:?} {dimension:?} {:?} {ids:?}",
        finding.kind, finding.principle
    )
}

/// Holds what is found with the help of the earlier edition to what is found without; says what differs.
fn held(
    before: &Ruleset,
    after: &Ruleset,
    was: &[Option<ClauseId>],
    method: Method,
    told: fn(&Ruleset, &Finding) -> String,
) -> Result<(), String> {
    let options = Options {
        method,
        ..Options::default()
    };
    let (_, found) = check_editions(before, after, was, &options);
    let alone = check(after, &options);
    if (&found.verdicts, &found.idle_accepted) != (&alone.verdicts, &alone.idle_accepted) {
        return Err(format!("{:#?}\n{:#?}", found.verdicts, alone.verdicts));
    }
    let all = |checked: &Checked| -> Vec<String> {
        let found = checked.findings.iter();
        let mut told: Vec<String> = found.map(|finding| told(after, finding)).collect();
        told.sort();
        told
    };
    let (taken, own) = (all(&found), all(&alone));
    let beyond = |some: &[String], others: &[String]| -> Vec<String> {
        let beyond = some.iter().filter(|one| !others.contains(one));
        beyond.cloned().collect()
    };
    if taken == own {
        return Ok(());
    }
    Err(format!(
        "with the earlier edition {:#?}\nwithout {:#?}",
        beyond(&taken, &own),
        beyond(&own, &taken)
    ))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn what_is_taken_over_is_what_would_be_answered(yaml in random_ruleset::yaml(), tape in vec(any::<u16>(), 4..40)) {
        let Ok(base) = load("base.yaml", yaml.as_str()) else { return Ok(()) };
        let amendment = random_amendment::write_amendment(&base.ruleset, &tape);
        let held = draft_held(&yaml, &amendment, Method::DiagramsFirst, told);
        prop_assert!(held.is_ok(), "{}", held.unwrap_err());
    }

    #[test]
    fn clauses_under_other_numbers_are_known_by_what_they_were(yaml in random_ruleset::yaml()) {
        let Ok(base) = load("base.yaml", yaml.as_str()) else { return Ok(()) };
        let Some((before, after)) = editions(&yaml, &random_amendment::numbers_handed_on(&base.ruleset)) else { return Ok(()) };
        let was: Vec<_> = (0..after.clauses.len()).map(|index| Some(ClauseId::new(index))).collect();
        let held = held(&before, &after, &was, Method::DiagramsFirst, told);
        prop_assert!(held.is_ok(), "{}\n{yaml}", held.unwrap_err());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 25, ..ProptestConfig::default() })]

    #[test]
    fn so_it_is_with_the_solver_alone(yaml in random_ruleset::yaml(), tape in vec(any::<u16>(), 4..40)) {
        let Ok(base) = load("base.yaml", yaml.as_str()) else { return Ok(()) };
        let amendment = random_amendment::write_amendment(&base.ruleset, &tape);
        let held = draft_held(&yaml, &amendment, Method::SolverOnly, about);
        prop_assert!(held.is_ok(), "{}", held.unwrap_err());
    }
}

/// Small rulebooks of chapters, and drafts that mostly touch one of them, from a tape of numbers that
/// reads as zeros where it has run out.
struct Writer {
    tape: VecDeque<u16>,
}

impl Writer {
    fn below(&mut self, limit: usize) -> usize {
        usize::from(self.tape.pop_front().unwrap_or(0)) % limit
    }

    fn one_of(&mut self, words: &[&'static str]) -> &'static str {
        words[self.below(words.len())]
    }

    fn fact(&mut self) -> &'static str {
        self.one_of(&[
            "kind is lock",
            "kind is throw",
            "force at least firm",
            "force is light",
            "wet",
            "not wet",
            "rough",
        ])
    }

    fn condition(&mut self, chapter: usize) -> String {
        let fact = self.fact();
        match self.below(4) {
            0 => format!("chapter is c{chapter} and {fact}"),
            1 => format!("chapter is c{chapter} and ({fact} or {})", self.fact()),
            2 => format!("chapter is c{chapter} and {fact} and {}", self.fact()),
            _ => format!("chapter is not c{chapter} and {fact}"),
        }
    }

    fn ruling(&mut self) -> String {
        let value = self.one_of(&["none", "caution", "ban"]);
        match self.below(3) {
            0 => format!("{{play: {}}}", self.one_of(&["on", "stops"])),
            _ => format!("{{penalty: {value}}}"),
        }
    }

    fn principle(&mut self) -> &'static str {
        self.one_of(&[
            "impartial_to: [wet]",
            "rises_with: force, ruling: penalty",
            "whenever: chapter is c0 and wet, expect: penalty is not ban",
            "whenever: kind is throw, expect: play is on",
        ])
    }

    fn book(&mut self) -> String {
        let silent = self.one_of(&[", otherwise: none", ""]);
        let mut yaml = format!(
            "ruleset: Chapters
attributes:
  chapter: {{label: the chapter, choice: [c0, c1, c2]}}
  kind: {{label: the kind, choice: [throw, lock]}}
  force: {{label: the force, scale: [light, firm, full], judged: true}}
  wet: {{label: the mat was wet}}
terms:
  rough: {{narrow: force is full, broad: force at least firm}}
rulings:
  penalty: {{scale: [none, caution, ban]{silent}}}
  play: {{choice: [on, stops], otherwise: on}}
principles:
  - {{id: P1, {}}}
  - {{id: P2, {}}}
clauses:
",
            self.principle(),
            self.principle()
        );
        for index in 0..4 + self.below(5) {
            let chapter = self.below(3);
            let (when, ruling) = (self.condition(chapter), self.ruling());
            let _ = write!(
                yaml,
                "  - {{id: \"{index}\", when: {when}, ruling: {ruling}"
            );
            if index > 0 && self.below(2) == 1 {
                let key = self.one_of(&["notwithstanding", "subject_to", "disapplies"]);
                let _ = write!(yaml, ", {key}: [\"{}\"]", self.below(index));
            }
            if self.below(4) == 1 {
                let _ = write!(yaml, ", unless: {}", self.fact());
            }
            yaml.push_str("}\n");
        }
        yaml
    }

    fn draft(&mut self) -> String {
        let mut yaml = String::from("amendment: Random changes\nchanges:\n");
        for number in 0..=self.below(2) {
            let clause = self.below(4);
            let chapter = self.below(3);
            let change = match self.below(10) {
                0 => {
                    let condition = self.condition(chapter);
                    format!("set: {{clause: \"{clause}\", when: {condition}}}")
                }
                1 => format!("set: {{clause: \"{clause}\", ruling: {}}}", self.ruling()),
                2 | 3 => format!("repeal: \"{clause}\""),
                4 | 5 => {
                    let key = self.one_of(&["notwithstanding", "disapplies"]);
                    format!("set: {{clause: \"{}\", {key}: [\"{clause}\"]}}", clause + 1)
                }
                6 => {
                    let key = self.one_of(&["notwithstanding", "subject_to", "unless"]);
                    format!("set: {{clause: \"{clause}\", leave_out: {key}}}")
                }
                7 => format!("set: {{principle: P1, {}}}", self.principle()),
                8 => format!("renumber: \"{clause}\"\n    to: \"7{number}\""),
                _ => format!(
                    "insert: {{id: \"8{number}\", when: {}, ruling: {}}}",
                    self.condition(chapter),
                    self.ruling()
                ),
            };
            let _ = writeln!(yaml, "  - {change}");
        }
        yaml
    }
}

/// Holds a random book of chapters and a random draft.
fn chapters_held(
    tape: Vec<u16>,
    method: Method,
    told: fn(&Ruleset, &Finding) -> String,
) -> Result<(), String> {
    let mut writer = Writer { tape: tape.into() };
    let (yaml, amendment) = (writer.book(), writer.draft());
    draft_held(&yaml, &amendment, method, told)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn what_no_change_can_reach_is_taken_over(tape in vec(any::<u16>(), 20..90)) {
        let held = chapters_held(tape, Method::DiagramsFirst, told);
        prop_assert!(held.is_ok(), "{}", held.unwrap_err());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn what_no_change_can_reach_is_not_asked_of_the_solver(tape in vec(any::<u16>(), 20..90)) {
        let held = chapters_held(tape, Method::SolverOnly, about);
        prop_assert!(held.is_ok(), "{}", held.unwrap_err());
    }
}

/// What `held` says of a draft to a book.
fn drafted(book: &str, draft: &str, method: Method) -> Result<(), String> {
    assert!(editions(book, draft).is_some());
    let told = match method {
        Method::DiagramsFirst => told,
        Method::SolverOnly => about,
    };
    draft_held(book, draft, method, told)
}

const TWO_CLAUSES: &str = "\
ruleset: Two clauses
attributes:
  kind: {label: the kind, choice: [throw, lock]}
  hard: {label: it was hard, judged: true}
  wet: {label: the mat was wet}
rulings:
  penalty: {scale: [none, caution, ban], otherwise: none}
principles:
  - {id: P1, impartial_to: [wet]}
clauses:
  - {id: \"1\", when: kind is lock and not hard, ruling: {penalty: caution}}
  - {id: \"2\", when: kind is lock and hard, ruling: {penalty: caution}}
";

/// The two clauses are never met in one incident, but in the two halves of a pair they are.
#[test]
fn a_change_reaches_the_other_half_of_a_pair() {
    let draft = "amendment: Harder\nchanges:\n  - set: {clause: \"2\", ruling: {penalty: ban}}\n";
    for method in [Method::DiagramsFirst, Method::SolverOnly] {
        assert_eq!(drafted(TWO_CLAUSES, draft, method), Ok(()));
    }
}

/// No clause is another, but what is promised of them is.
#[test]
fn another_promise_is_asked_about_anew() {
    let draft = "amendment: Promise\nchanges:\n  - set: {principle: P1, impartial_to: [kind]}\n";
    for method in [Method::DiagramsFirst, Method::SolverOnly] {
        assert_eq!(drafted(TWO_CLAUSES, draft, method), Ok(()));
    }
}

/// A rulebook of many chapters that have nothing to do with each other.
fn chapters(count: usize) -> String {
    let names: Vec<String> = (0..count).map(|chapter| format!("c{chapter}")).collect();
    let mut yaml = format!(
        "ruleset: Chapters
attributes:
  chapter: {{label: the chapter, choice: [{}]}}
  kind: {{label: the kind, choice: [throw, lock, choke]}}
  force: {{label: the force, scale: [light, firm, full], judged: true}}
  wet: {{label: the mat was wet}}
rulings:
  penalty: {{scale: [none, caution, ban, exclusion], otherwise: none}}
principles:
  - {{id: P1, impartial_to: [wet]}}
  - {{id: P2, rises_with: force, ruling: penalty}}
clauses:
",
        names.join(", ")
    );
    for (index, name) in names.iter().enumerate() {
        let full = if index % 2 == 0 { "ban" } else { "exclusion" };
        let _ = write!(
            yaml,
            "  - {{id: \"{name}.1\", when: chapter is {name} and kind is lock, ruling: {{penalty: caution}}}}
  - {{id: \"{name}.2\", when: chapter is {name} and kind is lock and force is full, ruling: {{penalty: {full}}}, notwithstanding: \"{name}.1\"}}
  - {{id: \"{name}.3\", when: chapter is {name} and kind is choke, unless: wet, ruling: {{penalty: caution}}}}
"
        );
    }
    yaml
}

/// However many chapters there are, a draft that changes one asks no more questions than the rules as
/// they stand have answered.
#[test]
fn a_longer_rulebook_brings_no_more_questions() {
    let draft = "\
amendment: One chapter
changes:
  - set: {clause: c1.2, when: chapter is c1 and kind is lock and force is at least firm}
  - insert: {id: c1.4, when: chapter is c1 and kind is throw, ruling: {penalty: ban}}
";
    let questions = |count: usize| {
        let drafts = [("draft.yaml".to_owned(), draft.to_owned())];
        let layered = Layered::read("base.yaml", chapters(count), &drafts).unwrap();
        let options = Options::default();
        let alone = check(&layered.base.ruleset, &options);
        let before = options.budget.questions();
        let vetted = vet(&layered, &[0], &options).unwrap();
        assert!(!vetted.rows.is_empty() && vetted.open.is_empty());
        assert_eq!(alone.findings.len(), vetted.checked_before.findings.len());
        let all = options.budget.questions() - before;
        (before, all - before)
    };
    let ((few, beyond), (many, still)) = (questions(10), questions(40));
    assert!(few < many && 0 < beyond, "{few} {many} {beyond}");
    assert_eq!(beyond, still, "beyond {few}, and beyond {many}");
}
