//! Questions answered by decision diagrams, where these are small.
//!
//! A diagram holds all scenarios that answer a question at once, so it is as exhaustive as trying
//! them one by one: an empty one proves that there is none. Of a rulebook of some hundred clauses the
//! diagrams are small, and ten times as fast as a solver that starts anew with every question; of
//! larger ones they soon are too large, which is said and left to the other solver. Every scenario is
//! replayed by the plain evaluator.
//!
//! The answer to a question never depends on what was asked before, nor does whether there is one:
//! what the ruleset's own names stand for is worked out before the first question, and the rest anew
//! each time.

use super::{Answer, Budget, Reason, Solver};
use crate::logic::{Diagrams, Edits, Formula, Layers, Ready, Replay, Theory, is_valid};
use crate::model::Ruleset;
use num_bigint::BigUint;

/// Nodes that may be made before the first question.
const PREPARATION: usize = 1_000_000;

/// Nodes that what one name stands for may have before the first question: where it needs more, so
/// will most of the others.
const LARGEST: usize = 12_000;

/// Nodes that one question may make.
const WORK: usize = 200_000;

/// Nodes that one question may make where what the names of the ruleset stand for is too large: enough
/// for what rests on few clauses, as whether two of them contradict each other, and few enough to find
/// out soon that it is something else.
const WORK_IN_LARGE: usize = 2_000;

/// Answers questions by decision diagrams.
pub struct DiagramSolver<'r> {
    diagrams: Diagrams<'r>,
    /// Whether what the names stand for is still to be worked out.
    unprepared: bool,
    budget: Budget,
}

/// What solvers of several threads have in common.
#[derive(Clone)]
pub struct Shared(Ready);

impl<'r> DiagramSolver<'r> {
    /// Makes the space of a ruleset; `None` where it is too large for diagrams, or the budget is spent.
    pub fn new(ruleset: &'r Ruleset, layers: Layers, budget: Budget) -> Option<Self> {
        let stop = budget.stop();
        let diagrams = Diagrams::new(Theory::new(ruleset), layers, PREPARATION, stop).ok()?;
        Some(DiagramSolver {
            diagrams,
            unprepared: true,
            budget,
        })
    }

    /// A solver for another thread.
    pub fn sharing(ruleset: &'r Ruleset, shared: Shared, budget: Budget) -> Self {
        let theory = Theory::new(ruleset);
        let diagrams = Diagrams::over(theory, shared.0, WORK, budget.stop());
        DiagramSolver {
            diagrams,
            unprepared: false,
            budget,
        }
    }

    /// What a solver for another thread can use.
    pub fn shared(&mut self) -> Shared {
        Shared(self.diagrams().ready())
    }

    /// Whether what the names stand for is too large to be worked out before the first question.
    pub fn is_large(&mut self) -> bool {
        !self.diagrams().is_prepared()
    }

    /// Takes for granted that it is, so that nothing is tried.
    pub fn take_as_large(&mut self) {
        self.unprepared = false;
    }

    /// The diagrams, to describe sets of scenarios with.
    pub fn diagrams(&mut self) -> &mut Diagrams<'r> {
        if std::mem::take(&mut self.unprepared) {
            self.diagrams.prepare(PREPARATION, LARGEST);
        }
        &mut self.diagrams
    }

    /// How many scenarios there are, where that takes no more nodes than these.
    pub fn space(&mut self, work: usize) -> Option<BigUint> {
        self.diagrams.allow(work);
        self.diagrams.count(&self.diagrams.space()).ok()
    }

    /// Answers a question that may speak of these edits.
    pub fn ask_editing(&mut self, edits: &Edits, question: &Formula) -> Answer {
        self.diagrams().edit(edits);
        self.ask(question)
    }

    fn answer(&mut self, question: &Formula) -> Option<Answer> {
        let set = if self.diagrams().is_prepared() {
            self.diagrams.begin(WORK);
            self.diagrams.set(question).ok()?
        } else {
            // Nothing of it is kept, and nothing is used that was kept.
            self.diagrams.allow(WORK_IN_LARGE);
            let space = self.diagrams.space();
            self.diagrams.set_within(&space, question).ok()?
        };
        if set.is_false() {
            return Some(Answer::No);
        }
        let scenario = self.diagrams.most_ordinary(&set)?;
        let ruleset = self.diagrams.theory().ruleset();
        let edits = self.diagrams.theory().edits();
        let holds =
            is_valid(ruleset, &scenario) && Replay::over(ruleset, edits, &scenario).holds(question);
        Some(if holds {
            Answer::Yes(scenario)
        } else {
            Answer::Undecided(Reason::ReplayFailed)
        })
    }
}

impl Solver for DiagramSolver<'_> {
    fn ask(&mut self, question: &Formula) -> Answer {
        if let Some(reason) = self.budget.question() {
            return Answer::Undecided(reason);
        }
        self.answer(question).unwrap_or_else(|| {
            let reason = self.budget.exhausted();
            Answer::Undecided(reason.unwrap_or(Reason::DiagramTooLarge))
        })
    }
}
