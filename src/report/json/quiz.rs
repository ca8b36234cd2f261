//! Questions and their key, as JSON.

use super::{RulesetHead, ScenarioRecord};
use crate::model::{ClauseId, Ruleset};
use crate::quiz::{Form, Level, Part, Question, Quiz, Wrong};
use crate::report::caution::caution;
use crate::report::quiz as told;
use schemars::JsonSchema;
use serde::Serialize;

/// The questions and their key, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn quiz(ruleset: &Ruleset, quiz: &Quiz) -> Result<String, serde_json::Error> {
    let report = QuizReport {
        format: QuizFormat::Quiz1,
        ruleset: RulesetHead::new(ruleset),
        questions: quiz
            .questions
            .iter()
            .map(|question| QuestionRecord::new(ruleset, question))
            .collect(),
        asked_for: quiz.asked_for,
        why_fewer: told::few(quiz),
        caution: caution(ruleset),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `quiz --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct QuizReport {
    format: QuizFormat,
    ruleset: RulesetHead,
    /// The questions, easier ones first.
    questions: Vec<QuestionRecord>,
    /// How many were asked for.
    asked_for: usize,
    /// Why there are fewer, where there are.
    #[serde(skip_serializing_if = "Option::is_none")]
    why_fewer: Option<String>,
    /// Words that belong wherever this is shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum QuizFormat {
    #[serde(rename = "evenhand/quiz/1")]
    Quiz1,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct QuestionRecord {
    form: FormName,
    /// The clauses that it is about.
    clauses: Vec<String>,
    /// What is to be ruled on.
    dimension: String,
    /// A few words by which to call the situation.
    title: String,
    /// What happened, sentence by sentence.
    situation: Vec<String>,
    /// What is asked.
    question: String,
    /// What there is to choose from; empty in other forms.
    options: Vec<String>,
    /// The first part is the situation as it is told; each other one differs from it in one fact.
    parts: Vec<PartRecord>,
    difficulty: DifficultyRecord,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum FormName {
    Choose,
    TrueOrFalse,
    /// Was the official right to rule so, by this clause?
    WasItRight,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PartRecord {
    /// What is different from the situation.
    told: String,
    /// What is claimed about it, where the question is not to choose.
    #[serde(skip_serializing_if = "Option::is_none")]
    claim: Option<String>,
    /// The incident; a word that is open in it has one of its readings here.
    scenario: ScenarioRecord,
    /// The fact in which it differs from the first part.
    #[serde(skip_serializing_if = "Option::is_none")]
    differs: Option<String>,
    /// The facts that are enough for the answer, whatever else is so; null where that is not known, and
    /// where the answer is a judgement.
    enough: Option<Vec<String>>,
    /// The right answer, in words.
    answer: String,
    /// Its place among the options, counted from 0; or whether the claim is right.
    right: Right,
    /// Whether the answer is that the officials have to judge.
    judgement: bool,
    /// The clauses that the answer rests on.
    clauses: Vec<String>,
    /// Why, in sentences.
    because: Vec<String>,
    /// The wrong answers that are offered.
    wrong: Vec<WrongRecord>,
}

#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum Right {
    Option(usize),
    Claim(bool),
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct WrongRecord {
    answer: String,
    /// The clause that it would follow from, where there is one.
    clause: Option<String>,
    /// Why somebody might give it.
    tempts: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct DifficultyRecord {
    level: LevelName,
    /// Up to 2 is easy, 3 to 5 medium, more is hard.
    points: u32,
    /// What makes it harder.
    because: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum LevelName {
    Easy,
    Medium,
    Hard,
}

impl QuestionRecord {
    fn new(ruleset: &Ruleset, question: &Question) -> Self {
        QuestionRecord {
            form: match question.form {
                Form::Choose => FormName::Choose,
                Form::TrueOrFalse => FormName::TrueOrFalse,
                Form::WasItRight => FormName::WasItRight,
            },
            clauses: ids(ruleset, &question.clauses),
            dimension: ruleset[question.dimension].name.clone(),
            title: question.situation.title.clone(),
            situation: question.situation.sentences.clone(),
            question: told::asked(ruleset, question),
            options: question
                .options
                .iter()
                .map(|option| question.words(ruleset, option))
                .collect(),
            parts: question
                .parts
                .iter()
                .map(|part| PartRecord::new(ruleset, question, part))
                .collect(),
            difficulty: DifficultyRecord {
                level: match question.difficulty.level() {
                    Level::Easy => LevelName::Easy,
                    Level::Medium => LevelName::Medium,
                    Level::Hard => LevelName::Hard,
                },
                points: question.difficulty.points(),
                because: question
                    .difficulty
                    .strains()
                    .iter()
                    .map(ToString::to_string)
                    .collect(),
            },
        }
    }
}

impl PartRecord {
    fn new(ruleset: &Ruleset, question: &Question, part: &Part) -> Self {
        let named = |id: &crate::model::AttributeId| ruleset[*id].name.clone();
        let at = || {
            let mut options = question.options.iter();
            options.position(|option| option.is(&part.answer))
        };
        PartRecord {
            told: part.told.clone(),
            claim: part
                .claim
                .as_ref()
                .map(|claim| told::claimed(ruleset, question, claim)),
            scenario: ScenarioRecord::new(ruleset, &part.scenario),
            differs: part.differs.as_ref().map(named),
            enough: part
                .enough
                .as_ref()
                .map(|enough| enough.iter().map(named).collect()),
            answer: question.words(ruleset, &part.answer),
            right: match &part.claim {
                Some(claim) => Right::Claim(claim.holds),
                None => Right::Option(at().unwrap_or_default()),
            },
            judgement: part.answer.is(&crate::quiz::Answer::Judgement),
            clauses: ids(ruleset, &part.cited),
            because: part.reasons(),
            wrong: told::offered(question, part)
                .map(|wrong| WrongRecord::new(ruleset, question, wrong))
                .collect(),
        }
    }
}

impl WrongRecord {
    fn new(ruleset: &Ruleset, question: &Question, wrong: &Wrong) -> Self {
        WrongRecord {
            answer: question.words(ruleset, &wrong.answer),
            clause: wrong.tempts.clause().map(|id| ruleset[id].id.clone()),
            tempts: wrong.tempts.words(ruleset),
        }
    }
}

fn ids(ruleset: &Ruleset, clauses: &[ClauseId]) -> Vec<String> {
    clauses.iter().map(|id| ruleset[*id].id.clone()).collect()
}
