//! The questions that compare two scenarios: principles, and what turns on judgement.

use super::super::finding::{Outcome, Verdict};
use super::super::principle::Kept;
use super::super::{judgement, principle};
use super::{Run, Tally, WHOLE_BOOK};
use crate::model::Kind;

impl Run<'_, '_> {
    /// Every principle has a verdict of its own; where there is none, all that are stated are kept.
    pub(super) fn principles(&mut self) {
        let principles = &self.ruleset.principles;
        if principles.is_empty() {
            self.verdict(Kind::BrokenPrinciple, None, &Tally::default());
        }
        let settled =
            self.spread_over(
                WHOLE_BOOK,
                "principles",
                principles,
                |inquiry, one| match inquiry.exhausted() {
                    Some(reason) => (Kept::Open(reason), None),
                    None => principle::check(inquiry, one),
                },
            );
        for (one, (kept, pairs)) in principles.iter().zip(settled) {
            let promised = pairs.map(|pairs| (one.id.clone(), pairs));
            self.answers.promised.extend(promised);
            let outcome = match kept {
                Kept::Always => Outcome::Proved,
                Kept::Not(finding) => {
                    self.findings.push(*finding);
                    Outcome::Found
                }
                Kept::Open(reason) => Outcome::Undecided(reason),
            };
            self.verdicts.push(Verdict {
                kind: Kind::BrokenPrinciple,
                dimension: None,
                principle: Some(one.id.clone()),
                outcome,
                untold: false,
            });
        }
    }

    pub(super) fn judgements(&mut self) {
        let judged = judgement::judged(self.ruleset);
        let stage = "what officials judge";
        let alone = self.spread_over(WHOLE_BOOK, stage, &judged, |inquiry, value| {
            let mut asked = judgement::Asked::new();
            (judgement::alone(inquiry, *value, &mut asked), asked)
        });
        let mut tally = Tally::default();
        let mut deciding = Vec::new();
        let mut left = Vec::new();
        for (value, (decides, asked)) in judged.into_iter().zip(alone) {
            match decides {
                Ok(Some(found)) => deciding.push(found),
                Ok(None) => left.push(value),
                Err(reason) => tally.open = Some(reason),
            }
            self.answers.judged.extend(asked);
        }
        let asked = &mut self.answers.judged;
        let (together, open) = judgement::together(&mut self.inquiry, &left, asked);
        deciding.extend(together);
        tally.open = tally.open.or(open);
        tally.found = !deciding.is_empty();
        let found = judgement::report(&mut self.inquiry, deciding);
        self.findings.extend(found);
        self.verdict(Kind::TurnsOnJudgement, None, &tally);
    }
}
