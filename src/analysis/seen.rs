//! What each clause was seen to do: be met, count, change a ruling.
//!
//! One scenario often shows all three, and it is looked for without the solver first; the kinds of
//! finding that depend on it (impossible, displaced, no-effect) ask the solver only for what is left.

use super::inquiry::Inquiry;
use super::witness::Trial;
use crate::logic::{Basis, Outcome, Scenario, dimensions_read};
use crate::model::{
    ClauseId, Condition, ConditionKind, DimensionId, Ruleset, RulingTest, ValueSet,
};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The scenarios in which a clause was seen to do something; `None` says nothing.
#[derive(Clone, Debug, Default)]
pub(super) struct Seen {
    /// It is met.
    pub(super) met: Option<Scenario>,
    /// It counts: a ruling of it stands, or it is in force and has none.
    pub(super) counts: Option<Scenario>,
    /// Some announced ruling would be another without it.
    pub(super) matters: Option<Scenario>,
    /// Clauses whose standing ruling on a dimension has nothing in common with this one's, met on the way.
    pub(super) clashes: BTreeMap<(DimensionId, ClauseId), Arc<Scenario>>,
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

/// The most clauses that are tried together with another.
const MOST_COMPANIONS: usize = 12;

/// The most clauses that are tried together with two others.
const MOST_FURTHER: usize = 24;

/// Looks for scenarios in which a clause is met, counts and matters.
pub(super) fn look(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Seen {
    if let Some(seen) = inquiry.precedent().and_then(|it| it.seen(clause)) {
        return seen;
    }
    let mut seen = Seen::default();
    let when = &inquiry.ruleset[clause].when;
    look_within(inquiry, clause, &[when], &mut seen);
    for companion in companions(inquiry, clause) {
        let beside = &inquiry.ruleset[companion].when;
        let further = companions(inquiry, companion)
            .into_iter()
            .filter(|other| *other != clause);
        let further = further
            .take(MOST_FURTHER)
            .map(|other| Some(&inquiry.ruleset[other].when));
        for third in std::iter::once(None).chain(further) {
            if seen.matters.is_some() {
                return seen;
            }
            let conditions: Vec<&Condition> = [when, beside].into_iter().chain(third).collect();
            look_within(inquiry, clause, &conditions, &mut seen);
        }
    }
    seen
}

fn look_within(
    inquiry: &Inquiry<'_, '_>,
    clause: ClauseId,
    conditions: &[&Condition],
    seen: &mut Seen,
) {
    let ruleset = inquiry.ruleset;
    let found = inquiry.search(conditions, |scenario, outcome| {
        if !outcome.met.contains(clause.index()) {
            return Trial::Hopeless;
        }
        seen.met.get_or_insert_with(|| scenario.clone());
        note_clashes(ruleset, clause, scenario, outcome, seen);
        if counts(inquiry, clause, outcome) {
            seen.counts.get_or_insert_with(|| scenario.clone());
            if !outcome.announces_the_same(&inquiry.outcome_without(clause, scenario), ruleset) {
                return Trial::Good;
            }
        }
        Trial::Avoid(in_the_way(inquiry, clause, outcome))
    });
    if found.is_some() {
        seen.matters = found;
    }
}

/// Clauses that a clause is likely to need beside it: those that give the rulings which its condition
/// reads, and those whose condition reads what it rules.
pub(super) fn companions(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Vec<ClauseId> {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let giving = dimensions_read(&this.when)
        .into_iter()
        .flat_map(|dimension| {
            let wanted = wanted_rulings(&this.when, dimension);
            let gives = move |other: &ClauseId| {
                ruleset[*other]
                    .ruling_on(dimension)
                    .is_some_and(|values| !values.intersect(wanted).is_empty())
            };
            inquiry
                .theory
                .speakers(dimension)
                .iter()
                .copied()
                .filter(gives)
        });
    let reading = this.rulings.iter().flat_map(|(dimension, values)| {
        let reads = move |other: &ClauseId| {
            !wanted_rulings(&ruleset[*other].when, *dimension)
                .intersect(*values)
                .is_empty()
        };
        inquiry.theory.readers(*dimension).filter(reads)
    });
    giving
        .chain(reading)
        .filter(|other| *other != clause)
        .take(MOST_COMPANIONS)
        .collect()
}

/// The values of a dimension that a condition asks for.
fn wanted_rulings(condition: &Condition, of: DimensionId) -> ValueSet {
    let mut wanted = ValueSet::EMPTY;
    condition.each_part(&mut |part| {
        if let ConditionKind::Ruling {
            dimension,
            test,
            positive,
        } = &part.kind
            && *dimension == of
        {
            let (RulingTest::OneOf(values) | RulingTest::Includes { items: values, .. }) = test;
            let all = ValueSet::first(ValueSet::CAPACITY);
            wanted = wanted.union(if *positive {
                *values
            } else {
                all.minus(*values)
            });
        }
    });
    wanted
}

/// The clauses in force that keep a clause from counting or from mattering, the nearest first.
pub(super) fn in_the_way(
    inquiry: &Inquiry<'_, '_>,
    clause: ClauseId,
    outcome: &Outcome,
) -> Vec<ClauseId> {
    let this = &inquiry.ruleset[clause];
    let above = this.disapplied_by.iter().chain(&this.yields_to).copied();
    let beside = outcome.standing_beside(clause, inquiry.ruleset);
    let mut found: Vec<ClauseId> = Vec::new();
    for other in above.chain(beside) {
        if outcome.in_force.contains(other.index()) && !found.contains(&other) {
            found.push(other);
        }
    }
    found
}

/// Notes with which clauses this one clashes in the scenario, each pair once.
fn note_clashes(
    ruleset: &Ruleset,
    clause: ClauseId,
    scenario: &Scenario,
    outcome: &Outcome,
    seen: &mut Seen,
) {
    let mut shown: Option<Arc<Scenario>> = None;
    for (dimension, values) in &ruleset[clause].rulings {
        let here = outcome.rulings.get(dimension.index());
        let clash = here.is_some_and(|ruling| ruling.basis == Basis::Contradiction);
        if !clash || !outcome.stands(clause, *dimension) {
            continue;
        }
        for other in outcome
            .standing
            .get(dimension.index())
            .into_iter()
            .flatten()
        {
            let theirs = ruleset[*other].ruling_on(*dimension).unwrap_or_default();
            let known = seen.clashes.contains_key(&(*dimension, *other));
            if theirs.intersect(*values).is_empty() && !known {
                let shown = shown.get_or_insert_with(|| Arc::new(scenario.clone()));
                seen.clashes.insert((*dimension, *other), Arc::clone(shown));
            }
        }
    }
}
