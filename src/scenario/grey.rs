//! Grey zones: incidents in which a vague term can be read either way, and what follows from each
//! reading.

use super::pair::{differs, plainer};
use super::study::Study;
use crate::logic::{Formula, Pairing, Scenario, Twin};
use crate::model::{AttributeId, DimensionId, Meaning, TermId};
use crate::solve::{Answer, Reason, Solver, Z3Solver};
use std::collections::BTreeSet;

/// An incident at the grey zone of a vague term, read both ways.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Grey {
    /// The term.
    pub term: TermId,
    /// The incident with the term read narrowly.
    pub narrow: Scenario,
    /// The same with the term read broadly.
    pub broad: Scenario,
}

/// What was found for a vague term.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Zone {
    /// An incident whose rulings depend on the reading.
    Turns(Box<Grey>),
    /// The rulings are the same however the term is read.
    NothingTurnsOnIt(TermId),
    /// It stayed open.
    Undecided(TermId, Reason),
}

/// The vague terms of a ruleset with their readings.
pub(crate) fn terms(study: &Study<'_, '_>) -> Vec<(TermId, AttributeId)> {
    let terms = study.ruleset.terms.iter().enumerate();
    let vague = terms.filter_map(|(index, term)| match term.meaning {
        Meaning::Vague { reading, .. } => Some((TermId::new(index), reading)),
        Meaning::Sharp(_) => None,
    });
    vague.collect()
}

/// An incident in which the reading of the term decides.
pub(crate) fn zone(study: &Study<'_, '_>, term: TermId, reading: AttributeId) -> Zone {
    let ruleset = study.ruleset;
    let twin = Twin::new(
        ruleset,
        Pairing::changing(ruleset, BTreeSet::from([reading])),
    );
    let dimensions = (0..ruleset.dimensions.len()).map(DimensionId::new);
    let announced = dimensions.filter(|on| !ruleset[*on].intermediate);
    let read = |id, way| crate::logic::fact(twin.ruleset(), id, crate::logic::Code(way));
    let question = Formula::all([
        twin.related(),
        read(reading, 0),
        read(twin.second_attribute(reading), 1),
        Formula::any(announced.map(|on| differs(&twin, on))),
        study.wanted_formula(),
    ]);
    match Z3Solver::new(twin.ruleset(), study.budget().clone()).ask(&question) {
        Answer::No => Zone::NothingTurnsOnIt(term),
        Answer::Undecided(reason) => Zone::Undecided(term, reason),
        Answer::Yes(pair) => {
            let (narrow, broad) = twin.split(&pair);
            let ways = (narrow.get(reading), broad.get(reading));
            let holds = |narrow: &Scenario, broad: &Scenario| {
                let (said, told) = (study.outcome(narrow), study.outcome(broad));
                (narrow.get(reading), broad.get(reading)) == ways
                    && study.is_wanted(narrow, &said)
                    && !study.differing(&said, &told).is_empty()
            };
            let (narrow, broad) = plainer(ruleset, twin.pairing(), narrow, broad, &holds);
            Zone::Turns(Box::new(Grey {
                term,
                narrow,
                broad,
            }))
        }
    }
}
