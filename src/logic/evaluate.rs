//! The plain evaluator: what a ruleset says about one scenario.
//!
//! It follows the text of the language step by step, in three truth values, and shares no code with
//! the formulas that a solver sees; it is the reference that they are checked against.

use super::{Code, Edit, Precedence, Scenario, Unasked};
use crate::model::{
    AttributeId, BackgroundRule, ClauseId, Condition, ConditionKind, DimensionId, Linear, Meaning,
    Origin, Ruleset, RulingTest, Step, TermId, Test, ValueSet, WhenSeveral,
};
use fixedbitset::FixedBitSet;
use std::borrow::Cow;
use std::cell::RefCell;

/// The truth of a condition in a scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Truth {
    /// It is so.
    True,
    /// It is not so.
    False,
    /// Neither: it is about something that isn't asked, or about a ruling that is not exactly one.
    Neither,
}

impl Truth {
    /// True or false.
    pub fn of(holds: bool) -> Truth {
        if holds { Truth::True } else { Truth::False }
    }

    /// True where this is false; neither stays neither.
    pub fn contrary(self) -> Truth {
        match self {
            Truth::True => Truth::False,
            Truth::False => Truth::True,
            Truth::Neither => Truth::Neither,
        }
    }
}

/// Where a dimension's ruling comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Basis {
    /// Clauses whose rulings stand.
    Clauses,
    /// No clause says anything: the dimension's `otherwise`.
    Default,
    /// A ruling is due and none is given.
    Gap,
    /// No clause says anything, and none is due.
    Silence,
    /// The standing rulings have nothing in common.
    Contradiction,
}

/// What a dimension's ruling is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ruling {
    /// Where it comes from.
    pub basis: Basis,
    /// The values it may come out as; for `all_apply` the set of all. Empty where there is no ruling.
    pub values: ValueSet,
}

impl Ruling {
    /// Whether there is a ruling and it is exactly one (for `all_apply`: whether there is one).
    pub fn is_settled(self, when_several: WhenSeveral) -> bool {
        matches!(self.basis, Basis::Clauses | Basis::Default)
            && (when_several == WhenSeveral::AllApply || self.values.len() == 1)
    }
}

/// What a ruleset says about one scenario.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// The clauses whose condition is true.
    pub met: FixedBitSet,
    /// The clauses that are met and not disapplied.
    pub in_force: FixedBitSet,
    /// For each dimension the clauses whose ruling stands.
    pub standing: Vec<Vec<ClauseId>>,
    /// For each dimension its ruling.
    pub rulings: Vec<Ruling>,
}

impl Outcome {
    /// Whether the clause's ruling on the dimension stands.
    pub fn stands(&self, clause: ClauseId, dimension: DimensionId) -> bool {
        self.standing
            .get(dimension.index())
            .is_some_and(|clauses| clauses.contains(&clause))
    }

    /// The other clauses whose rulings stand on a dimension that this one rules on, each once.
    pub fn standing_beside(&self, clause: ClauseId, ruleset: &Ruleset) -> Vec<ClauseId> {
        let on = ruleset[clause].rulings.iter();
        let standing = on.filter_map(|(dimension, _)| self.standing.get(dimension.index()));
        let mut beside: Vec<ClauseId> = Vec::new();
        for other in standing.flatten().filter(|other| **other != clause) {
            if !beside.contains(other) {
                beside.push(*other);
            }
        }
        beside
    }

    /// Whether every announced ruling is the same as in `other`.
    pub fn announces_the_same(&self, other: &Outcome, ruleset: &Ruleset) -> bool {
        let announced = ruleset
            .dimensions
            .iter()
            .map(|dimension| !dimension.intermediate);
        let pairs = self.rulings.iter().zip(&other.rulings);
        pairs
            .zip(announced)
            .all(|((one, another), announced)| !announced || same_ruling(*one, *another))
    }
}

/// Whether two rulings say the same to the athlete: where they come from does not matter, unless
/// one of them is none at all.
pub fn same_ruling(one: Ruling, another: Ruling) -> bool {
    let kind = |ruling: Ruling| match ruling.basis {
        Basis::Clauses | Basis::Default => 0,
        Basis::Gap => 1,
        Basis::Silence => 2,
        Basis::Contradiction => 3,
    };
    one.values == another.values && kind(one) == kind(another)
}

/// How a dimension's standing rulings come together.
///
/// `due` says whether silence is a gap here.
pub fn combine(
    ruleset: &Ruleset,
    dimension: DimensionId,
    standing: &[ValueSet],
    due: bool,
) -> Ruling {
    let dimension = &ruleset[dimension];
    let none = |basis| Ruling {
        basis,
        values: ValueSet::EMPTY,
    };
    if standing.is_empty() {
        return match dimension.otherwise {
            _ if due => none(Basis::Gap),
            Some(values) => Ruling {
                basis: Basis::Default,
                values,
            },
            None => none(Basis::Silence),
        };
    }
    let union = standing
        .iter()
        .fold(ValueSet::EMPTY, |all, values| all.union(*values));
    let values = match dimension.when_several {
        WhenSeveral::MustAgree => standing
            .iter()
            .fold(union, |common, values| common.intersect(*values)),
        WhenSeveral::Highest => {
            let floor = standing
                .iter()
                .filter_map(|values| values.lowest())
                .max()
                .unwrap_or(0);
            union.iter().filter(|value| *value >= floor).collect()
        }
        WhenSeveral::Lowest => {
            let ceiling = standing
                .iter()
                .filter_map(|values| values.highest())
                .min()
                .unwrap_or(0);
            union.iter().filter(|value| *value <= ceiling).collect()
        }
        WhenSeveral::AllApply => union,
    };
    if values.is_empty() {
        none(Basis::Contradiction)
    } else {
        Ruling {
            basis: Basis::Clauses,
            values,
        }
    }
}

/// Works out what a ruleset says, scenario by scenario.
#[derive(Clone, Copy, Debug)]
pub struct Evaluator<'r> {
    ruleset: &'r Ruleset,
    without: Option<ClauseId>,
    edit: Option<&'r Edit>,
}

impl<'r> Evaluator<'r> {
    /// Takes the ruleset as it stands.
    pub fn new(ruleset: &'r Ruleset) -> Self {
        Evaluator {
            ruleset,
            without: None,
            edit: None,
        }
    }

    /// Takes the ruleset as if a clause were not there.
    pub fn without(ruleset: &'r Ruleset, clause: ClauseId) -> Self {
        Evaluator {
            ruleset,
            without: Some(clause),
            edit: None,
        }
    }

    /// Takes the ruleset with an edit made.
    pub fn edited(ruleset: &'r Ruleset, edit: &'r Edit) -> Self {
        Evaluator {
            ruleset,
            without: None,
            edit: Some(edit),
        }
    }

    /// The clauses that may be met where the ruleset as it stands does not say so.
    pub(super) fn edited_clauses(&self) -> impl Iterator<Item = ClauseId> {
        self.edit.into_iter().flat_map(Edit::clauses)
    }

    /// The clauses that stand before one.
    fn before(&self, precedence: Precedence, clause: ClauseId) -> Cow<'r, [ClauseId]> {
        let stated = match precedence {
            Precedence::Prevails => &self.ruleset[clause].yields_to,
            Precedence::Disapplies => &self.ruleset[clause].disapplied_by,
        };
        match self.edit {
            Some(edit) => edit.before(precedence, clause, stated),
            None => Cow::Borrowed(stated),
        }
    }

    /// What the ruleset says about a scenario.
    pub fn outcome(&self, scenario: &Scenario) -> Outcome {
        self.outcome_by(scenario, self.ruleset.order.iter().copied())
    }

    /// The same where all clauses that are met, and all dimensions, are among `steps`, which stand in
    /// the ruleset's order.
    pub fn outcome_by(
        &self,
        scenario: &Scenario,
        steps: impl IntoIterator<Item = Step>,
    ) -> Outcome {
        let facts = Facts::new(self.ruleset, scenario);
        let dimensions = self.ruleset.dimensions.len();
        let clauses = self.ruleset.clauses.len();
        let mut said = Outcome {
            met: FixedBitSet::with_capacity(clauses),
            in_force: FixedBitSet::with_capacity(clauses),
            standing: vec![Vec::new(); dimensions],
            rulings: vec![
                Ruling {
                    basis: Basis::Silence,
                    values: ValueSet::EMPTY
                };
                dimensions
            ],
        };
        // Clauses in force that rule on each dimension; whether they stand is known once all are.
        let mut speaking: Vec<Vec<ClauseId>> = vec![Vec::new(); dimensions];
        for step in steps {
            match step {
                Step::Clause(id) if Some(id) == self.without => {}
                Step::Clause(id) => {
                    let clause = &self.ruleset[id];
                    let when = self.edit.and_then(|edit| edit.when(id));
                    let when = when.unwrap_or(&clause.when);
                    if facts.truth(when, Unasked::Neither, &said.rulings) != Truth::True {
                        continue;
                    }
                    said.met.insert(id.index());
                    if self
                        .before(Precedence::Disapplies, id)
                        .iter()
                        .any(|other| said.in_force.contains(other.index()))
                    {
                        continue;
                    }
                    said.in_force.insert(id.index());
                    for (dimension, _) in &clause.rulings {
                        if let Some(list) = speaking.get_mut(dimension.index()) {
                            list.push(id);
                        }
                    }
                }
                Step::Dimension(id) => {
                    let list = speaking.get(id.index()).map_or(&[][..], Vec::as_slice);
                    let stands = |clause: &ClauseId| {
                        !self
                            .before(Precedence::Prevails, *clause)
                            .iter()
                            .any(|other| {
                                said.in_force.contains(other.index())
                                    && self.ruleset[*other].ruling_on(id).is_some()
                            })
                    };
                    let mut standing: Vec<ClauseId> = list.iter().copied().filter(stands).collect();
                    standing.sort_unstable();
                    let mut allowed: Vec<ValueSet> = standing
                        .iter()
                        .filter_map(|clause| self.ruleset[*clause].ruling_on(id))
                        .collect();
                    for (when, values) in self.edit.iter().flat_map(|edit| edit.speaks(id)) {
                        if facts.truth(when, Unasked::Neither, &said.rulings) == Truth::True {
                            allowed.push(values);
                        }
                    }
                    let due = self.is_due(id, &facts, &said.rulings);
                    if let (Some(ruling), Some(clauses)) = (
                        said.rulings.get_mut(id.index()),
                        said.standing.get_mut(id.index()),
                    ) {
                        *ruling = combine(self.ruleset, id, &allowed, due);
                        *clauses = standing;
                    }
                }
            }
        }
        said
    }

    fn is_due(&self, id: DimensionId, facts: &Facts<'_>, rulings: &[Ruling]) -> bool {
        let dimension = &self.ruleset[id];
        match &dimension.required_when {
            Some(condition) => facts.truth(condition, Unasked::Neither, rulings) == Truth::True,
            None => dimension.otherwise.is_none(),
        }
    }

    /// The truth of a condition in a scenario of which the rulings are known.
    pub fn truth(
        &self,
        condition: &Condition,
        unasked: Unasked,
        scenario: &Scenario,
        said: &Outcome,
    ) -> Truth {
        Facts::new(self.ruleset, scenario).truth(condition, unasked, &said.rulings)
    }

    /// The truth of a condition that reads no ruling.
    pub fn plain_truth(&self, condition: &Condition, scenario: &Scenario) -> Truth {
        Facts::new(self.ruleset, scenario).truth(condition, Unasked::Neither, &[])
    }

    /// The truth of a term in a scenario.
    pub fn term(&self, term: TermId, unasked: Unasked, scenario: &Scenario) -> Truth {
        Facts::new(self.ruleset, scenario).term(term, unasked)
    }
}

/// Whether exactly what is asked has a value, in range, and no background line is broken.
pub fn is_valid(ruleset: &Ruleset, scenario: &Scenario) -> bool {
    let facts = Facts::new(ruleset, scenario);
    let attributes = (0..ruleset.attributes.len()).map(AttributeId::new);
    let fits = |id: AttributeId| match scenario.get(id) {
        Some(code) => facts.is_asked(id) && super::highest_code(&ruleset[id].kind) >= code.0,
        None => !facts.is_asked(id),
    };
    attributes.into_iter().all(fits) && facts.keeps_background()
}

/// Whether no background line is broken, and nothing else.
pub fn keeps_background(ruleset: &Ruleset, scenario: &Scenario) -> bool {
    Facts::new(ruleset, scenario).keeps_background()
}

/// Whether an attribute is asked in a scenario; what its `asked_when` reads must already be set.
pub fn is_asked(ruleset: &Ruleset, scenario: &Scenario, attribute: AttributeId) -> bool {
    Facts::new(ruleset, scenario).is_asked(attribute)
}

/// A scenario with the truth of its terms, each worked out at most once.
pub(super) struct Facts<'a> {
    ruleset: &'a Ruleset,
    scenario: &'a Scenario,
    terms: RefCell<Vec<[Option<Truth>; 2]>>,
}

impl<'a> Facts<'a> {
    pub(super) fn new(ruleset: &'a Ruleset, scenario: &'a Scenario) -> Self {
        Facts {
            ruleset,
            scenario,
            terms: RefCell::new(vec![[None; 2]; ruleset.terms.len()]),
        }
    }

    pub(super) fn truth(
        &self,
        condition: &Condition,
        unasked: Unasked,
        rulings: &[Ruling],
    ) -> Truth {
        let part = |part: &Condition| self.truth(part, unasked, rulings);
        match &condition.kind {
            ConditionKind::Always => Truth::True,
            ConditionKind::Missing(_) => Truth::Neither,
            ConditionKind::Fact { test, positive } => match (self.test(test), unasked) {
                (Some(holds), _) => Truth::of(holds == *positive),
                (None, Unasked::Neither) => Truth::Neither,
                (None, Unasked::TakenAsNo) => Truth::False,
            },
            ConditionKind::Ruling {
                dimension,
                test,
                positive,
            } => {
                let when_several = self.ruleset[*dimension].when_several;
                match rulings.get(dimension.index()) {
                    Some(ruling) if ruling.is_settled(when_several) => {
                        Truth::of(ruling_test(test, ruling.values) == *positive)
                    }
                    _ => Truth::Neither,
                }
            }
            ConditionKind::Term(term) => self.term(*term, unasked),
            ConditionKind::Not(inner) => part(inner).contrary(),
            ConditionKind::NotTrue(inner) => Truth::of(part(inner) != Truth::True),
            ConditionKind::All(parts) => {
                first_settling(parts.iter().map(part), Truth::False, Truth::True)
            }
            ConditionKind::Any(parts) => {
                first_settling(parts.iter().map(part), Truth::True, Truth::False)
            }
            ConditionKind::Count { least, most, of } => {
                let truths: Vec<Truth> = of.iter().map(part).collect();
                let count = |wanted| truths.iter().filter(|truth| **truth == wanted).count();
                let (fewest, most_possible) = (count(Truth::True), of.len() - count(Truth::False));
                let (least, most) = (*least as usize, *most as usize);
                if fewest >= least && most_possible <= most {
                    Truth::True
                } else if most_possible < least || fewest > most {
                    Truth::False
                } else {
                    Truth::Neither
                }
            }
        }
    }

    pub(super) fn term(&self, id: TermId, unasked: Unasked) -> Truth {
        let slot = usize::from(unasked == Unasked::TakenAsNo);
        let known = self
            .terms
            .borrow()
            .get(id.index())
            .and_then(|slots| slots[slot]);
        if let Some(truth) = known {
            return truth;
        }
        let truth = match &self.ruleset[id].meaning {
            Meaning::Sharp(condition) => self.truth(condition, unasked, &[]),
            Meaning::Vague {
                narrow,
                broad,
                reading,
            } => match self.truth(narrow, unasked, &[]) {
                Truth::True => Truth::True,
                _ => match self.truth(broad, unasked, &[]) {
                    Truth::True => match (self.scenario.get(*reading), unasked) {
                        (Some(code), _) => Truth::of(code.0 != 0),
                        (None, Unasked::TakenAsNo) => Truth::False,
                        // Only while a scenario is being built: the reading has not been chosen yet.
                        (None, Unasked::Neither) => Truth::Neither,
                    },
                    other => other,
                },
            },
        };
        if let Some(slots) = self.terms.borrow_mut().get_mut(id.index()) {
            slots[slot] = Some(truth);
        }
        truth
    }

    fn is_asked(&self, id: AttributeId) -> bool {
        let attribute = &self.ruleset[id];
        if let Origin::Reading(term) = attribute.origin {
            return match &self.ruleset[term].meaning {
                Meaning::Sharp(_) => false,
                Meaning::Vague { narrow, broad, .. } => {
                    self.truth(narrow, Unasked::Neither, &[]) != Truth::True
                        && self.truth(broad, Unasked::Neither, &[]) == Truth::True
                }
            };
        }
        let asked_when = attribute.asked_when.as_ref();
        asked_when
            .is_none_or(|condition| self.truth(condition, Unasked::Neither, &[]) == Truth::True)
    }

    pub(super) fn keeps_background(&self) -> bool {
        self.ruleset.background.iter().all(|line| match &line.rule {
            BackgroundRule::Never(condition) => {
                self.truth(condition, Unasked::Neither, &[]) != Truth::True
            }
            BackgroundRule::Always(condition) => {
                self.truth(condition, Unasked::Neither, &[]) != Truth::False
            }
        })
    }

    /// Whether the comparison holds; `None` where something that it reads isn't asked.
    pub(super) fn test(&self, test: &Test) -> Option<bool> {
        let index = |code: Code| usize::try_from(code.0).unwrap_or(usize::MAX);
        let step = |code: Code| i64::try_from(code.0).unwrap_or(i64::MAX);
        Some(match test {
            Test::OneOf { attribute, values } => {
                values.contains(index(self.scenario.get(*attribute)?))
            }
            Test::Within {
                attribute,
                low,
                high,
            } => (*low..=*high).contains(&step(self.scenario.get(*attribute)?)),
            Test::Same { left, right, pairs } => {
                let (left, right) = (self.scenario.get(*left)?, self.scenario.get(*right)?);
                pairs
                    .iter()
                    .any(|(one, other)| (u64::from(*one), u64::from(*other)) == (left.0, right.0))
            }
            Test::Linear(Linear { parts, bound }) => {
                let mut sum = 0i128;
                for (weight, attribute) in parts {
                    sum += i128::from(*weight) * i128::from(step(self.scenario.get(*attribute)?));
                }
                sum <= i128::from(*bound)
            }
            Test::Several {
                attribute,
                items,
                least,
                most,
            } => {
                let present = ValueSet::from_bits(u128::from(self.scenario.get(*attribute)?.0));
                let count = present.intersect(*items).len();
                count >= *least as usize && count <= *most as usize
            }
        })
    }
}

fn first_settling(mut truths: impl Iterator<Item = Truth>, settling: Truth, empty: Truth) -> Truth {
    let mut all = empty;
    for truth in truths.by_ref() {
        if truth == settling {
            return settling;
        }
        if truth == Truth::Neither {
            all = Truth::Neither;
        }
    }
    all
}

/// Whether a comparison over a settled ruling holds.
pub(super) fn ruling_test(test: &RulingTest, values: ValueSet) -> bool {
    match test {
        RulingTest::OneOf(wanted) => values.is_within(*wanted),
        RulingTest::Includes { items, least, most } => {
            let count = values.intersect(*items).len();
            count >= *least as usize && count <= *most as usize
        }
    }
}
