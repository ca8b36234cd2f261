//! The rulebook itself: headings, clauses with what they decide, and the findings in the margin.

use super::cards::{Card, ClauseLink};
use super::pieces::{ConditionLine, Links, Piece, clause_anchor};
use super::{clause_title, dimension_title};
use crate::labels;
use crate::model::{
    Clause, ClauseId, Condition, ConditionKind, Gain, Heading, Promise, Ruleset, Wording,
};
use crate::report::words;
use std::collections::BTreeMap;

/// A heading or a clause, in the order of the book.
pub(super) enum Item {
    Heading(HeadingView),
    Clause(Box<ClauseView>),
}

/// The title of a group.
pub(super) struct HeadingView {
    pub(super) anchor: String,
    /// Its number, or its name where that is no number.
    pub(super) name: String,
    pub(super) title: String,
    /// Whether a wider heading stands around it.
    pub(super) inner: bool,
    /// The clauses, where they do not simply follow it.
    pub(super) covers: Vec<ClauseLink>,
}

/// A clause.
pub(super) struct ClauseView {
    pub(super) anchor: String,
    pub(super) id: String,
    pub(super) title: String,
    /// The amendment that it comes from, where it does.
    pub(super) origin: String,
    /// Language tag and wording.
    pub(super) texts: Vec<(String, Vec<Piece>)>,
    pub(super) when: Vec<ConditionLine>,
    /// Words that open its groups, which hold for it too.
    pub(super) openings: Vec<ConditionLine>,
    pub(super) unless: Vec<ConditionLine>,
    /// What it decides: the dimension, where that is explained, and the values.
    pub(super) rulings: Vec<(String, String, String)>,
    /// How it stands to other clauses, in words, and to which.
    pub(super) relations: Vec<(&'static str, Vec<ClauseLink>)>,
    pub(super) margin: Vec<MarginNote>,
}

/// A finding in the margin.
pub(super) struct MarginNote {
    pub(super) number: usize,
    pub(super) sign: &'static str,
    pub(super) severity: String,
    pub(super) headline: Vec<Piece>,
}

/// What the rules as a whole promise.
pub(super) struct Principle {
    pub(super) id: String,
    pub(super) text: String,
    pub(super) promise: Vec<(String, Vec<ConditionLine>)>,
    pub(super) margin: Vec<MarginNote>,
}

/// The whole book.
pub(super) fn items(ruleset: &Ruleset, cards: &[&Card]) -> Vec<Item> {
    let links = Links::new(ruleset);
    let mut notes: BTreeMap<ClauseId, Vec<MarginNote>> = BTreeMap::new();
    for card in cards {
        for link in &card.clauses {
            let of_clause = notes.entry(link.clause).or_default();
            if of_clause
                .last()
                .is_none_or(|note| note.number != card.number)
            {
                of_clause.push(margin_note(card));
            }
        }
    }
    let mut items = Vec::new();
    let mut headings = opening_headings(ruleset);
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let id = ClauseId::new(index);
        for (at, heading) in headings.remove(&id).unwrap_or_default() {
            items.push(Item::Heading(heading_view(ruleset, at, heading)));
        }
        let margin = notes.remove(&id).unwrap_or_default();
        items.push(Item::Clause(Box::new(clause_view(
            ruleset, &links, id, clause, margin,
        ))));
    }
    items
}

/// The headings that each clause is the first of, the widest first.
fn opening_headings(ruleset: &Ruleset) -> BTreeMap<ClauseId, Vec<(usize, &Heading)>> {
    let mut opening: BTreeMap<ClauseId, Vec<(usize, &Heading)>> = BTreeMap::new();
    for (at, heading) in ruleset.headings.iter().enumerate() {
        if let Some(first) = heading.covers.first() {
            opening.entry(*first).or_default().push((at, heading));
        }
    }
    for list in opening.values_mut() {
        list.sort_by_key(|(at, heading)| (std::cmp::Reverse(heading.covers.len()), *at));
    }
    opening
}

fn heading_view(ruleset: &Ruleset, at: usize, heading: &Heading) -> HeadingView {
    let contiguous = heading
        .covers
        .iter()
        .zip(heading.covers.iter().skip(1))
        .all(|(one, next)| one.index() + 1 == next.index());
    let within = |other: &Heading| {
        other.covers.len() > heading.covers.len()
            && heading.covers.iter().all(|id| other.covers.contains(id))
    };
    let covers = heading.covers.iter().filter(|_| !contiguous);
    HeadingView {
        anchor: format!("heading-{at}"),
        name: heading.name.clone(),
        title: heading.title.as_ref().map_or_else(String::new, |title| {
            title.in_language(&ruleset.language).trim().to_owned()
        }),
        inner: ruleset.headings.iter().any(within),
        covers: covers.map(|id| ClauseLink::new(ruleset, *id)).collect(),
    }
}

pub(super) fn margin_note(card: &Card) -> MarginNote {
    MarginNote {
        number: card.number,
        sign: card.sign,
        severity: match card.accepted {
            Some(_) => "accepted".to_owned(),
            None => card.severity.to_string(),
        },
        headline: card.headline.clone(),
    }
}

fn clause_view(
    ruleset: &Ruleset,
    links: &Links<'_>,
    id: ClauseId,
    clause: &Clause,
    margin: Vec<MarginNote>,
) -> ClauseView {
    let Parts {
        openings,
        own,
        unless,
    } = parts(clause);
    let lines = |conditions: &[&Condition]| {
        conditions
            .iter()
            .flat_map(|condition| links.condition(condition))
            .collect::<Vec<_>>()
    };
    let texts = clause.text.iter().flat_map(|text| &text.by_language);
    ClauseView {
        anchor: clause_anchor(id),
        id: clause.id.clone(),
        title: clause_title(ruleset, clause),
        origin: labels::origin(ruleset, id).unwrap_or_default(),
        texts: texts
            .map(|(tag, words)| {
                let tag = if tag.is_empty() {
                    &ruleset.language
                } else {
                    tag
                };
                (tag.clone(), links.wording(words.trim()))
            })
            .collect(),
        when: lines(&own.into_iter().collect::<Vec<_>>()),
        openings: lines(&openings),
        unless: lines(&unless.into_iter().collect::<Vec<_>>()),
        rulings: clause
            .rulings
            .iter()
            .map(|(dimension, values)| {
                let named = words::ruling(ruleset, *dimension, *values);
                (
                    dimension_title(ruleset, *dimension),
                    format!("decides-{}", dimension.index()),
                    match named.len() {
                        1 => words::or_list(&named),
                        _ => format!("{}, as the official decides", words::or_list(&named)),
                    },
                )
            })
            .collect(),
        relations: relations(ruleset, clause),
        margin,
    }
}

/// The parts of where a clause is met.
struct Parts<'c> {
    openings: Vec<&'c Condition>,
    own: Option<&'c Condition>,
    unless: Option<&'c Condition>,
}

fn parts(clause: &Clause) -> Parts<'_> {
    let joined = clause.openings + usize::from(clause.unless_span.is_some());
    let mut all: Vec<&Condition> = match &clause.when.kind {
        ConditionKind::All(parts) if joined > 0 => parts.iter().collect(),
        ConditionKind::Always => Vec::new(),
        _ => vec![&clause.when],
    };
    let unless = clause.unless_span.and_then(|_| all.pop());
    let own = all.split_off(clause.openings.min(all.len()));
    let unless = unless.map(|part| match &part.kind {
        ConditionKind::NotTrue(inner) => inner.as_ref(),
        _ => part,
    });
    Parts {
        openings: all,
        own: own.first().copied(),
        unless,
    }
}

/// How a clause stands to others: in its own words, and what others say of it.
fn relations(ruleset: &Ruleset, clause: &Clause) -> Vec<(&'static str, Vec<ClauseLink>)> {
    let linked = |ids: &[ClauseId]| -> Vec<ClauseLink> {
        ids.iter().map(|id| ClauseLink::new(ruleset, *id)).collect()
    };
    let own = |wording: Wording| -> Vec<ClauseId> {
        let those = clause.references.iter().filter(|it| it.wording == wording);
        let mut ids: Vec<ClauseId> = those.flat_map(|it| it.others.iter().copied()).collect();
        ids.sort_unstable();
        ids.dedup();
        ids
    };
    let over = own(Wording::Notwithstanding);
    let under = own(Wording::SubjectTo);
    let besides = |all: &[ClauseId], said: &[ClauseId]| -> Vec<ClauseId> {
        let mut ids: Vec<ClauseId> = all
            .iter()
            .copied()
            .filter(|id| !said.contains(id))
            .collect();
        ids.sort_unstable();
        ids.dedup();
        ids
    };
    let mut relations = vec![
        ("Notwithstanding", linked(&over)),
        ("Subject to", linked(&under)),
        ("Disapplies", linked(&own(Wording::Disapplies))),
        ("Yields to", linked(&besides(&clause.yields_to, &under))),
        (
            "Prevails over",
            linked(&besides(&clause.prevails_over, &over)),
        ),
        ("Disapplied by", linked(&clause.disapplied_by)),
    ];
    relations.retain(|(_, others)| !others.is_empty());
    relations
}

/// The principles, with the findings about each.
pub(super) fn principles(ruleset: &Ruleset, cards: &[&Card]) -> Vec<Principle> {
    let links = Links::new(ruleset);
    ruleset
        .principles
        .iter()
        .map(|principle| Principle {
            id: principle.id.clone(),
            text: principle.text.as_ref().map_or_else(String::new, |text| {
                text.in_language(&ruleset.language).trim().to_owned()
            }),
            promise: promise(ruleset, &links, &principle.promise),
            margin: cards
                .iter()
                .filter(|card| card.principle.as_ref() == Some(&principle.id))
                .map(|card| margin_note(card))
                .collect(),
        })
        .collect()
}

fn promise(
    ruleset: &Ruleset,
    links: &Links<'_>,
    promise: &Promise,
) -> Vec<(String, Vec<ConditionLine>)> {
    let said = |words: String| (words, Vec::new());
    match promise {
        Promise::Expect { whenever, expect } => vec![
            ("Whenever".to_owned(), links.condition(whenever)),
            ("it is so that".to_owned(), links.condition(expect)),
        ],
        Promise::ImpartialTo(attributes) => {
            let names: Vec<String> = attributes
                .iter()
                .map(|id| labels::attribute_name(ruleset, &ruleset[*id]))
                .collect();
            vec![said(format!(
                "No ruling depends on: {}",
                words::and_list(&names)
            ))]
        }
        Promise::RisesWith {
            attribute,
            dimension,
        } => vec![said(format!(
            "More of “{}”, all else equal, never means a lower ruling on “{}”",
            labels::attribute_name(ruleset, &ruleset[*attribute]),
            labels::dimension(ruleset, *dimension)
        ))],
        Promise::NoGain { party, by, gain } => {
            let mut lines = vec![said(format!("By a move of its own, “{party}” never"))];
            match gain {
                Gain::Raising(dimension) => lines.push(said(format!(
                    "raises the ruling on “{}”",
                    labels::dimension(ruleset, *dimension)
                ))),
                Gain::Lowering(dimension) => lines.push(said(format!(
                    "lowers the ruling on “{}”",
                    labels::dimension(ruleset, *dimension)
                ))),
                Gain::To(condition) => {
                    lines.push(("brings about".to_owned(), links.condition(condition)));
                }
            }
            if let Some(by) = by {
                lines.push(("The move:".to_owned(), links.condition(by)));
            }
            lines
        }
    }
}
