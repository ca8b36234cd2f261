//! Findings in SARIF 2.1.0 (Static Analysis Results Interchange Format, an OASIS standard), for programs
//! that show findings beside the lines of a file.
//!
//! Lines and columns count from one, columns in characters (`unicodeCodePoints`), and a region ends just
//! behind its last character (section 3.30 of the standard, from memory). An accepted finding is a
//! suppressed result; a question that stayed open is a notification of the run.

use super::caution::caution;
use super::{explain, story};
use crate::analysis::{Checked, Finding, Outcome};
use crate::model::{Kind, Ruleset, Severity};
use crate::problem::{Gravity, Problem};
use crate::source::{Position, Sources, Span};
use serde::Serialize;
use serde_json::{Value, json};

/// The report of a check as SARIF, with a line end: `warnings` are what reading the ruleset had to say.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn checked(
    ruleset: &Ruleset,
    warnings: &[Problem],
    checked: &Checked,
) -> Result<String, serde_json::Error> {
    let results = checked.findings.iter().map(|it| result(ruleset, it));
    let idle = super::idle_accepted(ruleset, checked);
    let about_file = warnings.iter().chain(&idle);
    let open = checked
        .verdicts
        .iter()
        .filter_map(|verdict| match &verdict.outcome {
            Outcome::Undecided(reason) => Some(Notification {
                level: "warning",
                message: message(&format!("{} stayed undecided: {reason}.", verdict.kind)),
                locations: Vec::new(),
            }),
            _ => None,
        });
    let sources = &ruleset.sources;
    log(&Run {
        tool: tool(),
        invocations: vec![Invocation {
            execution_successful: true,
            tool_execution_notifications: open.collect(),
            tool_configuration_notifications: about_file
                .map(|problem| notification(sources, problem))
                .collect(),
        }],
        artifacts: artifacts(sources),
        column_kind: "unicodeCodePoints",
        results: results.collect(),
        properties: json!({
            "title": ruleset.title,
            "edition": ruleset.edition,
            "caution": caution(ruleset),
        }),
    })
}

/// A ruleset that cannot be used, as SARIF with a line end: what is wrong are notifications, and there are
/// no results.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn problems(sources: &Sources, problems: &[Problem]) -> Result<String, serde_json::Error> {
    let notifications = super::by_place(problems)
        .into_iter()
        .map(|problem| notification(sources, problem));
    log(&unusable(notifications.collect(), artifacts(sources)))
}

/// A file that cannot even be read, as SARIF with a line end: its name, and why.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn unreadable(file: &str, why: &str) -> Result<String, serde_json::Error> {
    let notification = Notification {
        level: "error",
        message: message(why),
        locations: Vec::new(),
    };
    let artifact = Artifact {
        location: ArtifactLocation { uri: uri(file) },
    };
    log(&unusable(vec![notification], vec![artifact]))
}

fn unusable(notifications: Vec<Notification>, artifacts: Vec<Artifact>) -> Run {
    Run {
        tool: tool(),
        invocations: vec![Invocation {
            execution_successful: false,
            tool_execution_notifications: Vec::new(),
            tool_configuration_notifications: notifications,
        }],
        artifacts,
        column_kind: "unicodeCodePoints",
        results: Vec::new(),
        properties: json!({}),
    }
}

fn log(run: &Run) -> Result<String, serde_json::Error> {
    let log = json!({"version": "2.1.0", "runs": [run]});
    serde_json::to_string_pretty(&log).map(|text| text + "\n")
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run {
    tool: Value,
    invocations: Vec<Invocation>,
    artifacts: Vec<Artifact>,
    column_kind: &'static str,
    results: Vec<ResultRecord>,
    properties: Value,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Invocation {
    execution_successful: bool,
    tool_execution_notifications: Vec<Notification>,
    tool_configuration_notifications: Vec<Notification>,
}

#[derive(Serialize)]
struct Notification {
    level: &'static str,
    message: Value,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    locations: Vec<Location>,
}

#[derive(Serialize)]
struct Artifact {
    location: ArtifactLocation,
}

#[derive(Serialize)]
struct ArtifactLocation {
    uri: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ResultRecord {
    rule_id: &'static str,
    rule_index: usize,
    level: &'static str,
    message: Value,
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    suppressions: Vec<Value>,
    properties: Value,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    physical_location: PhysicalLocation,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Value>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct PhysicalLocation {
    artifact_location: ArtifactLocation,
    region: Region,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: u32,
    start_column: u32,
    end_line: u32,
    end_column: u32,
    snippet: Value,
}

fn message(words: &str) -> Value {
    json!({"text": words})
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Fault => "error",
        Severity::Warning => "warning",
        Severity::Note => "note",
    }
}

/// The program and its kinds of finding, which SARIF calls rules.
fn tool() -> Value {
    let rules: Vec<Value> = Kind::ALL
        .iter()
        .map(|kind| {
            json!({
                "id": kind.word(),
                "shortDescription": message(explain::line(*kind)),
                "help": {"text": explain::page(*kind), "markdown": explain::page(*kind)},
                "defaultConfiguration": {"level": level(kind.severity())},
            })
        })
        .collect();
    json!({"driver": {
        "name": env!("CARGO_PKG_NAME"),
        "version": env!("CARGO_PKG_VERSION"),
        "rules": rules,
    }})
}

fn result(ruleset: &Ruleset, finding: &Finding) -> ResultRecord {
    let mut locations = finding
        .labels
        .iter()
        .filter_map(|(span, said)| location(&ruleset.sources, *span, said));
    let first: Vec<Location> = locations.by_ref().take(1).collect();
    let accepted = story::accepted(ruleset, finding);
    let clauses: Vec<&str> = finding
        .clauses
        .iter()
        .map(|clause| ruleset[*clause].id.as_str())
        .collect();
    let repairs: Vec<String> = finding.repairs.iter().map(story::repair).collect();
    let incident = story::told(ruleset, finding).map(|story| story.sentences);
    ResultRecord {
        rule_id: finding.kind.word(),
        rule_index: Kind::ALL
            .iter()
            .position(|kind| *kind == finding.kind)
            .unwrap_or(0),
        level: level(finding.severity),
        message: message(&match &finding.help {
            Some(help) => format!("{}. {help}", finding.headline),
            None => format!("{}.", finding.headline),
        }),
        locations: first,
        related_locations: locations.collect(),
        suppressions: accepted
            .iter()
            .map(|because| {
                json!({"kind": "external", "status": "accepted", "justification": because})
            })
            .collect(),
        properties: json!({
            "clauses": clauses,
            "dimension": finding.dimension.map(|id| ruleset[id].name.as_str()),
            "incident": incident,
            "when": finding.general.lines,
            "repairs": repairs,
        }),
    }
}

fn notification(sources: &Sources, problem: &Problem) -> Notification {
    let help = problem.help.as_ref();
    let words = help.map_or_else(
        || problem.headline.clone(),
        |help| format!("{}. {}", problem.headline, super::text_capital(help)),
    );
    Notification {
        level: match problem.gravity {
            Gravity::Error => "error",
            Gravity::Warning => "warning",
        },
        message: message(&words),
        locations: location(sources, problem.span, &problem.label)
            .into_iter()
            .collect(),
    }
}

/// The place of a span; `None` where it is of no file.
fn location(sources: &Sources, span: Span, said: &str) -> Option<Location> {
    let source = sources.get(span.source)?;
    let Position { line, column } = source.position(span.start);
    let end = source.position(span.end);
    Some(Location {
        physical_location: PhysicalLocation {
            artifact_location: ArtifactLocation {
                uri: uri(source.name()),
            },
            region: Region {
                start_line: line.0.get(),
                start_column: column.0.get(),
                end_line: end.line.0.get(),
                end_column: end.column.0.get(),
                snippet: message(sources.slice(span)),
            },
        },
        message: (!said.is_empty()).then(|| message(said)),
    })
}

fn artifacts(sources: &Sources) -> Vec<Artifact> {
    let names = sources.ids().filter_map(|id| sources.get(id));
    names
        .map(|source| Artifact {
            location: ArtifactLocation {
                uri: uri(source.name()),
            },
        })
        .collect()
}

/// A file's name as a reference by RFC 3986: what has a meaning there is written as its bytes.
fn uri(name: &str) -> String {
    let mut out = String::new();
    if name.starts_with('/') {
        out.push_str("file://");
    }
    for byte in name.bytes() {
        match byte {
            b'\\' if cfg!(windows) => out.push('/'),
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                out.push(char::from(byte));
            }
            _ => {
                let digits = b"0123456789ABCDEF";
                let digit = |at: u8| digits.get(usize::from(at)).copied().unwrap_or(b'0');
                out.push('%');
                out.push(char::from(digit(byte >> 4)));
                out.push(char::from(digit(byte & 15)));
            }
        }
    }
    out
}
