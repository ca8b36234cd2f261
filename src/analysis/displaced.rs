//! Displaced: the clause can be met, but no ruling of it ever stands, or it is never in force.
//!
//! Question: is there a scenario in which a ruling of the clause stands (for a clause without one:
//! in which it is in force)? Where there is none, a smallest set of clauses that is enough to
//! displace it everywhere is worked out as a smallest hitting set: every scenario in which the chosen
//! clauses do not displace it names others that do (Reiter, A theory of diagnosis from first
//! principles, Artificial Intelligence 32, 1987).

use super::finding::Finding;
use super::inquiry::Inquiry;
use super::words;
use crate::logic::{Formula, Name, Scenario, World};
use crate::model::{ClauseId, DimensionId, Kind};
use crate::solve::Answer;
use std::collections::BTreeSet;

/// The most scenarios that are looked at for a smallest set.
const MOST_ROUNDS: usize = 200;

/// Where the clause counts.
pub(super) fn question(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Formula {
    let rulings = &inquiry.ruleset[clause].rulings;
    if rulings.is_empty() {
        return Name::InForce(World::Actual, clause).into();
    }
    let stands = |dimension: DimensionId| Name::Stands(World::Actual, clause, dimension).into();
    Formula::any(rulings.iter().map(|(dimension, _)| stands(*dimension)))
}

/// Puts it into words. `met` is a scenario in which it is met.
pub(super) fn report(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId, met: &Scenario) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let (displacers, smallest) = smallest_displacers(inquiry, clause);
    let mut all = vec![clause];
    all.extend(&displacers);
    let by = words::clauses(ruleset, &displacers);
    let headline = if this.rulings.is_empty() {
        format!(
            "Clause {} never takes effect: {by} always displaces it",
            this.id
        )
    } else {
        format!(
            "No ruling of clause {} ever stands: {by} always displaces it",
            this.id
        )
    };
    let headline = if displacers.len() > 1 {
        headline.replace("displaces it", "displace it")
    } else {
        headline
    };
    let mentioned = inquiry.mentioned(&all);
    let description = inquiry.describe(
        &Name::Met(World::Actual, clause).into(),
        met,
        &mentioned,
        &[clause],
    );
    let mut finding = words::finding(
        Kind::Displaced,
        headline,
        this.id_span,
        "always yields wherever it is met",
    )
    .of_clauses(&all);
    for other in &displacers {
        let verb = if this.disapplied_by.contains(other) {
            "disapplies"
        } else {
            "prevails over"
        };
        finding.labels.push((
            ruleset[*other].id_span,
            format!("{} {verb} {}", ruleset[*other].id, this.id),
        ));
    }
    let advice = "Repeal it, or say where it is to prevail.";
    let advice = if smallest {
        advice.to_owned()
    } else {
        format!("{advice} The clauses named are enough to displace it; there may be a smaller set.")
    };
    finding.described(description).help(advice)
}

/// The clauses that displace this one on each of its dimensions, or disapply it.
fn rivals(
    inquiry: &Inquiry<'_, '_>,
    clause: ClauseId,
    dimension: Option<DimensionId>,
) -> BTreeSet<ClauseId> {
    let this = &inquiry.ruleset[clause];
    let above = this.yields_to.iter().copied().filter(|other| {
        dimension.is_some_and(|dimension| inquiry.ruleset[*other].ruling_on(dimension).is_some())
    });
    this.disapplied_by.iter().copied().chain(above).collect()
}

/// A smallest set of clauses that displaces the clause wherever it is met, and whether it is known
/// to be a smallest.
fn smallest_displacers(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId) -> (Vec<ClauseId>, bool) {
    let rulings = &inquiry.ruleset[clause].rulings;
    let sides: Vec<Option<DimensionId>> = if rulings.is_empty() {
        vec![None]
    } else {
        rulings
            .iter()
            .map(|(dimension, _)| Some(*dimension))
            .collect()
    };
    let all: BTreeSet<ClauseId> = sides
        .iter()
        .flat_map(|side| rivals(inquiry, clause, *side))
        .collect();
    let mut to_hit: Vec<BTreeSet<ClauseId>> = Vec::new();
    for _ in 0..MOST_ROUNDS {
        let Some(chosen) = smallest_hitting_set(&to_hit) else {
            break;
        };
        // Where the clause is met and, on one of its sides, none of the chosen is in force.
        let free = sides.iter().map(|side| {
            let stopped = rivals(inquiry, clause, *side)
                .into_iter()
                .filter(|rival| chosen.contains(rival));
            Formula::all(
                stopped.map(|rival| Formula::from(Name::InForce(World::Actual, rival)).negated()),
            )
        });
        let question = Formula::all([Name::Met(World::Actual, clause).into(), Formula::any(free)]);
        match inquiry.ask(&question) {
            Answer::No => return (chosen.into_iter().collect(), true),
            Answer::Undecided(_) => break,
            Answer::Yes(scenario) => {
                let outcome = inquiry.outcome(&scenario);
                let before = to_hit.len();
                for side in &sides {
                    let here: BTreeSet<ClauseId> = rivals(inquiry, clause, *side)
                        .into_iter()
                        .filter(|rival| outcome.in_force.contains(rival.index()))
                        .collect();
                    if here.is_disjoint(&chosen) && !here.is_empty() {
                        to_hit.push(here);
                    }
                }
                if to_hit.len() == before {
                    break;
                }
            }
        }
    }
    (all.into_iter().collect(), false)
}

/// A smallest set that has something in common with each; `None` where that takes too long to find.
fn smallest_hitting_set(sets: &[BTreeSet<ClauseId>]) -> Option<BTreeSet<ClauseId>> {
    fn within(
        sets: &[BTreeSet<ClauseId>],
        size: usize,
        chosen: &BTreeSet<ClauseId>,
        steps: &mut usize,
    ) -> Option<BTreeSet<ClauseId>> {
        *steps = steps.checked_sub(1)?;
        let Some(open) = sets.iter().find(|set| set.is_disjoint(chosen)) else {
            return Some(chosen.clone());
        };
        if size == 0 {
            return None;
        }
        open.iter().find_map(|next| {
            let mut more = chosen.clone();
            more.insert(*next);
            within(sets, size - 1, &more, steps)
        })
    }
    let mut steps = 200_000;
    (0..=sets.len()).find_map(|size| within(sets, size, &BTreeSet::new(), &mut steps))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hitting_sets_are_smallest() {
        let set = |ids: &[usize]| {
            ids.iter()
                .map(|id| ClauseId::new(*id))
                .collect::<BTreeSet<_>>()
        };
        let check = |sets: &[&[usize]], expected: usize| {
            let sets: Vec<_> = sets.iter().map(|ids| set(ids)).collect();
            let found = smallest_hitting_set(&sets);
            assert_eq!(
                found.as_ref().map(BTreeSet::len),
                Some(expected),
                "{sets:?}"
            );
            assert!(
                sets.iter()
                    .all(|set| found.as_ref().is_some_and(|found| !found.is_disjoint(set)))
            );
        };
        check(&[], 0);
        check(&[&[1, 2], &[2, 3]], 1);
        check(&[&[1, 2], &[3, 4], &[2, 3]], 2);
        check(&[&[1], &[2], &[3]], 3);
    }
}
