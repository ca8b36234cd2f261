//! What a thing of a ruleset says, part by part, in the words of the file.
//!
//! Two editions of a thing are compared by these words, so they leave out what is only layout.

use crate::model::{
    Attribute, AttributeKind, Background, BackgroundRule, Clause, Condition, Dimension,
    DimensionId, Gain, Heading, Meaning, NamedValue, Number, Origin, Principle, Promise, Quantity,
    QuantityValue, Ruleset, Term, Text, Unit, ValueSet, WhenSeveral, Wording,
};
use crate::read::amendment::Part;
use crate::source::Span;

/// One part of a thing: what it is called, and what it says.
pub(super) type Said = (String, String);

/// A thing of a ruleset, by the name that others know it by, with what it says.
#[derive(Clone, Debug)]
pub(super) struct Thing {
    pub(super) part: Part,
    pub(super) name: String,
    pub(super) says: Vec<Said>,
}

/// Everything that a ruleset has, chapter by chapter, in the order of the file.
pub(super) fn things(ruleset: &Ruleset) -> Vec<Thing> {
    let words = Words { ruleset };
    let mut all = Vec::new();
    let mut push = |part: Part, name: &str, says: Vec<Said>| {
        let says = says.into_iter().filter(|(_, words)| !words.is_empty());
        all.push(Thing {
            part,
            name: name.to_owned(),
            says: says.collect(),
        });
    };
    for quantity in &ruleset.quantities {
        push(Part::Quantity, &quantity.name, words.quantity(quantity));
    }
    let stated = ruleset.attributes.iter();
    for attribute in stated.filter(|it| it.origin == Origin::Stated) {
        push(Part::Attribute, &attribute.name, words.attribute(attribute));
    }
    for term in &ruleset.terms {
        push(Part::Term, &term.name, words.term(term));
    }
    for line in &ruleset.background {
        let says = words.background(line);
        // A line without an id is known by what it says.
        let own = says.first().map(|(_, words)| words.clone());
        let name = line.id.clone().or(own).unwrap_or_default();
        push(Part::Background, &name, says);
    }
    for dimension in &ruleset.dimensions {
        push(Part::Dimension, &dimension.name, words.dimension(dimension));
    }
    for heading in &ruleset.headings {
        push(Part::Heading, &heading.name, words.heading(heading));
    }
    for clause in &ruleset.clauses {
        push(Part::Clause, &clause.id, words.clause(clause));
    }
    for principle in &ruleset.principles {
        push(Part::Principle, &principle.id, words.principle(principle));
    }
    all
}

struct Words<'r> {
    ruleset: &'r Ruleset,
}

fn said(part: &str, words: impl Into<String>) -> Said {
    (part.to_owned(), words.into())
}

/// A text in each of its languages.
fn texts(part: &str, text: Option<&Text>) -> Vec<Said> {
    let all = text.into_iter().flat_map(|text| &text.by_language);
    all.map(|(language, words)| {
        let part = match language.as_str() {
            "" => part.to_owned(),
            language => format!("{part} ({language})"),
        };
        let words: Vec<&str> = words.split_whitespace().collect();
        (part, words.join(" "))
    })
    .collect()
}

impl Words<'_> {
    /// The words at a place, on one line.
    fn at(&self, span: Span) -> String {
        let words = self.ruleset.sources.slice(span);
        let words: Vec<&str> = words.split_whitespace().collect();
        let words = words.join(" ");
        let quoted = |quote: char| {
            let inner = words.strip_prefix(quote)?.strip_suffix(quote)?;
            (!inner.contains(quote)).then(|| inner.to_owned())
        };
        quoted('"').or_else(|| quoted('\'')).unwrap_or(words)
    }

    fn condition(&self, part: &str, condition: &Condition) -> Said {
        said(part, self.at(condition.span))
    }

    fn values(&self, values: &[NamedValue]) -> String {
        let told = values.iter().map(|value| match &value.label {
            Some(label) => format!(
                "{} ({})",
                value.name,
                label.in_language(&self.ruleset.language)
            ),
            None => value.name.clone(),
        });
        told.collect::<Vec<_>>().join(", ")
    }

    fn attribute(&self, attribute: &Attribute) -> Vec<Said> {
        let mut says = texts("Label", attribute.label.as_ref());
        says.push(match &attribute.kind {
            AttributeKind::YesNo => said("Kind", "yes or no"),
            AttributeKind::Choice(values) => said("Choice", self.values(values)),
            AttributeKind::Scale(values) => said("Scale", self.values(values)),
            AttributeKind::Several(values) => said("Several", self.values(values)),
            AttributeKind::Number(range) => {
                let more = if range.or_more { " or more" } else { "" };
                let (low, high) = (range.low, range.value(range.steps));
                let words = format!("{low} to {high}{more}, step {}", range.step);
                said("Number", with_unit(&words, &range.unit))
            }
        });
        if attribute.judged {
            says.push(said("Judged", "true"));
        }
        let asked = attribute.asked_when.iter();
        says.extend(asked.map(|asked| self.condition("Asked when", asked)));
        let party = attribute.set_by.iter();
        says.extend(party.map(|party| said("Set by", party)));
        says
    }

    fn term(&self, term: &Term) -> Vec<Said> {
        let mut says = texts("Label", term.label.as_ref());
        says.extend(texts("Text", term.text.as_ref()));
        match &term.meaning {
            Meaning::Sharp(meaning) => says.push(self.condition("Means", meaning)),
            Meaning::Vague { narrow, broad, .. } => {
                says.push(self.condition("Narrow", narrow));
                says.push(self.condition("Broad", broad));
            }
        }
        says
    }

    fn quantity(&self, quantity: &Quantity) -> Vec<Said> {
        let amount = |(number, unit): &(Number, Unit)| with_unit(&number.to_string(), unit);
        match &quantity.value {
            QuantityValue::Constant(number, unit) => {
                vec![said("Amount", amount(&(*number, unit.clone())))]
            }
            QuantityValue::Column { by, cells } => {
                let rows = self.ruleset[*by].kind.names().iter().zip(cells);
                let rows = rows.map(|(row, cell)| {
                    let cell = cell.as_ref().map_or_else(|| "-".to_owned(), amount);
                    (format!("Amount for {}", row.name), cell)
                });
                rows.collect()
            }
        }
    }

    fn background(&self, line: &Background) -> Vec<Said> {
        let rule = match &line.rule {
            BackgroundRule::Never(condition) => self.condition("Never", condition),
            BackgroundRule::Always(condition) => self.condition("Always", condition),
        };
        let mut says = vec![rule];
        says.extend(texts("Because", line.because.as_ref()));
        says
    }

    fn dimension(&self, dimension: &Dimension) -> Vec<Said> {
        let mut says = texts("Label", dimension.label.as_ref());
        let values = self.values(&dimension.values);
        let kind = if dimension.ordered { "Scale" } else { "Choice" };
        says.push(said(kind, values));
        says.push(said(
            "When several",
            match dimension.when_several {
                WhenSeveral::MustAgree => "",
                WhenSeveral::Highest => "highest",
                WhenSeveral::Lowest => "lowest",
                WhenSeveral::AllApply => "all apply",
            },
        ));
        if let Some(values) = dimension.otherwise {
            let values = named(&dimension.values, values);
            let words = if values.is_empty() {
                "nothing".to_owned()
            } else {
                values.join(", ")
            };
            says.push(said("Otherwise", words));
        }
        let required = dimension.required_when.iter();
        says.extend(required.map(|it| self.condition("Required when", it)));
        if dimension.intermediate {
            says.push(said("Intermediate", "true"));
        }
        says
    }

    fn heading(&self, heading: &Heading) -> Vec<Said> {
        let mut says = texts("Title", heading.title.as_ref());
        let covers = heading.covers.iter().map(|id| self.ruleset[*id].id.clone());
        let covers: Vec<String> = covers.collect();
        // What a number covers is no choice of the heading.
        if !heading.name.starts_with(|sign: char| sign.is_ascii_digit()) {
            says.push(said("Covers", covers.join(", ")));
        }
        says
    }

    fn clause(&self, clause: &Clause) -> Vec<Said> {
        let mut says = vec![said("Number", clause.id.clone())];
        says.extend(texts("Title", clause.title.as_ref()));
        says.extend(texts("Text", clause.text.as_ref()));
        if clause.when_span != clause.id_span {
            says.push(said("When", self.at(clause.when_span)));
        }
        let unless = clause.unless_span.iter();
        says.extend(unless.map(|span| said("Unless", self.at(*span))));
        for (on, values) in &clause.rulings {
            let on = &self.ruleset[*on];
            let values = named(&on.values, *values);
            let label = format!("Ruling on {}", on.name);
            says.push((label, values.join(" or ")));
        }
        for wording in [
            Wording::Notwithstanding,
            Wording::SubjectTo,
            Wording::Disapplies,
        ] {
            let mut others: Vec<String> = Vec::new();
            for reference in clause.references.iter().filter(|it| it.wording == wording) {
                let words = self.at(reference.span);
                if !others.contains(&words) {
                    others.push(words);
                }
            }
            let label = match wording {
                Wording::Notwithstanding => "Notwithstanding",
                Wording::SubjectTo => "Subject to",
                Wording::Disapplies => "Disapplies",
            };
            says.push(said(label, others.join(", ")));
        }
        says
    }

    fn principle(&self, principle: &Principle) -> Vec<Said> {
        let mut says = texts("Text", principle.text.as_ref());
        let dimension = |id: DimensionId| self.ruleset[id].name.clone();
        match &principle.promise {
            Promise::Expect { whenever, expect } => {
                says.push(self.condition("Whenever", whenever));
                says.push(self.condition("Expect", expect));
            }
            Promise::ImpartialTo(attributes) => {
                let names = attributes.iter().map(|id| self.ruleset[*id].name.clone());
                let names: Vec<String> = names.collect();
                says.push(said("Impartial to", names.join(", ")));
            }
            Promise::RisesWith {
                attribute,
                dimension: on,
            } => {
                says.push(said("Rises with", &self.ruleset[*attribute].name));
                says.push(said("Ruling", dimension(*on)));
            }
            Promise::NoGain { party, by, gain } => {
                says.push(said("No gain", party));
                says.extend(by.iter().map(|by| self.condition("By", by)));
                says.push(match gain {
                    Gain::Raising(on) => said("Raising", dimension(*on)),
                    Gain::Lowering(on) => said("Lowering", dimension(*on)),
                    Gain::To(condition) => self.condition("To", condition),
                });
            }
        }
        says
    }
}

fn with_unit(words: &str, unit: &Unit) -> String {
    match unit {
        Unit::None => words.to_owned(),
        Unit::Named(unit) => format!("{words} {unit}"),
    }
}

fn named(all: &[NamedValue], values: ValueSet) -> Vec<String> {
    let present = values.iter().filter_map(|index| all.get(index));
    present.map(|value| value.name.clone()).collect()
}
