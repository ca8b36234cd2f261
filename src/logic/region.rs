//! General conditions: a set of scenarios said in few and wide lines.
//!
//! Starting from a scenario of the set, every attribute that can be left open is left open and every
//! remaining range is widened as far as the set allows: the result is a prime implicant over cells
//! (Quine, The problem of simplifying truth functions, American Mathematical Monthly 59, 1952).
//! Lines are added until nothing of the set is left; lines that the others make needless are
//! dropped.

use super::diagram::{Diagrams, Set, TooLarge};
use super::layers::{Layer, Part};
use crate::model::{AttributeId, AttributeKind, Origin};
use biodivine_lib_bdd::{Bdd, BddPointer};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// A box of cells: for each layer the cells allowed, or `None` where the layer is free.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// One entry a layer.
    pub cells: Vec<Option<Vec<usize>>>,
}

/// Lines that together describe a set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Region {
    /// The lines, none of which can be left out.
    pub lines: Vec<Line>,
    /// Whether they cover the whole set. They never cover anything outside it.
    pub complete: bool,
}

impl Diagrams<'_> {
    /// Describes a set in at most `most` lines. `mentioned` are the attributes that whoever reads it
    /// expects to see: the others are left open first.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn region(
        &mut self,
        set: &Set,
        mentioned: &BTreeSet<AttributeId>,
        most: usize,
    ) -> Result<Region, TooLarge> {
        let space = self.space();
        self.region_within(set, &space, mentioned, most)
    }

    /// The same among the scenarios of `within` alone, which holds the set: lines may reach beyond
    /// it, and cover the set exactly where it is given that a scenario lies within.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn region_within(
        &mut self,
        set: &Set,
        within: &Set,
        mentioned: &BTreeSet<AttributeId>,
        most: usize,
    ) -> Result<Region, TooLarge> {
        let outside = self.minus(within, set)?;
        let mut left = Set::clone(set);
        let mut lines: Vec<(Line, Set)> = Vec::new();
        while !left.is_false() && lines.len() < most && !self.is_exhausted() {
            let Some(cells) = self.most_ordinary_cells(&left) else {
                break;
            };
            let mut best: Option<(num_bigint::BigUint, Line, Set)> = None;
            for order in self.orders(mentioned) {
                let line = self.widen(&cells, &outside, &order);
                let covered = self.box_set(&line.cells)?;
                let gained = self.and(&covered, &left)?;
                let gained = self.count(&gained)?;
                let better = best.as_ref().is_none_or(|(most, known, _)| {
                    gained > *most || gained == *most && line.written() < known.written()
                });
                if better {
                    best = Some((gained, line, covered));
                }
            }
            let Some((_, line, covered)) = best else {
                break;
            };
            left = self.minus(&left, &covered)?;
            lines.push((line, covered));
        }
        let complete = left.is_false();
        let kept = self.drop_needless(lines, set)?;
        Ok(Region {
            lines: kept,
            complete,
        })
    }

    /// The scenarios of a line.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn line_set(&mut self, line: &Line) -> Result<Set, TooLarge> {
        let boxed = self.box_set(&line.cells)?;
        let space = self.space();
        self.and(&boxed, &space)
    }

    /// Drops the lines whose part of the set the other lines cover, the narrowest first.
    fn drop_needless(
        &mut self,
        mut lines: Vec<(Line, Set)>,
        set: &Set,
    ) -> Result<Vec<Line>, TooLarge> {
        let mut index = 0;
        while index < lines.len() && lines.len() > 1 {
            let Some((_, mine)) = lines.get(index) else {
                break;
            };
            let mine = Set::clone(mine);
            let mut rest = self.and(&mine, set)?;
            for (other, (_, theirs)) in lines.iter().enumerate() {
                if other != index {
                    rest = self.minus(&rest, theirs)?;
                }
            }
            if rest.is_false() {
                lines.remove(index);
            } else {
                index += 1;
            }
        }
        Ok(lines.into_iter().map(|(line, _)| line).collect())
    }

    /// Orders in which to leave attributes open: first what nobody mentions, then the rest from the
    /// last to the first, from the first to the last, and judged ones first.
    fn orders(&self, mentioned: &BTreeSet<AttributeId>) -> Vec<Vec<AttributeId>> {
        let ruleset = self.theory().ruleset();
        let all = || (0..ruleset.attributes.len()).map(AttributeId::new);
        let (known, strange): (Vec<_>, Vec<_>) = all().partition(|id| mentioned.contains(id));
        let strange = strange.into_iter().rev();
        let judged = |id: &AttributeId| ruleset[*id].judged;
        let judged_first = known
            .iter()
            .copied()
            .filter(judged)
            .chain(known.iter().copied().filter(|id| !judged(id)));
        let mut orders: Vec<Vec<AttributeId>> = vec![
            strange.clone().chain(known.iter().rev().copied()).collect(),
            strange.clone().chain(known.iter().copied()).collect(),
            strange.chain(judged_first).collect(),
        ];
        orders.dedup();
        orders
    }

    /// Widens a choice of cells as far as it stays clear of `outside`.
    fn widen(&self, cells: &[usize], outside: &Bdd, order: &[AttributeId]) -> Line {
        let layers = self.layers();
        let mut line = Line {
            cells: cells.iter().map(|cell| Some(vec![*cell])).collect(),
        };
        let not_asked = |layer: usize, line: &Line| {
            layers.all().get(layer).is_some_and(Layer::is_conditional)
                && line.cells.get(layer) == Some(&Some(vec![0]))
        };
        // What isn't asked follows from the rest; said first, it would hide the reason.
        for attribute in order {
            let range = layers.of(*attribute);
            if not_asked(range.start, &line) {
                self.try_free(&mut line, range, outside);
            }
        }
        for attribute in order {
            let range = layers.of(*attribute);
            if !self.try_free(&mut line, range.clone(), outside) && range.len() > 1 {
                for layer in range.clone().rev() {
                    // "None of these is present" speaks only of where the attribute is asked.
                    let asked = layers
                        .all()
                        .get(layer)
                        .is_some_and(|layer| layer.part == Part::Asked);
                    let absent = |items: &[_]| items.contains(&Some(vec![0]));
                    if !(asked && line.cells.get(layer + 1..range.end).is_some_and(absent)) {
                        self.try_free(&mut line, layer..layer + 1, outside);
                    }
                }
            }
        }
        for attribute in order.iter().rev() {
            for layer in layers.of(*attribute) {
                self.widen_layer(&mut line, layer, outside);
            }
        }
        line
    }

    fn try_free(&self, line: &mut Line, range: std::ops::Range<usize>, outside: &Bdd) -> bool {
        let Some(before) = line.cells.get(range.clone()).map(<[_]>::to_vec) else {
            return false;
        };
        if let Some(slots) = line.cells.get_mut(range.clone()) {
            slots.fill(None);
        }
        let free = !self.meets(line, outside);
        if !free && let Some(slots) = line.cells.get_mut(range) {
            slots.clone_from_slice(&before);
        }
        free
    }

    fn widen_layer(&self, line: &mut Line, layer: usize, outside: &Bdd) {
        let Some(this) = self.layers().all().get(layer) else {
            return;
        };
        let Some(Some(cells)) = line.cells.get(layer).cloned() else {
            return;
        };
        let first = usize::from(this.is_conditional());
        let (Some(low), Some(high)) = (cells.first().copied(), cells.last().copied()) else {
            return;
        };
        if low < first || matches!(this.part, Part::Item(_) | Part::Asked) {
            return;
        }
        let ruleset = self.theory().ruleset();
        let ordered = matches!(
            ruleset[this.attribute].kind,
            AttributeKind::Number(_) | AttributeKind::Scale(_)
        );
        let mut chosen = cells;
        let mut attempt = |cell: usize, chosen: &mut Vec<usize>| {
            let mut wider = chosen.clone();
            wider.push(cell);
            wider.sort_unstable();
            if let Some(slot) = line.cells.get_mut(layer) {
                *slot = Some(wider.clone());
            }
            let fits = !self.meets(line, outside);
            if fits {
                *chosen = wider;
            }
            fits
        };
        let up = high + 1..this.cells;
        let down = (first..low).rev();
        if ordered {
            for cell in up {
                if !attempt(cell, &mut chosen) {
                    break;
                }
            }
            for cell in down {
                if !attempt(cell, &mut chosen) {
                    break;
                }
            }
        } else {
            for cell in up.chain(down) {
                attempt(cell, &mut chosen);
            }
        }
        if let Some(slot) = line.cells.get_mut(layer) {
            *slot = Some(chosen);
        }
    }

    /// Whether the line has a scenario in common with the set.
    fn meets(&self, line: &Line, set: &Bdd) -> bool {
        let mut dead = BTreeSet::new();
        self.meets_from(line, set, set.root_pointer(), 0, &mut dead)
    }

    fn meets_from(
        &self,
        line: &Line,
        set: &Bdd,
        node: BddPointer,
        layer: usize,
        dead: &mut BTreeSet<(usize, usize)>,
    ) -> bool {
        if node.is_zero() {
            return false;
        }
        let Some(this) = self.layers().all().get(layer) else {
            return true;
        };
        // Out of steps, a line is not widened: it stays right, if narrow.
        if node.is_one() || self.step().is_err() {
            return true;
        }
        if dead.contains(&(layer, node.to_index())) {
            return false;
        }
        let reaches = |cell: usize, dead: &mut BTreeSet<(usize, usize)>| {
            self.meets_from(
                line,
                set,
                self.follow(set, node, layer, cell),
                layer + 1,
                dead,
            )
        };
        let found = match line.cells.get(layer) {
            Some(Some(cells)) => cells.iter().any(|cell| reaches(*cell, dead)),
            _ => (0..this.cells).any(|cell| reaches(cell, dead)),
        };
        if !found {
            dead.insert((layer, node.to_index()));
        }
        found
    }

    /// A line in the words of the ruleset, as a condition of its language. Two things have no form
    /// there and are said in plain words: that an attribute is not asked, and how a vague term is
    /// read.
    pub fn line_text(&self, line: &Line) -> String {
        let ruleset = self.theory().ruleset();
        let mut parts = Vec::new();
        for index in 0..ruleset.attributes.len() {
            let range = self.layers().of(AttributeId::new(index));
            if let (Some(layers), Some(cells)) = (
                self.layers().all().get(range.clone()),
                line.cells.get(range),
            ) {
                parts.extend(self.attribute_text(AttributeId::new(index), layers, cells));
            }
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
                let low = values
                    .first()
                    .and_then(|cell| ranges.get(*cell))
                    .map_or(0, |(low, _)| *low);
                let high = values
                    .last()
                    .and_then(|cell| ranges.get(*cell))
                    .map_or(0, |(_, high)| *high);
                let (low_text, high_text) = (range.value(low), range.value(high));
                match (low == 0, high == range.steps) {
                    (_, true) => format!("{name} at least {low_text}"),
                    (true, _) if low != high => format!("{name} at most {high_text}"),
                    _ if low == high => format!("{name} is {low_text}"),
                    _ => format!("{name} is between {low_text} and {high_text}"),
                }
            }
            AttributeKind::Several(_) => return None,
        })
    }

    fn names_of(&self, id: AttributeId) -> Vec<String> {
        let names = self.theory().ruleset()[id].kind.names();
        names.iter().map(|value| value.name.clone()).collect()
    }
}

impl Line {
    /// How much has to be written: layers that are not free, then cells.
    fn written(&self) -> (usize, usize) {
        let said = self.cells.iter().flatten();
        (said.clone().count(), said.map(Vec::len).sum())
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
    let mut text = String::new();
    if items.len() == names.len() && !names.is_empty() {
        return Some(match present.as_slice() {
            [] => format!("{name} is empty"),
            [_] => format!("{name} is only {}", list(&names, &present)),
            _ => format!("{name} is only ({})", list(&names, &present)),
        });
    }
    let mut add = |words: String| {
        let joint = if text.is_empty() { "" } else { " and " };
        // Writing to a string cannot fail.
        let _ = write!(text, "{joint}{name} includes {words}");
    };
    match present.as_slice() {
        [] => {}
        [_] => add(list(&names, &present)),
        _ => add(format!("all of ({})", list(&names, &present))),
    }
    if !absent.is_empty() {
        add(format!("none of ({})", list(&names, &absent)));
    }
    if text.is_empty() && asked == Some(true) {
        return Some(format!("({name} is empty or {name} is not empty)"));
    }
    (!text.is_empty()).then_some(text)
}
