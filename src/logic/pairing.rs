//! Which two scenarios make a pair.
//!
//! The two agree on everything but what may change. What is asked only because of such a change is
//! free in the scenario that asks it; whatever both ask and may not change has one value in both.
//! Solvers get pairs as a [`Twin`](super::Twin), diagrams as steps from one set to another; both
//! begin from here.

use super::reads::attributes_asked_by;
use super::{Code, Scenario};
use crate::model::{AttributeId, Ruleset};
use std::collections::BTreeSet;

/// How the second scenario of a pair may stand to the first.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Pairing {
    changing: BTreeSet<AttributeId>,
    rising: Option<AttributeId>,
    loose: BTreeSet<AttributeId>,
}

impl Pairing {
    /// Pairs in which these attributes (readings of vague terms among them) may take any value in
    /// either scenario.
    pub fn changing(ruleset: &Ruleset, attributes: BTreeSet<AttributeId>) -> Self {
        let loose = asked_through(ruleset, &attributes);
        Pairing {
            changing: attributes,
            rising: None,
            loose,
        }
    }

    /// Pairs in which this attribute is asked in both scenarios and higher in the second.
    pub fn rising(ruleset: &Ruleset, attribute: AttributeId) -> Self {
        let loose = asked_through(ruleset, &BTreeSet::from([attribute]));
        Pairing {
            changing: BTreeSet::new(),
            rising: Some(attribute),
            loose,
        }
    }

    /// The attributes that may take any value in either scenario.
    pub fn changing_attributes(&self) -> &BTreeSet<AttributeId> {
        &self.changing
    }

    /// The attribute that is higher in the second scenario.
    pub fn rising_attribute(&self) -> Option<AttributeId> {
        self.rising
    }

    /// The attributes that may be asked in one scenario only; where both ask, they agree.
    pub fn loose_attributes(&self) -> &BTreeSet<AttributeId> {
        &self.loose
    }

    /// All attributes that may have another value, or none, in the second scenario.
    pub fn touched(&self) -> BTreeSet<AttributeId> {
        let own = self.changing.iter().chain(&self.rising);
        own.chain(&self.loose).copied().collect()
    }

    /// Whether two scenarios make such a pair.
    pub fn holds(&self, first: &Scenario, second: &Scenario, attributes: usize) -> bool {
        (0..attributes).map(AttributeId::new).all(|id| {
            let (one, other) = (first.get(id), second.get(id));
            if self.changing.contains(&id) {
                true
            } else if self.rising == Some(id) {
                one.zip(other)
                    .is_some_and(|(Code(one), Code(other))| one < other)
            } else if self.loose.contains(&id) {
                one.zip(other).is_none_or(|(one, other)| one == other)
            } else {
                one == other
            }
        })
    }
}

/// What may be asked, or no longer be asked, because these change; they themselves left out.
fn asked_through(ruleset: &Ruleset, changing: &BTreeSet<AttributeId>) -> BTreeSet<AttributeId> {
    let mut loose = BTreeSet::new();
    for id in &ruleset.asking_order {
        let decided = attributes_asked_by(ruleset, *id);
        let mut decided = decided.ones().map(AttributeId::new);
        if !changing.contains(id) && decided.any(|by| changing.contains(&by) || loose.contains(&by))
        {
            loose.insert(*id);
        }
    }
    loose
}
