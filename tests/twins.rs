//! A scenario of a twin is a pair of scenarios, and rules as they do; steps over diagrams lead from
//! one half of a pair to the other. Both are held against all pairs of random small rulesets.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod support;

use evenhand::logic::{
    Diagrams, Evaluator, Formula, Layers, Name, Pairing, Replay, Scenario, Theory, Twin, Unasked,
    World, is_valid,
};
use evenhand::model::{AttributeId, AttributeKind, ClauseId, DimensionId, Ruleset, TermId};
use evenhand::solve::scenarios;
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::sync::Arc;
use support::random_ruleset;

/// Rulesets with more scenarios than this have too many pairs to try.
const MOST: usize = 90;

fn pairings(ruleset: &Ruleset) -> Vec<Pairing> {
    let ids: Vec<AttributeId> = (0..ruleset.attributes.len())
        .map(AttributeId::new)
        .collect();
    let judged = ids.iter().copied().filter(|id| ruleset[*id].judged);
    let countable = |id: &AttributeId| {
        matches!(
            ruleset[*id].kind,
            AttributeKind::Scale(_) | AttributeKind::Number(_)
        )
    };
    let mut sets: Vec<BTreeSet<AttributeId>> = ids.iter().map(|id| BTreeSet::from([*id])).collect();
    sets.push(judged.collect());
    sets.push(ids.iter().copied().step_by(2).collect());
    let rising = ids.iter().copied().filter(countable);
    let rising = rising.map(|id| Pairing::rising(ruleset, id));
    let changing = sets.into_iter().map(|set| Pairing::changing(ruleset, set));
    changing.chain(rising).collect()
}

/// Everything that formulas say of a dimension, its clauses standing on it, and the terms.
fn names(ruleset: &Ruleset, on: DimensionId) -> Vec<Name> {
    let world = World::Actual;
    let values = 0..u8::try_from(ruleset[on].values.len()).unwrap();
    let clauses = (0..ruleset.clauses.len()).map(ClauseId::new);
    let terms = (0..ruleset.terms.len()).map(TermId::new);
    [
        Name::Spoken(world, on),
        Name::Due(world, on),
        Name::Gap(world, on),
        Name::Clash(world, on),
        Name::Settled(world, on),
    ]
    .into_iter()
    .chain(values.map(|value| Name::Allowed(world, on, value)))
    .chain(
        clauses
            .clone()
            .flat_map(|id| [Name::Met(world, id), Name::InForce(world, id)]),
    )
    .chain(
        clauses
            .filter(|id| ruleset[*id].ruling_on(on).is_some())
            .map(|id| Name::Stands(world, id, on)),
    )
    .chain(terms.flat_map(|id| {
        [
            Name::TermTrue(Unasked::Neither, id),
            Name::TermFalse(Unasked::TakenAsNo, id),
        ]
    }))
    .collect()
}

fn hold_twin_to_pairs(ruleset: &Ruleset, all: &[Scenario], pairing: &Pairing) {
    let twin = Twin::new(ruleset, pairing.clone());
    let related = twin.related();
    let evaluator = Evaluator::new(ruleset);
    let of_twin = Evaluator::new(twin.ruleset());
    let mut expected = BTreeSet::new();
    for first in all {
        for second in all {
            if !pairing.holds(first, second, ruleset.attributes.len()) {
                continue;
            }
            let pair = twin.join(first, second);
            assert!(is_valid(twin.ruleset(), &pair), "{first:?} {second:?}");
            assert_eq!(twin.split(&pair), (first.clone(), second.clone()));
            let replay = Replay::new(twin.ruleset(), &pair);
            assert!(replay.holds(&related), "{first:?} {second:?}");
            let (one, other) = (evaluator.outcome(first), evaluator.outcome(second));
            let both = of_twin.outcome(&pair);
            for id in (0..ruleset.dimensions.len()).map(DimensionId::new) {
                let copy = twin.second_dimension(id);
                assert_eq!(both.rulings[id.index()], one.rulings[id.index()]);
                assert_eq!(both.rulings[copy.index()], other.rulings[id.index()]);
                let here = Replay::new(ruleset, first);
                let there = Replay::new(ruleset, second);
                for name in names(ruleset, id) {
                    let name = Formula::from(name);
                    assert_eq!(replay.holds(&name), here.holds(&name));
                    let seconds = twin.second_formula(&name);
                    assert_eq!(replay.holds(&seconds), there.holds(&name));
                }
            }
            // Differences begin where something that may differ is read.
            if !one.announces_the_same(&other, ruleset) {
                let met = |id: &evenhand::model::ClauseId| {
                    one.met.contains(id.index()) != other.met.contains(id.index())
                };
                assert!(twin.readers().iter().any(met) || !twin.due_readers().is_empty());
            }
            expected.insert(pair);
        }
    }
    let Some(of_twin) = scenarios(twin.ruleset()) else {
        return;
    };
    let found = of_twin.filter(|pair| Replay::new(twin.ruleset(), pair).holds(&related));
    let found: BTreeSet<Scenario> = found.collect();
    assert!(found == expected, "{pairing:?}");
}

/// Steps over diagrams count just the scenarios that have another half.
fn hold_steps_to_pairs(ruleset: &Ruleset, all: &[Scenario], pairing: &Pairing) {
    let layers = Layers::new(ruleset);
    let never = Arc::new(|| false);
    let diagrams = Diagrams::new(Theory::new(ruleset), layers, 1_000_000, never);
    let Ok(mut diagrams) = diagrams else {
        panic!("so small a space fits");
    };
    for on in (0..ruleset.dimensions.len()).map(DimensionId::new) {
        for name in names(ruleset, on) {
            let holds = Formula::from(name);
            let truth: Vec<bool> = all
                .iter()
                .map(|scenario| Replay::new(ruleset, scenario).holds(&holds))
                .collect();
            let pairs = |first: usize, second: usize| {
                pairing.holds(&all[first], &all[second], ruleset.attributes.len())
            };
            let count = |one: &dyn Fn(usize) -> bool| (0..all.len()).filter(|it| one(*it)).count();
            let expected = [
                count(&|it| !truth[it] && (0..all.len()).any(|to| truth[to] && pairs(it, to))),
                count(&|it| !truth[it] && (0..all.len()).any(|by| truth[by] && pairs(by, it))),
            ];
            let set = diagrams.set(&holds).unwrap();
            let not = diagrams.set(&holds.negated()).unwrap();
            let firsts = diagrams.firsts(&set, pairing).unwrap();
            let seconds = diagrams.seconds(&set, pairing).unwrap();
            let found = [firsts, seconds].map(|others| {
                let others = diagrams.and(&others, &not).unwrap();
                diagrams.count(&others).unwrap().to_string()
            });
            assert_eq!(found, expected.map(|count| count.to_string()), "{name:?}");
        }
    }
}

/// Whether anything was tried.
fn try_all(text: &str) -> bool {
    let Ok(loaded) = evenhand::load::load("random.yaml", text) else {
        return false;
    };
    let ruleset = loaded.ruleset;
    let all: Option<Vec<Scenario>> = scenarios(&ruleset).map(|all| all.take(MOST + 1).collect());
    let Some(all) = all.filter(|all| all.len() <= MOST) else {
        return false;
    };
    for pairing in pairings(&ruleset) {
        hold_twin_to_pairs(&ruleset, &all, &pairing);
        hold_steps_to_pairs(&ruleset, &all, &pairing);
    }
    true
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, max_global_rejects: 20_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn twins_rule_as_pairs_do(text in random_ruleset::yaml()) {
        if !try_all(&text) {
            return Err(TestCaseError::reject("not a small ruleset"));
        }
    }
}
