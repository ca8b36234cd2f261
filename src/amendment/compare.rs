//! Two whole editions beside each other.
//!
//! Which clauses are the same in both is judged by what they say, numbers included.

use super::matching::matched;
use super::numbers::Earlier;
use super::units::Units;
use super::vet::{Compared, Subject, Vetted};
use crate::analysis;
use crate::load::Loaded;
use crate::model::{Clause, Ruleset};
use std::collections::BTreeSet;

/// Compares two editions of a ruleset.
pub fn compare(before: &Loaded, after: &Loaded, options: &analysis::Options<'_>) -> Vetted {
    let (earlier, matches) = matched(&before.ruleset, &after.ruleset);
    let touched = touched(&before.ruleset, &after.ruleset, &earlier);
    let compared = Compared {
        subject: Subject::Edition,
        before,
        after,
        drafts: Vec::new(),
        units: Units::default(),
        scope: None,
        claims: false,
        earlier,
        matches,
        touched,
    };
    compared.vetted(options)
}

/// The clauses of both editions that don't stand there in the same words, by their earlier ids.
fn touched(before: &Ruleset, after: &Ruleset, earlier: &Earlier) -> BTreeSet<String> {
    let words = |ruleset: &Ruleset, clause: &Clause, id: &str| -> String {
        let words = ruleset.sources.slice(clause.span);
        let own = ruleset.sources.slice(clause.id_span);
        let words = words.replacen(own, id, 1);
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let mut touched = BTreeSet::new();
    for clause in &after.clauses {
        let key = earlier.get(&clause.id).unwrap_or(&clause.id);
        let old = before.clauses.iter().find(|it| it.id == *key);
        if old.is_some_and(|old| words(before, old, key) != words(after, clause, key)) {
            touched.insert(key.clone());
        }
    }
    touched
}
