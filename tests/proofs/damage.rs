//! Records that were altered are refused, and it is said where.

use super::{good_record, loaded, rechecked, resealed};
use evenhand::proof::recheck::Refusal;
use evenhand::proof::{Files, SUMS};
use serde_json::Value;

/// A ruleset with a claim of every sort: proved and found, by clauses, by scenarios and by form.
const RULES: &str = "\
ruleset: Small rules
attributes:
  hold:
    choice: [none, lock, pin]
  joint:
    choice: [elbow, knee]
    asked_when: hold is lock
  seconds:
    number: 0 to 30
    unit: s
  hard:
    judged: true
terms:
  long:
    narrow: seconds at least 20
    broad: seconds at least 10
background:
  - never: hold is pin and seconds less than 3
rulings:
  penalty:
    scale: [none, caution, out]
    otherwise: none
  play:
    choice: [on, stop]
clauses:
  - id: \"1\"
    when: joint is knee and hold is lock
    ruling: {penalty: out, play: stop}
  - id: \"2\"
    when: long
    unless: hard
    ruling: {penalty: caution}
    subject_to: \"1\"
  - id: \"3\"
    when: hold is pin and hard
    ruling: {penalty: {may_be: [caution, out]}}
  - id: \"4\"
    when: joint is not knee
    ruling: {play: on}
  - id: \"5\"
    when: hold is not lock
    ruling: {play: on}
  - id: \"6\"
    when: hold is pin and seconds less than 3
    ruling: {penalty: caution}
  - id: \"7\"
    when: joint is knee
    ruling: {penalty: out}
principles:
  - id: P1
    rises_with: seconds
    ruling: penalty
  - id: P2
    impartial_to: [seconds]
  - id: P3
    whenever: joint is knee
    expect: penalty is out
";

/// What is refused of these files, after their fingerprints were made to fit.
fn refused(files: &Files) -> Vec<Refusal> {
    let (ruleset, fingerprint) = loaded("small.yaml", RULES).unwrap();
    rechecked(&ruleset, &fingerprint, &resealed(files)).refused
}

fn record() -> Files {
    good_record("small.yaml", RULES).2.files
}

/// The files after one text was altered.
fn with(files: &Files, name: &str, alter: impl FnOnce(&str) -> String) -> Files {
    let mut files = files.clone();
    let text = files.get(name).unwrap_or_else(|| panic!("no {name}"));
    let altered = alter(text);
    assert_ne!(altered, *text, "{name} was not altered");
    files.insert(name.to_owned(), altered);
    files
}

fn assert_refused_at(files: &Files, place: &str, why: &str) {
    let refused = refused(files);
    assert!(
        refused
            .iter()
            .any(|it| it.place == place && it.why.contains(why)),
        "{place}, {why}: {refused:#?}"
    );
}

/// A claim of the manifest, to be altered.
fn claim<'m>(manifest: &'m mut Value, id: &str) -> &'m mut Value {
    let claims = manifest["claims"].as_array_mut().unwrap();
    claims.iter_mut().find(|claim| claim["id"] == id).unwrap()
}

fn with_manifest(files: &Files, alter: impl FnOnce(&mut Value)) -> Files {
    with(files, "manifest.json", |text| {
        let mut manifest: Value = serde_json::from_str(text).unwrap();
        alter(&mut manifest);
        serde_json::to_string_pretty(&manifest).unwrap() + "\n"
    })
}

#[test]
fn any_byte_of_any_file_is_missed() {
    let files = record();
    let (ruleset, fingerprint) = loaded("small.yaml", RULES).unwrap();
    let mut tried = 0;
    for (name, text) in &files {
        // Some places of each file, the last byte among them.
        let stride = (text.len() / 6).max(1);
        for at in (0..text.len()).step_by(stride).chain([text.len() - 1]) {
            let mut bytes = text.clone().into_bytes();
            bytes[at] ^= 1;
            let Ok(altered) = String::from_utf8(bytes) else {
                continue;
            };
            let mut files = files.clone();
            files.insert(name.clone(), altered);
            match evenhand::proof::recheck::recheck(&ruleset, &fingerprint, &files) {
                Ok(report) => assert_ne!(report.refused, [], "{name}, byte {at}"),
                Err(unreadable) => assert_eq!(name, "manifest.json", "{unreadable:?}"),
            }
            tried += 1;
        }
    }
    assert!(tried > 150, "{tried}");
}

#[test]
fn a_file_that_is_gone_or_new_is_noticed() {
    let files = record();
    for name in files.keys().filter(|name| *name != "manifest.json") {
        let mut fewer = files.clone();
        fewer.remove(name);
        if name == SUMS {
            let (ruleset, fingerprint) = loaded("small.yaml", RULES).unwrap();
            let refused = rechecked(&ruleset, &fingerprint, &fewer).refused;
            assert_eq!(refused.first().map(|it| it.place.as_str()), Some(SUMS));
        } else {
            assert_refused_at(&fewer, name, "missing");
        }
    }
    let mut more = files.clone();
    more.insert("note.txt".to_owned(), "I was here.\n".to_owned());
    assert_refused_at(&more, "note.txt", "does not know");
}

/// A line of clauses, without its head.
fn clause_lines(text: &str) -> Vec<usize> {
    let lines = text.lines().enumerate();
    let clauses = lines.filter(|(_, line)| !line.starts_with(['c', 'p']));
    clauses.map(|(index, _)| index).collect()
}

/// The text with its counts of clauses made to fit.
fn counted(lines: &[String]) -> String {
    let count = clause_lines(&lines.join("\n")).len();
    let fitted = lines.iter().map(|line| match line.strip_prefix("p cnf ") {
        Some(rest) => format!("p cnf {} {count}", rest.split(' ').next().unwrap()),
        None => line.clone(),
    });
    fitted.map(|line| line + "\n").collect()
}

#[test]
fn each_clause_that_is_dropped_and_each_literal_that_is_flipped_is_refused() {
    let files = record();
    let name = "contradiction-play.cnf";
    let lines: Vec<String> = files[name].lines().map(str::to_owned).collect();
    let clauses = clause_lines(&files[name]);
    assert!(clauses.len() > 20);
    for index in &clauses {
        let dropped = with(&files, name, |_| {
            let mut lines = lines.clone();
            lines.remove(*index);
            counted(&lines)
        });
        assert_refused_at(&dropped, name, "the rules say what is not recorded");
        let literals = lines[*index].split(' ').count() - 1;
        for literal in 0..literals {
            let flipped = with(&files, name, |_| {
                let mut lines = lines.clone();
                let mut numbers: Vec<i32> = lines[*index]
                    .split(' ')
                    .map(|it| it.parse().unwrap())
                    .collect();
                numbers[literal] = -numbers[literal];
                let numbers: Vec<String> = numbers.iter().map(ToString::to_string).collect();
                lines[*index] = numbers.join(" ");
                counted(&lines)
            });
            assert_refused_at(&flipped, name, "the rules");
        }
    }
    let added = with(&files, name, |_| {
        let mut lines = lines.clone();
        lines.push("-1 0".to_owned());
        counted(&lines)
    });
    assert_refused_at(&added, name, "the rules do not say what is recorded");
}

#[test]
fn clauses_about_pairs_and_changes_are_compared_as_well() {
    let files = record();
    for name in [
        "broken-principle-1.cnf",
        "broken-principle-3.cnf",
        "surplus-words.cnf",
    ] {
        let lines: Vec<String> = files[name].lines().map(str::to_owned).collect();
        let clauses = clause_lines(&files[name]);
        for index in clauses.iter().step_by(clauses.len() / 10) {
            let dropped = with(&files, name, |_| {
                let mut lines = lines.clone();
                lines.remove(*index);
                counted(&lines)
            });
            assert_refused_at(&dropped, name, "the rules say what is not recorded");
            let flipped = with(&files, name, |_| {
                let mut lines = lines.clone();
                lines[*index] = match lines[*index].strip_prefix('-') {
                    Some(rest) => rest.to_owned(),
                    None => format!("-{}", lines[*index]),
                };
                counted(&lines)
            });
            assert_refused_at(&flipped, name, "the rules");
        }
    }
}

/// The record with one entry of a file of scenarios altered.
fn with_shown(files: &Files, name: &str, entry: usize, alter: impl FnOnce(&mut Value)) -> Files {
    with(files, name, |text| {
        let mut shown: Value = serde_json::from_str(text).unwrap();
        alter(&mut shown[entry]);
        shown.to_string()
    })
}

#[test]
fn pairs_that_are_none_are_refused() {
    let files = record();
    // The first is told by how `hard` is judged.
    let name = "turns-on-judgement.scenarios.json";
    let not_so = "it is not so that an announced ruling is another";
    let same = with_shown(&files, name, 0, |one| {
        one["second"] = one["facts"].clone();
    });
    assert_refused_at(&same, name, not_so);
    let farther = with_shown(&files, name, 0, |one| {
        one["second"]["seconds"] = 19.into();
    });
    assert_refused_at(&farther, name, not_so);
    let alone = with_shown(&files, name, 0, |one| {
        one.as_object_mut().unwrap().remove("second");
    });
    assert_refused_at(&alone, name, not_so);
    let unknown = with_shown(&files, name, 0, |one| {
        one["second"]["seconds"] = 31.into();
    });
    assert_refused_at(&unknown, name, "no value of `seconds`");
    let of_others = with_shown(&files, name, 0, |one| {
        one["question"]["judged"] = serde_json::json!(["long"]);
    });
    assert_refused_at(&of_others, name, not_so);
    let of_nobody = with_shown(&files, name, 0, |one| {
        one["question"]["judged"] = serde_json::json!(["soft"]);
    });
    assert_refused_at(&of_nobody, name, "does not have");
    let name = "broken-principle-2.scenarios.json";
    let kept = with_shown(&files, name, 0, |one| {
        one["second"] = one["facts"].clone();
    });
    assert_refused_at(&kept, name, "it is not so that principle P2 is broken");
    let other = with_shown(&files, name, 0, |one| {
        one["question"]["principle"] = "P1".into();
    });
    assert_refused_at(&other, name, "it is not so that principle P1 is broken");
    // One scenario too many.
    let name = "impossible.scenarios.json";
    let two = with_shown(&files, name, 0, |one| {
        one["second"] = one["facts"].clone();
    });
    assert_refused_at(&two, name, "it is not so that clause 1 is met");
}

#[test]
fn each_part_and_reference_has_to_be_told_of() {
    let files = record();
    for (claim, kind) in [("surplus-words", "part"), ("idle-exception", "reference")] {
        let name = &format!("{claim}.scenarios.json");
        let shown: Value = serde_json::from_str(&files[name]).unwrap();
        let shown = shown.as_array().unwrap();
        let with_place = shown.iter().filter(|one| !one["question"][kind].is_null());
        assert!(with_place.count() > 0, "{name}");
        let fewer = with(&files, name, |_| {
            Value::Array(shown.iter().skip(1).cloned().collect()).to_string()
        });
        // What one verdict shows may be shown beside another.
        let first = &shown[0]["question"];
        let elsewhere = files.iter().any(|(file, text)| {
            file != name && file.ends_with("json") && text.contains(&first.to_string())
        });
        if !elsewhere {
            assert_refused_at(&fewer, claim, "it is not shown whether");
        }
        let moved = with_shown(&files, name, shown.len() - 1, |one| {
            one["facts"] = serde_json::json!({"hard": false, "hold": "none", "seconds": 0});
        });
        assert_refused_at(&moved, name, "it is not so");
    }
    let beyond = with_shown(&files, "surplus-words.scenarios.json", 0, |one| {
        one["question"]["part"] = serde_json::json!([9]);
    });
    assert_refused_at(&beyond, "surplus-words.scenarios.json", "does not have");
    let surplus = with_manifest(&files, |manifest| {
        claim(manifest, "surplus-words")["none"] = Value::Array(Vec::new());
    });
    assert_refused_at(&surplus, "surplus-words", "it is not shown whether");
    let kept = with_manifest(&files, |manifest| {
        let claim = claim(manifest, "broken-principle-2");
        claim["verdict"] = "proved".into();
        claim["says"] = "Principle P2 is kept in every scenario.".into();
    });
    assert_refused_at(
        &kept,
        "broken-principle-2",
        "it is not shown that there is no scenario",
    );
    let another = with_manifest(&files, |manifest| {
        claim(manifest, "broken-principle-2")["principle"] = "P9".into();
    });
    assert_refused_at(
        &another,
        "manifest.json",
        "says nothing of broken-principle P2",
    );
    assert_refused_at(
        &another,
        "manifest.json",
        "broken-principle P9, which is no verdict",
    );
}

#[test]
fn words_that_were_exchanged_are_refused() {
    let files = record();
    let exchanged = with(&files, "contradiction-play.words", |text| {
        let mut words: Vec<String> = text
            .lines()
            .map(|line| line.split_once(' ').unwrap().1.to_owned())
            .collect();
        words.swap(2, 3);
        let lines = words.iter().zip(1..);
        lines
            .map(|(words, number)| format!("{number} {words}\n"))
            .collect()
    });
    assert_refused_at(&exchanged, "contradiction-play.cnf", "the rules");
    let twice = with(&files, "contradiction-play.words", |text| {
        let first = text.lines().next().unwrap().strip_prefix("1 ").unwrap();
        let lines = text.lines().enumerate();
        let doubled = lines.map(|(index, line)| match index {
            1 => format!("2 {first}\n"),
            _ => format!("{line}\n"),
        });
        doubled.collect()
    });
    assert_refused_at(&twice, "contradiction-play.cnf", "called that already");
}

#[test]
fn refutations_that_do_not_refute_are_refused() {
    let files = record();
    let name = "contradiction-play.drat";
    let nothing = with(&files, name, |_| String::new());
    let report = refused(&nothing);
    // Without a step it may only hold where the clauses need none.
    let by_propagation = report.iter().all(|it| it.place != name);
    if !by_propagation {
        assert_refused_at(&nothing, name, "without a contradiction");
    }
    let wrong = with(&files, name, |text| format!("1 0\n-1 0\n{text}"));
    let words = "does not follow";
    if !by_propagation {
        assert_refused_at(&wrong, name, words);
    }
    let garbage = with(&files, name, |_| "1 2 three 0\n".to_owned());
    assert_refused_at(&garbage, name, "line 1");
    let beyond = with(&files, name, |_| "99999 0\n0\n".to_owned());
    assert_refused_at(&beyond, name, "line 1");
}

#[test]
fn scenarios_that_show_nothing_are_refused() {
    let files = record();
    let name = "gap-play.scenarios.json";
    assert!(!files.contains_key(name), "nothing is left open on play");
    let name = "impossible.scenarios.json";
    let first = |alter: &dyn Fn(&mut Value)| {
        with(&files, name, |text| {
            let mut shown: Value = serde_json::from_str(text).unwrap();
            alter(&mut shown[0]["facts"]);
            shown.to_string()
        })
    };
    // The first is the one in which clause 1 is met: a lock of the knee.
    let moved = first(&|facts| facts["joint"] = "elbow".into());
    assert_refused_at(&moved, name, "it is not so that clause 1 is met");
    let unasked = first(&|facts| {
        facts.as_object_mut().unwrap().remove("joint");
    });
    assert_refused_at(&unasked, name, "it is not so");
    let unknown = first(&|facts| facts["joint"] = "toe".into());
    assert_refused_at(&unknown, name, "no value of `joint`");
    let beyond = first(&|facts| facts["seconds"] = 31.into());
    assert_refused_at(&beyond, name, "no value of `seconds`");
    let nobody = first(&|facts| facts["colour"] = "red".into());
    assert_refused_at(&nobody, name, "no attribute `colour`");
    // With the background broken it is no scenario.
    let broken = with(&files, name, |text| {
        let mut shown: Value = serde_json::from_str(text).unwrap();
        for one in shown.as_array_mut().unwrap() {
            one["facts"] = serde_json::json!({"hold": "pin", "seconds": 2, "hard": true});
        }
        shown.to_string()
    });
    assert_refused_at(&broken, name, "it is not so");
}

#[test]
fn a_manifest_that_says_more_than_is_shown_is_refused() {
    let files = record();
    let proved = with_manifest(&files, |manifest| {
        let claim = claim(manifest, "impossible");
        claim["verdict"] = "proved".into();
        claim["says"] = "Each clause is met in some scenario.".into();
    });
    assert_refused_at(
        &proved,
        "impossible",
        "no scenario shows that clause 6 is met",
    );
    let words = with_manifest(&files, |manifest| {
        claim(manifest, "gap-play")["says"] = "All is well.".into();
    });
    assert_refused_at(&words, "gap-play", "say something else");
    let other = with_manifest(&files, |manifest| {
        claim(manifest, "contradiction-play")["none"][0]["question"]["dimension"] =
            "penalty".into();
    });
    assert_refused_at(&other, "contradiction-play", "no scenario in which");
    let none = with_manifest(&files, |manifest| {
        claim(manifest, "contradiction-play")["none"] = Value::Array(Vec::new());
    });
    assert_refused_at(&none, "contradiction-play", "not shown");
    let by_form = with_manifest(&files, |manifest| {
        claim(manifest, "contradiction-play")["none"][0]["by"] =
            serde_json::json!({"method": "form"});
    });
    assert_refused_at(&by_form, "contradiction-play", "leaves room");
    let by_nobody = with_manifest(&files, |manifest| {
        claim(manifest, "contradiction-play")["none"][0]["by"] =
            serde_json::json!({"method": "solvers", "solvers": []});
    });
    assert_refused_at(&by_nobody, "contradiction-play", "not shown");
    let fewer = with_manifest(&files, |manifest| {
        manifest["claims"]
            .as_array_mut()
            .unwrap()
            .retain(|it| it["id"] != "gap-penalty");
    });
    assert_refused_at(&fewer, "manifest.json", "says nothing of gap on penalty");
    let silent = with_manifest(&files, |manifest| {
        manifest["not_recorded"] = Value::Array(Vec::new());
    });
    assert_refused_at(&silent, "manifest.json", "says nothing of unused");
    let elsewhere = with_manifest(&files, |manifest| {
        manifest["ruleset"]["title"] = "Other rules".into();
    });
    assert_refused_at(&elsewhere, "manifest.json", "another title");
}

#[test]
fn a_record_of_another_text_is_refused_and_what_no_longer_holds_is_named() {
    let files = record();
    let altered = RULES.replace("    subject_to: \"1\"\n", "");
    let (ruleset, fingerprint) = loaded("small.yaml", &altered).unwrap();
    let refused = rechecked(&ruleset, &fingerprint, &files).refused;
    let at = |place: &str| refused.iter().any(|it| it.place == place);
    assert!(at("manifest.json"), "{refused:#?}");
    assert!(at("contradiction-penalty.cnf"), "{refused:#?}");
    // What does not touch the claim is not refused with it.
    assert!(!at("contradiction-play.cnf"), "{refused:#?}");
}
