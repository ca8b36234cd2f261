//! General conditions: a set of scenarios said in few and wide lines.
//!
//! A line asks for some cells of some layers, and perhaps for some conditions that have a name or
//! that no cells can say (a defined term, a sum, so many of a list). It lies within the set and cannot
//! be made wider: a prime implicant over cells (Quine, The problem of simplifying truth functions,
//! American Mathematical Monthly 59, 1952). Of the prime lines few are chosen that cover the set; the
//! cover is checked by diagram before anyone sees it.

mod cover;
mod naming;
mod values;
mod vocabulary;
mod widen;
mod words;

pub use vocabulary::{Atom, Phrase, Vocabulary};

use super::diagram::{Diagrams, Set, TooLarge};
use crate::model::AttributeId;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Nodes that may be made to find names for the parts of one line.
const NAMING: usize = 200_000;

/// A general condition: a box of cells, within which some more conditions hold.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Line {
    /// For each layer the cells allowed, or `None` where the layer is free.
    pub cells: Vec<Option<Vec<usize>>>,
    /// What must hold besides.
    pub named: Vec<Arc<Atom>>,
}

/// Lines that together describe a set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Region {
    /// The lines, none of which can be left out.
    pub lines: Vec<Line>,
    /// Whether they cover the whole set. They never cover anything outside it.
    pub complete: bool,
    /// So many lines are needed at least, as far as that was found out.
    pub needed: usize,
}

/// In what words a set is wanted.
#[derive(Clone, Copy, Debug)]
pub struct Wanted<'v> {
    /// What has a name, or can be said in the ruleset's words only.
    pub vocabulary: &'v Vocabulary,
    /// The attributes that whoever reads it expects to see: the others are left open first.
    pub mentioned: &'v BTreeSet<AttributeId>,
    /// The most lines.
    pub most: usize,
}

impl Diagrams<'_> {
    /// Describes a set.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn region(&mut self, set: &Set, wanted: Wanted<'_>) -> Result<Region, TooLarge> {
        let space = self.space();
        self.region_within(set, &space, wanted)
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
        wanted: Wanted<'_>,
    ) -> Result<Region, TooLarge> {
        let outside = self.minus(within, set)?;
        let mut chosen = cover::choose(self, set, &outside, wanted)?;
        let mut lines = Vec::with_capacity(chosen.lines.len());
        for line in chosen.lines {
            // Names are a favour: without them the line is as right.
            let left = self.set_aside(NAMING);
            let line = self.in_fewest_words(&line, within, wanted).unwrap_or(line);
            let named = self.name_parts(&line, within, wanted).unwrap_or(line);
            let short = self.in_fewest_words(&named, within, wanted);
            self.take_up(left);
            lines.push(short.unwrap_or(named));
        }
        let lines = self.gather_items(lines);
        // What was put together from parts is proved as a whole.
        let mut left = Set::clone(set);
        for line in &lines {
            let covered = self.boxed(line)?;
            if !self.and(&covered, &outside)?.is_false() {
                return Err(TooLarge);
            }
            left = self.minus(&left, &covered)?;
        }
        chosen.needed = chosen.needed.min(lines.len());
        Ok(Region {
            lines,
            complete: left.is_false(),
            needed: chosen.needed,
        })
    }

    /// The scenarios of a line.
    ///
    /// # Errors
    /// [`TooLarge`] where it needs more work than is left.
    pub fn line_set(&mut self, line: &Line) -> Result<Set, TooLarge> {
        let boxed = self.boxed(line)?;
        let space = self.space();
        self.and(&boxed, &space)
    }

    /// What a line covers, in the space and beyond.
    fn boxed(&mut self, line: &Line) -> Result<Set, TooLarge> {
        let mut set = self.box_set(&line.cells)?;
        for atom in &line.named {
            set = self.and(&set, &atom.set)?;
        }
        Ok(set)
    }
}

impl Line {
    /// The attributes of which it says anything.
    pub fn speaks_of(&self, layers: &super::Layers) -> BTreeSet<AttributeId> {
        let said = layers.all().iter().zip(&self.cells);
        let said = said.filter(|(_, cells)| cells.is_some());
        let said = said.map(|(layer, _)| layer.attribute);
        let named = self
            .named
            .iter()
            .flat_map(|atom| atom.reads.iter().copied());
        said.chain(named).collect()
    }
}
