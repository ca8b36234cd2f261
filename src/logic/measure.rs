//! How much is in a set, and what is the most ordinary in it.

use super::Scenario;
use super::diagram::{Diagrams, TooLarge};
use biodivine_lib_bdd::{Bdd, BddPointer};
use num_bigint::BigUint;
use num_traits::Zero;
use std::collections::BTreeMap;

impl Diagrams<'_> {
    /// How many scenarios are in the set.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more steps than are left.
    pub fn count(&self, set: &Bdd) -> Result<BigUint, TooLarge> {
        let mut memory = BTreeMap::new();
        self.count_from(set, set.root_pointer(), 0, &mut memory)
    }

    fn count_from(
        &self,
        set: &Bdd,
        node: BddPointer,
        layer: usize,
        memory: &mut BTreeMap<(usize, usize), BigUint>,
    ) -> Result<BigUint, TooLarge> {
        if node.is_zero() {
            return Ok(BigUint::zero());
        }
        let Some(this) = self.layers().all().get(layer) else {
            return Ok(BigUint::from(1u8));
        };
        if let Some(known) = memory.get(&(layer, node.to_index())) {
            return Ok(known.clone());
        }
        let mut sum = BigUint::zero();
        for cell in 0..this.cells {
            self.step()?;
            let next = self.follow(set, node, layer, cell);
            sum += this.weight(cell) * self.count_from(set, next, layer + 1, memory)?;
        }
        memory.insert((layer, node.to_index()), sum.clone());
        Ok(sum)
    }

    /// The most ordinary scenario of the set: as many attributes as possible at their first or
    /// lowest value; among equals, the first in the order of asking.
    pub fn most_ordinary(&self, set: &Bdd) -> Option<Scenario> {
        let cells = self.most_ordinary_cells(set)?;
        Some(
            self.layers()
                .scenario(self.theory().ruleset().attributes.len(), &cells),
        )
    }

    pub(super) fn most_ordinary_cells(&self, set: &Bdd) -> Option<Vec<usize>> {
        let mut memory = BTreeMap::new();
        self.cost_from(set, set.root_pointer(), 0, &mut memory)?;
        let mut cells = Vec::with_capacity(self.layers().all().len());
        let mut node = set.root_pointer();
        for (index, layer) in self.layers().all().iter().enumerate() {
            let costs = (0..layer.cells).filter_map(|cell| {
                let next = self.follow(set, node, index, cell);
                let below = self.cost_from(set, next, index + 1, &mut memory)?;
                Some((layer.strangeness(cell) + below, cell, next))
            });
            let (_, cell, next) = costs.min_by_key(|(cost, cell, _)| (*cost, *cell))?;
            cells.push(cell);
            node = next;
        }
        Some(cells)
    }

    fn cost_from(
        &self,
        set: &Bdd,
        node: BddPointer,
        layer: usize,
        memory: &mut BTreeMap<(usize, usize), Option<u32>>,
    ) -> Option<u32> {
        if node.is_zero() {
            return None;
        }
        let Some(this) = self.layers().all().get(layer) else {
            return Some(0);
        };
        if let Some(known) = memory.get(&(layer, node.to_index())) {
            return *known;
        }
        let costs = (0..this.cells).filter_map(|cell| {
            self.step().ok()?;
            let below =
                self.cost_from(set, self.follow(set, node, layer, cell), layer + 1, memory)?;
            Some(this.strangeness(cell) + below)
        });
        let best = costs.min();
        memory.insert((layer, node.to_index()), best);
        best
    }
}
