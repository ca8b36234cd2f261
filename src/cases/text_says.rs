//! What the text may say on some facts: every ruling that is still possible.
//!
//! Answers come from a chart of each dimension; where a ruleset is too large for one, from the
//! solver. What was asked before is remembered, within limits.

use crate::logic::{
    Chart, Established, Evaluator, Formula, Name, Ruling, Scenario, World, same_ruling,
};
use crate::model::{AttributeId, DimensionId, Ruleset};
use crate::solve::{Answer, Budget, Reason, Solver, Z3Solver};
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::Arc;

/// Nodes that the chart of one dimension may make.
const WORK: usize = 3_000_000;
/// Different facts whose answers are remembered.
const REMEMBERED: usize = 50_000;

/// The rulings that the text may give on some facts.
#[derive(Clone, Debug)]
pub struct Possible {
    rulings: Vec<Vec<Ruling>>,
    /// The incident, where the facts leave nothing open.
    pub whole: Option<Scenario>,
    /// Why it could not be found out, where it could not.
    pub open: Option<Reason>,
}

impl Possible {
    /// The rulings on a dimension; none where no incident has the facts.
    pub fn on(&self, dimension: DimensionId) -> &[Ruling] {
        self.rulings
            .get(dimension.index())
            .map_or(&[], Vec::as_slice)
    }

    /// Whether some incident has the facts, as far as was found out.
    pub fn is_possible(&self) -> bool {
        self.open.is_some() || self.rulings.iter().any(|rulings| !rulings.is_empty())
    }
}

/// A fact that would help to settle what the text says.
pub type Missing = AttributeId;

/// The chart of a dimension.
enum Drawn<'r> {
    /// It was not asked for yet.
    NotYet,
    /// This one.
    Chart(Box<Chart<'r>>),
    /// It is too large.
    TooLarge,
}

/// Says what the text of a ruleset may say on some facts.
pub struct TextSays<'r> {
    ruleset: &'r Ruleset,
    budget: Budget,
    /// For each dimension its chart.
    charts: Vec<Drawn<'r>>,
    solver: Option<Z3Solver<'r>>,
    known: BTreeMap<Established, Rc<Possible>>,
}

impl<'r> TextSays<'r> {
    /// Takes a ruleset.
    pub fn new(ruleset: &'r Ruleset, budget: Budget) -> Self {
        TextSays {
            ruleset,
            budget,
            charts: ruleset.dimensions.iter().map(|_| Drawn::NotYet).collect(),
            solver: None,
            known: BTreeMap::new(),
        }
    }

    /// What the text may say on every dimension.
    pub fn on(&mut self, facts: &Established) -> Rc<Possible> {
        if let Some(known) = self.known.get(facts) {
            return Rc::clone(known);
        }
        let found = Rc::new(self.find(facts));
        if self.known.len() < REMEMBERED {
            self.known.insert(facts.clone(), Rc::clone(&found));
        }
        found
    }

    fn find(&mut self, facts: &Established) -> Possible {
        if let Some(scenario) = facts.scenario(self.ruleset) {
            let outcome = Evaluator::new(self.ruleset).outcome(&scenario);
            return Possible {
                rulings: outcome
                    .rulings
                    .into_iter()
                    .map(|ruling| vec![ruling])
                    .collect(),
                whole: Some(scenario),
                open: None,
            };
        }
        let mut found = Possible {
            rulings: Vec::new(),
            whole: None,
            open: None,
        };
        for dimension in (0..self.ruleset.dimensions.len()).map(DimensionId::new) {
            match self.possible(facts, dimension) {
                Ok(rulings) => found.rulings.push(rulings),
                Err(reason) => {
                    found.rulings.push(Vec::new());
                    found.open = Some(reason);
                }
            }
        }
        found
    }

    fn possible(
        &mut self,
        facts: &Established,
        dimension: DimensionId,
    ) -> Result<Vec<Ruling>, Reason> {
        if let Some(chart) = self.chart(dimension) {
            let verdicts = chart.possible(facts).into_iter();
            let ruling = |verdict| chart.rulings(verdict).first().copied();
            return Ok(verdicts.filter_map(ruling).collect());
        }
        self.by_solver(facts, dimension)
    }

    fn chart(&mut self, dimension: DimensionId) -> Option<&mut Chart<'r>> {
        let slot = self.charts.get_mut(dimension.index())?;
        if let Drawn::NotYet = slot {
            let budget = self.budget.clone();
            let stop = Arc::new(move || budget.exhausted().is_some());
            *slot = match Chart::new(self.ruleset, &[dimension], WORK, stop) {
                Ok(chart) => Drawn::Chart(Box::new(chart)),
                Err(_) => Drawn::TooLarge,
            };
        }
        match slot {
            Drawn::Chart(chart) => Some(chart),
            Drawn::NotYet | Drawn::TooLarge => None,
        }
    }

    /// One ruling after the other, until there is no further one.
    fn by_solver(
        &mut self,
        facts: &Established,
        dimension: DimensionId,
    ) -> Result<Vec<Ruling>, Reason> {
        let ruleset = self.ruleset;
        let budget = self.budget.clone();
        let solver = self
            .solver
            .get_or_insert_with(|| Z3Solver::new(ruleset, budget));
        let mut question = facts.formula(ruleset);
        let mut found: Vec<Ruling> = Vec::new();
        loop {
            match solver.ask(&question) {
                Answer::No => break,
                Answer::Undecided(reason) => return Err(reason),
                Answer::Yes(scenario) => {
                    let outcome = Evaluator::new(ruleset).outcome(&scenario);
                    let Some(ruling) = outcome.rulings.get(dimension.index()).copied() else {
                        break;
                    };
                    found.push(ruling);
                    let other = ruled_so(ruleset, dimension, ruling).negated();
                    question = Formula::all([question, other]);
                }
            }
        }
        found.sort_unstable();
        found.dedup_by(|one, other| same_ruling(*one, *other));
        Ok(found)
    }

    /// The facts whose establishing would help to settle a dimension, the best first; where no chart
    /// could be drawn, none is named.
    pub fn missing(&mut self, facts: &Established, dimension: DimensionId) -> Vec<Missing> {
        let Some(chart) = self.chart(dimension) else {
            return Vec::new();
        };
        let outlook = chart.outlook(facts);
        let questions = chart.questions(&outlook);
        let mut found = Vec::new();
        for question in questions {
            if !found.contains(&question.attribute) {
                found.push(question.attribute);
            }
        }
        found
    }

    /// An incident with these facts in which the text says so, the most ordinary there is.
    pub fn example(
        &mut self,
        facts: &Established,
        dimension: DimensionId,
        ruling: Ruling,
    ) -> Option<Scenario> {
        if let Some(scenario) = facts.scenario(self.ruleset) {
            return Some(scenario);
        }
        if let Some(chart) = self.chart(dimension) {
            let outlook = chart.outlook(facts);
            let tally = chart
                .tally(&outlook)
                .into_iter()
                .map(|(verdict, _)| verdict);
            let wanted = tally.into_iter().find(|verdict| {
                let said = chart.rulings(*verdict).first();
                said.is_some_and(|said| same_ruling(*said, ruling))
            })?;
            return chart.most_ordinary(&outlook, wanted);
        }
        let question = Formula::all([
            facts.formula(self.ruleset),
            ruled_so(self.ruleset, dimension, ruling),
        ]);
        match self.solver.as_mut()?.ask(&question) {
            Answer::Yes(scenario) => Some(scenario),
            Answer::No | Answer::Undecided(_) => None,
        }
    }
}

/// Where a dimension is ruled so, as a formula.
fn ruled_so(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> Formula {
    use crate::logic::Basis;
    let name = |name: Name| Formula::from(name);
    let world = World::Actual;
    match ruling.basis {
        Basis::Gap => return name(Name::Gap(world, dimension)),
        Basis::Contradiction => return name(Name::Clash(world, dimension)),
        Basis::Clauses | Basis::Default | Basis::Silence => {}
    }
    let values = (0..ruleset[dimension].values.len()).map(|value| {
        let code = u8::try_from(value).unwrap_or(u8::MAX);
        let allowed = name(Name::Allowed(world, dimension, code));
        if ruling.values.contains(value) {
            allowed
        } else {
            allowed.negated()
        }
    });
    let faults = [Name::Gap(world, dimension), Name::Clash(world, dimension)];
    let sound = faults.into_iter().map(|fault| name(fault).negated());
    // A set that is empty is told from none at all by whether there is a ruling.
    let settled = name(Name::Settled(world, dimension));
    let settled = match (ruling.basis, ruling.values.is_empty()) {
        (Basis::Silence, _) => settled.negated(),
        (_, true) => settled,
        _ => Formula::True,
    };
    Formula::all(values.chain(sound).chain([settled]))
}
