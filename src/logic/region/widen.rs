//! The widest lines around one scenario.
//!
//! A line begins with everything open. While something outside of the set lies within it, the nearest
//! of that is shut out in each way there is: by a cell in which it differs, or by a condition with a
//! name that it does not meet. What is left where nothing outside is left are all the lines that
//! cannot be made wider. Where there would be too many, the scenario's own cells are left open one by
//! one instead, in a few orders.

use super::{Atom, Line, Wanted};
use crate::logic::diagram::{Diagrams, Set, TooLarge};
use crate::logic::layers::Part;
use crate::logic::paths::Paths;
use crate::model::{AttributeId, AttributeKind};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::rc::Rc;
use std::sync::Arc;

/// How many lines are tried around one scenario before the rest is left to a few orders.
const MOST_TRIED: usize = 160;

/// Nodes that are looked at for that.
const MOST_NODES: usize = 400_000;

/// Finds lines that stay clear of what lies outside of a set.
pub(super) struct Widening<'v> {
    outside: Set,
    /// The conditions that a line may ask for.
    pub(super) atoms: Vec<Arc<Atom>>,
    wanted: Wanted<'v>,
    /// The outside as far as it meets some of the conditions.
    paths: BTreeMap<Vec<usize>, Rc<Paths>>,
}

/// Lines around a scenario.
pub(super) struct Around {
    pub(super) lines: Vec<Line>,
    /// Whether these are all that cannot be made wider.
    pub(super) all: bool,
}

/// A line while it is being made; conditions by their place in the list.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Attempt {
    cells: Vec<Option<Vec<usize>>>,
    named: Vec<usize>,
}

impl<'v> Widening<'v> {
    pub(super) fn new(outside: Set, atoms: Vec<Arc<Atom>>, wanted: Wanted<'v>) -> Self {
        Widening {
            outside,
            atoms,
            wanted,
            paths: BTreeMap::new(),
        }
    }

    /// The lines around a scenario, given by its cells.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub(super) fn around(
        &mut self,
        diagrams: &mut Diagrams<'_>,
        seed: &[usize],
    ) -> Result<Around, TooLarge> {
        let holds = |atom: &Arc<Atom>| diagrams.contains(&atom.set, seed);
        let mine: Vec<usize> = (0..self.atoms.len())
            .filter(|index| self.atoms.get(*index).is_some_and(holds))
            .collect();
        let mut open = vec![Attempt {
            cells: vec![None; seed.len()],
            named: Vec::new(),
        }];
        let mut known: BTreeSet<Attempt> = open.iter().cloned().collect();
        let mut found: Vec<Attempt> = Vec::new();
        let mut tried = 0;
        let nodes = self.outside_with(diagrams, &[])?.nodes();
        let most = MOST_TRIED.min(MOST_NODES / nodes.max(1));
        while let Some(attempt) = open.pop() {
            tried += 1;
            if tried > most {
                break;
            }
            let Some(other) = self.nearest(diagrams, &attempt, seed)? else {
                found.push(attempt);
                continue;
            };
            let differing = (0..seed.len()).filter(|layer| seed.get(*layer) != other.get(*layer));
            let narrower = differing.filter_map(|layer| {
                let cell = *other.get(layer)?;
                shut_out(diagrams, &attempt, layer, seed, cell)
            });
            let mut next: Vec<Attempt> = narrower.collect();
            for index in &mine {
                let met = self
                    .atoms
                    .get(*index)
                    .is_none_or(|atom| diagrams.contains(&atom.set, &other));
                if !met && !attempt.named.contains(index) {
                    let mut narrower = attempt.clone();
                    narrower.named.push(*index);
                    narrower.named.sort_unstable();
                    next.push(narrower);
                }
            }
            open.extend(next.into_iter().filter(|one| known.insert(one.clone())));
        }
        let all = open.is_empty() && tried <= most;
        if !all {
            for order in self.orders(diagrams) {
                let line = self.opened(diagrams, seed, &[], &order)?;
                found.push(line);
            }
            if let Some(order) = self.orders(diagrams).first() {
                for index in &mine {
                    let line = self.opened(diagrams, seed, &[*index], order)?;
                    found.push(line);
                }
            }
        }
        found.sort();
        found.dedup();
        let widest = |one: &Attempt| {
            let mut others = found.iter();
            !others.any(|other| other != one && other.holds(one))
        };
        let lines = found.iter().filter(|one| widest(one));
        let lines = lines.map(|one| Line {
            cells: one.cells.clone(),
            named: one
                .named
                .iter()
                .filter_map(|index| self.atoms.get(*index).cloned())
                .collect(),
        });
        Ok(Around {
            lines: lines.collect(),
            all,
        })
    }

    /// What of the outside lies within, nearest to the scenario.
    fn nearest(
        &mut self,
        diagrams: &mut Diagrams<'_>,
        attempt: &Attempt,
        seed: &[usize],
    ) -> Result<Option<Vec<usize>>, TooLarge> {
        let paths = self.outside_with(diagrams, &attempt.named)?;
        diagrams.steps(paths.nodes())?;
        Ok(paths.nearest(&attempt.cells, seed))
    }

    fn outside_with(
        &mut self,
        diagrams: &mut Diagrams<'_>,
        named: &[usize],
    ) -> Result<Rc<Paths>, TooLarge> {
        if let Some(known) = self.paths.get(named) {
            return Ok(Rc::clone(known));
        }
        let mut set = Set::clone(&self.outside);
        for atom in named.iter().filter_map(|index| self.atoms.get(*index)) {
            set = diagrams.and(&set, &atom.set)?;
        }
        let paths = Paths::of(diagrams, &set)?;
        diagrams.steps(paths.nodes())?;
        let paths = Rc::new(paths);
        self.paths.insert(named.to_vec(), Rc::clone(&paths));
        Ok(paths)
    }

    /// Orders in which to leave attributes open: first what nobody mentions, then the rest from the
    /// last to the first, from the first to the last, and judged ones first.
    fn orders(&self, diagrams: &Diagrams<'_>) -> Vec<Vec<AttributeId>> {
        let ruleset = diagrams.theory().ruleset();
        let all = || (0..ruleset.attributes.len()).map(AttributeId::new);
        let (known, strange): (Vec<_>, Vec<_>) =
            all().partition(|id| self.wanted.mentioned.contains(id));
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

    /// The scenario's cells within some conditions, left open and widened as far as they stay clear of
    /// the outside.
    fn opened(
        &mut self,
        diagrams: &mut Diagrams<'_>,
        seed: &[usize],
        named: &[usize],
        order: &[AttributeId],
    ) -> Result<Attempt, TooLarge> {
        let paths = self.outside_with(diagrams, named)?;
        let mut line = Opening {
            cells: seed.iter().map(|cell| Some(vec![*cell])).collect(),
            paths: &paths,
            diagrams,
        };
        // What isn't asked follows from the rest; said first, it would hide the reason.
        for attribute in order {
            let range = line.diagrams.layers().of(*attribute);
            if line.is_unasked(range.start) {
                line.free(range)?;
            }
        }
        for attribute in order {
            let range = line.diagrams.layers().of(*attribute);
            if !line.free(range.clone())? && range.len() > 1 {
                for layer in range.clone().rev() {
                    if !line.speaks_for_items(layer, range.end) {
                        line.free(layer..layer + 1)?;
                    }
                }
            }
        }
        for attribute in order.iter().rev() {
            for layer in line.diagrams.layers().of(*attribute) {
                line.widen(layer)?;
            }
        }
        let cells = line.cells;
        let mut made = Attempt {
            cells,
            named: named.to_vec(),
        };
        if !named.is_empty() {
            let without = Attempt {
                named: Vec::new(),
                ..made.clone()
            };
            if self.nearest(diagrams, &without, seed)?.is_none() {
                made = without;
            }
        }
        Ok(made)
    }
}

impl Attempt {
    /// Whether whatever lies within the other lies within this as well, to judge by its form.
    fn holds(&self, other: &Attempt) -> bool {
        let wider =
            |(mine, theirs): (&Option<Vec<usize>>, &Option<Vec<usize>>)| match (mine, theirs) {
                (None, _) => true,
                (Some(_), None) => false,
                (Some(mine), Some(theirs)) => theirs.iter().all(|cell| mine.contains(cell)),
            };
        self.cells.iter().zip(&other.cells).all(wider)
            && self.named.iter().all(|index| other.named.contains(index))
    }
}

/// A line that is being opened.
struct Opening<'o, 'r> {
    cells: Vec<Option<Vec<usize>>>,
    paths: &'o Paths,
    diagrams: &'o Diagrams<'r>,
}

impl Opening<'_, '_> {
    fn is_clear(&self) -> Result<bool, TooLarge> {
        let (meets, looked_at) = self.paths.meets(&self.cells);
        self.diagrams.steps(looked_at)?;
        Ok(!meets)
    }

    fn is_unasked(&self, layer: usize) -> bool {
        let this = self.diagrams.layers().all().get(layer);
        this.is_some_and(crate::logic::Layer::is_conditional)
            && self.cells.get(layer) == Some(&Some(vec![0]))
    }

    /// Whether the layer says that a list is asked of which it is said that an item is not among them:
    /// that speaks only of where it is asked.
    fn speaks_for_items(&self, layer: usize, end: usize) -> bool {
        let this = self.diagrams.layers().all().get(layer);
        let absent = |items: &[_]| items.contains(&Some(vec![0]));
        this.is_some_and(|this| this.part == Part::Asked)
            && self.cells.get(layer + 1..end).is_some_and(absent)
    }

    fn free(&mut self, range: Range<usize>) -> Result<bool, TooLarge> {
        let Some(before) = self.cells.get(range.clone()).map(<[_]>::to_vec) else {
            return Ok(false);
        };
        if before.iter().all(Option::is_none) {
            return Ok(true);
        }
        if let Some(slots) = self.cells.get_mut(range.clone()) {
            slots.fill(None);
        }
        let clear = self.is_clear()?;
        if !clear && let Some(slots) = self.cells.get_mut(range) {
            slots.clone_from_slice(&before);
        }
        Ok(clear)
    }

    fn widen(&mut self, layer: usize) -> Result<(), TooLarge> {
        let Some(this) = self.diagrams.layers().all().get(layer) else {
            return Ok(());
        };
        let Some(Some(cells)) = self.cells.get(layer).cloned() else {
            return Ok(());
        };
        let first = usize::from(this.is_conditional());
        let (Some(low), Some(high)) = (cells.first().copied(), cells.last().copied()) else {
            return Ok(());
        };
        if low < first || matches!(this.part, Part::Item(_) | Part::Asked) {
            return Ok(());
        }
        let ordered = is_number(self.diagrams, this.attribute);
        let ways: [Vec<usize>; 2] = [
            (high + 1..this.cells).collect(),
            (first..low).rev().collect(),
        ];
        let mut chosen = cells;
        for way in ways {
            for cell in way {
                let mut wider = chosen.clone();
                wider.push(cell);
                wider.sort_unstable();
                if let Some(slot) = self.cells.get_mut(layer) {
                    *slot = Some(wider.clone());
                }
                if self.is_clear()? {
                    chosen = wider;
                } else if ordered {
                    break;
                }
            }
        }
        if let Some(slot) = self.cells.get_mut(layer) {
            *slot = Some(chosen);
        }
        Ok(())
    }
}

fn is_number(diagrams: &Diagrams<'_>, attribute: AttributeId) -> bool {
    let ruleset = diagrams.theory().ruleset();
    matches!(ruleset[attribute].kind, AttributeKind::Number(_))
}

/// The widest that is left of a line around the scenario when a cell of a layer is shut out.
fn shut_out(
    diagrams: &Diagrams<'_>,
    line: &Attempt,
    layer: usize,
    seed: &[usize],
    cell: usize,
) -> Option<Attempt> {
    let this = diagrams.layers().all().get(layer)?;
    let home = *seed.get(layer)?;
    let first = usize::from(this.is_conditional());
    let now = line.cells.get(layer)?.clone();
    let mut narrower = line.clone();
    let cells = match &this.part {
        Part::Item(_) => {
            let asked = diagrams.layers().of(this.attribute).start;
            let conditional =
                asked != layer && matches!(diagrams.layers().all().get(asked)?.part, Part::Asked);
            if home == 0 && conditional {
                // That an item is not among them speaks only of where the list is asked.
                if *seed.get(asked)? == 0 {
                    return None;
                }
                *narrower.cells.get_mut(asked)? = Some(vec![1]);
            }
            vec![home]
        }
        Part::Asked => vec![home],
        Part::Values { .. } | Part::Steps { .. } if home < first => vec![home],
        Part::Values { .. } | Part::Steps { .. } => {
            let asked = || first..this.cells;
            let now = now.unwrap_or_else(|| asked().collect());
            let gone = |one: &usize| *one == cell || !now.contains(one);
            if cell < first || !is_number(diagrams, this.attribute) {
                now.into_iter()
                    .filter(|one| *one != cell && *one >= first)
                    .collect()
            } else {
                // Of a number a range is said, or all but a range.
                let low = asked().find(gone)?;
                let high = asked().rev().find(gone)?;
                if low <= home && home <= high {
                    let below = asked().filter(|one| *one < home).rev().find(gone);
                    let above = asked().filter(|one| *one > home).find(gone);
                    let from = below.map_or(first, |below| below + 1);
                    let to = above.unwrap_or(this.cells);
                    (from..to).collect()
                } else {
                    asked().filter(|one| *one < low || *one > high).collect()
                }
            }
        }
    };
    *narrower.cells.get_mut(layer)? = Some(cells);
    Some(narrower)
}
