//! What became of a record, as JSON.

use crate::model::Ruleset;
use crate::proof::NotRecorded;
use crate::proof::recheck::Report;
use schemars::JsonSchema;
use serde::Serialize;

/// The report of a recheck, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn rechecked(ruleset: &Ruleset, report: &Report) -> Result<String, serde_json::Error> {
    let report = RecheckReport {
        format: RecheckFormat::Recheck1,
        ruleset: Of {
            title: ruleset.title.clone(),
            edition: ruleset.edition.clone(),
            file: crate::report::file(ruleset).to_owned(),
        },
        holds: report
            .holds
            .iter()
            .map(|held| HeldRecord {
                id: held.id.clone(),
                says: held.says.clone(),
                refuted: held.refuted,
                shown: held.shown,
                by_form: held.by_form,
                trusted: held.trusted,
            })
            .collect(),
        refused: report
            .refused
            .iter()
            .map(|refusal| RefusalRecord {
                place: refusal.place.clone(),
                why: refusal.why.clone(),
            })
            .collect(),
        trusted: report.trusted.clone(),
        not_recorded: report.not_recorded.clone(),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `recheck --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct RecheckReport {
    format: RecheckFormat,
    ruleset: Of,
    /// The claims that hold.
    holds: Vec<HeldRecord>,
    /// What does not hold.
    refused: Vec<RefusalRecord>,
    /// What was not checked but taken on the word of solvers.
    trusted: Vec<String>,
    /// Verdicts that have no record.
    not_recorded: Vec<NotRecorded>,
}

#[derive(Serialize, JsonSchema)]
enum RecheckFormat {
    #[serde(rename = "evenhand/recheck/1")]
    Recheck1,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Of {
    title: String,
    edition: String,
    file: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct HeldRecord {
    /// The claim's name in the manifest.
    id: String,
    /// What it says.
    says: String,
    /// Refutations that were replayed.
    refuted: usize,
    /// Scenarios that were replayed.
    shown: usize,
    /// Questions that the form of the ruleset leaves no room for.
    by_form: usize,
    /// Answers of solvers that were taken on trust.
    trusted: usize,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RefusalRecord {
    /// The file, or the claim.
    place: String,
    /// Why it does not hold.
    why: String,
}
