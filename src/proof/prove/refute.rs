//! Clauses refuted by a solver that tells each step.
//!
//! Every clause that the solver learns follows from those before it; written down one after another,
//! with those that it forgets, they are a refutation in DRAT (Wetzler, Heule, Hunt: DRAT-trim, SAT 2014).

use super::clauses::Claimed;
use crate::proof::dimacs::Step;
use crate::solve::Budget;
use batsat::{ClauseKind, Lit, Solver, SolverInterface, SolverOpts, lbool};

/// What the solver says of some clauses.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Refutation {
    /// They cannot all hold: step by step.
    Refuted(Vec<Step>),
    /// They can.
    Satisfiable,
    /// The budget was used up.
    Open,
}

/// Tries to refute the clauses of a claim, in two ways, and keeps the shorter of what they give: for some
/// claims the one is several times as long as the other, and neither is always the shorter.
pub(super) fn refute(claimed: &Claimed, budget: &Budget) -> Refutation {
    let first = refute_by(claimed, Branch::Facts, budget);
    let Refutation::Refuted(steps) = first else {
        return first;
    };
    match refute_by(claimed, Branch::Anything, budget) {
        Refutation::Refuted(others) if length(&others) < length(&steps) => {
            Refutation::Refuted(others)
        }
        _ => Refutation::Refuted(steps),
    }
}

/// How many literals there are to write.
fn length(steps: &[Step]) -> usize {
    let literals = steps.iter().map(|step| match step {
        Step::Add(clause) | Step::Drop(clause) => clause.len() + 1,
    });
    literals.sum()
}

/// What a solver supposes where nothing follows any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Branch {
    /// Facts alone: all else follows from them.
    Facts,
    /// Whatever it likes.
    Anything,
}

fn refute_by(claimed: &Claimed, branch: Branch, budget: &Budget) -> Refutation {
    let listener = Listener {
        steps: Vec::new(),
        budget: budget.clone(),
    };
    let mut solver = Solver::new(SolverOpts::default(), listener);
    for (_, number) in claimed.cnf.words.iter().zip(1..) {
        let supposed = branch == Branch::Anything || claimed.facts.contains(&number);
        solver.new_var(lbool::UNDEF, supposed);
    }
    let mut consistent = true;
    for clause in &claimed.cnf.clauses {
        let mut literals = Vec::with_capacity(clause.len());
        for literal in clause {
            let variable = solver.var_of_int(literal.unsigned_abs().saturating_sub(1));
            literals.push(Lit::new(variable, *literal > 0));
        }
        consistent = consistent && solver.add_clause_reuse(&mut literals);
    }
    let answer = if consistent {
        solver.solve_limited(&[])
    } else {
        lbool::FALSE
    };
    if answer == lbool::TRUE {
        Refutation::Satisfiable
    } else if answer == lbool::FALSE {
        let mut steps = std::mem::take(&mut solver.cb_mut().steps);
        if steps.last() != Some(&Step::Add(Vec::new())) {
            steps.push(Step::Add(Vec::new()));
        }
        Refutation::Refuted(steps)
    } else {
        Refutation::Open
    }
}

/// Takes down what the solver learns and forgets.
struct Listener {
    steps: Vec<Step>,
    budget: Budget,
}

fn numbers(clause: &[Lit]) -> Vec<i32> {
    let number = |literal: &Lit| {
        let variable = i32::try_from(literal.var().idx().saturating_add(1)).unwrap_or(i32::MAX);
        if literal.sign() { variable } else { -variable }
    };
    clause.iter().map(number).collect()
}

impl batsat::Callbacks for Listener {
    fn on_new_clause(&mut self, clause: &[Lit], kind: ClauseKind) {
        if matches!(kind, ClauseKind::Learnt) {
            self.steps.push(Step::Add(numbers(clause)));
        }
    }

    fn on_delete_clause(&mut self, clause: &[Lit]) {
        self.steps.push(Step::Drop(numbers(clause)));
    }

    fn stop(&self) -> bool {
        self.budget.exhausted().is_some()
    }
}
