//! The pages about kinds of finding are true: their examples give the finding that they show, the
//! mended examples don't, and what is quoted from the draft is reported there.
//!
//! A page holds a ruleset fenced as `yaml`, what `evenhand check` says of it fenced as `text output`,
//! changes fenced as `diff`, and the headline of a finding in the draft fenced as `text planted`. Of a
//! kind that this version does not look for, only the shape is held. What is quoted is renewed with
//! `RENEW=1 cargo test --test findings`: look at what has changed.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test reads the files that it is about"
)]

mod common;

use common::{checked, load, text_of};
use evenhand::analysis::{Checked, KINDS, Options, check};
use evenhand::load::load as load_loaded;
use evenhand::model::{Kind, Ruleset, Severity};
use evenhand::report::explain;
use evenhand::report::text::{self, Colours, Detail, Drawing, Look};
use std::path::Path;

/// Columns of what is quoted: it stands in from the left where a page is printed.
const WIDTH: usize = 76;
/// Columns that a terminal should have.
const COLUMNS: usize = 80;
const DRAFT: &str = "rulesets/grappling-draft.yaml";
const OUTPUT: &str = "text output";
const PLANTED: &str = "text planted";

fn look(width: usize) -> Look {
    Look {
        width,
        colours: Colours::None,
        drawing: Drawing::Unicode,
        detail: Detail::Whole,
    }
}

/// The blocks of a page with this behind their fence.
fn blocks(page: &str, info: &str) -> Vec<String> {
    let opening = format!("```{info}\n");
    let parts = page
        .split("\n```\n")
        .filter_map(|part| part.split_once(&opening));
    parts.map(|(_, block)| format!("{block}\n")).collect()
}

/// A text with a change made: lines behind `-` go, those behind `+` take their place.
fn mended(text: &str, change: &str) -> String {
    let side = |other: char| -> String {
        let kept = change.lines().filter(|line| !line.starts_with(other));
        kept.map(|line| line.get(1..).unwrap_or("").to_owned() + "\n")
            .collect()
    };
    let (before, after) = (side('+'), side('-'));
    assert_eq!(
        text.matches(&before).count(),
        1,
        "not there once:\n{before}\nin\n{text}"
    );
    text.replacen(&before, &after, 1)
}

fn ruleset(kind: Kind, text: &str) -> Ruleset {
    let loaded = load_loaded("example.yaml", text)
        .unwrap_or_else(|refused| panic!("{kind}: {:#?}\n{text}", refused.problems));
    assert_eq!(loaded.warnings, [], "{kind}");
    loaded.ruleset
}

fn open_faults(kind: Kind, checked: &Checked) -> Vec<&str> {
    let findings = checked.findings.iter();
    let others = findings.filter(|it| it.kind != kind && it.severity == Severity::Fault);
    others.map(|it| it.headline.as_str()).collect()
}

fn of(kind: Kind, checked: &Checked) -> Vec<&str> {
    let findings = checked.findings.iter().filter(|it| it.kind == kind);
    findings.map(|it| it.headline.as_str()).collect()
}

/// What the report says of the findings, without what stands around them.
fn told(kind: Kind, ruleset: &Ruleset) -> String {
    let options = Options {
        kinds: vec![kind],
        ..Options::default()
    };
    let checked = check(ruleset, &options);
    let report = text::checked(ruleset, &[], &checked, &look(WIDTH));
    let findings = report.split("\n1. ").nth(1).unwrap();
    let findings = findings.split("\nWhat was checked").next().unwrap();
    format!("1. {}\n", findings.trim_end())
}

/// The page with the blocks that quote the program as they should be.
fn renewed(kind: Kind, page: &str, draft: &Checked) -> String {
    let example = blocks(page, "yaml").remove(0);
    let output = format!("```{OUTPUT}\n{}```\n", told(kind, &ruleset(kind, &example)));
    let open = draft.findings.iter().filter(|it| it.accepted.is_none());
    let planted = open.filter(|it| it.kind == kind).map(|it| &it.headline);
    let mut planted: Vec<&String> = planted.collect();
    assert!(!planted.is_empty(), "{DRAFT} has no {kind}");
    planted.sort_by_key(|headline| headline.len());
    let planted = format!("```{PLANTED}\n{}\n```\n", planted[0]);
    let mut page = page.to_owned();
    for (info, block, before) in [
        (OUTPUT, output, "`evenhand check example.yaml` says of it:"),
        (
            PLANTED,
            planted,
            "## In the rulesets that come with it\n\n`rulesets/grappling-draft.yaml` has one planted:",
        ),
    ] {
        match blocks(&page, info).first() {
            Some(old) => page = page.replace(&format!("```{info}\n{old}```\n"), &block),
            None if info == OUTPUT => {
                let at = page.find("## How to mend it").unwrap();
                page.insert_str(at, &format!("{before}\n\n{block}\n"));
            }
            None => page = format!("{page}\n{before}\n\n{block}"),
        }
    }
    page
}

#[test]
fn every_page_has_the_shape() {
    for kind in Kind::ALL {
        let page = explain::page(*kind);
        let headings: Vec<&str> = page.lines().filter(|line| line.starts_with('#')).collect();
        let title = format!("# {kind}");
        let mut expected = vec![
            title.as_str(),
            "## What it means",
            "## Why it matters",
            "## An example",
            "## How to mend it",
        ];
        if KINDS.contains(kind) {
            expected.push("## In the rulesets that come with it");
        }
        assert_eq!(headings, expected, "{kind}");
        let gravity = format!("It is a {}", kind.severity());
        assert!(page.lines().nth(4).unwrap().starts_with(&gravity), "{kind}");
        assert!(explain::line(*kind).ends_with('.'), "{kind}");
        assert_eq!(blocks(page, "yaml").len(), 1, "{kind}");
        assert!(!blocks(page, "diff").is_empty(), "{kind}");
        let quoted = [OUTPUT, PLANTED].map(|info| blocks(page, info).len());
        let count = usize::from(KINDS.contains(kind));
        assert_eq!(
            quoted,
            [count, count],
            "{kind}: RENEW=1 cargo test --test findings writes what is quoted"
        );
    }
}

#[test]
fn every_example_gives_the_finding_and_the_mended_one_does_not() {
    for kind in KINDS {
        let page = explain::page(*kind);
        let text = blocks(page, "yaml").remove(0);
        let example = checked(&ruleset(*kind, &text));
        assert_eq!(
            of(*kind, &example).len(),
            1,
            "{kind}: {:?}",
            of(*kind, &example)
        );
        assert_eq!(open_faults(*kind, &example), Vec::<&str>::new(), "{kind}");
        let changes = blocks(page, "diff").into_iter();
        let text = changes.fold(text, |text, change| mended(&text, &change));
        let cured = checked(&ruleset(*kind, &text));
        assert_eq!(of(*kind, &cured), Vec::<&str>::new(), "{kind}");
        assert_eq!(open_faults(*kind, &cured), Vec::<&str>::new(), "{kind}");
    }
}

#[test]
fn what_pages_quote_is_what_the_program_says() {
    let draft = checked(&load(DRAFT));
    let mut wrong = Vec::new();
    for kind in KINDS {
        let name = format!("docs/findings/{kind}.md");
        let page = text_of(&name);
        let renewed = renewed(*kind, &page, &draft);
        if std::env::var_os("RENEW").is_some() {
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(&name);
            std::fs::write(path, &renewed).unwrap();
        } else if page != renewed {
            wrong.push(format!("{name} should be\n{renewed}"));
        }
    }
    assert!(
        wrong.is_empty(),
        "RENEW=1 cargo test --test findings\n{}",
        wrong.join("\n")
    );
}

#[test]
fn printed_pages_keep_to_the_width_and_lose_no_word() {
    // Marks, and the lines under words, may be broken or left out.
    let words = |text: &str| -> Vec<String> {
        let words = text.split(|letter: char| !letter.is_alphanumeric());
        words
            .filter(|word| !word.is_empty())
            .map(str::to_owned)
            .collect()
    };
    for kind in Kind::ALL {
        for width in [COLUMNS, 60, 40] {
            let printed = text::explained(*kind, &look(width));
            for line in printed.lines() {
                let columns = textwrap::core::display_width(line);
                assert!(columns <= width, "{kind} at {width}: {line}");
            }
            let mut printed = words(&printed).into_iter();
            let page = explain::page(*kind);
            let prose: String = page
                .lines()
                .filter(|line| !line.starts_with("```"))
                .flat_map(|line| [line, "\n"])
                .collect();
            for word in words(&prose) {
                assert!(
                    printed.any(|other| other == word),
                    "{kind} at {width} loses `{word}`"
                );
            }
        }
        // At the usual width no example is broken.
        let printed = text::explained(*kind, &look(COLUMNS));
        for line in blocks(explain::page(*kind), "yaml")[0].lines() {
            assert!(printed.contains(line), "{kind}: {line}");
        }
    }
}

#[test]
fn every_kind_has_its_line_in_the_list() {
    let list = text::kinds(&look(COLUMNS));
    for kind in Kind::ALL {
        let line = list
            .lines()
            .find(|line| line.starts_with(&format!("{kind} ")));
        let line = line.unwrap_or_else(|| panic!("{kind} is not listed"));
        assert!(
            line.contains(explain::line(*kind).get(..12).unwrap()),
            "{line}"
        );
    }
    assert!(
        list.lines()
            .all(|line| textwrap::core::display_width(line) <= COLUMNS)
    );
}
