//! Whether an attribute is asked, and what a term means, may not rest on itself.
//!
//! Attributes, readings and sharp terms share one graph; its order is the order in which a scenario
//! can be told.

use super::circles::Dependencies;
use crate::model::{Attribute, AttributeId, Condition, ConditionKind, Meaning, Origin, Term};
use crate::problem::Problem;
use crate::source::Span;

/// Attributes such that whatever their `asked_when` reads stands before them; empty after telling a circle.
pub(super) fn asking_order(
    attributes: &[Attribute],
    terms: &[Term],
    problems: &mut Vec<Problem>,
) -> Vec<AttributeId> {
    let web = Web { attributes, terms };
    match web.dependencies().order() {
        Ok(order) => {
            let attributes = order.into_iter().filter(|node| *node < attributes.len());
            attributes.map(AttributeId::new).collect()
        }
        Err(circles) => {
            problems.extend(circles.iter().map(|circle| web.told(circle)));
            Vec::new()
        }
    }
}

/// Attributes (readings among them), then terms, as the nodes of one graph.
struct Web<'a> {
    attributes: &'a [Attribute],
    terms: &'a [Term],
}

impl Web<'_> {
    fn dependencies(&self) -> Dependencies {
        let count = self.attributes.len() + self.terms.len();
        let mut dependencies = Dependencies::among(count);
        for node in 0..count {
            for (read, _) in self.reads(node) {
                dependencies.add(read, node);
            }
        }
        dependencies
    }

    /// What a node rests on, with the words that say so.
    fn reads(&self, node: usize) -> Vec<(usize, Span)> {
        let mut found = Vec::new();
        for condition in self.conditions(node) {
            condition.each_part(&mut |part| match &part.kind {
                ConditionKind::Fact { test, .. } => {
                    let attributes = test.attributes().into_iter();
                    found.extend(attributes.map(|id| (id.index(), part.span)));
                }
                ConditionKind::Term(id) => {
                    let term = self.terms.get(id.index());
                    let node = match term.map(|term| &term.meaning) {
                        Some(Meaning::Vague { reading, .. }) => reading.index(),
                        _ => self.attributes.len() + id.index(),
                    };
                    found.push((node, part.span));
                }
                _ => {}
            });
        }
        found
    }

    fn conditions(&self, node: usize) -> Vec<&Condition> {
        if let Some(attribute) = self.attributes.get(node) {
            return match attribute.origin {
                Origin::Stated => attribute.asked_when.iter().collect(),
                Origin::Reading(term) => match self.terms.get(term.index()).map(|it| &it.meaning) {
                    Some(Meaning::Vague { narrow, broad, .. }) => vec![narrow, broad],
                    _ => Vec::new(),
                },
            };
        }
        let term = node.checked_sub(self.attributes.len());
        match term
            .and_then(|term| self.terms.get(term))
            .map(|it| &it.meaning)
        {
            Some(Meaning::Sharp(meaning)) => vec![meaning],
            _ => Vec::new(),
        }
    }

    fn name(&self, node: usize) -> &str {
        let term = || self.terms.get(node.checked_sub(self.attributes.len())?);
        let attribute = self.attributes.get(node).map(|it| it.name.as_str());
        attribute
            .or_else(|| term().map(|it| it.name.as_str()))
            .unwrap_or("")
    }

    fn is_stated(&self, node: usize) -> bool {
        let attribute = self.attributes.get(node);
        attribute.is_some_and(|it| it.origin == Origin::Stated)
    }

    fn told(&self, circle: &[usize]) -> Problem {
        let asked = circle.iter().find(|node| self.is_stated(**node));
        let round = circle.iter().chain(circle.first());
        let round: Vec<String> = round
            .map(|node| format!("`{}`", self.name(*node)))
            .collect();
        let round = round.join(", then ");
        let (headline, advice) = match asked {
            Some(node) => (
                format!(
                    "whether `{}` is asked rests on itself: {round}",
                    self.name(*node)
                ),
                "what `asked_when` reads must be established first; let it rest on attributes that are asked without this one",
            ),
            None => (
                format!("the meaning of a term rests on itself: {round}"),
                "say what the term means by attributes, or by terms that do not use it",
            ),
        };
        let onward = circle.iter().cycle().skip(1);
        let mut links = circle.iter().zip(onward).filter_map(|(first, then)| {
            let reads = self
                .reads(*then)
                .into_iter()
                .find(|(read, _)| read == first)?;
            Some((reads.1, self.link(*first, *then)))
        });
        let (span, label) = links.next().unwrap_or_default();
        let problem = Problem::error(span, headline, label).help(advice);
        links.fold(problem, |problem, (span, words)| problem.other(span, words))
    }

    fn link(&self, first: usize, then: usize) -> String {
        let (read, name) = (self.name(first), self.name(then));
        if self.is_stated(then) {
            format!("`asked_when` of `{name}` reads `{read}`")
        } else {
            format!("`{name}` is defined by `{read}`")
        }
    }
}
