//! What a thing can change, against plain enumeration, on random small rulesets.
//!
//! The oracle writes each way of varying a thing as an amendment (or takes the clause away in the plain
//! evaluator), tries every scenario of each, and lays those beside each other that agree on all that
//! both ask. It knows nothing of graphs, twins, formulas, diagrams or solvers.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod support;

use evenhand::analysis::Silent;
use evenhand::graph::{Affected, Change, Graph, NodeId, Thing, affected};
use evenhand::load::{Layered, load};
use evenhand::logic::{
    Evaluator, Name, Outcome, Replay, Scenario, Unasked, Written, is_valid, written,
};
use evenhand::model::{
    AttributeId, AttributeKind, ClauseId, DimensionId, QuantityValue, Ruleset, TermId,
};
use evenhand::solve::{Budget, scenarios};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::process::Command;
use support::random_ruleset;

/// The most scenarios that are paired.
const MOST: usize = 150;

type Told = BTreeMap<String, Written>;

/// What the things of a ruleset come to in one scenario, each thing by its name.
struct Seen {
    facts: Told,
    comes_to: BTreeMap<String, String>,
}

fn seen(ruleset: &Ruleset, scenario: &Scenario, outcome: &Outcome) -> Seen {
    let mut comes_to = BTreeMap::new();
    for (index, attribute) in ruleset.attributes.iter().enumerate() {
        let asked = scenario.get(AttributeId::new(index)).is_some();
        comes_to.insert(format!("attribute {}", attribute.name), asked.to_string());
    }
    let replay = Replay::new(ruleset, scenario);
    for (index, term) in ruleset.terms.iter().enumerate() {
        let id = TermId::new(index);
        let names = [
            Name::TermTrue(Unasked::Neither, id),
            Name::TermFalse(Unasked::Neither, id),
        ];
        let truth = names.map(|name| replay.holds(&name.into()));
        comes_to.insert(format!("term {}", term.name), format!("{truth:?}"));
    }
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let id = ClauseId::new(index);
        let rulings = clause.rulings.iter();
        let stands: Vec<bool> = rulings.map(|(on, _)| outcome.stands(id, *on)).collect();
        let does = if stands.is_empty() {
            vec![outcome.in_force.contains(index)]
        } else {
            stands
        };
        comes_to.insert(format!("clause {}", clause.id), format!("{does:?}"));
    }
    for (index, dimension) in ruleset.dimensions.iter().enumerate() {
        let ruling = outcome.rulings[DimensionId::new(index).index()];
        let basis = match ruling.basis {
            evenhand::logic::Basis::Clauses | evenhand::logic::Basis::Default => "given".to_owned(),
            other => format!("{other:?}"),
        };
        comes_to.insert(
            format!("dimension {}", dimension.name),
            format!("{:?} {basis}", ruling.values),
        );
    }
    let facts = scenario.facts().map(|(id, code)| {
        let name = ruleset[id].name.clone();
        (name, written(ruleset, id, code))
    });
    Seen {
        facts: facts.collect(),
        comes_to,
    }
}

fn all(ruleset: &Ruleset) -> Option<Vec<Seen>> {
    let found: Vec<Scenario> = scenarios(ruleset)?.take(MOST + 1).collect();
    (found.len() <= MOST).then(|| {
        let evaluator = Evaluator::new(ruleset);
        found
            .iter()
            .map(|scenario| seen(ruleset, scenario, &evaluator.outcome(scenario)))
            .collect()
    })
}

/// The things that come out otherwise between two lists of scenarios: pairs agree on all that both ask
/// but the one attribute that may change.
fn changed(one: &[Seen], other: &[Seen], but: &str, found: &mut BTreeMap<String, bool>) {
    for first in one {
        for second in other {
            let agree = first.facts.iter().all(|(name, value)| {
                name == but || second.facts.get(name).is_none_or(|it| it == value)
            });
            if !agree {
                continue;
            }
            for (name, comes) in &first.comes_to {
                if second.comes_to.get(name).is_some_and(|it| it != comes) {
                    found.insert(name.clone(), true);
                }
            }
        }
    }
}

fn amended(yaml: &str, changes: &str) -> Option<Ruleset> {
    let amendment = format!("amendment: a\nchanges:\n{changes}");
    let drafts = [("draft.yaml".to_owned(), amendment)];
    let layered = Layered::read("a.yaml", yaml, &drafts).ok()?;
    layered.with(&[0]).ok().map(|loaded| loaded.ruleset)
}

/// The things that a thing can change, by trying; `None` where that is too much.
fn by_enumeration(yaml: &str, ruleset: &Ruleset, thing: Thing) -> Option<BTreeMap<String, bool>> {
    let mut found = BTreeMap::new();
    match thing {
        Thing::Attribute(id) => {
            let all = all(ruleset)?;
            changed(&all, &all, &ruleset[id].name, &mut found);
        }
        Thing::Clause(id) => {
            let every: Vec<Scenario> = scenarios(ruleset)?.take(MOST + 1).collect();
            if every.len() > MOST {
                return None;
            }
            let (with, without) = (Evaluator::new(ruleset), Evaluator::without(ruleset, id));
            for scenario in &every {
                let first = seen(ruleset, scenario, &with.outcome(scenario));
                let second = seen(ruleset, scenario, &without.outcome(scenario));
                changed(&[first], &[second], "", &mut found);
            }
        }
        Thing::Term(id) => {
            let term = &ruleset[id].name;
            let taken = amended(
                yaml,
                &format!(
                    "  - insert:\n      attribute: taken\n  - set:\n      term: {term}\n      means: taken\n"
                ),
            )?;
            let all = all(&taken)?;
            changed(&all, &all, "taken", &mut found);
        }
        Thing::Quantity(index) => {
            let quantity = &ruleset.quantities[index];
            let most = ruleset.attributes.iter().filter_map(|it| match &it.kind {
                AttributeKind::Number(range) => Some(range.steps),
                _ => None,
            });
            let mut editions = Vec::new();
            for amount in 0..=most.max()? {
                let set = match &quantity.value {
                    QuantityValue::Constant(..) => format!(
                        "  - set:\n      quantity: {}\n      to: {amount}\n",
                        quantity.name
                    ),
                    QuantityValue::Column { by, cells } => {
                        let rows = ruleset[*by].kind.names().iter().zip(cells);
                        // Other amounts, not other holes: a row that is missing stays so.
                        if cells.iter().any(Option::is_none) {
                            return None;
                        }
                        let rows = rows.map(|(row, _)| {
                            format!(
                                "  - set:\n      quantity: {}\n      row: {}\n      to: {amount}\n",
                                quantity.name, row.name
                            )
                        });
                        rows.collect::<Vec<_>>().concat()
                    }
                };
                if let Some(edition) = amended(yaml, &set) {
                    editions.push(all(&edition)?);
                }
            }
            for one in &editions {
                for other in &editions {
                    changed(one, other, "", &mut found);
                }
            }
        }
        _ => return None,
    }
    Some(found)
}

fn asked<'g>(ruleset: &Ruleset, graph: &'g Graph, id: NodeId) -> Affected<'g> {
    affected(ruleset, graph, &[], &[id], &Budget::unlimited(), &Silent)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn marks_are_what_enumeration_finds(yaml in random_ruleset::yaml()) {
        let Ok(loaded) = load("a.yaml", yaml.as_str()) else { return Ok(()) };
        let ruleset = loaded.ruleset;
        let graph = Graph::new(&ruleset, None);
        for id in graph.ids() {
            let node = graph.node(id).unwrap();
            let found = asked(&ruleset, &graph, id);
            let Some(expected) = by_enumeration(&yaml, &ruleset, node.thing) else { continue };
            let mut reached = Vec::new();
            for effect in &found.dependents {
                let name = graph.node(effect.dependent.node).unwrap().to_string();
                reached.push(name.clone());
                if matches!(
                    graph.node(effect.dependent.node).unwrap().thing,
                    Thing::Principle(_) | Thing::Background(_) | Thing::Quantity(_)
                ) {
                    continue;
                }
                let changes = match &effect.change {
                    Change::Shown(pair) => {
                        for scenario in pair.iter() {
                            prop_assert!(is_valid(&found.space, scenario));
                        }
                        true
                    }
                    Change::BySpeakingOfIt => true,
                    Change::Never => false,
                    // An amount in a sum has too many ways.
                    Change::Undecided(_) => {
                        prop_assert!(matches!(node.thing, Thing::Quantity(_)));
                        continue;
                    }
                };
                prop_assert_eq!(
                    changes, expected.contains_key(&name),
                    "{} and {}\n{}", node, name, yaml
                );
            }
            // What no way leads to never changes; a reading belongs to its term.
            for name in expected.keys() {
                let own = name == &node.to_string();
                let reading = name.strip_prefix("attribute ").is_some_and(|it| {
                    it == "taken" || ruleset.terms.iter().any(|term| term.name == it)
                });
                let bounded = !ruleset.background.is_empty();
                prop_assert!(
                    own || reading || bounded || reached.contains(name),
                    "{} changes {} and no way leads there\n{}", node, name, yaml
                );
            }
        }
    }
}

/// Runs the program; its exit code, standard output and standard error.
fn run(arguments: &[&str]) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("LC_ALL", "C.UTF-8")
        .output()
        .unwrap();
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    let code = output.status.code().unwrap();
    (code, text(&output.stdout), text(&output.stderr))
}

const BALL: &str = "rulesets/ball.yaml";

#[test]
fn the_command_says_what_can_change_and_what_never_does() {
    let (code, text, _) = run(&["affected", BALL, "bad_stroke", "--incidents"]);
    assert_eq!(code, 0);
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "Term bad_stroke",
        "9 things rest on it. Asked of each: does it turn on whether it holds, however it were defined? 8 can change, 1 never does.",
        "Can change: clause 2.1: directly; it reads term bad_stroke",
        "Never changes, which is proved: principle P3: through clause 2.1, dimension point, clause 3.1, dimension service",
        "term bad_stroke is taken to hold",
    ] {
        assert!(said.contains(words), "{words}\n{text}");
    }
    let (code, json, _) = run(&["affected", BALL, "4", "most_strokes", "--format", "json"]);
    assert_eq!(code, 0);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let schema = std::fs::read_to_string("docs/schemas/affected-1.json").unwrap();
    jsonschema::validate(&serde_json::from_str(&schema).unwrap(), &json).unwrap();
    let things = json["asked"][0]["things"].as_array().unwrap();
    assert!(things.len() > 1, "a group means all its clauses");
    let dependents = json["asked"][1]["dependents"].as_array().unwrap();
    assert!(dependents.iter().any(|it| it["changes"] == true));
}

#[test]
fn names_that_mean_nothing_or_too_much_are_told() {
    let (code, _, told) = run(&["affected", BALL, "bad_stroek"]);
    assert_eq!(code, 2);
    assert!(told.contains("did you mean `bad_stroke`?"), "{told}");
    let (code, _, told) = run(&["affected", BALL, "zzzzzzzzzz"]);
    assert_eq!(code, 2);
    assert!(told.contains("`evenhand graph RULESET` lists"), "{told}");
}
