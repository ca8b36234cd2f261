//! Questions about a joined ruleset: decision diagrams over the few clauses that matter, the solver
//! for what is left.

use crate::analysis::{General, described};
use crate::logic::{
    Count, Diagrams, Formula, Layers, Reach, Ready, Replay, Scenario, Set, Theory, Vocabulary,
    is_valid,
};
use crate::model::{AttributeId, ClauseId, Ruleset};
use crate::solve::{Answer, Budget, Reason, Solver, Z3Solver};
use fixedbitset::FixedBitSet;
use std::collections::BTreeSet;

/// Nodes that the diagrams may make to say where something holds.
const WORK: usize = 1_000_000;

/// Nodes that they may make to say whether it does; the solver is quicker where they need more.
const WORK_ON_AN_ANSWER: usize = 300_000;

/// Nodes that the space may take.
const SPACE: usize = 1_000_000;

/// Answers questions about one joined ruleset.
pub(crate) struct Asking<'r> {
    ruleset: &'r Ruleset,
    reach: Reach<'r>,
    theory: Theory<'r>,
    ready: Option<Ready>,
    budget: Budget,
}

impl<'r> Asking<'r> {
    pub(crate) fn new(ruleset: &'r Ruleset, budget: Budget) -> Self {
        let layers = Layers::new(ruleset);
        let stop = budget.stop();
        let space = Diagrams::new(Theory::new(ruleset), layers.clone(), SPACE, stop);
        Asking {
            ruleset,
            reach: Reach::new(ruleset, layers),
            theory: Theory::new(ruleset),
            ready: space.ok().map(|diagrams| diagrams.ready()),
            budget,
        }
    }

    pub(crate) fn exhausted(&self) -> Option<Reason> {
        self.budget.exhausted()
    }

    /// The clauses that can be met where this one is.
    pub(crate) fn met_beside(&self, clause: ClauseId) -> FixedBitSet {
        let cell_box = self.reach.cell_box(clause);
        cell_box.map_or_else(|| self.everyone(), |cell_box| self.reach.meeting(cell_box))
    }

    /// All clauses.
    pub(crate) fn everyone(&self) -> FixedBitSet {
        let mut all = FixedBitSet::with_capacity(self.ruleset.clauses.len());
        all.insert_range(..);
        all
    }

    /// Diagrams for questions that hold only where no clause but these is met.
    pub(crate) fn diagrams(&self, among: &FixedBitSet) -> Option<Diagrams<'r>> {
        let ready = self.ready.clone()?;
        let theory = if among.is_full() {
            Theory::new(self.ruleset)
        } else {
            self.theory.among(among.clone())
        };
        Some(Diagrams::over(theory, ready, WORK, self.budget.stop()))
    }

    /// Is there a scenario in which a question holds that holds only where no clause but these is met?
    pub(crate) fn ask(&self, among: &FixedBitSet, question: &Formula) -> Answer {
        self.ask_in(None, among, question)
    }

    /// The same where the scenarios in which something holds are already known.
    pub(crate) fn ask_within(
        &self,
        known: &Set,
        holds: &Formula,
        among: &FixedBitSet,
        question: &Formula,
    ) -> Answer {
        let all = Formula::all([holds.clone(), question.clone()]);
        self.ask_in(Some((known, question)), among, &all)
    }

    fn ask_in(
        &self,
        known: Option<(&Set, &Formula)>,
        among: &FixedBitSet,
        question: &Formula,
    ) -> Answer {
        if let Some(reason) = self.budget.question() {
            return Answer::Undecided(reason);
        }
        if *question == Formula::False {
            return Answer::No;
        }
        if let Some(mut diagrams) = self.diagrams(among) {
            diagrams.allow(WORK_ON_AN_ANSWER);
            let set = match known {
                Some((within, rest)) => diagrams.set_within(within, rest),
                None => diagrams.set_within(&diagrams.space(), question),
            };
            if set.as_ref().is_ok_and(|set| set.is_false()) {
                return Answer::No;
            }
            if let Some(scenario) = set.ok().and_then(|set| diagrams.most_ordinary(&set)) {
                return if self.holds(&scenario, question) {
                    Answer::Yes(scenario)
                } else {
                    Answer::Undecided(Reason::ReplayFailed)
                };
            }
        }
        self.ask_solver(among, question)
    }

    /// The same of the solver alone.
    pub(crate) fn ask_solver(&self, among: &FixedBitSet, question: &Formula) -> Answer {
        if let Some(reason) = self.budget.exhausted() {
            return Answer::Undecided(reason);
        }
        let theory = if among.is_full() {
            Theory::new(self.ruleset)
        } else {
            self.theory.among(among.clone())
        };
        Z3Solver::over(theory, self.budget.clone()).ask(question)
    }

    /// Whether the plain evaluator agrees that a scenario is one and that a question holds in it.
    pub(crate) fn holds(&self, scenario: &Scenario, question: &Formula) -> bool {
        is_valid(self.ruleset, scenario) && Replay::new(self.ruleset, scenario).holds(question)
    }

    /// How many scenarios are in a set, if that can be counted.
    pub(crate) fn count(&self, set: &Set) -> Option<Count> {
        let diagrams = self.diagrams(&self.everyone())?;
        let scenarios = diagrams.count(set).ok()?;
        Some(Count {
            scenarios,
            exact: true,
        })
    }

    /// A set in such words. `mentioned` are the attributes that a reader expects to see.
    pub(crate) fn described(
        &self,
        set: &Set,
        mentioned: &BTreeSet<AttributeId>,
        words: &Vocabulary,
    ) -> General {
        let Some(mut diagrams) = self.diagrams(&self.everyone()) else {
            return General::default();
        };
        described(&mut diagrams, set, mentioned, words).general
    }
}
