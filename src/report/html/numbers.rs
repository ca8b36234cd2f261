//! Strips of numbers: for each number that clauses look at, the ranges between its thresholds, and in
//! which of them each clause can be met.
//!
//! They are tables, so that they are read aloud as they are seen. "Can be met" is said of a clause where
//! nothing about the number rules it out; what else it asks for is not looked at here.

use super::cards::{Card, ClauseLink};
use super::rules::{MarginNote, margin_note};
use crate::labels;
use crate::logic::{Code, Layer, Layers, Part, Reach};
use crate::model::{AttributeId, ClauseId, Kind, Ruleset};
use crate::report::text_capital;

/// One number.
pub(super) struct Strip {
    pub(super) title: String,
    /// Where it is explained.
    pub(super) to: String,
    /// The ranges between thresholds, lowest first.
    pub(super) ranges: Vec<String>,
    pub(super) rows: Vec<Row>,
    /// For each range, how many of the clauses can be met there.
    pub(super) together: Vec<usize>,
    /// Gaps that turn on the number.
    pub(super) holes: Vec<MarginNote>,
}

/// A clause that looks at the number.
pub(super) struct Row {
    pub(super) clause: ClauseLink,
    /// For each range, whether it can be met there.
    pub(super) there: Vec<bool>,
}

/// The strips, in the order of the attributes.
pub(super) fn strips(ruleset: &Ruleset, cards: &[&Card]) -> Vec<Strip> {
    let reach = Reach::new(ruleset, Layers::new(ruleset));
    let layers = reach.layers().all().iter().enumerate();
    let mut strips: Vec<(AttributeId, Strip)> = layers
        .filter_map(|(index, layer)| {
            let strip = strip(ruleset, &reach, index, layer, cards)?;
            Some((layer.attribute, strip))
        })
        .collect();
    strips.sort_by_key(|(attribute, _)| *attribute);
    strips.into_iter().map(|(_, strip)| strip).collect()
}

fn strip(
    ruleset: &Ruleset,
    reach: &Reach<'_>,
    index: usize,
    layer: &Layer,
    cards: &[&Card],
) -> Option<Strip> {
    let Part::Steps {
        conditional,
        ranges,
    } = &layer.part
    else {
        return None;
    };
    let first = usize::from(*conditional);
    let rows: Vec<Row> = (0..ruleset.clauses.len())
        .map(ClauseId::new)
        .filter_map(|clause| {
            let cells = reach.cell_box(clause)?.cells.get(&index)?;
            let there: Vec<bool> = (0..ranges.len())
                .map(|range| cells.contains(first + range))
                .collect();
            let tells_apart = there.contains(&true) && there.contains(&false);
            tells_apart.then(|| Row {
                clause: ClauseLink::new(ruleset, clause),
                there,
            })
        })
        .collect();
    if rows.is_empty() || ranges.len() > MOST_RANGES {
        return None;
    }
    let together = (0..ranges.len()).map(|range| {
        let there = rows
            .iter()
            .filter(|row| row.there.get(range) == Some(&true));
        there.count()
    });
    let attribute = &ruleset[layer.attribute];
    let holes = cards.iter().filter(|card| {
        let is_about = |name: &str| name == attribute.name;
        card.kind == Kind::Gap.word() && card.reads.iter().any(|name| is_about(name))
    });
    Some(Strip {
        title: text_capital(&labels::attribute_name(ruleset, attribute)),
        to: format!("fact-{}", layer.attribute.index()),
        ranges: ranges
            .iter()
            .map(|range| told(ruleset, layer.attribute, *range))
            .collect(),
        together: together.collect(),
        rows,
        holes: holes.map(|card| margin_note(card)).collect(),
    })
}

/// More ranges than this make no strip that anybody can read.
const MOST_RANGES: usize = 24;

/// `0 to 9 s`, `10 s`.
fn told(ruleset: &Ruleset, attribute: AttributeId, (low, high): (i64, i64)) -> String {
    let at = |step: i64| {
        let code = Code(u64::try_from(step).unwrap_or(0));
        labels::fact(ruleset, attribute, code)
    };
    if low == high {
        at(low)
    } else {
        format!("{} to {}", at(low), at(high))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::load::load;

    #[test]
    fn a_strip_has_a_range_between_each_two_thresholds() {
        let ruleset = load(
            "a",
            "\
ruleset: Rules
attributes:
  seconds: {number: 0 to 30, unit: s}
rulings:
  score: {choice: [none, half, full], otherwise: none}
clauses:
  - id: '1'
    when: seconds is between 10 and 19
    ruling: {score: half}
  - id: '2'
    when: seconds at least 20
    ruling: {score: full}
  - id: '3'
    ruling: {score: none}
",
        )
        .unwrap()
        .ruleset;
        let strips = strips(&ruleset, &[]);
        assert_eq!(strips.len(), 1);
        assert_eq!(
            strips[0].ranges,
            ["0 s to 9 s", "10 s to 19 s", "20 s to 30 s"]
        );
        let rows: Vec<(&str, &[bool])> = strips[0]
            .rows
            .iter()
            .map(|row| (row.clause.id.as_str(), row.there.as_slice()))
            .collect();
        assert_eq!(
            rows,
            [
                ("1", [false, true, false].as_slice()),
                ("2", [false, false, true].as_slice())
            ]
        );
        assert_eq!(strips[0].together, [0, 1, 1]);
    }
}
