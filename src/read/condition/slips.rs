//! What people write in place of the words of conditions, and what to write instead.

use super::{Parser, Read};
use crate::problem::Problem;
use crate::read::draft::{Comparison, ExprKind};
use crate::read::lexer::{TokenKind, is_reserved};

/// The comparison that a sign stands for elsewhere, and its words here.
pub(super) fn comparison(sign: &str) -> Option<(Comparison, &'static str)> {
    Some(match sign {
        "=" | "==" | "===" => (Comparison::Is, "is"),
        "!=" | "<>" | "!==" | "~=" | "\u{2260}" => (Comparison::IsNot, "is not"),
        ">=" | "=>" | "\u{2265}" => (Comparison::AtLeast, "at least"),
        "<=" | "=<" | "\u{2264}" => (Comparison::AtMost, "at most"),
        ">" => (Comparison::MoreThan, "more than"),
        "<" => (Comparison::LessThan, "less than"),
        _ => return None,
    })
}

/// The words of the contrary of an order.
pub(super) fn contrary_order(order: Comparison) -> &'static str {
    match order {
        Comparison::AtLeast => "less than",
        Comparison::AtMost => "more than",
        Comparison::MoreThan => "at most",
        Comparison::LessThan => "at least",
        Comparison::Is => "is not",
        Comparison::IsNot => "is",
    }
}

/// The contrary of a comparison in its own words, where a word tells them apart.
pub(super) fn contrary(kind: &ExprKind, written: &str) -> Option<String> {
    let order = match kind {
        ExprKind::Compare { comparison, .. } => *comparison,
        ExprKind::OneOf { negated, .. }
        | ExprKind::Between { negated, .. }
        | ExprKind::SameAs { negated, .. }
        | ExprKind::Empty { negated, .. }
        | ExprKind::Only { negated, .. } => {
            if *negated {
                Comparison::IsNot
            } else {
                Comparison::Is
            }
        }
        _ => return None,
    };
    let words = match order {
        Comparison::AtLeast => "at least",
        Comparison::AtMost => "at most",
        Comparison::MoreThan => "more than",
        Comparison::LessThan => "less than",
        Comparison::Is => "is",
        Comparison::IsNot => "is not",
    };
    let (before, after) = written.split_once(&format!(" {words} "))?;
    Some(format!("{before} {} {after}", contrary_order(order)))
}

/// Words that people write for a comparison behind a name, and what to write.
fn behind_a_name(word: &str) -> Option<&'static str> {
    Some(match word {
        "equals" | "equal" | "are" | "was" | "were" | "be" => "is",
        "isn" | "isnt" | "differs" => "is not",
        "in" | "one" | "among" => "is one of (...)",
        "between" => "is between ... and ...",
        "same" => "is same as",
        "empty" => "is empty",
        "only" => "is only",
        "greater" | "bigger" | "larger" | "over" | "above" | "exceeds" | "more" | "after" => {
            "more than"
        }
        "fewer" | "smaller" | "under" | "below" | "less" | "before" => "less than",
        "least" | "minimum" | "min" => "at least",
        "most" | "maximum" | "max" => "at most",
        "include" | "contains" | "contain" | "has" | "have" | "including" => "includes",
        "does" | "doesn" => "includes none of (...)",
        _ => return None,
    })
}

/// What stands before a word that should be a comparison.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Behind {
    /// A name.
    Name,
    /// A name and `is`.
    Is,
    /// A name and `is not`.
    IsNot,
}

/// The contrary of what [`behind_is`] says to write.
fn contrary_words(words: &str) -> Option<&'static str> {
    Some(match words {
        "is" => "is not",
        "is one of (...)" => "is not one of (...)",
        "more than" => "at most",
        "less than" => "at least",
        "at least" => "less than",
        "at most" => "more than",
        "is same as" => "is not same as",
        "includes" => "includes none of (...)",
        "is empty" => "is not empty",
        _ => return None,
    })
}

/// The digits of a small number that is written as a word.
pub(super) fn digits(word: &str) -> Option<usize> {
    const WORDS: [&str; 11] = [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    ];
    let word = word.to_lowercase();
    WORDS.iter().position(|known| *known == word)
}

/// What to write for words that join clauses in English and have no place in a condition.
fn joining(word: &str) -> Option<&'static str> {
    Some(match word {
        "unless" | "except" | "excepting" | "save" => {
            "put what stands behind it into `unless:`, a key of its own below `when:`"
        }
        "but" | "while" | "whilst" => "write `and`",
        "nor" => "write `not ... and not ...`",
        "if" | "when" | "where" | "whenever" | "provided" => {
            "join it by `and`; where it is the whole condition, it stands without this word"
        }
        "then" => "a condition ends here: what it leads to stands in `ruling:`",
        _ => return None,
    })
}

/// Words that people write behind `is`, and what to write.
fn behind_is(word: &str) -> Option<&'static str> {
    Some(match word {
        "equal" | "exactly" => "is",
        "in" | "one" | "any" | "either" | "among" => "is one of (...)",
        "neither" => "is not one of (...)",
        "greater" | "bigger" | "larger" | "over" | "above" | "more" => "more than",
        "fewer" | "smaller" | "under" | "below" | "less" => "less than",
        "least" => "at least",
        "most" => "at most",
        "same" | "like" => "is same as",
        "includes" | "including" => "includes",
        "nothing" => "is empty",
        _ => return None,
    })
}

impl Parser<'_> {
    /// A word that stands where a comparison was expected and looks like one.
    ///
    /// Most of these words may name something as well, so they count only where the words that
    /// follow show that a comparison was meant.
    pub(super) fn misworded(&self, behind: Behind) -> Option<Problem> {
        if self.kind(0) != TokenKind::Word {
            return None;
        }
        let word = self.slice(0);
        let instead = if behind == Behind::Name {
            behind_a_name(word)
        } else {
            // A value may be named so: only with something behind it is it no value.
            let followed = match self.kind(1) {
                TokenKind::Number | TokenKind::Open => true,
                TokenKind::Word => !matches!(self.slice(1), "and" | "or"),
                _ => false,
            };
            behind_is(word).filter(|_| followed || is_reserved(word))
        }?;
        let instead = match behind {
            Behind::IsNot => contrary_words(instead)?,
            Behind::Name | Behind::Is => instead,
        };
        let place = self.span(self.at, self.at + 1);
        Some(
            Problem::error(
                place,
                format!("`{word}` stands where a comparison was expected"),
                "not a comparison",
            )
            .help(format!("write `{instead}`")),
        )
    }

    /// The problem of `any of (...)` and its kin where a condition was expected.
    pub(super) fn uncounted(&self) -> Problem {
        let words = self.words_of(self.at, self.at + 2);
        Problem::error(
            self.span(self.at, self.at + 2),
            format!("`{words}` stands where a count of conditions was expected"),
            "expected `at least`, `at most` or `exactly` with a number",
        )
        .help(match self.slice(0) {
            "all" | "both" => "join the conditions by `and`".to_owned(),
            "none" | "neither" => "write `exactly 0 of (...)`".to_owned(),
            "any" | "either" | "some" => "write `at least 1 of (...)`".to_owned(),
            "one" => "write `at least 1 of (...)`, or `exactly 1 of (...)`".to_owned(),
            word => match digits(word) {
                Some(number) => {
                    format!("write `at least {number} of (...)`, or `exactly {number} of (...)`")
                }
                None => "write `at least 2 of (a, b, c)`".to_owned(),
            },
        })
    }

    /// Says what stands next and should not, by what it is, and gives up.
    pub(super) fn unexpected<T>(&mut self) -> Read<T> {
        let here = self.here();
        let words = self.slice(0).to_owned();
        let after_name = self.at > 0
            && matches!(
                self.kind_at(self.at - 1),
                TokenKind::Word | TokenKind::Number
            )
            && !is_reserved(self.before());
        let problem = match self.kind(0) {
            TokenKind::End => {
                self.ended_early = true;
                Problem::error(
                    here,
                    format!("a condition ends too early, behind `{}`", self.before()),
                    "something is missing behind this",
                )
                .help("write the condition to its end, or take the word away")
            }
            TokenKind::Word if after_name => self.side_by_side(&words),
            TokenKind::Word => Problem::error(
                here,
                format!("`{words}` stands where a name was expected"),
                "a word that conditions are made of",
            )
            .help(match words.as_str() {
                "than" => "write `more than` or `less than` behind a name",
                "between" => "write `name is between 10 and 20`",
                "includes" => "write `name includes item`",
                _ => "write a name, or a condition in brackets",
            }),
            TokenKind::Number => Problem::error(
                here,
                format!("the number `{words}` stands where it has no meaning"),
                "expected a comparison, `and` or `or` before it",
            )
            .help("compare it: `name is 20`, `name at least 20`"),
            TokenKind::Glued => Problem::error(
                here,
                format!("`{words}` is neither a number nor a name"),
                "a number is digits with one point at most",
            )
            .help("put a space between a number and its unit: `7.26 kg`"),
            TokenKind::Open => Problem::error(
                here,
                "a bracket opens where none was expected",
                "expected a comparison, `and` or `or` before it",
            )
            .help("write `is one of (...)`, `includes any of (...)` or `at least 2 of (...)` before a list"),
            TokenKind::Close if self.at > 0 && self.kind_at(self.at - 1) == TokenKind::Open => {
                Problem::error(
                    self.span(self.at - 1, self.at + 1),
                    "a bracket has nothing in it",
                    "expected something between them",
                )
                .help("write what belongs there; that a list attribute has nothing is `is empty`")
            }
            TokenKind::Close if self.depth == 0 => Problem::error(
                here,
                "a bracket is closed that was never opened",
                "nothing is open here",
            )
            .help("delete it, or add the `(` that it closes; inside `{}` or `[]` a comma ends an item, so a condition with a comma there stands in quotes"),
            TokenKind::Close => Problem::error(
                here,
                "a bracket closes where something was still expected",
                "expected a name or a condition before it",
            )
            .help("write what is missing, or delete the comma before it"),
            TokenKind::Comma => Problem::error(
                here,
                "a comma stands in a condition outside a list",
                "a comma separates the items of a list in round brackets",
            )
            .help(self.comma_help()),
            TokenKind::Plus | TokenKind::Minus | TokenKind::Times => Problem::error(
                here,
                format!("`{words}` stands where a name or number was expected"),
                "expected a name or a number",
            )
            .help("write sums as `a + b`, differences as `a - b`, multiples as `2 * a`"),
            TokenKind::Foreign if self.opens_a_condition() && is_quoted(&words) => {
                let inner = words.trim_matches(is_quote);
                Problem::error(
                    here,
                    "quotes stand around a condition",
                    "conditions stand without quotes",
                )
                .help(if inner.trim().is_empty() {
                    "delete the quote; where the file needs quotes, they are straight: `\"...\"`"
                        .to_owned()
                } else {
                    format!(
                        "write `{}`; where the file needs quotes, they are straight: `\"...\"`",
                        inner.split_whitespace().collect::<Vec<_>>().join(" ")
                    )
                })
            }
            TokenKind::Foreign => {
                let (label, help) = foreign(&words);
                Problem::error(here, format!("`{words}` stands in a condition"), label).help(help)
            }
        };
        self.give_up(problem)
    }

    /// Two words where something should join or compare them.
    fn side_by_side(&self, words: &str) -> Problem {
        let before = self.before();
        let lower = words.to_lowercase();
        if let Some(problem) = self.english(words) {
            return problem;
        }
        let problem = Problem::error(
            self.span(self.at - 1, self.at + 1),
            format!("two words stand side by side in a condition: `{before} {words}`"),
            "expected a comparison, `and` or `or` between them",
        );
        if is_reserved(&lower) && lower != words {
            problem.help(format!("write `{lower}` in small letters"))
        } else if is_reserved(words) {
            problem.help(format!(
                "`{words}` does not stand here; write `{before} is ...`, or join conditions by `and` or `or`"
            ))
        } else {
            problem.help(format!(
                "a name is one word: `{before}_{words}`; conditions are joined by `and` or `or`"
            ))
        }
    }

    /// The problem of an English word that joins clauses, as the word before this one or as this one.
    fn english(&self, words: &str) -> Option<Problem> {
        let before = self.before();
        let at = self.at - 1;
        let alone = |place: usize, word: &str, help: String| {
            Problem::error(
                self.span(place, place + 1),
                format!("`{word}` stands in a condition"),
                "not a word of conditions",
            )
            .help(help)
        };
        if let Some(help) = joining(words) {
            return Some(alone(self.at, words, help.to_owned()));
        }
        match before {
            "if" | "when" | "where" | "whenever" | "either" | "both" => Some(alone(
                at,
                before,
                format!("delete `{before}`: the condition stands without it"),
            )),
            "unless" => Some(alone(
                at,
                before,
                "put the condition into `unless:`, a key of its own below `when:`".to_owned(),
            )),
            "neither" => {
                let one_each = self.is_word(1, "nor") && self.kind(2) == TokenKind::Word;
                Some(alone(
                    at,
                    before,
                    if one_each {
                        format!("write `not {words} and not {}`", self.slice(2))
                    } else {
                        "write `not (...) and not (...)`".to_owned()
                    },
                ))
            }
            _ => None,
        }
    }

    /// Whether a whole condition may begin here: at the start, or behind a word that joins.
    fn opens_a_condition(&self) -> bool {
        self.at == 0 || matches!(self.before(), "and" | "or" | "not" | "(")
    }

    /// The words of the token before the next one.
    fn before(&self) -> &str {
        self.at
            .checked_sub(1)
            .and_then(|index| self.tokens.get(index))
            .and_then(|token| self.text.text.get(token.range.clone()))
            .unwrap_or_default()
    }

    fn comma_help(&self) -> String {
        let numbers = self.at > 0
            && self.kind_at(self.at - 1) == TokenKind::Number
            && self.kind(1) == TokenKind::Number;
        if numbers {
            format!(
                "write decimals with a point: `{}.{}`",
                self.before(),
                self.slice(1)
            )
        } else {
            "join conditions by `and` or `or`; write lists in round brackets: `is one of (a, b)`"
                .to_owned()
        }
    }
}

/// A sign that opens or closes a quotation somewhere.
fn is_quote(sign: char) -> bool {
    matches!(
        sign,
        '"' | '\''
            | '\u{201c}'
            | '\u{201d}'
            | '\u{201e}'
            | '\u{2018}'
            | '\u{2019}'
            | '\u{ab}'
            | '\u{bb}'
    )
}

/// Whether quotes stand around several words, or one quote stands alone.
fn is_quoted(words: &str) -> bool {
    let inner = words.trim_matches(is_quote).trim();
    words.starts_with(is_quote) && (inner.is_empty() || inner.contains(char::is_whitespace))
}

/// Label and help for a sign that conditions do not have.
fn foreign(sign: &str) -> (&'static str, String) {
    let none = "not a sign of conditions";
    let instead = match sign {
        "\u{d7}" | "\u{b7}" => "write `*`: `2 * a`",
        "\u{2212}" | "\u{2013}" | "\u{2014}" => "write the minus as `-`",
        "/" => "there is no division; multiply the other side: `a at least 2 * b`",
        "[" | "]" | "{" | "}" => "write lists in round brackets: `(a, b, c)`",
        ";" | "." => "a condition has no full stops; join conditions by `and` or `or`",
        ":" => "write `is` for a value: `phase is ground`",
        "%" => "a unit stands behind a number: `50 %`",
        "\u{2227}" => "write `and`",
        "\u{2228}" => "write `or`",
        "\u{ac}" | "~" => "write `not`",
        "#" => "a `#` has no meaning in a condition; put comments on a line of their own",
        _ => {
            if let Some((_, words)) = comparison(sign) {
                return (none, format!("write `{words}` behind a name"));
            }
            let inner = sign.trim_matches(|quote: char| !quote.is_alphanumeric());
            if sign.starts_with(is_quote) {
                let name = inner.split_whitespace().collect::<Vec<_>>().join("_");
                return (
                    "names and values stand without quotes",
                    if name.is_empty() {
                        "delete the quote".to_owned()
                    } else {
                        format!("write `{name}`")
                    },
                );
            }
            "conditions are made of words, numbers, round brackets, commas, `+`, `-` and `*`"
        }
    };
    (none, instead.to_owned())
}
