//! What was recorded, and what became of a record, for people.

use super::look::{Look, Tone};
use super::page::Page;
use crate::model::Ruleset;
use crate::proof::prove::Recorded;
use crate::proof::recheck::Report;
use crate::proof::{ClaimVerdict, Method, NotRecorded};
use crate::report::words::{self, counted};

/// What was written into a folder.
pub fn recorded(ruleset: &Ruleset, recorded: &Recorded, folder: &str, look: &Look) -> String {
    let mut page = Page::new(look);
    let claims = &recorded.manifest.claims;
    let size: usize = recorded.files.values().map(String::len).sum();
    page.paragraph(0, &ruleset.title, Tone::Strong);
    page.paragraph(
        0,
        &format!(
            "{folder}: {} in {}, {} KiB",
            counted(claims.len(), "claim"),
            counted(recorded.files.len(), "file"),
            size.div_ceil(1024)
        ),
        Tone::Quiet,
    );
    page.gap();
    for claim in claims {
        let (bullet, tone) = match claim.verdict {
            ClaimVerdict::Proved => ("proved  ", Tone::Good),
            ClaimVerdict::Found => ("found   ", Tone::Plain),
        };
        let trusted = claim
            .none
            .iter()
            .any(|it| matches!(it.by, Method::Solvers { .. }));
        let says = if trusted {
            format!("{} (on the word of solvers)", claim.says)
        } else {
            claim.says.clone()
        };
        page.hanging(0, bullet, tone, &says, Tone::Plain);
    }
    without_record(&mut page, &recorded.manifest.not_recorded);
    page.gap();
    for open in &recorded.open {
        page.hanging(0, "open    ", Tone::Warning, open, Tone::Plain);
    }
    let end = format!("Whoever doubts it types:  evenhand recheck {folder}");
    page.paragraph(0, &end, Tone::Plain);
    page.finish()
}

/// What became of a record.
pub fn rechecked(ruleset: &Ruleset, report: &Report, look: &Look) -> String {
    let mut page = Page::new(look);
    page.paragraph(0, &ruleset.title, Tone::Strong);
    page.gap();
    for held in &report.holds {
        let mut rests = Vec::new();
        if held.refuted > 0 {
            rests.push(format!("{} replayed", counted(held.refuted, "refutation")));
        }
        if held.shown > 0 {
            rests.push(format!("{} replayed", counted(held.shown, "scenario")));
        }
        if held.by_form > 0 {
            rests.push("the form of the ruleset leaves no room for one".to_owned());
        }
        if held.trusted > 0 {
            rests.push("on the word of solvers".to_owned());
        }
        let words = if rests.is_empty() {
            held.says.clone()
        } else {
            format!("{} ({})", held.says, rests.join(", "))
        };
        page.hanging(0, "holds   ", Tone::Good, &words, Tone::Plain);
    }
    for refusal in &report.refused {
        let words = format!("{}: {}", refusal.place, refusal.why);
        page.hanging(0, "refused ", Tone::Fault, &words, Tone::Plain);
    }
    for trusted in &report.trusted {
        let words = format!("Not checked here, {trusted}");
        page.hanging(0, "trusted ", Tone::Warning, &words, Tone::Plain);
    }
    without_record(&mut page, &report.not_recorded);
    page.gap();
    let (summary, tone) = match (report.refused.len(), report.trusted.len()) {
        (0, 0) => ("Everything that is recorded holds.".to_owned(), Tone::Good),
        (0, trusted) => (
            format!(
                "Nothing is refused; {} had to be taken on the word of solvers.",
                counted(trusted, "answer")
            ),
            Tone::Warning,
        ),
        (refused, _) => (
            format!("The record does not hold: {}.", counted(refused, "refusal")),
            Tone::Fault,
        ),
    };
    page.paragraph(0, &summary, tone);
    page.gap();
    page.paragraph(
        0,
        "To be taken on trust besides: that the ruleset file says what the rules say; the reader of the \
         file; the rules by which its clauses are made again; the checker of refutations; the evaluator of \
         scenarios. No solver. docs/proofs.md tells more.",
        Tone::Quiet,
    );
    page.finish()
}

fn without_record(page: &mut Page<'_>, verdicts: &[NotRecorded]) {
    if verdicts.is_empty() {
        return;
    }
    let named: Vec<String> = verdicts
        .iter()
        .map(|verdict| {
            let about = match (&verdict.dimension, &verdict.principle) {
                (Some(on), _) => format!(" on {on}"),
                (None, Some(principle)) => format!(" {principle}"),
                (None, None) => String::new(),
            };
            format!("{}{about} ({})", verdict.kind, verdict.verdict)
        })
        .collect();
    let named: Vec<&str> = named.iter().map(String::as_str).collect();
    let words = format!("Not recorded: {}.", words::and_list(&named));
    page.hanging(0, "        ", Tone::Plain, &words, Tone::Quiet);
}
