//! What was found out, for people and for programs: one file a format.
//!
//! A report is made from a ruleset and what a check found out about it. This layer chooses no
//! verdict and never sees a solver; it refuses to know where its output goes.

mod amended;
pub mod caution;
mod condition;
pub mod dot;
pub mod explain;
pub mod html;
pub mod json;
mod leaf;
pub mod markdown;
pub mod quiz;
pub mod redline;
mod reviewed;
pub mod sarif;
pub mod scenarios;
mod story;
pub mod table;
mod tally;
pub mod text;
mod turning;
mod verdict;
mod words;

use crate::analysis::Checked;
use crate::model::{Kind, Ruleset};
use crate::problem::Problem;
use crate::source::SourceId;

/// The same words with a capital letter.
fn text_capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Problems in the order of the file.
fn by_place(problems: &[Problem]) -> Vec<&Problem> {
    let mut sorted: Vec<&Problem> = problems.iter().collect();
    sorted.sort_by_key(|problem| (problem.span, problem.gravity));
    sorted
}

/// The name of the ruleset's own file.
fn file(ruleset: &Ruleset) -> &str {
    let own = ruleset.sources.get(SourceId::default());
    own.map_or("", |source| source.name())
}

/// Whether everything that was asked about a kind was decided.
fn settled(checked: &Checked, kind: Kind) -> bool {
    let mut of_kind = checked.verdicts.iter().filter(|it| it.kind == kind);
    !of_kind.any(|verdict| verdict.outcome.leaves_open())
}

/// Warnings for the entries of `accepted` that cover no finding, where that is certain.
fn idle_accepted(ruleset: &Ruleset, checked: &Checked) -> Vec<Problem> {
    let entries = checked
        .idle_accepted
        .iter()
        .filter_map(|index| ruleset.accepted.get(*index))
        .filter(|entry| settled(checked, entry.finding));
    entries
        .map(|entry| {
            Problem::warning(
                entry.span,
                format!("An accepted {} is not there any more", entry.finding),
                "this entry fits no finding",
            )
            .help("Take the entry out, or correct what it names.")
        })
        .collect()
}
