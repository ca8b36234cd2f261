//! Small changes of a ruleset, as worlds to compare it with.
//!
//! A question about a change ("would any ruling be another without these words?") needs the ruleset
//! twice. An edit says only what differs, so that everything it cannot touch is shared. Both the
//! definitions and the plain evaluator read edits by themselves. An edit refuses to know how it would
//! be written in a file.

use super::World;
use crate::model::{ClauseId, Condition, DimensionId, Step, ValueSet};
use std::borrow::Cow;
use std::cell::RefCell;
use std::rc::Rc;

/// An edit that a [`Theory`](super::Theory) knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EditId(u32);

impl EditId {
    /// Which of the edits it is, counted from 1.
    pub fn number(self) -> u32 {
        self.0.saturating_add(1)
    }
}

/// How one clause stands before another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Precedence {
    /// Its ruling stands and the other's does not, on dimensions that both rule on.
    Prevails,
    /// The other is off altogether.
    Disapplies,
}

/// One thing that is different.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// The clause's condition is this one. It reads no ruling that is worked out after the clause.
    When {
        /// The clause.
        clause: ClauseId,
        /// Its condition, opening words and exceptions included.
        when: Condition,
    },
    /// One clause no longer stands before another, whichever of them said so.
    Loses {
        /// Which relation.
        precedence: Precedence,
        /// The clause that stood before.
        first: ClauseId,
        /// The clause that stood behind.
        then: ClauseId,
    },
    /// One clause prevails over another. The other does not come before it in any way.
    Prevails {
        /// The clause that prevails.
        first: ClauseId,
        /// The clause that yields.
        then: ClauseId,
    },
    /// A further clause rules on a dimension, under no precedence.
    Speaks {
        /// The dimension.
        dimension: DimensionId,
        /// Where it is met; reads no ruling that is worked out after the dimension.
        when: Condition,
        /// What it allows, one value at least.
        values: ValueSet,
    },
}

/// Changes that are made together.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Edit {
    /// The changes; of two conditions for one clause the first counts.
    pub changes: Vec<Change>,
}

impl From<Change> for Edit {
    fn from(change: Change) -> Edit {
        Edit {
            changes: vec![change],
        }
    }
}

impl Edit {
    /// The clause's condition, where it is another one.
    pub fn when(&self, of: ClauseId) -> Option<&Condition> {
        self.changes.iter().find_map(|change| match change {
            Change::When { clause, when } if *clause == of => Some(when),
            _ => None,
        })
    }

    /// The clauses whose condition is another one.
    pub fn clauses(&self) -> impl Iterator<Item = ClauseId> {
        self.changes.iter().filter_map(|change| match change {
            Change::When { clause, .. } => Some(*clause),
            _ => None,
        })
    }

    /// What further clauses say on a dimension: where, and which values.
    pub fn speaks(&self, on: DimensionId) -> impl Iterator<Item = (&Condition, ValueSet)> {
        self.changes.iter().filter_map(move |change| match change {
            Change::Speaks {
                dimension,
                when,
                values,
            } if *dimension == on => Some((when, *values)),
            _ => None,
        })
    }

    /// The steps that a change touches directly; whatever does not depend on one of them is as it was.
    pub fn origins(&self) -> impl Iterator<Item = Step> {
        self.changes.iter().map(|change| match change {
            Change::When { clause, .. } => Step::Clause(*clause),
            Change::Loses { then, .. } | Change::Prevails { then, .. } => Step::Clause(*then),
            Change::Speaks { dimension, .. } => Step::Dimension(*dimension),
        })
    }

    /// The clauses that stand before one, given those that do in the ruleset as it stands.
    pub(super) fn before<'s>(
        &self,
        wanted: Precedence,
        behind: ClauseId,
        stated: &'s [ClauseId],
    ) -> Cow<'s, [ClauseId]> {
        let mut all = Cow::Borrowed(stated);
        for change in &self.changes {
            match change {
                Change::Loses {
                    precedence,
                    first,
                    then,
                } if *precedence == wanted && *then == behind => {
                    all.to_mut().retain(|other| other != first);
                }
                Change::Prevails { first, then }
                    if wanted == Precedence::Prevails
                        && *then == behind
                        && !all.contains(first) =>
                {
                    all.to_mut().push(*first);
                }
                _ => {}
            }
        }
        all
    }
}

/// The edits that some questions are about; clones share them.
#[derive(Clone, Debug, Default)]
pub struct Edits(Rc<RefCell<Vec<Rc<Edit>>>>);

impl Edits {
    /// Takes an edit; the world it makes is known to all clones from now on.
    pub fn world(&self, edit: Edit) -> World {
        let mut known = self.0.borrow_mut();
        let id = EditId(u32::try_from(known.len()).unwrap_or(u32::MAX));
        known.push(Rc::new(edit));
        World::Edited(id)
    }

    /// An edit that was taken.
    pub fn get(&self, id: EditId) -> Option<Rc<Edit>> {
        self.0.borrow().get(id.0 as usize).cloned()
    }
}
