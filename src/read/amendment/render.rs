//! New parts of a text: as they stand in the amendment, moved to their place, or in brackets.

use super::consolidate::{Writer, range};
use crate::read::node::{Entry, Key, Layout, Node, NodeKind, Scalar, Style};
use crate::source::{Source, Span};

impl Writer<'_> {
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
    pub(super) fn block(&self, node: &Node, column: usize) -> String {
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
    pub(super) fn block_entry(&self, key: &Key, value: &Node, column: usize) -> String {
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
    pub(super) fn flow(&self, node: &Node) -> String {
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

    pub(super) fn flow_entry(&self, key: &Key, value: &Node) -> String {
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
pub(super) fn is_plain(words: &str) -> bool {
    let inner = |sign: char| sign.is_alphanumeric() || " _.()/+*-".contains(sign);
    words.starts_with(|first: char| first.is_alphanumeric() || first == '_')
        && !words.ends_with(' ')
        && words.chars().all(inner)
}

pub(crate) fn double_quoted(words: &str) -> String {
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
