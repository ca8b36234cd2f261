//! What a file defines that could not be read, or not wholly.
//!
//! Where an attribute could not be read, every clause that names it would be said to name nothing.
//! That is no news: it follows from the mistake that is told already. Whatever does not follow from
//! another mistake is told.

use crate::problem::{Gravity, Problem, nearest};
use crate::read::draft::{AttributeKindDraft, QuantityValueDraft, RulesetDraft, ValueDraft, Words};
use crate::source::{Source, SourceId, Sources, Span};
use std::collections::BTreeSet;
use std::ops::Range;

/// What stands in a file and did not come through whole.
#[derive(Debug)]
pub(super) struct Lost {
    /// Every name that the draft has.
    read: BTreeSet<String>,
    /// Definitions that stand in the file, read or not.
    defined: BTreeSet<String>,
    /// Attributes, quantities and dimensions of which something could not be read that says their values.
    damaged: BTreeSet<String>,
    /// Every word of what could not be read of attributes, quantities and dimensions: their values are
    /// among them.
    inside: BTreeSet<String>,
    /// Attributes and dimensions of the draft whose values were read.
    with_values: BTreeSet<String>,
    /// Clauses, terms and headings inside which something could not be read: where they stand, and
    /// their names.
    torn: Vec<(SourceId, Range<usize>, String)>,
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
            torn: Vec::new(),
            with_values: draft.map(with_values).unwrap_or_default(),
        };
        for id in sources.ids() {
            let mut errors: Vec<usize> = problems
                .iter()
                .filter(|problem| problem.gravity == Gravity::Error && problem.span.source == id)
                .map(|problem| problem.span.start as usize)
                .collect();
            errors.sort_unstable();
            if let Some(source) = sources.get(id).filter(|_| !errors.is_empty()) {
                lost.look_through(id, source, &errors);
            }
        }
        lost
    }

    /// Looks through a file for definitions; `errors` are where something could not be read.
    fn look_through(&mut self, id: SourceId, source: &Source, errors: &[usize]) {
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
            let within = errors.iter().skip(first).take_while(|error| **error < end);
            if !of_values {
                // Its conditions and texts may be lost; that takes nothing from its name elsewhere.
                if within.clone().next().is_some() {
                    self.torn.push((id, range.start..end, plain(name)));
                }
                continue;
            }
            let parts: Vec<Part> = parts(
                lines.get(index + 1..).unwrap_or_default(),
                text,
                range.start..end,
            );
            for error in within {
                let part = parts.iter().rfind(|part| part.range.start <= *error);
                let lost = match part {
                    Some(part) if !self.bears(chapter, &plain(name), part.key) => continue,
                    Some(part) => part.said.clone(),
                    None => range.start..end,
                };
                self.damaged.insert(plain(name));
                self.inside
                    .extend(words(text.get(lost).unwrap_or_default()));
            }
        }
    }

    /// Whether what could not be read under a key takes from the values of a definition: it says them,
    /// or nothing else that was read does.
    fn bears(&self, chapter: &str, name: &str, key: &str) -> bool {
        let (says, others): (&[&str], &[&str]) = match chapter {
            "attributes" => (
                &["choice", "scale", "several", "number", "step", "unit"],
                &["label", "asked_when", "judged", "set_by"],
            ),
            "rulings" => (
                &["choice", "scale", "when_several"],
                &["label", "otherwise", "required_when", "intermediate"],
            ),
            // A quantity is nothing but its value.
            _ => return true,
        };
        if others.contains(&key) {
            return false;
        }
        let keys = || says.iter().chain(others).copied();
        let slip = nearest(key, keys()).is_some_and(|meant| says.contains(&meant));
        says.contains(&key) || slip || !self.with_values.contains(name)
    }

    /// Whether a problem at this place, with these words, may only be there because something could not
    /// be read.
    pub(super) fn explains(&self, place: Span, words: &str) -> bool {
        let whole = words.trim_matches(['"', '\'', '`', ' ']);
        let parts = whole.split([' ', '(', ')', ',']);
        let mut parts = parts.filter(|part| !part.is_empty());
        whole.is_empty()
            || self.concerns(whole)
            || parts.any(|part| self.concerns(part))
            || self.is_name_of_torn(place, whole)
    }

    /// Whether it is told at the name of something inside which something could not be read.
    fn is_name_of_torn(&self, place: Span, words: &str) -> bool {
        let at = place.start as usize;
        let mut torn = self.torn.iter();
        torn.any(|(source, range, name)| {
            *source == place.source && range.contains(&at) && *name == plain(words)
        })
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

/// What a definition says under one key.
struct Part<'t> {
    key: &'t str,
    /// From the key to the next one.
    range: Range<usize>,
    /// The same without the key.
    said: Range<usize>,
}

/// The parts of a definition by their keys, where each begins a line of its own; `below` are the lines
/// from its first on, `whole` is all of it.
fn parts<'t>(below: &[(Range<usize>, usize)], text: &'t str, whole: Range<usize>) -> Vec<Part<'t>> {
    let mut level = None;
    let lines = below
        .iter()
        .take_while(|(range, _)| range.start < whole.end);
    let mut parts: Vec<Part<'t>> = Vec::new();
    for (range, indent) in lines {
        let line = text.get(range.clone()).unwrap_or_default();
        let Some(key) = key_of(line, *indent, &mut level) else {
            continue;
        };
        if let Some(last) = parts.last_mut() {
            last.range.end = range.start;
            last.said.end = range.start;
        }
        let said = range.start + line.find(':').map_or(line.len(), |colon| colon + 1);
        parts.push(Part {
            key,
            range: range.start..whole.end,
            said: said..whole.end,
        });
    }
    parts
}

/// The attributes of a draft that were read with a kind, and the dimensions with values.
fn with_values(draft: &RulesetDraft) -> BTreeSet<String> {
    let attributes = draft.attributes.iter();
    let attributes = attributes.filter(|it| !matches!(it.kind, AttributeKindDraft::YesNo));
    let dimensions = draft.dimensions.iter();
    let dimensions = dimensions.filter(|it| !it.values.is_empty());
    let attributes = attributes.map(|it| plain(&it.name.value));
    attributes
        .chain(dimensions.map(|it| plain(&it.name.value)))
        .collect()
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
