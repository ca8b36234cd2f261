//! Dimensions of rulings: their values, how several rulings come together, and what silence means.

use super::attributes::{check_drafts, named_values, text_of};
use super::names::Known;
use super::values::no_such_value;
use crate::model::{Dimension, NamedValue, ValueSet};
use crate::problem::Problem;
use crate::read::draft::{DimensionDraft, WhenSeveral, Words};

/// A dimension without what needs all names; `None` where its values are unsound.
pub(super) fn dimension(draft: &DimensionDraft, problems: &mut Vec<Problem>) -> Option<Dimension> {
    let before = problems.len();
    check_drafts(&draft.name, &draft.values, ValueSet::CAPACITY, problems);
    let when_several = draft
        .when_several
        .as_ref()
        .map_or(WhenSeveral::MustAgree, |it| it.value);
    if let Some(written) = &draft.when_several
        && matches!(when_several, WhenSeveral::Highest | WhenSeveral::Lowest)
        && !draft.ordered
    {
        problems.push(
            Problem::error(
                written.span,
                format!(
                    "`{}` has no highest or lowest value: its values have no order",
                    draft.name.value
                ),
                "`must_agree` or `all_apply` was expected for a `choice`",
            )
            .other(draft.name.span, "it is a choice")
            .help("make it a `scale`, its lowest value first"),
        );
    }
    let sound = problems.len() == before;
    sound.then(|| Dimension {
        name: draft.name.value.clone(),
        label: text_of(draft.label.as_ref()),
        values: named_values(&draft.values),
        ordered: draft.ordered,
        when_several,
        otherwise: None,
        required_when: None,
        intermediate: draft.intermediate,
        span: draft.name.span,
    })
}

/// The dimension with its values left out, to keep its place in the list where they are unsound.
pub(super) fn placeholder(draft: &DimensionDraft) -> Dimension {
    Dimension {
        name: draft.name.value.clone(),
        label: None,
        values: Vec::new(),
        ordered: false,
        when_several: WhenSeveral::MustAgree,
        otherwise: None,
        required_when: None,
        intermediate: draft.intermediate,
        span: draft.name.span,
    }
}

/// Values of a dimension by name; each must exist, and a repetition is worth a warning.
pub(super) fn values(
    known: Known<'_>,
    owner: &str,
    values: &[NamedValue],
    words: &[Words],
    problems: &mut Vec<Problem>,
) -> Option<ValueSet> {
    let mut set = ValueSet::EMPTY;
    let mut sound = true;
    for word in words {
        match values.iter().position(|value| value.name == word.value) {
            Some(index) if set.contains(index) => {
                let headline = format!("`{}` stands twice in one list", word.value);
                problems.push(
                    Problem::warning(word.span, headline, "it stands before already")
                        .help("leave one of them away, or write the value that was meant"),
                );
            }
            Some(index) => set = set.with(index),
            None => {
                problems.push(no_such_value(known, owner, values, word));
                sound = false;
            }
        }
    }
    sound.then_some(set)
}
