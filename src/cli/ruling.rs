//! `ruling`: how one incident is ruled, and why; or the order of questions that leads there.

use super::arguments::{Format, Paper, Ruling};
use super::delivery::Delivery;
use super::input::{self, Unusable, json_failed};
use super::prompt;
use super::terminal;
use super::{Ending, Failure};
use crate::analysis;
use crate::logic::Chart;
use crate::model::{DimensionId, Ruleset};
use crate::narration::{Answer, answer};
use crate::problem::nearest;
use crate::report::text::Detail;
use crate::report::{json, text};
use crate::scenario::{self, Decision, Incident, Standing};
use crate::solve::{Budget, Reason};

pub(super) fn run(options: &Ruling) -> Result<Ending, Failure> {
    if options.format == Paper::Markdown && !options.protocol {
        return Err(Failure(
            "`--format markdown` is for an order of questions: add --protocol.".to_owned(),
        ));
    }
    let problems = match options.format {
        Paper::Json => Format::Json,
        Paper::Text | Paper::Markdown => Format::Text,
    };
    let mut inputs = options.rules.files();
    inputs.extend(options.scenario.as_deref());
    let delivery = Delivery {
        written: &options.written,
        format: problems,
        detail: Detail::Whole,
        inputs,
    };
    let loaded = match input::ruleset(&options.rules) {
        Ok(loaded) => loaded,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let ruleset = &loaded.ruleset;
    let dimensions = dimensions(ruleset, &options.dimension)?;
    let given = match read(options, ruleset) {
        Ok(given) => given,
        Err(wrong) => return delivery.unusable(wrong),
    };
    let nothing = options.scenario.is_none() && options.fact.is_empty();
    let asks = options.ask || (nothing && !options.protocol);
    if asks && !terminal::can_be_asked() {
        return Err(Failure(nobody_to_ask(ruleset)));
    }
    let limit = || terminal::budget(&options.limits);
    // The time that a person takes to answer is not counted.
    let before = if asks { Budget::unlimited() } else { limit() };
    let mut chart = scenario::chart(ruleset, &dimensions, &before);
    let impossible = match &mut chart {
        Ok(chart) => {
            let outlook = chart.outlook(&given.facts);
            !chart.is_possible(&outlook)
        }
        Err(_) => true,
    };
    if impossible
        && let Standing::Impossible(problem) = scenario::standing(ruleset, &given, &before)
    {
        let background = analysis::no_scenario(ruleset, &before);
        return delivery.problems(&given.sources, vec![background.unwrap_or(*problem)]);
    }
    let mut incident = given;
    if asks {
        prompt::ask(ruleset, &mut incident, &mut chart)?;
    }
    let budget = if asks { limit() } else { before };
    if options.protocol {
        return protocol(options, &delivery, &incident, chart, &budget);
    }
    let decision = scenario::decide(ruleset, &incident.facts, &dimensions, &mut chart, &budget);
    let Ok(decision) = decision else {
        return match analysis::no_scenario(ruleset, &budget) {
            Some(problem) => delivery.problems(&ruleset.sources, vec![problem]),
            None => Err(Failure("No incident has these facts.".to_owned())),
        };
    };
    let report = match options.format {
        Paper::Text | Paper::Markdown => {
            text::ruling(ruleset, &incident, &decision, &delivery.look())
        }
        Paper::Json => json::ruling(ruleset, &incident, &decision).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(ending(ruleset, &decision))
}

/// The dimensions named, or all that are announced.
pub(super) fn dimensions(ruleset: &Ruleset, names: &[String]) -> Result<Vec<DimensionId>, Failure> {
    if names.is_empty() {
        return Ok(scenario::announced(ruleset));
    }
    let mut found = Vec::with_capacity(names.len());
    for name in names {
        let at = ruleset.dimensions.iter().position(|it| it.name == *name);
        let Some(index) = at else {
            let known = || ruleset.dimensions.iter().map(|it| it.name.as_str());
            let help = match nearest(name, known()) {
                Some(near) => format!("Did you mean `{near}`?"),
                None => format!("There are {}.", known().collect::<Vec<_>>().join(", ")),
            };
            return Err(Failure(format!(
                "`{name}` is no dimension of rulings in this ruleset. {help}"
            )));
        };
        found.push(DimensionId::new(index));
    }
    found.sort_unstable();
    found.dedup();
    Ok(found)
}

fn read(options: &Ruling, ruleset: &Ruleset) -> Result<Incident, Unusable> {
    const SCENARIO: &str = "a scenario is a text file with `facts:`";
    let file = match &options.scenario {
        Some(path) => Some(input::text_of(path, SCENARIO)?),
        None => None,
    };
    let file = file
        .as_ref()
        .map(|(name, text)| (name.as_str(), text.as_str()));
    Ok(scenario::incident(ruleset, file, &options.fact)?)
}

/// What to say where there are no facts and nobody to ask for them.
fn nobody_to_ask(ruleset: &Ruleset) -> String {
    const SHOWN: usize = 6;
    let names = ruleset.attributes.iter().map(|it| it.name.as_str());
    let shown: Vec<&str> = names.take(SHOWN).collect();
    let more = ruleset.attributes.len().saturating_sub(shown.len());
    let more = if more == 0 {
        String::new()
    } else {
        format!(" and {more} more")
    };
    let names = shown.join(", ");
    format!(
        "The facts of the incident are missing, and there is no terminal to ask for them.\n\
         Give a scenario file, or facts, each as --fact NAME=VALUE. The names are {names}{more}.\n\n\
         What to type:\n  \
         evenhand ruling RULESET SCENARIO\n  \
         evenhand ruling RULESET --fact NAME=VALUE --fact NAME=VALUE"
    )
}

fn protocol(
    options: &Ruling,
    delivery: &Delivery<'_>,
    incident: &Incident,
    chart: Result<Chart<'_>, Reason>,
    budget: &Budget,
) -> Result<Ending, Failure> {
    let undecided = |why: &dyn std::fmt::Display| {
        terminal::complain(&format!("The order of questions stayed undecided: {why}."));
        Ok(Ending::Undecided)
    };
    let mut chart = match chart {
        Ok(chart) => chart,
        Err(why) => return undecided(&why),
    };
    let outlook = chart.outlook(&incident.facts);
    let stop = || budget.exhausted().is_some();
    let Some(found) = chart.protocol(&outlook, &stop) else {
        let why = budget.exhausted().unwrap_or(Reason::TooLarge);
        return undecided(&why);
    };
    let report = match options.format {
        Paper::Text => text::protocol(&chart, &outlook, &found, &delivery.look()),
        Paper::Markdown => text::protocol_markdown(&chart, &outlook, &found),
        Paper::Json => json::protocol(&chart, &outlook, &found).map_err(json_failed)?,
    };
    delivery.deliver(&report)?;
    Ok(Ending::InOrder)
}

fn ending(ruleset: &Ruleset, decision: &Decision) -> Ending {
    let at_fault = decision.dimensions.iter().any(|on| {
        on.settled().is_some_and(|ruling| {
            let answer = answer(ruleset, on.dimension, ruling);
            matches!(answer, Answer::Gap | Answer::Contradiction)
        })
    });
    let open = decision.dimensions.iter().any(|on| on.open.is_some())
        || matches!(decision.enough, Some(Err(_)))
        || decision
            .whole
            .as_ref()
            .is_some_and(|whole| whole.nearest.is_err());
    match (at_fault, open) {
        (true, _) => Ending::Faults,
        (false, true) => Ending::Undecided,
        (false, false) => Ending::InOrder,
    }
}
