//! `completions` and `man`: what a shell and a manual reader need.

use super::arguments::Line;
use super::{Ending, Failure, files};
use clap::CommandFactory;
use clap_complete::Shell;

pub(super) fn completions(shell: Shell) -> Result<Ending, Failure> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Line::command(), "evenhand", &mut script);
    files::print(&String::from_utf8_lossy(&script))?;
    Ok(Ending::InOrder)
}

pub(super) fn man() -> Result<Ending, Failure> {
    let mut page = Vec::new();
    let mut write = |command: clap::Command| clap_mangen::Man::new(command).render(&mut page);
    let whole = Line::command();
    write(whole).map_err(|error| Failure(format!("the manual page can't be made: {error}")))?;
    files::print(&String::from_utf8_lossy(&page))?;
    Ok(Ending::InOrder)
}
