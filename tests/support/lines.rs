//! Lines of general conditions, read back and evaluated.

#![allow(clippy::panic, reason = "a test says what went wrong by failing")]

use evenhand::logic::{Evaluator, Scenario, Truth};
use evenhand::model::{AttributeId, Condition, ConditionScope, Ruleset, resolve_condition};
use evenhand::source::{Source, Sources};

/// A line taken apart: what the language can say, and what it has no form for.
pub(crate) struct Line {
    conditions: Vec<Condition>,
    unasked: Vec<AttributeId>,
    readings: Vec<(AttributeId, Option<bool>)>,
}

impl Line {
    /// Whether the line holds in a scenario.
    pub(crate) fn holds(&self, ruleset: &Ruleset, scenario: &Scenario) -> bool {
        let evaluator = Evaluator::new(ruleset);
        self.conditions
            .iter()
            .all(|part| evaluator.plain_truth(part, scenario) == Truth::True)
            && self.unasked.iter().all(|id| scenario.get(*id).is_none())
            && self
                .readings
                .iter()
                .all(|(id, broad)| match scenario.get(*id) {
                    Some(code) => broad.is_none_or(|broad| broad == (code.0 != 0)),
                    None => false,
                })
    }
}

/// Reads a line back.
///
/// # Panics
/// Where the line is not what the language reference says a line is.
pub(crate) fn line(ruleset: &Ruleset, text: &str) -> Line {
    let mut rest = format!(" and {text} and ");
    let mut line = Line {
        conditions: Vec::new(),
        unasked: Vec::new(),
        readings: Vec::new(),
    };
    for (index, attribute) in ruleset.attributes.iter().enumerate() {
        let id = AttributeId::new(index);
        let mut take = |words: &str| {
            let part = format!(" and {}{words} and ", attribute.name);
            let found = rest.contains(&part);
            rest = rest.replace(&part, " and ");
            found
        };
        if take(" is not asked") {
            line.unasked.push(id);
        }
        if take(" holds where it is open") {
            line.readings.push((id, Some(true)));
        }
        if take(" does not hold where it is open") {
            line.readings.push((id, Some(false)));
        }
        if take(" is open") {
            line.readings.push((id, None));
        }
    }
    let rest = rest.strip_prefix(" and ").unwrap_or(&rest);
    let rest = rest.strip_suffix(" and ").unwrap_or(rest);
    if !rest.is_empty() {
        let mut sources = Sources::default();
        let source = Source::new("line", rest);
        let id = sources.add(source.clone());
        let mut problems = Vec::new();
        let read = evenhand::read::condition(&source, id, &mut problems);
        let read = read.unwrap_or_else(|| panic!("`{rest}` cannot be read back: {problems:?}"));
        let resolved = resolve_condition(ruleset, &read, ConditionScope::Facts, &mut problems);
        line.conditions
            .push(resolved.unwrap_or_else(|| panic!("`{rest}` means nothing: {problems:?}")));
    }
    line
}
