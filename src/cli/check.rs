//! `check`: every finding of a ruleset, and what was proved free of them.

use super::arguments::{Check, Format};
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::terminal::{self, ProgressLine};
use super::{Ending, Failure};
use crate::analysis::{self, Checked, Outcome};
use crate::model::Severity;
use crate::report::text::Detail;
use crate::report::{json, text};

pub(super) fn run(options: &Check) -> Result<Ending, Failure> {
    let delivery = Delivery {
        written: &options.written,
        format: options.format,
        detail: detail(options),
        inputs: options.rules.files(),
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let ruleset = &loaded.ruleset;
    let progress = ProgressLine::new(options.quiet);
    let budget = terminal::budget(&options.limits);
    if let Some(problem) = analysis::no_scenario(ruleset, &budget) {
        progress.finish();
        return delivery.problems(&ruleset.sources, vec![problem]);
    }
    let checked = analysis::check(
        ruleset,
        &analysis::Options {
            kinds: options.only.clone(),
            jobs: options.threads.number(),
            budget,
            progress: &progress,
            ..analysis::Options::default()
        },
    );
    progress.finish();
    let report = match options.format {
        Format::Text => text::checked(ruleset, &loaded.warnings, &checked, &delivery.look()),
        Format::Json => json::checked(ruleset, &loaded.warnings, &checked).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(ending(&checked))
}

fn detail(options: &Check) -> Detail {
    if options.quiet {
        Detail::Headlines
    } else if options.only.is_empty() {
        Detail::Digest
    } else {
        Detail::Whole
    }
}

fn ending(checked: &Checked) -> Ending {
    let fault = checked
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Fault && finding.accepted.is_none());
    // What rests on an accepted fault, or on one that was not looked for, is a fault all the same.
    let untold = checked
        .verdicts
        .iter()
        .any(|verdict| verdict.untold && verdict.kind.severity() == Severity::Fault);
    let open = checked
        .verdicts
        .iter()
        .any(|verdict| matches!(verdict.outcome, Outcome::Undecided(_)));
    match (fault || untold, open) {
        (true, _) => Ending::Faults,
        (false, true) => Ending::Undecided,
        (false, false) => Ending::InOrder,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::analysis::Verdict;
    use crate::load::load;
    use crate::model::Kind;
    use crate::solve::Reason;

    #[test]
    fn what_stayed_undecided_shows_unless_something_is_at_fault() {
        let loaded = load("a", include_str!("new.yaml")).unwrap();
        let mut checked = analysis::check(&loaded.ruleset, &analysis::Options::default());
        assert_eq!(ending(&checked), Ending::InOrder);
        checked.verdicts.push(Verdict {
            kind: Kind::Gap,
            dimension: None,
            outcome: Outcome::Undecided(Reason::Time),
            principle: None,
            untold: false,
        });
        assert_eq!(ending(&checked), Ending::Undecided);
        let two =
            "\n  - id: twin\n    when: contact is hard\n    ruling: {penalty: none}\nprinciples:";
        let text = include_str!("new.yaml").replace("\nprinciples:", two);
        let loaded = load("a", text).unwrap();
        let mut faulty = analysis::check(&loaded.ruleset, &analysis::Options::default());
        faulty.verdicts.append(&mut checked.verdicts);
        assert_eq!(ending(&faulty), Ending::Faults);
    }
}
