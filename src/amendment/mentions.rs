//! Texts that name a clause which a draft takes away or gives another number.

use super::numbers::Earlier;
use crate::model::{Clause, Reference, Ruleset, Text};
use crate::read::amendment::{Part, double_quoted};
use std::collections::BTreeMap;

/// A text that names a clause which is gone or has another number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mention {
    /// Whose text, or which of its references: `clause 9.1`, `term long_hold`,
    /// `clause 9.2 (notwithstanding)`.
    pub of: String,
    /// The number that it names.
    pub names: String,
    /// The number that the clause has now; `None` where it is gone.
    pub now: Option<String>,
}

/// What became of the clauses that no longer go by their ids: the id that each had, and the one that it
/// has now, if it is still there.
struct Moved<'a> {
    before: &'a Ruleset,
    after: &'a Ruleset,
    earlier: &'a Earlier,
    ids: Vec<(&'a str, Option<&'a str>)>,
}

impl<'a> Moved<'a> {
    fn new(before: &'a Ruleset, after: &'a Ruleset, earlier: &'a Earlier) -> Moved<'a> {
        let now: BTreeMap<&str, &str> = after
            .clauses
            .iter()
            .map(|clause| {
                let id = clause.id.as_str();
                (earlier.get(id).map_or(id, String::as_str), id)
            })
            .collect();
        let ids = before.clauses.iter().map(|clause| clause.id.as_str());
        let ids = ids.map(|id| (id, now.get(id).copied()));
        Moved {
            before,
            after,
            earlier,
            ids: ids.filter(|(id, now)| *now != Some(id)).collect(),
        }
    }

    /// The ids that some words name and that mean another clause now, or none. Another clause may
    /// have taken the id: words that are new mean that one.
    fn named(&self, words: &str, is_new: bool) -> Vec<(&'a str, Option<&'a str>)> {
        let taken = |id: &str| self.after.clauses.iter().any(|clause| clause.id == id);
        let means_another = |id: &str| is_new && taken(id);
        let ids = self.ids.iter();
        ids.filter(|(id, _)| !(means_another(id) || cited(words, id).is_empty()))
            .copied()
            .collect()
    }

    /// References that stand there as before and mean another clause now, which has taken the number.
    fn references(&self) -> Vec<Mention> {
        let words = |ruleset: &Ruleset, reference: &Reference| {
            let words = ruleset.sources.slice(reference.span);
            words.trim_matches(['"', '\'', ' ']).to_owned()
        };
        let before = self.before.clauses.iter();
        let before: BTreeMap<&str, &Clause> = before.map(|it| (it.id.as_str(), it)).collect();
        let mut found = Vec::new();
        for clause in self.after.clauses.iter().filter(|_| !self.ids.is_empty()) {
            let key = self.earlier.get(&clause.id).unwrap_or(&clause.id);
            let Some(old) = before.get(key.as_str()) else {
                continue;
            };
            for reference in &clause.references {
                let named = words(self.after, reference);
                let stood = old
                    .references
                    .iter()
                    .any(|it| it.wording == reference.wording && words(self.before, it) == named);
                let ids = self.ids.iter().filter(|(id, _)| stood && *id == named);
                found.extend(ids.map(|(id, now)| Mention {
                    of: format!("clause {} ({})", clause.id, reference.wording.key()),
                    names: (*id).to_owned(),
                    now: now.map(str::to_owned),
                }));
            }
        }
        found
    }

    /// The texts of the later edition: whose, which key, and whether the words are new.
    fn texts(&self) -> Vec<(Part, &'a str, &'static str, &'a Text, bool)> {
        let mut all = Vec::new();
        let before = self.before.clauses.iter();
        let before: BTreeMap<&str, &Clause> = before.map(|it| (it.id.as_str(), it)).collect();
        for clause in &self.after.clauses {
            let key = self.earlier.get(&clause.id).unwrap_or(&clause.id);
            let old = before.get(key.as_str());
            let own = [
                ("title", &clause.title, old.map(|old| &old.title)),
                ("text", &clause.text, old.map(|old| &old.text)),
            ];
            for (key, text, before) in own {
                let is_new = before != Some(text);
                let text = text.iter();
                all.extend(text.map(|text| (Part::Clause, clause.id.as_str(), key, text, is_new)));
            }
        }
        for term in &self.after.terms {
            let old = self.before.terms.iter().find(|it| it.name == term.name);
            let is_new = old.map(|old| &old.text) != Some(&term.text);
            let text = term.text.iter();
            all.extend(text.map(|text| (Part::Term, term.name.as_str(), "text", text, is_new)));
        }
        all
    }
}

/// Texts of the later edition that name a clause of the earlier one which is gone, or has another
/// number now.
pub(super) fn mentions(before: &Ruleset, after: &Ruleset, earlier: &Earlier) -> Vec<Mention> {
    let moved = Moved::new(before, after, earlier);
    let mut found: Vec<Mention> = Vec::new();
    for (part, name, _, text, is_new) in moved.texts() {
        for (_, words) in &text.by_language {
            for (id, now) in moved.named(words, is_new) {
                let mention = Mention {
                    of: format!("{} {name}", part.word()),
                    names: id.to_owned(),
                    now: now.map(str::to_owned),
                };
                if !found.contains(&mention) {
                    found.push(mention);
                }
            }
        }
    }
    for mention in moved.references() {
        if !found.contains(&mention) {
            found.push(mention);
        }
    }
    found
}

/// Changes of an amendment that give texts the numbers which clauses have now; and what has to be
/// thought about, since a clause is gone.
pub(super) fn reworded(
    before: &Ruleset,
    after: &Ruleset,
    earlier: &Earlier,
) -> (Vec<String>, Vec<String>) {
    let moved = Moved::new(before, after, earlier);
    let (mut changes, mut open) = (Vec::new(), Vec::new());
    for (part, name, key, text, is_new) in moved.texts() {
        let mut renumbered = false;
        let mut by_language: Vec<(&str, String)> = Vec::new();
        for (language, words) in &text.by_language {
            let named = moved.named(words, is_new);
            for (id, _) in named.iter().filter(|(_, now)| now.is_none()) {
                let words = format!("{} {name} speaks of {id}, which is gone", part.word());
                if !open.contains(&words) {
                    open.push(words);
                }
            }
            let kept = named.iter().filter_map(|(id, now)| Some((*id, (*now)?)));
            let kept: Vec<(&str, &str)> = kept.collect();
            renumbered |= !kept.is_empty();
            by_language.push((language, recited(words, &kept)));
        }
        if renumbered {
            let words = match by_language.as_slice() {
                [("", words)] => double_quoted(words),
                several => {
                    let several = several.iter().map(|(language, words)| {
                        format!("\n        {language}: {}", double_quoted(words))
                    });
                    several.collect()
                }
            };
            let space = if words.starts_with('\n') { "" } else { " " };
            changes.push(format!(
                "- set:\n      {}: {}\n      {key}:{space}{words}",
                part.word(),
                double_quoted(name)
            ));
        }
    }
    (changes, open)
}

/// A text with ids put in the place of others, all at once.
fn recited(words: &str, ids: &[(&str, &str)]) -> String {
    let mut places: Vec<(usize, &str, &str)> = Vec::new();
    for (id, now) in ids {
        places.extend(cited(words, id).into_iter().map(|at| (at, *id, *now)));
    }
    places.sort_unstable();
    let mut out = String::new();
    let mut done = 0;
    for (at, id, now) in places {
        if at >= done {
            out.push_str(words.get(done..at).unwrap_or_default());
            out.push_str(now);
            done = at + id.len();
        }
    }
    out.push_str(words.get(done..).unwrap_or_default());
    out
}

/// Where a text names a clause by its id. A bare number counts only behind a word that announces one.
fn cited(words: &str, id: &str) -> Vec<usize> {
    const ANNOUNCING: &[&str] = &[
        "clause",
        "clauses",
        "rule",
        "rules",
        "article",
        "articles",
        "law",
        "laws",
        "section",
        "sections",
        "paragraph",
        "paragraphs",
    ];
    let bare = id.chars().all(|sign| sign.is_ascii_digit());
    let places = words.match_indices(id).map(|(at, _)| at);
    let named = places.filter(|at| {
        let at = *at;
        let before = words.get(..at).unwrap_or_default();
        let behind = words.get(at + id.len()..).unwrap_or_default();
        let mut following = behind.chars();
        let continued = match (following.next(), following.next()) {
            (Some(sign), _) if sign.is_alphanumeric() || sign == '(' => true,
            (Some('.'), Some(sign)) => sign.is_alphanumeric(),
            _ => false,
        };
        let joined = before.ends_with(|sign: char| sign.is_alphanumeric() || sign == '.');
        let announced = before
            .split_whitespace()
            .next_back()
            .is_some_and(|word| ANNOUNCING.contains(&word.to_lowercase().as_str()));
        !continued && !joined && (!bare || announced)
    });
    named.collect()
}

#[cfg(test)]
mod tests {
    use super::recited;

    #[test]
    fn numbers_are_put_in_all_at_once_and_only_where_they_are_meant() {
        let ids = [("4.4", "4.3"), ("4.5", "4.4"), ("5", "6")];
        for (words, expected) in [
            ("as in 4.4 and 4.5.", "as in 4.3 and 4.4."),
            ("14.4, 4.4.1 and 4.4(a)", "14.4, 4.4.1 and 4.4(a)"),
            ("5 seconds; see rule 5", "5 seconds; see rule 6"),
        ] {
            assert_eq!(recited(words, &ids), expected);
        }
    }
}
