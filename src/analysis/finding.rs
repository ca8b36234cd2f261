//! What the checker says, in one type for every kind of finding.

use super::repair::Mend;
use super::wording::Question;
use crate::logic::{Count, Scenario};
use crate::model::{ClauseId, DimensionId, Kind, Severity, ValueSet};
use crate::solve::Reason;
use crate::source::Span;

/// One finding.
#[derive(Clone, Debug)]
pub struct Finding {
    /// What kind.
    pub kind: Kind,
    /// How grave.
    pub severity: Severity,
    /// One line that stands alone.
    pub headline: String,
    /// The clauses it is about; the one it is said of first.
    pub clauses: Vec<ClauseId>,
    /// The dimension it is about.
    pub dimension: Option<DimensionId>,
    /// What each of the clauses rules on the dimension, where that matters.
    pub rulings: Vec<(ClauseId, ValueSet)>,
    /// A whole scenario that shows it, the most ordinary there is.
    pub scenario: Option<Scenario>,
    /// The other scenario, where it takes a pair to show it.
    pub pair: Option<Scenario>,
    /// Under which general conditions it happens.
    pub general: General,
    /// How many scenarios it concerns, where that could be counted; of pairs, how many are the first.
    /// Where a pair may be turned round, both count.
    pub share: Option<Count>,
    /// The id of the principle it is about.
    pub principle: Option<String>,
    /// The name of the attribute it is about.
    pub attribute: Option<String>,
    /// The name of the term it is about.
    pub term: Option<String>,
    /// What would mend it, each tried out; empty where none was found or none was looked for.
    pub repairs: Vec<Repair>,
    /// What a drafter is asked about words of the texts; all of them, where `labels` has only some.
    pub questions: Vec<Question>,
    /// The words in the files it is about, each with what is said under them; the primary one first.
    pub labels: Vec<(Span, String)>,
    /// What to do, or how to think about it.
    pub help: Option<String>,
    /// Which entry of `accepted` covers it, by index.
    pub accepted: Option<usize>,
}

/// The general conditions of a finding, in the ruleset's words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct General {
    /// One condition a line; together they cover the finding's scenarios.
    pub lines: Vec<String>,
    /// How far the lines go.
    pub cover: Cover,
}

impl General {
    /// One condition that says it exactly.
    pub(super) fn exactly(words: String) -> General {
        General {
            lines: vec![words],
            cover: Cover::Exact,
        }
    }
}

/// How far the lines of a general condition go.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Cover {
    /// Exactly the finding's scenarios.
    Exact,
    /// Only scenarios of the finding, but not all of them.
    Partial,
    /// No general condition is given.
    #[default]
    None,
}

/// A change that was checked to remove a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Repair {
    /// What to change, in words.
    pub edit: String,
    /// How many scenarios change their ruling, where that could be counted.
    pub scenarios_changed: Option<Count>,
    /// The same as changes of an amendment.
    pub mend: Mend,
}

/// What was found out about one kind, for one dimension or principle where the kind is asked of
/// each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// The kind.
    pub kind: Kind,
    /// The dimension.
    pub dimension: Option<DimensionId>,
    /// The id of the principle.
    pub principle: Option<String>,
    /// What was found out.
    pub outcome: Outcome,
    /// Whether there are some that are not among the findings, because they rest on another fault.
    pub untold: bool,
}

/// What was found out about a kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// There is none.
    Proved,
    /// There is at least one.
    Found,
    /// None was found, but it could not be proved that there is none (or that all were found).
    Undecided(Reason),
    /// None was found by looking words up in the lists of these languages, which proves nothing; of
    /// no language where there is no text to look at.
    NoneListed(Vec<String>),
    /// Texts in these languages (by their tags, empty where none is given) were not looked at: there
    /// is no list of words.
    NotLookedAt(Vec<String>),
}

impl Outcome {
    /// Whether there may be more of the kind than was found, since a question stayed open or some
    /// texts were not looked at.
    pub fn leaves_open(&self) -> bool {
        matches!(self, Outcome::Undecided(_) | Outcome::NotLookedAt(_))
    }
}

/// Everything that a check found out.
#[derive(Clone, Debug)]
pub struct Checked {
    /// How many scenarios there are, where that could be counted.
    pub space: Option<Count>,
    /// The findings, gravest first, then in the order of the file.
    pub findings: Vec<Finding>,
    /// What was found out about each kind.
    pub verdicts: Vec<Verdict>,
    /// Entries of `accepted` (by index) that cover no finding.
    pub idle_accepted: Vec<usize>,
    /// Findings for which repairs can be looked for, where they were left out.
    pub mendable: usize,
    /// How many findings there are of which no repair was looked for, though others of their kind were
    /// looked into.
    pub repairs_left: usize,
}
