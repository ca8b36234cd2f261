//! `evenhand cases`: a case book or a log against the text, written out in another form, or an empty
//! table to fill in.

use super::arguments::{Cases, Format, Table};
use super::files;
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure};
use crate::cases::{self, Case, Log, Options, Review};
use crate::load::{Refused, load};
use crate::model::Ruleset;
use crate::problem::Problem;
use crate::read::text_from_bytes;
use crate::report::text::{Detail, Look};
use crate::report::{json, text};
use crate::source::{Source, Sources};
use std::io::BufReader;
use std::num::NonZeroUsize;
use std::path::Path;
use std::thread;

pub(super) fn run(options: &Cases) -> Result<Ending, Failure> {
    let name = files::name(&options.ruleset);
    let words = match text_from_bytes(files::read(&options.ruleset)?) {
        Ok(words) => words,
        Err(refused) => return bad_bytes(options, &name, &refused),
    };
    let loaded = match load(&name, &words) {
        Ok(loaded) => loaded,
        Err(refused) => return unusable(options, &refused),
    };
    let ruleset = &loaded.ruleset;
    if let Some(table) = options.template {
        return template(options, ruleset, table);
    }
    let Some(path) = &options.book else {
        return Err(Failure(
            "no case book is named; `evenhand cases RULESET CASES` takes YAML, CSV or .xlsx, and `evenhand cases RULESET --template csv` writes a table to fill in".to_owned(),
        ));
    };
    if let Some(target) = &options.export {
        return match all(ruleset, path)? {
            Ok(cases) => export(options, ruleset, &cases, target),
            Err(refused) => unusable(options, &refused),
        };
    }
    let progress = ProgressLine::new(options.quiet);
    let machine = || thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
    let how = Options {
        jobs: options.jobs.unwrap_or_else(machine),
        budget: terminal::budget(options.seconds, None),
        progress: &progress,
    };
    let review = match review(ruleset, path, &how)? {
        Ok(review) => review,
        Err(refused) => {
            progress.finish();
            return unusable(options, &refused);
        }
    };
    progress.finish();
    let file = files::name(path);
    let report = match options.format {
        Format::Text => text::cases(ruleset, &file, &review, &look(options)),
        Format::Json => json::cases(ruleset, &file, &review).map_err(json_failed)?,
    };
    files::deliver(&report, options.output.as_deref(), path)?;
    Ok(ending(&review))
}

/// The form of a file, by its name.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Form {
    Yaml,
    Csv,
    Sheet,
}

fn form(path: &Path) -> Result<Form, Failure> {
    let ending = path
        .extension()
        .map(|ending| ending.to_string_lossy().to_lowercase());
    match ending.as_deref() {
        Some("yaml" | "yml") | None => Ok(Form::Yaml),
        Some("csv" | "tsv" | "txt") => Ok(Form::Csv),
        Some("xlsx") => Ok(Form::Sheet),
        Some(other) => Err(Failure(format!(
            "{} ends in .{other}; a case book is YAML (.yaml), a table (.csv) or a spreadsheet (.xlsx)",
            path.display()
        ))),
    }
}

fn review(
    ruleset: &Ruleset,
    path: &Path,
    how: &Options<'_>,
) -> Result<Result<Review, Refused>, Failure> {
    let name = files::name(path);
    Ok(match form(path)? {
        Form::Yaml => book(ruleset, path)?.map(|cases| cases::review(ruleset, cases, how)),
        Form::Csv => {
            let input = BufReader::with_capacity(1 << 16, files::open(path)?);
            match Log::open(ruleset, &name, input) {
                Err(refused) => Err(refused),
                Ok(mut log) => {
                    let columns = log.columns().clone();
                    cases::review_rows(ruleset, &columns, &mut log, how)
                        .map_err(|wrong| log.refused(wrong))
                }
            }
        }
        Form::Sheet => {
            let bytes = files::read(path)?;
            cases::sheet_rows(ruleset, &name, bytes).and_then(|(columns, rows)| {
                cases::review_rows(ruleset, &columns, rows.into_iter().map(Ok), how)
                    .map_err(|wrong| cases::sheet_refused(&name, wrong))
            })
        }
    })
}

/// A case book in YAML.
fn book(ruleset: &Ruleset, path: &Path) -> Result<Result<Vec<Case>, Refused>, Failure> {
    let name = files::name(path);
    Ok(match text_from_bytes(files::read(path)?) {
        Ok(words) => cases::book(ruleset, &name, &words),
        Err(refused) => {
            let mut sources = Sources::default();
            let id = sources.add(Source::new(&name, refused.text.clone()));
            Err(Refused {
                problems: vec![refused.problem(id)],
                sources,
            })
        }
    })
}

/// Every case of a file.
fn all(ruleset: &Ruleset, path: &Path) -> Result<Result<Vec<Case>, Refused>, Failure> {
    let name = files::name(path);
    let (mut columns, rows, refuse): (_, Vec<_>, Box<dyn Fn(_) -> Refused>) = match form(path)? {
        Form::Yaml => return book(ruleset, path),
        Form::Csv => {
            let input = BufReader::new(files::open(path)?);
            let mut log = match Log::open(ruleset, &name, input) {
                Ok(log) => log,
                Err(refused) => return Ok(Err(refused)),
            };
            let rows = log.by_ref().collect();
            (
                log.columns().clone(),
                rows,
                Box::new(move |wrong| log.refused(wrong)),
            )
        }
        Form::Sheet => match cases::sheet_rows(ruleset, &name, files::read(path)?) {
            Ok((columns, rows)) => {
                let rows = rows.into_iter().map(Ok).collect();
                (
                    columns,
                    rows,
                    Box::new(move |wrong| cases::sheet_refused(&name, wrong)),
                )
            }
            Err(refused) => return Ok(Err(refused)),
        },
    };
    let mut found = Vec::with_capacity(rows.len());
    let mut wrong = Vec::new();
    for row in rows {
        match row
            .map_err(|problem| vec![problem])
            .and_then(|row| columns.case(ruleset, &row))
        {
            Ok(case) => found.extend(case),
            Err(mut problems) => wrong.append(&mut problems),
        }
    }
    Ok(if wrong.is_empty() {
        Ok(found)
    } else {
        Err(refuse(wrong))
    })
}

fn export(
    options: &Cases,
    ruleset: &Ruleset,
    cases: &[Case],
    target: &Path,
) -> Result<Ending, Failure> {
    let failed =
        |cases::Unwritten(why)| Failure(format!("{} can't be written: {why}", target.display()));
    let bytes = match form(target)? {
        Form::Yaml => cases::to_yaml(ruleset, cases).into_bytes(),
        Form::Csv => cases::to_csv(ruleset, cases).map_err(failed)?.into_bytes(),
        Form::Sheet => cases::to_sheet(ruleset, cases).map_err(failed)?,
    };
    files::create_bytes(target, &bytes)?;
    if !options.quiet {
        let words = match cases.len() {
            1 => "1 case".to_owned(),
            number => format!("{number} cases"),
        };
        files::print(&format!("{words} written to {}\n", target.display()))?;
    }
    Ok(Ending::InOrder)
}

fn template(options: &Cases, ruleset: &Ruleset, table: Table) -> Result<Ending, Failure> {
    let failed = |cases::Unwritten(why)| Failure(format!("the table can't be made: {why}"));
    match (table, &options.output) {
        (Table::Csv, output) => {
            let words = cases::template_csv(ruleset).map_err(failed)?;
            match output {
                Some(path) => files::create_bytes(path, words.as_bytes())?,
                None => files::print(&words)?,
            }
        }
        (Table::Xlsx, Some(path)) => {
            files::create_bytes(path, &cases::template_sheet(ruleset).map_err(failed)?)?;
        }
        (Table::Xlsx, None) => {
            let words =
                "a spreadsheet can't be shown here; name a file for it: `--output cases.xlsx`";
            return Err(Failure(words.to_owned()));
        }
    }
    Ok(Ending::InOrder)
}

fn look(options: &Cases) -> Look {
    let detail = if options.quiet {
        Detail::Headlines
    } else if options.all {
        Detail::Whole
    } else {
        Detail::Digest
    };
    let destination = match options.output {
        Some(_) => Destination::File,
        None => Destination::Screen,
    };
    terminal::look(destination, options.color, detail)
}

fn bad_bytes(
    options: &Cases,
    name: &str,
    refused: &crate::read::Refused,
) -> Result<Ending, Failure> {
    let mut sources = Sources::default();
    let id = sources.add(Source::new(name, refused.text.clone()));
    let problems: Vec<Problem> = vec![refused.problem(id)];
    unusable(options, &Refused { sources, problems })
}

fn unusable(options: &Cases, refused: &Refused) -> Result<Ending, Failure> {
    let report = match options.format {
        Format::Text => text::problems(&refused.sources, &refused.problems, &look(options)),
        Format::Json => json::problems(&refused.sources, &refused.problems).map_err(json_failed)?,
    };
    files::deliver(&report, options.output.as_deref(), &options.ruleset)?;
    Ok(Ending::Unusable)
}

fn json_failed(error: impl std::fmt::Display) -> Failure {
    Failure(format!("the JSON can't be made: {error}"))
}

fn ending(review: &Review) -> Ending {
    let pairs = review.inconsistent.0.len() as u64 + review.inconsistent.1;
    let gone = review.miscited.0.iter().any(|told| {
        let mut cited = told.judged.cited.iter();
        cited.any(|cited| matches!(cited, cases::Cited::Gone(_)))
    });
    if review.disagreeing() > 0 || pairs > 0 || gone {
        Ending::Faults
    } else if review.open {
        Ending::Undecided
    } else {
        Ending::InOrder
    }
}
