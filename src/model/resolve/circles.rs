//! What must come before what, and the circles that leave no order.
//!
//! Nodes are plain numbers here; who asks knows what they stand for. Same input, same order, same
//! circle.

use petgraph::algo::{kosaraju_scc, toposort};
use petgraph::graph::{DiGraph, NodeIndex};
use std::collections::{BTreeSet, VecDeque};

/// What must come before what.
pub(super) struct Dependencies {
    graph: DiGraph<(), (), u32>,
}

impl Dependencies {
    /// So many things, of which none depends on another yet.
    pub(super) fn among(things: usize) -> Self {
        let mut graph = DiGraph::with_capacity(things, things);
        for _ in 0..things {
            graph.add_node(());
        }
        Dependencies { graph }
    }

    /// `first` must come before `then`. Things that are not there are left out.
    pub(super) fn add(&mut self, first: usize, then: usize) {
        let count = self.graph.node_count();
        if first < count && then < count {
            self.graph
                .add_edge(NodeIndex::new(first), NodeIndex::new(then), ());
        }
    }

    /// The things in an order in which whatever one depends on comes before it.
    ///
    /// # Errors
    /// The circles, where there are any: for each tangle the shortest circle through its first
    /// thing, in the order in which one comes before the next.
    pub(super) fn order(&self) -> Result<Vec<usize>, Vec<Vec<usize>>> {
        if let Ok(order) = toposort(&self.graph, None) {
            return Ok(order.into_iter().map(NodeIndex::index).collect());
        }
        let tangles = kosaraju_scc(&self.graph);
        let mut circles: Vec<Vec<usize>> = tangles
            .into_iter()
            .filter_map(|tangle| self.shortest(&tangle.into_iter().collect()))
            .collect();
        circles.sort();
        Err(circles)
    }

    /// The shortest circle through the first of a tangle; `None` if there is no circle.
    fn shortest(&self, tangle: &BTreeSet<NodeIndex>) -> Option<Vec<usize>> {
        let start = *tangle.first()?;
        let mut came_from = vec![None; self.graph.node_count()];
        let mut waiting = VecDeque::from([start]);
        while let Some(node) = waiting.pop_front() {
            let mut next: Vec<NodeIndex> = self.graph.neighbors(node).collect();
            next.sort_unstable();
            next.dedup();
            for next in next {
                if next == start {
                    return Some(path(&came_from, start, node));
                }
                let slot = came_from.get_mut(next.index())?;
                if slot.is_none() && tangle.contains(&next) {
                    *slot = Some(node);
                    waiting.push_back(next);
                }
            }
        }
        None
    }
}

/// The way from `start` to `end`.
fn path(came_from: &[Option<NodeIndex>], start: NodeIndex, end: NodeIndex) -> Vec<usize> {
    let mut path = vec![end.index()];
    let mut at = end;
    while at != start {
        match came_from.get(at.index()).copied().flatten() {
            Some(before) => at = before,
            None => break,
        }
        path.push(at.index());
    }
    path.reverse();
    path
}

#[cfg(test)]
mod tests {
    use super::Dependencies;

    fn check(things: usize, before: &[(usize, usize)], expect: Result<&[usize], &[&[usize]]>) {
        let mut dependencies = Dependencies::among(things);
        for (first, then) in before {
            dependencies.add(*first, *then);
        }
        let circles = |circles: &[&[usize]]| circles.iter().map(|it| it.to_vec()).collect();
        assert_eq!(
            dependencies.order(),
            expect.map(<[usize]>::to_vec).map_err(circles)
        );
    }

    #[test]
    fn what_others_depend_on_comes_first() {
        check(3, &[(2, 1), (1, 0)], Ok(&[2, 1, 0]));
    }

    #[test]
    fn circles_are_short_and_start_at_the_first() {
        check(4, &[(1, 2), (2, 3), (3, 1), (3, 2)], Err(&[&[1, 2, 3]]));
        check(2, &[(1, 1)], Err(&[&[1]]));
        check(
            5,
            &[(0, 1), (1, 0), (3, 4), (4, 3)],
            Err(&[&[0, 1], &[3, 4]]),
        );
    }

    #[test]
    fn long_chains_need_no_deep_stack() {
        let mut dependencies = Dependencies::among(200_000);
        for node in 1..200_000 {
            dependencies.add(node, node - 1);
        }
        let order = dependencies.order().unwrap_or_default();
        assert_eq!(order.first(), Some(&199_999));
    }
}
