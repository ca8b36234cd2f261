//! `affected`: what rests on a thing, and what it can change of it.

use super::arguments::{Format, Limits, Rules, Written};
use super::cases::all;
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::terminal::{self, ProgressLine};
use super::{Ending, Failure, files};
use crate::analysis;
use crate::graph::{self, CaseBook, Graph, Unnamed};
use crate::report::text::Detail;
use crate::report::{json, text};
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_long_help = "\
  evenhand affected book.yaml 7.1 joint_attack
  evenhand affected book.yaml \"clause 7.1\" --incidents

Exit codes:
  0  there is a whole answer
  2  the ruleset or the call can't be used
  3  something stayed undecided")]
pub(super) struct Affected {
    #[command(flatten)]
    rules: Rules,
    /// A clause, a group, a heading, an attribute, a term, a quantity or a ruling; each is asked about
    /// by itself
    #[arg(required = true, value_name = "ID")]
    ids: Vec<String>,
    /// Ask about the cases of this case book too
    #[arg(long, value_name = "CASES")]
    cases: Option<PathBuf>,
    /// Show for everything that can change two incidents between which it does
    #[arg(long)]
    incidents: bool,
    /// What to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    written: Written,
    #[command(flatten)]
    limits: Limits,
}

pub(super) fn run(options: &Affected) -> Result<Ending, Failure> {
    let book = options.cases.as_deref();
    let delivery = Delivery {
        written: &options.written,
        format: options.format,
        detail: if options.incidents {
            Detail::Whole
        } else {
            Detail::Digest
        },
        inputs: options.rules.files().into_iter().chain(book).collect(),
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let ruleset = &loaded.ruleset;
    let cases = match book.map(|path| all(ruleset, path)).transpose() {
        Ok(cases) => cases.unwrap_or_default(),
        Err(wrong) => return delivery.unusable(wrong),
    };
    let file = book.map(files::name).unwrap_or_default();
    let graph = Graph::new(
        ruleset,
        Some(CaseBook {
            file: &file,
            cases: &cases,
        }),
    );
    let mut asked = Vec::new();
    for id in &options.ids {
        asked.push(graph::named(ruleset, &graph, id).map_err(|why| unnamed(id, why))?);
    }
    let budget = terminal::budget(&options.limits);
    if let Some(problem) = analysis::no_scenario(ruleset, &budget) {
        return delivery.problems(&ruleset.sources, vec![problem]);
    }
    let progress = ProgressLine::new(false);
    let found: Vec<graph::Affected<'_>> = asked
        .iter()
        .map(|things| graph::affected(ruleset, &graph, &cases, things, &budget, &progress))
        .collect();
    progress.finish();
    let report = match options.format {
        Format::Text => text::affected(ruleset, &graph, &found, &delivery.look()),
        Format::Json => json::affected(ruleset, &graph, &found).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(if found.iter().any(graph::Affected::is_open) {
        Ending::Undecided
    } else {
        Ending::InOrder
    })
}

fn unnamed(id: &str, why: Unnamed) -> Failure {
    Failure(match why {
        Unnamed::Unknown(Some(near)) => {
            format!("nothing in the ruleset is called `{id}`; did you mean `{near}`?")
        }
        Unnamed::Unknown(None) => format!(
            "nothing in the ruleset is called `{id}`; `evenhand graph RULESET` lists what there is"
        ),
        Unnamed::Several(several) => {
            let several: Vec<String> = several.iter().map(|it| format!("\"{it}\"")).collect();
            format!(
                "several things are called `{id}`; say which, in quotes: {}",
                several.join(" or ")
            )
        }
    })
}
