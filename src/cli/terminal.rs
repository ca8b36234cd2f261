//! The terminal: its width and colours, the progress line, Ctrl-C.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    clippy::exit,
    reason = "the command line is where the environment and the terminal are asked"
)]

use super::arguments::{Color, Limits};
use crate::analysis::Progress;
use crate::report::text::{Colours, Detail, Drawing, Look, wrapped};
use crate::solve::Budget;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::env;
use std::io::{self, IsTerminal, Write};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// Columns of a report that goes to a pipe or a file.
const PIPE_WIDTH: usize = 80;
/// Lines longer than this are hard to read, however wide the terminal.
const WIDEST: usize = 100;

/// Where a report goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Destination {
    /// Standard output.
    Screen,
    /// A file.
    File,
}

fn terminal_width() -> usize {
    terminal_size::terminal_size().map_or(PIPE_WIDTH, |(width, _)| usize::from(width.0).min(WIDEST))
}

/// How a text report is to look.
pub(super) fn look(destination: Destination, color: Color, detail: Detail) -> Look {
    let terminal = destination == Destination::Screen && io::stdout().is_terminal();
    let width = if terminal {
        terminal_width()
    } else {
        PIPE_WIDTH
    };
    let colours = match color {
        Color::Always => Colours::Ansi,
        Color::Auto if terminal && !is_set("NO_COLOR") && !dumb() => Colours::Ansi,
        Color::Auto | Color::Never => Colours::None,
    };
    let drawing = if utf8_locale() && !(terminal && dumb()) {
        Drawing::Unicode
    } else {
        Drawing::Ascii
    };
    Look {
        width,
        colours,
        drawing,
        detail,
    }
}

/// Whether a variable is there and not empty.
fn is_set(name: &str) -> bool {
    env::var_os(name).is_some_and(|value| !value.is_empty())
}

fn dumb() -> bool {
    env::var_os("TERM").is_some_and(|term| term == "dumb")
}

/// Whether the locale says that UTF-8 is understood: the first of these that is set decides.
fn utf8_locale() -> bool {
    let deciding = ["LC_ALL", "LC_CTYPE", "LANG"]
        .into_iter()
        .find(|name| is_set(name))
        .and_then(env::var_os);
    cfg!(windows)
        || deciding.is_some_and(|locale| {
            let locale = locale.to_string_lossy().to_lowercase();
            locale.contains("utf-8") || locale.contains("utf8")
        })
}

/// The first word behind the program's name.
pub(super) fn first_argument() -> Option<String> {
    let first = env::args_os().nth(1)?;
    Some(first.to_string_lossy().into_owned())
}

/// Whether there is somebody to ask: both ways between the program and a person are a terminal.
pub(super) fn can_be_asked() -> bool {
    io::stdin().is_terminal() && io::stderr().is_terminal()
}

/// Says something to the person at the terminal, beside the report. On a terminal its lines are wrapped;
/// in a pipe each stays one line.
pub(super) fn complain(words: &str) {
    let error = io::stderr();
    let folded = if error.is_terminal() {
        fold(words, terminal_width())
    } else {
        words.to_owned()
    };
    // Nobody may be listening; then there is nobody to tell either.
    let _ = writeln!(error.lock(), "{folded}");
}

/// Wraps each line that is wider than that; what follows stands in as far as the line itself.
fn fold(words: &str, width: usize) -> String {
    let lines = words.split('\n').flat_map(|line| {
        let said = line.trim_start();
        let indent = line.len() - said.len();
        // Columns beside each other stay as they are where they fit.
        if line.chars().count() <= width {
            return vec![line.to_owned()];
        }
        let wrapped = wrapped(said, width.saturating_sub(indent).max(1));
        let wrapped = wrapped.into_iter();
        wrapped
            .map(|part| format!("{:indent$}{part}", ""))
            .collect()
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// A limit that ends so long from now, that gives the solver so much memory, and that
/// Ctrl-C uses up; Ctrl-C once more ends the program at once.
pub(super) fn budget(limits: &Limits) -> Budget {
    static ASKED: AtomicBool = AtomicBool::new(false);
    let mut budget = Budget::unlimited();
    let end = |time| Instant::now().checked_add(time);
    if let Some(deadline) = limits.seconds.and_then(end) {
        budget = budget.until(deadline);
    }
    if let Some(mebibytes) = limits.memory {
        budget = budget.memory_mib(mebibytes.get());
    }
    let shared = budget.clone();
    // Without a handler Ctrl-C still ends the program, only without a report.
    let _ = ctrlc::set_handler(move || {
        if ASKED.swap(true, Ordering::Relaxed) {
            std::process::exit(130);
        }
        shared.interrupt();
        complain("\nStopping; the report so far follows. Press Ctrl-C again to end at once.");
    });
    budget
}

/// A progress line on a terminal, nothing in a pipe.
pub(super) struct ProgressLine {
    bar: ProgressBar,
}

impl ProgressLine {
    pub(super) fn new(quiet: bool) -> Self {
        if quiet || !io::stderr().is_terminal() {
            return ProgressLine {
                bar: ProgressBar::hidden(),
            };
        }
        let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
        bar.set_style(style("{msg} {spinner}"));
        bar.enable_steady_tick(Duration::from_millis(200));
        ProgressLine { bar }
    }

    /// Takes the line off the terminal.
    pub(super) fn finish(&self) {
        self.bar.finish_and_clear();
    }
}

fn style(template: &str) -> ProgressStyle {
    ProgressStyle::with_template(template)
        .unwrap_or_else(|_| ProgressStyle::default_bar())
        .tick_chars("|/-\\ ")
        .progress_chars("=> ")
}

impl Progress for ProgressLine {
    fn stage(&self, name: &str, total: usize) {
        self.bar.set_length(total as u64);
        self.bar.set_position(0);
        let template = match total {
            0 => "{wide_msg} {spinner}",
            _ => "{wide_msg} {pos}/{len} {spinner}",
        };
        self.bar.set_style(style(template));
        self.bar.set_message(name.to_owned());
    }

    fn advance(&self, by: usize) {
        self.bar.inc(by as u64);
    }
}

#[cfg(test)]
mod tests {
    use super::fold;

    #[test]
    fn what_is_too_wide_is_wrapped_and_the_rest_is_left() {
        let words =
            "`x` can't be used for it: give one of those.\n\n  evenhand check --help   everything";
        let folded = "`x` can't be used for\nit: give one of those.\n\n  evenhand check\n  --help   everything";
        assert_eq!(fold(words, 22), folded);
        assert_eq!(fold(words, 80), words);
    }
}
