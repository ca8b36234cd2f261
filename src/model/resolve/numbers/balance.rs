//! A comparison with everything on one side, in steps: a weighted sum against a bound.

use super::Question;
use super::sides::Side;
use crate::model::resolve::conditions::{Context, Sense};
use crate::model::resolve::values::only_where_settled;
use crate::model::{
    AttributeId, AttributeKind, Condition, ConditionKind, Linear, Number, NumberRange, Test,
};
use crate::problem::Problem;
use crate::read::draft::Comparison;
use crate::source::Span;
use num_integer::Integer;

/// A weighted sum of steps, to be compared with a bound. Attributes that cancel out are kept apart:
/// the comparison still reads them.
pub(super) struct Balance {
    weights: Vec<(Number, AttributeId)>,
    cancelled: Vec<AttributeId>,
    bound: Number,
}

impl Question<'_> {
    pub(super) fn too_large<T>(&self, context: &mut Context<'_>) -> Option<T> {
        context.tell(
            Problem::error(
                self.span,
                "the numbers of this comparison are too large to be worked with exactly",
                "expected smaller numbers, or fewer decimals,",
            )
            .help("choose a larger step, or units that are closer to each other"),
        )
    }

    /// Everything on one side, in steps.
    pub(super) fn balance(
        &self,
        context: &mut Context<'_>,
        (left, left_sum): (&Side<'_>, Number),
        (right, right_sum): (&Side<'_>, Number),
    ) -> Option<Balance> {
        let known = context.known;
        let made = (|| {
            let mut weights: Vec<(Number, AttributeId)> = Vec::new();
            let mut bound = right_sum.minus(left_sum)?;
            let minus_one = Number::whole(-1);
            let right_parts = right.attributes.iter();
            let right_parts = right_parts.map(|(factor, id)| Some((factor.times(minus_one)?, *id)));
            let parts = left
                .attributes
                .iter()
                .map(|part| Some(*part))
                .chain(right_parts);
            for part in parts {
                let (factor, id) = part?;
                let AttributeKind::Number(range) = &known.attribute(id)?.kind else {
                    return None;
                };
                let factor = factor.times(range.unit.factor_to(&self.unit)?)?;
                bound = bound.minus(factor.times(range.low)?)?;
                let weight = factor.times(range.step)?;
                match weights.iter_mut().find(|(_, other)| *other == id) {
                    Some((sum, _)) => *sum = sum.plus(weight)?,
                    None => weights.push((weight, id)),
                }
            }
            let (cancelled, weights) = weights
                .into_iter()
                .partition(|(weight, _)| *weight == Number::whole(0));
            let cancelled: Vec<(Number, AttributeId)> = cancelled;
            Some(Balance {
                weights,
                cancelled: cancelled.into_iter().map(|(_, id)| id).collect(),
                bound,
            })
        })();
        match made {
            None => self.too_large(context),
            made => made,
        }
    }

    /// `sum (comparison) bound`.
    pub(super) fn compared(
        &self,
        context: &mut Context<'_>,
        balance: &Balance,
        comparison: Comparison,
    ) -> Option<ConditionKind> {
        let kind = match balance.weights.as_slice() {
            [] => self.constant(context, balance, comparison)?,
            [(weight, id)] => {
                let (low, high, sense) =
                    self.interval(context, balance, (*weight, *id), comparison)?;
                within(*id, low, high, sense)
            }
            _ => self.sum(context, balance, comparison)?,
        };
        Some(self.reading_too(context, kind, &balance.cancelled))
    }

    /// A sum of several attributes against its bound.
    fn sum(
        &self,
        context: &mut Context<'_>,
        balance: &Balance,
        comparison: Comparison,
    ) -> Option<ConditionKind> {
        self.no_open_top(context, balance)?;
        let both = |context: &mut Context<'_>, first, second| {
            let parts = [first, second].map(|bound| self.linear(context, balance, bound));
            parts.into_iter().collect::<Option<Vec<_>>>()
        };
        Some(match comparison {
            Comparison::AtMost => self.linear(context, balance, Bound::AtMost)?.kind,
            Comparison::LessThan => self.linear(context, balance, Bound::Below)?.kind,
            Comparison::AtLeast => self.linear(context, balance, Bound::AtLeast)?.kind,
            Comparison::MoreThan => self.linear(context, balance, Bound::Above)?.kind,
            Comparison::Is => ConditionKind::All(both(context, Bound::AtMost, Bound::AtLeast)?),
            Comparison::IsNot => ConditionKind::Any(both(context, Bound::Below, Bound::Above)?),
        })
    }

    /// A sum against a bound as one comparison of whole numbers.
    fn linear(
        &self,
        context: &mut Context<'_>,
        balance: &Balance,
        bound: Bound,
    ) -> Option<Condition> {
        match linear(balance, bound).filter(|it| fits(context, it)) {
            Some(linear) => Some(self.at(ConditionKind::Fact {
                test: Test::Linear(linear),
                positive: true,
            })),
            None => self.too_large(context),
        }
    }

    /// A comparison whose attributes have all cancelled out: true or false wherever they are asked.
    fn constant(
        &self,
        context: &mut Context<'_>,
        balance: &Balance,
        comparison: Comparison,
    ) -> Option<ConditionKind> {
        let zero = Number::whole(0);
        let holds = match comparison {
            Comparison::Is => zero == balance.bound,
            Comparison::IsNot => zero != balance.bound,
            Comparison::AtLeast => zero >= balance.bound,
            Comparison::AtMost => zero <= balance.bound,
            Comparison::MoreThan => zero > balance.bound,
            Comparison::LessThan => zero < balance.bound,
        };
        Some(match balance.cancelled.first() {
            Some(id) => everywhere(context, *id, Sense::contrary_if(!holds))?,
            None if holds => ConditionKind::Always,
            None => ConditionKind::Not(Box::new(self.at(ConditionKind::Always))),
        })
    }

    /// The steps of one attribute at which a comparison holds (or, for the contrary, does not).
    fn interval(
        &self,
        context: &mut Context<'_>,
        balance: &Balance,
        (weight, id): (Number, AttributeId),
        comparison: Comparison,
    ) -> Option<(i64, i64, Sense)> {
        let attribute = context.known.attribute(id)?;
        let AttributeKind::Number(range) = &attribute.kind else {
            return None;
        };
        let comparison = if weight < Number::whole(0) {
            turned(comparison)
        } else {
            comparison
        };
        let Some(edge) = balance.bound.over(weight) else {
            return self.too_large(context);
        };
        let top = Number::whole(range.steps);
        let splits = range.or_more
            && match comparison {
                Comparison::AtLeast | Comparison::LessThan => edge > top,
                Comparison::MoreThan | Comparison::AtMost | Comparison::Is | Comparison::IsNot => {
                    edge >= top
                }
            };
        if splits {
            let problem = split_top(self.span, &attribute.name, range, attribute.span);
            return context.tell(problem);
        }
        let ends = (|| {
            let next_down = |number: Number| number.ceil().and_then(|it| it.checked_sub(1));
            let next_up = |number: Number| number.floor().and_then(|it| it.checked_add(1));
            Some(match comparison {
                Comparison::AtLeast => (edge.ceil()?, range.steps, Sense::AsWritten),
                Comparison::MoreThan => (next_up(edge)?, range.steps, Sense::AsWritten),
                Comparison::AtMost => (0, edge.floor()?, Sense::AsWritten),
                Comparison::LessThan => (0, next_down(edge)?, Sense::AsWritten),
                Comparison::Is => (edge.ceil()?, edge.floor()?, Sense::AsWritten),
                Comparison::IsNot => (edge.ceil()?, edge.floor()?, Sense::Contrary),
            })
        })();
        match ends {
            None => self.too_large(context),
            ends => ends,
        }
    }

    /// Between two bounds, both in.
    pub(super) fn within(
        &self,
        context: &mut Context<'_>,
        above: &Balance,
        below: &Balance,
        sense: Sense,
    ) -> Option<ConditionKind> {
        if let ([one], [other]) = (above.weights.as_slice(), below.weights.as_slice())
            && one == other
            && above.cancelled == below.cancelled
        {
            let (floor, ceiling) = if one.0 < Number::whole(0) {
                (below, above)
            } else {
                (above, below)
            };
            let positive_from = |negative: bool| {
                if negative {
                    (Comparison::AtMost, Comparison::AtLeast)
                } else {
                    (Comparison::AtLeast, Comparison::AtMost)
                }
            };
            let (from, to) = positive_from(one.0 < Number::whole(0));
            let (low, _, _) = self.interval(context, floor, *one, from)?;
            let (_, high, _) = self.interval(context, ceiling, *one, to)?;
            let kind = within(one.1, low, high, sense);
            return Some(self.reading_too(context, kind, &above.cancelled));
        }
        let (from, to) = match sense {
            Sense::AsWritten => (Comparison::AtLeast, Comparison::AtMost),
            Sense::Contrary => (Comparison::LessThan, Comparison::MoreThan),
        };
        let halves = [
            self.compared(context, above, from),
            self.compared(context, below, to),
        ];
        let [Some(lower), Some(upper)] = halves else {
            return None;
        };
        let missing = |of: &Balance, other: &Balance| -> Vec<AttributeId> {
            let reads = of.reads();
            other
                .reads()
                .into_iter()
                .filter(|id| !reads.contains(id))
                .collect()
        };
        let lower = self.reading_too(context, lower, &missing(above, below));
        let upper = self.reading_too(context, upper, &missing(below, above));
        let halves = vec![self.at(lower), self.at(upper)];
        Some(match sense {
            Sense::AsWritten => ConditionKind::All(halves),
            Sense::Contrary => ConditionKind::Any(halves),
        })
    }

    /// The comparison, neither true nor false where one of these attributes is not asked.
    fn reading_too(
        &self,
        context: &Context<'_>,
        kind: ConditionKind,
        attributes: &[AttributeId],
    ) -> ConditionKind {
        let reads_already = |kind: &ConditionKind, id: AttributeId| match kind {
            ConditionKind::Fact { test, .. } => test.attributes().contains(&id),
            _ => false,
        };
        let missing = attributes.iter().filter(|id| !reads_already(&kind, **id));
        let missing: Vec<AttributeId> = missing.copied().collect();
        missing.into_iter().fold(kind, |kind, id| {
            let sides =
                [Sense::AsWritten, Sense::Contrary].map(|sense| everywhere(context, id, sense));
            match sides {
                [Some(holds), Some(fails)] => {
                    only_where_settled(self.at(kind), self.at(holds), self.at(fails)).kind
                }
                _ => kind,
            }
        })
    }

    /// Refuses sums over an attribute whose top value stands for all above it.
    fn no_open_top(&self, context: &mut Context<'_>, balance: &Balance) -> Option<()> {
        for (_, id) in &balance.weights {
            let attribute = context.known.attribute(*id)?;
            if let AttributeKind::Number(range) = &attribute.kind
                && range.or_more
            {
                let headline = format!(
                    "`{}` cannot be part of a sum: its top value stands for all above it",
                    attribute.name
                );
                let problem = Problem::error(
                    self.span,
                    headline,
                    "numbers without `or more` were expected in a sum",
                )
                .other(
                    attribute.span,
                    format!(
                        "{} here means {} or more",
                        range.value(range.steps),
                        range.value(range.steps)
                    ),
                )
                .help("give it a top that is never exceeded, and leave `or more` away");
                return context.tell(problem);
            }
        }
        Some(())
    }
}

impl Balance {
    fn reads(&self) -> Vec<AttributeId> {
        let weighted = self.weights.iter().map(|(_, id)| *id);
        weighted.chain(self.cancelled.iter().copied()).collect()
    }
}

fn split_top(span: Span, name: &str, range: &NumberRange, defined: Span) -> Problem {
    let top = range.value(range.steps);
    let headline =
        format!("this would split the top value of `{name}`: {top} there means {top} or more");
    Problem::error(
        span,
        headline,
        "expected a comparison that treats all of the top alike",
    )
    .other(defined, format!("its top value is {top} or more"))
    .help(format!(
        "write `{name} at least {top}` or `{name} less than {top}`, or give `{name}` a higher top"
    ))
}

fn turned(comparison: Comparison) -> Comparison {
    match comparison {
        Comparison::AtLeast => Comparison::AtMost,
        Comparison::AtMost => Comparison::AtLeast,
        Comparison::MoreThan => Comparison::LessThan,
        Comparison::LessThan => Comparison::MoreThan,
        same => same,
    }
}

fn within(attribute: AttributeId, low: i64, high: i64, sense: Sense) -> ConditionKind {
    ConditionKind::Fact {
        test: Test::Within {
            attribute,
            low,
            high,
        },
        positive: sense.positive(),
    }
}

/// True (for the contrary, false) wherever the attribute is asked.
fn everywhere(context: &Context<'_>, id: AttributeId, sense: Sense) -> Option<ConditionKind> {
    match &context.known.attribute(id)?.kind {
        AttributeKind::Number(range) => Some(within(id, 0, range.steps, sense)),
        _ => None,
    }
}

/// On which side of the bound a sum lies.
#[derive(Clone, Copy)]
enum Bound {
    AtMost,
    Below,
    AtLeast,
    Above,
}

/// `sum (on that side of) bound` as whole weights with the sum at most a whole bound, in lowest terms.
fn linear(balance: &Balance, bound: Bound) -> Option<Linear> {
    let mut scale: i128 = 1;
    for (weight, _) in &balance.weights {
        let denominator = weight.denominator();
        let common = scale.gcd(&denominator);
        scale = scale.checked_mul(denominator / common)?;
    }
    let scale = Number::whole(i64::try_from(scale).ok()?);
    let sign = match bound {
        Bound::AtMost | Bound::Below => Number::whole(1),
        Bound::AtLeast | Bound::Above => Number::whole(-1),
    };
    let factor = scale.times(sign)?;
    let mut parts = Vec::with_capacity(balance.weights.len());
    let mut shared: i128 = 0;
    for (weight, id) in &balance.weights {
        let weight = weight.times(factor)?.to_whole()?;
        shared = shared.gcd(&i128::from(weight));
        parts.push((weight, *id));
    }
    let shared = i64::try_from(shared).ok()?;
    let lowered = balance.bound.times(factor)?.over(Number::whole(shared))?;
    let bound = match bound {
        Bound::AtMost | Bound::AtLeast => lowered.floor()?,
        Bound::Below | Bound::Above => lowered.ceil()?.checked_sub(1)?,
    };
    let parts = parts.into_iter().map(|(weight, id)| (weight / shared, id));
    Some(Linear {
        parts: parts.collect(),
        bound,
    })
}

/// Whether the sum stays within 64 bits at every scenario, so that nobody who works it out overflows.
fn fits(context: &Context<'_>, linear: &Linear) -> bool {
    let largest = linear.parts.iter().map(|(weight, id)| {
        let steps = match context.known.attribute(*id).map(|it| &it.kind) {
            Some(AttributeKind::Number(range)) => range.steps,
            _ => 0,
        };
        i128::from(weight.unsigned_abs()) * i128::from(steps)
    });
    largest.sum::<i128>() <= i128::from(i64::MAX / 2)
        && i128::from(linear.bound.unsigned_abs()) <= i128::from(i64::MAX / 2)
}
