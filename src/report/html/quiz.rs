//! Questions and their key: a sheet and a key on paper, one answer after the other on the screen.

use super::cards::ClauseLink;
use crate::model::{ClauseId, Ruleset};
use crate::quiz::{Part, Question, Quiz};
use crate::report::quiz::{
    HOW_TO_READ, NOT_CITED, about, answer, asked, choices, claimed, few, letter, offered,
};
use crate::report::text_capital;

/// The questions, ready to be set.
pub(super) struct QuizView {
    pub(super) how_to_read: &'static str,
    pub(super) few: String,
    pub(super) questions: Vec<QuestionView>,
}

/// One question, and its part of the key.
pub(super) struct QuestionView {
    pub(super) number: usize,
    pub(super) title: String,
    pub(super) situation: String,
    pub(super) asked: String,
    pub(super) choices: Vec<String>,
    pub(super) parts: Vec<PartView>,
    pub(super) about: String,
    pub(super) difficulty: String,
}

/// One part, and what the key says of it.
pub(super) struct PartView {
    /// The end of its anchors.
    pub(super) anchor: String,
    pub(super) letter: String,
    pub(super) told: String,
    pub(super) claimed: String,
    pub(super) answer: String,
    pub(super) cites: Vec<ClauseLink>,
    pub(super) not_cited: &'static str,
    pub(super) because: String,
    /// Wrong answers, and why each tempts.
    pub(super) wrong: Vec<(String, String)>,
}

/// The questions, ready to be set.
pub(super) fn view(ruleset: &Ruleset, quiz: &Quiz) -> QuizView {
    let questions = (1..).zip(&quiz.questions);
    QuizView {
        how_to_read: HOW_TO_READ,
        few: few(quiz).unwrap_or_default(),
        questions: questions
            .map(|(number, question)| question_view(ruleset, number, question))
            .collect(),
    }
}

fn question_view(ruleset: &Ruleset, number: usize, question: &Question) -> QuestionView {
    let parts = question.parts.iter().enumerate();
    QuestionView {
        number,
        title: question.situation.title.clone(),
        situation: question.situation.sentences.join(" "),
        asked: asked(ruleset, question),
        choices: choices(ruleset, question),
        parts: parts
            .map(|(index, part)| part_view(ruleset, question, (number, index), part))
            .collect(),
        about: about(ruleset, &question.clauses),
        difficulty: question.difficulty.to_string(),
    }
}

fn part_view(
    ruleset: &Ruleset,
    question: &Question,
    (number, index): (usize, usize),
    part: &Part,
) -> PartView {
    let claim = part.claim.as_ref();
    let link = |clause: &ClauseId| ClauseLink::new(ruleset, *clause);
    PartView {
        anchor: format!("{number}-{}", index + 1),
        letter: letter(index),
        told: part.told.clone(),
        claimed: claim.map_or_else(String::new, |claim| claimed(ruleset, question, claim)),
        answer: answer(ruleset, question, part),
        cites: part.cited.iter().map(link).collect(),
        not_cited: NOT_CITED,
        because: part.reasons().join(" "),
        wrong: offered(question, part)
            .map(|wrong| {
                let words = wrong.answer.words(ruleset, question.dimension);
                (text_capital(&words), wrong.tempts.words(ruleset))
            })
            .collect(),
    }
}
