//! What was checked, and what it comes to in a sentence or two.

use super::finding;
use super::look::Tone;
use super::page::Page;
use crate::analysis::{Checked, Finding, KINDS, Outcome, Verdict};
use crate::logic::Count;
use crate::model::{Kind, Ruleset, Severity};
use crate::report::caution::caution;
use crate::report::words;
use std::collections::BTreeSet;

/// What a check comes to, in numbers.
pub(super) struct Tally {
    pub(super) faults: usize,
    warnings: usize,
    notes: usize,
    accepted: usize,
    accepted_faults: usize,
    undecided: usize,
    /// Kinds and dimensions with faults that are not told, since they rest on other faults.
    untold: usize,
    /// Whether some kinds were not looked for.
    pub(super) partial: bool,
}

impl Tally {
    pub(super) fn new(checked: &Checked) -> Self {
        let open = || {
            checked
                .findings
                .iter()
                .filter(|finding| finding.accepted.is_none())
        };
        let of = |severity| {
            open()
                .filter(|finding| finding.severity == severity)
                .count()
        };
        let asked = |kind: &Kind| checked.verdicts.iter().any(|verdict| verdict.kind == *kind);
        let accepted_faults = checked
            .findings
            .iter()
            .filter(|finding| finding.accepted.is_some() && finding.severity == Severity::Fault);
        let undecided = checked
            .verdicts
            .iter()
            .filter(|verdict| matches!(verdict.outcome, Outcome::Undecided(_)));
        Tally {
            faults: of(Severity::Fault),
            warnings: of(Severity::Warning),
            notes: of(Severity::Note),
            accepted: checked.findings.len() - open().count(),
            undecided: undecided.count(),
            untold: checked
                .verdicts
                .iter()
                .filter(|verdict| verdict.untold)
                .count(),
            accepted_faults: accepted_faults.count(),
            partial: !KINDS.iter().all(asked),
        }
    }

    /// One or two sentences for somebody who reads nothing else.
    pub(super) fn summary(&self) -> (String, Tone) {
        let others: Vec<String> = [(self.warnings, "warning"), (self.notes, "note")]
            .into_iter()
            .filter(|(number, _)| *number > 0)
            .map(|(number, one)| words::counted(number, one))
            .collect();
        let accepted = match self.accepted {
            0 => String::new(),
            1 => " 1 finding is known and accepted.".to_owned(),
            more => format!(" {more} findings are known and accepted."),
        };
        let open = match self.undecided {
            0 => String::new(),
            1 => " 1 question stayed undecided; more time (--seconds) may settle it.".to_owned(),
            more => format!(
                " {more} questions stayed undecided; more time (--seconds) may settle them."
            ),
        };
        if self.faults > 0 {
            let mut counts = vec![words::counted(self.faults, "fault")];
            counts.extend(others);
            let counts = words::and_list(&counts);
            let words = format!("{counts}. Start with number 1.{accepted}{open}");
            return (words, Tone::Fault);
        }
        let look = if others.is_empty() {
            String::new()
        } else {
            format!(" {} may be worth a look.", words::and_list(&others))
        };
        if self.untold > 0 {
            let words = format!(
                "The book is not in order: there are faults that rest on others which are accepted or were not looked for (see \"Not told\").{open}{look}{accepted}"
            );
            return (words, Tone::Fault);
        }
        if self.undecided > 0 {
            let words = format!(
                "No fault was found, but not everything could be decided.{open}{look}{accepted}"
            );
            return (words, Tone::Warning);
        }
        let order = match (self.partial, self.accepted_faults) {
            (true, _) => "Nothing that was looked for is at fault; some kinds were not looked for.",
            (false, 0) => {
                "The book is in order: there is no fault of any kind that was looked for, and that is proved."
            }
            (false, _) => {
                "The book is in order but for what is accepted: there is no other fault of any kind that was looked for, and that is proved."
            }
        };
        (format!("{order}{look}{accepted}"), Tone::Good)
    }
}

/// Writes what was proved, found and left open, the summary, and the caution.
pub(super) fn write(page: &mut Page<'_>, ruleset: &Ruleset, checked: &Checked) {
    page.heading("What was checked", Tone::Strong);
    verdicts(page, ruleset, checked);
    let (summary, tone) = Tally::new(checked).summary();
    page.heading("Summary", Tone::Strong);
    page.paragraph(0, &summary, tone);
    page.gap();
    headlines(page, checked, MOST_HEADLINES);
    page.gap();
    mending(page, checked);
    read_on(page, checked);
    page.row(0, "Caution", &caution(ruleset).join(" "), Tone::Quiet);
}

/// Says of how many findings no repair was looked for.
fn mending(page: &mut Page<'_>, checked: &Checked) {
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
    let groups = grouped(&checked.verdicts);
    let mut proved = Vec::new();
    let mut found = Vec::new();
    let mut open = Vec::new();
    let mut looked_up = Vec::new();
    let mut resting = Vec::new();
    for (kind, outcome, verdicts) in &groups {
        let on = about(ruleset, verdicts);
        let name = plural(*kind);
        match outcome {
            Outcome::Proved => proved.push((format!("no {name}{on}"), Tone::Plain)),
            Outcome::Found if *kind == Kind::Wording => {
                let words = format!("{name}: as told above, and only those that the lists know");
                looked_up.push((words, Tone::Plain));
            }
            Outcome::Found => {
                let is_told = |verdict: &&&Verdict| {
                    let mut findings = checked.findings.iter();
                    findings.any(|it| it.kind == *kind && it.dimension == verdict.dimension)
                };
                let told: Vec<&Verdict> = verdicts
                    .iter()
                    .filter(|verdict| verdict.dimension.is_none() || is_told(verdict))
                    .copied()
                    .collect();
                let untold: Vec<&Verdict> = verdicts
                    .iter()
                    .filter(|verdict| verdict.untold)
                    .copied()
                    .collect();
                for (lines, verdicts) in [(&mut found, told), (&mut resting, untold)] {
                    if !verdicts.is_empty() {
                        let on = about(ruleset, &verdicts);
                        lines.push((format!("{name}{on}"), Tone::Plain));
                    }
                }
            }
            Outcome::NoneListed(languages) => {
                let words = match languages.as_slice() {
                    [] => "no clause has a text".to_owned(),
                    some => format!(
                        "none found by the list of {}, which proves nothing",
                        words::and_list(some)
                    ),
                };
                looked_up.push((format!("{name}: {words}"), Tone::Plain));
            }
            Outcome::NotLookedAt(tags) => {
                let tags: Vec<String> = tags
                    .iter()
                    .map(|tag| match tag.as_str() {
                        "" => "texts without a `language`".to_owned(),
                        tag => format!("texts in `{tag}`"),
                    })
                    .collect();
                let words = format!(
                    "{name}: {} were not looked at, for want of a list of words",
                    words::and_list(&tags)
                );
                looked_up.push((words, Tone::Plain));
            }
            Outcome::Undecided(reason) => {
                open.push((format!("{name}{on}: {reason}"), Tone::Plain));
            }
        }
    }
    let over = checked.space.as_ref().map_or_else(
        || "over all scenarios:".to_owned(),
        |space| format!("over all {}:", words::scenarios(space)),
    );
    if !proved.is_empty() {
        proved.insert(0, (over, Tone::Quiet));
        page.row_lines(0, "Proved", &proved);
    }
    if !found.is_empty() {
        let words = "every one that there is, as told above:".to_owned();
        found.insert(0, (words, Tone::Quiet));
        page.row_lines(0, "Found", &found);
    }
    if !looked_up.is_empty() {
        page.row_lines(0, "Looked up", &looked_up);
    }
    if !resting.is_empty() {
        let words = "some more, where a ruling that a clause reads is at fault itself:".to_owned();
        resting.insert(0, (words, Tone::Quiet));
        page.row_lines(0, "Not told", &resting);
    }
    if !open.is_empty() {
        page.row_lines(0, "Undecided", &open);
    }
    let asked = |kind: &Kind| checked.verdicts.iter().any(|verdict| verdict.kind == *kind);
    let left_out: Vec<&str> = KINDS
        .iter()
        .filter(|kind| !asked(kind))
        .map(|kind| plural(*kind))
        .collect();
    if !left_out.is_empty() {
        page.row(
            0,
            "Left out",
            &format!("{}: not looked for in this run", words::and_list(&left_out)),
            Tone::Quiet,
        );
    }
    let unknown: Vec<&str> = Kind::ALL
        .iter()
        .filter(|kind| !KINDS.contains(kind))
        .map(|kind| plural(*kind))
        .collect();
    if !unknown.is_empty() {
        let words = format!(
            "{}: this version cannot look for them",
            words::and_list(&unknown)
        );
        page.row(0, "Not yet", &words, Tone::Quiet);
    }
}

/// Verdicts of one kind with one outcome, together, in the order of the first of them.
fn grouped(verdicts: &[Verdict]) -> Vec<(Kind, &Outcome, Vec<&Verdict>)> {
    let mut groups: Vec<(Kind, &Outcome, Vec<&Verdict>)> = Vec::new();
    for verdict in verdicts {
        let same = groups
            .iter_mut()
            .find(|(kind, outcome, _)| *kind == verdict.kind && **outcome == verdict.outcome);
        match same {
            Some((_, _, list)) => list.push(verdict),
            None => groups.push((verdict.kind, &verdict.outcome, vec![verdict])),
        }
    }
    groups
}

/// On which dimensions, or of which principles, where a kind is asked of each.
fn about(ruleset: &Ruleset, verdicts: &[&Verdict]) -> String {
    let principles: Vec<&str> = verdicts
        .iter()
        .filter_map(|verdict| verdict.principle.as_deref())
        .collect();
    match principles.len() {
        0 => on_dimensions(ruleset, verdicts),
        all if all > 3 && all == ruleset.principles.len() => {
            format!(" among the {all} that are stated")
        }
        1 => format!(" ({})", words::and_list(&principles)),
        _ => format!(" among {}", words::and_list(&principles)),
    }
}

fn on_dimensions(ruleset: &Ruleset, verdicts: &[&Verdict]) -> String {
    let names: Vec<&str> = verdicts
        .iter()
        .filter_map(|verdict| verdict.dimension)
        .map(|id| ruleset[id].name.as_str())
        .collect();
    if names.is_empty() {
        String::new()
    } else if names.len() > 3 && names.len() == ruleset.dimensions.len() {
        format!(" on any of the {} dimensions", names.len())
    } else {
        format!(" on {}", words::and_list(&names))
    }
}

/// What several of a kind are called.
pub(super) fn plural(kind: Kind) -> &'static str {
    match kind {
        Kind::Contradiction => "contradictions",
        Kind::Gap => "gaps",
        Kind::Impossible => "clauses that can never be met",
        Kind::Displaced => "clauses that are always displaced",
        Kind::LooseTerm => "terms whose narrow reading reaches beyond the broad one",
        Kind::BrokenPrinciple => "broken principles",
        Kind::NoEffect => "clauses without effect",
        Kind::Presupposes => "clauses that presuppose what isn't asked",
        Kind::TurnsOnJudgement => "rulings that turn on an official's judgement",
        Kind::LeftToDiscretion => "rulings left to discretion",
        Kind::SurplusWords => "surplus words",
        Kind::IdleException => "idle exceptions",
        Kind::StepEdge => "thresholds that close only because of the step",
        Kind::Unused => "unused names",
        Kind::Wording => "vague or ambiguous words",
    }
}

/// How many scenarios there are, in the header's words.
pub(super) fn space(count: Option<&Count>) -> String {
    count.map_or_else(|| "scenarios not counted".to_owned(), words::scenarios)
}
