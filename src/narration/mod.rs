//! An incident told in plain words: a title and a few sentences, made from the ruleset's labels.
//!
//! A reader of a report, a question of a quiz and an official at the table are told the same incident
//! in the same words. What has no bearing and is as usual is left out; nothing else is. This module
//! refuses to know how anything is printed.

mod asked;
mod contrast;
mod key;
mod ruled;

pub use asked::{answers, question};
pub use contrast::{bearing, cited, clauses_named, ruling_told, the_same_but, worth_telling};
pub use key::{Key, KeyAnswer, KeyStep, Then, key};
pub use ruled::{Answer, answer, ruled};

use crate::labels;
use crate::logic::{Code, Established, Scenario, attributes_asked_by};
use crate::model::{AttributeId, AttributeKind, Origin, Ruleset};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// An incident in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Narration {
    /// A few words by which to call it.
    pub title: String,
    /// What happened, each a sentence with its full stop.
    pub sentences: Vec<String>,
}

impl fmt::Display for Narration {
    /// The title on a line, the sentences in one paragraph below it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\n{}", self.title, self.sentences.join(" "))
    }
}

/// Tells what is established of an incident. Of the attributes that are neither in `matters` nor decide
/// whether one of those is asked, only what is out of the ordinary is told, last; with `None`
/// everything is told.
pub fn tell(
    ruleset: &Ruleset,
    facts: &Established,
    matters: Option<&BTreeSet<AttributeId>>,
) -> Narration {
    let matters = matters.map(|matters| with_asking(ruleset, matters));
    let wanted = |id: AttributeId| matters.as_ref().is_none_or(|all| all.contains(&id));
    let chosen: Vec<AttributeId> = facts
        .facts()
        .map(|(id, _)| id)
        .filter(|id| wanted(*id))
        .collect();
    let tree = Tree::of(ruleset, &chosen);
    let said = |id: &AttributeId| facts.get(*id).map(|code| statement(ruleset, *id, code));
    let mut sentences: Vec<String> = tree
        .openings()
        .map(|(opening, leaves)| {
            let parts = std::iter::once(opening).chain(leaves);
            sentence(&parts.filter_map(said).collect::<Vec<_>>())
        })
        .collect();
    let besides: Vec<String> = facts
        .facts()
        .filter(|(id, code)| !wanted(*id) && !is_ordinary(ruleset, *id, *code))
        .map(|(id, code)| statement(ruleset, id, code))
        .collect();
    if !besides.is_empty() {
        sentences.push(format!("Besides: {}.", besides.join("; ")));
    }
    Narration {
        title: title(ruleset, facts, &tree),
        sentences,
    }
}

/// Adds what decides whether some attributes are asked at all: without it they hang in the air.
fn with_asking(ruleset: &Ruleset, matters: &BTreeSet<AttributeId>) -> BTreeSet<AttributeId> {
    let mut all = matters.clone();
    let mut open: Vec<AttributeId> = all.iter().copied().collect();
    while let Some(id) = open.pop() {
        let through = asked_through(ruleset, id).into_iter();
        open.extend(through.filter(|other| all.insert(*other)));
    }
    all
}

/// Tells a whole scenario; see [`tell`].
pub fn scenario(
    ruleset: &Ruleset,
    scenario: &Scenario,
    matters: Option<&BTreeSet<AttributeId>>,
) -> Narration {
    let facts = Established::whole(scenario, ruleset.attributes.len());
    tell(ruleset, &facts, matters)
}

/// One fact in words, without a full stop: `joint that is loaded: elbow`; of what is answered yes, the
/// label alone.
pub fn statement(ruleset: &Ruleset, id: AttributeId, code: Code) -> String {
    let attribute = &ruleset[id];
    let name = labels::attribute(ruleset, attribute);
    match (&attribute.kind, attribute.origin, code) {
        (AttributeKind::YesNo, Origin::Stated, Code(1)) => name,
        (_, Origin::Reading(_), _) => format!("{name} {}", labels::fact(ruleset, id, code)),
        _ => format!("{name}: {}", labels::fact(ruleset, id, code)),
    }
}

/// How a word is read that can be read either way: `"attack at once" is taken narrowly`.
pub fn read_so(ruleset: &Ruleset, id: AttributeId, code: Code) -> String {
    match ruleset[id].origin {
        Origin::Stated => statement(ruleset, id, code),
        Origin::Reading(term) => {
            let term = &ruleset[term];
            let called = labels::called(ruleset, term.label.as_ref(), &term.name);
            format!("\"{called}\" is taken {}", labels::fact(ruleset, id, code))
        }
    }
}

/// How a second scenario differs from a first, a statement for each attribute.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The attribute.
    pub attribute: AttributeId,
    /// What is different, in words: `joint that is loaded: shoulder (not elbow)`.
    pub words: String,
    /// How it is different.
    pub change: Change,
}

/// How an attribute is different in a second scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// It has another value.
    Value,
    /// It was not asked and now is.
    NewlyAsked,
    /// It was asked and no longer is.
    NoLongerAsked,
}

/// How the second of two scenarios differs from the first: changed values first, then what is newly
/// asked because of them, then what is no longer asked.
pub fn differences(ruleset: &Ruleset, first: &Scenario, second: &Scenario) -> Vec<Difference> {
    let ids = || (0..ruleset.attributes.len()).map(AttributeId::new);
    let changed = ids().filter_map(|id| {
        let (one, other) = (first.get(id)?, second.get(id)?);
        (one != other).then(|| Difference {
            attribute: id,
            words: changed(ruleset, id, one, other),
            change: Change::Value,
        })
    });
    let added = ids().filter_map(|id| {
        let code = second.get(id).filter(|_| first.get(id).is_none())?;
        Some(Difference {
            attribute: id,
            words: statement(ruleset, id, code),
            change: Change::NewlyAsked,
        })
    });
    let gone = ids()
        .filter(|id| first.get(*id).is_some() && second.get(*id).is_none())
        .map(|id| Difference {
            attribute: id,
            words: labels::attribute_name(ruleset, &ruleset[id]),
            change: Change::NoLongerAsked,
        });
    changed.chain(added).chain(gone).collect()
}

fn changed(ruleset: &Ruleset, id: AttributeId, one: Code, other: Code) -> String {
    let attribute = &ruleset[id];
    let name = labels::attribute(ruleset, attribute);
    let (was, is) = (
        labels::fact(ruleset, id, one),
        labels::fact(ruleset, id, other),
    );
    match attribute.origin {
        Origin::Stated => format!("{name}: {is} (not {was})"),
        Origin::Reading(_) => format!("{name} {is} (not {was})"),
    }
}

/// Whether a value is the ordinary one: the first, the lowest, no, none.
fn is_ordinary(ruleset: &Ruleset, id: AttributeId, code: Code) -> bool {
    // A reading is told wherever there is one: nobody would guess that it is open.
    code == Code(0) && ruleset[id].origin == Origin::Stated
}

fn sentence(parts: &[String]) -> String {
    format!("{}.", capital(&parts.join("; ")))
}

/// The same words with a capital letter.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// The facts that are told, each below the one because of which it is asked.
struct Tree {
    told: Vec<AttributeId>,
    /// Of facts that are asked because of others, the nearest of those.
    above: BTreeMap<AttributeId, AttributeId>,
}

impl Tree {
    fn of(ruleset: &Ruleset, told: &[AttributeId]) -> Tree {
        let mut above = BTreeMap::new();
        for id in told {
            let read = asked_through(ruleset, *id);
            if let Some(nearest) = told.iter().rev().find(|other| read.contains(other)) {
                above.insert(*id, *nearest);
            }
        }
        Tree {
            told: told.to_vec(),
            above,
        }
    }

    fn has_below(&self, id: AttributeId) -> bool {
        self.above.values().any(|above| *above == id)
    }

    /// The facts that open a sentence, each with those that end it.
    fn openings(&self) -> impl Iterator<Item = (&AttributeId, Vec<&AttributeId>)> {
        let opens = |id: &&AttributeId| self.has_below(**id) || !self.above.contains_key(id);
        self.told.iter().filter(opens).map(move |id| {
            let leaves = self
                .told
                .iter()
                .filter(move |leaf| self.above.get(leaf) == Some(id) && !self.has_below(**leaf));
            (id, leaves.collect())
        })
    }
}

/// The attributes that decide directly whether an attribute is asked.
fn asked_through(ruleset: &Ruleset, id: AttributeId) -> BTreeSet<AttributeId> {
    let read = attributes_asked_by(ruleset, id);
    read.ones()
        .map(AttributeId::new)
        .filter(|other| *other != id)
        .collect()
}

/// What others are asked because of says best what kind of incident it is; of that, the last few.
fn title(ruleset: &Ruleset, facts: &Established, tree: &Tree) -> String {
    const MOST: usize = 3;
    let spine: Vec<AttributeId> = tree
        .told
        .iter()
        .copied()
        .filter(|id| tree.has_below(*id))
        .collect();
    let chosen: &[AttributeId] = if spine.is_empty() { &tree.told } else { &spine };
    let words: Vec<String> = chosen
        .iter()
        .filter_map(|id| named(ruleset, *id, facts.get(*id)?))
        .collect();
    let last = words.get(words.len().saturating_sub(MOST)..);
    match last {
        Some(words) if !words.is_empty() => capital(&words.join(", ")),
        _ => "An incident".to_owned(),
    }
}

/// A fact by its value alone, where that can be understood.
fn named(ruleset: &Ruleset, id: AttributeId, code: Code) -> Option<String> {
    match &ruleset[id].kind {
        AttributeKind::YesNo if ruleset[id].origin == Origin::Stated && code == Code(0) => None,
        AttributeKind::Choice(_) | AttributeKind::Scale(_) => Some(labels::fact(ruleset, id, code)),
        _ => Some(statement(ruleset, id, code)),
    }
}

#[cfg(test)]
mod tests;
