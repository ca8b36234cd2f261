//! Impossible: no scenario meets the clause's condition.
//!
//! Question: is there a scenario in which the condition is true?

use super::finding::Finding;
use super::inquiry::Inquiry;
use super::words;
use crate::logic::{Formula, Name, World};
use crate::model::{ClauseId, Kind};

/// Where the clause is met.
pub(super) fn question(clause: ClauseId) -> Formula {
    Name::Met(World::Actual, clause).into()
}

/// Puts it into words.
pub(super) fn report(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Finding {
    let this = &inquiry.ruleset[clause];
    let headline = format!("Clause {} can never be met", this.id);
    words::finding(Kind::Impossible, headline, this.when_span, "no scenario makes this true")
        .of_clauses(&[clause])
        .help(
            "Its parts, the opening words of its groups, the background and what is asked when rule each \
             other out. Correct the condition, or repeal the clause.",
        )
}
