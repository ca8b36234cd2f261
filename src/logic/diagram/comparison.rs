//! The scenarios of one comparison.

use super::{Diagrams, Set, TooLarge};
use crate::logic::layers::{Layer, Part};
use crate::model::{AttributeId, Linear, Test, ValueSet};
use std::collections::BTreeMap;
use std::sync::Arc;

impl Diagrams<'_> {
    /// Where a comparison holds, or fails, among the scenarios in which all that it reads is asked.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left, or finer cells than there are.
    pub(super) fn test(&mut self, test: &Test, wanted: Wanted) -> Result<Set, TooLarge> {
        match test {
            Test::OneOf { attribute, values } => {
                let layer = self.ready.layers.of(*attribute).start;
                let offset = self.offset(layer);
                self.cells(layer, |cell| {
                    cell.checked_sub(offset)
                        .is_some_and(|value| wanted.is(values.contains(value)))
                })
            }
            Test::Within {
                attribute,
                low,
                high,
            } => {
                let layer = self.ready.layers.of(*attribute).start;
                let offset = self.offset(layer);
                let ranges = match self.ready.layers.all().get(layer).map(|layer| &layer.part) {
                    Some(Part::Steps { ranges, .. }) => ranges.clone(),
                    _ => Vec::new(),
                };
                // A range that the comparison tells apart: the space was not cut for it.
                if ranges.iter().any(|(first, last)| {
                    (first < low && low <= last) || (first <= high && high < last)
                }) {
                    return Err(TooLarge);
                }
                self.cells(layer, |cell| {
                    let range = cell.checked_sub(offset).and_then(|index| ranges.get(index));
                    range.is_some_and(|(first, last)| wanted.is(low <= first && last <= high))
                })
            }
            Test::Same { left, right, pairs } => self.same(*left, *right, pairs, wanted),
            Test::Linear(linear) => self.linear(linear, wanted),
            Test::Several {
                attribute,
                items,
                least,
                most,
            } => {
                let layers = self.ready.layers.of(*attribute);
                let asked = match self
                    .ready
                    .layers
                    .all()
                    .get(layers.start)
                    .map(|layer| &layer.part)
                {
                    Some(Part::Asked) => self.cell(layers.start, 1),
                    _ => Arc::new(self.ready.variables.mk_true()),
                };
                let present: Vec<Set> = self.items(*attribute, *items);
                let enough = self.at_least(*least as usize, &present)?;
                let over = self.at_least(*most as usize + 1, &present)?;
                let holds = self.minus(&enough, &over)?;
                match wanted {
                    Wanted::Holds => self.and(&asked, &holds),
                    Wanted::Fails => self.minus(&asked, &holds),
                }
            }
        }
    }

    fn items(&self, attribute: AttributeId, items: ValueSet) -> Vec<Set> {
        let layers = self.ready.layers.of(attribute);
        let wanted = layers.filter(|layer| {
            match self.ready.layers.all().get(*layer).map(|layer| &layer.part) {
                Some(Part::Item(item)) => items.contains(*item),
                _ => false,
            }
        });
        wanted.map(|layer| self.cell(layer, 1)).collect()
    }

    fn offset(&self, layer: usize) -> usize {
        usize::from(
            self.ready
                .layers
                .all()
                .get(layer)
                .is_some_and(Layer::is_conditional),
        )
    }

    fn same(
        &mut self,
        left: AttributeId,
        right: AttributeId,
        pairs: &[(u8, u8)],
        wanted: Wanted,
    ) -> Result<Set, TooLarge> {
        let (one, other) = (
            self.ready.layers.of(left).start,
            self.ready.layers.of(right).start,
        );
        let (skip_one, skip_other) = (self.offset(one), self.offset(other));
        let mut sets = Vec::new();
        for (mine, theirs) in pairs {
            let mine = self.cell(one, usize::from(*mine) + skip_one);
            let theirs = self.cell(other, usize::from(*theirs) + skip_other);
            sets.push(self.and(&mine, &theirs)?);
        }
        let holds = self.any(sets)?;
        if wanted == Wanted::Holds {
            return Ok(holds);
        }
        let both = [
            self.cells(one, |cell| cell >= skip_one)?,
            self.cells(other, |cell| cell >= skip_other)?,
        ];
        let asked = self.all(both.to_vec())?;
        self.minus(&asked, &holds)
    }

    fn linear(&mut self, linear: &Linear, wanted: Wanted) -> Result<Set, TooLarge> {
        let mut summed = linear.parts.iter().map(|(_, attribute)| attribute);
        if !summed.all(|attribute| self.ready.layers.is_summed(*attribute)) {
            return Err(TooLarge);
        }
        let mut parts: Vec<(i64, usize)> = linear
            .parts
            .iter()
            .map(|(weight, attribute)| (*weight, self.ready.layers.of(*attribute).start))
            .collect();
        // The last layer first: diagrams grow from below.
        parts.sort_by_key(|(_, layer)| std::cmp::Reverse(*layer));
        let mut memory = BTreeMap::new();
        self.linear_from(&parts, i128::from(linear.bound), wanted, &mut memory)
    }

    /// Where the first `parts.len()` summands, worked out from the topmost layer down, leave at most `bound`.
    fn linear_from(
        &mut self,
        parts: &[(i64, usize)],
        bound: i128,
        wanted: Wanted,
        memory: &mut BTreeMap<(usize, i128), Set>,
    ) -> Result<Set, TooLarge> {
        let Some(((weight, layer), rest)) = parts.split_last() else {
            let reached = wanted.is(0 <= bound);
            return Ok(Arc::new(if reached {
                self.ready.variables.mk_true()
            } else {
                self.ready.variables.mk_false()
            }));
        };
        if let Some(known) = memory.get(&(parts.len(), bound)) {
            return Ok(Arc::clone(known));
        }
        let offset = self.offset(*layer);
        let cells = self
            .ready
            .layers
            .all()
            .get(*layer)
            .map_or(0, |layer| layer.cells);
        let mut sets = Vec::new();
        for (step, cell) in (offset..cells).enumerate() {
            let left = bound - i128::from(*weight) * i128::try_from(step).unwrap_or(0);
            let below = self.linear_from(rest, left, wanted, memory)?;
            let here = self.cell(*layer, cell);
            sets.push(self.and(&here, &below)?);
        }
        let set = self.any(sets)?;
        memory.insert((parts.len(), bound), Arc::clone(&set));
        Ok(set)
    }
}

/// Which of its two values a comparison over what is asked is wanted to have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    Holds,
    Fails,
}

impl Wanted {
    pub(super) fn is(self, holds: bool) -> bool {
        holds == (self == Wanted::Holds)
    }
}
