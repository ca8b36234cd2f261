//! Cases written out, so that they can be edited and read again without loss; and empty tables to
//! fill in.

use super::book::{Case, Found};
use super::columns::RESERVED;
use crate::labels;
use crate::logic::{Code, Written, written};
use crate::model::{AttributeId, AttributeKind, DimensionId, Ruleset};
use crate::read::draft::WhenSeveral;
use ::csv::Writer;
use rust_xlsxwriter::{DataValidation, Format, Workbook, XlsxError};
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// Why cases could not be written out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unwritten(pub String);

/// Whose column it is: the case's, or an official's.
type Whose<'c> = Option<&'c str>;

/// What a column holds.
#[derive(Clone, Copy)]
enum Column<'c> {
    Id,
    Date,
    Kind,
    Source,
    Fact(Whose<'c>, AttributeId),
    Ruled(Whose<'c>, DimensionId),
    Clauses(Whose<'c>),
    Note,
}

/// Rows that an empty spreadsheet has been prepared for.
const PREPARED_ROWS: u32 = 2_000;
/// The longest list of choices that a cell can offer, in characters: what the format allows.
const LONGEST_CHOICE: usize = 255;

/// The attributes that a table has columns for: those that are asked somewhere, in their order.
fn attributes(ruleset: &Ruleset) -> impl Iterator<Item = AttributeId> {
    (0..ruleset.attributes.len()).map(AttributeId::new)
}

fn dimensions(ruleset: &Ruleset) -> impl Iterator<Item = DimensionId> {
    (0..ruleset.dimensions.len()).map(DimensionId::new)
}

fn columns<'c>(ruleset: &Ruleset, officials: &BTreeSet<&'c str>) -> Vec<Column<'c>> {
    let mut columns = vec![Column::Id, Column::Date, Column::Kind, Column::Source];
    let whose = std::iter::once(None).chain(officials.iter().copied().map(Some));
    for who in whose {
        columns.extend(attributes(ruleset).map(|id| Column::Fact(who, id)));
        // What only other clauses read is announced by nobody.
        let announced =
            dimensions(ruleset).filter(|id| !ruleset[*id].intermediate || who.is_some());
        columns.extend(announced.map(|id| Column::Ruled(who, id)));
        columns.push(Column::Clauses(who));
    }
    columns.push(Column::Note);
    columns
}

impl Column<'_> {
    fn name(&self, ruleset: &Ruleset) -> String {
        let owned = |who: Whose<'_>, what: &str| match who {
            Some(name) => format!("by.{name}.{what}"),
            None => what.to_owned(),
        };
        match self {
            Column::Id => "id".to_owned(),
            Column::Date => "date".to_owned(),
            Column::Kind => "kind".to_owned(),
            Column::Source => "source".to_owned(),
            Column::Note => "note".to_owned(),
            Column::Clauses(who) => owned(*who, "clauses"),
            Column::Ruled(who, id) => owned(*who, &format!("ruled.{}", ruleset[*id].name)),
            Column::Fact(who, id) => {
                let name = &ruleset[*id].name;
                // An attribute may have the name of a column that says something else.
                if RESERVED.contains(&name.as_str()) {
                    owned(*who, &format!("fact.{name}"))
                } else {
                    owned(*who, name)
                }
            }
        }
    }

    fn cell(&self, ruleset: &Ruleset, case: &Case) -> String {
        let found = |who: Whose<'_>| -> Option<&Found> {
            match who {
                None => Some(&case.found),
                Some(name) => case.officials.get(name),
            }
        };
        let words = |words: &Option<String>| words.clone().unwrap_or_default();
        match self {
            Column::Id => case.id.clone(),
            Column::Date => words(&case.date),
            Column::Kind => words(&case.kind),
            Column::Source => words(&case.source),
            Column::Note => words(&case.note),
            Column::Clauses(who) => {
                found(*who).map_or_else(String::new, |found| found.clauses.join("|"))
            }
            Column::Fact(who, id) => {
                let code = found(*who).and_then(|found| found.facts.get(*id));
                code.map_or_else(String::new, |code| fact(ruleset, *id, code))
            }
            Column::Ruled(who, id) => {
                let ruled = found(*who).and_then(|found| found.on(*id));
                ruled.map_or_else(String::new, |_| {
                    let names = ruled_names(ruleset, *id, found(*who));
                    if names.is_empty() {
                        NOTHING.to_owned()
                    } else {
                        names.join("|")
                    }
                })
            }
        }
    }
}

/// What stands for no item at all, or nothing imposed.
const NOTHING: &str = "-";

fn fact(ruleset: &Ruleset, id: AttributeId, code: Code) -> String {
    match written(ruleset, id, code) {
        Written::Items(items) if items.is_empty() => NOTHING.to_owned(),
        Written::Items(items) => items.join("|"),
        other => other.to_string(),
    }
}

fn ruled_names<'r>(ruleset: &'r Ruleset, id: DimensionId, found: Option<&Found>) -> Vec<&'r str> {
    let ruled = found.and_then(|found| found.on(id)).unwrap_or_default();
    let values = ruleset[id].values.iter().enumerate();
    let named = values.filter(|(index, _)| ruled.contains(*index));
    named.map(|(_, value)| value.name.as_str()).collect()
}

fn officials(cases: &[Case]) -> BTreeSet<&str> {
    let all = cases.iter().flat_map(|case| case.officials.keys());
    all.map(String::as_str).collect()
}

/// Whether intermediate rulings stand in some case: then they need columns too.
fn all_columns<'c>(ruleset: &Ruleset, cases: &'c [Case]) -> Vec<Column<'c>> {
    let mut columns = columns(ruleset, &officials(cases));
    let used = |id: &DimensionId| cases.iter().any(|case| case.found.on(*id).is_some());
    let more = dimensions(ruleset).filter(|id| ruleset[*id].intermediate && used(id));
    columns.extend(more.map(|id| Column::Ruled(None, id)));
    columns
}

/// Cases as a table with commas.
///
/// # Errors
/// Why it can't be written.
pub fn csv(ruleset: &Ruleset, cases: &[Case]) -> Result<String, Unwritten> {
    table(ruleset, &all_columns(ruleset, cases), cases)
}

/// An empty table to fill in: a header and nothing below it.
///
/// # Errors
/// Why it can't be written.
pub fn template_csv(ruleset: &Ruleset) -> Result<String, Unwritten> {
    table(ruleset, &columns(ruleset, &BTreeSet::new()), &[])
}

fn table(ruleset: &Ruleset, columns: &[Column<'_>], cases: &[Case]) -> Result<String, Unwritten> {
    let failed = |error: &dyn std::fmt::Display| Unwritten(error.to_string());
    let mut writer = Writer::from_writer(Vec::new());
    let header = columns.iter().map(|column| column.name(ruleset));
    writer
        .write_record(header)
        .map_err(|error| failed(&error))?;
    for case in cases {
        let cells = columns.iter().map(|column| column.cell(ruleset, case));
        writer.write_record(cells).map_err(|error| failed(&error))?;
    }
    let bytes = writer.into_inner().map_err(|error| failed(&error))?;
    String::from_utf8(bytes).map_err(|error| failed(&error))
}

/// Cases as a spreadsheet (.xlsx).
///
/// # Errors
/// Why it can't be written.
pub fn sheet(ruleset: &Ruleset, cases: &[Case]) -> Result<Vec<u8>, Unwritten> {
    made(ruleset, &all_columns(ruleset, cases), cases)
}

/// An empty spreadsheet to fill in: each column under its name, with the choices that it has, and a
/// second sheet that says what each is.
///
/// # Errors
/// Why it can't be written.
pub fn template_sheet(ruleset: &Ruleset) -> Result<Vec<u8>, Unwritten> {
    made(ruleset, &columns(ruleset, &BTreeSet::new()), &[])
}

fn made(ruleset: &Ruleset, columns: &[Column<'_>], cases: &[Case]) -> Result<Vec<u8>, Unwritten> {
    spreadsheet(ruleset, columns, cases).map_err(|error| Unwritten(error.to_string()))
}

fn spreadsheet(
    ruleset: &Ruleset,
    columns: &[Column<'_>],
    cases: &[Case],
) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    // The same cases give the same bytes on any day.
    let day = rust_xlsxwriter::ExcelDateTime::from_ymd(2000, 1, 1)?;
    book.set_properties(&rust_xlsxwriter::DocProperties::new().set_creation_datetime(&day));
    let strong = Format::new().set_bold();
    let text = Format::new().set_num_format("@");
    let page = book.add_worksheet();
    page.set_name("cases")?;
    page.set_freeze_panes(1, 0)?;
    for (column, at) in columns.iter().zip(0u16..) {
        let name = column.name(ruleset);
        page.write_string_with_format(0, at, &name, &strong)?;
        let width = name.chars().count().clamp(8, 40);
        page.set_column_width(at, u32::try_from(width + 2).unwrap_or(42))?;
        // As text, so that 7.10 stays what was typed.
        page.set_column_format(at, &text)?;
        if let Some(choices) = choices(ruleset, column) {
            let offered = DataValidation::new().allow_list_strings(&choices)?;
            let offered = offered
                .set_error_title("Not one of the choices")?
                .set_error_message(
                    "Pick one of the list, or leave the cell empty where it was not established.",
                )?;
            page.add_data_validation(1, at, PREPARED_ROWS, at, &offered)?;
        }
    }
    for (case, row) in cases.iter().zip(1u32..) {
        for (column, at) in columns.iter().zip(0u16..) {
            let cell = column.cell(ruleset, case);
            if !cell.is_empty() {
                page.write_string_with_format(row, at, &cell, &text)?;
            }
        }
    }
    let guide = book.add_worksheet();
    guide.set_name("columns")?;
    guide.set_column_width(0, 28)?;
    guide.set_column_width(1, 90)?;
    guide.write_string_with_format(0, 0, "column", &strong)?;
    guide.write_string_with_format(0, 1, "what it holds", &strong)?;
    for (column, row) in columns.iter().zip(1u32..) {
        guide.write_string(row, 0, column.name(ruleset))?;
        guide.write_string(row, 1, said(ruleset, column))?;
    }
    book.save_to_buffer()
}

/// The values that one can pick from, where there are few enough for a list.
fn choices(ruleset: &Ruleset, column: &Column<'_>) -> Option<Vec<String>> {
    let names = |values: &[crate::model::NamedValue]| -> Vec<String> {
        values.iter().map(|value| value.name.clone()).collect()
    };
    let all = match column {
        Column::Fact(_, id) => match &ruleset[*id].kind {
            AttributeKind::YesNo => vec!["yes".to_owned(), "no".to_owned()],
            AttributeKind::Choice(values) | AttributeKind::Scale(values) => names(values),
            AttributeKind::Number(_) | AttributeKind::Several(_) => return None,
        },
        Column::Ruled(_, id) if ruleset[*id].when_several == WhenSeveral::AllApply => return None,
        Column::Ruled(_, id) => names(&ruleset[*id].values),
        _ => return None,
    };
    let length: usize = all.iter().map(|name| name.encode_utf16().count() + 1).sum();
    let plain = all
        .iter()
        .all(|name| !name.contains(',') && !name.contains('"'));
    (plain && length <= LONGEST_CHOICE).then_some(all)
}

/// What a column holds, in words.
fn said(ruleset: &Ruleset, column: &Column<'_>) -> String {
    match column {
        Column::Id => "by which reports name the case".to_owned(),
        Column::Date => "when it was, in any form".to_owned(),
        Column::Kind => {
            "which instrument it stands in: case, clarification, interpretation".to_owned()
        }
        Column::Source => "where it was taken from".to_owned(),
        Column::Note => "anything else".to_owned(),
        Column::Clauses(_) => "the clauses that the ruling cited, split by |".to_owned(),
        Column::Fact(_, id) => {
            let label = labels::attribute(ruleset, &ruleset[*id]);
            let values = match &ruleset[*id].kind {
                AttributeKind::YesNo => "yes or no".to_owned(),
                AttributeKind::Choice(values) | AttributeKind::Scale(values) => {
                    let names: Vec<&str> = values.iter().map(|value| value.name.as_str()).collect();
                    format!("one of {}", names.join(", "))
                }
                AttributeKind::Several(values) => {
                    let names: Vec<&str> = values.iter().map(|value| value.name.as_str()).collect();
                    format!(
                        "any of {}, split by |; {NOTHING} for none of them",
                        names.join(", ")
                    )
                }
                AttributeKind::Number(range) => {
                    format!(
                        "a number from {} to {}",
                        range.value(0),
                        range.value(range.steps)
                    )
                }
            };
            format!("{label}: {values}; empty where it was not established")
        }
        Column::Ruled(_, id) => {
            let label = labels::dimension(ruleset, *id);
            let names: Vec<&str> = ruleset[*id]
                .values
                .iter()
                .map(|value| value.name.as_str())
                .collect();
            format!(
                "what was ruled on {label}: {}; empty where nothing was",
                names.join(", ")
            )
        }
    }
}

/// Cases as a case book in YAML.
pub fn yaml(ruleset: &Ruleset, cases: &[Case]) -> String {
    let mut out = String::from("cases:\n");
    for case in cases {
        let _ = writeln!(out, "  - id: {}", quoted(&case.id));
        for (key, words) in [
            ("date", &case.date),
            ("kind", &case.kind),
            ("source", &case.source),
        ] {
            if let Some(words) = words {
                let _ = writeln!(out, "    {key}: {}", quoted(words));
            }
        }
        found(&mut out, ruleset, 4, &case.found);
        if !case.officials.is_empty() {
            out.push_str("    rulings_by:\n");
            for (name, official) in &case.officials {
                let _ = writeln!(out, "      {}:", quoted(name));
                found(&mut out, ruleset, 8, official);
            }
        }
        if let Some(note) = &case.note {
            let _ = writeln!(out, "    note: {}", quoted(note));
        }
    }
    if cases.is_empty() {
        "cases: []\n".clone_into(&mut out);
    }
    out
}

fn found(out: &mut String, ruleset: &Ruleset, indent: usize, found: &Found) {
    let blank = " ".repeat(indent);
    if !found.facts.is_empty() {
        let _ = writeln!(out, "{blank}facts:");
        for (id, code) in found.facts.facts() {
            let words = match written(ruleset, id, code) {
                Written::Items(items) => {
                    let items: Vec<String> = items.iter().map(|item| quoted(item)).collect();
                    format!("[{}]", items.join(", "))
                }
                Written::Word(word) => quoted(&word),
                other => other.to_string(),
            };
            let _ = writeln!(out, "{blank}  {}: {words}", quoted(&ruleset[id].name));
        }
    }
    if !found.ruled.is_empty() {
        let _ = writeln!(out, "{blank}ruled:");
        for (id, _) in &found.ruled {
            let names: Vec<String> = ruled_names(ruleset, *id, Some(found))
                .iter()
                .map(|name| quoted(name))
                .collect();
            let words = match ruleset[*id].when_several {
                WhenSeveral::AllApply => format!("[{}]", names.join(", ")),
                _ => names.join(", "),
            };
            let _ = writeln!(out, "{blank}  {}: {words}", quoted(&ruleset[*id].name));
        }
    }
    if !found.clauses.is_empty() {
        let ids: Vec<String> = found.clauses.iter().map(|id| quoted(id)).collect();
        let _ = writeln!(out, "{blank}clauses: [{}]", ids.join(", "));
    }
}

/// Words as YAML writes them: bare where nothing could be taken amiss.
fn quoted(words: &str) -> String {
    let letters = |sign: char| sign.is_ascii_alphanumeric() || sign == '_' || sign == '-';
    let bare = words.chars().all(letters)
        && words.starts_with(|sign: char| sign.is_ascii_alphabetic())
        && !["yes", "no", "true", "false", "null", "on", "off", "y", "n"]
            .contains(&words.to_ascii_lowercase().as_str());
    if bare {
        return words.to_owned();
    }
    let mut out = String::from("\"");
    for sign in words.chars() {
        match sign {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            sign if sign.is_control() || matches!(sign, '\u{2028}' | '\u{2029}' | '\u{feff}') => {
                let _ = write!(out, "\\u{:04x}", u32::from(sign));
            }
            sign => out.push(sign),
        }
    }
    out.push('"');
    out
}
