//! What rests on what, as data for the drawing on the page and as sentences beside it.

use super::pieces::clause_anchor;
use crate::graph::{Graph, Thing};
use crate::model::{ClauseId, Ruleset};
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// The graph as data, ready to stand in a script element: things with where they are told, how one stands
/// to another, and the groups by which clauses are folded.
pub(super) fn json(ruleset: &Ruleset) -> Value {
    let graph = Graph::new(ruleset, None);
    let groups = Groups::new(ruleset);
    let things: Vec<Value> = graph
        .nodes()
        .iter()
        .map(|node| {
            let group = match node.thing {
                Thing::Clause(clause) => groups.of.get(clause.index()).copied().flatten(),
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
    json!({"things": things, "edges": edges, "groups": groups.names})
}

/// Clauses that are readable side by side; where there are more, those without a heading are folded too.
const READABLE: usize = 60;

/// The groups by which clauses are folded: headings, and in a long book the first part of their number for
/// those that have none.
struct Groups {
    names: Vec<String>,
    /// The group of each clause.
    of: Vec<Option<usize>>,
}

impl Groups {
    fn new(ruleset: &Ruleset) -> Groups {
        let headings = ruleset.headings.iter().map(|heading| {
            let title = heading.title.as_ref();
            let title = title.map_or("", |title| title.in_language(&ruleset.language).trim());
            format!("{} {title}", heading.name).trim().to_owned()
        });
        let mut names: Vec<String> = headings.collect();
        let mut numbers: BTreeMap<&str, usize> = BTreeMap::new();
        let ids = (0..ruleset.clauses.len()).map(ClauseId::new);
        let of = ids.map(|clause| {
            let by_number = || {
                let (number, _) = ruleset[clause].id.split_once('.')?;
                let is_long = ruleset.clauses.len() > READABLE;
                (is_long && !number.is_empty()).then(|| {
                    *numbers.entry(number).or_insert_with(|| {
                        names.push(format!("clauses under {number}"));
                        names.len() - 1
                    })
                })
            };
            heading_of(ruleset, clause).or_else(by_number)
        });
        let of = of.collect();
        Groups { names, of }
    }
}

/// The widest heading that covers a clause, by its index; of equally wide ones the first.
fn heading_of(ruleset: &Ruleset, clause: ClauseId) -> Option<usize> {
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test says what went wrong by failing")]

    use super::*;
    use std::fmt::Write as _;

    fn groups(clauses: usize, heading: &str) -> Groups {
        let mut yaml = format!(
            "ruleset: Many\nattributes:\n  foul:\nrulings:\n  penalty:\n    scale: [none, loss]\n    otherwise: none\n{heading}clauses:\n"
        );
        for number in 0..clauses {
            let id = format!("{}.{}", number / 10 + 1, number % 10 + 1);
            let _ = write!(
                yaml,
                "  - id: \"{id}\"\n    when: foul\n    ruling: {{penalty: loss}}\n"
            );
        }
        Groups::new(&crate::load::load("many.yaml", yaml).unwrap().ruleset)
    }

    #[test]
    fn a_long_book_without_headings_is_folded_by_number() {
        assert_eq!(groups(READABLE, "").names, Vec::<String>::new());
        let long = groups(READABLE + 1, "");
        assert_eq!(long.names.len(), 7);
        assert_eq!(long.names[6], "clauses under 7");
        assert_eq!(long.of[0], Some(0));
        assert_eq!(long.of[60], Some(6));
    }

    #[test]
    fn a_heading_goes_before_the_number() {
        let long = groups(READABLE + 1, "headings:\n  \"2\": {title: Fouls}\n");
        assert_eq!(long.names[0], "2 Fouls");
        assert_eq!(long.names.len(), 7);
        assert_eq!((long.of[10], long.of[0]), (Some(0), Some(1)));
    }
}
