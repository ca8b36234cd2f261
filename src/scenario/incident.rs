//! One incident, from a scenario file, from the facts of a call, or from both.

use super::value;
use crate::load::Refused;
use crate::logic::Established;
use crate::model::{AttributeId, Ruleset, Text};
use crate::problem::{Gravity, Problem};
use crate::read;
use crate::source::{Source, Sources, Span};
use std::collections::BTreeMap;

/// How the source of facts is called that were typed in a call.
const CALL: &str = "the call";
/// What stands before each fact of a call.
const OPTION: &str = "--fact ";

/// What is known of one incident.
#[derive(Clone, Debug)]
pub struct Incident {
    /// What the writer calls it.
    pub name: Option<String>,
    /// What else the writer notes.
    pub note: Option<Text>,
    /// The facts.
    pub facts: Established,
    /// Where each fact is written.
    pub places: BTreeMap<AttributeId, Span>,
    /// The ruleset's files, then those that the facts stand in.
    pub sources: Sources,
}

impl Incident {
    /// An incident of which nothing is known.
    pub fn unknown(ruleset: &Ruleset) -> Self {
        Incident {
            name: None,
            note: None,
            facts: Established::nothing(ruleset.attributes.len()),
            places: BTreeMap::new(),
            sources: ruleset.sources.clone(),
        }
    }
}

/// Reads an incident: from a scenario file (its name and text), and from the facts of a call, each
/// `NAME=VALUE`. A fact of the call takes the place of one of the file, so that one can ask "and what
/// if".
///
/// # Errors
/// Every problem of the file and of the facts; where there is one, nothing is known.
pub fn incident(
    ruleset: &Ruleset,
    file: Option<(&str, &str)>,
    call: &[String],
) -> Result<Incident, Refused> {
    let mut incident = Incident::unknown(ruleset);
    let mut problems = Vec::new();
    if let Some((name, text)) = file {
        from_file(
            ruleset,
            &Source::new(name, text),
            &mut incident,
            &mut problems,
        );
    }
    if !call.is_empty() {
        from_call(ruleset, call, &mut incident, &mut problems);
    }
    let refused = problems
        .iter()
        .any(|problem| problem.gravity == Gravity::Error);
    if refused {
        return Err(Refused {
            sources: incident.sources,
            problems,
        });
    }
    Ok(incident)
}

fn from_file(
    ruleset: &Ruleset,
    source: &Source,
    incident: &mut Incident,
    problems: &mut Vec<Problem>,
) {
    let id = incident.sources.add(source.clone());
    let Some(draft) = read::scenario(source, id, problems) else {
        return;
    };
    incident.name = draft.name.map(|name| name.value);
    incident.note = draft.note.map(|note| Text {
        by_language: note
            .by_language
            .into_iter()
            .map(|(tag, words)| (tag, words.value))
            .collect(),
    });
    (incident.facts, incident.places) = value::facts(ruleset, &draft.facts, problems);
}

fn from_call(
    ruleset: &Ruleset,
    call: &[String],
    incident: &mut Incident,
    problems: &mut Vec<Problem>,
) {
    let lines: Vec<String> = call
        .iter()
        // A line end in a fact would shift the lines of those behind it.
        .map(|fact| format!("{OPTION}{}", fact.replace(['\n', '\r'], " ")))
        .collect();
    let id = incident.sources.add(Source::new(CALL, lines.join("\n")));
    let mut drafts = Vec::new();
    let mut at = 0usize;
    for line in &lines {
        let fact = line.get(OPTION.len()..).unwrap_or_default();
        drafts.extend(read::typed_fact(fact, at + OPTION.len(), id, problems));
        at += line.len() + 1;
    }
    let (facts, places) = value::facts(ruleset, &drafts, problems);
    for (attribute, code) in facts.facts() {
        incident.facts.set(attribute, Some(code));
    }
    incident.places.extend(places);
}
