//! The whole check: every question of every kind, put in a sensible order.
//!
//! Clauses are looked at one by one for scenarios in which they do something; pairs that may clash
//! are listed by bits; what is left is asked of decision diagrams where they are small, and else of
//! the solver. Work on clauses and pairs is shared out among
//! threads, each with a solver of its own; results are put together in the order of the file, so that
//! the same input gives the same output however many threads there were.

mod accepted;
mod across;
mod idle_words;
mod texts;

use super::finding::{Checked, Finding, Outcome, Verdict};
use super::inquiry::{self, Inquiry};
use super::seen::{self, Seen};
use super::standing::Standing;
use super::{
    contradiction, discretion, displaced, gap, impossible, loose_term, no_effect, presupposes,
    readings, repair,
    splitting::{self, Piece},
    step_edge, unused,
};
use crate::logic::{Formula, Reach, STACK, Scenario};
use crate::model::{ClauseId, DimensionId, Kind, Ruleset, TermId};
use crate::solve::{Answer, Budget, Reason};
use fixedbitset::FixedBitSet;
use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroUsize;
use std::thread;

/// How a check is to be run.
pub struct Options<'p> {
    /// Which kinds to look for; all that are known where empty.
    pub kinds: Vec<Kind>,
    /// How many threads may work.
    pub jobs: NonZeroUsize,
    /// What the run may use.
    pub budget: Budget,
    /// Who answers questions.
    pub method: Method,
    /// Whether repairs are looked for.
    pub repairs: Repairs,
    /// Who is told how far it is.
    pub progress: &'p dyn Progress,
}

impl Default for Options<'_> {
    fn default() -> Self {
        Options {
            kinds: Vec::new(),
            jobs: NonZeroUsize::MIN,
            budget: Budget::unlimited(),
            method: Method::DiagramsFirst,
            repairs: Repairs::LeftOut,
            progress: &Silent,
        }
    }
}

/// Who answers the questions of a check. The answers are the same; the scenarios that are shown are
/// worked out by decision diagrams wherever these are small enough.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Method {
    /// Decision diagrams where they are small, the solver where they are not.
    #[default]
    DiagramsFirst,
    /// The solver alone: slower, and a check of the diagrams.
    SolverOnly,
}

/// Whether repairs are looked for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Repairs {
    /// No.
    #[default]
    LeftOut,
    /// Of findings that nobody accepts.
    Offered,
}

/// Is told how far a long run is.
pub trait Progress: Sync {
    /// A new stage of so many steps begins.
    fn stage(&self, name: &str, total: usize);
    /// So many more steps are done.
    fn advance(&self, by: usize);
}

/// Tells nobody.
#[derive(Clone, Copy, Debug)]
pub struct Silent;

impl Progress for Silent {
    fn stage(&self, _name: &str, _total: usize) {}
    fn advance(&self, _by: usize) {}
}

/// The kinds of finding that this version looks for.
pub const KINDS: &[Kind] = &[
    Kind::Contradiction,
    Kind::Gap,
    Kind::Impossible,
    Kind::Displaced,
    Kind::LooseTerm,
    Kind::BrokenPrinciple,
    Kind::NoEffect,
    Kind::Presupposes,
    Kind::TurnsOnJudgement,
    Kind::LeftToDiscretion,
    Kind::SurplusWords,
    Kind::IdleException,
    Kind::StepEdge,
    Kind::Unused,
    Kind::Wording,
];

/// Fewer items than this are not worth a thread of their own.
const WORTH_A_THREAD: usize = 24;

/// Checks a ruleset.
///
/// The work is done in a thread of its own, whose stack is large enough for definitions that refer
/// to each other as deep as a ruleset is long.
pub fn check(ruleset: &Ruleset, options: &Options<'_>) -> Checked {
    with_stack(|| check_here(ruleset, options))
}

/// Checks two rulesets, at once where more than one thread may work.
pub fn check_both(one: &Ruleset, other: &Ruleset, options: &Options<'_>) -> (Checked, Checked) {
    let half = NonZeroUsize::new(options.jobs.get() / 2);
    let Some(jobs) = half else {
        return (check(one, options), check(other, options));
    };
    let options = &Options {
        kinds: options.kinds.clone(),
        budget: options.budget.clone(),
        jobs,
        ..*options
    };
    thread::scope(|scope| {
        let first = thread::Builder::new().spawn_scoped(scope, || check(one, options));
        let second = check(other, options);
        let first = match first {
            Ok(thread) => thread
                .join()
                .unwrap_or_else(|fault| std::panic::resume_unwind(fault)),
            // No thread to be had: the work is done here.
            Err(_) => check(one, options),
        };
        (first, second)
    })
}

/// Does work in a thread of its own with a large stack; here, where there is no thread to be had.
pub(super) fn with_stack<R: Send>(work: impl Fn() -> R + Sync) -> R {
    thread::scope(|scope| {
        let thread = thread::Builder::new().stack_size(STACK);
        match thread.spawn_scoped(scope, &work) {
            Ok(thread) => thread
                .join()
                .unwrap_or_else(|fault| std::panic::resume_unwind(fault)),
            Err(_) => work(),
        }
    })
}

fn check_here(ruleset: &Ruleset, options: &Options<'_>) -> Checked {
    let reach = inquiry::reach(ruleset);
    let mut run = Run::new(ruleset, &reach, options);
    let space = run.inquiry.space();
    let mut seen = run.all();
    if options.repairs == Repairs::Offered && seen.is_empty() {
        seen = run.look();
    }
    let Run {
        mut inquiry,
        mut findings,
        verdicts,
        ..
    } = run;
    let idle_accepted = accepted::accept(ruleset, &mut findings, &verdicts);
    findings.sort_by_key(|finding| (finding.severity, finding.kind));
    let (mendable, repairs_left) = match options.repairs {
        Repairs::LeftOut => (repair::mendable(&findings), 0),
        Repairs::Offered => {
            let progress = options.progress;
            let left = repair::offer(&mut inquiry, &mut findings, &verdicts, &seen, progress);
            (0, left)
        }
    };
    Checked {
        space,
        findings,
        verdicts,
        idle_accepted,
        mendable,
        repairs_left,
    }
}

/// The clauses that are impossible or displaced, by id; `None` where that stayed open.
pub(super) fn idle(ruleset: &Ruleset, budget: Budget) -> Option<BTreeSet<(Kind, String)>> {
    let options = Options {
        budget,
        ..Options::default()
    };
    let reach = inquiry::reach(ruleset);
    let mut run = Run::new(ruleset, &reach, &options);
    let seen = run.look();
    run.inquiry.find_sound_dimensions();
    let mut idle = BTreeSet::new();
    for (clause, standing) in run.standings(&seen, (true, true)) {
        let kind = match standing {
            Standing::Impossible => Kind::Impossible,
            Standing::Displaced(_) => Kind::Displaced,
            Standing::Open(Kind::Impossible | Kind::Displaced, _) => return None,
            _ => continue,
        };
        idle.insert((kind, ruleset[clause].id.clone()));
    }
    Some(idle)
}

struct Run<'a, 'r> {
    ruleset: &'r Ruleset,
    reach: &'a Reach<'r>,
    options: &'a Options<'a>,
    inquiry: Inquiry<'a, 'r>,
    findings: Vec<Finding>,
    verdicts: Vec<Verdict>,
}

/// What became of the questions of one kind.
#[derive(Default)]
struct Tally {
    found: bool,
    untold: bool,
    open: Option<Reason>,
}

impl Tally {
    /// Takes in what is not reported, since it rests on a fault that is, but keeps a proof away.
    fn take_untold(&mut self, answer: Answer) {
        match answer {
            Answer::Yes(_) => self.untold = true,
            Answer::No => {}
            Answer::Undecided(reason) => self.open = Some(reason),
        }
    }

    /// Undecided weighs more than found: there may be more.
    fn outcome(&self) -> Outcome {
        match &self.open {
            Some(reason) => Outcome::Undecided(reason.clone()),
            None if self.found || self.untold => Outcome::Found,
            None => Outcome::Proved,
        }
    }
}

impl<'a, 'r> Run<'a, 'r> {
    fn new(ruleset: &'r Ruleset, reach: &'a Reach<'r>, options: &'a Options<'a>) -> Self {
        let (budget, method) = (options.budget.clone(), options.method);
        Run {
            ruleset,
            reach,
            options,
            inquiry: Inquiry::new(ruleset, reach, budget, method),
            findings: Vec::new(),
            verdicts: Vec::new(),
        }
    }

    fn wants(&self, kind: Kind) -> bool {
        self.options.kinds.is_empty() || self.options.kinds.contains(&kind)
    }

    /// Asks everything; what each clause was seen to do is returned, where that was looked at.
    fn all(&mut self) -> Vec<Seen> {
        let by_words = [Kind::SurplusWords, Kind::IdleException];
        let wants_words = by_words.iter().any(|kind| self.wants(*kind));
        let by_clause = [Kind::Impossible, Kind::Displaced, Kind::NoEffect];
        let wants_clauses = wants_words || by_clause.iter().any(|kind| self.wants(*kind));
        let seen = if wants_clauses || self.wants(Kind::Contradiction) {
            self.look()
        } else {
            Vec::new()
        };
        if wants_clauses || self.wants(Kind::Contradiction) || self.wants(Kind::Gap) {
            self.inquiry.find_sound_dimensions();
        }
        if self.wants(Kind::Contradiction) {
            self.contradictions(&seen);
        }
        if self.wants(Kind::Gap) {
            self.gaps();
        }
        let mut idle = FixedBitSet::new();
        if wants_clauses {
            idle = self.clauses(&seen);
        }
        if self.wants(Kind::LooseTerm) {
            self.loose_terms();
        }
        if self.wants(Kind::BrokenPrinciple) {
            self.principles();
        }
        if self.wants(Kind::Presupposes) {
            self.presupposed();
        }
        if self.wants(Kind::TurnsOnJudgement) {
            self.judgements();
        }
        if self.wants(Kind::LeftToDiscretion) {
            self.discretion();
        }
        if wants_words {
            self.words(&seen, &idle);
        }
        self.by_the_text(Kind::StepEdge, step_edge::find);
        self.by_the_text(Kind::Unused, unused::find);
        if self.wants(Kind::Wording) {
            self.wording();
        }
        seen
    }

    fn verdict(&mut self, kind: Kind, dimension: Option<DimensionId>, tally: &Tally) {
        let outcome = tally.outcome();
        self.verdicts.push(Verdict {
            kind,
            dimension,
            principle: None,
            outcome,
            untold: tally.untold,
        });
    }

    fn clause_ids(&self) -> Vec<ClauseId> {
        (0..self.ruleset.clauses.len()).map(ClauseId::new).collect()
    }

    /// Works on items in as many threads as are worth it; the results stand in the items' order.
    fn spread<T: Sync, R: Send>(
        &mut self,
        stage: &str,
        items: &[T],
        work: impl Fn(&mut Inquiry<'_, 'r>, &T) -> R + Sync,
    ) -> Vec<R> {
        let progress = self.options.progress;
        progress.stage(stage, items.len());
        let jobs = self
            .options
            .jobs
            .get()
            .min(items.len() / WORTH_A_THREAD)
            .max(1);
        if jobs == 1 {
            let inquiry = &mut self.inquiry;
            return items
                .iter()
                .map(|item| {
                    let result = work(inquiry, item);
                    progress.advance(1);
                    result
                })
                .collect();
        }
        let (ruleset, reach, budget) = (self.ruleset, self.reach, &self.options.budget);
        let known = self.inquiry.known();
        let work_on = |chunk: &[T]| {
            let mut inquiry = Inquiry::knowing(ruleset, reach, budget.clone(), known.clone());
            let results = chunk.iter().map(|item| {
                let result = work(&mut inquiry, item);
                progress.advance(1);
                result
            });
            results.collect::<Vec<R>>()
        };
        let work_on = &work_on;
        let share = items.len().div_ceil(jobs);
        thread::scope(|scope| {
            let start = |chunk| {
                let thread = thread::Builder::new().stack_size(STACK);
                (chunk, thread.spawn_scoped(scope, move || work_on(chunk)))
            };
            let running: Vec<_> = items.chunks(share).map(start).collect();
            let finished = running
                .into_iter()
                .flat_map(|(chunk, thread)| match thread {
                    Ok(thread) => thread
                        .join()
                        .unwrap_or_else(|fault| std::panic::resume_unwind(fault)),
                    // No thread to be had: the work is done here.
                    Err(_) => work_on(chunk),
                });
            finished.collect()
        })
    }

    fn look(&mut self) -> Vec<Seen> {
        let clauses = self.clause_ids();
        self.spread(
            "looking at each clause",
            &clauses,
            |inquiry, clause| match inquiry.exhausted() {
                Some(_) => Seen::default(),
                None => seen::look(inquiry, *clause),
            },
        )
    }

    fn contradictions(&mut self, seen: &[Seen]) {
        let mut known: BTreeMap<(DimensionId, ClauseId, ClauseId), &Scenario> = BTreeMap::new();
        for (clause, seen) in self.clause_ids().into_iter().zip(seen) {
            for ((dimension, other), scenario) in &seen.clashes {
                let pair = (*dimension, clause.min(*other), clause.max(*other));
                known.entry(pair).or_insert(scenario);
            }
        }
        for dimension in (0..self.ruleset.dimensions.len()).map(DimensionId::new) {
            let (families, complete) = contradiction::candidates(&self.inquiry, dimension);
            let name = format!(
                "clauses that may contradict on {}",
                self.ruleset[dimension].name
            );
            let settled = self.spread(&name, &families, |inquiry, family| {
                let witness = match family.clauses.as_slice() {
                    [one, other] => known.get(&(family.dimension, *one, *other)).copied(),
                    _ => None,
                };
                contradiction::settle(inquiry, family, witness)
            });
            let mut tally = Tally::default();
            if !complete {
                tally.open = Some(Reason::TooLarge);
            }
            for (family, (answer, question)) in families.iter().zip(settled) {
                match answer {
                    Answer::Yes(scenario) => {
                        tally.found = true;
                        let inquiry = &mut self.inquiry;
                        let mut found =
                            contradiction::report(inquiry, family, &scenario, &question);
                        readings::note(inquiry, &mut found, &question);
                        self.findings.push(found);
                    }
                    Answer::No => {}
                    Answer::Undecided(reason) => tally.open = Some(reason),
                }
            }
            let resting = self.spread(&name, &families, |inquiry, family| {
                let question = contradiction::resting_on_faults(inquiry, family);
                question.map_or(Answer::No, |question| inquiry.ask(&question))
            });
            for answer in resting {
                tally.take_untold(answer);
            }
            self.verdict(Kind::Contradiction, Some(dimension), &tally);
        }
    }

    fn gaps(&mut self) {
        for dimension in (0..self.ruleset.dimensions.len()).map(DimensionId::new) {
            let mut tally = Tally::default();
            if gap::possible(self.ruleset, dimension) {
                let question = gap::question(&self.inquiry, dimension);
                let stage = format!("gaps on {}", self.ruleset[dimension].name);
                let answers = self.ask_in_pieces(&stage, dimension, &question);
                let mut witness = None;
                let mut pieces = Vec::new();
                for (piece, answer) in answers {
                    match answer {
                        Answer::Yes(scenario) => {
                            witness = witness.or(Some(scenario));
                            pieces.extend(piece);
                        }
                        Answer::No => {}
                        Answer::Undecided(reason) => tally.open = Some(reason),
                    }
                }
                if let Some(scenario) = witness {
                    tally.found = true;
                    let place = gap::Place {
                        question: &question,
                        pieces: &pieces,
                        all: tally.open.is_none(),
                    };
                    let mut found = gap::report(&mut self.inquiry, dimension, &scenario, place);
                    readings::note(&mut self.inquiry, &mut found, &question);
                    self.findings.push(found);
                }
                if let Some(question) = gap::resting_on_faults(&self.inquiry, dimension) {
                    for (_, answer) in self.ask_in_pieces(&stage, dimension, &question) {
                        tally.take_untold(answer);
                    }
                }
            }
            self.verdict(Kind::Gap, Some(dimension), &tally);
        }
    }

    /// Asks about the whole space at once where that is quick, and else piece by piece.
    fn ask_in_pieces(
        &mut self,
        stage: &str,
        dimension: DimensionId,
        question: &Formula,
    ) -> Vec<(Option<Piece>, Answer)> {
        if let Some(answer) = self.inquiry.ask_diagrams(question) {
            return vec![(None, answer)];
        }
        let pieces = splitting::pieces(&self.inquiry, dimension);
        let answers = self.spread(stage, &pieces, |inquiry, piece| {
            let here = Formula::all([piece.formula.clone(), question.clone()]);
            inquiry.ask_among(piece.clauses.clone(), &here)
        });
        pieces.into_iter().map(Some).zip(answers).collect()
    }

    /// What each clause comes to that was not seen to matter.
    fn standings(&mut self, seen: &[Seen], wanted: (bool, bool)) -> Vec<(ClauseId, Standing)> {
        let open = self.clause_ids().into_iter().zip(seen);
        let open: Vec<_> = open.filter(|(_, seen)| seen.matters.is_none()).collect();
        let settled = self.spread(
            "clauses that may never count",
            &open,
            |inquiry, (clause, seen)| Standing::of(inquiry, *clause, seen, wanted),
        );
        let clauses = open.into_iter().map(|(clause, _)| clause);
        clauses.zip(settled).collect()
    }

    /// Impossible, displaced and no-effect: each is asked only of clauses that are not the one before.
    /// The clauses that are one of them, or may be.
    fn clauses(&mut self, seen: &[Seen]) -> FixedBitSet {
        let words = self.wants(Kind::SurplusWords) || self.wants(Kind::IdleException);
        // What is displaced must be without effect as well, whichever of the two is asked for.
        let displaced = words || self.wants(Kind::Displaced);
        let wanted = (displaced, displaced || self.wants(Kind::NoEffect));
        let mut idle = FixedBitSet::with_capacity(self.ruleset.clauses.len());
        let mut impossible = Tally::default();
        let mut displaced = Tally::default();
        let mut no_effect = Tally::default();
        for (clause, standing) in self.standings(seen, wanted) {
            idle.set(clause.index(), !matches!(standing, Standing::Fine));
            match standing {
                Standing::Fine => {}
                Standing::Untold(Kind::Impossible) => impossible.untold = true,
                Standing::Untold(Kind::Displaced) => displaced.untold = true,
                Standing::Untold(_) => no_effect.untold = true,
                Standing::Impossible => {
                    impossible.found = true;
                    if self.wants(Kind::Impossible) {
                        self.findings
                            .push(impossible::report(&mut self.inquiry, clause));
                    }
                }
                Standing::Displaced(met) => {
                    displaced.found = true;
                    if self.wants(Kind::Displaced) {
                        self.findings
                            .push(displaced::report(&mut self.inquiry, clause, &met));
                    }
                }
                Standing::NoEffect(counts) => {
                    no_effect.found = true;
                    if self.wants(Kind::NoEffect) {
                        self.findings
                            .push(no_effect::report(&mut self.inquiry, clause, &counts));
                    }
                }
                Standing::Open(Kind::Impossible, reason) => {
                    impossible.open = Some(reason.clone());
                    displaced.open = Some(reason.clone());
                    no_effect.open = Some(reason);
                }
                Standing::Open(Kind::Displaced, reason) => {
                    displaced.open = Some(reason.clone());
                    no_effect.open = Some(reason);
                }
                Standing::Open(_, reason) => no_effect.open = Some(reason),
            }
        }
        for (kind, tally) in [
            (Kind::Impossible, impossible),
            (Kind::Displaced, displaced),
            (Kind::NoEffect, no_effect),
        ] {
            if self.wants(kind) {
                self.verdict(kind, None, &tally);
            }
        }
        idle
    }

    /// Asks one question of each item and reports where the answer is yes.
    fn each<T: Sync>(
        &mut self,
        stage: &str,
        items: &[T],
        question: impl Fn(&Inquiry<'_, 'r>, &T) -> Option<Formula> + Sync,
        report: impl Fn(&mut Inquiry<'a, 'r>, &T, &Scenario, &Formula) -> Finding,
    ) -> Tally {
        let settled = self.spread(stage, items, |inquiry, item| {
            let question = question(inquiry, item)?;
            Some((inquiry.ask(&question), question))
        });
        let mut tally = Tally::default();
        for (item, (answer, question)) in items
            .iter()
            .zip(settled)
            .filter_map(|(item, one)| Some((item, one?)))
        {
            match answer {
                Answer::Yes(scenario) => {
                    tally.found = true;
                    let finding = report(&mut self.inquiry, item, &scenario, &question);
                    self.findings.push(finding);
                }
                Answer::No => {}
                Answer::Undecided(reason) => tally.open = Some(reason),
            }
        }
        tally
    }

    fn loose_terms(&mut self) {
        let terms: Vec<TermId> = (0..self.ruleset.terms.len()).map(TermId::new).collect();
        let tally = self.each(
            "vague terms",
            &terms,
            |inquiry, term| loose_term::question(inquiry, *term),
            |inquiry, term, scenario, question| {
                loose_term::report(inquiry, *term, scenario, question)
            },
        );
        self.verdict(Kind::LooseTerm, None, &tally);
    }

    fn presupposed(&mut self) {
        let clauses: Vec<ClauseId> = self
            .clause_ids()
            .into_iter()
            .filter(|clause| presupposes::possible(self.ruleset, *clause))
            .collect();
        let tally = self.each(
            "what clauses presuppose",
            &clauses,
            |inquiry, clause| Some(presupposes::question(inquiry, *clause)),
            |inquiry, clause, scenario, question| {
                presupposes::report(inquiry, *clause, scenario, question)
            },
        );
        self.verdict(Kind::Presupposes, None, &tally);
    }

    fn discretion(&mut self) {
        for dimension in (0..self.ruleset.dimensions.len()).map(DimensionId::new) {
            let choosers = discretion::choosers(&self.inquiry, dimension);
            let answers = self.spread(
                "what is left to discretion",
                &choosers,
                |inquiry, clause| {
                    let question = discretion::question(inquiry, dimension, &[*clause]);
                    inquiry.ask_among(inquiry.met_beside(*clause), &question)
                },
            );
            let mut tally = Tally::default();
            let mut open: Vec<(ClauseId, Scenario)> = Vec::new();
            for (clause, answer) in choosers.iter().zip(answers) {
                match answer {
                    Answer::Yes(scenario) => open.push((*clause, scenario)),
                    Answer::No => {}
                    Answer::Undecided(reason) => tally.open = Some(reason),
                }
            }
            if let Some((_, scenario)) = open.first() {
                tally.found = true;
                let clauses: Vec<ClauseId> = open.iter().map(|(clause, _)| *clause).collect();
                let found = discretion::report(&mut self.inquiry, dimension, &clauses, scenario);
                self.findings.push(found);
            }
            self.verdict(Kind::LeftToDiscretion, Some(dimension), &tally);
        }
    }
}
