//! Whatever a file holds, reading it ends, and what is refused is refused at a place in the file.

use evenhand::read;
use evenhand::source::{Source, Sources};
use proptest::prelude::*;

const WHOLE: &str = include_str!("language/whole.yaml");

/// Reads a ruleset and holds what is true of every reading. Gives back how many problems there were.
fn read_anything(text: &str) -> usize {
    let source = Source::new("any.yaml", text);
    let mut sources = Sources::default();
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let draft = read::ruleset(&source, id, &mut problems);
    assert!(
        draft.is_some() || !problems.is_empty(),
        "refused without a word"
    );
    let mut last = 0;
    for problem in &problems {
        let places =
            std::iter::once(problem.span).chain(problem.others.iter().map(|(span, _)| *span));
        for span in places {
            let words = text.get(span.start as usize..span.end as usize);
            assert!(
                words.is_some(),
                "a place outside the file, or within a character: {problem:?}"
            );
            let at_end = text[span.end as usize..].starts_with(['\n', '\r'])
                || span.end as usize == text.len();
            assert!(
                !span.is_empty() || at_end || span.start == 0,
                "a place without words: {problem:?}"
            );
        }
        assert!(
            problem.span.start >= last,
            "problems stand in the order of their places"
        );
        last = problem.span.start;
        assert!(
            !problem.headline.is_empty() && !problem.label.is_empty() && problem.help.is_some(),
            "{problem:?}"
        );
    }
    problems.len()
}

#[test]
fn the_whole_language_is_read() {
    assert_eq!(read_anything(WHOLE), 0);
    let windows = WHOLE.replace('\n', "\r\n");
    assert_eq!(read_anything(&windows), 0);
    assert_eq!(read_anything(&format!("\u{FEFF}{WHOLE}")), 0);
}

#[test]
fn nesting_without_end_is_refused() {
    let depth = 100_000;
    for (opening, closing) in [
        ("[", ""),
        ("[", "]"),
        ("{a: ", ""),
        ("{", "}"),
        ("- ", ""),
        ("? ", ""),
        ("[{", ""),
        ("(", ""),
        ("(", ")"),
        ("!a ", ""),
        ("&a ", ""),
        ("'", ""),
        ("\"", ""),
        ("...\n", ""),
        ("---\n", ""),
        ("%", ""),
        ("> ", ""),
        ("not ", ""),
        ("a and (", ""),
    ] {
        for before in ["", "ruleset: x\nclauses:\n  - id: \"1\"\n    when: "] {
            let text = format!("{before}{}{}", opening.repeat(depth), closing.repeat(depth));
            assert!(read_anything(&text) > 0, "{before}{opening}");
        }
    }
    let steps: Vec<String> = (0..2_000)
        .map(|level| {
            format!(
                "{}a:
",
                " ".repeat(level)
            )
        })
        .collect();
    let steps = steps.concat();
    assert!(read_anything(&steps) > 0);
}

#[test]
fn a_file_is_read_up_to_its_limit() {
    let text = format!("ruleset: x\n#{}\n", "x".repeat(read::LARGEST_FILE - 13));
    assert_eq!(text.len(), read::LARGEST_FILE);
    assert_eq!(read_anything(&text), 0);
    assert_eq!(read_anything(&(text + "\n")), 1);
    let many = format!("ruleset: x\nclauses: [{}", "a,".repeat(2_000_000));
    assert!(read_anything(&many) > 0);
}

/// A place in the whole sample, and what is done there.
fn mutation() -> impl Strategy<Value = (usize, usize, String)> {
    let piece = prop::sample::select(vec![
        "", " ", "\n", "\t", ":", ": ", "#", " #", "- ", "-", "[", "]", "{", "}", "(", ")", ",",
        "'", "\"", "&a ", "*a", "!", "|", ">", "%", "@", "?", "\\", "\0", "\u{FEFF}", "é", "---\n",
        "...\n", "<<", "or ", "not ", "\r", "when: ",
    ]);
    (0..WHOLE.len(), 0..12usize, piece.prop_map(str::to_owned))
}

proptest! {
    #[test]
    fn a_mutated_file_is_read_or_refused_at_a_place(mutations in prop::collection::vec(mutation(), 1..4)) {
        let mut text: Vec<char> = WHOLE.chars().collect();
        for (at, removed, added) in mutations {
            let at = at.min(text.len());
            let end = (at + removed).min(text.len());
            text.splice(at..end, added.chars());
        }
        read_anything(&text.into_iter().collect::<String>());
    }

    #[test]
    fn any_text_is_read_or_refused_at_a_place(text in "(\\PC|[\n\r\t:#'\"\\[\\]{}&*!|>-]){0,60}") {
        read_anything(&text);
        read_anything(&format!("ruleset: x\nclauses:\n  - {text}"));
    }

    #[test]
    fn any_bytes_are_text_or_refused_at_a_place(bytes in prop::collection::vec(any::<u8>(), 0..80)) {
        match read::text_from_bytes(bytes.clone()) {
            Ok(text) => {
                prop_assert_eq!(text.as_bytes(), bytes.as_slice());
                read_anything(&text);
            }
            Err(refused) => {
                let words = refused.text.get(refused.range.start as usize..refused.range.end as usize);
                prop_assert!(words.is_some());
                let mut sources = Sources::default();
                let id = sources.add(Source::new("any.yaml", refused.text.clone()));
                prop_assert_eq!(Some(sources.slice(refused.problem(id).span)), words);
            }
        }
    }
}

/// A promise too many hides no mistake in the first.
#[test]
fn what_is_wrong_within_a_promise_is_told_beside_a_second_one() {
    let text = "\
ruleset: Two promises
attributes:
  side: {label: the side, choice: [left, right]}
rulings:
  penalty: {scale: [none, caution]}
clauses:
  - {id: \"1\", when: side is left, ruling: {penalty: none}}
principles:
  - {id: P1, whenever: sied is left, expect: penalty is nnone, impartial_to: side}
";
    let problems = evenhand::load::load("two.yaml", text)
        .err()
        .map_or_else(Vec::new, |refused| refused.problems);
    let headlines = problems.iter().map(|problem| problem.headline.as_str());
    let mut told: Vec<&str> = headlines.collect();
    told.sort_unstable();
    assert_eq!(
        told,
        [
            "`nnone` is not a value of `penalty`",
            "`sied` is not a name in this ruleset",
            "a principle has both `whenever` and `impartial_to`",
        ]
    );
}
