//! What a ruleset means: scenarios, truth, rulings, and formulas that say so to a solver.
//!
//! This layer never sees YAML and never sees a solver.

mod formula;
mod scenario;
mod theory;

pub use formula::Formula;
pub use scenario::{Code, Count, Scenario, Written, written};
pub use theory::{Name, Unasked, World};
