//! Why a part is ruled as it is, in sentences for the key.

use super::Answer;
use super::answer::Settled;
use crate::analysis::and_list;
use crate::labels;
use crate::logic::{Basis, Code, Outcome, Scenario};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use crate::narration::{self, cited, clauses_named, ruled, ruling_told};
use crate::scenario::{Reason, reasons};
use std::collections::BTreeSet;

/// The clauses that an answer rests on; of a judgement, those of every reading. Where no clause rules
/// because others gave way, those to which they gave way.
pub(super) fn rests_on(ruleset: &Ruleset, settled: &Settled, on: DimensionId) -> Vec<ClauseId> {
    let mut all = Vec::new();
    for (_, said) in &settled.ways {
        let mut found = cited(ruleset, said, on);
        if found.is_empty() {
            let giving_way = giving_way(ruleset, said, on);
            found.extend(giving_way.iter().flat_map(gave_way_to));
        }
        for clause in found {
            if !all.contains(&clause) {
                all.push(clause);
            }
        }
    }
    all
}

/// Why it is ruled so. What is said of one reading of an open word only is told as that.
pub(super) fn because(ruleset: &Ruleset, settled: &Settled, on: DimensionId) -> Vec<String> {
    if settled.answer.is(&Answer::Judgement) {
        let mut sentences = vec![
            "The text leaves a word open here, and careful officials may read it either way."
                .to_owned(),
        ];
        let explained = explained(settled, |said| ruling_told(ruleset, said, on));
        sentences.extend(explained.iter().map(|it| {
            let read = it.read(ruleset);
            format!("If {read}, {}.", it.explanation)
        }));
        return sentences;
    }
    let explained = explained(settled, |said| {
        let mut sentences = vec![rules(ruleset, said, on)];
        sentences.extend(chain(ruleset, said, on));
        sentences.extend(exceptions(ruleset, said, on));
        sentences
    });
    match explained.as_slice() {
        [one] => one.explanation.clone(),
        several => {
            let open = "A word is open here, and the ruling is the same however it is read.";
            let each = several
                .iter()
                .map(|it| format!("If {}: {}", it.read(ruleset), it.explanation.join(" ")));
            std::iter::once(open.to_owned()).chain(each).collect()
        }
    }
}

/// What explains a ruling under some readings of the words that are open.
struct Explained<T> {
    explanation: T,
    /// Each way of reading the words on which the explanation turns.
    ways: Vec<Vec<(AttributeId, Code)>>,
}

impl<T> Explained<T> {
    /// `"attack at once" is taken narrowly`.
    fn read(&self, ruleset: &Ruleset) -> String {
        let ways = self.ways.iter().map(|way| {
            let read = way.iter();
            let read: Vec<String> = read
                .map(|(id, code)| narration::read_so(ruleset, *id, *code))
                .collect();
            and_list(&read)
        });
        ways.collect::<Vec<String>>().join(", or if ")
    }
}

/// The explanations of the ruling, each with the readings under which it holds; those of words on which
/// none turns are left out.
fn explained<T: PartialEq>(
    settled: &Settled,
    explain: impl Fn(&Outcome) -> T,
) -> Vec<Explained<T>> {
    let all: Vec<(&Scenario, T)> = settled
        .readings
        .iter()
        .map(|(scenario, said)| (scenario, explain(said)))
        .collect();
    let turns_on = |id: &AttributeId| {
        let others = |one: &Scenario, other: &Scenario| {
            let mut open = settled.open.iter();
            open.all(|open| open == id || one.get(*open) == other.get(*open))
        };
        all.iter().any(|(one, first)| {
            let mut beside = all.iter();
            beside.any(|(other, second)| others(one, other) && first != second)
        })
    };
    let mut matter: Vec<AttributeId> = settled.open.clone();
    matter.retain(turns_on);
    let mut found: Vec<Explained<T>> = Vec::new();
    for (scenario, explanation) in all {
        let read = matter.iter();
        let way: Vec<(AttributeId, Code)> = read
            .filter_map(|id| Some((*id, scenario.get(*id)?)))
            .collect();
        match found.iter_mut().find(|it| it.explanation == explanation) {
            Some(known) if known.ways.contains(&way) => {}
            Some(known) => known.ways.push(way),
            None => found.push(Explained {
                explanation,
                ways: vec![way],
            }),
        }
    }
    found
}

/// What is met, or no longer met, against the first part, where that is the same however the words that
/// are open are read; nothing of what is for an official to judge.
pub(super) fn turned_however_read(
    ruleset: &Ruleset,
    first: &Settled,
    settled: &Settled,
    on: DimensionId,
) -> Option<String> {
    if settled.answer.is(&Answer::Judgement) {
        return None;
    }
    let mut all = BTreeSet::new();
    for (one, before) in &first.readings {
        for (other, said) in &settled.readings {
            let mut shared = first.open.iter().filter(|id| settled.open.contains(id));
            if shared.all(|id| one.get(*id) == other.get(*id)) {
                all.insert(turned(ruleset, before, said, on));
            }
        }
    }
    match (all.pop_first(), all.is_empty()) {
        (Some(words), true) => words,
        _ => None,
    }
}

/// `Clause 4.2 (Weight on a straight arm) rules: disqualification.`
fn rules(ruleset: &Ruleset, said: &Outcome, on: DimensionId) -> String {
    let Some(ruling) = said.rulings.get(on.index()) else {
        return String::new();
    };
    let words = ruled(ruleset, on, *ruling);
    let speaking: Vec<ClauseId> = cited(ruleset, said, on)
        .into_iter()
        .filter(|id| ruleset[*id].ruling_on(on).is_some())
        .collect();
    match (ruling.basis, speaking.as_slice()) {
        (Basis::Clauses, [one]) => {
            format!("Clause {} rules: {words}.", labels::clause(ruleset, *one))
        }
        (Basis::Clauses, several) if !several.is_empty() => {
            let names: Vec<String> = several
                .iter()
                .map(|id| labels::clause(ruleset, *id))
                .collect();
            format!("Clauses {} rule together: {words}.", and_list(&names))
        }
        (Basis::Default, _) => {
            let on = labels::dimension(ruleset, on);
            format!("No clause rules on it here, and where none does, {on}: {words}.")
        }
        _ => "No clause rules on it here, and none has to.".to_owned(),
    }
}

/// The other rulings that it rests on.
fn chain(ruleset: &Ruleset, said: &Outcome, on: DimensionId) -> Option<String> {
    let links: Vec<String> = rulings_below(ruleset, said, on)
        .into_iter()
        .map(|below| ruling_told(ruleset, said, below))
        .collect();
    (!links.is_empty()).then(|| format!("That rests on {}.", links.join("; ")))
}

/// The dimensions that the clauses read, from which a ruling comes, directly or through others.
pub(super) fn rulings_below(
    ruleset: &Ruleset,
    said: &Outcome,
    on: DimensionId,
) -> Vec<DimensionId> {
    let read: BTreeSet<DimensionId> = cited(ruleset, said, on)
        .iter()
        .flat_map(|id| crate::logic::dimensions_read(&ruleset[*id].when))
        .filter(|below| *below != on)
        .collect();
    read.into_iter().collect()
}

/// The clauses that rule on it, or on what it rests on, are met, and give way.
pub(super) fn giving_way(ruleset: &Ruleset, said: &Outcome, on: DimensionId) -> Vec<Reason> {
    let mut about = rulings_below(ruleset, said, on);
    if cited(ruleset, said, on).is_empty() {
        // Nothing is ruled: whatever could have led to a ruling matters.
        let speaking = ruleset.clauses.iter();
        let speaking = speaking.filter(|clause| clause.ruling_on(on).is_some());
        about.extend(speaking.flat_map(|clause| crate::logic::dimensions_read(&clause.when)));
    }
    about.push(on);
    reasons(ruleset, said)
        .into_iter()
        .filter(|reason| {
            let mut rulings = reason.rulings.iter();
            rulings.any(|given| {
                about.contains(&given.dimension)
                    && !(reason.disapplied_by.is_empty() && given.displaced_by.is_empty())
            })
        })
        .collect()
}

/// The clauses to which a clause gives way.
fn gave_way_to(reason: &Reason) -> Vec<ClauseId> {
    let displaced = reason.rulings.iter().flat_map(|given| &given.displaced_by);
    let all: BTreeSet<ClauseId> = reason
        .disapplied_by
        .iter()
        .chain(displaced)
        .copied()
        .collect();
    all.into_iter().collect()
}

fn exceptions(ruleset: &Ruleset, said: &Outcome, on: DimensionId) -> Vec<String> {
    let sentence = |reason: &Reason| {
        let name = labels::clause(ruleset, reason.clause);
        if !reason.disapplied_by.is_empty() {
            let by = clauses_named(ruleset, &reason.disapplied_by);
            return format!("Clause {name} is met as well, but {by} takes it away.");
        }
        let by = clauses_named(ruleset, &gave_way_to(reason));
        format!("Clause {name} is met as well, but gives way to {by}.")
    };
    giving_way(ruleset, said, on).iter().map(sentence).collect()
}

/// What is met, or no longer met, because of the fact that differs.
fn turned(ruleset: &Ruleset, first: &Outcome, said: &Outcome, on: DimensionId) -> Option<String> {
    let mut about: BTreeSet<DimensionId> = BTreeSet::from([on]);
    about.extend(rulings_below(ruleset, first, on));
    about.extend(rulings_below(ruleset, said, on));
    let speaks = |id: &ClauseId| {
        let clause = &ruleset[*id];
        let matters = about.iter().any(|on| clause.ruling_on(*on).is_some());
        matters || !clause.disapplies.is_empty()
    };
    let only = |here: &Outcome, there: &Outcome| -> Vec<ClauseId> {
        let met = here.met.ones().filter(|index| !there.met.contains(*index));
        met.map(ClauseId::new).filter(speaks).collect()
    };
    let (new, gone) = (only(said, first), only(first, said));
    let is = |ids: &[ClauseId]| if ids.len() == 1 { "is" } else { "are" };
    let mut changes = Vec::new();
    if !gone.is_empty() {
        changes.push(format!(
            "{} {} no longer met",
            clauses_named(ruleset, &gone),
            is(&gone)
        ));
    }
    if !new.is_empty() {
        changes.push(format!(
            "{} {} now met",
            clauses_named(ruleset, &new),
            is(&new)
        ));
    }
    match (
        changes.is_empty(),
        first.rulings.get(on.index()),
        said.rulings.get(on.index()),
    ) {
        (false, ..) => Some(changes.join(", and ")),
        (true, Some(one), Some(other)) if crate::logic::same_ruling(*one, *other) => {
            Some("no clause that matters comes or goes".to_owned())
        }
        _ => None,
    }
}
