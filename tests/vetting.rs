//! What a draft changes, against plain enumeration, on random small rulesets and random drafts.
//!
//! The oracle pairs every scenario of the one edition with every scenario of the other that agrees
//! with it on all that both ask, and asks the plain evaluator about each. It knows nothing of joined
//! rulesets, formulas, diagrams or solvers.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod support;

use evenhand::amendment::{Direction, Fate, State, Vetted, compare, vet};
use evenhand::analysis::{Checked, Cover, Finding, Options};
use evenhand::load::{Layered, load};
use evenhand::logic::{Basis, Evaluator, Outcome, Scenario, Written, written};
use evenhand::model::{AttributeKind, DimensionId, Kind, Ruleset};
use evenhand::read::amendment::Part;
use evenhand::solve::scenarios;
use num_bigint::BigUint;
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::BTreeMap;
use support::{lines, random_amendment, random_ruleset};

/// The most scenarios of an edition that are paired.
const MOST: usize = 250;

/// A scenario told by names: an attribute's name, its value as written, and for the top value of an
/// "or more" number the number from which on it holds.
type Told = BTreeMap<String, (Written, Option<i64>)>;

fn told(ruleset: &Ruleset, scenario: &Scenario) -> Told {
    scenario
        .facts()
        .map(|(id, code)| {
            let attribute = &ruleset[id];
            let mut value = written(ruleset, id, code);
            if let Written::Items(items) = &mut value {
                items.sort();
            }
            let top = match &attribute.kind {
                AttributeKind::Number(range)
                    if range.or_more && i64::try_from(code.0) == Ok(range.steps) =>
                {
                    Some(range.steps)
                }
                _ => None,
            };
            (attribute.name.clone(), (value, top))
        })
        .collect()
}

/// Whether two scenarios can be the same incident: they agree on all that both ask.
fn agree(one: &Told, other: &Told) -> bool {
    one.iter().all(|(name, (mine, my_top))| {
        let Some((theirs, their_top)) = other.get(name) else {
            return true;
        };
        let number = |value: &Written| match value {
            Written::Number(number) => number.parse::<i64>().ok(),
            _ => None,
        };
        mine == theirs
            || my_top.is_some_and(|top| number(theirs).is_some_and(|it| it >= top))
            || their_top.is_some_and(|top| number(mine).is_some_and(|it| it >= top))
    })
}

fn state(ruleset: &Ruleset, name: &str, outcome: &Outcome) -> State {
    let index = ruleset
        .dimensions
        .iter()
        .position(|it| it.name == name)
        .unwrap();
    let ruling = outcome.rulings[index];
    match ruling.basis {
        Basis::Gap => State::Gap,
        Basis::Silence => State::NotDue,
        Basis::Contradiction => State::Contradiction,
        Basis::Clauses | Basis::Default => State::Values(
            ruling
                .values
                .iter()
                .map(|index| {
                    ruleset[DimensionId::new(
                        ruleset
                            .dimensions
                            .iter()
                            .position(|it| it.name == name)
                            .unwrap(),
                    )]
                    .values[index]
                        .name
                        .clone()
                })
                .collect(),
        ),
    }
}

fn all(ruleset: &Ruleset) -> Option<Vec<(Told, Outcome)>> {
    let found: Vec<Scenario> = scenarios(ruleset)?.take(MOST + 1).collect();
    (found.len() <= MOST).then(|| {
        let evaluator = Evaluator::new(ruleset);
        found
            .iter()
            .map(|scenario| (told(ruleset, scenario), evaluator.outcome(scenario)))
            .collect()
    })
}

type Changes = BTreeMap<(String, State, State), u32>;

/// The changes by plain enumeration, and how many incidents both editions allow.
fn by_enumeration(before: &Ruleset, after: &Ruleset) -> Option<(Changes, u32)> {
    let (was, is) = (all(before)?, all(after)?);
    let announced: Vec<&str> = after
        .dimensions
        .iter()
        .filter(|it| !it.intermediate)
        .map(|it| it.name.as_str())
        .filter(|name| {
            before
                .dimensions
                .iter()
                .any(|it| it.name == *name && !it.intermediate)
        })
        .collect();
    let mut changes = Changes::new();
    let mut count = 0;
    for (facts, old) in &was {
        for (others, new) in is.iter().filter(|(others, _)| agree(facts, others)) {
            let _ = others;
            count += 1;
            for name in &announced {
                let (from, to) = (state(before, name, old), state(after, name, new));
                if from != to {
                    *changes.entry(((*name).to_owned(), from, to)).or_default() += 1;
                }
            }
        }
    }
    Some((changes, count))
}

fn drafted(yaml: &str, amendments: &[String]) -> Option<Layered> {
    let drafts: Vec<(String, String)> = amendments
        .iter()
        .map(|text| ("draft.yaml".to_owned(), text.clone()))
        .collect();
    let layered = Layered::read("base.yaml", yaml, &drafts).ok()?;
    let every: Vec<usize> = (0..drafts.len()).collect();
    layered.with(&every).is_ok().then_some(layered)
}

/// Holds the changes that were found to plain enumeration; returns what is wrong.
fn held_to(found: &Vetted, expected: &Changes, count: u32) -> Result<(), String> {
    if !found.open.is_empty() {
        return Err(format!("{:?}", found.open));
    }
    let mut rows: BTreeMap<(String, State, State), BigUint> = BTreeMap::new();
    for row in &found.rows {
        let share = row.share.as_ref().ok_or("not counted")?;
        let key = (row.dimension.clone(), row.from.clone(), row.to.clone());
        if !share.exact || rows.insert(key, share.scenarios.clone()).is_some() {
            return Err(format!("{row:?}"));
        }
    }
    let expected: BTreeMap<_, BigUint> = expected
        .iter()
        .map(|(key, count)| (key.clone(), BigUint::from(*count)))
        .collect();
    let all = found.scenarios.as_ref().ok_or("not counted")?;
    if rows != expected || all.scenarios != BigUint::from(count) {
        return Err(format!("{rows:?}\n{expected:?}\n{all:?}, not {count}"));
    }
    Ok(())
}

/// Holds the conditions of each row to enumeration, where both editions have the same scenarios; says
/// how many were held, and which terms and quantities by name they use.
fn conditions_held(
    found: &Vetted,
    before: &Ruleset,
    after: &Ruleset,
) -> Result<(usize, usize), String> {
    let (was, is) = (all(before).unwrap(), all(after).unwrap());
    let alike = was
        .iter()
        .zip(&is)
        .all(|((one, _), (other, _))| one == other);
    let open = |ruleset: &Ruleset| format!("{:?}", ruleset.attributes.len());
    if was.len() != is.len() || !alike || open(before) != open(after) {
        return Ok((0, 0));
    }
    let incidents: Vec<Scenario> = scenarios(after).unwrap().collect();
    let (mut held, mut named) = (0, 0);
    for row in &found.rows {
        if row.general.cover == Cover::None {
            continue;
        }
        let read: Vec<lines::Line> = row
            .general
            .lines
            .iter()
            .map(|text| lines::line(after, text))
            .collect();
        for (index, incident) in incidents.iter().enumerate() {
            let changes = state(before, &row.dimension, &was[index].1) == row.from
                && state(after, &row.dimension, &is[index].1) == row.to;
            let said = read.iter().any(|line| line.holds(after, incident));
            if said && !changes || changes && !said && row.general.cover == Cover::Exact {
                return Err(format!("{:?}\n{row:#?}", is[index].0));
            }
        }
        held += 1;
        let words = row.general.lines.join(" ");
        let words: Vec<&str> = words.split([' ', '(', ')', ',']).collect();
        let terms = after.terms.iter().map(|term| term.name.as_str());
        let quantities = after.quantities.iter().map(|it| it.name.as_str());
        named += usize::from(terms.chain(quantities).any(|name| words.contains(&name)));
    }
    Ok((held, named))
}

/// Random rulesets in which a row's condition says a term or a quantity by its name are there, so that
/// the test above holds such words.
#[test]
fn conditions_of_rows_use_words_that_both_editions_have() {
    let base = "\
ruleset: Words
quantities: {limit: 3}
attributes:
  kind: {label: the kind, choice: [throw, lock, choke]}
  place: {label: the place, choice: [in, out]}
  count: {label: the count, number: 0 to 5}
  loud: {label: it was loud}
terms:
  danger: {means: kind is lock and place is out}
  quiet: {means: not loud}
rulings:
  penalty: {scale: [none, caution], otherwise: none}
clauses:
  - {id: \"1\", when: count at least limit and loud, ruling: {penalty: caution}}
";
    let draft = |changes: &str| format!("amendment: A draft\nchanges:\n{changes}");
    let conditions = |amendment: String| -> Vec<String> {
        let layered = drafted(base, &[amendment]).unwrap();
        let after = layered.with(&[0]).unwrap().ruleset;
        let vetted = vet(&layered, &[0], &Options::default()).unwrap();
        conditions_held(&vetted, &layered.base.ruleset, &after).unwrap();
        let rows = vetted.rows.iter();
        rows.flat_map(|row| row.general.lines.clone()).collect()
    };
    let insert = |when: &str| {
        format!("  - insert: {{id: \"2\", when: {when}, ruling: {{penalty: caution}}}}\n")
    };
    assert_eq!(
        conditions(draft(&insert("danger and not loud"))),
        ["danger and quiet"]
    );
    assert_eq!(
        conditions(draft(&insert("count at least limit"))),
        ["count at least limit and quiet"]
    );
    // The draft gives the words another meaning, so they say neither.
    let other = format!(
        "{}  - set: {{term: danger, means: kind is choke and place is out}}\n  - set: {{quantity: limit, to: 2}}\n",
        insert("danger and not loud")
    );
    let said = conditions(draft(&other));
    let speaks = |name: &str| said.iter().any(|line| line.contains(name));
    assert!(
        !speaks("danger") && !speaks("limit") && speaks("quiet"),
        "{said:?}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn the_changed_set_is_what_enumeration_finds(yaml in random_ruleset::yaml(), tape in vec(any::<u16>(), 4..40)) {
        let Ok(base) = load("base.yaml", yaml.as_str()) else { return Ok(()) };
        let amendment = random_amendment::write_amendment(&base.ruleset, &tape);
        let Some(layered) = drafted(&yaml, std::slice::from_ref(&amendment)) else { return Ok(()) };
        let after = layered.with(&[0]).unwrap().ruleset;
        let Some((expected, count)) = by_enumeration(&base.ruleset, &after) else { return Ok(()) };
        let vetted = vet(&layered, &[0], &Options::default()).unwrap();
        let held = held_to(&vetted, &expected, count);
        prop_assert!(held.is_ok(), "{held:?}\n{yaml}\n{amendment}");
        let held = conditions_held(&vetted, &base.ruleset, &after);
        prop_assert!(held.is_ok(), "{}\n{yaml}\n{amendment}", held.unwrap_err());
        for row in &vetted.rows {
            prop_assert!(!row.by.is_empty() || !row.together.is_empty(), "{row:?}\n{amendment}");
        }
        // Where a ruling changes, some words do.
        prop_assert!(vetted.rows.is_empty() || !vetted.redline.is_empty(), "{}\n{}", yaml, amendment);
        for (name, direction) in &vetted.direction {
            let changed = vetted.rows.iter().any(|row| row.dimension == *name);
            prop_assert_eq!(changed, *direction != Direction::Unchanged);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 50, ..ProptestConfig::default() })]

    #[test]
    fn editions_are_compared_rightly_whatever_the_numbers_say(yaml in random_ruleset::yaml(), tape in vec(any::<u16>(), 4..40)) {
        let Ok(base) = load("base.yaml", yaml.as_str()) else { return Ok(()) };
        let handed_on = random_amendment::numbers_handed_on(&base.ruleset);
        let amendment = random_amendment::write_amendment(&base.ruleset, &tape);
        let Some(layered) = drafted(&yaml, &[handed_on.clone(), amendment.clone()]) else { return Ok(()) };
        let after = layered.with(&[0, 1]).unwrap();
        let Some((expected, count)) = by_enumeration(&base.ruleset, &after.ruleset) else { return Ok(()) };
        let compared = compare(&base, &after, &Options::default());
        let held = held_to(&compared, &expected, count);
        prop_assert!(held.is_ok(), "{held:?}\n{yaml}\n{amendment}");
        // Where the numbers alone are others, so are the redline's. A group that has words of its own
        // has other clauses then, and rulings may change.
        let renumbered = layered.with(&[0]).unwrap();
        let (expected, count) = by_enumeration(&base.ruleset, &renumbered.ruleset).unwrap();
        let compared = compare(&base, &renumbered, &Options::default());
        let held = held_to(&compared, &expected, count);
        prop_assert!(held.is_ok(), "{held:?}\n{yaml}");
        for thing in compared.redline.iter().filter(|thing| thing.part == Part::Clause) {
            let gone = matches!(thing.fate, Fate::Inserted | Fate::Repealed);
            let mut lines = thing.lines.iter().filter(|line| line.changes());
            let other = lines.any(|line| line.label == "When" || line.label.starts_with("Ruling"));
            prop_assert!(!gone && !other, "{thing:#?}\n{yaml}");
        }
    }
}

/// Each of the two changes asks `later` in other places; a scenario notes what the rules as they are
/// or as they would be ask, and nothing more.
#[test]
fn what_half_a_draft_would_ask_is_no_part_of_a_scenario() {
    let base = "\
ruleset: Asking
attributes:
  first: {label: the first, choice: [left, right]}
  second: {label: the second, choice: [left, right], asked_when: first is left}
  third: {label: the third, choice: [left, right]}
  later: {label: the later, choice: [left, right], asked_when: third is left}
rulings:
  penalty: {scale: [none, caution]}
clauses:
  - {id: \"1\", when: first is left, ruling: {penalty: none}}
";
    let draft = "\
amendment: Two changes
changes:
  - set: {attribute: second, asked_when: first is right}
  - set: {attribute: later, asked_when: second is right}
";
    let layered = drafted(base, &[draft.to_owned()]).unwrap();
    let after = layered.with(&[0]).unwrap().ruleset;
    let (_, count) = by_enumeration(&layered.base.ruleset, &after).unwrap();
    let vetted = vet(&layered, &[0], &Options::default()).unwrap();
    assert_eq!(vetted.scenarios.unwrap().scenarios, BigUint::from(count));
}

/// The promise is broken before and after, only by another clause: nothing is new, and nothing mended.
#[test]
fn a_promise_that_was_broken_before_is_not_broken_anew() {
    let base = "\
ruleset: Promise
attributes:
  kind: {label: the kind, choice: [throw, lock, choke]}
  side: {label: the side, choice: [left, right]}
rulings:
  penalty: {scale: [none, caution, ban], otherwise: none}
principles:
  - {id: P1, impartial_to: [side]}
clauses:
  - {id: \"1\", when: kind is throw and side is left, ruling: {penalty: caution}}
  - {id: \"2\", when: kind is lock, ruling: {penalty: ban}}
";
    let draft = "\
amendment: Another breach
changes:
  - set: {clause: \"1\", when: kind is throw}
  - set: {clause: \"2\", when: kind is lock and side is right}
";
    let layered = drafted(base, &[draft.to_owned()]).unwrap();
    let vetted = vet(&layered, &[0], &Options::default()).unwrap();
    let of = |found: &[usize], checked: &Checked| {
        let kinds = found.iter().map(|index| checked.findings[*index].kind);
        kinds.filter(|kind| *kind == Kind::BrokenPrinciple).count()
    };
    let was = vetted.checked_before.findings.iter();
    let is = vetted.checked_after.findings.iter();
    let breach = |finding: &Finding| {
        (finding.kind == Kind::BrokenPrinciple).then(|| finding.clauses.clone())
    };
    let (was, is): (Vec<_>, Vec<_>) = (
        was.filter_map(breach).collect(),
        is.filter_map(breach).collect(),
    );
    assert_ne!(was, is, "the breaches are by other clauses");
    assert_eq!(of(&vetted.introduced, &vetted.checked_after), 0);
    assert_eq!(of(&vetted.resolved, &vetted.checked_before), 0);
    assert_eq!(of(&vetted.standing, &vetted.checked_after), 1);
}
