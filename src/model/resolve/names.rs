//! What each name of a ruleset stands for.
//!
//! Attributes, terms, dimensions and quantities share one set of names, so that a word in a
//! condition never means two things. Values of a choice, scale or dimension have names of their
//! own and are looked for only where one of them is due.

use super::words::one_of;
use crate::model::{
    Attribute, AttributeId, AttributeKind, Dimension, DimensionId, NamedValue, Origin, Quantity,
    Ruleset, TermId,
};
use crate::problem::{Problem, nearest};
use crate::read::draft::{WhenSeveral, Words};
use crate::read::is_reserved;
use crate::source::Span;
use std::collections::BTreeMap;

/// What a name stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Named {
    /// An attribute.
    Attribute(AttributeId),
    /// A defined term.
    Term(TermId),
    /// A dimension of rulings.
    Dimension(DimensionId),
    /// A named constant or a column of a table, by its index.
    Quantity(usize),
    /// A whole table, which is not a number by itself.
    Table,
    /// Something that has a problem of its own, told already.
    Broken,
}

impl Named {
    /// What it is, with its article.
    pub(super) fn described(self) -> &'static str {
        match self {
            Named::Attribute(_) => "an attribute",
            Named::Term(_) => "a term",
            Named::Dimension(_) => "a dimension of rulings",
            Named::Quantity(_) => "a quantity",
            Named::Table => "a table of quantities",
            Named::Broken => "something with a problem of its own",
        }
    }
}

/// Every name with what it stands for and where it is written.
#[derive(Clone, Debug, Default)]
pub(super) struct Names {
    by_name: BTreeMap<String, (Named, Span)>,
    /// Names that are taken twice, so that nobody knows what their use means.
    ambiguous: Vec<String>,
}

impl Names {
    /// The names of a ruleset that is resolved already.
    pub(super) fn of(ruleset: &Ruleset) -> Names {
        let attributes = ruleset.attributes.iter().enumerate();
        let attributes = attributes
            .filter(|(_, attribute)| attribute.origin == Origin::Stated)
            .map(|(index, it)| (&it.name, Named::Attribute(AttributeId::new(index)), it.span));
        let terms = ruleset.terms.iter().enumerate();
        let terms = terms.map(|(index, it)| (&it.name, Named::Term(TermId::new(index)), it.span));
        let dimensions = ruleset
            .dimensions
            .iter()
            .enumerate()
            .map(|(index, it)| (&it.name, Named::Dimension(DimensionId::new(index)), it.span));
        let quantities = ruleset.quantities.iter().enumerate();
        let quantities = quantities.map(|(index, it)| (&it.name, Named::Quantity(index), it.span));
        let all = attributes.chain(terms).chain(dimensions).chain(quantities);
        Names {
            by_name: all
                .map(|(name, named, span)| (name.clone(), (named, span)))
                .collect(),
            ambiguous: Vec::new(),
        }
    }

    /// Takes a name in; a name that can't be one, or that is taken, is a problem and is not taken in again.
    pub(super) fn declare(&mut self, name: &Words, named: Named, problems: &mut Vec<Problem>) {
        problems.extend(misnamed(name, named.described()));
        if let Some((taken, span)) = self.by_name.get(&name.value) {
            // Said at the later of the two, whichever was taken in first.
            let (here, there, other) = if name.span < *span {
                (*span, name.span, named)
            } else {
                (name.span, *span, *taken)
            };
            let headline = format!("the name `{}` is taken twice", name.value);
            let problem = Problem::error(here, headline, "expected a name that is not taken")
                .other(there, format!("here it is {}", other.described()))
                .help("names of attributes, terms, dimensions and quantities must all differ; give one of them another name");
            problems.push(problem);
            self.ambiguous.push(name.value.clone());
            return;
        }
        self.by_name.insert(name.value.clone(), (named, name.span));
    }

    /// Notes that what the name stands for has a problem, so that what uses it says nothing more.
    pub(super) fn mark_broken(&mut self, name: &str) {
        if let Some((named, _)) = self.by_name.get_mut(name) {
            *named = Named::Broken;
        }
    }

    /// Marks the names that are taken twice as broken, once all are taken in.
    pub(super) fn mark_ambiguous(&mut self) {
        for name in std::mem::take(&mut self.ambiguous) {
            self.mark_broken(&name);
        }
    }

    /// What a name stands for.
    pub(super) fn get(&self, name: &str) -> Option<Named> {
        self.by_name.get(name).map(|(named, _)| *named)
    }

    /// The names of which the filter is true, in order.
    pub(super) fn which(&self, wanted: impl Fn(Named) -> bool) -> impl Iterator<Item = &str> {
        let all = self.by_name.iter();
        all.filter(move |(_, (named, _))| wanted(*named))
            .map(|(name, _)| name.as_str())
    }
}

/// Why a word can't be the name of what is described, if it can't.
fn misnamed(name: &Words, described: &str) -> Option<Problem> {
    let word = name.value.as_str();
    if is_reserved(word) {
        return Some(reserved(name, described));
    }
    // A condition would take such a name for a number.
    word.bytes().all(|byte| byte.is_ascii_digit()).then(|| {
        let headline = format!("`{word}` is a number and cannot be the name of {described}");
        Problem::error(name.span, headline, "expected a name with a letter in it")
            .help("how people call it goes into its `label`")
    })
}

fn reserved(name: &Words, described: &str) -> Problem {
    let word = &name.value;
    let headline =
        format!("`{word}` is a word of the condition language and cannot be {described}");
    Problem::error(name.span, headline, "expected another name").help(format!(
        "choose another word, or join it with one: `{word}_`"
    ))
}

/// Holds that the names of values differ, are no words of conditions, and are few enough. That there
/// are any is held when a file is read.
pub(super) fn check_values(
    owner: &Words,
    values: &[Words],
    most: usize,
    problems: &mut Vec<Problem>,
) {
    if let Some(first_too_many) = values.get(most) {
        let headline = format!("`{}` has {} values", owner.value, values.len());
        let label = format!("at most {most} are possible, and this is one too many");
        problems.push(Problem::error(first_too_many.span, headline, label).help(
            "put values together that no clause tells apart, or split this into several attributes",
        ));
    }
    let mut seen: BTreeMap<&str, Span> = BTreeMap::new();
    for value in values {
        let word = value.value.as_str();
        if let Some(earlier) = seen.get(word) {
            let headline = format!("`{}` has the value `{word}` twice", owner.value);
            problems.push(
                Problem::error(value.span, headline, "expected another value")
                    .other(*earlier, "it stands here already"),
            );
            continue;
        }
        seen.insert(word, value.span);
        if is_reserved(word) {
            problems.push(reserved(value, "the name of a value"));
        }
    }
}

/// Everything that a condition may speak of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Known<'a> {
    /// What each name stands for.
    pub(super) names: &'a Names,
    /// The attributes, readings included.
    pub(super) attributes: &'a [Attribute],
    /// The dimensions.
    pub(super) dimensions: &'a [Dimension],
    /// The constants and columns.
    pub(super) quantities: &'a [Quantity],
}

impl<'a> Known<'a> {
    /// The attribute with this id.
    pub(super) fn attribute(self, id: AttributeId) -> Option<&'a Attribute> {
        self.attributes.get(id.index())
    }

    /// The dimension with this id.
    pub(super) fn dimension(self, id: DimensionId) -> Option<&'a Dimension> {
        self.dimensions.get(id.index())
    }

    /// The constant or column with this index.
    pub(super) fn quantity(self, index: usize) -> Option<&'a Quantity> {
        self.quantities.get(index)
    }

    /// The attributes and dimensions that have a value of this name.
    pub(super) fn owners(self, value: &str) -> Vec<&'a str> {
        let has = |values: &[NamedValue]| values.iter().any(|named| named.name == value);
        let attributes = self.attributes.iter().filter(|it| has(it.kind.names()));
        let dimensions = self.dimensions.iter().filter(|it| has(&it.values));
        attributes
            .map(|it| it.name.as_str())
            .chain(dimensions.map(|it| it.name.as_str()))
            .collect()
    }

    /// An unknown name: what is near, or where the word is known as a value.
    pub(super) fn unknown(
        self,
        word: &Words,
        expected: &str,
        wanted: impl Fn(Named) -> bool,
    ) -> Problem {
        let name = word.value.as_str();
        let headline = match self.names.get(name) {
            None => format!("`{name}` is not a name in this ruleset"),
            Some(other) => format!("`{name}` is {}", other.described()),
        };
        let problem = Problem::error(word.span, headline, format!("expected {expected}"));
        let near = self
            .names
            .which(|named| wanted(named) || named == Named::Broken);
        let near = nearest(name, near.filter(|near| *near != name));
        if let Some(near) = near {
            return problem.help(format!("did you mean `{near}`?"));
        }
        if let Some(owner) = self.owners(name).first() {
            return problem.help(format!(
                "`{name}` is a value of `{owner}`: write `{}`",
                self.holding(owner, name)
            ));
        }
        let known: Vec<&str> = self.names.which(wanted).collect();
        if known.is_empty() {
            return problem.help("the ruleset has none yet; add one");
        }
        problem.help(format!("known here: {}", one_of(known)))
    }

    /// How a condition says that something has a value.
    pub(super) fn holding(self, owner: &str, value: &str) -> String {
        let verb = match self.names.get(owner) {
            Some(Named::Attribute(id))
                if matches!(
                    self.attribute(id).map(|it| &it.kind),
                    Some(AttributeKind::Several(_))
                ) =>
            {
                "includes"
            }
            Some(Named::Dimension(id))
                if self
                    .dimension(id)
                    .is_some_and(|it| it.when_several == WhenSeveral::AllApply) =>
            {
                "includes"
            }
            _ => "is",
        };
        format!("{owner} {verb} {value}")
    }
}
