//! Clauses that compete: two are met at once and would rule differently; which of them prevails.

use super::study::Study;
use crate::analysis::Trial;
use crate::logic::{Formula, Name, Outcome, Scenario, World};
use crate::model::{ClauseId, DimensionId, Ruleset};
use crate::solve::{Answer, Reason};
use std::collections::BTreeSet;

/// A scenario in which two clauses are met that would rule differently.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Competing {
    /// The scenario.
    pub scenario: Scenario,
    /// The clause that prevails, or the first of two between which nothing is said.
    pub first: ClauseId,
    /// The clause that gives way, or the second.
    pub second: ClauseId,
    /// What they compete about; `None` where one takes the other away altogether.
    pub dimension: Option<DimensionId>,
    /// How it ends.
    pub ending: Ending,
}

/// How two competing clauses come out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ending {
    /// The second is off altogether.
    Disapplied,
    /// The second gives way to the first on the dimension.
    Displaced,
    /// Both stand and only the first's ruling comes out: the higher, or the lower.
    Outranked,
    /// Both stand and both rulings come out, all of them or at the official's discretion.
    Together,
    /// Both stand and have nothing in common.
    Contradiction,
}

/// Two clauses that may compete.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Rivals {
    first: ClauseId,
    second: ClauseId,
    stated: bool,
}

/// All that may compete, clauses between which precedence is stated first.
pub(crate) fn rivals(study: &Study<'_, '_>) -> Vec<Rivals> {
    let ruleset = study.ruleset;
    let about = |one, other| study.wanted.is_about(one) || study.wanted.is_about(other);
    let mut seen = BTreeSet::new();
    let mut found = Vec::new();
    let ids = || (0..ruleset.clauses.len()).map(ClauseId::new);
    for first in ids() {
        let this = &ruleset[first];
        for second in this.disapplies.iter().chain(&this.prevails_over) {
            let pair = (first.min(*second), first.max(*second));
            let off = this.disapplies.contains(second);
            if about(first, *second)
                && (off || dispute(ruleset, first, *second).is_some())
                && seen.insert(pair)
            {
                found.push(Rivals {
                    first,
                    second: *second,
                    stated: true,
                });
            }
        }
    }
    for first in ids() {
        let Some(cell_box) = study.reach.cell_box(first) else {
            continue;
        };
        for second in study.reach.meeting(cell_box).ones().map(ClauseId::new) {
            if second > first
                && about(first, second)
                && dispute(ruleset, first, second).is_some()
                && seen.insert((first, second))
            {
                found.push(Rivals {
                    first,
                    second,
                    stated: false,
                });
            }
        }
    }
    found
}

/// A dimension on which two clauses would rule differently.
fn dispute(ruleset: &Ruleset, one: ClauseId, other: ClauseId) -> Option<DimensionId> {
    let rulings = ruleset[one].rulings.iter();
    let mut differing = rulings.filter(|(on, values)| {
        ruleset[other]
            .ruling_on(*on)
            .is_some_and(|theirs| theirs != *values)
    });
    differing.next().map(|(on, _)| *on)
}

/// A scenario in which the two compete; `Ok(None)` where they are never met together.
pub(crate) fn compete(
    study: &mut Study<'_, '_>,
    rivals: Rivals,
) -> Result<Option<Competing>, Reason> {
    let ruleset = study.ruleset;
    let Rivals {
        first,
        second,
        stated,
    } = rivals;
    let mut conditions = vec![&ruleset[first].when, &ruleset[second].when];
    conditions.extend(&study.wanted.conditions);
    let mut fallback: Option<Scenario> = None;
    let found = study.search().find(&conditions, |scenario, said| {
        let met = said.met.contains(first.index()) && said.met.contains(second.index());
        if !met || !study.is_wanted(scenario, said) {
            return Trial::Hopeless;
        }
        // Best alone: a third clause would hide which of the two prevails.
        let thirds: Vec<ClauseId> = said
            .met
            .ones()
            .map(ClauseId::new)
            .filter(|other| *other != first && *other != second)
            .filter(|other| {
                interferes(ruleset, *other, first) || interferes(ruleset, *other, second)
            })
            .collect();
        if thirds.is_empty() {
            return Trial::Good;
        }
        fallback.get_or_insert_with(|| scenario.clone());
        Trial::Avoid(thirds)
    });
    let scenario = match found.or(fallback) {
        Some(scenario) => scenario,
        // Whether two clauses meet by chance is worth a question only if somebody asked for them.
        None if !stated && study.wanted.clauses.is_empty() => return Ok(None),
        None => {
            let both = [first, second].map(|id| Name::Met(World::Actual, id).into());
            let wanted = study.wanted_formula();
            match study.ask(&Formula::all(both.into_iter().chain([wanted]))) {
                Answer::Yes(scenario) => scenario,
                Answer::No => return Ok(None),
                Answer::Undecided(reason) => return Err(reason),
            }
        }
    };
    let said = study.outcome(&scenario);
    Ok(judged(ruleset, first, second, &scenario, &said))
}

/// Whether a third clause has a say in what one of two decides.
fn interferes(ruleset: &Ruleset, third: ClauseId, one: ClauseId) -> bool {
    let this = &ruleset[one];
    this.disapplied_by.contains(&third)
        || this
            .rulings
            .iter()
            .any(|(on, _)| ruleset[third].ruling_on(*on).is_some())
}

fn judged(
    ruleset: &Ruleset,
    first: ClauseId,
    second: ClauseId,
    scenario: &Scenario,
    said: &Outcome,
) -> Option<Competing> {
    let made = |first, second, dimension, ending| {
        Some(Competing {
            scenario: scenario.clone(),
            first,
            second,
            dimension,
            ending,
        })
    };
    for (one, other) in [(first, second), (second, first)] {
        if said.in_force.contains(one.index()) && ruleset[one].disapplies.contains(&other) {
            return made(one, other, None, Ending::Disapplied);
        }
    }
    let on = dispute(ruleset, first, second)?;
    for (one, other) in [(first, second), (second, first)] {
        if said.in_force.contains(one.index())
            && said.in_force.contains(other.index())
            && ruleset[one].prevails_over.contains(&other)
        {
            return made(one, other, Some(on), Ending::Displaced);
        }
    }
    if !(said.stands(first, on) && said.stands(second, on)) {
        return None;
    }
    let ruling = said.rulings.get(on.index())?;
    let [mine, theirs] = [first, second].map(|id| ruleset[id].ruling_on(on).unwrap_or_default());
    if ruling.values.is_empty() {
        return made(first, second, Some(on), Ending::Contradiction);
    }
    let comes_out = |values: crate::model::ValueSet| !values.intersect(ruling.values).is_empty();
    match (comes_out(mine), comes_out(theirs)) {
        (true, false) => made(first, second, Some(on), Ending::Outranked),
        (false, true) => made(second, first, Some(on), Ending::Outranked),
        (true, true) => made(first, second, Some(on), Ending::Together),
        (false, false) => None,
    }
}
