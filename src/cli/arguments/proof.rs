//! What can be typed to make and to check records.

use super::{Format, Limits, Painted, Threads};
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
#[command(after_long_help = PROVE_EXIT_CODES)]
pub(in crate::cli) struct Prove {
    /// The ruleset file; `-` reads standard input
    pub(in crate::cli) ruleset: PathBuf,
    /// The folder to write the record into; `proofs/` and the name of the ruleset, if left out
    #[arg(long, short, value_name = "FOLDER")]
    pub(in crate::cli) output: Option<PathBuf>,
    #[command(flatten)]
    pub(in crate::cli) painted: Painted,
    #[command(flatten)]
    pub(in crate::cli) threads: Threads,
    #[command(flatten)]
    pub(in crate::cli) limits: Limits,
}

const PROVE_EXIT_CODES: &str = "\
Exit codes:
  0  every verdict that can have a record has one, faults among them
  2  the ruleset or the call can't be used
  3  something stayed undecided";

#[derive(Debug, Args)]
#[command(after_long_help = RECHECK_EXIT_CODES)]
pub(in crate::cli) struct Recheck {
    /// The folder of the record
    pub(in crate::cli) record: PathBuf,
    /// The ruleset file; looked for beside the record and in `rulesets/`, if left out
    pub(in crate::cli) ruleset: Option<PathBuf>,
    /// What to print
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(in crate::cli) format: Format,
    #[command(flatten)]
    pub(in crate::cli) painted: Painted,
}

const RECHECK_EXIT_CODES: &str = "\
Exit codes:
  0  everything recorded holds
  1  something does not hold
  2  the record, the ruleset or the call can't be used
  3  nothing is refuted, but something had to be taken on the word of solvers";
