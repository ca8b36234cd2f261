//! The whole order of questions: a decision tree that ends in a verdict.
//!
//! The best tree asks the fewest questions on average, every scenario counted alike. Finding it is
//! hard in general (Hyafil and Rivest, Constructing optimal binary decision trees is NP-complete,
//! Information Processing Letters 5, 1976), so it is looked for exactly within a limit of work; beyond
//! it the question that tells the verdicts apart best is taken, and that the tree may not be the best
//! is said. Parts of such a tree that are small enough are the best again.

use super::{Chart, Counts, NodeId, Outlook, Question, VerdictId};
use crate::model::AttributeId;
use num_bigint::BigUint;
use num_rational::Ratio;
use num_traits::{One, Zero};
use std::collections::BTreeMap;
use std::rc::Rc;

/// An order of questions.
#[derive(Clone, Debug)]
pub struct Protocol {
    /// What to ask first, and so on.
    pub tree: Rc<Tree>,
    /// How many questions are asked on average, every scenario counted alike.
    pub expected: Ratio<BigUint>,
    /// The most questions that are asked.
    pub longest: usize,
    /// Whether no other order asks fewer questions on average.
    pub optimal: Optimal,
}

/// Whether an order of questions is known to be the best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Optimal {
    /// No other order asks fewer questions on average.
    Proved,
    /// There may be a better one.
    Unknown,
}

/// What is to be done at a point of the order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tree {
    /// Nothing more: this is the verdict.
    Ruled(VerdictId),
    /// Establish this.
    Ask {
        /// The attribute.
        attribute: AttributeId,
        /// Of a `several`: whether this item is there.
        item: Option<usize>,
        /// The layer that the answers' cells are of.
        layer: usize,
        /// The answers, lowest first; those that lead to the same stand together.
        branches: Vec<Branch>,
    },
    /// Nothing that is left to establish tells the verdicts apart.
    Open,
}

/// Some answers, and what follows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Branch {
    /// The cells that the answer may lie in.
    pub cells: Vec<usize>,
    /// What follows.
    pub then: Rc<Tree>,
}

/// Questions that may be weighed in looking for the best tree of one part.
const WORK: usize = 2_000;

/// Questions that may be weighed in looking for the best trees of all parts together.
const WORK_IN_ALL: usize = 20_000;

/// The most questions that may matter where the best tree is looked for at all.
const MOST_QUESTIONS: usize = 12;

/// A tree with what it costs on average.
type Priced = (Rc<Tree>, Ratio<BigUint>);

impl Chart<'_> {
    /// The order of questions that comes to a verdict in the fewest questions on average, from these
    /// facts on. `None` where `stop` said so before it was found, and where no scenario has the facts.
    pub fn protocol(&mut self, outlook: &Outlook, stop: &dyn Fn() -> bool) -> Option<Protocol> {
        if !self.is_possible(outlook) {
            return None;
        }
        let mut planner = Planner {
            chart: self,
            best: BTreeMap::new(),
            quick: BTreeMap::new(),
            work: 0,
            left: WORK_IN_ALL,
            counts: Counts::default(),
            stop,
        };
        let ((tree, expected), optimal) = planner.plan(outlook)?;
        Some(Protocol {
            longest: longest(&tree),
            tree,
            expected,
            optimal,
        })
    }
}

fn longest(tree: &Tree) -> usize {
    match tree {
        Tree::Ruled(_) | Tree::Open => 0,
        Tree::Ask { branches, .. } => {
            let below = branches.iter().map(|branch| longest(&branch.then));
            1 + below.max().unwrap_or(0)
        }
    }
}

struct Planner<'a, 'r> {
    chart: &'a mut Chart<'r>,
    /// The best tree of places for which it is known.
    best: BTreeMap<NodeId, Priced>,
    /// A good tree of the others.
    quick: BTreeMap<NodeId, (Priced, Optimal)>,
    /// Questions that may still be weighed for the part that is looked at.
    work: usize,
    /// Questions that may still be weighed in all.
    left: usize,
    /// Counts from places on, which all parts share.
    counts: Counts,
    stop: &'a dyn Fn() -> bool,
}

/// Answers that lead to the same, how likely they are, and where they lead.
struct Way {
    cells: Vec<usize>,
    share: Ratio<BigUint>,
    outlook: Outlook,
}

impl Planner<'_, '_> {
    /// The best tree, or where that is too much to find out, a good one.
    fn plan(&mut self, outlook: &Outlook) -> Option<(Priced, Optimal)> {
        if let Some(known) = self.best.get(&outlook.root) {
            return Some((known.clone(), Optimal::Proved));
        }
        if let Some(known) = self.quick.get(&outlook.root) {
            return Some(known.clone());
        }
        if (self.stop)() {
            return None;
        }
        if let Some(verdict) = self.chart.settled(outlook) {
            let tree = Rc::new(Tree::Ruled(verdict));
            return Some(((tree, Ratio::zero()), Optimal::Proved));
        }
        let questions = self.chart.questions_with(outlook, &mut self.counts);
        if questions.len() <= MOST_QUESTIONS {
            self.work = WORK.min(self.left);
            let before = self.work;
            let best = self.best(outlook);
            self.left = self.left.saturating_sub(before - self.work);
            if let Some(best) = best {
                return Some((best, Optimal::Proved));
            }
        }
        let question = questions.into_iter().next()?;
        let mut branches = Vec::new();
        let mut expected = Ratio::one();
        for way in self.ways(outlook, &question) {
            let ((then, below), _) = self.plan(&way.outlook)?;
            expected += below * way.share;
            branches.push(Branch {
                cells: way.cells,
                then,
            });
        }
        let made = ((asking(&question, branches), expected), Optimal::Unknown);
        self.quick.insert(outlook.root, made.clone());
        Some(made)
    }

    /// The best tree; `None` where there is too much to weigh.
    fn best(&mut self, outlook: &Outlook) -> Option<Priced> {
        if let Some(verdict) = self.chart.settled(outlook) {
            return Some((Rc::new(Tree::Ruled(verdict)), Ratio::zero()));
        }
        if let Some(known) = self.best.get(&outlook.root) {
            return Some(known.clone());
        }
        let questions = self.chart.questions_with(outlook, &mut self.counts);
        let mut best: Option<Priced> = None;
        for question in &questions {
            self.work = self.work.checked_sub(1)?;
            let ways = self.ways(outlook, question);
            // At least one more question wherever the answer does not settle it.
            let mut bound = Ratio::one();
            for way in &ways {
                if self.chart.settled(&way.outlook).is_none() {
                    bound += &way.share;
                }
            }
            let mut branches = Vec::with_capacity(ways.len());
            let mut worse = false;
            for way in ways {
                if best.as_ref().is_some_and(|(_, known)| bound >= *known) {
                    worse = true;
                    break;
                }
                let unsettled = self.chart.settled(&way.outlook).is_none();
                let (then, below) = self.best(&way.outlook)?;
                if unsettled {
                    // The one question counted for it is among these.
                    bound += (below - Ratio::one()) * &way.share;
                }
                branches.push(Branch {
                    cells: way.cells,
                    then,
                });
            }
            let better = best.as_ref().is_none_or(|(_, known)| bound < *known);
            if !worse && better {
                best = Some((asking(question, branches), bound));
            }
        }
        let best = best.unwrap_or_else(|| (Rc::new(Tree::Open), Ratio::zero()));
        self.best.insert(outlook.root, best.clone());
        Some(best)
    }

    fn ways(&mut self, outlook: &Outlook, question: &Question) -> Vec<Way> {
        let all: BigUint = question.answers.iter().map(|(_, count)| count).sum();
        let mut ways: Vec<Way> = Vec::new();
        for (cell, count) in &question.answers {
            let share = Ratio::new(count.clone(), all.clone());
            let after = self.chart.answered(outlook, question.layer, *cell);
            match ways.iter_mut().find(|way| way.outlook.root == after.root) {
                Some(way) => {
                    way.cells.push(*cell);
                    way.share += share;
                }
                None => ways.push(Way {
                    cells: vec![*cell],
                    share,
                    outlook: after,
                }),
            }
        }
        ways
    }
}

fn asking(question: &Question, branches: Vec<Branch>) -> Rc<Tree> {
    Rc::new(Tree::Ask {
        attribute: question.attribute,
        item: question.item,
        layer: question.layer,
        branches,
    })
}
