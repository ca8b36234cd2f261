//! What the text may say on some facts: every ruling that is still possible.
//!
//! Answers come from a chart of each dimension; where a ruleset is too large for one, from the
//! solver. What was asked before is remembered, within limits.

use crate::logic::{
    Chart, Established, Evaluator, Formula, Outcome, Ruling, Scenario, same_ruling,
};
use crate::model::{AttributeId, DimensionId, Ruleset};
use crate::scenario::{rulings, says};
use crate::solve::{Answer, Budget, Reason, Solver, Z3Solver};
use rustc_hash::FxHashMap;
use std::collections::BTreeMap;
use std::rc::Rc;

/// Nodes that the chart of one dimension may make.
const WORK: usize = 3_000_000;
/// Different facts whose answers are remembered.
const REMEMBERED: usize = 50_000;

/// The rulings that the text may give on some facts.
#[derive(Clone, Debug)]
pub struct Possible {
    rulings: Vec<Vec<Ruling>>,
    /// What the text says in full, where the facts leave nothing open.
    pub outcome: Option<Outcome>,
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
    known: FxHashMap<Established, Rc<Possible>>,
    examples: BTreeMap<(Established, DimensionId, Ruling), Option<Scenario>>,
    helpful: BTreeMap<(Established, DimensionId), Vec<Missing>>,
}

impl<'r> TextSays<'r> {
    /// Takes a ruleset.
    pub fn new(ruleset: &'r Ruleset, budget: Budget) -> Self {
        TextSays {
            ruleset,
            budget,
            charts: ruleset.dimensions.iter().map(|_| Drawn::NotYet).collect(),
            solver: None,
            known: FxHashMap::default(),
            examples: BTreeMap::new(),
            helpful: BTreeMap::new(),
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
            let rulings = outcome.rulings.iter();
            return Possible {
                rulings: rulings.map(|ruling| vec![*ruling]).collect(),
                outcome: Some(outcome),
                open: None,
            };
        }
        let mut found = Possible {
            rulings: Vec::new(),
            outcome: None,
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
            let stop = self.budget.stop();
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
        let (ruleset, given) = (self.ruleset, facts.formula(self.ruleset));
        let found = rulings(ruleset, dimension, &given, self.solver());
        match found.open {
            Some(reason) => Err(reason),
            None => Ok(found.possible.iter().map(|it| it.ruling).collect()),
        }
    }

    fn solver(&mut self) -> &mut Z3Solver<'r> {
        let (ruleset, budget) = (self.ruleset, &self.budget);
        self.solver
            .get_or_insert_with(|| Z3Solver::new(ruleset, budget.clone()))
    }

    /// The facts whose establishing would help to settle a dimension, the best first; where no chart
    /// could be drawn, none is named.
    pub fn missing(&mut self, facts: &Established, dimension: DimensionId) -> Vec<Missing> {
        let key = (facts.clone(), dimension);
        if let Some(known) = self.helpful.get(&key) {
            return known.clone();
        }
        let found = self.find_missing(facts, dimension);
        if self.helpful.len() < REMEMBERED {
            self.helpful.insert(key, found.clone());
        }
        found
    }

    fn find_missing(&mut self, facts: &Established, dimension: DimensionId) -> Vec<Missing> {
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
        let key = (facts.clone(), dimension, ruling);
        if let Some(known) = self.examples.get(&key) {
            return known.clone();
        }
        let found = self.find_example(facts, dimension, ruling);
        if self.examples.len() < REMEMBERED {
            self.examples.insert(key, found.clone());
        }
        found
    }

    fn find_example(
        &mut self,
        facts: &Established,
        dimension: DimensionId,
        ruling: Ruling,
    ) -> Option<Scenario> {
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
            says(self.ruleset, dimension, ruling),
        ]);
        match self.solver().ask(&question) {
            Answer::Yes(scenario) => Some(scenario),
            Answer::No | Answer::Undecided(_) => None,
        }
    }
}
