//! The manifest of a record: what is claimed, how each claim was settled, and the fingerprint of every
//! file.

use super::question::Asked;
use super::recheck::Head;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The name of the manifest's file.
pub const MANIFEST: &str = "manifest.json";

/// Everything that a record claims of a ruleset.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    /// The format.
    pub format: Format,
    /// Of which ruleset.
    pub ruleset: Subject,
    /// The program that made the record, with its version.
    pub made_by: String,
    /// What is claimed, a verdict of the check each.
    pub claims: Vec<Claim>,
    /// Verdicts that have no record, so that nothing is claimed silently.
    pub not_recorded: Vec<NotRecorded>,
    /// Words that belong wherever scenarios and rulings are shown to people.
    pub caution: Vec<String>,
}

/// The format of a manifest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Format {
    /// The first.
    #[serde(rename = "evenhand/proof/1")]
    Proof1,
}

/// The ruleset that a record is about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Subject {
    /// Its title.
    pub title: String,
    /// Its edition, empty where it gives none.
    pub edition: String,
    /// The name of its file, without folders.
    pub file: String,
    /// The SHA-256 of the file as it was read, in hexadecimal.
    pub sha256: String,
}

/// A file of the record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FileRecord {
    /// Its name, in the folder of the manifest.
    pub file: String,
    /// The SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}

/// One claim: a verdict of the check.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Claim {
    /// The name that its files begin with.
    pub id: String,
    /// The kind of finding.
    pub kind: String,
    /// The dimension, where the kind is asked by dimension.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dimension: Option<String>,
    /// The principle, where the kind is asked by principle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub principle: Option<String>,
    /// What is claimed.
    pub verdict: ClaimVerdict,
    /// What is claimed, in words.
    pub says: String,
    /// Questions that no scenario answers, each with what refutes it.
    pub none: Vec<Refuted>,
    /// The file with the questions that a scenario answers, and the scenarios.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scenarios: Option<FileRecord>,
    /// All questions of the claim for any solver, as SMT-LIB 2.6; none where there is nothing to ask.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub smtlib: Option<FileRecord>,
}

impl Claim {
    /// What it is about.
    pub(super) fn head(&self) -> Head {
        Head {
            kind: self.kind.clone(),
            dimension: self.dimension.clone(),
            principle: self.principle.clone(),
        }
    }
}

impl NotRecorded {
    /// What it is about.
    pub(super) fn head(&self) -> Head {
        Head {
            kind: self.kind.clone(),
            dimension: self.dimension.clone(),
            principle: self.principle.clone(),
        }
    }
}

/// What a claim says of its kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ClaimVerdict {
    /// There is none.
    Proved,
    /// There is at least one.
    Found,
}

/// A question that no scenario answers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Refuted {
    /// The question.
    pub question: Asked,
    /// Is there a scenario in which ... ? The same in words.
    pub words: String,
    /// How it was refuted.
    pub by: Method,
}

/// How a question was refuted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "method", rename_all = "lowercase", deny_unknown_fields)]
pub enum Method {
    /// The form of the ruleset leaves no room for it: nothing has to be worked out.
    Form,
    /// As propositional clauses with a refutation that a checker replays.
    Clauses {
        /// The clauses, in DIMACS CNF.
        clauses: FileRecord,
        /// What the variables are called.
        words: FileRecord,
        /// The refutation, in DRAT.
        refutation: FileRecord,
    },
    /// By solvers, each of which answered that there is none: to be taken on trust.
    Solvers {
        /// The solvers that answered.
        solvers: Vec<String>,
    },
}

/// A question that a scenario answers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Shown {
    /// The question.
    pub question: Asked,
    /// The scenario: the value of each attribute that is asked, and how each term that is open to
    /// reading is read (true: broadly).
    pub facts: BTreeMap<String, serde_json::Value>,
    /// The second scenario, where the question compares two.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second: Option<BTreeMap<String, serde_json::Value>>,
}

/// A verdict without a record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NotRecorded {
    /// The kind of finding.
    pub kind: String,
    /// The dimension, where the kind is asked by dimension.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dimension: Option<String>,
    /// The principle, where the kind is asked by principle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub principle: Option<String>,
    /// What the check said.
    pub verdict: String,
    /// Why there is no record.
    pub why: String,
}
