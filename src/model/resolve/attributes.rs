//! Attributes: what values they take, and that those values are sound.

use super::names::check_values;
use super::quantities::{amount, too_large};
use crate::model::{
    Attribute, AttributeKind, NamedValue, Number, NumberRange, Origin, TermId, Text, Unit, ValueSet,
};
use crate::problem::Problem;
use crate::read::draft::{
    AttributeDraft, AttributeKindDraft, TermDraft, TextDraft, ValueDraft, Words,
};

/// The most items of a `several`.
const MOST_ITEMS: usize = 64;
/// The most steps of a number's range: far beyond any sport, and small enough for exact sums.
const MOST_STEPS: i64 = 1 << 40;

/// A text as the model keeps it.
pub(super) fn text(draft: &TextDraft) -> Text {
    let languages = draft.by_language.iter();
    Text {
        by_language: languages
            .map(|(tag, words)| (tag.clone(), words.value.clone()))
            .collect(),
    }
}

/// A text that may be missing.
pub(super) fn text_of(draft: Option<&TextDraft>) -> Option<Text> {
    draft.map(text)
}

/// Values with their labels.
pub(super) fn named_values(values: &[ValueDraft]) -> Vec<NamedValue> {
    let values = values.iter().map(|value| NamedValue {
        name: value.name.value.clone(),
        label: text_of(value.label.as_ref()),
        span: value.name.span,
    });
    values.collect()
}

/// Holds what is said of the values of an attribute or dimension.
pub(super) fn check_drafts(
    owner: &Words,
    values: &[ValueDraft],
    most: usize,
    problems: &mut Vec<Problem>,
) {
    let names: Vec<Words> = values.iter().map(|value| value.name.clone()).collect();
    check_values(owner, &names, most, problems);
}

/// An attribute without its `asked_when`, which needs all names; `None` where its values are unsound.
pub(super) fn attribute(draft: &AttributeDraft, problems: &mut Vec<Problem>) -> Option<Attribute> {
    let before = problems.len();
    let kind = match &draft.kind {
        AttributeKindDraft::YesNo => AttributeKind::YesNo,
        AttributeKindDraft::Choice(values) => {
            check_drafts(&draft.name, values, ValueSet::CAPACITY, problems);
            AttributeKind::Choice(named_values(values))
        }
        AttributeKindDraft::Scale(values) => {
            check_drafts(&draft.name, values, ValueSet::CAPACITY, problems);
            AttributeKind::Scale(named_values(values))
        }
        AttributeKindDraft::Several(items) => {
            check_drafts(&draft.name, items, MOST_ITEMS, problems);
            AttributeKind::Several(named_values(items))
        }
        AttributeKindDraft::Number {
            low,
            high,
            or_more,
            step,
            unit,
        } => AttributeKind::Number(range(
            low,
            high,
            *or_more,
            step.as_ref(),
            unit.as_ref(),
            problems,
        )?),
    };
    (problems.len() == before).then(|| Attribute {
        kind,
        ..placeholder(draft)
    })
}

/// The attribute with its values left out, to keep its place in the list where they are unsound.
pub(super) fn placeholder(draft: &AttributeDraft) -> Attribute {
    Attribute {
        name: draft.name.value.clone(),
        label: text_of(draft.label.as_ref()),
        kind: AttributeKind::YesNo,
        judged: draft.judged,
        asked_when: None,
        set_by: draft
            .set_by
            .as_ref()
            .map(|party| party.value.trim().to_owned()),
        origin: Origin::Stated,
        span: draft.name.span,
    }
}

/// How the official reads a vague term in between its readings.
pub(super) fn reading(draft: &TermDraft, term: TermId) -> Attribute {
    Attribute {
        name: draft.name.value.clone(),
        label: text_of(draft.label.as_ref()),
        kind: AttributeKind::YesNo,
        judged: true,
        asked_when: None,
        set_by: None,
        origin: Origin::Reading(term),
        span: draft.name.span,
    }
}

/// A number's range; `None` after telling why not.
fn range(
    low: &Words,
    high: &Words,
    or_more: bool,
    step: Option<&Words>,
    unit: Option<&Words>,
    problems: &mut Vec<Problem>,
) -> Option<NumberRange> {
    let written_unit = unit;
    let unit = unit.map_or(Unit::None, |unit| Unit::Named(unit.value.trim().to_owned()));
    if let Unit::Named(word) = &unit
        && let Some(written) = written_unit
        && (word.contains(char::is_whitespace)
            || word.starts_with(|first: char| first.is_ascii_digit()))
    {
        let last = word.split_whitespace().next_back().unwrap_or_default();
        let bare = last.trim_start_matches(|sign: char| sign.is_ascii_digit() || sign == '.');
        let problem = Problem::error(
            written.span,
            format!("`{word}` is no unit"),
            "expected one word, and no number before it",
        );
        problems.push(if bare.is_empty() {
            problem.help("write it like `unit: kg`")
        } else {
            problem.help(format!("write `unit: {bare}`"))
        });
        return None;
    }
    let low_value = plain(low, &unit, "the lowest value", problems);
    let high_value = plain(high, &unit, "the highest value", problems);
    let step_value = match step {
        Some(step) => plain(step, &unit, "the step", problems),
        None => Some(Number::whole(1)),
    };
    let (low_value, high_value, step_value) = (low_value?, high_value?, step_value?);
    if let Some(step) = step.filter(|_| step_value <= Number::whole(0)) {
        problems.push(
            Problem::error(
                step.span,
                format!("the step {step_value} is not more than zero"),
                "expected a step above zero",
            )
            .help("the step is the distance between two neighbouring values: `1`, `0.1`, `5`"),
        );
        return None;
    }
    if high_value < low_value {
        problems.push(
            Problem::error(
                low.span.to(high.span),
                format!("the range {low_value} to {high_value} runs downward"),
                "expected the lower end first",
            )
            .help(format!("write `{high_value} to {low_value}`")),
        );
        return None;
    }
    let Some(steps) = high_value
        .minus(low_value)
        .and_then(|width| width.over(step_value))
    else {
        problems.push(too_wide(low, high));
        return None;
    };
    if steps.floor().is_none_or(|steps| steps > MOST_STEPS) {
        problems.push(too_wide(low, high));
        return None;
    }
    let Some(whole) = steps.to_whole() else {
        problems.push(uneven(low, high, step, low_value, step_value, steps));
        return None;
    };
    Some(NumberRange {
        low: low_value,
        step: step_value,
        steps: whole,
        unit,
        or_more,
    })
}

/// A number of the range, in the attribute's unit; a unit of its own is converted.
fn plain(words: &Words, unit: &Unit, what: &str, problems: &mut Vec<Problem>) -> Option<Number> {
    let Some((number, written)) = amount(&words.value) else {
        problems.push(not_a_number(words, what));
        return None;
    };
    if written == Unit::None {
        return Some(number);
    }
    let converted = written
        .factor_to(unit)
        .and_then(|factor| number.times(factor));
    if converted.is_none() {
        let headline = match unit {
            Unit::None => format!("{what} is in {written}, but the attribute has no unit"),
            Unit::Named(unit) => format!("{what} is in {written}, but the attribute is in {unit}"),
        };
        problems.push(
            Problem::error(
                words.span,
                headline,
                "expected a number in the attribute's unit",
            )
            .help(format!(
                "write the bare number, and `unit: {written}` below"
            )),
        );
    }
    converted
}

fn not_a_number(words: &Words, what: &str) -> Problem {
    if let Some(problem) = too_large(words) {
        return problem
            .help("write a smaller number; `or more` lets the top value stand for all above it");
    }
    Problem::error(
        words.span,
        format!("`{}` is not a number", words.value),
        format!("expected {what}: digits, with a point before decimals"),
    )
    .help("write it like `20`, `-3` or `7.26`")
}

fn too_wide(low: &Words, high: &Words) -> Problem {
    let span = low.span.to(high.span);
    let headline = format!(
        "the range {} to {} is too large, or its step too small, to be worked with exactly",
        low.value, high.value
    );
    Problem::error(span, headline, format!("at most {MOST_STEPS} steps are possible"))
        .help("make the range smaller or the step larger; `or more` lets the top value stand for all above it")
}

fn uneven(
    low: &Words,
    high: &Words,
    step: Option<&Words>,
    from: Number,
    by: Number,
    steps: Number,
) -> Problem {
    let reached = |steps: Option<i64>| {
        steps
            .and_then(|steps| by.times(Number::whole(steps)))
            .and_then(|above| from.plus(above))
    };
    let headline = format!(
        "the range {} to {} is not a whole number of steps of {by}",
        low.value, high.value
    );
    let label = format!("from {from} in steps of {by}, this is not reached");
    let mut problem = Problem::error(high.span, headline, label);
    if let Some(step) = step {
        problem = problem.other(step.span, "the step");
    }
    match (reached(steps.floor()), reached(steps.ceil())) {
        (Some(below), Some(above)) => {
            problem.help(format!("write {below} or {above}, or another step"))
        }
        _ => problem.help("choose another step"),
    }
}
