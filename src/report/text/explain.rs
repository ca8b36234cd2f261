//! A page about a kind of finding, for a terminal: headings, wrapped paragraphs, examples set in.
//!
//! Knows the little of Markdown that the pages use: headings, paragraphs, lists, words in other type,
//! and blocks of code.

use super::look::{Look, Tone};
use super::page::{Page, clean};
use crate::analysis::KINDS;
use crate::model::{Kind, Severity};
use crate::report::caution::CAUTION;
use crate::report::explain;
use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Parser, Tag, TagEnd};
use textwrap::core::display_width;

/// How far the text of a section stands in from its heading.
const INDENT: usize = 2;
/// How far an example stands in.
const EXAMPLE: usize = 4;
/// Columns for the name of a kind.
const NAME: usize = 20;

/// The kinds of finding, each with a line.
pub fn kinds(look: &Look) -> String {
    let mut page = Page::new(look);
    page.paragraph(0, "The kinds of finding, the gravest first:", Tone::Plain);
    for severity in [Severity::Fault, Severity::Warning, Severity::Note] {
        let title = super::page::capital(&format!("{severity}s"));
        page.heading(&title, super::finding::tone(severity));
        let of = Kind::ALL.iter().filter(|kind| kind.severity() == severity);
        for kind in of {
            let later = if KINDS.contains(kind) {
                ""
            } else {
                " This version does not look for it yet."
            };
            let words = format!("{}{later}", explain::line(*kind));
            let mark = format!("{:<NAME$}", kind.word());
            page.hanging(0, &mark, Tone::Strong, &words, Tone::Plain);
        }
    }
    page.gap();
    let words = "`evenhand explain KIND` tells what one of them means, with an example, and how to mend it.";
    page.paragraph(0, words, Tone::Quiet);
    page.finish()
}

/// The page of a kind.
pub fn explained(kind: Kind, look: &Look) -> String {
    let mut page = Page::new(look);
    let mut words = String::new();
    let mut indent = 0;
    let mut bullet = "";
    let mut example = false;
    for event in Parser::new(explain::page(kind)) {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => {
                if &*info == "diff" {
                    let words = "Lines behind `-` go, lines behind `+` take their place:";
                    page.paragraph(indent, words, Tone::Quiet);
                }
                example = true;
            }
            Event::End(TagEnd::CodeBlock) => {
                block(&mut page, &words);
                words.clear();
                example = false;
            }
            Event::Text(text) if example => words.push_str(&text),
            Event::Text(text) => words.push_str(&clean(&text)),
            Event::Code(text) => words.extend(["`", &clean(&text), "`"]),
            Event::SoftBreak | Event::HardBreak => words.push(' '),
            Event::Start(Tag::Item) => bullet = "- ",
            Event::End(TagEnd::Heading(level)) => {
                if level == HeadingLevel::H1 {
                    page.heading(&words, super::finding::tone(kind.severity()));
                } else {
                    page.gap();
                    page.paragraph(0, &words, Tone::Strong);
                    indent = INDENT;
                }
                words.clear();
            }
            Event::End(TagEnd::Paragraph | TagEnd::Item) if !words.is_empty() => {
                page.hanging(indent, bullet, Tone::Plain, &words, Tone::Plain);
                if bullet.is_empty() {
                    page.gap();
                }
                words.clear();
                bullet = "";
            }
            Event::End(TagEnd::List(_)) => page.gap(),
            _ => {}
        }
    }
    if !KINDS.contains(&kind) {
        page.paragraph(0, "This version does not look for it yet.", Tone::Quiet);
    }
    page.gap();
    page.row(0, "Caution", &CAUTION.join(" "), Tone::Quiet);
    page.finish()
}

/// An example, line by line as it is; what is wider than the page is wrapped.
fn block(page: &mut Page<'_>, text: &str) {
    for line in text.lines() {
        let blanks = line.len() - line.trim_start().len();
        let room = page.look.columns().saturating_sub(EXAMPLE);
        if display_width(line) <= room {
            let line = format!("{:EXAMPLE$}{}", "", clean(line));
            page.raw(line.trim_end());
            if line.trim().is_empty() {
                page.raw("\n");
            }
        } else {
            let indent = EXAMPLE + blanks.min(room / 2);
            page.hanging(indent, "", Tone::Plain, line.trim_start(), Tone::Plain);
        }
    }
    page.gap();
}
