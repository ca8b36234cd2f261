//! What rests on what in a ruleset, and what a thing can change.
//!
//! The graph says what is written: which clause reads which attribute, which clause displaces which.
//! Most ways through it carry nothing. Nothing here knows how it is printed or drawn.

mod build;
mod dependents;
mod network;

pub use dependents::Dependent;
pub use network::{CaseBook, Edge, Graph, Node, NodeId, Relation, Thing};
