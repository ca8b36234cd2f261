//! The program as people and scripts meet it: what is printed where, exit codes, files, pipes.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test runs the program and reads what it has written"
)]

#[path = "common/program.rs"]
mod program;

use program::{evenhand, file, finished, json, keeps_to_schema, run, shown};
use serde_json::Value;
use std::fs;
use std::process::Stdio;
use textwrap::core::display_width;

const CLEAN: &str = "rulesets/grappling.yaml";
const FLAWED: &str = "rulesets/grappling-draft.yaml";

/// A small ruleset; `{}` stands for more sections.
const SMALL: &str = "\
ruleset: Small rules
attributes:
  a:
  b:
rulings:
  penalty:
    scale: [none, caution, out]
    otherwise: none
clauses:
  - id: \"1\"
    when: a
    ruling: {penalty: caution}
  - id: \"2\"
    when: b
    ruling: {penalty: out}
";

#[test]
fn nothing_typed_says_what_to_type_first() {
    let (code, out, err) = run(&[]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(
        err.contains("evenhand new myrules") && err.contains("evenhand check"),
        "{err}"
    );
}

#[test]
fn help_and_version_are_printed_and_wrong_calls_refused() {
    for (arguments, code, words) in [
        (&["--version"][..], 0, "evenhand 0."),
        (&["--help"], 0, "check"),
        (&["check", "--help"], 0, "Exit codes:"),
        (&["help", "new"], 0, ".yaml"),
    ] {
        let (was, out, err) = run(arguments);
        assert!(
            (was, err.as_str()) == (code, "") && out.contains(words),
            "{arguments:?}: {out}"
        );
    }
}

#[test]
fn wrong_calls_are_told_in_plain_words() {
    let seconds = "a number of seconds above 0, such as 60 or 0.5";
    for (arguments, words) in [
        (&["check"][..], "The ruleset file to check is missing."),
        (&["new"], "The name of the file to write is missing."),
        (
            &["chek", CLEAN],
            "There is no command `chek`.\nDid you mean `check`?",
        ),
        (
            &["chekc", CLEAN],
            "There is no command `chekc`.\nDid you mean `check`?",
        ),
        (
            &["check", CLEAN, "--only", "contradicton"],
            "Did you mean `contradiction`?",
        ),
        (
            &["check", CLEAN, "--colour"],
            "There is no option `--colour`",
        ),
        (&["check", CLEAN, "more"], "`more` is one word too many."),
        (&["check", CLEAN, "--quiet=no"], "--quiet takes nothing"),
        (
            &["check", CLEAN, "--color", "never", "--color", "auto"],
            "--color is there twice",
        ),
        (
            &["check", CLEAN, "--jobs", "0"],
            "`0` can't be used for --jobs: give a whole number of threads, 1 or more.",
        ),
        (
            &["check", CLEAN, "--memory", "-3"],
            "`-3` can't be used for --memory: give a whole number of mebibytes, 1 or more.",
        ),
        (&["check", CLEAN, "--seconds", "0"], seconds),
        (&["check", CLEAN, "--seconds", "-1"], seconds),
        (&["check", CLEAN, "--seconds", "abc"], seconds),
        (&["check", CLEAN, "--seconds", "1e3"], seconds),
        (
            &["check", CLEAN, "--format", "xml"],
            "`xml` can't be used for --format: give text, json, sarif, markdown or csv.",
        ),
        (
            &["check", CLEAN, "--format"],
            "Something is missing behind --format: text, json, sarif, markdown or csv.",
        ),
        (&["completions", "sh"], "bash"),
        (&["a\u{1b}[31m"], "There is no command `a\u{fffd}[31m`."),
    ] {
        let (code, out, err) = run(arguments);
        assert_eq!((code, out.as_str()), (2, ""), "{arguments:?}: {err}");
        assert!(
            err.contains(words) && err.contains("What to type:"),
            "{arguments:?}: {err}"
        );
        assert!(
            !err.contains("error:") && !err.contains("Usage") && !err.contains("invalid"),
            "{arguments:?}: {err}"
        );
    }
}

#[test]
fn exit_codes_say_what_the_check_came_to() {
    assert_eq!(run(&["check", CLEAN]).0, 0);
    let accepted = "accepted:\n  - finding: contradiction\n    clauses: [\"1\", \"2\"]\n    because: It is known.\n";
    let accepted = file("exit", "accepted.yaml", format!("{SMALL}{accepted}"));
    let (code, out, _) = run(&["check", shown(&accepted)]);
    assert_eq!(code, 0, "{out}");
    assert!(
        out.contains("It is known.") && out.contains("in order but for what is accepted"),
        "{out}"
    );
    let plain = file("exit", "plain.yaml", SMALL);
    assert_eq!(
        run(&["check", shown(&plain), "--only", "contradiction"]).0,
        1
    );
    assert_eq!(run(&["check", shown(&plain), "--only", "gap"]).0, 0);
    // A billionth of a second is over before the first question.
    let spent = &["check", shown(&plain), "--seconds", "0.000000001"];
    let (code, out, err) = run(spent);
    assert_eq!((code, err.as_str()), (3, ""), "{out}");
    assert!(
        out.contains("Undecided") && !out.contains("in order"),
        "{out}"
    );
    let (code, out, _) = run(&[spent, &["--format", "json"][..]].concat());
    let report = json(&out);
    keeps_to_schema(&report);
    let verdicts = report["verdicts"].as_array().unwrap();
    let open = |verdict: &Value| verdict["verdict"] == "undecided";
    assert!(code == 3 && verdicts.iter().any(open), "{out}");
}

#[test]
fn unusable_input_is_told_at_its_words_and_ends_with_2() {
    let unknown = SMALL
        .replace("when: b", "when: bb")
        .replace("penalty: out", "penalty: ous");
    let deep = format!("ruleset: x\nclauses: {}", "[".repeat(200_000));
    let nested = SMALL.replace(
        "when: b",
        &format!(
            "when: \"{}b{}\"",
            "not (".repeat(60_000),
            ")".repeat(60_000)
        ),
    );
    for (name, bytes, words) in [
        (
            "unknown.yaml",
            unknown.into_bytes(),
            "2 problems; nothing was checked.",
        ),
        ("empty.yaml", Vec::new(), "1 problem; nothing was checked."),
        ("latin.yaml", b"ruleset: Gr\xfcn\n".to_vec(), "UTF-8"),
        (
            "escape.yaml",
            b"ruleset: \x1b[31mred\n".to_vec(),
            "control character",
        ),
        ("deep.yaml", deep.into_bytes(), "nothing was checked."),
        ("nested.yaml", nested.into_bytes(), "nothing was checked."),
    ] {
        let path = file("unusable", name, bytes);
        let (code, out, err) = run(&["check", shown(&path)]);
        assert_eq!((code, err.as_str()), (2, ""), "{name}: {out}");
        assert!(
            out.contains(words) && out.contains(&format!("{name}, line ")),
            "{name}: {out}"
        );
        assert!(
            !out.contains('\u{1b}') && out.len() < 20_000,
            "{name}: {out}"
        );
        let (code, out, err) = run(&["check", shown(&path), "--format", "json"]);
        assert_eq!((code, err.as_str()), (2, ""), "{name}");
        let output = json(&out);
        keeps_to_schema(&output);
        assert_eq!(output["format"], "evenhand/problems/1");
        assert!(!output["problems"].as_array().unwrap().is_empty(), "{name}");
    }
}

#[test]
fn what_cannot_be_read_is_told_to_people_and_to_programs() {
    let picture = file(
        "unreadable",
        "picture.png",
        b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x01",
    );
    for (path, words) in [
        ("rulesets/no-such-file.yaml", "no such file"),
        ("rulesets", "it is a folder"),
        (shown(&picture), "doesn't look like text"),
    ] {
        let (code, out, err) = run(&["check", path]);
        assert_eq!((code, out.as_str()), (2, ""), "{path}");
        assert!(err.contains(path) && err.contains(words), "{err}");
        let (code, out, err) = run(&["check", path, "--format", "json"]);
        assert_eq!((code, err.as_str()), (2, ""), "{path}");
        let output = json(&out);
        keeps_to_schema(&output);
        let problem = &output["problems"][0];
        assert!(
            problem["file"] == path && problem["place"].is_null(),
            "{out}"
        );
        assert!(
            problem["headline"].as_str().unwrap().contains(words),
            "{out}"
        );
    }
}

#[test]
fn json_keeps_to_its_schema_and_counts_as_the_text_does() {
    for path in [CLEAN, FLAWED, "rulesets/throws.yaml", "rulesets/ball.yaml"] {
        let (code, out, err) = run(&["check", path, "--format", "json"]);
        assert!(code < 2 && err.is_empty(), "{path}: {err}");
        let output = json(&out);
        keeps_to_schema(&output);
        let fault =
            |finding: &&Value| finding["severity"] == "fault" && finding["accepted"].is_null();
        let faults = output["findings"]
            .as_array()
            .unwrap()
            .iter()
            .filter(fault)
            .count();
        assert_eq!(faults > 0, code == 1, "{path}");
        let text = run(&["check", path]).1;
        let said = format!("{faults} faults");
        assert_eq!(text.contains(&said), faults > 0, "{path}: {said}\n{text}");
        assert!(out.contains("under a qualified instructor") && text.contains("Caution"));
    }
}

#[test]
fn facts_in_json_are_exact_and_of_their_kind() {
    let numbers = SMALL.replace(
        "  b:\n",
        "  b:\n  wind:\n    number: -1 to 3\n    step: 0.1\n  parts:\n    several: [hand, knee]\n",
    ).replace("when: b", "when: wind at least 2.1 and parts includes knee");
    let path = file("facts", "numbers.yaml", numbers);
    let (_, out, _) = run(&[
        "check",
        shown(&path),
        "--format",
        "json",
        "--only",
        "contradiction",
    ]);
    let output = json(&out);
    keeps_to_schema(&output);
    let facts = &output["findings"][0]["scenario"]["facts"];
    assert_eq!(facts["a"], true);
    assert_eq!(facts["b"], false);
    assert_eq!(facts["parts"], serde_json::json!(["knee"]));
    assert!(facts["wind"].is_number(), "{facts}");
    assert!(
        facts["wind"].to_string().starts_with("2.") || facts["wind"] == 3,
        "{facts}"
    );
    assert_eq!(
        output["findings"][0]["rulings"],
        serde_json::json!({"1": "caution", "2": "out"})
    );
    // a, wind from -1 to 3 by tenths, parts: no question about b is left out of the count.
    assert_eq!(output["space"]["scenarios"], (2 * 2 * 41 * 4).to_string());
}

#[test]
fn standard_input_is_read_for_a_dash() {
    let mut command = evenhand(&["check", "-", "--quiet"]);
    let file = fs::File::open(file("dash", "small.yaml", SMALL)).unwrap();
    let (code, out, err) = finished(&command.stdin(file).output().unwrap());
    assert_eq!((code, err.as_str()), (1, ""));
    assert!(out.starts_with("1. Clauses 1 and 2 contradict"), "{out}");
}

#[test]
fn quiet_prints_headlines_and_the_summary_alone() {
    let (_, out, _) = run(&["check", CLEAN, "--quiet"]);
    assert!(
        out.starts_with("The book is in order") && out.lines().count() <= 3,
        "{out}"
    );
    let idle = file(
        "quiet",
        "idle.yaml",
        SMALL.replace("  b:\n", "  b:\n  c:\n"),
    );
    let (_, out, _) = run(&["check", shown(&idle), "--quiet", "--only", "unused"]);
    assert!(
        out.starts_with("1. Nothing uses") && out.contains("1 note\nmay be worth a look"),
        "{out}"
    );
    let (_, out, _) = run(&["check", FLAWED, "--quiet"]);
    let numbered = out
        .lines()
        .filter(|line| line.starts_with(|first: char| first.is_ascii_digit()));
    assert!(numbered.count() >= 9 && !out.contains('─'), "{out}");
}

#[test]
fn same_input_same_bytes_however_many_threads() {
    let output = |arguments: &[&str]| evenhand(arguments).output().unwrap().stdout;
    let first = output(&["check", FLAWED, "--jobs", "1"]);
    assert!(first == output(&["check", FLAWED, "--jobs", "4"]));
    let json = |jobs| output(&["check", FLAWED, "--format", "json", "--jobs", jobs]);
    assert!(json("1") == json("3"));
}

#[test]
fn colours_and_drawing_follow_the_call_and_the_locale() {
    let plain = run(&["check", FLAWED]).1;
    assert!(!plain.contains('\u{1b}') && plain.contains('─'));
    let coloured = run(&["check", FLAWED, "--color", "always"]).1;
    assert!(coloured.contains("\u{1b}["));
    let mut bare = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once('\u{1b}') {
        bare.push_str(before);
        rest = after.split_once('m').unwrap().1;
    }
    bare.push_str(rest);
    assert_eq!(bare, plain, "colours change no letter");
    let mut ascii = evenhand(&["check", FLAWED]);
    let (_, ascii, _) = finished(&ascii.env("LC_ALL", "C").output().unwrap());
    assert!(
        ascii.is_ascii(),
        "{:?}",
        ascii.lines().find(|line| !line.is_ascii())
    );
}

#[test]
fn lines_keep_to_eighty_columns() {
    let (_, out, _) = run(&["check", FLAWED]);
    for line in out.lines() {
        assert!(display_width(line) <= 80, "{line}");
    }
}

/// Holds a command to write its report over none of the files that it reads: `inputs` are named
/// without their ending.
fn kept(arguments: &[&str], input: &str) {
    let words = [
        ("small", SMALL),
        ("small2", SMALL),
        ("draft", "amendment: Draft\nchanges:\n  - repeal: \"2\"\n"),
        ("facts", "facts:\n  a: yes\n  b: no\n"),
        (
            "book",
            "cases:\n  - id: C\n    facts: {a: yes, b: no}\n    ruled: {penalty: caution}\n",
        ),
    ];
    let mut paths = Vec::new();
    for (name, text) in words {
        paths.push((name, file("over", &format!("{name}.yaml"), text), text));
    }
    let path = |name: &str| paths.iter().find(|(known, ..)| *known == name);
    let mut call: Vec<&str> = Vec::new();
    for word in arguments {
        call.push(path(word).map_or(word, |(_, path, _)| shown(path)));
    }
    let (_, target, text) = path(input).unwrap();
    call.extend(["--output", shown(target)]);
    // By another way to the same file, too.
    let roundabout = target
        .with_file_name("..")
        .join("over")
        .join(target.file_name().unwrap());
    for name in [shown(target), shown(&roundabout)] {
        *call.last_mut().unwrap() = name;
        let (code, out, err) = run(&call);
        assert_eq!((code, out.as_str()), (2, ""), "{call:?} {err}");
        assert!(err.contains("made from; choose another name"), "{err}");
        assert_eq!(fs::read_to_string(target).unwrap(), *text, "{call:?}");
    }
}

#[test]
fn a_report_goes_to_a_file_and_never_over_what_it_is_made_from() {
    let rules = file("output", "small.yaml", SMALL);
    let report = rules.with_file_name("report.txt");
    let (code, out, err) = run(&[
        "check",
        shown(&rules),
        "--output",
        shown(&report),
        "--color",
        "never",
    ]);
    assert_eq!((code, out.as_str(), err.as_str()), (1, "", ""));
    assert_eq!(
        fs::read_to_string(&report).unwrap(),
        run(&["check", shown(&rules)]).1
    );
    let (code, _, err) = run(&["check", shown(&rules), "--output", shown(&rules)]);
    assert!(code == 2 && err.contains("made from"), "{err}");
    assert_eq!(fs::read_to_string(&rules).unwrap(), SMALL);
    for (arguments, inputs) in [
        (&["check", "small", "--with", "draft"][..], &["draft"][..]),
        (&["vet", "small", "draft"], &["small", "draft"]),
        (&["compare", "small", "small2"], &["small", "small2"]),
        (&["apply", "small", "draft"], &["small", "draft"]),
        (&["ruling", "small", "facts"], &["small", "facts"]),
        (&["when", "small", "penalty is out"], &["small"]),
        (&["cases", "small", "book"], &["small", "book"]),
        (&["scenarios", "small"], &["small"]),
        (&["quiz", "small"], &["small"]),
        (
            &["report", "small", "--amendment", "draft"],
            &["small", "draft"],
        ),
    ] {
        for input in inputs {
            kept(arguments, input);
        }
    }
    let nowhere = rules.with_file_name("no-such-folder").join("report.txt");
    let (code, _, err) = run(&["check", shown(&rules), "--output", shown(&nowhere)]);
    assert!(
        code == 2 && err.contains("report.txt") && err.contains("there is no folder"),
        "{err}"
    );
}

#[test]
fn a_closed_pipe_is_no_error() {
    let small = file("pipe", "small.yaml", SMALL);
    for arguments in [
        &["check", shown(&small)][..],
        &["check", shown(&small), "--format", "json"],
        &["man"],
        &["explain"],
        &["explain", "gap"],
        &["--help"],
    ] {
        let mut child = evenhand(arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let (code, _, err) = finished(&child.wait_with_output().unwrap());
        let expected = i32::from(arguments[0] == "check");
        assert_eq!((code, err.as_str()), (expected, ""), "{arguments:?}");
    }
}

#[test]
fn a_full_disk_is_said() {
    let Ok(full) = fs::OpenOptions::new().write(true).open("/dev/full") else {
        return;
    };
    let (code, _, err) = finished(&evenhand(&["check", CLEAN]).stdout(full).output().unwrap());
    assert!(
        code == 2 && err.contains("the disk is full"),
        "{code}: {err}"
    );
}

#[test]
fn new_writes_rules_that_are_in_order_and_overwrites_nothing() {
    let folder = file("new", "keep", "").with_file_name("");
    let path = folder.join("mine.yaml");
    if path.exists() {
        fs::remove_file(&path).unwrap();
    }
    let (code, out, err) = run(&["new", shown(&folder.join("mine"))]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("evenhand check"), "{out}");
    let (code, out, _) = run(&["check", shown(&path), "--format", "json"]);
    let report = json(&out);
    assert_eq!(code, 0);
    // No fault; that purpose is judged is worth a look, and the tour tells why.
    let findings = report["findings"].as_array().unwrap().iter();
    let kinds: Vec<_> = findings.map(|finding| &finding["kind"]).collect();
    assert_eq!(kinds, ["turns-on-judgement"]);
    assert_eq!(report["warnings"], serde_json::json!([]));
    fs::write(&path, "mine").unwrap();
    let (code, _, err) = run(&["new", shown(&path)]);
    assert!(code == 2 && err.contains("already"), "{err}");
    assert_eq!(fs::read_to_string(&path).unwrap(), "mine");
}

#[test]
fn a_broken_principle_is_accepted_by_its_id() {
    let promise = "principles:\n  - id: P1\n    whenever: always\n    expect: penalty is none\n";
    let path = |name: &str, id: &str| {
        let entry = format!("accepted:\n  - finding: broken-principle\n    principle: {id}\n");
        file(
            "accepted_principle",
            name,
            format!("{SMALL}{promise}{entry}"),
        )
    };
    let known = path("known.yaml", "P1");
    let (code, out, _) = run(&["check", "--only", "broken-principle", shown(&known)]);
    assert_eq!(code, 0, "{out}");
    assert!(
        out.contains("Known and accepted") && !out.contains("fits nothing"),
        "{out}"
    );
}

#[test]
fn an_accepted_finding_that_is_gone_is_said() {
    let idle = format!("{SMALL}accepted:\n  - finding: gap\n    because: Old.\n");
    let path = file("idle", "idle.yaml", idle);
    let (_, out, _) = run(&["check", shown(&path)]);
    assert!(
        out.contains("An accepted gap is not there any more"),
        "{out}"
    );
    let report = json(&run(&["check", shown(&path), "--format", "json"]).1);
    keeps_to_schema(&report);
    assert_eq!(report["warnings"][0]["severity"], "warning");
}

#[test]
fn only_asks_for_the_kinds_named_and_shows_all_of_them() {
    let (_, out, _) = run(&[
        "check", FLAWED, "--only", "unused", "--only", "gap", "--format", "json",
    ]);
    let report = json(&out);
    let kinds = |list: &str| {
        let mut kinds: Vec<String> = report[list]
            .as_array()
            .unwrap()
            .iter()
            .map(|entry| entry["kind"].as_str().unwrap().to_owned())
            .collect();
        kinds.dedup();
        kinds
    };
    assert_eq!(kinds("verdicts"), ["gap", "unused"]);
    assert_eq!(kinds("findings"), ["gap", "unused"]);
    let spare: Vec<String> = (0..40).map(|index| format!("  spare_{index}:\n")).collect();
    let many = SMALL.replace("  b:\n", &format!("  b:\n{}", spare.concat()));
    let path = file("only", "many.yaml", many);
    let digest = run(&["check", shown(&path)]).1;
    assert!(
        digest.contains("and 32 more") && digest.contains("--only unused"),
        "{digest}"
    );
    assert!(!digest.contains("spare_39"), "{digest}");
    let whole = run(&["check", shown(&path), "--only", "unused"]).1;
    assert_eq!(
        whole.matches("Nothing uses the attribute").count(),
        40,
        "{whole}"
    );
}

#[test]
fn kinds_of_finding_are_explained() {
    let (code, list, err) = run(&["explain"]);
    assert_eq!((code, err.as_str()), (0, ""));
    let (code, page, err) = run(&["explain", "gap"]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(
        list.contains("step-edge") && page.starts_with("gap ─"),
        "{page}"
    );
    let caution = "Medical questions go to licensed professionals.";
    let joined = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(joined.contains(caution), "{page}");
    let (code, out, err) = run(&["explain", "contradicton"]);
    assert_eq!((code, out.as_str()), (2, ""));
    let first = "There is no kind of finding `contradicton`; there are contradiction, gap,";
    assert!(
        err.starts_with(first) && err.contains("Did you mean `contradiction`?"),
        "{err}"
    );
    let (code, _, err) = run(&["explain", "gap", "gap"]);
    assert!(code == 2 && err.contains("one word too many"), "{err}");
    for shell in ["bash", "fish", "zsh"] {
        assert!(
            run(&["completions", shell])
                .1
                .contains("left-to-discretion"),
            "{shell}"
        );
    }
}

#[test]
fn a_report_says_where_its_kinds_are_explained() {
    let read_on = |arguments: &[&str]| {
        let (_, out, _) = run(arguments);
        let line = out.lines().find(|line| line.starts_with("Read on"));
        line.map(str::to_owned)
    };
    let several = "Read on       evenhand explain KIND, for each kind of finding: contradiction,";
    assert_eq!(read_on(&["check", FLAWED]).as_deref(), Some(several));
    let one = "Read on       evenhand explain gap";
    assert_eq!(
        read_on(&["check", FLAWED, "--only", "gap"]).as_deref(),
        Some(one)
    );
    assert_eq!(read_on(&["check", CLEAN]), None);
    assert_eq!(read_on(&["check", FLAWED, "--quiet"]), None);
}

#[test]
fn shells_and_manuals_are_served() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let (code, out, _) = run(&["completions", shell]);
        assert!(
            code == 0 && out.contains("evenhand") && out.contains("completions"),
            "{shell}"
        );
    }
    let (code, out, _) = run(&["man"]);
    assert!(
        code == 0 && out.contains(".TH evenhand") && out.contains("seconds"),
        "{out}"
    );
}
