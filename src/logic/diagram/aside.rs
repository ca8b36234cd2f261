//! Work beside a question: what is set aside for it, what it may take from before, and single looks.

use super::{Diagrams, TooLarge};
use crate::logic::Atom;
use biodivine_lib_bdd::Bdd;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What is left for a question.
#[derive(Clone, Copy)]
pub(in crate::logic) struct SetAside {
    work: usize,
    steps: usize,
}

impl Diagrams<'_> {
    /// Sets aside what is left for the question and allows so many nodes for something else.
    pub(in crate::logic) fn set_aside(&mut self, work: usize) -> SetAside {
        let left = SetAside {
            work: self.work,
            steps: self.steps.get(),
        };
        self.allow(work);
        left
    }

    /// Takes up the question again with what was set aside for it.
    pub(in crate::logic) fn take_up(&mut self, left: SetAside) {
        self.work = left.work;
        self.steps.set(left.steps);
    }

    /// What words of the ruleset stand for, as far as that was worked out; `None` where it is of no use.
    pub(in crate::logic) fn worded(&mut self) -> &mut BTreeMap<String, Option<Arc<Atom>>> {
        &mut self.worded
    }

    /// Takes some steps along nodes.
    ///
    /// # Errors
    /// [`TooLarge`] where no more are allowed.
    pub(in crate::logic) fn steps(&self, steps: usize) -> Result<(), TooLarge> {
        let left = self.steps.get().checked_sub(steps);
        self.steps.set(left.unwrap_or(0));
        if left.is_none() || (self.stop)() {
            self.steps.set(0);
            return Err(TooLarge);
        }
        Ok(())
    }

    /// Whether a scenario, given by its cells, is in the set.
    pub(in crate::logic) fn contains(&self, set: &Bdd, cells: &[usize]) -> bool {
        let mut node = set.root_pointer();
        for (layer, cell) in cells.iter().enumerate() {
            if node.is_terminal() {
                break;
            }
            node = self.follow(set, node, layer, *cell);
        }
        node.is_one()
    }
}
