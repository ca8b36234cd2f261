//! `scenarios`: the incidents that teach most about a ruleset.

use super::arguments::{Format, Limits, Rules, Threads, Written};
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::terminal::{self, ProgressLine};
use super::{Ending, Failure};
use crate::analysis;
use crate::report::text::Detail;
use crate::report::{json, scenarios};
use crate::scenario::covering::Refusal;
use crate::scenario::{Asked, Nothing, Request, Sort, Telling, meant, telling};
use clap::{Args, ValueEnum};

#[derive(Debug, Args)]
#[command(after_long_help = HELP)]
pub(super) struct Scenarios {
    #[command(flatten)]
    rules: Rules,
    /// Show this sort of scenario; may be repeated
    #[arg(long, value_enum, value_name = "SORT")]
    sort: Vec<SortName>,
    /// Show few scenarios in which every N values that can occur together do so
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=4))]
    covering: Option<u8>,
    /// Combine the values of this attribute in the covering set, and of no others; may be repeated
    #[arg(long, value_name = "ATTRIBUTE", requires = "covering")]
    among: Vec<String>,
    /// Show what this clause is about: its id, the number of its group, or a heading; may be repeated
    #[arg(long, value_name = "ID")]
    clause: Vec<String>,
    /// Show only incidents of which this condition is true (of two, one of them); may be repeated
    #[arg(long, value_name = "CONDITION")]
    given: Vec<String>,
    /// Show only incidents that are ruled so (of two, one of them), such as "penalty is none"
    #[arg(long, value_name = "CONDITION")]
    ruled: Vec<String>,
    /// Show no more than so many, picked by chance
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    count: Option<u32>,
    /// What chance begins with: the same number picks the same
    #[arg(long, value_name = "N", default_value_t = 1)]
    seed: u64,
    /// What to print
    #[arg(long, value_enum, default_value_t = PageFormat::Text)]
    format: PageFormat,
    #[command(flatten)]
    written: Written,
    #[command(flatten)]
    threads: Threads,
    #[command(flatten)]
    limits: Limits,
}

const HELP: &str = "\
Without --sort and --covering it shows a contrast pair for each clause.

  evenhand scenarios book.yaml --clause 7.1 --sort parts
  evenhand scenarios book.yaml --ruled \"penalty is none\" --count 20 --seed 3
  evenhand scenarios book.yaml --covering 2 --among phase --among action
  evenhand scenarios book.yaml --sort all --format markdown --output book-scenarios.md

Exit codes:
  0  the scenarios are shown
  2  the ruleset or the call can't be used
  3  something stayed undecided";

/// What kind of scenario is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum SortName {
    /// Two incidents one fact apart for each clause: it is met, and it is not
    Pairs,
    /// The same for each part of each clause's condition
    Parts,
    /// Each number at which a ruling turns, with one step below and above
    Thresholds,
    /// Clauses that are met at once and would rule differently
    Competing,
    /// Incidents in which a vague term can be read either way
    Grey,
    /// What is legal next to what each clause bans
    Legal,
    /// All of these
    All,
}

impl SortName {
    fn sorts(self) -> &'static [Sort] {
        match self {
            SortName::Pairs => &[Sort::Clauses],
            SortName::Parts => &[Sort::Parts],
            SortName::Thresholds => &[Sort::Thresholds],
            SortName::Competing => &[Sort::Competing],
            SortName::Grey => &[Sort::Grey],
            SortName::Legal => &[Sort::Legal],
            SortName::All => &Sort::ALL,
        }
    }
}

/// What a page is printed as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum PageFormat {
    /// Words, for people
    Text,
    /// Markdown, to be printed or pasted
    Markdown,
    /// JSON, for programs
    Json,
}

impl PageFormat {
    /// What is wrong is printed as this.
    pub(super) fn of_problems(self) -> Format {
        match self {
            PageFormat::Json => Format::Json,
            PageFormat::Text | PageFormat::Markdown => Format::Text,
        }
    }
}

pub(super) fn run(options: &Scenarios) -> Result<Ending, Failure> {
    let delivery = Delivery {
        written: &options.written,
        format: options.format.of_problems(),
        detail: Detail::Whole,
        inputs: options.rules.files(),
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let ruleset = &loaded.ruleset;
    let asked = Asked {
        clauses: options.clause.clone(),
        given: options.given.clone(),
        ruled: options.ruled.clone(),
        among: options.among.clone(),
        dimensions: Vec::new(),
    };
    let meant = match meant(ruleset, &asked) {
        Ok(meant) => meant,
        Err(refused) => return delivery.unusable(refused),
    };
    let progress = ProgressLine::new(false);
    let budget = terminal::budget(&options.limits);
    if let Some(problem) = analysis::no_scenario(ruleset, &budget) {
        progress.finish();
        return delivery.problems(&ruleset.sources, vec![problem]);
    }
    let mut sorts: Vec<Sort> = options
        .sort
        .iter()
        .flat_map(|sort| sort.sorts())
        .copied()
        .collect();
    if sorts.is_empty() && options.covering.is_none() {
        sorts.push(Sort::Clauses);
    }
    let request = Request {
        wanted: meant.wanted,
        sorts,
        covering: options.covering.map(usize::from),
        among: meant.among,
        count: options.count.and_then(|count| usize::try_from(count).ok()),
        seed: options.seed,
        jobs: Some(options.threads.number()),
    };
    let told = telling(ruleset, &request, &budget);
    progress.finish();
    let page = match options.format {
        PageFormat::Text => scenarios::text(ruleset, &told, &delivery.look()),
        PageFormat::Markdown => scenarios::markdown(ruleset, &told),
        PageFormat::Json => json::scenarios(ruleset, &told).map_err(json_failed)?,
    };
    delivery.deliver(&page)?;
    Ok(ending(&told))
}

fn ending(told: &Telling) -> Ending {
    let open = told.nothing.iter().any(Nothing::is_open);
    let too_many = matches!(told.covering, Some(Err(Refusal::TooMany(_))));
    let uncovered = match &told.covering {
        Some(Ok(covering)) => !covering.open.is_empty(),
        Some(Err(_)) => true,
        None => false,
    };
    if too_many {
        Ending::Unusable
    } else if open || uncovered || told.stopped.is_some() {
        Ending::Undecided
    } else {
        Ending::InOrder
    }
}
