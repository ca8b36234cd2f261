//! Four ways to the same answer: decision diagrams, Z3, trying every scenario, and the plain
//! evaluator; and a second solver for what is written down.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stderr,
    clippy::disallowed_methods,
    reason = "a test may fail, says what it skips, and sets deadlines"
)]

#[path = "../benches/rulebook/generate.rs"]
mod rulebook;
mod support;

use evenhand::analysis::{Options, Outcome, check};
use evenhand::logic::{Formula, Layers, Name, Replay, Scenario, Unasked, World};
use evenhand::model::{AttributeId, ClauseId, DimensionId, Kind, Ruleset, TermId, Test, ValueSet};
use evenhand::solve::smtlib::{self, Expected};
use evenhand::solve::{
    Answer, Budget, DiagramSolver, Enumerator, Reason, Solver, Z3Solver, scenarios,
};
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use support::random_ruleset;

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

fn load(yaml: &str) -> Result<Ruleset, evenhand::load::Refused> {
    evenhand::load::load("random.yaml", yaml).map(|loaded| loaded.ruleset)
}

/// Everything that has a name in a world.
fn names(ruleset: &Ruleset, world: World) -> Vec<Name> {
    let mut names = Vec::new();
    for clause in (0..ruleset.clauses.len()).map(ClauseId::new) {
        names.extend([Name::Met(world, clause), Name::InForce(world, clause)]);
        let on = ruleset[clause].rulings.iter();
        names.extend(on.map(|(dimension, _)| Name::Stands(world, clause, *dimension)));
    }
    for dimension in (0..ruleset.dimensions.len()).map(DimensionId::new) {
        names.extend([
            Name::Spoken(world, dimension),
            Name::Due(world, dimension),
            Name::Gap(world, dimension),
            Name::Clash(world, dimension),
            Name::Settled(world, dimension),
        ]);
        let values = 0..u8::try_from(ruleset[dimension].values.len()).unwrap();
        names.extend(values.map(|value| Name::Allowed(world, dimension, value)));
    }
    names
}

/// Everything that has a name, in the ruleset as it stands and without each of its clauses.
fn all_names(ruleset: &Ruleset) -> Vec<Name> {
    let mut all = vec![Name::Possible];
    all.extend((0..ruleset.attributes.len()).map(|index| Name::Asked(AttributeId::new(index))));
    for term in (0..ruleset.terms.len()).map(TermId::new) {
        for unasked in [Unasked::Neither, Unasked::TakenAsNo] {
            all.extend([
                Name::TermTrue(unasked, term),
                Name::TermFalse(unasked, term),
            ]);
        }
    }
    all.extend(names(ruleset, World::Actual));
    for clause in (0..ruleset.clauses.len()).map(ClauseId::new) {
        all.extend(names(ruleset, World::Without(clause)));
    }
    all
}

/// The question that exactly one scenario answers.
fn exactly(scenario: &Scenario, ruleset: &Ruleset) -> Formula {
    let facts = (0..ruleset.attributes.len())
        .map(AttributeId::new)
        .map(|attribute| {
            use evenhand::model::AttributeKind as Kind;
            let Some(code) = scenario.get(attribute) else {
                return Formula::from(Name::Asked(attribute)).negated();
            };
            Formula::all(match &ruleset[attribute].kind {
                Kind::YesNo | Kind::Choice(_) | Kind::Scale(_) => {
                    vec![Formula::Holds(Test::OneOf {
                        attribute,
                        values: ValueSet::one(usize::try_from(code.0).unwrap()),
                    })]
                }
                Kind::Number(_) => vec![Formula::Holds(Test::Within {
                    attribute,
                    low: i64::try_from(code.0).unwrap(),
                    high: i64::try_from(code.0).unwrap(),
                })],
                Kind::Several(items) => (0..items.len())
                    .map(|item| {
                        let present = u32::try_from(code.0 >> item & 1).unwrap();
                        Formula::Holds(Test::Several {
                            attribute,
                            items: ValueSet::one(item),
                            least: present,
                            most: present,
                        })
                    })
                    .collect(),
            })
        });
    Formula::all(facts)
}

fn is_yes(answer: &Answer) -> bool {
    match answer {
        Answer::Yes(_) => true,
        Answer::No => false,
        Answer::Undecided(reason) => panic!("undecided: {reason}"),
    }
}

proptest! {
    #![proptest_config(cases(40))]

    #[test]
    fn solvers_agree_on_what_holds_somewhere(yaml in random_ruleset::yaml()) {
        let Ok(ruleset) = load(&yaml) else { return Ok(()) };
        let names = all_names(&ruleset);
        let mut somewhere = BTreeSet::new();
        for scenario in scenarios(&ruleset).unwrap() {
            let replay = Replay::new(&ruleset, &scenario);
            let here = names.iter().filter(|name| replay.holds(&Formula::from(**name)));
            somewhere.extend(here.copied().collect::<Vec<_>>());
        }
        let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited());
        let mut enumerator = Enumerator::new(&ruleset, Budget::unlimited());
        for (index, name) in names.iter().enumerate() {
            let question = Formula::from(*name);
            let expected = somewhere.contains(name);
            prop_assert_eq!(is_yes(&z3.ask(&question)), expected, "{:?}", name);
            if index % 8 == 0 {
                prop_assert_eq!(is_yes(&enumerator.ask(&question)), expected, "{:?}", name);
            }
        }
    }

    /// Alone and in a conjunction, of which the first part is worked out before the second.
    #[test]
    fn diagrams_agree_on_what_holds_somewhere(yaml in random_ruleset::yaml()) {
        let Ok(ruleset) = load(&yaml) else { return Ok(()) };
        let names = all_names(&ruleset);
        let beside = |index: usize| Formula::all([
            Formula::from(names[index]),
            Formula::from(names[(index * 7 + 3) % names.len()]).negated(),
        ]);
        let questions: Vec<Formula> = names.iter().map(|name| Formula::from(*name))
            .chain((0..names.len()).map(beside))
            .collect();
        let mut expected = vec![false; questions.len()];
        for scenario in scenarios(&ruleset).unwrap() {
            let replay = Replay::new(&ruleset, &scenario);
            for (question, somewhere) in questions.iter().zip(&mut expected) {
                *somewhere = *somewhere || replay.holds(question);
            }
        }
        let budget = Budget::unlimited();
        let mut diagrams = DiagramSolver::new(&ruleset, Layers::new(&ruleset), budget.clone()).unwrap();
        let mut other = DiagramSolver::sharing(&ruleset, diagrams.shared(), budget);
        let answers: Vec<Answer> = questions.iter().map(|question| diagrams.ask(question)).collect();
        for ((question, answer), somewhere) in questions.iter().zip(&answers).zip(expected) {
            prop_assert_eq!(is_yes(answer), somewhere, "{:?}", question);
        }
        // Whatever was asked before, and by whichever thread's solver.
        for (question, answer) in questions.iter().zip(&answers).rev().step_by(3) {
            prop_assert_eq!(&other.ask(question), answer, "{:?}", question);
        }
    }

    #[test]
    fn solvers_agree_on_each_scenario(yaml in random_ruleset::yaml(), skip in 0usize..200) {
        let Ok(ruleset) = load(&yaml) else { return Ok(()) };
        let names = all_names(&ruleset);
        let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited());
        for scenario in scenarios(&ruleset).unwrap().skip(skip).step_by(150).take(6) {
            let replay = Replay::new(&ruleset, &scenario);
            let here = exactly(&scenario, &ruleset);
            let so = Formula::all(names.iter().map(|name| {
                let name = Formula::from(*name);
                if replay.holds(&name) { name } else { name.negated() }
            }));
            let question = Formula::all([here.clone(), so.clone()]);
            prop_assert_eq!(z3.ask(&question), Answer::Yes(scenario));
            let question = Formula::all([here, so.negated()]);
            prop_assert_eq!(z3.ask(&question), Answer::No);
        }
    }

    #[test]
    fn an_answer_does_not_depend_on_what_was_asked_before(yaml in random_ruleset::yaml()) {
        let Ok(ruleset) = load(&yaml) else { return Ok(()) };
        let names = names(&ruleset, World::Actual);
        let answers = |names: Vec<Name>| {
            let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited());
            let answers = names.into_iter().map(|name| z3.ask(&Formula::from(name)));
            answers.collect::<Vec<_>>()
        };
        let forward = answers(names.clone());
        let mut backward = std::thread::scope(|scope| {
            let names = names.iter().rev().copied().collect();
            scope.spawn(|| answers(names)).join().unwrap()
        });
        backward.reverse();
        prop_assert_eq!(forward, backward);
    }
}

proptest! {
    #![proptest_config(cases(12))]

    #[test]
    fn a_second_solver_agrees_on_what_is_written_down(yaml in random_ruleset::yaml()) {
        let Ok(ruleset) = load(&yaml) else { return Ok(()) };
        let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited());
        for name in all_names(&ruleset).into_iter().step_by(5) {
            let question = Formula::from(name);
            let expected = if is_yes(&z3.ask(&question)) { Expected::Some } else { Expected::None };
            let script = smtlib::script(&ruleset, &question, "A name.", Some(expected));
            let Some(answer) = cvc5(&script) else {
                eprintln!("skipped: cvc5 is not installed");
                return Ok(());
            };
            prop_assert_eq!(answer, Ok(expected), "{}", script);
        }
    }
}

/// What cvc5 answers, or what it says instead; `None` where it isn't installed.
fn cvc5(script: &str) -> Option<Result<Expected, String>> {
    let mut child = Command::new("cvc5")
        .args(["--lang", "smt2", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .ok()?;
    child
        .stdin
        .take()
        .unwrap()
        .write_all(script.as_bytes())
        .unwrap();
    let output = child.wait_with_output().unwrap();
    let words = String::from_utf8_lossy(&output.stdout).into_owned();
    Some(match words.trim() {
        "sat" => Ok(Expected::Some),
        "unsat" => Ok(Expected::None),
        _ => Err(words),
    })
}

#[test]
fn most_random_rulesets_are_valid() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let mut faults = Vec::new();
    for _ in 0..200 {
        let yaml = random_ruleset::yaml()
            .new_tree(&mut runner)
            .unwrap()
            .current();
        if let Err(refused) = load(&yaml) {
            faults.push((yaml, refused.problems));
        }
    }
    let shown: Vec<String> = faults
        .iter()
        .take(5)
        .map(|(yaml, problems)| format!("{yaml}\n{problems:#?}"))
        .collect();
    assert!(
        faults.len() <= 20,
        "{} of 200: {}",
        faults.len(),
        shown.join("\n")
    );
}

#[test]
fn a_chain_as_long_as_the_rulebook_is_no_burden() {
    let mut yaml = String::from(
        "ruleset: A chain\nattributes:\n  held:\nrulings:\n  penalty:\n    scale: [none, caution]\nclauses:\n  - id: \"0\"\n    ruling:\n      penalty: none\n",
    );
    for index in 1..10_000 {
        let below = index - 1;
        yaml += &[
            "  - id: \"",
            &index.to_string(),
            "\"\n    disapplies: \"",
            &below.to_string(),
            "\"\n",
        ]
        .concat();
    }
    let ruleset = load(&yaml).unwrap();
    let in_force = |index| Formula::from(Name::InForce(World::Actual, ClauseId::new(index)));
    let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited());
    assert!(
        !is_yes(&z3.ask(&in_force(0))),
        "the clause above it is in force"
    );
    assert!(is_yes(&z3.ask(&in_force(1))), "the clause above it is off");
}

/// So many holes that one pigeon more will not fit: a question that takes a solver very long.
fn pigeons(holes: usize) -> (Ruleset, Formula) {
    let seat = |pigeon: usize, hole: usize| format!("pigeon_{pigeon}_in_{hole}");
    let mut yaml = String::from("ruleset: Pigeons\nattributes:\n");
    for pigeon in 0..=holes {
        for hole in 0..holes {
            yaml += &["  ", &seat(pigeon, hole), ":\n"].concat();
        }
    }
    yaml.push_str("rulings:\n  penalty:\n    scale: [none, caution]\nclauses:\n  - id: \"1\"\n    ruling:\n      penalty: none\n");
    let sits = |pigeon: usize, hole: usize| {
        Formula::Holds(Test::OneOf {
            attribute: AttributeId::new(pigeon * holes + hole),
            values: ValueSet::one(1),
        })
    };
    let housed = (0..=holes).map(|pigeon| Formula::any((0..holes).map(|hole| sits(pigeon, hole))));
    let pairs = (0..=holes).flat_map(|one| (0..one).map(move |other| (one, other)));
    let apart = pairs.flat_map(|(one, other)| {
        (0..holes).map(move |hole| Formula::all([sits(one, hole), sits(other, hole)]).negated())
    });
    let question = Formula::all(housed.chain(apart));
    (load(&yaml).unwrap(), question)
}

#[test]
fn a_hard_question_ends_when_the_time_is_up_or_someone_interrupts() {
    let (ruleset, question) = pigeons(14);
    let soon = Instant::now() + Duration::from_millis(200);
    let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited().until(soon));
    assert_eq!(z3.ask(&question), Answer::Undecided(Reason::Time));

    let budget = Budget::unlimited();
    let mut z3 = Z3Solver::new(&ruleset, budget.clone());
    std::thread::scope(|scope| {
        scope.spawn(|| {
            std::thread::sleep(Duration::from_millis(200));
            budget.interrupt();
        });
        assert_eq!(z3.ask(&question), Answer::Undecided(Reason::Interrupted));
    });
    // Small enough, the same question is answered.
    let (ruleset, question) = pigeons(4);
    let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited());
    assert_eq!(z3.ask(&question), Answer::No);
}

#[test]
fn what_a_diagram_cannot_hold_is_said_to_be_too_large() {
    // Which of the pigeons sit in pairs of neighbouring holes: no order of asking makes that small.
    let (ruleset, question) = pigeons(9);
    let budget = Budget::unlimited();
    let mut diagrams = DiagramSolver::new(&ruleset, Layers::new(&ruleset), budget).unwrap();
    let answer = diagrams.ask(&question);
    assert_eq!(answer, Answer::Undecided(Reason::DiagramTooLarge));
}

#[test]
fn what_cannot_be_enumerated_is_said_to_be_too_large() {
    let (ruleset, question) = pigeons(5);
    let mut enumerator = Enumerator::new(&ruleset, Budget::unlimited());
    assert_eq!(
        enumerator.ask(&question),
        Answer::Undecided(Reason::TooLarge)
    );
    assert!(scenarios(&ruleset).is_none());
}

#[test]
fn a_generated_rulebook_has_the_planted_contradictions_and_no_gap() {
    for seed in 1..=3 {
        let book = rulebook::write(rulebook::Plan {
            clauses: 200,
            planted: 6,
            silence: rulebook::Silence::Gap,
            seed,
        });
        let ruleset = load(&book.yaml).unwrap();
        assert_eq!(ruleset.clauses.len(), 200);
        let checked = check(
            &ruleset,
            &Options {
                kinds: vec![Kind::Contradiction, Kind::Gap],
                ..Options::default()
            },
        );
        let id = |clause: &ClauseId| ruleset[*clause].id.clone();
        let mut found: Vec<Vec<String>> = checked
            .findings
            .iter()
            .map(|finding| finding.clauses.iter().map(id).collect())
            .collect();
        let mut planted: Vec<Vec<String>> = book
            .planted
            .into_iter()
            .map(|(one, other)| vec![one, other])
            .collect();
        found.sort();
        planted.sort();
        assert_eq!(found, planted);
        for verdict in &checked.verdicts {
            match verdict.kind {
                Kind::Gap => assert_eq!(verdict.outcome, Outcome::Proved),
                _ => assert!(matches!(verdict.outcome, Outcome::Found | Outcome::Proved)),
            }
        }
    }
}

#[test]
fn a_question_is_written_down_in_the_words_of_the_ruleset() {
    let yaml = "\
ruleset: Small
attributes:
  hold:
    choice: [none, lock]
  joint:
    choice: [elbow, knee]
    asked_when: hold is lock
  touching:
    several: [hand, back]
rulings:
  penalty:
    scale: [none, caution]
    otherwise: none
clauses:
  - id: 7.1
    when: joint is not elbow
    unless: touching includes any of (hand, back)
    ruling:
      penalty: caution
";
    let ruleset = load(yaml).unwrap();
    let question = Formula::from(Name::InForce(World::Actual, ClauseId::new(0)));
    let script = smtlib::script(
        &ruleset,
        &question,
        "Is 7.1 ever in force?",
        Some(Expected::Some),
    );
    let expected = "\
; Is 7.1 ever in force?
(set-info :smt-lib-version 2.6)
(set-info :status sat)
(set-logic QF_LIA)

; The facts of a scenario.
; hold: 0 none, 1 lock
(declare-const |hold| Int)
(assert (<= 0 |hold| 1))
; joint: 0 elbow, 1 knee
(declare-const |joint| Int)
(assert (<= 0 |joint| 1))
(declare-const |touching includes hand| Bool)
(declare-const |touching includes back| Bool)

; What the names stand for, each after what it rests on.
(define-fun |joint is asked| () Bool
  (= |hold| 1))
(define-fun |7.1 is met| () Bool
  (and
    (and |joint is asked| (not (= |joint| 0)))
    (not (or |touching includes hand| |touching includes back|))))
(define-fun |7.1 is in force| () Bool
  |7.1 is met|)
(define-fun |the background is kept| () Bool
  true)

; What isn't asked has no value; it is pinned to no, zero, or the empty set.
(assert (or |joint is asked| (= |joint| 0)))

; No scenario breaks the background.
(assert |the background is kept|)

; The question.
(assert
  |7.1 is in force|)
(check-sat)
";
    assert_eq!(script, expected);
}
