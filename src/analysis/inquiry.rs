//! What every question needs: the bits, the diagrams, a solver, and a way to describe what is found.

use super::check::Method;
use super::claim::Claim;
use super::finding::General;
use super::gap;
use super::general::{self, Described};
use super::precedent::Precedent;
use super::splitting;
use super::witness::{self, Search, Trial};
use crate::logic::{
    Count, Diagrams, Edit, Edits, Evaluator, Formula, Layers, Mode, Name, Outcome, Reach, Replay,
    Scenario, Set, Theory, TooLarge, Vocabulary, Want, World, attributes_read, dimensions_read,
    is_false, is_true, is_valid,
};
use crate::model::{AttributeId, ClauseId, Condition, DimensionId, Ruleset};
use crate::solve::{Answer, Budget, DiagramSolver, Reason, Shared, Solver, Z3Solver};
use fixedbitset::FixedBitSet;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Nodes that the diagrams of one question may make.
const WORK: usize = 3_000_000;

/// Nodes that they may make for it where already the names of the ruleset were too large: most such
/// questions are too large as well, and finding that out takes its time.
const WORK_IN_LARGE: usize = 500_000;

/// Nodes that they may make for one piece of the space.
const WORK_IN_PIECE: usize = 400_000;

/// One thread's tools for questions about a ruleset.
pub(super) struct Inquiry<'a, 'r> {
    pub(super) ruleset: &'r Ruleset,
    pub(super) reach: &'a Reach<'r>,
    pub(super) theory: Theory<'r>,
    diagrams: Option<DiagramSolver<'r>>,
    solver: Z3Solver<'r>,
    budget: Budget,
    method: Method,
    /// What the ruleset has words for, once that was wanted.
    vocabulary: Option<Arc<Vocabulary>>,
    /// Another edition whose check has been made.
    precedent: Option<&'a Precedent<'a>>,
    /// Dimensions that are never at fault; of the others it is not known.
    pub(super) sound: BTreeSet<DimensionId>,
}

/// What one thread's tools know that another's can use.
#[derive(Clone)]
pub(super) struct Known<'a> {
    diagrams: Option<Shared>,
    method: Method,
    precedent: Option<&'a Precedent<'a>>,
    sound: BTreeSet<DimensionId>,
}

/// What is known about the scenarios of a finding.
#[derive(Clone, Debug)]
pub(super) struct Description {
    pub(super) scenario: Scenario,
    pub(super) general: General,
    pub(super) share: Option<Count>,
    /// The lines as boxes, where there are any.
    pub(super) lines: Vec<crate::logic::Line>,
}

impl<'a, 'r> Inquiry<'a, 'r> {
    pub(super) fn new(
        ruleset: &'r Ruleset,
        reach: &'a Reach<'r>,
        budget: Budget,
        method: Method,
    ) -> Self {
        Inquiry {
            ruleset,
            reach,
            theory: Theory::new(ruleset),
            diagrams: DiagramSolver::new(ruleset, reach.layers().clone(), budget.clone()),
            solver: Z3Solver::new(ruleset, budget.clone()),
            budget,
            method,
            vocabulary: None,
            precedent: None,
            sound: BTreeSet::new(),
        }
    }

    /// The same tools where another edition has been checked.
    pub(super) fn heeding(mut self, precedent: Option<&'a Precedent<'a>>) -> Self {
        self.precedent = precedent;
        if precedent.is_some_and(Precedent::was_large)
            && let Some(diagrams) = &mut self.diagrams
        {
            diagrams.take_as_large();
        }
        self
    }

    /// Whether the names of the ruleset are too large for diagrams.
    pub(super) fn is_large(&mut self) -> bool {
        self.diagrams.as_mut().is_some_and(DiagramSolver::is_large)
    }

    /// Another edition whose check has been made.
    pub(super) fn precedent(&self) -> Option<&'a Precedent<'a>> {
        self.precedent
    }

    /// What the tools of other threads need to know of these.
    pub(super) fn known(&mut self) -> Known<'a> {
        Known {
            diagrams: self.diagrams.as_mut().map(DiagramSolver::shared),
            method: self.method,
            precedent: self.precedent,
            sound: self.sound.clone(),
        }
    }

    /// Tools for another thread.
    pub(super) fn knowing(
        ruleset: &'r Ruleset,
        reach: &'a Reach<'r>,
        budget: Budget,
        known: Known<'a>,
    ) -> Self {
        let shared = known.diagrams;
        let diagrams = shared.map(|shared| DiagramSolver::sharing(ruleset, shared, budget.clone()));
        Inquiry {
            ruleset,
            reach,
            theory: Theory::new(ruleset),
            diagrams,
            solver: Z3Solver::new(ruleset, budget.clone()),
            budget,
            method: known.method,
            vocabulary: None,
            precedent: known.precedent,
            sound: known.sound,
        }
    }

    /// What the ruleset has words for.
    fn vocabulary(&mut self) -> Arc<Vocabulary> {
        let ruleset = self.ruleset;
        let known = self
            .vocabulary
            .get_or_insert_with(|| Arc::new(general::vocabulary(ruleset)));
        Arc::clone(known)
    }

    /// Whether the diagrams may answer.
    pub(super) fn asks_diagrams(&self) -> bool {
        self.method != Method::SolverOnly
    }

    /// Works with the diagrams; `None` where it is too much for them.
    pub(super) fn with_diagrams<T>(
        &mut self,
        work: impl FnOnce(&mut Diagrams<'r>) -> Result<T, TooLarge>,
    ) -> Option<T> {
        let diagrams = self.diagrams.as_mut()?.diagrams();
        begin(diagrams);
        work(diagrams).ok()
    }

    /// Works with the diagrams on the world of an edit; `None` where it is too much for them.
    pub(super) fn with_edited<T>(
        &mut self,
        edit: Edit,
        work: impl FnOnce(&mut Diagrams<'r>, World) -> Result<T, TooLarge>,
    ) -> Option<T> {
        let edits = Edits::default();
        let world = edits.world(edit);
        self.with_diagrams(|diagrams| {
            diagrams.edit(&edits);
            work(diagrams, world)
        })
    }

    /// Tools for another ruleset, with what is left of the budget.
    pub(super) fn anew<'b, 's>(&self, other: &'s Ruleset, reach: &'b Reach<'s>) -> Inquiry<'b, 's> {
        Inquiry::new(other, reach, self.budget.clone(), self.method)
    }

    /// Describes a set of scenarios: how many there are, and when in general.
    pub(super) fn describe_set(
        &mut self,
        set: &Set,
        mentioned: &BTreeSet<AttributeId>,
    ) -> (General, Option<Count>) {
        let vocabulary = self.vocabulary();
        let described = self.with_diagrams(|diagrams| {
            Ok(general::described(diagrams, set, mentioned, &vocabulary))
        });
        let Described { general, share, .. } = described.unwrap_or_default();
        (general, share)
    }

    /// Why no further question should be asked, if none should.
    pub(super) fn exhausted(&self) -> Option<Reason> {
        self.budget.exhausted()
    }

    /// What the run may use.
    pub(super) fn budget(&self) -> &Budget {
        &self.budget
    }

    /// Is there a scenario in which this holds?
    pub(super) fn ask(&mut self, question: &Formula) -> Answer {
        match self.budget.exhausted() {
            Some(reason) => Answer::Undecided(reason),
            None => match self.ask_diagrams(question) {
                Some(answer) => answer,
                None => self.solver.ask(question),
            },
        }
    }

    /// The same of the decision diagrams alone; `None` where they are too large or are not to be asked.
    pub(super) fn ask_diagrams(&mut self, question: &Formula) -> Option<Answer> {
        if !self.asks_diagrams() {
            return None;
        }
        match self.diagrams.as_mut()?.ask(question) {
            Answer::Undecided(Reason::DiagramTooLarge) => None,
            answer => Some(answer),
        }
    }

    /// The same where the question holds only in scenarios in which no clause but these is met.
    pub(super) fn ask_among(&mut self, clauses: FixedBitSet, question: &Formula) -> Answer {
        if clauses.is_full() || self.budget.exhausted().is_some() {
            return self.ask(question);
        }
        if let Some(answer) = self.ask_diagrams(question) {
            return answer;
        }
        Z3Solver::over(self.theory.among(clauses), self.budget.clone()).ask(question)
    }

    /// Finds out which dimensions that clauses read are never a gap and never a contradiction.
    pub(super) fn find_sound_dimensions(&mut self) {
        let read: BTreeSet<DimensionId> = self
            .ruleset
            .clauses
            .iter()
            .flat_map(|clause| dimensions_read(&clause.when))
            .collect();
        for dimension in read {
            let faulty = Self::faulty(BTreeSet::from([dimension]));
            let was_sound = |it: &&Precedent<'_>| it.was_sound(dimension);
            let answer = match self.precedent.filter(was_sound) {
                Some(precedent) => self.ask_where_changed(precedent, &faulty),
                None => self.ask(&faulty),
            };
            if answer == Answer::No {
                self.sound.insert(dimension);
            }
        }
    }

    /// Is there a scenario in which something holds that holds nowhere in another edition?
    pub(super) fn ask_where_changed(
        &mut self,
        precedent: &Precedent<'_>,
        question: &Formula,
    ) -> Answer {
        let Some(changed) = precedent.changed() else {
            return self.ask(question);
        };
        for piece in changed {
            let here = Formula::all([piece.formula.clone(), question.clone()]);
            match self.ask_among(piece.clauses.clone(), &here) {
                Answer::No => {}
                answer => return answer,
            }
        }
        Answer::No
    }

    /// The clauses that can be met where this one is.
    pub(super) fn met_beside(&self, clause: ClauseId) -> FixedBitSet {
        self.reach
            .cell_box(clause)
            .map(|cell_box| self.reach.meeting(cell_box))
            .unwrap_or_default()
    }

    /// Looks for a scenario without the solver.
    pub(super) fn search(
        &self,
        conditions: &[&Condition],
        judge: impl FnMut(&Scenario, &Outcome) -> Trial,
    ) -> Option<Scenario> {
        Search::new(self.ruleset, self.reach).find(conditions, judge)
    }

    /// Looks for a scenario without the solver in which each condition is as wanted.
    pub(super) fn search_as(
        &self,
        wanted: &[(&Condition, Want)],
        judge: impl FnMut(&Scenario, &Outcome) -> Trial,
    ) -> Option<Scenario> {
        Search::new(self.ruleset, self.reach).find_as(wanted, judge)
    }

    /// A scenario moved as little as can be, so that a condition is likely to be as wanted.
    pub(super) fn moved(
        &self,
        scenario: &Scenario,
        condition: &Condition,
        want: Want,
    ) -> Vec<Scenario> {
        Search::new(self.ruleset, self.reach).moved(scenario, condition, want)
    }

    /// Is there a scenario in which something holds between the ruleset as it stands and the world of
    /// an edit? The question holds only in scenarios in which no clause but these is met, in either.
    pub(super) fn ask_edited(
        &mut self,
        edit: Edit,
        among: FixedBitSet,
        question: impl FnOnce(&Theory<'r>, World) -> Formula,
    ) -> Answer {
        if let Some(reason) = self.budget.exhausted() {
            return Answer::Undecided(reason);
        }
        // The edit is the first of its own list, so that the question is the same whatever was asked
        // before.
        let edits = Edits::default();
        let world = edits.world(edit);
        let theory = self.theory.editing(edits.clone());
        let question = question(&theory, world);
        if self.method != Method::SolverOnly
            && let Some(diagrams) = self.diagrams.as_mut()
        {
            match diagrams.ask_editing(&edits, &question) {
                Answer::Undecided(Reason::DiagramTooLarge) => {}
                answer => return answer,
            }
        }
        let theory = if among.is_full() {
            theory
        } else {
            theory.among(among)
        };
        Z3Solver::over(theory, self.budget.clone()).ask(&question)
    }

    /// What the ruleset says about a scenario.
    pub(super) fn outcome(&self, scenario: &Scenario) -> Outcome {
        self.reach.outcome(Evaluator::new(self.ruleset), scenario)
    }

    /// What it would say without a clause.
    pub(super) fn outcome_without(&self, clause: ClauseId, scenario: &Scenario) -> Outcome {
        self.reach
            .outcome(Evaluator::without(self.ruleset, clause), scenario)
    }

    /// How many scenarios there are, where that can be counted.
    pub(super) fn space(&mut self) -> Option<Count> {
        Some(Count {
            scenarios: self.diagrams.as_mut()?.space(WORK)?,
            exact: true,
        })
    }

    /// Describes the scenarios in which a formula holds; `witness` is one of them, and `clauses` are
    /// those whose own words may say it shortest.
    pub(super) fn describe(
        &mut self,
        formula: &Formula,
        witness: &Scenario,
        mentioned: &BTreeSet<AttributeId>,
        clauses: &[ClauseId],
    ) -> Description {
        if let Some(description) = self.describe_by_diagrams(formula, mentioned, clauses) {
            return description;
        }
        // Where the whole is too large, a part of it says at least something.
        for part in splitting::around(self, witness, &BTreeSet::new()) {
            let place = gap::Place {
                question: formula,
                pieces: std::slice::from_ref(&part),
                all: false,
            };
            if let Some(description) = self.describe_pieces(place, mentioned) {
                return description;
            }
        }
        let ruleset = self.ruleset;
        let holds = |scenario: &Scenario| Replay::new(ruleset, scenario).holds(formula);
        Description {
            scenario: witness::make_ordinary(ruleset, witness.clone(), holds),
            general: General::default(),
            share: None,
            lines: Vec::new(),
        }
    }

    fn describe_by_diagrams(
        &mut self,
        formula: &Formula,
        mentioned: &BTreeSet<AttributeId>,
        clauses: &[ClauseId],
    ) -> Option<Description> {
        let vocabulary = self.vocabulary();
        let diagrams = self.diagrams.as_mut()?.diagrams();
        begin(diagrams);
        let set: Set = diagrams.set(formula).ok()?;
        let scenario = diagrams.most_ordinary(&set)?;
        if !agrees(self.ruleset, &scenario, formula) {
            return None;
        }
        let Described {
            mut general,
            share,
            lines,
        } = general::described(diagrams, &set, mentioned, &vocabulary);
        if general.lines.len() != 1
            && let Some(words) = general::own_words(self.ruleset, diagrams, &set, clauses)
            && words.len() < general.lines.iter().map(String::len).sum()
        {
            general = General::exactly(words);
        }
        Some(Description {
            scenario,
            general,
            share,
            lines,
        })
    }

    /// Describes what was found piece by piece, where the whole is too large for the diagrams: in each
    /// piece few clauses can be met. `None` where that is too large as well.
    pub(super) fn describe_pieces(
        &mut self,
        place: gap::Place<'_>,
        mentioned: &BTreeSet<AttributeId>,
    ) -> Option<Description> {
        let vocabulary = self.vocabulary();
        let stop = self.budget.stop();
        let diagrams = self.diagrams.as_mut()?.diagrams();
        diagrams.begin(WORK);
        let mut all = place.all;
        let mut set = diagrams.set(&Formula::False).ok()?;
        for piece in place.pieces {
            let theory = self.theory.among(piece.clauses.clone());
            let mut here =
                Diagrams::over(theory, diagrams.ready(), WORK_IN_PIECE, Arc::clone(&stop));
            let found = Formula::all([piece.formula.clone(), place.question.clone()]);
            let together = here.set(&found).and_then(|found| diagrams.or(&set, &found));
            match together {
                Ok(together) => set = together,
                Err(TooLarge) => all = false,
            }
        }
        let scenario = diagrams.most_ordinary(&set)?;
        if !agrees(self.ruleset, &scenario, place.question) {
            return None;
        }
        let mut described = general::described(diagrams, &set, mentioned, &vocabulary);
        if !all {
            described.bound_from_below();
        }
        Some(Description {
            scenario,
            general: described.general,
            share: described.share,
            lines: described.lines,
        })
    }

    /// Describes some scenarios that are the first of a pair against a claim, around one of them: there
    /// are at least so many. `None` where already these are too many for the diagrams.
    pub(super) fn describe_firsts_around(
        &mut self,
        claim: &Claim,
        first: &Scenario,
        mentioned: &BTreeSet<AttributeId>,
    ) -> Option<(General, Option<Count>)> {
        let vocabulary = self.vocabulary();
        // The second of a pair lies in the part wherever the first does.
        let parts = splitting::around(self, first, &claim.pairing().touched());
        let stop = self.budget.stop();
        let diagrams = self.diagrams.as_mut()?.diagrams();
        for part in parts {
            let theory = self.theory.among(part.clauses);
            let ready = diagrams.ready();
            let mut here = Diagrams::over(theory, ready, WORK_IN_PIECE, Arc::clone(&stop));
            let Ok(firsts) = claim.firsts_within(&mut here, &part.formula) else {
                continue;
            };
            let known = here.like(first).ok()?;
            if here.and(&firsts.all, &known).ok()?.is_false() {
                return None;
            }
            diagrams.begin(WORK);
            let mut described = general::described(diagrams, &firsts.all, mentioned, &vocabulary);
            described.bound_from_below();
            return Some((described.general, described.share));
        }
        None
    }

    /// The attributes that the conditions of these clauses read.
    pub(super) fn mentioned(&self, clauses: &[ClauseId]) -> BTreeSet<AttributeId> {
        let conditions = clauses.iter().map(|clause| &self.ruleset[*clause].when);
        self.read_by(conditions)
    }

    /// The attributes that some conditions read.
    pub(super) fn read_by<'c>(
        &self,
        conditions: impl Iterator<Item = &'c Condition>,
    ) -> BTreeSet<AttributeId> {
        conditions
            .flat_map(|condition| {
                let read = attributes_read(self.ruleset, condition);
                read.ones().map(AttributeId::new).collect::<Vec<_>>()
            })
            .collect()
    }

    /// Where a ruling that any of these clauses reads is itself a contradiction or a gap: of them,
    /// nothing further is reported there.
    pub(super) fn reading_a_fault(&self, clauses: &[ClauseId]) -> Formula {
        let conditions = clauses.iter().map(|clause| &self.ruleset[*clause].when);
        Self::faulty(
            conditions
                .flat_map(|when| self.unsound_read(when))
                .collect(),
        )
    }

    /// Where a clause is silent on a dimension only because a ruling that it reads is itself a
    /// contradiction or a gap, so that its condition is neither true nor false.
    pub(super) fn silenced_by_a_fault(&self, dimension: DimensionId) -> Formula {
        let speakers = self.theory.speakers(dimension).iter();
        Formula::any(speakers.map(|clause| self.unmet_by_a_fault(*clause)))
    }

    /// Where the clause's condition is neither true nor false, and a ruling that it reads is itself a
    /// contradiction or a gap: whether it would be met but for that fault, nobody can say.
    pub(super) fn unmet_by_a_fault(&self, clause: ClauseId) -> Formula {
        let when = &self.ruleset[clause].when;
        match Self::faulty(self.unsound_read(when).collect()) {
            Formula::False => Formula::False,
            faulty => Formula::all([
                faulty,
                is_true(when, Mode::ACTUAL).negated(),
                is_false(when, Mode::ACTUAL).negated(),
            ]),
        }
    }

    fn unsound_read(&self, condition: &Condition) -> impl Iterator<Item = DimensionId> {
        dimensions_read(condition)
            .into_iter()
            .filter(|dimension| !self.sound.contains(dimension))
    }

    fn faulty(dimensions: BTreeSet<DimensionId>) -> Formula {
        Formula::any(dimensions.into_iter().flat_map(|dimension| {
            [
                Name::Gap(World::Actual, dimension),
                Name::Clash(World::Actual, dimension),
            ]
            .map(Formula::from)
        }))
    }
}

/// Whether the plain evaluator agrees that a scenario is one and that a formula holds in it.
fn agrees(ruleset: &Ruleset, scenario: &Scenario, formula: &Formula) -> bool {
    is_valid(ruleset, scenario) && Replay::new(ruleset, scenario).holds(formula)
}

/// The bits of a ruleset, shared by all threads.
pub(super) fn reach(ruleset: &Ruleset) -> Reach<'_> {
    Reach::new(ruleset, Layers::new(ruleset))
}

/// Begins a question with the work that is worth it.
fn begin(diagrams: &mut Diagrams<'_>) {
    let work = if diagrams.is_prepared() {
        WORK
    } else {
        WORK_IN_LARGE
    };
    diagrams.begin(work);
}
