//! Left to discretion: the text leaves several rulings open.
//!
//! Question: is there a scenario in which a dimension's ruling may come out as more than one value?
//! One finding a dimension. Only `may_be` can bring it about, so a dimension without one is free of it
//! by its form; where all may be applied together, the ruling is a set and nothing is left open.

use super::finding::Finding;
use super::inquiry::Inquiry;
use super::words;
use crate::logic::{Formula, Name, Scenario, World};
use crate::model::{ClauseId, DimensionId, Kind, WhenSeveral};

/// The clauses that leave a choice on the dimension; none where the ruling is a set anyway.
pub(super) fn choosers(inquiry: &Inquiry<'_, '_>, dimension: DimensionId) -> Vec<ClauseId> {
    if inquiry.ruleset[dimension].when_several == WhenSeveral::AllApply {
        return Vec::new();
    }
    let leaves_a_choice = |clause: &ClauseId| {
        inquiry.ruleset[*clause]
            .ruling_on(dimension)
            .is_some_and(|values| values.len() > 1)
    };
    inquiry
        .theory
        .speakers(dimension)
        .iter()
        .copied()
        .filter(leaves_a_choice)
        .collect()
}

/// Where more than one value is open and a ruling of one of these clauses stands.
pub(super) fn question(
    inquiry: &Inquiry<'_, '_>,
    dimension: DimensionId,
    clauses: &[ClauseId],
) -> Formula {
    let values = 0..inquiry.ruleset[dimension].values.len();
    let allowed = values.map(|value| {
        Formula::from(Name::Allowed(
            World::Actual,
            dimension,
            u8::try_from(value).unwrap_or(u8::MAX),
        ))
    });
    let standing = clauses
        .iter()
        .map(|clause| Name::Stands(World::Actual, *clause, dimension).into());
    Formula::all([
        Formula::at_least(2, allowed.collect()),
        Formula::any(standing),
    ])
}

/// Puts it into words. `clauses` are those that leave a choice somewhere.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    dimension: DimensionId,
    clauses: &[ClauseId],
    witness: &Scenario,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let question = question(inquiry, dimension, clauses);
    let mentioned = inquiry.mentioned(clauses);
    let description = inquiry.describe(&question, witness, &mentioned, clauses);
    let name = &ruleset[dimension].name;
    let verb = if clauses.len() == 1 {
        "leaves"
    } else {
        "leave"
    };
    let headline = format!(
        "{} {verb} {name} to the official's discretion",
        words::capital(&words::clauses(ruleset, clauses))
    );
    let mut labels = clauses.iter().map(|clause| {
        let values = ruleset[*clause].ruling_on(dimension).unwrap_or_default();
        (
            ruleset[*clause].ruling_span,
            format!(
                "{}, as the official sees fit",
                words::values(ruleset, dimension, values)
            ),
        )
    });
    let (span, label) = labels
        .next()
        .unwrap_or((ruleset[dimension].span, String::new()));
    let mut finding =
        words::finding(Kind::LeftToDiscretion, headline, span, label).of_clauses(clauses);
    finding.labels.extend(labels);
    finding.dimension = Some(dimension);
    finding.rulings = clauses
        .iter()
        .filter_map(|clause| Some((*clause, ruleset[*clause].ruling_on(dimension)?)))
        .collect();
    finding
        .described(description)
        .help("That may be meant. If officials are to rule alike, say what they should weigh.")
}
