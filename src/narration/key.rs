//! An order of questions as a numbered key, as field guides have it: each step asks for one fact, and
//! each answer leads to another step or to a ruling. Steps that several answers lead to stand once.

use super::asked;
use crate::logic::{Chart, Protocol, Tree, VerdictId};
use crate::model::{AttributeId, DimensionId, Ruleset};
use std::rc::Rc;

/// An order of questions, step by step.
#[derive(Clone, Debug)]
pub struct Key {
    /// The steps; the first is where to begin. Empty where there is nothing to ask.
    pub steps: Vec<KeyStep>,
    /// The verdict, where there is nothing to ask.
    pub settled: Option<VerdictId>,
    /// The dimensions whose ruling is the same at every end.
    pub common: Vec<DimensionId>,
}

/// One step.
#[derive(Clone, Debug)]
pub struct KeyStep {
    /// The attribute to establish.
    pub attribute: AttributeId,
    /// Of a `several`: whether this item is there.
    pub item: Option<usize>,
    /// The question in words.
    pub question: String,
    /// The answers.
    pub answers: Vec<KeyAnswer>,
}

/// An answer, or several that lead to the same.
#[derive(Clone, Debug)]
pub struct KeyAnswer {
    /// In words.
    pub answer: String,
    /// The layer's cells that the answer may lie in.
    pub cells: Vec<usize>,
    /// Where it leads.
    pub then: Then,
}

/// Where an answer leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Then {
    /// To another step, by its index.
    Step(usize),
    /// To a verdict.
    Verdict(VerdictId),
    /// Nowhere: nothing that is left to establish tells the verdicts apart.
    Open,
}

/// Numbers the steps of an order of questions: every step stands before those that it leads to
/// first.
pub fn key(chart: &Chart<'_>, protocol: &Protocol) -> Key {
    let ruleset: &Ruleset = chart.ruleset();
    let mut known: Vec<Rc<Tree>> = Vec::new();
    let mut steps: Vec<KeyStep> = Vec::new();
    number(&protocol.tree, &mut known);
    let mut ends: Vec<VerdictId> = Vec::new();
    for tree in &known {
        let Tree::Ask {
            attribute,
            item,
            layer,
            branches,
        } = tree.as_ref()
        else {
            continue;
        };
        let layer = chart.layers().all().get(*layer);
        let answers = branches.iter().map(|branch| KeyAnswer {
            answer: layer.map_or_else(String::new, |layer| {
                asked::answers(ruleset, layer, &branch.cells)
            }),
            cells: branch.cells.clone(),
            then: match branch.then.as_ref() {
                Tree::Ruled(verdict) => {
                    ends.push(*verdict);
                    Then::Verdict(*verdict)
                }
                Tree::Open => Then::Open,
                Tree::Ask { .. } => known
                    .iter()
                    .position(|other| Rc::ptr_eq(other, &branch.then))
                    .map_or(Then::Open, Then::Step),
            },
        });
        steps.push(KeyStep {
            attribute: *attribute,
            item: *item,
            question: asked::question(ruleset, *attribute, *item),
            answers: answers.collect(),
        });
    }
    let settled = match protocol.tree.as_ref() {
        Tree::Ruled(verdict) => Some(*verdict),
        _ => None,
    };
    ends.sort_unstable();
    ends.dedup();
    let common = chart.dimensions().iter().enumerate().filter(|(index, _)| {
        let mut rulings = ends
            .iter()
            .filter_map(|end| chart.rulings(*end).get(*index));
        let first = rulings.next();
        first.is_some() && rulings.all(|ruling| Some(ruling) == first)
    });
    Key {
        common: common.map(|(_, id)| *id).collect(),
        steps,
        settled,
    }
}

/// Takes in the steps in the order in which they are numbered.
fn number(tree: &Rc<Tree>, known: &mut Vec<Rc<Tree>>) {
    let Tree::Ask { branches, .. } = tree.as_ref() else {
        return;
    };
    if known.iter().any(|other| Rc::ptr_eq(other, tree)) {
        return;
    }
    known.push(Rc::clone(tree));
    for branch in branches {
        number(&branch.then, known);
    }
}
