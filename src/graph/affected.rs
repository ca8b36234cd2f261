//! What a thing can change, of all that rests on it.
//!
//! The question: are there two incidents that differ in nothing but how the thing comes out, and in
//! which something that rests on it does not come out the same? How a thing comes out is, of an
//! attribute its value; of a clause whether it stands in the book; of a term whether it holds, whatever
//! the facts; of a quantity which amount it is; of a dimension which ruling its readers read. So "never"
//! is a promise: no repeal of the clause, no other definition of the term, no other amount changes it.

use super::dependents::Dependent;
use super::effect::{otherwise, speaks_of};
use super::network::{Graph, NodeId, Thing};
use super::vary::{Varied, vary};
use crate::amendment::Asking;
use crate::analysis::Progress;
use crate::cases::Case;
use crate::logic::{Formula, Pairing, Replay, Scenario, Twin};
use crate::model::{ClauseId, Ruleset};
use crate::solve::{Answer, Budget, Reason};
use fixedbitset::FixedBitSet;

/// What rests on some things, and what they can change of it.
#[derive(Debug)]
pub struct Affected<'g> {
    /// The things, which come out otherwise all at once.
    pub things: Vec<NodeId>,
    /// What rests on them, the nearest first.
    pub dependents: Vec<Effect<'g>>,
    /// The ruleset of which the incidents shown are scenarios: how a thing comes out is one of its
    /// attributes, called as the thing is.
    pub space: Ruleset,
}

/// What things can change of something that rests on them.
#[derive(Debug)]
pub struct Effect<'g> {
    /// What rests on them, and how.
    pub dependent: Dependent<'g>,
    /// Whether it can change.
    pub change: Change,
}

/// Whether something can change.
#[derive(Debug, PartialEq, Eq)]
pub enum Change {
    /// It can: the two incidents show it.
    Shown(Box<[Scenario; 2]>),
    /// It can, since it speaks of the thing itself.
    BySpeakingOfIt,
    /// It never does, which is proved.
    Never,
    /// Neither could be shown.
    Undecided(Reason),
}

impl Affected<'_> {
    /// Whether something stayed open.
    pub fn is_open(&self) -> bool {
        let mut all = self.dependents.iter();
        all.any(|effect| matches!(effect.change, Change::Undecided(_)))
    }
}

/// Finds out what some things can change. `cases` are those of the graph.
pub fn affected<'g>(
    ruleset: &Ruleset,
    graph: &'g Graph,
    cases: &[Case],
    things: &[NodeId],
    budget: &Budget,
    progress: &dyn Progress,
) -> Affected<'g> {
    let dependents = graph.dependents(things);
    let named: Vec<(Thing, String)> = things
        .iter()
        .filter_map(|id| graph.node(*id))
        .map(|node| (node.thing, node.to_string()))
        .collect();
    let varied = vary(ruleset, &named);
    progress.stage("what may change", dependents.len());
    let (changes, space) = match &varied {
        Err(reason) => {
            let open = dependents.iter();
            let open = open.map(|_| Change::Undecided(reason.clone())).collect();
            (open, ruleset.clone())
        }
        Ok(varied) => {
            let of: Vec<Thing> = dependents
                .iter()
                .filter_map(|it| graph.node(it.node))
                .map(|node| node.thing)
                .collect();
            let asked = Questions {
                base: ruleset,
                varied,
                origins: &named,
                cases,
                budget,
            };
            (asked.settle(&of, progress), varied.ruleset.clone())
        }
    };
    Affected {
        things: things.to_vec(),
        dependents: dependents
            .into_iter()
            .zip(changes)
            .map(|(dependent, change)| Effect { dependent, change })
            .collect(),
        space,
    }
}

struct Questions<'a> {
    base: &'a Ruleset,
    varied: &'a Varied,
    origins: &'a [(Thing, String)],
    cases: &'a [Case],
    budget: &'a Budget,
}

impl Questions<'_> {
    /// Settles each thing; an incident that shows one is held against all others too.
    fn settle(&self, of: &[Thing], progress: &dyn Progress) -> Vec<Change> {
        let ruleset = &self.varied.ruleset;
        let pairing = Pairing::changing(ruleset, self.varied.changing.clone());
        let twin = Twin::new(ruleset, pairing);
        let asking = Asking::new(twin.ruleset(), self.budget.clone());
        let questions: Vec<Formula> = of
            .iter()
            .map(|thing| {
                let otherwise = otherwise(&twin, ruleset, *thing, self.cases);
                Formula::all([twin.related(), otherwise])
            })
            .collect();
        let mut settled: Vec<Option<Change>> =
            of.iter().map(|thing| self.by_what_it_is(*thing)).collect();
        for (index, thing) in of.iter().enumerate() {
            progress.advance(1);
            if settled.get(index).is_none_or(Option::is_some) {
                continue;
            }
            let Some(question) = questions.get(index) else {
                continue;
            };
            let answer = match thing {
                Thing::Background(line) => self.ask_of_line(*line),
                Thing::Clause(clause) => {
                    asking.ask(&met_beside_either(&asking, &twin, *clause), question)
                }
                _ => asking.ask(&asking.everyone(), question),
            };
            let change = match answer {
                Answer::No => Change::Never,
                Answer::Undecided(reason) => Change::Undecided(reason),
                Answer::Yes(pair) => {
                    if !matches!(thing, Thing::Background(_)) {
                        let replay = Replay::new(twin.ruleset(), &pair);
                        for (slot, other) in settled.iter_mut().zip(&questions) {
                            if slot.is_none() && replay.holds(other) {
                                let (first, second) = twin.split(&pair);
                                *slot = Some(Change::Shown(Box::new([first, second])));
                            }
                        }
                    }
                    let (first, second) = twin.split(&pair);
                    Change::Shown(Box::new([first, second]))
                }
            };
            if let Some(slot) = settled.get_mut(index) {
                *slot = Some(change);
            }
        }
        let settled = settled.into_iter();
        settled
            .map(|change| change.unwrap_or(Change::Never))
            .collect()
    }

    /// What speaks of the ruling that is asked about changes with it.
    fn by_what_it_is(&self, thing: Thing) -> Option<Change> {
        let speaks = self.origins.iter().any(|(origin, _)| match origin {
            Thing::Dimension(on) => speaks_of(self.base, thing, *on, self.cases),
            _ => false,
        });
        speaks.then_some(Change::BySpeakingOfIt)
    }

    /// Whether a background line holds turns on the things: asked where nothing else but that line
    /// bounds what can happen less.
    fn ask_of_line(&self, line: usize) -> Answer {
        let mut unbound = self.varied.ruleset.clone();
        unbound.background.remove(line);
        let pairing = Pairing::changing(&unbound, self.varied.changing.clone());
        let twin = Twin::new(&unbound, pairing);
        let asking = Asking::new(twin.ruleset(), self.budget.clone());
        let thing = Thing::Background(line);
        let otherwise = otherwise(&twin, &self.varied.ruleset, thing, &[]);
        let question = Formula::all([twin.related(), otherwise]);
        asking.ask_solver(&asking.everyone(), &question)
    }
}

/// The clauses that can be met where this one is, in either scenario.
fn met_beside_either(asking: &Asking<'_>, twin: &Twin, clause: ClauseId) -> FixedBitSet {
    let mut among = asking.met_beside(clause);
    among.union_with(&asking.met_beside(twin.second_clause(clause)));
    among
}
