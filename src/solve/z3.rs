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
//!
//! Each question gets a Z3 solver of its own, which holds what the question rests on and nothing
//! else. One solver that remembers was no faster where the answer is no, and half as fast where it is
//! yes, since its scenario then has to fit all that was ever asked about. Which scenario Z3 finds
//! depends on what its context saw before, so a scenario is found once more in a fresh context: the
//! same question has the same answer, whatever was asked before and by whichever thread.

use super::cone::{Cone, cone, sometimes_asked};
use super::{Answer, Budget, Reason, Solver};
use crate::logic::{
    Code, Formula, Name, Replay, Scenario, Theory, highest_code, is_asked, is_valid,
};
use crate::model::{AttributeId, AttributeKind, Linear, Ruleset, Test, ValueSet};
use std::collections::BTreeMap;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;
use z3::ast::{Bool, Int, atleast, atmost};
use z3::{Config, Context, Model, Params, SatResult, Tactic};

/// How often a running question looks whether it should stop.
const LOOK: Duration = Duration::from_millis(20);

/// The name of the solver, with its version.
pub fn version() -> String {
    let version = z3::full_version();
    // Some builds begin with the name.
    format!("Z3 {}", version.strip_prefix("Z3 ").unwrap_or(version))
}

/// Answers questions by Z3. Several may work at once, each in its own thread.
pub struct Z3Solver<'r> {
    theory: Theory<'r>,
    budget: Budget,
}

impl<'r> Z3Solver<'r> {
    /// Takes a ruleset and what a run may use.
    ///
    /// Z3 counts memory for the process as a whole, and at most 4 GiB can be set: the limit of the
    /// last solver made with one is in effect.
    pub fn new(ruleset: &'r Ruleset, budget: Budget) -> Self {
        Z3Solver::over(Theory::new(ruleset), budget)
    }

    /// The same over definitions that were narrowed to some clauses.
    pub fn over(theory: Theory<'r>, budget: Budget) -> Self {
        if let Some(mebibytes) = budget.memory() {
            // At this mark Z3 gives up and says so. At its hard limit it would fail in the middle of
            // building a term. The mark is a 32-bit number of bytes.
            let bytes = u32::try_from(u64::from(mebibytes) << 20).unwrap_or(u32::MAX);
            z3::set_global_param("memory_high_watermark", &bytes.to_string());
        }
        Z3Solver { theory, budget }
    }

    /// The scenario of a model: what the question rests on as the model has it, and everything else
    /// at its most ordinary, which neither the question nor any background line reads.
    fn scenario(&self, found: &BTreeMap<AttributeId, Code>) -> Scenario {
        let ruleset = self.theory.ruleset();
        let mut scenario = Scenario::unasked(ruleset.attributes.len());
        for attribute in &ruleset.asking_order {
            let asked = sometimes_asked(ruleset, *attribute).is_none()
                || is_asked(ruleset, &scenario, *attribute);
            if asked {
                let code = found.get(attribute).copied().unwrap_or(Code(0));
                scenario.set(*attribute, Some(code));
            }
        }
        scenario
    }
}

impl Solver for Z3Solver<'_> {
    fn ask(&mut self, question: &Formula) -> Answer {
        if let Some(reason) = self.budget.question() {
            return Answer::Undecided(reason);
        }
        let ruleset = self.theory.ruleset();
        let cone = cone(&self.theory, question);
        let budget = &self.budget;
        let found = match solve(ruleset, &cone, question, budget) {
            Found::Some(_) => {
                z3::with_z3_config(&Config::new(), || solve(ruleset, &cone, question, budget))
            }
            other => other,
        };
        let scenario = match found {
            Found::None => return Answer::No,
            Found::Unknown(reason) => return Answer::Undecided(reason),
            Found::Some(values) => self.scenario(&values),
        };
        if is_valid(ruleset, &scenario)
            && Replay::over(ruleset, self.theory.edits(), &scenario).holds(question)
        {
            Answer::Yes(scenario)
        } else {
            Answer::Undecided(Reason::ReplayFailed)
        }
    }
}

/// What Z3 says: the value of every attribute of the cone, asked or not.
enum Found {
    Some(BTreeMap<AttributeId, Code>),
    None,
    Unknown(Reason),
}

fn solve(ruleset: &Ruleset, cone: &Cone, question: &Formula, budget: &Budget) -> Found {
    let encoding = Encoding::new(ruleset, cone);
    // For questions of this kind the plain tactic is ten times as fast as the default one.
    let solver = Tactic::new("smt").solver();
    let mut parameters = Params::new();
    parameters.set_u32("random_seed", 0);
    // The program's own handler of Ctrl-C stays in place.
    parameters.set_bool("ctrl_c", false);
    solver.set_params(&parameters);

    for bound in encoding.bounds() {
        solver.assert(bound);
    }
    for (name, definition) in &cone.definitions {
        solver.assert(constant(*name).eq(encoding.formula(definition)));
    }
    solver.assert(constant(Name::Possible));
    solver.assert(encoding.formula(question));

    match check(&solver, budget) {
        Err(reason) => Found::Unknown(reason),
        Ok(SatResult::Unsat) => Found::None,
        Ok(SatResult::Unknown) => Found::Unknown(why_unknown(&solver, budget)),
        Ok(SatResult::Sat) => match solver.get_model() {
            Some(model) => Found::Some(encoding.values(&model)),
            None => Found::Unknown(Reason::GaveUp("it gave no model".to_owned())),
        },
    }
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
                if budget.exhausted().is_some() {
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
    if let Some(reason) = budget.exhausted() {
        return reason;
    }
    let words = solver.get_reason_unknown().unwrap_or_default();
    if words.contains("mem") {
        Reason::Memory
    } else {
        Reason::GaveUp(words)
    }
}

/// The attributes of a cone in Z3's terms.
struct Encoding<'r> {
    ruleset: &'r Ruleset,
    variables: BTreeMap<AttributeId, Variable>,
}

enum Variable {
    YesNo(Bool),
    Whole(Int),
    Items(Vec<Bool>),
}

impl<'r> Encoding<'r> {
    fn new(ruleset: &'r Ruleset, cone: &Cone) -> Self {
        let variable = |attribute: AttributeId| {
            let symbol = format!("{attribute:?}");
            match &ruleset[attribute].kind {
                AttributeKind::YesNo => Variable::YesNo(Bool::new_const(symbol)),
                AttributeKind::Choice(_) | AttributeKind::Scale(_) | AttributeKind::Number(_) => {
                    Variable::Whole(Int::new_const(symbol))
                }
                AttributeKind::Several(items) => {
                    let item = |item| Bool::new_const(format!("{symbol} has {item}"));
                    Variable::Items((0..items.len()).map(item).collect())
                }
            }
        };
        let attributes = cone.attributes.iter();
        Encoding {
            ruleset,
            variables: attributes.map(|id| (*id, variable(*id))).collect(),
        }
    }

    /// What always holds of the attributes: each lies in its range, and is pinned where it isn't asked.
    fn bounds(&self) -> Vec<Bool> {
        let mut bounds = Vec::new();
        for (attribute, variable) in &self.variables {
            if let Variable::Whole(value) = variable {
                bounds.push(within(value, 0, self.highest(*attribute)));
            }
            if let Some(name) = sometimes_asked(self.ruleset, *attribute) {
                let asked = constant(name);
                match variable {
                    Variable::YesNo(yes) => bounds.push(yes.implies(&asked)),
                    Variable::Whole(value) => bounds.push(Bool::or(&[asked, value.eq(0)])),
                    Variable::Items(items) => {
                        bounds.extend(items.iter().map(|item| item.implies(&asked)));
                    }
                }
            }
        }
        bounds
    }

    fn highest(&self, attribute: AttributeId) -> i64 {
        i64::try_from(highest_code(&self.ruleset[attribute].kind)).unwrap_or(i64::MAX)
    }

    fn formula(&self, formula: &Formula) -> Bool {
        let all = |parts: &[Formula]| -> Vec<Bool> {
            parts.iter().map(|part| self.formula(part)).collect()
        };
        match formula {
            Formula::True => Bool::from_bool(true),
            Formula::False => Bool::from_bool(false),
            Formula::Holds(test) => Bool::and(&[self.asked(test), self.test(test)]),
            Formula::Fails(test) => Bool::and(&[self.asked(test), self.test(test).not()]),
            Formula::Named(name) => constant(*name),
            Formula::Not(part) => self.formula(part).not(),
            Formula::All(parts) => Bool::and(&all(parts)),
            Formula::Any(parts) => Bool::or(&all(parts)),
            Formula::AtLeast(least, parts) => atleast(&all(parts), *least),
        }
    }

    /// Everything that the comparison reads is asked.
    fn asked(&self, test: &Test) -> Bool {
        let attributes = test.attributes().into_iter();
        let names = attributes.filter_map(|attribute| sometimes_asked(self.ruleset, attribute));
        Bool::and(&names.map(constant).collect::<Vec<_>>())
    }

    fn test(&self, test: &Test) -> Bool {
        match test {
            Test::OneOf { attribute, values } => self.one_of(*attribute, *values),
            Test::Within {
                attribute,
                low,
                high,
            } => within(&self.whole(*attribute), *low, *high),
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
            } => self.count(*attribute, *items, *least, *most),
        }
    }

    /// An attribute as a number; a yes/no as zero or one.
    fn whole(&self, attribute: AttributeId) -> Int {
        match self.variables.get(&attribute) {
            Some(Variable::Whole(value)) => value.clone(),
            Some(Variable::YesNo(yes)) => yes.ite(&Int::from_i64(1), &Int::from_i64(0)),
            Some(Variable::Items(_)) | None => Int::from_i64(0),
        }
    }

    /// The value is in the set: one comparison for each run of neighbours.
    fn one_of(&self, attribute: AttributeId, values: ValueSet) -> Bool {
        let value = self.whole(attribute);
        let mut runs: Vec<(i64, i64)> = Vec::new();
        for index in values.iter().filter_map(|index| i64::try_from(index).ok()) {
            match runs.last_mut() {
                Some((_, end)) if *end + 1 == index => *end = index,
                _ => runs.push((index, index)),
            }
        }
        let runs = runs.iter().map(|(low, high)| within(&value, *low, *high));
        Bool::or(&runs.collect::<Vec<_>>())
    }

    fn count(&self, attribute: AttributeId, items: ValueSet, least: u32, most: u32) -> Bool {
        let Some(Variable::Items(all)) = self.variables.get(&attribute) else {
            return Bool::from_bool(false);
        };
        let looked_at: Vec<&Bool> = items.iter().filter_map(|item| all.get(item)).collect();
        let enough = atleast(looked_at.iter().copied(), least);
        let not_too_many = atmost(looked_at.iter().copied(), most);
        Bool::and(&[enough, not_too_many])
    }

    fn values(&self, model: &Model) -> BTreeMap<AttributeId, Code> {
        let yes = |value: &Bool| {
            let shown = model.eval(value, true);
            shown.and_then(|value| value.as_bool()).unwrap_or(false)
        };
        let code = |variable: &Variable| match variable {
            Variable::YesNo(value) => u64::from(yes(value)),
            Variable::Whole(value) => {
                let shown = model.eval(value, true);
                shown.and_then(|value| value.as_u64()).unwrap_or(0)
            }
            Variable::Items(items) => (0u32..)
                .zip(items)
                .filter(|(_, item)| yes(item))
                .fold(0, |code, (bit, _)| {
                    code | 1u64.checked_shl(bit).unwrap_or(0)
                }),
        };
        let variables = self.variables.iter();
        variables
            .map(|(id, variable)| (*id, Code(code(variable))))
            .collect()
    }
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
