//! The scenarios that teach most about a ruleset, of the sorts that were asked for.
//!
//! Never two alike: what shows several things is given once, with all that it shows. With a number
//! asked for, chance picks which; the same seed picks the same.

use super::competing::Competing;
use super::cover::{self, Covering};
use super::covering::{Refusal, shuffle};
use super::grey::Grey;
use super::legal::Legal;
use super::pair::{Contrast, NoPair, Pair};
use super::parts::Parts;
use super::study::{Study, Wanted};
use super::task::{look_at_all, tasks};
use super::threshold::Threshold;
use crate::logic::{Code, Layers, Reach, Scenario};
use crate::model::{AttributeId, ClauseId, Ruleset, TermId};
use crate::solve::{Budget, Reason};
use oorandom::Rand64;
use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroUsize;

/// What kind of scenario is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// One contrast pair for each clause.
    Clauses,
    /// A contrast pair for each part of each clause's condition.
    Parts,
    /// Each number at which a ruling turns, with its neighbours.
    Thresholds,
    /// Clauses that are met at once and would rule differently.
    Competing,
    /// Incidents at the grey zone of each vague term.
    Grey,
    /// What is legal next to what each clause bans.
    Legal,
}

impl Sort {
    /// All of them, in the order in which they are shown.
    pub const ALL: [Sort; 6] = [
        Sort::Clauses,
        Sort::Parts,
        Sort::Thresholds,
        Sort::Competing,
        Sort::Grey,
        Sort::Legal,
    ];
}

/// What is asked for.
#[derive(Clone, Debug, Default)]
pub struct Request {
    /// Which scenarios are wanted.
    pub wanted: Wanted,
    /// Of which sorts.
    pub sorts: Vec<Sort>,
    /// A covering set of this strength.
    pub covering: Option<usize>,
    /// The attributes whose values the covering set combines; all where there are none.
    pub among: Vec<AttributeId>,
    /// The most entries; all where left out.
    pub count: Option<usize>,
    /// What chance begins with.
    pub seed: u64,
    /// How many threads may look; one where left out. What is found does not depend on it.
    pub jobs: Option<NonZeroUsize>,
}

/// One thing to be shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    /// A contrast pair, and what else it shows.
    Pair(Pair, Vec<Contrast>),
    /// A threshold.
    Threshold(Threshold),
    /// Clauses that compete.
    Competing(Competing),
    /// A grey zone.
    Grey(Grey),
    /// Legal neighbours.
    Legal(Legal),
}

impl Entry {
    /// Its scenarios, in the order in which they are shown.
    pub fn scenarios(&self) -> Vec<&Scenario> {
        match self {
            Entry::Pair(pair, _) => vec![&pair.first, &pair.second],
            Entry::Threshold(it) => [&it.below, &it.on].into_iter().chain(&it.above).collect(),
            Entry::Competing(it) => vec![&it.scenario],
            Entry::Grey(it) => vec![&it.narrow, &it.broad],
            Entry::Legal(it) => std::iter::once(&it.banned).chain(&it.legal).collect(),
        }
    }
}

/// Something that was looked for and has nothing to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Nothing {
    /// A part of a clause's condition, counted from 0.
    Part(ClauseId, usize, NoPair),
    /// A clause, none of whose parts has a pair; why, part by part.
    Clause(ClauseId, Vec<NoPair>),
    /// A clause that is always met: it has no other side.
    AlwaysMet(ClauseId),
    /// A place where a number is compared and no announced ruling turns.
    Threshold(AttributeId, Code),
    /// A vague term on whose reading no announced ruling turns.
    Grey(TermId),
    /// Undecided.
    Open(Sort, Reason),
}

impl Nothing {
    /// Whether it stayed open.
    pub fn is_open(&self) -> bool {
        match self {
            Nothing::Open(..) | Nothing::Part(_, _, NoPair::Undecided(_)) => true,
            Nothing::Clause(_, reasons) => reasons
                .iter()
                .any(|reason| matches!(reason, NoPair::Undecided(_))),
            _ => false,
        }
    }
}

/// What was found.
#[derive(Clone, Debug, Default)]
pub struct Telling {
    /// What is to be shown, in the order of sorts and of the file.
    pub entries: Vec<Entry>,
    /// What has nothing to show.
    pub nothing: Vec<Nothing>,
    /// The parts of the clauses whose conditions were taken apart.
    pub parts: BTreeMap<ClauseId, Parts>,
    /// The covering set, where one was asked for.
    pub covering: Option<Result<Covering, Refusal>>,
    /// Why it ended before everything was looked at, if it did.
    pub stopped: Option<Reason>,
    /// Whether more could have been shown than was asked for.
    pub more: bool,
}

/// Looks for the scenarios that were asked for. What the budget leaves open is said.
pub fn telling(ruleset: &Ruleset, request: &Request, budget: &Budget) -> Telling {
    let reach = Reach::new(ruleset, Layers::new(ruleset));
    let mut study = Study::new(ruleset, &reach, &request.wanted, budget);
    let mut told = Telling::default();
    let mut tasks = tasks(&study, request, &mut told);
    if request.count.is_some() {
        shuffle(&mut tasks, &mut Rand64::new(u128::from(request.seed)));
    }
    let jobs = request.jobs.map_or(1, NonZeroUsize::get);
    let mut found: Vec<(usize, Entry)> = Vec::new();
    let mut alike: BTreeMap<BTreeSet<Scenario>, usize> = BTreeMap::new();
    let mut tasks = tasks.as_slice();
    while !tasks.is_empty() && told.stopped.is_none() {
        let most = request.count.unwrap_or(usize::MAX);
        if found.len() >= most {
            told.more = true;
            break;
        }
        // No more at once than are wanted still, so that nothing is looked for in vain.
        let (now, later) = tasks.split_at(tasks.len().min(most - found.len()));
        tasks = later;
        let came = look_at_all(&mut study, now, &told.parts, jobs);
        for ((place, _), came) in now.iter().zip(came) {
            let entry = match came {
                Some(Ok(Some(entry))) => entry,
                Some(Ok(None)) => continue,
                Some(Err(nothing)) => {
                    told.nothing.push(nothing);
                    continue;
                }
                None => {
                    told.stopped = study.exhausted();
                    break;
                }
            };
            let scenarios: BTreeSet<Scenario> = entry.scenarios().into_iter().cloned().collect();
            match alike.get(&scenarios).and_then(|at| found.get_mut(*at)) {
                Some((_, Entry::Pair(_, also))) => {
                    if let Entry::Pair(pair, _) = entry {
                        also.push(pair.contrast);
                    }
                }
                Some(_) => {}
                None => {
                    alike.insert(scenarios, found.len());
                    found.push((*place, entry));
                }
            }
        }
    }
    found.sort_by_key(|(place, _)| *place);
    told.entries = found.into_iter().map(|(_, entry)| entry).collect();
    told.covering = request
        .covering
        .map(|strength| cover::cover(&mut study, &request.among, strength, request.seed));
    told
}
