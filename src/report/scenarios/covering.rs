//! Covering sets told to people, and what cannot occur together.

use super::Teller;
use crate::labels;
use crate::model::{AttributeId, AttributeKind, Ruleset};
use crate::narration::{self, worth_telling};
use crate::report::leaf::Leaf;
use crate::report::words::{counted, grouped, or_list};
use crate::scenario::covering::Refusal;
use crate::scenario::{Covering, Value};
use num_bigint::BigUint;
use std::collections::{BTreeMap, BTreeSet};

pub(super) fn covering(
    teller: &Teller<'_>,
    page: &mut Vec<Leaf>,
    number: &mut usize,
    it: &Covering,
) {
    let ruleset = teller.ruleset;
    let big = |number: usize| grouped(&BigUint::from(number));
    page.push(Leaf::Heading(format!(
        "Covering set of strength {}",
        it.strength
    )));
    let together = match it.strength {
        1 => "Every value that can occur",
        2 => "Every two values that can occur together",
        3 => "Every three values that can occur together",
        _ => "Every four values that can occur together",
    };
    page.push(Leaf::Paragraph(format!(
        "{together} do so in one of these {}: {} combinations. {} more can't occur, which is proved.",
        counted(it.scenarios.len(), "scenario"),
        big(it.covered),
        big(it.never),
    )));
    if !it.open.is_empty() {
        page.push(Leaf::Paragraph(format!(
            "Of {} it stayed open whether they can occur; they are not covered.",
            counted(it.open.len(), "combination"),
        )));
    }
    for scenario in &it.scenarios {
        let said = teller.outcome(scenario);
        let told = narration::scenario(ruleset, scenario, None);
        page.push(Leaf::Entry(format!("{number}."), told.title));
        super::row(page, "Incident", told.sentences.join(" "));
        super::row(
            page,
            "Ruled",
            teller.ruled(&said, &worth_telling(ruleset, &said)),
        );
        *number += 1;
    }
    if !it.impossible.is_empty() {
        page.push(Leaf::Heading("What can't occur together".to_owned()));
        page.push(Leaf::List(impossible(teller, &it.impossible)));
    }
}

/// An attribute, or an item of one.
type Key = (AttributeId, Option<usize>);

/// The combinations that cannot occur: attributes that are never both asked on one line each, then the
/// others, those that differ only in the last value together.
fn impossible(teller: &Teller<'_>, all: &[Vec<Value>]) -> Vec<String> {
    let ruleset = teller.ruleset;
    let key = |value: &Value| (value.attribute, value.item);
    let name = |id: AttributeId| labels::attribute_name(ruleset, &ruleset[id]);
    let mut between: BTreeMap<(Key, Key), usize> = BTreeMap::new();
    for tuple in all {
        if let [one, other] = tuple.as_slice() {
            *between.entry((key(one), key(other))).or_default() += 1;
        }
    }
    let whole = |one: &Key, other: &Key| {
        let sizes = values_of(teller, *one).zip(values_of(teller, *other));
        let counted = between.get(&(*one, *other));
        sizes
            .zip(counted)
            .is_some_and(|((one, other), counted)| one * other == *counted)
    };
    let mut never: BTreeMap<AttributeId, BTreeSet<AttributeId>> = BTreeMap::new();
    let mut told: BTreeMap<Vec<Value>, Vec<Value>> = BTreeMap::new();
    for tuple in all {
        match tuple.as_slice() {
            [one, other] if whole(&key(one), &key(other)) => {
                never
                    .entry(one.attribute)
                    .or_default()
                    .insert(other.attribute);
            }
            _ => {
                if let Some((last, first)) = tuple.split_last() {
                    told.entry(first.to_vec()).or_default().push(*last);
                }
            }
        }
    }
    let mut lines: Vec<String> = never
        .into_iter()
        .map(|(id, others)| {
            let others: Vec<String> = others.into_iter().map(name).collect();
            format!("{}: never together with {}", name(id), or_list(&others))
        })
        .collect();
    for (first, last) in told {
        let with: Vec<String> = first
            .iter()
            .map(|it| format!("{}: {}", name(it.attribute), value_words(ruleset, it)))
            .collect();
        let mut by_attribute: BTreeMap<AttributeId, Vec<String>> = BTreeMap::new();
        for value in last {
            let of = by_attribute.entry(value.attribute).or_default();
            of.push(value_words(ruleset, &value));
        }
        for (id, words) in by_attribute {
            let end = format!("{}: {}", name(id), or_list(&words));
            lines.push(if with.is_empty() {
                format!("{end} (in no incident)")
            } else {
                format!("{}; never with {end}", with.join("; "))
            });
        }
    }
    lines
}

/// How many values of a parameter a covering set tells apart; `None` where it takes only some of them.
fn values_of(
    teller: &Teller<'_>,
    (attribute, item): (AttributeId, Option<usize>),
) -> Option<usize> {
    let layers = teller.reach.layers();
    match (&teller.ruleset[attribute].kind, item) {
        (_, Some(_)) | (AttributeKind::YesNo, None) => Some(2),
        (AttributeKind::Choice(names) | AttributeKind::Scale(names), None) => Some(names.len()),
        (AttributeKind::Number(_) | AttributeKind::Several(_), None) => {
            let layer = layers.all().get(layers.of(attribute).start)?;
            let cells = layer.cells - usize::from(layer.is_conditional());
            (!layers.is_summed(attribute)).then_some(cells)
        }
    }
}

pub(in crate::report) fn value_words(ruleset: &Ruleset, value: &Value) -> String {
    let kind = &ruleset[value.attribute].kind;
    if let Some(item) = value.item {
        let name = kind.names().get(item);
        let name = name.map(|name| labels::called(ruleset, name.label.as_ref(), &name.name));
        let present = if value.code.0 == 1 { "" } else { "without " };
        return format!("{present}{}", name.unwrap_or_default());
    }
    let low = labels::fact(ruleset, value.attribute, value.code);
    if value.to == value.code {
        low
    } else {
        format!(
            "{low} to {}",
            labels::fact(ruleset, value.attribute, value.to)
        )
    }
}

pub(super) fn refused(refusal: Refusal) -> String {
    match refusal {
        Refusal::TooMany(number) => format!(
            "There are more than {} combinations, too many for one set. Name fewer attributes with `--among`, or ask for a lower strength.",
            grouped(&BigUint::from(number))
        ),
        Refusal::Stopped => "The time given was used up before the set was made.".to_owned(),
    }
}
