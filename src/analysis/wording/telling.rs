//! Questions put together into findings, and their words.

use super::Question;
use super::asking::Asking;
use super::lists::Sort;
use crate::analysis::finding::Finding;
use crate::analysis::words::{self, and_list};
use crate::model::{ClauseId, Kind, Ruleset};
use std::collections::{BTreeMap, BTreeSet};

/// So many clauses with the same word are asked about together.
const SHARED: usize = 3;
/// Places that a finding about many clauses underlines; all of them stand in its questions.
const SHOWN: usize = 3;
/// Words of one sort that a headline names, and clauses.
const NAMED: usize = 3;

/// The findings: what the book as a whole mixes, then words that many clauses share, in the order of
/// the list, then clause by clause.
pub(super) fn findings(ruleset: &Ruleset, asking: Asking) -> Vec<Finding> {
    let Asking { asked, duties } = asking;
    let mut findings = Vec::new();
    if !duties.is_empty() {
        findings.push(mixed_duties(duties));
    }
    let mut clauses_with: BTreeMap<&(usize, String), BTreeSet<ClauseId>> = BTreeMap::new();
    for one in &asked {
        let clauses = clauses_with.entry(&one.key).or_default();
        clauses.insert(one.question.clause);
    }
    let shared: BTreeSet<(usize, String)> = clauses_with
        .into_iter()
        .filter(|(_, clauses)| clauses.len() >= SHARED)
        .map(|(key, _)| key.clone())
        .collect();
    let mut of_book: BTreeMap<(usize, String), Vec<Question>> = BTreeMap::new();
    let mut of_clause: BTreeMap<ClauseId, Vec<Question>> = BTreeMap::new();
    for one in asked {
        if shared.contains(&one.key) {
            of_book.entry(one.key).or_default().push(one.question);
        } else {
            let clause = one.question.clause;
            of_clause.entry(clause).or_default().push(one.question);
        }
    }
    findings.extend(of_book.into_values().map(|all| shared_word(ruleset, all)));
    findings.extend(of_clause.into_values().map(|all| one_clause(ruleset, all)));
    findings
}

/// The finding that the whole book has more than one verb for a duty.
fn mixed_duties(duties: BTreeMap<String, Vec<Question>>) -> Finding {
    let mut by_use: Vec<(String, Vec<Question>)> = duties.into_iter().collect();
    by_use.sort_by_key(|(_, all)| std::cmp::Reverse(all.len()));
    let said: Vec<String> = by_use
        .iter()
        .map(|(word, all)| format!("`{word}` in {}", counted(all.len())))
        .collect();
    let headline = format!("The book lays down duties by {}", and_list(&said));
    let shown: Vec<Question> = by_use
        .iter()
        .rev()
        .filter_map(|(_, all)| all.first().cloned())
        .collect();
    // The rarer words first: they are what will be changed.
    let all: Vec<Question> = by_use.into_iter().rev().flat_map(|(_, all)| all).collect();
    let mut finding = finding(headline, &shown, all);
    finding.help = Some(
        "Write one verb for every duty; keep another for what is only advised, and say so once."
            .to_owned(),
    );
    finding
}

/// The finding about a word that several clauses share.
fn shared_word(ruleset: &Ruleset, all: Vec<Question>) -> Finding {
    let mut clauses: Vec<ClauseId> = all.iter().map(|question| question.clause).collect();
    clauses.dedup();
    let mut ids = words::ids(ruleset, &clauses);
    let more = ids.len().saturating_sub(NAMED);
    if more > 1 {
        ids.truncate(NAMED);
        ids.push(format!("{more} more"));
    }
    let first = all.first();
    let word = first.map_or("", |question| question.word.as_str());
    let class = first.map_or("", |question| question.class.as_str());
    let what = match first.map(|question| question.sort) {
        Some(Sort::LooseEnd) | None => words::capital(&loose_end(class, word)),
        Some(sort) => of_sort(sort, &[word]).unwrap_or_default(),
    };
    let headline = format!("{what}: clauses {}", and_list(&ids));
    let shown = all.get(..SHOWN).unwrap_or(&all).to_vec();
    finding(headline, &shown, all)
}

/// The finding about everything in one clause that no other finding asks about.
fn one_clause(ruleset: &Ruleset, all: Vec<Question>) -> Finding {
    let clause = all.first().map(|question| question.clause);
    let id = clause.map_or("", |clause| ruleset[clause].id.as_str());
    let mut said: Vec<String> = Vec::new();
    for sort in Sort::ALL {
        let of = all.iter().filter(|question| question.sort == sort);
        if sort == Sort::LooseEnd {
            said.extend(of.map(|question| loose_end(&question.class, &question.word)));
            continue;
        }
        let mut words: Vec<&str> = Vec::new();
        for question in of {
            if !words.contains(&question.word.as_str()) {
                words.push(&question.word);
            }
        }
        said.extend(of_sort(sort, &words));
    }
    let headline = format!("Clause {id}: {}", said.join("; "));
    finding(headline, &all.clone(), all)
}

/// A finding that underlines some of its questions.
fn finding(headline: String, shown: &[Question], all: Vec<Question>) -> Finding {
    let mut labels = shown.iter().map(|question| {
        let sort = question.sort.word().replace('-', " ");
        (question.span, format!("{sort}: {}", question.question))
    });
    let (span, label) = labels.next().unwrap_or_default();
    let mut finding = words::finding(Kind::Wording, headline, span, label);
    finding.labels.extend(labels);
    let mut clauses: Vec<ClauseId> = all.iter().map(|question| question.clause).collect();
    let mut seen = BTreeSet::new();
    clauses.retain(|clause| seen.insert(*clause));
    let sorts: BTreeSet<Sort> = all.iter().map(|question| question.sort).collect();
    finding.questions = all;
    finding
        .of_clauses(&clauses)
        .help(sorts.into_iter().map(cure).collect::<Vec<_>>().join(" "))
}

/// What to do about a sort.
fn cure(sort: Sort) -> &'static str {
    match sort {
        Sort::Vague => "Vague: name what is seen or measured, or define the word under `terms`.",
        Sort::Ambiguous => "Ambiguous: write the reading that is meant.",
        Sort::Discretion => {
            "Discretion: let the ruling say so (`may_be`), read what is judged, or write what is ruled."
        }
        Sort::LooseEnd => "Loose end: write what is missing, or cut what is too much.",
    }
}

/// `a` and `b` are vague.
fn of_sort(sort: Sort, words: &[&str]) -> Option<String> {
    let mut named: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    let more = named.len().saturating_sub(NAMED);
    if more > 1 {
        named.truncate(NAMED);
        named.push(format!("{more} more"));
    }
    let several = words.len() > 1;
    let said = match (sort, several) {
        (Sort::Vague, false) => "is vague",
        (Sort::Vague, true) => "are vague",
        (Sort::Discretion, false) => "leaves a discretion open",
        (Sort::Discretion, true) => "leave a discretion open",
        (_, false) => "is ambiguous",
        (_, true) => "are ambiguous",
    };
    (!words.is_empty()).then(|| format!("{} {said}", and_list(&named)))
}

/// What is missing, or too much.
fn loose_end(class: &str, word: &str) -> String {
    match class {
        "dead-reference" => format!("{word} is cited and is not there"),
        "long-sentence" => "a sentence is too long to take in".to_owned(),
        _ => "a duty has no consequence".to_owned(),
    }
}

fn counted(clauses: usize) -> String {
    match clauses {
        1 => "1 clause".to_owned(),
        more => format!("{more} clauses"),
    }
}
