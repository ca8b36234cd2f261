//! YAML and condition text into drafts with places.
//!
//! Reading collects every problem of a file instead of stopping at the first, and refuses to know
//! what names mean: that is for `model`.

pub mod draft;
