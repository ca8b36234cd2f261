//! Texts that YAML cut in two, and keys that stand twice.
//!
//! Inside `{}` and `[]` a comma ends an item, so `{when: phase is one of (a, b)}` is two keys. The
//! pieces are put together again, with a problem that says so, and the rest of the file is read as
//! it was meant.

use super::node::{Entry, Layout, Node, NodeKind, Scalar, Style};
use super::scalar::Mapped;
use super::yaml::span_of;
use crate::problem::Problem;
use crate::source::Span;
use std::collections::BTreeMap;

/// Mends a tree; `text` is the file.
pub(super) fn mend(text: &str, node: &mut Node, problems: &mut Vec<Problem>) {
    let layout = node.layout;
    match &mut node.kind {
        NodeKind::Nothing | NodeKind::Scalar(_) => {}
        NodeKind::List(items) => {
            if layout == Layout::Flow {
                *items = join_items(text, std::mem::take(items), problems);
            }
            for item in items {
                mend(text, item, problems);
            }
        }
        NodeKind::Mapping(entries) => {
            if layout == Layout::Flow {
                *entries = join_entries(text, std::mem::take(entries), problems);
            }
            *entries = once(std::mem::take(entries), problems);
            for entry in entries {
                mend(text, &mut entry.value, problems);
            }
        }
    }
}

/// How many brackets a text opens and does not close; less than zero where it closes more.
fn open_brackets(words: &str) -> i32 {
    words.chars().fold(0, |open, character| match character {
        '(' => open + 1,
        ')' => open - 1,
        _ => open,
    })
}

/// The brackets that unquoted words open and do not close.
fn cut_open(node: &Node) -> Option<i32> {
    match &node.kind {
        NodeKind::Scalar(scalar) if scalar.style == Style::Plain => {
            Some(open_brackets(&scalar.words)).filter(|open| *open > 0)
        }
        _ => None,
    }
}

/// How many of the pieces behind a cut text belong to it: up to the one that closes its brackets,
/// or, where none does, all that stand alone. `None` where nothing was cut off.
fn belonging<'n>(open: i32, pieces: impl Iterator<Item = Option<&'n str>>) -> Option<usize> {
    let mut open = open;
    let mut count = 0;
    for piece in pieces.map_while(|piece| piece) {
        open += open_brackets(piece);
        count += 1;
        if open <= 0 {
            break;
        }
    }
    (count > 0).then_some(count)
}

fn join_items(text: &str, items: Vec<Node>, problems: &mut Vec<Problem>) -> Vec<Node> {
    let mut out: Vec<Node> = Vec::with_capacity(items.len());
    let mut rest = items.into_iter();
    while let Some(item) = rest.next() {
        let plain = |node: &Node| matches!(&node.kind, NodeKind::Scalar(scalar) if scalar.style == Style::Plain);
        let pieces = rest
            .as_slice()
            .iter()
            .map(|piece| piece.words().filter(|_| plain(piece)));
        let count = cut_open(&item).and_then(|open| belonging(open, pieces));
        let Some(count) = count else {
            out.push(item);
            continue;
        };
        let end = rest
            .by_ref()
            .take(count)
            .last()
            .map_or(item.span, |last| last.span);
        out.push(joined(text, &item, end, problems));
    }
    out
}

fn join_entries(text: &str, entries: Vec<Entry>, problems: &mut Vec<Problem>) -> Vec<Entry> {
    let mut out: Vec<Entry> = Vec::with_capacity(entries.len());
    let mut rest = entries.into_iter();
    while let Some(entry) = rest.next() {
        let pieces = rest.as_slice().iter().map(|piece| {
            let bare = matches!(piece.value.kind, NodeKind::Nothing);
            bare.then_some(piece.key.words.as_str())
        });
        let count = cut_open(&entry.value).and_then(|open| belonging(open, pieces));
        let Some(count) = count else {
            out.push(entry);
            continue;
        };
        let end = rest
            .by_ref()
            .take(count)
            .last()
            .map_or(entry.value.span, |last| last.key.span);
        out.push(Entry {
            key: entry.key,
            value: joined(text, &entry.value, end, problems),
        });
    }
    out
}

/// The first piece with all that was cut off, up to `end`.
fn joined(text: &str, first: &Node, end: Span, problems: &mut Vec<Problem>) -> Node {
    let span = first.span.to(end);
    let words = Mapped::plain(text, span).map_or_else(String::new, |mapped| mapped.text);
    let behind = text.get(first.span.end as usize..).unwrap_or_default();
    let comma = first.span.end as usize + behind.find(',').unwrap_or(0);
    problems.push(
        Problem::error(
            span_of(span.source, comma, comma + 1),
            format!("a comma inside `{{}}` or `[]` ends an item, and cuts `{words}` in two"),
            "the item ends at this comma",
        )
        .other(span, "this was meant as one")
        .help(format!("put it in quotes: {}", quoted(&words))),
    );
    Node {
        kind: NodeKind::Scalar(Scalar {
            words,
            style: Style::Plain,
        }),
        span,
        layout: first.layout,
    }
}

/// Words in the quotes of YAML.
pub(super) fn quoted(words: &str) -> String {
    if words.contains(['"', '\\']) {
        format!("'{}'", words.replace('\'', "''"))
    } else {
        format!("\"{words}\"")
    }
}

/// The entries without those whose key stands before already.
fn once(entries: Vec<Entry>, problems: &mut Vec<Problem>) -> Vec<Entry> {
    let mut seen: BTreeMap<String, Span> = BTreeMap::new();
    let mut out = Vec::with_capacity(entries.len());
    let mut dash_missing = false;
    for entry in entries {
        if let Some(first) = seen.get(&entry.key.words) {
            if dash_missing {
                // The rest of that item stands twice for the same reason.
                continue;
            }
            if entry.key.words == "id" {
                dash_missing = true;
                problems.push(
                    Problem::error(
                        entry.key.span,
                        "one item has two ids",
                        "a second `id`: perhaps a dash is missing before it",
                    )
                    .other(*first, "the first")
                    .help("each item of a list begins with a dash and a space: `- id: ...`"),
                );
                continue;
            }
            problems.push(
                Problem::error(
                    entry.key.span,
                    format!("the key `{}` stands twice", entry.key.words),
                    "the second time",
                )
                .other(*first, "the first time")
                .help("keep one of them, or give one another name"),
            );
        } else {
            seen.insert(entry.key.words.clone(), entry.key.span);
            out.push(entry);
        }
    }
    out
}
