//! The findings that a committee knows and accepts.

use super::super::finding::{Finding, Verdict};
use crate::model::Ruleset;

/// Marks the findings that an entry of `accepted` covers; says which entries cover none.
pub(super) fn accept(
    ruleset: &Ruleset,
    findings: &mut [Finding],
    verdicts: &[Verdict],
) -> Vec<usize> {
    let mut idle = Vec::new();
    for (index, entry) in ruleset.accepted.iter().enumerate() {
        let mut used = false;
        for finding in findings
            .iter_mut()
            .filter(|finding| finding.kind == entry.finding)
        {
            let about = |id: &String| {
                finding
                    .clauses
                    .iter()
                    .any(|clause| ruleset[*clause].id == *id)
            };
            let fits = entry.clauses.iter().all(about)
                && same(
                    entry.dimension.as_ref(),
                    finding.dimension.map(|id| &ruleset[id].name),
                )
                && same(entry.principle.as_ref(), finding.principle.as_ref())
                && same(entry.attribute.as_ref(), finding.attribute.as_ref())
                && same(entry.term.as_ref(), finding.term.as_ref());
            if fits {
                used = true;
                finding.accepted.get_or_insert(index);
            }
        }
        let of_kind = verdicts
            .iter()
            .filter(|verdict| verdict.kind == entry.finding);
        let mut of_kind = of_kind.peekable();
        let looked_for = of_kind.peek().is_some();
        let all_told = of_kind.all(|verdict| !verdict.untold && !verdict.outcome.leaves_open());
        if !used && looked_for && all_told {
            idle.push(index);
        }
    }
    idle
}

/// Whether a finding has what an entry asks for; an entry that asks for nothing is content.
fn same(wanted: Option<&String>, found: Option<&String>) -> bool {
    wanted.is_none_or(|wanted| found == Some(wanted))
}
