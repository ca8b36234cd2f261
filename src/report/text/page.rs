//! A page of text as it is written, line by line: headings, paragraphs, rows with a label.
//!
//! Everything that comes from a file is cleaned here, so that no ruleset can write escape sequences
//! to somebody's terminal.

use super::look::{Drawing, Look, Tone};
use textwrap::core::display_width;
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

/// Width of the labels at the left of rows.
const LABEL: usize = 14;
/// Below this width labels stand on a line of their own.
const NARROW: usize = 60;

pub(super) struct Page<'l> {
    pub(super) look: &'l Look,
    out: String,
}

impl<'l> Page<'l> {
    pub(super) fn new(look: &'l Look) -> Self {
        Page {
            look,
            out: String::new(),
        }
    }

    pub(super) fn finish(self) -> String {
        match self.look.drawing {
            Drawing::Unicode => self.out,
            // The only sign beyond ASCII that numbers have.
            Drawing::Ascii => self.out.replace('×', "x"),
        }
    }

    /// An empty line, unless there is one already.
    pub(super) fn gap(&mut self) {
        if !self.out.is_empty() && !self.out.ends_with("\n\n") {
            self.out.push('\n');
        }
    }

    /// Lines that are ready as they are.
    pub(super) fn raw(&mut self, lines: &str) {
        self.out.push_str(lines);
        if !lines.is_empty() && !lines.ends_with('\n') {
            self.out.push('\n');
        }
    }

    /// A title and a line to the right end.
    pub(super) fn heading(&mut self, title: &str, tone: Tone) {
        self.gap();
        let left = self.look.columns().saturating_sub(display_width(title) + 1);
        let rule = self.look.rule_line().repeat(left.min(72));
        let title = self.look.paint(title, tone);
        let rule = self.look.paint(&rule, Tone::Quiet);
        self.raw(&format!("{title} {rule}"));
        self.gap();
    }

    /// A paragraph, `indent` columns in.
    pub(super) fn paragraph(&mut self, indent: usize, words: &str, tone: Tone) {
        self.hanging(indent, "", Tone::Plain, words, tone);
    }

    /// A paragraph whose first line has `mark` at its left, the others hung below the words.
    pub(super) fn hanging(
        &mut self,
        indent: usize,
        mark: &str,
        mark_tone: Tone,
        words: &str,
        tone: Tone,
    ) {
        let hang = indent + display_width(mark);
        let margin = " ".repeat(indent);
        let below = " ".repeat(hang);
        let width = self.look.columns().saturating_sub(hang).max(12);
        let mut first = true;
        for paragraph in words.trim_end().split('\n') {
            for line in wrap(&clean(paragraph), width) {
                let line = self.look.paint(&line, tone);
                let start = if first {
                    format!("{margin}{}", self.look.paint(mark, mark_tone))
                } else {
                    below.clone()
                };
                first = false;
                self.out.push_str(format!("{start}{line}").trim_end());
                self.out.push('\n');
            }
        }
    }

    /// A row: a label at the left, words beside it, or below it where the page is narrow.
    pub(super) fn row(&mut self, indent: usize, label: &str, words: &str, tone: Tone) {
        self.row_lines(indent, label, &[(words.to_owned(), tone)]);
    }

    /// A row of several paragraphs.
    pub(super) fn row_lines(&mut self, indent: usize, label: &str, lines: &[(String, Tone)]) {
        let wide = self.look.columns() >= NARROW;
        if !wide && !label.is_empty() {
            self.paragraph(indent, label, Tone::Strong);
        }
        for (index, (words, tone)) in lines.iter().enumerate() {
            if wide {
                let shown = if index == 0 { label } else { "" };
                let mark = match shown.len() {
                    LABEL.. => format!("{shown} "),
                    _ => format!("{shown:<LABEL$}"),
                };
                self.hanging(indent, &mark, Tone::Strong, words, *tone);
            } else {
                self.hanging(indent + 2, "", Tone::Plain, words, *tone);
            }
        }
    }
}

/// Wraps words to a width; never splits a word that fits on a line of its own.
pub(super) fn wrap(words: &str, width: usize) -> Vec<String> {
    let options = Options::new(width)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    let lines = textwrap::wrap(words, options);
    lines
        .into_iter()
        .map(std::borrow::Cow::into_owned)
        .collect()
}

/// The same words with a capital letter.
pub(in crate::report) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Takes out what would move the cursor, change colours or turn the direction of writing.
pub(super) fn clean(words: &str) -> String {
    let shown = words.chars().map(|letter| match letter {
        '\t' | '\n' | '\r' => ' ',
        _ if hidden(letter) => char::REPLACEMENT_CHARACTER,
        _ => letter,
    });
    shown.collect()
}

/// Whether a character controls a terminal or the direction of writing instead of being shown.
pub(in crate::report) fn hidden(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{200B}' | '\u{200E}' | '\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FEFF}')
}

#[cfg(test)]
mod tests {
    use super::super::look::{Colours, Detail, Drawing};
    use super::*;

    fn page(width: usize, write: impl FnOnce(&mut Page<'_>)) -> String {
        let look = Look {
            width,
            colours: Colours::None,
            drawing: Drawing::Ascii,
            detail: Detail::Digest,
        };
        let mut page = Page::new(&look);
        write(&mut page);
        page.finish()
    }

    #[test]
    fn rows_hang_beside_their_label_or_stand_below_it() {
        let row = |page: &mut Page<'_>| {
            page.row(2, "Whenever", "a is b and c is at least d", Tone::Plain);
        };
        assert_eq!(
            page(60, row),
            "  Whenever      a is b and c is at least d\n"
        );
        assert_eq!(
            page(30, row),
            "  Whenever\n    a is b and c is at least d\n"
        );
    }

    #[test]
    fn nothing_from_a_file_reaches_the_terminal_as_a_command() {
        let text = page(60, |page| {
            page.paragraph(0, "a\u{1b}[31mred\u{7}\u{202e}b\tc", Tone::Plain);
        });
        assert_eq!(text, "a\u{fffd}[31mred\u{fffd}\u{fffd}b c\n");
    }

    #[test]
    fn lines_keep_to_the_width_even_without_spaces() {
        let long = "無".repeat(50);
        let text = page(40, |page| page.paragraph(2, &long, Tone::Plain));
        assert!(text.lines().all(|line| display_width(line) <= 40), "{text}");
        assert_eq!(text.matches('無').count(), 50);
    }
}
