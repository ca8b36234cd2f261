//! What a verdict needs: which questions must have been answered, and how.

use crate::model::{ClauseId, DimensionId, Kind, Meaning, Ruleset, TermId};
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

/// The kinds of verdict that can have a record, and whether they are asked by dimension.
pub(crate) const RECORDED: &[(Kind, bool)] = &[
    (Kind::Contradiction, true),
    (Kind::Gap, true),
    (Kind::Impossible, false),
    (Kind::Displaced, false),
    (Kind::LooseTerm, false),
    (Kind::NoEffect, false),
    (Kind::Presupposes, false),
    (Kind::LeftToDiscretion, true),
];

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

/// What a claim says in words.
pub(crate) fn says(kind: &str, dimension: Option<&str>, verdict: ClaimVerdict) -> String {
    let on = dimension.unwrap_or("");
    let proved = verdict == ClaimVerdict::Proved;
    match (Kind::from_word(kind), proved) {
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
