//! What is no YAML, in words for people who do not know YAML.
//!
//! The parser of YAML says what it did not find; a writer of rules needs to know what to write.

use super::yaml::span_of;
use crate::problem::Problem;
use crate::source::SourceId;

/// Tabs that stand for indentation, at most up to the byte where the text stopped being YAML.
///
/// `verbatim` are the places of quoted and block scalars, whose tabs belong to the words.
pub(super) fn tabs(
    text: &str,
    id: SourceId,
    verbatim: &[(usize, usize)],
    failed_at: Option<usize>,
) -> Vec<Problem> {
    let mut found = Vec::new();
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let indentation = line.len() - line.trim_start_matches([' ', '\t']).len();
        let content = line.get(indentation..).unwrap_or_default();
        let blank = content.trim_end().is_empty() || content.starts_with('#');
        let tab = line.get(..indentation).and_then(|blanks| blanks.find('\t'));
        // The parser may stop at the end of the line, or just past it.
        let reached = failed_at.is_none_or(|failed| start <= failed);
        if let Some(tab) = tab
            && !blank
            && reached
        {
            let at = start + tab;
            let inside = verbatim.partition_point(|(opens, _)| *opens <= at);
            let part_of_words = inside
                .checked_sub(1)
                .and_then(|index| verbatim.get(index))
                .is_some_and(|(_, closes)| at < *closes);
            if !part_of_words {
                found.push(
                    Problem::error(
                        span_of(id, at, start + indentation),
                        "a tab is used for indentation",
                        "indentation is made of spaces",
                    )
                    .help("replace the tab by spaces; most editors can do so for the whole file"),
                );
            }
        }
        start += line.len();
    }
    found
}

/// The problem at the place where a text stopped being YAML; `info` is what the parser said.
pub(super) fn fault(text: &str, id: SourceId, info: &str, at: usize) -> Problem {
    let (headline, label, help) = words(info);
    let (start, end) = match info {
        // The parser stops behind the text; its colon is what the writer can mend.
        "mapping values are not allowed in this context" | "illegal placement of ':' indicator" => {
            word_at(text, at)
        }
        "comment intercepting the multiline text" => comment_at(text, at),
        "plain scalar cannot start with '-' followed by ,[]{}" => (at, at + 1),
        _ => word_at(text, at),
    };
    let problem = Problem::error(span_of(id, start, end), headline, label);
    match help {
        "" => problem,
        help => problem.help(help),
    }
}

/// The word at a byte; at the end of a line or file, the last word before it.
fn word_at(text: &str, at: usize) -> (usize, usize) {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    let rest = text.get(at..).unwrap_or_default();
    let length = rest.find(char::is_whitespace).unwrap_or(rest.len());
    if length > 0 {
        return (at, at + length);
    }
    let before = text.get(..at).unwrap_or_default().trim_end();
    let start = before.rfind(char::is_whitespace).map_or(0, |space| {
        space
            + before
                .get(space..)
                .and_then(|rest| rest.chars().next())
                .map_or(1, char::len_utf8)
    });
    (start, before.len())
}

/// The comment that begins at a byte, to the end of its line.
fn comment_at(text: &str, at: usize) -> (usize, usize) {
    let rest = text.get(at..).unwrap_or_default();
    let line = rest.lines().next().unwrap_or_default().trim_end();
    if line.starts_with('#') {
        (at, at + line.len())
    } else {
        word_at(text, at)
    }
}

/// Headline, label and help for what the parser said.
fn words(info: &str) -> (String, &'static str, &'static str) {
    let quotes = "put the whole text in quotes: \"...\"";
    let said = |headline: &str, label, help| (headline.to_owned(), label, help);
    match info {
        "mapping values are not allowed in this context" | "illegal placement of ':' indicator" => {
            said(
                "a colon cuts a text in two",
                "a colon and a space end a key, and there is a key on this line already",
                "put the whole text in quotes: \"...\"; if this is meant as a key, put it on a line of its own",
            )
        }
        "while scanning a quoted scalar, found unexpected end of stream" => said(
            "a quoted text is never closed",
            "the quote that opens it",
            "close it with the same quote; write a `\"` inside `\"...\"` as `\\\"`, and a `'` inside `'...'` as `''`",
        ),
        "while scanning a quoted scalar, found unexpected document indicator" => said(
            "a quoted text is never closed",
            "the quote that opens it; a new document begins before it is closed",
            "close it with the same quote",
        ),
        "invalid trailing content after double-quoted scalar" => said(
            "something stands behind a quoted text",
            "the text ended at its closing quote",
            "put the whole text in quotes, and write quotes inside `\"...\"` as `\\\"`",
        ),
        "comment intercepting the multiline text" => said(
            "a `#` cuts a text short that goes on in the next line",
            "a comment from here on",
            quotes,
        ),
        "while parsing a flow mapping, did not find expected ',' or '}'" => said(
            "a `{` is not closed, or something stands between its items",
            "expected `,` or `}`",
            "close it with `}`; put texts with brackets, commas or colons in quotes",
        ),
        "while parsing a flow sequence, expected ',' or ']'" => said(
            "a `[` is not closed, or something stands between its items",
            "expected `,` or `]`",
            "close it with `]`; put texts with brackets, commas or colons in quotes",
        ),
        "plain scalar cannot start with '-' followed by ,[]{}" => said(
            "a `-` stands alone inside brackets",
            "YAML keeps a lone dash for itself here",
            "put it in quotes: `\"-\"`",
        ),
        "misplaced bracket" => said(
            "a closing bracket has no opening one",
            "nothing is open here",
            "delete it; if it belongs to a text, put the text in quotes",
        ),
        "while parsing node, found unknown anchor" => said(
            "an alias stands for nothing",
            "no anchor of this name stands before it",
            "if the `*` belongs to the text, put the text in quotes",
        ),
        "while scanning an anchor or alias, did not find expected alphabetic or numeric character" => {
            said(
                "a text begins with `*` or `&`, which YAML keeps for itself",
                "expected a name behind it",
                quotes,
            )
        }
        "while parsing a quoted scalar, found unknown escape character"
        | "while parsing a quoted scalar, did not find expected hexadecimal number"
        | "while parsing a quoted scalar, found invalid Unicode character escape code" => said(
            "a backslash in a quoted text is followed by something unknown",
            "a text with a backslash that stands for nothing",
            "write the backslash twice (`\\\\`), or use single quotes: '...'",
        ),
        "while parsing a block mapping, did not find expected key" => said(
            "a line stands where a key was expected",
            "expected `key: value`, in line with the keys above",
            "check the indentation of this line; a text that goes on in the next line is indented further than its key",
        ),
        "simple key expect ':'" | "simple key expected" => said(
            "a line has no colon behind its key",
            "expected `key: value`",
            "write a colon and a space behind the key; a text that goes on in the next line is indented further than its key",
        ),
        "while parsing a block collection, did not find expected '-' indicator" => said(
            "a line stands where an item of a list was expected",
            "expected `- `, in line with the items above",
            "check the indentation of this line",
        ),
        "block sequence entries are not allowed in this context" => said(
            "an item of a list stands where none can stand",
            "a `- ` cannot follow on the same line",
            "put the item on a line of its own; if the dash belongs to a text, put the text in quotes",
        ),
        "mapping keys are not allowed in this context" => said(
            "a `?` stands where YAML keeps it for itself",
            "not expected here",
            quotes,
        ),
        "invalid indentation"
        | "invalid indentation in quoted scalar"
        | "invalid indentation in flow construct"
        | "invalid indentation for anchor"
        | "wrongly indented line in block scalar" => said(
            "a line is indented in a way that fits nothing above it",
            "indented too little or too much",
            "bring it in line with what it belongs to",
        ),
        "while scanning a block scalar, did not find expected comment or line break"
        | "while scanning a block scalar, found an indentation indicator equal to 0" => said(
            "a text begins with `|` or `>`, which YAML keeps for a block of lines",
            "expected the end of the line behind it",
            quotes,
        ),
        "missing explicit document end marker before directive"
        | "while scanning a directive, could not find expected directive name"
        | "while scanning a directive, found unexpected non-alphabetical character"
        | "while scanning a directive, did not find expected comment or line break" => said(
            "a line begins with `%`, which YAML keeps for itself",
            "not expected here",
            quotes,
        ),
        "comments must be separated from other tokens by whitespace" => said(
            "a `#` stands glued to what is before it",
            "a comment needs a space before its `#`",
            "write a space before the `#`; if it belongs to a text, put the text in quotes",
        ),
        "while parsing a node, did not find expected node content"
        | "unexpected end of plain scalar" => said(
            "a value was expected and something else stands there",
            "expected words, a list or keys",
            "if it belongs to a text, put the text in quotes",
        ),
        _ if info.starts_with("unexpected character") => said(
            "a text begins with a character that YAML keeps for itself",
            "cannot open a text without quotes",
            quotes,
        ),
        _ if info.contains("tag") || info.contains("TAG") => said(
            "a text begins with `!`, which YAML keeps for itself",
            "read as a YAML tag, and it is none",
            quotes,
        ),
        _ => (
            format!("the file is no YAML here: {info}"),
            "cannot be read",
            "check indentation, brackets and quotes around this place",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::word_at;

    #[test]
    fn a_place_at_the_end_of_a_line_is_the_last_word_before_it() {
        let text = "a: één\n\n";
        for (at, words) in [(0, "a:"), (3, "één"), (8, "één"), (9, "één"), (99, "één")] {
            let (start, end) = word_at(text, at);
            assert_eq!(text.get(start..end), Some(words), "at {at}");
        }
        assert_eq!(word_at("", 0), (0, 0));
    }
}
