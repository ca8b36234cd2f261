//! Texts that name a clause which a draft takes away or gives another number.

use crate::model::Ruleset;
use std::collections::{BTreeMap, BTreeSet};

/// A text that names a clause which is gone or has another number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mention {
    /// Whose text: `clause 9.1`, `term long_hold`.
    pub of: String,
    /// The number that it names.
    pub names: String,
    /// The number that the clause has now; `None` where it is gone.
    pub now: Option<String>,
}

/// Texts of the later edition that name a clause of the earlier one which is gone, or has another
/// number now.
pub(super) fn mentions(
    before: &Ruleset,
    after: &Ruleset,
    earlier: &BTreeMap<String, String>,
) -> Vec<Mention> {
    let ids: BTreeSet<&str> = after
        .clauses
        .iter()
        .map(|clause| clause.id.as_str())
        .collect();
    let gone: Vec<(&str, Option<String>)> = before
        .clauses
        .iter()
        .map(|clause| clause.id.as_str())
        .filter(|id| !ids.contains(id))
        .map(|id| {
            let now = earlier.iter().find(|(_, old)| *old == id);
            (id, now.map(|(new, _)| new.clone()))
        })
        .collect();
    let clauses = after.clauses.iter().map(|clause| {
        let texts = clause.text.iter().chain(&clause.title);
        (format!("clause {}", clause.id), texts.collect::<Vec<_>>())
    });
    let terms = after.terms.iter().map(|term| {
        let texts = term.text.iter();
        (format!("term {}", term.name), texts.collect::<Vec<_>>())
    });
    let mut found = Vec::new();
    for (of, texts) in clauses.chain(terms) {
        for (id, now) in &gone {
            let named = texts.iter().flat_map(|text| &text.by_language);
            if named.map(|(_, words)| words).any(|words| cites(words, id)) {
                found.push(Mention {
                    of: of.clone(),
                    names: (*id).to_owned(),
                    now: now.clone(),
                });
            }
        }
    }
    found
}

/// Whether a text names a clause by its id. A bare number counts only behind a word that announces one.
fn cites(words: &str, id: &str) -> bool {
    const ANNOUNCING: &[&str] = &[
        "clause",
        "clauses",
        "rule",
        "rules",
        "article",
        "articles",
        "law",
        "laws",
        "section",
        "sections",
        "paragraph",
        "paragraphs",
    ];
    let bare = id.chars().all(|sign| sign.is_ascii_digit());
    words.match_indices(id).any(|(at, _)| {
        let before = words.get(..at).unwrap_or_default();
        let behind = words.get(at + id.len()..).unwrap_or_default();
        let mut following = behind.chars();
        let continued = match (following.next(), following.next()) {
            (Some(sign), _) if sign.is_alphanumeric() || sign == '(' => true,
            (Some('.'), Some(sign)) => sign.is_alphanumeric(),
            _ => false,
        };
        let joined = before.ends_with(|sign: char| sign.is_alphanumeric() || sign == '.');
        let announced = before
            .split_whitespace()
            .next_back()
            .is_some_and(|word| ANNOUNCING.contains(&word.to_lowercase().as_str()));
        !continued && !joined && (!bare || announced)
    })
}
