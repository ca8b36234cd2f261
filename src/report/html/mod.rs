//! One page that opens by double-click: what was found, the rules with it in the margin, and a place to
//! try a case. Made to be read, printed and circulated by people who never see a terminal.
//!
//! The page is one file, and asks for nothing from anywhere: its style, its scripts and its data stand in
//! it. What comes from a ruleset is text on it and never becomes part of it, whatever it says. How a
//! finding is told is decided here; what it is, elsewhere.

mod cards;
mod cases;
mod chart;
mod draft;
mod excerpt;
mod facts;
mod matrix;
mod network;
mod numbers;
mod pieces;
mod quiz;
mod rules;
mod try_data;

pub use cases::CaseBook;
pub use chart::Decision;
pub use draft::Draft;

use super::caution::caution;
use super::tally::{self, Part, Standing, Tally};
use super::{text, text_capital, words};
use crate::analysis::Checked;
use crate::graph::Overlaps;
use crate::labels;
use crate::model::{Ruleset, Severity};
use crate::problem::Problem;
use crate::quiz::Quiz;
use crate::source::Sources;
use askama::Template;
use cards::{Card, Group};
use cases::CasesView;
use chart::ChartView;
use draft::DraftView;
use facts::Glossary;
use matrix::Matrix;
use numbers::Strip;
use pieces::Piece;
use quiz::QuizView;
use rules::Item;
use std::fmt;

/// What a page is made from.
#[derive(Clone, Copy)]
pub struct Book<'a> {
    /// The ruleset.
    pub ruleset: &'a Ruleset,
    /// What reading it had to say.
    pub warnings: &'a [Problem],
    /// What the check found out.
    pub checked: &'a Checked,
    /// The date of the text, as it is to be printed; `None` where nobody said.
    pub date: Option<&'a str>,
    /// The fingerprint of the text, in hexadecimal digits.
    pub fingerprint: &'a str,
    /// What else stands on the page.
    pub besides: Besides<'a>,
}

/// What stands on a page where it is asked for.
#[derive(Clone, Copy, Default)]
pub struct Besides<'a> {
    /// A draft that is vetted.
    pub draft: Option<Draft<'a>>,
    /// A case book that was held against the text.
    pub cases: Option<CaseBook<'a>>,
    /// Questions and their key.
    pub quiz: Option<&'a Quiz>,
    /// The order of questions that leads to a ruling.
    pub decision: Option<Decision<'a>>,
    /// The clauses that overlap.
    pub overlaps: Option<&'a Overlaps>,
}

/// Why a page could not be made.
#[derive(Debug)]
pub struct Unmade(String);

impl fmt::Display for Unmade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Unmade {}

/// The page.
///
/// # Errors
/// None that can happen: a template filled in and data put into words are passed on as they are.
pub fn page(book: &Book<'_>) -> Result<String, Unmade> {
    let ruleset = book.ruleset;
    let tally = Tally::new(book.checked);
    let (summary, standing) = tally.summary();
    let groups = cards::groups(ruleset, book.checked);
    let unmade = |error: serde_json::Error| Unmade(error.to_string());
    let data = in_script(&try_data::json(ruleset)).map_err(unmade)?;
    let network_data = in_script(&network::json(ruleset)).map_err(unmade)?;
    let cards: Vec<&Card> = groups.iter().flat_map(|group| &group.cards).collect();
    let page = Page {
        language: language(ruleset),
        title: &ruleset.title,
        edition: &ruleset.edition,
        layers: ruleset
            .layers
            .iter()
            .map(|layer| layer.title.as_str())
            .collect(),
        date: book.date.unwrap_or_default(),
        fingerprint: book.fingerprint.get(..12).unwrap_or(book.fingerprint),
        version: env!("CARGO_PKG_VERSION"),
        answer: answer(standing, &tally),
        answer_class: match standing {
            Standing::InOrder => "in-order",
            Standing::Open => "open",
            Standing::AtFault => "at-fault",
        },
        summary,
        counts: counts(book, &tally),
        gravest: cards
            .iter()
            .filter(|card| card.severity == Severity::Fault && card.accepted.is_none())
            .take(GRAVEST)
            .copied()
            .collect(),
        covered: tally::covered(ruleset, book.checked),
        rules: rules::items(ruleset, &cards),
        principles: rules::principles(ruleset, &cards),
        strips: numbers::strips(ruleset, &cards),
        matrix: matrix::matrix(
            ruleset,
            &cards,
            book.besides.overlaps.unwrap_or(&Overlaps::default()),
        ),
        glossary: Glossary::new(ruleset),
        remarks: remarks(book),
        caution: caution(ruleset),
        draft: book.besides.draft.map(|draft| draft::view(&draft, &cards)),
        cases: book.besides.cases.map(|book| cases::view(ruleset, &book)),
        quiz: book.besides.quiz.map(|quiz| quiz::view(ruleset, quiz)),
        chart: book.besides.decision.map(|it| chart::view(ruleset, &it)),
        groups: &groups,
        style: include_str!("style.css"),
        ruling: include_str!("ruling.js"),
        script: include_str!("page.js"),
        network: include_str!("network.js"),
        quiz_script: include_str!("quiz.js"),
        data: &data,
        network_data: &network_data,
    };
    let made = page.render().map_err(|error| Unmade(error.to_string()))?;
    Ok(shown(&made))
}

/// The headlines that the first screen repeats.
const GRAVEST: usize = 5;

#[derive(Template)]
#[template(path = "page.html")]
struct Page<'a> {
    language: &'a str,
    title: &'a str,
    edition: &'a str,
    /// The amendments that are laid over it.
    layers: Vec<&'a str>,
    date: &'a str,
    fingerprint: &'a str,
    version: &'a str,
    /// Whether the book is in order, in a few words.
    answer: &'static str,
    answer_class: &'static str,
    summary: String,
    counts: Vec<Figure>,
    gravest: Vec<&'a Card>,
    draft: Option<DraftView>,
    cases: Option<CasesView>,
    quiz: Option<QuizView>,
    chart: Option<ChartView>,
    groups: &'a [Group],
    rules: Vec<Item>,
    principles: Vec<rules::Principle>,
    strips: Vec<Strip>,
    matrix: Matrix,
    glossary: Glossary,
    covered: Vec<Part>,
    remarks: Vec<Remark>,
    caution: Vec<String>,
    style: &'static str,
    ruling: &'static str,
    script: &'static str,
    network: &'static str,
    quiz_script: &'static str,
    data: &'a str,
    network_data: &'a str,
}

/// A number on the first screen, and what it counts.
struct Figure {
    number: String,
    what: String,
    /// Where it is told.
    to: &'static str,
    /// The sign of a severity, if it is one.
    sign: &'static str,
}

/// Something that reading the file had to say.
struct Remark {
    headline: Vec<Piece>,
    label: Vec<Piece>,
    place: String,
    help: Vec<Piece>,
}

/// A language tag that a browser takes; the program's own words are English.
fn language(ruleset: &Ruleset) -> &str {
    let tag = ruleset.language.as_str();
    let plain = |letter: char| letter.is_ascii_alphanumeric() || letter == '-';
    if !tag.is_empty() && tag.chars().all(plain) {
        tag
    } else {
        ""
    }
}

fn answer(standing: Standing, tally: &Tally) -> &'static str {
    match standing {
        Standing::AtFault => "No: there are faults to mend.",
        Standing::Open => "No fault was found, but not everything is decided.",
        Standing::InOrder if tally.partial => "As far as it was looked at, yes.",
        Standing::InOrder => "Yes, and that is proved.",
    }
}

fn counts(book: &Book<'_>, tally: &Tally) -> Vec<Figure> {
    let plural = |number: usize, one: &str| {
        if number == 1 {
            one.to_owned()
        } else {
            format!("{one}s")
        }
    };
    let figure = |number: usize, one: &str, to, sign| Figure {
        number: words::grouped(&number.into()),
        what: plural(number, one),
        to,
        sign,
    };
    let mut counts = vec![
        figure(
            tally.faults,
            "fault",
            "faults",
            cards::sign(Severity::Fault),
        ),
        figure(
            tally.warnings,
            "warning",
            "warnings",
            cards::sign(Severity::Warning),
        ),
        figure(tally.notes, "note", "notes", cards::sign(Severity::Note)),
    ];
    if tally.accepted > 0 {
        counts.push(Figure {
            what: "known and accepted".to_owned(),
            ..figure(tally.accepted, "", "accepted", cards::ACCEPTED)
        });
    }
    if tally.undecided > 0 {
        counts.push(Figure {
            what: "undecided".to_owned(),
            ..figure(tally.undecided, "", "checked", "?")
        });
    }
    counts.push(figure(book.ruleset.clauses.len(), "clause", "rules", ""));
    if let Some(space) = &book.checked.space {
        counts.push(Figure {
            number: words::grouped(&space.scenarios),
            what: if space.exact {
                "incidents looked at, all that can occur".to_owned()
            } else {
                "incidents, or more, that can occur".to_owned()
            },
            to: "checked",
            sign: "",
        });
    }
    counts
}

fn remarks(book: &Book<'_>) -> Vec<Remark> {
    let idle = super::idle_accepted(book.ruleset, book.checked);
    let all = book.warnings.iter().chain(&idle);
    all.map(|problem| remark(&book.ruleset.sources, problem))
        .collect()
}

fn remark(sources: &Sources, problem: &Problem) -> Remark {
    Remark {
        headline: Piece::told(&text_capital(&problem.headline)),
        label: Piece::told(&problem.label),
        place: sources.place(problem.span).to_string(),
        help: Piece::told(&text_capital(problem.help.as_deref().unwrap_or_default())),
    }
}

/// Data, ready to stand in a script element. Within a string of JSON the escapes mean the same, and no
/// longer end or open anything in the page.
fn in_script(data: &serde_json::Value) -> Result<String, serde_json::Error> {
    let text = serde_json::to_string(data)?;
    Ok(text
        .replace('<', "\\u003c")
        .replace('\u{2028}', "\\u2028")
        .replace('\u{2029}', "\\u2029"))
}

/// The page without what would hide or turn round what stands on it: such signs are shown as signs that
/// cannot be shown. The page's own words have none.
fn shown(page: &str) -> String {
    let hides = |letter: char| letter != '\n' && text::hidden(letter);
    if !page.contains(hides) {
        return page.to_owned();
    }
    page.chars()
        .map(|letter| match letter {
            '\t' => ' ',
            letter if hides(letter) => char::REPLACEMENT_CHARACTER,
            letter => letter,
        })
        .collect()
}

/// How people call a clause: its id, and its title where it has one.
fn clause_title(ruleset: &Ruleset, clause: &crate::model::Clause) -> String {
    let title = clause.title.as_ref();
    title.map_or_else(String::new, |title| {
        title.in_language(&ruleset.language).trim().to_owned()
    })
}

/// How people call a dimension, with a capital letter.
fn dimension_title(ruleset: &Ruleset, id: crate::model::DimensionId) -> String {
    text_capital(&labels::dimension(ruleset, id))
}
