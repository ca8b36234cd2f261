//! Presupposes: the clause would be met somewhere if what isn't asked were taken as "no".
//!
//! Whoever writes "not deliberate" may think of every act that was not deliberate; where `deliberate`
//! is not asked, the condition is neither true nor false and the clause is not met. Question: is there
//! a scenario in which the condition is true with the unasked taken as no, and not true as it stands?
//! Only a condition that turns a comparison round (`not`, counts) can differ so; the others are
//! ruled out by their form.

use super::finding::Finding;
use super::inquiry::Inquiry;
use super::words;
use crate::logic::{Formula, Mode, Name, Scenario, Unasked, World};
use crate::model::{
    AttributeId, ClauseId, Condition, ConditionKind, Kind, Meaning, Origin, Ruleset,
};

/// Whether the form of the condition leaves room for it.
pub(super) fn possible(ruleset: &Ruleset, clause: ClauseId) -> bool {
    turns_round(ruleset, &ruleset[clause].when)
}

fn turns_round(ruleset: &Ruleset, condition: &Condition) -> bool {
    let mut seen = vec![false; ruleset.terms.len()];
    let mut open = vec![condition];
    let mut found = false;
    while let Some(condition) = open.pop() {
        condition.each_part(&mut |part| match &part.kind {
            ConditionKind::Not(_) | ConditionKind::Count { .. } | ConditionKind::NotTrue(_) => {
                found = true;
            }
            ConditionKind::Term(term) => {
                let first = seen
                    .get_mut(term.index())
                    .is_some_and(|seen| !std::mem::replace(seen, true));
                match &ruleset[*term].meaning {
                    Meaning::Sharp(meaning) if first => open.push(meaning),
                    Meaning::Sharp(_) => {}
                    Meaning::Vague { .. } => found = true,
                }
            }
            _ => {}
        });
    }
    found
}

/// Where the clause would be met with the unasked taken as no, and is not.
pub(super) fn question(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Formula {
    let mode = Mode {
        world: World::Actual,
        unasked: Unasked::TakenAsNo,
    };
    let met: Formula = Name::Met(World::Actual, clause).into();
    Formula::all([inquiry.theory.met(clause, mode), met.negated()])
}

/// Puts it into words.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    witness: &Scenario,
    question: &Formula,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let mentioned = inquiry.mentioned(&[clause]);
    let description = inquiry.describe(question, witness, &mentioned, &[]);
    let silent: Vec<AttributeId> = mentioned
        .iter()
        .copied()
        .filter(|id| {
            ruleset[*id].origin == Origin::Stated && description.scenario.get(*id).is_none()
        })
        .collect();
    let names: Vec<String> = silent
        .iter()
        .map(|id| format!("`{}`", ruleset[*id].name))
        .collect();
    let asked = match names.as_slice() {
        [] => "something".to_owned(),
        names => words::or_list(names),
    };
    let headline = format!(
        "Clause {} turns on {asked}, which is not asked in some scenarios; there it is not met",
        this.id
    );
    let label = "neither true nor false where that isn't asked";
    let mut finding =
        words::finding(Kind::Presupposes, headline, this.when_span, label).of_clauses(&[clause]);
    finding.attribute = silent.first().map(|id| ruleset[*id].name.clone());
    for id in &silent {
        finding.labels.push((
            ruleset[*id].span,
            format!("`{}` is not always asked", ruleset[*id].name),
        ));
    }
    finding.described(description).help(
        "If the clause is meant only where that is asked, say so in its condition. If it is meant to bite \
         in the scenarios shown as well, add an alternative for them.",
    )
}
