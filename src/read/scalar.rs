//! From the words of a YAML scalar back to the bytes of the file.
//!
//! A condition may be written plain, quoted with escapes, or as a block over several lines. Its
//! words are what YAML makes of them, yet a problem must underline the bytes in the file. This
//! module decodes the slice of the file once more and notes where each character came from; it
//! refuses to know what the words mean.

use super::node::Style;
use crate::source::{SourceId, Span};
use std::ops::Range;

/// Words with the place of each character in the file.
#[derive(Clone, Debug)]
pub(crate) struct Mapped {
    /// The words as YAML gives them.
    pub(crate) text: String,
    runs: Vec<Run>,
    id: SourceId,
}

/// A stretch of words and the bytes that they came from.
#[derive(Clone, Copy, Debug)]
struct Run {
    words: usize,
    words_len: usize,
    file: usize,
    file_len: usize,
    kind: RunKind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum RunKind {
    /// Byte by byte the same in the words and in the file.
    Verbatim,
    /// One thing in the file that stands for something else in the words.
    Whole,
}

impl Mapped {
    /// Words that stand in the file exactly as they are, from byte `start` on.
    pub(crate) fn verbatim(text: &str, start: usize, id: SourceId) -> Self {
        let mut mapped = Mapped::empty(id);
        mapped.push_str(text, start);
        mapped
    }

    /// The words of a scalar whose text in the file is `span` (quotes included, properties not).
    ///
    /// Where the slice does not decode to the words, every place in them is the whole scalar.
    pub(crate) fn scalar(file: &str, span: Span, style: Style, words: &str) -> Self {
        Mapped::exactly(file, span, style, words).unwrap_or_else(|| Mapped::roughly(span, words))
    }

    /// The words of a scalar in the file whose notation nobody has kept.
    ///
    /// Where no notation reads the slice as the words, every place in them is the whole scalar.
    pub(crate) fn written(file: &str, span: Span, words: &str) -> Self {
        let styles = [
            Style::Plain,
            Style::SingleQuoted,
            Style::DoubleQuoted,
            Style::Folded,
            Style::Literal,
        ];
        let mut read = styles
            .into_iter()
            .filter_map(|style| Mapped::exactly(file, span, style, words));
        read.next().unwrap_or_else(|| Mapped::roughly(span, words))
    }

    /// The words of a scalar in one notation, if it reads the slice so.
    fn exactly(file: &str, span: Span, style: Style, words: &str) -> Option<Self> {
        let range = span.start as usize..span.end as usize;
        let decoded = match style {
            Style::Plain => flow(file, range, style, span.source),
            Style::SingleQuoted | Style::DoubleQuoted => {
                let inner = range.start + 1..range.end.saturating_sub(1);
                flow(file, inner, style, span.source)
            }
            Style::Literal | Style::Folded => {
                let breaks = words.len() - words.trim_start_matches('\n').len();
                block(file, range, style, breaks, span.source)
            }
        };
        decoded.filter(|decoded| decoded.text == words)
    }

    /// Words of which nobody knows where in the scalar each stands.
    fn roughly(span: Span, words: &str) -> Self {
        Mapped {
            text: words.to_owned(),
            runs: vec![Run {
                words: 0,
                words_len: words.len(),
                file: span.start as usize,
                file_len: span.len(),
                kind: RunKind::Whole,
            }],
            id: span.source,
        }
    }

    /// The words of an unquoted stretch of the file.
    pub(crate) fn plain(file: &str, span: Span) -> Option<Self> {
        let range = span.start as usize..span.end as usize;
        flow(file, range, Style::Plain, span.source)
    }

    /// The bytes of the file that said the words of `range`.
    pub(crate) fn span(&self, range: Range<usize>) -> Span {
        let start = self.place(range.start, Side::First);
        let end = if range.is_empty() {
            start
        } else {
            self.place(range.end, Side::Last).max(start)
        };
        let byte = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
        Span {
            source: self.id,
            start: byte(start),
            end: byte(end),
        }
    }

    /// The place of a boundary between characters: of the one that it opens, or that it closes.
    fn place(&self, at: usize, side: Side) -> usize {
        let index = match side {
            Side::First => self.runs.partition_point(|run| run.words <= at),
            Side::Last => self.runs.partition_point(|run| run.words < at),
        };
        let Some(run) = self.runs.get(index.saturating_sub(1)) else {
            return 0;
        };
        let inside = (at - run.words.min(at)).min(run.words_len);
        match (run.kind, side) {
            (RunKind::Verbatim, _) => run.file + inside,
            (RunKind::Whole, Side::First) if inside < run.words_len => run.file,
            (RunKind::Whole, _) => run.file + run.file_len,
        }
    }

    fn empty(id: SourceId) -> Self {
        Mapped {
            text: String::new(),
            runs: Vec::new(),
            id,
        }
    }

    /// Adds a stretch that is the same in the file.
    fn push_str(&mut self, stretch: &str, file: usize) {
        let words = self.text.len();
        self.text.push_str(stretch);
        if let Some(last) = self.runs.last_mut()
            && last.kind == RunKind::Verbatim
            && last.file + last.file_len == file
        {
            last.words_len += stretch.len();
            last.file_len += stretch.len();
            return;
        }
        self.runs.push(Run {
            words,
            words_len: stretch.len(),
            file,
            file_len: stretch.len(),
            kind: RunKind::Verbatim,
        });
    }

    /// Adds a character that the bytes of `file` stand for.
    fn push_whole(&mut self, character: char, file: Range<usize>) {
        let words = self.text.len();
        self.text.push(character);
        self.runs.push(Run {
            words,
            words_len: character.len_utf8(),
            file: file.start,
            file_len: file.len(),
            kind: RunKind::Whole,
        });
    }
}

#[derive(Clone, Copy)]
enum Side {
    First,
    Last,
}

/// Length of the line end at the start of `text`, zero where there is none.
fn line_end(text: &str) -> usize {
    match text.as_bytes() {
        [b'\r', b'\n', ..] => 2,
        [b'\r' | b'\n', ..] => 1,
        _ => 0,
    }
}

/// Length of the blanks at the start of `text`.
fn blanks(text: &str) -> usize {
    text.len() - text.trim_start_matches([' ', '\t']).len()
}

/// Decodes a plain or quoted scalar (without its quotes).
fn flow(file: &str, range: Range<usize>, style: Style, id: SourceId) -> Option<Mapped> {
    let mut out = Mapped::empty(id);
    let mut at = range.start;
    loop {
        let rest = file.get(at..range.end)?;
        let Some(character) = rest.chars().next() else {
            return Some(out);
        };
        match character {
            ' ' | '\t' => {
                let length = blanks(rest);
                // Blanks before a line end are dropped.
                if line_end(rest.get(length..)?) == 0 {
                    out.push_str(rest.get(..length)?, at);
                }
                at += length;
            }
            '\r' | '\n' => {
                let first = at..at + line_end(rest);
                at = first.end;
                let more = empty_lines(file, &mut at, range.end, &mut out)?;
                if more == 0 {
                    out.push_whole(' ', first);
                }
            }
            '\'' if style == Style::SingleQuoted => {
                out.push_whole('\'', at..at + 2);
                at += 2;
            }
            '\\' if style == Style::DoubleQuoted => {
                let next = rest.get(1..)?;
                if line_end(next) > 0 {
                    at += 1 + line_end(next);
                    empty_lines(file, &mut at, range.end, &mut out)?;
                } else {
                    let (meant, length) = escape(next)?;
                    out.push_whole(meant, at..at + 1 + length);
                    at += 1 + length;
                }
            }
            other => {
                out.push_str(rest.get(..other.len_utf8())?, at);
                at += other.len_utf8();
            }
        }
    }
}

/// Passes blanks and empty lines after a line end; each empty line is a line end in the words.
fn empty_lines(file: &str, at: &mut usize, end: usize, out: &mut Mapped) -> Option<usize> {
    let mut count = 0;
    loop {
        *at += blanks(file.get(*at..end)?);
        let length = line_end(file.get(*at..end)?);
        if length == 0 {
            return Some(count);
        }
        out.push_whole('\n', *at..*at + length);
        *at += length;
        count += 1;
    }
}

/// The character that an escape stands for, and the bytes after the backslash that say it.
fn escape(after: &str) -> Option<(char, usize)> {
    let letter = after.chars().next()?;
    let code = |digits: usize| {
        let value = u32::from_str_radix(after.get(1..=digits)?, 16).ok()?;
        Some((char::from_u32(value)?, 1 + digits))
    };
    let meant = match letter {
        '0' => '\0',
        'a' => '\u{7}',
        'b' => '\u{8}',
        't' | '\t' => '\t',
        'n' => '\n',
        'v' => '\u{b}',
        'f' => '\u{c}',
        'r' => '\r',
        'e' => '\u{1b}',
        ' ' | '"' | '/' | '\\' => letter,
        'N' => '\u{85}',
        '_' => '\u{a0}',
        'L' => '\u{2028}',
        'P' => '\u{2029}',
        'x' => return code(2),
        'u' => return code(4),
        'U' => return code(8),
        _ => return None,
    };
    Some((meant, letter.len_utf8()))
}

/// Decodes a block scalar whose first content character is at the start of `range`, after
/// `leading` line ends that its words begin with. Line ends at the close are left out.
fn block(
    file: &str,
    range: Range<usize>,
    style: Style,
    leading: usize,
    id: SourceId,
) -> Option<Mapped> {
    let mut out = Mapped::empty(id);
    for _ in 0..leading {
        out.push_whole('\n', range.start..range.start);
    }
    let before = file.get(..range.start)?;
    let indent = before.len() - before.rfind(['\n', '\r']).map_or(0, |line| line + 1);
    let mut at = range.start;
    // The line ends that came before this line: the one that closed the last content line, then
    // those of empty lines.
    let mut last: Option<Range<usize>> = None;
    let mut empty: Vec<Range<usize>> = Vec::new();
    let mut last_began_blank = false;
    while at < range.end {
        let rest = file.get(at..range.end)?;
        let length = rest.find(['\n', '\r']).unwrap_or(rest.len());
        let line = rest.get(..length)?;
        let begins_blank = line.starts_with([' ', '\t']);
        if let Some(last) = last.take() {
            let folds = style == Style::Folded && !last_began_blank && !begins_blank;
            if !folds {
                out.push_whole('\n', last);
            } else if empty.is_empty() {
                out.push_whole(' ', last);
            }
            for line_end in empty.drain(..) {
                out.push_whole('\n', line_end);
            }
        }
        last_began_blank = begins_blank;
        out.push_str(line, at);
        at += length;
        let ending = line_end(file.get(at..range.end)?);
        last = Some(at..at + ending);
        at += ending;
        // Indentation, and lines that have nothing else.
        loop {
            let rest = file.get(at..range.end)?;
            let spaces = rest.len() - rest.trim_start_matches(' ').len();
            at += spaces.min(indent);
            let ending = line_end(file.get(at..range.end)?);
            if ending == 0 {
                break;
            }
            empty.push(at..at + ending);
            at += ending;
        }
    }
    Some(out)
}

#[cfg(test)]
mod tests;
