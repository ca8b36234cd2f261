//! How long single incidents take: `cargo bench --bench incident`.
//!
//! Everything is measured on the demo's rulebook of grappling, over one incident for each way in which
//! it rules.
#![allow(
    clippy::disallowed_methods,
    clippy::expect_used,
    missing_docs,
    reason = "a program that measures"
)]

use criterion::{Criterion, criterion_group, criterion_main};
use evenhand::load::load;
use evenhand::logic::{Established, Evaluator, Scenario};
use evenhand::model::Ruleset;
use evenhand::scenario::{self, announced};
use evenhand::solve::Budget;
use std::hint::black_box;

fn rules() -> Ruleset {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/rulesets/grappling.yaml");
    let text = std::fs::read_to_string(path).expect("the demo's rulebook");
    load("grappling.yaml", text).expect("a ruleset").ruleset
}

fn incidents(criterion: &mut Criterion) {
    let ruleset = rules();
    let dimensions = announced(&ruleset);
    let budget = Budget::unlimited();
    let chart = scenario::chart(&ruleset, &dimensions, &budget).expect("a chart");
    let everything = chart.everything();
    let tally = chart.tally(&everything);
    let all: Vec<Scenario> = tally
        .iter()
        .filter_map(|(verdict, _)| chart.most_ordinary(&everything, *verdict))
        .collect();
    let evaluator = Evaluator::new(&ruleset);
    let mut next = all.iter().cycle();
    criterion.bench_function("rule on one incident", |bencher| {
        bencher.iter(|| evaluator.outcome(black_box(next.next().expect("one"))));
    });
    criterion.bench_function("look one incident up on the chart", |bencher| {
        bencher.iter(|| chart.verdict(black_box(next.next().expect("one"))));
    });
    criterion.bench_function("draw the chart", |bencher| {
        bencher.iter(|| scenario::chart(&ruleset, &dimensions, &budget).is_ok());
    });
    let facts: Vec<Established> = all
        .iter()
        .map(|scenario| Established::whole(scenario, ruleset.attributes.len()))
        .collect();
    let mut next = facts.iter().cycle();
    let mut drawn = Ok(chart);
    criterion.bench_function("explain one incident, chart drawn", |bencher| {
        bencher.iter(|| {
            let facts = next.next().expect("one");
            scenario::decide(&ruleset, facts, &dimensions, &mut drawn, &budget).is_ok()
        });
    });
}

criterion_group!(benches, incidents);
criterion_main!(benches);
