//! Questions answered by trying every scenario, where there are few enough.
//!
//! Written to be believed at sight, not to be fast: it is the second implementation that the first
//! is held against. It knows nothing of definitions; every scenario goes to the plain evaluator.

use super::{Answer, Budget, Reason, Solver};
use crate::logic::{Code, Formula, Replay, Scenario, highest_code, is_asked, keeps_background};
use crate::model::{AttributeId, Ruleset};

/// The most combinations of values that are tried.
pub const LIMIT: u64 = 2_000_000;

/// How many scenarios are tried between two looks at the budget.
const STRIDE: usize = 1024;

/// All scenarios of a ruleset, the most ordinary first. `None` where the attributes' values have
/// more than [`LIMIT`] combinations, whether or not all of them are scenarios.
pub fn scenarios(ruleset: &Ruleset) -> Option<Scenarios<'_>> {
    let kinds = ruleset.attributes.iter().map(|attribute| &attribute.kind);
    let combinations = kinds.map(highest_code).try_fold(1u64, |product, highest| {
        product.checked_mul(highest.checked_add(1)?)
    })?;
    (combinations <= LIMIT).then(|| Scenarios {
        ruleset,
        open: vec![(0, Scenario::unasked(ruleset.attributes.len()))],
    })
}

/// The scenarios of a ruleset, one by one; made by [`scenarios`].
#[derive(Clone, Debug)]
pub struct Scenarios<'r> {
    ruleset: &'r Ruleset,
    /// Scenarios begun, with how many attributes of the asking order have been settled in each.
    open: Vec<(usize, Scenario)>,
}

impl Iterator for Scenarios<'_> {
    type Item = Scenario;

    fn next(&mut self) -> Option<Scenario> {
        while let Some((settled, begun)) = self.open.pop() {
            let Some(attribute) = self.ruleset.asking_order.get(settled) else {
                if keeps_background(self.ruleset, &begun) {
                    return Some(begun);
                }
                continue;
            };
            if is_asked(self.ruleset, &begun, *attribute) {
                // The last one pushed is looked at first.
                let codes = (0..=highest_code(&self.ruleset[*attribute].kind)).rev();
                self.open
                    .extend(codes.map(|code| (settled + 1, with(&begun, *attribute, code))));
            } else {
                self.open.push((settled + 1, begun));
            }
        }
        None
    }
}

fn with(begun: &Scenario, attribute: AttributeId, code: u64) -> Scenario {
    let mut scenario = begun.clone();
    scenario.set(attribute, Some(Code(code)));
    scenario
}

/// Answers questions by trying every scenario.
#[derive(Clone, Debug)]
pub struct Enumerator<'r> {
    ruleset: &'r Ruleset,
    budget: Budget,
}

impl<'r> Enumerator<'r> {
    /// Takes a ruleset and what a run may use.
    pub fn new(ruleset: &'r Ruleset, budget: Budget) -> Self {
        Enumerator { ruleset, budget }
    }
}

impl Solver for Enumerator<'_> {
    fn ask(&mut self, question: &Formula) -> Answer {
        let Some(all) = scenarios(self.ruleset) else {
            return Answer::Undecided(Reason::TooLarge);
        };
        for (index, scenario) in all.enumerate() {
            if index % STRIDE == 0
                && let Some(reason) = self.budget.exhausted()
            {
                return Answer::Undecided(reason);
            }
            if Replay::new(self.ruleset, &scenario).holds(question) {
                return Answer::Yes(scenario);
            }
        }
        Answer::No
    }
}
