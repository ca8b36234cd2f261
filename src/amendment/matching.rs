//! Which clauses of two editions are the same, judged by what they say.
//!
//! A number is a weak sign: it may have been given to another clause. So every two clauses are held
//! beside each other by their texts, conditions, rulings and titles. Those that are most alike are
//! taken for the same first, where nothing else is as much alike; a common number counts as a sign
//! beside these, and decides alone where no clause fits clearly better.

use super::numbers::{Earlier, earlier};
use crate::model::{Clause, ClauseId, Ruleset, Text};
use std::collections::{BTreeMap, BTreeSet};

/// Two clauses of two editions that were taken for the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Match {
    /// The id in the earlier edition.
    pub before: String,
    /// The id in the later edition.
    pub after: String,
    /// What both have that is the same.
    pub same: Vec<Sign>,
    /// Whether it may as well be another clause: neither is the text the same, nor are condition and
    /// ruling.
    pub guess: bool,
}

/// What two clauses can have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sign {
    /// The text, word for word.
    Text,
    /// The condition with its exception, word for word.
    Condition,
    /// What is ruled.
    Ruling,
    /// The title.
    Title,
    /// The number.
    Number,
}

/// Clauses that are less alike than this are taken for the same by their number only.
const ALIKE: f64 = 0.75;
/// A common number outweighs so much likeness.
const NUMBER: f64 = 0.3;
/// The same text, or the same condition and ruling, outweigh so much likeness.
const STRONG: f64 = 0.6;
/// Clauses under one number that are less alike than this are told.
const UNLIKE: f64 = 0.3;
/// Two pairs that differ by no more are as good as each other.
const TIE: f64 = 0.05;

/// What clauses of the later edition are known by, and which matches are worth telling: those across
/// numbers, and those of which only the number is the same.
pub(super) fn matched(before: &Ruleset, after: &Ruleset) -> (Earlier, Vec<Match>) {
    let pairs = paired(before, after);
    let mut old_of: BTreeMap<ClauseId, ClauseId> = BTreeMap::new();
    let mut told: Vec<(ClauseId, Match)> = Vec::new();
    for pair in pairs {
        old_of.insert(pair.new, pair.old);
        let (old, new) = (&before[pair.old].id, &after[pair.new].id);
        if old != new || (pair.guess() && pair.likeness < UNLIKE) {
            let found = Match {
                before: old.clone(),
                after: new.clone(),
                guess: pair.guess(),
                same: pair.same,
            };
            told.push((pair.new, found));
        }
    }
    told.sort_by_key(|(new, _)| *new);
    let all = after.clauses.iter().enumerate().map(|(index, clause)| {
        let old = old_of.get(&ClauseId::new(index));
        (clause.id.clone(), old.map(|old| before[*old].id.clone()))
    });
    (
        earlier(before, all),
        told.into_iter().map(|(_, found)| found).collect(),
    )
}

/// Two clauses held beside each other.
struct Pair {
    old: ClauseId,
    new: ClauseId,
    same: Vec<Sign>,
    /// From 0, nothing in common, to 1.
    likeness: f64,
}

impl Pair {
    fn has(&self, sign: Sign) -> bool {
        self.same.contains(&sign)
    }

    fn guess(&self) -> bool {
        let meaning = self.has(Sign::Condition) && self.has(Sign::Ruling);
        !(self.has(Sign::Text) || meaning)
    }

    /// How good it is. A number with another strong sign beats everything.
    fn rank(&self) -> f64 {
        match (self.has(Sign::Number), self.guess()) {
            (true, false) => self.likeness + NUMBER + STRONG + 1.0,
            (true, true) => self.likeness + NUMBER,
            (false, false) => self.likeness + STRONG,
            (false, true) => self.likeness,
        }
    }

    fn counts(&self) -> bool {
        self.has(Sign::Number) || !self.guess() || self.likeness >= ALIKE
    }

    fn shares_a_clause(&self, other: &Pair) -> bool {
        self.old == other.old || self.new == other.new
    }
}

/// The clauses that are taken for the same: the best pairs first, each clause once.
fn paired(before: &Ruleset, after: &Ruleset) -> Vec<Pair> {
    let mut known = Known::default();
    let [mut old, mut new] = [before, after].map(|ruleset| {
        let clauses = ruleset.clauses.iter().enumerate();
        clauses
            .map(|(index, clause)| known.said(ruleset, ClauseId::new(index), clause))
            .collect::<Vec<Said>>()
    });
    let mut taken = unchanged(&old, &new);
    let rest = |all: &mut Vec<Said>, gone: BTreeSet<ClauseId>| {
        all.retain(|said| !gone.contains(&said.clause));
    };
    rest(&mut old, taken.iter().map(|pair| pair.old).collect());
    rest(&mut new, taken.iter().map(|pair| pair.new).collect());
    let mut pairs: Vec<Pair> = Vec::new();
    for new in &new {
        let beside = old.iter().map(|old| old.beside(new));
        pairs.extend(beside.filter(Pair::counts));
    }
    // The sort is stable: of equals the first in the file comes first.
    pairs.sort_by(|one, other| other.rank().total_cmp(&one.rank()));
    while !pairs.is_empty() {
        let best = pairs.remove(0);
        let rivals = rivals(&best, &mut pairs);
        // Which of several is meant, nothing says.
        if rivals.is_empty() {
            pairs.retain(|other| !other.shares_a_clause(&best));
            taken.push(best);
        }
    }
    taken
}

/// The pairs with a common number and another strong sign. Nothing ranks above these, and no clause is in
/// two of them, so that all other pairs need only be made of the rest.
fn unchanged(old: &[Said], new: &[Said]) -> Vec<Pair> {
    let by_id: BTreeMap<u32, &Said> = old.iter().map(|said| (said.id, said)).collect();
    let pairs = new
        .iter()
        .filter_map(|new| Some(by_id.get(&new.id)?.beside(new)));
    pairs.filter(|pair| !pair.guess()).collect()
}

/// Takes out the pairs that are as good as this one and share a clause with it, or with one of them. A
/// number decides between such.
fn rivals(best: &Pair, pairs: &mut Vec<Pair>) -> Vec<Pair> {
    let mut rivals: Vec<Pair> = Vec::new();
    if best.has(Sign::Number) {
        return rivals;
    }
    loop {
        let near = |other: &Pair| {
            let mut known = rivals.iter().chain([best]);
            !other.has(Sign::Number)
                && best.rank() - other.rank() <= TIE
                && known.any(|known| known.shares_a_clause(other))
        };
        match pairs.iter().position(near) {
            Some(index) => rivals.push(pairs.remove(index)),
            None => return rivals,
        }
    }
}

/// The words met so far, each with a number, by which they are quickly compared.
#[derive(Default)]
struct Known {
    numbers: BTreeMap<String, u32>,
}

impl Known {
    fn number(&mut self, word: &str) -> u32 {
        if let Some(number) = self.numbers.get(word) {
            return *number;
        }
        let number = u32::try_from(self.numbers.len()).unwrap_or(u32::MAX);
        self.numbers.insert(word.to_owned(), number);
        number
    }

    fn bag<'w>(&mut self, words: impl IntoIterator<Item = &'w str>) -> Bag {
        let whole: Vec<u32> = words.into_iter().map(|word| self.number(word)).collect();
        let mut sorted = whole.clone();
        sorted.sort_unstable();
        Bag { whole, sorted }
    }

    fn text(&mut self, text: Option<&Text>) -> Bag {
        let all = text.into_iter().flat_map(|text| &text.by_language);
        self.bag(all.flat_map(|(_, words)| words.split_whitespace()))
    }

    fn said(&mut self, ruleset: &Ruleset, clause_id: ClauseId, clause: &Clause) -> Said {
        let condition = if clause.when_span == clause.id_span {
            String::new()
        } else {
            let spans = [Some(clause.when_span), clause.unless_span];
            let spans = spans.iter().flatten();
            let words = spans.map(|span| ruleset.sources.slice(*span));
            words.collect::<Vec<&str>>().join(" unless ")
        };
        let ruled = rulings(ruleset, clause);
        Said {
            clause: clause_id,
            id: self.number(&clause.id),
            parts: [
                (Sign::Text, 3, self.text(clause.text.as_ref())),
                (Sign::Condition, 3, self.bag(condition.split_whitespace())),
                (Sign::Ruling, 2, self.bag(ruled.iter().map(String::as_str))),
                (Sign::Title, 1, self.text(clause.title.as_ref())),
            ],
        }
    }
}

/// What a clause says, ready to be held beside another.
struct Said {
    clause: ClauseId,
    id: u32,
    parts: [(Sign, u32, Bag); 4],
}

impl Said {
    fn beside(&self, other: &Said) -> Pair {
        let (mut of, mut common) = (0.0, 0.0);
        let mut same = Vec::new();
        for ((sign, weight, mine), (_, _, theirs)) in self.parts.iter().zip(&other.parts) {
            if mine.sorted.is_empty() && theirs.sorted.is_empty() {
                continue;
            }
            if mine.whole == theirs.whole {
                same.push(*sign);
            }
            of += f64::from(*weight);
            common += f64::from(*weight) * mine.likeness(theirs);
        }
        if self.id == other.id {
            same.push(Sign::Number);
        }
        Pair {
            old: self.clause,
            new: other.clause,
            same,
            likeness: if of > 0.0 { common / of } else { 0.0 },
        }
    }
}

/// What a clause rules, one line a dimension.
fn rulings(ruleset: &Ruleset, clause: &Clause) -> Vec<String> {
    let told = clause.rulings.iter().map(|(dimension, values)| {
        let dimension = &ruleset[*dimension];
        let values = values.iter();
        let values = values.filter_map(|value| dimension.values.get(value));
        let values: Vec<&str> = values.map(|value| value.name.as_str()).collect();
        format!("{}: {}", dimension.name, values.join(" or "))
    });
    told.collect()
}

/// Words, of which the order matters only where it is asked whether all is the same.
struct Bag {
    whole: Vec<u32>,
    sorted: Vec<u32>,
}

impl Bag {
    /// The share of the words that both have.
    fn likeness(&self, other: &Bag) -> f64 {
        let (mut mine, mut theirs) = (
            self.sorted.iter().peekable(),
            other.sorted.iter().peekable(),
        );
        let mut common = 0_u32;
        while let (Some(one), Some(two)) = (mine.peek(), theirs.peek()) {
            match one.cmp(two) {
                std::cmp::Ordering::Less => {
                    mine.next();
                }
                std::cmp::Ordering::Greater => {
                    theirs.next();
                }
                std::cmp::Ordering::Equal => {
                    common += 1;
                    mine.next();
                    theirs.next();
                }
            }
        }
        let all = u32::try_from(self.sorted.len() + other.sorted.len()).unwrap_or(u32::MAX);
        f64::from(2 * common) / f64::from(all.max(1))
    }
}
