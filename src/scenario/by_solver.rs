//! The same questions where the space is too large to chart: put to the solver one by one.
//!
//! Nothing is counted here. That the rulings found are all, that a set of facts is enough, that no
//! nearer incident is ruled otherwise: each rests on a solver's `no`, and without one is not claimed.

use super::decide::{
    Decision, Enough, Nearby, Next, NoSuchIncident, OnDimension, Other, Possible, standing, whole,
};
use crate::logic::{
    Basis, Established, Evaluator, Formula, Name, Outcome, Ruling, Scenario, World, fact,
    same_ruling,
};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use crate::read::draft::WhenSeveral;
use crate::solve::{Answer, Budget, Reason, Solver, Z3Solver};

/// The most rulings of one dimension that are looked for.
const MOST_RULINGS: usize = 64;

/// The farthest that another ruling is looked for, in facts.
const FARTHEST: usize = 4;

/// Where a dimension is ruled so.
pub(crate) fn says(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> Formula {
    let gap = Formula::from(Name::Gap(World::Actual, dimension));
    let clash = Formula::from(Name::Clash(World::Actual, dimension));
    match ruling.basis {
        Basis::Gap => gap,
        Basis::Contradiction => clash,
        Basis::Silence => Formula::all([
            Formula::from(Name::Spoken(World::Actual, dimension)).negated(),
            Formula::from(Name::Due(World::Actual, dimension)).negated(),
        ]),
        Basis::Clauses | Basis::Default => {
            let values = 0..ruleset[dimension].values.len();
            let allowed = values.map(|value| {
                let id = u8::try_from(value).unwrap_or(u8::MAX);
                let allowed = Formula::from(Name::Allowed(World::Actual, dimension, id));
                if ruling.values.contains(value) {
                    allowed
                } else {
                    allowed.negated()
                }
            });
            let mut parts: Vec<Formula> = allowed.collect();
            parts.extend([gap.negated(), clash.negated()]);
            if ruleset[dimension].when_several == WhenSeveral::AllApply {
                parts.push(Name::Settled(World::Actual, dimension).into());
            }
            Formula::all(parts)
        }
    }
}

/// Where all these dimensions are ruled as in an outcome.
fn says_all(ruleset: &Ruleset, dimensions: &[DimensionId], outcome: &Outcome) -> Formula {
    let rulings = dimensions
        .iter()
        .filter_map(|id| Some((*id, *outcome.rulings.get(id.index())?)));
    Formula::all(rulings.map(|(id, ruling)| says(ruleset, id, ruling)))
}

/// Of some clauses those whose ruling stands wherever the facts are so.
pub(super) fn always_standing(
    ruleset: &Ruleset,
    facts: &Established,
    dimension: DimensionId,
    mut clauses: Vec<ClauseId>,
    budget: &Budget,
) -> Vec<ClauseId> {
    let mut solver = Z3Solver::new(ruleset, budget.clone());
    let given = facts.formula(ruleset);
    clauses.retain(|clause| {
        let stands = Formula::from(Name::Stands(World::Actual, *clause, dimension));
        let not = Formula::all([given.clone(), stands.negated()]);
        solver.ask(&not) == Answer::No
    });
    clauses
}

/// What a ruleset says about an incident with these facts; `why` is why the space was not charted.
pub(super) fn decide(
    ruleset: &Ruleset,
    facts: &Established,
    dimensions: &[DimensionId],
    why: &Reason,
    budget: &Budget,
) -> Result<Decision, NoSuchIncident> {
    let mut solver = Z3Solver::new(ruleset, budget.clone());
    let given = facts.formula(ruleset);
    let whole = whole(ruleset, facts, |scenario| {
        nearest(ruleset, scenario, dimensions, &mut solver)
    });
    if whole.is_none() && solver.ask(&given) == Answer::No {
        return Err(NoSuchIncident);
    }
    let mut looked_at = Vec::with_capacity(dimensions.len());
    for dimension in dimensions {
        let mut on = match &whole {
            Some(whole) => known(*dimension, &whole.scenario, &whole.outcome),
            None => rulings(ruleset, *dimension, &given, &mut solver),
        };
        on.clauses = standing(ruleset, facts, &on, whole.as_ref(), budget);
        looked_at.push(on);
    }
    let settled = looked_at.iter().all(|on| on.settled().is_some());
    let enough = settled.then(|| enough(ruleset, facts, &looked_at, &mut solver));
    let next = if settled {
        Vec::new()
    } else {
        let first = facts.asked_next(ruleset).into_iter();
        first
            .map(|attribute| Next {
                attribute,
                item: None,
                settles: None,
            })
            .collect()
    };
    let mut decision = Decision {
        facts: facts.clone(),
        whole,
        dimensions: looked_at,
        possible: None,
        enough,
        next,
    };
    if let Some(whole) = &mut decision.whole
        && let Ok(None) = whole.nearest
    {
        // No limit was set on how far to look but here.
        whole.nearest = Err(why.clone());
    }
    Ok(decision)
}

fn known(dimension: DimensionId, scenario: &Scenario, outcome: &Outcome) -> OnDimension {
    let ruling = outcome.rulings.get(dimension.index());
    let possible = ruling.map(|ruling| Possible {
        ruling: *ruling,
        count: None,
        scenario: scenario.clone(),
    });
    OnDimension {
        dimension,
        possible: possible.into_iter().collect(),
        open: None,
        clauses: Vec::new(),
    }
}

/// Every ruling that is possible on a dimension, each with an incident.
pub(crate) fn rulings(
    ruleset: &Ruleset,
    dimension: DimensionId,
    given: &Formula,
    solver: &mut Z3Solver<'_>,
) -> OnDimension {
    let evaluator = Evaluator::new(ruleset);
    let mut found: Vec<Possible> = Vec::new();
    let mut open = None;
    loop {
        if found.len() >= MOST_RULINGS {
            open = Some(Reason::TooLarge);
            break;
        }
        let others = found
            .iter()
            .map(|possible| says(ruleset, dimension, possible.ruling).negated());
        let question = Formula::all(std::iter::once(given.clone()).chain(others));
        match solver.ask(&question) {
            Answer::No => break,
            Answer::Undecided(reason) => {
                open = Some(reason);
                break;
            }
            Answer::Yes(scenario) => {
                let outcome = evaluator.outcome(&scenario);
                let ruling = outcome.rulings.get(dimension.index()).copied();
                let new = ruling
                    .filter(|ruling| !found.iter().any(|known| same_ruling(known.ruling, *ruling)));
                let Some(ruling) = new else {
                    open = Some(Reason::ReplayFailed);
                    break;
                };
                found.push(Possible {
                    ruling,
                    count: None,
                    scenario,
                });
            }
        }
    }
    found.sort_by_key(|possible| (possible.ruling.values, possible.ruling.basis));
    OnDimension {
        dimension,
        possible: found,
        open,
        clauses: Vec::new(),
    }
}

/// Facts none of which can be left out.
fn enough(
    ruleset: &Ruleset,
    facts: &Established,
    dimensions: &[OnDimension],
    solver: &mut Z3Solver<'_>,
) -> Result<Enough, Reason> {
    let settled = dimensions
        .iter()
        .filter_map(|on| Some(says(ruleset, on.dimension, on.settled()?)));
    let otherwise = Formula::all(settled).negated();
    let mut kept = facts.clone();
    for (id, _) in facts.facts() {
        let mut fewer = kept.clone();
        fewer.set(id, None);
        let question = Formula::all([fewer.formula(ruleset), otherwise.clone()]);
        match solver.ask(&question) {
            Answer::No => kept = fewer,
            Answer::Yes(_) => {}
            Answer::Undecided(reason) => return Err(reason),
        }
    }
    Ok(Enough {
        facts: kept.facts().map(|(id, _)| id).collect(),
        sets: None,
    })
}

/// One of the nearest incidents that are ruled otherwise. `Ok(None)`: none lies within
/// [`FARTHEST`] facts.
fn nearest(
    ruleset: &Ruleset,
    scenario: &Scenario,
    dimensions: &[DimensionId],
    solver: &mut Z3Solver<'_>,
) -> Result<Option<Nearby>, Reason> {
    let evaluator = Evaluator::new(ruleset);
    let otherwise = says_all(ruleset, dimensions, &evaluator.outcome(scenario)).negated();
    let ids = || (0..ruleset.attributes.len()).map(AttributeId::new);
    let same: Vec<Formula> = ids()
        .map(|id| match scenario.get(id) {
            Some(code) => fact(ruleset, id, code),
            None => Formula::from(Name::Asked(id)).negated(),
        })
        .collect();
    for distance in 1..=FARTHEST {
        let kept = same.len().saturating_sub(distance);
        let kept = u32::try_from(kept).unwrap_or(u32::MAX);
        let near = Formula::at_least(kept, same.clone());
        match solver.ask(&Formula::all([otherwise.clone(), near])) {
            Answer::No => {}
            Answer::Undecided(reason) => return Err(reason),
            Answer::Yes(other) => {
                let differs = ids().filter(|id| other.get(*id) != scenario.get(*id));
                return Ok(Some(Nearby {
                    distance,
                    others: vec![Other {
                        outcome: evaluator.outcome(&other),
                        differs: differs.collect(),
                        scenario: other,
                    }],
                    complete: false,
                }));
            }
        }
    }
    Ok(None)
}
