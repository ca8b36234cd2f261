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
use evenhand::cases::{Case, Found, Place};
use evenhand::graph::{Affected, CaseBook, Change, Graph, NodeId, Thing, affected};
use evenhand::load::{Layered, load};
use evenhand::logic::{
    Established, Evaluator, Name, Outcome, Replay, Scenario, Truth, Unasked, Written, is_valid,
    written,
};
use evenhand::model::{
    AttributeId, AttributeKind, BackgroundRule, ClauseId, Condition, DimensionId, Gain, Origin,
    Promise, QuantityValue, Ruleset, TermId, ValueSet,
};
use evenhand::solve::{Budget, scenarios};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write;
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

/// What is asked about: cases by their facts, and background lines by their names.
struct Asked<'a> {
    cases: &'a [Case],
    told: Vec<(String, Told, &'a Found)>,
    lines: Vec<String>,
}

impl<'a> Asked<'a> {
    fn new(ruleset: &Ruleset, graph: &Graph, cases: &'a [Case]) -> Asked<'a> {
        let mut told = Vec::new();
        for case in cases {
            let own = facts(ruleset, case.found.facts.facts());
            for official in case.officials.values() {
                let mut seen = own.clone();
                seen.extend(facts(ruleset, official.facts.facts()));
                told.push((case.id.clone(), seen, official));
            }
            told.push((case.id.clone(), own, &case.found));
        }
        let nodes = graph.ids().map(|id| graph.node(id).unwrap());
        let lines = nodes.filter(|node| matches!(node.thing, Thing::Background(_)));
        Asked {
            cases,
            told,
            lines: lines.map(ToString::to_string).collect(),
        }
    }
}

fn facts(
    ruleset: &Ruleset,
    facts: impl Iterator<Item = (AttributeId, evenhand::logic::Code)>,
) -> Told {
    let told = facts.map(|(id, code)| (ruleset[id].name.clone(), written(ruleset, id, code)));
    told.collect()
}

fn ruling(outcome: &Outcome, id: DimensionId) -> String {
    let ruling = outcome.rulings[id.index()];
    let basis = match ruling.basis {
        evenhand::logic::Basis::Clauses | evenhand::logic::Basis::Default => "given".to_owned(),
        other => format!("{other:?}"),
    };
    format!("{:?} {basis}", ruling.values)
}

fn stands(ruleset: &Ruleset, outcome: &Outcome, id: ClauseId) -> String {
    let rulings = ruleset[id].rulings.iter();
    let stands: Vec<bool> = rulings.map(|(on, _)| outcome.stands(id, *on)).collect();
    if stands.is_empty() {
        format!("{:?}", outcome.in_force.contains(id.index()))
    } else {
        format!("{stands:?}")
    }
}

/// The dimensions that a condition names.
fn read(condition: &Condition) -> Vec<DimensionId> {
    evenhand::logic::dimensions_read(condition)
}

fn promise(ruleset: &Ruleset, scenario: &Scenario, outcome: &Outcome, promise: &Promise) -> String {
    let truth = |condition: &Condition| {
        Evaluator::new(ruleset).truth(condition, Unasked::Neither, scenario, outcome)
    };
    let rulings = |ids: Vec<DimensionId>| -> String {
        let all = ids.into_iter().map(|id| ruling(outcome, id));
        all.collect::<Vec<_>>().join(";")
    };
    match promise {
        Promise::Expect { whenever, .. } if truth(whenever) != Truth::True => "idle".to_owned(),
        Promise::Expect { expect, .. } => {
            format!("{:?} {}", truth(expect), rulings(read(expect)))
        }
        Promise::ImpartialTo(_) => {
            let all = (0..ruleset.dimensions.len()).map(DimensionId::new);
            rulings(all.filter(|id| !ruleset[*id].intermediate).collect())
        }
        Promise::RisesWith { dimension, .. } => rulings(vec![*dimension]),
        Promise::NoGain { by, gain, .. } => {
            let step = by.as_ref().map(|by| truth(by) == Truth::True);
            let spoken = match gain {
                Gain::Raising(dimension) | Gain::Lowering(dimension) => vec![*dimension],
                Gain::To(condition) => read(condition),
            };
            format!("{step:?} {}", rulings(spoken))
        }
    }
}

fn seen(ruleset: &Ruleset, scenario: &Scenario, outcome: &Outcome, asked: &Asked<'_>) -> Seen {
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
        let does = stands(ruleset, outcome, ClauseId::new(index));
        comes_to.insert(format!("clause {}", clause.id), does);
    }
    for (index, dimension) in ruleset.dimensions.iter().enumerate() {
        let comes = ruling(outcome, DimensionId::new(index));
        comes_to.insert(format!("dimension {}", dimension.name), comes);
    }
    for principle in &ruleset.principles {
        let comes = promise(ruleset, scenario, outcome, &principle.promise);
        comes_to.insert(format!("principle {}", principle.id), comes);
    }
    let own = facts(ruleset, scenario.facts());
    for (place, (id, told, found)) in asked.told.iter().enumerate() {
        // Of an incident with other facts a case says nothing.
        if told
            .iter()
            .all(|(name, value)| own.get(name) == Some(value))
        {
            let noted = found.ruled.iter().map(|(on, _)| ruling(outcome, *on));
            let mut comes: Vec<String> = noted.collect();
            for cited in &found.clauses {
                let index = ruleset.clauses.iter().position(|it| it.id == *cited);
                comes.push(stands(ruleset, outcome, ClauseId::new(index.unwrap())));
            }
            comes_to.insert(format!("case {id}#{place}"), comes.join(";"));
        }
    }
    Seen {
        facts: own,
        comes_to,
    }
}

/// A way in which things may come out: a ruleset, and the clause that is left out of it.
type Edition = (Ruleset, Option<ClauseId>);

fn all((ruleset, without): &Edition, asked: &Asked<'_>) -> Option<Vec<Seen>> {
    let found: Vec<Scenario> = scenarios(ruleset)?.take(MOST + 1).collect();
    let evaluator = match without {
        Some(clause) => Evaluator::without(ruleset, *clause),
        None => Evaluator::new(ruleset),
    };
    let seen = |scenario| seen(ruleset, scenario, &evaluator.outcome(scenario), asked);
    (found.len() <= MOST).then(|| found.iter().map(seen).collect())
}

/// Whether a background line is kept, in all that the others allow.
fn kept((ruleset, _): &Edition, line: usize, name: &str) -> Option<Vec<Seen>> {
    let mut unbound = ruleset.clone();
    let line = unbound.background.remove(line);
    let found: Vec<Scenario> = scenarios(&unbound)?.take(MOST + 1).collect();
    let evaluator = Evaluator::new(&unbound);
    let broken = |scenario: &Scenario| {
        let outcome = evaluator.outcome(scenario);
        let truth = |it| evaluator.truth(it, Unasked::Neither, scenario, &outcome);
        match &line.rule {
            BackgroundRule::Never(condition) => truth(condition) == Truth::True,
            BackgroundRule::Always(condition) => truth(condition) == Truth::False,
        }
    };
    let seen = |scenario: &Scenario| Seen {
        facts: facts(&unbound, scenario.facts()),
        comes_to: BTreeMap::from([(name.to_owned(), broken(scenario).to_string())]),
    };
    (found.len() <= MOST).then(|| found.iter().map(seen).collect())
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
                    let name = name.split('#').next().unwrap();
                    found.insert(name.to_owned(), true);
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

/// The ways in which a thing may come out, and the attribute that tells them apart; `None` where they
/// can't be written.
fn ways(yaml: &str, ruleset: &Ruleset, thing: Thing) -> Option<(Vec<Edition>, String)> {
    match thing {
        Thing::Attribute(id) => {
            let name = ruleset[id].name.clone();
            Some((vec![(ruleset.clone(), None)], name))
        }
        Thing::Clause(id) => {
            let ways = [None, Some(id)].map(|without| (ruleset.clone(), without));
            Some((ways.to_vec(), String::new()))
        }
        Thing::Term(id) => {
            let term = &ruleset[id].name;
            let taken = amended(
                yaml,
                &format!(
                    "  - insert:\n      attribute: taken\n  - set:\n      term: {term}\n      means: taken\n"
                ),
            )?;
            Some((vec![(taken, None)], "taken".to_owned()))
        }
        Thing::Quantity(index) => {
            let quantity = &ruleset.quantities[index];
            let ranges = ruleset.attributes.iter().filter_map(|it| match &it.kind {
                AttributeKind::Number(range) => Some(range.steps),
                _ => None,
            });
            // Twice each number, and more of either sign than all together.
            let most = 2 * ranges.sum::<i64>() + 1;
            let mut editions = Vec::new();
            for amount in -most..=most {
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
                editions.extend(amended(yaml, &set).map(|edition| (edition, None)));
            }
            Some((editions, String::new()))
        }
        _ => None,
    }
}

/// The things that a thing can change, by trying; `None` where that is too much.
fn by_enumeration(
    yaml: &str,
    ruleset: &Ruleset,
    thing: Thing,
    asked: &Asked<'_>,
) -> Option<BTreeMap<String, bool>> {
    let (editions, but) = ways(yaml, ruleset, thing)?;
    let mut found = BTreeMap::new();
    let mut compare = |lists: &[Vec<Seen>]| {
        for one in lists {
            for other in lists {
                changed(one, other, &but, &mut found);
            }
        }
    };
    let lists: Option<Vec<_>> = editions.iter().map(|it| all(it, asked)).collect();
    compare(&lists?);
    for (line, name) in asked.lines.iter().enumerate() {
        let lists: Option<Vec<_>> = editions.iter().map(|it| kept(it, line, name)).collect();
        compare(&lists?);
    }
    Some(found)
}

/// Two cases: some of the facts of two scenarios, with a ruling and a clause that they note, the second
/// with an official who saw one fact otherwise.
fn random_cases(ruleset: &Ruleset, tape: &[u16]) -> Vec<Case> {
    let mut tape = tape.iter().copied().cycle();
    let mut below = |limit: usize| usize::from(tape.next().unwrap_or(0)) % limit.max(1);
    let found: Vec<Scenario> = match scenarios(ruleset) {
        Some(all) => all.take(MOST).collect(),
        None => Vec::new(),
    };
    if found.is_empty() || ruleset.dimensions.is_empty() || ruleset.clauses.is_empty() {
        return Vec::new();
    }
    let some = |below: &mut dyn FnMut(usize) -> usize, most: usize| {
        let scenario = &found[below(found.len())];
        let mut facts = Established::nothing(ruleset.attributes.len());
        for (id, code) in scenario.facts() {
            if ruleset[id].origin == Origin::Stated && facts.len() < most && below(2) == 0 {
                facts.set(id, Some(code));
            }
        }
        let on = DimensionId::new(below(ruleset.dimensions.len()));
        let cited = below(3 * ruleset.clauses.len());
        Found {
            facts,
            ruled: vec![(on, ValueSet::one(0))],
            clauses: ruleset
                .clauses
                .get(cited)
                .map(|it| it.id.clone())
                .into_iter()
                .collect(),
        }
    };
    let case = |id: &str, found: Found, official: Option<Found>| Case {
        id: id.to_owned(),
        date: None,
        kind: None,
        source: None,
        note: None,
        found,
        officials: official
            .map(|it| ("A".to_owned(), it))
            .into_iter()
            .collect(),
        place: Place(1),
    };
    vec![
        case("c1", some(&mut below, 2), None),
        case("c2", some(&mut below, 1), Some(some(&mut below, 1))),
    ]
}

fn asked<'g>(ruleset: &Ruleset, graph: &'g Graph, cases: &[Case], id: NodeId) -> Affected<'g> {
    affected(ruleset, graph, cases, &[id], &Budget::unlimited(), &Silent)
}

/// Holds what is said of every thing of a ruleset to what trying finds.
fn held_to_enumeration(yaml: &str, tape: &[u16]) -> Result<(), TestCaseError> {
    let Ok(loaded) = load("a.yaml", yaml) else {
        return Ok(());
    };
    let ruleset = loaded.ruleset;
    let cases = random_cases(&ruleset, tape);
    let book = CaseBook {
        file: "cases.yaml",
        cases: &cases,
    };
    let graph = Graph::new(&ruleset, Some(book));
    let all_asked = Asked::new(&ruleset, &graph, &cases);
    for id in graph.ids() {
        let node = graph.node(id).unwrap();
        let Some(expected) = by_enumeration(yaml, &ruleset, node.thing, &all_asked) else {
            continue;
        };
        let found = asked(&ruleset, &graph, all_asked.cases, id);
        let mut reached = Vec::new();
        for effect in &found.dependents {
            let dependent = graph.node(effect.dependent.node).unwrap();
            let name = dependent.to_string();
            reached.push(name.clone());
            if matches!(dependent.thing, Thing::Quantity(_)) {
                continue;
            }
            let changes = match &effect.change {
                Change::Shown(pair) => {
                    for scenario in pair.iter() {
                        // Whether a line is kept shows in what it rules out.
                        let line = matches!(dependent.thing, Thing::Background(_));
                        prop_assert!(line || is_valid(&found.space, scenario));
                    }
                    true
                }
                Change::BySpeakingOfIt => true,
                Change::Never => false,
                Change::Undecided(reason) => {
                    prop_assert!(false, "{} and {}: {}\n{}", node, name, reason, yaml);
                    false
                }
            };
            prop_assert_eq!(
                changes,
                expected.contains_key(&name),
                "{} and {}\n{}\n{:?}",
                node,
                name,
                yaml,
                cases
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
                "{} changes {} and no way leads there\n{}\n{:?}",
                node,
                name,
                yaml,
                cases
            );
        }
    }
    Ok(())
}

/// Rules of two numbers, with a quantity in sums.
fn with_sums() -> impl Strategy<Value = String> {
    let sums = prop::sample::select(vec![
        "a - b at least margin",
        "a + b at most margin",
        "a + b is margin",
        "2 * a more than b + margin",
        "a at least 2 * margin - b",
        "a + b is between margin and 5",
        "b less than margin",
        "a at least margin",
    ]);
    let when = prop::collection::vec((sums, any::<bool>()), 2..=3);
    (1..=3i64, 1..=3i64, 0..=1i64, when).prop_map(|(a, b, margin, when)| {
        let mut yaml = format!(
            "ruleset: R\nquantities:\n  margin: {margin}\nattributes:\n  a: {{number: 0 to {a}}}\n  b: {{number: 0 to {b}}}\n  c:\nrulings:\n  r: {{choice: [x, y], otherwise: x}}\n  s: {{choice: [x, y], otherwise: x}}\nclauses:\n"
        );
        for (index, (sum, with)) in when.iter().enumerate() {
            let when = if *with { format!("{sum} and c") } else { (*sum).to_owned() };
            let on = if index == 0 { "r" } else { "s" };
            let _ = write!(
                yaml,
                "  - id: \"{}\"\n    when: {when}\n    ruling: {{{on}: y}}\n",
                index + 1
            );
        }
        yaml.push_str("principles:\n  - id: P\n    whenever: c\n    expect: s is x\n");
        yaml
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn marks_are_what_enumeration_finds(
        yaml in random_ruleset::yaml(), tape in prop::collection::vec(any::<u16>(), 24)
    ) {
        held_to_enumeration(&yaml, &tape)?;
    }

    #[test]
    fn amounts_in_sums_are_asked_about_too(
        yaml in with_sums(), tape in prop::collection::vec(any::<u16>(), 24)
    ) {
        held_to_enumeration(&yaml, &tape)?;
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
