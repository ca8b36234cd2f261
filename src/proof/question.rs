//! What can be asked of a ruleset for a verdict, by name.
//!
//! A question is only named here: what it means is said twice, in formulas where records are made and
//! in three-valued rules where they are checked again, and neither reads the other.

use crate::model::{
    AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Origin, Promise, Ruleset, TermId,
};
use crate::source::Span;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Is there a scenario in which ... ?
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// ... the background is kept.
    Scenario,
    /// ... the rulings that stand on the dimension have nothing in common, and in none of these
    /// families do all of them stand.
    Clash(DimensionId, Vec<Vec<ClauseId>>),
    /// ... the rulings of all these clauses stand on the dimension, and have nothing in common.
    Together(DimensionId, Vec<ClauseId>),
    /// ... a ruling is due on the dimension and none is given.
    Gap(DimensionId),
    /// ... the ruling on the dimension may come out as more than one value.
    Open(DimensionId),
    /// ... the narrow reading of the term is true and its broad one is not.
    Loose(TermId),
    /// ... the same of any vague term but these.
    OtherLoose(Vec<TermId>),
    /// ... the clause is not met, but would be with the unasked taken as no.
    Presupposes(ClauseId),
    /// ... the same of any clause but these.
    OtherPresupposes(Vec<ClauseId>),
    /// ... the clause is met.
    Met(ClauseId),
    /// ... a ruling of the clause stands (of one without rulings: it is in force).
    Counts(ClauseId),
    /// ... the clause is met and some announced ruling would be another without it.
    Matters(ClauseId),
    /// ... an announced ruling is another than in a second scenario that differs only in how these are
    /// judged or read, and in what is asked because of that.
    Turns(Vec<AttributeId>),
    /// ... the principle at this place is broken, where it speaks of pairs: compared with a second scenario.
    Breaks(usize),
    /// ... something turns on a part of the clause's condition: without it an announced ruling would be another,
    /// or the clause would say what isn't so. The part is told by the way to it, which part of which part.
    TurnsOnPart(ClauseId, Vec<usize>),
    /// ... an announced ruling would be another without a reference of the clause to others.
    TurnsOnReference(ClauseId, usize),
    /// ... one of these is so.
    Any(Vec<Question>),
}

/// A question as it stands in a record.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Asked {
    /// Which question.
    pub asks: String,
    /// The dimension it is about.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dimension: Option<String>,
    /// The clauses it is about.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clauses: Vec<String>,
    /// The terms it is about.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub terms: Vec<String>,
    /// The judged attributes, and the vague terms whose reading, it is about.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub judged: Vec<String>,
    /// The principle it is about.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub principle: Option<String>,
    /// The part of the clause's condition it is about: which part of the whole, which part of that, and so on,
    /// counted from 1; empty for the whole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<Vec<usize>>,
    /// Which reference of the clause to other clauses it is about, counted from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reference: Option<usize>,
    /// The questions of which one is to be answered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub any: Vec<Asked>,
    /// Families of clauses that are left out of account, since they are told elsewhere.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub beside: Vec<Vec<String>>,
}

impl Question {
    fn word(&self) -> &'static str {
        match self {
            Question::Scenario => "scenario",
            Question::Clash(..) => "clash",
            Question::Together(..) => "together",
            Question::Gap(_) => "gap",
            Question::Open(_) => "open",
            Question::Loose(_) => "loose",
            Question::OtherLoose(_) => "other-loose",
            Question::Presupposes(_) => "presupposes",
            Question::OtherPresupposes(_) => "other-presupposes",
            Question::Met(_) => "met",
            Question::Counts(_) => "counts",
            Question::Matters(_) => "matters",
            Question::Turns(_) => "turns-on-judgement",
            Question::Breaks(_) => "breaks-principle",
            Question::TurnsOnPart(..) => "turns-on-part",
            Question::TurnsOnReference(..) => "turns-on-reference",
            Question::Any(_) => "any",
        }
    }

    /// The question as it stands in a record.
    pub fn to_record(&self, ruleset: &Ruleset) -> Asked {
        let ids = |clauses: &[ClauseId]| -> Vec<String> {
            clauses
                .iter()
                .map(|clause| ruleset[*clause].id.clone())
                .collect()
        };
        let name = |dimension: &DimensionId| Some(ruleset[*dimension].name.clone());
        let mut record = Asked {
            asks: self.word().to_owned(),
            ..Asked::default()
        };
        match self {
            Question::Scenario => {}
            Question::Clash(dimension, beside) => {
                record.dimension = name(dimension);
                record.beside = beside.iter().map(|family| ids(family)).collect();
            }
            Question::Together(dimension, clauses) => {
                record.dimension = name(dimension);
                record.clauses = ids(clauses);
            }
            Question::Gap(dimension) | Question::Open(dimension) => {
                record.dimension = name(dimension);
            }
            Question::Loose(term) => record.terms = vec![ruleset[*term].name.clone()],
            Question::OtherLoose(terms) => {
                record.terms = terms
                    .iter()
                    .map(|term| ruleset[*term].name.clone())
                    .collect();
            }
            Question::OtherPresupposes(clauses) => record.clauses = ids(clauses),
            Question::Presupposes(clause)
            | Question::Met(clause)
            | Question::Counts(clause)
            | Question::Matters(clause) => record.clauses = ids(&[*clause]),
            Question::Turns(judged) => {
                record.judged = judged
                    .iter()
                    .map(|attribute| ruleset[*attribute].name.clone())
                    .collect();
            }
            Question::Breaks(place) => {
                let principle = ruleset.principles.get(*place);
                record.principle = principle.map(|principle| principle.id.clone());
            }
            Question::TurnsOnPart(clause, path) => {
                record.clauses = ids(&[*clause]);
                record.part = Some(path.iter().map(|index| index.saturating_add(1)).collect());
            }
            Question::TurnsOnReference(clause, index) => {
                record.clauses = ids(&[*clause]);
                record.reference = Some(index.saturating_add(1));
            }
            Question::Any(several) => {
                record.any = several.iter().map(|one| one.to_record(ruleset)).collect();
            }
        }
        record
    }

    /// The question that a record names; `None` where the ruleset has no such thing or the record is
    /// not as [`Question::to_record`] writes it.
    pub fn from_record(ruleset: &Ruleset, record: &Asked) -> Option<Question> {
        let clause = |id: &String| {
            let index = ruleset.clauses.iter().position(|clause| clause.id == *id);
            index.map(ClauseId::new)
        };
        let clauses = |ids: &[String]| ids.iter().map(clause).collect::<Option<Vec<_>>>();
        let dimension = record.dimension.as_ref().and_then(|name| {
            let mut all = ruleset.dimensions.iter();
            all.position(|dimension| dimension.name == *name)
                .map(DimensionId::new)
        });
        let term = |name: &String| {
            let index = ruleset.terms.iter().position(|term| term.name == *name);
            index.map(TermId::new)
        };
        let only = || match record.clauses.as_slice() {
            [one] => clause(one),
            _ => None,
        };
        let question = match record.asks.as_str() {
            "scenario" => Question::Scenario,
            "clash" => {
                let beside = record.beside.iter().map(|family| clauses(family));
                Question::Clash(dimension?, beside.collect::<Option<_>>()?)
            }
            "together" => Question::Together(dimension?, clauses(&record.clauses)?),
            "gap" => Question::Gap(dimension?),
            "open" => Question::Open(dimension?),
            "loose" => Question::Loose(term(record.terms.first()?)?),
            "other-loose" => {
                Question::OtherLoose(record.terms.iter().map(term).collect::<Option<_>>()?)
            }
            "presupposes" => Question::Presupposes(only()?),
            "other-presupposes" => Question::OtherPresupposes(clauses(&record.clauses)?),
            "met" => Question::Met(only()?),
            "counts" => Question::Counts(only()?),
            "matters" => Question::Matters(only()?),
            "turns-on-judgement" => {
                let attribute = |name: &String| {
                    let mut all = ruleset.attributes.iter();
                    all.position(|attribute| attribute.name == *name)
                        .map(AttributeId::new)
                };
                Question::Turns(record.judged.iter().map(attribute).collect::<Option<_>>()?)
            }
            "breaks-principle" => {
                let id = record.principle.as_ref()?;
                let mut all = ruleset.principles.iter();
                Question::Breaks(all.position(|principle| principle.id == *id)?)
            }
            "turns-on-part" => {
                let path = record.part.as_ref()?.iter();
                let path = path.map(|place| place.checked_sub(1));
                let (clause, path) = (only()?, path.collect::<Option<Vec<usize>>>()?);
                part_at(&ruleset[clause].when, &path)?;
                Question::TurnsOnPart(clause, path)
            }
            "turns-on-reference" => {
                let clause = only()?;
                let index = record.reference?.checked_sub(1)?;
                ruleset[clause].references.get(index)?;
                Question::TurnsOnReference(clause, index)
            }
            "any" => {
                let several = record.any.iter().filter(|one| one.asks != "any");
                let several = several.map(|one| Question::from_record(ruleset, one));
                Question::Any(several.collect::<Option<_>>()?)
            }
            _ => return None,
        };
        (question.to_record(ruleset) == *record).then_some(question)
    }

    /// What the ruleset with the change that the question is about is called, where it is about one.
    pub(super) fn edit_words(&self, ruleset: &Ruleset) -> Option<String> {
        match self {
            Question::TurnsOnPart(clause, path) => {
                let id = &ruleset[*clause].id;
                Some(format!("without {} of {id:?}: ", part_place(path)))
            }
            Question::TurnsOnReference(clause, index) => {
                let id = &ruleset[*clause].id;
                let place = index.saturating_add(1);
                Some(format!("without reference {place} of {id:?}: "))
            }
            _ => None,
        }
    }

    /// What it asks, in words that follow "Is there a scenario in which".
    pub fn words(&self, ruleset: &Ruleset) -> String {
        let listed = |clauses: &[ClauseId]| {
            let ids: Vec<&str> = clauses.iter().map(|id| ruleset[*id].id.as_str()).collect();
            ids.join(", ")
        };
        let name = |dimension: &DimensionId| ruleset[*dimension].name.as_str();
        match self {
            Question::Scenario => "the background is kept".to_owned(),
            Question::Clash(dimension, beside) if beside.is_empty() => format!(
                "the rulings that stand on {} have nothing in common",
                name(dimension)
            ),
            Question::Clash(dimension, beside) => {
                let families: Vec<String> = beside.iter().map(|family| listed(family)).collect();
                format!(
                    "the rulings that stand on {} have nothing in common, where not all of one of these stand: {}",
                    name(dimension),
                    families.join("; ")
                )
            }
            Question::Together(dimension, clauses) => format!(
                "the rulings of {} all stand on {} and have nothing in common",
                listed(clauses),
                name(dimension)
            ),
            Question::Gap(dimension) => {
                format!("a ruling is due on {} and none is given", name(dimension))
            }
            Question::Open(dimension) => format!(
                "the ruling on {} may come out as more than one value",
                name(dimension)
            ),
            Question::Loose(term) => format!(
                "the narrow reading of {} is true and its broad one is not",
                ruleset[*term].name
            ),
            Question::OtherLoose(terms) => {
                let names: Vec<&str> = terms.iter().map(|id| ruleset[*id].name.as_str()).collect();
                format!(
                    "the narrow reading of some vague term{} is true and its broad one is not",
                    but(&names.join(", "))
                )
            }
            Question::Presupposes(clause) => format!(
                "clause {} is not met, but would be with the unasked taken as no",
                ruleset[*clause].id
            ),
            Question::OtherPresupposes(clauses) => format!(
                "some clause{} is not met, but would be with the unasked taken as no",
                but(&listed(clauses))
            ),
            Question::Met(clause) => format!("clause {} is met", ruleset[*clause].id),
            Question::Counts(clause) if ruleset[*clause].rulings.is_empty() => {
                format!("clause {} is in force", ruleset[*clause].id)
            }
            Question::Counts(clause) => {
                format!("a ruling of clause {} stands", ruleset[*clause].id)
            }
            Question::Matters(clause) => format!(
                "clause {} is met and some announced ruling would be another without it",
                ruleset[*clause].id
            ),
            Question::Turns(judged) => {
                let how: Vec<String> = judged.iter().map(|id| judging(ruleset, *id)).collect();
                format!(
                    "an announced ruling is another than in a second scenario that differs only in {}, and in what is asked because of that",
                    how.join(" and ")
                )
            }
            Question::Breaks(place) => {
                let Some(principle) = ruleset.principles.get(*place) else {
                    return "a principle that is not there is broken".to_owned();
                };
                let compared = match principle.promise {
                    Promise::Expect { .. } => "",
                    _ => ", compared with a second scenario",
                };
                format!("principle {} is broken{compared}", principle.id)
            }
            Question::TurnsOnPart(clause, path) => format!(
                "an announced ruling would be another without {} of clause {}, or the clause would say what isn't so",
                part_words(ruleset, *clause, path),
                ruleset[*clause].id
            ),
            Question::TurnsOnReference(clause, index) => format!(
                "an announced ruling would be another without {} of clause {}",
                reference_words(ruleset, *clause, *index),
                ruleset[*clause].id
            ),
            Question::Any(several) => {
                let words: Vec<String> = several.iter().map(|one| one.words(ruleset)).collect();
                words.join(", or ")
            }
        }
    }
}

/// " but these", where there are some.
fn but(listed: &str) -> String {
    if listed.is_empty() {
        String::new()
    } else {
        format!(" (but for {listed})")
    }
}

/// How something is judged, or a vague term read.
fn judging(ruleset: &Ruleset, id: AttributeId) -> String {
    let verb = match ruleset[id].origin {
        Origin::Stated => "is judged",
        Origin::Reading(_) => "is read",
    };
    format!("how {} {verb}", ruleset[id].name)
}

/// Where a part of a condition stands.
fn part_place(path: &[usize]) -> String {
    if path.is_empty() {
        return "the condition".to_owned();
    }
    let places: Vec<String> = path
        .iter()
        .map(|index| index.saturating_add(1).to_string())
        .collect();
    format!("part {}", places.join("."))
}

/// Where a part of a clause's condition stands, and its words.
fn part_words(ruleset: &Ruleset, clause: ClauseId, path: &[usize]) -> String {
    let place = part_place(path);
    match part_at(&ruleset[clause].when, path) {
        Some(part) => format!("{place} ({})", written(ruleset, part.span)),
        None => place,
    }
}

/// A part of a condition by the way to it.
fn part_at<'c>(condition: &'c Condition, path: &[usize]) -> Option<&'c Condition> {
    let Some((first, rest)) = path.split_first() else {
        return Some(condition);
    };
    let part = match &condition.kind {
        ConditionKind::Not(inner) | ConditionKind::NotTrue(inner) if *first == 0 => inner,
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => parts.get(*first)?,
        _ => return None,
    };
    part_at(part, rest)
}

fn reference_words(ruleset: &Ruleset, clause: ClauseId, index: usize) -> String {
    let reference = ruleset[clause].references.get(index);
    reference.map_or_else(
        || "a reference that is not there".to_owned(),
        |it| format!("{} {}", it.wording.key(), written(ruleset, it.span)),
    )
}

/// The most letters that are quoted.
const MOST_QUOTED: usize = 80;

/// Words of the file on one line, cut where they are long.
fn written(ruleset: &Ruleset, span: Span) -> String {
    let words = ruleset.sources.slice(span).split_whitespace();
    let words = words.collect::<Vec<_>>().join(" ");
    if words.chars().count() <= MOST_QUOTED {
        return words;
    }
    let cut: String = words.chars().take(MOST_QUOTED).collect();
    format!("{cut} ...")
}
