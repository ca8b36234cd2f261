//! What rests on what: read off small rulesets, and laws over random ones.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a test runs the program and reads what it has written"
)]

#[path = "common/program.rs"]
mod program;
mod support;

use evenhand::graph::{CaseBook, Graph, Thing};
use evenhand::load::load;
use evenhand::model::{Ruleset, Step};
use program::run;
use proptest::prelude::*;
use std::collections::BTreeSet;
use support::random_ruleset;

const RULES: &str = "\
ruleset: Rules of an invented hold
quantities:
  long_from: 20 s
  weights:
    by: category
    columns: [least]
    women: [600 g]
    men: [800 g]
attributes:
  category: {choice: [women, men]}
  weight: {number: 0 to 1000, step: 100, unit: g}
  hold: {choice: [none, pin, lock]}
  joint: {choice: [elbow, knee], asked_when: hold is lock}
  held: {number: 0 to 60, unit: s}
  rough: {judged: true, set_by: attacker}
terms:
  joint_attack: {means: hold is lock and joint is knee}
  long: {narrow: held at least 30, broad: held at least long_from}
background:
  - never: hold is none and held at least 1
rulings:
  penalty: {scale: [none, caution, out], otherwise: none}
  play: {choice: [on, stops], required_when: hold is lock}
clauses:
  - id: \"1\"
    when: joint_attack
    ruling: {penalty: out, play: stops}
    notwithstanding: \"2\"
  - id: \"2\"
    when: long and not rough
    ruling: {penalty: caution}
  - id: \"3\"
    when: penalty is caution
    ruling: {play: on}
    subject_to: \"1\"
  - id: \"4\"
    when: weight less than least
    disapplies: \"2\"
principles:
  - {id: P1, whenever: joint is knee, expect: penalty is out}
  - {id: P2, impartial_to: category}
  - {id: P3, no_gain: attacker, raising: penalty}
";

/// The graph's sentences.
fn sentences(ruleset: &Ruleset, book: Option<CaseBook<'_>>) -> Vec<String> {
    let graph = Graph::new(ruleset, book);
    let name = |id| graph.node(id).unwrap().to_string();
    let edges = graph.edges().iter();
    edges
        .map(|edge| format!("{} {} {}", name(edge.from), edge.relation, name(edge.to)))
        .collect()
}

#[test]
fn the_graph_says_what_the_file_says() {
    let ruleset = load("a.yaml", RULES).unwrap().ruleset;
    let expected = [
        "quantity long_from defines term long",
        "quantity least reads attribute category",
        "attribute hold defines term joint_attack",
        "attribute joint reads attribute hold",
        "attribute joint defines term joint_attack",
        "attribute held defines term long",
        "background line 1 reads attribute hold",
        "background line 1 reads attribute held",
        "dimension play reads attribute hold",
        "clause 1 reads term joint_attack",
        "clause 1 displaces clause 2",
        "clause 1 displaces clause 3",
        "clause 1 rules on dimension penalty",
        "clause 1 rules on dimension play",
        "clause 2 reads attribute rough",
        "clause 2 reads term long",
        "clause 2 rules on dimension penalty",
        "clause 3 reads dimension penalty",
        "clause 3 rules on dimension play",
        "clause 4 reads quantity least",
        "clause 4 reads attribute category",
        "clause 4 reads attribute weight",
        "clause 4 disapplies clause 2",
        "principle P1 reads attribute joint",
        "principle P1 promises dimension penalty",
        "principle P2 reads attribute category",
        "principle P2 promises dimension penalty",
        "principle P2 promises dimension play",
        "principle P3 reads attribute rough",
        "principle P3 promises dimension penalty",
    ];
    assert_eq!(sentences(&ruleset, None), expected);
}

#[test]
fn cases_state_note_and_cite() {
    let ruleset = load("a.yaml", RULES).unwrap().ruleset;
    let text = "cases:\n  - id: C-1\n    facts: {hold: pin}\n    ruled: {penalty: caution}\n    clauses: [\"2\"]\n";
    let cases = evenhand::cases::book(&ruleset, "cases.yaml", text).unwrap();
    let book = CaseBook {
        file: "cases.yaml",
        cases: &cases,
    };
    let all = sentences(&ruleset, Some(book));
    let own: Vec<&String> = all.iter().filter(|it| it.starts_with("case ")).collect();
    assert_eq!(
        own,
        [
            "case C-1 states attribute hold",
            "case C-1 notes dimension penalty",
            "case C-1 cites clause 2"
        ]
    );
}

#[test]
fn dependents_come_nearest_first_with_the_way_to_them() {
    let ruleset = load("a.yaml", RULES).unwrap().ruleset;
    let graph = Graph::new(&ruleset, None);
    let term = graph.ids().find(|id| {
        let node = graph.node(*id).unwrap();
        matches!(node.thing, Thing::Term(_)) && node.name == "joint_attack"
    });
    let dependents = graph.dependents(&[term.unwrap()]);
    let told: Vec<(String, usize)> = dependents
        .iter()
        .map(|it| {
            let node = graph.node(it.node).unwrap();
            (node.to_string(), it.path.len())
        })
        .collect();
    let told: Vec<(&str, usize)> = told.iter().map(|(name, way)| (&**name, *way)).collect();
    assert_eq!(
        told,
        [
            ("clause 1", 1),
            ("clause 2", 2),
            ("clause 3", 2),
            ("dimension penalty", 2),
            ("dimension play", 2),
            ("principle P1", 3),
            ("principle P2", 3),
            ("principle P3", 3),
        ]
    );
}

#[test]
fn the_command_prints_sentences_dot_and_json() {
    let file = "rulesets/grappling.yaml";
    let cases = "rulesets/grappling-cases.yaml";
    let (code, text, _) = run(&["graph", file, "--cases", cases]);
    assert_eq!(code, 0);
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "Nothing rests on itself: there is no circle.",
        "5.4 reads attributes action, leg_state, leg_held; displaces clause 1.1; rules on dimension deserved",
        "C-6 states attributes matter, category, phase, action, hand_on_leg; notes dimension penalty",
        "Caution",
    ] {
        assert!(said.contains(words), "{words}\n{text}");
    }
    let (code, dot, _) = run(&["graph", file, "--format", "dot"]);
    assert_eq!(code, 0);
    let (code, json, _) = run(&["graph", file, "--format", "json"]);
    assert_eq!(code, 0);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let schema = std::fs::read_to_string("docs/schemas/graph-1.json").unwrap();
    let schema = serde_json::from_str(&schema).unwrap();
    jsonschema::validate(&schema, &json).unwrap();
    let (nodes, edges) = (json["nodes"].as_array(), json["edges"].as_array());
    let (nodes, edges) = (nodes.unwrap().len(), edges.unwrap().len());
    assert_eq!(dot.matches(", shape=").count(), nodes);
    assert_eq!(dot.matches(" -> ").count(), edges);
    assert!(dot.starts_with("// ") && dot.trim_end().ends_with('}'));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, ..ProptestConfig::default() })]

    #[test]
    fn no_usable_ruleset_has_a_circle_and_steps_follow_the_edges(yaml in random_ruleset::yaml()) {
        let Ok(loaded) = load("a.yaml", yaml.as_str()) else { return Ok(()) };
        let ruleset = loaded.ruleset;
        let graph = Graph::new(&ruleset, None);
        prop_assert!(graph.circles().is_empty(), "{yaml}");
        // Whatever a clause or a ruling rests on comes before it in the order of working out.
        let place = |thing: Thing| {
            let step = match thing {
                Thing::Clause(id) => Step::Clause(id),
                Thing::Dimension(id) => Step::Dimension(id),
                _ => return None,
            };
            ruleset.order.iter().position(|it| *it == step)
        };
        for edge in graph.edges() {
            let (first, then) = edge.influence();
            let things = (graph.node(first).unwrap().thing, graph.node(then).unwrap().thing);
            if let (Some(first), Some(then)) = (place(things.0), place(things.1)) {
                prop_assert!(first < then, "{yaml}");
            }
        }
        for id in graph.ids() {
            let found = graph.dependents(&[id]);
            let nodes: BTreeSet<_> = found.iter().map(|it| it.node).collect();
            prop_assert_eq!(nodes.len(), found.len());
            for dependent in found {
                let mut at = id;
                for edge in dependent.path {
                    prop_assert_eq!(edge.influence().0, at);
                    at = edge.influence().1;
                }
                prop_assert_eq!(at, dependent.node);
            }
        }
    }
}
