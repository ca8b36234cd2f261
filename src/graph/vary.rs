//! A ruleset in which something may come out one way or another.
//!
//! Each way of varying a thing becomes an attribute of its own, so that "this turns on that" is a
//! question about two scenarios that differ in one attribute, which others answer already.

use super::network::Thing;
use crate::logic::{conditions, quantities_named};
use crate::model::{
    Attribute, AttributeId, AttributeKind, BackgroundRule, ClauseId, Condition, ConditionKind,
    ConditionScope, DimensionId, Gain, Meaning, NamedValue, Number, Origin, Promise, Quantity,
    QuantityValue, Ruleset, RulingTest, TermId, Test, Text, Unit, ValueSet, WhenSeveral,
    resolve_condition,
};
use crate::problem::Gravity;
use crate::read;
use crate::solve::Reason;
use crate::source::{Source, Sources, Span};
use std::collections::BTreeSet;

/// A ruleset with what may vary in it.
#[derive(Clone, Debug)]
pub(super) struct Varied {
    pub(super) ruleset: Ruleset,
    /// The attributes that tell the ways apart.
    pub(super) changing: BTreeSet<AttributeId>,
}

/// The ruleset in which these things may come out otherwise, all at once.
///
/// # Errors
/// Why that can't be asked.
pub(super) fn vary(ruleset: &Ruleset, things: &[(Thing, String)]) -> Result<Varied, Reason> {
    let mut varied = Varied {
        ruleset: ruleset.clone(),
        changing: BTreeSet::new(),
    };
    for (thing, name) in things {
        match *thing {
            Thing::Attribute(id) => {
                varied.changing.insert(id);
            }
            Thing::Term(id) => varied.term(id, name),
            Thing::Clause(id) => varied.clause(id, name),
            Thing::Dimension(id) => varied.dimension(id, name),
            Thing::Quantity(index) => varied.quantity(index, name)?,
            Thing::Background(_) | Thing::Principle(_) | Thing::Case(_) => {}
        }
    }
    Ok(varied)
}

impl Varied {
    fn attribute(
        &mut self,
        name: &str,
        label: &str,
        kind: AttributeKind,
        asked_when: Option<Condition>,
    ) -> AttributeId {
        let id = AttributeId::new(self.ruleset.attributes.len());
        self.ruleset.attributes.push(Attribute {
            name: name.to_owned(),
            label: Some(Text {
                by_language: vec![(String::new(), label.to_owned())],
            }),
            kind,
            judged: false,
            asked_when,
            set_by: None,
            origin: Origin::Stated,
            span: Span::default(),
        });
        self.ruleset.asking_order.push(id);
        self.changing.insert(id);
        id
    }

    /// Puts the last attribute right behind another, or first: what is asked because of it comes later.
    fn asked_behind(&mut self, other: Option<AttributeId>) {
        let order = &mut self.ruleset.asking_order;
        let place = other.and_then(|other| order.iter().position(|it| *it == other));
        let place = place.map_or(0, |place| place + 1);
        if let Some(last) = order.pop() {
            order.insert(place.min(order.len()), last);
        }
    }

    /// The clause stands in the book, or doesn't.
    fn clause(&mut self, id: ClauseId, name: &str) {
        let there = self.attribute(
            name,
            &format!("{name} stands in the book"),
            AttributeKind::YesNo,
            None,
        );
        if let Some(clause) = self.ruleset.clauses.get_mut(id.index()) {
            let when = clause.when.clone();
            clause.when = Condition {
                span: when.span,
                kind: ConditionKind::All(vec![yes(there, when.span), when]),
            };
        }
    }

    /// The term holds, or doesn't, whatever the facts are.
    fn term(&mut self, id: TermId, name: &str) {
        let holds = self.attribute(
            name,
            &format!("{name} is taken to hold"),
            AttributeKind::YesNo,
            None,
        );
        self.asked_behind(None);
        let Some(term) = self.ruleset.terms.get_mut(id.index()) else {
            return;
        };
        let meaning = Meaning::Sharp(yes(holds, term.span));
        let old = std::mem::replace(&mut term.meaning, meaning);
        if let Meaning::Vague { reading, .. } = old {
            // Nobody reads it any more; it has no value anywhere.
            let never = Condition {
                kind: ConditionKind::NotTrue(Box::new(Condition {
                    kind: ConditionKind::Always,
                    span: Span::default(),
                })),
                span: Span::default(),
            };
            if let Some(attribute) = self.ruleset.attributes.get_mut(reading.index()) {
                attribute.origin = Origin::Stated;
                attribute.asked_when = Some(never);
            }
        }
    }

    /// Whoever reads the ruling reads any ruling, or that there isn't exactly one.
    fn dimension(&mut self, id: DimensionId, name: &str) {
        let dimension = &self.ruleset[id];
        let several = dimension.when_several == WhenSeveral::AllApply;
        let values = dimension.values.clone();
        let settled = format!("{name} is settled");
        let settled = self.attribute(&settled, &settled, AttributeKind::YesNo, None);
        let kind = if several {
            AttributeKind::Several(values)
        } else {
            AttributeKind::Choice(values)
        };
        let ruled = self.attribute(name, name, kind, Some(yes(settled, Span::default())));
        let replaced = |condition: &Condition| match &condition.kind {
            ConditionKind::Ruling {
                dimension,
                test,
                positive,
            } if *dimension == id => Some(Condition {
                kind: ConditionKind::Fact {
                    test: match test {
                        RulingTest::OneOf(values) => Test::OneOf {
                            attribute: ruled,
                            values: *values,
                        },
                        RulingTest::Includes { items, least, most } => Test::Several {
                            attribute: ruled,
                            items: *items,
                            least: *least,
                            most: *most,
                        },
                    },
                    positive: *positive,
                },
                span: condition.span,
            }),
            _ => None,
        };
        self.rewrite(&mut |condition| rewritten(condition, &replaced));
    }

    /// The quantity is any amount that the comparisons with it take.
    fn quantity(&mut self, index: usize, name: &str) -> Result<(), Reason> {
        let Some(quantity) = self.ruleset.quantities.get(index).cloned() else {
            return Ok(());
        };
        let amounts = amounts(&self.ruleset, index, &quantity)?;
        if amounts.len() > ValueSet::CAPACITY {
            return Err(Reason::TooMany);
        }
        let values = amounts.iter().map(|(number, unit)| NamedValue {
            name: match unit {
                Unit::None => number.to_string(),
                Unit::Named(unit) => format!("{number} {unit}"),
            },
            label: None,
            span: Span::default(),
        });
        let values = AttributeKind::Choice(values.collect());
        // Where a table's row is not asked for, its comparisons are neither true nor false.
        let row = match &quantity.value {
            QuantityValue::Constant(..) => None,
            QuantityValue::Column { by, cells } => Some(Condition {
                kind: ConditionKind::Fact {
                    test: Test::OneOf {
                        attribute: *by,
                        values: ValueSet::first(cells.len()),
                    },
                    positive: true,
                },
                span: Span::default(),
            }),
        };
        let row_of = match &quantity.value {
            QuantityValue::Constant(..) => None,
            QuantityValue::Column { by, .. } => Some(*by),
        };
        let by = self.attribute(name, name, values, row);
        self.asked_behind(row_of);
        if let Some(quantity) = self.ruleset.quantities.get_mut(index) {
            quantity.value = QuantityValue::Column {
                by,
                cells: amounts.into_iter().map(Some).collect(),
            };
        }
        let written = self.ruleset.clone();
        let mut failed = false;
        self.rewrite(&mut |condition| {
            let mut fits = |part: &Condition| {
                if !names_as_one(&written, part, index) {
                    return None;
                }
                let anew = resolved_anew(&written, part.span);
                failed |= anew.is_none();
                anew
            };
            rewritten_mut(condition, &mut fits)
        });
        if failed {
            return Err(Reason::GaveUp(
                "a comparison with it can't be made for other amounts".to_owned(),
            ));
        }
        Ok(())
    }

    /// Puts other conditions in the place of all.
    fn rewrite(&mut self, change: &mut impl FnMut(&Condition) -> Condition) {
        let ruleset = &mut self.ruleset;
        let attributes = ruleset.attributes.iter_mut();
        for asked in attributes.filter_map(|it| it.asked_when.as_mut()) {
            *asked = change(asked);
        }
        for term in &mut ruleset.terms {
            match &mut term.meaning {
                Meaning::Sharp(meaning) => *meaning = change(meaning),
                Meaning::Vague { narrow, broad, .. } => {
                    *narrow = change(narrow);
                    *broad = change(broad);
                }
            }
        }
        for line in &mut ruleset.background {
            let (BackgroundRule::Never(condition) | BackgroundRule::Always(condition)) =
                &mut line.rule;
            *condition = change(condition);
        }
        let dimensions = ruleset.dimensions.iter_mut();
        for required in dimensions.filter_map(|it| it.required_when.as_mut()) {
            *required = change(required);
        }
        for clause in &mut ruleset.clauses {
            clause.when = change(&clause.when);
        }
        for principle in &mut ruleset.principles {
            match &mut principle.promise {
                Promise::Expect { whenever, expect } => {
                    *whenever = change(whenever);
                    *expect = change(expect);
                }
                Promise::NoGain { by, gain, .. } => {
                    if let Some(by) = by {
                        *by = change(by);
                    }
                    if let Gain::To(condition) = gain {
                        *condition = change(condition);
                    }
                }
                Promise::ImpartialTo(_) | Promise::RisesWith { .. } => {}
            }
        }
    }
}

fn yes(attribute: AttributeId, span: Span) -> Condition {
    Condition {
        kind: ConditionKind::Fact {
            test: Test::OneOf {
                attribute,
                values: ValueSet::one(1),
            },
            positive: true,
        },
        span,
    }
}

fn rewritten(
    condition: &Condition,
    replaced: &dyn Fn(&Condition) -> Option<Condition>,
) -> Condition {
    rewritten_mut(condition, &mut |part| replaced(part))
}

/// A condition in which whatever `replaced` knows something else for is that.
fn rewritten_mut(
    condition: &Condition,
    replaced: &mut dyn FnMut(&Condition) -> Option<Condition>,
) -> Condition {
    if let Some(other) = replaced(condition) {
        return other;
    }
    let mut parts = |parts: &[Condition]| -> Vec<Condition> {
        parts
            .iter()
            .map(|part| rewritten_mut(part, &mut *replaced))
            .collect()
    };
    let kind = match &condition.kind {
        ConditionKind::Always
        | ConditionKind::Missing(_)
        | ConditionKind::Fact { .. }
        | ConditionKind::Ruling { .. }
        | ConditionKind::Term(_) => condition.kind.clone(),
        ConditionKind::All(of) => ConditionKind::All(parts(of)),
        ConditionKind::Any(of) => ConditionKind::Any(parts(of)),
        ConditionKind::Count { least, most, of } => ConditionKind::Count {
            least: *least,
            most: *most,
            of: parts(of),
        },
        ConditionKind::Not(part) => {
            ConditionKind::Not(Box::new(rewritten_mut(part, &mut *replaced)))
        }
        ConditionKind::NotTrue(part) => {
            ConditionKind::NotTrue(Box::new(rewritten_mut(part, &mut *replaced)))
        }
    };
    Condition {
        kind,
        span: condition.span,
    }
}

/// Whether a part of a condition is one comparison with the quantity, expanded or not: its parts have
/// no other words than it has.
fn names_as_one(ruleset: &Ruleset, part: &Condition, index: usize) -> bool {
    let named = quantities_named(ruleset, part);
    let mut own = true;
    part.each_part(&mut |inner| own &= inner.span == part.span);
    own && named.iter().any(|(known, _)| *known == index)
}

/// The words at a place, resolved in another ruleset.
fn resolved_anew(ruleset: &Ruleset, span: Span) -> Option<Condition> {
    let source = Source::new("condition", ruleset.sources.slice(span));
    let id = Sources::default().add(source.clone());
    let mut problems = Vec::new();
    let read = read::condition(&source, id, &mut problems)?;
    let scope = ConditionScope::Rulings;
    let made = resolve_condition(ruleset, &read, scope, &mut problems)?;
    let sound = problems.iter().all(|it| it.gravity != Gravity::Error);
    sound.then_some(made)
}

/// The most steps of a number all of which are tried as amounts.
const FEW: i64 = 100;

/// Amounts that stand for all that the quantity might be: between two neighbouring numbers that the
/// rules compare with, one amount is as good as another, so long as there is a step on either side.
fn amounts(
    ruleset: &Ruleset,
    index: usize,
    quantity: &Quantity,
) -> Result<Vec<(Number, Unit)>, Reason> {
    let mut compared: BTreeSet<AttributeId> = BTreeSet::new();
    let mut summed = false;
    for condition in conditions(ruleset) {
        let spans: BTreeSet<Span> = quantities_named(ruleset, condition)
            .into_iter()
            .filter(|(known, _)| *known == index)
            .map(|(_, span)| span)
            .collect();
        condition.each_part(&mut |part| {
            if let ConditionKind::Fact { test, .. } = &part.kind
                && spans.contains(&part.span)
            {
                match test {
                    Test::Within { attribute, .. } => {
                        compared.insert(*attribute);
                    }
                    Test::Linear(_) => summed = true,
                    _ => {}
                }
            }
        });
    }
    if summed {
        return Err(Reason::TooMany);
    }
    let mut steps_of: Vec<(AttributeId, BTreeSet<i64>)> = Vec::new();
    for id in &compared {
        let AttributeKind::Number(range) = &ruleset[*id].kind else {
            continue;
        };
        let mut steps: BTreeSet<i64> = BTreeSet::from([0, 1, range.steps - 1, range.steps]);
        if range.steps <= FEW {
            steps.extend(0..=range.steps);
        }
        for condition in conditions(ruleset) {
            condition.each_part(&mut |part| {
                if let ConditionKind::Fact {
                    test:
                        Test::Within {
                            attribute,
                            low,
                            high,
                        },
                    ..
                } = &part.kind
                    && attribute == id
                {
                    for end in [*low, *high] {
                        steps.extend(
                            (end - 2..=end + 2).filter(|it| (0..=range.steps).contains(it)),
                        );
                    }
                }
            });
        }
        steps_of.push((*id, steps));
    }
    let own: Vec<(Number, Unit)> = match &quantity.value {
        QuantityValue::Constant(number, unit) => vec![(*number, unit.clone())],
        QuantityValue::Column { cells, .. } => cells.iter().flatten().cloned().collect(),
    };
    let mut found: Vec<(Number, Unit)> = Vec::new();
    for (id, steps) in steps_of {
        if let AttributeKind::Number(range) = &ruleset[id].kind {
            let values = steps.into_iter();
            found.extend(values.map(|step| (range.value(step), range.unit.clone())));
        }
    }
    found.extend(own);
    let spans: BTreeSet<Span> = conditions(ruleset)
        .into_iter()
        .flat_map(|condition| quantities_named(ruleset, condition))
        .filter(|(known, _)| *known == index)
        .map(|(_, span)| span)
        .collect();
    // An amount that the file could not have (off the step, splitting a top value) is none.
    let mut trial = ruleset.clone();
    found.retain(|(number, unit)| {
        if let Some(quantity) = trial.quantities.get_mut(index) {
            quantity.value = QuantityValue::Constant(*number, unit.clone());
        }
        let mut spans = spans.iter();
        spans.all(|span| resolved_anew(&trial, *span).is_some())
    });
    let mut distinct: Vec<(Number, Unit)> = Vec::new();
    for (number, unit) in found {
        let known = distinct.iter().any(|(other, theirs)| {
            let factor = unit.factor_to(theirs);
            factor.and_then(|factor| number.times(factor)) == Some(*other)
        });
        if !known {
            distinct.push((number, unit));
        }
    }
    Ok(distinct)
}
