//! The command line: the only place with files, a clock, the environment and a terminal.
//!
//! One file a command. It refuses to know how anything is found out or put into words.

mod affected;
mod apply;
mod arguments;
mod cases;
mod check;
mod compare;
mod delivery;
mod explain;
mod files;
mod folder;
mod graph;
mod input;
mod new;
mod prompt;
mod prove;
mod quiz;
mod recheck;
mod report;
mod ruling;
mod scenarios;
mod shell;
mod terminal;
mod usage;
mod vet;
mod when;

use crate::logic::STACK;
use arguments::{Command, Line};
use clap::Parser;
use clap::error::ErrorKind;
use std::process::ExitCode;
use std::thread;

/// What a run comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ending {
    /// Nothing is at fault; warnings and notes may stand.
    InOrder,
    /// Faults were found.
    Faults,
    /// The input or the call cannot be used.
    Unusable,
    /// Something stayed undecided and nothing was at fault.
    Undecided,
}

impl From<Ending> for ExitCode {
    fn from(ending: Ending) -> ExitCode {
        ExitCode::from(match ending {
            Ending::InOrder => 0,
            Ending::Faults => 1,
            Ending::Unusable => 2,
            Ending::Undecided => 3,
        })
    }
}

/// Why a command could not do its work, in words for the person at the terminal.
#[derive(Debug)]
struct Failure(String);

/// Runs the program on the arguments of this process.
pub fn run() -> ExitCode {
    let line = match Line::try_parse() {
        Ok(line) => line,
        Err(error) => return refuse(&error),
    };
    let ending = with_large_stack(move || match line.command {
        Command::Check(options) => check::run(&options),
        Command::Compare(options) => compare::run(&options),
        Command::Vet(options) => vet::run(&options),
        Command::Apply(options) => apply::run(&options),
        Command::Ruling(options) => ruling::run(&options),
        Command::When(options) => when::run(&options),
        Command::Prove(options) => prove::run(&options),
        Command::Recheck(options) => recheck::run(&options),
        Command::Cases(options) => cases::run(&options),
        Command::Report(options) => report::run(&options),
        Command::Scenarios(options) => scenarios::run(&options),
        Command::Affected(options) => affected::run(&options),
        Command::Quiz(options) => quiz::run(&options),
        Command::Graph(options) => graph::run(&options),
        Command::New(options) => new::run(&options),
        Command::Explain(options) => explain::run(&options),
        Command::Completions { shell } => shell::completions(shell),
        Command::Man => shell::man(),
    });
    ending
        .unwrap_or_else(|Failure(words)| {
            terminal::complain(&words);
            Ending::Unusable
        })
        .into()
}

/// Says what is wrong with the call, or gives the help or version that was asked for.
fn refuse(error: &clap::Error) -> ExitCode {
    if let ErrorKind::DisplayHelp | ErrorKind::DisplayVersion = error.kind() {
        // A closed pipe is no error.
        let _ = error.print();
        return Ending::InOrder.into();
    }
    let command = terminal::first_argument();
    terminal::complain(&usage::words(error, command.as_deref()));
    Ending::Unusable.into()
}

/// Runs work that follows conditions and definitions as deep as a ruleset nests them.
fn with_large_stack(
    work: impl FnOnce() -> Result<Ending, Failure> + Send + 'static,
) -> Result<Ending, Failure> {
    let worker = thread::Builder::new().stack_size(STACK).spawn(work);
    let worker = worker.map_err(|error| Failure(format!("no thread could be started: {error}")))?;
    worker.join().unwrap_or_else(|_| {
        Err(Failure(
            "evenhand itself has failed; the message above says where. Please report it with the ruleset.".to_owned(),
        ))
    })
}
