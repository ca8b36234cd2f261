//! Step edge: one boundary of a number, written in two ways that fit only because of its step.
//!
//! "At least 10" and "at most 9.5" leave nothing out while the number is measured in halves; measured
//! more finely, 9.7 is neither. Answered from the text alone: every comparison of a number with a
//! threshold puts a boundary between two neighbouring values, and names one of them. Where both are
//! named, it is told. Only measures are looked at (a known unit of time, length, mass or angle, or a
//! step that is no whole number): between two goals there is nothing to be measured. Sums are not
//! looked at.

use super::finding::Finding;
use super::words;
use crate::model::{
    AttributeId, AttributeKind, ClauseId, Condition, Kind, Meaning, NumberRange, Ruleset, Unit,
};
use crate::read;
use crate::read::draft::{Comparison, Expr, ExprKind, Operand, Sum};
use crate::source::{Source, Sources, Span};
use std::collections::BTreeMap;

/// Which of the two values beside a boundary is named, and on which side of it the comparison holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Named {
    /// The value below, which belongs to what is below: `at most`.
    Below,
    /// The value above, which belongs to what is above: `at least`.
    Above,
    /// The value below, to what is above it: `more than`.
    MoreThan,
    /// The value above, to what is below it: `less than`.
    LessThan,
}

impl Named {
    fn is_upper(self) -> bool {
        matches!(self, Named::Above | Named::LessThan)
    }
}

/// The words that put a boundary somewhere.
struct Edge {
    named: Named,
    span: Span,
    clause: Option<ClauseId>,
}

/// Every boundary that is written in two ways, in the order of attributes and values.
pub(super) fn find(ruleset: &Ruleset) -> Vec<Finding> {
    let mut edges: BTreeMap<(AttributeId, i64), Vec<Edge>> = BTreeMap::new();
    for (clause, condition) in conditions(ruleset) {
        condition.each_range(&mut |span, attribute, low, high| {
            if let AttributeKind::Number(range) = &ruleset[attribute].kind
                && is_measured(range)
            {
                let name = &ruleset[attribute].name;
                let (lower, upper) = ends(ruleset, span, name);
                for (named, cut) in [(lower, low.saturating_sub(1)), (upper, high)] {
                    if cut >= 0 && cut < range.steps {
                        edges.entry((attribute, cut)).or_default().push(Edge {
                            named,
                            span,
                            clause,
                        });
                    }
                }
            }
        });
    }
    let found = edges.into_iter().filter_map(|((attribute, cut), edges)| {
        let AttributeKind::Number(range) = &ruleset[attribute].kind else {
            return None;
        };
        let uppers = edges.iter().filter(|edge| edge.named.is_upper()).count();
        (uppers > 0 && uppers < edges.len()).then(|| report(ruleset, attribute, range, cut, &edges))
    });
    found.collect()
}

/// Conditions that say how something is ruled or called, with the clauses that say it.
fn conditions(ruleset: &Ruleset) -> Vec<(Option<ClauseId>, &Condition)> {
    let mut all = Vec::new();
    for term in &ruleset.terms {
        match &term.meaning {
            Meaning::Sharp(condition) => all.push((None, condition)),
            // Between the two readings of a vague term a distance is meant.
            Meaning::Vague { .. } => {}
        }
    }
    let dimensions = ruleset.dimensions.iter();
    all.extend(dimensions.filter_map(|it| Some((None, it.required_when.as_ref()?))));
    let clauses = ruleset.clauses.iter().enumerate();
    all.extend(clauses.map(|(index, clause)| (Some(ClauseId::new(index)), &clause.when)));
    all
}

/// Whether a finer step would make sense.
fn is_measured(range: &NumberRange) -> bool {
    let known = [
        "ms", "s", "min", "h", "mm", "cm", "m", "km", "g", "kg", "t", "degree",
    ];
    let unit = match &range.unit {
        Unit::Named(name) => known.contains(&name.as_str()),
        Unit::None => false,
    };
    unit || range.step.to_whole().is_none()
}

/// How the words of a comparison name its lower and its upper end.
fn ends(ruleset: &Ruleset, span: Span, name: &str) -> (Named, Named) {
    let closed = (Named::Above, Named::Below);
    let Some(read) = read_again(ruleset.sources.slice(span)) else {
        return closed;
    };
    let ExprKind::Compare {
        left,
        comparison,
        right,
    } = &read.kind
    else {
        return closed;
    };
    let is_it = |sum: &Sum| {
        matches!(sum.parts.as_slice(), [part] if !part.negative
            && part.factor.is_none()
            && matches!(&part.operand, Operand::Name(word) if word.value == name))
    };
    let more = match comparison {
        Comparison::MoreThan => true,
        Comparison::LessThan => false,
        _ => return closed,
    };
    // `20 less than seconds` is `seconds more than 20`.
    if more == is_it(left) && (is_it(left) || is_it(right)) {
        (Named::MoreThan, Named::Below)
    } else {
        (Named::Above, Named::LessThan)
    }
}

/// A comparison as it was written.
fn read_again(words: &str) -> Option<Expr> {
    let source = Source::new("condition", words.trim_matches(['"', '\'']));
    let id = Sources::default().add(source.clone());
    read::condition(&source, id, &mut Vec::new())
}

fn report(
    ruleset: &Ruleset,
    attribute: AttributeId,
    range: &NumberRange,
    cut: i64,
    edges: &[Edge],
) -> Finding {
    let name = &ruleset[attribute].name;
    let amount = |step: i64| match range.unit.to_string() {
        unit if unit.is_empty() => range.value(step).to_string(),
        unit => format!("{} {unit}", range.value(step)),
    };
    let (lower, upper) = (amount(cut), amount(cut + 1));
    let has = |named: Named| edges.iter().any(|edge| edge.named == named);
    let step = match range.unit.to_string() {
        unit if unit.is_empty() => range.step.to_string(),
        unit => format!("{} {unit}", range.step),
    };
    let (headline, why) = if has(Named::Below) && has(Named::Above) {
        (
            format!(
                "`{name}`: {lower} and {upper} meet only because it is measured in steps of {step}"
            ),
            format!(
                "Measured more finely, what lies between {lower} and {upper} is on neither side."
            ),
        )
    } else if has(Named::LessThan) && has(Named::MoreThan) {
        (
            format!(
                "`{name}`: less than {upper} and more than {lower} keep apart only because it is measured in steps of {step}"
            ),
            format!(
                "Measured more finely, what lies between {lower} and {upper} is on both sides."
            ),
        )
    } else {
        (
            format!("`{name}`: the same boundary is written as {lower} and as {upper}"),
            format!("They are one boundary only because it is measured in steps of {step}."),
        )
    };
    let mut labels = edges.iter().map(|edge| {
        let value = if edge.named.is_upper() {
            &upper
        } else {
            &lower
        };
        let word = match edge.named {
            Named::Below => format!("reaches up to {value}"),
            Named::Above => format!("begins at {value}"),
            Named::MoreThan => format!("begins above {value}"),
            Named::LessThan => format!("ends below {value}"),
        };
        (edge.span, word)
    });
    let (span, label) = labels.next().unwrap_or_default();
    let mut clauses: Vec<ClauseId> = edges.iter().filter_map(|edge| edge.clause).collect();
    clauses.sort_unstable();
    clauses.dedup();
    let mut finding = words::finding(Kind::StepEdge, headline, span, label).of_clauses(&clauses);
    for (span, label) in labels {
        if !finding.labels.contains(&(span, label.clone())) {
            finding.labels.push((span, label));
        }
    }
    finding.attribute = Some(name.clone());
    finding.help(format!(
        "{why} Name the same number on both sides, as in `at least {upper}` and `less than {upper}`."
    ))
}
