//! What rests on what in a ruleset, and what a thing can change.
//!
//! The graph says what is written: which clause reads which attribute, which clause displaces which.
//! Most ways through it carry nothing, so what really changes is asked apart, and proved
//! ([`affected()`]). Nothing here knows how it is printed or drawn.

mod affected;
mod amounts;
mod build;
mod dependents;
mod effect;
mod naming;
mod network;
mod overlaps;
mod vary;

pub use affected::{Affected, Change, Effect, affected};
pub use dependents::Dependent;
pub use naming::{Unnamed, named};
pub use network::{CaseBook, Edge, Graph, Node, NodeId, Relation, Thing};
pub use overlaps::{Overlaps, overlaps};
