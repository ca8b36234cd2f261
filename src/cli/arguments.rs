//! What can be typed, and the help that says so.

mod proof;
mod shared;

pub(super) use proof::{Prove, Recheck};
pub(super) use shared::{Limits, Painted, Rules, Threads, Written};

use super::scenarios::PageFormat;
use crate::analysis::KINDS;
use crate::model::Kind;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;
use std::path::PathBuf;

/// Shown where nothing was typed.
pub(super) const WELCOME: &str = "\
evenhand checks the rulebooks of sport: clauses that contradict each other,
incidents that no clause rules on, clauses that never count.

What to type first:
  evenhand new myrules           write a small commented ruleset, myrules.yaml
  evenhand check myrules.yaml    check it
  evenhand ruling myrules.yaml   ask what it says about one incident
  evenhand explain               what it looks for, kind by kind
  evenhand help                  everything else";

/// Checks the rulebooks of sport for contradictions, gaps and clauses that never count, and proves
/// what it finds.
#[derive(Debug, Parser)]
#[command(
    name = "evenhand",
    version,
    max_term_width = 80,
    arg_required_else_help = true,
    subcommand_required = true
)]
pub(super) struct Line {
    #[command(subcommand)]
    pub(super) command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Check a ruleset: every finding, and what was proved free of them
    Check(Check),
    /// Vet drafts of amendments: what they change, break, and touch beyond their scope
    Vet(Vet),
    /// Compare two editions of a ruleset: which rulings differ
    Compare(Compare),
    /// Write amendments into a ruleset: the consolidated text
    Apply(Apply),
    /// Say how one incident is ruled, and why; with facts missing, what is still possible
    Ruling(Ruling),
    /// Say under which general conditions something is ruled so
    When(When),
    /// Record what each verdict rests on, for someone else to check
    Prove(Prove),
    /// Check a record, trusting no solver
    Recheck(Recheck),
    /// Hold a case book or an incident log against the text
    Cases(Cases),
    /// Write one page to open in a browser, print and circulate
    Report(super::report::Report),
    /// Show the incidents that teach most: contrast pairs, thresholds, covering sets
    Scenarios(super::scenarios::Scenarios),
    /// Say what rests on a thing, and what it can change of it, by proof
    Affected(super::affected::Affected),
    /// Make questions with a key: situations in parts that differ in one fact
    Quiz(super::quiz::Quiz),
    /// Show what rests on what: attributes, terms, clauses, rulings, principles
    Graph(super::graph::Graph),
    /// Write a small commented ruleset to start from
    New(New),
    /// Tell what a kind of finding means, with an example, and how to mend it
    Explain(Explain),
    /// Print what lets a shell complete the commands
    Completions {
        /// The shell
        shell: Shell,
    },
    /// Print the manual page
    Man,
}

#[derive(Debug, Args)]
#[command(after_long_help = EXIT_CODES)]
pub(super) struct Check {
    #[command(flatten)]
    pub(super) rules: Rules,
    /// What to print
    #[arg(long, value_enum, default_value_t = Findings::Text)]
    pub(super) format: Findings,
    #[command(flatten)]
    pub(super) written: Written,
    #[command(flatten)]
    pub(super) threads: Threads,
    #[command(flatten)]
    pub(super) limits: Limits,
    /// Look for this kind of finding alone, and show all of it; may be repeated
    #[arg(long, value_name = "KIND", value_parser = kind(KINDS))]
    pub(super) only: Vec<Kind>,
    /// Say what would mend the findings, and write it to this new file as a draft amendment; nothing is
    /// changed by itself
    #[arg(long, value_name = "FILE")]
    pub(super) repairs: Option<PathBuf>,
    /// Print the headlines of faults and the summary alone
    #[arg(long, short)]
    pub(super) quiet: bool,
}

/// A case book, or a log of incidents.
#[derive(Debug, Args)]
#[command(after_long_help = CASES_HELP)]
pub(super) struct Cases {
    #[command(flatten)]
    pub(super) rules: Rules,
    /// The case book: YAML (.yaml), a table (.csv) or a spreadsheet (.xlsx)
    #[arg(value_name = "CASES")]
    pub(super) book: Option<PathBuf>,
    /// What to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    #[command(flatten)]
    pub(super) written: Written,
    /// Print an empty table to fill in, made for this ruleset, or write it to the file of --output
    #[arg(long, value_enum, value_name = "FORM", conflicts_with_all = ["book", "export"])]
    pub(super) template: Option<Table>,
    /// Write the cases to a new file, in the form that its name ends in
    #[arg(long, value_name = "FILE")]
    pub(super) export: Option<PathBuf>,
    /// Show every case, not only the first of each sort
    #[arg(long)]
    pub(super) all: bool,
    #[command(flatten)]
    pub(super) threads: Threads,
    #[command(flatten)]
    pub(super) limits: Limits,
    /// Print the summary and a line for each case
    #[arg(long, short)]
    pub(super) quiet: bool,
}

/// A table that people fill in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Table {
    /// Text with commas
    Csv,
    /// A spreadsheet with choices to pick from
    Xlsx,
}

const CASES_HELP: &str = "\
Exit codes:
  0  no case disagrees with the text, or with another; some may not be decided
  1  a case disagrees, or cites a clause that is gone
  2  the ruleset, the case book or the call can't be used
  3  something stayed undecided for want of time, and nothing disagrees";

const EXIT_CODES: &str = "\
Exit codes:
  0  nothing is at fault; warnings and notes may stand
  1  faults were found
  2  the ruleset or the call can't be used
  3  something stayed undecided, and nothing was at fault";

#[derive(Debug, Args)]
#[command(after_long_help = "\
Exit codes:
  0  the drafts do no harm
  1  they do: a fault that they bring in, a change outside their scope, a change
     though they claim to be editorial
  2  the ruleset, a draft or the call can't be used
  3  something stayed undecided, and no harm was found")]
pub(super) struct Vet {
    #[command(flatten)]
    pub(super) rules: Rules,
    /// Write the amendments that would be needed besides to this new file; where the drafts can't stand
    /// without them, vet them together
    #[arg(long, value_name = "FILE")]
    pub(super) consequential: Option<PathBuf>,
    /// The drafts, in the order in which they would be made; several are vetted together and one by one
    #[arg(required = true)]
    pub(super) amendments: Vec<PathBuf>,
    /// Say of which cases of this case book the answer changes; it is one to the rules as they are
    #[arg(long, value_name = "CASES")]
    pub(super) cases: Option<PathBuf>,
    /// What to print
    #[arg(long, value_enum, default_value_t = PageFormat::Text)]
    pub(super) format: PageFormat,
    #[command(flatten)]
    pub(super) written: Written,
    #[command(flatten)]
    pub(super) threads: Threads,
    #[command(flatten)]
    pub(super) limits: Limits,
    /// Print the verdict alone
    #[arg(long, short)]
    pub(super) quiet: bool,
}

#[derive(Debug, Args)]
#[command(after_long_help = "\
Exit codes:
  0  the new edition brings in no fault
  1  it does
  2  a ruleset or the call can't be used
  3  something stayed undecided, and no new fault was found")]
pub(super) struct Compare {
    /// The edition as it was
    pub(super) old: PathBuf,
    /// The edition as it is
    pub(super) new: PathBuf,
    /// Lay this amendment over both editions first; may be repeated, in order
    #[arg(long, value_name = "AMENDMENT")]
    pub(super) with: Vec<PathBuf>,
    /// Say of which cases of this case book the answer changes; it is one to the edition as it was
    #[arg(long, value_name = "CASES")]
    pub(super) cases: Option<PathBuf>,
    /// What to print
    #[arg(long, value_enum, default_value_t = PageFormat::Text)]
    pub(super) format: PageFormat,
    #[command(flatten)]
    pub(super) written: Written,
    #[command(flatten)]
    pub(super) threads: Threads,
    #[command(flatten)]
    pub(super) limits: Limits,
    /// Print the verdict alone
    #[arg(long, short)]
    pub(super) quiet: bool,
}

#[derive(Debug, Args)]
#[command(after_long_help = "\
What no amendment touches keeps every byte: comments, order and layout.

Exit codes:
  0  the text is written
  2  the ruleset, an amendment or the call can't be used")]
pub(super) struct Apply {
    /// The ruleset file; `-` reads standard input
    pub(super) ruleset: PathBuf,
    /// The amendments, in the order in which they are laid over it
    #[arg(required = true)]
    pub(super) amendments: Vec<PathBuf>,
    /// Write the text to this file instead of printing it
    #[arg(long, short, value_name = "FILE")]
    pub(super) output: Option<PathBuf>,
}

#[derive(Debug, Args)]
#[command(after_long_help = RULING_HELP)]
pub(super) struct Ruling {
    #[command(flatten)]
    pub(super) rules: Rules,
    /// A file with the facts of one incident
    pub(super) scenario: Option<PathBuf>,
    /// A fact, such as deliberate=yes, `seconds_held=20` or touching=hand|knee; may be repeated, and
    /// takes the place of one in the file
    #[arg(long, value_name = "NAME=VALUE")]
    pub(super) fact: Vec<String>,
    /// Ask for what is missing, question by question
    #[arg(long)]
    pub(super) ask: bool,
    /// Look at this dimension of rulings alone; may be repeated
    #[arg(long, value_name = "NAME")]
    pub(super) dimension: Vec<String>,
    /// Write the whole order of questions instead, fewest on average first
    #[arg(long)]
    pub(super) protocol: bool,
    /// What to print
    #[arg(long, value_enum, default_value_t = Paper::Text)]
    pub(super) format: Paper,
    #[command(flatten)]
    pub(super) written: Written,
    #[command(flatten)]
    pub(super) limits: Limits,
}

#[derive(Debug, Args)]
#[command(after_long_help = WHEN_HELP)]
pub(super) struct When {
    #[command(flatten)]
    pub(super) rules: Rules,
    /// What is to be so: a condition over rulings and facts, such as "penalty is none"
    pub(super) condition: String,
    /// Look only among incidents of which this condition is true
    #[arg(long, value_name = "CONDITION")]
    pub(super) given: Option<String>,
    /// What to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    #[command(flatten)]
    pub(super) written: Written,
    #[command(flatten)]
    pub(super) limits: Limits,
}

const RULING_HELP: &str = "\
Without a scenario and without facts it asks for them on a terminal. A scenario file:
  scenario: R-14
  facts:
    phase: ground
    touching: [hand, knee]

Exit codes:
  0  there is an answer
  1  the text gives no ruling where one is due, or its rulings clash
  2  the input or the call can't be used
  3  something stayed undecided";

const WHEN_HELP: &str = "\
For example:
  evenhand when rules.yaml \"penalty is none and play is continues\" --given \"phase is ground\"

Exit codes:
  0  there is a whole answer
  2  the input or the call can't be used
  3  something stayed undecided";

#[derive(Debug, Args)]
pub(super) struct New {
    /// The file to write; `.yaml` is added where it has no ending
    pub(super) name: PathBuf,
}

#[derive(Debug, Args)]
pub(super) struct Explain {
    /// The kind of finding; all kinds are listed, if left out
    #[arg(value_parser = kind(Kind::ALL))]
    pub(super) kind: Option<Kind>,
    #[command(flatten)]
    pub(super) painted: Painted,
}

/// What to print.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// Words and underlined source, for people
    Text,
    /// JSON, for programs
    Json,
}

/// What to print of a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Findings {
    /// Words and underlined source, for people
    Text,
    /// JSON, for programs
    Json,
    /// SARIF 2.1.0, for programs that show findings beside the lines of a file
    Sarif,
    /// Markdown, to be pasted into minutes or a letter
    Markdown,
    /// A table for a spreadsheet, a row each
    Csv,
}

impl Findings {
    /// What is wrong with a file is told as this; SARIF has its own.
    pub(super) fn of_problems(self) -> Format {
        match self {
            Findings::Json => Format::Json,
            Findings::Text | Findings::Sarif | Findings::Markdown | Findings::Csv => Format::Text,
        }
    }
}

/// What to print of a ruling.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Paper {
    /// Words, for people
    Text,
    /// Markdown, for an order of questions that is to be kept (with --protocol)
    Markdown,
    /// JSON, for programs
    Json,
}

/// Whether to use colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Color {
    /// On a terminal, unless `NO_COLOR` is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// Reads the name of one of these kinds of finding.
fn kind(kinds: &'static [Kind]) -> impl TypedValueParser<Value = Kind> {
    PossibleValuesParser::new(kinds.iter().map(|kind| kind.word())).try_map(|word| {
        Kind::from_word(&word).ok_or_else(|| format!("no kind of finding is called {word}"))
    })
}
