//! Findings as Markdown, to be pasted into minutes, a letter or a page of the committee's own.

use super::caution::caution;
use super::condition::factored;
use super::leaf::{self, Leaf};
use super::tally::{Tally, covered, space};
use super::{explain, story, text_capital, words};
use crate::analysis::{Checked, Cover, Finding};
use crate::labels;
use crate::model::{Ruleset, Severity};

/// The report of a check as Markdown.
pub fn checked(ruleset: &Ruleset, checked: &Checked) -> String {
    let (summary, _) = Tally::new(checked).summary();
    let clauses = words::counted(ruleset.clauses.len(), "clause");
    let mut page = vec![
        Leaf::Title(format!("{}: report", labels::ruleset(ruleset))),
        Leaf::Quiet(caution(ruleset).join(" ")),
        Leaf::Paragraph(format!(
            "{}: {clauses}, {}.",
            super::file(ruleset),
            space(checked.space.as_ref())
        )),
        Leaf::Paragraph(summary),
    ];
    let mut number = 0;
    let mut group = |title: &str, wanted: &dyn Fn(&Finding) -> bool| {
        let mut findings = checked
            .findings
            .iter()
            .filter(|finding| wanted(finding))
            .peekable();
        if findings.peek().is_some() {
            page.push(Leaf::Heading(title.to_owned()));
        }
        for finding in findings {
            number += 1;
            write(&mut page, ruleset, checked, number, finding);
        }
    };
    let open = |severity: Severity| {
        move |finding: &Finding| finding.severity == severity && finding.accepted.is_none()
    };
    group("Faults", &open(Severity::Fault));
    group("Warnings", &open(Severity::Warning));
    group("Notes", &open(Severity::Note));
    group("Known and accepted", &|finding| finding.accepted.is_some());
    page.push(Leaf::Heading("What was checked".to_owned()));
    for part in covered(ruleset, checked) {
        let opening = part.opening.unwrap_or_default();
        let lines = part.lines.join("; ");
        page.push(Leaf::Row(
            part.label.to_owned(),
            format!("{opening} {lines}").trim().to_owned(),
        ));
    }
    leaf::markdown(&page)
}

fn write(
    page: &mut Vec<Leaf>,
    ruleset: &Ruleset,
    checked: &Checked,
    number: usize,
    finding: &Finding,
) {
    page.push(Leaf::Entry(format!("{number}."), finding.headline.clone()));
    let mut row = |label: &str, words: String| page.push(Leaf::Row(label.to_owned(), words));
    for (span, said) in finding.labels.iter().take(MOST_PLACES) {
        let place = ruleset.sources.place(*span);
        let written = ruleset.sources.slice(*span).split_whitespace();
        let written = written.collect::<Vec<_>>().join(" ");
        let said = if said.is_empty() {
            String::new()
        } else {
            format!(": {said}")
        };
        row("Where", format!("{place}, “{written}”{said}"));
    }
    if let Some(because) = story::accepted(ruleset, finding) {
        row("Accepted", because);
    }
    if let Some(story) = story::told(ruleset, finding) {
        let ruled = |ruled: &[String]| match ruled {
            [] => String::new(),
            some => format!(" Ruled: {}.", some.join("; ")),
        };
        match &story.other {
            None => row(
                "For instance",
                format!("{}{}", story.sentences, ruled(&story.ruled)),
            ),
            Some((changes, other)) => {
                row(
                    "One incident",
                    format!("{}{}", story.sentences, ruled(&story.ruled)),
                );
                let changes = text_capital(&changes.join("; "));
                row(
                    "The other",
                    format!("{changes}; and all else as before.{}", ruled(other)),
                );
            }
        }
    }
    let general = factored(&finding.general.lines);
    if !general.each.is_empty() {
        let common = match general.common.as_str() {
            "" => String::new(),
            common => format!("{common}, and besides "),
        };
        let partial = match finding.general.cover {
            Cover::Partial => "; and elsewhere: these conditions are only a part of it",
            Cover::Exact | Cover::None => "",
        };
        row(
            "Whenever",
            format!("{common}{}{partial}", general.each.join("; or ")),
        );
    }
    if let Some(share) = &finding.share {
        row("How often", words::share(share, checked.space.as_ref()));
    }
    for repair in &finding.repairs {
        row("A repair", story::repair(repair));
    }
    if let Some(help) = &finding.help {
        row("What to do", help.clone());
    }
    let kind = format!("{}: {}", finding.kind, explain::phrase(finding.kind));
    row("Kind", kind);
}

/// The places that are named of one finding.
const MOST_PLACES: usize = 8;
