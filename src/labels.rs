//! How people call things: the labels of a ruleset, or its names where it gives none.
//!
//! Made once, so that reports, narrations and questions call a thing by the same words.

use crate::analysis::and_list;
use crate::logic::{Code, Written, written};
use crate::model::{
    Attribute, AttributeId, AttributeKind, ClauseId, DimensionId, NamedValue, Origin, Ruleset,
    Text, Unit, ValueSet,
};

/// The label of something, or its name where it has none; in the ruleset's own language.
pub fn called(ruleset: &Ruleset, label: Option<&Text>, name: &str) -> String {
    label
        .map(|text| text.in_language(&ruleset.language).trim())
        .filter(|words| !words.is_empty())
        .map_or_else(|| name.replace('_', " "), str::to_owned)
}

/// How people call a value.
fn value(ruleset: &Ruleset, value: &NamedValue) -> String {
    called(ruleset, value.label.as_ref(), &value.name)
}

/// How people call an attribute; for a reading, what it is a reading of.
pub fn attribute(ruleset: &Ruleset, attribute: &Attribute) -> String {
    match attribute.origin {
        Origin::Stated => called(ruleset, attribute.label.as_ref(), &attribute.name),
        Origin::Reading(term) => {
            let term = &ruleset[term];
            let called = called(ruleset, term.label.as_ref(), &term.name);
            format!("\"{called}\" can be read either way here, and is taken")
        }
    }
}

/// A fact's value in labels, with its unit.
pub fn fact(ruleset: &Ruleset, id: AttributeId, code: Code) -> String {
    let attribute = &ruleset[id];
    let names = attribute.kind.names();
    let named = |index: usize| names.get(index).map(|name| value(ruleset, name));
    match &attribute.kind {
        AttributeKind::YesNo => match (attribute.origin, code.0) {
            (Origin::Stated, 0) => "no".to_owned(),
            (Origin::Stated, _) => "yes".to_owned(),
            (Origin::Reading(_), 0) => "narrowly".to_owned(),
            (Origin::Reading(_), _) => "broadly".to_owned(),
        },
        AttributeKind::Choice(_) | AttributeKind::Scale(_) => usize::try_from(code.0)
            .ok()
            .and_then(named)
            .unwrap_or_default(),
        AttributeKind::Number(range) => {
            let number = written(ruleset, id, code);
            let unit = match &range.unit {
                Unit::None => String::new(),
                Unit::Named(unit) => format!(" {unit}"),
            };
            let top = range.or_more && i64::try_from(code.0) == Ok(range.steps);
            let more = if top { " or more" } else { "" };
            format!("{number}{unit}{more}")
        }
        AttributeKind::Several(items) => {
            let present = (0..items.len().min(64)).filter(|index| code.0 >> index & 1 == 1);
            let present: Vec<String> = present.filter_map(named).collect();
            if present.is_empty() {
                Written::Items(Vec::new()).to_string()
            } else {
                and_list(&present)
            }
        }
    }
}

/// Values of a dimension in labels: `a`, `a or b`.
pub fn ruling(ruleset: &Ruleset, dimension: DimensionId, values: ValueSet) -> Vec<String> {
    let names = &ruleset[dimension].values;
    let present = values.iter().filter_map(|index| names.get(index));
    present.map(|name| value(ruleset, name)).collect()
}

/// How people call a dimension.
pub fn dimension(ruleset: &Ruleset, id: DimensionId) -> String {
    let dimension = &ruleset[id];
    called(ruleset, dimension.label.as_ref(), &dimension.name)
}

/// The title of a ruleset with its edition and what is laid over it: `Contest rules, edition 2031,
/// with "Rules of the northern league"`.
pub fn ruleset(ruleset: &Ruleset) -> String {
    let edition = match ruleset.edition.as_str() {
        "" => String::new(),
        edition => format!(", edition {edition}"),
    };
    let layers = ruleset.layers.iter();
    let layers: Vec<String> = layers.map(|layer| format!("\"{}\"", layer.title)).collect();
    let with = match layers.as_slice() {
        [] => String::new(),
        layers => format!(", with {}", and_list(layers)),
    };
    format!("{}{edition}{with}", ruleset.title)
}

/// A clause by its id and title, with the file of the amendment that brought or changed it: `4.2
/// (Weight on a straight arm)`, `2.6 (Let after a foot fault, from let.yaml)`.
pub fn clause(ruleset: &Ruleset, id: ClauseId) -> String {
    let clause = &ruleset[id];
    let title = clause.title.as_ref();
    let title = title.map(|text| text.in_language(&ruleset.language).trim().to_owned());
    let title = title.filter(|title| !title.is_empty());
    let besides: Vec<String> = title.into_iter().chain(origin(ruleset, id)).collect();
    match besides.as_slice() {
        [] => clause.id.clone(),
        besides => format!("{} ({})", clause.id, besides.join(", ")),
    }
}

/// `from let.yaml`, `as amended by let.yaml`; nothing where a clause stands as in the ruleset's own
/// file.
pub fn origin(ruleset: &Ruleset, id: ClauseId) -> Option<String> {
    let clause = &ruleset[id];
    let own = clause.id_span.source;
    let mut by = Vec::new();
    for layer in &ruleset.layers {
        let name = ruleset.sources.get(layer.source)?.name();
        if layer.source == own {
            return Some(format!("from {name}"));
        }
        if clause.places().any(|place| place.source == layer.source) {
            by.push(name);
        }
    }
    let by = (!by.is_empty()).then(|| and_list(&by));
    by.map(|by| format!("as amended by {by}"))
}

/// How people call an attribute where its value is not said beside it; of a reading, that it is one.
pub fn attribute_name(ruleset: &Ruleset, attribute: &Attribute) -> String {
    match attribute.origin {
        Origin::Stated => called(ruleset, attribute.label.as_ref(), &attribute.name),
        Origin::Reading(term) => {
            let term = &ruleset[term];
            let called = called(ruleset, term.label.as_ref(), &term.name);
            format!("how \"{called}\" is read")
        }
    }
}
