//! Surplus words: parts of a clause's condition that could go with no ruling changed.
//!
//! Question, for each part: is there a scenario in which some announced ruling differs between the
//! ruleset and the ruleset whose clause lacks the part? A part within a surplus part is not told
//! besides it. Parts that could go one at a time need not be able to go together: the last ones that
//! can go together are told as surplus, the others as what could go instead. Nothing is told of a
//! clause that is impossible, displaced or without effect, since every word of it changes nothing.

use super::changes::{Rewording, either};
use super::finding::Finding;
use super::inquiry::Inquiry;
use super::parts::{self, Joint, Part, Path};
use super::precedent::Turned;
use super::seen::Seen;
use super::{witness, words};
use crate::logic::{Edit, Evaluator, Name, Scenario, World};
use crate::model::{ClauseId, Condition, ConditionKind, Kind};
use crate::solve::{Answer, Reason};
use crate::source::Span;
use std::collections::{BTreeMap, BTreeSet};

/// What was found out about the words of one clause.
#[derive(Debug, Default)]
pub(super) struct Judged {
    /// Parts that can go together, in the order of writing.
    pub(super) surplus: Vec<Span>,
    /// Parts that can go alone, but not with those.
    instead: Vec<Span>,
    /// Whether it does not matter at all whether the one surplus part holds.
    anything: bool,
    /// The condition without the surplus parts.
    left: Option<Condition>,
    /// Scenarios in which something turns on a part; none where nothing does.
    pub(super) turning: BTreeMap<Path, Option<Scenario>>,
    /// What another edition had to tell of it, where that is all there is to tell.
    pub(super) told: Option<Finding>,
    /// Why a part stayed open.
    pub(super) open: Option<Reason>,
}

/// What turns on the parts of a clause's own words, each taken out alone.
pub(super) struct Singly<'r> {
    /// The exception as a whole: idle, where nothing turns on it.
    pub(super) unless: Option<(Part<'r>, Answer)>,
    /// Its parts where something turns on it, and those of the condition; of those on which something
    /// turns, the parts within them as well. In the order of writing.
    pub(super) parts: Vec<(Part<'r>, Answer)>,
    /// Whether something was asked that the check of another edition had not answered.
    asked_anew: bool,
}

/// Takes every part of a clause's own words out, one at a time.
pub(super) fn singly<'r>(
    inquiry: &mut Inquiry<'_, 'r>,
    clause: ClauseId,
    known: &[&Scenario],
) -> Singly<'r> {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let mut asked_anew = false;
    let mut take_out = |part: &Part<'r>| {
        let precedent = inquiry.precedent();
        let turned = precedent.and_then(|it| it.turned_on(clause, &part.path));
        if let Some(answer) = turned.and_then(Turned::answer) {
            return answer;
        }
        asked_anew = true;
        let gone = BTreeSet::from([part.path.clone()]);
        let new = parts::without(&this.when, &gone);
        let (old, shown) = (&this.when, turned.and_then(Turned::shown));
        Rewording { clause, old, new }.settle(inquiry, shown, known, part.condition)
    };
    let mut open: Vec<Part<'_>> = parts::own_when(this).into_iter().collect();
    let unless = parts::own_unless(this).map(|unless| {
        let answer = take_out(&unless);
        if matches!(answer, Answer::Yes(_)) {
            open.extend(unless.within());
        }
        (unless, answer)
    });
    open.reverse();
    let mut parts = Vec::new();
    while let Some(part) = open.pop() {
        let answer = take_out(&part);
        if matches!(answer, Answer::Yes(_)) {
            open.extend(part.within().into_iter().rev());
        }
        parts.push((part, answer));
    }
    Singly {
        unless,
        parts,
        asked_anew,
    }
}

/// Looks at every part of a clause's own words.
pub(super) fn judge(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId, seen: &Seen) -> Judged {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let known: Vec<&Scenario> = seen.matters.iter().chain(&seen.counts).collect();
    let mut judged = Judged::default();
    let when = parts::own_when(this).map(|part| part.path);
    let Singly {
        unless,
        parts,
        asked_anew,
    } = singly(inquiry, clause, &known);
    let whole = unless.into_iter().map(|one| (one, true));
    let parts = parts.into_iter().map(|one| (one, false));
    let mut singly: Vec<Part<'_>> = Vec::new();
    for ((part, answer), whole) in whole.chain(parts) {
        match answer {
            Answer::No => {
                judged.turning.insert(part.path.clone(), None);
                // An exception that could go as a whole is an idle one, and told as that.
                singly.extend(Some(part).filter(|_| !whole));
            }
            Answer::Yes(scenario) => {
                judged.turning.insert(part.path, Some(scenario));
            }
            Answer::Undecided(reason) => judged.open = Some(reason),
        }
    }
    // What is asked of one part that is required is no more than was asked of it already: whether the
    // clause is met with it or without.
    if !asked_anew
        && let [only] = singly.as_slice()
        && only.joint == Joint::Required
        && let Some(precedent) = inquiry.precedent()
        && let Some(found) = precedent.finding(Kind::SurplusWords, &[clause], None)
    {
        judged.told = Some(found);
        return judged;
    }
    let mut together: BTreeSet<Path> = BTreeSet::new();
    let mut chosen: Vec<Part<'_>> = Vec::new();
    // The later words are the ones that were added. Parts that cannot go yet may be able to once
    // others have gone.
    let mut left: Vec<Part<'_>> = singly;
    loop {
        let before = chosen.len();
        let mut later = Vec::new();
        for part in left.into_iter().rev() {
            let mut more = together.clone();
            more.insert(part.path.clone());
            let answer = if together.is_empty() {
                Answer::No
            } else {
                settle(
                    inquiry,
                    clause,
                    parts::without(&this.when, &more),
                    &known,
                    &part,
                )
            };
            if answer == Answer::No {
                together = more;
                chosen.push(part);
                continue;
            }
            if let Answer::Undecided(reason) = answer {
                judged.open = Some(reason);
            }
            later.push(part);
        }
        later.reverse();
        left = later;
        if chosen.len() == before || left.is_empty() {
            break;
        }
    }
    chosen.sort_by(|one, other| one.path.cmp(&other.path));
    judged.instead = left.iter().map(|part| part.condition.span).collect();
    if let [only] = chosen.as_slice()
        && Some(&only.path) != when.as_ref()
        && let Some(contrary) = contrary(only)
    {
        let new = parts::replaced(&this.when, &only.path, &contrary);
        judged.anything = settle(inquiry, clause, new, &known, only) == Answer::No;
    }
    judged.left = (!chosen.is_empty()).then(|| parts::without(&this.when, &together));
    judged.surplus = chosen.iter().map(|part| part.condition.span).collect();
    judged
}

fn settle(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    new: Condition,
    known: &[&Scenario],
    part: &Part<'_>,
) -> Answer {
    let old = &inquiry.ruleset[clause].when;
    let rewording = Rewording { clause, old, new };
    rewording.settle(inquiry, None, known, part.condition)
}

/// What a part would have to be so as not to go, but to settle what it is joined to.
fn contrary(part: &Part<'_>) -> Option<Condition> {
    let kind = match part.joint {
        Joint::Required => ConditionKind::Any(Vec::new()),
        Joint::Alternative => ConditionKind::Always,
        Joint::Counted => return None,
    };
    Some(Condition {
        kind,
        span: part.condition.span,
    })
}

/// Puts it into words. `None` where nothing is surplus.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    judged: &Judged,
) -> Option<Finding> {
    if let Some(told) = &judged.told {
        return Some(told.clone());
    }
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let first = *judged.surplus.first()?;
    let left = judged.left.as_ref()?;
    let quoted: Option<Vec<String>> = judged
        .surplus
        .iter()
        .map(|span| words::quoted(ruleset, *span))
        .collect();
    let whole = parts::own_when(this).is_some_and(|when| when.condition.span == first);
    let headline = match quoted {
        _ if whole => format!(
            "Clause {} would rule the same without its condition",
            this.id
        ),
        Some(quoted) => format!(
            "Clause {} would rule the same without {}",
            this.id,
            words::and_list(&quoted)
        ),
        None => format!(
            "Clause {} would rule the same without some of its words",
            this.id
        ),
    };
    let label = match (judged.anything, judged.surplus.len()) {
        (true, _) => "whether this holds changes no ruling",
        (_, 1) => "could go; no ruling would change",
        _ => "could go, with the others marked so",
    };
    let mut finding =
        words::finding(Kind::SurplusWords, headline, first, label).of_clauses(&[clause]);
    let more = judged.surplus.iter().skip(1);
    finding
        .labels
        .extend(more.map(|span| (*span, "could go as well".to_owned())));
    let instead = judged.instead.iter();
    finding
        .labels
        .extend(instead.map(|span| (*span, "could go instead, but not besides".to_owned())));
    let them = if judged.surplus.len() == 1 {
        "it"
    } else {
        "them"
    };
    let why = match turned(inquiry, clause, left) {
        Some((scenario, met)) => {
            finding.scenario = Some(scenario);
            if met {
                format!(
                    "Without {them} the clause would also be met in the scenario shown, but every ruling there stays as it is."
                )
            } else {
                format!(
                    "Without {them} the clause would no longer be met in the scenario shown, but every ruling there stays as it is."
                )
            }
        }
        None => format!("Without {them} the clause is met in the same scenarios."),
    };
    Some(finding.help(format!(
        "{why} Strike the words out, or find out what they were meant to add; keep them if readers need them."
    )))
}

/// A scenario in which the clause is met with the one condition and not with the other, made as
/// ordinary as can be, and whether the new condition is the one that is met.
pub(super) fn turned(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    new: &Condition,
) -> Option<(Scenario, bool)> {
    let ruleset = inquiry.ruleset;
    let edit: Edit = crate::logic::Change::When {
        clause,
        when: new.clone(),
    }
    .into();
    let mut everyone = fixedbitset::FixedBitSet::with_capacity(ruleset.clauses.len());
    everyone.insert_range(..);
    let answer = inquiry.ask_edited(edit.clone(), everyone, |_, world| {
        either(Name::Met(World::Actual, clause), Name::Met(world, clause))
    });
    let Answer::Yes(scenario) = answer else {
        return None;
    };
    let met = |scenario: &Scenario| {
        let now = Evaluator::new(ruleset).outcome(scenario);
        let then = Evaluator::edited(ruleset, &edit).outcome(scenario);
        let met = |outcome: &crate::logic::Outcome| outcome.met.contains(clause.index());
        (met(&now), met(&then))
    };
    let scenario = witness::make_ordinary(ruleset, scenario, |scenario| {
        let (now, then) = met(scenario);
        now != then
    });
    let (_, then) = met(&scenario);
    Some((scenario, then))
}
