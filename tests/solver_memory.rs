//! A limit on memory. Z3 keeps one limit for the whole process, so that this test is alone in its own.

#![allow(clippy::unwrap_used, reason = "a test may fail")]

use evenhand::logic::{Formula, Name, World};
use evenhand::model::{ClauseId, DimensionId};
use evenhand::solve::{Answer, Budget, Reason, Solver, Z3Solver};

#[path = "../benches/rulebook/generate.rs"]
mod generate;

#[test]
fn a_question_that_takes_too_much_memory_is_given_up_and_said_so() {
    let book = generate::write(generate::Plan {
        clauses: 1_000,
        planted: 0,
        silence: generate::Silence::Gap,
        seed: 1,
    });
    assert!(book.planted.is_empty());
    let ruleset = evenhand::load::load("generated.yaml", book.yaml)
        .unwrap()
        .ruleset;
    let penalty = DimensionId::new(0);
    let clash = Formula::from(Name::Clash(World::Actual, penalty));
    let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited().memory_mib(4));
    assert_eq!(z3.ask(&clash), Answer::Undecided(Reason::Memory));

    let mut z3 = Z3Solver::new(&ruleset, Budget::unlimited().memory_mib(2_000));
    let first = Formula::from(Name::Stands(World::Actual, ClauseId::new(0), penalty));
    assert!(matches!(z3.ask(&first), Answer::Yes(_)));
}
