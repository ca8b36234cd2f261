//! Reads the graph off a ruleset: everything that one thing says of another, with the words.

use super::network::{CaseBook, Edge, Node, NodeId, Relation, Thing};
use crate::labels::called;
use crate::logic::{dimensions_read, quantities_named};
use crate::model::{
    AttributeId, BackgroundRule, ClauseId, Condition, ConditionKind, DimensionId, Gain, Meaning,
    Origin, Promise, QuantityValue, Ruleset, TermId, Text,
};
use crate::source::{Column, Line, Place, Position, Span};
use std::collections::BTreeMap;
use std::num::NonZeroU32;

pub(super) fn build(ruleset: &Ruleset, book: Option<CaseBook<'_>>) -> (Vec<Node>, Vec<Edge>) {
    let mut builder = Builder {
        ruleset,
        nodes: Vec::new(),
        ids: BTreeMap::new(),
        edges: BTreeMap::new(),
    };
    builder.things();
    builder.definitions();
    builder.clauses();
    builder.principles();
    if let Some(book) = book {
        builder.cases(book);
    }
    let Builder { nodes, edges, .. } = builder;
    let edges = edges.into_iter();
    let edges = edges.map(|((from, relation, to), spans)| Edge {
        from,
        relation,
        to,
        places: spans
            .into_iter()
            .map(|span| ruleset.sources.place(span))
            .collect(),
    });
    let edges = edges.collect();
    (nodes, edges)
}

struct Builder<'r> {
    ruleset: &'r Ruleset,
    nodes: Vec<Node>,
    ids: BTreeMap<Thing, NodeId>,
    edges: BTreeMap<(NodeId, Relation, NodeId), Vec<Span>>,
}

impl Builder<'_> {
    fn node(&mut self, thing: Thing, name: &str, title: Option<String>, place: Option<Place>) {
        let id = NodeId(self.nodes.len());
        self.ids.insert(thing, id);
        self.nodes.push(Node {
            thing,
            name: name.to_owned(),
            title: title.filter(|words| words != name),
            place,
        });
    }

    fn edge(&mut self, from: Thing, relation: Relation, to: Thing, span: Option<Span>) {
        let (Some(from), Some(to)) = (self.ids.get(&from), self.ids.get(&to)) else {
            return;
        };
        let spans = self.edges.entry((*from, relation, *to)).or_default();
        if let Some(span) = span.filter(|span| !spans.contains(span)) {
            spans.push(span);
        }
    }

    fn things(&mut self) {
        let ruleset = self.ruleset;
        let label = |label: Option<&Text>, name: &str| Some(called(ruleset, label, name));
        let place = |span| Some(ruleset.sources.place(span));
        for (index, quantity) in ruleset.quantities.iter().enumerate() {
            let thing = Thing::Quantity(index);
            self.node(thing, &quantity.name, None, place(quantity.span));
        }
        for (index, attribute) in ruleset.attributes.iter().enumerate() {
            if attribute.origin == Origin::Stated {
                let thing = Thing::Attribute(AttributeId::new(index));
                let name = &attribute.name;
                let title = label(attribute.label.as_ref(), name);
                self.node(thing, name, title, place(attribute.span));
            }
        }
        for (index, term) in ruleset.terms.iter().enumerate() {
            let thing = Thing::Term(TermId::new(index));
            let title = label(term.label.as_ref(), &term.name);
            self.node(thing, &term.name, title, place(term.span));
        }
        for (index, line) in ruleset.background.iter().enumerate() {
            let name = line.id.clone();
            let name = name.unwrap_or_else(|| format!("line {}", index + 1));
            let title = line.because.as_ref().map(ToString::to_string);
            self.node(Thing::Background(index), &name, title, place(line.span));
        }
        for (index, dimension) in ruleset.dimensions.iter().enumerate() {
            let thing = Thing::Dimension(DimensionId::new(index));
            let title = label(dimension.label.as_ref(), &dimension.name);
            self.node(thing, &dimension.name, title, place(dimension.span));
        }
        for (index, clause) in ruleset.clauses.iter().enumerate() {
            let thing = Thing::Clause(ClauseId::new(index));
            let title = clause.title.as_ref();
            let title = title.map(|text| text.in_language(&ruleset.language).to_owned());
            self.node(thing, &clause.id, title, place(clause.id_span));
        }
        for (index, principle) in ruleset.principles.iter().enumerate() {
            let thing = Thing::Principle(index);
            let title = principle.text.as_ref();
            let title = title.map(|text| text.in_language(&ruleset.language).to_owned());
            self.node(thing, &principle.id, title, place(principle.span));
        }
    }

    /// Everything that a condition names, with the words that name it.
    fn named(&self, condition: &Condition) -> Vec<(Thing, Span)> {
        let mut found = Vec::new();
        condition.each_part(&mut |part| match &part.kind {
            ConditionKind::Fact { test, .. } => {
                let read = test.attributes().into_iter();
                found.extend(read.map(|id| (Thing::Attribute(id), part.span)));
            }
            ConditionKind::Term(term) => found.push((Thing::Term(*term), part.span)),
            ConditionKind::Ruling { dimension, .. } => {
                found.push((Thing::Dimension(*dimension), part.span));
            }
            _ => {}
        });
        let quantities = quantities_named(self.ruleset, condition).into_iter();
        found.extend(quantities.map(|(index, span)| (Thing::Quantity(index), span)));
        found
    }

    fn reads(&mut self, who: Thing, condition: &Condition) {
        for (thing, span) in self.named(condition) {
            self.edge(who, Relation::Reads, thing, Some(span));
        }
    }

    fn definitions(&mut self) {
        let ruleset = self.ruleset;
        for (index, quantity) in ruleset.quantities.iter().enumerate() {
            if let QuantityValue::Column { by, .. } = &quantity.value {
                let by = Thing::Attribute(*by);
                self.edge(
                    Thing::Quantity(index),
                    Relation::Reads,
                    by,
                    Some(quantity.span),
                );
            }
        }
        for (index, attribute) in ruleset.attributes.iter().enumerate() {
            let asked = attribute.asked_when.as_ref();
            if let Some(asked) = asked.filter(|_| attribute.origin == Origin::Stated) {
                self.reads(Thing::Attribute(AttributeId::new(index)), asked);
            }
        }
        for (index, term) in ruleset.terms.iter().enumerate() {
            let whole = Thing::Term(TermId::new(index));
            let readings = match &term.meaning {
                Meaning::Sharp(meaning) => vec![meaning],
                Meaning::Vague { narrow, broad, .. } => vec![narrow, broad],
            };
            for condition in readings {
                for (part, span) in self.named(condition) {
                    self.edge(part, Relation::Defines, whole, Some(span));
                }
            }
        }
        for (index, line) in ruleset.background.iter().enumerate() {
            let (BackgroundRule::Never(condition) | BackgroundRule::Always(condition)) = &line.rule;
            self.reads(Thing::Background(index), condition);
        }
        for (index, dimension) in ruleset.dimensions.iter().enumerate() {
            if let Some(required) = &dimension.required_when {
                self.reads(Thing::Dimension(DimensionId::new(index)), required);
            }
        }
    }

    fn clauses(&mut self) {
        let ruleset = self.ruleset;
        for (index, clause) in ruleset.clauses.iter().enumerate() {
            let own = ClauseId::new(index);
            let this = Thing::Clause(own);
            self.reads(this, &clause.when);
            for (dimension, _) in &clause.rulings {
                let on = Thing::Dimension(*dimension);
                self.edge(this, Relation::RulesOn, on, Some(clause.ruling_span));
            }
            let lists = [
                (Relation::Displaces, &clause.prevails_over),
                (Relation::Disapplies, &clause.disapplies),
            ];
            for (relation, others) in lists {
                for other in others {
                    let said = words_of_precedence(ruleset, relation, own, *other);
                    let other = Thing::Clause(*other);
                    if said.is_empty() {
                        self.edge(this, relation, other, None);
                    }
                    for span in said {
                        self.edge(this, relation, other, Some(span));
                    }
                }
            }
        }
    }

    fn principles(&mut self) {
        let ruleset = self.ruleset;
        for (index, principle) in ruleset.principles.iter().enumerate() {
            let this = Thing::Principle(index);
            let span = Some(principle.span);
            match &principle.promise {
                Promise::Expect { whenever, expect } => {
                    self.reads(this, whenever);
                    for (thing, span) in self.named(expect) {
                        let relation = match thing {
                            Thing::Dimension(_) => Relation::Promises,
                            _ => Relation::Reads,
                        };
                        self.edge(this, relation, thing, Some(span));
                    }
                }
                Promise::ImpartialTo(attributes) => {
                    for attribute in attributes {
                        let read = Thing::Attribute(*attribute);
                        self.edge(this, Relation::Reads, read, span);
                    }
                    for (index, dimension) in ruleset.dimensions.iter().enumerate() {
                        if !dimension.intermediate {
                            let on = Thing::Dimension(DimensionId::new(index));
                            self.edge(this, Relation::Promises, on, span);
                        }
                    }
                }
                Promise::RisesWith {
                    attribute,
                    dimension,
                } => {
                    let read = Thing::Attribute(*attribute);
                    self.edge(this, Relation::Reads, read, span);
                    let on = Thing::Dimension(*dimension);
                    self.edge(this, Relation::Promises, on, span);
                }
                Promise::NoGain { party, by, gain } => {
                    match by {
                        Some(by) => self.reads(this, by),
                        None => self.reads_of_party(this, party, principle.span),
                    }
                    let on: Vec<DimensionId> = match gain {
                        Gain::Raising(dimension) | Gain::Lowering(dimension) => vec![*dimension],
                        Gain::To(condition) => dimensions_read(condition),
                    };
                    for dimension in on {
                        let on = Thing::Dimension(dimension);
                        self.edge(this, Relation::Promises, on, span);
                    }
                }
            }
        }
    }

    fn reads_of_party(&mut self, who: Thing, party: &str, span: Span) {
        let all = self.ruleset.attributes.iter().enumerate();
        for (index, attribute) in all {
            if attribute.set_by.as_deref() == Some(party) {
                let read = Thing::Attribute(AttributeId::new(index));
                self.edge(who, Relation::Reads, read, Some(span));
            }
        }
    }

    fn cases(&mut self, book: CaseBook<'_>) {
        let ruleset = self.ruleset;
        for (index, case) in book.cases.iter().enumerate() {
            let this = Thing::Case(index);
            let title = case.note.clone().or_else(|| case.source.clone());
            let line = u32::try_from(case.place.0).ok().and_then(NonZeroU32::new);
            let place = line.map(|line| Place {
                file: book.file.to_owned(),
                position: Position {
                    line: Line(line),
                    column: Column(NonZeroU32::MIN),
                },
                length: 0,
            });
            self.node(this, &case.id, title, place);
            let officials = case.officials.values();
            for found in std::iter::once(&case.found).chain(officials) {
                for (id, _) in found.facts.facts() {
                    self.edge(this, Relation::States, Thing::Attribute(id), None);
                }
                for (dimension, _) in &found.ruled {
                    self.edge(this, Relation::Notes, Thing::Dimension(*dimension), None);
                }
                for cited in &found.clauses {
                    let clause = ruleset.clauses.iter().position(|it| it.id == *cited);
                    if let Some(clause) = clause.map(ClauseId::new) {
                        self.edge(this, Relation::Cites, Thing::Clause(clause), None);
                    }
                }
            }
        }
    }
}

/// The words by which one clause comes before another: its own, or the other's `subject_to`.
fn words_of_precedence(
    ruleset: &Ruleset,
    relation: Relation,
    first: ClauseId,
    then: ClauseId,
) -> Vec<Span> {
    use crate::model::Wording;
    let said = |by: ClauseId, wording: Wording, other: ClauseId| {
        let references = ruleset[by].references.iter();
        let fits = references
            .filter(move |it| it.wording == wording && it.others.contains(&other))
            .map(|it| it.span);
        fits.collect::<Vec<_>>()
    };
    if relation == Relation::Disapplies {
        return said(first, Wording::Disapplies, then);
    }
    let mut spans = said(first, Wording::Notwithstanding, then);
    spans.extend(said(then, Wording::SubjectTo, first));
    spans
}
