//! Scenarios found without a solver.
//!
//! A clause's own wording says where to look: its most ordinary scenario is built cell by cell, then
//! moved out of the way of whatever stands against it. Every scenario found here has been evaluated;
//! one that is not found proves nothing.

use crate::logic::{
    CellBox, Code, Evaluator, Layer, Layers, Outcome, Part, Reach, Scenario, Want, is_valid,
};
use crate::model::{AttributeId, BackgroundRule, ClauseId, Condition, Ruleset};

/// How often a scenario is moved before it is given up.
const MOST_MOVES: usize = 8;

/// Looks for scenarios of one ruleset.
pub(crate) struct Search<'a, 'r> {
    ruleset: &'r Ruleset,
    reach: &'a Reach<'r>,
}

/// What is made of a scenario that was tried.
pub(crate) enum Trial {
    /// It will do.
    Good,
    /// It would do if these clauses were not met.
    Avoid(Vec<ClauseId>),
    /// There is nothing to be made of it.
    Hopeless,
}

impl<'a, 'r> Search<'a, 'r> {
    pub(crate) fn new(ruleset: &'r Ruleset, reach: &'a Reach<'r>) -> Self {
        Search { ruleset, reach }
    }

    /// Looks for a scenario within all the conditions that `judge` calls good.
    pub(crate) fn find(
        &self,
        conditions: &[&Condition],
        judge: impl FnMut(&Scenario, &Outcome) -> Trial,
    ) -> Option<Scenario> {
        let wanted: Vec<_> = conditions.iter().map(|one| (*one, Want::True)).collect();
        self.find_as(&wanted, judge)
    }

    /// The same where each condition is as wanted.
    pub(super) fn find_as(
        &self,
        wanted: &[(&Condition, Want)],
        mut judge: impl FnMut(&Scenario, &Outcome) -> Trial,
    ) -> Option<Scenario> {
        let mut targets = vec![CellBox::default()];
        for (condition, want) in wanted {
            let ways = self.reach.alternatives(condition, *want);
            let both = targets
                .iter()
                .flat_map(|target| ways.iter().map(|way| target.clone().meet(way)));
            targets = both.filter(|target| !target.is_empty()).take(8).collect();
        }
        targets
            .into_iter()
            .find_map(|target| self.find_in(self.with_asking(target), &mut judge))
    }

    /// A scenario moved as little as can be, so that a condition is likely to be as wanted; one for
    /// each way of reading its `or`s.
    pub(super) fn moved(
        &self,
        scenario: &Scenario,
        condition: &Condition,
        want: Want,
    ) -> Vec<Scenario> {
        let layers = self.reach.layers();
        let cells = layers.cells_of(scenario);
        let ways = self.reach.alternatives(condition, want).into_iter();
        let moved = ways.map(|way| {
            let mut cells = cells.clone();
            for (layer, allowed) in &self.with_asking(way).cells {
                if let Some(cell) = cells.get_mut(*layer)
                    && !allowed.contains(*cell)
                {
                    let asked = layers.all().get(*layer).is_some_and(Layer::is_conditional);
                    let mut ones = allowed.ones();
                    let plain = allowed.ones().find(|cell| *cell >= usize::from(asked));
                    *cell = plain.or_else(|| ones.next()).unwrap_or(*cell);
                }
            }
            let mut moved = layers.scenario(self.ruleset.attributes.len(), &cells);
            Layers::settle_asking(self.ruleset, &mut moved);
            moved
        });
        moved
            .filter(|moved| is_valid(self.ruleset, moved))
            .collect()
    }

    fn find_in(
        &self,
        mut target: CellBox,
        judge: &mut impl FnMut(&Scenario, &Outcome) -> Trial,
    ) -> Option<Scenario> {
        for _ in 0..MOST_MOVES {
            if target.is_empty() {
                return None;
            }
            let scenario = self.ordinary(&target);
            if let Some(broken) = self.broken_background(&scenario) {
                target = self.with_asking(self.away(&target, broken.0, broken.1)?);
                continue;
            }
            if !is_valid(self.ruleset, &scenario) {
                return None;
            }
            let outcome = self.reach.outcome(Evaluator::new(self.ruleset), &scenario);
            match judge(&scenario, &outcome) {
                Trial::Good => return Some(scenario),
                Trial::Hopeless => return None,
                Trial::Avoid(clauses) => {
                    let moved = clauses.iter().find_map(|clause| {
                        self.away(&target, &self.ruleset[*clause].when, Want::NotTrue)
                    });
                    target = self.with_asking(moved?);
                }
            }
        }
        None
    }

    /// Narrows a box so that everything it speaks of is asked.
    fn with_asking(&self, mut target: CellBox) -> CellBox {
        for id in self.ruleset.asking_order.iter().rev() {
            let Some(condition) = &self.ruleset[*id].asked_when else {
                continue;
            };
            let layers = self.reach.layers();
            let spoken = layers.of(*id).any(|layer| {
                let first = layers.all().get(layer).map(Layer::is_conditional);
                target.cells.get(&layer).is_some_and(|cells| match first {
                    Some(true) => !cells.contains(0),
                    _ => !cells.contains(0) && cells.contains(1),
                })
            });
            if spoken {
                let ways = self.reach.alternatives(condition, Want::True);
                let narrowed = ways
                    .iter()
                    .map(|way| target.clone().meet(way))
                    .find(|both| !both.is_empty());
                if let Some(narrowed) = narrowed {
                    target = narrowed;
                }
            }
        }
        target
    }

    /// The most ordinary scenario of a box.
    fn ordinary(&self, target: &CellBox) -> Scenario {
        let layers = self.reach.layers();
        let cells: Vec<usize> = layers
            .all()
            .iter()
            .enumerate()
            .map(|(index, layer)| match target.cells.get(&index) {
                Some(cells) => {
                    let first = usize::from(layer.is_conditional() && layer.part != Part::Asked);
                    cells
                        .ones()
                        .find(|cell| *cell >= first)
                        .or_else(|| cells.ones().next())
                        .unwrap_or(0)
                }
                None => usize::from(layer.is_conditional()),
            })
            .collect();
        let mut scenario = layers.scenario(self.ruleset.attributes.len(), &cells);
        Layers::settle_asking(self.ruleset, &mut scenario);
        scenario
    }

    /// A background line that the scenario breaks, and how its condition would have to be instead.
    fn broken_background(&self, scenario: &Scenario) -> Option<(&'r Condition, Want)> {
        let evaluator = Evaluator::new(self.ruleset);
        self.ruleset
            .background
            .iter()
            .find_map(|line| match &line.rule {
                BackgroundRule::Never(condition) => {
                    let truth = evaluator.plain_truth(condition, scenario);
                    (truth == crate::logic::Truth::True).then_some((condition, Want::NotTrue))
                }
                BackgroundRule::Always(condition) => {
                    let truth = evaluator.plain_truth(condition, scenario);
                    (truth == crate::logic::Truth::False).then_some((condition, Want::True))
                }
            })
    }

    /// A smaller box in which the condition can be as wanted.
    fn away(&self, target: &CellBox, condition: &Condition, want: Want) -> Option<CellBox> {
        let ways = self.reach.alternatives(condition, want);
        let moved = ways.iter().map(|way| target.clone().meet(way));
        // A way that changes nothing would lead back to the same scenario.
        moved
            .filter(|both| !both.is_empty() && both != target)
            .min_by_key(|both| {
                let pinned = both
                    .cells
                    .values()
                    .filter(|cells| cells.count_ones(..) == 1)
                    .count();
                (pinned, both.cells.len())
            })
    }
}

/// Moves a scenario towards the ordinary, one attribute after the other, as long as `holds`.
pub(crate) fn make_ordinary(
    ruleset: &Ruleset,
    mut scenario: Scenario,
    holds: impl Fn(&Scenario) -> bool,
) -> Scenario {
    for index in 0..ruleset.attributes.len() {
        let id = AttributeId::new(index);
        if scenario.get(id).is_none_or(|code| code == Code(0)) {
            continue;
        }
        let mut plainer = scenario.clone();
        plainer.set(id, Some(Code(0)));
        Layers::settle_asking(ruleset, &mut plainer);
        if is_valid(ruleset, &plainer) && holds(&plainer) {
            scenario = plainer;
        }
    }
    scenario
}
