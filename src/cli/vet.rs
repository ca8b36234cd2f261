//! `vet`: what drafts change, break, and touch beyond their scope.

use super::arguments::{Rules, Vet};
use super::cases::all;
use super::delivery::Delivery;
use super::input::{self, Unusable, json_failed};
use super::scenarios::PageFormat;
use super::terminal::{self, ProgressLine};
use super::{Ending, Failure, files};
use crate::amendment::{self, Consequential, Vetted};
use crate::analysis;
use crate::load::Layered;
use crate::report::text::Detail;
use crate::report::{json, redline, text};
use std::path::{Path, PathBuf};

pub(super) fn run(options: &Vet) -> Result<Ending, Failure> {
    let files = options.amendments.iter().chain(&options.cases);
    let files = files.map(PathBuf::as_path);
    let delivery = Delivery {
        written: &options.written,
        format: options.format.of_problems(),
        detail: detail(options.quiet),
        inputs: options.rules.files().into_iter().chain(files).collect(),
    };
    let layered = drafts(&options.rules, &options.amendments);
    let layered = match layered {
        Ok(layered) => layered,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let titles = layered.amendments.iter();
    let titles: Vec<String> = titles.map(|draft| draft.title.value.clone()).collect();
    let (layered, references) = match &options.consequential {
        Some(_) => match with_references(layered, &titles) {
            Ok(layered) => layered,
            Err(wrong) => return delivery.unusable(wrong),
        },
        None => (layered, Consequential::default()),
    };
    let base = &layered.base.ruleset;
    let cases = options.cases.as_deref().map(|path| all(base, path));
    let cases = match cases.transpose() {
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
    let found = vetted(&layered, &asked);
    let found = found.map(|(together, alone)| match &cases {
        Some(cases) => (together.with_cases(cases, &asked.budget), alone),
        None => (together, alone),
    });
    progress.finish();
    let (together, alone) = match found {
        Ok(found) => found,
        Err(problems) => return delivery.problems(&layered.sources, problems),
    };
    if let Some(path) = &options.consequential {
        let all = references.and(&together.consequential);
        write_consequential(&all, &titles, &together, path)?;
    }
    let mut warnings = layered.warnings.clone();
    warnings.extend(layered.base.warnings.iter().cloned());
    let report = match options.format {
        PageFormat::Text => text::vetted(&together, &alone, &warnings, &delivery.look()),
        PageFormat::Markdown => redline::markdown(&together, &alone, &warnings),
        PageFormat::Json => json::vetted(&together, &alone, &warnings).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(ending(&together))
}

/// A ruleset with what is laid over it, and drafts to that.
pub(super) fn drafts(rules: &Rules, amendments: &[PathBuf]) -> Result<Layered, Unusable> {
    let both: Vec<PathBuf> = rules.with.iter().chain(amendments).cloned().collect();
    let layered = input::layered(&rules.ruleset, &both)?;
    Ok(layered.with_first_in_base(rules.with.len())?)
}

/// Lays over the drafts what would be needed so that no reference is left over, if that is all that is
/// in their way.
fn with_references(
    layered: Layered,
    titles: &[String],
) -> Result<(Layered, Consequential), Unusable> {
    let references = Consequential::of_references(&layered).unwrap_or_default();
    match references.draft(titles, &layered.base.ruleset.title, "") {
        Some(text) => {
            let more = layered.plus("consequential amendments", &text)?;
            Ok((more, references))
        }
        None => Ok((layered, references)),
    }
}

/// Writes the amendments that would be needed besides, if any are.
fn write_consequential(
    all: &Consequential,
    titles: &[String],
    vetted: &Vetted,
    path: &Path,
) -> Result<(), Failure> {
    let after = &vetted.after;
    if let Some(text) = all.draft(titles, &after.title, &after.edition) {
        return files::create(path, &text);
    }
    terminal::complain("no consequential amendments are needed; no file is written");
    Ok(())
}

/// The drafts together and, where there are several, one by one.
pub(super) type Found = (Vetted, Vec<(String, Vetted)>);

/// Vets drafts.
pub(super) fn vetted(
    layered: &Layered,
    options: &analysis::Options<'_>,
) -> Result<Found, Vec<crate::problem::Problem>> {
    let every: Vec<usize> = (0..layered.amendments.len()).collect();
    let together = amendment::vet(layered, &every, options)?;
    let mut alone = Vec::new();
    if every.len() > 1 {
        for (index, draft) in layered.amendments.iter().enumerate() {
            // A draft that can't stand without the others has nothing to say alone.
            if let Ok(vetted) = amendment::vet(layered, &[index], options) {
                alone.push((draft.title.value.clone(), vetted));
            }
        }
    }
    Ok((together, alone))
}

pub(super) fn detail(quiet: bool) -> Detail {
    if quiet {
        Detail::Headlines
    } else {
        Detail::Digest
    }
}

pub(super) fn ending(vetted: &Vetted) -> Ending {
    match (vetted.does_harm(), vetted.is_open()) {
        (true, _) => Ending::Faults,
        (false, true) => Ending::Undecided,
        (false, false) => Ending::InOrder,
    }
}
