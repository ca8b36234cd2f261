//! What two editions both have words for.

use super::Builder;
use crate::analysis::{Saying, meant_by, sayings};
use crate::model::Resolver;

impl Builder<'_, '_> {
    /// The words of the second edition that mean the same in the first: terms and comparisons, also by
    /// the names of quantities.
    pub(super) fn sayings(&mut self) -> Vec<Saying> {
        let (Some(before), Some(after)) = (self.ruleset(0), self.ruleset(1)) else {
            return Vec::new();
        };
        let resolver = Resolver::new(before);
        sayings(after, &mut |words, meant| {
            let earlier = meant_by(&resolver, words)?;
            let placed = self.condition(1, meant);
            (self.condition(0, &earlier) == placed).then_some(placed)
        })
    }
}
