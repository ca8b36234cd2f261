//! Words that several kinds of finding share.

use super::finding::{Finding, General};
use super::inquiry::Description;
use crate::model::{ClauseId, DimensionId, Kind, Ruleset, ValueSet};
use crate::source::Span;

/// Names in a row: `a`, `a and b`, `a, b and c`.
pub(crate) fn and_list<S: AsRef<str>>(names: &[S]) -> String {
    joined(names, "and")
}

/// Names to choose from: `a`, `a or b`, `a, b or c`.
pub(crate) fn or_list<S: AsRef<str>>(names: &[S]) -> String {
    joined(names, "or")
}

fn joined<S: AsRef<str>>(names: &[S], word: &str) -> String {
    match names {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} {word} {}", first.join(", "), last.as_ref())
        }
    }
}

/// The same words with a capital letter.
pub(crate) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// The most letters of a file's words that are repeated.
const MOST_QUOTED: usize = 60;

/// Words of the file on one line, in quotes, if they are short and plain enough to be quoted.
pub(super) fn quoted(ruleset: &Ruleset, span: Span) -> Option<String> {
    let words = ruleset.sources.slice(span).trim_matches(['"', '\'']);
    let words: Vec<&str> = words.split_whitespace().collect();
    let words = words.join(" ");
    let plain = !words.contains(['[', ']', '{', '}', '"', '\'', ':', '#', '`']);
    let short = !words.is_empty() && words.chars().count() <= MOST_QUOTED;
    (plain && short && !words.starts_with('-')).then(|| format!("`{words}`"))
}

/// The ids of some clauses.
pub(super) fn ids(ruleset: &Ruleset, clauses: &[ClauseId]) -> Vec<String> {
    clauses
        .iter()
        .map(|clause| ruleset[*clause].id.clone())
        .collect()
}

/// `clause 7.1`, `clauses 7.1 and 9.2`.
pub(super) fn clauses(ruleset: &Ruleset, list: &[ClauseId]) -> String {
    let word = if list.len() == 1 { "clause" } else { "clauses" };
    format!("{word} {}", and_list(&ids(ruleset, list)))
}

/// The values of a ruling: `caution`, `caution or disqualification`.
pub(super) fn values(ruleset: &Ruleset, dimension: DimensionId, set: ValueSet) -> String {
    let names = &ruleset[dimension].values;
    let words: Vec<&str> = set
        .iter()
        .filter_map(|value| names.get(value))
        .map(|value| value.name.as_str())
        .collect();
    if words.is_empty() {
        "nothing".to_owned()
    } else {
        or_list(&words)
    }
}

/// A finding with nothing filled in but what every finding has.
pub(super) fn finding(
    kind: Kind,
    headline: String,
    span: Span,
    label: impl Into<String>,
) -> Finding {
    Finding {
        kind,
        severity: kind.severity(),
        headline,
        clauses: Vec::new(),
        dimension: None,
        rulings: Vec::new(),
        scenario: None,
        pair: None,
        general: General::default(),
        share: None,
        principle: None,
        attribute: None,
        term: None,
        repairs: Vec::new(),
        questions: Vec::new(),
        labels: vec![(span, label.into())],
        help: None,
        accepted: None,
    }
}

/// A scenario and its general conditions in the form in which findings are told, where nothing is
/// found fault with.
pub(crate) fn shown(scenario: &crate::logic::Scenario, general: &General) -> Finding {
    let mut shown = finding(Kind::Unused, String::new(), Span::default(), "");
    shown.scenario = Some(scenario.clone());
    shown.general = general.clone();
    shown
}

impl Finding {
    /// Fills in what a description knows.
    pub(super) fn described(mut self, description: Description) -> Finding {
        self.scenario = Some(description.scenario);
        self.general = description.general;
        self.share = description.share;
        self
    }

    /// Names the clauses it is about, the one it is said of first.
    pub(super) fn of_clauses(mut self, clauses: &[ClauseId]) -> Finding {
        self.clauses = clauses.to_vec();
        self
    }

    /// Says what to do.
    pub(super) fn help(mut self, words: impl Into<String>) -> Finding {
        self.help = Some(words.into());
        self
    }
}

/// Says which clauses of a finding are in force only because what would disapply them is itself
/// disapplied, in the finding's scenario.
pub(super) fn clauses_back(
    ruleset: &Ruleset,
    outcome: &crate::logic::Outcome,
    clauses: &[ClauseId],
) -> Option<String> {
    let sentences: Vec<String> = clauses
        .iter()
        .filter(|clause| outcome.in_force.contains(clause.index()))
        .flat_map(|clause| {
            let gone = ruleset[*clause].disapplied_by.iter();
            let gone = gone.filter(|other| {
                outcome.met.contains(other.index()) && !outcome.in_force.contains(other.index())
            });
            gone.filter_map(move |other| {
                let by = ruleset[*other].disapplied_by.iter();
                let by = by.copied().find(|top| outcome.in_force.contains(top.index()))?;
                Some(format!(
                    "It rests on {this} being back: {by} disapplies {other}, which would disapply {this}.",
                    this = ruleset[*clause].id,
                    by = ruleset[by].id,
                    other = ruleset[*other].id,
                ))
            })
        })
        .collect();
    (!sentences.is_empty()).then(|| sentences.join(" "))
}
