//! A background that contradicts itself: no scenario is left, and whatever is asked of the rules
//! would be proved of nothing.
//!
//! This is a mistake of the file rather than a finding, so it becomes a problem at the lines that
//! cannot hold together: as few of them as will do, none of which could be left out.

use crate::logic::{Formula, Layers, Scenario, is_valid};
use crate::model::{Background, Ruleset};
use crate::problem::Problem;
use crate::solve::{Answer, Budget, Solver, Z3Solver};

/// What is wrong with the background where it leaves no scenario. `None` where there is a scenario,
/// and where the budget ran out before that was known.
pub fn no_scenario(ruleset: &Ruleset, budget: &Budget) -> Option<Problem> {
    let mut lines: Vec<Background> = ruleset.background.clone();
    if lines.is_empty() || an_ordinary_one_is_left(ruleset) {
        return None;
    }
    if !rule_each_other_out(ruleset, lines.clone(), budget) {
        return None;
    }
    for index in (0..lines.len()).rev() {
        let mut fewer = lines.clone();
        fewer.remove(index);
        if rule_each_other_out(ruleset, fewer.clone(), budget) {
            lines = fewer;
        }
    }
    let (first, others) = lines.split_first()?;
    let headline = if others.is_empty() {
        "a line of the background rules out every scenario"
    } else {
        "the background contradicts itself: no scenario is left"
    };
    let problem = Problem::error(first.span, headline, "no scenario keeps this").help(
        "background says what cannot happen; what the rules only forbid belongs into a clause",
    );
    let told = others.iter().fold(problem, |problem, line| {
        problem.other(line.span, "together with this")
    });
    Some(told)
}

/// Whether the scenario in which everything has its first value keeps the background, as it mostly does.
fn an_ordinary_one_is_left(ruleset: &Ruleset) -> bool {
    let mut ordinary = Scenario::unasked(ruleset.attributes.len());
    Layers::settle_asking(ruleset, &mut ordinary);
    is_valid(ruleset, &ordinary)
}

fn rule_each_other_out(ruleset: &Ruleset, lines: Vec<Background>, budget: &Budget) -> bool {
    let only = Ruleset {
        background: lines,
        ..ruleset.clone()
    };
    Z3Solver::new(&only, budget.clone()).ask(&Formula::True) == Answer::No
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::load::load;

    const REST: &str = "
attributes:
  a:
  b:
  c:
    asked_when: a
rulings:
  p:
    choice: [x, y]
    otherwise: x
clauses:
  - id: \"1\"
    when: b
    ruling: {p: y}
";

    /// The lines that are underlined, by their words.
    fn blamed(background: &str) -> Option<Vec<String>> {
        let text = format!("ruleset: t\nbackground:\n{background}{REST}");
        let ruleset = load("t.yaml", text).unwrap().ruleset;
        let problem = no_scenario(&ruleset, &Budget::unlimited())?;
        let others = problem.others.iter().map(|(span, _)| *span);
        let spans = std::iter::once(problem.span).chain(others);
        Some(
            spans
                .map(|span| ruleset.sources.slice(span).to_owned())
                .collect(),
        )
    }

    #[test]
    fn as_few_lines_as_contradict_each_other_are_named() {
        assert_eq!(blamed("  - never: a\n"), None);
        // What isn't asked breaks neither kind of line.
        assert_eq!(blamed("  - never: a\n  - always: c\n  - never: c\n"), None);
        assert_eq!(
            blamed("  - never: a\n  - never: b\n  - always: a\n"),
            Some(vec!["never: a".to_owned(), "always: a".to_owned()])
        );
        assert_eq!(
            blamed("  - never: a or not a\n  - never: b\n"),
            Some(vec!["never: a or not a".to_owned()])
        );
        assert_eq!(
            blamed("  - always: a or b\n  - never: a\n  - never: b\n").map(|lines| lines.len()),
            Some(3)
        );
    }
}
