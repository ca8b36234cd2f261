//! Repairs: what would mend a finding, tried out before it is offered.
//!
//! For each kind there are a few changes that a drafter would think of (see `candidates`). Each is
//! written as an amendment, read again and laid over the ruleset; what it then does otherwise is tried
//! (see `trial`): the finding must be gone, and no fault may be new. How many scenarios change their
//! ruling is counted. Nothing is ever applied by itself.

mod candidates;
mod copy;
mod mend;
mod trial;

pub use mend::Mend;
use mend::clash;
pub(crate) use mend::{changes, quoted};

use super::check::Progress;
use super::finding::{Finding, Outcome, Repair, Verdict};
use super::inquiry::Inquiry;
use super::principle;
use super::seen::Seen;
use super::{displaced, no_effect};
use crate::load::Layered;
use crate::logic::{Change, Edit, Formula, Mode, conditions, is_false, is_true};
use crate::model::{ClauseId, Condition, ConditionKind, Meaning, Principle, Ruleset, TermId};
use crate::problem::Gravity;
use crate::read;
use crate::solve::Answer;
use crate::source::{Source, Sources};
use candidates::{Candidate, Reading};
use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};
use trial::{Now, Trial};

/// Findings for which repairs are looked for; of further ones it is said that they were not.
const MOST_FINDINGS: usize = 40;

/// The most repairs that are offered for one finding.
const MOST_OFFERED: usize = 4;

/// Looks for repairs of the findings, in their order, and adds them. The number of findings that were
/// passed over is returned.
pub(super) fn offer(
    inquiry: &mut Inquiry<'_, '_>,
    findings: &mut [Finding],
    verdicts: &[Verdict],
    seen: &[Seen],
    progress: &dyn Progress,
) -> usize {
    let ruleset = inquiry.ruleset;
    let mut tried: Vec<(usize, Candidate)> = Vec::new();
    let mut looked_at = 0;
    let mut left = 0;
    for (index, finding) in findings.iter().enumerate() {
        if !candidates::is_looked_for(finding) {
            continue;
        }
        if looked_at == MOST_FINDINGS || inquiry.exhausted().is_some() {
            left += 1;
            continue;
        }
        looked_at += 1;
        let of = candidates::of(inquiry, finding);
        tried.extend(of.into_iter().map(|candidate| (index, candidate)));
    }
    let Some(copies) = Copies::new(ruleset, &mut tried) else {
        return left;
    };
    let now = Now {
        broken: broken(inquiry, verdicts),
        never: never_counting(inquiry, seen),
        seen,
        idle: OnceCell::new(),
    };
    let mut cut_short = BTreeSet::new();
    let mut settled = BTreeSet::new();
    progress.stage("what would mend it", tried.len());
    for (number, (index, candidate)) in tried.iter().enumerate() {
        progress.advance(1);
        if inquiry.exhausted().is_some() {
            cut_short.insert(*index);
            continue;
        }
        let offered = findings.get(*index).map_or(0, |it| it.repairs.len());
        if offered == MOST_OFFERED || settled.contains(&(*index, candidate.slot)) {
            continue;
        }
        let Some(repair) = try_out(inquiry, &copies, number, candidate, &now) else {
            continue;
        };
        settled.insert((*index, candidate.slot));
        if let Some(finding) = findings.get_mut(*index) {
            finding.repairs.push(repair);
        }
    }
    left + cut_short.len()
}

/// How many findings are of a kind for which repairs can be looked for.
pub(super) fn mendable(findings: &[Finding]) -> usize {
    let all = findings.iter();
    all.filter(|finding| candidates::is_looked_for(finding))
        .count()
}

/// The clauses that never count, and without which some ruling would be another all the same: they
/// keep others from counting.
fn never_counting(inquiry: &mut Inquiry<'_, '_>, seen: &[Seen]) -> Vec<ClauseId> {
    let all = (0..inquiry.ruleset.clauses.len()).map(ClauseId::new);
    let known = |clause: &ClauseId| {
        let seen = seen.get(clause.index());
        seen.is_some_and(|seen| seen.counts.is_some())
    };
    all.filter(|clause| !known(clause))
        .filter(|clause| {
            let counts = displaced::question(inquiry, *clause);
            let matters = no_effect::question(inquiry, *clause);
            !matches!(inquiry.ask(&counts), Answer::Yes(_)) && inquiry.ask(&matters) != Answer::No
        })
        .collect()
}

/// The ids of the principles that are broken as the ruleset stands.
fn broken<'r>(inquiry: &mut Inquiry<'_, 'r>, verdicts: &[Verdict]) -> BTreeSet<&'r str> {
    let principles = inquiry.ruleset.principles.iter();
    let is_broken = |one: &&Principle| {
        let mut known = verdicts.iter();
        let known = known.find(|it| it.principle.as_ref() == Some(&one.id));
        known.map_or_else(
            || !principle::is_kept(inquiry, one),
            |known| known.outcome == Outcome::Found,
        )
    };
    let broken = principles.filter(is_broken);
    broken.map(|one| one.id.as_str()).collect()
}

/// The candidates as amendments that can be laid over the ruleset.
struct Copies(Layered);

impl Copies {
    /// Writes and reads the candidates; those that can't be read are dropped. `None` where none is left,
    /// or the ruleset's own files can't be laid over each other again.
    fn new(ruleset: &Ruleset, tried: &mut Vec<(usize, Candidate)>) -> Option<Copies> {
        let is_readable = |text: &str| {
            let source = Source::new("repair", text);
            let id = Sources::default().add(source.clone());
            let mut problems = Vec::new();
            let draft = read::amendment(&source, id, &mut problems);
            draft.is_some() && problems.iter().all(|it| it.gravity != Gravity::Error)
        };
        tried.retain(|(_, candidate)| is_readable(&mend::alone(&candidate.mend)));
        if tried.is_empty() {
            return None;
        }
        let written = tried.iter();
        let written = written
            .map(|(_, candidate)| ("repair".to_owned(), mend::alone(&candidate.mend)))
            .collect();
        Layered::again(&ruleset.sources, written).ok().map(Copies)
    }

    /// The ruleset with the candidate's changes in it, where they can be made.
    fn amended(&self, number: usize) -> Option<Ruleset> {
        self.0.with(&[number]).ok().map(|loaded| loaded.ruleset)
    }
}

fn try_out(
    inquiry: &mut Inquiry<'_, '_>,
    copies: &Copies,
    number: usize,
    candidate: &Candidate,
    now: &Now<'_>,
) -> Option<Repair> {
    let ruleset = inquiry.ruleset;
    let amended = copies.amended(number)?;
    let edit = match candidate.reading {
        Some(Reading::Widened(term)) => widened(inquiry, term)?,
        Some(Reading::Narrowed(term)) => narrowed(ruleset, term)?,
        None => copy::edit(ruleset, &amended)?,
    };
    if let trial::Aim::Clause(clause) = candidate.aim {
        // A repeal takes along what stands below the clause; that is more than was said.
        let others = ruleset.clauses.len() - amended.clauses.len();
        if others != 1 || edit.when(clause).is_none() {
            return None;
        }
    }
    let trial = Trial {
        edit: &edit,
        aim: &candidate.aim,
        amended: &amended,
        now,
    };
    trial.passes(inquiry).then(|| Repair {
        edit: candidate.edit.clone(),
        scenarios_changed: trial.changed(inquiry),
        mend: candidate.mend.clone(),
    })
}

/// What changes where a term's broad reading takes in its narrow one: nothing, unless the narrow one
/// is neither true nor false where the broad one is false.
fn widened(inquiry: &mut Inquiry<'_, '_>, term: TermId) -> Option<Edit> {
    let Meaning::Vague { narrow, broad, .. } = &inquiry.ruleset[term].meaning else {
        return None;
    };
    let neither = Formula::all([
        is_true(narrow, Mode::ACTUAL).negated(),
        is_false(narrow, Mode::ACTUAL).negated(),
        is_false(broad, Mode::ACTUAL),
    ]);
    (inquiry.ask(&neither) == Answer::No).then(Edit::default)
}

/// What changes where a term's narrow reading is kept within its broad one: the term is true only
/// where the broad reading is. `None` where others than clauses read the term.
fn narrowed(ruleset: &Ruleset, term: TermId) -> Option<Edit> {
    let Meaning::Vague { broad, .. } = &ruleset[term].meaning else {
        return None;
    };
    let reads = |condition: &Condition| {
        let mut found = false;
        condition.each_part(&mut |part| found |= part.kind == ConditionKind::Term(term));
        found
    };
    let own = ruleset.clauses.iter().filter(|clause| reads(&clause.when));
    let everywhere = conditions(ruleset).into_iter();
    if everywhere.filter(|condition| reads(condition)).count() > own.count() {
        return None;
    }
    let inner = |part: &Condition| {
        (part.kind == ConditionKind::Term(term)).then(|| Condition {
            kind: ConditionKind::All(vec![part.clone(), broad.clone()]),
            span: part.span,
        })
    };
    let clauses = ruleset.clauses.iter().enumerate();
    let changes = clauses.filter(|(_, clause)| reads(&clause.when));
    Some(Edit {
        changes: changes
            .map(|(index, clause)| Change::When {
                clause: ClauseId::new(index),
                when: copy::replaced(&clause.when, &inner),
            })
            .collect(),
    })
}

impl Repair {
    /// The repair alone, as the text of an amendment.
    pub fn amendment(&self) -> String {
        mend::alone(&self.mend)
    }
}

/// Repairs of several findings that can be made together, one for each finding at most: the first
/// offered that does not clash with those of the findings before it. By index of finding, the index of
/// its repair.
pub(crate) fn together(findings: &[Finding]) -> BTreeMap<usize, usize> {
    let mut chosen: BTreeMap<usize, usize> = BTreeMap::new();
    for (index, finding) in findings.iter().enumerate() {
        let fits = |repair: &&(usize, &Repair)| {
            chosen.iter().all(|(finding, number)| {
                let other = findings
                    .get(*finding)
                    .and_then(|it| it.repairs.get(*number));
                other.is_none_or(|other| !clash(&other.mend, &repair.1.mend))
            })
        };
        let offered: Vec<(usize, &Repair)> = finding.repairs.iter().enumerate().collect();
        if let Some((number, _)) = offered.iter().find(fits) {
            chosen.insert(index, *number);
        }
    }
    chosen
}
