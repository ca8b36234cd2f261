//! From a draft to a ruleset: every name resolved, every rule of the language held.
//!
//! Every problem is collected, each at the narrowest words; what rests on something that has a
//! problem already says nothing more. Nothing here asks what is true in a scenario.

mod asking;
mod attributes;
mod circles;
mod clauses;
mod conditions;
mod dimensions;
mod names;
mod numbers;
mod precedence;
mod principles;
mod quantities;
mod references;
mod values;
mod words;

pub use clauses::Settled;
pub use conditions::ConditionScope;

use super::{
    Attribute, AttributeId, Background, Condition, ConditionKind, Dimension, DimensionId, Meaning,
    Ruleset, Term, TermId,
};
use crate::problem::{Gravity, Problem};
use crate::read::draft::{
    BackgroundDraft, BackgroundRule, Expr, MeaningDraft, RulesetDraft, TermDraft, Words,
};
use crate::source::{Sources, Span};
use attributes::text_of;
use conditions::Context;
use names::{Known, Named, Names};
use references::Index;

/// Turns a draft into a ruleset.
///
/// Every problem found is added to `problems`; `None` where one of them is an error. Warnings may
/// be added beside a ruleset. `settled` are clauses that need not be resolved anew, `sources` the files
/// that the draft's spans lie in.
pub fn resolve(
    draft: &RulesetDraft,
    settled: &Settled<'_>,
    sources: &Sources,
    problems: &mut Vec<Problem>,
) -> Option<Ruleset> {
    let before = problems.len();
    let (mut attributes, mut dimensions, mut names) = declared(draft, problems);
    let quantities = quantities::quantities(&draft.quantities, &attributes, &mut names, problems);
    let known = Known {
        names: &names,
        attributes: &attributes,
        dimensions: &dimensions,
        quantities: &quantities,
    };
    let terms = terms(known, draft, problems);
    let asked: Vec<Option<Condition>> = draft
        .attributes
        .iter()
        .map(|draft| facts(known, draft.asked_when.as_ref()?, "`asked_when`", problems))
        .collect();
    let background = background(known, &draft.background, problems);
    let ruled = ruled(known, draft, problems);
    let index = Index::new(&draft.clauses, &draft.headings, problems);
    let (headings, openings) = clauses::headings(known, &draft.headings, &index, problems);
    let mut clauses = clauses::clauses(known, &draft.clauses, settled, &openings, problems);
    let principles = principles::principles(known, &terms, &draft.principles, problems);
    let accepted =
        principles::accepted(known, &draft.principles, &index, &draft.accepted, problems);

    for (attribute, asked_when) in attributes.iter_mut().zip(asked) {
        attribute.asked_when = asked_when;
    }
    for (dimension, (otherwise, required_when)) in dimensions.iter_mut().zip(ruled) {
        dimension.otherwise = otherwise;
        dimension.required_when = required_when;
    }
    let asking_order = asking::asking_order(&attributes, &terms, problems);
    let order = precedence::precedence(&mut clauses, &dimensions, &draft.clauses, &index, problems);

    let mut found = problems.iter().skip(before);
    if found.any(|problem| problem.gravity == Gravity::Error) {
        return None;
    }
    let words = |words: &Option<Words>| words.as_ref().map(|words| words.value.clone());
    Some(Ruleset {
        title: draft.title.value.clone(),
        edition: words(&draft.edition).unwrap_or_default(),
        language: words(&draft.language).unwrap_or_default(),
        caution: words(&draft.caution),
        sources: sources.clone(),
        layers: Vec::new(),
        quantities,
        attributes,
        terms,
        background,
        dimensions,
        clauses,
        principles,
        headings,
        accepted,
        order,
        asking_order,
    })
}

/// Resolves one condition against a ruleset, for words that stand outside it: on the command line,
/// in an amendment's scope. `scope` says whether it may read rulings.
///
/// `None` after adding every problem in it to `problems`.
pub fn resolve_condition(
    ruleset: &Ruleset,
    expr: &Expr,
    scope: ConditionScope,
    problems: &mut Vec<Problem>,
) -> Option<Condition> {
    Resolver::new(ruleset).condition(expr, scope, problems)
}

/// Resolves many conditions against one ruleset.
#[derive(Debug)]
pub struct Resolver<'r> {
    ruleset: &'r Ruleset,
    names: Names,
}

impl<'r> Resolver<'r> {
    /// Looks up what the ruleset has names for.
    pub fn new(ruleset: &'r Ruleset) -> Self {
        let names = Names::of(ruleset);
        Resolver { ruleset, names }
    }

    /// Resolves one condition, as [`resolve_condition`] does.
    pub fn condition(
        &self,
        expr: &Expr,
        scope: ConditionScope,
        problems: &mut Vec<Problem>,
    ) -> Option<Condition> {
        let known = Known {
            names: &self.names,
            attributes: &self.ruleset.attributes,
            dimensions: &self.ruleset.dimensions,
            quantities: &self.ruleset.quantities,
        };
        conditions::condition(
            &mut Context {
                known,
                scope,
                place: "this condition",
                problems,
            },
            expr,
        )
    }
}

/// Everything that has a name. What is unsound keeps its place in its list, and its name is marked.
fn declared(
    draft: &RulesetDraft,
    problems: &mut Vec<Problem>,
) -> (Vec<Attribute>, Vec<Dimension>, Names) {
    let mut names = Names::default();
    for (index, attribute) in draft.attributes.iter().enumerate() {
        let named = Named::Attribute(AttributeId::new(index));
        names.declare(&attribute.name, named, problems);
    }
    for (index, term) in draft.terms.iter().enumerate() {
        names.declare(&term.name, Named::Term(TermId::new(index)), problems);
    }
    for (index, dimension) in draft.dimensions.iter().enumerate() {
        let named = Named::Dimension(DimensionId::new(index));
        names.declare(&dimension.name, named, problems);
    }
    quantities::declare(&draft.quantities, &mut names, problems);
    names.mark_ambiguous();

    let mut all = Vec::with_capacity(draft.attributes.len());
    for draft in &draft.attributes {
        all.push(attributes::attribute(draft, problems).unwrap_or_else(|| {
            names.mark_broken(&draft.name.value);
            attributes::placeholder(draft)
        }));
    }
    let vague = draft
        .terms
        .iter()
        .enumerate()
        .filter(|(_, term)| is_vague(term));
    all.extend(vague.map(|(index, term)| attributes::reading(term, TermId::new(index))));
    let mut dimensions = Vec::with_capacity(draft.dimensions.len());
    for draft in &draft.dimensions {
        dimensions.push(dimensions::dimension(draft, problems).unwrap_or_else(|| {
            names.mark_broken(&draft.name.value);
            dimensions::placeholder(draft)
        }));
    }
    (all, dimensions, names)
}

fn is_vague(term: &TermDraft) -> bool {
    matches!(term.meaning, MeaningDraft::Vague { .. })
}

/// A condition that reads no ruling.
fn facts(
    known: Known<'_>,
    expr: &Expr,
    place: &'static str,
    problems: &mut Vec<Problem>,
) -> Option<Condition> {
    let mut context = Context {
        known,
        scope: ConditionScope::Facts,
        place,
        problems,
    };
    conditions::condition(&mut context, expr)
}

/// Stands for a condition that has a problem; the ruleset is not made then.
fn unknown(span: Span) -> Condition {
    Condition {
        kind: ConditionKind::Always,
        span,
    }
}

fn terms(known: Known<'_>, draft: &RulesetDraft, problems: &mut Vec<Problem>) -> Vec<Term> {
    let mut readings = (draft.attributes.len()..).map(AttributeId::new);
    let mut terms = Vec::with_capacity(draft.terms.len());
    for term in &draft.terms {
        let mut meaning = |expr: &Expr| {
            facts(known, expr, "a term", problems).unwrap_or_else(|| unknown(expr.span))
        };
        let meaning = match &term.meaning {
            MeaningDraft::Sharp(expr) => Meaning::Sharp(meaning(expr)),
            MeaningDraft::Vague { narrow, broad } => Meaning::Vague {
                narrow: meaning(narrow),
                broad: meaning(broad),
                reading: readings
                    .next()
                    .unwrap_or_else(|| AttributeId::new(usize::MAX)),
            },
        };
        terms.push(Term {
            name: term.name.value.clone(),
            label: text_of(term.label.as_ref()),
            text: text_of(term.text.as_ref()),
            meaning,
            span: term.name.span,
        });
    }
    terms
}

fn background(
    known: Known<'_>,
    drafts: &[BackgroundDraft],
    problems: &mut Vec<Problem>,
) -> Vec<Background> {
    let ids = drafts.iter().filter_map(|draft| draft.id.as_ref());
    principles::different(ids, "background lines", problems);
    let mut lines = Vec::with_capacity(drafts.len());
    for draft in drafts {
        let mut resolved = |expr: &Expr| facts(known, expr, "a background line", problems);
        let rule = match &draft.rule {
            BackgroundRule::Never(expr) => resolved(expr).map(BackgroundRule::Never),
            BackgroundRule::Always(expr) => resolved(expr).map(BackgroundRule::Always),
        };
        if let Some(rule) = rule {
            lines.push(Background {
                id: draft.id.as_ref().map(|id| id.value.clone()),
                rule,
                because: text_of(draft.because.as_ref()),
                span: draft.span,
            });
        }
    }
    lines
}

type Silence = (Option<super::ValueSet>, Option<Condition>);

/// What silence means on each dimension: `otherwise` and `required_when`. That `otherwise` is one value
/// unless all apply is held when a file is read.
fn ruled(known: Known<'_>, draft: &RulesetDraft, problems: &mut Vec<Problem>) -> Vec<Silence> {
    let drafts = draft.dimensions.iter().zip(known.dimensions);
    let mut ruled = Vec::with_capacity(draft.dimensions.len());
    for (draft, dimension) in drafts {
        let written = draft
            .otherwise
            .as_ref()
            .filter(|_| !dimension.values.is_empty());
        let otherwise = written.and_then(|it| {
            dimensions::values(
                known,
                &dimension.name,
                &dimension.values,
                &it.value,
                problems,
            )
        });
        let required_when = draft.required_when.as_ref().and_then(|expr| {
            let mut context = Context {
                known,
                scope: ConditionScope::Rulings,
                place: "`required_when`",
                problems,
            };
            conditions::condition(&mut context, expr)
        });
        ruled.push((otherwise, required_when));
    }
    ruled
}

#[cfg(test)]
mod tests;
