//! Parts of lines by the names that the ruleset has for them.

use super::vocabulary::Atom;
use super::{Line, Wanted};
use crate::logic::diagram::{Diagrams, Set, TooLarge};
use crate::logic::layers::Part;
use crate::model::{AttributeId, AttributeKind};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Lists of more items than this are not counted but as the ruleset counts them.
const MOST_ITEMS: usize = 10;

impl Diagrams<'_> {
    /// Whether a set is one box of cells.
    pub(super) fn is_box(&mut self, set: &Set) -> Result<bool, TooLarge> {
        let mut around = vec![None; self.layers().all().len()];
        for layer in 0..around.len() {
            let cells = self
                .layers()
                .all()
                .get(layer)
                .map_or(0, |layer| layer.cells);
            let mut met = Vec::new();
            for cell in 0..cells {
                let here = self.cell(layer, cell);
                if !self.and(&here, set)?.is_false() {
                    met.push(cell);
                }
            }
            if met.len() < cells
                && let Some(slot) = around.get_mut(layer)
            {
                *slot = Some(met);
            }
        }
        let space = self.space();
        let boxed = self.box_set(&around)?;
        Ok(self.and(&boxed, &space)? == *set)
    }

    /// A line with whatever parts of it have a name called by it, where that is not longer.
    pub(super) fn name_parts(
        &mut self,
        line: &Line,
        within: &Set,
        wanted: Wanted<'_>,
    ) -> Result<Line, TooLarge> {
        let boxed = self.boxed(line)?;
        let whole = self.and(&boxed, within)?;
        let Some(point) = self.most_ordinary_cells(&whole) else {
            return Ok(line.clone());
        };
        let mut spoken_of = line.speaks_of(self.layers());
        spoken_of.extend(wanted.mentioned);
        let mut atoms = self.atoms(wanted.vocabulary, &spoken_of);
        atoms.retain(|atom| self.contains(&atom.set, &point));
        atoms.sort_by_key(|atom| std::cmp::Reverse((atom.reads.len(), atom.is_term)));
        let mut line = line.clone();
        for atom in atoms {
            let said = line.speaks_of(self.layers());
            if line.named.contains(&atom) || said.is_disjoint(&atom.reads) {
                continue;
            }
            if !self.minus(&whole, &atom.set)?.is_false() {
                continue;
            }
            let named = self.called(&line, &atom, &whole, within)?;
            let before = self.parts(&line);
            let after = self.parts(&named);
            let words = |line: &Line| self.line_text(line, wanted.vocabulary).chars().count();
            let shorter =
                after < before || after == before && atom.is_term && words(&named) <= words(&line);
            if shorter {
                line = named;
            }
        }
        Ok(line)
    }

    /// The line with a condition besides, and without what that makes needless.
    fn called(
        &mut self,
        line: &Line,
        atom: &Arc<Atom>,
        whole: &Set,
        within: &Set,
    ) -> Result<Line, TooLarge> {
        let mut named = line.clone();
        named.named.push(Arc::clone(atom));
        let is_same = |diagrams: &mut Self, line: &Line| {
            let boxed = diagrams.boxed(line)?;
            Ok::<bool, TooLarge>(diagrams.and(&boxed, within)? == *whole)
        };
        for other in &line.named {
            let mut without = named.clone();
            without.named.retain(|one| one != other);
            if is_same(self, &without)? {
                named = without;
            }
        }
        for attribute in &atom.reads {
            let range = self.layers().of(*attribute);
            let before = named.cells.get(range.clone()).map(<[_]>::to_vec);
            if before.iter().flatten().all(Option::is_none) {
                continue;
            }
            let mut without = named.clone();
            if let Some(slots) = without.cells.get_mut(range) {
                slots.fill(None);
            }
            if is_same(self, &without)? {
                named = without;
            }
        }
        named.named.sort();
        Ok(named)
    }

    /// How many parts a line has.
    fn parts(&self, line: &Line) -> usize {
        let said = self.layers().all().iter().zip(&line.cells);
        let said = said.filter(|(_, cells)| cells.is_some());
        let said: BTreeSet<AttributeId> = said.map(|(layer, _)| layer.attribute).collect();
        said.len() + line.named.len()
    }

    /// For lists: at least so many, and at most so many, of the items of which something turns on
    /// whether they are there.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub(super) fn counted_items(
        &mut self,
        set: &Set,
        outside: &Set,
        mentioned: &BTreeSet<AttributeId>,
    ) -> Result<Vec<Arc<Atom>>, TooLarge> {
        let ruleset = self.theory().ruleset();
        let mut found = Vec::new();
        for attribute in mentioned {
            if !matches!(ruleset[*attribute].kind, AttributeKind::Several(_)) {
                continue;
            }
            let mut items = Vec::new();
            for layer in self.layers().of(*attribute) {
                let part = self.layers().all().get(layer).map(|layer| &layer.part);
                let Some(Part::Item(item)) = part.cloned() else {
                    continue;
                };
                let either_way = self.forget(set, layer..layer + 1)?;
                if !self.and(&either_way, outside)?.is_false() {
                    items.push(item);
                }
            }
            if items.len() < 2 || items.len() > MOST_ITEMS {
                continue;
            }
            for least in 1..items.len() {
                found.extend(self.at_least_items(*attribute, &items, least));
                found.extend(self.at_most_items(*attribute, &items, least));
            }
        }
        Ok(found)
    }

    fn at_least_items(
        &mut self,
        attribute: AttributeId,
        items: &[usize],
        least: usize,
    ) -> Option<Arc<Atom>> {
        let (name, names) = self.item_names(attribute, items);
        let list = names.join(", ");
        let everything = self.theory().ruleset()[attribute].kind.names().len();
        let words = match least {
            1 if items.len() == everything => format!("{name} is not empty"),
            1 => format!("{name} includes any of ({list})"),
            _ => format!("{name} includes at least {least} of ({list})"),
        };
        let most = u32::MAX;
        self.counted(attribute, items, (least, most), words)
    }

    fn at_most_items(
        &mut self,
        attribute: AttributeId,
        items: &[usize],
        most: usize,
    ) -> Option<Arc<Atom>> {
        let (name, names) = self.item_names(attribute, items);
        let words = format!("{name} includes at most {most} of ({})", names.join(", "));
        let most = u32::try_from(most).unwrap_or(u32::MAX);
        self.counted(attribute, items, (0, most), words)
    }

    fn item_names(&self, attribute: AttributeId, items: &[usize]) -> (String, Vec<String>) {
        let this = &self.theory().ruleset()[attribute];
        let names = this.kind.names();
        let names = items.iter().filter_map(|item| names.get(*item));
        let names = names.map(|value| value.name.clone()).collect();
        (this.name.clone(), names)
    }

    fn counted(
        &mut self,
        attribute: AttributeId,
        items: &[usize],
        (least, most): (usize, u32),
        words: String,
    ) -> Option<Arc<Atom>> {
        let count = u32::try_from(items.len()).unwrap_or(u32::MAX);
        let is_so = crate::logic::Formula::Holds(crate::model::Test::Several {
            attribute,
            items: items.iter().copied().collect(),
            least: u32::try_from(least).unwrap_or(u32::MAX),
            most: most.min(count),
        });
        let set = self.set(&is_so).ok()?;
        Some(Arc::new(Atom {
            words,
            reads: BTreeSet::from([attribute]),
            is_term: false,
            is_box: false,
            set,
        }))
    }

    /// Lines that differ only in which one item of a list they ask for, as one line.
    pub(super) fn gather_items(&mut self, lines: Vec<Line>) -> Vec<Line> {
        let mut groups: BTreeMap<(Line, AttributeId, usize), Vec<(usize, usize)>> = BTreeMap::new();
        for (index, line) in lines.iter().enumerate() {
            for (rest, attribute, item, cell) in self.single_items(line) {
                let group = groups.entry((rest, attribute, cell)).or_default();
                group.push((index, item));
            }
        }
        let mut groups: Vec<_> = groups.into_iter().filter(|(_, of)| of.len() > 1).collect();
        groups.sort_by_key(|(_, of)| std::cmp::Reverse(of.len()));
        let mut gone: BTreeSet<usize> = BTreeSet::new();
        let mut made: BTreeMap<usize, Line> = BTreeMap::new();
        for ((rest, attribute, cell), of) in groups {
            if of.iter().any(|(index, _)| gone.contains(index)) {
                continue;
            }
            let mut items: Vec<usize> = of.iter().map(|(_, item)| *item).collect();
            items.sort_unstable();
            let atom = if cell == 1 {
                self.at_least_items(attribute, &items, 1)
            } else {
                self.at_most_items(attribute, &items, items.len() - 1)
            };
            let (Some(atom), Some((first, _))) = (atom, of.first()) else {
                continue;
            };
            let mut line = rest;
            line.named.push(atom);
            line.named.sort();
            gone.extend(of.iter().map(|(index, _)| *index));
            made.insert(*first, line);
        }
        let lines = lines.into_iter().enumerate();
        lines
            .filter_map(|(index, line)| match made.remove(&index) {
                Some(together) => Some(together),
                None => (!gone.contains(&index)).then_some(line),
            })
            .collect()
    }

    /// The ways in which a line asks for a single item of a list (its cell is 1) or asks that it be
    /// not among them (0): what else it asks for, the list, the item, the cell.
    fn single_items(&self, line: &Line) -> Vec<(Line, AttributeId, usize, usize)> {
        let layers = self.layers().all().iter().enumerate();
        let mut said: BTreeMap<AttributeId, Vec<(usize, usize, usize)>> = BTreeMap::new();
        for (index, layer) in layers {
            if let (Part::Item(item), Some(Some(cells))) = (&layer.part, line.cells.get(index))
                && let [cell] = cells.as_slice()
            {
                let of = said.entry(layer.attribute).or_default();
                of.push((index, *item, *cell));
            }
        }
        let mut found = Vec::new();
        for (attribute, items) in said {
            for cell in [0, 1] {
                let mut mine = items.iter().filter(|(_, _, one)| *one == cell);
                if let (Some((layer, item, _)), None) = (mine.next(), mine.next()) {
                    let mut rest = line.clone();
                    if let Some(slot) = rest.cells.get_mut(*layer) {
                        *slot = None;
                    }
                    let asked = self.layers().of(attribute).start;
                    let alone = items.len() == 1;
                    // The count speaks for itself of where the list is asked.
                    if alone
                        && asked != *layer
                        && let Some(slot) = rest.cells.get_mut(asked)
                        && slot.as_deref() == Some(&[1])
                    {
                        *slot = None;
                    }
                    found.push((rest, attribute, *item, cell));
                }
            }
        }
        found
    }
}
