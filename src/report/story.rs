//! The incidents of a finding told in sentences, for whatever is read as a page.

use super::turning::{asked_through, turns_on};
use super::words;
use crate::analysis::{Finding, Repair};
use crate::labels;
use crate::logic::{Evaluator, Scenario};
use crate::model::{DimensionId, Ruleset};
use crate::narration::{self, Change};
use num_traits::Zero;

/// An incident, or two, told.
pub(super) struct Story {
    /// The incident.
    pub(super) sentences: String,
    /// How it is ruled, by dimension.
    pub(super) ruled: Vec<String>,
    /// How the second of a pair differs, and how that is ruled.
    pub(super) other: Option<(Vec<String>, Vec<String>)>,
}

/// Tells the incidents of a finding, where it has some.
pub(super) fn told(ruleset: &Ruleset, finding: &Finding) -> Option<Story> {
    let first = finding.scenario.as_ref()?;
    Some(Story {
        sentences: sentences(ruleset, finding)?,
        ruled: ruled(ruleset, finding, first),
        other: finding.pair.as_ref().map(|second| {
            (
                changes(ruleset, first, second),
                ruled(ruleset, finding, second),
            )
        }),
    })
}

/// The incident of a finding in sentences, what the finding turns on first.
pub(super) fn sentences(ruleset: &Ruleset, finding: &Finding) -> Option<String> {
    let first = finding.scenario.as_ref()?;
    let mut matters = turns_on(ruleset, finding);
    if let Some(second) = &finding.pair {
        let differs = narration::differences(ruleset, first, second);
        matters.extend(differs.iter().map(|it| it.attribute));
    }
    asked_through(ruleset, &mut matters);
    let any = matters.iter().any(|id| first.get(*id).is_some());
    let told = narration::scenario(ruleset, first, any.then_some(&matters));
    Some(told.sentences.join(" "))
}

/// Why a finding is accepted, where it is.
pub(super) fn accepted(ruleset: &Ruleset, finding: &Finding) -> Option<String> {
    let entry = ruleset.accepted.get(finding.accepted?);
    let because = entry.and_then(|entry| entry.because.as_ref());
    Some(because.map_or_else(
        || "no reason is given".to_owned(),
        |text| text.in_language(&ruleset.language).trim().to_owned(),
    ))
}

/// A repair, and what else it changes.
pub(super) fn repair(repair: &Repair) -> String {
    let changed = match &repair.scenarios_changed {
        Some(count) if count.scenarios.is_zero() => "changes no ruling".to_owned(),
        Some(count) => format!("changes the ruling in {}", words::scenarios(count)),
        None => "how many rulings it changes could not be counted".to_owned(),
    };
    format!("{} ({changed})", repair.edit)
}

fn changes(ruleset: &Ruleset, first: &Scenario, second: &Scenario) -> Vec<String> {
    narration::differences(ruleset, first, second)
        .into_iter()
        .map(|difference| match difference.change {
            Change::Value | Change::NewlyAsked => difference.words,
            Change::NoLongerAsked => format!("{}: not asked", difference.words),
        })
        .collect()
}

/// How an incident is ruled on what the finding is about, or on everything that is announced.
fn ruled(ruleset: &Ruleset, finding: &Finding, scenario: &Scenario) -> Vec<String> {
    let outcome = Evaluator::new(ruleset).outcome(scenario);
    let all = (0..ruleset.dimensions.len()).map(DimensionId::new);
    let wanted = all.filter(|id| match finding.dimension {
        Some(one) => *id == one,
        None => !ruleset[*id].intermediate,
    });
    wanted
        .filter_map(|id| {
            let ruling = outcome.rulings.get(id.index())?;
            let name = labels::dimension(ruleset, id);
            let words = narration::ruled(ruleset, id, *ruling);
            Some(format!("{name}: {words}"))
        })
        .collect()
}
