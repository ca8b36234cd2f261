//! What principles speak of, said once more.

use super::rules::facts_read;
use crate::model::{AttributeId, Condition, ConditionKind, DimensionId, Ruleset};
use crate::read::draft::WhenSeveral;
use std::collections::{BTreeMap, BTreeSet};

/// For dimensions, one value that the ruling may come out as, or that there is none.
pub(super) type Chosen = BTreeMap<DimensionId, Option<usize>>;

/// The most choices that are told one by one.
const MOST_CHOICES: usize = 512;

/// What a party changes by a move: what it sets and the move reads; without a move, all that it sets.
pub(super) fn set_by(
    ruleset: &Ruleset,
    party: &str,
    by: Option<&Condition>,
) -> BTreeSet<AttributeId> {
    let read = by.map(|by| facts_read(ruleset, by));
    let mut own = BTreeSet::new();
    for (index, attribute) in ruleset.attributes.iter().enumerate() {
        let id = AttributeId::new(index);
        let moved = read.as_ref().is_none_or(|read| read.contains(&id));
        if attribute.set_by.as_deref() == Some(party) && moved {
            own.insert(id);
        }
    }
    own
}

/// The parts that an expectation is made of, each of which is to hold.
pub(super) fn parts_of(expect: &Condition) -> Vec<&Condition> {
    match &expect.kind {
        ConditionKind::All(parts) => parts.iter().flat_map(parts_of).collect(),
        _ => vec![expect],
    }
}

/// Every choice of a value, or of none, for each dimension that a condition reads and whose rulings don't
/// all apply; `None` where there are too many.
pub(super) fn choices(ruleset: &Ruleset, condition: &Condition) -> Option<Vec<Chosen>> {
    let mut read: BTreeSet<DimensionId> = BTreeSet::new();
    condition.each_part(&mut |part| {
        if let ConditionKind::Ruling { dimension, .. } = part.kind {
            read.insert(dimension);
        }
    });
    read.retain(|on| ruleset[*on].when_several != WhenSeveral::AllApply);
    let mut all = vec![Chosen::new()];
    for on in read {
        let values = ruleset[on].values.len();
        if all.len().saturating_mul(values + 1) > MOST_CHOICES {
            return None;
        }
        let mut longer = Vec::new();
        for known in all {
            for value in (0..values).map(Some).chain([None]) {
                let mut more = known.clone();
                more.insert(on, value);
                longer.push(more);
            }
        }
        all = longer;
    }
    Some(all)
}
