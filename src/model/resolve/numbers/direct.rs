//! What an attribute is directly compared with must be one of its values.

use super::Question;
use super::sides::{ConstantValue, Side, row_name};
use crate::model::resolve::conditions::Context;
use crate::model::{AttributeId, AttributeKind, Number, NumberRange, Unit};
use crate::problem::Problem;
use crate::source::Span;

impl Question<'_> {
    /// Holds that what an attribute is directly compared with is one of its values.
    pub(super) fn check_direct(
        &self,
        context: &mut Context<'_>,
        rows: &[(AttributeId, usize)],
        amounts: &[Number],
    ) -> Option<()> {
        let alone = |side: &Side<'_>| match side.attributes.as_slice() {
            [(factor, id)] if *factor == Number::whole(1) && side.constants.is_empty() => Some(*id),
            _ => None,
        };
        let constant = |side: &Side<'_>| side.attributes.is_empty();
        let (id, compared) = match self.sides.as_slice() {
            [left, right @ ..] if right.iter().all(constant) => (alone(left), 1..self.sides.len()),
            [left, right] if constant(left) => (alone(right), 0..1),
            _ => (None, 0..0),
        };
        let Some(id) = id else {
            return Some(());
        };
        let attribute = context.known.attribute(id)?;
        let AttributeKind::Number(range) = &attribute.kind else {
            return None;
        };
        let mut sound = Some(());
        for (side, value) in self
            .sides
            .iter()
            .zip(amounts)
            .skip(compared.start)
            .take(compared.len())
        {
            let value = *value;
            let Some(position) = range.position(value) else {
                return self.too_large(context);
            };
            let outside = position < Number::whole(0) || position > Number::whole(range.steps);
            if !outside && position.to_whole().is_some() {
                continue;
            }
            let mut problem = if outside {
                outside_range(side.span, &attribute.name, range, value)
            } else {
                off_step(side.span, &attribute.name, range, value, position)
            };
            for constant in &side.constants {
                if let ConstantValue::Quantity(quantity) = constant.value {
                    let row = row_name(context, rows, constant);
                    let words = if row.is_empty() {
                        format!("`{}` is defined here", quantity.name)
                    } else {
                        format!("in the row `{row}` of this column")
                    };
                    problem = problem.other(quantity.span, words);
                }
            }
            problem = problem.other(attribute.span, "the attribute");
            sound = context.tell(problem);
        }
        sound
    }
}

fn unit_after(number: Number, unit: &Unit) -> String {
    match unit {
        Unit::None => number.to_string(),
        Unit::Named(unit) => format!("{number} {unit}"),
    }
}

fn outside_range(span: Span, name: &str, range: &NumberRange, value: Number) -> Problem {
    let (low, high) = (range.low, range.value(range.steps));
    let or_more = if range.or_more { " or more" } else { "" };
    let headline = format!(
        "{} lies outside `{name}`, which runs from {low} to {}{or_more}",
        unit_after(value, &range.unit),
        unit_after(high, &range.unit)
    );
    let (nearest, end) = if value < low {
        (low, "lowest")
    } else {
        (high, "highest")
    };
    let label = format!("expected a number from {low} to {high}");
    Problem::error(span, headline, label).help(format!(
        "the {end} value is {nearest}; write that, or widen the range of `{name}`"
    ))
}

fn off_step(
    span: Span,
    name: &str,
    range: &NumberRange,
    value: Number,
    position: Number,
) -> Problem {
    let headline = format!(
        "{} is not a value of `{name}`, which moves in steps of {}",
        unit_after(value, &range.unit),
        unit_after(range.step, &range.unit)
    );
    let label = format!("expected a whole number of steps from {}", range.low);
    let problem = Problem::error(span, headline, label);
    match (position.floor(), position.ceil()) {
        (Some(below), Some(above)) => problem.help(format!(
            "the nearest values are {} and {}; write one of them, or make the step of `{name}` smaller",
            range.value(below),
            range.value(above)
        )),
        _ => problem,
    }
}
