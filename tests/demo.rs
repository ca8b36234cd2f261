//! The demo rulesets: clean where they are said to be, flawed as their list says, and in keeping with
//! how grappling is refereed.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests"
)]

mod common;

use common::{checked, load, ruled, text_of};
use evenhand::analysis::{Checked, Finding, KINDS, Outcome};
use evenhand::model::{Kind, Ruleset, Severity};
use std::collections::BTreeSet;

/// Facts of the trade; common practice, no source.
mod trade {
    use super::*;

    const SENIOR: (&str, &str) = ("category", "senior");

    /// What the athlete gets for a technique of a senior without cautions.
    fn penalty(facts: &[(&str, &str)]) -> String {
        technique(facts, "penalty")
    }

    fn technique(facts: &[(&str, &str)], on: &str) -> String {
        thread_local!(static RULES: Ruleset = load("rulesets/grappling.yaml"));
        let facts: Vec<(&str, &str)> = [("matter", "technique"), SENIOR]
            .into_iter()
            .chain(facts.iter().copied())
            .collect();
        RULES.with(|rules| ruled(rules, &facts, on).join(" or "))
    }

    fn conduct(facts: &[(&str, &str)]) -> String {
        let rules = load("rulesets/grappling.yaml");
        let facts: Vec<(&str, &str)> = [("matter", "conduct"), SENIOR]
            .into_iter()
            .chain(facts.iter().copied())
            .collect();
        ruled(&rules, &facts, "penalty").join(" or ")
    }

    #[test]
    fn locks_load_the_elbow_only() {
        for joint in ["shoulder", "wrist", "knee"] {
            let lock = [("action", "lock"), ("phase", "ground"), ("joint", joint)];
            assert_eq!(penalty(&lock), "disqualification", "{joint}");
        }
    }

    #[test]
    fn the_same_hold_turns_on_where_the_pressure_runs() {
        let lock = |pressure| {
            penalty(&[
                ("action", "lock"),
                ("phase", "ground"),
                ("joint", "elbow"),
                ("pressure", pressure),
            ])
        };
        assert_eq!(lock("to_elbow"), "none");
        assert_eq!(lock("to_shoulder"), "disqualification");
    }

    #[test]
    fn weight_on_a_straight_arm() {
        let lock = |phase, way_under| {
            penalty(&[
                ("action", "lock"),
                ("phase", phase),
                ("joint", "elbow"),
                ("pressure", "to_elbow"),
                ("weight_dropped", "yes"),
                ("way_under", way_under),
            ])
        };
        assert_eq!(lock("ground", "dropped_on"), "none");
        assert_eq!(lock("standing", "dropped_on"), "disqualification");
        assert_eq!(lock("standing", "turned_into"), "none");
    }

    #[test]
    fn hands_on_the_leg() {
        let touch = |phase| {
            penalty(&[
                ("action", "grip"),
                ("phase", phase),
                ("left_hand", "left_side"),
                ("right_hand", "right_side"),
                ("hand_on_leg", "yes"),
            ])
        };
        assert_eq!(touch("standing"), "caution");
        assert_eq!(touch("ground"), "none");
        // While both go from the ground to standing.
        assert_eq!(touch("rising"), "none");
    }

    #[test]
    fn a_stretched_leg_during_a_strangle() {
        let strangle = |leg_held| {
            penalty(&[
                ("action", "strangle"),
                ("phase", "ground"),
                ("strangle_with", "cloth"),
                ("leg_state", "drawn_straight"),
                ("leg_held", leg_held),
            ])
        };
        assert_eq!(strangle("pulled"), "caution");
        assert_eq!(strangle("weight_above"), "none");
    }

    #[test]
    fn throws_by_the_sleeves() {
        let throw = |held_by| {
            penalty(&[
                ("action", "throw"),
                ("phase", "standing"),
                ("held_by", held_by),
            ])
        };
        assert_eq!(throw("one_sleeve"), "disqualification");
        assert_eq!(throw("both_sleeves"), "none");
    }

    #[test]
    fn flying_entries() {
        let lock = |phase| {
            penalty(&[
                ("action", "lock"),
                ("phase", phase),
                ("joint", "elbow"),
                ("pressure", "to_elbow"),
                ("entry", "flying"),
            ])
        };
        assert_eq!(lock("ground"), "none");
        assert_eq!(lock("rising"), "none");
        assert_ne!(lock("standing"), "none");
    }

    #[test]
    fn lifts() {
        let lift = |lift_end| {
            penalty(&[
                ("action", "lift"),
                ("phase", "ground"),
                ("lift_end", lift_end),
            ])
        };
        assert_eq!(lift("driven"), "disqualification");
        assert_eq!(lift("set_down"), "none");
    }

    #[test]
    fn a_poke_in_the_eye_has_every_ruling() {
        let poke = |force| conduct(&[("conduct", "eye"), ("force", force)]);
        assert_eq!(poke("light"), "none");
        assert_eq!(poke("firm"), "caution");
        assert_eq!(poke("full"), "disqualification");
    }

    #[test]
    fn a_full_score_needs_the_video_official() {
        let throw = |video| {
            technique(
                &[
                    ("action", "throw"),
                    ("phase", "standing"),
                    ("held_by", "both_sleeves"),
                    ("landing", "full_back"),
                    ("control", "full"),
                    ("video", video),
                ],
                "score",
            )
        };
        assert_eq!(throw("confirmed"), "full");
        assert_eq!(throw("corrected"), "half");
    }

    #[test]
    fn hold_downs_score_by_the_second() {
        let hold = |seconds| {
            technique(
                &[
                    ("action", "hold_down"),
                    ("phase", "ground"),
                    ("seconds_held", seconds),
                ],
                "score",
            )
        };
        let scores: Vec<String> = ["0", "9", "10", "19", "20"].map(hold).into();
        assert_eq!(scores, ["none", "none", "half", "half", "full"]);
    }
}

fn said(found: &Finding) -> String {
    format!("{}: {}", found.kind, found.headline)
}

/// Every finding of these severities that is not accepted.
fn open(checked: &Checked, severities: &[Severity]) -> Vec<String> {
    let findings = checked.findings.iter();
    findings
        .filter(|found| severities.contains(&found.severity) && found.accepted.is_none())
        .map(said)
        .collect()
}

#[test]
fn the_clean_rulesets_are_clean() {
    for path in [
        "rulesets/grappling.yaml",
        "rulesets/throws.yaml",
        "rulesets/ball.yaml",
    ] {
        let ruleset = load(path);
        let checked = checked(&ruleset);
        let worst = [Severity::Fault, Severity::Warning];
        assert_eq!(open(&checked, &worst), Vec::<String>::new(), "{path}");
        let undecided = |outcome: &Outcome| matches!(outcome, Outcome::Undecided(_));
        assert!(
            !checked
                .verdicts
                .iter()
                .any(|verdict| undecided(&verdict.outcome)),
            "{path}: {:?}",
            checked.verdicts
        );
        assert_eq!(checked.idle_accepted, Vec::<usize>::new(), "{path}");
    }
}

/// What a finding is about: its kind, and its clauses and names without order.
type About = (Kind, BTreeSet<String>);

fn about(ruleset: &Ruleset, found: &Finding) -> About {
    let clauses = found
        .clauses
        .iter()
        .map(|clause| ruleset[*clause].id.clone());
    let dimension = found.dimension.map(|on| ruleset[on].name.clone());
    let others = [&found.principle, &found.attribute, &found.term]
        .into_iter()
        .flatten()
        .cloned();
    // What nothing uses is best told by its name in the file.
    let unused = (found.kind == Kind::Unused)
        .then(|| found.labels.first())
        .flatten();
    let unused = unused.map(|(span, _)| ruleset.sources.slice(*span).to_owned());
    match unused {
        Some(name) => (found.kind, [name].into()),
        None => (found.kind, clauses.chain(dimension).chain(others).collect()),
    }
}

/// The rows of the list of planted flaws: what each is about, and whether this version reports it.
fn planted() -> Vec<(About, bool)> {
    let page = text_of("rulesets/README.md");
    let rows = page.lines().filter_map(|line| {
        let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
        let [kind, place, _, reported] = cells.as_slice() else {
            return None;
        };
        let kind = Kind::from_word(kind)?;
        let named = place.split('`').skip(1).step_by(2).map(str::to_owned);
        Some(((kind, named.collect()), *reported == "this version"))
    });
    rows.collect()
}

#[test]
fn every_kind_of_finding_is_planted_once_at_least() {
    let planted = planted();
    for kind in Kind::ALL {
        let rows: Vec<_> = planted
            .iter()
            .filter(|((planted, _), _)| planted == kind)
            .collect();
        assert!(!rows.is_empty(), "{kind}");
        for ((_, place), reported) in rows {
            assert_eq!(*reported, KINDS.contains(kind), "{kind} {place:?}");
        }
    }
}

#[test]
fn the_draft_has_the_planted_flaws_and_no_others() {
    let ruleset = load("rulesets/grappling-draft.yaml");
    let checked = checked(&ruleset);
    let reported: BTreeSet<About> = checked
        .findings
        .iter()
        .map(|found| about(&ruleset, found))
        .collect();
    let listed = planted().into_iter().filter(|(_, reported)| *reported);
    let listed: BTreeSet<About> = listed.map(|(about, _)| about).collect();
    let missing: Vec<&About> = listed.difference(&reported).collect();
    let unlisted: Vec<&About> = reported.difference(&listed).collect();
    assert!(
        missing.is_empty() && unlisted.is_empty(),
        "listed but not reported: {missing:#?}\nreported but not listed: {unlisted:#?}"
    );
    let accepted = checked
        .findings
        .iter()
        .filter(|found| found.accepted.is_some());
    let accepted: Vec<About> = accepted.map(|found| about(&ruleset, found)).collect();
    let known = ["11.1", "17.4", "penalty"].map(str::to_owned).into();
    assert_eq!(accepted, [(Kind::Contradiction, known)]);
}

/// Whoever covers the opponent's face is ruled on neither in `deserved` nor in `play`, which is built
/// on it. Only the first is reported, but nothing is claimed to be proved of the second.
#[test]
fn what_rests_on_a_fault_is_not_reported_and_not_proved_away() {
    let ruleset = load("rulesets/grappling-draft.yaml");
    let face = [("matter", "conduct"), ("conduct", "face")];
    for on in ["deserved", "play"] {
        assert_eq!(ruled(&ruleset, &face, on), Vec::<&str>::new(), "{on}");
    }
    let checked = checked(&ruleset);
    let play = common::dimension(&ruleset, "play");
    let mut findings = checked.findings.iter();
    assert!(!findings.any(|it| it.kind == Kind::Gap && it.dimension == Some(play)));
    let mut verdicts = checked.verdicts.iter();
    let verdict = verdicts.find(|it| it.kind == Kind::Gap && it.dimension == Some(play));
    assert_eq!(verdict.unwrap().outcome, Outcome::Found);
}
