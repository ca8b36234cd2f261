//! Under which reading of a vague term a fault is there.
//!
//! A contradiction or a gap that shows only if officials read a term broadly (or only if they read it
//! narrowly) is a fault of another sort than one that is always there; the finding says so.

use super::finding::Finding;
use super::inquiry::Inquiry;
use crate::logic::{Formula, Scenario};
use crate::model::{AttributeId, Meaning, TermId, Test, ValueSet};
use crate::solve::Answer;

/// Says of a finding if its scenarios, those in which the formula holds, all need one reading of a
/// term. What stays open is not said.
pub(super) fn note(inquiry: &mut Inquiry<'_, '_>, finding: &mut Finding, formula: &Formula) {
    let Some(scenario) = finding.scenario.clone() else {
        return;
    };
    let needed: Vec<(TermId, bool)> = open_terms(inquiry, &scenario)
        .into_iter()
        .filter(|(_, reading, broad)| {
            let so = Formula::Holds(Test::OneOf {
                attribute: *reading,
                values: ValueSet::one(usize::from(*broad)),
            });
            let otherwise = Formula::all([formula.clone(), so.negated()]);
            inquiry.ask(&otherwise) == Answer::No
        })
        .map(|(term, _, broad)| (term, broad))
        .collect();
    for (term, broad) in &needed {
        let term = &inquiry.ruleset[*term];
        let which = if *broad { "broad" } else { "narrow" };
        let words = format!(" (only under the {which} reading of `{}`)", term.name);
        finding.headline.push_str(&words);
        let label = format!("only its {which} reading leads here");
        finding.labels.push((term.span, label));
    }
    if let [(term, _)] = needed.as_slice() {
        finding.term = Some(inquiry.ruleset[*term].name.clone());
    }
}

/// The terms that can be read either way in a scenario, and how each is read.
fn open_terms(inquiry: &Inquiry<'_, '_>, scenario: &Scenario) -> Vec<(TermId, AttributeId, bool)> {
    let terms = inquiry.ruleset.terms.iter().enumerate();
    terms
        .filter_map(|(index, term)| match &term.meaning {
            Meaning::Vague { reading, .. } => {
                let code = scenario.get(*reading)?;
                Some((TermId::new(index), *reading, code.0 != 0))
            }
            Meaning::Sharp(_) => None,
        })
        .collect()
}
