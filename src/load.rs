//! One ruleset file's text into a ruleset, or into what is wrong with it.
//!
//! Files are opened elsewhere; here is only text.

use crate::model::{self, Ruleset};
use crate::problem::{Gravity, Problem};
use crate::read;
use crate::source::{Source, Sources};

/// A ruleset that can be used.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// The ruleset; its `sources` hold the file.
    pub ruleset: Ruleset,
    /// What the writer probably wants to know, in the order of the file.
    pub warnings: Vec<Problem>,
}

/// A file that cannot be used.
#[derive(Clone, Debug)]
pub struct Refused {
    /// The file, so that problems can be shown at their words.
    pub sources: Sources,
    /// Everything that is wrong with it, in the order of the file; at least one is an error.
    pub problems: Vec<Problem>,
}

/// Reads and resolves a ruleset; `name` is how the file is called in places.
///
/// # Errors
/// Where the text cannot be read or breaks a rule of the language: every problem of the text, or,
/// where it could be read, every problem of its meaning.
pub fn load(name: impl Into<String>, text: impl Into<String>) -> Result<Loaded, Refused> {
    let source = Source::new(name, text);
    let mut sources = Sources::default();
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let draft = read::ruleset(&source, id, &mut problems);
    // A draft that came with an error lacks what could not be read; what its names would mean is
    // anybody's guess, so nothing more is said of it.
    let sound = !problems
        .iter()
        .any(|problem| problem.gravity == Gravity::Error);
    let ruleset = draft
        .filter(|_| sound)
        .and_then(|draft| model::resolve(&draft, &sources, &mut problems));
    problems.sort_by_key(|problem| (problem.span, problem.gravity));
    match ruleset {
        Some(ruleset) => Ok(Loaded {
            ruleset,
            warnings: problems,
        }),
        None => Err(Refused { sources, problems }),
    }
}
