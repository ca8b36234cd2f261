//! Displaced: the clause can be met, but no ruling of it ever stands, or it is never in force.
//!
//! Question: is there a scenario in which a ruling of the clause stands (for a clause without one:
//! in which it is in force)? Where there is none, a smallest set of clauses that is enough to
//! displace it everywhere is worked out (see `cores`), and other sets that are enough as well.

use super::cores::{self, Judged};
use super::finding::Finding;
use super::inquiry::Inquiry;
use super::no_effect;
use super::words;
use crate::logic::{Formula, Name, Scenario, World};
use crate::model::{ClauseId, DimensionId, Kind};
use crate::solve::Answer;
use std::collections::BTreeSet;

/// The most scenarios that are looked at for a smallest set.
const MOST_ROUNDS: usize = 200;

/// The most sets that are looked at for others that are enough as well.
const MOST_SETS: usize = 40;

/// With more rivals than this, others are not looked for.
const MOST_RIVALS: usize = 16;

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
    let Displacers {
        first: displacers,
        smallest,
        others,
    } = displacers(inquiry, clause);
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
    let advice = match inquiry.ask_among(
        inquiry.met_beside(clause),
        &no_effect::question(inquiry, clause),
    ) {
        Answer::No => "Repeal it, or say where it is to prevail.",
        Answer::Yes(_) => {
            "Say where it is to prevail. Merely repealing it would change rulings, since it still displaces others."
        }
        Answer::Undecided(_) => "Say where it is to prevail.",
    };
    let advice = if smallest {
        advice.to_owned()
    } else {
        format!("{advice} The clauses named are enough to displace it; there may be a smaller set.")
    };
    let advice = match others.as_slice() {
        [] => advice,
        others => {
            let others: Vec<String> = others
                .iter()
                .map(|set| words::clauses(ruleset, set))
                .collect();
            format!(
                "{} would displace it everywhere as well. {advice}",
                words::capital(&words::or_list(&others))
            )
        }
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

/// Which of the rivals, numbered, displace the clause wherever it is met.
fn judge(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    all: &[ClauseId],
    chosen: &BTreeSet<usize>,
) -> Judged {
    let sides = sides(inquiry, clause);
    let is_chosen = |rival: &ClauseId| {
        let number = all.iter().position(|one| one == rival);
        number.is_some_and(|number| chosen.contains(&number))
    };
    // Where the clause is met and, on one of its sides, none of the chosen is in force.
    let free = sides.iter().map(|side| {
        let stopped = rivals(inquiry, clause, *side).into_iter().filter(is_chosen);
        let in_force = |rival| Formula::from(Name::InForce(World::Actual, rival));
        Formula::all(stopped.map(|rival| in_force(rival).negated()))
    });
    let free: Vec<Formula> = free.collect();
    let question = Formula::all([Name::Met(World::Actual, clause).into(), Formula::any(free)]);
    match inquiry.ask(&question) {
        Answer::No => Judged::Conflict,
        Answer::Undecided(_) => Judged::Open,
        Answer::Yes(scenario) => {
            let outcome = inquiry.outcome(&scenario);
            let open = sides.iter().filter_map(|side| {
                let rivals = rivals(inquiry, clause, *side);
                let in_force = |rival: &&ClauseId| outcome.in_force.contains(rival.index());
                let here: BTreeSet<ClauseId> = rivals.iter().filter(in_force).copied().collect();
                (!here.iter().any(is_chosen)).then_some(here)
            });
            let fewest = open.min_by_key(BTreeSet::len).unwrap_or_default();
            let free = all
                .iter()
                .enumerate()
                .filter(|(_, one)| !fewest.contains(one));
            Judged::Free(free.map(|(number, _)| number).collect())
        }
    }
}

/// The dimensions on which the clause can be displaced; one side without a dimension where it has
/// no ruling.
fn sides(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Vec<Option<DimensionId>> {
    let rulings = &inquiry.ruleset[clause].rulings;
    if rulings.is_empty() {
        return vec![None];
    }
    rulings
        .iter()
        .map(|(dimension, _)| Some(*dimension))
        .collect()
}

/// The sets of clauses that displace the clause wherever it is met, none of which needs all of
/// another.
struct Displacers {
    /// A smallest set.
    first: Vec<ClauseId>,
    /// Whether it is known to be a smallest.
    smallest: bool,
    /// Other sets that are enough as well, where they could all be found.
    others: Vec<Vec<ClauseId>>,
}

fn displacers(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId) -> Displacers {
    let all: BTreeSet<ClauseId> = sides(inquiry, clause)
        .iter()
        .flat_map(|side| rivals(inquiry, clause, *side))
        .collect();
    let all: Vec<ClauseId> = all.into_iter().collect();
    let named = |set: &BTreeSet<usize>| -> Vec<ClauseId> {
        set.iter()
            .filter_map(|number| all.get(*number))
            .copied()
            .collect()
    };
    let known = cores::smallest(all.len(), MOST_ROUNDS, |chosen| {
        judge(inquiry, clause, &all, chosen)
    });
    let Some((first, smallest)) = known else {
        return Displacers {
            first: all,
            smallest: false,
            others: Vec::new(),
        };
    };
    let others = if all.len() > MOST_RIVALS {
        Vec::new()
    } else {
        let found = cores::all(all.len(), MOST_SETS, |chosen| {
            judge(inquiry, clause, &all, chosen)
        });
        let others = found.conflicts.into_iter().filter(|set| *set != first);
        others.map(|set| named(&set)).collect()
    };
    Displacers {
        first: named(&first),
        smallest,
        others,
    }
}
