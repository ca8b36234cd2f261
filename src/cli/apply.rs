//! `apply`: the text of a ruleset with amendments in it.

use super::arguments::{Apply, Color, Format};
use super::input::{self, Unusable};
use super::terminal::{self, Destination};
use super::{Ending, Failure, files};
use crate::report::text::{self, Detail};
use std::path::{Path, PathBuf};

pub(super) fn run(options: &Apply) -> Result<Ending, Failure> {
    let layered = match input::layered(&options.ruleset, &options.amendments) {
        Ok(layered) => layered,
        Err(unusable) => return refuse(unusable),
    };
    let consolidated = match layered.consolidated() {
        Ok(text) => text,
        Err(problems) => return refuse(Unusable::Problems(layered.sources, problems)),
    };
    if !layered.warnings.is_empty() {
        let look = terminal::look(Destination::File, Color::Never, Detail::Digest);
        let told = text::warnings(&layered.sources, &layered.warnings, &look);
        terminal::complain(told.trim_end());
    }
    let drafts = options.amendments.iter().map(PathBuf::as_path);
    let inputs: Vec<&Path> = std::iter::once(options.ruleset.as_path())
        .chain(drafts)
        .collect();
    files::deliver(&consolidated, options.output.as_deref(), &inputs)?;
    Ok(Ending::InOrder)
}

/// What is printed is the text of a ruleset, so what is wrong goes beside it.
fn refuse(unusable: Unusable) -> Result<Ending, Failure> {
    let look = terminal::look(Destination::File, Color::Never, Detail::Digest);
    let report = input::report(unusable, Format::Text, &look)?;
    terminal::complain(report.trim_end());
    Ok(Ending::Unusable)
}
