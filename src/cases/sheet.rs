//! A spreadsheet as rows of cells.

use super::columns::{Columns, Row, RowProblem, refused};
use crate::load::Refused;
use crate::model::Ruleset;
use crate::problem::Problem;
use crate::source::Span;
use ::csv::StringRecord;
use calamine::{Data, Reader, Xlsx, XlsxError};
use std::io::Cursor;

/// What stands between the cells of a row where it is shown.
const BETWEEN: &str = " | ";

/// The rows of a spreadsheet (.xlsx) behind the header, and its columns: of the first sheet that has
/// any cell. `name` is how the file is called in places.
///
/// # Errors
/// What is wrong with the file or with its header.
pub fn rows(ruleset: &Ruleset, name: &str, bytes: Vec<u8>) -> Result<(Columns, Vec<Row>), Refused> {
    let no = |what: String| no_sheet(name, &what);
    let mut book: Xlsx<Cursor<Vec<u8>>> = calamine::open_workbook_from_rs(Cursor::new(bytes))
        .map_err(|error| {
            no(match error {
                XlsxError::Password => "is a spreadsheet that is locked by a password".to_owned(),
                _ => "is no spreadsheet that can be read".to_owned(),
            })
        })?;
    for sheet in book.sheet_names() {
        let range = book
            .worksheet_range(&sheet)
            .map_err(|error| no(format!("has a sheet `{sheet}` that can't be read: {error}")))?;
        let first = range.start().map_or(0, |(row, _)| row);
        let mut rows = range
            .rows()
            .zip(u64::from(first)..)
            .map(|(cells, index)| Row {
                line: index + 1,
                cells: cells.iter().map(words).collect::<StringRecord>(),
            });
        if let Some(header) = rows.next() {
            let columns =
                Columns::new(ruleset, &header).map_err(|wrong| sheet_refused(name, wrong))?;
            return Ok((columns, rows.collect()));
        }
    }
    Err(no("has no cells".to_owned()))
}

/// What is wrong with some rows of a spreadsheet, as of the file.
pub fn sheet_refused(name: &str, wrong: Vec<RowProblem>) -> Refused {
    refused(name, BETWEEN, wrong)
}

/// The words of a cell, as a person would type them.
fn words(cell: &Data) -> String {
    match cell {
        Data::Empty => String::new(),
        Data::String(words) | Data::DateTimeIso(words) | Data::DurationIso(words) => words.clone(),
        Data::Float(number) => number.to_string(),
        Data::Int(number) => number.to_string(),
        Data::Bool(true) => "yes".to_owned(),
        Data::Bool(false) => "no".to_owned(),
        Data::DateTime(date) => day(date),
        other => other.to_string(),
    }
}

/// A date as year, month and day, with the time of day where there is one.
fn day(date: &calamine::ExcelDateTime) -> String {
    let (year, month, day, hour, minute, second, _) = date.to_ymd_hms_milli();
    let day = format!("{year:04}-{month:02}-{day:02}");
    if (hour, minute, second) == (0, 0, 0) {
        day
    } else {
        format!("{day} {hour:02}:{minute:02}:{second:02}")
    }
}

fn no_sheet(name: &str, what: &str) -> Refused {
    let headline = format!("the file {what}");
    let problem = Problem::error(Span::default(), headline, "expected a spreadsheet (.xlsx)");
    let help = "`evenhand cases RULESET --template xlsx` writes one to fill in";
    refused(
        name,
        BETWEEN,
        vec![RowProblem {
            row: Row {
                line: 1,
                cells: StringRecord::new(),
            },
            cell: None,
            problem: problem.help(help),
        }],
    )
}
