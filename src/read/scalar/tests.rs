//! Places of words in scalars of every notation, held against the bytes of the file.

#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use super::Mapped;
use crate::read::node::{Node, NodeKind};
use crate::read::yaml;
use crate::source::{Source, SourceId};
use proptest::prelude::*;

/// The values of a document that are words, in the order of the file.
fn scalars<'n>(node: &'n Node, out: &mut Vec<&'n Node>) {
    match &node.kind {
        NodeKind::Nothing => {}
        NodeKind::Scalar(_) => out.push(node),
        NodeKind::List(items) => items.iter().for_each(|item| scalars(item, out)),
        NodeKind::Mapping(entries) => entries.iter().for_each(|entry| scalars(&entry.value, out)),
    }
}

fn document(text: &str) -> (Option<Node>, usize) {
    let source = Source::new("a", text);
    let mut problems = Vec::new();
    let root = yaml::document(&source, SourceId::default(), &mut problems);
    (root, problems.len())
}

/// Each word of the value, and the bytes of the file under it.
fn underlined(text: &str) -> Vec<(String, String)> {
    let (root, _) = document(text);
    let root = root.unwrap();
    let mut found = Vec::new();
    scalars(&root, &mut found);
    let node = found[0];
    let NodeKind::Scalar(scalar) = &node.kind else {
        panic!("a scalar");
    };
    let mapped = Mapped::scalar(text, node.span, scalar.style, &scalar.words);
    assert_eq!(mapped.text, scalar.words);
    let mut words = Vec::new();
    let mut at = 0;
    for word in mapped.text.split(char::is_whitespace) {
        if !word.is_empty() {
            let span = mapped.span(at..at + word.len());
            words.push((
                word.to_owned(),
                text[span.start as usize..span.end as usize].to_owned(),
            ));
        }
        at += word.len()
            + mapped.text[at + word.len()..]
                .chars()
                .next()
                .map_or(0, char::len_utf8);
    }
    words
}

#[test]
fn words_are_underlined_where_they_stand() {
    let check = |text: &str, expect: &[(&str, &str)]| {
        let found = underlined(text);
        let found: Vec<(&str, &str)> = found
            .iter()
            .map(|(word, file)| (word.as_str(), file.as_str()))
            .collect();
        assert_eq!(found, expect, "{text}");
    };
    check(
        "a: one\n  zwö\n\n  three # four",
        &[("one", "one"), ("zwö", "zwö"), ("three", "three")],
    );
    check("a: 'it''s  one'", &[("it's", "it''s"), ("one", "one")]);
    check(
        "a: \"\\u0065\\x6eé \\\n   d\\te\"",
        &[
            ("enné".replace("nn", "n").as_str(), "\\u0065\\x6eé"),
            ("d", "d"),
            ("e", "e"),
        ],
    );
    check("a: |2\n    x\n   y\n\nb: c", &[("x", "x"), ("y", "y")]);
    check(
        "a: >-\r\n\r\n  x y\r\n  z\r\n\r\n   w\r\n  v\r\n",
        &[("x", "x"), ("y", "y"), ("z", "z"), ("w", "w"), ("v", "v")],
    );
    check("a: &n !t\n  one two", &[("one", "one"), ("two", "two")]);
    check("a: &n |\n  one\n  two", &[("one", "one"), ("two", "two")]);
    check(
        "a: >-\n  & one\n  two",
        &[("&", "&"), ("one", "one"), ("two", "two")],
    );
    check("a: |\n  &one", &[("&one", "&one")]);
    check("a: &n |\n  &one two", &[("&one", "&one"), ("two", "two")]);
    check("\u{FEFF}ä: [\"b\" , c]", &[("b", "b")]);
    check("a: \"x y\" # 'z'", &[("x", "x"), ("y", "y")]);
}

/// A value of some words in some notation, over one line or several.
fn written() -> impl Strategy<Value = (Vec<String>, String)> {
    let word = prop::sample::select(vec![
        "a", "is", "é", "größe", "(b,", "c)", "身", "x_1", "7.26", "it's", "q\"q", "back\\s",
    ]);
    let gap = prop::sample::select(vec![
        " ", "  ", "\n  ", "\n\n  ", "\r\n  ", " \n  ", "\n   ",
    ]);
    let style = 0..6usize;
    (prop::collection::vec((word, gap), 1..8), style).prop_map(|(pieces, style)| {
        let words: Vec<String> = pieces.iter().map(|(word, _)| (*word).to_owned()).collect();
        let mut body = String::new();
        for (index, (word, _)) in pieces.iter().enumerate() {
            if index > 0 {
                body += pieces[index - 1].1;
            }
            body += &match style {
                1 => word.replace('\'', "''"),
                2 => word.replace('\\', "\\\\").replace('"', "\\\""),
                3 => word.chars().fold(String::new(), |escaped, character| {
                    escaped + &format!("\\U{:08x}", u32::from(character))
                }),
                _ => (*word).to_owned(),
            };
        }
        let value = match style {
            1 => format!("'{body}'"),
            2 | 3 => format!("\"{body}\""),
            4 => format!("|\n  {body}\n"),
            5 => format!(">-\n  {body}"),
            _ => body,
        };
        (words, format!("é: 1\nb:\n- {value}\n"))
    })
}

proptest! {
    /// Whatever the notation, each word of the value lies over the bytes that wrote it, in order.
    #[test]
    fn mapped_words_are_the_words_of_the_file((words, text) in written()) {
        let (root, problems) = document(&text);
        prop_assert_eq!(problems, 0);
        let root = root.unwrap();
        let mut found = Vec::new();
        scalars(&root, &mut found);
        let node = found[1];
        let NodeKind::Scalar(scalar) = &node.kind else { panic!("a scalar") };
        let mapped = Mapped::scalar(&text, node.span, scalar.style, &scalar.words);
        prop_assert_eq!(mapped.text.split_whitespace().collect::<Vec<_>>(), words.iter().map(String::as_str).collect::<Vec<_>>());
        let mut at = 0;
        let mut last = 0;
        for word in &words {
            let start = at + mapped.text[at..].find(word.as_str()).unwrap();
            at = start + word.len();
            let span = mapped.span(start..at);
            let file = &text[span.start as usize..span.end as usize];
            prop_assert!(span.start >= last);
            last = span.end;
            let read = match scalar.style {
                crate::read::node::Style::SingleQuoted => file.replace("''", "'"),
                crate::read::node::Style::DoubleQuoted if file.starts_with("\\U") => file
                    .split("\\U")
                    .skip(1)
                    .map(|code| char::from_u32(u32::from_str_radix(code, 16).unwrap()).unwrap())
                    .collect(),
                crate::read::node::Style::DoubleQuoted => file.replace("\\\"", "\"").replace("\\\\", "\\"),
                _ => file.to_owned(),
            };
            prop_assert_eq!(&read, word);
        }
    }

    /// The decoder never disagrees with the parser, for any text that is YAML.
    #[test]
    fn decoded_words_are_what_yaml_reads(text in "[a-cnrtuxeNLP_0-4 \\n'\"\\\\é#|>:-]{0,24}", style in 0..5usize) {
        let opening = ["", "'", "\"", "|\n ", ">\n "][style];
        let text = format!("k: {opening}{text}{}\n", ["", "'", "\"", "", ""][style]);
        if let (Some(root), _) = document(&text) {
            let mut found = Vec::new();
            scalars(&root, &mut found);
            for node in found {
                let NodeKind::Scalar(scalar) = &node.kind else { continue };
                let mapped = Mapped::scalar(&text, node.span, scalar.style, &scalar.words);
                prop_assert_eq!(&mapped.text, &scalar.words);
                let whole = mapped.runs.len() == 1 && mapped.runs[0].kind == super::RunKind::Whole;
                prop_assert!(!whole || scalar.words.chars().count() <= 1, "{text:?} {scalar:?}");
            }
        }
    }
}
