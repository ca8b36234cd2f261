//! A question about the whole space, split into questions about parts of it.
//!
//! Whether a rulebook of thousands of clauses leaves a gap is one question, and a slow one. Split
//! the space at a value that most clauses take sides on, and each side has about half of the clauses
//! left; split on until few are left, and the questions are many but quick.

use super::inquiry::Inquiry;
use crate::logic::{CellBox, Formula, Layer, Name, Part, Reach, Scenario};
use crate::model::{AttributeId, DimensionId, Test, ValueSet};
use fixedbitset::FixedBitSet;
use std::collections::BTreeSet;

/// Parts in which no more clauses than this can be met are not split further.
const FEW: usize = 24;

/// In the first part around a scenario no more clauses than this can be met.
const FEW_AROUND: usize = 8;

/// A part of the space.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    /// Where it lies.
    pub(super) formula: Formula,
    /// The clauses that can be met there.
    pub(super) clauses: FixedBitSet,
}

/// Splits the space by the clauses that rule on a dimension. The parts cover the space.
pub(super) fn pieces(inquiry: &Inquiry<'_, '_>, dimension: DimensionId) -> Vec<Piece> {
    let mut speaking = FixedBitSet::with_capacity(inquiry.ruleset.clauses.len());
    speaking.extend(
        inquiry
            .theory
            .speakers(dimension)
            .iter()
            .map(|clause| clause.index()),
    );
    let mut open = vec![CellBox::default()];
    let mut done = Vec::new();
    while let Some(here) = open.pop() {
        let clauses = inquiry.reach.meeting(&here);
        let mut deciding = clauses.clone();
        deciding.intersect_with(&speaking);
        let split = if deciding.count_ones(..) > FEW {
            best_split(inquiry, &here, &deciding)
        } else {
            None
        };
        match split {
            Some((one, other)) => open.extend([one, other]),
            None => done.push(Piece {
                formula: formula(inquiry.reach, &here),
                clauses,
            }),
        }
    }
    done
}

/// Parts of the space around a scenario, each smaller than the one before it: fewer clauses can be met
/// in it. They say nothing of some attributes: all values of these are in each.
pub(super) fn around(
    inquiry: &Inquiry<'_, '_>,
    scenario: &Scenario,
    uncut: &BTreeSet<AttributeId>,
) -> Vec<Piece> {
    let own = inquiry.reach.layers().cells_of(scenario);
    let mut parts: Vec<Piece> = Vec::new();
    let mut here = CellBox::default();
    loop {
        let clauses = inquiry.reach.meeting(&here);
        let few = FEW_AROUND >> parts.len();
        if clauses.count_ones(..) <= few {
            parts.push(Piece {
                formula: formula(inquiry.reach, &here),
                clauses: clauses.clone(),
            });
        }
        let narrower = if few > 1 {
            best_side(inquiry, &here, &clauses, &own, uncut)
        } else {
            None
        };
        match narrower {
            Some(narrower) => here = narrower,
            None => return parts,
        }
    }
}

/// The side of a cut of a box that holds a scenario (`own` are its cells) and in which the fewest clauses
/// can be met; `None` where no cut helps. None by the attributes of `uncut` is allowed.
fn best_side(
    inquiry: &Inquiry<'_, '_>,
    here: &CellBox,
    clauses: &FixedBitSet,
    own: &[usize],
    uncut: &BTreeSet<AttributeId>,
) -> Option<CellBox> {
    let mut best = clauses.count_ones(..);
    let mut found = None;
    for (index, layer) in inquiry.reach.layers().all().iter().enumerate() {
        let Some(own) = own.get(index).filter(|_| !uncut.contains(&layer.attribute)) else {
            continue;
        };
        let whole = whole(here, index, layer);
        let cells = met_by_cell(inquiry, index, &whole, clauses);
        for (below, (low, high)) in cuts(layer, &cells, inquiry.ruleset.clauses.len()) {
            let (side, left) = if below.contains(*own) {
                (below, low)
            } else {
                let mut above = whole.clone();
                above.difference_with(&below);
                (above, high)
            };
            if left < best {
                best = left;
                found = Some((index, side));
            }
        }
    }
    let (layer, side) = found?;
    let mut narrower = here.clone();
    narrower.cells.insert(layer, side);
    Some(narrower)
}

/// The cells of a layer that a box allows.
fn whole(here: &CellBox, index: usize, layer: &Layer) -> FixedBitSet {
    here.cells.get(&index).cloned().unwrap_or_else(|| {
        let mut cells = FixedBitSet::with_capacity(layer.cells);
        cells.insert_range(..);
        cells
    })
}

/// For each of some cells of a layer, which of some clauses can be met in it.
fn met_by_cell(
    inquiry: &Inquiry<'_, '_>,
    layer: usize,
    cells: &FixedBitSet,
    clauses: &FixedBitSet,
) -> Vec<(usize, FixedBitSet)> {
    let met = cells.ones().filter_map(|cell| {
        let mut met = inquiry.reach.in_cell(layer, cell)?.clone();
        met.intersect_with(clauses);
        Some((cell, met))
    });
    met.collect()
}

/// The two halves of a box in which the fewest clauses can be met; `None` where no cut helps.
fn best_split(
    inquiry: &Inquiry<'_, '_>,
    here: &CellBox,
    deciding: &FixedBitSet,
) -> Option<(CellBox, CellBox)> {
    let all = deciding.count_ones(..);
    let mut best: Option<(usize, usize, FixedBitSet, FixedBitSet)> = None;
    for (index, layer) in inquiry.reach.layers().all().iter().enumerate() {
        let whole = whole(here, index, layer);
        let cells = met_by_cell(inquiry, index, &whole, deciding);
        for (below, (low, high)) in cuts(layer, &cells, inquiry.ruleset.clauses.len()) {
            // A cut after which a side still has them all does not help.
            let (more, fewer) = (low.max(high), low.min(high));
            let score = more * 2 + fewer;
            if more < all && best.as_ref().is_none_or(|(known, ..)| score < *known) {
                let mut above = whole.clone();
                above.difference_with(&below);
                best = Some((score, index, below, above));
            }
        }
    }
    let (_, layer, below, above) = best?;
    let half = |cells: FixedBitSet| {
        let mut part = here.clone();
        part.cells.insert(layer, cells);
        part
    };
    Some((half(below), half(above)))
}

/// Ways to cut a layer in two, with how many clauses can be met on each side: ranges at every
/// threshold, other values one against the rest.
fn cuts(
    layer: &Layer,
    cells: &[(usize, FixedBitSet)],
    clauses: usize,
) -> Vec<(FixedBitSet, (usize, usize))> {
    let nobody = || FixedBitSet::with_capacity(clauses);
    let mut from_below = vec![nobody()];
    let mut from_above = vec![nobody()];
    for (_, met) in cells {
        let mut sum = from_below.last().cloned().unwrap_or_else(nobody);
        sum.union_with(met);
        from_below.push(sum);
    }
    for (_, met) in cells.iter().rev() {
        let mut sum = from_above.last().cloned().unwrap_or_else(nobody);
        sum.union_with(met);
        from_above.push(sum);
    }
    let side = |chosen: &[(usize, FixedBitSet)]| {
        let mut side = FixedBitSet::with_capacity(layer.cells);
        side.extend(chosen.iter().map(|(cell, _)| *cell));
        side
    };
    let mut found = Vec::new();
    for cut in 1..cells.len() {
        if let (Some(low), Some(high), Some(below)) = (
            from_below.get(cut),
            from_above.get(cells.len() - cut),
            cells.get(..cut),
        ) {
            found.push((side(below), (low.count_ones(..), high.count_ones(..))));
        }
    }
    if !matches!(layer.part, Part::Steps { .. }) && cells.len() > 2 {
        for (position, (_, met)) in cells.iter().enumerate() {
            let mut rest = from_below.get(position).cloned().unwrap_or_else(nobody);
            if let Some(above) = from_above.get(cells.len() - position - 1) {
                rest.union_with(above);
            }
            if let Some(one) = cells.get(position..=position) {
                found.push((side(one), (met.count_ones(..), rest.count_ones(..))));
            }
        }
    }
    found
}

/// A box as a formula.
pub(super) fn formula(reach: &Reach<'_>, here: &CellBox) -> Formula {
    let layers = reach.layers().all();
    let parts = here
        .cells
        .iter()
        .filter_map(|(index, cells)| Some(cells_formula(layers.get(*index)?, cells)));
    Formula::all(parts.collect::<Vec<_>>())
}

fn cells_formula(layer: &Layer, cells: &FixedBitSet) -> Formula {
    let attribute = layer.attribute;
    let first = usize::from(layer.is_conditional());
    let values = || cells.ones().filter_map(move |cell| cell.checked_sub(first));
    let unasked = || {
        if cells.contains(0) {
            Formula::from(Name::Asked(attribute)).negated()
        } else {
            Formula::False
        }
    };
    match &layer.part {
        Part::Values { conditional } => {
            let chosen = Formula::Holds(Test::OneOf {
                attribute,
                values: values().collect::<ValueSet>(),
            });
            if *conditional {
                Formula::any([unasked(), chosen])
            } else {
                chosen
            }
        }
        Part::Steps {
            conditional,
            ranges,
        } => {
            let chosen = values().filter_map(|index| ranges.get(index));
            let chosen = chosen.map(|(low, high)| {
                Formula::Holds(Test::Within {
                    attribute,
                    low: *low,
                    high: *high,
                })
            });
            let chosen = Formula::any(chosen.collect::<Vec<_>>());
            if *conditional {
                Formula::any([unasked(), chosen])
            } else {
                chosen
            }
        }
        Part::Asked => {
            let asked = Formula::from(Name::Asked(attribute));
            match (cells.contains(0), cells.contains(1)) {
                (true, true) => Formula::True,
                (true, false) => asked.negated(),
                (false, true) => asked,
                (false, false) => Formula::False,
            }
        }
        Part::Item(item) => {
            let items = ValueSet::one(*item);
            let present = Formula::Holds(Test::Several {
                attribute,
                items,
                least: 1,
                most: 1,
            });
            match (cells.contains(0), cells.contains(1)) {
                (true, true) => Formula::True,
                (true, false) => present.negated(),
                (false, true) => present,
                (false, false) => Formula::False,
            }
        }
    }
}
