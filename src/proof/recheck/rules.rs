//! The rules of the language, said once more: for each question the clauses that must hold.
//!
//! This is written from the page on proofs, not from the code that makes records: three truth values
//! here, a pair of statements each ("it is true", "it is false"), where that code has two-valued
//! formulas; statements as plain trees, where that code has a shared net; names as text. It knows the
//! model and nothing of [`logic`](crate::logic), solvers or files. What the two say is compared clause by
//! clause, in words.

mod comparisons;
mod words;

use super::statement::{Clause, Ledger, Statement};
use crate::model::{
    AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Linear, Meaning, Origin, Ruleset,
    RulingTest, TermId, ValueSet,
};
use crate::proof::Question;
use crate::read::draft::{BackgroundRule, WhenSeveral};
use std::collections::{BTreeMap, BTreeSet};

/// What has a name in the rules.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Thing {
    /// An attribute has a value.
    HasValue(AttributeId),
    /// The background.
    Background,
    /// A term is true (or false), with the unasked taken as no or not.
    Term(TermId, Side, Unasked),
    /// A clause is met, is in force, stands, in the rules without a clause.
    Met(Left, ClauseId),
    InForce(Left, ClauseId),
    Stands(Left, ClauseId, DimensionId),
    Speaks(Left, DimensionId),
    Due(Left, DimensionId),
    Gap(Left, DimensionId),
    Clash(Left, DimensionId),
    MayBe(Left, DimensionId, usize),
    Settled(Left, DimensionId),
    /// A value of an attribute: yes, one of its names, a mark, an item.
    Value(AttributeId, i64),
    /// A sum.
    Sum(Linear),
}

/// Which clause is left out, if one is.
type Left = Option<ClauseId>;

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

/// That something is true, and that it is false; both fail where it is neither.
struct Truth {
    yes: Statement,
    no: Statement,
}

/// The clauses of a question.
///
/// # Errors
/// Where the rules have no clauses for it: a sum that is too large.
pub(super) fn clauses(ruleset: &Ruleset, question: &Question) -> Result<BTreeSet<Clause>, String> {
    let mut rules = Rules {
        ruleset,
        things: BTreeMap::new(),
        reached: BTreeMap::new(),
    };
    let background = rules.thing(Thing::Background);
    let asked = rules.question(question);
    let mut ledger = Ledger::default();
    ledger.claim(&background);
    ledger.claim(&asked);
    let mut attributes: BTreeMap<AttributeId, BTreeSet<i64>> = BTreeMap::new();
    while let Some(words) = ledger.next_open() {
        let Some(thing) = rules.things.get(&words).cloned() else {
            return Err(format!("`{words}` is nothing that the rules know"));
        };
        match thing {
            Thing::Value(attribute, mark) => {
                attributes.entry(attribute).or_default().insert(mark);
            }
            Thing::Sum(sum) => {
                for clause in rules.sum(&words, &sum)? {
                    ledger.add(clause);
                }
            }
            thing => {
                let meaning = rules.meaning(&thing);
                ledger.define(&words, &meaning);
            }
        }
    }
    for (attribute, marks) in attributes {
        for clause in rules.of_attribute(attribute, &marks) {
            ledger.add(clause);
        }
    }
    Ok(ledger.finish())
}

struct Rules<'r> {
    ruleset: &'r Ruleset,
    /// What each name stands for.
    things: BTreeMap<String, Thing>,
    /// For a clause that is left out, what depends on it.
    reached: BTreeMap<ClauseId, (BTreeSet<ClauseId>, BTreeSet<DimensionId>)>,
}

impl Rules<'_> {
    fn thing(&mut self, thing: Thing) -> Statement {
        let words = self.words(&thing);
        self.things.entry(words.clone()).or_insert(thing);
        Statement::Name(words)
    }

    fn question(&mut self, question: &Question) -> Statement {
        let rules = self.ruleset;
        match question {
            Question::Scenario => Statement::Always,
            Question::Clash(dimension, told) => {
                let mut parts = vec![self.thing(Thing::Clash(None, *dimension))];
                for family in told {
                    let stand = self.all_stand(family, *dimension);
                    parts.push(Statement::not(stand));
                }
                Statement::All(parts)
            }
            Question::Together(dimension, family) => {
                let stand = self.all_stand(family, *dimension);
                let clash = self.thing(Thing::Clash(None, *dimension));
                Statement::All(vec![stand, clash])
            }
            Question::Gap(dimension) => self.thing(Thing::Gap(None, *dimension)),
            Question::Open(dimension) => {
                if rules[*dimension].when_several == WhenSeveral::AllApply {
                    return Statement::Never;
                }
                let values = self.may_be(None, *dimension);
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
            Question::Met(clause) => self.thing(Thing::Met(None, *clause)),
            Question::Counts(clause) => {
                let rulings = &rules[*clause].rulings;
                if rulings.is_empty() {
                    return self.thing(Thing::InForce(None, *clause));
                }
                let stands = rulings
                    .iter()
                    .map(|(on, _)| Thing::Stands(None, *clause, *on));
                Statement::Any(stands.map(|thing| self.thing(thing)).collect())
            }
            Question::Matters(clause) => {
                let mut changes = Vec::new();
                for dimension in (0..rules.dimensions.len()).map(DimensionId::new) {
                    let touched = self.reach(*clause).1.contains(&dimension);
                    if !rules[dimension].intermediate && touched {
                        changes.extend(self.changes(dimension, *clause));
                    }
                }
                let met = self.thing(Thing::Met(None, *clause));
                Statement::All(vec![met, Statement::Any(changes)])
            }
        }
    }

    fn all_stand(&mut self, family: &[ClauseId], dimension: DimensionId) -> Statement {
        let stand = family
            .iter()
            .map(|clause| Thing::Stands(None, *clause, dimension));
        Statement::All(stand.map(|thing| self.thing(thing)).collect())
    }

    fn loose(&mut self, term: TermId) -> Statement {
        let rules = self.ruleset;
        let Meaning::Vague { narrow, broad, .. } = &rules[term].meaning else {
            return Statement::Never;
        };
        let (narrow, broad) = (self.plain(narrow), self.plain(broad));
        Statement::All(vec![narrow.yes, Statement::not(broad.yes)])
    }

    fn presupposes(&mut self, clause: ClauseId) -> Statement {
        let rules = self.ruleset;
        let taken = self.truth(&rules[clause].when, Unasked::No, None).yes;
        let met = self.thing(Thing::Met(None, clause));
        Statement::All(vec![taken, Statement::not(met)])
    }

    /// Each thing that a ruling is told by, in one of the two rulesets and not in the other.
    fn changes(&mut self, dimension: DimensionId, clause: ClauseId) -> Vec<Statement> {
        let values = 0..self.ruleset[dimension].values.len();
        let mut told: Vec<(Thing, Thing)> = Vec::new();
        let without = Some(clause);
        for value in values {
            told.push((
                Thing::MayBe(None, dimension, value),
                Thing::MayBe(without, dimension, value),
            ));
        }
        told.push((
            Thing::Settled(None, dimension),
            Thing::Settled(without, dimension),
        ));
        told.push((Thing::Gap(None, dimension), Thing::Gap(without, dimension)));
        told.push((
            Thing::Clash(None, dimension),
            Thing::Clash(without, dimension),
        ));
        let mut changes = Vec::new();
        for (with, without) in told {
            let (with, without) = (self.thing(with), self.thing(without));
            changes.push(Statement::All(vec![
                with.clone(),
                Statement::not(without.clone()),
            ]));
            changes.push(Statement::All(vec![Statement::not(with), without]));
        }
        changes
    }

    /// What changes if a clause is left out: whatever hangs on it, directly or not.
    fn reach(&mut self, clause: ClauseId) -> &(BTreeSet<ClauseId>, BTreeSet<DimensionId>) {
        let rules = self.ruleset;
        self.reached.entry(clause).or_insert_with(|| {
            let mut clauses = BTreeSet::from([clause]);
            let mut dimensions = BTreeSet::new();
            loop {
                let before = (clauses.len(), dimensions.len());
                for (index, this) in rules.clauses.iter().enumerate() {
                    let id = ClauseId::new(index);
                    if clauses.contains(&id) {
                        dimensions.extend(this.rulings.iter().map(|(dimension, _)| *dimension));
                    } else {
                        let below = this.disapplied_by.iter().chain(&this.yields_to);
                        let hangs = below.into_iter().any(|above| clauses.contains(above));
                        if hangs || reads(&this.when).iter().any(|it| dimensions.contains(it)) {
                            clauses.insert(id);
                        }
                    }
                }
                for (index, this) in rules.dimensions.iter().enumerate() {
                    let due = this.required_when.as_ref().map(reads).unwrap_or_default();
                    if due.iter().any(|read| dimensions.contains(read)) {
                        dimensions.insert(DimensionId::new(index));
                    }
                }
                if before == (clauses.len(), dimensions.len()) {
                    return (clauses, dimensions);
                }
            }
        })
    }

    fn in_force(&mut self, left: Left, clause: ClauseId) -> Statement {
        let left = left.filter(|out| self.reach(*out).0.contains(&clause));
        self.thing(Thing::InForce(left, clause))
    }

    fn stands(&mut self, left: Left, clause: ClauseId, dimension: DimensionId) -> Statement {
        let left = left.filter(|out| self.reach(*out).0.contains(&clause));
        self.thing(Thing::Stands(left, clause, dimension))
    }

    fn may_be(&mut self, left: Left, dimension: DimensionId) -> Vec<Statement> {
        let values = 0..self.ruleset[dimension].values.len();
        values
            .map(|value| self.thing(Thing::MayBe(left, dimension, value)))
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
        let rules = self.ruleset;
        match thing {
            Thing::Value(..) | Thing::Sum(_) => Statement::Never,
            Thing::HasValue(attribute) => match rules[*attribute].origin {
                Origin::Stated => match &rules[*attribute].asked_when {
                    Some(condition) => self.plain(condition).yes,
                    None => Statement::Always,
                },
                // Between the readings: the broad one is true, the narrow one is not.
                Origin::Reading(term) => match &rules[term].meaning {
                    Meaning::Vague { narrow, broad, .. } => {
                        let (narrow, broad) = (self.plain(narrow).yes, self.plain(broad).yes);
                        Statement::All(vec![Statement::not(narrow), broad])
                    }
                    Meaning::Sharp(_) => Statement::Never,
                },
            },
            Thing::Background => {
                let mut kept = Vec::new();
                for line in &rules.background {
                    kept.push(Statement::not(match &line.rule {
                        BackgroundRule::Never(condition) => self.plain(condition).yes,
                        BackgroundRule::Always(condition) => self.plain(condition).no,
                    }));
                }
                Statement::All(kept)
            }
            Thing::Term(term, side, unasked) => {
                let truth = self.term(*term, *unasked);
                if *side == Side::True {
                    truth.yes
                } else {
                    truth.no
                }
            }
            Thing::Met(left, clause) if *left == Some(*clause) => Statement::Never,
            Thing::Met(left, clause) => {
                self.truth(&rules[*clause].when, Unasked::Neither, *left)
                    .yes
            }
            Thing::InForce(left, clause) => {
                let mut parts = vec![self.thing(Thing::Met(*left, *clause))];
                for above in &rules[*clause].disapplied_by {
                    parts.push(Statement::not(self.in_force(*left, *above)));
                }
                Statement::All(parts)
            }
            Thing::Stands(left, clause, dimension) => {
                let mut parts = vec![self.thing(Thing::InForce(*left, *clause))];
                for above in &rules[*clause].yields_to {
                    let mut on = rules[*above].rulings.iter().map(|(on, _)| on);
                    if on.any(|on| on == dimension) {
                        parts.push(Statement::not(self.in_force(*left, *above)));
                    }
                }
                Statement::All(parts)
            }
            Thing::Speaks(left, dimension) => {
                let mut parts = Vec::new();
                for (clause, _) in self.rule_on(*dimension) {
                    parts.push(self.in_force(*left, clause));
                }
                Statement::Any(parts)
            }
            Thing::Due(left, dimension) => {
                match (
                    &rules[*dimension].required_when,
                    rules[*dimension].otherwise,
                ) {
                    (Some(condition), _) => self.truth(condition, Unasked::Neither, *left).yes,
                    (None, None) => Statement::Always,
                    (None, Some(_)) => Statement::Never,
                }
            }
            Thing::Gap(left, dimension) => {
                let due = self.thing(Thing::Due(*left, *dimension));
                let speaks = self.thing(Thing::Speaks(*left, *dimension));
                Statement::All(vec![due, Statement::not(speaks)])
            }
            Thing::Clash(left, dimension) => {
                if rules[*dimension].when_several != WhenSeveral::MustAgree {
                    return Statement::Never;
                }
                let mut parts = vec![self.thing(Thing::Speaks(*left, *dimension))];
                let values = self.may_be(*left, *dimension);
                parts.extend(values.into_iter().map(Statement::not));
                Statement::All(parts)
            }
            Thing::MayBe(left, dimension, value) => self.comes_out(*left, *dimension, *value),
            Thing::Settled(left, dimension) => {
                if rules[*dimension].when_several == WhenSeveral::AllApply {
                    let speaks = self.thing(Thing::Speaks(*left, *dimension));
                    let default = match rules[*dimension].otherwise {
                        Some(_) => self.by_default(*left, *dimension),
                        None => Statement::Never,
                    };
                    return Statement::Any(vec![speaks, default]);
                }
                let values = self.may_be(*left, *dimension);
                let two = at_least(2, &values);
                Statement::All(vec![Statement::Any(values), Statement::not(two)])
            }
        }
    }

    fn by_default(&mut self, left: Left, dimension: DimensionId) -> Statement {
        let speaks = self.thing(Thing::Speaks(left, dimension));
        let due = self.thing(Thing::Due(left, dimension));
        Statement::All(vec![Statement::not(speaks), Statement::not(due)])
    }

    /// Where a ruling may come out as a value: some standing clause proposes it and none is against it,
    /// or no clause speaks, none has to, and it is what holds otherwise.
    fn comes_out(&mut self, left: Left, dimension: DimensionId, value: usize) -> Statement {
        let this = &self.ruleset[dimension];
        let (mut proposed, mut against) = (Vec::new(), Vec::new());
        for (clause, values) in self.rule_on(dimension) {
            let opposes = match this.when_several {
                WhenSeveral::MustAgree => !values.contains(value),
                WhenSeveral::Highest => values.iter().all(|other| other > value),
                WhenSeveral::Lowest => values.iter().all(|other| other < value),
                WhenSeveral::AllApply => false,
            };
            let stands = self.stands(left, clause, dimension);
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
            Some(values) if values.contains(value) => self.by_default(left, dimension),
            _ => Statement::Never,
        };
        Statement::Any(vec![spoken, default])
    }

    /// The truth of a condition that reads no ruling, as the language has it.
    fn plain(&mut self, condition: &Condition) -> Truth {
        self.truth(condition, Unasked::Neither, None)
    }

    fn truth(&mut self, condition: &Condition, unasked: Unasked, left: Left) -> Truth {
        match &condition.kind {
            ConditionKind::Always => Truth {
                yes: Statement::Always,
                no: Statement::Never,
            },
            ConditionKind::Missing(_) => Truth {
                yes: Statement::Never,
                no: Statement::Never,
            },
            ConditionKind::Fact { test, positive } => {
                let so = self.comparison(test);
                let (so, other) = if *positive {
                    (so.clone(), Statement::not(so))
                } else {
                    (Statement::not(so.clone()), so)
                };
                let yes = self.where_asked(test, so);
                let no = match unasked {
                    Unasked::Neither => self.where_asked(test, other),
                    Unasked::No => Statement::not(yes.clone()),
                };
                Truth { yes, no }
            }
            ConditionKind::Ruling {
                dimension,
                test,
                positive,
            } => {
                let settled = self.thing(Thing::Settled(left, *dimension));
                let says = self.ruling(*dimension, test, left);
                let so = Statement::All(vec![settled.clone(), says.clone()]);
                let not_so = Statement::All(vec![settled, Statement::not(says)]);
                if *positive {
                    Truth {
                        yes: so,
                        no: not_so,
                    }
                } else {
                    Truth {
                        yes: not_so,
                        no: so,
                    }
                }
            }
            ConditionKind::Term(term) => Truth {
                yes: self.thing(Thing::Term(*term, Side::True, unasked)),
                no: self.thing(Thing::Term(*term, Side::False, unasked)),
            },
            ConditionKind::Not(inner) => {
                let inner = self.truth(inner, unasked, left);
                Truth {
                    yes: inner.no,
                    no: inner.yes,
                }
            }
            ConditionKind::NotTrue(inner) => {
                let inner = self.truth(inner, unasked, left);
                Truth {
                    yes: Statement::not(inner.yes.clone()),
                    no: inner.yes,
                }
            }
            ConditionKind::All(parts) => {
                let (yes, no) = self.truths(parts, unasked, left);
                Truth {
                    yes: Statement::All(yes),
                    no: Statement::Any(no),
                }
            }
            ConditionKind::Any(parts) => {
                let (yes, no) = self.truths(parts, unasked, left);
                Truth {
                    yes: Statement::Any(yes),
                    no: Statement::All(no),
                }
            }
            ConditionKind::Count { least, most, of } => {
                let (yes, no) = self.truths(of, unasked, left);
                let (least, most, all) = (*least as usize, *most as usize, of.len());
                // However the parts that are neither might fall.
                let enough = at_least(least, &yes);
                let not_more = at_least(all.saturating_sub(most), &no);
                let too_few = at_least((all + 1).saturating_sub(least), &no);
                let too_many = at_least(most.saturating_add(1), &yes);
                Truth {
                    yes: Statement::All(vec![enough, not_more]),
                    no: Statement::Any(vec![too_few, too_many]),
                }
            }
        }
    }

    fn truths(
        &mut self,
        parts: &[Condition],
        unasked: Unasked,
        left: Left,
    ) -> (Vec<Statement>, Vec<Statement>) {
        let truths = parts.iter().map(|part| self.truth(part, unasked, left));
        truths.map(|truth| (truth.yes, truth.no)).unzip()
    }

    fn term(&mut self, term: TermId, unasked: Unasked) -> Truth {
        let rules = self.ruleset;
        match &rules[term].meaning {
            Meaning::Sharp(condition) => self.truth(condition, unasked, None),
            Meaning::Vague {
                narrow,
                broad,
                reading,
            } => {
                let narrow = self.truth(narrow, unasked, None);
                let broad = self.truth(broad, unasked, None);
                let read = self.thing(Thing::Value(*reading, 1));
                let open = self.has_value(*reading);
                let taken = Statement::All(vec![open, read]);
                let between = |taken| Statement::All(vec![broad.yes.clone(), taken]);
                Truth {
                    yes: Statement::Any(vec![narrow.yes.clone(), between(taken.clone())]),
                    no: Statement::All(vec![
                        Statement::not(narrow.yes.clone()),
                        Statement::Any(vec![broad.no.clone(), between(Statement::not(taken))]),
                    ]),
                }
            }
        }
    }

    fn ruling(&mut self, dimension: DimensionId, test: &RulingTest, left: Left) -> Statement {
        let mut named = |values: &ValueSet| -> Vec<Statement> {
            let values = values.iter();
            values
                .map(|value| self.thing(Thing::MayBe(left, dimension, value)))
                .collect()
        };
        match test {
            RulingTest::OneOf(values) => Statement::Any(named(values)),
            RulingTest::Includes { items, least, most } => {
                let items = named(items);
                let over = at_least((*most as usize).saturating_add(1), &items);
                Statement::All(vec![
                    at_least(*least as usize, &items),
                    Statement::not(over),
                ])
            }
        }
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
