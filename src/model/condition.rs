//! Conditions with every name resolved.
//!
//! A condition is true, false or neither in a scenario; `logic` says which. Here is only its
//! shape: what was written, with names turned into ids, tables expanded, units converted and the
//! numbers turned into steps.

use super::{AttributeId, DimensionId, TermId};
use crate::source::Span;

/// A condition and the words that said it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Condition {
    /// What it says.
    pub kind: ConditionKind,
    /// The words in the file; for a part that came from a table or a group, the words that brought it in.
    pub span: Span,
}

impl Condition {
    /// The same condition of other parts: each of its own is made into one. A condition without parts
    /// stays as it is.
    #[must_use]
    pub fn with_parts(&self, mut part: impl FnMut(&Condition) -> Condition) -> Condition {
        let kind = match &self.kind {
            ConditionKind::Not(of) => ConditionKind::Not(Box::new(part(of))),
            ConditionKind::NotTrue(of) => ConditionKind::NotTrue(Box::new(part(of))),
            ConditionKind::All(of) => ConditionKind::All(of.iter().map(part).collect()),
            ConditionKind::Any(of) => ConditionKind::Any(of.iter().map(part).collect()),
            ConditionKind::Count { least, most, of } => ConditionKind::Count {
                least: *least,
                most: *most,
                of: of.iter().map(part).collect(),
            },
            ConditionKind::Always
            | ConditionKind::Missing(_)
            | ConditionKind::Fact { .. }
            | ConditionKind::Ruling { .. }
            | ConditionKind::Term(_) => self.kind.clone(),
        };
        Condition {
            kind,
            span: self.span,
        }
    }

    /// Visits the condition and every part of it, outermost first, in the order of writing. Terms
    /// are visited by name, not by meaning.
    pub fn each_part<'c>(&'c self, visit: &mut impl FnMut(&'c Condition)) {
        visit(self);
        match &self.kind {
            ConditionKind::Not(part) | ConditionKind::NotTrue(part) => part.each_part(visit),
            ConditionKind::All(parts)
            | ConditionKind::Any(parts)
            | ConditionKind::Count { of: parts, .. } => {
                for part in parts {
                    part.each_part(visit);
                }
            }
            ConditionKind::Always
            | ConditionKind::Missing(_)
            | ConditionKind::Fact { .. }
            | ConditionKind::Ruling { .. }
            | ConditionKind::Term(_) => {}
        }
    }

    /// Visits every comparison of one number with a range of its steps: where it stands, the number,
    /// and the first and the last step.
    pub fn each_range(&self, visit: &mut impl FnMut(Span, AttributeId, i64, i64)) {
        self.each_part(&mut |part| {
            if let ConditionKind::Fact {
                test:
                    Test::Within {
                        attribute,
                        low,
                        high,
                    },
                ..
            } = &part.kind
            {
                visit(part.span, *attribute, *low, *high);
            }
        });
    }
}

/// The forms of a condition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ConditionKind {
    /// Holds in every scenario.
    Always,
    /// Neither true nor false anywhere: a comparison with a cell that a table does not have.
    Missing(MissingCell),
    /// A comparison over attributes. Neither true nor false where one of them is not asked.
    Fact {
        /// What is compared.
        test: Test,
        /// `false` for the contrary comparison (`is not`, `is not between` ...).
        positive: bool,
    },
    /// A comparison over the ruling of a dimension. Neither where that ruling is not exactly one.
    Ruling {
        /// The dimension.
        dimension: DimensionId,
        /// What is compared.
        test: RulingTest,
        /// `false` for the contrary comparison.
        positive: bool,
    },
    /// A defined term.
    Term(TermId),
    /// True where the part is false.
    Not(Box<Condition>),
    /// One false part settles it.
    All(Vec<Condition>),
    /// One true part settles it.
    Any(Vec<Condition>),
    /// True where at least `least` and at most `most` parts are true however the parts that are
    /// neither might fall; false where that can't be.
    Count {
        /// Fewest parts that may hold.
        least: u32,
        /// Most parts that may hold.
        most: u32,
        /// The parts.
        of: Vec<Condition>,
    },
    /// True where its part is not true, false where the part is true: `unless` and `{none: ...}`,
    /// which bite only where their condition is true.
    NotTrue(Box<Condition>),
}

/// A cell that a table does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissingCell {
    /// The row.
    pub row: String,
    /// The column, a quantity's name.
    pub column: String,
}

/// A comparison over attributes, two-valued once all of them are asked.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Test {
    /// The value of a yes/no, choice or scale attribute is one of a set (yes/no: 0 is no, 1 is yes).
    OneOf {
        /// The attribute.
        attribute: AttributeId,
        /// Indices of the values.
        values: ValueSet,
    },
    /// A number lies within two steps, both in. Ends beyond the range are allowed and never reached.
    Within {
        /// The attribute.
        attribute: AttributeId,
        /// Lowest step, counted from the low end of the range.
        low: i64,
        /// Highest step.
        high: i64,
    },
    /// Two choices or scales have the same value; the pairs are (index left, index right) by equal names.
    Same {
        /// The one attribute.
        left: AttributeId,
        /// The other attribute.
        right: AttributeId,
        /// Which indices are the same value.
        pairs: Vec<(u8, u8)>,
    },
    /// A weighted sum of numbers, in steps, is at most a constant. Two or more different attributes.
    Linear(Linear),
    /// How many of some items a `several` attribute has.
    Several {
        /// The attribute.
        attribute: AttributeId,
        /// The items looked at.
        items: ValueSet,
        /// Fewest of them present.
        least: u32,
        /// Most of them present.
        most: u32,
    },
}

impl Test {
    /// The attributes that it reads, without repetition, in the order of writing.
    pub fn attributes(&self) -> Vec<AttributeId> {
        match self {
            Test::OneOf { attribute, .. }
            | Test::Within { attribute, .. }
            | Test::Several { attribute, .. } => {
                vec![*attribute]
            }
            Test::Same { left, right, .. } if left == right => vec![*left],
            Test::Same { left, right, .. } => vec![*left, *right],
            Test::Linear(linear) => linear.parts.iter().map(|part| part.1).collect(),
        }
    }
}

/// `sum of weight * steps <= bound`, over two or more different attributes, weights not zero.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Linear {
    /// Weights and attributes; the attribute's value counts in steps from the low end of its range.
    pub parts: Vec<(i64, AttributeId)>,
    /// The bound.
    pub bound: i64,
}

/// A comparison over a ruling that is exactly one (for `all_apply`: over the set).
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RulingTest {
    /// The one value is among these.
    OneOf(ValueSet),
    /// For `all_apply`: how many of these are in the set.
    Includes {
        /// The values looked at.
        items: ValueSet,
        /// Fewest of them present.
        least: u32,
        /// Most of them present.
        most: u32,
    },
}

/// A set of values by index, 128 at most.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ValueSet(u128);

impl ValueSet {
    /// The most values that an attribute, item list or dimension may have.
    pub const CAPACITY: usize = 128;
    /// No value.
    pub const EMPTY: ValueSet = ValueSet(0);

    /// The first `count` values.
    pub fn first(count: usize) -> Self {
        if count >= Self::CAPACITY {
            ValueSet(u128::MAX)
        } else {
            ValueSet((1 << count) - 1)
        }
    }

    /// One value; beyond the capacity, none.
    pub fn one(index: usize) -> Self {
        if index < Self::CAPACITY {
            ValueSet(1 << index)
        } else {
            Self::EMPTY
        }
    }

    /// A set with these bits.
    pub fn from_bits(bits: u128) -> Self {
        ValueSet(bits)
    }

    /// The bits, lowest index first.
    pub fn bits(self) -> u128 {
        self.0
    }

    /// Whether the value is in the set.
    pub fn contains(self, index: usize) -> bool {
        !Self::one(index).intersect(self).is_empty()
    }

    /// Adds a value.
    pub fn with(self, index: usize) -> Self {
        self.union(Self::one(index))
    }

    /// What is in both.
    pub fn intersect(self, other: Self) -> Self {
        ValueSet(self.0 & other.0)
    }

    /// What is in either.
    pub fn union(self, other: Self) -> Self {
        ValueSet(self.0 | other.0)
    }

    /// What is in `self` and not in `other`.
    pub fn minus(self, other: Self) -> Self {
        ValueSet(self.0 & !other.0)
    }

    /// Whether every value is in `other`.
    pub fn is_within(self, other: Self) -> bool {
        self.minus(other).is_empty()
    }

    /// How many values.
    pub fn len(self) -> usize {
        self.0.count_ones() as usize
    }

    /// Whether there is none.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The indices, lowest first.
    pub fn iter(self) -> impl Iterator<Item = usize> {
        (0..Self::CAPACITY).filter(move |index| self.contains(*index))
    }

    /// The lowest index.
    pub fn lowest(self) -> Option<usize> {
        (self.0 != 0).then(|| self.0.trailing_zeros() as usize)
    }

    /// The highest index.
    pub fn highest(self) -> Option<usize> {
        (self.0 != 0).then(|| 127 - self.0.leading_zeros() as usize)
    }
}

impl FromIterator<usize> for ValueSet {
    fn from_iter<I: IntoIterator<Item = usize>>(indices: I) -> Self {
        indices.into_iter().fold(Self::EMPTY, Self::with)
    }
}
