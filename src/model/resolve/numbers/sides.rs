//! The sides of a comparison: what its names and literals are, and in which unit.

use crate::model::resolve::conditions::{Context, only_name};
use crate::model::resolve::names::Named;
use crate::model::resolve::quantities::amount;
use crate::model::resolve::values::may_read_rulings;
use crate::model::{
    AttributeId, AttributeKind, Number, NumberRange, Quantity, QuantityValue, Unit,
};
use crate::problem::Problem;
use crate::read::draft::{Operand, Sum, SumPart, Words};
use crate::source::Span;

/// A sum whose names are known.
pub(super) struct Side<'k> {
    pub(super) attributes: Vec<(Number, AttributeId)>,
    pub(super) constants: Vec<Constant<'k>>,
    pub(super) span: Span,
}

/// Something in a sum that no scenario changes (but for the row of its table).
pub(super) struct Constant<'k> {
    pub(super) factor: Number,
    pub(super) value: ConstantValue<'k>,
    pub(super) span: Span,
}

pub(super) enum ConstantValue<'k> {
    Literal(Number, Unit),
    Quantity(&'k Quantity),
}

/// The names of a sum.
pub(super) fn side<'k>(context: &mut Context<'k>, sum: &Sum) -> Option<Side<'k>> {
    let mut side = Side {
        attributes: Vec::new(),
        constants: Vec::new(),
        span: sum.span,
    };
    let mut sound = true;
    for part in &sum.parts {
        sound &= add(context, &mut side, part, only_name(sum).is_some()).is_some();
    }
    sound.then_some(side)
}

fn add<'k>(
    context: &mut Context<'k>,
    side: &mut Side<'k>,
    part: &SumPart,
    alone: bool,
) -> Option<()> {
    let whole = part.factor.as_ref().map_or(1, |factor| factor.value);
    let factor = Number::whole(whole);
    let factor = if part.negative {
        Number::whole(0).minus(factor)?
    } else {
        factor
    };
    match &part.operand {
        Operand::Number { digits, unit } => {
            let value = literal(context, digits, unit.as_ref())?;
            let span = unit
                .as_ref()
                .map_or(digits.span, |unit| digits.span.to(unit.span));
            side.constants.push(Constant {
                factor,
                value,
                span,
            });
        }
        Operand::Name(name) => match context.known.names.get(&name.value) {
            Some(Named::Attribute(id)) => {
                let attribute = context.known.attribute(id)?;
                if !matches!(attribute.kind, AttributeKind::Number(_)) {
                    return context.tell(not_a_number(context, name, alone));
                }
                side.attributes.push((factor, id));
            }
            Some(Named::Quantity(index)) => side.constants.push(Constant {
                factor,
                value: ConstantValue::Quantity(context.known.quantity(index)?),
                span: name.span,
            }),
            Some(Named::Dimension(_)) => {
                may_read_rulings(context, name)?;
                return context.tell(not_a_number(context, name, alone));
            }
            Some(Named::Broken) => return None,
            Some(Named::Table) => {
                let headline = format!("`{}` is a whole table, not one number", name.value);
                return context.tell(
                    Problem::error(name.span, headline, "expected one of its columns")
                        .help("write the name of one of its `columns`"),
                );
            }
            Some(Named::Term(_)) | None => return context.tell(not_a_number(context, name, alone)),
        },
    }
    Some(())
}

fn literal<'k>(
    context: &mut Context<'_>,
    digits: &Words,
    unit: Option<&Words>,
) -> Option<ConstantValue<'k>> {
    let number = amount(&digits.value).filter(|(_, unit)| *unit == Unit::None);
    let Some((number, _)) = number else {
        let headline = format!(
            "`{}` is not a number that can be worked with exactly",
            digits.value
        );
        return context.tell(
            Problem::error(digits.span, headline, "expected at most 24 digits")
                .help("write it like `20`, `-3` or `7.26`"),
        );
    };
    let unit = unit.map_or(Unit::None, |unit| Unit::Named(unit.value.clone()));
    Some(ConstantValue::Literal(number, unit))
}

/// A word in a place for numbers that is none.
fn not_a_number(context: &Context<'_>, name: &Words, alone: bool) -> Problem {
    let known = context.known;
    let is_number = |named: Named| match named {
        Named::Quantity(_) => true,
        Named::Attribute(id) => known
            .attribute(id)
            .is_some_and(|it| matches!(it.kind, AttributeKind::Number(_))),
        _ => false,
    };
    let problem = match known.names.get(&name.value) {
        None => return known.unknown(name, "a number or a quantity", is_number),
        Some(named) => {
            let headline = format!(
                "`{}` is {} that is not a number",
                name.value,
                named.described()
            );
            Problem::error(name.span, headline, "expected a number or a quantity")
        }
    };
    let values = match known.names.get(&name.value) {
        Some(Named::Attribute(id)) => known.attribute(id).map(|it| it.kind.names()),
        Some(Named::Dimension(id)) => known.dimension(id).map(|it| it.values.as_slice()),
        _ => None,
    };
    match values.and_then(<[_]>::first).filter(|_| alone) {
        Some(value) => problem.help(format!(
            "to say that it has a value of its own, write its name first: `{}`",
            known.holding(&name.value, &value.name)
        )),
        None => problem.help("only numbers can be compared, added and multiplied"),
    }
}

/// The unit that everything is converted to: that of the first attribute, else the first there is.
/// `None` after telling what can't be converted, or what is left open by a literal without a unit.
pub(super) fn common_unit(context: &mut Context<'_>, sides: &[Side<'_>]) -> Option<Unit> {
    let known = context.known;
    let attributes = sides.iter().flat_map(|side| &side.attributes);
    let ranges: Vec<(&str, &NumberRange)> = attributes
        .filter_map(|(_, id)| match known.attribute(*id) {
            Some(attribute) => match &attribute.kind {
                AttributeKind::Number(range) => Some((attribute.name.as_str(), range)),
                _ => None,
            },
            None => None,
        })
        .collect();
    let constants = || sides.iter().flat_map(|side| &side.constants);
    let Some((first, range)) = ranges.first() else {
        let units = constants().flat_map(|constant| constant.units());
        let named = units.into_iter().find(|unit| **unit != Unit::None);
        return Some(named.cloned().unwrap_or(Unit::None));
    };
    let unit = &range.unit;
    let whole = sides.first()?.span.to(sides.last()?.span);
    for (name, other) in &ranges {
        if other.unit.factor_to(unit).is_none() {
            let headline = format!(
                "`{first}` counts {} and `{name}` counts {}: they cannot be compared",
                counts(unit),
                counts(&other.unit)
            );
            let problem = Problem::error(whole, headline, "expected numbers of one kind").help(
                "give both a unit of the same kind, or compare each with a number of its own",
            );
            return context.tell(problem);
        }
    }
    let same = ranges.iter().all(|(_, other)| other.unit == *unit);
    let mut sound = true;
    let mut told = Vec::new();
    for constant in constants() {
        for written in constant.units() {
            if *written == Unit::None {
                if !same && !constant.is_zero() {
                    sound = false;
                    told.push(
                        Problem::error(
                            constant.span,
                            "a number without a unit between attributes of different units",
                            "expected a unit",
                        )
                        .help(format!(
                            "write the unit after the number, for example `{unit}`"
                        )),
                    );
                }
            } else if written.factor_to(unit).is_none() {
                sound = false;
                let headline = format!(
                    "an amount in {} is compared with `{first}`, which counts {}",
                    counts(written),
                    counts(unit)
                );
                let label = match unit {
                    Unit::None => "expected a number without a unit".to_owned(),
                    Unit::Named(unit) => {
                        format!("expected a number in {unit}, or in another unit of its kind")
                    }
                };
                let mut problem = Problem::error(constant.span, headline, label).help(match unit {
                    Unit::None => format!("leave the unit away, or give `{first}` a `unit`"),
                    Unit::Named(unit) => format!(
                        "write it in {unit}; a number without a unit is taken as {unit} too"
                    ),
                });
                if let ConstantValue::Quantity(quantity) = constant.value {
                    problem = problem.other(quantity.span, "it is defined here");
                }
                told.push(problem);
            }
            if !sound {
                break;
            }
        }
    }
    context.problems.extend(told);
    sound.then(|| unit.clone())
}

fn counts(unit: &Unit) -> String {
    match unit {
        Unit::None => "bare numbers".to_owned(),
        Unit::Named(unit) => format!("`{unit}`"),
    }
}

impl Constant<'_> {
    /// The units that it has, in any row.
    pub(super) fn units(&self) -> Vec<&Unit> {
        match &self.value {
            ConstantValue::Literal(_, unit) => vec![unit],
            ConstantValue::Quantity(quantity) => match &quantity.value {
                QuantityValue::Constant(_, unit) => vec![unit],
                QuantityValue::Column { cells, .. } => {
                    cells.iter().flatten().map(|(_, unit)| unit).collect()
                }
            },
        }
    }

    pub(super) fn is_zero(&self) -> bool {
        let zero = |number: &Number| *number == Number::whole(0);
        match &self.value {
            ConstantValue::Literal(number, _) => zero(number),
            ConstantValue::Quantity(quantity) => match &quantity.value {
                QuantityValue::Constant(number, _) => zero(number),
                QuantityValue::Column { cells, .. } => {
                    cells.iter().flatten().all(|cell| zero(&cell.0))
                }
            },
        }
    }

    /// Its amount in a row; `Err` where the table has none.
    pub(super) fn cell(&self, rows: &[(AttributeId, usize)]) -> Result<(Number, &Unit), String> {
        match &self.value {
            ConstantValue::Literal(number, unit) => Ok((*number, unit)),
            ConstantValue::Quantity(quantity) => match &quantity.value {
                QuantityValue::Constant(number, unit) => Ok((*number, unit)),
                QuantityValue::Column { by, cells } => {
                    let row = rows.iter().find(|(of, _)| of == by).map(|(_, row)| *row);
                    let cell = row.and_then(|row| cells.get(row)).and_then(Option::as_ref);
                    cell.map(|(number, unit)| (*number, unit))
                        .ok_or_else(|| quantity.name.clone())
                }
            },
        }
    }
}

/// The name of the row that a constant is in, empty if it is in no table.
pub(super) fn row_name(
    context: &Context<'_>,
    rows: &[(AttributeId, usize)],
    constant: &Constant<'_>,
) -> String {
    let ConstantValue::Quantity(quantity) = constant.value else {
        return String::new();
    };
    let QuantityValue::Column { by, .. } = quantity.value else {
        return String::new();
    };
    let row = rows.iter().find(|(of, _)| *of == by).map(|(_, row)| *row);
    let values = context.known.attribute(by).map(|it| it.kind.names());
    row.and_then(|row| values?.get(row))
        .map_or_else(String::new, |value| value.name.clone())
}
