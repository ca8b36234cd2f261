//! What a verdict needs: which questions must have been answered, and how.

use super::wording::{own_words, parts_within};
use crate::model::{AttributeId, ClauseId, DimensionId, Kind, Meaning, Origin, Ruleset, TermId};
use crate::proof::{Claim, ClaimVerdict, Question};
use crate::read::draft::WhenSeveral;
use std::collections::BTreeSet;

/// What is established: questions that a scenario answers, and questions that none does.
#[derive(Debug, Default)]
pub(super) struct Established {
    pub(super) some: BTreeSet<Question>,
    pub(super) none: BTreeSet<Question>,
}

/// The kind that says that there is a scenario at all.
pub(crate) const SCENARIO: &str = "scenario";

/// What the verdicts of a kind are about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum About {
    /// The ruleset as a whole.
    Whole,
    /// A dimension each.
    Dimension,
    /// A principle each; the ruleset as a whole where it states none.
    Principle,
}

/// The kinds of verdict that can have a record, and what they are about.
pub(crate) const RECORDED: &[(Kind, About)] = &[
    (Kind::Contradiction, About::Dimension),
    (Kind::Gap, About::Dimension),
    (Kind::Impossible, About::Whole),
    (Kind::Displaced, About::Whole),
    (Kind::LooseTerm, About::Whole),
    (Kind::BrokenPrinciple, About::Principle),
    (Kind::NoEffect, About::Whole),
    (Kind::Presupposes, About::Whole),
    (Kind::TurnsOnJudgement, About::Whole),
    (Kind::LeftToDiscretion, About::Dimension),
    (Kind::SurplusWords, About::Whole),
    (Kind::IdleException, About::Whole),
];

/// What a verdict is about.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Head {
    /// The kind of finding.
    pub(crate) kind: String,
    /// The dimension.
    pub(crate) dimension: Option<String>,
    /// The principle.
    pub(crate) principle: Option<String>,
}

impl Head {
    /// What the manifest and reports call it.
    pub(crate) fn words(&self) -> String {
        let Head {
            kind,
            dimension,
            principle,
        } = self;
        match (dimension, principle) {
            (Some(on), _) => format!("{kind} on {on}"),
            (None, Some(principle)) => format!("{kind} {principle}"),
            (None, None) => kind.clone(),
        }
    }
}

/// Every verdict that a record has to tell of.
pub(super) fn due(ruleset: &Ruleset) -> Vec<Head> {
    let of = |kind: &str| Head {
        kind: kind.to_owned(),
        ..Head::default()
    };
    let mut due = vec![of(SCENARIO)];
    for kind in Kind::ALL {
        let recorded = RECORDED.iter().find(|(it, _)| it == kind);
        match recorded.map_or(About::Whole, |(_, about)| *about) {
            About::Dimension => due.extend(ruleset.dimensions.iter().map(|it| Head {
                dimension: Some(it.name.clone()),
                ..of(kind.word())
            })),
            About::Principle if !ruleset.principles.is_empty() => {
                due.extend(ruleset.principles.iter().map(|it| Head {
                    principle: Some(it.id.clone()),
                    ..of(kind.word())
                }));
            }
            About::Principle | About::Whole => due.push(of(kind.word())),
        }
    }
    due
}

/// Whether the form of the ruleset alone leaves no scenario that answers a question.
pub(crate) fn free_by_form(ruleset: &Ruleset, question: &Question) -> bool {
    match question {
        Question::Clash(dimension, _) => ruleset[*dimension].when_several != WhenSeveral::MustAgree,
        Question::Open(dimension) => ruleset[*dimension].when_several == WhenSeveral::AllApply,
        Question::Gap(dimension) => {
            let this = &ruleset[*dimension];
            this.required_when.is_none() && this.otherwise.is_some()
        }
        Question::OtherLoose(told) => {
            let mut terms = (0..ruleset.terms.len()).map(TermId::new);
            terms.all(|term| {
                told.contains(&term) || matches!(ruleset[term].meaning, Meaning::Sharp(_))
            })
        }
        Question::Turns(judged) => judged.is_empty(),
        _ => false,
    }
}

/// Whether what is established carries the claim.
///
/// # Errors
/// Says in words what is missing.
pub(super) fn carries(ruleset: &Ruleset, claim: &Claim, known: &Established) -> Result<(), String> {
    let dimension = || {
        let name = claim
            .dimension
            .as_ref()
            .ok_or("the claim names no dimension")?;
        let mut all = ruleset.dimensions.iter();
        let index = all.position(|dimension| dimension.name == *name);
        index
            .map(DimensionId::new)
            .ok_or("there is no such dimension")
    };
    let proved = claim.verdict == ClaimVerdict::Proved;
    let none = |question: Question| {
        if !known.none.contains(&question) {
            return Err(format!(
                "it is not shown that there is no scenario in which {}",
                question.words(ruleset)
            ));
        }
        Ok(())
    };
    let found = |is: &dyn Fn(&Question) -> bool| {
        let mut some = known.some.iter();
        if some.any(is) {
            Ok(())
        } else {
            Err("no scenario shows what was found".to_owned())
        }
    };
    if claim.kind == SCENARIO {
        let shown = known.some.contains(&Question::Scenario) && !proved;
        return if shown {
            Ok(())
        } else {
            Err("no scenario is shown".to_owned())
        };
    }
    match Kind::from_word(&claim.kind) {
        Some(Kind::Contradiction) if proved => none(Question::Clash(dimension()?, Vec::new()))?,
        Some(Kind::Contradiction) => {
            let on = dimension()?;
            found(
                &|question| matches!(question, Question::Together(it, _) | Question::Clash(it, _) if *it == on),
            )?;
        }
        Some(Kind::Gap) if proved => none(Question::Gap(dimension()?))?,
        Some(Kind::Gap) => {
            let on = dimension()?;
            found(&|question| *question == Question::Gap(on))?;
        }
        Some(Kind::LeftToDiscretion) if proved => none(Question::Open(dimension()?))?,
        Some(Kind::LeftToDiscretion) => {
            let on = dimension()?;
            found(&|question| *question == Question::Open(on))?;
        }
        Some(Kind::LooseTerm) if proved => none(Question::OtherLoose(Vec::new()))?,
        Some(Kind::LooseTerm) => found(&|question| matches!(question, Question::Loose(_)))?,
        Some(Kind::Presupposes) if proved => none(Question::OtherPresupposes(Vec::new()))?,
        Some(Kind::Presupposes) => {
            found(&|question| matches!(question, Question::Presupposes(_)))?;
        }
        Some(Kind::BrokenPrinciple) => {
            let Some(id) = &claim.principle else {
                let kept = ruleset.principles.is_empty() && proved;
                return if kept {
                    Ok(())
                } else {
                    Err("the claim names no principle".to_owned())
                };
            };
            let place = ruleset.principles.iter().position(|it| it.id == *id);
            let question = Question::Breaks(place.ok_or("there is no such principle")?);
            if proved {
                none(question)?;
            } else {
                found(&|it| *it == question)?;
            }
        }
        Some(Kind::TurnsOnJudgement) if proved => none(Question::Turns(judged(ruleset)))?,
        Some(Kind::TurnsOnJudgement) => found(&|question| matches!(question, Question::Turns(_)))?,
        Some(kind @ (Kind::SurplusWords | Kind::IdleException)) => {
            let mut at_fault = false;
            for clause in (0..ruleset.clauses.len()).map(ClauseId::new) {
                if is_idle(clause, known) {
                    continue;
                }
                at_fault |= match kind {
                    Kind::SurplusWords => has_surplus_words(ruleset, clause, known)?,
                    _ => has_idle_exception(ruleset, clause, known)?,
                };
            }
            match (proved, at_fault) {
                (true, true) => return Err("some are shown to change nothing".to_owned()),
                (false, false) => return Err("nothing is shown to be at fault".to_owned()),
                _ => {}
            }
        }
        Some(kind @ (Kind::Impossible | Kind::Displaced | Kind::NoEffect)) => {
            let mut at_fault = false;
            for clause in (0..ruleset.clauses.len()).map(ClauseId::new) {
                at_fault |= is_at_fault(ruleset, kind, clause, proved, known)?;
            }
            if !proved && !at_fault {
                return Err("no clause is shown to be at fault".to_owned());
            }
        }
        _ => {
            return Err(format!(
                "nothing is known of how to check a verdict on {}",
                claim.kind
            ));
        }
    }
    Ok(())
}

/// Whether a clause is shown to be what a verdict is about; not so where it is shown to be fine, or
/// where another verdict tells of it.
fn is_at_fault(
    ruleset: &Ruleset,
    kind: Kind,
    clause: ClauseId,
    proved: bool,
    known: &Established,
) -> Result<bool, String> {
    let (met, counts, matters) = (
        Question::Met(clause),
        Question::Counts(clause),
        Question::Matters(clause),
    );
    // It is fine where one of these is so. Where none is, this verdict is about it if what stands beside
    // them is so; that it isn't, the verdict before tells.
    let (fine, about) = match kind {
        Kind::Impossible => (vec![met], None),
        Kind::Displaced => (vec![counts], Some(met)),
        _ => (vec![matters], Some(counts)),
    };
    if fine.iter().any(|question| known.some.contains(question)) {
        return Ok(false);
    }
    // Whoever is never met never counts.
    let mut before = [Question::Met(clause)].into_iter().chain(about.clone());
    if about.is_some() && before.any(|question| known.none.contains(&question)) {
        return Ok(false);
    }
    let words = |question: &Question| question.words(ruleset);
    if proved {
        let fine: Vec<String> = fine.iter().map(words).collect();
        return Err(format!(
            "no scenario shows that {}",
            fine.join(", or that ")
        ));
    }
    if let Some(open) = fine.iter().find(|question| !known.none.contains(question)) {
        let words = words(open);
        return Err(format!(
            "it is not shown that there is no scenario in which {words}"
        ));
    }
    match about {
        Some(about) if !known.some.contains(&about) => {
            Err(format!("no scenario shows that {}", words(&about)))
        }
        _ => Ok(true),
    }
}

/// What an official judges: judged attributes, and how vague terms are read.
fn judged(ruleset: &Ruleset) -> Vec<AttributeId> {
    let all = ruleset.attributes.iter().enumerate();
    all.filter(|(_, attribute)| attribute.judged || attribute.origin != Origin::Stated)
        .map(|(index, _)| AttributeId::new(index))
        .collect()
}

/// Whether it is shown that the clause is never met, never counts or never matters. Nothing is said of the
/// words of such a clause.
fn is_idle(clause: ClauseId, known: &Established) -> bool {
    [
        Question::Met(clause),
        Question::Counts(clause),
        Question::Matters(clause),
    ]
    .iter()
    .any(|question| known.none.contains(question))
}

/// Whether something turns on what a question is about: a scenario shows it, or it is shown that there is none.
fn turns(ruleset: &Ruleset, question: &Question, known: &Established) -> Result<bool, String> {
    if known.some.contains(question) {
        return Ok(true);
    }
    if known.none.contains(question) {
        return Ok(false);
    }
    Err(format!(
        "it is not shown whether there is a scenario in which {}",
        question.words(ruleset)
    ))
}

/// Whether nothing turns on some part of a clause's own words. Within a part on which something turns its
/// own parts are looked at; of an exception on which nothing turns, nothing is.
fn has_surplus_words(
    ruleset: &Ruleset,
    clause: ClauseId,
    known: &Established,
) -> Result<bool, String> {
    let whole = &ruleset[clause].when;
    let own = own_words(&ruleset[clause]);
    let turns_on = |way: &Vec<usize>| {
        let question = Question::TurnsOnPart(clause, way.clone());
        turns(ruleset, &question, known)
    };
    let mut open: Vec<Vec<usize>> = own.when.into_iter().collect();
    if let Some(unless) = own.unless
        && turns_on(&unless)?
    {
        open.extend(parts_within(whole, &unless));
    }
    let mut surplus = false;
    while let Some(way) = open.pop() {
        if turns_on(&way)? {
            open.extend(parts_within(whole, &way));
        } else {
            surplus = true;
        }
    }
    Ok(surplus)
}

/// Whether nothing turns on the exception of a clause, or on one of its references; a reference that means
/// idle clauses only is left out.
fn has_idle_exception(
    ruleset: &Ruleset,
    clause: ClauseId,
    known: &Established,
) -> Result<bool, String> {
    let mut idle = false;
    if let Some(unless) = own_words(&ruleset[clause]).unless {
        idle |= !turns(ruleset, &Question::TurnsOnPart(clause, unless), known)?;
    }
    for (index, reference) in ruleset[clause].references.iter().enumerate() {
        if !reference.others.iter().all(|other| is_idle(*other, known)) {
            let question = Question::TurnsOnReference(clause, index);
            idle |= !turns(ruleset, &question, known)?;
        }
    }
    Ok(idle)
}

/// What a claim says in words.
pub(crate) fn says(head: &Head, verdict: ClaimVerdict) -> String {
    let on = head.dimension.as_deref().unwrap_or("");
    let principle = head.principle.as_deref();
    let proved = verdict == ClaimVerdict::Proved;
    match (Kind::from_word(&head.kind), proved) {
        (Some(Kind::BrokenPrinciple), true) => principle.map_or_else(
            || "No principle is stated, and so none is broken.".to_owned(),
            |id| format!("Principle {id} is kept in every scenario."),
        ),
        (Some(Kind::BrokenPrinciple), false) => {
            format!("Principle {} is broken in some scenario.", principle.unwrap_or(""))
        }
        (Some(Kind::TurnsOnJudgement), true) => {
            "No announced ruling turns on how something is judged or read.".to_owned()
        }
        (Some(Kind::TurnsOnJudgement), false) => {
            "Some announced ruling turns on how something is judged or read.".to_owned()
        }
        (Some(Kind::SurplusWords), true) => {
            "Something turns on each part of the condition of each clause that changes a ruling."
                .to_owned()
        }
        (Some(Kind::SurplusWords), false) => {
            "Some part of a clause's condition could go, and no ruling would change.".to_owned()
        }
        (Some(Kind::IdleException), true) => {
            "Something turns on each exception and each reference of each clause that changes a ruling."
                .to_owned()
        }
        (Some(Kind::IdleException), false) => {
            "Some exception or reference could go, and no ruling would change.".to_owned()
        }
        (Some(Kind::Contradiction), true) => {
            format!("In no scenario do the rulings that stand on {on} contradict each other.")
        }
        (Some(Kind::Contradiction), false) => {
            format!("In some scenario the rulings that stand on {on} contradict each other.")
        }
        (Some(Kind::Gap), true) => {
            format!("In every scenario in which a ruling on {on} is due, one is given.")
        }
        (Some(Kind::Gap), false) => {
            format!("In some scenario a ruling on {on} is due and none is given.")
        }
        (Some(Kind::LeftToDiscretion), true) => {
            format!("In no scenario may the ruling on {on} come out as more than one value.")
        }
        (Some(Kind::LeftToDiscretion), false) => {
            format!("In some scenario the ruling on {on} may come out as more than one value.")
        }
        (Some(Kind::LooseTerm), true) => {
            "The narrow reading of every vague term lies within its broad one.".to_owned()
        }
        (Some(Kind::LooseTerm), false) => {
            "The narrow reading of some vague term reaches beyond its broad one.".to_owned()
        }
        (Some(Kind::Presupposes), true) => {
            "No clause would be met somewhere else if what isn't asked were taken as no.".to_owned()
        }
        (Some(Kind::Presupposes), false) => {
            "Some clause would be met somewhere else if what isn't asked were taken as no."
                .to_owned()
        }
        (Some(Kind::Impossible), true) => "Each clause is met in some scenario.".to_owned(),
        (Some(Kind::Impossible), false) => "Some clause is met in no scenario.".to_owned(),
        (Some(Kind::Displaced), true) => {
            "For each clause that can be met there is a scenario in which a ruling of it stands, or it is in force and has none."
                .to_owned()
        }
        (Some(Kind::Displaced), false) => "Some clause can be met, but no ruling of it ever stands, or it is never in force.".to_owned(),
        (Some(Kind::NoEffect), true) => {
            "For each clause that counts somewhere there is a scenario in which an announced ruling would be another without it."
                .to_owned()
        }
        (Some(Kind::NoEffect), false) => {
            "Some clause counts somewhere, but no announced ruling would ever be another without it."
                .to_owned()
        }
        _ => "There is a scenario: what holds in all of them is not said of nothing.".to_owned(),
    }
}
