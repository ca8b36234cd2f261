//! Incidents that somebody tells: the facts of one, as far as they are established.
//!
//! A scenario file and the facts of a call become [`Established`](crate::logic::Established) facts,
//! or problems at the words that are wrong; what the ruleset says about them becomes a [`Decision`].
//! This module refuses to know where files lie and how anything is printed.

mod by_solver;
mod decide;
mod explain;
mod incident;
mod possible;
mod value;
mod when;

pub use decide::{
    Decision, Enough, Nearby, Next, NoSuchIncident, OnDimension, Other, Possible, Whole, announced,
    chart, decide,
};
pub use explain::{Given, Reason, reasons};
pub use incident::{Incident, incident};
pub use possible::{Standing, standing};
pub use value::{facts, value};
pub use when::{Case, When, when};

#[cfg(test)]
mod tests;
