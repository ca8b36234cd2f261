//! A table as text: rows of cells with a separator, read one after the other.

use super::columns::{Columns, Row, RowProblem, refused};
use crate::load::Refused;
use crate::model::Ruleset;
use crate::problem::Problem;
use crate::source::Span;
use ::csv::{ByteRecord, ErrorKind, FromUtf8Error, Reader, ReaderBuilder, StringRecord, Trim};
use std::io::{BufRead, Read};

/// What may stand between cells.
const SEPARATORS: [u8; 3] = [b',', b';', b'\t'];

/// A table that is being read, row by row.
pub struct Log<R> {
    reader: Reader<R>,
    columns: Columns,
    name: String,
    separator: char,
}

impl<R: BufRead> Log<R> {
    /// Reads the header; `name` is how the file is called in places. The separator (comma,
    /// semicolon or tab) is found out by which makes most of the header.
    ///
    /// # Errors
    /// What is wrong with the header, or that this is no text.
    pub fn open(ruleset: &Ruleset, name: &str, mut input: R) -> Result<Self, Refused> {
        let start = match input.fill_buf() {
            Ok(bytes) => bytes,
            Err(error) => return Err(no_table(name, &format!("can't be read: {error}"), "")),
        };
        let how = "save it as CSV in UTF-8; spreadsheets offer that when saving";
        if start.starts_with(&[0xff, 0xfe]) || start.starts_with(&[0xfe, 0xff]) {
            return Err(no_table(
                name,
                "is text in UTF-16, which is not read as a table",
                how,
            ));
        }
        let separator = separator(ruleset, &String::from_utf8_lossy(start));
        let mut reader = ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(Trim::None)
            .delimiter(separator)
            .from_reader(input);
        let header = match next_row(&mut reader) {
            Some(Ok(row)) => Row { line: 1, ..row },
            None => {
                let help = "the first row names the columns; `evenhand cases RULESET --template csv` writes one to fill in";
                return Err(no_table(name, "is empty", help));
            }
            Some(Err(problem)) => {
                let separator = char::from(separator).to_string();
                return Err(refused(name, &separator, vec![problem]));
            }
        };
        let separator = char::from(separator);
        let columns = Columns::new(ruleset, &header)
            .map_err(|wrong| refused(name, &separator.to_string(), wrong))?;
        Ok(Log {
            reader,
            columns,
            name: name.to_owned(),
            separator,
        })
    }
}

impl<R> Log<R> {
    /// What its columns hold.
    pub fn columns(&self) -> &Columns {
        &self.columns
    }

    /// What is wrong with some rows, as of the file.
    pub fn refused(&self, wrong: Vec<RowProblem>) -> Refused {
        refused(&self.name, &self.separator.to_string(), wrong)
    }
}

impl<R: Read> Iterator for Log<R> {
    type Item = Result<Row, RowProblem>;

    fn next(&mut self) -> Option<Self::Item> {
        next_row(&mut self.reader)
    }
}

/// The next row, if there is one.
fn next_row<R: Read>(reader: &mut Reader<R>) -> Option<Result<Row, RowProblem>> {
    let mut bytes = ByteRecord::new();
    match reader.read_byte_record(&mut bytes) {
        Ok(true) => {}
        Ok(false) => return None,
        Err(error) => return Some(Err(unreadable(&error))),
    }
    let line = bytes.position().map_or(1, ::csv::Position::line);
    let cells = StringRecord::from_byte_record(bytes);
    Some(match cells {
        Ok(cells) => Ok(Row { line, cells }),
        Err(error) => Err(no_text(line, error)),
    })
}

/// A row with a cell that is no text; what of it is none is shown as U+FFFD.
fn no_text(line: u64, error: FromUtf8Error) -> RowProblem {
    let cell = error.utf8_error().field();
    let headline = format!("line {line} holds bytes that are no UTF-8 text");
    let problem = Problem::error(Span::default(), headline, "expected UTF-8 text");
    RowProblem {
        row: Row {
            line,
            cells: StringRecord::from_byte_record_lossy(error.into_byte_record()),
        },
        cell: Some(cell),
        problem: problem
            .help("save the table as CSV in UTF-8; spreadsheets offer that when saving"),
    }
}

/// What stands between the cells of a header: of comma, semicolon and tab the one that gives most
/// columns that the ruleset knows; among equals, most columns; comma where none stands there.
pub fn separator(ruleset: &Ruleset, start: &str) -> u8 {
    let mut best = (0, 0, b',');
    for candidate in SEPARATORS {
        let mut reader = ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .delimiter(candidate)
            .from_reader(start.as_bytes());
        let mut header = StringRecord::new();
        if reader.read_record(&mut header).is_ok() {
            let known = Columns::understood(ruleset, header.iter());
            if (known, header.len()) > (best.0, best.1) {
                best = (known, header.len(), candidate);
            }
        }
    }
    best.2
}

fn no_table(name: &str, what: &str, help: &str) -> Refused {
    let problem = Problem::error(
        Span::default(),
        format!("the file {what}"),
        "expected a table",
    );
    let problem = if help.is_empty() {
        problem
    } else {
        problem.help(help)
    };
    refused(
        name,
        ",",
        vec![RowProblem {
            row: Row {
                line: 1,
                cells: StringRecord::new(),
            },
            cell: None,
            problem,
        }],
    )
}

fn unreadable(error: &::csv::Error) -> RowProblem {
    let line = error.position().map_or(1, ::csv::Position::line);
    let (headline, help) = match error.kind() {
        ErrorKind::Io(error) => (format!("the table can't be read on: {error}"), "try again"),
        _ => (
            format!("line {line} can't be read: {error}"),
            "look at its quotes and separators",
        ),
    };
    RowProblem {
        row: Row {
            line,
            cells: StringRecord::new(),
        },
        cell: None,
        problem: Problem::error(Span::default(), headline, "expected a row of cells").help(help),
    }
}
