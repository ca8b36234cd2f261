//! The graph itself: things of a ruleset, and how one stands to another.

use super::build;
use crate::cases::Case;
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset, TermId};
use crate::source::Place;
use petgraph::algo::kosaraju_scc;
use petgraph::graph::{DiGraph, NodeIndex};
use std::fmt;

/// Something in a ruleset, or a case, that others may rest on.
///
/// The reading of a vague term belongs to the term and is no thing of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// An attribute that stands in the file.
    Attribute(AttributeId),
    /// A named constant or a column of a table, by its index in the ruleset.
    Quantity(usize),
    /// A defined term.
    Term(TermId),
    /// A background line, by its index in the ruleset.
    Background(usize),
    /// A clause.
    Clause(ClauseId),
    /// A dimension of rulings.
    Dimension(DimensionId),
    /// A principle, by its index in the ruleset.
    Principle(usize),
    /// A case of a case book, by its index there.
    Case(usize),
}

impl Thing {
    /// The word for it: `attribute`, `clause`.
    pub fn word(self) -> &'static str {
        match self {
            Thing::Attribute(_) => "attribute",
            Thing::Quantity(_) => "quantity",
            Thing::Term(_) => "term",
            Thing::Background(_) => "background line",
            Thing::Clause(_) => "clause",
            Thing::Dimension(_) => "dimension",
            Thing::Principle(_) => "principle",
            Thing::Case(_) => "case",
        }
    }
}

/// How one thing stands to another, as in "clause 7.1 reads attribute hold".
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Relation {
    /// Its condition names the other: a clause's `when`, an attribute's `asked_when`, a dimension's
    /// `required_when`, a background line, a principle; a table, the attribute of its rows.
    Reads,
    /// It is part of what the other, a term, means.
    Defines,
    /// A clause whose ruling stands where the other's, on the same dimension, then does not.
    Displaces,
    /// A clause that takes the other away altogether.
    Disapplies,
    /// A clause that gives a ruling on the dimension.
    RulesOn,
    /// A principle that speaks of the rulings on the dimension.
    Promises,
    /// A case that gives a fact of the attribute.
    States,
    /// A case that notes a ruling on the dimension.
    Notes,
    /// A case whose ruling cites the clause.
    Cites,
}

impl Relation {
    /// All of them, in their order.
    pub const ALL: &[Relation] = &[
        Relation::Reads,
        Relation::Defines,
        Relation::Displaces,
        Relation::Disapplies,
        Relation::RulesOn,
        Relation::Promises,
        Relation::States,
        Relation::Notes,
        Relation::Cites,
    ];

    /// Whether the one that the sentence begins with rests on the other; otherwise the other rests on
    /// it.
    pub fn rests_on_other(self) -> bool {
        match self {
            Relation::Reads
            | Relation::Promises
            | Relation::States
            | Relation::Notes
            | Relation::Cites => true,
            Relation::Defines | Relation::Displaces | Relation::Disapplies | Relation::RulesOn => {
                false
            }
        }
    }
}

/// The verb: `reads`, `rules on`.
impl fmt::Display for Relation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Relation::Reads => "reads",
            Relation::Defines => "defines",
            Relation::Displaces => "displaces",
            Relation::Disapplies => "disapplies",
            Relation::RulesOn => "rules on",
            Relation::Promises => "promises",
            Relation::States => "states",
            Relation::Notes => "notes",
            Relation::Cites => "cites",
        })
    }
}

/// Which of the nodes it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct NodeId(pub(super) usize);

impl NodeId {
    /// Its index in [`Graph::nodes`].
    pub fn index(self) -> usize {
        self.0
    }
}

/// A thing with its name and place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// What it is.
    pub thing: Thing,
    /// Its id or name as written; of a background line without an id, `line 1` and so on.
    pub name: String,
    /// How people call it, where that is another word: a title or a label.
    pub title: Option<String>,
    /// Where it stands.
    pub place: Option<Place>,
}

/// `clause 7.1`, `term joint_attack`.
impl fmt::Display for Node {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.thing {
            // Without an id it is called by its number already.
            Thing::Background(_) if self.name.starts_with("line ") => {
                write!(f, "background {}", self.name)
            }
            thing => write!(f, "{} {}", thing.word(), self.name),
        }
    }
}

/// How one thing stands to another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edge {
    /// The thing that the sentence begins with.
    pub from: NodeId,
    /// The verb.
    pub relation: Relation,
    /// The other thing.
    pub to: NodeId,
    /// The words that say so, where they stand; possibly several, possibly none (a case).
    pub places: Vec<Place>,
}

impl Edge {
    /// What the other one rests on, and what rests on it.
    pub fn influence(&self) -> (NodeId, NodeId) {
        if self.relation.rests_on_other() {
            (self.to, self.from)
        } else {
            (self.from, self.to)
        }
    }
}

/// Cases that are to stand in the graph.
#[derive(Clone, Copy, Debug)]
pub struct CaseBook<'c> {
    /// What the file is called.
    pub file: &'c str,
    /// The cases.
    pub cases: &'c [Case],
}

/// What rests on what.
#[derive(Clone, Debug)]
pub struct Graph {
    nodes: Vec<Node>,
    edges: Vec<Edge>,
    /// From what is rested on to what rests on it; weights are indices of `edges`.
    influence: DiGraph<(), usize>,
}

impl Graph {
    /// The graph of a ruleset, with the cases of a book where there is one.
    ///
    /// Nodes stand in the order of the file's chapters, edges in the order of their nodes.
    pub fn new(ruleset: &Ruleset, book: Option<CaseBook<'_>>) -> Graph {
        let (nodes, edges) = build::build(ruleset, book);
        let mut influence = DiGraph::with_capacity(nodes.len(), edges.len());
        for _ in &nodes {
            influence.add_node(());
        }
        for (index, edge) in edges.iter().enumerate() {
            let (first, then) = edge.influence();
            influence.add_edge(NodeIndex::new(first.0), NodeIndex::new(then.0), index);
        }
        Graph {
            nodes,
            edges,
            influence,
        }
    }

    /// The things.
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// How they stand to each other.
    pub fn edges(&self) -> &[Edge] {
        &self.edges
    }

    /// A thing.
    pub fn node(&self, id: NodeId) -> Option<&Node> {
        self.nodes.get(id.0)
    }

    /// The ids of all things.
    pub fn ids(&self) -> impl Iterator<Item = NodeId> {
        (0..self.nodes.len()).map(NodeId)
    }

    /// The node of a thing.
    pub fn id_of(&self, thing: Thing) -> Option<NodeId> {
        let found = self.nodes.iter().position(|node| node.thing == thing);
        found.map(NodeId)
    }

    /// The edges by which something rests directly on a thing, in their order.
    pub fn edges_from(&self, id: NodeId) -> Vec<&Edge> {
        let all = self.influence.edges(NodeIndex::new(id.0));
        let mut indices: Vec<usize> = all.map(|edge| *edge.weight()).collect();
        indices.sort_unstable();
        let edges = indices.into_iter();
        edges.filter_map(|index| self.edges.get(index)).collect()
    }

    /// Things that rest on themselves in a circle, each circle's things in their order.
    ///
    /// A ruleset that can be used has none: whatever a clause rests on can be worked out before it.
    pub fn circles(&self) -> Vec<Vec<NodeId>> {
        let tangles = kosaraju_scc(&self.influence).into_iter();
        let mut circles: Vec<Vec<NodeId>> = tangles
            .filter(|tangle| {
                let alone = tangle.first().copied().filter(|_| tangle.len() == 1);
                alone.is_none_or(|node| self.influence.contains_edge(node, node))
            })
            .map(|tangle| {
                let mut nodes: Vec<NodeId> =
                    tangle.into_iter().map(|it| NodeId(it.index())).collect();
                nodes.sort_unstable();
                nodes
            })
            .collect();
        circles.sort();
        circles
    }
}
