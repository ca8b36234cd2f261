//! What rests on what, as data for the drawing on the page and as sentences beside it.

use super::pieces::clause_anchor;
use crate::graph::{Graph, Thing};
use crate::model::{ClauseId, Ruleset};
use serde_json::{Value, json};

/// The graph as data, ready to stand in a script element: things with where they are told, how one stands
/// to another, and the headings by which clauses are folded.
pub(super) fn json(ruleset: &Ruleset) -> Value {
    let graph = Graph::new(ruleset, None);
    let things: Vec<Value> = graph
        .nodes()
        .iter()
        .map(|node| {
            let group = match node.thing {
                Thing::Clause(clause) => group_of(ruleset, clause),
                _ => None,
            };
            json!({
                "word": node.thing.word(),
                "name": node.name,
                "title": node.title,
                "to": anchor(node.thing),
                "group": group,
            })
        })
        .collect();
    let edges: Vec<Value> = graph
        .edges()
        .iter()
        .map(|edge| {
            let (under, above) = edge.influence();
            json!([
                edge.from.index(),
                edge.relation.to_string(),
                edge.to.index(),
                under.index(),
                above.index()
            ])
        })
        .collect();
    let groups: Vec<String> = ruleset
        .headings
        .iter()
        .map(|heading| {
            let title = heading.title.as_ref();
            let title = title.map_or("", |title| title.in_language(&ruleset.language).trim());
            format!("{} {title}", heading.name).trim().to_owned()
        })
        .collect();
    json!({"things": things, "edges": edges, "groups": groups})
}

/// The widest heading that covers a clause, by its index; of equally wide ones the first.
fn group_of(ruleset: &Ruleset, clause: ClauseId) -> Option<usize> {
    let covering = ruleset.headings.iter().enumerate();
    let covering = covering.filter(|(_, heading)| heading.covers.contains(&clause));
    covering
        .max_by_key(|(index, heading)| (heading.covers.len(), std::cmp::Reverse(*index)))
        .map(|(index, _)| index)
}

/// Where a thing is told on the page.
fn anchor(thing: Thing) -> Option<String> {
    Some(match thing {
        Thing::Attribute(id) => format!("fact-{}", id.index()),
        Thing::Quantity(index) => format!("quantity-{index}"),
        Thing::Term(id) => format!("term-{}", id.index()),
        Thing::Background(index) => format!("background-{index}"),
        Thing::Clause(id) => clause_anchor(id),
        Thing::Dimension(id) => format!("decides-{}", id.index()),
        Thing::Principle(index) => format!("principle-{index}"),
        Thing::Case(_) => return None,
    })
}
