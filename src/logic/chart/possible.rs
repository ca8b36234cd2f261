//! Which verdicts are possible where some facts are established, and nothing more.
//!
//! An [`Outlook`](super::Outlook) adds places to the chart, which would grow with a long log of
//! incidents; this only walks.

use super::{Chart, Node, NodeId, VerdictId};
use crate::logic::Established;
use std::collections::BTreeSet;

impl Chart<'_> {
    /// The verdicts that some scenario with these facts has, in the order of verdicts; none where no
    /// scenario has the facts.
    pub fn possible(&self, facts: &Established) -> Vec<VerdictId> {
        let mut fixed: Vec<Option<usize>> = vec![None; self.layers.all().len()];
        for (id, code) in facts.facts() {
            for index in self.layers.of(id) {
                if let (Some(slot), Some(layer)) = (fixed.get_mut(index), self.layer(index)) {
                    *slot = Some(layer.cell_of(Some(code)));
                }
            }
        }
        let mut found = BTreeSet::new();
        let mut seen: BTreeSet<NodeId> = BTreeSet::new();
        let mut open = vec![self.root];
        while let Some(at) = open.pop() {
            match self.node(at) {
                Node::Nowhere => {}
                Node::Ruled(verdict) => {
                    found.insert(*verdict);
                }
                Node::Choice { layer, next } => {
                    if !seen.insert(at) {
                        continue;
                    }
                    match fixed.get(*layer).copied().flatten() {
                        Some(cell) => open.extend(next.get(cell)),
                        None => open.extend(next),
                    }
                }
            }
        }
        found.into_iter().collect()
    }
}
