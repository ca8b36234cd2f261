//! The commands about amendments as people and scripts meet them.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test runs the program and reads what it has written"
)]

#[path = "common/program.rs"]
mod program;

use program::{file, json, keeps_to_schema, run, shown};
use std::fs;
use std::path::Path;

const BALL: &str = "rulesets/ball.yaml";
const THREATS: &str = "\
amendment: Threats
to: {ruleset: Rules of wall rally, edition: \"2030\"}
changes:
  - repeal: \"4.5\"
";

#[test]
fn apply_prints_the_text_and_tells_warnings_beside_it() {
    let amendment = file("apply", "threats.yaml", THREATS);
    let (code, text, beside) = run(&["apply", BALL, shown(&amendment)]);
    assert_eq!(code, 0, "{beside}");
    let base = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(BALL)).unwrap();
    let start = base.find("  - id: \"4.5\"").unwrap();
    let end = base.find("\nprinciples:").unwrap();
    assert_eq!(text, format!("{}{}", &base[..start], &base[end..]));
    assert!(
        beside.contains("edition `2030`; the file's edition is `2031`"),
        "{beside}"
    );
    let output = file("apply", "out.yaml", "");
    let (code, printed, _) = run(&["apply", BALL, shown(&amendment), "-o", shown(&output)]);
    assert_eq!((code, printed.as_str()), (0, ""));
    assert_eq!(fs::read_to_string(&output).unwrap(), text);
}

#[test]
fn apply_refuses_what_cannot_be_made_and_calls_it_wrong_calls() {
    let amendment = file(
        "refused",
        "a.yaml",
        "amendment: A\nchanges:\n  - repeal: \"8\"\n",
    );
    let (code, text, beside) = run(&["apply", BALL, shown(&amendment)]);
    assert_eq!((code, text.as_str()), (2, ""));
    assert!(
        beside.contains("There is no clause `8` to change"),
        "{beside}"
    );
    assert!(beside.contains(BALL), "{beside}");
    let (code, _, beside) = run(&["apply", BALL]);
    assert_eq!(code, 2);
    assert!(
        beside.contains("The amendment file is missing."),
        "{beside}"
    );
    assert!(
        beside.contains("evenhand apply RULESET AMENDMENT"),
        "{beside}"
    );
    let (code, _, beside) = run(&["apply", BALL, BALL]);
    assert_eq!(code, 2);
    assert!(beside.contains("expected an amendment"), "{beside}");
}

#[test]
fn a_local_variation_is_checked_as_the_rules_stand_with_it() {
    let amendment = file("with", "threats.yaml", THREATS);
    let (code, text, _) = run(&["check", BALL, "--quiet"]);
    assert_eq!(code, 0, "{text}");
    let (code, text, _) = run(&["check", BALL, "--with", shown(&amendment)]);
    assert_eq!(code, 1, "{text}");
    assert!(
        text.contains("Nothing is ruled on sanction where offence is threat"),
        "{text}"
    );
    assert!(text.contains("another edition"), "{text}");
}

#[test]
fn every_command_that_takes_a_ruleset_lays_amendments_over_it_in_their_order() {
    let small = "\
ruleset: Small rules
attributes:
  a:
rulings:
  penalty:
    scale: [none, caution, out]
    otherwise: none
clauses:
  - id: \"1\"
    when: a
    ruling: {penalty: caution}
";
    let rules = file("layers", "small.yaml", small);
    let change = |name: &str, condition: &str, penalty: &str| {
        let text = format!(
            "amendment: {name}\nchanges:\n  - set:\n      clause: \"1\"\n      when: {condition}\n      ruling: {{penalty: {penalty}}}\n"
        );
        file("layers", &format!("{name}.yaml"), text)
    };
    let (first, last) = (
        change("first", "not a", "caution"),
        change("last", "a", "out"),
    );
    let book = file(
        "layers",
        "cases.yaml",
        "cases:\n  - id: C\n    facts: {a: yes}\n    ruled: {penalty: out}\n",
    );
    let rules = shown(&rules);
    for (call, told) in [
        (
            &["ruling", rules, "--fact", "a=yes"][..],
            "\"value\": \"out\"",
        ),
        (&["when", rules, "penalty is out"], "\"a\""),
        (&["scenarios", rules], "\"penalty\": \"out\""),
        (&["cases", rules, shown(&book)], "\"agree\": 1"),
        (&["compare", rules, rules], "\"changes\": []"),
    ] {
        let with = ["--with", shown(&first), "--with", shown(&last)];
        let (code, text, beside) = run(&[call, &with, &["--format", "json"]].concat());
        assert_eq!((code, beside.as_str()), (0, ""), "{call:?}: {text}");
        assert!(text.contains(told), "{call:?}: {text}");
        let with = ["--with", shown(&last), "--with", shown(&first)];
        let (_, other, _) = run(&[call, &with, &["--format", "json"]].concat());
        assert!(
            call[0] == "compare" || !other.contains(told),
            "{call:?}: {other}"
        );
    }
}

#[test]
fn a_clause_says_which_amendment_it_is_from() {
    let facts = [
        "matter=rally",
        "struck_by=server",
        "serve=yes",
        "foot_over=yes",
        "ball=good",
        "strokes=1",
        "let_called=yes",
    ];
    let mut call = vec!["ruling", BALL, "--with", "rulesets/ball-let.yaml"];
    for fact in facts {
        call.extend(["--fact", fact]);
    }
    let (_, text, _) = run(&call);
    let told = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "edition 2032, draft A, with \"No let for a foot fault\"",
        "by 2.6 (Let after a foot fault, from rulesets/ball-let.yaml)",
        "2.5 (Let, as amended by rulesets/ball-let.yaml): the point",
        "2.1 (Bad stroke of the server): the point",
    ] {
        assert!(told.contains(words), "{words}\n{text}");
    }
    call.extend(["--format", "json"]);
    let (_, text, _) = run(&call);
    let output = json(&text);
    let laid = serde_json::json!([{"amendment": "No let for a foot fault", "file": "rulesets/ball-let.yaml"}]);
    assert_eq!(output["ruleset"]["with"], laid);
    let from: Vec<_> = output["reasons"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| (&it["clause"], &it["file"]))
        .collect();
    assert_eq!(
        from[0],
        (&json("\"2.6\""), &json("\"rulesets/ball-let.yaml\""))
    );
    assert!(from[1..].iter().all(|(_, file)| file.is_null()), "{from:?}");
}

/// The report of a draft as JSON, held to the schema.
fn vetted(arguments: &[&str]) -> (i32, serde_json::Value) {
    let (code, text, beside) = run(&[&["vet"], arguments, &["--format", "json"]].concat());
    assert_eq!(beside, "");
    let output = json(&text);
    keeps_to_schema(&output);
    (code, output)
}

#[test]
fn the_clean_draft_is_clean() {
    let (code, output) = vetted(&[BALL, "rulesets/ball-let.yaml"]);
    assert_eq!(code, 0, "{output:#}");
    assert_eq!(output["harm"], false);
    assert_eq!(output["scope"], "kept");
    assert_eq!(output["editorial"], "not claimed");
    // That 2.6 says "let" again is no harm: readers look for the word.
    let introduced = output["introduced"].as_array().unwrap().iter();
    let graver: Vec<_> = introduced.filter(|it| it["severity"] != "note").collect();
    assert_eq!(graver, [] as [&serde_json::Value; 0]);
    let changes = output["changes"].as_array().unwrap();
    // By hand: a let after a serve with the foot over the line, whatever ball and strokes.
    let point = &changes[0];
    assert_eq!(point["dimension"], "point");
    assert_eq!(
        (&point["from"], &point["to"]),
        (&json("\"nobody\""), &json("\"receiver\""))
    );
    assert_eq!(
        point["when"],
        serde_json::json!(["foot_over and let_called"])
    );
    // Three balls, four numbers of strokes.
    assert_eq!(point["share"]["scenarios"], "12");
    assert_eq!(changes[1]["dimension"], "service");
    assert_eq!(changes.len(), 2);
}

#[test]
fn the_draft_that_reaches_too_far_is_told() {
    let (code, output) = vetted(&[BALL, "rulesets/ball-strokes.yaml"]);
    assert_eq!(code, 1);
    assert_eq!(output["scope"], "broken");
    let outside = output["changes"].as_array().unwrap().iter();
    let outside = outside.filter(|change| change["in_scope"] == false);
    assert_eq!(outside.count(), 4);
    assert_eq!(
        output["affected"]["3.1"]["through"],
        json("[\"dimension point\"]")
    );
    assert_eq!(output["affected"]["3.1"]["rulings_changed"], true);
    assert_eq!(output["direction"]["set"], "unchanged");
}

#[test]
fn the_editorial_draft_that_flips_a_ruling_is_refuted() {
    let (code, output) = vetted(&[BALL, "rulesets/ball-conduct.yaml"]);
    assert_eq!(code, 1);
    assert_eq!(output["editorial"], "refuted");
    assert_eq!(output["direction"]["sanction"], "never higher");
    let changes = output["changes"].as_array().unwrap();
    assert_eq!(changes.len(), 1);
    assert_eq!(
        changes[0]["when"],
        serde_json::json!(["offence is abuse and warned_before"])
    );
    assert_eq!(changes[0]["grade"], "minor");
    let claim = file(
        "editorial",
        "a.yaml",
        "amendment: A\neditorial: true\nchanges:\n  - renumber: \"4\"\n    to: \"5\"\n",
    );
    let (code, output) = vetted(&[BALL, shown(&claim)]);
    assert_eq!((code, &output["editorial"]), (0, &json("\"proved\"")));
    assert_eq!(output["introduced"], serde_json::json!([]));
}

#[test]
fn drafts_are_vetted_alone_and_together() {
    // Two drafts that each raise a sanction a little: together they clash, alone they don't.
    let first = file(
        "drafts",
        "first.yaml",
        "amendment: First\nchanges:\n  - insert:\n      id: \"4.6\"\n      when: offence is delay and shirt is green\n      ruling: {sanction: sent_off}\n      notwithstanding: [\"4.1\", \"4.2\"]\n",
    );
    let second = file(
        "drafts",
        "second.yaml",
        "amendment: Second\nchanges:\n  - insert:\n      id: \"4.7\"\n      when: offence is delay and shirt is green\n      ruling: {sanction: warning}\n      notwithstanding: [\"4.1\", \"4.2\"]\n",
    );
    let (code, output) = vetted(&[BALL, shown(&first), shown(&second)]);
    assert_eq!(code, 1);
    let changes = output["changes"].as_array().unwrap();
    let clash = changes
        .iter()
        .find(|change| change["to"] == "contradiction")
        .unwrap();
    assert_eq!(clash["together"].as_array().unwrap().len(), 2);
    let alone = output["alone"].as_array().unwrap();
    assert_eq!(alone.len(), 2);
    for draft in alone {
        let changes = draft["changes"].as_array().unwrap();
        assert!(changes.iter().all(|change| change["to"] != "contradiction"));
    }
}

#[test]
fn the_verdict_stands_alone_where_it_is_asked_for() {
    let (code, text, _) = run(&["vet", BALL, "rulesets/ball-conduct.yaml", "--quiet"]);
    assert_eq!(code, 1);
    assert_eq!(
        text,
        "The ruling changes on the sanction in 2 of 408 scenarios (0.49%). The draft is\nnot editorial, though it says so. The sanction is never ruled higher than\nbefore. The draft brings in no fault.\n"
    );
    let (code, text, _) = run(&["vet", BALL, "rulesets/ball-strokes.yaml"]);
    assert_eq!(code, 1);
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    assert!(text.contains("outside the scope of the draft"), "{text}");
    assert!(text.contains("only under a qualified"), "{text}");
}

#[test]
fn two_editions_are_compared() {
    let old = "tests/published/shot-clock-2012.yaml";
    let new = "tests/published/shot-clock-2014.yaml";
    let (code, text, beside) = run(&["compare", old, new, "--quiet"]);
    assert_eq!((code, beside.as_str()), (0, ""), "{text}");
    assert_eq!(
        text,
        "The ruling changes on clock in 1 of 4 scenarios (25%). The new edition brings in\nno fault. Clause 50, ring touched does something else, though its words stay.\n"
    );
    let (code, text, _) = run(&["compare", old, new, "--format", "json"]);
    assert_eq!(code, 0);
    let output = json(&text);
    assert_eq!(output["changes"][0]["from"], "s24");
    assert_eq!(output["changes"][0]["to"], "s14");
    let (code, _, beside) = run(&["compare", old]);
    assert_eq!(code, 2);
    assert!(beside.contains("Two editions are compared"), "{beside}");
}

#[test]
fn a_draft_is_circulated_with_every_word_marked_that_goes_or_comes() {
    let draft = "rulesets/ball-let.yaml";
    let (code, text, beside) = run(&["vet", BALL, draft, "--format", "markdown"]);
    assert_eq!((code, beside.as_str()), (0, ""));
    for words in [
        "# No let for a foot fault\n",
        "from edition 2031 to edition 2032, draft A.",
        "**Rationale.** A server who stands over the line should not be saved by a let.",
        "**Verdict.** The ruling changes on the point in 12 of 408 scenarios (2.9%)",
        "### Clause 2.5: changed",
        "every other clause of this part <ins>\\[+ but 2.6 +\\]</ins>, a let",
        "- **Notwithstanding:** <del>\\[− 2 −\\]</del> <ins>\\[+ 2.1, 2.2, 2.3, 2.4 +\\]</ins>",
        "### Clause 2.6: new",
        "- **Effect in rulings:** the point: to nobody before, to the receiving side after (1)",
        "### Principle P3: changed",
        "## Caution",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    let draft = "rulesets/ball-conduct.yaml";
    let (code, text, _) = run(&["vet", BALL, draft, "--format", "markdown"]);
    assert_eq!(code, 1);
    assert!(
        text.contains("### Clause 4.4: renumbered; it was 4.5"),
        "{text}"
    );
    assert!(text.contains("### Clause 4.4: struck out"), "{text}");
    let (_, output) = vetted(&[BALL, draft]);
    let fates: Vec<(&str, &str)> = output["redline"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| (it["name"].as_str().unwrap(), it["fate"].as_str().unwrap()))
        .collect();
    assert_eq!(
        fates,
        [
            ("4.3", "changed"),
            ("4.4", "repealed"),
            ("4.4", "renumbered")
        ]
    );
}

#[test]
fn marks_of_the_files_words_are_no_marks_of_the_page() {
    let rules = file(
        "marks",
        "rules.yaml",
        "ruleset: \"*A* <b>\"\nattributes:\n  a:\nrulings:\n  penalty: {scale: [none, out], otherwise: none}\nclauses:\n  - id: \"1\"\n    text: \"plain & `code`\"\n    when: a\n    ruling: {penalty: out}\n",
    );
    let draft = file(
        "marks",
        "draft.yaml",
        "amendment: \"# [x](y)\"\nchanges:\n  - set:\n      clause: \"1\"\n      text: \"plain & `code` <script>\"\n",
    );
    let call = ["vet", shown(&rules), shown(&draft), "--format", "markdown"];
    let (code, text, _) = run(&call);
    assert_eq!(code, 0, "{text}");
    for words in [
        "# \\# \\[x\\](y)\n",
        "\\*A\\* \\<b\\>",
        "plain &amp; \\`code\\` <ins>\\[+ \\<script\\> +\\]</ins>",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
}

#[test]
fn cases_are_named_whose_answer_changes() {
    let book = file(
        "vet-cases",
        "cases.yaml",
        "cases:\n  - id: C-1\n    facts: {matter: conduct, offence: threat}\n    ruled: {sanction: sent_off}\n  - id: C-2\n    facts: {matter: conduct, offence: abuse}\n",
    );
    let draft = file("vet-cases", "threats.yaml", THREATS);
    let (code, text, _) = run(&["vet", BALL, shown(&draft), "--cases", shown(&book)]);
    assert_eq!(code, 1, "{text}");
    let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Cases whose answer changes"), "{text}");
    let (_, output) = vetted(&[BALL, shown(&draft), "--cases", shown(&book)]);
    let cases = output["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 1, "{output}");
    assert_eq!(cases[0]["id"], "C-1");
    let answer = &cases[0]["answers"][0];
    assert_eq!(answer["dimension"], "sanction");
    assert_eq!(answer["after"], serde_json::json!([null]));
    assert_eq!(answer["noted"]["agrees"], false);
    let (_, output) = vetted(&[BALL, "rulesets/ball-let.yaml", "--cases", shown(&book)]);
    assert_eq!(output["cases"], serde_json::json!([]));
    let none = file(
        "vet-cases",
        "none.yaml",
        "cases:\n  - id: C\n    facts: {nothing: yes}\n",
    );
    let (code, _, beside) = run(&["vet", BALL, shown(&draft), "--cases", shown(&none)]);
    assert_eq!(code, 2, "{beside}");
}

#[test]
fn what_else_would_have_to_be_changed_is_written_as_a_draft() {
    let rules = file(
        "follow",
        "rules.yaml",
        "ruleset: Small rules\nattributes:\n  a:\n  b:\nrulings:\n  penalty: {scale: [none, caution, out], otherwise: none}\nclauses:\n  - id: \"1.1\"\n    text: First.\n    when: a\n    ruling: {penalty: caution}\n  - id: \"1.2\"\n    text: As in 1.3, but not 1.1.\n    when: b\n    ruling: {penalty: out}\n    notwithstanding: [\"1.1\"]\n  - id: \"1.3\"\n    text: Third.\n    when: a and b\n    ruling: {penalty: out}\n    notwithstanding: [\"1.1\"]\n",
    );
    let draft = file(
        "follow",
        "draft.yaml",
        "amendment: Shorter\nedition: two\nchanges:\n  - repeal: \"1.1\"\n  - renumber: \"1.3\"\n    to: \"1.4\"\n",
    );
    let (rules, draft) = (shown(&rules), shown(&draft));
    let follow = Path::new(env!("CARGO_TARGET_TMPDIR")).join("follow/follow.yaml");
    let _ = fs::remove_file(&follow);
    let (code, _, beside) = run(&["vet", rules, draft]);
    assert_eq!(code, 2, "{beside}");
    let call = ["vet", rules, draft, "--consequential", shown(&follow)];
    let (code, text, beside) = run(&call);
    assert_eq!((code, beside.as_str()), (0, ""), "{text}");
    let written = fs::read_to_string(&follow).unwrap();
    assert_eq!(
        written,
        "# To be thought about: clause 1.2 speaks of 1.1, which is gone.\namendment: \"Consequential to Shorter\"\nto:\n  ruleset: \"Small rules\"\n  edition: \"two\"\nchanges:\n  - set: {clause: \"1.2\", leave_out: notwithstanding}\n  - set: {clause: \"1.4\", leave_out: notwithstanding}\n  - set:\n      clause: \"1.2\"\n      text: \"As in 1.4, but not 1.1.\"\n"
    );
    let (code, text, beside) = run(&["vet", rules, draft, shown(&follow)]);
    assert_eq!(code, 0, "{text}{beside}");
    assert!(!text.contains("speaks of 1.3"), "{text}");
    let (code, _, beside) = run(&["apply", rules, draft, shown(&follow)]);
    assert_eq!(code, 0, "{beside}");
    // A file that is there is not written over; where nothing follows, none is written.
    let (code, _, _) = run(&call);
    assert_eq!(code, 2);
    let none = Path::new(env!("CARGO_TARGET_TMPDIR")).join("follow/none.yaml");
    let call = [
        "vet",
        BALL,
        "rulesets/ball-let.yaml",
        "--consequential",
        shown(&none),
    ];
    let (code, _, beside) = run(&call);
    assert_eq!(code, 0);
    assert!(
        beside.contains("no consequential amendments are needed"),
        "{beside}"
    );
    assert!(!none.exists());
}

#[test]
fn a_reference_that_another_clause_has_come_under_is_told() {
    let rules = file(
        "captured",
        "rules.yaml",
        "ruleset: Small rules\nattributes:\n  a:\n  b:\nrulings:\n  penalty: {scale: [none, caution, out], otherwise: none}\nclauses:\n  - id: \"1.1\"\n    when: a\n    ruling: {penalty: caution}\n  - id: \"1.2\"\n    when: b\n    ruling: {penalty: out}\n    notwithstanding: [\"1.1\"]\n  - id: \"1.3\"\n    when: a and b\n    ruling: {penalty: out}\n",
    );
    let draft = file(
        "captured",
        "draft.yaml",
        "amendment: Shorter\nchanges:\n  - repeal: \"1.1\"\n  - renumber: \"1.3\"\n    to: \"1.1\"\n",
    );
    let (_, output) = vetted(&[shown(&rules), shown(&draft)]);
    assert_eq!(
        output["mentions"],
        serde_json::json!([{"of": "clause 1.2 (notwithstanding)", "names": "1.1", "now": null}])
    );
}
