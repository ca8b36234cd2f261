//! `check`: every finding of a ruleset, and what was proved free of them.

use super::arguments::{Check, Findings};
use super::delivery::Delivery;
use super::input::{self, Unusable, json_failed};
use super::terminal::{self, ProgressLine};
use super::{Ending, Failure, files};
use crate::amendment::{self, RepairDraft};
use crate::analysis::{self, Checked, Outcome, Repairs};
use crate::model::Severity;
use crate::report::text::Detail;
use crate::report::{json, markdown, sarif, table, text};
use std::path::Path;

pub(super) fn run(options: &Check) -> Result<Ending, Failure> {
    let delivery = Delivery {
        written: &options.written,
        format: options.format.of_problems(),
        detail: detail(options),
        inputs: options.rules.files(),
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return unusable(options, &delivery, wrong),
    };
    let ruleset = &loaded.ruleset;
    let progress = ProgressLine::new(options.quiet);
    let budget = terminal::budget(&options.limits);
    if let Some(problem) = analysis::no_scenario(ruleset, &budget) {
        progress.finish();
        let wrong = Unusable::Problems(ruleset.sources.clone(), vec![problem]);
        return unusable(options, &delivery, wrong);
    }
    let asked = analysis::Options {
        kinds: options.only.clone(),
        jobs: options.threads.number(),
        budget,
        repairs: repairs(options),
        progress: &progress,
        ..analysis::Options::default()
    };
    let checked = analysis::check(ruleset, &asked);
    let draft = options.repairs.as_deref().map(|path| {
        let draft = amendment::repairs(ruleset, &checked, &asked);
        (path, draft)
    });
    progress.finish();
    let mut written = None;
    if let Some((path, draft)) = draft {
        if let Some(draft) = &draft {
            files::create(path, &draft.text)?;
        }
        written = Some(told(path, options, draft.as_ref()));
    }
    let report = match options.format {
        Findings::Text => {
            let look = delivery.look();
            let mut report = text::checked(ruleset, &loaded.warnings, &checked, &look);
            if let Some(written) = written {
                report.push_str(&text::closing_words(&written, &look));
            }
            report
        }
        Findings::Json => {
            json::checked(ruleset, &loaded.warnings, &checked).map_err(json_failed)?
        }
        Findings::Sarif => {
            sarif::checked(ruleset, &loaded.warnings, &checked).map_err(json_failed)?
        }
        Findings::Markdown => markdown::checked(ruleset, &checked),
        Findings::Csv => table::checked(ruleset, &checked)
            .map_err(|error| Failure(format!("the table can't be made: {error}")))?,
    };
    delivery.deliver(&report)?;
    Ok(ending(&checked))
}

/// Repairs are looked for where they are asked for: they take longer than all the rest.
fn repairs(options: &Check) -> Repairs {
    match options.repairs {
        Some(_) => Repairs::Offered,
        None => Repairs::LeftOut,
    }
}

/// Says what was written as a draft, and what to do with it.
fn told(path: &Path, options: &Check, draft: Option<&RepairDraft>) -> String {
    let file = path.display();
    let Some(draft) = draft else {
        return format!("No repair is offered, so {file} was not written.");
    };
    let aside = match draft.set_aside {
        0 => String::new(),
        1 => " The repairs of 1 finding stand in comments, since they can't be made beside the others.".to_owned(),
        more => format!(
            " The repairs of {more} findings stand in comments, since they can't be made beside the others."
        ),
    };
    let mended = match draft.mended {
        0 => "none of its findings is mended by it as it is".to_owned(),
        1 => "with it the ruleset has 1 finding less, and no new fault".to_owned(),
        more => format!("with it the ruleset has {more} findings less, and no new fault"),
    };
    let open = if draft.open {
        " Not everything could be decided in checking that."
    } else {
        ""
    };
    let mut ruleset = files::name(&options.rules.ruleset);
    for path in &options.rules.with {
        ruleset.push_str(" --with ");
        ruleset.push_str(&files::name(path));
    }
    format!(
        "{file} was written: {mended}.{open}{aside} Read it, change it, and see what it does: evenhand vet {ruleset} {file}"
    )
}

/// Says why there is nothing to check, in the format that was asked for.
fn unusable(options: &Check, delivery: &Delivery<'_>, wrong: Unusable) -> Result<Ending, Failure> {
    if options.format != Findings::Sarif {
        return delivery.unusable(wrong);
    }
    let report = match &wrong {
        Unusable::Problems(sources, problems) => sarif::problems(sources, problems),
        Unusable::Unreadable { name, failure } => sarif::unreadable(name, &failure.0),
    };
    delivery.deliver(&report.map_err(json_failed)?)?;
    Ok(Ending::Unusable)
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

pub(super) fn ending(checked: &Checked) -> Ending {
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
