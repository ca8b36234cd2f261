//! Scenarios that teach, told to people: as text, and as Markdown to be printed or pasted.

mod covering;
mod nothing;

pub(super) use covering::value_words;

use super::caution::caution;
use super::leaf::{self, Leaf};
use super::text::{Look, leaves};
use super::words::{and_list, counted};
use crate::labels;
use crate::logic::{Layers, Outcome, Reach, Scenario};
use crate::model::{ClauseId, DimensionId, Ruleset};
use crate::narration::{self, bearing, clauses_named, ruling_told, the_same_but, worth_telling};
use crate::scenario::{
    Competing, Contrast, Ending, Entry, Grey, Legal, Pair, Sort, Telling, Threshold,
};
use std::collections::BTreeSet;

/// The scenarios as text.
pub fn text(ruleset: &Ruleset, told: &Telling, look: &Look) -> String {
    leaves(&page(ruleset, told), look)
}

/// The scenarios as Markdown.
pub fn markdown(ruleset: &Ruleset, told: &Telling) -> String {
    leaf::markdown(&page(ruleset, told))
}

/// What entries are told with.
pub(super) struct Teller<'a> {
    pub(super) ruleset: &'a Ruleset,
    told: &'a Telling,
    reach: Reach<'a>,
}

impl<'a> Teller<'a> {
    pub(super) fn new(ruleset: &'a Ruleset, told: &'a Telling) -> Self {
        Teller {
            ruleset,
            told,
            reach: Reach::new(ruleset, Layers::new(ruleset)),
        }
    }

    pub(super) fn outcome(&self, scenario: &Scenario) -> Outcome {
        let evaluator = crate::logic::Evaluator::new(self.ruleset);
        self.reach.outcome(evaluator, scenario)
    }

    /// The announced dimensions on which some outcomes differ.
    fn differing(&self, outcomes: &[&Outcome]) -> Vec<DimensionId> {
        let ids = (0..self.ruleset.dimensions.len()).map(DimensionId::new);
        let ruling = |said: &Outcome, id: DimensionId| said.rulings.get(id.index()).copied();
        let differ = |id: &DimensionId| {
            !self.ruleset[*id].intermediate
                && outcomes.windows(2).any(|two| match two {
                    [one, other] => match (ruling(one, *id), ruling(other, *id)) {
                        (Some(one), Some(other)) => !crate::logic::same_ruling(one, other),
                        _ => false,
                    },
                    _ => false,
                })
        };
        ids.filter(differ).collect()
    }

    fn ruled(&self, said: &Outcome, on: &[DimensionId]) -> String {
        let rulings = on.iter().map(|id| ruling_told(self.ruleset, said, *id));
        let words: Vec<String> = rulings.collect();
        format!("{}.", words.join("; "))
    }

    fn sentences(&self, scenario: &Scenario, outcomes: &[&Outcome], also: &[&Scenario]) -> String {
        let mut matters = bearing(self.ruleset, outcomes.iter().copied());
        matters.extend(self.differing_facts(scenario, also));
        let matters = crate::logic::with_askers(self.ruleset, matters);
        narration::scenario(self.ruleset, scenario, Some(&matters))
            .sentences
            .join(" ")
    }

    fn differing_facts(
        &self,
        scenario: &Scenario,
        also: &[&Scenario],
    ) -> BTreeSet<crate::model::AttributeId> {
        let all = also
            .iter()
            .flat_map(|other| narration::differences(self.ruleset, scenario, other).into_iter());
        all.filter(|difference| difference.change == narration::Change::Value)
            .map(|difference| difference.attribute)
            .collect()
    }

    /// `Clause 4.2 (Weight on a straight arm)`.
    pub(super) fn clause(&self, id: ClauseId) -> String {
        format!("Clause {}", labels::clause(self.ruleset, id))
    }

    /// How two competing clauses come out.
    pub(super) fn ending(&self, it: &Competing) -> String {
        let ruleset = self.ruleset;
        let [first, second] = [it.first, it.second].map(|id| ruleset[id].id.clone());
        match it.ending {
            Ending::Disapplied => format!("{first} takes {second} away altogether."),
            Ending::Displaced => format!("{first} prevails; {second} gives way."),
            Ending::Outranked => {
                let on = it.dimension.map(|on| ruleset[on].when_several);
                let which = match on {
                    Some(crate::read::draft::WhenSeveral::Lowest) => "lowest",
                    _ => "highest",
                };
                format!("Both stand, and the {which} ruling counts: that of {first}.")
            }
            Ending::Together => "Both stand, and what both allow comes out.".to_owned(),
            Ending::Contradiction => {
                "Both stand, and neither gives way: the text contradicts itself here.".to_owned()
            }
        }
    }

    /// The words of a part alone.
    pub(super) fn part_words(&self, clause: ClauseId, index: usize) -> String {
        let part = self
            .told
            .parts
            .get(&clause)
            .and_then(|parts| parts.parts.get(index));
        part.map_or_else(String::new, |part| part.words(self.ruleset))
    }

    /// The words of a part, and the terms that they come from.
    pub(super) fn part(&self, clause: ClauseId, index: usize) -> String {
        let part = self
            .told
            .parts
            .get(&clause)
            .and_then(|parts| parts.parts.get(index));
        let Some(part) = part else {
            return String::new();
        };
        let words = format!("`{}`", part.words(self.ruleset));
        let through: Vec<&str> = part
            .through
            .iter()
            .map(|term| self.ruleset[*term].name.as_str())
            .collect();
        if through.is_empty() {
            words
        } else {
            format!("{words}, in `{}`", through.join("` and `"))
        }
    }
}

fn page(ruleset: &Ruleset, told: &Telling) -> Vec<Leaf> {
    let teller = Teller::new(ruleset, told);
    let mut page = vec![
        Leaf::Title(format!("{}: scenarios", labels::ruleset(ruleset))),
        Leaf::Quiet(caution(ruleset).join(" ")),
    ];
    let mut number = 1;
    for (sort, title, about) in SORTS {
        let of = told
            .entries
            .iter()
            .filter(|entry| is_of(entry, told, *sort));
        let of: Vec<&Entry> = of.collect();
        if of.is_empty() {
            continue;
        }
        page.push(Leaf::Heading((*title).to_owned()));
        page.push(Leaf::Paragraph((*about).to_owned()));
        for entry in of {
            self::entry(&teller, &mut page, number, entry);
            number += 1;
        }
    }
    match &told.covering {
        Some(Ok(covering)) => covering::covering(&teller, &mut page, &mut number, covering),
        Some(Err(refusal)) => {
            page.push(Leaf::Heading("Covering set".to_owned()));
            page.push(Leaf::Paragraph(covering::refused(*refusal)));
        }
        None => {}
    }
    nothing::nothing(&teller, &mut page);
    page.push(Leaf::Heading("Summary".to_owned()));
    page.push(Leaf::Paragraph(summary(told)));
    page
}

const SORTS: &[(Sort, &str, &str)] = &[
    (
        Sort::Clauses,
        "Contrast pairs",
        "Two incidents of which one meets the clause and the other does not, and the rulings differ. Only what is said to be different is different, and what follows from it.",
    ),
    (
        Sort::Thresholds,
        "Thresholds",
        "Numbers at which a ruling turns, with the numbers one step below and one step above.",
    ),
    (
        Sort::Competing,
        "Clauses that compete",
        "Incidents in which two clauses are met that would rule differently, and which of them prevails.",
    ),
    (
        Sort::Grey,
        "Grey zones",
        "Incidents in which a word can be read either way by a careful official, and the rulings depend on it.",
    ),
    (
        Sort::Legal,
        "What is legal next to what is banned",
        "A banned act, and the changes of one fact with which it is not.",
    ),
];

fn is_of(entry: &Entry, _: &Telling, sort: Sort) -> bool {
    let own = match entry {
        Entry::Pair(..) => Sort::Clauses,
        Entry::Threshold(_) => Sort::Thresholds,
        Entry::Competing(_) => Sort::Competing,
        Entry::Grey(_) => Sort::Grey,
        Entry::Legal(_) => Sort::Legal,
    };
    own == sort
}

fn entry(teller: &Teller<'_>, page: &mut Vec<Leaf>, number: usize, entry: &Entry) {
    let mark = format!("{number}.");
    match entry {
        Entry::Pair(it, also) => pair(teller, page, mark, it, also),
        Entry::Threshold(it) => threshold(teller, page, mark, it),
        Entry::Competing(it) => competing(teller, page, mark, it),
        Entry::Grey(it) => grey(teller, page, mark, it),
        Entry::Legal(it) => legal(teller, page, mark, it),
    }
}

fn row(page: &mut Vec<Leaf>, label: &str, words: impl Into<String>) {
    page.push(Leaf::Row(label.to_owned(), words.into()));
}

fn pair(teller: &Teller<'_>, page: &mut Vec<Leaf>, mark: String, pair: &Pair, also: &[Contrast]) {
    let (Contrast::OneFact { clause, part } | Contrast::Masked { clause, part }) = pair.contrast;
    let (said, told) = (teller.outcome(&pair.first), teller.outcome(&pair.second));
    let on = teller.differing(&[&said, &told]);
    page.push(Leaf::Entry(mark, teller.clause(clause)));
    row(
        page,
        "Met",
        teller.sentences(&pair.first, &[&said, &told], &[&pair.second]),
    );
    row(page, "Ruled", teller.ruled(&said, &on));
    let matters = bearing(teller.ruleset, [&told]);
    row(
        page,
        "Not met",
        the_same_but(teller.ruleset, &pair.first, &pair.second, &matters),
    );
    row(page, "Ruled", teller.ruled(&told, &on));
    let why = match pair.contrast {
        Contrast::OneFact { .. } => String::new(),
        Contrast::Masked { .. } => "; no single fact can change it alone, so several do".to_owned(),
    };
    row(
        page,
        "Turns on",
        format!("{}{why}", teller.part(clause, part)),
    );
    if !also.is_empty() {
        let also: Vec<String> = also
            .iter()
            .map(|contrast| {
                let (Contrast::OneFact { clause, part } | Contrast::Masked { clause, part }) =
                    contrast;
                format!(
                    "{} of clause {}",
                    teller.part(*clause, *part),
                    teller.ruleset[*clause].id
                )
            })
            .collect();
        row(page, "Also shows", and_list(&also));
    }
}

fn threshold(teller: &Teller<'_>, page: &mut Vec<Leaf>, mark: String, it: &Threshold) {
    let ruleset = teller.ruleset;
    let name = labels::attribute_name(ruleset, &ruleset[it.attribute]);
    let value = |scenario: &Scenario| {
        let code = scenario.get(it.attribute).unwrap_or(it.at);
        labels::fact(ruleset, it.attribute, code)
    };
    let outcomes = [&it.below, &it.on].map(|scenario| teller.outcome(scenario));
    let on = teller.differing(&[&outcomes[0], &outcomes[1]]);
    let title = format!("{}: {}", super::text::capital(&name), value(&it.on));
    page.push(Leaf::Entry(mark, title));
    row(
        page,
        "Below",
        teller.sentences(&it.below, &[&outcomes[0], &outcomes[1]], &[&it.on]),
    );
    row(page, "Ruled", teller.ruled(&outcomes[0], &on));
    row(
        page,
        "On it",
        format!(
            "The same at {}: {}",
            value(&it.on),
            teller.ruled(&outcomes[1], &on)
        ),
    );
    if let Some(above) = &it.above {
        let said = teller.outcome(above);
        let words = if teller.differing(&[&outcomes[1], &said]).is_empty() {
            format!("At {} it is ruled as on the threshold.", value(above))
        } else {
            format!("The same at {}: {}", value(above), teller.ruled(&said, &on))
        };
        row(page, "Above", words);
    }
    if !it.clauses.is_empty() {
        row(
            page,
            "Turns in",
            super::text::capital(&clauses_named(ruleset, &it.clauses)),
        );
    }
}

fn competing(teller: &Teller<'_>, page: &mut Vec<Leaf>, mark: String, it: &Competing) {
    let ruleset = teller.ruleset;
    let said = teller.outcome(&it.scenario);
    page.push(Leaf::Entry(
        mark,
        format!(
            "{} and {}",
            teller.clause(it.first),
            teller.clause(it.second).replacen("Clause", "clause", 1)
        ),
    ));
    row(
        page,
        "Both met",
        teller.sentences(&it.scenario, &[&said], &[]),
    );
    let rules = |id: ClauseId| {
        let on = it.dimension?;
        let values = ruleset[id].ruling_on(on)?;
        let words = super::words::or_list(&labels::ruling(ruleset, on, values));
        Some(format!("{} alone: {words}", ruleset[id].id))
    };
    if let (Some(on), Some(one), Some(other)) = (it.dimension, rules(it.first), rules(it.second)) {
        let name = super::text::capital(&labels::dimension(ruleset, on));
        row(page, "Would rule", format!("{name}. {one}. {other}."));
    }
    row(page, "Prevails", teller.ending(it));
    row(
        page,
        "Ruled",
        teller.ruled(&said, &worth_telling(ruleset, &said)),
    );
}

fn grey(teller: &Teller<'_>, page: &mut Vec<Leaf>, mark: String, it: &Grey) {
    let ruleset = teller.ruleset;
    let term = &ruleset[it.term];
    let called = labels::called(ruleset, term.label.as_ref(), &term.name);
    let (said, told) = (teller.outcome(&it.narrow), teller.outcome(&it.broad));
    let on = teller.differing(&[&said, &told]);
    page.push(Leaf::Entry(mark, super::text::capital(&called)));
    // The reading is what is left open, so it is told below.
    let mut open = it.narrow.clone();
    if let crate::model::Meaning::Vague { reading, .. } = &term.meaning {
        open.set(*reading, None);
    }
    row(
        page,
        "Incident",
        teller.sentences(&open, &[&said, &told], &[]),
    );
    row(
        page,
        "Narrowly",
        format!(
            "If \"{called}\" is read narrowly, it is not so here: {}",
            teller.ruled(&said, &on)
        ),
    );
    row(
        page,
        "Broadly",
        format!(
            "If it is read broadly, it is so: {}",
            teller.ruled(&told, &on)
        ),
    );
    row(
        page,
        "Decides",
        "The official, by judgement: both readings are careful ones.",
    );
}

fn legal(teller: &Teller<'_>, page: &mut Vec<Leaf>, mark: String, it: &Legal) {
    let ruleset = teller.ruleset;
    let said = teller.outcome(&it.banned);
    page.push(Leaf::Entry(mark, teller.clause(it.clause)));
    let others: Vec<&Scenario> = it.legal.iter().collect();
    row(
        page,
        "Banned",
        teller.sentences(&it.banned, &[&said], &others),
    );
    row(page, "Ruled", teller.ruled(&said, &[it.dimension]));
    let lowest = labels::ruling(ruleset, it.dimension, crate::model::ValueSet::one(0));
    for (index, other) in it.legal.iter().enumerate() {
        let matters = bearing(ruleset, [&teller.outcome(other)]);
        let label = if index == 0 { "Legal" } else { "or" };
        row(
            page,
            label,
            the_same_but(ruleset, &it.banned, other, &matters),
        );
    }
    row(
        page,
        "Ruled then",
        format!(
            "{}: {}.",
            labels::dimension(ruleset, it.dimension),
            lowest.join(", ")
        ),
    );
}

fn summary(told: &Telling) -> String {
    let count = |test: fn(&Entry) -> bool| told.entries.iter().filter(|it| test(it)).count();
    let kinds = [
        (count(|it| matches!(it, Entry::Pair(..))), "contrast pair"),
        (count(|it| matches!(it, Entry::Threshold(_))), "threshold"),
        (
            count(|it| matches!(it, Entry::Competing(_))),
            "incident of competing clauses",
        ),
        (count(|it| matches!(it, Entry::Grey(_))), "grey zone"),
        (count(|it| matches!(it, Entry::Legal(_))), "banned act"),
    ];
    let mut words: Vec<String> = kinds
        .iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, name)| match (*count, *name) {
            (count, "incident of competing clauses") if count > 1 => {
                format!("{count} incidents of competing clauses")
            }
            (count, name) => counted(count, name),
        })
        .collect();
    if let Some(Ok(covering)) = &told.covering {
        words.push(format!(
            "a covering set of {}",
            counted(covering.scenarios.len(), "scenario")
        ));
    }
    let mut summary = if words.is_empty() {
        "Nothing was found that is as asked for.".to_owned()
    } else {
        format!("{}.", super::text::capital(&and_list(&words)))
    };
    if told.more {
        summary.push_str(
            " There are more; another `--seed` picks others, a higher `--count` gives more.",
        );
    }
    if let Some(reason) = &told.stopped {
        summary.push_str(" It ended early: ");
        summary.push_str(&reason.to_string());
        summary.push('.');
    }
    summary
}
