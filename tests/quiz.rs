//! Questions and their key, held against plain loops over all scenarios of random small rulesets; and
//! what a class is given of the rulesets that come with it.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test says what went wrong by failing"
)]

mod common;
mod support;

use assert_cmd::Command;
use common::{load, load_text};
use evenhand::logic::{
    Basis, Code, Established, Evaluator, Outcome, Ruling, Scenario, same_ruling,
};
use evenhand::model::{AttributeId, DimensionId, Origin, Ruleset};
use evenhand::quiz::{Answer, Form, Level, Part, Question, Quiz, Request, Temptation, quiz};
use evenhand::report::quiz::{Paper, cards, markdown};
use evenhand::scenario::{Bearing, Parts, Wanted};
use evenhand::solve::{Budget, scenarios};
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::fs;

/// Rulesets with more scenarios take too long to try.
const MOST: usize = 400;

fn asked(ruleset: &Ruleset, count: usize, level: Option<Level>, seed: u64) -> Quiz {
    let request = Request {
        wanted: Wanted::default(),
        count,
        level,
        seed,
        jobs: None,
    };
    quiz(ruleset, &request, &Budget::unlimited())
}

type Said = (Scenario, Outcome);

fn all(ruleset: &Ruleset) -> Vec<Said> {
    let evaluator = Evaluator::new(ruleset);
    let every = scenarios(ruleset).unwrap();
    every
        .map(|scenario| {
            let said = evaluator.outcome(&scenario);
            (scenario, said)
        })
        .collect()
}

fn is_reading(ruleset: &Ruleset, id: AttributeId) -> bool {
    ruleset[id].origin != Origin::Stated
}

/// The rulings of all scenarios that have some facts.
fn rulings<'a>(
    all: &'a [Said],
    on: DimensionId,
    has: impl Fn(&Scenario) -> bool + 'a,
) -> impl Iterator<Item = Ruling> + 'a {
    all.iter()
        .filter(move |(scenario, _)| has(scenario))
        .map(move |(_, said)| said.rulings[on.index()])
}

/// The answer is the only one: whoever is told the facts, or only those that are enough, is ruled so.
fn check_answer(ruleset: &Ruleset, all: &[Said], on: DimensionId, part: &Part) {
    let facts: Vec<(AttributeId, Code)> = part.facts.facts().collect();
    assert!(facts.iter().all(|(id, _)| !is_reading(ruleset, *id)));
    let has_all = |scenario: &Scenario| part.facts.agrees_with(scenario);
    let found: Vec<Ruling> = rulings(all, on, has_all).collect();
    assert!(!found.is_empty());
    for ruling in &found {
        assert!(!matches!(ruling.basis, Basis::Gap | Basis::Contradiction));
    }
    match part.answer {
        Answer::Ruled(answer) => {
            assert!(found.iter().all(|ruling| same_ruling(*ruling, answer)));
            let Some(enough) = &part.enough else {
                return;
            };
            let mut few = Established::nothing(ruleset.attributes.len());
            for id in enough {
                few.set(*id, part.facts.get(*id));
            }
            let mut told = rulings(all, on, |scenario| few.agrees_with(scenario));
            assert!(told.all(|ruling| same_ruling(ruling, answer)));
        }
        Answer::Judgement => {
            assert!(found.windows(2).any(|two| !same_ruling(two[0], two[1])));
            assert!(part.reasons().len() > 2);
        }
    }
}

/// Each part differs from the first in exactly one fact that both ask.
fn check_differences(ruleset: &Ruleset, question: &Question) {
    let (first, others) = question.parts.split_first().unwrap();
    assert_eq!(first.differs, None);
    for part in others {
        let differing: Vec<AttributeId> = (0..ruleset.attributes.len())
            .map(AttributeId::new)
            .filter(|id| match (first.facts.get(*id), part.facts.get(*id)) {
                (Some(one), Some(other)) => one != other,
                _ => false,
            })
            .collect();
        assert_eq!(differing, Vec::from_iter(part.differs));
    }
    let alike = question.parts.iter().enumerate().any(|(index, part)| {
        let before = &question.parts[..index];
        before.iter().any(|other| other.facts == part.facts)
    });
    assert!(!alike);
}

/// What is said of clauses that are met, or not, is so under this reading.
fn holds_under(
    ruleset: &Ruleset,
    on: DimensionId,
    (wrong, tempts): (Ruling, &Temptation),
    scenario: &Scenario,
    said: &Outcome,
) {
    let evaluator = Evaluator::new(ruleset);
    let in_force = in_force_of(said);
    match tempts {
        Temptation::Disapplied { clause, by } => {
            assert!(said.met.contains(clause.index()) && !in_force(clause));
            assert!(by.iter().all(in_force));
        }
        Temptation::Displaced { clause, by } => {
            assert!(in_force(clause) && !said.stands(*clause, on));
            assert!(by.iter().all(in_force));
        }
        Temptation::Outweighed { clause } => assert!(said.stands(*clause, on)),
        Temptation::NearlyMet { clause, .. } => {
            let parts = Parts::of(ruleset, *clause).parts;
            let mut fails = parts
                .iter()
                .map(|part| part.bearing(evaluator, scenario, said, false) == Bearing::Fails);
            assert!(!said.met.contains(clause.index()) && fails.any(|it| it));
        }
        Temptation::NotMet { clause } => assert!(!said.met.contains(clause.index())),
        Temptation::NoClause { but } => assert!(but.iter().all(|id| said.stands(*id, on))),
        Temptation::NoReading => {
            let ruling = said.rulings[on.index()];
            assert!(!same_ruling(ruling, wrong));
        }
        Temptation::Reading { .. } | Temptation::OneReading | Temptation::Nothing => {}
    }
}

/// What is offered is right once, wrong otherwise, and tempts as it is said to, under every reading
/// among `every` scenario of a ruleset that is small enough.
fn check_offers(ruleset: &Ruleset, question: &Question, every: &[Said]) {
    let on = question.dimension;
    let evaluator = Evaluator::new(ruleset);
    for part in &question.parts {
        match (&part.claim, question.form) {
            (None, Form::Choose) => {
                let options = question.options.iter();
                assert_eq!(options.filter(|it| it.is(&part.answer)).count(), 1);
            }
            (Some(claim), Form::TrueOrFalse | Form::WasItRight) => {
                assert_eq!(claim.holds, claim.answer.is(&part.answer));
                if let (false, Answer::Ruled(one), Answer::Ruled(other)) =
                    (claim.holds, claim.answer, part.answer)
                {
                    assert!(one.values.intersect(other.values).is_empty());
                }
                assert!(claim.by.is_none() || question.form == Form::WasItRight);
            }
            _ => panic!("a claim in the wrong form"),
        }
        let scenario = &part.scenario;
        let said = evaluator.outcome(scenario);
        for wrong in &part.wrong {
            assert!(!wrong.answer.is(&part.answer));
            let Answer::Ruled(ruling) = wrong.answer else {
                assert!(matches!(wrong.tempts, Temptation::Reading { .. }));
                continue;
            };
            let readings = every
                .iter()
                .filter(|(scenario, _)| part.facts.agrees_with(scenario));
            for (scenario, said) in readings.clone() {
                holds_under(ruleset, on, (ruling, &wrong.tempts), scenario, said);
            }
            if let Some(clause) = wrong.tempts.clause() {
                assert_eq!(ruleset[clause].ruling_on(on), Some(ruling.values));
            }
            let in_force = |id: &evenhand::model::ClauseId| said.in_force.contains(id.index());
            match &wrong.tempts {
                Temptation::Disapplied { clause, by } => {
                    assert!(said.met.contains(clause.index()) && !in_force(clause));
                    assert!(!by.is_empty() && by.iter().all(in_force));
                    assert!(
                        by.iter()
                            .all(|id| ruleset[*clause].disapplied_by.contains(id))
                    );
                }
                Temptation::Displaced { clause, by } => {
                    assert!(in_force(clause) && !said.stands(*clause, on));
                    assert!(!by.is_empty() && by.iter().all(in_force));
                    assert!(by.iter().all(|id| ruleset[*clause].yields_to.contains(id)));
                }
                Temptation::Outweighed { clause } => assert!(said.stands(*clause, on)),
                Temptation::NearlyMet { clause, here } => {
                    assert!(!said.met.contains(clause.index()) && !here.is_empty());
                    let parts = Parts::of(ruleset, *clause).parts;
                    let fails = |part: &evenhand::scenario::Part| {
                        part.bearing(evaluator, scenario, &said, false) == Bearing::Fails
                    };
                    assert!(parts.iter().any(fails));
                }
                Temptation::NotMet { clause } => assert!(!said.met.contains(clause.index())),
                Temptation::NoClause { but } => {
                    let otherwise = ruleset[on].otherwise == Some(ruling.values);
                    assert!(otherwise || ruling.basis == Basis::Silence);
                    assert!(but.iter().all(|id| said.stands(*id, on)) && !but.is_empty());
                }
                Temptation::OneReading => assert!(part.answer.is(&Answer::Judgement)),
                Temptation::Nothing => {}
                Temptation::NoReading => assert!(every.is_empty() || readings.count() > 1),
                Temptation::Reading { .. } => panic!("a ruling is no reading"),
            }
        }
        let standing = part.cited.iter();
        if !part.answer.is(&Answer::Judgement) {
            assert!(standing.clone().all(in_force_of(&said)));
        }
    }
}

fn in_force_of(said: &Outcome) -> impl Fn(&evenhand::model::ClauseId) -> bool + '_ {
    |id| said.in_force.contains(id.index())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_key_is_what_enumeration_finds(text in support::random_ruleset::yaml(), seed in 0u64..9) {
        let Ok(ruleset) = load_text("random.yaml", &text) else {
            return Ok(());
        };
        if scenarios(&ruleset).is_none_or(|all| all.take(MOST + 1).count() > MOST) {
            return Ok(());
        }
        let every = all(&ruleset);
        if every.is_empty() {
            return Ok(());
        }
        let made = asked(&ruleset, 8, None, seed);
        for question in &made.questions {
            for part in &question.parts {
                check_answer(&ruleset, &every, question.dimension, part);
            }
            check_differences(&ruleset, question);
            check_offers(&ruleset, question, &every);
        }
        cards(&ruleset, &made).unwrap();
    }
}

#[test]
fn the_demo_gives_ten_questions_with_little_in_common() {
    let ruleset = load("rulesets/grappling.yaml");
    let made = asked(&ruleset, 10, None, 1);
    assert_eq!(made.questions.len(), 10);
    let about: BTreeSet<_> = made.questions.iter().flat_map(|it| &it.clauses).collect();
    assert!(about.len() >= 10);
    let forms: BTreeSet<Form> = made.questions.iter().map(|it| it.form).collect();
    assert_eq!(forms.len(), 3);
    for question in &made.questions {
        check_differences(&ruleset, question);
        check_offers(&ruleset, question, &[]);
    }
    let again = asked(&ruleset, 10, None, 1);
    assert_eq!(
        markdown(&ruleset, &made, Paper::Both),
        markdown(&ruleset, &again, Paper::Both)
    );
    let other = asked(&ruleset, 10, None, 2);
    assert_ne!(
        markdown(&ruleset, &made, Paper::Sheet),
        markdown(&ruleset, &other, Paper::Sheet)
    );
}

#[test]
fn a_level_is_kept_to_and_what_is_missing_is_said() {
    let ruleset = load("rulesets/throws.yaml");
    for level in [Level::Easy, Level::Medium, Level::Hard] {
        let made = asked(&ruleset, 4, Some(level), 1);
        assert!(
            made.questions
                .iter()
                .all(|it| it.difficulty.level() == level)
        );
    }
    let made = asked(&ruleset, 500, Some(Level::Easy), 1);
    assert!(made.questions.len() < 500 && made.of_other_levels > 0);
    let page = markdown(&ruleset, &made, Paper::Sheet);
    assert!(page.contains("of this kind, not 500"), "{page}");
}

#[test]
fn cards_are_a_table_of_two_columns_with_a_card_for_each_part() {
    let ruleset = load("rulesets/ball.yaml");
    let made = asked(&ruleset, 5, None, 1);
    let parts: usize = made.questions.iter().map(|it| it.parts.len()).sum();
    let text = cards(&ruleset, &made).unwrap();
    let mut table = csv::Reader::from_reader(text.as_bytes());
    assert_eq!(table.headers().unwrap(), vec!["front", "back"]);
    let rows: Vec<csv::StringRecord> = table.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), parts);
    assert!(rows.iter().all(|row| row.len() == 2 && row[0] != row[1]));
}

#[test]
fn signs_of_the_page_in_labels_are_only_words() {
    let text = "
ruleset: Signs
edition: \"1\"
attributes:
  hit:
    label: \"*hit* <b>hard</b> [so](x)\"
rulings:
  play:
    choice: [continues, stops]
    otherwise: continues
clauses:
  - id: \"1\"
    when: hit
    ruling: {play: stops}
";
    let ruleset = match load_text("signs.yaml", text) {
        Ok(ruleset) => ruleset,
        Err(problems) => panic!("{problems:?}"),
    };
    let made = asked(&ruleset, 3, None, 1);
    assert!(!made.questions.is_empty());
    let page = markdown(&ruleset, &made, Paper::Both);
    assert!(!page.contains("<b>") && page.contains("\\<b\\>"), "{page}");
}

#[test]
fn the_key_goes_to_a_file_of_its_own() {
    let folder = std::env::temp_dir().join(format!("evenhand-quiz-{}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    let [sheet, key] = ["sheet.md", "key.md"].map(|name| folder.join(name));
    let run = |further: &[&str]| {
        let mut command = Command::cargo_bin("evenhand").unwrap();
        command.args(["quiz", "rulesets/ball.yaml", "--count", "3"]);
        command.args(further).assert()
    };
    let paths = [&sheet, &key].map(|path| path.to_str().unwrap());
    run(&[
        "--format", "markdown", "--output", paths[0], "--key", paths[1],
    ])
    .code(0);
    let [sheet, key] = paths.map(|path| fs::read_to_string(path).unwrap());
    assert!(!sheet.contains("Because") && key.contains("**Because**"));
    for page in [&sheet, &key] {
        assert!(page.contains("The appointed officials and the rules in force"));
    }
    run(&[
        "--format", "markdown", "--output", paths[0], "--key", paths[0],
    ])
    .code(2);
    run(&["--format", "json", "--key", paths[1]]).code(2);
    run(&["--clause", "99"]).code(2);
    fs::remove_dir_all(folder).unwrap();
}

/// A rule book in which words are open, a ruling is left to the official, and one is not due.
const OPEN: &str = "
ruleset: Open words
edition: \"1\"
attributes:
  sort: {label: what it is, choice: [hold, coach]}
  held: {label: how long it is held, scale: [short, middling, lengthy], asked_when: sort is hold}
  shouts: {label: the coach shouts, asked_when: sort is coach}
  again: {label: it is not the first time, asked_when: sort is coach}
terms:
  long:
    label: long
    narrow: held is lengthy
    broad: held at least middling
rulings:
  bout:
    label: the bout
    choice: {goes_on: goes on, stops: is stopped}
    required_when: sort is hold
  coach:
    label: the coach
    choice: {stays: stays, warned: is warned, gone: is sent away}
    required_when: sort is coach
clauses:
  - id: \"1\"
    title: Long
    when: long
    ruling: {bout: stops}
  - id: \"2\"
    title: No longer short
    when: held at least middling
    ruling: {bout: stops}
    subject_to: [\"1\"]
  - id: \"3\"
    title: Short
    when: held is short
    ruling: {bout: goes_on}
  - id: \"4\"
    title: The coach
    when: sort is coach and not shouts
    ruling: {coach: stays}
  - id: \"5\"
    title: Shouting
    when: shouts and not again
    ruling: {coach: {may_be: [stays, warned]}}
  - id: \"6\"
    title: Shouting again
    when: shouts and again
    ruling: {coach: gone}
";

#[test]
fn reasons_hold_under_every_reading_and_answers_can_be_told_apart() {
    let ruleset = match load_text("open.yaml", OPEN) {
        Ok(ruleset) => ruleset,
        Err(problems) => panic!("{problems:?}"),
    };
    let pages: Vec<String> = (0..4)
        .map(|seed| markdown(&ruleset, &asked(&ruleset, 20, None, seed), Paper::Both))
        .collect();
    let all = pages.join("\n");
    // Where it is middling, either clause may be the reason.
    let both = "A word is open here, and the ruling is the same however it is read. If \"long\" is taken narrowly: Clause 2 (No longer short) rules: is stopped. If \"long\" is taken broadly: Clause 1 (Long) rules: is stopped. Clause 2 (No longer short) is met as well, but gives way to clause 1.";
    assert!(all.contains(both), "{all}");
    for words in [
        "stays or is warned, as the official decides",
        "stays, and the official has no choice",
        "False. The bout: ",
    ] {
        assert!(all.contains(words), "{words}: {all}");
    }
    for words in ["no ruling", "It is: "] {
        assert!(!all.contains(words), "{words}: {all}");
    }
}
