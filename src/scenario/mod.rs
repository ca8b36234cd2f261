//! Incidents that somebody tells: the facts of one, as far as they are established.
//!
//! A scenario file and the facts of a call become [`Established`](crate::logic::Established) facts,
//! or problems at the words that are wrong. This module refuses to know where files lie and how
//! anything is printed.

mod incident;
mod possible;
mod value;

pub use incident::{Incident, incident};
pub use possible::{Standing, standing};
pub use value::{facts, value};

#[cfg(test)]
mod tests;
