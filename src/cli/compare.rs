//! `compare`: what differs between two editions.

use super::arguments::Compare;
use super::cases::all;
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::scenarios::PageFormat;
use super::terminal::{self, ProgressLine};
use super::vet::{detail, ending};
use super::{Ending, Failure};
use crate::amendment;
use crate::analysis;
use crate::report::{json, redline, text};
use std::path::PathBuf;

pub(super) fn run(options: &Compare) -> Result<Ending, Failure> {
    let files = options.with.iter().chain(&options.cases);
    let files = files.map(PathBuf::as_path);
    let delivery = Delivery {
        written: &options.written,
        format: options.format.of_problems(),
        detail: detail(options.quiet),
        inputs: [options.old.as_path(), &options.new]
            .into_iter()
            .chain(files)
            .collect(),
    };
    let read = |path| input::edition(path, &options.with);
    let editions = read(&options.old).and_then(|old| Ok((old, read(&options.new)?)));
    let (old, new) = match editions {
        Ok(editions) => editions,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let cases = options.cases.as_deref();
    let cases = match cases.map(|path| all(&old.ruleset, path)).transpose() {
        Ok(cases) => cases,
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
    let compared = match &cases {
        Some(cases) => compared.with_cases(cases, &asked.budget),
        None => compared,
    };
    progress.finish();
    let report = match options.format {
        PageFormat::Text => text::vetted(&compared, &[], &new.warnings, &delivery.look()),
        PageFormat::Markdown => redline::markdown(&compared, &[], &new.warnings),
        PageFormat::Json => json::vetted(&compared, &[], &new.warnings).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(ending(&compared))
}
