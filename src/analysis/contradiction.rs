//! Contradiction: standing rulings that have nothing in common on a dimension that must agree.
//!
//! Question: is there a scenario in which the rulings of these clauses all stand? Asked of every
//! smallest set of clauses whose rulings have no value in common. Sets that a layer tells apart, or
//! of which one clause displaces or disapplies another, are ruled out without a solver. Nothing is
//! reported where a ruling that one of the clauses reads is itself at fault.

use super::finding::Finding;
use super::inquiry::Inquiry;
use super::{readings, words};
use crate::logic::{CellBox, Formula, Name, Replay, Scenario, World};
use crate::model::{ClauseId, DimensionId, Kind, Ruleset, ValueSet, WhenSeveral};
use crate::solve::Answer;
use fixedbitset::FixedBitSet;
use std::collections::{BTreeMap, BTreeSet};

/// The most pairs of clauses that are looked at on one dimension.
const MOST_PAIRS: usize = 1_000_000;

/// The most sets of three or more clauses that are looked at on one dimension.
const MOST_FAMILIES: usize = 20_000;

/// How long smallest sets of rulings are looked for.
const MOST_STEPS: usize = 200_000;

/// Clauses whose rulings on a dimension have nothing in common, and no smaller set of which does.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Family {
    pub(super) dimension: DimensionId,
    pub(super) clauses: Vec<ClauseId>,
}

/// The families on one dimension that neither a layer nor their own precedence tells apart.
///
/// The second value says whether all of them could be listed.
pub(super) fn candidates(inquiry: &Inquiry<'_, '_>, dimension: DimensionId) -> (Vec<Family>, bool) {
    let ruleset = inquiry.ruleset;
    if ruleset[dimension].when_several != WhenSeveral::MustAgree {
        return (Vec::new(), true);
    }
    let mut by_ruling: BTreeMap<ValueSet, FixedBitSet> = BTreeMap::new();
    for clause in inquiry.theory.speakers(dimension) {
        if let Some(values) = ruleset[*clause].ruling_on(dimension) {
            let list = by_ruling.entry(values);
            list.or_insert_with(|| FixedBitSet::with_capacity(ruleset.clauses.len()))
                .insert(clause.index());
        }
    }
    let rulings: Vec<ValueSet> = by_ruling.keys().copied().collect();
    let mut families = Vec::new();
    for (values, clauses) in &by_ruling {
        let mut against = FixedBitSet::with_capacity(ruleset.clauses.len());
        for (others, list) in &by_ruling {
            if values.intersect(*others).is_empty() {
                against.union_with(list);
            }
        }
        if against.is_clear() {
            continue;
        }
        for one in clauses.ones().map(ClauseId::new) {
            let mut rivals = inquiry.reach.cell_box(one).map_or_else(
                || against.clone(),
                |cell_box| inquiry.reach.meeting(cell_box),
            );
            rivals.intersect_with(&against);
            for other in rivals
                .ones()
                .map(ClauseId::new)
                .filter(|other| *other > one)
            {
                if families.len() <= MOST_PAIRS && compatible(ruleset, one, other) {
                    families.push(Family {
                        dimension,
                        clauses: vec![one, other],
                    });
                }
            }
        }
    }
    let (larger, mut complete) = larger_families(&rulings);
    complete &= families.len() <= MOST_PAIRS;
    let mut together = Vec::new();
    for kinds in larger {
        let lists: Vec<&FixedBitSet> = kinds
            .iter()
            .filter_map(|values| by_ruling.get(values))
            .collect();
        extend(
            inquiry,
            dimension,
            &lists,
            Vec::new(),
            &CellBox::default(),
            &mut together,
        );
    }
    complete &= together.len() <= MOST_FAMILIES;
    families.append(&mut together);
    for family in &mut families {
        family.clauses.sort_unstable();
    }
    families.sort();
    families.dedup();
    (families, complete)
}

/// Whether both can be in force and their rulings stand, as far as their own precedence goes.
fn compatible(ruleset: &Ruleset, one: ClauseId, other: ClauseId) -> bool {
    let apart = |list: &[ClauseId], id: ClauseId| list.binary_search(&id).is_ok();
    let this = &ruleset[one];
    !apart(&this.prevails_over, other)
        && !apart(&this.yields_to, other)
        && !apart(&this.disapplies, other)
        && !apart(&this.disapplied_by, other)
}

/// Smallest sets of three or more rulings that have nothing in common only together, and whether all
/// of them are here. Every member of such a set takes some value away from what the others before it
/// have in common, so a set is never longer than there are values.
fn larger_families(rulings: &[ValueSet]) -> (Vec<Vec<ValueSet>>, bool) {
    let wide: Vec<ValueSet> = rulings
        .iter()
        .copied()
        .filter(|values| values.len() > 1)
        .collect();
    let mut found: Vec<Vec<ValueSet>> = Vec::new();
    let mut steps = 0usize;
    let mut open: Vec<(usize, Vec<ValueSet>, ValueSet)> =
        vec![(0, Vec::new(), ValueSet::first(ValueSet::CAPACITY))];
    while let Some((next, chosen, common)) = open.pop() {
        steps += 1;
        if steps > MOST_STEPS {
            return (found, false);
        }
        if common.is_empty() {
            let smallest = (0..chosen.len()).all(|left_out| {
                let rest = chosen
                    .iter()
                    .enumerate()
                    .filter(|(index, _)| *index != left_out);
                let rest = rest.map(|(_, values)| *values).reduce(ValueSet::intersect);
                rest.is_some_and(|rest| !rest.is_empty())
            });
            if smallest && chosen.len() > 2 {
                found.push(chosen);
            }
            continue;
        }
        for (index, values) in wide.iter().enumerate().skip(next) {
            let narrower = common.intersect(*values);
            if narrower != common {
                let mut more = chosen.clone();
                more.push(*values);
                open.push((index + 1, more, narrower));
            }
        }
    }
    (found, true)
}

fn extend(
    inquiry: &Inquiry<'_, '_>,
    dimension: DimensionId,
    lists: &[&FixedBitSet],
    chosen: Vec<ClauseId>,
    within: &CellBox,
    families: &mut Vec<Family>,
) {
    let Some((first, rest)) = lists.split_first() else {
        families.push(Family {
            dimension,
            clauses: chosen,
        });
        return;
    };
    let mut here = inquiry.reach.meeting(within);
    here.intersect_with(first);
    for next in here.ones().map(ClauseId::new) {
        if families.len() > MOST_FAMILIES {
            return;
        }
        if chosen
            .iter()
            .all(|one| compatible(inquiry.ruleset, *one, next))
        {
            let narrower = inquiry
                .reach
                .cell_box(next)
                .map(|own| within.clone().meet(own));
            let narrower = narrower.unwrap_or_default();
            if !narrower.is_empty() {
                let mut more = chosen.clone();
                more.push(next);
                extend(inquiry, dimension, rest, more, &narrower, families);
            }
        }
    }
}

/// Where the family's rulings all stand and nothing that they read is at fault.
pub(super) fn question(inquiry: &Inquiry<'_, '_>, family: &Family) -> Formula {
    let faulty = inquiry.reading_a_fault(&family.clauses);
    Formula::all(standing(family).chain([faulty.negated()]))
}

/// Where the family's rulings all stand, but something that they read is at fault. Nothing is
/// reported there, and nothing is proved either. `None` where they read no ruling.
fn resting_on_faults(inquiry: &Inquiry<'_, '_>, family: &Family) -> Option<Formula> {
    let faulty = inquiry.reading_a_fault(&family.clauses);
    (faulty != Formula::False).then(|| Formula::all(standing(family).chain([faulty])))
}

fn standing(family: &Family) -> impl Iterator<Item = Formula> {
    let clauses = family.clauses.iter();
    clauses.map(|clause| Name::Stands(World::Actual, *clause, family.dimension).into())
}

/// Looks into one family, where nothing that it reads is at fault and where something is; `known` is a
/// scenario already seen in which it clashes.
pub(super) fn settle(
    inquiry: &mut Inquiry<'_, '_>,
    family: &Family,
    known: Option<&Scenario>,
) -> [Answer; 2] {
    if let Some(answers) = inquiry.precedent().and_then(|it| it.clash(family)) {
        return answers;
    }
    let question = question(inquiry, family);
    let shown = known.filter(|known| Replay::new(inquiry.ruleset, known).holds(&question));
    let clash = match shown {
        Some(scenario) => Answer::Yes(scenario.clone()),
        None => inquiry.ask(&question),
    };
    let resting = resting_on_faults(inquiry, family);
    let resting = resting.map_or(Answer::No, |question| inquiry.ask(&question));
    [clash, resting]
}

/// Puts a contradiction into words.
pub(super) fn report(
    inquiry: &mut Inquiry<'_, '_>,
    family: &Family,
    witness: &Scenario,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let question = &question(inquiry, family);
    let dimension = family.dimension;
    let name = &ruleset[dimension].name;
    let says = |clause: ClauseId| {
        let values = ruleset[clause].ruling_on(dimension).unwrap_or_default();
        words::values(ruleset, dimension, values)
    };
    let rulings: Vec<String> = family.clauses.iter().map(|clause| says(*clause)).collect();
    // "a or b against b or c" would take two readings.
    let choices = rulings.iter().any(|ruling| ruling.contains(' '));
    let between = if choices { "; " } else { " against " };
    let headline = format!(
        "{} contradict each other on {name}: {}",
        words::capital(&words::clauses(ruleset, &family.clauses)),
        rulings.join(between)
    );
    let mut labels = family.clauses.iter().map(|clause| {
        (
            ruleset[*clause].ruling_span,
            format!("{} rules {}", ruleset[*clause].id, says(*clause)),
        )
    });
    let (span, label) = labels.next().unwrap_or_default();
    let mut finding =
        words::finding(Kind::Contradiction, headline, span, label).of_clauses(&family.clauses);
    finding.labels.extend(labels);
    finding.dimension = Some(dimension);
    finding.rulings = family
        .clauses
        .iter()
        .filter_map(|clause| Some((*clause, ruleset[*clause].ruling_on(dimension)?)))
        .collect();
    let mentioned: BTreeSet<_> = inquiry.mentioned(&family.clauses);
    let description = inquiry.describe(question, witness, &mentioned, &family.clauses);
    let outcome = inquiry.outcome(&description.scenario);
    let back = words::clauses_back(ruleset, &outcome, &family.clauses);
    let advice = "Say which prevails with `notwithstanding` or `subject_to`, or narrow the condition of one of them.";
    let mut finding = finding.described(description).help(match back {
        Some(back) => format!("{back} {advice}"),
        None => advice.to_owned(),
    });
    readings::note(inquiry, &mut finding, question);
    finding
}
