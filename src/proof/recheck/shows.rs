//! Whether a scenario answers a question, by the plain evaluator.

use crate::logic::{Basis, Evaluator, Outcome, Scenario, Truth, Unasked, is_valid};
use crate::model::{ClauseId, DimensionId, Meaning, Ruleset};
use crate::proof::Question;
use crate::read::draft::WhenSeveral;

/// Whether the scenario keeps the background, has a value for exactly what is asked, and answers the
/// question.
pub fn shows(ruleset: &Ruleset, question: &Question, scenario: &Scenario) -> bool {
    if !is_valid(ruleset, scenario) {
        return false;
    }
    let evaluator = Evaluator::new(ruleset);
    let outcome = evaluator.outcome(scenario);
    let clashes = |dimension: DimensionId| basis(&outcome, dimension) == Some(Basis::Contradiction);
    let all_stand = |dimension: DimensionId, clauses: &[ClauseId]| {
        clauses
            .iter()
            .all(|clause| outcome.stands(*clause, dimension))
    };
    match question {
        Question::Scenario => true,
        Question::Clash(dimension, told) => {
            clashes(*dimension) && !told.iter().any(|family| all_stand(*dimension, family))
        }
        Question::Together(dimension, clauses) => {
            clashes(*dimension) && all_stand(*dimension, clauses)
        }
        Question::Gap(dimension) => basis(&outcome, *dimension) == Some(Basis::Gap),
        Question::Open(dimension) => {
            let ruling = outcome.rulings.get(dimension.index());
            ruleset[*dimension].when_several != WhenSeveral::AllApply
                && ruling.is_some_and(|ruling| ruling.values.len() > 1)
        }
        Question::Loose(term) => match &ruleset[*term].meaning {
            Meaning::Sharp(_) => false,
            Meaning::Vague { narrow, broad, .. } => {
                evaluator.plain_truth(narrow, scenario) == Truth::True
                    && evaluator.plain_truth(broad, scenario) != Truth::True
            }
        },
        Question::Presupposes(clause) => {
            let when = &ruleset[*clause].when;
            let taken = evaluator.truth(when, Unasked::TakenAsNo, scenario, &outcome);
            taken == Truth::True && !outcome.met.contains(clause.index())
        }
        // Only ever asked where the answer is that there is none.
        Question::OtherLoose(_) | Question::OtherPresupposes(_) | Question::Any(_) => false,
        Question::Met(clause) => outcome.met.contains(clause.index()),
        Question::Counts(clause) => {
            let mut rulings = ruleset[*clause].rulings.iter();
            outcome.in_force.contains(clause.index())
                && (ruleset[*clause].rulings.is_empty()
                    || rulings.any(|(dimension, _)| outcome.stands(*clause, *dimension)))
        }
        Question::Matters(clause) => {
            let without = Evaluator::without(ruleset, *clause).outcome(scenario);
            outcome.met.contains(clause.index()) && !outcome.announces_the_same(&without, ruleset)
        }
    }
}

fn basis(outcome: &Outcome, dimension: DimensionId) -> Option<Basis> {
    let ruling = outcome.rulings.get(dimension.index());
    ruling.map(|ruling| ruling.basis)
}
