//! Turns on judgement: two officials who agree on every plain fact reach different rulings.
//!
//! Question: are there two scenarios that differ only in judged attributes, or in how vague terms are
//! read, with different announced rulings? Asked of each judged value alone, then of the smallest
//! sets of those that decide nothing alone. One finding a set, the most harmful first.

use super::claim::Claim;
use super::contrast::{self, Shown};
use super::finding::Finding;
use super::inquiry::Inquiry;
use super::pairs::{self, Settled, Wanted};
use super::words;
use crate::logic::{Code, Layers, Pairing, Scenario, attributes_read, is_valid, same_ruling};
use crate::model::{
    AttributeId, AttributeKind, BackgroundRule, ClauseId, DimensionId, Kind, Number, Origin,
    Ruleset,
};
use crate::solve::Reason;
use num_bigint::BigUint;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// The most sets of judged values that are tried together.
const MOST_SETS: usize = 400;

/// What an official judges: judged attributes, and the readings of vague terms, in their order.
pub(super) fn judged(ruleset: &Ruleset) -> Vec<AttributeId> {
    let all = (0..ruleset.attributes.len()).map(AttributeId::new);
    all.filter(|id| ruleset[*id].judged || ruleset[*id].origin != Origin::Stated)
        .collect()
}

/// Judged values that together decide a ruling, and what is known of it.
#[derive(Clone, Debug)]
pub(super) struct Deciding {
    pub(super) values: BTreeSet<AttributeId>,
    settled: Settled,
}

fn claim(ruleset: &Ruleset, values: &BTreeSet<AttributeId>) -> Claim {
    Claim::same_rulings(ruleset, Pairing::changing(ruleset, values.clone()))
}

/// What was settled of sets of judged values, for the check of another edition.
pub(super) type Asked = BTreeMap<BTreeSet<AttributeId>, Settled>;

/// Whether one judged value decides a ruling alone.
pub(super) fn alone(
    inquiry: &mut Inquiry<'_, '_>,
    value: AttributeId,
    asked: &mut Asked,
) -> Result<Option<Deciding>, Reason> {
    let alone = BTreeSet::from([value]);
    decides(inquiry, alone, Wanted::EveryClause, asked)
}

fn decides(
    inquiry: &mut Inquiry<'_, '_>,
    values: BTreeSet<AttributeId>,
    wanted: Wanted,
    asked: &mut Asked,
) -> Result<Option<Deciding>, Reason> {
    let known = inquiry.precedent().and_then(|it| it.judged(&values));
    let settled = pairs::settle(inquiry, &claim(inquiry.ruleset, &values), wanted, known);
    asked.insert(values.clone(), settled.kept());
    match &settled.open {
        // That it decides is known; with which clauses may not be.
        _ if !settled.pairs.is_empty() => Ok(Some(Deciding { values, settled })),
        Some(reason) => Err(reason.clone()),
        None => Ok(None),
    }
}

/// The smallest sets that decide a ruling, of values none of which decides one alone: for each value
/// that decides anything at all, a set with it.
pub(super) fn together(
    inquiry: &mut Inquiry<'_, '_>,
    values: &[AttributeId],
    asked: &mut Asked,
) -> (Vec<Deciding>, Option<Reason>) {
    let ruleset = inquiry.ruleset;
    let mut left: Vec<AttributeId> = values.to_vec();
    // No ruling rests on some; but where the background ties one to others, these can't move without it.
    left.retain(|id| {
        let alone = claim(ruleset, &BTreeSet::from([*id]));
        !alone.holds_by_form() || tied(ruleset, &alone)
    });
    let mut found: Vec<Deciding> = Vec::new();
    if left.len() < 2 {
        return (found, None);
    }
    let all = left.iter().copied().collect();
    match decides(inquiry, all, Wanted::APair, asked) {
        Ok(Some(_)) => {}
        Ok(None) => return (found, None),
        Err(reason) => return (found, Some(reason)),
    }
    let mut open = None;
    let mut tried = 0;
    let mut smallest: Vec<BTreeSet<AttributeId>> = Vec::new();
    for size in 2..=left.len() {
        for set in subsets(&left, size) {
            if smallest.iter().any(|known| known.is_subset(&set)) {
                continue;
            }
            tried += 1;
            if tried > MOST_SETS {
                return (found, Some(Reason::TooMany));
            }
            let known = |id: &AttributeId| found.iter().any(|one| one.values.contains(id));
            let told = set.iter().all(known);
            match decides(inquiry, set.clone(), Wanted::EveryClause, asked) {
                Ok(Some(deciding)) => {
                    smallest.push(set);
                    if !told {
                        found.push(deciding);
                    }
                }
                Ok(None) => {}
                Err(reason) => open = Some(reason),
            }
        }
        let known = |id: &AttributeId| found.iter().any(|one| one.values.contains(id));
        if left.iter().all(known) {
            break;
        }
    }
    (found, open)
}

/// Whether a line of the background reads what may differ.
fn tied(ruleset: &Ruleset, claim: &Claim) -> bool {
    let touched = claim.pairing().touched();
    ruleset.background.iter().any(|line| {
        let (BackgroundRule::Never(condition) | BackgroundRule::Always(condition)) = &line.rule;
        let read = attributes_read(ruleset, condition);
        touched.iter().any(|id| read.contains(id.index()))
    })
}

/// The subsets of one size, in the order of their members.
fn subsets(of: &[AttributeId], size: usize) -> Vec<BTreeSet<AttributeId>> {
    let mut begun: Vec<(usize, BTreeSet<AttributeId>)> = vec![(0, BTreeSet::new())];
    for _ in 0..size {
        begun = begun
            .into_iter()
            .flat_map(|(next, set)| {
                of.iter().enumerate().skip(next).map(move |(index, id)| {
                    let mut larger = set.clone();
                    larger.insert(*id);
                    (index + 1, larger)
                })
            })
            .take(MOST_SETS * 16)
            .collect();
    }
    begun.into_iter().map(|(_, set)| set).collect()
}

/// Puts all of them into words, the most harmful first.
pub(super) fn report(inquiry: &mut Inquiry<'_, '_>, deciding: Vec<Deciding>) -> Vec<Finding> {
    let mut ranked = Vec::with_capacity(deciding.len());
    for one in deciding {
        let claim = claim(inquiry.ruleset, &one.values);
        let Some(shown) = contrast::worst(inquiry, &claim, &one.settled) else {
            continue;
        };
        let difference = smallest_difference(inquiry, &one);
        let finding = told(inquiry, &claim, &one, &shown, difference.as_ref());
        let share = finding.share.as_ref();
        let share = share.map_or_else(BigUint::default, |share| share.scenarios.clone());
        let steps = difference.map_or(1, |difference| difference.steps);
        ranked.push(((Reverse(shown.harm.part()), Reverse(share), steps), finding));
    }
    ranked.sort_by(|(one, _), (other, _)| one.cmp(other));
    ranked.into_iter().map(|(_, finding)| finding).collect()
}

/// How small a difference of a judged number or scale is enough.
struct Difference {
    steps: u64,
    words: String,
}

/// Walks between the two values of each known pair: the nearest two values with different rulings.
fn smallest_difference(inquiry: &Inquiry<'_, '_>, deciding: &Deciding) -> Option<Difference> {
    let ruleset = inquiry.ruleset;
    let values: Vec<AttributeId> = deciding.values.iter().copied().collect();
    let [id] = values.as_slice() else { return None };
    if !matches!(
        ruleset[*id].kind,
        AttributeKind::Number(_) | AttributeKind::Scale(_)
    ) {
        return None;
    }
    let pairs = deciding.settled.pairs.iter();
    let steps = pairs
        .filter_map(|(_, pair)| {
            let (one, other) = (pair.first.get(*id)?.0, pair.second.get(*id)?.0);
            Some(nearest(
                inquiry,
                &pair.first,
                *id,
                one.min(other)..=one.max(other),
            ))
        })
        .flatten()
        .min()?;
    let amount = match &ruleset[*id].kind {
        AttributeKind::Number(range) => {
            let times = Number::whole(i64::try_from(steps).ok()?);
            let amount = range.step.times(times)?;
            let unit = range.unit.to_string();
            let space = if unit.is_empty() { "" } else { " " };
            format!("{amount}{space}{unit}")
        }
        _ if steps == 1 => "one step of the scale".to_owned(),
        _ => format!("{steps} steps of the scale"),
    };
    let words = if steps == 1 {
        format!("A difference of {amount} is enough.")
    } else {
        format!("A difference of {amount} is enough; less may be.")
    };
    Some(Difference { steps, words })
}

/// The smallest distance between two values within a range with different rulings, all else equal.
fn nearest(
    inquiry: &Inquiry<'_, '_>,
    scenario: &Scenario,
    id: AttributeId,
    range: std::ops::RangeInclusive<u64>,
) -> Option<u64> {
    let ruleset = inquiry.ruleset;
    // One cell is ruled alike, so only the values at the edges of cells matter.
    let edges = pairs::edges(inquiry, id, range);
    let ruled = edges.into_iter().filter_map(|step| {
        let mut moved = scenario.clone();
        moved.set(id, Some(Code(step)));
        Layers::settle_asking(ruleset, &mut moved);
        is_valid(ruleset, &moved).then(|| (step, inquiry.outcome(&moved)))
    });
    let ruled: Vec<_> = ruled.collect();
    let neighbours = ruled.windows(2).filter_map(|pair| match pair {
        [(low, one), (high, other)] => {
            (!one.announces_the_same(other, ruleset)).then(|| high - low)
        }
        _ => None,
    });
    neighbours.min()
}

fn told(
    inquiry: &mut Inquiry<'_, '_>,
    claim: &Claim,
    deciding: &Deciding,
    shown: &Shown,
    difference: Option<&Difference>,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let clauses: Vec<ClauseId> = {
        let through = deciding
            .settled
            .pairs
            .iter()
            .filter_map(|(clause, _)| *clause);
        through.collect::<BTreeSet<_>>().into_iter().collect()
    };
    let headline = format!(
        "{} turns on {}: {}",
        shown.dimension.map_or_else(
            || "A ruling".to_owned(),
            |on| format!("The ruling on {}", ruleset[on].name)
        ),
        judging(ruleset, &deciding.values),
        contrast::against(ruleset, shown)
    );
    let mut values = deciding.values.iter();
    let first = values.next().copied().unwrap_or(AttributeId::new(0));
    let place = |id: AttributeId| match ruleset[id].origin {
        Origin::Stated => (ruleset[id].span, "an official judges it"),
        Origin::Reading(term) => (ruleset[term].span, "it can be read either way"),
    };
    let (span, label) = place(first);
    let mut finding =
        words::finding(Kind::TurnsOnJudgement, headline, span, label).of_clauses(&clauses);
    for id in values {
        let (span, label) = place(*id);
        finding.labels.push((span, label.to_owned()));
    }
    let met = claim.met_in_one(&shown.outcomes);
    finding
        .labels
        .extend(contrast::met_labels(ruleset, shown, &met));
    finding.dimension = shown.dimension;
    finding.rulings = shown.dimension.map_or_else(Vec::new, |on| {
        contrast::standing(ruleset, on, &shown.outcomes[0], &shown.outcomes[1])
    });
    let stated = |id: &&AttributeId| ruleset[**id].origin == Origin::Stated;
    let attribute = deciding.values.iter().find(stated);
    finding.attribute = attribute.map(|id| ruleset[*id].name.clone());
    let term = deciding.values.iter().find(|id| !stated(id));
    finding.term = term.map(|id| ruleset[*id].name.clone());
    let mut mentioned = inquiry.mentioned(&clauses);
    mentioned.retain(|id| !deciding.values.contains(id));
    let (settled, first) = (&deciding.settled, &shown.pair.first);
    (finding.general, finding.share) =
        pairs::describe_firsts(inquiry, claim, settled, first, &mentioned);
    finding.scenario = Some(shown.pair.first.clone());
    finding.pair = Some(shown.pair.second.clone());
    let help = advice(inquiry, claim, deciding, shown, difference);
    finding.help(help)
}

/// `how `deliberate` is judged`, `how `a` is judged and `b` is read, only together`.
fn judging(ruleset: &Ruleset, values: &BTreeSet<AttributeId>) -> String {
    let how = values.iter().map(|id| {
        let verb = match ruleset[*id].origin {
            Origin::Stated => "is judged",
            Origin::Reading(_) => "is read",
        };
        format!("`{}` {verb}", ruleset[*id].name)
    });
    let how = words::and_list(&how.collect::<Vec<_>>());
    if values.len() > 1 {
        format!("how {how}, only together")
    } else {
        format!("how {how}")
    }
}

fn advice(
    inquiry: &Inquiry<'_, '_>,
    claim: &Claim,
    deciding: &Deciding,
    shown: &Shown,
    difference: Option<&Difference>,
) -> String {
    let ruleset = inquiry.ruleset;
    let mut sentences = Vec::new();
    if shown.harm.steps > 0 && shown.harm.of > 1 {
        sentences.push(if shown.harm.steps == shown.harm.of {
            "The two rulings lie as far apart as the scale goes.".to_owned()
        } else {
            let steps = shown.harm.steps;
            let plural = if steps == 1 { "" } else { "s" };
            format!(
                "The two rulings lie {steps} step{plural} apart, on a scale of {}.",
                shown.harm.of
            )
        });
    }
    let others = others(inquiry, claim, deciding, shown);
    if !others.is_empty() {
        let verb = if others.len() == 1 { "turns" } else { "turn" };
        sentences.push(format!(
            "{} {verb} on it too.",
            words::capital(&words::and_list(&others))
        ));
    }
    sentences.extend(difference.map(|difference| difference.words.clone()));
    if deciding.settled.open.is_some() {
        sentences.push("Whether it acts through more clauses stayed undecided.".to_owned());
    }
    let names = deciding
        .values
        .iter()
        .map(|id| format!("`{}`", ruleset[*id].name));
    let names = words::and_list(&names.collect::<Vec<_>>());
    sentences.push(format!(
        "That may be meant. If officials are to rule alike, give them criteria and boundary cases for {names}, \
         rather than strike the words out."
    ));
    sentences.join(" ")
}

/// The other announced dimensions whose rulings turn on it.
fn others(
    inquiry: &Inquiry<'_, '_>,
    claim: &Claim,
    deciding: &Deciding,
    shown: &Shown,
) -> Vec<String> {
    let ruleset = inquiry.ruleset;
    let settled = &deciding.settled;
    let turns = |on: &DimensionId| match &settled.firsts {
        Some(firsts) => firsts.on.contains_key(on),
        None => settled.pairs.iter().any(|(_, pair)| {
            let [one, other] = [&pair.first, &pair.second].map(|it| inquiry.outcome(it));
            let rulings = one
                .rulings
                .get(on.index())
                .zip(other.rulings.get(on.index()));
            rulings.is_some_and(|(one, other)| !same_ruling(*one, *other))
        }),
    };
    let dimensions = claim.dimensions(ruleset).into_iter();
    dimensions
        .filter(|on| Some(*on) != shown.dimension && turns(on))
        .map(|on| ruleset[on].name.clone())
        .collect()
}
