//! Facts asked for on a terminal, question by question: only what still matters, the question first
//! that tells most apart.

use super::Failure;
use crate::labels;
use crate::logic::{Chart, Code, Established, Question, highest_code};
use crate::model::{AttributeId, AttributeKind, Origin, Ruleset, Unit};
use crate::narration;
use crate::read::draft::FactValueDraft;
use crate::scenario::{self, Incident};
use crate::solve::Reason;
use crate::source::{Span, Spanned};
use dialoguer::console::Term;
use dialoguer::theme::{ColorfulTheme, SimpleTheme, Theme};
use dialoguer::{Input, MultiSelect, Select};
use std::collections::BTreeSet;

/// What stands for a fact that is not established.
const NOT_ESTABLISHED: &str = "(not established)";

/// As many answers as are shown at once.
const SHOWN: usize = 12;

/// Asks until the ruling is settled, or nothing more can be established. Without a chart everything
/// that is asked is asked for, in the order of asking.
pub(super) fn ask(
    ruleset: &Ruleset,
    incident: &mut Incident,
    chart: &mut Result<Chart<'_>, Reason>,
) -> Result<(), Failure> {
    let asker = Asker::new(ruleset);
    let mut left_open: BTreeSet<AttributeId> = BTreeSet::new();
    asker.say(&format!(
        "{}. Leave a fact at \"{NOT_ESTABLISHED}\" (or empty) where it was not established; Esc ends the questions.",
        ruleset.title
    ));
    while let Some(attribute) = next(ruleset, &incident.facts, chart, &left_open) {
        match asker.fact(attribute)? {
            Reply::Value(code) => incident.facts.set(attribute, Some(code)),
            Reply::NotEstablished => {
                left_open.insert(attribute);
            }
            Reply::Enough => break,
        }
    }
    asker.say("");
    Ok(())
}

/// The attribute to ask for next.
fn next(
    ruleset: &Ruleset,
    facts: &Established,
    chart: &mut Result<Chart<'_>, Reason>,
    left_open: &BTreeSet<AttributeId>,
) -> Option<AttributeId> {
    if let Ok(chart) = chart {
        let outlook = chart.outlook(facts);
        if chart.settled(&outlook).is_some() {
            return None;
        }
        let questions = chart.questions(&outlook);
        let open = |question: &&Question| !left_open.contains(&question.attribute);
        questions.iter().find(open).map(|it| it.attribute)
    } else {
        let next = facts.asked_next(ruleset)?;
        (!left_open.contains(&next)).then_some(next)
    }
}

/// What a person answered.
enum Reply {
    Value(Code),
    NotEstablished,
    /// No more questions.
    Enough,
}

struct Asker<'r> {
    ruleset: &'r Ruleset,
    term: Term,
    theme: Box<dyn Theme>,
}

impl<'r> Asker<'r> {
    fn new(ruleset: &'r Ruleset) -> Self {
        let term = Term::stderr();
        let coloured = dialoguer::console::colors_enabled_stderr();
        Asker {
            ruleset,
            term,
            theme: if coloured {
                Box::new(ColorfulTheme::default())
            } else {
                Box::new(SimpleTheme)
            },
        }
    }

    /// A line beside the questions. Nobody may be listening.
    fn say(&self, words: &str) {
        let width = usize::from(self.term.size().1).clamp(30, 100);
        for line in crate::report::text::wrapped(words, width) {
            let _ = self.term.write_line(&line);
        }
    }

    fn fact(&self, id: AttributeId) -> Result<Reply, Failure> {
        let attribute = &self.ruleset[id];
        let question = crate::report::text::cleaned(&narration::question(self.ruleset, id, None));
        match &attribute.kind {
            AttributeKind::YesNo | AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
                self.choice(id, &question)
            }
            AttributeKind::Several(_) => self.several(id, &question),
            AttributeKind::Number(range) => {
                let unit = match &range.unit {
                    Unit::None => String::new(),
                    Unit::Named(unit) => format!(" {unit}"),
                };
                let more = if range.or_more { " or more" } else { "" };
                let (low, high) = (range.value(0), range.value(range.steps));
                self.number(id, &format!("{question} ({low} to {high}{unit}{more})"))
            }
        }
    }

    /// The values of an attribute in labels, in the order in which they are best read.
    fn values(&self, id: AttributeId) -> Vec<(String, Code)> {
        let attribute = &self.ruleset[id];
        let codes: Vec<u64> = match (&attribute.kind, attribute.origin) {
            (AttributeKind::YesNo, Origin::Stated) => vec![1, 0],
            (kind, _) => (0..=highest_code(kind)).collect(),
        };
        let named = codes.into_iter().map(Code);
        named
            .map(|code| {
                let words = labels::fact(self.ruleset, id, code);
                (crate::report::text::cleaned(&words), code)
            })
            .collect()
    }

    fn choice(&self, id: AttributeId, question: &str) -> Result<Reply, Failure> {
        let values = self.values(id);
        let items = values.iter().map(|(words, _)| words.as_str());
        let items: Vec<&str> = items.chain([NOT_ESTABLISHED]).collect();
        let chosen = Select::with_theme(&*self.theme)
            .with_prompt(question)
            .items(&items)
            .default(0)
            .max_length(SHOWN)
            .interact_on_opt(&self.term);
        Ok(match chosen.map_err(failed)? {
            None => Reply::Enough,
            Some(index) => values
                .get(index)
                .map_or(Reply::NotEstablished, |(_, code)| Reply::Value(*code)),
        })
    }

    fn several(&self, id: AttributeId, question: &str) -> Result<Reply, Failure> {
        let names = self.ruleset[id].kind.names();
        let items: Vec<String> = names
            .iter()
            .map(|value| {
                let words = labels::called(self.ruleset, value.label.as_ref(), &value.name);
                crate::report::text::cleaned(&words)
            })
            .chain(["none of them".to_owned(), NOT_ESTABLISHED.to_owned()])
            .collect();
        let question = format!("{question} (space marks all that apply)");
        loop {
            let chosen = MultiSelect::with_theme(&*self.theme)
                .with_prompt(&question)
                .items(&items)
                .max_length(SHOWN)
                .interact_on_opt(&self.term);
            let Some(chosen) = chosen.map_err(failed)? else {
                return Ok(Reply::Enough);
            };
            let open = chosen.contains(&(names.len() + 1));
            let none = chosen.contains(&names.len());
            let marked: Vec<usize> = chosen
                .into_iter()
                .filter(|index| *index < names.len())
                .collect();
            match (marked.is_empty(), none, open) {
                (true, true, false) => return Ok(Reply::Value(Code(0))),
                (true, false, _) => return Ok(Reply::NotEstablished),
                (false, false, false) => {
                    let bits = marked.iter().fold(0u64, |bits, item| {
                        let bit = u32::try_from(*item).ok();
                        bits | bit.and_then(|bit| 1u64.checked_shl(bit)).unwrap_or(0)
                    });
                    return Ok(Reply::Value(Code(bits)));
                }
                _ => self.say(
                    "That can't be: mark what applies, or nothing else with \"none of them\".",
                ),
            }
        }
    }

    fn number(&self, id: AttributeId, question: &str) -> Result<Reply, Failure> {
        loop {
            let typed: Result<String, _> = Input::with_theme(&*self.theme)
                .with_prompt(question)
                .allow_empty(true)
                .interact_text_on(&self.term);
            let typed = typed.map_err(failed)?;
            let words = typed.trim();
            if words.is_empty() {
                return Ok(Reply::NotEstablished);
            }
            let draft = FactValueDraft::Words(Spanned::new(words.to_owned(), Span::default()));
            let mut problems = Vec::new();
            if let Some(code) = scenario::value(self.ruleset, id, &draft, &mut problems) {
                return Ok(Reply::Value(code));
            }
            for problem in problems {
                let help = problem.help.map(|help| format!("; {help}"));
                self.say(&format!(
                    "{}{}.",
                    problem.headline,
                    help.unwrap_or_default()
                ));
            }
        }
    }
}

fn failed(error: dialoguer::Error) -> Failure {
    let dialoguer::Error::IO(error) = error;
    Failure(format!("the terminal can't be asked: {error}"))
}
