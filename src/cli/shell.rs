//! `completions` and `man`: what a shell and a manual reader need.

use super::arguments::Line;
use super::{Ending, Failure, files};
use clap::CommandFactory;
use clap_complete::Shell;
use clap_mangen::Man;

pub(super) fn completions(shell: Shell) -> Result<Ending, Failure> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Line::command(), "evenhand", &mut script);
    files::print(&String::from_utf8_lossy(&script))?;
    Ok(Ending::InOrder)
}

/// One page for the program and all of its commands.
pub(super) fn man() -> Result<Ending, Failure> {
    let page =
        page().map_err(|error| Failure(format!("the manual page can't be made: {error}")))?;
    files::print(&String::from_utf8_lossy(&page))?;
    Ok(Ending::InOrder)
}

fn page() -> std::io::Result<Vec<u8>> {
    let mut whole = Line::command();
    whole.build();
    let mut page = Vec::new();
    let man = Man::new(whole.clone());
    man.render_title(&mut page)?;
    man.render_name_section(&mut page)?;
    man.render_synopsis_section(&mut page)?;
    man.render_description_section(&mut page)?;
    for command in whole
        .get_subcommands()
        .filter(|one| one.get_name() != "help")
    {
        page.extend(format!(".SH \"EVENHAND {}\"\n", command.get_name().to_uppercase()).bytes());
        let man = Man::new(command.clone());
        let mut sections = Vec::new();
        man.render_description_section(&mut sections)?;
        man.render_options_section(&mut sections)?;
        // Below the command's own heading these are no sections of the page.
        let lines = String::from_utf8_lossy(&sections).into_owned();
        let lines = lines.lines().filter(|line| !line.starts_with(".SH"));
        page.extend(lines.flat_map(|line| line.bytes().chain([b'\n'])));
    }
    Man::new(whole).render_version_section(&mut page)?;
    Ok(page)
}
