//! What two editions of a ruleset have in common.
//!
//! Only editions with the same scenarios and the same dimensions are laid beside each other: their
//! attributes, their background and what their dimensions take say the same and stand at the same
//! places, so that a scenario of the one is a scenario of the other. Of the clauses it is said which
//! do the same in both: they are met in the same scenarios, rule the same, and yield to the same of
//! those clauses that both editions have. Nothing is asked here; what says the same in other words
//! counts as different.

use crate::model::{
    Attribute, AttributeKind, BackgroundRule, ClauseId, Condition, ConditionKind, Dimension, Gain,
    Meaning, Origin, Principle, Promise, QuantityValue, Ruleset, TermId,
};
use crate::source::Span;
use fixedbitset::FixedBitSet;
use std::collections::BTreeMap;

/// What a later edition has in common with an earlier one.
#[derive(Debug)]
pub(super) struct Common<'r> {
    before: &'r Ruleset,
    after: &'r Ruleset,
    /// For each clause of the later edition, the clause of the earlier that it was.
    was: Vec<Option<ClauseId>>,
    /// For each clause of the later edition, the clause of the earlier that does the same.
    earlier: Vec<Option<ClauseId>>,
    /// The other way round.
    later: Vec<Option<ClauseId>>,
    /// Clauses of the later edition that the earlier has not, or not so.
    pub(super) new: Vec<ClauseId>,
    /// Clauses of the earlier edition that the later has not, or not so.
    pub(super) gone: Vec<ClauseId>,
    /// Whether what the earlier edition calls something is what the later calls it: terms and quantities
    /// mean the same, and clauses that do the same have their numbers.
    words: bool,
    /// Where words stand that are the same in both files, in the order of the earlier one.
    places: Vec<(Span, Span)>,
    terms: Terms<'r>,
}

impl<'r> Common<'r> {
    /// Lays two editions beside each other. `was` says of each clause of the later one which of the
    /// earlier it was. `None` where their scenarios or their dimensions are not the same.
    pub(super) fn of(
        before: &'r Ruleset,
        after: &'r Ruleset,
        was: &[Option<ClauseId>],
    ) -> Option<Common<'r>> {
        let mut taken = FixedBitSet::with_capacity(before.clauses.len());
        let mut once = |id: &ClauseId| id.index() < taken.len() && !taken.put(id.index());
        let was: Vec<_> = was.iter().map(|id| id.filter(&mut once)).collect();
        let mut terms = Terms::new(before, after);
        if !terms.same_space() {
            return None;
        }
        let mut is = vec![None; before.clauses.len()];
        for (later, earlier) in was.iter().enumerate() {
            if let Some(slot) = earlier.and_then(|earlier| is.get_mut(earlier.index())) {
                *slot = Some(ClauseId::new(later));
            }
        }
        let mut common = Common {
            before,
            after,
            earlier: vec![None; after.clauses.len()],
            later: vec![None; before.clauses.len()],
            new: Vec::new(),
            gone: Vec::new(),
            words: terms.same_words(),
            places: Vec::new(),
            was,
            terms,
        };
        for id in (0..after.clauses.len()).map(ClauseId::new) {
            match common.was(id) {
                Some(earlier) if common.does_the_same(earlier, id, &is) => {
                    common.put_together(earlier, id);
                }
                _ => common.new.push(id),
            }
        }
        common.gone = (0..before.clauses.len())
            .map(ClauseId::new)
            .filter(|id| common.later(*id).is_none())
            .collect();
        for (earlier, later) in before.principles.iter().zip(&after.principles) {
            common.note_place(earlier.span, later.span);
            if let Promise::Expect { expect, .. } = &earlier.promise
                && let Promise::Expect { expect: now, .. } = &later.promise
            {
                common.note_place(expect.span, now.span);
            }
        }
        common.places.sort_unstable();
        Some(common)
    }

    /// What a clause of the later edition was in the earlier, whether or not it does the same.
    pub(super) fn was(&self, later: ClauseId) -> Option<ClauseId> {
        self.was.get(later.index()).copied().flatten()
    }

    /// The clause of the earlier edition that does what this one of the later does.
    pub(super) fn earlier(&self, later: ClauseId) -> Option<ClauseId> {
        self.earlier.get(later.index()).copied().flatten()
    }

    /// The clause of the later edition that does what this one of the earlier did.
    pub(super) fn later(&self, earlier: ClauseId) -> Option<ClauseId> {
        self.later.get(earlier.index()).copied().flatten()
    }

    /// Whether names of the earlier edition may be used of the later.
    pub(super) fn same_words(&self) -> bool {
        self.words
    }

    /// Where words of the earlier edition stand in the later, if they are the same there.
    pub(super) fn place(&self, earlier: Span) -> Option<Span> {
        let begins = |span: Span| (span.source, span.start);
        let behind = self
            .places
            .partition_point(|(place, _)| begins(*place) <= begins(earlier));
        // Places may lie within each other: the nearest that goes on far enough.
        let before = self.places.get(..behind)?.iter().rev().take(MOST_NESTED);
        let mut around = before.filter(|(place, _)| moved(earlier, *place, *place).is_some());
        let (from, to) = around.next()?;
        moved(earlier, *from, *to)
    }

    /// Whether a principle promises the same in both.
    pub(super) fn promises_the_same(&mut self, earlier: &Principle, later: &Principle) -> bool {
        let terms = &mut self.terms;
        match (&earlier.promise, &later.promise) {
            (
                Promise::Expect { whenever, expect },
                Promise::Expect {
                    whenever: now,
                    expect: expected,
                },
            ) => terms.say_the_same(whenever, now) && terms.say_the_same(expect, expected),
            (Promise::ImpartialTo(one), Promise::ImpartialTo(other)) => one == other,
            (
                Promise::RisesWith {
                    attribute,
                    dimension,
                },
                Promise::RisesWith {
                    attribute: with,
                    dimension: on,
                },
            ) => attribute == with && dimension == on,
            (
                Promise::NoGain { party, by, gain },
                Promise::NoGain {
                    party: theirs,
                    by: step,
                    gain: won,
                },
            ) => {
                party == theirs
                    && terms.both_or_neither(by.as_ref(), step.as_ref())
                    && match (gain, won) {
                        (Gain::Raising(one), Gain::Raising(other))
                        | (Gain::Lowering(one), Gain::Lowering(other)) => one == other,
                        (Gain::To(one), Gain::To(other)) => terms.say_the_same(one, other),
                        _ => false,
                    }
            }
            _ => false,
        }
    }

    fn does_the_same(
        &mut self,
        earlier: ClauseId,
        later: ClauseId,
        is: &[Option<ClauseId>],
    ) -> bool {
        let (one, other) = (&self.before[earlier], &self.after[later]);
        let kept = |ids: &[ClauseId]| -> Vec<ClauseId> {
            let now = ids
                .iter()
                .filter_map(|id| is.get(id.index()).copied().flatten());
            let mut now: Vec<ClauseId> = now.collect();
            now.sort_unstable();
            now
        };
        let known = |ids: &[ClauseId]| -> Vec<ClauseId> {
            let known = ids.iter().copied().filter(|id| self.was(*id).is_some());
            let mut known: Vec<ClauseId> = known.collect();
            known.sort_unstable();
            known
        };
        one.rulings == other.rulings
            && kept(&one.yields_to) == known(&other.yields_to)
            && kept(&one.disapplied_by) == known(&other.disapplied_by)
            && self.terms.say_the_same(&one.when, &other.when)
    }

    fn put_together(&mut self, earlier: ClauseId, later: ClauseId) {
        if let Some(slot) = self.earlier.get_mut(later.index()) {
            *slot = Some(earlier);
        }
        if let Some(slot) = self.later.get_mut(earlier.index()) {
            *slot = Some(later);
        }
        let (one, other) = (&self.before[earlier], &self.after[later]);
        self.words &= one.id == other.id;
        // A draft may have put other words in place of some that say the same.
        let moved = |place: Span| moved(place, one.span, other.span);
        if one.places().map(moved).eq(other.places().map(Some)) {
            self.note_place(one.span, other.span);
        }
    }

    fn note_place(&mut self, earlier: Span, later: Span) {
        if self.before.sources.slice(earlier) == self.after.sources.slice(later) {
            self.places.push((earlier, later));
        }
    }
}

/// Where words that lie within some stand once these stand elsewhere.
fn moved(words: Span, from: Span, to: Span) -> Option<Span> {
    let within = words.source == from.source && from.start <= words.start && words.end <= from.end;
    within.then(|| Span {
        source: to.source,
        start: to.start + (words.start - from.start),
        end: to.start + (words.end - from.start),
    })
}

/// How many places that begin before some words are looked at for the one around them.
const MOST_NESTED: usize = 4;

/// The terms of two editions, and what is said with them.
#[derive(Debug)]
struct Terms<'r> {
    before: &'r Ruleset,
    after: &'r Ruleset,
    /// For each term of the later edition, whether it means the same in the earlier, where that was asked.
    known: Vec<Option<bool>>,
}

impl<'r> Terms<'r> {
    fn new(before: &'r Ruleset, after: &'r Ruleset) -> Self {
        Terms {
            before,
            after,
            known: vec![None; after.terms.len()],
        }
    }

    /// Whether the two editions have the same scenarios and the same dimensions, at the same places.
    fn same_space(&mut self) -> bool {
        let (before, after) = (self.before, self.after);
        let lengths = |ruleset: &Ruleset| {
            let of = (
                &ruleset.attributes,
                &ruleset.dimensions,
                &ruleset.background,
            );
            (of.0.len(), of.1.len(), of.2.len())
        };
        if lengths(before) != lengths(after) {
            return false;
        }
        let mut attributes = before.attributes.iter().zip(&after.attributes);
        let mut dimensions = before.dimensions.iter().zip(&after.dimensions);
        let mut background = before.background.iter().zip(&after.background);
        attributes.all(|(one, other)| self.same_attribute(one, other))
            && dimensions.all(|(one, other)| self.same_dimension(one, other))
            && background.all(|(one, other)| match (&one.rule, &other.rule) {
                (BackgroundRule::Never(one), BackgroundRule::Never(other))
                | (BackgroundRule::Always(one), BackgroundRule::Always(other)) => {
                    self.say_the_same(one, other)
                }
                _ => false,
            })
    }

    fn same_attribute(&mut self, one: &Attribute, other: &Attribute) -> bool {
        let kinds = match (&one.kind, &other.kind) {
            (AttributeKind::Number(one), AttributeKind::Number(other)) => one == other,
            (one, other) => {
                let names = |kind: &AttributeKind| -> Vec<String> {
                    kind.names().iter().map(|it| it.name.clone()).collect()
                };
                std::mem::discriminant(one) == std::mem::discriminant(other)
                    && names(one) == names(other)
            }
        };
        // A reading has the name of its term.
        let origins =
            matches!(one.origin, Origin::Stated) == matches!(other.origin, Origin::Stated);
        kinds
            && origins
            && one.name == other.name
            && one.judged == other.judged
            && one.set_by == other.set_by
            && self.both_or_neither(one.asked_when.as_ref(), other.asked_when.as_ref())
    }

    fn same_dimension(&mut self, one: &Dimension, other: &Dimension) -> bool {
        let names = |dimension: &Dimension| -> Vec<String> {
            dimension.values.iter().map(|it| it.name.clone()).collect()
        };
        let settings = |dimension: &Dimension| {
            (
                dimension.ordered,
                dimension.when_several,
                dimension.otherwise,
                dimension.intermediate,
            )
        };
        one.name == other.name
            && names(one) == names(other)
            && settings(one) == settings(other)
            && self.both_or_neither(one.required_when.as_ref(), other.required_when.as_ref())
    }

    /// Whether every name of the earlier edition means the same in the later.
    fn same_words(&mut self) -> bool {
        let (before, after) = (self.before, self.after);
        let quantities = after.quantities.iter();
        let quantities: BTreeMap<&str, &QuantityValue> =
            quantities.map(|it| (it.name.as_str(), &it.value)).collect();
        let terms = after.terms.iter().enumerate();
        let terms: BTreeMap<&str, TermId> = terms
            .map(|(index, term)| (term.name.as_str(), TermId::new(index)))
            .collect();
        let same_quantities = before.quantities.iter().all(|one| {
            let other = quantities.get(one.name.as_str());
            other.is_some_and(|other| match (&one.value, other) {
                (QuantityValue::Constant(one, unit), QuantityValue::Constant(other, of)) => {
                    one == other && unit == of
                }
                (
                    QuantityValue::Column { by, cells },
                    QuantityValue::Column {
                        by: other,
                        cells: theirs,
                    },
                ) => by == other && cells == theirs,
                _ => false,
            })
        });
        same_quantities
            && before.terms.iter().enumerate().all(|(one, term)| {
                let other = terms.get(term.name.as_str());
                other.is_some_and(|other| self.mean_the_same(TermId::new(one), *other))
            })
    }

    fn both_or_neither(&mut self, one: Option<&Condition>, other: Option<&Condition>) -> bool {
        match (one, other) {
            (None, None) => true,
            (Some(one), Some(other)) => self.say_the_same(one, other),
            _ => false,
        }
    }

    /// Whether two conditions, of the earlier and of the later edition, say the same.
    fn say_the_same(&mut self, one: &Condition, other: &Condition) -> bool {
        match (&one.kind, &other.kind) {
            (ConditionKind::Term(one), ConditionKind::Term(other)) => {
                self.mean_the_same(*one, *other)
            }
            (ConditionKind::Not(one), ConditionKind::Not(other))
            | (ConditionKind::NotTrue(one), ConditionKind::NotTrue(other)) => {
                self.say_the_same(one, other)
            }
            (ConditionKind::All(one), ConditionKind::All(other))
            | (ConditionKind::Any(one), ConditionKind::Any(other)) => {
                self.all_say_the_same(one, other)
            }
            (
                ConditionKind::Count { least, most, of },
                ConditionKind::Count {
                    least: fewest,
                    most: highest,
                    of: theirs,
                },
            ) => (least, most) == (fewest, highest) && self.all_say_the_same(of, theirs),
            // What has no parts has no place of its own either.
            (one, other) => one == other,
        }
    }

    fn all_say_the_same(&mut self, one: &[Condition], other: &[Condition]) -> bool {
        let mut both = one.iter().zip(other);
        one.len() == other.len() && both.all(|(one, other)| self.say_the_same(one, other))
    }

    /// Whether a term of the earlier edition means what one of the later with its name means.
    fn mean_the_same(&mut self, one: TermId, other: TermId) -> bool {
        let (before, after) = (&self.before[one], &self.after[other]);
        if before.name != after.name {
            return false;
        }
        if let Some(known) = self.known.get(other.index()).copied().flatten() {
            return known;
        }
        let same = match (&before.meaning, &after.meaning) {
            (Meaning::Sharp(one), Meaning::Sharp(other)) => self.say_the_same(one, other),
            (
                Meaning::Vague {
                    narrow,
                    broad,
                    reading,
                },
                Meaning::Vague {
                    narrow: narrower,
                    broad: broader,
                    reading: read,
                },
            ) => {
                reading == read
                    && self.say_the_same(narrow, narrower)
                    && self.say_the_same(broad, broader)
            }
            _ => false,
        };
        if let Some(slot) = self.known.get_mut(other.index()) {
            *slot = Some(same);
        }
        same
    }
}
