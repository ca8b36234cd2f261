//! What every search for telling scenarios needs: the bits, the evaluator, the solver, what is wanted.
//!
//! A scenario is looked for cheaply first; the solver is asked for what is left, and its "none" is
//! the only ground on which anything is said not to exist.

use crate::analysis::Search;
use crate::logic::{
    Code, Evaluator, Formula, Layers, Mode, Outcome, Part, Reach, Scenario, Truth, Unasked,
    attributes_read, highest_code, is_true, is_valid, same_ruling,
};
use crate::model::{AttributeId, AttributeKind, ClauseId, Condition, DimensionId, Ruleset};
use crate::read::draft::BackgroundRule;
use crate::solve::{Answer, Budget, Reason, Solver, Z3Solver};
use std::collections::BTreeSet;

/// Which scenarios are wanted.
#[derive(Clone, Debug, Default)]
pub struct Wanted {
    /// Clauses that it is to be about; all where there are none.
    pub clauses: Vec<ClauseId>,
    /// Conditions that all hold in what is shown; of a pair, in one of the two.
    pub conditions: Vec<Condition>,
}

impl Wanted {
    /// Whether it may be about this clause.
    pub fn is_about(&self, clause: ClauseId) -> bool {
        self.clauses.is_empty() || self.clauses.contains(&clause)
    }
}

/// The tools for one ruleset.
pub(crate) struct Study<'a, 'r> {
    pub(crate) ruleset: &'r Ruleset,
    pub(crate) reach: &'a Reach<'r>,
    pub(crate) wanted: &'a Wanted,
    solver: Z3Solver<'r>,
    budget: Budget,
}

/// The most values of one attribute that are tried in a scenario's place.
const MOST_VALUES: usize = 160;

impl<'a, 'r> Study<'a, 'r> {
    pub(crate) fn new(
        ruleset: &'r Ruleset,
        reach: &'a Reach<'r>,
        wanted: &'a Wanted,
        budget: &Budget,
    ) -> Self {
        Study {
            ruleset,
            reach,
            wanted,
            solver: Z3Solver::new(ruleset, budget.clone()),
            budget: budget.clone(),
        }
    }

    pub(crate) fn budget(&self) -> &Budget {
        &self.budget
    }

    pub(crate) fn exhausted(&self) -> Option<Reason> {
        self.budget.exhausted()
    }

    pub(crate) fn evaluator(&self) -> Evaluator<'r> {
        Evaluator::new(self.ruleset)
    }

    pub(crate) fn search(&self) -> Search<'a, 'r> {
        Search::new(self.ruleset, self.reach)
    }

    /// What the ruleset says about a scenario.
    pub(crate) fn outcome(&self, scenario: &Scenario) -> Outcome {
        self.reach.outcome(self.evaluator(), scenario)
    }

    /// Is there a scenario in which this holds?
    pub(crate) fn ask(&mut self, question: &Formula) -> Answer {
        self.solver.ask(question)
    }

    /// Whether a scenario is wanted.
    pub(crate) fn is_wanted(&self, scenario: &Scenario, said: &Outcome) -> bool {
        self.wanted
            .conditions
            .iter()
            .all(|condition| self.holds(condition, scenario, said))
    }

    pub(crate) fn holds(&self, condition: &Condition, scenario: &Scenario, said: &Outcome) -> bool {
        let truth = self
            .evaluator()
            .truth(condition, Unasked::Neither, scenario, said);
        truth == Truth::True
    }

    /// Where a scenario is wanted, as a formula.
    pub(crate) fn wanted_formula(&self) -> Formula {
        let conditions = self.wanted.conditions.iter();
        Formula::all(conditions.map(|condition| is_true(condition, Mode::ACTUAL)))
    }

    /// The announced dimensions on which two outcomes differ.
    pub(crate) fn differing(&self, one: &Outcome, other: &Outcome) -> Vec<DimensionId> {
        let ids = (0..self.ruleset.dimensions.len()).map(DimensionId::new);
        let differs = |id: &DimensionId| {
            let pair = (one.rulings.get(id.index()), other.rulings.get(id.index()));
            !self.ruleset[*id].intermediate
                && matches!(pair, (Some(one), Some(other)) if !same_ruling(*one, *other))
        };
        ids.filter(differs).collect()
    }

    /// Whether the clause counts: a ruling of it stands, or it is in force and has none.
    pub(crate) fn counts(&self, clause: ClauseId, said: &Outcome) -> bool {
        let rulings = &self.ruleset[clause].rulings;
        said.in_force.contains(clause.index())
            && (rulings.is_empty() || rulings.iter().any(|(on, _)| said.stands(clause, *on)))
    }

    /// The other values that an attribute could have in a scenario, those of numbers only around
    /// where the rules turn, the nearest first.
    pub(crate) fn other_values(&self, id: AttributeId, code: Code) -> Vec<Code> {
        let kind = &self.ruleset[id].kind;
        let mut codes: BTreeSet<u64> = BTreeSet::new();
        match kind {
            AttributeKind::YesNo | AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
                codes.extend(0..=highest_code(kind));
            }
            AttributeKind::Number(range) => {
                let layers = self.reach.layers();
                for layer in layers.of(id).filter_map(|index| layers.all().get(index)) {
                    if let Part::Steps { ranges, .. } = &layer.part {
                        let ends = ranges.iter().flat_map(|(low, high)| [*low, *high]);
                        codes.extend(ends.filter_map(|step| u64::try_from(step).ok()));
                    }
                }
                let steps = u64::try_from(range.steps).unwrap_or(0);
                codes.extend([
                    code.0.saturating_sub(1),
                    code.0.saturating_add(1).min(steps),
                ]);
            }
            AttributeKind::Several(items) => {
                codes.extend((0..items.len().min(64)).map(|item| code.0 ^ (1 << item)));
                codes.extend([0, highest_code(kind)]);
            }
        }
        codes.remove(&code.0);
        let mut codes: Vec<Code> = codes.into_iter().map(Code).collect();
        codes.sort_by_key(|other| (self.distance(id, code, *other), *other));
        codes.truncate(MOST_VALUES);
        codes
    }

    /// Whether an attribute's values have an order.
    pub(crate) fn is_ordered(&self, id: AttributeId) -> bool {
        let kind = &self.ruleset[id].kind;
        matches!(kind, AttributeKind::Scale(_) | AttributeKind::Number(_))
    }

    /// How far apart two values are.
    pub(crate) fn distance(&self, id: AttributeId, one: Code, other: Code) -> u64 {
        match self.ruleset[id].kind {
            AttributeKind::Scale(_) | AttributeKind::Number(_) => one.0.abs_diff(other.0),
            AttributeKind::Several(_) => u64::from((one.0 ^ other.0).count_ones()),
            AttributeKind::YesNo | AttributeKind::Choice(_) => u64::from(one != other),
        }
    }

    /// The scenarios that differ from this one in one attribute, and in what is asked because of it:
    /// the value as it would be most ordinary, then with one newly asked attribute at another value.
    pub(crate) fn with_value(
        &self,
        scenario: &Scenario,
        id: AttributeId,
        code: Code,
    ) -> Vec<Scenario> {
        let mut changed = scenario.clone();
        changed.set(id, Some(code));
        Layers::settle_asking(self.ruleset, &mut changed);
        let new: Vec<AttributeId> = changed
            .facts()
            .map(|(other, _)| other)
            .filter(|other| *other != id && scenario.get(*other).is_none())
            .collect();
        let mut found = vec![changed.clone()];
        for other in new {
            for value in self.other_values(other, Code(0)) {
                let mut further = changed.clone();
                further.set(other, Some(value));
                Layers::settle_asking(self.ruleset, &mut further);
                found.push(further);
            }
        }
        found.retain(|scenario| is_valid(self.ruleset, scenario));
        found
    }

    /// All scenarios that differ from this one in one of these attributes.
    pub(crate) fn neighbours(
        &self,
        scenario: &Scenario,
        among: &BTreeSet<AttributeId>,
    ) -> Vec<(AttributeId, Scenario)> {
        let mut found = Vec::new();
        for id in among {
            let Some(code) = scenario.get(*id) else {
                continue;
            };
            for other in self.other_values(*id, code) {
                let changed = self.with_value(scenario, *id, other).into_iter();
                found.extend(changed.map(|scenario| (*id, scenario)));
            }
        }
        found
    }

    /// What a condition reads, and what decides whether that is asked.
    pub(crate) fn read_by(&self, condition: &Condition) -> BTreeSet<AttributeId> {
        let read = attributes_read(self.ruleset, condition);
        self.with_askers(read.ones().map(AttributeId::new))
    }

    /// These attributes, and those that decide whether they are asked.
    pub(crate) fn with_askers(
        &self,
        ids: impl IntoIterator<Item = AttributeId>,
    ) -> BTreeSet<AttributeId> {
        crate::logic::with_askers(self.ruleset, ids)
    }

    /// These attributes, and whatever the background couples them with.
    pub(crate) fn coupled(&self, mut found: BTreeSet<AttributeId>) -> BTreeSet<AttributeId> {
        let lines: Vec<BTreeSet<AttributeId>> = self
            .ruleset
            .background
            .iter()
            .map(|line| match &line.rule {
                BackgroundRule::Never(condition) | BackgroundRule::Always(condition) => {
                    self.read_by(condition)
                }
            })
            .collect();
        loop {
            let before = found.len();
            for line in &lines {
                if !line.is_disjoint(&found) {
                    found.extend(line);
                }
            }
            if found.len() == before {
                return found;
            }
        }
    }

    /// How unlike two scenarios are: what only one of them asks, then how far values are apart.
    pub(crate) fn unlike(&self, one: &Scenario, other: &Scenario) -> (usize, u64) {
        let mut structure = 0;
        let mut apart = 0;
        for id in (0..self.ruleset.attributes.len()).map(AttributeId::new) {
            match (one.get(id), other.get(id)) {
                (Some(first), Some(second)) => apart += self.distance(id, first, second),
                (None, None) => {}
                _ => structure += 1,
            }
        }
        (structure, apart)
    }

    /// Clauses in force beside this one that keep it from counting or from changing anything.
    pub(crate) fn in_the_way(&self, clause: ClauseId, said: &Outcome) -> Vec<ClauseId> {
        let this = &self.ruleset[clause];
        let above = this.disapplied_by.iter().chain(&this.yields_to).copied();
        let beside = this.rulings.iter().flat_map(|(dimension, _)| {
            let standing = said.standing.get(dimension.index());
            standing.into_iter().flatten().copied()
        });
        let mut found = Vec::new();
        for other in above.chain(beside) {
            let counts = other != clause && said.in_force.contains(other.index());
            if counts && !found.contains(&other) {
                found.push(other);
            }
        }
        found
    }

    /// Clauses that a clause is likely to need beside it: those that give the rulings which its
    /// condition reads, and those whose condition reads what it rules.
    pub(crate) fn companions(&self, clause: ClauseId) -> Vec<ClauseId> {
        const MOST: usize = 16;
        let this = &self.ruleset[clause];
        let read = crate::logic::dimensions_read(&this.when);
        let ids = (0..self.ruleset.clauses.len()).map(ClauseId::new);
        let gives = |other: &ClauseId| {
            let rulings = self.ruleset[*other].rulings.iter();
            rulings.into_iter().any(|(on, _)| read.contains(on))
        };
        let reads = |other: &ClauseId| {
            crate::logic::dimensions_read(&self.ruleset[*other].when)
                .iter()
                .any(|on| this.ruling_on(*on).is_some())
        };
        ids.filter(|other| *other != clause && (gives(other) || reads(other)))
            .take(MOST)
            .collect()
    }
}
