//! What rests on what, thing by thing, for people.

use super::look::{Look, Tone};
use super::page::{Page, capital};
use crate::graph::{Graph, Node, NodeId, Relation, Thing};
use crate::model::Ruleset;
use crate::report::caution::caution;
use crate::report::words::{self, counted};
use std::collections::BTreeMap;

/// How many things are named that most rests on.
const MOST_NAMED: usize = 8;

/// The graph of a ruleset in sentences.
pub fn graph(ruleset: &Ruleset, graph: &Graph, look: &Look) -> String {
    let mut page = Page::new(look);
    super::title(&mut page, ruleset);
    page.gap();
    page.paragraph(0, &summary(graph), Tone::Plain);
    page.paragraph(0, &circles(graph), Tone::Plain);
    weight(&mut page, graph);
    for (title, of) in CHAPTERS {
        let nodes: Vec<NodeId> = graph
            .ids()
            .filter(|id| graph.node(*id).is_some_and(|node| of(node.thing)))
            .collect();
        if nodes.is_empty() {
            continue;
        }
        page.heading(title, Tone::Strong);
        let mut alone = Vec::new();
        for id in nodes {
            let Some(node) = graph.node(id) else { continue };
            let said = sentences(graph, id);
            if said.is_empty() {
                alone.push(node.name.clone());
            } else {
                let mark = format!("{} ", node.name);
                page.hanging(0, &mark, Tone::Strong, &said.join("; "), Tone::Plain);
            }
        }
        if !alone.is_empty() {
            let words = format!("Resting on nothing: {}", alone.join(", "));
            page.paragraph(0, &words, Tone::Quiet);
        }
    }
    page.heading("Caution", Tone::Quiet);
    for words in caution(ruleset) {
        page.paragraph(0, &words, Tone::Quiet);
    }
    page.finish()
}

type Chapter = (&'static str, fn(Thing) -> bool);

const CHAPTERS: &[Chapter] = &[
    ("Quantities", |thing| matches!(thing, Thing::Quantity(_))),
    ("Attributes", |thing| matches!(thing, Thing::Attribute(_))),
    ("Terms", |thing| matches!(thing, Thing::Term(_))),
    ("Background", |thing| matches!(thing, Thing::Background(_))),
    ("Rulings", |thing| matches!(thing, Thing::Dimension(_))),
    ("Clauses", |thing| matches!(thing, Thing::Clause(_))),
    ("Principles", |thing| matches!(thing, Thing::Principle(_))),
    ("Cases", |thing| matches!(thing, Thing::Case(_))),
];

/// `12 attributes, 3 terms and 40 clauses`, as far as there are any.
fn summary(graph: &Graph) -> String {
    let mut numbers: BTreeMap<usize, (usize, &str)> = BTreeMap::new();
    for node in graph.nodes() {
        let place = CHAPTERS.iter().position(|(_, of)| of(node.thing));
        let slot = numbers.entry(place.unwrap_or(usize::MAX)).or_default();
        *slot = (slot.0 + 1, node.thing.word());
    }
    let things: Vec<String> = numbers
        .values()
        .map(|(number, word)| match (*number, *word) {
            (1, word) => format!("1 {word}"),
            (number, "quantity") => format!("{number} quantities"),
            (number, word) => counted(number, word),
        })
        .collect();
    format!(
        "{}; {} between them.",
        words::and_list(&things),
        counted(graph.edges().len(), "relation")
    )
}

fn circles(graph: &Graph) -> String {
    let circles = graph.circles();
    if circles.is_empty() {
        return "Nothing rests on itself: there is no circle.".to_owned();
    }
    let told: Vec<String> = circles
        .iter()
        .map(|circle| {
            let names = circle.iter().filter_map(|id| graph.node(*id));
            let names: Vec<String> = names.map(ToString::to_string).collect();
            words::and_list(&names)
        })
        .collect();
    format!("In a circle: {}.", told.join("; "))
}

/// The things that most others rest on.
fn weight(page: &mut Page<'_>, graph: &Graph) {
    let mut all: Vec<(usize, usize, NodeId)> = graph
        .ids()
        .filter(|id| {
            let thing = graph.node(*id).map(|node| node.thing);
            !matches!(thing, None | Some(Thing::Dimension(_) | Thing::Case(_)))
        })
        .map(|id| {
            let dependents = graph.dependents(&[id]);
            let direct = dependents.iter().filter(|it| it.path.len() == 1).count();
            (dependents.len(), direct, id)
        })
        .filter(|(all, ..)| *all > 0)
        .collect();
    all.sort_by_key(|(all, direct, id)| (usize::MAX - all, usize::MAX - direct, *id));
    if all.is_empty() {
        return;
    }
    page.heading("What most rests on", Tone::Strong);
    for (all, direct, id) in all.into_iter().take(MOST_NAMED) {
        let Some(node) = graph.node(id) else { continue };
        let words = format!(
            "{} directly, {} in all",
            counted(direct, "thing"),
            counted(all, "thing")
        );
        let mark = format!("{}: ", capital(&node.to_string()));
        page.hanging(0, &mark, Tone::Strong, &words, Tone::Plain);
    }
}

/// What a thing says of others, relation by relation.
fn sentences(graph: &Graph, id: NodeId) -> Vec<String> {
    let mut parts: Vec<&Node> = Vec::new();
    let mut said: BTreeMap<Relation, Vec<&Node>> = BTreeMap::new();
    for edge in graph.edges() {
        if edge.from == id && edge.relation != Relation::Defines {
            said.entry(edge.relation)
                .or_default()
                .extend(graph.node(edge.to));
        } else if edge.to == id && edge.relation == Relation::Defines {
            parts.extend(graph.node(edge.from));
        }
    }
    let defined = Some(parts).filter(|parts| !parts.is_empty());
    let defined = defined.map(|parts| format!("is defined by {}", named(&parts)));
    let said = said.into_iter();
    defined
        .into_iter()
        .chain(said.map(|(relation, others)| format!("{relation} {}", named(&others))))
        .collect()
}

/// Things with the word for their kind, said once a kind: `quantity cap and attributes leader, trailer`.
pub(super) fn named(things: &[&Node]) -> String {
    let mut groups: Vec<(&str, Vec<&str>)> = Vec::new();
    for node in things {
        let word = node.thing.word();
        match groups.iter_mut().find(|(known, _)| *known == word) {
            Some((_, names)) => names.push(&node.name),
            None => groups.push((word, vec![&node.name])),
        }
    }
    let told: Vec<String> = groups
        .into_iter()
        .map(|(word, names)| {
            let word = match (names.len(), word) {
                (1, word) => word.to_owned(),
                (_, "quantity") => "quantities".to_owned(),
                (_, word) => format!("{word}s"),
            };
            format!("{word} {}", names.join(", "))
        })
        .collect();
    words::and_list(&told)
}
