//! Lines of a file with words underlined, and what is said of them.

use super::pieces::Piece;
use crate::source::{SourceId, Sources, Span};

/// A line of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct ExcerptLine {
    /// Its number, from one; the file's name stands before it where there are several files.
    pub(super) number: String,
    /// Its words.
    pub(super) runs: Vec<Run>,
    /// What is said of its marked words.
    pub(super) said: Vec<Vec<Piece>>,
    /// Whether lines are left out before it.
    pub(super) after_gap: bool,
}

/// Some words of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Run {
    /// The words.
    pub(super) words: String,
    /// Whether they are underlined.
    pub(super) marked: bool,
}

/// More lines than this are not shown, and a line no longer than this: a finding is not a file.
const MOST_LINES: usize = 12;
const MOST_LETTERS: usize = 600;

struct Mark<'a> {
    source: SourceId,
    line: u32,
    /// Bytes of the whole file.
    start: usize,
    end: usize,
    said: &'a str,
}

/// The lines that labels point at, in the order of the files, and how many labels are not shown.
pub(super) fn excerpt(sources: &Sources, labels: &[(Span, String)]) -> (Vec<ExcerptLine>, usize) {
    let mut marks: Vec<Mark<'_>> = labels
        .iter()
        .filter_map(|(span, said)| {
            let source = sources.get(span.source)?;
            let text = source.text();
            let start = span.start as usize;
            let rest = text.get(start..span.end as usize)?;
            let shown = rest.lines().next().unwrap_or("");
            Some(Mark {
                source: span.source,
                line: source.position(span.start).line.0.get(),
                start,
                end: start + shown.trim_end().len(),
                said,
            })
        })
        .collect();
    marks.sort_by_key(|mark| (mark.source, mark.start, mark.end));
    let several = sources.ids().nth(1).is_some();
    let mut lines: Vec<ExcerptLine> = Vec::new();
    let mut shown = 0;
    let mut before: Option<(SourceId, u32)> = None;
    while let Some(first) = marks.get(shown) {
        if lines.len() == MOST_LINES {
            break;
        }
        let here = (first.source, first.line);
        let of_line = marks.iter().skip(shown);
        let of_line: Vec<&Mark<'_>> = of_line
            .take_while(|mark| (mark.source, mark.line) == here)
            .collect();
        shown += of_line.len();
        let next = before.map(|(source, line)| (source, line.saturating_add(1)));
        lines.push(ExcerptLine {
            after_gap: before.is_some() && next != Some(here),
            number: number(sources, here, several),
            runs: runs(sources, &of_line),
            said: of_line
                .iter()
                .filter(|mark| !mark.said.is_empty())
                .map(|mark| Piece::told(mark.said))
                .collect(),
        });
        before = Some(here);
    }
    (lines, marks.len() - shown)
}

fn number(sources: &Sources, (source, line): (SourceId, u32), several: bool) -> String {
    match sources.get(source).filter(|_| several) {
        Some(source) => format!("{}:{line}", source.name()),
        None => line.to_string(),
    }
}

/// The words of a line, cut where marks begin and end; marks that overlap become one.
fn runs(sources: &Sources, marks: &[&Mark<'_>]) -> Vec<Run> {
    let Some(first) = marks.first() else {
        return Vec::new();
    };
    let text = sources.get(first.source).map_or("", |source| source.text());
    let start = text
        .get(..first.start)
        .and_then(|before| before.rfind('\n'))
        .map_or(0, |at| at + 1);
    let length = text
        .get(start..)
        .map_or(0, |rest| rest.lines().next().unwrap_or("").len());
    let mut runs = Vec::new();
    let mut push = |from: usize, to: usize, marked: bool| {
        if let Some(words) = text.get(from..to).filter(|words| !words.is_empty()) {
            runs.push(Run {
                words: clipped(words),
                marked,
            });
        }
    };
    let mut at = start;
    for mark in marks {
        push(at, mark.start, false);
        push(mark.start.max(at), mark.end, true);
        at = at.max(mark.end);
    }
    push(at, start + length, false);
    runs
}

fn clipped(words: &str) -> String {
    match words.char_indices().nth(MOST_LETTERS) {
        None => words.to_owned(),
        Some((at, _)) => format!("{} …", words.get(..at).unwrap_or("")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Source;

    #[test]
    fn marked_words_are_exactly_those_of_their_spans() {
        let mut sources = Sources::default();
        let id = sources.add(Source::new("a.yaml", "één: x\ntwo: <b>\nthree: 'y'\n"));
        let text = "één: x\ntwo: <b>\nthree: 'y'\n";
        let span = |words: &str| {
            let start = text.find(words).unwrap_or(0);
            Span {
                source: id,
                start: u32::try_from(start).unwrap_or(0),
                end: u32::try_from(start + words.len()).unwrap_or(0),
            }
        };
        let labels = vec![
            (span("'y'"), "last".to_owned()),
            (span("<b>"), "second".to_owned()),
            (span("two"), String::new()),
        ];
        let (lines, left) = excerpt(&sources, &labels);
        assert_eq!(left, 0);
        let marked: Vec<Vec<&str>> = lines
            .iter()
            .map(|line| {
                let marked = line.runs.iter().filter(|run| run.marked);
                marked.map(|run| run.words.as_str()).collect()
            })
            .collect();
        assert_eq!(marked, [vec!["two", "<b>"], vec!["'y'"]]);
        let whole: Vec<String> = lines
            .iter()
            .map(|line| line.runs.iter().map(|run| run.words.as_str()).collect())
            .collect();
        assert_eq!(whole, ["two: <b>", "three: 'y'"]);
        assert_eq!(lines[0].number, "2");
        assert_eq!(lines[1].said, [[Piece::plain("last")]]);
        assert!(!lines[1].after_gap);
    }
}
