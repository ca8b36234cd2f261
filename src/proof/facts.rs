//! Scenarios as they stand in a record, and back.

use crate::logic::{Code, Scenario, Written, written};
use crate::model::{AttributeId, AttributeKind, Number, Ruleset};
use serde_json::Value;
use std::collections::BTreeMap;

/// The facts of a scenario by name.
pub(super) fn to_record(ruleset: &Ruleset, scenario: &Scenario) -> BTreeMap<String, Value> {
    let value = |attribute, code| match written(ruleset, attribute, code) {
        Written::YesNo(yes) => Value::Bool(yes),
        Written::Word(word) => Value::String(word),
        Written::Number(number) => number.parse().map_or(Value::String(number), Value::Number),
        Written::Items(items) => Value::Array(items.into_iter().map(Value::String).collect()),
    };
    let facts = scenario.facts();
    facts
        .map(|(attribute, code)| (ruleset[attribute].name.clone(), value(attribute, code)))
        .collect()
}

/// The scenario of these facts.
///
/// # Errors
/// Names the fact that the ruleset does not know, or that is no value of its attribute.
pub(super) fn from_record(
    ruleset: &Ruleset,
    facts: &BTreeMap<String, Value>,
) -> Result<Scenario, String> {
    let mut scenario = Scenario::unasked(ruleset.attributes.len());
    for (name, value) in facts {
        let known = ruleset.attributes.iter().position(|it| it.name == *name);
        let attribute = AttributeId::new(known.ok_or(format!("there is no attribute `{name}`"))?);
        let code = code(&ruleset[attribute].kind, value);
        let code = code.ok_or(format!("{value} is no value of `{name}`"))?;
        scenario.set(attribute, Some(Code(code)));
    }
    Ok(scenario)
}

fn code(kind: &AttributeKind, value: &Value) -> Option<u64> {
    let position = |value: &Value| {
        let word = value.as_str()?;
        let index = kind.names().iter().position(|it| it.name == word)?;
        u64::try_from(index).ok()
    };
    match kind {
        AttributeKind::YesNo => value.as_bool().map(u64::from),
        AttributeKind::Choice(_) | AttributeKind::Scale(_) => position(value),
        AttributeKind::Number(range) => {
            let Value::Number(number) = value else {
                return None;
            };
            let step = range
                .position(Number::parse(&number.to_string())?)?
                .to_whole()?;
            u64::try_from(step).ok().filter(|_| step <= range.steps)
        }
        AttributeKind::Several(_) => {
            let mut bits = 0u64;
            for item in value.as_array()? {
                let bit = 1u64.checked_shl(u32::try_from(position(item)?).ok()?)?;
                if bits & bit != 0 {
                    return None;
                }
                bits |= bit;
            }
            Some(bits)
        }
    }
}
