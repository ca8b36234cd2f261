//! A ruleset file, chapter by chapter.

mod attributes;
mod clauses;
mod principles;

use super::draft::{QuantityDraft, QuantityValueDraft, RulesetDraft, Words};
use super::node::{Entry, Node, NodeKind};
use super::reader::{Content, Reader, list_of};
use crate::problem::{Problem, nearest};
use crate::source::{Span, Spanned};

/// The keys of a ruleset, in the order in which they are best written.
const KEYS: &[&str] = &[
    "ruleset",
    "edition",
    "language",
    "caution",
    "quantities",
    "attributes",
    "terms",
    "background",
    "rulings",
    "clauses",
    "principles",
    "headings",
    "accepted",
];

impl Reader<'_> {
    /// Reads a whole ruleset.
    pub(super) fn ruleset(&mut self, root: &Node) -> Option<RulesetDraft> {
        if let NodeKind::Mapping(entries) = &root.kind
            && self.is_another_kind(entries)
        {
            return None;
        }
        if !matches!(root.kind, NodeKind::Mapping(_)) {
            self.expected(
                root,
                "the file",
                "a ruleset",
                &format!(
                    "a ruleset opens with its title, `ruleset: ...`; its keys are {}",
                    list_of(KEYS)
                ),
            );
            return None;
        }
        let fields = self.fields(root, "a ruleset", KEYS)?;
        let title = if let Some(node) = fields.get("ruleset") {
            self.words(node, "the title of the ruleset", Content::Text)
        } else {
            self.missing(
                &fields,
                "the file",
                "ruleset",
                "a ruleset opens with its title: `ruleset: Rules of ...`",
            );
            None
        };
        let mut words = |key: &str, what: &str, content: Content| {
            let node = fields.get(key)?;
            self.words(node, what, content)
        };
        let edition = words("edition", "the edition", Content::Phrase);
        let language = words("language", "the language", Content::Word);
        let caution = words("caution", "the caution", Content::Text);
        let nothing = Node {
            kind: NodeKind::Nothing,
            span: fields.place,
            layout: root.layout,
        };
        let chapter = |key: &str| fields.get(key).unwrap_or(&nothing);
        let draft = RulesetDraft {
            title: title.unwrap_or_else(|| Spanned::new(String::new(), fields.place)),
            edition,
            language,
            caution,
            quantities: self.quantities(chapter("quantities")),
            attributes: self.attributes(chapter("attributes")),
            terms: self.terms(chapter("terms")),
            background: self.background(chapter("background")),
            dimensions: self.dimensions(chapter("rulings")),
            clauses: self.clauses(chapter("clauses")),
            principles: self.principles(chapter("principles")),
            headings: self.headings(chapter("headings")),
            accepted: self.accepted(chapter("accepted")),
        };
        Some(draft)
    }

    /// Says so where the file is an amendment, a scenario or cases.
    fn is_another_kind(&mut self, entries: &[Entry]) -> bool {
        let has = |key: &str| entries.iter().find(|entry| entry.key.words == key);
        if has("ruleset").is_some() {
            return false;
        }
        let kinds = [
            (
                "amendment",
                "an amendment",
                "amendments go with `evenhand vet RULESET AMENDMENT`",
            ),
            (
                "scenario",
                "a scenario",
                "scenarios go with `evenhand ruling RULESET SCENARIO`",
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
                    format!("the file is {kind}; expected a ruleset"),
                    "expected `ruleset:`, the title of a ruleset",
                )
                .help(help);
                self.say(problem);
                return true;
            }
        }
        false
    }

    fn quantities(&mut self, node: &Node) -> Vec<QuantityDraft> {
        let help = "write `name: 20 s`, or `name:` with `by`, `columns` and rows";
        let entries = self.entries(node, "`quantities`", help);
        let mut drafts = Vec::with_capacity(entries.len());
        for entry in entries {
            let what = format!("the quantity `{}`", entry.key.words);
            let value = match &entry.value.kind {
                NodeKind::Mapping(rows) => self.table(entry, rows, &what),
                _ => self
                    .words(&entry.value, &what, Content::Phrase)
                    .map(QuantityValueDraft::Constant),
            };
            let name = self.name_of_key(&entry.key, "a quantity");
            if let (Some(name), Some(value)) = (name, value) {
                drafts.push(QuantityDraft { name, value });
            }
        }
        drafts
    }

    fn table(
        &mut self,
        table: &Entry,
        entries: &[Entry],
        what: &str,
    ) -> Option<QuantityValueDraft> {
        let find = |key: &str| entries.iter().find(|entry| entry.key.words == key);
        let help =
            "a table has `by:` (a choice attribute), `columns:` (names) and a row for each value";
        let mut part = |key: &str| {
            let found = find(key);
            if found.is_none() {
                self.say(
                    Problem::error(
                        table.key.span,
                        format!("{what} is a table without `{key}`"),
                        format!("expected `{key}:` below it"),
                    )
                    .help(help),
                );
            }
            found
        };
        let by = part("by");
        let columns = part("columns");
        let by = by.and_then(|entry| self.words(&entry.value, "`by`", Content::Word));
        let columns_span = columns.map_or(table.key.span, |entry| entry.value.span);
        let columns: Option<Vec<Words>> = columns.map(|entry| {
            let items = entry.value.items().iter();
            let names: Vec<Words> = items
                .filter_map(|item| self.name(item, "a column"))
                .collect();
            names
        });
        let mut rows = Vec::new();
        for entry in entries {
            if matches!(entry.key.words.as_str(), "by" | "columns") {
                continue;
            }
            if let Some(near) = slip_of(&entry.key.words) {
                let problem = Problem::error(
                    entry.key.span,
                    format!("`{}` is no key of a table", entry.key.words),
                    "read as a row of the table",
                )
                .help(format!("did you mean `{near}`?"));
                self.say(problem);
                continue;
            }
            let what = format!("the row `{}`", entry.key.words);
            let cells = self.words_list(&entry.value, &what, Content::Phrase);
            let wanted = columns.as_ref().map(Vec::len);
            if wanted.is_some_and(|wanted| wanted > 0 && wanted != cells.len()) {
                self.cells_missing(entry, cells.len(), wanted.unwrap_or(0), columns_span);
            }
            rows.push((Spanned::new(entry.key.words.clone(), entry.key.span), cells));
        }
        Some(QuantityValueDraft::Table {
            by: by?,
            columns: columns?,
            rows,
        })
    }

    fn cells_missing(&mut self, row: &Entry, found: usize, wanted: usize, columns: Span) {
        let cells = |count: usize| match count {
            1 => "1 cell".to_owned(),
            count => format!("{count} cells"),
        };
        let problem = Problem::error(
            row.key.span,
            format!(
                "the row `{}` has {}, where the columns need {wanted}",
                row.key.words,
                cells(found)
            ),
            format!("expected {}", cells(wanted)),
        )
        .other(columns, "the columns")
        .help("write a cell for each column, `-` where there is none");
        self.say(problem);
    }
}

/// The key of a table that a row's name is probably a slip of.
fn slip_of(row: &str) -> Option<&'static str> {
    // `by` is too short for slips to be told from names.
    nearest(row, ["columns"])
}
