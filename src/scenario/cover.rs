//! Covering sets of a ruleset: few scenarios in which every combination of so many values occurs that
//! its background allows.
//!
//! A parameter is an attribute, or an item of a `several`; a number's values are the ranges that the
//! rules tell apart. That something is not asked need not be covered: it follows from the rest.

use super::covering::{self, Possible, Refusal};
use super::study::Study;
use crate::logic::{
    Cells, Code, Diagrams, Formula, Layers, Name, Part, Paths, Scenario, Theory, fact,
};
use crate::model::{AttributeId, AttributeKind, Origin, Ruleset, Test, ValueSet};
use crate::solve::Answer;
use std::collections::BTreeSet;

/// Nodes that the diagram of the space may take.
const WORK: usize = 3_000_000;

/// The most values of a number that is added up; of more, the ends and the middle are taken.
const MOST_SINGLE: usize = 6;

/// Scenarios that cover the combinations of values.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Covering {
    /// How many values are covered together.
    pub strength: usize,
    /// The scenarios.
    pub scenarios: Vec<Scenario>,
    /// How many combinations occur in them.
    pub covered: usize,
    /// How many combinations of the strength cannot occur.
    pub never: usize,
    /// The smallest combinations that cannot occur.
    pub impossible: Vec<Vec<Value>>,
    /// The combinations of which it stayed open whether they can occur.
    pub open: Vec<Vec<Value>>,
}

/// One value of one parameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Value {
    /// The attribute.
    pub attribute: AttributeId,
    /// The item of a `several`.
    pub item: Option<usize>,
    /// The value: of a number the lowest of its range, of an item 1 where it is present.
    pub code: Code,
    /// Of a number, the highest of its range.
    pub to: Code,
}

/// What varies: an attribute, or an item.
struct Parameter {
    /// For each value, what it is and the cells that make it; no value for "not asked".
    values: Vec<(Option<Value>, Cells)>,
    idle: BTreeSet<usize>,
}

/// Covers the combinations of values of these attributes (of all that are stated, where there are
/// none) within what is wanted.
///
/// # Errors
/// [`Refusal`] where there are too many combinations, or the time is used up.
pub(crate) fn cover(
    study: &mut Study<'_, '_>,
    among: &[AttributeId],
    strength: usize,
    seed: u64,
) -> Result<Covering, Refusal> {
    let ruleset = study.ruleset;
    let layers = study.reach.layers().clone();
    let parameters = parameters(ruleset, &layers, among);
    let problem = covering::Problem {
        values: parameters.iter().map(|it| it.values.len()).collect(),
        idle: parameters.iter().map(|it| it.idle.clone()).collect(),
        strength,
    };
    let budget = study.budget().clone();
    let stopped = move || budget.exhausted().is_some();
    let mut space = Space::of(study, &layers);
    let cells = |tuple: &[(usize, usize)]| {
        let chosen = tuple
            .iter()
            .filter_map(|(at, value)| parameters.get(*at)?.values.get(*value));
        let mut all = Cells::new();
        chosen.for_each(|(_, cells)| all.extend(cells));
        all
    };
    let mut possible = |tuple: &[(usize, usize)]| space.possible(study, &layers, &cells(tuple));
    let covered = covering::cover(&problem, seed, &mut possible, &stopped)?;
    let value = |tuple: &covering::Tuple| -> Vec<Value> {
        let values = tuple
            .iter()
            .filter_map(|(at, value)| parameters.get(*at)?.values.get(*value)?.0);
        values.collect()
    };
    let mut scenarios: Vec<Scenario> = Vec::new();
    for row in &covered.rows {
        let set = row.iter().enumerate();
        let tuple: covering::Tuple = set
            .filter_map(|(at, value)| Some((at, (*value)?)))
            .collect();
        let scenario = space.scenario(study, &layers, &cells(&tuple));
        scenarios.extend(scenario.filter(|scenario| !scenarios.contains(scenario)));
    }
    Ok(Covering {
        strength,
        scenarios,
        covered: covered.covered,
        never: covered.never,
        impossible: covered.impossible.iter().map(value).collect(),
        open: covered.unknown.iter().map(value).collect(),
    })
}

/// The scenarios that are wanted, as a chart, or as the solver knows them.
enum Space {
    Chart(Paths),
    Solver,
}

impl Space {
    fn of(study: &Study<'_, '_>, layers: &Layers) -> Space {
        let stop = study.budget().stop();
        let theory = Theory::new(study.ruleset);
        let chart = || {
            let mut diagrams = Diagrams::new(theory, layers.clone(), WORK, stop).ok()?;
            let wanted = diagrams.set(&study.wanted_formula()).ok()?;
            let space = diagrams.space();
            let both = diagrams.and(&space, &wanted).ok()?;
            Paths::of(&diagrams, &both).ok()
        };
        chart().map_or(Space::Solver, Space::Chart)
    }

    fn possible(&self, study: &mut Study<'_, '_>, layers: &Layers, cells: &Cells) -> Possible {
        match self {
            Space::Chart(paths) if paths.has(cells) => Possible::Yes,
            Space::Chart(_) => Possible::No,
            Space::Solver => match study.ask(&within(study, layers, cells)) {
                Answer::Yes(_) => Possible::Yes,
                Answer::No => Possible::No,
                Answer::Undecided(_) => Possible::Unknown,
            },
        }
    }

    fn scenario(
        &mut self,
        study: &mut Study<'_, '_>,
        layers: &Layers,
        cells: &Cells,
    ) -> Option<Scenario> {
        let ruleset = study.ruleset;
        match self {
            Space::Chart(paths) => {
                let cells = paths.most_ordinary(cells)?;
                let scenario = layers.scenario(ruleset.attributes.len(), &cells);
                crate::logic::is_valid(ruleset, &scenario).then_some(scenario)
            }
            Space::Solver => match study.ask(&within(study, layers, cells)) {
                Answer::Yes(scenario) => Some(scenario),
                Answer::No | Answer::Undecided(_) => None,
            },
        }
    }
}

/// Where a scenario is wanted and has these cells, as a formula.
fn within(study: &Study<'_, '_>, layers: &Layers, cells: &Cells) -> Formula {
    let ruleset = study.ruleset;
    let parts = cells.iter().filter_map(|(index, cell)| {
        let layer = layers.all().get(*index)?;
        let attribute = layer.attribute;
        let asked = || Formula::from(Name::Asked(attribute));
        Some(match &layer.part {
            Part::Asked if *cell == 0 => asked().negated(),
            Part::Asked => asked(),
            Part::Values { conditional } | Part::Steps { conditional, .. }
                if *conditional && *cell == 0 =>
            {
                asked().negated()
            }
            Part::Values { conditional } => {
                let value = cell.checked_sub(usize::from(*conditional))?;
                fact(ruleset, attribute, Code(value as u64))
            }
            Part::Steps {
                conditional,
                ranges,
            } => {
                let (low, high) = ranges.get(cell.checked_sub(usize::from(*conditional))?)?;
                Formula::Holds(Test::Within {
                    attribute,
                    low: *low,
                    high: *high,
                })
            }
            Part::Item(item) => {
                let count = u32::from(*cell == 1);
                let test = Formula::Holds(Test::Several {
                    attribute,
                    items: ValueSet::one(*item),
                    least: count,
                    most: count,
                });
                if count == 1 {
                    test
                } else {
                    Formula::any([test, asked().negated()])
                }
            }
        })
    });
    Formula::all(parts.chain([study.wanted_formula()]))
}

fn parameters(ruleset: &Ruleset, layers: &Layers, among: &[AttributeId]) -> Vec<Parameter> {
    let ids = (0..ruleset.attributes.len()).map(AttributeId::new);
    let chosen = ids.filter(|id| {
        if among.is_empty() {
            ruleset[*id].origin == Origin::Stated
        } else {
            among.contains(id)
        }
    });
    chosen
        .flat_map(|id| of_attribute(ruleset, layers, id))
        .collect()
}

fn of_attribute(ruleset: &Ruleset, layers: &Layers, id: AttributeId) -> Vec<Parameter> {
    let range = layers.of(id);
    let value = |item, code: usize, to: usize| {
        Some(Value {
            attribute: id,
            item,
            code: Code(code as u64),
            to: Code(to as u64),
        })
    };
    if let AttributeKind::Several(items) = &ruleset[id].kind {
        let conditional = range.len() > items.len();
        let first = range.start + usize::from(conditional);
        let asked = conditional.then_some((range.start, 1));
        let parameter = |item: usize| {
            let with = |present: usize| {
                let cells = asked.into_iter().chain([(first + item, present)]).collect();
                (value(Some(item), present, present), cells)
            };
            let not_asked = (None, Cells::from([(range.start, 0)]));
            Parameter {
                values: conditional
                    .then_some(not_asked)
                    .into_iter()
                    .chain([with(0), with(1)])
                    .collect(),
                idle: conditional.then_some(0).into_iter().collect(),
            }
        };
        return (0..items.len()).map(parameter).collect();
    }
    let Some(layer) = layers.all().get(range.start) else {
        return Vec::new();
    };
    let conditional = usize::from(layer.is_conditional());
    let mut idle: BTreeSet<usize> = (0..conditional).collect();
    let values = (0..layer.cells).map(|cell| {
        let shown = cell
            .checked_sub(conditional)
            .and_then(|index| match &layer.part {
                Part::Steps { ranges, .. } => {
                    let (low, high) = ranges.get(index)?;
                    value(
                        None,
                        usize::try_from(*low).ok()?,
                        usize::try_from(*high).ok()?,
                    )
                }
                _ => value(None, index, index),
            });
        (shown, Cells::from([(range.start, cell)]))
    });
    let values: Vec<(Option<Value>, Cells)> = values.collect();
    let last = layer.cells.saturating_sub(1);
    if layers.is_summed(id) && layer.cells - conditional > MOST_SINGLE {
        let kept = [conditional, usize::midpoint(conditional, last), last];
        idle.extend((0..layer.cells).filter(|cell| !kept.contains(cell)));
    }
    vec![Parameter { values, idle }]
}
