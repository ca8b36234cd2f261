//! Files as read, and places in them.
//!
//! Everything that the program says about a ruleset points at words in a file. This module owns
//! the text of the files and the arithmetic of places; it refuses to know what the text means.

use std::fmt;
use std::num::NonZeroU32;

/// Which file of a [`Sources`] collection a span lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct SourceId(u16);

/// A range of bytes in one file, end exclusive.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The file.
    pub source: SourceId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// The smallest span that covers `self` and `other`, in the file of `self`.
    pub fn to(self, other: Span) -> Span {
        Span {
            source: self.source,
            start: self.start.min(other.start),
            end: self.end.max(other.end),
        }
    }

    /// Length in bytes.
    pub fn len(self) -> usize {
        self.end.saturating_sub(self.start) as usize
    }

    /// Whether the two have a byte in common, or one begins where the other ends.
    pub fn overlaps(self, other: Span) -> bool {
        self.source == other.source && self.start <= other.end && other.start <= self.end
    }

    /// Whether the span covers no byte.
    pub fn is_empty(self) -> bool {
        self.end <= self.start
    }
}

/// A value together with the words that said it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spanned<T> {
    /// What was said.
    pub value: T,
    /// Where.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// Puts a value and its place together.
    pub fn new(value: T, span: Span) -> Self {
        Spanned { value, span }
    }
}

/// A line of a file, counted from one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Line(pub NonZeroU32);

/// A column of a line in characters (Unicode scalar values), counted from one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Column(pub NonZeroU32);

/// A line and column in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// The line.
    pub line: Line,
    /// The column.
    pub column: Column,
}

impl fmt::Display for Position {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line.0, self.column.0)
    }
}

/// One file: its name as the caller gave it, and its text.
#[derive(Clone, Debug)]
pub struct Source {
    name: String,
    text: String,
    line_starts: Vec<u32>,
}

impl Source {
    /// Takes a file's name and text.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        let text = text.into();
        let starts = text.bytes().zip(1u32..).filter(|(byte, _)| *byte == b'\n');
        let line_starts = std::iter::once(0)
            .chain(starts.map(|(_, next)| next))
            .collect();
        Source {
            name: name.into(),
            text,
            line_starts,
        }
    }

    /// The name as the caller gave it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The place of a byte; past the end, the place just after the last character.
    pub fn position(&self, byte: u32) -> Position {
        let byte = byte.min(u32::try_from(self.text.len()).unwrap_or(u32::MAX));
        let line = self
            .line_starts
            .partition_point(|start| *start <= byte)
            .max(1);
        let start = self.line_starts.get(line - 1).copied().unwrap_or(0);
        let before = self.text.get(start as usize..byte as usize).unwrap_or("");
        Position {
            line: Line(one_based(line - 1)),
            column: Column(one_based(before.chars().count())),
        }
    }
}

/// Turns a count from zero into a number from one.
fn one_based(from_zero: usize) -> NonZeroU32 {
    u32::try_from(from_zero)
        .ok()
        .and_then(|n| NonZeroU32::MIN.checked_add(n))
        .unwrap_or(NonZeroU32::MAX)
}

/// Every file that a run has read, in the order of reading.
#[derive(Clone, Debug, Default)]
pub struct Sources {
    files: Vec<Source>,
}

impl Sources {
    /// Adds a file and says under which id its spans are made.
    ///
    /// Ids run out after 65,535 files; the last id is then given again.
    pub fn add(&mut self, source: Source) -> SourceId {
        let id = SourceId(u16::try_from(self.files.len()).unwrap_or(u16::MAX));
        self.files.push(source);
        id
    }

    /// The ids of all files, in the order of reading.
    pub fn ids(&self) -> impl Iterator<Item = SourceId> {
        (0..self.files.len()).filter_map(|index| u16::try_from(index).ok().map(SourceId))
    }

    /// The id that is given last, for a text that stands apart from every collection.
    pub fn apart() -> SourceId {
        SourceId(u16::MAX)
    }

    /// The file with this id, if this collection made the id.
    pub fn get(&self, id: SourceId) -> Option<&Source> {
        self.files.get(usize::from(id.0))
    }

    /// The words under a span; empty if the span is not of this collection.
    pub fn slice(&self, span: Span) -> &str {
        self.get(span.source)
            .and_then(|source| source.text.get(span.start as usize..span.end as usize))
            .unwrap_or("")
    }

    /// Where a span stands, in numbers for people and programs.
    pub fn place(&self, span: Span) -> Place {
        let source = self.get(span.source);
        let position = source.map_or(
            Position {
                line: Line(NonZeroU32::MIN),
                column: Column(NonZeroU32::MIN),
            },
            |source| source.position(span.start),
        );
        Place {
            file: source.map(|source| source.name.clone()).unwrap_or_default(),
            position,
            length: self.slice(span).chars().count(),
        }
    }
}

/// The words of a text, as names are written.
pub fn words(text: &str) -> impl Iterator<Item = &str> {
    let part_of_word = |letter: char| letter.is_alphanumeric() || letter == '_' || letter == '-';
    text.split(move |letter| !part_of_word(letter))
        .filter(|word| !word.is_empty())
}

/// A place in a file, as outputs print it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The file's name as the caller gave it.
    pub file: String,
    /// Line and column of the first character.
    pub position: Position,
    /// Length in characters.
    pub length: usize,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.file, self.position)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_count_lines_and_characters_from_one() {
        let source = Source::new("a.yaml", "één\nzwei: drei\n");
        let mut sources = Sources::default();
        let id = sources.add(source);
        let span = Span {
            source: id,
            start: 12,
            end: 16,
        };
        assert_eq!(sources.slice(span), "drei");
        let place = sources.place(span);
        assert_eq!(
            (place.to_string(), place.length),
            ("a.yaml:2:7".to_owned(), 4)
        );
        assert_eq!(
            sources
                .place(Span {
                    source: id,
                    start: 5,
                    end: 5
                })
                .position
                .to_string(),
            "1:4"
        );
        assert_eq!(
            sources
                .place(Span {
                    source: id,
                    start: 999,
                    end: 999
                })
                .position
                .to_string(),
            "3:1"
        );
    }
}
