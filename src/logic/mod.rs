//! What a ruleset means: scenarios, truth, rulings, and formulas that say so to a solver.
//!
//! This layer never sees YAML and never sees a solver.

mod chart;
mod diagram;
mod edit;
mod established;
mod evaluate;
mod formula;
mod layers;
mod measure;
mod pairing;
mod paths;
mod reach;
mod reads;
mod region;
mod replay;
mod scenario;
mod steps;
mod theory;
mod truth;
mod twin;

pub use chart::{
    Branch, Chart, Nearest, Neighbour, Optimal, Outlook, Protocol, Question, Sufficient, Tree,
    VerdictId,
};
pub use diagram::{Diagrams, Ready, Set, Stop, TooLarge};
pub use edit::{Change, Edit, EditId, Edits, Precedence};
pub use established::{Established, fact};
pub use evaluate::{
    Basis, Evaluator, Outcome, Ruling, Truth, combine, is_asked, is_valid, keeps_background,
    same_ruling,
};
pub use formula::Formula;
pub use layers::{Layer, Layers, Part, conditions};
pub use pairing::Pairing;
pub use paths::{Cells, Paths};
pub use reach::{CellBox, Reach, Want};
pub use reads::{
    attributes_asked_by, attributes_read, attributes_read_by_term, quantities_named, with_askers,
};
pub use region::{Atom, Line, Phrase, Region, Vocabulary, Wanted};
pub use replay::Replay;
pub use scenario::{Code, Count, Scenario, Written, highest_code, written};
pub use theory::{Name, Theory, Unasked, World};
pub use truth::{Mode, is_false, is_true};
pub use twin::Twin;

use crate::model::{Condition, ConditionKind, DimensionId};

/// Stack of a thread that follows conditions and definitions as deep as a ruleset nests them, in bytes:
/// address space, not memory, since pages of it are only taken when they are used.
pub(crate) const STACK: usize = 512 << 20;

/// The dimensions whose rulings a condition reads, without repetition, lowest first.
pub fn dimensions_read(condition: &Condition) -> Vec<DimensionId> {
    let mut found = Vec::new();
    condition.each_part(&mut |part| {
        if let ConditionKind::Ruling { dimension, .. } = &part.kind {
            found.push(*dimension);
        }
    });
    found.sort_unstable();
    found.dedup();
    found
}
