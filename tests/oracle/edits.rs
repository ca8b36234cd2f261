//! Words and exceptions that change nothing, by taking each away and trying every scenario.
//!
//! The parts of a condition are found and taken away here once more, on a copy of the whole ruleset.

use super::{Oracle, announced_differ, of_kind};
use evenhand::analysis::Checked;
use evenhand::logic::Evaluator;
use evenhand::model::{
    AttributeKind, ClauseId, Condition, ConditionKind, Kind, Meaning, Ruleset, Test, Wording,
};
use evenhand::source::Span;
use std::collections::{BTreeMap, BTreeSet};

/// Whether anything turns on a change of one clause's condition.
fn turns(oracle: &Oracle<'_>, clause: ClauseId, changed: &Ruleset) -> bool {
    let ruleset = oracle.ruleset;
    let evaluator = Evaluator::new(changed);
    let index = clause.index();
    oracle.scenarios.iter().any(|(scenario, outcome)| {
        let other = evaluator.outcome(scenario);
        let newly = other.in_force.contains(index) && !outcome.met.contains(index);
        let overridden = ruleset[clause].rulings.iter().any(|(dimension, said)| {
            let ruled = other.rulings[dimension.index()].values;
            said.iter().all(|value| !ruled.contains(value))
        });
        announced_differ(ruleset, outcome, &other) || (newly && overridden)
    })
}

fn parts(condition: &Condition) -> Option<&Vec<Condition>> {
    match &condition.kind {
        ConditionKind::All(parts) | ConditionKind::Any(parts) => Some(parts),
        ConditionKind::Count { of, .. } => Some(of),
        _ => None,
    }
}

/// The condition reached by a way; `not` is stepped through without a step of its own.
fn reach<'c>(condition: &'c mut Condition, way: &[usize]) -> &'c mut Condition {
    if let ConditionKind::Not(_) | ConditionKind::NotTrue(_) = condition.kind {
        let (ConditionKind::Not(inner) | ConditionKind::NotTrue(inner)) = &mut condition.kind
        else {
            unreachable!()
        };
        return reach(inner, way);
    }
    let Some((first, rest)) = way.split_first() else {
        return condition;
    };
    match &mut condition.kind {
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => reach(&mut parts[*first], rest),
        other => panic!("no way through {other:?}"),
    }
}

/// A copy of the ruleset whose clause lacks the parts at these ways.
fn lacking(ruleset: &Ruleset, clause: ClauseId, ways: &[&Vec<usize>]) -> Ruleset {
    let mut copy = ruleset.clone();
    let when = &mut copy.clauses[clause.index()].when;
    let mut ways: Vec<&Vec<usize>> = ways.to_vec();
    // The last ones first, so that the ways to the others stay.
    ways.sort();
    for way in ways.into_iter().rev() {
        let Some((last, before)) = way.split_last() else {
            when.kind = ConditionKind::Always;
            continue;
        };
        match &mut reach(when, before).kind {
            ConditionKind::All(parts)
            | ConditionKind::Any(parts)
            | ConditionKind::Count { of: parts, .. } => {
                parts.remove(*last);
            }
            other => panic!("no parts in {other:?}"),
        }
    }
    copy
}

/// Parts that can go alone, outermost ones only, with the ways to them.
fn alone(oracle: &Oracle<'_>, clause: ClauseId) -> Vec<(Vec<usize>, Span)> {
    let ruleset = oracle.ruleset;
    let this = &ruleset[clause];
    let has_when = this.when_span != this.id_span;
    let number = this.openings + usize::from(has_when) + usize::from(this.unless_span.is_some());
    let at = |index: usize| if number == 1 { vec![] } else { vec![index] };
    let mut found = Vec::new();
    if has_when {
        look(oracle, clause, at(this.openings), true, &mut found);
    }
    if this.unless_span.is_some() {
        let way = at(number - 1);
        if turns(oracle, clause, &lacking(ruleset, clause, &[&way])) {
            look(oracle, clause, way, false, &mut found);
        }
    }
    found
}

fn look(
    oracle: &Oracle<'_>,
    clause: ClauseId,
    way: Vec<usize>,
    whole: bool,
    found: &mut Vec<(Vec<usize>, Span)>,
) {
    let mut when = oracle.ruleset[clause].when.clone();
    let span = {
        let mut here = &when;
        for index in &way {
            let mut inner = here;
            while let ConditionKind::Not(next) | ConditionKind::NotTrue(next) = &inner.kind {
                inner = next;
            }
            here = &parts(inner).unwrap()[*index];
        }
        here.span
    };
    if whole && !turns(oracle, clause, &lacking(oracle.ruleset, clause, &[&way])) {
        found.push((way, span));
        return;
    }
    let here = reach(&mut when, &way);
    let Some(parts) = parts(here) else { return };
    if parts.iter().all(|part| part.span == here.span) {
        return;
    }
    for index in 0..parts.len() {
        let mut further = way.clone();
        further.push(index);
        look(oracle, clause, further, true, found);
    }
}

/// Holds surplus words to brute force; `idle` are clauses of which nothing is told.
pub(super) fn hold_surplus(oracle: &Oracle<'_>, checked: &Checked, idle: &BTreeSet<usize>) {
    let ruleset = oracle.ruleset;
    for clause in oracle.clauses() {
        let expected = if idle.contains(&clause.index()) {
            Vec::new()
        } else {
            alone(oracle, clause)
        };
        let mut of = of_kind(checked, Kind::SurplusWords).filter(|it| it.clauses == [clause]);
        let found = of.next();
        assert!(of.next().is_none());
        let marked: Vec<(Span, &str)> = found
            .into_iter()
            .flat_map(|found| &found.labels)
            .map(|(span, words)| (*span, words.as_str()))
            .collect();
        let id = &ruleset[clause].id;
        let spans: BTreeSet<Span> = marked.iter().map(|(span, _)| *span).collect();
        let wanted: BTreeSet<Span> = expected.iter().map(|(_, span)| *span).collect();
        assert_eq!(spans, wanted, "clause {id}");
        let way = |span: &Span| &expected.iter().find(|(_, known)| known == span).unwrap().0;
        let (instead, together): (Vec<_>, Vec<_>) = marked
            .iter()
            .partition(|(_, words)| words.contains("instead"));
        let together: Vec<&Vec<usize>> = together.iter().map(|(span, _)| way(span)).collect();
        if found.is_some() {
            let copy = lacking(ruleset, clause, &together);
            assert!(!turns(oracle, clause, &copy), "clause {id}: not all can go");
        }
        for (span, _) in instead {
            let mut more = together.clone();
            more.push(way(&span));
            let copy = lacking(ruleset, clause, &more);
            assert!(turns(oracle, clause, &copy), "clause {id}: more can go");
        }
    }
}

/// Holds idle exceptions to brute force.
pub(super) fn hold_exceptions(oracle: &Oracle<'_>, checked: &Checked, idle: &BTreeSet<usize>) {
    let ruleset = oracle.ruleset;
    let mut expected: BTreeSet<Span> = BTreeSet::new();
    for clause in oracle.clauses().filter(|id| !idle.contains(&id.index())) {
        let this = &ruleset[clause];
        if let Some(span) = this.unless_span {
            let number = this.openings + usize::from(this.when_span != this.id_span) + 1;
            let way = if number == 1 {
                vec![]
            } else {
                vec![number - 1]
            };
            if !turns(oracle, clause, &lacking(ruleset, clause, &[&way])) {
                expected.insert(span);
            }
        }
        for reference in &this.references {
            if reference.others.iter().all(|id| idle.contains(&id.index())) {
                continue;
            }
            let mut copy = ruleset.clone();
            for other in &reference.others {
                let lists = |copy: &mut Ruleset, behind: ClauseId, first: ClauseId| {
                    let behind = &mut copy.clauses[behind.index()];
                    let list = match reference.wording {
                        Wording::Disapplies => &mut behind.disapplied_by,
                        Wording::Notwithstanding | Wording::SubjectTo => &mut behind.yields_to,
                    };
                    list.retain(|id| *id != first);
                };
                match reference.wording {
                    Wording::SubjectTo => lists(&mut copy, clause, *other),
                    Wording::Notwithstanding | Wording::Disapplies => {
                        lists(&mut copy, *other, clause);
                    }
                }
            }
            let evaluator = Evaluator::new(&copy);
            let changes = oracle.scenarios.iter().any(|(scenario, outcome)| {
                announced_differ(ruleset, outcome, &evaluator.outcome(scenario))
            });
            if !changes {
                expected.insert(reference.span);
            }
        }
    }
    let found: BTreeSet<Span> = of_kind(checked, Kind::IdleException)
        .map(|finding| finding.labels[0].0)
        .collect();
    assert_eq!(found, expected);
}

/// Boundaries that are written in two ways, found by measuring twice as finely: `fine` is the same
/// ruleset with half the step.
pub(super) fn hold_edges(ruleset: &Ruleset, fine: &Ruleset, checked: &Checked) {
    let mut sides: BTreeMap<(String, i64), BTreeSet<bool>> = BTreeMap::new();
    for (one, other) in conditions(ruleset).into_iter().zip(conditions(fine)) {
        let (mut coarse, mut finer) = (Vec::new(), Vec::new());
        one.each_part(&mut |part| coarse.push(part.kind.clone()));
        other.each_part(&mut |part| finer.push(part.kind.clone()));
        for (one, other) in coarse.iter().zip(&finer) {
            let (
                ConditionKind::Fact {
                    test:
                        Test::Within {
                            attribute,
                            low,
                            high,
                        },
                    ..
                },
                ConditionKind::Fact {
                    test:
                        Test::Within {
                            low: fine_low,
                            high: fine_high,
                            ..
                        },
                    ..
                },
            ) = (one, other)
            else {
                continue;
            };
            let AttributeKind::Number(range) = &ruleset[*attribute].kind else {
                panic!("not a number")
            };
            for step in 0..range.steps {
                let at = |step: i64| (*low..=*high).contains(&step);
                let between = (*fine_low..=*fine_high).contains(&(2 * step + 1));
                if at(step) != at(step + 1) {
                    let name = ruleset[*attribute].name.clone();
                    let all = sides.entry((name, step)).or_default();
                    all.insert(between == at(step));
                }
            }
        }
    }
    let expected = sides.values().filter(|sides| sides.len() == 2).count();
    let found: Vec<&str> = of_kind(checked, Kind::StepEdge)
        .map(|finding| finding.headline.as_str())
        .collect();
    assert_eq!(found.len(), expected, "{found:?}, {sides:?}");
}

fn conditions(ruleset: &Ruleset) -> Vec<&Condition> {
    let terms = ruleset.terms.iter().filter_map(|term| match &term.meaning {
        Meaning::Sharp(condition) => Some(condition),
        Meaning::Vague { .. } => None,
    });
    let due = ruleset.dimensions.iter();
    let due = due.filter_map(|dimension| dimension.required_when.as_ref());
    let clauses = ruleset.clauses.iter().map(|clause| &clause.when);
    terms.chain(due).chain(clauses).collect()
}
