//! A scenario file, and facts as they are typed in a call: `NAME=VALUE`.
//!
//! Names and values are only words here; what they mean, a ruleset has to say.

use super::draft::{FactDraft, FactValueDraft, ScenarioDraft, Words};
use super::node::{Entry, Node, NodeKind};
use super::reader::{Content, Reader, list_of};
use super::yaml::span_of;
use crate::problem::Problem;
use crate::source::{SourceId, Spanned};

/// The keys of a scenario, in the order in which they are best written.
const KEYS: &[&str] = &["scenario", "note", "facts"];

impl Reader<'_> {
    /// Reads a whole scenario file.
    pub(super) fn scenario(&mut self, root: &Node) -> Option<ScenarioDraft> {
        if let NodeKind::Mapping(entries) = &root.kind
            && self.is_no_scenario(entries)
        {
            return None;
        }
        if !matches!(root.kind, NodeKind::Mapping(_)) {
            let help = format!(
                "a scenario opens with its name, `scenario: ...`; its keys are {}",
                list_of(KEYS)
            );
            self.expected(root, "the file", "a scenario", &help);
            return None;
        }
        let fields = self.fields(root, "a scenario", KEYS)?;
        let name = fields
            .get("scenario")
            .filter(|node| !matches!(node.kind, NodeKind::Nothing))
            .and_then(|node| self.words(node, "the name of the scenario", Content::Text));
        let note = fields
            .get("note")
            .and_then(|node| self.text(node, "the note of the scenario"));
        let Some(facts) = fields.get("facts") else {
            let help = "write `facts:`, and below it a line for each fact, such as `phase: ground`";
            self.missing(&fields, "the scenario", "facts", help);
            return None;
        };
        Some(ScenarioDraft {
            name,
            note,
            facts: self.facts(facts),
        })
    }

    /// Says that the file is of another kind, if it is.
    fn is_no_scenario(&mut self, entries: &[Entry]) -> bool {
        let has = |key: &str| entries.iter().find(|entry| entry.key.words == key);
        if has("scenario").is_some() || has("facts").is_some() {
            return false;
        }
        let kinds = [
            (
                "ruleset",
                "a ruleset",
                "give the ruleset first and the scenario behind it",
            ),
            (
                "amendment",
                "an amendment",
                "amendments go with `evenhand vet RULESET AMENDMENT`",
            ),
            (
                "cases",
                "a collection of cases",
                "cases go with `evenhand cases RULESET CASES`",
            ),
        ];
        for (key, kind, help) in kinds {
            if let Some(entry) = has(key) {
                let problem = Problem::error(
                    entry.key.span,
                    format!("the file is {kind}; expected a scenario"),
                    "expected `scenario:`, the name of a scenario",
                )
                .help(help);
                self.say(problem);
                return true;
            }
        }
        false
    }

    /// The facts of an incident: names with what was established.
    pub(crate) fn facts(&mut self, node: &Node) -> Vec<FactDraft> {
        let help = "write a line for each fact, such as `phase: ground`; leave out what was not established";
        let entries = self.entries(node, "`facts`", help);
        let mut drafts = Vec::with_capacity(entries.len());
        for entry in entries {
            if let Some(value) = self.fact_value(&entry.key.words, &entry.value) {
                drafts.push(FactDraft {
                    name: Spanned::new(entry.key.words.clone(), entry.key.span),
                    value,
                });
            }
        }
        drafts
    }

    pub(crate) fn fact_value(&mut self, name: &str, node: &Node) -> Option<FactValueDraft> {
        let what = format!("`{name}`");
        match &node.kind {
            NodeKind::Nothing => Some(FactValueDraft::NotEstablished(node.span)),
            NodeKind::Scalar(_) => self
                .words(node, &what, Content::Word)
                .map(FactValueDraft::Words),
            NodeKind::List(items) => {
                let words: Vec<Option<Words>> = items
                    .iter()
                    .map(|item| self.words(item, &what, Content::Word))
                    .collect();
                let words: Option<Vec<Words>> = words.into_iter().collect();
                Some(FactValueDraft::Items(words?, node.span))
            }
            NodeKind::Mapping(_) => {
                let help = "write one value, or a list of items in brackets: `[hand, knee]`";
                self.expected(node, &what, "a value", help);
                None
            }
        }
    }
}

/// Reads one fact as it is typed, `NAME=VALUE`, of which the first byte is byte `start` of its source.
pub(super) fn typed(
    text: &str,
    start: usize,
    id: SourceId,
    problems: &mut Vec<Problem>,
) -> Option<FactDraft> {
    let place = |from: usize, to: usize| span_of(id, start + from, start + to);
    let trimmed = |from: usize, to: usize| {
        let words = text.get(from..to).unwrap_or_default();
        let first = from + (words.len() - words.trim_start().len());
        let last = first + words.trim().len();
        Spanned::new(words.trim().to_owned(), place(first, last))
    };
    let help = "write its name, `=`, and its value, without blanks: `--fact phase=ground`";
    let Some(at) = text.find('=') else {
        let headline = format!("the fact `{}` has no `=`", text.trim());
        let problem = Problem::error(place(0, text.len()), headline, "expected NAME=VALUE");
        problems.push(problem.help(help));
        return None;
    };
    let (name, value) = (trimmed(0, at), trimmed(at + 1, text.len()));
    if name.value.is_empty() {
        let problem = Problem::error(
            place(0, text.len()),
            "a fact has no name before its `=`",
            "expected NAME=VALUE",
        );
        problems.push(problem.help(help));
        return None;
    }
    if value.value.is_empty() {
        let headline = format!("nothing is written for `{}`", name.value);
        let problem = Problem::error(
            place(0, text.len()),
            headline,
            "expected a value behind `=`",
        );
        problems.push(problem.help("leave the fact out where it was not established"));
        return None;
    }
    Some(FactDraft {
        name,
        value: FactValueDraft::Words(value),
    })
}
