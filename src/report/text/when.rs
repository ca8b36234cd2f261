//! Under which conditions something is so, for people.

use super::look::{Look, Tone};
use super::page::Page;
use crate::model::Ruleset;
use crate::narration;
use crate::report::caution::caution;
use crate::report::words;
use crate::scenario::When;
use num_traits::Zero;

/// What was asked, in the words of whoever asked.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// What is to be so.
    pub wanted: &'a str,
    /// Among which incidents.
    pub given: Option<&'a str>,
}

/// The report of an answer.
pub fn when(ruleset: &Ruleset, asked: Asked<'_>, found: &When, look: &Look) -> String {
    let mut page = Page::new(look);
    super::title(&mut page, ruleset);
    page.gap();
    page.row(0, "When", asked.wanted.trim(), Tone::Strong);
    if let Some(given) = asked.given {
        page.row(0, "Given", given.trim(), Tone::Plain);
    }
    summary(&mut page, found);
    for (number, case) in (1..).zip(&found.lines) {
        page.gap();
        let mark = format!("{number}. ");
        page.hanging(0, &mark, Tone::Strong, &case.condition, Tone::Strong);
        let indent = mark.len();
        let told = narration::scenario(ruleset, &case.scenario, Some(&case.turns_on));
        page.row(
            indent,
            "For instance",
            &told.sentences.join(" "),
            Tone::Plain,
        );
        let share = words::share(&case.share, found.of.as_ref());
        page.row(indent, "How often", &share, Tone::Quiet);
    }
    if found.lines.is_empty()
        && let Some(scenario) = &found.scenario
    {
        page.gap();
        let told = narration::scenario(ruleset, scenario, None);
        page.row(0, "For instance", &told.sentences.join(" "), Tone::Plain);
    }
    page.gap();
    page.row(0, "Caution", &caution(ruleset).join(" "), Tone::Quiet);
    page.finish()
}

fn summary(page: &mut Page<'_>, found: &When) {
    let nowhere = match (&found.share, &found.scenario, &found.open) {
        (Some(share), _, _) => share.scenarios.is_zero(),
        (None, None, None) => true,
        _ => false,
    };
    if found.of.as_ref().is_some_and(|of| of.scenarios.is_zero()) {
        page.row(0, "Never", "No incident is as given.", Tone::Warning);
        return;
    }
    if nowhere {
        page.row(
            0,
            "Never",
            "It is so in no incident, and that is proved.",
            Tone::Plain,
        );
        neither(page, found);
        return;
    }
    if let Some(share) = &found.share {
        let share = words::share(share, found.of.as_ref());
        page.row(0, "How often", &share, Tone::Plain);
    }
    neither(page, found);
    let words = match (&found.open, found.lines.len()) {
        (None, 1) => "It is so under this condition, and under no other:".to_owned(),
        (None, more) => {
            format!("It is so under any of these {more} conditions, and in no other incident:")
        }
        (Some(why), 0) => format!(
            "The conditions stayed undecided: {why}. It is so in this incident, among others:"
        ),
        (Some(why), _) => format!(
            "It is so under any of these conditions, and perhaps in other incidents, which stayed undecided: {why}."
        ),
    };
    page.gap();
    let tone = if found.open.is_some() {
        Tone::Warning
    } else {
        Tone::Plain
    };
    page.paragraph(0, &words, tone);
}

/// Where the question can't be answered with yes or no.
fn neither(page: &mut Page<'_>, found: &When) {
    if let Some(count) = found.neither.as_ref().filter(|it| !it.scenarios.is_zero()) {
        let share = words::share(count, found.of.as_ref());
        let words = format!(
            "{share}: something is not asked there, or the ruling is not exactly one; such incidents are left out below"
        );
        page.row(0, "Neither", &words, Tone::Quiet);
    }
}
