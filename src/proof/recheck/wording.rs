//! The parts of a clause's own words, and the clause without one of them, said once more.
//!
//! Written from the page on proofs and the language, not from the code that looks for surplus words. A
//! part is told by the way to it: which part of the whole, which part of that, and so on.

use crate::model::{Clause, ClauseId, Condition, ConditionKind, Ruleset};

/// The way to a part.
pub(super) type Way = Vec<usize>;

/// Where a clause's `when` and its `unless` stand in its condition.
pub(super) struct OwnWords {
    pub(super) when: Option<Way>,
    pub(super) unless: Option<Way>,
}

/// The clause's own words, without those that open its groups: these come first, then `when`, then the
/// contrary of `unless`. What is alone stands for the whole.
pub(super) fn own_words(clause: &Clause) -> OwnWords {
    let says_when = clause.when_span != clause.id_span;
    let says_unless = clause.unless_span.is_some();
    let parts = clause.openings + usize::from(says_when) + usize::from(says_unless);
    let way = |place: usize| if parts == 1 { Vec::new() } else { vec![place] };
    OwnWords {
        when: says_when.then(|| way(clause.openings)),
        unless: says_unless.then(|| way(parts.saturating_sub(1))),
    }
}

/// The parts within a part, as they were written. What the language made of one comparison (all of it
/// has the same place in the file) is not taken apart.
pub(super) fn parts_within(whole: &Condition, way: &Way) -> Vec<Way> {
    let Some(mut part) = at(whole, way) else {
        return Vec::new();
    };
    let mut way = way.clone();
    // "Not" is no part by itself: what it denies is taken apart.
    while let ConditionKind::Not(denied) | ConditionKind::NotTrue(denied) = &part.kind {
        way.push(0);
        part = denied;
    }
    let Some(parts) = members(part) else {
        return Vec::new();
    };
    if parts.iter().all(|member| member.span == part.span) {
        return Vec::new();
    }
    let longer = |place: usize| way.iter().copied().chain([place]).collect();
    (0..parts.len()).map(longer).collect()
}

fn members(condition: &Condition) -> Option<&[Condition]> {
    match &condition.kind {
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => Some(parts),
        _ => None,
    }
}

fn at<'c>(whole: &'c Condition, way: &[usize]) -> Option<&'c Condition> {
    let Some((place, rest)) = way.split_first() else {
        return Some(whole);
    };
    match &whole.kind {
        ConditionKind::Not(denied) | ConditionKind::NotTrue(denied) if *place == 0 => {
            at(denied, rest)
        }
        _ => at(members(whole)?.get(*place)?, rest),
    }
}

/// A clause's condition without a part. Without its only part it always holds. `None` where there is no
/// such part.
pub(super) fn without_part(
    ruleset: &Ruleset,
    clause: ClauseId,
    way: &[usize],
) -> Option<Condition> {
    let whole = &ruleset[clause].when;
    at(whole, way)?;
    Some(taken_out(whole, way))
}

fn taken_out(whole: &Condition, way: &[usize]) -> Condition {
    let with = |kind| Condition {
        kind,
        span: whole.span,
    };
    let Some((place, rest)) = way.split_first() else {
        return with(ConditionKind::Always);
    };
    let fewer = |parts: &[Condition]| -> Vec<Condition> {
        let mut parts = parts.to_vec();
        if rest.is_empty() {
            parts.remove(*place);
        } else if let Some(part) = parts.get_mut(*place) {
            *part = taken_out(part, rest);
        }
        parts
    };
    match &whole.kind {
        // Whoever denies nothing always holds.
        ConditionKind::Not(_) | ConditionKind::NotTrue(_) if rest.is_empty() => {
            with(ConditionKind::Always)
        }
        ConditionKind::Not(denied) => with(ConditionKind::Not(Box::new(taken_out(denied, rest)))),
        ConditionKind::NotTrue(denied) => {
            with(ConditionKind::NotTrue(Box::new(taken_out(denied, rest))))
        }
        ConditionKind::All(parts) => with(ConditionKind::All(fewer(parts))),
        ConditionKind::Any(parts) => with(ConditionKind::Any(fewer(parts))),
        ConditionKind::Count { least, most, of } => with(ConditionKind::Count {
            least: *least,
            most: *most,
            of: fewer(of),
        }),
        _ => whole.clone(),
    }
}
