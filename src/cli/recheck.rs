//! `recheck`: whether a record holds.

use super::arguments::{Format, Recheck};
use super::terminal::{self, Destination};
use super::{Ending, Failure, files, folder, input};
use crate::proof::recheck::{Report, Unreadable, manifest, recheck};
use crate::report::json;
use crate::report::text::{self, Detail};
use std::path::PathBuf;

pub(super) fn run(options: &Recheck) -> Result<Ending, Failure> {
    let look = terminal::look(Destination::Screen, options.painted.color, Detail::Digest);
    let record = folder::read(&options.record)?;
    let unreadable = |Unreadable(why): Unreadable| {
        Failure(format!("{} is no record: {why}", options.record.display()))
    };
    let made_of = manifest(&record).map_err(unreadable)?.ruleset.file;
    let path = match &options.ruleset {
        Some(path) => path.clone(),
        None => found(options, &made_of)?,
    };
    let (loaded, fingerprint) = match input::fingerprinted(&path) {
        Ok(read) => read,
        Err(unusable) => {
            files::print(&input::report(unusable, options.format, &look)?)?;
            return Ok(Ending::Unusable);
        }
    };
    let report = recheck(&loaded.ruleset, &fingerprint, &record).map_err(unreadable)?;
    let printed = match options.format {
        Format::Text => text::rechecked(&loaded.ruleset, &report, &look),
        Format::Json => json::rechecked(&loaded.ruleset, &report).map_err(input::json_failed)?,
    };
    files::print(&printed)?;
    Ok(ending(&report))
}

fn ending(report: &Report) -> Ending {
    if !report.refused.is_empty() {
        Ending::Faults
    } else if report.trusted.is_empty() {
        Ending::InOrder
    } else {
        Ending::Undecided
    }
}

/// The ruleset of a record, where it stands beside it or where one is.
fn found(options: &Recheck, file: &str) -> Result<PathBuf, Failure> {
    let beside = options.record.join("..");
    let places = [
        beside.join("..").join("rulesets").join(file),
        beside.join("..").join(file),
        beside.join(file),
        PathBuf::from(file),
    ];
    let plain = !file.contains(['/', '\\']) && file != "..";
    let found = places.into_iter().find(|place| plain && place.is_file());
    found.ok_or_else(|| {
        let folder = options.record.display();
        Failure(format!(
            "the ruleset of this record, {file}, is not found; name it:  evenhand recheck {folder} RULESET"
        ))
    })
}
