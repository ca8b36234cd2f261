//! Values that cannot occur beside the rest of a line: saying them or not saying them means the same, so
//! that is said which takes the fewest words.

use super::{Line, Wanted};
use crate::logic::diagram::{Diagrams, Set, TooLarge};
use crate::logic::layers::Part;

/// The cells of one layer, or that nothing is said of it.
type Cells = Option<Vec<usize>>;

impl Diagrams<'_> {
    /// A line with the values of each choice and scale said in the fewest words that mean the same among
    /// the scenarios of `within`.
    pub(super) fn in_fewest_words(
        &mut self,
        line: &Line,
        within: &Set,
        wanted: Wanted<'_>,
    ) -> Result<Line, TooLarge> {
        let mut line = line.clone();
        for layer in 0..line.cells.len() {
            let ways = self.ways_to_say(&line, layer, within)?;
            let mut best = (self.words_of(&line, wanted), line.clone());
            for way in ways {
                let mut other = line.clone();
                if let Some(slot) = other.cells.get_mut(layer) {
                    *slot = way;
                }
                let words = self.words_of(&other, wanted);
                if words < best.0 {
                    best = (words, other);
                }
            }
            line = best.1;
        }
        Ok(line)
    }

    fn words_of(&self, line: &Line, wanted: Wanted<'_>) -> usize {
        self.line_text(line, wanted.vocabulary).chars().count()
    }

    /// The sets of values that mean the same where a line lists several, narrowest first.
    fn ways_to_say(
        &mut self,
        line: &Line,
        layer: usize,
        within: &Set,
    ) -> Result<Vec<Cells>, TooLarge> {
        let Some(this) = self.layers().all().get(layer) else {
            return Ok(Vec::new());
        };
        let first = usize::from(this.is_conditional());
        let (all, listed) = (first..this.cells, line.cells.get(layer));
        let Some(Some(listed)) = listed.filter(|_| matches!(this.part, Part::Values { .. })) else {
            return Ok(Vec::new());
        };
        if listed.len() < 2 || listed.first().is_none_or(|cell| *cell < first) {
            return Ok(Vec::new());
        }
        let listed = listed.clone();
        let mut rest = line.clone();
        if let Some(slot) = rest.cells.get_mut(layer) {
            *slot = None;
        }
        let around = self.boxed(&rest)?;
        let around = self.and(&around, within)?;
        let mut idle = Vec::new();
        for cell in all.clone() {
            let here = self.cell(layer, cell);
            if self.and(&here, &around)?.is_false() {
                idle.push(cell);
            }
        }
        let needed: Vec<usize> = listed
            .iter()
            .copied()
            .filter(|cell| !idle.contains(cell))
            .collect();
        let (Some(low), Some(high)) = (needed.first().copied(), needed.last().copied()) else {
            return Ok(Vec::new());
        };
        let with = |spare: &dyn Fn(usize) -> bool| -> Vec<usize> {
            all.clone()
                .filter(|cell| needed.contains(cell) || idle.contains(cell) && spare(*cell))
                .collect()
        };
        let mut ways: Vec<Cells> = [
            needed.clone(),
            with(&|cell| low < cell && cell < high),
            with(&|cell| cell > low),
            with(&|cell| cell < high),
            with(&|_| true),
        ]
        .map(Some)
        .to_vec();
        // Nothing need be said where every value that can occur is meant, and there is always one.
        let unasked = first == 1 && {
            let here = self.cell(layer, 0);
            !self.and(&here, &around)?.is_false()
        };
        if !unasked
            && ways
                .last()
                .is_some_and(|way| way.as_ref().is_some_and(|way| way.len() == all.len()))
        {
            ways.push(None);
        }
        Ok(ways)
    }
}
