//! What a check comes to: in numbers, in a sentence or two, and kind by kind.

use super::words;
use crate::analysis::{Checked, KINDS, Outcome, Verdict};
use crate::logic::Count;
use crate::model::{Kind, Ruleset, Severity};
use crate::solve::Reason;

/// What a check comes to, in numbers.
pub(super) struct Tally {
    pub(super) faults: usize,
    pub(super) warnings: usize,
    pub(super) notes: usize,
    pub(super) accepted: usize,
    accepted_faults: usize,
    pub(super) undecided: usize,
    /// What may settle what stayed undecided.
    settled_by: Vec<String>,
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
        let undecided: Vec<&Reason> = checked
            .verdicts
            .iter()
            .filter_map(|verdict| match &verdict.outcome {
                Outcome::Undecided(reason) => Some(reason),
                _ => None,
            })
            .collect();
        let settled_by = [
            (Reason::Time, "more time (--seconds)"),
            (Reason::Memory, "more memory (--memory)"),
            (Reason::Interrupted, "a run to the end"),
        ];
        let settled_by = settled_by
            .into_iter()
            .filter(|(reason, _)| undecided.contains(&reason))
            .map(|(_, words)| words.to_owned())
            .collect();
        Tally {
            faults: of(Severity::Fault),
            warnings: of(Severity::Warning),
            notes: of(Severity::Note),
            accepted: checked.findings.len() - open().count(),
            undecided: undecided.len(),
            settled_by,
            untold: checked
                .verdicts
                .iter()
                .filter(|verdict| verdict.untold)
                .count(),
            accepted_faults: accepted_faults.count(),
            partial: !KINDS.iter().all(asked),
        }
    }

    /// What stayed undecided, and what may settle it; begins with a blank.
    fn open(&self) -> String {
        let (number, them) = match self.undecided {
            0 => return String::new(),
            1 => ("1 question".to_owned(), "it"),
            more => (format!("{more} questions"), "them"),
        };
        let settles = match self.settled_by.as_slice() {
            [] => String::new(),
            by => format!("; {} may settle {them}", words::or_list(by)),
        };
        format!(" {number} stayed undecided{settles}.")
    }

    /// One or two sentences for somebody who reads nothing else.
    pub(super) fn summary(&self) -> (String, Standing) {
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
        let open = self.open();
        if self.faults > 0 {
            let mut counts = vec![words::counted(self.faults, "fault")];
            counts.extend(others);
            let counts = words::and_list(&counts);
            let words = format!("{counts}. Start with number 1.{accepted}{open}");
            return (words, Standing::AtFault);
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
            return (words, Standing::AtFault);
        }
        if self.undecided > 0 {
            let words = format!(
                "No fault was found, but not everything could be decided.{open}{look}{accepted}"
            );
            return (words, Standing::Open);
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
        (format!("{order}{look}{accepted}"), Standing::InOrder)
    }
}

/// Whether a book is in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Standing {
    /// No fault is left that is not accepted, and that is proved.
    InOrder,
    /// No fault was found, and not everything was decided.
    Open,
    /// There are faults.
    AtFault,
}

/// One line of what was checked: what came of some kinds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Part {
    /// What came of them: `Proved`, `Found` ...
    pub(super) label: &'static str,
    /// What holds for all lines, with a colon.
    pub(super) opening: Option<String>,
    /// What it came of.
    pub(super) lines: Vec<String>,
    /// Whether it says only what was not looked for.
    pub(super) aside: bool,
}

/// What was proved, found and left open, kind by kind.
pub(super) fn covered(ruleset: &Ruleset, checked: &Checked) -> Vec<Part> {
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
            Outcome::Proved => proved.push(format!("no {name}{on}")),
            Outcome::Found if *kind == Kind::Wording => {
                let words = format!("{name}: as told above, and only those that the lists know");
                looked_up.push(words);
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
                        lines.push(format!("{name}{on}"));
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
                looked_up.push(format!("{name}: {words}"));
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
                looked_up.push(words);
            }
            Outcome::Undecided(reason) => {
                open.push(format!("{name}{on}: {reason}"));
            }
        }
    }
    let over = checked.space.as_ref().map_or_else(
        || "over all scenarios:".to_owned(),
        |space| format!("over all {}:", words::scenarios(space)),
    );
    let every = "every one that there is, as told above:".to_owned();
    let rest = "some more, where a ruling that a clause reads is at fault itself:".to_owned();
    let said = |label, opening, lines| Part {
        label,
        opening,
        lines,
        aside: false,
    };
    let mut parts = vec![
        said("Proved", Some(over), proved),
        said("Found", Some(every), found),
        said("Looked up", None, looked_up),
        said("Not told", Some(rest), resting),
        said("Undecided", None, open),
    ];
    parts.retain(|part| !part.lines.is_empty());
    let asked = |kind: &Kind| checked.verdicts.iter().any(|verdict| verdict.kind == *kind);
    let left_out = KINDS.iter().filter(|kind| !asked(kind));
    let unknown = Kind::ALL.iter().filter(|kind| !KINDS.contains(kind));
    for (label, kinds, why) in [
        (
            "Left out",
            left_out.collect::<Vec<_>>(),
            "not looked for in this run",
        ),
        (
            "Not yet",
            unknown.collect(),
            "this version cannot look for them",
        ),
    ] {
        if !kinds.is_empty() {
            let names: Vec<&str> = kinds.iter().map(|kind| plural(**kind)).collect();
            parts.push(Part {
                label,
                opening: None,
                lines: vec![format!("{}: {why}", words::and_list(&names))],
                aside: true,
            });
        }
    }
    parts
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

/// How many scenarios there are, in the words of a heading.
pub(super) fn space(count: Option<&Count>) -> String {
    count.map_or_else(|| "scenarios not counted".to_owned(), words::scenarios)
}
