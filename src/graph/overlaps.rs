//! Clauses that can be met at once and rule on the same, agreeing.

use crate::amendment::Asking;
use crate::logic::{Formula, Name, World};
use crate::model::{Clause, ClauseId, DimensionId, Ruleset};
use crate::read::draft::WhenSeveral;
use crate::solve::{Answer, Budget, Reason};

/// Pairs of clauses that overlap.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Overlaps {
    /// The pairs, the earlier clause first, and what both rule on.
    pub pairs: Vec<(ClauseId, ClauseId, Vec<DimensionId>)>,
    /// How many pairs stayed undecided.
    pub open: usize,
    /// Why the first of them did.
    pub reason: Option<Reason>,
}

/// The pairs of clauses of which some incident meets both, and that have nothing against each other in
/// what they rule there.
pub fn overlaps(ruleset: &Ruleset, budget: &Budget) -> Overlaps {
    let asking = Asking::new(ruleset, budget.clone());
    let everyone = asking.everyone();
    let mut diagrams = asking.diagrams(&everyone);
    let mut found = Overlaps::default();
    let met = |clause: ClauseId| Formula::Named(Name::Met(World::Actual, clause));
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let id = ClauseId::new(index);
        let beside = asking.met_beside(id);
        for place in beside.ones().filter(|place| *place > index) {
            let Some(other) = ruleset.clauses.get(place) else {
                continue;
            };
            let on = agreeing(ruleset, clause, other);
            if on.is_empty() {
                continue;
            }
            let other = ClauseId::new(place);
            let both = Formula::all([met(id), met(other)]);
            let quickly = diagrams.as_mut().and_then(|all| all.set(&both).ok());
            let answer = match quickly {
                Some(set) => Ok(!set.is_false()),
                None => match asking.ask(&everyone, &both) {
                    Answer::Yes(_) => Ok(true),
                    Answer::No => Ok(false),
                    Answer::Undecided(reason) => Err(reason),
                },
            };
            match answer {
                Ok(true) => found.pairs.push((id, other, on)),
                Ok(false) => {}
                Err(reason) => {
                    found.open += 1;
                    found.reason.get_or_insert(reason);
                }
            }
        }
    }
    found
}

/// What both rule on; nothing, where they would clash on something.
fn agreeing(ruleset: &Ruleset, one: &Clause, other: &Clause) -> Vec<DimensionId> {
    let mut on = Vec::new();
    for (dimension, values) in &one.rulings {
        let Some(others) = other.ruling_on(*dimension) else {
            continue;
        };
        let add_up = ruleset[*dimension].when_several == WhenSeveral::AllApply;
        if !add_up && values.intersect(others).is_empty() {
            return Vec::new();
        }
        on.push(*dimension);
    }
    on
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::load::load;
    use crate::logic::Evaluator;
    use crate::solve::scenarios;

    const RULES: &str = "\
ruleset: Rules
attributes:
  late:
  far:
  strokes: {number: 0 to 4}
rulings:
  play: {choice: [stops, goes_on], otherwise: goes_on}
  duties: {choice: [tell, write], when_several: all_apply, otherwise: []}
clauses:
  - id: '1'
    when: late
    ruling: {play: stops}
  - id: '2'
    when: late and far
    ruling: {play: stops, duties: tell}
  - id: '3'
    when: not late
    ruling: {play: stops}
  - id: '4'
    when: strokes at least 3
    ruling: {duties: write}
  - id: '5'
    when: far
    ruling: {play: goes_on}
  - id: '6'
    when: strokes at most 2
    ruling: {duties: write}
";

    #[test]
    fn those_overlap_that_some_incident_meets_and_that_agree() {
        let ruleset = load("a", RULES).unwrap().ruleset;
        let found = overlaps(&ruleset, &Budget::unlimited());
        let ids: Vec<(&str, &str)> = found
            .pairs
            .iter()
            .map(|(one, other, _)| (ruleset[*one].id.as_str(), ruleset[*other].id.as_str()))
            .collect();
        assert_eq!(ids, [("1", "2"), ("2", "4"), ("2", "6")]);
        assert_eq!(found.open, 0);
        // The same by trying every incident.
        let evaluator = Evaluator::new(&ruleset);
        let all: Vec<_> = scenarios(&ruleset).unwrap().collect();
        for one in 0..ruleset.clauses.len() {
            for other in one + 1..ruleset.clauses.len() {
                let agree = agreeing(&ruleset, &ruleset.clauses[one], &ruleset.clauses[other]);
                let together = all.iter().any(|scenario| {
                    let met = evaluator.outcome(scenario).met;
                    met.contains(one) && met.contains(other)
                });
                let known = found
                    .pairs
                    .iter()
                    .any(|(first, second, _)| (first.index(), second.index()) == (one, other));
                assert_eq!(known, together && !agree.is_empty(), "{one} and {other}");
            }
        }
    }

    #[test]
    fn what_the_budget_leaves_open_is_counted() {
        let ruleset = load("a", RULES).unwrap().ruleset;
        let budget = Budget::unlimited();
        budget.interrupt();
        let found = overlaps(&ruleset, &budget);
        assert!(found.pairs.is_empty());
        assert!(found.open > 0 && found.reason.is_some());
    }
}
