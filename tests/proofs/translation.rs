//! The two translations into clauses: each is what the scenarios say, they agree, and a mistake in one
//! is noticed.

use super::{cases, loaded};
use evenhand::logic::{
    Formula, Name, Replay, Scenario, Theory, Unasked, World, highest_code, written,
};
use evenhand::model::{
    AttributeId, AttributeKind, ClauseId, Condition, ConditionKind, DimensionId, Origin, Promise,
    Ruleset, TermId, Unit,
};
use evenhand::proof::Question;
use evenhand::proof::dimacs::Cnf;
use evenhand::proof::prove::{Formal, Put, question_in_clauses, question_in_clauses_by};
use evenhand::proof::recheck::{Example, compare_with_rules, shows};
use evenhand::solve::scenarios;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

use super::support::random_ruleset;

/// Every question that can be asked of a ruleset, more or less.
fn questions(ruleset: &Ruleset) -> Vec<Question> {
    let clauses: Vec<ClauseId> = (0..ruleset.clauses.len()).map(ClauseId::new).collect();
    let mut all = vec![
        Question::Scenario,
        Question::OtherLoose(Vec::new()),
        Question::OtherPresupposes(Vec::new()),
        Question::OtherPresupposes(vec![ClauseId::new(0)]),
        Question::Any(
            clauses
                .iter()
                .map(|clause| Question::Matters(*clause))
                .collect(),
        ),
    ];
    for dimension in (0..ruleset.dimensions.len()).map(DimensionId::new) {
        all.extend([
            Question::Clash(dimension, Vec::new()),
            Question::Gap(dimension),
            Question::Open(dimension),
        ]);
        let speakers: Vec<ClauseId> = clauses
            .iter()
            .copied()
            .filter(|clause| ruleset[*clause].ruling_on(dimension).is_some())
            .collect();
        if let [first, .., last] = speakers.as_slice() {
            let family = vec![*first, *last];
            all.push(Question::Together(dimension, family.clone()));
            all.push(Question::Clash(dimension, vec![family]));
        }
    }
    for term in (0..ruleset.terms.len()).map(TermId::new) {
        all.extend([Question::Loose(term), Question::OtherLoose(vec![term])]);
    }
    for clause in clauses {
        all.extend([
            Question::Presupposes(clause),
            Question::Met(clause),
            Question::Counts(clause),
            Question::Matters(clause),
        ]);
        let mut ways = Vec::new();
        parts(&ruleset[clause].when, &mut Vec::new(), &mut ways);
        all.extend(
            ways.into_iter()
                .map(|way| Question::TurnsOnPart(clause, way)),
        );
        let references = 0..ruleset[clause].references.len();
        all.extend(references.map(|index| Question::TurnsOnReference(clause, index)));
    }
    let changes = all.iter().filter(|question| {
        matches!(
            question,
            Question::TurnsOnPart(..) | Question::TurnsOnReference(..)
        )
    });
    all.push(Question::Any(changes.take(3).cloned().collect()));
    let expectations = ruleset.principles.iter().enumerate();
    let expectations = expectations.filter(|(_, it)| matches!(it.promise, Promise::Expect { .. }));
    all.extend(expectations.map(|(place, _)| Question::Breaks(place)));
    all
}

/// The ways to all parts of a condition, itself first.
fn parts(condition: &Condition, way: &mut Vec<usize>, ways: &mut Vec<Vec<usize>>) {
    ways.push(way.clone());
    let within: Vec<&Condition> = match &condition.kind {
        ConditionKind::Not(part) | ConditionKind::NotTrue(part) => vec![part],
        ConditionKind::All(parts)
        | ConditionKind::Any(parts)
        | ConditionKind::Count { of: parts, .. } => parts.iter().collect(),
        _ => Vec::new(),
    };
    for (index, part) in within.into_iter().enumerate() {
        way.push(index);
        parts(part, way, ways);
        way.pop();
    }
}

/// Questions about two scenarios.
fn pair_questions(ruleset: &Ruleset) -> Vec<Question> {
    let judged = evenhand::analysis::asked::judged(ruleset);
    let mut all: Vec<Question> = judged.iter().map(|id| Question::Turns(vec![*id])).collect();
    all.push(Question::Turns(judged));
    let principles = ruleset.principles.iter().enumerate();
    let pairs = principles.filter(|(_, it)| !matches!(it.promise, Promise::Expect { .. }));
    all.extend(pairs.map(|(place, _)| Question::Breaks(place)));
    all
}

/// The facts of a scenario by the words of the clauses' variables, put together here from the page on
/// proofs. Of a second scenario each name says which.
fn facts(ruleset: &Ruleset, scenario: &Scenario, which: &str) -> BTreeMap<String, bool> {
    let mut facts = BTreeMap::new();
    for id in (0..ruleset.attributes.len()).map(AttributeId::new) {
        let this = &ruleset[id];
        let name = &format!("{}{which}", this.name);
        let value = scenario.get(id);
        let says = value.map(|code| written(ruleset, id, code).to_string());
        match this.origin {
            Origin::Stated => facts.insert(format!("{name} has a value"), value.is_some()),
            Origin::Reading(_) => {
                facts.insert(format!("{name} is open to reading"), value.is_some())
            }
        };
        match &this.kind {
            AttributeKind::YesNo => {
                let words = match this.origin {
                    Origin::Stated => name.clone(),
                    Origin::Reading(_) => format!("{name} is read broadly"),
                };
                facts.insert(words, says.as_deref() == Some("yes"));
            }
            AttributeKind::Choice(values) | AttributeKind::Scale(values) => {
                for value in values {
                    let is = says.as_ref() == Some(&value.name);
                    facts.insert(format!("{name} is {}", value.name), is);
                }
            }
            AttributeKind::Several(items) => {
                for (item, bit) in items.iter().zip(0..) {
                    let is = value.is_some_and(|code| code.0 >> bit & 1 == 1);
                    facts.insert(format!("{name} includes {}", item.name), is);
                }
            }
            AttributeKind::Number(range) => {
                let unit = match &range.unit {
                    Unit::None => String::new(),
                    Unit::Named(unit) => format!(" {unit}"),
                };
                for step in 1..=i64::try_from(highest_code(&this.kind)).unwrap() {
                    let is = value.is_some_and(|code| i64::try_from(code.0).unwrap() >= step);
                    facts.insert(format!("{name} at least {}{unit}", range.value(step)), is);
                }
            }
        }
    }
    facts
}

/// What follows from these values by one clause after another; `None` where they can't all hold. Every
/// variable must come out.
fn follow(cnf: &Cnf, given: &BTreeMap<String, bool>) -> Option<Vec<bool>> {
    let mut values: Vec<Option<bool>> = cnf
        .words
        .iter()
        .map(|words| given.get(words).copied())
        .collect();
    let variable = |literal: i32| usize::try_from(literal.unsigned_abs()).unwrap() - 1;
    loop {
        let mut news = false;
        for clause in &cnf.clauses {
            let open: Vec<i32> = clause
                .iter()
                .copied()
                .filter(|literal| values[variable(*literal)].is_none())
                .collect();
            let holds = clause
                .iter()
                .any(|literal| values[variable(*literal)] == Some(*literal > 0));
            match (holds, open.as_slice()) {
                (true, _) | (false, [_, _, ..]) => {}
                (false, []) => return None,
                (false, [only]) => {
                    values[variable(*only)] = Some(*only > 0);
                    news = true;
                }
            }
        }
        if !news {
            break;
        }
    }
    let whole: Vec<bool> = values
        .iter()
        .zip(&cnf.words)
        .map(|(value, words)| value.unwrap_or_else(|| panic!("nothing follows for {words}")))
        .collect();
    Some(whole)
}

proptest! {
    #![proptest_config(cases(16))]

    #[test]
    fn clauses_hold_together_in_the_scenarios_that_answer_and_in_no_other(
        yaml in random_ruleset::yaml(),
        skip in 0usize..40,
    ) {
        let Some((ruleset, _)) = loaded("random.yaml", &yaml) else { return Ok(()) };
        let all = questions(&ruleset);
        let in_clauses: Vec<Cnf> = all
            .iter()
            .map(|question| question_in_clauses(&ruleset, question).unwrap())
            .collect();
        let formal: Vec<Formal<'_>> =
            all.iter().map(|question| Formal::new(&ruleset, question)).collect();
        let put: Vec<Put<'_>> = formal.iter().map(Formal::put).collect();
        for scenario in scenarios(&ruleset).unwrap().skip(skip).step_by(40).take(12) {
            let facts = facts(&ruleset, &scenario, "");
            for ((question, cnf), put) in all.iter().zip(&in_clauses).zip(&put) {
                let replay = Replay::over(&ruleset, put.theory.edits(), &scenario);
                let answers = replay.holds(&put.asked);
                prop_assert_eq!(follow(cnf, &facts).is_some(), answers, "{:?}\n{}", question, yaml);
                let only_none = matches!(
                    question,
                    Question::OtherLoose(_) | Question::OtherPresupposes(_) | Question::Any(_)
                );
                if !only_none {
                    let example = Example::from(scenario.clone());
                    prop_assert_eq!(
                        shows(&ruleset, question, &example), answers, "{:?}\n{}", question, yaml
                    );
                }
            }
        }
    }

    #[test]
    fn clauses_hold_together_in_the_pairs_that_answer_and_in_no_other(
        yaml in random_ruleset::yaml(),
        skip in 0usize..40,
    ) {
        let Some((ruleset, _)) = loaded("random.yaml", &yaml) else { return Ok(()) };
        let all: Vec<Scenario> = scenarios(&ruleset).unwrap().skip(skip).take(3_000).collect();
        for question in pair_questions(&ruleset) {
            let cnf = question_in_clauses(&ruleset, &question).unwrap();
            let formal = Formal::new(&ruleset, &question);
            let put = formal.put();
            let twin = formal.twin().unwrap();
            for first in all.iter().step_by(97).take(6) {
                let mut tried = 0;
                for second in all.iter().step_by(1 + skip % 3) {
                    let count = ruleset.attributes.len();
                    let paired = twin.pairing().holds(first, second, count);
                    let example = Example { first: first.clone(), second: Some(second.clone()) };
                    let shown = shows(&ruleset, &question, &example);
                    if !paired {
                        prop_assert!(!shown, "{:?}\n{:?}\n{}", question, example, yaml);
                        continue;
                    }
                    tried += 1;
                    if tried > 12 {
                        break;
                    }
                    let both = twin.join(first, second);
                    let answers = Replay::new(twin.ruleset(), &both).holds(&put.asked);
                    prop_assert_eq!(shown, answers, "{:?}\n{:?}\n{}", question, example, yaml);
                    let mut known = facts(&ruleset, first, "");
                    known.extend(facts(&ruleset, second, " in the second"));
                    let hold = follow(&cnf, &known).is_some();
                    prop_assert_eq!(hold, answers, "{:?}\n{:?}\n{}", question, example, yaml);
                }
            }
        }
    }

    #[test]
    fn clauses_let_no_other_scenario_in(yaml in random_ruleset::yaml(), throws in any::<u64>()) {
        // Values that are no scenario: something isn't asked and has one, or the background is broken.
        let Some((ruleset, _)) = loaded("random.yaml", &yaml) else { return Ok(()) };
        let question = Question::OtherPresupposes(Vec::new());
        let cnf = question_in_clauses(&ruleset, &question).unwrap();
        let mut throws = throws;
        let always = |id: AttributeId| {
            ruleset[id].asked_when.is_none() && ruleset[id].origin == Origin::Stated
        };
        // Whether an attribute is asked shows in the clauses where they rest on it.
        let ids = (0..ruleset.attributes.len()).map(AttributeId::new);
        let all_told = ids.filter(|id| !always(*id)).all(|id| {
            let name = &ruleset[id].name;
            let told = [format!("{name} has a value"), format!("{name} is open to reading")];
            cnf.words.iter().any(|words| told.contains(words))
        });
        if !all_told {
            return Ok(());
        }
        for _ in 0..40 {
            let mut scenario = Scenario::unasked(ruleset.attributes.len());
            for id in (0..ruleset.attributes.len()).map(AttributeId::new) {
                throws = throws.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                let highest = highest_code(&ruleset[id].kind);
                let code = (throws >> 33) % (highest + if always(id) { 1 } else { 2 });
                scenario.set(id, (code <= highest).then_some(evenhand::logic::Code(code)));
            }
            if !evenhand::logic::is_valid(&ruleset, &scenario) {
                let facts = facts(&ruleset, &scenario, "");
                prop_assert_eq!(follow(&cnf, &facts), None, "{:?}\n{}", scenario, yaml);
            }
        }
    }

    #[test]
    fn both_translations_agree(yaml in random_ruleset::yaml()) {
        let Some((ruleset, _)) = loaded("random.yaml", &yaml) else { return Ok(()) };
        for question in questions(&ruleset).into_iter().chain(pair_questions(&ruleset)) {
            let cnf = question_in_clauses(&ruleset, &question).unwrap();
            let compared = compare_with_rules(&ruleset, &question, &cnf);
            prop_assert_eq!(compared, Ok(()), "{:?}\n{}", question, yaml);
        }
    }
}

/// Mistakes that could stand in one of the two: what a name would wrongly be taken to mean.
type Mistake = fn(&Theory<'_>, Name) -> Option<Formula>;

const MISTAKES: &[(&str, Mistake)] = &[
    ("whatever may not be asked is asked", |_, name| {
        matches!(name, Name::Asked(_)).then_some(Formula::True)
    }),
    ("the background is forgotten", |_, name| {
        (name == Name::Possible).then_some(Formula::True)
    }),
    (
        "a clause that is disapplied is in force",
        |_, name| match name {
            Name::InForce(world, clause) => Some(Name::Met(world, clause).into()),
            _ => None,
        },
    ),
    ("a clause that yields stands", |_, name| match name {
        Name::Stands(world, clause, _) => Some(Name::InForce(world, clause).into()),
        _ => None,
    }),
    ("only what stands speaks", |theory, name| match name {
        Name::Spoken(world, on) => Some(Formula::any(
            theory
                .speakers(on)
                .iter()
                .map(|it| Name::Stands(world, *it, on).into()),
        )),
        _ => None,
    }),
    (
        "silence is no gap where there is a default",
        |theory, name| match name {
            Name::Due(_, on) if theory.ruleset()[on].otherwise.is_some() => Some(Formula::False),
            _ => None,
        },
    ),
    ("two rulings are settled", |theory, name| match name {
        Name::Settled(world, on) => {
            let values = 0..u8::try_from(theory.ruleset()[on].values.len()).unwrap();
            Some(Formula::any(
                values.map(|value| Name::Allowed(world, on, value).into()),
            ))
        }
        _ => None,
    }),
    ("what is not true is false", |_, name| match name {
        Name::TermFalse(unasked, term) => {
            Some(Formula::from(Name::TermTrue(unasked, term)).negated())
        }
        _ => None,
    }),
    (
        "the unasked is neither where it is to be taken as no",
        |theory, name| match name {
            Name::TermTrue(Unasked::TakenAsNo, term) => {
                Some(theory.define(Name::TermTrue(Unasked::Neither, term)))
            }
            _ => None,
        },
    ),
    (
        "the clause left out is met all the same",
        |theory, name| match name {
            Name::Met(World::Without(_), clause) => {
                Some(theory.define(Name::Met(World::Actual, clause)))
            }
            _ => None,
        },
    ),
    ("an edit is forgotten", |theory, name| match name {
        Name::Met(World::Edited(_), clause) => {
            Some(theory.define(Name::Met(World::Actual, clause)))
        }
        _ => None,
    }),
    ("a reference stays", |theory, name| match name {
        Name::Stands(World::Edited(_), clause, on) => {
            Some(theory.define(Name::Stands(World::Actual, clause, on)))
        }
        _ => None,
    }),
    (
        "the second scenario breaks the background",
        |theory, name| {
            let Name::Possible = name else { return None };
            let definition = theory.define(name);
            let Formula::All(mut parts) = definition else {
                return None;
            };
            parts.pop();
            Some(Formula::all(parts))
        },
    ),
    (
        "values clash where nobody speaks",
        |theory, name| match name {
            Name::Clash(world, on) => {
                let values = 0..u8::try_from(theory.ruleset()[on].values.len()).unwrap();
                let allowed = values.map(|value| Name::Allowed(world, on, value).into());
                Some(Formula::any(allowed).negated())
            }
            _ => None,
        },
    ),
];

/// The clauses in words, so that two ways of counting variables do not matter.
fn in_words(cnf: &Cnf) -> BTreeSet<Vec<String>> {
    let words = cnf.clauses.iter().map(|clause| {
        let mut words: Vec<String> = clause.iter().map(|it| cnf.literal_words(*it)).collect();
        words.sort();
        words
    });
    words.collect()
}

#[test]
fn a_mistake_in_one_translation_is_noticed() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let mut noticed: BTreeMap<&str, usize> = BTreeMap::new();
    for _ in 0..200 {
        if noticed.len() == MISTAKES.len() {
            break;
        }
        let yaml = random_ruleset::yaml()
            .new_tree(&mut runner)
            .unwrap()
            .current();
        let Some((ruleset, _)) = loaded("random.yaml", &yaml) else {
            continue;
        };
        for question in questions(&ruleset)
            .into_iter()
            .chain(pair_questions(&ruleset))
        {
            // Three times is often enough for each.
            let seldom = |mistake: &str| noticed.get(mistake).copied().unwrap_or(0) < 3;
            let open = MISTAKES.iter().filter(|(mistake, _)| seldom(mistake));
            let open: Vec<&(&str, Mistake)> = open.collect();
            let right = in_words(&question_in_clauses(&ruleset, &question).unwrap());
            for (mistake, plant) in open {
                let define = |theory: &Theory<'_>, name| {
                    plant(theory, name).unwrap_or_else(|| theory.define(name))
                };
                let wrong = question_in_clauses_by(&ruleset, &question, &define).unwrap();
                if in_words(&wrong) != right {
                    let compared = compare_with_rules(&ruleset, &question, &wrong);
                    assert!(compared.is_err(), "{mistake}: {question:?}\n{yaml}");
                    *noticed.entry(mistake).or_default() += 1;
                }
            }
        }
    }
    for (mistake, _) in MISTAKES {
        let times = noticed.get(mistake).copied().unwrap_or(0);
        assert!(times > 0, "never planted to any effect: {mistake}");
    }
}
