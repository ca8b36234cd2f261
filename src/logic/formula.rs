//! Two-valued formulas, the form in which questions are put to a solver.
//!
//! A condition of the model is true, false or neither. Here both "is true" and "is false" become
//! ordinary two-valued formulas: negations are pushed inward to comparisons, and a comparison holds
//! or fails only where everything that it reads is asked. What has a name of its own (a term, a
//! clause in force, a value that a ruling allows) is referred to by that name, so that formulas
//! stay as small as the text; [`Theory`](super::Theory) says what a name stands for.

use super::{Name, World};
use crate::model::Test;

/// A two-valued formula over a scenario.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Formula {
    /// Holds everywhere.
    True,
    /// Holds nowhere.
    False,
    /// All attributes of the comparison are asked, and it is so.
    Holds(Test),
    /// All attributes of the comparison are asked, and it is not so.
    Fails(Test),
    /// What the name stands for.
    Named(Name),
    /// The part does not hold.
    Not(Box<Formula>),
    /// All parts hold; none: true.
    All(Vec<Formula>),
    /// Some part holds; none: false.
    Any(Vec<Formula>),
    /// At least so many of the parts hold.
    AtLeast(u32, Vec<Formula>),
}

impl Formula {
    /// All of the parts, simplified where a part is constant.
    pub fn all(parts: impl IntoIterator<Item = Formula>) -> Formula {
        let mut kept = Vec::new();
        for part in parts {
            match part {
                Formula::True => {}
                Formula::False => return Formula::False,
                Formula::All(inner) => kept.extend(inner),
                other => kept.push(other),
            }
        }
        match kept.len() {
            0 => Formula::True,
            1 => kept.remove(0),
            _ => Formula::All(kept),
        }
    }

    /// Any of the parts, simplified where a part is constant.
    pub fn any(parts: impl IntoIterator<Item = Formula>) -> Formula {
        let mut kept = Vec::new();
        for part in parts {
            match part {
                Formula::False => {}
                Formula::True => return Formula::True,
                Formula::Any(inner) => kept.extend(inner),
                other => kept.push(other),
            }
        }
        match kept.len() {
            0 => Formula::False,
            1 => kept.remove(0),
            _ => Formula::Any(kept),
        }
    }

    /// The contrary, simplified.
    pub fn negated(self) -> Formula {
        match self {
            Formula::True => Formula::False,
            Formula::False => Formula::True,
            Formula::Not(inner) => *inner,
            other => Formula::Not(Box::new(other)),
        }
    }

    /// At least `least` of the parts, simplified where that is trivial.
    pub fn at_least(least: u32, parts: Vec<Formula>) -> Formula {
        match usize::try_from(least).unwrap_or(usize::MAX) {
            0 => Formula::True,
            1 => Formula::any(parts),
            all if all == parts.len() => Formula::all(parts),
            more if more > parts.len() => Formula::False,
            _ => Formula::AtLeast(least, parts),
        }
    }

    /// The same said of another world, where it speaks of the ruleset as it stands.
    #[must_use]
    pub fn in_world(&self, world: World) -> Formula {
        let parts = |parts: &[Formula]| parts.iter().map(|part| part.in_world(world)).collect();
        match self {
            Formula::Named(name) => Formula::Named(name.in_world(world)),
            Formula::Not(part) => Formula::Not(Box::new(part.in_world(world))),
            Formula::All(of) => Formula::All(parts(of)),
            Formula::Any(of) => Formula::Any(parts(of)),
            Formula::AtLeast(least, of) => Formula::AtLeast(*least, parts(of)),
            plain @ (Formula::True | Formula::False | Formula::Holds(_) | Formula::Fails(_)) => {
                plain.clone()
            }
        }
    }
}

impl From<Name> for Formula {
    fn from(name: Name) -> Formula {
        Formula::Named(name)
    }
}
