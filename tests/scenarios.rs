//! Scenarios that teach, held against plain loops over all scenarios of small rulesets, and against
//! numbers that this project did not make.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::format_push_string,
    reason = "a test says what went wrong by failing"
)]

mod common;
mod support;

use common::{load, load_text};
use evenhand::logic::{
    Evaluator, Outcome, Pairing, Scenario, attributes_asked_by, attributes_read, is_valid,
    same_ruling,
};
use evenhand::model::{AttributeId, ClauseId, Condition, ConditionKind, DimensionId, Ruleset};
use evenhand::scenario::{
    Bearing, Contrast, Entry, NoPair, Nothing, Parts, Request, Sort, Telling, is_independent,
    telling,
};
use evenhand::solve::{Budget, scenarios};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::num::NonZeroUsize;

/// Rulesets with more scenarios have too many pairs to try.
const MOST: usize = 120;

fn told(ruleset: &Ruleset, sorts: &[Sort]) -> Telling {
    let request = Request {
        sorts: sorts.to_vec(),
        ..Request::default()
    };
    telling(ruleset, &request, &Budget::unlimited())
}

/// All scenarios with what is said of them.
fn all(ruleset: &Ruleset) -> Vec<(Scenario, Outcome)> {
    let evaluator = Evaluator::new(ruleset);
    scenarios(ruleset)
        .unwrap()
        .map(|scenario| {
            let said = evaluator.outcome(&scenario);
            (scenario, said)
        })
        .collect()
}

fn announced_differ(ruleset: &Ruleset, one: &Outcome, other: &Outcome) -> bool {
    (0..ruleset.dimensions.len()).any(|index| {
        !ruleset[DimensionId::new(index)].intermediate
            && !same_ruling(one.rulings[index], other.rulings[index])
    })
}

fn counts(ruleset: &Ruleset, clause: ClauseId, said: &Outcome) -> bool {
    let rulings = &ruleset[clause].rulings;
    said.in_force.contains(clause.index())
        && (rulings.is_empty() || rulings.iter().any(|(on, _)| said.stands(clause, *on)))
}

fn reads_rulings(condition: &Condition) -> bool {
    let mut found = false;
    condition.each_part(&mut |part| found |= matches!(part.kind, ConditionKind::Ruling { .. }));
    found
}

fn read_by(ruleset: &Ruleset, condition: &Condition) -> BTreeSet<AttributeId> {
    let every = || (0..ruleset.attributes.len()).map(AttributeId::new);
    if reads_rulings(condition) {
        return every().collect();
    }
    let mut open: Vec<AttributeId> = attributes_read(ruleset, condition)
        .ones()
        .map(AttributeId::new)
        .collect();
    let mut found = BTreeSet::new();
    while let Some(id) = open.pop() {
        if found.insert(id) {
            open.extend(
                attributes_asked_by(ruleset, id)
                    .ones()
                    .map(AttributeId::new),
            );
        }
    }
    found
}

/// These attributes and whatever the background couples them with.
fn coupled(ruleset: &Ruleset, mut found: BTreeSet<AttributeId>) -> BTreeSet<AttributeId> {
    loop {
        let before = found.len();
        for line in &ruleset.background {
            let (evenhand::read::draft::BackgroundRule::Never(condition)
            | evenhand::read::draft::BackgroundRule::Always(condition)) = &line.rule;
            let read = read_by(ruleset, condition);
            if !read.is_disjoint(&found) {
                found.extend(read);
            }
        }
        if found.len() == before {
            return found;
        }
    }
}

/// What a plain loop over all pairs says of a part of a condition.
#[derive(Debug, PartialEq, Eq)]
enum Expected {
    OneFact,
    Masked,
    NothingTurnsOnIt,
    Surplus,
}

fn expected(
    ruleset: &Ruleset,
    all: &[(Scenario, Outcome)],
    clause: ClauseId,
    parts: &Parts,
    index: usize,
) -> Expected {
    let evaluator = Evaluator::new(ruleset);
    let part = &parts.parts[index];
    let of = |wanted: Bearing| -> Vec<&(Scenario, Outcome)> {
        let fits = |(scenario, said): &&(Scenario, Outcome)| {
            let met = said.met.contains(clause.index());
            part.bearing(evaluator, scenario, said, met) == wanted
        };
        all.iter().filter(fits).collect()
    };
    let (carry, fail) = (of(Bearing::Carries), of(Bearing::Fails));
    if carry.is_empty() || fail.is_empty() {
        return Expected::Surplus;
    }
    let single: Vec<Pairing> = (0..ruleset.attributes.len())
        .map(|id| Pairing::changing(ruleset, BTreeSet::from([AttributeId::new(id)])))
        .collect();
    let wide = Pairing::changing(ruleset, coupled(ruleset, read_by(ruleset, &parts.whole)));
    let attributes = ruleset.attributes.len();
    let mut masked = false;
    for first in carry
        .iter()
        .filter(|(_, said)| counts(ruleset, clause, said))
    {
        let truths = parts.truths(evaluator, &first.0, &first.1);
        for second in &fail {
            if !announced_differ(ruleset, &first.1, &second.1) {
                continue;
            }
            masked |= wide.holds(&first.0, &second.0, attributes);
            let others = parts.truths(evaluator, &second.0, &second.1);
            let agree = (0..truths.len()).all(|at| at == index || truths[at] == others[at]);
            if agree
                && single
                    .iter()
                    .any(|it| it.holds(&first.0, &second.0, attributes))
            {
                return Expected::OneFact;
            }
        }
    }
    if masked {
        Expected::Masked
    } else {
        Expected::NothingTurnsOnIt
    }
}

/// Holds what was found for every part of every clause to the plain loop.
fn hold_parts(ruleset: &Ruleset) {
    let all = all(ruleset);
    let told = told(ruleset, &[Sort::Parts]);
    let mut found: BTreeMap<(ClauseId, usize), Expected> = BTreeMap::new();
    let evaluator = Evaluator::new(ruleset);
    for entry in &told.entries {
        let Entry::Pair(pair, also) = entry else {
            panic!("only pairs were asked for")
        };
        let (said, other) = (
            evaluator.outcome(&pair.first),
            evaluator.outcome(&pair.second),
        );
        assert!(is_valid(ruleset, &pair.first) && is_valid(ruleset, &pair.second));
        assert!(
            announced_differ(ruleset, &said, &other),
            "the rulings differ"
        );
        for contrast in std::iter::once(&pair.contrast).chain(also) {
            let (clause, part, kind) = match contrast {
                Contrast::OneFact { clause, part } => (*clause, *part, Expected::OneFact),
                Contrast::Masked { clause, part } => (*clause, *part, Expected::Masked),
            };
            // What one pair also shows may have the two the other way round.
            let met = said.met.contains(clause.index());
            let (first, second) = if met {
                ((&pair.first, &said), (&pair.second, &other))
            } else {
                ((&pair.second, &other), (&pair.first, &said))
            };
            assert!(counts(ruleset, clause, first.1));
            assert!(!second.1.met.contains(clause.index()));
            if kind == Expected::OneFact {
                let parts = &told.parts[&clause];
                assert!(is_independent(parts, part, evaluator, first, second));
                let one = (0..ruleset.attributes.len()).any(|id| {
                    Pairing::changing(ruleset, BTreeSet::from([AttributeId::new(id)])).holds(
                        first.0,
                        second.0,
                        ruleset.attributes.len(),
                    )
                });
                assert!(one, "one fact differs, and what is asked because of it");
            }
            found.insert((clause, part), kind);
        }
    }
    for nothing in &told.nothing {
        if let Nothing::Part(clause, part, reason) = nothing {
            let kind = match reason {
                NoPair::Surplus => Expected::Surplus,
                NoPair::NothingTurnsOnIt => Expected::NothingTurnsOnIt,
                NoPair::Undecided(reason) => panic!("undecided: {reason}"),
            };
            assert!(found.insert((*clause, *part), kind).is_none());
        }
    }
    for (clause, parts) in &told.parts {
        for index in 0..parts.parts.len() {
            let expected = expected(ruleset, &all, *clause, parts, index);
            assert_eq!(
                found.get(&(*clause, index)),
                Some(&expected),
                "clause {}, part {index}: {}",
                ruleset[*clause].id,
                parts.parts[index].words(ruleset),
            );
        }
    }
    let pairs: Vec<BTreeSet<&Scenario>> = told
        .entries
        .iter()
        .map(|entry| entry.scenarios().into_iter().collect())
        .collect();
    let distinct: BTreeSet<&BTreeSet<&Scenario>> = pairs.iter().collect();
    assert_eq!(pairs.len(), distinct.len(), "no two alike");
}

/// Holds thresholds and grey zones to plain loops.
fn hold_turns(ruleset: &Ruleset) {
    let all = all(ruleset);
    let attributes = ruleset.attributes.len();
    let turns = |id: AttributeId, test: &dyn Fn(&Scenario, &Scenario) -> bool| {
        let pairing = Pairing::changing(ruleset, BTreeSet::from([id]));
        all.iter().any(|(first, said)| {
            all.iter().any(|(second, other)| {
                test(first, second)
                    && pairing.holds(first, second, attributes)
                    && announced_differ(ruleset, said, other)
            })
        })
    };
    let told = told(ruleset, &[Sort::Thresholds, Sort::Grey]);
    let at_step = |id: AttributeId, at: u64| {
        turns(id, &|first, second| {
            first.get(id).map(|code| code.0 + 1) == Some(at)
                && second.get(id).map(|code| code.0) == Some(at)
        })
    };
    let read_both_ways = |id: AttributeId| {
        turns(id, &|first, second| {
            first.get(id).map(|code| code.0) == Some(0)
                && second.get(id).map(|code| code.0) == Some(1)
        })
    };
    let reading = |term: evenhand::model::TermId| match &ruleset[term].meaning {
        evenhand::model::Meaning::Vague { reading, .. } => *reading,
        evenhand::model::Meaning::Sharp(_) => panic!("a sharp term has no grey zone"),
    };
    for entry in &told.entries {
        let evaluator = Evaluator::new(ruleset);
        let scenarios = entry.scenarios();
        assert!(scenarios.iter().all(|scenario| is_valid(ruleset, scenario)));
        let outcomes: Vec<Outcome> = scenarios.iter().map(|it| evaluator.outcome(it)).collect();
        assert!(announced_differ(ruleset, &outcomes[0], &outcomes[1]));
        match entry {
            Entry::Threshold(it) => {
                assert_eq!(it.on.get(it.attribute), Some(it.at));
                assert_eq!(
                    it.below.get(it.attribute).map(|code| code.0 + 1),
                    Some(it.at.0)
                );
                let above = it.above.as_ref().and_then(|above| above.get(it.attribute));
                assert!(above.is_none_or(|above| above.0 == it.at.0 + 1));
            }
            Entry::Grey(it) => assert!(read_both_ways(reading(it.term))),
            other => panic!("nobody asked for {other:?}"),
        }
    }
    for nothing in &told.nothing {
        match nothing {
            Nothing::Threshold(id, at) => assert!(!at_step(*id, at.0), "{id:?} {at:?}"),
            Nothing::Grey(term) => assert!(!read_both_ways(reading(*term))),
            other => panic!("nobody asked for {other:?}"),
        }
    }
}

/// Holds a covering set to a plain loop over all combinations of values.
fn hold_covering(ruleset: &Ruleset, strength: usize) {
    let request = Request {
        covering: Some(strength),
        ..Request::default()
    };
    let told = telling(ruleset, &request, &Budget::unlimited());
    let covering = told.covering.unwrap().unwrap();
    assert_eq!(covering.open, Vec::<Vec<evenhand::scenario::Value>>::new());
    let all = all(ruleset);
    let parameters = ruleset.attributes.iter().map(|it| match &it.kind {
        _ if it.origin != evenhand::model::Origin::Stated => 0,
        evenhand::model::AttributeKind::Several(items) => items.len(),
        _ => 1,
    });
    // With fewer parameters, all of them are combined.
    let strength = strength.min(parameters.sum());
    // A combination of values of different attributes that some scenario has must be in the set.
    let stated = |scenario: &Scenario| -> Vec<(AttributeId, u64, u64)> {
        let facts = scenario
            .facts()
            .filter(|(id, _)| ruleset[*id].origin == evenhand::model::Origin::Stated);
        facts
            .flat_map(|(id, code)| cells(ruleset, id, code.0))
            .collect()
    };
    let tuples = |scenario: &Scenario| -> BTreeSet<Vec<(AttributeId, u64, u64)>> {
        let facts = stated(scenario);
        let mut found = BTreeSet::from([Vec::new()]);
        for fact in facts {
            let longer: Vec<Vec<(AttributeId, u64, u64)>> = found
                .iter()
                .filter(|tuple: &&Vec<_>| tuple.len() < strength)
                .map(|tuple| tuple.iter().copied().chain([fact]).collect())
                .collect();
            found.extend(longer);
        }
        found.retain(|tuple| tuple.len() == strength);
        found
    };
    let occurring: BTreeSet<Vec<(AttributeId, u64, u64)>> = all
        .iter()
        .flat_map(|(scenario, _)| tuples(scenario))
        .collect();
    let covered: BTreeSet<Vec<(AttributeId, u64, u64)>> =
        covering.scenarios.iter().flat_map(tuples).collect();
    assert!(
        covering
            .scenarios
            .iter()
            .all(|scenario| is_valid(ruleset, scenario))
    );
    let missing: Vec<_> = occurring.difference(&covered).collect();
    assert!(missing.is_empty(), "{missing:?}");
    assert_eq!(covering.covered, occurring.len());
    for tuple in &covering.impossible {
        let has = |scenario: &Scenario| {
            tuple.iter().all(|value| {
                let Some(code) = scenario.get(value.attribute) else {
                    return false;
                };
                match value.item {
                    Some(item) => code.0 >> item & 1 == value.code.0,
                    None => (value.code.0..=value.to.0).contains(&code.0),
                }
            })
        };
        assert!(!all.iter().any(|(scenario, _)| has(scenario)), "{tuple:?}");
    }
}

/// The values of an attribute as a covering set counts them: an item each of a `several`, the range
/// of a number, by the lowest step in it.
fn cells(ruleset: &Ruleset, id: AttributeId, code: u64) -> Vec<(AttributeId, u64, u64)> {
    use evenhand::logic::{Layers, Part};
    if let evenhand::model::AttributeKind::Several(items) = &ruleset[id].kind {
        return (0..items.len() as u64)
            .map(|item| (id, item, code >> item & 1))
            .collect();
    }
    let layers = Layers::new(ruleset);
    let layer = &layers.all()[layers.of(id).start];
    let value = match &layer.part {
        Part::Steps { ranges, .. } => {
            let within =
                |(low, high): &&(i64, i64)| (*low..=*high).contains(&i64::try_from(code).unwrap());
            u64::try_from(ranges.iter().find(within).unwrap().0).unwrap()
        }
        _ => code,
    };
    vec![(id, u64::MAX, value)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn scenarios_of_small_rulesets_are_what_plain_loops_say(text in support::random_ruleset::yaml()) {
        let Ok(ruleset) = load_text("random.yaml", &text) else { return Ok(()) };
        let Some(all) = scenarios(&ruleset) else { return Ok(()) };
        let number = all.take(MOST + 1).count();
        if number == 0 || number > MOST {
            return Ok(());
        }
        hold_parts(&ruleset);
        hold_turns(&ruleset);
        let summed = (0..ruleset.attributes.len())
            .any(|id| evenhand::logic::Layers::new(&ruleset).is_summed(AttributeId::new(id)));
        if !summed {
            hold_covering(&ruleset, 2);
            hold_covering(&ruleset, 3);
        }
    }
}

/// A covering suite with constraints that the public documentation of a covering-array tool works
/// through: 70 of 160 combinations are valid, 69 pairs can be covered and 13 cannot, and no suite has
/// fewer than 21 rows (numbers from memory, recomputed here but for the last).
#[test]
fn a_constrained_suite_covers_what_can_be_covered() {
    let ruleset = load_text(
        "suite.yaml",
        "ruleset: A suite with constraints\n\
         attributes:\n  p:\n    choice: [lp, wp, mp, ip, ap]\n  q:\n    choice: [fq, sq, cq, aq]\n  \
         r:\n    choice: [kr, fr, hr, wr]\n  s:\n    choice: [ps, ls]\n\
         background:\n  - always: p is not lp or (s is ls and q is not aq)\n  \
         - always: p is not wp or (s is ls and q is not aq)\n  \
         - always: p is not mp or (s is ls and q is not aq)\n  \
         - always: q is not sq or p is one of (mp, ip)\n  \
         - always: p is not ip or r is not kr\n  - always: p is not ap or r is not kr\n\
         rulings:\n  d:\n    choice: [a, b]\n    otherwise: a\n\
         clauses:\n  - id: \"1\"\n    when: p is lp\n    ruling: {d: b}\n",
    )
    .unwrap();
    let valid = all(&ruleset);
    let request = Request {
        covering: Some(2),
        ..Request::default()
    };
    let told = telling(&ruleset, &request, &Budget::unlimited());
    let covering = told.covering.unwrap().unwrap();
    // By a plain loop over the 160 combinations, from the constraints as they are stated.
    let mut by_hand = 0;
    let mut pairs = BTreeSet::new();
    for p in 0..5 {
        for q in 0..4 {
            for r in 0..4 {
                for s in 0..2 {
                    let narrow = s == 1 && q != 3;
                    let valid = (p > 2 || narrow)
                        && (q != 1 || p == 2 || p == 3)
                        && ((p != 3 && p != 4) || r != 0);
                    if valid {
                        by_hand += 1;
                        let row = [(0, p), (1, q), (2, r), (3, s)];
                        for (at, one) in row.iter().enumerate() {
                            pairs.extend(row[at + 1..].iter().map(|other| (*one, *other)));
                        }
                    }
                }
            }
        }
    }
    assert_eq!((valid.len(), by_hand), (70, 70));
    let all_pairs = 5 * 4 + 5 * 4 + 5 * 2 + 4 * 4 + 4 * 2 + 4 * 2;
    assert_eq!((pairs.len(), all_pairs - pairs.len()), (69, 13));
    assert_eq!(
        (covering.covered, covering.never, covering.impossible.len()),
        (69, 13, 13)
    );
    hold_covering(&ruleset, 2);
    let rows = covering.scenarios.len();
    assert!(
        (21..=31).contains(&rows),
        "{rows} rows, 21 at least are needed"
    );
}

/// Independence pairs of four decisions (NASA/TM-2001-210876, A practical tutorial on modified
/// condition/decision coverage, from memory): how many pairs each part has, and the smallest number
/// of scenarios that hold a pair for each part.
#[test]
fn independence_pairs_are_as_many_as_published() {
    for (condition, names, pairs, smallest) in [
        ("a and (b or c)", "abc", vec![3, 1, 1], 4),
        ("(a or b) and (c or d)", "abcd", vec![3, 3, 3, 3], 5),
        ("a and b and c", "abc", vec![1, 1, 1], 4),
        ("at least 2 of (a, b, c)", "abc", vec![2, 2, 2], 4),
    ] {
        let attributes: Vec<String> = names.chars().map(|name| format!("  {name}:\n")).collect();
        let attributes = attributes.concat();
        let text = format!(
            "ruleset: Parts\nattributes:\n{attributes}rulings:\n  call:\n    choice: [no_foul, foul]\n    otherwise: no_foul\n\
             clauses:\n  - id: \"1\"\n    when: {condition}\n    ruling: {{call: foul}}\n"
        );
        let ruleset = load_text("parts.yaml", &text).unwrap();
        let clause = ClauseId::new(0);
        let parts = Parts::of(&ruleset, clause);
        let all = all(&ruleset);
        let evaluator = Evaluator::new(&ruleset);
        // As the program sees it.
        let independent = |index: usize, one: &(Scenario, Outcome), other: &(Scenario, Outcome)| {
            is_independent(
                &parts,
                index,
                evaluator,
                (&one.0, &one.1),
                (&other.0, &other.1),
            )
        };
        let mut pairs_of: Vec<Vec<u32>> = Vec::new();
        for index in 0..parts.parts.len() {
            let mut found = Vec::new();
            for (at, one) in all.iter().enumerate() {
                for (beside, other) in all.iter().enumerate() {
                    if independent(index, one, other) {
                        found.push(1u32 << at | 1 << beside);
                    }
                }
            }
            pairs_of.push(found);
        }
        // As a truth table sees it: flipping one letter alone flips the decision.
        let bits = names.len();
        let decision = |row: usize| {
            let letter = |at: usize| row >> at & 1 == 1;
            match condition {
                "a and (b or c)" => letter(0) && (letter(1) || letter(2)),
                "(a or b) and (c or d)" => (letter(0) || letter(1)) && (letter(2) || letter(3)),
                "a and b and c" => letter(0) && letter(1) && letter(2),
                _ => (0..3).filter(|at| letter(*at)).count() >= 2,
            }
        };
        let by_table: Vec<usize> = (0..bits)
            .map(|at| {
                let rows = (0..1usize << bits).filter(|row| row >> at & 1 == 1);
                rows.filter(|row| decision(*row) != decision(row ^ (1 << at)))
                    .count()
            })
            .collect();
        let counted: Vec<usize> = pairs_of.iter().map(Vec::len).collect();
        assert_eq!((&counted, &by_table), (&pairs, &pairs), "{condition}");
        let holds = |suite: &u32| {
            pairs_of
                .iter()
                .all(|pairs| pairs.iter().any(|pair| suite & pair == *pair))
        };
        let least = (0..1u32 << all.len())
            .filter(holds)
            .map(u32::count_ones)
            .min();
        assert_eq!(least, Some(smallest), "{condition}");
        // What is shown has a pair for every part.
        let told = told(&ruleset, &[Sort::Parts]);
        assert_eq!(told.nothing, []);
        let shown: usize = told
            .entries
            .iter()
            .map(|entry| match entry {
                Entry::Pair(_, also) => 1 + also.len(),
                _ => 0,
            })
            .sum();
        assert_eq!(shown, names.len());
    }
}

#[test]
fn words_that_say_nothing_are_called_surplus() {
    let ruleset = load_text(
        "surplus.yaml",
        "ruleset: Surplus\nattributes:\n  hold:\n    choice: [grip, lock]\n  joint:\n    choice: [elbow, knee]\n    asked_when: hold is lock\n\
         rulings:\n  d:\n    choice: [free, foul]\n    otherwise: free\n\
         clauses:\n  - id: \"1\"\n    when: hold is lock and joint is knee\n    ruling: {d: foul}\n",
    )
    .unwrap();
    let told = told(&ruleset, &[Sort::Parts]);
    assert_eq!(
        told.nothing,
        [Nothing::Part(ClauseId::new(0), 0, NoPair::Surplus)]
    );
    assert_eq!(told.entries.len(), 1);
}

/// A ruleset in which each of so many terms names the one before it twice.
fn doubling(terms: usize) -> Ruleset {
    let mut yaml =
        "ruleset: Doubling\nattributes:\n  foul:\n  hold:\nterms:\n  t0: {means: foul}\n"
            .to_owned();
    for term in 1..=terms {
        let before = term - 1;
        yaml += &format!("  t{term}: {{means: t{before} or t{before}}}\n");
    }
    yaml += "rulings:\n  penalty:\n    scale: [none, loss]\n    otherwise: none\n";
    yaml += &format!(
        "clauses:\n  - id: \"1\"\n    when: t{terms} and hold\n    ruling: {{penalty: loss}}\n"
    );
    load_text("doubling.yaml", &yaml).unwrap()
}

#[test]
fn terms_that_would_be_too_long_written_out_are_parts_by_their_names() {
    let parts_of = |ruleset: &Ruleset| {
        let parts = Parts::of(ruleset, ClauseId::new(0));
        let words: Vec<String> = parts.parts.iter().map(|it| it.words(ruleset)).collect();
        (words, parts.more)
    };
    // Sixteen times `foul`, and `hold`: all of it is looked at.
    let (words, more) = parts_of(&doubling(4));
    assert_eq!((words.len(), more), (17, 0));
    assert_eq!(words[0], "foul");
    // Written out, this has more parts than could ever be written.
    let named = |terms: usize| (vec![format!("t{terms}"), "hold".to_owned()], 0);
    assert_eq!(parts_of(&doubling(2_000)), named(2_000));
    let long = doubling(100);
    assert_eq!(parts_of(&long), named(100));
    assert_eq!(told(&long, &[Sort::Parts]).entries.len(), 2);
    hold_parts(&doubling(7));
}

#[test]
fn where_one_fact_cannot_change_alone_several_do() {
    // Left and right always move together, so neither can change alone.
    let ruleset = load_text(
        "masked.yaml",
        "ruleset: Masked\nattributes:\n  left:\n  right:\n  loud:\n\
         background:\n  - never: left and not right\n  - never: right and not left\n\
         rulings:\n  d:\n    choice: [free, foul]\n    otherwise: free\n\
         clauses:\n  - id: \"1\"\n    when: loud and left\n    ruling: {d: foul}\n  \
         - id: \"2\"\n    when: right and not loud\n    ruling: {d: foul}\n",
    )
    .unwrap();
    let told = told(&ruleset, &[Sort::Parts]);
    let masked: Vec<(usize, usize)> = told
        .entries
        .iter()
        .filter_map(|entry| match entry {
            Entry::Pair(pair, _) => match pair.contrast {
                Contrast::Masked { clause, part } => Some((clause.index(), part)),
                Contrast::OneFact { .. } => None,
            },
            _ => None,
        })
        .collect();
    assert_eq!(masked, [(0, 1), (1, 0)]);
    hold_parts(&ruleset);
}

#[test]
fn the_grappling_book_has_a_pair_for_nearly_every_clause_and_none_twice() {
    let ruleset = load("rulesets/grappling.yaml");
    let told = told(&ruleset, &Sort::ALL);
    let evaluator = Evaluator::new(&ruleset);
    let mut seen: BTreeSet<BTreeSet<&Scenario>> = BTreeSet::new();
    let mut with_pair: BTreeSet<ClauseId> = BTreeSet::new();
    for entry in &told.entries {
        assert!(
            seen.insert(entry.scenarios().into_iter().collect()),
            "{entry:?}"
        );
        for scenario in entry.scenarios() {
            assert!(is_valid(&ruleset, scenario));
        }
        match entry {
            Entry::Pair(pair, also) => {
                for contrast in std::iter::once(&pair.contrast).chain(also) {
                    let (Contrast::OneFact { clause, .. } | Contrast::Masked { clause, .. }) =
                        contrast;
                    with_pair.insert(*clause);
                }
            }
            Entry::Legal(it) => {
                for legal in &it.legal {
                    let said = evaluator.outcome(legal);
                    let ruling = said.rulings[it.dimension.index()];
                    assert_eq!(ruling.values, evenhand::model::ValueSet::one(0));
                }
            }
            Entry::Competing(it) => {
                let said = evaluator.outcome(&it.scenario);
                assert!(
                    said.met.contains(it.first.index()) && said.met.contains(it.second.index())
                );
            }
            Entry::Threshold(_) | Entry::Grey(_) => {}
        }
    }
    let without: Vec<&str> = (0..ruleset.clauses.len())
        .map(ClauseId::new)
        .filter(|id| !with_pair.contains(id))
        .map(|id| ruleset[id].id.as_str())
        .collect();
    assert!(told.nothing.iter().all(|it| !it.is_open()));
    // Whatever has no pair was proved to have none.
    for id in &without {
        assert!(
            told.nothing
                .iter()
                .any(|it| matches!(it, Nothing::Part(clause, ..) if ruleset[*clause].id == *id)),
            "{id}"
        );
    }
    assert!(without.len() <= 8, "{without:?}");
}

#[test]
fn a_number_asked_for_is_kept_and_the_seed_decides_which() {
    let ruleset = load("rulesets/grappling.yaml");
    let made = |seed| {
        let request = Request {
            sorts: vec![Sort::Parts],
            count: Some(9),
            seed,
            ..Request::default()
        };
        telling(&ruleset, &request, &Budget::unlimited()).entries
    };
    assert_eq!(made(3).len(), 9);
    assert_eq!(made(3), made(3));
    assert_ne!(made(3), made(4));
}

#[test]
fn the_same_is_found_by_one_thread_and_by_several() {
    let ruleset = load("rulesets/grappling.yaml");
    let made = |jobs| {
        let request = Request {
            sorts: Sort::ALL.to_vec(),
            count: Some(60),
            seed: 5,
            jobs: NonZeroUsize::new(jobs),
            ..Request::default()
        };
        let told = telling(&ruleset, &request, &Budget::unlimited());
        (told.entries, told.nothing)
    };
    let (entries, nothing) = made(1);
    assert_eq!(entries.len(), 60);
    let (shared, shared_nothing) = made(3);
    assert_eq!(shared, entries);
    assert_eq!(shared_nothing, nothing);
}

#[test]
fn what_is_printed_keeps_to_its_schema_and_carries_the_caution() {
    let ruleset = load("rulesets/grappling.yaml");
    let request = Request {
        sorts: Sort::ALL.to_vec(),
        covering: Some(2),
        among: vec![
            common::attribute(&ruleset, "phase"),
            common::attribute(&ruleset, "action"),
        ],
        ..Request::default()
    };
    let told = telling(&ruleset, &request, &Budget::unlimited());
    let json = evenhand::report::json::scenarios(&ruleset, &told).unwrap();
    let schema: serde_json::Value =
        serde_json::from_str(&common::text_of("docs/schemas/scenarios-1.json")).unwrap();
    let value: serde_json::Value = serde_json::from_str(&json).unwrap();
    jsonschema::validator_for(&schema)
        .unwrap()
        .validate(&value)
        .unwrap();
    assert_eq!(value["format"], "evenhand/scenarios/1");
    // Six kinds of action in four phases; a hold-down only on the ground (three fewer), no throw
    // there, no lift on the way down.
    assert_eq!(value["covering"]["covered"], 6 * 4 - 3 - 1 - 1);
    let forbidden = value["forbidden"].as_array().unwrap();
    assert_eq!(forbidden.len(), 5, "{forbidden:?}");
    let markdown = evenhand::report::scenarios::markdown(&ruleset, &told);
    for words in [
        "The appointed officials",
        "under a qualified instructor",
        "This union",
    ] {
        assert!(markdown.contains(words) && json.contains(words), "{words}");
    }
}
