//! The scenarios that teach most about a ruleset, of the sorts that were asked for.
//!
//! Never two alike: what shows several things is given once, with all that it shows. With a number
//! asked for, chance picks which; the same seed picks the same.

use super::competing::{self, Competing, Rivals};
use super::cover::{self, Covering};
use super::covering::{Refusal, shuffle};
use super::grey::{self, Grey, Zone};
use super::legal::{self, Legal};
use super::pair::{self, Contrast, Effort, Found, NoPair, Pair};
use super::parts::{PartPlace, Parts};
use super::study::{Study, Wanted};
use super::threshold::{self, Threshold, Turn};
use crate::logic::{Code, Layers, Reach, Scenario};
use crate::model::{AttributeId, ClauseId, Ruleset, TermId};
use crate::solve::{Budget, Reason};
use oorandom::Rand64;
use std::collections::{BTreeMap, BTreeSet};

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
    /// The parts of the clauses that the entries speak of.
    pub parts: BTreeMap<ClauseId, Parts>,
    /// The covering set, where one was asked for.
    pub covering: Option<Result<Covering, Refusal>>,
    /// Why it ended before everything was looked at, if it did.
    pub stopped: Option<Reason>,
    /// Whether more could have been shown than was asked for.
    pub more: bool,
}

/// One thing to look for.
#[derive(Clone, Copy, Debug)]
enum Task {
    Clause(ClauseId),
    Part(ClauseId, usize),
    Threshold(AttributeId, Code),
    Rivals(Rivals),
    Grey(TermId, AttributeId),
    Legal(ClauseId),
}

/// Looks for the scenarios that were asked for. What the budget leaves open is said.
pub fn telling(ruleset: &Ruleset, request: &Request, budget: &Budget) -> Telling {
    let reach = Reach::new(ruleset, Layers::new(ruleset));
    let mut study = Study::new(ruleset, &reach, &request.wanted, budget);
    let mut told = Telling::default();
    let mut tasks: Vec<(usize, Task)> = tasks(&study, request, &mut told)
        .into_iter()
        .enumerate()
        .collect();
    if request.count.is_some() {
        shuffle(&mut tasks, &mut Rand64::new(u128::from(request.seed)));
    }
    let mut found: Vec<(usize, Entry)> = Vec::new();
    let mut alike: BTreeMap<BTreeSet<Scenario>, usize> = BTreeMap::new();
    for (place, task) in tasks {
        if request.count.is_some_and(|count| found.len() >= count) {
            told.more = true;
            break;
        }
        if let Some(reason) = study.exhausted() {
            told.stopped = Some(reason);
            break;
        }
        let Some(entry) = look(&mut study, task, &mut told) else {
            continue;
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
                found.push((place, entry));
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

fn tasks(study: &Study<'_, '_>, request: &Request, told: &mut Telling) -> Vec<Task> {
    let ids = || (0..study.ruleset.clauses.len()).map(ClauseId::new);
    let clauses: Vec<ClauseId> = ids().filter(|id| study.wanted.is_about(*id)).collect();
    let mut tasks = Vec::new();
    for sort in Sort::ALL {
        if !request.sorts.contains(&sort) {
            continue;
        }
        match sort {
            // Its pair is among those of its parts.
            Sort::Clauses if request.sorts.contains(&Sort::Parts) => {}
            Sort::Clauses => tasks.extend(clauses.iter().copied().map(Task::Clause)),
            Sort::Parts => {
                for id in &clauses {
                    let parts = Parts::of(study.ruleset, *id);
                    if parts.parts.is_empty() {
                        told.nothing.push(Nothing::AlwaysMet(*id));
                    }
                    tasks.extend((0..parts.parts.len()).map(|index| Task::Part(*id, index)));
                    told.parts.insert(*id, parts);
                }
            }
            Sort::Thresholds => {
                let places = threshold::places(study).into_iter();
                tasks.extend(places.map(|(id, at)| Task::Threshold(id, at)));
            }
            Sort::Competing => tasks.extend(competing::rivals(study).into_iter().map(Task::Rivals)),
            Sort::Grey => {
                let terms = grey::terms(study).into_iter();
                tasks.extend(terms.map(|(term, reading)| Task::Grey(term, reading)));
            }
            Sort::Legal => tasks.extend(clauses.iter().copied().map(Task::Legal)),
        }
    }
    tasks
}

fn look(study: &mut Study<'_, '_>, task: Task, told: &mut Telling) -> Option<Entry> {
    match task {
        Task::Clause(id) => {
            let parts = parts_of(study, told, id);
            if parts.parts.is_empty() {
                told.nothing.push(Nothing::AlwaysMet(id));
                return None;
            }
            if let Some(pair) = pair::for_clause(study, id, &parts) {
                return Some(Entry::Pair(pair, Vec::new()));
            }
            let reasons = (0..parts.parts.len()).filter_map(|index| {
                match pair::for_part(study, id, &parts, index, Effort::Full)? {
                    Found::None(reason) => Some(reason),
                    Found::Pair(_) => None,
                }
            });
            let reasons = reasons.collect();
            told.nothing.push(Nothing::Clause(id, reasons));
            None
        }
        Task::Part(id, index) => {
            let parts = parts_of(study, told, id);
            match pair::for_part(study, id, &parts, index, Effort::Full)? {
                Found::Pair(pair) => Some(Entry::Pair(*pair, Vec::new())),
                Found::None(reason) => {
                    told.nothing.push(Nothing::Part(id, index, reason));
                    None
                }
            }
        }
        Task::Threshold(id, at) => match threshold::turn(study, id, at) {
            Turn::Turns(threshold) => Some(Entry::Threshold(*threshold)),
            Turn::Never(id, at) => {
                told.nothing.push(Nothing::Threshold(id, at));
                None
            }
            Turn::Undecided(_, _, reason) => {
                told.nothing.push(Nothing::Open(Sort::Thresholds, reason));
                None
            }
        },
        Task::Rivals(rivals) => match competing::compete(study, rivals) {
            Ok(competing) => competing.map(Entry::Competing),
            Err(reason) => {
                told.nothing.push(Nothing::Open(Sort::Competing, reason));
                None
            }
        },
        Task::Grey(term, reading) => match grey::zone(study, term, reading) {
            Zone::Turns(grey) => Some(Entry::Grey(*grey)),
            Zone::NothingTurnsOnIt(term) => {
                told.nothing.push(Nothing::Grey(term));
                None
            }
            Zone::Undecided(_, reason) => {
                told.nothing.push(Nothing::Open(Sort::Grey, reason));
                None
            }
        },
        Task::Legal(id) => {
            let parts = parts_of(study, told, id);
            let pair = by_place(&parts).find_map(|index| {
                match pair::for_part(study, id, &parts, index, Effort::Light)? {
                    Found::Pair(pair) => Some(*pair),
                    Found::None(_) => None,
                }
            })?;
            legal::beside(study, &pair).map(Entry::Legal)
        }
    }
}

/// The parts of a condition, those of the clause's own words first.
fn by_place(parts: &Parts) -> impl Iterator<Item = usize> {
    let of = |place: PartPlace| {
        let all = parts.parts.iter().enumerate();
        all.filter(move |(_, part)| part.place == place)
            .map(|(index, _)| index)
    };
    of(PartPlace::Clause).chain(of(PartPlace::Opening))
}

fn parts_of(study: &Study<'_, '_>, told: &mut Telling, id: ClauseId) -> Parts {
    let known = told.parts.entry(id);
    known
        .or_insert_with(|| Parts::of(study.ruleset, id))
        .clone()
}
