//! What a condition reads.

use crate::model::{AttributeId, Condition, ConditionKind, Meaning, Ruleset, TermId};
use fixedbitset::FixedBitSet;

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
