//! What several tests share. Each test crate uses a part of it.
#![allow(dead_code, reason = "each test crate uses its part")]

pub(crate) mod lines;
pub(crate) mod random_amendment;
pub(crate) mod random_ruleset;
