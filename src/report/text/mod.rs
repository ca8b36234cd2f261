//! The report that people read: a header, findings with underlined source, what was checked.
//!
//! Only this folder draws with miette. It decides what is shown and in which order, and refuses to
//! know whether there is a terminal.

mod closing;
mod condition;
mod excerpt;
mod finding;
mod look;
mod page;
mod problem;
mod telling;

pub use look::{Colours, Detail, Drawing, Look};
pub use problem::problems;

use crate::analysis::{Checked, Finding};
use crate::model::{Kind, Ruleset, Severity};
use crate::problem::Problem;
use crate::report::words;
use look::Tone;
use page::{Page, clean};
use std::collections::BTreeMap;

/// The report of a check: `warnings` are what reading the ruleset had to say.
pub fn checked(ruleset: &Ruleset, warnings: &[Problem], checked: &Checked, look: &Look) -> String {
    let mut page = Page::new(look);
    if look.detail == Detail::Headlines {
        headlines(&mut page, checked);
        return page.finish();
    }
    header(&mut page, ruleset, checked);
    let mut numbered = Numbered {
        ruleset,
        checked,
        next: 1,
    };
    for severity in [Severity::Fault, Severity::Warning, Severity::Note] {
        let of: Vec<&Finding> = checked
            .findings
            .iter()
            .filter(|finding| finding.severity == severity && finding.accepted.is_none())
            .collect();
        if !of.is_empty() {
            let title = page::capital(&words::counted(of.len(), &severity.to_string()));
            page.heading(&title, finding::tone(severity));
            numbered.write(&mut page, &of);
        }
    }
    let accepted: Vec<&Finding> = checked
        .findings
        .iter()
        .filter(|finding| finding.accepted.is_some())
        .collect();
    if !accepted.is_empty() {
        page.heading("Known and accepted", Tone::Good);
        numbered.write(&mut page, &accepted);
    }
    let idle = super::idle_accepted(ruleset, checked);
    if !warnings.is_empty() || !idle.is_empty() {
        page.heading("About the file", Tone::Warning);
        problem::list(&mut page, &ruleset.sources, warnings.iter().chain(&idle));
    }
    closing::write(&mut page, ruleset, checked);
    page.finish()
}

fn header(page: &mut Page<'_>, ruleset: &Ruleset, checked: &Checked) {
    let edition = if ruleset.edition.is_empty() {
        String::new()
    } else {
        format!(", edition {}", ruleset.edition)
    };
    page.paragraph(0, &format!("{}{edition}", ruleset.title), Tone::Strong);
    let clauses = words::counted(ruleset.clauses.len(), "clause");
    let file = super::file(ruleset);
    let space = closing::space(checked.space.as_ref());
    page.paragraph(0, &format!("{file}: {clauses}, {space}"), Tone::Quiet);
}

/// The headlines of faults and the summary.
fn headlines(page: &mut Page<'_>, checked: &Checked) {
    closing::headlines(page, checked, usize::MAX);
    let (summary, tone) = closing::Tally::new(checked).summary();
    page.paragraph(0, &summary, tone);
}

/// Findings under numbers that run through the whole report.
struct Numbered<'a> {
    ruleset: &'a Ruleset,
    checked: &'a Checked,
    next: usize,
}

impl Numbered<'_> {
    /// Writes findings; where there are many of a kind, the first in full, the next as headlines,
    /// and the rest as a number.
    fn write(&mut self, page: &mut Page<'_>, findings: &[&Finding]) {
        let everything = page.look.detail == Detail::Whole;
        let mut seen: BTreeMap<Kind, usize> = BTreeMap::new();
        let total = |kind| {
            findings
                .iter()
                .filter(|finding| finding.kind == kind)
                .count()
        };
        for finding in findings {
            let before = *seen
                .entry(finding.kind)
                .and_modify(|number| *number += 1)
                .or_insert(0);
            let (in_full, as_headlines) = limits(finding.severity);
            let all = total(finding.kind);
            let whole = everything || all <= in_full + FEW_MORE;
            let number = self.next;
            self.next += 1;
            let space = self.checked.space.as_ref();
            if finding.accepted.is_some() && !everything {
                finding::write_accepted(page, self.ruleset, space, number, finding);
                continue;
            }
            if whole || before < in_full {
                finding::write(page, self.ruleset, space, number, finding);
            } else if before < in_full + as_headlines {
                if before == in_full {
                    page.gap();
                }
                finding::headline(page, number, finding);
            }
            if !whole && before + 1 == all {
                self.more(
                    page,
                    finding.kind,
                    all.saturating_sub(in_full + as_headlines),
                );
            }
        }
    }

    /// Says how to see what was cut short.
    fn more(&self, page: &mut Page<'_>, kind: Kind, left: usize) {
        page.gap();
        let every = closing::plural(kind);
        let words = if left > 0 {
            format!("and {left} more. To see all {every} in full:")
        } else {
            format!("To see all {every} in full:")
        };
        page.paragraph(3, &words, Tone::Quiet);
        let command = format!(
            "   evenhand check --only {kind} {}",
            clean(super::file(self.ruleset))
        );
        page.raw(&page.look.paint(&command, Tone::Quiet));
        page.gap();
    }
}

/// So many more than are shown in full are not worth cutting short.
const FEW_MORE: usize = 2;

/// How many of a kind are shown in full, and how many more as headlines.
fn limits(severity: Severity) -> (usize, usize) {
    match severity {
        Severity::Fault => (12, 60),
        Severity::Warning => (5, 15),
        Severity::Note => (3, 5),
    }
}
