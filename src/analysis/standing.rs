//! What a clause comes to: impossible, displaced, without effect, or in order.
//!
//! Three questions of one clause, asked in an order in which one answer often settles all of them.
//! How a finding is worded is not known here.

use super::inquiry::Inquiry;
use super::seen::{self, Seen};
use super::{displaced, impossible, no_effect};
use crate::logic::{Formula, Scenario};
use crate::model::{ClauseId, Kind};
use crate::solve::{Answer, Reason};

/// What a clause comes to.
#[derive(Clone, Debug)]
pub(super) enum Standing {
    Fine,
    Impossible,
    /// Never counts; a scenario in which it is met.
    Displaced(Scenario),
    /// Changes nothing; a scenario in which it counts.
    NoEffect(Scenario),
    /// It would be said to be of this kind, but where a ruling that it reads is at fault it may be met.
    Untold(Kind),
    /// The first question that stayed open.
    Open(Kind, Reason),
}

impl Standing {
    /// Looks into one clause. Of a clause that may only be unmet because of another fault, nothing is
    /// said.
    pub(super) fn of(
        inquiry: &mut Inquiry<'_, '_>,
        clause: ClauseId,
        seen: &Seen,
        wanted: (bool, bool),
    ) -> Standing {
        if let Some(standing) = inquiry.precedent().and_then(|it| it.standing(clause)) {
            return standing;
        }
        let standing = Standing::as_it_stands(inquiry, clause, seen, wanted);
        let kind = match &standing {
            Standing::Fine | Standing::Untold(_) | Standing::Open(..) => return standing,
            Standing::Impossible => Kind::Impossible,
            Standing::Displaced(_) => Kind::Displaced,
            Standing::NoEffect(_) => Kind::NoEffect,
        };
        match inquiry.unmet_by_a_fault(clause) {
            Formula::False => standing,
            unmet => match inquiry.ask(&unmet) {
                Answer::Yes(_) => Standing::Untold(kind),
                Answer::No => standing,
                Answer::Undecided(reason) => Standing::Open(kind, reason),
            },
        }
    }

    fn as_it_stands(
        inquiry: &mut Inquiry<'_, '_>,
        clause: ClauseId,
        seen: &Seen,
        wanted: (bool, bool),
    ) -> Standing {
        let (wants_displaced, wants_no_effect) = wanted;
        let mut counts = seen.counts.clone();
        let mut met = seen.met.clone();
        let mut effect_open = None;
        let mut matters = false;
        if met.is_some() && !wants_displaced && !wants_no_effect {
            return Standing::Fine;
        }
        // The last question first: where the clause matters by its own ruling, it settles all three. It
        // may also matter with no ruling that ever stands, for what is displaced still displaces.
        if wants_no_effect {
            let question = no_effect::question(inquiry, clause);
            match inquiry.ask_among(inquiry.met_beside(clause), &question) {
                Answer::Yes(scenario) => {
                    let shown = counts.is_some()
                        || seen::counts(inquiry, clause, &inquiry.outcome(&scenario));
                    if shown || !wants_displaced {
                        return Standing::Fine;
                    }
                    matters = true;
                    met.get_or_insert(scenario);
                }
                Answer::No => {}
                Answer::Undecided(reason) => effect_open = Some(reason),
            }
        }
        if counts.is_none() && (wants_displaced || wants_no_effect) {
            match inquiry.ask(&displaced::question(inquiry, clause)) {
                Answer::Yes(scenario) => counts = Some(scenario),
                Answer::No => {}
                Answer::Undecided(reason) if met.is_some() => {
                    return Standing::Open(Kind::Displaced, reason);
                }
                Answer::Undecided(reason) => return Standing::Open(Kind::Impossible, reason),
            }
        }
        if let Some(scenario) = counts {
            return match effect_open {
                Some(reason) => Standing::Open(Kind::NoEffect, reason),
                None if wants_no_effect && !matters => Standing::NoEffect(scenario),
                None => Standing::Fine,
            };
        }
        if met.is_none() {
            match inquiry.ask(&impossible::question(clause)) {
                Answer::Yes(scenario) => met = Some(scenario),
                Answer::No => return Standing::Impossible,
                Answer::Undecided(reason) => return Standing::Open(Kind::Impossible, reason),
            }
        }
        match met {
            Some(scenario) if wants_displaced => Standing::Displaced(scenario),
            _ => Standing::Fine,
        }
    }
}
