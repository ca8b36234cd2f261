//! A line in the words of the ruleset.

use super::Line;
use super::vocabulary::{Atom, Vocabulary};
use crate::logic::diagram::Diagrams;
use crate::logic::layers::{Layer, Part};
use crate::model::{AttributeId, AttributeKind, NumberRange, Origin};
use std::collections::BTreeMap;
use std::sync::Arc;

impl Diagrams<'_> {
    /// A line in the words of the ruleset, as a condition of its language. Two things have no form
    /// there and are said in plain words: that an attribute is not asked, and how a vague term is
    /// read.
    pub fn line_text(&self, line: &Line, vocabulary: &Vocabulary) -> String {
        let ruleset = self.theory().ruleset();
        let mut parts: Vec<String> = Vec::new();
        let first_read = |atom: &Arc<Atom>| atom.reads.first().copied();
        let named = |at: Option<AttributeId>| {
            let mine = line.named.iter().filter(move |atom| first_read(atom) == at);
            mine.map(|atom| atom.words.clone())
        };
        parts.extend(named(None));
        for id in (0..ruleset.attributes.len()).map(AttributeId::new) {
            let range = self.layers().of(id);
            if let (Some(layers), Some(cells)) = (
                self.layers().all().get(range.clone()),
                line.cells.get(range),
            ) {
                parts.extend(self.attribute_text(id, layers, cells, vocabulary));
            }
            parts.extend(named(Some(id)));
        }
        if parts.is_empty() {
            "always".to_owned()
        } else {
            parts.join(" and ")
        }
    }

    fn attribute_text(
        &self,
        id: AttributeId,
        layers: &[Layer],
        cells: &[Option<Vec<usize>>],
        vocabulary: &Vocabulary,
    ) -> Option<String> {
        let attribute = &self.theory().ruleset()[id];
        let name = &attribute.name;
        if matches!(attribute.kind, AttributeKind::Several(_)) {
            return several_text(attribute, layers, cells);
        }
        let (Some(layer), Some(Some(chosen))) = (layers.first(), cells.first()) else {
            return None;
        };
        let first = usize::from(layer.is_conditional());
        if chosen == &[0] && first == 1 {
            return Some(format!("{name} is not asked"));
        }
        let values: Vec<usize> = chosen
            .iter()
            .filter_map(|cell| cell.checked_sub(first))
            .collect();
        let count = layer.cells - first;
        Some(match &attribute.kind {
            AttributeKind::YesNo => {
                let reading = attribute.origin != Origin::Stated;
                match values.as_slice() {
                    [0] if reading => format!("{name} does not hold where it is open"),
                    [1] if reading => format!("{name} holds where it is open"),
                    _ if reading => format!("{name} is open"),
                    [0] => format!("not {name}"),
                    [1] => name.clone(),
                    _ => format!("({name} or not {name})"),
                }
            }
            AttributeKind::Choice(_) => named_text(name, &self.names_of(id), &values, count),
            AttributeKind::Scale(_) => scale_text(name, &self.names_of(id), &values, count),
            AttributeKind::Number(range) => {
                let Part::Steps { ranges, .. } = &layer.part else {
                    return None;
                };
                let steps: Vec<(i64, i64)> = values
                    .iter()
                    .filter_map(|cell| ranges.get(*cell).copied())
                    .collect();
                NumberWords {
                    id,
                    name,
                    range,
                    vocabulary,
                }
                .said(&steps)
            }
            AttributeKind::Several(_) => return None,
        })
    }

    fn names_of(&self, id: AttributeId) -> Vec<String> {
        let names = self.theory().ruleset()[id].kind.names();
        names.iter().map(|value| value.name.clone()).collect()
    }
}

/// Says which steps of a number are meant.
struct NumberWords<'w> {
    id: AttributeId,
    name: &'w str,
    range: &'w NumberRange,
    vocabulary: &'w Vocabulary,
}

impl NumberWords<'_> {
    /// The quantity that the ruleset compares it with at this step.
    fn quantity(&self, step: i64) -> Option<&str> {
        let quantities = &self.vocabulary.quantities;
        quantities.get(&(self.id, step)).map(String::as_str)
    }

    /// A step by the name of a quantity, or as a number.
    fn at(&self, step: i64) -> String {
        let named = self.quantity(step).map(str::to_owned);
        named.unwrap_or_else(|| self.range.value(step).to_string())
    }

    /// Some ranges of steps, lowest first: one range, or all but one.
    fn said(&self, steps: &[(i64, i64)]) -> String {
        let (Some((low, _)), Some((_, high))) = (steps.first(), steps.last()) else {
            return format!("{} is not one of its values", self.name);
        };
        let gaps = steps.windows(2).filter_map(|pair| match pair {
            [(_, before), (after, _)] if before + 1 < *after => Some((before + 1, after - 1)),
            _ => None,
        });
        // What is missing between two ranges is one range itself.
        match gaps.collect::<Vec<_>>().as_slice() {
            [] => self.range_said(*low, *high),
            [(from, to)] if from == to => format!("{} is not {}", self.name, self.at(*from)),
            gaps => {
                let from = gaps.first().map_or(*low, |(from, _)| *from);
                let to = gaps.last().map_or(*high, |(_, to)| *to);
                format!(
                    "{} is not between {} and {}",
                    self.name,
                    self.at(from),
                    self.at(to)
                )
            }
        }
    }

    fn range_said(&self, low: i64, high: i64) -> String {
        let name = self.name;
        match (low == 0, high == self.range.steps) {
            (_, true) => match self.quantity(low - 1) {
                Some(quantity) if self.quantity(low).is_none() && low > 0 => {
                    format!("{name} more than {quantity}")
                }
                _ => format!("{name} at least {}", self.at(low)),
            },
            (true, _) => match self.quantity(high + 1) {
                Some(quantity) if self.quantity(high).is_none() => {
                    format!("{name} less than {quantity}")
                }
                _ if low == high => format!("{name} is {}", self.at(low)),
                _ => format!("{name} at most {}", self.at(high)),
            },
            _ if low == high => format!("{name} is {}", self.at(low)),
            _ => format!("{name} is between {} and {}", self.at(low), self.at(high)),
        }
    }
}

fn list(names: &[String], values: &[usize]) -> String {
    let words: Vec<&str> = values
        .iter()
        .filter_map(|value| names.get(*value))
        .map(String::as_str)
        .collect();
    words.join(", ")
}

fn named_text(name: &str, names: &[String], values: &[usize], count: usize) -> String {
    let others: Vec<usize> = (0..count).filter(|value| !values.contains(value)).collect();
    match (values, others.as_slice()) {
        ([_], _) => format!("{name} is {}", list(names, values)),
        (_, [_]) => format!("{name} is not {}", list(names, &others)),
        _ if others.is_empty() || values.len() <= others.len() => {
            format!("{name} is one of ({})", list(names, values))
        }
        _ => format!("{name} is not one of ({})", list(names, &others)),
    }
}

fn scale_text(name: &str, names: &[String], values: &[usize], count: usize) -> String {
    // `at least` and `at most` speak of all that lies between.
    if values
        .windows(2)
        .any(|pair| matches!(pair, [one, next] if one + 1 != *next))
    {
        return named_text(name, names, values, count);
    }
    match (values.first(), values.last()) {
        (Some(low), Some(high)) if low == high => format!("{name} is {}", list(names, values)),
        (Some(low), Some(high)) if high + 1 == count => {
            format!("{name} at least {}", list(names, &[*low]))
        }
        (Some(0), Some(high)) => format!("{name} at most {}", list(names, &[*high])),
        _ => format!("{name} is one of ({})", list(names, values)),
    }
}

fn several_text(
    attribute: &crate::model::Attribute,
    layers: &[Layer],
    cells: &[Option<Vec<usize>>],
) -> Option<String> {
    let name = &attribute.name;
    let names: Vec<String> = attribute
        .kind
        .names()
        .iter()
        .map(|value| value.name.clone())
        .collect();
    let mut items: BTreeMap<usize, bool> = BTreeMap::new();
    let mut asked = None;
    for (layer, chosen) in layers.iter().zip(cells) {
        match (&layer.part, chosen.as_deref()) {
            (Part::Asked, Some([cell])) => asked = Some(*cell == 1),
            (Part::Item(item), Some([cell])) => {
                items.insert(*item, *cell == 1);
            }
            _ => {}
        }
    }
    if asked == Some(false) {
        return Some(format!("{name} is not asked"));
    }
    let present: Vec<usize> = items
        .iter()
        .filter(|(_, present)| **present)
        .map(|(item, _)| *item)
        .collect();
    let absent: Vec<usize> = items
        .iter()
        .filter(|(_, present)| !**present)
        .map(|(item, _)| *item)
        .collect();
    if items.len() == names.len() && !names.is_empty() {
        return Some(match present.as_slice() {
            [] => format!("{name} is empty"),
            [_] => format!("{name} is only {}", list(&names, &present)),
            _ => format!("{name} is only ({})", list(&names, &present)),
        });
    }
    let mut parts = Vec::new();
    match present.as_slice() {
        [] => {}
        [_] => parts.push(format!("{name} includes {}", list(&names, &present))),
        _ => parts.push(format!(
            "{name} includes all of ({})",
            list(&names, &present)
        )),
    }
    match absent.as_slice() {
        [] => {}
        [_] => parts.push(format!("not ({name} includes {})", list(&names, &absent))),
        _ => parts.push(format!(
            "{name} includes none of ({})",
            list(&names, &absent)
        )),
    }
    let text = parts.join(" and ");
    if text.is_empty() && asked == Some(true) {
        return Some(format!("({name} is empty or {name} is not empty)"));
    }
    (!text.is_empty()).then_some(text)
}
