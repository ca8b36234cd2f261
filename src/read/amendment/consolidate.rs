//! The text of an amended ruleset: what is not changed keeps every byte.
//!
//! The changes are made in the text one by one, each by the same steps that are made on the tree.
//! The text is believed only when it has been read again and is, word for word, the changed tree.

use super::AmendmentDraft;
use super::apply::{Operation, Tree, edition_set, node_at};
use super::plan::plan;
use crate::problem::Problem;
use crate::read::node::{Entry, Key, Layout, Node, NodeKind, Scalar, Style};
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
struct Writer<'a> {
    text: &'a str,
    id: SourceId,
    sources: &'a Sources,
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
    fn line_break(&self) -> &'static str {
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

    /// The words of a node's file under a span.
    fn slice(&self, span: Span) -> &str {
        if span.source == self.id {
            let (start, end) = range(span);
            self.text.get(start..end).unwrap_or_default()
        } else {
            self.sources.slice(span)
        }
    }

    /// The whole text that a span lies in.
    fn file(&self, span: Span) -> &str {
        if span.source == self.id {
            self.text
        } else {
            self.sources.get(span.source).map_or("", Source::text)
        }
    }

    /// A node in lines, the first of which is to stand at this column.
    fn block(&self, node: &Node, column: usize) -> String {
        match &node.kind {
            NodeKind::Mapping(entries) if node.layout == Layout::Block && !entries.is_empty() => {
                if self.is_verbatim(node, entries) {
                    return self.shifted(node.span, column);
                }
                let lines: Vec<String> = entries
                    .iter()
                    .map(|entry| self.block_entry(&entry.key, &entry.value, column))
                    .collect();
                lines.join(&format!("{}{}", self.line_break(), " ".repeat(column)))
            }
            NodeKind::List(items) if node.layout == Layout::Block && !items.is_empty() => {
                let lines: Vec<String> = items
                    .iter()
                    .map(|item| format!("- {}", self.block(item, column + 2)))
                    .collect();
                lines.join(&format!("{}{}", self.line_break(), " ".repeat(column)))
            }
            NodeKind::Scalar(scalar)
                if matches!(
                    scalar.style,
                    Style::SingleQuoted | Style::DoubleQuoted | Style::Plain
                ) =>
            {
                let own = self.slice(node.span);
                if own.contains(['\n', '\r']) || !is_written(own, scalar) {
                    self.flow(node)
                } else {
                    own.to_owned()
                }
            }
            _ => self.flow(node),
        }
    }

    /// Whether a mapping stands in a file just as it is: its first key opens it, and its last value
    /// closes it.
    fn is_verbatim(&self, node: &Node, entries: &[Entry]) -> bool {
        let of_node = |span: Span| {
            span.source == node.span.source
                && node.span.start <= span.start
                && span.end <= node.span.end
        };
        entries
            .first()
            .is_some_and(|first| first.key.span.start == node.span.start)
            && entries.iter().all(|entry| {
                let nothing = matches!(entry.value.kind, NodeKind::Nothing);
                of_node(entry.key.span)
                    && of_node(entry.value.span)
                    && (nothing || entry.key.span.end <= entry.value.span.start)
                    && self.slice(entry.key.span).trim_matches(['"', '\'']) == entry.key.words
            })
    }

    /// A key and its value in lines, the first of which is to stand at this column.
    fn block_entry(&self, key: &Key, value: &Node, column: usize) -> String {
        let own_key = self.slice(key.span).trim_matches(['"', '\'']) == key.words;
        let behind = value.span.source == key.span.source && value.span.start >= key.span.end;
        let nothing = matches!(value.kind, NodeKind::Nothing);
        if own_key && behind && !nothing && self.is_next(key.span, value.span) {
            return self.shifted(key.span.to(value.span), column);
        }
        let name = if is_plain(&key.words) && !key.words.starts_with(|c: char| c.is_ascii_digit()) {
            key.words.clone()
        } else {
            double_quoted(&key.words)
        };
        let below = matches!(&value.kind, NodeKind::Mapping(entries) if !entries.is_empty())
            || matches!(&value.kind, NodeKind::List(items) if !items.is_empty());
        if nothing {
            format!("{name}:")
        } else if below && value.layout == Layout::Block {
            let inner = column + 2;
            format!(
                "{name}:{}{}{}",
                self.line_break(),
                " ".repeat(inner),
                self.block(value, inner)
            )
        } else {
            format!("{name}: {}", self.block(value, column + 2))
        }
    }

    /// Whether nothing but a colon, blanks, comments and marks stands between a key and a value.
    fn is_next(&self, key: Span, value: Span) -> bool {
        let between = Span {
            source: key.source,
            start: key.end,
            end: value.start,
        };
        let between = self.slice(between);
        let mut lines = between.lines();
        let first = lines.next().unwrap_or_default().trim();
        let opens = |words: &str| {
            words.is_empty() || words.starts_with('#') || words.starts_with(['|', '>', '&', '-'])
        };
        first
            .strip_prefix(':')
            .is_some_and(|rest| opens(rest.trim()))
            && lines.all(|line| opens(line.trim()))
    }

    /// What stands under a span, moved so that its first line stands at this column.
    fn shifted(&self, span: Span, column: usize) -> String {
        let file = self.file(span);
        let start = span.start as usize;
        let before = file.get(..start).unwrap_or_default();
        let line = before.rfind(['\n', '\r']).map_or(0, |end| end + 1);
        let from = start - line;
        let words = self.slice(span).replace("\r\n", "\n").replace('\r', "\n");
        let indent = " ".repeat(column);
        let lines = words.split('\n').enumerate().map(|(index, line)| {
            if index == 0 || line.is_empty() {
                return line.to_owned();
            }
            let blanks = line.len() - line.trim_start_matches(' ').len();
            let rest = line.get(blanks.min(from)..).unwrap_or_default();
            format!("{indent}{rest}")
        });
        lines.collect::<Vec<_>>().join(self.line_break())
    }

    /// A node on one line, in brackets and quotes where it needs them.
    fn flow(&self, node: &Node) -> String {
        match &node.kind {
            NodeKind::Nothing => String::new(),
            NodeKind::Scalar(scalar) => {
                let plain = scalar.style == Style::Plain && is_plain(&scalar.words);
                if plain {
                    scalar.words.clone()
                } else {
                    double_quoted(&scalar.words)
                }
            }
            NodeKind::List(items) => {
                let items: Vec<String> = items.iter().map(|item| self.flow(item)).collect();
                format!("[{}]", items.join(", "))
            }
            NodeKind::Mapping(entries) => {
                let entries = entries.iter();
                let entries: Vec<String> = entries
                    .map(|entry| self.flow_entry(&entry.key, &entry.value))
                    .collect();
                format!("{{{}}}", entries.join(", "))
            }
        }
    }

    fn flow_entry(&self, key: &Key, value: &Node) -> String {
        let name = if is_plain(&key.words) {
            key.words.clone()
        } else {
            double_quoted(&key.words)
        };
        let value = self.flow(value);
        if value.is_empty() {
            format!("{name}:")
        } else {
            format!("{name}: {value}")
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

fn range(span: Span) -> (usize, usize) {
    (span.start as usize, span.end as usize)
}

/// Whether a scalar stands in its file just as it is.
fn is_written(own: &str, scalar: &Scalar) -> bool {
    match scalar.style {
        Style::Plain => own == scalar.words,
        Style::SingleQuoted => {
            own.strip_prefix('\'')
                .and_then(|own| own.strip_suffix('\''))
                == Some(&scalar.words)
        }
        Style::DoubleQuoted => {
            own.strip_prefix('"').and_then(|own| own.strip_suffix('"')) == Some(&scalar.words)
        }
        Style::Literal | Style::Folded => false,
    }
}

/// Whether words can stand without quotes anywhere, inside brackets too.
fn is_plain(words: &str) -> bool {
    let inner = |sign: char| sign.is_alphanumeric() || " _.()/+*-".contains(sign);
    words.starts_with(|first: char| first.is_alphanumeric() || first == '_')
        && !words.ends_with(' ')
        && words.chars().all(inner)
}

fn double_quoted(words: &str) -> String {
    let mut text = String::from("\"");
    for sign in words.chars() {
        match sign {
            '"' | '\\' => text.extend(['\\', sign]),
            '\n' => text.push_str("\\n"),
            '\t' => text.push_str("\\t"),
            '\r' => text.push_str("\\r"),
            _ => text.push(sign),
        }
    }
    text.push('"');
    text
}
