//! Which questions make up each verdict of a check.

use crate::analysis::{self, Checked, Deed, Finding, Instance, Outcome, Verdict};
use crate::logic::Scenario;
use crate::model::{AttributeId, ClauseId, DimensionId, Kind, Ruleset, TermId};
use crate::proof::Question;
use crate::proof::manifest::{ClaimVerdict, NotRecorded};
use crate::proof::recheck::{Example, Head, RECORDED, SCENARIO};
use std::collections::BTreeSet;

/// The questions of a claim.
pub(super) struct Plan {
    pub(super) head: Head,
    /// What its files are called.
    pub(super) id: String,
    pub(super) verdict: ClaimVerdict,
    /// Questions that nothing answers.
    pub(super) none: Vec<Question>,
    /// Questions that something answers, with that where it is known.
    pub(super) some: Vec<(Question, Option<Example>)>,
}

/// A plan, or why there is none.
type Planned = Result<Plan, (Head, String)>;

/// A plan for each verdict that can have a record.
pub(super) fn plans(ruleset: &Ruleset, checked: &Checked, instances: &[Instance]) -> Vec<Planned> {
    let mut plans = vec![Ok(Plan {
        head: Head {
            kind: SCENARIO.to_owned(),
            ..Head::default()
        },
        id: SCENARIO.to_owned(),
        verdict: ClaimVerdict::Found,
        none: Vec::new(),
        some: vec![(
            Question::Scenario,
            instances.iter().find_map(somewhere).map(Example::from),
        )],
    })];
    let recorded = |kind: Kind| RECORDED.iter().any(|(it, _)| *it == kind);
    let verdicts = checked.verdicts.iter();
    let verdicts = verdicts.filter(|verdict| recorded(verdict.kind));
    plans.extend(verdicts.map(|verdict| plan(ruleset, checked, instances, verdict)));
    plans
}

fn plan(
    ruleset: &Ruleset,
    checked: &Checked,
    instances: &[Instance],
    verdict: &Verdict,
) -> Planned {
    let on = verdict.dimension.map(|id| ruleset[id].name.clone());
    let head = Head {
        kind: verdict.kind.word().to_owned(),
        dimension: on,
        principle: verdict.principle.clone(),
    };
    // A principle is called by its place: its id may hold letters that a file's name can't.
    let principle = |id: &String| ruleset.principles.iter().position(|it| it.id == *id);
    let principle = verdict.principle.as_ref().and_then(principle);
    let id = match (&head.dimension, principle) {
        (Some(name), _) => format!("{}-{name}", head.kind),
        (None, Some(place)) => format!("{}-{}", head.kind, place + 1),
        (None, None) => head.kind.clone(),
    };
    let mut plan = Plan {
        head,
        id,
        verdict: match verdict.outcome {
            Outcome::Proved => ClaimVerdict::Proved,
            _ => ClaimVerdict::Found,
        },
        none: Vec::new(),
        some: Vec::new(),
    };
    if let Outcome::Undecided(reason) = &verdict.outcome {
        return Err((plan.head, reason.to_string()));
    }
    let planned = match (verdict.kind, verdict.dimension) {
        (Kind::Impossible | Kind::Displaced | Kind::NoEffect, _) => {
            by_clause(verdict.kind, instances, &mut plan)
        }
        (Kind::SurplusWords | Kind::IdleException, _) => {
            by_words(verdict.kind, instances, &mut plan)
        }
        (Kind::BrokenPrinciple, _) => {
            by_principle(principle, checked, verdict, &mut plan);
            Ok(())
        }
        (Kind::TurnsOnJudgement, _) => {
            by_judgement(ruleset, checked, &mut plan);
            Ok(())
        }
        (kind, dimension) => {
            by_scenario(
                ruleset,
                (kind, dimension),
                checked,
                verdict.untold,
                &mut plan,
            );
            Ok(())
        }
    };
    match planned {
        Ok(()) => Ok(plan),
        Err(why) => Err((plan.head, why)),
    }
}

/// The scenario of a finding, or its two.
fn example(finding: &Finding) -> Option<Example> {
    Some(Example {
        first: finding.scenario.clone()?,
        second: finding.pair.clone(),
    })
}

/// Kinds of which a scenario shows that there is one.
fn by_scenario(
    ruleset: &Ruleset,
    (kind, dimension): (Kind, Option<DimensionId>),
    checked: &Checked,
    untold: bool,
    plan: &mut Plan,
) {
    // A finding may name a dimension that its verdict does not.
    let of_this = |finding: &&Finding| {
        finding.kind == kind && (dimension.is_none() || finding.dimension == dimension)
    };
    let findings = checked.findings.iter().filter(of_this);
    let proved = plan.verdict == ClaimVerdict::Proved;
    match (kind, dimension) {
        (Kind::Contradiction, Some(on)) => {
            let mut families = Vec::new();
            for finding in findings {
                families.push(finding.clauses.clone());
                let question = Question::Together(on, finding.clauses.clone());
                plan.some.push((question, example(finding)));
            }
            if families.is_empty() && !proved {
                plan.some.push((Question::Clash(on, Vec::new()), None));
            } else if !untold {
                families.sort();
                plan.none.push(Question::Clash(on, families));
            }
        }
        (Kind::Gap | Kind::LeftToDiscretion, Some(on)) => {
            let question = match kind {
                Kind::Gap => Question::Gap(on),
                _ => Question::Open(on),
            };
            if proved {
                plan.none.push(question);
            } else {
                let shown = findings.into_iter().find_map(example);
                plan.some.push((question, shown));
            }
        }
        (Kind::LooseTerm, _) => {
            let mut told = Vec::new();
            for finding in findings {
                let named = |term: &crate::model::Term| Some(&term.name) == finding.term.as_ref();
                if let Some(index) = ruleset.terms.iter().position(named) {
                    told.push(TermId::new(index));
                    let question = Question::Loose(TermId::new(index));
                    plan.some.push((question, example(finding)));
                }
            }
            told.sort_unstable();
            plan.none.push(Question::OtherLoose(told));
        }
        (Kind::Presupposes, _) => {
            let mut told = Vec::new();
            for finding in findings {
                if let Some(clause) = finding.clauses.first() {
                    told.push(*clause);
                    let question = Question::Presupposes(*clause);
                    plan.some.push((question, example(finding)));
                }
            }
            told.sort_unstable();
            plan.none.push(Question::OtherPresupposes(told));
        }
        _ => {}
    }
}

/// A principle: nothing is against it, or something is.
fn by_principle(place: Option<usize>, checked: &Checked, verdict: &Verdict, plan: &mut Plan) {
    let Some(place) = place else { return };
    let question = Question::Breaks(place);
    if plan.verdict == ClaimVerdict::Proved {
        plan.none.push(question);
        return;
    }
    let mut findings = checked.findings.iter();
    let found = findings.find(|it| it.kind == verdict.kind && it.principle == verdict.principle);
    plan.some.push((question, found.and_then(example)));
}

/// What turns on judgement: the judged values of each finding do, and all others together don't.
fn by_judgement(ruleset: &Ruleset, checked: &Checked, plan: &mut Plan) {
    let judged = analysis::asked::judged(ruleset);
    let findings = checked.findings.iter();
    let mut told: BTreeSet<AttributeId> = BTreeSet::new();
    for finding in findings.filter(|it| it.kind == Kind::TurnsOnJudgement) {
        let Some(example) = example(finding) else {
            continue;
        };
        let differing = differing(&judged, &example);
        told.extend(&differing);
        plan.some.push((Question::Turns(differing), Some(example)));
    }
    let others = judged.into_iter().filter(|id| !told.contains(id));
    let others: Vec<AttributeId> = others.collect();
    if !others.is_empty() || told.is_empty() {
        plan.none.push(Question::Turns(others));
    }
}

/// Of what is judged, what has one value in the one scenario and another in the other.
fn differing(judged: &[AttributeId], example: &Example) -> Vec<AttributeId> {
    let second = example.second.as_ref().unwrap_or(&example.first);
    let both = |id: &AttributeId| example.first.get(*id).zip(second.get(*id));
    let differs = |id: &&AttributeId| both(id).is_some_and(|(one, other)| one != other);
    judged.iter().filter(differs).copied().collect()
}

/// Kinds of which a scenario for each clause shows that there is none.
fn by_clause(kind: Kind, instances: &[Instance], plan: &mut Plan) -> Result<(), String> {
    let mut none = Vec::new();
    for (instance, index) in instances.iter().zip(0usize..) {
        let clause = ClauseId::new(index);
        let met = (Question::Met(clause), &instance.met);
        let counts = (Question::Counts(clause), &instance.counts);
        let matters = (Question::Matters(clause), &instance.matters);
        // One of these is shown, or all are refuted; then what comes before is shown, or refuted by the
        // verdict before.
        let (wanted, before) = match kind {
            Kind::Impossible => (vec![met], None),
            Kind::Displaced => (vec![counts], Some(met)),
            _ => (vec![matters], Some(counts)),
        };
        let mut refuted = Vec::new();
        let mut shown = None;
        for (question, deed) in wanted {
            match deed {
                Deed::Here(scenario) if shown.is_none() => shown = Some((question, scenario)),
                Deed::Here(_) => {}
                Deed::Nowhere => refuted.push(question),
                Deed::Open(reason) => return Err(reason.to_string()),
            }
        }
        match (shown, before) {
            (Some((question, scenario)), _) => plan.show(question, scenario),
            (None, None) => none.append(&mut refuted),
            (None, Some((_, Deed::Nowhere))) => {}
            (None, Some((question, Deed::Here(scenario)))) => {
                none.append(&mut refuted);
                plan.show(question, scenario);
            }
            (None, Some((_, Deed::Open(reason)))) => return Err(reason.to_string()),
        }
    }
    plan.refute_together(none);
    Ok(())
}

/// Kinds of which a scenario for each part of the words shows that there is none.
fn by_words(kind: Kind, instances: &[Instance], plan: &mut Plan) -> Result<(), String> {
    let mut none = Vec::new();
    for (instance, index) in instances.iter().zip(0usize..) {
        for deed in [&instance.counts, &instance.matters] {
            if let Deed::Open(reason) = deed {
                return Err(reason.to_string());
            }
        }
        let clause = ClauseId::new(index);
        let words = &instance.words;
        let part = |(way, deed): &(Vec<usize>, Deed)| {
            (Question::TurnsOnPart(clause, way.clone()), deed.clone())
        };
        let mut asked: Vec<(Question, Deed)> = words.unless.iter().map(part).collect();
        if kind == Kind::SurplusWords {
            // Of an exception on which nothing turns, the other verdict tells.
            asked.retain(|(_, deed)| !matches!(deed, Deed::Nowhere));
            asked.extend(words.parts.iter().map(part));
        } else {
            let references = words.references.iter().enumerate();
            asked.extend(references.filter_map(|(index, deed)| {
                Some((Question::TurnsOnReference(clause, index), deed.clone()?))
            }));
        }
        for (question, deed) in asked {
            match deed {
                Deed::Here(scenario) => plan.show(question, &scenario),
                Deed::Nowhere => none.push(question),
                Deed::Open(reason) => return Err(reason.to_string()),
            }
        }
    }
    plan.refute_together(none);
    Ok(())
}

impl Plan {
    fn show(&mut self, question: Question, scenario: &Scenario) {
        self.some.push((question, Some(scenario.clone().into())));
    }

    /// All in one: they share what they rest on.
    fn refute_together(&mut self, mut none: Vec<Question>) {
        match none.len() {
            0 => {}
            1 => self.none.append(&mut none),
            _ => self.none.push(Question::Any(none)),
        }
    }
}

fn somewhere(instance: &Instance) -> Option<Scenario> {
    match &instance.met {
        Deed::Here(scenario) => Some(scenario.clone()),
        Deed::Nowhere | Deed::Open(_) => None,
    }
}

/// What the check says of kinds that have no record.
pub(super) fn without_record(checked: &Checked) -> Vec<NotRecorded> {
    let kinds = Kind::ALL.iter().copied();
    let kinds = kinds.filter(|kind| !RECORDED.iter().any(|(recorded, _)| recorded == kind));
    kinds
        .map(|kind| {
            let of_kind = checked.verdicts.iter().filter(|it| it.kind == kind);
            let verdict = match of_kind.map(|verdict| word(&verdict.outcome)).max() {
                Some((_, word)) => word,
                None => "not looked for",
            };
            NotRecorded {
                kind: kind.word().to_owned(),
                dimension: None,
                principle: None,
                verdict: verdict.to_owned(),
                why: why(kind).to_owned(),
            }
        })
        .collect()
}

/// Why a kind has no record.
fn why(kind: Kind) -> &'static str {
    match kind {
        Kind::StepEdge => {
            "it is about how two comparisons are written; in every scenario they say the same"
        }
        Kind::Unused => "it is about what the file names and nothing reads, not about scenarios",
        Kind::Wording => "it is about the wording of texts, which decide no scenario",
        _ => "this version makes no record of it",
    }
}

/// What became of a kind in one word, and how much that weighs where a kind has several verdicts.
fn word(outcome: &Outcome) -> (u8, &'static str) {
    match outcome {
        Outcome::Proved => (0, "proved"),
        Outcome::NoneListed(_) => (1, "none listed"),
        Outcome::Found => (2, "found"),
        Outcome::NotLookedAt(_) => (3, "not looked at"),
        Outcome::Undecided(_) => (4, "undecided"),
    }
}
