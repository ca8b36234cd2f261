//! The nearest scenarios that are ruled otherwise.
//!
//! How far two scenarios lie apart is the number of attributes in which they differ; "not asked"
//! counts as a value. All scenarios at the least distance are looked at, by the attributes in which
//! they differ and the verdict that they bring.

use super::{Chart, Node, NodeId, Sole, VerdictId, nearest_step};
use crate::logic::{Code, Part, Scenario};
use crate::model::AttributeId;
use std::collections::BTreeMap;

/// The nearest scenarios with another verdict.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Nearest {
    /// In how many attributes each of them differs.
    pub distance: usize,
    /// One for each set of attributes and each verdict: of numbers the nearest value, of other
    /// values the most ordinary. In the order of the attributes.
    pub neighbours: Vec<Neighbour>,
    /// Whether these are all; otherwise there were too many to look at.
    pub complete: bool,
}

/// A scenario near another one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Neighbour {
    /// The scenario.
    pub scenario: Scenario,
    /// The attributes in which it differs.
    pub differs: Vec<AttributeId>,
    /// What it brings.
    pub verdict: VerdictId,
}

/// How many choices of cells are looked at.
const MOST: usize = 20_000;

impl Chart<'_> {
    /// The nearest scenarios with another verdict; `None` where all scenarios are ruled the same, and
    /// where this is no scenario.
    pub fn nearest_other(&self, scenario: &Scenario) -> Option<Nearest> {
        let verdict = self.verdict(scenario)?;
        let mut search = Search {
            chart: self,
            verdict,
            own: self.layers.cells_of(scenario),
            known: BTreeMap::new(),
            found: BTreeMap::new(),
            looked_at: 0,
            scenario,
        };
        let distance = search.distance(self.root, Differs::NotYet)?;
        let mut cells = Vec::with_capacity(self.layers.all().len());
        search.collect(self.root, Differs::NotYet, distance, &mut cells);
        let complete = search.looked_at < MOST;
        let found = std::mem::take(&mut search.found);
        let neighbours = found
            .into_iter()
            .map(|((differs, verdict), (_, scenario))| Neighbour {
                scenario,
                differs,
                verdict,
            })
            .collect();
        Some(Nearest {
            distance,
            neighbours,
            complete,
        })
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Differs {
    NotYet,
    Already,
}

/// Neighbours by what differs and what they bring, each with how far its values lie.
type Found = BTreeMap<(Vec<AttributeId>, VerdictId), ((u64, u32), Scenario)>;

struct Search<'a, 'r> {
    chart: &'a Chart<'r>,
    verdict: VerdictId,
    own: Vec<usize>,
    known: BTreeMap<(NodeId, Differs), Option<usize>>,
    found: Found,
    looked_at: usize,
    scenario: &'a Scenario,
}

impl Search<'_, '_> {
    /// What choosing a cell costs, and whether the attribute differs after it.
    fn step(&self, layer: usize, cell: usize, differs: Differs) -> (usize, Differs) {
        let attribute = self.chart.layer(layer).map(|layer| layer.attribute);
        let ends = self.chart.layer(layer + 1).map(|next| next.attribute) != attribute;
        let here = self.own.get(layer) != Some(&cell);
        let costs = usize::from(here && differs == Differs::NotYet);
        let after = match (ends, here, differs) {
            (true, ..) | (false, false, Differs::NotYet) => Differs::NotYet,
            _ => Differs::Already,
        };
        (costs, after)
    }

    /// The least distance to another verdict from here on.
    fn distance(&mut self, node: NodeId, differs: Differs) -> Option<usize> {
        if self.chart.sole(node) == Sole::One(self.verdict) {
            return None;
        }
        match self.chart.node(node) {
            Node::Nowhere => None,
            Node::Ruled(_) => Some(0),
            Node::Choice { layer, next } => {
                if let Some(known) = self.known.get(&(node, differs)) {
                    return *known;
                }
                let mut best: Option<usize> = None;
                for (cell, child) in next.iter().enumerate() {
                    let (costs, after) = self.step(*layer, cell, differs);
                    if let Some(below) = self.distance(*child, after) {
                        let total = costs + below;
                        best = Some(best.map_or(total, |best| best.min(total)));
                    }
                }
                self.known.insert((node, differs), best);
                best
            }
        }
    }

    /// Takes in every scenario that lies at exactly this distance.
    fn collect(&mut self, node: NodeId, differs: Differs, left: usize, cells: &mut Vec<usize>) {
        if self.looked_at >= MOST {
            return;
        }
        match self.chart.node(node) {
            Node::Nowhere => {}
            Node::Ruled(verdict) => {
                self.looked_at += 1;
                self.take(*verdict, cells);
            }
            Node::Choice { layer, next } => {
                for (cell, child) in next.iter().enumerate() {
                    let (costs, after) = self.step(*layer, cell, differs);
                    let reached = self.distance(*child, after);
                    if reached.is_some_and(|below| costs + below == left) {
                        cells.push(cell);
                        self.collect(*child, after, left - costs, cells);
                        cells.pop();
                    }
                }
            }
        }
    }

    fn take(&mut self, verdict: VerdictId, cells: &[usize]) {
        let chart = self.chart;
        let mut made = chart.layers.scenario(chart.ruleset.attributes.len(), cells);
        let mut away = 0u64;
        let mut strange = 0u32;
        for (index, (cell, own)) in cells.iter().zip(&self.own).enumerate() {
            let Some(layer) = chart.layer(index) else {
                continue;
            };
            let id = layer.attribute;
            if cell == own {
                // The very value, not only one of its cell.
                if !matches!(layer.part, Part::Item(_) | Part::Asked) {
                    made.set(id, self.scenario.get(id));
                }
                continue;
            }
            if let (Part::Steps { .. }, Some(Code(mine))) = (&layer.part, self.scenario.get(id)) {
                let mine = i64::try_from(mine).unwrap_or(i64::MAX);
                if let Some(code) = nearest_step(layer, *cell, mine) {
                    made.set(id, Some(code));
                    let there = i64::try_from(code.0).unwrap_or(i64::MAX);
                    away = away.saturating_add(there.abs_diff(mine));
                }
            }
            strange += layer.strangeness(*cell);
        }
        let differs: Vec<AttributeId> = (0..chart.ruleset.attributes.len())
            .map(AttributeId::new)
            .filter(|id| made.get(*id) != self.scenario.get(*id))
            .collect();
        let how_far = (away, strange);
        let slot = self.found.entry((differs, verdict));
        let kept = slot.or_insert_with(|| (how_far, made.clone()));
        if how_far < kept.0 {
            *kept = (how_far, made);
        }
    }
}
