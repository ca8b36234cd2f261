//! What a ruleset says about one incident, as far as its facts are established.
//!
//! Where the space can be charted, every number here is an exact count and every "fewest" is proved.
//! Where it is too large for that, the solver answers what it can, and what is not known is said. Every
//! scenario that is given has been put to the plain evaluator.

use super::by_solver;
use super::explain::{Reason, reasons};
use crate::logic::{
    Chart, Code, Established, Evaluator, Nearest, Outcome, Question, Ruling, Scenario,
    attributes_read, is_valid, same_ruling,
};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use crate::solve::{Budget, Reason as Why};
use num_bigint::BigUint;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Nodes that each part of a chart may make.
const WORK: usize = 1_000_000;

/// What a ruleset says about one incident.
#[derive(Clone, Debug)]
pub struct Decision {
    /// The facts.
    pub facts: Established,
    /// The whole incident, where nothing is left to establish.
    pub whole: Option<Whole>,
    /// The dimensions that were looked at, in the order of the ruleset.
    pub dimensions: Vec<OnDimension>,
    /// How many incidents have the facts, where that could be counted.
    pub possible: Option<BigUint>,
    /// The facts that were enough, where all rulings are settled.
    pub enough: Option<Result<Enough, Why>>,
    /// What could be established next, the best first, where a ruling is not settled. Without counts,
    /// where there are none: in the order of asking.
    pub next: Vec<Next>,
}

/// A whole incident.
#[derive(Clone, Debug)]
pub struct Whole {
    /// The incident.
    pub scenario: Scenario,
    /// What is said about it.
    pub outcome: Outcome,
    /// The clauses that are met, and what became of each.
    pub reasons: Vec<Reason>,
    /// The nearest incidents that are ruled otherwise; `None` where there are none at all.
    pub nearest: Result<Option<Nearby>, Why>,
}

/// The nearest incidents that are ruled otherwise.
#[derive(Clone, Debug)]
pub struct Nearby {
    /// In how many facts they differ; fewer do not do.
    pub distance: usize,
    /// The incidents with the attributes in which they differ.
    pub others: Vec<Other>,
    /// Whether these are all the kinds of difference that there are.
    pub complete: bool,
}

/// An incident that is ruled otherwise.
#[derive(Clone, Debug)]
pub struct Other {
    /// The incident.
    pub scenario: Scenario,
    /// The attributes in which it differs.
    pub differs: Vec<AttributeId>,
    /// What is said about it.
    pub outcome: Outcome,
}

/// One dimension of an incident.
#[derive(Clone, Debug)]
pub struct OnDimension {
    /// The dimension.
    pub dimension: DimensionId,
    /// The rulings that are possible, in the order of their values.
    pub possible: Vec<Possible>,
    /// Why these may not be all, where they may not.
    pub open: Option<Why>,
    /// The clauses whose ruling stands whatever else is established, where that is known.
    pub clauses: Vec<ClauseId>,
}

impl OnDimension {
    /// The ruling, where it is settled.
    pub fn settled(&self) -> Option<Ruling> {
        match (self.possible.as_slice(), &self.open) {
            ([one], None) => Some(one.ruling),
            _ => None,
        }
    }
}

/// A ruling that is possible.
#[derive(Clone, Debug)]
pub struct Possible {
    /// The ruling.
    pub ruling: Ruling,
    /// In how many incidents, where that could be counted.
    pub count: Option<BigUint>,
    /// The most ordinary incident that was found.
    pub scenario: Scenario,
}

/// The facts that were enough.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Enough {
    /// The attributes; whoever has these facts is ruled the same, whatever else is established.
    pub facts: Vec<AttributeId>,
    /// How many sets of so few facts are enough, this one among them. `None` where it is only known
    /// that none of them can be left out.
    pub sets: Option<BigUint>,
}

/// What could be established next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Next {
    /// The attribute.
    pub attribute: AttributeId,
    /// Of a `several`: whether this item is there.
    pub item: Option<usize>,
    /// In how many of the incidents that are possible the answer settles all rulings.
    pub settles: Option<BigUint>,
}

/// Draws the chart of a ruleset for some dimensions.
///
/// # Errors
/// Why it could not be drawn.
pub fn chart<'r>(
    ruleset: &'r Ruleset,
    dimensions: &[DimensionId],
    budget: &Budget,
) -> Result<Chart<'r>, Why> {
    let shared = budget.clone();
    let stop = Arc::new(move || shared.exhausted().is_some());
    Chart::new(ruleset, dimensions, WORK, stop)
        .map_err(|_| budget.exhausted().unwrap_or(Why::TooLarge))
}

/// The dimensions that are announced.
pub fn announced(ruleset: &Ruleset) -> Vec<DimensionId> {
    let all = ruleset.dimensions.iter().enumerate();
    all.filter(|(_, dimension)| !dimension.intermediate)
        .map(|(index, _)| DimensionId::new(index))
        .collect()
}

/// What a ruleset says about an incident with these facts, on the dimensions of the chart or, where
/// there is no chart, on `dimensions`.
///
/// # Errors
/// Where no incident has the facts.
pub fn decide(
    ruleset: &Ruleset,
    facts: &Established,
    dimensions: &[DimensionId],
    chart: &mut Result<Chart<'_>, Why>,
    budget: &Budget,
) -> Result<Decision, NoSuchIncident> {
    if let Ok(drawn) = chart {
        match charted(ruleset, facts, drawn, budget) {
            Err(Slip::Nowhere) => return Err(NoSuchIncident),
            Ok(decision) => return Ok(decision),
            // A fault of ours: the solver has to answer instead.
            Err(Slip::Replay) => *chart = Err(Why::ReplayFailed),
        }
    }
    let why = match chart {
        Ok(_) => Why::TooLarge,
        Err(why) => why.clone(),
    };
    by_solver::decide(ruleset, facts, dimensions, &why, budget)
}

/// No incident has the facts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSuchIncident;

enum Slip {
    Nowhere,
    Replay,
}

fn charted(
    ruleset: &Ruleset,
    facts: &Established,
    chart: &mut Chart<'_>,
    budget: &Budget,
) -> Result<Decision, Slip> {
    let outlook = chart.outlook(facts);
    let tally = chart.tally(&outlook);
    if tally.is_empty() {
        return Err(Slip::Nowhere);
    }
    let mut dimensions: Vec<OnDimension> = chart
        .dimensions()
        .iter()
        .map(|id| OnDimension {
            dimension: *id,
            possible: Vec::new(),
            open: None,
            clauses: Vec::new(),
        })
        .collect();
    let evaluator = Evaluator::new(ruleset);
    for (verdict, count) in &tally {
        let scenario = chart
            .most_ordinary(&outlook, *verdict)
            .ok_or(Slip::Replay)?;
        let outcome = evaluator.outcome(&scenario);
        let agrees = |id: DimensionId, ruling: Ruling| {
            let said = outcome.rulings.get(id.index());
            said.is_some_and(|said| same_ruling(*said, ruling))
        };
        let rulings = chart.rulings(*verdict);
        let pairs = || dimensions.iter().zip(rulings);
        let replayed = is_valid(ruleset, &scenario)
            && facts.agrees_with(&scenario)
            && pairs().all(|(on, ruling)| agrees(on.dimension, *ruling));
        if !replayed {
            return Err(Slip::Replay);
        }
        for (on, ruling) in dimensions.iter_mut().zip(rulings) {
            on.take(ruleset, *ruling, count, &scenario);
        }
    }
    let whole = whole(ruleset, facts, |scenario| {
        Ok(chart
            .nearest_other(scenario)
            .map(|near| nearby(ruleset, near)))
    });
    for on in &mut dimensions {
        on.possible
            .sort_by_key(|possible| (possible.ruling.values, possible.ruling.basis));
        on.clauses = standing(ruleset, facts, on, whole.as_ref(), budget);
    }
    let settled = match tally.as_slice() {
        [(verdict, _)] => Some(*verdict),
        _ => None,
    };
    let enough = settled.map(|verdict| {
        let preferred = speaking(ruleset, &dimensions, whole.as_ref());
        let found = chart.sufficient(facts, verdict, &preferred);
        found
            .map(|found| Enough {
                facts: found.facts,
                sets: Some(found.sets),
            })
            .map_err(|_| Why::TooLarge)
    });
    let next = match settled {
        Some(_) => Vec::new(),
        None => chart.questions(&outlook).iter().map(next).collect(),
    };
    Ok(Decision {
        facts: facts.clone(),
        whole,
        dimensions,
        possible: Some(tally.iter().map(|(_, count)| count).sum()),
        enough,
        next,
    })
}

fn next(question: &Question) -> Next {
    Next {
        attribute: question.attribute,
        item: question.item,
        settles: Some(question.settles.clone()),
    }
}

impl OnDimension {
    /// Takes in that a ruling is possible in so many incidents.
    fn take(&mut self, ruleset: &Ruleset, ruling: Ruling, count: &BigUint, scenario: &Scenario) {
        let said = Evaluator::new(ruleset).outcome(scenario);
        let known = self
            .possible
            .iter_mut()
            .find(|known| same_ruling(known.ruling, ruling));
        match known {
            Some(known) => {
                if let Some(total) = &mut known.count {
                    *total += count;
                }
                if strangeness(scenario) < strangeness(&known.scenario) {
                    known.scenario = scenario.clone();
                }
            }
            None => self.possible.push(Possible {
                // Where it comes from is the evaluator's to say.
                ruling: said
                    .rulings
                    .get(self.dimension.index())
                    .copied()
                    .unwrap_or(ruling),
                count: Some(count.clone()),
                scenario: scenario.clone(),
            }),
        }
    }
}

/// In how many facts a scenario is out of the ordinary.
fn strangeness(scenario: &Scenario) -> usize {
    scenario
        .facts()
        .filter(|(_, code)| *code != Code(0))
        .count()
}

/// The whole incident, where the facts are one.
pub(super) fn whole(
    ruleset: &Ruleset,
    facts: &Established,
    nearest: impl FnOnce(&Scenario) -> Result<Option<Nearby>, Why>,
) -> Option<Whole> {
    let scenario = facts.scenario(ruleset)?;
    let outcome = Evaluator::new(ruleset).outcome(&scenario);
    Some(Whole {
        reasons: reasons(ruleset, &outcome),
        nearest: nearest(&scenario),
        scenario,
        outcome,
    })
}

/// The clauses whose ruling stands on a dimension whatever else is established. Where the incident is
/// not whole, the solver is asked about each; without an answer nothing is claimed.
pub(super) fn standing(
    ruleset: &Ruleset,
    facts: &Established,
    on: &OnDimension,
    whole: Option<&Whole>,
    budget: &Budget,
) -> Vec<ClauseId> {
    if let Some(whole) = whole {
        let standing = whole.outcome.standing.get(on.dimension.index());
        return standing.cloned().unwrap_or_default();
    }
    let Some(example) = on.settled().and_then(|_| on.possible.first()) else {
        return Vec::new();
    };
    let outcome = Evaluator::new(ruleset).outcome(&example.scenario);
    let standing = outcome.standing.get(on.dimension.index());
    let standing = standing.cloned().unwrap_or_default();
    by_solver::always_standing(ruleset, facts, on.dimension, standing, budget)
}

/// The attributes that the clauses read from which the rulings come.
fn speaking(
    ruleset: &Ruleset,
    dimensions: &[OnDimension],
    whole: Option<&Whole>,
) -> BTreeSet<AttributeId> {
    let standing = dimensions.iter().flat_map(|on| on.clauses.iter().copied());
    let met = whole.into_iter().flat_map(|whole| {
        let stands = whole.reasons.iter().filter(|reason| reason.stands());
        stands.map(|reason| reason.clause)
    });
    standing
        .chain(met)
        .flat_map(|clause| {
            let read = attributes_read(ruleset, &ruleset[clause].when);
            read.ones().map(AttributeId::new).collect::<Vec<_>>()
        })
        .collect()
}

/// Puts the neighbours to the evaluator; one that is not ruled as the chart says is not shown.
fn nearby(ruleset: &Ruleset, near: Nearest) -> Nearby {
    let evaluator = Evaluator::new(ruleset);
    let found = near.neighbours.len();
    let others: Vec<Other> = near
        .neighbours
        .into_iter()
        .filter(|other| is_valid(ruleset, &other.scenario))
        .map(|other| Other {
            outcome: evaluator.outcome(&other.scenario),
            scenario: other.scenario,
            differs: other.differs,
        })
        .collect();
    Nearby {
        distance: near.distance,
        complete: near.complete && others.len() == found,
        others,
    }
}
