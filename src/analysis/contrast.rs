//! How far apart the rulings of a pair lie, which pair is shown, and the words for both.

use super::claim::{Case, Claim, Pair, announced, exactly};
use super::inquiry::Inquiry;
use super::pairs::Settled;
use super::words;
use crate::logic::{Basis, Layers, Outcome, same_ruling};
use crate::model::{ClauseId, DimensionId, Ruleset, ValueSet};
use crate::read::draft::WhenSeveral;
use crate::source::Span;
use num_rational::Ratio;
use std::cmp::Reverse;

/// Two different values on one dimension, and how far apart they lie: the lower one first.
pub(super) fn contrasts(ruleset: &Ruleset, on: DimensionId) -> Vec<(Harm, Case)> {
    let this = &ruleset[on];
    if this.when_several == WhenSeveral::AllApply {
        return Vec::new();
    }
    let values = this.values.len();
    let pairs = (0..values).flat_map(|low| (low + 1..values).map(move |high| (low, high)));
    pairs
        .map(|(low, high)| {
            let harm = Harm::between(this.ordered, values, high - low);
            let case = Case {
                first: exactly(on, low),
                second: exactly(on, high),
                on: Some(on),
            };
            (harm, case)
        })
        .collect()
}

/// How far apart two rulings lie: a part of the whole scale. Rulings without an order, and rulings
/// of which one is none or several, lie nowhere.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Harm {
    pub(super) steps: usize,
    pub(super) of: usize,
}

impl Harm {
    fn between(ordered: bool, values: usize, steps: usize) -> Harm {
        if ordered {
            Harm {
                steps,
                of: values.saturating_sub(1),
            }
        } else {
            Harm::default()
        }
    }

    /// The part of its scale: the larger, the greater the harm.
    pub(super) fn part(self) -> Ratio<usize> {
        Ratio::new(self.steps, self.of.max(1))
    }

    /// How far the two rulings of a pair lie apart.
    pub(super) fn of(ruleset: &Ruleset, on: DimensionId, one: &Outcome, other: &Outcome) -> Harm {
        let settled = |outcome: &Outcome| {
            let ruling = outcome.rulings.get(on.index())?;
            let when_several = ruleset[on].when_several;
            let one = when_several != WhenSeveral::AllApply && ruling.is_settled(when_several);
            one.then(|| ruling.values.lowest()).flatten()
        };
        match (settled(one), settled(other)) {
            (Some(one), Some(other)) => {
                let this = &ruleset[on];
                Harm::between(this.ordered, this.values.len(), one.abs_diff(other))
            }
            _ => Harm::default(),
        }
    }
}

/// The first announced dimension on which a pair's rulings differ most.
pub(super) fn worst_dimension(
    ruleset: &Ruleset,
    one: &Outcome,
    other: &Outcome,
) -> Option<(Harm, DimensionId)> {
    let differing = announced(ruleset).filter(|id| {
        let pair = one
            .rulings
            .get(id.index())
            .zip(other.rulings.get(id.index()));
        pair.is_some_and(|(one, other)| !same_ruling(*one, *other))
    });
    differing
        .map(|id| (Harm::of(ruleset, id, one, other), id))
        .reduce(|best, next| {
            if next.0.part() > best.0.part() {
                next
            } else {
                best
            }
        })
}

/// A pair that is to be shown, and what it differs in most.
#[derive(Clone, Debug)]
pub(super) struct Shown {
    pub(super) pair: Pair,
    pub(super) outcomes: [Outcome; 2],
    pub(super) harm: Harm,
    pub(super) dimension: Option<DimensionId>,
}

impl Shown {
    pub(super) fn new(inquiry: &Inquiry<'_, '_>, pair: Pair) -> Shown {
        let outcomes = [&pair.first, &pair.second].map(|scenario| inquiry.outcome(scenario));
        let worst = worst_dimension(inquiry.ruleset, &outcomes[0], &outcomes[1]);
        Shown {
            pair,
            outcomes,
            harm: worst.map(|(harm, _)| harm).unwrap_or_default(),
            dimension: worst.map(|(_, dimension)| dimension),
        }
    }

    /// The same with another dimension in view; the one in which it differs most where there is none.
    pub(super) fn on(mut self, dimension: Option<DimensionId>, ruleset: &Ruleset) -> Shown {
        if let Some(on) = dimension {
            self.harm = Harm::of(ruleset, on, &self.outcomes[0], &self.outcomes[1]);
            self.dimension = Some(on);
        }
        self
    }

    /// The same with the milder ruling first.
    fn milder_first(self) -> Shown {
        let values = self.dimension.map(|on| {
            let lowest = |outcome: &Outcome| {
                let ruling = outcome.rulings.get(on.index());
                ruling.and_then(|ruling| ruling.values.lowest())
            };
            self.outcomes.each_ref().map(lowest)
        });
        let Shown {
            pair: Pair { first, second },
            outcomes: [one, other],
            ..
        } = self;
        if values.is_some_and(|[one, other]| one > other) {
            Shown {
                pair: Pair {
                    first: second,
                    second: first,
                },
                outcomes: [other, one],
                ..self
            }
        } else {
            Shown {
                pair: Pair { first, second },
                outcomes: [one, other],
                ..self
            }
        }
    }
}

/// The same pair with as few differences as it needs: whatever may change and need not is in the second
/// scenario as in the first.
pub(super) fn with_fewest_differences(
    inquiry: &Inquiry<'_, '_>,
    claim: &Claim,
    shown: Shown,
) -> Shown {
    let ruleset = inquiry.ruleset;
    let mut best = shown;
    for id in claim.pairing().changing_attributes() {
        let Some(code) = best.pair.first.get(*id) else {
            continue;
        };
        if best.pair.second.get(*id) == Some(code) {
            continue;
        }
        let mut second = best.pair.second.clone();
        second.set(*id, Some(code));
        Layers::settle_asking(ruleset, &mut second);
        let pair = Pair {
            first: best.pair.first.clone(),
            second,
        };
        if claim.is_refuted_by(inquiry, &pair) {
            let nearer = Shown::new(inquiry, pair).on(best.dimension, ruleset);
            if nearer.harm.part() >= best.harm.part() {
                best = nearer;
            }
        }
    }
    best
}

/// Of the pairs against a claim that rulings are the same, the one whose rulings lie farthest apart;
/// where diagrams are too large, the farthest of those that are known.
pub(super) fn worst(
    inquiry: &mut Inquiry<'_, '_>,
    claim: &Claim,
    settled: &Settled,
) -> Option<Shown> {
    let ruleset = inquiry.ruleset;
    let differing = settled.firsts.iter().flat_map(|firsts| firsts.on.keys());
    let dimensions = differing.copied();
    let mut contrasts: Vec<(Harm, Case)> =
        dimensions.flat_map(|on| contrasts(ruleset, on)).collect();
    contrasts.sort_by_key(|(harm, _)| Reverse(harm.part()));
    let by_diagrams = settled.firsts.as_ref().and_then(|firsts| {
        inquiry.with_diagrams(|diagrams| {
            for (_, case) in &contrasts {
                if let Some(pair) = claim.pair_of(diagrams, case)? {
                    return Ok(Some(pair));
                }
            }
            claim.pair(diagrams, firsts)
        })
    });
    let by_diagrams = by_diagrams.flatten();
    let by_diagrams = by_diagrams.filter(|pair| claim.is_refuted_by(inquiry, pair));
    if let Some(pair) = by_diagrams {
        let shown = Shown::new(inquiry, pair);
        return Some(with_fewest_differences(inquiry, claim, shown).milder_first());
    }
    let known = settled.pairs.iter();
    known
        .map(|(_, pair)| Shown::new(inquiry, pair.clone()))
        .reduce(|best, next| {
            let farther = next.harm.part() > best.harm.part();
            if farther { next } else { best }
        })
        .map(|shown| with_fewest_differences(inquiry, claim, shown).milder_first())
}

/// Where these clauses say when they are met, and in which half of the pair they are.
pub(super) fn met_labels<'a>(
    ruleset: &'a Ruleset,
    shown: &'a Shown,
    clauses: &'a [ClauseId],
) -> impl Iterator<Item = (Span, String)> + 'a {
    clauses.iter().map(|id| {
        let clause = &ruleset[*id];
        let which = if shown.outcomes[0].met.contains(id.index()) {
            "only in the one incident"
        } else {
            "only in the other"
        };
        (clause.when_span, format!("{} is met {which}", clause.id))
    })
}

/// The two rulings of a pair in words: `none against caution`.
pub(super) fn against(ruleset: &Ruleset, shown: &Shown) -> String {
    let Some(on) = shown.dimension else {
        return "one against another".to_owned();
    };
    let [one, other] = shown
        .outcomes
        .each_ref()
        .map(|outcome| ruled(ruleset, on, outcome));
    format!("{one} against {other}")
}

/// What is ruled on a dimension, in words.
pub(super) fn ruled(ruleset: &Ruleset, on: DimensionId, outcome: &Outcome) -> String {
    let Some(ruling) = outcome.rulings.get(on.index()) else {
        return String::new();
    };
    let all_apply = ruleset[on].when_several == WhenSeveral::AllApply;
    match ruling.basis {
        Basis::Gap | Basis::Silence => "no ruling".to_owned(),
        Basis::Contradiction => "a contradiction".to_owned(),
        Basis::Clauses | Basis::Default if all_apply => {
            let names = ruling
                .values
                .iter()
                .filter_map(|value| ruleset[on].values.get(value));
            let names: Vec<&str> = names.map(|value| value.name.as_str()).collect();
            match names.as_slice() {
                [] => "nothing".to_owned(),
                names => words::and_list(names),
            }
        }
        Basis::Clauses | Basis::Default => words::values(ruleset, on, ruling.values),
    }
}

/// The clauses whose rulings stand on the dimension in one half of a pair and not in the other, and
/// then those that stand in both; each with what it rules.
pub(super) fn standing(
    ruleset: &Ruleset,
    on: DimensionId,
    one: &Outcome,
    other: &Outcome,
) -> Vec<(ClauseId, ValueSet)> {
    let here = |outcome: &Outcome| {
        outcome
            .standing
            .get(on.index())
            .cloned()
            .unwrap_or_default()
    };
    let (one, other) = (here(one), here(other));
    let mut all: Vec<ClauseId> = Vec::new();
    for clause in one.iter().chain(&other) {
        if !all.contains(clause) {
            all.push(*clause);
        }
    }
    all.sort_by_key(|clause| one.contains(clause) && other.contains(clause));
    all.into_iter()
        .filter_map(|clause| Some((clause, ruleset[clause].ruling_on(on)?)))
        .collect()
}
