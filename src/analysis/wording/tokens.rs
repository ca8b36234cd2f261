//! A text's words and marks, with their places in it.

use std::borrow::Cow;

/// A word, or a mark that stands between words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Token<'t> {
    /// In small letters, apostrophes straight.
    pub(super) folded: Cow<'t, str>,
    /// First byte in the text.
    pub(super) start: usize,
    /// One past the last byte.
    pub(super) end: usize,
    /// Whether it is a word or a number.
    pub(super) is_word: bool,
}

/// Takes a text apart. A point or comma within a number belongs to it, an apostrophe or hyphen
/// within a word too; every other mark is a token of its own, and blanks are none.
pub(super) fn tokens(text: &str) -> Vec<Token<'_>> {
    let mut found = Vec::with_capacity(text.len() / 5);
    let mut letters = text.char_indices().peekable();
    while let Some((start, letter)) = letters.next() {
        if letter.is_whitespace() {
            continue;
        }
        let mut end = start + letter.len_utf8();
        let is_word = part_of_word(letter);
        if is_word {
            let mut last = letter;
            while let Some((at, next)) = letters.peek().copied() {
                let behind = text.get(at + next.len_utf8()..);
                let behind = behind.and_then(|rest| rest.chars().next());
                if !part_of_word(next) && !joins(last, next, behind) {
                    break;
                }
                letters.next();
                end = at + next.len_utf8();
                last = next;
            }
        }
        let words = text.get(start..end).unwrap_or_default();
        found.push(Token {
            folded: folded(words),
            start,
            end,
            is_word,
        });
    }
    found
}

fn part_of_word(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

/// Whether a mark holds what stands before and behind it together.
fn joins(before: char, mark: char, behind: Option<char>) -> bool {
    let Some(behind) = behind else { return false };
    match mark {
        '.' | ',' => before.is_ascii_digit() && behind.is_ascii_digit(),
        '\'' | '\u{2019}' | '-' => part_of_word(before) && part_of_word(behind),
        _ => false,
    }
}

fn folded(words: &str) -> Cow<'_, str> {
    let plain = words
        .chars()
        .all(|letter| !letter.is_uppercase() && letter != '\u{2019}');
    if plain {
        Cow::Borrowed(words)
    } else {
        Cow::Owned(words.to_lowercase().replace('\u{2019}', "'"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_numbers_and_marks_are_told_apart() {
        let check = |text: &str, expect: &[&str]| {
            let found: Vec<String> = tokens(text)
                .iter()
                .map(|token| token.folded.to_string())
                .collect();
            assert_eq!(found, expect, "{text}");
        };
        check(
            "And/or 13.3, well-kept",
            &["and", "/", "or", "13.3", ",", "well-kept"],
        );
        check(
            "the referee\u{2019}s 2.5 m.",
            &["the", "referee's", "2.5", "m", "."],
        );
        check(
            "5(a)  e.g.\n x",
            &["5", "(", "a", ")", "e", ".", "g", ".", "x"],
        );
        check("Über-Eck «Ja»", &["über-eck", "«", "ja", "»"]);
        check("", &[]);
    }
}
