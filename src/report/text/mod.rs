//! The report that people read: a header, findings with underlined source, what was checked.
//!
//! It decides what is shown and in which order, and refuses to
//! know whether there is a terminal.

mod affected;
mod cases;
mod closing;
mod excerpt;
mod explain;
mod finding;
mod graph;
mod leaves;
mod look;
mod margin;
mod page;
mod problem;
mod proof;
mod protocol;
mod ruling;
mod telling;
mod vetted;
mod when;

pub use affected::affected;
pub use cases::cases;
pub use explain::{explained, kinds};
pub use graph::graph;
pub use look::{Colours, Detail, Drawing, Look};
pub use problem::{problems, warnings};
pub use proof::{rechecked, recorded};
pub(super) use protocol::opening as protocol_opening;
pub use protocol::{protocol, protocol_markdown};
pub use ruling::ruling;
pub use vetted::vetted;
pub use when::{Asked, when};

pub(super) use leaves::leaves;
pub(super) use page::{capital, hidden};

use crate::analysis::{Checked, Finding};
use crate::labels;
use crate::model::{Kind, Ruleset, Severity};
use crate::problem::Problem;
use crate::report::{tally, words};
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

/// A paragraph that stands below a report.
pub fn closing_words(words: &str, look: &Look) -> String {
    let mut page = Page::new(look);
    page.raw("\n");
    page.paragraph(0, words, Tone::Plain);
    page.finish()
}

/// Words for a terminal: what would move its cursor or change its colours taken out.
pub fn cleaned(words: &str) -> String {
    clean(words)
}

/// Words for a terminal, in lines of at most so many columns.
pub fn wrapped(words: &str, width: usize) -> Vec<String> {
    page::wrap(&clean(words), width)
}

/// The ruleset's title and edition, and what is laid over it.
fn title(page: &mut Page<'_>, ruleset: &Ruleset) {
    page.paragraph(0, &labels::ruleset(ruleset), Tone::Strong);
}

fn header(page: &mut Page<'_>, ruleset: &Ruleset, checked: &Checked) {
    title(page, ruleset);
    let clauses = words::counted(ruleset.clauses.len(), "clause");
    let file = super::file(ruleset);
    let space = tally::space(checked.space.as_ref());
    page.paragraph(0, &format!("{file}: {clauses}, {space}"), Tone::Quiet);
}

/// The headlines of faults and the summary; where some kinds were asked for by name and none of
/// them is at fault, the headlines of what was found.
fn headlines(page: &mut Page<'_>, checked: &Checked) {
    let tally = tally::Tally::new(checked);
    if tally.partial && tally.faults == 0 {
        let open = checked
            .findings
            .iter()
            .filter(|finding| finding.accepted.is_none());
        for (number, finding) in (1..).zip(open) {
            finding::headline(page, number, finding);
        }
    }
    closing::headlines(page, checked, usize::MAX);
    let (summary, standing) = tally.summary();
    page.paragraph(0, &summary, closing::tone(standing));
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
        let every = tally::plural(kind);
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::analysis::{Cover, General, Mend, Options, Outcome, Repair, Verdict, check};
    use crate::load::load;
    use crate::logic::{Code, Count, Scenario};
    use crate::model::AttributeId;
    use crate::solve::Reason;

    const RULES: &str = "\
ruleset: Small rules
attributes:
  force:
    label: force used
    scale: [light, full]
  belt:
    choice: {w: white, b: brown}
rulings:
  penalty:
    label: penalty to the attacker
    scale: {none: nothing, out: sent off}
    otherwise: none
clauses:
  - id: '1'
    when: belt is b
    ruling: {penalty: out}
";

    fn ruleset() -> Ruleset {
        load("small.yaml", RULES).unwrap().ruleset
    }

    fn scenario(force: u64, belt: u64) -> Scenario {
        let mut scenario = Scenario::unasked(2);
        scenario.set(AttributeId::new(0), Some(Code(force)));
        scenario.set(AttributeId::new(1), Some(Code(belt)));
        scenario
    }

    fn finding(ruleset: &Ruleset) -> Finding {
        Finding {
            kind: Kind::TurnsOnJudgement,
            severity: Severity::Warning,
            headline: "A headline".to_owned(),
            clauses: Vec::new(),
            dimension: None,
            rulings: Vec::new(),
            scenario: Some(scenario(0, 0)),
            pair: Some(scenario(0, 1)),
            general: General {
                lines: vec!["force is light and belt is w".to_owned()],
                cover: Cover::Partial,
            },
            share: None,
            principle: None,
            attribute: Some("belt".to_owned()),
            term: None,
            repairs: Vec::new(),
            questions: Vec::new(),
            labels: vec![(ruleset.attributes[1].span, "here".to_owned())],
            help: None,
            accepted: None,
        }
    }

    fn shown(ruleset: &Ruleset, what: &Checked) -> String {
        let look = Look {
            width: 80,
            colours: Colours::None,
            drawing: Drawing::Ascii,
            detail: Detail::Digest,
        };
        checked(ruleset, &[], what, &look)
    }

    /// A check of the small rules with this finding and nothing else.
    fn with(finding: Finding, ruleset: &Ruleset) -> Checked {
        let mut checked = check(ruleset, &Options::default());
        checked.findings = vec![finding];
        checked
    }

    #[test]
    fn a_pair_is_told_by_what_differs_and_how_it_is_ruled() {
        let ruleset = ruleset();
        let text = shown(&ruleset, &with(finding(&ruleset), &ruleset));
        for line in [
            "   One incident  force used: light",
            "                 belt: white",
            "   The other     belt: brown",
            "                 and all else as before",
            "   Ruled         penalty to the attacker: nothing; in the other: sent off",
            "   Whenever      force is light and belt is w",
            "                 and elsewhere: these conditions are only a part of it",
        ] {
            assert!(text.lines().any(|shown| shown == line), "{line}\n\n{text}");
        }
    }

    #[test]
    fn a_repair_says_what_else_it_changes() {
        let ruleset = ruleset();
        let mut one = finding(&ruleset);
        one.repairs.push(Repair {
            edit: "strike out 1".to_owned(),
            scenarios_changed: Some(Count {
                scenarios: 2u32.into(),
                exact: true,
            }),
            mend: Mend::default(),
        });
        let text = shown(&ruleset, &with(one, &ruleset));
        let mended = "   What would mend it (tried on a copy: it is gone, and no fault is new):\n   - strike out 1 (changes the ruling in 2 scenarios)\n";
        assert!(text.contains(mended), "{text}");
    }

    #[test]
    fn what_stayed_undecided_is_never_called_in_order() {
        let ruleset = ruleset();
        let mut open = check(&ruleset, &Options::default());
        open.findings.clear();
        let text = shown(&ruleset, &open);
        assert!(text.contains("The book is in order"), "{text}");
        open.verdicts.push(Verdict {
            kind: Kind::Gap,
            dimension: None,
            outcome: Outcome::Undecided(Reason::Time),
            principle: None,
            untold: false,
        });
        let text = shown(&ruleset, &open);
        assert!(!text.contains("The book is in order"), "{text}");
        assert!(
            text.contains("Undecided     gaps: the time given was used up"),
            "{text}"
        );
        let look = Look {
            width: 80,
            colours: Colours::None,
            drawing: Drawing::Ascii,
            detail: Detail::Headlines,
        };
        for (reason, settles) in [
            (Reason::Time, "; more time (--seconds) may settle it."),
            (Reason::Memory, "; more memory (--memory) may settle it."),
            (Reason::Interrupted, "; a run to the end may settle it."),
            (Reason::TooMany, "."),
        ] {
            if let Some(verdict) = open.verdicts.last_mut() {
                verdict.outcome = Outcome::Undecided(reason);
            }
            let quiet = checked(&ruleset, &[], &open, &look).replace('\n', " ");
            assert!(quiet.contains("not everything could be decided"), "{quiet}");
            let told = format!("1 question stayed undecided{settles}");
            assert!(quiet.contains(&told), "{told}: {quiet}");
        }
    }
}
