//! Statements, and the clauses that define them.
//!
//! A statement without a name of its own is called by its text, in the one form that the page on proofs
//! lays down: nested parts of the same sort merged, each part once, in the order of their words, and of
//! the two ways to say it the one with fewer negations. A name is here just text.

use crate::proof::digest;
use std::collections::{BTreeMap, BTreeSet};

/// A literal: the name of something, and whether it holds.
pub(super) type Literal = (String, bool);

/// Literals of which one must hold at least, in order.
pub(super) type Clause = Vec<Literal>;

/// Something that is so or is not so.
#[derive(Clone, Debug)]
pub(super) enum Statement {
    Always,
    Never,
    Name(String),
    Not(Box<Statement>),
    All(Vec<Statement>),
    Any(Vec<Statement>),
    AtLeast(usize, Vec<Statement>),
}

impl Statement {
    pub(super) fn not(statement: Statement) -> Statement {
        Statement::Not(Box::new(statement))
    }
}

/// A settled statement.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Settled {
    Constant(bool),
    Literal(Literal),
}

impl Settled {
    fn contrary(self) -> Settled {
        match self {
            Settled::Constant(so) => Settled::Constant(!so),
            Settled::Literal((words, so)) => Settled::Literal((words, !so)),
        }
    }
}

/// Statements called by their text.
#[derive(Clone, Debug)]
struct Compound {
    /// All of the parts, or any of them.
    all: bool,
    parts: Vec<Literal>,
}

/// Collects clauses, and remembers which names still have to be defined.
#[derive(Debug, Default)]
pub(super) struct Ledger {
    clauses: BTreeSet<Clause>,
    compounds: BTreeMap<String, Compound>,
    used: BTreeSet<String>,
    open: Vec<String>,
}

impl Ledger {
    /// The next name to define that is no compound; compounds on the way are defined here.
    pub(super) fn next_open(&mut self) -> Option<String> {
        while let Some(words) = self.open.pop() {
            match self.compounds.get(&words).cloned() {
                Some(compound) => self.tie((words, true), &compound),
                None => return Some(words),
            }
        }
        None
    }

    /// All clauses, once nothing is open.
    pub(super) fn finish(self) -> BTreeSet<Clause> {
        self.clauses
    }

    pub(super) fn add(&mut self, mut clause: Clause) {
        clause.sort();
        clause.dedup();
        for (words, _) in &clause {
            if self.used.insert(words.clone()) {
                self.open.push(words.clone());
            }
        }
        self.clauses.insert(clause);
    }

    /// The statement holds.
    pub(super) fn claim(&mut self, statement: &Statement) {
        match self.settle(statement) {
            Settled::Constant(true) => {}
            Settled::Constant(false) => self.add(Vec::new()),
            Settled::Literal(literal) => match self.opened(&literal) {
                Some(compound) if compound.all => {
                    compound
                        .parts
                        .into_iter()
                        .for_each(|part| self.add(vec![part]));
                }
                Some(compound) => self.add(compound.parts),
                None => self.add(vec![literal]),
            },
        }
    }

    /// The name says the same as the statement.
    pub(super) fn define(&mut self, name: &str, statement: &Statement) {
        let yes = (name.to_owned(), true);
        match self.settle(statement) {
            Settled::Constant(so) => self.add(vec![(name.to_owned(), so)]),
            Settled::Literal(literal) => {
                if let Some(compound) = self.opened(&literal) {
                    return self.tie(yes, &compound);
                }
                let (words, so) = literal;
                self.add(vec![yes, (words.clone(), !so)]);
                self.add(vec![(name.to_owned(), false), (words, so)]);
            }
        }
    }

    fn tie(&mut self, (name, so): Literal, compound: &Compound) {
        // "All of" fails with each part that fails; "any of" holds with each part that holds.
        let mut last = vec![(name.clone(), so == compound.all)];
        for (part, holds) in &compound.parts {
            let weak = (part.clone(), *holds == compound.all);
            self.add(vec![(name.clone(), so != compound.all), weak]);
            last.push((part.clone(), *holds != compound.all));
        }
        self.add(last);
    }

    /// What a literal is made of, if it stands for a compound or for the contrary of one.
    fn opened(&self, (words, so): &Literal) -> Option<Compound> {
        let compound = self.compounds.get(words)?;
        let parts = compound.parts.iter().cloned();
        Some(Compound {
            all: compound.all == *so,
            parts: parts.map(|(part, holds)| (part, holds == *so)).collect(),
        })
    }

    /// Whether two statements come to the same in the one form.
    pub(super) fn says_the_same(&mut self, one: &Statement, other: &Statement) -> bool {
        self.settle(one) == self.settle(other)
    }

    fn settle(&mut self, statement: &Statement) -> Settled {
        match statement {
            Statement::Always => Settled::Constant(true),
            Statement::Never => Settled::Constant(false),
            Statement::Name(words) => Settled::Literal((words.clone(), true)),
            Statement::Not(inner) => self.settle(inner).contrary(),
            Statement::All(parts) => {
                let parts = parts.iter().map(|part| self.settle(part)).collect();
                self.together(parts)
            }
            Statement::Any(parts) => {
                let parts = parts
                    .iter()
                    .map(|part| self.settle(part).contrary())
                    .collect();
                self.together(parts).contrary()
            }
            Statement::AtLeast(least, parts) => {
                let parts: Vec<Settled> = parts.iter().map(|part| self.settle(part)).collect();
                self.at_least(*least, &parts)
            }
        }
    }

    /// At least so many: with each further part, those that already were as many, or one fewer and
    /// this one.
    fn at_least(&mut self, least: usize, parts: &[Settled]) -> Settled {
        let mut counted = vec![Settled::Constant(true)];
        for part in parts {
            let mut next = vec![Settled::Constant(true)];
            for count in 1..=least.min(counted.len()) {
                let before = counted
                    .get(count)
                    .cloned()
                    .unwrap_or(Settled::Constant(false));
                let fewer = counted
                    .get(count - 1)
                    .cloned()
                    .unwrap_or(Settled::Constant(false));
                let with = self.together(vec![fewer, part.clone()]);
                let neither = self.together(vec![before.contrary(), with.contrary()]);
                next.push(neither.contrary());
            }
            counted = next;
        }
        counted
            .get(least)
            .cloned()
            .unwrap_or(Settled::Constant(false))
    }

    /// All of them.
    fn together(&mut self, parts: Vec<Settled>) -> Settled {
        let mut literals: BTreeSet<(String, bool)> = BTreeSet::new();
        for part in parts {
            match part {
                Settled::Constant(false) => return Settled::Constant(false),
                Settled::Constant(true) => {}
                Settled::Literal(literal) => match self.opened(&literal) {
                    // With the contrary as the second member, what holds comes before what does not.
                    Some(nested) if nested.all => {
                        literals.extend(nested.parts.into_iter().map(|(part, so)| (part, !so)));
                    }
                    _ => {
                        literals.insert((literal.0, !literal.1));
                    }
                },
            }
        }
        let literals: Vec<Literal> = literals
            .into_iter()
            .map(|(part, not)| (part, !not))
            .collect();
        let mut names: Vec<&str> = literals.iter().map(|(part, _)| part.as_str()).collect();
        names.dedup();
        if names.len() < literals.len() {
            // Something and its contrary.
            return Settled::Constant(false);
        }
        match literals.as_slice() {
            [] => Settled::Constant(true),
            [one] => Settled::Literal(one.clone()),
            _ => {
                let denied = literals.iter().filter(|(_, so)| !so).count();
                let all = 2 * denied <= literals.len();
                let parts: Vec<Literal> = literals
                    .into_iter()
                    .map(|(part, so)| (part, so == all))
                    .collect();
                let words = text(all, &parts);
                self.compounds
                    .insert(words.clone(), Compound { all, parts });
                Settled::Literal((words, all))
            }
        }
    }
}

/// What a compound is called.
fn text(all: bool, parts: &[Literal]) -> String {
    let said: Vec<String> = parts
        .iter()
        .map(|(words, so)| {
            if *so {
                words.clone()
            } else {
                format!("not {words}")
            }
        })
        .collect();
    let whole = format!("({})", said.join(if all { " and " } else { " or " }));
    if whole.len() <= 160 {
        return whole;
    }
    // The first 120 bytes, or fewer where that would cut a letter.
    let mut cut = 120;
    while !whole.is_char_boundary(cut) {
        cut -= 1;
    }
    let (begin, _) = whole.split_at(cut);
    let fingerprint: String = digest(whole.as_bytes()).chars().take(32).collect();
    format!("{begin} ... {fingerprint}")
}

/// A clause of statements that are names, contraries of names or constants; none where one of them
/// always holds.
pub(super) fn one_clause(statements: &[Statement]) -> Option<Clause> {
    fn literal(statement: &Statement) -> Option<Result<Literal, bool>> {
        Some(match statement {
            Statement::Always => Err(true),
            Statement::Never => Err(false),
            Statement::Name(words) => Ok((words.clone(), true)),
            Statement::Not(inner) => match literal(inner)? {
                Ok((words, so)) => Ok((words, !so)),
                Err(so) => Err(!so),
            },
            Statement::All(_) | Statement::Any(_) | Statement::AtLeast(..) => return None,
        })
    }
    let mut clause = Vec::new();
    for statement in statements {
        match literal(statement)? {
            Ok(literal) => clause.push(literal),
            Err(true) => return None,
            Err(false) => {}
        }
    }
    Some(clause)
}
