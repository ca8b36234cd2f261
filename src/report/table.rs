//! Findings as a table (CSV), a row each, to be sorted and shared out in a spreadsheet.

use super::caution::caution;
use super::story;
use crate::analysis::{Checked, Cover, Finding};
use crate::model::Ruleset;
use csv::Writer;
use std::error::Error;

/// The names of the columns.
const COLUMNS: [&str; 20] = [
    "number",
    "severity",
    "kind",
    "headline",
    "clauses",
    "dimension",
    "principle",
    "attribute",
    "term",
    "incident",
    "other",
    "when",
    "cover",
    "scenarios",
    "exact",
    "repairs",
    "help",
    "accepted",
    "place",
    "caution",
];

/// The findings of a check as a table, in the order of gravity.
///
/// # Errors
/// None that can happen: nothing is written to a file here.
pub fn checked(ruleset: &Ruleset, checked: &Checked) -> Result<String, Box<dyn Error>> {
    let mut writer = Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    // In the order, and so under the numbers, of the other reports: what is accepted comes last.
    let (accepted, open): (Vec<_>, Vec<_>) = checked
        .findings
        .iter()
        .partition(|finding| finding.accepted.is_some());
    for (index, finding) in open.into_iter().chain(accepted).enumerate() {
        let cells = cells(ruleset, index + 1, finding);
        writer.write_record(cells.map(|cell| harmless(&cell)))?;
    }
    let bytes = writer.into_inner()?;
    Ok(String::from_utf8(bytes)?)
}

fn cells(ruleset: &Ruleset, number: usize, finding: &Finding) -> [String; 20] {
    let story = story::told(ruleset, finding);
    let other = story.as_ref().and_then(|story| story.other.as_ref());
    let clauses = finding.clauses.iter();
    let clauses: Vec<&str> = clauses.map(|id| ruleset[*id].id.as_str()).collect();
    let share = finding.share.as_ref();
    let repairs: Vec<String> = finding.repairs.iter().map(story::repair).collect();
    let place = finding.labels.first();
    let named = |name: &Option<String>| name.clone().unwrap_or_default();
    [
        number.to_string(),
        finding.severity.to_string(),
        finding.kind.to_string(),
        finding.headline.clone(),
        clauses.join(" | "),
        finding
            .dimension
            .map_or_else(String::new, |id| ruleset[id].name.clone()),
        named(&finding.principle),
        named(&finding.attribute),
        named(&finding.term),
        story
            .as_ref()
            .map_or_else(String::new, |story| story.sentences.clone()),
        other.map_or_else(String::new, |(changes, _)| changes.join("; ")),
        finding.general.lines.join("; or "),
        match finding.general.cover {
            Cover::Exact => "exact",
            Cover::Partial => "partial",
            Cover::None => "none",
        }
        .to_owned(),
        share.map_or_else(String::new, |share| share.scenarios.to_string()),
        share
            .map_or("", |share| if share.exact { "yes" } else { "no" })
            .to_owned(),
        repairs.join(" | "),
        named(&finding.help),
        story::accepted(ruleset, finding).unwrap_or_default(),
        place.map_or_else(String::new, |(span, _)| {
            ruleset.sources.place(*span).to_string()
        }),
        // A row may be sorted away from all others.
        story
            .as_ref()
            .map_or_else(String::new, |_| caution(ruleset).join(" ")),
    ]
}

/// A cell that no spreadsheet takes for a formula: one that begins as formulas do gets an apostrophe
/// before it, which spreadsheets take for "this is text" (common practice, no source).
pub(super) fn harmless(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠']) {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_cell_is_a_formula() {
        for cell in ["=1+1", "+1", "-1", "@A1", "\t=1", "＝1"] {
            assert_eq!(harmless(cell), format!("'{cell}"));
        }
        assert_eq!(harmless("1 = 1"), "1 = 1");
    }
}
