//! A question as SMT-LIB 2.6 text, for any other solver and for people.
//!
//! Shares no code with the encoding that Z3 gets: where another solver agrees on the text, both
//! encodings are confirmed. It names everything in the ruleset's own words and writes down no more
//! than the question rests on; it refuses to know what a ruleset means (that is the theory's).

mod claim;

pub use claim::{Asks, Posed, claim};

use super::cone::{cone, sometimes_asked};
use crate::logic::{Formula, Name, Theory, Unasked, World, highest_code};
use crate::model::{
    AttributeId, AttributeKind, ClauseId, DimensionId, Linear, Origin, Ruleset, TermId, Test,
    ValueSet,
};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// What a solver is expected to answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Expected {
    /// There is such a scenario: `sat`.
    Some,
    /// There is none: `unsat`.
    None,
}

/// Writes a question down: is there a scenario of the ruleset in which it holds? The comment says
/// in words what is asked.
pub fn script(
    ruleset: &Ruleset,
    question: &Formula,
    comment: &str,
    expected: Option<Expected>,
) -> String {
    script_over(&Theory::new(ruleset), question, comment, expected)
}

/// The same with these definitions, and the edits that the question speaks of.
pub fn script_over(
    theory: &Theory<'_>,
    question: &Formula,
    comment: &str,
    expected: Option<Expected>,
) -> String {
    let ruleset = theory.ruleset();
    let cone = cone(theory, question);
    let mut script = Script {
        symbols: Symbols::new(ruleset),
        ruleset,
        text: String::new(),
        stated: Stated::Apart,
    };
    script.comment(comment);
    script.line("(set-info :smt-lib-version 2.6)");
    if let Some(expected) = expected {
        let status = match expected {
            Expected::Some => "sat",
            Expected::None => "unsat",
        };
        script.line(&format!("(set-info :status {status})"));
    }
    script.line("(set-logic QF_LIA)");
    script.comment("\nThe facts of a scenario.");
    for attribute in &cone.attributes {
        script.declare(*attribute);
    }
    script.comment("\nWhat the names stand for, each after what it rests on.");
    for (name, definition) in &cone.definitions {
        let symbol = script.symbols.name(*name);
        let body = script.formula(definition).to_text(2);
        script.line(&format!("(define-fun {symbol} () Bool\n  {body})"));
    }
    script.comment("\nWhat isn't asked has no value; it is pinned to no, zero, or the empty set.");
    for attribute in &cone.attributes {
        script.pin(*attribute);
    }
    script.comment("\nNo scenario breaks the background.");
    let possible = script.symbols.name(Name::Possible);
    script.line(&format!("(assert {possible})"));
    script.comment("\nThe question.");
    let body = script.formula(question).to_text(2);
    script.line(&format!("(assert\n  {body})"));
    script.line("(check-sat)");
    script.text
}

struct Script<'r> {
    ruleset: &'r Ruleset,
    symbols: Symbols<'r>,
    text: String,
    /// What names without a word of their own for a change mean.
    stated: Stated,
}

/// How names are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stated {
    /// Each world has symbols of its own.
    Apart,
    /// Names of any other world are those of the one that is changed.
    AsChanged,
    /// All names are those of the ruleset that is changed.
    AllChanged,
}

impl Script<'_> {
    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn comment(&mut self, words: &str) {
        for line in words.lines() {
            let line = format!("; {line}");
            self.line(if line == "; " { "" } else { &line });
        }
    }

    fn declare(&mut self, attribute: AttributeId) {
        let kind = &self.ruleset[attribute].kind;
        match kind {
            AttributeKind::YesNo => {
                let symbol = self.symbols.attribute(attribute);
                self.line(&format!("(declare-const {symbol} Bool)"));
            }
            AttributeKind::Several(items) => {
                for item in 0..items.len() {
                    let symbol = self.symbols.item(attribute, item);
                    self.line(&format!("(declare-const {symbol} Bool)"));
                }
            }
            AttributeKind::Choice(values) | AttributeKind::Scale(values) => {
                let codes = values.iter().enumerate();
                let codes: Vec<String> = codes
                    .map(|(code, value)| format!("{code} {}", value.name))
                    .collect();
                self.whole(attribute, &codes.join(", "));
            }
            AttributeKind::Number(range) => {
                let words = format!(
                    "{} + {} * the number, {}",
                    range.low, range.step, range.unit
                );
                self.whole(attribute, words.trim_end_matches(", "));
            }
        }
    }

    fn whole(&mut self, attribute: AttributeId, words: &str) {
        let symbol = self.symbols.attribute(attribute);
        let highest = highest_code(&self.ruleset[attribute].kind);
        self.comment(&format!("{}: {words}", self.ruleset[attribute].name));
        self.line(&format!("(declare-const {symbol} Int)"));
        self.line(&format!("(assert (<= 0 {symbol} {highest}))"));
    }

    fn pin(&mut self, attribute: AttributeId) {
        let Some(asked) = sometimes_asked(self.ruleset, attribute) else {
            return;
        };
        let asked = self.symbols.name(asked);
        match &self.ruleset[attribute].kind {
            AttributeKind::YesNo => {
                let symbol = self.symbols.attribute(attribute);
                self.line(&format!("(assert (=> {symbol} {asked}))"));
            }
            AttributeKind::Several(items) => {
                for item in 0..items.len() {
                    let symbol = self.symbols.item(attribute, item);
                    self.line(&format!("(assert (=> {symbol} {asked}))"));
                }
            }
            AttributeKind::Choice(_) | AttributeKind::Scale(_) | AttributeKind::Number(_) => {
                let symbol = self.symbols.attribute(attribute);
                self.line(&format!("(assert (or {asked} (= {symbol} 0)))"));
            }
        }
    }

    fn formula(&mut self, formula: &Formula) -> Term {
        match formula {
            Formula::True => Term::atom("true"),
            Formula::False => Term::atom("false"),
            Formula::Holds(test) => self.comparison(test, None),
            Formula::Fails(test) => self.comparison(test, Some("not")),
            Formula::Named(name) => Term::Atom(self.symbol(*name)),
            Formula::Not(part) => Term::apply("not", [self.formula(part)]),
            Formula::All(parts) => Term::apply("and", self.formulas(parts)),
            Formula::Any(parts) => Term::apply("or", self.formulas(parts)),
            Formula::AtLeast(least, parts) => at_least(*least, self.formulas(parts)),
        }
    }

    fn formulas(&mut self, parts: &[Formula]) -> Vec<Term> {
        parts.iter().map(|part| self.formula(part)).collect()
    }

    /// Everything that the comparison reads is asked, and it is so (or not so).
    fn comparison(&mut self, test: &Test, not: Option<&str>) -> Term {
        let attributes = test.attributes().into_iter();
        let asked = attributes.filter_map(|attribute| sometimes_asked(self.ruleset, attribute));
        let mut parts: Vec<Term> = asked
            .map(|name| Term::Atom(self.symbols.name(name)))
            .collect();
        let so = self.test(test);
        parts.push(match not {
            Some(not) => Term::apply(not, [so]),
            None => so,
        });
        Term::apply("and", parts)
    }

    fn test(&mut self, test: &Test) -> Term {
        match test {
            Test::OneOf { attribute, values } => self.one_of(*attribute, *values),
            Test::Within {
                attribute,
                low,
                high,
            } => {
                let value = Term::Atom(self.symbols.attribute(*attribute));
                Term::apply("<=", [Term::number(*low), value, Term::number(*high)])
            }
            Test::Same { left, right, pairs } => {
                let both = pairs.iter().map(|(one, other)| {
                    let is = [(left, one), (right, other)].map(|(attribute, value)| {
                        self.one_of(*attribute, ValueSet::one(usize::from(*value)))
                    });
                    Term::apply("and", is)
                });
                Term::apply("or", both.collect::<Vec<_>>())
            }
            Test::Linear(Linear { parts, bound }) => {
                let parts = parts.iter().map(|(weight, attribute)| {
                    let value = Term::Atom(self.symbols.attribute(*attribute));
                    Term::apply("*", [Term::number(*weight), value])
                });
                let sum = Term::apply("+", parts.collect::<Vec<_>>());
                Term::apply("<=", [sum, Term::number(*bound)])
            }
            Test::Several {
                attribute,
                items,
                least,
                most,
            } => {
                let present: Vec<Term> = items
                    .iter()
                    .map(|item| Term::Atom(self.symbols.item(*attribute, item)))
                    .collect();
                let count = u32::try_from(present.len()).unwrap_or(u32::MAX);
                let mut parts = Vec::new();
                if *most < count {
                    let over = at_least(most.saturating_add(1), present.clone());
                    parts.push(Term::apply("not", [over]));
                }
                if *least > 0 {
                    parts.push(at_least(*least, present));
                }
                Term::apply("and", parts)
            }
        }
    }

    fn one_of(&mut self, attribute: AttributeId, values: ValueSet) -> Term {
        let symbol = Term::Atom(self.symbols.attribute(attribute));
        let yes_no = self.ruleset[attribute].kind == AttributeKind::YesNo;
        let highest = highest_code(&self.ruleset[attribute].kind);
        let known = values
            .iter()
            .filter(|value| u64::try_from(*value).is_ok_and(|value| value <= highest));
        let is = known.map(|value| match (yes_no, value) {
            (true, 0) => Term::apply("not", [symbol.clone()]),
            (true, _) => symbol.clone(),
            (false, _) => Term::apply("=", [symbol.clone(), Term::Atom(value.to_string())]),
        });
        Term::apply("or", is.collect::<Vec<_>>())
    }
}

/// At least so many of the terms hold, as a sum of ones.
fn at_least(least: u32, parts: Vec<Term>) -> Term {
    let count = parts.len();
    match usize::try_from(least) {
        Ok(0) => Term::atom("true"),
        Ok(1) => Term::apply("or", parts),
        Ok(all) if all == count => Term::apply("and", parts),
        Ok(least) if least < count => {
            let ones = parts
                .into_iter()
                .map(|part| Term::apply("ite", [part, Term::atom("1"), Term::atom("0")]));
            let sum = Term::apply("+", ones.collect::<Vec<_>>());
            Term::apply("<=", [Term::Atom(least.to_string()), sum])
        }
        _ => Term::atom("false"),
    }
}

/// An S-expression.
#[derive(Clone)]
enum Term {
    Atom(String),
    List(Vec<Term>),
}

impl Term {
    fn atom(words: &str) -> Term {
        Term::Atom(words.to_owned())
    }

    fn number(value: i64) -> Term {
        if value < 0 {
            Term::List(vec![
                Term::atom("-"),
                Term::Atom(value.unsigned_abs().to_string()),
            ])
        } else {
            Term::Atom(value.to_string())
        }
    }

    /// An application; `and` and `or` of one part are that part, of none true and false.
    fn apply(operator: &str, parts: impl IntoIterator<Item = Term>) -> Term {
        let mut parts: Vec<Term> = parts.into_iter().collect();
        match (operator, parts.len()) {
            ("and" | "or" | "+", 1) => parts.remove(0),
            ("and", 0) => Term::atom("true"),
            ("or", 0) => Term::atom("false"),
            _ => {
                parts.insert(0, Term::atom(operator));
                Term::List(parts)
            }
        }
    }

    fn width(&self) -> usize {
        match self {
            Term::Atom(words) => words.chars().count(),
            Term::List(parts) => parts.iter().map(|part| part.width() + 1).sum::<usize>() + 1,
        }
    }

    /// On one line where it is short, else one part a line.
    fn to_text(&self, indent: usize) -> String {
        let mut text = String::new();
        self.write(indent, &mut text);
        text
    }

    fn write(&self, indent: usize, text: &mut String) {
        match self {
            Term::Atom(words) => text.push_str(words),
            Term::List(parts) => {
                let broken = self.width() + indent > 100;
                text.push('(');
                for (index, part) in parts.iter().enumerate() {
                    if index > 0 && broken {
                        let _ = write!(text, "\n{:indent$}", "", indent = indent + 2);
                    } else if index > 0 {
                        text.push(' ');
                    }
                    part.write(indent + 2, text);
                }
                text.push(')');
            }
        }
    }
}

/// Symbols in the ruleset's words, no two alike.
struct Symbols<'r> {
    ruleset: &'r Ruleset,
    known: BTreeMap<Thing, String>,
    taken: BTreeSet<String>,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Thing {
    Attribute(AttributeId),
    Item(AttributeId, usize),
    Name(Name),
    /// The same where a small change is made.
    Changed(Name),
}

impl<'r> Symbols<'r> {
    fn new(ruleset: &'r Ruleset) -> Self {
        Symbols {
            ruleset,
            known: BTreeMap::new(),
            taken: BTreeSet::new(),
        }
    }

    fn attribute(&mut self, attribute: AttributeId) -> String {
        let ruleset = self.ruleset;
        self.symbol(Thing::Attribute(attribute), || {
            let this = &ruleset[attribute];
            match this.origin {
                Origin::Stated => this.name.clone(),
                Origin::Reading(_) => format!("{} is read broadly", this.name),
            }
        })
    }

    fn item(&mut self, attribute: AttributeId, item: usize) -> String {
        let ruleset = self.ruleset;
        self.symbol(Thing::Item(attribute, item), || {
            let names = ruleset[attribute].kind.names();
            let name = names.get(item).map_or("", |value| value.name.as_str());
            format!("{} includes {name}", ruleset[attribute].name)
        })
    }

    fn name(&mut self, name: Name) -> String {
        let ruleset = self.ruleset;
        self.symbol(Thing::Name(name), || words(ruleset, name))
    }

    fn changed(&mut self, name: Name) -> String {
        let ruleset = self.ruleset;
        self.symbol(Thing::Changed(name), || {
            format!("changed: {}", words(ruleset, name))
        })
    }

    /// Clause ids are free text, so that two different things may read alike; the later one then
    /// gets a number.
    fn symbol(&mut self, thing: Thing, words: impl FnOnce() -> String) -> String {
        if let Some(known) = self.known.get(&thing) {
            return known.clone();
        }
        let printable = |letter: char| match letter {
            '|' | '\\' => '/',
            control if control.is_control() => ' ',
            other => other,
        };
        let words: String = words().chars().map(printable).collect();
        let mut symbol = format!("|{words}|");
        let mut number = 1usize;
        while !self.taken.insert(symbol.clone()) {
            number += 1;
            symbol = format!("|{words} ({number})|");
        }
        self.known.insert(thing, symbol.clone());
        symbol
    }
}

fn words(ruleset: &Ruleset, name: Name) -> String {
    let clause = |world, id: ClauseId, says: &str| {
        format!("{}{} {says}", without(ruleset, world), ruleset[id].id)
    };
    let dimension = |world, id: DimensionId, before: &str, after: &str| {
        let (world, name) = (without(ruleset, world), &ruleset[id].name);
        format!("{world}{before}{name}{after}")
    };
    let term = |unasked, id: TermId, says: &str| {
        let taken = match unasked {
            Unasked::Neither => "",
            Unasked::TakenAsNo => ", what isn't asked taken as no",
        };
        format!("{} is {says}{taken}", ruleset[id].name)
    };
    match name {
        Name::Asked(attribute) => match ruleset[attribute].origin {
            Origin::Stated => format!("{} is asked", ruleset[attribute].name),
            Origin::Reading(_) => format!("{} is open to reading", ruleset[attribute].name),
        },
        Name::Possible => "the background is kept".to_owned(),
        Name::TermTrue(unasked, id) => term(unasked, id, "true"),
        Name::TermFalse(unasked, id) => term(unasked, id, "false"),
        Name::Met(world, id) => clause(world, id, "is met"),
        Name::InForce(world, id) => clause(world, id, "is in force"),
        Name::Stands(world, id, on) => {
            clause(world, id, &format!("stands on {}", ruleset[on].name))
        }
        Name::Spoken(world, on) => dimension(world, on, "a clause speaks on ", ""),
        Name::Due(world, on) => dimension(world, on, "silence on ", " is a gap"),
        Name::Gap(world, on) => dimension(world, on, "there is a gap in ", ""),
        Name::Clash(world, on) => dimension(world, on, "rulings clash on ", ""),
        Name::Settled(world, on) => dimension(world, on, "", " is settled"),
        Name::Allowed(world, on, value) => {
            let values = &ruleset[on].values;
            let value = values
                .get(usize::from(value))
                .map_or("", |value| &value.name);
            dimension(world, on, "", &format!(" may be {value}"))
        }
    }
}

fn without(ruleset: &Ruleset, world: World) -> String {
    match world {
        World::Actual => String::new(),
        World::Without(clause) => format!("without {}: ", ruleset[clause].id),
        World::Edited(edit) => format!("with edit {}: ", edit.number()),
    }
}
