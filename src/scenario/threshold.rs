//! Thresholds: the number at which a ruling turns, with the numbers one step below and one step above.

use super::pair::{differs, plainer};
use super::study::Study;
use crate::analysis::Trial;
use crate::logic::{
    Code, Formula, Layers, Outcome, Pairing, Part, Scenario, Twin, attributes_read, fact, is_valid,
};
use crate::model::{AttributeId, AttributeKind, ClauseId, DimensionId};
use crate::solve::{Answer, Reason, Solver, Z3Solver};
use std::collections::BTreeSet;

/// A number at which a ruling turns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Threshold {
    /// The number's attribute.
    pub attribute: AttributeId,
    /// The first value beyond the turn.
    pub at: Code,
    /// One step below.
    pub below: Scenario,
    /// On the threshold.
    pub on: Scenario,
    /// One step above, where there is one.
    pub above: Option<Scenario>,
    /// Clauses that are met on one side of the turn only.
    pub clauses: Vec<ClauseId>,
}

/// What was found for a place where a number is compared.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Turn {
    /// A ruling turns there.
    Turns(Box<Threshold>),
    /// No announced ruling turns there.
    Never(AttributeId, Code),
    /// It stayed open.
    Undecided(AttributeId, Code, Reason),
}

/// The places where the numbers of a ruleset are compared: the first value of each new range. Numbers
/// that are added up have no fixed ones.
pub(crate) fn places(study: &Study<'_, '_>) -> Vec<(AttributeId, Code)> {
    let layers = study.reach.layers();
    let mut found = Vec::new();
    for id in (0..study.ruleset.attributes.len()).map(AttributeId::new) {
        if layers.is_summed(id) || !matches!(study.ruleset[id].kind, AttributeKind::Number(_)) {
            continue;
        }
        for layer in layers.of(id).filter_map(|index| layers.all().get(index)) {
            if let Part::Steps { ranges, .. } = &layer.part {
                let starts = ranges
                    .iter()
                    .skip(1)
                    .filter_map(|(low, _)| u64::try_from(*low).ok());
                found.extend(starts.map(|low| (id, Code(low))));
            }
        }
    }
    found
}

/// The threshold at a place, or that none is there.
pub(crate) fn turn(study: &mut Study<'_, '_>, id: AttributeId, at: Code) -> Turn {
    if let Some(found) = nearby(study, id, at) {
        return Turn::Turns(Box::new(found));
    }
    let ruleset = study.ruleset;
    let pairing = Pairing::changing(ruleset, BTreeSet::from([id]));
    let twin = Twin::new(ruleset, pairing);
    let dimensions = (0..ruleset.dimensions.len()).map(DimensionId::new);
    let announced = dimensions.filter(|on| !ruleset[*on].intermediate);
    let question = Formula::all([
        twin.related(),
        fact(twin.ruleset(), id, Code(at.0.saturating_sub(1))),
        fact(twin.ruleset(), twin.second_attribute(id), at),
        Formula::any(announced.map(|on| differs(&twin, on))),
    ]);
    match Z3Solver::new(twin.ruleset(), study.budget().clone()).ask(&question) {
        Answer::No => Turn::Never(id, at),
        Answer::Undecided(reason) => Turn::Undecided(id, at, reason),
        Answer::Yes(pair) => {
            let (below, on) = twin.split(&pair);
            let steps = (below.get(id), on.get(id));
            let holds = |below: &Scenario, on: &Scenario| {
                let (said, told) = (study.outcome(below), study.outcome(on));
                (below.get(id), on.get(id)) == steps && !study.differing(&said, &told).is_empty()
            };
            let (below, on) = plainer(ruleset, twin.pairing(), below, on, &holds);
            Turn::Turns(Box::new(threshold(study, id, at, below, on)))
        }
    }
}

fn nearby(study: &Study<'_, '_>, id: AttributeId, at: Code) -> Option<Threshold> {
    let ruleset = study.ruleset;
    let mut found = None;
    for index in (0..ruleset.clauses.len()).map(ClauseId::new) {
        let when = &ruleset[index].when;
        if !attributes_read(ruleset, when).contains(id.index()) || !study.wanted.is_about(index) {
            continue;
        }
        let mut conditions = vec![when];
        conditions.extend(&study.wanted.conditions);
        study.search().find(&conditions, |scenario, said| {
            found = found.take().or_else(|| around(study, scenario, id, at));
            match found {
                Some(_) => Trial::Good,
                None => Trial::Avoid(study.in_the_way(index, said)),
            }
        });
        if found.is_some() {
            return found;
        }
    }
    None
}

/// The threshold at a place with everything else as in this scenario.
fn around(
    study: &Study<'_, '_>,
    scenario: &Scenario,
    id: AttributeId,
    at: Code,
) -> Option<Threshold> {
    scenario.get(id)?;
    let below = moved(study, scenario, id, Code(at.0.checked_sub(1)?))?;
    let on = moved(study, scenario, id, at)?;
    let (said, told) = (study.outcome(&below), study.outcome(&on));
    let wanted = study.is_wanted(&below, &said) || study.is_wanted(&on, &told);
    (wanted && !study.differing(&said, &told).is_empty())
        .then(|| threshold(study, id, at, below, on))
}

fn threshold(
    study: &Study<'_, '_>,
    id: AttributeId,
    at: Code,
    below: Scenario,
    on: Scenario,
) -> Threshold {
    let highest = crate::logic::highest_code(&study.ruleset[id].kind);
    let next = at.0.checked_add(1).filter(|next| *next <= highest);
    let above = next.and_then(|next| moved(study, &on, id, Code(next)));
    let (said, told) = (study.outcome(&below), study.outcome(&on));
    Threshold {
        attribute: id,
        at,
        clauses: turning(&said, &told),
        below,
        on,
        above,
    }
}

/// The clauses that are met in one outcome only.
fn turning(said: &Outcome, told: &Outcome) -> Vec<ClauseId> {
    let changed = said.met.symmetric_difference(&told.met);
    let mut changed: Vec<ClauseId> = changed.map(ClauseId::new).collect();
    changed.sort_unstable();
    changed
}

fn moved(
    study: &Study<'_, '_>,
    scenario: &Scenario,
    id: AttributeId,
    code: Code,
) -> Option<Scenario> {
    let mut changed = scenario.clone();
    changed.set(id, Some(code));
    Layers::settle_asking(study.ruleset, &mut changed);
    (changed.get(id) == Some(code) && is_valid(study.ruleset, &changed)).then_some(changed)
}
