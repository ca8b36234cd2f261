//! Questions for facts, and ranges of answers, in words.

use crate::analysis::or_list;
use crate::labels;
use crate::logic::{Code, Layer, Part};
use crate::model::{AttributeId, AttributeKind, NumberRange, Origin, Ruleset, Unit};

/// What is to be established, without a question mark: `joint that is loaded`; of an item of a
/// `several` also which: `what touches the mat: hand`.
pub fn question(ruleset: &Ruleset, attribute: AttributeId, item: Option<usize>) -> String {
    let name = labels::attribute_name(ruleset, &ruleset[attribute]);
    let names = ruleset[attribute].kind.names();
    match item.and_then(|item| names.get(item)) {
        Some(item) => {
            let item = labels::called(ruleset, item.label.as_ref(), &item.name);
            format!("{name}: {item}")
        }
        None => name,
    }
}

/// The answers that lie in some cells of a layer: `yes`, `elbow or knee`, `10 to 14 s`.
pub fn answers(ruleset: &Ruleset, layer: &Layer, cells: &[usize]) -> String {
    let id = layer.attribute;
    let first = usize::from(layer.is_conditional() && layer.part != Part::Asked);
    let values = || cells.iter().filter_map(|cell| cell.checked_sub(first));
    match (&layer.part, &ruleset[id].kind) {
        (Part::Steps { ranges, .. }, AttributeKind::Number(range)) => {
            let chosen: Vec<(i64, i64)> = values()
                .filter_map(|index| ranges.get(index).copied())
                .collect();
            let stretches: Vec<String> = joined(&chosen)
                .into_iter()
                .map(|(low, high)| stretch(range, low, high))
                .collect();
            let unit = match &range.unit {
                Unit::None => String::new(),
                Unit::Named(unit) => format!(" {unit}"),
            };
            format!("{}{unit}", or_list(&stretches))
        }
        (Part::Values { .. }, AttributeKind::YesNo) if ruleset[id].origin != Origin::Stated => {
            let words = values().map(|value| if value == 0 { "narrowly" } else { "broadly" });
            or_list(&words.collect::<Vec<_>>())
        }
        (Part::Values { .. }, _) => {
            let words = values().map(|value| labels::fact(ruleset, id, Code(value as u64)));
            or_list(&words.collect::<Vec<_>>())
        }
        _ => {
            let words = cells
                .iter()
                .map(|cell| if *cell == 0 { "no" } else { "yes" });
            or_list(&words.collect::<Vec<_>>())
        }
    }
}

/// Ranges of which one begins where another ends, put together.
fn joined(ranges: &[(i64, i64)]) -> Vec<(i64, i64)> {
    let mut sorted = ranges.to_vec();
    sorted.sort_unstable();
    let mut out: Vec<(i64, i64)> = Vec::new();
    for (low, high) in sorted {
        match out.last_mut() {
            Some(last) if last.1.saturating_add(1) >= low => last.1 = last.1.max(high),
            _ => out.push((low, high)),
        }
    }
    out
}

fn stretch(range: &NumberRange, low: i64, high: i64) -> String {
    let (from, to) = (range.value(low), range.value(high));
    let open = range.or_more && high == range.steps;
    match (low == high, open) {
        (_, true) => format!("{from} or more"),
        (true, false) => from.to_string(),
        (false, false) => format!("{from} to {to}"),
    }
}
