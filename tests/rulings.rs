//! What is said of single incidents, against trying every scenario of random small rulesets: which
//! facts were enough, what lies nearest, what is still possible, which question to ask, under which
//! conditions something is ruled so.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests"
)]

mod common;
mod support;

use common::condition;
use evenhand::logic::{
    Chart, Established, Evaluator, Optimal, Outcome, Ruling, Scenario, Tree, Truth, Unasked,
    same_ruling,
};
use evenhand::model::{AttributeId, Condition, Ruleset};
use evenhand::scenario::{self, Decision};
use evenhand::solve::{Budget, Reason, scenarios};
use num_bigint::BigUint;
use num_rational::Ratio;
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use support::{lines, random_ruleset};

/// A ruleset with all its scenarios.
struct Tried {
    ruleset: Ruleset,
    all: Vec<(Scenario, Outcome)>,
}

impl Tried {
    fn new(text: &str, most: usize) -> Option<Tried> {
        let ruleset = evenhand::load::load("random.yaml", text).ok()?.ruleset;
        let evaluator = Evaluator::new(&ruleset);
        let all: Vec<Scenario> = scenarios(&ruleset)?.take(most + 1).collect();
        if all.is_empty() || all.len() > most {
            return None;
        }
        let judged = all.into_iter().map(|scenario| {
            let outcome = evaluator.outcome(&scenario);
            (scenario, outcome)
        });
        let all = judged.collect();
        Some(Tried { ruleset, all })
    }

    fn chart(&self) -> Chart<'_> {
        let never: evenhand::logic::Stop = Arc::new(|| false);
        let dimensions = scenario::announced(&self.ruleset);
        Chart::new(&self.ruleset, &dimensions, 1_000_000, never).unwrap()
    }

    fn verdict(&self, outcome: &Outcome) -> Vec<Ruling> {
        let dimensions = scenario::announced(&self.ruleset);
        dimensions
            .iter()
            .map(|id| outcome.rulings[id.index()])
            .collect()
    }

    fn alike(&self, one: &Outcome, other: &Outcome) -> bool {
        one.announces_the_same(other, &self.ruleset)
    }

    fn ids(&self) -> impl Iterator<Item = AttributeId> + use<> {
        (0..self.ruleset.attributes.len()).map(AttributeId::new)
    }

    /// A few scenarios, spread over all.
    fn some(&self, number: usize) -> impl Iterator<Item = &(Scenario, Outcome)> {
        let stride = (self.all.len() / number).max(1);
        self.all.iter().step_by(stride).take(number)
    }
}

fn same(one: &[Ruling], other: &[Ruling]) -> bool {
    one.len() == other.len()
        && one
            .iter()
            .zip(other)
            .all(|(one, other)| same_ruling(*one, *other))
}

/// Whether every scenario that has these facts of a scenario is ruled as it is.
fn is_enough(tried: &Tried, kept: &[AttributeId], scenario: &Scenario, outcome: &Outcome) -> bool {
    tried.all.iter().all(|(other, said)| {
        let agrees = kept.iter().all(|id| other.get(*id) == scenario.get(*id));
        !agrees || tried.alike(said, outcome)
    })
}

/// All sets of so many of the facts.
fn choices(facts: &[AttributeId], number: usize) -> Vec<Vec<AttributeId>> {
    if number == 0 {
        return vec![Vec::new()];
    }
    let Some((first, rest)) = facts.split_first() else {
        return Vec::new();
    };
    let mut found = choices(rest, number);
    for mut with in choices(rest, number - 1) {
        with.insert(0, *first);
        found.push(with);
    }
    found
}

fn differing(tried: &Tried, one: &Scenario, other: &Scenario) -> Vec<AttributeId> {
    let ids = tried.ids();
    ids.filter(|id| one.get(*id) != other.get(*id)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(250))]

    #[test]
    fn charts_rule_as_the_evaluator_does(text in random_ruleset::yaml()) {
        let Some(tried) = Tried::new(&text, 4_000) else { return Ok(()) };
        let chart = tried.chart();
        let mut counts: BTreeMap<usize, u32> = BTreeMap::new();
        for (scenario, outcome) in &tried.all {
            let verdict = chart.verdict(scenario).expect("a scenario is on the chart");
            prop_assert!(same(chart.rulings(verdict), &tried.verdict(outcome)), "{text}");
            *counts.entry(verdict.index()).or_insert(0) += 1;
        }
        let tally = chart.tally(&chart.everything());
        let tally: BTreeMap<usize, BigUint> =
            tally.into_iter().map(|(verdict, count)| (verdict.index(), count)).collect();
        let counts: BTreeMap<usize, BigUint> =
            counts.into_iter().map(|(verdict, count)| (verdict, count.into())).collect();
        prop_assert_eq!(tally, counts);
    }

    #[test]
    fn the_facts_that_were_enough_are_a_smallest_set(text in random_ruleset::yaml()) {
        let Some(tried) = Tried::new(&text, 600) else { return Ok(()) };
        let chart = tried.chart();
        let attributes = tried.ruleset.attributes.len();
        for (scenario, outcome) in tried.some(3) {
            let facts: Vec<AttributeId> = scenario.facts().map(|(id, _)| id).collect();
            let verdict = chart.verdict(scenario).unwrap();
            let whole = Established::whole(scenario, attributes);
            let found = chart.sufficient(&whole, verdict, &BTreeSet::new()).unwrap();
            prop_assert!(is_enough(&tried, &found.facts, scenario, outcome), "{text}");
            let mut sets = 0u32;
            for size in 0..=facts.len() {
                let enough = choices(&facts, size).into_iter();
                let enough = enough.filter(|kept| is_enough(&tried, kept, scenario, outcome));
                sets = u32::try_from(enough.count()).unwrap();
                if sets > 0 {
                    prop_assert_eq!(size, found.facts.len(), "{}", &text);
                    break;
                }
            }
            prop_assert_eq!(BigUint::from(sets), found.sets, "{}", &text);
        }
    }

    #[test]
    fn the_nearest_scenarios_are_the_nearest(text in random_ruleset::yaml()) {
        let Some(tried) = Tried::new(&text, 1_500) else { return Ok(()) };
        let chart = tried.chart();
        for (scenario, outcome) in tried.some(4) {
            let others = tried.all.iter().filter(|(_, said)| !tried.alike(said, outcome));
            let mut nearest: BTreeMap<usize, BTreeSet<(Vec<AttributeId>, usize)>> = BTreeMap::new();
            for (other, _) in others {
                let differs = differing(&tried, scenario, other);
                let verdict = chart.verdict(other).unwrap().index();
                nearest.entry(differs.len()).or_default().insert((differs, verdict));
            }
            let expected = nearest.into_iter().next();
            let found = chart.nearest_other(scenario).map(|near| {
                assert!(near.complete);
                for other in &near.neighbours {
                    assert_eq!(differing(&tried, scenario, &other.scenario), other.differs);
                    assert_eq!(chart.verdict(&other.scenario), Some(other.verdict));
                }
                let all = near.neighbours.into_iter();
                let all: BTreeSet<_> =
                    all.map(|other| (other.differs, other.verdict.index())).collect();
                (near.distance, all)
            });
            prop_assert_eq!(found, expected, "{}", &text);
        }
    }

    #[test]
    fn with_facts_missing_every_possible_ruling_is_found_and_counted(
        text in random_ruleset::yaml(),
        kept in any::<u32>(),
    ) {
        let Some(tried) = Tried::new(&text, 2_000) else { return Ok(()) };
        let mut chart = Ok(tried.chart());
        for (index, (scenario, _)) in tried.some(3).enumerate() {
            let facts = part_of(&tried, scenario, kept.rotate_left(u32::try_from(index).unwrap() * 7));
            let dimensions = scenario::announced(&tried.ruleset);
            let budget = Budget::unlimited();
            let decision = scenario::decide(&tried.ruleset, &facts, &dimensions, &mut chart, &budget);
            let decision = decision.expect("the scenario itself has the facts");
            prop_assert!(chart.is_ok());
            holds(&tried, &facts, &decision);
            questions_hold(&tried, &facts, chart.as_mut().unwrap());
        }
    }

    #[test]
    fn conditions_under_which_something_is_ruled_so_cover_exactly(
        text in random_ruleset::yaml(),
        at in any::<usize>(),
    ) {
        let Some(tried) = Tried::new(&text, 1_500) else { return Ok(()) };
        let dimension = &tried.ruleset.dimensions[at % tried.ruleset.dimensions.len()];
        let verb = match dimension.when_several {
            evenhand::read::draft::WhenSeveral::AllApply => "includes",
            _ => "is",
        };
        let value = &dimension.values[at % dimension.values.len()].name;
        let wanted = condition(&tried.ruleset, &format!("{} {verb} {value}", dimension.name));
        covers(&tried, &wanted, None)?;
        let clause = &tried.ruleset.clauses[at % tried.ruleset.clauses.len()];
        covers(&tried, &wanted, Some(&clause.when))?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// The solver, where the space can't be charted, comes to the same as trying every scenario.
    #[test]
    fn without_a_chart_the_solver_finds_the_same(
        text in random_ruleset::yaml(),
        kept in any::<u32>(),
    ) {
        let Some(tried) = Tried::new(&text, 800) else { return Ok(()) };
        let dimensions = scenario::announced(&tried.ruleset);
        let budget = Budget::unlimited();
        for (scenario, outcome) in tried.some(2) {
            let facts = part_of(&tried, scenario, kept);
            let mut none = Err(Reason::TooLarge);
            let decision = scenario::decide(&tried.ruleset, &facts, &dimensions, &mut none, &budget);
            let decision = decision.expect("the scenario itself has the facts");
            holds(&tried, &facts, &decision);
            let whole = Established::whole(scenario, tried.ruleset.attributes.len());
            let decision = scenario::decide(&tried.ruleset, &whole, &dimensions, &mut none, &budget);
            let decision = decision.expect("a scenario");
            let enough = decision.enough.unwrap().unwrap();
            prop_assert!(enough.sets.is_none());
            prop_assert!(is_enough(&tried, &enough.facts, scenario, outcome));
            for left_out in &enough.facts {
                let fewer: Vec<AttributeId> =
                    enough.facts.iter().copied().filter(|id| id != left_out).collect();
                prop_assert!(!is_enough(&tried, &fewer, scenario, outcome), "{text}");
            }
            let others = tried.all.iter().filter(|(_, said)| !tried.alike(said, outcome));
            let nearest = others.map(|(other, _)| differing(&tried, scenario, other).len()).min();
            match decision.whole.unwrap().nearest {
                Ok(Some(near)) => prop_assert_eq!(Some(near.distance), nearest),
                Ok(None) => prop_assert!(false, "that there is none is not for the solver to say"),
                Err(_) => prop_assert!(nearest.is_none_or(|nearest| nearest > 4), "{text}"),
            }
        }
    }

    /// An order of questions leads every scenario to its verdict, asks only what is asked there, and
    /// where it is said to be the best, no other asks fewer on average.
    #[test]
    fn orders_of_questions_reach_every_ruling(text in random_ruleset::yaml()) {
        let Some(tried) = Tried::new(&text, 300) else { return Ok(()) };
        let mut chart = tried.chart();
        let everything = chart.everything();
        let protocol = chart.protocol(&everything, &|| false).unwrap();
        let mut asked = 0usize;
        let mut longest = 0;
        for (scenario, outcome) in &tried.all {
            let (depth, verdict) = follow(&chart, &protocol.tree, scenario);
            prop_assert!(same(chart.rulings(verdict), &tried.verdict(outcome)), "{text}");
            asked += depth;
            longest = longest.max(depth);
        }
        let all = BigUint::from(tried.all.len());
        prop_assert_eq!(&Ratio::new(BigUint::from(asked), all), &protocol.expected, "{}", &text);
        prop_assert_eq!(longest, protocol.longest);
        if tried.all.len() <= 24 && protocol.optimal == Optimal::Proved {
            let layers = chart.layers();
            let rows: Vec<Row> = tried
                .all
                .iter()
                .map(|(scenario, _)| Row {
                    cells: layers.cells_of(scenario),
                    asked: layers.all().iter().map(|it| scenario.get(it.attribute).is_some()).collect(),
                    verdict: chart.verdict(scenario).unwrap().index(),
                })
                .collect();
            let rows: Vec<&Row> = rows.iter().collect();
            prop_assert_eq!(fewest(&rows), asked, "{}", &text);
        }
    }
}

/// The random rulesets are worth the trouble: nearly all can be tried whole, and of the hundreds that
/// each test looks at a fair part rules in several ways.
#[test]
fn random_rulesets_rule_in_several_ways() {
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    let (mut tried_whole, mut two, mut several) = (0, 0, 0);
    for _ in 0..100 {
        let text = random_ruleset::yaml()
            .new_tree(&mut runner)
            .unwrap()
            .current();
        let Some(tried) = Tried::new(&text, 1_500) else {
            continue;
        };
        tried_whole += 1;
        two += usize::from(tried.chart().verdicts() > 1);
        several += usize::from(tried.chart().verdicts() > 2);
    }
    assert!(
        tried_whole >= 80 && two >= 30 && several >= 15,
        "{tried_whole} tried whole, {two} with two verdicts or more, {several} with three or more"
    );
}

/// Some facts of a scenario, by the bits of a number.
fn part_of(tried: &Tried, scenario: &Scenario, kept: u32) -> Established {
    let mut facts = Established::nothing(tried.ruleset.attributes.len());
    for (index, (id, code)) in scenario.facts().enumerate() {
        if kept >> (index % 32) & 1 == 1 {
            facts.set(id, Some(code));
        }
    }
    facts
}

/// Holds a decision against trying every scenario.
fn holds(tried: &Tried, facts: &Established, decision: &Decision) {
    let possible: Vec<&(Scenario, Outcome)> = tried
        .all
        .iter()
        .filter(|(scenario, _)| facts.agrees_with(scenario))
        .collect();
    if let Some(count) = &decision.possible {
        assert_eq!(*count, BigUint::from(possible.len()));
    }
    for on in &decision.dimensions {
        assert!(on.open.is_none());
        let ruling = |outcome: &Outcome| outcome.rulings[on.dimension.index()];
        for (_, outcome) in &possible {
            let found = on
                .possible
                .iter()
                .any(|it| same_ruling(it.ruling, ruling(outcome)));
            assert!(found, "a ruling is missing");
        }
        for it in &on.possible {
            let so = |outcome: &Outcome| same_ruling(it.ruling, ruling(outcome));
            let number = possible.iter().filter(|(_, outcome)| so(outcome)).count();
            assert!(number > 0, "a ruling that is not possible");
            if let Some(count) = &it.count {
                assert_eq!(*count, BigUint::from(number));
            }
            assert!(facts.agrees_with(&it.scenario));
            assert!(so(&Evaluator::new(&tried.ruleset).outcome(&it.scenario)));
        }
        // A clause that is said to stand stands in every incident that is possible.
        for clause in &on.clauses {
            assert!(
                possible
                    .iter()
                    .all(|(_, outcome)| outcome.stands(*clause, on.dimension))
            );
        }
    }
    let first = possible.first().map(|(_, outcome)| outcome).unwrap();
    let settled = possible
        .iter()
        .all(|(_, outcome)| tried.alike(outcome, first));
    let dimensions = &decision.dimensions;
    if settled {
        assert!(dimensions.iter().all(|on| on.settled().is_some()));
    }
    assert_eq!(
        dimensions.iter().all(|on| on.settled().is_some()),
        decision.enough.is_some()
    );
    if decision.enough.is_none() {
        assert!(
            !decision.next.is_empty(),
            "nothing to establish, and nothing settled"
        );
    }
    for next in &decision.next {
        let surely = possible
            .iter()
            .all(|(scenario, _)| scenario.get(next.attribute).is_some());
        assert!(surely && facts.get(next.attribute).is_none());
    }
}

/// Holds what is said of each question against trying every scenario.
fn questions_hold(tried: &Tried, facts: &Established, chart: &mut Chart<'_>) {
    let outlook = chart.outlook(facts);
    let questions = chart.questions(&outlook);
    for question in questions {
        let layer = chart.layers().all()[question.layer].clone();
        let mut by_answer: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (scenario, _) in &tried.all {
            if facts.agrees_with(scenario) {
                let cell = layer.cell_of(scenario.get(layer.attribute));
                let verdict = chart.verdict(scenario).unwrap().index();
                by_answer.entry(cell).or_default().push(verdict);
            }
        }
        let alone = |verdicts: &&Vec<usize>| verdicts.iter().all(|one| one == &verdicts[0]);
        let settles: usize = by_answer.values().filter(alone).map(Vec::len).sum();
        assert_eq!(question.settles, BigUint::from(settles));
        let answers: Vec<(usize, BigUint)> = by_answer
            .iter()
            .map(|(cell, verdicts)| (*cell, BigUint::from(verdicts.len())))
            .collect();
        assert_eq!(question.answers, answers);
    }
}

/// Follows a scenario through an order of questions: how many are asked, and where it ends.
fn follow(
    chart: &Chart<'_>,
    tree: &Tree,
    scenario: &Scenario,
) -> (usize, evenhand::logic::VerdictId) {
    let mut at = tree;
    let mut depth = 0;
    loop {
        match at {
            Tree::Ruled(verdict) => return (depth, *verdict),
            Tree::Open => panic!("an end without a verdict"),
            Tree::Ask {
                attribute,
                layer,
                branches,
                ..
            } => {
                assert!(scenario.get(*attribute).is_some(), "asks what is not asked");
                let layer = &chart.layers().all()[*layer];
                let cell = layer.cell_of(scenario.get(*attribute));
                let branch = branches.iter().find(|branch| branch.cells.contains(&cell));
                at = &branch.expect("an answer is missing").then;
                depth += 1;
            }
        }
    }
}

struct Row {
    cells: Vec<usize>,
    asked: Vec<bool>,
    verdict: usize,
}

/// The fewest questions in all that tell the verdicts of some scenarios apart, by trying every order.
fn fewest(rows: &[&Row]) -> usize {
    if rows.iter().all(|row| row.verdict == rows[0].verdict) {
        return 0;
    }
    let mut best = usize::MAX;
    for layer in 0..rows[0].cells.len() {
        if !rows.iter().all(|row| row.asked[layer]) {
            continue;
        }
        let mut parts: BTreeMap<usize, Vec<&Row>> = BTreeMap::new();
        for row in rows {
            parts.entry(row.cells[layer]).or_default().push(row);
        }
        if parts.len() > 1 {
            let below: usize = parts.values().map(|part| fewest(part)).sum();
            best = best.min(rows.len() + below);
        }
    }
    best
}

/// Holds the conditions under which something is so against trying every scenario.
fn covers(
    tried: &Tried,
    wanted: &Condition,
    given: Option<&Condition>,
) -> Result<(), TestCaseError> {
    let ruleset = &tried.ruleset;
    let evaluator = Evaluator::new(ruleset);
    let found = scenario::when(ruleset, wanted, given, &Budget::unlimited());
    prop_assert!(found.open.is_none());
    let read: Vec<lines::Line> = found
        .lines
        .iter()
        .map(|case| lines::line(ruleset, &case.condition))
        .collect();
    let (mut so, mut of, mut neither) = (0usize, 0usize, 0usize);
    for (scenario, outcome) in &tried.all {
        let truth =
            |condition: &Condition| evaluator.truth(condition, Unasked::Neither, scenario, outcome);
        if given.is_some_and(|given| truth(given) != Truth::True) {
            continue;
        }
        of += 1;
        let holds = truth(wanted) == Truth::True;
        so += usize::from(holds);
        neither += usize::from(truth(wanted) == Truth::Neither);
        let covered = read.iter().any(|line| line.holds(ruleset, scenario));
        prop_assert_eq!(holds, covered);
    }
    let count = |count: Option<evenhand::logic::Count>| count.unwrap().scenarios;
    prop_assert_eq!(count(found.share), BigUint::from(so));
    prop_assert_eq!(count(found.of), BigUint::from(of));
    prop_assert_eq!(count(found.neither), BigUint::from(neither));
    for (case, line) in found.lines.iter().zip(&read) {
        prop_assert!(line.holds(ruleset, &case.scenario));
        let outcome = evaluator.outcome(&case.scenario);
        let truth = evaluator.truth(wanted, Unasked::Neither, &case.scenario, &outcome);
        prop_assert_eq!(truth, Truth::True);
    }
    Ok(())
}
