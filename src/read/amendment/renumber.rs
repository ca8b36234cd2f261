//! Renumbering: a clause, a group, and every reference to them.

use super::Part;
use super::apply::{Gone, Operation, Path, Tree};
use super::plan::{Plan, absent, members, taken};
use crate::problem::Problem;
use crate::read::draft::Words;
use crate::read::node::{Node, NodeKind};
use crate::source::Span;

/// Gives a clause and all below it another number, and so everything that refers to them.
pub(super) fn renumber(name: &Words, to: &Words, tree: &Tree) -> Result<Plan, Problem> {
    let part = Part::Clause;
    let members = members(&tree.root, part);
    let moved = |id: &str| -> Option<String> {
        let rest = id.strip_prefix(name.value.as_str())?;
        let meant = rest.is_empty() || rest.starts_with(['.', '(']);
        meant.then(|| format!("{}{rest}", to.value))
    };
    let mut gone = Vec::new();
    for (id, _) in &members {
        let Some(new) = moved(id) else { continue };
        let held = members.iter().find(|(other, _)| *other == new);
        if let Some((_, place)) = held.filter(|(other, _)| moved(other).is_none()) {
            return Err(taken(&Words::new(new, to.span), part, *place));
        }
        gone.push(Gone {
            part,
            name: id.clone(),
            by: name.span,
        });
    }
    if gone.is_empty() {
        return Err(absent(tree, part, name, &members));
    }
    let NodeKind::Mapping(chapters) = &tree.root.kind else {
        return Ok(Plan::from(Vec::new()));
    };
    let mut operations = Vec::new();
    for (index, chapter) in chapters.iter().enumerate() {
        let keys: &[&str] = match chapter.key.words.as_str() {
            "clauses" => &["id", "notwithstanding", "subject_to", "disapplies"],
            "accepted" => &["clauses"],
            "headings" => &["covers"],
            _ => continue,
        };
        for (path, node) in things(index, &chapter.value, chapter.key.words == "headings") {
            let NodeKind::Mapping(entries) = &node.kind else {
                continue;
            };
            for (at, entry) in entries.iter().enumerate() {
                if keys.contains(&entry.key.words.as_str()) {
                    let place = (entry.key.words == "id").then_some(to.span);
                    let here = [path.as_slice(), &[at]].concat();
                    reworded(here, &entry.value, &moved, place, &mut operations);
                }
            }
        }
        if let ("headings", NodeKind::Mapping(entries)) =
            (chapter.key.words.as_str(), &chapter.value.kind)
        {
            for (at, entry) in entries.iter().enumerate() {
                let Some(new) = moved(&entry.key.words) else {
                    continue;
                };
                let held = entries.iter().find(|entry| entry.key.words == new);
                if let Some(held) = held.filter(|held| moved(&held.key.words).is_none()) {
                    let new = Words::new(new, to.span);
                    return Err(taken(&new, Part::Heading, held.key.span));
                }
                operations.push(Operation::Rekey(vec![index], at, new));
            }
        }
    }
    Ok(Plan { operations, gone })
}

/// What stands in a chapter, with the ways there.
fn things(index: usize, chapter: &Node, keyed: bool) -> Vec<(Path, &Node)> {
    match &chapter.kind {
        NodeKind::Mapping(entries) if keyed => {
            let values = entries.iter().map(|entry| &entry.value).enumerate();
            values.map(|(at, value)| (vec![index, at], value)).collect()
        }
        NodeKind::List(items) => {
            let items = items.iter().enumerate();
            items.map(|(at, item)| (vec![index, at], item)).collect()
        }
        _ => vec![(vec![index], chapter)],
    }
}

/// Rewords a scalar, or each one of a list.
fn reworded(
    path: Path,
    node: &Node,
    moved: &impl Fn(&str) -> Option<String>,
    place: Option<Span>,
    operations: &mut Vec<Operation>,
) {
    if let NodeKind::List(items) = &node.kind {
        for (at, item) in items.iter().enumerate() {
            let here = [path.as_slice(), &[at]].concat();
            reworded(here, item, moved, place, operations);
        }
    } else if let Some(new) = node.words().and_then(moved) {
        operations.push(Operation::Reword(path, new, place));
    }
}
