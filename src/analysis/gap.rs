//! Gap: a ruling is due on a dimension and none is given.
//!
//! Question: is there a scenario in which a ruling is due and no clause in force rules on the
//! dimension? One finding a dimension, with a line for each general condition. Nothing is reported
//! where a clause is silent only because a ruling that it reads is itself at fault.

use super::finding::{Cover, Finding};
use super::inquiry::{Description, Inquiry};
use super::splitting::Piece;
use super::words;
use crate::logic::{Formula, Layer, Line, Name, Scenario, World};
use crate::model::{AttributeKind, DimensionId, Kind, Ruleset};

/// Whether silence on the dimension can be a gap at all.
pub(super) fn possible(ruleset: &Ruleset, dimension: DimensionId) -> bool {
    let this = &ruleset[dimension];
    this.required_when.is_some() || this.otherwise.is_none()
}

/// Where a ruling is due, none is given, and no clause is silent because of another fault.
pub(super) fn question(inquiry: &Inquiry<'_, '_>, dimension: DimensionId) -> Formula {
    let faulty = inquiry.silenced_by_a_fault(dimension);
    Formula::all([Name::Gap(World::Actual, dimension).into(), faulty.negated()])
}

/// Where a ruling is due and none is given, and a clause is silent because of another fault. Nothing
/// is reported there, and nothing is proved either. `None` where that cannot be.
pub(super) fn resting_on_faults(
    inquiry: &Inquiry<'_, '_>,
    dimension: DimensionId,
) -> Option<Formula> {
    let faulty = inquiry.silenced_by_a_fault(dimension);
    (faulty != Formula::False)
        .then(|| Formula::all([Name::Gap(World::Actual, dimension).into(), faulty]))
}

/// Where a gap lies.
#[derive(Clone, Copy)]
pub(super) struct Place<'p> {
    /// Where in the whole space.
    pub(super) question: &'p Formula,
    /// The parts of the space in which there is some of it; none where it was asked about as a whole.
    pub(super) pieces: &'p [Piece],
    /// Whether there is none in any other part.
    pub(super) all: bool,
}

/// Puts a gap into words.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    dimension: DimensionId,
    witness: &Scenario,
    place: Place<'_>,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[dimension];
    let speakers = inquiry.theory.speakers(dimension).to_vec();
    let mentioned = inquiry.mentioned(&speakers);
    let mut description = inquiry.describe(place.question, witness, &mentioned, &[]);
    if description.general.cover != Cover::Exact
        && let Some(described) = inquiry.describe_pieces(place, &mentioned)
    {
        description = described;
    }
    let left_out = numbers_left_out(inquiry, &description);
    let headline = match (left_out.first(), description.general.lines.as_slice()) {
        (Some(number), _) => format!("Nothing is ruled on {}: {number} is left out", this.name),
        (None, [line]) if line == "always" => format!("Nothing is ever ruled on {}", this.name),
        (None, [line]) if line.chars().count() <= 60 => {
            format!("Nothing is ruled on {} where {line}", this.name)
        }
        _ => format!("Some scenarios get no ruling on {}", this.name),
    };
    let label = if this.required_when.is_some() {
        "a clause must rule on it there, and none does"
    } else {
        "no clause rules on it there, and it has no `otherwise`"
    };
    let mut finding = words::finding(Kind::Gap, headline, this.span, label);
    finding.dimension = Some(dimension);
    if let Some(more) = left_out.get(1..).filter(|more| !more.is_empty()) {
        let more: Vec<&str> = more.iter().map(String::as_str).collect();
        finding.help = Some(format!("Also left out: {}.", words::and_list(&more)));
    }
    let advice = if this.required_when.is_some() {
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

/// The single number that is left out between two thresholds, in words: every line must turn on it,
/// and a sum must not, since there it is the sum that is left out.
fn numbers_left_out(inquiry: &Inquiry<'_, '_>, description: &Description) -> Vec<String> {
    let layers = inquiry.reach.layers();
    let single = |line: &Line, index: usize, layer: &Layer| {
        let [cell] = line.cells.get(index)?.as_deref()? else {
            return None;
        };
        let (low, high) = layer.steps(*cell)?;
        (low == high).then_some(low)
    };
    let Some(first) = description.lines.first() else {
        return Vec::new();
    };
    let numbers = layers
        .all()
        .iter()
        .enumerate()
        .filter_map(|(index, layer)| {
            let step = single(first, index, layer)?;
            let everywhere = description
                .lines
                .iter()
                .all(|line| single(line, index, layer) == Some(step));
            if everywhere && !layers.is_summed(layer.attribute) {
                single_number(inquiry.ruleset, layer, step)
            } else {
                None
            }
        });
    numbers.collect()
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
