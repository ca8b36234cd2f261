//! The report as JSON: stable names for programs, checked against a published schema.
//!
//! Whole numbers are JSON numbers, decimals exact decimal ones, counts are strings since they may be
//! larger than other languages' numbers.

mod affected;
mod cases;
mod graph;
mod proof;
mod protocol;
mod quiz;
mod ruling;
mod scenarios;
mod vetted;
mod when;

pub use affected::affected;
pub use cases::cases;
pub use graph::graph;
pub use proof::rechecked;
pub use protocol::protocol;
pub use quiz::quiz;
pub use ruling::ruling;
pub use scenarios::scenarios;
pub use vetted::vetted;
pub use when::when;

use super::caution::caution;
use crate::analysis::{Checked, Cover, Finding, Outcome, Question, Sort, Verdict};
use crate::logic::{Code, Count, Scenario, Written, written};
use crate::model::{AttributeId, DimensionId, Kind, Ruleset, Severity, ValueSet};
use crate::problem::{Gravity, Problem};
use crate::proof::Manifest;
use crate::source::{Place, SourceId, Sources, Span};
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// The published formats: the file name of each schema, and the schema.
///
/// # Errors
/// None that can happen: a schema is a plain value.
pub fn schemas() -> Result<Vec<(&'static str, String)>, serde_json::Error> {
    Ok(vec![
        ("affected-1.json", schema_of::<affected::AffectedReport>()?),
        ("cases-1.json", schema_of::<cases::CasesReport>()?),
        ("check-1.json", schema_of::<CheckReport>()?),
        ("graph-1.json", schema_of::<graph::GraphReport>()?),
        ("problems-1.json", schema_of::<ProblemsReport>()?),
        ("protocol-1.json", schema_of::<protocol::ProtocolReport>()?),
        ("quiz-1.json", schema_of::<quiz::QuizReport>()?),
        ("ruling-1.json", schema_of::<ruling::RulingReport>()?),
        ("vet-1.json", schema_of::<vetted::VetReport>()?),
        ("when-1.json", schema_of::<when::WhenReport>()?),
        ("proof-1.json", schema_of::<Manifest>()?),
        ("recheck-1.json", schema_of::<proof::RecheckReport>()?),
        (
            "scenarios-1.json",
            schema_of::<scenarios::ScenariosReport>()?,
        ),
    ])
}

/// The schema of what is printed (not of what could be read back).
fn schema_of<T: JsonSchema>() -> Result<String, serde_json::Error> {
    let settings = SchemaSettings::draft2020_12().for_serialize();
    let schema = settings.into_generator().into_root_schema_for::<T>();
    serde_json::to_string_pretty(&schema).map(|text| text + "\n")
}

/// The report of a check, as JSON with a line end: `warnings` are what reading the ruleset had to say.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn checked(
    ruleset: &Ruleset,
    warnings: &[Problem],
    checked: &Checked,
) -> Result<String, serde_json::Error> {
    let idle = super::idle_accepted(ruleset, checked);
    let report = CheckReport {
        format: CheckFormat::Check1,
        ruleset: RulesetHead::new(ruleset),
        space: checked.space.as_ref().map(Scenarios::new),
        findings: checked
            .findings
            .iter()
            .map(|finding| FindingRecord::new(ruleset, finding))
            .collect(),
        verdicts: checked
            .verdicts
            .iter()
            .map(|verdict| VerdictRecord::new(ruleset, verdict))
            .collect(),
        warnings: warnings
            .iter()
            .chain(&idle)
            .map(|problem| ProblemRecord::new(&ruleset.sources, problem))
            .collect(),
        caution: caution(ruleset),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// The report of an input that cannot be used, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn problems(sources: &Sources, problems: &[Problem]) -> Result<String, serde_json::Error> {
    let report = ProblemsReport {
        format: ProblemsFormat::Problems1,
        problems: super::by_place(problems)
            .into_iter()
            .map(|problem| ProblemRecord::new(sources, problem))
            .collect(),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// The report of an input that cannot even be read: the name of the file, and why.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn unreadable(file: &str, why: &str) -> Result<String, serde_json::Error> {
    let report = ProblemsReport {
        format: ProblemsFormat::Problems1,
        problems: vec![ProblemRecord {
            severity: ProblemSeverity::Error,
            headline: why.to_owned(),
            label: String::new(),
            help: None,
            file: file.to_owned(),
            place: None,
            others: Vec::new(),
        }],
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `check --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CheckReport {
    format: CheckFormat,
    ruleset: RulesetHead,
    /// How many scenarios there are; null where that could not be counted.
    space: Option<Scenarios>,
    /// Gravest first, then in the order of the file.
    findings: Vec<FindingRecord>,
    verdicts: Vec<VerdictRecord>,
    /// What there is to say about the file itself.
    warnings: Vec<ProblemRecord>,
    /// Words that belong wherever these findings are shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum CheckFormat {
    #[serde(rename = "evenhand/check/1")]
    Check1,
}

/// What is printed with `--format json` where the input cannot be used.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ProblemsReport {
    format: ProblemsFormat,
    /// In the order of the file.
    problems: Vec<ProblemRecord>,
}

#[derive(Serialize, JsonSchema)]
enum ProblemsFormat {
    #[serde(rename = "evenhand/problems/1")]
    Problems1,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct RulesetHead {
    title: String,
    /// Empty where none is given.
    edition: String,
    /// As it was given on the command line.
    file: String,
    /// The amendments that are laid over it, in their order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    with: Vec<LayerRecord>,
}

/// An amendment that is laid over a ruleset.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LayerRecord {
    /// Its title.
    amendment: String,
    /// As it was given on the command line.
    file: String,
}

impl RulesetHead {
    fn new(ruleset: &Ruleset) -> Self {
        RulesetHead {
            title: ruleset.title.clone(),
            edition: ruleset.edition.clone(),
            file: super::file(ruleset).to_owned(),
            with: ruleset
                .layers
                .iter()
                .map(|layer| LayerRecord {
                    amendment: layer.title.clone(),
                    file: source_name(ruleset, layer.source),
                })
                .collect(),
        }
    }
}

/// What a file of a ruleset was called.
fn source_name(ruleset: &Ruleset, source: SourceId) -> String {
    let source = ruleset.sources.get(source);
    source.map_or_else(String::new, |source| source.name().to_owned())
}

/// A number of scenarios.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Scenarios {
    /// Decimal digits.
    #[schemars(regex(pattern = "^[0-9]+$"))]
    scenarios: String,
    /// Where false, there are at least so many.
    exact: bool,
}

impl Scenarios {
    fn new(count: &Count) -> Self {
        Scenarios {
            scenarios: count.scenarios.to_string(),
            exact: count.exact,
        }
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FindingRecord {
    kind: KindName,
    severity: SeverityName,
    /// One line that stands alone.
    headline: String,
    /// Ids of clauses, the one that the finding is said of first.
    clauses: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    dimension: Option<String>,
    /// What each clause rules on the dimension; a list where it leaves several open.
    #[serde(skip_serializing_if = "Option::is_none")]
    rulings: Option<Pairs<Ruled>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    scenario: Option<ScenarioRecord>,
    /// The other scenario, where it takes two to show it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pair: Option<ScenarioRecord>,
    /// Conditions in the ruleset's words, under any of which it happens.
    when: Vec<String>,
    /// Whether `when` covers exactly the finding's scenarios, only a part of them, or is not given.
    cover: CoverName,
    #[serde(skip_serializing_if = "Option::is_none")]
    share: Option<Scenarios>,
    #[serde(skip_serializing_if = "Option::is_none")]
    principle: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    attribute: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    term: Option<String>,
    repairs: Vec<RepairRecord>,
    #[serde(skip_serializing_if = "Option::is_none")]
    help: Option<String>,
    /// What a drafter is asked about words of the texts.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    questions: Vec<QuestionRecord>,
    /// The words in the files, the primary ones first.
    places: Vec<PlaceRecord>,
    /// Why the finding is accepted; null where it is not.
    accepted: Option<String>,
}

impl FindingRecord {
    fn new(ruleset: &Ruleset, finding: &Finding) -> Self {
        let accepted = finding
            .accepted
            .and_then(|index| ruleset.accepted.get(index));
        let ruled = finding.rulings.iter().filter_map(|(clause, values)| {
            let values = Ruled::new(ruleset, finding.dimension?, *values);
            Some((ruleset[*clause].id.clone(), values))
        });
        FindingRecord {
            kind: KindName(finding.kind),
            severity: SeverityName::new(finding.severity),
            headline: finding.headline.clone(),
            clauses: finding
                .clauses
                .iter()
                .map(|clause| ruleset[*clause].id.clone())
                .collect(),
            dimension: finding.dimension.map(|id| ruleset[id].name.clone()),
            rulings: Some(Pairs(ruled.collect())).filter(|ruled| !ruled.0.is_empty()),
            scenario: finding
                .scenario
                .as_ref()
                .map(|it| ScenarioRecord::new(ruleset, it)),
            pair: finding
                .pair
                .as_ref()
                .map(|it| ScenarioRecord::new(ruleset, it)),
            when: finding.general.lines.clone(),
            cover: match finding.general.cover {
                Cover::Exact => CoverName::Exact,
                Cover::Partial => CoverName::Partial,
                Cover::None => CoverName::None,
            },
            share: finding.share.as_ref().map(Scenarios::new),
            principle: finding.principle.clone(),
            attribute: finding.attribute.clone(),
            term: finding.term.clone(),
            repairs: finding
                .repairs
                .iter()
                .map(|repair| RepairRecord {
                    edit: repair.edit.clone(),
                    scenarios_changed: repair
                        .scenarios_changed
                        .as_ref()
                        .map(|count| count.scenarios.to_string()),
                })
                .collect(),
            help: finding.help.clone(),
            questions: finding
                .questions
                .iter()
                .map(|question| QuestionRecord::new(ruleset, question))
                .collect(),
            places: finding
                .labels
                .iter()
                .map(|(span, label)| PlaceRecord::new(&ruleset.sources, *span, label))
                .collect(),
            accepted: accepted.map(|entry| {
                let because = entry.because.as_ref();
                let words = because.map(|text| text.in_language(&ruleset.language));
                words.unwrap_or_default().to_owned()
            }),
        }
    }
}

/// The name of a kind of finding.
struct KindName(Kind);

impl Serialize for KindName {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.word())
    }
}

impl JsonSchema for KindName {
    fn schema_name() -> Cow<'static, str> {
        "KindName".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let words: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
        json_schema!({"description": "The name of a kind of finding.", "enum": words})
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SeverityName {
    Fault,
    Warning,
    Note,
}

impl SeverityName {
    fn new(severity: Severity) -> Self {
        match severity {
            Severity::Fault => SeverityName::Fault,
            Severity::Warning => SeverityName::Warning,
            Severity::Note => SeverityName::Note,
        }
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum CoverName {
    Exact,
    Partial,
    None,
}

/// One value, or a list of those that are left open.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum Ruled {
    One(String),
    Several(Vec<String>),
}

impl Ruled {
    fn new(ruleset: &Ruleset, dimension: DimensionId, values: ValueSet) -> Self {
        let names = &ruleset[dimension].values;
        let present = values.iter().filter_map(|index| names.get(index));
        let mut words: Vec<String> = present.map(|value| value.name.clone()).collect();
        match (words.pop(), words.is_empty()) {
            (Some(one), true) => Ruled::One(one),
            (last, _) => {
                words.extend(last);
                Ruled::Several(words)
            }
        }
    }
}

/// An object whose entries stand in the order of the ruleset.
struct Pairs<V>(Vec<(String, V)>);

impl<V: Serialize> Serialize for Pairs<V> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(name, value)| (name, value)))
    }
}

impl<V: JsonSchema> JsonSchema for Pairs<V> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        format!("{}ByName", V::schema_name()).into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let value = generator.subschema_for::<V>();
        json_schema!({"type": "object", "additionalProperties": value})
    }
}

/// A whole incident.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ScenarioRecord {
    /// A value for each attribute that is asked. The reading of a vague term stands under the term's
    /// name, where it can be read either way: true is the broad reading.
    facts: Pairs<Fact>,
}

impl ScenarioRecord {
    fn new(ruleset: &Ruleset, scenario: &Scenario) -> Self {
        ScenarioRecord {
            facts: facts_of(ruleset, scenario.facts()),
        }
    }
}

/// Facts by the names of their attributes.
fn facts_of(ruleset: &Ruleset, facts: impl Iterator<Item = (AttributeId, Code)>) -> Pairs<Fact> {
    let facts = facts.map(|(id, code)| {
        let value = match written(ruleset, id, code) {
            Written::YesNo(yes) => Fact::YesNo(yes),
            Written::Word(word) => Fact::Word(word),
            Written::Number(digits) => digits.parse().map_or(Fact::Word(digits), Fact::Number),
            Written::Items(items) => Fact::Items(items),
        };
        (ruleset[id].name.clone(), value)
    });
    Pairs(facts.collect())
}

/// A fact's value.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum Fact {
    /// The answer to a yes/no attribute, or whether a vague term is read broadly.
    YesNo(bool),
    /// The name of a value.
    Word(String),
    /// An exact decimal, in the attribute's unit.
    Number(serde_json::Number),
    /// The names of the items.
    Items(Vec<String>),
}

impl Fact {
    fn of(written: Written) -> Fact {
        match written {
            Written::YesNo(yes) => Fact::YesNo(yes),
            Written::Word(word) => Fact::Word(word),
            Written::Number(digits) => digits.parse().map_or(Fact::Word(digits), Fact::Number),
            Written::Items(items) => Fact::Items(items),
        }
    }
}

/// A change that was tried on a copy: the finding was gone, and no fault was new.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RepairRecord {
    edit: String,
    /// How many scenarios change their ruling; left out where that could not be counted.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(regex(pattern = "^[0-9]+$"))]
    scenarios_changed: Option<String>,
}

/// What a drafter is asked about a word of a clause's text.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct QuestionRecord {
    clause: String,
    /// The tag of the text's language, as the file has it.
    language: String,
    /// The word or phrase, in small letters.
    word: String,
    sort: SortName,
    /// The class of words that it belongs to.
    class: String,
    /// The question; it is the label of the place, too.
    place: PlaceRecord,
}

impl QuestionRecord {
    fn new(ruleset: &Ruleset, question: &Question) -> Self {
        QuestionRecord {
            clause: ruleset[question.clause].id.clone(),
            language: question.language.clone(),
            word: question.word.clone(),
            sort: match question.sort {
                Sort::Vague => SortName::Vague,
                Sort::Ambiguous => SortName::Ambiguous,
                Sort::Discretion => SortName::Discretion,
                Sort::LooseEnd => SortName::LooseEnd,
            },
            class: question.class.clone(),
            place: PlaceRecord::new(&ruleset.sources, question.span, &question.question),
        }
    }
}

/// Vague: no sharp edge. Ambiguous: two readings. Discretion: somebody decides. Loose end: something
/// is missing.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SortName {
    Vague,
    Ambiguous,
    Discretion,
    LooseEnd,
}

/// Words in a file.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PlaceRecord {
    file: String,
    /// From one.
    #[schemars(range(min = 1))]
    line: u32,
    /// In characters, from one.
    #[schemars(range(min = 1))]
    column: u32,
    /// In characters.
    length: usize,
    /// What is said of these words.
    label: String,
}

impl PlaceRecord {
    fn new(sources: &Sources, span: Span, label: &str) -> Self {
        let Place {
            file,
            position,
            length,
        } = sources.place(span);
        PlaceRecord {
            file,
            line: position.line.0.get(),
            column: position.column.0.get(),
            length,
            label: label.to_owned(),
        }
    }
}

/// What was found out about a kind.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct VerdictRecord {
    kind: KindName,
    #[serde(skip_serializing_if = "Option::is_none")]
    dimension: Option<String>,
    /// The id of the principle, where each has a verdict of its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    principle: Option<String>,
    verdict: VerdictName,
    /// Whether there are some that are not among the findings, because they rest on another fault.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    untold: bool,
    /// Why it stayed undecided.
    #[serde(skip_serializing_if = "Option::is_none")]
    reason: Option<String>,
    /// The languages whose texts were looked at (by name), or were not (by tag, empty where the file
    /// gives none).
    #[serde(skip_serializing_if = "Option::is_none")]
    languages: Option<Vec<String>>,
}

impl VerdictRecord {
    fn new(ruleset: &Ruleset, verdict: &Verdict) -> Self {
        let (name, reason, languages) = match &verdict.outcome {
            Outcome::Proved => (VerdictName::Proved, None, None),
            Outcome::Found => (VerdictName::Found, None, None),
            Outcome::Undecided(reason) => (VerdictName::Undecided, Some(reason.to_string()), None),
            Outcome::NoneListed(names) => (VerdictName::NoneListed, None, Some(names.clone())),
            Outcome::NotLookedAt(tags) => (VerdictName::NotLookedAt, None, Some(tags.clone())),
        };
        VerdictRecord {
            kind: KindName(verdict.kind),
            dimension: verdict.dimension.map(|id| ruleset[id].name.clone()),
            principle: verdict.principle.clone(),
            verdict: name,
            untold: verdict.untold,
            reason,
            languages,
        }
    }
}

/// Proved: there is none. Found: these are all (of `wording`: all that the lists of words know).
/// Undecided: there may be some, or more. None listed: no word of the lists stands in the texts, which
/// proves nothing. Not looked at: there is no list for the language.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum VerdictName {
    Proved,
    Found,
    Undecided,
    NoneListed,
    NotLookedAt,
}

/// What is wrong with an input.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ProblemRecord {
    severity: ProblemSeverity,
    /// One line that stands alone.
    headline: String,
    /// What was expected at the place.
    label: String,
    /// What to write instead; null where there is no advice.
    help: Option<String>,
    /// As it was given on the command line.
    file: String,
    /// The words in the file; null where the file can't be read at all.
    place: Option<PlaceRecord>,
    /// Other places that explain it.
    others: Vec<PlaceRecord>,
}

impl ProblemRecord {
    fn new(sources: &Sources, problem: &Problem) -> Self {
        ProblemRecord {
            severity: match problem.gravity {
                Gravity::Error => ProblemSeverity::Error,
                Gravity::Warning => ProblemSeverity::Warning,
            },
            headline: problem.headline.clone(),
            label: problem.label.clone(),
            help: problem.help.clone(),
            file: sources.place(problem.span).file,
            place: Some(PlaceRecord::new(sources, problem.span, &problem.label)),
            others: problem
                .others
                .iter()
                .map(|(span, words)| PlaceRecord::new(sources, *span, words))
                .collect(),
        }
    }
}

/// An error stops the check, a warning doesn't.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum ProblemSeverity {
    Error,
    Warning,
}
