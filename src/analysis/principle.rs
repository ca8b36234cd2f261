//! Broken principle: a scenario, or a pair of them, against what the rules as a whole promise.
//!
//! Questions: is there a scenario within `whenever` whose ruling need not be as `expect` says? A pair
//! that differs only in what the rules promise to be impartial to, with different rulings? A pair
//! with more of an attribute and a lower ruling? A move of a party's own by which it gains? Every
//! principle has a verdict of its own.

use super::claim::{Claim, Pair, announced};
use super::contrast::{self, Shown};
use super::finding::Finding;
use super::inquiry::Inquiry;
use super::pairs::{self, Settled, Wanted};
use super::words;
use crate::logic::{
    Code, Formula, Mode, Name, Pairing, Replay, Scenario, Want, World, attributes_read,
    dimensions_read, is_true, is_valid,
};
use crate::model::{
    AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Gain, Kind, MissingCell, Origin,
    Principle, Promise, Ruleset, RulingTest,
};
use crate::read::draft::WhenSeveral;
use crate::solve::{Answer, Reason};
use crate::source::Span;
use std::collections::{BTreeMap, BTreeSet};

/// The most ways of using discretion that are looked at in one part of a condition.
const MOST_CHOICES: usize = 512;

/// What became of a principle.
pub(super) enum Kept {
    /// No scenario, or pair, is against it.
    Always,
    /// Something is.
    Not(Box<Finding>),
    /// It stayed open.
    Open(Reason),
}

/// Whether a principle is kept; with the pairs that were found, where it speaks of pairs.
pub(super) fn check(
    inquiry: &mut Inquiry<'_, '_>,
    principle: &Principle,
) -> (Kept, Option<Settled>) {
    match &principle.promise {
        Promise::Expect { whenever, expect } => {
            let kept = expected(inquiry, principle, whenever, expect);
            (kept, None)
        }
        promise => match claim(inquiry.ruleset, promise) {
            Some(claim) => {
                let known = inquiry.precedent().and_then(|it| it.promised(principle));
                let settled = pairs::settle(inquiry, &claim, Wanted::APair, known);
                let kept = paired(inquiry, principle, &claim, &settled);
                (kept, Some(settled.kept()))
            }
            None => (Kept::Always, None),
        },
    }
}

/// Whether it could be proved that a principle is kept.
pub(super) fn is_kept(inquiry: &mut Inquiry<'_, '_>, principle: &Principle) -> bool {
    let (kept, _) = check(inquiry, principle);
    matches!(kept, Kept::Always)
}

/// What a promise says of pairs; `None` where it speaks of single scenarios.
pub(super) fn claim(ruleset: &Ruleset, promise: &Promise) -> Option<Claim> {
    let changing = |set: BTreeSet<AttributeId>| Pairing::changing(ruleset, set);
    Some(match promise {
        Promise::Expect { .. } => return None,
        Promise::ImpartialTo(attributes) => {
            let pairing = changing(attributes.iter().copied().collect());
            Claim::same_rulings(ruleset, pairing)
        }
        Promise::RisesWith {
            attribute,
            dimension,
        } => {
            let pairing = Pairing::rising(ruleset, *attribute);
            Claim::never_lower(ruleset, pairing, *dimension)
        }
        Promise::NoGain { party, by, gain } => {
            let pairing = changing(set_by(ruleset, party, by.as_ref()));
            let claim = match gain {
                Gain::Raising(on) => Claim::never_higher(ruleset, pairing, *on),
                Gain::Lowering(on) => Claim::never_lower(ruleset, pairing, *on),
                Gain::To(rulings) => Claim::never_becomes(ruleset, pairing, rulings),
            };
            claim.by_step(by.as_ref())
        }
    })
}

/// Where a scenario is against an expectation; `None` where there are too many choices to tell.
pub(super) fn against(
    ruleset: &Ruleset,
    whenever: &Condition,
    expect: &Condition,
) -> Option<Formula> {
    let broken = need_not_be(ruleset, expect)?;
    Some(Formula::all([is_true(whenever, Mode::ACTUAL), broken]))
}

/// The dimensions whose rulings a principle speaks of.
pub(super) fn dimensions(ruleset: &Ruleset, principle: &Principle) -> Vec<DimensionId> {
    match &principle.promise {
        Promise::Expect { whenever, expect } => {
            let mut read = dimensions_read(whenever);
            read.extend(dimensions_read(expect));
            read
        }
        Promise::ImpartialTo(_) => announced(ruleset).collect(),
        Promise::RisesWith { dimension, .. } => vec![*dimension],
        Promise::NoGain { by, gain, .. } => {
            let mut read = by.as_ref().map(dimensions_read).unwrap_or_default();
            match gain {
                Gain::Raising(on) | Gain::Lowering(on) => read.push(*on),
                Gain::To(rulings) => read.extend(dimensions_read(rulings)),
            }
            read
        }
    }
}

/// What a party changes by a move: all that it sets and the move's condition reads; without one, all
/// that it sets.
fn set_by(ruleset: &Ruleset, party: &str, by: Option<&Condition>) -> BTreeSet<AttributeId> {
    let read = by.map(|by| attributes_read(ruleset, by));
    let all = (0..ruleset.attributes.len()).map(AttributeId::new);
    all.filter(|id| {
        ruleset[*id].set_by.as_deref() == Some(party)
            && read.as_ref().is_none_or(|read| read.contains(id.index()))
    })
    .collect()
}

fn paired(
    inquiry: &mut Inquiry<'_, '_>,
    principle: &Principle,
    claim: &Claim,
    settled: &Settled,
) -> Kept {
    if settled.pairs.is_empty() {
        return settled.open.clone().map_or(Kept::Always, Kept::Open);
    }
    match shown(inquiry, principle, claim, settled) {
        Some(shown) => Kept::Not(Box::new(tell_pair(
            inquiry, principle, claim, settled, &shown,
        ))),
        None => Kept::Open(Reason::ReplayFailed),
    }
}

/// The pair to show: of different rulings the farthest apart, else the most ordinary there is.
fn shown(
    inquiry: &mut Inquiry<'_, '_>,
    principle: &Principle,
    claim: &Claim,
    settled: &Settled,
) -> Option<Shown> {
    if matches!(principle.promise, Promise::ImpartialTo(_)) {
        return contrast::worst(inquiry, claim, settled);
    }
    let by_diagrams = settled
        .firsts
        .as_ref()
        .and_then(|firsts| inquiry.with_diagrams(|diagrams| claim.pair(diagrams, firsts)));
    let by_diagrams = by_diagrams.flatten();
    let by_diagrams = by_diagrams.filter(|pair| claim.is_refuted_by(inquiry, pair));
    let known = || settled.pairs.first().map(|(_, pair)| pair.clone());
    let pair = by_diagrams.or_else(known)?;
    let pair = match principle.promise {
        Promise::RisesWith { attribute, .. } => neighbours(inquiry, claim, pair, attribute),
        _ => pair,
    };
    let shown = Shown::new(inquiry, pair).on(dimension(&principle.promise), inquiry.ruleset);
    Some(contrast::with_fewest_differences(inquiry, claim, shown))
}

/// Brings the two values of a rising attribute as near to each other as the pair stays against the
/// claim: the threshold shows best in the values beside it.
fn neighbours(
    inquiry: &Inquiry<'_, '_>,
    claim: &Claim,
    mut pair: Pair,
    attribute: AttributeId,
) -> Pair {
    let Some((low, high)) = pair.first.get(attribute).zip(pair.second.get(attribute)) else {
        return pair;
    };
    let edges = pairs::edges(inquiry, attribute, low.0..=high.0);
    let moved = |scenario: &Scenario, step: u64| {
        let mut moved = scenario.clone();
        moved.set(attribute, Some(Code(step)));
        moved
    };
    for step in edges.iter().rev() {
        let nearer = Pair {
            first: moved(&pair.first, *step),
            second: pair.second.clone(),
        };
        if claim.is_refuted_by(inquiry, &nearer) {
            pair = nearer;
            break;
        }
    }
    for step in &edges {
        let nearer = Pair {
            first: pair.first.clone(),
            second: moved(&pair.second, *step),
        };
        if claim.is_refuted_by(inquiry, &nearer) {
            return nearer;
        }
    }
    pair
}

/// The one dimension that a promise speaks of.
fn dimension(promise: &Promise) -> Option<DimensionId> {
    match promise {
        Promise::RisesWith { dimension, .. } => Some(*dimension),
        Promise::NoGain { gain, .. } => match gain {
            Gain::Raising(on) | Gain::Lowering(on) => Some(*on),
            Gain::To(rulings) => the_only(&dimensions_read(rulings)),
        },
        Promise::Expect { expect, .. } => the_only(&dimensions_read(expect)),
        Promise::ImpartialTo(_) => None,
    }
}

fn the_only(dimensions: &[DimensionId]) -> Option<DimensionId> {
    match dimensions {
        [one] => Some(*one),
        _ => None,
    }
}

/// The attributes that a promise speaks of.
fn attributes(ruleset: &Ruleset, promise: &Promise) -> Vec<AttributeId> {
    match promise {
        Promise::ImpartialTo(attributes) => attributes.clone(),
        Promise::RisesWith { attribute, .. } => vec![*attribute],
        Promise::NoGain { party, by, .. } => {
            set_by(ruleset, party, by.as_ref()).into_iter().collect()
        }
        Promise::Expect { .. } => Vec::new(),
    }
}

fn tell_pair(
    inquiry: &mut Inquiry<'_, '_>,
    principle: &Principle,
    claim: &Claim,
    settled: &Settled,
    shown: &Shown,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let [one, other] = &shown.outcomes;
    let differing = differing(ruleset, principle, &shown.pair);
    let headline = format!(
        "Principle {} is broken: {}",
        principle.id,
        said(ruleset, principle, shown, &differing)
    );
    let mut finding = begun(principle, headline);
    finding.clauses = claim.met_in_one(&shown.outcomes);
    let labels = contrast::met_labels(ruleset, shown, &finding.clauses);
    finding.labels.extend(labels);
    finding.dimension = shown.dimension;
    finding.rulings = shown
        .dimension
        .map_or_else(Vec::new, |on| contrast::standing(ruleset, on, one, other));
    let stated = |id: &&AttributeId| ruleset[**id].origin == Origin::Stated;
    finding.attribute = differing
        .iter()
        .find(stated)
        .map(|id| ruleset[*id].name.clone());
    let term = differing.iter().find(|id| !stated(id));
    finding.term = term.map(|id| ruleset[*id].name.clone());
    let mut mentioned = inquiry.mentioned(&finding.clauses);
    mentioned.extend(attributes(ruleset, &principle.promise));
    (finding.general, finding.share) =
        pairs::describe_firsts(inquiry, claim, settled, &shown.pair.first, &mentioned);
    finding.scenario = Some(shown.pair.first.clone());
    finding.pair = Some(shown.pair.second.clone());
    finding.help(
        "Amend the clauses until the promise holds, or give up the principle, or say in it where it does not hold.",
    )
}

fn begun(principle: &Principle, headline: String) -> Finding {
    let label = "promised here, and not kept";
    let mut finding = words::finding(Kind::BrokenPrinciple, headline, principle.span, label);
    finding.principle = Some(principle.id.clone());
    finding
}

/// Of what the promise speaks of, what differs within a pair.
fn differing(ruleset: &Ruleset, principle: &Principle, pair: &Pair) -> Vec<AttributeId> {
    let all = attributes(ruleset, &principle.promise).into_iter();
    all.filter(|id| pair.first.get(*id) != pair.second.get(*id))
        .collect()
}

/// What is against a promise about pairs, in words.
fn said(
    ruleset: &Ruleset,
    principle: &Principle,
    shown: &Shown,
    differing: &[AttributeId],
) -> String {
    let names: Vec<String> = differing
        .iter()
        .map(|id| format!("`{}`", ruleset[*id].name))
        .collect();
    let names = words::and_list(&names);
    let [from, to] = shown.outcomes.each_ref().map(|outcome| {
        let on = shown.dimension;
        on.map_or_else(String::new, |on| contrast::ruled(ruleset, on, outcome))
    });
    let on = shown.dimension.map_or("a ruling", |on| &ruleset[on].name);
    match &principle.promise {
        Promise::Expect { .. } => String::new(),
        Promise::ImpartialTo(_) => format!("{on} depends on {names}: {from} against {to}"),
        Promise::RisesWith { .. } => format!("with more {names}, {on} falls from {from} to {to}"),
        Promise::NoGain { party, by, gain } => {
            let step = by.as_ref().and_then(|by| in_words(ruleset, by));
            let step = step.map_or_else(
                || format!("by changing {names}"),
                |words| format!("by seeing to it that `{words}`"),
            );
            let gain = match gain {
                Gain::Raising(_) => format!("raises {on} from {from} to {to}"),
                Gain::Lowering(_) => format!("lowers {on} from {from} to {to}"),
                Gain::To(rulings) => in_words(ruleset, rulings).map_or_else(
                    || format!("changes {on} from {from} to {to}"),
                    |words| format!("brings about `{words}`"),
                ),
            };
            format!("the {party} {gain} {step}")
        }
    }
}

/// A condition as it stands in the file, if it is one line without marks of its own.
fn in_words(ruleset: &Ruleset, condition: &Condition) -> Option<String> {
    let words = written(ruleset, condition.span);
    let plain = !words.contains(['\n', '[', ']', '{', '}', '"', '\'']) && !words.is_empty();
    plain.then(|| words.to_owned())
}

fn written(ruleset: &Ruleset, span: Span) -> &str {
    ruleset.sources.slice(span).trim().trim_matches(['"', '\''])
}

fn expected(
    inquiry: &mut Inquiry<'_, '_>,
    principle: &Principle,
    whenever: &Condition,
    expect: &Condition,
) -> Kept {
    let ruleset = inquiry.ruleset;
    let Some(question) = against(ruleset, whenever, expect) else {
        return Kept::Open(Reason::TooMany);
    };
    let near = inquiry.reach.box_of(whenever, Want::True);
    if near.is_empty() {
        return Kept::Always;
    }
    let known = inquiry.precedent();
    let breach = known.and_then(|it| it.breach(principle));
    if let Some(found) = breach
        && let Some(precedent) = known.filter(|it| it.rule_alike_within(principle))
        && let Some(found) = precedent.retold(found)
    {
        return Kept::Not(Box::new(found));
    }
    let shown = breach.and_then(|found| found.scenario.as_ref());
    let shown = shown
        .filter(|shown| is_valid(ruleset, shown) && Replay::new(ruleset, shown).holds(&question));
    let answer = match (shown, known) {
        (Some(shown), _) => Answer::Yes(shown.clone()),
        (None, Some(precedent)) if precedent.was_kept(principle) => {
            inquiry.ask_where_changed(precedent, &question)
        }
        _ => inquiry.ask_among(inquiry.reach.meeting(&near), &question),
    };
    match answer {
        Answer::No => Kept::Always,
        Answer::Undecided(reason) => Kept::Open(reason),
        Answer::Yes(witness) => {
            let found = tell_scenario(inquiry, principle, (whenever, expect), &witness, &question);
            Kept::Not(Box::new(found))
        }
    }
}

fn tell_scenario(
    inquiry: &mut Inquiry<'_, '_>,
    principle: &Principle,
    (whenever, expect): (&Condition, &Condition),
    witness: &Scenario,
    question: &Formula,
) -> Finding {
    let ruleset = inquiry.ruleset;
    let mentioned = inquiry.read_by([whenever, expect].into_iter());
    let description = inquiry.describe(question, witness, &mentioned, &[]);
    let outcome = inquiry.outcome(&description.scenario);
    let dimensions = dimensions_read(expect);
    let ruled: Vec<String> = dimensions
        .iter()
        .map(|on| {
            let name = &ruleset[*on].name;
            format!("{name} is {}", contrast::ruled(ruleset, *on, &outcome))
        })
        .collect();
    let ruled = words::and_list(&ruled);
    let what = match (in_words(ruleset, whenever), in_words(ruleset, expect)) {
        (_, Some(expect)) if ruled.is_empty() => format!("`{expect}` does not hold there"),
        (_, Some(expect)) => format!("{ruled}, not `{expect}`"),
        _ => format!("{ruled}, which is not as expected"),
    };
    let headline = format!("Principle {} is broken: {what}", principle.id);
    let mut finding = begun(principle, headline);
    finding.labels.push((expect.span, "expected".to_owned()));
    finding.dimension = the_only(&dimensions);
    let mut clauses: BTreeSet<ClauseId> = BTreeSet::new();
    for on in &dimensions {
        for (clause, values) in contrast::standing(ruleset, *on, &outcome, &outcome) {
            clauses.insert(clause);
            if finding.dimension.is_some() {
                finding.rulings.push((clause, values));
            }
            let values = words::values(ruleset, *on, values);
            let label = format!("{} rules {values}", ruleset[clause].id);
            finding.labels.push((ruleset[clause].ruling_span, label));
        }
    }
    finding.clauses = clauses.into_iter().collect();
    finding.described(description).help(
        "Amend the clauses until the promise holds, or give up the principle, or narrow its `whenever`.",
    )
}

/// Where a condition over rulings need not be true, however the discretion that the rulings leave is
/// used: some choice of a value that each may still take makes it not true. `None` where there are
/// too many choices.
fn need_not_be(ruleset: &Ruleset, expect: &Condition) -> Option<Formula> {
    // A conjunction need not be true where one of its parts need not be.
    if let ConditionKind::All(parts) = &expect.kind {
        let parts: Option<Vec<Formula>> = parts
            .iter()
            .map(|part| need_not_be(ruleset, part))
            .collect();
        return parts.map(Formula::any);
    }
    let chosen = dimensions_read(expect).into_iter();
    let chosen: Vec<DimensionId> = chosen
        .filter(|on| ruleset[*on].when_several != WhenSeveral::AllApply)
        .collect();
    let mut choices: Vec<BTreeMap<DimensionId, Option<usize>>> = vec![BTreeMap::new()];
    for on in &chosen {
        let values = || (0..ruleset[*on].values.len()).map(Some).chain([None]);
        choices = choices
            .iter()
            .flat_map(|known| {
                values().map(|value| {
                    let mut more = known.clone();
                    more.insert(*on, value);
                    more
                })
            })
            .collect();
        if choices.len() > MOST_CHOICES {
            return None;
        }
    }
    let ways = choices.iter().map(|choice| {
        let open = choice
            .iter()
            .map(|(on, value)| may_be(ruleset, *on, *value));
        let holds = is_true(&with_rulings(expect, choice), Mode::ACTUAL);
        Formula::all(open.chain([holds.negated()]))
    });
    Some(Formula::any(ways))
}

/// Where a ruling may come out as this value; without a value, where there is no ruling.
fn may_be(ruleset: &Ruleset, on: DimensionId, value: Option<usize>) -> Formula {
    let allowed = |value: usize| {
        let value = u8::try_from(value).unwrap_or(u8::MAX);
        Formula::from(Name::Allowed(World::Actual, on, value))
    };
    match value {
        Some(value) => allowed(value),
        None => Formula::any((0..ruleset[on].values.len()).map(allowed)).negated(),
    }
}

/// The condition once these rulings are what they are.
fn with_rulings(
    condition: &Condition,
    rulings: &BTreeMap<DimensionId, Option<usize>>,
) -> Condition {
    let of = |part: &Condition| with_rulings(part, rulings);
    let all = |parts: &[Condition]| parts.iter().map(of).collect::<Vec<_>>();
    let plain = |kind| Condition {
        kind,
        span: condition.span,
    };
    match &condition.kind {
        ConditionKind::Ruling {
            dimension,
            test: RulingTest::OneOf(values),
            positive,
        } => match rulings.get(dimension) {
            None => condition.clone(),
            Some(None) => plain(ConditionKind::Missing(MissingCell {
                row: String::new(),
                column: String::new(),
            })),
            Some(Some(value)) if values.contains(*value) == *positive => {
                plain(ConditionKind::Always)
            }
            Some(Some(_)) => plain(ConditionKind::Not(Box::new(plain(ConditionKind::Always)))),
        },
        ConditionKind::Not(part) => plain(ConditionKind::Not(Box::new(of(part)))),
        ConditionKind::NotTrue(part) => plain(ConditionKind::NotTrue(Box::new(of(part)))),
        ConditionKind::All(parts) => plain(ConditionKind::All(all(parts))),
        ConditionKind::Any(parts) => plain(ConditionKind::Any(all(parts))),
        ConditionKind::Count { least, most, of } => plain(ConditionKind::Count {
            least: *least,
            most: *most,
            of: all(of),
        }),
        ConditionKind::Always
        | ConditionKind::Missing(_)
        | ConditionKind::Fact { .. }
        | ConditionKind::Ruling { .. }
        | ConditionKind::Term(_) => condition.clone(),
    }
}
