//! Conditions that no file has, made of others.

use crate::model::{AttributeId, Condition, ConditionKind, Ruleset, TermId, Test};
use crate::source::Span;

/// A condition with the attributes taken out, for its shape.
pub(super) fn unplaced(condition: &Condition) -> Condition {
    let nobody = AttributeId::new(0);
    made(match &condition.kind {
        ConditionKind::Fact { test, positive } => {
            let mut test = test.clone();
            match &mut test {
                Test::OneOf { attribute, .. }
                | Test::Within { attribute, .. }
                | Test::Several { attribute, .. } => *attribute = nobody,
                Test::Same { left, right, .. } => {
                    *left = nobody;
                    *right = nobody;
                }
                Test::Linear(linear) => {
                    for (_, attribute) in &mut linear.parts {
                        *attribute = nobody;
                    }
                }
            }
            ConditionKind::Fact {
                test,
                positive: *positive,
            }
        }
        ConditionKind::Term(_) => ConditionKind::Term(TermId::new(0)),
        _ => condition.with_parts(unplaced).kind,
    })
}

pub(super) fn empty() -> Ruleset {
    Ruleset {
        title: String::new(),
        edition: String::new(),
        language: String::new(),
        caution: None,
        sources: crate::source::Sources::default(),
        layers: Vec::new(),
        quantities: Vec::new(),
        attributes: Vec::new(),
        terms: Vec::new(),
        background: Vec::new(),
        dimensions: Vec::new(),
        clauses: Vec::new(),
        principles: Vec::new(),
        headings: Vec::new(),
        accepted: Vec::new(),
        order: Vec::new(),
        asking_order: Vec::new(),
    }
}

pub(super) fn made(kind: ConditionKind) -> Condition {
    Condition {
        kind,
        span: Span::default(),
    }
}

pub(super) fn always() -> Condition {
    made(ConditionKind::Always)
}

pub(super) fn fact(test: Test) -> Condition {
    made(ConditionKind::Fact {
        test,
        positive: true,
    })
}

pub(super) fn not_true(part: Condition) -> Condition {
    made(ConditionKind::NotTrue(Box::new(part)))
}

/// True where the part is true, false everywhere else.
pub(super) fn surely(part: Condition) -> Condition {
    not_true(not_true(part))
}

pub(super) fn all(parts: Vec<Condition>) -> Condition {
    made(ConditionKind::All(parts))
}

pub(super) fn any(parts: Vec<Condition>) -> Condition {
    made(ConditionKind::Any(parts))
}
