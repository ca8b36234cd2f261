//! Words with links in them: names of a condition lead to what they mean, ids in a wording to the
//! clauses that they name.

use super::cards::ClauseLink;
use crate::amendment::Redlined;
use crate::model::{ClauseId, Condition, ConditionKind, Meaning, Ruleset};
use crate::read::amendment::Part;
use std::collections::BTreeMap;

/// Some words, and where they lead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Piece {
    /// The words.
    pub(super) words: String,
    /// The anchor that they lead to.
    pub(super) to: Option<String>,
    /// Whether they are words of a file.
    pub(super) code: bool,
}

impl Piece {
    pub(super) fn plain(words: impl Into<String>) -> Piece {
        Piece {
            words: words.into(),
            to: None,
            code: false,
        }
    }

    /// Words of the program, in which what belongs into a file stands between backticks.
    pub(super) fn told(words: &str) -> Vec<Piece> {
        let parts = words.split('`').enumerate();
        // An odd backtick stands for itself.
        if words.matches('`').count() % 2 == 1 {
            return vec![Piece::plain(words)];
        }
        parts
            .filter(|(_, part)| !part.is_empty())
            .map(|(index, part)| Piece {
                code: index % 2 == 1,
                ..Piece::plain(part)
            })
            .collect()
    }
}

/// One line of a condition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct ConditionLine {
    /// How far it stands in.
    pub(super) depth: usize,
    /// Its words.
    pub(super) pieces: Vec<Piece>,
}

/// The anchor of a clause.
pub(super) fn clause_anchor(clause: ClauseId) -> String {
    format!("clause-{}", clause.index())
}

/// Where what a draft does to one thing stands on the page, by its place among them from 1 on.
pub(super) fn draft_anchor(number: usize) -> String {
    format!("draft-{number}")
}

/// The names of a ruleset and where each is explained.
pub(super) struct Links<'r> {
    ruleset: &'r Ruleset,
    names: BTreeMap<&'r str, String>,
    clauses: BTreeMap<&'r str, String>,
}

impl<'r> Links<'r> {
    pub(super) fn new(ruleset: &'r Ruleset) -> Self {
        let mut names = BTreeMap::new();
        for (index, attribute) in ruleset.attributes.iter().enumerate() {
            names.insert(attribute.name.as_str(), format!("fact-{index}"));
        }
        // A reading is an attribute by the term's name: the term explains it.
        for (index, term) in ruleset.terms.iter().enumerate() {
            names.insert(term.name.as_str(), format!("term-{index}"));
        }
        for (index, dimension) in ruleset.dimensions.iter().enumerate() {
            names.insert(dimension.name.as_str(), format!("decides-{index}"));
        }
        for (index, quantity) in ruleset.quantities.iter().enumerate() {
            names.insert(quantity.name.as_str(), format!("quantity-{index}"));
        }
        let ids = ruleset.clauses.iter().enumerate();
        let clauses = ids.map(|(index, clause)| {
            let anchor = clause_anchor(ClauseId::new(index));
            (clause.id.as_str(), anchor)
        });
        Links {
            ruleset,
            names,
            clauses: clauses.collect(),
        }
    }

    /// Of the rules as a draft would have them: what the draft touches leads to its words there, all else
    /// to where it stands in the rules as they are.
    pub(super) fn amended(
        after: &'r Ruleset,
        before: &'r Ruleset,
        redline: &'r [Redlined],
    ) -> Links<'r> {
        let mut links = Links {
            ruleset: after,
            ..Links::new(before)
        };
        // A number that was given away leads to whoever has it now, if anybody.
        for thing in redline {
            links.named(thing.part).remove(thing.earlier());
        }
        for (number, thing) in (1..).zip(redline) {
            let anchor = draft_anchor(number);
            links.named(thing.part).insert(&thing.name, anchor);
        }
        links
    }

    /// Where things of a kind lead.
    fn named(&mut self, part: Part) -> &mut BTreeMap<&'r str, String> {
        match part {
            Part::Clause => &mut self.clauses,
            _ => &mut self.names,
        }
    }

    /// A clause, and where it stands on the page.
    pub(super) fn clause(&self, clause: ClauseId) -> ClauseLink {
        let mut link = ClauseLink::new(self.ruleset, clause);
        let to = self.clauses.get(link.id.as_str());
        link.to = to.cloned().unwrap_or_default();
        link
    }

    /// A wording, with the ids of clauses in it as links. An id that is a bare number or a single letter
    /// could be any number or letter, and stays as it is.
    pub(super) fn wording(&self, words: &str) -> Vec<Piece> {
        let in_id = |letter: char| letter.is_alphanumeric() || "._-()".contains(letter);
        linked(words, in_id, |token| {
            let marked = token.chars().any(|letter| "._-(".contains(letter));
            self.clauses.get(token).filter(|_| marked).cloned()
        })
    }

    /// A condition as it was written, with its names as links.
    pub(super) fn condition_words(&self, words: &str) -> Vec<Piece> {
        let in_name = |letter: char| letter.is_alphanumeric() || letter == '_';
        linked(words, in_name, |token| self.names.get(token).cloned())
    }

    /// A condition in lines: as it was written, or where it was written as a list, item by item.
    pub(super) fn condition(&self, condition: &Condition) -> Vec<ConditionLine> {
        let mut lines = Vec::new();
        self.lines(condition, 0, "", &mut lines);
        lines
    }

    fn lines(
        &self,
        condition: &Condition,
        depth: usize,
        before: &str,
        out: &mut Vec<ConditionLine>,
    ) {
        let written = self.ruleset.sources.slice(condition.span);
        let line = |pieces: Vec<Piece>| ConditionLine { depth, pieces };
        let opened = |words: &str| {
            let opening = format!("{before} {words}");
            line(vec![Piece::plain(opening.trim_start())])
        };
        let parts: &[Condition] = match &condition.kind {
            ConditionKind::All(parts) | ConditionKind::Any(parts) => parts,
            _ => &[],
        };
        match &condition.kind {
            ConditionKind::NotTrue(inner) if !matches!(inner.kind, ConditionKind::NotTrue(_)) => {
                if is_list(self.ruleset.sources.slice(inner.span)) {
                    out.push(opened("except where"));
                    self.lines(inner, depth + 1, "", out);
                } else {
                    let before = [before, "except where"].join(" ");
                    self.lines(inner, depth, before.trim_start(), out);
                }
            }
            ConditionKind::All(_) if is_list(written) => {
                for (index, part) in parts.iter().enumerate() {
                    let and = if index == 0 { before } else { "and" };
                    self.lines(part, depth, and, out);
                }
            }
            ConditionKind::Any(_) if is_list(written) => {
                out.push(opened("at least one of these:"));
                for part in parts {
                    self.lines(part, depth + 1, "", out);
                }
            }
            _ => {
                let mut pieces = Vec::new();
                if !before.is_empty() {
                    pieces.push(Piece::plain(format!("{before} ")));
                }
                pieces.extend(self.condition_words(&one_line(written)));
                out.push(line(pieces));
            }
        }
    }

    /// The readings of a term, each with what it is called.
    pub(super) fn meaning(&self, meaning: &Meaning) -> Vec<(&'static str, Vec<ConditionLine>)> {
        match meaning {
            Meaning::Sharp(condition) => vec![("means", self.condition(condition))],
            Meaning::Vague { narrow, broad, .. } => vec![
                ("surely, where", self.condition(narrow)),
                ("surely not, unless", self.condition(broad)),
            ],
        }
    }
}

/// Words, of which those that `find` knows lead somewhere; a word is a run of letters that belong to one.
fn linked(
    words: &str,
    belongs: impl Fn(char) -> bool,
    find: impl Fn(&str) -> Option<String>,
) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut rest = words;
    let mut plain = String::new();
    while let Some(first) = rest.chars().next() {
        let end = rest
            .find(|letter: char| belongs(letter) != belongs(first))
            .unwrap_or(rest.len());
        let (run, after) = rest.split_at(end);
        rest = after;
        let token = trimmed(run);
        match Some(token).filter(|_| belongs(first)).and_then(&find) {
            Some(to) => {
                let at = run.find(token).unwrap_or(0);
                plain.push_str(run.get(..at).unwrap_or(""));
                if !plain.is_empty() {
                    pieces.push(Piece::plain(std::mem::take(&mut plain)));
                }
                pieces.push(Piece {
                    words: token.to_owned(),
                    to: Some(to),
                    code: false,
                });
                plain.push_str(run.get(at + token.len()..).unwrap_or(""));
            }
            None => plain.push_str(run),
        }
    }
    if !plain.is_empty() {
        pieces.push(Piece::plain(plain));
    }
    pieces
}

/// A token without the punctuation around it; a bracket at its end belongs to it where it was opened in it.
fn trimmed(run: &str) -> &str {
    let run = run.trim_start_matches(['(', '.', '-', '_']);
    let run = run.trim_end_matches(['.', '-', '_']);
    match run.strip_suffix(')') {
        Some(inner) if !inner.contains('(') => inner.trim_end_matches('.'),
        _ => run,
    }
}

/// Whether a condition was written as a list of conditions.
fn is_list(written: &str) -> bool {
    let starts = |line: &str| {
        let line = line.trim_start();
        ["- ", "all:", "any:", "none:", "[", "{"]
            .iter()
            .any(|start| line.starts_with(start))
    };
    starts(written) || written.lines().skip(1).any(starts)
}

/// Words on one line, without the quotes that the file needs around them.
fn one_line(written: &str) -> String {
    let words: Vec<&str> = written.split_whitespace().collect();
    let joined = words.join(" ");
    let bare = |quote: char| {
        let inner = joined.strip_prefix(quote)?.strip_suffix(quote)?;
        Some(inner.to_owned())
    };
    bare('"').or_else(|| bare('\'')).unwrap_or(joined)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;
    use crate::amendment::Fate;
    use crate::load::load;

    const RULES: &str = "\
ruleset: Rules
attributes:
  phase: {choice: [standing, ground]}
  hold: {choice: [lock, pin]}
terms:
  locked: {means: hold is lock}
rulings:
  play: {choice: [stops, goes_on], otherwise: goes_on}
clauses:
  - id: '7.1'
    when: \"locked and phase is ground\"
    ruling: {play: stops}
  - id: 9(a)
    when:
      any:
        - locked
        - all: [hold is pin, phase is ground]
    unless: phase is standing
    ruling: {play: stops}
  - id: '3'
    ruling: {play: stops}
";

    fn told(pieces: &[Piece]) -> String {
        let each = pieces.iter().map(|piece| match &piece.to {
            Some(to) => format!("[{}]({to})", piece.words),
            None => piece.words.clone(),
        });
        each.collect()
    }

    #[test]
    fn what_a_draft_touches_leads_to_the_draft() {
        let before = load("a", RULES).unwrap().ruleset;
        let later = RULES
            .replace("7.1", "7.2")
            .replace("- id: '3'", "- id: '7.1'");
        let after = load("b", later).unwrap().ruleset;
        let touched = |part, name: &str, fate| Redlined {
            part,
            name: name.to_owned(),
            fate,
            lines: Vec::new(),
            rows: None,
            affected: Vec::new(),
        };
        let redline = [
            touched(Part::Clause, "7.1", Fate::Renumbered("3".to_owned())),
            touched(Part::Clause, "7.2", Fate::Renumbered("7.1".to_owned())),
            touched(Part::Term, "locked", Fate::Changed),
        ];
        let links = Links::amended(&after, &before, &redline);
        let to = |index| links.clause(ClauseId::new(index)).to;
        assert_eq!([to(0), to(1), to(2)], ["draft-2", "clause-1", "draft-1"]);
        let words = links.condition_words("locked and phase is ground");
        assert_eq!(
            told(&words),
            "[locked](draft-3) and [phase](fact-0) is ground"
        );
    }

    #[test]
    fn ids_in_a_wording_lead_to_their_clauses() {
        let ruleset = load("a", RULES).unwrap().ruleset;
        let links = Links::new(&ruleset);
        for (words, expected) in [
            ("Subject to 7.1.", "Subject to [7.1](clause-0)."),
            ("(see 9(a), 7.1)", "(see [9(a)](clause-1), [7.1](clause-0))"),
            ("after 3 s, at 17.1 or 7.10", "after 3 s, at 17.1 or 7.10"),
            ("<b>7.1</b>", "<b>[7.1](clause-0)</b>"),
        ] {
            assert_eq!(told(&links.wording(words)), expected);
        }
    }

    #[test]
    fn conditions_stand_as_they_were_written_and_lists_item_by_item() {
        let ruleset = load("a", RULES).unwrap().ruleset;
        let links = Links::new(&ruleset);
        let lines = |index: usize| -> Vec<String> {
            let lines = links.condition(&ruleset.clauses[index].when);
            let told = lines
                .iter()
                .map(|line| format!("{}{}", "  ".repeat(line.depth), told(&line.pieces)));
            told.collect()
        };
        assert_eq!(lines(0), ["[locked](term-0) and [phase](fact-0) is ground"]);
        assert_eq!(
            lines(1),
            [
                "at least one of these:",
                "  [locked](term-0)",
                "  [hold](fact-1) is pin",
                "  and [phase](fact-0) is ground",
                "and except where [phase](fact-0) is standing",
            ]
        );
    }
}
