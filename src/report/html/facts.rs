//! What the rules speak of: defined terms, facts and their values, what is decided, quantities, and what
//! cannot happen.

use super::dimension_title;
use super::pieces::{ConditionLine, Links};
use crate::labels;
use crate::logic::Code;
use crate::model::{
    Attribute, AttributeId, AttributeKind, BackgroundRule, DimensionId, Number, Origin,
    QuantityValue, Ruleset, Text, Unit, WhenSeveral,
};
use crate::report::{text_capital, words};

/// Everything that the rules speak of.
pub(super) struct Glossary {
    pub(super) terms: Vec<Entry>,
    pub(super) facts: Vec<Entry>,
    pub(super) decided: Vec<Entry>,
    pub(super) quantities: Vec<Entry>,
    pub(super) background: Vec<Entry>,
}

/// One of them.
pub(super) struct Entry {
    pub(super) anchor: String,
    /// How people call it.
    pub(super) title: String,
    /// Its name in conditions, where it has one.
    pub(super) name: String,
    /// What is said of it.
    pub(super) words: Vec<String>,
    /// Conditions that belong to it, each with words before it.
    pub(super) conditions: Vec<(&'static str, Vec<ConditionLine>)>,
}

impl Glossary {
    pub(super) fn new(ruleset: &Ruleset) -> Glossary {
        let links = Links::new(ruleset);
        Glossary {
            terms: terms(ruleset, &links),
            facts: facts(ruleset, &links),
            decided: decided(ruleset, &links),
            quantities: quantities(ruleset),
            background: background(ruleset, &links),
        }
    }
}

fn of(ruleset: &Ruleset, text: Option<&Text>) -> Vec<String> {
    let words = text.map(|text| text.in_language(&ruleset.language).trim().to_owned());
    words
        .into_iter()
        .filter(|words| !words.is_empty())
        .collect()
}

fn terms(ruleset: &Ruleset, links: &Links<'_>) -> Vec<Entry> {
    let all = ruleset.terms.iter().enumerate();
    all.map(|(index, term)| Entry {
        anchor: format!("term-{index}"),
        title: text_capital(&labels::called(ruleset, term.label.as_ref(), &term.name)),
        name: term.name.clone(),
        words: of(ruleset, term.text.as_ref()),
        conditions: links.meaning(&term.meaning),
    })
    .collect()
}

fn facts(ruleset: &Ruleset, links: &Links<'_>) -> Vec<Entry> {
    let all = ruleset.attributes.iter().enumerate();
    all.filter(|(_, attribute)| attribute.origin == Origin::Stated)
        .map(|(index, attribute)| {
            let mut words = vec![values(ruleset, AttributeId::new(index), attribute)];
            if attribute.judged {
                words.push("Left to the official’s judgement.".to_owned());
            }
            if let Some(party) = &attribute.set_by {
                words.push(format!("In the hands of: {party}."));
            }
            let asked = attribute.asked_when.iter();
            Entry {
                anchor: format!("fact-{index}"),
                title: text_capital(&labels::attribute(ruleset, attribute)),
                name: attribute.name.clone(),
                words,
                conditions: asked
                    .map(|condition| ("asked only where", links.condition(condition)))
                    .collect(),
            }
        })
        .collect()
}

fn values(ruleset: &Ruleset, id: AttributeId, attribute: &Attribute) -> String {
    let told = |code: u64| labels::fact(ruleset, id, Code(code));
    let names = attribute.kind.names();
    let listed = || -> Vec<String> {
        names
            .iter()
            .map(|value| labels::called(ruleset, value.label.as_ref(), &value.name))
            .collect()
    };
    match &attribute.kind {
        AttributeKind::YesNo => "Yes or no.".to_owned(),
        AttributeKind::Choice(_) => format!("One of: {}.", listed().join("; ")),
        AttributeKind::Scale(_) => format!("From lowest to highest: {}.", listed().join("; ")),
        AttributeKind::Several(_) => format!("Any of: {}.", listed().join("; ")),
        AttributeKind::Number(range) => {
            let last = u64::try_from(range.steps).unwrap_or(0);
            let step = measured(range.step, &range.unit);
            format!("From {} to {}, by {step}.", told(0), told(last))
        }
    }
}

fn measured(number: Number, unit: &Unit) -> String {
    match unit {
        Unit::None => number.to_string(),
        Unit::Named(unit) => format!("{number} {unit}"),
    }
}

fn decided(ruleset: &Ruleset, links: &Links<'_>) -> Vec<Entry> {
    let all = ruleset.dimensions.iter().enumerate();
    all.map(|(index, dimension)| {
        let id = DimensionId::new(index);
        let named: Vec<String> = dimension
            .values
            .iter()
            .map(|value| labels::called(ruleset, value.label.as_ref(), &value.name))
            .collect();
        let listed = named.join("; ");
        let mut said = vec![if dimension.ordered {
            format!("From lowest to highest: {listed}.")
        } else {
            format!("One of: {listed}.")
        }];
        said.extend(match dimension.when_several {
            WhenSeveral::MustAgree => None,
            WhenSeveral::Highest => Some("Of several, the highest.".to_owned()),
            WhenSeveral::Lowest => Some("Of several, the lowest.".to_owned()),
            WhenSeveral::AllApply => Some("Of several, all apply.".to_owned()),
        });
        if let Some(values) = dimension.otherwise {
            let values = words::ruling(ruleset, id, values);
            let values = if values.is_empty() {
                "nothing".to_owned()
            } else {
                words::and_list(&values)
            };
            said.push(format!("Where no clause says anything: {values}."));
        }
        if dimension.intermediate {
            said.push("Read by other clauses only; nobody announces it.".to_owned());
        }
        let required = dimension.required_when.iter();
        Entry {
            anchor: format!("decides-{index}"),
            title: dimension_title(ruleset, id),
            name: dimension.name.clone(),
            words: said,
            conditions: required
                .map(|condition| ("a ruling is due where", links.condition(condition)))
                .collect(),
        }
    })
    .collect()
}

fn quantities(ruleset: &Ruleset) -> Vec<Entry> {
    let all = ruleset.quantities.iter().enumerate();
    all.map(|(index, quantity)| Entry {
        anchor: format!("quantity-{index}"),
        title: text_capital(&quantity.name.replace('_', " ")),
        name: quantity.name.clone(),
        words: match &quantity.value {
            QuantityValue::Constant(number, unit) => vec![measured(*number, unit)],
            QuantityValue::Column { by, cells } => {
                let rows = ruleset[*by].kind.names().iter().zip(cells);
                rows.map(|(row, cell)| {
                    let row = labels::called(ruleset, row.label.as_ref(), &row.name);
                    let cell = cell.as_ref();
                    let cell = cell.map_or_else(
                        || "none".to_owned(),
                        |(number, unit)| measured(*number, unit),
                    );
                    format!("{row}: {cell}")
                })
                .collect()
            }
        },
        conditions: Vec::new(),
    })
    .collect()
}

fn background(ruleset: &Ruleset, links: &Links<'_>) -> Vec<Entry> {
    let all = ruleset.background.iter().enumerate();
    all.map(|(index, line)| {
        let (title, condition) = match &line.rule {
            BackgroundRule::Never(condition) => ("Never", condition),
            BackgroundRule::Always(condition) => ("Always", condition),
        };
        Entry {
            anchor: format!("background-{index}"),
            title: title.to_owned(),
            name: line.id.clone().unwrap_or_default(),
            words: of(ruleset, line.because.as_ref()),
            conditions: vec![("", links.condition(condition))],
        }
    })
    .collect()
}
