//! One ruleset file's text into a ruleset, or into what is wrong with it.
//!
//! Files are opened elsewhere; here is only text.

mod layers;

pub use layers::{Layered, load_with};

use crate::model::{self, Ruleset};
use crate::problem::{Gravity, Problem};
use crate::read;
use crate::read::draft::RulesetDraft;
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
/// Where the text cannot be read or breaks a rule of the language: every problem of the text and,
/// as far as it could be read, of its meaning.
pub fn load(name: impl Into<String>, text: impl Into<String>) -> Result<Loaded, Refused> {
    let source = Source::new(name, text);
    let mut sources = Sources::default();
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let draft = read::ruleset(&source, id, &mut problems);
    let (ruleset, problems) = resolved(draft, problems, &sources);
    match ruleset {
        Some(ruleset) => Ok(Loaded {
            ruleset,
            warnings: problems,
        }),
        None => Err(Refused { sources, problems }),
    }
}

/// The ruleset that a draft is, if it can be used, and all there is to say about it; `problems` are
/// those of reading.
fn resolved(
    draft: Option<RulesetDraft>,
    mut problems: Vec<Problem>,
    sources: &Sources,
) -> (Option<Ruleset>, Vec<Problem>) {
    let mut sound = problems
        .iter()
        .all(|problem| problem.gravity != Gravity::Error);
    // A chapter that could not be read looks empty too, so this is asked of sound text only.
    if sound && let Some(problem) = draft.as_ref().and_then(lacking) {
        problems.push(problem);
        sound = false;
    }
    let mut further = Vec::new();
    let ruleset = draft.and_then(|draft| model::resolve(&draft, sources, &mut further));
    if sound {
        problems.append(&mut further);
    } else {
        problems.extend(further.into_iter().filter(|problem| {
            problem.gravity == Gravity::Error && !follows_from_another(problem, sources)
        }));
    }
    problems.sort_by_key(|problem| (problem.span, problem.gravity));
    (ruleset.filter(|_| sound), problems)
}

/// What is wrong with a file that has no attributes, no rulings or no clauses: nothing could be said
/// of it.
fn lacking(draft: &RulesetDraft) -> Option<Problem> {
    let chapters = [
        ("attributes", draft.attributes.is_empty()),
        ("rulings", draft.dimensions.is_empty()),
        ("clauses", draft.clauses.is_empty()),
    ];
    let missing = chapters.into_iter().filter(|(_, empty)| *empty);
    let missing: Vec<String> = missing.map(|(name, _)| format!("`{name}`")).collect();
    let (last, others) = missing.split_last()?;
    let named = if others.is_empty() {
        last.clone()
    } else {
        format!("{} and no {last}", others.join(", no "))
    };
    Some(
        Problem::error(
            draft.title.span,
            format!("the ruleset has no {named}"),
            "a ruleset has attributes, rulings and clauses",
        )
        .help("write what officials establish (`attributes`), what the rules decide (`rulings`) and the clauses that connect them; `evenhand new NAME` writes a small ruleset to start from"),
    )
}

/// Whether a problem of meaning may only be there because something else could not be read: what
/// its words call for stands in the file, but did not make it into the draft.
fn follows_from_another(problem: &Problem, sources: &Sources) -> bool {
    let named = sources
        .slice(problem.span)
        .trim_matches(['"', '\'', '`', ' ']);
    let text = sources
        .get(problem.span.source)
        .map_or("", crate::source::Source::text);
    named.is_empty() || text.lines().any(|line| defines(line, named))
}

/// Whether a line of a file defines a name: `name:`, or `id: name`.
fn defines(line: &str, name: &str) -> bool {
    let line = line.trim_start().trim_start_matches("- ").trim_start();
    let value = line.strip_prefix("id:").unwrap_or(line).trim();
    // A name that had to be refused for a space or a sign is used with `_` in its place.
    if let Some((key, _)) = line.split_once(':') {
        let letters = |sign: char| if sign.is_alphanumeric() { sign } else { '_' };
        let key = key.trim_matches(['"', '\'']);
        if key.len() == name.len() && key.chars().map(letters).eq(name.chars()) {
            return true;
        }
    }
    let bare = value.trim_start_matches(['"', '\'']);
    bare.strip_prefix(name).is_some_and(|rest| {
        let rest = rest.trim_start_matches(['"', '\'']);
        rest.starts_with(':') || rest.is_empty()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn problems_of_text_and_of_meaning_are_told_in_one_run() {
        let text = "ruleset: Two kinds of mistake\n\
                    colour: red\n\
                    attributes:\n  phase:\n    choice: [standing, ground]\n  lost:\n    number: ten to 3\n\
                    rulings:\n  penalty:\n    scale: [none, caution]\n    otherwise: none\n\
                    clauses:\n  - id: \"1\"\n    when: phaze is ground\n    ruling: {penalty: caution}\n  \
                    - id: \"2\"\n    when: lost at least 3\n    ruling: {penalty: caution}\n";
        let Err(refused) = load("two.yaml", text) else {
            unreachable!("it has mistakes")
        };
        let words = |problem: &Problem| refused.sources.slice(problem.span).to_owned();
        let told: Vec<String> = refused.problems.iter().map(words).collect();
        // `lost` stands in the file and could not be read: that clause 2 cannot find it is no news.
        assert_eq!(told, ["colour", "ten", "phaze"]);
    }
}
