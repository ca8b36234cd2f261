//! A scenario of a twin is a pair of scenarios, and rules as they do: held against all pairs of
//! random small rulesets.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod support;

use evenhand::logic::{Evaluator, Pairing, Replay, Scenario, Twin, is_valid, same_ruling};
use evenhand::model::{AttributeId, AttributeKind, DimensionId, Ruleset};
use evenhand::solve::scenarios;
use proptest::prelude::*;
use std::collections::BTreeSet;
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
                let same = same_ruling(one.rulings[id.index()], other.rulings[id.index()]);
                assert_eq!(replay.holds(&twin.differs(id)), !same);
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
