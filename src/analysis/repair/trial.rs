//! A repair tried on a copy: whether the finding is gone, whether any fault is new, what changes.
//!
//! Everything is asked of the world of one edit, and only where the edit can change something: where
//! it changes nothing, whatever was proved stays proved. A fault is new where a scenario has one in
//! the edited world that it does not have now, or where one comes to be told that is hidden behind
//! another now. What can't be decided counts against the repair.

use super::super::changes::{concerned, either, outcomes, ruling_differs};
use super::super::check;
use super::super::claim::{Claim, announced};
use super::super::inquiry::{self, Inquiry};
use super::super::principle;
use super::super::seen::{self, Seen};
use super::super::{displaced, gap};
use crate::logic::{
    Change, Count, Edit, Formula, Mode, Name, Theory, TooLarge, Unasked, Want, World,
    dimensions_read, is_true,
};
use crate::model::{ClauseId, DimensionId, Kind, Principle, Promise, Ruleset, Step, WhenSeveral};
use crate::solve::Answer;
use fixedbitset::FixedBitSet;
use std::cell::OnceCell;
use std::collections::BTreeSet;

/// Nodes that counting what changes may make.
const WORK: usize = 500_000;

/// What must be gone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Aim {
    /// The rulings of these clauses all standing on the dimension.
    Contradiction(Vec<ClauseId>, DimensionId),
    /// Silence on the dimension where a ruling is due.
    Gap(DimensionId),
    /// The clause itself.
    Clause(ClauseId),
    /// That the clause never counts.
    Idleness(ClauseId),
    /// That the clause would be met with the unasked taken as no.
    Silence(ClauseId),
    /// A narrow reading beyond the broad one; that it is gone was seen from the words.
    Looseness,
}

/// An edit to be tried.
pub(super) struct Trial<'t> {
    pub(super) edit: &'t Edit,
    pub(super) aim: &'t Aim,
    /// The ruleset with the edit made, as it was read.
    pub(super) amended: &'t Ruleset,
    pub(super) now: &'t Now<'t>,
}

/// What is known of the ruleset as it stands.
pub(super) struct Now<'n> {
    /// The ids of the principles that are broken.
    pub(super) broken: BTreeSet<&'n str>,
    /// The clauses that never count and are no finding, since they keep others from counting.
    pub(super) never: Vec<ClauseId>,
    /// What each clause was seen to do.
    pub(super) seen: &'n [Seen],
    /// The clauses that are impossible or displaced, by id, once that was wanted; `None` within where
    /// it stayed open.
    pub(super) idle: OnceCell<Option<BTreeSet<(Kind, String)>>>,
}

impl Trial<'_> {
    /// Whether the edit does what it is for, and no harm.
    pub(super) fn passes(&self, inquiry: &mut Inquiry<'_, '_>) -> bool {
        let among = self.among(inquiry);
        if !self.is_gone(inquiry, &among) {
            return false;
        }
        let touched = touched(inquiry, self.edit);
        self.no_new_contradiction(inquiry, &among, &touched)
            && self.no_new_gap(inquiry, &among, &touched)
            && self.no_newly_idle(inquiry, &touched)
            && self.no_newly_broken(inquiry, &among, &touched)
    }

    /// Whether there is no scenario in the region of the edit in which something holds.
    fn none(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        among: &FixedBitSet,
        question: impl FnOnce(&Theory<'_>, World) -> Formula,
    ) -> bool {
        let edit = self.edit;
        let answer = inquiry.ask_edited(edit.clone(), among.clone(), |theory, world| {
            Formula::all([region(edit, world), question(theory, world)])
        });
        answer == Answer::No
    }

    /// The clauses that can be met where the edit changes something.
    fn among(&self, inquiry: &Inquiry<'_, '_>) -> FixedBitSet {
        let ruleset = inquiry.ruleset;
        let mut among = FixedBitSet::with_capacity(ruleset.clauses.len());
        for change in &self.edit.changes {
            let whens = match change {
                Change::When { clause, when } => {
                    among.insert(clause.index());
                    vec![&ruleset[*clause].when, when]
                }
                // Met in either world: the edited conditions of these clauses have their own place.
                Change::Loses { first, .. } | Change::Prevails { first, .. } => {
                    vec![&ruleset[*first].when]
                }
                Change::Speaks { when, .. } => vec![when],
            };
            for when in whens {
                let within = inquiry.reach.box_of(when, Want::True);
                among.union_with(&inquiry.reach.meeting(&within));
            }
        }
        among
    }

    fn is_gone(&self, inquiry: &mut Inquiry<'_, '_>, among: &FixedBitSet) -> bool {
        match self.aim {
            Aim::Clause(_) | Aim::Looseness => true,
            Aim::Contradiction(clauses, dimension) => {
                let stand = |world: World| {
                    let clauses = clauses.iter();
                    let stands = move |clause: &ClauseId| {
                        Formula::from(Name::Stands(world, *clause, *dimension))
                    };
                    Formula::all(clauses.map(stands))
                };
                // Where the edit changes nothing, the finding must not be either.
                let beside = clauses.first().map(|clause| self.beside(inquiry, *clause));
                self.none(inquiry, among, |_, world| stand(world))
                    && self.only_in_region(
                        inquiry,
                        beside.unwrap_or_default(),
                        &stand(World::Actual),
                    )
            }
            Aim::Gap(dimension) => {
                let told = gap::question(inquiry, *dimension);
                let hidden = inquiry.silenced_by_a_fault(*dimension).negated();
                self.none(inquiry, among, |_, world| {
                    Formula::all([Name::Gap(world, *dimension).into(), hidden])
                }) && self.only_in_region(inquiry, everyone(inquiry.ruleset), &told)
            }
            Aim::Idleness(clause) => {
                let clause = *clause;
                let counts = displaced::question(inquiry, clause);
                let beside = self.beside(inquiry, clause);
                let answer = inquiry
                    .ask_edited(self.edit.clone(), beside, |_, world| counts.in_world(world));
                matches!(answer, Answer::Yes(_))
            }
            Aim::Silence(clause) => {
                let clause = *clause;
                let when = self.edit.when(clause);
                let when = when.unwrap_or(&inquiry.ruleset[clause].when);
                let everyone = everyone(inquiry.ruleset);
                let answer = inquiry.ask_edited(self.edit.clone(), everyone, |_, world| {
                    let taken_as_no = Mode {
                        world,
                        unasked: Unasked::TakenAsNo,
                    };
                    let met = Formula::from(Name::Met(world, clause));
                    Formula::all([is_true(when, taken_as_no), met.negated()])
                });
                answer == Answer::No
            }
        }
    }

    /// The clauses that can be met where this one is, in either world.
    fn beside(&self, inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> FixedBitSet {
        let mut beside = inquiry.met_beside(clause);
        if self.edit.when(clause).is_some() {
            beside.union_with(&self.among(inquiry));
        }
        beside.extend(self.edit.clauses().map(ClauseId::index));
        beside
    }

    /// Whether something that holds as the ruleset stands, where no clause but these is met, holds in
    /// the region of the edit alone.
    fn only_in_region(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        among: FixedBitSet,
        formula: &Formula,
    ) -> bool {
        let edit = self.edit;
        let answer = inquiry.ask_edited(edit.clone(), among, |_, world| {
            Formula::all([formula.clone(), region(edit, world).negated()])
        });
        answer == Answer::No
    }

    fn no_new_contradiction(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        among: &FixedBitSet,
        touched: &Touched,
    ) -> bool {
        let ruleset = inquiry.ruleset;
        touched.dimensions.iter().all(|on| {
            if ruleset[*on].when_several != WhenSeveral::MustAgree {
                return true;
            }
            let clash = |world| Formula::from(Name::Clash(world, *on));
            if self.none(inquiry, among, |_, world| clash(world)) {
                return true;
            }
            // A clash that is there now is no new one, unless a clause has come to it or it was hidden.
            let speakers = inquiry.theory.speakers(*on).to_vec();
            let faults = unsound_read(inquiry, &speakers, touched);
            self.none(inquiry, among, |_, world| {
                let stands = |world, clause| Formula::from(Name::Stands(world, clause, *on));
                let newly = speakers
                    .iter()
                    .filter(|clause| touched.clauses.contains(clause.index()))
                    .map(|clause| {
                        Formula::all([
                            stands(world, *clause),
                            stands(World::Actual, *clause).negated(),
                        ])
                    });
                let added = self.edit.speaks(*on).map(|(when, _)| {
                    let mode = Mode {
                        world,
                        unasked: Unasked::Neither,
                    };
                    is_true(when, mode)
                });
                let bared = faults.iter().map(|fault| mended(*fault, world));
                let newly = Formula::any(newly.chain(added).chain(bared));
                Formula::all([clash(world), newly])
            })
        })
    }

    fn no_new_gap(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        among: &FixedBitSet,
        touched: &Touched,
    ) -> bool {
        let ruleset = inquiry.ruleset;
        let mut possible = touched
            .dimensions
            .iter()
            .filter(|on| gap::possible(ruleset, **on));
        possible.all(|on| {
            let speakers = inquiry.theory.speakers(*on).to_vec();
            let faults = unsound_read(inquiry, &speakers, touched);
            let hidden = inquiry.silenced_by_a_fault(*on);
            self.none(inquiry, among, |_, world| {
                let bared = Formula::any(faults.iter().map(|fault| mended(*fault, world)));
                let now = Formula::from(Name::Gap(World::Actual, *on));
                Formula::all([
                    Name::Gap(world, *on).into(),
                    Formula::any([now.negated(), Formula::all([hidden, bared])]),
                ])
            })
        })
    }

    /// No clause is impossible or displaced that is not so now.
    fn no_newly_idle(&self, inquiry: &mut Inquiry<'_, '_>, touched: &Touched) -> bool {
        let edit = self.edit;
        // What such a clause does to others may be gone though the clause itself is not touched.
        let mut idle = self.now.never.iter().filter(|clause| {
            let mut steps = touched.steps();
            steps.any(|step| inquiry.theory.follows(step, Step::Clause(**clause)))
        });
        if idle.next().is_some() {
            return self.none_newly_idle_when_read(inquiry);
        }
        let clauses: Vec<ClauseId> = touched.clauses.ones().map(ClauseId::new).collect();
        let all_count = clauses.into_iter().all(|clause| {
            if matches!(self.aim, Aim::Clause(gone) if *gone == clause) {
                return true;
            }
            let seen = self.now.seen.get(clause.index());
            if let Some(scenario) = seen.and_then(|seen| seen.counts.as_ref()) {
                let (_, edited) = outcomes(inquiry, edit, scenario);
                if seen::counts(inquiry, clause, &edited) {
                    return true;
                }
            }
            let counts = displaced::question(inquiry, clause);
            let beside = self.beside(inquiry, clause);
            let elsewhere = inquiry.ask_edited(edit.clone(), beside.clone(), |_, world| {
                Formula::all([counts.clone(), region(edit, world).negated()])
            });
            if matches!(elsewhere, Answer::Yes(_)) {
                return true;
            }
            let then = inquiry.ask_edited(edit.clone(), beside, |_, world| counts.in_world(world));
            matches!(then, Answer::Yes(_))
        });
        all_count || self.none_newly_idle_when_read(inquiry)
    }

    /// The same, asked of both rulesets as they are read.
    fn none_newly_idle_when_read(&self, inquiry: &Inquiry<'_, '_>) -> bool {
        let idle = |ruleset| check::idle(ruleset, inquiry.budget().clone());
        let now = self.now.idle.get_or_init(|| idle(inquiry.ruleset));
        match (now, idle(self.amended)) {
            (Some(now), Some(then)) => then.is_subset(now),
            _ => false,
        }
    }

    fn no_newly_broken(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        among: &FixedBitSet,
        touched: &Touched,
    ) -> bool {
        let principles = inquiry.ruleset.principles.iter();
        let kept = principles.filter(|it| !self.now.broken.contains(it.id.as_str()));
        kept.into_iter()
            .all(|principle| self.is_kept(inquiry, among, touched, principle))
    }

    fn is_kept(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        among: &FixedBitSet,
        touched: &Touched,
        principle: &Principle,
    ) -> bool {
        let ruleset = inquiry.ruleset;
        let about = principle::dimensions(ruleset, principle);
        let mut turned = about.into_iter().filter(|on| {
            touched.dimensions.contains(on)
                && !self.none(inquiry, among, |theory, world| {
                    ruling_differs(theory.ruleset(), *on, world)
                })
        });
        if turned.next().is_none() {
            return true;
        }
        if let Promise::Expect { whenever, expect } = &principle.promise {
            let against = principle::against(ruleset, whenever, expect);
            return against.is_some_and(|against| {
                self.none(inquiry, among, |_, world| against.in_world(world))
            });
        }
        principle::claim(ruleset, &principle.promise).is_none_or(|claim| {
            let kept = self.holds(inquiry, &claim, touched);
            kept.unwrap_or_else(|| self.holds_when_read(inquiry, principle))
        })
    }

    /// Whether a claim about pairs holds in the edited world, by diagrams; `None` where these can't
    /// tell.
    fn holds(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        claim: &Claim,
        touched: &Touched,
    ) -> Option<bool> {
        // Of a dimension that rests on nothing which differs within a pair the claim does not speak;
        // with the edit made it may.
        let known = claim.dimensions(inquiry.ruleset);
        let mut all = announced(inquiry.ruleset).filter(|on| touched.dimensions.contains(on));
        if claim.holds_by_form() || all.any(|on| !known.contains(&on)) {
            return None;
        }
        inquiry.with_edited(self.edit.clone(), |diagrams, world| {
            if !diagrams.is_prepared() {
                return Err(TooLarge);
            }
            let firsts = claim.clone().in_world(world).firsts(diagrams)?;
            Ok(firsts.all.is_false())
        })
    }

    /// Whether the principle is kept by the amended ruleset, asked of that ruleset anew.
    fn holds_when_read(&self, inquiry: &Inquiry<'_, '_>, principle: &Principle) -> bool {
        let mut principles = self.amended.principles.iter();
        let Some(same) = principles.find(|it| it.id == principle.id) else {
            return false;
        };
        let reach = inquiry::reach(self.amended);
        let mut anew = inquiry.anew(self.amended, &reach);
        principle::is_kept(&mut anew, same)
    }

    /// How many scenarios change their ruling, where that can be counted.
    pub(super) fn changed(&self, inquiry: &mut Inquiry<'_, '_>) -> Option<Count> {
        let edit = self.edit;
        inquiry.with_edited(edit.clone(), |diagrams, world| {
            diagrams.allow(WORK);
            let theory = diagrams.theory();
            let ruleset = theory.ruleset();
            let announced = concerned(theory, world);
            let differ = Formula::any(announced.map(|on| ruling_differs(ruleset, on, world)));
            let set = diagrams.set(&Formula::all([region(edit, world), differ]))?;
            let scenarios = diagrams.count(&set)?;
            Ok(Count {
                scenarios,
                exact: true,
            })
        })
    }
}

/// The steps that an edit can change.
struct Touched {
    clauses: FixedBitSet,
    dimensions: Vec<DimensionId>,
}

impl Touched {
    fn steps(&self) -> impl Iterator<Item = Step> {
        let clauses = self.clauses.ones().map(ClauseId::new).map(Step::Clause);
        clauses.chain(self.dimensions.iter().copied().map(Step::Dimension))
    }
}

fn touched(inquiry: &Inquiry<'_, '_>, edit: &Edit) -> Touched {
    let ruleset = inquiry.ruleset;
    let follows = |step| {
        let mut origins = edit.origins();
        origins.any(|origin| inquiry.theory.follows(step, origin))
    };
    let dimensions = (0..ruleset.dimensions.len()).map(DimensionId::new);
    let mut clauses = FixedBitSet::with_capacity(ruleset.clauses.len());
    let all = (0..ruleset.clauses.len()).map(ClauseId::new);
    clauses.extend(
        all.filter(|clause| follows(Step::Clause(*clause)))
            .map(ClauseId::index),
    );
    Touched {
        clauses,
        dimensions: dimensions
            .filter(|dimension| follows(Step::Dimension(*dimension)))
            .collect(),
    }
}

/// Where an edit changes something directly. Wherever none of its changes does, every ruling is as it
/// was.
fn region(edit: &Edit, world: World) -> Formula {
    let mode = Mode {
        world,
        unasked: Unasked::Neither,
    };
    let met = |clause: ClauseId| {
        let met = |world| Formula::from(Name::Met(world, clause));
        if edit.when(clause).is_some() {
            Formula::any([met(World::Actual), met(world)])
        } else {
            met(World::Actual)
        }
    };
    Formula::any(edit.changes.iter().map(|change| match change {
        Change::When { clause, .. } => {
            either(Name::Met(World::Actual, *clause), Name::Met(world, *clause))
        }
        Change::Loses { first, then, .. } | Change::Prevails { first, then } => {
            Formula::all([met(*first), met(*then)])
        }
        Change::Speaks { when, .. } => is_true(when, mode),
    }))
}

/// The dimensions that clauses read, that may be at fault now, and that an edit touches.
fn unsound_read(
    inquiry: &Inquiry<'_, '_>,
    clauses: &[ClauseId],
    touched: &Touched,
) -> BTreeSet<DimensionId> {
    let read = clauses
        .iter()
        .flat_map(|clause| dimensions_read(&inquiry.ruleset[*clause].when));
    read.filter(|on| !inquiry.sound.contains(on) && touched.dimensions.contains(on))
        .collect()
}

/// Where a dimension is at fault now and no longer is in a world.
fn mended(on: DimensionId, world: World) -> Formula {
    let faulty =
        |world| Formula::any([Name::Gap(world, on), Name::Clash(world, on)].map(Formula::from));
    Formula::all([faulty(World::Actual), faulty(world).negated()])
}

fn everyone(ruleset: &Ruleset) -> FixedBitSet {
    let mut all = FixedBitSet::with_capacity(ruleset.clauses.len());
    all.insert_range(..);
    all
}
