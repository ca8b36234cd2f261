//! Facts, terms and background of editions in one space: what each edition says of them, guarded where
//! it doesn't ask.

use super::super::space::{Placed, placed, stated};
use super::Builder;
use super::made::{all, always, any, fact, made, not_true, surely, unplaced};
use crate::model::{
    Attribute, AttributeId, AttributeKind, Background, Condition, ConditionKind, Meaning, Origin,
    Ruleset, Term, TermId, Test, ValueSet,
};
use crate::read::draft::BackgroundRule;
use crate::source::Span;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// The circle in which attributes are asked, by name.
pub(super) type Circle = Vec<String>;

impl Builder<'_, '_> {
    /// Numbers the shapes of an edition's attributes, those first that others rest on.
    pub(super) fn shape_all(&mut self, edition: usize) {
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

    pub(super) fn shape(&self, edition: usize, ruleset: &Ruleset, condition: &Condition) -> String {
        let mut shape = format!("{:?}", unplaced(condition));
        condition.each_part(&mut |part| match &part.kind {
            ConditionKind::Fact { test, .. } => {
                let shapes = self.shapes.get(edition);
                for id in test.attributes() {
                    let known = shapes.and_then(|shapes| shapes.get(id.index()));
                    // Writing to a string cannot fail.
                    let _ = write!(shape, " {known:?}");
                }
            }
            ConditionKind::Term(term) => {
                shape.push_str(&self.shape_of_term(edition, ruleset, *term));
            }
            _ => {}
        });
        shape
    }

    pub(super) fn shape_of_term(&self, edition: usize, ruleset: &Ruleset, term: TermId) -> String {
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
    /// in a bounding edition.
    pub(super) fn readings(&mut self, bounding: usize) {
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
                let meaning = (
                    self.condition(edition, narrow),
                    self.condition(edition, broad),
                );
                let place = meanings.iter().position(|known| *known == meaning);
                places.push((edition, term, place.unwrap_or(meanings.len())));
                if place.is_none() {
                    meanings.push(meaning);
                }
            }
            let bounds = |place: &usize| {
                let mut places = places.iter();
                places.any(|(edition, _, own)| own == place && *edition < bounding)
            };
            let mut asked: Vec<usize> = (0..meanings.len()).filter(bounds).collect();
            if asked.is_empty() {
                asked = (0..meanings.len()).collect();
            }
            let alone = match asked.as_slice() {
                [one] => Some(*one),
                _ => None,
            };
            let meaning = if let Some((narrow, broad)) = alone.and_then(|one| meanings.get(one)) {
                Meaning::Vague {
                    narrow: narrow.clone(),
                    broad: broad.clone(),
                    reading,
                }
            } else {
                let open = asked.iter().filter_map(|place| meanings.get(*place));
                let open = open.map(|(narrow, broad)| {
                    all(vec![not_true(narrow.clone()), surely(broad.clone())])
                });
                Meaning::Vague {
                    narrow: not_true(always()),
                    broad: any(open.collect()),
                    reading,
                }
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
                .enumerate()
                .map(|(place, (narrow, broad))| {
                    if Some(place) == alone {
                        return holder;
                    }
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

    pub(super) fn set_term(&mut self, edition: usize, term: TermId, joined: TermId) {
        if let Some(known) = self.term_of.get_mut(edition) {
            known.insert(term, joined);
        }
    }

    pub(super) fn term_named(&mut self, name: &str, meaning: Meaning) -> TermId {
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
    pub(super) fn term(&mut self, edition: usize, id: TermId) -> TermId {
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
    pub(super) fn guard(&mut self, edition: usize, own: AttributeId) -> Option<TermId> {
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

    pub(super) fn asked_unalike(&self) -> BTreeSet<AttributeId> {
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

    /// Fills in where the attributes of the space are asked: where a bounding edition asks. What only
    /// another would ask there is not noted in a scenario.
    pub(super) fn asking(&mut self, bounding: usize) {
        for index in 0..self.space.attributes.len() {
            let id = AttributeId::new(index);
            let mut asked: Vec<Condition> = Vec::new();
            let mut always_asked = false;
            for edition in 0..bounding.min(self.editions.len()) {
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
    pub(super) fn asking_order(&self) -> Result<Vec<AttributeId>, Circle> {
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
                    && reads
                        .get(*index)
                        .is_some_and(|read| read.iter().all(is_placed))
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

    pub(super) fn reads(&self, condition: &Condition, found: &mut BTreeSet<AttributeId>) {
        condition.each_part(&mut |part| match &part.kind {
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
    pub(super) fn background(&mut self, bounding: usize) -> Vec<Background> {
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
                let placed = self
                    .space
                    .of
                    .get(edition)
                    .and_then(|of| of.get(index))
                    .cloned();
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
                let known = not_true(made(ConditionKind::Not(Box::new(any(known
                    .into_iter()
                    .map(fact)
                    .collect())))));
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
    pub(super) fn condition(&mut self, edition: usize, of: &Condition) -> Condition {
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
            ConditionKind::Not(_)
            | ConditionKind::NotTrue(_)
            | ConditionKind::All(_)
            | ConditionKind::Any(_)
            | ConditionKind::Count { .. } => {
                of.with_parts(|part| self.condition(edition, part)).kind
            }
        };
        made(kind)
    }

    /// A comparison of a vague term's reading, as the joined ruleset has it. Conditions name terms and
    /// never readings, so there is none; were there one, it must not be taken for another attribute.
    pub(super) fn reading_of(&self, edition: usize, test: &Test) -> Option<Test> {
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
}
