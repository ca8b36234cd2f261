//! A case book against the text, as JSON.

use super::{Fact, Pairs, Ruled, RulesetHead, facts_of};
use crate::cases::{
    Cited, Difference, Explanation, Inconsistent, Kappa, OnDimension, Rated, Review, Stance, Told,
};
use crate::logic::{Basis, Ruling};
use crate::model::{AttributeId, DimensionId, Ruleset, ValueSet};
use crate::report::caution::caution;
use schemars::JsonSchema;
use serde::Serialize;

/// The report of a review, as JSON with a line end; `file` is how the case book is called.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn cases(ruleset: &Ruleset, file: &str, review: &Review) -> Result<String, serde_json::Error> {
    let records = |told: &(Vec<Told>, u64)| -> Vec<CaseRecord> {
        told.0
            .iter()
            .map(|one| CaseRecord::new(ruleset, one))
            .collect()
    };
    let inconsistent = review.inconsistent.0.iter();
    let report = CasesReport {
        format: CasesFormat::Cases1,
        ruleset: RulesetHead::new(ruleset),
        file: file.to_owned(),
        cases: review.cases,
        agree: review.agree,
        within_discretion: review.within_discretion,
        disagree: records(&review.disagree),
        undetermined: records(&review.undetermined),
        miscited: records(&review.miscited),
        differing: records(&review.differing),
        inconsistent: inconsistent
            .map(|pair| PairRecord::new(ruleset, pair))
            .collect(),
        not_listed: NotListed {
            disagree: review.disagree.1,
            undetermined: review.undetermined.1,
            miscited: review.miscited.1,
            differing: review.differing.1,
            inconsistent: review.inconsistent.1,
        },
        compared_all: review.compared_all,
        agreement: agreement(ruleset, review),
        caution: caution(ruleset),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `cases --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CasesReport {
    format: CasesFormat,
    ruleset: RulesetHead,
    /// The case book, as it was given on the command line.
    file: String,
    /// How many cases there are.
    cases: u64,
    /// How many agree with the text.
    agree: u64,
    /// How many of those rest on discretion that the text leaves.
    within_discretion: u64,
    /// Cases ruled otherwise than the text says, or with facts that no incident has.
    disagree: Vec<CaseRecord>,
    /// Cases that the text does not decide on the facts noted.
    undetermined: Vec<CaseRecord>,
    /// Cases that cite a clause that is gone or not in force.
    miscited: Vec<CaseRecord>,
    /// Cases that several officials ruled differently.
    differing: Vec<CaseRecord>,
    /// Cases that disagree with each other.
    inconsistent: Vec<PairRecord>,
    /// How many more there are of each that are not listed.
    not_listed: NotListed,
    /// Whether every case was compared with every other.
    compared_all: bool,
    /// How far officials agree, where several ruled the same cases.
    agreement: AgreementRecord,
    /// Words that belong wherever these cases are shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum CasesFormat {
    #[serde(rename = "evenhand/cases/1")]
    Cases1,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NotListed {
    disagree: u64,
    undetermined: u64,
    miscited: u64,
    differing: u64,
    inconsistent: u64,
}

/// One case.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CaseRecord {
    id: String,
    /// The line or row on which it begins, from one.
    #[schemars(range(min = 1))]
    line: u64,
    #[serde(skip_serializing_if = "Option::is_none")]
    source: Option<String>,
    /// The facts noted.
    facts: Pairs<Fact>,
    /// Whether some incident has all of them.
    possible: bool,
    /// Why not, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    impossible: Option<String>,
    /// What was ruled; where the case has no ruling of its own, what each official ruled.
    ruled: Vec<RuledRecord>,
    /// Clauses cited that the ruleset does not have.
    gone: Vec<String>,
    /// Clauses cited that are not in force on these facts.
    not_in_force: Vec<String>,
    /// Clauses cited that are in force, but over which others prevail.
    displaced: Vec<String>,
    /// Where officials ruled differently.
    differences: Vec<DifferenceRecord>,
}

impl CaseRecord {
    fn new(ruleset: &Ruleset, told: &Told) -> Self {
        let cited = |wanted: fn(&Cited) -> bool| {
            let cited = told.judged.cited.iter().filter(|cited| wanted(cited));
            let named = cited.map(|cited| match cited {
                Cited::Gone(id) => id.clone(),
                Cited::NotInForce(clause) | Cited::Displaced(clause) => ruleset[*clause].id.clone(),
            });
            named.collect()
        };
        let ruled = told
            .judged
            .on
            .iter()
            .zip(&told.missing)
            .map(|(on, missing)| RuledRecord::new(ruleset, on, missing));
        let differences = told.judged.differences.iter();
        CaseRecord {
            id: told.case.id.clone(),
            line: told.case.place.0,
            source: told.case.source.clone(),
            facts: facts_of(ruleset, told.case.found.facts.facts()),
            possible: told.judged.is_possible,
            impossible: told.impossible.clone(),
            ruled: ruled.collect(),
            gone: cited(|cited| matches!(cited, Cited::Gone(_))),
            not_in_force: cited(|cited| matches!(cited, Cited::NotInForce(_))),
            displaced: cited(|cited| matches!(cited, Cited::Displaced(_))),
            differences: differences
                .map(|it| DifferenceRecord::new(ruleset, it))
                .collect(),
        }
    }
}

/// What was ruled on a dimension, and what the text says.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RuledRecord {
    /// Whose ruling it is; left out where it is that of the case.
    #[serde(skip_serializing_if = "Option::is_none")]
    by: Option<String>,
    dimension: String,
    /// A list where all apply that were imposed.
    value: Ruled,
    stance: StanceName,
    /// Every ruling that the text may give on these facts: a value, a list where it leaves several
    /// open or lets all apply, "contradiction", or null for none.
    by_the_text: Vec<Option<Ruled>>,
    /// The facts whose establishing would help, the best first.
    establish_next: Vec<String>,
}

impl RuledRecord {
    fn new(ruleset: &Ruleset, on: &OnDimension, missing: &[AttributeId]) -> Self {
        let possible = on.possible.iter();
        RuledRecord {
            by: on.by.clone(),
            dimension: ruleset[on.dimension].name.clone(),
            value: ruled(ruleset, on.dimension, on.ruled),
            stance: StanceName::new(&on.stance),
            by_the_text: possible
                .map(|it| by_the_text(ruleset, on.dimension, *it))
                .collect(),
            establish_next: names(ruleset, missing),
        }
    }
}

fn ruled(ruleset: &Ruleset, dimension: DimensionId, values: ValueSet) -> Ruled {
    Ruled::new(ruleset, dimension, values)
}

fn by_the_text(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> Option<Ruled> {
    match ruling.basis {
        Basis::Gap | Basis::Silence => None,
        Basis::Contradiction => Some(Ruled::One("contradiction".to_owned())),
        Basis::Clauses | Basis::Default => Some(ruled(ruleset, dimension, ruling.values)),
    }
}

fn names(ruleset: &Ruleset, ids: &[AttributeId]) -> Vec<String> {
    ids.iter().map(|id| ruleset[*id].name.clone()).collect()
}

/// How a ruling stands to the text.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum StanceName {
    Agrees,
    WithinDiscretion,
    Disagrees,
    NeedsFacts,
    Contradiction,
    Gap,
    Undecided,
}

impl StanceName {
    fn new(stance: &Stance) -> Self {
        match stance {
            Stance::Agrees => StanceName::Agrees,
            Stance::WithinDiscretion => StanceName::WithinDiscretion,
            Stance::Disagrees => StanceName::Disagrees,
            Stance::NeedsFacts => StanceName::NeedsFacts,
            Stance::Contradiction => StanceName::Contradiction,
            Stance::Gap => StanceName::Gap,
            Stance::Undecided(_) => StanceName::Undecided,
        }
    }
}

/// Officials who ruled a case differently.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct DifferenceRecord {
    dimension: String,
    /// What each ruled, by the official's name.
    ruled: Pairs<Ruled>,
    /// What explains it; more than one thing may.
    explanations: Vec<ExplanationRecord>,
}

impl DifferenceRecord {
    fn new(ruleset: &Ruleset, difference: &Difference) -> Self {
        let ruled = difference.ruled.iter().map(|(name, values)| {
            (
                name.clone(),
                self::ruled(ruleset, difference.dimension, *values),
            )
        });
        let explanations = difference.explanations.iter();
        DifferenceRecord {
            dimension: ruleset[difference.dimension].name.clone(),
            ruled: Pairs(ruled.collect()),
            explanations: explanations
                .map(|it| ExplanationRecord::new(ruleset, it))
                .collect(),
        }
    }
}

/// One thing that explains a difference.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ExplanationRecord {
    reason: ExplanationName,
    /// Whether it lies in the text.
    in_the_text: bool,
    /// The attributes on which it turns.
    attributes: Vec<String>,
    /// Who ruled against the text on the facts that they noted themselves.
    against_the_text: Vec<String>,
}

impl ExplanationRecord {
    fn new(ruleset: &Ruleset, explanation: &Explanation) -> Self {
        let (reason, attributes, against) = match explanation {
            Explanation::Facts(ids) => (ExplanationName::Facts, ids.as_slice(), &[][..]),
            Explanation::Judgement(ids) => (ExplanationName::Judgement, ids.as_slice(), &[][..]),
            Explanation::VagueTerm(ids) => (ExplanationName::VagueTerm, ids.as_slice(), &[][..]),
            Explanation::Contradiction => (ExplanationName::Contradiction, &[][..], &[][..]),
            Explanation::Gap => (ExplanationName::Gap, &[][..], &[][..]),
            Explanation::Discretion => (ExplanationName::Discretion, &[][..], &[][..]),
            Explanation::NotNoted(ids) => (ExplanationName::NotNoted, ids.as_slice(), &[][..]),
            Explanation::AgainstTheText(names) => {
                (ExplanationName::AgainstTheText, &[][..], names.as_slice())
            }
            Explanation::Undecided => (ExplanationName::Undecided, &[][..], &[][..]),
        };
        ExplanationRecord {
            reason,
            in_the_text: explanation.is_the_text(),
            attributes: names(ruleset, attributes),
            against_the_text: against.to_vec(),
        }
    }
}

/// What explains that officials ruled a case differently.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum ExplanationName {
    Facts,
    Judgement,
    VagueTerm,
    Contradiction,
    Gap,
    Discretion,
    NotNoted,
    AgainstTheText,
    Undecided,
}

/// Two cases that disagree with each other.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PairRecord {
    dimension: String,
    first: Side,
    second: Side,
    /// Whether the facts that matter are the same; where false, those of the first are all among
    /// those of the second.
    same_facts: bool,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Side {
    id: String,
    ruled: Ruled,
}

impl PairRecord {
    fn new(ruleset: &Ruleset, pair: &Inconsistent) -> Self {
        let side = |(id, values): &(String, ValueSet)| Side {
            id: id.clone(),
            ruled: ruled(ruleset, pair.dimension, *values),
        };
        PairRecord {
            dimension: ruleset[pair.dimension].name.clone(),
            first: side(&pair.first),
            second: side(&pair.second),
            same_facts: pair.same_facts,
        }
    }
}

/// How far officials agree.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AgreementRecord {
    /// On each fact.
    facts: Pairs<OnOne>,
    /// On the clauses cited.
    clauses: Option<OnOne>,
    /// On each dimension.
    rulings: Pairs<OnOne>,
}

/// How far officials agree on one thing.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OnOne {
    /// In how many cases at least two officials spoke of it.
    cases: u64,
    /// The share of pairs of officials that agreed, from 0 to 1, each case counted alike.
    agreed: f64,
    /// Fleiss' kappa; null where only one thing was ever said.
    fleiss: Option<f64>,
    /// Cohen's kappa of each two officials.
    pairs: Vec<TwoRecord>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct TwoRecord {
    one: String,
    other: String,
    cases: u64,
    agreed: f64,
    /// Cohen's kappa; null where only one thing was ever said.
    cohen: Option<f64>,
}

/// A figure to six places: enough for any reader, and the same on every machine.
fn rounded(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

fn agreement(ruleset: &Ruleset, review: &Review) -> AgreementRecord {
    let mut record = AgreementRecord {
        facts: Pairs(Vec::new()),
        clauses: None,
        rulings: Pairs(Vec::new()),
    };
    for rated in review.agreement.rated() {
        let Some(Kappa {
            cases,
            agreed,
            kappa,
        }) = review.agreement.overall(rated)
        else {
            continue;
        };
        let pairs = review
            .agreement
            .pairs(rated)
            .into_iter()
            .map(|pair| TwoRecord {
                one: pair.one,
                other: pair.other,
                cases: pair.kappa.cases,
                agreed: rounded(pair.kappa.agreed),
                cohen: pair.kappa.kappa.map(rounded),
            });
        let one = OnOne {
            cases,
            agreed: rounded(agreed),
            fleiss: kappa.map(rounded),
            pairs: pairs.collect(),
        };
        match rated {
            Rated::Fact(id) => record.facts.0.push((ruleset[id].name.clone(), one)),
            Rated::Clauses => record.clauses = Some(one),
            Rated::Ruling(id) => record.rulings.0.push((ruleset[id].name.clone(), one)),
        }
    }
    record
}
