//! Sums and differences, literals and their units.

use super::{Parser, Read};
use crate::problem::Problem;
use crate::read::draft::{Operand, Sum, SumPart};
use crate::read::lexer::TokenKind;
use crate::source::Spanned;

impl Parser<'_> {
    /// `a`, `a - b`, `2 * a + 3 kg`, `- 3`
    pub(super) fn sum(&mut self) -> Read<Sum> {
        let first = self.at;
        let mut parts = Vec::new();
        let mut negative = self.kind(0) == TokenKind::Minus;
        if negative {
            self.at += 1;
        }
        loop {
            parts.push(self.part(negative)?);
            negative = match self.kind(0) {
                TokenKind::Plus => false,
                TokenKind::Minus => true,
                _ => break,
            };
            self.at += 1;
        }
        Ok(Sum {
            parts,
            span: self.span(first, self.at),
        })
    }

    /// A name or literal, perhaps with a factor before it.
    fn part(&mut self, negative: bool) -> Read<SumPart> {
        let mut factor = None;
        if self.kind(0) == TokenKind::Number && self.kind(1) == TokenKind::Times {
            let digits = self.take();
            let Ok(value) = digits.value.parse::<i64>() else {
                let problem = Problem::error(
                    digits.span,
                    format!("the factor `{}` is not a whole number", digits.value),
                    "expected a whole number",
                )
                .help("a factor is a whole number of at most 18 digits; multiply the other side instead: `2 * a at least 3 * b`");
                return self.give_up(problem);
            };
            factor = Some(Spanned::new(value, digits.span));
            self.at += 1;
        }
        let operand = match self.kind(0) {
            TokenKind::Number => {
                let digits = self.take();
                let unit = self.unit();
                Operand::Number { digits, unit }
            }
            TokenKind::Word if self.is_name(0) => Operand::Name(self.take()),
            TokenKind::Open => {
                let problem = Problem::error(
                    self.here(),
                    "a bracket stands in a sum",
                    "expected a name or a number",
                )
                .help("write the sum without brackets: `a - b - c` in place of `a - (b + c)`");
                return self.give_up(problem);
            }
            _ => return self.unexpected(),
        };
        if self.kind(0) == TokenKind::Times {
            let problem = Problem::error(
                self.span(self.at, self.at + 2),
                "a factor stands behind what it multiplies, or is no number",
                "a factor is a whole number and stands first",
            )
            .help("write `2 * a`");
            return self.give_up(problem);
        }
        Ok(SumPart {
            negative,
            factor,
            operand,
        })
    }

    /// The unit behind a number: a word, a sign, or words with a slash (`m/s`).
    fn unit(&mut self) -> Option<crate::read::draft::Words> {
        let sign = matches!(
            self.slice(0),
            "%" | "\u{2030}" | "\u{b0}" | "\u{20ac}" | "$" | "\u{a3}"
        );
        let more = (self.is_word(0, "more") || self.is_word(0, "less")) && self.is_word(1, "than");
        // No number follows a unit: in `1 to 3` a word stands where `and` belongs.
        let joins = self.kind(1) == TokenKind::Number;
        let word = self.is_name(0) && !more && !joins;
        if !sign && !word {
            return None;
        }
        let first = self.at;
        self.at += 1;
        while self.slice(0) == "/" && self.kind(1) == TokenKind::Word {
            self.at += 2;
        }
        let words = self
            .text
            .text
            .get(self.range(first, self.at))
            .unwrap_or_default();
        let words = words.split_whitespace().collect();
        Some(Spanned::new(words, self.span(first, self.at)))
    }
}
