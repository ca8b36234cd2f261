//! From the binary diagrams of single rulings to one chart of all of them.
//!
//! The diagrams of "this value is allowed", "there is a gap" and so on are followed side by side,
//! layer by layer; where all of them arrive at the same places, so does the chart.

use super::super::diagram::{Diagrams, Set, Stop, TooLarge};
use super::{Chart, NOWHERE, Node, NodeId, Sole, VerdictId};
use crate::logic::{Basis, Formula, Layers, Name, Ruling, Theory, World};
use crate::model::{DimensionId, Ruleset, ValueSet};
use biodivine_lib_bdd::BddPointer;
use std::collections::BTreeMap;

/// The most places that a chart may have when it is drawn: beyond it, questions to it take too long.
const MOST_PLACES: usize = 200_000;

/// What is to be known of a dimension's ruling.
#[derive(Clone, Copy, Debug)]
enum Signal {
    Allowed(usize),
    Gap,
    Contradiction,
    Settled,
}

impl<'r> Chart<'r> {
    /// Draws the chart of a ruleset for some dimensions; `work` is how many nodes may be made for
    /// each part, and `stop` says when to give up before that.
    ///
    /// # Errors
    /// [`TooLarge`] where more is needed.
    pub fn new(
        ruleset: &'r Ruleset,
        dimensions: &[DimensionId],
        work: usize,
        stop: Stop,
    ) -> Result<Self, TooLarge> {
        let layers = Layers::new(ruleset);
        let mut diagrams = Diagrams::new(Theory::new(ruleset), layers.clone(), work, stop)?;
        let mut signals = Vec::new();
        let mut sets: Vec<Set> = vec![diagrams.space()];
        for dimension in dimensions {
            for signal in signals_of(ruleset, *dimension) {
                diagrams.allow(work);
                let name = match signal {
                    Signal::Allowed(value) => {
                        let value = u8::try_from(value).unwrap_or(u8::MAX);
                        Name::Allowed(World::Actual, *dimension, value)
                    }
                    Signal::Gap => Name::Gap(World::Actual, *dimension),
                    Signal::Contradiction => Name::Clash(World::Actual, *dimension),
                    Signal::Settled => Name::Settled(World::Actual, *dimension),
                };
                sets.push(diagrams.set(&Formula::from(name))?);
                signals.push((*dimension, signal));
            }
        }
        diagrams.allow(work);
        let mut chart = Chart {
            ruleset,
            layers,
            dimensions: dimensions.to_vec(),
            verdicts: Vec::new(),
            nodes: vec![Node::Nowhere],
            soles: vec![Sole::Nowhere],
            known: BTreeMap::new(),
            plain: BTreeMap::new(),
            root: NOWHERE,
        };
        let mut drawing = Drawing {
            diagrams: &diagrams,
            signals: &signals,
            sets: &sets,
            known: BTreeMap::new(),
            leaves: BTreeMap::new(),
        };
        let start = sets.iter().map(|set| set.root_pointer()).collect();
        chart.root = drawing.draw(&mut chart, 0, start)?;
        Ok(chart)
    }
}

fn signals_of(ruleset: &Ruleset, dimension: DimensionId) -> Vec<Signal> {
    let values = 0..ruleset[dimension].values.len();
    let rest = [Signal::Gap, Signal::Contradiction, Signal::Settled];
    values.map(Signal::Allowed).chain(rest).collect()
}

struct Drawing<'a, 'r> {
    diagrams: &'a Diagrams<'r>,
    signals: &'a [(DimensionId, Signal)],
    /// The space, then the set of each signal.
    sets: &'a [Set],
    known: BTreeMap<(usize, Vec<BddPointer>), NodeId>,
    leaves: BTreeMap<Vec<Ruling>, NodeId>,
}

impl Drawing<'_, '_> {
    fn draw(
        &mut self,
        chart: &mut Chart<'_>,
        layer: usize,
        at: Vec<BddPointer>,
    ) -> Result<NodeId, TooLarge> {
        if at.first().is_none_or(BddPointer::is_zero) {
            return Ok(NOWHERE);
        }
        let Some(cells) = chart.layer(layer).map(|layer| layer.cells) else {
            return Ok(self.leaf(chart, &at));
        };
        let key = (layer, at);
        if let Some(known) = self.known.get(&key) {
            return Ok(*known);
        }
        if chart.nodes.len() > MOST_PLACES {
            return Err(TooLarge);
        }
        let mut next = Vec::with_capacity(cells);
        for cell in 0..cells {
            self.diagrams.step()?;
            let beyond = self
                .sets
                .iter()
                .zip(&key.1)
                .map(|(set, node)| self.diagrams.follow(set, *node, layer, cell));
            let beyond = beyond.collect();
            next.push(self.draw(chart, layer + 1, beyond)?);
        }
        let made = chart.choice(layer, next);
        self.known.insert(key, made);
        Ok(made)
    }

    fn leaf(&mut self, chart: &mut Chart<'_>, at: &[BddPointer]) -> NodeId {
        let mut rulings: Vec<Ruling> = Vec::with_capacity(chart.dimensions.len());
        let holds: Vec<bool> = at.iter().skip(1).map(BddPointer::is_one).collect();
        for dimension in &chart.dimensions {
            let of = self.signals.iter().zip(&holds);
            let on = of.filter(|((id, _), holds)| id == dimension && **holds);
            let mut ruling = Ruling {
                basis: Basis::Silence,
                values: ValueSet::EMPTY,
            };
            for ((_, signal), _) in on {
                match signal {
                    Signal::Allowed(value) => {
                        ruling.basis = Basis::Clauses;
                        ruling.values = ruling.values.with(*value);
                    }
                    Signal::Gap => ruling.basis = Basis::Gap,
                    Signal::Contradiction => ruling.basis = Basis::Contradiction,
                    Signal::Settled => ruling.basis = Basis::Clauses,
                }
            }
            rulings.push(ruling);
        }
        if let Some(known) = self.leaves.get(&rulings) {
            return *known;
        }
        let verdict = VerdictId(u32::try_from(chart.verdicts.len()).unwrap_or(u32::MAX));
        chart.verdicts.push(rulings.clone());
        let made = chart.push(Node::Ruled(verdict), Sole::One(verdict));
        self.leaves.insert(rulings, made);
        made
    }
}
