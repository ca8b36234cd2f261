//! What has been established about one incident: some facts, perhaps not all.
//!
//! Each attribute is established with a value, or it is not established. That an attribute is not
//! asked is never noted: it follows from the facts.

use super::scenario::{Code, Scenario};
use super::{Formula, highest_code, is_asked, is_valid};
use crate::model::{AttributeId, AttributeKind, Ruleset, Test, ValueSet};

/// Some facts of one incident. Readings of vague terms are among them.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Established {
    values: Vec<Option<Code>>,
}

impl Established {
    /// Nothing is established yet; `attributes` is how many the ruleset has.
    pub fn nothing(attributes: usize) -> Self {
        Established {
            values: vec![None; attributes],
        }
    }

    /// All the facts of a scenario.
    pub fn whole(scenario: &Scenario, attributes: usize) -> Self {
        let mut all = Established::nothing(attributes);
        for (id, code) in scenario.facts() {
            all.set(id, Some(code));
        }
        all
    }

    /// The value of an attribute; `None` where it is not established.
    pub fn get(&self, attribute: AttributeId) -> Option<Code> {
        self.values.get(attribute.index()).copied().flatten()
    }

    /// Notes a fact, or that it is not established.
    pub fn set(&mut self, attribute: AttributeId, value: Option<Code>) {
        if let Some(slot) = self.values.get_mut(attribute.index()) {
            *slot = value;
        }
    }

    /// The facts, in the order of the ruleset's attributes.
    pub fn facts(&self) -> impl Iterator<Item = (AttributeId, Code)> {
        let values = self.values.iter().enumerate();
        values.filter_map(|(index, value)| value.map(|code| (AttributeId::new(index), code)))
    }

    /// How many facts are established.
    pub fn len(&self) -> usize {
        self.values.iter().flatten().count()
    }

    /// Whether the other facts take in all of these.
    pub fn is_within(&self, other: &Established) -> bool {
        self.facts().all(|(id, code)| other.get(id) == Some(code))
    }

    /// Whether nothing is established.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The facts in the shape of a scenario, which it need not be: what is not established looks as if
    /// it were not asked.
    pub(super) fn as_scenario(&self) -> Scenario {
        let mut scenario = Scenario::unasked(self.values.len());
        for (id, code) in self.facts() {
            scenario.set(id, Some(code));
        }
        scenario
    }

    /// Whether a scenario has all these facts.
    pub fn agrees_with(&self, scenario: &Scenario) -> bool {
        self.facts()
            .all(|(id, code)| scenario.get(id) == Some(code))
    }

    /// The scenario, where everything that is asked is established and nothing else, every value is
    /// one, and no background line is broken.
    pub fn scenario(&self, ruleset: &Ruleset) -> Option<Scenario> {
        let mut scenario = Scenario::unasked(ruleset.attributes.len());
        for id in &ruleset.asking_order {
            if is_asked(ruleset, &scenario, *id) {
                scenario.set(*id, Some(self.get(*id)?));
            }
        }
        (self.agrees_with(&scenario) && is_valid(ruleset, &scenario)).then_some(scenario)
    }

    /// The first attribute, in the order of asking, that is surely asked and not established: what
    /// there is to ask next. `None` where there is nothing more to ask, or where the facts cannot be
    /// followed further.
    pub fn asked_next(&self, ruleset: &Ruleset) -> Option<AttributeId> {
        let mut scenario = Scenario::unasked(ruleset.attributes.len());
        for id in &ruleset.asking_order {
            if is_asked(ruleset, &scenario, *id) {
                let Some(code) = self.get(*id) else {
                    return Some(*id);
                };
                scenario.set(*id, Some(code));
            }
        }
        None
    }

    /// Where an incident has these facts, as a formula.
    pub fn formula(&self, ruleset: &Ruleset) -> Formula {
        Formula::all(self.facts().map(|(id, code)| fact(ruleset, id, code)))
    }
}

/// Where an attribute is asked and has a value, as a formula.
pub fn fact(ruleset: &Ruleset, attribute: AttributeId, code: Code) -> Formula {
    let Code(value) = code;
    match &ruleset[attribute].kind {
        AttributeKind::YesNo | AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
            Formula::Holds(Test::OneOf {
                attribute,
                values: ValueSet::one(usize::try_from(value).unwrap_or(usize::MAX)),
            })
        }
        AttributeKind::Number(_) => {
            let step = i64::try_from(value).unwrap_or(i64::MAX);
            Formula::Holds(Test::Within {
                attribute,
                low: step,
                high: step,
            })
        }
        AttributeKind::Several(_) => {
            let all = ValueSet::from_bits(u128::from(highest_code(&ruleset[attribute].kind)));
            let present = ValueSet::from_bits(u128::from(value));
            let counted = |items: ValueSet, wanted: usize| {
                let wanted = u32::try_from(wanted).unwrap_or(u32::MAX);
                Formula::Holds(Test::Several {
                    attribute,
                    items,
                    least: wanted,
                    most: wanted,
                })
            };
            Formula::all([
                counted(present, present.len()),
                counted(all.minus(present), 0),
            ])
        }
    }
}
