//! The questions that a committee asks of a ruleset, one file a kind of finding.

mod finding;

pub use finding::{Checked, Cover, Finding, General, Outcome, Repair, Verdict};
