//! Unused: an attribute, value, term, quantity or dimension that nothing uses.
//!
//! Answered from the text alone. An attribute is used where a condition or a principle reads it. A
//! value of a choice is used where a condition names it, alone or as the only one left out, or where
//! attributes are compared with each other; the first value is the ordinary one and needs no mention.
//! A value of a scale is used where it is named or a comparison tells it from its neighbours; an item
//! of a `several` where it is named. A dimension is used where a clause rules on it and, if it is
//! intermediate, something reads it; a value of it where a clause gives it, where it is the
//! `otherwise`, or where a condition names it.

use super::finding::Finding;
use super::words;
use crate::logic::conditions;
use crate::model::{
    AttributeId, AttributeKind, ConditionKind, DimensionId, Kind, NamedValue, Origin, Promise,
    Ruleset, RulingTest, Test, ValueSet,
};
use crate::source::{Span, words as written};
use std::collections::BTreeSet;

/// Everything in a ruleset that nothing uses, in the order of the file's sections.
pub(super) fn find(ruleset: &Ruleset) -> Vec<Finding> {
    let uses = Uses::of(ruleset);
    let mut found = Vec::new();
    for quantity in ruleset
        .quantities
        .iter()
        .filter(|quantity| !uses.words.contains(quantity.name.as_str()))
    {
        found.push(whole(
            format!("Nothing uses the quantity `{}`", quantity.name),
            quantity.span,
        ));
    }
    for (index, attribute) in ruleset.attributes.iter().enumerate() {
        if attribute.origin != Origin::Stated {
            continue;
        }
        let id = AttributeId::new(index);
        let name = &attribute.name;
        let mut finding = if uses.attributes.contains(&id) {
            let seen = uses.values.get(index).copied().unwrap_or_default();
            let told_apart = uses.told_apart.get(index).map_or(&[][..], Vec::as_slice);
            let idle = idle_values(&attribute.kind, seen, told_apart);
            if idle.is_empty() {
                continue;
            }
            some_values(&format!("`{name}`"), &idle)
        } else {
            whole(
                format!("Nothing uses the attribute `{name}`"),
                attribute.span,
            )
        };
        finding.attribute = Some(name.clone());
        found.push(finding);
    }
    for (index, term) in ruleset.terms.iter().enumerate() {
        if !uses.terms.contains(&index) {
            let mut finding = whole(format!("Nothing uses the term `{}`", term.name), term.span);
            finding.term = Some(term.name.clone());
            found.push(finding);
        }
    }
    for (index, dimension) in ruleset.dimensions.iter().enumerate() {
        let id = DimensionId::new(index);
        let name = &dimension.name;
        let given = ruleset
            .clauses
            .iter()
            .filter_map(|clause| clause.ruling_on(id))
            .reduce(ValueSet::union);
        let read = uses.dimensions.contains(&id);
        let mut finding = if given.is_none() && !read {
            whole(format!("No clause rules on `{name}`"), dimension.span)
        } else if dimension.intermediate && !read {
            whole(
                format!("Nothing reads the intermediate dimension `{name}`"),
                dimension.span,
            )
        } else {
            let named = uses.rulings.get(index).copied().unwrap_or_default();
            let said = named
                .union(given.unwrap_or_default())
                .union(dimension.otherwise.unwrap_or_default());
            let idle: Vec<&NamedValue> = unnamed(&dimension.values, said);
            if idle.is_empty() {
                continue;
            }
            some_values(&format!("`{name}`"), &idle)
        };
        finding.dimension = Some(id);
        found.push(finding);
    }
    found
}

fn whole(headline: String, span: Span) -> Finding {
    words::finding(Kind::Unused, headline, span, "not used")
        .help("Strike it out, or use it where it was meant to be used.")
}

fn some_values(of: &str, idle: &[&NamedValue]) -> Finding {
    let names: Vec<String> = idle
        .iter()
        .map(|value| format!("`{}`", value.name))
        .collect();
    let word = if names.len() == 1 { "value" } else { "values" };
    let headline = format!(
        "Nothing uses the {word} {} of {of}",
        words::and_list(&names)
    );
    let mut spans = idle.iter().map(|value| value.span);
    let label = "nothing names it";
    let span = spans.next().unwrap_or_default();
    let mut finding = words::finding(Kind::Unused, headline, span, label)
        .help("If a rule on it is missing, write it; if it is only what the other values leave, all is well.");
    finding
        .labels
        .extend(spans.map(|span| (span, "nor this".to_owned())));
    finding
}

fn unnamed(values: &[NamedValue], used: ValueSet) -> Vec<&NamedValue> {
    values
        .iter()
        .enumerate()
        .filter(|(index, _)| !used.contains(*index))
        .map(|(_, value)| value)
        .collect()
}

/// Values that no condition names; of a scale, only those that none tells from a neighbour either.
fn idle_values<'k>(
    kind: &'k AttributeKind,
    named: ValueSet,
    told_apart: &[ValueSet],
) -> Vec<&'k NamedValue> {
    match kind {
        AttributeKind::YesNo | AttributeKind::Number(_) => Vec::new(),
        AttributeKind::Several(items) => unnamed(items, named),
        AttributeKind::Choice(values) => {
            let all = ValueSet::first(values.len());
            let alone = told_apart.iter().flat_map(|set| [*set, all.minus(*set)]);
            let alone = alone
                .filter(|set| set.len() == 1)
                .fold(named, ValueSet::union);
            unnamed(values, alone.with(0))
        }
        AttributeKind::Scale(values) => {
            let alike = |one: usize, other: usize| {
                told_apart
                    .iter()
                    .all(|set| set.contains(one) == set.contains(other))
            };
            let idle = (0..values.len()).filter(|index| {
                let below = index.checked_sub(1);
                let above = Some(index + 1).filter(|above| *above < values.len());
                !named.contains(*index)
                    && below
                        .into_iter()
                        .chain(above)
                        .any(|other| alike(*index, other))
            });
            idle.filter_map(|index| values.get(index)).collect()
        }
    }
}

/// What the conditions, principles and tables of a ruleset use.
#[derive(Default)]
struct Uses<'r> {
    /// Every word of every condition.
    words: BTreeSet<&'r str>,
    attributes: BTreeSet<AttributeId>,
    /// By attribute, the values that are named.
    values: Vec<ValueSet>,
    /// By attribute, the sets that comparisons have told apart.
    told_apart: Vec<Vec<ValueSet>>,
    terms: BTreeSet<usize>,
    dimensions: BTreeSet<DimensionId>,
    /// By dimension, the values that conditions name.
    rulings: Vec<ValueSet>,
}

impl<'r> Uses<'r> {
    fn of(ruleset: &'r Ruleset) -> Self {
        let mut uses = Uses {
            values: vec![ValueSet::EMPTY; ruleset.attributes.len()],
            told_apart: vec![Vec::new(); ruleset.attributes.len()],
            rulings: vec![ValueSet::EMPTY; ruleset.dimensions.len()],
            ..Uses::default()
        };
        for condition in conditions(ruleset) {
            condition.each_part(&mut |part| {
                let said: BTreeSet<&str> = match &part.kind {
                    ConditionKind::All(_) | ConditionKind::Any(_) => BTreeSet::new(),
                    _ => written(ruleset.sources.slice(part.span)).collect(),
                };
                match &part.kind {
                    ConditionKind::Fact { test, .. } => uses.fact(ruleset, test, &said),
                    ConditionKind::Term(term) => {
                        uses.terms.insert(term.index());
                    }
                    ConditionKind::Ruling {
                        dimension, test, ..
                    } => {
                        uses.dimensions.insert(*dimension);
                        let items = match test {
                            RulingTest::OneOf(values)
                            | RulingTest::Includes { items: values, .. } => *values,
                        };
                        let named = named_in(&ruleset[*dimension].values, &said, items);
                        if let Some(slot) = uses.rulings.get_mut(dimension.index()) {
                            *slot = slot.union(named);
                        }
                    }
                    _ => {}
                }
                uses.words.extend(said);
            });
        }
        for principle in &ruleset.principles {
            match &principle.promise {
                Promise::ImpartialTo(attributes) => {
                    for id in attributes {
                        uses.attributes.insert(*id);
                        uses.whole_attribute(ruleset, *id);
                    }
                }
                Promise::RisesWith { attribute, .. } => {
                    uses.attributes.insert(*attribute);
                    uses.whole_attribute(ruleset, *attribute);
                }
                Promise::Expect { .. } | Promise::NoGain { .. } => {}
            }
        }
        uses
    }

    fn whole_attribute(&mut self, ruleset: &Ruleset, id: AttributeId) {
        if let Some(slot) = self.values.get_mut(id.index()) {
            *slot = ValueSet::first(ruleset[id].kind.names().len());
        }
    }

    fn fact(&mut self, ruleset: &Ruleset, test: &Test, said: &BTreeSet<&str>) {
        self.attributes.extend(test.attributes());
        match test {
            Test::OneOf { attribute, values } => {
                let named = named_in(ruleset[*attribute].kind.names(), said, *values);
                if let Some(slot) = self.values.get_mut(attribute.index()) {
                    *slot = slot.union(named);
                }
                if let Some(sets) = self.told_apart.get_mut(attribute.index()) {
                    sets.push(*values);
                }
            }
            Test::Several {
                attribute, items, ..
            } => {
                let named = named_in(ruleset[*attribute].kind.names(), said, *items);
                if let Some(slot) = self.values.get_mut(attribute.index()) {
                    *slot = slot.union(named);
                }
            }
            // Whether two are the same depends on every value of both.
            Test::Same { left, right, .. } => {
                self.whole_attribute(ruleset, *left);
                self.whole_attribute(ruleset, *right);
            }
            Test::Within { .. } | Test::Linear(_) => {}
        }
    }
}

/// The values that the words name; a single value that was compared with is named by whatever
/// brought it in (a table's row).
fn named_in(values: &[NamedValue], said: &BTreeSet<&str>, compared: ValueSet) -> ValueSet {
    let named = values
        .iter()
        .enumerate()
        .filter(|(_, value)| said.contains(value.name.as_str()));
    let named: ValueSet = named.map(|(index, _)| index).collect();
    if compared.len() == 1 {
        named.union(compared)
    } else {
        named
    }
}
