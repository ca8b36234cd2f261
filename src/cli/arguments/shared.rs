//! What several commands take alike; each command flattens in what it needs.

use super::Color;
use clap::Args;
use std::num::{NonZeroU32, NonZeroUsize};
use std::path::{Path, PathBuf};
use std::str::FromStr;
use std::thread;
use std::time::Duration;

/// A ruleset, and what is laid over it.
#[derive(Debug, Args)]
pub(in crate::cli) struct Rules {
    /// The ruleset file; `-` reads standard input
    pub(in crate::cli) ruleset: PathBuf,
    /// Lay this amendment over the ruleset first; may be repeated, in order
    #[arg(long, value_name = "AMENDMENT")]
    pub(in crate::cli) with: Vec<PathBuf>,
}

impl Rules {
    /// Every file that the ruleset is made from.
    pub(in crate::cli) fn files(&self) -> Vec<&Path> {
        let with = self.with.iter().map(PathBuf::as_path);
        std::iter::once(self.ruleset.as_path())
            .chain(with)
            .collect()
    }
}

/// Where a report goes, and its colours.
#[derive(Debug, Args)]
pub(in crate::cli) struct Written {
    /// Write the report to this file instead of printing it
    #[arg(long, short, value_name = "FILE")]
    pub(in crate::cli) output: Option<PathBuf>,
    #[command(flatten)]
    pub(in crate::cli) painted: Painted,
}

/// The colours of a report.
#[derive(Debug, Args)]
pub(in crate::cli) struct Painted {
    /// Whether to use colours
    #[arg(long, value_enum, default_value_t = Color::Auto, value_name = "WHEN")]
    pub(in crate::cli) color: Color,
}

/// How many work at once.
#[derive(Debug, Args)]
pub(in crate::cli) struct Threads {
    /// How many threads may work; as many as the machine has, if left out
    #[arg(long, short, value_name = "N", allow_negative_numbers = true, value_parser = jobs)]
    jobs: Option<NonZeroUsize>,
}

impl Threads {
    /// How many may work; what the machine has, where nothing was typed.
    pub(in crate::cli) fn number(&self) -> NonZeroUsize {
        let machine = || thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
        self.jobs.unwrap_or_else(machine)
    }
}

/// How much an answer may cost.
#[derive(Debug, Args)]
pub(in crate::cli) struct Limits {
    /// How many seconds it may take, such as 60 or 0.5; what stays open then is said
    #[arg(long, value_name = "S", allow_negative_numbers = true, value_parser = seconds)]
    pub(in crate::cli) seconds: Option<Duration>,
    /// How many mebibytes of memory the solver may take
    #[arg(long, value_name = "MIB", allow_negative_numbers = true, value_parser = mebibytes)]
    pub(in crate::cli) memory: Option<NonZeroU32>,
}

/// Reads a time above 0, in decimal seconds.
fn seconds(typed: &str) -> Result<Duration, String> {
    let plain = typed
        .chars()
        .all(|sign| sign.is_ascii_digit() || sign == '.');
    let number = typed.parse().ok().filter(|_| plain);
    number
        .and_then(|number| Duration::try_from_secs_f64(number).ok())
        .filter(|time| !time.is_zero())
        .ok_or_else(|| "a number of seconds above 0, such as 60 or 0.5".to_owned())
}

fn jobs(typed: &str) -> Result<NonZeroUsize, String> {
    whole(typed, "a whole number of threads, 1 or more")
}

fn mebibytes(typed: &str) -> Result<NonZeroU32, String> {
    whole(typed, "a whole number of mebibytes, 1 or more")
}

fn whole<N: FromStr>(typed: &str, expected: &str) -> Result<N, String> {
    typed.parse().map_err(|_| expected.to_owned())
}
