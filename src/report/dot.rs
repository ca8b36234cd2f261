//! What rests on what, in DOT, for programs that lay out graphs.
//!
//! Kinds of thing differ by shape and relations by line and by word, so that a print without colours
//! says as much.

use super::caution::caution;
use crate::graph::{Graph, NodeId, Relation, Thing};
use crate::model::Ruleset;
use std::fmt::Write;

/// The longest title that is written into a node, in characters.
const MOST_LETTERS: usize = 40;

/// The graph of a ruleset in DOT.
pub fn graph(ruleset: &Ruleset, graph: &Graph) -> String {
    let mut out = String::new();
    // Writing to a string can't fail.
    for words in caution(ruleset) {
        let words: Vec<&str> = words.split_whitespace().collect();
        let _ = writeln!(out, "// {}", plain(&words.join(" ")));
    }
    let title = quoted(&ruleset.title);
    let _ = write!(
        out,
        "digraph rules {{\n  label={title};\n  rankdir=LR;\n  node [fontname=\"sans-serif\"];\n  edge [fontname=\"sans-serif\", fontsize=10];\n"
    );
    for id in graph.ids() {
        let Some(node) = graph.node(id) else { continue };
        let mut words = node.to_string();
        if let Some(title) = &node.title {
            words.push('\n');
            words.push_str(&shortened(title));
        }
        let _ = writeln!(
            out,
            "  {} [label={}, shape={}];",
            name(id),
            quoted(&words),
            shape(node.thing)
        );
    }
    for edge in graph.edges() {
        let _ = writeln!(
            out,
            "  {} -> {} [label={}, style={}];",
            name(edge.from),
            name(edge.to),
            quoted(&edge.relation.to_string()),
            style(edge.relation)
        );
    }
    out.push_str("}\n");
    out
}

fn name(id: NodeId) -> String {
    format!("n{}", id.index())
}

fn shape(thing: Thing) -> &'static str {
    match thing {
        Thing::Attribute(_) => "ellipse",
        Thing::Quantity(_) => "egg",
        Thing::Term(_) => "hexagon",
        Thing::Background(_) => "trapezium",
        Thing::Clause(_) => "box",
        Thing::Dimension(_) => "octagon",
        Thing::Principle(_) => "diamond",
        Thing::Case(_) => "note",
    }
}

fn style(relation: Relation) -> &'static str {
    match relation {
        Relation::Reads | Relation::Defines => "solid",
        Relation::Displaces | Relation::Disapplies => "bold",
        Relation::RulesOn => "\"solid,tapered\"",
        Relation::Promises => "dashed",
        Relation::States | Relation::Notes | Relation::Cites => "dotted",
    }
}

fn shortened(words: &str) -> String {
    let line: Vec<&str> = words.split_whitespace().collect();
    let line = line.join(" ");
    if line.chars().count() <= MOST_LETTERS {
        return line;
    }
    let kept: String = line.chars().take(MOST_LETTERS - 1).collect();
    format!("{}…", kept.trim_end())
}

/// Words as a DOT string: quotes and backslashes escaped, lines broken, nothing that only controls.
fn quoted(words: &str) -> String {
    let mut out = String::from("\"");
    for letter in words.chars() {
        match letter {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            letter => out.push(shown(letter)),
        }
    }
    out.push('"');
    out
}

fn plain(words: &str) -> String {
    words.chars().map(shown).collect()
}

fn shown(letter: char) -> char {
    if super::text::hidden(letter) {
        char::REPLACEMENT_CHARACTER
    } else {
        letter
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_cannot_leave_their_quotes() {
        assert_eq!(quoted("a \"b\" \\ c\nd"), "\"a \\\"b\\\" \\\\ c\\nd\"");
        assert_eq!(quoted("x\u{1b}[0m"), "\"x\u{fffd}[0m\"");
    }

    #[test]
    fn long_titles_are_cut_by_letters() {
        let long = "ñ".repeat(60);
        assert_eq!(shortened(&long).chars().count(), MOST_LETTERS);
    }
}
