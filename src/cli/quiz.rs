//! `quiz`: questions with a key.

use super::arguments::{Format, Limits, Rules, Threads, Written};
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::terminal::{self, Destination, ProgressLine};
use super::{Ending, Failure, files};
use crate::analysis;
use crate::load::Refused;
use crate::model::Ruleset;
use crate::quiz::{Level, Request, quiz};
use crate::report::quiz::{Paper, cards, markdown, text};
use crate::report::{json, text::Detail};
use crate::scenario::{Asked, meant};
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

#[derive(Debug, Args)]
#[command(after_long_help = HELP)]
pub(super) struct Quiz {
    #[command(flatten)]
    rules: Rules,
    /// How many questions
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u32).range(1..))]
    count: u32,
    #[command(flatten)]
    choice: Choice,
    /// Write the key to this file, apart from the questions
    #[arg(long, value_name = "FILE")]
    key: Option<PathBuf>,
    /// What to print
    #[arg(long, value_enum, default_value_t = QuizFormat::Text)]
    format: QuizFormat,
    #[command(flatten)]
    written: Written,
    #[command(flatten)]
    threads: Threads,
    #[command(flatten)]
    limits: Limits,
}

/// Which questions are asked.
#[derive(Debug, Args)]
pub(super) struct Choice {
    /// Ask about this clause: its id, the number of its group, or a heading; may be repeated
    #[arg(long, value_name = "ID")]
    clause: Vec<String>,
    /// Ask only about incidents of which this condition is true (of two, one of them); may be repeated
    #[arg(long, value_name = "CONDITION")]
    given: Vec<String>,
    /// Ask only questions that are so hard
    #[arg(long, value_enum, value_name = "LEVEL")]
    difficulty: Option<LevelName>,
    /// What chance begins with: the same number asks the same; 1, if left out
    #[arg(long, value_name = "N")]
    seed: Option<u64>,
}

impl Choice {
    /// The first of these options that was given.
    pub(super) fn first(&self) -> Option<&'static str> {
        let given = [
            ("--clause", !self.clause.is_empty()),
            ("--given", !self.given.is_empty()),
            ("--difficulty", self.difficulty.is_some()),
            ("--seed", self.seed.is_some()),
        ];
        given.into_iter().find_map(|(name, is)| is.then_some(name))
    }

    /// So many of these questions.
    pub(super) fn request(
        &self,
        ruleset: &Ruleset,
        count: u32,
        threads: &Threads,
    ) -> Result<Request, Refused> {
        let asked = Asked {
            clauses: self.clause.clone(),
            given: self.given.clone(),
            ..Asked::default()
        };
        Ok(Request {
            wanted: meant(ruleset, &asked)?.wanted,
            count: usize::try_from(count).unwrap_or(usize::MAX),
            level: self.difficulty.map(|level| match level {
                LevelName::Easy => Level::Easy,
                LevelName::Medium => Level::Medium,
                LevelName::Hard => Level::Hard,
            }),
            seed: self.seed.unwrap_or(1),
            jobs: Some(threads.number()),
        })
    }
}

/// Whether it ended before all the questions that were asked for were made.
pub(super) fn is_short(made: &crate::quiz::Quiz) -> bool {
    made.stopped.is_some() && made.questions.len() < made.asked_for
}

const HELP: &str = "\
Without --key the key follows the questions. JSON and CSV hold both.

  evenhand quiz book.yaml --count 5 --clause 7
  evenhand quiz book.yaml --difficulty hard --seed 3
  evenhand quiz book.yaml --format markdown --output questions.md --key key.md
  evenhand quiz book.yaml --format csv --output cards.csv

Exit codes:
  0  the questions are there
  2  the ruleset or the call can't be used
  3  it ended before all the questions that were asked for could be made";

/// How hard a question is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum LevelName {
    /// One clause and few facts, or little more
    Easy,
    /// Exceptions, rulings that rest on others, or many facts
    Medium,
    /// Several of these at once, or words that can be read either way
    Hard,
}

/// What a quiz is printed as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum QuizFormat {
    /// Words, for people
    Text,
    /// Markdown, to be printed or pasted
    Markdown,
    /// JSON, for programs
    Json,
    /// Flash cards: a table (CSV) with the columns front and back
    Csv,
}

pub(super) fn run(options: &Quiz) -> Result<Ending, Failure> {
    let delivery = Delivery {
        written: &options.written,
        format: match options.format {
            QuizFormat::Json => Format::Json,
            _ => Format::Text,
        },
        detail: Detail::Whole,
        inputs: options.rules.files(),
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
    };
    if options.key.is_some() && matches!(options.format, QuizFormat::Json | QuizFormat::Csv) {
        return Err(Failure(
            "--key goes with --format text and markdown; JSON and CSV hold the key".to_owned(),
        ));
    }
    let ruleset = &loaded.ruleset;
    let request = match options
        .choice
        .request(ruleset, options.count, &options.threads)
    {
        Ok(request) => request,
        Err(refused) => return delivery.unusable(refused),
    };
    let progress = ProgressLine::new(false);
    let budget = terminal::budget(&options.limits);
    if let Some(problem) = analysis::no_scenario(ruleset, &budget) {
        progress.finish();
        return delivery.problems(&ruleset.sources, vec![problem]);
    }
    let made = quiz(ruleset, &request, &budget);
    progress.finish();
    let paper = match options.key {
        Some(_) => Paper::Sheet,
        None => Paper::Both,
    };
    let page = |paper, look: &_| match options.format {
        QuizFormat::Markdown => markdown(ruleset, &made, paper),
        _ => text(ruleset, &made, paper, look),
    };
    let sheet = match options.format {
        QuizFormat::Json => json::quiz(ruleset, &made).map_err(json_failed)?,
        QuizFormat::Csv => cards(ruleset, &made).map_err(Failure)?,
        QuizFormat::Text | QuizFormat::Markdown => page(paper, &delivery.look()),
    };
    delivery.deliver(&sheet)?;
    if let Some(key) = &options.key {
        let mut others: Vec<&Path> = delivery.inputs.clone();
        others.extend(options.written.output.as_deref());
        let color = options.written.painted.color;
        let look = terminal::look(Destination::File, color, Detail::Whole);
        files::deliver(&page(Paper::Key, &look), Some(key), &others)?;
    }
    Ok(if is_short(&made) {
        Ending::Undecided
    } else {
        Ending::InOrder
    })
}
