//! `when`: under which general conditions something is so.

use super::arguments::{Format, When};
use super::delivery::Delivery;
use super::input::{self, json_failed};
use super::terminal;
use super::{Ending, Failure};
use crate::model::{Condition, ConditionScope, Ruleset, resolve_condition};
use crate::problem::Problem;
use crate::read;
use crate::report::text::{Asked, Detail};
use crate::report::{json, text};
use crate::scenario;
use crate::source::{Source, Sources};

pub(super) fn run(options: &When) -> Result<Ending, Failure> {
    let delivery = Delivery {
        written: &options.written,
        format: options.format,
        detail: Detail::Whole,
        inputs: options.rules.files(),
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let ruleset = &loaded.ruleset;
    let mut sources = ruleset.sources.clone();
    let mut problems = Vec::new();
    let words = &options.condition;
    let wanted = condition(ruleset, "the condition", words, &mut sources, &mut problems);
    let given = options
        .given
        .as_ref()
        .map(|words| condition(ruleset, "--given", words, &mut sources, &mut problems));
    let (Some(wanted), Some(given)) = (wanted, given.map_or(Some(None), |given| given.map(Some)))
    else {
        return delivery.problems(&sources, problems);
    };
    let budget = terminal::budget(&options.limits);
    let found = scenario::when(ruleset, &wanted, given.as_ref(), &budget);
    let asked = Asked {
        wanted: &options.condition,
        given: options.given.as_deref(),
    };
    let report = match options.format {
        Format::Text => text::when(ruleset, asked, &found, &delivery.look()),
        Format::Json => json::when(ruleset, asked, &found).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(match found.open {
        Some(_) => Ending::Undecided,
        None => Ending::InOrder,
    })
}

/// A condition as it was typed; `None` after adding what is wrong with it to `problems`.
fn condition(
    ruleset: &Ruleset,
    name: &str,
    words: &str,
    sources: &mut Sources,
    problems: &mut Vec<Problem>,
) -> Option<Condition> {
    let source = Source::new(name, words);
    let id = sources.add(source.clone());
    let read = read::condition(&source, id, problems)?;
    resolve_condition(ruleset, &read, ConditionScope::Rulings, problems)
}
