//! Whether a scenario, or a pair of them, answers a question, by the plain evaluator.

use super::principles::{choices, set_by};
use super::rules::asked_because;
use super::wording::without_part;
use crate::logic::{
    Basis, Change, Edit, Evaluator, Outcome, Precedence, Ruling, Scenario, Truth, Unasked, is_valid,
};
use crate::model::{
    AttributeId, ClauseId, Condition, DimensionId, Gain, Meaning, Promise, Ruleset, ValueSet,
    Wording,
};
use crate::proof::Question;
use crate::read::draft::WhenSeveral;
use std::collections::BTreeSet;

/// What answers a question: a scenario, or two.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Example {
    /// The scenario; of a pair, the first.
    pub first: Scenario,
    /// The second of a pair.
    pub second: Option<Scenario>,
}

impl From<Scenario> for Example {
    fn from(first: Scenario) -> Example {
        Example {
            first,
            second: None,
        }
    }
}

/// Whether the scenarios keep the background, have a value for exactly what is asked, and answer the
/// question: two where it is about two, else one.
pub fn shows(ruleset: &Ruleset, question: &Question, example: &Example) -> bool {
    let Example { first, second } = example;
    match second {
        None => is_valid(ruleset, first) && shows_one(ruleset, question, first),
        Some(second) => {
            let both = [first, second];
            both.iter().all(|scenario| is_valid(ruleset, scenario))
                && shows_two(ruleset, question, both)
        }
    }
}

fn shows_one(ruleset: &Ruleset, question: &Question, scenario: &Scenario) -> bool {
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
        // Only ever asked where the answer is that there is none, or of two scenarios.
        Question::OtherLoose(_)
        | Question::OtherPresupposes(_)
        | Question::Any(_)
        | Question::Turns(_) => false,
        Question::Met(clause) => outcome.met.contains(clause.index()),
        Question::Counts(clause) => {
            let mut rulings = ruleset[*clause].rulings.iter();
            outcome.in_force.contains(clause.index())
                && (ruleset[*clause].rulings.is_empty()
                    || rulings.any(|(dimension, _)| outcome.stands(*clause, *dimension)))
        }
        Question::TurnsOnPart(clause, way) => without_part(ruleset, *clause, way)
            .is_some_and(|when| turns_on(ruleset, *clause, when, scenario)),
        Question::TurnsOnReference(clause, index) => {
            let Some(edit) = without_reference(ruleset, *clause, *index) else {
                return false;
            };
            let changed = Evaluator::edited(ruleset, &edit).outcome(scenario);
            outcome.in_force.contains(clause.index())
                && !outcome.announces_the_same(&changed, ruleset)
        }
        Question::Breaks(place) => match ruleset.principles.get(*place).map(|it| &it.promise) {
            Some(Promise::Expect { whenever, expect }) => {
                evaluator.truth(whenever, Unasked::Neither, scenario, &outcome) == Truth::True
                    && need_not_be(ruleset, expect, scenario, &outcome)
            }
            _ => false,
        },
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

/// Whether something turns on a clause's having another condition: it is met with one of the two only;
/// and an announced ruling is another, or the clause is newly in force and something else is ruled.
fn turns_on(ruleset: &Ruleset, clause: ClauseId, when: Condition, scenario: &Scenario) -> bool {
    let edit = Edit::from(Change::When { clause, when });
    let now = Evaluator::new(ruleset).outcome(scenario);
    let then = Evaluator::edited(ruleset, &edit).outcome(scenario);
    let index = clause.index();
    if now.met.contains(index) == then.met.contains(index) {
        return false;
    }
    let otherwise = |on: DimensionId, said: ValueSet| {
        let ruling = then.rulings.get(on.index());
        ruling.is_none_or(|ruling| ruling.values.intersect(said).is_empty())
    };
    let mut rulings = ruleset[clause].rulings.iter();
    !now.announces_the_same(&then, ruleset)
        || then.in_force.contains(index)
            && !now.met.contains(index)
            && rulings.any(|(on, said)| otherwise(*on, *said))
}

fn without_reference(ruleset: &Ruleset, clause: ClauseId, index: usize) -> Option<Edit> {
    let reference = ruleset[clause].references.get(index)?;
    let mut changes = Vec::new();
    for other in &reference.others {
        let (precedence, first, then) = match reference.wording {
            Wording::Notwithstanding => (Precedence::Prevails, clause, *other),
            Wording::SubjectTo => (Precedence::Prevails, *other, clause),
            Wording::Disapplies => (Precedence::Disapplies, clause, *other),
        };
        changes.push(Change::Loses {
            precedence,
            first,
            then,
        });
    }
    Some(Edit { changes })
}

/// Whether an expectation need not be so, however the discretion that the rulings leave is used.
fn need_not_be(
    ruleset: &Ruleset,
    expect: &Condition,
    scenario: &Scenario,
    outcome: &Outcome,
) -> bool {
    let evaluator = Evaluator::new(ruleset);
    let parts = super::principles::parts_of(expect);
    parts.into_iter().any(|part| {
        let all = choices(ruleset, part).unwrap_or_default();
        all.into_iter().any(|choice| {
            let mut chosen = outcome.clone();
            for (on, value) in choice {
                let Some(ruling) = chosen.rulings.get_mut(on.index()) else {
                    return false;
                };
                match value {
                    Some(value) if ruling.values.contains(value) => {
                        *ruling = Ruling {
                            basis: Basis::Clauses,
                            values: ValueSet::one(value),
                        };
                    }
                    None if ruling.values.is_empty() => {}
                    _ => return false,
                }
            }
            evaluator.truth(part, Unasked::Neither, scenario, &chosen) != Truth::True
        })
    })
}

fn shows_two(ruleset: &Ruleset, question: &Question, both: [&Scenario; 2]) -> bool {
    let evaluator = Evaluator::new(ruleset);
    let outcomes = both.map(|scenario| evaluator.outcome(scenario));
    let another = || {
        let [first, second] = &outcomes;
        !first.announces_the_same(second, ruleset)
    };
    let promise = match question {
        Question::Turns(judged) => {
            return related(ruleset, &judged.iter().copied().collect(), both) && another();
        }
        Question::Breaks(place) => ruleset.principles.get(*place).map(|it| &it.promise),
        _ => None,
    };
    // Exactly one value in both, and lower in the one than in the other.
    let lower = |on: DimensionId, low: usize, high: usize| {
        let values = |which: usize| {
            let ruling = outcomes.get(which)?.rulings.get(on.index())?;
            let exactly = ruling.is_settled(ruleset[on].when_several);
            exactly.then_some(ruling.values)
        };
        let lowest = values(low).and_then(ValueSet::lowest);
        let highest = values(high).and_then(ValueSet::highest);
        lowest.zip(highest).is_some_and(|(low, high)| low < high)
    };
    let becomes = |condition: &Condition| {
        let so = both.into_iter().zip(&outcomes).map(|(scenario, outcome)| {
            evaluator.truth(condition, Unasked::Neither, scenario, outcome) == Truth::True
        });
        so.collect::<Vec<_>>() == [false, true]
    };
    match promise {
        Some(Promise::ImpartialTo(attributes)) => {
            related(ruleset, &attributes.iter().copied().collect(), both) && another()
        }
        Some(Promise::RisesWith {
            attribute,
            dimension,
        }) => {
            let [first, second] = both.map(|scenario| scenario.get(*attribute));
            let more = first.zip(second).is_some_and(|(low, high)| low.0 < high.0);
            related(ruleset, &BTreeSet::from([*attribute]), both) && more && lower(*dimension, 1, 0)
        }
        Some(Promise::NoGain { party, by, gain }) => {
            related(ruleset, &set_by(ruleset, party, by.as_ref()), both)
                && by.as_ref().is_none_or(becomes)
                && match gain {
                    Gain::Raising(on) => lower(*on, 0, 1),
                    Gain::Lowering(on) => lower(*on, 1, 0),
                    Gain::To(rulings) => becomes(rulings),
                }
        }
        Some(Promise::Expect { .. }) | None => false,
    }
}

/// Whether two scenarios agree on all but what may differ: what is asked in one only because of that is
/// free, and what both ask is the same.
fn related(ruleset: &Ruleset, differing: &BTreeSet<AttributeId>, both: [&Scenario; 2]) -> bool {
    let loose = asked_because(ruleset, differing);
    (0..ruleset.attributes.len())
        .map(AttributeId::new)
        .filter(|id| !differing.contains(id))
        .all(|id| {
            let [one, other] = both.map(|scenario| scenario.get(id));
            one == other || loose.contains(&id) && (one.is_none() || other.is_none())
        })
}
