//! Under which general conditions something is so: the educator's question the other way round.
//!
//! "How may the leg still be touched?" is answered by all the conditions under which nothing is
//! imposed, each with an incident, together exactly the incidents that were asked for.

use crate::analysis::vocabulary;
use crate::logic::{
    Count, Diagrams, Formula, Layers, Mode, Replay, Scenario, Theory, Wanted, attributes_read,
    dimensions_read, is_false, is_true, is_valid,
};
use crate::model::{AttributeId, Condition, DimensionId, Ruleset, Step};
use crate::solve::{Answer, Budget, Reason, Solver, Z3Solver};
use num_bigint::BigUint;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Nodes that each part of the work may make.
const WORK: usize = 3_000_000;

/// The most lines that are worked out.
const MOST_LINES: usize = 200;

/// Under which conditions something is so.
#[derive(Clone, Debug)]
pub struct When {
    /// The conditions, each with the incidents that it covers. Together they cover nothing but what
    /// was asked for.
    pub lines: Vec<Case>,
    /// Why the lines are not all, where they are not.
    pub open: Option<Reason>,
    /// In how many incidents it is so, where that could be counted.
    pub share: Option<Count>,
    /// In how many incidents it was looked for: all, or those of the condition that was given.
    pub of: Option<Count>,
    /// In how many of them it is neither so nor not so: something is not asked, or a ruling is not
    /// exactly one.
    pub neither: Option<Count>,
    /// The most ordinary incident in which it is so.
    pub scenario: Option<Scenario>,
}

/// One general condition.
#[derive(Clone, Debug)]
pub struct Case {
    /// In the ruleset's words.
    pub condition: String,
    /// In how many incidents it is so under this condition.
    pub share: Count,
    /// The most ordinary of them.
    pub scenario: Scenario,
    /// The attributes that the condition speaks of, and those of what was given.
    pub turns_on: BTreeSet<AttributeId>,
}

/// Under which conditions `wanted` is true, among the incidents in which `given` is.
pub fn when(
    ruleset: &Ruleset,
    wanted: &Condition,
    given: Option<&Condition>,
    budget: &Budget,
) -> When {
    let so = is_true(wanted, Mode::ACTUAL);
    let among = given.map_or(Formula::True, |given| is_true(given, Mode::ACTUAL));
    let why = match by_diagrams(ruleset, wanted, given, &so, &among, budget) {
        Ok(found) => return found,
        Err(why) => why,
    };
    let both = Formula::all([so, among]);
    let mut found = When {
        lines: Vec::new(),
        open: Some(why),
        share: None,
        of: None,
        neither: None,
        scenario: None,
    };
    match Z3Solver::new(ruleset, budget.clone()).ask(&both) {
        Answer::Yes(scenario) => found.scenario = Some(scenario),
        // That it is never so is a whole answer.
        Answer::No => found.open = None,
        Answer::Undecided(why) => found.open = Some(why),
    }
    found
}

fn by_diagrams(
    ruleset: &Ruleset,
    wanted: &Condition,
    given: Option<&Condition>,
    so: &Formula,
    among: &Formula,
    budget: &Budget,
) -> Result<When, Reason> {
    let shared = budget.clone();
    let stop = Arc::new(move || shared.exhausted().is_some());
    let too_large = |_| budget.exhausted().unwrap_or(Reason::TooLarge);
    let conditions: Vec<&Condition> = std::iter::once(wanted).chain(given).collect();
    let layers = Layers::also_for(ruleset, &conditions);
    let mut diagrams =
        Diagrams::new(Theory::new(ruleset), layers, WORK, stop).map_err(too_large)?;
    diagrams.allow(WORK);
    let among = diagrams.set(among).map_err(too_large)?;
    diagrams.allow(WORK);
    let so_set = diagrams.set(so).map_err(too_large)?;
    let set = diagrams.and(&so_set, &among).map_err(too_large)?;
    diagrams.allow(WORK);
    let not_so = diagrams
        .set(&is_false(wanted, Mode::ACTUAL))
        .map_err(too_large)?;
    let rest = diagrams.minus(&among, &set).map_err(too_large)?;
    let neither = diagrams.minus(&rest, &not_so).map_err(too_large)?;
    diagrams.allow(WORK);
    let exactly = |scenarios: BigUint| Count {
        scenarios,
        exact: true,
    };
    let share = exactly(diagrams.count(&set).map_err(too_large)?);
    let of = exactly(diagrams.count(&among).map_err(too_large)?);
    let neither = exactly(diagrams.count(&neither).map_err(too_large)?);
    let replayed = |scenario: &Scenario| {
        is_valid(ruleset, scenario) && Replay::new(ruleset, scenario).holds(so)
    };
    let scenario = diagrams.most_ordinary(&set);
    if scenario
        .as_ref()
        .is_some_and(|scenario| !replayed(scenario))
    {
        return Err(Reason::ReplayFailed);
    }
    let mut found = When {
        lines: Vec::new(),
        open: None,
        share: Some(share),
        of: Some(of),
        neither: Some(neither),
        scenario,
    };
    diagrams.allow(WORK);
    let mentioned = mentioned(ruleset, &conditions);
    let vocabulary = vocabulary(ruleset);
    let wanted = Wanted {
        vocabulary: &vocabulary,
        mentioned: &mentioned,
        most: MOST_LINES,
    };
    let region = match diagrams.region_within(&set, &among, wanted) {
        Ok(region) => region,
        Err(error) => {
            found.open = Some(too_large(error));
            return Ok(found);
        }
    };
    if !region.complete {
        found.open = Some(budget.exhausted().unwrap_or(Reason::TooLarge));
    }
    let given_reads: Vec<AttributeId> = given.map_or_else(Vec::new, |given| {
        let read = attributes_read(ruleset, given);
        read.ones().map(AttributeId::new).collect()
    });
    for line in &region.lines {
        diagrams.allow(WORK);
        let covered = diagrams.line_set(line).map_err(too_large)?;
        let covered = diagrams.and(&covered, &set).map_err(too_large)?;
        let count = diagrams.count(&covered).map_err(too_large)?;
        let Some(scenario) = diagrams.most_ordinary(&covered).filter(replayed) else {
            return Err(Reason::ReplayFailed);
        };
        found.lines.push(Case {
            condition: diagrams.line_text(line, &vocabulary),
            share: exactly(count),
            scenario,
            turns_on: line
                .speaks_of(diagrams.layers())
                .into_iter()
                .chain(given_reads.iter().copied())
                .collect(),
        });
    }
    Ok(found)
}

/// The attributes that whoever asks expects to see: those that the conditions read, and those that the
/// clauses read from which the rulings come that they read.
fn mentioned(ruleset: &Ruleset, conditions: &[&Condition]) -> BTreeSet<AttributeId> {
    let mut found = BTreeSet::new();
    let mut dimensions: BTreeSet<DimensionId> = BTreeSet::new();
    let mut take = |condition: &Condition, dimensions: &mut BTreeSet<DimensionId>| {
        found.extend(
            attributes_read(ruleset, condition)
                .ones()
                .map(AttributeId::new),
        );
        dimensions.extend(dimensions_read(condition));
    };
    for condition in conditions {
        take(condition, &mut dimensions);
    }
    // What a clause reads stands before it, so one look from the last to the first sees all.
    for step in ruleset.order.iter().rev() {
        if let Step::Clause(id) = step {
            let clause = &ruleset[*id];
            let speaks = clause.rulings.iter().any(|(on, _)| dimensions.contains(on));
            if speaks {
                take(&clause.when, &mut dimensions);
            }
        }
    }
    found
}
