//! Formulas held against the plain evaluator.
//!
//! A solver's scenario is shown to nobody before the question that it answers has been worked out
//! again here. Names are not looked up in the theory: they are put to the evaluator, so that a
//! mistake in a definition or in a solver shows as a mismatch.

use super::evaluate::{Evaluator, Facts, Truth};
use super::{Basis, Edits, Formula, Name, Outcome, Scenario, Unasked, World};
use crate::model::{Ruleset, Test};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

/// One scenario, ready to be asked about formulas.
pub struct Replay<'a> {
    ruleset: &'a Ruleset,
    scenario: &'a Scenario,
    facts: Facts<'a>,
    edits: Edits,
    outcomes: RefCell<BTreeMap<World, Rc<Outcome>>>,
}

impl<'a> Replay<'a> {
    /// Takes a scenario of a ruleset, for formulas about no edit.
    pub fn new(ruleset: &'a Ruleset, scenario: &'a Scenario) -> Self {
        Replay::over(ruleset, &Edits::default(), scenario)
    }

    /// Takes a scenario of a ruleset, for formulas about these edits.
    pub fn over(ruleset: &'a Ruleset, edits: &Edits, scenario: &'a Scenario) -> Self {
        Replay {
            ruleset,
            scenario,
            facts: Facts::new(ruleset, scenario),
            edits: edits.clone(),
            outcomes: RefCell::default(),
        }
    }

    /// The same where what the ruleset says about the scenario is known already.
    pub fn knowing(ruleset: &'a Ruleset, scenario: &'a Scenario, outcome: Rc<Outcome>) -> Self {
        let replay = Replay::new(ruleset, scenario);
        replay.outcomes.borrow_mut().insert(World::Actual, outcome);
        replay
    }

    /// Whether the formula holds in the scenario.
    pub fn holds(&self, formula: &Formula) -> bool {
        match formula {
            Formula::True => true,
            Formula::False => false,
            Formula::Holds(test) => self.test(test) == Some(true),
            Formula::Fails(test) => self.test(test) == Some(false),
            Formula::Named(name) => self.name(*name),
            Formula::Not(part) => !self.holds(part),
            Formula::All(parts) => parts.iter().all(|part| self.holds(part)),
            Formula::Any(parts) => parts.iter().any(|part| self.holds(part)),
            Formula::AtLeast(least, parts) => {
                parts.iter().filter(|part| self.holds(part)).count() >= *least as usize
            }
        }
    }

    fn test(&self, test: &Test) -> Option<bool> {
        self.facts.test(test)
    }

    fn outcome(&self, world: World) -> Rc<Outcome> {
        let known = self.outcomes.borrow().get(&world).cloned();
        known.unwrap_or_else(|| {
            let edit = match world {
                World::Edited(id) => self.edits.get(id),
                World::Actual | World::Without(_) => None,
            };
            let evaluator = match (world, &edit) {
                (World::Without(clause), _) => Evaluator::without(self.ruleset, clause),
                (_, Some(edit)) => Evaluator::edited(self.ruleset, edit),
                _ => Evaluator::new(self.ruleset),
            };
            let outcome = Rc::new(evaluator.outcome(self.scenario));
            self.outcomes
                .borrow_mut()
                .insert(world, Rc::clone(&outcome));
            outcome
        })
    }

    fn name(&self, name: Name) -> bool {
        match name {
            Name::Asked(attribute) => self.scenario.get(attribute).is_some(),
            Name::Possible => self.facts.keeps_background(),
            Name::TermTrue(unasked, term) => self.term(term, unasked) == Truth::True,
            Name::TermFalse(unasked, term) => self.term(term, unasked) == Truth::False,
            Name::Met(world, clause) => self.outcome(world).met.contains(clause.index()),
            Name::InForce(world, clause) => self.outcome(world).in_force.contains(clause.index()),
            Name::Stands(world, clause, dimension) => self.outcome(world).stands(clause, dimension),
            Name::Spoken(world, dimension) => {
                let basis = self.basis(world, dimension);
                matches!(basis, Some(Basis::Clauses | Basis::Contradiction))
            }
            Name::Due(world, dimension) => {
                let outcome = self.outcome(world);
                match &self.ruleset[dimension].required_when {
                    Some(condition) => {
                        let mode = Unasked::Neither;
                        self.facts.truth(condition, mode, &outcome.rulings) == Truth::True
                    }
                    None => self.ruleset[dimension].otherwise.is_none(),
                }
            }
            Name::Gap(world, dimension) => self.basis(world, dimension) == Some(Basis::Gap),
            Name::Clash(world, dimension) => {
                self.basis(world, dimension) == Some(Basis::Contradiction)
            }
            Name::Allowed(world, dimension, value) => {
                let outcome = self.outcome(world);
                let ruling = outcome.rulings.get(dimension.index());
                ruling.is_some_and(|ruling| ruling.values.contains(usize::from(value)))
            }
            Name::Settled(world, dimension) => {
                let outcome = self.outcome(world);
                let ruling = outcome.rulings.get(dimension.index());
                ruling.is_some_and(|ruling| ruling.is_settled(self.ruleset[dimension].when_several))
            }
        }
    }

    fn term(&self, term: crate::model::TermId, unasked: Unasked) -> Truth {
        self.facts.term(term, unasked)
    }

    fn basis(&self, world: World, dimension: crate::model::DimensionId) -> Option<Basis> {
        self.outcome(world)
            .rulings
            .get(dimension.index())
            .map(|ruling| ruling.basis)
    }
}
