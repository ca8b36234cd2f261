//! What a small change of a ruleset would change: is there a scenario whose announced rulings differ?
//!
//! Most changes show at once in a scenario that is close to one already known, moved just across what
//! was changed; such a scenario is evaluated with and without the change, which costs little. Only
//! where none was found the solver is asked, over the two rulesets at once.

use super::asked::Turning;
use super::inquiry::Inquiry;
use super::seen;
use super::witness::Trial;
use crate::logic::{
    Edit, Evaluator, Formula, Name, Outcome, Scenario, Theory, Want, World, is_valid,
};
use crate::model::{ClauseId, Condition, DimensionId, Ruleset, Step};
use crate::solve::Answer;
use fixedbitset::FixedBitSet;

/// Conditions that should hold, or not hold, together.
pub(super) type Wanted<'c> = Vec<(&'c Condition, Want)>;

/// What the ruleset says about a scenario as it stands, and with the edit made.
pub(super) fn outcomes(
    inquiry: &Inquiry<'_, '_>,
    edit: &Edit,
    scenario: &Scenario,
) -> (Outcome, Outcome) {
    (
        inquiry.outcome(scenario),
        inquiry
            .reach
            .outcome(Evaluator::edited(inquiry.ruleset, edit), scenario),
    )
}

/// Whether some announced ruling of the scenario is another with the edit made.
pub(super) fn differs(inquiry: &Inquiry<'_, '_>, edit: &Edit, scenario: &Scenario) -> bool {
    let (as_it_stands, edited) = outcomes(inquiry, edit, scenario);
    !as_it_stands.announces_the_same(&edited, inquiry.ruleset)
}

/// Looks without the solver for a scenario that `counts`, given what is said there as the ruleset
/// stands and with the edit made: within `wanted`, moving out of the way of what keeps `clause` from
/// counting.
pub(super) fn search(
    inquiry: &Inquiry<'_, '_>,
    edit: &Edit,
    clause: ClauseId,
    wanted: &[(&Condition, Want)],
    counts: &dyn Fn(&Outcome, &Outcome) -> bool,
) -> Option<Scenario> {
    inquiry.search_as(wanted, |scenario, outcome| {
        let evaluator = Evaluator::edited(inquiry.ruleset, edit);
        let edited = inquiry.reach.outcome(evaluator, scenario);
        if counts(outcome, &edited) {
            return Trial::Good;
        }
        let met = |outcome: &Outcome| outcome.met.contains(clause.index());
        let at_work = match (met(outcome), met(&edited)) {
            (_, true) => &edited,
            (true, false) => outcome,
            (false, false) => return Trial::Hopeless,
        };
        Trial::Avoid(seen::in_the_way(inquiry, clause, at_work))
    })
}

/// The announced dimensions whose rulings can be others in a world.
pub(super) fn concerned(theory: &Theory<'_>, world: World) -> impl Iterator<Item = DimensionId> {
    let ruleset = theory.ruleset();
    let dimensions = (0..ruleset.dimensions.len()).map(DimensionId::new);
    dimensions.filter(move |dimension| {
        !ruleset[*dimension].intermediate && theory.touches(world, Step::Dimension(*dimension))
    })
}

/// Where the ruling of a dimension differs between the ruleset as it stands and another world.
pub(super) fn ruling_differs(ruleset: &Ruleset, dimension: DimensionId, world: World) -> Formula {
    let values = ruleset[dimension].values.len();
    let value = |value| u8::try_from(value).unwrap_or(u8::MAX);
    let allowed = (0..values).map(|index| {
        either(
            Name::Allowed(World::Actual, dimension, value(index)),
            Name::Allowed(world, dimension, value(index)),
        )
    });
    // Spoken or not tells "none is due" from the empty set of `all_apply`.
    let spoken = either(
        Name::Settled(World::Actual, dimension),
        Name::Settled(world, dimension),
    );
    let gap = either(
        Name::Gap(World::Actual, dimension),
        Name::Gap(world, dimension),
    );
    let clash = either(
        Name::Clash(World::Actual, dimension),
        Name::Clash(world, dimension),
    );
    Formula::any(allowed.chain([spoken, gap, clash]))
}

/// Where the clause is in force in a world, is not met as the ruleset stands, and something else is
/// ruled than it says.
pub(super) fn overridden(ruleset: &Ruleset, clause: ClauseId, world: World) -> Formula {
    let otherwise = ruleset[clause].rulings.iter().map(|(dimension, said)| {
        let said = said.iter().map(|value| {
            let value = u8::try_from(value).unwrap_or(u8::MAX);
            Name::Allowed(world, *dimension, value).into()
        });
        Formula::any(said).negated()
    });
    Formula::all([
        Name::InForce(world, clause).into(),
        Formula::from(Name::Met(World::Actual, clause)).negated(),
        Formula::any(otherwise),
    ])
}

/// Where exactly one of the two holds.
pub(super) fn either(one: Name, other: Name) -> Formula {
    let (one, other) = (Formula::from(one), Formula::from(other));
    Formula::any([
        Formula::all([one.clone(), other.clone().negated()]),
        Formula::all([one.negated(), other]),
    ])
}

/// Another condition for a clause, and whether anything turns on the difference: an announced ruling,
/// or whether the clause says what is so. Where the clause would be in force and overridden by
/// others, the old condition told the reader something, though no ruling changes.
pub(super) struct Rewording<'c> {
    pub(super) clause: ClauseId,
    pub(super) old: &'c Condition,
    pub(super) new: Condition,
}

impl Rewording<'_> {
    fn edit(&self) -> Edit {
        crate::logic::Change::When {
            clause: self.clause,
            when: self.new.clone(),
        }
        .into()
    }

    /// Looks for a scenario in which something turns on it: `shown`, which may be one, near `known`,
    /// across `part`, then anywhere.
    pub(super) fn settle(
        &self,
        inquiry: &mut Inquiry<'_, '_>,
        shown: Option<&Scenario>,
        known: &[&Scenario],
        part: &Condition,
    ) -> Answer {
        let edit = self.edit();
        if let Some(shown) = shown.filter(|shown| is_valid(inquiry.ruleset, shown)) {
            let (as_it_stands, edited) = outcomes(inquiry, &edit, shown);
            if self.turns(inquiry.ruleset, &as_it_stands, &edited) {
                return Answer::Yes(shown.clone());
            }
        }
        if let Some(found) = self.look(inquiry, &edit, known, part) {
            return Answer::Yes(found);
        }
        let mut among = FixedBitSet::with_capacity(inquiry.ruleset.clauses.len());
        for condition in [self.old, &self.new] {
            let within = inquiry.reach.box_of(condition, Want::True);
            among.union_with(&inquiry.reach.meeting(&within));
        }
        among.insert(self.clause.index());
        let clause = self.clause;
        inquiry.ask_edited(edit, among, |theory, world| {
            Turning::on_condition(theory, clause, world).formula(theory)
        })
    }

    fn turns(&self, ruleset: &Ruleset, as_it_stands: &Outcome, edited: &Outcome) -> bool {
        let index = self.clause.index();
        let newly = edited.in_force.contains(index) && !as_it_stands.met.contains(index);
        let ruled = |dimension: DimensionId| {
            let ruling = edited.rulings.get(dimension.index());
            ruling.map(|ruling| ruling.values).unwrap_or_default()
        };
        let mut rulings = ruleset[self.clause].rulings.iter();
        !as_it_stands.announces_the_same(edited, ruleset)
            || newly
                && rulings.any(|(dimension, said)| ruled(*dimension).intersect(*said).is_empty())
    }

    fn look(
        &self,
        inquiry: &Inquiry<'_, '_>,
        edit: &Edit,
        known: &[&Scenario],
        part: &Condition,
    ) -> Option<Scenario> {
        let counts = |as_it_stands: &Outcome, edited: &Outcome| {
            self.turns(inquiry.ruleset, as_it_stands, edited)
        };
        for scenario in known {
            for want in [Want::NotTrue, Want::True] {
                let mut moved = inquiry.moved(scenario, part, want).into_iter();
                let found = moved.find(|moved| {
                    let (as_it_stands, edited) = outcomes(inquiry, edit, moved);
                    counts(&as_it_stands, &edited)
                });
                if found.is_some() {
                    return found;
                }
            }
        }
        let ways = [
            vec![(&self.new, Want::True), (self.old, Want::NotTrue)],
            vec![(self.old, Want::True), (&self.new, Want::NotTrue)],
        ];
        for wanted in ways {
            let found = search(inquiry, edit, self.clause, &wanted, &counts);
            if found.is_some() {
                return found;
            }
            for companion in seen::companions(inquiry, self.clause) {
                let mut wanted: Wanted<'_> = wanted.clone();
                wanted.push((&inquiry.ruleset[companion].when, Want::True));
                let found = search(inquiry, edit, self.clause, &wanted, &counts);
                if found.is_some() {
                    return found;
                }
            }
        }
        // A part that reads a ruling is crossed where other clauses give that ruling.
        let read = crate::logic::dimensions_read(part);
        let speakers = read.iter().flat_map(|dimension| {
            let speakers = inquiry.theory.speakers(*dimension).iter();
            speakers.take(MOST_SPEAKERS).copied()
        });
        for speaker in speakers {
            let wanted = [
                (&self.new, Want::True),
                (&inquiry.ruleset[speaker].when, Want::True),
            ];
            let found = search(inquiry, edit, self.clause, &wanted, &counts);
            if found.is_some() {
                return found;
            }
        }
        None
    }
}

/// The most clauses that are tried for giving another ruling to read.
const MOST_SPEAKERS: usize = 24;
