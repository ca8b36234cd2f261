//! Makes the record of a ruleset: every verdict of a check, each with what it rests on.
//!
//! A claim is put together from questions. One that a scenario answers is recorded with the scenario;
//! one that none answers is put into clauses, refuted, and the refutation replayed on the spot. Only
//! where a sum is too large for clauses two solvers are asked instead, and the record says so.

mod claims;
mod clauses;
mod formula;
mod gates;
mod plans;
mod refute;
mod scripts;

pub use claims::{Disagreement, Prover, Recorded, SecondSolver};
pub use formula::{Formal, Put};

use super::dimacs::Cnf;
use super::question::Question;
use crate::logic::{Formula, Name, Theory};
use crate::model::Ruleset;

/// A question as propositional clauses; `None` where a sum is too large for them.
pub fn question_in_clauses(ruleset: &Ruleset, question: &Question) -> Option<Cnf> {
    question_in_clauses_by(ruleset, question, &|theory, name| theory.define(name))
}

/// The same with other definitions: what a mistake in one would lead to.
pub fn question_in_clauses_by(
    ruleset: &Ruleset,
    question: &Question,
    define: &dyn Fn(&Theory<'_>, Name) -> Formula,
) -> Option<Cnf> {
    let formal = Formal::new(ruleset, question);
    let Put {
        theory,
        asked,
        edits,
    } = formal.put();
    clauses::clauses((theory.ruleset(), &edits), &asked, &|name| {
        define(&theory, name)
    })
    .map(|claimed| claimed.cnf)
    .ok()
}
