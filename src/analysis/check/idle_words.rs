//! The questions about words and exceptions that may change nothing, clause by clause.

use super::super::seen::Seen;
use super::super::{idle_exception, surplus_words};
use super::{Run, Tally};
use crate::model::{ClauseId, Kind};
use crate::solve::Answer;
use fixedbitset::FixedBitSet;

impl Run<'_, '_> {
    /// Words and exceptions that change nothing, of clauses that are not idle themselves.
    pub(super) fn words(&mut self, seen: &[Seen], idle: &FixedBitSet) {
        let clauses: Vec<ClauseId> = self
            .clause_ids()
            .into_iter()
            .filter(|clause| !idle.contains(clause.index()))
            .collect();
        let ruleset = self.ruleset;
        let nothing = Seen::default();
        let of = |clause: ClauseId| seen.get(clause.index()).unwrap_or(&nothing);
        if self.wants(Kind::SurplusWords) {
            let stage = "words that may be surplus";
            let judged = self.spread(stage, &clauses, |inquiry, clause| {
                surplus_words::judge(inquiry, *clause, of(*clause))
            });
            let mut tally = Tally::default();
            for (clause, judged) in clauses.iter().zip(judged) {
                if let Some(reason) = &judged.open {
                    tally.open = Some(reason.clone());
                }
                let found = surplus_words::report(&mut self.inquiry, *clause, &judged);
                tally.found |= found.is_some();
                self.findings.extend(found);
                self.answers.words.insert(*clause, judged.turning);
            }
            self.verdict(Kind::SurplusWords, None, &tally);
        }
        if self.wants(Kind::IdleException) {
            let stage = "exceptions that may be idle";
            let settled = self.spread(stage, &clauses, |inquiry, clause| {
                let references = ruleset[*clause].references.iter();
                let answers: Vec<Option<Answer>> = references
                    .map(|reference| {
                        idle_exception::settle(inquiry, *clause, reference, seen, idle)
                    })
                    .collect();
                let unless = idle_exception::settle_unless(inquiry, *clause, of(*clause));
                (unless, answers)
            });
            let mut tally = Tally::default();
            for (clause, (unless, answers)) in clauses.iter().zip(settled) {
                match unless {
                    None | Some(Answer::Yes(_)) => {}
                    Some(Answer::No) => {
                        let found = idle_exception::report_unless(&mut self.inquiry, *clause);
                        tally.found |= found.is_some();
                        self.findings.extend(found);
                    }
                    Some(Answer::Undecided(reason)) => tally.open = Some(reason),
                }
                let shown = answers.iter().map(|answer| match answer {
                    Some(Answer::Yes(scenario)) => Some(scenario.clone()),
                    _ => None,
                });
                self.answers.references.insert(*clause, shown.collect());
                for (reference, answer) in ruleset[*clause].references.iter().zip(answers) {
                    match answer {
                        None | Some(Answer::Yes(_)) => {}
                        Some(Answer::No) => {
                            tally.found = true;
                            let found =
                                idle_exception::report(&mut self.inquiry, *clause, reference);
                            self.findings.push(found);
                        }
                        Some(Answer::Undecided(reason)) => tally.open = Some(reason),
                    }
                }
            }
            self.verdict(Kind::IdleException, None, &tally);
        }
    }
}
