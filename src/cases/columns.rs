//! The header of a table of cases, and what the cells of a row say by it.
//!
//! Columns are named after attributes; `ruled.DIMENSION` holds rulings, `by.NAME.` goes before the
//! columns of one official of several, and `fact.` before an attribute whose name a column has that
//! says something else. An empty cell is a fact not established; several values are split by `|`.

use super::book::{Case, Found, Place, dimension, ruled};
use crate::load::Refused;
use crate::logic::Code;
use crate::model::{AttributeId, DimensionId, Ruleset};
use crate::problem::{Problem, nearest};
use crate::read::draft::{FactValueDraft, Words};
use crate::scenario::{quoted, value};
use crate::source::{Source, Sources, Span, Spanned};
use std::collections::BTreeMap;

/// Names of columns that an attribute of the same name can't have.
pub(super) const RESERVED: &[&str] = &["id", "date", "kind", "source", "note", "clauses", "result"];

/// Columns whose cells are free text, or ids.
const REMARKS: &[&str] = &["id", "date", "kind", "source", "note", "clauses"];

/// What is written into a table for people to read, and not read back.
const RESULT: &str = "result";
/// What goes before a column that says what the text gives, which is not read back.
const TEXT: &str = "text.";

/// One row of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// The line of the text on which it begins, or the row of the sheet, counted from one.
    pub line: u64,
    /// The cells.
    pub cells: ::csv::StringRecord,
}

/// What is wrong with a row, or with the header.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowProblem {
    /// The row.
    pub row: Row,
    /// The cell; the whole row where it is about all of it.
    pub cell: Option<usize>,
    /// What is wrong; its place is that of the cell.
    pub problem: Problem,
}

/// What a column holds.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Column {
    Id,
    Date,
    Kind,
    Source,
    Note,
    /// Said by the case (`None`) or by an official (an index).
    Clauses(Option<usize>),
    Fact(Option<usize>, AttributeId),
    Ruled(Option<usize>, DimensionId),
    /// Written for people; not read back.
    Said,
}

/// The columns of a table.
#[derive(Clone, Debug)]
pub struct Columns {
    header: Row,
    holds: Vec<Column>,
    officials: Vec<String>,
    /// Words of cells that were understood before, by column.
    known: Vec<BTreeMap<String, Code>>,
}

/// Words of a column that are remembered.
const REMEMBERED: usize = 4096;

impl Columns {
    /// Reads a header.
    ///
    /// # Errors
    /// Every column that says nothing that could be understood, or says it twice.
    pub fn new(ruleset: &Ruleset, header: &Row) -> Result<Self, Vec<RowProblem>> {
        let mut made = Columns {
            header: header.clone(),
            holds: Vec::new(),
            officials: Vec::new(),
            known: vec![BTreeMap::new(); header.cells.len()],
        };
        let mut wrong = Vec::new();
        for (cell, words) in header.cells.iter().enumerate() {
            let words = words.trim_start_matches('\u{feff}').trim();
            let column = made.column(ruleset, words);
            let column = column.and_then(|column| {
                if column != Column::Said && made.holds.contains(&column) {
                    let headline = format!("the column `{words}` stands twice");
                    let problem = Problem::error(Span::default(), headline, "given again");
                    Err(problem.help("keep one of them"))
                } else {
                    Ok(column)
                }
            });
            match column {
                Ok(column) => made.holds.push(column),
                Err(problem) => wrong.push(RowProblem {
                    row: header.clone(),
                    cell: Some(cell),
                    problem,
                }),
            }
        }
        if wrong.is_empty() {
            Ok(made)
        } else {
            Err(wrong)
        }
    }

    /// How many of these words are columns that this ruleset has.
    pub(super) fn understood<'w>(ruleset: &Ruleset, words: impl Iterator<Item = &'w str>) -> usize {
        let known = |word: &&str| {
            let word = word.trim_start_matches('\u{feff}').trim();
            remark(word).is_some()
                || word.starts_with("ruled.")
                || word.starts_with("by.")
                || ruleset.attributes.iter().any(|it| it.name == word)
        };
        words.filter(known).count()
    }

    fn column(&mut self, ruleset: &Ruleset, words: &str) -> Result<Column, Problem> {
        if words.is_empty() || words == RESULT || words.starts_with(TEXT) {
            return Ok(Column::Said);
        }
        if let Some(rest) = words.strip_prefix("by.") {
            let (name, what) = official(rest).ok_or_else(|| {
                let headline = format!("the column `{words}` does not say whose it is, or what");
                Problem::error(Span::default(), headline, "expected `by.NAME.WHAT`")
                    .help("write `by.official_1.ruled.DIMENSION`, or an attribute behind the name")
            })?;
            let who = self.officials.iter().position(|known| known == name);
            let who = who.unwrap_or_else(|| {
                self.officials.push(name.to_owned());
                self.officials.len() - 1
            });
            if what == "clauses" {
                return Ok(Column::Clauses(Some(who)));
            }
            return found(ruleset, what, Some(who));
        }
        match remark(words) {
            // `Date` is the remark, unless an attribute is called exactly so.
            Some(column)
                if REMARKS.contains(&words)
                    || ruleset.attributes.iter().all(|it| it.name != words) =>
            {
                Ok(column)
            }
            _ => found(ruleset, words, None),
        }
    }

    /// What a row says; `None` where all of its cells are empty.
    ///
    /// # Errors
    /// Every cell that could not be understood.
    pub fn case(&mut self, ruleset: &Ruleset, row: &Row) -> Result<Option<Case>, Vec<RowProblem>> {
        if row.cells.iter().all(|cell| cell.trim().is_empty()) {
            return Ok(None);
        }
        let mut case = Case {
            id: String::new(),
            date: None,
            kind: None,
            source: None,
            note: None,
            found: Found::nothing(ruleset),
            officials: BTreeMap::new(),
            place: Place(row.line),
        };
        let mut heard = vec![Found::nothing(ruleset); self.officials.len()];
        let mut wrong = Vec::new();
        for (index, cell) in row.cells.iter().enumerate() {
            let words = cell.trim();
            if words.is_empty() {
                continue;
            }
            let Some(column) = self.holds.get(index) else {
                wrong.push(too_many(row, index, self.holds.len()));
                break;
            };
            let remark = || Some(cell.to_owned());
            let whose = match column {
                Column::Clauses(who) | Column::Fact(who, _) | Column::Ruled(who, _) => *who,
                _ => None,
            };
            let found = match whose {
                Some(who) => heard.get_mut(who),
                None => Some(&mut case.found),
            };
            let Some(found) = found else { continue };
            match column {
                Column::Said => {}
                Column::Id => words.clone_into(&mut case.id),
                Column::Date => case.date = remark(),
                Column::Kind => case.kind = remark(),
                Column::Source => case.source = remark(),
                Column::Note => case.note = remark(),
                Column::Clauses(_) => {
                    let ids = words.split('|').map(|id| id.trim().to_owned());
                    found.clauses = ids.filter(|id| !id.is_empty()).collect();
                }
                Column::Fact(_, id) => {
                    let known = self.known.get_mut(index);
                    match fact(ruleset, *id, words, known) {
                        Ok(code) => found.facts.set(*id, code),
                        Err(problems) => wrong.extend(at(row, index, problems)),
                    }
                }
                Column::Ruled(_, id) => {
                    let mut problems = Vec::new();
                    if let Some(values) = ruled(ruleset, *id, &draft(words), &mut problems) {
                        found.ruled.push((*id, values));
                    }
                    wrong.extend(at(row, index, problems));
                }
            }
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        if case.id.is_empty() {
            case.id = format!("row {}", row.line);
        }
        case.found.ruled.sort_unstable();
        for (name, mut found) in self.officials.iter().zip(heard) {
            if !found.is_nothing() {
                found.ruled.sort_unstable();
                case.officials.insert(name.clone(), found);
            }
        }
        Ok(Some(case))
    }

    /// The header as it was read.
    pub fn header(&self) -> &Row {
        &self.header
    }
}

/// The remark that stands in a column called so.
fn remark(words: &str) -> Option<Column> {
    Some(match words.to_ascii_lowercase().as_str() {
        "id" => Column::Id,
        "date" => Column::Date,
        "kind" => Column::Kind,
        "source" => Column::Source,
        "note" => Column::Note,
        "clauses" => Column::Clauses(None),
        _ => return None,
    })
}

/// The name of an official and what a column says of it, of the words behind `by.`: names may hold
/// dots, so what is said is looked for from behind.
fn official(words: &str) -> Option<(&str, &str)> {
    for mark in [".ruled.", ".fact."] {
        if let Some(at) = words.rfind(mark) {
            let name = words.get(..at)?;
            let what = words.get(at + 1..)?;
            return (!name.is_empty()).then_some((name, what));
        }
    }
    let (name, what) = words.rsplit_once('.')?;
    (!name.is_empty() && !what.is_empty()).then_some((name, what))
}

fn found(ruleset: &Ruleset, words: &str, who: Option<usize>) -> Result<Column, Problem> {
    if let Some(name) = words.strip_prefix("ruled.") {
        let mut problems = Vec::new();
        let name = Spanned::new(name.to_owned(), Span::default());
        return match dimension(ruleset, &name, &mut problems) {
            Some(id) => Ok(Column::Ruled(who, id)),
            None => Err(problems.pop().unwrap_or_else(|| unknown(ruleset, words))),
        };
    }
    let name = words.strip_prefix("fact.").unwrap_or(words);
    let index = ruleset.attributes.iter().position(|it| it.name == name);
    match index {
        Some(index) => Ok(Column::Fact(who, AttributeId::new(index))),
        None => Err(unknown(ruleset, name)),
    }
}

fn unknown(ruleset: &Ruleset, words: &str) -> Problem {
    let headline = format!("`{words}` is no column of a table of cases");
    let problem = Problem::error(Span::default(), headline, "expected a column");
    let names = || ruleset.attributes.iter().map(|it| it.name.as_str());
    if ruleset.dimensions.iter().any(|it| it.name == words) {
        return problem.help(format!("what was ruled on it stands under `ruled.{words}`"));
    }
    match nearest(words, names().chain(REMARKS.iter().copied())) {
        Some(near) => problem.help(format!("did you mean `{near}`?")),
        None => problem.help(format!(
            "columns are {}, `ruled.DIMENSION`, `by.NAME.WHAT`, and the attributes: {}",
            quoted(REMARKS.iter().copied(), "and"),
            quoted(names(), "and")
        )),
    }
}

fn draft(words: &str) -> FactValueDraft {
    let words: Words = Spanned::new(words.to_owned(), Span::default());
    FactValueDraft::Words(words)
}

fn fact(
    ruleset: &Ruleset,
    id: AttributeId,
    words: &str,
    known: Option<&mut BTreeMap<String, Code>>,
) -> Result<Option<Code>, Vec<Problem>> {
    if let Some(code) = known.as_ref().and_then(|known| known.get(words)) {
        return Ok(Some(*code));
    }
    let mut problems = Vec::new();
    let code = value(ruleset, id, &draft(words), &mut problems);
    match (code, known) {
        _ if !problems.is_empty() => Err(problems),
        (Some(code), Some(known)) if known.len() < REMEMBERED => {
            known.insert(words.to_owned(), code);
            Ok(Some(code))
        }
        (code, _) => Ok(code),
    }
}

fn at(row: &Row, cell: usize, problems: Vec<Problem>) -> impl Iterator<Item = RowProblem> {
    let row = row.clone();
    problems.into_iter().map(move |problem| RowProblem {
        row: row.clone(),
        cell: Some(cell),
        problem,
    })
}

fn too_many(row: &Row, cell: usize, columns: usize) -> RowProblem {
    let headline = format!(
        "a row has {} cells; the header has {columns}",
        row.cells.len()
    );
    let problem = Problem::error(Span::default(), headline, "no column stands above this");
    RowProblem {
        row: row.clone(),
        cell: Some(cell),
        problem: problem.help("put a cell that holds the separator in double quotes"),
    }
}

/// What is wrong with a table, at its cells. `name` is how the file is called, `separator` what
/// stands between its cells.
pub(super) fn refused(name: &str, separator: &str, wrong: Vec<RowProblem>) -> Refused {
    // The rows that are shown stand on their own lines; of the others only the line ends are kept.
    let mut text = String::new();
    let mut line = 1u64;
    let mut rows: BTreeMap<u64, Vec<(u32, u32)>> = BTreeMap::new();
    for it in &wrong {
        let here = it.row.line.max(1);
        if rows.contains_key(&here) {
            continue;
        }
        while line < here {
            text.push('\n');
            line += 1;
        }
        let mut cells = Vec::new();
        for (index, cell) in it.row.cells.iter().enumerate() {
            if index > 0 {
                text.push_str(separator);
            }
            let start = text.len();
            text.push_str(&cell.replace(['\n', '\r'], " "));
            let byte = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
            cells.push((byte(start), byte(text.len())));
        }
        rows.insert(here, cells);
    }
    let mut sources = Sources::default();
    let source = sources.add(Source::new(name, text));
    let problems = wrong.into_iter().map(|it| {
        let cells = rows.get(&it.row.line.max(1)).map_or(&[][..], Vec::as_slice);
        let first = cells.first().copied().unwrap_or_default();
        let last = cells.last().copied().unwrap_or_default();
        let (start, end) = match it.cell {
            Some(cell) => cells.get(cell).copied().unwrap_or(last),
            None => (first.0, last.1),
        };
        Problem {
            span: Span { source, start, end },
            ..it.problem
        }
    });
    Refused {
        problems: problems.collect(),
        sources,
    }
}
