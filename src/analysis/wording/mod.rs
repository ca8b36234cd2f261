//! Wording: words of the clauses' texts that are vague, that can be read in two ways, or that say
//! that somebody decides; and loose ends, such as a clause that is cited and is not there.
//!
//! Answered by lists of words, one a language, and from the ruleset's own names: a word that it
//! defines is no finding. Nothing is proved by that: a text in which no listed word stands may be
//! vague all the same, and a text in a language without a list is not looked at.
//!
//! **How hits are put together.** Hits of one clause are one finding. A word that three clauses or
//! more share is asked about once for the whole book: one definition answers for all. So there are
//! never many more findings than a list has words, however long the book.

mod asking;
mod known;
mod lists;
mod scan;
mod telling;
mod tokens;

pub use lists::Sort;

use super::finding::Finding;
use crate::model::{ClauseId, Ruleset};
use crate::source::Span;
use asking::Language;
use std::collections::BTreeMap;

/// What a drafter is asked about a word of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// The clause.
    pub clause: ClauseId,
    /// The language of the text, as its tag stands in the file.
    pub language: String,
    /// The word or phrase, in small letters.
    pub word: String,
    /// Whether it is vague, ambiguous, a discretion, or a loose end.
    pub sort: Sort,
    /// The class of words it belongs to, by its name in the list.
    pub class: String,
    /// What is asked: one sentence or two, which a drafter can answer.
    pub question: String,
    /// The word in the file.
    pub span: Span,
}

/// What looking words up came to.
pub(super) struct Found {
    pub(super) findings: Vec<Finding>,
    /// The languages that were looked at, by name.
    pub(super) read: Vec<String>,
    /// The tags of languages that have no list; empty for texts whose language is not given.
    pub(super) unread: Vec<String>,
}

/// Looks up the words of every clause's text.
pub(super) fn find(ruleset: &Ruleset) -> Found {
    let mut texts: BTreeMap<&str, Vec<Wording<'_>>> = BTreeMap::new();
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let wordings = clause.text.iter().flat_map(|text| &text.by_language);
        for ((tag, words), span) in wordings.zip(&clause.text_spans) {
            let tag = if tag.is_empty() {
                &ruleset.language
            } else {
                tag
            };
            texts.entry(tag).or_default().push(Wording {
                clause: ClauseId::new(index),
                words,
                span: *span,
            });
        }
    }
    let mut found = Found {
        findings: Vec::new(),
        read: Vec::new(),
        unread: Vec::new(),
    };
    for (tag, wordings) in texts {
        match lists::list(tag) {
            Some(list) => {
                let language = Language::new(ruleset, &list, tag, &wordings);
                found
                    .findings
                    .extend(telling::findings(ruleset, language.ask(&wordings)));
                if !found.read.contains(&list.name) {
                    found.read.push(list.name);
                }
            }
            None => found.unread.push(tag.to_owned()),
        }
    }
    found
}

/// A clause's text in one language.
struct Wording<'r> {
    clause: ClauseId,
    words: &'r str,
    /// Where it stands in the file.
    span: Span,
}
