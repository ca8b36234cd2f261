//! A ruleset in which something may come out one way or another.
//!
//! Each way of varying a thing becomes an attribute of its own, so that "this turns on that" is a
//! question about two scenarios that differ in one attribute, which others answer already.

use super::amounts::{Amounts, amounts, resolved_anew};
use super::network::Thing;
use crate::logic::quantities_named;
use crate::model::{
    Attribute, AttributeId, AttributeKind, BackgroundRule, ClauseId, Condition, ConditionKind,
    DimensionId, Gain, Meaning, NamedValue, Origin, Promise, QuantityValue, Ruleset, RulingTest,
    TermId, Test, Text, Unit, ValueSet, WhenSeveral,
};
use crate::solve::Reason;
use crate::source::Span;
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
        let (kind, cells) = match amounts(&self.ruleset, index, &quantity)? {
            Amounts::Listed(amounts) => {
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
                let kind = AttributeKind::Choice(values.collect());
                (kind, Some(amounts.into_iter().map(Some).collect()))
            }
            Amounts::Range(range) => (AttributeKind::Number(range), None),
        };
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
        let by = self.attribute(name, name, kind, row);
        self.asked_behind(row_of);
        if let (Some(cells), Some(quantity)) = (cells, self.ruleset.quantities.get_mut(index)) {
            quantity.value = QuantityValue::Column { by, cells };
        }
        let known = self.ruleset.clone();
        let written = match &known[by].kind {
            AttributeKind::Number(_) => means_the_attribute(&known, index, by),
            _ => known.clone(),
        };
        let mut failed = false;
        self.rewrite(&mut |condition| {
            let mut fits = |part: &Condition| {
                if !names_as_one(&known, part, index) {
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

/// The ruleset in which the name of a quantity is that of an attribute.
fn means_the_attribute(ruleset: &Ruleset, index: usize, by: AttributeId) -> Ruleset {
    let mut other = ruleset.clone();
    let quantity = other.quantities.get_mut(index);
    // No word of a condition is empty.
    let name = quantity.map(|it| std::mem::take(&mut it.name));
    if let (Some(name), Some(attribute)) = (name, other.attributes.get_mut(by.index())) {
        attribute.name = name;
    }
    other
}

/// Whether a part of a condition is one comparison with the quantity, expanded or not: its parts have
/// no other words than it has.
fn names_as_one(ruleset: &Ruleset, part: &Condition, index: usize) -> bool {
    let named = quantities_named(ruleset, part);
    let mut own = true;
    part.each_part(&mut |inner| own &= inner.span == part.span);
    own && named.iter().any(|(known, _)| *known == index)
}
