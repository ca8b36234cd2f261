//! Comparisons: what stands behind a name or a sum.

use super::slips::Behind;
use super::{Parser, Read, slips};
use crate::problem::Problem;
use crate::read::draft::{Amount, Comparison, Expr, ExprKind, Included, Operand, Sum, Words};
use crate::read::lexer::TokenKind;

impl Parser<'_> {
    /// Whether a comparison comes next.
    pub(super) fn compares(&self) -> bool {
        ["is", "includes"].iter().any(|word| self.is_word(0, word))
            || self.order().is_some()
            || self.kind(0) == TokenKind::Foreign && slips::comparison(self.slice(0)).is_some()
    }

    /// `at least`, `at most`, `more than`, `less than`
    fn order(&self) -> Option<Comparison> {
        [
            (["at", "least"], Comparison::AtLeast),
            (["at", "most"], Comparison::AtMost),
            (["more", "than"], Comparison::MoreThan),
            (["less", "than"], Comparison::LessThan),
        ]
        .into_iter()
        .find_map(|(words, order)| self.are_words(words).then_some(order))
    }

    /// A name or sum and what it is compared with; a name may stand alone.
    pub(super) fn comparison(&mut self) -> Read<Expr> {
        let first = self.at;
        let left = self.sum()?;
        if self.is_word(0, "is") {
            self.at += 1;
            return self.is(first, left);
        }
        if self.is_word(0, "includes") {
            self.at += 1;
            return self.includes(first, left);
        }
        if let Some(order) = self.order() {
            self.at += 2;
            return self.compare(first, left, order);
        }
        if let Some((comparison, words)) = self.slipped_comparison() {
            let written = self.slice(0).to_owned();
            let problem = Problem::error(
                self.here(),
                format!("`{written}` stands in a condition"),
                "not a word of conditions",
            )
            .help(format!("write `{words}`"));
            self.slip(problem);
            self.at += 1;
            return self.compare(first, left, comparison);
        }
        if let Some(problem) = self.misworded(Behind::Name) {
            return self.give_up(problem);
        }
        match left.parts.as_slice() {
            [part] if !part.negative && part.factor.is_none() => {
                if let Operand::Name(name) = &part.operand {
                    return Ok(self.expr(first, ExprKind::Name(name.value.clone())));
                }
            }
            _ => {}
        }
        if self.kind(0) == TokenKind::End {
            self.ended_early = true;
        }
        if let Some(opening) = first.checked_sub(1)
            && self.kind_at(opening) == TokenKind::Open
            && self.kind(0) == TokenKind::Close
        {
            self.at += 1;
            if self.compares() {
                let problem = self.bracketed_sum(opening);
                return self.give_up(problem);
            }
            self.at -= 1;
        }
        let words = self.words_of(first, self.at);
        let problem = Problem::error(
            left.span,
            format!("`{words}` stands alone in a condition"),
            "a number is compared with something",
        )
        .help(format!(
            "write `{words} at least ...`, or another comparison"
        ));
        self.give_up(problem)
    }

    /// A sign or word that programmers and typesetters write for a comparison.
    fn slipped_comparison(&self) -> Option<(Comparison, &'static str)> {
        if self.is_word(0, "not") {
            return Some((Comparison::IsNot, "is not"));
        }
        slips::comparison(self.slice(0)).filter(|_| self.kind(0) != TokenKind::Word)
    }

    fn compare(&mut self, first: usize, left: Sum, comparison: Comparison) -> Read<Expr> {
        let right = self.sum()?;
        Ok(self.expr(
            first,
            ExprKind::Compare {
                left,
                comparison,
                right,
            },
        ))
    }

    /// What stands behind `is`.
    fn is(&mut self, first: usize, left: Sum) -> Read<Expr> {
        let is = self.at - 1;
        let negated = self.is_word(0, "not");
        if negated {
            self.at += 1;
        }
        if let Some(order) = self.order() {
            if negated {
                let written = self.words_of(is, self.at + 2);
                let contrary = slips::contrary_order(order);
                let problem = Problem::error(
                    self.span(is, self.at + 2),
                    format!("`{written}` stands in a condition"),
                    "`not` does not stand before these words",
                )
                .help(format!("write `{contrary}`"));
                self.slip(problem);
            }
            self.at += 2;
            return self.compare(first, left, order);
        }
        if self.is_word(0, "between") {
            self.at += 1;
            return self.between(first, left, negated);
        }
        if self.are_words(["one", "of"]) {
            self.at += 2;
            let left = self.one_name(left, "is one of")?;
            let values = self.list(Self::value)?;
            return Ok(self.expr(
                first,
                ExprKind::OneOf {
                    left,
                    negated,
                    values,
                },
            ));
        }
        if self.are_words(["same", "as"]) {
            self.at += 2;
            let left = self.one_name(left, "is same as")?;
            if !self.is_name(0) {
                return self.unexpected();
            }
            let right = self.take();
            return Ok(self.expr(
                first,
                ExprKind::SameAs {
                    left,
                    negated,
                    right,
                },
            ));
        }
        if self.is_word(0, "empty") {
            self.at += 1;
            let left = self.one_name(left, "is empty")?;
            return Ok(self.expr(first, ExprKind::Empty { left, negated }));
        }
        if self.is_word(0, "only") {
            self.at += 1;
            let left = self.one_name(left, "is only")?;
            let items = self.one_or_list()?;
            return Ok(self.expr(
                first,
                ExprKind::Only {
                    left,
                    negated,
                    items,
                },
            ));
        }
        if let Some(problem) = self.misworded(if negated { Behind::IsNot } else { Behind::Is }) {
            return self.give_up(problem);
        }
        let comparison = if negated {
            Comparison::IsNot
        } else {
            Comparison::Is
        };
        self.compare(first, left, comparison)
    }

    /// `10 and 20`; the `and` belongs to `between`.
    fn between(&mut self, first: usize, left: Sum, negated: bool) -> Read<Expr> {
        let low = self.sum()?;
        if !self.is_word(0, "and") {
            if self.kind(0) == TokenKind::End {
                return self.unexpected();
            }
            let word = self.slice(0).to_owned();
            let problem = Problem::error(
                self.here(),
                format!("`{word}` stands between the two ends of `between`"),
                "expected `and`",
            )
            .help("write `is between 10 and 20`; both ends are in");
            return self.give_up(problem);
        }
        self.at += 1;
        let high = self.sum()?;
        Ok(self.expr(
            first,
            ExprKind::Between {
                left,
                negated,
                low,
                high,
            },
        ))
    }

    /// What stands behind `includes`.
    fn includes(&mut self, first: usize, left: Sum) -> Read<Expr> {
        let left = self.one_name(left, "includes")?;
        let listed = [
            ("any", Included::Any),
            ("all", Included::All),
            ("none", Included::None),
        ];
        let listed = listed
            .into_iter()
            .find(|(word, _)| self.are_words([word, "of"]));
        let (amount, items) = if let Some((_, amount)) = listed {
            self.at += 2;
            (amount, self.list(Self::value)?)
        } else if self.counts() {
            let amount: Amount = self.amount()?;
            (Included::Count(amount), self.list(Self::value)?)
        } else if self.kind(0) == TokenKind::Open {
            let problem = Problem::error(
                self.span(self.at - 1, self.at + 1),
                "`includes` stands before a list without saying how many of it",
                "expected `any of`, `all of`, `none of` or `at least 2 of` before the list",
            )
            .help("write `includes any of (...)` or `includes all of (...)`");
            return self.give_up(problem);
        } else if self.is_word(0, "not") {
            let problem = Problem::error(
                self.span(self.at - 1, self.at + 1),
                "`includes not` stands in a condition",
                "expected an item, or `none of (...)`",
            )
            .help("write `includes none of (...)`");
            return self.give_up(problem);
        } else {
            let item = self.at;
            let items = vec![self.value()?];
            if self.kind(0) == TokenKind::Comma && self.depth == 0 {
                let problem = self.items_in_a_row(item);
                return self.give_up(problem);
            }
            (Included::All, items)
        };
        Ok(self.expr(
            first,
            ExprKind::Includes {
                left,
                amount,
                items,
            },
        ))
    }

    /// The problem of items, from token `first` on, that stand in a row without brackets.
    fn items_in_a_row(&self, first: usize) -> Problem {
        let mut end = self.at;
        while self.kind_at(end) == TokenKind::Comma && self.kind_at(end + 1) == TokenKind::Word {
            end += 2;
        }
        let items = self.words_of(first, end);
        Problem::error(
            self.span(first, end),
            "`includes` stands before several items without saying how many of them",
            "expected one item, or a list in brackets",
        )
        .help(format!(
            "write `includes any of ({items})` or `includes all of ({items})`"
        ))
    }

    /// One item, or a list in brackets.
    fn one_or_list(&mut self) -> Read<Vec<Words>> {
        if self.kind(0) == TokenKind::Open {
            self.list(Self::value)
        } else {
            Ok(vec![self.value()?])
        }
    }

    /// The name of a value; values may be named with digits.
    fn value(&mut self) -> Read<Words> {
        if self.is_name(0) || self.kind(0) == TokenKind::Number {
            return Ok(self.take());
        }
        self.unexpected()
    }

    /// The left side as one name.
    fn one_name(&mut self, left: Sum, before: &str) -> Read<Words> {
        let span = left.span;
        if let Ok([part]) = <[_; 1]>::try_from(left.parts)
            && !part.negative
            && part.factor.is_none()
            && let Operand::Name(name) = part.operand
        {
            return Ok(name);
        }
        let problem = Problem::error(
            span,
            format!("a number or a sum stands before `{before}`"),
            "expected one name",
        )
        .help("compare numbers with `is`, `at least`, `at most`, `more than`, `less than` or `is between`");
        self.give_up(problem)
    }
}
