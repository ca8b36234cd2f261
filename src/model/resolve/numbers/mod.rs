//! Comparisons of numbers: sums over attributes, quantities and literals, turned into steps.
//!
//! Both sides are brought to one unit and to one side; what is left is a weighted sum of steps
//! against a bound. A quantity from a table means a case for each row. All arithmetic is exact, and
//! what is too large to be exact is refused.

mod balance;
mod direct;
mod sides;

use super::conditions::{Context, Sense};
use super::values::wrong_way_round;
use crate::model::{
    AttributeId, Condition, ConditionKind, MissingCell, Number, QuantityValue, Test, Unit, ValueSet,
};
use crate::problem::Problem;
use crate::read::draft::{Comparison, Operand, Sum, SumPart, Words};
use crate::source::Span;
use sides::{ConstantValue, Side, common_unit, row_name, side};

/// The most cases that a comparison over tables is spelled out into.
const MOST_CASES: usize = 4096;

/// How the sides of a comparison stand to each other.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Form {
    /// Left and right.
    Compare(Comparison),
    /// Left, low and high.
    Between(Sense),
}

/// `seconds_held at least 20` and its kin.
pub(super) fn compare(
    context: &mut Context<'_>,
    span: Span,
    left: &Sum,
    comparison: Comparison,
    right: &Sum,
) -> Option<ConditionKind> {
    let sides = [side(context, left), side(context, right)];
    resolved(context, span, Form::Compare(comparison), sides)
}

/// `seconds_held is between 10 and 20`, both ends in.
pub(super) fn between(
    context: &mut Context<'_>,
    span: Span,
    left: &Sum,
    sense: Sense,
    low: &Sum,
    high: &Sum,
) -> Option<ConditionKind> {
    let sides = [side(context, left), side(context, low), side(context, high)];
    resolved(context, span, Form::Between(sense), sides)
}

/// `points is one of (10, 20)`: any of them. Every part reads the same attribute, so the contrary is
/// that it is none of them.
pub(super) fn one_of(
    context: &mut Context<'_>,
    span: Span,
    name: &Words,
    sense: Sense,
    values: &[Words],
) -> Option<ConditionKind> {
    let alone = |operand: Operand, span: Span| Sum {
        parts: vec![SumPart {
            negative: false,
            factor: None,
            operand,
        }],
        span,
    };
    let left = alone(Operand::Name(name.clone()), name.span);
    let mut parts = Vec::with_capacity(values.len());
    let mut sound = true;
    for value in values {
        let operand = match Number::parse(&value.value) {
            Some(_) => Operand::Number {
                digits: value.clone(),
                unit: None,
            },
            None => Operand::Name(value.clone()),
        };
        let comparison = match sense {
            Sense::AsWritten => Comparison::Is,
            Sense::Contrary => Comparison::IsNot,
        };
        match compare(
            context,
            span,
            &left,
            comparison,
            &alone(operand, value.span),
        ) {
            Some(kind) => parts.push(Condition {
                kind,
                span: value.span,
            }),
            None => sound = false,
        }
    }
    sound.then_some(match sense {
        Sense::AsWritten => ConditionKind::Any(parts),
        Sense::Contrary => ConditionKind::All(parts),
    })
}

fn resolved<'k, const N: usize>(
    context: &mut Context<'k>,
    span: Span,
    form: Form,
    sides: [Option<Side<'k>>; N],
) -> Option<ConditionKind> {
    let sides: Vec<Side<'k>> = sides.into_iter().collect::<Option<_>>()?;
    let unit = common_unit(context, &sides)?;
    let mut tables: Vec<AttributeId> = Vec::new();
    for constant in sides.iter().flat_map(|side| &side.constants) {
        if let ConstantValue::Quantity(quantity) = constant.value
            && let QuantityValue::Column { by, .. } = quantity.value
            && !tables.contains(&by)
        {
            tables.push(by);
        }
    }
    let rows = tables.iter().map(|by| {
        let attribute = context.known.attribute(*by);
        attribute.map_or(1, |it| it.kind.names().len())
    });
    if rows.product::<usize>() > MOST_CASES {
        let headline = "a comparison over so many rows of tables that it cannot be spelled out";
        let label = format!("expected at most {MOST_CASES} cases");
        let help = "compare with one table at a time, or make the tables smaller";
        return context.tell(Problem::error(span, headline, label).help(help));
    }
    let question = Question {
        span,
        form,
        sides,
        unit,
    };
    if tables.is_empty() && question.sides.iter().all(|side| side.attributes.is_empty()) {
        let headline = "a comparison of fixed numbers, which no scenario changes";
        return context.tell(
            Problem::error(span, headline, "expected an attribute on one side")
                .help("compare an attribute, or leave the condition away"),
        );
    }
    question.rows(context, &tables, &mut Vec::new())
}

/// A comparison whose names and unit are known.
struct Question<'k> {
    span: Span,
    form: Form,
    sides: Vec<Side<'k>>,
    unit: Unit,
}

impl Question<'_> {
    /// One case for each row of each table.
    fn rows(
        &self,
        context: &mut Context<'_>,
        tables: &[AttributeId],
        chosen: &mut Vec<(AttributeId, usize)>,
    ) -> Option<ConditionKind> {
        let Some((by, others)) = tables.split_first() else {
            return self.in_row(context, chosen);
        };
        let values = context.known.attribute(*by)?.kind.names();
        let mut cases = Vec::with_capacity(values.len());
        let mut sound = true;
        for row in 0..values.len() {
            chosen.push((*by, row));
            let comparison = self.rows(context, others, chosen);
            chosen.pop();
            let is_row = ConditionKind::Fact {
                test: Test::OneOf {
                    attribute: *by,
                    values: ValueSet::one(row),
                },
                positive: true,
            };
            match comparison {
                Some(comparison) => cases.push(self.at(ConditionKind::All(vec![
                    self.at(is_row),
                    self.at(comparison),
                ]))),
                None => sound = false,
            }
        }
        sound.then_some(ConditionKind::Any(cases))
    }

    fn at(&self, kind: ConditionKind) -> Condition {
        Condition {
            kind,
            span: self.span,
        }
    }

    /// The comparison with every table cell put in.
    fn in_row(
        &self,
        context: &mut Context<'_>,
        rows: &[(AttributeId, usize)],
    ) -> Option<ConditionKind> {
        let mut amounts = Vec::with_capacity(self.sides.len());
        for side in &self.sides {
            let mut sum = Number::whole(0);
            for constant in &side.constants {
                let (number, unit) = match constant.cell(rows) {
                    Ok(cell) => cell,
                    Err(column) => {
                        let row = row_name(context, rows, constant);
                        return Some(ConditionKind::Missing(MissingCell { row, column }));
                    }
                };
                let converted = match unit {
                    Unit::None => Some(number),
                    unit @ Unit::Named(_) => unit
                        .factor_to(&self.unit)
                        .and_then(|factor| number.times(factor)),
                };
                let added = converted
                    .and_then(|number| number.times(constant.factor))
                    .and_then(|number| sum.plus(number));
                let Some(added) = added else {
                    return self.too_large(context);
                };
                sum = added;
            }
            amounts.push(sum);
        }
        self.check_direct(context, rows, &amounts)?;
        match (self.form, self.sides.as_slice(), amounts.as_slice()) {
            (Form::Compare(comparison), [left, right], [left_sum, right_sum]) => {
                let balance = self.balance(context, (left, *left_sum), (right, *right_sum))?;
                self.compared(context, &balance, comparison)
            }
            (Form::Between(sense), [left, low, high], [left_sum, low_sum, high_sum]) => {
                let above = self.balance(context, (left, *left_sum), (low, *low_sum))?;
                let below = self.balance(context, (left, *left_sum), (high, *high_sum))?;
                if low.attributes.is_empty() && high.attributes.is_empty() && low_sum > high_sum {
                    let span = low.span.to(high.span);
                    return context.tell(wrong_way_round(
                        span,
                        &low_sum.to_string(),
                        &high_sum.to_string(),
                    ));
                }
                self.within(context, &above, &below, sense)
            }
            _ => None,
        }
    }
}
