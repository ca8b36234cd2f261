//! The draft of a scenario: the facts of one incident as somebody wrote them.

use super::{TextDraft, Words};
use crate::source::Span;

/// A scenario file.
#[derive(Clone, Debug)]
pub struct ScenarioDraft {
    /// What the writer calls it.
    pub name: Option<Words>,
    /// Anything else that the writer notes.
    pub note: Option<TextDraft>,
    /// The facts, in the order of the file.
    pub facts: Vec<FactDraft>,
}

/// One fact: the name of what was established, and what.
#[derive(Clone, Debug)]
pub struct FactDraft {
    /// The name of an attribute, or of a vague term.
    pub name: Words,
    /// What was established.
    pub value: FactValueDraft,
}

/// What is written for a fact.
#[derive(Clone, Debug)]
pub enum FactValueDraft {
    /// Nothing: it was not established. The name, or the dash, that has nothing behind it.
    NotEstablished(Span),
    /// Words; for a `several` its items may be split by `|`.
    Words(Words),
    /// A list, possibly with no items.
    Items(Vec<Words>, Span),
}

impl FactValueDraft {
    /// Where it is written.
    pub fn span(&self) -> Span {
        match self {
            FactValueDraft::NotEstablished(span) | FactValueDraft::Items(_, span) => *span,
            FactValueDraft::Words(words) => words.span,
        }
    }
}
