//! `explain`: what a kind of finding means, and which kinds there are.

use super::arguments::Explain;
use super::terminal::{self, Destination};
use super::{Ending, Failure, files};
use crate::report::text::{self, Detail};

pub(super) fn run(options: &Explain) -> Result<Ending, Failure> {
    let look = terminal::look(Destination::Screen, options.painted.color, Detail::Whole);
    let page = match options.kind {
        Some(kind) => text::explained(kind, &look),
        None => text::kinds(&look),
    };
    files::print(&page)?;
    Ok(Ending::InOrder)
}
