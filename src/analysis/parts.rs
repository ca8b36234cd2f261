//! The parts of a clause's own words, and the clause without some of them.
//!
//! A part is a comparison, a name or a bracket as it was written; what the language made of one
//! comparison (a case for each row of a table) is one part. Words that open a group belong to many
//! clauses and are no parts of one; neither is what a term means.

use crate::model::{Clause, Condition, ConditionKind};
use std::collections::BTreeSet;

/// The way to a part: at each level which child.
pub(super) type Path = Vec<usize>;

/// How a part is joined to what surrounds it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Joint {
    /// The whole `when`, or one of several things that must all hold.
    Required,
    /// One of several things of which one is enough.
    Alternative,
    /// One of several things that are counted.
    Counted,
}

/// A part of a condition.
#[derive(Clone, Debug)]
pub(super) struct Part<'c> {
    pub(super) path: Path,
    pub(super) condition: &'c Condition,
    pub(super) joint: Joint,
}

/// The clause's `when`, without the words that open its groups.
pub(super) fn own_when(clause: &Clause) -> Option<Part<'_>> {
    let (when, _) = own(clause);
    when
}

/// What stands under the clause's `unless`, negated as it bites.
pub(super) fn own_unless(clause: &Clause) -> Option<Part<'_>> {
    let (_, unless) = own(clause);
    unless
}

fn own(clause: &Clause) -> (Option<Part<'_>>, Option<Part<'_>>) {
    let has_when = clause.when_span != clause.id_span;
    let has_unless = clause.unless_span.is_some();
    let all = clause.openings + usize::from(has_when) + usize::from(has_unless);
    let at = |index: usize| -> Option<Part<'_>> {
        let (path, condition) = match (&clause.when.kind, all) {
            (_, 1) => (Vec::new(), &clause.when),
            (ConditionKind::All(parts), _) if parts.len() == all => {
                (vec![index], parts.get(index)?)
            }
            _ => return None,
        };
        Some(Part {
            path,
            condition,
            joint: Joint::Required,
        })
    };
    let when = if has_when { at(clause.openings) } else { None };
    let unless = if has_unless { at(all - 1) } else { None };
    (when, unless)
}

impl<'c> Part<'c> {
    /// The parts directly within this one, in the order of writing.
    pub(super) fn within(&self) -> Vec<Part<'c>> {
        let mut path = self.path.clone();
        let mut condition = self.condition;
        while let ConditionKind::Not(inner) | ConditionKind::NotTrue(inner) = &condition.kind {
            path.push(0);
            condition = inner;
        }
        let (parts, joint) = match &condition.kind {
            ConditionKind::All(parts) => (parts, Joint::Required),
            ConditionKind::Any(parts) => (parts, Joint::Alternative),
            ConditionKind::Count { of, .. } => (of, Joint::Counted),
            _ => return Vec::new(),
        };
        if parts.iter().all(|part| part.span == condition.span) {
            return Vec::new();
        }
        let parts = parts.iter().enumerate();
        parts
            .map(|(index, condition)| {
                let mut path = path.clone();
                path.push(index);
                Part {
                    path,
                    condition,
                    joint,
                }
            })
            .collect()
    }
}

/// The condition without some of its parts. Without its last part a list of required things always
/// holds, a list of alternatives never does.
pub(super) fn without(condition: &Condition, gone: &BTreeSet<Path>) -> Condition {
    if gone.contains(&Vec::new()) {
        return Condition {
            kind: ConditionKind::Always,
            span: condition.span,
        };
    }
    changed(condition, &mut Vec::new(), &|path, _| {
        if gone.contains(path) {
            Fate::Gone
        } else {
            Fate::Stays
        }
    })
}

/// The condition with one part replaced by another condition.
pub(super) fn replaced(condition: &Condition, at: &Path, by: &Condition) -> Condition {
    if at.is_empty() {
        return by.clone();
    }
    changed(condition, &mut Vec::new(), &|path, _| {
        if path == at {
            Fate::Becomes(by.clone())
        } else {
            Fate::Stays
        }
    })
}

enum Fate {
    Stays,
    Gone,
    Becomes(Condition),
}

fn changed(
    condition: &Condition,
    path: &mut Path,
    fate: &dyn Fn(&Path, &Condition) -> Fate,
) -> Condition {
    let mut child = |index: usize, part: &Condition| -> Option<Condition> {
        path.push(index);
        let made = match fate(path, part) {
            Fate::Gone => None,
            Fate::Becomes(other) => Some(other),
            Fate::Stays => Some(changed(part, path, fate)),
        };
        path.pop();
        made
    };
    let mut children = |parts: &[Condition]| -> Vec<Condition> {
        let parts = parts.iter().enumerate();
        parts
            .filter_map(|(index, part)| child(index, part))
            .collect()
    };
    let kind = match &condition.kind {
        ConditionKind::All(parts) => ConditionKind::All(children(parts)),
        ConditionKind::Any(parts) => ConditionKind::Any(children(parts)),
        ConditionKind::Count { least, most, of } => ConditionKind::Count {
            least: *least,
            most: *most,
            of: children(of),
        },
        ConditionKind::Not(inner) => match child(0, inner) {
            Some(inner) => ConditionKind::Not(Box::new(inner)),
            None => ConditionKind::Always,
        },
        ConditionKind::NotTrue(inner) => match child(0, inner) {
            Some(inner) => ConditionKind::NotTrue(Box::new(inner)),
            None => ConditionKind::Always,
        },
        other => other.clone(),
    };
    Condition {
        kind,
        span: condition.span,
    }
}
