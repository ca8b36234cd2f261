//! In which ruleset, and of which of two scenarios, something is said; and what is the same in all.

use super::{Rules, reads};
use crate::model::{
    AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Meaning, Origin, Ruleset, TermId,
    Test, Wording,
};
use crate::proof::Question;
use crate::proof::recheck::wording::without_part;
use std::collections::BTreeSet;

/// Of what something is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum World {
    /// Of the ruleset as it stands; where there are two scenarios, of the first.
    Now,
    /// Of the second scenario of a pair.
    Second,
    /// Of the ruleset without a clause.
    Without(ClauseId),
    /// Of the ruleset with one of the changes that the question is about.
    Changed(usize),
}

impl World {
    /// Of which scenario facts are read: rulesets that are compared are compared over one.
    pub(super) fn of_facts(self) -> World {
        match self {
            World::Second => World::Second,
            World::Now | World::Without(_) | World::Changed(_) => World::Now,
        }
    }
}

/// A change of the ruleset.
#[derive(Clone, Debug)]
pub(super) struct ChangeOfRules {
    /// What the changed ruleset is called.
    pub(super) words: String,
    /// Another condition for a clause.
    pub(super) when: Option<(ClauseId, Condition)>,
    /// These no longer give way to those: in a ruling on a dimension, or altogether.
    yields_no_more: BTreeSet<(ClauseId, ClauseId)>,
    disapplied_no_more: BTreeSet<(ClauseId, ClauseId)>,
}

impl ChangeOfRules {
    /// The clauses that the change is made to.
    fn begins_at(&self) -> BTreeSet<ClauseId> {
        let condition = self.when.iter().map(|(clause, _)| *clause);
        let behind = self.yields_no_more.iter().chain(&self.disapplied_no_more);
        condition.chain(behind.map(|(then, _)| *then)).collect()
    }

    /// What a question changes; `None` where it is about no change, or about one that can't be made.
    fn of(ruleset: &Ruleset, question: &Question) -> Option<ChangeOfRules> {
        let words = question.edit_words(ruleset)?;
        let mut change = ChangeOfRules {
            words,
            when: None,
            yields_no_more: BTreeSet::new(),
            disapplied_no_more: BTreeSet::new(),
        };
        match question {
            Question::TurnsOnPart(clause, way) => {
                change.when = Some((*clause, without_part(ruleset, *clause, way)?));
            }
            Question::TurnsOnReference(clause, index) => {
                let reference = ruleset[*clause].references.get(*index)?;
                for other in &reference.others {
                    match reference.wording {
                        Wording::Notwithstanding => change.yields_no_more.insert((*other, *clause)),
                        Wording::SubjectTo => change.yields_no_more.insert((*clause, *other)),
                        Wording::Disapplies => change.disapplied_no_more.insert((*other, *clause)),
                    };
                }
            }
            _ => return None,
        }
        Some(change)
    }
}

/// What stands twice where there are two scenarios: all that may differ, and all that hangs on it.
#[derive(Clone, Debug, Default)]
pub(super) struct Doubled {
    attributes: BTreeSet<AttributeId>,
    /// Of these, what may be asked in one scenario only; where both ask it, they agree.
    pub(super) loose: BTreeSet<AttributeId>,
    terms: BTreeSet<TermId>,
    clauses: BTreeSet<ClauseId>,
    dimensions: BTreeSet<DimensionId>,
}

/// The attributes that a condition reads, through terms as well; of a vague term its reading too.
pub(in crate::proof::recheck) fn facts_read(
    ruleset: &Ruleset,
    condition: &Condition,
) -> BTreeSet<AttributeId> {
    let mut found = BTreeSet::new();
    let mut terms: BTreeSet<TermId> = BTreeSet::new();
    let mut open = vec![condition];
    while let Some(condition) = open.pop() {
        condition.each_part(&mut |part| match &part.kind {
            ConditionKind::Fact { test, .. } => match test {
                Test::OneOf { attribute, .. }
                | Test::Within { attribute, .. }
                | Test::Several { attribute, .. } => {
                    found.insert(*attribute);
                }
                Test::Same { left, right, .. } => found.extend([*left, *right]),
                Test::Linear(sum) => found.extend(sum.parts.iter().map(|(_, of)| *of)),
            },
            ConditionKind::Term(term) if terms.insert(*term) => match &ruleset[*term].meaning {
                Meaning::Sharp(meaning) => open.push(meaning),
                Meaning::Vague {
                    narrow,
                    broad,
                    reading,
                } => {
                    found.insert(*reading);
                    open.extend([narrow, broad]);
                }
            },
            _ => {}
        });
    }
    found
}

/// What may be asked in one scenario of a pair only because these may differ.
pub(in crate::proof::recheck) fn asked_because(
    ruleset: &Ruleset,
    differing: &BTreeSet<AttributeId>,
) -> BTreeSet<AttributeId> {
    let mut loose: BTreeSet<AttributeId> = BTreeSet::new();
    loop {
        let before = loose.len();
        for (index, attribute) in ruleset.attributes.iter().enumerate() {
            let id = AttributeId::new(index);
            let mut decides: Vec<&Condition> = attribute.asked_when.iter().collect();
            if let Origin::Reading(term) = attribute.origin
                && let Meaning::Vague { narrow, broad, .. } = &ruleset[term].meaning
            {
                decides.extend([narrow, broad]);
            }
            let read = decides.iter().flat_map(|it| facts_read(ruleset, it));
            let mut read = read.filter(|it| differing.contains(it) || loose.contains(it));
            if !differing.contains(&id) && read.next().is_some() {
                loose.insert(id);
            }
        }
        if loose.len() == before {
            return loose;
        }
    }
}

impl Rules<'_> {
    /// Lays down what stands twice, where these may differ.
    pub(super) fn double(&mut self, differing: &BTreeSet<AttributeId>) {
        let rules = self.ruleset;
        let loose = asked_because(rules, differing);
        let mut doubled = Doubled {
            attributes: loose.union(differing).copied().collect(),
            loose,
            ..Doubled::default()
        };
        let differs = |doubled: &Doubled, condition: &Condition| {
            let facts = facts_read(rules, condition);
            !facts.is_disjoint(&doubled.attributes)
                || !reads(condition).is_disjoint(&doubled.dimensions)
        };
        for (index, term) in rules.terms.iter().enumerate() {
            let id = TermId::new(index);
            let both = match &term.meaning {
                Meaning::Sharp(meaning) => vec![meaning],
                Meaning::Vague {
                    narrow,
                    broad,
                    reading,
                } => {
                    if doubled.attributes.contains(reading) {
                        doubled.terms.insert(id);
                    }
                    vec![narrow, broad]
                }
            };
            if both.into_iter().any(|meaning| differs(&doubled, meaning)) {
                doubled.terms.insert(id);
            }
        }
        loop {
            let before = (doubled.clauses.len(), doubled.dimensions.len());
            for (index, clause) in rules.clauses.iter().enumerate() {
                let id = ClauseId::new(index);
                let mut above = clause.disapplied_by.iter();
                if above.any(|above| doubled.clauses.contains(above))
                    || differs(&doubled, &clause.when)
                {
                    doubled.clauses.insert(id);
                    doubled
                        .dimensions
                        .extend(clause.rulings.iter().map(|(on, _)| *on));
                }
            }
            for (index, dimension) in rules.dimensions.iter().enumerate() {
                let due = dimension.required_when.as_ref();
                if due.is_some_and(|due| differs(&doubled, due)) {
                    doubled.dimensions.insert(DimensionId::new(index));
                }
            }
            if before == (doubled.clauses.len(), doubled.dimensions.len()) {
                break;
            }
        }
        self.doubled = doubled;
    }

    /// The second scenario where something stands twice, the first where it doesn't.
    fn second(world: World, stands_twice: bool) -> World {
        match world {
            World::Second if !stands_twice => World::Now,
            other => other,
        }
    }

    pub(super) fn world_of_attribute(&self, world: World, attribute: AttributeId) -> World {
        let twice = self.doubled.attributes.contains(&attribute);
        Self::second(world.of_facts(), twice)
    }

    pub(super) fn world_of_term(&self, world: World, term: TermId) -> World {
        Self::second(world.of_facts(), self.doubled.terms.contains(&term))
    }

    pub(super) fn world_of_clause(&self, world: World, clause: ClauseId) -> World {
        Self::second(world, self.doubled.clauses.contains(&clause))
    }

    pub(super) fn world_of_dimension(&self, world: World, dimension: DimensionId) -> World {
        Self::second(world, self.doubled.dimensions.contains(&dimension))
    }

    /// The changes that a question is about, in its order.
    pub(super) fn lay_down_changes(&mut self, question: &Question) {
        match question {
            Question::Any(several) => several.iter().for_each(|one| self.lay_down_changes(one)),
            one => self.changes.extend(ChangeOfRules::of(self.ruleset, one)),
        }
    }

    /// The ruleset with a question's change.
    pub(super) fn changed_by(&self, question: &Question) -> Option<World> {
        let words = question.edit_words(self.ruleset)?;
        let place = self.changes.iter().position(|it| it.words == words)?;
        Some(World::Changed(place))
    }

    /// What a clause yields to altogether, and what on a dimension.
    pub(super) fn above(&self, world: World, clause: ClauseId) -> [Vec<ClauseId>; 2] {
        let this = &self.ruleset[clause];
        let (mut off, mut behind) = (this.disapplied_by.clone(), this.yields_to.clone());
        if let World::Changed(place) = world
            && let Some(change) = self.changes.get(place)
        {
            off.retain(|above| !change.disapplied_no_more.contains(&(clause, *above)));
            behind.retain(|above| !change.yields_no_more.contains(&(clause, *above)));
        }
        [off, behind]
    }

    /// Whether a clause, or a dimension's ruling, can be another in a changed ruleset.
    pub(super) fn is_reached(&mut self, world: World, of: Reached) -> bool {
        let begins = match world {
            World::Now | World::Second => return false,
            World::Without(clause) => BTreeSet::from([clause]),
            World::Changed(place) => match self.changes.get(place) {
                Some(change) => change.begins_at(),
                None => return false,
            },
        };
        let rules = self.ruleset;
        let (clauses, dimensions) = self
            .reached
            .entry(world)
            .or_insert_with(|| reach(rules, begins));
        match of {
            Reached::Clause(clause) => clauses.contains(&clause),
            Reached::Dimension(dimension) => dimensions.contains(&dimension),
        }
    }
}

/// What may be reached by a change.
#[derive(Clone, Copy, Debug)]
pub(super) enum Reached {
    Clause(ClauseId),
    Dimension(DimensionId),
}

/// Whatever hangs on some clauses, directly or not.
fn reach(
    rules: &Ruleset,
    begins: BTreeSet<ClauseId>,
) -> (BTreeSet<ClauseId>, BTreeSet<DimensionId>) {
    let mut clauses = begins;
    let mut dimensions = BTreeSet::new();
    loop {
        let before = (clauses.len(), dimensions.len());
        for (index, this) in rules.clauses.iter().enumerate() {
            let id = ClauseId::new(index);
            if clauses.contains(&id) {
                dimensions.extend(this.rulings.iter().map(|(dimension, _)| *dimension));
            } else {
                let below = this.disapplied_by.iter().chain(&this.yields_to);
                let hangs = below.into_iter().any(|above| clauses.contains(above));
                if hangs || reads(&this.when).iter().any(|it| dimensions.contains(it)) {
                    clauses.insert(id);
                }
            }
        }
        for (index, this) in rules.dimensions.iter().enumerate() {
            let due = this.required_when.as_ref().map(reads).unwrap_or_default();
            if due.iter().any(|read| dimensions.contains(read)) {
                dimensions.insert(DimensionId::new(index));
            }
        }
        if before == (clauses.len(), dimensions.len()) {
            return (clauses, dimensions);
        }
    }
}
