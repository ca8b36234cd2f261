//! The words of a fact, and the value of the attribute that they mean.
//!
//! Every slip is told at its words, with what to write instead.

use crate::analysis::or_list;
use crate::logic::{Code, Established, highest_code};
use crate::model::{
    AttributeId, AttributeKind, Meaning, NamedValue, Number, NumberRange, Origin, Ruleset, Unit,
};
use crate::problem::{Problem, nearest};
use crate::read::draft::{FactDraft, FactValueDraft, Words};
use crate::source::{Span, Spanned};
use std::collections::BTreeMap;

/// As many names as a reader takes in at a glance.
const SHOWN: usize = 8;

/// The facts that some words say; each problem in them is added to `problems`.
///
/// Beside each attribute stands where its value is written.
pub fn facts(
    ruleset: &Ruleset,
    drafts: &[FactDraft],
    problems: &mut Vec<Problem>,
) -> (Established, BTreeMap<AttributeId, Span>) {
    let mut facts = Established::nothing(ruleset.attributes.len());
    let mut places: BTreeMap<AttributeId, Span> = BTreeMap::new();
    for draft in drafts {
        let Some(id) = attribute(ruleset, &draft.name, problems) else {
            continue;
        };
        let span = draft.name.span.to(draft.value.span());
        if let Some(earlier) = places.insert(id, span) {
            let headline = format!("the fact `{}` is given twice", draft.name.value);
            let problem = Problem::error(draft.name.span, headline, "given again")
                .other(earlier, "given here already")
                .help("give it once");
            problems.push(problem);
            continue;
        }
        facts.set(id, value(ruleset, id, &draft.value, problems));
    }
    // What is written as not established is not.
    places.retain(|id, _| facts.get(*id).is_some());
    (facts, places)
}

/// The attribute, or the reading of a vague term, that a fact is about.
fn attribute(ruleset: &Ruleset, name: &Words, problems: &mut Vec<Problem>) -> Option<AttributeId> {
    let found = ruleset
        .attributes
        .iter()
        .position(|it| it.name == name.value);
    if let Some(index) = found {
        return Some(AttributeId::new(index));
    }
    problems.push(no_fact(ruleset, name));
    None
}

fn no_fact(ruleset: &Ruleset, name: &Words) -> Problem {
    let word = name.value.as_str();
    let error = |headline: String| Problem::error(name.span, headline, "expected an attribute");
    if let Some(term) = ruleset.terms.iter().find(|term| term.name == word) {
        let mut read = Vec::new();
        if let Meaning::Sharp(meaning) = &term.meaning {
            meaning.each_part(&mut |part| {
                if let crate::model::ConditionKind::Fact { test, .. } = &part.kind {
                    for id in test.attributes() {
                        let name = format!("`{}`", ruleset[id].name);
                        if !read.contains(&name) {
                            read.push(name);
                        }
                    }
                }
            });
        }
        read.truncate(SHOWN);
        let problem = error(format!(
            "`{word}` is a defined term: whether it holds follows from the facts"
        ));
        return if read.is_empty() {
            problem.help("give the facts that it rests on")
        } else {
            problem.help(format!(
                "give the facts that it rests on: {}",
                or_list(&read)
            ))
        };
    }
    if ruleset.dimensions.iter().any(|it| it.name == word) {
        return error(format!("`{word}` is what the rules decide, not a fact"))
            .help("leave it out: the ruling follows from the facts");
    }
    let problem = error(format!("`{word}` is no attribute of this ruleset"));
    let names = || ruleset.attributes.iter().map(|it| it.name.as_str());
    if let Some(near) = nearest(word, names()) {
        return problem.help(format!("did you mean `{near}`?"));
    }
    let owner = ruleset.attributes.iter().find(|it| {
        let mut values = it.kind.names().iter();
        values.any(|value| value.name == word)
    });
    match owner {
        Some(owner) => problem.help(format!(
            "`{word}` is a value of `{0}`: give it as the value of `{0}`",
            owner.name
        )),
        None => problem.help(format!("known are {}", quoted(names(), "and"))),
    }
}

/// The value of an attribute that some words say; `None` where they say that it is not established,
/// or after adding what is wrong to `problems`.
pub fn value(
    ruleset: &Ruleset,
    id: AttributeId,
    draft: &FactValueDraft,
    problems: &mut Vec<Problem>,
) -> Option<Code> {
    let attribute = &ruleset[id];
    let name = attribute.name.as_str();
    let found = match (draft, &attribute.kind) {
        (FactValueDraft::NotEstablished(_), _) => return None,
        (FactValueDraft::Items(items, _), AttributeKind::Several(names)) => {
            return several(name, names, items, problems);
        }
        (FactValueDraft::Items(items, span), kind) => {
            if let [one] = items.as_slice() {
                one_value(name, attribute.origin, kind, one)
            } else {
                let headline = format!("`{name}` has one value, and {} are given", items.len());
                let expected = format!("expected {}", expected(attribute.origin, kind));
                let help = "give the one that was established, or leave the fact out";
                Err(Problem::error(*span, headline, expected).help(help))
            }
        }
        (FactValueDraft::Words(words), AttributeKind::Several(names)) => {
            return several(name, names, &split(words), problems);
        }
        (FactValueDraft::Words(words), kind) => one_value(name, attribute.origin, kind, words),
    };
    match found {
        Ok(code) => Some(code),
        Err(problem) => {
            problems.push(problem);
            None
        }
    }
}

fn one_value(
    name: &str,
    origin: Origin,
    kind: &AttributeKind,
    words: &Words,
) -> Result<Code, Problem> {
    match kind {
        AttributeKind::YesNo => yes_or_no(name, origin, words),
        AttributeKind::Number(range) => number(name, range, words),
        // A `several` takes a list, and was looked at as one.
        AttributeKind::Choice(names)
        | AttributeKind::Scale(names)
        | AttributeKind::Several(names) => named(name, names, words),
    }
}

fn yes_or_no(name: &str, origin: Origin, words: &Words) -> Result<Code, Problem> {
    let reading = matches!(origin, Origin::Reading(_));
    match words.value.as_str() {
        "yes" | "true" => Ok(Code(1)),
        "no" | "false" => Ok(Code(0)),
        "broad" if reading => Ok(Code(1)),
        "narrow" if reading => Ok(Code(0)),
        other => {
            let headline = format!("`{name}` is `{}`; expected yes or no", shortened(other));
            let problem = Problem::error(words.span, headline, "expected yes or no");
            Err(if reading {
                problem.help("write yes where the official takes the term to hold (its broad reading), no where not (its narrow one)")
            } else {
                problem.help("write `yes` or `no`; leave the fact out where it was not established")
            })
        }
    }
}

fn named(name: &str, names: &[NamedValue], words: &Words) -> Result<Code, Problem> {
    let help = "write one of them, or leave the fact out where it was not established";
    named_or(name, names, words, help)
}

/// The same, with what to do where no name is near.
fn named_or(name: &str, names: &[NamedValue], words: &Words, help: &str) -> Result<Code, Problem> {
    let word = words.value.as_str();
    if let Some(index) = names.iter().position(|value| value.name == word) {
        return Ok(Code(index as u64));
    }
    let headline = format!("`{}` is not a value of `{name}`", shortened(word));
    let all = || names.iter().map(|value| value.name.as_str());
    let problem = Problem::error(
        words.span,
        headline,
        format!("expected {}", quoted(all(), "or")),
    );
    let label = |value: &&NamedValue| {
        let label = value.label.as_ref().map(|text| text.in_language("").trim());
        label.is_some_and(|label| label.eq_ignore_ascii_case(word))
    };
    let meant =
        nearest(word, all()).or_else(|| names.iter().find(label).map(|value| value.name.as_str()));
    Err(match meant {
        Some(meant) => problem.help(format!("did you mean `{meant}`?")),
        None => problem.help(help),
    })
}

fn number(name: &str, range: &NumberRange, words: &Words) -> Result<Code, Problem> {
    let unit = match &range.unit {
        Unit::None => String::new(),
        Unit::Named(unit) => format!(" {unit}"),
    };
    let error = |headline: String, expected: String, help: String| {
        Err(Problem::error(words.span, headline, expected).help(help))
    };
    let text = words.value.as_str();
    let (low, high) = (range.value(0), range.value(range.steps));
    let more = if range.or_more { " or more" } else { "" };
    let bounds = format!("{low} to {high}{unit}{more}");
    let (digits, given) = text
        .split_once(char::is_whitespace)
        .map_or((text, ""), |(digits, unit)| (digits, unit.trim()));
    let Some(amount) = Number::parse(digits) else {
        return error(
            format!("`{name}` is `{}`; expected a number", shortened(text)),
            format!("expected a number from {bounds}"),
            format!("write a number such as `{low}`"),
        );
    };
    let factor = if given.is_empty() {
        Some(Number::whole(1))
    } else {
        Unit::Named(given.to_owned()).factor_to(&range.unit)
    };
    let Some(amount) = factor.and_then(|factor| amount.times(factor)) else {
        let own = match &range.unit {
            Unit::None => "a bare number".to_owned(),
            Unit::Named(unit) => format!("a number of `{unit}`"),
        };
        return error(
            format!("`{given}` is not a unit for `{name}`"),
            format!("expected {own}"),
            format!("write a number from {bounds}"),
        );
    };
    if range.or_more && amount > high {
        return Ok(Code(u64::try_from(range.steps).unwrap_or(0)));
    }
    let position = range.position(amount);
    let inside = amount >= low && amount <= high;
    match position.and_then(Number::to_whole) {
        Some(step) if inside => Ok(Code(u64::try_from(step).unwrap_or(0))),
        _ if !inside => error(
            format!("{amount}{unit} lies outside `{name}`, which runs from {bounds}"),
            format!("expected {bounds}"),
            "correct it; if it can happen, the ruleset's range is too narrow".to_owned(),
        ),
        _ => {
            let near = position
                .and_then(|position| Some((position.floor()?, position.ceil()?)))
                .map(|(below, above)| (range.value(below), range.value(above)));
            let help = near.map_or_else(
                || format!("write a number from {bounds}"),
                |(below, above)| {
                    format!(
                        "the nearest are {below} and {above}; how to round, the rules have to say"
                    )
                },
            );
            error(
                format!("{amount}{unit} is not a step of `{name}`"),
                format!("it moves by {}{unit}", range.step),
                help,
            )
        }
    }
}

/// The items of a `several`, as bits.
fn several(
    name: &str,
    names: &[NamedValue],
    items: &[Words],
    problems: &mut Vec<Problem>,
) -> Option<Code> {
    // Where no item has that name, `none` and `-` say that nothing is there.
    if let [only] = items
        && matches!(only.value.as_str(), "none" | "-")
        && names.iter().all(|value| value.name != only.value)
    {
        return Some(Code(0));
    }
    let before = problems.len();
    let mut bits = 0u64;
    for item in items {
        let help = "write its items split by `|` in a call or a table, and in brackets, `[a, b]`, in a file; `-` says that there are none";
        match named_or(name, names, item, help) {
            Ok(Code(index)) => {
                let bit = u32::try_from(index).ok();
                bits |= bit.and_then(|bit| 1u64.checked_shl(bit)).unwrap_or(0);
            }
            Err(problem) => problems.push(problem),
        }
    }
    let all = highest_code(&AttributeKind::Several(names.to_vec()));
    (problems.len() == before).then_some(Code(bits & all))
}

/// Items split by `|`, each with its place where the words stand in the file as they are.
pub(crate) fn split(words: &Words) -> Vec<Words> {
    let verbatim = words.span.len() == words.value.len();
    let mut at = 0usize;
    let mut items = Vec::new();
    for part in words.value.split('|') {
        let blank = part.len() - part.trim_start().len();
        let item = part.trim();
        let span = if verbatim {
            let byte = |offset: usize| {
                let offset = u32::try_from(offset).unwrap_or(u32::MAX);
                words.span.start.saturating_add(offset)
            };
            Span {
                source: words.span.source,
                start: byte(at + blank),
                end: byte(at + blank + item.len()),
            }
        } else {
            words.span
        };
        items.push(Spanned::new(item.to_owned(), span));
        at += part.len() + 1;
    }
    items
}

/// What kind of value an attribute takes, for a message.
fn expected(origin: Origin, kind: &AttributeKind) -> String {
    match kind {
        AttributeKind::YesNo if origin == Origin::Stated => "yes or no".to_owned(),
        AttributeKind::YesNo => "`broad` or `narrow`".to_owned(),
        AttributeKind::Number(_) => "a number".to_owned(),
        AttributeKind::Choice(names)
        | AttributeKind::Scale(names)
        | AttributeKind::Several(names) => {
            quoted(names.iter().map(|value| value.name.as_str()), "or")
        }
    }
}

/// Names in back quotes; long lists are cut, and say so.
pub(crate) fn quoted<'n>(names: impl IntoIterator<Item = &'n str>, word: &str) -> String {
    let names: Vec<String> = names.into_iter().map(|name| format!("`{name}`")).collect();
    let (shown, left) = names.split_at(names.len().min(SHOWN));
    match (shown, left.len()) {
        ([one], 0) => one.clone(),
        ([first @ .., last], 0) => format!("{} {word} {last}", first.join(", ")),
        (shown, more) => format!("{} {word} {more} more", shown.join(", ")),
    }
}

/// The first words of a text, for a headline.
fn shortened(words: &str) -> String {
    const LONGEST: usize = 40;
    if words.chars().count() <= LONGEST {
        return words.to_owned();
    }
    let short: String = words.chars().take(LONGEST - 3).collect();
    format!("{short}...")
}
