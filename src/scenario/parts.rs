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

/// The most parts of one condition that are looked at.
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
    /// The whole condition, defined terms replaced by their meanings.
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
        let whole = expanded(ruleset, &this.when);
        let mut leaves = Vec::new();
        find_leaves(ruleset, &this.when, &mut Vec::new(), &mut leaves);
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

/// The condition with defined terms replaced by their meanings; vague terms stay.
fn expanded(ruleset: &Ruleset, condition: &Condition) -> Condition {
    match &condition.kind {
        ConditionKind::Term(term) => match &ruleset[*term].meaning {
            Meaning::Sharp(meaning) => expanded(ruleset, meaning),
            Meaning::Vague { .. } => condition.clone(),
        },
        _ if is_leaf(condition) => condition.clone(),
        _ => condition.with_parts(|part| expanded(ruleset, part)),
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

fn find_leaves(
    ruleset: &Ruleset,
    condition: &Condition,
    through: &mut Vec<(TermId, Span)>,
    found: &mut Vec<Leaf>,
) {
    if let ConditionKind::Term(term) = &condition.kind
        && let Meaning::Sharp(meaning) = &ruleset[*term].meaning
    {
        through.push((*term, condition.span));
        find_leaves(ruleset, meaning, through, found);
        through.pop();
        return;
    }
    if is_leaf(condition) {
        found.push(Leaf {
            condition: condition.clone(),
            written_in: through.first().map_or(condition.span, |(_, span)| *span),
            through: through.iter().map(|(term, _)| *term).collect(),
        });
        return;
    }
    match &condition.kind {
        ConditionKind::Not(inner) | ConditionKind::NotTrue(inner) => {
            find_leaves(ruleset, inner, through, found);
        }
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => {
            for part in parts {
                find_leaves(ruleset, part, through, found);
            }
        }
        _ => {}
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
