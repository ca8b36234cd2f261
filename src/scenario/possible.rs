//! Whether some facts can be facts of one incident, and if not, which of them can't stand together.
//!
//! That no incident has them rests on a solver's `no`; what is blamed is as little as will do, none of
//! which could be left out.

use super::Incident;
use crate::logic::{Established, Formula, Name, fact};
use crate::model::{AttributeId, Background, Origin, Ruleset};
use crate::problem::Problem;
use crate::solve::{Answer, Budget, Reason, Solver, Z3Solver};
use crate::source::Span;

/// Whether facts can be facts of one incident.
#[derive(Clone, Debug)]
pub enum Standing {
    /// Some incident has them all.
    Possible,
    /// None has: this is wrong with them, at their words.
    Impossible(Box<Problem>),
    /// It stayed open.
    Undecided(Reason),
}

/// Whether the facts of an incident can be facts of one.
pub fn standing(ruleset: &Ruleset, incident: &Incident, budget: &Budget) -> Standing {
    match blamed(ruleset, &incident.facts, budget) {
        Ok(None) => Standing::Possible,
        Ok(Some(blamed)) => {
            Standing::Impossible(Box::new(problem(ruleset, incident, &blamed, budget)))
        }
        Err(reason) => Standing::Undecided(reason),
    }
}

/// As few of some facts as no incident has together; `None` where some incident has them all.
///
/// # Errors
/// Why it stayed open.
pub(crate) fn blamed(
    ruleset: &Ruleset,
    facts: &Established,
    budget: &Budget,
) -> Result<Option<Established>, Reason> {
    if facts.is_empty() || facts.scenario(ruleset).is_some() {
        return Ok(None);
    }
    let mut solver = Z3Solver::new(ruleset, budget.clone());
    match solver.ask(&facts.formula(ruleset)) {
        Answer::Yes(_) => Ok(None),
        Answer::Undecided(reason) => Err(reason),
        Answer::No => Ok(Some(fewest(ruleset, &mut solver, facts.clone()))),
    }
}

/// As few of the facts as no incident has together.
fn fewest(ruleset: &Ruleset, solver: &mut Z3Solver<'_>, mut facts: Established) -> Established {
    let all: Vec<AttributeId> = facts.facts().map(|(id, _)| id).collect();
    for id in all {
        let mut fewer = facts.clone();
        fewer.set(id, None);
        if solver.ask(&fewer.formula(ruleset)) == Answer::No {
            facts = fewer;
        }
    }
    facts
}

/// What is wrong with facts that no incident has together, at their words.
pub(crate) fn problem(
    ruleset: &Ruleset,
    incident: &Incident,
    blamed: &Established,
    budget: &Budget,
) -> Problem {
    let place = |id: AttributeId| incident.places.get(&id).copied().unwrap_or_default();
    if let Some(id) = not_asked(ruleset, blamed, budget) {
        return because(unasked(ruleset, id, place(id)), incident, blamed, id);
    }
    let lines = broken(ruleset, blamed, budget);
    // Said at the fact that was written last: whoever wrote it had the others before them.
    let last = blamed.facts().map(|(id, _)| id).max_by_key(|id| place(*id));
    let Some(last) = last else {
        return Problem::error(Span::default(), "no incident is possible", "");
    };
    let together = if blamed.len() == 1 {
        "the background rules this fact out".to_owned()
    } else {
        "the background rules these facts out together".to_owned()
    };
    let mut problem = Problem::error(place(last), together, "this cannot be so");
    problem = because(problem, incident, blamed, last);
    let mut reasons = Vec::new();
    for line in &lines {
        problem = problem.other(line.span, "no incident breaks this");
        let words = line.because.as_ref();
        reasons.extend(words.map(|text| text.in_language(&ruleset.language).trim().to_owned()));
    }
    let what_to_do = "correct a fact; or, if it did happen, the background of the ruleset is wrong";
    match reasons.as_slice() {
        [] => problem.help(what_to_do),
        reasons => problem.help(format!("{} So {what_to_do}.", reasons.join(" "))),
    }
}

fn because(
    problem: Problem,
    incident: &Incident,
    blamed: &Established,
    said_at: AttributeId,
) -> Problem {
    let others = blamed.facts().map(|(id, _)| id).filter(|id| *id != said_at);
    let spans = others.filter_map(|id| incident.places.get(&id).copied());
    spans.fold(problem, |problem, span| {
        problem.other(span, "together with this")
    })
}

/// A fact about what is not asked where the others hold.
fn not_asked(ruleset: &Ruleset, blamed: &Established, budget: &Budget) -> Option<AttributeId> {
    // The background aside: what it rules out is told as such.
    let free = Ruleset {
        background: Vec::new(),
        ..ruleset.clone()
    };
    let mut solver = Z3Solver::new(&free, budget.clone());
    let ids: Vec<AttributeId> = blamed.facts().map(|(id, _)| id).collect();
    ids.into_iter().rev().find(|id| {
        let mut others = blamed.clone();
        others.set(*id, None);
        let asked = Formula::all([others.formula(&free), Name::Asked(*id).into()]);
        solver.ask(&asked) == Answer::No
    })
}

fn unasked(ruleset: &Ruleset, id: AttributeId, place: Span) -> Problem {
    let attribute = &ruleset[id];
    let name = &attribute.name;
    let headline = match attribute.origin {
        Origin::Stated => format!("`{name}` is not asked in such an incident"),
        Origin::Reading(_) => format!("`{name}` is not open to reading in such an incident"),
    };
    let problem = Problem::error(place, headline, "there is nothing to establish here");
    match (&attribute.asked_when, attribute.origin) {
        (Some(condition), Origin::Stated) => problem
            .other(condition.span, "asked only where this holds")
            .help("leave it out, or correct the fact because of which it is not asked"),
        (_, Origin::Reading(_)) => problem
            .other(
                attribute.span,
                "left to the official only between its two readings",
            )
            .help("leave it out: whether the term holds follows from the other facts"),
        _ => problem.help("leave it out"),
    }
}

/// As few lines of the background as rule the facts out.
fn broken<'r>(ruleset: &'r Ruleset, facts: &Established, budget: &Budget) -> Vec<&'r Background> {
    let ruled_out = |lines: &[&Background]| {
        let only = Ruleset {
            background: lines.iter().map(|line| (*line).clone()).collect(),
            ..ruleset.clone()
        };
        let mut solver = Z3Solver::new(&only, budget.clone());
        let all = facts.facts().map(|(id, code)| fact(&only, id, code));
        solver.ask(&Formula::all(all)) == Answer::No
    };
    let mut lines: Vec<&Background> = ruleset.background.iter().collect();
    for line in &ruleset.background {
        let mut fewer = lines.clone();
        fewer.retain(|other| other.span != line.span);
        if fewer.len() < lines.len() && ruled_out(&fewer) {
            lines = fewer;
        }
    }
    lines
}
