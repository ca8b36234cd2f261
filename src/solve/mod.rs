//! Questions about a ruleset, and three-valued answers to them.
//!
//! A question is a formula: is there a scenario in which it holds? The answer is a scenario, or
//! that there is none, or that it stayed undecided. There are three solvers: decision diagrams where
//! they are small, Z3, and plain enumeration of small spaces. None knows what a finding is.

mod cone;
mod diagrams;
mod enumerate;
pub mod smtlib;
mod z3;

pub use self::diagrams::{DiagramSolver, Shared};
pub use self::enumerate::{Enumerator, LIMIT, Scenarios, scenarios};
pub use self::z3::{Z3Solver, version};

use crate::logic::{Formula, Scenario, Stop};
use std::fmt;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// The answer to "is there a scenario in which this holds?".
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// There is: this one. It keeps the background, and the plain evaluator agrees that the question holds.
    Yes(Scenario),
    /// There is none.
    No,
    /// It stayed open.
    Undecided(Reason),
}

/// Why a question stayed open.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// The time given was used up.
    Time,
    /// The memory given was used up.
    Memory,
    /// The run was interrupted.
    Interrupted,
    /// The space is too large to enumerate.
    TooLarge,
    /// The decision diagram grew too large.
    DiagramTooLarge,
    /// There are too many combinations of something to try.
    TooMany,
    /// The solver gave up, in its own words.
    GaveUp(String),
    /// A fault of this program: the solver's scenario does not hold when replayed.
    ReplayFailed,
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reason::Time => f.write_str("the time given was used up"),
            Reason::Memory => f.write_str("the memory given was used up"),
            Reason::Interrupted => f.write_str("the run was interrupted"),
            Reason::TooLarge => f.write_str("there are too many scenarios to try them all"),
            Reason::DiagramTooLarge => f.write_str("the decision diagram grew too large"),
            Reason::TooMany => f.write_str("there are too many combinations to try them all"),
            Reason::GaveUp(words) => write!(f, "the solver gave up: {words}"),
            Reason::ReplayFailed => f.write_str(
                "the solver's scenario did not hold when replayed; this is a fault of evenhand, please report it",
            ),
        }
    }
}

/// Answers questions about one ruleset.
pub trait Solver {
    /// Is there a scenario of the ruleset (background kept, exactly what is asked has a value) in
    /// which the formula holds?
    fn ask(&mut self, question: &Formula) -> Answer;
}

/// What a run may use, and whether someone has asked it to stop. Clones share the request to stop, and
/// count questions together.
#[derive(Clone, Debug, Default)]
pub struct Budget {
    deadline: Option<Instant>,
    memory_mib: Option<u32>,
    stop: Arc<AtomicBool>,
    questions: Arc<AtomicU64>,
}

impl Budget {
    /// No limit.
    pub fn unlimited() -> Self {
        Budget::default()
    }

    /// Ends at this moment.
    pub fn until(mut self, deadline: Instant) -> Self {
        self.deadline = Some(deadline);
        self
    }

    /// Gives the solver so many mebibytes.
    pub fn memory_mib(mut self, mebibytes: u32) -> Self {
        self.memory_mib = Some(mebibytes);
        self
    }

    /// The memory given, in mebibytes.
    pub fn memory(&self) -> Option<u32> {
        self.memory_mib
    }

    /// Asks every run that shares this budget to stop soon. Safe to call from any thread.
    pub fn interrupt(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Why the run should stop now, if it should. `now` is the caller's clock.
    pub fn spent(&self, now: Instant) -> Option<Reason> {
        if self.stop.load(Ordering::Relaxed) {
            Some(Reason::Interrupted)
        } else if self.deadline.is_some_and(|deadline| now >= deadline) {
            Some(Reason::Time)
        } else {
            None
        }
    }

    /// The same by the clock of the machine.
    #[must_use]
    pub fn exhausted(&self) -> Option<Reason> {
        self.spent(now())
    }

    /// Counts a question that is about to be asked; says why it should not be, if it should not.
    #[must_use]
    pub fn question(&self) -> Option<Reason> {
        self.questions.fetch_add(1, Ordering::Relaxed);
        self.exhausted()
    }

    /// How many questions were put to diagrams or a solver so far; one that the diagrams leave to the
    /// solver counts twice.
    pub fn questions(&self) -> u64 {
        self.questions.load(Ordering::Relaxed)
    }

    /// Says, whenever it is asked, whether the run should stop.
    #[must_use]
    pub fn stop(&self) -> Stop {
        let budget = self.clone();
        Arc::new(move || budget.exhausted().is_some())
    }

    /// The time left, if there is a limit.
    pub fn left(&self, now: Instant) -> Option<Duration> {
        self.deadline
            .map(|deadline| deadline.saturating_duration_since(now))
    }
}

/// The moment, for deadlines: the one clock below the command line.
#[expect(
    clippy::disallowed_methods,
    reason = "a deadline needs a clock; no output depends on it but what stays undecided"
)]
fn now() -> Instant {
    Instant::now()
}
