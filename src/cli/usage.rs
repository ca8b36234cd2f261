//! What is wrong with a call, and what to type instead, in words of our own.
//!
//! The command line's library finds what is wrong; how it is said is decided here alone.

use super::arguments::WELCOME;
use clap::error::{ContextKind, ContextValue, Error, ErrorKind};
use std::error::Error as _;

/// What is wrong with a call to `command`, where one was typed.
pub(super) fn words(error: &Error, command: Option<&str>) -> String {
    if error.kind() == ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand {
        return WELCOME.to_owned();
    }
    let mut words = wrong(error);
    if let Some(meant) = meant(error) {
        words = format!("{words}\nDid you mean `{meant}`?");
    }
    let to_type = match command.and_then(|name| Some((name, shape(name)?))) {
        Some((name, shape)) => {
            let help = format!("evenhand {name} --help");
            let width = shape.len().max(help.len());
            format!("  {shape}\n  {help:width$}  everything about it")
        }
        None => "  evenhand check RULESET   check a ruleset\n  \
                   evenhand ruling RULESET  ask how an incident is ruled\n  \
                   evenhand new NAME        write a small one to start from\n  \
                   evenhand help            everything else"
            .to_owned(),
    };
    shown(&format!("{words}\n\nWhat to type:\n{to_type}"))
}

/// How a command is called.
fn shape(command: &str) -> Option<&'static str> {
    match command {
        "check" => Some("evenhand check RULESET"),
        "compare" => Some("evenhand compare OLD NEW"),
        "vet" => Some("evenhand vet RULESET AMENDMENT"),
        "apply" => Some("evenhand apply RULESET AMENDMENT"),
        "ruling" => Some("evenhand ruling RULESET [SCENARIO] [--fact NAME=VALUE]"),
        "when" => Some("evenhand when RULESET \"CONDITION\""),
        "prove" => Some("evenhand prove RULESET"),
        "cases" => Some("evenhand cases RULESET CASES"),
        "recheck" => Some("evenhand recheck FOLDER [RULESET]"),
        "scenarios" => Some("evenhand scenarios RULESET"),
        "report" => Some("evenhand report RULESET --output FILE"),
        "affected" => Some("evenhand affected RULESET ID"),
        "quiz" => Some("evenhand quiz RULESET"),
        "graph" => Some("evenhand graph RULESET"),
        "new" => Some("evenhand new NAME"),
        "explain" => Some("evenhand explain [KIND]"),
        "completions" => Some("evenhand completions SHELL"),
        "man" => Some("evenhand man"),
        _ => None,
    }
}

fn wrong(error: &Error) -> String {
    let argument = told(error, ContextKind::InvalidArg);
    let value = told(error, ContextKind::InvalidValue);
    // `--seconds <S>` is called `--seconds`.
    let option = argument.split(" <").next().unwrap_or("");
    match error.kind() {
        ErrorKind::InvalidSubcommand => {
            let typed = told(error, ContextKind::InvalidSubcommand);
            format!("There is no command `{typed}`.")
        }
        ErrorKind::MissingSubcommand => "No command was typed.".to_owned(),
        ErrorKind::UnknownArgument if argument.starts_with('-') => {
            format!("There is no option `{argument}` here.")
        }
        ErrorKind::UnknownArgument => format!("`{argument}` is one word too many."),
        ErrorKind::InvalidValue if value.is_empty() => {
            format!("Something is missing behind {option}: {}.", choices(error))
        }
        ErrorKind::InvalidValue if argument == "[KIND]" => {
            format!(
                "There is no kind of finding `{value}`; there are {}.",
                choices(error).replace(" or ", " and ")
            )
        }
        ErrorKind::InvalidValue => {
            format!(
                "`{value}` can't be used for {option}: give {}.",
                choices(error)
            )
        }
        ErrorKind::ValueValidation => {
            let expected = error.source().map(ToString::to_string).unwrap_or_default();
            format!("`{value}` can't be used for {option}: give {expected}.")
        }
        ErrorKind::MissingRequiredArgument => match option {
            "<RULESET>" => "The ruleset file to check is missing.".to_owned(),
            "<OLD>" | "<NEW>" => "Two editions are compared; a ruleset file is missing.".to_owned(),
            "<AMENDMENTS>..." => "The amendment file is missing.".to_owned(),
            "<CONDITION>" => "The condition is missing, such as \"penalty is none\".".to_owned(),
            "<RECORD>" => "The folder of the record is missing.".to_owned(),
            "<NAME>" => "The name of the file to write is missing.".to_owned(),
            other => format!("Something is missing: {}.", other.trim_matches(['<', '>'])),
        },
        ErrorKind::ArgumentConflict => format!("{option} is there twice; give it once."),
        ErrorKind::TooManyValues => format!("{option} takes nothing behind it."),
        ErrorKind::InvalidUtf8 => "A word of the call is not UTF-8 text.".to_owned(),
        _ => "The call can't be understood.".to_owned(),
    }
}

/// What the library took down under a heading; several joined.
fn told(error: &Error, kind: ContextKind) -> String {
    match error.get(kind) {
        Some(ContextValue::String(one)) => one.clone(),
        Some(ContextValue::Strings(all)) => all.join(" "),
        _ => String::new(),
    }
}

/// The words that are known where another was typed.
fn choices(error: &Error) -> String {
    match error.get(ContextKind::ValidValue) {
        Some(ContextValue::Strings(all)) if !all.is_empty() => {
            let (last, others) = all
                .split_last()
                .map_or(("", &[][..]), |(last, others)| (last.as_str(), others));
            match others {
                [] => last.to_owned(),
                _ => format!("{} or {last}", others.join(", ")),
            }
        }
        _ => "a value".to_owned(),
    }
}

fn meant(error: &Error) -> Option<String> {
    let kinds = [
        ContextKind::SuggestedSubcommand,
        ContextKind::SuggestedArg,
        ContextKind::SuggestedValue,
    ];
    kinds.into_iter().find_map(|kind| match error.get(kind)? {
        ContextValue::String(one) => Some(one.clone()),
        // The most similar stands last.
        ContextValue::Strings(all) => all.last().cloned(),
        _ => None,
    })
}

/// Takes out what would move the cursor or change colours.
fn shown(words: &str) -> String {
    let letters = words.chars().map(|letter| match letter {
        '\n' => letter,
        _ if letter.is_control() => char::REPLACEMENT_CHARACTER,
        _ => letter,
    });
    letters.collect()
}

#[cfg(test)]
mod tests {
    use super::{super::arguments::Line, shape};
    use clap::CommandFactory as _;

    #[test]
    fn every_command_has_its_shape() {
        for command in Line::command().get_subcommands() {
            let name = command.get_name();
            let starts = format!("evenhand {name}");
            assert!(
                shape(name).is_some_and(|shape| shape.starts_with(&starts)),
                "{name}"
            );
        }
    }
}
