//! Why an incident is ruled as it is: the clauses that are met, and what became of each.

use crate::logic::Outcome;
use crate::model::{ClauseId, DimensionId, Ruleset, Step, ValueSet};

/// A clause that is met, and what became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reason {
    /// The clause.
    pub clause: ClauseId,
    /// The clauses in force that disapply it; where there is one, it does nothing.
    pub disapplied_by: Vec<ClauseId>,
    /// What it rules, in the order of dimensions.
    pub rulings: Vec<Given>,
}

/// What a clause rules on one dimension, and whether that stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Given {
    /// The dimension.
    pub dimension: DimensionId,
    /// The values that it allows.
    pub values: ValueSet,
    /// The clauses in force that prevail over it there; where there is one, the ruling does not stand.
    pub displaced_by: Vec<ClauseId>,
}

impl Reason {
    /// Whether some ruling of it stands.
    pub fn stands(&self) -> bool {
        self.disapplied_by.is_empty()
            && self
                .rulings
                .iter()
                .any(|given| given.displaced_by.is_empty())
    }
}

/// The clauses that are met in an outcome, in the order in which rulings are worked out: whatever a
/// clause depends on stands before it.
pub fn reasons(ruleset: &Ruleset, outcome: &Outcome) -> Vec<Reason> {
    let in_force = |id: &ClauseId| outcome.in_force.contains(id.index());
    let clauses = ruleset.order.iter().filter_map(|step| match step {
        Step::Clause(id) if outcome.met.contains(id.index()) => Some(*id),
        _ => None,
    });
    let reason = |id: ClauseId| {
        let clause = &ruleset[id];
        let rulings = clause.rulings.iter().map(|(dimension, values)| {
            let above = clause.yields_to.iter().copied().filter(in_force);
            Given {
                dimension: *dimension,
                values: *values,
                displaced_by: above
                    .filter(|other| ruleset[*other].ruling_on(*dimension).is_some())
                    .collect(),
            }
        });
        Reason {
            clause: id,
            disapplied_by: clause
                .disapplied_by
                .iter()
                .copied()
                .filter(in_force)
                .collect(),
            rulings: rulings.collect(),
        }
    };
    clauses.map(reason).collect()
}
