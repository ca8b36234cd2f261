//! Comparisons mean what plain arithmetic says, in every scenario, the unasked ones among them.
//!
//! The right answers are worked out here on whole halves, by code that knows nothing of steps,
//! weights or sets.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test says what it is about by failing"
)]

use evenhand::load::load;
use evenhand::logic::{Code, Evaluator, Scenario, Truth};
use evenhand::model::{AttributeId, ConditionScope, Ruleset, resolve_condition};
use evenhand::problem::Gravity;
use evenhand::read;
use evenhand::source::{Source, Sources};
use proptest::prelude::*;

const RULESET: &str = "
ruleset: Arithmetic
quantities:
  two: 2
  limit:
    by: row
    columns: [cell]
    low: [1]
    high: [3.5]
attributes:
  first:
  second:
  a: {number: -1 to 3, asked_when: first}
  b: {number: 1 to 4, step: 0.5, asked_when: second}
  row: {choice: [low, high, absent]}
  items: {several: [x, y, z], asked_when: first}
rulings:
  play: {choice: [continues, stops], otherwise: continues}
clauses:
  - {id: '1', ruling: {play: stops}}
";

/// The facts of a scenario: numbers in halves, a row, items as bits.
#[derive(Clone, Copy, Debug)]
struct Facts {
    a: Option<i64>,
    b: Option<i64>,
    row: usize,
    items: Option<u64>,
}

/// Every scenario of the ruleset with its facts.
fn scenarios() -> Vec<(Scenario, Facts)> {
    let mut all = Vec::new();
    let maybe = |count: u64| std::iter::once(None).chain((0..count).map(Some));
    for a in maybe(5) {
        for b in maybe(7) {
            for row in 0..3 {
                // `items` are asked where `a` is.
                for items in maybe(8).filter(|items| items.is_some() == a.is_some()) {
                    let codes = [
                        Some(u64::from(a.is_some())),
                        Some(u64::from(b.is_some())),
                        a,
                        b,
                        Some(row),
                        items,
                    ];
                    let mut scenario = Scenario::unasked(codes.len());
                    for (index, code) in codes.into_iter().enumerate() {
                        scenario.set(AttributeId::new(index), code.map(Code));
                    }
                    let facts = Facts {
                        a: a.map(|step| 2 * (i64::try_from(step).unwrap() - 1)),
                        b: b.map(|step| 2 + i64::try_from(step).unwrap()),
                        row: usize::try_from(row).unwrap(),
                        items,
                    };
                    all.push((scenario, facts));
                }
            }
        }
    }
    all
}

fn ruleset() -> Ruleset {
    load("arithmetic.yaml", RULESET).unwrap().ruleset
}

/// Whether the condition has, in every scenario, the truth that is expected; `Err` says what is wrong.
fn holds_as(
    ruleset: &Ruleset,
    text: &str,
    expect: impl Fn(Facts) -> Option<bool>,
) -> Result<(), String> {
    let source = Source::new("condition", text);
    let mut sources = Sources::default();
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let condition = read::condition(&source, id, &mut problems)
        .and_then(|expr| resolve_condition(ruleset, &expr, ConditionScope::Facts, &mut problems));
    let Some(condition) = condition else {
        return Err(format!("{text}: {problems:#?}"));
    };
    assert!(problems.iter().all(|it| it.gravity == Gravity::Warning));
    let evaluator = Evaluator::new(ruleset);
    for (scenario, facts) in scenarios() {
        let found = evaluator.plain_truth(&condition, &scenario);
        let expected = match expect(facts) {
            Some(true) => Truth::True,
            Some(false) => Truth::False,
            None => Truth::Neither,
        };
        if found != expected {
            return Err(format!("{text}: {found:?}, not {expected:?}, in {facts:?}"));
        }
    }
    Ok(())
}

fn check(text: &str, expect: impl Fn(Facts) -> Option<bool>) {
    holds_as(&ruleset(), text, expect).unwrap();
}

#[test]
fn what_cancels_out_must_still_be_asked() {
    check("a - a at least 0", |it| it.a.map(|_| true));
    check("a + b - b at least 2", |it| Some(it.b.map(|_| it.a)?? >= 4));
    check("b - b more than a - a", |it| it.a.and(it.b).map(|_| false));
    check("2 * b + a is b + b + 1", |it| {
        it.b.and(it.a).map(|a| a == 2)
    });
}

#[test]
fn between_is_one_comparison() {
    check("b is between a and 3", |it| {
        let (a, b) = (it.a?, it.b?);
        Some(a <= b && b <= 6)
    });
    check("b is not between a and 3", |it| {
        let (a, b) = (it.a?, it.b?);
        Some(b < a || b > 6)
    });
    check("3 - a is not between 1 and 2", |it| {
        it.a.map(|a| !(2..=4).contains(&(6 - a)))
    });
    check("2 is between a and b", |it| {
        let (a, b) = (it.a?, it.b?);
        Some(a <= 4 && 4 <= b)
    });
}

#[test]
fn lists_are_compared_whole() {
    check("items is only (x, z)", |it| it.items.map(|it| it == 0b101));
    check("items is not only (x, z)", |it| {
        it.items.map(|it| it != 0b101)
    });
    check("items is only (x, y, z)", |it| {
        it.items.map(|it| it == 0b111)
    });
    check("items is not empty", |it| it.items.map(|it| it != 0));
    check("items includes exactly 1 of (x, y)", |it| {
        it.items.map(|it| matches!(it & 0b11, 0b01 | 0b10))
    });
    check("items includes none of (x, y)", |it| {
        it.items.map(|it| matches!(it & 0b11, 0))
    });
    check("a is not one of (0, two)", |it| {
        it.a.map(|a| a != 0 && a != 4)
    });
    check("a is one of (0, two)", |it| it.a.map(|a| a == 0 || a == 4));
}

#[test]
fn tables_follow_their_row() {
    let limit = |row: usize| [Some(2), Some(7)].get(row).copied().flatten();
    // A case for each row: where the row is another one the case is false, whatever is not asked.
    check("b at least cell", |it| {
        let limit = limit(it.row)?;
        it.b.map(|b| b >= limit)
    });
    check("b is not cell", |it| {
        let limit = limit(it.row)?;
        it.b.map(|b| b != limit)
    });
}

/// One side: whole multiples of `a` and `b`, and halves.
type Parts = (i64, i64, i64);

fn written((a, b, halves): Parts) -> String {
    let half = if halves % 2 == 0 { "" } else { ".5" };
    let parts = [
        (a, format!("{} * a", a.abs())),
        (b, format!("{} * b", b.abs())),
        (halves, format!("{}{half}", halves.abs() / 2)),
    ];
    let signed = parts.iter().filter(|(factor, _)| *factor != 0);
    let signed = signed.map(|(factor, words)| {
        let sign = if *factor < 0 { "-" } else { "+" };
        format!("{sign} {words}")
    });
    let text = signed.collect::<Vec<_>>().join(" ");
    match text.strip_prefix("+ ") {
        Some(positive) => positive.to_owned(),
        None if text.is_empty() => "0".to_owned(),
        None => text,
    }
}

fn value((a, b, halves): Parts, facts: Facts) -> i64 {
    a * facts.a.unwrap_or(0) + b * facts.b.unwrap_or(0) + halves
}

fn parts() -> impl Strategy<Value = Parts> {
    (-3..4i64, -3..4i64, -9..10i64)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn sums_compare_as_in_arithmetic(left in parts(), right in parts(), form in 0..8usize, more in parts()) {
        let (l, r, m) = (written(left), written(right), written(more));
        let text = match form {
            0 => format!("{l} is {r}"),
            1 => format!("{l} is not {r}"),
            2 => format!("{l} at least {r}"),
            3 => format!("{l} at most {r}"),
            4 => format!("{l} more than {r}"),
            5 => format!("{l} less than {r}"),
            6 => format!("{l} is between {r} and {m}"),
            _ => format!("{l} is not between {r} and {m}"),
        };
        let sides: &[Parts] = if form < 6 { &[left, right] } else { &[left, right, more] };
        let reads_a = sides.iter().any(|side| side.0 != 0);
        let reads_b = sides.iter().any(|side| side.1 != 0);
        let found = holds_as(&ruleset(), &text, |facts| {
            if reads_a && facts.a.is_none() || reads_b && facts.b.is_none() {
                return None;
            }
            let (l, r, m) = (value(left, facts), value(right, facts), value(more, facts));
            Some(match form {
                0 => l == r,
                1 => l != r,
                2 => l >= r,
                3 => l <= r,
                4 => l > r,
                5 => l < r,
                6 => r <= l && l <= m,
                _ => l < r || m < l,
            })
        });
        // What no scenario changes, what is no value of its attribute and ends that are exchanged are refused.
        match found {
            Err(refused) if refused.contains("problems") || refused.contains("Problem") => {
                let expected = ["fixed numbers", "lies outside", "is not a value of", "nothing lies between"];
                prop_assert!(expected.iter().any(|words| refused.contains(words)), "{}", refused);
            }
            found => prop_assert_eq!(found, Ok(())),
        }
    }
}
