//! The kinds that no scenario decides: they are answered from the text alone.

use super::super::finding::{Finding, Outcome, Verdict};
use super::super::wording;
use super::{Run, Tally};
use crate::model::{Kind, Ruleset};

impl Run<'_, '_> {
    /// A kind that no scenario decides.
    pub(super) fn by_the_text(&mut self, kind: Kind, find: impl Fn(&Ruleset) -> Vec<Finding>) {
        if self.wants(kind) {
            let found = find(self.ruleset);
            let tally = Tally {
                found: !found.is_empty(),
                ..Tally::default()
            };
            self.verdict(kind, None, &tally);
            self.findings.extend(found);
        }
    }

    /// Words are looked up, not proved to be absent; a language without a list is not looked at.
    pub(super) fn wording(&mut self) {
        let found = wording::find(self.ruleset);
        let looked_up = if found.findings.is_empty() {
            Outcome::NoneListed(found.read.clone())
        } else {
            Outcome::Found
        };
        let mut outcomes = Vec::new();
        if !found.read.is_empty() || found.unread.is_empty() {
            outcomes.push(looked_up);
        }
        if !found.unread.is_empty() {
            outcomes.push(Outcome::NotLookedAt(found.unread));
        }
        self.verdicts
            .extend(outcomes.into_iter().map(|outcome| Verdict {
                kind: Kind::Wording,
                dimension: None,
                principle: None,
                outcome,
                untold: false,
            }));
        self.findings.extend(found.findings);
    }
}
