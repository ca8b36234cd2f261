//! What was looked for and has nothing to show, told to people.

use super::Teller;
use crate::labels;
use crate::model::ClauseId;
use crate::narration::clauses_named;
use crate::report::leaf::Leaf;
use crate::report::text::capital;
use crate::report::words::counted;
use crate::scenario::{NoPair, Nothing, PartPlace};
use std::collections::BTreeMap;

/// Tells what was looked for and has nothing to show.
pub(super) fn nothing(teller: &Teller<'_>, page: &mut Vec<Leaf>) {
    let ruleset = teller.ruleset;
    let mut openings: BTreeMap<String, Vec<ClauseId>> = BTreeMap::new();
    let mut lines: Vec<String> = Vec::new();
    let mut open = 0usize;
    for it in &teller.told.nothing {
        match it {
            Nothing::Part(clause, index, reason) => {
                let part = teller
                    .told
                    .parts
                    .get(clause)
                    .and_then(|parts| parts.parts.get(*index));
                let opening = part.is_some_and(|part| part.place == PartPlace::Opening);
                let words = teller.part(*clause, *index);
                match reason {
                    NoPair::Surplus if opening => openings.entry(words).or_default().push(*clause),
                    NoPair::Surplus => lines.push(format!(
                        "Clause {}: {words} is surplus. The clause is met in the same incidents without it; that is proved.",
                        ruleset[*clause].id
                    )),
                    NoPair::NothingTurnsOnIt => lines.push(format!(
                        "Clause {}: no announced ruling turns on {words}, in no pair of incidents; that is proved.",
                        ruleset[*clause].id
                    )),
                    NoPair::Undecided(_) => open += 1,
                }
            }
            Nothing::Clause(clause, reasons) => {
                if reasons
                    .iter()
                    .any(|reason| matches!(reason, NoPair::Undecided(_)))
                {
                    open += 1;
                } else {
                    lines.push(format!(
                        "Clause {}: no announced ruling turns on it, in no pair of incidents; that is proved.",
                        ruleset[*clause].id
                    ));
                }
            }
            Nothing::AlwaysMet(clause) => lines.push(format!(
                "Clause {} is always met; there is no incident without it.",
                ruleset[*clause].id
            )),
            Nothing::Threshold(id, at) => lines.push(format!(
                "{}: no announced ruling turns at {}.",
                capital(&labels::attribute_name(ruleset, &ruleset[*id])),
                labels::fact(ruleset, *id, *at)
            )),
            Nothing::Grey(term) => lines.push(format!(
                "\"{}\": the rulings are the same however it is read.",
                labels::called(ruleset, ruleset[*term].label.as_ref(), &ruleset[*term].name)
            )),
            Nothing::Open(..) => open += 1,
        }
    }
    for (words, clauses) in openings {
        lines.push(format!(
            "{words}, which opens a group, goes without saying in {}.",
            clauses_named(ruleset, &clauses)
        ));
    }
    if open > 0 {
        lines.push(format!(
            "{} stayed undecided.",
            capital(&counted(open, "question"))
        ));
    }
    if !lines.is_empty() {
        page.push(Leaf::Heading("Nothing to show".to_owned()));
        page.push(Leaf::List(lines));
    }
}
