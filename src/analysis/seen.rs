//! What each clause was seen to do: be met, count, change a ruling.
//!
//! One scenario often shows all three, and it is looked for without the solver first; the kinds of
//! finding that depend on it (impossible, displaced, no-effect) ask the solver only for what is left.

use super::inquiry::Inquiry;
use super::witness::Trial;
use crate::logic::{Outcome, Scenario};
use crate::model::{ClauseId, DimensionId};

/// The scenarios in which a clause was seen to do something; `None` says nothing.
#[derive(Clone, Debug, Default)]
pub(super) struct Seen {
    /// It is met.
    pub(super) met: Option<Scenario>,
    /// It counts: a ruling of it stands, or it is in force and has none.
    pub(super) counts: Option<Scenario>,
    /// Some announced ruling would be another without it.
    pub(super) matters: Option<Scenario>,
    /// Pairs whose standing rulings have nothing in common, met on the way.
    pub(super) clashes: Vec<(ClauseId, ClauseId, DimensionId, Scenario)>,
}

/// Whether the clause counts in an outcome.
pub(super) fn counts(inquiry: &Inquiry<'_, '_>, clause: ClauseId, outcome: &Outcome) -> bool {
    let rulings = &inquiry.ruleset[clause].rulings;
    outcome.in_force.contains(clause.index())
        && (rulings.is_empty()
            || rulings
                .iter()
                .any(|(dimension, _)| outcome.stands(clause, *dimension)))
}

/// Looks for scenarios in which a clause is met, counts and matters.
pub(super) fn look(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Seen {
    let ruleset = inquiry.ruleset;
    let mut seen = Seen::default();
    let when = &ruleset[clause].when;
    inquiry.search(&[when], |scenario, outcome| {
        if !outcome.met.contains(clause.index()) {
            return Trial::Hopeless;
        }
        seen.met.get_or_insert_with(|| scenario.clone());
        note_clashes(inquiry, scenario, outcome, &mut seen.clashes);
        if counts(inquiry, clause, outcome) {
            seen.counts.get_or_insert_with(|| scenario.clone());
            if !outcome.announces_the_same(&inquiry.outcome_without(clause, scenario), ruleset) {
                seen.matters = Some(scenario.clone());
                return Trial::Good;
            }
        }
        Trial::Avoid(in_the_way(inquiry, clause, outcome))
    });
    seen
}

/// The clauses in force that keep a clause from counting or from mattering, the nearest first.
fn in_the_way(inquiry: &Inquiry<'_, '_>, clause: ClauseId, outcome: &Outcome) -> Vec<ClauseId> {
    let this = &inquiry.ruleset[clause];
    let above = this.disapplied_by.iter().chain(&this.yields_to).copied();
    let beside = this.rulings.iter().flat_map(|(dimension, _)| {
        outcome
            .standing
            .get(dimension.index())
            .into_iter()
            .flatten()
            .copied()
            .filter(|other| *other != clause)
    });
    let mut found: Vec<ClauseId> = Vec::new();
    for other in above.chain(beside) {
        if outcome.in_force.contains(other.index()) && !found.contains(&other) {
            found.push(other);
        }
    }
    found
}

fn note_clashes(
    inquiry: &Inquiry<'_, '_>,
    scenario: &Scenario,
    outcome: &Outcome,
    clashes: &mut Vec<(ClauseId, ClauseId, DimensionId, Scenario)>,
) {
    let ruleset = inquiry.ruleset;
    for (index, ruling) in outcome.rulings.iter().enumerate() {
        if ruling.basis != crate::logic::Basis::Contradiction {
            continue;
        }
        let dimension = DimensionId::new(index);
        let standing = outcome.standing.get(index).map_or(&[][..], Vec::as_slice);
        for (position, one) in standing.iter().enumerate() {
            for other in standing.iter().skip(position + 1) {
                let disjoint = match (
                    ruleset[*one].ruling_on(dimension),
                    ruleset[*other].ruling_on(dimension),
                ) {
                    (Some(mine), Some(theirs)) => mine.intersect(theirs).is_empty(),
                    _ => false,
                };
                if disjoint {
                    clashes.push((*one, *other, dimension, scenario.clone()));
                }
            }
        }
    }
}
