//! One finding: its headline, the underlined words, an incident that shows it, what to do.

use super::excerpt::{Mark, excerpt};
use super::look::{Detail, Tone};
use super::page::Page;
use super::telling;
use crate::analysis::{Cover, Finding};
use crate::labels;
use crate::logic::Count;
use crate::model::{Ruleset, Severity};
use crate::report::condition::{Factored, factored};
use crate::report::{explain, story, words};

/// Lines of a general condition that are shown unless everything is asked for.
const MOST_LINES: usize = 8;

/// How far the parts of a finding stand in from its number.
const INDENT: usize = 3;

pub(super) fn tone(severity: Severity) -> Tone {
    match severity {
        Severity::Fault => Tone::Fault,
        Severity::Warning => Tone::Warning,
        Severity::Note => Tone::Note,
    }
}

/// Writes a finding under its number.
pub(super) fn write(
    page: &mut Page<'_>,
    ruleset: &Ruleset,
    space: Option<&Count>,
    number: usize,
    finding: &Finding,
) {
    headline(page, number, finding);
    let marks: Vec<Mark<'_>> = finding
        .labels
        .iter()
        .enumerate()
        .map(|(index, (span, label))| Mark {
            span: *span,
            label,
            tone: if index == 0 {
                tone(finding.severity)
            } else {
                Tone::Note
            },
        })
        .collect();
    let drawn = excerpt(&ruleset.sources, &marks, page.look);
    page.raw(&drawn);
    page.gap();
    telling::scenario(page, ruleset, finding, INDENT);
    general(page, finding);
    if let Some(share) = &finding.share {
        let words = words::share(share, space);
        page.row(INDENT, "How often", &words, Tone::Plain);
    }
    rulings(page, ruleset, finding);
    repairs(page, finding);
    if let Some(help) = &finding.help {
        page.row(INDENT, "What to do", help, Tone::Plain);
    }
    accepted(page, ruleset, finding);
    let kind = format!("{}: {}", finding.kind, explain::phrase(finding.kind));
    page.row(INDENT, "Kind", &kind, Tone::Quiet);
    page.gap();
}

/// Writes what would mend a finding, with what else that changes.
fn repairs(page: &mut Page<'_>, finding: &Finding) {
    if finding.repairs.is_empty() {
        return;
    }
    let tried = match finding.repairs.len() {
        1 => "tried on a copy: it is gone, and no fault is new",
        _ => "each tried on a copy: it is gone, and no fault is new",
    };
    let title = format!("What would mend it ({tried}):");
    page.paragraph(INDENT, &title, Tone::Strong);
    for repair in &finding.repairs {
        page.hanging(
            INDENT,
            "- ",
            Tone::Quiet,
            &story::repair(repair),
            Tone::Good,
        );
    }
}

/// Writes an accepted finding: what it is and why it is accepted.
pub(super) fn write_accepted(
    page: &mut Page<'_>,
    ruleset: &Ruleset,
    space: Option<&Count>,
    number: usize,
    finding: &Finding,
) {
    headline(page, number, finding);
    accepted(page, ruleset, finding);
    if let Some(share) = &finding.share {
        let words = words::share(share, space);
        page.row(INDENT, "How often", &words, Tone::Plain);
    }
    page.gap();
}

fn accepted(page: &mut Page<'_>, ruleset: &Ruleset, finding: &Finding) {
    let entry = finding
        .accepted
        .and_then(|index| ruleset.accepted.get(index));
    if let Some(entry) = entry {
        let because = entry.because.as_ref();
        let because = because.map(|text| text.in_language(&ruleset.language).to_owned());
        let because = because.unwrap_or_else(|| "no reason is given".to_owned());
        page.row(INDENT, "Accepted", &because, Tone::Good);
    }
}

/// The finding's number and its headline alone.
pub(super) fn headline(page: &mut Page<'_>, number: usize, finding: &Finding) {
    let mark = format!("{number}. ");
    page.hanging(
        0,
        &mark,
        tone(finding.severity),
        &finding.headline,
        Tone::Strong,
    );
}

fn general(page: &mut Page<'_>, finding: &Finding) {
    let Factored { common, each } = factored(&finding.general.lines);
    if each.is_empty() {
        return;
    }
    let most = match page.look.detail {
        Detail::Whole => each.len(),
        Detail::Headlines | Detail::Digest => MOST_LINES,
    };
    let mut lines: Vec<(String, Tone)> = Vec::new();
    if !common.is_empty() {
        lines.push((format!("{common}, and besides"), Tone::Plain));
    }
    let more = each.len().saturating_sub(most);
    for (index, line) in each.iter().take(most).enumerate() {
        let or = if index == 0 { "" } else { "or " };
        lines.push((format!("{or}{line}"), Tone::Plain));
    }
    match more {
        0 => {}
        1 => lines.push(("or one more condition".to_owned(), Tone::Quiet)),
        more => lines.push((format!("or one of {more} more conditions"), Tone::Quiet)),
    }
    if finding.general.cover == Cover::Partial {
        let words = "and elsewhere: these conditions are only a part of it";
        lines.push((words.to_owned(), Tone::Quiet));
    }
    page.row_lines(INDENT, "Whenever", &lines);
}

fn rulings(page: &mut Page<'_>, ruleset: &Ruleset, finding: &Finding) {
    let Some(dimension) = finding.dimension else {
        return;
    };
    let lines: Vec<(String, Tone)> = finding
        .rulings
        .iter()
        .map(|(clause, values)| {
            let values = words::or_list(&words::ruling(ruleset, dimension, *values));
            let clause = labels::clause(ruleset, *clause);
            (format!("{clause}: {values}"), Tone::Plain)
        })
        .collect();
    if !lines.is_empty() {
        page.row_lines(INDENT, "Clauses rule", &lines);
    }
}
