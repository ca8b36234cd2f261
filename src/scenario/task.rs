//! What there is to look for, one thing at a time, and looking for it.
//!
//! What comes of a task does not depend on what was looked at before or by whom, so several threads
//! may share the tasks.

use super::competing::{self, Rivals};
use super::grey::{self, Zone};
use super::legal;
use super::pair::{self, Effort, Found, Pair};
use super::parts::{PartPlace, Parts};
use super::study::Study;
use super::telling::{Entry, Nothing, Request, Sort, Telling};
use super::threshold::{self, Turn};
use crate::logic::{Code, STACK};
use crate::model::{AttributeId, ClauseId, TermId};
use std::collections::BTreeMap;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// One thing to look for.
#[derive(Clone, Copy, Debug)]
pub(super) enum Task {
    Clause(ClauseId),
    Part(ClauseId, usize),
    Threshold(AttributeId, Code),
    Rivals(Rivals),
    Grey(TermId, AttributeId),
    Legal(ClauseId),
}

/// What came of a task: something to show, nothing that would be worth a word, or why there is
/// nothing. `None` where the budget was at its end before.
pub(super) type Came = Option<Result<Option<Entry>, Nothing>>;

/// Tasks for which a further thread is not worth it.
const FEW: usize = 8;

/// Everything that is to be looked for, in the order in which it is shown, with its place in it.
/// Notes the conditions that this takes apart, and the clauses that have no other side.
pub(super) fn tasks(
    study: &Study<'_, '_>,
    request: &Request,
    told: &mut Telling,
) -> Vec<(usize, Task)> {
    let ids = || (0..study.ruleset.clauses.len()).map(ClauseId::new);
    let clauses: Vec<ClauseId> = ids().filter(|id| study.wanted.is_about(*id)).collect();
    let by_part = [Sort::Clauses, Sort::Parts, Sort::Legal];
    if by_part.iter().any(|sort| request.sorts.contains(sort)) {
        let parts = clauses
            .iter()
            .map(|id| (*id, Parts::of(study.ruleset, *id)));
        told.parts = parts.collect();
    }
    let parts = |id: &ClauseId| told.parts.get(id).map_or(0, |parts| parts.parts.len());
    let mut tasks = Vec::new();
    for sort in Sort::ALL {
        if !request.sorts.contains(&sort) {
            continue;
        }
        match sort {
            // Its pair is among those of its parts.
            Sort::Clauses if request.sorts.contains(&Sort::Parts) => {}
            Sort::Clauses => {
                let some = clauses.iter().filter(|id| parts(id) > 0);
                tasks.extend(some.copied().map(Task::Clause));
            }
            Sort::Parts => tasks.extend(clauses.iter().flat_map(|id| {
                let all = 0..parts(id);
                all.map(|index| Task::Part(*id, index))
            })),
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
    let one_sided = clauses.iter().filter(|id| parts(id) == 0);
    let one_sided: Vec<Nothing> = one_sided.copied().map(Nothing::AlwaysMet).collect();
    if request.sorts.contains(&Sort::Clauses) || request.sorts.contains(&Sort::Parts) {
        told.nothing.extend(one_sided);
    }
    tasks.into_iter().enumerate().collect()
}

/// Looks at all of these, in as many threads as are worth it; what came of each, in the same order.
pub(super) fn look_at_all(
    study: &mut Study<'_, '_>,
    tasks: &[(usize, Task)],
    parts: &BTreeMap<ClauseId, Parts>,
    jobs: usize,
) -> Vec<Came> {
    let next = AtomicUsize::new(0);
    let work = |study: &mut Study<'_, '_>| {
        let mut came = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some((_, task)) = tasks.get(at) else {
                return came;
            };
            if study.exhausted().is_some() {
                return came;
            }
            came.push((at, look(study, *task, parts)));
        }
    };
    let further = jobs.min(tasks.len() / FEW).saturating_sub(1);
    let (ruleset, reach, wanted) = (study.ruleset, study.reach, study.wanted);
    let budget = study.budget().clone();
    let mut all: Vec<Came> = tasks.iter().map(|_| None).collect();
    thread::scope(|scope| {
        let start = || {
            let (budget, work) = (&budget, &work);
            let of_its_own = move || work(&mut Study::new(ruleset, reach, wanted, budget));
            // Where no thread is to be had, the work is done here.
            let thread = thread::Builder::new().stack_size(STACK);
            thread.spawn_scoped(scope, of_its_own).ok()
        };
        let started: Vec<_> = (0..further).filter_map(|_| start()).collect();
        let mut came = work(study);
        for thread in started {
            came.extend(thread.join().unwrap_or_else(|fault| resume_unwind(fault)));
        }
        for (at, one) in came {
            if let Some(slot) = all.get_mut(at) {
                *slot = Some(one);
            }
        }
    });
    all
}

fn look(
    study: &mut Study<'_, '_>,
    task: Task,
    parts: &BTreeMap<ClauseId, Parts>,
) -> Result<Option<Entry>, Nothing> {
    let parts_of = |id: ClauseId| parts.get(&id);
    let pair = |pair: Pair| Some(Entry::Pair(pair, Vec::new()));
    match task {
        Task::Clause(id) => {
            let Some(parts) = parts_of(id) else {
                return Ok(None);
            };
            if let Some(found) = pair::for_clause(study, id, parts) {
                return Ok(pair(found));
            }
            let reasons = (0..parts.parts.len()).filter_map(|index| {
                match pair::for_part(study, id, parts, index, Effort::Full)? {
                    Found::None(reason) => Some(reason),
                    Found::Pair(_) => None,
                }
            });
            Err(Nothing::Clause(id, reasons.collect()))
        }
        Task::Part(id, index) => {
            let parts = parts_of(id);
            let found = parts.and_then(|it| pair::for_part(study, id, it, index, Effort::Full));
            match found {
                Some(Found::Pair(found)) => Ok(pair(*found)),
                Some(Found::None(reason)) => Err(Nothing::Part(id, index, reason)),
                None => Ok(None),
            }
        }
        Task::Threshold(id, at) => match threshold::turn(study, id, at) {
            Turn::Turns(threshold) => Ok(Some(Entry::Threshold(*threshold))),
            Turn::Never(id, at) => Err(Nothing::Threshold(id, at)),
            Turn::Undecided(_, _, reason) => Err(Nothing::Open(Sort::Thresholds, reason)),
        },
        Task::Rivals(rivals) => match competing::compete(study, rivals) {
            Ok(competing) => Ok(competing.map(Entry::Competing)),
            Err(reason) => Err(Nothing::Open(Sort::Competing, reason)),
        },
        Task::Grey(term, reading) => match grey::zone(study, term, reading) {
            Zone::Turns(grey) => Ok(Some(Entry::Grey(*grey))),
            Zone::NothingTurnsOnIt(term) => Err(Nothing::Grey(term)),
            Zone::Undecided(_, reason) => Err(Nothing::Open(Sort::Grey, reason)),
        },
        Task::Legal(id) => {
            let banned = parts_of(id).and_then(|parts| {
                by_place(parts).find_map(|index| {
                    match pair::for_part(study, id, parts, index, Effort::Light)? {
                        Found::Pair(pair) => Some(*pair),
                        Found::None(_) => None,
                    }
                })
            });
            let beside = banned.and_then(|pair| legal::beside(study, &pair));
            Ok(beside.map(Entry::Legal))
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
