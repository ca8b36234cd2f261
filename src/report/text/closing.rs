//! What was checked, and what it comes to in a sentence or two.

use super::finding;
use super::look::Tone;
use super::page::Page;
use crate::analysis::{Checked, Finding};
use crate::model::{Kind, Ruleset, Severity};
use crate::report::caution::caution;
use crate::report::tally::{Standing, Tally, covered};
use crate::report::words;
use std::collections::BTreeSet;

/// Writes what was proved, found and left open, the summary, and the caution.
pub(super) fn write(page: &mut Page<'_>, ruleset: &Ruleset, checked: &Checked) {
    page.heading("What was checked", Tone::Strong);
    verdicts(page, ruleset, checked);
    let (summary, standing) = Tally::new(checked).summary();
    page.heading("Summary", Tone::Strong);
    page.paragraph(0, &summary, tone(standing));
    page.gap();
    headlines(page, checked, MOST_HEADLINES);
    page.gap();
    mending(page, checked);
    read_on(page, checked);
    page.row(0, "Caution", &caution(ruleset).join(" "), Tone::Quiet);
}

/// Says how to look for repairs, or of how many findings none was looked for.
fn mending(page: &mut Page<'_>, checked: &Checked) {
    if checked.mendable > 0 {
        let words = format!(
            "evenhand check RULESET --repairs FILE tries what would mend {} and writes it as a draft amendment",
            words::counted(checked.mendable, "finding")
        );
        page.row(0, "Mend", &words, Tone::Quiet);
        page.gap();
    }
    if checked.repairs_left > 0 {
        let words = format!(
            "of {} no repair was looked for: mend the first ones, and check again",
            words::counted(checked.repairs_left, "further finding")
        );
        page.row(0, "Repairs", &words, Tone::Quiet);
        page.gap();
    }
}

/// Says where the kinds that were found are explained.
fn read_on(page: &mut Page<'_>, checked: &Checked) {
    let open = checked
        .findings
        .iter()
        .filter(|finding| finding.accepted.is_none());
    let found: BTreeSet<Kind> = open.map(|finding| finding.kind).collect();
    let names: Vec<&str> = found.iter().map(|kind| kind.word()).collect();
    let words = match names.as_slice() {
        [] => return,
        [one] => format!("evenhand explain {one}"),
        several => format!(
            "evenhand explain KIND, for each kind of finding: {}",
            words::and_list(several)
        ),
    };
    page.row(0, "Read on", &words, Tone::Quiet);
    page.gap();
}

/// The headlines of faults that the summary repeats.
const MOST_HEADLINES: usize = 20;

/// Writes the headlines of the faults, `most` of them.
pub(super) fn headlines(page: &mut Page<'_>, checked: &Checked, most: usize) {
    let faults: Vec<&Finding> = checked
        .findings
        .iter()
        .filter(|finding| finding.accepted.is_none() && finding.severity == Severity::Fault)
        .collect();
    for (index, fault) in faults.iter().take(most).enumerate() {
        finding::headline(page, index + 1, fault);
    }
    if faults.len() > most {
        page.paragraph(3, &format!("and {} more", faults.len() - most), Tone::Quiet);
    }
}

fn verdicts(page: &mut Page<'_>, ruleset: &Ruleset, checked: &Checked) {
    for part in covered(ruleset, checked) {
        let tone = if part.aside { Tone::Quiet } else { Tone::Plain };
        let opening = part.opening.into_iter().map(|words| (words, Tone::Quiet));
        let lines = part.lines.into_iter().map(|words| (words, tone));
        let all: Vec<(String, Tone)> = opening.chain(lines).collect();
        page.row_lines(0, part.label, &all);
    }
}

/// The colour of a summary.
pub(super) fn tone(standing: Standing) -> Tone {
    match standing {
        Standing::InOrder => Tone::Good,
        Standing::Open => Tone::Warning,
        Standing::AtFault => Tone::Fault,
    }
}
