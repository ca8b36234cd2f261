//! What a finding turns on, so that whoever tells it can begin with that.

use crate::analysis::Finding;
use crate::model::{AttributeId, Condition, ConditionKind, Gain, Meaning, Promise, Ruleset};
use std::collections::BTreeSet;

/// The attributes that a finding turns on: those that its clauses, its principle and its general
/// conditions read.
pub(super) fn turns_on(ruleset: &Ruleset, finding: &Finding) -> BTreeSet<AttributeId> {
    let mut found = BTreeSet::new();
    for clause in &finding.clauses {
        read_by(ruleset, &ruleset[*clause].when, &mut found);
    }
    let principle = ruleset
        .principles
        .iter()
        .find(|principle| Some(&principle.id) == finding.principle.as_ref());
    match principle.map(|principle| &principle.promise) {
        Some(Promise::Expect { whenever, expect }) => {
            read_by(ruleset, whenever, &mut found);
            read_by(ruleset, expect, &mut found);
        }
        Some(Promise::ImpartialTo(attributes)) => found.extend(attributes),
        Some(Promise::RisesWith { attribute, .. }) => {
            found.insert(*attribute);
        }
        Some(Promise::NoGain { by, gain, .. }) => {
            if let Some(by) = by {
                read_by(ruleset, by, &mut found);
            }
            if let Gain::To(condition) = gain {
                read_by(ruleset, condition, &mut found);
            }
        }
        None => {}
    }
    for line in &finding.general.lines {
        let names: BTreeSet<&str> = line
            .split(|letter: char| !letter.is_alphanumeric() && letter != '_')
            .collect();
        let all = ruleset.attributes.iter().enumerate();
        let named = all.filter(|(_, attribute)| names.contains(attribute.name.as_str()));
        found.extend(named.map(|(index, _)| AttributeId::new(index)));
        let terms = ruleset.terms.iter();
        for term in terms.filter(|term| names.contains(term.name.as_str())) {
            read_meaning(ruleset, &term.meaning, &mut found);
        }
    }
    let about = ruleset
        .attributes
        .iter()
        .position(|attribute| Some(&attribute.name) == finding.attribute.as_ref());
    found.extend(about.map(AttributeId::new));
    found
}

/// Adds what decides whether those attributes are asked at all: without it they hang in the air.
pub(super) fn asked_through(ruleset: &Ruleset, matters: &mut BTreeSet<AttributeId>) {
    let mut open: Vec<AttributeId> = matters.iter().copied().collect();
    while let Some(id) = open.pop() {
        let mut read = BTreeSet::new();
        if let Some(condition) = &ruleset[id].asked_when {
            read_by(ruleset, condition, &mut read);
        }
        open.extend(read.into_iter().filter(|id| matters.insert(*id)));
    }
}

fn read_by(ruleset: &Ruleset, condition: &Condition, found: &mut BTreeSet<AttributeId>) {
    condition.each_part(&mut |part| match &part.kind {
        ConditionKind::Fact { test, .. } => found.extend(test.attributes()),
        ConditionKind::Term(term) => read_meaning(ruleset, &ruleset[*term].meaning, found),
        _ => {}
    });
}

fn read_meaning(ruleset: &Ruleset, meaning: &Meaning, found: &mut BTreeSet<AttributeId>) {
    match meaning {
        Meaning::Sharp(meaning) => read_by(ruleset, meaning, found),
        Meaning::Vague {
            narrow,
            broad,
            reading,
        } => {
            read_by(ruleset, narrow, found);
            read_by(ruleset, broad, found);
            found.insert(*reading);
        }
    }
}
