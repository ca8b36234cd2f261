//! How an excerpt is drawn: the numbers of its lines at the left, the marked words underlined, and
//! what is said of them right below, within the width of the page.
//!
//! A handler for miette, which says what is marked in which lines. It draws no frame: a rulebook's
//! words should look like a rulebook's words.

use super::look::{Drawing, Look, Tone};
use super::page::wrap;
use crate::report::words::and_list;
use miette::{Diagnostic, LabeledSpan, ReportHandler, SourceCode, SpanContents};
use std::fmt::{self, Write as _};
use textwrap::core::display_width;

/// Columns left of the numbers.
const INDENT: usize = 3;
/// Columns between a number and its line.
const GUTTER: usize = 3;
/// Columns that a label should have; it begins further left than its words where there are less.
const LABEL: usize = 36;
/// Lines that are named above an excerpt; of more, only the first is.
const MOST_NAMED: usize = 3;

/// Columns for a line of the file where the last number is this one.
pub(super) fn room(look: &Look, last_number: usize) -> usize {
    let taken = INDENT + last_number.to_string().len() + GUTTER;
    look.columns().saturating_sub(taken).max(20)
}

/// Quiet words under an excerpt.
pub(super) fn beside(look: &Look, words: &str) -> String {
    let lines = wrap(words, look.columns().saturating_sub(INDENT).max(20));
    let mut out = String::new();
    for line in lines {
        let _ = writeln!(out, "{:INDENT$}{}", "", look.paint(&line, Tone::Quiet));
    }
    out
}

/// Draws the labels of a diagnostic; their tones in the order of the labels.
pub(super) struct Margin {
    pub(super) look: Look,
    pub(super) tones: Vec<Tone>,
    /// Where, in what is drawn, rows begin that show more of the line before them.
    pub(super) again: Vec<usize>,
}

/// A diagnostic drawn by a margin.
pub(super) struct Drawn<'a>(pub(super) &'a Margin, pub(super) &'a dyn Diagnostic);

impl fmt::Display for Drawn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.debug(self.1, f)
    }
}

impl ReportHandler for Margin {
    fn debug(&self, diagnostic: &dyn Diagnostic, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (Some(source), Some(labels)) = (diagnostic.source_code(), diagnostic.labels()) else {
            return Ok(());
        };
        let labels: Vec<LabeledSpan> = labels.collect();
        let snippets = self.snippets(source, &labels);
        let last = snippets.iter().map(Snippet::last_number).max();
        let digits = last.unwrap_or(1).to_string().len();
        for file in snippets.chunk_by(|one, next| one.contents.name() == next.contents.name()) {
            self.head(f, file)?;
            for (index, snippet) in file.iter().enumerate() {
                if index > 0 {
                    let dots = match self.look.drawing {
                        Drawing::Ascii => ":",
                        Drawing::Unicode => "⋮",
                    };
                    let dots = self.look.paint(dots, Tone::Quiet);
                    writeln!(f, "{:1$}{dots}", "", INDENT + digits - 1)?;
                }
                self.lines(f, snippet, digits)?;
            }
        }
        Ok(())
    }
}

/// Lines that stand together, and the marks in them.
struct Snippet<'a> {
    contents: Box<dyn SpanContents<'a> + 'a>,
    marks: Vec<Mark<'a>>,
    /// The number of the line that each row shows; a row that shows more of a line repeats it.
    numbers: Vec<usize>,
}

struct Mark<'a> {
    /// First byte within the snippet.
    start: usize,
    length: usize,
    /// Line within the snippet, from zero.
    line: usize,
    words: &'a str,
    tone: Tone,
}

impl Snippet<'_> {
    fn text(&self) -> &str {
        std::str::from_utf8(self.contents.data()).unwrap_or("")
    }

    fn last_number(&self) -> usize {
        self.numbers.last().copied().unwrap_or(1)
    }
}

impl Margin {
    fn snippets<'a>(
        &self,
        source: &'a dyn SourceCode,
        labels: &'a [LabeledSpan],
    ) -> Vec<Snippet<'a>> {
        let mut snippets: Vec<Snippet<'a>> = Vec::new();
        for (index, label) in labels.iter().enumerate() {
            let Ok(contents) = source.read_span(label.inner(), 1, 0) else {
                continue;
            };
            let start = label.offset().saturating_sub(contents.span().offset());
            let before = contents.data().get(..start).unwrap_or_default();
            let mark = Mark {
                start,
                length: label.len(),
                line: before.split(|byte| *byte == b'\n').count() - 1,
                words: label.label().unwrap_or(""),
                tone: self.tones.get(index).copied().unwrap_or(Tone::Note),
            };
            match snippets.last_mut() {
                Some(last) if last.contents.span() == contents.span() => last.marks.push(mark),
                _ => snippets.push(Snippet {
                    numbers: self.numbers(contents.as_ref()),
                    contents,
                    marks: vec![mark],
                }),
            }
        }
        snippets
    }

    fn numbers(&self, contents: &dyn SpanContents<'_>) -> Vec<usize> {
        let mut start = contents.span().offset();
        let mut number = contents.line();
        let rows = contents.data().split_inclusive(|byte| *byte == b'\n');
        rows.map(|row| {
            if !self.again.contains(&start) {
                number += 1;
            }
            start += row.len();
            number
        })
        .collect()
    }

    /// The file, and the numbers of the lines that are marked.
    fn head(&self, f: &mut fmt::Formatter<'_>, file: &[Snippet<'_>]) -> fmt::Result {
        let mut numbers: Vec<usize> = file
            .iter()
            .flat_map(|snippet| {
                let marks = snippet.marks.iter();
                marks.filter_map(|mark| snippet.numbers.get(mark.line).copied())
            })
            .collect();
        numbers.dedup();
        let shown: Vec<String> = numbers.iter().map(usize::to_string).collect();
        let lines = match shown.as_slice() {
            [] => String::new(),
            [first] => format!(", line {first}"),
            more if more.len() <= MOST_NAMED => format!(", lines {}", and_list(more)),
            [first, ..] => format!(", from line {first}"),
        };
        let name = file.first().and_then(|snippet| snippet.contents.name());
        let room = self.look.columns().saturating_sub(INDENT + lines.len());
        let name = shortened(name.unwrap_or(""), room, self.look.ellipsis());
        let head = self.look.paint(&format!("{name}{lines}"), Tone::Quiet);
        writeln!(f, "{:INDENT$}{head}", "")
    }

    fn lines(
        &self,
        f: &mut fmt::Formatter<'_>,
        snippet: &Snippet<'_>,
        digits: usize,
    ) -> fmt::Result {
        let mut start = 0;
        let mut before = None;
        for (index, line) in snippet.text().lines().enumerate() {
            let marks: Vec<&Mark<'_>> = snippet
                .marks
                .iter()
                .filter(|mark| mark.line == index)
                .collect();
            let tone = if marks.is_empty() {
                Tone::Quiet
            } else {
                Tone::Plain
            };
            let number = snippet.numbers.get(index).copied();
            let shown = number.filter(|_| number != before);
            let shown = shown.map_or_else(String::new, |number| number.to_string());
            before = number;
            let number = format!("{shown:>digits$}");
            let number = self.look.paint(&number, Tone::Quiet);
            let shown = self.look.paint(line, tone);
            let whole = format!("{:INDENT$}{number}{:GUTTER$}{shown}", "", "");
            writeln!(f, "{}", whole.trim_end())?;
            for mark in marks {
                let before = line.get(..mark.start.saturating_sub(start)).unwrap_or(line);
                let marked = line.get(before.len()..before.len() + mark.length);
                let length = display_width(marked.unwrap_or("")).max(1);
                self.mark(
                    f,
                    mark,
                    INDENT + digits + GUTTER,
                    display_width(before),
                    length,
                )?;
            }
            start += line.len() + 1;
        }
        Ok(())
    }

    /// Underlines a mark that begins `column` columns into the line, and says what is said of it.
    fn mark(
        &self,
        f: &mut fmt::Formatter<'_>,
        mark: &Mark<'_>,
        margin: usize,
        column: usize,
        length: usize,
    ) -> fmt::Result {
        let line = match self.look.drawing {
            Drawing::Ascii => "^",
            Drawing::Unicode => "‾",
        };
        let line = self.look.paint(&line.repeat(length), mark.tone);
        writeln!(f, "{:1$}{line}", "", margin + column)?;
        if mark.words.is_empty() {
            return Ok(());
        }
        let longest = mark.words.split(' ').map(display_width).max().unwrap_or(0);
        let wanted = display_width(mark.words).min(LABEL).max(longest);
        let columns = self.look.columns();
        let indent = (margin + column).min(columns.saturating_sub(wanted).max(INDENT));
        for words in wrap(mark.words, columns.saturating_sub(indent)) {
            let words = self.look.paint(&words, mark.tone);
            writeln!(f, "{:indent$}{words}", "")?;
        }
        Ok(())
    }
}

/// A path that keeps to a width: its end says most.
fn shortened(path: &str, width: usize, dots: &str) -> String {
    if display_width(path) <= width {
        return path.to_owned();
    }
    let room = width.saturating_sub(display_width(dots));
    let mut starts = path.char_indices().map(|(at, _)| at);
    let tail = starts
        .find_map(|at| path.get(at..).filter(|tail| display_width(tail) <= room))
        .unwrap_or("");
    format!("{dots}{tail}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_path_keeps_its_end() {
        assert_eq!(shortened("a/b.yaml", 20, "…"), "a/b.yaml");
        assert_eq!(shortened("very/long/b.yaml", 8, "…"), "…/b.yaml");
        assert_eq!(shortened("規則/規則.yaml", 9, "..."), "....yaml");
    }
}
