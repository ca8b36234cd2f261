//! A set of scenarios as a chart of paths, cell by cell.
//!
//! A decision diagram answers questions about whole sets; whoever builds scenarios one choice at a
//! time asks thousands of small ones: can these cells be had together, and what is the most ordinary
//! scenario that has them? Here each node keeps its children by cell, so that such a question is one
//! walk through the layers.

use super::diagram::{Diagrams, TooLarge};
use biodivine_lib_bdd::{Bdd, BddPointer};
use std::collections::BTreeMap;

/// The most nodes of a chart.
const MOST_NODES: usize = 2_000_000;

/// Where a path goes on from a node with a cell; nowhere where no scenario goes there.
const NOWHERE: u32 = u32::MAX;

/// The shortest way to a node: how long it is, from which node of the level above, by which cell.
type Way = Option<(u64, u32, usize)>;

/// Cells that are wanted, by layer; a layer that is not named is free.
pub type Cells = BTreeMap<usize, usize>;

/// The paths of a set.
#[derive(Clone, Debug)]
pub struct Paths {
    /// For each layer its nodes, each with where every cell leads.
    levels: Vec<Vec<Vec<u32>>>,
    /// For each layer and cell, how far it is from the ordinary.
    costs: Vec<Vec<u32>>,
    empty: bool,
}

impl Paths {
    /// Draws the chart of a set.
    ///
    /// # Errors
    /// [`TooLarge`] where it would have more nodes than are sensible.
    pub fn of(diagrams: &Diagrams<'_>, set: &Bdd) -> Result<Paths, TooLarge> {
        let layers = diagrams.layers().all();
        let mut levels: Vec<Vec<Vec<u32>>> = Vec::with_capacity(layers.len());
        let mut here: Vec<BddPointer> = vec![set.root_pointer()];
        let mut made = 0usize;
        for (index, layer) in layers.iter().enumerate() {
            let mut next: BTreeMap<usize, u32> = BTreeMap::new();
            let mut order: Vec<BddPointer> = Vec::new();
            let mut level = Vec::with_capacity(here.len());
            for node in &here {
                let children = (0..layer.cells).map(|cell| {
                    let child = diagrams.follow(set, *node, index, cell);
                    if child.is_zero() {
                        return NOWHERE;
                    }
                    *next.entry(child.to_index()).or_insert_with(|| {
                        order.push(child);
                        u32::try_from(order.len() - 1).unwrap_or(NOWHERE)
                    })
                });
                level.push(children.collect::<Vec<u32>>());
            }
            made += level.len();
            if made > MOST_NODES {
                return Err(TooLarge);
            }
            levels.push(level);
            here = order;
        }
        let costs = layers.iter().map(|layer| {
            let cost = |cell| layer.strangeness(cell);
            (0..layer.cells).map(cost).collect()
        });
        Ok(Paths {
            levels,
            costs: costs.collect(),
            empty: set.is_false(),
        })
    }

    /// Whether some scenario of the set has all these cells.
    pub fn has(&self, wanted: &Cells) -> bool {
        if self.empty {
            return false;
        }
        let last = wanted.keys().next_back().copied();
        let mut live = vec![true];
        for (index, level) in self.levels.iter().enumerate() {
            // Every node leads to a scenario, so what is free below can be had.
            if last.is_none_or(|last| index > last) {
                break;
            }
            let width = self.levels.get(index + 1).map_or(1, Vec::len);
            let mut next = vec![false; width];
            let mut any = false;
            let wish = wanted.get(&index);
            for (children, _) in level.iter().zip(&live).filter(|(_, live)| **live) {
                let mut mark = |child: u32| {
                    if let Some(slot) = next.get_mut(child as usize) {
                        *slot = true;
                        any = true;
                    }
                };
                match wish {
                    Some(cell) => children.get(*cell).copied().into_iter().for_each(&mut mark),
                    None => children.iter().copied().for_each(&mut mark),
                }
            }
            if !any {
                return false;
            }
            live = next;
        }
        true
    }

    /// How many nodes there are.
    pub(super) fn nodes(&self) -> usize {
        self.levels.iter().map(Vec::len).sum()
    }

    /// Whether a box has a scenario of the set, and how many nodes were looked at to see it.
    pub(super) fn meets(&self, cells: &[Option<Vec<usize>>]) -> (bool, usize) {
        if self.empty {
            return (false, 1);
        }
        let starts: Vec<usize> = self
            .levels
            .iter()
            .scan(0, |start, level| {
                let here = *start;
                *start += level.len();
                Some(here)
            })
            .collect();
        let mut seen = vec![false; self.nodes()];
        let mut looked_at = 0;
        let mut open: Vec<(usize, usize)> = vec![(0, 0)];
        while let Some((level, node)) = open.pop() {
            let Some(children) = self.levels.get(level).and_then(|nodes| nodes.get(node)) else {
                return (true, looked_at);
            };
            let mark = starts
                .get(level)
                .and_then(|start| seen.get_mut(start + node));
            if mark.is_none_or(|mark| std::mem::replace(mark, true)) {
                continue;
            }
            looked_at += 1;
            let mut go = |child: u32| {
                if child != NOWHERE {
                    open.push((level + 1, child as usize));
                }
            };
            match cells.get(level) {
                Some(Some(allowed)) => {
                    let allowed = allowed.iter().rev();
                    let children = allowed.filter_map(|cell| children.get(*cell).copied());
                    children.for_each(&mut go);
                }
                _ => children.iter().rev().copied().for_each(&mut go),
            }
        }
        (false, looked_at)
    }

    /// Of the scenarios within a box, the cells of the one that is nearest to some cells: first by how
    /// many layers differ, then by how far apart the cells are that do. `None` where the box has none.
    pub(super) fn nearest(&self, cells: &[Option<Vec<usize>>], to: &[usize]) -> Option<Vec<usize>> {
        if self.empty {
            return None;
        }
        let mut ways: Vec<Vec<Way>> = vec![vec![Some((0, 0, 0))]];
        for (index, level) in self.levels.iter().enumerate() {
            let width = self.levels.get(index + 1).map_or(1, Vec::len);
            let here = ways.last()?;
            let mut next: Vec<Way> = vec![None; width];
            let (allowed, home) = (cells.get(index)?.as_deref(), *to.get(index)?);
            let mut go = |from: usize, so_far: u64, cell: usize, child: u32| {
                let apart = u64::try_from(cell.abs_diff(home)).unwrap_or(u64::from(u32::MAX));
                let far = so_far + if apart == 0 { 0 } else { (1 << 32) + apart };
                if let Some(slot) = next.get_mut(child as usize)
                    && slot.is_none_or(|(known, _, _)| far < known)
                {
                    *slot = Some((far, u32::try_from(from).unwrap_or(NOWHERE), cell));
                }
            };
            for (from, (children, way)) in level.iter().zip(here).enumerate() {
                let Some((so_far, _, _)) = *way else { continue };
                match allowed {
                    Some(allowed) => {
                        for cell in allowed {
                            if let Some(child) = children.get(*cell) {
                                go(from, so_far, *cell, *child);
                            }
                        }
                    }
                    None => {
                        for (cell, child) in children.iter().enumerate() {
                            go(from, so_far, cell, *child);
                        }
                    }
                }
            }
            ways.push(next);
        }
        let mut node = 0usize;
        let mut found = Vec::with_capacity(self.levels.len());
        for level in ways.iter().skip(1).rev() {
            let (_, from, cell) = (*level.get(node)?)?;
            found.push(cell);
            node = from as usize;
        }
        found.reverse();
        Some(found)
    }

    /// The cells of the most ordinary scenario of the set that has all these.
    pub fn most_ordinary(&self, wanted: &Cells) -> Option<Vec<usize>> {
        if self.empty {
            return None;
        }
        // The least cost from each node on, and the cell that has it, last layer first.
        let mut best: Vec<Vec<Option<(u32, usize)>>> = vec![vec![Some((0, 0))]];
        for (index, level) in self.levels.iter().enumerate().rev() {
            let below = best.last()?;
            let costs = self.costs.get(index)?;
            let wish = wanted.get(&index);
            let from = |children: &Vec<u32>| {
                let ways = children.iter().zip(costs).enumerate();
                let ways = ways.filter(|(cell, _)| wish.is_none_or(|wish| wish == cell));
                let ways = ways.filter_map(|(cell, (child, cost))| {
                    let (rest, _) = below.get(*child as usize).copied().flatten()?;
                    Some((cost + rest, cell))
                });
                ways.min()
            };
            let here = level.iter().map(from).collect();
            best.push(here);
        }
        let mut node = 0usize;
        let mut cells = Vec::with_capacity(self.levels.len());
        for (level, best) in self.levels.iter().zip(best.iter().rev()) {
            let (_, cell) = best.get(node).copied().flatten()?;
            cells.push(cell);
            node = level.get(node)?.get(cell).copied()? as usize;
        }
        Some(cells)
    }
}
