//! Lines of a file with words underlined, made safe to draw.
//!
//! What is drawn is never the file itself: lines are clipped around the underlined words, tabs and
//! control characters replaced, spans of several lines cut to the first. An excerpt is then handed
//! on as miette's labelled spans over a source.

use super::look::{Look, Tone};
use super::margin::{self, Drawn, Margin};
use super::page::{clean, hidden};
use crate::source::{Source, SourceId, Sources, Span};
use miette::{
    Diagnostic, LabeledSpan, MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents,
};
use std::fmt;
use textwrap::core::display_width;

/// The most places that one excerpt underlines; the rest are named below it.
const MOST_MARKS: usize = 8;
/// Columns that a label should have beside it before the line is moved to the left for it.
const LABEL_ROOM: usize = 28;
/// How much of a line stays before underlined words where it is clipped.
const LEAD: usize = 16;

/// Columns for what stands where a line was clipped.
const DOTS: usize = 3;

/// Words to be underlined, and what is said under them.
#[derive(Clone, Debug)]
pub(super) struct Mark<'a> {
    pub(super) span: Span,
    pub(super) label: &'a str,
    /// The colour; the one mark that is not quiet is the primary one.
    pub(super) tone: Tone,
}

/// Draws the marked words with the lines they stand in. The first mark is the primary one.
pub(super) fn excerpt(sources: &Sources, marks: &[Mark<'_>], look: &Look) -> String {
    let shown = marks.get(..MOST_MARKS).unwrap_or(marks);
    let mut placed: Vec<Placed> = shown
        .iter()
        .enumerate()
        .filter_map(|(index, mark)| Placed::new(sources, mark, index == 0))
        .collect();
    placed.sort_by_key(|mark| (mark.source, mark.line, mark.start, !mark.primary));
    let placed = merged(placed);
    let canvas = Canvas::new(sources, &placed, look);
    let mut drawn = canvas.draw(look);
    for mark in marks.get(MOST_MARKS..).unwrap_or_default().iter().take(40) {
        let place = sources.place(mark.span);
        let words = format!("line {}: {}", place.position.line.0, clean(mark.label));
        drawn.push_str(&margin::beside(look, &words));
    }
    drawn
}

/// A mark on one line of a file.
#[derive(Clone, Debug)]
struct Placed {
    source: SourceId,
    /// Line, from zero.
    line: usize,
    /// First byte within the line.
    start: usize,
    /// One past the last byte within the line.
    end: usize,
    label: String,
    tone: Tone,
    primary: bool,
}

impl Placed {
    fn new(sources: &Sources, mark: &Mark<'_>, primary: bool) -> Option<Placed> {
        let source = sources.get(mark.span.source)?;
        let text = source.text();
        let mut start = boundary(text, mark.span.start as usize);
        let mut end = boundary(text, mark.span.end as usize).max(start);
        if start == end && start == text.len() && text.ends_with('\n') {
            // Past the last line: underline just behind it.
            start = text.trim_end_matches(['\n', '\r']).len();
            end = start;
        }
        let line_start = text.get(..start)?.rfind('\n').map_or(0, |at| at + 1);
        let line_end = line_start + line_length(text.get(line_start..)?);
        end = end.min(line_end.max(start));
        let words = text.get(start..end)?;
        end = start + words.trim_end().len();
        let line = text.get(..line_start)?.matches('\n').count();
        Some(Placed {
            source: mark.span.source,
            line,
            start: start - line_start,
            end: end - line_start,
            label: clean(mark.label),
            tone: mark.tone,
            primary,
        })
    }
}

/// Bytes of the first line, without its end.
fn line_length(text: &str) -> usize {
    text.find('\n').map_or(text.len(), |end| {
        text.get(..end)
            .map_or(end, |line| line.trim_end_matches('\r').len())
    })
}

/// The nearest character boundary at or before a byte.
fn boundary(text: &str, byte: usize) -> usize {
    let byte = byte.min(text.len());
    (0..=byte)
        .rev()
        .find(|at| text.is_char_boundary(*at))
        .unwrap_or(0)
}

/// Marks that overlap on a line become one, with both labels.
fn merged(placed: Vec<Placed>) -> Vec<Placed> {
    let mut kept: Vec<Placed> = Vec::new();
    for mark in placed {
        match kept.last_mut() {
            Some(last)
                if (last.source, last.line) == (mark.source, mark.line)
                    && (mark.start < last.end || mark.start == last.start) =>
            {
                if !mark.label.is_empty() && last.label != mark.label {
                    if !last.label.is_empty() {
                        last.label.push_str("; ");
                    }
                    last.label.push_str(&mark.label);
                }
                last.end = last.end.max(mark.end);
                if mark.primary {
                    last.primary = true;
                    last.tone = mark.tone;
                }
            }
            _ => kept.push(mark),
        }
    }
    kept
}

/// What is handed on: lines laid end to end, with what is underlined in them.
#[derive(Debug)]
struct Canvas {
    text: String,
    snippets: Vec<Snippet>,
    labels: Vec<Label>,
    /// Where rows begin that show more of the line before them.
    again: Vec<usize>,
}

#[derive(Debug)]
struct Snippet {
    name: String,
    /// Number of the first line, from zero.
    first_line: usize,
    lines: usize,
    start: usize,
    end: usize,
}

#[derive(Debug)]
struct Label {
    start: usize,
    length: usize,
    words: String,
    tone: Tone,
    primary: bool,
}

impl Canvas {
    fn new(sources: &Sources, placed: &[Placed], look: &Look) -> Canvas {
        let mut canvas = Canvas {
            text: String::new(),
            snippets: Vec::new(),
            labels: Vec::new(),
            again: Vec::new(),
        };
        let together =
            |one: &Placed, next: &Placed| one.source == next.source && next.line <= one.line + 3;
        let last_number = placed.iter().map(|mark| mark.line + 1).max();
        let room = margin::room(look, last_number.unwrap_or(1));
        for group in placed.chunk_by(together) {
            if let Some(source) = group.first().and_then(|mark| sources.get(mark.source)) {
                canvas.add(source, group, room, look);
            }
        }
        canvas
    }

    /// Adds the lines of a group of marks, with the line before them.
    fn add(&mut self, source: &Source, group: &[Placed], room: usize, look: &Look) {
        let (Some(first), Some(last)) = (group.first(), group.last()) else {
            return;
        };
        let first_line = first.line.saturating_sub(1);
        let last_line = last.line;
        let start = self.text.len();
        let mut lines = 0;
        let mut rows = 0;
        let text_lines = source.text().split('\n').enumerate();
        for (number, line) in text_lines.skip(first_line).take(last_line + 1 - first_line) {
            let line = line.trim_end_matches('\r');
            let marks: Vec<&Placed> = group.iter().filter(|mark| mark.line == number).collect();
            if number < first.line && line.trim().is_empty() {
                continue;
            }
            for (index, marks) in windows(line, &marks, room).into_iter().enumerate() {
                if index > 0 {
                    self.again.push(self.text.len());
                }
                self.add_line(line, marks, room, look);
                rows += 1;
            }
            lines += 1;
        }
        self.snippets.push(Snippet {
            name: clean(source.name()),
            first_line: last_line + 1 - lines,
            lines: rows,
            start,
            end: self.text.len(),
        });
    }

    /// Adds one line, clipped to `room` columns around its marks.
    fn add_line(&mut self, line: &str, marks: &[&Placed], room: usize, look: &Look) {
        let letters: Vec<Letter> = letters(line);
        let total: usize = letters.iter().map(|letter| letter.width).sum();
        let column = |byte: usize| -> usize {
            let before = letters.iter().take_while(|letter| letter.byte < byte);
            before.map(|letter| letter.width).sum()
        };
        let last = marks.last().map_or(0, |mark| column(mark.end));
        let skip = marks.first().map_or(0, |mark| {
            let (from, to) = (column(mark.start), column(mark.end).max(last));
            let wanted = display_width(&mark.label).min(LABEL_ROOM);
            let for_label = (from + wanted).saturating_sub(room);
            let for_words = (to.min(from + room) + DOTS).saturating_sub(room);
            for_label
                .max(for_words)
                .min(from.saturating_sub(LEAD.min(room / 4)))
        });
        let dots = look.ellipsis();
        let base = self.text.len();
        let mut shown = String::new();
        let mut seen = 0;
        let mut used = 0;
        // Where each byte of the line has ended up in what is shown.
        let mut map: Vec<(usize, usize)> = Vec::new();
        if skip > 0 {
            shown.push_str(dots);
            used += display_width(dots);
        }
        let limit = if total.saturating_sub(skip) + used > room {
            room.saturating_sub(display_width(dots))
        } else {
            room
        };
        let mut cut = false;
        for letter in &letters {
            if seen < skip {
                seen += letter.width;
                map.push((letter.byte, shown.len()));
                continue;
            }
            if used + letter.width > limit {
                cut = true;
            }
            map.push((letter.byte, shown.len()));
            if !cut {
                used += letter.width;
                shown.push_str(&letter.shown);
            }
        }
        map.push((line.len(), shown.len()));
        if cut {
            shown.push_str(dots);
        }
        let place = |byte: usize| {
            map.iter()
                .find(|(from, _)| *from >= byte)
                .map_or(shown.len(), |(_, to)| *to)
        };
        for mark in marks {
            let (start, end) = (place(mark.start), place(mark.end));
            self.labels.push(Label {
                start: base + start,
                length: end - start,
                words: mark.label.clone(),
                tone: mark.tone,
                primary: mark.primary,
            });
        }
        self.text.push_str(&shown);
        self.text.push('\n');
    }

    fn draw(&self, look: &Look) -> String {
        let margin = Margin {
            look: *look,
            tones: self.labels.iter().map(|label| label.tone).collect(),
            again: self.again.clone(),
        };
        Drawn(&margin, self).to_string()
    }
}

/// The marks of a line, parted so that those of each part can be seen together: a line that is too
/// long for the page is shown once for each.
fn windows<'m, 'p>(line: &str, marks: &'m [&'p Placed], room: usize) -> Vec<&'m [&'p Placed]> {
    let width = |to: usize| display_width(line.get(..to).unwrap_or(line));
    if marks.len() < 2 || display_width(line) <= room {
        return vec![marks];
    }
    // What stands before the first mark, and the dots at both ends.
    let seen = room.saturating_sub(LEAD.min(room / 4) + 2 * DOTS);
    let mut parts = Vec::new();
    let mut from = 0;
    for at in 1..=marks.len() {
        let start = marks.get(from).map_or(0, |mark| width(mark.start));
        let together = marks
            .get(at)
            .is_some_and(|mark| width(mark.end) <= (start + seen).max(room.saturating_sub(DOTS)));
        if !together {
            parts.extend(marks.get(from..at));
            from = at;
        }
    }
    parts
}

/// A character of a line as it is shown.
struct Letter {
    byte: usize,
    shown: String,
    width: usize,
}

fn letters(line: &str) -> Vec<Letter> {
    line.char_indices()
        .map(|(byte, letter)| {
            let shown = match letter {
                '\t' => "    ".to_owned(),
                _ if hidden(letter) => char::REPLACEMENT_CHARACTER.to_string(),
                _ => letter.to_string(),
            };
            let width = display_width(&shown);
            Letter { byte, shown, width }
        })
        .collect()
}

impl fmt::Display for Canvas {
    fn fmt(&self, _: &mut fmt::Formatter<'_>) -> fmt::Result {
        Ok(())
    }
}

impl std::error::Error for Canvas {}

impl Diagnostic for Canvas {
    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(self)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let labels = self.labels.iter().map(|label| {
            let words = (!label.words.is_empty()).then(|| label.words.clone());
            let span = SourceSpan::new(label.start.into(), label.length);
            if label.primary {
                LabeledSpan::new_primary_with_span(words, span)
            } else {
                LabeledSpan::new_with_span(words, span)
            }
        });
        Some(Box::new(labels))
    }
}

impl SourceCode for Canvas {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        _: usize,
        _: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let (start, end) = (span.offset(), span.offset() + span.len());
        let snippet = self
            .snippets
            .iter()
            .find(|snippet| snippet.start <= start && end <= snippet.end && start < snippet.end)
            .ok_or(MietteError::OutOfBounds)?;
        let data = self
            .text
            .as_bytes()
            .get(snippet.start..snippet.end)
            .ok_or(MietteError::OutOfBounds)?;
        Ok(Box::new(MietteSpanContents::new_named(
            snippet.name.clone(),
            data,
            SourceSpan::new(snippet.start.into(), snippet.end - snippet.start),
            snippet.first_line,
            0,
            snippet.lines,
        )))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::super::look::{Colours, Detail, Drawing};
    use super::*;

    /// Draws a text in which `[` and `]` stand around the marked words.
    fn drawn(marked: &str, width: usize, drawing: Drawing) -> String {
        let mut text = String::new();
        let mut spans: Vec<(u32, u32)> = Vec::new();
        let mut open = 0;
        for letter in marked.chars() {
            let at = u32::try_from(text.len()).unwrap();
            match letter {
                '[' => open = at,
                ']' => spans.push((open, at)),
                _ => text.push(letter),
            }
        }
        let mut sources = Sources::default();
        let source = sources.add(Source::new("a.yaml", text));
        let marks: Vec<Mark<'_>> = spans
            .iter()
            .map(|(start, end)| Mark {
                span: Span {
                    source,
                    start: *start,
                    end: *end,
                },
                label: "what is said",
                tone: Tone::Fault,
            })
            .collect();
        let look = Look {
            width,
            colours: Colours::None,
            drawing,
            detail: Detail::Digest,
        };
        excerpt(&sources, &marks, &look)
    }

    #[test]
    fn words_are_underlined_below_the_line_before_them() {
        let shown = drawn("one\ntwo [three] four\nfive\nsix\n", 60, Drawing::Ascii);
        let expected = "   a.yaml, line 2
   1   one
   2   two three four
           ^^^^^
           what is said
";
        assert_eq!(shown, expected);
    }

    #[test]
    fn what_lies_between_distant_places_is_left_out() {
        let shown = drawn("[one]\n\n\n\n\n\n\n\n\n\n[two]\n", 60, Drawing::Unicode);
        let expected = "   a.yaml, lines 1 and 11
    1   one
        ‾‾‾
        what is said
    ⋮
   11   two
        ‾‾‾
        what is said
";
        assert_eq!(shown, expected);
    }

    #[test]
    fn labels_keep_to_the_width_and_words_stay_whole() {
        let line = format!("{}[here]\n", "before ".repeat(20));
        for width in [30, 50] {
            let shown = drawn(&line, width, Drawing::Ascii);
            assert!(
                shown.lines().all(|line| display_width(line) <= width),
                "{shown}"
            );
            assert!(
                shown.contains("here") && shown.contains("what is said"),
                "{shown}"
            );
        }
    }

    #[test]
    fn a_place_at_the_end_of_the_file_is_shown_behind_the_last_line() {
        for text in ["a: b\n[]", "a: b[]", "a: b[]\n", "[]", "\n[]", "a: b\r\n[]"] {
            let shown = drawn(text, 60, Drawing::Ascii);
            assert!(shown.contains("what is said"), "{text:?}: {shown}");
        }
    }

    #[test]
    fn long_lines_are_clipped_around_the_words() {
        let long = format!(
            "{}[here]{}\n",
            "before ".repeat(3000),
            " after".repeat(3000)
        );
        let shown = drawn(&long, 50, Drawing::Unicode);
        assert!(
            shown.contains("here") && shown.contains("what is said"),
            "{shown}"
        );
        assert!(
            shown.lines().all(|line| display_width(line) <= 50),
            "{shown}"
        );
        assert!(shown.contains('…'), "{shown}");
    }

    #[test]
    fn a_long_line_is_shown_again_for_marks_that_no_row_holds_together() {
        let far = format!(
            "[one] [two] {}[three]{}\nfour\n[five]\n",
            "before ".repeat(20),
            " after".repeat(20)
        );
        let shown = drawn(&far, 40, Drawing::Ascii);
        let rows: Vec<&str> = shown
            .lines()
            .filter(|row| !row.contains('^') && !row.contains("said"))
            .collect();
        let [head, first, again, next, last] = rows.as_slice() else {
            unreachable!("{shown}");
        };
        assert_eq!(*head, "   a.yaml, lines 1 and 3");
        assert!(first.starts_with("   1   one two before"), "{shown}");
        assert!(
            again.starts_with("       ...") && again.contains(" three "),
            "{shown}"
        );
        assert_eq!((*next, *last), ("   2   four", "   3   five"));
        assert_eq!(shown.matches('^').count(), 3 + 3 + 5 + 4, "{shown}");
        assert!(shown.lines().all(|row| display_width(row) <= 40), "{shown}");
    }

    #[test]
    fn tabs_wide_letters_and_commands_are_drawn_safely() {
        let shown = drawn("\t技術[柔道]\u{1b}[31m\n", 60, Drawing::Ascii);
        assert!(
            !shown.contains('\u{1b}') && !shown.contains('\t'),
            "{shown}"
        );
        let under = shown.lines().find(|line| line.contains('^')).unwrap();
        assert!(under.ends_with(" ^^^^"), "{shown}");
        let words = shown.lines().find(|line| line.contains("柔道")).unwrap();
        let before = words.split('柔').next().unwrap();
        assert_eq!(display_width(before), under.find('^').unwrap(), "{shown}");
    }

    #[test]
    fn several_lines_are_cut_to_the_first_and_overlaps_joined() {
        let shown = drawn("a: [b\n   c\n   d]\n", 60, Drawing::Ascii);
        assert_eq!(shown.matches("what is said").count(), 1, "{shown}");
        let mut sources = Sources::default();
        let source = sources.add(Source::new("a", "one two three"));
        let mark = |start, end, label| Mark {
            span: Span { source, start, end },
            label,
            tone: Tone::Note,
        };
        let look = Look {
            width: 60,
            colours: Colours::Ansi,
            drawing: Drawing::Unicode,
            detail: Detail::Digest,
        };
        let shown = excerpt(
            &sources,
            &[mark(4, 7, "x"), mark(0, 13, "y"), mark(4, 7, "x")],
            &look,
        );
        assert!(shown.contains("y; x"), "{shown}");
    }

    #[test]
    fn spans_that_are_no_spans_draw_what_can_be_drawn() {
        let mut sources = Sources::default();
        let source = sources.add(Source::new("a", "é\n"));
        for (start, end) in [(1, 2), (9, 3), (0, 99), (99, 99), (2, 3)] {
            let marks = [Mark {
                span: Span { source, start, end },
                label: "here",
                tone: Tone::Note,
            }];
            let look = Look {
                width: 40,
                colours: Colours::Ansi,
                drawing: Drawing::Unicode,
                detail: Detail::Digest,
            };
            assert!(
                excerpt(&sources, &marks, &look).contains("here"),
                "{start}..{end}"
            );
        }
    }
}
