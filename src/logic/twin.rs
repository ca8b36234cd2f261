//! Two scenarios of one ruleset as one scenario of another.
//!
//! In the twin of a ruleset each attribute that may differ between the two stands twice, and so does
//! every term, clause and dimension downstream of it; everything else stands once and is shared. A
//! scenario of the twin is then a pair, and whatever answers questions about rulesets answers
//! questions about pairs, unchanged: "the rulings differ" is an ordinary formula. A shared clause
//! that rules on a doubled dimension rules on both copies.
//!
//! The ids of the ruleset stay as they are and mean the first scenario; second copies come behind.

use super::reads::{attributes_read, attributes_read_by_term};
use super::{Formula, Name, Pairing, Scenario, World, dimensions_read};
use crate::model::{
    Attribute, AttributeId, AttributeKind, Background, BackgroundRule, Clause, ClauseId, Condition,
    ConditionKind, Dimension, DimensionId, Gain, Linear, Meaning, Origin, Principle, Promise,
    Ruleset, Step, Term, TermId, Test, ValueSet,
};
use std::collections::BTreeMap;

/// A ruleset whose scenarios are the pairs of another's.
#[derive(Clone, Debug)]
pub struct Twin {
    ruleset: Ruleset,
    pairing: Pairing,
    copies: Copies,
    /// How many attributes the ruleset has of which this is the twin.
    attributes: usize,
}

/// The second copies of what stands twice.
#[derive(Clone, Debug, Default)]
struct Copies {
    attributes: BTreeMap<AttributeId, AttributeId>,
    terms: BTreeMap<TermId, TermId>,
    clauses: BTreeMap<ClauseId, ClauseId>,
    dimensions: BTreeMap<DimensionId, DimensionId>,
}

impl Twin {
    /// The twin of a ruleset for pairs of this form.
    ///
    /// Its scenarios are all pairs that share what is not touched; [`Twin::related`] says of which of
    /// them the pairing holds.
    pub fn new(ruleset: &Ruleset, pairing: Pairing) -> Self {
        let copies = Copies::of(ruleset, &pairing);
        Twin {
            ruleset: copies.twin(ruleset),
            attributes: ruleset.attributes.len(),
            pairing,
            copies,
        }
    }

    /// The ruleset in which the pairs are scenarios.
    pub fn ruleset(&self) -> &Ruleset {
        &self.ruleset
    }

    /// The form of its pairs.
    pub fn pairing(&self) -> &Pairing {
        &self.pairing
    }

    /// An attribute in the second scenario.
    pub fn second_attribute(&self, id: AttributeId) -> AttributeId {
        self.copies.attribute(id)
    }

    /// A clause in the second scenario; itself where it is the same in both.
    pub fn second_clause(&self, id: ClauseId) -> ClauseId {
        self.copies.clauses.get(&id).copied().unwrap_or(id)
    }

    /// A dimension in the second scenario; itself where it is the same in both.
    pub fn second_dimension(&self, id: DimensionId) -> DimensionId {
        self.copies.dimension(id)
    }

    /// A condition of the ruleset as it reads in the second scenario.
    pub fn second_condition(&self, condition: &Condition) -> Condition {
        self.copies.condition(condition)
    }

    /// Where the pairing holds.
    pub fn related(&self) -> Formula {
        let loose = self.pairing.loose_attributes().iter();
        let agree = loose.map(|id| self.agree_on(*id));
        let rising = self.pairing.rising_attribute().map(|id| {
            let (low, high) = (id, self.second_attribute(id));
            let names = self.ruleset[id].kind.names().len();
            Formula::Holds(if names > 0 {
                let names = u8::try_from(names).unwrap_or(u8::MAX);
                let higher =
                    |one: u8| (one.saturating_add(1)..names).map(move |other| (one, other));
                Test::Same {
                    left: low,
                    right: high,
                    pairs: (0..names).flat_map(higher).collect(),
                }
            } else {
                Test::Linear(Linear {
                    parts: vec![(1, low), (-1, high)],
                    bound: -1,
                })
            })
        });
        Formula::all(agree.chain(rising))
    }

    /// Where an attribute that stands twice has one value in both scenarios, or isn't asked in one of
    /// them.
    pub fn agree_on(&self, id: AttributeId) -> Formula {
        let other = self.second_attribute(id);
        Formula::any([
            Formula::from(Name::Asked(id)).negated(),
            Formula::from(Name::Asked(other)).negated(),
            same_value(&self.ruleset[id].kind, id, other),
        ])
    }

    /// What a formula about the ruleset says of the second scenario.
    pub fn second_formula(&self, formula: &Formula) -> Formula {
        let parts =
            |parts: &[Formula]| parts.iter().map(|part| self.second_formula(part)).collect();
        match formula {
            Formula::True | Formula::False => formula.clone(),
            Formula::Holds(test) => Formula::Holds(self.copies.test(test)),
            Formula::Fails(test) => Formula::Fails(self.copies.test(test)),
            Formula::Named(name) => Formula::Named(self.second_name(*name)),
            Formula::Not(part) => Formula::Not(Box::new(self.second_formula(part))),
            Formula::All(of) => Formula::All(parts(of)),
            Formula::Any(of) => Formula::Any(parts(of)),
            Formula::AtLeast(least, of) => Formula::AtLeast(*least, parts(of)),
        }
    }

    fn second_name(&self, name: Name) -> Name {
        let clause = |id| self.second_clause(id);
        let dimension = |id| self.second_dimension(id);
        let world = |world| match world {
            World::Actual => World::Actual,
            World::Without(id) => World::Without(clause(id)),
            // An edit is made to the twin, and says itself whose clauses it is about.
            World::Edited(id) => World::Edited(id),
        };
        match name {
            Name::Asked(id) => Name::Asked(self.second_attribute(id)),
            Name::Possible => Name::Possible,
            Name::TermTrue(unasked, id) => Name::TermTrue(unasked, self.copies.term(id)),
            Name::TermFalse(unasked, id) => Name::TermFalse(unasked, self.copies.term(id)),
            Name::Met(of, id) => Name::Met(world(of), clause(id)),
            Name::InForce(of, id) => Name::InForce(world(of), clause(id)),
            Name::Stands(of, id, on) => Name::Stands(world(of), clause(id), dimension(on)),
            Name::Spoken(of, on) => Name::Spoken(world(of), dimension(on)),
            Name::Due(of, on) => Name::Due(world(of), dimension(on)),
            Name::Gap(of, on) => Name::Gap(world(of), dimension(on)),
            Name::Clash(of, on) => Name::Clash(world(of), dimension(on)),
            Name::Allowed(of, on, value) => Name::Allowed(world(of), dimension(on), value),
            Name::Settled(of, on) => Name::Settled(world(of), dimension(on)),
        }
    }

    /// The clauses whose own words read something that may differ: all differences begin with one of
    /// them, or with a dimension of [`Twin::due_readers`].
    pub fn readers(&self) -> Vec<ClauseId> {
        let doubled = self.copies.clauses.keys().copied();
        doubled
            .filter(|id| self.copies.reads(&self.ruleset, &self.ruleset[*id].when))
            .collect()
    }

    /// The dimensions whose `required_when` reads something that may differ.
    pub fn due_readers(&self) -> Vec<DimensionId> {
        let doubled = self.copies.dimensions.keys().copied();
        let reads = |id: &DimensionId| {
            let required = self.ruleset[*id].required_when.as_ref();
            required.is_some_and(|condition| self.copies.reads(&self.ruleset, condition))
        };
        doubled.filter(reads).collect()
    }

    /// The two scenarios of a scenario of the twin.
    pub fn split(&self, pair: &Scenario) -> (Scenario, Scenario) {
        let mut first = Scenario::unasked(self.attributes);
        let mut second = Scenario::unasked(self.attributes);
        for id in (0..self.attributes).map(AttributeId::new) {
            first.set(id, pair.get(id));
            second.set(id, pair.get(self.second_attribute(id)));
        }
        (first, second)
    }

    /// Two scenarios that make a pair, as one of the twin. What is shared is taken from the first.
    pub fn join(&self, first: &Scenario, second: &Scenario) -> Scenario {
        let mut pair = Scenario::unasked(self.ruleset.attributes.len());
        for (id, code) in first.facts() {
            pair.set(id, Some(code));
        }
        for (id, copy) in &self.copies.attributes {
            pair.set(*copy, second.get(*id));
        }
        pair
    }
}

/// Where two attributes of one kind, both asked, have the same value.
fn same_value(kind: &AttributeKind, one: AttributeId, other: AttributeId) -> Formula {
    let values = |count: usize| {
        let values = (0..count).filter_map(|value| u8::try_from(value).ok());
        Formula::Holds(Test::Same {
            left: one,
            right: other,
            pairs: values.map(|value| (value, value)).collect(),
        })
    };
    match kind {
        AttributeKind::YesNo => values(2),
        AttributeKind::Choice(names) | AttributeKind::Scale(names) => values(names.len()),
        AttributeKind::Number(_) => {
            let at_most = |low, high| {
                Formula::Holds(Test::Linear(Linear {
                    parts: vec![(1, low), (-1, high)],
                    bound: 0,
                }))
            };
            Formula::all([at_most(one, other), at_most(other, one)])
        }
        AttributeKind::Several(items) => {
            let has = |attribute, item| Test::Several {
                attribute,
                items: ValueSet::one(item),
                least: 1,
                most: 1,
            };
            Formula::all((0..items.len()).map(|item| {
                let (mine, theirs) = (has(one, item), has(other, item));
                Formula::any([
                    Formula::all([Formula::Holds(mine.clone()), Formula::Holds(theirs.clone())]),
                    Formula::all([Formula::Fails(mine), Formula::Fails(theirs)]),
                ])
            }))
        }
    }
}

/// The name of a second copy; nobody but a reader of traces sees it.
fn second(name: &str) -> String {
    format!("{name} in the second")
}

/// How a clause stands to others.
fn relations(clause: &mut Clause) -> [&mut Vec<ClauseId>; 4] {
    [
        &mut clause.prevails_over,
        &mut clause.yields_to,
        &mut clause.disapplies,
        &mut clause.disapplied_by,
    ]
}

/// Gives the copies the places from `first` on, in the order of their originals.
fn place<Id: Ord>(copies: &mut BTreeMap<Id, Id>, first: usize, new: impl Fn(usize) -> Id) {
    for (copy, place) in copies.values_mut().zip(first..) {
        *copy = new(place);
    }
}

impl Copies {
    /// Finds what stands twice, and where its copy stands.
    fn of(ruleset: &Ruleset, pairing: &Pairing) -> Copies {
        let mut copies = Copies {
            attributes: pairing.touched().into_iter().map(|id| (id, id)).collect(),
            ..Copies::default()
        };
        for id in (0..ruleset.terms.len()).map(TermId::new) {
            let read = attributes_read_by_term(ruleset, id);
            if read.ones().any(|index| copies.has(index)) {
                copies.terms.insert(id, id);
            }
        }
        let mut speaking = vec![false; ruleset.dimensions.len()];
        for step in &ruleset.order {
            match step {
                Step::Clause(id) => {
                    let clause = &ruleset[*id];
                    let mut above = clause.disapplied_by.iter();
                    if copies.reads(ruleset, &clause.when)
                        || copies.reads_rulings(&clause.when)
                        || above.any(|other| copies.clauses.contains_key(other))
                    {
                        copies.clauses.insert(*id, *id);
                        for (dimension, _) in &clause.rulings {
                            if let Some(slot) = speaking.get_mut(dimension.index()) {
                                *slot = true;
                            }
                        }
                    }
                }
                Step::Dimension(id) => {
                    let required = ruleset[*id].required_when.as_ref();
                    let due = required.is_some_and(|condition| {
                        copies.reads(ruleset, condition) || copies.reads_rulings(condition)
                    });
                    if due || speaking.get(id.index()) == Some(&true) {
                        copies.dimensions.insert(*id, *id);
                    }
                }
            }
        }
        let (attributes, terms) = (ruleset.attributes.len(), ruleset.terms.len());
        place(&mut copies.attributes, attributes, AttributeId::new);
        place(&mut copies.terms, terms, TermId::new);
        place(&mut copies.clauses, ruleset.clauses.len(), ClauseId::new);
        place(
            &mut copies.dimensions,
            ruleset.dimensions.len(),
            DimensionId::new,
        );
        copies
    }

    fn has(&self, attribute: usize) -> bool {
        self.attributes.contains_key(&AttributeId::new(attribute))
    }

    fn reads(&self, ruleset: &Ruleset, condition: &Condition) -> bool {
        let read = attributes_read(ruleset, condition);
        read.ones().any(|index| self.has(index))
    }

    fn reads_rulings(&self, condition: &Condition) -> bool {
        let mut read = dimensions_read(condition).into_iter();
        read.any(|dimension| self.dimensions.contains_key(&dimension))
    }

    fn attribute(&self, id: AttributeId) -> AttributeId {
        self.attributes.get(&id).copied().unwrap_or(id)
    }

    fn dimension(&self, id: DimensionId) -> DimensionId {
        self.dimensions.get(&id).copied().unwrap_or(id)
    }

    fn term(&self, id: TermId) -> TermId {
        self.terms.get(&id).copied().unwrap_or(id)
    }

    fn twin(&self, ruleset: &Ruleset) -> Ruleset {
        let mut twin = ruleset.clone();
        twin.headings.clear();
        twin.accepted.clear();
        let attributes = self.attributes.keys();
        twin.attributes
            .extend(attributes.map(|id| self.second_attribute(&ruleset[*id])));
        let terms = self.terms.keys();
        twin.terms
            .extend(terms.map(|id| self.second_term(&ruleset[*id])));
        let dimensions = self.dimensions.keys();
        twin.dimensions
            .extend(dimensions.map(|id| self.second_dimension(&ruleset[*id])));
        let lines = ruleset.background.iter();
        twin.background
            .extend(lines.filter_map(|line| self.second_line(ruleset, line)));
        let promises = ruleset.principles.iter();
        twin.principles
            .extend(promises.filter_map(|principle| self.second_principle(principle)));
        for (index, clause) in twin.clauses.iter_mut().enumerate() {
            if !self.clauses.contains_key(&ClauseId::new(index)) {
                self.share(clause);
            }
        }
        let clauses = self.clauses.keys();
        twin.clauses
            .extend(clauses.map(|id| self.second_clause(&ruleset[*id])));
        twin.order = ruleset
            .order
            .iter()
            .flat_map(|step| {
                let copy = match step {
                    Step::Clause(id) => self.clauses.get(id).copied().map(Step::Clause),
                    Step::Dimension(id) => self.dimensions.get(id).copied().map(Step::Dimension),
                };
                std::iter::once(*step).chain(copy)
            })
            .collect();
        twin.asking_order = ruleset
            .asking_order
            .iter()
            .flat_map(|id| std::iter::once(*id).chain(self.attributes.get(id).copied()))
            .collect();
        twin
    }

    /// A clause that is the same in both scenarios speaks, and stands to others, in both.
    fn share(&self, clause: &mut Clause) {
        let copies = clause.rulings.iter();
        let copies = copies.filter_map(|(dimension, values)| {
            Some((self.dimensions.get(dimension).copied()?, *values))
        });
        let copies: Vec<_> = copies.collect();
        clause.rulings.extend(copies);
        clause.rulings.sort_unstable();
        for list in relations(clause) {
            let copies = list.iter().filter_map(|id| self.clauses.get(id).copied());
            let copies: Vec<_> = copies.collect();
            list.extend(copies);
            list.sort_unstable();
        }
    }

    fn second_attribute(&self, of: &Attribute) -> Attribute {
        Attribute {
            name: second(&of.name),
            asked_when: of.asked_when.as_ref().map(|when| self.condition(when)),
            origin: match of.origin {
                Origin::Stated => Origin::Stated,
                Origin::Reading(term) => Origin::Reading(self.term(term)),
            },
            ..of.clone()
        }
    }

    fn second_term(&self, of: &Term) -> Term {
        Term {
            name: second(&of.name),
            meaning: match &of.meaning {
                Meaning::Sharp(meaning) => Meaning::Sharp(self.condition(meaning)),
                Meaning::Vague {
                    narrow,
                    broad,
                    reading,
                } => Meaning::Vague {
                    narrow: self.condition(narrow),
                    broad: self.condition(broad),
                    reading: self.attribute(*reading),
                },
            },
            ..of.clone()
        }
    }

    fn second_dimension(&self, of: &Dimension) -> Dimension {
        Dimension {
            name: second(&of.name),
            required_when: of.required_when.as_ref().map(|when| self.condition(when)),
            ..of.clone()
        }
    }

    fn second_clause(&self, of: &Clause) -> Clause {
        let mut clause = of.clone();
        clause.id = second(&of.id);
        clause.when = self.condition(&of.when);
        for (dimension, _) in &mut clause.rulings {
            *dimension = self.dimension(*dimension);
        }
        clause.rulings.sort_unstable();
        for list in relations(&mut clause) {
            for id in list.iter_mut() {
                *id = self.clauses.get(id).copied().unwrap_or(*id);
            }
            list.sort_unstable();
        }
        clause
    }

    fn second_line(&self, ruleset: &Ruleset, line: &Background) -> Option<Background> {
        let (BackgroundRule::Never(condition) | BackgroundRule::Always(condition)) = &line.rule;
        if !self.reads(ruleset, condition) {
            return None;
        }
        Some(Background {
            rule: match &line.rule {
                BackgroundRule::Never(condition) => {
                    BackgroundRule::Never(self.condition(condition))
                }
                BackgroundRule::Always(condition) => {
                    BackgroundRule::Always(self.condition(condition))
                }
            },
            ..line.clone()
        })
    }

    /// The conditions of principles cut numbers into cells; both copies must be cut alike.
    fn second_principle(&self, of: &Principle) -> Option<Principle> {
        let promise = match &of.promise {
            Promise::Expect { whenever, expect } => Promise::Expect {
                whenever: self.condition(whenever),
                expect: self.condition(expect),
            },
            Promise::NoGain { party, by, gain } => Promise::NoGain {
                party: party.clone(),
                by: by.as_ref().map(|by| self.condition(by)),
                gain: match gain {
                    Gain::To(condition) => Gain::To(self.condition(condition)),
                    Gain::Raising(dimension) => Gain::Raising(self.dimension(*dimension)),
                    Gain::Lowering(dimension) => Gain::Lowering(self.dimension(*dimension)),
                },
            },
            Promise::ImpartialTo(_) | Promise::RisesWith { .. } => return None,
        };
        Some(Principle {
            promise,
            ..of.clone()
        })
    }

    fn condition(&self, of: &Condition) -> Condition {
        let kind = match &of.kind {
            ConditionKind::Fact { test, positive } => ConditionKind::Fact {
                test: self.test(test),
                positive: *positive,
            },
            ConditionKind::Ruling {
                dimension,
                test,
                positive,
            } => ConditionKind::Ruling {
                dimension: self.dimension(*dimension),
                test: test.clone(),
                positive: *positive,
            },
            ConditionKind::Term(term) => ConditionKind::Term(self.term(*term)),
            ConditionKind::Always
            | ConditionKind::Missing(_)
            | ConditionKind::Not(_)
            | ConditionKind::NotTrue(_)
            | ConditionKind::All(_)
            | ConditionKind::Any(_)
            | ConditionKind::Count { .. } => return of.with_parts(|part| self.condition(part)),
        };
        Condition {
            kind,
            span: of.span,
        }
    }

    fn test(&self, of: &Test) -> Test {
        let mut test = of.clone();
        match &mut test {
            Test::OneOf { attribute, .. }
            | Test::Within { attribute, .. }
            | Test::Several { attribute, .. } => *attribute = self.attribute(*attribute),
            Test::Same { left, right, .. } => {
                *left = self.attribute(*left);
                *right = self.attribute(*right);
            }
            Test::Linear(linear) => {
                for (_, attribute) in &mut linear.parts {
                    *attribute = self.attribute(*attribute);
                }
            }
        }
        test
    }
}
