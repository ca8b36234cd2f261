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

use super::space::{Placed, Space, placed, stated};
use crate::logic::{Code, Formula, Name, Scenario, is_asked, walk};
use crate::model::{
    Attribute, AttributeId, AttributeKind, Background, Clause, ClauseId, Condition, ConditionKind,
    Dimension, DimensionId, Meaning, Origin, Ruleset, Step, Term, TermId, Test, ValueSet,
};
use crate::read::draft::BackgroundRule;
use crate::source::Span;
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
    /// What each clause is matched by: its id, or the id that it had in the first edition.
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

    /// The same with some ids matched to earlier ones.
    pub(super) fn renumbered(mut self, earlier: &BTreeMap<String, String>) -> Self {
        for key in &mut self.keys {
            if let Some(old) = earlier.get(key) {
                key.clone_from(old);
            }
        }
        self
    }
}

impl<'r> Joined<'r> {
    /// Joins editions. Only the first `bounding` of them say what can happen: a scenario that one of
    /// them rules out is out. `scope` is a condition over facts of the edition with that index.
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

/// The circle in which attributes are asked, by name.
type Circle = Vec<String>;

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
        self.readings();
        self.asking();
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
        let newest = self.editions.get(bounding.saturating_sub(1));
        let mut ruleset = newest.map_or_else(empty, |edition| Ruleset {
            quantities: Vec::new(),
            attributes: Vec::new(),
            terms: Vec::new(),
            background: Vec::new(),
            dimensions: Vec::new(),
            clauses: Vec::new(),
            principles: Vec::new(),
            headings: Vec::new(),
            accepted: Vec::new(),
            ..edition.ruleset.clone()
        });
        ruleset.attributes = self.attributes;
        ruleset.terms = self.terms;
        ruleset.background = background;
        ruleset.clauses = self.clauses;
        ruleset.dimensions = self.dimensions;
        ruleset.asking_order = asking_order;
        ruleset.order = order(&ruleset);
        Ok(Joined {
            ruleset,
            editions: self.editions.iter().map(|edition| edition.ruleset).collect(),
            of: self.of,
            scope,
            apart: self.space.apart.clone(),
            space: self.space,
        })
    }

    fn ruleset(&self, edition: usize) -> Option<&'r Ruleset> {
        self.editions.get(edition).map(|edition| edition.ruleset)
    }

    /// Numbers the shapes of an edition's attributes, those first that others rest on.
    fn shape_all(&mut self, edition: usize) {
        let Some(ruleset) = self.ruleset(edition) else {
            return;
        };
        for id in &ruleset.asking_order {
            let attribute = &ruleset[*id];
            let names: Vec<&str> = attribute
                .kind
                .names()
                .iter()
                .map(|value| value.name.as_str())
                .collect();
            let kind = match &attribute.kind {
                AttributeKind::Number(range) => format!("{range:?}"),
                other => format!("{:?}{names:?}", std::mem::discriminant(other)),
            };
            let asked = match attribute.origin {
                Origin::Stated => attribute
                    .asked_when
                    .as_ref()
                    .map(|condition| self.shape(edition, ruleset, condition)),
                Origin::Reading(term) => Some(self.shape_of_term(edition, ruleset, term)),
            };
            let shape = format!("{}|{kind}|{asked:?}", attribute.name);
            let next = self.known_shapes.len();
            let shape = *self.known_shapes.entry(shape).or_insert(next);
            let slots = self.shapes.get_mut(edition);
            if let Some(slot) = slots.and_then(|slots| slots.get_mut(id.index())) {
                *slot = shape;
            }
        }
    }

    fn shape(&self, edition: usize, ruleset: &Ruleset, condition: &Condition) -> String {
        let mut shape = format!("{:?}", unplaced(condition));
        walk(condition, &mut |part| match &part.kind {
            ConditionKind::Fact { test, .. } => {
                let shapes = self.shapes.get(edition);
                for id in test.attributes() {
                    let known = shapes.and_then(|shapes| shapes.get(id.index()));
                    shape.push_str(&format!(" {known:?}"));
                }
            }
            ConditionKind::Term(term) => {
                shape.push_str(&self.shape_of_term(edition, ruleset, *term));
            }
            _ => {}
        });
        shape
    }

    fn shape_of_term(&self, edition: usize, ruleset: &Ruleset, term: TermId) -> String {
        match &ruleset[term].meaning {
            Meaning::Sharp(meaning) => self.shape(edition, ruleset, meaning),
            Meaning::Vague { narrow, broad, .. } => format!(
                "{}|{}",
                self.shape(edition, ruleset, narrow),
                self.shape(edition, ruleset, broad)
            ),
        }
    }

    /// Gives every name that is a vague term somewhere one reading, asked wherever the term is open
    /// in any edition.
    fn readings(&mut self) {
        let mut vague: BTreeMap<String, Vec<(usize, TermId)>> = BTreeMap::new();
        for (edition, it) in self.editions.iter().enumerate() {
            for (index, term) in it.ruleset.terms.iter().enumerate() {
                if let Meaning::Vague { .. } = term.meaning {
                    let known = vague.entry(term.name.clone()).or_default();
                    known.push((edition, TermId::new(index)));
                }
            }
        }
        for (name, members) in vague {
            let reading = AttributeId::new(self.attributes.len());
            let Some((edition, first)) = members.last().copied() else {
                continue;
            };
            let Some(ruleset) = self.ruleset(edition) else {
                continue;
            };
            let Meaning::Vague { reading: own, .. } = &ruleset[first].meaning else {
                continue;
            };
            // What it stands for is filled in once the meanings have been placed.
            let holder = self.term_named(&name, Meaning::Sharp(always()));
            if let Some(term) = self.terms.get_mut(holder.index()) {
                term.label.clone_from(&ruleset[first].label);
            }
            self.attributes.push(Attribute {
                origin: Origin::Reading(holder),
                ..ruleset[*own].clone()
            });
            let mut meanings: Vec<(Condition, Condition)> = Vec::new();
            let mut places = Vec::new();
            for (edition, term) in members {
                let Some(ruleset) = self.ruleset(edition) else {
                    continue;
                };
                let Meaning::Vague { narrow, broad, .. } = &ruleset[term].meaning else {
                    continue;
                };
                let meaning = (self.condition(edition, narrow), self.condition(edition, broad));
                let place = meanings.iter().position(|known| *known == meaning);
                places.push((edition, term, place.unwrap_or(meanings.len())));
                if place.is_none() {
                    meanings.push(meaning);
                }
            }
            if let [(narrow, broad)] = meanings.as_slice() {
                let meaning = Meaning::Vague {
                    narrow: narrow.clone(),
                    broad: broad.clone(),
                    reading,
                };
                if let Some(term) = self.terms.get_mut(holder.index()) {
                    term.meaning = meaning;
                }
                for (edition, term, _) in places {
                    self.set_term(edition, term, holder);
                }
                continue;
            }
            let open = meanings.iter().map(|(narrow, broad)| {
                all(vec![not_true(narrow.clone()), surely(broad.clone())])
            });
            let meaning = Meaning::Vague {
                narrow: not_true(always()),
                broad: any(open.collect()),
                reading,
            };
            if let Some(term) = self.terms.get_mut(holder.index()) {
                term.meaning = meaning;
            }
            let read = fact(Test::OneOf {
                attribute: reading,
                values: ValueSet::one(1),
            });
            let copies: Vec<TermId> = meanings
                .into_iter()
                .map(|(narrow, broad)| {
                    let inside = surely(broad.clone());
                    let meaning = any(vec![
                        surely(narrow),
                        all(vec![inside.clone(), read.clone()]),
                        all(vec![not_true(inside), broad]),
                    ]);
                    self.term_named(&name, Meaning::Sharp(meaning))
                })
                .collect();
            for (edition, term, place) in places {
                if let Some(copy) = copies.get(place) {
                    self.set_term(edition, term, *copy);
                }
            }
        }
    }

    fn set_term(&mut self, edition: usize, term: TermId, joined: TermId) {
        if let Some(known) = self.term_of.get_mut(edition) {
            known.insert(term, joined);
        }
    }

    fn term_named(&mut self, name: &str, meaning: Meaning) -> TermId {
        let id = TermId::new(self.terms.len());
        self.terms.push(Term {
            name: name.to_owned(),
            label: None,
            text: None,
            meaning,
            span: Span::default(),
        });
        id
    }

    /// A term of an edition in the joined ruleset, shared where it means the same.
    fn term(&mut self, edition: usize, id: TermId) -> TermId {
        let known = self.term_of.get(edition).and_then(|terms| terms.get(&id));
        if let Some(known) = known {
            return *known;
        }
        let Some(ruleset) = self.ruleset(edition) else {
            return id;
        };
        // Vague terms have been placed already.
        let (Meaning::Sharp(meaning) | Meaning::Vague { broad: meaning, .. }) =
            &ruleset[id].meaning;
        let meaning = Meaning::Sharp(self.condition(edition, meaning));
        let name = &ruleset[id].name;
        let same = self
            .terms
            .iter()
            .position(|term| term.name == *name && term.meaning == meaning);
        let joined = match same {
            Some(index) => TermId::new(index),
            None => self.term_named(name, meaning),
        };
        self.set_term(edition, id, joined);
        joined
    }

    /// Where an edition asks for an attribute, where that has to be said: where not all editions that
    /// have it ask alike.
    fn guard(&mut self, edition: usize, own: AttributeId) -> Option<TermId> {
        let id = self.space.of.get(edition)?.get(own.index())?.id;
        if !self.guarded.contains(&id) {
            return None;
        }
        let asked_when = self.ruleset(edition)?[own].asked_when.as_ref()?;
        if let Some(known) = self.guards.get(&(edition, id)) {
            return Some(*known);
        }
        let meaning = surely(self.condition(edition, asked_when));
        let meaning = Meaning::Sharp(meaning);
        let same = self.terms.iter().position(|term| term.meaning == meaning);
        let term = match same {
            Some(index) => TermId::new(index),
            None => self.term_named("asked", meaning),
        };
        self.guards.insert((edition, id), term);
        Some(term)
    }

    fn asked_unalike(&self) -> BTreeSet<AttributeId> {
        let mut asked: BTreeMap<AttributeId, BTreeSet<Option<String>>> = BTreeMap::new();
        for (edition, placed) in self.space.of.iter().enumerate() {
            let Some(ruleset) = self.ruleset(edition) else {
                continue;
            };
            for (attribute, placed) in ruleset.attributes.iter().zip(placed) {
                let condition = attribute.asked_when.as_ref();
                let shape = condition.map(|condition| self.shape(edition, ruleset, condition));
                asked.entry(placed.id).or_default().insert(shape);
            }
        }
        asked.retain(|_, shapes| shapes.len() > 1);
        asked.into_keys().collect()
    }

    /// Fills in where the attributes of the space are asked: where any edition asks.
    fn asking(&mut self) {
        for index in 0..self.space.attributes.len() {
            let id = AttributeId::new(index);
            let mut asked: Vec<Condition> = Vec::new();
            let mut always_asked = false;
            for edition in 0..self.editions.len() {
                let Some(ruleset) = self.ruleset(edition) else {
                    continue;
                };
                for (own, attribute) in stated(ruleset) {
                    let placed = self.space.of.get(edition).and_then(|of| of.get(own));
                    if placed.is_none_or(|placed| placed.id != id) {
                        continue;
                    }
                    match &attribute.asked_when {
                        Some(condition) => {
                            let condition = self.condition(edition, condition);
                            if !asked.contains(&condition) {
                                asked.push(condition);
                            }
                        }
                        None => always_asked = true,
                    }
                }
            }
            if let Some(attribute) = self.attributes.get_mut(index) {
                attribute.asked_when = match asked.len() {
                    _ if always_asked => None,
                    1 => asked.pop(),
                    _ => Some(any(asked.into_iter().map(surely).collect())),
                };
            }
        }
    }

    /// The order of asking, or the names of attributes that run in a circle.
    fn asking_order(&self) -> Result<Vec<AttributeId>, Circle> {
        let mut order = Vec::with_capacity(self.attributes.len());
        let reads: Vec<BTreeSet<AttributeId>> = self
            .attributes
            .iter()
            .map(|attribute| {
                let mut read = BTreeSet::new();
                if let Some(condition) = &attribute.asked_when {
                    self.reads(condition, &mut read);
                }
                if let Origin::Reading(term) = attribute.origin
                    && let Some(Meaning::Vague { narrow, broad, .. }) =
                        self.terms.get(term.index()).map(|term| &term.meaning)
                {
                    self.reads(narrow, &mut read);
                    self.reads(broad, &mut read);
                }
                read
            })
            .collect();
        let mut placed = vec![false; reads.len()];
        while order.len() < reads.len() {
            let next = (0..reads.len()).find(|index| {
                let is_placed = |id: &AttributeId| placed.get(id.index()) == Some(&true);
                placed.get(*index) == Some(&false)
                    && reads.get(*index).is_some_and(|read| read.iter().all(is_placed))
            });
            let Some(next) = next else {
                let open = self.attributes.iter().zip(&placed);
                let open = open.filter(|(_, placed)| !**placed);
                return Err(open.map(|(attribute, _)| attribute.name.clone()).collect());
            };
            if let Some(slot) = placed.get_mut(next) {
                *slot = true;
            }
            order.push(AttributeId::new(next));
        }
        Ok(order)
    }

    fn reads(&self, condition: &Condition, found: &mut BTreeSet<AttributeId>) {
        walk(condition, &mut |part| match &part.kind {
            ConditionKind::Fact { test, .. } => found.extend(test.attributes()),
            ConditionKind::Term(term) => {
                match self.terms.get(term.index()).map(|term| &term.meaning) {
                    Some(Meaning::Sharp(meaning)) => self.reads(meaning, found),
                    Some(Meaning::Vague {
                        narrow,
                        broad,
                        reading,
                    }) => {
                        self.reads(narrow, found);
                        self.reads(broad, found);
                        found.insert(*reading);
                    }
                    None => {}
                }
            }
            _ => {}
        });
    }

    /// The background lines that all bounding editions share; what only some of them hold is kept for
    /// each as a term.
    fn background(&mut self, bounding: usize) -> Vec<Background> {
        let mut lines: Vec<Vec<Condition>> = Vec::new();
        for edition in 0..bounding.min(self.editions.len()) {
            let Some(ruleset) = self.ruleset(edition) else {
                continue;
            };
            let mut own = Vec::new();
            for line in &ruleset.background {
                own.push(match &line.rule {
                    BackgroundRule::Never(condition) => {
                        not_true(self.condition(edition, condition))
                    }
                    BackgroundRule::Always(condition) => {
                        let condition = self.condition(edition, condition);
                        not_true(made(ConditionKind::Not(Box::new(condition))))
                    }
                });
            }
            for (index, _) in stated(ruleset) {
                let own_id = AttributeId::new(index);
                let placed = self.space.of.get(edition).and_then(|of| of.get(index)).cloned();
                let Some(Placed { id, values }) = placed else {
                    continue;
                };
                let Some(kind) = self.attributes.get(id.index()).map(|it| it.kind.clone()) else {
                    continue;
                };
                let known = values.known(id, &kind);
                if known.is_empty() {
                    continue;
                }
                let known = not_true(made(ConditionKind::Not(Box::new(any(
                    known.into_iter().map(fact).collect(),
                )))));
                own.push(match self.guard(edition, own_id) {
                    Some(guard) => any(vec![not_true(made(ConditionKind::Term(guard))), known]),
                    None => known,
                });
            }
            lines.push(own);
        }
        let shared: Vec<Condition> = lines.first().map_or_else(Vec::new, |first| {
            let everywhere = |line: &&Condition| lines.iter().all(|own| own.contains(line));
            first.iter().filter(everywhere).cloned().collect()
        });
        for (edition, own) in lines.into_iter().enumerate() {
            let rest: Vec<Condition> = own
                .into_iter()
                .filter(|line| !shared.contains(line))
                .collect();
            if !rest.is_empty() {
                let term = self.term_named("kept", Meaning::Sharp(all(rest)));
                if let Some(parts) = self.of.get_mut(edition) {
                    parts.kept = Some(term);
                }
            }
        }
        let line = |condition| Background {
            id: None,
            rule: BackgroundRule::Always(condition),
            because: None,
            span: Span::default(),
        };
        shared.into_iter().map(line).collect()
    }

    /// A condition of an edition in the joined ruleset, without places.
    fn condition(&mut self, edition: usize, of: &Condition) -> Condition {
        let kind = match &of.kind {
            ConditionKind::Always | ConditionKind::Missing(_) => of.kind.clone(),
            ConditionKind::Fact { test, positive } => {
                let here = self.space.of.get(edition).map_or(&[][..], Vec::as_slice);
                let placed = match self.reading_of(edition, test) {
                    Some(reading) => reading,
                    None => placed(test, here),
                };
                let fact = made(ConditionKind::Fact {
                    test: placed,
                    positive: *positive,
                });
                let mut guards: Vec<TermId> = test
                    .attributes()
                    .into_iter()
                    .filter_map(|id| self.guard(edition, id))
                    .collect();
                guards.sort_unstable();
                guards.dedup();
                if guards.is_empty() {
                    return fact;
                }
                let asked = guards.into_iter();
                let asked = all(asked.map(|term| made(ConditionKind::Term(term))).collect());
                let nothing = made(ConditionKind::Missing(crate::model::MissingCell {
                    row: String::new(),
                    column: String::new(),
                }));
                return any(vec![
                    all(vec![asked.clone(), fact]),
                    all(vec![not_true(asked), nothing]),
                ]);
            }
            ConditionKind::Ruling {
                dimension,
                test,
                positive,
            } => {
                let of = self.of.get(edition);
                let of = of.and_then(|parts| parts.dimensions.get(dimension.index()));
                ConditionKind::Ruling {
                    dimension: of.copied().unwrap_or(*dimension),
                    test: test.clone(),
                    positive: *positive,
                }
            }
            ConditionKind::Term(term) => ConditionKind::Term(self.term(edition, *term)),
            ConditionKind::Not(part) => ConditionKind::Not(Box::new(self.condition(edition, part))),
            ConditionKind::NotTrue(part) => {
                ConditionKind::NotTrue(Box::new(self.condition(edition, part)))
            }
            ConditionKind::All(parts) => ConditionKind::All(self.conditions(edition, parts)),
            ConditionKind::Any(parts) => ConditionKind::Any(self.conditions(edition, parts)),
            ConditionKind::Count { least, most, of } => ConditionKind::Count {
                least: *least,
                most: *most,
                of: self.conditions(edition, of),
            },
        };
        made(kind)
    }

    fn conditions(&mut self, edition: usize, parts: &[Condition]) -> Vec<Condition> {
        parts
            .iter()
            .map(|part| self.condition(edition, part))
            .collect()
    }

    /// A comparison of a vague term's reading, as the joined ruleset has it. Conditions name terms and
    /// never readings, so there is none; were there one, it must not be taken for another attribute.
    fn reading_of(&self, edition: usize, test: &Test) -> Option<Test> {
        let ruleset = self.ruleset(edition)?;
        let Test::OneOf { attribute, values } = test else {
            return None;
        };
        let Origin::Reading(_) = ruleset[*attribute].origin else {
            return None;
        };
        let name = &ruleset[*attribute].name;
        let index = self
            .attributes
            .iter()
            .position(|it| it.origin != Origin::Stated && it.name == *name)?;
        Some(Test::OneOf {
            attribute: AttributeId::new(index),
            values: *values,
        })
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
            let alike = clause
                .is_some_and(|it| it.when == when && it.disapplied_by == disapplied_by);
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
        let above = |edition: usize, id: ClauseId| -> BTreeSet<&str> {
            let clause = self.ruleset(edition).map(|ruleset| &ruleset[id]);
            let list = clause.map_or(&[][..], |clause| clause.yields_to.as_slice());
            list.iter().map(|above| self.key(edition, *above)).collect()
        };
        let (mine, their) = (above(edition, id), above(other, theirs));
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
                yields.extend(clause.yields_to.iter().filter_map(joined).map(|id| (id, below)));
                off.extend(clause.disapplied_by.iter().filter_map(joined).map(|id| (id, below)));
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
            arrow(Step::Dimension(read), Step::Dimension(DimensionId::new(index)));
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

/// A condition with the attributes taken out, for its shape.
fn unplaced(condition: &Condition) -> Condition {
    let nobody = AttributeId::new(0);
    let parts = |parts: &[Condition]| parts.iter().map(unplaced).collect();
    made(match &condition.kind {
        ConditionKind::Fact { test, positive } => {
            let mut test = test.clone();
            match &mut test {
                Test::OneOf { attribute, .. }
                | Test::Within { attribute, .. }
                | Test::Several { attribute, .. } => *attribute = nobody,
                Test::Same { left, right, .. } => {
                    *left = nobody;
                    *right = nobody;
                }
                Test::Linear(linear) => {
                    for (_, attribute) in &mut linear.parts {
                        *attribute = nobody;
                    }
                }
            }
            ConditionKind::Fact {
                test,
                positive: *positive,
            }
        }
        ConditionKind::Term(_) => ConditionKind::Term(TermId::new(0)),
        ConditionKind::Not(part) => ConditionKind::Not(Box::new(unplaced(part))),
        ConditionKind::NotTrue(part) => ConditionKind::NotTrue(Box::new(unplaced(part))),
        ConditionKind::All(of) => ConditionKind::All(parts(of)),
        ConditionKind::Any(of) => ConditionKind::Any(parts(of)),
        ConditionKind::Count { least, most, of } => ConditionKind::Count {
            least: *least,
            most: *most,
            of: parts(of),
        },
        other => other.clone(),
    })
}

fn empty() -> Ruleset {
    Ruleset {
        title: String::new(),
        edition: String::new(),
        language: String::new(),
        caution: None,
        sources: crate::source::Sources::default(),
        quantities: Vec::new(),
        attributes: Vec::new(),
        terms: Vec::new(),
        background: Vec::new(),
        dimensions: Vec::new(),
        clauses: Vec::new(),
        principles: Vec::new(),
        headings: Vec::new(),
        accepted: Vec::new(),
        order: Vec::new(),
        asking_order: Vec::new(),
    }
}

fn made(kind: ConditionKind) -> Condition {
    Condition {
        kind,
        span: Span::default(),
    }
}

fn always() -> Condition {
    made(ConditionKind::Always)
}

fn fact(test: Test) -> Condition {
    made(ConditionKind::Fact {
        test,
        positive: true,
    })
}

fn not_true(part: Condition) -> Condition {
    made(ConditionKind::NotTrue(Box::new(part)))
}

/// True where the part is true, false everywhere else.
fn surely(part: Condition) -> Condition {
    not_true(not_true(part))
}

fn all(parts: Vec<Condition>) -> Condition {
    made(ConditionKind::All(parts))
}

fn any(parts: Vec<Condition>) -> Condition {
    made(ConditionKind::Any(parts))
}

