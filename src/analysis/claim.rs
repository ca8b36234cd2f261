//! Claims about pairs of scenarios: of which pairs they speak, and what is against them.
//!
//! One description serves the plain evaluator, the solver (as a question about the twin) and decision
//! diagrams (as steps from one half of a pair to the other).

use super::inquiry::Inquiry;
use crate::logic::{
    Diagrams, Evaluator, Formula, Mode, Name, Outcome, Pairing, Replay, Scenario, Set, TooLarge,
    Truth, Twin, World, attributes_read, is_true, is_valid,
};
use crate::model::{AttributeId, ClauseId, Condition, DimensionId, Origin, Ruleset};
use std::collections::BTreeMap;
use std::rc::Rc;

/// One way in which a pair is against a claim: this holds in the first, that in the second.
#[derive(Clone, Debug)]
pub(super) struct Case {
    pub(super) first: Formula,
    pub(super) second: Formula,
    /// The dimension whose rulings it compares, if it compares those of one.
    pub(super) on: Option<DimensionId>,
}

/// The scenarios that are the first of a pair against a claim.
#[derive(Clone, Debug)]
pub(super) struct Firsts {
    /// All of them.
    pub(super) all: Set,
    /// Those of cases that compare the rulings on one dimension.
    pub(super) on: BTreeMap<DimensionId, Set>,
}

/// Two scenarios.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Pair {
    pub(super) first: Scenario,
    pub(super) second: Scenario,
}

/// What is said of pairs.
#[derive(Clone, Debug)]
pub(super) struct Claim {
    pub(super) twin: Twin,
    /// Not true in the first scenario, true in the second.
    step: Option<Condition>,
    cases: Vec<Case>,
    /// Whether the two halves may be exchanged.
    pub(super) direction: Direction,
    /// Whether the cases read facts that may differ, and not rulings alone.
    pub(super) reads: Reads,
}

/// Whether the two halves of a pair may be exchanged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Direction {
    EitherWay,
    OneWay,
}

/// What the cases of a claim read of what may differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Reads {
    Rulings,
    FactsToo,
}

impl Claim {
    /// That no announced ruling differs within a pair of this form; the form allows exchanging the
    /// two.
    pub(super) fn same_rulings(ruleset: &Ruleset, pairing: Pairing) -> Claim {
        let mut claim = Claim::none(ruleset, pairing, Direction::EitherWay);
        let announced = announced(ruleset).filter(|id| claim.touches(*id));
        claim.cases = announced.flat_map(|id| differences(ruleset, id)).collect();
        claim
    }

    /// That the ruling is never lower in the second scenario.
    pub(super) fn never_lower(ruleset: &Ruleset, pairing: Pairing, on: DimensionId) -> Claim {
        let mut claim = Claim::none(ruleset, pairing, Direction::OneWay);
        if claim.touches(on) {
            let values = 0..ruleset[on].values.len();
            claim.cases = values
                .map(|value| Case {
                    first: exactly(on, value),
                    second: Formula::any((0..value).map(|lower| exactly(on, lower))),
                    on: Some(on),
                })
                .filter(|case| case.second != Formula::False)
                .collect();
        }
        claim
    }

    /// That the ruling is never higher in the second scenario.
    pub(super) fn never_higher(ruleset: &Ruleset, pairing: Pairing, on: DimensionId) -> Claim {
        let mut claim = Claim::never_lower(ruleset, pairing, on);
        for case in &mut claim.cases {
            std::mem::swap(&mut case.first, &mut case.second);
        }
        claim
    }

    /// That the condition is not true in the second scenario where it is not true in the first.
    pub(super) fn never_becomes(ruleset: &Ruleset, pairing: Pairing, what: &Condition) -> Claim {
        let mut claim = Claim::none(ruleset, pairing, Direction::OneWay);
        let holds = is_true(what, Mode::ACTUAL);
        let touched = claim.twin.pairing().touched();
        let reads = attributes_read(ruleset, what);
        if reads
            .ones()
            .any(|id| touched.contains(&AttributeId::new(id)))
        {
            claim.reads = Reads::FactsToo;
        }
        if claim.twin.second_formula(&holds) != holds {
            claim.cases = vec![Case {
                first: holds.clone().negated(),
                second: holds,
                on: None,
            }];
        }
        claim
    }

    /// Only of pairs that lead from where the condition is not true to where it is.
    pub(super) fn by_step(mut self, step: Option<&Condition>) -> Claim {
        self.step = step.cloned();
        self.direction = Direction::OneWay;
        self
    }

    /// The same said of another world; only diagrams can tell whether it holds there.
    pub(super) fn in_world(mut self, world: World) -> Claim {
        for case in &mut self.cases {
            case.first = case.first.in_world(world);
            case.second = case.second.in_world(world);
        }
        self
    }

    fn none(ruleset: &Ruleset, pairing: Pairing, direction: Direction) -> Claim {
        Claim {
            twin: Twin::new(ruleset, pairing),
            step: None,
            cases: Vec::new(),
            direction,
            reads: Reads::Rulings,
        }
    }

    fn touches(&self, dimension: DimensionId) -> bool {
        self.twin.second_dimension(dimension) != dimension
    }

    /// The announced dimensions whose rulings may differ.
    pub(super) fn dimensions(&self, ruleset: &Ruleset) -> Vec<DimensionId> {
        announced(ruleset).filter(|id| self.touches(*id)).collect()
    }

    /// The form of the pairs.
    pub(super) fn pairing(&self) -> &Pairing {
        self.twin.pairing()
    }

    /// Whether nothing can be against it: no ruling that it speaks of rests on what may differ.
    pub(super) fn holds_by_form(&self) -> bool {
        self.cases.is_empty()
    }

    /// The pairs against it, as a question about the twin.
    pub(super) fn question(&self) -> Formula {
        let case = |case: &Case| {
            Formula::all([case.first.clone(), self.twin.second_formula(&case.second)])
        };
        let step = self.step.as_ref().map(|step| {
            let so = is_true(step, Mode::ACTUAL);
            Formula::all([so.clone().negated(), self.twin.second_formula(&so)])
        });
        let against = Formula::any(self.cases.iter().map(case));
        Formula::all([self.twin.related(), against].into_iter().chain(step))
    }

    /// Whether a pair of scenarios, of which the rulings are known, is against it.
    pub(super) fn is_against(
        &self,
        ruleset: &Ruleset,
        first: &Judged<'_>,
        second: &Judged<'_>,
    ) -> bool {
        if !self
            .pairing()
            .holds(first.scenario, second.scenario, ruleset.attributes.len())
        {
            return false;
        }
        if let Some(step) = &self.step {
            let evaluator = Evaluator::new(ruleset);
            let so = |of: &Judged<'_>| evaluator.plain_truth(step, of.scenario) == Truth::True;
            if so(first) || !so(second) {
                return false;
            }
        }
        let (one, other) = (first.replay(ruleset), second.replay(ruleset));
        let mut cases = self.cases.iter();
        cases.any(|case| one.holds(&case.first) && other.holds(&case.second))
    }

    /// Whether the plain evaluator agrees that this is a pair, and against the claim.
    pub(super) fn is_refuted_by(&self, inquiry: &Inquiry<'_, '_>, pair: &Pair) -> bool {
        let ruleset = inquiry.ruleset;
        let both = [&pair.first, &pair.second];
        both.iter().all(|scenario| is_valid(ruleset, scenario)) && {
            let [first, second] = both.map(|scenario| Judged::new(inquiry, scenario));
            self.is_against(ruleset, &first, &second)
        }
    }

    /// The scenarios that are the first of a pair against it.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub(super) fn firsts(&self, diagrams: &mut Diagrams<'_>) -> Result<Firsts, TooLarge> {
        self.firsts_among(diagrams, None)
    }

    /// The same in a part of the space that says nothing of what may differ within a pair.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub(super) fn firsts_within(
        &self,
        diagrams: &mut Diagrams<'_>,
        part: &Formula,
    ) -> Result<Firsts, TooLarge> {
        let part = diagrams.set(part)?;
        self.firsts_among(diagrams, Some(&part))
    }

    fn firsts_among(
        &self,
        diagrams: &mut Diagrams<'_>,
        part: Option<&Set>,
    ) -> Result<Firsts, TooLarge> {
        let nowhere = diagrams.set(&Formula::False)?;
        let mut all = Set::clone(&nowhere);
        let mut on: BTreeMap<DimensionId, Set> = BTreeMap::new();
        for case in &self.cases {
            let firsts = self.firsts_of(diagrams, case, part)?;
            if firsts.is_false() {
                continue;
            }
            all = diagrams.or(&all, &firsts)?;
            if let Some(dimension) = case.on {
                let known = on.get(&dimension).unwrap_or(&nowhere);
                let more = diagrams.or(known, &firsts)?;
                on.insert(dimension, more);
            }
        }
        Ok(Firsts { all, on })
    }

    /// The clauses that read what may differ and are met in one half of a pair only.
    pub(super) fn met_in_one(&self, [one, other]: &[Outcome; 2]) -> Vec<ClauseId> {
        let mut readers = self.twin.readers();
        readers.retain(|id| one.met.contains(id.index()) != other.met.contains(id.index()));
        readers
    }

    /// A pair of which the first meets a clause and the second does not, of those whose first lies in
    /// the set.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub(super) fn pair_through(
        &self,
        diagrams: &mut Diagrams<'_>,
        firsts: &Firsts,
        clause: ClauseId,
    ) -> Result<Option<Pair>, TooLarge> {
        let met = Formula::from(Name::Met(World::Actual, clause));
        let here = diagrams.set(&met)?;
        if diagrams.and(&here, &firsts.all)?.is_false() {
            return Ok(None);
        }
        let differs = |case: &&Case| case.on.is_none_or(|on| firsts.on.contains_key(&on));
        for case in self.cases.iter().filter(differs) {
            let case = Case {
                first: Formula::all([met.clone(), case.first.clone()]),
                second: Formula::all([met.clone().negated(), case.second.clone()]),
                on: case.on,
            };
            if let Some(pair) = self.pair_of(diagrams, &case)? {
                return Ok(Some(pair));
            }
        }
        Ok(None)
    }

    fn halves(&self, case: &Case) -> (Formula, Formula) {
        let moved = self.moved();
        let step = self.step.as_ref();
        let so = step.map_or(Formula::True, |step| is_true(step, Mode::ACTUAL));
        let before = step.map_or(Formula::True, |_| so.clone().negated());
        (
            Formula::all([moved.clone(), before, case.first.clone()]),
            Formula::all([moved, so, case.second.clone()]),
        )
    }

    /// Where something that may change is asked, in one word for both halves: of what differs within
    /// a pair, what comes first in the order of asking is asked in both.
    fn moved(&self) -> Formula {
        let pairing = self.pairing();
        let own = pairing.changing_attributes().iter().copied();
        let own = own.chain(pairing.rising_attribute());
        Formula::any(own.map(|id| {
            let this = &self.twin.ruleset()[id];
            let always = this.asked_when.is_none() && this.origin == Origin::Stated;
            if always {
                Formula::True
            } else {
                Name::Asked(id).into()
            }
        }))
    }

    fn firsts_of(
        &self,
        diagrams: &mut Diagrams<'_>,
        case: &Case,
        part: Option<&Set>,
    ) -> Result<Set, TooLarge> {
        let (first, second) = self.halves(case);
        let set = |diagrams: &mut Diagrams<'_>, half: &Formula| match part {
            Some(part) => diagrams.set_within(part, half),
            None => diagrams.set(half),
        };
        let second = set(diagrams, &second)?;
        if second.is_false() {
            return Ok(second);
        }
        let firsts = diagrams.firsts(&second, self.pairing())?;
        let first = set(diagrams, &first)?;
        diagrams.and(&first, &firsts)
    }

    /// The most ordinary pair of one case; none where there is no such pair.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub(super) fn pair_of(
        &self,
        diagrams: &mut Diagrams<'_>,
        case: &Case,
    ) -> Result<Option<Pair>, TooLarge> {
        let firsts = self.firsts_of(diagrams, case, None)?;
        self.pair_from(diagrams, case, &firsts)
    }

    /// The most ordinary pair of one case whose first scenario lies in the set.
    fn pair_from(
        &self,
        diagrams: &mut Diagrams<'_>,
        case: &Case,
        firsts: &Set,
    ) -> Result<Option<Pair>, TooLarge> {
        let Some(first) = diagrams.most_ordinary(firsts) else {
            return Ok(None);
        };
        let (_, second) = self.halves(case);
        let second = diagrams.set(&second)?;
        let this = diagrams.like(&first)?;
        let others = diagrams.seconds(&this, self.pairing())?;
        let others = diagrams.and(&others, &second)?;
        Ok(diagrams
            .most_ordinary(&others)
            .map(|second| Pair { first, second }))
    }

    /// The most ordinary pair of any case.
    ///
    /// # Errors
    /// [`TooLarge`]
    pub(super) fn pair(
        &self,
        diagrams: &mut Diagrams<'_>,
        firsts: &Firsts,
    ) -> Result<Option<Pair>, TooLarge> {
        let Some(first) = diagrams.most_ordinary(&firsts.all) else {
            return Ok(None);
        };
        let this = diagrams.like(&first)?;
        for case in &self.cases {
            let here = self.firsts_of(diagrams, case, None)?;
            let here = diagrams.and(&here, &this)?;
            if let Some(pair) = self.pair_from(diagrams, case, &here)? {
                return Ok(Some(pair));
            }
        }
        Ok(None)
    }
}

/// The dimensions that are announced.
pub(super) fn announced(ruleset: &Ruleset) -> impl Iterator<Item = DimensionId> {
    let all = ruleset.dimensions.iter().enumerate();
    all.filter(|(_, dimension)| !dimension.intermediate)
        .map(|(index, _)| DimensionId::new(index))
}

fn allowed(on: DimensionId, value: usize) -> Formula {
    let value = u8::try_from(value).unwrap_or(u8::MAX);
    Name::Allowed(World::Actual, on, value).into()
}

/// Where the ruling is exactly this value.
pub(super) fn exactly(on: DimensionId, value: usize) -> Formula {
    Formula::all([Name::Settled(World::Actual, on).into(), allowed(on, value)])
}

/// All ways in which two rulings on a dimension are not the same.
fn differences(ruleset: &Ruleset, on: DimensionId) -> Vec<Case> {
    let values = 0..ruleset[on].values.len();
    // Settled or not tells "none is due" from the empty set of `all_apply`.
    let kinds = [
        Name::Settled(World::Actual, on),
        Name::Gap(World::Actual, on),
        Name::Clash(World::Actual, on),
    ];
    let marks = values
        .map(|value| allowed(on, value))
        .chain(kinds.map(Formula::from));
    let both = marks.flat_map(|mark| {
        let not = mark.clone().negated();
        [
            Case {
                first: mark.clone(),
                second: not.clone(),
                on: Some(on),
            },
            Case {
                first: not,
                second: mark,
                on: Some(on),
            },
        ]
    });
    both.collect()
}

/// A scenario and what is ruled in it.
pub(super) struct Judged<'s> {
    pub(super) scenario: &'s Scenario,
    pub(super) outcome: Rc<Outcome>,
}

impl<'s> Judged<'s> {
    pub(super) fn new(inquiry: &Inquiry<'_, '_>, scenario: &'s Scenario) -> Self {
        Judged {
            scenario,
            outcome: Rc::new(inquiry.outcome(scenario)),
        }
    }

    fn replay<'a>(&'a self, ruleset: &'a Ruleset) -> Replay<'a> {
        Replay::knowing(ruleset, self.scenario, Rc::clone(&self.outcome))
    }
}
