//! An order of questions as JSON.

use super::{Fact, Pairs, Ruled, RulesetHead, facts_of};
use crate::logic::{Chart, Optimal, Outlook, Protocol, VerdictId};
use crate::narration::{self, Then};
use crate::report::caution::caution;
use schemars::JsonSchema;
use serde::Serialize;

/// The order of questions, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn protocol(
    chart: &Chart<'_>,
    outlook: &Outlook,
    protocol: &Protocol,
) -> Result<String, serde_json::Error> {
    let ruleset = chart.ruleset();
    let key = narration::key(chart, protocol);
    let steps = key.steps.iter().map(|step| {
        let names = ruleset[step.attribute].kind.names();
        let item = step.item.and_then(|item| names.get(item));
        StepRecord {
            attribute: ruleset[step.attribute].name.clone(),
            item: item.map(|item| item.name.clone()),
            question: step.question.clone(),
            answers: step
                .answers
                .iter()
                .map(|answer| {
                    let (step, rulings) = match answer.then {
                        Then::Step(index) => (Some(index), None),
                        Then::Verdict(verdict) => (None, Some(rulings(chart, verdict))),
                        Then::Open => (None, None),
                    };
                    AnswerRecord {
                        answer: answer.answer.clone(),
                        step,
                        rulings,
                    }
                })
                .collect(),
        }
    });
    let report = ProtocolReport {
        format: ProtocolFormat::Protocol1,
        ruleset: RulesetHead::new(ruleset),
        facts: facts_of(ruleset, outlook.facts().facts()),
        steps: steps.collect(),
        settled: key.settled.map(|verdict| rulings(chart, verdict)),
        average: Average {
            questions: protocol.expected.numer().to_string(),
            out_of: protocol.expected.denom().to_string(),
        },
        longest: protocol.longest,
        best: protocol.optimal == Optimal::Proved,
        caution: caution(ruleset),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `ruling --protocol --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ProtocolReport {
    format: ProtocolFormat,
    ruleset: RulesetHead,
    /// The facts that are established already.
    facts: Pairs<Fact>,
    /// The first is where to begin; empty where there is nothing to ask.
    steps: Vec<StepRecord>,
    /// The rulings, where there is nothing to ask.
    #[serde(skip_serializing_if = "Option::is_none")]
    settled: Option<Pairs<Option<Ruled>>>,
    average: Average,
    /// The most questions that are asked.
    longest: usize,
    /// Whether it is proved that no other order asks fewer questions on average.
    best: bool,
    /// Words that belong wherever this is shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum ProtocolFormat {
    #[serde(rename = "evenhand/protocol/1")]
    Protocol1,
}

/// How many questions are asked on average, every incident counted alike: an exact fraction.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Average {
    #[schemars(regex(pattern = "^[0-9]+$"))]
    questions: String,
    #[schemars(regex(pattern = "^[0-9]+$"))]
    out_of: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StepRecord {
    attribute: String,
    /// Of several items: whether this one is there.
    #[serde(skip_serializing_if = "Option::is_none")]
    item: Option<String>,
    question: String,
    answers: Vec<AnswerRecord>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AnswerRecord {
    /// In words.
    answer: String,
    /// The index of the step that it leads to, from zero.
    #[serde(skip_serializing_if = "Option::is_none")]
    step: Option<usize>,
    /// The rulings that it leads to, by dimension: a value, a list of several, null where none is
    /// given or rulings clash.
    #[serde(skip_serializing_if = "Option::is_none")]
    rulings: Option<Pairs<Option<Ruled>>>,
}

fn rulings(chart: &Chart<'_>, verdict: VerdictId) -> Pairs<Option<Ruled>> {
    let ruleset = chart.ruleset();
    let all = chart.dimensions().iter().zip(chart.rulings(verdict));
    let named = all.map(|(id, ruling)| {
        let name = ruleset[*id].name.clone();
        (name, super::ruling::ruled(ruleset, *id, *ruling))
    });
    Pairs(named.collect())
}
