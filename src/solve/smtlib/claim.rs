//! Several questions of one claim in one text: what they rest on is written down once, and each is asked
//! between `push` and `pop`.
//!
//! A question about a ruleset without one of its clauses needs every definition twice. So that the
//! text does not grow with each clause that is asked about, the second set of definitions leaves out a
//! clause that is itself an unknown, and each question says which.

use super::{Expected, Script, Symbols, Term, cone};
use crate::logic::{Formula, Name, Theory, World};
use crate::model::{ClauseId, DimensionId, Ruleset};
use std::collections::BTreeSet;

/// The unknown that says which clause is left out.
const LEFT_OUT: &str = "|the clause that is left out|";

/// One question of a claim.
#[derive(Clone, Debug)]
pub struct Posed {
    /// What is asked, in words.
    pub words: String,
    /// What is asked.
    pub asks: Asks,
    /// What a solver is expected to answer.
    pub expected: Expected,
}

/// What one question asks.
#[derive(Clone, Debug)]
pub enum Asks {
    /// Is there a scenario in which this holds?
    Holds(Formula),
    /// Is there a scenario in which the clause is met, and the ruling on one of these dimensions would be
    /// another if it were not there?
    Matters {
        /// The clause.
        clause: ClauseId,
        /// The dimensions.
        dimensions: Vec<DimensionId>,
    },
}

/// Writes a claim down. The comment says in words what it is about.
pub fn claim(ruleset: &Ruleset, comment: &str, questions: &[Posed]) -> String {
    let theory = Theory::new(ruleset);
    let mut all = Vec::new();
    let mut compared = BTreeSet::new();
    for question in questions {
        match &question.asks {
            Asks::Holds(formula) => all.push(formula.clone()),
            Asks::Matters { clause, dimensions } => {
                all.push(Name::Met(World::Actual, *clause).into());
                for dimension in dimensions {
                    compared.insert(*dimension);
                    all.extend(told_by(ruleset, *dimension).map(Formula::from));
                }
            }
        }
    }
    // Not `Formula::any`, which would drop the rest where one of them always holds.
    let cone = cone(&theory, &Formula::Any(all));
    let mut script = Script {
        symbols: Symbols::new(ruleset),
        ruleset,
        text: String::new(),
        left_out: false,
    };
    script.comment(comment);
    script.line("(set-info :smt-lib-version 2.6)");
    script.line("(set-logic QF_LIA)");
    script.comment("\nThe facts of a scenario.");
    for attribute in &cone.attributes {
        script.declare(*attribute);
    }
    script.comment("\nWhat the names stand for, each after what it rests on.");
    for (name, definition) in &cone.definitions {
        script.define(*name, definition, None);
    }
    let left_out = questions
        .iter()
        .any(|it| matches!(it.asks, Asks::Matters { .. }));
    if left_out {
        script.comment(
            "\nThe same where one clause is not there. Each question says which: they are counted from 0 on in the\n\
             order of the ruleset.",
        );
        script.line(&format!("(declare-const {LEFT_OUT} Int)"));
        script.left_out = true;
        for (name, definition) in cone.definitions.iter().filter(|(name, _)| ruled(*name)) {
            let clause = match name {
                Name::Met(_, clause) => Some(*clause),
                _ => None,
            };
            script.define(*name, definition, clause);
        }
        script.left_out = false;
        for dimension in compared {
            script.define_change(dimension);
        }
    }
    script.comment("\nWhat isn't asked has no value; it is pinned to no, zero, or the empty set.");
    for attribute in &cone.attributes {
        script.pin(*attribute);
    }
    script.comment("\nNo scenario breaks the background.");
    let possible = script.symbols.name(Name::Possible);
    script.line(&format!("(assert {possible})"));
    for question in questions {
        script.pose(question, questions.len() > 1);
    }
    script.text
}

/// Whether what a name says can depend on which clauses there are.
fn ruled(name: Name) -> bool {
    !matches!(
        name,
        Name::Asked(_) | Name::Possible | Name::TermTrue(..) | Name::TermFalse(..)
    )
}

impl Script<'_> {
    /// The symbol of a name, in the ruleset as it stands or in the one without a clause.
    pub(super) fn symbol(&mut self, name: Name) -> String {
        if self.left_out && ruled(name) {
            self.symbols.left_out(name)
        } else {
            self.symbols.name(name)
        }
    }

    fn define(&mut self, name: Name, definition: &Formula, unless_left_out: Option<ClauseId>) {
        let symbol = self.symbol(name);
        let mut body = self.formula(definition);
        if let Some(clause) = unless_left_out {
            body = Term::apply("and", [Term::apply("not", [left_out(clause)]), body]);
        }
        let body = body.to_text(2);
        self.line(&format!("(define-fun {symbol} () Bool\n  {body})"));
    }

    fn change(&self, dimension: DimensionId) -> String {
        // No other symbol ends so, and a dimension's name is one word.
        format!("|one left out: {} changes|", self.ruleset[dimension].name)
    }

    /// The ruling on a dimension is another where the clause is left out.
    fn define_change(&mut self, dimension: DimensionId) {
        let differ: Vec<Term> = told_by(self.ruleset, dimension)
            .map(|name| {
                let (one, other) = (self.symbols.name(name), self.symbols.left_out(name));
                Term::apply("xor", [Term::Atom(one), Term::Atom(other)])
            })
            .collect();
        let symbol = self.change(dimension);
        let body = Term::apply("or", differ).to_text(2);
        self.line(&format!("(define-fun {symbol} () Bool\n  {body})"));
    }

    fn pose(&mut self, question: &Posed, several: bool) {
        self.comment(&format!(
            "\nIs there a scenario in which {}?",
            question.words
        ));
        if several {
            self.line("(push 1)");
        }
        let status = match question.expected {
            Expected::Some => "sat",
            Expected::None => "unsat",
        };
        self.line(&format!("(set-info :status {status})"));
        let body = match &question.asks {
            Asks::Holds(formula) => self.formula(formula),
            Asks::Matters { clause, dimensions } => {
                let changes = dimensions
                    .iter()
                    .map(|dimension| Term::Atom(self.change(*dimension)));
                let changes: Vec<Term> = changes.collect();
                let met = self.symbols.name(Name::Met(World::Actual, *clause));
                let parts = [
                    left_out(*clause),
                    Term::Atom(met),
                    Term::apply("or", changes),
                ];
                Term::apply("and", parts)
            }
        };
        let body = body.to_text(2);
        self.line(&format!("(assert\n  {body})"));
        self.line("(check-sat)");
        if several {
            self.line("(pop 1)");
        }
    }
}

/// The names by which a ruling is told.
fn told_by(ruleset: &Ruleset, on: DimensionId) -> impl Iterator<Item = Name> {
    let world = World::Actual;
    let values = 0..ruleset[on].values.len();
    let value = |value| u8::try_from(value).unwrap_or(u8::MAX);
    let allowed = values.map(move |index| Name::Allowed(world, on, value(index)));
    allowed.chain([
        Name::Settled(world, on),
        Name::Gap(world, on),
        Name::Clash(world, on),
    ])
}

fn left_out(clause: ClauseId) -> Term {
    let number = i64::try_from(clause.index()).unwrap_or(i64::MAX);
    Term::apply("=", [Term::atom(LEFT_OUT), Term::number(number)])
}
