//! A refutation replayed step by step by a checker that shares no code with the solver.

use crate::proof::dimacs::{Cnf, Step};

/// Replays a refutation of some clauses.
///
/// # Errors
/// Says at which step it does not hold, or that it ends without a contradiction.
pub fn replay(cnf: &Cnf, steps: &[Step]) -> Result<(), String> {
    let variables = u32::try_from(cnf.words.len()).map_err(|_| "too many variables".to_owned())?;
    let clauses: Option<Vec<Vec<dratify::Lit>>> = cnf
        .clauses
        .iter()
        .map(|clause| literals(clause, variables))
        .collect();
    let clauses = clauses.ok_or("the clauses use a variable that is not there")?;
    let mut plain = Vec::with_capacity(steps.len());
    for (step, number) in steps.iter().zip(1usize..) {
        let (dropped, clause) = match step {
            Step::Add(clause) => (false, clause),
            Step::Drop(clause) => (true, clause),
        };
        let clause = literals(clause, variables)
            .ok_or_else(|| format!("step {number} uses a variable that is not there"))?;
        plain.push((dropped, clause));
    }
    let mut checker = dratify::Checker::new(variables, &clauses, true, true);
    let result = checker.check(&plain);
    if result.ok {
        return Ok(());
    }
    Err(if result.failed_step > 0 {
        format!(
            "step {} does not follow from what stands before it",
            result.failed_step
        )
    } else {
        "the refutation ends without a contradiction".to_owned()
    })
}

fn literals(clause: &[i32], variables: u32) -> Option<Vec<dratify::Lit>> {
    let literal = |literal: &i32| {
        let variable = literal.unsigned_abs();
        let known = (1..=variables).contains(&variable);
        known.then(|| (variable - 1) * 2 + u32::from(*literal < 0))
    };
    clause.iter().map(literal).collect()
}
