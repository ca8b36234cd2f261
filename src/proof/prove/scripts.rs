//! Claims as SMT-LIB text, for any solver.

use super::formula::{Put, broken, formula, turning};
use super::plans::Plan;
use crate::analysis::asked::{self, Against};
use crate::logic::{Formula, Theory};
use crate::model::{AttributeId, Ruleset};
use crate::proof::Question;
use crate::solve::smtlib::{self, Asks, Expected, Posed};
use std::collections::BTreeSet;

/// One question alone.
pub(super) fn one(put: &Put<'_>, words: &str) -> String {
    smtlib::script_over(&put.theory, &put.asked, words, Some(Expected::None))
}

/// All questions of a claim.
pub(super) fn claim(ruleset: &Ruleset, plan: &Plan, comment: &str) -> String {
    let some = plan.some.iter().map(|(one, _)| (one, Expected::Some));
    let none = plan.none.iter().map(|one| (one, Expected::None));
    let each: Vec<(&Question, Expected)> = none
        .chain(some)
        .flat_map(|(question, expected)| match question {
            Question::Any(several) => several.iter().map(|one| (one, expected)).collect(),
            one => vec![(one, expected)],
        })
        .collect();
    match each.as_slice() {
        [(Question::Turns(_), _), ..] => by_judgement(ruleset, &each, comment),
        [(question @ Question::Breaks(place), expected)] => match broken(ruleset, *place) {
            Some(Against::Two(twin, asked)) => {
                let theory = Theory::new(twin.ruleset());
                let posed = posed(ruleset, question, *expected, Asks::Holds(asked));
                smtlib::claim(&theory, comment, &[posed])
            }
            Some(Against::One(_)) | None => by_scenario(ruleset, &each, comment),
        },
        _ => by_scenario(ruleset, &each, comment),
    }
}

fn posed(ruleset: &Ruleset, question: &Question, expected: Expected, asks: Asks) -> Posed {
    Posed {
        words: question.words(ruleset),
        asks,
        expected,
    }
}

/// Questions about single scenarios, of the ruleset and of others with a small change.
fn by_scenario(ruleset: &Ruleset, each: &[(&Question, Expected)], comment: &str) -> String {
    let theory = Theory::new(ruleset);
    let questions: Vec<Posed> = each
        .iter()
        .map(|(question, expected)| {
            let asks = match turning(&theory, question) {
                Some(turning) => Asks::Changes {
                    world: turning.world,
                    within: turning.within,
                    dimensions: turning.dimensions,
                    beside: turning.beside,
                },
                None => Asks::Holds(formula(&theory, question, &mut Vec::new())),
            };
            posed(ruleset, question, *expected, asks)
        })
        .collect();
    smtlib::claim(&theory, comment, &questions)
}

/// Questions about pairs, all as scenarios of the twin in which whatever is judged may differ.
fn by_judgement(ruleset: &Ruleset, each: &[(&Question, Expected)], comment: &str) -> String {
    let all: BTreeSet<AttributeId> = each
        .iter()
        .flat_map(|(question, _)| match question {
            Question::Turns(judged) => judged.clone(),
            _ => Vec::new(),
        })
        .collect();
    let (twin, _) = asked::turns_on(ruleset, &all);
    let theory = Theory::new(twin.ruleset());
    let questions: Vec<Posed> = each
        .iter()
        .map(|(question, expected)| {
            let asked = match question {
                Question::Turns(judged) => {
                    let judged = judged.iter().copied().collect();
                    asked::turns_on_within(ruleset, &twin, &judged)
                }
                _ => Formula::False,
            };
            posed(ruleset, question, *expected, Asks::Holds(asked))
        })
        .collect();
    smtlib::claim(&theory, comment, &questions)
}
