//! What a condition reads.

use crate::model::{
    AttributeId, Condition, ConditionKind, Meaning, QuantityValue, Ruleset, TermId, Test,
};
use crate::source::{Span, words};
use fixedbitset::FixedBitSet;
use std::collections::{BTreeMap, BTreeSet};

/// The attributes that a condition reads, terms followed; the reading of a vague term is one of them.
pub fn attributes_read(ruleset: &Ruleset, condition: &Condition) -> FixedBitSet {
    reads(ruleset, vec![condition], Vec::new())
}

/// The attributes that the meaning of a term reads; its reading, if it is vague, is one of them.
pub fn attributes_read_by_term(ruleset: &Ruleset, term: TermId) -> FixedBitSet {
    reads(ruleset, Vec::new(), vec![term])
}

/// The attributes that decide whether an attribute is asked; for a reading, whether its term is open.
pub fn attributes_asked_by(ruleset: &Ruleset, attribute: AttributeId) -> FixedBitSet {
    let this = &ruleset[attribute];
    let mut open: Vec<&Condition> = this.asked_when.iter().collect();
    if let crate::model::Origin::Reading(term) = this.origin
        && let Meaning::Vague { narrow, broad, .. } = &ruleset[term].meaning
    {
        open.extend([narrow, broad]);
    }
    reads(ruleset, open, Vec::new())
}

/// These attributes, and all that decide whether they are asked.
pub fn with_askers(
    ruleset: &Ruleset,
    ids: impl IntoIterator<Item = AttributeId>,
) -> BTreeSet<AttributeId> {
    let mut found = BTreeSet::new();
    let mut open: Vec<AttributeId> = ids.into_iter().collect();
    while let Some(id) = open.pop() {
        if found.insert(id) {
            let by = attributes_asked_by(ruleset, id);
            open.extend(by.ones().map(AttributeId::new));
        }
    }
    found
}

/// The quantities that the words of a condition name, by index, each with the words of the comparison;
/// terms are not followed.
///
/// A condition keeps amounts, not names, so this is read off the words that it was made from.
pub fn quantities_named(ruleset: &Ruleset, condition: &Condition) -> Vec<(usize, Span)> {
    if ruleset.quantities.is_empty() {
        return Vec::new();
    }
    let known: BTreeMap<&str, usize> = ruleset
        .quantities
        .iter()
        .enumerate()
        .map(|(index, quantity)| (quantity.name.as_str(), index))
        .collect();
    let mut found = Vec::new();
    condition.each_part(&mut |part| {
        let row_of = match &part.kind {
            ConditionKind::Missing(_) => None,
            ConditionKind::Fact { test, .. } => match test {
                Test::OneOf { attribute, .. } => Some(*attribute),
                Test::Within { .. } | Test::Linear(_) => None,
                Test::Same { .. } | Test::Several { .. } => return,
            },
            _ => return,
        };
        let said: Vec<&str> = words(ruleset.sources.slice(part.span)).collect();
        for (place, word) in said.iter().enumerate() {
            let beside = |place: Option<usize>| place.and_then(|it| said.get(it)).copied();
            let (before, behind) = (beside(place.checked_sub(1)), beside(Some(place + 1)));
            let Some(index) = known.get(word) else {
                continue;
            };
            if compares(before, word, behind) {
                continue;
            }
            // A value may have the name of a quantity; a row of a table is a comparison with its own.
            let by = match ruleset.quantities.get(*index).map(|it| &it.value) {
                Some(QuantityValue::Column { by, .. }) => Some(*by),
                _ => None,
            };
            if row_of.is_none_or(|attribute| by == Some(attribute))
                && !found.contains(&(*index, part.span))
            {
                found.push((*index, part.span));
            }
        }
    });
    found
}

/// Whether a word is part of `at least`, `more than` and their kin: a quantity may be called so.
fn compares(before: Option<&str>, word: &str, behind: Option<&str>) -> bool {
    match word {
        "least" | "most" => before == Some("at"),
        "more" | "less" => behind == Some("than"),
        "between" => matches!(before, Some("is" | "not")),
        _ => false,
    }
}

fn reads<'r>(
    ruleset: &'r Ruleset,
    mut open: Vec<&'r Condition>,
    mut named: Vec<TermId>,
) -> FixedBitSet {
    let mut attributes = FixedBitSet::with_capacity(ruleset.attributes.len());
    let mut terms = FixedBitSet::with_capacity(ruleset.terms.len());
    loop {
        if let Some(term) = named.pop() {
            if terms.put(term.index()) {
                continue;
            }
            match &ruleset[term].meaning {
                Meaning::Sharp(meaning) => open.push(meaning),
                Meaning::Vague {
                    narrow,
                    broad,
                    reading,
                } => {
                    attributes.insert(reading.index());
                    open.extend([narrow, broad]);
                }
            }
        } else if let Some(condition) = open.pop() {
            condition.each_part(&mut |part| match &part.kind {
                ConditionKind::Fact { test, .. } => {
                    let read = test.attributes().into_iter();
                    read.for_each(|id| attributes.insert(id.index()));
                }
                ConditionKind::Term(term) => named.push(*term),
                _ => {}
            });
        } else {
            return attributes;
        }
    }
}
