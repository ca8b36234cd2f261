//! Rulings in words.

use crate::analysis::{and_list, or_list};
use crate::labels;
use crate::logic::{Basis, Ruling};
use crate::model::{DimensionId, Ruleset, WhenSeveral};

/// What a ruling comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Answer {
    /// One value, or for `all_apply` the set of all that apply.
    Settled,
    /// Several values, of which an official chooses.
    Discretion,
    /// None, though one is due.
    Gap,
    /// None, and none is due.
    Silence,
    /// Clauses whose rulings have nothing in common.
    Contradiction,
}

/// What a ruling comes to.
pub fn answer(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> Answer {
    match ruling.basis {
        Basis::Gap => Answer::Gap,
        Basis::Silence => Answer::Silence,
        Basis::Contradiction => Answer::Contradiction,
        Basis::Clauses | Basis::Default => {
            if ruling.is_settled(ruleset[dimension].when_several) {
                Answer::Settled
            } else {
                Answer::Discretion
            }
        }
    }
}

/// A ruling in labels: `caution`; `caution or disqualification, as the official decides`.
pub fn ruled(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> String {
    let values = labels::ruling(ruleset, dimension, ruling.values);
    match answer(ruleset, dimension, ruling) {
        Answer::Settled if values.is_empty() => "nothing".to_owned(),
        Answer::Settled if ruleset[dimension].when_several == WhenSeveral::AllApply => {
            and_list(&values)
        }
        Answer::Settled => or_list(&values),
        Answer::Discretion => format!("{}, as the official decides", or_list(&values)),
        Answer::Gap => "no ruling, though one is due".to_owned(),
        Answer::Silence => "no ruling".to_owned(),
        Answer::Contradiction => {
            "a contradiction: the rulings that stand have nothing in common".to_owned()
        }
    }
}
