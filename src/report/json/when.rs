//! Under which conditions something is so, as JSON.

use super::{CoverName, RulesetHead, ScenarioRecord, Scenarios};
use crate::model::Ruleset;
use crate::report::caution::caution;
use crate::report::text::Asked;
use crate::scenario::{Case, When};
use schemars::JsonSchema;
use serde::Serialize;

/// The report of an answer, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn when(
    ruleset: &Ruleset,
    asked: Asked<'_>,
    found: &When,
) -> Result<String, serde_json::Error> {
    let report = WhenReport {
        format: WhenFormat::When1,
        ruleset: RulesetHead::new(ruleset),
        wanted: asked.wanted.trim().to_owned(),
        given: asked.given.map(|given| given.trim().to_owned()),
        when: found.lines.iter().map(|it| it.condition.clone()).collect(),
        cover: match (&found.open, found.lines.len()) {
            (None, _) => CoverName::Exact,
            (Some(_), 0) => CoverName::None,
            (Some(_), _) => CoverName::Partial,
        },
        share: found.share.as_ref().map(Scenarios::new),
        of: found.of.as_ref().map(Scenarios::new),
        neither: found.neither.as_ref().map(Scenarios::new),
        scenario: found
            .scenario
            .as_ref()
            .map(|it| ScenarioRecord::new(ruleset, it)),
        cases: found
            .lines
            .iter()
            .map(|case| CaseRecord::new(ruleset, case))
            .collect(),
        undecided: found.open.as_ref().map(ToString::to_string),
        caution: caution(ruleset),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `when --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct WhenReport {
    format: WhenFormat,
    ruleset: RulesetHead,
    /// What is to be so, as it was asked.
    wanted: String,
    /// Among which incidents, as it was asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    given: Option<String>,
    /// Conditions in the ruleset's words, under any of which it is so; where a condition was given,
    /// among those incidents.
    when: Vec<String>,
    /// Whether `when` covers exactly the incidents that were asked for, only a part of them, or is not
    /// given. Exact and empty: it is never so.
    cover: CoverName,
    /// In how many incidents it is so; null where that was not counted.
    share: Option<Scenarios>,
    /// Out of how many.
    of: Option<Scenarios>,
    /// In how many of them it is neither so nor not so.
    neither: Option<Scenarios>,
    /// The most ordinary incident in which it is so; null where there is none, or none was found.
    scenario: Option<ScenarioRecord>,
    /// Each condition of `when` with an incident.
    cases: Vec<CaseRecord>,
    /// Why `when` does not cover all, where it does not.
    #[serde(skip_serializing_if = "Option::is_none")]
    undecided: Option<String>,
    /// Words that belong wherever this is shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum WhenFormat {
    #[serde(rename = "evenhand/when/1")]
    When1,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CaseRecord {
    when: String,
    share: Scenarios,
    scenario: ScenarioRecord,
}

impl CaseRecord {
    fn new(ruleset: &Ruleset, case: &Case) -> Self {
        CaseRecord {
            when: case.condition.clone(),
            share: Scenarios::new(&case.share),
            scenario: ScenarioRecord::new(ruleset, &case.scenario),
        }
    }
}
