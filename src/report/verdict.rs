//! What came of a draft, in one paragraph that a secretary can read out.

use super::words;
use crate::amendment::{Direction, Editorial, Scope, State, Subject, Vetted};
use crate::analysis::Finding;
use crate::labels;
use crate::logic::Count;
use crate::model::{DimensionId, Ruleset};
use num_bigint::BigUint;

/// The verdict of a draft.
pub(super) fn paragraph(vetted: &Vetted) -> String {
    let mut said = vec![changes(vetted)];
    said.extend(claims(vetted));
    said.extend(directions(vetted));
    said.push(findings(vetted));
    said.extend(untouched(vetted));
    said.extend(cases(vetted));
    let open = vetted.open.len();
    if vetted.is_open() {
        said.push(match open {
            0 => "Not everything about the amended rules could be decided.".to_owned(),
            1 => format!(
                "One question stayed undecided ({}).",
                vetted.open.first().map_or("", |(about, _)| about)
            ),
            more => format!("{more} questions stayed undecided."),
        });
    }
    said.join(" ")
}

fn changes(vetted: &Vetted) -> String {
    let mut dimensions: Vec<&str> = Vec::new();
    for row in &vetted.rows {
        if !dimensions.contains(&row.dimension.as_str()) {
            dimensions.push(&row.dimension);
        }
    }
    if dimensions.is_empty() {
        return if vetted.open.is_empty() {
            "No ruling changes, and that is proved.".to_owned()
        } else {
            "No change of a ruling was found.".to_owned()
        };
    }
    let each: Vec<String> = dimensions
        .iter()
        .map(|name| {
            let of = vetted.rows.iter().filter(|row| row.dimension == *name);
            let total = of.clone().try_fold(BigUint::ZERO, |sum, row| {
                let share = row.share.as_ref().filter(|share| share.exact)?;
                Some(sum + &share.scenarios)
            });
            let called = dimension(vetted, name);
            match total {
                Some(scenarios) => {
                    let count = Count {
                        scenarios,
                        exact: true,
                    };
                    let share = words::share(&count, vetted.scenarios.as_ref());
                    format!("on {called} in {share}")
                }
                None => format!("on {called}"),
            }
        })
        .collect();
    format!("The ruling changes {}.", words::and_list(&each))
}

fn claims(vetted: &Vetted) -> Vec<String> {
    let mut said = Vec::new();
    match vetted.scope {
        Scope::None => {}
        Scope::Kept if vetted.rows.is_empty() => {}
        Scope::Kept => {
            said.push("Nothing changes outside the scope, and that is proved.".to_owned());
        }
        Scope::Broken => {
            let outside = vetted.rows.iter().filter(|row| row.in_scope == Some(false));
            let mut names: Vec<String> = outside
                .map(|row| dimension(vetted, &row.dimension))
                .collect();
            names.dedup();
            said.push(format!(
                "{}: rulings on {} change outside it.",
                match vetted.subject {
                    Subject::Drafts => "The drafts reach beyond their scope",
                    Subject::Draft | Subject::Edition => "The draft reaches beyond its scope",
                },
                words::and_list(&names)
            ));
        }
        Scope::Undecided => {
            said.push("Whether something changes outside the scope stayed undecided.".to_owned());
        }
    }
    match vetted.editorial {
        Editorial::NotClaimed | Editorial::Proved => {}
        Editorial::Refuted => {
            said.push("The draft is not editorial, though it says so.".to_owned());
        }
        Editorial::Undecided => {
            said.push("Whether it is editorial, as it says, stayed undecided.".to_owned());
        }
    }
    said
}

fn directions(vetted: &Vetted) -> Vec<String> {
    let of = |wanted: Direction| -> Vec<String> {
        let all = vetted.direction.iter();
        let those = all.filter(|(_, direction)| **direction == wanted);
        those.map(|(name, _)| dimension(vetted, name)).collect()
    };
    let mut said = Vec::new();
    for (direction, words) in [
        (Direction::NeverLower, "never ruled lower than before"),
        (Direction::NeverHigher, "never ruled higher than before"),
        (
            Direction::Both,
            "ruled higher in some scenarios and lower in others",
        ),
    ] {
        let names = of(direction);
        if !names.is_empty() {
            let names = super::text_capital(&words::and_list(&names));
            let verb = if of(direction).len() == 1 {
                "is"
            } else {
                "are"
            };
            said.push(format!("{names} {verb} {words}."));
        }
    }
    said
}

fn untouched(vetted: &Vetted) -> Option<String> {
    let others = vetted.affected.iter();
    let others: Vec<String> = others
        .filter(|it| it.changed == Some(true))
        .map(|it| it.clause.clone())
        .collect();
    match others.as_slice() {
        [] => None,
        [one] => Some(format!(
            "Clause {one} does something else, though its words stay."
        )),
        several if several.len() <= 6 => Some(format!(
            "Clauses {} do something else, though their words stay.",
            words::and_list(several)
        )),
        several => Some(format!(
            "{} do something else, though their words stay.",
            words::counted(several.len(), "clause")
        )),
    }
}

/// What becomes of the cases of a book.
fn cases(vetted: &Vetted) -> Option<String> {
    let cases = vetted.cases.as_ref()?;
    let changed: Vec<_> = cases.iter().filter(|it| !it.answers.is_empty()).collect();
    if changed.is_empty() {
        return Some("No case of the case book gets another answer.".to_owned());
    }
    let lost = changed.iter().filter(|case| {
        let mut noted = case.answers.iter().filter_map(|it| it.noted.as_ref());
        noted.any(|noted| noted.agreed && !noted.agrees)
    });
    let verb = if changed.len() == 1 { "gets" } else { "get" };
    let told = format!(
        "{} of the case book {verb} another answer",
        super::text_capital(&words::counted(changed.len(), "case"))
    );
    Some(match lost.count() {
        0 => format!("{told}."),
        1 => format!("{told}; 1 that agreed with the text no longer does."),
        number => format!("{told}; {number} that agreed with the text no longer do."),
    })
}

fn brings(vetted: &Vetted) -> &'static str {
    match vetted.subject {
        Subject::Draft => "The draft brings",
        Subject::Drafts => "The drafts bring",
        Subject::Edition => "The new edition brings",
    }
}

fn findings(vetted: &Vetted) -> String {
    let faults: Vec<&Finding> = vetted.introduced_faults().collect();
    let told = |number: usize, more: &[&Finding]| {
        let headlines: Vec<String> = more
            .iter()
            .take(2)
            .map(|finding| format!("\"{}\"", finding.headline))
            .collect();
        let rest = number.saturating_sub(headlines.len());
        match rest {
            0 => headlines.join("; "),
            rest => format!("{}; and {rest} more", headlines.join("; ")),
        }
    };
    let mut said = match faults.len() {
        0 => format!("{} in no fault.", brings(vetted)),
        number => format!(
            "{} in {}: {}.",
            brings(vetted),
            words::counted(number, "fault"),
            told(number, &faults)
        ),
    };
    let gone = vetted.resolved.iter();
    let gone = gone
        .filter_map(|index| vetted.checked_before.findings.get(*index))
        .filter(|finding| finding.severity == crate::model::Severity::Fault)
        .count();
    if gone > 0 {
        let mends = match vetted.subject {
            Subject::Drafts => "They mend",
            Subject::Draft | Subject::Edition => "It mends",
        };
        said = format!("{said} {mends} {}.", words::counted(gone, "fault"));
    }
    said
}

/// How people call a dimension of either edition.
pub(super) fn dimension(vetted: &Vetted, name: &str) -> String {
    let find = |ruleset: &Ruleset| {
        let index = ruleset.dimensions.iter().position(|it| it.name == name)?;
        Some(labels::dimension(ruleset, DimensionId::new(index)))
    };
    find(&vetted.after)
        .or_else(|| find(&vetted.before))
        .unwrap_or_else(|| name.to_owned())
}

/// A ruling in people's words.
pub(super) fn state(vetted: &Vetted, name: &str, state: &State) -> String {
    let called = |value: &String| {
        let of = |ruleset: &Ruleset| {
            let dimension = ruleset.dimensions.iter().find(|it| it.name == name)?;
            let named = dimension.values.iter().find(|it| it.name == *value)?;
            Some(labels::called(ruleset, named.label.as_ref(), &named.name))
        };
        of(&vetted.after)
            .or_else(|| of(&vetted.before))
            .unwrap_or_else(|| value.clone())
    };
    match state {
        State::Gap => "no ruling, though one is due".to_owned(),
        State::NotDue => "no ruling".to_owned(),
        State::Contradiction => "a contradiction".to_owned(),
        State::Values(values) if values.is_empty() => "nothing".to_owned(),
        State::Values(values) => {
            let values: Vec<String> = values.iter().map(called).collect();
            words::or_list(&values)
        }
    }
}
