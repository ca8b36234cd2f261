//! What conditions, clauses and their order become.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests"
)]

mod conditions;
mod rulesets;

use super::{ConditionScope, resolve_condition};
use crate::load::load;
use crate::model::{
    AttributeKind, Condition, ConditionKind, NamedValue, Ruleset, RulingTest, Test, ValueSet,
};
use crate::problem::Gravity;
use crate::read;
use crate::source::{Source, Sources};

/// Loads a text that must be sound.
fn ruleset(text: &str) -> Ruleset {
    match load("test.yaml", text) {
        Ok(loaded) => loaded.ruleset,
        Err(refused) => panic!("{:#?}", refused.problems),
    }
}

/// A condition against a ruleset: what it became, or the headlines of its problems.
fn resolved(ruleset: &Ruleset, text: &str) -> Result<Condition, Vec<String>> {
    let source = Source::new("condition", text);
    let mut sources = Sources::default();
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let expr = read::condition(&source, id, &mut problems);
    let condition = expr
        .and_then(|expr| resolve_condition(ruleset, &expr, ConditionScope::Rulings, &mut problems));
    let errors = problems
        .into_iter()
        .filter(|problem| problem.gravity == Gravity::Error)
        .map(|problem| problem.headline);
    condition.ok_or_else(|| errors.collect())
}

/// A condition on one line: every comparison by name, contraries with `!`.
fn shown(ruleset: &Ruleset, condition: &Condition) -> String {
    let several = |parts: &[Condition]| {
        let parts: Vec<String> = parts.iter().map(|part| shown(ruleset, part)).collect();
        parts.join(", ")
    };
    let sign = |positive: &bool| if *positive { "" } else { "!" };
    match &condition.kind {
        ConditionKind::Always => "always".to_owned(),
        ConditionKind::Missing(cell) => format!("missing {}/{}", cell.row, cell.column),
        ConditionKind::Fact { test, positive } => {
            format!("{}{}", sign(positive), tested(ruleset, test))
        }
        ConditionKind::Ruling {
            dimension,
            test,
            positive,
        } => {
            let of = &ruleset[*dimension];
            let test = match test {
                RulingTest::OneOf(values) => format!("in {}", named(&of.values, *values)),
                RulingTest::Includes { items, least, most } => {
                    format!("has {least}..{most} of {}", named(&of.values, *items))
                }
            };
            format!("{}<{} {test}>", sign(positive), of.name)
        }
        ConditionKind::Term(id) => format!("term {}", ruleset[*id].name),
        ConditionKind::Not(part) => format!("not({})", shown(ruleset, part)),
        ConditionKind::NotTrue(part) => format!("unless({})", shown(ruleset, part)),
        ConditionKind::All(parts) => format!("all({})", several(parts)),
        ConditionKind::Any(parts) => format!("any({})", several(parts)),
        ConditionKind::Count { least, most, of } => format!("{least}..{most} of ({})", several(of)),
    }
}

fn tested(ruleset: &Ruleset, test: &Test) -> String {
    let attribute = |id: &crate::model::AttributeId| ruleset[*id].name.clone();
    match test {
        Test::OneOf {
            attribute: id,
            values,
        } if ruleset[*id].kind == AttributeKind::YesNo => {
            format!("[{} {:b}]", attribute(id), values.bits())
        }
        Test::OneOf {
            attribute: id,
            values,
        } => {
            format!(
                "[{} in {}]",
                attribute(id),
                named(ruleset[*id].kind.names(), *values)
            )
        }
        Test::Within {
            attribute: id,
            low,
            high,
        } => format!("[{} {low}..{high}]", attribute(id)),
        Test::Same { left, right, pairs } => {
            format!("[{} same {} {pairs:?}]", attribute(left), attribute(right))
        }
        Test::Linear(linear) => {
            let parts = linear.parts.iter();
            let parts: Vec<String> = parts
                .map(|(weight, id)| format!("{weight}*{}", attribute(id)))
                .collect();
            format!("[{} <= {}]", parts.join(" + "), linear.bound)
        }
        Test::Several {
            attribute: id,
            items,
            least,
            most,
        } => {
            let items = named(ruleset[*id].kind.names(), *items);
            format!("[{} has {least}..{most} of {items}]", attribute(id))
        }
    }
}

fn named(names: &[NamedValue], values: ValueSet) -> String {
    let names: Vec<&str> = values
        .iter()
        .map(|index| names[index].name.as_str())
        .collect();
    format!("{{{}}}", names.join(" "))
}
