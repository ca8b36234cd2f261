//! The parts of a draft that can be made or left out one by one, and the editions that show it.
//!
//! Changes that can't stand without each other are one unit.

use super::numbers::{Earlier, after_changes};
use crate::load::{Layered, Loaded};
use crate::model::Ruleset;
use crate::read::amendment::{Change, Part};
use std::collections::BTreeMap;
use std::sync::Arc;

/// More units than this are not told apart.
const MOST_UNITS: usize = 24;

/// A part of a draft.
#[derive(Clone, Debug)]
pub struct Unit {
    /// What it does, in few words.
    pub does: String,
    /// The places of its changes.
    pub places: Vec<crate::source::Span>,
    /// What its changes are about: a kind of thing, and which, as far as it has a name.
    about: Vec<(Part, Option<String>)>,
}

impl Unit {
    /// Whether a change of it is about a thing that goes by this name, or went by that one.
    pub(super) fn touches(&self, part: Part, name: &str, earlier: &str) -> bool {
        self.about.iter().any(|(of, about)| {
            let named = about.as_ref().is_none_or(|about| {
                let is = |name: &str| {
                    let rest = name.strip_prefix(about.as_str());
                    rest.is_some_and(|rest| {
                        rest.is_empty() || part == Part::Clause && rest.starts_with(['.', '('])
                    })
                };
                // A change of a table names the table, and its columns are the things.
                is(name) || is(earlier) || part == Part::Quantity
            });
            *of == part && named
        })
    }
}

/// What some changes are about.
fn about<'c>(changes: impl Iterator<Item = &'c Change>) -> Vec<(Part, Option<String>)> {
    let names = changes.map(|change| {
        let name = change.name.as_ref().map(|name| name.value.clone());
        (change.part, name)
    });
    names.collect()
}

/// The units of a draft with the editions that tell them apart.
#[derive(Debug, Default)]
pub(super) struct Units {
    pub(super) all: Vec<Unit>,
    /// For each unit the ruleset with it alone.
    pub(super) alone: Vec<Option<Arc<Variant>>>,
    /// For each unit the ruleset with all but it.
    pub(super) all_but: Vec<Option<Arc<Variant>>>,
}

/// A ruleset with some of the changes, and what its clauses were known by before them.
#[derive(Debug)]
pub(super) struct Variant {
    pub(super) ruleset: Ruleset,
    pub(super) earlier: Earlier,
}

impl Variant {
    fn new(layered: &Layered, with: Option<Loaded>, changes: &[&Change]) -> Option<Arc<Variant>> {
        Some(Arc::new(Variant {
            ruleset: with?.ruleset,
            earlier: after_changes(&layered.base.ruleset, changes),
        }))
    }

    fn of_drafts(layered: &Layered, drafts: &[usize]) -> Option<Arc<Variant>> {
        let chosen = drafts
            .iter()
            .filter_map(|index| layered.amendments.get(*index));
        let changes: Vec<&Change> = chosen.flat_map(|draft| &draft.changes).collect();
        Variant::new(layered, layered.with(drafts).ok(), &changes)
    }
}

/// The editions with some changes of a draft.
struct Editions<'a> {
    layered: &'a Layered,
    changes: &'a [&'a Change],
    /// Those made so far that tell changes apart, by the places of their changes; none where these can't
    /// stand alone.
    made: BTreeMap<Vec<usize>, Option<Arc<Variant>>>,
}

impl<'a> Editions<'a> {
    fn chosen(&self, which: &[usize]) -> Vec<&'a Change> {
        let chosen = which.iter().filter_map(|index| self.changes.get(*index));
        chosen.copied().collect()
    }

    fn with(&mut self, which: &[usize]) -> Option<Arc<Variant>> {
        let changes = self.chosen(which);
        let made = self.made.entry(which.to_vec()).or_insert_with(|| {
            let with = self.layered.with_changes(&changes).ok();
            Variant::new(self.layered, with, &changes)
        });
        made.clone()
    }

    /// Whether some changes can stand without the others.
    fn works(&self, which: &[usize]) -> bool {
        let with = self.layered.with_changes(&self.chosen(which));
        with.is_ok()
    }
}

impl Units {
    /// One unit a draft, where there are several.
    pub(super) fn of_drafts(layered: &Layered, drafts: &[usize]) -> Units {
        let mut made = Units::default();
        for draft in drafts {
            let Some(amendment) = layered.amendments.get(*draft) else {
                continue;
            };
            let others: Vec<usize> = drafts.iter().copied().filter(|it| it != draft).collect();
            made.all.push(Unit {
                does: format!("the draft \"{}\"", amendment.title.value),
                places: vec![amendment.title.span],
                about: about(amendment.changes.iter()),
            });
            made.alone.push(Variant::of_drafts(layered, &[*draft]));
            made.all_but.push(Variant::of_drafts(layered, &others));
        }
        made
    }

    /// The units of one draft.
    pub(super) fn of_changes(layered: &Layered, changes: &[&Change]) -> Units {
        let mut editions = Editions {
            layered,
            changes,
            made: BTreeMap::new(),
        };
        let groups = grouped(&mut editions);
        let mut made = Units::default();
        for group in &groups {
            let own: Vec<&Change> = editions.chosen(group);
            let does: Vec<String> = own.iter().map(ToString::to_string).collect();
            made.all.push(Unit {
                does: does.join(", "),
                places: own.iter().map(|change| change.span).collect(),
                about: about(own.iter().copied()),
            });
            if groups.len() > 1 && groups.len() <= MOST_UNITS {
                let others = (0..changes.len()).filter(|index| !group.contains(index));
                let others: Vec<usize> = others.collect();
                made.alone.push(editions.with(group));
                made.all_but.push(editions.with(&others));
            }
        }
        made
    }

    /// Whether the editions are there that tell the units apart.
    pub(super) fn told_apart(&self) -> bool {
        self.all.len() == 1 || self.alone.len() == self.all.len()
    }
}

/// Groups changes that can't be made, or can't be left out, without each other.
fn grouped(editions: &mut Editions<'_>) -> Vec<Vec<usize>> {
    let count = editions.changes.len();
    let mut group: Vec<usize> = (0..count).collect();
    if count > MOST_UNITS {
        return group.into_iter().map(|index| vec![index]).collect();
    }
    let mut join = |one: usize, other: usize| {
        let (Some(one), Some(other)) = (group.get(one).copied(), group.get(other).copied()) else {
            return;
        };
        for slot in &mut group {
            if *slot == one.max(other) {
                *slot = one.min(other);
            }
        }
    };
    for index in 0..count {
        let others = || (0..count).filter(move |other| *other != index);
        if editions.with(&[index]).is_none() {
            let partner =
                others().find(|other| editions.works(&[index.min(*other), index.max(*other)]));
            match partner {
                Some(partner) => join(index, partner),
                None => (0..count).for_each(|other| join(index, other)),
            }
        }
        let all_but: Vec<usize> = others().collect();
        if !all_but.is_empty() && editions.with(&all_but).is_none() {
            let rest =
                |other: usize| -> Vec<usize> { others().filter(|it| *it != other).collect() };
            let partner = others().find(|other| editions.works(&rest(*other)));
            match partner {
                Some(partner) => join(index, partner),
                None => (0..count).for_each(|other| join(index, other)),
            }
        }
    }
    let mut groups: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, of) in group.iter().enumerate() {
        groups.entry(*of).or_default().push(index);
    }
    groups.into_values().collect()
}
