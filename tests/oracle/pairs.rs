//! What brute force knows of pairs of scenarios: judgement and principles.
//!
//! A pair is taken as the language says it: the two agree on all that both ask, but for what may
//! differ. No twin, no step over diagrams and no order of asking is used.

use super::{Oracle, Shows, announced_differ, hold_to, of_kind, share};
use evenhand::analysis::{Checked, Finding, Outcome as Verdict};
use evenhand::logic::{Basis, Evaluator, Outcome, Ruling, Scenario, Truth, Unasked};
use evenhand::model::{
    AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Gain, Kind, Origin, Promise,
    Ruleset, ValueSet,
};
use evenhand::read::draft::WhenSeveral;
use std::collections::{BTreeMap, BTreeSet};

/// The most pairs that are looked at for one ruleset.
const MOST_PAIRS: usize = 3_000_000;

/// All pairs of places in the oracle's list whose scenarios agree where both ask, but for `free`.
/// `None` where there are too many to try.
fn pairs(oracle: &Oracle<'_>, free: &BTreeSet<AttributeId>) -> Option<Vec<(usize, usize)>> {
    let ruleset = oracle.ruleset;
    let ids: Vec<AttributeId> = (0..ruleset.attributes.len())
        .map(AttributeId::new)
        .collect();
    let always = |id: &&AttributeId| {
        ruleset[**id].asked_when.is_none() && ruleset[**id].origin == Origin::Stated
    };
    let shared: Vec<AttributeId> = ids
        .iter()
        .filter(always)
        .filter(|id| !free.contains(id))
        .copied()
        .collect();
    let mut groups: BTreeMap<Vec<_>, Vec<usize>> = BTreeMap::new();
    for (place, (scenario, _)) in oracle.scenarios.iter().enumerate() {
        let key = shared.iter().map(|id| scenario.get(*id)).collect();
        groups.entry(key).or_default().push(place);
    }
    let work: usize = groups.values().map(|group| group.len() * group.len()).sum();
    if work > MOST_PAIRS {
        return None;
    }
    let mut found = Vec::new();
    for group in groups.values() {
        for one in group {
            for other in group {
                let (first, second) = (&oracle.scenarios[*one].0, &oracle.scenarios[*other].0);
                let agree = ids.iter().all(|id| {
                    free.contains(id)
                        || match (first.get(*id), second.get(*id)) {
                            (Some(one), Some(other)) => one == other,
                            _ => true,
                        }
                });
                if agree {
                    found.push((*one, *other));
                }
            }
        }
    }
    Some(found)
}

/// The value of a ruling that is exactly one.
fn one_value(ruleset: &Ruleset, on: DimensionId, outcome: &Outcome) -> Option<usize> {
    let ruling = outcome.rulings[on.index()];
    let given = matches!(ruling.basis, Basis::Clauses | Basis::Default);
    let one = given && ruling.values.len() == 1;
    (one && ruleset[on].when_several != WhenSeveral::AllApply)
        .then(|| ruling.values.lowest())
        .flatten()
}

/// How far apart two outcomes lie: the largest part of a scale, in 60ths, which all small scales divide.
fn distance(ruleset: &Ruleset, one: &Outcome, other: &Outcome) -> usize {
    let on = (0..ruleset.dimensions.len()).map(DimensionId::new);
    on.filter(|on| !ruleset[*on].intermediate && ruleset[*on].ordered)
        .filter_map(|on| {
            let steps = one_value(ruleset, on, one)?.abs_diff(one_value(ruleset, on, other)?);
            Some(steps * 60 / (ruleset[on].values.len() - 1))
        })
        .max()
        .unwrap_or(0)
}

/// Holds what the checker says of judgement, and its verdict, to all pairs.
pub(crate) fn hold_judgement(checked: &Checked, oracle: &Oracle<'_>) {
    let ruleset = oracle.ruleset;
    let ids = (0..ruleset.attributes.len()).map(AttributeId::new);
    let judged: Vec<AttributeId> = ids
        .filter(|id| ruleset[*id].judged || ruleset[*id].origin != Origin::Stated)
        .collect();
    if judged.len() > 5 {
        return;
    }
    // For each set of judged values, the pairs that differ in nothing else and are ruled differently.
    let mut against: BTreeMap<BTreeSet<AttributeId>, Vec<(usize, usize)>> = BTreeMap::new();
    for bits in 1u32..1 << judged.len() {
        let members = judged.iter().enumerate();
        let set: BTreeSet<AttributeId> = members
            .filter(|(place, _)| bits >> place & 1 == 1)
            .map(|(_, id)| *id)
            .collect();
        let Some(mut pairs) = pairs(oracle, &set) else {
            return;
        };
        pairs.retain(|(one, other)| {
            announced_differ(
                ruleset,
                &oracle.scenarios[*one].1,
                &oracle.scenarios[*other].1,
            )
        });
        if !pairs.is_empty() {
            against.insert(set, pairs);
        }
    }
    let smallest: Vec<&BTreeSet<AttributeId>> = against
        .keys()
        .filter(|set| {
            let mut others = against.keys();
            !others.any(|other| other.len() < set.len() && other.is_subset(set))
        })
        .collect();
    let mut told: Vec<BTreeSet<AttributeId>> = Vec::new();
    for finding in of_kind(checked, Kind::TurnsOnJudgement) {
        let set = values_of(ruleset, &judged, finding);
        assert!(smallest.contains(&&set), "{}", finding.headline);
        hold_one(oracle, finding, &against[&set]);
        told.push(set);
    }
    for id in &judged {
        let size = |sets: &mut dyn Iterator<Item = &BTreeSet<AttributeId>>| {
            sets.filter(|set| set.contains(id)).map(BTreeSet::len).min()
        };
        let needed = size(&mut smallest.iter().copied());
        assert_eq!(size(&mut told.iter()), needed, "{}", ruleset[*id].name);
    }
    let verdict = checked
        .verdicts
        .iter()
        .find(|verdict| verdict.kind == Kind::TurnsOnJudgement)
        .unwrap();
    assert_eq!(verdict.outcome == Verdict::Found, !smallest.is_empty());
}

/// The judged values that a finding names.
fn values_of(
    ruleset: &Ruleset,
    judged: &[AttributeId],
    finding: &Finding,
) -> BTreeSet<AttributeId> {
    let head = finding.headline.split(':').next().unwrap();
    let named = |id: &&AttributeId| head.contains(&format!("`{}`", ruleset[**id].name));
    judged.iter().filter(named).copied().collect()
}

fn hold_one(oracle: &Oracle<'_>, finding: &Finding, against: &[(usize, usize)]) {
    let ruleset = oracle.ruleset;
    let outcome = |place: usize| &oracle.scenarios[place].1;
    let firsts: BTreeSet<&Scenario> = against
        .iter()
        .map(|(first, _)| &oracle.scenarios[*first].0)
        .collect();
    hold_to(
        ruleset,
        oracle,
        finding,
        Shows::OneOfThem,
        &|scenario, _| firsts.contains(scenario),
    );
    let (first, second) = (finding.scenario.as_ref(), finding.pair.as_ref());
    let shown = against.iter().find(|(one, other)| {
        Some(&oracle.scenarios[*one].0) == first && Some(&oracle.scenarios[*other].0) == second
    });
    let (one, other) = shown.unwrap_or_else(|| panic!("{}: no such pair", finding.headline));
    let apart = |one: usize, other: usize| distance(ruleset, outcome(one), outcome(other));
    let farthest = against.iter().map(|(one, other)| apart(*one, *other)).max();
    assert_eq!(Some(apart(*one, *other)), farthest, "{}", finding.headline);
    let met_in_one = |clause: ClauseId| {
        against.iter().any(|(one, other)| {
            let met = |place: usize| outcome(place).met.contains(clause.index());
            met(*one) != met(*other)
        })
    };
    for clause in oracle.clauses() {
        let named = finding.clauses.contains(&clause);
        let mut dimensions = BTreeSet::new();
        super::rulings_read(&ruleset[clause].when, &mut dimensions);
        if named || dimensions.is_empty() {
            assert_eq!(named, met_in_one(clause), "{}", finding.headline);
        }
    }
}

/// Holds the verdict on each principle, and what is said of a broken one, to all scenarios and pairs.
pub(crate) fn hold_principles(checked: &Checked, oracle: &Oracle<'_>) {
    let ruleset = oracle.ruleset;
    for principle in &ruleset.principles {
        let Some(expected) = against(oracle, &principle.promise) else {
            continue;
        };
        let verdict = checked
            .verdicts
            .iter()
            .find(|verdict| verdict.principle.as_ref() == Some(&principle.id))
            .unwrap();
        let wanted = if expected.is_empty() {
            Verdict::Proved
        } else {
            Verdict::Found
        };
        assert_eq!(verdict.outcome, wanted, "{}", principle.id);
        let mut findings = of_kind(checked, Kind::BrokenPrinciple);
        let finding = findings.find(|it| it.principle.as_ref() == Some(&principle.id));
        assert_eq!(finding.is_some(), !expected.is_empty(), "{}", principle.id);
        let Some(finding) = finding else { continue };
        let firsts: BTreeSet<&Scenario> = expected
            .iter()
            .map(|(first, _)| &oracle.scenarios[*first].0)
            .collect();
        assert_eq!(share(finding), firsts.len(), "{}", finding.headline);
        let shows = match &principle.promise {
            Promise::ImpartialTo(_) | Promise::RisesWith { .. } => Shows::OneOfThem,
            _ => Shows::MostOrdinary,
        };
        hold_to(ruleset, oracle, finding, shows, &|scenario, _| {
            firsts.contains(scenario)
        });
        if let Some(second) = &finding.pair {
            let shown = expected.iter().any(|(one, other)| {
                Some(&oracle.scenarios[*one].0) == finding.scenario.as_ref()
                    && &oracle.scenarios[*other].0 == second
            });
            assert!(shown, "{}: no such pair", finding.headline);
        }
    }
}

/// All that is against a promise: pairs by place, a scenario with itself where one is enough. `None`
/// where there are too many pairs to try.
fn against(oracle: &Oracle<'_>, promise: &Promise) -> Option<Vec<(usize, usize)>> {
    let Promise::Expect { whenever, expect } = promise else {
        return pairs_against(oracle, promise);
    };
    let scenarios = oracle.scenarios.iter().enumerate();
    let broken = scenarios
        .filter(|(_, (scenario, outcome))| {
            breaks(oracle.ruleset, whenever, expect, scenario, outcome)
        })
        .map(|(place, _)| (place, place));
    Some(broken.collect())
}

/// The ids of the principles that are broken, as far as all pairs could be tried.
pub(crate) fn broken(oracle: &Oracle<'_>) -> Vec<String> {
    let principles = oracle.ruleset.principles.iter();
    principles
        .filter(|it| against(oracle, &it.promise).is_some_and(|found| !found.is_empty()))
        .map(|it| it.id.clone())
        .collect()
}

/// Whether some way of using discretion makes `expect` not true.
fn breaks(
    ruleset: &Ruleset,
    whenever: &Condition,
    expect: &Condition,
    scenario: &Scenario,
    outcome: &Outcome,
) -> bool {
    let evaluator = Evaluator::new(ruleset);
    if evaluator.truth(whenever, Unasked::Neither, scenario, outcome) != Truth::True {
        return false;
    }
    let mut ways = vec![outcome.clone()];
    for (on, dimension) in ruleset.dimensions.iter().enumerate() {
        if dimension.when_several == WhenSeveral::AllApply {
            continue;
        }
        ways = ways
            .iter()
            .flat_map(|way| {
                let values: Vec<usize> = way.rulings[on].values.iter().collect();
                let chosen = values.into_iter().map(|value| {
                    let mut way = way.clone();
                    way.rulings[on] = Ruling {
                        basis: Basis::Clauses,
                        values: ValueSet::one(value),
                    };
                    way
                });
                let mut chosen: Vec<Outcome> = chosen.collect();
                if chosen.is_empty() {
                    chosen.push(way.clone());
                }
                chosen
            })
            .collect();
    }
    let truth = |way: &Outcome| evaluator.truth(expect, Unasked::Neither, scenario, way);
    ways.iter().any(|way| truth(way) != Truth::True)
}

fn pairs_against(oracle: &Oracle<'_>, promise: &Promise) -> Option<Vec<(usize, usize)>> {
    let ruleset = oracle.ruleset;
    let evaluator = Evaluator::new(ruleset);
    let free: BTreeSet<AttributeId> = match promise {
        Promise::ImpartialTo(attributes) => attributes.iter().copied().collect(),
        Promise::RisesWith { attribute, .. } => BTreeSet::from([*attribute]),
        Promise::NoGain { party, by, .. } => {
            let mut read = BTreeSet::new();
            if let Some(by) = by {
                facts_read(ruleset, by, &mut read);
            }
            let ids = (0..ruleset.attributes.len()).map(AttributeId::new);
            ids.filter(|id| ruleset[*id].set_by.as_ref() == Some(party))
                .filter(|id| by.is_none() || read.contains(id))
                .collect()
        }
        Promise::Expect { .. } => BTreeSet::new(),
    };
    let value = |on: DimensionId, place: usize| one_value(ruleset, on, &oracle.scenarios[place].1);
    let lower = |on: DimensionId, one: usize, other: usize| {
        let both = value(on, one).zip(value(on, other));
        both.is_some_and(|(one, other)| other < one)
    };
    let holds = |condition: &Condition, place: usize| {
        let (scenario, outcome) = &oracle.scenarios[place];
        evaluator.truth(condition, Unasked::Neither, scenario, outcome) == Truth::True
    };
    let mut found = pairs(oracle, &free)?;
    found.retain(|(one, other)| {
        let (first, second) = (&oracle.scenarios[*one], &oracle.scenarios[*other]);
        match promise {
            Promise::ImpartialTo(_) => announced_differ(ruleset, &first.1, &second.1),
            Promise::RisesWith {
                attribute,
                dimension,
            } => {
                let both = first.0.get(*attribute).zip(second.0.get(*attribute));
                both.is_some_and(|(one, other)| one < other) && lower(*dimension, *one, *other)
            }
            Promise::NoGain { by, gain, .. } => {
                let step = by.as_ref();
                step.is_none_or(|by| !holds(by, *one) && holds(by, *other))
                    && match gain {
                        Gain::Raising(on) => lower(*on, *other, *one),
                        Gain::Lowering(on) => lower(*on, *one, *other),
                        Gain::To(what) => !holds(what, *one) && holds(what, *other),
                    }
            }
            Promise::Expect { .. } => false,
        }
    });
    Some(found)
}

/// The attributes that a condition reads by its own words or a term's.
fn facts_read(ruleset: &Ruleset, condition: &Condition, found: &mut BTreeSet<AttributeId>) {
    condition.each_part(&mut |part| match &part.kind {
        ConditionKind::Fact { test, .. } => found.extend(test.attributes()),
        ConditionKind::Term(term) => match &ruleset[*term].meaning {
            evenhand::model::Meaning::Sharp(meaning) => facts_read(ruleset, meaning, found),
            evenhand::model::Meaning::Vague { narrow, broad, .. } => {
                facts_read(ruleset, narrow, found);
                facts_read(ruleset, broad, found);
            }
        },
        _ => {}
    });
}
