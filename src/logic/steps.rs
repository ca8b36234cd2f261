//! Steps from sets of scenarios to the other halves of their pairs.
//!
//! A pairing says attribute by attribute how two scenarios may stand to each other, so a step over it
//! is made attribute by attribute on the diagrams of the ruleset itself; nothing is doubled.

use super::diagram::{Diagrams, Set, TooLarge};
use super::{Formula, Pairing, Scenario};
use crate::model::AttributeId;

/// From which half of a pair to which.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    ToFirst,
    ToSecond,
}

impl Diagrams<'_> {
    /// The scenarios that are the first of a pair whose second lies in the set. Of a number that
    /// rises, only pairs from one cell to a higher one count: the rules tell no others apart.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn firsts(&mut self, seconds: &Set, pairing: &Pairing) -> Result<Set, TooLarge> {
        self.others(seconds, pairing, Step::ToFirst)
    }

    /// The other way round: the seconds of pairs whose first lies in the set.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub fn seconds(&mut self, firsts: &Set, pairing: &Pairing) -> Result<Set, TooLarge> {
        self.others(firsts, pairing, Step::ToSecond)
    }

    /// The set of the scenarios that no cell tells from this one.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub fn like(&mut self, scenario: &Scenario) -> Result<Set, TooLarge> {
        let cells = self.layers().cells_of(scenario).into_iter();
        let chosen: Vec<_> = cells.map(|cell| Some(vec![cell])).collect();
        let set = self.box_set(&chosen)?;
        let space = self.space();
        self.and(&set, &space)
    }

    fn others(&mut self, set: &Set, pairing: &Pairing, step: Step) -> Result<Set, TooLarge> {
        let mut others = Set::clone(set);
        if others.is_false() {
            return Ok(others);
        }
        for id in pairing.changing_attributes() {
            let layers = self.layers().of(*id);
            others = self.forget(&others, layers)?;
        }
        if let Some(id) = pairing.rising_attribute() {
            others = self.risen(&others, id, step)?;
        }
        for id in pairing.loose_attributes() {
            others = self.agreeing_where_asked(&others, *id)?;
        }
        let space = self.space();
        self.and(&others, &space)
    }

    /// The same scenarios with another value of one attribute: lower ones on the way to the first of
    /// a pair, higher ones on the way to the second.
    fn risen(&mut self, set: &Set, id: AttributeId, step: Step) -> Result<Set, TooLarge> {
        let layers = self.layers().of(id);
        let Some(layer) = self.layers().all().get(layers.start).cloned() else {
            return self.set(&Formula::False);
        };
        let lowest = usize::from(layer.is_conditional());
        let mut all = self.set(&Formula::False)?;
        for cell in lowest..layer.cells {
            let from = self.cells(layers.start, |other| match step {
                Step::ToFirst => other > cell,
                Step::ToSecond => lowest <= other && other < cell,
            })?;
            let from = self.and(set, &from)?;
            if from.is_false() {
                continue;
            }
            let anywhere = self.forget(&from, layers.clone())?;
            let here = self.cell(layers.start, cell);
            let here = self.and(&anywhere, &here)?;
            all = self.or(&all, &here)?;
        }
        Ok(all)
    }

    /// The same scenarios where an attribute that is asked in both halves keeps its value, and one
    /// that is asked in one half only may have any.
    fn agreeing_where_asked(&mut self, set: &Set, id: AttributeId) -> Result<Set, TooLarge> {
        let layers = self.layers().of(id);
        let unasked = self.cell(layers.start, 0);
        let was_unasked = self.and(set, &unasked)?;
        let anything = self.forget(&was_unasked, layers.clone())?;
        let asked = self.or(set, &anything)?;
        let asked = self.minus(&asked, &unasked)?;
        let anything = self.forget(set, layers)?;
        let now_unasked = self.and(&anything, &unasked)?;
        self.or(&asked, &now_unasked)
    }
}
