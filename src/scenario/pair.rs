//! Contrast pairs: two incidents one fact apart, of which one meets a clause and the other does not,
//! and whose rulings differ.
//!
//! For each part of a clause's condition there is a pair in which this part alone makes the
//! difference, or, where what can happen forbids that, a pair in which several facts change and this
//! part still decides in both; or the part is surplus, or no announced ruling turns on it. Which of
//! these it is rests on an exhaustive answer; what stayed open is said to be open.

use super::parts::{Bearing, Part, PartPlace, Parts, reads_rulings};
use super::study::Study;
use crate::analysis::Trial;
use crate::logic::{
    Code, Formula, Layers, Mode, Name, Outcome, Pairing, Scenario, Truth, Twin, World, is_false,
    is_true, is_valid,
};
use crate::model::{AttributeId, ClauseId, Condition, DimensionId, Ruleset};
use crate::solve::{Answer, Reason, Solver, Z3Solver};
use std::collections::BTreeSet;

/// Two scenarios that are held against each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The scenario in which the clause counts (of a grey zone: the narrow reading).
    pub first: Scenario,
    /// The scenario in which the clause is not met (of a grey zone: the broad reading).
    pub second: Scenario,
    /// How the two stand to each other.
    pub contrast: Contrast,
}

/// How the two scenarios of a pair stand to each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Contrast {
    /// One fact differs, with what is asked because of it, and of the clause's condition this part
    /// alone.
    OneFact {
        /// The clause.
        clause: ClauseId,
        /// Which part of its condition, counted from 0.
        part: usize,
    },
    /// Several facts differ that the condition reads or that the background couples with those, since
    /// one alone can't; the part decides in both.
    Masked {
        /// The clause.
        clause: ClauseId,
        /// Which part of its condition, counted from 0.
        part: usize,
    },
}

/// Why a part of a condition has no contrast pair.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPair {
    /// The part never decides: the condition is met in the same scenarios without it.
    Surplus,
    /// It decides whether the clause is met, but there is no pair in which the clause counts and an
    /// announced ruling differs.
    NothingTurnsOnIt,
    /// It stayed open.
    Undecided(Reason),
}

/// What was found for a part of a condition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Found {
    /// A pair.
    Pair(Box<Pair>),
    /// None, and why.
    None(NoPair),
}

/// How much is done for a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Effort {
    /// What can be had without the solver.
    Light,
    /// All that it takes to know.
    Full,
}

/// One clause's part, with what its pairs must keep to.
struct Quest<'q, 'a, 'r> {
    study: &'q mut Study<'a, 'r>,
    clause: ClauseId,
    parts: &'q Parts,
    index: usize,
    part: &'q Part,
}

/// The best pair for a part of a clause's condition, or why there is none.
pub(crate) fn for_part(
    study: &mut Study<'_, '_>,
    clause: ClauseId,
    parts: &Parts,
    index: usize,
    effort: Effort,
) -> Option<Found> {
    let part = parts.parts.get(index)?;
    let mut quest = Quest {
        study,
        clause,
        parts,
        index,
        part,
    };
    if let Some(pair) = quest.nearby() {
        return Some(Found::Pair(Box::new(pair)));
    }
    (effort == Effort::Full).then(|| quest.settled())
}

/// A pair for a clause: one fact apart, by a part of its own words if there is one.
pub(crate) fn for_clause(
    study: &mut Study<'_, '_>,
    clause: ClauseId,
    parts: &Parts,
) -> Option<Pair> {
    let order = |place| {
        let all = parts.parts.iter().enumerate();
        all.filter(move |(_, part)| part.place == place)
            .map(|(index, _)| index)
    };
    for place in [PartPlace::Clause, PartPlace::Opening] {
        for effort in [Effort::Light, Effort::Full] {
            let pairs = order(place).filter_map(|index| {
                match for_part(study, clause, parts, index, effort)? {
                    Found::Pair(pair) => Some(*pair),
                    Found::None(_) => None,
                }
            });
            let masked = |pair: &Pair| matches!(pair.contrast, Contrast::Masked { .. });
            let pairs: Vec<Pair> = pairs.collect();
            let best = pairs
                .into_iter()
                .min_by_key(|pair| (masked(pair), study.unlike(&pair.first, &pair.second)));
            if best.is_some() {
                return best;
            }
            if study.exhausted().is_some() {
                return None;
            }
        }
    }
    None
}

impl Quest<'_, '_, '_> {
    /// Looks without the solver.
    fn nearby(&mut self) -> Option<Pair> {
        let carrying = self.part.carrying(&self.parts.whole);
        let ruleset = self.study.ruleset;
        let mut beside: Vec<Option<&Condition>> = vec![None];
        beside.extend(
            self.study
                .companions(self.clause)
                .into_iter()
                .map(|other| Some(&ruleset[other].when)),
        );
        let wanted = self.study.wanted;
        for further in beside {
            let mut conditions: Vec<&Condition> = vec![&carrying];
            conditions.extend(further);
            conditions.extend(&wanted.conditions);
            let mut best = None;
            self.study.search().find(&conditions, |scenario, said| {
                self.judge(scenario, said, &mut best)
            });
            if best.is_some() {
                return best;
            }
        }
        None
    }

    fn judge(&self, scenario: &Scenario, said: &Outcome, best: &mut Option<Pair>) -> Trial {
        if !said.met.contains(self.clause.index()) {
            return Trial::Hopeless;
        }
        if self.study.counts(self.clause, said) {
            *best = self.beside(scenario, said);
            if best.is_some() {
                return Trial::Good;
            }
        }
        Trial::Avoid(self.study.in_the_way(self.clause, said))
    }

    /// The nearest scenario that makes a pair with this one.
    fn beside(&self, scenario: &Scenario, said: &Outcome) -> Option<Pair> {
        let study = &*self.study;
        let near = crate::logic::attributes_read(study.ruleset, &self.part.condition);
        let near: BTreeSet<AttributeId> = near.ones().map(AttributeId::new).collect();
        let wide = if reads_rulings(&self.part.condition) {
            (0..study.ruleset.attributes.len())
                .map(AttributeId::new)
                .collect()
        } else {
            study.with_askers(near.iter().copied())
        };
        [near, wide].into_iter().find_map(|among| {
            let changed = study.neighbours(scenario, &among).into_iter();
            let good = changed.filter(|(_, other)| {
                let told = study.outcome(other);
                self.tells(scenario, said, other, &told)
            });
            let (id, second) =
                // A number or a scale one step off shows more than another value of a choice.
                good.min_by_key(|(id, other)| {
                    let (structure, apart) = study.unlike(scenario, other);
                    (structure, !study.is_ordered(*id), apart, *id)
                })?;
            Some(self.tightened(scenario, second, id))
        })
    }

    /// Whether two scenarios, of which the first is known to count, make a pair of one fact.
    fn tells(&self, first: &Scenario, said: &Outcome, second: &Scenario, told: &Outcome) -> bool {
        let evaluator = self.study.evaluator();
        let others_agree = || {
            let one = self.parts.truths(evaluator, first, said);
            let other = self.parts.truths(evaluator, second, told);
            let pairs = one.iter().zip(&other).enumerate();
            pairs
                .into_iter()
                .all(|(index, (one, other))| index == self.index || one == other)
        };
        self.decides(first, said, second, told) && others_agree()
    }

    /// Whether the part decides in both, and an announced ruling differs.
    fn decides(&self, first: &Scenario, said: &Outcome, second: &Scenario, told: &Outcome) -> bool {
        let study = &*self.study;
        let evaluator = study.evaluator();
        !told.met.contains(self.clause.index())
            && study.counts(self.clause, said)
            && (study.is_wanted(first, said) || study.is_wanted(second, told))
            && !study.differing(said, told).is_empty()
            && self.part.bearing(evaluator, first, said, true) == Bearing::Carries
            && self.part.bearing(evaluator, second, told, false) == Bearing::Fails
    }

    /// Moves a number of the first scenario to the edge, where that keeps the pair.
    fn tightened(&self, first: &Scenario, second: Scenario, id: AttributeId) -> Pair {
        let contrast = Contrast::OneFact {
            clause: self.clause,
            part: self.index,
        };
        let mut first = first.clone();
        let ordered = self.study.is_ordered(id);
        if let (true, Some(Code(one)), Some(Code(other))) = (ordered, first.get(id), second.get(id))
            && one.abs_diff(other) > 1
        {
            let edge = if one > other {
                other + 1
            } else {
                other.saturating_sub(1)
            };
            let mut moved = first.clone();
            moved.set(id, Some(Code(edge)));
            Layers::settle_asking(self.study.ruleset, &mut moved);
            let pairing = Pairing::changing(self.study.ruleset, BTreeSet::from([id]));
            let attributes = self.study.ruleset.attributes.len();
            if is_valid(self.study.ruleset, &moved) && pairing.holds(&moved, &second, attributes) {
                let (said, told) = (self.study.outcome(&moved), self.study.outcome(&second));
                if said.met.contains(self.clause.index())
                    && self.tells(&moved, &said, &second, &told)
                {
                    first = moved;
                }
            }
        }
        Pair {
            first,
            second,
            contrast,
        }
    }

    /// Finds out for certain.
    fn settled(&mut self) -> Found {
        let whole = &self.parts.whole;
        for side in [self.part.carries(whole), self.part.fails(whole)] {
            match self.study.ask(&side) {
                Answer::No => return Found::None(NoPair::Surplus),
                Answer::Undecided(reason) => return Found::None(NoPair::Undecided(reason)),
                Answer::Yes(_) => {}
            }
        }
        let mut open = None;
        let among: BTreeSet<AttributeId> = if reads_rulings(&self.part.condition) {
            (0..self.study.ruleset.attributes.len())
                .map(AttributeId::new)
                .collect()
        } else {
            self.study.read_by(&self.part.condition)
        };
        for id in among {
            match self.asked(BTreeSet::from([id]), Others::Agree) {
                Ok(Some((first, second))) => {
                    return Found::Pair(Box::new(self.tightened(&first, second, id)));
                }
                Ok(None) => {}
                Err(reason) => open = Some(reason),
            }
        }
        if let Some(reason) = open {
            return Found::None(NoPair::Undecided(reason));
        }
        let read = if reads_rulings(whole) {
            (0..self.study.ruleset.attributes.len())
                .map(AttributeId::new)
                .collect()
        } else {
            self.study.coupled(self.study.read_by(whole))
        };
        match self.asked(read, Others::Free) {
            Ok(Some((first, second))) => Found::Pair(Box::new(Pair {
                first,
                second,
                contrast: Contrast::Masked {
                    clause: self.clause,
                    part: self.index,
                },
            })),
            Ok(None) => Found::None(NoPair::NothingTurnsOnIt),
            Err(reason) => Found::None(NoPair::Undecided(reason)),
        }
    }

    /// Asks the solver for a pair in which these attributes differ; made as alike as can be.
    fn asked(
        &self,
        changing: BTreeSet<AttributeId>,
        others: Others,
    ) -> Result<Option<(Scenario, Scenario)>, Reason> {
        let ruleset = self.study.ruleset;
        let twin = Twin::new(ruleset, Pairing::changing(ruleset, changing));
        let question = self.question(&twin, others);
        let answer = Z3Solver::new(twin.ruleset(), self.study.budget().clone()).ask(&question);
        match answer {
            Answer::Yes(pair) => {
                let (first, second) = twin.split(&pair);
                let holds = |first: &Scenario, second: &Scenario| {
                    let (said, told) = (self.study.outcome(first), self.study.outcome(second));
                    said.met.contains(self.clause.index())
                        && match others {
                            Others::Agree => self.tells(first, &said, second, &told),
                            Others::Free => self.decides(first, &said, second, &told),
                        }
                };
                if !holds(&first, &second) {
                    return Err(Reason::ReplayFailed);
                }
                Ok(Some(plainer(
                    ruleset,
                    twin.pairing(),
                    first,
                    second,
                    &holds,
                )))
            }
            Answer::No => Ok(None),
            Answer::Undecided(reason) => Err(reason),
        }
    }

    fn question(&self, twin: &Twin, others: Others) -> Formula {
        let ruleset = self.study.ruleset;
        let there = twin.second_clause(self.clause);
        let second = |condition: &Condition| twin.second_condition(condition);
        let same = |part: &Part| {
            let other = second(&part.condition);
            let alike = |one: Formula, other: Formula| {
                Formula::any([
                    Formula::all([one.clone(), other.clone()]),
                    Formula::all([one.negated(), other.negated()]),
                ])
            };
            Formula::all([
                alike(
                    is_true(&part.condition, Mode::ACTUAL),
                    is_true(&other, Mode::ACTUAL),
                ),
                alike(
                    is_false(&part.condition, Mode::ACTUAL),
                    is_false(&other, Mode::ACTUAL),
                ),
            ])
        };
        let agreeing = self.parts.parts.iter().enumerate();
        let agreeing = agreeing
            .filter(|(index, _)| others == Others::Agree && *index != self.index)
            .map(|(_, part)| same(part));
        let dimensions = (0..ruleset.dimensions.len()).map(DimensionId::new);
        let announced = dimensions.filter(|id| !ruleset[*id].intermediate);
        let [granted, denied] = self.part.either_way();
        let wanted = self.study.wanted.conditions.iter();
        let wanted_there = wanted.map(|condition| is_true(&second(condition), Mode::ACTUAL));
        let sides = [
            twin.related(),
            counts(ruleset, self.clause),
            Formula::from(Name::Met(World::Actual, there)).negated(),
            self.part.carries(&self.parts.whole),
            super::parts::fails(
                &second(&self.parts.whole),
                &second(granted),
                &second(denied),
            ),
            Formula::any(announced.map(|id| differs(twin, id))),
            Formula::any([self.study.wanted_formula(), Formula::all(wanted_there)]),
        ];
        Formula::all(sides.into_iter().chain(agreeing))
    }
}

/// What the parts of the condition other than the one in question do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Others {
    /// Each is as true in the second scenario as in the first.
    Agree,
    /// They may change.
    Free,
}

/// Where the clause counts, as a formula.
pub(crate) fn counts(ruleset: &Ruleset, clause: ClauseId) -> Formula {
    let world = World::Actual;
    let rulings = &ruleset[clause].rulings;
    let stands = rulings
        .iter()
        .map(|(on, _)| Name::Stands(world, clause, *on).into());
    let stands = Formula::any(stands);
    Formula::all([
        Name::InForce(world, clause).into(),
        if rulings.is_empty() {
            Formula::True
        } else {
            stands
        },
    ])
}

/// Where the two rulings of a pair on a dimension are not the same; where they come from does not
/// matter.
pub(crate) fn differs(twin: &Twin, dimension: DimensionId) -> Formula {
    let other = twin.second_dimension(dimension);
    if other == dimension {
        return Formula::False;
    }
    let world = World::Actual;
    let values = 0..twin.ruleset()[dimension].values.len();
    let values = values.map(|value| u8::try_from(value).unwrap_or(u8::MAX));
    let allowed = values.map(|value| {
        [
            Name::Allowed(world, dimension, value),
            Name::Allowed(world, other, value),
        ]
    });
    // Settled or not tells "none is due" from the empty set of `all_apply`.
    let kinds = [
        [Name::Settled(world, dimension), Name::Settled(world, other)],
        [Name::Gap(world, dimension), Name::Gap(world, other)],
        [Name::Clash(world, dimension), Name::Clash(world, other)],
    ];
    let either = |[one, other]: [Name; 2]| {
        let (one, other) = (Formula::from(one), Formula::from(other));
        Formula::any([
            Formula::all([one.clone(), other.clone().negated()]),
            Formula::all([one.negated(), other]),
        ])
    };
    Formula::any(allowed.chain(kinds).map(either))
}

/// Makes two scenarios of a pairing as ordinary and as alike as can be while `holds`.
pub(crate) fn plainer(
    ruleset: &Ruleset,
    pairing: &Pairing,
    mut first: Scenario,
    mut second: Scenario,
    holds: &impl Fn(&Scenario, &Scenario) -> bool,
) -> (Scenario, Scenario) {
    let attributes = ruleset.attributes.len();
    let good = |first: &Scenario, second: &Scenario| {
        is_valid(ruleset, first)
            && is_valid(ruleset, second)
            && pairing.holds(first, second, attributes)
            && holds(first, second)
    };
    let set = |scenario: &Scenario, id: AttributeId, code: Code| {
        let mut changed = scenario.clone();
        if changed.get(id).is_some() {
            changed.set(id, Some(code));
            Layers::settle_asking(ruleset, &mut changed);
        }
        changed
    };
    for id in ruleset.asking_order.iter().copied() {
        let ordinary = (set(&first, id, Code(0)), set(&second, id, Code(0)));
        let alike = first
            .get(id)
            .map_or_else(|| second.clone(), |code| set(&second, id, code));
        let changed = (first.clone(), second.clone());
        if ordinary != changed && good(&ordinary.0, &ordinary.1) {
            (first, second) = ordinary;
        } else if alike != changed.1 && good(&first, &alike) {
            second = alike;
        }
    }
    (first, second)
}

/// Whether two scenarios show the part of a condition alone: it carries the condition in the first,
/// fails it in the second, and every other part is as true in the one as in the other. How the rulings
/// differ, and how many facts, is not looked at.
pub fn is_independent(
    parts: &Parts,
    index: usize,
    evaluator: crate::logic::Evaluator<'_>,
    first: (&Scenario, &Outcome),
    second: (&Scenario, &Outcome),
) -> bool {
    let met = |(scenario, said): (&Scenario, &Outcome)| {
        evaluator.truth(&parts.whole, crate::logic::Unasked::Neither, scenario, said) == Truth::True
    };
    let Some(part) = parts.parts.get(index) else {
        return false;
    };
    let one = parts.truths(evaluator, first.0, first.1);
    let other = parts.truths(evaluator, second.0, second.1);
    let mut others = one.iter().zip(&other).enumerate();
    met(first)
        && !met(second)
        && part.bearing(evaluator, first.0, first.1, true) == Bearing::Carries
        && part.bearing(evaluator, second.0, second.1, false) == Bearing::Fails
        && others.all(|(at, (one, other))| at == index || one == other)
}
