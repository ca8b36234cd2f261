//! Records of verdicts that someone else can check, and the check of them.
//!
//! A verdict is a claim. `prove` writes down what it rests on: for "there is one" the scenario, for "there
//! is none" propositional clauses and their refutation. `recheck` takes nothing from the program that made the
//! record: it makes the clauses once more by rules of its own, replays the refutation with a checker
//! that shares no code with the solver, and puts the scenarios to the plain evaluator. It never sees
//! Z3. Neither knows files: a record is a list of names and texts.

pub mod dimacs;
mod facts;
mod manifest;
pub mod prove;
mod question;
pub mod recheck;

pub use manifest::{
    Claim, ClaimVerdict, FileRecord, Format, MANIFEST, Manifest, Method, NotRecorded, Refuted,
    Shown, Subject,
};
pub use question::{Asked, Question};

use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write;

/// The name of the file that lists the fingerprint of every other, in the form that `sha256sum -c` reads.
pub const SUMS: &str = "SHA256SUMS";

/// The files of a record: names and texts.
pub type Files = BTreeMap<String, String>;

/// The SHA-256 of some bytes, in hexadecimal.
pub fn digest(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        let _ = write!(text, "{byte:02x}");
    }
    text
}

/// The fingerprints of files, a line each.
fn sums(files: &Files) -> String {
    let lines = files.iter().filter(|(name, _)| *name != SUMS);
    lines.fold(String::new(), |mut listed, (name, text)| {
        let _ = writeln!(listed, "{}  {name}", digest(text.as_bytes()));
        listed
    })
}
