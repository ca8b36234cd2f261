//! Principles, and the findings that the committee accepts.

use super::attributes::text_of;
use super::conditions::{ConditionScope, Context, condition};
use super::names::{Known, Named};
use super::precedence::rulings_read;
use super::references::{Index, Wanted};
use super::words::one_of;
use crate::model::{
    Accepted, AttributeId, AttributeKind, Condition, ConditionKind, DimensionId, Gain, Kind,
    Meaning, Origin, Principle, Promise, Term,
};
use crate::problem::{Problem, nearest};
use crate::read::draft::{
    AcceptedDraft, Expr, GainDraft, PrincipleDraft, PromiseDraft, WhenSeveral, Words,
};
use crate::source::Span;
use std::collections::BTreeMap;

/// The principles; what could not be resolved is left out.
pub(super) fn principles(
    known: Known<'_>,
    terms: &[Term],
    drafts: &[PrincipleDraft],
    problems: &mut Vec<Problem>,
) -> Vec<Principle> {
    let ids = drafts.iter().map(|draft| &draft.id);
    different(ids, "principles", problems);
    let mut principles = Vec::with_capacity(drafts.len());
    for draft in drafts {
        let mut promising = Promising {
            known,
            terms,
            problems,
        };
        if let Some(promise) = promising.promise(&draft.promise) {
            principles.push(Principle {
                id: draft.id.value.clone(),
                text: text_of(draft.text.as_ref()),
                promise,
                span: draft.id.span,
            });
        }
    }
    principles
}

/// Holds that ids differ.
pub(super) fn different<'a>(
    ids: impl Iterator<Item = &'a Words>,
    what: &str,
    problems: &mut Vec<Problem>,
) {
    let mut seen: BTreeMap<&str, Span> = BTreeMap::new();
    for id in ids {
        match seen.get(id.value.as_str()) {
            Some(earlier) => problems.push(
                Problem::error(
                    id.span,
                    format!("two {what} have the id `{}`", id.value),
                    "expected an id of its own",
                )
                .other(*earlier, "the id is taken here"),
            ),
            None => {
                seen.insert(&id.value, id.span);
            }
        }
    }
}

struct Promising<'a> {
    known: Known<'a>,
    terms: &'a [Term],
    problems: &'a mut Vec<Problem>,
}

impl Promising<'_> {
    fn tell<T>(&mut self, problem: Problem) -> Option<T> {
        self.problems.push(problem);
        None
    }

    fn condition(
        &mut self,
        expr: &Expr,
        scope: ConditionScope,
        place: &'static str,
    ) -> Option<Condition> {
        let mut context = Context {
            known: self.known,
            scope,
            place,
            problems: self.problems,
        };
        condition(&mut context, expr)
    }

    fn promise(&mut self, draft: &PromiseDraft) -> Option<Promise> {
        Some(match draft {
            PromiseDraft::Expect { whenever, expect } => {
                let whenever = self.condition(whenever, ConditionScope::Rulings, "a principle");
                let expect = self.expectation(expect);
                Promise::Expect {
                    whenever: whenever?,
                    expect: expect?,
                }
            }
            PromiseDraft::ImpartialTo(names) => {
                let ids: Vec<Option<AttributeId>> =
                    names.iter().map(|name| self.established(name)).collect();
                let mut ids = ids.into_iter().collect::<Option<Vec<_>>>()?;
                ids.sort_unstable();
                ids.dedup();
                Promise::ImpartialTo(ids)
            }
            PromiseDraft::RisesWith { attribute, ruling } => {
                let rises = self.rising(attribute);
                let dimension = self.ordered(ruling);
                Promise::RisesWith {
                    attribute: rises?,
                    dimension: dimension?,
                }
            }
            PromiseDraft::NoGain { party, by, gain } => {
                let sound = self.party(party);
                let by = by
                    .as_ref()
                    .map(|by| self.own_move(by, sound.map(|()| party.value.trim())));
                let gain = match gain {
                    GainDraft::Raising(name) => self.ordered(name).map(Gain::Raising),
                    GainDraft::Lowering(name) => self.ordered(name).map(Gain::Lowering),
                    GainDraft::To(expr) => self
                        .ruling_condition(expr, "what a party gains")
                        .map(Gain::To),
                };
                sound?;
                Promise::NoGain {
                    party: party.value.trim().to_owned(),
                    // A move that was written and could not be resolved is not a move left out.
                    by: by.map_or(Some(None), |by| by.map(Some))?,
                    gain: gain?,
                }
            }
        })
    }

    /// What a principle expects: a promise of the rules, so most likely about a ruling.
    fn expectation(&mut self, expr: &Expr) -> Option<Condition> {
        let condition = self.condition(expr, ConditionScope::Rulings, "a principle")?;
        if rulings_read(&condition).is_empty() {
            self.problems.push(
                Problem::warning(
                    expr.span,
                    "a principle expects nothing of any ruling",
                    "expected a comparison of a ruling",
                )
                .help("what always holds of the facts belongs to `background`"),
            );
        }
        Some(condition)
    }

    /// A condition that says something about rulings.
    fn ruling_condition(&mut self, expr: &Expr, place: &'static str) -> Option<Condition> {
        let condition = self.condition(expr, ConditionScope::Rulings, place)?;
        if rulings_read(&condition).is_empty() {
            let headline = format!("{place} must speak of a ruling");
            let dimensions = self.known.dimensions.iter();
            let names = dimensions.map(|dimension| dimension.name.as_str());
            let help = format!("compare {} with a value", one_of(names));
            let label = "expected a comparison of a ruling";
            return self.tell(Problem::error(expr.span, headline, label).help(help));
        }
        Some(condition)
    }

    /// An attribute, or the reading of a vague term.
    fn established(&mut self, name: &Words) -> Option<AttributeId> {
        let terms = self.terms;
        match self.known.names.get(&name.value) {
            Some(Named::Attribute(id)) => Some(id),
            Some(Named::Term(id)) => {
                if let Some(Meaning::Vague { reading, .. }) =
                    terms.get(id.index()).map(|term| &term.meaning)
                {
                    return Some(*reading);
                }
                let headline = format!("`{}` is a term, which follows from attributes", name.value);
                self.tell(
                    Problem::error(name.span, headline, "expected an attribute")
                        .help("name the attributes that it is defined by"),
                )
            }
            Some(Named::Broken) => None,
            _ => {
                let known = self.known;
                let is_attribute = |named| matches!(named, Named::Attribute(_));
                self.tell(known.unknown(name, "an attribute", is_attribute))
            }
        }
    }

    /// An attribute of which there can be more: a scale or a number.
    fn rising(&mut self, name: &Words) -> Option<AttributeId> {
        let known = self.known;
        let rises = |named: Named| match named {
            Named::Attribute(id) => known.attribute(id).is_some_and(|it| {
                matches!(it.kind, AttributeKind::Scale(_) | AttributeKind::Number(_))
            }),
            _ => false,
        };
        match known.names.get(&name.value) {
            Some(Named::Broken) => None,
            Some(named @ Named::Attribute(id)) if rises(named) => Some(id),
            Some(Named::Attribute(id)) => {
                let defined = known.attribute(id)?.span;
                let headline = format!(
                    "`{}` has no more or less that a ruling could rise with",
                    name.value
                );
                let label = "expected a scale or a number";
                self.tell(
                    Problem::error(name.span, headline, label)
                        .other(defined, "it is defined here")
                        .help("make it a `scale`, its lowest value first"),
                )
            }
            _ => self.tell(known.unknown(name, "a scale or a number", rises)),
        }
    }

    /// A dimension whose rulings can be higher and lower.
    fn ordered(&mut self, name: &Words) -> Option<DimensionId> {
        let known = self.known;
        let fits = |named: Named| match named {
            Named::Dimension(id) => known
                .dimension(id)
                .is_some_and(|it| it.ordered && it.when_several != WhenSeveral::AllApply),
            _ => false,
        };
        match known.names.get(&name.value) {
            Some(Named::Broken) => None,
            Some(named @ Named::Dimension(id)) if fits(named) => Some(id),
            Some(Named::Dimension(id)) => {
                let dimension = known.dimension(id)?;
                let (headline, help) = if dimension.ordered {
                    (
                        format!(
                            "where all rulings apply, `{}` is never just one that could be higher or lower",
                            name.value
                        ),
                        "name a dimension that comes out as one value",
                    )
                } else {
                    (
                        format!("the rulings of `{}` have no order", name.value),
                        "make it a `scale`, its lowest value first",
                    )
                };
                let label = "expected a dimension with a scale";
                self.tell(
                    Problem::error(name.span, headline, label)
                        .other(dimension.span, "it is defined here")
                        .help(help),
                )
            }
            _ => self.tell(known.unknown(name, "a dimension with a scale", fits)),
        }
    }

    /// A party must control something.
    fn party(&mut self, party: &Words) -> Option<()> {
        let attributes = self.known.attributes.iter();
        let mut parties: Vec<&str> = attributes.filter_map(|it| it.set_by.as_deref()).collect();
        parties.sort_unstable();
        parties.dedup();
        let name = party.value.trim();
        if parties.contains(&name) {
            return Some(());
        }
        let headline = format!("no attribute is set by `{name}`");
        let help = match (nearest(name, parties.iter().copied()), parties.is_empty()) {
            (Some(near), _) => format!("did you mean `{near}`?"),
            (None, true) => format!("say at an attribute who controls it: `set_by: {name}`"),
            (None, false) => format!("attributes are set by {}", one_of(parties)),
        };
        let label = "expected a party that stands in some `set_by`";
        self.tell(Problem::error(party.span, headline, label).help(help))
    }

    /// The move must read something that the party sets; of a party that nobody knows, only the
    /// condition is looked at.
    fn own_move(&mut self, by: &Expr, party: Option<&str>) -> Option<Condition> {
        let condition = self.condition(by, ConditionScope::Facts, "a party's move")?;
        let Some(name) = party.filter(|party| !self.reads_of(&condition, party)) else {
            return Some(condition);
        };
        let headline = format!("`{name}` sets nothing that this move reads");
        let label = format!("expected a condition over what `{name}` sets");
        let attributes = self.known.attributes.iter();
        let sets = attributes.filter(|it| it.set_by.as_deref() == Some(name));
        let sets = one_of(sets.map(|it| it.name.as_str()));
        let help = format!("`{name}` sets {sets}");
        self.tell(Problem::error(by.span, headline, label).help(help))
    }

    /// Whether a condition reads what the party sets, through terms too.
    fn reads_of(&self, condition: &Condition, party: &str) -> bool {
        let mut seen = vec![false; self.terms.len()];
        let mut waiting = vec![condition];
        while let Some(condition) = waiting.pop() {
            let mut found = false;
            let mut named = Vec::new();
            condition.each_part(&mut |part| match &part.kind {
                ConditionKind::Fact { test, .. } => {
                    found |= test.attributes().iter().any(|id| {
                        let attribute = self.known.attribute(*id);
                        attribute.is_some_and(|it| {
                            it.origin == Origin::Stated && it.set_by.as_deref() == Some(party)
                        })
                    });
                }
                ConditionKind::Term(id) => named.push(id.index()),
                _ => {}
            });
            if found {
                return true;
            }
            for term in named {
                match (seen.get_mut(term), self.terms.get(term)) {
                    (Some(seen), Some(term)) if !*seen => {
                        *seen = true;
                        match &term.meaning {
                            Meaning::Sharp(meaning) => waiting.push(meaning),
                            Meaning::Vague { narrow, broad, .. } => waiting.extend([narrow, broad]),
                        }
                    }
                    _ => {}
                }
            }
        }
        false
    }
}

/// Whether what a name stands for is what is wanted.
type Fits = fn(Named) -> bool;

/// The accepted findings; what could not be resolved is left out.
pub(super) fn accepted(
    known: Known<'_>,
    principles: &[PrincipleDraft],
    index: &Index<'_>,
    drafts: &[AcceptedDraft],
    problems: &mut Vec<Problem>,
) -> Vec<Accepted> {
    let mut accepted = Vec::with_capacity(drafts.len());
    for draft in drafts {
        for clause in &draft.clauses {
            if index.exactly(&clause.value).is_none() {
                problems.push(index.unknown(clause, Wanted::Clause));
            }
        }
        let names: [(&Option<Words>, &str, Fits); 3] = [
            (&draft.dimension, "a dimension of rulings", |named| {
                matches!(named, Named::Dimension(_) | Named::Broken)
            }),
            (&draft.attribute, "an attribute or a vague term", |named| {
                matches!(named, Named::Attribute(_) | Named::Term(_) | Named::Broken)
            }),
            (&draft.term, "a term", |named| {
                matches!(named, Named::Term(_) | Named::Broken)
            }),
        ];
        for (name, expected, fits) in names {
            if let Some(name) = name
                && !known.names.get(&name.value).is_some_and(fits)
            {
                problems.push(known.unknown(name, expected, fits));
            }
        }
        if let Some(name) = &draft.principle {
            let ids = || {
                principles
                    .iter()
                    .map(|principle| principle.id.value.as_str())
            };
            if !ids().any(|id| id == name.value) {
                problems.push(no_such(name, "a principle", ids));
            }
        }
        let Some(finding) = Kind::from_word(&draft.finding.value) else {
            let words = || Kind::ALL.iter().map(|kind| kind.word());
            problems.push(no_such(&draft.finding, "a kind of finding", words));
            continue;
        };
        let value = |words: &Option<Words>| words.as_ref().map(|words| words.value.clone());
        let clauses = draft.clauses.iter().map(|clause| clause.value.clone());
        accepted.push(Accepted {
            finding,
            clauses: clauses.collect(),
            dimension: value(&draft.dimension),
            principle: value(&draft.principle),
            attribute: value(&draft.attribute),
            term: value(&draft.term),
            because: text_of(draft.because.as_ref()),
            span: draft.span,
        });
    }
    accepted
}

fn no_such<'a, I: Iterator<Item = &'a str>>(
    name: &Words,
    what: &str,
    known: impl Fn() -> I,
) -> Problem {
    let headline = format!("`{}` is not the name of {what}", name.value);
    let problem = Problem::error(name.span, headline, format!("expected {what}"));
    match (nearest(&name.value, known()), known().next().is_some()) {
        (Some(near), _) => problem.help(format!("did you mean `{near}`?")),
        (None, true) => problem.help(format!("known here: {}", one_of(known()))),
        (None, false) => problem.help("the ruleset has none"),
    }
}
