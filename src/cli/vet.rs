//! `vet`: what drafts change, break, and touch beyond their scope.

use super::arguments::{Format, Vet};
use super::input::{self, Unusable, json_failed};
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure, files};
use crate::amendment::{self, Vetted};
use crate::analysis;
use crate::load::Layered;
use crate::report::text::{Detail, Look};
use crate::report::{json, text};
use std::num::NonZeroUsize;
use std::thread;

pub(super) fn run(options: &Vet) -> Result<Ending, Failure> {
    let all: Vec<_> = options
        .with
        .iter()
        .chain(&options.amendments)
        .cloned()
        .collect();
    let layered = input::layered(&options.ruleset, &all);
    let layered = layered.and_then(|layered| {
        let layered = layered.with_first_in_base(options.with.len());
        layered.map_err(Unusable::from)
    });
    let layered = match layered {
        Ok(layered) => layered,
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
    let found = vetted(&layered, &asked);
    progress.finish();
    let (together, alone) = match found {
        Ok(found) => found,
        Err(problems) => {
            let wrong = Unusable::Problems(layered.sources, problems);
            return unusable(options, wrong);
        }
    };
    let mut warnings = layered.warnings.clone();
    warnings.extend(layered.base.warnings.iter().cloned());
    let report = match options.format {
        Format::Text => text::vetted(&together, &alone, &warnings, &look(options)),
        Format::Json => json::vetted(&together, &alone, &warnings).map_err(json_failed)?,
    };
    files::deliver(&report, options.output.as_deref(), &options.ruleset)?;
    Ok(ending(&together))
}

type Found = (Vetted, Vec<(String, Vetted)>);

/// The drafts together and, where there are several, one by one.
fn vetted(
    layered: &Layered,
    options: &analysis::Options<'_>,
) -> Result<Found, Vec<crate::problem::Problem>> {
    let every: Vec<usize> = (0..layered.amendments.len()).collect();
    let together = amendment::vet(layered, &every, options)?;
    let mut alone = Vec::new();
    if every.len() > 1 {
        for (index, draft) in layered.amendments.iter().enumerate() {
            let vetted = amendment::vet(layered, &[index], options)?;
            alone.push((draft.title.value.clone(), vetted));
        }
    }
    Ok((together, alone))
}

fn look(options: &Vet) -> Look {
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

fn unusable(options: &Vet, wrong: Unusable) -> Result<Ending, Failure> {
    let report = input::report(wrong, options.format, &look(options))?;
    files::deliver(&report, options.output.as_deref(), &options.ruleset)?;
    Ok(Ending::Unusable)
}

pub(super) fn ending(vetted: &Vetted) -> Ending {
    match (vetted.does_harm(), vetted.is_open()) {
        (true, _) => Ending::Faults,
        (false, true) => Ending::Undecided,
        (false, false) => Ending::InOrder,
    }
}
