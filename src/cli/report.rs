//! `report`: one page to open in a browser, print and circulate.

use super::arguments::{Format, Limits, Painted, Rules, Threads};
use super::input::{self, Unusable};
use super::quiz::{Choice, is_short};
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure, cases, files, ruling, vet};
use crate::analysis::{self, Checked, Outcome, Repairs};
use crate::cases::Review;
use crate::graph::{Overlaps, overlaps};
use crate::load::{Layered, Loaded};
use crate::logic::{Chart, Established, Protocol};
use crate::model::{DimensionId, Ruleset};
use crate::problem::Problem;
use crate::proof;
use crate::quiz::{Quiz, quiz};
use crate::report::html::{self, Besides, Book, CaseBook, Decision, Draft};
use crate::report::text::Detail;
use crate::scenario;
use crate::solve::{Budget, Reason};
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
    /// Show how the cases of this case book stand to the text, and to the drafts
    #[arg(long, value_name = "CASES")]
    cases: Option<PathBuf>,
    /// Put so many questions and their key on the page
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    quiz: Option<u32>,
    #[command(flatten)]
    choice: Choice,
    /// Draw which questions lead to the ruling on this dimension; the first announced, if left out
    #[arg(long, value_name = "DIMENSION")]
    chart: Option<String>,
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
  evenhand report book.yaml --cases cases.yaml --output cases.html
  evenhand report book.yaml --quiz 5 --difficulty hard --output sheet.html

Exit codes:
  0  the page is written; what was found stands on it
  2  a file or the call can't be used
  3  the page is written, and something on it stayed undecided";

pub(super) fn run(options: &Report) -> Result<Ending, Failure> {
    if let Some(name) = options.choice.first().filter(|_| options.quiz.is_none()) {
        return Err(Failure(format!("{name} is for questions: add --quiz.")));
    }
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

/// Everything that is to stand on the page.
struct Found {
    subject: Subject,
    cases: Option<(String, Review)>,
    quiz: Option<Quiz>,
    overlaps: Overlaps,
    budget: Budget,
}

/// Finds it out.
fn made(options: &Report, progress: &ProgressLine) -> Result<Found, Unusable> {
    let budget = terminal::budget(&options.limits);
    let subject = subject(options, progress, budget.clone())?;
    let cases = options.cases.as_deref().map(|path| {
        let how = crate::cases::Options {
            jobs: options.threads.number(),
            budget: budget.clone(),
            progress,
        };
        let review = cases::review(subject.ruleset(), path, &how)?;
        Ok::<_, Unusable>((files::name(path), review))
    });
    let cases = cases.transpose()?;
    let ruleset = subject.ruleset();
    let asked = options
        .quiz
        .map(|count| options.choice.request(ruleset, count, &options.threads));
    let quiz = asked
        .transpose()?
        .map(|asked| quiz(ruleset, &asked, &budget));
    let overlaps = overlaps(ruleset, &budget);
    Ok(Found {
        subject,
        cases,
        quiz,
        overlaps,
        budget,
    })
}

fn subject(options: &Report, progress: &ProgressLine, budget: Budget) -> Result<Subject, Unusable> {
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
    let book = options.cases.as_deref();
    let book = book.map(|path| cases::all(&layered.base.ruleset, path));
    let book = book.transpose()?;
    let found = vet::vetted(&layered, &asked);
    let mut found =
        found.map_err(|problems| Unusable::Problems(layered.sources.clone(), problems))?;
    if let Some(book) = &book {
        found.0 = found.0.with_cases(book, &asked.budget);
    }
    Ok(Subject::Drafts(Box::new(layered), Box::new(found)))
}

fn has_scenarios(ruleset: &Ruleset, asked: &analysis::Options<'_>) -> Result<(), Unusable> {
    match analysis::no_scenario(ruleset, &asked.budget) {
        None => Ok(()),
        Some(problem) => Err(Unusable::Problems(ruleset.sources.clone(), vec![problem])),
    }
}

fn written(options: &Report, found: &Found) -> Result<Ending, Failure> {
    let subject = &found.subject;
    let ruleset = subject.ruleset();
    let files_of_rules = options.rules.with.len().saturating_add(1);
    let text = whole_text(&ruleset.sources, files_of_rules);
    let draft = subject.draft();
    let cases = found.cases.as_ref();
    let cases = cases.map(|(file, review)| CaseBook { file, review });
    let named: Vec<String> = options.chart.iter().cloned().collect();
    let dimensions = ruling::dimensions(ruleset, &named)?;
    let order = dimensions.first().map(|dimension| {
        let order = order(ruleset, *dimension, &found.budget);
        (*dimension, order)
    });
    let decision = order.as_ref().map(|(dimension, order)| Decision {
        dimension: *dimension,
        order: match order {
            Ok((chart, protocol)) => Ok((chart, protocol)),
            Err(reason) => Err(reason),
        },
    });
    let page = html::page(&Book {
        ruleset,
        warnings: subject.warnings(),
        checked: subject.checked(),
        date: options.date.as_deref(),
        fingerprint: &proof::digest(text.as_bytes()),
        besides: Besides {
            draft,
            cases,
            quiz: found.quiz.as_ref(),
            decision,
            overlaps: Some(&found.overlaps),
        },
    });
    let page = page.map_err(|error| Failure(format!("the page can't be made: {error}")))?;
    let mut inputs = options.rules.files();
    let besides = options.amendment.iter().chain(&options.cases);
    inputs.extend(besides.map(PathBuf::as_path));
    files::deliver(&page, Some(&options.output), &inputs)?;
    let mut verdicts = subject.checked().verdicts.iter();
    let open = verdicts.any(|verdict| matches!(verdict.outcome, Outcome::Undecided(_)))
        || draft.is_some_and(|draft| draft.vetted.is_open())
        || cases.is_some_and(|book| book.review.open)
        || found.quiz.as_ref().is_some_and(is_short)
        || found.overlaps.open > 0
        || decision.is_some_and(|decision| decision.order.is_err());
    Ok(if open {
        Ending::Undecided
    } else {
        Ending::InOrder
    })
}

/// The order of questions that leads to the ruling on a dimension.
fn order<'r>(
    ruleset: &'r Ruleset,
    dimension: DimensionId,
    budget: &Budget,
) -> Result<(Chart<'r>, Protocol), Reason> {
    let mut chart = scenario::chart(ruleset, &[dimension], budget)?;
    let outlook = chart.outlook(&Established::nothing(ruleset.attributes.len()));
    let stop = || budget.exhausted().is_some();
    let found = chart.protocol(&outlook, &stop);
    let found = found.ok_or_else(|| budget.exhausted().unwrap_or(Reason::TooLarge))?;
    Ok((chart, found))
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
