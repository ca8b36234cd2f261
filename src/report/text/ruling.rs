//! The ruling of one incident, for people: what is ruled, why, which facts were enough, and what
//! would have been ruled otherwise; with facts missing, what is still possible and what to establish.

use super::look::{Look, Tone};
use super::page::{Page, capital};
use crate::labels;
use crate::logic::{Established, Outcome, Ruling, Scenario, same_ruling};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset, Step};
use crate::narration::{self, Change};
use crate::report::caution::caution;
use crate::report::words;
use crate::scenario::{Decision, Enough, Incident, Nearby, OnDimension, Other, Reason, Whole};
use crate::solve::Reason as Why;
use num_bigint::BigUint;
use std::collections::BTreeSet;

/// As many neighbours as a reader takes in.
const MOST_NEIGHBOURS: usize = 12;
/// As many questions as a reader takes in.
const MOST_QUESTIONS: usize = 5;

/// The report of a decision.
pub fn ruling(ruleset: &Ruleset, incident: &Incident, decision: &Decision, look: &Look) -> String {
    let mut page = Page::new(look);
    super::title(&mut page, ruleset);
    page.gap();
    told(&mut page, ruleset, incident, decision);
    match &decision.whole {
        Some(whole) => {
            ruled(&mut page, ruleset, decision);
            reasons(&mut page, ruleset, whole);
        }
        None => possible(&mut page, ruleset, decision),
    }
    if let Some(found) = &decision.enough {
        enough(&mut page, ruleset, &decision.facts, found);
    }
    if let Some(whole) = &decision.whole {
        nearest(&mut page, ruleset, decision, whole);
    }
    next(&mut page, ruleset, decision);
    page.gap();
    page.row(0, "Caution", &caution(ruleset).join(" "), Tone::Quiet);
    page.finish()
}

/// The incident in words.
fn told(page: &mut Page<'_>, ruleset: &Ruleset, incident: &Incident, decision: &Decision) {
    let narration = narration::tell(ruleset, &decision.facts, None);
    let title = match &incident.name {
        Some(name) => format!("{name}: {}", narration.title),
        None => narration.title,
    };
    page.paragraph(0, &title, Tone::Strong);
    if let Some(note) = &incident.note {
        page.paragraph(0, note.in_language(&ruleset.language).trim(), Tone::Quiet);
    }
    let mut words = narration.sentences.join(" ");
    if decision.whole.is_none() {
        let open = if decision.facts.is_empty() {
            "Nothing is established yet."
        } else {
            "The rest is not established."
        };
        words = format!("{words} {open}");
    }
    page.paragraph(0, words.trim(), Tone::Plain);
}

fn ruled(page: &mut Page<'_>, ruleset: &Ruleset, decision: &Decision) {
    page.heading("Ruling", Tone::Strong);
    let (by_clauses, others): (Vec<&OnDimension>, Vec<&OnDimension>) = decision
        .dimensions
        .iter()
        .partition(|on| !on.clauses.is_empty());
    for on in &by_clauses {
        line(page, ruleset, on);
    }
    let mut silent = Vec::new();
    for on in others {
        let Some(ruling) = on.settled() else { continue };
        match narration::answer(ruleset, on.dimension, ruling) {
            narration::Answer::Gap | narration::Answer::Contradiction => line(page, ruleset, on),
            _ => silent.push(said(ruleset, on.dimension, ruling)),
        }
    }
    if !silent.is_empty() {
        let open = if by_clauses.is_empty() {
            "No clause rules on this incident, so"
        } else {
            "No clause says anything else, so besides"
        };
        let words = format!("{open}: {}", silent.join("; "));
        page.paragraph(2, &words, Tone::Quiet);
    }
}

/// A settled dimension and the clauses that it comes from.
fn line(page: &mut Page<'_>, ruleset: &Ruleset, on: &OnDimension) {
    let Some(ruling) = on.settled() else { return };
    let tone = match narration::answer(ruleset, on.dimension, ruling) {
        narration::Answer::Gap | narration::Answer::Contradiction => Tone::Fault,
        _ => Tone::Strong,
    };
    page.paragraph(2, &capital(&said(ruleset, on.dimension, ruling)), tone);
    if !on.clauses.is_empty() {
        let by: Vec<String> = on
            .clauses
            .iter()
            .map(|id| labels::clause(ruleset, *id))
            .collect();
        page.paragraph(4, &format!("by {}", words::and_list(&by)), Tone::Quiet);
    }
}

fn said(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> String {
    format!(
        "{}: {}",
        labels::dimension(ruleset, dimension),
        narration::ruled(ruleset, dimension, ruling)
    )
}

/// How it came about: the clauses that are met and the rulings between, in the order in which one
/// rests on the other.
fn reasons(page: &mut Page<'_>, ruleset: &Ruleset, whole: &Whole) {
    if whole.reasons.is_empty() {
        return;
    }
    page.heading("How it comes about", Tone::Strong);
    for step in &ruleset.order {
        match step {
            Step::Clause(id) => {
                if let Some(reason) = whole.reasons.iter().find(|reason| reason.clause == *id) {
                    clause(page, ruleset, reason);
                }
            }
            Step::Dimension(id) if ruleset[*id].intermediate => {
                let standing = whole.outcome.standing.get(id.index());
                let ruling = whole.outcome.rulings.get(id.index());
                if let (Some(clauses), Some(ruling)) = (standing, ruling)
                    && !clauses.is_empty()
                {
                    let words = format!("So {}", said(ruleset, *id, *ruling));
                    page.paragraph(4, &words, Tone::Plain);
                }
            }
            Step::Dimension(_) => {}
        }
    }
}

fn clause(page: &mut Page<'_>, ruleset: &Ruleset, reason: &Reason) {
    let ids = |clauses: &[ClauseId]| {
        let ids: Vec<&str> = clauses.iter().map(|id| ruleset[*id].id.as_str()).collect();
        words::and_list(&ids)
    };
    let name = labels::clause(ruleset, reason.clause);
    if !reason.disapplied_by.is_empty() {
        let words = format!(
            "{name} is off: {} disapplies it",
            ids(&reason.disapplied_by)
        );
        page.paragraph(2, &words, Tone::Quiet);
        return;
    }
    if reason.rulings.is_empty() {
        let off: Vec<&str> = ruleset[reason.clause]
            .disapplies
            .iter()
            .map(|id| ruleset[*id].id.as_str())
            .collect();
        let words = if off.is_empty() {
            format!("{name} is in force")
        } else {
            format!(
                "{name} is in force, and disapplies {}",
                words::and_list(&off)
            )
        };
        page.paragraph(2, &words, Tone::Plain);
        return;
    }
    let rulings: Vec<String> = reason
        .rulings
        .iter()
        .map(|given| {
            let values = labels::ruling(ruleset, given.dimension, given.values);
            let values = words::or_list(&values);
            let name = labels::dimension(ruleset, given.dimension);
            if given.displaced_by.is_empty() {
                format!("{name}: {values}")
            } else {
                let above = ids(&given.displaced_by);
                format!("{name}: {values}, displaced by {above}")
            }
        })
        .collect();
    let tone = if reason.stands() {
        Tone::Plain
    } else {
        Tone::Quiet
    };
    page.paragraph(2, &format!("{name}: {}", rulings.join("; ")), tone);
}

/// What is still possible where facts are missing.
fn possible(page: &mut Page<'_>, ruleset: &Ruleset, decision: &Decision) {
    let (settled, open): (Vec<&OnDimension>, Vec<&OnDimension>) = decision
        .dimensions
        .iter()
        .partition(|on| on.settled().is_some());
    if !settled.is_empty() {
        let title = if open.is_empty() {
            "Ruling, whatever else is established"
        } else {
            "Settled, whatever else is established"
        };
        page.heading(title, Tone::Strong);
        for on in settled {
            line(page, ruleset, on);
        }
    }
    if open.is_empty() {
        return;
    }
    page.heading("Still possible", Tone::Strong);
    for on in open {
        let name = capital(&labels::dimension(ruleset, on.dimension));
        page.paragraph(2, &name, Tone::Strong);
        for possible in &on.possible {
            let ruling = narration::ruled(ruleset, on.dimension, possible.ruling);
            let share = share(possible.count.as_ref(), decision.possible.as_ref());
            page.hanging(
                4,
                "- ",
                Tone::Quiet,
                &format!("{ruling}{share}"),
                Tone::Plain,
            );
        }
        if let Some(why) = &on.open {
            let words = format!("and perhaps others, which stayed undecided: {why}");
            page.hanging(4, "- ", Tone::Quiet, &words, Tone::Warning);
        }
    }
    if let Some(all) = &decision.possible {
        let words = format!("{} have these facts.", incidents(all));
        page.paragraph(2, &words, Tone::Quiet);
    }
}

fn incidents(count: &BigUint) -> String {
    let plural = if *count == BigUint::from(1u8) {
        ""
    } else {
        "s"
    };
    format!("{} incident{plural}", words::grouped(count))
}

/// ` (40% of the incidents)`, or nothing where it was not counted.
fn share(part: Option<&BigUint>, whole: Option<&BigUint>) -> String {
    match (part, whole) {
        (Some(part), Some(whole)) => format!(
            ": {} of {} ({})",
            words::grouped(part),
            incidents(whole),
            words::percent(part, whole)
        ),
        _ => String::new(),
    }
}

fn enough(
    page: &mut Page<'_>,
    ruleset: &Ruleset,
    facts: &Established,
    found: &Result<Enough, Why>,
) {
    page.heading("Enough for that", Tone::Strong);
    let found = match found {
        Ok(found) => found,
        Err(why) => {
            let words = format!("Which facts were enough stayed undecided: {why}.");
            page.paragraph(2, &words, Tone::Warning);
            return;
        }
    };
    if found.facts.is_empty() {
        page.paragraph(
            2,
            "No fact is needed: every incident is ruled so.",
            Tone::Plain,
        );
        return;
    }
    for id in &found.facts {
        if let Some(code) = facts.get(*id) {
            let words = narration::statement(ruleset, *id, code);
            page.hanging(2, "- ", Tone::Quiet, &words, Tone::Plain);
        }
    }
    let number = found.facts.len();
    let these = if number == 1 {
        "this fact is"
    } else {
        "these facts are"
    };
    let tail = match &found.sets {
        Some(sets) if *sets == BigUint::from(1u8) => {
            "fewer would not do, and no other set of so few would".to_owned()
        }
        Some(sets) => {
            let others = sets - 1u8;
            let plural = if others == BigUint::from(1u8) {
                ""
            } else {
                "s"
            };
            format!(
                "fewer would not do; {} other set{plural} of so few would",
                words::grouped(&others)
            )
        }
        None => "none of them can be left out; whether another set has fewer stayed undecided"
            .to_owned(),
    };
    let words = format!(
        "Whoever establishes that {these} so comes to the same ruling, whatever the others are: {tail}."
    );
    page.paragraph(2, &words, Tone::Quiet);
}

fn nearest(page: &mut Page<'_>, ruleset: &Ruleset, decision: &Decision, whole: &Whole) {
    page.heading("What would have been ruled otherwise", Tone::Strong);
    match &whole.nearest {
        Err(why) => {
            let words =
                format!("The nearest incidents with another ruling stayed undecided: {why}.");
            page.paragraph(2, &words, Tone::Warning);
        }
        Ok(None) => page.paragraph(2, "Nothing: every incident is ruled so.", Tone::Plain),
        Ok(Some(near)) => neighbours(page, ruleset, decision, whole, near),
    }
}

fn neighbours(
    page: &mut Page<'_>,
    ruleset: &Ruleset,
    decision: &Decision,
    whole: &Whole,
    near: &Nearby,
) {
    let words = match near.distance {
        1 => "One other fact is enough for another ruling; all else as it is:".to_owned(),
        more => format!("It takes {more} other facts for another ruling; all else as it is:"),
    };
    page.paragraph(2, &words, Tone::Plain);
    for other in near.others.iter().take(MOST_NEIGHBOURS) {
        let differs = difference(ruleset, &whole.scenario, &other.scenario);
        page.hanging(2, "- ", Tone::Quiet, &differs, Tone::Plain);
        let then = changes(ruleset, decision, whole, other);
        page.paragraph(6, &format!("then {}", then.join("; ")), Tone::Quiet);
    }
    let more = near.others.len().saturating_sub(MOST_NEIGHBOURS);
    let beyond = match (more, near.complete) {
        (0, true) => return,
        (0, false) => "There may be others as near as these.".to_owned(),
        (more, true) => format!(
            "And {} as near as these; `--format json` gives them all.",
            words::counted(more, "other")
        ),
        (more, false) => format!(
            "And at least {} as near as these.",
            words::counted(more, "other")
        ),
    };
    page.paragraph(2, &beyond, Tone::Quiet);
}

/// How another incident differs, in one sentence.
fn difference(ruleset: &Ruleset, one: &Scenario, other: &Scenario) -> String {
    let all = narration::differences(ruleset, one, other);
    let of = |change: Change| {
        let words = all.iter().filter(move |it| it.change == change);
        words.map(|it| it.words.as_str()).collect::<Vec<_>>()
    };
    let mut parts = of(Change::Value).join("; ");
    let new = of(Change::NewlyAsked);
    if !new.is_empty() {
        let joint = if parts.is_empty() { "" } else { "; with it " };
        parts = format!("{parts}{joint}{}", new.join("; "));
    }
    let gone = of(Change::NoLongerAsked);
    if !gone.is_empty() {
        parts = format!("{parts}; no longer asked: {}", gone.join("; "));
    }
    parts
}

/// What another incident's rulings are, where they differ.
fn changes(ruleset: &Ruleset, decision: &Decision, whole: &Whole, other: &Other) -> Vec<String> {
    let of = |outcome: &Outcome, id: DimensionId| outcome.rulings.get(id.index()).copied();
    let dimensions = decision.dimensions.iter().map(|on| on.dimension);
    let changed = dimensions.filter_map(|id| {
        let (was, is) = (of(&whole.outcome, id)?, of(&other.outcome, id)?);
        (!same_ruling(was, is)).then(|| {
            format!(
                "{} (not {})",
                said(ruleset, id, is),
                narration::ruled(ruleset, id, was)
            )
        })
    });
    changed.collect()
}

fn next(page: &mut Page<'_>, ruleset: &Ruleset, decision: &Decision) {
    if decision.next.is_empty() {
        return;
    }
    page.heading("What to establish next", Tone::Strong);
    let mut seen: BTreeSet<(AttributeId, Option<usize>)> = BTreeSet::new();
    for (index, next) in decision.next.iter().take(MOST_QUESTIONS).enumerate() {
        if !seen.insert((next.attribute, next.item)) {
            continue;
        }
        let question = narration::question(ruleset, next.attribute, next.item);
        let name = &ruleset[next.attribute].name;
        let settles = match (&next.settles, &decision.possible) {
            (Some(settles), Some(_)) if *settles == BigUint::from(0u8) => match index {
                0 => ": settles nothing by itself, but tells most apart".to_owned(),
                _ => ": settles nothing by itself".to_owned(),
            },
            (Some(settles), Some(all)) if settles == all => ": settles everything".to_owned(),
            (Some(settles), Some(all)) => format!(
                ": settles everything in {} of the incidents",
                words::percent(settles, all)
            ),
            _ => String::new(),
        };
        let mark = format!("{}. ", index + 1);
        let words = format!("{question} ({name}){settles}");
        let tone = if index == 0 {
            Tone::Strong
        } else {
            Tone::Plain
        };
        page.hanging(2, &mark, Tone::Quiet, &words, tone);
    }
    let more = decision.next.len().saturating_sub(MOST_QUESTIONS);
    if more > 0 {
        let words = format!("and {} that may matter", words::counted(more, "other fact"));
        page.paragraph(2, &words, Tone::Quiet);
    }
    let words = "The whole order of questions: --protocol.";
    page.paragraph(2, words, Tone::Quiet);
}
