//! Charts of small rulesets, beside what trying every scenario finds.
#![allow(clippy::unwrap_used, reason = "tests")]

use super::*;
use crate::load::load;

const RULES: &str = "
ruleset: t
attributes:
  hold:
    choice: [none, lock, pin]
  joint:
    choice: [elbow, shoulder, knee]
    asked_when: hold is lock
  seconds:
    number: 0 to 9
    asked_when: hold is pin
  deliberate:
rulings:
  penalty:
    scale: [none, caution, out]
    otherwise: none
    when_several: highest
clauses:
  - id: \"1\"
    when: joint is not elbow
    ruling: {penalty: out}
  - id: \"2\"
    when: seconds at least 5
    ruling: {penalty: caution}
  - id: \"3\"
    when: deliberate and hold is not pin
    ruling: {penalty: caution}
";

fn never() -> crate::logic::Stop {
    std::sync::Arc::new(|| false)
}

fn chart(ruleset: &Ruleset) -> Chart<'_> {
    Chart::new(ruleset, &[DimensionId::new(0)], 100_000, never()).unwrap()
}

fn facts(ruleset: &Ruleset, given: &[(&str, u64)]) -> Established {
    let mut facts = Established::nothing(ruleset.attributes.len());
    for (name, code) in given {
        let at = ruleset.attributes.iter().position(|it| it.name == *name);
        facts.set(
            crate::model::AttributeId::new(at.unwrap()),
            Some(Code(*code)),
        );
    }
    facts
}

fn names(ruleset: &Ruleset, ids: &[crate::model::AttributeId]) -> Vec<String> {
    ids.iter().map(|id| ruleset[*id].name.clone()).collect()
}

#[test]
fn counts_are_those_of_the_scenarios() {
    let ruleset = load("t", RULES).unwrap().ruleset;
    let mut chart = chart(&ruleset);
    // 2 without a hold, 3 joints and 10 lengths, each twice.
    assert_eq!(
        chart.count(&chart.everything()),
        BigUint::from(2u8 + 6 + 20)
    );
    let pinned = chart.outlook(&facts(&ruleset, &[("hold", 2), ("seconds", 7)]));
    assert_eq!(chart.count(&pinned), BigUint::from(2u8));
    assert!(chart.settled(&pinned).is_some());
    let lock = chart.outlook(&facts(&ruleset, &[("joint", 0)]));
    assert_eq!(chart.tally(&lock).len(), 2);
    let nothing = chart.outlook(&facts(&ruleset, &[("joint", 0), ("seconds", 1)]));
    assert!(!chart.is_possible(&nothing));
}

fn enough_for(chart: &Chart<'_>, scenario: &Scenario) -> Sufficient {
    let facts = Established::whole(scenario, chart.ruleset().attributes.len());
    let verdict = chart.verdict(scenario).unwrap();
    let none = std::collections::BTreeSet::new();
    chart.sufficient(&facts, verdict, &none).unwrap()
}

#[test]
fn the_facts_that_were_enough_are_the_fewest() {
    let ruleset = load("t", RULES).unwrap().ruleset;
    let chart = chart(&ruleset);
    let whole = |given| facts(&ruleset, given).scenario(&ruleset).unwrap();
    let shoulder = whole(&[("hold", 1), ("joint", 1), ("deliberate", 0)]);
    let enough = enough_for(&chart, &shoulder);
    assert_eq!(names(&ruleset, &enough.facts), ["joint"]);
    assert_eq!(enough.sets, BigUint::one());
    let elbow = whole(&[("hold", 1), ("joint", 0), ("deliberate", 0)]);
    let enough = enough_for(&chart, &elbow);
    assert_eq!(names(&ruleset, &enough.facts), ["joint", "deliberate"]);
}

#[test]
fn the_nearest_scenarios_lie_one_fact_away() {
    let ruleset = load("t", RULES).unwrap().ruleset;
    let chart = chart(&ruleset);
    let held = facts(&ruleset, &[("hold", 2), ("seconds", 2), ("deliberate", 1)]);
    let held = held.scenario(&ruleset).unwrap();
    let nearest = chart.nearest_other(&held).unwrap();
    assert_eq!((nearest.distance, nearest.complete), (1, true));
    let [only] = nearest.neighbours.as_slice() else {
        unreachable!("{nearest:?}")
    };
    assert_eq!(names(&ruleset, &only.differs), ["seconds"]);
    let seconds = only.differs.first().copied().unwrap();
    assert_eq!(only.scenario.get(seconds), Some(Code(5)));
}

#[test]
fn the_best_question_is_asked_first_and_only_what_matters() {
    let ruleset = load("t", RULES).unwrap().ruleset;
    let mut chart = chart(&ruleset);
    let pinned = chart.outlook(&facts(&ruleset, &[("hold", 2)]));
    let asked: Vec<String> = chart
        .questions(&pinned)
        .iter()
        .map(|question| ruleset[question.attribute].name.clone())
        .collect();
    assert_eq!(asked, ["seconds"]);
    let protocol = chart.protocol(&chart.everything(), &|| false).unwrap();
    assert_eq!(protocol.optimal, Optimal::Proved);
    // First the hold; then nothing else but deliberate, the seconds, or the joint and deliberate.
    assert_eq!(protocol.longest, 3);
}
