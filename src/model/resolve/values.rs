//! Comparisons over choices, scales and rulings.

use super::conditions::{ConditionScope, Context, Sense, only_name};
use super::names::{Known, Named};
use super::words::all_of;
use crate::model::{
    AttributeId, AttributeKind, Condition, ConditionKind, DimensionId, NamedValue, RulingTest,
    Test, ValueSet,
};
use crate::problem::{Problem, nearest};
use crate::read::draft::{Comparison, Operand, Sum, WhenSeveral, Words};
use crate::source::{Span, Spanned};

/// What has one of several named values.
#[derive(Clone, Copy)]
struct Subject<'a> {
    name: &'a Words,
    of: SubjectOf,
    values: &'a [NamedValue],
    ordered: bool,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum SubjectOf {
    Attribute(AttributeId),
    Dimension(DimensionId),
}

impl Subject<'_> {
    fn is(self, values: ValueSet, sense: Sense) -> ConditionKind {
        let positive = sense.positive();
        match self.of {
            SubjectOf::Attribute(attribute) => ConditionKind::Fact {
                test: Test::OneOf { attribute, values },
                positive,
            },
            SubjectOf::Dimension(dimension) => ConditionKind::Ruling {
                dimension,
                test: RulingTest::OneOf(values),
                positive,
            },
        }
    }

    fn all(self) -> ValueSet {
        ValueSet::first(self.values.len())
    }
}

/// Refuses a ruling where only facts may be read.
pub(super) fn may_read_rulings(context: &mut Context<'_>, name: &Words) -> Option<()> {
    if context.scope == ConditionScope::Rulings {
        return Some(());
    }
    let headline = format!("{} cannot read the ruling `{}`", context.place, name.value);
    let label = "only attributes and terms can be read here";
    context.tell(
        Problem::error(name.span, headline, label)
            .help("facts come before rulings; say it by the facts on which that ruling rests"),
    )
}

fn subject<'s, 'k: 's, 'n: 's>(context: &mut Context<'k>, name: &'n Words) -> Option<Subject<'s>> {
    let known = context.known;
    match known.names.get(&name.value) {
        Some(Named::Broken) => None,
        Some(Named::Attribute(id)) => {
            let attribute = known.attribute(id)?;
            let ordered = matches!(attribute.kind, AttributeKind::Scale(_));
            match &attribute.kind {
                AttributeKind::Choice(values) | AttributeKind::Scale(values) => Some(Subject {
                    name,
                    of: SubjectOf::Attribute(id),
                    values,
                    ordered,
                }),
                AttributeKind::YesNo => context.tell(yes_or_no(name, "is answered yes or no")),
                AttributeKind::Several(items) => {
                    let item = items.first().map_or("...", |item| item.name.as_str());
                    let name_words = &name.value;
                    let headline = format!("`{name_words}` is a list of items, not one value");
                    let label = "expected `includes`, `is empty` or `is only` behind a list";
                    context.tell(Problem::error(name.span, headline, label).help(format!(
                        "write `{name_words} includes {item}` where others may be there too, or `{name_words} is only {item}`"
                    )))
                }
                AttributeKind::Number(_) => {
                    let headline = format!("`{}` is a number", name.value);
                    let label = "expected a choice or a scale";
                    context.tell(Problem::error(name.span, headline, label).help(format!(
                        "numbers are compared with `is`, `at least`, `is between`: `{} is 3 or {} is 5`",
                        name.value, name.value
                    )))
                }
            }
        }
        Some(Named::Dimension(id)) => {
            may_read_rulings(context, name)?;
            let dimension = known.dimension(id)?;
            if dimension.when_several == WhenSeveral::AllApply {
                let value = dimension
                    .values
                    .first()
                    .map_or("...", |value| value.name.as_str());
                let headline = format!("`{}` is a set of rulings, not one value", name.value);
                let label = "expected `includes`, `is empty` or `is only` where all rulings apply";
                return context.tell(
                    Problem::error(name.span, headline, label)
                        .help(format!("write `{} includes {value}`", name.value)),
                );
            }
            Some(Subject {
                name,
                of: SubjectOf::Dimension(id),
                values: &dimension.values,
                ordered: dimension.ordered,
            })
        }
        Some(Named::Term(_)) => context.tell(yes_or_no(name, "is a term, which holds or does not")),
        _ => context.tell(
            known.unknown(name, "a choice, a scale or a ruling", |named| {
                has_values(known, named)
            }),
        ),
    }
}

/// The problem of a list of items that is compared with one word by `is` or `is not`.
fn list_as_a_value(
    known: Known<'_>,
    name: &Words,
    comparison: Comparison,
    right: &Sum,
) -> Option<Problem> {
    let Some(Named::Attribute(id)) = known.names.get(&name.value) else {
        return None;
    };
    let AttributeKind::Several(items) = &known.attribute(id)?.kind else {
        return None;
    };
    let word = only_name(right)?.value.as_str();
    let name_words = &name.value;
    let is_item = items.iter().any(|item| item.name == word);
    let nothing = matches!(word, "none" | "nothing" | "nobody" | "neither" | "no");
    let help = match comparison {
        Comparison::Is if is_item => format!(
            "write `{name_words} includes {word}` where others may be there too, or `{name_words} is only {word}`"
        ),
        Comparison::IsNot if is_item => format!("write `{name_words} includes none of ({word})`"),
        Comparison::Is if nothing => format!("write `{name_words} is empty`"),
        Comparison::IsNot if nothing => format!("write `{name_words} is not empty`"),
        _ => return None,
    };
    let headline = format!("`{name_words}` is a list of items, not one value");
    let label = "expected `includes`, `is empty` or `is only` behind a list";
    Some(Problem::error(name.span, headline, label).help(help))
}

fn has_values(known: Known<'_>, named: Named) -> bool {
    match named {
        Named::Attribute(id) => known.attribute(id).is_some_and(|it| {
            matches!(it.kind, AttributeKind::Choice(_) | AttributeKind::Scale(_))
        }),
        Named::Dimension(_) => true,
        _ => false,
    }
}

fn yes_or_no(name: &Words, what: &str) -> Problem {
    let headline = format!("`{}` {what}; it is not compared with a value", name.value);
    Problem::error(name.span, headline, "expected the name alone")
        .help(format!("write `{}` or `not {}`", name.value, name.value))
}

/// `phase is ground`, `force at least firm` and their kin.
pub(super) fn compare(
    context: &mut Context<'_>,
    name: &Words,
    comparison: Comparison,
    right: &Sum,
) -> Option<ConditionKind> {
    if let Some(problem) = list_as_a_value(context.known, name, comparison, right) {
        return context.tell(problem);
    }
    let subject = subject(context, name)?;
    if comparison != Comparison::Is && comparison != Comparison::IsNot && !subject.ordered {
        return context.tell(unordered(context.known, subject, comparison, right));
    }
    let value = value_word(context, subject, right)?;
    let index = index_of(context, name.value.as_str(), subject.values, &value)?;
    let below = ValueSet::first(index);
    let upto = below.with(index);
    let (set, sense) = match comparison {
        Comparison::Is => (ValueSet::one(index), Sense::AsWritten),
        Comparison::IsNot => (ValueSet::one(index), Sense::Contrary),
        Comparison::AtLeast => (subject.all().minus(below), Sense::AsWritten),
        Comparison::AtMost => (upto, Sense::AsWritten),
        Comparison::MoreThan => (subject.all().minus(upto), Sense::AsWritten),
        Comparison::LessThan => (below, Sense::AsWritten),
    };
    Some(subject.is(set, sense))
}

/// `force is between light and firm`.
pub(super) fn between(
    context: &mut Context<'_>,
    name: &Words,
    negated: bool,
    low: &Sum,
    high: &Sum,
) -> Option<ConditionKind> {
    let subject = subject(context, name)?;
    if !subject.ordered {
        return context.tell(unordered(context.known, subject, Comparison::AtLeast, low));
    }
    let low_word = value_word(context, subject, low)?;
    let high_word = value_word(context, subject, high)?;
    let low_index = index_of(context, &name.value, subject.values, &low_word)?;
    let high_index = index_of(context, &name.value, subject.values, &high_word)?;
    if low_index > high_index {
        return context.tell(wrong_way_round(
            low.span.to(high.span),
            &low_word.value,
            &high_word.value,
        ));
    }
    let set = ValueSet::first(high_index)
        .with(high_index)
        .minus(ValueSet::first(low_index));
    Some(subject.is(set, Sense::contrary_if(negated)))
}

/// The problem of a `between` whose ends are exchanged.
pub(super) fn wrong_way_round(span: Span, low: &str, high: &str) -> Problem {
    let headline = format!("nothing lies between {low} and {high}: the first is the higher one");
    Problem::error(span, headline, "expected the lower end first")
        .help(format!("write `between {high} and {low}`"))
}

/// `phase is one of (ground, transition)`.
pub(super) fn one_of(
    context: &mut Context<'_>,
    name: &Words,
    negated: bool,
    values: &[Words],
) -> Option<ConditionKind> {
    let subject = subject(context, name)?;
    let set = set_of(context, &name.value, subject.values, values)?;
    Some(subject.is(set, Sense::contrary_if(negated)))
}

/// The one word on the right of a comparison.
fn value_word(context: &mut Context<'_>, subject: Subject<'_>, right: &Sum) -> Option<Words> {
    if let Some(name) = only_name(right) {
        return Some(name.clone());
    }
    if let [part] = right.parts.as_slice()
        && !part.negative
        && part.factor.is_none()
        && let Operand::Number { digits, unit: None } = &part.operand
    {
        return Some(Spanned::new(digits.value.clone(), digits.span));
    }
    let names = subject.values.iter().map(|value| value.name.as_str());
    let headline = format!(
        "`{}` is compared with something that is not one of its values",
        subject.name.value
    );
    let problem = Problem::error(right.span, headline, "expected one value")
        .help(format!("its values are {}", all_of(names)));
    context.tell(problem)
}

/// The indices of values, each of which must exist; the same value twice is worth a warning.
pub(super) fn set_of(
    context: &mut Context<'_>,
    owner: &str,
    values: &[NamedValue],
    words: &[Words],
) -> Option<ValueSet> {
    super::dimensions::values(context.known, owner, values, words, context.problems)
}

/// The index of a value among those of its owner.
pub(super) fn index_of(
    context: &mut Context<'_>,
    owner: &str,
    values: &[NamedValue],
    word: &Words,
) -> Option<usize> {
    let found = values.iter().position(|value| value.name == word.value);
    if found.is_none() {
        context
            .problems
            .push(no_such_value(context.known, owner, values, word));
    }
    found
}

/// A value that its owner does not have: what is near, or whose value it is.
pub(super) fn no_such_value(
    known: Known<'_>,
    owner: &str,
    values: &[NamedValue],
    word: &Words,
) -> Problem {
    let value = word.value.as_str();
    let names = || values.iter().map(|value| value.name.as_str());
    let headline = format!("`{value}` is not a value of `{owner}`");
    let problem = Problem::error(
        word.span,
        headline,
        format!("expected a value of `{owner}`"),
    );
    if let Some(near) = nearest(value, names()) {
        return problem.help(format!("did you mean `{near}`?"));
    }
    let its_values = match values {
        [one] => format!("the one value of `{owner}` is `{}`", one.name),
        _ => format!("the values of `{owner}` are {}", all_of(names())),
    };
    match (known.owners(value).as_slice(), known.names.get(value)) {
        ([other, ..], _) => problem.help(format!(
            "`{value}` belongs to `{other}`: `{}`; {its_values}",
            known.holding(other, value)
        )),
        ([], Some(named @ Named::Attribute(_))) if has_values(known, named) => problem.help(format!(
            "`{value}` is an attribute itself; whether two have the same value is asked by `{owner} is same as {value}`; {its_values}"
        )),
        ([], Some(named)) => problem.help(format!("`{value}` is {}; {its_values}", named.described())),
        ([], None) => problem.help(its_values),
    }
}

fn unordered(
    known: Known<'_>,
    subject: Subject<'_>,
    comparison: Comparison,
    right: &Sum,
) -> Problem {
    let name = &subject.name.value;
    let words = match comparison {
        Comparison::AtLeast => "at least",
        Comparison::AtMost => "at most",
        Comparison::MoreThan => "more than",
        Comparison::LessThan => "less than",
        Comparison::Is => "is",
        Comparison::IsNot => "is not",
    };
    let headline =
        format!("the values of `{name}` have no order, so `{words}` says nothing about them");
    let label = "expected `is` or `is one of`, as for every choice";
    let problem = Problem::error(subject.name.span.to(right.span), headline, label).help(format!(
        "write `{name} is one of (...)`, or make `{name}` a `scale`, its lowest value first"
    ));
    let defined = match subject.of {
        SubjectOf::Attribute(id) => known.attribute(id).map(|it| it.span),
        SubjectOf::Dimension(id) => known.dimension(id).map(|it| it.span),
    };
    match defined {
        Some(span) => problem.other(span, "it is a choice"),
        None => problem,
    }
}

/// `first_grip is same as second_grip`.
pub(super) fn same_as(
    context: &mut Context<'_>,
    span: Span,
    left_name: &Words,
    negated: bool,
    right_name: &Words,
) -> Option<ConditionKind> {
    if let Some(problem) = numbers_are_equal(context.known, left_name, right_name) {
        return context.tell(problem);
    }
    let (left, right) = (subject(context, left_name), subject(context, right_name));
    let (left, right) = (left?, right?);
    let pairs: Vec<(usize, usize)> = left
        .values
        .iter()
        .enumerate()
        .filter_map(|(index, value)| {
            let same = right.values.iter().position(|it| it.name == value.name);
            same.map(|other| (index, other))
        })
        .collect();
    if pairs.is_empty() {
        let headline = format!(
            "`{}` and `{}` have no value in common, so they are never the same",
            left_name.value, right_name.value
        );
        let names = |subject: Subject<'_>| all_of(subject.values.iter().map(|it| it.name.as_str()));
        let problem = Problem::error(
            left_name.span.to(right_name.span),
            headline,
            "expected two lists with values of the same name",
        )
        .help(format!(
            "the one is {}; the other is {}",
            names(left),
            names(right)
        ));
        return context.tell(problem);
    }
    if left.of == right.of {
        let headline = format!("`{}` is compared with itself", left_name.value);
        context.problems.push(
            Problem::warning(right_name.span, headline, "expected another name")
                .help("it is always the same as itself; write the name that was meant"),
        );
    }
    let sense = Sense::contrary_if(negated);
    if let (SubjectOf::Attribute(left), SubjectOf::Attribute(right)) = (left.of, right.of) {
        let small = |index: usize| u8::try_from(index).unwrap_or(u8::MAX);
        return Some(ConditionKind::Fact {
            test: Test::Same {
                left,
                right,
                pairs: pairs
                    .iter()
                    .map(|(left, right)| (small(*left), small(*right)))
                    .collect(),
            },
            positive: sense.positive(),
        });
    }
    Some(same_ruling(left, right, &pairs, sense, span))
}

/// With a ruling on either side the comparison is spelled out value by value, and is neither true nor
/// false where one side has no one value.
fn same_ruling(
    left: Subject<'_>,
    right: Subject<'_>,
    pairs: &[(usize, usize)],
    sense: Sense,
    span: Span,
) -> ConditionKind {
    let at = |kind| Condition { kind, span };
    let same = pairs.iter().map(|(one, other)| {
        at(ConditionKind::All(vec![
            at(left.is(ValueSet::one(*one), Sense::AsWritten)),
            at(right.is(ValueSet::one(*other), Sense::AsWritten)),
        ]))
    });
    let same = at(ConditionKind::Any(same.collect()));
    let same = match sense {
        Sense::AsWritten => same,
        Sense::Contrary => at(ConditionKind::Not(Box::new(same))),
    };
    let sides = [left, right];
    let guarded = sides.iter().fold(same, |inner, side| {
        only_where_settled(
            inner,
            at(side.is(side.all(), Sense::AsWritten)),
            at(side.is(side.all(), Sense::Contrary)),
        )
    });
    guarded.kind
}

/// The condition where `holds` is true and `fails` false; neither where both are neither.
///
/// Two of the three are true exactly where the condition is true and the others are settled; where
/// the others are neither, the count is open whatever the condition is.
pub(super) fn only_where_settled(
    condition: Condition,
    holds: Condition,
    fails: Condition,
) -> Condition {
    let span = condition.span;
    let kind = ConditionKind::Count {
        least: 2,
        most: 3,
        of: vec![holds, fails, condition],
    };
    Condition { kind, span }
}

fn numbers_are_equal(known: Known<'_>, left: &Words, right: &Words) -> Option<Problem> {
    let number = |name: &Words| match known.names.get(&name.value) {
        Some(Named::Attribute(id)) => known
            .attribute(id)
            .is_some_and(|it| matches!(it.kind, AttributeKind::Number(_))),
        Some(Named::Quantity(_)) => true,
        _ => false,
    };
    (number(left) && number(right)).then(|| {
        let headline = format!("`{}` and `{}` are numbers", left.value, right.value);
        let label = "expected a plain `is` between numbers";
        Problem::error(left.span.to(right.span), headline, label)
            .help(format!("write `{} is {}`", left.value, right.value))
    })
}
