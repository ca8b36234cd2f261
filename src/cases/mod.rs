//! A case book, or a log of incidents, against the text of a ruleset.
//!
//! Cases come from YAML, from a table as text (CSV) or from a spreadsheet; each is held against what
//! the text says on the facts that were noted. A long log is read and judged a batch at a time.
//! This module refuses to know where files lie and how anything is printed.

mod agreement;
mod book;
mod columns;
mod csv;
mod export;
mod judge;
mod officials;
mod review;
mod same;
mod sheet;
mod text_says;

pub use agreement::{Agreement, Kappa, Pair, Rated, cohen, fleiss};
pub(crate) use officials::as_seen_by;

pub use book::{Case, Found, Place, Ruled, book};
pub use columns::{Columns, Row, RowProblem};
pub use csv::{Log, separator};
pub use export::{
    Unwritten, csv as to_csv, sheet as to_sheet, template_csv, template_sheet, yaml as to_yaml,
};
pub use judge::{Cited, Judge, Judged, OnDimension, Stance};
pub use officials::{Difference, Explanation};
pub use review::{Examples, Options, Review, Told, review, review_rows};
pub use same::{Inconsistent, Seen};
pub use sheet::{rows as sheet_rows, sheet_refused};
pub use text_says::{Missing, Possible, TextSays};
