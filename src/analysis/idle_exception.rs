//! Idle exception: a `notwithstanding`, `subject_to`, `disapplies` or `unless` that changes no ruling.
//!
//! Question: is there a scenario in which some announced ruling differs between the ruleset and the
//! ruleset without it? A reference to a group is looked at as a whole, as it is written: it is idle
//! only where none of the clauses that it means makes a difference. What two clauses both say of each
//! other (one `notwithstanding`, the other `subject_to`) is taken away on both sides. Nothing is told
//! of clauses that are impossible, displaced or without effect.

use super::asked::Turning;
use super::changes::{self, Rewording};
use super::finding::Finding;
use super::inquiry::Inquiry;
use super::precedent::Turned;
use super::seen::Seen;
use super::surplus_words::turned;
use super::{parts, words};
use crate::logic::{Change, Edit, Formula, Name, Precedence, Scenario, Want, World, is_valid};
use crate::model::{ClauseId, Kind, Reference, Wording};
use crate::solve::Answer;
use fixedbitset::FixedBitSet;
use std::collections::BTreeSet;

/// The most clauses of a group that are tried without the solver.
const MOST_TRIED: usize = 64;

/// The ruleset without a reference.
pub(super) fn edit(clause: ClauseId, reference: &Reference) -> Edit {
    let changes = reference.others.iter().map(|other| {
        let (precedence, first, then) = match reference.wording {
            Wording::Notwithstanding => (Precedence::Prevails, clause, *other),
            Wording::SubjectTo => (Precedence::Prevails, *other, clause),
            Wording::Disapplies => (Precedence::Disapplies, clause, *other),
        };
        Change::Loses {
            precedence,
            first,
            then,
        }
    });
    Edit {
        changes: changes.collect(),
    }
}

/// Whether some ruling turns on a reference of a clause. `seen` are all clauses', `idle` the clauses
/// of which nothing is told; `None` where the reference means no other.
pub(super) fn settle(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    reference: &Reference,
    seen: &[Seen],
    idle: &FixedBitSet,
) -> Option<Answer> {
    if reference
        .others
        .iter()
        .all(|other| idle.contains(other.index()))
    {
        return None;
    }
    let edit = edit(clause, reference);
    let precedent = inquiry.precedent();
    if let Some(shown) = precedent.and_then(|it| it.turned_on_reference(clause, reference))
        && is_valid(inquiry.ruleset, shown)
        && changes::differs(inquiry, &edit, shown)
    {
        return Some(Answer::Yes(shown.clone()));
    }
    if let Some(found) = look(inquiry, clause, reference, seen, &edit) {
        return Some(Answer::Yes(found));
    }
    let among = inquiry.met_beside(clause);
    Some(inquiry.ask_edited(edit, among, |theory, world| {
        Turning::on_reference(theory, clause, world).formula(theory)
    }))
}

fn look(
    inquiry: &Inquiry<'_, '_>,
    clause: ClauseId,
    reference: &Reference,
    seen: &[Seen],
    edit: &Edit,
) -> Option<Scenario> {
    let tried = || reference.others.iter().copied().take(MOST_TRIED);
    let known = std::iter::once(clause).chain(tried());
    let known = known.filter_map(|id| seen.get(id.index()));
    let mut known = known.flat_map(|seen| seen.matters.iter().chain(&seen.counts));
    if let Some(found) = known.find(|scenario| changes::differs(inquiry, edit, scenario)) {
        return Some(found.clone());
    }
    let when = |id: ClauseId| &inquiry.ruleset[id].when;
    tried().find_map(|other| {
        let behind = match reference.wording {
            Wording::Notwithstanding | Wording::Disapplies => other,
            Wording::SubjectTo => clause,
        };
        let both = [(when(clause), Want::True), (when(other), Want::True)];
        changes::search(inquiry, edit, behind, &both, &|as_it_stands, edited| {
            !as_it_stands.announces_the_same(edited, inquiry.ruleset)
        })
    })
}

/// Whether some ruling turns on the `unless` of a clause; `None` where it has none.
pub(super) fn settle_unless(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    seen: &Seen,
) -> Option<Answer> {
    let this = &inquiry.ruleset[clause];
    let unless = parts::own_unless(this)?;
    let precedent = inquiry.precedent();
    let turned = precedent.and_then(|it| it.turned_on(clause, &unless.path));
    if let Some(answer) = turned.and_then(Turned::answer) {
        return Some(answer);
    }
    let gone = BTreeSet::from([unless.path.clone()]);
    let rewording = Rewording {
        clause,
        old: &this.when,
        new: parts::without(&this.when, &gone),
    };
    let shown = turned.and_then(Turned::shown);
    let known: Vec<&Scenario> = seen.matters.iter().chain(&seen.counts).collect();
    Some(rewording.settle(inquiry, shown, &known, unless.condition))
}

/// The most clauses that a finding names besides its own.
const MOST_NAMED: usize = 12;

/// Puts an idle reference into words.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    clause: ClauseId,
    reference: &Reference,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let key = reference.wording.key();
    let written = ruleset.sources.slice(reference.span);
    let written = written.trim_matches(['"', '\'']);
    let headline = format!("Clause {}: `{key}` {written} changes no ruling", this.id);
    let mut finding = words::finding(
        Kind::IdleException,
        headline,
        reference.span,
        "no ruling turns on this",
    );
    let mut clauses = vec![clause];
    if reference.others.len() <= MOST_NAMED {
        clauses.extend(&reference.others);
    }
    finding = finding.of_clauses(&clauses);
    let shares_dimension = |other: &ClauseId| {
        let mut rulings = this.rulings.iter();
        rulings.any(|(dimension, _)| ruleset[*other].ruling_on(*dimension).is_some())
    };
    let prevails = reference.wording != Wording::Disapplies;
    let why = if prevails && !reference.others.iter().any(shares_dimension) {
        "They rule on no dimension in common, so neither ever yields to the other.".to_owned()
    } else {
        let others = reference.others.iter();
        let met = Formula::any(others.map(|other| Name::Met(World::Actual, *other).into()));
        let question = Formula::all([Name::Met(World::Actual, clause).into(), met]);
        match inquiry.ask(&question) {
            Answer::No => "They are never met together.".to_owned(),
            Answer::Yes(scenario) => {
                let mentioned = inquiry.mentioned(&clauses);
                let description = inquiry.describe(&question, &scenario, &mentioned, &[]);
                finding.scenario = Some(description.scenario);
                "Where both are met, as in the scenario shown, the rulings are the same without it."
                    .to_owned()
            }
            Answer::Undecided(_) => String::new(),
        }
    };
    finding.help(
        format!("{why} Strike it out, or find out what it was meant to except.")
            .trim_start()
            .to_owned(),
    )
}

/// Puts an idle `unless` into words.
pub(super) fn report_unless(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId) -> Option<Finding> {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let span = this.unless_span?;
    let unless = parts::own_unless(this)?;
    let words = words::quoted(ruleset, span).map_or_else(String::new, |words| format!(" {words}"));
    let headline = format!("Clause {}: `unless`{words} changes no ruling", this.id);
    let label = "this exception excepts nothing that would be ruled otherwise";
    let mut finding =
        words::finding(Kind::IdleException, headline, span, label).of_clauses(&[clause]);
    let gone = BTreeSet::from([unless.path]);
    let why = match turned(inquiry, clause, &parts::without(&this.when, &gone)) {
        None => "Wherever the rest of the clause holds, the exception does not.",
        Some((scenario, _)) => {
            finding.scenario = Some(scenario);
            "Without it the clause would also be met in the scenario shown, but every ruling there stays as it is."
        }
    };
    Some(finding.help(format!(
        "{why} Strike it out, or find out what it was meant to except."
    )))
}
