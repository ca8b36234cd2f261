//! What clauses are known by across editions, where numbers change hands.

use crate::model::Ruleset;
use crate::read::amendment::{Action, Change, Part};
use std::collections::{BTreeMap, BTreeSet};

/// For each id of a later edition that means another clause than it did before, what the clause is known
/// by: the id that it had, or for a new clause a name that no clause of the earlier edition has.
pub(super) type Earlier = BTreeMap<String, String>;

/// What clauses are known by: pairs of an id and the id that the clause had before, if it was there.
/// Numbers whose clause has moved away are no longer known by the clause that has taken them.
pub(super) fn earlier(
    before: &Ruleset,
    now: impl IntoIterator<Item = (String, Option<String>)>,
) -> Earlier {
    let now: Vec<(String, Option<String>)> = now.into_iter().collect();
    let held: BTreeSet<&str> = now.iter().filter_map(|(_, old)| old.as_deref()).collect();
    let known_by = |id: &str, old: Option<&str>| match old {
        Some(old) => old.to_owned(),
        None if held.contains(id) => unheard(before, id),
        None => id.to_owned(),
    };
    let all = now
        .iter()
        .map(|(id, old)| (id.clone(), known_by(id, old.as_deref())));
    all.filter(|(id, key)| id != key).collect()
}

/// A name that no clause has.
fn unheard(before: &Ruleset, id: &str) -> String {
    let mut name = format!("{id} (new)");
    while before.clauses.iter().any(|clause| clause.id == name) {
        name.push('\'');
    }
    name
}

/// The same after some changes to a ruleset.
pub(super) fn after_changes(before: &Ruleset, changes: &[&Change]) -> Earlier {
    let ids = before.clauses.iter().map(|clause| clause.id.clone());
    let mut now: Vec<(String, Option<String>)> = ids.map(|id| (id.clone(), Some(id))).collect();
    for change in changes.iter().filter(|change| change.part == Part::Clause) {
        let Some(name) = change.name.as_ref().map(|name| name.value.as_str()) else {
            continue;
        };
        let with_group = matches!(change.action, Action::Renumber | Action::Repeal);
        let below = |id: &str| -> Option<String> {
            let rest = id.strip_prefix(name)?;
            let meant = rest.is_empty() || with_group && rest.starts_with(['.', '(']);
            meant.then(|| rest.to_owned())
        };
        match (change.action, change.new_number()) {
            (Action::Insert, _) => now.push((name.to_owned(), None)),
            (Action::Repeal, _) => now.retain(|(id, _)| below(id).is_none()),
            (_, Some(to)) => {
                for (id, _) in &mut now {
                    if let Some(rest) = below(id) {
                        *id = format!("{to}{rest}");
                    }
                }
            }
            (_, None) => {}
        }
    }
    earlier(before, now)
}
