//! The questions about clauses that may be impossible, displaced or without effect.

use super::super::finding::Finding;
use super::super::inquiry::Inquiry;
use super::super::seen::Seen;
use super::super::standing::Standing;
use super::super::{displaced, impossible, no_effect};
use super::{Run, Tally};
use crate::model::{ClauseId, Kind};
use fixedbitset::FixedBitSet;

impl<'a, 'r> Run<'a, 'r> {
    /// What each clause comes to that was not seen to matter.
    pub(super) fn standings(
        &mut self,
        seen: &[Seen],
        wanted: (bool, bool),
    ) -> Vec<(ClauseId, Standing)> {
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
    pub(super) fn clauses(&mut self, seen: &[Seen]) -> FixedBitSet {
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
            self.answers.standings.insert(clause, standing.clone());
            match standing {
                Standing::Fine => {}
                Standing::Untold(Kind::Impossible) => impossible.untold = true,
                Standing::Untold(Kind::Displaced) => displaced.untold = true,
                Standing::Untold(_) => no_effect.untold = true,
                Standing::Impossible => {
                    impossible.found = true;
                    self.tell_of(Kind::Impossible, clause, |inquiry| {
                        impossible::report(inquiry, clause)
                    });
                }
                Standing::Displaced(met) => {
                    displaced.found = true;
                    self.tell_of(Kind::Displaced, clause, |inquiry| {
                        displaced::report(inquiry, clause, &met)
                    });
                }
                Standing::NoEffect(counts) => {
                    no_effect.found = true;
                    self.tell_of(Kind::NoEffect, clause, |inquiry| {
                        no_effect::report(inquiry, clause, &counts)
                    });
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

    /// Tells what a clause comes to, where that is wanted.
    fn tell_of(
        &mut self,
        kind: Kind,
        clause: ClauseId,
        report: impl FnOnce(&mut Inquiry<'a, 'r>) -> Finding,
    ) {
        if self.wants(kind) {
            let found = self.tell(kind, &[clause], None, report);
            self.findings.push(found);
        }
    }
}
