//! `compare`: what differs between two editions.

use super::arguments::{Compare, Format};
use super::input::{self, Unusable, json_failed};
use super::terminal::{self, Destination, ProgressLine};
use super::vet::ending;
use super::{Ending, Failure, files};
use crate::amendment;
use crate::analysis;
use crate::report::text::{Detail, Look};
use crate::report::{json, text};
use std::num::NonZeroUsize;
use std::thread;

pub(super) fn run(options: &Compare) -> Result<Ending, Failure> {
    let read = |path| input::ruleset(path, &[]);
    let editions = read(&options.old).and_then(|old| Ok((old, read(&options.new)?)));
    let (old, new) = match editions {
        Ok(editions) => editions,
        Err(wrong) => return unusable(options, wrong),
    };
    let progress = ProgressLine::new(options.quiet);
    let machine = || thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
    let memory = options.memory.map(std::num::NonZero::get);
    let asked = analysis::Options {
        jobs: options.jobs.unwrap_or_else(machine),
        budget: terminal::budget(options.seconds, memory),
        progress: &progress,
        ..analysis::Options::default()
    };
    let compared = amendment::compare(&old, &new, &asked);
    progress.finish();
    let report = match options.format {
        Format::Text => text::vetted(&compared, &[], &new.warnings, &look(options)),
        Format::Json => json::vetted(&compared, &[], &new.warnings).map_err(json_failed)?,
    };
    files::deliver(&report, options.output.as_deref(), &options.new)?;
    Ok(ending(&compared))
}

fn look(options: &Compare) -> Look {
    let detail = if options.quiet {
        Detail::Headlines
    } else {
        Detail::Digest
    };
    let destination = match options.output {
        Some(_) => Destination::File,
        None => Destination::Screen,
    };
    terminal::look(destination, options.color, detail)
}

fn unusable(options: &Compare, wrong: Unusable) -> Result<Ending, Failure> {
    let report = input::report(wrong, options.format, &look(options))?;
    files::deliver(&report, options.output.as_deref(), &options.new)?;
    Ok(Ending::Unusable)
}
