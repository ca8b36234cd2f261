//! A case book: incidents with the rulings that officials gave.
//!
//! Names and values are only words here; what they mean, a ruleset has to say.

use super::draft::{CaseBookDraft, CaseDraft, FactValueDraft, FoundDraft, Words};
use super::node::{Node, NodeKind};
use super::reader::{Content, Fields, Reader, list_of};
use crate::problem::Problem;
use crate::source::Spanned;

/// The keys of a case, in the order in which they are best written.
const KEYS: &[&str] = &[
    "id",
    "date",
    "kind",
    "source",
    "facts",
    "ruled",
    "clauses",
    "rulings_by",
    "note",
];

/// The keys of what one official found.
const FOUND: &[&str] = &["facts", "ruled", "clauses"];

impl Reader<'_> {
    /// Reads a whole case book.
    pub(super) fn cases(&mut self, root: &Node) -> Option<CaseBookDraft> {
        let NodeKind::Mapping(entries) = &root.kind else {
            let help = "a case book opens with `cases:`, and below it `- id: ...` for each case";
            self.expected(root, "the file", "a case book", help);
            return None;
        };
        let other = |key: &str| entries.iter().find(|entry| entry.key.words == key);
        if other("cases").is_none() {
            let kinds = [
                (
                    "ruleset",
                    "a ruleset",
                    "give the ruleset first and the case book behind it",
                ),
                (
                    "scenario",
                    "a scenario",
                    "one scenario goes with `evenhand ruling RULESET SCENARIO`",
                ),
                (
                    "amendment",
                    "an amendment",
                    "amendments go with `evenhand vet RULESET AMENDMENT`",
                ),
            ];
            let found = kinds
                .iter()
                .find_map(|(key, kind, help)| Some((other(key)?, kind, help)));
            if let Some((entry, kind, help)) = found {
                let headline = format!("the file is {kind}; expected a case book");
                let problem = Problem::error(entry.key.span, headline, "expected `cases:`");
                self.say(problem.help(*help));
                return None;
            }
        }
        let fields = self.fields(root, "a case book", &["cases"])?;
        let Some(list) = fields.get("cases") else {
            let help = "write `cases:`, and below it `- id: ...` for each case";
            self.missing(&fields, "the case book", "cases", help);
            return None;
        };
        let items = list.chapter();
        Some(CaseBookDraft {
            cases: items.iter().filter_map(|item| self.case(item)).collect(),
        })
    }

    fn case(&mut self, node: &Node) -> Option<CaseDraft> {
        let fields = self.fields(node, "a case", KEYS)?;
        let id = if let Some(node) = fields.get("id") {
            self.words(node, "the id of a case", Content::Phrase)
        } else {
            let help = "write `id: C-1`, the name by which reports cite it";
            self.missing(&fields, "a case", "id", help);
            None
        };
        let mut free = |key: &str| self.remark(&fields, key);
        let (date, kind, source, note) = (free("date"), free("kind"), free("source"), free("note"));
        let found = self.found(&fields);
        let officials = fields
            .get("rulings_by")
            .map(|node| self.officials(node))
            .unwrap_or_default();
        Some(CaseDraft {
            id: id?,
            date,
            kind,
            source,
            note,
            found,
            officials,
            span: node.span,
        })
    }

    /// Free text behind a key; a key with nothing behind it says nothing.
    fn remark(&mut self, fields: &Fields<'_>, key: &str) -> Option<Words> {
        let node = fields.get(key)?;
        if matches!(node.kind, NodeKind::Nothing) {
            return None;
        }
        self.words(node, &format!("`{key}`"), Content::Text)
    }

    fn officials(&mut self, node: &Node) -> Vec<(Words, FoundDraft)> {
        let help = "write a name for each official, and below it `facts:` and `ruled:`";
        let entries = self.entries(node, "`rulings_by`", help);
        let mut officials = Vec::with_capacity(entries.len());
        for entry in entries {
            let name = Spanned::new(entry.key.words.clone(), entry.key.span);
            if let Some(fields) = self.fields(&entry.value, "an official's ruling", FOUND) {
                officials.push((name, self.found(&fields)));
            }
        }
        officials
    }

    fn found(&mut self, fields: &Fields<'_>) -> FoundDraft {
        let facts = fields.get("facts").map(|node| self.facts(node));
        let ruled = fields.get("ruled").map(|node| self.ruled(node));
        let clauses = fields
            .get("clauses")
            .filter(|node| !matches!(node.kind, NodeKind::Nothing))
            .map(|node| match &node.kind {
                // No clause cited is as good as nothing written.
                NodeKind::List(items) if items.is_empty() => Vec::new(),
                _ => self.words_list(node, "`clauses`", Content::Phrase),
            });
        FoundDraft {
            facts: facts.unwrap_or_default(),
            ruled: ruled.unwrap_or_default(),
            clauses: clauses.unwrap_or_default(),
        }
    }

    fn ruled(&mut self, node: &Node) -> Vec<(Words, FactValueDraft)> {
        let help = format!(
            "write the dimension and what was ruled: `penalty: caution`; what was found stands in {}",
            list_of(&["facts"])
        );
        let entries = self.entries(node, "`ruled`", &help);
        let mut ruled = Vec::with_capacity(entries.len());
        for entry in entries {
            if let Some(value) = self.fact_value(&entry.key.words, &entry.value) {
                ruled.push((Spanned::new(entry.key.words.clone(), entry.key.span), value));
            }
        }
        ruled
    }
}
