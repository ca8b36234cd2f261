//! A draft as it is circulated: what stood, what is to stand, thing by thing, with every word that
//! goes or comes.
//!
//! It is read off the two editions, not off the draft, so that it shows what the draft comes to, two
//! whole editions included. Which marks show a word that goes is for whoever prints it.

use super::numbers::Earlier;
use super::parts::{Thing, things};
use super::units::Unit;
use crate::model::Ruleset;
use crate::read::amendment::Part;
use similar::{Algorithm, ChangeTag, TextDiff};
use std::collections::{BTreeMap, BTreeSet};

/// One thing that is not the same in both editions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Redlined {
    /// What kind of thing.
    pub part: Part,
    /// Its id or name: in the later edition, or where it is gone, in the earlier.
    pub name: String,
    /// What becomes of it.
    pub fate: Fate,
    /// What it says, part by part, in the order of the file.
    pub lines: Vec<Line>,
    /// The rulings that change through it, by index in the rows of the draft's effects; `None` where
    /// they were not put down to changes.
    pub rows: Option<Vec<usize>>,
    /// Clauses untouched in their words that do something else through it.
    pub affected: Vec<String>,
}

impl Redlined {
    /// Its id or name in the earlier edition; of what is new, the one that it has now.
    pub fn earlier(&self) -> &str {
        match &self.fate {
            Fate::Renumbered(old) | Fate::ChangedAndRenumbered(old) => old,
            Fate::Inserted | Fate::Repealed | Fate::Changed => &self.name,
        }
    }
}

/// What becomes of a thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It is new.
    Inserted,
    /// It is gone.
    Repealed,
    /// It says something else.
    Changed,
    /// Only its number is another; the earlier one.
    Renumbered(String),
    /// It says something else under another number; the earlier one.
    ChangedAndRenumbered(String),
}

/// One part of a thing, such as its text or its condition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it is called.
    pub label: String,
    /// What it says and said.
    pub pieces: Vec<Piece>,
}

impl Line {
    /// Whether anything in it goes or comes.
    pub fn changes(&self) -> bool {
        let mut pieces = self.pieces.iter();
        pieces.any(|piece| !matches!(piece, Piece::Kept(_)))
    }
}

/// Words that stay, go or come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// They stay.
    Kept(String),
    /// They go.
    Deleted(String),
    /// They come.
    Inserted(String),
}

/// What is to be marked between two editions. `earlier` are, for ids of the later one, those that the
/// clauses had before, where these are others.
pub(super) fn redline(before: &Ruleset, after: &Ruleset, earlier: &Earlier) -> Vec<Redlined> {
    let (was, is) = (things(before), things(after));
    let key = |thing: &Thing| -> (Part, String) {
        let name = match thing.part {
            Part::Clause => earlier.get(&thing.name).unwrap_or(&thing.name),
            _ => &thing.name,
        };
        (thing.part, name.clone())
    };
    let old: BTreeMap<(Part, String), &Thing> = was
        .iter()
        .map(|thing| ((thing.part, thing.name.clone()), thing))
        .collect();
    let kept: BTreeSet<(Part, String)> = is.iter().map(&key).collect();
    let mut found = Vec::new();
    // What is gone is told where it stood: behind what was before it there.
    let mut gone: BTreeMap<Option<(Part, String)>, Vec<&Thing>> = BTreeMap::new();
    let mut last: Option<(Part, String)> = None;
    for thing in &was {
        let own = (thing.part, thing.name.clone());
        if kept.contains(&own) {
            last = Some(own);
        } else {
            gone.entry(last.clone()).or_default().push(thing);
        }
    }
    let mut repealed = |behind: Option<(Part, String)>, found: &mut Vec<Redlined>| {
        for thing in gone.remove(&behind).unwrap_or_default() {
            let lines = lines(&thing.says, &[]);
            found.push(redlined(thing, Fate::Repealed, lines));
        }
    };
    repealed(None, &mut found);
    for thing in &is {
        let own = key(thing);
        match old.get(&own) {
            None => found.push(redlined(thing, Fate::Inserted, lines(&[], &thing.says))),
            Some(before) => {
                let lines = lines(&before.says, &thing.says);
                let mut changed = lines.iter().filter(|line| line.changes());
                let renumbered = before.name != thing.name;
                let otherwise = changed.any(|line| !renumbered || line.label != "Number");
                let fate = match (renumbered, otherwise) {
                    (true, true) => Some(Fate::ChangedAndRenumbered(before.name.clone())),
                    (true, false) => Some(Fate::Renumbered(before.name.clone())),
                    (false, true) => Some(Fate::Changed),
                    (false, false) => None,
                };
                found.extend(fate.map(|fate| redlined(thing, fate, lines)));
            }
        }
        repealed(Some(own), &mut found);
    }
    found
}

fn redlined(thing: &Thing, fate: Fate, lines: Vec<Line>) -> Redlined {
    Redlined {
        part: thing.part,
        name: thing.name.clone(),
        fate,
        lines,
        rows: None,
        affected: Vec::new(),
    }
}

/// Says of each thing which rulings change through it: those put down to a unit that touches it.
pub(super) fn put_down(redline: &mut [Redlined], units: &[Unit], by: &[Vec<usize>]) {
    for thing in redline {
        let earlier = thing.earlier();
        let touching: BTreeSet<usize> = units
            .iter()
            .enumerate()
            .filter(|(_, unit)| unit.touches(thing.part, &thing.name, earlier))
            .map(|(index, _)| index)
            .collect();
        let rows = by.iter().enumerate();
        let rows = rows.filter(|(_, units)| units.iter().any(|unit| touching.contains(unit)));
        // What only moves is put down together with what it makes room for.
        if matches!(thing.fate, Fate::Renumbered(_)) {
            continue;
        }
        thing.rows = Some(rows.map(|(index, _)| index).collect());
    }
}

/// The parts of both, those of the later one in its order, each part that is gone behind what was
/// before it.
fn lines(was: &[(String, String)], is: &[(String, String)]) -> Vec<Line> {
    let find = |list: &'_ [(String, String)], label: &str| -> Option<String> {
        let found = list.iter().find(|(known, _)| known == label);
        found.map(|(_, words)| words.clone())
    };
    let mut labels: Vec<&String> = is.iter().map(|(label, _)| label).collect();
    let mut place = 0;
    for (label, _) in was {
        if let Some(known) = labels.iter().position(|known| *known == label) {
            place = known + 1;
        } else {
            labels.insert(place.min(labels.len()), label);
            place += 1;
        }
    }
    labels
        .into_iter()
        .map(|label| Line {
            label: label.clone(),
            pieces: pieces(
                &find(was, label).unwrap_or_default(),
                &find(is, label).unwrap_or_default(),
            ),
        })
        .collect()
}

/// Two wordings laid over each other, word by word.
fn pieces(was: &str, is: &str) -> Vec<Piece> {
    if was == is {
        return vec![Piece::Kept(was.to_owned())];
    }
    let diff = TextDiff::configure()
        .algorithm(Algorithm::Patience)
        .diff_unicode_words(was, is);
    let mut runs: Vec<(ChangeTag, String)> = Vec::new();
    for change in diff.iter_all_changes() {
        match runs.last_mut() {
            Some((tag, words)) if *tag == change.tag() => words.push_str(change.value()),
            _ => runs.push((change.tag(), change.value().to_owned())),
        }
    }
    smoothed(runs)
        .into_iter()
        .map(|(tag, words)| match tag {
            ChangeTag::Equal => Piece::Kept(words),
            ChangeTag::Delete => Piece::Deleted(words),
            ChangeTag::Insert => Piece::Inserted(words),
        })
        .collect()
}

/// A space that stays between words that go and come is taken with them: three marks in a row read
/// worse than one.
fn smoothed(runs: Vec<(ChangeTag, String)>) -> Vec<(ChangeTag, String)> {
    let mut out: Vec<(ChangeTag, String)> = Vec::new();
    let mut deleted = String::new();
    let mut inserted = String::new();
    let flush = |deleted: &mut String, inserted: &mut String, out: &mut Vec<_>| {
        if !deleted.is_empty() {
            out.push((ChangeTag::Delete, std::mem::take(deleted)));
        }
        if !inserted.is_empty() {
            out.push((ChangeTag::Insert, std::mem::take(inserted)));
        }
    };
    let count = runs.len();
    for (index, (tag, words)) in runs.into_iter().enumerate() {
        match tag {
            ChangeTag::Delete => deleted.push_str(&words),
            ChangeTag::Insert => inserted.push_str(&words),
            ChangeTag::Equal => {
                let between = index > 0 && index + 1 < count && words.trim().is_empty();
                if between && !(deleted.is_empty() && inserted.is_empty()) {
                    deleted.push_str(&words);
                    inserted.push_str(&words);
                } else {
                    flush(&mut deleted, &mut inserted, &mut out);
                    out.push((ChangeTag::Equal, words));
                }
            }
        }
    }
    flush(&mut deleted, &mut inserted, &mut out);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A line in one string: `[-gone-]`, `[+new+]`.
    fn marked(was: &str, is: &str) -> String {
        let pieces = pieces(was, is).into_iter();
        pieces
            .map(|piece| match piece {
                Piece::Kept(words) => words,
                Piece::Deleted(words) => format!("[-{words}-]"),
                Piece::Inserted(words) => format!("[+{words}+]"),
            })
            .collect()
    }

    #[test]
    fn words_are_marked_that_go_and_come() {
        for (was, is, expected) in [
            ("a lock", "a lock", "a lock"),
            ("", "a lock", "[+a lock+]"),
            ("a lock", "", "[-a lock-]"),
            (
                "a lock on the elbow",
                "a lock on the knee",
                "a lock on the [-elbow-][+knee+]",
            ),
            (
                "held at least 20",
                "held at least 25",
                "held at least [-20-][+25+]",
            ),
            (
                "one two three",
                "four five three",
                "[-one two-][+four five+] three",
            ),
        ] {
            assert_eq!(marked(was, is), expected);
        }
    }

    proptest::proptest! {
        #[test]
        fn what_stays_and_goes_is_what_was_and_what_stays_and_comes_is_what_is(
            was in "[ab ,.ñ]{0,24}", is in "[ab ,.ñ]{0,24}"
        ) {
            let all = pieces(&was, &is);
            let side = |wanted: fn(&Piece) -> Option<&String>| -> String {
                all.iter().filter_map(wanted).map(String::as_str).collect()
            };
            let old = side(|piece| match piece {
                Piece::Kept(words) | Piece::Deleted(words) => Some(words),
                Piece::Inserted(_) => None,
            });
            let new = side(|piece| match piece {
                Piece::Kept(words) | Piece::Inserted(words) => Some(words),
                Piece::Deleted(_) => None,
            });
            proptest::prop_assert_eq!((old, new), (was, is));
        }
    }
}
