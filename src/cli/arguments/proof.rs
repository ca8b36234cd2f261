//! What can be typed to make and to check records.

use super::{Color, Format, jobs, mebibytes, seconds};
use clap::Args;
use std::num::{NonZeroU32, NonZeroUsize};
use std::path::PathBuf;
use std::time::Duration;

#[derive(Debug, Args)]
#[command(after_long_help = PROVE_EXIT_CODES)]
pub(in crate::cli) struct Prove {
    /// The ruleset file; `-` reads standard input
    pub(in crate::cli) ruleset: PathBuf,
    /// The folder to write the record into; `proofs/` and the name of the ruleset, if left out
    #[arg(long, short, value_name = "FOLDER")]
    pub(in crate::cli) output: Option<PathBuf>,
    /// Whether to use colours
    #[arg(long, value_enum, default_value_t = Color::Auto, value_name = "WHEN")]
    pub(in crate::cli) color: Color,
    /// How many threads may work; as many as the machine has, if left out
    #[arg(long, short, value_name = "N", allow_negative_numbers = true, value_parser = jobs)]
    pub(in crate::cli) jobs: Option<NonZeroUsize>,
    /// How many seconds it may take, such as 60 or 0.5; what stays open then is said
    #[arg(long, value_name = "S", allow_negative_numbers = true, value_parser = seconds)]
    pub(in crate::cli) seconds: Option<Duration>,
    /// How many mebibytes of memory the solver may take
    #[arg(long, value_name = "MIB", allow_negative_numbers = true, value_parser = mebibytes)]
    pub(in crate::cli) memory: Option<NonZeroU32>,
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
    /// Whether to use colours
    #[arg(long, value_enum, default_value_t = Color::Auto, value_name = "WHEN")]
    pub(in crate::cli) color: Color,
}

const RECHECK_EXIT_CODES: &str = "\
Exit codes:
  0  everything recorded holds
  1  something does not hold
  2  the record, the ruleset or the call can't be used
  3  nothing is refuted, but something had to be taken on the word of solvers";
