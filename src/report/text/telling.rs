//! A scenario told in the ruleset's own words: first the facts that the finding turns on, then the
//! rest in one breath.

use super::look::Tone;
use super::page::Page;
use crate::analysis::Finding;
use crate::logic::{Basis, Evaluator, Scenario};
use crate::model::{AttributeId, DimensionId, Ruleset};
use crate::report::turning::{asked_through, turns_on};
use crate::report::words;

/// Tells the finding's scenario, and how its pair differs from it.
pub(super) fn scenario(page: &mut Page<'_>, ruleset: &Ruleset, finding: &Finding, indent: usize) {
    let Some(first) = &finding.scenario else {
        return;
    };
    let differing = finding
        .pair
        .as_ref()
        .map_or_else(Vec::new, |second| differing(ruleset, first, second));
    let mut matters = turns_on(ruleset, finding);
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
