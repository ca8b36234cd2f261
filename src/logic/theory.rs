//! What each name of a formula stands for: section by section, the meaning of a ruleset.
//!
//! [`define`] is a plain function from a name to its formula; every solver keeps its own memory of
//! what it has already looked up. The names that a definition uses come before it in the
//! ruleset's order, so looking up ends.

use crate::model::{AttributeId, ClauseId, DimensionId, TermId};

/// Something that holds or does not hold in a scenario, under a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Name {
    /// The attribute has a value.
    Asked(AttributeId),
    /// No background line is broken.
    Possible,
    /// The term is true, as the unasked is taken.
    TermTrue(Unasked, TermId),
    /// The term is false, as the unasked is taken.
    TermFalse(Unasked, TermId),
    /// The clause's condition is true.
    Met(World, ClauseId),
    /// The clause is met and no clause in force disapplies it.
    InForce(World, ClauseId),
    /// The clause is in force, and no clause in force that prevails over it rules on the dimension.
    Stands(World, ClauseId, DimensionId),
    /// Some clause's ruling stands on the dimension.
    Spoken(World, DimensionId),
    /// Silence on the dimension is a gap here, whether or not anyone is silent.
    Due(World, DimensionId),
    /// A ruling is due on the dimension and no clause's stands.
    Gap(World, DimensionId),
    /// The standing rulings have nothing in common (only where they must agree).
    Clash(World, DimensionId),
    /// The dimension's ruling may come out as this value (for `all_apply`: the value is in the set).
    Allowed(World, DimensionId, u8),
    /// The dimension's ruling is settled: exactly one value (for `all_apply`: there is a ruling).
    Settled(World, DimensionId),
}

/// The ruleset as it stands, or a change of it that a question compares it with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum World {
    /// As it stands.
    Actual,
    /// As if this clause were not there.
    Without(ClauseId),
}

/// How a comparison over what is not asked is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unasked {
    /// Neither true nor false: the meaning of the language.
    Neither,
    /// False, the contrary comparison too: the slip of a drafter who forgot that it isn't asked.
    TakenAsNo,
}
