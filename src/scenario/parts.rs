//! The parts of a clause's condition, and which of them decides in a scenario.
//!
//! A part is the smallest piece that was written: a comparison, a vague term, a comparison with a
//! table. Defined terms are followed into their meaning. A part carries the condition where the
//! clause is met and would not be if the part came out the other way; it fails the condition where
//! the clause is not met and would be. One scenario of each kind shows that the part counts
//! (Chilenski and Miller, Applicability of modified condition/decision coverage to software testing,
//! Software Engineering Journal 9, 1994, for plain conditions; here a part may also be neither true
//! nor false). Nothing here knows how such scenarios are found.

use crate::logic::{Evaluator, Formula, Mode, Outcome, Scenario, Truth, Unasked, is_true};
use crate::model::{ClauseId, Condition, ConditionKind, Meaning, Ruleset, TermId};
use crate::source::Span;
use std::collections::BTreeMap;

/// The most parts of one condition that are looked at. A term whose meaning would bring in more is a
/// part by its name: definitions that name others twice grow twice as long with every step.
pub const MOST_PARTS: usize = 48;

/// One part of a condition.
#[derive(Clone, Debug)]
pub struct Part {
    /// The part alone.
    pub condition: Condition,
    /// The defined terms through which it comes in, outermost first.
    pub through: Vec<TermId>,
    /// Whether it stands in the clause or in the words that open its group.
    pub place: PartPlace,
    /// The whole condition with the part taken as true.
    granted: Condition,
    /// The whole condition with the part taken as false.
    denied: Condition,
}

/// Where a part is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartPlace {
    /// In the clause itself, or in a term that it names.
    Clause,
    /// In the words that open a group.
    Opening,
}

/// What a part does in a scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bearing {
    /// The condition is met, and would not be if the part came out the other way.
    Carries,
    /// The condition is not met, and would be if the part came out the other way.
    Fails,
    /// The condition comes out the same either way.
    Idle,
}

/// A clause's condition and its parts.
#[derive(Clone, Debug)]
pub struct Parts {
    /// The whole condition, defined terms replaced by their meanings where these are not too long.
    pub whole: Condition,
    /// The parts, in the order of writing.
    pub parts: Vec<Part>,
    /// How many further parts the condition has that are not looked at.
    pub more: usize,
}

impl Parts {
    /// The parts of a clause's condition.
    pub fn of(ruleset: &Ruleset, clause: ClauseId) -> Parts {
        let this = &ruleset[clause];
        let mut writing = WritingOut::new(ruleset, &this.when);
        let whole = writing.write(&this.when);
        let leaves = writing.leaves;
        let more = leaves.len().saturating_sub(MOST_PARTS);
        let own = |span: Span| {
            span.source == this.span.source
                && this.span.start <= span.start
                && span.end <= this.span.end
        };
        let parts = leaves.into_iter().take(MOST_PARTS).enumerate();
        let parts = parts.map(|(index, leaf)| {
            let with = |constant| replaced(&whole, index, constant, &mut 0);
            let written_in = leaf.written_in;
            Part {
                granted: with(Constant::True),
                denied: with(Constant::False),
                place: if own(written_in) {
                    PartPlace::Clause
                } else {
                    PartPlace::Opening
                },
                through: leaf.through,
                condition: leaf.condition,
            }
        });
        Parts {
            parts: parts.collect(),
            whole,
            more,
        }
    }

    /// The truth of every part in a scenario.
    pub fn truths(
        &self,
        evaluator: Evaluator<'_>,
        scenario: &Scenario,
        said: &Outcome,
    ) -> Vec<Truth> {
        let truth =
            |part: &Part| evaluator.truth(&part.condition, Unasked::Neither, scenario, said);
        self.parts.iter().map(truth).collect()
    }
}

impl Part {
    /// What the part does in a scenario. `met` says whether the whole condition is true in it.
    pub fn bearing(
        &self,
        evaluator: Evaluator<'_>,
        scenario: &Scenario,
        said: &Outcome,
        met: bool,
    ) -> Bearing {
        let comes_out = |whole: &Condition| {
            evaluator.truth(whole, Unasked::Neither, scenario, said) == Truth::True
        };
        match (met, comes_out(&self.granted), comes_out(&self.denied)) {
            (true, true, true) | (false, false, false) => Bearing::Idle,
            (true, ..) => Bearing::Carries,
            (false, ..) => Bearing::Fails,
        }
    }

    /// Where the condition is met and would not be if the part came out the other way, as a
    /// condition.
    pub(super) fn carrying(&self, whole: &Condition) -> Condition {
        let not = |condition: &Condition| Condition {
            kind: ConditionKind::NotTrue(Box::new(condition.clone())),
            span: condition.span,
        };
        let otherwise = Condition {
            kind: ConditionKind::Any(vec![not(&self.granted), not(&self.denied)]),
            span: whole.span,
        };
        Condition {
            kind: ConditionKind::All(vec![whole.clone(), otherwise]),
            span: whole.span,
        }
    }

    /// The whole condition with the part taken as true, and as false.
    pub(super) fn either_way(&self) -> [&Condition; 2] {
        [&self.granted, &self.denied]
    }

    /// Where the part carries the condition, as a formula.
    pub fn carries(&self, whole: &Condition) -> Formula {
        let [granted, denied] = self.either_way();
        carries(whole, granted, denied)
    }

    /// Where the part fails the condition, as a formula.
    pub fn fails(&self, whole: &Condition) -> Formula {
        let [granted, denied] = self.either_way();
        fails(whole, granted, denied)
    }

    /// The words of the part, on one line.
    pub fn words(&self, ruleset: &Ruleset) -> String {
        let words = ruleset.sources.slice(self.condition.span);
        let words: Vec<&str> = words.split_whitespace().collect();
        words.join(" ").trim_matches(['"', '\'']).to_owned()
    }
}

/// Where a condition is met and would not be with one of these two in its place.
pub(super) fn carries(whole: &Condition, granted: &Condition, denied: &Condition) -> Formula {
    let fails = |condition| is_true(condition, Mode::ACTUAL).negated();
    Formula::all([
        is_true(whole, Mode::ACTUAL),
        Formula::any([fails(granted), fails(denied)]),
    ])
}

/// Where a condition is not met and would be with one of these two in its place.
pub(super) fn fails(whole: &Condition, granted: &Condition, denied: &Condition) -> Formula {
    let holds = |condition| is_true(condition, Mode::ACTUAL);
    Formula::all([
        is_true(whole, Mode::ACTUAL).negated(),
        Formula::any([holds(granted), holds(denied)]),
    ])
}

/// Whether a part reads a ruling.
pub(super) fn reads_rulings(condition: &Condition) -> bool {
    let mut found = false;
    condition.each_part(&mut |part| {
        found |= matches!(part.kind, ConditionKind::Ruling { .. });
    });
    found
}

/// A smallest piece of a condition, and how it came in.
struct Leaf {
    condition: Condition,
    through: Vec<TermId>,
    /// Where the piece, or the outermost term that brought it in, is written.
    written_in: Span,
}

/// A condition that is being written out: defined terms are replaced by their meanings as long as
/// there is room. Vague terms stay.
struct WritingOut<'r> {
    ruleset: &'r Ruleset,
    /// How many pieces each term has that was looked at so far, written out.
    sizes: BTreeMap<TermId, usize>,
    /// How many more pieces may be written.
    room: usize,
    /// The terms that are being followed, outermost first, with where they are named.
    through: Vec<(TermId, Span)>,
    leaves: Vec<Leaf>,
}

impl<'r> WritingOut<'r> {
    fn new(ruleset: &'r Ruleset, condition: &Condition) -> Self {
        let mut writing = WritingOut {
            ruleset,
            sizes: BTreeMap::new(),
            room: MOST_PARTS,
            through: Vec::new(),
            leaves: Vec::new(),
        };
        each_leaf(condition, &mut |_| {
            writing.room = writing.room.saturating_sub(1);
        });
        writing
    }

    /// How many pieces the meaning of a term has, written out; a vague one stays one. Goes by a list:
    /// a chain of terms may be as long as the ruleset.
    fn size(&mut self, term: TermId) -> usize {
        let mut open = vec![term];
        while let Some(term) = open.last().copied() {
            let mut size: usize = 0;
            let mut missing = Vec::new();
            match &self.ruleset[term].meaning {
                Meaning::Vague { .. } => size = 1,
                Meaning::Sharp(meaning) => each_leaf(meaning, &mut |leaf| {
                    let known = match &leaf.kind {
                        ConditionKind::Term(named) => {
                            self.sizes.get(named).copied().or_else(|| {
                                missing.push(*named);
                                None
                            })
                        }
                        _ => Some(1),
                    };
                    size = size.saturating_add(known.unwrap_or(0));
                }),
            }
            if missing.is_empty() {
                self.sizes.insert(term, size);
                open.pop();
            } else {
                open.append(&mut missing);
            }
        }
        self.sizes.get(&term).copied().unwrap_or(1)
    }

    /// Takes the room that the meaning of a term needs in place of its name, if there is so much.
    fn takes_room(&mut self, term: TermId) -> bool {
        let more = self.size(term).saturating_sub(1);
        let fits = more <= self.room;
        if fits {
            self.room -= more;
        }
        fits
    }

    fn write(&mut self, condition: &Condition) -> Condition {
        // The room for a term was taken for everything that stands in its meaning.
        if let ConditionKind::Term(term) = &condition.kind
            && let Meaning::Sharp(meaning) = &self.ruleset[*term].meaning
            && (!self.through.is_empty() || self.takes_room(*term))
        {
            self.through.push((*term, condition.span));
            let written = self.write(meaning);
            self.through.pop();
            return written;
        }
        if is_leaf(condition) {
            self.leaves.push(Leaf {
                condition: condition.clone(),
                written_in: self.through.first().map_or(condition.span, |(_, at)| *at),
                through: self.through.iter().map(|(term, _)| *term).collect(),
            });
            return condition.clone();
        }
        condition.with_parts(|part| self.write(part))
    }
}

/// Visits the smallest pieces of a condition, in the order of writing; a term is one.
fn each_leaf<'c>(condition: &'c Condition, visit: &mut impl FnMut(&'c Condition)) {
    if is_leaf(condition) {
        visit(condition);
        return;
    }
    match &condition.kind {
        ConditionKind::Not(inner) | ConditionKind::NotTrue(inner) => each_leaf(inner, visit),
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => {
            for part in parts {
                each_leaf(part, visit);
            }
        }
        _ => {}
    }
}

/// Whether a condition is one piece: it has no parts, or all of them were brought in by the same
/// words (a comparison with a table).
fn is_leaf(condition: &Condition) -> bool {
    match &condition.kind {
        ConditionKind::Always | ConditionKind::Not(_) | ConditionKind::NotTrue(_) => false,
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => {
            let mut same = parts.len() > 1;
            condition.each_part(&mut |part| same &= part.span == condition.span);
            same
        }
        ConditionKind::Missing(_)
        | ConditionKind::Fact { .. }
        | ConditionKind::Ruling { .. }
        | ConditionKind::Term(_) => true,
    }
}

/// What takes the place of a part.
#[derive(Clone, Copy)]
enum Constant {
    True,
    False,
}

/// The condition with its leaf of this number replaced.
fn replaced(
    condition: &Condition,
    wanted: usize,
    constant: Constant,
    next: &mut usize,
) -> Condition {
    let span = condition.span;
    if is_leaf(condition) {
        let this = *next;
        *next += 1;
        if this != wanted {
            return condition.clone();
        }
        let always = Condition {
            kind: ConditionKind::Always,
            span,
        };
        return match constant {
            Constant::True => always,
            Constant::False => Condition {
                kind: ConditionKind::Not(Box::new(always)),
                span,
            },
        };
    }
    condition.with_parts(|part| replaced(part, wanted, constant, next))
}
