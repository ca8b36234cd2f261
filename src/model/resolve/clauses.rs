//! Clauses: where each is met, with the words that open its groups, and what it rules.

use super::attributes::text_of;
use super::conditions::{ConditionScope, Context, condition, not_true};
use super::dimensions::values;
use super::names::{Known, Named};
use super::references::Index;
use crate::model::{Clause, ClauseId, Condition, ConditionKind, DimensionId, Heading, ValueSet};
use crate::problem::Problem;
use crate::read::draft::{ClauseDraft, HeadingDraft, RulingDraft};
use crate::source::Span;
use std::cmp::Reverse;
use std::sync::Arc;

/// Words that open a group, and the clauses that they are added to.
pub(super) struct Opening {
    words: Condition,
    /// How long the heading's number is: of two groups of the same clauses the shorter number is the outer one.
    number: usize,
    covers: Vec<ClauseId>,
}

/// The headings, and the words that open their groups.
pub(super) fn headings(
    known: Known<'_>,
    drafts: &[HeadingDraft],
    index: &Index<'_>,
    problems: &mut Vec<Problem>,
) -> (Vec<Heading>, Vec<Opening>) {
    let mut headings = Vec::with_capacity(drafts.len());
    let mut openings = Vec::new();
    for draft in drafts {
        let name = draft.name.value.as_str();
        check_name(draft, index, problems);
        let covers = index.covered(draft, problems);
        if covers.is_empty() && draft.covers.is_empty() {
            problems.push(
                Problem::warning(
                    draft.name.span,
                    format!("no clause stands below the heading `{name}`"),
                    "nothing has this number",
                )
                .help(if name.starts_with(|first: char| first.is_ascii_digit()) {
                    format!(
                        "clauses below it would be numbered `{name}.1` or `{name}(a)`; a heading that is no number lists them under `covers`"
                    )
                } else {
                    format!(
                        "a heading that is no number says which clauses it covers: add `covers`, as in `{name}: {{title: ..., covers: [\"7\", \"9.2\"]}}`"
                    )
                }),
            );
        }
        if let Some(when) = &draft.when {
            let words = condition(&mut context(known, problems), when);
            if let Some(words) = words {
                openings.push(Opening {
                    words,
                    number: name.len(),
                    covers: covers.clone(),
                });
            }
        }
        headings.push(Heading {
            name: name.to_owned(),
            title: text_of(draft.title.as_ref()),
            covers,
            span: draft.name.span,
        });
    }
    (headings, openings)
}

fn context<'a>(known: Known<'a>, problems: &'a mut Vec<Problem>) -> Context<'a> {
    Context {
        known,
        scope: ConditionScope::Rulings,
        place: "a clause",
        problems,
    }
}

/// Holds that `covers` stands only on headings that aren't numbers.
fn check_name(draft: &HeadingDraft, index: &Index<'_>, problems: &mut Vec<Problem>) {
    let Some(first) = draft.covers.first() else {
        return;
    };
    let name = draft.name.value.as_str();
    let below = index.first_numbered(name);
    if below.is_none() && !name.starts_with(|c: char| c.is_ascii_digit()) {
        return;
    }
    let span = draft
        .covers
        .last()
        .map_or(first.span, |last| first.span.to(last.span));
    let mut problem = Problem::error(
        span,
        format!("the heading `{name}` is a number, so what it covers is known already"),
        "expected no `covers`",
    )
    .help(format!(
        "leave `covers` away, or give the group a name that is no number, such as `Safety rules`; `{name}` covers whatever continues it with `.` or `(`"
    ));
    if let Some(below) = below {
        problem = problem.other(below, format!("this clause belongs to `{name}`"));
    }
    problems.push(problem);
}

/// Clauses that were resolved before, in a ruleset in which every name of a condition or a ruling means
/// the same.
#[derive(Clone, Debug, Default)]
pub struct Settled<'a> {
    /// For each clause of the draft, in order, what it was resolved to, if it says the same there and
    /// there was nothing to say about it.
    pub clauses: Vec<Option<&'a Clause>>,
}

impl Settled<'_> {
    /// A clause as it was resolved, without its precedence, if the same words open its groups.
    fn clause(&self, index: usize, openings: &[&Opening]) -> Option<Clause> {
        let clause = (*self.clauses.get(index)?)?;
        let opened_alike = clause.openings == openings.len()
            && match (&clause.when.kind, openings) {
                (_, []) => true,
                (ConditionKind::All(parts), _) => openings
                    .iter()
                    .zip(parts)
                    .all(|(opening, part)| opening.words == *part),
                // A clause with no condition of its own, below one heading.
                (_, [only]) => only.words == clause.when,
                _ => false,
            };
        opened_alike.then(|| Clause {
            references: Vec::new(),
            prevails_over: Vec::new(),
            yields_to: Vec::new(),
            disapplies: Vec::new(),
            disapplied_by: Vec::new(),
            ..clause.clone()
        })
    }
}

/// The clauses, without their precedence; a clause with a problem is left as far as it could be made.
pub(super) fn clauses(
    known: Known<'_>,
    drafts: &[Arc<ClauseDraft>],
    settled: &Settled<'_>,
    openings: &[Opening],
    problems: &mut Vec<Problem>,
) -> Vec<Clause> {
    let mut opened: Vec<Vec<&Opening>> = vec![Vec::new(); drafts.len()];
    for opening in openings {
        for clause in &opening.covers {
            if let Some(list) = opened.get_mut(clause.index()) {
                list.push(opening);
            }
        }
    }
    let mut clauses = Vec::with_capacity(drafts.len());
    for (index, (draft, mut openings)) in drafts.iter().zip(opened).enumerate() {
        // The widest group is the outermost; its words come first.
        openings.sort_by_key(|opening| (Reverse(opening.covers.len()), opening.number));
        let made = settled.clause(index, &openings);
        clauses.push(made.unwrap_or_else(|| clause(known, draft, &openings, problems)));
    }
    clauses
}

fn clause(
    known: Known<'_>,
    draft: &ClauseDraft,
    openings: &[&Opening],
    problems: &mut Vec<Problem>,
) -> Clause {
    let mut parts: Vec<Condition> = openings.iter().map(|it| it.words.clone()).collect();
    if let Some(when) = &draft.when {
        parts.extend(condition(&mut context(known, problems), when));
    }
    if let Some(unless) = &draft.unless {
        parts.extend(condition(&mut context(known, problems), unless).map(not_true));
    }
    if draft.ruling.is_empty() && draft.disapplies.is_empty() {
        problems.push(
            Problem::warning(
                draft.id.span,
                format!(
                    "clause `{}` rules nothing and disapplies nothing",
                    draft.id.value
                ),
                "expected `ruling` or `disapplies` below it",
            )
            .help("leave it away, or say what it decides; a definition belongs to `terms`"),
        );
    }
    let when_span = draft.when.as_ref().map_or(draft.id.span, |when| when.span);
    Clause {
        id: draft.id.value.clone(),
        title: text_of(draft.title.as_ref()),
        text: text_of(draft.text.as_ref()),
        text_spans: text_spans(draft),
        when: joined(parts, when_span),
        rulings: rulings(known, &draft.ruling, problems),
        openings: openings.len(),
        unless_span: draft.unless.as_ref().map(|unless| unless.span),
        references: Vec::new(),
        prevails_over: Vec::new(),
        yields_to: Vec::new(),
        disapplies: Vec::new(),
        disapplied_by: Vec::new(),
        id_span: draft.id.span,
        when_span,
        ruling_span: ruling_span(draft),
        span: draft.span,
    }
}

/// All of the parts; one part stands for itself, none always holds.
fn joined(mut parts: Vec<Condition>, span: Span) -> Condition {
    match (parts.pop(), parts.is_empty()) {
        (None, _) => Condition {
            kind: ConditionKind::Always,
            span,
        },
        (Some(only), true) => only,
        (Some(last), false) => {
            parts.push(last);
            Condition {
                kind: ConditionKind::All(parts),
                span,
            }
        }
    }
}

fn text_spans(draft: &ClauseDraft) -> Vec<Span> {
    let wordings = draft.text.iter().flat_map(|text| &text.by_language);
    wordings.map(|(_, words)| words.span).collect()
}

fn ruling_span(draft: &ClauseDraft) -> Span {
    let words = draft.ruling.iter().flat_map(|ruling| {
        let values = ruling.values.iter().map(|value| value.span);
        std::iter::once(ruling.dimension.span).chain(values)
    });
    words.reduce(Span::to).unwrap_or(draft.id.span)
}

/// What a clause rules, in the order of dimensions. That each dimension stands once, with one value or
/// `may_be`, is held when a file is read.
fn rulings(
    known: Known<'_>,
    drafts: &[RulingDraft],
    problems: &mut Vec<Problem>,
) -> Vec<(DimensionId, ValueSet)> {
    let mut rulings: Vec<(DimensionId, ValueSet)> = Vec::with_capacity(drafts.len());
    for draft in drafts {
        rulings.extend(ruling(known, draft, problems));
    }
    rulings.sort_unstable();
    rulings
}

fn ruling(
    known: Known<'_>,
    draft: &RulingDraft,
    problems: &mut Vec<Problem>,
) -> Option<(DimensionId, ValueSet)> {
    let id = match known.names.get(&draft.dimension.value) {
        Some(Named::Dimension(id)) => id,
        Some(Named::Broken) => return None,
        _ => {
            let is_dimension = |named| matches!(named, Named::Dimension(_));
            problems.push(known.unknown(&draft.dimension, "a dimension of rulings", is_dimension));
            return None;
        }
    };
    let dimension = known.dimension(id)?;
    let set = values(
        known,
        &dimension.name,
        &dimension.values,
        &draft.values,
        problems,
    )?;
    let words = draft.values.iter().map(|value| value.span).reduce(Span::to);
    let words = words.unwrap_or(draft.dimension.span);
    if draft.discretion && set.len() == 1 {
        let value = draft
            .values
            .first()
            .map_or("...", |value| value.value.as_str());
        problems.push(
            Problem::warning(
                words,
                "`may_be` with one value leaves nothing open",
                "expected two or more values",
            )
            .help(format!("write `{}: {value}`", dimension.name)),
        );
    }
    Some((id, set))
}
