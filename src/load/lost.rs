//! What a file defines that could not be read, or not wholly.
//!
//! Where an attribute could not be read, every clause that names it would be said to name nothing.
//! That is no news: it follows from the mistake that is told already. Whatever does not follow from
//! another mistake is told.

use crate::problem::{Gravity, Problem};
use crate::read::draft::{AttributeKindDraft, QuantityValueDraft, RulesetDraft, ValueDraft, Words};
use crate::source::{Source, Sources};
use std::collections::BTreeSet;
use std::ops::Range;

/// What stands in a file and did not come through whole.
#[derive(Debug)]
pub(super) struct Lost {
    /// Every name that the draft has.
    read: BTreeSet<String>,
    /// Definitions that stand in the file, read or not.
    defined: BTreeSet<String>,
    /// Definitions inside which something could not be read.
    damaged: BTreeSet<String>,
    /// Every word of damaged attributes, quantities and dimensions: their values are among them.
    inside: BTreeSet<String>,
}

impl Lost {
    /// Compares the files with what was made of them; `problems` are those of reading them.
    pub(super) fn new(
        sources: &Sources,
        draft: Option<&RulesetDraft>,
        problems: &[Problem],
    ) -> Self {
        let mut lost = Lost {
            read: draft.map(names).unwrap_or_default(),
            defined: BTreeSet::new(),
            damaged: BTreeSet::new(),
            inside: BTreeSet::new(),
        };
        for id in sources.ids() {
            let mut errors: Vec<usize> = problems
                .iter()
                .filter(|problem| problem.gravity == Gravity::Error && problem.span.source == id)
                .map(|problem| problem.span.start as usize)
                .collect();
            errors.sort_unstable();
            if let Some(source) = sources.get(id).filter(|_| !errors.is_empty()) {
                lost.look_through(source, &errors);
            }
        }
        lost
    }

    /// Looks through a file for definitions; `errors` are where something could not be read.
    fn look_through(&mut self, source: &Source, errors: &[usize]) {
        let text = source.text();
        let lines = lines(text);
        let mut chapter = "";
        // How far the definitions of the chapter stand in.
        let mut level = None;
        for (index, (range, indent)) in lines.iter().enumerate() {
            let line = text.get(range.clone()).unwrap_or_default();
            if *indent == 0 && !line.starts_with('-') {
                chapter = line.split(':').next().unwrap_or_default();
                level = None;
                continue;
            }
            let of_values = matches!(chapter, "attributes" | "quantities" | "rulings");
            let name = match chapter {
                "terms" | "headings" => key_of(line, *indent, &mut level),
                _ if of_values => key_of(line, *indent, &mut level),
                _ => id_of(line),
            };
            let Some(name) = name else { continue };
            let below = lines.iter().skip(index + 1);
            let end = below
                .take_while(|(_, deeper)| deeper > indent)
                .last()
                .map_or(range.end, |(last, _)| last.end);
            self.defined.insert(plain(name));
            let first = errors.partition_point(|error| *error < range.start);
            if errors.get(first).is_some_and(|error| *error < end) {
                self.damaged.insert(plain(name));
                if of_values {
                    let block = text.get(range.start..end).unwrap_or_default();
                    self.inside.extend(words(block));
                }
            }
        }
    }

    /// Whether a problem at these words may only be there because something could not be read.
    pub(super) fn explains(&self, words: &str) -> bool {
        let whole = words.trim_matches(['"', '\'', '`', ' ']);
        let parts = whole.split([' ', '(', ')', ',']);
        let parts = parts.filter(|part| !part.is_empty());
        whole.is_empty()
            || self.concerns(whole)
            || parts.into_iter().any(|part| self.concerns(part))
    }

    /// Whether a name stands for something that did not come through whole.
    fn concerns(&self, name: &str) -> bool {
        let name = plain(name);
        let unknown = !self.read.contains(&name);
        self.damaged.contains(&name)
            || unknown && (self.defined.contains(&name) || self.inside.contains(&name))
    }
}

/// The lines that say something, without their line ends, each with how far it stands in.
fn lines(text: &str) -> Vec<(Range<usize>, usize)> {
    let mut at = 0;
    let mut lines = Vec::new();
    for line in text.split_inclusive('\n') {
        let said = line.trim();
        let indent = line.len() - line.trim_start().len();
        if !said.is_empty() && !said.starts_with('#') {
            lines.push((at..at + line.trim_end().len(), indent));
        }
        at += line.len();
    }
    lines
}

/// The key of a line, if it stands where the definitions of its chapter stand.
fn key_of<'t>(line: &'t str, indent: usize, level: &mut Option<usize>) -> Option<&'t str> {
    let (key, _) = line.split_once(':')?;
    let name = key.trim().trim_matches(['"', '\'']);
    (*level.get_or_insert(indent) == indent && !name.is_empty()).then_some(name)
}

/// The id that a line gives.
fn id_of(line: &str) -> Option<&str> {
    let line = line.trim_start().trim_start_matches("- ").trim_start();
    let id = line.strip_prefix("id:")?.trim().trim_matches(['"', '\'']);
    (!id.is_empty()).then_some(id)
}

/// A name as it is used where it had to be refused for a space or a sign: with `_` in their place.
fn plain(name: &str) -> String {
    let letter = |sign: char| if sign.is_alphanumeric() { sign } else { '_' };
    name.chars().map(letter).collect()
}

/// The words between the signs of a text, names of several words among them.
fn words(text: &str) -> impl Iterator<Item = String> + '_ {
    let signs = [',', ':', '[', ']', '{', '}', '\n', '#', '"', '\''];
    let parts = text
        .split(signs)
        .map(|part| part.trim_start_matches(['-', ' ']).trim());
    parts.filter(|part| !part.is_empty()).map(plain)
}

/// Every name that a draft has: attributes, terms, quantities, dimensions, their values, clauses.
fn names(draft: &RulesetDraft) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    let mut add = |words: &Words| {
        names.insert(plain(&words.value));
    };
    let values = |values: &[ValueDraft], add: &mut dyn FnMut(&Words)| {
        for value in values {
            add(&value.name);
        }
    };
    for attribute in &draft.attributes {
        add(&attribute.name);
        match &attribute.kind {
            AttributeKindDraft::Choice(list)
            | AttributeKindDraft::Scale(list)
            | AttributeKindDraft::Several(list) => values(list, &mut add),
            AttributeKindDraft::YesNo | AttributeKindDraft::Number { .. } => {}
        }
    }
    for dimension in &draft.dimensions {
        add(&dimension.name);
        values(&dimension.values, &mut add);
    }
    for quantity in &draft.quantities {
        add(&quantity.name);
        if let QuantityValueDraft::Table { columns, .. } = &quantity.value {
            columns.iter().for_each(&mut add);
        }
    }
    draft.terms.iter().for_each(|term| add(&term.name));
    draft.clauses.iter().for_each(|clause| add(&clause.id));
    draft
        .principles
        .iter()
        .for_each(|principle| add(&principle.id));
    draft.headings.iter().for_each(|heading| add(&heading.name));
    let ids = draft.background.iter().filter_map(|line| line.id.as_ref());
    ids.for_each(add);
    names
}
