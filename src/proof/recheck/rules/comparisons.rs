//! Comparisons over attributes, and what always holds of an attribute's values.

use super::worlds::World;
use super::{Rules, Thing, at_least};
use crate::model::{AttributeId, AttributeKind, Linear, Origin, Test, ValueSet};
use crate::proof::recheck::statement::{Clause, Statement, one_clause};
use std::collections::BTreeSet;

impl Rules<'_> {
    pub(super) fn has_value(&mut self, attribute: AttributeId, world: World) -> Statement {
        let this = &self.ruleset[attribute];
        match (&this.asked_when, this.origin) {
            (None, Origin::Stated) => Statement::Always,
            _ => self.thing(Thing::HasValue(world, attribute)),
        }
    }

    pub(super) fn where_asked(&mut self, test: &Test, so: Statement, world: World) -> Statement {
        let mut parts = vec![so];
        let read: Vec<AttributeId> = match test {
            Test::OneOf { attribute, .. }
            | Test::Within { attribute, .. }
            | Test::Several { attribute, .. } => vec![*attribute],
            Test::Same { left, right, .. } => vec![*left, *right],
            Test::Linear(sum) => sum.parts.iter().map(|(_, attribute)| *attribute).collect(),
        };
        for attribute in read {
            parts.push(self.has_value(attribute, world));
        }
        Statement::All(parts)
    }

    /// A comparison, provided that all it reads is asked.
    pub(super) fn comparison(&mut self, test: &Test, world: World) -> Statement {
        match test {
            Test::OneOf { attribute, values } => self.one_of(*attribute, *values, world),
            Test::Within {
                attribute,
                low,
                high,
            } => Statement::All(vec![
                self.from(*attribute, *low, world),
                Statement::not(self.from(*attribute, high.saturating_add(1), world)),
            ]),
            Test::Same { left, right, pairs } => {
                let mut same = Vec::new();
                for (one, other) in pairs {
                    let one = self.one_of(*left, ValueSet::one(usize::from(*one)), world);
                    let other = self.one_of(*right, ValueSet::one(usize::from(*other)), world);
                    same.push(Statement::All(vec![one, other]));
                }
                Statement::Any(same)
            }
            Test::Linear(Linear { parts, bound }) => {
                let parts = parts.iter().map(|(weight, of)| {
                    let world = self.world_of_attribute(world, *of);
                    (*weight, world, *of)
                });
                let parts = parts.collect();
                self.thing(Thing::Sum(parts, *bound))
            }
            Test::Several {
                attribute,
                items,
                least,
                most,
            } => {
                let items: Vec<Statement> = items
                    .iter()
                    .map(|item| {
                        let item = i64::try_from(item).unwrap_or(i64::MAX);
                        self.thing(Thing::Value(world, *attribute, item))
                    })
                    .collect();
                Statement::All(vec![
                    at_least(*least as usize, &items),
                    Statement::not(at_least((*most as usize).saturating_add(1), &items)),
                ])
            }
        }
    }

    pub(super) fn one_of(
        &mut self,
        attribute: AttributeId,
        values: ValueSet,
        world: World,
    ) -> Statement {
        if self.ruleset[attribute].kind == AttributeKind::YesNo {
            let mut sides = Vec::new();
            if values.contains(0) && values.contains(1) {
                return Statement::Always;
            }
            if values.contains(1) {
                sides.push(self.thing(Thing::Value(world, attribute, 1)));
            }
            if values.contains(0) {
                sides.push(Statement::not(
                    self.thing(Thing::Value(world, attribute, 1)),
                ));
            }
            return Statement::Any(sides);
        }
        let names = self.ruleset[attribute].kind.names().len();
        let mut named = Vec::new();
        for (index, value) in (0..names).zip(0i64..) {
            if values.contains(index) {
                named.push(self.thing(Thing::Value(world, attribute, value)));
            }
        }
        Statement::Any(named)
    }

    fn highest_step(&self, attribute: AttributeId) -> i64 {
        match &self.ruleset[attribute].kind {
            AttributeKind::Number(range) => range.steps,
            _ => 0,
        }
    }

    /// The number lies at this step or above.
    fn from(&mut self, attribute: AttributeId, step: i64, world: World) -> Statement {
        if step < 1 {
            return Statement::Always;
        }
        if step > self.highest_step(attribute) {
            return Statement::Never;
        }
        self.thing(Thing::Value(world, attribute, step))
    }

    /// What ties a sum to its numbers: the longest is bounded for every choice of the others.
    pub(super) fn sum(
        &mut self,
        words: &str,
        sum: &[(i64, World, AttributeId)],
        bound: i64,
    ) -> Result<Vec<Clause>, String> {
        const MOST: usize = 10_000;
        const LONGEST: i64 = 4_096;
        let longest = sum
            .iter()
            .map(|(_, _, attribute)| self.highest_step(*attribute))
            .max();
        let place = sum
            .iter()
            .position(|(_, _, attribute)| Some(self.highest_step(*attribute)) == longest);
        let (Some(place), Some(..=LONGEST)) = (place, longest) else {
            return Err(format!("`{words}` is too large for clauses"));
        };
        // Choices of the other numbers, each with what they weigh.
        let mut choices: Vec<(Vec<i64>, i64)> = vec![(Vec::new(), 0)];
        for (index, (weight, _, attribute)) in sum.iter().enumerate() {
            if index == place {
                continue;
            }
            let highest = self.highest_step(*attribute);
            let many = usize::try_from(highest + 1).unwrap_or(usize::MAX);
            if choices.len().saturating_mul(many) > MOST {
                return Err(format!("`{words}` is too large for clauses"));
            }
            let longer = choices.iter().flat_map(|(chosen, weighs)| {
                (0..=highest).map(move |step| {
                    let mut chosen = chosen.clone();
                    chosen.push(step);
                    (chosen, weighs.saturating_add(weight.saturating_mul(step)))
                })
            });
            choices = longer.collect();
        }
        let mut found = Vec::new();
        for (chosen, weighs) in choices {
            found.extend(self.sum_choice(words, sum, place, &chosen, bound.saturating_sub(weighs)));
        }
        Ok(found)
    }

    /// Both clauses of one choice, which leaves so much to the longest: where the sum is within its bound and the others weigh as much or
    /// more, and where it is beyond and they weigh as much or less.
    fn sum_choice(
        &mut self,
        words: &str,
        sum: &[(i64, World, AttributeId)],
        place: usize,
        chosen: &[i64],
        left: i64,
    ) -> Vec<Clause> {
        let Some((weight, of, longest)) = sum.get(place).copied() else {
            return Vec::new();
        };
        let highest = self.highest_step(longest);
        // The steps of the longest with which the whole is within its bound.
        let fits = |step: &i64| weight.saturating_mul(*step) <= left;
        let mut found = Vec::new();
        for within in [true, false] {
            let mut says = vec![if within {
                Statement::not(Statement::Name(words.to_owned()))
            } else {
                Statement::Name(words.to_owned())
            }];
            let others = sum.iter().enumerate().filter(|(index, _)| *index != place);
            for ((_, (weight, of, attribute)), step) in others.zip(chosen) {
                // "It does not weigh so much": with a weight above 0, less than this step.
                says.push(if (*weight > 0) == within {
                    Statement::not(self.from(*attribute, *step, *of))
                } else {
                    self.from(*attribute, step + 1, *of)
                });
            }
            // Fitting steps are the first ones, or with a weight below 0 the last ones.
            let fitting = (0..=highest).filter(fits).count();
            let fitting = i64::try_from(fitting).unwrap_or(i64::MAX);
            let inside = if weight > 0 {
                Statement::not(self.from(longest, fitting, of))
            } else {
                self.from(longest, highest + 1 - fitting, of)
            };
            says.push(if within {
                inside
            } else {
                Statement::not(inside)
            });
            found.extend(one_clause(&says));
        }
        found
    }

    /// What always holds of an attribute of which these values are spoken of.
    pub(super) fn of_attribute(
        &mut self,
        world: World,
        attribute: AttributeId,
        marks: &BTreeSet<i64>,
    ) -> Vec<Clause> {
        let rules = self.ruleset;
        let kind = &rules[attribute].kind;
        let all: Vec<i64> = match kind {
            AttributeKind::YesNo => vec![1],
            AttributeKind::Number(_) => marks.iter().copied().collect(),
            AttributeKind::Choice(names)
            | AttributeKind::Scale(names)
            | AttributeKind::Several(names) => {
                names.iter().zip(0..).map(|(_, code)| code).collect()
            }
        };
        let values: Vec<Statement> = all
            .into_iter()
            .map(|value| self.thing(Thing::Value(world, attribute, value)))
            .collect();
        let has_value = self.has_value(attribute, world);
        let mut rows: Vec<Vec<Statement>> = Vec::new();
        for value in &values {
            rows.push(vec![Statement::not(value.clone()), has_value.clone()]);
        }
        match kind {
            AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
                let mut some = values.clone();
                some.push(Statement::not(has_value));
                rows.push(some);
                for (index, one) in values.iter().enumerate() {
                    for other in values.iter().skip(index + 1) {
                        rows.push(vec![
                            Statement::not(one.clone()),
                            Statement::not(other.clone()),
                        ]);
                    }
                }
            }
            AttributeKind::Number(_) => {
                for pair in values.windows(2) {
                    if let [lower, higher] = pair {
                        rows.push(vec![Statement::not(higher.clone()), lower.clone()]);
                    }
                }
            }
            AttributeKind::YesNo | AttributeKind::Several(_) => {}
        }
        rows.iter().filter_map(|row| one_clause(row)).collect()
    }
}
