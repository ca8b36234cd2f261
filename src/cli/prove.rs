//! `prove`: a record of every verdict, for someone else to check.

use super::arguments::{Format, Prove};
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure, files, folder, input};
use crate::analysis;
use crate::proof::prove::{Disagreement, Prover, Recorded};
use crate::report::caution::caution;
use crate::report::text::{self, Detail};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Where records go unless another folder is named.
const RECORDS: &str = "proofs";

pub(super) fn run(options: &Prove) -> Result<Ending, Failure> {
    let look = terminal::look(Destination::Screen, options.painted.color, Detail::Digest);
    let (loaded, fingerprint) = match input::fingerprinted(&options.ruleset) {
        Ok(read) => read,
        Err(unusable) => {
            files::print(&input::report(unusable, Format::Text, &look)?)?;
            return Ok(Ending::Unusable);
        }
    };
    let folder = match &options.output {
        Some(folder) => folder.clone(),
        None => own_folder(&options.ruleset)?,
    };
    folder::may_be_written(&folder)?;
    let progress = ProgressLine::new(false);
    let budget = terminal::budget(&options.limits);
    if let Some(problem) = analysis::no_scenario(&loaded.ruleset, &budget) {
        progress.finish();
        files::print(&text::problems(&loaded.ruleset.sources, &[problem], &look))?;
        return Ok(Ending::Unusable);
    }
    let prover = Prover {
        ruleset: &loaded.ruleset,
        file: file_name(&options.ruleset),
        fingerprint,
        caution: caution(&loaded.ruleset),
        second: &cvc5,
    };
    let recorded = prover.record(&analysis::Options {
        jobs: options.threads.number(),
        budget,
        progress: &progress,
        ..analysis::Options::default()
    });
    progress.finish();
    let recorded = recorded.map_err(|Disagreement(words)| Failure(words))?;
    folder::write(&folder, &recorded.files)?;
    files::print(&text::recorded(
        &loaded.ruleset,
        &recorded,
        &folder.to_string_lossy(),
        &look,
    ))?;
    Ok(ending(&recorded))
}

fn ending(recorded: &Recorded) -> Ending {
    if recorded.open.is_empty() {
        Ending::InOrder
    } else {
        Ending::Undecided
    }
}

/// The folder of a ruleset's record.
fn own_folder(ruleset: &Path) -> Result<PathBuf, Failure> {
    let stem = ruleset.file_stem().filter(|stem| *stem != "-");
    let stem = stem.ok_or_else(|| {
        Failure("standard input has no name for a folder: name one with --output".to_owned())
    })?;
    Ok(Path::new(RECORDS).join(stem))
}

fn file_name(ruleset: &Path) -> String {
    let name = ruleset.file_name();
    name.map_or_else(
        || files::name(ruleset),
        |name| name.to_string_lossy().into_owned(),
    )
}

/// Asks cvc5, where it is installed.
fn cvc5(script: &str) -> Option<(String, bool)> {
    let version = Command::new("cvc5")
        .arg("--version")
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .output()
        .ok()?;
    let version = String::from_utf8_lossy(&version.stdout).into_owned();
    let version = version
        .split("version ")
        .nth(1)?
        .split_whitespace()
        .next()?;
    let mut child = Command::new("cvc5")
        .args(["--lang", "smt2", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    // A solver that stops reading answers something else than yes or no.
    let _ = child.stdin.take()?.write_all(script.as_bytes());
    let output = child.wait_with_output().ok()?;
    let none = match String::from_utf8_lossy(&output.stdout).trim() {
        "unsat" => true,
        "sat" => false,
        _ => return None,
    };
    Some((format!("cvc5 {version}"), none))
}
