//! Clauses that a draft leaves as they are, and whether what they do changes all the same.

use super::asking::Asking;
use super::changes::{Open, either};
use super::joined::Joined;
use crate::logic::{Formula, Name, Scenario, World, attributes_read, quantities_named};
use crate::model::{
    Attribute, AttributeId, AttributeKind, ClauseId, ConditionKind, DimensionId, Quantity,
    QuantityValue, Ruleset,
};
use crate::solve::Answer;
use std::collections::{BTreeMap, BTreeSet};

/// A clause that rests on something that changes.
#[derive(Clone, Debug)]
pub struct Affected {
    /// Its id in the amended edition.
    pub clause: String,
    /// What it rests on that changes: `term long_hold`, `clause 9.1`.
    pub through: Vec<String>,
    /// Whether its ruling stands in other scenarios than before (for a clause without a ruling: whether
    /// it is in force in others); `None` where that stayed open.
    pub changed: Option<bool>,
    /// A scenario in which its ruling stands in one edition alone.
    pub scenario: Option<Scenario>,
}

/// Looks at every clause of both editions that the draft leaves as it is. `keys` are what clauses of
/// the two editions are matched by, `touched` those that the draft changes.
pub(super) fn affected(
    joined: &Joined<'_>,
    asking: &Asking<'_>,
    keys: [&[String]; 2],
    touched: &BTreeSet<String>,
    open: &mut Vec<Open>,
) -> Vec<Affected> {
    let [before, after] = keys;
    let places: BTreeMap<&str, usize> = before
        .iter()
        .enumerate()
        .map(|(index, key)| (key.as_str(), index))
        .collect();
    let (Some(base), Some(amended)) = (joined.editions.first(), joined.editions.get(1)) else {
        return Vec::new();
    };
    let kept = Formula::all([joined.kept(0), joined.kept(1)]);
    let dimensions: Vec<(DimensionId, DimensionId)> = base
        .dimensions
        .iter()
        .filter_map(|it| {
            Some((
                joined.dimension(0, &it.name)?,
                joined.dimension(1, &it.name)?,
            ))
        })
        .collect();
    let mut found = Vec::new();
    for (index, key) in after.iter().enumerate() {
        let Some(earlier) = places.get(key.as_str()).filter(|_| !touched.contains(key)) else {
            continue;
        };
        let (Some(one), Some(other)) = (
            joined
                .of
                .first()
                .and_then(|parts| parts.clauses.get(*earlier))
                .copied(),
            joined
                .of
                .get(1)
                .and_then(|parts| parts.clauses.get(index))
                .copied(),
        ) else {
            continue;
        };
        let mut through = reasons(&joined.ruleset, one, other);
        let mut stands = Vec::new();
        for (mine, theirs) in &dimensions {
            let rules =
                |clause: ClauseId, on: DimensionId| joined.ruleset[clause].ruling_on(on).is_some();
            let rivals = rivals(&joined.ruleset, one, *mine, *theirs);
            if (one == other && rivals.is_empty()) || !rules(one, *mine) || !rules(other, *theirs) {
                continue;
            }
            through.extend(rivals);
            stands.push(either(
                Name::Stands(World::Actual, one, *mine).into(),
                Name::Stands(World::Actual, other, *theirs).into(),
            ));
        }
        if one != other && joined.ruleset[other].rulings.is_empty() {
            stands.push(either(
                Name::InForce(World::Actual, one).into(),
                Name::InForce(World::Actual, other).into(),
            ));
        }
        if stands.is_empty() {
            continue;
        }
        if through.is_empty() {
            through.extend(other_values(base, amended, ClauseId::new(index)));
        }
        if through.is_empty() {
            through.insert("the words that open its group".to_owned());
        }
        let mut among = asking.met_beside(one);
        among.union_with(&asking.met_beside(other));
        let question = Formula::all([kept.clone(), Formula::any(stands)]);
        let (changed, scenario) = match asking.ask(&among, &question) {
            Answer::Yes(scenario) => (Some(true), Some(scenario)),
            Answer::No => (Some(false), None),
            Answer::Undecided(reason) => {
                open.push((format!("what clause {key} does"), reason));
                (None, None)
            }
        };
        found.push(Affected {
            clause: amended[ClauseId::new(index)].id.clone(),
            through: through.into_iter().collect(),
            changed,
            scenario,
        });
    }
    found
}

/// What of two copies of a clause is not the same thing.
fn reasons(ruleset: &Ruleset, one: ClauseId, other: ClauseId) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    if one == other {
        return found;
    }
    let read = |clause: ClauseId| {
        let mut read: BTreeSet<(String, usize)> = BTreeSet::new();
        ruleset[clause]
            .when
            .each_part(&mut |part| match &part.kind {
                ConditionKind::Term(term) => {
                    let name = &ruleset[*term].name;
                    // Where an edition asks for an attribute is kept under this name.
                    let name = if name == "asked" {
                        "when something is asked".to_owned()
                    } else {
                        format!("term {name}")
                    };
                    read.insert((name, term.index()));
                }
                ConditionKind::Ruling { dimension, .. } => {
                    let name = format!("dimension {}", ruleset[*dimension].name);
                    read.insert((name, dimension.index()));
                }
                _ => {}
            });
        read
    };
    let (mine, theirs) = (read(one), read(other));
    found.extend(
        mine.symmetric_difference(&theirs)
            .map(|(name, _)| name.clone()),
    );
    let (off, now) = (&ruleset[one].disapplied_by, &ruleset[other].disapplied_by);
    let clauses = off.iter().filter(|id| !now.contains(id));
    let clauses = clauses.chain(now.iter().filter(|id| !off.contains(id)));
    found.extend(clauses.map(|id| format!("clause {}", ruleset[*id].id)));
    found
}

/// The quantities and attributes that a clause of the later edition reads and that are not the same in
/// the earlier one.
fn other_values(before: &Ruleset, after: &Ruleset, clause: ClauseId) -> Vec<String> {
    let when = &after[clause].when;
    let mut found: Vec<String> = Vec::new();
    for (index, _) in quantities_named(after, when) {
        let quantity = after.quantities.get(index);
        let amounts = |it: &Quantity| match &it.value {
            QuantityValue::Constant(number, unit) => vec![Some((*number, unit.clone()))],
            QuantityValue::Column { cells, .. } => cells.clone(),
        };
        found.extend(quantity.and_then(|quantity| {
            let mut all = before.quantities.iter();
            let old = all.find(|it| it.name == quantity.name)?;
            (amounts(old) != amounts(quantity)).then(|| format!("quantity {}", quantity.name))
        }));
    }
    let read = attributes_read(after, when);
    for attribute in read.ones().map(|index| &after[AttributeId::new(index)]) {
        let mut all = before.attributes.iter();
        let old = all.find(|it| it.name == attribute.name);
        // Where the values stand in the file is no difference.
        let kind = |it: &Attribute| match &it.kind {
            AttributeKind::Number(range) => format!("{range:?}"),
            kind => format!(
                "{:?}",
                kind.names().iter().map(|it| &it.name).collect::<Vec<_>>()
            ),
        };
        if old.is_some_and(|old| kind(old) != kind(attribute)) {
            found.push(format!("attribute {}", attribute.name));
        }
    }
    found
}

/// The clauses above one that speak on one of two dimensions and not on the other.
fn rivals(
    ruleset: &Ruleset,
    clause: ClauseId,
    one: DimensionId,
    other: DimensionId,
) -> Vec<String> {
    if one == other {
        return Vec::new();
    }
    let apart = ruleset[clause].yields_to.iter().filter(|id| {
        let speaks = |on| ruleset[**id].ruling_on(on).is_some();
        speaks(one) != speaks(other)
    });
    apart
        .map(|id| format!("clause {}", ruleset[*id].id))
        .collect()
}
