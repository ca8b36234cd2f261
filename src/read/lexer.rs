//! The text of a condition into words, numbers and signs.
//!
//! The lexer never fails: what it does not know becomes a token that the grammar refuses with a
//! message of its own.

use std::ops::Range;

/// Words that cannot name anything, because conditions are made of them.
///
/// `any`, `all`, `none`, `same`, `as`, `more`, `less`, `least` and `most` are not among them: the
/// grammar tells them from names by what stands behind.
pub const RESERVED: &[&str] = &[
    "always", "and", "at", "between", "empty", "exactly", "includes", "is", "not", "of", "one",
    "only", "or", "than",
];

/// Whether a word cannot name anything, because conditions are made of it.
pub fn is_reserved(word: &str) -> bool {
    RESERVED.contains(&word)
}

/// A piece of a condition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Token {
    pub(super) kind: TokenKind,
    /// Its bytes in the text of the condition.
    pub(super) range: Range<usize>,
}

/// What a piece of a condition is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TokenKind {
    /// A name or a word of the grammar.
    Word,
    /// Digits, with a decimal point or without.
    Number,
    /// `(`
    Open,
    /// `)`
    Close,
    /// `,`
    Comma,
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `*`
    Times,
    /// A number with letters glued to it, or with a point too many: `7.26kg`, `1.2.3`.
    Glued,
    /// A sign that conditions do not have.
    Foreign,
    /// The end of the text, of no width.
    End,
}

/// Whether a character may stand in a name: letters and digits of any script, marks that belong to
/// letters, and `_`.
pub(super) fn names(character: char) -> bool {
    character == '_'
        || character.is_alphanumeric()
        || matches!(character,
            '\u{300}'..='\u{36f}'
            | '\u{900}'..='\u{963}'
            | '\u{966}'..='\u{109f}'
            | '\u{200c}' | '\u{200d}')
}

/// Takes a condition apart; the last token is always [`TokenKind::End`].
pub(super) fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(character) = text.get(at..).and_then(|rest| rest.chars().next()) {
        let rest = text.get(at..).unwrap_or_default();
        if character.is_whitespace() {
            at += character.len_utf8();
            continue;
        }
        let (kind, length) = piece(character, rest);
        tokens.push(Token {
            kind,
            range: at..at + length,
        });
        at += length;
    }
    tokens.push(Token {
        kind: TokenKind::End,
        range: at..at,
    });
    tokens
}

/// The token that opens `rest`, whose first character is not a blank.
fn piece(first: char, rest: &str) -> (TokenKind, usize) {
    let run = |belongs: fn(char) -> bool| {
        rest.find(|character| !belongs(character))
            .unwrap_or(rest.len())
    };
    match first {
        '(' => (TokenKind::Open, 1),
        ')' => (TokenKind::Close, 1),
        ',' => (TokenKind::Comma, 1),
        '+' => (TokenKind::Plus, 1),
        '-' => (TokenKind::Minus, 1),
        '*' => (TokenKind::Times, 1),
        '"' | '\'' | '\u{201c}' | '\u{201d}' | '\u{201e}' | '\u{2018}' | '\u{2019}' | '\u{ab}' => {
            (TokenKind::Foreign, quoted(first, rest))
        }
        '=' | '!' | '<' | '>' | '&' | '|' | '~' => (
            TokenKind::Foreign,
            run(|character| matches!(character, '=' | '!' | '<' | '>' | '&' | '|' | '~')),
        ),
        digit if digit.is_ascii_digit() => number(rest),
        letter if names(letter) => (TokenKind::Word, run(names)),
        other => (TokenKind::Foreign, other.len_utf8()),
    }
}

/// A word in quotes, or the lone quote where none closes it.
fn quoted(opening: char, rest: &str) -> usize {
    let closing: &[char] = match opening {
        '"' => &['"'],
        '\'' => &['\''],
        '\u{2018}' | '\u{2019}' => &['\u{2018}', '\u{2019}'],
        '\u{ab}' => &['\u{bb}'],
        _ => &['\u{201c}', '\u{201d}', '"'],
    };
    let inside = rest.get(opening.len_utf8()..).unwrap_or_default();
    match inside
        .char_indices()
        .find(|(_, other)| closing.contains(other))
    {
        Some((at, other)) => opening.len_utf8() + at + other.len_utf8(),
        None => opening.len_utf8(),
    }
}

/// A number; digits with letters glued to them are a word (`5a`), unless there is a point (`7.26kg`).
fn number(rest: &str) -> (TokenKind, usize) {
    let length = rest
        .char_indices()
        .find(|(at, character)| {
            // A point belongs to a number only where a digit follows.
            let point = *character == '.'
                && rest
                    .get(at + 1..)
                    .is_some_and(|after| after.starts_with(|next: char| next.is_ascii_digit()));
            !(point || names(*character))
        })
        .map_or(rest.len(), |(at, _)| at);
    let whole = rest.get(..length).unwrap_or_default();
    let points = whole.matches('.').count();
    let digits = whole
        .chars()
        .all(|character| character == '.' || character.is_ascii_digit());
    let kind = match (points, digits) {
        (0 | 1, true) => TokenKind::Number,
        (0, false) => TokenKind::Word,
        _ => TokenKind::Glued,
    };
    (kind, length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_taken_apart() {
        let check = |text: &str, expect: &str| {
            let found: Vec<String> = tokens(text)
                .into_iter()
                .map(|token| format!("{:?} {}", token.kind, &text[token.range]))
                .collect();
            assert_eq!(found.join("; "), expect, "{text}");
        };
        check(
            "a_1 is not één",
            "Word a_1; Word is; Word not; Word één; End ",
        );
        check(
            "(2*a-7.26 kg)",
            "Open (; Number 2; Times *; Word a; Minus -; Number 7.26; Word kg; Close ); End ",
        );
        check(
            "5a 7.26kg 1.2.3 5.",
            "Word 5a; Glued 7.26kg; Glued 1.2.3; Number 5; Foreign .; End ",
        );
        check(
            "a>=3&&b",
            "Word a; Foreign >=; Number 3; Foreign &&; Word b; End ",
        );
        check(
            "x is \"a b\" 'c",
            "Word x; Word is; Foreign \"a b\"; Foreign '; Word c; End ",
        );
        check(
            "a ≥ 3 m/s",
            "Word a; Foreign ≥; Number 3; Word m; Foreign /; Word s; End ",
        );
        check(" \n ", "End ");
    }
}
