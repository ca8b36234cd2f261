//! What rests on what, as JSON.

use super::RulesetHead;
use crate::graph::{Edge, Graph, Node, Relation, Thing};
use crate::model::Ruleset;
use crate::report::caution::caution;
use crate::source::Place;
use schemars::JsonSchema;
use serde::Serialize;

/// The graph of a ruleset, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn graph(ruleset: &Ruleset, graph: &Graph) -> Result<String, serde_json::Error> {
    let names: Vec<String> = graph.nodes().iter().map(ToString::to_string).collect();
    let name = |index: usize| names.get(index).cloned().unwrap_or_default();
    let report = GraphReport {
        format: GraphFormat::Graph1,
        ruleset: RulesetHead::new(ruleset),
        nodes: graph.nodes().iter().map(NodeRecord::new).collect(),
        edges: graph
            .edges()
            .iter()
            .map(|edge| EdgeRecord::new(edge, &name))
            .collect(),
        circles: graph
            .circles()
            .into_iter()
            .map(|circle| circle.into_iter().map(|id| name(id.index())).collect())
            .collect(),
        caution: caution(ruleset),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `graph --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct GraphReport {
    format: GraphFormat,
    ruleset: RulesetHead,
    nodes: Vec<NodeRecord>,
    /// Each reads as a sentence: `from`, `relation`, `to`.
    edges: Vec<EdgeRecord>,
    /// Things that rest on themselves in a circle; a ruleset that can be used has none.
    circles: Vec<Vec<String>>,
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum GraphFormat {
    #[serde(rename = "evenhand/graph/1")]
    Graph1,
}

/// A thing of the ruleset, or a case.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct NodeRecord {
    /// By which edges name it: its kind and its name, such as `clause 7.1`.
    id: String,
    kind: ThingName,
    name: String,
    /// How people call it, where that is another word.
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<WordsRecord>,
}

impl NodeRecord {
    pub(super) fn new(node: &Node) -> Self {
        NodeRecord {
            id: node.to_string(),
            kind: ThingName::new(node.thing),
            name: node.name.clone(),
            title: node.title.clone(),
            place: node.place.as_ref().map(WordsRecord::new),
        }
    }
}

#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ThingName {
    Attribute,
    Quantity,
    Term,
    Background,
    Clause,
    Dimension,
    Principle,
    Case,
}

impl ThingName {
    pub(super) fn new(thing: Thing) -> Self {
        match thing {
            Thing::Attribute(_) => ThingName::Attribute,
            Thing::Quantity(_) => ThingName::Quantity,
            Thing::Term(_) => ThingName::Term,
            Thing::Background(_) => ThingName::Background,
            Thing::Clause(_) => ThingName::Clause,
            Thing::Dimension(_) => ThingName::Dimension,
            Thing::Principle(_) => ThingName::Principle,
            Thing::Case(_) => ThingName::Case,
        }
    }
}

/// How one thing stands to another.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct EdgeRecord {
    from: String,
    relation: RelationName,
    to: String,
    /// The words that say so.
    places: Vec<WordsRecord>,
}

impl EdgeRecord {
    pub(super) fn new(edge: &Edge, name: &dyn Fn(usize) -> String) -> Self {
        EdgeRecord {
            from: name(edge.from.index()),
            relation: RelationName::new(edge.relation),
            to: name(edge.to.index()),
            places: edge.places.iter().map(WordsRecord::new).collect(),
        }
    }
}

#[derive(Clone, Copy, Serialize, JsonSchema)]
enum RelationName {
    #[serde(rename = "reads")]
    Reads,
    #[serde(rename = "defines")]
    Defines,
    #[serde(rename = "displaces")]
    Displaces,
    #[serde(rename = "disapplies")]
    Disapplies,
    #[serde(rename = "rules on")]
    RulesOn,
    #[serde(rename = "promises")]
    Promises,
    #[serde(rename = "states")]
    States,
    #[serde(rename = "notes")]
    Notes,
    #[serde(rename = "cites")]
    Cites,
}

impl RelationName {
    fn new(relation: Relation) -> Self {
        match relation {
            Relation::Reads => RelationName::Reads,
            Relation::Defines => RelationName::Defines,
            Relation::Displaces => RelationName::Displaces,
            Relation::Disapplies => RelationName::Disapplies,
            Relation::RulesOn => RelationName::RulesOn,
            Relation::Promises => RelationName::Promises,
            Relation::States => RelationName::States,
            Relation::Notes => RelationName::Notes,
            Relation::Cites => RelationName::Cites,
        }
    }
}

/// Words in a file; of a case, only the line in which it begins.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct WordsRecord {
    file: String,
    /// From one.
    #[schemars(range(min = 1))]
    line: u32,
    /// In characters, from one.
    #[schemars(range(min = 1))]
    column: u32,
    /// In characters.
    length: usize,
}

impl WordsRecord {
    fn new(place: &Place) -> Self {
        WordsRecord {
            file: place.file.clone(),
            line: place.position.line.0.get(),
            column: place.position.column.0.get(),
            length: place.length,
        }
    }
}
