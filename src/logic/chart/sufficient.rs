//! Which facts of a scenario were enough for its ruling.
//!
//! A set of facts is enough where every scenario that has them is ruled the same. The scenarios that
//! are ruled otherwise are gathered by the facts in which they differ; a set of facts is enough where
//! it meets all of those. Over one variable a fact ("may differ") that is a monotone function, whose
//! largest zeros are the smallest sufficient sets; it is worked out whole, so the answer is exact.

use super::{Chart, Node, NodeId, Sole, VerdictId};
use crate::logic::{Established, TooLarge};
use crate::model::AttributeId;
use biodivine_lib_bdd::{Bdd, BddPointer, BddVariable, BddVariableSet, op_function};
use num_bigint::BigUint;
use num_traits::{One, Zero};
use std::collections::{BTreeMap, BTreeSet};

/// The facts that were enough.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sufficient {
    /// A smallest set of facts that is enough, in the order of the ruleset's attributes.
    pub facts: Vec<AttributeId>,
    /// How many sets of that size are enough, this one among them.
    pub sets: BigUint,
}

/// Nodes that the function may have.
const MOST_NODES: usize = 200_000;

impl Chart<'_> {
    /// A smallest set of some facts such that every scenario with the facts of the set has the
    /// verdict that every scenario with all of them has, and how many there are. Among the smallest
    /// the one with most facts out of `preferred`.
    ///
    /// # Errors
    /// [`TooLarge`] where it would take too much to know, and where all the facts together are not
    /// enough for the verdict.
    pub fn sufficient(
        &self,
        given: &Established,
        verdict: VerdictId,
        preferred: &BTreeSet<AttributeId>,
    ) -> Result<Sufficient, TooLarge> {
        let mut facts: Vec<AttributeId> = given.facts().map(|(id, _)| id).collect();
        // In the order of the diagram, so that the function stays small.
        facts.sort_by_key(|id| self.layers.of(*id).start);
        let count = u16::try_from(facts.len()).map_err(|_| TooLarge)?;
        let set = BddVariableSet::new_anonymous(count);
        let mut search = Search {
            chart: self,
            verdict,
            cells: self.layers.cells_of(&given.as_scenario()),
            variable: facts
                .iter()
                .enumerate()
                .map(|(index, id)| (*id, BddVariable::from_index(index)))
                .collect(),
            set,
            known: BTreeMap::new(),
            made: 0,
        };
        let otherwise = search.otherwise(self.root, Differs::NotYet)?;
        let enough = otherwise.not();
        let pleasant: Vec<bool> = facts.iter().map(|id| preferred.contains(id)).collect();
        let best = Best::of(&enough, &pleasant).ok_or(TooLarge)?;
        let mut chosen: Vec<AttributeId> = facts
            .iter()
            .zip(&best.kept)
            .filter(|(_, kept)| **kept)
            .map(|(id, _)| *id)
            .collect();
        chosen.sort_unstable();
        Ok(Sufficient {
            facts: chosen,
            sets: best.sets,
        })
    }
}

/// Whether the attribute that is being looked at differs already in one of its layers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Differs {
    NotYet,
    Already,
}

struct Search<'a, 'r> {
    chart: &'a Chart<'r>,
    verdict: VerdictId,
    cells: Vec<usize>,
    variable: BTreeMap<AttributeId, BddVariable>,
    set: BddVariableSet,
    known: BTreeMap<(NodeId, Differs), Bdd>,
    made: usize,
}

impl Search<'_, '_> {
    /// For which facts that may differ some scenario from here on is ruled otherwise.
    fn otherwise(&mut self, node: NodeId, differs: Differs) -> Result<Bdd, TooLarge> {
        match self.chart.sole(node) {
            Sole::Nowhere => return Ok(self.set.mk_false()),
            Sole::One(verdict) if verdict == self.verdict => return Ok(self.set.mk_false()),
            Sole::One(_) | Sole::Several => {}
        }
        let Node::Choice { layer, next } = self.chart.node(node) else {
            return Ok(self.set.mk_true());
        };
        if let Some(known) = self.known.get(&(node, differs)) {
            return Ok(known.clone());
        }
        let attribute = self.chart.layer(*layer).map(|layer| layer.attribute);
        let ends = self.chart.layer(layer + 1).map(|next| next.attribute) != attribute;
        let variable = attribute.and_then(|id| self.variable.get(&id)).copied();
        let own = self.cells.get(*layer).copied();
        let after = |differs| if ends { Differs::NotYet } else { differs };
        let mut same = self.set.mk_false();
        let mut other = self.set.mk_false();
        let mut done: Vec<NodeId> = Vec::new();
        for (cell, child) in next.iter().enumerate() {
            let differs_here = differs == Differs::Already || Some(cell) != own;
            // What is not asked in the scenario is no fact of it, and may be anything.
            if differs_here && variable.is_some() {
                if !done.contains(child) {
                    done.push(*child);
                    let beyond = self.otherwise(*child, after(Differs::Already))?;
                    other = self.or(&other, &beyond)?;
                }
            } else {
                let beyond = self.otherwise(*child, after(Differs::NotYet))?;
                same = self.or(&same, &beyond)?;
            }
        }
        let both = match variable {
            // Said once, where the attribute first differs.
            Some(variable) if differs == Differs::NotYet => {
                let may = self.set.mk_literal(variable, true);
                let differing = self.spend(Bdd::binary_op_with_limit(
                    MOST_NODES,
                    &may,
                    &other,
                    op_function::and,
                ))?;
                self.or(&same, &differing)?
            }
            _ => self.or(&same, &other)?,
        };
        self.known.insert((node, differs), both.clone());
        Ok(both)
    }

    fn or(&mut self, one: &Bdd, other: &Bdd) -> Result<Bdd, TooLarge> {
        if one.is_false() {
            return Ok(other.clone());
        }
        if other.is_false() {
            return Ok(one.clone());
        }
        self.spend(Bdd::binary_op_with_limit(
            MOST_NODES,
            one,
            other,
            op_function::or,
        ))
    }

    fn spend(&mut self, made: Option<Bdd>) -> Result<Bdd, TooLarge> {
        const MOST_WORK: usize = 50_000_000;
        let made = made.ok_or(TooLarge)?;
        self.made += made.size();
        if self.made > MOST_WORK {
            return Err(TooLarge);
        }
        Ok(made)
    }
}

/// The best way to keep few facts.
struct Best {
    kept: Vec<bool>,
    sets: BigUint,
}

/// How good a choice is: fewer facts kept, then more pleasant ones among them.
type Cost = (usize, usize);

impl Best {
    /// Of the choices of facts that may differ at which the function holds, the best; the function
    /// holds at some choice, since nothing differs where nothing may.
    fn of(enough: &Bdd, pleasant: &[bool]) -> Option<Best> {
        let mut memory = BTreeMap::new();
        let (_, sets) = weigh(enough, enough.root_pointer(), 0, pleasant, &mut memory)?;
        let mut kept = Vec::with_capacity(pleasant.len());
        let mut at = enough.root_pointer();
        for index in 0..pleasant.len() {
            let (low, high) = links(enough, at, index);
            let with = cost_of_keeping(pleasant, index);
            let keep = weigh(enough, low, index + 1, pleasant, &mut memory)
                .map(|(cost, _)| (cost.0 + with.0, cost.1 + with.1));
            let leave = weigh(enough, high, index + 1, pleasant, &mut memory).map(|(cost, _)| cost);
            let leaves = match (keep, leave) {
                (Some(keep), Some(leave)) => leave <= keep,
                (None, leave) => leave.is_some(),
                (Some(_), None) => false,
            };
            kept.push(!leaves);
            at = if leaves { high } else { low };
        }
        Some(Best { kept, sets })
    }
}

fn cost_of_keeping(pleasant: &[bool], index: usize) -> Cost {
    (
        1,
        usize::from(!pleasant.get(index).copied().unwrap_or(false)),
    )
}

/// Where a choice leads whose variable may have been skipped.
fn links(bdd: &Bdd, at: BddPointer, index: usize) -> (BddPointer, BddPointer) {
    if at.is_terminal() || bdd.var_of(at) != BddVariable::from_index(index) {
        (at, at)
    } else {
        (bdd.low_link_of(at), bdd.high_link_of(at))
    }
}

type Weighed = BTreeMap<(usize, usize), Option<(Cost, BigUint)>>;

/// The least cost from here on, and how many choices have the least number of facts.
fn weigh(
    bdd: &Bdd,
    at: BddPointer,
    index: usize,
    pleasant: &[bool],
    memory: &mut Weighed,
) -> Option<(Cost, BigUint)> {
    if at.is_zero() {
        return None;
    }
    if index == pleasant.len() {
        return Some(((0, 0), BigUint::one()));
    }
    if let Some(known) = memory.get(&(index, at.to_index())) {
        return known.clone();
    }
    let (low, high) = links(bdd, at, index);
    let with = cost_of_keeping(pleasant, index);
    let keep = weigh(bdd, low, index + 1, pleasant, memory)
        .map(|(cost, sets)| ((cost.0 + with.0, cost.1 + with.1), sets));
    let leave = weigh(bdd, high, index + 1, pleasant, memory);
    let best = match (keep, leave) {
        (Some((one, some)), Some((other, more))) => {
            let fewest = one.0.min(other.0);
            let mut sets = BigUint::zero();
            if one.0 == fewest {
                sets += some;
            }
            if other.0 == fewest {
                sets += more;
            }
            Some((one.min(other), sets))
        }
        (one, None) => one,
        (None, other) => other,
    };
    memory.insert((index, at.to_index()), best.clone());
    best
}
