//! The questions that a committee asks of a ruleset, one file a kind of finding.
//!
//! Each kind's file holds its question as a formula and its words; `check` puts the questions in
//! order. Nothing here knows how findings are printed.

pub mod asked;
mod changes;
mod check;
mod claim;
mod common;
mod contradiction;
mod contrast;
mod cores;
mod discretion;
mod displaced;
mod finding;
mod gap;
mod general;
mod idle_exception;
mod impossible;
mod inquiry;
mod instances;
mod judgement;
mod loose_term;
mod no_effect;
mod no_scenario;
mod pairs;
mod parts;
mod precedent;
mod presupposes;
mod principle;
mod readings;
mod repair;
mod seen;
mod splitting;
mod standing;
mod step_edge;
mod surplus_words;
mod unused;
mod witness;
mod wording;
mod words;

pub(crate) use general::{Saying, described, meant_by, sayings, vocabulary, vocabulary_of};
pub(crate) use repair::{changes, quoted, together};
pub(crate) use witness::{Search, Trial};
pub(crate) use words::{and_list, capital, or_list, shown};

pub use check::{KINDS, Method, Options, Progress, Repairs, Silent, check, check_editions};
pub use finding::{Checked, Cover, Finding, General, Outcome, Repair, Verdict};
pub use instances::{Deed, Instance, Words, instances};
pub use no_scenario::no_scenario;
pub use repair::Mend;
pub use wording::{Question, Sort};
