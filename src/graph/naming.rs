//! Which things people mean when they name one.

use super::network::{Graph, NodeId, Thing};
use crate::model::Ruleset;
use crate::problem::nearest;

/// Why a name means nothing that could be asked about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unnamed {
    /// Nothing is called so; the nearest known name, if one is near.
    Unknown(Option<String>),
    /// Several kinds of thing are called so: each with the word for its kind before it.
    Several(Vec<String>),
}

/// The things that a name means: the id or name of one, with the word for its kind before it where
/// that is needed (`clause 7.1`); or all clauses of a group or a heading.
///
/// # Errors
/// Where nothing, or more than one kind of thing, is called so.
pub fn named(ruleset: &Ruleset, graph: &Graph, words: &str) -> Result<Vec<NodeId>, Unnamed> {
    let words = words.trim();
    let found: Vec<NodeId> = graph
        .ids()
        .filter(|id| {
            graph
                .node(*id)
                .is_some_and(|node| node.name == words || node.to_string() == words)
        })
        .collect();
    match found.as_slice() {
        [_] => return Ok(found),
        [] => {}
        several => {
            let several = several.iter().filter_map(|id| graph.node(*id));
            return Err(Unnamed::Several(several.map(ToString::to_string).collect()));
        }
    }
    let covered = clauses_of(ruleset, words);
    let covered: Vec<NodeId> = covered
        .into_iter()
        .filter_map(|thing| graph.id_of(thing))
        .collect();
    if !covered.is_empty() {
        return Ok(covered);
    }
    let names = graph.nodes().iter().map(|node| node.name.as_str());
    let headings = ruleset.headings.iter().map(|it| it.name.as_str());
    Err(Unnamed::Unknown(
        nearest(words, names.chain(headings)).map(str::to_owned),
    ))
}

/// The clauses below a number, or those of a heading.
fn clauses_of(ruleset: &Ruleset, words: &str) -> Vec<Thing> {
    if let Some(heading) = ruleset.headings.iter().find(|it| it.name == words) {
        return heading.covers.iter().copied().map(Thing::Clause).collect();
    }
    let below = |id: &str| {
        let rest = id.strip_prefix(words);
        rest.is_some_and(|rest| rest.starts_with(['.', '(']))
    };
    let clauses = ruleset.clauses.iter().enumerate();
    let clauses = clauses.filter(|(_, clause)| !words.is_empty() && below(&clause.id));
    clauses
        .map(|(index, _)| Thing::Clause(crate::model::ClauseId::new(index)))
        .collect()
}
