//! Loose term: a vague term whose narrow reading is not within its broad one.
//!
//! Question: is there a scenario in which the narrow reading is true and the broad one is not?

use super::finding::Finding;
use super::inquiry::Inquiry;
use super::words;
use crate::logic::{Formula, Mode, Scenario, is_true};
use crate::model::{Kind, Meaning, TermId};

/// Where the narrow reading is true and the broad one is not; `None` for a term with one meaning.
pub(super) fn question(inquiry: &Inquiry<'_, '_>, term: TermId) -> Option<Formula> {
    match &inquiry.ruleset[term].meaning {
        Meaning::Sharp(_) => None,
        Meaning::Vague { narrow, broad, .. } => Some(Formula::all([
            is_true(narrow, Mode::ACTUAL),
            is_true(broad, Mode::ACTUAL).negated(),
        ])),
    }
}

/// Puts it into words.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    term: TermId,
    witness: &Scenario,
    question: &Formula,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[term];
    let (spans, mentioned) = match &this.meaning {
        Meaning::Sharp(meaning) => (
            vec![meaning.span],
            inquiry.read_by(std::iter::once(meaning)),
        ),
        Meaning::Vague { narrow, broad, .. } => (
            vec![narrow.span, broad.span],
            inquiry.read_by([narrow, broad].into_iter()),
        ),
    };
    let description = inquiry.describe(question, witness, &mentioned, &[]);
    let headline = format!(
        "The narrow reading of `{}` reaches beyond its broad reading",
        this.name
    );
    let narrow = spans.first().copied().unwrap_or(this.span);
    let mut finding = words::finding(Kind::LooseTerm, headline, narrow, "the narrow reading");
    if let Some(broad) = spans.get(1) {
        finding
            .labels
            .push((*broad, "the broad reading does not hold there".to_owned()));
    }
    finding.term = Some(this.name.clone());
    finding.described(description).help(
        "Whatever the narrowest careful reading takes in, the broadest must take in as well. Widen the broad \
         reading, narrow the narrow one, or exchange them.",
    )
}
