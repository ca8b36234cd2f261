//! The valid ruleset: what a draft becomes once every name is resolved and every rule of the
//! language holds.
//!
//! A [`Ruleset`] can only be had by resolving a draft, or from another ruleset (a pair of scenarios
//! is a scenario of a twin, in `logic`); what could not be resolved never reaches an analysis. This
//! layer knows what is written and how clauses stand to each other; it refuses to know what is true
//! in a scenario (that is `logic`) and never sees YAML.

mod condition;
mod kind;
mod number;
mod resolve;

pub use condition::{Condition, ConditionKind, Linear, MissingCell, RulingTest, Test, ValueSet};
pub use kind::{Kind, Severity};
pub use number::{Number, NumberRange, Unit};
pub use resolve::{ConditionScope, Resolver, Settled, resolve, resolve_condition};

pub use crate::read::draft::{BackgroundRule, WhenSeveral};
use crate::source::{SourceId, Sources, Span};
use std::fmt;
use std::ops::Index;

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident => $field:ident: $thing:ty;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(u32);

        impl $name {
            /// The id of the thing at this index; indices beyond `u32` all become the last id.
            pub fn new(index: usize) -> Self {
                $name(u32::try_from(index).unwrap_or(u32::MAX))
            }

            /// The index in the ruleset's list.
            pub fn index(self) -> usize {
                self.0 as usize
            }
        }

        impl Index<$name> for Ruleset {
            type Output = $thing;

            fn index(&self, id: $name) -> &$thing {
                &self.$field[id.index()]
            }
        }
    )*};
}

ids! {
    /// An attribute of a ruleset, or the reading of one of its vague terms.
    AttributeId => attributes: Attribute;
    /// A defined term.
    TermId => terms: Term;
    /// A dimension of rulings.
    DimensionId => dimensions: Dimension;
    /// A clause.
    ClauseId => clauses: Clause;
}

/// A text in one language or several.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text {
    /// Language tag (empty: the ruleset's own) and wording.
    pub by_language: Vec<(String, String)>,
}

impl Text {
    /// The wording in a language, else the first there is.
    pub fn in_language(&self, language: &str) -> &str {
        let wanted = self.by_language.iter().find(|(tag, _)| tag == language);
        wanted
            .or(self.by_language.first())
            .map_or("", |(_, words)| words)
    }
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.in_language(""))
    }
}

/// A valid ruleset.
#[derive(Clone, Debug)]
pub struct Ruleset {
    /// The title.
    pub title: String,
    /// The edition, empty where none is given.
    pub edition: String,
    /// The language tag of its texts, empty where none is given.
    pub language: String,
    /// Extra words of caution.
    pub caution: Option<String>,
    /// The files it was read from; the ruleset itself first.
    pub sources: Sources,
    /// The amendments that are laid over it, in their order.
    pub layers: Vec<Layer>,
    /// Named constants and tables.
    pub quantities: Vec<Quantity>,
    /// The attributes in the order of the file, then one reading for each vague term.
    pub attributes: Vec<Attribute>,
    /// The defined terms.
    pub terms: Vec<Term>,
    /// What cannot happen, or always holds.
    pub background: Vec<Background>,
    /// The dimensions of rulings.
    pub dimensions: Vec<Dimension>,
    /// The clauses in the order of the file.
    pub clauses: Vec<Clause>,
    /// What the rules as a whole promise.
    pub principles: Vec<Principle>,
    /// Titles of groups.
    pub headings: Vec<Heading>,
    /// Findings that are known and accepted.
    pub accepted: Vec<Accepted>,
    /// Clauses and dimensions such that whatever one depends on stands before it.
    pub order: Vec<Step>,
    /// Attributes (readings included) such that whatever `asked_when` reads stands before it.
    pub asking_order: Vec<AttributeId>,
}

/// An amendment that is laid over a ruleset.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layer {
    /// Its title.
    pub title: String,
    /// Its file.
    pub source: SourceId,
}

/// One step in working out the rulings of a scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// Whether a clause is met and in force.
    Clause(ClauseId),
    /// What a dimension's ruling is.
    Dimension(DimensionId),
}

/// A named constant, or a column of a table.
#[derive(Clone, Debug)]
pub struct Quantity {
    /// Its name.
    pub name: String,
    /// What it stands for.
    pub value: QuantityValue,
    /// Where its name is written.
    pub span: Span,
}

/// What a quantity stands for.
#[derive(Clone, Debug)]
pub enum QuantityValue {
    /// One amount.
    Constant(Number, Unit),
    /// An amount for each value of a choice; `None` where the table has none.
    Column {
        /// The choice attribute.
        by: AttributeId,
        /// One cell for each value of the attribute, in its order.
        cells: Vec<Option<(Number, Unit)>>,
    },
}

/// What an official can establish about an action, or how a vague term is read.
#[derive(Clone, Debug)]
pub struct Attribute {
    /// Its name; for a reading, the term's name.
    pub name: String,
    /// How people call it.
    pub label: Option<Text>,
    /// What values it takes.
    pub kind: AttributeKind,
    /// Whether it is an official's judgement, not a plain fact. Readings are.
    pub judged: bool,
    /// Where it has a value; everywhere if `None`. For a reading: where the term is in its grey zone.
    pub asked_when: Option<Condition>,
    /// The party who controls it.
    pub set_by: Option<String>,
    /// Whether it stands in the file or belongs to a vague term.
    pub origin: Origin,
    /// Where its name is written.
    pub span: Span,
}

/// Where an attribute comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// It stands in the file.
    Stated,
    /// The reading of this vague term: yes is broad, no is narrow.
    Reading(TermId),
}

/// What values an attribute takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AttributeKind {
    /// No (0) or yes (1).
    YesNo,
    /// Unordered values.
    Choice(Vec<NamedValue>),
    /// Ordered values, lowest first.
    Scale(Vec<NamedValue>),
    /// Exact numbers.
    Number(NumberRange),
    /// Any subset of these items.
    Several(Vec<NamedValue>),
}

impl AttributeKind {
    /// The values of a choice or scale, the items of a `several`; empty for the other kinds.
    pub fn names(&self) -> &[NamedValue] {
        match self {
            AttributeKind::Choice(names)
            | AttributeKind::Scale(names)
            | AttributeKind::Several(names) => names,
            AttributeKind::YesNo | AttributeKind::Number(_) => &[],
        }
    }
}

/// A value with its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NamedValue {
    /// The name as written.
    pub name: String,
    /// How people call it.
    pub label: Option<Text>,
    /// Where it is written.
    pub span: Span,
}

/// A defined term.
#[derive(Clone, Debug)]
pub struct Term {
    /// Its name.
    pub name: String,
    /// How people call it.
    pub label: Option<Text>,
    /// The definition as published.
    pub text: Option<Text>,
    /// What it means.
    pub meaning: Meaning,
    /// Where its name is written.
    pub span: Span,
}

/// What a term means.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// One meaning.
    Sharp(Condition),
    /// True wherever `narrow` is true; else neither where `broad` is neither, not true where `broad`
    /// is not true, and in between as the official reads it.
    Vague {
        /// The narrowest careful reading.
        narrow: Condition,
        /// The broadest careful reading.
        broad: Condition,
        /// How the official reads it in between.
        reading: AttributeId,
    },
}

/// What cannot happen, or always holds.
#[derive(Clone, Debug)]
pub struct Background {
    /// Its id, if it has one.
    pub id: Option<String>,
    /// The line.
    pub rule: BackgroundRule<Condition>,
    /// Why.
    pub because: Option<Text>,
    /// The whole line.
    pub span: Span,
}

/// One thing that the rules decide.
#[derive(Clone, Debug)]
pub struct Dimension {
    /// Its name.
    pub name: String,
    /// How people call it.
    pub label: Option<Text>,
    /// Its values; lowest first where `ordered`.
    pub values: Vec<NamedValue>,
    /// Whether the values are a scale.
    pub ordered: bool,
    /// How several standing rulings come together.
    pub when_several: WhenSeveral,
    /// What holds where no clause says anything: one value, or for `all_apply` a set.
    pub otherwise: Option<ValueSet>,
    /// Where a clause must say something.
    pub required_when: Option<Condition>,
    /// Only read by other clauses; nobody announces it.
    pub intermediate: bool,
    /// Where its name is written.
    pub span: Span,
}

/// A clause.
#[derive(Clone, Debug)]
pub struct Clause {
    /// Its id as written.
    pub id: String,
    /// Its title.
    pub title: Option<Text>,
    /// The wording as published.
    pub text: Option<Text>,
    /// Where each wording of `text` is written, in the same order.
    pub text_spans: Vec<Span>,
    /// Where it is met: its groups' opening words, its `when`, and the negated `unless`.
    pub when: Condition,
    /// What it rules, by dimension, each a non-empty set of allowed values, in the order of dimensions.
    pub rulings: Vec<(DimensionId, ValueSet)>,
    /// How many parts of `when` are words that open its groups; they stand first.
    pub openings: usize,
    /// Where its `unless` is written, which is the last part of `when`.
    pub unless_span: Option<Span>,
    /// Its references to other clauses, in the order of its keys.
    pub references: Vec<Reference>,
    /// The clauses that it displaces on dimensions that both rule on: its own `notwithstanding` and
    /// others' `subject_to`, groups expanded, in order.
    pub prevails_over: Vec<ClauseId>,
    /// The other way round: the clauses that displace it.
    pub yields_to: Vec<ClauseId>,
    /// The clauses that it takes away altogether.
    pub disapplies: Vec<ClauseId>,
    /// The other way round: the clauses that take it away.
    pub disapplied_by: Vec<ClauseId>,
    /// Where its id is written.
    pub id_span: Span,
    /// Where its `when` is written, or its id where it has none.
    pub when_span: Span,
    /// Where its `ruling` is written, or its id where it has none.
    pub ruling_span: Span,
    /// The whole clause.
    pub span: Span,
}

impl Clause {
    /// Where what it says is written: its id, and what can be written apart from it.
    pub fn places(&self) -> impl Iterator<Item = Span> {
        let texts = self.text_spans.iter().copied();
        let references = self.references.iter().map(|reference| reference.span);
        [self.id_span, self.when_span, self.ruling_span]
            .into_iter()
            .chain(self.unless_span)
            .chain(texts)
            .chain(references)
    }
}

/// Words of a clause that put it before or behind others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reference {
    /// How it puts them.
    pub wording: Wording,
    /// The words: an id, a group, or `every other clause`.
    pub span: Span,
    /// The clauses that they mean, in order.
    pub others: Vec<ClauseId>,
}

/// The words that put one clause before another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wording {
    /// It prevails over them.
    Notwithstanding,
    /// They prevail over it.
    SubjectTo,
    /// It takes them away.
    Disapplies,
}

impl Wording {
    /// The key in the file.
    pub fn key(self) -> &'static str {
        match self {
            Wording::Notwithstanding => "notwithstanding",
            Wording::SubjectTo => "subject_to",
            Wording::Disapplies => "disapplies",
        }
    }
}

impl Clause {
    /// What it rules on a dimension.
    pub fn ruling_on(&self, dimension: DimensionId) -> Option<ValueSet> {
        self.rulings
            .iter()
            .find(|(on, _)| *on == dimension)
            .map(|(_, values)| *values)
    }
}

/// What the rules as a whole promise.
#[derive(Clone, Debug)]
pub struct Principle {
    /// Its id.
    pub id: String,
    /// As published.
    pub text: Option<Text>,
    /// What is promised.
    pub promise: Promise,
    /// Where its id is written.
    pub span: Span,
}

/// The promise of a principle.
#[derive(Clone, Debug)]
pub enum Promise {
    /// Whenever the one holds, the other does.
    Expect {
        /// Where.
        whenever: Condition,
        /// What.
        expect: Condition,
    },
    /// No announced ruling depends on these, all changing at once.
    ImpartialTo(Vec<AttributeId>),
    /// More of the attribute, all else equal, is never ruled lower.
    RisesWith {
        /// A scale or a number.
        attribute: AttributeId,
        /// An ordered dimension.
        dimension: DimensionId,
    },
    /// The party gains nothing by a move of its own.
    NoGain {
        /// The party, as in `set_by`.
        party: String,
        /// The move, from not so to so; any change of what the party sets where `None`.
        by: Option<Condition>,
        /// What would be a gain.
        gain: Gain,
    },
}

/// What would be a gain.
#[derive(Clone, Debug)]
pub enum Gain {
    /// A higher ruling.
    Raising(DimensionId),
    /// A lower ruling.
    Lowering(DimensionId),
    /// Rulings of which this is true.
    To(Condition),
}

/// The title of a group.
#[derive(Clone, Debug)]
pub struct Heading {
    /// A number or a name.
    pub name: String,
    /// The title.
    pub title: Option<Text>,
    /// The clauses below it, in order.
    pub covers: Vec<ClauseId>,
    /// Where it is written.
    pub span: Span,
}

/// A finding that the committee knows and accepts.
#[derive(Clone, Debug)]
pub struct Accepted {
    /// The kind of finding.
    pub finding: Kind,
    /// Clauses that the finding must be about (ids as written), possibly none.
    pub clauses: Vec<String>,
    /// The dimension it must be about.
    pub dimension: Option<String>,
    /// The principle it must be about.
    pub principle: Option<String>,
    /// The attribute it must be about.
    pub attribute: Option<String>,
    /// The term it must be about.
    pub term: Option<String>,
    /// Why it is accepted.
    pub because: Option<Text>,
    /// The whole entry.
    pub span: Span,
}
