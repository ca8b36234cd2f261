//! What an amended ruleset does otherwise, as an edit of the ruleset that it was made from.
//!
//! A repair is written as an amendment, read again and laid over the ruleset; the edit is taken from
//! what that comes to. So whatever is checked of the edit is checked of the words as they are written.

use crate::logic::{Change, Edit, Precedence};
use crate::model::{ClauseId, Condition, ConditionKind, Ruleset, Step};
use crate::source::Span;
use std::collections::BTreeMap;

/// What differs; `None` where it is more than an edit can say. Everything but clauses is taken to be
/// the same in both.
pub(super) fn edit(before: &Ruleset, after: &Ruleset) -> Option<Edit> {
    let own: BTreeMap<&str, ClauseId> = by_id(before);
    let theirs: BTreeMap<&str, ClauseId> = by_id(after);
    let home = |id: &ClauseId| own.get(after[*id].id.as_str()).copied();
    let mut changes = Vec::new();
    for (id, clause) in &own {
        let was = &before[*clause];
        let Some(is) = theirs.get(id).map(|id| &after[*id]) else {
            changes.push(Change::When {
                clause: *clause,
                when: nowhere(was.when.span),
            });
            continue;
        };
        if is.rulings != was.rulings {
            return None;
        }
        if bare(&is.when) != bare(&was.when) {
            changes.push(Change::When {
                clause: *clause,
                when: is.when.clone(),
            });
        }
        let relations = [
            (Precedence::Prevails, &was.yields_to, &is.yields_to),
            (
                Precedence::Disapplies,
                &was.disapplied_by,
                &is.disapplied_by,
            ),
        ];
        for (precedence, had, has) in relations {
            let has: Option<Vec<ClauseId>> = has.iter().map(home).collect();
            let has = has?;
            let lost = had.iter().filter(|first| {
                !has.contains(first) && theirs.contains_key(before[**first].id.as_str())
            });
            changes.extend(lost.map(|first| Change::Loses {
                precedence,
                first: *first,
                then: *clause,
            }));
            for first in has.iter().filter(|first| !had.contains(first)) {
                if precedence == Precedence::Disapplies {
                    return None;
                }
                changes.push(Change::Prevails {
                    first: *first,
                    then: *clause,
                });
            }
        }
    }
    for (id, clause) in theirs.iter().filter(|(id, _)| !own.contains_key(*id)) {
        let added = &after[*clause];
        let related = [
            &added.prevails_over,
            &added.yields_to,
            &added.disapplies,
            &added.disapplied_by,
        ];
        if related.iter().any(|list| !list.is_empty()) || own.contains_key(id) {
            return None;
        }
        changes.extend(
            added
                .rulings
                .iter()
                .map(|(dimension, values)| Change::Speaks {
                    dimension: *dimension,
                    when: added.when.clone(),
                    values: *values,
                }),
        );
    }
    let edit = Edit { changes };
    in_order(before, &edit).then_some(edit)
}

/// Whether the clauses whose condition is another one still come after all that they read, and the
/// dimensions that are spoken on too.
fn in_order(ruleset: &Ruleset, edit: &Edit) -> bool {
    let place = |step: Step| ruleset.order.iter().position(|other| *other == step);
    edit.changes.iter().all(|change| {
        let (step, when) = match change {
            Change::When { clause, when } => (Step::Clause(*clause), when),
            Change::Speaks {
                dimension, when, ..
            } => (Step::Dimension(*dimension), when),
            Change::Loses { .. } | Change::Prevails { .. } => return true,
        };
        let mut read = crate::logic::dimensions_read(when).into_iter();
        read.all(|dimension| place(Step::Dimension(dimension)) < place(step))
    })
}

fn by_id(ruleset: &Ruleset) -> BTreeMap<&str, ClauseId> {
    let clauses = ruleset.clauses.iter().enumerate();
    clauses
        .map(|(index, clause)| (clause.id.as_str(), ClauseId::new(index)))
        .collect()
}

/// A condition that holds nowhere.
fn nowhere(span: Span) -> Condition {
    Condition {
        kind: ConditionKind::Any(Vec::new()),
        span,
    }
}

/// The condition without where it is written.
fn bare(condition: &Condition) -> Condition {
    with(condition, &|_| None)
}

/// The condition with some parts in other words.
pub(super) fn replaced(
    condition: &Condition,
    other: &impl Fn(&Condition) -> Option<Condition>,
) -> Condition {
    with(condition, other)
}

fn with(condition: &Condition, other: &impl Fn(&Condition) -> Option<Condition>) -> Condition {
    if let Some(other) = other(condition) {
        return other;
    }
    let part = |part: &Condition| with(part, other);
    let parts = |parts: &[Condition]| parts.iter().map(part).collect::<Vec<_>>();
    let kind = match &condition.kind {
        ConditionKind::Not(inner) => ConditionKind::Not(Box::new(part(inner))),
        ConditionKind::NotTrue(inner) => ConditionKind::NotTrue(Box::new(part(inner))),
        ConditionKind::All(all) => ConditionKind::All(parts(all)),
        ConditionKind::Any(all) => ConditionKind::Any(parts(all)),
        ConditionKind::Count { least, most, of } => ConditionKind::Count {
            least: *least,
            most: *most,
            of: parts(of),
        },
        same @ (ConditionKind::Always
        | ConditionKind::Missing(_)
        | ConditionKind::Fact { .. }
        | ConditionKind::Ruling { .. }
        | ConditionKind::Term(_)) => same.clone(),
    };
    Condition {
        kind,
        span: Span::default(),
    }
}
