//! Two whole editions beside each other.
//!
//! Clauses are matched by their ids. A clause whose id only one edition has is matched, where there is
//! just one such, to a clause of the other that says the same under another id: in the same words, or
//! under the same condition with the same ruling.

use super::units::Units;
use super::vet::{Compared, Subject, Vetted};
use crate::analysis;
use crate::load::Loaded;
use crate::model::{Clause, ClauseId, Ruleset};
use std::collections::{BTreeMap, BTreeSet};

/// Compares two editions of a ruleset.
pub fn compare(before: &Loaded, after: &Loaded, options: &analysis::Options<'_>) -> Vetted {
    let earlier = renumbered(&before.ruleset, &after.ruleset);
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
        touched,
    };
    compared.vetted(options)
}

/// For ids that only the later edition has, the ids that the same clauses had in the earlier one.
fn renumbered(before: &Ruleset, after: &Ruleset) -> BTreeMap<String, String> {
    let lone = |one: &Ruleset, other: &Ruleset| -> Vec<ClauseId> {
        let ids: BTreeSet<&str> = other.clauses.iter().map(|it| it.id.as_str()).collect();
        let all = one.clauses.iter().enumerate();
        let lone = all.filter(|(_, clause)| !ids.contains(clause.id.as_str()));
        lone.map(|(index, _)| ClauseId::new(index)).collect()
    };
    let (gone, new) = (lone(before, after), lone(after, before));
    let mut found = BTreeMap::new();
    let mut taken = BTreeSet::new();
    for alike in [
        same_words as fn(&Ruleset, &Clause) -> Option<String>,
        same_meaning,
    ] {
        let mut by_sign: BTreeMap<String, [Vec<ClauseId>; 2]> = BTreeMap::new();
        for (side, (ruleset, clauses)) in [(before, &gone), (after, &new)].into_iter().enumerate() {
            for clause in clauses.iter().filter(|id| !taken.contains(&(side, **id))) {
                let lists =
                    alike(ruleset, &ruleset[*clause]).map(|sign| by_sign.entry(sign).or_default());
                if let Some(list) = lists.and_then(|lists| lists.get_mut(side)) {
                    list.push(*clause);
                }
            }
        }
        for [old, new] in by_sign.into_values() {
            if let ([old], [new]) = (old.as_slice(), new.as_slice()) {
                found.insert(after[*new].id.clone(), before[*old].id.clone());
                taken.extend([(0, *old), (1, *new)]);
            }
        }
    }
    found
}

/// A clause by its published wording.
fn same_words(_: &Ruleset, clause: &Clause) -> Option<String> {
    let text = clause.text.as_ref()?;
    Some(format!("{:?}", text.by_language))
}

/// A clause by what it says where: the words of its condition, and its ruling by name.
fn same_meaning(ruleset: &Ruleset, clause: &Clause) -> Option<String> {
    if clause.when_span == clause.id_span {
        return None;
    }
    let words = ruleset.sources.slice(clause.when_span).split_whitespace();
    let words: Vec<&str> = words.collect();
    let rulings: Vec<String> = clause
        .rulings
        .iter()
        .map(|(dimension, values)| {
            let dimension = &ruleset[*dimension];
            let values = values
                .iter()
                .filter_map(|value| dimension.values.get(value));
            let values: Vec<&str> = values.map(|value| value.name.as_str()).collect();
            format!("{}: {values:?}", dimension.name)
        })
        .collect();
    Some(format!("{} {rulings:?}", words.join(" ")))
}

/// The clauses of both editions that don't stand there in the same words, by their earlier ids.
fn touched(
    before: &Ruleset,
    after: &Ruleset,
    earlier: &BTreeMap<String, String>,
) -> BTreeSet<String> {
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
