//! References between clauses: `5` means 5 and whatever continues it with `.` or `(`; a heading's
//! name means what it covers; `every other clause` means all but the one that says so.

use super::words::all_of;
use crate::model::ClauseId;
use crate::problem::{Problem, nearest};
use crate::read::draft::{ClauseDraft, HeadingDraft, Words};
use crate::source::Span;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Bound;
use std::sync::Arc;

/// The words that refer to all clauses but the one that says so.
pub(super) const EVERY_OTHER: &str = "every other clause";

/// What can be referred to.
pub(super) struct Index<'a> {
    by_id: BTreeMap<&'a str, (ClauseId, Span)>,
    covering: BTreeMap<&'a str, &'a HeadingDraft>,
    headings: &'a [HeadingDraft],
    clauses: usize,
}

impl<'a> Index<'a> {
    /// Takes in all ids; an id that stands twice is a problem.
    pub(super) fn new(
        clauses: &'a [Arc<ClauseDraft>],
        headings: &'a [HeadingDraft],
        problems: &mut Vec<Problem>,
    ) -> Index<'a> {
        let mut by_id: BTreeMap<&str, (ClauseId, Span)> = BTreeMap::new();
        for (index, clause) in clauses.iter().enumerate() {
            let id = clause.id.value.as_str();
            if id == EVERY_OTHER || id.trim().is_empty() {
                problems.push(
                    Problem::error(
                        clause.id.span,
                        format!("`{id}` cannot be the id of a clause"),
                        "expected another id",
                    )
                    .help("number the clause as it is published: `7.1`"),
                );
            }
            if let Some((_, earlier)) = by_id.get(id) {
                problems.push(
                    Problem::error(
                        clause.id.span,
                        format!("two clauses have the id `{id}`"),
                        "expected an id of its own",
                    )
                    .other(*earlier, "the id is taken here")
                    .help("renumber one of them"),
                );
                continue;
            }
            by_id.insert(id, (ClauseId::new(index), clause.id.span));
        }
        let covering = headings.iter().filter(|heading| !heading.covers.is_empty());
        Index {
            by_id,
            covering: covering
                .map(|heading| (heading.name.value.as_str(), heading))
                .collect(),
            headings,
            clauses: clauses.len(),
        }
    }

    /// The clause with exactly this id.
    pub(super) fn exactly(&self, id: &str) -> Option<ClauseId> {
        self.by_id.get(id).map(|(clause, _)| *clause)
    }

    /// A clause with this id or below it, with the place of its id.
    pub(super) fn first_numbered(&self, number: &str) -> Option<Span> {
        let clause = self.numbered(number).into_iter().min()?;
        let mut all = self.by_id.values();
        all.find(|(id, _)| *id == clause).map(|(_, span)| *span)
    }

    /// The clause with this id and those below it, in order.
    pub(super) fn numbered(&self, number: &str) -> Vec<ClauseId> {
        let mut found: Vec<ClauseId> = self.exactly(number).into_iter().collect();
        for joint in [".", "("] {
            let below = format!("{number}{joint}");
            let from = self
                .by_id
                .range::<str, _>((Bound::Included(below.as_str()), Bound::Unbounded));
            found.extend(
                from.take_while(|(id, _)| id.starts_with(&below))
                    .map(|(_, (clause, _))| *clause),
            );
        }
        found.sort_unstable();
        found
    }

    /// What a heading covers, in order: the clauses of its `covers`, else those of its number.
    pub(super) fn covered(
        &self,
        heading: &HeadingDraft,
        problems: &mut Vec<Problem>,
    ) -> Vec<ClauseId> {
        if heading.covers.is_empty() {
            return self.numbered(&heading.name.value);
        }
        let mut found = Vec::new();
        for reference in &heading.covers {
            let clauses = self.numbered(&reference.value);
            if clauses.is_empty() {
                problems.push(match self.covering.get(reference.value.as_str()) {
                    Some(_) => Problem::error(
                        reference.span,
                        format!(
                            "`{}` is a heading that covers others itself",
                            reference.value
                        ),
                        "expected numbers of clauses or groups",
                    )
                    .help("list what that heading covers"),
                    None => self.unknown(reference, Wanted::Numbered),
                });
            }
            found.extend(clauses);
        }
        found.sort_unstable();
        found.dedup();
        found
    }

    /// The clauses that a clause refers to, itself left out; `None` after telling why there are none.
    pub(super) fn referred(
        &self,
        by: ClauseId,
        reference: &Words,
        problems: &mut Vec<Problem>,
    ) -> Option<Vec<ClauseId>> {
        let name = reference.value.as_str();
        let mut found = if name == EVERY_OTHER {
            (0..self.clauses).map(ClauseId::new).collect()
        } else if let Some(heading) = self.covering.get(name) {
            // What is wrong with the heading's own list is told once, at the heading.
            self.covered(heading, &mut Vec::new())
        } else {
            self.numbered(name)
        };
        if found.is_empty() {
            if !self.covering.contains_key(name) {
                problems.push(self.unknown(reference, Wanted::Reference));
            }
            return None;
        }
        found.retain(|clause| *clause != by);
        if found.is_empty() {
            problems.push(
                Problem::error(
                    reference.span,
                    format!("`{name}` refers to the clause itself and to no other"),
                    "expected another clause",
                )
                .help("a clause never refers to itself; write the number of the other clause"),
            );
            return None;
        }
        Some(found)
    }

    /// A reference that matches nothing.
    pub(super) fn unknown(&self, reference: &Words, wanted: Wanted) -> Problem {
        let name = reference.value.as_str();
        let (expected, group) = match wanted {
            Wanted::Clause => ("the id of a clause", ""),
            Wanted::Numbered => ("the id of a clause or of a group", ", and no group"),
            Wanted::Reference => (
                "the id of a clause or of a group, or the name of a heading that covers some",
                ", and no group",
            ),
        };
        let headline = format!("no clause has the number `{name}`{group}");
        let problem = Problem::error(reference.span, headline, format!("expected {expected}"));
        let ids = self.by_id.keys().copied();
        let mut known: Vec<&str> = match wanted {
            Wanted::Clause | Wanted::Numbered => ids.collect(),
            Wanted::Reference => ids.chain(self.covering.keys().copied()).collect(),
        };
        let mut told = BTreeSet::new();
        known.retain(|name| told.insert(*name));
        if let Some(near) = nearest(name, known.iter().copied()) {
            return problem.help(format!("did you mean `{near}`?"));
        }
        if wanted == Wanted::Clause {
            return with_known(problem, known);
        }
        if let Some(heading) = self.headings.iter().find(|it| is_titled(it, name)) {
            return problem.help(format!(
                "a group of this title has the number `{}`; write that",
                heading.name.value
            ));
        }
        if name != EVERY_OTHER && nearest(name, [EVERY_OTHER]).is_some() {
            return problem.help(format!("did you mean `{EVERY_OTHER}`?"));
        }
        with_known(problem, known)
    }
}

/// What may stand at a place that takes a reference.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Wanted {
    /// One clause.
    Clause,
    /// A clause, or all below a number.
    Numbered,
    /// These, or the name of a heading that covers some.
    Reference,
}

fn with_known(problem: Problem, known: Vec<&str>) -> Problem {
    if known.is_empty() {
        problem
    } else {
        problem.help(format!("the ruleset has {}", all_of(known)))
    }
}

/// Whether a heading has this title, in whatever language.
fn is_titled(heading: &HeadingDraft, words: &str) -> bool {
    let titles = heading.title.iter().flat_map(|title| &title.by_language);
    let mut titles = titles.map(|(_, title)| title.value.trim());
    titles.any(|title| title.eq_ignore_ascii_case(words))
}
