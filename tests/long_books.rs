//! What is said of rulebooks too long for diagrams of the whole: bounds and parts of conditions, held to
//! the plain evaluator.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::format_push_string,
    reason = "a test says what went wrong by failing"
)]

mod common;
mod support;

#[path = "../benches/rulebook/generate.rs"]
#[allow(dead_code, reason = "the benchmark uses more of it")]
mod generate;

use common::load_text;
use evenhand::analysis::{Finding, Options, check};
use evenhand::logic::{Code, Evaluator, Scenario, highest_code, is_valid, same_ruling};
use evenhand::model::{AttributeId, DimensionId, Kind, Promise, Ruleset};
use num_bigint::BigUint;
use proptest::collection::vec;
use proptest::prelude::*;
use support::lines;

fn changed(scenario: &Scenario, id: AttributeId, code: u64) -> Scenario {
    let mut other = scenario.clone();
    other.set(id, Some(Code(code)));
    other
}

fn codes(ruleset: &Ruleset, id: AttributeId) -> impl Iterator<Item = u64> + use<> {
    0..=highest_code(&ruleset[id].kind)
}

/// Whether announced rulings differ in two scenarios.
fn differ(ruleset: &Ruleset, one: &Scenario, other: &Scenario) -> bool {
    let evaluator = Evaluator::new(ruleset);
    let (one, other) = (evaluator.outcome(one), evaluator.outcome(other));
    (0..ruleset.dimensions.len()).any(|index| {
        !ruleset[DimensionId::new(index)].intermediate
            && !same_ruling(one.rulings[index], other.rulings[index])
    })
}

/// Whether a scenario shows what a finding says, by trying; `None` for findings that aren't tried here.
fn shows(ruleset: &Ruleset, finding: &Finding, scenario: &Scenario) -> Option<bool> {
    if finding.kind == Kind::TurnsOnJudgement {
        let name = finding.attribute.as_ref()?;
        let index = ruleset.attributes.iter().position(|it| it.name == *name)?;
        let id = AttributeId::new(index);
        let mut others = codes(ruleset, id).map(|code| changed(scenario, id, code));
        return Some(others.any(|other| differ(ruleset, scenario, &other)));
    }
    let principle = finding.principle.as_ref()?;
    let principle = ruleset.principles.iter().find(|it| it.id == *principle)?;
    match &principle.promise {
        Promise::ImpartialTo(attributes) => {
            let mut others = vec![scenario.clone()];
            for id in attributes {
                let more = others
                    .iter()
                    .flat_map(|other| codes(ruleset, *id).map(|code| changed(other, *id, code)));
                others = more.collect();
            }
            let mut others = others.iter();
            Some(others.any(|other| differ(ruleset, scenario, other)))
        }
        Promise::RisesWith {
            attribute,
            dimension,
        } => {
            let evaluator = Evaluator::new(ruleset);
            let ruled = |of: &Scenario| {
                let ruling = evaluator.outcome(of).rulings[dimension.index()];
                ruling.values.iter().next()
            };
            let (own, now) = (scenario.get(*attribute)?.0, ruled(scenario)?);
            let mut more = codes(ruleset, *attribute).filter(|code| *code > own);
            let lower =
                |code| ruled(&changed(scenario, *attribute, code)).is_some_and(|it| it < now);
            Some(more.any(lower))
        }
        Promise::Expect { whenever, expect } => {
            let evaluator = Evaluator::new(ruleset);
            let said = evaluator.outcome(scenario);
            let so = |condition| {
                let unasked = evenhand::logic::Unasked::Neither;
                evaluator.truth(condition, unasked, scenario, &said) == evenhand::logic::Truth::True
            };
            Some(so(whenever) && !so(expect))
        }
        Promise::NoGain { .. } => None,
    }
}

/// A rulebook whose clauses overlap everywhere; the highest ruling counts.
fn overlapping(seed: u64) -> String {
    let mut state = seed;
    let mut draw = |below: u64| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    };
    let mut yaml = "ruleset: Overlapping\nattributes:\n".to_owned();
    for fact in 0..26 {
        yaml += &match fact % 8 {
            0 => format!("  a{fact}: {{judged: true, label: fact}}\n"),
            7 => format!("  a{fact}: {{scale: [low, mid, high]}}\n"),
            _ => format!("  a{fact}: {{label: fact}}\n"),
        };
    }
    yaml += "rulings:\n  penalty: {scale: [none, mild, harsh, ban], when_several: highest, otherwise: none}\n";
    yaml += "principles:\n  - {id: same, impartial_to: [a1]}\n  - {id: more, rises_with: a7, ruling: penalty}\n";
    yaml += "  - {id: lenient, whenever: a2 and a3, expect: penalty less than ban}\nclauses:\n";
    for clause in 0..170 {
        let mut facts: Vec<u64> = (0..26).collect();
        let parts: Vec<String> = (0..5)
            .map(|_| {
                let fact = facts.remove(usize::try_from(draw(facts.len() as u64)).unwrap());
                match (fact % 8, draw(2)) {
                    (7, 0) => format!("a{fact} is mid"),
                    (7, _) => format!("a{fact} at least mid"),
                    (_, 0) => format!("a{fact}"),
                    _ => format!("not a{fact}"),
                }
            })
            .collect();
        let penalty = ["mild", "harsh", "ban"][usize::try_from(draw(3)).unwrap()];
        yaml += &format!(
            "  - {{id: \"{clause}\", when: {}, ruling: {{penalty: {penalty}}}}}\n",
            parts.join(" and ")
        );
    }
    yaml
}

/// Holds the findings of a long rulebook to the evaluator; says how many scenarios were tried, and how
/// many counts were made again.
fn held(ruleset: &Ruleset, tape: &[u16]) -> Result<(usize, usize), String> {
    let options = Options {
        kinds: vec![Kind::BrokenPrinciple, Kind::TurnsOnJudgement],
        ..Options::default()
    };
    let (mut tried, mut counted) = (0, 0);
    for finding in check(ruleset, &options).findings {
        let Some(share) = &finding.share else {
            return Err(format!("not counted at all: {}", finding.headline));
        };
        let texts = finding.general.lines.iter();
        let read: Vec<lines::Line> = texts.map(|text| lines::line(ruleset, text)).collect();
        let holds = |scenario: &Scenario| read.iter().any(|line| line.holds(ruleset, scenario));
        let mut here = finding.scenario.clone().unwrap();
        if !holds(&here) {
            continue;
        }
        // A walk through the scenarios of which the lines speak: none may leave the finding.
        for draw in tape.chunks(2) {
            let id = AttributeId::new(usize::from(draw[0]) % ruleset.attributes.len());
            let code = u64::from(draw[1]) % (highest_code(&ruleset[id].kind) + 1);
            let next = changed(&here, id, code);
            if !is_valid(ruleset, &next) || !holds(&next) {
                continue;
            }
            here = next;
            match shows(ruleset, &finding, &here) {
                Some(true) => tried += 1,
                Some(false) => return Err(format!("{here:?}\n{finding:#?}")),
                None => {}
            }
        }
        // Nothing is asked under a condition here and no line has a name for several attributes, so a line
        // is a box: its scenarios are the product of what each attribute may be, and no more are counted
        // than there are, of all lines.
        if let Some(line) = read.iter().find(|line| line.holds(ruleset, &here)) {
            let of = |index: usize| {
                let id = AttributeId::new(index);
                let all = codes(ruleset, id);
                let held = all.filter(|code| line.holds(ruleset, &changed(&here, id, *code)));
                BigUint::from(held.count())
            };
            let product: BigUint = (0..ruleset.attributes.len()).map(of).product();
            if product > share.scenarios
                || read.len() == 1 && product != share.scenarios && !share.exact
            {
                return Err(format!("not {product}: {finding:#?}"));
            }
            counted += 1;
        }
    }
    Ok((tried, counted))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2, ..ProptestConfig::default() })]

    #[test]
    fn what_is_said_of_a_part_holds_in_it_and_is_counted_rightly(seed in any::<u64>(), tape in vec(any::<u16>(), 600)) {
        let plan = generate::Plan { clauses: 250, planted: 3, silence: generate::Silence::Default, seed };
        let apart = load_text("apart.yaml", &generate::write(plan).yaml).unwrap();
        let held_apart = held(&apart, &tape);
        prop_assert!(held_apart.as_ref().is_ok_and(|(tried, counted)| *tried > 0 && *counted > 0), "{held_apart:?}");
        let overlapping = load_text("overlapping.yaml", &overlapping(seed)).unwrap();
        let held = held(&overlapping, &tape);
        prop_assert!(held.as_ref().is_ok_and(|(tried, _)| *tried > 0), "{held:?}");
    }
}
