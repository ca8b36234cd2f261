//! The draft of a case book: incidents with the rulings that officials gave.

use super::{FactDraft, FactValueDraft, Words};
use crate::source::Span;

/// A case book as written.
#[derive(Clone, Debug)]
pub struct CaseBookDraft {
    /// The cases, in the order of the file.
    pub cases: Vec<CaseDraft>,
}

/// One case.
#[derive(Clone, Debug)]
pub struct CaseDraft {
    /// `id:`, by which reports name it.
    pub id: Words,
    /// `date:`, free text.
    pub date: Option<Words>,
    /// `kind:`, which instrument it stands in, free text.
    pub kind: Option<Words>,
    /// `source:`, where it was taken from, free text.
    pub source: Option<Words>,
    /// `note:`, free text.
    pub note: Option<Words>,
    /// What was found and ruled.
    pub found: FoundDraft,
    /// `rulings_by:`, what each of several officials found and ruled, by the name that each has.
    pub officials: Vec<(Words, FoundDraft)>,
    /// The whole case.
    pub span: Span,
}

/// What was found and ruled.
#[derive(Clone, Debug, Default)]
pub struct FoundDraft {
    /// `facts:`
    pub facts: Vec<FactDraft>,
    /// `ruled:`, the name of a dimension with what was ruled.
    pub ruled: Vec<(Words, FactValueDraft)>,
    /// `clauses:`, the ids of the clauses that the ruling cited.
    pub clauses: Vec<Words>,
}
