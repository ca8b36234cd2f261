//! Every repair that is offered, made: its amendment is read and laid over the ruleset, and brute
//! force looks at what comes of it. The finding must be gone, no fault may be new, and as many
//! scenarios as were said must change their ruling.

use super::{Oracle, load, pairs, tape};
use crate::support::random_ruleset;
use evenhand::amendment::repairs;
use evenhand::analysis::{Checked, Finding, Options, Repairs, check};
use evenhand::load::load_with;
use evenhand::logic::{Evaluator, Scenario};
use evenhand::model::{Kind, Ruleset};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// The most scenarios of a ruleset whose repairs are tried.
const MOST: usize = 3_000;

/// The faults and other findings that brute force sees, each by what it is about.
fn faults(oracle: &Oracle<'_>) -> BTreeSet<(Kind, String)> {
    let ruleset = oracle.ruleset;
    let id = |index: usize| ruleset.clauses[index].id.clone();
    let mut all = BTreeSet::new();
    for ((on, family), _) in oracle.contradictions() {
        let ids: Vec<String> = family.into_iter().map(id).collect();
        let name = &ruleset.dimensions[on].name;
        all.insert((Kind::Contradiction, format!("{name} {}", ids.join(" "))));
    }
    for on in oracle.gaps().into_keys() {
        all.insert((Kind::Gap, ruleset.dimensions[on].name.clone()));
    }
    let [told, _] = oracle.idle_clauses();
    for (kind, clauses) in [Kind::Impossible, Kind::Displaced, Kind::NoEffect]
        .into_iter()
        .zip(told)
    {
        all.extend(clauses.into_iter().map(|index| (kind, id(index))));
    }
    let loose = oracle.loose_terms().into_keys();
    all.extend(loose.map(|term| (Kind::LooseTerm, term)));
    let silent = oracle.presupposing().into_keys();
    all.extend(silent.map(|index| (Kind::Presupposes, id(index))));
    let broken = pairs::broken(oracle).into_iter();
    all.extend(broken.map(|id| (Kind::BrokenPrinciple, id)));
    all
}

/// What a finding is about, in the same words.
fn about(ruleset: &Ruleset, finding: &Finding) -> (Kind, String) {
    let ids: Vec<&str> = finding
        .clauses
        .iter()
        .map(|id| ruleset[*id].id.as_str())
        .collect();
    let dimension = finding.dimension.map(|id| ruleset[id].name.as_str());
    let words = match finding.kind {
        Kind::Contradiction => format!("{} {}", dimension.unwrap(), ids.join(" ")),
        Kind::Gap => dimension.unwrap().to_owned(),
        Kind::LooseTerm => finding.term.clone().unwrap(),
        _ => ids[0].to_owned(),
    };
    (finding.kind, words)
}

fn amended(text: &str, amendment: &str) -> Ruleset {
    let layers = [("repair.yaml".to_owned(), amendment.to_owned())];
    match load_with("random.yaml", text, &layers) {
        Ok(loaded) => loaded.ruleset,
        Err(refused) => panic!("{:#?}\n{amendment}\n{text}", refused.problems),
    }
}

/// The faults, not what is only a warning.
fn grave(all: &BTreeSet<(Kind, String)>) -> impl Iterator<Item = &(Kind, String)> {
    let grave = all.iter();
    grave.filter(|(kind, _)| kind.severity() == evenhand::model::Severity::Fault)
}

/// Holds all repairs of a ruleset; how many were offered, by kind. `None` where it is no ruleset, or
/// too large.
fn hold_repairs(text: &str) -> Option<BTreeMap<Kind, usize>> {
    let ruleset = load(text).ok()?;
    let oracle = Oracle::new(&ruleset).filter(|it| it.scenarios.len() <= MOST)?;
    let options = Options {
        repairs: Repairs::Offered,
        ..Options::default()
    };
    let checked = check(&ruleset, &options);
    let before = faults(&oracle);
    let mut offered = BTreeMap::new();
    for finding in &checked.findings {
        for repair in &finding.repairs {
            *offered.entry(finding.kind).or_default() += 1;
            let amendment = repair.amendment();
            let told = || format!("{}: {}\n{amendment}\n{text}", finding.headline, repair.edit);
            let changed = amended(text, &amendment);
            let after = Oracle::new(&changed).unwrap();
            let spaces = [&oracle, &after].map(|it| scenarios(it));
            assert_eq!(spaces[0], spaces[1], "{}", told());
            let evaluator = Evaluator::new(&changed);
            let differ = oracle.scenarios.iter().filter(|(scenario, outcome)| {
                !outcome.announces_the_same(&evaluator.outcome(scenario), &ruleset)
            });
            let count = repair.scenarios_changed.as_ref().unwrap();
            assert!(count.exact);
            let counted = count.scenarios.to_string();
            assert_eq!(counted, differ.count().to_string(), "{}", told());
            let left = faults(&after);
            let about = about(&ruleset, finding);
            assert!(!left.contains(&about), "it is still there\n{}", told());
            for fault in grave(&left) {
                assert!(before.contains(fault), "{fault:?} is new\n{}", told());
            }
        }
    }
    hold_draft(text, &ruleset, &checked, &options, &before);
    Some(offered)
}

fn scenarios<'o>(oracle: &'o Oracle<'_>) -> BTreeSet<&'o Scenario> {
    oracle
        .scenarios
        .iter()
        .map(|(scenario, _)| scenario)
        .collect()
}

/// The repairs as one draft: as many findings are gone as it says, and no fault is new.
fn hold_draft(
    text: &str,
    ruleset: &Ruleset,
    checked: &Checked,
    options: &Options<'_>,
    before: &BTreeSet<(Kind, String)>,
) {
    let offered = checked.findings.iter().filter(|it| !it.repairs.is_empty());
    let offered: Vec<&Finding> = offered.collect();
    let Some(draft) = repairs(ruleset, checked, options) else {
        assert!(offered.is_empty());
        return;
    };
    assert_eq!(
        draft.mended + draft.set_aside,
        offered.len(),
        "{}",
        draft.text
    );
    assert!(!draft.open);
    let changed = amended(text, &draft.text);
    let after = faults(&Oracle::new(&changed).unwrap());
    for fault in grave(&after) {
        assert!(
            before.contains(fault),
            "{fault:?} is new\n{}\n{text}",
            draft.text
        );
    }
    let gone = offered
        .iter()
        .filter(|finding| !after.contains(&about(ruleset, finding)));
    assert!(gone.count() >= draft.mended, "{}\n{text}", draft.text);
}

fn has_loose_term(text: &str) -> bool {
    let options = Options {
        kinds: vec![Kind::LooseTerm],
        ..Options::default()
    };
    load(text).is_ok_and(|ruleset| !check(&ruleset, &options).findings.is_empty())
}

#[test]
fn repairs_of_every_kind_are_offered_and_hold() {
    let mut offered: BTreeMap<Kind, usize> = BTreeMap::new();
    for seed in 1..=400 {
        let text = random_ruleset::write_ruleset(&tape(seed));
        // Loose terms are rare.
        if seed > 100 && !has_loose_term(&text) {
            continue;
        }
        for (kind, count) in hold_repairs(&text).unwrap_or_default() {
            *offered.entry(kind).or_default() += count;
        }
    }
    for kind in [
        Kind::Contradiction,
        Kind::Gap,
        Kind::Impossible,
        Kind::Displaced,
        Kind::NoEffect,
        Kind::Presupposes,
        Kind::LooseTerm,
    ] {
        assert!(
            offered.get(&kind).is_some_and(|count| *count >= 3),
            "{kind} was mended too seldom: {offered:?}"
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, max_global_rejects: 20_000, max_shrink_iters: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn repairs_hold_to_brute_force(text in random_ruleset::yaml()) {
        prop_assume!(hold_repairs(&text).is_some());
    }
}
