//! Sets of scenarios as binary decision diagrams over cells.
//!
//! Diagrams give what a solver's yes or no cannot: exact counts, the most ordinary scenario, and
//! whether a general condition covers a set exactly. They are built under a limit of work; beyond
//! it the answer is [`TooLarge`], never a guess.
//!
//! Cells are coded in bits, a layer's bits side by side (Bryant, Graph-based algorithms for Boolean
//! function manipulation, IEEE Transactions on Computers C-35, 1986, for the diagrams themselves).

mod aside;
mod comparison;

use super::layers::{Layers, Part};
use super::{Atom, Edits, Formula, Name, Theory};
use biodivine_lib_bdd::{Bdd, BddPointer, BddVariable, BddVariableSet, op_function};
use comparison::Wanted;
use std::cell::Cell;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The set needs more work than was allowed, or finer cells than there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLarge;

/// A set of scenarios.
pub type Set = Arc<Bdd>;

/// Says when to stop before the work is used up.
pub type Stop = Arc<dyn Fn() -> bool + Send + Sync>;

/// Makes sets of scenarios of one ruleset.
pub struct Diagrams<'r> {
    theory: Theory<'r>,
    ready: Ready,
    /// What was worked out since, for one question or several, each in so many steps of narrowing; right
    /// within what was left then.
    named: BTreeMap<Name, (Set, usize)>,
    /// Outside of this set nobody asks.
    within: Option<Set>,
    /// How often the question was narrowed.
    narrowings: usize,
    /// What words of the ruleset stand for.
    worded: BTreeMap<String, Option<Arc<Atom>>>,
    /// Nodes that may still be made.
    work: usize,
    /// Nodes that one set may have.
    largest: usize,
    /// Steps that may still be taken along nodes.
    steps: Cell<usize>,
    stop: Stop,
}

/// What all questions about a ruleset have in common. Clones share it, in whatever thread they are.
#[derive(Clone)]
pub struct Ready {
    layers: Arc<Layers>,
    /// For each layer, its bits, the most significant first.
    bits: Arc<Vec<Vec<BddVariable>>>,
    variables: Arc<BddVariableSet>,
    space: Set,
    /// What names stand for; empty where that would have been too much work.
    named: Arc<BTreeMap<Name, Set>>,
}

/// Steps along nodes that are allowed for each node that may be made.
const STEPS_FOR_A_NODE: usize = 4;

/// How many steps are taken between two looks at whether to stop.
const STEPS_BETWEEN_LOOKS: usize = 4096;

impl<'r> Diagrams<'r> {
    /// Prepares the space of a ruleset; `work` is how many nodes may be made in all, and `stop` says
    /// when to give up before that.
    ///
    /// # Errors
    /// [`TooLarge`] where the space itself needs more, or a sum needs more cells than are sensible.
    pub fn new(
        theory: Theory<'r>,
        layers: Layers,
        work: usize,
        stop: Stop,
    ) -> Result<Self, TooLarge> {
        let widths: Vec<usize> = layers
            .all()
            .iter()
            .map(|layer| width(layer.cells))
            .collect();
        let total = u16::try_from(widths.iter().sum::<usize>()).map_err(|_| TooLarge)?;
        if total > 60_000 || !layers.sums_refined() {
            return Err(TooLarge);
        }
        let variables = BddVariableSet::new_anonymous(total);
        let mut next = 0usize;
        let mut bits = Vec::with_capacity(widths.len());
        for width in widths {
            bits.push((next..next + width).map(BddVariable::from_index).collect());
            next += width;
        }
        let everything = Arc::new(variables.mk_true());
        let ready = Ready {
            layers: Arc::new(layers),
            bits: Arc::new(bits),
            variables: Arc::new(variables),
            space: everything,
            named: Arc::default(),
        };
        let mut made = Diagrams::over(theory, ready, work, stop);
        made.ready.space = made.whole_space()?;
        Ok(made)
    }

    /// The same space for other questions: in another thread, or over definitions that were narrowed
    /// to some clauses (then what names stand for is not taken over).
    pub fn over(theory: Theory<'r>, mut ready: Ready, work: usize, stop: Stop) -> Self {
        if theory.is_narrowed() {
            ready.named = Arc::default();
        }
        Diagrams {
            theory,
            ready,
            named: BTreeMap::new(),
            within: None,
            narrowings: 0,
            worded: BTreeMap::new(),
            work,
            largest: usize::MAX,
            steps: Cell::new(work.saturating_mul(STEPS_FOR_A_NODE)),
            stop,
        }
    }

    /// What other questions can share.
    pub fn ready(&self) -> Ready {
        self.ready.clone()
    }

    /// Works out beforehand what every name of the ruleset as it stands stands for, within so much
    /// work and with no set larger than this, or not at all; says whether it was done. From then on
    /// the work that a question needs does not depend on what was asked before.
    pub fn prepare(&mut self, work: usize, largest: usize) -> bool {
        self.allow(work);
        self.largest = largest;
        let names = self.theory.actual_names();
        let done = names.into_iter().all(|name| self.name(name).is_ok());
        self.largest = usize::MAX;
        if done {
            let named = std::mem::take(&mut self.named).into_iter();
            let named = named.map(|(name, (set, _))| (name, set));
            self.ready.named = Arc::new(named.collect());
        }
        done
    }

    /// Whether the names of the ruleset as it stands were worked out beforehand.
    pub fn is_prepared(&self) -> bool {
        !self.ready.named.is_empty()
    }

    /// Allows so many nodes for a new question. What was worked out for the last one is forgotten if
    /// the names were worked out beforehand: then the same question needs the same work whenever it
    /// is asked.
    pub fn begin(&mut self, work: usize) {
        if self.is_prepared() {
            self.named.clear();
        }
        self.allow(work);
    }

    /// Takes the edits that the next question may speak of.
    pub fn edit(&mut self, edits: &Edits) {
        self.theory = self.theory.editing(edits.clone());
        self.named.clear();
    }

    /// Allows so many nodes from now on, whatever was left.
    pub fn allow(&mut self, work: usize) {
        self.work = work;
        self.steps.set(work.saturating_mul(STEPS_FOR_A_NODE));
    }

    /// Takes one step along nodes.
    ///
    /// # Errors
    /// [`TooLarge`] where no more are allowed.
    pub(super) fn step(&self) -> Result<(), TooLarge> {
        let left = self.steps.get().checked_sub(1).ok_or(TooLarge)?;
        self.steps.set(left);
        if left % STEPS_BETWEEN_LOOKS == 0 && (self.stop)() {
            self.steps.set(0);
        }
        Ok(())
    }

    /// Whether no more steps are allowed.
    pub(super) fn is_exhausted(&self) -> bool {
        self.steps.get() == 0
    }

    /// The definitions.
    pub fn theory(&self) -> &Theory<'r> {
        &self.theory
    }

    /// The layers.
    pub fn layers(&self) -> &Layers {
        &self.ready.layers
    }

    /// All scenarios.
    pub fn space(&self) -> Set {
        Arc::clone(&self.ready.space)
    }

    fn whole_space(&mut self) -> Result<Set, TooLarge> {
        let mut parts = vec![self.name(Name::Possible)?];
        for index in 0..self.ready.layers.all().len() {
            let Some(layer) = self.ready.layers.all().get(index).cloned() else {
                continue;
            };
            let codes = (0..layer.cells)
                .map(|cell| self.cell(index, cell))
                .collect();
            parts.push(self.any(codes)?);
            if layer.part == Part::Asked {
                for item in self.ready.layers.of(layer.attribute).skip(1) {
                    let present_only_if_asked = [self.cell(index, 1), self.cell(item, 0)].to_vec();
                    parts.push(self.any(present_only_if_asked)?);
                }
            }
            if layer.is_conditional() {
                let asked = self.name(Name::Asked(layer.attribute))?;
                let chosen = self.cell(index, 0);
                let same =
                    Bdd::binary_op_with_limit(self.limit(), &asked, &chosen, op_function::xor);
                parts.push(self.spend(same)?);
            }
        }
        self.all(parts)
    }

    /// The set of scenarios in which a formula holds.
    ///
    /// Of a conjunction, the parts that name only what was worked out beforehand, or nothing, come
    /// first, and whatever the others name is looked at only within what those before it left: sets
    /// stay small that way.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn set(&mut self, formula: &Formula) -> Result<Set, TooLarge> {
        let (known, others): (Vec<_>, Vec<_>) = parts(formula)
            .iter()
            .partition(|part| self.is_worked_out(part));
        let is_narrowed = self.is_prepared() || !known.is_empty();
        let mut sets = vec![self.space()];
        for part in known {
            sets.push(self.build(part)?);
        }
        let within = self.all(sets)?;
        if is_narrowed {
            return self.narrow(within, others.into_iter());
        }
        // Whatever these name is kept for the next question.
        let rest: Result<Vec<Set>, TooLarge> =
            others.into_iter().map(|part| self.build(part)).collect();
        let rest = self.all(rest?)?;
        self.and(&rest, &within)
    }

    /// The scenarios of a set in which a formula holds. The parts of a conjunction are looked at in
    /// their order, each within what those before it left.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn set_within(&mut self, within: &Set, formula: &Formula) -> Result<Set, TooLarge> {
        self.narrow(Set::clone(within), parts(formula).iter())
    }

    fn narrow<'f>(
        &mut self,
        within: Set,
        parts: impl Iterator<Item = &'f Formula>,
    ) -> Result<Set, TooLarge> {
        let named = std::mem::take(&mut self.named);
        let narrowed = self.narrowed(within, parts);
        self.within = None;
        self.named = named;
        narrowed
    }

    fn narrowed<'f>(
        &mut self,
        mut within: Set,
        parts: impl Iterator<Item = &'f Formula>,
    ) -> Result<Set, TooLarge> {
        for part in parts {
            if within.is_false() {
                break;
            }
            self.narrowings += 1;
            self.within = Some(Set::clone(&within));
            let part = self.build(part)?;
            within = self.and(&part, &within)?;
        }
        Ok(within)
    }

    /// Whether a formula names only what was worked out beforehand.
    fn is_worked_out(&self, formula: &Formula) -> bool {
        match formula {
            Formula::True | Formula::False | Formula::Holds(_) | Formula::Fails(_) => true,
            Formula::Named(name) => self.ready.named.contains_key(name),
            Formula::Not(part) => self.is_worked_out(part),
            Formula::All(parts) | Formula::Any(parts) | Formula::AtLeast(_, parts) => {
                parts.iter().all(|part| self.is_worked_out(part))
            }
        }
    }

    /// What is in both.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub fn and(&mut self, one: &Bdd, other: &Bdd) -> Result<Set, TooLarge> {
        let made = Bdd::binary_op_with_limit(self.limit(), one, other, op_function::and);
        self.spend(made)
    }

    /// What is in either.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub fn or(&mut self, one: &Bdd, other: &Bdd) -> Result<Set, TooLarge> {
        let made = Bdd::binary_op_with_limit(self.limit(), one, other, op_function::or);
        self.spend(made)
    }

    /// What is in the one and not in the other.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub fn minus(&mut self, one: &Bdd, other: &Bdd) -> Result<Set, TooLarge> {
        let made = Bdd::binary_op_with_limit(self.limit(), one, other, op_function::and_not);
        self.spend(made)
    }

    /// What is reached from the set by choosing other cells of these layers.
    pub(super) fn forget(
        &mut self,
        set: &Set,
        layers: std::ops::Range<usize>,
    ) -> Result<Set, TooLarge> {
        let bits = self.ready.bits.get(layers).into_iter().flatten().flatten();
        let bits: Vec<BddVariable> = bits.rev().copied().collect();
        let mut wider = Set::clone(set);
        for bit in bits {
            let (same, flipped) = ((&*wider, None), (&*wider, Some(bit)));
            let (limit, either) = (self.limit(), op_function::or);
            let made = Bdd::fused_binary_flip_op_with_limit(limit, same, flipped, None, either);
            wider = self.spend(made)?;
        }
        Ok(wider)
    }

    fn limit(&self) -> usize {
        self.work.min(self.largest)
    }

    fn spend(&mut self, made: Option<Bdd>) -> Result<Set, TooLarge> {
        let made = made.ok_or(TooLarge)?;
        if (self.stop)() {
            return Err(TooLarge);
        }
        self.work = self.work.checked_sub(made.size()).ok_or(TooLarge)?;
        Ok(Arc::new(made))
    }

    fn all(&mut self, parts: Vec<Set>) -> Result<Set, TooLarge> {
        self.fold(parts, true)
    }

    fn any(&mut self, parts: Vec<Set>) -> Result<Set, TooLarge> {
        self.fold(parts, false)
    }

    /// Joins sets two by two, so that the large ones come late.
    fn fold(&mut self, mut parts: Vec<Set>, conjunction: bool) -> Result<Set, TooLarge> {
        while parts.len() > 1 {
            let mut joined = Vec::with_capacity(parts.len().div_ceil(2));
            for pair in parts.chunks(2) {
                joined.push(match pair {
                    [one, other] if conjunction => self.and(one, other)?,
                    [one, other] => self.or(one, other)?,
                    rest => rest.first().map(Arc::clone).ok_or(TooLarge)?,
                });
            }
            parts = joined;
        }
        Ok(parts.pop().unwrap_or_else(|| {
            Arc::new(if conjunction {
                self.ready.variables.mk_true()
            } else {
                self.ready.variables.mk_false()
            })
        }))
    }

    fn name(&mut self, name: Name) -> Result<Set, TooLarge> {
        let known = self.named.get(&name).cloned();
        let set = match (known, self.ready.named.get(&name)) {
            (Some((set, step)), _) if self.within.is_none() || step == self.narrowings => {
                return Ok(set);
            }
            (Some((wider, _)), _) => wider,
            (None, Some(ready)) if self.within.is_none() => return Ok(Set::clone(ready)),
            (None, Some(ready)) => Set::clone(ready),
            (None, None) => self.build(&self.theory.define(name))?,
        };
        let set = match self.within.clone() {
            Some(within) => self.and(&set, &within)?,
            None => set,
        };
        self.named.insert(name, (Set::clone(&set), self.narrowings));
        Ok(set)
    }

    fn build(&mut self, formula: &Formula) -> Result<Set, TooLarge> {
        match formula {
            Formula::True => Ok(Arc::new(self.ready.variables.mk_true())),
            Formula::False => Ok(Arc::new(self.ready.variables.mk_false())),
            Formula::Holds(test) => self.test(test, Wanted::Holds),
            Formula::Fails(test) => self.test(test, Wanted::Fails),
            Formula::Named(name) => self.name(*name),
            Formula::Not(part) => {
                let part = self.build(part)?;
                self.spend(Some(part.not()))
            }
            Formula::All(parts) => {
                let parts = parts
                    .iter()
                    .map(|part| self.build(part))
                    .collect::<Result<_, _>>()?;
                self.all(parts)
            }
            Formula::Any(parts) => {
                let parts = parts
                    .iter()
                    .map(|part| self.build(part))
                    .collect::<Result<_, _>>()?;
                self.any(parts)
            }
            Formula::AtLeast(least, parts) => {
                let parts = parts
                    .iter()
                    .map(|part| self.build(part))
                    .collect::<Result<Vec<_>, _>>()?;
                self.at_least(*least as usize, &parts)
            }
        }
    }

    /// Where at least so many of the sets contain the scenario.
    fn at_least(&mut self, least: usize, parts: &[Set]) -> Result<Set, TooLarge> {
        // reached[k]: where at least k of the sets looked at so far contain it.
        let nowhere = Arc::new(self.ready.variables.mk_false());
        let mut reached = vec![nowhere; least + 1];
        if let Some(none_needed) = reached.first_mut() {
            *none_needed = Arc::new(self.ready.variables.mk_true());
        }
        for part in parts {
            for count in (1..=least).rev() {
                if let (Some(with), Some(without)) =
                    (reached.get(count - 1).cloned(), reached.get(count).cloned())
                {
                    let one_more = self.and(&with, part)?;
                    let either = self.or(&without, &one_more)?;
                    if let Some(slot) = reached.get_mut(count) {
                        *slot = either;
                    }
                }
            }
        }
        reached.pop().ok_or(TooLarge)
    }

    /// The scenarios in one cell of a layer.
    pub(super) fn cell(&self, layer: usize, cell: usize) -> Set {
        let bits = self.ready.bits.get(layer).map_or(&[][..], Vec::as_slice);
        let mut set = self.ready.variables.mk_true();
        for (position, bit) in bits.iter().enumerate() {
            let value = cell >> (bits.len() - 1 - position) & 1 == 1;
            set = set.and(&self.ready.variables.mk_literal(*bit, value));
        }
        Arc::new(set)
    }

    pub(super) fn cells(
        &mut self,
        layer: usize,
        wanted: impl Fn(usize) -> bool,
    ) -> Result<Set, TooLarge> {
        let cells = self
            .ready
            .layers
            .all()
            .get(layer)
            .map_or(0, |layer| layer.cells);
        let sets = (0..cells)
            .filter(|cell| wanted(*cell))
            .map(|cell| self.cell(layer, cell))
            .collect();
        self.any(sets)
    }

    /// The node that is reached from `node` by choosing a cell of a layer.
    pub(super) fn follow(
        &self,
        set: &Bdd,
        mut node: BddPointer,
        layer: usize,
        cell: usize,
    ) -> BddPointer {
        let bits = self.ready.bits.get(layer).map_or(&[][..], Vec::as_slice);
        for (position, bit) in bits.iter().enumerate() {
            if node.is_terminal() || set.var_of(node) != *bit {
                continue;
            }
            let value = cell >> (bits.len() - 1 - position) & 1 == 1;
            node = if value {
                set.high_link_of(node)
            } else {
                set.low_link_of(node)
            };
        }
        node
    }

    /// The set of a choice of cells, a list of them for each layer that is not free.
    pub(super) fn box_set(&mut self, chosen: &[Option<Vec<usize>>]) -> Result<Set, TooLarge> {
        let mut parts = Vec::new();
        for (layer, cells) in chosen.iter().enumerate() {
            if let Some(cells) = cells {
                parts.push(self.cells(layer, |cell| cells.contains(&cell))?);
            }
        }
        self.all(parts)
    }
}

/// The parts of a conjunction; anything else is its own only part.
fn parts(formula: &Formula) -> &[Formula] {
    match formula {
        Formula::All(parts) => parts,
        other => std::slice::from_ref(other),
    }
}

fn width(cells: usize) -> usize {
    (usize::BITS - cells.saturating_sub(1).leading_zeros()) as usize
}
