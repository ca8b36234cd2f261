//! Clause against clause: which prevails, which takes the other away, which contradict each other.
//!
//! Only clauses that stand in some relation are shown, each as a row; a pair is named once in words, so
//! that the picture can be left out.

use super::cards::{Card, ClauseLink};
use crate::model::{ClauseId, Kind, Ruleset};
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
        }
    }
}

/// The picture: the clauses, and for each row its cells.
pub(super) struct Matrix {
    pub(super) clauses: Vec<ClauseLink>,
    /// A row for each clause; `None` where two clauses have nothing to do with each other.
    pub(super) rows: Vec<(ClauseLink, Vec<Option<Stands>>)>,
    /// The same pair by pair, in words: the one, how it stands, the other.
    pub(super) pairs: Vec<(ClauseLink, &'static str, ClauseLink)>,
    /// Whether there are too many clauses for a picture.
    pub(super) too_many: bool,
}

/// More clauses than this make no picture that anybody can read.
const MOST: usize = 80;

/// The relations of all clauses.
pub(super) fn matrix(ruleset: &Ruleset, cards: &[&Card]) -> Matrix {
    let mut stands: BTreeMap<(ClauseId, ClauseId), Stands> = BTreeMap::new();
    let mut note = |one: ClauseId, other: ClauseId, how: Stands| {
        if one != other {
            let known = stands.entry((one, other)).or_insert(how);
            *known = (*known).min(how);
        }
    };
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let id = ClauseId::new(index);
        for other in &clause.prevails_over {
            note(id, *other, Stands::Prevails);
            note(*other, id, Stands::Yields);
        }
        for other in &clause.disapplies {
            note(id, *other, Stands::Disapplies);
            note(*other, id, Stands::Disapplied);
        }
    }
    for card in cards {
        if card.kind == Kind::Contradiction.word() {
            for one in &card.clauses {
                for other in &card.clauses {
                    note(one.clause, other.clause, Stands::Contradicts(card.number));
                }
            }
        }
    }
    let ids: BTreeSet<ClauseId> = stands.keys().map(|(one, _)| *one).collect();
    let pairs = stands.iter().filter(|((one, other), how)| match how {
        Stands::Contradicts(_) => one < other,
        Stands::Disapplies | Stands::Prevails => true,
        Stands::Yields | Stands::Disapplied => false,
    });
    let pairs = pairs.map(|((one, other), how)| {
        (
            ClauseLink::new(ruleset, *one),
            how.words(),
            ClauseLink::new(ruleset, *other),
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
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::load::load;

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
        let matrix = matrix(&ruleset, &[]);
        let signs: Vec<String> = matrix
            .rows
            .iter()
            .map(|(clause, cells)| {
                let signs = cells.iter().map(|cell| cell.map_or("-", Stands::sign));
                format!("{} {}", clause.id, signs.collect::<String>())
            })
            .collect();
        assert_eq!(signs, ["1 -▶-", "2 ◁-◇", "3 -◆-"]);
        let words: Vec<String> = matrix
            .pairs
            .iter()
            .map(|(one, how, other)| format!("{} {how} {}", one.id, other.id))
            .collect();
        assert_eq!(words, ["1 prevails over 2", "3 disapplies 2"]);
    }
}
