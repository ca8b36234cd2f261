//! `report`: one page to open in a browser, print and circulate.

use super::arguments::{Format, Limits, Painted, Rules, Threads};
use super::input::{self, Unusable};
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure, files, vet};
use crate::analysis::{self, Checked, Outcome, Repairs};
use crate::load::{Layered, Loaded};
use crate::model::Ruleset;
use crate::problem::Problem;
use crate::proof;
use crate::report::html::{self, Besides, Book, Draft};
use crate::report::text::Detail;
use crate::source::{Source, Sources};
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_long_help = HELP)]
pub(super) struct Report {
    #[command(flatten)]
    rules: Rules,
    /// Write the page to this file, such as book.html
    #[arg(long, short, value_name = "FILE")]
    output: PathBuf,
    /// The date of the text, such as 2031-04-02, for the foot of the page
    #[arg(long, value_name = "DATE", value_parser = date)]
    date: Option<String>,
    /// Vet this draft and show what it changes; may be repeated, in order
    #[arg(long, value_name = "AMENDMENT")]
    amendment: Vec<PathBuf>,
    #[command(flatten)]
    painted: Painted,
    #[command(flatten)]
    threads: Threads,
    #[command(flatten)]
    limits: Limits,
    /// Look for repairs as well, which takes longer than all the rest
    #[arg(long)]
    repairs: bool,
    /// Show no progress
    #[arg(long, short)]
    quiet: bool,
}

const HELP: &str = "\
The page is one file. It opens by double-click, asks for nothing from the network, and prints on A4 and
Letter. It has the findings, the rules with the findings in the margin, and a place to try a case.

  evenhand report book.yaml --output book.html
  evenhand report book.yaml --amendment draft.yaml --output draft.html

Exit codes:
  0  the page is written; what was found stands on it
  2  a file or the call can't be used
  3  the page is written, and something on it stayed undecided";

pub(super) fn run(options: &Report) -> Result<Ending, Failure> {
    let progress = ProgressLine::new(options.quiet);
    let made = made(options, &progress);
    progress.finish();
    match made {
        Ok(found) => written(options, &found),
        Err(wrong) => {
            let look = terminal::look(Destination::Screen, options.painted.color, Detail::Whole);
            files::print(&input::report(wrong, Format::Text, &look)?)?;
            Ok(Ending::Unusable)
        }
    }
}

/// What the page is about.
enum Subject {
    /// The rules as they are.
    Rules(Box<Loaded>, Box<Checked>),
    /// Drafts to them.
    Drafts(Box<Layered>, Box<vet::Found>),
}

impl Subject {
    fn ruleset(&self) -> &Ruleset {
        match self {
            Subject::Rules(loaded, _) => &loaded.ruleset,
            Subject::Drafts(_, found) => &found.0.before,
        }
    }

    fn checked(&self) -> &Checked {
        match self {
            Subject::Rules(_, checked) => checked,
            Subject::Drafts(_, found) => &found.0.checked_before,
        }
    }

    fn warnings(&self) -> &[Problem] {
        match self {
            Subject::Rules(loaded, _) => &loaded.warnings,
            Subject::Drafts(layered, _) => &layered.base.warnings,
        }
    }

    fn draft(&self) -> Option<Draft<'_>> {
        match self {
            Subject::Rules(..) => None,
            Subject::Drafts(layered, found) => Some(Draft {
                vetted: &found.0,
                alone: &found.1,
                warnings: &layered.warnings,
            }),
        }
    }
}

/// Finds out everything that is to stand on the page.
fn made(options: &Report, progress: &ProgressLine) -> Result<Subject, Unusable> {
    let budget = terminal::budget(&options.limits);
    let asked = analysis::Options {
        jobs: options.threads.number(),
        budget,
        repairs: if options.repairs {
            Repairs::Offered
        } else {
            Repairs::LeftOut
        },
        progress,
        ..analysis::Options::default()
    };
    if options.amendment.is_empty() {
        let loaded = input::ruleset(&options.rules)?;
        has_scenarios(&loaded.ruleset, &asked)?;
        let checked = analysis::check(&loaded.ruleset, &asked);
        return Ok(Subject::Rules(Box::new(loaded), Box::new(checked)));
    }
    let layered = vet::drafts(&options.rules, &options.amendment)?;
    has_scenarios(&layered.base.ruleset, &asked)?;
    let found = vet::vetted(&layered, &asked);
    let found = found.map_err(|problems| Unusable::Problems(layered.sources.clone(), problems))?;
    Ok(Subject::Drafts(Box::new(layered), Box::new(found)))
}

fn has_scenarios(ruleset: &Ruleset, asked: &analysis::Options<'_>) -> Result<(), Unusable> {
    match analysis::no_scenario(ruleset, &asked.budget) {
        None => Ok(()),
        Some(problem) => Err(Unusable::Problems(ruleset.sources.clone(), vec![problem])),
    }
}

fn written(options: &Report, found: &Subject) -> Result<Ending, Failure> {
    let ruleset = found.ruleset();
    let files_of_rules = options.rules.with.len().saturating_add(1);
    let text = whole_text(&ruleset.sources, files_of_rules);
    let draft = found.draft();
    let page = html::page(&Book {
        ruleset,
        warnings: found.warnings(),
        checked: found.checked(),
        date: options.date.as_deref(),
        fingerprint: &proof::digest(text.as_bytes()),
        besides: Besides { draft },
    });
    let page = page.map_err(|error| Failure(format!("the page can't be made: {error}")))?;
    let mut inputs = options.rules.files();
    inputs.extend(options.amendment.iter().map(PathBuf::as_path));
    files::deliver(&page, Some(&options.output), &inputs)?;
    let mut verdicts = found.checked().verdicts.iter();
    let open = verdicts.any(|verdict| matches!(verdict.outcome, Outcome::Undecided(_)))
        || draft.is_some_and(|draft| draft.vetted.is_open());
    Ok(if open {
        Ending::Undecided
    } else {
        Ending::InOrder
    })
}

/// The texts of the first so many files, one behind the other.
fn whole_text(sources: &Sources, files: usize) -> String {
    let texts = sources.ids().take(files);
    let texts = texts.filter_map(|id| sources.get(id));
    texts.map(Source::text).collect()
}

/// Reads a day of the calendar: year, month, day.
fn date(typed: &str) -> Result<String, String> {
    let parts: Vec<&str> = typed.split('-').collect();
    let number = |part: &str, digits: usize| -> Option<u32> {
        let plain = part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit());
        plain.then(|| part.parse().ok()).flatten()
    };
    let is_day = |year: u32, month: u32, day: u32| {
        let leap = year.is_multiple_of(4) && !year.is_multiple_of(100) || year.is_multiple_of(400);
        let days = match month {
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            1..=12 => 31,
            _ => 0,
        };
        (1..=days).contains(&day)
    };
    let read = match parts.as_slice() {
        [year, month, day] => number(year, 4).zip(number(month, 2)).zip(number(day, 2)),
        _ => None,
    };
    match read {
        Some(((year, month), day)) if is_day(year, month, day) => Ok(typed.to_owned()),
        _ => Err("a day as year-month-day, such as 2031-04-02".to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_days_of_the_calendar_are_dates() {
        for typed in ["2031-04-02", "2032-02-29", "2000-02-29"] {
            assert_eq!(date(typed).as_deref(), Ok(typed));
        }
        for typed in [
            "2031-02-29",
            "1900-02-29",
            "2031-13-01",
            "2031-4-2",
            "31-04-02",
            "2031-04-00",
            "now",
            "2031-04-02-",
        ] {
            assert!(date(typed).is_err(), "{typed}");
        }
    }
}
