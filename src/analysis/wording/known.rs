//! The words that a ruleset defines: names with their `_` as blanks, labels, and inflections of both.
//!
//! A word that stands in a text as a part of such a name has a meaning already, and nobody is asked
//! for it.

use super::lists::{List, split};
use super::tokens::Token;
use crate::model::{
    AttributeId, Clause, Condition, ConditionKind, DimensionId, Meaning, NamedValue, Origin,
    Ruleset, TermId, Text,
};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// What a clause reads and rules.
#[derive(Debug, Default)]
pub(super) struct Reads {
    pub(super) attributes: BTreeSet<AttributeId>,
    terms: BTreeSet<TermId>,
    dimensions: BTreeSet<DimensionId>,
    /// Whether it leaves several rulings open.
    pub(super) may_be: bool,
    /// Whether it reads a judged attribute or a vague term.
    pub(super) judged: bool,
}

impl Reads {
    /// What a clause reads, through terms too.
    pub(super) fn of(ruleset: &Ruleset, clause: &Clause) -> Reads {
        let mut reads = Reads::default();
        reads.condition(ruleset, &clause.when);
        for (dimension, values) in &clause.rulings {
            reads.dimensions.insert(*dimension);
            reads.may_be |= values.len() > 1;
        }
        let attributes = reads.attributes.iter();
        reads.judged |= attributes.into_iter().any(|id| ruleset[*id].judged);
        reads
    }

    fn condition(&mut self, ruleset: &Ruleset, condition: &Condition) {
        let mut open: Vec<&Condition> = vec![condition];
        while let Some(condition) = open.pop() {
            condition.each_part(&mut |part| match &part.kind {
                ConditionKind::Fact { test, .. } => self.attributes.extend(test.attributes()),
                ConditionKind::Ruling { dimension, .. } => {
                    self.dimensions.insert(*dimension);
                }
                ConditionKind::Term(term) if self.terms.insert(*term) => {
                    match &ruleset[*term].meaning {
                        Meaning::Sharp(meaning) => open.push(meaning),
                        Meaning::Vague { narrow, broad, .. } => {
                            self.judged = true;
                            open.extend([narrow, broad]);
                        }
                    }
                }
                _ => {}
            });
        }
    }
}

/// Whose name a phrase is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Owner {
    /// A quantity's.
    Quantity,
    Term(TermId),
    Attribute(AttributeId),
    Value(AttributeId),
    Dimension(DimensionId),
    Ruling(DimensionId),
}

impl Owner {
    /// Whether the name means the thing everywhere in the book: values may be everyday words, and mean
    /// the thing only in clauses that speak of it.
    fn everywhere(self) -> bool {
        !matches!(self, Owner::Value(_) | Owner::Ruling(_))
    }

    fn read_by(self, reads: &Reads) -> bool {
        match self {
            Owner::Quantity => false,
            Owner::Term(id) => reads.terms.contains(&id),
            Owner::Attribute(id) | Owner::Value(id) => reads.attributes.contains(&id),
            Owner::Dimension(id) | Owner::Ruling(id) => reads.dimensions.contains(&id),
        }
    }
}

/// A name or label, as stems.
#[derive(Debug)]
struct Name {
    stems: Vec<String>,
    owner: Owner,
}

/// The names and labels of a ruleset, as a list tells inflections apart.
pub(super) struct Known<'a> {
    ruleset: &'a Ruleset,
    list: &'a List,
    names: Vec<Name>,
    /// Names by their first stem.
    by_first: BTreeMap<String, Vec<usize>>,
    /// Names by each stem that they have.
    by_any: BTreeMap<String, Vec<usize>>,
    longest: usize,
}

impl<'a> Known<'a> {
    pub(super) fn new(ruleset: &'a Ruleset, list: &'a List) -> Self {
        let mut known = Known {
            ruleset,
            list,
            names: Vec::new(),
            by_first: BTreeMap::new(),
            by_any: BTreeMap::new(),
            longest: 0,
        };
        for quantity in &ruleset.quantities {
            known.add(&quantity.name, None, Owner::Quantity);
        }
        for (index, attribute) in ruleset.attributes.iter().enumerate() {
            if attribute.origin == Origin::Stated {
                let id = AttributeId::new(index);
                let owner = Owner::Attribute(id);
                known.add(&attribute.name, attribute.label.as_ref(), owner);
                known.values(attribute.kind.names(), Owner::Value(id));
            }
        }
        for (index, term) in ruleset.terms.iter().enumerate() {
            let owner = Owner::Term(TermId::new(index));
            known.add(&term.name, term.label.as_ref(), owner);
        }
        for (index, dimension) in ruleset.dimensions.iter().enumerate() {
            let id = DimensionId::new(index);
            known.add(
                &dimension.name,
                dimension.label.as_ref(),
                Owner::Dimension(id),
            );
            known.values(&dimension.values, Owner::Ruling(id));
        }
        known
    }

    fn values(&mut self, values: &[NamedValue], owner: Owner) {
        for value in values {
            self.add(&value.name, value.label.as_ref(), owner);
        }
    }

    fn add(&mut self, name: &str, label: Option<&Text>, owner: Owner) {
        let labels = label.map_or(&[][..], |text| text.by_language.as_slice());
        let labels = labels.iter().map(|(_, words)| words.clone());
        for words in std::iter::once(name.replace('_', " ")).chain(labels) {
            let words = split(&words);
            let stems: Vec<String> = words.iter().map(|word| self.list.stem(word)).collect();
            if let Some(first) = stems.first() {
                self.longest = self.longest.max(stems.len());
                let index = self.names.len();
                self.by_first.entry(first.clone()).or_default().push(index);
                for stem in &stems {
                    self.by_any.entry(stem.clone()).or_default().push(index);
                }
                self.names.push(Name { stems, owner });
            }
        }
    }

    /// The stems of a text's tokens.
    pub(super) fn stems(&self, tokens: &[Token<'_>]) -> Vec<String> {
        let folded = tokens.iter().map(|token| token.folded.as_ref());
        folded.map(|word| self.list.stem(word)).collect()
    }

    /// Whether a phrase of a text means something in the ruleset: where a whole name stands around
    /// it, or where what the clause reads has it within its name.
    pub(super) fn defines(&self, reads: &Reads, stems: &[String], phrase: &Range<usize>) -> bool {
        let from = phrase.start.saturating_sub(self.longest);
        let around = (from..=phrase.start).any(|start| {
            let first = stems.get(start);
            let names = first.and_then(|first| self.by_first.get(first));
            let names = names.into_iter().flatten();
            names
                .filter_map(|index| self.names.get(*index))
                .any(|name| {
                    let end = start + name.stems.len();
                    end >= phrase.end
                        && (name.owner.everywhere() || name.owner.read_by(reads))
                        && stems.get(start..end) == Some(name.stems.as_slice())
                })
        });
        // A ruling's label says what is ruled; a word of it says nothing of the act.
        let of_facts = |owner| !matches!(owner, Owner::Dimension(_) | Owner::Ruling(_));
        around
            || self.within(stems, phrase, |name| {
                of_facts(name.owner) && name.owner.read_by(reads)
            })
    }

    /// Whether a judged attribute, or a vague term, has the phrase within its name.
    pub(super) fn judges(&self, stems: &[String], phrase: &Range<usize>) -> bool {
        self.within(stems, phrase, |name| match name.owner {
            Owner::Attribute(id) => self.ruleset[id].judged,
            Owner::Term(id) => matches!(self.ruleset[id].meaning, Meaning::Vague { .. }),
            _ => false,
        })
    }

    fn within(&self, stems: &[String], phrase: &Range<usize>, of: impl Fn(&Name) -> bool) -> bool {
        let Some(wanted) = stems.get(phrase.clone()).filter(|it| !it.is_empty()) else {
            return false;
        };
        let has = |name: &&Name| name.stems.windows(wanted.len()).any(|part| part == wanted);
        let first = wanted.first().and_then(|first| self.by_any.get(first));
        let names = first.into_iter().flatten();
        let names = names.filter_map(|index| self.names.get(*index));
        names.filter(has).any(of)
    }
}
