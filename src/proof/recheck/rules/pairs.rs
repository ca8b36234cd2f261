//! Questions about two scenarios, and what principles promise.

use super::worlds::World;
use super::{Rules, Statement, Thing};
use crate::model::{
    AttributeId, AttributeKind, Condition, DimensionId, Gain, Promise, Ruleset, ValueSet,
};
use crate::proof::Question;
use crate::proof::recheck::principles::{choices, parts_of, set_by};
use crate::proof::recheck::statement::Ledger;
use std::collections::BTreeSet;

/// What may differ between the two scenarios that a question is about; `None` where it is about one.
pub(super) fn differing(ruleset: &Ruleset, question: &Question) -> Option<BTreeSet<AttributeId>> {
    match question {
        Question::Turns(judged) => Some(judged.iter().copied().collect()),
        Question::Breaks(place) => match &ruleset.principles.get(*place)?.promise {
            Promise::Expect { .. } => None,
            Promise::ImpartialTo(attributes) => Some(attributes.iter().copied().collect()),
            Promise::RisesWith { attribute, .. } => Some(BTreeSet::from([*attribute])),
            Promise::NoGain { party, by, .. } => Some(set_by(ruleset, party, by.as_ref())),
        },
        _ => None,
    }
}

impl Rules<'_> {
    /// An announced ruling is another in the second scenario.
    pub(super) fn turns(&mut self) -> Statement {
        let related = self.agreed();
        let another = self.another_in_the_second();
        Statement::All(vec![related, another])
    }

    /// A promise is broken.
    pub(super) fn breaks(&mut self, promise: &Promise) -> Statement {
        match promise {
            Promise::Expect { whenever, expect } => {
                let within = self.plain(whenever, World::Now).yes;
                let mut against = Vec::new();
                for part in parts_of(expect) {
                    against.extend(self.need_not_be(part));
                }
                Statement::All(vec![within, Statement::Any(against)])
            }
            Promise::ImpartialTo(_) => self.turns(),
            Promise::RisesWith {
                attribute,
                dimension,
            } => {
                let related = self.agreed();
                let more = self.more(*attribute);
                let falls = self.lower(*dimension, World::Second, World::Now);
                Statement::All(vec![related, more, falls])
            }
            Promise::NoGain { by, gain, .. } => {
                let mut parts = vec![self.agreed()];
                if let Some(by) = by {
                    let [before, after] =
                        [World::Now, World::Second].map(|world| self.plain(by, world).yes);
                    parts.extend([Statement::not(before), after]);
                }
                parts.push(match gain {
                    Gain::Raising(on) => self.lower(*on, World::Now, World::Second),
                    Gain::Lowering(on) => self.lower(*on, World::Second, World::Now),
                    Gain::To(rulings) => self.becomes(rulings),
                });
                Statement::All(parts)
            }
        }
    }

    /// The two scenarios agree on what is asked in both and may not differ.
    fn agreed(&mut self) -> Statement {
        let loose = self.doubled.loose.clone().into_iter();
        let each = loose.map(|attribute| {
            let asked = [World::Now, World::Second].map(|world| self.has_value(attribute, world));
            let mut ways: Vec<Statement> = asked.map(Statement::not).into();
            ways.push(self.same(attribute));
            Statement::Any(ways)
        });
        Statement::All(each.collect())
    }

    /// Asked in both, and the same.
    fn same(&mut self, attribute: AttributeId) -> Statement {
        let rules = self.ruleset;
        let both = [World::Now, World::Second];
        let mut parts: Vec<Statement> = both.map(|world| self.has_value(attribute, world)).into();
        match &rules[attribute].kind {
            AttributeKind::YesNo => parts.push(self.alike(attribute, 2)),
            AttributeKind::Choice(names) | AttributeKind::Scale(names) => {
                parts.push(self.alike(attribute, names.len()));
            }
            AttributeKind::Number(_) => {
                let [now, second] = both.map(|world| self.world_of_attribute(world, attribute));
                for (low, high) in [(now, second), (second, now)] {
                    let sum = vec![(1, low, attribute), (-1, high, attribute)];
                    parts.push(self.thing(Thing::Sum(sum, 0)));
                }
            }
            AttributeKind::Several(items) => {
                for (_, item) in items.iter().zip(0i64..) {
                    let [here, there] =
                        both.map(|world| self.thing(Thing::Value(world, attribute, item)));
                    parts.push(self.both_or_neither(attribute, here, there));
                }
            }
        }
        if matches!(rules[attribute].kind, AttributeKind::Several(_)) {
            // Said item by item, each where it is asked.
            parts.drain(..2);
        }
        Statement::All(parts)
    }

    /// Present in both, or absent in both where it is asked in both.
    fn both_or_neither(
        &mut self,
        attribute: AttributeId,
        here: Statement,
        there: Statement,
    ) -> Statement {
        let asked: Vec<Statement> = [World::Now, World::Second]
            .map(|world| self.has_value(attribute, world))
            .into();
        let ways = [
            [here.clone(), there.clone()],
            [Statement::not(here), Statement::not(there)],
        ];
        let ways = ways.map(|way| Statement::All(way.into_iter().chain(asked.clone()).collect()));
        Statement::Any(ways.into())
    }

    /// One of the values in both.
    fn alike(&mut self, attribute: AttributeId, values: usize) -> Statement {
        let pairs = (0..values).map(|value| (value, value)).collect::<Vec<_>>();
        self.paired(attribute, &pairs)
    }

    /// One of these values in the first together with its partner in the second.
    fn paired(&mut self, attribute: AttributeId, pairs: &[(usize, usize)]) -> Statement {
        let pairs = pairs.iter().map(|(one, other)| {
            Statement::All(vec![
                self.one_of(attribute, ValueSet::one(*one), World::Now),
                self.one_of(attribute, ValueSet::one(*other), World::Second),
            ])
        });
        Statement::Any(pairs.collect())
    }

    /// Asked in both, and more in the second.
    fn more(&mut self, attribute: AttributeId) -> Statement {
        let mut parts: Vec<Statement> = [World::Now, World::Second]
            .map(|world| self.has_value(attribute, world))
            .into();
        let names = self.ruleset[attribute].kind.names().len();
        parts.push(if names > 0 {
            let higher = |low| (low + 1..names).map(move |high| (low, high));
            let pairs: Vec<_> = (0..names).flat_map(higher).collect();
            self.paired(attribute, &pairs)
        } else {
            let [now, second] =
                [World::Now, World::Second].map(|world| self.world_of_attribute(world, attribute));
            let sum = vec![(1, now, attribute), (-1, second, attribute)];
            self.thing(Thing::Sum(sum, -1))
        });
        Statement::All(parts)
    }

    fn another_in_the_second(&mut self) -> Statement {
        let mut changes = Vec::new();
        for dimension in (0..self.ruleset.dimensions.len()).map(DimensionId::new) {
            if !self.ruleset[dimension].intermediate && self.stands_twice(dimension) {
                changes.extend(self.differs(dimension, World::Second));
            }
        }
        Statement::Any(changes)
    }

    fn stands_twice(&self, dimension: DimensionId) -> bool {
        self.world_of_dimension(World::Second, dimension) == World::Second
    }

    /// The ruling is exactly one value in both scenarios, and lower in the one than in the other.
    fn lower(&mut self, on: DimensionId, low: World, high: World) -> Statement {
        if !self.stands_twice(on) {
            return Statement::Never;
        }
        let mut ways = Vec::new();
        for value in 0..self.ruleset[on].values.len() {
            let below = (0..value).map(|lower| self.exactly(on, lower, low));
            let below = Statement::Any(below.collect());
            let this = self.exactly(on, value, high);
            ways.push(Statement::All(vec![this, below]));
        }
        Statement::Any(ways)
    }

    fn exactly(&mut self, on: DimensionId, value: usize, world: World) -> Statement {
        Statement::All(vec![
            self.thing(Thing::Settled(world, on)),
            self.thing(Thing::MayBe(world, on, value)),
        ])
    }

    /// Not true in the first scenario and true in the second; never, of what is the same in both.
    fn becomes(&mut self, rulings: &Condition) -> Statement {
        let [before, after] =
            [World::Now, World::Second].map(|world| self.plain(rulings, world).yes);
        if Ledger::default().says_the_same(&before, &after) {
            return Statement::Never;
        }
        Statement::All(vec![Statement::not(before), after])
    }

    /// The ways in which a condition over rulings need not be true: for each choice of a value, or of none,
    /// for each dimension that it reads, that the rulings may come out so and it is not true then.
    fn need_not_be(&mut self, part: &Condition) -> Vec<Statement> {
        let mut ways = Vec::new();
        for choice in choices(self.ruleset, part).unwrap_or_default() {
            let mut way = Vec::new();
            for (on, value) in &choice {
                let may_be = self.may_be(World::Now, *on);
                way.push(match value {
                    Some(value) => may_be.into_iter().nth(*value).unwrap_or(Statement::Never),
                    None => Statement::not(Statement::Any(may_be)),
                });
            }
            self.chosen = choice;
            let true_then = self.plain(part, World::Now).yes;
            self.chosen.clear();
            way.push(Statement::not(true_then));
            ways.push(Statement::All(way));
        }
        ways
    }
}
