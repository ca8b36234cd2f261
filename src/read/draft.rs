//! What a file says, with places, before anyone has asked whether it makes sense.
//!
//! Names here are only words: that `phase` is an attribute, and that `ground` is one of its
//! values, is found out when the draft is resolved.

mod cases;
mod scenario;

pub use cases::{CaseBookDraft, CaseDraft, FoundDraft};
pub use scenario::{FactDraft, FactValueDraft, ScenarioDraft};

use crate::source::{Span, Spanned};
use std::sync::Arc;

/// A text as written.
pub type Words = Spanned<String>;

/// A ruleset file as written.
#[derive(Clone, Debug)]
pub struct RulesetDraft {
    /// `ruleset:`, the title.
    pub title: Words,
    /// `edition:`.
    pub edition: Option<Words>,
    /// `language:`.
    pub language: Option<Words>,
    /// `caution:`, extra words of caution.
    pub caution: Option<Words>,
    /// `quantities:`.
    pub quantities: Vec<QuantityDraft>,
    /// `attributes:`.
    pub attributes: Vec<AttributeDraft>,
    /// `terms:`.
    pub terms: Vec<TermDraft>,
    /// `background:`.
    pub background: Vec<BackgroundDraft>,
    /// `rulings:`.
    pub dimensions: Vec<DimensionDraft>,
    /// `clauses:`.
    pub clauses: Vec<Arc<ClauseDraft>>,
    /// `principles:`.
    pub principles: Vec<PrincipleDraft>,
    /// `headings:`.
    pub headings: Vec<HeadingDraft>,
    /// `accepted:`.
    pub accepted: Vec<AcceptedDraft>,
}

/// A text in one language, or in several.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextDraft {
    /// Language tag and wording; the tag is empty where the file gives one text without a language.
    pub by_language: Vec<(String, Words)>,
}

/// A named constant, or a table of them.
#[derive(Clone, Debug)]
pub struct QuantityDraft {
    /// Its name.
    pub name: Words,
    /// What stands for it.
    pub value: QuantityValueDraft,
}

/// The right-hand side of a quantity.
#[derive(Clone, Debug)]
pub enum QuantityValueDraft {
    /// `20 s`
    Constant(Words),
    /// A table whose rows are values of a choice.
    Table {
        /// `by:`, the choice attribute.
        by: Words,
        /// `columns:`, each a quantity's name.
        columns: Vec<Words>,
        /// The rows: a value of the attribute, then a cell for each column (`-` where there is none).
        rows: Vec<(Words, Vec<Words>)>,
    },
}

/// A value of a choice or scale, with its label.
#[derive(Clone, Debug)]
pub struct ValueDraft {
    /// The value's name.
    pub name: Words,
    /// How people call it.
    pub label: Option<TextDraft>,
}

/// An attribute.
#[derive(Clone, Debug)]
pub struct AttributeDraft {
    /// Its name.
    pub name: Words,
    /// `label:`.
    pub label: Option<TextDraft>,
    /// What values it takes.
    pub kind: AttributeKindDraft,
    /// `judged: true`.
    pub judged: bool,
    /// `asked_when:`.
    pub asked_when: Option<Expr>,
    /// `set_by:`, the party who controls it.
    pub set_by: Option<Words>,
}

/// What values an attribute takes.
#[derive(Clone, Debug)]
pub enum AttributeKindDraft {
    /// No kind given.
    YesNo,
    /// `choice:`.
    Choice(Vec<ValueDraft>),
    /// `scale:`.
    Scale(Vec<ValueDraft>),
    /// `several:`.
    Several(Vec<ValueDraft>),
    /// `number: 0 to 60`, with `step:` and `unit:`.
    Number {
        /// The low end as written (without its unit).
        low: Words,
        /// The high end.
        high: Words,
        /// Whether `or more` stands behind it.
        or_more: bool,
        /// `step:`.
        step: Option<Words>,
        /// `unit:`.
        unit: Option<Words>,
    },
}

/// A defined term.
#[derive(Clone, Debug)]
pub struct TermDraft {
    /// Its name.
    pub name: Words,
    /// `label:`.
    pub label: Option<TextDraft>,
    /// `text:`.
    pub text: Option<TextDraft>,
    /// What it means.
    pub meaning: MeaningDraft,
}

/// What a term means.
#[derive(Clone, Debug)]
pub enum MeaningDraft {
    /// `means:`.
    Sharp(Expr),
    /// `narrow:` and `broad:`.
    Vague {
        /// The narrowest careful reading.
        narrow: Expr,
        /// The broadest careful reading.
        broad: Expr,
    },
}

/// A line of `background:`.
#[derive(Clone, Debug)]
pub struct BackgroundDraft {
    /// `id:`.
    pub id: Option<Words>,
    /// Which of the two it is.
    pub rule: BackgroundRule<Expr>,
    /// `because:`.
    pub because: Option<TextDraft>,
    /// The whole line.
    pub span: Span,
}

/// What cannot happen, or always holds.
#[derive(Clone, Debug)]
pub enum BackgroundRule<C> {
    /// Broken only where the condition is true.
    Never(C),
    /// Broken only where the condition is false.
    Always(C),
}

/// How several standing rulings of one dimension come together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhenSeveral {
    /// What every standing clause allows.
    MustAgree,
    /// The highest that can come out.
    Highest,
    /// The lowest that can come out.
    Lowest,
    /// All together.
    AllApply,
}

/// A dimension of rulings.
#[derive(Clone, Debug)]
pub struct DimensionDraft {
    /// Its name.
    pub name: Words,
    /// `label:`.
    pub label: Option<TextDraft>,
    /// The values; ordered, lowest first, where `ordered`.
    pub values: Vec<ValueDraft>,
    /// `scale:` rather than `choice:`.
    pub ordered: bool,
    /// `when_several:`.
    pub when_several: Option<Spanned<WhenSeveral>>,
    /// `otherwise:`; a list only for `all_apply`.
    pub otherwise: Option<Spanned<Vec<Words>>>,
    /// `required_when:`.
    pub required_when: Option<Expr>,
    /// `intermediate: true`.
    pub intermediate: bool,
}

/// A clause.
#[derive(Clone, Debug)]
pub struct ClauseDraft {
    /// `id:`, as written.
    pub id: Words,
    /// `title:`.
    pub title: Option<TextDraft>,
    /// `text:`.
    pub text: Option<TextDraft>,
    /// `when:`.
    pub when: Option<Expr>,
    /// `unless:`.
    pub unless: Option<Expr>,
    /// `ruling:`, dimension by dimension.
    pub ruling: Vec<RulingDraft>,
    /// `notwithstanding:`.
    pub notwithstanding: Vec<Words>,
    /// `subject_to:`.
    pub subject_to: Vec<Words>,
    /// `disapplies:`.
    pub disapplies: Vec<Words>,
    /// The whole clause.
    pub span: Span,
}

/// What a clause rules on one dimension.
#[derive(Clone, Debug)]
pub struct RulingDraft {
    /// The dimension.
    pub dimension: Words,
    /// One value, or those of `may_be`.
    pub values: Vec<Words>,
    /// Whether `may_be` was written.
    pub discretion: bool,
}

/// A principle.
#[derive(Clone, Debug)]
pub struct PrincipleDraft {
    /// `id:`.
    pub id: Words,
    /// `text:`.
    pub text: Option<TextDraft>,
    /// What is promised.
    pub promise: PromiseDraft,
    /// The whole principle.
    pub span: Span,
}

/// What a principle promises.
#[derive(Clone, Debug)]
pub enum PromiseDraft {
    /// `whenever:` and `expect:`.
    Expect {
        /// Where it is promised.
        whenever: Expr,
        /// What is promised.
        expect: Expr,
    },
    /// `impartial_to:`, names of attributes.
    ImpartialTo(Vec<Words>),
    /// `rises_with:` and `ruling:`.
    RisesWith {
        /// The attribute, a scale or a number.
        attribute: Words,
        /// The dimension, a scale.
        ruling: Words,
    },
    /// `no_gain:`, a party.
    NoGain {
        /// The party.
        party: Words,
        /// `by:`, the move; any change of what the party sets where left out.
        by: Option<Expr>,
        /// What would be a gain.
        gain: GainDraft,
    },
}

/// What would be a gain for a party.
#[derive(Clone, Debug)]
pub enum GainDraft {
    /// `raising:` a dimension.
    Raising(Words),
    /// `lowering:` a dimension.
    Lowering(Words),
    /// `to:` a condition over rulings.
    To(Expr),
}

/// A heading.
#[derive(Clone, Debug)]
pub struct HeadingDraft {
    /// The number of the group, or a name.
    pub name: Words,
    /// `title:`, or the text that stands alone.
    pub title: Option<TextDraft>,
    /// `when:`, the words that open the group.
    pub when: Option<Expr>,
    /// `covers:`.
    pub covers: Vec<Words>,
}

/// A finding that the committee knows and accepts.
#[derive(Clone, Debug)]
pub struct AcceptedDraft {
    /// `finding:`, a kind.
    pub finding: Words,
    /// `clauses:`.
    pub clauses: Vec<Words>,
    /// `dimension:`.
    pub dimension: Option<Words>,
    /// `principle:`.
    pub principle: Option<Words>,
    /// `attribute:`.
    pub attribute: Option<Words>,
    /// `term:`.
    pub term: Option<Words>,
    /// `because:`.
    pub because: Option<TextDraft>,
    /// The whole entry.
    pub span: Span,
}

/// A condition as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expr {
    /// What it says.
    pub kind: ExprKind,
    /// The words that say it.
    pub span: Span,
}

/// The forms of a condition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ExprKind {
    /// `always`
    Always,
    /// A bare name: a yes/no attribute or a term.
    Name(String),
    /// `not C`
    Not(Box<Expr>),
    /// `C and D`, a list, or `{all: [...]}`
    All(Vec<Expr>),
    /// `C or D`, or `{any: [...]}`
    Any(Vec<Expr>),
    /// `{none: [...]}`
    NoneOf(Vec<Expr>),
    /// `at least 2 of (C, D, E)`
    Count {
        /// How many must hold.
        amount: Amount,
        /// The conditions counted.
        of: Vec<Expr>,
    },
    /// `a at least b`, `a is b`: a value or a number on the right.
    Compare {
        /// The left side.
        left: Sum,
        /// How they are compared.
        comparison: Comparison,
        /// The right side.
        right: Sum,
    },
    /// `a is between b and c`, both ends in.
    Between {
        /// What lies between.
        left: Sum,
        /// `is not between`.
        negated: bool,
        /// The low end.
        low: Sum,
        /// The high end.
        high: Sum,
    },
    /// `a is one of (...)`
    OneOf {
        /// The name.
        left: Words,
        /// `is not one of`.
        negated: bool,
        /// The values.
        values: Vec<Words>,
    },
    /// `a is same as b`
    SameAs {
        /// The one name.
        left: Words,
        /// `is not same as`.
        negated: bool,
        /// The other name.
        right: Words,
    },
    /// `a includes ...`
    Includes {
        /// The name of a `several`, or of an `all_apply` dimension.
        left: Words,
        /// How many of the items.
        amount: Included,
        /// The items.
        items: Vec<Words>,
    },
    /// `a is empty`
    Empty {
        /// The name.
        left: Words,
        /// `is not empty`.
        negated: bool,
    },
    /// `a is only b`: exactly these items.
    Only {
        /// The name.
        left: Words,
        /// `is not only`.
        negated: bool,
        /// The items (one word, or a list in brackets).
        items: Vec<Words>,
    },
}

/// How many of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Amount {
    /// `at least n of`
    AtLeast(Spanned<u32>),
    /// `exactly n of`
    Exactly(Spanned<u32>),
    /// `at most n of`
    AtMost(Spanned<u32>),
}

/// How many of the items are included.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Included {
    /// `includes x`, `includes all of (...)`
    All,
    /// `includes any of (...)`
    Any,
    /// `includes none of (...)`
    None,
    /// `includes at least 3 of (...)` and its kin.
    Count(Amount),
}

/// How two sides are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// `is`
    Is,
    /// `is not`
    IsNot,
    /// `at least`
    AtLeast,
    /// `at most`
    AtMost,
    /// `more than`
    MoreThan,
    /// `less than`
    LessThan,
}

/// Sums and differences: `leader - trailer`, `2 * a + 3 kg`. A single name may also be a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sum {
    /// The parts, each with its sign; never empty.
    pub parts: Vec<SumPart>,
    /// The words of all parts.
    pub span: Span,
}

/// One part of a sum.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SumPart {
    /// Whether a minus stands before it.
    pub negative: bool,
    /// A whole constant that multiplies it, where written.
    pub factor: Option<Spanned<i64>>,
    /// What is added.
    pub operand: Operand,
}

/// What a sum is made of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Operand {
    /// An attribute, a quantity, or a value.
    Name(Words),
    /// A literal: its digits as written (`7.26`) and its unit.
    Number {
        /// The digits as written.
        digits: Words,
        /// The unit, where written.
        unit: Option<Words>,
    },
}
