//! Clause against clause: which prevails, which takes the other away, which contradict each other, which
//! overlap and agree.
//!
//! Only clauses that stand in some relation are shown, each as a row; a pair is named once in words, so
//! that the picture can be left out.

use super::cards::{Card, ClauseLink};
use crate::graph::Overlaps;
use crate::labels;
use crate::model::{ClauseId, DimensionId, Kind, Ruleset};
use crate::report::words;
use std::collections::{BTreeMap, BTreeSet};

/// How a clause of a row stands to the clause of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Stands {
    /// They contradict each other: the finding of this number says so.
    Contradicts(usize),
    /// It takes the other away.
    Disapplies,
    /// Where both rule on something, it stands.
    Prevails,
    /// The other way round.
    Yields,
    /// It is taken away by the other.
    Disapplied,
    /// Both can be met at once and rule on the same, agreeing.
    Overlaps,
}

impl Stands {
    /// The sign in the picture.
    pub(super) fn sign(self) -> &'static str {
        match self {
            Stands::Contradicts(_) => "✕",
            Stands::Disapplies => "◆",
            Stands::Prevails => "▶",
            Stands::Yields => "◁",
            Stands::Disapplied => "◇",
            Stands::Overlaps => "∩",
        }
    }

    /// In words, between the two clauses.
    pub(super) fn words(self) -> &'static str {
        match self {
            Stands::Contradicts(_) => "contradicts",
            Stands::Disapplies => "disapplies",
            Stands::Prevails => "prevails over",
            Stands::Yields => "yields to",
            Stands::Disapplied => "is disapplied by",
            Stands::Overlaps => "overlaps with",
        }
    }
}

/// The picture: the clauses, and for each row its cells.
pub(super) struct Matrix {
    pub(super) clauses: Vec<ClauseLink>,
    /// A row for each clause; `None` where two clauses have nothing to do with each other.
    pub(super) rows: Vec<(ClauseLink, Vec<Option<Stands>>)>,
    /// The same pair by pair, in words: the one, how it stands, the other, and what else is to be said.
    pub(super) pairs: Vec<(ClauseLink, &'static str, ClauseLink, String)>,
    /// Whether there are too many clauses for a picture.
    pub(super) too_many: bool,
    /// Whether there would be with those that only overlap, which are then left out of it.
    pub(super) overlaps_left_out: bool,
    /// What stayed undecided about overlaps.
    pub(super) open: String,
}

/// More clauses than this make no picture that anybody can read.
const MOST: usize = 80;

type Relations = BTreeMap<(ClauseId, ClauseId), Stands>;

/// Notes a relation; of several the first in the order of [`Stands`] counts.
fn note(stands: &mut Relations, one: ClauseId, other: ClauseId, how: Stands) {
    if one != other {
        let known = stands.entry((one, other)).or_insert(how);
        *known = (*known).min(how);
    }
}

/// The relations of all clauses.
pub(super) fn matrix(ruleset: &Ruleset, cards: &[&Card], overlaps: &Overlaps) -> Matrix {
    let mut stands = Relations::new();
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let id = ClauseId::new(index);
        for other in &clause.prevails_over {
            note(&mut stands, id, *other, Stands::Prevails);
            note(&mut stands, *other, id, Stands::Yields);
        }
        for other in &clause.disapplies {
            note(&mut stands, id, *other, Stands::Disapplies);
            note(&mut stands, *other, id, Stands::Disapplied);
        }
    }
    for card in cards {
        if card.kind == Kind::Contradiction.word() {
            for one in &card.clauses {
                for other in &card.clauses {
                    note(
                        &mut stands,
                        one.clause,
                        other.clause,
                        Stands::Contradicts(card.number),
                    );
                }
            }
        }
    }
    let related: BTreeSet<ClauseId> = stands.keys().map(|(one, _)| *one).collect();
    let mut on: BTreeMap<(ClauseId, ClauseId), &[DimensionId]> = BTreeMap::new();
    for (one, other, dimensions) in &overlaps.pairs {
        note(&mut stands, *one, *other, Stands::Overlaps);
        note(&mut stands, *other, *one, Stands::Overlaps);
        on.insert((*one, *other), dimensions);
    }
    let all: BTreeSet<ClauseId> = stands.keys().map(|(one, _)| *one).collect();
    let overlaps_left_out = all.len() > MOST && related.len() <= MOST;
    let ids = if overlaps_left_out { related } else { all };
    let pairs = stands.iter().filter(|((one, other), how)| match how {
        Stands::Contradicts(_) | Stands::Overlaps => one < other,
        Stands::Disapplies | Stands::Prevails => true,
        Stands::Yields | Stands::Disapplied => false,
    });
    let pairs = pairs.map(|((one, other), how)| {
        (
            ClauseLink::new(ruleset, *one),
            how.words(),
            ClauseLink::new(ruleset, *other),
            match how {
                Stands::Overlaps => on
                    .get(&(*one, *other))
                    .map_or_else(String::new, |on| agree(ruleset, on)),
                _ => String::new(),
            },
        )
    });
    let pairs = pairs.collect();
    let too_many = ids.len() > MOST;
    let shown: Vec<ClauseId> = ids.into_iter().filter(|_| !too_many).collect();
    let row = |one: &ClauseId| {
        let cells = shown.iter();
        let cells = cells.map(|other| stands.get(&(*one, *other)).copied());
        (ClauseLink::new(ruleset, *one), cells.collect())
    };
    Matrix {
        rows: shown.iter().map(row).collect(),
        clauses: shown
            .iter()
            .map(|id| ClauseLink::new(ruleset, *id))
            .collect(),
        pairs,
        too_many,
        overlaps_left_out,
        open: open(overlaps),
    }
}

/// What two clauses agree on.
fn agree(ruleset: &Ruleset, on: &[DimensionId]) -> String {
    let names = on.iter().map(|id| labels::dimension(ruleset, *id));
    format!("on {}", words::and_list(&names.collect::<Vec<_>>()))
}

fn open(overlaps: &Overlaps) -> String {
    match &overlaps.reason {
        None => String::new(),
        Some(reason) => format!(
            "Of {} it stayed undecided whether both can be met at once: {reason}.",
            words::counted(overlaps.open, "pair")
        ),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::graph::overlaps;
    use crate::load::load;
    use crate::solve::Budget;

    #[test]
    fn a_relation_stands_in_both_rows_and_once_in_words() {
        let ruleset = load(
            "a",
            "\
ruleset: Rules
attributes:
  late:
rulings:
  play: {choice: [stops, goes_on], otherwise: goes_on}
clauses:
  - id: '1'
    when: late
    ruling: {play: stops}
  - id: '2'
    ruling: {play: goes_on}
    subject_to: ['1']
  - id: '3'
    when: late
    disapplies: ['2']
  - id: '4'
    ruling: {play: goes_on}
",
        )
        .unwrap()
        .ruleset;
        let found = overlaps(&ruleset, &Budget::unlimited());
        let matrix = matrix(&ruleset, &[], &found);
        let signs: Vec<String> = matrix
            .rows
            .iter()
            .map(|(clause, cells)| {
                let signs = cells.iter().map(|cell| cell.map_or("-", Stands::sign));
                format!("{} {}", clause.id, signs.collect::<String>())
            })
            .collect();
        assert_eq!(signs, ["1 -▶--", "2 ◁-◇∩", "3 -◆--", "4 -∩--"]);
        let words: Vec<String> = matrix
            .pairs
            .iter()
            .map(|(one, how, other, on)| format!("{} {how} {} {on}", one.id, other.id))
            .collect();
        assert_eq!(
            words,
            [
                "1 prevails over 2 ",
                "2 overlaps with 4 on play",
                "3 disapplies 2 "
            ]
        );
    }
}
