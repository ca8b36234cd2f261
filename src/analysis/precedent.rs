//! What the check of one edition says of another.
//!
//! Of two editions of a long rulebook nearly everything is the same. What was answered about a clause in
//! the one holds in the other where the clause does the same and every clause that can be met beside it
//! does (`common`): in such scenarios both editions rule alike. What was found to hold nowhere, in the
//! whole space, can hold in the other edition only where a clause can be met that does not do the same.
//! And a scenario that showed something is evaluated again, which costs little. So the check of the
//! second edition asks about what a change can reach, however long the rulebook is.

use super::common::Common;
use super::contradiction::Family;
use super::finding::{Checked, Finding, Outcome};
use super::pairs::Settled;
use super::parts::{self, Path};
use super::seen::Seen;
use super::splitting::{self, Piece};
use super::standing::Standing;
use crate::logic::{CellBox, Evaluator, Reach, Scenario, Want, dimensions_read, is_valid};
use crate::model::{
    AttributeId, ClauseId, Condition, DimensionId, Kind, Principle, Promise, Reference, Ruleset,
};
use crate::solve::Answer;
use fixedbitset::FixedBitSet;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The answers of a check, as far as they can be of use to the check of another edition.
#[derive(Debug, Default)]
pub(super) struct Answers {
    /// Whether the names of the ruleset are too large for diagrams.
    pub(super) is_large: bool,
    /// What each clause was seen to do, where that was looked at.
    pub(super) seen: Vec<Seen>,
    /// On dimensions of which all families were listed: those that are not settled by no, and what was
    /// answered of the family where nothing that it reads is at fault, and where something is.
    pub(super) clashes: BTreeMap<DimensionId, BTreeMap<Family, [Answer; 2]>>,
    /// What clauses come to that were not seen to matter.
    pub(super) standings: BTreeMap<ClauseId, Standing>,
    /// Dimensions that are never at fault.
    pub(super) sound: BTreeSet<DimensionId>,
    /// Dimensions without a gap.
    pub(super) without_gap: BTreeSet<DimensionId>,
    /// What clauses presuppose.
    pub(super) presupposed: BTreeMap<ClauseId, Answer>,
    /// Whether a clause that leaves a choice leaves it somewhere.
    pub(super) choices: BTreeMap<(DimensionId, ClauseId), Answer>,
    /// For each clause, scenarios in which something turns on a part of its words; none where nothing does.
    pub(super) words: BTreeMap<ClauseId, BTreeMap<Path, Option<Scenario>>>,
    /// For each clause, scenarios in which something turns on its references, in their order.
    pub(super) references: BTreeMap<ClauseId, Vec<Option<Scenario>>>,
    /// Pairs that differ in what is judged, by what differs.
    pub(super) judged: BTreeMap<BTreeSet<AttributeId>, Settled>,
    /// Pairs against principles, by their ids.
    pub(super) promised: BTreeMap<String, Settled>,
}

/// The most places of change that are asked about one by one.
const MOST_PLACES: usize = 100;

/// What turned on something in the earlier edition, and what that says of the later.
#[derive(Clone, Copy, Debug)]
pub(super) enum Turned<'p> {
    /// Something turns on it in this scenario, in both editions.
    Known(&'p Scenario),
    /// The same in the earlier edition; in the later that has to be looked at again.
    Perhaps(&'p Scenario),
    /// Nothing, in both editions.
    Nothing,
}

impl<'p> Turned<'p> {
    /// The answer, where it is the same in both editions.
    pub(super) fn answer(self) -> Option<Answer> {
        match self {
            Turned::Known(shown) => Some(Answer::Yes(shown.clone())),
            Turned::Perhaps(_) => None,
            Turned::Nothing => Some(Answer::No),
        }
    }

    /// A scenario to be looked at.
    pub(super) fn shown(self) -> Option<&'p Scenario> {
        match self {
            Turned::Known(shown) | Turned::Perhaps(shown) => Some(shown),
            Turned::Nothing => None,
        }
    }
}

/// An earlier edition whose check has been made, as a later one sees it.
#[derive(Debug)]
pub(super) struct Precedent<'p> {
    common: Common<'p>,
    before: &'p Ruleset,
    after: &'p Ruleset,
    answers: &'p Answers,
    checked: &'p Checked,
    earlier: &'p Reach<'p>,
    later: &'p Reach<'p>,
    /// Principles of the later edition that promise the same in the earlier.
    principles: BTreeSet<String>,
    /// Clauses of the later edition beside which one can be met, in either, that does not do the same.
    beside: FixedBitSet,
    /// Where such a clause can be met.
    changed: Vec<Piece>,
}

impl<'p> Precedent<'p> {
    /// `None` where the two have so little in common that it is of no use.
    pub(super) fn new(
        mut common: Common<'p>,
        (before, earlier): (&'p Ruleset, &'p Reach<'p>),
        (after, later): (&'p Ruleset, &'p Reach<'p>),
        (checked, answers): (&'p Checked, &'p Answers),
    ) -> Option<Precedent<'p>> {
        if common.new.len() * 2 > after.clauses.len() {
            return None;
        }
        let principles = after.principles.iter().filter(|now| {
            let mut all = before.principles.iter();
            let was = all.find(|was| was.id == now.id);
            was.is_some_and(|was| common.promises_the_same(was, now))
        });
        let principles = principles.map(|now| now.id.clone()).collect();
        let mut precedent = Precedent {
            common,
            before,
            after,
            answers,
            checked,
            earlier,
            later,
            principles,
            beside: FixedBitSet::new(),
            changed: Vec::new(),
        };
        precedent.beside = precedent.beside_changed(&BTreeSet::new());
        precedent.changed = precedent.places();
        Some(precedent)
    }

    /// The clauses of the later edition beside which one can be met, in either edition, that does not do
    /// the same, if these attributes may have any value.
    pub(super) fn beside_changed(&self, free: &BTreeSet<AttributeId>) -> FixedBitSet {
        let mut beside = FixedBitSet::with_capacity(self.after.clauses.len());
        let near = |reach: &Reach<'_>, clause: ClauseId| {
            let own = reach.cell_box(clause)?;
            Some(reach.meeting(&freed(reach, own, free)))
        };
        for clause in &self.common.new {
            beside.insert(clause.index());
            if let Some(near) = near(self.later, *clause) {
                beside.union_with(&near);
            }
        }
        for clause in &self.common.gone {
            let near = near(self.earlier, *clause).unwrap_or_default();
            beside.union_with(&self.in_later(&near));
        }
        beside
    }

    /// Where a clause can be met, in either edition, that does not do the same in both; with the clauses
    /// of the later edition that can be met there.
    fn places(&self) -> Vec<Piece> {
        let new = self.common.new.iter().filter_map(|clause| {
            let own = self.later.cell_box(*clause)?;
            Some(Piece {
                formula: splitting::formula(self.later, own),
                clauses: self.later.meeting(own),
            })
        });
        let gone = self.common.gone.iter().filter_map(|clause| {
            let own = self.earlier.cell_box(*clause)?;
            let mut clauses = self.in_later(&self.earlier.meeting(own));
            clauses.extend(self.common.new.iter().map(|clause| clause.index()));
            Some(Piece {
                formula: splitting::formula(self.earlier, own),
                clauses,
            })
        });
        new.chain(gone).collect()
    }

    /// Where alone something can hold in the later edition that holds nowhere in the earlier; `None` where
    /// these are so many places that it is better to ask of all at once.
    pub(super) fn changed(&self) -> Option<&[Piece]> {
        (self.changed.len() <= MOST_PLACES).then_some(self.changed.as_slice())
    }

    fn in_later(&self, earlier: &FixedBitSet) -> FixedBitSet {
        let mut later = FixedBitSet::with_capacity(self.after.clauses.len());
        let ids = earlier.ones().map(ClauseId::new);
        later.extend(ids.filter_map(|id| Some(self.common.later(id)?.index())));
        later
    }

    /// The clause of the earlier edition that does what this one does, if in its scenarios both editions
    /// rule alike.
    fn alike(&self, later: ClauseId) -> Option<ClauseId> {
        if self.beside.contains(later.index()) {
            return None;
        }
        self.common.earlier(later)
    }

    /// What a clause was seen to do.
    pub(super) fn seen(&self, clause: ClauseId) -> Option<Seen> {
        let known = self.answers.seen.get(self.alike(clause)?.index())?;
        let clashes = known.clashes.iter().map(|((dimension, other), shown)| {
            Some(((*dimension, self.common.later(*other)?), Arc::clone(shown)))
        });
        let clashes: Option<BTreeMap<_, _>> = clashes.collect();
        Some(Seen {
            clashes: clashes?,
            ..known.clone()
        })
    }

    /// Whether a family clashes: where nothing that it reads is at fault, and where something is.
    pub(super) fn clash(&self, family: &Family) -> Option<[Answer; 2]> {
        let known = self.answers.clashes.get(&family.dimension)?;
        let clauses = family.clauses.iter().map(|clause| self.alike(*clause));
        let mut clauses: Vec<ClauseId> = clauses.collect::<Option<_>>()?;
        clauses.sort_unstable();
        let was = Family {
            dimension: family.dimension,
            clauses,
        };
        let answers = known.get(&was).cloned();
        let answers = answers.unwrap_or([Answer::No, Answer::No]);
        let settled = answers.iter().all(is_settled);
        settled.then_some(answers)
    }

    /// What a clause comes to that reads no ruling.
    pub(super) fn standing(&self, clause: ClauseId) -> Option<Standing> {
        let was = self.alike(clause)?;
        let known = self.answers.standings.get(&was)?;
        let local = self.reads_no_ruling(clause) || matches!(known, Standing::Fine);
        let settled = !matches!(known, Standing::Open(..) | Standing::Untold(_));
        (local && settled).then(|| known.clone())
    }

    fn reads_no_ruling(&self, clause: ClauseId) -> bool {
        dimensions_read(&self.after[clause].when).is_empty()
    }

    /// Whether the clause would be met with the unasked taken as no, where it is not.
    pub(super) fn presupposes(&self, clause: ClauseId) -> Option<Answer> {
        // What the condition says is the whole question, whatever can be met beside the clause.
        let was = self.common.earlier(clause)?;
        let known = self.answers.presupposed.get(&was)?;
        (self.reads_no_ruling(clause) && is_settled(known)).then(|| known.clone())
    }

    /// Whether a clause that leaves a choice leaves it somewhere.
    pub(super) fn choice(&self, dimension: DimensionId, clause: ClauseId) -> Option<Answer> {
        let was = self.alike(clause)?;
        let known = self.answers.choices.get(&(dimension, was))?;
        is_settled(known).then(|| known.clone())
    }

    /// Whether the earlier edition was never at fault on a dimension.
    pub(super) fn was_sound(&self, dimension: DimensionId) -> bool {
        self.answers.sound.contains(&dimension)
    }

    /// Whether the earlier edition had no gap on a dimension.
    pub(super) fn had_no_gap(&self, dimension: DimensionId) -> bool {
        self.answers.without_gap.contains(&dimension)
    }

    /// Whether both editions rule alike in a scenario, since none of the clauses that don't do the same in
    /// both can be met in it.
    pub(super) fn rule_alike_in(&self, scenario: &Scenario) -> bool {
        let met = |reach: &Reach<'_>, changed: &[ClauseId]| {
            let mut changed = changed.iter();
            changed.any(|clause| reach.can_be_met(*clause, scenario))
        };
        !met(self.later, &self.common.new) && !met(self.earlier, &self.common.gone)
    }

    /// What turned on a part of a clause's words.
    pub(super) fn turned_on(&self, clause: ClauseId, part: &Path) -> Option<Turned<'p>> {
        let was = self.common.was(clause)?;
        let same = self.common.earlier(clause).is_some();
        match self.answers.words.get(&was)?.get(part)? {
            Some(shown) if same && self.rule_alike_in(shown) => Some(Turned::Known(shown)),
            Some(shown) => Some(Turned::Perhaps(shown)),
            None if same && self.rule_alike_without(was, clause, part) => Some(Turned::Nothing),
            None => None,
        }
    }

    /// Whether both editions rule alike wherever a clause is met, with a part of its words or without.
    fn rule_alike_without(&self, earlier: ClauseId, later: ClauseId, part: &Path) -> bool {
        let gone = BTreeSet::from([part.clone()]);
        let (now, then) = (&self.after[later].when, &self.before[earlier].when);
        self.rule_alike_where(now, then)
            && self.rule_alike_where(&parts::without(now, &gone), &parts::without(then, &gone))
    }

    /// Whether both editions rule alike wherever a condition holds, told in the later and in the earlier.
    fn rule_alike_where(&self, now: &Condition, then: &Condition) -> bool {
        let none_met = |reach: &Reach<'_>, condition: &Condition, changed: &[ClauseId]| {
            let met = reach.meeting(&reach.box_of(condition, Want::True));
            !changed.iter().any(|clause| met.contains(clause.index()))
        };
        none_met(self.later, now, &self.common.new)
            && none_met(self.earlier, then, &self.common.gone)
    }

    /// Whether the names of the earlier edition were too large for diagrams.
    pub(super) fn was_large(&self) -> bool {
        self.answers.is_large
    }

    /// A scenario in which something turned on a reference of a clause.
    pub(super) fn turned_on_reference(
        &self,
        clause: ClauseId,
        reference: &Reference,
    ) -> Option<&'p Scenario> {
        let was = self.common.was(clause)?;
        let mut all = self.after[clause].references.iter();
        let place = all.position(|one| one == reference)?;
        let known = self.answers.references.get(&was)?;
        // It is looked at again: a group that it means may have other clauses now.
        known.get(place)?.as_ref()
    }

    /// Pairs that differ in what is judged.
    pub(super) fn judged(&self, values: &BTreeSet<AttributeId>) -> Option<&'p Settled> {
        self.answers.judged.get(values)
    }

    /// Pairs against a principle that promises the same in both editions.
    pub(super) fn promised(&self, principle: &Principle) -> Option<&'p Settled> {
        let same = self.principles.contains(&principle.id);
        let known = self.answers.promised.get(&principle.id);
        known.filter(|_| same)
    }

    /// Whether a principle that promises the same in both was proved to be kept.
    pub(super) fn was_kept(&self, principle: &Principle) -> bool {
        let mut verdicts = self.checked.verdicts.iter();
        let of_it = verdicts.find(|it| it.principle.as_ref() == Some(&principle.id));
        let proved = of_it.is_some_and(|verdict| verdict.outcome == Outcome::Proved);
        proved && self.principles.contains(&principle.id)
    }

    /// How a principle that promises the same in both was broken.
    pub(super) fn breach(&self, principle: &Principle) -> Option<&'p Finding> {
        let mut findings = self.checked.findings.iter();
        let found = findings.find(|it| it.principle.as_ref() == Some(&principle.id));
        found.filter(|_| self.principles.contains(&principle.id))
    }

    /// The finding that the earlier edition had of this kind about these clauses, in the words of the
    /// later; only where nothing about it can have changed.
    pub(super) fn finding(
        &self,
        kind: Kind,
        clauses: &[ClauseId],
        dimension: Option<DimensionId>,
    ) -> Option<Finding> {
        let was: Option<Vec<ClauseId>> = clauses.iter().map(|clause| self.alike(*clause)).collect();
        let was = was?;
        let mut findings = self.checked.findings.iter();
        let found = findings.find(|it| {
            // What displaces a clause is named behind it.
            let about =
                it.clauses == was || kind == Kind::Displaced && it.clauses.first() == was.first();
            it.kind == kind && about && (dimension.is_none() || it.dimension == dimension)
        });
        self.retold(found?)
    }

    /// A finding of the earlier edition in the later; `None` where it would have to be told in other words.
    pub(super) fn retold(&self, finding: &Finding) -> Option<Finding> {
        let mut shown = finding.scenario.iter().chain(&finding.pair);
        if !self.common.same_words() || !shown.all(|shown| self.is_ruled_alike(shown)) {
            return None;
        }
        let clauses = finding.clauses.iter().map(|id| self.common.later(*id));
        let rulings = finding.rulings.iter();
        let rulings = rulings.map(|(id, values)| Some((self.common.later(*id)?, *values)));
        let labels = finding.labels.iter();
        let labels = labels.map(|(span, label)| Some((self.common.place(*span)?, label.clone())));
        Some(Finding {
            clauses: clauses.collect::<Option<_>>()?,
            rulings: rulings.collect::<Option<_>>()?,
            labels: labels.collect::<Option<_>>()?,
            repairs: Vec::new(),
            accepted: None,
            ..finding.clone()
        })
    }

    /// Whether the plain evaluator agrees that both editions have a scenario and rule alike in it.
    fn is_ruled_alike(&self, scenario: &Scenario) -> bool {
        let was = Evaluator::new(self.before);
        let now = Evaluator::new(self.after);
        is_valid(self.after, scenario)
            && self.earlier.outcome(was, scenario).rulings
                == self.later.outcome(now, scenario).rulings
    }

    /// Whether both editions rule alike wherever a principle says what is expected.
    pub(super) fn rule_alike_within(&self, principle: &Principle) -> bool {
        let mut all = self.before.principles.iter();
        let was = all.find(|was| was.id == principle.id);
        let same = was.filter(|_| self.principles.contains(&principle.id));
        match (&principle.promise, same.map(|was| &was.promise)) {
            (
                Promise::Expect { whenever: now, .. },
                Some(Promise::Expect { whenever: then, .. }),
            ) => self.rule_alike_where(now, then),
            _ => false,
        }
    }

    /// The clause of the later edition that does what this one of the earlier did.
    pub(super) fn later(&self, earlier: ClauseId) -> Option<ClauseId> {
        self.common.later(earlier)
    }

    /// The clause of the earlier edition that does what this one of the later does.
    pub(super) fn earlier(&self, later: ClauseId) -> Option<ClauseId> {
        self.common.earlier(later)
    }
}

fn is_settled(answer: &Answer) -> bool {
    !matches!(answer, Answer::Undecided(_))
}

/// A box in which some attributes may have any value.
fn freed(reach: &Reach<'_>, own: &CellBox, free: &BTreeSet<AttributeId>) -> CellBox {
    let mut freed = own.clone();
    for layer in free.iter().flat_map(|id| reach.layers().of(*id)) {
        freed.cells.remove(&layer);
    }
    freed
}
