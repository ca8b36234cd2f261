//! What is legal next to what is banned: an incident in which a clause brings a ruling above the
//! mildest, and the changes of one fact after which it is the mildest.

use super::pair::{Contrast, Pair};
use super::study::Study;
use crate::logic::{Outcome, Scenario};
use crate::model::{AttributeId, ClauseId, DimensionId, ValueSet};
use std::collections::BTreeSet;

/// How many facts may be newly asked, or no longer asked, in a neighbour.
const MOST_STRUCTURE: usize = 2;

/// A banned act and its legal neighbours.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Legal {
    /// The clause that bans it.
    pub clause: ClauseId,
    /// The scale on which it is not the mildest.
    pub dimension: DimensionId,
    /// The banned act.
    pub banned: Scenario,
    /// For each fact that makes it legal, the nearest such scenario.
    pub legal: Vec<Scenario>,
}

/// The legal neighbours of the act in which a clause was seen to count.
pub(crate) fn beside(study: &Study<'_, '_>, pair: &Pair) -> Option<Legal> {
    let (Contrast::OneFact { clause, .. } | Contrast::Masked { clause, .. }) = pair.contrast;
    let said = study.outcome(&pair.first);
    let dimension = banned_on(study, &said)?;
    let everything: BTreeSet<AttributeId> = (0..study.ruleset.attributes.len())
        .map(AttributeId::new)
        .collect();
    let mut nearest: Vec<(AttributeId, (usize, u64), Scenario)> = Vec::new();
    for (id, other) in study.neighbours(&pair.first, &everything) {
        if !is_mildest(&study.outcome(&other), dimension) {
            continue;
        }
        let unlike = study.unlike(&pair.first, &other);
        match nearest.iter_mut().find(|(known, ..)| *known == id) {
            Some(known) if known.1 > unlike => *known = (id, unlike, other),
            Some(_) => {}
            None => nearest.push((id, unlike, other)),
        }
    }
    nearest.sort_by_key(|(id, unlike, _)| (*unlike, *id));
    // What changes the kind of incident altogether is no neighbour, unless there is no other.
    let near = |it: &(AttributeId, (usize, u64), Scenario)| it.1.0 <= MOST_STRUCTURE;
    if nearest.first().is_some_and(near) {
        nearest.retain(near);
    } else {
        nearest.truncate(1);
    }
    let legal: Vec<Scenario> = nearest.into_iter().map(|(.., scenario)| scenario).collect();
    (!legal.is_empty()).then(|| Legal {
        clause,
        dimension,
        banned: pair.first.clone(),
        legal,
    })
}

/// The first announced scale that has another value than its default there, if the default is its
/// mildest value.
fn banned_on(study: &Study<'_, '_>, said: &Outcome) -> Option<DimensionId> {
    let ids = (0..study.ruleset.dimensions.len()).map(DimensionId::new);
    let mut scales = ids.filter(|id| {
        let this = &study.ruleset[*id];
        // A scale on which silence is the mildest forbids; one of scores, say, rewards, and looks the
        // same: what it is called can't be known, so the first in the file is taken to forbid.
        this.ordered && !this.intermediate && this.otherwise == Some(ValueSet::one(0))
    });
    let first = scales.next()?;
    let ruling = said.rulings.get(first.index())?;
    let above = !ruling.values.is_empty() && !ruling.values.contains(0);
    above.then_some(first)
}

fn is_mildest(said: &Outcome, dimension: DimensionId) -> bool {
    let ruling = said.rulings.get(dimension.index());
    ruling.is_some_and(|ruling| ruling.values == ValueSet::one(0))
}
