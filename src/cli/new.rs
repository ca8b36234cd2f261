//! `new`: a small commented ruleset to start from.

use super::arguments::New;
use super::{Ending, Failure, files};

/// The ruleset that is written; a test holds it to be valid and in order.
const TEMPLATE: &str = include_str!("new.yaml");

pub(super) fn run(options: &New) -> Result<Ending, Failure> {
    let mut path = options.name.clone();
    if path.extension().is_none() {
        path.set_extension("yaml");
    }
    files::create(&path, TEMPLATE)?;
    let path = path.display();
    files::print(&format!(
        "{path} is written. Open it in an editor, then:\n  evenhand check {path}\n"
    ))?;
    Ok(Ending::InOrder)
}
