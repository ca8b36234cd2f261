//! `check`: every finding of a ruleset, and what was proved free of them.

use super::arguments::{Check, Format};
use super::input::{self, Unusable, json_failed};
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure, files};
use crate::analysis::{self, Checked, Outcome};
use crate::model::Severity;
use crate::report::text::{Detail, Look};
use crate::report::{json, text};
use std::num::NonZeroUsize;
use std::thread;

pub(super) fn run(options: &Check) -> Result<Ending, Failure> {
    let loaded = match input::ruleset(&options.ruleset, &options.with) {
        Ok(loaded) => loaded,
        Err(wrong) => return unusable(options, wrong),
    };
    let progress = ProgressLine::new(options.quiet);
    let machine = || thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
    let memory = options.memory.map(std::num::NonZero::get);
    let budget = terminal::budget(options.seconds, memory);
    if let Some(problem) = analysis::no_scenario(&loaded.ruleset, &budget) {
        progress.finish();
        let wrong = Unusable::Problems(loaded.ruleset.sources, vec![problem]);
        return unusable(options, wrong);
    }
    let checked = analysis::check(
        &loaded.ruleset,
        &analysis::Options {
            kinds: options.only.clone(),
            jobs: options.jobs.unwrap_or_else(machine),
            budget,
            progress: &progress,
            ..analysis::Options::default()
        },
    );
    progress.finish();
    let report = match options.format {
        Format::Text => text::checked(&loaded.ruleset, &loaded.warnings, &checked, &look(options)),
        Format::Json => {
            json::checked(&loaded.ruleset, &loaded.warnings, &checked).map_err(json_failed)?
        }
    };
    files::deliver(&report, options.output.as_deref(), &options.ruleset)?;
    Ok(ending(&checked))
}

fn look(options: &Check) -> Look {
    let detail = if options.quiet {
        Detail::Headlines
    } else if options.only.is_empty() {
        Detail::Digest
    } else {
        Detail::Whole
    };
    let destination = match options.output {
        Some(_) => Destination::File,
        None => Destination::Screen,
    };
    terminal::look(destination, options.color, detail)
}

fn unusable(options: &Check, wrong: Unusable) -> Result<Ending, Failure> {
    let report = input::report(wrong, options.format, &look(options))?;
    files::deliver(&report, options.output.as_deref(), &options.ruleset)?;
    Ok(Ending::Unusable)
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
