//! The exact set of scenarios whose ruling changes, dimension by dimension, by what it was and is.
//!
//! A dimension that is the same thing in both editions is not asked about. Of the others the ruling
//! can differ only where a clause that speaks on one of them and not, or otherwise, on the other is
//! met, or where it is due in one of them only; so each question is about the few clauses that can
//! be met there.

use super::asking::Asking;
use super::joined::Joined;
use crate::analysis::General;
use crate::logic::{
    Basis, Count, Diagrams, Evaluator, Formula, Name, Outcome, Ruling, Scenario, Set, TooLarge,
    World, attributes_read,
};
use crate::model::{AttributeId, ClauseId, Dimension, DimensionId, Ruleset, ValueSet};
use crate::solve::{Answer, Reason};
use fixedbitset::FixedBitSet;
use std::collections::{BTreeMap, BTreeSet};

/// What the ruling on a dimension comes to.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// These values, by name: one; several that the text leaves open; or all that apply.
    Values(Vec<String>),
    /// A ruling is due and none is given.
    Gap,
    /// None is given, and none is due.
    NotDue,
    /// The standing rulings have nothing in common.
    Contradiction,
}

/// Scenarios of which the ruling on a dimension changes in the same way.
#[derive(Clone, Debug)]
pub struct Row {
    /// The dimension.
    pub dimension: String,
    /// What the ruling was.
    pub from: State,
    /// What it is.
    pub to: State,
    /// Whether they are inside the scope; `None` where none was given.
    pub in_scope: Option<bool>,
    /// One of them, the most ordinary there is.
    pub scenario: Scenario,
    /// All of them.
    pub general: General,
    /// How many there are, where they could be counted.
    pub share: Option<Count>,
    /// The units of the draft that bring it about, each somewhere among them.
    pub by: Vec<usize>,
    /// Units that bring it about only together, somewhere among them.
    pub together: Vec<usize>,
    pub(super) formula: Formula,
    pub(super) among: FixedBitSet,
    /// All of them, where they are known.
    pub(super) set: Option<Set>,
}

/// What could not be decided: about what, and why.
pub type Open = (String, Reason);

/// Finds the changes between two editions of a joined ruleset.
pub(super) struct Comparing<'a, 'r> {
    pub(super) joined: &'a Joined<'r>,
    pub(super) asking: &'a Asking<'a>,
    pub(super) before: usize,
    pub(super) after: usize,
    pub(super) open: Vec<Open>,
}

/// Where rulings can differ: a formula that holds there, and the clauses that can be met there.
pub(super) struct Piece {
    pub(super) guard: Formula,
    pub(super) among: FixedBitSet,
}

impl Piece {
    /// Where either is.
    fn or(mut self, other: Piece) -> Piece {
        self.among.union_with(&other.among);
        Piece {
            guard: Formula::any([self.guard, other.guard]),
            among: self.among,
        }
    }

    /// Where both are.
    pub(super) fn and(mut self, other: Piece) -> Piece {
        self.among.intersect_with(&other.among);
        Piece {
            guard: Formula::all([self.guard, other.guard]),
            among: self.among,
        }
    }
}

/// A kind of change that was found: how much of it is known.
#[derive(Default)]
struct Found {
    set: Option<Set>,
    /// One of its scenarios, where no set is known.
    witness: Option<Scenario>,
    /// Whether there may be more than the set holds.
    partial: bool,
}

type Kinds = BTreeMap<(State, State), Found>;

impl Comparing<'_, '_> {
    /// The changes on one dimension, by its name.
    pub(super) fn rows(&mut self, name: &str) -> Vec<Row> {
        let (Some(one), Some(other)) = (
            self.joined.dimension(self.before, name),
            self.joined.dimension(self.after, name),
        ) else {
            return Vec::new();
        };
        if one == other {
            return Vec::new();
        }
        let mut kinds = Kinds::new();
        let mut among = FixedBitSet::with_capacity(self.joined.ruleset.clauses.len());
        let mut all_sets = true;
        for piece in self.pieces(one, other) {
            among.union_with(&piece.among);
            if let Some(reason) = self.asking.exhausted() {
                self.open.push((name.to_owned(), reason));
                break;
            }
            let sets =
                self.asking
                    .diagrams(&piece.among)
                    .ok_or(TooLarge)
                    .and_then(|mut diagrams| {
                        self.by_sets(&mut diagrams, &piece, one, other, &mut kinds)
                    });
            if sets.is_err() {
                all_sets = false;
                self.by_solver(name, &piece, one, other, &mut kinds);
            }
        }
        let mentioned = self.mentioned(one, other);
        let mut rows = Vec::new();
        for ((from, to), mut found) in kinds {
            found.partial |= !all_sets;
            let formula = Formula::all([
                self.kept(),
                is_state(&self.joined.ruleset, one, &from),
                is_state(&self.joined.ruleset, other, &to),
            ]);
            let of = Of {
                dimension: name,
                from: &from,
                to: &to,
                formula: &formula,
                among: &among,
                mentioned: &mentioned,
            };
            match &self.joined.scope {
                None => rows.extend(self.row(&of, &found, None)),
                Some(scope) => {
                    for (part, inside) in [(scope.clone(), true), (scope.clone().negated(), false)]
                    {
                        rows.extend(self.row(&of, &found, Some(&(part, inside))));
                    }
                }
            }
        }
        rows
    }

    fn kept(&self) -> Formula {
        Formula::all([self.joined.kept(self.before), self.joined.kept(self.after)])
    }

    /// Where the rulings on two dimensions can differ at all; `None` where they can't.
    pub(super) fn apart(&self, one: DimensionId, other: DimensionId) -> Option<Piece> {
        self.pieces(one, other).into_iter().reduce(Piece::or)
    }

    /// The same, each place with the clauses that can be met there.
    fn pieces(&self, one: DimensionId, other: DimensionId) -> Vec<Piece> {
        let ruleset = &self.joined.ruleset;
        let (mine, theirs) = (&ruleset[one], &ruleset[other]);
        let everywhere = |guard| Piece {
            guard,
            among: self.asking.everyone(),
        };
        if mine.when_several != theirs.when_several
            || names(mine, mine.otherwise) != names(theirs, theirs.otherwise)
            || mine.values.len() != theirs.values.len()
            || mine
                .values
                .iter()
                .zip(&theirs.values)
                .any(|(one, other)| one.name != other.name)
        {
            return vec![everywhere(Formula::True)];
        }
        let mut pieces = Vec::new();
        if mine.required_when != theirs.required_when {
            let due = |dimension| Formula::from(Name::Due(World::Actual, dimension));
            pieces.push(everywhere(either(due(one), due(other))));
        }
        for clause in speaking_apart(ruleset, one, other) {
            pieces.push(Piece {
                guard: Name::Met(World::Actual, clause).into(),
                among: self.asking.met_beside(clause),
            });
        }
        pieces
    }

    fn by_sets(
        &self,
        diagrams: &mut Diagrams<'_>,
        piece: &Piece,
        one: DimensionId,
        other: DimensionId,
        kinds: &mut Kinds,
    ) -> Result<(), TooLarge> {
        let ruleset = &self.joined.ruleset;
        let here = Formula::all([piece.guard.clone(), self.kept()]);
        let within = diagrams.set_within(&diagrams.space(), &here)?;
        let mut left = diagrams.set_within(&within, &differs(ruleset, one, other))?;
        let mut found: Vec<((State, State), Set)> = Vec::new();
        while !left.is_false() {
            let scenario = diagrams.most_ordinary(&left).ok_or(TooLarge)?;
            let outcome = Evaluator::new(ruleset).outcome(&scenario);
            let from = state(ruleset, one, &outcome);
            let to = state(ruleset, other, &outcome);
            let these =
                Formula::all([is_state(ruleset, one, &from), is_state(ruleset, other, &to)]);
            let set = diagrams.set_within(&left, &these)?;
            let fewer = diagrams.minus(&left, &set)?;
            if *fewer == *left {
                return Err(TooLarge);
            }
            left = fewer;
            found.push(((from, to), set));
        }
        for (kind, set) in found {
            let known = kinds.entry(kind).or_default();
            known.set = Some(match known.set.take() {
                Some(before) => diagrams.or(&before, &set)?,
                None => set,
            });
        }
        Ok(())
    }

    fn by_solver(
        &mut self,
        name: &str,
        piece: &Piece,
        one: DimensionId,
        other: DimensionId,
        kinds: &mut Kinds,
    ) {
        let ruleset = &self.joined.ruleset;
        loop {
            let others = kinds.keys().map(|(from, to)| {
                let this = [is_state(ruleset, one, from), is_state(ruleset, other, to)];
                Formula::all(this).negated()
            });
            let question = Formula::all(
                [
                    piece.guard.clone(),
                    self.kept(),
                    differs(ruleset, one, other),
                ]
                .into_iter()
                .chain(others),
            );
            match self.asking.ask_solver(&piece.among, &question) {
                Answer::Yes(scenario) => {
                    let outcome = Evaluator::new(ruleset).outcome(&scenario);
                    let kind = (
                        state(ruleset, one, &outcome),
                        state(ruleset, other, &outcome),
                    );
                    let found = kinds.entry(kind).or_default();
                    if found.witness.replace(scenario).is_some() {
                        self.open.push((name.to_owned(), Reason::ReplayFailed));
                        return;
                    }
                }
                Answer::No => return,
                Answer::Undecided(reason) => {
                    self.open.push((name.to_owned(), reason));
                    return;
                }
            }
        }
    }

    /// One row: the part of a kind of change that lies inside or outside the scope, if there is any.
    fn row(&mut self, of: &Of<'_>, found: &Found, part: Option<&(Formula, bool)>) -> Option<Row> {
        let formula = match part {
            Some((part, _)) => Formula::all([of.formula.clone(), part.clone()]),
            None => of.formula.clone(),
        };
        let in_scope = part.map(|(_, inside)| *inside);
        let set = found.set.as_ref().and_then(|set| match part {
            Some((part, _)) => {
                let mut diagrams = self.asking.diagrams(of.among)?;
                let part = diagrams.set(part).ok()?;
                diagrams.and(set, &part).ok()
            }
            None => Some(Set::clone(set)),
        });
        let mut scenario = None;
        if let Some(set) = set.as_ref().filter(|set| !set.is_false()) {
            let diagrams = self.asking.diagrams(of.among);
            scenario = diagrams.and_then(|diagrams| diagrams.most_ordinary(set));
        } else if set.is_some() && !found.partial {
            return None;
        }
        if scenario.is_none() {
            let known = found.witness.as_ref();
            let known = known.filter(|witness| self.asking.holds(witness, &formula));
            scenario = match known {
                Some(witness) => Some(witness.clone()),
                None => match self.asking.ask(of.among, &formula) {
                    Answer::Yes(scenario) => Some(scenario),
                    Answer::No => return None,
                    Answer::Undecided(reason) => {
                        self.open.push((of.dimension.to_owned(), reason));
                        None
                    }
                },
            };
        }
        let scenario = scenario?;
        if !self.replayed(&scenario, of) {
            self.open
                .push((of.dimension.to_owned(), Reason::ReplayFailed));
            return None;
        }
        let mut general = General::default();
        let mut share = None;
        let set = set.filter(|set| !set.is_false());
        if let Some(set) = &set {
            general = self.asking.described(set, of.mentioned, &self.joined.words);
            share = self.asking.count(set);
            if found.partial {
                general.cover = crate::analysis::Cover::Partial;
                share = share.map(|count| Count {
                    exact: false,
                    ..count
                });
            }
        }
        Some(Row {
            dimension: of.dimension.to_owned(),
            from: of.from.clone(),
            to: of.to.clone(),
            in_scope,
            scenario,
            general,
            share,
            by: Vec::new(),
            together: Vec::new(),
            formula,
            among: of.among.clone(),
            set: set.filter(|_| !found.partial),
        })
    }

    /// Whether the editions as they are, asked one by one, rule so.
    fn replayed(&self, scenario: &Scenario, of: &Of<'_>) -> bool {
        let says = |edition: usize| {
            let ruleset = *self.joined.editions.get(edition)?;
            let own = self.joined.split(scenario, edition)?;
            let id = ruleset
                .dimensions
                .iter()
                .position(|it| it.name == of.dimension)?;
            let outcome = Evaluator::new(ruleset).outcome(&own);
            Some(state(ruleset, DimensionId::new(id), &outcome))
        };
        says(self.before).as_ref() == Some(of.from) && says(self.after).as_ref() == Some(of.to)
    }

    /// The attributes that a reader of the changes expects to see: those that the clauses read that
    /// bring them about.
    fn mentioned(&self, one: DimensionId, other: DimensionId) -> BTreeSet<AttributeId> {
        let ruleset = &self.joined.ruleset;
        let clauses = speaking_apart(ruleset, one, other).into_iter();
        clauses
            .flat_map(|clause| {
                let read = attributes_read(ruleset, &ruleset[clause].when);
                read.ones().map(AttributeId::new).collect::<Vec<_>>()
            })
            .collect()
    }
}

/// What the rows of one kind of change have in common.
struct Of<'a> {
    dimension: &'a str,
    from: &'a State,
    to: &'a State,
    formula: &'a Formula,
    among: &'a FixedBitSet,
    mentioned: &'a BTreeSet<AttributeId>,
}

/// The clauses that speak on one of two dimensions and not, or otherwise, on the other.
pub(super) fn speaking_apart(
    ruleset: &Ruleset,
    one: DimensionId,
    other: DimensionId,
) -> Vec<ClauseId> {
    let all = ruleset.clauses.iter().enumerate();
    let apart = all.filter(|(_, clause)| clause.ruling_on(one) != clause.ruling_on(other));
    apart.map(|(index, _)| ClauseId::new(index)).collect()
}

fn names(dimension: &Dimension, values: Option<ValueSet>) -> Option<Vec<String>> {
    values.map(|values| named(dimension, values))
}

fn named(dimension: &Dimension, values: ValueSet) -> Vec<String> {
    let values = values
        .iter()
        .filter_map(|index| dimension.values.get(index));
    values.map(|value| value.name.clone()).collect()
}

/// What an outcome says on a dimension.
pub(super) fn state(ruleset: &Ruleset, dimension: DimensionId, outcome: &Outcome) -> State {
    let ruling = outcome.rulings.get(dimension.index());
    ruling.map_or(State::NotDue, |ruling| {
        state_of(&ruleset[dimension], *ruling)
    })
}

pub(super) fn state_of(dimension: &Dimension, ruling: Ruling) -> State {
    match ruling.basis {
        Basis::Clauses | Basis::Default => State::Values(named(dimension, ruling.values)),
        Basis::Gap => State::Gap,
        Basis::Silence => State::NotDue,
        Basis::Contradiction => State::Contradiction,
    }
}

/// Where a dimension's ruling comes to this.
fn is_state(ruleset: &Ruleset, dimension: DimensionId, state: &State) -> Formula {
    let this = &ruleset[dimension];
    let world = World::Actual;
    match state {
        State::Gap => Name::Gap(world, dimension).into(),
        State::Contradiction => Name::Clash(world, dimension).into(),
        State::NotDue if this.otherwise.is_some() => Formula::False,
        State::NotDue => Formula::all([
            Formula::from(Name::Spoken(world, dimension)).negated(),
            Formula::from(Name::Due(world, dimension)).negated(),
        ]),
        State::Values(values) => {
            let each = this.values.iter().enumerate().map(|(index, value)| {
                let index = u8::try_from(index).unwrap_or(u8::MAX);
                let allowed = Formula::from(Name::Allowed(world, dimension, index));
                if values.contains(&value.name) {
                    allowed
                } else {
                    allowed.negated()
                }
            });
            let each: Vec<Formula> = each.collect();
            // The empty set of `all_apply` is a ruling; nothing at all is none.
            let settled = values
                .is_empty()
                .then(|| Formula::from(Name::Settled(world, dimension)));
            Formula::all(each.into_iter().chain(settled))
        }
    }
}

/// Where the rulings on two dimensions of the same name are not the same.
pub(super) fn differs(ruleset: &Ruleset, one: DimensionId, other: DimensionId) -> Formula {
    if one == other {
        return Formula::False;
    }
    let world = World::Actual;
    let (mine, theirs) = (&ruleset[one], &ruleset[other]);
    let allowed = |dimension: DimensionId, this: &Dimension, name: &str| {
        let index = this.values.iter().position(|value| value.name == name);
        index.map_or(Formula::False, |index| {
            Name::Allowed(world, dimension, u8::try_from(index).unwrap_or(u8::MAX)).into()
        })
    };
    let all: BTreeSet<&str> = mine
        .values
        .iter()
        .chain(&theirs.values)
        .map(|value| value.name.as_str())
        .collect();
    let values = all
        .into_iter()
        .map(|name| either(allowed(one, mine, name), allowed(other, theirs, name)));
    let kinds = [
        either(
            Name::Settled(world, one).into(),
            Name::Settled(world, other).into(),
        ),
        either(Name::Gap(world, one).into(), Name::Gap(world, other).into()),
        either(
            Name::Clash(world, one).into(),
            Name::Clash(world, other).into(),
        ),
    ];
    Formula::any(values.chain(kinds))
}

/// Where one of two holds and the other doesn't.
pub(super) fn either(one: Formula, other: Formula) -> Formula {
    Formula::any([
        Formula::all([one.clone(), other.clone().negated()]),
        Formula::all([one.negated(), other]),
    ])
}
