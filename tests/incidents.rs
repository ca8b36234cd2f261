//! Single incidents of the demo rulesets and of published rules: what is ruled, what lies next to it,
//! and what can be said with facts missing.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests"
)]

mod common;

use common::{attribute, condition, dimension, load, names, text_of};
use evenhand::logic::{Evaluator, Optimal, Scenario, same_ruling, written};
use evenhand::model::Ruleset;
use evenhand::narration;
use evenhand::scenario::{self, Decision};
use evenhand::solve::Budget;

fn facts(list: &[&str]) -> Vec<String> {
    list.iter().map(|fact| (*fact).to_owned()).collect()
}

fn decided(ruleset: &Ruleset, given: &[&str]) -> Decision {
    let incident = scenario::incident(ruleset, None, &facts(given)).expect("facts");
    let budget = Budget::unlimited();
    let dimensions = scenario::announced(ruleset);
    let mut chart = scenario::chart(ruleset, &dimensions, &budget);
    assert!(chart.is_ok());
    let decision = scenario::decide(ruleset, &incident.facts, &dimensions, &mut chart, &budget);
    decision.expect("an incident")
}

/// The values that are possible on a dimension, in order.
fn possible<'r>(ruleset: &'r Ruleset, decision: &Decision, on: &str) -> Vec<&'r str> {
    let id = dimension(ruleset, on);
    let on = decision
        .dimensions
        .iter()
        .find(|it| it.dimension == id)
        .unwrap();
    let rulings = on.possible.iter();
    rulings
        .flat_map(|it| names(ruleset, id, it.ruling.values))
        .collect()
}

/// The facts that were enough, as `name=value`.
fn enough(ruleset: &Ruleset, decision: &Decision) -> Vec<String> {
    let found = decision.enough.as_ref().unwrap().as_ref().unwrap();
    let all = found.facts.iter().map(|id| {
        let value = written(ruleset, *id, decision.facts.get(*id).unwrap());
        format!("{}={value}", ruleset[*id].name)
    });
    all.collect()
}

/// Facts of the trade; common practice, no source.
mod trade {
    use super::*;

    const LOCK: &[&str] = &[
        "action=lock",
        "joint=elbow",
        "hand_on_leg=no",
        "after_call=no",
    ];

    fn lock(more: &[&str]) -> Decision {
        let ruleset = load("rulesets/grappling.yaml");
        decided(&ruleset, &[LOCK, more].concat())
    }

    fn penalties(more: &[&str]) -> Vec<String> {
        let ruleset = load("rulesets/grappling.yaml");
        let decision = decided(&ruleset, more);
        let possible = possible(&ruleset, &decision, "penalty");
        possible.into_iter().map(str::to_owned).collect()
    }

    #[test]
    fn a_lock_on_the_elbow_is_lawful_while_the_pressure_is_drawn_away() {
        let on_ground = ["phase=ground", "entry=plain", "category=senior"];
        let drawn_away = lock(&[&on_ground[..], &["pressure=to_elbow"]].concat());
        let driven_up = lock(&[&on_ground[..], &["pressure=to_shoulder"]].concat());
        let ruleset = load("rulesets/grappling.yaml");
        assert_eq!(possible(&ruleset, &drawn_away, "penalty"), ["none"]);
        assert_eq!(
            possible(&ruleset, &driven_up, "penalty"),
            ["disqualification"]
        );
        // Whatever else is so: where the pressure runs is enough for that.
        assert_eq!(penalties(&["pressure=to_shoulder"]), ["disqualification"]);
    }

    #[test]
    fn weight_on_a_straight_arm_from_standing_turns_on_how_the_arm_came_there() {
        let dropped = [
            "matter=technique",
            "phase=standing",
            "weight_dropped=yes",
            "pressure=to_elbow",
            "entry=plain",
            "submission=no",
            "video=confirmed",
            "category=senior",
            "side=white",
            "cautions_before=0",
        ];
        let ruleset = load("rulesets/grappling.yaml");
        let by_attacker = lock(&[&dropped[..], &["way_under=dropped_on"]].concat());
        let by_opponent = lock(&[&dropped[..], &["way_under=turned_into"]].concat());
        assert_eq!(
            possible(&ruleset, &by_attacker, "penalty"),
            ["disqualification"]
        );
        assert_eq!(possible(&ruleset, &by_opponent, "penalty"), ["none"]);
        assert_eq!(
            enough(&ruleset, &by_attacker),
            ["phase=standing", "way_under=dropped_on"]
        );
        // The contrast that a referee is taught stands among the nearest.
        let near = by_attacker.whole.unwrap().nearest.unwrap().unwrap();
        assert_eq!(near.distance, 1);
        let way_under = attribute(&ruleset, "way_under");
        let other = near
            .others
            .iter()
            .find(|other| other.differs == [way_under]);
        let penalty = dimension(&ruleset, "penalty").index();
        let ruling = other.unwrap().outcome.rulings[penalty];
        assert_eq!(
            names(&ruleset, dimension(&ruleset, "penalty"), ruling.values),
            ["none"]
        );
        assert!(
            near.others
                .iter()
                .any(|other| { other.differs == [attribute(&ruleset, "phase")] })
        );
    }

    #[test]
    fn a_displaced_clause_is_told_with_the_one_that_displaces_it() {
        let ruleset = load("rulesets/grappling.yaml");
        let turned = lock(&[
            "matter=technique",
            "phase=standing",
            "weight_dropped=yes",
            "pressure=to_elbow",
            "entry=plain",
            "submission=no",
            "video=confirmed",
            "category=senior",
            "side=white",
            "cautions_before=0",
            "way_under=turned_into",
        ]);
        let reasons = turned.whole.unwrap().reasons;
        let of = |id: &str| {
            let wanted = common::clause(&ruleset, id);
            reasons
                .iter()
                .find(|reason| reason.clause == wanted)
                .unwrap()
        };
        let [given] = of("4.2").rulings.as_slice() else {
            panic!()
        };
        assert_eq!(given.displaced_by, [common::clause(&ruleset, "4.3")]);
        assert!(!of("4.2").stands() && of("4.3").stands());
        // 4.3 is worked out before 4.2 yields to it, and both before what reads them.
        let place = |id| {
            reasons
                .iter()
                .position(|it| it.clause == common::clause(&ruleset, id))
        };
        assert!(place("4.3") < place("4.2"));
    }

    #[test]
    fn the_leg_is_barred_to_the_hand_in_standing_and_free_on_the_ground() {
        let grip = [
            "action=grip",
            "hand_on_leg=yes",
            "category=senior",
            "cautions_before=0",
            "left_hand=left_side",
            "right_hand=right_side",
        ];
        let standing = [&grip[..], &["phase=standing", "seconds_without_attack=0"]].concat();
        let ground = [&grip[..], &["phase=ground"]].concat();
        assert_eq!(penalties(&standing), ["caution"]);
        assert_eq!(penalties(&ground), ["none"]);
    }

    #[test]
    fn how_the_leg_may_be_touched_has_a_whole_answer() {
        let ruleset = load("rulesets/grappling.yaml");
        let wanted = condition(&ruleset, "deserved is nothing");
        let given = condition(&ruleset, "hand_on_leg");
        let found = scenario::when(&ruleset, &wanted, Some(&given), &Budget::unlimited());
        assert!(found.open.is_none() && !found.lines.is_empty());
        let evaluator = Evaluator::new(&ruleset);
        let deserved = dimension(&ruleset, "deserved");
        for case in &found.lines {
            let outcome = evaluator.outcome(&case.scenario);
            let ruling = outcome.rulings[deserved.index()];
            assert_eq!(names(&ruleset, deserved, ruling.values), ["nothing"]);
        }
        // Nowhere while both stand.
        let standing = condition(&ruleset, "hand_on_leg and phase is standing");
        let never = scenario::when(&ruleset, &wanted, Some(&standing), &Budget::unlimited());
        assert!(never.lines.is_empty() && never.open.is_none() && never.scenario.is_none());
    }

    #[test]
    fn a_review_of_a_lock_asks_only_what_matters() {
        let ruleset = load("rulesets/grappling.yaml");
        let incident = scenario::incident(&ruleset, None, &facts(&["action=lock", "phase=ground"]));
        let budget = Budget::unlimited();
        let penalty = [dimension(&ruleset, "penalty")];
        let mut chart = scenario::chart(&ruleset, &penalty, &budget).unwrap();
        let outlook = chart.outlook(&incident.unwrap().facts);
        let protocol = chart.protocol(&outlook, &|| false).unwrap();
        assert_eq!(protocol.optimal, Optimal::Proved);
        let key = narration::key(&chart, &protocol);
        let first = key.steps.first().unwrap();
        assert_eq!(first.attribute, attribute(&ruleset, "joint"));
        let asked = key
            .steps
            .iter()
            .map(|step| ruleset[step.attribute].name.as_str());
        assert!(
            asked
                .clone()
                .all(|name| name != "side" && name != "hand_on_leg" && name != "video")
        );
        assert!(asked.clone().any(|name| name == "pressure"));
    }
}

/// World Athletics, Technical Rules 17 and Competition Rules 31 (from memory): wind from behind of up
/// to 2.0 metres a second counts. The boundary shows as a pair of incidents one step apart.
#[test]
fn the_wind_turns_the_mark_between_2_0_and_2_1() {
    let ruleset = load("tests/published/wind.yaml");
    let wind = attribute(&ruleset, "wind");
    let mark = dimension(&ruleset, "mark");
    let value =
        |scenario: &Scenario| written(&ruleset, wind, scenario.get(wind).unwrap()).to_string();
    for (given, ruled, other, otherwise) in [
        ("wind=2.0", "counts", "2.1", "does_not_count"),
        ("wind=2.1", "does_not_count", "2", "counts"),
        ("wind=-4.5", "counts", "2.1", "does_not_count"),
        ("wind=9", "does_not_count", "2", "counts"),
    ] {
        let decision = decided(&ruleset, &[given]);
        assert_eq!(possible(&ruleset, &decision, "mark"), [ruled]);
        let near = decision.whole.unwrap().nearest.unwrap().unwrap();
        let [neighbour] = near.others.as_slice() else {
            panic!("{near:?}")
        };
        assert_eq!(
            (near.distance, value(&neighbour.scenario).as_str()),
            (1, other),
            "{given}"
        );
        let ruling = neighbour.outcome.rulings[mark.index()];
        assert_eq!(names(&ruleset, mark, ruling.values), [otherwise]);
    }
    let counts = condition(&ruleset, "mark is counts");
    let found = scenario::when(&ruleset, &counts, None, &Budget::unlimited());
    let lines: Vec<&str> = found
        .lines
        .iter()
        .map(|case| case.condition.as_str())
        .collect();
    assert_eq!(lines, ["wind at most most_wind"]);
    assert_eq!(found.share.unwrap().scenarios, 120u8.into());
}

#[test]
fn the_scenario_file_of_the_demo_is_a_whole_incident() {
    let ruleset = load("rulesets/grappling.yaml");
    let text = text_of("rulesets/incident.yaml");
    let incident = scenario::incident(&ruleset, Some(("incident.yaml", &text)), &[]).unwrap();
    let scenario = incident
        .facts
        .scenario(&ruleset)
        .expect("nothing is missing");
    let one = Evaluator::new(&ruleset).outcome(&scenario);
    let penalty = dimension(&ruleset, "penalty");
    let ruling = one.rulings[penalty.index()];
    assert_eq!(
        names(&ruleset, penalty, ruling.values),
        ["disqualification"]
    );
    assert!(same_ruling(ruling, ruling));
}

/// A question whose values are numbers that no clause names is cut where the question says.
#[test]
fn a_condition_may_name_numbers_that_the_ruleset_does_not() {
    let ruleset = load("rulesets/grappling.yaml");
    let wanted = condition(&ruleset, "score is half and seconds_held at least 13");
    let found = scenario::when(&ruleset, &wanted, None, &Budget::unlimited());
    assert!(found.open.is_none() && !found.lines.is_empty());
    let seconds = attribute(&ruleset, "seconds_held");
    assert!(
        found
            .lines
            .iter()
            .all(|case| case.scenario.get(seconds).unwrap().0 >= 13)
    );
    let lines: Vec<&str> = found
        .lines
        .iter()
        .map(|case| case.condition.as_str())
        .collect();
    assert!(lines.iter().any(|line| line.contains("13")), "{lines:?}");
}
