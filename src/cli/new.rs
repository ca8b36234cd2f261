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
    let typed = typable(&path.to_string_lossy());
    let path = path.display();
    files::print(&format!(
        "{path} is written. Open it in an editor, then:\n  evenhand check {typed}\n"
    ))?;
    Ok(Ending::InOrder)
}

/// A path as it can be typed after a command: quoted where a shell would take it apart, and never
/// to be taken for an option.
fn typable(path: &str) -> String {
    let path = match path.strip_prefix('-') {
        Some(_) => format!("./{path}"),
        None => path.to_owned(),
    };
    let plain = |letter: char| letter.is_alphanumeric() || "_-./\\:,+@".contains(letter);
    if path.chars().all(plain) {
        path
    } else if cfg!(windows) {
        format!("\"{path}\"")
    } else {
        format!("'{}'", path.replace('\'', r"'\''"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[cfg(not(windows))]
    fn what_is_to_be_typed_can_be_typed() {
        for (path, typed) in [
            ("rules.yaml", "rules.yaml"),
            ("Règles/a-b.yaml", "Règles/a-b.yaml"),
            ("my rules.yaml", "'my rules.yaml'"),
            ("-x.yaml", "./-x.yaml"),
            ("it's.yaml", r"'it'\''s.yaml'"),
            ("$a;b.yaml", "'$a;b.yaml'"),
        ] {
            assert_eq!(typable(path), typed);
        }
    }
}
