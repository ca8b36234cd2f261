//! One space of facts for several editions of a ruleset.
//!
//! An attribute that several editions have is one attribute of the space, as far as their values can
//! be laid beside each other; its values are those that any of them knows, in steps fine enough for
//! all. Where an edition asks for it under another condition than the others, what that edition says
//! of it is guarded, so that it is neither true nor false where the edition doesn't ask.

use crate::logic::Code;
use crate::model::{
    Attribute, AttributeId, AttributeKind, Linear, NamedValue, Number, NumberRange, Origin,
    Ruleset, Test, ValueSet,
};
use num_integer::Integer;
use std::collections::BTreeMap;

/// The most points of a coarse grid that are told apart within a finer one.
const MOST_POINTS: i64 = 4096;

/// The attributes of all editions.
#[derive(Clone, Debug)]
pub(super) struct Space {
    /// The attributes; whether they are asked is not filled in yet.
    pub(super) attributes: Vec<Attribute>,
    /// For each edition and each of its stated attributes, where it went.
    pub(super) of: Vec<Vec<Placed>>,
    /// Names that stand for two attributes, since their values can't be laid beside each other.
    pub(super) apart: Vec<String>,
}

/// An attribute of an edition in the space.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    /// The attribute of the space.
    pub(super) id: AttributeId,
    /// How its values are found there.
    pub(super) values: Values,
}

/// How the values of an attribute are found in the space.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Values {
    /// They are the same.
    Same,
    /// The index in the space of each value or item.
    Named(Vec<usize>),
    /// Numbers: step `s` of the edition is step `first + s * width` of the space.
    Steps {
        /// Where the low end of the edition lies.
        first: i64,
        /// How many steps of the space one step of the edition is, one or more.
        width: i64,
        /// How many steps the edition has.
        steps: i64,
        /// Whether its highest value stands for all above it.
        or_more: bool,
        /// The highest step of the space.
        top: i64,
    },
}

impl Space {
    /// Lays the attributes of editions beside each other. `separate` are names that must not be put
    /// together.
    pub(super) fn new(editions: &[&Ruleset], separate: &[String]) -> Space {
        let mut space = Space {
            attributes: Vec::new(),
            of: Vec::new(),
            apart: Vec::new(),
        };
        // The last edition gives the order and the words; what only earlier ones have comes behind.
        let mut groups: Vec<Vec<(usize, usize)>> = Vec::new();
        let mut by_name: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for (edition, ruleset) in editions.iter().enumerate().rev() {
            for (index, attribute) in stated(ruleset) {
                let known = by_name.entry(attribute.name.as_str()).or_default();
                let fits = |group: &&usize| {
                    let members = groups.get(**group).map_or(&[][..], Vec::as_slice);
                    let kinds = members.iter().filter_map(|(edition, index)| {
                        Some(&editions.get(*edition)?.attributes.get(*index)?.kind)
                    });
                    let kinds: Vec<&AttributeKind> = kinds.chain([&attribute.kind]).collect();
                    let alone = separate.contains(&attribute.name);
                    !alone && merged(&kinds).is_some()
                };
                if let Some(group) = known.iter().find(fits) {
                    if let Some(members) = groups.get_mut(*group) {
                        members.push((edition, index));
                    }
                } else {
                    known.push(groups.len());
                    groups.push(vec![(edition, index)]);
                }
            }
        }
        space.of = editions
            .iter()
            .map(|ruleset| {
                let placeholder = Placed {
                    id: AttributeId::new(usize::MAX),
                    values: Values::Same,
                };
                vec![placeholder; stated(ruleset).count()]
            })
            .collect();
        for (name, known) in &by_name {
            if known.len() > 1 {
                space.apart.push((*name).to_owned());
            }
        }
        for members in groups {
            space.place(editions, &members);
        }
        space
    }

    fn place(&mut self, editions: &[&Ruleset], members: &[(usize, usize)]) {
        let each = || {
            members.iter().filter_map(|(edition, index)| {
                let ruleset = editions.get(*edition)?;
                Some((*edition, *index, ruleset.attributes.get(*index)?))
            })
        };
        let kinds: Vec<&AttributeKind> = each().map(|(_, _, attribute)| &attribute.kind).collect();
        let (Some(kind), Some((_, _, newest))) = (merged(&kinds), each().next()) else {
            return;
        };
        let id = AttributeId::new(self.attributes.len());
        for (edition, index, attribute) in each() {
            let values = values(&attribute.kind, &kind);
            let slots = self.of.get_mut(edition);
            if let Some(slot) = slots.and_then(|slots| slots.get_mut(index)) {
                *slot = Placed { id, values };
            }
        }
        let taken = self
            .attributes
            .iter()
            .filter(|it| it.name.split(" (").next() == Some(newest.name.as_str()));
        let name = match taken.count() {
            0 => newest.name.clone(),
            1 => format!("{} (as it was)", newest.name),
            more => format!("{} (as it was, {more})", newest.name),
        };
        self.attributes.push(Attribute {
            name,
            kind,
            judged: each().any(|(_, _, attribute)| attribute.judged),
            asked_when: None,
            ..newest.clone()
        });
    }
}

/// The attributes that stand in a ruleset's file, with their indices.
pub(super) fn stated(ruleset: &Ruleset) -> impl Iterator<Item = (usize, &Attribute)> {
    let all = ruleset.attributes.iter().enumerate();
    all.filter(|(_, attribute)| attribute.origin == Origin::Stated)
}

/// A kind whose values are those of all kinds; `None` where they can't be laid beside each other.
/// The first is the newest.
fn merged(kinds: &[&AttributeKind]) -> Option<AttributeKind> {
    let (first, rest) = kinds.split_first()?;
    let mut all = (*first).clone();
    for kind in rest {
        all = two(&all, kind)?;
    }
    if let AttributeKind::Number(range) = &all {
        // Coarse grids are told apart point by point.
        for kind in kinds {
            if let AttributeKind::Number(own) = kind {
                let (_, width) = grid(own, range)?;
                if width > 1 && own.steps > MOST_POINTS {
                    return None;
                }
            }
        }
    }
    Some(all)
}

fn two(one: &AttributeKind, other: &AttributeKind) -> Option<AttributeKind> {
    match (one, other) {
        (AttributeKind::YesNo, AttributeKind::YesNo) => Some(AttributeKind::YesNo),
        (AttributeKind::Several(mine), AttributeKind::Several(theirs)) => {
            let (names, _) = names_of_both(mine, theirs);
            (names.len() <= 64).then_some(AttributeKind::Several(names))
        }
        (
            AttributeKind::Choice(mine) | AttributeKind::Scale(mine),
            AttributeKind::Choice(theirs) | AttributeKind::Scale(theirs),
        ) => {
            let (names, in_order) = names_of_both(mine, theirs);
            let ordered = in_order
                && matches!(one, AttributeKind::Scale(_))
                && matches!(other, AttributeKind::Scale(_));
            (names.len() <= ValueSet::CAPACITY).then_some(if ordered {
                AttributeKind::Scale(names)
            } else {
                AttributeKind::Choice(names)
            })
        }
        (AttributeKind::Number(mine), AttributeKind::Number(theirs)) => {
            both_ranges(mine, theirs).map(AttributeKind::Number)
        }
        _ => None,
    }
}

/// The names of both lists, each list's own order kept where they agree; says whether they do.
fn names_of_both(mine: &[NamedValue], theirs: &[NamedValue]) -> (Vec<NamedValue>, bool) {
    let mut all = mine.to_vec();
    let place = |all: &[NamedValue], name: &str| all.iter().position(|known| known.name == name);
    let mut last: Option<usize> = None;
    let mut in_order = true;
    for value in theirs {
        if let Some(known) = place(&all, &value.name) {
            in_order &= last.is_none_or(|last| last < known);
            last = Some(known);
        } else {
            let at = last.map_or(0, |last| last + 1);
            all.insert(at.min(all.len()), value.clone());
            last = Some(at);
        }
    }
    (all, in_order)
}

/// The range that has the steps of both.
fn both_ranges(mine: &NumberRange, theirs: &NumberRange) -> Option<NumberRange> {
    let factor = theirs.unit.factor_to(&mine.unit)?;
    let their_low = theirs.low.times(factor)?;
    let their_step = theirs.step.times(factor)?;
    let distance = their_low.minus(mine.low)?;
    // The finest step that all three are whole numbers of.
    let below = [mine.step, their_step, distance]
        .iter()
        .map(|number| number.denominator())
        .fold(1i128, |all, one| all.lcm(&one));
    let below = i64::try_from(below).ok()?;
    let whole = |number: Number| number.times(Number::whole(below))?.to_whole();
    let common = whole(mine.step)?
        .gcd(&whole(their_step)?)
        .gcd(&whole(distance)?);
    let step = Number::fraction(common, below)?;
    let low = mine.low.min(their_low);
    let high = |low: Number, step: Number, steps: i64| low.plus(step.times(Number::whole(steps))?);
    let (my_high, their_high) = (
        high(mine.low, mine.step, mine.steps)?,
        high(their_low, their_step, theirs.steps)?,
    );
    let steps = my_high.max(their_high).minus(low)?.over(step)?.to_whole()?;
    (steps < 1 << 40).then_some(NumberRange {
        low,
        step,
        steps,
        unit: mine.unit.clone(),
        or_more: match my_high.cmp(&their_high) {
            std::cmp::Ordering::Greater => mine.or_more,
            std::cmp::Ordering::Less => theirs.or_more,
            std::cmp::Ordering::Equal => mine.or_more || theirs.or_more,
        },
    })
}

/// Where a range's steps lie in a wider one: its first, and how far apart they are.
fn grid(own: &NumberRange, all: &NumberRange) -> Option<(i64, i64)> {
    let factor = own.unit.factor_to(&all.unit)?;
    let first = own.low.times(factor)?.minus(all.low)?.over(all.step)?;
    let width = own.step.times(factor)?.over(all.step)?;
    Some((first.to_whole()?, width.to_whole()?))
}

fn values(own: &AttributeKind, all: &AttributeKind) -> Values {
    if own == all {
        return Values::Same;
    }
    if let (AttributeKind::Number(own), AttributeKind::Number(all)) = (own, all) {
        let (first, width) = grid(own, all).unwrap_or((0, 1));
        if (first, width, own.steps, own.or_more) == (0, 1, all.steps, all.or_more) {
            return Values::Same;
        }
        return Values::Steps {
            first,
            width,
            steps: own.steps,
            or_more: own.or_more,
            top: all.steps,
        };
    }
    let all = all.names();
    let place = |name: &str| all.iter().position(|known| known.name == name);
    let places = own.names().iter();
    let places: Vec<usize> = places
        .map(|value| place(&value.name).unwrap_or(usize::MAX))
        .collect();
    if places.len() == all.len() && places.iter().enumerate().all(|(at, to)| at == *to) {
        Values::Same
    } else {
        Values::Named(places)
    }
}

impl Values {
    fn set(&self, own: ValueSet) -> ValueSet {
        match self {
            Values::Same | Values::Steps { .. } => own,
            Values::Named(places) => own
                .iter()
                .filter_map(|index| places.get(index).copied())
                .collect(),
        }
    }

    fn index(&self, own: u8) -> u8 {
        match self {
            Values::Same | Values::Steps { .. } => own,
            Values::Named(places) => places
                .get(usize::from(own))
                .and_then(|place| u8::try_from(*place).ok())
                .unwrap_or(u8::MAX),
        }
    }

    /// Where a range of steps lies. Ends at or beyond those of the edition reach beyond them.
    fn steps(&self, low: i64, high: i64) -> (i64, i64) {
        match self {
            Values::Steps {
                first,
                width,
                steps,
                or_more,
                top,
            } => {
                let place = |step: i64| first.saturating_add(step.saturating_mul(*width));
                let high = if *or_more && high >= *steps {
                    *top
                } else {
                    place(high)
                };
                (place(low), high)
            }
            Values::Same | Values::Named(_) => (low, high),
        }
    }

    /// The comparisons of the space of which one must hold for the edition to know the value; none
    /// where it knows all.
    pub(super) fn known(&self, id: AttributeId, kind: &AttributeKind) -> Vec<Test> {
        match self {
            Values::Same => Vec::new(),
            Values::Named(places) => {
                let known: ValueSet = places.iter().copied().collect();
                let all = ValueSet::first(kind.names().len());
                if known == all {
                    return Vec::new();
                }
                vec![match kind {
                    AttributeKind::Several(_) => Test::Several {
                        attribute: id,
                        items: all.minus(known),
                        least: 0,
                        most: 0,
                    },
                    _ => Test::OneOf {
                        attribute: id,
                        values: known,
                    },
                }]
            }
            Values::Steps {
                first,
                width,
                steps,
                or_more,
                top,
            } => {
                let within = |low: i64, high: i64| Test::Within {
                    attribute: id,
                    low,
                    high,
                };
                let last = first.saturating_add(steps.saturating_mul(*width));
                if *width == 1 {
                    let high = if *or_more { *top } else { last };
                    if (*first, high) == (0, *top) {
                        return Vec::new();
                    }
                    return vec![within(*first, high)];
                }
                let points = (0..=*steps).map(|step| {
                    let place = first.saturating_add(step.saturating_mul(*width));
                    let high = if *or_more && step == *steps {
                        *top
                    } else {
                        place
                    };
                    within(place, high)
                });
                points.collect()
            }
        }
    }

    /// The code in the space of a code of the edition.
    fn forth(&self, code: u64, kind: &AttributeKind) -> Option<u64> {
        match self {
            Values::Same => Some(code),
            Values::Named(places) if matches!(kind, AttributeKind::Several(_)) => {
                let present = places.iter().enumerate();
                let present = present.filter(|(index, _)| code >> index & 1 == 1);
                present
                    .map(|(_, place)| 1u64.checked_shl(u32::try_from(*place).ok()?))
                    .try_fold(0u64, |all, bit| Some(all | bit?))
            }
            Values::Named(places) => {
                let place = places.get(usize::try_from(code).ok()?)?;
                u64::try_from(*place).ok()
            }
            Values::Steps { steps, top, .. } => {
                let own = i64::try_from(code).ok()?;
                let (place, _) = self.steps(own, own);
                let or_more = matches!(self, Values::Steps { or_more: true, .. });
                let place = if or_more && own >= *steps {
                    *top
                } else {
                    place
                };
                u64::try_from(place).ok()
            }
        }
    }

    /// The edition's code of a code of the space, if it has one.
    pub(super) fn back(&self, code: u64, kind: &AttributeKind) -> Option<u64> {
        match self {
            Values::Same => Some(code),
            Values::Named(places) if matches!(kind, AttributeKind::Several(_)) => {
                let mut left = code;
                let mut own = 0u64;
                for (index, place) in places.iter().enumerate() {
                    let bit = 1u64.checked_shl(u32::try_from(*place).ok()?)?;
                    if code & bit != 0 {
                        own |= 1u64.checked_shl(u32::try_from(index).ok()?)?;
                        left &= !bit;
                    }
                }
                (left == 0).then_some(own)
            }
            Values::Named(places) => {
                let place = usize::try_from(code).ok()?;
                let index = places.iter().position(|known| *known == place)?;
                u64::try_from(index).ok()
            }
            Values::Steps {
                first,
                width,
                steps,
                or_more,
                ..
            } => {
                let above = i64::try_from(code).ok()?.checked_sub(*first)?;
                let step = above.div_euclid(*width);
                if *or_more && step >= *steps {
                    return u64::try_from(*steps).ok();
                }
                let on_grid = above.rem_euclid(*width) == 0 && (0..=*steps).contains(&step);
                on_grid.then(|| u64::try_from(step).ok()).flatten()
            }
        }
    }
}

/// The code that a value of one kind has in another, where that one knows it.
pub(super) fn code_in(from: &AttributeKind, to: &AttributeKind, code: Code) -> Option<Code> {
    let all = merged(&[to, from])?;
    let there = values(from, &all).forth(code.0, &all)?;
    values(to, &all).back(there, &all).map(Code)
}

/// A comparison of an edition in the space.
pub(super) fn placed(test: &Test, of: &[Placed]) -> Test {
    let find = |id: AttributeId| of.get(id.index());
    let id = |id: AttributeId| find(id).map_or(id, |placed| placed.id);
    let values = |id: AttributeId| find(id).map_or(&Values::Same, |placed| &placed.values);
    match test {
        Test::OneOf {
            attribute,
            values: own,
        } => Test::OneOf {
            attribute: id(*attribute),
            values: values(*attribute).set(*own),
        },
        Test::Within {
            attribute,
            low,
            high,
        } => {
            let (low, high) = values(*attribute).steps(*low, *high);
            Test::Within {
                attribute: id(*attribute),
                low,
                high,
            }
        }
        Test::Same { left, right, pairs } => Test::Same {
            left: id(*left),
            right: id(*right),
            pairs: pairs
                .iter()
                .map(|(one, other)| (values(*left).index(*one), values(*right).index(*other)))
                .collect(),
        },
        Test::Several {
            attribute,
            items,
            least,
            most,
        } => Test::Several {
            attribute: id(*attribute),
            items: values(*attribute).set(*items),
            least: *least,
            most: *most,
        },
        Test::Linear(linear) => Test::Linear(sum(linear, &id, &values)),
    }
}

/// A sum over steps of the edition as a sum over steps of the space: each step is
/// `(place - first) / width`, and all are multiplied so that no fraction is left.
fn sum<'v>(
    linear: &Linear,
    id: &impl Fn(AttributeId) -> AttributeId,
    values: &impl Fn(AttributeId) -> &'v Values,
) -> Linear {
    let grid = |attribute: AttributeId| match values(attribute) {
        Values::Steps { first, width, .. } => (*first, *width),
        Values::Same | Values::Named(_) => (0, 1),
    };
    let parts = linear.parts.iter();
    let all = parts
        .clone()
        .fold(1i64, |all, part| all.lcm(&grid(part.1).1));
    let mut bound = linear.bound.saturating_mul(all);
    let parts = parts.map(|(weight, attribute)| {
        let (first, width) = grid(*attribute);
        let weight = weight.saturating_mul(all / width.max(1));
        bound = bound.saturating_add(weight.saturating_mul(first));
        (weight, id(*attribute))
    });
    let parts = parts.collect();
    Linear { parts, bound }
}
