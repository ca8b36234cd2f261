//! Which fact to establish next.
//!
//! A good question leaves scenarios together that are ruled alike. How well it does so is measured by
//! how often two scenarios with the same answer would be ruled differently (the Gini impurity of
//! Breiman, Friedman, Olshen, Stone, Classification and Regression Trees, 1984), counted exactly. Only
//! what is surely asked can be established, and only what makes a difference is worth asking.

use super::{ByVerdict, Chart, Counts, NOWHERE, Node, NodeId, Outlook};
use crate::logic::Part;
use crate::model::AttributeId;
use num_bigint::BigUint;
use num_rational::Ratio;
use num_traits::{One, Zero};
use std::collections::{BTreeMap, BTreeSet};

/// A fact that could be established next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// The attribute.
    pub attribute: AttributeId,
    /// Of a `several`: whether this item is there.
    pub item: Option<usize>,
    /// The layer that it chooses in.
    pub layer: usize,
    /// In how many of the scenarios the answer leaves one verdict alone.
    pub settles: BigUint,
    /// In how many of the scenarios, on average, another one drawn from those with the same answer
    /// would have another verdict. None where the answer always settles it.
    pub leaves: Ratio<BigUint>,
    /// For each cell that the answer may lie in, in how many scenarios it does.
    pub answers: Vec<(usize, BigUint)>,
}

impl Chart<'_> {
    /// The facts that could be established next and make a difference, the best first: those that
    /// leave scenarios together that are ruled alike; among equals in the order of asking.
    pub fn questions(&mut self, outlook: &Outlook) -> Vec<Question> {
        self.questions_with(outlook, &mut Counts::default())
    }

    /// The same with counts that may be worked out already, for the same weights.
    pub(super) fn questions_with(
        &mut self,
        outlook: &Outlook,
        counts: &mut Counts,
    ) -> Vec<Question> {
        let plain = self.plain(outlook.root);
        let matter = self.telling(plain);
        let mut found = self.askable(outlook, &matter, counts);
        found.sort_by(|one, other| (&one.leaves, one.layer).cmp(&(&other.leaves, other.layer)));
        found
    }

    /// Of some layers every fact that is surely asked and has more than one possible answer.
    fn askable(
        &self,
        outlook: &Outlook,
        layers: &BTreeSet<usize>,
        counts: &mut Counts,
    ) -> Vec<Question> {
        let by_layer = self.by_layer(outlook);
        let mut found = Vec::new();
        for index in layers.iter().copied() {
            let Some(layer) = self.layers.all().get(index) else {
                continue;
            };
            let item = match layer.part {
                Part::Values { .. } | Part::Steps { .. } => None,
                Part::Item(item) => Some(item),
                Part::Asked => continue,
            };
            let Some(nodes) = by_layer.get(&index) else {
                continue;
            };
            if self.may_be_unasked(layer.attribute, &by_layer) {
                continue;
            }
            let mut answers: BTreeMap<usize, ByVerdict> = BTreeMap::new();
            for (node, mass) in nodes {
                let Node::Choice { next, .. } = self.node(*node) else {
                    continue;
                };
                for (cell, child) in next.iter().enumerate() {
                    let weight = outlook.weights.get(index).and_then(|all| all.get(cell));
                    let Some(weight) = weight.filter(|_| *child != NOWHERE) else {
                        continue;
                    };
                    let reached = mass * weight;
                    let into = answers.entry(cell).or_default();
                    for (verdict, count) in self.counts(outlook, *child, counts) {
                        *into.entry(verdict).or_insert_with(BigUint::zero) += &reached * count;
                    }
                }
            }
            if answers.len() > 1 {
                found.push(question(layer.attribute, item, index, &answers));
            }
        }
        found
    }

    /// The places that can be reached, by layer, each with the number of ways to it.
    fn by_layer(&self, outlook: &Outlook) -> BTreeMap<usize, BTreeMap<NodeId, BigUint>> {
        let mut all: BTreeMap<usize, BTreeMap<NodeId, BigUint>> = BTreeMap::new();
        if outlook.root != NOWHERE {
            all.insert(0, BTreeMap::from([(outlook.root, BigUint::one())]));
        }
        for index in 0..self.layers.all().len() {
            let Some(nodes) = all.get(&index).cloned() else {
                continue;
            };
            let mut below: BTreeMap<NodeId, BigUint> = BTreeMap::new();
            for (node, mass) in nodes {
                let Node::Choice { next, .. } = self.node(node) else {
                    continue;
                };
                for (cell, child) in next.iter().enumerate() {
                    let weight = outlook.weights.get(index).and_then(|all| all.get(cell));
                    if let Some(weight) = weight.filter(|_| *child != NOWHERE) {
                        *below.entry(*child).or_insert_with(BigUint::zero) += &mass * weight;
                    }
                }
            }
            all.insert(index + 1, below);
        }
        all
    }

    /// Whether some scenario does not ask the attribute.
    fn may_be_unasked(
        &self,
        attribute: AttributeId,
        by_layer: &BTreeMap<usize, BTreeMap<NodeId, BigUint>>,
    ) -> bool {
        let first = self.layers.of(attribute).start;
        let conditional = self.layer(first).is_some_and(super::Layer::is_conditional);
        let mut nodes = by_layer.get(&first).into_iter().flatten();
        conditional
            && nodes.any(|(node, _)| match self.node(*node) {
                Node::Choice { next, .. } => next.first().is_some_and(|child| *child != NOWHERE),
                _ => false,
            })
    }

    /// The layers of a plain diagram that make a difference anywhere: to the verdict, or to whether
    /// something is asked that does. Where all live branches of a place are alike they all are, the
    /// dead ones with them, so a place that makes no difference shows as one whose branches are all
    /// the same.
    fn telling(&self, plain: NodeId) -> BTreeSet<usize> {
        let mut found = BTreeSet::new();
        let mut seen = BTreeSet::from([plain]);
        let mut open = vec![plain];
        while let Some(node) = open.pop() {
            let Node::Choice { layer, next } = self.node(node) else {
                continue;
            };
            let mut branches = next.iter();
            let first = branches.next();
            if branches.any(|branch| Some(branch) != first) {
                found.insert(*layer);
            }
            open.extend(next.iter().copied().filter(|child| seen.insert(*child)));
        }
        found
    }

    /// The same verdicts, drawn as if what makes no difference at a place could be anything there.
    fn plain(&mut self, node: NodeId) -> NodeId {
        let Node::Choice { layer, next } = self.node(node) else {
            return node;
        };
        if let Some(known) = self.plain.get(&node) {
            return *known;
        }
        let (layer, next) = (*layer, next.clone());
        let mut below: Vec<NodeId> = next.into_iter().map(|child| self.plain(child)).collect();
        let mut live = below.iter().filter(|child| **child != NOWHERE);
        if let Some(first) = live.next().copied()
            && live.all(|child| *child == first)
        {
            below.fill(first);
        }
        let made = self.choice(layer, below);
        self.plain.insert(node, made);
        made
    }

    /// The outlook after an answer: the scenarios in this cell, told apart by everything else. The
    /// layer itself is left free, so that answers that come to the same look the same; shares of the
    /// scenarios stay what they are, numbers of them do not.
    pub(super) fn answered(&mut self, outlook: &Outlook, layer: usize, cell: usize) -> Outlook {
        let mut memory = BTreeMap::new();
        Outlook {
            root: self.choosing(outlook.root, layer, cell, &mut memory),
            facts: outlook.facts.clone(),
            weights: outlook.weights.clone(),
        }
    }

    fn choosing(
        &mut self,
        node: NodeId,
        wanted: usize,
        cell: usize,
        memory: &mut BTreeMap<NodeId, NodeId>,
    ) -> NodeId {
        let Node::Choice { layer, next } = self.node(node) else {
            return node;
        };
        let layer = *layer;
        if layer > wanted {
            return node;
        }
        if let Some(known) = memory.get(&node) {
            return *known;
        }
        let next = next.clone();
        let next = if layer == wanted {
            let chosen = next.get(cell).copied().unwrap_or(NOWHERE);
            vec![chosen; next.len()]
        } else {
            next.into_iter()
                .map(|child| self.choosing(child, wanted, cell, memory))
                .collect()
        };
        let made = self.choice(layer, next);
        memory.insert(node, made);
        made
    }
}

fn question(
    attribute: AttributeId,
    item: Option<usize>,
    layer: usize,
    answers: &BTreeMap<usize, ByVerdict>,
) -> Question {
    let mut settles = BigUint::zero();
    let mut leaves: Ratio<BigUint> = Ratio::zero();
    let mut counted = Vec::with_capacity(answers.len());
    for (cell, by_verdict) in answers {
        let all: BigUint = by_verdict.values().sum();
        if by_verdict.len() == 1 {
            settles += &all;
        }
        let together: BigUint = by_verdict.values().map(|count| count * count).sum();
        if !all.is_zero() {
            leaves += Ratio::new(&all * &all - together, all.clone());
        }
        counted.push((*cell, all));
    }
    Question {
        attribute,
        item,
        layer,
        settles,
        leaves,
        answers: counted,
    }
}
