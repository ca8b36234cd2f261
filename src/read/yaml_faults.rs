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
    // What YAML misses as a key is text that goes on behind a bracket.
    let info = match info {
        "while parsing a block mapping, did not find expected key" if behind_bracket(text, at) => {
            BEHIND_BRACKET
        }
        info => info,
    };
    if info == "mapping values are not allowed in this context"
        && let Some((start, end)) = key_without_colon(text, at)
    {
        let name = text.get(start..end).unwrap_or_default();
        return Problem::error(
            span_of(id, start, end),
            format!("the colon is missing behind `{name}`"),
            "expected a colon behind this",
        )
        .help(format!("write `{name}:`"));
    }
    if let Some((start, end)) = quote_left_open(text, at) {
        let (headline, label, help) = words(NEVER_CLOSED);
        return Problem::error(span_of(id, start, end), headline, label).help(help);
    }
    let (headline, label, help) = words(info);
    let (start, end) = match info {
        // The parser stops behind the text; its colon is what the writer can mend.
        "mapping values are not allowed in this context" | "illegal placement of ':' indicator" => {
            word_at(text, at)
        }
        "comment intercepting the multiline text" => comment_at(text, at),
        "plain scalar cannot start with '-' followed by ,[]{}" => (at, at + 1),
        // The parser stops where the next line begins.
        "simple key expect ':'" | "simple key expected" => line_before(text, at),
        _ => word_at(text, at),
    };
    Problem::error(span_of(id, start, end), headline, label).help(help)
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

/// The lone word that a line above the colon at a byte consists of, where that colon is the first of
/// its line: a name that lacks its own.
fn key_without_colon(text: &str, at: usize) -> Option<(usize, usize)> {
    let line = text.get(..at)?.rfind('\n')?;
    let key = text.get(line + 1..at)?.trim();
    if key.is_empty() || key.contains(char::is_whitespace) || key.contains(':') {
        return None;
    }
    let (start, end) = line_before(text, line + 1);
    let word = text.get(start..end)?;
    let lone = !word.is_empty() && word.chars().all(super::lexer::names);
    lone.then_some((start, end))
}

/// The opening of a double-quoted text that runs on to the quote which was to open a later one, just
/// before a byte: what stands there was to be that text.
fn quote_left_open(text: &str, at: usize) -> Option<(usize, usize)> {
    const OPENS: [&str; 5] = [": ", "- ", ", ", "[", "{"];
    let begins = |quote: usize| {
        let before = text.get(..quote)?;
        Some(OPENS.iter().any(|opens| before.ends_with(opens)))
    };
    let before = text.get(..at)?;
    let closing = before.rfind('"')?;
    let glued = closing + 1 == at && !text.get(at..)?.starts_with(char::is_whitespace);
    if !(glued && begins(closing)?) {
        return None;
    }
    let opening = before.get(..closing)?.rfind('"')?;
    let opens = begins(opening)?;
    opens.then(|| word_at(text, opening))
}

/// Whether a closing bracket stands before a byte, on the same line.
fn behind_bracket(text: &str, at: usize) -> bool {
    let before = text.get(..at).unwrap_or_default();
    before.trim_end_matches([' ', '\t']).ends_with([']', '}'])
}

/// The last line with words above the one at a byte; where there is none, the word there.
fn line_before(text: &str, at: usize) -> (usize, usize) {
    let before = text.get(..at).unwrap_or_default();
    let above = before
        .rfind('\n')
        .and_then(|line| before.get(..line))
        .unwrap_or_default()
        .trim_end();
    let start = above.rfind('\n').map_or(0, |line| line + 1);
    let line = above.get(start..).unwrap_or_default();
    if line.trim().is_empty() {
        return word_at(text, at);
    }
    (start + line.len() - line.trim_start().len(), above.len())
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

/// What is said in place of what the parser says.
struct Fault {
    /// The parser's words.
    infos: &'static [&'static str],
    headline: &'static str,
    label: &'static str,
    help: &'static str,
}

const QUOTES: &str = "put the whole text in quotes: \"...\"";

/// Our own name for text behind a closing bracket, of which the parser says something else.
const BEHIND_BRACKET: &str = "behind a bracket";

/// What the parser says of a quote that nothing closes.
const NEVER_CLOSED: &str = "while scanning a quoted scalar, found unexpected end of stream";

const FAULTS: &[Fault] = &[
    Fault {
        infos: &[BEHIND_BRACKET],
        headline: "something stands behind a closing bracket",
        label: "the list or the keys ended at the bracket before it",
        help: "if all of this is one text that begins with a bracket, put it in quotes",
    },
    Fault {
        infos: &[
            "mapping values are not allowed in this context",
            "illegal placement of ':' indicator",
        ],
        headline: "a colon cuts a text in two",
        label: "a colon and a space end a key, and there is a key on this line already",
        help: "put the whole text in quotes: \"...\"; if this is meant as a key, put it on a line of its own, or in braces: `ruling: {penalty: none}`",
    },
    Fault {
        infos: &[NEVER_CLOSED],
        headline: "a quoted text is never closed",
        label: "the quote that opens it",
        help: "close it with the same quote; write a `\"` inside `\"...\"` as `\\\"`, and a `'` inside `'...'` as `''`",
    },
    Fault {
        infos: &[
            "while scanning a quoted scalar, found unexpected document indicator",
            "invalid indentation in quoted scalar",
        ],
        headline: "a quoted text is never closed",
        label: "its lines go on, and come back to the left before it is closed",
        help: "close it with the same quote; lines of a quoted text are indented further than its key",
    },
    Fault {
        infos: &["invalid trailing content after double-quoted scalar"],
        headline: "something stands behind a quoted text",
        label: "the text ended at its closing quote",
        help: "put the whole text in quotes, and write quotes inside `\"...\"` as `\\\"`",
    },
    Fault {
        infos: &["comment intercepting the multiline text"],
        headline: "a `#` cuts a text short that goes on in the next line",
        label: "a comment from here on",
        help: QUOTES,
    },
    Fault {
        infos: &["while parsing a flow mapping, did not find expected ',' or '}'"],
        headline: "a `{` is not closed, or something stands between its items",
        label: "expected `,` or `}`",
        help: "close it with `}`; put texts with brackets, commas or colons in quotes",
    },
    Fault {
        infos: &["while parsing a flow sequence, expected ',' or ']'"],
        headline: "a `[` is not closed, or something stands between its items",
        label: "expected `,` or `]`",
        help: "close it with `]`; put texts with brackets, commas or colons in quotes",
    },
    Fault {
        infos: &["plain scalar cannot start with '-' followed by ,[]{}"],
        headline: "a `-` stands alone inside brackets",
        label: "YAML keeps a lone dash for itself here",
        help: "put it in quotes: `\"-\"`",
    },
    Fault {
        infos: &[
            "invalid indentation",
            "invalid indentation in flow construct",
        ],
        headline: "a `[` or `{` above this line is never closed",
        label: "still inside the bracket here",
        help: "close it with `]` or `}` where it ends; lines inside brackets are indented further than their key",
    },
    Fault {
        infos: &["misplaced bracket"],
        headline: "a closing bracket has no opening one",
        label: "nothing is open here",
        help: "delete it; if it belongs to a text, put the text in quotes",
    },
    Fault {
        infos: &["while parsing node, found unknown anchor"],
        headline: "an alias stands for nothing",
        label: "no anchor of this name stands before it",
        help: "if the `*` belongs to the text, put the text in quotes",
    },
    Fault {
        infos: &[
            "while scanning an anchor or alias, did not find expected alphabetic or numeric character",
        ],
        headline: "a text begins with `*` or `&`, which YAML keeps for itself",
        label: "expected a name behind it",
        help: QUOTES,
    },
    Fault {
        infos: &[
            "while parsing a quoted scalar, found unknown escape character",
            "while parsing a quoted scalar, did not find expected hexadecimal number",
            "while parsing a quoted scalar, found invalid Unicode character escape code",
        ],
        headline: "a backslash in a quoted text is followed by something unknown",
        label: "a text with a backslash that stands for nothing",
        help: "write the backslash twice (`\\\\`), or use single quotes: '...'",
    },
    Fault {
        infos: &["while parsing a block mapping, did not find expected key"],
        headline: "a line stands where a key was expected",
        label: "expected `key: value`, in line with the keys above",
        help: "check the indentation of this line; a text that goes on in the next line is indented further than its key",
    },
    Fault {
        infos: &["simple key expect ':'", "simple key expected"],
        headline: "a line has no colon behind its key",
        label: "expected `key: value`",
        help: "write a colon and a space behind the key; a text that goes on in the next line is indented further than its key",
    },
    Fault {
        infos: &["while parsing a block collection, did not find expected '-' indicator"],
        headline: "a line stands where an item of a list was expected",
        label: "expected `- `, in line with the items above",
        help: "check the indentation of this line",
    },
    Fault {
        infos: &["block sequence entries are not allowed in this context"],
        headline: "an item of a list stands where none can stand",
        label: "a `- ` cannot follow on the same line",
        help: "put the item on a line of its own; if the dash belongs to a text, put the text in quotes",
    },
    Fault {
        infos: &["mapping keys are not allowed in this context"],
        headline: "a `?` stands where YAML keeps it for itself",
        label: "not expected here",
        help: QUOTES,
    },
    Fault {
        infos: &[
            "invalid indentation for anchor",
            "wrongly indented line in block scalar",
        ],
        headline: "a line is indented in a way that fits nothing above it",
        label: "indented too little or too much",
        help: "bring it in line with what it belongs to",
    },
    Fault {
        infos: &[
            "while scanning a block scalar, did not find expected comment or line break",
            "while scanning a block scalar, found an indentation indicator equal to 0",
        ],
        headline: "a text begins with `|` or `>`, which YAML keeps for a block of lines",
        label: "expected the end of the line behind it",
        help: QUOTES,
    },
    Fault {
        infos: &[
            "missing explicit document end marker before directive",
            "while scanning a directive, could not find expected directive name",
            "while scanning a directive, found unexpected non-alphabetical character",
            "while scanning a directive, did not find expected comment or line break",
        ],
        headline: "a line begins with `%`, which YAML keeps for itself",
        label: "not expected here",
        help: QUOTES,
    },
    Fault {
        infos: &["comments must be separated from other tokens by whitespace"],
        headline: "a `#` stands glued to what is before it",
        label: "a comment needs a space before its `#`",
        help: "write a space before the `#`; if it belongs to a text, put the text in quotes",
    },
    Fault {
        infos: &[
            "while parsing a node, did not find expected node content",
            "unexpected end of plain scalar",
        ],
        headline: "a value was expected and something else stands there",
        label: "expected words, a list or keys",
        help: "if it belongs to a text, put the text in quotes",
    },
];

/// Headline, label and help for what the parser said.
fn words(info: &str) -> (String, &'static str, &'static str) {
    let known = FAULTS.iter().find(|fault| fault.infos.contains(&info));
    if let Some(fault) = known {
        return (fault.headline.to_owned(), fault.label, fault.help);
    }
    if info.starts_with("unexpected character") {
        (
            "a text begins with a character that YAML keeps for itself".to_owned(),
            "cannot open a text without quotes",
            QUOTES,
        )
    } else if info.contains("tag") || info.contains("TAG") {
        (
            "a text begins with `!`, which YAML keeps for itself".to_owned(),
            "read as a YAML tag, and it is none",
            QUOTES,
        )
    } else {
        (
            format!("the file is no YAML here: {info}"),
            "cannot be read",
            "check indentation, brackets and quotes around this place",
        )
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
