//! The text of an amended ruleset: what is not changed keeps every byte.
//!
//! The changes are made in the text one by one, each by the same steps that are made on the tree.
//! The text is believed only when it has been read again and is, word for word, the changed tree.

use super::AmendmentDraft;
use super::apply::{Operation, Tree, edition_set, node_at};
use super::plan::plan;
use super::render::{double_quoted, is_plain};
use crate::problem::Problem;
use crate::read::node::{Entry, Key, Layout, Node, NodeKind};
use crate::read::yaml;
use crate::source::{Source, SourceId, Sources, Span};

/// The changes can be made, but not in the text as it is laid out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unwritable {
    /// The change that could not be written.
    pub problem: Box<Problem>,
}

/// The text of a ruleset file with an amendment in it. `sources` hold the files of both.
///
/// # Errors
/// [`Unwritable`] where the text can't be changed so that it says what the amendment says: an alias
/// shares what is changed, or a layout is not known here. Problems of the changes themselves are
/// found by [`Tree::amended`], and come back here as well.
pub fn consolidated(
    text: &str,
    amendment: &AmendmentDraft,
    sources: &Sources,
) -> Result<String, Unwritable> {
    let mut text = text.to_owned();
    for change in &amendment.changes {
        let unwritable = |problem: Problem| Unwritable {
            problem: Box::new(problem),
        };
        let misread = || {
            unwritable(
                Problem::error(
                    change.span,
                    format!("the change can't be written into the text: {change}"),
                    "the text says something else then",
                )
                .help("what is changed may be shared by an anchor and its aliases (`&` and `*`), or stand in brackets over several lines: write it out in the ruleset first"),
            )
        };
        let (root, id) = parsed(&text).ok_or_else(misread)?;
        let tree = Tree::new(root);
        let planned = plan(change, &tree).map_err(unwritable)?;
        text = written(text, tree.root, id, planned.operations, sources).ok_or_else(misread)?;
    }
    if let Some(edition) = &amendment.edition
        && let Some((root, id)) = parsed(&text)
    {
        let operations = edition_set(&root, edition);
        text = written(text, root, id, operations, sources).ok_or_else(|| Unwritable {
            problem: Box::new(Problem::error(
                edition.span,
                "the edition can't be written into the text",
                "the text says something else then",
            )),
        })?;
    }
    Ok(text)
}

/// A text as a tree; `None` where it has problems.
fn parsed(text: &str) -> Option<(Node, SourceId)> {
    let source = Source::new("", text);
    // An id that no file of the run has: its spans are of this text alone.
    let id = Sources::apart();
    let mut problems = Vec::new();
    let root = yaml::document(&source, id, &mut problems)?;
    problems.is_empty().then_some((root, id))
}

/// The text after some steps, if it then reads as the changed tree.
fn written(
    mut text: String,
    root: Node,
    id: SourceId,
    operations: Vec<Operation>,
    sources: &Sources,
) -> Option<String> {
    let mut wanted = root.clone();
    let mut current = root;
    let rewordings =
        |operation: &Operation| matches!(operation, Operation::Reword(..) | Operation::Rekey(..));
    if operations.iter().all(rewordings) {
        // None of them moves another, so all are made at once.
        let mut edits: Vec<Edit> = operations
            .iter()
            .map(|operation| {
                Writer {
                    text: &text,
                    id,
                    sources,
                    root: &current,
                }
                .edit(operation)
            })
            .collect::<Option<_>>()?;
        edits.sort_by_key(|edit| edit.start);
        edits.dedup();
        for edit in edits.iter().rev() {
            text.replace_range(edit.start..edit.end, &edit.text);
        }
        for operation in operations {
            operation.perform(&mut wanted);
        }
    } else {
        for operation in operations {
            let edit = Writer {
                text: &text,
                id,
                sources,
                root: &current,
            }
            .edit(&operation)?;
            text.replace_range(edit.start..edit.end, &edit.text);
            operation.perform(&mut wanted);
            current = parsed(&text)?.0;
        }
    }
    let (read, _) = parsed(&text)?;
    same(&read, &wanted).then_some(text)
}

/// Whether two trees say the same, wherever and however it is written.
fn same(one: &Node, other: &Node) -> bool {
    match (&one.kind, &other.kind) {
        (NodeKind::Nothing, NodeKind::Nothing) => true,
        (NodeKind::Scalar(one), NodeKind::Scalar(other)) => one.words == other.words,
        (NodeKind::List(one), NodeKind::List(other)) => {
            one.len() == other.len() && one.iter().zip(other).all(|(one, other)| same(one, other))
        }
        (NodeKind::Mapping(one), NodeKind::Mapping(other)) => {
            let alike = |one: &Entry, other: &Entry| {
                one.key.words == other.key.words && same(&one.value, &other.value)
            };
            one.len() == other.len() && one.iter().zip(other).all(|(one, other)| alike(one, other))
        }
        _ => false,
    }
}

/// Other bytes in place of some of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Edit {
    start: usize,
    end: usize,
    text: String,
}

/// Knows a text, its tree, and the files that new parts come from.
pub(super) struct Writer<'a> {
    pub(super) text: &'a str,
    pub(super) id: SourceId,
    pub(super) sources: &'a Sources,
    root: &'a Node,
}

impl Writer<'_> {
    fn edit(&self, operation: &Operation) -> Option<Edit> {
        match operation {
            Operation::ReplaceItem(path, index, node) => {
                let list = node_at(self.root, path)?;
                let old = list.items().get(*index)?;
                let (start, end) = range(old.span);
                if list.layout == Layout::Flow {
                    let text = self.flow(node);
                    return Some(Edit { start, end, text });
                }
                let end = self.line_end(end);
                let text = self.block(node, self.column(start));
                Some(Edit { start, end, text })
            }
            Operation::InsertItem(path, index, node) => {
                let list = node_at(self.root, path)?;
                let items = list.items();
                if list.layout == Layout::Flow {
                    let places: Vec<(usize, usize)> =
                        items.iter().map(|item| range(item.span)).collect();
                    return Some(flow_insertion(list, &places, *index, &self.flow(node)));
                }
                let dash = self.column(range(list.span).0);
                let text = format!("- {}", self.block(node, dash + 2));
                let before = index.checked_sub(1).and_then(|before| items.get(before));
                Some(match before {
                    Some(before) => self.line_after(range(before.span).1, dash, &text),
                    None => self.line_before(range(list.span).0, dash, &text),
                })
            }
            Operation::RemoveItem(path, index) => {
                let list = node_at(self.root, path)?;
                let items = list.items();
                let old = items.get(*index)?;
                if list.layout == Layout::Flow {
                    let places: Vec<(usize, usize)> =
                        items.iter().map(|item| range(item.span)).collect();
                    return flow_removal(&places, *index);
                }
                let dash = self.column(range(list.span).0);
                let start = self.dash_line(range(old.span).0, dash)?;
                Some(self.whole_lines(start, range(old.span).1))
            }
            Operation::SetEntry(path, key, value) => self.set_entry(path, key, value),
            Operation::InsertEntry(path, index, key, value) => {
                let mapping = node_at(self.root, path)?;
                let NodeKind::Mapping(entries) = &mapping.kind else {
                    return None;
                };
                let places: Vec<(usize, usize)> = entries
                    .iter()
                    .map(|entry| self.entry_range(entry))
                    .collect();
                if mapping.layout == Layout::Flow {
                    let text = self.flow_entry(key, value);
                    return Some(flow_insertion(mapping, &places, *index, &text));
                }
                let column = self.column(places.first()?.0);
                let text = self.block_entry(key, value, column);
                let before = index.checked_sub(1).and_then(|before| places.get(before));
                Some(match before {
                    Some((_, end)) => self.line_after(*end, column, &text),
                    None => self.line_before(places.first()?.0, column, &text),
                })
            }
            Operation::RemoveEntry(path, index) => {
                let mapping = node_at(self.root, path)?;
                let NodeKind::Mapping(entries) = &mapping.kind else {
                    return None;
                };
                let places: Vec<(usize, usize)> = entries
                    .iter()
                    .map(|entry| self.entry_range(entry))
                    .collect();
                if mapping.layout == Layout::Flow {
                    return flow_removal(&places, *index);
                }
                let (start, end) = *places.get(*index)?;
                let line = self.line_start(start);
                let alone = self.text.get(line..start)?.trim_matches(' ').is_empty();
                if alone {
                    return Some(self.whole_lines(line, end));
                }
                // The first key stands behind the dash of its item.
                let (next, _) = *places.get(index + 1)?;
                Some(Edit {
                    start,
                    end: next,
                    text: String::new(),
                })
            }
            Operation::Reword(path, words, _) => {
                let node = node_at(self.root, path)?;
                self.reword(node.span, words)
            }
            Operation::Rekey(path, index, words) => {
                let NodeKind::Mapping(entries) = &node_at(self.root, path)?.kind else {
                    return None;
                };
                self.reword(entries.get(*index)?.key.span, words)
            }
        }
    }

    fn reword(&self, span: Span, words: &str) -> Option<Edit> {
        let (start, end) = range(span);
        let old = self.text.get(start..end)?;
        let quote = old
            .chars()
            .next()
            .filter(|first| ['"', '\''].contains(first));
        let plain = !words.contains(['"', '\'', '\\']);
        let text = match quote {
            Some(quote) if plain => format!("{quote}{words}{quote}"),
            None if is_plain(words) => words.to_owned(),
            _ => double_quoted(words),
        };
        Some(Edit { start, end, text })
    }

    fn set_entry(&self, path: &[usize], key: &Key, value: &Node) -> Option<Edit> {
        let mapping = node_at(self.root, path)?;
        let entries = match &mapping.kind {
            NodeKind::Mapping(entries) => entries,
            NodeKind::Nothing => return self.first_entry(mapping, key, value),
            NodeKind::Scalar(_) | NodeKind::List(_) => return None,
        };
        let known = entries.iter().find(|entry| entry.key.words == key.words);
        let places: Vec<(usize, usize)> = entries
            .iter()
            .map(|entry| self.entry_range(entry))
            .collect();
        if mapping.layout == Layout::Flow {
            let text = self.flow_entry(key, value);
            return match known {
                Some(known) => {
                    let (start, end) = self.entry_range(known);
                    Some(Edit { start, end, text })
                }
                None => Some(flow_insertion(mapping, &places, places.len(), &text)),
            };
        }
        if let Some(known) = known {
            let (start, end) = self.entry_range(known);
            let end = self.line_end(end);
            let text = self.block_entry(key, value, self.column(start));
            return Some(Edit { start, end, text });
        }
        let column = self.column(places.first()?.0);
        let text = self.block_entry(key, value, column);
        Some(self.line_after(places.last()?.1, column, &text))
    }

    /// The first key below a name that stood alone.
    fn first_entry(&self, alone: &Node, key: &Key, value: &Node) -> Option<Edit> {
        let (start, end) = range(alone.span);
        let colon = end + self.text.get(end..)?.find(':')? + 1;
        let column = self.column(start) + 2;
        let text = self.block_entry(key, value, column);
        Some(self.line_after(colon, column, &text))
    }

    /// Where an entry stands: from its key to the end of its value.
    fn entry_range(&self, entry: &Entry) -> (usize, usize) {
        let (start, key_end) = range(entry.key.span);
        let end = if matches!(entry.value.kind, NodeKind::Nothing) {
            let colon = self.text.get(key_end..).and_then(|rest| rest.find(':'));
            colon.map_or(key_end, |colon| key_end + colon + 1)
        } else {
            range(entry.value.span).1
        };
        (start, end)
    }

    fn line_start(&self, at: usize) -> usize {
        let before = self.text.get(..at).unwrap_or_default();
        before.rfind(['\n', '\r']).map_or(0, |end| end + 1)
    }

    /// The end of the line that `at` lies in, its break not included.
    fn line_end(&self, at: usize) -> usize {
        let rest = self.text.get(at..).unwrap_or_default();
        rest.find(['\n', '\r'])
            .map_or(self.text.len(), |end| at + end)
    }

    /// The start of the next line, or the end of the text.
    fn next_line(&self, at: usize) -> usize {
        let end = self.line_end(at);
        let rest = self.text.get(end..).unwrap_or_default();
        let width = if rest.starts_with("\r\n") {
            2
        } else {
            usize::from(!rest.is_empty())
        };
        end + width
    }

    fn column(&self, at: usize) -> usize {
        at - self.line_start(at)
    }

    /// How the text ends its lines.
    pub(super) fn line_break(&self) -> &'static str {
        match self.text.find(['\n', '\r']) {
            Some(at)
                if self
                    .text
                    .get(at..)
                    .is_some_and(|rest| rest.starts_with("\r\n")) =>
            {
                "\r\n"
            }
            Some(at)
                if self
                    .text
                    .get(at..)
                    .is_some_and(|rest| rest.starts_with('\r')) =>
            {
                "\r"
            }
            _ => "\n",
        }
    }

    /// New lines behind the line that `at` lies in.
    fn line_after(&self, at: usize, column: usize, text: &str) -> Edit {
        let end = self.line_end(at);
        let next = self.next_line(at);
        let line_break = self.line_break();
        let indent = " ".repeat(column);
        // The last line of a file may have no break.
        let text = if next == end {
            format!("{line_break}{indent}{text}")
        } else {
            format!("{indent}{text}{line_break}")
        };
        Edit {
            start: next,
            end: next,
            text,
        }
    }

    /// New lines before the line that `at` lies in.
    fn line_before(&self, at: usize, column: usize, text: &str) -> Edit {
        let start = self.line_start(at);
        Edit {
            start,
            end: start,
            text: format!("{}{text}{}", " ".repeat(column), self.line_break()),
        }
    }

    /// Takes out all lines from the one that begins at `start` to the one that `end` lies in.
    fn whole_lines(&self, start: usize, end: usize) -> Edit {
        let next = self.next_line(end);
        // The last line of a file may have no break: then the one before it loses its own.
        let start = if next == self.line_end(end) {
            let before = self.text.get(..start).unwrap_or_default();
            before
                .strip_suffix("\r\n")
                .or(before.strip_suffix(['\n', '\r']))
                .map_or(start, str::len)
        } else {
            start
        };
        Edit {
            start,
            end: next,
            text: String::new(),
        }
    }

    /// The start of the line with the dash of the item that begins at `at`.
    fn dash_line(&self, at: usize, column: usize) -> Option<usize> {
        let mut start = self.line_start(at);
        loop {
            let line = self.text.get(start..)?;
            let blank = line
                .get(..column)
                .is_some_and(|blank| blank.trim_matches(' ').is_empty());
            if blank && line.get(column..).is_some_and(|rest| rest.starts_with('-')) {
                return Some(start);
            }
            let before = start.checked_sub(1)?;
            start = self.line_start(before);
        }
    }
}

/// A new item or entry in brackets.
fn flow_insertion(container: &Node, places: &[(usize, usize)], index: usize, text: &str) -> Edit {
    let before = index.checked_sub(1).and_then(|before| places.get(before));
    let (at, text) = match (before, places.first()) {
        (Some((_, end)), _) => (*end, format!(", {text}")),
        (None, Some((start, _))) => (*start, format!("{text}, ")),
        (None, None) => (range(container.span).0 + 1, text.to_owned()),
    };
    Edit {
        start: at,
        end: at,
        text,
    }
}

fn flow_removal(places: &[(usize, usize)], index: usize) -> Option<Edit> {
    let (start, end) = *places.get(index)?;
    let next = places.get(index + 1).map(|(next, _)| *next);
    let before = index.checked_sub(1).and_then(|before| places.get(before));
    let (start, end) = match (next, before) {
        (Some(next), _) => (start, next),
        (None, Some((_, before))) => (*before, end),
        (None, None) => (start, end),
    };
    Some(Edit {
        start,
        end,
        text: String::new(),
    })
}

pub(super) fn range(span: Span) -> (usize, usize) {
    (span.start as usize, span.end as usize)
}
