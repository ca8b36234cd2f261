//! Several questions of one claim in one text: what they rest on is written down once, and each is asked
//! between `push` and `pop`.
//!
//! A question that compares the ruleset with a changed one (a clause left out, some of its words) needs
//! every definition twice. So that the text does not grow with each change that is asked about, the
//! second set of definitions makes a change that is itself an unknown, and each question says which.

use super::{Expected, Script, Stated, Symbols, Term, cone};
use crate::logic::{Formula, Name, Theory, World};
use crate::model::{ClauseId, DimensionId, Ruleset, Step};
use std::collections::{BTreeMap, BTreeSet};

/// The unknown that says which change is made.
const CHANGE: &str = "|the change that is made|";

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
    /// Is there a scenario in which the one thing holds, and the ruling on one of these dimensions is
    /// another in a changed ruleset, or the other thing holds?
    Changes {
        /// The changed ruleset.
        world: World,
        /// What has to hold.
        within: Formula,
        /// The dimensions.
        dimensions: Vec<DimensionId>,
        /// What does as well as another ruling.
        beside: Formula,
    },
}

/// Writes a claim down. The comment says in words what it is about.
pub fn claim(theory: &Theory<'_>, comment: &str, questions: &[Posed]) -> String {
    let ruleset = theory.ruleset();
    let mut all = Vec::new();
    let mut compared = BTreeSet::new();
    let mut changes: BTreeMap<ClauseId, Vec<(usize, World)>> = BTreeMap::new();
    for (question, number) in questions.iter().zip(1usize..) {
        match &question.asks {
            Asks::Holds(formula) => all.push(formula.clone()),
            Asks::Changes {
                world,
                within,
                dimensions,
                beside,
            } => {
                all.extend([within, beside].map(as_it_stands));
                for dimension in dimensions {
                    compared.insert(*dimension);
                    all.extend(told_by(ruleset, *dimension).map(Formula::from));
                }
                for origin in theory.origins(*world) {
                    if let Step::Clause(clause) = origin {
                        changes.entry(clause).or_default().push((number, *world));
                    }
                }
            }
        }
    }
    // Not `Formula::any`, which would drop the rest where one of them always holds.
    let cone = cone(theory, &Formula::Any(all));
    let mut script = Script {
        symbols: Symbols::new(ruleset),
        ruleset,
        text: String::new(),
        stated: Stated::AsChanged,
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
        script.define(*name, definition, &[]);
    }
    if !changes.is_empty() {
        script.comment(
            "\nThe same with a small change made to the rules. Each question says which: they are counted in the\n\
             order of the questions.",
        );
        script.line(&format!("(declare-const {CHANGE} Int)"));
        script.stated = Stated::AllChanged;
        for (name, definition) in cone.definitions.iter().filter(|(name, _)| ruled(*name)) {
            let (Name::Met(_, clause) | Name::InForce(_, clause) | Name::Stands(_, clause, _)) =
                name
            else {
                script.define(*name, definition, &[]);
                continue;
            };
            let own = changes.get(clause).map_or(&[][..], Vec::as_slice);
            let others: Vec<(usize, Formula)> = own
                .iter()
                .map(|(number, world)| (*number, theory.define(in_world(*name, *world))))
                .collect();
            script.define(*name, definition, &others);
        }
        script.stated = Stated::AsChanged;
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
    for (question, number) in questions.iter().zip(1usize..) {
        script.pose(question, number, questions.len() > 1);
    }
    script.text
}

/// A name in another world; what no change of rules touches is the same in all.
fn in_world(name: Name, world: World) -> Name {
    match name {
        Name::Asked(_) | Name::Possible | Name::TermTrue(..) | Name::TermFalse(..) => name,
        Name::Met(_, clause) => Name::Met(world, clause),
        Name::InForce(_, clause) => Name::InForce(world, clause),
        Name::Stands(_, clause, on) => Name::Stands(world, clause, on),
        Name::Spoken(_, on) => Name::Spoken(world, on),
        Name::Due(_, on) => Name::Due(world, on),
        Name::Gap(_, on) => Name::Gap(world, on),
        Name::Clash(_, on) => Name::Clash(world, on),
        Name::Allowed(_, on, value) => Name::Allowed(world, on, value),
        Name::Settled(_, on) => Name::Settled(world, on),
    }
}

/// The same of the ruleset as it stands.
fn as_it_stands(formula: &Formula) -> Formula {
    let each = |parts: &[Formula]| parts.iter().map(as_it_stands).collect();
    match formula {
        Formula::Named(name) => Formula::Named(in_world(*name, World::Actual)),
        Formula::Not(part) => Formula::Not(Box::new(as_it_stands(part))),
        Formula::All(parts) => Formula::All(each(parts)),
        Formula::Any(parts) => Formula::Any(each(parts)),
        Formula::AtLeast(least, parts) => Formula::AtLeast(*least, each(parts)),
        Formula::True | Formula::False | Formula::Holds(_) | Formula::Fails(_) => formula.clone(),
    }
}

/// Whether what a name says can depend on which clauses there are.
fn ruled(name: Name) -> bool {
    !matches!(
        name,
        Name::Asked(_) | Name::Possible | Name::TermTrue(..) | Name::TermFalse(..)
    )
}

impl Script<'_> {
    /// The symbol of a name, in the ruleset as it stands or in the one that is changed.
    pub(super) fn symbol(&mut self, name: Name) -> String {
        let plain = in_world(name, World::Actual);
        let changed = match self.stated {
            Stated::Apart => false,
            Stated::AsChanged => name != plain,
            Stated::AllChanged => ruled(name),
        };
        if changed {
            self.symbols.changed(plain)
        } else {
            self.symbols.name(name)
        }
    }

    /// Defines a name, which under some changes means something else.
    fn define(&mut self, name: Name, definition: &Formula, others: &[(usize, Formula)]) {
        let symbol = self.symbol(name);
        let mut body = self.formula(definition);
        let plain = body.to_text(0);
        for (number, other) in others {
            let other = self.formula(other);
            if other.to_text(0) != plain {
                body = Term::apply("ite", [made(*number), other, body]);
            }
        }
        let body = body.to_text(2);
        self.line(&format!("(define-fun {symbol} () Bool\n  {body})"));
    }

    fn change(&self, dimension: DimensionId) -> String {
        // No other symbol ends so, and a dimension's name is one word.
        format!("|changed: {} differs|", self.ruleset[dimension].name)
    }

    /// The ruling on a dimension is another where the change is made.
    fn define_change(&mut self, dimension: DimensionId) {
        let differ: Vec<Term> = told_by(self.ruleset, dimension)
            .map(|name| {
                let (one, other) = (self.symbols.name(name), self.symbols.changed(name));
                Term::apply("xor", [Term::Atom(one), Term::Atom(other)])
            })
            .collect();
        let symbol = self.change(dimension);
        let body = Term::apply("or", differ).to_text(2);
        self.line(&format!("(define-fun {symbol} () Bool\n  {body})"));
    }

    fn pose(&mut self, question: &Posed, number: usize, several: bool) {
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
            Asks::Changes {
                within,
                dimensions,
                beside,
                ..
            } => {
                let differ = dimensions
                    .iter()
                    .map(|dimension| Term::Atom(self.change(*dimension)));
                let mut ways: Vec<Term> = differ.collect();
                if *beside != Formula::False {
                    ways.push(self.formula(beside));
                }
                let within = self.formula(within);
                Term::apply("and", [made(number), within, Term::apply("or", ways)])
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

/// The change of this number is made.
fn made(number: usize) -> Term {
    Term::apply("=", [Term::atom(CHANGE), Term::Atom(number.to_string())])
}
