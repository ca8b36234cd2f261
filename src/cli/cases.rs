//! `evenhand cases`: a case book or a log against the text, written out in another form, or an empty
//! table to fill in.

use super::arguments::{Cases, Format, Table};
use super::delivery::Delivery;
use super::files;
use super::input::{self, Unusable, json_failed};
use super::terminal::{self, ProgressLine};
use super::{Ending, Failure};
use crate::cases::{self, Case, Log, Options, Review};
use crate::load::Refused;
use crate::model::Ruleset;
use crate::report::text::Detail;
use crate::report::{json, text};
use std::io::BufReader;
use std::path::Path;

pub(super) fn run(options: &Cases) -> Result<Ending, Failure> {
    let mut inputs = options.rules.files();
    inputs.extend(options.book.as_deref());
    let delivery = Delivery {
        written: &options.written,
        format: options.format,
        detail: detail(options),
        inputs,
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
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
        return match all(ruleset, path) {
            Ok(cases) => export(options, ruleset, &cases, target),
            Err(wrong) => delivery.unusable(wrong),
        };
    }
    let progress = ProgressLine::new(options.quiet);
    let how = Options {
        jobs: options.threads.number(),
        budget: terminal::budget(&options.limits),
        progress: &progress,
    };
    let review = review(ruleset, path, &how);
    progress.finish();
    let review = match review {
        Ok(review) => review,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let file = files::name(path);
    let report = match options.format {
        Format::Text => text::cases(ruleset, &file, &review, &delivery.look()),
        Format::Json => json::cases(ruleset, &file, &review).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(ending(&review))
}

fn detail(options: &Cases) -> Detail {
    if options.quiet {
        Detail::Headlines
    } else if options.all {
        Detail::Whole
    } else {
        Detail::Digest
    }
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

/// Every case of a file against the text.
pub(super) fn review(
    ruleset: &Ruleset,
    path: &Path,
    how: &Options<'_>,
) -> Result<Review, Unusable> {
    let name = files::name(path);
    let shut = |failure| input::unreadable(path, failure);
    match form(path).map_err(shut)? {
        Form::Yaml => Ok(cases::review(ruleset, book(ruleset, path)?, how)),
        Form::Csv => {
            let input = BufReader::with_capacity(1 << 16, files::open(path).map_err(shut)?);
            let mut log = Log::open(ruleset, &name, input)?;
            let columns = log.columns().clone();
            let review = cases::review_rows(ruleset, &columns, &mut log, how);
            review.map_err(|wrong| log.refused(wrong).into())
        }
        Form::Sheet => {
            let (columns, rows) =
                cases::sheet_rows(ruleset, &name, files::read(path).map_err(shut)?)?;
            let review = cases::review_rows(ruleset, &columns, rows.into_iter().map(Ok), how);
            review.map_err(|wrong| cases::sheet_refused(&name, wrong).into())
        }
    }
}

/// A case book in YAML.
fn book(ruleset: &Ruleset, path: &Path) -> Result<Vec<Case>, Unusable> {
    const BOOK: &str = "a case book in YAML is a text file with `cases:`";
    let (name, words) = input::text_of(path, BOOK)?;
    Ok(cases::book(ruleset, &name, &words)?)
}

/// Every case of a file.
pub(super) fn all(ruleset: &Ruleset, path: &Path) -> Result<Vec<Case>, Unusable> {
    let name = files::name(path);
    let shut = |failure| input::unreadable(path, failure);
    let (mut columns, rows, refuse): (_, Vec<_>, Box<dyn Fn(_) -> Refused>) =
        match form(path).map_err(shut)? {
            Form::Yaml => return book(ruleset, path),
            Form::Csv => {
                let input = BufReader::new(files::open(path).map_err(shut)?);
                let mut log = Log::open(ruleset, &name, input)?;
                let rows = log.by_ref().collect();
                (
                    log.columns().clone(),
                    rows,
                    Box::new(move |wrong| log.refused(wrong)),
                )
            }
            Form::Sheet => {
                let (columns, rows) =
                    cases::sheet_rows(ruleset, &name, files::read(path).map_err(shut)?)?;
                let rows = rows.into_iter().map(Ok).collect();
                (
                    columns,
                    rows,
                    Box::new(move |wrong| cases::sheet_refused(&name, wrong)),
                )
            }
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
    if wrong.is_empty() {
        Ok(found)
    } else {
        Err(refuse(wrong).into())
    }
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
    match (table, &options.written.output) {
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
