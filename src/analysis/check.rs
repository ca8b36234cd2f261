//! The whole check: every question of every kind, put in a sensible order.
//!
//! Clauses are looked at one by one for scenarios in which they do something; pairs that may clash
//! are listed by bits; what is left is asked of decision diagrams where they are small, and else of
//! the solver. Work on clauses and pairs is shared out among
//! threads, each with a solver of its own; results are put together in the order of the file, so that
//! the same input gives the same output however many threads there were.

mod accepted;
mod across;
mod idle_clauses;
mod idle_words;
mod texts;

use super::common::Common;
use super::finding::{Checked, Finding, Outcome, Verdict};
use super::inquiry::{self, Inquiry};
use super::precedent::{Answers, Precedent};
use super::seen::{self, Seen};
use super::standing::Standing;
use super::{
    contradiction, discretion, gap, loose_term, presupposes, readings, repair,
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

/// The same of items each of which is about the whole book.
const WHOLE_BOOK: usize = 1;

/// Checks a ruleset.
///
/// The work is done in a thread of its own, whose stack is large enough for definitions that refer
/// to each other as deep as a ruleset is long.
pub fn check(ruleset: &Ruleset, options: &Options<'_>) -> Checked {
    with_stack(|| check_here(ruleset, options))
}

/// Checks two editions of a ruleset. Of the later one only that is asked which the answers about the
/// earlier one do not tell. `was` says of each clause of the later edition which of the earlier it was;
/// a clause that it does not name, or names twice, counts as new.
pub fn check_editions(
    before: &Ruleset,
    after: &Ruleset,
    was: &[Option<ClauseId>],
    options: &Options<'_>,
) -> (Checked, Checked) {
    with_stack(|| {
        let (earlier, later) = (inquiry::reach(before), inquiry::reach(after));
        let (checked, answers) = examine(before, &earlier, options, None);
        let precedent = Common::of(before, after, was).and_then(|common| {
            let made = (&checked, &answers);
            Precedent::new(common, (before, &earlier), (after, &later), made)
        });
        let (checked_after, _) = examine(after, &later, options, precedent.as_ref());
        drop(precedent);
        (checked, checked_after)
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
    let (checked, _) = examine(ruleset, &inquiry::reach(ruleset), options, None);
    checked
}

/// Checks a ruleset where another edition has been checked; what was answered is kept for a third.
fn examine<'a>(
    ruleset: &Ruleset,
    reach: &'a Reach<'_>,
    options: &'a Options<'_>,
    precedent: Option<&'a Precedent<'a>>,
) -> (Checked, Answers) {
    let mut run = Run::new(ruleset, reach, options);
    run.inquiry = run.inquiry.heeding(precedent);
    let space = run.inquiry.space();
    let mut seen = run.all();
    if options.repairs == Repairs::Offered && seen.is_empty() {
        seen = run.look();
    }
    let Run {
        mut inquiry,
        mut findings,
        verdicts,
        mut answers,
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
    answers.seen = seen;
    answers.is_large = inquiry.is_large();
    answers.sound = inquiry.sound;
    let checked = Checked {
        space,
        findings,
        verdicts,
        idle_accepted,
        mendable,
        repairs_left,
    };
    (checked, answers)
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
    /// What the check of another edition may use.
    answers: Answers,
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
            answers: Answers::default(),
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
        self.spread_over(WORTH_A_THREAD, stage, items, work)
    }

    /// The same of items of which fewer are worth a thread.
    fn spread_over<T: Sync, R: Send>(
        &mut self,
        worth_a_thread: usize,
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
            .min(items.len() / worth_a_thread)
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
            let mut clashes = BTreeMap::new();
            for (family, answers) in families.into_iter().zip(settled) {
                let [clash, resting] = &answers;
                match clash {
                    Answer::Yes(scenario) => {
                        tally.found = true;
                        let on = Some(dimension);
                        let found =
                            self.tell(Kind::Contradiction, &family.clauses, on, |inquiry| {
                                contradiction::report(inquiry, &family, scenario)
                            });
                        self.findings.push(found);
                    }
                    Answer::No => {}
                    Answer::Undecided(reason) => tally.open = Some(reason.clone()),
                }
                tally.take_untold(resting.clone());
                if answers != [Answer::No, Answer::No] {
                    clashes.insert(family, answers);
                }
            }
            if complete {
                self.answers.clashes.insert(dimension, clashes);
            } else {
                tally.open.get_or_insert(Reason::TooLarge);
            }
            self.verdict(Kind::Contradiction, Some(dimension), &tally);
        }
    }

    /// A finding as it was told of another edition, where nothing about it can have changed; else told
    /// here.
    fn tell(
        &mut self,
        kind: Kind,
        clauses: &[ClauseId],
        dimension: Option<DimensionId>,
        report: impl FnOnce(&mut Inquiry<'a, 'r>) -> Finding,
    ) -> Finding {
        let precedent = self.inquiry.precedent();
        let known = precedent.and_then(|it| it.finding(kind, clauses, dimension));
        known.unwrap_or_else(|| report(&mut self.inquiry))
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
            if tally.outcome() == Outcome::Proved {
                self.answers.without_gap.insert(dimension);
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
        let had_none = |it: &&Precedent<'_>| it.had_no_gap(dimension);
        let precedent = self.inquiry.precedent().filter(had_none);
        let pieces = match precedent.and_then(Precedent::changed) {
            Some(changed) => changed.to_vec(),
            None => splitting::pieces(&self.inquiry, dimension),
        };
        let answers = self.spread(stage, &pieces, |inquiry, piece| {
            let here = Formula::all([piece.formula.clone(), question.clone()]);
            inquiry.ask_among(piece.clauses.clone(), &here)
        });
        pieces.into_iter().map(Some).zip(answers).collect()
    }

    /// Asks one question of each item, where it is not known of another edition, and reports where the
    /// answer is yes.
    fn each<T: Sync>(
        &mut self,
        stage: &str,
        items: &[T],
        question: impl Fn(&Inquiry<'_, 'r>, &T) -> Option<Formula> + Sync,
        known: impl Fn(&Precedent<'_>, &T) -> Option<Answer> + Sync,
        report: impl Fn(&mut Inquiry<'a, 'r>, &T, &Scenario, &Formula) -> Finding,
    ) -> (Tally, Vec<Option<Answer>>) {
        let settled = self.spread(stage, items, |inquiry, item| {
            let question = question(inquiry, item)?;
            let known = inquiry.precedent().and_then(|it| known(it, item));
            let answer = known.unwrap_or_else(|| inquiry.ask(&question));
            Some((answer, question))
        });
        let mut tally = Tally::default();
        let mut answers = Vec::with_capacity(items.len());
        for (item, settled) in items.iter().zip(settled) {
            if let Some((answer, question)) = &settled {
                match answer {
                    Answer::Yes(scenario) => {
                        tally.found = true;
                        let finding = report(&mut self.inquiry, item, scenario, question);
                        self.findings.push(finding);
                    }
                    Answer::No => {}
                    Answer::Undecided(reason) => tally.open = Some(reason.clone()),
                }
            }
            answers.push(settled.map(|(answer, _)| answer));
        }
        (tally, answers)
    }

    fn loose_terms(&mut self) {
        let terms: Vec<TermId> = (0..self.ruleset.terms.len()).map(TermId::new).collect();
        let (tally, _) = self.each(
            "vague terms",
            &terms,
            |inquiry, term| loose_term::question(inquiry, *term),
            |_, _| None,
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
        let (tally, answers) = self.each(
            "what clauses presuppose",
            &clauses,
            |inquiry, clause| Some(presupposes::question(inquiry, *clause)),
            |precedent, clause| precedent.presupposes(*clause),
            |inquiry, clause, scenario, question| {
                presupposes::report(inquiry, *clause, scenario, question)
            },
        );
        let answers = clauses.into_iter().zip(answers);
        self.answers
            .presupposed
            .extend(answers.filter_map(|(clause, answer)| Some((clause, answer?))));
        self.verdict(Kind::Presupposes, None, &tally);
    }

    fn discretion(&mut self) {
        for dimension in (0..self.ruleset.dimensions.len()).map(DimensionId::new) {
            let choosers = discretion::choosers(&self.inquiry, dimension);
            let answers = self.spread(
                "what is left to discretion",
                &choosers,
                |inquiry, clause| {
                    let known = inquiry.precedent();
                    if let Some(answer) = known.and_then(|it| it.choice(dimension, *clause)) {
                        return answer;
                    }
                    let question = discretion::question(inquiry, dimension, &[*clause]);
                    inquiry.ask_among(inquiry.met_beside(*clause), &question)
                },
            );
            let mut tally = Tally::default();
            let mut open: Vec<(ClauseId, Scenario)> = Vec::new();
            for (clause, answer) in choosers.iter().zip(answers) {
                let choice = (dimension, *clause);
                self.answers.choices.insert(choice, answer.clone());
                match answer {
                    Answer::Yes(scenario) => open.push((*clause, scenario)),
                    Answer::No => {}
                    Answer::Undecided(reason) => tally.open = Some(reason),
                }
            }
            if let Some((_, scenario)) = open.first() {
                tally.found = true;
                let clauses: Vec<ClauseId> = open.iter().map(|(clause, _)| *clause).collect();
                let on = Some(dimension);
                let found = self.tell(Kind::LeftToDiscretion, &clauses, on, |inquiry| {
                    discretion::report(inquiry, dimension, &clauses, scenario)
                });
                self.findings.push(found);
            }
            self.verdict(Kind::LeftToDiscretion, Some(dimension), &tally);
        }
    }
}
