//! A whole case book, or a log of any length, against the text.
//!
//! Cases are judged a batch at a time, in as many threads as are worth it, and told in the order of
//! the file; of what is not told in full only numbers are kept, so that a long log takes no more
//! memory than a short one.

use super::agreement::Agreement;
use super::book::Case;
use super::columns::{Columns, Row, RowProblem};
use super::judge::{Judge, Judged, Stance};
use super::officials::as_seen_by;
use super::same::{Inconsistent, Seen};
use crate::analysis::Progress;
use crate::logic::{Established, STACK, Scenario};
use crate::model::{AttributeId, Ruleset};
use crate::scenario::{Incident, possible};
use crate::solve::Budget;
use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroUsize;
use std::panic::resume_unwind;
use std::sync::mpsc::{self, Receiver, Sender, SyncSender};
use std::thread;

/// How a review is to be run.
pub struct Options<'p> {
    /// How many threads may judge.
    pub jobs: NonZeroUsize,
    /// What the run may use.
    pub budget: Budget,
    /// Who is told how far it is.
    pub progress: &'p dyn Progress,
}

/// A case that is told in full.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// The case.
    pub case: Case,
    /// How it stands to the text.
    pub judged: Judged,
    /// Why no incident has the facts noted, where none has.
    pub impossible: Option<String>,
    /// For each dimension that could not be decided, in the order of [`Judged::on`], the facts whose
    /// establishing would help, the best first; empty for the others.
    pub missing: Vec<Vec<AttributeId>>,
    /// For each dimension that disagrees, in the same order, incidents with these facts as the text
    /// rules them; none for the others.
    pub examples: Vec<Examples>,
}

/// Incidents with some facts as the text rules them on one dimension.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Examples {
    /// Whether the facts leave nothing open: then there is one, and it is the case itself.
    pub whole: bool,
    /// One for each ruling that is possible, the first few.
    pub incidents: Vec<Scenario>,
}

/// Rulings that are possible of which an incident is told.
const MOST_EXAMPLES: usize = 4;

/// What became of the cases.
#[derive(Debug, Default)]
pub struct Review {
    /// How many cases there are.
    pub cases: u64,
    /// How many agree with the text.
    pub agree: u64,
    /// How many of those rest on discretion that the text leaves.
    pub within_discretion: u64,
    /// Cases that disagree with the text, and how many more there are.
    pub disagree: (Vec<Told>, u64),
    /// Cases that can't be decided, and how many more there are.
    pub undetermined: (Vec<Told>, u64),
    /// Cases that cite a clause that is gone or not in force, and how many more there are. A case may
    /// be among the others too.
    pub miscited: (Vec<Told>, u64),
    /// Cases that several officials ruled differently, and how many more there are.
    pub differing: (Vec<Told>, u64),
    /// Pairs of cases that disagree with each other, and how many more there are.
    pub inconsistent: (Vec<Inconsistent>, u64),
    /// Whether every case was compared with every other.
    pub compared_all: bool,
    /// How far officials agree.
    pub agreement: Agreement,
    /// Whether the solver, or the time, left a case open.
    pub open: bool,
}

impl Review {
    /// How many cases disagree with the text.
    pub fn disagreeing(&self) -> u64 {
        self.disagree.0.len() as u64 + self.disagree.1
    }

    /// How many cases can't be decided.
    pub fn undecided(&self) -> u64 {
        self.undetermined.0.len() as u64 + self.undetermined.1
    }
}

/// Cases that are told in full, of each sort.
const TOLD: usize = 10_000;
/// Cases for which a further thread is not worth it.
const FEW: usize = 64;
/// Cases that are judged at a time.
const BATCH: usize = 4_096;
/// Batches that may wait for a thread.
const WAITING: usize = 2;
/// Problems after which no further row is read.
const MOST_PROBLEMS: usize = 50;

/// What stands in a batch.
enum Work {
    Case(Box<Case>),
    Row(Row),
}

/// A case, and how it stands to the text.
type Held = (Case, Judged);

/// What became of a batch: its cases in order, and what is wrong with its rows.
type Done = (usize, Vec<Held>, Vec<RowProblem>);

/// Reviews a case book.
#[expect(
    clippy::result_large_err,
    reason = "a row that is wrong is rare, and told with all of its cells"
)]
pub fn review(ruleset: &Ruleset, cases: Vec<Case>, options: &Options<'_>) -> Review {
    let work = cases.into_iter().map(|case| Ok(Work::Case(Box::new(case))));
    run(ruleset, work, None, options).0
}

/// Reviews a table, row by row.
///
/// # Errors
/// What is wrong with its rows, up to some number of them; the rest of the table is then not read.
#[expect(
    clippy::result_large_err,
    reason = "a row that is wrong is rare, and told with all of its cells"
)]
pub fn review_rows(
    ruleset: &Ruleset,
    columns: &Columns,
    rows: impl Iterator<Item = Result<Row, RowProblem>>,
    options: &Options<'_>,
) -> Result<Review, Vec<RowProblem>> {
    let work = rows.map(|row| row.map(Work::Row));
    let (review, wrong) = run(ruleset, work, Some(columns), options);
    if wrong.is_empty() {
        Ok(review)
    } else {
        Err(wrong)
    }
}

fn run(
    ruleset: &Ruleset,
    work: impl Iterator<Item = Result<Work, RowProblem>>,
    columns: Option<&Columns>,
    options: &Options<'_>,
) -> (Review, Vec<RowProblem>) {
    options.progress.stage("cases", 0);
    let mut merging = Merging {
        review: Review::default(),
        seen: Seen::new(ruleset),
        wrong: Vec::new(),
        next: 0,
        early: BTreeMap::new(),
        kept: Vec::new(),
        places: [0; 4],
    };
    let mut work = work.peekable();
    let mut batches = 0usize;
    let mut batch = |wrong: &mut Vec<RowProblem>| {
        let mut batch = Vec::with_capacity(BATCH);
        while batch.len() < BATCH {
            match work.next() {
                Some(Ok(one)) => batch.push(one),
                Some(Err(problem)) => {
                    wrong.push(problem);
                    return batch;
                }
                None => break,
            }
        }
        batch
    };
    thread::scope(|scope| {
        let (done, results): (Sender<Done>, Receiver<Done>) = mpsc::channel();
        let mut threads: Vec<SyncSender<(usize, Vec<Work>)>> = Vec::new();
        for _ in 0..options.jobs.get() {
            let (give, take) = mpsc::sync_channel::<(usize, Vec<Work>)>(WAITING);
            let done = done.clone();
            let budget = options.budget.clone();
            let mut columns = columns.cloned();
            let thread = thread::Builder::new().stack_size(STACK);
            let started = thread.spawn_scoped(scope, move || {
                let mut judge = Judge::new(ruleset, budget);
                for (number, batch) in take {
                    let (held, wrong) = judge_all(&mut judge, columns.as_mut(), batch);
                    if done.send((number, held, wrong)).is_err() {
                        return;
                    }
                }
            });
            if started.is_ok() {
                threads.push(give);
            }
        }
        drop(done);
        let mut here: Option<Judge<'_>> = None;
        let mut own_columns = columns.cloned();
        loop {
            let next = batch(&mut merging.wrong);
            let ended = next.len() < BATCH;
            options.progress.advance(next.len());
            let number = batches;
            batches += 1;
            if let Some(thread) = threads.get(number % threads.len().max(1)) {
                // Only a thread that is gone takes no more; its fault is raised when it is joined.
                if thread.send((number, next)).is_err() {
                    break;
                }
            } else {
                // No thread to be had: the work is done here.
                let judge = here.get_or_insert_with(|| Judge::new(ruleset, options.budget.clone()));
                let (held, wrong) = judge_all(judge, own_columns.as_mut(), next);
                merging.take((number, held, wrong));
            }
            while let Ok(done) = results.try_recv() {
                merging.take(done);
            }
            if ended || merging.wrong.len() >= MOST_PROBLEMS {
                break;
            }
        }
        drop(threads);
        for done in results {
            merging.take(done);
        }
    });
    let (inconsistent, more, complete) = merging.seen.finish();
    let mut review = merging.review;
    review.inconsistent = (inconsistent, more);
    review.compared_all = complete;
    if merging.wrong.is_empty() {
        let (held, sorts): (Vec<Held>, Vec<_>) = merging.kept.into_iter().unzip();
        for (told, sorts) in told_all(ruleset, &held, options).into_iter().zip(sorts) {
            for sort in sorts {
                review.sort(sort).0.push(told.clone());
            }
        }
    }
    merging
        .wrong
        .sort_by_key(|problem| (problem.row.line, problem.cell));
    merging.wrong.truncate(MOST_PROBLEMS);
    (review, merging.wrong)
}

fn judge_all(
    judge: &mut Judge<'_>,
    mut columns: Option<&mut Columns>,
    batch: Vec<Work>,
) -> (Vec<Held>, Vec<RowProblem>) {
    let mut held = Vec::with_capacity(batch.len());
    let mut wrong = Vec::new();
    for work in batch {
        let case = match (work, columns.as_deref_mut()) {
            (Work::Case(case), _) => *case,
            (Work::Row(row), Some(columns)) => match columns.case(judge.ruleset(), &row) {
                Ok(Some(case)) => case,
                Ok(None) => continue,
                Err(mut problems) => {
                    wrong.append(&mut problems);
                    continue;
                }
            },
            (Work::Row(_), None) => continue,
        };
        if wrong.is_empty() {
            let judged = judge.judge(&case);
            held.push((case, judged));
        }
    }
    (held, wrong)
}

/// Works out what is told beside cases, in their order.
fn told_all(ruleset: &Ruleset, held: &[Held], options: &Options<'_>) -> Vec<Told> {
    let stage = "what the text says of the cases told";
    options.progress.stage(stage, held.len());
    // In the order of the file, whatever the number of threads: what is blamed in one case is blamed
    // in the next.
    let mut known = Impossible::default();
    let held: Vec<(&Held, Option<String>)> = held
        .iter()
        .map(|held| {
            let why = (!held.1.is_possible).then(|| known.why(ruleset, &held.0));
            (held, why.flatten())
        })
        .collect();
    let tell = |part: &[(&Held, Option<String>)]| -> Vec<Told> {
        let mut judge = Judge::new(ruleset, options.budget.clone());
        let part = part.iter();
        part.map(|(held, why)| told(&mut judge, held, why.clone()))
            .collect()
    };
    let jobs = options.jobs.get().min(held.len() / FEW + 1);
    let mut all = Vec::with_capacity(held.len());
    thread::scope(|scope| {
        let parts = held.chunks(held.len().div_ceil(jobs).max(1));
        let started: Vec<_> = parts
            .map(|part| {
                let tell = &tell;
                let thread = thread::Builder::new().stack_size(STACK);
                let thread = thread.spawn_scoped(scope, move || tell(part));
                (part, thread)
            })
            .collect();
        for (part, thread) in started {
            options.progress.advance(part.len());
            all.extend(match thread {
                Ok(thread) => thread.join().unwrap_or_else(|fault| resume_unwind(fault)),
                // No thread to be had: the work is done here.
                Err(_) => tell(part),
            });
        }
    });
    all
}

/// Works out what is told beside a case. It takes longer than to judge one, so it is asked only of
/// cases that are told.
fn told(judge: &mut Judge<'_>, (case, judged): &Held, impossible: Option<String>) -> Told {
    let mut missing = vec![Vec::new(); judged.on.len()];
    let mut examples = vec![Examples::default(); judged.on.len()];
    let ruleset = judge.ruleset();
    for (index, on) in judged.on.iter().enumerate() {
        let official = on.by.as_ref().and_then(|name| case.officials.get(name));
        let facts = official.map_or_else(
            || case.found.facts.clone(),
            |official| as_seen_by(case, official, ruleset),
        );
        match &on.stance {
            Stance::NeedsFacts => {
                let found = judge.text().missing(&facts, on.dimension);
                if let Some(slot) = missing.get_mut(index) {
                    *slot = found;
                }
            }
            Stance::Disagrees => {
                let shown = on.possible.iter().take(MOST_EXAMPLES);
                let text = judge.text();
                if let Some(slot) = examples.get_mut(index) {
                    slot.whole = facts.scenario(ruleset).is_some();
                    slot.incidents = shown
                        .filter_map(|ruling| text.example(&facts, on.dimension, *ruling))
                        .collect();
                }
            }
            _ => {}
        }
    }
    Told {
        case: case.clone(),
        judged: judged.clone(),
        impossible,
        missing,
        examples,
    }
}

/// Why no incident has some facts, as far as it was asked.
#[derive(Default)]
struct Impossible {
    /// As few facts as no incident has together, and what is wrong with them.
    blamed: Vec<(Established, String)>,
    /// Facts of which nothing is said.
    fine: BTreeSet<Established>,
}

impl Impossible {
    /// Why no incident has the facts of a case, in words.
    fn why(&mut self, ruleset: &Ruleset, case: &Case) -> Option<String> {
        let officials = case.officials.values();
        let seen = officials.map(|it| as_seen_by(case, it, ruleset));
        let mut all = std::iter::once(case.found.facts.clone()).chain(seen);
        all.find_map(|facts| self.why_not(ruleset, facts))
    }

    fn why_not(&mut self, ruleset: &Ruleset, facts: Established) -> Option<String> {
        let mut known = self.blamed.iter();
        if let Some((_, words)) = known.find(|(blamed, _)| blamed.is_within(&facts)) {
            return Some(words.clone());
        }
        if self.fine.contains(&facts) {
            return None;
        }
        let budget = Budget::unlimited();
        let Ok(Some(blamed)) = possible::blamed(ruleset, &facts, &budget) else {
            self.fine.insert(facts);
            return None;
        };
        let mut incident = Incident::unknown(ruleset);
        incident.facts = facts;
        let problem = possible::problem(ruleset, &incident, &blamed, &budget);
        let help = problem.help.iter();
        let help = help.map(|help| format!(". {}", help.trim_end_matches('.')));
        let words = format!("{}{}", problem.headline, help.collect::<String>());
        self.blamed.push((blamed, words.clone()));
        Some(words)
    }
}

/// The sorts of cases that are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sort {
    Disagree,
    Undetermined,
    Miscited,
    Differing,
}

impl Review {
    fn sort(&mut self, sort: Sort) -> &mut (Vec<Told>, u64) {
        match sort {
            Sort::Disagree => &mut self.disagree,
            Sort::Undetermined => &mut self.undetermined,
            Sort::Miscited => &mut self.miscited,
            Sort::Differing => &mut self.differing,
        }
    }
}

/// Puts results together in the order of the file.
struct Merging {
    review: Review,
    seen: Seen,
    wrong: Vec<RowProblem>,
    next: usize,
    early: BTreeMap<usize, Vec<Held>>,
    /// The cases that are told, each with the sorts that it is told in.
    kept: Vec<(Held, Vec<Sort>)>,
    /// How many places of each sort are taken.
    places: [usize; 4],
}

impl Merging {
    fn take(&mut self, (number, held, mut wrong): Done) {
        self.wrong.append(&mut wrong);
        self.early.insert(number, held);
        while let Some(held) = self.early.remove(&self.next) {
            self.next += 1;
            for one in held {
                self.add(one);
            }
        }
    }

    fn add(&mut self, one: Held) {
        let (case, judged) = &one;
        let review = &mut self.review;
        review.cases += 1;
        review.agreement.add(case);
        self.seen.add(case);
        let mut on = judged.on.iter();
        review.open |= on.any(|it| matches!(it.stance, Stance::Undecided(_)));
        let mut sorts = Vec::new();
        if !judged.cited.is_empty() {
            sorts.push(Sort::Miscited);
        }
        if !judged.differences.is_empty() {
            sorts.push(Sort::Differing);
        }
        if judged.disagrees() {
            sorts.push(Sort::Disagree);
        } else if judged.agrees() {
            review.agree += 1;
            let mut on = judged.on.iter();
            let discretion = on.any(|it| it.stance == Stance::WithinDiscretion);
            review.within_discretion += u64::from(discretion);
        } else {
            sorts.push(Sort::Undetermined);
        }
        sorts.retain(|sort| self.has_room(*sort));
        if !sorts.is_empty() {
            self.kept.push((one, sorts));
        }
    }

    /// Takes a place in a sort for a case; where none is left, the case is counted.
    fn has_room(&mut self, sort: Sort) -> bool {
        let Some(kept) = self.places.get_mut(sort as usize) else {
            return false;
        };
        if *kept < TOLD {
            *kept += 1;
            return true;
        }
        self.review.sort(sort).1 += 1;
        false
    }
}
