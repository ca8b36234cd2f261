//! For each clause, scenarios in which it does something: the other side of "no clause is impossible,
//! displaced or without effect".

use super::check::{Options, with_stack};
use super::inquiry::{self, Inquiry};
use super::{displaced, impossible, no_effect, seen};
use crate::logic::Scenario;
use crate::model::{ClauseId, Ruleset};
use crate::solve::{Answer, Reason};

/// What one clause does somewhere.
#[derive(Clone, Debug)]
pub struct Instance {
    /// A scenario in which it is met.
    pub met: Deed,
    /// A scenario in which a ruling of it stands; of a clause without rulings, in which it is in force.
    pub counts: Deed,
    /// A scenario in which some announced ruling would be another without it.
    pub matters: Deed,
}

/// Whether a clause does something.
#[derive(Clone, Debug)]
pub enum Deed {
    /// It does, here.
    Here(Scenario),
    /// It does nowhere.
    Nowhere,
    /// That stayed open.
    Open(Reason),
}

impl Deed {
    fn of(known: Option<&Scenario>, ask: impl FnOnce() -> Answer) -> Deed {
        match known {
            Some(scenario) => Deed::Here(scenario.clone()),
            None => match ask() {
                Answer::Yes(scenario) => Deed::Here(scenario),
                Answer::No => Deed::Nowhere,
                Answer::Undecided(reason) => Deed::Open(reason),
            },
        }
    }
}

/// What every clause does, in the order of the file.
pub fn instances(ruleset: &Ruleset, options: &Options<'_>) -> Vec<Instance> {
    with_stack(|| {
        let reach = inquiry::reach(ruleset);
        let mut inquiry = Inquiry::new(ruleset, &reach, options.budget.clone(), options.method);
        let clauses = (0..ruleset.clauses.len()).map(ClauseId::new);
        options
            .progress
            .stage("what each clause does", ruleset.clauses.len());
        clauses
            .map(|clause| {
                options.progress.advance(1);
                instance(&mut inquiry, clause)
            })
            .collect()
    })
}

fn instance(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId) -> Instance {
    let seen = match inquiry.exhausted() {
        Some(_) => seen::Seen::default(),
        None => seen::look(inquiry, clause),
    };
    let matters = Deed::of(seen.matters.as_ref(), || {
        let question = no_effect::question(inquiry, clause);
        inquiry.ask_among(inquiry.met_beside(clause), &question)
    });
    let counts = seen.counts.as_ref().or(seen.matters.as_ref());
    let counts = Deed::of(counts, || {
        inquiry.ask(&displaced::question(inquiry, clause))
    });
    let met = Deed::of(seen.met.as_ref().or(seen.matters.as_ref()), || {
        inquiry.ask(&impossible::question(clause))
    });
    Instance {
        met,
        counts,
        matters,
    }
}
