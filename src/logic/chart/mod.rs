//! Every scenario with its rulings, as one diagram over cells.
//!
//! A chart answers at once what single questions to a solver would have to find out one by one: which
//! rulings are still possible where some facts are established, in how many scenarios each, which
//! fact would tell them apart best, which facts were enough, and where the next scenario with another
//! ruling lies. It is a multi-valued decision diagram (Kam, Villa, Brayton, Sangiovanni-Vincentelli,
//! Multi-valued decision diagrams: theory and applications, Multiple-Valued Logic 4, 1998): one level
//! a layer, one branch a cell, and at the end a verdict. It is built from the binary diagrams of
//! [`Diagrams`], under their limit of work.

mod build;
mod nearest;
mod possible;
mod protocol;
mod questions;
mod sufficient;

pub use nearest::{Nearest, Neighbour};
pub use protocol::{Branch, Optimal, Protocol, Tree};
pub use questions::Question;
pub use sufficient::Sufficient;

use super::{Code, Established, Layer, Layers, Ruling, Scenario};
use crate::model::{DimensionId, Ruleset};
use num_bigint::BigUint;
use num_traits::{One, Zero};
use std::collections::BTreeMap;

/// One way in which all looked-at dimensions are ruled, by its index in [`Chart::verdicts`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct VerdictId(u32);

impl VerdictId {
    /// The index in the chart's list.
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// A place in the diagram.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct NodeId(u32);

/// From here no scenario can be reached.
const NOWHERE: NodeId = NodeId(0);

/// What stands at a place.
#[derive(Clone, Debug)]
enum Node {
    /// No scenario.
    Nowhere,
    /// A scenario with this verdict.
    Ruled(VerdictId),
    /// The choice of a cell of a layer.
    Choice { layer: usize, next: Vec<NodeId> },
}

/// The verdicts that can be reached from a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sole {
    Nowhere,
    One(VerdictId),
    Several,
}

/// Every scenario of a ruleset with the rulings on some dimensions.
pub struct Chart<'r> {
    ruleset: &'r Ruleset,
    layers: Layers,
    dimensions: Vec<DimensionId>,
    verdicts: Vec<Vec<Ruling>>,
    nodes: Vec<Node>,
    soles: Vec<Sole>,
    known: BTreeMap<(usize, Vec<NodeId>), NodeId>,
    /// Places as they look where only what makes a difference is drawn.
    plain: BTreeMap<NodeId, NodeId>,
    root: NodeId,
}

/// The scenarios that have some facts: what is still possible.
#[derive(Clone, Debug)]
pub struct Outlook {
    root: NodeId,
    facts: Established,
    /// For each layer, how many values each of its cells stands for.
    weights: Vec<Vec<BigUint>>,
}

impl Outlook {
    /// The facts.
    pub fn facts(&self) -> &Established {
        &self.facts
    }
}

impl<'r> Chart<'r> {
    /// The ruleset.
    pub fn ruleset(&self) -> &'r Ruleset {
        self.ruleset
    }

    /// The dimensions whose rulings are looked at.
    pub fn dimensions(&self) -> &[DimensionId] {
        &self.dimensions
    }

    /// The rulings of a verdict, one for each of [`Chart::dimensions`]. Whether a ruling comes from
    /// clauses or is the default is not told apart: it is [`Basis::Clauses`](super::Basis::Clauses)
    /// either way.
    pub fn rulings(&self, verdict: VerdictId) -> &[Ruling] {
        self.verdicts
            .get(verdict.index())
            .map_or(&[], Vec::as_slice)
    }

    /// How many verdicts there are.
    pub fn verdicts(&self) -> usize {
        self.verdicts.len()
    }

    /// The layers that the chart is drawn over.
    pub fn layers(&self) -> &Layers {
        &self.layers
    }

    /// How many places the diagram has.
    pub fn size(&self) -> usize {
        self.nodes.len()
    }

    fn node(&self, id: NodeId) -> &Node {
        self.nodes.get(id.0 as usize).unwrap_or(&Node::Nowhere)
    }

    fn sole(&self, id: NodeId) -> Sole {
        self.soles
            .get(id.0 as usize)
            .copied()
            .unwrap_or(Sole::Nowhere)
    }

    fn layer(&self, index: usize) -> Option<&Layer> {
        self.layers.all().get(index)
    }

    /// The one place where these cells are chosen between; made where it is not there yet.
    fn choice(&mut self, layer: usize, next: Vec<NodeId>) -> NodeId {
        if next.iter().all(|id| *id == NOWHERE) {
            return NOWHERE;
        }
        if let Some(known) = self.known.get(&(layer, next.clone())) {
            return *known;
        }
        let sole = next
            .iter()
            .map(|id| self.sole(*id))
            .fold(Sole::Nowhere, |all, one| match (all, one) {
                (Sole::Nowhere, other) | (other, Sole::Nowhere) => other,
                (Sole::One(first), Sole::One(second)) if first == second => all,
                _ => Sole::Several,
            });
        let id = self.push(
            Node::Choice {
                layer,
                next: next.clone(),
            },
            sole,
        );
        self.known.insert((layer, next), id);
        id
    }

    fn push(&mut self, node: Node, sole: Sole) -> NodeId {
        let id = NodeId(u32::try_from(self.nodes.len()).unwrap_or(u32::MAX));
        self.nodes.push(node);
        self.soles.push(sole);
        id
    }

    /// All scenarios.
    pub fn everything(&self) -> Outlook {
        let weights = self.layers.all().iter();
        Outlook {
            root: self.root,
            facts: Established::nothing(self.ruleset.attributes.len()),
            weights: weights
                .map(|layer| (0..layer.cells).map(|cell| layer.weight(cell)).collect())
                .collect(),
        }
    }

    /// The scenarios that have these facts.
    pub fn outlook(&mut self, facts: &Established) -> Outlook {
        let mut outlook = self.everything();
        let mut fixed: BTreeMap<usize, usize> = BTreeMap::new();
        for (id, code) in facts.facts() {
            for index in self.layers.of(id) {
                let Some(layer) = self.layers.all().get(index) else {
                    continue;
                };
                fixed.insert(index, layer.cell_of(Some(code)));
                if let Some(weights) = outlook.weights.get_mut(index) {
                    // Of the values of its cell one is established.
                    weights.fill(BigUint::one());
                }
            }
        }
        let mut memory = BTreeMap::new();
        outlook.root = self.fixing(self.root, &fixed, &mut memory);
        outlook.facts = facts.clone();
        outlook
    }

    fn fixing(
        &mut self,
        node: NodeId,
        fixed: &BTreeMap<usize, usize>,
        memory: &mut BTreeMap<NodeId, NodeId>,
    ) -> NodeId {
        let Node::Choice { layer, next } = self.node(node).clone() else {
            return node;
        };
        if fixed.range(layer..).next().is_none() {
            return node;
        }
        if let Some(known) = memory.get(&node) {
            return *known;
        }
        let wanted = fixed.get(&layer).copied();
        let next = next
            .into_iter()
            .enumerate()
            .map(|(cell, child)| match wanted {
                Some(wanted) if wanted != cell => NOWHERE,
                _ => self.fixing(child, fixed, memory),
            })
            .collect();
        let made = self.choice(layer, next);
        memory.insert(node, made);
        made
    }

    /// The verdict of a scenario; `None` where it is no scenario of the ruleset.
    pub fn verdict(&self, scenario: &Scenario) -> Option<VerdictId> {
        let mut at = self.root;
        loop {
            match self.node(at) {
                Node::Nowhere => return None,
                Node::Ruled(verdict) => return Some(*verdict),
                Node::Choice { layer, next } => {
                    let layer = self.layer(*layer)?;
                    let cell = layer.cell_of(scenario.get(layer.attribute));
                    at = *next.get(cell)?;
                }
            }
        }
    }

    /// The one verdict that is possible, if only one is.
    pub fn settled(&self, outlook: &Outlook) -> Option<VerdictId> {
        match self.sole(outlook.root) {
            Sole::One(verdict) => Some(verdict),
            Sole::Nowhere | Sole::Several => None,
        }
    }

    /// Whether any scenario has the facts.
    pub fn is_possible(&self, outlook: &Outlook) -> bool {
        outlook.root != NOWHERE
    }

    /// In how many scenarios each verdict is reached that is possible, in the order of verdicts.
    pub fn tally(&self, outlook: &Outlook) -> Vec<(VerdictId, BigUint)> {
        let mut counts = Counts::default();
        let all = self.counts(outlook, outlook.root, &mut counts);
        all.into_iter().collect()
    }

    /// How many scenarios there are.
    pub fn count(&self, outlook: &Outlook) -> BigUint {
        let all = self.tally(outlook).into_iter();
        all.map(|(_, count)| count).sum()
    }

    /// In how many scenarios each verdict is reached from a place.
    fn counts(&self, outlook: &Outlook, node: NodeId, known: &mut Counts) -> ByVerdict {
        match self.node(node) {
            Node::Nowhere => ByVerdict::new(),
            Node::Ruled(verdict) => ByVerdict::from([(*verdict, BigUint::one())]),
            Node::Choice { layer, next } => {
                if let Some(known) = known.0.get(&node) {
                    return known.clone();
                }
                let mut sum = ByVerdict::new();
                let weights = outlook.weights.get(*layer);
                for (cell, child) in next.iter().enumerate() {
                    let Some(weight) = weights.and_then(|weights| weights.get(cell)) else {
                        continue;
                    };
                    for (verdict, count) in self.counts(outlook, *child, known) {
                        *sum.entry(verdict).or_insert_with(BigUint::zero) += weight * count;
                    }
                }
                known.0.insert(node, sum.clone());
                sum
            }
        }
    }

    /// The most ordinary scenario with a verdict, if there is one: as many attributes as possible at
    /// their first or lowest value.
    pub fn most_ordinary(&self, outlook: &Outlook, verdict: VerdictId) -> Option<Scenario> {
        let mut memory = BTreeMap::new();
        self.ordinary_from(outlook.root, verdict, &mut memory)?;
        let mut cells = Vec::with_capacity(self.layers.all().len());
        let mut at = outlook.root;
        while let Node::Choice { layer, next } = self.node(at) {
            let this = self.layer(*layer)?;
            let costs = next.iter().enumerate().filter_map(|(cell, child)| {
                let below = self.ordinary_from(*child, verdict, &mut memory)?;
                Some((this.strangeness(cell) + below, cell, *child))
            });
            let (_, cell, child) = costs.min_by_key(|(cost, cell, _)| (*cost, *cell))?;
            cells.push(cell);
            at = child;
        }
        Some(self.scenario(&cells, &outlook.facts))
    }

    fn ordinary_from(
        &self,
        node: NodeId,
        verdict: VerdictId,
        memory: &mut BTreeMap<NodeId, Option<u32>>,
    ) -> Option<u32> {
        match self.node(node) {
            Node::Nowhere => None,
            Node::Ruled(here) => (*here == verdict).then_some(0),
            Node::Choice { layer, next } => {
                if let Some(known) = memory.get(&node) {
                    return *known;
                }
                let this = self.layer(*layer)?;
                let costs = next.iter().enumerate().filter_map(|(cell, child)| {
                    Some(this.strangeness(cell) + self.ordinary_from(*child, verdict, memory)?)
                });
                let best = costs.min();
                memory.insert(node, best);
                best
            }
        }
    }

    /// A choice of cells as a scenario, with established values where there are some.
    fn scenario(&self, cells: &[usize], facts: &Established) -> Scenario {
        let mut scenario = self.layers.scenario(self.ruleset.attributes.len(), cells);
        for (id, code) in facts.facts() {
            scenario.set(id, Some(code));
        }
        scenario
    }
}

/// In how many scenarios each verdict is reached.
type ByVerdict = BTreeMap<VerdictId, BigUint>;

/// Counts that are worked out already.
#[derive(Default)]
struct Counts(BTreeMap<NodeId, ByVerdict>);

/// The value within a cell of a number that is nearest to a step.
fn nearest_step(layer: &Layer, cell: usize, step: i64) -> Option<Code> {
    let (low, high) = layer.steps(cell)?;
    u64::try_from(step.clamp(low, high)).ok().map(Code)
}

#[cfg(test)]
mod tests;
