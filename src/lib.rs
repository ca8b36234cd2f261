//! evenhand checks the rulebooks of sport.
//!
//! A ruleset is read, resolved into a model, turned into logic, put to a solver, analysed and
//! reported; the modules stand in that order and none uses one that comes after it.

pub mod amendment;
pub mod analysis;
pub mod cases;
pub mod cli;
pub mod graph;
pub mod labels;
pub mod load;
pub mod logic;
pub mod model;
pub mod narration;
pub mod problem;
pub mod proof;
pub mod quiz;
pub mod read;
pub mod report;
pub mod scenario;
pub mod solve;
pub mod source;
