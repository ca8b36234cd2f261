//! What else must be changed with a draft: a draft of its own.
//!
//! Two things can be written down without a thought: references that would be left over, and texts
//! that name a clause by the number that it had. Where a text names a clause that is gone, somebody has
//! to think; it is noted.

use super::mentions::reworded;
use super::numbers::Earlier;
use super::vet::Vetted;
use crate::load::Layered;
use crate::read::amendment::double_quoted;
use std::fmt::Write;

/// The amendments that are consequential to others.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Consequential {
    /// The changes, as lines of an amendment.
    changes: Vec<String>,
    /// What has to be thought about.
    pub open: Vec<String>,
}

impl Consequential {
    /// The references that the drafts of a ruleset would leave over, taken away. `None` where more
    /// stands in the way of the drafts.
    pub fn of_references(layered: &Layered) -> Option<Consequential> {
        Some(Consequential {
            changes: layered.follow_ups()?,
            open: Vec::new(),
        })
    }

    /// What there is to change in the words of texts.
    pub(super) fn of_texts(vetted: &Vetted, earlier: &Earlier) -> Consequential {
        let (changes, open) = reworded(&vetted.before, &vetted.after, earlier);
        Consequential { changes, open }
    }

    /// These, and others behind them.
    #[must_use]
    pub fn and(mut self, other: &Consequential) -> Consequential {
        self.changes.extend(other.changes.iter().cloned());
        self.open.extend(other.open.iter().cloned());
        self
    }

    /// Whether there is nothing to change.
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty()
    }

    /// The changes as the file of an amendment to the rules as they would be with the drafts of these
    /// titles; `None` where there are none.
    pub fn draft(&self, titles: &[String], ruleset: &str, edition: &str) -> Option<String> {
        if self.is_empty() {
            return None;
        }
        let mut out = String::new();
        // Writing to a string can't fail.
        for words in &self.open {
            let _ = writeln!(out, "# To be thought about: {words}.");
        }
        let title = format!("Consequential to {}", titles.join(", "));
        let _ = writeln!(out, "amendment: {}", double_quoted(&title));
        let _ = writeln!(out, "to:\n  ruleset: {}", double_quoted(ruleset));
        if !edition.is_empty() {
            let _ = writeln!(out, "  edition: {}", double_quoted(edition));
        }
        let _ = writeln!(out, "changes:");
        for change in &self.changes {
            let _ = writeln!(out, "  {change}");
        }
        Some(out)
    }
}
