//! The words of caution that stand wherever techniques, rulings or scenarios are shown.
//!
//! They are kept in one place so that no format can leave a part of them out.

use crate::model::Ruleset;

/// What every output says, whatever the ruleset.
pub const CAUTION: &[&str] = &[
    "This report speaks of a written text only. The appointed officials and the rules in force at the event decide.",
    "Locks, chokes, throws and strikes injure: practise them only under a qualified instructor and by the local safety rules.",
    "Medical questions go to licensed professionals.",
];

/// The built-in words, then the ruleset's own.
pub fn caution(ruleset: &Ruleset) -> Vec<String> {
    let built_in = CAUTION.iter().map(|words| (*words).to_owned());
    let own = ruleset.caution.iter().map(|words| words.trim().to_owned());
    built_in
        .chain(own.filter(|words| !words.is_empty()))
        .collect()
}
