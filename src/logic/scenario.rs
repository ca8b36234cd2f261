//! One whole incident: a value for every attribute that is asked, none for the others.

use crate::model::{AttributeId, AttributeKind, Ruleset};
use num_bigint::BigUint;
use std::fmt;

/// The value of one attribute as a code.
///
/// Yes/no: 0 or 1. Choice and scale: the index of the value. Number: the step, counted from the low
/// end. Several: one bit an item, lowest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(pub u64);

/// A whole incident. Readings of vague terms are among its values.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Scenario {
    values: Vec<Option<Code>>,
}

impl Scenario {
    /// A scenario in which nothing is asked yet; `attributes` is how many the ruleset has.
    pub fn unasked(attributes: usize) -> Self {
        Scenario {
            values: vec![None; attributes],
        }
    }

    /// The value of an attribute; `None` where it is not asked.
    pub fn get(&self, attribute: AttributeId) -> Option<Code> {
        self.values.get(attribute.index()).copied().flatten()
    }

    /// Gives an attribute a value, or none.
    pub fn set(&mut self, attribute: AttributeId, value: Option<Code>) {
        if let Some(slot) = self.values.get_mut(attribute.index()) {
            *slot = value;
        }
    }

    /// The attributes that have a value, in order, with their values.
    pub fn facts(&self) -> impl Iterator<Item = (AttributeId, Code)> {
        let values = self.values.iter().enumerate();
        values.filter_map(|(index, value)| value.map(|code| (AttributeId::new(index), code)))
    }
}

/// The highest code that a value of this kind has.
pub fn highest_code(kind: &AttributeKind) -> u64 {
    match kind {
        AttributeKind::YesNo => 1,
        AttributeKind::Choice(values) | AttributeKind::Scale(values) => {
            values.len().saturating_sub(1) as u64
        }
        AttributeKind::Number(range) => u64::try_from(range.steps).unwrap_or(0),
        AttributeKind::Several(items) => {
            let items = u32::try_from(items.len()).unwrap_or(u32::MAX);
            u64::MAX
                .checked_shr(64u32.saturating_sub(items))
                .unwrap_or(0)
        }
    }
}

/// How a value is written in a file and on the command line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Written {
    /// A yes/no value, or a reading (yes is the broad one).
    YesNo(bool),
    /// The name of a value.
    Word(String),
    /// A number, in the attribute's unit.
    Number(String),
    /// The names of the items.
    Items(Vec<String>),
}

/// A value in the words of the ruleset.
pub fn written(ruleset: &Ruleset, attribute: AttributeId, code: Code) -> Written {
    let named = |index: usize| {
        let names = ruleset[attribute].kind.names();
        names
            .get(index)
            .map_or_else(String::new, |value| value.name.clone())
    };
    match &ruleset[attribute].kind {
        AttributeKind::YesNo => Written::YesNo(code.0 != 0),
        AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
            Written::Word(named(usize::try_from(code.0).unwrap_or(usize::MAX)))
        }
        AttributeKind::Number(range) => Written::Number(
            range
                .value(i64::try_from(code.0).unwrap_or(i64::MAX))
                .to_string(),
        ),
        AttributeKind::Several(items) => {
            let present = (0..items.len()).filter(|index| code.0 >> index & 1 == 1);
            Written::Items(present.map(named).collect())
        }
    }
}

impl fmt::Display for Written {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Written::YesNo(yes) => f.write_str(if *yes { "yes" } else { "no" }),
            Written::Word(word) | Written::Number(word) => f.write_str(word),
            Written::Items(items) if items.is_empty() => f.write_str("none of them"),
            Written::Items(items) => f.write_str(&items.join(", ")),
        }
    }
}

/// How many scenarios, and whether the number is exact.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Count {
    /// The number.
    pub scenarios: BigUint,
    /// `false`: at least this many.
    pub exact: bool,
}
