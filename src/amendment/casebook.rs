//! The cases of a case book whose answer a draft changes.

use super::changes::{State, state_of};
use super::space::code_in;
use crate::cases::{Case, Judge, OnDimension, Ruled};
use crate::logic::{Established, Ruling};
use crate::model::{AttributeId, DimensionId, Ruleset, ValueSet};
use crate::solve::{Budget, Reason};

/// A case to which the text gives another answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseChange {
    /// Its id.
    pub id: String,
    /// The line of its file, or the row of its sheet.
    pub line: u64,
    /// Dimension by dimension, as far as the answer changes.
    pub answers: Vec<AnswerChange>,
    /// Facts that it notes and that the later edition does not know: they are left out there.
    pub lost: Vec<String>,
    /// Why it could not be decided, where it could not.
    pub open: Option<Reason>,
}

/// Another answer on one dimension.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AnswerChange {
    /// The dimension.
    pub dimension: String,
    /// What the earlier text may rule on the facts; several where the facts leave it open.
    pub before: Vec<State>,
    /// What the later text may rule.
    pub after: Vec<State>,
    /// What the case notes, where it notes a ruling on this dimension, and whether each text bears it
    /// out.
    pub noted: Option<Noted>,
}

/// A ruling that a case notes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Noted {
    /// The ruling.
    pub ruled: State,
    /// Whether the earlier text agrees with it, whatever else may have been the case.
    pub agreed: bool,
    /// Whether the later one does.
    pub agrees: bool,
}

/// The cases of which the answer on an announced dimension is another, in the order of the book.
pub(super) fn changed_cases(
    before: &Ruleset,
    after: &Ruleset,
    cases: &[Case],
    announced: &[String],
    budget: &Budget,
) -> Vec<CaseChange> {
    let mut judges = [before, after].map(|ruleset| Judge::new(ruleset, budget.clone()));
    let mut found = Vec::new();
    for case in cases {
        let (moved, lost) = moved(before, after, case);
        let [old, new] = &mut judges;
        let possible = [
            old.text().on(&case.found.facts),
            new.text().on(&moved.found.facts),
        ];
        let judged = [old.judge(case), new.judge(&moved)];
        let mut answers = Vec::new();
        for name in announced {
            let (Some(one), Some(other)) = (dimension(before, name), dimension(after, name)) else {
                continue;
            };
            let [was, is] = [
                states(before, one, possible[0].on(one)),
                states(after, other, possible[1].on(other)),
            ];
            if was == is {
                continue;
            }
            let noted = case.found.on(one).map(|ruled| Noted {
                ruled: named(before, one, ruled),
                agreed: agrees(&judged[0].on, one),
                agrees: agrees(&judged[1].on, other),
            });
            answers.push(AnswerChange {
                dimension: name.clone(),
                before: was,
                after: is,
                noted,
            });
        }
        let open = possible.iter().find_map(|possible| possible.open.clone());
        if !answers.is_empty() || !lost.is_empty() || open.is_some() {
            found.push(CaseChange {
                id: case.id.clone(),
                line: case.place.0,
                answers,
                lost,
                open,
            });
        }
    }
    found
}

fn dimension(ruleset: &Ruleset, name: &str) -> Option<DimensionId> {
    let index = ruleset.dimensions.iter().position(|it| it.name == name);
    index.map(DimensionId::new)
}

fn agrees(on: &[OnDimension], dimension: DimensionId) -> bool {
    let mut own = on.iter().filter(|it| it.dimension == dimension);
    own.any(|it| it.by.is_none() && it.stance.is_agreement())
}

fn named(ruleset: &Ruleset, on: DimensionId, values: Ruled) -> State {
    let values = values
        .iter()
        .filter_map(|index| ruleset[on].values.get(index));
    State::Values(values.map(|value| value.name.clone()).collect())
}

fn states(ruleset: &Ruleset, on: DimensionId, rulings: &[Ruling]) -> Vec<State> {
    let mut states: Vec<State> = rulings
        .iter()
        .map(|ruling| state_of(&ruleset[on], *ruling))
        .collect();
    states.sort();
    states.dedup();
    states
}

/// A case as the later edition has it, and the facts that it has no place for.
fn moved(before: &Ruleset, after: &Ruleset, case: &Case) -> (Case, Vec<String>) {
    let mut moved = case.clone();
    let mut lost = Vec::new();
    let mut facts = Established::nothing(after.attributes.len());
    for (id, code) in case.found.facts.facts() {
        let name = &before[id].name;
        let place = after.attributes.iter().position(|it| it.name == *name);
        let place = place.map(AttributeId::new);
        let value = place.and_then(|place| code_in(&before[id].kind, &after[place].kind, code));
        match (place, value) {
            (Some(place), Some(value)) => facts.set(place, Some(value)),
            _ => lost.push(name.clone()),
        }
    }
    moved.found.facts = facts;
    moved.found.ruled = case
        .found
        .ruled
        .iter()
        .filter_map(|(on, values)| {
            let place = dimension(after, &before[*on].name)?;
            let names = values
                .iter()
                .filter_map(|index| before[*on].values.get(index));
            let places: Option<ValueSet> = names
                .map(|value| {
                    let mut all = after[place].values.iter();
                    all.position(|it| it.name == value.name)
                })
                .collect();
            Some((place, places?))
        })
        .collect();
    moved.officials.clear();
    (moved, lost)
}

#[cfg(test)]
mod tests {
    use crate::amendment::space::code_in;
    use crate::logic::Code;
    use crate::model::{AttributeKind, NamedValue};
    use crate::source::Span;

    #[test]
    fn kinds_without_a_value_in_common_have_no_place_for_it() {
        let choice = |names: &[&str]| {
            let named = names.iter().map(|name| NamedValue {
                name: (*name).to_owned(),
                label: None,
                span: Span::default(),
            });
            AttributeKind::Choice(named.collect())
        };
        let code = Code(1);
        let in_other = |other: &[&str]| code_in(&choice(&["a", "b"]), &choice(other), code);
        assert_eq!(in_other(&["b", "c"]), Some(Code(0)));
        assert_eq!(in_other(&["a", "c"]), None);
    }
}
