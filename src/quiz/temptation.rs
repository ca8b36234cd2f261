//! Why somebody might give a wrong answer: the clause that it would follow from.

use super::Answer;
use super::answer::Settled;
use crate::labels;
use crate::logic::{
    Basis, Evaluator, Outcome, Ruling, Scenario, Truth, Unasked, attributes_asked_by,
    attributes_read, dimensions_read,
};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset, ValueSet};
use crate::narration::{self, clauses_named};
use crate::scenario::{Bearing, Parts, reasons};
use std::collections::{BTreeMap, BTreeSet};

/// Why a wrong answer tempts. The most tempting first.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Temptation {
    /// The clause rules so and is met, but others take it away.
    Disapplied {
        /// The clause.
        clause: ClauseId,
        /// What takes it away.
        by: Vec<ClauseId>,
    },
    /// The clause rules so and is met, but others prevail over it.
    Displaced {
        /// The clause.
        clause: ClauseId,
        /// What prevails.
        by: Vec<ClauseId>,
    },
    /// The clause rules so and stands, but another ruling counts, or not it alone.
    Outweighed {
        /// The clause.
        clause: ClauseId,
    },
    /// The clause rules so and would be met, but for one part of its condition.
    NearlyMet {
        /// The clause.
        clause: ClauseId,
        /// What is so instead, in words.
        here: String,
    },
    /// It is what holds where no clause rules.
    NoClause {
        /// The clauses that do rule here.
        but: Vec<ClauseId>,
    },
    /// The clause rules so in other incidents.
    NotMet {
        /// The clause.
        clause: ClauseId,
    },
    /// Words that can be read either way are in the rules.
    Reading {
        /// Whether one is open in this very incident, and the ruling the same however it is read.
        open: bool,
    },
    /// It holds under one reading of a word, and not under the other.
    OneReading,
    /// It holds under no reading of a word that is open, for one reason or another.
    NoReading,
    /// No clause rules so at all.
    Nothing,
}

impl Temptation {
    /// The clause that the answer would follow from.
    pub fn clause(&self) -> Option<ClauseId> {
        match self {
            Temptation::Disapplied { clause, .. }
            | Temptation::Displaced { clause, .. }
            | Temptation::Outweighed { clause }
            | Temptation::NearlyMet { clause, .. }
            | Temptation::NotMet { clause } => Some(*clause),
            _ => None,
        }
    }

    /// What is left of it where these are what tempts: nothing that is not among them.
    fn also(self, here: &[(Preference, Temptation)]) -> Option<Temptation> {
        let mut others = here.iter().map(|(_, tempts)| tempts);
        if others.clone().any(|other| *other == self) {
            return Some(self);
        }
        // Not met under either reading, though for want of something else.
        let unmet = |tempts: &Temptation| match tempts {
            Temptation::NearlyMet { clause, .. } | Temptation::NotMet { clause } => Some(*clause),
            _ => None,
        };
        let clause = unmet(&self)?;
        let both = others.any(|other| unmet(other) == Some(clause));
        both.then_some(Temptation::NotMet { clause })
    }

    /// How far it is from tempting: 0 most.
    pub(super) fn rank(&self) -> u8 {
        match self {
            Temptation::Disapplied { .. }
            | Temptation::Displaced { .. }
            | Temptation::Outweighed { .. }
            | Temptation::OneReading => 0,
            Temptation::NearlyMet { .. } | Temptation::Reading { open: true } => 1,
            Temptation::NoClause { .. } => 2,
            Temptation::NotMet { .. }
            | Temptation::Reading { open: false }
            | Temptation::NoReading => 3,
            Temptation::Nothing => 4,
        }
    }

    /// In a sentence.
    pub fn words(&self, ruleset: &Ruleset) -> String {
        let named = |id: &ClauseId| labels::clause(ruleset, *id);
        let all = |ids: &[ClauseId]| clauses_named(ruleset, ids);
        match self {
            Temptation::Disapplied { clause, by } => format!(
                "It would follow from clause {}, which is met; but {} takes it away.",
                named(clause),
                all(by)
            ),
            Temptation::Displaced { clause, by } => format!(
                "It would follow from clause {}, which is met; but it gives way to {}.",
                named(clause),
                all(by)
            ),
            Temptation::Outweighed { clause } => format!(
                "Clause {} rules so and stands, but it is not what comes out of all that is ruled.",
                named(clause)
            ),
            Temptation::NearlyMet { clause, here } => format!(
                "It would follow from clause {}; but that is not met here ({here}).",
                named(clause)
            ),
            Temptation::NoClause { but } => format!(
                "It is so where no clause rules; but {} {} here.",
                all(but),
                if but.len() == 1 { "does" } else { "do" }
            ),
            Temptation::NotMet { clause } => {
                format!("Clause {} rules so, but it is not met here.", named(clause))
            }
            Temptation::Reading { open: true } => {
                "A word is open here, but the ruling is the same however it is read.".to_owned()
            }
            Temptation::Reading { open: false } => {
                "No word is open here: the facts settle every one.".to_owned()
            }
            Temptation::OneReading => {
                "It is ruled so under one reading of a word that is open here, and otherwise under the other."
                    .to_owned()
            }
            Temptation::NoReading => {
                "It is not ruled so, however the word that is open here is read.".to_owned()
            }
            Temptation::Nothing => "No clause rules so in any incident like this.".to_owned(),
        }
    }
}

/// Finds what tempts, keeping the parts of conditions that it has taken apart.
pub(super) struct Tempter<'r> {
    ruleset: &'r Ruleset,
    parts: BTreeMap<ClauseId, Parts>,
    /// Of each attribute, how many others are asked because of it.
    below: Vec<usize>,
}

/// Whoever changes a fact because of which more others are asked has another kind of incident in hand,
/// and nobody takes the two for one another.
const MOST_BELOW: usize = 3;
/// The most facts that are told for one part of a condition; of more its words are given.
const MOST_FACTS: usize = 3;

/// What a temptation is chosen by: its rank, whether its clause is met in no other part of the question,
/// and how much would be asked otherwise.
type Preference = (u8, bool, usize);

impl<'r> Tempter<'r> {
    pub(super) fn new(ruleset: &'r Ruleset) -> Self {
        let mut below = vec![0; ruleset.attributes.len()];
        for id in (0..ruleset.attributes.len()).map(AttributeId::new) {
            for above in attributes_asked_by(ruleset, id).ones() {
                if let Some(count) = below.get_mut(above) {
                    *count += 1;
                }
            }
        }
        Tempter {
            ruleset,
            parts: BTreeMap::new(),
            below,
        }
    }

    /// Why somebody might give this wrong answer; clauses that are met `beside` it, in the other parts of
    /// the question, come to mind first.
    pub(super) fn tempts(
        &mut self,
        settled: &Settled,
        on: DimensionId,
        wrong: &Answer,
        beside: &BTreeSet<ClauseId>,
    ) -> Temptation {
        let Answer::Ruled(wrong) = wrong else {
            return Temptation::Reading {
                open: !settled.open.is_empty(),
            };
        };
        let by_reading = settled.answer.is(&Answer::Judgement)
            && settled.ways.iter().any(|(_, said)| {
                let ruling = said.rulings.get(on.index());
                ruling.is_some_and(|ruling| Answer::Ruled(*ruling).is(&Answer::Ruled(*wrong)))
            });
        if by_reading {
            return Temptation::OneReading;
        }
        // A reason that holds under one reading of a word only is none.
        let mut of_readings = settled.readings.iter();
        let Some((scenario, said)) = of_readings.next() else {
            return Temptation::Nothing;
        };
        let mut found = self.candidates(scenario, said, (on, wrong), beside);
        let any = !found.is_empty();
        for (scenario, said) in of_readings {
            let here = self.candidates(scenario, said, (on, wrong), beside);
            let common = found
                .into_iter()
                .filter_map(|(preference, tempts)| Some((preference, tempts.also(&here)?)));
            found = common.collect();
        }
        match found.into_iter().min() {
            Some((_, tempts)) => tempts,
            None if any => Temptation::NoReading,
            None => Temptation::Nothing,
        }
    }

    /// Everything that might lead to a wrong ruling in one reading of an incident.
    fn candidates(
        &mut self,
        scenario: &Scenario,
        said: &Outcome,
        (on, wrong): (DimensionId, &Ruling),
        beside: &BTreeSet<ClauseId>,
    ) -> Vec<(Preference, Temptation)> {
        let mut found = self.by_clauses(scenario, said, (on, wrong.values), beside);
        let without_clause =
            wrong.basis == Basis::Silence || self.ruleset[on].otherwise == Some(wrong.values);
        if without_clause
            && let Some(Ruling {
                basis: Basis::Clauses,
                ..
            }) = said.rulings.get(on.index())
        {
            let but = said.standing.get(on.index()).cloned().unwrap_or_default();
            let tempts = Temptation::NoClause { but };
            found.push(((tempts.rank(), false, 0), tempts));
        }
        found
    }

    fn by_clauses(
        &mut self,
        scenario: &Scenario,
        said: &Outcome,
        (on, wrong): (DimensionId, ValueSet),
        beside: &BTreeSet<ClauseId>,
    ) -> Vec<(Preference, Temptation)> {
        let ruleset = self.ruleset;
        let mut found = Vec::new();
        let mut push = |far: bool, below: usize, tempts: Temptation| {
            found.push(((tempts.rank(), far, below), tempts));
        };
        for reason in reasons(ruleset, said) {
            let clause = reason.clause;
            let given = reason.rulings.iter().find(|given| given.dimension == on);
            let Some(given) = given.filter(|given| given.values == wrong) else {
                continue;
            };
            let tempts = if !reason.disapplied_by.is_empty() {
                Temptation::Disapplied {
                    clause,
                    by: reason.disapplied_by.clone(),
                }
            } else if given.displaced_by.is_empty() {
                Temptation::Outweighed { clause }
            } else {
                Temptation::Displaced {
                    clause,
                    by: given.displaced_by.clone(),
                }
            };
            push(false, 0, tempts);
        }
        let ids = (0..ruleset.clauses.len()).map(ClauseId::new);
        let unmet = ids.filter(|id| {
            !said.met.contains(id.index()) && ruleset[*id].ruling_on(on) == Some(wrong)
        });
        for clause in unmet {
            let far = !beside.contains(&clause);
            match self.missing(clause, scenario, said) {
                Some((below, here)) if below <= MOST_BELOW => {
                    push(far, below, Temptation::NearlyMet { clause, here });
                }
                _ => push(far, 0, Temptation::NotMet { clause }),
            }
        }
        found
    }

    /// What is so instead of the one part for want of which a clause is not met, and how many other facts
    /// are asked because of what that part reads.
    fn missing(
        &mut self,
        clause: ClauseId,
        scenario: &Scenario,
        said: &Outcome,
    ) -> Option<(usize, String)> {
        let ruleset = self.ruleset;
        let parts = self
            .parts
            .entry(clause)
            .or_insert_with(|| Parts::of(ruleset, clause));
        let evaluator = Evaluator::new(ruleset);
        let part = parts.parts.iter().find(|part| {
            let truth = evaluator.truth(&part.condition, Unasked::Neither, scenario, said);
            // Of something that isn't asked at all nobody would think.
            truth != Truth::Neither
                && part.bearing(evaluator, scenario, said, false) == Bearing::Fails
        })?;
        let rulings = dimensions_read(&part.condition);
        let read = attributes_read(ruleset, &part.condition);
        let below = if rulings.is_empty() {
            read.ones().filter_map(|id| self.below.get(id)).sum()
        } else {
            0
        };
        let here: Vec<String> = if rulings.is_empty() {
            let read = read.ones().map(AttributeId::new);
            read.filter_map(|id| Some(narration::statement(ruleset, id, scenario.get(id)?)))
                .collect()
        } else {
            let rulings = rulings.into_iter();
            rulings
                .filter_map(|on| {
                    let ruling = said.rulings.get(on.index())?;
                    let words = narration::ruled(ruleset, on, *ruling);
                    Some(format!("{}: {words}", labels::dimension(ruleset, on)))
                })
                .collect()
        };
        let here = match here.len() {
            1..=MOST_FACTS => here.join("; "),
            _ => format!("`{}` is not so", part.words(ruleset)),
        };
        Some((below, here))
    }
}
