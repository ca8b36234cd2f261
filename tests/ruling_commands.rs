//! `ruling` and `when` as people and scripts meet them: what is printed where, and exit codes.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test runs the program and reads what it has written"
)]

#[path = "common/program.rs"]
mod program;

use program::{file, keeps_to_schema, run};
use serde_json::Value;
use textwrap::core::display_width;

const DEMO: &str = "rulesets/grappling.yaml";
const INCIDENT: &str = "rulesets/incident.yaml";

/// Rules with a gap where `b`, and a contradiction where `a` and `c`.
const FLAWED: &str = "\
ruleset: Small rules
attributes:
  a:
  b:
  c:
rulings:
  penalty:
    scale: [none, caution, out]
    otherwise: none
    required_when: b
clauses:
  - id: \"1\"
    when: a
    ruling: {penalty: caution}
  - id: \"2\"
    when: c
    ruling: {penalty: {may_be: [none, out]}}
";

/// A report as JSON, held to its schema, with the exit code.
fn json(arguments: &[&str]) -> (i32, Value) {
    let (code, out, err) = run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(err, "", "{arguments:?}");
    let value = program::json(&out);
    keeps_to_schema(&value);
    (code, value)
}

/// Nothing is wider than a page of 80 columns, and the caution stands at the end.
fn reads_well(text: &str) {
    let wide: Vec<&str> = text
        .lines()
        .filter(|line| display_width(line) > 80)
        .collect();
    assert!(wide.is_empty(), "{wide:#?}");
    assert!(text.contains("The appointed officials"), "{text}");
}

#[test]
fn a_whole_incident_is_ruled_with_its_reasons() {
    let (code, text, err) = run(&["ruling", DEMO, INCIDENT]);
    assert_eq!((code, err.as_str()), (0, ""));
    reads_well(&text);
    for words in [
        "bout 12, 03:41: Locks a joint, elbow",
        "Penalty to the athlete: disqualification\n    by 11.6 (Disqualification)",
        "4.2 (Weight on a straight arm): what the act deserves: disqualification",
        "So what the act deserves: disqualification",
        "- phase of the contest: both stand",
        "One other fact is enough for another ruling",
        "the opponent turned into it",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    let (code, value) = json(&["ruling", DEMO, INCIDENT]);
    assert_eq!(code, 0);
    assert_eq!(value["rulings"]["penalty"]["value"], "disqualification");
    assert_eq!(value["rulings"]["penalty"]["from"], "clause");
    assert_eq!(
        value["rulings"]["penalty"]["clauses"],
        serde_json::json!(["11.6"])
    );
    assert_eq!(value["rulings"]["score"]["from"], "default");
    assert_eq!(value["rulings"]["admission"]["from"], "none");
    assert_eq!(
        value["rulings"]["duties"]["values"],
        serde_json::json!(["report"])
    );
    assert_eq!(
        value["possible"]["penalty"],
        serde_json::json!(["disqualification"])
    );
    assert_eq!(
        value["enough"]["facts"],
        serde_json::json!(["phase", "way_under"])
    );
    assert_eq!(value["establish_next"], serde_json::json!([]));
    assert_eq!(value["nearest"]["distance"], 1);
}

#[test]
fn a_fact_of_the_call_asks_and_what_if() {
    let (_, value) = json(&["ruling", DEMO, INCIDENT, "--fact", "way_under=turned_into"]);
    assert_eq!(value["rulings"]["penalty"]["value"], "none");
    let displaced = value["reasons"].as_array().unwrap().iter();
    let displaced: Vec<&str> = displaced
        .filter(|it| it["rulings"][0]["stands"] == false)
        .filter_map(|it| it["clause"].as_str())
        .collect();
    assert_eq!(displaced, ["4.2"]);
}

#[test]
fn with_facts_missing_what_is_possible_is_told_and_what_to_establish() {
    let (code, text, err) = run(&["ruling", DEMO, "--fact", "conduct=eye"]);
    assert_eq!((code, err.as_str()), (0, ""));
    reads_well(&text);
    for words in [
        "Still possible",
        "What to establish next",
        "1. force of the contact",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    let (code, value) = json(&["ruling", DEMO, "--fact", "conduct=eye"]);
    assert_eq!(code, 0);
    assert_eq!(value["rulings"]["penalty"]["from"], "open");
    assert_eq!(value["rulings"]["penalty"]["value"], Value::Null);
    assert_eq!(value["establish_next"][0], "force");
    assert_eq!(value["enough"], Value::Null);
    assert_eq!(value["whole"], false);
}

#[test]
fn one_dimension_may_be_looked_at_alone() {
    let (_, value) = json(&["ruling", DEMO, INCIDENT, "--dimension", "play"]);
    let rulings = value["rulings"].as_object().unwrap();
    assert_eq!(rulings.keys().collect::<Vec<_>>(), ["play"]);
    assert_eq!(value["rulings"]["play"]["value"], "stops");
    let (code, _, err) = run(&["ruling", DEMO, INCIDENT, "--dimension", "pley"]);
    assert_eq!(code, 2);
    assert!(err.contains("Did you mean `play`?"), "{err}");
}

#[test]
fn a_text_at_fault_here_gives_another_exit_code() {
    let path = file("ruling-fault", "flawed.yaml", FLAWED);
    let rules = path.to_str().unwrap();
    let of = |facts: [&str; 3]| {
        let named = ["a", "b", "c"].into_iter().zip(facts);
        let facts: Vec<String> = named
            .map(|(name, value)| format!("{name}={value}"))
            .collect();
        let call: Vec<&str> = facts
            .iter()
            .flat_map(|fact| ["--fact", fact.as_str()])
            .collect();
        let (code, value) = json(&[&["ruling", rules][..], &call].concat());
        let from = value["rulings"]["penalty"]["from"]
            .as_str()
            .unwrap()
            .to_owned();
        (code, from)
    };
    assert_eq!(of(["yes", "no", "no"]), (0, "clause".to_owned()));
    assert_eq!(of(["no", "yes", "no"]), (1, "none".to_owned()));
    assert_eq!(of(["yes", "no", "yes"]), (1, "contradiction".to_owned()));
    assert_eq!(of(["no", "no", "yes"]), (0, "discretion".to_owned()));
    let (code, text, _) = run(&[
        "ruling", rules, "--fact", "b=yes", "--fact", "a=no", "--fact", "c=no",
    ]);
    assert_eq!(code, 1);
    assert!(
        text.contains("Penalty: no ruling, though one is due"),
        "{text}"
    );
}

#[test]
fn nothing_is_asked_in_a_pipe() {
    let (code, out, err) = run(&["ruling", DEMO]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(
        err.contains("--fact NAME=VALUE") && err.contains("matter"),
        "{err}"
    );
    let (code, _, err) = run(&["ruling", DEMO, "--ask", "--fact", "conduct=eye"]);
    assert_eq!(code, 2);
    assert!(err.contains("there is no terminal"), "{err}");
}

#[test]
fn facts_that_cannot_be_are_refused_at_their_words() {
    let (code, out, _) = run(&[
        "ruling",
        DEMO,
        "--fact",
        "matter=chair",
        "--fact",
        "joint=elbow",
    ]);
    assert_eq!(code, 2);
    assert!(
        out.contains("`joint` is not asked in such an incident"),
        "{out}"
    );
    let (code, out, _) = run(&["ruling", DEMO, "--fact", "joint=elbw"]);
    assert_eq!(code, 2);
    assert!(out.contains("Did you mean `elbow`?"), "{out}");
    let (code, value) = json(&["ruling", DEMO, "--fact", "joint=elbw"]);
    assert_eq!(
        (code, value["format"].as_str()),
        (2, Some("evenhand/problems/1"))
    );
    let (code, _, err) = run(&["ruling", DEMO, "no-such-file.yaml"]);
    assert_eq!(code, 2);
    assert!(err.contains("no-such-file.yaml can't be read"), "{err}");
    let (code, out, _) = run(&["ruling", DEMO, DEMO]);
    assert_eq!(code, 2);
    assert!(
        out.contains("the file is a ruleset; expected a scenario")
            || out.contains("The file is a ruleset; expected a scenario"),
        "{out}"
    );
}

#[test]
fn an_order_of_questions_is_printed_as_text_markdown_and_json() {
    let call = [
        "ruling",
        DEMO,
        "--protocol",
        "--fact",
        "conduct=strike",
        "--dimension",
        "penalty",
    ];
    let (code, text, err) = run(&call);
    assert_eq!((code, err.as_str()), (0, ""));
    reads_well(&text);
    assert!(
        text.contains("which is proved") && text.contains("1. "),
        "{text}"
    );
    let (code, page, _) = run(&[&call[..], &["--format", "markdown"]].concat());
    assert_eq!(code, 0);
    assert!(
        page.starts_with("# The order of questions: ") && page.contains("## 1. "),
        "{page}"
    );
    assert!(page.contains("## Caution"), "{page}");
    let (code, value) = json(&call);
    assert_eq!((code, value["best"].as_bool()), (0, Some(true)));
    // Every answer leads to a later step or to rulings.
    for (index, step) in value["steps"].as_array().unwrap().iter().enumerate() {
        for answer in step["answers"].as_array().unwrap() {
            let leads = answer["step"].as_u64();
            assert!(leads.is_some() != answer["rulings"].is_object(), "{answer}");
            assert!(leads.is_none_or(|step| step > index as u64), "{answer}");
        }
    }
    let (code, _, err) = run(&["ruling", DEMO, INCIDENT, "--format", "markdown"]);
    assert_eq!(code, 2);
    assert!(err.contains("--protocol"), "{err}");
}

#[test]
fn when_gives_conditions_an_incident_each_and_counts() {
    let call = [
        "when",
        DEMO,
        "deserved is nothing",
        "--given",
        "hand_on_leg and action is lock",
    ];
    let (code, text, err) = run(&call);
    assert_eq!((code, err.as_str()), (0, ""));
    reads_well(&text);
    assert!(
        text.contains("and in no other incident") && text.contains("For instance"),
        "{text}"
    );
    let (code, value) = json(&call);
    assert_eq!((code, value["cover"].as_str()), (0, Some("exact")));
    let lines = value["when"].as_array().unwrap().len();
    assert_eq!(value["cases"].as_array().unwrap().len(), lines);
    let (code, value) = json(&[
        "when",
        DEMO,
        "score is full and penalty is disqualification",
    ]);
    assert_eq!((code, value["when"].as_array().unwrap().len()), (0, 0));
    assert_eq!(value["cover"], "exact");
    let (code, text, _) = run(&[
        "when",
        DEMO,
        "score is full and penalty is disqualification",
    ]);
    assert_eq!(code, 0);
    assert!(
        text.contains("in no incident, and that is proved"),
        "{text}"
    );
}

#[test]
fn slips_in_a_condition_are_underlined_where_they_were_typed() {
    let (code, out, _) = run(&["when", DEMO, "penalty is nonee", "--given", "hand_on_legs"]);
    assert_eq!(code, 2);
    assert!(
        out.contains("penalty is nonee") && out.contains("Did you mean `none`?"),
        "{out}"
    );
    assert!(out.contains("Did you mean `hand_on_leg`?"), "{out}");
    let (code, value) = json(&["when", DEMO, "penalty is"]);
    assert_eq!(
        (code, value["format"].as_str()),
        (2, Some("evenhand/problems/1"))
    );
    let (code, _, err) = run(&["when", DEMO]);
    assert_eq!(code, 2);
    assert!(err.contains("The condition is missing"), "{err}");
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    for call in [
        &["ruling", DEMO, INCIDENT, "--format", "json"][..],
        &["ruling", DEMO, "--fact", "conduct=eye", "--protocol"],
        &["when", DEMO, "penalty is caution"],
    ] {
        assert_eq!(run(call).1, run(call).1, "{call:?}");
    }
}
