//! Which phrases of a list stand in a text, and where. Knows no ruleset: whether a word is defined
//! there is asked afterwards.

use super::lists::{Group, List, Next, Nouns, References};
use super::tokens::Token;
use std::collections::BTreeSet;
use std::ops::Range;

/// How many words on the second number of a range may stand.
const REACH: usize = 8;
/// How many words behind the last number of a range its ends may be settled.
const EDGE: usize = 5;
/// How many words a name may have, from its article on.
const NAME: usize = 3;

/// A phrase of a list in a text.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Hit {
    /// The tokens it stands in.
    pub(super) tokens: Range<usize>,
    pub(super) group: usize,
    /// The number behind it, where its group asks for one.
    pub(super) next: String,
    /// The number behind the second word of its group.
    pub(super) then: String,
}

/// The phrases of a list in a text: the longest at each place, none within another.
pub(super) fn hits(list: &List, text: &str, tokens: &[Token<'_>]) -> Vec<Hit> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let mut length = 1;
        for phrase in list.beginning_with(&token.folded) {
            let range = at..at + phrase.words.len();
            if !stands(&phrase.words, tokens.get(range.clone())) {
                continue;
            }
            match phrase.group {
                None => {}
                Some(group) => match fits(list, group, text, tokens, range.clone()) {
                    Some(hit) => found.push(hit),
                    None => continue,
                },
            }
            length = range.len();
            break;
        }
        at += length;
    }
    found
}

/// Whether these words are those of a phrase.
pub(super) fn stands(phrase: &[String], tokens: Option<&[Token<'_>]>) -> bool {
    tokens.is_some_and(|tokens| {
        let words = tokens.iter().map(|token| token.folded.as_ref());
        words.eq(phrase.iter().map(String::as_str))
    })
}

fn fits(
    list: &List,
    group: usize,
    text: &str,
    tokens: &[Token<'_>],
    range: Range<usize>,
) -> Option<Hit> {
    let asked: &Group = list.groups.get(group)?;
    let mut hit = Hit {
        tokens: range.clone(),
        group,
        next: String::new(),
        then: String::new(),
    };
    let next = tokens.get(range.end);
    let mut number_at = range.end;
    match asked.next {
        Next::Anything => {}
        Next::Number => hit.next = next.filter(|next| number(list, next))?.folded.to_string(),
        Next::Verb => {
            let verb = |next: &Token<'_>| {
                !next.is_word || list.verbs.iter().any(|verb| *verb == next.folded)
            };
            if !next.is_none_or(verb) {
                return None;
            }
        }
    }
    if let Some(then) = &asked.then {
        let from = range.end + 1;
        let within = tokens.get(from..).unwrap_or_default().iter().take(REACH);
        let joint = within
            .take_while(|token| !matches!(token.folded.as_ref(), "." | ";"))
            .position(|token| *token.folded == **then)?;
        let second = tokens.get(from + joint + 1);
        let second = second.filter(|second| number(list, second))?;
        hit.then = second.folded.to_string();
        number_at = from + joint + 1;
    }
    if asked.next == Next::Number {
        // `from 60 kg to 66 kg inclusive` says it all.
        let behind = tokens.get(number_at + 1..).unwrap_or_default().iter();
        let mut behind = behind
            .take(EDGE)
            .take_while(|token| !matches!(token.folded.as_ref(), "." | ";"));
        if behind.any(|token| list.edges.iter().any(|edge| *edge == token.folded)) {
            return None;
        }
    }
    if asked.nouns == Nouns::Two && named_before(list, text, tokens, range.start) < 2 {
        return None;
    }
    Some(hit)
}

fn number(list: &List, token: &Token<'_>) -> bool {
    token
        .folded
        .starts_with(|first: char| first.is_ascii_digit())
        || list.numbers.iter().any(|number| *number == token.folded)
}

/// Whether a sentence ends with a token.
fn ends_sentence(text: &str, tokens: &[Token<'_>], at: usize) -> bool {
    let Some(token) = tokens.get(at) else {
        return true;
    };
    let behind = text.get(token.end..).and_then(|rest| rest.chars().next());
    let before = at.checked_sub(1).and_then(|before| tokens.get(before));
    // The point of an abbreviation: `e.g.`.
    let short = before.is_some_and(|before| before.folded.chars().count() == 1);
    matches!(token.folded.as_ref(), "." | "!" | "?")
        && behind.is_none_or(char::is_whitespace)
        && !(short && token.folded == ".")
}

/// The sentences of a text, as ranges of tokens.
pub(super) fn sentences(text: &str, tokens: &[Token<'_>]) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut start = 0;
    for at in 0..tokens.len() {
        if ends_sentence(text, tokens, at) {
            found.push(start..at + 1);
            start = at + 1;
        }
    }
    if start < tokens.len() {
        found.push(start..tokens.len());
    }
    found
}

/// How many different things, nobody among them, are named before a token in its sentence; where
/// it stands near the beginning, the sentence before counts too.
fn named_before(list: &List, text: &str, tokens: &[Token<'_>], at: usize) -> usize {
    let begins = |from: usize| {
        (0..from)
            .rev()
            .find(|before| ends_sentence(text, tokens, *before))
            .map_or(0, |end| end + 1)
    };
    let mut start = begins(at);
    if at < start + NAME && start > 0 {
        start = begins(start - 1);
    }
    let before = tokens.get(start..at).unwrap_or_default();
    let mut things: BTreeSet<String> = BTreeSet::new();
    for (index, token) in before.iter().enumerate() {
        if !list.articles.iter().any(|article| *article == token.folded) {
            continue;
        }
        let name = before.iter().skip(index + 1).take(NAME).take_while(|word| {
            word.is_word
                && !list
                    .functions
                    .iter()
                    .any(|function| *function == word.folded)
        });
        let name: Vec<&str> = name.map(|word| word.folded.as_ref()).collect();
        let somebody = name
            .iter()
            .any(|word| list.persons.iter().any(|person| person == word));
        if let Some(first) = name.first()
            && !somebody
        {
            things.insert(list.stem(first));
        }
    }
    things.len()
}

/// A clause that a text cites.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Citation {
    /// The tokens of its number.
    pub(super) tokens: Range<usize>,
    pub(super) number: String,
}

/// The clauses that a text cites by number.
pub(super) fn citations(how: &References, tokens: &[Token<'_>]) -> Vec<Citation> {
    let mut found = Vec::new();
    for (at, token) in tokens.iter().enumerate() {
        let head = how.heads.iter().any(|head| *head == token.folded);
        let lead = how
            .leads
            .iter()
            .find(|lead| stands(lead, tokens.get(at..at + lead.len())));
        let (mut next, plain) = match (head, lead) {
            (true, _) => (at + 1, true),
            (false, Some(lead)) => (at + lead.len(), false),
            (false, None) => continue,
        };
        let mut cited = Vec::new();
        while let Some(citation) = citation(tokens, next) {
            // Behind `subject to`, a number alone may count anything.
            if !plain && !citation.number.contains(['.', '(']) {
                break;
            }
            next = citation.tokens.end;
            cited.push(citation);
            let joint = |token: &Token<'_>| how.joins.iter().any(|joint| *joint == token.folded);
            let mut joints = 0;
            while tokens.get(next + joints).is_some_and(joint) {
                joints += 1;
            }
            if joints == 0 {
                break;
            }
            if citation_begins(tokens, next + joints) {
                next += joints;
            } else {
                break;
            }
        }
        let elsewhere = how
            .elsewhere
            .iter()
            .any(|words| stands(words, tokens.get(next..next + words.len())));
        if !elsewhere {
            found.extend(cited);
        }
    }
    found
}

fn citation_begins(tokens: &[Token<'_>], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| {
        token
            .folded
            .starts_with(|first: char| first.is_ascii_digit())
    })
}

/// The number at a token: `13.3`, `9.1a`, `5(a)(ii)`.
fn citation(tokens: &[Token<'_>], at: usize) -> Option<Citation> {
    if !citation_begins(tokens, at) {
        return None;
    }
    let first = tokens.get(at)?;
    let mut number = first.folded.to_string();
    let mut end = at + 1;
    let mut last = first.end;
    while let Some([open, letter, close]) = tokens.get(end..end + 3) {
        let whole = open.folded == "(" && letter.is_word && close.folded == ")";
        if !whole || open.start != last {
            break;
        }
        number.push('(');
        number.push_str(&letter.folded);
        number.push(')');
        last = close.end;
        end += 3;
    }
    Some(Citation {
        tokens: at..end,
        number,
    })
}
