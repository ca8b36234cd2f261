//! Which clauses can be met in which cells, as bits.
//!
//! For every cell of every layer there is the set of clauses whose condition can be true there. It is
//! an over-approximation made layer by layer: what it rules out is ruled out for good, and the layer
//! that does so is the proof. Two uses: the clauses that can be met together with a given one are
//! found without a solver, and a scenario is evaluated against the few clauses that can be met in it.

use super::layers::{Layer, Layers, Part};
use super::{Evaluator, Outcome, Scenario};
use crate::model::{
    AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Meaning, Ruleset, Step, TermId,
    Test,
};
use fixedbitset::FixedBitSet;
use std::collections::BTreeMap;

/// For some layers, the cells in which something can hold; the other layers are free.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct CellBox {
    /// The cells by layer.
    pub cells: BTreeMap<usize, FixedBitSet>,
}

impl CellBox {
    /// The box that holds nothing: a layer that does not exist has no cell left.
    fn nowhere() -> CellBox {
        CellBox {
            cells: BTreeMap::from([(usize::MAX, FixedBitSet::new())]),
        }
    }

    /// Whether some layer has no cell left.
    pub fn is_empty(&self) -> bool {
        self.cells.values().any(FixedBitSet::is_clear)
    }

    /// What is in both.
    pub fn meet(mut self, other: &CellBox) -> CellBox {
        for (layer, cells) in &other.cells {
            match self.cells.get_mut(layer) {
                Some(mine) => mine.intersect_with(cells),
                None => {
                    self.cells.insert(*layer, cells.clone());
                }
            }
        }
        self
    }

    /// The smallest box around both.
    fn join(mut self, other: &CellBox) -> CellBox {
        if self.is_empty() {
            return other.clone();
        }
        if !other.is_empty() {
            self.cells
                .retain(|layer, _| other.cells.contains_key(layer));
            for (layer, cells) in &mut self.cells {
                if let Some(theirs) = other.cells.get(layer) {
                    cells.union_with(theirs);
                }
            }
        }
        self
    }

    /// A layer in which the two have no cell in common.
    pub fn separating_layer(&self, other: &CellBox) -> Option<usize> {
        let both = self
            .cells
            .iter()
            .filter_map(|(layer, mine)| Some((layer, mine, other.cells.get(layer)?)));
        both.into_iter()
            .find(|(_, mine, theirs)| mine.is_disjoint(theirs))
            .map(|(layer, _, _)| *layer)
    }
}

/// What is wanted of a condition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Want {
    /// That it is true.
    True,
    /// That it is false.
    False,
    /// That it is not true.
    NotTrue,
    /// That it is not false.
    NotFalse,
}

impl Want {
    fn contrary(self) -> Want {
        match self {
            Want::True => Want::False,
            Want::False => Want::True,
            Want::NotTrue => Want::NotFalse,
            Want::NotFalse => Want::NotTrue,
        }
    }
}

/// The bits of one ruleset.
#[derive(Clone, Debug)]
pub struct Reach<'r> {
    ruleset: &'r Ruleset,
    layers: Layers,
    boxes: Vec<CellBox>,
    /// For each layer and cell, the clauses that can be met there.
    bits: Vec<Vec<FixedBitSet>>,
    /// For each clause its place in the ruleset's order.
    ranks: Vec<usize>,
    /// The dimensions with their places in the ruleset's order, in that order.
    dimension_ranks: Vec<(usize, DimensionId)>,
}

impl<'r> Reach<'r> {
    /// Works out the bits of a ruleset.
    pub fn new(ruleset: &'r Ruleset, layers: Layers) -> Self {
        let mut boxing = Boxing {
            ruleset,
            layers: &layers,
            terms: BTreeMap::new(),
            parts: 0,
        };
        let boxes: Vec<CellBox> = ruleset
            .clauses
            .iter()
            .map(|clause| boxing.of(&clause.when, Want::True))
            .collect();
        let everyone = || {
            let mut all = FixedBitSet::with_capacity(ruleset.clauses.len());
            all.insert_range(..);
            all
        };
        let mut bits: Vec<Vec<FixedBitSet>> = layers
            .all()
            .iter()
            .map(|layer| vec![everyone(); layer.cells])
            .collect();
        for (clause, cell_box) in boxes.iter().enumerate() {
            for (layer, allowed) in &cell_box.cells {
                for (cell, clauses) in bits.get_mut(*layer).into_iter().flatten().enumerate() {
                    if !allowed.contains(cell) {
                        clauses.remove(clause);
                    }
                }
            }
        }
        let mut ranks = vec![0; ruleset.clauses.len()];
        let mut dimension_ranks = Vec::new();
        for (rank, step) in ruleset.order.iter().enumerate() {
            match step {
                Step::Clause(id) => {
                    if let Some(slot) = ranks.get_mut(id.index()) {
                        *slot = rank;
                    }
                }
                Step::Dimension(id) => dimension_ranks.push((rank, *id)),
            }
        }
        Reach {
            ruleset,
            layers,
            boxes,
            bits,
            ranks,
            dimension_ranks,
        }
    }

    /// The layers that the bits are about.
    pub fn layers(&self) -> &Layers {
        &self.layers
    }

    /// Where a clause's condition can be true.
    pub fn cell_box(&self, clause: ClauseId) -> Option<&CellBox> {
        self.boxes.get(clause.index())
    }

    /// Where a condition can be as wanted.
    pub fn box_of(&self, condition: &Condition, want: Want) -> CellBox {
        Boxing {
            ruleset: self.ruleset,
            layers: &self.layers,
            terms: BTreeMap::new(),
            parts: 0,
        }
        .of(condition, want)
    }

    /// The clauses that can be met where something within the box holds.
    pub fn meeting(&self, cell_box: &CellBox) -> FixedBitSet {
        let mut found = FixedBitSet::with_capacity(self.ruleset.clauses.len());
        found.insert_range(..);
        for (layer, cells) in &cell_box.cells {
            let mut here = FixedBitSet::with_capacity(self.ruleset.clauses.len());
            for clauses in cells
                .ones()
                .filter_map(|cell| self.bits.get(*layer)?.get(cell))
            {
                here.union_with(clauses);
            }
            found.intersect_with(&here);
        }
        found
    }

    /// The clauses that can be met in one cell of a layer.
    pub fn in_cell(&self, layer: usize, cell: usize) -> Option<&FixedBitSet> {
        self.bits.get(layer)?.get(cell)
    }

    /// Whether a clause can be met in a scenario.
    pub fn can_be_met(&self, clause: ClauseId, scenario: &Scenario) -> bool {
        let layers = self.layers.all();
        let own = self.cell_box(clause).into_iter();
        own.flat_map(|own| &own.cells).all(|(index, cells)| {
            let layer = layers.get(*index);
            layer.is_some_and(|it| cells.contains(it.cell_of(scenario.get(it.attribute))))
        })
    }

    /// The clauses that can be met in a scenario.
    pub fn candidates(&self, scenario: &Scenario) -> FixedBitSet {
        let mut found = FixedBitSet::with_capacity(self.ruleset.clauses.len());
        found.insert_range(..);
        for (clauses, layer) in self.bits.iter().zip(self.layers.all()) {
            if let Some(here) = clauses.get(layer.cell_of(scenario.get(layer.attribute))) {
                found.intersect_with(here);
            }
        }
        found
    }

    /// What the ruleset says about a scenario: the evaluator, asked only about clauses that can be met.
    pub fn outcome(&self, evaluator: Evaluator<'_>, scenario: &Scenario) -> Outcome {
        let mut candidates = self.candidates(scenario);
        for clause in evaluator.edited_clauses() {
            candidates.insert(clause.index());
        }
        let mut steps: Vec<(usize, Step)> = candidates
            .ones()
            .map(|index| {
                (
                    self.ranks.get(index).copied().unwrap_or(0),
                    Step::Clause(ClauseId::new(index)),
                )
            })
            .chain(
                self.dimension_ranks
                    .iter()
                    .map(|(rank, id)| (*rank, Step::Dimension(*id))),
            )
            .collect();
        steps.sort_unstable();
        evaluator.outcome_by(scenario, steps.into_iter().map(|(_, step)| step))
    }
}

/// How many alternatives are followed; what goes beyond is left out.
const MOST_ALTERNATIVES: usize = 16;

/// How many parts of a condition are looked at for alternatives; beyond it the box around a part serves.
const MOST_PARTS: usize = 2_000;

impl Reach<'_> {
    /// Boxes in which a condition is likely to be as wanted, one for each way of reading its `or`s.
    ///
    /// A help for finding scenarios quickly, and nothing more: some ways may be left out, and a
    /// scenario in a box still has to be evaluated.
    pub fn alternatives(&self, condition: &Condition, want: Want) -> Vec<CellBox> {
        let mut boxing = Boxing {
            ruleset: self.ruleset,
            layers: &self.layers,
            terms: BTreeMap::new(),
            parts: 0,
        };
        let mut found = boxing.ways(condition, want);
        found.retain(|way| !way.is_empty());
        found.truncate(MOST_ALTERNATIVES);
        found
    }
}

/// Works out boxes, each term once.
struct Boxing<'a> {
    ruleset: &'a Ruleset,
    layers: &'a Layers,
    terms: BTreeMap<(TermId, Want), CellBox>,
    /// How many parts alternatives were looked for in.
    parts: usize,
}

impl Boxing<'_> {
    fn of(&mut self, condition: &Condition, want: Want) -> CellBox {
        match &condition.kind {
            ConditionKind::Always => match want {
                Want::True | Want::NotFalse => CellBox::default(),
                Want::False | Want::NotTrue => CellBox::nowhere(),
            },
            ConditionKind::Missing(_) => match want {
                Want::True | Want::False => CellBox::nowhere(),
                Want::NotTrue | Want::NotFalse => CellBox::default(),
            },
            ConditionKind::Fact { test, positive } => self.test(test, *positive, want),
            ConditionKind::Ruling { .. } | ConditionKind::Count { .. } => CellBox::default(),
            ConditionKind::Term(term) => self.term(*term, want),
            ConditionKind::Not(inner) => self.of(inner, want.contrary()),
            ConditionKind::NotTrue(inner) => {
                let wanted = match want {
                    Want::True | Want::NotFalse => Want::NotTrue,
                    Want::False | Want::NotTrue => Want::True,
                };
                self.of(inner, wanted)
            }
            ConditionKind::All(parts) => match want {
                Want::True | Want::NotFalse => self.every(parts, want),
                Want::False | Want::NotTrue => self.some(parts, want),
            },
            ConditionKind::Any(parts) => match want {
                Want::True | Want::NotFalse => self.some(parts, want),
                Want::False | Want::NotTrue => self.every(parts, want),
            },
        }
    }

    fn ways(&mut self, condition: &Condition, want: Want) -> Vec<CellBox> {
        self.parts += 1;
        if self.parts > MOST_PARTS {
            return vec![self.of(condition, want)];
        }
        let conjunction = matches!(want, Want::True | Want::NotFalse);
        match &condition.kind {
            ConditionKind::Not(inner) => self.ways(inner, want.contrary()),
            ConditionKind::NotTrue(inner) => self.ways(
                inner,
                if conjunction {
                    Want::NotTrue
                } else {
                    Want::True
                },
            ),
            ConditionKind::All(parts) if conjunction => self.every_way(parts, want),
            ConditionKind::Any(parts) if !conjunction => self.every_way(parts, want),
            ConditionKind::All(parts) | ConditionKind::Any(parts) => {
                let ways = parts.iter().flat_map(|part| self.ways(part, want));
                ways.take(MOST_ALTERNATIVES).collect()
            }
            ConditionKind::Count { least, of, .. } if conjunction => {
                let wanted = of.iter().take(*least as usize).cloned().collect::<Vec<_>>();
                self.every_way(&wanted, want)
            }
            ConditionKind::Term(term) => match &self.ruleset[*term].meaning {
                Meaning::Sharp(meaning) => self.ways(meaning, want),
                Meaning::Vague { narrow, .. } if conjunction => self.ways(narrow, want),
                Meaning::Vague { broad, .. } => self.ways(broad, want),
            },
            ConditionKind::Fact {
                test:
                    Test::Several {
                        attribute,
                        items,
                        least,
                        most,
                    },
                positive,
            } if conjunction => {
                // So many of the items present are enough, if any need be.
                let enough = if *positive {
                    *least
                } else {
                    most.saturating_add(1)
                } as usize;
                if enough == 0 || enough >= items.len() {
                    return vec![self.of(condition, want)];
                }
                let chosen: Vec<usize> = items.iter().collect();
                let ways = chosen.windows(enough).map(|some| Test::Several {
                    attribute: *attribute,
                    items: some.iter().copied().collect(),
                    least: u32::try_from(enough).unwrap_or(u32::MAX),
                    most: u32::try_from(enough).unwrap_or(u32::MAX),
                });
                ways.map(|way| self.test(&way, true, Want::True)).collect()
            }
            _ => vec![self.of(condition, want)],
        }
    }

    fn every_way(&mut self, parts: &[Condition], want: Want) -> Vec<CellBox> {
        parts.iter().fold(vec![CellBox::default()], |so_far, part| {
            let ways = self.ways(part, want);
            let joined = so_far
                .iter()
                .flat_map(|one| ways.iter().map(|way| one.clone().meet(way)));
            joined
                .filter(|both| !both.is_empty())
                .take(MOST_ALTERNATIVES)
                .collect()
        })
    }

    fn every(&mut self, parts: &[Condition], want: Want) -> CellBox {
        parts.iter().fold(CellBox::default(), |all, part| {
            all.meet(&self.of(part, want))
        })
    }

    fn some(&mut self, parts: &[Condition], want: Want) -> CellBox {
        let boxes: Vec<CellBox> = parts.iter().map(|part| self.of(part, want)).collect();
        boxes.iter().fold(CellBox::nowhere(), CellBox::join)
    }

    fn term(&mut self, id: TermId, want: Want) -> CellBox {
        if let Some(known) = self.terms.get(&(id, want)) {
            return known.clone();
        }
        let made = match &self.ruleset[id].meaning {
            Meaning::Sharp(condition) => self.of(condition, want),
            Meaning::Vague { narrow, broad, .. } => match want {
                Want::True => {
                    let narrow = self.of(narrow, Want::True);
                    narrow.join(&self.of(broad, Want::True))
                }
                Want::False => self.of(narrow, Want::NotTrue),
                Want::NotTrue | Want::NotFalse => CellBox::default(),
            },
        };
        self.terms.insert((id, want), made.clone());
        made
    }

    fn layer(&self, attribute: AttributeId) -> Option<(usize, &Layer)> {
        let index = self.layers.of(attribute).start;
        Some((index, self.layers.all().get(index)?))
    }

    /// Cells of one layer where the comparison is as wanted; `holds` says of a value's cell whether it
    /// holds there, or `None` where the cell alone does not tell.
    fn by_cell(
        &self,
        attribute: AttributeId,
        positive: bool,
        want: Want,
        holds: impl Fn(&Layer, usize) -> Option<bool>,
    ) -> CellBox {
        let Some((index, layer)) = self.layer(attribute) else {
            return CellBox::default();
        };
        let first = usize::from(layer.is_conditional());
        let mut cells = FixedBitSet::with_capacity(layer.cells);
        for cell in 0..layer.cells {
            let possible = if cell < first {
                matches!(want, Want::NotTrue | Want::NotFalse)
            } else {
                holds(layer, cell - first).is_none_or(|holds| match want {
                    Want::True | Want::NotFalse => holds == positive,
                    Want::False | Want::NotTrue => holds != positive,
                })
            };
            cells.set(cell, possible);
        }
        if cells.is_full() {
            return CellBox::default();
        }
        CellBox {
            cells: BTreeMap::from([(index, cells)]),
        }
    }

    fn test(&self, test: &Test, positive: bool, want: Want) -> CellBox {
        match test {
            Test::OneOf { attribute, values } => {
                self.by_cell(*attribute, positive, want, |_, value| {
                    Some(values.contains(value))
                })
            }
            Test::Within {
                attribute,
                low,
                high,
            } => self.by_cell(*attribute, positive, want, |layer, cell| {
                match &layer.part {
                    Part::Steps { ranges, .. } => ranges
                        .get(cell)
                        .map(|(first, last)| low <= first && last <= high),
                    _ => None,
                }
            }),
            Test::Same { .. } | Test::Linear(_) => {
                if matches!(want, Want::NotTrue | Want::NotFalse) {
                    return CellBox::default();
                }
                let boxes = test
                    .attributes()
                    .into_iter()
                    .map(|id| self.by_cell(id, true, want, |_, _| None));
                boxes.fold(CellBox::default(), |all, one| all.meet(&one))
            }
            Test::Several {
                attribute,
                items,
                least,
                most,
            } => {
                let asked = match self.layer(*attribute) {
                    Some((_, layer)) if layer.part == Part::Asked => {
                        self.by_cell(*attribute, true, want, |_, _| None)
                    }
                    _ => CellBox::default(),
                };
                // Only "all of these" and "none of these", said plainly, pin an item.
                let count = items.len();
                let pinned = match (
                    positive == (want == Want::True),
                    *least as usize,
                    *most as usize,
                ) {
                    _ if matches!(want, Want::NotTrue | Want::NotFalse) => {
                        return CellBox::default();
                    }
                    (true, least, _) if least == count => Some(1),
                    (true, _, 0) => Some(0),
                    (false, 1, most) if most >= count => Some(0),
                    (false, 0, most) if most + 1 == count => Some(1),
                    _ => None,
                };
                let Some(cell) = pinned else { return asked };
                let mut made = asked;
                for index in self.layers.of(*attribute) {
                    if let Some(Part::Item(item)) =
                        self.layers.all().get(index).map(|layer| &layer.part)
                        && items.contains(*item)
                    {
                        let mut cells = FixedBitSet::with_capacity(2);
                        cells.insert(cell);
                        made.cells.insert(index, cells);
                    }
                }
                made
            }
        }
    }
}
