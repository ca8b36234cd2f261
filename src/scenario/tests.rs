//! Facts as they are written, beside what they mean or what is said of them.
#![allow(clippy::unwrap_used, reason = "tests")]

use super::*;
use crate::load::load;
use crate::logic::{Written, written};
use crate::model::Ruleset;
use crate::problem::Problem;
use crate::solve::Budget;
use crate::source::Sources;

const RULES: &str = "
ruleset: t
attributes:
  phase:
    choice: {standing: both stand, ground: both are down}
  hold:
    choice: [none, lock, pin]
  joint:
    choice: [elbow, shoulder]
    asked_when: hold is lock
  seconds:
    number: 1 to 6 or more
    step: 0.5
    unit: s
    asked_when: hold is pin
  touching:
    several: [hand, elbow, knee]
  deliberate:
terms:
  joint_attack:
    means: joint is shoulder
  long:
    narrow: seconds at least 5
    broad: seconds at least 3
background:
  - never: hold is pin and phase is standing
    because: A pin needs an opponent on the ground.
rulings:
  penalty:
    scale: [none, caution]
    otherwise: none
clauses:
  - id: \"1\"
    when: joint_attack or long or deliberate or touching includes knee
    ruling: {penalty: caution}
";

fn rules() -> Ruleset {
    load("rules.yaml", RULES).unwrap().ruleset
}

/// The facts as one line, or the first problem: its words, the words under it, what is said there,
/// and the help.
fn read(file: Option<&str>, call: &[&str]) -> Result<String, [String; 4]> {
    let ruleset = rules();
    let call: Vec<String> = call.iter().map(|fact| (*fact).to_owned()).collect();
    let told = |problem: &Problem, sources: &Sources| {
        [
            problem.headline.clone(),
            sources.slice(problem.span).to_owned(),
            problem.label.clone(),
            problem.help.clone().unwrap_or_default(),
        ]
    };
    let file = file.map(|text| ("r.yaml", text));
    let incident = incident(&ruleset, file, &call)
        .map_err(|refused| told(refused.problems.first().unwrap(), &refused.sources))?;
    if let Standing::Impossible(problem) = standing(&ruleset, &incident, &Budget::unlimited()) {
        return Err(told(&problem, &incident.sources));
    }
    let facts = incident.facts.facts().map(|(id, code)| {
        let value = match written(&ruleset, id, code) {
            Written::Items(items) => format!("[{}]", items.join(" ")),
            other => other.to_string(),
        };
        format!("{}={value}", ruleset[id].name)
    });
    Ok(facts.collect::<Vec<_>>().join(" "))
}

fn called(call: &[&str], expected: &str) {
    assert_eq!(read(None, call).unwrap(), expected, "{call:?}");
}

fn filed(file: &str, expected: &str) {
    assert_eq!(read(Some(file), &[]).unwrap(), expected, "{file}");
}

/// The headline of what is wrong with a fact, the words under it, and the help.
fn refused(call: &[&str], headline: &str, words: &str, help: &str) {
    let [said, under, _, advice] = read(None, call).unwrap_err();
    assert_eq!(
        (said.as_str(), under.as_str()),
        (headline, words),
        "{call:?}"
    );
    assert!(advice.contains(help), "{call:?}: {advice}");
}

#[test]
fn facts_of_a_call_mean_what_the_ruleset_says() {
    called(
        &["deliberate=yes", "phase=ground"],
        "phase=ground deliberate=yes",
    );
    called(&["touching=hand|knee"], "touching=[hand knee]");
    called(&["touching=none"], "touching=[]");
    called(&["touching=-"], "touching=[]");
    called(&["touching = elbow"], "touching=[elbow]");
    called(&["seconds=2.5"], "seconds=2.5");
    called(&["seconds=2500 ms"], "seconds=2.5");
    called(&["seconds=1 min"], "seconds=6");
    called(&["seconds=4", "long=broad"], "seconds=4 long=yes");
    called(&[], "");
}

#[test]
fn facts_of_a_file_mean_the_same_and_what_is_left_empty_is_not_established() {
    filed(
        "scenario: R-14\nnote: from the video\nfacts:\n  phase: ground\n  hold:\n  touching: [hand, knee]\n  deliberate: no\n",
        "phase=ground touching=[hand knee] deliberate=no",
    );
    filed(
        "facts: {touching: [], deliberate: true}",
        "touching=[] deliberate=yes",
    );
    filed(
        "scenario:\nfacts:\n  touching: hand|elbow\n",
        "touching=[hand elbow]",
    );
    filed("facts:\n", "");
    filed("facts: {hold: [lock]}", "hold=lock");
}

#[test]
fn a_fact_of_the_call_takes_the_place_of_the_files() {
    let file = "scenario: a\nfacts: {phase: ground, hold: pin}\n";
    let facts = read(Some(file), &["hold=lock", "joint=elbow"]);
    assert_eq!(facts.unwrap(), "phase=ground hold=lock joint=elbow");
}

#[test]
fn slips_are_told_at_their_words_with_what_to_write() {
    refused(
        &["phaze=ground"],
        "`phaze` is no attribute of this ruleset",
        "phaze",
        "did you mean `phase`?",
    );
    refused(
        &["knee=yes"],
        "`knee` is no attribute of this ruleset",
        "knee",
        "`knee` is a value of `touching`",
    );
    refused(
        &["zzzzzz=1"],
        "`zzzzzz` is no attribute of this ruleset",
        "zzzzzz",
        "known are `phase`, `hold`",
    );
    refused(
        &["joint_attack=yes"],
        "`joint_attack` is a defined term: whether it holds follows from the facts",
        "joint_attack",
        "`joint`",
    );
    refused(
        &["penalty=none"],
        "`penalty` is what the rules decide, not a fact",
        "penalty",
        "leave it out",
    );
    refused(
        &["phase=grund"],
        "`grund` is not a value of `phase`",
        "grund",
        "did you mean `ground`?",
    );
    refused(
        &["phase=both stand"],
        "`both stand` is not a value of `phase`",
        "both stand",
        "did you mean `standing`?",
    );
    refused(
        &["deliberate=maybe"],
        "`deliberate` is `maybe`; expected yes or no",
        "maybe",
        "leave the fact out",
    );
    refused(
        &["seconds=many"],
        "`seconds` is `many`; expected a number",
        "many",
        "such as `1`",
    );
    refused(
        &["seconds=0.5"],
        "0.5 s lies outside `seconds`, which runs from 1 to 6 s or more",
        "0.5",
        "correct it",
    );
    refused(
        &["seconds=1.2"],
        "1.2 s is not a step of `seconds`",
        "1.2",
        "the nearest are 1 and 1.5",
    );
    refused(
        &["seconds=3 kg"],
        "`kg` is not a unit for `seconds`",
        "3 kg",
        "from 1 to 6 s or more",
    );
    refused(
        &["touching=hand|foot"],
        "`foot` is not a value of `touching`",
        "foot",
        "split by `|`",
    );
    refused(
        &["phase"],
        "the fact `phase` has no `=`",
        "phase",
        "`--fact phase=ground`",
    );
    refused(
        &["=ground"],
        "a fact has no name before its `=`",
        "=ground",
        "without blanks",
    );
    refused(
        &["phase="],
        "nothing is written for `phase`",
        "phase=",
        "leave the fact out",
    );
    refused(
        &["phase=ground", "phase=standing"],
        "the fact `phase` is given twice",
        "phase",
        "once",
    );
    refused(
        &["touching=hand", "phaze=ground"],
        "`phaze` is no attribute of this ruleset",
        "phaze",
        "phase",
    );
}

#[test]
fn facts_that_cannot_be_together_are_told_with_the_reason() {
    refused(
        &["hold=pin", "joint=elbow"],
        "`joint` is not asked in such an incident",
        "joint=elbow",
        "leave it out",
    );
    refused(
        &["phase=standing", "hold=pin"],
        "the background rules these facts out together",
        "hold=pin",
        "A pin needs an opponent on the ground.",
    );
    // That the opponent is down follows from the seconds of a pin.
    refused(
        &["phase=standing", "seconds=2"],
        "the background rules these facts out together",
        "seconds=2",
        "A pin needs",
    );
    refused(
        &["seconds=6", "long=yes"],
        "`long` is not open to reading in such an incident",
        "long=yes",
        "leave it out",
    );
    called(
        &["joint=elbow", "phase=standing"],
        "phase=standing joint=elbow",
    );
}

#[test]
fn a_file_of_another_kind_or_shape_is_refused() {
    for (file, headline) in [
        (
            "ruleset: x\nclauses: []\n",
            "the file is a ruleset; expected a scenario",
        ),
        (
            "cases: []\n",
            "the file is a collection of cases; expected a scenario",
        ),
        (
            "just words\n",
            "the file is `just words`; expected a scenario",
        ),
        ("scenario: a\n", "the scenario has no `facts`"),
        (
            "scenario: a\nfacts: {phase: {a: b}}\n",
            "`phase` is keys with values; expected a value",
        ),
        (
            "scenario: a\nfakts: {phase: ground}\nfacts:\n",
            "`fakts` is no key of a scenario",
        ),
        (
            "facts: {phase: [ground, standing]}\n",
            "`phase` has one value, and 2 are given",
        ),
        (
            "facts: [phase]\n",
            "`facts` is a list; expected names with values",
        ),
    ] {
        let [said, ..] = read(Some(file), &[]).unwrap_err();
        assert_eq!(said, headline, "{file}");
    }
}
