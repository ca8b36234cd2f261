//! A repair as changes of an amendment: what is altered, and how that is written.
//!
//! Alterations of several repairs can be written together: what they add to one clause's references
//! becomes one change, and what can't be made together is said.

use crate::model::{Ruleset, Wording};
use crate::source::Span;
use std::collections::BTreeSet;
use std::fmt::Write;

/// A condition as it is written in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Words {
    /// Words on one line.
    Line(String),
    /// Lines as they stand in a file, moved to the left.
    Block(Vec<String>),
    /// All of these.
    All(Vec<Words>),
    /// Any of these.
    Any(Vec<Words>),
}

/// One thing that is altered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Alteration {
    /// A key of a thing gets another condition.
    Set {
        /// `clause` or `term`.
        part: &'static str,
        name: String,
        key: &'static str,
        to: Words,
    },
    /// A clause's references gain and lose some.
    Refer {
        clause: String,
        wording: Wording,
        /// Those that it has.
        had: Vec<String>,
        add: Vec<String>,
        drop: Vec<String>,
    },
    /// A clause goes.
    Repeal(String),
    /// A clause is added.
    Insert {
        id: String,
        after: Option<String>,
        when: Words,
        dimension: String,
        value: String,
    },
}

impl Words {
    /// The words under a span, as far as they can stand elsewhere.
    pub(super) fn written(ruleset: &Ruleset, span: Span) -> Option<Words> {
        let source = ruleset.sources.get(span.source)?.text();
        let start = usize::try_from(span.start).ok()?;
        let column = start - source.get(..start)?.rfind('\n').map_or(0, |at| at + 1);
        let words = ruleset.sources.slice(span).trim_end();
        if words.is_empty() {
            return None;
        }
        if !words.contains('\n') {
            return Words::on_one_line(words);
        }
        if words.starts_with(['"', '\'', '{', '[', '|', '>', '&', '*', '!']) {
            return None;
        }
        let mut lines = words.lines();
        let first = lines.next()?.to_owned();
        let rest = lines.map(|line| {
            let (indent, own) = line.split_at_checked(column.min(line.len()))?;
            indent
                .chars()
                .all(|sign| sign == ' ')
                .then(|| own.trim_end().to_owned())
        });
        let rest: Option<Vec<String>> = rest.collect();
        let lines = std::iter::once(first).chain(rest?);
        Some(Words::Block(lines.collect()))
    }

    fn on_one_line(words: &str) -> Option<Words> {
        let quoted = |quote: char| {
            let inner = words.strip_prefix(quote)?.strip_suffix(quote)?;
            (!inner.contains(['\\', quote])).then(|| Words::Line(inner.to_owned()))
        };
        match words.chars().next()? {
            quote @ ('"' | '\'') => quoted(quote),
            '{' | '[' => Some(Words::Block(vec![words.to_owned()])),
            '&' | '*' | '!' => None,
            _ => Some(Words::Line(words.to_owned())),
        }
    }

    /// The lines of a general condition, of which any may hold.
    pub(super) fn any_line(lines: &[String]) -> Option<Words> {
        match lines {
            [] => None,
            [one] => Some(Words::Line(one.clone())),
            several => Some(Words::Any(
                several.iter().cloned().map(Words::Line).collect(),
            )),
        }
    }

    /// Both of two.
    pub(super) fn and(self, other: Words) -> Words {
        match (&self, &other) {
            (Words::Line(one), Words::Line(another)) => {
                Words::Line(format!("{} and {}", bracketed(one), bracketed(another)))
            }
            _ => Words::All(vec![self, other]),
        }
    }

    /// Either of two.
    pub(super) fn or(self, other: Words) -> Words {
        match (self, other) {
            (Words::Line(one), Words::Line(another)) => Words::Line(format!("{one} or {another}")),
            (one, Words::Any(mut others)) => {
                others.insert(0, one);
                Words::Any(others)
            }
            (one, other) => Words::Any(vec![one, other]),
        }
    }

    /// The words in a sentence; `None` where they stand on several lines.
    pub(super) fn in_a_sentence(&self) -> Option<String> {
        match self {
            Words::Line(line) => Some(format!("`{line}`")),
            Words::Block(lines) => match lines.as_slice() {
                [one] => Some(format!("`{one}`")),
                _ => None,
            },
            Words::All(parts) | Words::Any(parts) => {
                let told: Option<Vec<String>> = parts.iter().map(Words::in_a_sentence).collect();
                let both = matches!(self, Words::All(_));
                let word = if both { " and " } else { " or " };
                Some(told?.join(word))
            }
        }
    }

    /// The words in a sentence behind a word of the file: `` `unless: force is full` ``.
    pub(super) fn behind(&self, word: &str) -> String {
        if let Words::Line(line) = self {
            return format!("`{word} {line}`");
        }
        let told = self.in_a_sentence();
        let told = told.unwrap_or_else(|| "what stands in the other place".to_owned());
        format!("`{word}` {told}")
    }

    /// Its lines, the first of which stands behind a key or a dash, the others from the column on.
    fn lines(&self, column: usize) -> Vec<String> {
        let indent = " ".repeat(column);
        match self {
            Words::Line(line) => vec![scalar(line)],
            Words::Block(lines) => {
                let mut all = lines.iter();
                let first = all.next().cloned().into_iter();
                first
                    .chain(all.map(|line| format!("{indent}{line}")))
                    .collect()
            }
            Words::All(parts) => listed("all", parts, column),
            Words::Any(parts) => listed("any", parts, column),
        }
    }

    /// The words as the value of a key that stands at the column.
    fn entry(&self, key: &str, column: usize) -> Vec<String> {
        let indent = " ".repeat(column);
        match self {
            Words::Line(line) => vec![format!("{indent}{key}: {}", scalar(line))],
            Words::Block(lines) if lines.len() == 1 => {
                vec![format!("{indent}{key}: {}", lines.join(""))]
            }
            _ => {
                let mut all = vec![format!("{indent}{key}:")];
                let lines = self.lines(column + 2);
                let first = lines.first().map(|line| format!("{indent}  {line}"));
                all.extend(first);
                all.extend(lines.into_iter().skip(1));
                all
            }
        }
    }
}

fn listed(key: &str, parts: &[Words], column: usize) -> Vec<String> {
    let mut lines = vec![format!("{key}:")];
    for part in parts {
        let own = part.lines(column + 4);
        for (number, line) in own.into_iter().enumerate() {
            lines.push(if number == 0 {
                format!("{}- {line}", " ".repeat(column + 2))
            } else {
                line
            });
        }
    }
    lines
}

/// Words in brackets where they would fall apart beside `and`.
fn bracketed(words: &str) -> String {
    let open = words.contains(" or ") || words.starts_with("not ");
    if open {
        format!("({words})")
    } else {
        words.to_owned()
    }
}

/// A condition as a YAML scalar: plain where nobody could take it for anything else.
fn scalar(words: &str) -> String {
    let plain = |sign: char| sign.is_ascii_alphanumeric() || " _.(),<>=+*/%-".contains(sign);
    let first = words.chars().next();
    if words.chars().all(plain) && first.is_some_and(|sign| sign.is_ascii_alphabetic()) {
        words.to_owned()
    } else {
        quoted(words)
    }
}

/// Words in double quotes.
pub(crate) fn quoted(words: &str) -> String {
    let mut all = String::from("\"");
    for sign in words.chars() {
        match sign {
            '"' | '\\' => all.extend(['\\', sign]),
            '\n' => all.push_str("\\n"),
            sign if sign.is_control() => {
                let _ = write!(all, "\\u{:04x}", u32::from(sign));
            }
            sign => all.push(sign),
        }
    }
    all.push('"');
    all
}

impl Alteration {
    /// What it is made to, for telling what can't be made together.
    fn thing(&self) -> (&'static str, &str) {
        match self {
            Alteration::Set { part, name, .. } => (part, name),
            Alteration::Refer { clause, .. } | Alteration::Repeal(clause) => ("clause", clause),
            Alteration::Insert { id, .. } => ("clause", id),
        }
    }

    fn names(&self) -> BTreeSet<&str> {
        let mut names = BTreeSet::from([self.thing().1]);
        if let Alteration::Refer { add, .. } = self {
            names.extend(add.iter().map(String::as_str));
        }
        if let Alteration::Insert { after, .. } = self {
            names.extend(after.as_deref());
        }
        names
    }

    /// Whether the two can't both be made, or would not say the same one after the other.
    fn clashes(&self, other: &Alteration) -> bool {
        match (self, other) {
            (
                Alteration::Refer { wording, .. },
                Alteration::Refer {
                    wording: another, ..
                },
            ) => self.thing() == other.thing() && wording != another,
            (Alteration::Repeal(gone), _) => other.names().contains(gone.as_str()),
            (_, Alteration::Repeal(gone)) => self.names().contains(gone.as_str()),
            _ => self.thing() == other.thing(),
        }
    }
}

/// Whether two repairs can't be made together.
pub(super) fn clash(one: &Mend, other: &Mend) -> bool {
    let pairs = one
        .0
        .iter()
        .flat_map(|one| other.0.iter().map(move |other| (one, other)));
    pairs.into_iter().any(|(one, other)| one.clashes(other))
}

/// What a repair alters.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Mend(pub(super) Vec<Alteration>);

/// One change as it is written, and which of the repairs it belongs to.
pub(crate) struct WrittenChange {
    /// Lines of a list item, the first with its dash, at the left margin.
    pub(crate) lines: Vec<String>,
    /// The repairs, by index.
    pub(crate) of: Vec<usize>,
}

/// The changes of repairs that do not clash, in their order.
pub(crate) fn changes(mends: &[&Mend]) -> Vec<WrittenChange> {
    let mut merged: Vec<(Alteration, Vec<usize>)> = Vec::new();
    for (index, mend) in mends.iter().enumerate() {
        for alteration in &mend.0 {
            let known = merged.iter_mut().find(|(other, _)| {
                let of = |it: &Alteration| match it {
                    Alteration::Refer { wording, .. } => Some(*wording),
                    _ => None,
                };
                of(other).is_some()
                    && of(other) == of(alteration)
                    && other.thing() == alteration.thing()
            });
            match (known, alteration) {
                (
                    Some((Alteration::Refer { add, drop, .. }, of)),
                    Alteration::Refer {
                        add: more,
                        drop: fewer,
                        ..
                    },
                ) => {
                    add.extend(more.iter().cloned());
                    drop.extend(fewer.iter().cloned());
                    of.push(index);
                }
                _ => merged.push((alteration.clone(), vec![index])),
            }
        }
    }
    let written = merged.into_iter();
    written
        .map(|(alteration, of)| WrittenChange {
            lines: lines(&alteration),
            of,
        })
        .collect()
}

fn lines(alteration: &Alteration) -> Vec<String> {
    match alteration {
        Alteration::Set {
            part,
            name,
            key,
            to,
        } => {
            let name = if *part == "clause" {
                quoted(name)
            } else {
                name.clone()
            };
            let mut all = vec!["- set:".to_owned(), format!("    {part}: {name}")];
            all.extend(to.entry(key, 4));
            all
        }
        Alteration::Refer {
            clause,
            wording,
            had,
            add,
            drop,
        } => {
            let mut ids: Vec<&String> = Vec::new();
            for id in had.iter().filter(|id| !drop.contains(id)).chain(add) {
                if !ids.contains(&id) {
                    ids.push(id);
                }
            }
            let key = wording.key();
            let ids: Vec<String> = ids.into_iter().map(|id| quoted(id)).collect();
            let last = if ids.is_empty() {
                format!("    leave_out: {key}")
            } else {
                format!("    {key}: [{}]", ids.join(", "))
            };
            vec![
                "- set:".to_owned(),
                format!("    clause: {}", quoted(clause)),
                last,
            ]
        }
        Alteration::Repeal(clause) => vec![format!("- repeal: {}", quoted(clause))],
        Alteration::Insert {
            id,
            after,
            when,
            dimension,
            value,
        } => {
            let mut all = vec!["- insert:".to_owned(), format!("    id: {}", quoted(id))];
            all.extend(when.entry("when", 4));
            all.push(format!("    ruling: {{{dimension}: {}}}", named(value)));
            all.extend(after.iter().map(|id| format!("  after: {}", quoted(id))));
            all
        }
    }
}

/// A value's name, quoted where YAML might take it for something else.
fn named(value: &str) -> String {
    let plain = value
        .chars()
        .all(|sign| sign.is_ascii_lowercase() || sign == '_');
    let other = ["yes", "no", "on", "off", "true", "false", "null", "y", "n"];
    if plain && !value.is_empty() && !other.contains(&value) {
        value.to_owned()
    } else {
        quoted(value)
    }
}

/// An amendment with this repair alone.
pub(super) fn alone(mend: &Mend) -> String {
    let mut text = String::from("amendment: One repair\nchanges:\n");
    for line in changes(&[mend]).iter().flat_map(|change| &change.lines) {
        text.push_str("  ");
        text.push_str(line);
        text.push('\n');
    }
    text
}
