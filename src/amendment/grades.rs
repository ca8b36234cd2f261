//! How far rulings move, and in which direction, by the scales of their dimensions.

use super::changes::{Row, State};
use crate::model::Ruleset;

/// How far a ruling moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// By one step of its scale.
    Minor,
    /// By several steps; or in a way that no scale measures.
    Major,
    /// From one end of its scale to the other.
    Reversal,
}

/// In which direction rulings change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// No ruling changes.
    Unchanged,
    /// No ruling is lower than it was, and some are higher.
    NeverLower,
    /// No ruling is higher than it was, and some are lower.
    NeverHigher,
    /// Some are higher, some lower.
    Both,
    /// Rulings change, and none of them can be called higher or lower.
    Unordered,
}

/// The values of a dimension, and whether they have an order.
fn scale_of(ruleset: &Ruleset, name: &str) -> Option<(bool, Vec<String>)> {
    let dimension = ruleset.dimensions.iter().find(|it| it.name == name)?;
    let values = dimension.values.iter().map(|value| value.name.clone());
    Some((dimension.ordered, values.collect()))
}

/// By how many steps of its scale the ruling of a row rises, where both editions have one.
fn rises(before: &Ruleset, after: &Ruleset, row: &Row) -> Option<i64> {
    match (
        scale_of(before, &row.dimension),
        scale_of(after, &row.dimension),
    ) {
        (Some((true, was)), Some((true, is))) => steps(&was, &is, &row.from, &row.to),
        _ => None,
    }
}

pub(super) fn grade(before: &Ruleset, after: &Ruleset, row: &Row) -> Grade {
    let values = scale_of(after, &row.dimension).map_or(0, |(_, values)| values.len());
    let ends = i64::try_from(values).unwrap_or(i64::MAX) - 1;
    match rises(before, after, row).map(i64::abs) {
        Some(moved) if moved >= ends => Grade::Reversal,
        Some(1) => Grade::Minor,
        _ => Grade::Major,
    }
}

pub(super) fn direction(before: &Ruleset, after: &Ruleset, name: &str, rows: &[Row]) -> Direction {
    let (mut higher, mut lower, mut changed) = (false, false, false);
    for row in rows.iter().filter(|row| row.dimension == name) {
        changed = true;
        match rises(before, after, row) {
            Some(steps) if steps > 0 => higher = true,
            Some(steps) if steps < 0 => lower = true,
            _ => {}
        }
    }
    match (changed, higher, lower) {
        (false, ..) => Direction::Unchanged,
        (true, true, true) => Direction::Both,
        (true, true, false) => Direction::NeverLower,
        (true, false, true) => Direction::NeverHigher,
        (true, false, false) => Direction::Unordered,
    }
}

/// By how many steps of a scale a ruling rises; `None` where it is not exactly one before and after,
/// or the two editions order their values differently.
fn steps(was: &[String], is: &[String], from: &State, to: &State) -> Option<i64> {
    let (State::Values(from), State::Values(to)) = (from, to) else {
        return None;
    };
    let ([from], [to]) = (from.as_slice(), to.as_slice()) else {
        return None;
    };
    let place = |list: &[String], name: &String| {
        let index = list.iter().position(|value| value == name)?;
        i64::try_from(index).ok()
    };
    // On the later edition's scale; a value that it doesn't have, on the earlier one's.
    match (place(is, from), place(is, to)) {
        (Some(from), Some(to)) => Some(to - from),
        _ => Some(place(was, to)? - place(was, from)?),
    }
}
