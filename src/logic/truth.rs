//! Conditions as two-valued formulas: where they are true, and where they are false.
//!
//! Negations are pushed inward until they reach a comparison. `Holds` and `Fails` are both false
//! where something that the comparison reads isn't asked, so "is true" and "is false" are both
//! false where the condition is neither.

use super::{Formula, Name, Unasked, World};
use crate::model::{Condition, ConditionKind, RulingTest};

/// In which world, and with what isn't asked taken how, a condition is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mode {
    /// Whose rulings a condition over rulings reads.
    pub world: World,
    /// How a comparison over what is not asked is taken.
    pub unasked: Unasked,
}

impl Mode {
    /// The meaning of the language, the ruleset as it stands.
    pub const ACTUAL: Mode = Mode {
        world: World::Actual,
        unasked: Unasked::Neither,
    };
}

/// Where the condition is true.
pub fn is_true(condition: &Condition, mode: Mode) -> Formula {
    match &condition.kind {
        ConditionKind::Always => Formula::True,
        ConditionKind::Missing(_) => Formula::False,
        ConditionKind::Fact {
            test,
            positive: true,
        } => Formula::Holds(test.clone()),
        ConditionKind::Fact {
            test,
            positive: false,
        } => Formula::Fails(test.clone()),
        ConditionKind::Ruling {
            dimension,
            test,
            positive,
        } => {
            let settled = Formula::Named(Name::Settled(mode.world, *dimension));
            let says = ruling_says(*dimension, test, mode.world);
            Formula::all([settled, if *positive { says } else { says.negated() }])
        }
        ConditionKind::Term(term) => Formula::Named(Name::TermTrue(mode.unasked, *term)),
        ConditionKind::Not(inner) => is_false(inner, mode),
        ConditionKind::NotTrue(inner) => is_true(inner, mode).negated(),
        ConditionKind::All(parts) => Formula::all(parts.iter().map(|part| is_true(part, mode))),
        ConditionKind::Any(parts) => Formula::any(parts.iter().map(|part| is_true(part, mode))),
        ConditionKind::Count { least, most, of } => Formula::all([
            Formula::at_least(*least, of.iter().map(|part| is_true(part, mode)).collect()),
            Formula::at_least(
                all_but(of.len(), *most),
                of.iter().map(|part| is_false(part, mode)).collect(),
            ),
        ]),
    }
}

/// Where the condition is false.
pub fn is_false(condition: &Condition, mode: Mode) -> Formula {
    match &condition.kind {
        ConditionKind::Always | ConditionKind::Missing(_) => Formula::False,
        ConditionKind::Fact { test, positive } => match (mode.unasked, positive) {
            (Unasked::Neither, true) => Formula::Fails(test.clone()),
            (Unasked::Neither, false) => Formula::Holds(test.clone()),
            (Unasked::TakenAsNo, _) => is_true(condition, mode).negated(),
        },
        ConditionKind::Ruling {
            dimension,
            test,
            positive,
        } => {
            let settled = Formula::Named(Name::Settled(mode.world, *dimension));
            let says = ruling_says(*dimension, test, mode.world);
            Formula::all([settled, if *positive { says.negated() } else { says }])
        }
        ConditionKind::Term(term) => Formula::Named(Name::TermFalse(mode.unasked, *term)),
        ConditionKind::Not(inner) | ConditionKind::NotTrue(inner) => is_true(inner, mode),
        ConditionKind::All(parts) => Formula::any(parts.iter().map(|part| is_false(part, mode))),
        ConditionKind::Any(parts) => Formula::all(parts.iter().map(|part| is_false(part, mode))),
        ConditionKind::Count { least, most, of } => {
            let too_few = all_but(of.len().saturating_add(1), *least);
            let falses = of.iter().map(|part| is_false(part, mode)).collect();
            let trues = of.iter().map(|part| is_true(part, mode)).collect();
            Formula::any([
                Formula::at_least(too_few, falses),
                Formula::at_least(most.saturating_add(1), trues),
            ])
        }
    }
}

fn all_but(parts: usize, most: u32) -> u32 {
    u32::try_from(parts)
        .unwrap_or(u32::MAX)
        .saturating_sub(most)
}

/// What the ruling says, provided that it is settled.
fn ruling_says(dimension: crate::model::DimensionId, test: &RulingTest, world: World) -> Formula {
    let value = |value: usize| {
        Formula::Named(Name::Allowed(
            world,
            dimension,
            u8::try_from(value).unwrap_or(u8::MAX),
        ))
    };
    match test {
        RulingTest::OneOf(values) => Formula::any(values.iter().map(value)),
        RulingTest::Includes { items, least, most } => {
            let present: Vec<Formula> = items.iter().map(value).collect();
            let over = Formula::at_least(most.saturating_add(1), present.clone());
            Formula::all([Formula::at_least(*least, present), over.negated()])
        }
    }
}
