//! Officials who ruled one case differently, and whether the text explains it.

use super::book::{Case, Found, Ruled};
use super::judge::{Stance, stance};
use super::text_says::TextSays;
use crate::logic::{Basis, Established};
use crate::model::{AttributeId, DimensionId, Origin, Ruleset};
use std::collections::BTreeSet;

/// A case that several officials ruled differently on a dimension.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The dimension.
    pub dimension: DimensionId,
    /// What each ruled, by the official's name.
    pub ruled: Vec<(String, Ruled)>,
    /// What explains it; more than one thing may.
    pub explanations: Vec<Explanation>,
}

/// What explains that officials ruled one case differently.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Explanation {
    /// They saw different facts, and each ruled as the text says on what they saw.
    Facts(Vec<AttributeId>),
    /// They judged differently, or may have, and each ruled as the text says on that.
    Judgement(Vec<AttributeId>),
    /// They read a vague term differently, or may have, and each ruled as the text says by that reading.
    VagueTerm(Vec<AttributeId>),
    /// The text contradicts itself here.
    Contradiction,
    /// The text gives no ruling here, and one is due.
    Gap,
    /// The text leaves these rulings open.
    Discretion,
    /// The text says either, by facts that nobody noted.
    NotNoted(Vec<AttributeId>),
    /// The text does not explain it: these ruled against it on the facts that they noted themselves.
    AgainstTheText(Vec<String>),
    /// It could not be found out.
    Undecided,
}

impl Explanation {
    /// What there is most to say about comes first.
    fn rank(&self) -> u8 {
        match self {
            Explanation::AgainstTheText(_) => 0,
            Explanation::Contradiction => 1,
            Explanation::Gap => 2,
            Explanation::VagueTerm(_) => 3,
            Explanation::Judgement(_) => 4,
            Explanation::Discretion => 5,
            Explanation::Facts(_) => 6,
            Explanation::NotNoted(_) => 7,
            Explanation::Undecided => 8,
        }
    }

    /// Whether the text explains the difference.
    pub fn is_the_text(&self) -> bool {
        matches!(
            self,
            Explanation::Judgement(_)
                | Explanation::VagueTerm(_)
                | Explanation::Contradiction
                | Explanation::Gap
                | Explanation::Discretion
        )
    }
}

/// The facts of a case as an official saw them.
pub(crate) fn as_seen_by(case: &Case, official: &Found, ruleset: &Ruleset) -> Established {
    let mut facts = Established::nothing(ruleset.attributes.len());
    for (id, code) in case.found.facts.facts().chain(official.facts.facts()) {
        facts.set(id, Some(code));
    }
    facts
}

/// Where the officials of a case ruled differently, dimension by dimension.
pub(super) fn differences(
    ruleset: &Ruleset,
    text: &mut TextSays<'_>,
    case: &Case,
) -> Vec<Difference> {
    let mut found = Vec::new();
    for dimension in (0..ruleset.dimensions.len()).map(DimensionId::new) {
        let heard: Vec<(&String, &Found, Ruled)> = case
            .officials
            .iter()
            .filter_map(|(name, official)| Some((name, official, official.on(dimension)?)))
            .collect();
        let rulings: BTreeSet<Ruled> = heard.iter().map(|(_, _, ruled)| *ruled).collect();
        if rulings.len() > 1 {
            found.push(Difference {
                dimension,
                ruled: heard
                    .iter()
                    .map(|(name, _, ruled)| ((*name).clone(), *ruled))
                    .collect(),
                explanations: explain(ruleset, text, case, dimension, &heard),
            });
        }
    }
    found
}

fn explain(
    ruleset: &Ruleset,
    text: &mut TextSays<'_>,
    case: &Case,
    dimension: DimensionId,
    heard: &[(&String, &Found, Ruled)],
) -> Vec<Explanation> {
    let seen: Vec<Established> = heard
        .iter()
        .map(|(_, official, _)| as_seen_by(case, official, ruleset))
        .collect();
    let mut against = Vec::new();
    let mut stances = Vec::new();
    for ((name, _, ruled), facts) in heard.iter().zip(&seen) {
        let says = text.on(facts);
        if says.open.is_some() {
            return vec![Explanation::Undecided];
        }
        let stance = stance(ruleset, dimension, *ruled, says.on(dimension));
        if stance == Stance::Disagrees {
            against.push((*name).clone());
        }
        stances.push(stance);
    }
    if !against.is_empty() {
        return vec![Explanation::AgainstTheText(against)];
    }
    let mut found = Vec::new();
    // Those who noted the same and ruled differently: the text itself must leave it open.
    let alike: BTreeSet<&Established> = seen.iter().collect();
    for facts in alike {
        let here = heard
            .iter()
            .zip(&stances)
            .zip(&seen)
            .filter(|(_, other)| *other == facts);
        let (rulings, stances): (BTreeSet<Ruled>, Vec<&Stance>) = here
            .map(|(((_, _, ruled), stance), _)| (*ruled, stance))
            .unzip();
        if rulings.len() > 1 {
            found.push(left_open(ruleset, text, dimension, facts, &stances));
        }
    }
    let differing = differing(ruleset, &seen);
    let kinds = [
        (Explanation::Facts as fn(_) -> _, Class::Plain),
        (Explanation::Judgement as fn(_) -> _, Class::Judged),
        (Explanation::VagueTerm as fn(_) -> _, Class::Reading),
    ];
    for (explanation, class) in kinds {
        let ids: Vec<AttributeId> = differing
            .iter()
            .copied()
            .filter(|id| Class::of(ruleset, *id) == class)
            .collect();
        if !ids.is_empty() {
            found.push(explanation(ids));
        }
    }
    if found.is_empty() {
        found.push(Explanation::Undecided);
    }
    found.sort_by_key(Explanation::rank);
    found.dedup();
    found
}

/// What an attribute is to an official.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Class {
    Plain,
    Judged,
    Reading,
}

impl Class {
    fn of(ruleset: &Ruleset, id: AttributeId) -> Self {
        let attribute = &ruleset[id];
        match attribute.origin {
            Origin::Reading(_) => Class::Reading,
            Origin::Stated if attribute.judged => Class::Judged,
            Origin::Stated => Class::Plain,
        }
    }
}

/// Why officials who noted the same facts could rule differently by the text.
fn left_open(
    ruleset: &Ruleset,
    text: &mut TextSays<'_>,
    dimension: DimensionId,
    facts: &Established,
    stances: &[&Stance],
) -> Explanation {
    let every = |wanted: Stance| stances.iter().all(|stance| **stance == wanted);
    if every(Stance::Contradiction) {
        return Explanation::Contradiction;
    }
    if every(Stance::Gap) {
        return Explanation::Gap;
    }
    if every(Stance::WithinDiscretion) {
        return Explanation::Discretion;
    }
    let says = text.on(facts);
    let missing = text.missing(facts, dimension);
    let Some(best) = missing.first().copied() else {
        let clash = says
            .on(dimension)
            .iter()
            .any(|it| it.basis == Basis::Contradiction);
        return if clash {
            Explanation::Contradiction
        } else {
            Explanation::Undecided
        };
    };
    // What nobody noted decides; where that is an official's own judgement, it explains itself.
    match Class::of(ruleset, best) {
        Class::Plain => Explanation::NotNoted(missing),
        Class::Judged => Explanation::Judgement(vec![best]),
        Class::Reading => Explanation::VagueTerm(vec![best]),
    }
}

/// The facts that at least two have, with different values.
fn differing(ruleset: &Ruleset, seen: &[Established]) -> Vec<AttributeId> {
    let ids = (0..ruleset.attributes.len()).map(AttributeId::new);
    ids.filter(|id| {
        let values = seen.iter().filter_map(|facts| facts.get(*id));
        values.collect::<BTreeSet<_>>().len() > 1
    })
    .collect()
}
