//! What a ruleset has words for, besides the values of its attributes.

use crate::logic::diagram::{Diagrams, Set};
use crate::logic::{Formula, attributes_asked_by};
use crate::model::AttributeId;
use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The most phrases that are thought of at once.
const MOST: usize = 48;

/// Nodes that may be made for one phrase.
const WORK: usize = 1_000_000;

/// A condition that has words of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Phrase {
    /// The words, as a condition of the language.
    pub words: String,
    /// Where it is true.
    pub is_so: Formula,
    /// What it reads.
    pub reads: BTreeSet<AttributeId>,
    /// Whether it is a defined term, or its contrary.
    pub is_term: bool,
}

/// A phrase with its scenarios.
#[derive(Clone, Debug)]
pub struct Atom {
    /// The words, as a condition of the language.
    pub words: String,
    /// What it reads.
    pub reads: BTreeSet<AttributeId>,
    /// Whether it is a defined term, or its contrary.
    pub is_term: bool,
    /// Whether cells say the same.
    pub is_box: bool,
    /// Where it is true.
    pub set: Set,
}

impl PartialEq for Atom {
    fn eq(&self, other: &Atom) -> bool {
        self.words == other.words
    }
}

impl Eq for Atom {}

impl PartialOrd for Atom {
    fn partial_cmp(&self, other: &Atom) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Atom {
    fn cmp(&self, other: &Atom) -> Ordering {
        self.words.cmp(&other.words)
    }
}

/// What a ruleset has words for.
#[derive(Clone, Debug, Default)]
pub struct Vocabulary {
    /// Conditions with words of their own.
    pub phrases: Vec<Phrase>,
    /// Numbers, in steps, that the ruleset compares an attribute with by the name of a quantity.
    pub quantities: BTreeMap<(AttributeId, i64), String>,
}

impl Diagrams<'_> {
    /// The phrases that could be of use among these attributes, with their scenarios. What would be too
    /// large is left out: then there is one way less to say it.
    pub(super) fn atoms(
        &mut self,
        vocabulary: &Vocabulary,
        mentioned: &BTreeSet<AttributeId>,
    ) -> Vec<Arc<Atom>> {
        let known = self.with_asking(mentioned);
        let phrases = vocabulary.phrases.iter();
        let useful = phrases.filter(|phrase| phrase.reads.is_subset(&known));
        let useful: Vec<&Phrase> = useful.take(MOST).collect();
        let mut atoms = Vec::new();
        for phrase in useful {
            let known = self.worded().get(&phrase.words).cloned();
            let atom = known.unwrap_or_else(|| {
                // Its work is no part of the question's, which may be the first that needs it or not.
                let left = self.set_aside(WORK);
                let made = self.atom(phrase);
                self.take_up(left);
                self.worded().insert(phrase.words.clone(), made.clone());
                made
            });
            atoms.extend(atom);
        }
        atoms
    }

    /// These attributes, and those that decide whether they are asked.
    fn with_asking(&self, mentioned: &BTreeSet<AttributeId>) -> BTreeSet<AttributeId> {
        let ruleset = self.theory().ruleset();
        let mut known = mentioned.clone();
        let mut open: Vec<AttributeId> = mentioned.iter().copied().collect();
        while let Some(id) = open.pop() {
            let asked_by = attributes_asked_by(ruleset, id);
            let more = asked_by.ones().map(AttributeId::new);
            open.extend(more.filter(|id| known.insert(*id)));
        }
        known
    }

    fn atom(&mut self, phrase: &Phrase) -> Option<Arc<Atom>> {
        let set = self.set(&phrase.is_so).ok()?;
        if set.is_false() || set == self.space() {
            return None;
        }
        let is_box = self.is_box(&set).ok()?;
        Some(Arc::new(Atom {
            words: phrase.words.clone(),
            reads: phrase.reads.clone(),
            is_term: phrase.is_term,
            is_box,
            set,
        }))
    }
}
