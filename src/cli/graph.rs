//! `graph`: what rests on what in a ruleset.

use super::arguments::{Format, Rules, Written};
use super::cases::all;
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::{Ending, Failure, files};
use crate::graph::{CaseBook, Graph as Net};
use crate::report::text::Detail;
use crate::report::{dot, json, text};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_long_help = "\
  evenhand graph book.yaml
  evenhand graph book.yaml --format dot --output book.dot

Exit codes:
  0  the graph is shown
  2  the ruleset or the call can't be used")]
pub(super) struct Graph {
    #[command(flatten)]
    rules: Rules,
    /// Put the cases of this case book into the graph
    #[arg(long, value_name = "CASES")]
    cases: Option<PathBuf>,
    /// What to print
    #[arg(long, value_enum, default_value_t = GraphFormat::Text)]
    format: GraphFormat,
    #[command(flatten)]
    written: Written,
}

/// What a graph is printed as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum GraphFormat {
    /// Sentences, for people
    Text,
    /// DOT, for programs that lay out graphs
    Dot,
    /// JSON, for programs
    Json,
}

pub(super) fn run(options: &Graph) -> Result<Ending, Failure> {
    let book = options.cases.as_deref();
    let delivery = Delivery {
        written: &options.written,
        format: match options.format {
            GraphFormat::Json => Format::Json,
            GraphFormat::Text | GraphFormat::Dot => Format::Text,
        },
        detail: Detail::Whole,
        inputs: options.rules.files().into_iter().chain(book).collect(),
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let ruleset = &loaded.ruleset;
    let cases = match book.map(|path| all(ruleset, path)).transpose() {
        Ok(cases) => cases,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let file = book.map(files::name).unwrap_or_default();
    let book = cases.as_ref().map(|cases| CaseBook { file: &file, cases });
    let graph = Net::new(ruleset, book);
    let report = match options.format {
        GraphFormat::Text => text::graph(ruleset, &graph, &delivery.look()),
        GraphFormat::Dot => dot::graph(ruleset, &graph),
        GraphFormat::Json => json::graph(ruleset, &graph).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(Ending::InOrder)
}
