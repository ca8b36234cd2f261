//! Questions put to Z3.
//!
//! The only file that names the Z3 crate. It turns formulas into Z3's terms and Z3's models into
//! scenarios; it refuses to know what a ruleset means (definitions come from the theory) and it
//! believes no model: each is replayed by the plain evaluator first.
//!
//! The encoding is the readable one. A yes/no attribute is a Boolean, a choice, scale or number an
//! integer within its range, a `several` one Boolean an item; a name is a Boolean that equals its
//! definition. An attribute that is not asked is pinned to no, zero, or the empty set, so that one
//! scenario is one model.

use super::{Answer, Budget, Reason, Solver, now};
use crate::logic::{
    Code, Formula, Name, Replay, Scenario, Theory, highest_code, is_asked, is_valid,
};
use crate::model::{AttributeId, AttributeKind, Linear, Origin, Ruleset, Test, ValueSet};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;
use z3::ast::{Bool, Int, atleast, atmost};
use z3::{Context, Model, Params, SatResult};

/// How often a running question looks whether it should stop.
const LOOK: Duration = Duration::from_millis(20);

/// Answers questions by Z3. Each thread has its own; several may work at once.
pub struct Z3Solver<'r> {
    theory: Theory<'r>,
    budget: Budget,
    variables: BTreeMap<AttributeId, Variable>,
    names: BTreeMap<Name, Term>,
}

/// An attribute in Z3's terms, with what always holds for it: it lies in its range, and it is pinned
/// where it is not asked.
struct Variable {
    value: Value,
    bounds: Vec<Bool>,
}

enum Value {
    YesNo(Bool),
    Whole(Int),
    Items(Vec<Bool>),
}

/// A formula in Z3's terms.
struct Term {
    holds: Bool,
    uses: Uses,
}

/// What occurs in a formula.
#[derive(Clone, Default)]
struct Uses {
    names: BTreeSet<Name>,
    attributes: BTreeSet<AttributeId>,
}

impl<'r> Z3Solver<'r> {
    /// Takes a ruleset and what a run may use.
    ///
    /// Memory is limited for the process as a whole, since Z3 counts it so; the last solver made
    /// sets the limit.
    pub fn new(ruleset: &'r Ruleset, budget: Budget) -> Self {
        limit_memory(&budget);
        Z3Solver {
            theory: Theory::new(ruleset),
            budget,
            variables: BTreeMap::new(),
            names: BTreeMap::new(),
        }
    }

    /// The definitions that questions are asked over.
    pub fn theory(&self) -> &Theory<'r> {
        &self.theory
    }

    /// Asserts what a question rests on: the definitions of every name below it, the bounds of every
    /// attribute below it, and the background. Goes by a list, not by recursion: a chain of
    /// clauses may be as long as the rulebook.
    fn assert_below(&mut self, solver: &z3::Solver, uses: Uses) -> BTreeSet<AttributeId> {
        let mut seen = Uses::default();
        let mut open: Vec<Name> = Vec::new();
        let mut fresh = uses;
        fresh.names.insert(Name::Possible);
        solver.assert(constant(Name::Possible));
        loop {
            for attribute in fresh.attributes {
                if seen.attributes.insert(attribute) {
                    open.extend(asked_somewhere_only(self.theory.ruleset(), attribute));
                    for bound in &self.variable(attribute).bounds {
                        solver.assert(bound);
                    }
                }
            }
            open.extend(fresh.names);
            let Some(name) = open.pop() else {
                return seen.attributes;
            };
            fresh = Uses::default();
            if seen.names.insert(name) {
                let definition = self.definition(name);
                solver.assert(constant(name).eq(&definition.holds));
                fresh = definition.uses.clone();
            }
        }
    }

    fn definition(&mut self, name: Name) -> &Term {
        if !self.names.contains_key(&name) {
            let formula = self.theory.define(name);
            let mut uses = Uses::default();
            let holds = self.translate(&formula, &mut uses);
            self.names.insert(name, Term { holds, uses });
        }
        &self.names[&name]
    }

    fn variable(&mut self, attribute: AttributeId) -> &Variable {
        let ruleset = self.theory.ruleset();
        self.variables
            .entry(attribute)
            .or_insert_with(|| Variable::new(ruleset, attribute))
    }

    fn translate(&mut self, formula: &Formula, uses: &mut Uses) -> Bool {
        let mut all = |this: &mut Self, parts: &[Formula]| -> Vec<Bool> {
            parts
                .iter()
                .map(|part| this.translate(part, uses))
                .collect()
        };
        match formula {
            Formula::True => Bool::from_bool(true),
            Formula::False => Bool::from_bool(false),
            Formula::Holds(test) => self.compare(test, true, uses),
            Formula::Fails(test) => self.compare(test, false, uses),
            Formula::Named(name) => {
                uses.names.insert(*name);
                constant(*name)
            }
            Formula::Not(part) => self.translate(part, uses).not(),
            Formula::All(parts) => Bool::and(&all(self, parts)),
            Formula::Any(parts) => Bool::or(&all(self, parts)),
            Formula::AtLeast(least, parts) => atleast(&all(self, parts), *least),
        }
    }

    /// Everything that the comparison reads is asked, and it is so (or not so).
    fn compare(&mut self, test: &Test, so: bool, uses: &mut Uses) -> Bool {
        let holds = self.test(test);
        let mut parts = vec![if so { holds } else { holds.not() }];
        for attribute in test.attributes() {
            uses.attributes.insert(attribute);
            parts.extend(asked_somewhere_only(self.theory.ruleset(), attribute).map(constant));
        }
        Bool::and(&parts)
    }

    fn test(&mut self, test: &Test) -> Bool {
        match test {
            Test::OneOf { attribute, values } => {
                let highest = highest_code(&self.theory.ruleset()[*attribute].kind);
                match &self.variable(*attribute).value {
                    Value::YesNo(yes) => match (values.contains(0), values.contains(1)) {
                        (true, true) => Bool::from_bool(true),
                        (true, false) => yes.not(),
                        (false, true) => yes.clone(),
                        (false, false) => Bool::from_bool(false),
                    },
                    Value::Whole(value) => one_of(value, *values, highest),
                    Value::Items(_) => Bool::from_bool(false),
                }
            }
            Test::Within {
                attribute,
                low,
                high,
            } => match &self.variable(*attribute).value {
                Value::Whole(value) => within(value, *low, *high),
                Value::YesNo(_) | Value::Items(_) => Bool::from_bool(false),
            },
            Test::Same { left, right, pairs } => {
                let (left, right) = (self.whole(*left), self.whole(*right));
                let same = pairs.iter().map(|(one, other)| {
                    Bool::and(&[left.eq(i64::from(*one)), right.eq(i64::from(*other))])
                });
                Bool::or(&same.collect::<Vec<_>>())
            }
            Test::Linear(Linear { parts, bound }) => {
                let weighted = parts
                    .iter()
                    .map(|(weight, attribute)| self.whole(*attribute) * Int::from_i64(*weight));
                Int::add(&weighted.collect::<Vec<_>>()).le(*bound)
            }
            Test::Several {
                attribute,
                items,
                least,
                most,
            } => match &self.variable(*attribute).value {
                Value::Items(all) => counted(all, *items, *least, *most),
                Value::YesNo(_) | Value::Whole(_) => Bool::from_bool(false),
            },
        }
    }

    /// A yes/no as zero or one, so that every attribute but a `several` can be compared as a number.
    fn whole(&mut self, attribute: AttributeId) -> Int {
        match &self.variable(attribute).value {
            Value::Whole(value) => value.clone(),
            Value::YesNo(yes) => yes.ite(&Int::from_i64(1), &Int::from_i64(0)),
            Value::Items(_) => Int::from_i64(0),
        }
    }

    /// The scenario of a model: what occurs in the question as the model has it, everything else at
    /// its most ordinary, which no background line and no `asked_when` of the former reads.
    fn scenario(&self, model: &Model, occurring: &BTreeSet<AttributeId>) -> Scenario {
        let ruleset = self.theory.ruleset();
        let mut scenario = Scenario::unasked(ruleset.attributes.len());
        for attribute in &ruleset.asking_order {
            if asked_somewhere_only(ruleset, *attribute).is_some()
                && !is_asked(ruleset, &scenario, *attribute)
            {
                continue;
            }
            let code = if occurring.contains(attribute) {
                self.variables
                    .get(attribute)
                    .map_or(0, |variable| variable.value.code(model))
            } else {
                0
            };
            scenario.set(*attribute, Some(Code(code)));
        }
        scenario
    }
}

impl Solver for Z3Solver<'_> {
    fn ask(&mut self, question: &Formula) -> Answer {
        if let Some(reason) = self.budget.spent(now()) {
            return Answer::Undecided(reason);
        }
        let solver = z3::Solver::new();
        solver.set_params(&parameters());
        let mut uses = Uses::default();
        let holds = self.translate(question, &mut uses);
        solver.assert(&holds);
        let occurring = self.assert_below(&solver, uses);
        match check(&solver, &self.budget) {
            Err(reason) => Answer::Undecided(reason),
            Ok(SatResult::Unsat) => Answer::No,
            Ok(SatResult::Unknown) => Answer::Undecided(why_unknown(&solver, &self.budget)),
            Ok(SatResult::Sat) => {
                let Some(model) = solver.get_model() else {
                    return Answer::Undecided(Reason::GaveUp("it gave no model".to_owned()));
                };
                let scenario = self.scenario(&model, &occurring);
                let ruleset = self.theory.ruleset();
                let agreed =
                    is_valid(ruleset, &scenario) && Replay::new(ruleset, &scenario).holds(question);
                if agreed {
                    Answer::Yes(scenario)
                } else {
                    Answer::Undecided(Reason::ReplayFailed)
                }
            }
        }
    }
}

impl Variable {
    fn new(ruleset: &Ruleset, attribute: AttributeId) -> Self {
        let kind = &ruleset[attribute].kind;
        let symbol = format!("{attribute:?}");
        let highest = i64::try_from(highest_code(kind)).unwrap_or(i64::MAX);
        let mut bounds = Vec::new();
        let value = match kind {
            AttributeKind::YesNo => Value::YesNo(Bool::new_const(symbol)),
            AttributeKind::Choice(_) | AttributeKind::Scale(_) | AttributeKind::Number(_) => {
                let value = Int::new_const(symbol);
                bounds.push(within(&value, 0, highest));
                Value::Whole(value)
            }
            AttributeKind::Several(items) => Value::Items(
                (0..items.len())
                    .map(|item| Bool::new_const(format!("{symbol} has {item}")))
                    .collect(),
            ),
        };
        if let Some(asked) = asked_somewhere_only(ruleset, attribute) {
            let asked = constant(asked);
            match &value {
                Value::YesNo(yes) => bounds.push(yes.implies(&asked)),
                Value::Whole(value) => bounds.push(Bool::or(&[asked, value.eq(0)])),
                Value::Items(all) => bounds.extend(all.iter().map(|item| item.implies(&asked))),
            }
        }
        Variable { value, bounds }
    }
}

impl Value {
    fn code(&self, model: &Model) -> u64 {
        let yes = |value: &Bool| {
            let shown = model.eval(value, true);
            shown.and_then(|value| value.as_bool()).unwrap_or(false)
        };
        match self {
            Value::YesNo(value) => u64::from(yes(value)),
            Value::Whole(value) => {
                let shown = model.eval(value, true);
                shown.and_then(|value| value.as_u64()).unwrap_or(0)
            }
            Value::Items(items) => (0u32..)
                .zip(items)
                .filter(|(_, item)| yes(item))
                .fold(0, |code, (bit, _)| {
                    code | 1u64.checked_shl(bit).unwrap_or(0)
                }),
        }
    }
}

/// The name that says whether the attribute is asked; none where it always is.
fn asked_somewhere_only(ruleset: &Ruleset, attribute: AttributeId) -> Option<Name> {
    let this = &ruleset[attribute];
    let always = this.asked_when.is_none() && this.origin == Origin::Stated;
    (!always).then_some(Name::Asked(attribute))
}

fn constant(name: Name) -> Bool {
    Bool::new_const(format!("{name:?}"))
}

fn within(value: &Int, low: i64, high: i64) -> Bool {
    if low == high {
        value.eq(low)
    } else {
        Bool::and(&[value.ge(low), value.le(high)])
    }
}

/// The value is in the set: one comparison for each run of neighbours.
fn one_of(value: &Int, values: ValueSet, highest: u64) -> Bool {
    let mut runs: Vec<(i64, i64)> = Vec::new();
    for index in (0i64..).zip(0..=highest).map(|(index, _)| index) {
        if !values.contains(usize::try_from(index).unwrap_or(usize::MAX)) {
            continue;
        }
        match runs.last_mut() {
            Some((_, end)) if *end + 1 == index => *end = index,
            _ => runs.push((index, index)),
        }
    }
    let runs = runs.iter().map(|(low, high)| within(value, *low, *high));
    Bool::or(&runs.collect::<Vec<_>>())
}

fn counted(all: &[Bool], items: ValueSet, least: u32, most: u32) -> Bool {
    let looked_at: Vec<&Bool> = items.iter().filter_map(|item| all.get(item)).collect();
    let enough = match least {
        0 => Bool::from_bool(true),
        1 => Bool::or(&looked_at),
        _ => atleast(looked_at.iter().copied(), least),
    };
    let not_too_many = match usize::try_from(most) {
        Ok(most) if most < looked_at.len() => atmost(looked_at, u32::try_from(most).unwrap_or(0)),
        _ => Bool::from_bool(true),
    };
    Bool::and(&[enough, not_too_many])
}

fn parameters() -> Params {
    let mut parameters = Params::new();
    parameters.set_u32("random_seed", 0);
    // The program's own handler of Ctrl-C stays in place.
    parameters.set_bool("ctrl_c", false);
    parameters
}

fn limit_memory(budget: &Budget) {
    // At the high-water mark Z3 gives up and says so; at its hard limit it would fail in the middle
    // of building a term. The mark is a 32-bit number of bytes.
    let bytes = budget.memory().map_or(0, |mebibytes| {
        u32::try_from(u64::from(mebibytes) << 20).unwrap_or(u32::MAX)
    });
    z3::set_global_param("memory_high_watermark", &bytes.to_string());
}

/// Checks, and ends soon after the budget is spent.
fn check(solver: &z3::Solver, budget: &Budget) -> Result<SatResult, Reason> {
    let context = Context::thread_local();
    let handle = context.handle();
    let (running, finished) = mpsc::channel::<()>();
    thread::scope(|scope| {
        let watch = move || {
            // A request to interrupt is lost while Z3 isn't searching yet, so it is repeated.
            while let Err(mpsc::RecvTimeoutError::Timeout) = finished.recv_timeout(LOOK) {
                if budget.spent(now()).is_some() {
                    handle.interrupt();
                }
            }
        };
        // Without a watcher the question could not be stopped, so it is not begun.
        thread::Builder::new()
            .spawn_scoped(scope, watch)
            .map_err(|error| Reason::GaveUp(format!("no thread to watch the time: {error}")))?;
        let result = solver.check();
        drop(running);
        Ok(result)
    })
}

fn why_unknown(solver: &z3::Solver, budget: &Budget) -> Reason {
    if let Some(reason) = budget.spent(now()) {
        return reason;
    }
    let words = solver.get_reason_unknown().unwrap_or_default();
    if words.contains("mem") {
        Reason::Memory
    } else {
        Reason::GaveUp(words)
    }
}
