//! The rules as data for the place on the page where cases are tried.
//!
//! It is the resolved ruleset and nothing else: every condition as the plain evaluator reads it, in a
//! short form that the script (`ruling.js`) reads by the same rules of three truth values.

use super::clause_title;
use crate::labels;
use crate::logic::Code;
use crate::model::{
    Attribute, AttributeId, AttributeKind, BackgroundRule, Clause, Condition, ConditionKind,
    Dimension, DimensionId, Linear, Meaning, NumberRange, Origin, Ruleset, RulingTest, Step, Test,
    Unit, ValueSet, WhenSeveral,
};
use crate::report::text_capital;
use serde_json::{Value, json};

/// Numbers with more values than this are typed, not picked from a list.
const MOST_PICKED: i64 = 120;

/// A whole number beyond which a browser's own numbers are no longer exact.
const EXACT: i128 = 1 << 53;

/// The data.
pub(super) fn json(ruleset: &Ruleset) -> Value {
    let attributes = ruleset.attributes.iter().enumerate();
    let dimensions = ruleset.dimensions.iter().enumerate();
    let order = ruleset.order.iter().map(|step| match step {
        Step::Clause(id) => json!(["c", id.index()]),
        Step::Dimension(id) => json!(["d", id.index()]),
    });
    let asking = ruleset.asking_order.iter().map(|id| id.index());
    json!({
        "attributes": attributes
            .map(|(index, it)| attribute(ruleset, AttributeId::new(index), it))
            .collect::<Vec<_>>(),
        "terms": ruleset.terms.iter().map(|term| match &term.meaning {
            Meaning::Sharp(means) => json!({"means": condition(ruleset, means)}),
            Meaning::Vague { narrow, broad, reading } => json!({
                "narrow": condition(ruleset, narrow),
                "broad": condition(ruleset, broad),
                "reading": reading.index(),
            }),
        }).collect::<Vec<_>>(),
        "background": ruleset.background.iter().map(|line| {
            let (key, rule) = match &line.rule {
                BackgroundRule::Never(rule) => ("never", rule),
                BackgroundRule::Always(rule) => ("always", rule),
            };
            let because = line.because.as_ref();
            let because = because.map(|text| text.in_language(&ruleset.language).trim());
            json!({key: condition(ruleset, rule), "because": because})
        }).collect::<Vec<_>>(),
        "dimensions": dimensions
            .map(|(index, it)| dimension(ruleset, DimensionId::new(index), it))
            .collect::<Vec<_>>(),
        "clauses": ruleset.clauses.iter().map(|it| clause(ruleset, it)).collect::<Vec<_>>(),
        "order": order.collect::<Vec<_>>(),
        "asking": asking.collect::<Vec<_>>(),
    })
}

fn attribute(ruleset: &Ruleset, id: AttributeId, it: &Attribute) -> Value {
    let listed = |codes: u64| -> Vec<String> {
        (0..codes)
            .map(|code| labels::fact(ruleset, id, Code(code)))
            .collect()
    };
    let names = it.kind.names();
    let items = || -> Vec<String> {
        names
            .iter()
            .map(|item| labels::called(ruleset, item.label.as_ref(), &item.name))
            .collect()
    };
    let (kind, values, range) = match &it.kind {
        AttributeKind::YesNo => ("yes-no", listed(2), Value::Null),
        AttributeKind::Choice(_) => ("choice", listed(names.len() as u64), Value::Null),
        AttributeKind::Scale(_) => ("scale", listed(names.len() as u64), Value::Null),
        AttributeKind::Several(_) => ("several", items(), Value::Null),
        AttributeKind::Number(range) if range.steps > MOST_PICKED => {
            ("number", Vec::new(), typed(range))
        }
        AttributeKind::Number(range) => {
            let codes = u64::try_from(range.steps).unwrap_or(0).saturating_add(1);
            ("number", listed(codes), typed(range))
        }
    };
    let title = labels::attribute_name(ruleset, it);
    json!({
        "title": text_capital(&title),
        "kind": kind,
        "values": values,
        "range": range,
        "judged": it.judged,
        "reading": match it.origin {
            Origin::Stated => Value::Null,
            Origin::Reading(term) => json!(term.index()),
        },
        "asked": match (it.origin, &it.asked_when) {
            (Origin::Stated, Some(asked)) => condition(ruleset, asked),
            _ => Value::Null,
        },
    })
}

/// What a number that is typed must keep to. The numbers are text: they are exact.
fn typed(range: &NumberRange) -> Value {
    let unit = match &range.unit {
        Unit::None => "",
        Unit::Named(unit) => unit.as_str(),
    };
    json!({
        "low": range.low.to_string(),
        "high": range.value(range.steps).to_string(),
        "step": range.step.to_string(),
        "steps": range.steps,
        "unit": unit,
        "orMore": range.or_more,
    })
}

fn dimension(ruleset: &Ruleset, id: DimensionId, it: &Dimension) -> Value {
    let values: Vec<String> = it
        .values
        .iter()
        .map(|value| labels::called(ruleset, value.label.as_ref(), &value.name))
        .collect();
    json!({
        "title": text_capital(&labels::dimension(ruleset, id)),
        "values": values,
        "several": match it.when_several {
            WhenSeveral::MustAgree => "agree",
            WhenSeveral::Highest => "highest",
            WhenSeveral::Lowest => "lowest",
            WhenSeveral::AllApply => "all",
        },
        "otherwise": it.otherwise.map(set),
        "required": it.required_when.as_ref().map(|due| condition(ruleset, due)),
        "intermediate": it.intermediate,
    })
}

fn clause(ruleset: &Ruleset, it: &Clause) -> Value {
    let rules: Vec<Value> = it
        .rulings
        .iter()
        .map(|(dimension, values)| json!([dimension.index(), set(*values)]))
        .collect();
    let yields: Vec<usize> = it.yields_to.iter().map(|id| id.index()).collect();
    let off: Vec<usize> = it.disapplied_by.iter().map(|id| id.index()).collect();
    json!({
        "id": it.id,
        "title": clause_title(ruleset, it),
        "when": condition(ruleset, &it.when),
        "rules": rules,
        "yields": yields,
        "off": off,
    })
}

fn set(values: ValueSet) -> Vec<usize> {
    values.iter().collect()
}

/// A condition: a number for what is always so (1) or neither (0), else a list that begins with a letter.
fn condition(ruleset: &Ruleset, it: &Condition) -> Value {
    let several = |letter: &str, parts: &[Condition]| {
        let mut list = vec![json!(letter)];
        list.extend(parts.iter().map(|part| condition(ruleset, part)));
        Value::Array(list)
    };
    match &it.kind {
        ConditionKind::Always => json!(1),
        ConditionKind::Missing(_) => json!(0),
        ConditionKind::Fact { test, positive } => json!(["f", *positive, fact(ruleset, test)]),
        ConditionKind::Ruling {
            dimension,
            test,
            positive,
        } => {
            let test = match test {
                RulingTest::OneOf(values) => json!(["o", set(*values)]),
                RulingTest::Includes { items, least, most } => {
                    json!(["i", set(*items), least, most])
                }
            };
            json!(["r", *positive, dimension.index(), test])
        }
        ConditionKind::Term(term) => json!(["t", term.index()]),
        ConditionKind::Not(inner) => json!(["n", condition(ruleset, inner)]),
        ConditionKind::NotTrue(inner) => json!(["x", condition(ruleset, inner)]),
        ConditionKind::All(parts) => several("a", parts),
        ConditionKind::Any(parts) => several("e", parts),
        ConditionKind::Count { least, most, of } => {
            let parts: Vec<Value> = of.iter().map(|part| condition(ruleset, part)).collect();
            json!(["c", least, most, parts])
        }
    }
}

fn fact(ruleset: &Ruleset, test: &Test) -> Value {
    match test {
        Test::OneOf { attribute, values } => json!(["o", attribute.index(), set(*values)]),
        Test::Within {
            attribute,
            low,
            high,
        } => {
            // Ends beyond the range say no more than ends just beyond it.
            let steps = match &ruleset[*attribute].kind {
                AttributeKind::Number(range) => range.steps,
                _ => 0,
            };
            let within = |end: &i64| (*end).clamp(-1, steps.saturating_add(1));
            json!(["w", attribute.index(), within(low), within(high)])
        }
        Test::Same { left, right, pairs } => json!(["s", left.index(), right.index(), pairs]),
        Test::Linear(linear) => sum(ruleset, linear),
        Test::Several {
            attribute,
            items,
            least,
            most,
        } => json!(["i", attribute.index(), set(*items), least, most]),
    }
}

/// A sum: as numbers where every value of it is exact in a browser, else as text for its long numbers.
fn sum(ruleset: &Ruleset, linear: &Linear) -> Value {
    let reach: i128 = linear
        .parts
        .iter()
        .map(|(weight, id)| {
            let steps = match &ruleset[*id].kind {
                AttributeKind::Number(range) => range.steps,
                _ => 0,
            };
            i128::from(*weight).abs().saturating_mul(i128::from(steps))
        })
        .fold(i128::from(linear.bound).abs(), i128::saturating_add);
    let parts = linear.parts.iter();
    if reach < EXACT {
        let parts: Vec<Value> = parts
            .map(|(weight, id)| json!([weight, id.index()]))
            .collect();
        json!(["l", parts, linear.bound])
    } else {
        let parts: Vec<Value> = parts
            .map(|(weight, id)| json!([weight.to_string(), id.index()]))
            .collect();
        json!(["L", parts, linear.bound.to_string()])
    }
}
