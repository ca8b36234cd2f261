//! Cases that disagree with each other: the same facts, as far as they can matter, ruled differently.
//!
//! Facts that no clause on the dimension can come to read do not matter. One case covers another where
//! all of its facts are facts of the other too.

use super::book::{Case, Ruled};
use crate::logic::{Code, attributes_read, dimensions_read, with_askers};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use fixedbitset::FixedBitSet;
use rustc_hash::FxHashMap;

/// Two cases with the same facts, or of which one covers the other, that were ruled differently.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Inconsistent {
    /// The dimension.
    pub dimension: DimensionId,
    /// The case that was read first, and what was ruled.
    pub first: (String, Ruled),
    /// The other.
    pub second: (String, Ruled),
    /// Whether they have the same facts; else the one with fewer covers the other.
    pub same_facts: bool,
}

/// Facts that matter, in the order of attributes.
type Facts = Vec<(AttributeId, Code)>;

/// Different facts on one dimension that are kept for comparison; memory has an end.
const KEPT: usize = 20_000;
/// Comparisons of two sets of facts that are made on one dimension.
const COMPARISONS: usize = 4_000_000;
/// Inconsistent pairs that are told; the others are counted.
const TOLD: usize = 10_000;

/// What was ruled on facts that were seen, dimension by dimension.
pub struct Seen {
    matters: Vec<FixedBitSet>,
    ruled: Vec<FxHashMap<Facts, Vec<(String, Ruled)>>>,
    /// Room for the facts of the case that is looked at.
    facts: Facts,
    found: Vec<Inconsistent>,
    more: u64,
    complete: bool,
}

impl Seen {
    /// Nothing was seen yet.
    pub fn new(ruleset: &Ruleset) -> Self {
        let dimensions = ruleset.dimensions.len();
        let ids = (0..dimensions).map(DimensionId::new);
        Seen {
            matters: ids.map(|id| matters(ruleset, id)).collect(),
            ruled: vec![FxHashMap::default(); dimensions],
            facts: Facts::new(),
            found: Vec::new(),
            more: 0,
            complete: true,
        }
    }

    /// Takes in a case.
    pub fn add(&mut self, case: &Case) {
        for (dimension, ruled) in &case.found.ruled {
            let Some(matters) = self.matters.get(dimension.index()) else {
                continue;
            };
            let all = case.found.facts.facts();
            self.facts.clear();
            self.facts
                .extend(all.filter(|(id, _)| matters.contains(id.index())));
            let Some(seen) = self.ruled.get_mut(dimension.index()) else {
                continue;
            };
            let Some(rulings) = seen.get_mut(&self.facts) else {
                if seen.len() < KEPT {
                    seen.insert(self.facts.clone(), vec![(case.id.clone(), *ruled)]);
                } else {
                    self.complete = false;
                }
                continue;
            };
            let first = rulings.first().filter(|first| first.1 != *ruled).cloned();
            let Some(first) = first else { continue };
            let second = (case.id.clone(), *ruled);
            if rulings.iter().all(|(_, known)| known != ruled) {
                rulings.push(second.clone());
            }
            let pair = Inconsistent {
                dimension: *dimension,
                first,
                second,
                same_facts: true,
            };
            tell(&mut self.found, &mut self.more, pair);
        }
    }

    /// Everything that was found, how many more there are, and whether all were compared.
    pub fn finish(mut self) -> (Vec<Inconsistent>, u64, bool) {
        for (index, seen) in self.ruled.iter().enumerate() {
            let dimension = DimensionId::new(index);
            let mut by_length: Vec<(&Facts, &Vec<(String, Ruled)>)> = seen.iter().collect();
            by_length.sort_unstable_by_key(|(facts, _)| (facts.len(), *facts));
            let mut left = COMPARISONS;
            'all: for (at, (fewer, few)) in by_length.iter().enumerate() {
                // Those with as many facts cannot be covered, for they would be the same.
                let next = at
                    + by_length.get(at..).map_or(0, |rest| {
                        rest.partition_point(|(facts, _)| facts.len() <= fewer.len())
                    });
                for (facts, many) in by_length.iter().skip(next) {
                    let Some(one_less) = left.checked_sub(1) else {
                        self.complete = false;
                        break 'all;
                    };
                    left = one_less;
                    if !covers(fewer, facts) {
                        continue;
                    }
                    for first in *few {
                        for second in many.iter().filter(|second| second.1 != first.1) {
                            let pair = Inconsistent {
                                dimension,
                                first: first.clone(),
                                second: second.clone(),
                                same_facts: false,
                            };
                            tell(&mut self.found, &mut self.more, pair);
                        }
                    }
                }
            }
        }
        (self.found, self.more, self.complete)
    }
}

fn tell(found: &mut Vec<Inconsistent>, more: &mut u64, pair: Inconsistent) {
    if found.len() < TOLD {
        found.push(pair);
    } else {
        *more += 1;
    }
}

/// Whether all facts of the one are facts of the other; both in the order of attributes.
fn covers(fewer: &Facts, facts: &Facts) -> bool {
    let mut at = facts.iter();
    fewer.iter().all(|fact| at.any(|other| other == fact))
}

/// The attributes that can come to matter for a dimension: what its clauses read, what those read
/// that stand above them, what decides rulings that they read, and what decides whether any of it is
/// asked.
fn matters(ruleset: &Ruleset, dimension: DimensionId) -> FixedBitSet {
    let mut attributes = FixedBitSet::with_capacity(ruleset.attributes.len());
    let mut clauses = FixedBitSet::with_capacity(ruleset.clauses.len());
    let mut dimensions = FixedBitSet::with_capacity(ruleset.dimensions.len());
    let mut open: Vec<ClauseId> = Vec::new();
    let mut asked = vec![dimension];
    loop {
        if let Some(id) = asked.pop() {
            if dimensions.put(id.index()) {
                continue;
            }
            if let Some(condition) = &ruleset[id].required_when {
                attributes.union_with(&attributes_read(ruleset, condition));
                asked.extend(dimensions_read(condition));
            }
            let all = (0..ruleset.clauses.len()).map(ClauseId::new);
            open.extend(all.filter(|clause| ruleset[*clause].ruling_on(id).is_some()));
        } else if let Some(id) = open.pop() {
            if clauses.put(id.index()) {
                continue;
            }
            let clause = &ruleset[id];
            attributes.union_with(&attributes_read(ruleset, &clause.when));
            asked.extend(dimensions_read(&clause.when));
            open.extend(clause.disapplied_by.iter().chain(&clause.yields_to));
        } else {
            break;
        }
    }
    let all = with_askers(ruleset, attributes.ones().map(AttributeId::new));
    attributes.extend(all.into_iter().map(AttributeId::index));
    attributes
}
