//! Where the report of a command goes, how it looks, and how it says that there is none.

use super::arguments::{Format, Written};
use super::input::{self, Unusable};
use super::terminal::{self, Destination};
use super::{Ending, Failure, files};
use crate::problem::Problem;
use crate::report::text::{Detail, Look};
use crate::source::Sources;
use std::path::Path;

/// Where a report goes and how it looks.
#[derive(Clone, Debug)]
pub(super) struct Delivery<'a> {
    /// What was typed about it.
    pub(super) written: &'a Written,
    /// In which form problems are told.
    pub(super) format: Format,
    /// How much a text report tells.
    pub(super) detail: Detail,
    /// The files that the report is made from; it is written over none of them.
    pub(super) inputs: Vec<&'a Path>,
}

impl Delivery<'_> {
    /// How a text report is to look.
    pub(super) fn look(&self) -> Look {
        let destination = match self.written.output {
            Some(_) => Destination::File,
            None => Destination::Screen,
        };
        terminal::look(destination, self.written.painted.color, self.detail)
    }

    /// Prints a report or writes it to its file.
    pub(super) fn deliver(&self, report: &str) -> Result<(), Failure> {
        files::deliver(report, self.written.output.as_deref(), &self.inputs)
    }

    /// Tells why a file can't be used.
    pub(super) fn unusable(&self, wrong: impl Into<Unusable>) -> Result<Ending, Failure> {
        let report = input::report(wrong.into(), self.format, &self.look())?;
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
