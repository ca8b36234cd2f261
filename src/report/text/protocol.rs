//! An order of questions, to be printed and kept at the table: as text, and as Markdown.

use super::look::{Look, Tone};
use super::page::{Page, capital, clean};
use crate::labels;
use crate::logic::{Chart, Optimal, Outlook, Protocol, VerdictId};
use crate::narration::{self, Key, Then};
use crate::report::caution::caution;
use crate::report::words;
use num_bigint::BigUint;
use num_rational::Ratio;
use num_traits::{One, ToPrimitive};

/// The order of questions as text.
pub fn protocol(chart: &Chart<'_>, outlook: &Outlook, protocol: &Protocol, look: &Look) -> String {
    let ruleset = chart.ruleset();
    let key = narration::key(chart, protocol);
    let mut page = Page::new(look);
    super::title(&mut page, ruleset);
    page.paragraph(0, "The order of questions", Tone::Strong);
    page.gap();
    let established = established(chart, outlook).into_iter();
    for words in established.chain(opening(chart, protocol, &key)) {
        page.paragraph(0, &words, Tone::Plain);
    }
    for (number, step) in (1..).zip(&key.steps) {
        page.gap();
        let mark = format!("{number}. ");
        let question = capital(&step.question);
        page.hanging(0, &mark, Tone::Strong, &question, Tone::Strong);
        for answer in &step.answers {
            let then = then(chart, &key, answer.then);
            let words = format!("{}: {then}", answer.answer);
            page.hanging(mark.len(), "- ", Tone::Quiet, &words, Tone::Plain);
        }
    }
    page.gap();
    page.row(0, "Caution", &caution(ruleset).join(" "), Tone::Quiet);
    page.finish()
}

/// The order of questions as Markdown.
pub fn protocol_markdown(chart: &Chart<'_>, outlook: &Outlook, protocol: &Protocol) -> String {
    let ruleset = chart.ruleset();
    let key = narration::key(chart, protocol);
    let mut lines = vec![
        format!(
            "# The order of questions: {}",
            escaped(&labels::ruleset(ruleset))
        ),
        String::new(),
    ];
    let established = established(chart, outlook).into_iter();
    for words in established.chain(opening(chart, protocol, &key)) {
        lines.push(escaped(&words));
        lines.push(String::new());
    }
    for (number, step) in (1..).zip(&key.steps) {
        lines.push(format!(
            "## {number}. {}",
            escaped(&capital(&step.question))
        ));
        lines.push(String::new());
        for answer in &step.answers {
            let then = then(chart, &key, answer.then);
            lines.push(format!(
                "- {}: **{}**",
                escaped(&answer.answer),
                escaped(&then)
            ));
        }
        lines.push(String::new());
    }
    lines.push("## Caution".to_owned());
    lines.push(String::new());
    lines.push(escaped(&caution(ruleset).join(" ")));
    lines.join("\n") + "\n"
}

/// What is established before the first question.
fn established(chart: &Chart<'_>, outlook: &Outlook) -> Option<String> {
    let facts = outlook.facts();
    let told = narration::tell(chart.ruleset(), facts, None);
    (!facts.is_empty()).then(|| format!("Established: {}", told.sentences.join(" ")))
}

/// How many questions there are, and what is ruled whatever the answers.
pub(in crate::report) fn opening(chart: &Chart<'_>, protocol: &Protocol, key: &Key) -> Vec<String> {
    let ruleset = chart.ruleset();
    let mut said = Vec::new();
    if let Some(verdict) = key.settled {
        said.push(format!(
            "There is nothing to ask: {}",
            rulings(chart, &[], verdict)
        ));
        return said;
    }
    let how_good = match protocol.optimal {
        Optimal::Proved => "no other order asks fewer on average, which is proved",
        Optimal::Unknown => {
            "each question is the one that tells the most apart; there may be an order that asks fewer"
        }
    };
    said.push(format!(
        "{}; {} on average, every incident counted alike, and {} at most: {how_good}.",
        capital(&words::counted(key.steps.len(), "step")),
        questions(&protocol.expected),
        protocol.longest,
    ));
    if !key.common.is_empty() {
        let first = key.steps.iter().flat_map(|step| &step.answers);
        let verdict = first.into_iter().find_map(|answer| match answer.then {
            Then::Verdict(verdict) => Some(verdict),
            _ => None,
        });
        if let Some(verdict) = verdict {
            let all = chart.dimensions().iter().zip(chart.rulings(verdict));
            let common = all.filter(|(id, _)| key.common.contains(id));
            let common: Vec<String> = common
                .map(|(id, ruling)| {
                    let name = labels::dimension(ruleset, *id);
                    format!("{name}: {}", narration::ruled(ruleset, *id, *ruling))
                })
                .collect();
            said.push(format!("In any case: {}.", common.join("; ")));
        }
    }
    said
}

/// An average to one digit behind the point.
fn questions(expected: &Ratio<BigUint>) -> String {
    let tenths = (expected * BigUint::from(10u8)).round().to_integer();
    let tenths = tenths.to_u64().unwrap_or(u64::MAX);
    if Ratio::is_one(expected) {
        return "1 question".to_owned();
    }
    match tenths % 10 {
        0 if expected.is_integer() => format!("{} questions", tenths / 10),
        digit => format!("{}.{digit} questions", tenths / 10),
    }
}

fn then(chart: &Chart<'_>, key: &Key, then: Then) -> String {
    match then {
        Then::Step(index) => format!("go to {}", index + 1),
        Then::Verdict(verdict) => rulings(chart, &key.common, verdict),
        Then::Open => "nothing that is left tells the rulings apart".to_owned(),
    }
}

/// A verdict in words, but for the dimensions whose ruling is said already.
fn rulings(chart: &Chart<'_>, said: &[crate::model::DimensionId], verdict: VerdictId) -> String {
    let ruleset = chart.ruleset();
    let all = chart.dimensions().iter().zip(chart.rulings(verdict));
    let told: Vec<String> = all
        .filter(|(id, _)| !said.contains(id))
        .filter(|(id, ruling)| !is_usual(chart, **id, **ruling))
        .map(|(id, ruling)| {
            let name = labels::dimension(ruleset, *id);
            format!("{name}: {}", narration::ruled(ruleset, *id, *ruling))
        })
        .collect();
    if told.is_empty() {
        "nothing out of the ordinary is ruled".to_owned()
    } else {
        told.join("; ")
    }
}

/// Whether a ruling is what holds where no clause says anything.
fn is_usual(
    chart: &Chart<'_>,
    dimension: crate::model::DimensionId,
    ruling: crate::logic::Ruling,
) -> bool {
    match narration::answer(chart.ruleset(), dimension, ruling) {
        narration::Answer::Silence => true,
        narration::Answer::Settled => chart.ruleset()[dimension].otherwise == Some(ruling.values),
        _ => false,
    }
}

/// Words in which Markdown finds no marks of its own.
fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for letter in clean(words).chars() {
        if matches!(
            letter,
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '|'
        ) {
            out.push('\\');
        }
        out.push(letter);
    }
    out
}
