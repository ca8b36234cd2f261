//! Two incidents held against each other, in words; and what has a bearing on a ruling.

use super::{Change, answer, differences, ruled, statement};
use crate::labels;
use crate::logic::{Basis, Code, Outcome, Scenario, attributes_read, dimensions_read, with_askers};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use std::collections::BTreeSet;

/// The facts that have a bearing on what is ruled in some outcomes: what the clauses that are met read,
/// and what decides whether that is asked.
pub fn bearing<'o>(
    ruleset: &Ruleset,
    outcomes: impl IntoIterator<Item = &'o Outcome>,
) -> BTreeSet<AttributeId> {
    let met: BTreeSet<usize> = outcomes
        .into_iter()
        .flat_map(|said| said.met.ones())
        .collect();
    let read = met.into_iter().flat_map(|index| {
        let when = &ruleset[ClauseId::new(index)].when;
        let read = attributes_read(ruleset, when);
        read.ones().map(AttributeId::new).collect::<Vec<_>>()
    });
    with_askers(ruleset, read)
}

/// A second incident told by how it differs from a first: `The same, but the opponent gives up.` Of
/// what is newly asked, what is in `matters` or out of the ordinary is told.
pub fn the_same_but(
    ruleset: &Ruleset,
    first: &Scenario,
    second: &Scenario,
    matters: &BTreeSet<AttributeId>,
) -> String {
    let mut changed = Vec::new();
    let mut new = Vec::new();
    for difference in differences(ruleset, first, second) {
        let id = difference.attribute;
        let Some(code) = second.get(id) else {
            continue;
        };
        match difference.change {
            Change::Value => changed.push(statement(ruleset, id, code)),
            Change::NewlyAsked if matters.contains(&id) || code != Code(0) => {
                new.push(statement(ruleset, id, code));
            }
            Change::NewlyAsked | Change::NoLongerAsked => {}
        }
    }
    let but = changed.join("; ");
    if new.is_empty() {
        format!("The same, but {but}.")
    } else {
        format!("The same, but {but}. With that: {}.", new.join("; "))
    }
}

/// The clauses that a ruling rests on: those whose rulings stand, and those that the rulings rest on
/// which these read.
pub fn cited(ruleset: &Ruleset, said: &Outcome, dimension: DimensionId) -> Vec<ClauseId> {
    let mut found = Vec::new();
    let mut open = vec![dimension];
    let mut seen = BTreeSet::new();
    while let Some(on) = open.pop() {
        if !seen.insert(on) {
            continue;
        }
        for clause in said.standing.get(on.index()).into_iter().flatten() {
            if !found.contains(clause) && says_what_comes_out(ruleset, said, *clause, on) {
                found.push(*clause);
                open.extend(dimensions_read(&ruleset[*clause].when));
            }
        }
    }
    found
}

/// Whether what a standing clause rules is (part of) what comes out: where the highest counts, a
/// lower ruling is no reason.
fn says_what_comes_out(
    ruleset: &Ruleset,
    said: &Outcome,
    clause: ClauseId,
    on: DimensionId,
) -> bool {
    let ruling = said.rulings.get(on.index());
    let values = ruleset[clause].ruling_on(on).unwrap_or_default();
    ruling.is_none_or(|ruling| {
        ruling.values.is_empty() || !ruling.values.intersect(values).is_empty()
    })
}

/// A ruling with its dimension and the clauses that it rests on: `penalty to the athlete: caution
/// (clauses 11.1 and 8.9)`.
pub fn ruling_told(ruleset: &Ruleset, said: &Outcome, dimension: DimensionId) -> String {
    let Some(ruling) = said.rulings.get(dimension.index()) else {
        return String::new();
    };
    let name = labels::dimension(ruleset, dimension);
    let words = ruled(ruleset, dimension, *ruling);
    let clauses = cited(ruleset, said, dimension);
    match ruling.basis {
        Basis::Clauses | Basis::Contradiction if !clauses.is_empty() => {
            format!("{name}: {words} ({})", clauses_named(ruleset, &clauses))
        }
        _ => format!("{name}: {words}"),
    }
}

/// `clause 4.2`; `clauses 4.2 and 11.3`.
pub fn clauses_named(ruleset: &Ruleset, clauses: &[ClauseId]) -> String {
    let ids: Vec<&str> = clauses.iter().map(|id| ruleset[*id].id.as_str()).collect();
    let word = if ids.len() == 1 { "clause" } else { "clauses" };
    format!("{word} {}", crate::analysis::and_list(&ids))
}

/// The announced dimensions on which clauses rule, or on which a ruling is at fault: what there is to
/// tell about one incident. Where there is none, the first that is announced.
pub fn worth_telling(ruleset: &Ruleset, said: &Outcome) -> Vec<DimensionId> {
    let announced: Vec<DimensionId> = (0..ruleset.dimensions.len())
        .map(DimensionId::new)
        .filter(|id| !ruleset[*id].intermediate)
        .collect();
    let worth = |id: &DimensionId| {
        let Some(ruling) = said.rulings.get(id.index()) else {
            return false;
        };
        match answer(ruleset, *id, *ruling) {
            super::Answer::Silence => false,
            super::Answer::Settled => {
                ruling.basis == Basis::Clauses && ruleset[*id].otherwise != Some(ruling.values)
            }
            _ => true,
        }
    };
    let told: Vec<DimensionId> = announced.iter().copied().filter(worth).collect();
    if told.is_empty() {
        return announced.into_iter().take(1).collect();
    }
    told
}
