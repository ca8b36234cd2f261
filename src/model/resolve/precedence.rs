//! How clauses stand to each other, and the order in which rulings can be worked out.
//!
//! The three relations and the reading of rulings share one graph. A circle in it is refused, named
//! step by step.

use super::circles::Dependencies;
use super::references::{EVERY_OTHER, Index};
use crate::model::{
    Clause, ClauseId, Condition, ConditionKind, Dimension, DimensionId, Reference, Step, Wording,
};
use crate::problem::Problem;
use crate::read::draft::{ClauseDraft, Words};
use crate::source::Span;
use std::sync::Arc;

/// `first` comes before `then`: it prevails over it, or takes it away.
struct Relation<'a> {
    first: ClauseId,
    then: ClauseId,
    wording: Wording,
    reference: &'a Words,
}

/// Puts the three relations into the clauses and finds the order of working out.
pub(super) fn precedence(
    clauses: &mut [Clause],
    dimensions: &[Dimension],
    drafts: &[Arc<ClauseDraft>],
    index: &Index<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Step> {
    let relations = relations(drafts, index, problems);
    for relation in &relations {
        note_reference(clauses, relation);
        let disapplies = relation.wording == Wording::Disapplies;
        if let Some(first) = clauses.get_mut(relation.first.index()) {
            let list = if disapplies {
                &mut first.disapplies
            } else {
                &mut first.prevails_over
            };
            list.push(relation.then);
        }
        if let Some(then) = clauses.get_mut(relation.then.index()) {
            let list = if disapplies {
                &mut then.disapplied_by
            } else {
                &mut then.yields_to
            };
            list.push(relation.first);
        }
    }
    for clause in clauses.iter_mut() {
        let lists = [
            &mut clause.prevails_over,
            &mut clause.yields_to,
            &mut clause.disapplies,
            &mut clause.disapplied_by,
        ];
        for list in lists {
            list.sort_unstable();
            list.dedup();
        }
    }
    let web = Web {
        clauses,
        dimensions,
        relations: &relations,
    };
    match web.dependencies().order() {
        Ok(order) => order.into_iter().map(|node| web.step(node)).collect(),
        Err(circles) => {
            problems.extend(circles.iter().map(|circle| web.told(circle)));
            Vec::new()
        }
    }
}

/// Notes with the clause that wrote it whom a reference means.
fn note_reference(clauses: &mut [Clause], relation: &Relation<'_>) {
    let (by, other) = match relation.wording {
        Wording::Notwithstanding | Wording::Disapplies => (relation.first, relation.then),
        Wording::SubjectTo => (relation.then, relation.first),
    };
    let Some(clause) = clauses.get_mut(by.index()) else {
        return;
    };
    let span = relation.reference.span;
    match clause.references.last_mut() {
        Some(last) if last.span == span && last.wording == relation.wording => {
            last.others.push(other);
        }
        _ => clause.references.push(Reference {
            wording: relation.wording,
            span,
            others: vec![other],
        }),
    }
}

fn relations<'a>(
    drafts: &'a [Arc<ClauseDraft>],
    index: &Index<'_>,
    problems: &mut Vec<Problem>,
) -> Vec<Relation<'a>> {
    let mut relations = Vec::new();
    // Two clauses that stand above (or below) every other one are a circle already; more of them
    // would only add the square of their number.
    let (mut above_all, mut below_all) = (0, 0);
    for (number, draft) in drafts.iter().enumerate() {
        let by = ClauseId::new(number);
        let lists = [
            (Wording::Notwithstanding, &draft.notwithstanding),
            (Wording::SubjectTo, &draft.subject_to),
            (Wording::Disapplies, &draft.disapplies),
        ];
        for (wording, references) in lists {
            for reference in references {
                if reference.value == EVERY_OTHER {
                    let uses = match wording {
                        Wording::SubjectTo => &mut below_all,
                        Wording::Notwithstanding | Wording::Disapplies => &mut above_all,
                    };
                    *uses += 1;
                    if *uses > 2 {
                        continue;
                    }
                }
                let others = index.referred(by, reference, problems).unwrap_or_default();
                relations.extend(others.into_iter().map(|other| {
                    let (first, then) = match wording {
                        Wording::Notwithstanding | Wording::Disapplies => (by, other),
                        Wording::SubjectTo => (other, by),
                    };
                    Relation {
                        first,
                        then,
                        wording,
                        reference,
                    }
                }));
            }
        }
    }
    relations
}

/// Every ruling that a condition reads, with the words that read it.
pub(super) fn rulings_read(condition: &Condition) -> Vec<(DimensionId, Span)> {
    let mut found = Vec::new();
    condition.each_part(&mut |part| {
        if let ConditionKind::Ruling { dimension, .. } = part.kind {
            found.push((dimension, part.span));
        }
    });
    found
}

/// Clauses, then dimensions, as the nodes of one graph.
struct Web<'a> {
    clauses: &'a [Clause],
    dimensions: &'a [Dimension],
    relations: &'a [Relation<'a>],
}

impl Web<'_> {
    fn dependencies(&self) -> Dependencies {
        let count = self.clauses.len();
        let mut dependencies = Dependencies::among(count + self.dimensions.len());
        for relation in self.relations {
            dependencies.add(relation.first.index(), relation.then.index());
        }
        for (node, clause) in self.clauses.iter().enumerate() {
            for (dimension, _) in rulings_read(&clause.when) {
                dependencies.add(count + dimension.index(), node);
            }
            for (dimension, _) in &clause.rulings {
                dependencies.add(node, count + dimension.index());
            }
        }
        for (number, dimension) in self.dimensions.iter().enumerate() {
            for (read, _) in dimension.required_when.iter().flat_map(rulings_read) {
                dependencies.add(count + read.index(), count + number);
            }
        }
        dependencies
    }

    fn step(&self, node: usize) -> Step {
        match node.checked_sub(self.clauses.len()) {
            None => Step::Clause(ClauseId::new(node)),
            Some(dimension) => Step::Dimension(DimensionId::new(dimension)),
        }
    }

    fn name(&self, step: Step) -> &str {
        match step {
            Step::Clause(id) => self.clauses.get(id.index()).map_or("", |it| it.id.as_str()),
            Step::Dimension(id) => self
                .dimensions
                .get(id.index())
                .map_or("", |it| it.name.as_str()),
        }
    }

    /// A circle as a problem, named step by step.
    fn told(&self, circle: &[usize]) -> Problem {
        let steps: Vec<Step> = circle.iter().map(|node| self.step(*node)).collect();
        let links: Vec<(Span, String)> = pairs(&steps)
            .filter_map(|(first, then)| self.link(first, then))
            .collect();
        let round = steps.iter().chain(steps.first());
        let round: Vec<String> = round
            .map(|step| format!("`{}`", self.name(*step)))
            .collect();
        let reads = steps.iter().any(|step| matches!(step, Step::Dimension(_)));
        let what = if reads {
            "a ruling rests on itself"
        } else {
            "the precedence of clauses runs in a circle"
        };
        let headline = format!("{what}: {}", round.join(", then "));
        let mut links = links.into_iter();
        let (span, label) = links.next().unwrap_or_default();
        let problem = Problem::error(span, headline, label).help(self.advice(&steps));
        links.fold(problem, |problem, (span, words)| problem.other(span, words))
    }

    /// Why `first` comes before `then`, and the words that say so.
    fn link(&self, first: Step, then: Step) -> Option<(Span, String)> {
        let (one, other) = (self.name(first), self.name(then));
        match (first, then) {
            (Step::Clause(first), Step::Clause(then)) => {
                let relation = self.relation(first, then)?;
                let said = match relation.wording {
                    Wording::Notwithstanding => format!("`{one}` prevails over `{other}`"),
                    Wording::SubjectTo => format!("`{other}` is subject to `{one}`"),
                    Wording::Disapplies => format!("`{one}` disapplies `{other}`"),
                };
                let said = match self.meant_too(relation) {
                    Some((reference, meant)) => {
                        format!("{said}, for `{reference}` means `{meant}` too")
                    }
                    None => said,
                };
                Some((relation.reference.span, said))
            }
            (Step::Clause(clause), Step::Dimension(_)) => {
                let clause = self.clauses.get(clause.index())?;
                Some((clause.ruling_span, format!("`{one}` rules on `{other}`")))
            }
            (Step::Dimension(dimension), Step::Clause(clause)) => {
                let clause = self.clauses.get(clause.index())?;
                let reads = rulings_read(&clause.when);
                let span = reads.iter().find(|(read, _)| *read == dimension)?.1;
                Some((span, format!("`{other}` reads the ruling `{one}`")))
            }
            (Step::Dimension(dimension), Step::Dimension(of)) => {
                let of = self.dimensions.get(of.index())?;
                let reads = of.required_when.iter().flat_map(rulings_read);
                let span = reads.into_iter().find(|(read, _)| *read == dimension)?.1;
                let said = format!("`required_when` of `{other}` reads the ruling `{one}`");
                Some((span, said))
            }
        }
    }

    fn relation(&self, first: ClauseId, then: ClauseId) -> Option<&Relation<'_>> {
        let mut relations = self.relations.iter();
        relations.find(|it| it.first == first && it.then == then)
    }

    /// The words of a relation that means more than one clause, and the clause that they mean here.
    fn meant_too<'w>(&'w self, relation: &'w Relation<'_>) -> Option<(&'w str, &'w str)> {
        let meant = match relation.wording {
            Wording::SubjectTo => relation.first,
            Wording::Notwithstanding | Wording::Disapplies => relation.then,
        };
        let (reference, meant) = (
            relation.reference.value.as_str(),
            self.name(Step::Clause(meant)),
        );
        (reference != meant).then_some((reference, meant))
    }

    /// What cures a circle.
    fn advice(&self, steps: &[Step]) -> String {
        let wide = pairs(steps).find_map(|pair| match pair {
            (Step::Clause(first), Step::Clause(then)) => {
                self.meant_too(self.relation(first, then)?)
            }
            _ => None,
        });
        let otherwise = self.without_relation(steps);
        match wide {
            Some((reference, meant)) => format!(
                "in place of `{reference}` name the clauses that are meant, if `{meant}` is none of them; or else {otherwise}"
            ),
            None => otherwise,
        }
    }

    /// What cures a circle whose relations are all meant.
    fn without_relation(&self, steps: &[Step]) -> String {
        let dimension = steps.iter().find(|step| matches!(step, Step::Dimension(_)));
        let clauses = steps.iter().any(|step| matches!(step, Step::Clause(_)));
        match (dimension, clauses) {
            (None, _) => {
                "take one of these relations away, so that one of the clauses stands in the end"
                    .to_owned()
            }
            (Some(_), false) => {
                "let `required_when` rest on facts, or on rulings that rest on nothing of this"
                    .to_owned()
            }
            (Some(dimension), true) => {
                let name = self.name(*dimension);
                format!(
                    "use two dimensions: `{name}_deserved` (with `intermediate: true`) for what the act deserves, and `{name}` for what the athlete gets; clauses about the act rule on the first; clauses that read it rule on the second"
                )
            }
        }
    }
}

/// Each step of a circle with the one that follows it.
fn pairs(steps: &[Step]) -> impl Iterator<Item = (Step, Step)> {
    let onward = steps.iter().cycle().skip(1);
    steps.iter().copied().zip(onward.copied())
}
