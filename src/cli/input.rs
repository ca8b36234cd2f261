//! The files that a command works on, read; or the report that says why they can't be used.

use super::arguments::{Format, Rules};
use super::{Failure, files};
use crate::load::{Layered, Loaded, Refused, load_with};
use crate::problem::Problem;
use crate::proof::digest;
use crate::read::{ByteFault, text_from_bytes};
use crate::report::text::Look;
use crate::report::{json, text};
use crate::source::{Source, Sources};
use std::fmt::Display;
use std::path::{Path, PathBuf};

/// Why a file can't be used.
pub(super) enum Unusable {
    /// Its words can be shown, and what is wrong with them.
    Problems(Sources, Vec<Problem>),
    /// Nobody can show its words.
    Unreadable {
        /// What the file is called.
        name: String,
        /// Why.
        failure: Failure,
    },
}

impl From<Refused> for Unusable {
    fn from(refused: Refused) -> Unusable {
        Unusable::Problems(refused.sources, refused.problems)
    }
}

/// That nobody can show the words of a file, and why.
pub(super) fn unreadable(path: &Path, failure: Failure) -> Unusable {
    let name = files::name(path);
    Unusable::Unreadable { name, failure }
}

/// A file's name and text; `kind` says what it should be, and which command shows one.
pub(super) fn text_of(path: &Path, kind: &str) -> Result<(String, String), Unusable> {
    let name = files::name(path);
    let bytes = files::read(path).map_err(|failure| unreadable(path, failure))?;
    let text = decoded(&name, bytes, kind)?;
    Ok((name, text))
}

fn decoded(name: &str, bytes: Vec<u8>, kind: &str) -> Result<String, Unusable> {
    let name = name.to_owned();
    let binary = files::is_binary(&bytes);
    match text_from_bytes(bytes) {
        Ok(text) => Ok(text),
        Err(refused)
            if binary && matches!(refused.fault, ByteFault::NotUtf8(_) | ByteFault::Control(_)) =>
        {
            let failure = Failure(format!("{name} doesn't look like text; {kind}"));
            Err(Unusable::Unreadable { name, failure })
        }
        Err(refused) => {
            let mut sources = Sources::default();
            let id = sources.add(Source::new(name, refused.text.clone()));
            Err(Unusable::Problems(sources, vec![refused.problem(id)]))
        }
    }
}

const RULESET: &str = "a ruleset is a text file such as `evenhand new` writes";
const AMENDMENT: &str = "an amendment is a text file that begins with `amendment:`";

/// A ruleset, and the fingerprint of its bytes.
pub(super) fn fingerprinted(path: &Path) -> Result<(Loaded, String), Unusable> {
    let name = files::name(path);
    let bytes = files::read(path).map_err(|failure| unreadable(path, failure))?;
    let fingerprint = digest(&bytes);
    let text = decoded(&name, bytes, RULESET)?;
    Ok((load_with(name, text, &[])?, fingerprint))
}

/// A ruleset with what is laid over it.
pub(super) fn ruleset(rules: &Rules) -> Result<Loaded, Unusable> {
    edition(&rules.ruleset, &rules.with)
}

/// The same of one of several rulesets.
pub(super) fn edition(path: &Path, with: &[PathBuf]) -> Result<Loaded, Unusable> {
    let (name, text) = text_of(path, RULESET)?;
    Ok(load_with(name, text, &amendments(with)?)?)
}

/// A ruleset and amendments to it.
pub(super) fn layered(path: &Path, with: &[PathBuf]) -> Result<Layered, Unusable> {
    let (name, text) = text_of(path, RULESET)?;
    Ok(Layered::read(name, text, &amendments(with)?)?)
}

fn amendments(paths: &[PathBuf]) -> Result<Vec<(String, String)>, Unusable> {
    paths.iter().map(|path| text_of(path, AMENDMENT)).collect()
}

/// The report that says why a file can't be used.
pub(super) fn report(unusable: Unusable, format: Format, look: &Look) -> Result<String, Failure> {
    match (unusable, format) {
        (Unusable::Problems(sources, problems), Format::Text) => {
            Ok(text::problems(&sources, &problems, look))
        }
        (Unusable::Problems(sources, problems), Format::Json) => {
            json::problems(&sources, &problems).map_err(json_failed)
        }
        (Unusable::Unreadable { failure, .. }, Format::Text) => Err(failure),
        (Unusable::Unreadable { name, failure }, Format::Json) => {
            json::unreadable(&name, &failure.0).map_err(json_failed)
        }
    }
}

pub(super) fn json_failed(error: impl Display) -> Failure {
    Failure(format!("the JSON can't be made: {error}"))
}
