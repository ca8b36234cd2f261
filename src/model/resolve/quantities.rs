//! Named constants, and tables of them.

use super::names::{Known, Named, Names};
use super::words::one_of;
use crate::model::{Attribute, AttributeId, AttributeKind, Number, Quantity, QuantityValue, Unit};
use crate::problem::{Problem, nearest};
use crate::read::draft::{QuantityDraft, QuantityValueDraft, Words};

/// Reads `20`, `20 s`, `7.26kg`; `None` for anything else.
pub(super) fn amount(text: &str) -> Option<(Number, Unit)> {
    let text = text.trim();
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .unwrap_or(text.len());
    let (digits, unit) = text.split_at(end);
    let unit = unit.trim();
    let one_word = unit
        .chars()
        .all(|c| c.is_alphanumeric() || "_/%‰°€$£".contains(c));
    let number = Number::parse(digits)?;
    match unit {
        "" => Some((number, Unit::None)),
        word if one_word => Some((number, Unit::Named(word.to_owned()))),
        _ => None,
    }
}

/// Takes the names of all quantities in, in the order in which [`quantities`] makes them.
pub(super) fn declare(drafts: &[QuantityDraft], names: &mut Names, problems: &mut Vec<Problem>) {
    let mut next = 0..;
    for draft in drafts {
        match &draft.value {
            QuantityValueDraft::Constant(_) => {
                names.declare(
                    &draft.name,
                    Named::Quantity(next.next().unwrap_or(0)),
                    problems,
                );
            }
            QuantityValueDraft::Table { columns, .. } => {
                names.declare(&draft.name, Named::Table, problems);
                for column in columns {
                    names.declare(column, Named::Quantity(next.next().unwrap_or(0)), problems);
                }
            }
        }
    }
}

/// The constants and columns, in order; what has a problem is marked as broken.
pub(super) fn quantities(
    drafts: &[QuantityDraft],
    attributes: &[Attribute],
    names: &mut Names,
    problems: &mut Vec<Problem>,
) -> Vec<Quantity> {
    let mut made = Vec::new();
    for draft in drafts {
        let before = problems.len();
        match &draft.value {
            QuantityValueDraft::Constant(words) => {
                let (number, unit) =
                    constant(words, problems).unwrap_or((Number::whole(0), Unit::None));
                made.push(Quantity {
                    name: draft.name.value.clone(),
                    value: QuantityValue::Constant(number, unit),
                    span: draft.name.span,
                });
                if problems.len() > before {
                    names.mark_broken(&draft.name.value);
                }
            }
            QuantityValueDraft::Table { by, columns, rows } => {
                let known = Known {
                    names,
                    attributes,
                    dimensions: &[],
                    quantities: &[],
                };
                let table = table(known, by, columns, rows, problems);
                let (by, mut cells) = table.unwrap_or((AttributeId::new(0), Vec::new()));
                cells.resize(columns.len(), Vec::new());
                for (column, cells) in columns.iter().zip(cells) {
                    made.push(Quantity {
                        name: column.value.clone(),
                        value: QuantityValue::Column { by, cells },
                        span: column.span,
                    });
                    if problems.len() > before {
                        names.mark_broken(&column.value);
                    }
                }
            }
        }
    }
    made
}

/// The problem of a number with more digits than can be worked with, where that is what is wrong.
pub(super) fn too_large(words: &Words) -> Option<Problem> {
    let text = words.value.trim();
    let digits = text.trim_start_matches('-');
    let end = digits.find(|sign: char| !(sign.is_ascii_digit() || sign == '.'));
    let digits = digits.get(..end.unwrap_or(digits.len()))?;
    let plain = digits.len() > 20 && digits.matches('.').count() <= 1 && !digits.ends_with('.');
    plain.then(|| {
        Problem::error(
            words.span,
            format!("`{text}` has too many digits to be worked with exactly"),
            "expected about 20 digits at most",
        )
    })
}

fn constant(words: &Words, problems: &mut Vec<Problem>) -> Option<(Number, Unit)> {
    let read = amount(&words.value);
    if read.is_none()
        && let Some(problem) = too_large(words)
    {
        problems.push(problem.help("write a smaller number, or another unit"));
    } else if read.is_none() {
        let headline = format!("`{}` is not an amount", words.value);
        problems.push(
            Problem::error(
                words.span,
                headline,
                "expected a number, with a unit or without",
            )
            .help("write it like `20 s`, `7.26 kg` or `3`"),
        );
    }
    read
}

/// The keys of a table beside its rows.
const TABLE_KEYS: &[&str] = &["by", "columns"];

type Cell = Option<(Number, Unit)>;

/// A table: the attribute, and for each column one cell for each of its values.
fn table(
    known: Known<'_>,
    by: &Words,
    columns: &[Words],
    rows: &[(Words, Vec<Words>)],
    problems: &mut Vec<Problem>,
) -> Option<(AttributeId, Vec<Vec<Cell>>)> {
    let read: Vec<(&Words, Vec<Cell>)> = rows
        .iter()
        .map(|(row, cells)| (row, row_cells(cells, problems)))
        .collect();
    for (index, column) in columns.iter().enumerate() {
        let written = rows.iter().filter_map(|(_, cells)| cells.get(index));
        one_kind(column, written, problems);
    }
    let id = match known.names.get(&by.value) {
        Some(Named::Attribute(id)) => id,
        Some(Named::Broken) => return None,
        _ => {
            problems.push(known.unknown(by, "an attribute with a `choice`", |named| {
                matches!(named, Named::Attribute(id) if known.attribute(id).is_some_and(is_choice))
            }));
            return None;
        }
    };
    let attribute = known.attribute(id)?;
    if !is_choice(attribute) {
        let headline = format!("a table cannot have a row for each value of `{}`", by.value);
        problems.push(
            Problem::error(by.span, headline, "expected an attribute with a `choice`")
                .other(attribute.span, "it is defined here"),
        );
        return None;
    }
    let values = attribute.kind.names();
    for value in values
        .iter()
        .filter(|value| TABLE_KEYS.contains(&value.name.as_str()))
    {
        problems.push(
            Problem::error(
                value.span,
                format!(
                    "`{}` is a key of tables, and no row can have this name",
                    value.name
                ),
                "expected another name for this value",
            )
            .other(
                by.span,
                format!("a table has a row for each value of `{}`", by.value),
            ),
        );
    }
    let mut cells: Vec<Vec<Cell>> = vec![vec![None; values.len()]; columns.len()];
    for (row, read) in read {
        let Some(at) = values.iter().position(|value| value.name == row.value) else {
            problems.push(no_such_row(row, attribute));
            continue;
        };
        for (column, cell) in cells.iter_mut().zip(read) {
            if let Some(slot) = column.get_mut(at) {
                *slot = cell;
            }
        }
    }
    Some((id, cells))
}

fn is_choice(attribute: &Attribute) -> bool {
    matches!(
        attribute.kind,
        AttributeKind::Choice(_) | AttributeKind::Scale(_)
    )
}

/// The cells of a row; that there is one for each column is held when a file is read.
fn row_cells(cells: &[Words], problems: &mut Vec<Problem>) -> Vec<Cell> {
    let cells = cells.iter().map(|cell| match cell.value.trim() {
        "-" => None,
        _ => constant(cell, problems),
    });
    cells.collect()
}

/// Holds that the cells of a column can be compared with each other.
fn one_kind<'a>(
    column: &Words,
    cells: impl Iterator<Item = &'a Words>,
    problems: &mut Vec<Problem>,
) {
    let mut first: Option<(&Words, Unit)> = None;
    for cell in cells {
        let Some((_, unit)) = amount(&cell.value) else {
            continue;
        };
        match &first {
            None => first = Some((cell, unit)),
            Some((earlier, other)) if unit.factor_to(other).is_none() => {
                let headline = format!(
                    "the column `{}` mixes units of different kinds",
                    column.value
                );
                problems.push(
                    Problem::error(cell.span, headline, "expected a unit of the same kind")
                        .other(earlier.span, "the first cell of the column"),
                );
            }
            Some(_) => {}
        }
    }
}

fn no_such_row(row: &Words, attribute: &Attribute) -> Problem {
    let values = attribute.kind.names();
    let names = || values.iter().map(|value| value.name.as_str());
    let headline = format!("`{}` is not a value of `{}`", row.value, attribute.name);
    let label = format!("expected a row for a value of `{}`", attribute.name);
    Problem::error(row.span, headline, label).help(match nearest(&row.value, names()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("its values are {}", one_of(names())),
    })
}

#[cfg(test)]
mod tests {
    use super::amount;

    #[test]
    fn amounts_are_a_number_and_at_most_one_unit() {
        let shown = |text| amount(text).map(|(number, unit)| format!("{number}|{unit}"));
        assert_eq!(shown("20 s").as_deref(), Some("20|s"));
        assert_eq!(shown("7.26kg").as_deref(), Some("7.26|kg"));
        assert_eq!(shown(" -3 ").as_deref(), Some("-3|"));
        assert_eq!(shown("2.0 m/s").as_deref(), Some("2|m/s"));
        assert_eq!(shown("90 °").as_deref(), Some("90|°"));
        for text in ["", "s", "20 s 3", "1,5 m", "5. m", "long_hold"] {
            assert_eq!(shown(text), None, "{text}");
        }
    }
}
