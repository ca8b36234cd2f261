//! Conditions: from words to what they mean.
//!
//! Every problem of a condition is told, not the first alone, so parts are resolved even where one
//! of them failed.

use super::names::{Known, Named};
use super::{numbers, values};
use crate::model::{AttributeKind, Condition, ConditionKind, RulingTest, Test, ValueSet};
use crate::problem::Problem;
use crate::read::draft::{
    Amount, Comparison, Expr, ExprKind, Included, Operand, Sum, WhenSeveral, Words,
};
use crate::source::{Span, Spanned};

/// Whether a condition may read rulings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ConditionScope {
    /// Only what can be established about the action: attributes and terms.
    Facts,
    /// Rulings as well.
    Rulings,
}

/// What a condition is resolved with.
pub(super) struct Context<'a> {
    /// What the names mean.
    pub(super) known: Known<'a>,
    /// Whether rulings may be read.
    pub(super) scope: ConditionScope,
    /// Where the condition stands, for problems: "a background line".
    pub(super) place: &'static str,
    /// Where problems go.
    pub(super) problems: &'a mut Vec<Problem>,
}

impl Context<'_> {
    /// Tells a problem; `None`, so that it can end a function.
    pub(super) fn tell<T>(&mut self, problem: Problem) -> Option<T> {
        self.problems.push(problem);
        None
    }
}

/// Resolves a condition; `None` after telling every problem in it.
pub(super) fn condition(context: &mut Context<'_>, expr: &Expr) -> Option<Condition> {
    let span = expr.span;
    let kind = match &expr.kind {
        ExprKind::Always => ConditionKind::Always,
        ExprKind::Name(name) => bare_name(context, &Spanned::new(name.clone(), span))?,
        ExprKind::Not(part) => ConditionKind::Not(Box::new(condition(context, part)?)),
        ExprKind::All(parts) => ConditionKind::All(conditions(context, parts)?),
        ExprKind::Any(parts) => ConditionKind::Any(conditions(context, parts)?),
        ExprKind::NoneOf(parts) => {
            let parts = conditions(context, parts)?;
            ConditionKind::All(parts.into_iter().map(not_true).collect())
        }
        ExprKind::Count { amount, of } => {
            let parts = conditions(context, of)?;
            let (least, most) = bounds(context, amount, parts.len());
            ConditionKind::Count {
                least,
                most,
                of: parts,
            }
        }
        ExprKind::Compare {
            left,
            comparison,
            right,
        } => compare(context, span, left, *comparison, right)?,
        ExprKind::Between {
            left,
            negated,
            low,
            high,
        } => between(context, span, left, *negated, low, high)?,
        ExprKind::OneOf {
            left,
            negated,
            values,
        } => one_of(context, span, left, *negated, values)?,
        ExprKind::SameAs {
            left,
            negated,
            right,
        } => values::same_as(context, span, left, *negated, right)?,
        ExprKind::Includes {
            left,
            amount,
            items,
        } => {
            let list = list(context, left, items)?;
            let items = items_of(context, &list, items)?;
            let count = count(items.len());
            let (least, most) = match amount {
                Included::All => (count, count),
                Included::Any => (1, count),
                Included::None => (0, 0),
                Included::Count(amount) => bounds(context, amount, items.len()),
            };
            list.has(items, least, most, Sense::AsWritten)
        }
        ExprKind::Empty { left, negated } => {
            let list = list(context, left, &[])?;
            let sense = Sense::contrary_if(*negated);
            list.has(list.all, 0, 0, sense)
        }
        ExprKind::Only {
            left,
            negated,
            items,
        } => {
            let list = list(context, left, items)?;
            let items = items_of(context, &list, items)?;
            only(&list, items, *negated, span)
        }
    };
    Some(Condition { kind, span })
}

/// Resolves every part, so that the problems of all are told.
fn conditions(context: &mut Context<'_>, parts: &[Expr]) -> Option<Vec<Condition>> {
    let parts: Vec<Option<Condition>> = parts.iter().map(|part| condition(context, part)).collect();
    parts.into_iter().collect()
}

/// True where the part is not true.
pub(super) fn not_true(part: Condition) -> Condition {
    let span = part.span;
    Condition {
        kind: ConditionKind::NotTrue(Box::new(part)),
        span,
    }
}

/// Whether a comparison is meant as written, or its contrary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sense {
    /// As written.
    AsWritten,
    /// The contrary comparison.
    Contrary,
}

impl Sense {
    /// The contrary where there is a negation.
    pub(super) fn contrary_if(negated: bool) -> Sense {
        if negated {
            Sense::Contrary
        } else {
            Sense::AsWritten
        }
    }

    /// The flag of the model's comparisons.
    pub(super) fn positive(self) -> bool {
        self == Sense::AsWritten
    }
}

/// A number of things as the model counts them.
fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

/// Fewest and most of so many parts; an amount that can never or must always be reached is worth a warning.
fn bounds(context: &mut Context<'_>, amount: &Amount, parts: usize) -> (u32, u32) {
    let parts = count(parts);
    let (written, least, most) = match amount {
        Amount::AtLeast(n) => (n, n.value, parts),
        Amount::Exactly(n) => (n, n.value, n.value),
        Amount::AtMost(n) => (n, 0, n.value.min(parts)),
    };
    let things = if parts == 1 {
        "1 thing is"
    } else {
        &format!("{parts} things are")
    };
    let always = least == 0 && most == parts;
    if least > parts || always {
        let (never_or_always, what) = if always {
            ("always", "this is always reached")
        } else {
            ("never", "this is never reached")
        };
        context.problems.push(
            Problem::warning(
                written.span,
                format!("a count that {never_or_always} holds: {things} counted here"),
                what,
            )
            .help("check the number, or the list after it"),
        );
    }
    (least, most)
}

fn bare_name(context: &mut Context<'_>, name: &Words) -> Option<ConditionKind> {
    let known = context.known;
    match known.names.get(&name.value) {
        Some(Named::Term(id)) => return Some(ConditionKind::Term(id)),
        Some(Named::Attribute(id)) => match &known.attribute(id)?.kind {
            AttributeKind::YesNo => {
                return Some(ConditionKind::Fact {
                    test: Test::OneOf {
                        attribute: id,
                        values: ValueSet::one(1),
                    },
                    positive: true,
                });
            }
            AttributeKind::Number(range) => {
                let example = format!("{} at least {}", name.value, range.value(range.steps / 2));
                return context.tell(half_said(name, "a number", &example));
            }
            AttributeKind::Several(items) => {
                let example = items.first().map_or("...", |item| item.name.as_str());
                let example = format!("{} includes {example}", name.value);
                return context.tell(half_said(name, "a list of items", &example));
            }
            AttributeKind::Choice(values) | AttributeKind::Scale(values) => {
                let example = values.first().map_or("...", |value| value.name.as_str());
                let example = format!("{} is {example}", name.value);
                return context.tell(half_said(
                    name,
                    "an attribute with several values",
                    &example,
                ));
            }
        },
        Some(Named::Dimension(id)) => {
            let values = &known.dimension(id)?.values;
            let example = values.first().map_or("...", |value| value.name.as_str());
            let example = known.holding(&name.value, example);
            return context.tell(half_said(name, "a dimension of rulings", &example));
        }
        Some(Named::Quantity(_) | Named::Table) => {
            let example = format!("... at least {}", name.value);
            return context.tell(half_said(name, "a quantity", &example));
        }
        Some(Named::Broken) => return None,
        None => {}
    }
    let wanted = |named: Named| match named {
        Named::Term(_) => true,
        Named::Attribute(id) => known
            .attribute(id)
            .is_some_and(|it| it.kind == AttributeKind::YesNo),
        _ => false,
    };
    let problem = known.unknown(name, "a yes/no attribute or a term", wanted);
    context.tell(match name.value.to_lowercase().as_str() {
        "yes" | "true" | "on" => problem.help("a condition that always holds is `always`"),
        "no" | "false" | "off" => problem.help(
            "a fact answered no is `not` before its name; a clause that never applies is left out",
        ),
        _ => problem,
    })
}

fn half_said(name: &Words, what: &str, example: &str) -> Problem {
    let headline = format!("`{}` alone is not a condition: it is {what}", name.value);
    Problem::error(name.span, headline, "expected a comparison")
        .help(format!("write what must hold of it, as in `{example}`"))
}

/// The one name that a side consists of, if it does.
pub(super) fn only_name(sum: &Sum) -> Option<&Words> {
    match sum.parts.as_slice() {
        [part] if !part.negative && part.factor.is_none() => match &part.operand {
            Operand::Name(name) => Some(name),
            Operand::Number { .. } => None,
        },
        _ => None,
    }
}

fn compare(
    context: &mut Context<'_>,
    span: Span,
    left: &Sum,
    comparison: Comparison,
    right: &Sum,
) -> Option<ConditionKind> {
    if let Some(name) = only_name(left) {
        match context.known.names.get(&name.value) {
            Some(Named::Attribute(id)) => {
                let attribute = context.known.attribute(id)?;
                if !matches!(attribute.kind, AttributeKind::Number(_)) {
                    return values::compare(context, name, comparison, right);
                }
            }
            Some(Named::Dimension(_) | Named::Term(_)) => {
                return values::compare(context, name, comparison, right);
            }
            Some(Named::Broken) => return None,
            Some(Named::Quantity(_) | Named::Table) => {}
            None => {
                let wanted = |named| !matches!(named, Named::Term(_) | Named::Table);
                let problem =
                    context
                        .known
                        .unknown(name, "an attribute, a quantity or a dimension", wanted);
                return context.tell(problem);
            }
        }
    }
    numbers::compare(context, span, left, comparison, right)
}

/// `phase is one of (ground, transition)`; a number may be one of several too.
fn one_of(
    context: &mut Context<'_>,
    span: Span,
    name: &Words,
    negated: bool,
    values: &[Words],
) -> Option<ConditionKind> {
    let number = match context.known.names.get(&name.value) {
        Some(Named::Attribute(id)) => {
            matches!(context.known.attribute(id)?.kind, AttributeKind::Number(_))
        }
        _ => false,
    };
    if number {
        return numbers::one_of(context, span, name, Sense::contrary_if(negated), values);
    }
    values::one_of(context, name, negated, values)
}

fn between(
    context: &mut Context<'_>,
    span: Span,
    left: &Sum,
    negated: bool,
    low: &Sum,
    high: &Sum,
) -> Option<ConditionKind> {
    if let Some(name) = only_name(left) {
        let number = match context.known.names.get(&name.value) {
            Some(Named::Attribute(id)) => {
                matches!(context.known.attribute(id)?.kind, AttributeKind::Number(_))
            }
            Some(Named::Dimension(_) | Named::Term(_)) => false,
            _ => true,
        };
        if !number {
            return values::between(context, name, negated, low, high);
        }
    }
    numbers::between(context, span, left, Sense::contrary_if(negated), low, high)
}

/// Something that has any number of items: a `several`, or the rulings of a dimension where all apply.
struct List<'a> {
    name: &'a str,
    of: ListOf,
    all: ValueSet,
}

enum ListOf {
    Attribute(crate::model::AttributeId),
    Dimension(crate::model::DimensionId),
}

impl List<'_> {
    fn has(&self, items: ValueSet, least: u32, most: u32, sense: Sense) -> ConditionKind {
        let positive = sense.positive();
        match self.of {
            ListOf::Attribute(attribute) => ConditionKind::Fact {
                test: Test::Several {
                    attribute,
                    items,
                    least,
                    most,
                },
                positive,
            },
            ListOf::Dimension(dimension) => ConditionKind::Ruling {
                dimension,
                test: RulingTest::Includes { items, least, most },
                positive,
            },
        }
    }
}

/// Exactly these items: all of them and none of the rest. The contrary is one comparison too, since
/// both halves read the same list: neither where it isn't asked, else the one or the other.
fn only(list: &List<'_>, items: ValueSet, negated: bool, span: Span) -> ConditionKind {
    let rest = list.all.minus(items);
    let number = count(items.len());
    let sense = Sense::contrary_if(negated);
    let listed = list.has(items, number, number, sense);
    if rest.is_empty() {
        return listed;
    }
    let others = list.has(rest, 0, 0, sense);
    let halves = [listed, others].map(|kind| Condition { kind, span });
    if negated {
        ConditionKind::Any(halves.into())
    } else {
        ConditionKind::All(halves.into())
    }
}

/// What has items; `written` are the items that were asked for, for what to write instead.
fn list<'a>(context: &mut Context<'_>, name: &'a Words, written: &[Words]) -> Option<List<'a>> {
    let known = context.known;
    let wanted = |named: Named| match named {
        Named::Attribute(id) => known
            .attribute(id)
            .is_some_and(|it| matches!(it.kind, AttributeKind::Several(_))),
        Named::Dimension(id) => known
            .dimension(id)
            .is_some_and(|it| it.when_several == WhenSeveral::AllApply),
        _ => false,
    };
    let found = match known.names.get(&name.value) {
        Some(Named::Broken) => return None,
        Some(named @ Named::Attribute(id)) if wanted(named) => {
            let items = known.attribute(id)?.kind.names();
            return Some(List {
                name: &name.value,
                of: ListOf::Attribute(id),
                all: ValueSet::first(items.len()),
            });
        }
        Some(named @ Named::Dimension(id)) if wanted(named) => {
            values::may_read_rulings(context, name)?;
            return Some(List {
                name: &name.value,
                of: ListOf::Dimension(id),
                all: ValueSet::first(known.dimension(id)?.values.len()),
            });
        }
        found => found,
    };
    let values = match found {
        Some(Named::Attribute(id)) => known.attribute(id)?.kind.names(),
        Some(Named::Dimension(id)) => &known.dimension(id)?.values,
        _ => {
            let expected = "a list of items (`several`) or a dimension where all rulings apply";
            return context.tell(known.unknown(name, expected, wanted));
        }
    };
    let headline = format!("`{}` is one value, not a list of items", name.value);
    let problem = Problem::error(name.span, headline, "expected the name of a `several`");
    let known: Vec<&str> = values.iter().map(|value| value.name.as_str()).collect();
    let meant = written.iter().map(|word| word.value.as_str());
    let meant: Vec<&str> = meant.filter(|word| known.contains(word)).collect();
    context.tell(match (meant.as_slice(), known.as_slice()) {
        ([one], _) | ([], [one, ..]) => problem.help(format!("write `{} is {one}`", name.value)),
        ([], []) => problem.help("write what its one value must be"),
        (several, _) => problem.help(format!(
            "write `{} is one of ({})`",
            name.value,
            several.join(", ")
        )),
    })
}

/// The indices of the items written.
fn items_of(context: &mut Context<'_>, list: &List<'_>, items: &[Words]) -> Option<ValueSet> {
    let known = context.known;
    let values = match list.of {
        ListOf::Attribute(id) => known.attribute(id)?.kind.names(),
        ListOf::Dimension(id) => &known.dimension(id)?.values,
    };
    values::set_of(context, list.name, values, items)
}
