//! Every kind of finding against brute force, on random small rulesets.
//!
//! The oracle walks through all scenarios of a ruleset and asks the plain evaluator about each, with
//! and without every clause. It shares no question, no formula, no diagram and no solver with the
//! checker; counts and general conditions are held to it as well.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod edits;
mod pairs;
mod repairs;
#[path = "../support/mod.rs"]
mod support;

use evenhand::analysis::{Checked, Cover, Finding, Method, Options, Outcome as Verdict, check};
use evenhand::logic::{Basis, Evaluator, Outcome, Scenario, Truth, Unasked, written};
use evenhand::model::{
    AttributeKind, ClauseId, Condition, ConditionKind, DimensionId, Kind, Meaning, Ruleset,
    ValueSet,
};
use evenhand::read::draft::WhenSeveral;
use evenhand::solve::scenarios;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use support::{lines, random_ruleset};

fn load(text: &str) -> Result<Ruleset, evenhand::load::Refused> {
    evenhand::load::load("random.yaml", text).map(|loaded| loaded.ruleset)
}

/// What brute force knows about a ruleset.
struct Oracle<'r> {
    ruleset: &'r Ruleset,
    scenarios: Vec<(Scenario, Outcome)>,
}

impl<'r> Oracle<'r> {
    fn new(ruleset: &'r Ruleset) -> Option<Self> {
        let evaluator = Evaluator::new(ruleset);
        let all: Vec<Scenario> = scenarios(ruleset)?.take(20_001).collect();
        if all.len() > 20_000 {
            return None;
        }
        let judged = all.into_iter().map(|scenario| {
            let outcome = evaluator.outcome(&scenario);
            (scenario, outcome)
        });
        Some(Oracle {
            ruleset,
            scenarios: judged.collect(),
        })
    }

    fn clauses(&self) -> impl Iterator<Item = ClauseId> + use<> {
        (0..self.ruleset.clauses.len()).map(ClauseId::new)
    }

    fn dimensions(&self) -> impl Iterator<Item = DimensionId> + use<> {
        (0..self.ruleset.dimensions.len()).map(DimensionId::new)
    }

    fn at_fault(outcome: &Outcome, dimensions: &BTreeSet<DimensionId>) -> bool {
        let basis = |dimension: &DimensionId| outcome.rulings[dimension.index()].basis;
        dimensions
            .iter()
            .any(|dimension| matches!(basis(dimension), Basis::Gap | Basis::Contradiction))
    }

    /// The dimensions whose rulings the conditions of these clauses read.
    fn read(&self, clauses: &[ClauseId]) -> BTreeSet<DimensionId> {
        let mut dimensions = BTreeSet::new();
        for id in clauses {
            rulings_read(&self.ruleset[*id].when, &mut dimensions);
        }
        dimensions
    }

    /// Whether a clause is silent on the dimension because of a fault that its condition reads.
    fn silenced(&self, dimension: DimensionId, scenario: &Scenario, outcome: &Outcome) -> bool {
        let evaluator = Evaluator::new(self.ruleset);
        self.clauses().any(|id| {
            let clause = &self.ruleset[id];
            clause.ruling_on(dimension).is_some()
                && Self::at_fault(outcome, &self.read(&[id]))
                && evaluator.truth(&clause.when, Unasked::Neither, scenario, outcome)
                    == Truth::Neither
        })
    }

    /// For each smallest set of clauses that contradict each other somewhere, in how many scenarios.
    fn contradictions(&self) -> BTreeMap<(usize, Vec<usize>), usize> {
        let mut found = BTreeMap::new();
        for dimension in self.dimensions() {
            if self.ruleset[dimension].when_several != WhenSeveral::MustAgree {
                continue;
            }
            for (_, outcome) in &self.scenarios {
                let standing = &outcome.standing[dimension.index()];
                for family in smallest_families(self.ruleset, dimension, standing) {
                    if !Self::at_fault(outcome, &self.read(&family)) {
                        let key = (
                            dimension.index(),
                            family.iter().map(|id| id.index()).collect(),
                        );
                        *found.entry(key).or_insert(0) += 1;
                    }
                }
            }
        }
        found
    }

    fn gaps(&self) -> BTreeMap<usize, usize> {
        let mut found = BTreeMap::new();
        for dimension in self.dimensions() {
            let count = self.scenarios.iter().filter(|(scenario, outcome)| {
                outcome.rulings[dimension.index()].basis == Basis::Gap
                    && !self.silenced(dimension, scenario, outcome)
            });
            let count = count.count();
            if count > 0 {
                found.insert(dimension.index(), count);
            }
        }
        found
    }

    fn counts(&self, clause: ClauseId, outcome: &Outcome) -> bool {
        let rulings = &self.ruleset[clause].rulings;
        outcome.in_force.contains(clause.index())
            && (rulings.is_empty()
                || rulings
                    .iter()
                    .any(|(dimension, _)| outcome.stands(clause, *dimension)))
    }

    /// Clauses that are never met; that never count; that change nothing. Then the same of those of
    /// which nothing is said, since they may be unmet only because of a fault that they read.
    fn idle_clauses(&self) -> [[BTreeSet<usize>; 3]; 2] {
        let mut idle: [[BTreeSet<usize>; 3]; 2] = Default::default();
        let evaluator = Evaluator::new(self.ruleset);
        for id in self.clauses() {
            // Where a ruling that it reads is at fault, a clause may be unmet only because of that.
            let read = self.read(&[id]);
            let when = &self.ruleset[id].when;
            let unmet_by_a_fault = self.scenarios.iter().any(|(scenario, outcome)| {
                Self::at_fault(outcome, &read)
                    && evaluator.truth(when, Unasked::Neither, scenario, outcome) == Truth::Neither
            });
            let sorted = &mut idle[usize::from(unmet_by_a_fault)];
            let without = Evaluator::without(self.ruleset, id);
            let met = self
                .scenarios
                .iter()
                .any(|(_, outcome)| outcome.met.contains(id.index()));
            let counts = self
                .scenarios
                .iter()
                .any(|(_, outcome)| self.counts(id, outcome));
            let matters = self.scenarios.iter().any(|(scenario, outcome)| {
                let other = without.outcome(scenario);
                announced_differ(self.ruleset, outcome, &other)
            });
            match (met, counts, matters) {
                (false, ..) => sorted[0].insert(id.index()),
                (_, false, _) => sorted[1].insert(id.index()),
                (_, true, false) => sorted[2].insert(id.index()),
                (_, true, true) => false,
            };
        }
        idle
    }

    fn presupposing(&self) -> BTreeMap<usize, usize> {
        let evaluator = Evaluator::new(self.ruleset);
        let counted = self.clauses().map(|id| {
            let count = self.scenarios.iter().filter(|(scenario, outcome)| {
                !outcome.met.contains(id.index())
                    && evaluator.truth(
                        &self.ruleset[id].when,
                        Unasked::TakenAsNo,
                        scenario,
                        outcome,
                    ) == Truth::True
            });
            (id.index(), count.count())
        });
        counted.filter(|(_, count)| *count > 0).collect()
    }

    fn loose_terms(&self) -> BTreeMap<String, usize> {
        let evaluator = Evaluator::new(self.ruleset);
        let counted = self
            .ruleset
            .terms
            .iter()
            .filter_map(|term| match &term.meaning {
                Meaning::Sharp(_) => None,
                Meaning::Vague { narrow, broad, .. } => {
                    let count = self.scenarios.iter().filter(|(scenario, _)| {
                        evaluator.plain_truth(narrow, scenario) == Truth::True
                            && evaluator.plain_truth(broad, scenario) != Truth::True
                    });
                    Some((term.name.clone(), count.count()))
                }
            });
        counted.filter(|(_, count)| *count > 0).collect()
    }

    fn discretion(&self) -> BTreeMap<usize, usize> {
        let mut found = BTreeMap::new();
        for dimension in self.dimensions() {
            if self.ruleset[dimension].when_several == WhenSeveral::AllApply {
                continue;
            }
            let open = |outcome: &Outcome| outcome.rulings[dimension.index()].values.len() > 1;
            let count = self
                .scenarios
                .iter()
                .filter(|(_, outcome)| open(outcome))
                .count();
            if count > 0 {
                found.insert(dimension.index(), count);
            }
        }
        found
    }
}

fn rulings_read(condition: &Condition, dimensions: &mut BTreeSet<DimensionId>) {
    match &condition.kind {
        ConditionKind::Ruling { dimension, .. } => {
            dimensions.insert(*dimension);
        }
        ConditionKind::Not(inner) | ConditionKind::NotTrue(inner) => {
            rulings_read(inner, dimensions);
        }
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => {
            for part in parts {
                rulings_read(part, dimensions);
            }
        }
        _ => {}
    }
}

/// The smallest subsets of the standing clauses whose rulings have nothing in common.
fn smallest_families(
    ruleset: &Ruleset,
    dimension: DimensionId,
    standing: &[ClauseId],
) -> Vec<Vec<ClauseId>> {
    let common = |set: &[ClauseId]| {
        set.iter()
            .map(|id| ruleset[*id].ruling_on(dimension).unwrap())
            .fold(ValueSet::first(128), ValueSet::intersect)
    };
    let mut found: Vec<Vec<ClauseId>> = Vec::new();
    let mut by_size: Vec<u32> = (1u32..1 << standing.len()).collect();
    by_size.sort_by_key(|bits| bits.count_ones());
    for bits in by_size {
        let chosen = standing
            .iter()
            .enumerate()
            .filter(|(index, _)| bits >> index & 1 == 1);
        let set: Vec<ClauseId> = chosen.map(|(_, id)| *id).collect();
        let has_smaller = found
            .iter()
            .any(|known| known.iter().all(|id| set.contains(id)));
        if !has_smaller && common(&set).is_empty() {
            found.push(set);
        }
    }
    found
}

fn of_kind(checked: &Checked, kind: Kind) -> impl Iterator<Item = &Finding> {
    checked
        .findings
        .iter()
        .filter(move |finding| finding.kind == kind)
}

fn share(finding: &Finding) -> usize {
    let share = finding.share.as_ref().expect("small spaces can be counted");
    assert!(share.exact);
    share.scenarios.to_string().parse().unwrap()
}

/// How far from the ordinary a scenario is: attributes that are not at their first value, items present.
fn strangeness(ruleset: &Ruleset, scenario: &Scenario) -> u32 {
    let facts = scenario.facts().map(|(id, code)| match ruleset[id].kind {
        AttributeKind::Several(_) => code.0.count_ones(),
        _ => u32::from(code.0 != 0),
    });
    facts.sum()
}

/// What the scenario that a finding shows is, among those that it concerns.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Shows {
    MostOrdinary,
    OneOfThem,
}

/// Holds a finding's scenario, count and lines to the scenarios that brute force found.
fn hold_to(
    ruleset: &Ruleset,
    oracle: &Oracle<'_>,
    finding: &Finding,
    shows: Shows,
    is_one: &dyn Fn(&Scenario, &Outcome) -> bool,
) {
    let of: Vec<&Scenario> = oracle
        .scenarios
        .iter()
        .filter(|(scenario, outcome)| is_one(scenario, outcome))
        .map(|(one, _)| one)
        .collect();
    assert_eq!(share(finding), of.len(), "{}", finding.headline);
    let shown = finding.scenario.as_ref().expect("a scenario is shown");
    assert!(
        of.contains(&shown),
        "{} shows another scenario",
        finding.headline
    );
    // Numbers are only as ordinary as their cell, so the least strange one is compared without them.
    let without_numbers = |scenario: &Scenario| {
        let mut plain = scenario.clone();
        for (id, _) in scenario.facts() {
            if matches!(ruleset[id].kind, AttributeKind::Number(_)) {
                plain.set(id, None);
            }
        }
        strangeness(ruleset, &plain)
    };
    let has_numbers = ruleset
        .attributes
        .iter()
        .any(|attribute| matches!(attribute.kind, AttributeKind::Number(_)));
    if !has_numbers && shows == Shows::MostOrdinary {
        let least = of
            .iter()
            .map(|scenario| strangeness(ruleset, scenario))
            .min()
            .unwrap();
        assert_eq!(
            without_numbers(shown),
            least,
            "{} could show a more ordinary scenario",
            finding.headline
        );
    }
    if finding.general.cover == Cover::None {
        return;
    }
    let lines: Vec<_> = finding
        .general
        .lines
        .iter()
        .map(|line| lines::line(ruleset, line))
        .collect();
    for (scenario, outcome) in &oracle.scenarios {
        let by = lines.iter().position(|line| line.holds(ruleset, scenario));
        let wanted = is_one(scenario, outcome);
        let fits = by.is_none() || wanted;
        let complete = finding.general.cover != Cover::Exact || !wanted || by.is_some();
        assert!(
            fits && complete,
            "{}: {:?} wrongly covers, or no line covers, {:?}",
            finding.headline,
            by.and_then(|line| finding.general.lines.get(line)),
            told(ruleset, scenario),
        );
    }
}

fn hold_check_to_oracle(text: &str, method: Method) -> Result<(), TestCaseError> {
    let Ok(ruleset) = load(text) else {
        return Err(TestCaseError::reject("not a ruleset"));
    };
    let ruleset = &ruleset;
    let Some(oracle) = Oracle::new(ruleset) else {
        return Err(TestCaseError::reject("too large"));
    };
    let options = Options {
        method,
        ..Options::default()
    };
    let checked = check(ruleset, &options);
    let decided = |verdict: &Verdict| !matches!(verdict, Verdict::Undecided(_));
    assert!(
        checked
            .verdicts
            .iter()
            .all(|verdict| decided(&verdict.outcome)),
        "{:?}",
        checked.verdicts
    );
    let space = checked.space.as_ref().unwrap();
    assert_eq!(
        space.scenarios.to_string(),
        oracle.scenarios.len().to_string()
    );

    let found: BTreeMap<(usize, Vec<usize>), usize> = of_kind(&checked, Kind::Contradiction)
        .map(|finding| {
            let clauses = finding.clauses.iter().map(|id| id.index()).collect();
            (
                (finding.dimension.unwrap().index(), clauses),
                share(finding),
            )
        })
        .collect();
    assert_eq!(found, oracle.contradictions());
    for finding in of_kind(&checked, Kind::Contradiction) {
        let dimension = finding.dimension.unwrap();
        let read = oracle.read(&finding.clauses);
        hold_to(
            ruleset,
            &oracle,
            finding,
            Shows::MostOrdinary,
            &|_, outcome| {
                finding
                    .clauses
                    .iter()
                    .all(|id| outcome.stands(*id, dimension))
                    && !Oracle::at_fault(outcome, &read)
            },
        );
    }

    let found: BTreeMap<usize, usize> = of_kind(&checked, Kind::Gap)
        .map(|finding| (finding.dimension.unwrap().index(), share(finding)))
        .collect();
    assert_eq!(found, oracle.gaps());
    for finding in of_kind(&checked, Kind::Gap) {
        let dimension = finding.dimension.unwrap();
        hold_to(
            ruleset,
            &oracle,
            finding,
            Shows::MostOrdinary,
            &|scenario, outcome| {
                outcome.rulings[dimension.index()].basis == Basis::Gap
                    && !oracle.silenced(dimension, scenario, outcome)
            },
        );
    }

    // Nothing is proved away that is there, even where it rests on a fault and is not reported.
    for verdict in &checked.verdicts {
        let basis = match verdict.kind {
            Kind::Gap => Basis::Gap,
            Kind::Contradiction => Basis::Contradiction,
            _ => continue,
        };
        let dimension = verdict.dimension.unwrap();
        let rulings = oracle.scenarios.iter().map(|(_, outcome)| &outcome.rulings);
        let there = rulings.filter(|rulings| rulings[dimension.index()].basis == basis);
        assert_eq!(
            verdict.outcome == Verdict::Proved,
            there.count() == 0,
            "{} on {}",
            verdict.kind,
            ruleset[dimension].name
        );
    }

    let first = |kind| {
        of_kind(&checked, kind)
            .map(|finding| finding.clauses[0].index())
            .collect::<BTreeSet<_>>()
    };
    let [told, untold] = oracle.idle_clauses();
    let kinds = [Kind::Impossible, Kind::Displaced, Kind::NoEffect];
    for (kind, (told, untold)) in kinds.into_iter().zip(told.iter().zip(&untold)) {
        assert_eq!(first(kind), *told, "{kind}");
        let verdict = checked
            .verdicts
            .iter()
            .find(|one| one.kind == kind)
            .unwrap();
        assert_eq!(verdict.untold, !untold.is_empty(), "{kind} is muted");
        let none = told.is_empty() && untold.is_empty();
        assert_eq!(verdict.outcome == Verdict::Proved, none, "{kind}");
    }
    for finding in of_kind(&checked, Kind::Impossible) {
        hold_reason(ruleset, finding);
    }
    for finding in of_kind(&checked, Kind::Displaced) {
        hold_displacers(ruleset, &oracle, finding);
        hold_to(
            ruleset,
            &oracle,
            finding,
            Shows::MostOrdinary,
            &|_, outcome| outcome.met.contains(finding.clauses[0].index()),
        );
    }

    let found: BTreeMap<usize, usize> = of_kind(&checked, Kind::Presupposes)
        .map(|finding| (finding.clauses[0].index(), share(finding)))
        .collect();
    assert_eq!(found, oracle.presupposing());
    let evaluator = Evaluator::new(ruleset);
    for finding in of_kind(&checked, Kind::Presupposes) {
        let clause = finding.clauses[0];
        hold_to(
            ruleset,
            &oracle,
            finding,
            Shows::MostOrdinary,
            &|scenario, outcome| {
                let as_no =
                    evaluator.truth(&ruleset[clause].when, Unasked::TakenAsNo, scenario, outcome);
                as_no == Truth::True && !outcome.met.contains(clause.index())
            },
        );
    }

    let found: BTreeMap<String, usize> = of_kind(&checked, Kind::LooseTerm)
        .map(|finding| (finding.term.clone().unwrap(), share(finding)))
        .collect();
    assert_eq!(found, oracle.loose_terms());

    let found: BTreeMap<usize, usize> = of_kind(&checked, Kind::LeftToDiscretion)
        .map(|finding| (finding.dimension.unwrap().index(), share(finding)))
        .collect();
    assert_eq!(found, oracle.discretion());
    for finding in of_kind(&checked, Kind::LeftToDiscretion) {
        let dimension = finding.dimension.unwrap();
        hold_to(
            ruleset,
            &oracle,
            finding,
            Shows::MostOrdinary,
            &|_, outcome| outcome.rulings[dimension.index()].values.len() > 1,
        );
    }
    for finding in of_kind(&checked, Kind::Contradiction) {
        let dimension = finding.dimension.unwrap();
        let read = oracle.read(&finding.clauses);
        hold_readings(&oracle, finding, &|_, outcome| {
            finding
                .clauses
                .iter()
                .all(|id| outcome.stands(*id, dimension))
                && !Oracle::at_fault(outcome, &read)
        });
    }
    for finding in of_kind(&checked, Kind::Gap) {
        let dimension = finding.dimension.unwrap();
        hold_readings(&oracle, finding, &|scenario, outcome| {
            outcome.rulings[dimension.index()].basis == Basis::Gap
                && !oracle.silenced(dimension, scenario, outcome)
        });
    }
    pairs::hold_judgement(&checked, &oracle);
    pairs::hold_principles(&checked, &oracle);

    Ok(())
}

/// Holds what is said of words that change nothing to an oracle that takes each away.
fn hold_words_to_oracle(text: &str) -> Result<(), TestCaseError> {
    let Ok(ruleset) = load(text) else {
        return Err(TestCaseError::reject("not a ruleset"));
    };
    let Some(oracle) = Oracle::new(&ruleset).filter(|it| it.scenarios.len() <= 600) else {
        return Err(TestCaseError::reject("too large"));
    };
    let kinds = vec![Kind::SurplusWords, Kind::IdleException, Kind::StepEdge];
    let checked = check(
        &ruleset,
        &Options {
            kinds,
            ..Options::default()
        },
    );
    let idle: BTreeSet<usize> = oracle
        .idle_clauses()
        .into_iter()
        .flatten()
        .flatten()
        .collect();
    edits::hold_surplus(&oracle, &checked, &idle);
    edits::hold_exceptions(&oracle, &checked, &idle);
    let finer = text.replace("    unit: s\n", "    unit: s\n    step: 0.5\n");
    edits::hold_edges(&ruleset, &load(&finer).unwrap(), &checked);
    Ok(())
}

/// A finding says that it is there only under one reading of a term where all its scenarios have that
/// reading, and nowhere else.
fn hold_readings(
    oracle: &Oracle<'_>,
    finding: &Finding,
    is_one: &dyn Fn(&Scenario, &Outcome) -> bool,
) {
    for term in &oracle.ruleset.terms {
        let Meaning::Vague { reading, .. } = &term.meaning else {
            continue;
        };
        for (code, which) in [(0, "narrow"), (1, "broad")] {
            let words = format!("only under the {which} reading of `{}`", term.name);
            let of = oracle
                .scenarios
                .iter()
                .filter(|(scenario, outcome)| is_one(scenario, outcome));
            let mut readings = of.map(|(scenario, _)| scenario.get(*reading));
            let always = readings.all(|reading| reading.is_some_and(|it| it.0 == code));
            assert_eq!(
                finding.headline.contains(&words),
                always,
                "{}",
                finding.headline
            );
        }
    }
}

/// A scenario's facts by name, for messages.
fn told(ruleset: &Ruleset, scenario: &Scenario) -> Vec<String> {
    let facts = scenario.facts();
    facts
        .map(|(id, code)| format!("{}: {}", ruleset[id].name, written(ruleset, id, code)))
        .collect()
}

/// The parts and background lines named as ruling each other out do so, and no fewer do.
fn hold_reason(ruleset: &Ruleset, finding: &Finding) {
    use evenhand::model::BackgroundRule;
    let bare = Ruleset {
        background: Vec::new(),
        ..ruleset.clone()
    };
    let mut parts: Vec<&Condition> = Vec::new();
    conjuncts(&ruleset[finding.clauses[0]].when, &mut parts);
    let lines = ruleset.background.iter();
    let mut spans: Vec<_> = parts.iter().map(|part| part.span).collect();
    spans.extend(lines.clone().map(|line| line.span));
    let named = |span| finding.labels.iter().any(|(label, _)| *label == span);
    let mut unique = spans.clone();
    unique.sort_unstable();
    unique.dedup();
    // Parts that a table or a count brought in may share their words; then labels do not tell which.
    if unique.len() < spans.len() || spans.len() > 12 {
        return;
    }
    let evaluator = Evaluator::new(&bare);
    let holding: BTreeSet<u32> = scenarios(&bare)
        .unwrap()
        .map(|scenario| {
            let outcome = evaluator.outcome(&scenario);
            let truth =
                |part: &Condition| evaluator.truth(part, Unasked::Neither, &scenario, &outcome);
            let parts = parts.iter().map(|part| truth(part) == Truth::True);
            let kept = lines.clone().map(|line| match &line.rule {
                BackgroundRule::Never(condition) => truth(condition) != Truth::True,
                BackgroundRule::Always(condition) => truth(condition) != Truth::False,
            });
            let holding = parts.chain(kept).enumerate();
            holding.fold(0, |bits, (index, holds)| bits | u32::from(holds) << index)
        })
        .collect();
    let together = |set: u32| holding.iter().any(|holding| holding & set == set);
    let core: u32 = spans.iter().enumerate().fold(0, |bits, (index, span)| {
        bits | u32::from(named(*span)) << index
    });
    assert!(!together(core), "{}: {:?}", finding.headline, finding.help);
    for set in 0..1u32 << spans.len() {
        if set.count_ones() < core.count_ones() {
            assert!(together(set), "{}: fewer are enough", finding.headline);
        }
    }
}

fn conjuncts<'r>(condition: &'r Condition, parts: &mut Vec<&'r Condition>) {
    match &condition.kind {
        ConditionKind::All(inner) => inner.iter().for_each(|part| conjuncts(part, parts)),
        ConditionKind::Always => {}
        _ => parts.push(condition),
    }
}

/// The clauses named as displacing are enough, and no smaller set is.
fn hold_displacers(ruleset: &Ruleset, oracle: &Oracle<'_>, finding: &Finding) {
    let clause = finding.clauses[0];
    let this = &ruleset[clause];
    let rivals: Vec<ClauseId> = {
        let above = this.yields_to.iter().filter(|other| {
            this.rulings
                .iter()
                .any(|(dimension, _)| ruleset[**other].ruling_on(*dimension).is_some())
        });
        let all: BTreeSet<ClauseId> = this.disapplied_by.iter().chain(above).copied().collect();
        all.into_iter().collect()
    };
    let enough = |set: &[ClauseId]| {
        oracle
            .scenarios
            .iter()
            .filter(|(_, outcome)| outcome.met.contains(clause.index()))
            .all(|(_, outcome)| {
                let in_force =
                    |id: &ClauseId| set.contains(id) && outcome.in_force.contains(id.index());
                this.disapplied_by.iter().any(in_force)
                    || (!this.rulings.is_empty()
                        && this.rulings.iter().all(|(dimension, _)| {
                            this.yields_to.iter().any(|id| {
                                in_force(id) && ruleset[*id].ruling_on(*dimension).is_some()
                            })
                        }))
            })
    };
    let named = &finding.clauses[1..];
    assert!(enough(named), "{}", finding.headline);
    for bits in 0u32..1 << rivals.len().min(12) {
        if (bits.count_ones() as usize) < named.len() {
            let set: Vec<ClauseId> = rivals
                .iter()
                .enumerate()
                .filter(|(index, _)| bits >> index & 1 == 1)
                .map(|(_, id)| *id)
                .collect();
            assert!(!enough(&set), "{}: fewer are enough", finding.headline);
        }
    }
}

/// A run of numbers that is the same every time (a linear congruential generator, Knuth's constants).
fn tape(seed: u64) -> Vec<u16> {
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    let mut next = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        u16::try_from(state >> 48).unwrap()
    };
    (0..400).map(|_| next()).collect()
}

/// An oracle that never meets a kind of finding proves nothing about it.
#[test]
fn every_kind_is_met_on_the_way() {
    let mut met: BTreeMap<Kind, usize> = BTreeMap::new();
    let mut partial = 0;
    let mut exact = 0;
    let mut muted: BTreeMap<Kind, usize> = BTreeMap::new();
    for seed in 1..=400 {
        let Ok(ruleset) = load(&random_ruleset::write_ruleset(&tape(seed))) else {
            continue;
        };
        if Oracle::new(&ruleset).is_none() {
            continue;
        }
        let checked = check(&ruleset, &Options::default());
        for verdict in checked.verdicts.iter().filter(|verdict| verdict.untold) {
            *muted.entry(verdict.kind).or_default() += 1;
        }
        for finding in checked.findings {
            *met.entry(finding.kind).or_default() += 1;
            match finding.general.cover {
                Cover::Exact => exact += 1,
                Cover::Partial => partial += 1,
                Cover::None => {}
            }
        }
    }
    // Whether a text is worded well, no scenario decides.
    let by_scenarios = |kind: &&Kind| **kind != Kind::Wording;
    for kind in evenhand::analysis::KINDS.iter().filter(by_scenarios) {
        assert!(
            met.get(kind).is_some_and(|count| *count >= 5),
            "{kind} was met too seldom: {met:?}"
        );
    }
    for kind in [Kind::Gap, Kind::Impossible, Kind::Displaced, Kind::NoEffect] {
        assert!(
            muted.get(&kind).is_some_and(|count| *count >= 5),
            "{kind} was muted too seldom: {muted:?}"
        );
    }
    assert!(exact > partial, "most general conditions are exact");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, max_global_rejects: 20_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn findings_equal_brute_force(text in random_ruleset::yaml()) {
        hold_check_to_oracle(&text, Method::DiagramsFirst)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, max_global_rejects: 20_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn findings_of_the_solver_alone_equal_brute_force(text in random_ruleset::yaml()) {
        hold_check_to_oracle(&text, Method::SolverOnly)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, max_global_rejects: 20_000, max_shrink_iters: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn idle_words_equal_brute_force(text in random_ruleset::yaml()) {
        hold_words_to_oracle(&text)?;
    }
}

/// Whether any ruling differs that is announced.
fn announced_differ(ruleset: &Ruleset, one: &Outcome, other: &Outcome) -> bool {
    let kind = |basis| match basis {
        Basis::Default => Basis::Clauses,
        other => other,
    };
    ruleset
        .dimensions
        .iter()
        .enumerate()
        .any(|(index, dimension)| {
            let (one, other) = (one.rulings[index], other.rulings[index]);
            !dimension.intermediate
                && (one.values != other.values || kind(one.basis) != kind(other.basis))
        })
}
