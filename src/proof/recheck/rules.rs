//! The rules of the language, said once more: for each question the clauses that must hold.
//!
//! This is written from the page on proofs, not from the code that makes records: three truth values
//! here, a pair of statements each ("it is true", "it is false"), where that code has two-valued
//! formulas; statements as plain trees, where that code has a shared net; names as text. It knows the
//! model and nothing of [`logic`](crate::logic), solvers or files. What the two say is compared clause by
//! clause, in words.

mod comparisons;
mod conditions;
mod pairs;
mod words;
mod worlds;

pub(super) use worlds::{asked_because, facts_read};

use super::principles::Chosen;
use super::statement::{Clause, Ledger, Statement};
use crate::model::{
    AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Meaning, Origin, Ruleset, TermId,
    ValueSet,
};
use crate::proof::Question;
use crate::read::draft::{BackgroundRule, WhenSeveral};
use std::collections::{BTreeMap, BTreeSet};
use worlds::{ChangeOfRules, Doubled, Reached, World};

/// What has a name in the rules.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Thing {
    /// An attribute has a value.
    HasValue(World, AttributeId),
    /// The background.
    Background,
    /// A term is true (or false), with the unasked taken as no or not.
    Term(World, TermId, Side, Unasked),
    /// A clause is met, is in force, stands.
    Met(World, ClauseId),
    InForce(World, ClauseId),
    Stands(World, ClauseId, DimensionId),
    Speaks(World, DimensionId),
    Due(World, DimensionId),
    Gap(World, DimensionId),
    Clash(World, DimensionId),
    MayBe(World, DimensionId, usize),
    Settled(World, DimensionId),
    /// A value of an attribute: yes, one of its names, a mark, an item.
    Value(World, AttributeId, i64),
    /// A sum of numbers, each with its weight, is at most so much.
    Sum(Vec<(i64, World, AttributeId)>, i64),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Side {
    True,
    False,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Unasked {
    Neither,
    No,
}

/// The clauses of a question.
///
/// # Errors
/// Where the rules have no clauses for it: a sum that is too large.
pub(super) fn clauses(ruleset: &Ruleset, question: &Question) -> Result<BTreeSet<Clause>, String> {
    let mut rules = Rules {
        ruleset,
        things: BTreeMap::new(),
        doubled: Doubled::default(),
        chosen: Chosen::new(),
        changes: Vec::new(),
        reached: BTreeMap::new(),
    };
    rules.lay_down_changes(question);
    if let Some(differing) = pairs::differing(ruleset, question) {
        rules.double(&differing);
    }
    let background = rules.thing(Thing::Background);
    let asked = rules.question(question);
    let mut ledger = Ledger::default();
    ledger.claim(&background);
    ledger.claim(&asked);
    let mut attributes: BTreeMap<(World, AttributeId), BTreeSet<i64>> = BTreeMap::new();
    while let Some(words) = ledger.next_open() {
        let Some(thing) = rules.things.get(&words).cloned() else {
            return Err(format!("`{words}` is nothing that the rules know"));
        };
        match thing {
            Thing::Value(world, attribute, mark) => {
                let marks = attributes.entry((world, attribute)).or_default();
                marks.insert(mark);
            }
            Thing::Sum(parts, bound) => {
                for clause in rules.sum(&words, &parts, bound)? {
                    ledger.add(clause);
                }
            }
            thing => {
                let meaning = rules.meaning(&thing);
                ledger.define(&words, &meaning);
            }
        }
    }
    for ((world, attribute), marks) in attributes {
        for clause in rules.of_attribute(world, attribute, &marks) {
            ledger.add(clause);
        }
    }
    Ok(ledger.finish())
}

struct Rules<'r> {
    ruleset: &'r Ruleset,
    /// What each name stands for.
    things: BTreeMap<String, Thing>,
    /// What stands twice, where the question is about two scenarios.
    doubled: Doubled,
    /// Rulings that are taken as chosen, for the moment: one value each, or none.
    chosen: Chosen,
    /// The changes that the question is about.
    changes: Vec<ChangeOfRules>,
    /// For each changed ruleset, the clauses and dimensions that may be others there.
    reached: BTreeMap<World, (BTreeSet<ClauseId>, BTreeSet<DimensionId>)>,
}

impl Rules<'_> {
    fn thing(&mut self, thing: Thing) -> Statement {
        let thing = self.once(thing);
        let words = self.words(&thing);
        self.things.entry(words.clone()).or_insert(thing);
        Statement::Name(words)
    }

    fn question(&mut self, question: &Question) -> Statement {
        let rules = self.ruleset;
        match question {
            Question::Scenario => Statement::Always,
            Question::Clash(dimension, told) => {
                let mut parts = vec![self.thing(Thing::Clash(World::Now, *dimension))];
                for family in told {
                    let stand = self.all_stand(family, *dimension);
                    parts.push(Statement::not(stand));
                }
                Statement::All(parts)
            }
            Question::Together(dimension, family) => {
                let stand = self.all_stand(family, *dimension);
                let clash = self.thing(Thing::Clash(World::Now, *dimension));
                Statement::All(vec![stand, clash])
            }
            Question::Gap(dimension) => self.thing(Thing::Gap(World::Now, *dimension)),
            Question::Open(dimension) => {
                if rules[*dimension].when_several == WhenSeveral::AllApply {
                    return Statement::Never;
                }
                let values = self.may_be(World::Now, *dimension);
                at_least(2, &values)
            }
            Question::Loose(term) => self.loose(*term),
            Question::OtherLoose(told) => {
                let terms = (0..rules.terms.len()).map(TermId::new);
                let others: Vec<TermId> = terms.filter(|term| !told.contains(term)).collect();
                Statement::Any(others.into_iter().map(|term| self.loose(term)).collect())
            }
            Question::Presupposes(clause) => self.presupposes(*clause),
            Question::OtherPresupposes(told) => {
                let clauses = (0..rules.clauses.len()).map(ClauseId::new);
                let others: Vec<ClauseId> = clauses.filter(|it| !told.contains(it)).collect();
                let each = others.into_iter().map(|clause| self.presupposes(clause));
                Statement::Any(each.collect())
            }
            Question::Any(several) => {
                Statement::Any(several.iter().map(|one| self.question(one)).collect())
            }
            Question::Met(clause) => self.thing(Thing::Met(World::Now, *clause)),
            Question::Counts(clause) => {
                let rulings = &rules[*clause].rulings;
                if rulings.is_empty() {
                    return self.thing(Thing::InForce(World::Now, *clause));
                }
                let stands = rulings
                    .iter()
                    .map(|(on, _)| Thing::Stands(World::Now, *clause, *on));
                Statement::Any(stands.map(|thing| self.thing(thing)).collect())
            }
            Question::Matters(clause) => {
                let another = self.another(World::Without(*clause));
                let met = self.thing(Thing::Met(World::Now, *clause));
                Statement::All(vec![met, another])
            }
            Question::Turns(_) => self.turns(),
            Question::Breaks(place) => match rules.principles.get(*place) {
                Some(principle) => self.breaks(&principle.promise),
                None => Statement::Never,
            },
            Question::TurnsOnReference(clause, _) => match self.changed_by(question) {
                // Whoever is not in force gives way to nobody and puts nobody behind.
                Some(changed) => {
                    let another = self.another(changed);
                    let in_force = self.thing(Thing::InForce(World::Now, *clause));
                    Statement::All(vec![in_force, another])
                }
                None => Statement::Never,
            },
            Question::TurnsOnPart(clause, _) => match self.changed_by(question) {
                Some(changed) => self.turns_on_part(*clause, changed),
                None => Statement::Never,
            },
        }
    }

    /// Some announced ruling is another in a changed ruleset.
    fn another(&mut self, world: World) -> Statement {
        let mut changes = Vec::new();
        for dimension in (0..self.ruleset.dimensions.len()).map(DimensionId::new) {
            let touched = self.is_reached(world, Reached::Dimension(dimension));
            if !self.ruleset[dimension].intermediate && touched {
                changes.extend(self.differs(dimension, world));
            }
        }
        Statement::Any(changes)
    }

    /// The clause is met with the one condition and not with the other; and an announced ruling is
    /// another, or the clause, not met before, is in force and something else is ruled than it says.
    fn turns_on_part(&mut self, clause: ClauseId, changed: World) -> Statement {
        let (now, then) = (Thing::Met(World::Now, clause), Thing::Met(changed, clause));
        let met_in_one = Statement::Any(self.one_of_both(now, then));
        let mut says_otherwise = Vec::new();
        for (dimension, said) in &self.ruleset[clause].rulings {
            let said = said
                .iter()
                .map(|value| self.thing(Thing::MayBe(changed, *dimension, value)));
            says_otherwise.push(Statement::not(Statement::Any(said.collect())));
        }
        let beside = Statement::All(vec![
            self.thing(Thing::InForce(changed, clause)),
            Statement::not(self.thing(Thing::Met(World::Now, clause))),
            Statement::Any(says_otherwise),
        ]);
        let another = self.another(changed);
        Statement::All(vec![met_in_one, Statement::Any(vec![another, beside])])
    }

    fn all_stand(&mut self, family: &[ClauseId], dimension: DimensionId) -> Statement {
        let stand = family
            .iter()
            .map(|clause| Thing::Stands(World::Now, *clause, dimension));
        Statement::All(stand.map(|thing| self.thing(thing)).collect())
    }

    fn loose(&mut self, term: TermId) -> Statement {
        let rules = self.ruleset;
        let Meaning::Vague { narrow, broad, .. } = &rules[term].meaning else {
            return Statement::Never;
        };
        let narrow = self.plain(narrow, World::Now);
        let broad = self.plain(broad, World::Now);
        Statement::All(vec![narrow.yes, Statement::not(broad.yes)])
    }

    fn presupposes(&mut self, clause: ClauseId) -> Statement {
        let rules = self.ruleset;
        let taken = self.truth(&rules[clause].when, Unasked::No, World::Now).yes;
        let met = self.thing(Thing::Met(World::Now, clause));
        Statement::All(vec![taken, Statement::not(met)])
    }

    /// Each thing that a ruling is told by, as it stands and not in another world, or the other way round.
    fn differs(&mut self, dimension: DimensionId, other: World) -> Vec<Statement> {
        let values = 0..self.ruleset[dimension].values.len();
        let mut told: Vec<Box<dyn Fn(World) -> Thing>> = Vec::new();
        for value in values {
            told.push(Box::new(move |world| Thing::MayBe(world, dimension, value)));
        }
        told.push(Box::new(move |world| Thing::Settled(world, dimension)));
        told.push(Box::new(move |world| Thing::Gap(world, dimension)));
        told.push(Box::new(move |world| Thing::Clash(world, dimension)));
        told.into_iter()
            .flat_map(|of| self.one_of_both(of(World::Now), of(other)))
            .collect()
    }

    /// The one and not the other, and the other way round.
    fn one_of_both(&mut self, one: Thing, other: Thing) -> Vec<Statement> {
        let (one, other) = (self.thing(one), self.thing(other));
        vec![
            Statement::All(vec![one.clone(), Statement::not(other.clone())]),
            Statement::All(vec![Statement::not(one), other]),
        ]
    }

    fn in_force(&mut self, world: World, clause: ClauseId) -> Statement {
        let world = self.here(world, Reached::Clause(clause));
        self.thing(Thing::InForce(world, clause))
    }

    fn stands(&mut self, world: World, clause: ClauseId, dimension: DimensionId) -> Statement {
        let world = self.here(world, Reached::Clause(clause));
        self.thing(Thing::Stands(world, clause, dimension))
    }

    /// The ruleset as it stands, where a change does not reach.
    fn here(&mut self, world: World, of: Reached) -> World {
        match world {
            World::Without(_) | World::Changed(_) if !self.is_reached(world, of) => World::Now,
            other => other,
        }
    }

    /// The same of the ruleset as it stands, of what a change of words does not reach.
    fn as_it_stands(&mut self, thing: &Thing) -> Option<Thing> {
        let (world, reached, plain) = match thing.clone() {
            Thing::Met(world, clause) => (
                world,
                Reached::Clause(clause),
                Thing::Met(World::Now, clause),
            ),
            Thing::InForce(world, clause) => (
                world,
                Reached::Clause(clause),
                Thing::InForce(World::Now, clause),
            ),
            Thing::Stands(world, clause, on) => (
                world,
                Reached::Clause(clause),
                Thing::Stands(World::Now, clause, on),
            ),
            Thing::Speaks(world, on) => {
                (world, Reached::Dimension(on), Thing::Speaks(World::Now, on))
            }
            Thing::Due(world, on) => (world, Reached::Dimension(on), Thing::Due(World::Now, on)),
            Thing::Gap(world, on) => (world, Reached::Dimension(on), Thing::Gap(World::Now, on)),
            Thing::Clash(world, on) => {
                (world, Reached::Dimension(on), Thing::Clash(World::Now, on))
            }
            Thing::Settled(world, on) => (
                world,
                Reached::Dimension(on),
                Thing::Settled(World::Now, on),
            ),
            Thing::MayBe(world, on, value) => (
                world,
                Reached::Dimension(on),
                Thing::MayBe(World::Now, on, value),
            ),
            Thing::HasValue(..)
            | Thing::Background
            | Thing::Term(..)
            | Thing::Value(..)
            | Thing::Sum(..) => return None,
        };
        let untouched = matches!(world, World::Changed(_)) && !self.is_reached(world, reached);
        untouched.then_some(plain)
    }

    fn may_be(&mut self, world: World, dimension: DimensionId) -> Vec<Statement> {
        let values = 0..self.ruleset[dimension].values.len();
        values
            .map(|value| self.thing(Thing::MayBe(world, dimension, value)))
            .collect()
    }

    /// The clauses that rule on a dimension, with what they allow.
    fn rule_on(&self, dimension: DimensionId) -> Vec<(ClauseId, ValueSet)> {
        let clauses = self.ruleset.clauses.iter().enumerate();
        clauses
            .filter_map(|(index, clause)| {
                let mut rulings = clause.rulings.iter();
                let (_, values) = rulings.find(|(on, _)| *on == dimension)?;
                Some((ClauseId::new(index), *values))
            })
            .collect()
    }

    fn meaning(&mut self, thing: &Thing) -> Statement {
        if let Some(plain) = self.as_it_stands(thing) {
            return self.thing(plain);
        }
        let rules = self.ruleset;
        match thing {
            Thing::Value(..) | Thing::Sum(..) => Statement::Never,
            Thing::HasValue(world, attribute) => match rules[*attribute].origin {
                Origin::Stated => match &rules[*attribute].asked_when {
                    Some(condition) => self.plain(condition, *world).yes,
                    None => Statement::Always,
                },
                // Between the readings: the broad one is true, the narrow one is not.
                Origin::Reading(term) => match &rules[term].meaning {
                    Meaning::Vague { narrow, broad, .. } => {
                        let narrow = self.plain(narrow, *world).yes;
                        let broad = self.plain(broad, *world).yes;
                        Statement::All(vec![Statement::not(narrow), broad])
                    }
                    Meaning::Sharp(_) => Statement::Never,
                },
            },
            // Of both scenarios, where there are two.
            Thing::Background => {
                let mut kept = Vec::new();
                for line in &rules.background {
                    for world in [World::Now, World::Second] {
                        kept.push(Statement::not(match &line.rule {
                            BackgroundRule::Never(condition) => self.plain(condition, world).yes,
                            BackgroundRule::Always(condition) => self.plain(condition, world).no,
                        }));
                    }
                }
                Statement::All(kept)
            }
            Thing::Term(world, term, side, unasked) => {
                let truth = self.term(*term, *unasked, *world);
                if *side == Side::True {
                    truth.yes
                } else {
                    truth.no
                }
            }
            Thing::Met(world, clause) if *world == World::Without(*clause) => Statement::Never,
            Thing::Met(world, clause) => {
                let mut when = rules[*clause].when.clone();
                if let World::Changed(place) = world
                    && let Some(change) = self.changes.get(*place)
                    && let Some((_, other)) = change.when.as_ref().filter(|(of, _)| of == clause)
                {
                    when = other.clone();
                }
                self.truth(&when, Unasked::Neither, *world).yes
            }
            Thing::InForce(world, clause) => {
                let mut parts = vec![self.thing(Thing::Met(*world, *clause))];
                let [off, _] = self.above(*world, *clause);
                for above in off {
                    parts.push(Statement::not(self.in_force(*world, above)));
                }
                Statement::All(parts)
            }
            Thing::Stands(world, clause, dimension) => {
                let mut parts = vec![self.thing(Thing::InForce(*world, *clause))];
                let [_, behind] = self.above(*world, *clause);
                for above in behind {
                    let mut on = rules[above].rulings.iter().map(|(on, _)| on);
                    if on.any(|on| on == dimension) {
                        parts.push(Statement::not(self.in_force(*world, above)));
                    }
                }
                Statement::All(parts)
            }
            Thing::Speaks(world, dimension) => {
                let mut parts = Vec::new();
                for (clause, _) in self.rule_on(*dimension) {
                    parts.push(self.in_force(*world, clause));
                }
                Statement::Any(parts)
            }
            Thing::Due(world, dimension) => {
                match (
                    &rules[*dimension].required_when,
                    rules[*dimension].otherwise,
                ) {
                    (Some(condition), _) => self.truth(condition, Unasked::Neither, *world).yes,
                    (None, None) => Statement::Always,
                    (None, Some(_)) => Statement::Never,
                }
            }
            Thing::Gap(world, dimension) => {
                let due = self.thing(Thing::Due(*world, *dimension));
                let speaks = self.thing(Thing::Speaks(*world, *dimension));
                Statement::All(vec![due, Statement::not(speaks)])
            }
            Thing::Clash(world, dimension) => {
                if rules[*dimension].when_several != WhenSeveral::MustAgree {
                    return Statement::Never;
                }
                let mut parts = vec![self.thing(Thing::Speaks(*world, *dimension))];
                let values = self.may_be(*world, *dimension);
                parts.extend(values.into_iter().map(Statement::not));
                Statement::All(parts)
            }
            Thing::MayBe(world, dimension, value) => self.comes_out(*world, *dimension, *value),
            Thing::Settled(world, dimension) => {
                if rules[*dimension].when_several == WhenSeveral::AllApply {
                    let speaks = self.thing(Thing::Speaks(*world, *dimension));
                    let default = match rules[*dimension].otherwise {
                        Some(_) => self.by_default(*world, *dimension),
                        None => Statement::Never,
                    };
                    return Statement::Any(vec![speaks, default]);
                }
                let values = self.may_be(*world, *dimension);
                let two = at_least(2, &values);
                Statement::All(vec![Statement::Any(values), Statement::not(two)])
            }
        }
    }

    fn by_default(&mut self, world: World, dimension: DimensionId) -> Statement {
        let speaks = self.thing(Thing::Speaks(world, dimension));
        let due = self.thing(Thing::Due(world, dimension));
        Statement::All(vec![Statement::not(speaks), Statement::not(due)])
    }

    /// Where a ruling may come out as a value: some standing clause proposes it and none is against it,
    /// or no clause speaks, none has to, and it is what holds otherwise.
    fn comes_out(&mut self, world: World, dimension: DimensionId, value: usize) -> Statement {
        let this = &self.ruleset[dimension];
        let (mut proposed, mut against) = (Vec::new(), Vec::new());
        for (clause, values) in self.rule_on(dimension) {
            let opposes = match this.when_several {
                WhenSeveral::MustAgree => !values.contains(value),
                WhenSeveral::Highest => values.iter().all(|other| other > value),
                WhenSeveral::Lowest => values.iter().all(|other| other < value),
                WhenSeveral::AllApply => false,
            };
            let stands = self.stands(world, clause, dimension);
            if values.contains(value) {
                proposed.push(stands.clone());
            }
            if opposes {
                against.push(stands);
            }
        }
        let spoken = Statement::All(vec![
            Statement::Any(proposed),
            Statement::not(Statement::Any(against)),
        ]);
        let default = match this.otherwise {
            Some(values) if values.contains(value) => self.by_default(world, dimension),
            _ => Statement::Never,
        };
        Statement::Any(vec![spoken, default])
    }
}

/// At least so many of some statements.
fn at_least(least: usize, of: &[Statement]) -> Statement {
    Statement::AtLeast(least, of.to_vec())
}

/// The dimensions whose rulings a condition reads.
fn reads(condition: &Condition) -> BTreeSet<DimensionId> {
    let mut found = BTreeSet::new();
    condition.each_part(&mut |part| {
        if let ConditionKind::Ruling { dimension, .. } = part.kind {
            found.insert(dimension);
        }
    });
    found
}
