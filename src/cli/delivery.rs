//! Where the report of a command goes that answers one question, and how it says that it can't.

use super::arguments::{Color, Common, Format};
use super::input::{self, Unusable};
use super::terminal::{self, Destination};
use super::{Ending, Failure, files};
use crate::problem::Problem;
use crate::report::text::{Detail, Look};
use crate::source::Sources;
use std::path::Path;

/// Where a report goes and how it looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Delivery<'a> {
    /// In which form problems are told.
    format: Format,
    output: Option<&'a Path>,
    color: Color,
    /// The ruleset file, which no report is written over.
    ruleset: &'a Path,
}

impl<'a> Delivery<'a> {
    pub(super) fn new(common: &'a Common, format: Format, ruleset: &'a Path) -> Self {
        Delivery {
            format,
            output: common.output.as_deref(),
            color: common.color,
            ruleset,
        }
    }

    /// How a text report is to look.
    pub(super) fn look(&self) -> Look {
        let destination = match self.output {
            Some(_) => Destination::File,
            None => Destination::Screen,
        };
        terminal::look(destination, self.color, Detail::Whole)
    }

    /// Prints a report or writes it to its file.
    pub(super) fn deliver(&self, report: &str) -> Result<(), Failure> {
        files::deliver(report, self.output, self.ruleset)
    }

    /// Tells why a file can't be used.
    pub(super) fn unusable(&self, wrong: Unusable) -> Result<Ending, Failure> {
        let report = input::report(wrong, self.format, &self.look())?;
        self.deliver(&report)?;
        Ok(Ending::Unusable)
    }

    /// Tells what is wrong with an input.
    pub(super) fn problems(
        &self,
        sources: &Sources,
        problems: Vec<Problem>,
    ) -> Result<Ending, Failure> {
        self.unusable(Unusable::Problems(sources.clone(), problems))
    }
}
