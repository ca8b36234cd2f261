//! What might mend a finding: changes to try, those first that a drafter would think of first.

use super::super::finding::{Cover, Finding};
use super::super::inquiry::Inquiry;
use super::mend::{Alteration, Mend, Words};
use super::trial::Aim;
use crate::logic::{Code, Formula, Name, Scenario, World, highest_code, is_valid};
use crate::model::{
    AttributeId, AttributeKind, ClauseId, DimensionId, Kind, Meaning, Ruleset, Severity, TermId,
    Wording,
};
use crate::solve::Answer;

/// The most lines of a general condition that are written into a clause.
const MOST_LINES: usize = 6;

/// Values of an attribute that are looked at beside one that has no ruling.
const MOST_VALUES: u64 = 24;

/// Steps of a number that are looked at on each side of one that has no ruling.
const MOST_STEPS: u64 = 64;

/// The most rulings that are offered for a gap.
const MOST_RULINGS: usize = 3;

/// A change to try.
#[derive(Clone, Debug)]
pub(super) struct Candidate {
    /// What it does, in a sentence.
    pub(super) edit: String,
    pub(super) mend: Mend,
    pub(super) aim: Aim,
    /// Whether a term's meaning is what changes.
    pub(super) reading: Option<Reading>,
    /// Of candidates with the same number only the first that passes is offered.
    pub(super) slot: usize,
}

/// How a vague term is changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Reading {
    /// The broad reading takes in the narrow one.
    Widened(TermId),
    /// The narrow reading is kept within the broad one.
    Narrowed(TermId),
}

/// Whether repairs of findings of this kind are looked for.
pub(super) fn is_looked_for(finding: &Finding) -> bool {
    finding.accepted.is_none()
        && finding.severity != Severity::Note
        && matches!(
            finding.kind,
            Kind::Contradiction
                | Kind::Gap
                | Kind::Impossible
                | Kind::NoEffect
                | Kind::Displaced
                | Kind::Presupposes
                | Kind::LooseTerm
        )
}

/// What might mend a finding.
pub(super) fn of(inquiry: &mut Inquiry<'_, '_>, finding: &Finding) -> Vec<Candidate> {
    match finding.kind {
        Kind::Contradiction => contradiction(inquiry, finding),
        Kind::Gap => gap(inquiry, finding),
        Kind::NoEffect | Kind::Impossible => repeal(inquiry.ruleset, finding),
        Kind::Displaced => {
            let mut all: Vec<Candidate> = yielding(inquiry.ruleset, finding).into_iter().collect();
            all.extend(repeal(inquiry.ruleset, finding));
            all
        }
        Kind::Presupposes => asked(inquiry.ruleset, finding),
        Kind::LooseTerm => loose_term(inquiry.ruleset, finding),
        _ => Vec::new(),
    }
}

fn candidate(edit: String, alterations: Vec<Alteration>, aim: Aim) -> Candidate {
    Candidate {
        edit,
        mend: Mend(alterations),
        aim,
        reading: None,
        slot: 0,
    }
}

/// Gives candidates slots of their own, in their order.
fn apart(candidates: impl IntoIterator<Item = Candidate>) -> Vec<Candidate> {
    let numbered = candidates.into_iter().enumerate();
    numbered
        .map(|(slot, candidate)| Candidate { slot, ..candidate })
        .collect()
}

/// The ids that a clause's references of a wording name, as they are written.
fn references(ruleset: &Ruleset, clause: ClauseId, wording: Wording) -> Vec<String> {
    let mut written: Vec<String> = Vec::new();
    for reference in &ruleset[clause].references {
        let words = ruleset.sources.slice(reference.span);
        let words = words.trim_matches(['"', '\'']).to_owned();
        if reference.wording == wording && !written.contains(&words) {
            written.push(words);
        }
    }
    written
}

/// That a clause prevails over another.
fn before(ruleset: &Ruleset, first: ClauseId, then: ClauseId) -> Alteration {
    Alteration::Refer {
        clause: ruleset[first].id.clone(),
        wording: Wording::Notwithstanding,
        had: references(ruleset, first, Wording::Notwithstanding),
        add: vec![ruleset[then].id.clone()],
        drop: Vec::new(),
    }
}

/// Whether a clause is met only where another is.
fn is_within(inquiry: &mut Inquiry<'_, '_>, one: ClauseId, other: ClauseId) -> bool {
    let met = |clause| Formula::from(Name::Met(World::Actual, clause));
    let outside = Formula::all([met(one), met(other).negated()]);
    let beside = inquiry.met_beside(one);
    inquiry.ask_among(beside, &outside) == Answer::No
}

fn contradiction(inquiry: &mut Inquiry<'_, '_>, finding: &Finding) -> Vec<Candidate> {
    let ruleset = inquiry.ruleset;
    let Some(dimension) = finding.dimension else {
        return Vec::new();
    };
    let aim = Aim::Contradiction(finding.clauses.clone(), dimension);
    let mut narrower = Vec::new();
    let mut others = Vec::new();
    for first in &finding.clauses {
        for then in finding.clauses.iter().filter(|then| *then != first) {
            let (one, other) = (&ruleset[*first].id, &ruleset[*then].id);
            let strictly = is_within(inquiry, *first, *then) && !is_within(inquiry, *then, *first);
            let why = if strictly {
                ", being the narrower of the two"
            } else {
                ""
            };
            let edit = format!(
                "let {one} prevail over {other}{why}: add {other} to its `notwithstanding`"
            );
            let made = candidate(edit, vec![before(ruleset, *first, *then)], aim.clone());
            if strictly {
                narrower.push(made);
            } else {
                others.push(made);
            }
        }
    }
    let mut narrowed = Vec::new();
    for clause in &finding.clauses {
        let mut rest = finding.clauses.iter().filter(|other| *other != clause);
        if let (Some(other), None) = (rest.next(), rest.next()) {
            narrowed.extend(narrowing(ruleset, *clause, *other, finding, &aim));
        }
    }
    apart(narrower.into_iter().chain(others).chain(narrowed))
}

/// That a clause leaves to another what both are met by.
fn narrowing(
    ruleset: &Ruleset,
    clause: ClauseId,
    other: ClauseId,
    finding: &Finding,
    aim: &Aim,
) -> Option<Candidate> {
    let theirs = &ruleset[other];
    let own_words = || {
        let plain = theirs.unless_span.is_none() && theirs.when_span != theirs.id_span;
        let words = plain.then(|| Words::written(ruleset, theirs.when_span))??;
        matches!(words, Words::Line(_)).then_some(words)
    };
    let exact = finding.general.cover == Cover::Exact && finding.general.lines.len() <= MOST_LINES;
    let general = || exact.then(|| Words::any_line(&finding.general.lines))?;
    let except = own_words().or_else(general)?;
    let told = except.behind("unless:");
    let this = &ruleset[clause];
    let unless = match this.unless_span {
        Some(span) => Words::written(ruleset, span)?.or(except),
        None => except,
    };
    let edit = format!(
        "narrow {} by {}: give it the exception {told}",
        this.id, theirs.id
    );
    let set = Alteration::Set {
        part: "clause",
        name: this.id.clone(),
        key: "unless",
        to: unless,
    };
    Some(candidate(edit, vec![set], aim.clone()))
}

fn gap(inquiry: &mut Inquiry<'_, '_>, finding: &Finding) -> Vec<Candidate> {
    let ruleset = inquiry.ruleset;
    let general = &finding.general;
    let (Some(dimension), Some(scenario), Cover::Exact) =
        (finding.dimension, &finding.scenario, general.cover)
    else {
        return Vec::new();
    };
    if general.lines.len() > MOST_LINES {
        return Vec::new();
    }
    let Some(when) = Words::any_line(&general.lines) else {
        return Vec::new();
    };
    let told = when.in_a_sentence().unwrap_or_default();
    let name = &ruleset[dimension].name;
    let mut all = Vec::new();
    for (slot, (value, neighbour)) in neighbours(inquiry, dimension, scenario)
        .into_iter()
        .enumerate()
    {
        let Some(value) = ruleset[dimension].values.get(value) else {
            continue;
        };
        let beside = &ruleset[neighbour].id;
        let own = format!("new-{name}");
        let numbered = further(ruleset, beside).map(|id| (id, Some(beside.clone())));
        for (id, after) in numbered.into_iter().chain([(own, None)]) {
            if is_taken(ruleset, &id) {
                continue;
            }
            let edit = format!(
                "add a clause, say {id}: where {told}, {name} is {}, as {beside} rules beside it",
                value.name
            );
            let insert = Alteration::Insert {
                id,
                after,
                when: when.clone(),
                dimension: name.clone(),
                value: value.name.clone(),
            };
            all.push(Candidate {
                slot,
                ..candidate(edit, vec![insert], Aim::Gap(dimension))
            });
        }
    }
    all
}

fn is_taken(ruleset: &Ruleset, id: &str) -> bool {
    ruleset.clauses.iter().any(|clause| clause.id == id)
}

/// A number for a clause behind this one: `14.4a`, `14.4b`. `None` where its id is no number.
fn further(ruleset: &Ruleset, id: &str) -> Option<String> {
    let is_number = id.ends_with(|sign: char| sign.is_ascii_digit());
    let mut numbers = ('a'..='z').map(|letter| format!("{id}{letter}"));
    numbers
        .find(|id| !is_taken(ruleset, id))
        .filter(|_| is_number)
}

/// What is ruled beside a scenario without a ruling, one fact apart: each ruling with a clause that
/// gives it, those first that are given most often.
fn neighbours(
    inquiry: &Inquiry<'_, '_>,
    dimension: DimensionId,
    scenario: &Scenario,
) -> Vec<(usize, ClauseId)> {
    let mut found: Vec<(usize, ClauseId, usize)> = Vec::new();
    for (id, code) in scenario.facts() {
        for way in ways(inquiry.ruleset, id, code) {
            let ruled = |code| ruled(inquiry, dimension, scenario, id, code);
            let Some((value, clause)) = way.into_iter().find_map(ruled) else {
                continue;
            };
            match found.iter_mut().find(|(known, ..)| *known == value) {
                Some((_, _, times)) => *times += 1,
                None => found.push((value, clause, 1)),
            }
        }
    }
    found.sort_by_key(|(_, _, times)| std::cmp::Reverse(*times));
    let found = found.into_iter().take(MOST_RULINGS);
    found.map(|(value, clause, _)| (value, clause)).collect()
}

/// The one value that is ruled in a scenario with another fact, and a clause that gives it.
fn ruled(
    inquiry: &Inquiry<'_, '_>,
    dimension: DimensionId,
    scenario: &Scenario,
    id: AttributeId,
    code: Code,
) -> Option<(usize, ClauseId)> {
    let mut moved = scenario.clone();
    moved.set(id, Some(code));
    if !is_valid(inquiry.ruleset, &moved) {
        return None;
    }
    let outcome = inquiry.outcome(&moved);
    let clause = outcome.standing.get(dimension.index())?.first()?;
    let ruling = outcome.rulings.get(dimension.index())?;
    let value = ruling.values.lowest()?;
    (ruling.values.len() == 1).then_some((value, *clause))
}

/// The ways from a value of an attribute, each the values that are met on it: of a number downwards
/// and upwards, of a list each other value by itself.
fn ways(ruleset: &Ruleset, id: AttributeId, code: Code) -> Vec<Vec<Code>> {
    let kind = &ruleset[id].kind;
    let highest = highest_code(kind);
    match kind {
        AttributeKind::Number(_) => {
            let lowest = code.0.saturating_sub(MOST_STEPS);
            let highest = highest.min(code.0.saturating_add(MOST_STEPS));
            let below = (lowest..code.0).rev().map(Code).collect();
            let above = (code.0.saturating_add(1)..=highest).map(Code).collect();
            vec![below, above]
        }
        _ => (0..=highest.min(MOST_VALUES))
            .filter(|other| *other != code.0)
            .map(|other| vec![Code(other)])
            .collect(),
    }
}

fn repeal(ruleset: &Ruleset, finding: &Finding) -> Vec<Candidate> {
    let Some(clause) = finding.clauses.first() else {
        return Vec::new();
    };
    let id = &ruleset[*clause].id;
    let mut alterations = Vec::new();
    for (index, other) in ruleset.clauses.iter().enumerate() {
        for wording in [
            Wording::Notwithstanding,
            Wording::SubjectTo,
            Wording::Disapplies,
        ] {
            let had = references(ruleset, ClauseId::new(index), wording);
            if had.contains(id) {
                alterations.push(Alteration::Refer {
                    clause: other.id.clone(),
                    wording,
                    had,
                    add: Vec::new(),
                    drop: vec![id.clone()],
                });
            }
        }
    }
    let edit = if alterations.is_empty() {
        format!("repeal {id}")
    } else {
        format!("repeal {id}, and strike out what refers to it")
    };
    alterations.push(Alteration::Repeal(id.clone()));
    vec![Candidate {
        slot: 1,
        ..candidate(edit, alterations, Aim::Clause(*clause))
    }]
}

/// That the one clause which displaces another yields to it instead.
fn yielding(ruleset: &Ruleset, finding: &Finding) -> Option<Candidate> {
    let [clause, displacer] = finding.clauses.as_slice() else {
        return None;
    };
    let (id, other) = (&ruleset[*clause].id, &ruleset[*displacer].id);
    let mut alterations = Vec::new();
    for (of, about) in [(*displacer, *clause), (*clause, *displacer)] {
        for reference in &ruleset[of].references {
            let concerns = reference.others.contains(&about);
            let turned = (of == *clause) == (reference.wording == Wording::SubjectTo);
            if !concerns || !turned {
                continue;
            }
            let name = &ruleset[about].id;
            let had = references(ruleset, of, reference.wording);
            // Of a group one clause can't be taken out.
            if reference.others.len() > 1 || !had.contains(name) {
                return None;
            }
            alterations.push(Alteration::Refer {
                clause: ruleset[of].id.clone(),
                wording: reference.wording,
                had,
                add: Vec::new(),
                drop: vec![name.clone()],
            });
        }
    }
    alterations.push(before(ruleset, *clause, *displacer));
    let edit = format!("let {other} yield: {id} prevails over it, and not the other way round");
    Some(candidate(edit, alterations, Aim::Idleness(*clause)))
}

fn asked(ruleset: &Ruleset, finding: &Finding) -> Vec<Candidate> {
    let Some(clause) = finding.clauses.first() else {
        return Vec::new();
    };
    let this = &ruleset[*clause];
    let Some(own) = (this.when_span != this.id_span)
        .then(|| Words::written(ruleset, this.when_span))
        .flatten()
    else {
        return Vec::new();
    };
    let set = |to| Alteration::Set {
        part: "clause",
        name: this.id.clone(),
        key: "when",
        to,
    };
    let silent = ruleset.attributes.iter().filter(|attribute| {
        let labels = finding.labels.iter().skip(1);
        labels.into_iter().any(|(span, _)| *span == attribute.span)
    });
    let asked: Option<Vec<Words>> = silent
        .map(|attribute| Words::written(ruleset, attribute.asked_when.as_ref()?.span))
        .collect();
    let asked = asked.unwrap_or_default().into_iter().reduce(Words::and);
    let mut all = Vec::new();
    if let Some(asked) = asked {
        let told = asked
            .in_a_sentence()
            .unwrap_or_else(|| "that this is asked".to_owned());
        let edit = format!("say in {} where it is meant: only where {told}", this.id);
        let both = asked.and(own.clone());
        all.push(candidate(edit, vec![set(both)], Aim::Silence(*clause)));
    }
    let general = &finding.general;
    if general.cover == Cover::Exact
        && general.lines.len() <= MOST_LINES
        && let Some(lines) = Words::any_line(&general.lines)
    {
        let told = lines.behind("or");
        let edit = format!("let {} bite there as well: add {told}", this.id);
        all.push(candidate(
            edit,
            vec![set(own.or(lines))],
            Aim::Silence(*clause),
        ));
    }
    apart(all)
}

fn loose_term(ruleset: &Ruleset, finding: &Finding) -> Vec<Candidate> {
    let terms = ruleset.terms.iter().enumerate();
    let mut terms = terms.filter(|(_, term)| Some(&term.name) == finding.term.as_ref());
    let Some((index, term)) = terms.next() else {
        return Vec::new();
    };
    let Meaning::Vague { narrow, broad, .. } = &term.meaning else {
        return Vec::new();
    };
    let written = |span| Words::written(ruleset, span);
    let (Some(narrow), Some(broad)) = (written(narrow.span), written(broad.span)) else {
        return Vec::new();
    };
    let term_id = TermId::new(index);
    let set = |key, to| {
        vec![Alteration::Set {
            part: "term",
            name: term.name.clone(),
            key,
            to,
        }]
    };
    let within = format!(
        "keep the narrow reading of `{}` within the broad one: add {}",
        term.name,
        broad.behind("and")
    );
    let wider = format!(
        "widen the broad reading of `{}`: add {}",
        term.name,
        narrow.behind("or")
    );
    // First what changes no ruling.
    let changes = [
        (
            wider,
            set("broad", broad.clone().or(narrow.clone())),
            Reading::Widened(term_id),
        ),
        (
            within,
            set("narrow", narrow.and(broad)),
            Reading::Narrowed(term_id),
        ),
    ];
    apart(
        changes
            .into_iter()
            .map(|(edit, alterations, reading)| Candidate {
                reading: Some(reading),
                ..candidate(edit, alterations, Aim::Looseness)
            }),
    )
}
