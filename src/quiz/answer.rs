//! The one right answer of a part, with the facts that are enough for it.

use super::Answer;
use crate::logic::{
    Chart, Code, Established, Evaluator, Outcome, Ruling, Scenario, is_asked, is_valid, same_ruling,
};
use crate::model::{AttributeId, DimensionId, Origin, Ruleset};
use crate::narration::{self, bearing};
use crate::scenario;
use crate::solve::Budget;
use std::collections::{BTreeMap, BTreeSet};

/// The most ways of reading the words of one incident that are tried.
const MOST_READINGS: usize = 64;

/// What is ruled in an incident, however its words are read.
#[derive(Clone, Debug)]
pub(super) struct Settled {
    /// The facts without readings.
    pub(super) facts: Established,
    /// The right answer.
    pub(super) answer: Answer,
    /// The incident read one way, and what is said about it; where it is a judgement, one for each
    /// ruling that comes of it.
    pub(super) ways: Vec<(Scenario, Outcome)>,
    /// The incident read in every way, and what is said about each.
    pub(super) readings: Vec<(Scenario, Outcome)>,
    /// The readings that are open in it.
    pub(super) open: Vec<AttributeId>,
    /// The facts that are enough for the answer, where that is known.
    pub(super) enough: Option<Vec<AttributeId>>,
}

impl Settled {
    /// What is said, of several ways the first.
    pub(super) fn first(&self) -> Option<(&Scenario, &Outcome)> {
        self.ways.first().map(|(scenario, said)| (scenario, said))
    }
}

/// Answers questions about one ruleset.
pub(super) struct Judge<'r> {
    ruleset: &'r Ruleset,
    budget: Budget,
    charts: BTreeMap<DimensionId, Option<Chart<'r>>>,
}

impl<'r> Judge<'r> {
    pub(super) fn new(ruleset: &'r Ruleset, budget: &Budget) -> Self {
        Judge {
            ruleset,
            budget: budget.clone(),
            charts: BTreeMap::new(),
        }
    }

    /// The answer, where there is one: no ruling is missing where one is due, and none clashes.
    pub(super) fn settle(&self, scenario: &Scenario, on: DimensionId) -> Option<Settled> {
        let ruleset = self.ruleset;
        let all = readings(ruleset, scenario)?;
        let evaluator = Evaluator::new(ruleset);
        let mut ways: Vec<(Scenario, Outcome, Ruling)> = Vec::new();
        let mut readings: Vec<(Scenario, Outcome)> = Vec::new();
        for scenario in all {
            let said = evaluator.outcome(&scenario);
            let ruling = *said.rulings.get(on.index())?;
            if !is_fair(ruleset, on, ruling) {
                return None;
            }
            if ways.iter().all(|(.., known)| !same_ruling(*known, ruling)) {
                ways.push((scenario.clone(), said.clone(), ruling));
            }
            readings.push((scenario, said));
        }
        let answer = match ways.as_slice() {
            [] => return None,
            [(.., ruling)] => Answer::Ruled(*ruling),
            _ => Answer::Judgement,
        };
        let mut facts = Established::whole(scenario, ruleset.attributes.len());
        let mut open = Vec::new();
        for (id, _) in scenario.facts() {
            if is_reading(ruleset, id) {
                facts.set(id, None);
                open.push(id);
            }
        }
        Some(Settled {
            facts,
            answer,
            ways: ways
                .into_iter()
                .map(|(scenario, said, _)| (scenario, said))
                .collect(),
            readings,
            open,
            enough: None,
        })
    }

    /// Adds the facts that are enough for the answer.
    pub(super) fn find_enough(&mut self, settled: &mut Settled, on: DimensionId) {
        if settled.answer.is(&Answer::Judgement) {
            return;
        }
        let (ruleset, budget) = (self.ruleset, &self.budget);
        let chart = self
            .charts
            .entry(on)
            .or_insert_with(|| scenario::chart(ruleset, &[on], budget).ok());
        let Some((scenario, said)) = settled.ways.first() else {
            return;
        };
        settled.enough = chart.as_ref().and_then(|chart| {
            let verdict = chart.verdict(scenario)?;
            let preferred = bearing(ruleset, [said]);
            let enough = chart.sufficient(&settled.facts, verdict, &preferred).ok()?;
            Some(enough.facts)
        });
    }

    /// The facts that a reader has to be told.
    pub(super) fn matters(&self, settled: &Settled) -> BTreeSet<AttributeId> {
        match &settled.enough {
            Some(enough) => crate::logic::with_askers(self.ruleset, enough.iter().copied()),
            // Whatever is asked: so it is certainly enough.
            None => settled.facts.facts().map(|(id, _)| id).collect(),
        }
    }
}

/// Whether an attribute is the reading of a vague term.
pub(super) fn is_reading(ruleset: &Ruleset, id: AttributeId) -> bool {
    ruleset[id].origin != Origin::Stated
}

/// The same incident in every way in which its open words can be read; `None` where there are too many.
fn readings(ruleset: &Ruleset, scenario: &Scenario) -> Option<Vec<Scenario>> {
    let mut all = vec![Scenario::unasked(ruleset.attributes.len())];
    for id in ruleset.asking_order.iter().copied() {
        let mut next = Vec::with_capacity(all.len());
        for part in all {
            if !is_asked(ruleset, &part, id) {
                next.push(part);
                continue;
            }
            let codes: Vec<Code> = if is_reading(ruleset, id) {
                vec![Code(0), Code(1)]
            } else {
                vec![scenario.get(id)?]
            };
            for code in codes {
                let mut further = part.clone();
                further.set(id, Some(code));
                next.push(further);
            }
        }
        if next.len() > MOST_READINGS {
            return None;
        }
        all = next;
    }
    all.retain(|scenario| is_valid(ruleset, scenario));
    Some(all)
}

/// Whether a ruling can be asked for: the text gives one, and it doesn't contradict itself.
fn is_fair(ruleset: &Ruleset, on: DimensionId, ruling: Ruling) -> bool {
    use narration::Answer as Comes;
    match narration::answer(ruleset, on, ruling) {
        Comes::Settled | Comes::Discretion | Comes::Silence => true,
        Comes::Gap | Comes::Contradiction => false,
    }
}
