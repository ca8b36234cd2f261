//! Wording: which words of a text are asked about, which are not, and that the underlined words are
//! exactly those, in every notation of a text.
//!
//! The cases stand in the files of a folder. A case is a line of text in which `[` and `]` stand around
//! the words that are asked about; the lines below it, further in, say of each its sort, class and
//! question. A text without brackets is asked about nothing. `> key: value` sets a key of the clause for
//! the cases up to the next line that begins with `#`. Every case is tried in two of the five notations of YAML.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test reads the files that it is about"
)]

mod common;

use common::load_text;
use evenhand::analysis::{Checked, Options, Outcome, Question, check};
use evenhand::model::{Kind, Ruleset};
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

/// The ruleset around a case. What its names, labels and values say has a meaning already.
const HEAD: &str = "\
ruleset: Rules of an invented game
language: en
quantities:
  reasonable_time: 20 s
attributes:
  force: {scale: [light, firm, excessive], label: force used}
  deliberate: {label: done on purpose, judged: true}
  careless: {judged: true}
  dangerous_play: {label: dangerous play}
  seconds: {number: 0 to 60, unit: s}
  kept: {choice: {shortly: for a short time, longer: for longer}}
rulings:
  penalty: {scale: {none: nothing, caution: a serious warning, out: sent off}, otherwise: none}
  play: {choice: [continues, stops], otherwise: continues}
terms:
  unusual_grip: {label: unusual grip, means: force is firm}
  at_once: {narrow: seconds at most 3, broad: seconds at most reasonable_time}
clauses:
  - {id: '1.1', when: dangerous_play, ruling: {penalty: out}}
  - {id: '1.2(a)', when: careless and kept is shortly, ruling: {penalty: out}}
";

/// How a text is written in a file.
#[derive(Clone, Copy, Debug)]
enum Notation {
    Plain,
    Single,
    Double,
    Folded,
    Literal,
}

const NOTATIONS: [Notation; 5] = [
    Notation::Plain,
    Notation::Single,
    Notation::Double,
    Notation::Folded,
    Notation::Literal,
];

impl Notation {
    /// Some of a text's words as they stand in the file.
    fn written(self, words: &str) -> String {
        match self {
            Notation::Single => words.replace('\'', "''"),
            Notation::Double => {
                let mut out = String::new();
                for letter in words.chars() {
                    match letter {
                        ' ' => out.push(' '),
                        'e' => out.push_str("\\x65"),
                        letter if letter.is_ascii_alphanumeric() => out.push(letter),
                        letter => write!(out, "\\U{:08X}", u32::from(letter)).unwrap(),
                    }
                }
                out
            }
            Notation::Plain | Notation::Folded | Notation::Literal => words.to_owned(),
        }
    }

    /// The key `text` with these words, four blanks in.
    fn key(self, words: &str) -> String {
        let lines = self.written(words).replace(' ', "\n      ");
        match self {
            Notation::Plain => format!("    text: {}\n", self.written(words)),
            Notation::Single => format!("    text: '{lines}'\n"),
            Notation::Double => format!("    text: \"{lines}\"\n"),
            Notation::Folded => format!("    text: >-\n      {lines}\n"),
            Notation::Literal => format!("    text: |\n      {}\n", self.written(words)),
        }
    }
}

/// A ruleset with a clause of this text and these keys.
fn ruleset_with(keys: &BTreeMap<String, String>, text: &str) -> String {
    let mut clause = "  - id: '2.1'\n".to_owned();
    clause.push_str(text);
    for (key, value) in keys {
        writeln!(clause, "    {key}: {value}").unwrap();
    }
    if !keys.contains_key("ruling") && !keys.contains_key("rules") {
        clause.push_str("    ruling: {penalty: caution}\n");
    }
    format!("{HEAD}{clause}").replace("    rules: nothing\n", "")
}

fn wording(ruleset: &Ruleset) -> Checked {
    let options = Options {
        kinds: vec![Kind::Wording],
        ..Options::default()
    };
    check(ruleset, &options)
}

/// Everything that is asked, in the order of places.
fn questions(ruleset: &Ruleset) -> Vec<Question> {
    let findings = wording(ruleset).findings.into_iter();
    let mut all: Vec<Question> = findings.flat_map(|finding| finding.questions).collect();
    all.sort_by_key(|question| question.span);
    all
}

/// A case: where it stands, its clause's keys, its text with brackets, and what is asked.
struct Case {
    place: String,
    keys: BTreeMap<String, String>,
    marked: String,
    asked: Vec<String>,
}

fn cases() -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/wording");
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    let mut found: Vec<Case> = Vec::new();
    for path in paths {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&path).unwrap();
        let mut keys = BTreeMap::new();
        for (line, number) in text.lines().zip(1..) {
            if line.trim().is_empty() {
            } else if line.starts_with('#') {
                keys.clear();
            } else if let Some(key) = line.strip_prefix("> ") {
                let (key, value) = key.split_once(": ").unwrap();
                keys.insert(key.to_owned(), value.to_owned());
            } else if let Some(asked) = line.strip_prefix("  ") {
                found.last_mut().unwrap().asked.push(asked.to_owned());
            } else {
                found.push(Case {
                    place: format!("{name}:{number}"),
                    keys: keys.clone(),
                    marked: line.to_owned(),
                    asked: Vec::new(),
                });
            }
        }
    }
    found
}

#[test]
fn words_are_asked_about_where_they_stand_and_nowhere_else() {
    let cases = cases();
    assert!(cases.len() >= 150, "{} cases", cases.len());
    let mut wrong = Vec::new();
    for (index, case) in cases.iter().enumerate() {
        let text = case.marked.replace(['[', ']'], "");
        let marked: Vec<&str> = case
            .marked
            .split('[')
            .skip(1)
            .map(|rest| rest.split(']').next().unwrap())
            .collect();
        // Two of the notations, each in its turn.
        for notation in [index, index + 2].map(|turn| NOTATIONS[turn % NOTATIONS.len()]) {
            if matches!(notation, Notation::Plain) && text.contains(": ") {
                continue;
            }
            let file = ruleset_with(&case.keys, &notation.key(&text));
            let ruleset = load_text("a.yaml", &file)
                .unwrap_or_else(|problems| panic!("{}: {problems:#?}\n{file}", case.place));
            let found = questions(&ruleset);
            let words: Vec<String> = found
                .iter()
                .map(|question| {
                    let slice = ruleset.sources.slice(question.span);
                    slice.split_whitespace().collect::<Vec<_>>().join(" ")
                })
                .collect();
            let expected: Vec<String> = marked.iter().map(|word| notation.written(word)).collect();
            let asked: Vec<String> = found
                .iter()
                .map(|it| format!("{} {}: {}", it.sort.word(), it.class, it.question))
                .collect();
            if words != expected || asked != case.asked {
                wrong.push(format!(
                    "{} ({notation:?})\n{}\nfound: {words:?}\n  {}",
                    case.place,
                    case.marked,
                    asked.join("\n  ")
                ));
                break;
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n\n"));
}

/// A book of clauses that say these texts and rule the same.
fn book(language: &str, texts: &[&str]) -> Ruleset {
    let mut file = HEAD.replace("language: en\n", language);
    for (index, text) in texts.iter().enumerate() {
        writeln!(
            file,
            "  - {{id: '3.{}', text: \"{text}\", ruling: {{penalty: caution}}}}",
            index + 1
        )
        .unwrap();
    }
    load_text("a.yaml", &file).unwrap()
}

fn headlines(checked: &Checked) -> Vec<&str> {
    let findings = checked.findings.iter();
    findings.map(|finding| finding.headline.as_str()).collect()
}

#[test]
fn a_word_that_many_clauses_share_is_asked_about_once() {
    let ruleset = book(
        "language: en\n",
        &[
            "Play stops promptly.",
            "It is played promptly and in a suitable way.",
            "They leave promptly.",
            "Nobody leaves suitably, or leaves anything obvious, unclear or blatant.",
            "The others come back promptly, which is obvious, and promptly again.",
        ],
    );
    let checked = wording(&ruleset);
    assert_eq!(
        headlines(&checked),
        [
            "`promptly` is vague: clauses 3.1, 3.2, 3.3 and 3.5",
            "Clause 3.2: `suitable` is vague",
            "Clause 3.4: `suitably`, `obvious`, `unclear` and `blatant` are vague",
            "Clause 3.5: `obvious` is vague",
        ]
    );
    let shared = &checked.findings[0];
    assert_eq!((shared.labels.len(), shared.questions.len()), (3, 5));
    assert_eq!(shared.clauses.len(), 4);
    let ids: Vec<&str> = shared
        .clauses
        .iter()
        .map(|clause| ruleset[*clause].id.as_str())
        .collect();
    assert_eq!(ids, ["3.1", "3.2", "3.3", "3.5"]);
}

#[test]
fn a_long_book_gives_no_more_findings_than_there_are_words() {
    let texts: Vec<&str> = [
        "This shall be done promptly, and/or up to 3 times.",
        "An act that is clearly dangerous may not be excused provided that nobody is hurt.",
        "Clause 99 says what the referee sees fit.",
    ]
    .repeat(100);
    let checked = wording(&book("language: en\n", &texts));
    assert_eq!(
        headlines(&checked),
        [
            "`clearly` is vague: clauses 3.2, 3.5, 3.8 and 97 more",
            "`dangerous` is vague: clauses 3.2, 3.5, 3.8 and 97 more",
            "`promptly` is vague: clauses 3.1, 3.4, 3.7 and 97 more",
            "`and/or` is ambiguous: clauses 3.1, 3.4, 3.7 and 97 more",
            "`provided that` is ambiguous: clauses 3.2, 3.5, 3.8 and 97 more",
            "`up to` is ambiguous: clauses 3.1, 3.4, 3.7 and 97 more",
            "`may not` is ambiguous: clauses 3.2, 3.5, 3.8 and 97 more",
            "`this` is ambiguous: clauses 3.1, 3.4, 3.7 and 97 more",
            "`sees fit` leaves a discretion open: clauses 3.3, 3.6, 3.9 and 97 more",
            "99 is cited and is not there: clauses 3.3, 3.6, 3.9 and 97 more",
        ]
    );
}

#[test]
fn verbs_for_duties_that_the_book_mixes_are_told_once() {
    let texts = [
        "A player shall bow.",
        "A coach must sit.",
        "A player must salute.",
        "A player must wait and shall then bow.",
        "A referee should bow.",
    ];
    let ruleset = book("language: en\n", &texts);
    let checked = wording(&ruleset);
    let headline = "The book lays down duties by `must` in 3 clauses, `shall` in 2 clauses and `should` in 1 clause";
    assert_eq!(headlines(&checked), [headline]);
    let shown: Vec<&str> = checked.findings[0]
        .labels
        .iter()
        .map(|(span, _)| ruleset.sources.slice(*span))
        .collect();
    assert_eq!(shown, ["should", "shall", "must"]);
    assert_eq!(checked.findings[0].questions.len(), 6);
    let alike = book(
        "language: en\n",
        &["A player must bow.", "A coach must sit."],
    );
    assert_eq!(headlines(&wording(&alike)), Vec::<&str>::new());
}

#[test]
fn a_language_without_a_list_is_not_called_clean() {
    let outcomes = |language: &str, texts: &[&str]| -> Vec<Outcome> {
        let verdicts = wording(&book(language, texts)).verdicts.into_iter();
        verdicts.map(|verdict| verdict.outcome).collect()
    };
    let english = || vec!["English".to_owned()];
    let clean = "A lock on the knee is out.";
    assert_eq!(
        outcomes("language: en\n", &[clean]),
        [Outcome::NoneListed(english())]
    );
    assert_eq!(
        outcomes("language: en-GB\n", &[clean]),
        [Outcome::NoneListed(english())]
    );
    assert_eq!(
        outcomes("language: en\n", &["It is suitable."]),
        [Outcome::Found]
    );
    assert_eq!(
        outcomes("language: de\n", &["Sofort und angemessen."]),
        [Outcome::NotLookedAt(vec!["de".to_owned()])]
    );
    assert_eq!(
        outcomes("", &["It is suitable."]),
        [Outcome::NotLookedAt(vec![String::new()])]
    );
    assert_eq!(
        outcomes("language: de\n", &[]),
        [Outcome::NoneListed(Vec::new())]
    );
}

#[test]
fn each_language_of_a_text_has_its_own_list() {
    let text = "    text:\n      fr: Sans immediately.\n      en: |-\n        Leave\n        immediately.\n";
    let file = ruleset_with(&BTreeMap::new(), text).replace("language: en", "language: fr");
    let ruleset = load_text("a.yaml", &file).unwrap();
    let asked = questions(&ruleset);
    assert_eq!(asked.len(), 1);
    let place = ruleset.sources.place(asked[0].span);
    let line = file.lines().position(|line| line == "        immediately.");
    assert_eq!(place.position.line.0.get() as usize, line.unwrap() + 1);
    assert_eq!((asked[0].language.as_str(), place.length), ("en", 11));
    let verdicts = wording(&ruleset).verdicts;
    let outcomes: Vec<&Outcome> = verdicts.iter().map(|verdict| &verdict.outcome).collect();
    let unread = Outcome::NotLookedAt(vec!["fr".to_owned()]);
    assert_eq!(outcomes, [&Outcome::Found, &unread]);
}

/// Words of the list, words of other languages, marks and blanks.
fn prose() -> impl Strategy<Value = String> {
    let word = prop_oneof![
        prop::sample::select(vec![
            "immediately",
            "and/or",
            "such as",
            "between",
            "10",
            "20",
            "and",
            "it",
            "shall",
            "may",
            "not",
            "This",
            "is",
            "e.g.",
            "etc.",
            "clause",
            "9.9",
            "(a)",
            "up",
            "to",
            "a",
            "knee",
            "İmmediately",
            "ﬁt",
            "Straße",
            "手",
            "e\u{301}tat",
            "\u{1F93C}",
            "’",
            "-",
            ".",
            "\u{a0}",
        ])
        .prop_map(str::to_owned),
        "\\PC{0,6}",
    ];
    prop::collection::vec(word, 0..24).prop_map(|words| words.join(" "))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever a text says, nothing panics, and the words in the file are the words asked about.
    #[test]
    fn any_text_at_all_is_underlined_where_it_says_so(text in prose()) {
        for notation in [Notation::Double, Notation::Single, Notation::Folded] {
            let file = ruleset_with(&BTreeMap::new(), &notation.key(&text));
            let Ok(ruleset) = load_text("a.yaml", &file) else { continue };
            for question in questions(&ruleset) {
                let slice = ruleset.sources.slice(question.span);
                let slice = slice.split_whitespace().collect::<Vec<_>>().join(" ");
                let words = &question.word;
                let long = question.class == "long-sentence";
                // In the double-quoted notation letters are escaped one by one, capitals too.
                let fits = match notation {
                    Notation::Double => {
                        let plain = unescaped(&slice);
                        plain.to_lowercase().replace('\u{2019}', "'") == *words
                    }
                    _ => slice.replace("''", "'").to_lowercase().replace('\u{2019}', "'") == *words,
                };
                prop_assert!(fits || long, "{slice:?} is not {words:?} in\n{file}");
            }
        }
    }
}

/// What the escapes of a double-quoted text stand for.
fn unescaped(slice: &str) -> String {
    let mut out = String::new();
    let mut rest = slice;
    while let Some(letter) = rest.chars().next() {
        let digits = match rest.get(..2) {
            Some("\\U") => 8,
            Some("\\x") => 2,
            _ => 0,
        };
        if digits > 0 {
            let code = u32::from_str_radix(&rest[2..2 + digits], 16).unwrap();
            out.push(char::from_u32(code).unwrap());
            rest = &rest[2 + digits..];
        } else {
            out.push(letter);
            rest = &rest[letter.len_utf8()..];
        }
    }
    out
}
