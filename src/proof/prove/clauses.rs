//! A claim as propositional clauses: the formula that [`logic`](crate::logic) makes of a question, with all
//! that its names stand for.
//!
//! Every variable gets what ties it: a name its definition, a gate its parts, the values of an attribute
//! that exactly one of them holds, a number's marks their order, and whatever isn't asked no value. The
//! page on proofs says the same in formulas. Which questions there are, and what a solver makes of the
//! clauses, is not known here.

use super::gates::{Literal, Net, Point, Signal, Variable};
use crate::logic::{Formula, Name};
use crate::model::{AttributeId, AttributeKind, Linear, Origin, Ruleset, Test, ValueSet};
use crate::proof::dimacs::Cnf;
use std::collections::{BTreeMap, BTreeSet};

/// The most clauses that one sum may take.
const LARGEST_SUM: u64 = 20_000;

/// The most steps that a number in a sum may have.
const LONGEST_RANGE: i64 = 4_096;

/// A claim in clauses.
#[derive(Clone, Debug)]
pub(super) struct Claimed {
    /// The clauses.
    pub(super) cnf: Cnf,
    /// The variables that say what the facts are. All others follow from these, one after the other.
    pub(super) facts: BTreeSet<i32>,
}

/// Why a claim has no clauses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct SumTooLarge;

/// Puts a question into clauses: they can all hold at once exactly where some scenario answers it.
///
/// `define` says what a name stands for; the edited rulesets that names speak of are called as told.
///
/// # Errors
/// Where a sum would take too many clauses.
pub(super) fn clauses(
    (ruleset, edits): (&Ruleset, &[String]),
    question: &Formula,
    define: &dyn Fn(Name) -> Formula,
) -> Result<Claimed, SumTooLarge> {
    let mut writer = Writer {
        ruleset,
        net: Net::new(ruleset, edits),
        cnf: Cnf::default(),
        numbers: BTreeMap::new(),
        open: Vec::new(),
        attributes: BTreeMap::new(),
        too_large: false,
    };
    let possible = writer.name(Name::Possible);
    writer.assert(possible);
    let asked = writer.signal(question);
    writer.assert(asked);
    while let Some(point) = writer.open.pop() {
        writer.tie(point, define);
    }
    // Attributes come last: only now is it known which marks of a number are used. Whether they are
    // asked has been tied already, since every value that is used stands beside that.
    let attributes = std::mem::take(&mut writer.attributes);
    for (attribute, marks) in &attributes {
        writer.tie_attribute(*attribute, marks);
    }
    while let Some(point) = writer.open.pop() {
        writer.tie(point, define);
    }
    if writer.too_large {
        return Err(SumTooLarge);
    }
    let is_fact = |point| match writer.net.get(point) {
        Some((Point::Variable(variable), _)) => variable.is_fact(),
        _ => false,
    };
    let facts = writer.numbers.iter().filter(|(point, _)| is_fact(**point));
    let facts = facts.map(|(_, number)| *number).collect();
    Ok(Claimed {
        cnf: writer.cnf,
        facts,
    })
}

struct Writer<'r> {
    ruleset: &'r Ruleset,
    net: Net<'r>,
    cnf: Cnf,
    /// The variable of each point that has one.
    numbers: BTreeMap<usize, i32>,
    /// Points that are used and not yet tied.
    open: Vec<usize>,
    /// Attributes that are used, with the marks of a number.
    attributes: BTreeMap<AttributeId, BTreeSet<i64>>,
    too_large: bool,
}

impl Writer<'_> {
    fn number(&mut self, literal: Literal) -> i32 {
        let known = self.numbers.get(&literal.point).copied();
        let number = known.unwrap_or_else(|| {
            let words = self.net.get(literal.point).map_or("", |(_, words)| words);
            let number = self.cnf.variable(words.to_owned());
            self.numbers.insert(literal.point, number);
            self.open.push(literal.point);
            number
        });
        if literal.holds { number } else { -number }
    }

    fn clause(&mut self, literals: impl IntoIterator<Item = Literal>) {
        let mut clause: Vec<i32> = Vec::new();
        for literal in literals {
            clause.push(self.number(literal));
        }
        self.cnf.add(clause);
    }

    /// The literals that all have to hold for a literal to hold, or any of which makes it hold.
    fn parts(&self, literal: Literal) -> Option<(bool, Vec<Literal>)> {
        let Some((Point::Gate { all, parts }, _)) = self.net.get(literal.point) else {
            return None;
        };
        Some(if literal.holds {
            (*all, parts.clone())
        } else {
            (!*all, parts.iter().map(|part| part.negated()).collect())
        })
    }

    fn assert(&mut self, signal: Signal) {
        match signal {
            Signal::Constant(true) => {}
            Signal::Constant(false) => self.clause([]),
            Signal::Of(literal) => match self.parts(literal) {
                None => self.clause([literal]),
                Some((true, parts)) => parts.into_iter().for_each(|part| self.clause([part])),
                Some((false, parts)) => self.clause(parts),
            },
        }
    }

    /// The one holds exactly where the other does.
    fn equal(&mut self, one: Literal, other: Signal) {
        match other {
            Signal::Constant(true) => self.clause([one]),
            Signal::Constant(false) => self.clause([one.negated()]),
            Signal::Of(other) => match self.parts(other) {
                None => {
                    self.clause([one.negated(), other]);
                    self.clause([one, other.negated()]);
                }
                Some((all, parts)) => self.gate(one, all, &parts),
            },
        }
    }

    fn gate(&mut self, head: Literal, all: bool, parts: &[Literal]) {
        // "Any of" is the contrary of "all of the contraries".
        let turn = |literal: Literal| if all { literal } else { literal.negated() };
        let head = turn(head);
        for part in parts {
            self.clause([head.negated(), turn(*part)]);
        }
        let contraries = parts.iter().map(|part| turn(*part).negated());
        self.clause(std::iter::once(head).chain(contraries));
    }

    fn tie(&mut self, point: usize, define: &dyn Fn(Name) -> Formula) {
        let this = Literal { point, holds: true };
        match self.net.get(point).map(|(point, _)| point.clone()) {
            None => {}
            Some(Point::Gate { all, parts }) => self.gate(this, all, &parts),
            Some(Point::Variable(variable)) => match variable {
                Variable::Named(name) => {
                    let definition = self.signal(&define(name));
                    self.equal(this, definition);
                }
                Variable::Sum(linear) => self.tie_sum(this, &linear),
                Variable::AtLeast(attribute, step) => {
                    self.attributes.entry(attribute).or_default().insert(step);
                }
                Variable::Yes(attribute)
                | Variable::Value(attribute, _)
                | Variable::Item(attribute, _) => {
                    self.attributes.entry(attribute).or_default();
                }
            },
        }
    }

    fn name(&mut self, name: Name) -> Signal {
        self.net.variable(Variable::Named(name))
    }

    /// Whether an attribute is asked.
    fn asked(&mut self, attribute: AttributeId) -> Signal {
        let this = &self.ruleset[attribute];
        if this.asked_when.is_none() && this.origin == Origin::Stated {
            Signal::TRUE
        } else {
            self.name(Name::Asked(attribute))
        }
    }

    fn signal(&mut self, formula: &Formula) -> Signal {
        match formula {
            Formula::True => Signal::TRUE,
            Formula::False => Signal::FALSE,
            Formula::Holds(test) => {
                let so = self.test(test);
                self.guarded(test, so)
            }
            Formula::Fails(test) => {
                let so = self.test(test);
                self.guarded(test, so.negated())
            }
            Formula::Named(name) => self.name(*name),
            Formula::Not(part) => self.signal(part).negated(),
            Formula::All(parts) => {
                let parts = self.signals(parts);
                self.net.all(parts)
            }
            Formula::Any(parts) => {
                let parts = self.signals(parts);
                self.net.any(parts)
            }
            Formula::AtLeast(least, parts) => {
                let parts = self.signals(parts);
                self.net.at_least(*least as usize, &parts)
            }
        }
    }

    fn signals(&mut self, parts: &[Formula]) -> Vec<Signal> {
        parts.iter().map(|part| self.signal(part)).collect()
    }

    /// All that the comparison reads is asked, and it comes out so.
    fn guarded(&mut self, test: &Test, so: Signal) -> Signal {
        let mut parts = vec![so];
        for attribute in test.attributes() {
            parts.push(self.asked(attribute));
        }
        self.net.all(parts)
    }

    fn test(&mut self, test: &Test) -> Signal {
        match test {
            Test::OneOf { attribute, values } => self.one_of(*attribute, *values),
            Test::Within {
                attribute,
                low,
                high,
            } => {
                let from = self.at_least(*attribute, *low);
                let beyond = self.at_least(*attribute, high.saturating_add(1));
                self.net.all([from, beyond.negated()])
            }
            Test::Same { left, right, pairs } => {
                let mut same = Vec::new();
                for (one, other) in pairs {
                    let one = self.one_of(*left, ValueSet::one(usize::from(*one)));
                    let other = self.one_of(*right, ValueSet::one(usize::from(*other)));
                    same.push(self.net.all([one, other]));
                }
                self.net.any(same)
            }
            Test::Linear(linear) => self.net.variable(Variable::Sum(linear.clone())),
            Test::Several {
                attribute,
                items,
                least,
                most,
            } => {
                let mut present = Vec::new();
                for item in items.iter() {
                    present.push(self.net.variable(Variable::Item(*attribute, item)));
                }
                let enough = self.net.at_least(*least as usize, &present);
                let over = self
                    .net
                    .at_least((*most as usize).saturating_add(1), &present);
                self.net.all([enough, over.negated()])
            }
        }
    }

    fn one_of(&mut self, attribute: AttributeId, values: ValueSet) -> Signal {
        let names = match &self.ruleset[attribute].kind {
            AttributeKind::YesNo => {
                let yes = self.net.variable(Variable::Yes(attribute));
                let sides = [(0, yes.negated()), (1, yes)];
                let chosen: Vec<Signal> = sides
                    .into_iter()
                    .filter(|(value, _)| values.contains(*value))
                    .map(|(_, side)| side)
                    .collect();
                return match chosen.as_slice() {
                    [] => Signal::FALSE,
                    [one] => *one,
                    _ => Signal::TRUE,
                };
            }
            kind => kind.names().len(),
        };
        let mut chosen = Vec::new();
        for value in values.iter().filter(|value| *value < names) {
            chosen.push(self.net.variable(Variable::Value(attribute, value)));
        }
        self.net.any(chosen)
    }

    fn steps(&self, attribute: AttributeId) -> i64 {
        match &self.ruleset[attribute].kind {
            AttributeKind::Number(range) => range.steps,
            _ => 0,
        }
    }

    /// The number is at least this step, provided that it is asked.
    fn at_least(&mut self, attribute: AttributeId, step: i64) -> Signal {
        if step <= 0 {
            Signal::TRUE
        } else if step > self.steps(attribute) {
            Signal::FALSE
        } else {
            self.net.variable(Variable::AtLeast(attribute, step))
        }
    }

    /// The order encoding of a sum (Tamura, Taga, Kitagawa, Banbara: Compiling finite linear CSP into
    /// SAT, Constraints 14, 2009): for every choice of the other numbers, how far the longest may go.
    fn tie_sum(&mut self, head: Literal, sum: &Linear) {
        let mut parts = sum.parts.clone();
        let longest = (0..parts.len()).max_by_key(|index| {
            let (_, attribute) = parts
                .get(*index)
                .copied()
                .unwrap_or((0, AttributeId::new(0)));
            (self.steps(attribute), std::cmp::Reverse(*index))
        });
        let Some(longest) = longest else { return };
        let (weight, last) = parts.remove(longest);
        let others: Vec<(i64, AttributeId, i64)> = parts
            .iter()
            .map(|(weight, attribute)| (*weight, *attribute, self.steps(*attribute)))
            .collect();
        let choices = others.iter().try_fold(1u64, |product, (_, _, steps)| {
            product.checked_mul(u64::try_from(*steps).ok()?.checked_add(1)?)
        });
        let short = others.iter().all(|(_, _, steps)| *steps <= LONGEST_RANGE)
            && self.steps(last) <= LONGEST_RANGE;
        if weight == 0 || !short || choices.is_none_or(|choices| choices * 2 > LARGEST_SUM) {
            self.too_large = true;
            return;
        }
        let mut choice = vec![0i64; others.len()];
        loop {
            for side in [true, false] {
                self.sum_side(head, side, (weight, last), &others, &choice, sum.bound);
            }
            // The next choice, the first number fastest.
            let mut place = 0;
            loop {
                let (Some(value), Some((_, _, steps))) = (choice.get_mut(place), others.get(place))
                else {
                    return;
                };
                if *value < *steps {
                    *value += 1;
                    break;
                }
                *value = 0;
                place += 1;
            }
        }
    }

    /// Where the sum holds and the others weigh no less than this choice, the last is so far at most;
    /// where it does not hold and they weigh no more, it is further.
    fn sum_side(
        &mut self,
        head: Literal,
        holds: bool,
        (weight, last): (i64, AttributeId),
        others: &[(i64, AttributeId, i64)],
        choice: &[i64],
        bound: i64,
    ) {
        let mut clause = vec![if holds { head.negated() } else { head }];
        let mut left = i128::from(bound);
        for ((weight, attribute, _), value) in others.iter().zip(choice) {
            left -= i128::from(*weight) * i128::from(*value);
            let upwards = (*weight > 0) == holds;
            let weighs = if upwards {
                self.at_least(*attribute, *value)
            } else {
                self.at_least(*attribute, value + 1).negated()
            };
            match weighs {
                Signal::Constant(true) => {}
                Signal::Constant(false) => return,
                Signal::Of(literal) => clause.push(literal.negated()),
            }
        }
        let weight = i128::from(weight);
        // The steps of the last that keep the sum within its bound: up to a mark, or from one on.
        let (first_beyond, kept_below) = if weight > 0 {
            (left.div_euclid(weight) + 1, true)
        } else {
            (-(left.div_euclid(-weight)), false)
        };
        let mark = i64::try_from(first_beyond.clamp(-1, i128::from(i64::MAX))).unwrap_or(i64::MAX);
        let above = self.at_least(last, mark);
        let kept = if kept_below { above.negated() } else { above };
        match if holds { kept } else { kept.negated() } {
            Signal::Constant(true) => {}
            Signal::Constant(false) => self.clause(clause),
            Signal::Of(literal) => {
                clause.push(literal);
                self.clause(clause);
            }
        }
    }

    /// What ties the values of an attribute to each other, and to whether it is asked.
    fn tie_attribute(&mut self, attribute: AttributeId, marks: &BTreeSet<i64>) {
        let asked = match self.asked(attribute) {
            Signal::Of(literal) => Some(literal),
            Signal::Constant(_) => None,
        };
        let mut used = Vec::new();
        let mut variable = |net: &mut Net<'_>, variable: Variable| match net.variable(variable) {
            Signal::Of(literal) => used.push(literal),
            Signal::Constant(_) => {}
        };
        let kind = self.ruleset[attribute].kind.clone();
        match &kind {
            AttributeKind::YesNo => variable(&mut self.net, Variable::Yes(attribute)),
            AttributeKind::Choice(values) | AttributeKind::Scale(values) => {
                for value in 0..values.len() {
                    variable(&mut self.net, Variable::Value(attribute, value));
                }
            }
            AttributeKind::Several(items) => {
                for item in 0..items.len() {
                    variable(&mut self.net, Variable::Item(attribute, item));
                }
            }
            AttributeKind::Number(_) => {
                for mark in marks {
                    variable(&mut self.net, Variable::AtLeast(attribute, *mark));
                }
            }
        }
        match kind {
            AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
                let unasked = asked.map(Literal::negated);
                self.clause(unasked.into_iter().chain(used.iter().copied()));
                for (index, one) in used.iter().enumerate() {
                    for other in used.iter().take(index) {
                        self.clause([one.negated(), other.negated()]);
                    }
                }
            }
            AttributeKind::Number(_) => {
                for (lower, higher) in used.iter().zip(used.iter().skip(1)) {
                    self.clause([higher.negated(), *lower]);
                }
            }
            AttributeKind::YesNo | AttributeKind::Several(_) => {}
        }
        if let Some(asked) = asked {
            for value in used {
                self.clause([value.negated(), asked]);
            }
        }
    }
}
