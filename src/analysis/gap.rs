//! Gap: a ruling is due on a dimension and none is given.
//!
//! Question: is there a scenario in which a ruling is due and no clause in force rules on the
//! dimension? One finding a dimension, with a line for each general condition. Nothing is reported
//! where a ruling that the dimension is built on is itself at fault.

use super::finding::Finding;
use super::inquiry::{Description, Inquiry};
use super::words;
use crate::logic::{Formula, Layer, Name, Part, Scenario, World};
use crate::model::{AttributeKind, DimensionId, Kind, Ruleset};

/// Whether silence on the dimension can be a gap at all.
pub(super) fn possible(ruleset: &Ruleset, dimension: DimensionId) -> bool {
    let this = &ruleset[dimension];
    this.required_when.is_some() || this.otherwise.is_none()
}

/// Where a ruling is due, none is given, and nothing that it is built on is at fault.
pub(super) fn question(inquiry: &Inquiry<'_, '_>, dimension: DimensionId) -> Formula {
    let faulty = inquiry.dimension_built_on_fault(dimension);
    Formula::all([Name::Gap(World::Actual, dimension).into(), faulty.negated()])
}

/// Where a ruling is due and none is given, but something that it is built on is at fault. Nothing is
/// reported there, and nothing is proved either. `None` where it is built on no ruling.
pub(super) fn resting_on_faults(
    inquiry: &Inquiry<'_, '_>,
    dimension: DimensionId,
) -> Option<Formula> {
    let faulty = inquiry.dimension_built_on_fault(dimension);
    (faulty != Formula::False)
        .then(|| Formula::all([Name::Gap(World::Actual, dimension).into(), faulty]))
}

/// Puts a gap into words.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    dimension: DimensionId,
    witness: &Scenario,
    question: &Formula,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[dimension];
    let speakers = inquiry.theory.speakers(dimension).to_vec();
    let mentioned = inquiry.mentioned(&speakers);
    let description = inquiry.describe(question, witness, &mentioned, &[]);
    let left_out = numbers_left_out(inquiry, &description);
    let due = if this.required_when.is_some() {
        "although a clause must say something there"
    } else {
        ""
    };
    let headline = match (left_out.first(), description.general.lines.as_slice()) {
        (Some(number), _) => format!("Nothing is ruled on {}: {number} is left out", this.name),
        (None, [line]) if line == "always" => format!("Nothing is ever ruled on {}", this.name),
        (None, [line]) if line.chars().count() <= 60 => {
            format!("Nothing is ruled on {} where {line}", this.name)
        }
        _ => format!("Some scenarios get no ruling on {}", this.name),
    };
    let label = if due.is_empty() {
        "no clause rules on it there, and it has no `otherwise`"
    } else {
        due
    };
    let mut finding = words::finding(Kind::Gap, headline, this.span, label);
    finding.dimension = Some(dimension);
    if let Some(more) = left_out.get(1..).filter(|more| !more.is_empty()) {
        let more: Vec<&str> = more.iter().map(String::as_str).collect();
        finding.help = Some(format!("Also left out: {}.", words::and_list(&more)));
    }
    let advice = if this.otherwise.is_some() {
        "Add a clause for these scenarios, or narrow `required_when`."
    } else {
        "Add a clause for these scenarios, or give the dimension an `otherwise`."
    };
    let advice = finding
        .help
        .as_ref()
        .map_or_else(|| advice.to_owned(), |known| format!("{known} {advice}"));
    finding.described(description).help(advice)
}

/// Single numbers that are left out between two thresholds, in words.
fn numbers_left_out(inquiry: &Inquiry<'_, '_>, description: &Description) -> Vec<String> {
    let layers = inquiry.reach.layers().all();
    let mut found = Vec::new();
    for line in &description.lines {
        for (layer, cells) in layers.iter().zip(&line.cells) {
            if let (
                Part::Steps {
                    conditional,
                    ranges,
                },
                Some(cells),
            ) = (&layer.part, cells)
                && let [cell] = cells.as_slice()
                && let Some((low, high)) = cell
                    .checked_sub(usize::from(*conditional))
                    .and_then(|index| ranges.get(index))
                && low == high
            {
                found.extend(single_number(inquiry.ruleset, layer, *low));
            }
        }
    }
    found.sort();
    found.dedup();
    found
}

fn single_number(ruleset: &Ruleset, layer: &Layer, step: i64) -> Option<String> {
    let attribute = &ruleset[layer.attribute];
    let AttributeKind::Number(range) = &attribute.kind else {
        return None;
    };
    // At an end of the range one number is a whole side of a threshold, not a hole between two.
    (step > 0 && step < range.steps).then(|| {
        let unit = range.unit.to_string();
        let space = if unit.is_empty() { "" } else { " " };
        format!("{} {}{space}{unit}", attribute.name, range.value(step))
    })
}
