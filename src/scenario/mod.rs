//! Incidents: those that somebody tells, and those that teach most about a ruleset.
//!
//! A scenario file and the facts of a call become [`Established`](crate::logic::Established) facts,
//! or problems at the words that are wrong; what the ruleset says about them becomes a [`Decision`].
//! [`telling`](telling()) finds contrast pairs, thresholds with their neighbours, clauses that
//! compete, grey zones, legal neighbours and covering sets. This module refuses to know where files
//! lie and how anything is printed.

mod asked;
mod by_solver;
mod decide;
mod explain;
mod incident;
pub(crate) mod possible;
mod value;
mod when;

pub use decide::{
    Decision, Enough, Nearby, Next, NoSuchIncident, OnDimension, Other, Possible, Whole, announced,
    chart, decide,
};
pub use explain::{Given, Reason, reasons};
mod competing;
mod cover;
pub mod covering;
mod grey;
mod legal;
mod pair;
mod parts;
mod study;
mod task;
mod telling;
mod threshold;

pub use asked::{Asked, Meant, meant};
pub(crate) use by_solver::{rulings, says};
pub use incident::{Incident, incident};
pub use possible::{Standing, standing};
pub use value::{facts, value};
pub(crate) use value::{quoted, split};
pub use when::{Case, When, when};

pub use competing::{Competing, Ending};
pub use cover::{Covering, Value};
pub use grey::Grey;
pub use legal::Legal;
pub use pair::{Contrast, NoPair, Pair, is_independent};
pub use parts::{Bearing, MOST_PARTS, Part, PartPlace, Parts};
pub(crate) use study::Study;
pub use study::Wanted;
pub use telling::{Entry, Nothing, Request, Sort, Telling, telling};
pub use threshold::Threshold;

#[cfg(test)]
mod tests;
