//! The scenario space cut into cells.
//!
//! No condition of a ruleset tells two values of one cell apart, so whatever is asked about the
//! rules can be asked cell by cell. A layer is one place where cells are chosen: an attribute has
//! one layer, except a `several`, which has one for each item and, where it isn't always asked, one
//! more that says whether it is.

use super::{Code, Scenario, is_asked};
use crate::model::{
    AttributeId, AttributeKind, BackgroundRule, Condition, ConditionKind, Meaning, Origin, Promise,
    Ruleset, Test,
};
use num_bigint::BigUint;
use std::collections::BTreeSet;

/// The most steps that a number may have where a sum needs every one of them as a cell.
const MOST_SINGLE_STEPS: i64 = 4096;

/// One place where a cell is chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layer {
    /// The attribute.
    pub attribute: AttributeId,
    /// What the cells are.
    pub part: Part,
    /// How many cells, "not asked" included.
    pub cells: usize,
}

/// What the cells of a layer are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// A value of a yes/no, choice or scale each; first "not asked" where `conditional`.
    Values {
        /// Whether the first cell is "not asked".
        conditional: bool,
    },
    /// A range of steps each, both ends in; first "not asked" where `conditional`.
    Steps {
        /// Whether the first cell is "not asked".
        conditional: bool,
        /// The ranges, lowest first.
        ranges: Vec<(i64, i64)>,
    },
    /// Whether a `several` is asked at all: not (0), or it is (1).
    Asked,
    /// Whether an item is present: absent (0, also where not asked) or present (1).
    Item(usize),
}

impl Layer {
    /// Whether cell 0 means "not asked".
    pub fn is_conditional(&self) -> bool {
        match &self.part {
            Part::Values { conditional } | Part::Steps { conditional, .. } => *conditional,
            Part::Asked => true,
            Part::Item(_) => false,
        }
    }

    /// The steps that a cell of a number stands for, both ends in; of other cells none.
    pub fn steps(&self, cell: usize) -> Option<(i64, i64)> {
        match &self.part {
            Part::Steps {
                conditional,
                ranges,
            } => ranges
                .get(cell.checked_sub(usize::from(*conditional))?)
                .copied(),
            Part::Values { .. } | Part::Asked | Part::Item(_) => None,
        }
    }

    /// How many values a cell stands for.
    pub fn weight(&self, cell: usize) -> BigUint {
        let width = self
            .steps(cell)
            .map_or(1, |(low, high)| high.saturating_sub(low).saturating_add(1));
        BigUint::from(u64::try_from(width).unwrap_or(1))
    }

    /// How far a cell is from the ordinary: not at all where it is the first value, or not asked.
    pub fn strangeness(&self, cell: usize) -> u32 {
        match self.part {
            Part::Values { conditional } | Part::Steps { conditional, .. } => {
                u32::from(cell > usize::from(conditional))
            }
            Part::Asked => 0,
            Part::Item(_) => u32::from(cell == 1),
        }
    }

    /// The cell of the value with this code (for an item: of its bit).
    pub fn cell_of(&self, code: Option<Code>) -> usize {
        let Some(Code(code)) = code else { return 0 };
        match &self.part {
            Part::Values { conditional } => usize::try_from(code)
                .unwrap_or(usize::MAX)
                .saturating_add(usize::from(*conditional)),
            Part::Steps {
                conditional,
                ranges,
            } => {
                let step = i64::try_from(code).unwrap_or(i64::MAX);
                ranges.partition_point(|(_, high)| *high < step) + usize::from(*conditional)
            }
            Part::Asked => 1,
            Part::Item(item) => usize::from(code >> item & 1 == 1),
        }
    }
}

/// The whole space, layer by layer.
#[derive(Clone, Debug)]
pub struct Layers {
    all: Vec<Layer>,
    /// For each attribute, its first layer and how many it has.
    of_attribute: Vec<(usize, usize)>,
    /// Whether sums could be given all the cells that they need.
    sums_refined: bool,
    /// The attributes that take part in sums.
    summed: BTreeSet<AttributeId>,
}

impl Layers {
    /// Cuts the space of a ruleset.
    pub fn new(ruleset: &Ruleset) -> Self {
        Layers::also_for(ruleset, &[])
    }

    /// Cuts the space of a ruleset so finely that these conditions, too, can be asked about: a number
    /// that they compare may be one that the ruleset does not compare.
    pub fn also_for(ruleset: &Ruleset, more: &[&Condition]) -> Self {
        let all = conditions(ruleset).into_iter().chain(more.iter().copied());
        let cuts = Cuts::of(all);
        let mut layers = Vec::new();
        let mut of_attribute = vec![(0, 0); ruleset.attributes.len()];
        let mut sums_refined = true;
        for id in &ruleset.asking_order {
            let attribute = &ruleset[*id];
            let conditional = attribute.asked_when.is_some() || attribute.origin != Origin::Stated;
            let first = layers.len();
            let mut push = |part, cells| {
                layers.push(Layer {
                    attribute: *id,
                    part,
                    cells,
                });
            };
            match &attribute.kind {
                AttributeKind::YesNo => {
                    push(Part::Values { conditional }, 2 + usize::from(conditional));
                }
                AttributeKind::Choice(values) | AttributeKind::Scale(values) => {
                    push(
                        Part::Values { conditional },
                        values.len() + usize::from(conditional),
                    );
                }
                AttributeKind::Number(range) => {
                    let summed = cuts.summed.contains(id);
                    if summed && range.steps >= MOST_SINGLE_STEPS {
                        sums_refined = false;
                    }
                    let ranges = if summed && range.steps < MOST_SINGLE_STEPS {
                        (0..=range.steps).map(|step| (step, step)).collect()
                    } else {
                        cuts.ranges(*id, range.steps)
                    };
                    let cells = ranges.len() + usize::from(conditional);
                    push(
                        Part::Steps {
                            conditional,
                            ranges,
                        },
                        cells,
                    );
                }
                AttributeKind::Several(items) => {
                    if conditional {
                        push(Part::Asked, 2);
                    }
                    for item in 0..items.len() {
                        push(Part::Item(item), 2);
                    }
                }
            }
            if let Some(slot) = of_attribute.get_mut(id.index()) {
                *slot = (first, layers.len() - first);
            }
        }
        Layers {
            all: layers,
            of_attribute,
            sums_refined,
            summed: cuts.summed,
        }
    }

    /// The layers, an attribute's side by side, in the order in which attributes are asked.
    pub fn all(&self) -> &[Layer] {
        &self.all
    }

    /// Whether every sum of the ruleset can be worked out cell by cell.
    pub fn sums_refined(&self) -> bool {
        self.sums_refined
    }

    /// Whether an attribute takes part in a sum.
    pub fn is_summed(&self, attribute: AttributeId) -> bool {
        self.summed.contains(&attribute)
    }

    /// The indices of an attribute's layers.
    pub fn of(&self, attribute: AttributeId) -> std::ops::Range<usize> {
        let (first, count) = self
            .of_attribute
            .get(attribute.index())
            .copied()
            .unwrap_or((0, 0));
        first..first + count
    }

    /// The cell of each layer in which a scenario lies.
    pub fn cells_of(&self, scenario: &Scenario) -> Vec<usize> {
        self.all
            .iter()
            .map(|layer| layer.cell_of(scenario.get(layer.attribute)))
            .collect()
    }

    /// The most ordinary scenario of a choice of cells: of a range of numbers, the lowest.
    pub fn scenario(&self, attributes: usize, cells: &[usize]) -> Scenario {
        let mut scenario = Scenario::unasked(attributes);
        for (layer, cell) in self.all.iter().zip(cells) {
            let code = match &layer.part {
                Part::Values { conditional } => cell
                    .checked_sub(usize::from(*conditional))
                    .map(|value| value as u64),
                Part::Steps { .. } => {
                    let steps = layer.steps(*cell);
                    steps.and_then(|(low, _)| u64::try_from(low).ok())
                }
                Part::Asked => (*cell == 1).then_some(0),
                Part::Item(item) => {
                    let bits = scenario.get(layer.attribute).map(|code| code.0);
                    let first = self.all.get(self.of(layer.attribute).start);
                    let conditional = first.is_some_and(|first| first.part == Part::Asked);
                    match bits {
                        Some(bits) => Some(bits | (*cell as u64) << item),
                        None if conditional => None,
                        None => Some((*cell as u64) << item),
                    }
                }
            };
            scenario.set(layer.attribute, code.map(Code));
        }
        scenario
    }

    /// Sets what is asked and clears what isn't, keeping the values that can be kept.
    pub fn settle_asking(ruleset: &Ruleset, scenario: &mut Scenario) {
        for id in &ruleset.asking_order {
            let asked = is_asked(ruleset, scenario, *id);
            let value = scenario.get(*id);
            scenario.set(*id, asked.then(|| value.unwrap_or(Code(0))));
        }
    }
}

/// Where numbers must be cut, and which of them take part in sums.
#[derive(Default)]
struct Cuts {
    /// First steps of new cells.
    starts: BTreeSet<(AttributeId, i64)>,
    summed: BTreeSet<AttributeId>,
}

impl Cuts {
    fn of<'c>(conditions: impl Iterator<Item = &'c Condition>) -> Self {
        let mut cuts = Cuts::default();
        for condition in conditions {
            condition.each_part(&mut |part| match &part.kind {
                ConditionKind::Fact {
                    test:
                        Test::Within {
                            attribute,
                            low,
                            high,
                        },
                    ..
                } => {
                    cuts.starts.insert((*attribute, *low));
                    cuts.starts.insert((*attribute, high.saturating_add(1)));
                }
                ConditionKind::Fact {
                    test: Test::Linear(linear),
                    ..
                } => {
                    cuts.summed
                        .extend(linear.parts.iter().map(|(_, attribute)| *attribute));
                }
                _ => {}
            });
        }
        cuts
    }

    fn ranges(&self, attribute: AttributeId, steps: i64) -> Vec<(i64, i64)> {
        let inside = self
            .starts
            .range((attribute, 1)..(attribute, steps.max(0).saturating_add(1)))
            .map(|(_, start)| *start);
        let starts: Vec<i64> = std::iter::once(0).chain(inside).collect();
        let ends = starts
            .iter()
            .skip(1)
            .map(|next| next - 1)
            .chain(std::iter::once(steps));
        starts.iter().copied().zip(ends).collect()
    }
}

/// Every condition of a ruleset, in the order of the file's sections.
pub fn conditions(ruleset: &Ruleset) -> Vec<&Condition> {
    let mut all = Vec::new();
    all.extend(
        ruleset
            .attributes
            .iter()
            .filter_map(|attribute| attribute.asked_when.as_ref()),
    );
    for term in &ruleset.terms {
        match &term.meaning {
            Meaning::Sharp(condition) => all.push(condition),
            Meaning::Vague { narrow, broad, .. } => all.extend([narrow, broad]),
        }
    }
    all.extend(ruleset.background.iter().map(|line| match &line.rule {
        BackgroundRule::Never(condition) | BackgroundRule::Always(condition) => condition,
    }));
    all.extend(
        ruleset
            .dimensions
            .iter()
            .filter_map(|dimension| dimension.required_when.as_ref()),
    );
    all.extend(ruleset.clauses.iter().map(|clause| &clause.when));
    for principle in &ruleset.principles {
        match &principle.promise {
            Promise::Expect { whenever, expect } => all.extend([whenever, expect]),
            Promise::NoGain { by, gain, .. } => {
                all.extend(by);
                if let crate::model::Gain::To(condition) = gain {
                    all.push(condition);
                }
            }
            Promise::ImpartialTo(_) | Promise::RisesWith { .. } => {}
        }
    }
    all
}
