//! Amounts that stand for all that a quantity might be.

use crate::logic::{conditions, quantities_named};
use crate::model::{
    AttributeId, AttributeKind, Condition, ConditionKind, ConditionScope, Number, NumberRange,
    Quantity, QuantityValue, Ruleset, Test, Unit, resolve_condition,
};
use crate::problem::Gravity;
use crate::read;
use crate::solve::Reason;
use crate::source::{Source, Sources, Span, words};
use std::collections::BTreeSet;

/// Amounts that stand for all.
pub(super) enum Amounts {
    /// One of these.
    Listed(Vec<(Number, Unit)>),
    /// Any of a range: in a sum each amount is another comparison.
    Range(NumberRange),
}

/// The words at a place, resolved in another ruleset.
pub(super) fn resolved_anew(ruleset: &Ruleset, span: Span) -> Option<Condition> {
    let source = Source::new("condition", ruleset.sources.slice(span));
    let id = Sources::default().add(source.clone());
    let mut problems = Vec::new();
    let read = read::condition(&source, id, &mut problems)?;
    let scope = ConditionScope::Rulings;
    let made = resolve_condition(ruleset, &read, scope, &mut problems)?;
    let sound = problems.iter().all(|it| it.gravity != Gravity::Error);
    sound.then_some(made)
}

/// The most steps of a number all of which are tried as amounts.
const FEW: i64 = 100;

/// Amounts that stand for all that the quantity might be: between two neighbouring numbers that the
/// rules compare with, one amount is as good as another, so long as there is a step on either side.
pub(super) fn amounts(
    ruleset: &Ruleset,
    index: usize,
    quantity: &Quantity,
) -> Result<Amounts, Reason> {
    let spans = named_at(ruleset, index);
    let mut compared: BTreeSet<AttributeId> = BTreeSet::new();
    let mut summed = false;
    each_test(ruleset, &spans, &mut |test| match test {
        Test::Within { attribute, .. } => {
            compared.insert(*attribute);
        }
        Test::Linear(_) => summed = true,
        _ => {}
    });
    if summed {
        return any_amount(ruleset, index, &spans).map(Amounts::Range);
    }
    let mut steps_of: Vec<(AttributeId, BTreeSet<i64>)> = Vec::new();
    for id in &compared {
        let AttributeKind::Number(range) = &ruleset[*id].kind else {
            continue;
        };
        let mut steps: BTreeSet<i64> = BTreeSet::from([0, 1, range.steps - 1, range.steps]);
        if range.steps <= FEW {
            steps.extend(0..=range.steps);
        }
        for condition in conditions(ruleset) {
            condition.each_range(&mut |_, attribute, low, high| {
                for end in [low, high].into_iter().filter(|_| attribute == *id) {
                    steps.extend((end - 2..=end + 2).filter(|it| (0..=range.steps).contains(it)));
                }
            });
        }
        steps_of.push((*id, steps));
    }
    let own: Vec<(Number, Unit)> = match &quantity.value {
        QuantityValue::Constant(number, unit) => vec![(*number, unit.clone())],
        QuantityValue::Column { cells, .. } => cells.iter().flatten().cloned().collect(),
    };
    let mut found: Vec<(Number, Unit)> = Vec::new();
    for (id, steps) in steps_of {
        if let AttributeKind::Number(range) = &ruleset[id].kind {
            let values = steps.into_iter();
            found.extend(values.map(|step| (range.value(step), range.unit.clone())));
        }
    }
    found.extend(own);
    // An amount that the file could not have (off the step, splitting a top value) is none.
    let mut trial = ruleset.clone();
    found.retain(|(number, unit)| {
        if let Some(quantity) = trial.quantities.get_mut(index) {
            quantity.value = QuantityValue::Constant(*number, unit.clone());
        }
        let mut spans = spans.iter();
        spans.all(|span| resolved_anew(&trial, *span).is_some())
    });
    let mut distinct: Vec<(Number, Unit)> = Vec::new();
    for (number, unit) in found {
        let known = distinct.iter().any(|(other, theirs)| {
            let factor = unit.factor_to(theirs);
            factor.and_then(|factor| number.times(factor)) == Some(*other)
        });
        if !known {
            distinct.push((number, unit));
        }
    }
    Ok(Amounts::Listed(distinct))
}

/// Where conditions name the quantity.
fn named_at(ruleset: &Ruleset, index: usize) -> BTreeSet<Span> {
    conditions(ruleset)
        .into_iter()
        .flat_map(|condition| quantities_named(ruleset, condition))
        .filter(|(known, _)| *known == index)
        .map(|(_, span)| span)
        .collect()
}

/// Visits what is compared at these places.
fn each_test(ruleset: &Ruleset, spans: &BTreeSet<Span>, visit: &mut impl FnMut(&Test)) {
    for condition in conditions(ruleset) {
        condition.each_part(&mut |part| {
            if let ConditionKind::Fact { test, .. } = &part.kind
                && spans.contains(&part.span)
            {
                visit(test);
            }
        });
    }
}

/// The range beyond whose ends no sum comes, on steps so fine that every amount is as good as one of
/// them; within what the quantity is compared with directly.
fn any_amount(
    ruleset: &Ruleset,
    index: usize,
    spans: &BTreeSet<Span>,
) -> Result<NumberRange, Reason> {
    let gave_up = |why: &str| Reason::GaveUp(format!("it stands in a sum, and {why}"));
    let (mut beside, mut direct): (BTreeSet<AttributeId>, BTreeSet<AttributeId>) =
        Default::default();
    each_test(ruleset, spans, &mut |test| match test {
        Test::Within { attribute, .. } => {
            direct.insert(*attribute);
            beside.insert(*attribute);
        }
        Test::Linear(_) => beside.extend(test.attributes()),
        _ => {}
    });
    let ranges = |ids: &BTreeSet<AttributeId>| -> Vec<NumberRange> {
        let kinds = ids.iter().map(|id| &ruleset[*id].kind);
        kinds
            .filter_map(|kind| match kind {
                AttributeKind::Number(range) => Some(range.clone()),
                _ => None,
            })
            .collect()
    };
    let all = ranges(&beside);
    let unit = all.first().map_or(Unit::None, |range| range.unit.clone());
    let step = step(&all, &unit, factors(ruleset, index, spans))
        .ok_or_else(|| gave_up("the steps of the numbers beside it don't fit each other"))?;
    let reach = reach(ruleset, index, spans, (step, &unit))
        .ok_or_else(|| gave_up("it can't be made with other amounts"))?;
    let whole = Number::whole;
    let (mut low, mut high) = (-reach, reach);
    for range in ranges(&direct) {
        let ends = range.unit.factor_to(&unit).and_then(|factor| {
            let end = |value: Number| value.times(factor)?.over(step);
            let fits = range.step.times(factor)? == step;
            let ends = (end(range.low)?, end(range.value(range.steps))?);
            (fits && !range.or_more).then_some(ends)
        });
        let (from, to) = ends
            .and_then(|(from, to)| Some((from.to_whole()?, to.to_whole()?)))
            .ok_or_else(|| gave_up("it is compared with a number that moves in other steps"))?;
        (low, high) = (low.max(from), high.min(to));
    }
    let own = match ruleset.quantities.get(index).map(|it| &it.value) {
        Some(QuantityValue::Constant(number, own)) => Some((*number, own)),
        Some(QuantityValue::Column { cells, .. }) => {
            let mut cells = cells.iter().flatten();
            cells.next().map(|(number, own)| (*number, own))
        }
        None => None,
    };
    let own = own.and_then(|(number, own)| {
        let number = number.times(own.factor_to(&unit).unwrap_or(whole(1)))?;
        number.over(step)?.floor()
    });
    if let Some(own) = own {
        let mut trial = Trial::new(ruleset, index, step, &unit);
        low = writable(&mut trial, spans, own, low);
        high = writable(&mut trial, spans, own, high);
    }
    let lowest = step.times(whole(low)).filter(|_| low <= high);
    Ok(NumberRange {
        low: lowest.ok_or_else(|| gave_up("no amount fits all comparisons"))?,
        step,
        steps: high - low,
        unit,
        or_more: false,
    })
}

/// The step of the finest number, divided by the factors that the quantity has; all others must move by
/// whole steps of it, from a whole step.
fn step(all: &[NumberRange], unit: &Unit, factors: i64) -> Option<Number> {
    let mut finest: Option<Number> = None;
    for range in all {
        let own = range.step.times(range.unit.factor_to(unit)?)?;
        finest = Some(finest.map_or(own, |known| known.min(own)));
    }
    let step = finest?.over(Number::whole(factors))?;
    let fits = all.iter().all(|range| {
        let factor = range.unit.factor_to(unit);
        let whole = |value: Number| value.times(factor?)?.over(step)?.to_whole();
        whole(range.step).is_some() && whole(range.low).is_some()
    });
    fits.then_some(step)
}

/// A common multiple of the factors with which the quantity is written, as in `2 * margin`.
fn factors(ruleset: &Ruleset, index: usize, spans: &BTreeSet<Span>) -> i64 {
    let name = ruleset.quantities.get(index).map(|it| it.name.as_str());
    let mut multiple: i64 = 1;
    for span in spans {
        let said: Vec<&str> = words(ruleset.sources.slice(*span)).collect();
        for three in said.windows(3) {
            if let [factor, "*", named] = three
                && Some(*named) == name
                && let Ok(factor) = factor.parse::<i64>()
            {
                multiple = multiple.saturating_mul(factor.max(1));
            }
        }
    }
    multiple
}

/// How many steps from nothing an amount lies, either way, at which no sum can come up to it.
fn reach(
    ruleset: &Ruleset,
    index: usize,
    spans: &BTreeSet<Span>,
    (step, unit): (Number, &Unit),
) -> Option<i64> {
    let mut trial = Trial::new(ruleset, index, step, unit);
    for power in 0..40 {
        let steps = 1_i64 << power;
        let mut beyond = true;
        for (here, next) in [(steps, steps + 1), (-steps, -steps - 1)] {
            for span in spans {
                let (here, next) = (trial.tests(*span, here), trial.tests(*span, next));
                // Where it can't be written, the range ends before.
                beyond &= here.is_none_or(|here| decided(ruleset, &here, next.as_deref()));
            }
        }
        if beyond {
            return Some(steps);
        }
    }
    None
}

/// The steps nearest to an end, seen from one at which all comparisons can be written, at which they
/// still can.
fn writable(trial: &mut Trial<'_>, spans: &BTreeSet<Span>, from: i64, end: i64) -> i64 {
    let mut fits = |steps: i64| spans.iter().all(|span| trial.tests(*span, steps).is_some());
    if fits(end) {
        return end;
    }
    let (mut good, mut bad) = (from, end);
    while good.abs_diff(bad) > 1 {
        let middle = good.midpoint(bad);
        if fits(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}

/// A ruleset in which the quantity is tried at other amounts, in steps from nothing.
struct Trial<'u> {
    ruleset: Ruleset,
    index: usize,
    step: Number,
    unit: &'u Unit,
}

impl<'u> Trial<'u> {
    fn new(ruleset: &Ruleset, index: usize, step: Number, unit: &'u Unit) -> Self {
        Trial {
            ruleset: ruleset.clone(),
            index,
            step,
            unit,
        }
    }

    /// What a comparison comes to at an amount, where it can be written.
    fn tests(&mut self, span: Span, steps: i64) -> Option<Vec<Test>> {
        let amount = self.step.times(Number::whole(steps))?;
        let quantity = self.ruleset.quantities.get_mut(self.index)?;
        quantity.value = QuantityValue::Constant(amount, self.unit.clone());
        let condition = resolved_anew(&self.ruleset, span)?;
        let mut tests = Vec::new();
        condition.each_part(&mut |part| {
            if let ConditionKind::Fact { test, .. } = &part.kind {
                tests.push(test.clone());
            }
        });
        Some(tests)
    }
}

/// Whether no values of the attributes make a difference to those tests that turn on the amount: that
/// are others at the next amount.
fn decided(ruleset: &Ruleset, here: &[Test], next: Option<&[Test]>) -> bool {
    let steps = |id: AttributeId| match &ruleset[id].kind {
        AttributeKind::Number(range) => i128::from(range.steps),
        _ => 0,
    };
    let stays = |index: usize, test: &Test| {
        next.is_some_and(|next| next.len() == here.len() && next.get(index) == Some(test))
    };
    let mut turning = here
        .iter()
        .enumerate()
        .filter(|(index, test)| !stays(*index, test));
    turning.all(|(_, test)| match test {
        Test::Linear(linear) => {
            let (mut low, mut high) = (0_i128, 0_i128);
            for (factor, id) in &linear.parts {
                let end = i128::from(*factor) * steps(*id);
                low += end.min(0);
                high += end.max(0);
            }
            let bound = i128::from(linear.bound);
            bound < low || bound >= high
        }
        Test::Within {
            attribute,
            low,
            high,
        } => {
            let steps = steps(*attribute);
            let (low, high) = (i128::from(*low), i128::from(*high));
            low > steps || high < 0 || low <= 0 && high >= steps
        }
        _ => true,
    })
}
