//! Questions of a check as formulas, for whoever asks them once more: those about two scenarios, and
//! those about a ruleset with a small change.
//!
//! How a check settles them is not known here.

use super::claim::Claim;
use super::{changes, idle_exception, judgement, parts, principle};
use crate::logic::{Change, Edit, Formula, Name, Pairing, Theory, Twin, World};
use crate::model::{AttributeId, ClauseId, DimensionId, Principle, Promise, Ruleset};
use std::collections::BTreeSet;

/// What is against something.
#[derive(Clone, Debug)]
pub enum Against {
    /// A scenario in which this holds.
    One(Formula),
    /// A pair: a scenario of the twin in which this holds.
    Two(Box<Twin>, Formula),
}

/// What an official judges: judged attributes, and the readings of vague terms, in their order.
pub fn judged(ruleset: &Ruleset) -> Vec<AttributeId> {
    judgement::judged(ruleset)
}

/// The pairs that differ only in how these are judged or read, and in an announced ruling.
pub fn turns_on(ruleset: &Ruleset, judged: &BTreeSet<AttributeId>) -> (Twin, Formula) {
    let claim = Claim::same_rulings(ruleset, Pairing::changing(ruleset, judged.clone()));
    let question = claim.question();
    (claim.twin, question)
}

/// The same as scenarios of a twin in which more may differ; these agree.
pub fn turns_on_within(ruleset: &Ruleset, twin: &Twin, judged: &BTreeSet<AttributeId>) -> Formula {
    let own = Claim::same_rulings(ruleset, twin.pairing().clone());
    let others = twin.pairing().touched().into_iter();
    let others = others.filter(|id| !judged.contains(id));
    let agree = others.map(|id| twin.agree_on(id));
    Formula::all(agree.chain([own.question()]))
}

/// What is against a principle; `None` where discretion leaves too many choices to tell.
pub fn breaks(ruleset: &Ruleset, principle: &Principle) -> Option<Against> {
    if let Promise::Expect { whenever, expect } = &principle.promise {
        return principle::against(ruleset, whenever, expect).map(Against::One);
    }
    let claim = principle::claim(ruleset, &principle.promise)?;
    let question = claim.question();
    Some(Against::Two(Box::new(claim.twin), question))
}

/// The ruleset without a part of a clause's condition, told by the way to it.
pub fn without_part(ruleset: &Ruleset, clause: ClauseId, path: &[usize]) -> Edit {
    let gone = BTreeSet::from([path.to_vec()]);
    let when = parts::without(&ruleset[clause].when, &gone);
    Change::When { clause, when }.into()
}

/// What turns on a change of the rules, in its pieces: something holds, and an announced ruling is
/// another or something beside that holds.
#[derive(Clone, Debug)]
pub struct Turning {
    /// The ruleset with the change.
    pub world: World,
    /// What holds.
    pub within: Formula,
    /// The announced dimensions that the change can touch.
    pub dimensions: Vec<DimensionId>,
    /// What holds beside another ruling.
    pub beside: Formula,
}

impl Turning {
    fn of(theory: &Theory<'_>, world: World, within: Formula, beside: Formula) -> Turning {
        Turning {
            world,
            within,
            dimensions: changes::concerned(theory, world).collect(),
            beside,
        }
    }

    /// What turns on a clause's having another condition in a world.
    pub fn on_condition(theory: &Theory<'_>, clause: ClauseId, world: World) -> Turning {
        let (now, then) = (Name::Met(World::Actual, clause), Name::Met(world, clause));
        let beside = changes::overridden(theory.ruleset(), clause, world);
        Turning::of(theory, world, changes::either(now, then), beside)
    }

    /// What turns on one of a clause's references, which a world does without: only what is so where
    /// the clause is in force.
    pub fn on_reference(theory: &Theory<'_>, clause: ClauseId, world: World) -> Turning {
        let in_force = Name::InForce(World::Actual, clause).into();
        Turning::of(theory, world, in_force, Formula::False)
    }

    /// What turns on a clause: only what is so where it is met.
    pub fn on_clause(theory: &Theory<'_>, clause: ClauseId) -> Turning {
        let met = Name::Met(World::Actual, clause).into();
        Turning::of(theory, World::Without(clause), met, Formula::False)
    }

    /// All in one.
    pub fn formula(&self, theory: &Theory<'_>) -> Formula {
        let ruleset = theory.ruleset();
        let dimensions = self.dimensions.iter();
        let differ = dimensions.map(|on| changes::ruling_differs(ruleset, *on, self.world));
        let turns = Formula::any(differ.chain([self.beside.clone()]));
        Formula::all([self.within.clone(), turns])
    }
}

/// The ruleset without one of a clause's references; `None` where there is no such reference.
pub fn without_reference(ruleset: &Ruleset, clause: ClauseId, index: usize) -> Option<Edit> {
    let reference = ruleset[clause].references.get(index)?;
    Some(idle_exception::edit(clause, reference))
}
