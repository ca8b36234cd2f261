//! Several editions of a ruleset in one.
//!
//! Each clause, term and dimension of the joined ruleset is what one edition has or what several
//! share: it stands once where it is the same and rests on the same in all of them, and once for each
//! edition where it doesn't. So "the ruling differs" is an ordinary formula over a dimension of one
//! edition and its like of another, and whatever answers questions about rulesets answers questions
//! about editions; what no change can reach is the same thing in both, and needs no question.
//!
//! Only standing depends on which clause prevails, and being in force does not. Hence a clause stays
//! shared when a clause that only one edition has prevails over it: that one rules on dimensions of
//! its own edition alone.

mod facts;
mod made;
mod words;

use facts::Circle;
use made::empty;

use super::numbers::Earlier;
use super::space::Space;
use crate::analysis::vocabulary_of;
use crate::logic::{Code, Formula, Name, Scenario, Vocabulary, is_asked};
use crate::model::{
    Attribute, AttributeId, Clause, ClauseId, Condition, Dimension, DimensionId, Meaning, Origin,
    Ruleset, Step, Term, TermId, ValueSet,
};
use std::collections::{BTreeMap, BTreeSet};

/// Several editions in one ruleset.
#[derive(Debug)]
pub(super) struct Joined<'r> {
    /// The ruleset; its scenarios give a value to all that any edition asks.
    pub(super) ruleset: Ruleset,
    /// The editions as they are, in the order in which they were given.
    pub(super) editions: Vec<&'r Ruleset>,
    /// Where each edition's parts stand.
    pub(super) of: Vec<Parts>,
    /// What the first two editions both have words for.
    pub(super) words: Vocabulary,
    /// Where the scope of the changes is, if one was given.
    pub(super) scope: Option<Formula>,
    /// Names that stand for two attributes, since their values can't be laid beside each other.
    pub(super) apart: Vec<String>,
    space: Space,
}

/// Where the parts of an edition stand in the joined ruleset.
#[derive(Clone, Debug, Default)]
pub(super) struct Parts {
    pub(super) clauses: Vec<ClauseId>,
    pub(super) dimensions: Vec<DimensionId>,
    /// Where the edition's own facts and background, as far as not all editions share them, are kept.
    pub(super) kept: Option<TermId>,
}

/// An edition to be joined.
#[derive(Clone, Debug)]
pub(super) struct Edition<'r> {
    pub(super) ruleset: &'r Ruleset,
    /// What each clause is matched by: its id, or what it was known by in the first edition.
    pub(super) keys: Vec<String>,
}

impl<'r> Edition<'r> {
    /// An edition whose clauses go by their ids.
    pub(super) fn new(ruleset: &'r Ruleset) -> Self {
        let ids = ruleset.clauses.iter().map(|clause| clause.id.clone());
        Edition {
            ruleset,
            keys: ids.collect(),
        }
    }

    /// The same with some clauses known by what they were before.
    pub(super) fn renumbered(mut self, earlier: &Earlier) -> Self {
        for key in &mut self.keys {
            if let Some(old) = earlier.get(key) {
                key.clone_from(old);
            }
        }
        self
    }
}

impl<'r> Joined<'r> {
    /// Joins editions. Only the first `bounding` of them say what can happen and what is asked: a
    /// scenario that one of them rules out is out. `scope` is a condition over facts of the edition with that index.
    pub(super) fn new(
        editions: &[Edition<'r>],
        bounding: usize,
        scope: Option<(usize, &Condition)>,
    ) -> Joined<'r> {
        let mut separate: Vec<String> = Vec::new();
        loop {
            match Builder::new(editions, &separate).build(bounding, scope) {
                Ok(joined) => return joined,
                // Whether one is asked turns on the other, and the other way round in another edition.
                Err(circle) => {
                    let before = separate.len();
                    separate.extend(circle);
                    separate.sort();
                    separate.dedup();
                    if separate.len() == before {
                        // Cannot be: attributes that are apart can run in no circle of two editions.
                        let all = editions.iter().flat_map(|it| &it.ruleset.attributes);
                        separate.extend(all.map(|it| it.name.clone()));
                    }
                }
            }
        }
    }

    /// Where an edition allows the scenario, as far as not all editions do.
    pub(super) fn kept(&self, edition: usize) -> Formula {
        let term = self.of.get(edition).and_then(|parts| parts.kept);
        term.map_or(Formula::True, |term| {
            Name::TermTrue(crate::logic::Unasked::Neither, term).into()
        })
    }

    /// A dimension of an edition, by its name.
    pub(super) fn dimension(&self, edition: usize, name: &str) -> Option<DimensionId> {
        let ruleset = self.editions.get(edition)?;
        let index = ruleset.dimensions.iter().position(|it| it.name == name)?;
        self.of.get(edition)?.dimensions.get(index).copied()
    }

    /// A scenario as an edition has it; `None` where it knows one of the values not.
    pub(super) fn split(&self, scenario: &Scenario, edition: usize) -> Option<Scenario> {
        let ruleset = self.editions.get(edition)?;
        let placed = self.space.of.get(edition)?;
        let mut own = Scenario::unasked(ruleset.attributes.len());
        for id in &ruleset.asking_order {
            if !is_asked(ruleset, &own, *id) {
                continue;
            }
            let code = match ruleset[*id].origin {
                Origin::Stated => {
                    let place = placed.get(id.index())?;
                    let code = scenario.get(place.id)?.0;
                    let kind = &self.ruleset[place.id].kind;
                    place.values.back(code, kind)?
                }
                Origin::Reading(_) => {
                    let name = &ruleset[*id].name;
                    let mut readings = self.ruleset.attributes.iter().enumerate();
                    let (index, _) = readings.find(|(_, attribute)| {
                        attribute.origin != Origin::Stated && attribute.name == *name
                    })?;
                    scenario.get(AttributeId::new(index))?.0
                }
            };
            own.set(*id, Some(Code(code)));
        }
        Some(own)
    }
}

struct Builder<'a, 'r> {
    editions: &'a [Edition<'r>],
    space: Space,
    /// For each edition and each of its attributes, a number that two of them share only if they take
    /// the same values and are asked alike.
    shapes: Vec<Vec<usize>>,
    known_shapes: BTreeMap<String, usize>,
    terms: Vec<Term>,
    attributes: Vec<Attribute>,
    /// Each edition's terms in the joined ruleset.
    term_of: Vec<BTreeMap<TermId, TermId>>,
    /// Where an edition asks for an attribute of the space, if that has to be said.
    guards: BTreeMap<(usize, AttributeId), TermId>,
    clauses: Vec<Clause>,
    /// For each joined clause, the editions that have it, with its place there.
    users: Vec<Vec<(usize, ClauseId)>>,
    /// The joined clauses of each key.
    by_key: BTreeMap<String, Vec<usize>>,
    /// The attributes of the space that not all editions that have them ask for alike.
    guarded: BTreeSet<AttributeId>,
    dimensions: Vec<Dimension>,
    /// For each joined dimension, who speaks on it and how.
    speaking: Vec<Vec<(ClauseId, ValueSet)>>,
    of: Vec<Parts>,
}

impl<'a, 'r> Builder<'a, 'r> {
    fn new(editions: &'a [Edition<'r>], separate: &[String]) -> Self {
        let rulesets: Vec<&Ruleset> = editions.iter().map(|edition| edition.ruleset).collect();
        let space = Space::new(&rulesets, separate);
        let unplaced = |edition: &Edition<'_>| Parts {
            clauses: vec![ClauseId::new(usize::MAX); edition.ruleset.clauses.len()],
            dimensions: vec![DimensionId::new(usize::MAX); edition.ruleset.dimensions.len()],
            kept: None,
        };
        Builder {
            editions,
            attributes: space.attributes.clone(),
            space,
            shapes: editions
                .iter()
                .map(|edition| vec![0; edition.ruleset.attributes.len()])
                .collect(),
            known_shapes: BTreeMap::new(),
            terms: Vec::new(),
            term_of: vec![BTreeMap::new(); editions.len()],
            guards: BTreeMap::new(),
            clauses: Vec::new(),
            users: Vec::new(),
            by_key: BTreeMap::new(),
            guarded: BTreeSet::new(),
            dimensions: Vec::new(),
            speaking: Vec::new(),
            of: editions.iter().map(unplaced).collect(),
        }
    }

    fn build(
        mut self,
        bounding: usize,
        scope: Option<(usize, &Condition)>,
    ) -> Result<Joined<'r>, Circle> {
        for edition in 0..self.editions.len() {
            self.shape_all(edition);
        }
        self.guarded = self.asked_unalike();
        self.readings(bounding);
        self.asking(bounding);
        let asking_order = self.asking_order()?;
        let background = self.background(bounding);
        for edition in 0..self.editions.len() {
            let order = self.ruleset(edition).map(|it| it.order.clone());
            for step in order.unwrap_or_default() {
                match step {
                    Step::Clause(id) => self.clause(edition, id),
                    Step::Dimension(id) => self.dimension(edition, id),
                }
            }
        }
        self.relate();
        let scope = scope.map(|(edition, condition)| {
            let meaning = self.condition(edition, condition);
            let term = self.term_named("scope", Meaning::Sharp(meaning));
            Formula::from(Name::TermTrue(crate::logic::Unasked::Neither, term))
        });
        let said = self.sayings();
        let newest = self.editions.get(bounding.saturating_sub(1));
        let mut ruleset = empty();
        if let Some(Edition {
            ruleset: newest, ..
        }) = newest
        {
            ruleset.title.clone_from(&newest.title);
            ruleset.edition.clone_from(&newest.edition);
            ruleset.language.clone_from(&newest.language);
            ruleset.caution.clone_from(&newest.caution);
            ruleset.sources.clone_from(&newest.sources);
            ruleset.layers.clone_from(&newest.layers);
        }
        ruleset.attributes = self.attributes;
        ruleset.terms = self.terms;
        ruleset.background = background;
        ruleset.clauses = self.clauses;
        ruleset.dimensions = self.dimensions;
        ruleset.asking_order = asking_order;
        ruleset.order = order(&ruleset);
        Ok(Joined {
            words: vocabulary_of(&ruleset, said),
            ruleset,
            editions: self
                .editions
                .iter()
                .map(|edition| edition.ruleset)
                .collect(),
            of: self.of,
            scope,
            apart: self.space.apart.clone(),
            space: self.space,
        })
    }

    fn ruleset(&self, edition: usize) -> Option<&'r Ruleset> {
        self.editions.get(edition).map(|edition| edition.ruleset)
    }

    fn key(&self, edition: usize, clause: ClauseId) -> &'a str {
        let edition = self.editions.get(edition);
        edition
            .and_then(|it| it.keys.get(clause.index()))
            .map_or("", String::as_str)
    }

    fn joined(&self, edition: usize, clause: ClauseId) -> Option<ClauseId> {
        let of = self.of.get(edition)?;
        of.clauses.get(clause.index()).copied()
    }

    /// Places a clause: all that it rests on has been placed.
    fn clause(&mut self, edition: usize, id: ClauseId) {
        let Some(ruleset) = self.ruleset(edition) else {
            return;
        };
        let own = &ruleset[id];
        let when = self.condition(edition, &own.when);
        let mut disapplied_by: Vec<ClauseId> = own
            .disapplied_by
            .iter()
            .filter_map(|other| self.joined(edition, *other))
            .collect();
        disapplied_by.sort_unstable();
        let key = self.key(edition, id);
        let fits = |index: &usize| {
            let clause = self.clauses.get(*index);
            let users = self.users.get(*index).map_or(&[][..], Vec::as_slice);
            let alike =
                clause.is_some_and(|it| it.when == when && it.disapplied_by == disapplied_by);
            alike
                && users
                    .iter()
                    .all(|(other, theirs)| self.yields_alike(edition, id, *other, *theirs))
        };
        let candidates = self.by_key.get(key).map_or(&[][..], Vec::as_slice);
        let known = candidates.iter().copied().find(fits);
        let index = known.unwrap_or_else(|| {
            let of_key = self.by_key.entry(key.to_owned()).or_default();
            of_key.push(self.clauses.len());
            self.clauses.push(Clause {
                when,
                rulings: Vec::new(),
                prevails_over: Vec::new(),
                yields_to: Vec::new(),
                disapplies: Vec::new(),
                disapplied_by,
                ..own.clone()
            });
            self.users.push(Vec::new());
            self.clauses.len() - 1
        });
        if let Some(users) = self.users.get_mut(index) {
            users.push((edition, id));
        }
        let parts = self.of.get_mut(edition);
        if let Some(slot) = parts.and_then(|parts| parts.clauses.get_mut(id.index())) {
            *slot = ClauseId::new(index);
        }
    }

    /// Whether a clause yields, in two editions, to the same of the clauses that both editions have.
    fn yields_alike(&self, edition: usize, id: ClauseId, other: usize, theirs: ClauseId) -> bool {
        let list = |edition: usize, id: ClauseId| -> &[ClauseId] {
            let clause = self.ruleset(edition).map(|ruleset| &ruleset[id]);
            clause.map_or(&[][..], |clause| clause.yields_to.as_slice())
        };
        let (mine, their) = (list(edition, id), list(other, theirs));
        if mine.is_empty() && their.is_empty() {
            return true;
        }
        let above = |edition: usize, list: &[ClauseId]| -> BTreeSet<&str> {
            list.iter().map(|above| self.key(edition, *above)).collect()
        };
        let (mine, their) = (above(edition, mine), above(other, their));
        if mine == their {
            return true;
        }
        let has = |edition: usize, key: &str| {
            let edition = self.editions.get(edition);
            edition.is_some_and(|it| it.keys.iter().any(|known| known == key))
        };
        mine.symmetric_difference(&their)
            .all(|key| !(has(edition, key) && has(other, key)))
    }

    /// Places a dimension: all that speak on it have been placed.
    fn dimension(&mut self, edition: usize, id: DimensionId) {
        let Some(ruleset) = self.ruleset(edition) else {
            return;
        };
        let own = &ruleset[id];
        let required = own.required_when.as_ref();
        let required_when = required.map(|condition| self.condition(edition, condition));
        let mut speaking: Vec<(ClauseId, ValueSet)> = ruleset
            .clauses
            .iter()
            .enumerate()
            .filter_map(|(index, clause)| {
                let values = clause.ruling_on(id)?;
                Some((self.joined(edition, ClauseId::new(index))?, values))
            })
            .collect();
        speaking.sort_unstable();
        let names = |dimension: &Dimension| -> Vec<String> {
            let values = dimension.values.iter();
            values.map(|value| value.name.clone()).collect()
        };
        let fits = |index: &usize| {
            self.speaking.get(*index) == Some(&speaking)
                && self.dimensions.get(*index).is_some_and(|known| {
                    known.name == own.name
                        && known.ordered == own.ordered
                        && known.when_several == own.when_several
                        && known.otherwise == own.otherwise
                        && known.required_when == required_when
                        && names(known) == names(own)
                })
        };
        let known = (0..self.dimensions.len()).find(fits);
        let index = known.unwrap_or_else(|| {
            self.dimensions.push(Dimension {
                required_when,
                ..own.clone()
            });
            let index = self.dimensions.len() - 1;
            for (clause, values) in &speaking {
                if let Some(clause) = self.clauses.get_mut(clause.index()) {
                    clause.rulings.push((DimensionId::new(index), *values));
                }
            }
            self.speaking.push(speaking);
            index
        });
        let parts = self.of.get_mut(edition);
        if let Some(slot) = parts.and_then(|parts| parts.dimensions.get_mut(id.index())) {
            *slot = DimensionId::new(index);
        }
    }

    /// Fills in how the clauses stand to each other.
    fn relate(&mut self) {
        let mut yields: BTreeSet<(ClauseId, ClauseId)> = BTreeSet::new();
        let mut off: BTreeSet<(ClauseId, ClauseId)> = BTreeSet::new();
        for (edition, it) in self.editions.iter().enumerate() {
            for (index, clause) in it.ruleset.clauses.iter().enumerate() {
                let Some(below) = self.joined(edition, ClauseId::new(index)) else {
                    continue;
                };
                let joined = |id: &ClauseId| self.joined(edition, *id);
                yields.extend(
                    clause
                        .yields_to
                        .iter()
                        .filter_map(joined)
                        .map(|id| (id, below)),
                );
                off.extend(
                    clause
                        .disapplied_by
                        .iter()
                        .filter_map(joined)
                        .map(|id| (id, below)),
                );
            }
        }
        for (above, below) in yields {
            if let Some(clause) = self.clauses.get_mut(above.index()) {
                clause.prevails_over.push(below);
            }
            if let Some(clause) = self.clauses.get_mut(below.index()) {
                clause.yields_to.push(above);
            }
        }
        for (above, below) in off {
            if let Some(clause) = self.clauses.get_mut(above.index()) {
                clause.disapplies.push(below);
            }
        }
        for clause in &mut self.clauses {
            clause.rulings.sort_unstable();
            clause.yields_to.sort_unstable();
            clause.prevails_over.sort_unstable();
            clause.disapplies.sort_unstable();
        }
    }
}

/// Clauses and dimensions such that whatever one rests on stands before it: who is in force before
/// whom it disapplies, all that may speak on a dimension before it, a dimension before its readers.
fn order(ruleset: &Ruleset) -> Vec<Step> {
    let mut waiting: BTreeMap<Step, usize> = BTreeMap::new();
    let mut after: BTreeMap<Step, Vec<Step>> = BTreeMap::new();
    let clauses = (0..ruleset.clauses.len()).map(|index| Step::Clause(ClauseId::new(index)));
    let dimensions = 0..ruleset.dimensions.len();
    let dimensions = dimensions.map(|index| Step::Dimension(DimensionId::new(index)));
    waiting.extend(clauses.chain(dimensions).map(|step| (step, 0)));
    let mut arrow = |from: Step, to: Step| {
        after.entry(from).or_default().push(to);
        *waiting.entry(to).or_default() += 1;
    };
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let step = Step::Clause(ClauseId::new(index));
        for (dimension, _) in &clause.rulings {
            arrow(step, Step::Dimension(*dimension));
        }
        for other in &clause.disapplies {
            arrow(step, Step::Clause(*other));
        }
        for read in crate::logic::dimensions_read(&clause.when) {
            arrow(Step::Dimension(read), step);
        }
    }
    for (index, dimension) in ruleset.dimensions.iter().enumerate() {
        let required = dimension.required_when.iter();
        for read in required.flat_map(crate::logic::dimensions_read) {
            arrow(
                Step::Dimension(read),
                Step::Dimension(DimensionId::new(index)),
            );
        }
    }
    let mut ready: BTreeSet<Step> = waiting
        .iter()
        .filter(|(_, before)| **before == 0)
        .map(|(step, _)| *step)
        .collect();
    let mut order = Vec::with_capacity(waiting.len());
    while let Some(step) = ready.pop_first() {
        order.push(step);
        for next in after.get(&step).into_iter().flatten() {
            if let Some(before) = waiting.get_mut(next) {
                *before = before.saturating_sub(1);
                if *before == 0 {
                    ready.insert(*next);
                }
            }
        }
    }
    order
}
