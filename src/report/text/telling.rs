//! A scenario told in the ruleset's own words: first the facts that the finding turns on, then the
//! rest in one breath.

use super::look::Tone;
use super::page::Page;
use crate::analysis::Finding;
use crate::logic::{Basis, Evaluator, Scenario};
use crate::model::{
    AttributeId, Condition, ConditionKind, DimensionId, Gain, Meaning, Promise, Ruleset,
};
use crate::report::words;
use std::collections::BTreeSet;

/// Tells the finding's scenario, and how its pair differs from it.
pub(super) fn scenario(page: &mut Page<'_>, ruleset: &Ruleset, finding: &Finding, indent: usize) {
    let Some(first) = &finding.scenario else {
        return;
    };
    let differing = finding
        .pair
        .as_ref()
        .map_or_else(Vec::new, |second| differing(ruleset, first, second));
    let mut matters = relevant(ruleset, finding);
    matters.extend(&differing);
    asked_through(ruleset, &mut matters);
    let stated = |id: &AttributeId| first.get(*id).is_some();
    if !matters.iter().any(stated) {
        matters.extend(first.facts().map(|(id, _)| id));
    }
    let told = |id: AttributeId, scenario: &Scenario| {
        let name = words::attribute(ruleset, &ruleset[id]);
        let value = scenario.get(id).map(|code| words::fact(ruleset, id, code));
        value.map_or_else(
            || format!("{name}: not asked"),
            |value| format!("{name}: {value}"),
        )
    };
    let (turning, rest): (Vec<_>, Vec<_>) = first
        .facts()
        .map(|(id, _)| id)
        .partition(|id| matters.contains(id));
    let mut lines: Vec<(String, Tone)> = turning
        .iter()
        .map(|id| (told(*id, first), Tone::Plain))
        .collect();
    if !rest.is_empty() {
        let rest: Vec<String> = rest.iter().map(|id| told(*id, first)).collect();
        lines.push((format!("and besides, {}", rest.join("; ")), Tone::Quiet));
    }
    if lines.is_empty() {
        return;
    }
    let Some(second) = &finding.pair else {
        page.row_lines(indent, "For instance", &lines);
        return;
    };
    page.row_lines(indent, "One incident", &lines);
    let mut other: Vec<(String, Tone)> = differing
        .iter()
        .map(|id| (told(*id, second), Tone::Plain))
        .collect();
    other.push(("and all else as before".to_owned(), Tone::Quiet));
    page.row_lines(indent, "The other", &other);
    let outcomes = [first, second].map(|scenario| Evaluator::new(ruleset).outcome(scenario));
    let ruled: Vec<(String, Tone)> = dimensions(ruleset, finding)
        .into_iter()
        .filter_map(|dimension| {
            let [one, other] = outcomes.each_ref().map(|outcome| {
                let ruling = outcome.rulings.get(dimension.index())?;
                let values = words::ruling(ruleset, dimension, ruling.values);
                Some(match ruling.basis {
                    Basis::Gap | Basis::Silence => "none given".to_owned(),
                    Basis::Contradiction => "a contradiction".to_owned(),
                    Basis::Clauses | Basis::Default if values.is_empty() => "nothing".to_owned(),
                    Basis::Clauses | Basis::Default => words::or_list(&values),
                })
            });
            let (one, other) = (one?, other?);
            let name = words::dimension(ruleset, dimension);
            let wanted = finding.dimension == Some(dimension) || one != other;
            wanted.then(|| (format!("{name}: {one}; in the other: {other}"), Tone::Plain))
        })
        .collect();
    if !ruled.is_empty() {
        page.row_lines(indent, "Ruled", &ruled);
    }
}

/// The dimension that the finding is about, or all that are announced.
fn dimensions(ruleset: &Ruleset, finding: &Finding) -> Vec<DimensionId> {
    let all = ruleset.dimensions.iter().enumerate();
    let announced = all.filter(|(_, dimension)| !dimension.intermediate);
    finding.dimension.map_or_else(
        || {
            announced
                .map(|(index, _)| DimensionId::new(index))
                .collect()
        },
        |one| vec![one],
    )
}

fn differing(ruleset: &Ruleset, first: &Scenario, second: &Scenario) -> Vec<AttributeId> {
    let all = (0..ruleset.attributes.len()).map(AttributeId::new);
    all.filter(|id| first.get(*id) != second.get(*id)).collect()
}

/// The attributes that the finding turns on: those that its clauses, its principle and its general
/// conditions read.
fn relevant(ruleset: &Ruleset, finding: &Finding) -> BTreeSet<AttributeId> {
    let mut found = BTreeSet::new();
    for clause in &finding.clauses {
        read_by(ruleset, &ruleset[*clause].when, &mut found);
    }
    let principle = ruleset
        .principles
        .iter()
        .find(|principle| Some(&principle.id) == finding.principle.as_ref());
    match principle.map(|principle| &principle.promise) {
        Some(Promise::Expect { whenever, expect }) => {
            read_by(ruleset, whenever, &mut found);
            read_by(ruleset, expect, &mut found);
        }
        Some(Promise::ImpartialTo(attributes)) => found.extend(attributes),
        Some(Promise::RisesWith { attribute, .. }) => {
            found.insert(*attribute);
        }
        Some(Promise::NoGain { by, gain, .. }) => {
            if let Some(by) = by {
                read_by(ruleset, by, &mut found);
            }
            if let Gain::To(condition) = gain {
                read_by(ruleset, condition, &mut found);
            }
        }
        None => {}
    }
    for line in &finding.general.lines {
        let names: BTreeSet<&str> = line
            .split(|letter: char| !letter.is_alphanumeric() && letter != '_')
            .collect();
        let all = ruleset.attributes.iter().enumerate();
        let named = all.filter(|(_, attribute)| names.contains(attribute.name.as_str()));
        found.extend(named.map(|(index, _)| AttributeId::new(index)));
        let terms = ruleset.terms.iter();
        for term in terms.filter(|term| names.contains(term.name.as_str())) {
            read_meaning(ruleset, &term.meaning, &mut found);
        }
    }
    let about = ruleset
        .attributes
        .iter()
        .position(|attribute| Some(&attribute.name) == finding.attribute.as_ref());
    found.extend(about.map(AttributeId::new));
    found
}

/// Adds what decides whether those attributes are asked at all: without it they hang in the air.
fn asked_through(ruleset: &Ruleset, matters: &mut BTreeSet<AttributeId>) {
    let mut open: Vec<AttributeId> = matters.iter().copied().collect();
    while let Some(id) = open.pop() {
        let mut read = BTreeSet::new();
        if let Some(condition) = &ruleset[id].asked_when {
            read_by(ruleset, condition, &mut read);
        }
        open.extend(read.into_iter().filter(|id| matters.insert(*id)));
    }
}

fn read_by(ruleset: &Ruleset, condition: &Condition, found: &mut BTreeSet<AttributeId>) {
    condition.each_part(&mut |part| match &part.kind {
        ConditionKind::Fact { test, .. } => found.extend(test.attributes()),
        ConditionKind::Term(term) => read_meaning(ruleset, &ruleset[*term].meaning, found),
        _ => {}
    });
}

fn read_meaning(ruleset: &Ruleset, meaning: &Meaning, found: &mut BTreeSet<AttributeId>) {
    match meaning {
        Meaning::Sharp(meaning) => read_by(ruleset, meaning, found),
        Meaning::Vague {
            narrow,
            broad,
            reading,
        } => {
            read_by(ruleset, narrow, found);
            read_by(ruleset, broad, found);
            found.insert(*reading);
        }
    }
}
