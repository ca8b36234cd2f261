//! For each clause, scenarios in which it does something: the other side of "no clause is impossible,
//! displaced or without effect".

use super::check::{Options, with_stack};
use super::inquiry::{self, Inquiry};
use super::parts::Part;
use super::seen::Seen;
use super::surplus_words::{self, Singly};
use super::{displaced, idle_exception, impossible, no_effect, seen};
use crate::logic::Scenario;
use crate::model::{ClauseId, Ruleset};
use crate::solve::{Answer, Reason};
use fixedbitset::FixedBitSet;

/// What one clause does somewhere.
#[derive(Clone, Debug)]
pub struct Instance {
    /// A scenario in which it is met.
    pub met: Deed,
    /// A scenario in which a ruling of it stands; of a clause without rulings, in which it is in force.
    pub counts: Deed,
    /// A scenario in which some announced ruling would be another without it.
    pub matters: Deed,
    /// What turns on its words; nothing is looked at of a clause that never counts or does not matter.
    pub words: Words,
}

/// What turns on the words of a clause.
#[derive(Clone, Debug, Default)]
pub struct Words {
    /// Its exception: the way to it in the condition, and a scenario in which something turns on it.
    pub unless: Option<(Vec<usize>, Deed)>,
    /// The parts of its condition, and those of the exception if something turns on that; within those on
    /// which something turns, their parts as well.
    pub parts: Vec<(Vec<usize>, Deed)>,
    /// Its references to other clauses, in their order; `None` where no clause that is meant matters.
    pub references: Vec<Option<Deed>>,
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
            None => ask().into(),
        }
    }
}

impl From<Answer> for Deed {
    fn from(answer: Answer) -> Deed {
        match answer {
            Answer::Yes(scenario) => Deed::Here(scenario),
            Answer::No => Deed::Nowhere,
            Answer::Undecided(reason) => Deed::Open(reason),
        }
    }
}

/// What every clause does, in the order of the file.
pub fn instances(ruleset: &Ruleset, options: &Options<'_>) -> Vec<Instance> {
    with_stack(|| {
        let reach = inquiry::reach(ruleset);
        let mut inquiry = Inquiry::new(ruleset, &reach, options.budget.clone(), options.method);
        let clauses: Vec<ClauseId> = (0..ruleset.clauses.len()).map(ClauseId::new).collect();
        options
            .progress
            .stage("what each clause does", ruleset.clauses.len() * 2);
        let mut known: Vec<(Seen, Instance)> = Vec::with_capacity(clauses.len());
        for clause in &clauses {
            options.progress.advance(1);
            let seen = match inquiry.exhausted() {
                Some(_) => Seen::default(),
                None => seen::look(&inquiry, *clause),
            };
            let instance = instance(&mut inquiry, *clause, &seen);
            known.push((seen, instance));
        }
        // What is displaced may still displace others, and so matter.
        let at_work = |(_, instance): &(Seen, Instance)| {
            matches!(
                (&instance.counts, &instance.matters),
                (Deed::Here(_), Deed::Here(_))
            )
        };
        let idle = known.iter().map(|one| !at_work(one));
        let idle: FixedBitSet = idle
            .enumerate()
            .filter_map(|(index, idle)| idle.then_some(index))
            .collect();
        let (seen, mut instances): (Vec<Seen>, Vec<Instance>) = known.into_iter().unzip();
        for (clause, instance) in clauses.into_iter().zip(&mut instances) {
            options.progress.advance(1);
            if !idle.contains(clause.index()) {
                instance.words = words(&mut inquiry, clause, &seen, &idle);
            }
        }
        instances
    })
}

fn words(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    seen: &[Seen],
    idle: &FixedBitSet,
) -> Words {
    let own = seen.get(clause.index()).into_iter();
    let known: Vec<&Scenario> = own
        .flat_map(|seen| seen.matters.iter().chain(&seen.counts))
        .collect();
    let Singly { unless, parts, .. } = surplus_words::singly(inquiry, clause, &known);
    let told = |(part, answer): (Part<'_>, Answer)| (part.path, answer.into());
    let references = inquiry.ruleset[clause].references.iter();
    Words {
        unless: unless.map(told),
        parts: parts.into_iter().map(told).collect(),
        references: references
            .map(|reference| {
                idle_exception::settle(inquiry, clause, reference, seen, idle).map(Deed::from)
            })
            .collect(),
    }
}

fn instance(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId, seen: &Seen) -> Instance {
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
        words: Words::default(),
    }
}
