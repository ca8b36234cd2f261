//! How claims about pairs of scenarios are settled.
//!
//! Pairs against it are looked
//! for without the solver first: a scenario that meets a clause, and the same scenario moved. What
//! is left goes to the solver as a question about the twin, clause by clause: whatever differs
//! between the two halves begins with a clause that reads what may differ. Decision diagrams, where
//! they are not too large, say how many scenarios are the first of such a pair, and which.

use super::claim::{Claim, Direction, Firsts, Judged, Pair, Reads};
use super::finding::General;
use super::inquiry::{self, Inquiry};
use super::precedent::Precedent;
use super::seen::in_the_way;
use super::witness::Trial;
use crate::logic::{
    Code, Count, Formula, Layers, Name, Pairing, Part, Scenario, Theory, TooLarge, World,
    highest_code, is_valid,
};
use crate::model::{AttributeId, AttributeKind, ClauseId, Ruleset, ValueSet};
use crate::solve::{Answer, Reason, Solver, Z3Solver};
use fixedbitset::FixedBitSet;
use std::collections::BTreeSet;
use std::ops::RangeInclusive;
use std::rc::Rc;

/// The most ways in which one scenario is moved.
const MOST_WAYS: usize = 256;

/// How much is wanted of settling a claim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    /// Whether there is a pair against it.
    APair,
    /// A pair for each clause with which a difference can begin.
    EveryClause,
}

/// What became of a claim.
#[derive(Clone, Debug, Default)]
pub(super) struct Settled {
    /// Pairs against it, with the clauses with which the difference begins, where that is known.
    pub(super) pairs: Vec<(Option<ClauseId>, Pair)>,
    /// What stayed open.
    pub(super) open: Option<Reason>,
    /// The scenarios that are the first of a pair against it, where diagrams could tell.
    pub(super) firsts: Option<Firsts>,
    /// Whether there is a pair for every clause with which a difference can begin.
    pub(super) every: bool,
}

impl Settled {
    /// The same without what only its own tools understand.
    pub(super) fn kept(&self) -> Settled {
        Settled {
            firsts: None,
            ..self.clone()
        }
    }
}

/// Looks for pairs against a claim; `known` are those of another edition, against the same claim.
pub(super) fn settle(
    inquiry: &mut Inquiry<'_, '_>,
    claim: &Claim,
    wanted: Wanted,
    known: Option<&Settled>,
) -> Settled {
    let mut settled = look_for_pairs(inquiry, claim, wanted, known);
    settled.pairs.sort_by_key(|(clause, _)| *clause);
    let all_wanted = wanted == Wanted::EveryClause || settled.pairs.is_empty();
    settled.every = settled.open.is_none() && all_wanted;
    settled
}

fn look_for_pairs(
    inquiry: &mut Inquiry<'_, '_>,
    claim: &Claim,
    wanted: Wanted,
    known: Option<&Settled>,
) -> Settled {
    let mut settled = Settled::default();
    if claim.holds_by_form() {
        return settled;
    }
    if let Some(reason) = inquiry.exhausted() {
        settled.open = Some(reason);
        return settled;
    }
    let before = known.and_then(|known| Before::of(inquiry, claim, known));
    let mut left = Vec::new();
    let mut readers = claim.twin.readers();
    if wanted == Wanted::APair
        && let Some(pair) = before.as_ref().and_then(|it| it.any(inquiry, claim))
    {
        settled.pairs.push(pair);
        readers.clear();
    }
    for reader in readers {
        if let Some(reason) = inquiry.exhausted() {
            settled.open = Some(reason);
            return settled;
        }
        let shown = before
            .as_ref()
            .and_then(|it| it.through(inquiry, claim, reader));
        if shown.is_none() && before.as_ref().is_some_and(|it| it.rules_out(reader)) {
            continue;
        }
        match shown.or_else(|| try_moving(inquiry, claim, reader)) {
            Some(pair) => {
                settled.pairs.push((Some(reader), pair));
                if wanted == Wanted::APair {
                    break;
                }
            }
            None => left.push(reader),
        }
    }
    settled.firsts = inquiry.with_diagrams(|diagrams| {
        if diagrams.is_prepared() {
            claim.firsts(diagrams)
        } else {
            Err(TooLarge)
        }
    });
    if inquiry.asks_diagrams()
        && let Some(firsts) = settled.firsts.clone()
    {
        // Nothing is against it: the diagrams hold all pairs at once.
        if firsts.all.is_false() && settled.pairs.is_empty() {
            return settled;
        }
        left = through_diagrams(inquiry, claim, wanted, left, &firsts, &mut settled);
    }
    if !left.is_empty() && wanted == Wanted::EveryClause || settled.pairs.is_empty() {
        ask_twin(inquiry, claim, wanted, &left, &mut settled);
    }
    settled
}

/// What is known of a claim in another edition.
struct Before<'p> {
    precedent: &'p Precedent<'p>,
    settled: &'p Settled,
    /// Clauses beside which one can be met, in one half of a pair, that does not do the same in both.
    beside: FixedBitSet,
}

impl<'p> Before<'p> {
    fn of(inquiry: &Inquiry<'p, '_>, claim: &Claim, settled: &'p Settled) -> Option<Before<'p>> {
        let precedent = inquiry.precedent()?;
        Some(Before {
            precedent,
            settled,
            beside: precedent.beside_changed(&claim.pairing().touched()),
        })
    }

    /// A pair against the claim that is one here as well.
    fn any(&self, inquiry: &Inquiry<'_, '_>, claim: &Claim) -> Option<(Option<ClauseId>, Pair)> {
        let mut pairs = self.settled.pairs.iter();
        let (through, pair) = pairs.find(|(_, pair)| claim.is_refuted_by(inquiry, pair))?;
        let through = through.and_then(|was| self.precedent.later(was));
        Some((through, pair.clone()))
    }

    /// The same with the difference beginning with a clause.
    fn through(&self, inquiry: &Inquiry<'_, '_>, claim: &Claim, reader: ClauseId) -> Option<Pair> {
        let was = self.precedent.earlier(reader)?;
        let mut pairs = self.settled.pairs.iter();
        let (_, pair) = pairs.find(|(through, _)| *through == Some(was))?;
        let both = [&pair.first, &pair.second];
        let alike = both.iter().all(|it| self.precedent.rule_alike_in(it));
        let shows = || {
            let [one, other] = both.map(|it| inquiry.outcome(it).met.contains(reader.index()));
            one != other && claim.is_refuted_by(inquiry, pair)
        };
        (alike || shows()).then(|| pair.clone())
    }

    /// Whether there was none through a clause, and can be none here.
    fn rules_out(&self, reader: ClauseId) -> bool {
        let was = self.precedent.earlier(reader);
        let mut pairs = self.settled.pairs.iter();
        self.settled.every
            && was.is_some()
            && !self.beside.contains(reader.index())
            && !pairs.any(|(through, _)| *through == was)
    }
}

/// Describes the scenarios that are the first of a pair against a claim, as far as can be told; `first`
/// is one of them.
pub(super) fn describe_firsts(
    inquiry: &mut Inquiry<'_, '_>,
    claim: &Claim,
    settled: &Settled,
    first: &Scenario,
    mentioned: &BTreeSet<AttributeId>,
) -> (General, Option<Count>) {
    match &settled.firsts {
        Some(firsts) => inquiry.describe_set(&firsts.all, mentioned),
        None => inquiry
            .describe_firsts_around(claim, first, mentioned)
            .unwrap_or_default(),
    }
}

/// Looks into the diagrams for what was not found by moving scenarios; returns what they leave open.
fn through_diagrams(
    inquiry: &mut Inquiry<'_, '_>,
    claim: &Claim,
    wanted: Wanted,
    left: Vec<ClauseId>,
    firsts: &Firsts,
    settled: &mut Settled,
) -> Vec<ClauseId> {
    if wanted == Wanted::APair {
        if settled.pairs.is_empty() {
            let pair = inquiry.with_diagrams(|diagrams| claim.pair(diagrams, firsts));
            let pair = pair.flatten();
            let pair = pair.filter(|pair| claim.is_refuted_by(inquiry, pair));
            settled.pairs.extend(pair.map(|pair| (None, pair)));
        }
        return left;
    }
    let mut open = Vec::new();
    for clause in left {
        match inquiry.with_diagrams(|diagrams| claim.pair_through(diagrams, firsts, clause)) {
            Some(Some(pair)) if claim.is_refuted_by(inquiry, &pair) => {
                settled.pairs.push((Some(clause), pair));
            }
            Some(None) => {}
            _ => open.push(clause),
        }
    }
    if settled.pairs.is_empty() {
        // The difference begins with where a ruling is due.
        let pair = inquiry.with_diagrams(|diagrams| claim.pair(diagrams, firsts));
        let pair = pair.flatten();
        let pair = pair.filter(|pair| claim.is_refuted_by(inquiry, pair));
        settled.pairs.extend(pair.map(|pair| (None, pair)));
    }
    open
}

/// Asks the solver for what was not found by moving scenarios.
fn ask_twin(
    inquiry: &Inquiry<'_, '_>,
    claim: &Claim,
    wanted: Wanted,
    left: &[ClauseId],
    settled: &mut Settled,
) {
    let twin = &claim.twin;
    let due_readers = twin.due_readers();
    if claim.reads == Reads::Rulings && left.is_empty() && due_readers.is_empty() {
        return;
    }
    let reach = inquiry::reach(twin.ruleset());
    let theory = Theory::new(twin.ruleset());
    let question = claim.question();
    let met = |id| Formula::from(Name::Met(World::Actual, id));
    let ask = |clause: Option<ClauseId>, piece: &Formula| {
        let theory = match clause {
            Some(clause) => {
                let near = reach.cell_box(clause).map(|near| reach.meeting(near));
                theory.among(near.unwrap_or_default())
            }
            None => Theory::new(twin.ruleset()),
        };
        let answer = match inquiry.exhausted() {
            Some(reason) => Answer::Undecided(reason),
            None => Z3Solver::over(theory, inquiry.budget().clone()).ask(piece),
        };
        match answer {
            Answer::Yes(both) => {
                let (first, second) = twin.split(&both);
                let pair = Pair { first, second };
                if claim.is_refuted_by(inquiry, &pair) {
                    return Ok(Some(pair));
                }
                Err(Reason::ReplayFailed)
            }
            Answer::No => Ok(None),
            Answer::Undecided(reason) => Err(reason),
        }
    };
    if claim.reads == Reads::FactsToo {
        match ask(None, &question) {
            Ok(pair) => settled.pairs.extend(pair.map(|pair| (None, pair))),
            Err(reason) => settled.open = Some(reason),
        }
        return;
    }
    for reader in left {
        let (one, other) = (*reader, twin.second_clause(*reader));
        let ways = match claim.direction {
            Direction::EitherWay => vec![(one, other)],
            Direction::OneWay => vec![(one, other), (other, one)],
        };
        for (here, there) in ways {
            let piece = Formula::all([met(here), met(there).negated(), question.clone()]);
            match ask(Some(here), &piece) {
                Ok(Some(pair)) => {
                    settled.pairs.push((Some(*reader), pair));
                    if wanted == Wanted::APair {
                        return;
                    }
                    break;
                }
                Ok(None) => {}
                Err(reason) => settled.open = Some(reason),
            }
        }
    }
    for dimension in due_readers {
        let due = |id| Formula::from(Name::Due(World::Actual, id));
        let (one, other) = (due(dimension), due(twin.second_dimension(dimension)));
        let changes = Formula::any([
            Formula::all([one.clone(), other.clone().negated()]),
            Formula::all([one.negated(), other]),
        ]);
        match ask(None, &Formula::all([changes, question.clone()])) {
            Ok(Some(pair)) => {
                settled.pairs.push((None, pair));
                if wanted == Wanted::APair {
                    return;
                }
            }
            Ok(None) => {}
            Err(reason) => settled.open = Some(reason),
        }
    }
}

/// Looks for a pair against the claim, one half of which meets the clause and the other does not.
fn try_moving(inquiry: &Inquiry<'_, '_>, claim: &Claim, reader: ClauseId) -> Option<Pair> {
    let mut found = None;
    let when = &inquiry.ruleset[reader].when;
    inquiry.search(&[when], |scenario, outcome| {
        if !outcome.met.contains(reader.index()) {
            return Trial::Hopeless;
        }
        let here = Judged {
            scenario,
            outcome: Rc::new(outcome.clone()),
        };
        for moved in ways(inquiry, claim.pairing(), scenario) {
            if !is_valid(inquiry.ruleset, &moved) {
                continue;
            }
            let there = Judged::new(inquiry, &moved);
            if there.outcome.met.contains(reader.index())
                || there.outcome.rulings == outcome.rulings
            {
                continue;
            }
            for (first, second) in [(&here, &there), (&there, &here)] {
                if claim.is_against(inquiry.ruleset, first, second) {
                    found = Some(Pair {
                        first: first.scenario.clone(),
                        second: second.scenario.clone(),
                    });
                    return Trial::Good;
                }
            }
        }
        Trial::Avoid(in_the_way(inquiry, reader, outcome))
    });
    found
}

/// A scenario with other values of what may change: each attribute alone, then all together, one
/// value of each cell.
fn ways(inquiry: &Inquiry<'_, '_>, pairing: &Pairing, scenario: &Scenario) -> Vec<Scenario> {
    let own = pairing.changing_attributes().iter();
    let own: Vec<AttributeId> = own.copied().chain(pairing.rising_attribute()).collect();
    let ruleset = inquiry.ruleset;
    let layers = inquiry.reach.layers();
    let change = |from: &Scenario, id: AttributeId| {
        let values = values(ruleset, layers, id).into_iter();
        let now = from.get(id);
        values.filter(move |code| now != Some(*code)).map({
            let from = from.clone();
            move |code| {
                let mut moved = from.clone();
                moved.set(id, Some(code));
                Layers::settle_asking(ruleset, &mut moved);
                moved
            }
        })
    };
    let mut found: Vec<Scenario> = own
        .iter()
        .flat_map(|id| change(scenario, *id))
        .take(MOST_WAYS)
        .collect();
    if own.len() > 1 {
        let mut together = vec![scenario.clone()];
        for id in &own {
            let more: Vec<Scenario> = together.iter().flat_map(|from| change(from, *id)).collect();
            together.extend(more);
            together.truncate(MOST_WAYS);
        }
        found.extend(together);
    }
    found
}

/// The values within a range, lowest first; of a number, those at the edges of its cells.
pub(super) fn edges(
    inquiry: &Inquiry<'_, '_>,
    id: AttributeId,
    range: RangeInclusive<u64>,
) -> Vec<u64> {
    let layers = inquiry.reach.layers();
    let layer = layers.all().get(layers.of(id).start);
    let mut edges: Vec<u64> = match layer.map(|layer| &layer.part) {
        Some(Part::Steps { ranges, .. }) => {
            let ends = ranges.iter().flat_map(|(low, high)| [*low, *high]);
            ends.filter_map(|step| u64::try_from(step).ok()).collect()
        }
        _ => range.clone().take(ValueSet::CAPACITY).collect(),
    };
    edges.retain(|step| range.contains(step));
    edges.dedup();
    edges
}

/// A value of each cell of an attribute; of many items, none, each alone and all.
fn values(ruleset: &Ruleset, layers: &Layers, id: AttributeId) -> Vec<Code> {
    let layer = layers.all().get(layers.of(id).start);
    match (&ruleset[id].kind, layer.map(|layer| &layer.part)) {
        (AttributeKind::YesNo, _) => vec![Code(0), Code(1)],
        (AttributeKind::Choice(names) | AttributeKind::Scale(names), _) => {
            (0..names.len() as u64).map(Code).collect()
        }
        (AttributeKind::Number(_), Some(Part::Steps { ranges, .. })) => {
            let lows = ranges
                .iter()
                .filter_map(|(low, _)| u64::try_from(*low).ok());
            lows.map(Code).collect()
        }
        (AttributeKind::Number(_), _) => Vec::new(),
        (AttributeKind::Several(items), _) if items.len() <= 5 => {
            (0..1u64 << items.len()).map(Code).collect()
        }
        (AttributeKind::Several(items), _) => {
            let all = highest_code(&ruleset[id].kind);
            let each =
                (0..items.len()).filter_map(|item| 1u64.checked_shl(u32::try_from(item).ok()?));
            [0].into_iter().chain(each).chain([all]).map(Code).collect()
        }
    }
}
