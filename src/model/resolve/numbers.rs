//! Comparisons of numbers: sums over attributes, quantities and literals, turned into steps.
//!
//! Both sides are brought to one unit and to one side; what is left is a weighted sum of steps
//! against a bound. A quantity from a table means a case for each row. All arithmetic is exact, and
//! what is too large to be exact is refused.

use super::conditions::{Context, Sense, only_name};
use super::names::Named;
use super::quantities::amount;
use super::values::{may_read_rulings, only_where_settled, wrong_way_round};
use crate::model::{
    AttributeId, AttributeKind, Condition, ConditionKind, Linear, MissingCell, Number, NumberRange,
    Quantity, QuantityValue, Test, Unit, ValueSet,
};
use crate::problem::Problem;
use crate::read::draft::{Comparison, Operand, Sum, SumPart, Words};
use crate::source::Span;
use num_integer::Integer;

/// A sum whose names are known.
struct Side<'k> {
    attributes: Vec<(Number, AttributeId)>,
    constants: Vec<Constant<'k>>,
    span: Span,
}

/// Something in a sum that no scenario changes (but for the row of its table).
struct Constant<'k> {
    factor: Number,
    value: ConstantValue<'k>,
    span: Span,
}

enum ConstantValue<'k> {
    Literal(Number, Unit),
    Quantity(&'k Quantity),
}

/// How the sides of a comparison stand to each other.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Form {
    /// Left and right.
    Compare(Comparison),
    /// Left, low and high.
    Between(Sense),
}

/// A weighted sum of steps, to be compared with a bound. Attributes that cancel out are kept apart:
/// the comparison still reads them.
struct Balance {
    weights: Vec<(Number, AttributeId)>,
    cancelled: Vec<AttributeId>,
    bound: Number,
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

/// The names of a sum.
fn side<'k>(context: &mut Context<'k>, sum: &Sum) -> Option<Side<'k>> {
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
fn common_unit(context: &mut Context<'_>, sides: &[Side<'_>]) -> Option<Unit> {
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
    fn units(&self) -> Vec<&Unit> {
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

    fn is_zero(&self) -> bool {
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
    fn cell(&self, rows: &[(AttributeId, usize)]) -> Result<(Number, &Unit), String> {
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
                    unit => unit
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

    fn too_large<T>(&self, context: &mut Context<'_>) -> Option<T> {
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
    fn balance(
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
    fn compared(
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
    fn within(
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

    /// Holds that what an attribute is directly compared with is one of its values.
    fn check_direct(
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

impl Balance {
    fn reads(&self) -> Vec<AttributeId> {
        let weighted = self.weights.iter().map(|(_, id)| *id);
        weighted.chain(self.cancelled.iter().copied()).collect()
    }
}

/// The name of the row that a constant is in, empty if it is in no table.
fn row_name(
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
