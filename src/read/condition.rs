//! The grammar of conditions: drafting English into [`Expr`], with the place of every word.
//!
//! A recursive descent, bounded in depth. Slips that leave the meaning clear (`>=`, `not a is b`,
//! `and` beside `or`) are said and read on, so that one condition can show several problems; at
//! anything else the condition is given up. Names stay words: what they mean is for `model`.

mod compare;
mod slips;
mod sum;

use super::draft::{Amount, Expr, ExprKind, Words};
use super::lexer::{Token, TokenKind, is_reserved, tokens};
use super::scalar::Mapped;
use crate::problem::Problem;
use crate::source::{Span, Spanned};
use std::ops::Range;

/// Brackets inside each other that are read.
const DEEPEST: usize = 100;

/// What came of reading a condition.
pub(super) struct Reading {
    /// The condition; `None` where a problem was said.
    pub(super) expr: Option<Expr>,
    /// Whether the text stopped where something was still expected.
    pub(super) ended_early: bool,
}

/// Reads a whole condition.
pub(super) fn read(text: &Mapped, problems: &mut Vec<Problem>) -> Reading {
    let mut parser = Parser {
        text,
        tokens: tokens(&text.text),
        at: 0,
        depth: 0,
        problems,
        slipped: false,
        ended_early: false,
    };
    let expr = parser.whole();
    Reading {
        expr: expr.filter(|_| !parser.slipped),
        ended_early: parser.ended_early,
    }
}

struct Parser<'r> {
    text: &'r Mapped,
    tokens: Vec<Token>,
    at: usize,
    depth: usize,
    problems: &'r mut Vec<Problem>,
    /// Whether a problem was said after which reading went on.
    slipped: bool,
    ended_early: bool,
}

/// A problem was said; the condition is given up.
struct GivenUp;

type Read<T> = Result<T, GivenUp>;

#[derive(Clone, Copy, PartialEq, Eq)]
enum Joiner {
    And,
    Or,
}

impl Joiner {
    fn word(self) -> &'static str {
        match self {
            Joiner::And => "and",
            Joiner::Or => "or",
        }
    }
}

/// Looking at tokens, and the places of what they say.
impl Parser<'_> {
    fn kind(&self, ahead: usize) -> TokenKind {
        self.tokens
            .get(self.at + ahead)
            .map_or(TokenKind::End, |token| token.kind)
    }

    fn slice(&self, ahead: usize) -> &str {
        self.tokens
            .get(self.at + ahead)
            .and_then(|token| self.text.text.get(token.range.clone()))
            .unwrap_or_default()
    }

    fn is_word(&self, ahead: usize, word: &str) -> bool {
        self.kind(ahead) == TokenKind::Word && self.slice(ahead) == word
    }

    fn are_words(&self, words: [&str; 2]) -> bool {
        self.is_word(0, words[0]) && self.is_word(1, words[1])
    }

    /// A word that can be a name here.
    fn is_name(&self, ahead: usize) -> bool {
        self.kind(ahead) == TokenKind::Word && !is_reserved(self.slice(ahead))
    }

    /// The bytes of the tokens from `first` up to, not including, `end`.
    fn range(&self, first: usize, end: usize) -> Range<usize> {
        let start = self.tokens.get(first).map_or(0, |token| token.range.start);
        let last = self.tokens.get(end.max(first + 1) - 1);
        start..last.map_or(start, |token| token.range.end)
    }

    /// The place of the tokens from `first` up to, not including, `end`.
    fn span(&self, first: usize, end: usize) -> Span {
        self.text.span(self.range(first, end))
    }

    /// The place of the next token; of the last one where the text is at its end.
    fn here(&self) -> Span {
        let at = if self.kind(0) == TokenKind::End {
            self.at.saturating_sub(1)
        } else {
            self.at
        };
        self.span(at, at + 1)
    }

    /// The words of some tokens on one line, for help.
    fn words_of(&self, first: usize, end: usize) -> String {
        let words = self
            .text
            .text
            .get(self.range(first, end))
            .unwrap_or_default();
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// The next token as words of the draft.
    fn take(&mut self) -> Words {
        let words = Spanned::new(self.slice(0).to_owned(), self.span(self.at, self.at + 1));
        self.at += 1;
        words
    }

    fn expr(&self, first: usize, kind: ExprKind) -> Expr {
        Expr {
            kind,
            span: self.span(first, self.at),
        }
    }

    /// Says a problem and reads on.
    fn slip(&mut self, problem: Problem) {
        self.slipped = true;
        self.problems.push(problem);
    }

    /// Says a problem and gives up.
    fn give_up<T>(&mut self, problem: Problem) -> Read<T> {
        self.slip(problem);
        Err(GivenUp)
    }
}

/// Conditions and what joins them.
impl Parser<'_> {
    fn whole(&mut self) -> Option<Expr> {
        if self.kind(0) == TokenKind::End {
            return None;
        }
        let expr = self.joined().ok()?;
        if self.kind(0) != TokenKind::End {
            let _: Read<()> = self.unexpected();
            return None;
        }
        Some(expr)
    }

    /// `C and D and E`, `C or D`, or one condition alone.
    fn joined(&mut self) -> Read<Expr> {
        let first = self.at;
        let mut parts = vec![self.negated()?];
        let mut bounds = vec![(first, self.at)];
        let mut joiners: Vec<(Joiner, usize)> = Vec::new();
        while let Some(joiner) = self.joiner() {
            joiners.push((joiner, self.at));
            self.at += 1;
            let start = self.at;
            parts.push(self.negated()?);
            bounds.push((start, self.at));
        }
        let Some((joiner, place)) = joiners.first().copied() else {
            return parts.pop().ok_or(GivenUp);
        };
        if let Some((other, other_place)) = joiners.iter().find(|(other, _)| *other != joiner) {
            let help = format!(
                "write `{}` or `{}`",
                self.bracketed(&bounds, &joiners, joiner),
                self.bracketed(&bounds, &joiners, *other)
            );
            let problem = Problem::error(
                self.span(*other_place, other_place + 1),
                "`and` and `or` stand side by side without brackets",
                format!("`{}` here", other.word()),
            )
            .other(
                self.span(place, place + 1),
                format!("and `{}` here: it can be read both ways", joiner.word()),
            )
            .help(help);
            self.slip(problem);
        }
        Ok(self.expr(
            first,
            match joiner {
                Joiner::And => ExprKind::All(parts),
                Joiner::Or => ExprKind::Any(parts),
            },
        ))
    }

    /// The text with brackets around what `inner` joins.
    fn bracketed(
        &self,
        bounds: &[(usize, usize)],
        joiners: &[(Joiner, usize)],
        inner: Joiner,
    ) -> String {
        let joins = |index: usize| {
            joiners
                .get(index)
                .is_some_and(|(joiner, _)| *joiner == inner)
        };
        let mut text = String::new();
        for (index, (start, end)) in bounds.iter().enumerate() {
            let before = index.checked_sub(1);
            if let Some((joiner, _)) = before.and_then(|before| joiners.get(before)) {
                text.push(' ');
                text.push_str(joiner.word());
                text.push(' ');
            }
            let opened = before.is_some_and(joins);
            if joins(index) && !opened {
                text.push('(');
            }
            text.push_str(&self.words_of(*start, *end));
            if opened && !joins(index) {
                text.push(')');
            }
        }
        text
    }

    /// Whether `and` or `or` comes next, in whatever way it is written.
    fn joiner(&mut self) -> Option<Joiner> {
        let word = self.slice(0);
        match (self.kind(0), word) {
            (TokenKind::Word, "and") => return Some(Joiner::And),
            (TokenKind::Word, "or") => return Some(Joiner::Or),
            _ => {}
        }
        let joiner = match word.to_lowercase().as_str() {
            "&&" | "&" | "and" => Joiner::And,
            "||" | "|" | "or" => Joiner::Or,
            _ => return None,
        };
        let problem = Problem::error(
            self.here(),
            format!("`{word}` stands in a condition"),
            "not a word of conditions",
        )
        .help(format!("write `{}`", joiner.word()));
        self.slip(problem);
        Some(joiner)
    }

    /// A condition, perhaps with `not` before it.
    fn negated(&mut self) -> Read<Expr> {
        let first = self.at;
        if !self.is_word(0, "not") {
            if self.kind(0) == TokenKind::Foreign && self.slice(0) == "!" {
                let problem = Problem::error(
                    self.here(),
                    "`!` stands in a condition",
                    "not a word of conditions",
                )
                .help("write `not`");
                self.slip(problem);
            } else {
                return self.single();
            }
        }
        self.at += 1;
        let inner = self.at;
        let allowed = match self.kind(0) {
            TokenKind::Open => true,
            TokenKind::Word => self.is_name(0) || self.is_word(0, "always"),
            _ => false,
        };
        if self.kind(0) == TokenKind::End {
            return self.unexpected();
        }
        let part = if self.is_word(0, "not") {
            self.deeper(Self::negated)?
        } else {
            self.single()?
        };
        let bare = matches!(part.kind, ExprKind::Name(_) | ExprKind::Always)
            || self.kind_at(inner) == TokenKind::Open;
        if !(allowed && bare) {
            let written = self.words_of(inner, self.at);
            let contrary = slips::contrary(&part.kind, &written);
            let problem = Problem::error(
                self.span(first, self.at),
                "`not` stands before a whole comparison",
                "`not` stands before one name or one bracket only",
            )
            .help(match contrary {
                Some(contrary) => format!("write `{contrary}`, or `not ({written})`"),
                None => format!("write `not ({written})`"),
            });
            self.slip(problem);
        }
        Ok(self.expr(first, ExprKind::Not(Box::new(part))))
    }

    fn kind_at(&self, token: usize) -> TokenKind {
        self.tokens
            .get(token)
            .map_or(TokenKind::End, |token| token.kind)
    }

    /// Reads something one level further in.
    fn deeper<T>(&mut self, read: impl FnOnce(&mut Self) -> Read<T>) -> Read<T> {
        if self.depth >= DEEPEST {
            let problem = Problem::error(
                self.here(),
                format!("a condition has more than {DEEPEST} levels of brackets"),
                "one level too many",
            )
            .help("give the inner parts names of their own, as terms");
            return self.give_up(problem);
        }
        self.depth += 1;
        let result = read(self);
        self.depth -= 1;
        result
    }

    /// A bracket, a count, a comparison or a name.
    fn single(&mut self) -> Read<Expr> {
        let first = self.at;
        match self.kind(0) {
            TokenKind::Open => self.bracket(),
            TokenKind::Word if self.is_word(0, "always") => {
                self.at += 1;
                if self.compares() {
                    self.at = first;
                    return self.unexpected();
                }
                Ok(self.expr(first, ExprKind::Always))
            }
            TokenKind::Word if self.counts() => {
                let amount = self.amount()?;
                let of = self.list(Self::joined)?;
                Ok(self.expr(first, ExprKind::Count { amount, of }))
            }
            TokenKind::Word if self.is_word(1, "of") && self.kind(2) == TokenKind::Open => {
                let problem = self.uncounted();
                self.give_up(problem)
            }
            TokenKind::Word if self.is_name(0) => self.comparison(),
            TokenKind::Number | TokenKind::Minus => self.comparison(),
            _ => self.unexpected(),
        }
    }

    /// `( C )`
    fn bracket(&mut self) -> Read<Expr> {
        let opening = self.at;
        self.at += 1;
        let expr = self.deeper(Self::joined)?;
        self.close(opening)?;
        if self.compares()
            || matches!(
                self.kind(0),
                TokenKind::Plus | TokenKind::Minus | TokenKind::Times
            )
        {
            let problem = self.bracketed_sum(opening);
            return self.give_up(problem);
        }
        Ok(expr)
    }

    /// The problem of a bracket, from token `opening` on, with a comparison behind it.
    fn bracketed_sum(&self, opening: usize) -> Problem {
        Problem::error(
            self.span(opening, self.at),
            "a bracket stands in a comparison",
            "brackets stand around whole conditions only",
        )
        .help("write sums and names without brackets: `a - b at least 2`")
    }

    /// The bracket that closes the one at token `opening`.
    fn close(&mut self, opening: usize) -> Read<()> {
        match self.kind(0) {
            TokenKind::Close => {
                self.at += 1;
                Ok(())
            }
            TokenKind::End => {
                self.ended_early = true;
                let problem = Problem::error(
                    self.span(opening, opening + 1),
                    "a bracket in a condition is never closed",
                    "opened here",
                )
                .help("add `)` where the bracket ends");
                self.give_up(problem)
            }
            _ => self.unexpected(),
        }
    }

    /// Whether a count comes next: `at least`, `at most`, `exactly`.
    fn counts(&self) -> bool {
        self.are_words(["at", "least"])
            || self.are_words(["at", "most"])
            || self.is_word(0, "exactly")
    }

    /// `at least 2 of`
    fn amount(&mut self) -> Read<Amount> {
        let first = self.at;
        let exactly = self.is_word(0, "exactly");
        let least = self.is_word(1, "least");
        self.at += if exactly { 1 } else { 2 };
        let digits = self.slice(0).to_owned();
        let place = self.here();
        if self.kind(0) == TokenKind::End {
            return self.unexpected();
        }
        let Some(number) = digits
            .parse::<u32>()
            .ok()
            .filter(|_| self.kind(0) == TokenKind::Number)
        else {
            let before = self.words_of(first, self.at);
            let problem = Problem::error(
                place,
                format!("`{digits}` stands where a count was expected"),
                "expected a whole number in digits",
            )
            .help(match slips::digits(&digits) {
                Some(number) => format!("write `{before} {number} of`"),
                None => "write `at least 2 of (a, b, c)`".to_owned(),
            });
            return self.give_up(problem);
        };
        self.at += 1;
        if !self.is_word(0, "of") {
            let words = self.words_of(first, self.at);
            let problem = Problem::error(
                self.span(first, self.at),
                format!(
                    "`{words}` has nothing before it to compare, and no `of` behind it to count"
                ),
                "expected a name before it, or `of (...)` behind it",
            )
            .help(format!("write `name {words}`, or `{words} of (a, b, c)`"));
            return self.give_up(problem);
        }
        self.at += 1;
        let number = Spanned::new(number, place);
        Ok(if exactly {
            Amount::Exactly(number)
        } else if least {
            Amount::AtLeast(number)
        } else {
            Amount::AtMost(number)
        })
    }

    /// `(x, y, z)`, at least one item.
    fn list<T>(&mut self, item: fn(&mut Self) -> Read<T>) -> Read<Vec<T>> {
        let opening = self.at;
        if self.kind(0) != TokenKind::Open {
            if self.kind(0) == TokenKind::End {
                return self.unexpected();
            }
            let word = self.slice(0).to_owned();
            let problem = Problem::error(
                self.here(),
                format!("`{word}` stands where a list was expected"),
                "expected `(`",
            )
            .help("write the items in round brackets, with commas: `(a, b, c)`");
            return self.give_up(problem);
        }
        self.at += 1;
        let mut items = Vec::new();
        loop {
            items.push(self.deeper(item)?);
            if self.kind(0) != TokenKind::Comma {
                break;
            }
            self.at += 1;
        }
        if self.is_word(0, "and") || self.is_word(0, "or") {
            let word = self.slice(0).to_owned();
            let problem = Problem::error(
                self.here(),
                format!("`{word}` stands between the items of a list"),
                "expected a comma",
            )
            .help("separate the items by commas: `(a, b, c)`");
            return self.give_up(problem);
        }
        self.close(opening)?;
        Ok(items)
    }
}

#[cfg(test)]
mod tests;
