//! `report`: one page to open in a browser, print and circulate.

use super::arguments::{Format, Limits, Painted, Rules, Threads};
use super::input::{self, Unusable};
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure, check, files};
use crate::analysis::{self, Repairs};
use crate::proof;
use crate::report::html::{self, Book};
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

Exit codes:
  0  the page is written; what was found stands on it
  2  the ruleset or the call can't be used
  3  the page is written, and something on it stayed undecided";

pub(super) fn run(options: &Report) -> Result<Ending, Failure> {
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return told(options, wrong),
    };
    let ruleset = &loaded.ruleset;
    let progress = ProgressLine::new(options.quiet);
    let budget = terminal::budget(&options.limits);
    if let Some(problem) = analysis::no_scenario(ruleset, &budget) {
        progress.finish();
        let wrong = Unusable::Problems(ruleset.sources.clone(), vec![problem]);
        return told(options, wrong);
    }
    let checked = analysis::check(
        ruleset,
        &analysis::Options {
            jobs: options.threads.number(),
            budget,
            repairs: if options.repairs {
                Repairs::Offered
            } else {
                Repairs::LeftOut
            },
            progress: &progress,
            ..analysis::Options::default()
        },
    );
    progress.finish();
    let page = html::page(&Book {
        ruleset,
        warnings: &loaded.warnings,
        checked: &checked,
        date: options.date.as_deref(),
        fingerprint: &proof::digest(whole_text(&ruleset.sources).as_bytes()),
    });
    let page = page.map_err(|error| Failure(format!("the page can't be made: {error}")))?;
    files::deliver(&page, Some(&options.output), &options.rules.files())?;
    Ok(match check::ending(&checked) {
        Ending::Undecided => Ending::Undecided,
        _ => Ending::InOrder,
    })
}

/// Says on the terminal why there is no page.
fn told(options: &Report, wrong: Unusable) -> Result<Ending, Failure> {
    let look = terminal::look(Destination::Screen, options.painted.color, Detail::Whole);
    files::print(&input::report(wrong, Format::Text, &look)?)?;
    Ok(Ending::Unusable)
}

/// The texts of all files, one behind the other.
fn whole_text(sources: &Sources) -> String {
    let texts = sources.ids().filter_map(|id| sources.get(id));
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
