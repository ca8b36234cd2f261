//! No effect: the clause is in force somewhere, but no announced ruling would be another without it.
//!
//! Question: is there a scenario in which some announced ruling differs between the ruleset and the
//! ruleset without the clause? Intermediate dimensions count only through what reads them.

use super::asked::Turning;
use super::finding::{Finding, General};
use super::inquiry::Inquiry;
use super::words;
use crate::logic::{Formula, Name, Scenario, World};
use crate::model::{ClauseId, Kind, Severity};

/// Where an announced ruling differs without the clause.
pub(super) fn question(inquiry: &Inquiry<'_, '_>, clause: ClauseId) -> Formula {
    // Taking a clause away changes nothing where it is not met; so only what is met beside it matters.
    Turning::on_clause(&inquiry.theory, clause).formula(&inquiry.theory)
}

/// Puts it into words. `counts` is a scenario in which the clause counts.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    counts: &Scenario,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let restates = !this.rulings.is_empty()
        && this
            .rulings
            .iter()
            .all(|(dimension, values)| ruleset[*dimension].otherwise == Some(*values));
    let headline = if restates {
        format!("Clause {} only says what holds without it", this.id)
    } else {
        format!(
            "No ruling would change if clause {} were struck out",
            this.id
        )
    };
    let in_force: Formula = Name::InForce(World::Actual, clause).into();
    let mentioned = inquiry.mentioned(&[clause]);
    let mut description = inquiry.describe(&in_force, counts, &mentioned, &[clause]);
    // The finding holds everywhere; the scenario only shows the clause at work.
    description.general = General::default();
    let label = if restates {
        "rules what `otherwise` already gives"
    } else {
        "changes nothing"
    };
    let mut finding =
        words::finding(Kind::NoEffect, headline, this.id_span, label).of_clauses(&[clause]);
    finding.dimension = match this.rulings.as_slice() {
        [(dimension, _)] => Some(*dimension),
        _ => None,
    };
    let outcome = inquiry.outcome(&description.scenario);
    let beside = outcome.standing_beside(clause, ruleset);
    if restates {
        finding.severity = Severity::Note;
        finding.help = Some("It does no harm; keep it if readers want to see it said.".to_owned());
    } else {
        let same = match beside.first() {
            Some(other) => format!(
                " In the scenario shown, clause {} already rules so.",
                ruleset[*other].id
            ),
            None => String::new(),
        };
        finding.help = Some(format!(
            "Strike it out, or find out what it was meant to change.{same}"
        ));
    }
    finding.described(description)
}
