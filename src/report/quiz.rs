//! Questions and their key, told to people: as text, as Markdown to be printed, and as flash cards.

use super::caution::caution;
use super::leaf::{self, Leaf};
use super::table::harmless;
use super::text::{Look, capital, leaves};
use super::words::counted;
use crate::labels;
use crate::model::{ClauseId, Ruleset};
use crate::narration::clauses_named;
use crate::quiz::{Claim, Form, Part, Question, Quiz};

/// What is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// The questions alone.
    Sheet,
    /// The key alone.
    Key,
    /// The questions, then the key.
    Both,
}

impl Paper {
    fn has_sheet(self) -> bool {
        self != Paper::Key
    }

    fn has_key(self) -> bool {
        self != Paper::Sheet
    }
}

/// The questions, the key or both, as text.
pub fn text(ruleset: &Ruleset, quiz: &Quiz, paper: Paper, look: &Look) -> String {
    leaves(&page(ruleset, quiz, paper), look)
}

/// The questions, the key or both, as Markdown.
pub fn markdown(ruleset: &Ruleset, quiz: &Quiz, paper: Paper) -> String {
    leaf::markdown(&page(ruleset, quiz, paper))
}

/// Flash cards as a table with the columns `front` and `back`, a card for each part. A cell that a
/// spreadsheet could take for a formula begins with an apostrophe.
///
/// # Errors
/// None that can happen in memory; what the table writer says is passed on.
pub fn cards(ruleset: &Ruleset, quiz: &Quiz) -> Result<String, String> {
    let mut table = csv::Writer::from_writer(Vec::new());
    let caution = caution(ruleset).join(" ");
    let mut row = |front: &str, back: &str| {
        let cells = [front, back].map(harmless);
        table.write_record(cells).map_err(|error| error.to_string())
    };
    row("front", "back")?;
    for question in &quiz.questions {
        let told = question.situation.sentences.join(" ");
        for (index, part) in question.parts.iter().enumerate() {
            let mut front = vec![told.clone()];
            if index > 0 {
                front.push(part.told.clone());
            }
            front.push(asked(ruleset, question));
            match &part.claim {
                Some(claim) => front.push(claimed(ruleset, question, claim)),
                None => front.extend(choices(ruleset, question)),
            }
            let mut back = vec![answer(ruleset, question, part)];
            // Whoever has this card has not the one of the first part.
            back.extend(part.reasons_against("the situation without that change"));
            back.push(caution.clone());
            row(&front.join("\n"), &back.join("\n"))?;
        }
    }
    let bytes = table.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}

/// What stands before the questions.
pub(super) const HOW_TO_READ: &str = "What a question does not tell is as usual. Each part stands alone: it is the situation with the one change that it names, not with those of the parts before it.";

/// What is cited where no clause rules.
pub(super) const NOT_CITED: &str = "No clause: none rules on it here.";

fn page(ruleset: &Ruleset, quiz: &Quiz, paper: Paper) -> Vec<Leaf> {
    let what = match paper {
        Paper::Key => "key to the questions",
        Paper::Sheet | Paper::Both => "questions",
    };
    let mut page = vec![
        Leaf::Title(format!("{}: {what}", labels::ruleset(ruleset))),
        Leaf::Quiet(caution(ruleset).join(" ")),
    ];
    if paper.has_sheet() && !quiz.questions.is_empty() {
        page.push(Leaf::Paragraph(HOW_TO_READ.to_owned()));
        for (index, question) in quiz.questions.iter().enumerate() {
            sheet(ruleset, &mut page, index + 1, question);
        }
    }
    if paper.has_key() && !quiz.questions.is_empty() {
        if paper == Paper::Both {
            page.push(Leaf::Heading("Key".to_owned()));
        }
        for (index, question) in quiz.questions.iter().enumerate() {
            key(ruleset, &mut page, index + 1, question);
        }
    }
    if let Some(words) = few(quiz) {
        page.push(Leaf::Paragraph(words));
    }
    page
}

/// Why there are fewer questions than were asked for.
pub(super) fn few(quiz: &Quiz) -> Option<String> {
    let made = quiz.questions.len();
    if made >= quiz.asked_for {
        return None;
    }
    let mut words = match made {
        0 => "There is no question of this kind".to_owned(),
        made => format!(
            "There {} {} of this kind, not {}",
            if made == 1 { "is" } else { "are" },
            counted(made, "question"),
            quiz.asked_for
        ),
    };
    match &quiz.stopped {
        Some(reason) => {
            words = format!("{words}: it ended before everything was looked at ({reason}).");
        }
        None => {
            words += ": nothing else in the rules gives an incident with an answer of its own that differs in one fact from another.";
        }
    }
    if quiz.of_other_levels > 0 {
        let others = counted(quiz.of_other_levels, "question");
        words = format!("{words} Of other difficulties there would be {others}.");
    }
    Some(words)
}

fn row(page: &mut Vec<Leaf>, label: &str, words: impl Into<String>) {
    page.push(Leaf::Row(label.to_owned(), words.into()));
}

fn sheet(ruleset: &Ruleset, page: &mut Vec<Leaf>, number: usize, question: &Question) {
    page.push(Leaf::Entry(
        format!("{number}."),
        question.situation.title.clone(),
    ));
    row(page, "Situation", question.situation.sentences.join(" "));
    row(page, "Question", asked(ruleset, question));
    let mut label = "Answers";
    for choice in choices(ruleset, question) {
        row(page, label, choice);
        label = "";
    }
    for (index, part) in question.parts.iter().enumerate() {
        let words = match &part.claim {
            None => part.told.clone(),
            Some(claim) => {
                let claimed = claimed(ruleset, question, claim);
                format!("{} {claimed}", part.told)
            }
        };
        row(page, &letter(index), words);
    }
}

fn key(ruleset: &Ruleset, page: &mut Vec<Leaf>, number: usize, question: &Question) {
    page.push(Leaf::Entry(
        format!("{number}."),
        format!(
            "{} ({})",
            question.situation.title,
            about(ruleset, &question.clauses)
        ),
    ));
    for (index, part) in question.parts.iter().enumerate() {
        let mark = letter(index);
        row(page, &mark, answer(ruleset, question, part));
        row(page, "Cites", cites(ruleset, &part.cited));
        row(page, "Because", part.reasons().join(" "));
        for wrong in offered(question, part) {
            let words = question.words(ruleset, &wrong.answer);
            row(
                page,
                "Not",
                format!("\"{words}\". {}", wrong.tempts.words(ruleset)),
            );
        }
    }
    row(page, "Difficulty", question.difficulty.to_string());
}

/// The wrong answers that the reader of a question sees.
pub(super) fn offered<'q>(
    question: &'q Question,
    part: &'q Part,
) -> impl Iterator<Item = &'q crate::quiz::Wrong> {
    part.wrong.iter().filter(|wrong| match &part.claim {
        None => question
            .options
            .iter()
            .any(|option| option.is(&wrong.answer)),
        Some(claim) => !claim.holds && claim.answer.is(&wrong.answer),
    })
}

/// The clauses that a question is about.
pub(super) fn about(ruleset: &Ruleset, clauses: &[ClauseId]) -> String {
    if clauses.is_empty() {
        "no clause".to_owned()
    } else {
        clauses_named(ruleset, clauses)
    }
}

fn cites(ruleset: &Ruleset, cited: &[ClauseId]) -> String {
    if cited.is_empty() {
        NOT_CITED.to_owned()
    } else {
        let names: Vec<String> = cited
            .iter()
            .map(|id| labels::clause(ruleset, *id))
            .collect();
        names.join("; ")
    }
}

/// What is asked, the same for all parts.
pub(super) fn asked(ruleset: &Ruleset, question: &Question) -> String {
    let on = labels::dimension(ruleset, question.dimension);
    match question.form {
        Form::Choose if question.parts.len() == 1 => format!("How is it ruled? {}:", capital(&on)),
        Form::Choose => format!("How is each part ruled? {}:", capital(&on)),
        Form::TrueOrFalse => "True or false?".to_owned(),
        Form::WasItRight => "Was the official right?".to_owned(),
    }
}

/// The answers to choose from, numbered.
pub(super) fn choices(ruleset: &Ruleset, question: &Question) -> Vec<String> {
    let options = question.options.iter().enumerate();
    options
        .map(|(index, option)| {
            let words = question.words(ruleset, option);
            format!("{}) {words}", index + 1)
        })
        .collect()
}

/// What is claimed about a part.
pub(super) fn claimed(ruleset: &Ruleset, question: &Question, claim: &Claim) -> String {
    let on = labels::dimension(ruleset, question.dimension);
    let words = claim.answer.words(ruleset, question.dimension);
    match (question.form, claim.by) {
        (Form::WasItRight, Some(by)) => {
            format!(
                "The official rules: {on}: {words} (clause {}).",
                ruleset[by].id
            )
        }
        (Form::WasItRight, None) => format!("The official rules: {on}: {words}."),
        _ => format!("{}: {words}.", capital(&on)),
    }
}

/// The right answer to a part, as the question puts it.
pub(super) fn answer(ruleset: &Ruleset, question: &Question, part: &Part) -> String {
    let words = question.words(ruleset, &part.answer);
    let on = capital(&labels::dimension(ruleset, question.dimension));
    let verdict = match (&part.claim, question.form) {
        (Some(claim), Form::WasItRight) if claim.holds => "Right.",
        (Some(_), Form::WasItRight) => "Not right.",
        (Some(claim), _) if claim.holds => "True.",
        (Some(_), _) => "False.",
        (None, _) => {
            let mut options = question.options.iter();
            let at = options.position(|option| option.is(&part.answer));
            let number = at.map_or_else(String::new, |at| format!("{}) ", at + 1));
            return format!("{number}{words}.");
        }
    };
    format!("{verdict} {on}: {words}.")
}

/// `(a)`, `(b)`, ...
pub(super) fn letter(index: usize) -> String {
    let letters = "abcdefghijklmnopqrstuvwxyz".chars();
    let letter = letters.clone().nth(index);
    letter.map_or_else(
        || format!("({})", index + 1),
        |letter| format!("({letter})"),
    )
}
