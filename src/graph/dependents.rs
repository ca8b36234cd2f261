//! What rests on a thing, directly and through others.

use super::network::{Edge, Graph, NodeId, Relation};
use std::collections::{BTreeMap, VecDeque};

/// Something that rests on others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dependent<'g> {
    /// What rests on them.
    pub node: NodeId,
    /// A shortest way to it, from one of them on; one edge where it rests on it directly.
    pub path: Vec<&'g Edge>,
}

impl Graph {
    /// All that rests on some things, the nearest first, each with a shortest way to it. The things
    /// themselves are left out.
    ///
    /// What a case states is a fact, whatever else is so: no way leads through that.
    pub fn dependents(&self, of: &[NodeId]) -> Vec<Dependent<'_>> {
        let mut came: BTreeMap<NodeId, &Edge> = BTreeMap::new();
        let mut order = Vec::new();
        let mut waiting: VecDeque<NodeId> = of.iter().copied().collect();
        while let Some(at) = waiting.pop_front() {
            for edge in self.edges_from(at) {
                let (_, next) = edge.influence();
                if edge.relation == Relation::States {
                    continue;
                }
                if of.contains(&next) || came.contains_key(&next) {
                    continue;
                }
                came.insert(next, edge);
                order.push(next);
                waiting.push_back(next);
            }
        }
        order
            .into_iter()
            .map(|node| Dependent {
                node,
                path: way(&came, node),
            })
            .collect()
    }
}

fn way<'g>(came: &BTreeMap<NodeId, &'g Edge>, to: NodeId) -> Vec<&'g Edge> {
    let mut path = Vec::new();
    let mut at = to;
    while let Some(edge) = came.get(&at) {
        path.push(*edge);
        at = edge.influence().0;
    }
    path.reverse();
    path
}
