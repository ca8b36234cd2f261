//! One ruleset file's text into a ruleset, or into what is wrong with it.
//!
//! Files are opened elsewhere; here is only text.

mod layers;
mod lost;

pub use layers::{Layered, load_with};

use crate::model::{self, Ruleset, Settled};
use crate::problem::{Gravity, Problem};
use crate::read;
use crate::read::draft::RulesetDraft;
use crate::source::{Source, Sources};
use lost::Lost;

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
    let (ruleset, problems) = resolved(draft.as_ref(), &Settled::default(), problems, &sources);
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
    draft: Option<&RulesetDraft>,
    settled: &Settled<'_>,
    mut problems: Vec<Problem>,
    sources: &Sources,
) -> (Option<Ruleset>, Vec<Problem>) {
    let mut sound = problems
        .iter()
        .all(|problem| problem.gravity != Gravity::Error);
    // A chapter that could not be read looks empty too, so this is asked of sound text only.
    if sound && let Some(problem) = draft.and_then(lacking) {
        problems.push(problem);
        sound = false;
    }
    let mut further = Vec::new();
    let ruleset = draft.and_then(|draft| model::resolve(draft, settled, sources, &mut further));
    if sound {
        problems.append(&mut further);
    } else {
        let lost = Lost::new(sources, draft, &problems);
        problems.extend(further.into_iter().filter(|problem| {
            problem.gravity == Gravity::Error
                && (is_of_one_name(problem, sources)
                    || !lost.explains(problem.span, sources.slice(problem.span)))
        }));
    }
    problems.sort_by_key(|problem| (problem.span, problem.gravity));
    (ruleset.filter(|_| sound), problems)
}

/// Whether one name stands at two places, which nothing that could not be read explains.
fn is_of_one_name(problem: &Problem, sources: &Sources) -> bool {
    let words = sources.slice(problem.span);
    let mut others = problem.others.iter();
    !words.is_empty() && others.any(|(place, _)| sources.slice(*place) == words)
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::format_push_string, reason = "tests")]

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

    /// The underlined words of a file with these attributes and these conditions of clauses.
    fn told(attributes: &str, rulings: &str, clauses: &[&str]) -> Vec<String> {
        let mut text =
            format!("ruleset: t\nattributes:\n{attributes}rulings:\n{rulings}clauses:\n");
        for (index, when) in clauses.iter().enumerate() {
            text += &format!(
                "  - id: \"{index}\"\n    when: {when}\n    ruling: {{penalty: caution}}\n"
            );
        }
        let refused = load("t.yaml", text).unwrap_err();
        let words = |problem: &Problem| refused.sources.slice(problem.span).to_owned();
        refused.problems.iter().map(words).collect()
    }

    const SOUND: &str = "  penalty:\n    scale: [none, caution]\n    otherwise: none\n";

    #[test]
    fn an_id_that_stands_twice_is_told_beside_what_could_not_be_read_of_its_clause() {
        let clauses = ["always\n  - id: \"0\"\n    when: \"?\""];
        assert_eq!(told("  held:\n", SOUND, &clauses), ["\"0\"", "?"]);
    }

    #[test]
    fn what_does_not_follow_from_another_problem_is_told_beside_it() {
        let number = "  held:\n    number: 0 to 60\n";
        // The attribute was read; that it is misused has nothing to do with the other mistake.
        let wrong = "  lost:\n    number: ten to 3\n";
        assert_eq!(
            told(
                &format!("{number}{wrong}"),
                SOUND,
                &["held", "lost at least 1"]
            ),
            ["ten", "held"]
        );
        // A dimension that was read, compared with what is no value of it.
        let colour = "  phase:\n    choice: [standing, ground]\n    colour: red\n";
        assert_eq!(
            told(&format!("{number}{colour}"), SOUND, &["penalty is held"]),
            ["colour", "held"]
        );
        // What could not be read of an attribute says nothing of its values.
        assert_eq!(
            told(colour, SOUND, &["phase at least ground"]),
            ["colour", "phase at least ground"]
        );
        assert_eq!(
            told(colour, SOUND, &["colour is red"]),
            ["colour", "colour"]
        );
        assert_eq!(told(colour, SOUND, &["phase is red"]), ["colour", "red"]);
        let label = "  phase:\n    label: {en: [on, the, mat]}\n    choice: [standing, ground]\n";
        assert_eq!(told(label, SOUND, &["phase is mat"]).len(), 2);
        // A word that only stands in other words of the file.
        assert_eq!(
            told(&format!("{number}{wrong}"), SOUND, &["ten"]),
            ["ten", "ten"]
        );
    }

    #[test]
    fn what_follows_from_another_problem_is_not_told() {
        // A value of a list that could not be read whole; and one of an attribute with two kinds.
        let values = "  phase:\n    choice: [standing, on ground]\n";
        assert_eq!(told(values, SOUND, &["phase is on_ground"]), ["on ground"]);
        let twice = "  phase:\n    choice: [standing, ground]\n    number: 0 to 3\n";
        assert_eq!(told(twice, SOUND, &["phase at least 2"]), ["number"]);
        // A key with a slip in it, in which the values would have been.
        let slip = "  phase:\n    choise: [standing, ground]\n";
        assert_eq!(told(slip, SOUND, &["phase is ground"]), ["choise"]);
        // A dimension that was lost.
        let lost = "  penalty:\n    scale: none and caution, mostly\n";
        assert_eq!(
            told("  held:\n", lost, &["held"]),
            ["none and caution, mostly"]
        );
    }
}
