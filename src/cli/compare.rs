//! `compare`: what differs between two editions.

use super::arguments::{Compare, Format};
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::terminal::{self, ProgressLine};
use super::vet::{detail, ending};
use super::{Ending, Failure};
use crate::amendment;
use crate::analysis;
use crate::report::{json, text};
use std::path::PathBuf;

pub(super) fn run(options: &Compare) -> Result<Ending, Failure> {
    let with = options.with.iter().map(PathBuf::as_path);
    let delivery = Delivery {
        written: &options.written,
        format: options.format,
        detail: detail(options.quiet),
        inputs: [options.old.as_path(), &options.new]
            .into_iter()
            .chain(with)
            .collect(),
    };
    let read = |path| input::edition(path, &options.with);
    let editions = read(&options.old).and_then(|old| Ok((old, read(&options.new)?)));
    let (old, new) = match editions {
        Ok(editions) => editions,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let progress = ProgressLine::new(options.quiet);
    let asked = analysis::Options {
        jobs: options.threads.number(),
        budget: terminal::budget(&options.limits),
        progress: &progress,
        ..analysis::Options::default()
    };
    let compared = amendment::compare(&old, &new, &asked);
    progress.finish();
    let report = match options.format {
        Format::Text => text::vetted(&compared, &[], &new.warnings, &delivery.look()),
        Format::Json => json::vetted(&compared, &[], &new.warnings).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(ending(&compared))
}
