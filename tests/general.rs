//! General conditions are exact, and no longer than they need be: held to plain loops that try every
//! set of boxes.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests"
)]

mod common;
mod support;

use common::{checked, load_text, outcomes};
use evenhand::model::{ConditionScope, Kind, Ruleset, resolve_condition};
use evenhand::scenario::{self, When};
use evenhand::solve::Budget;
use evenhand::source::{Source, Sources};
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::fmt::Write;
use support::lines;

fn when(ruleset: &Ruleset, words: &str) -> When {
    let mut sources = Sources::default();
    let source = Source::new("asked", words);
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let read = evenhand::read::condition(&source, id, &mut problems).unwrap();
    let wanted = resolve_condition(ruleset, &read, ConditionScope::Facts, &mut problems).unwrap();
    scenario::when(ruleset, &wanted, None, &Budget::unlimited())
}

/// The conditions, of which it is held that any of them is true exactly where it is wanted.
fn exact_lines(ruleset: &Ruleset, words: &str) -> Vec<String> {
    let found = when(ruleset, words);
    assert!(found.open.is_none(), "{words}");
    let lines: Vec<String> = found.lines.into_iter().map(|line| line.condition).collect();
    let read: Vec<_> = lines
        .iter()
        .map(|line| lines::line(ruleset, line))
        .collect();
    let wanted = lines::line(ruleset, words);
    for (scenario, _) in outcomes(ruleset) {
        let said = read.iter().any(|line| line.holds(ruleset, &scenario));
        assert_eq!(said, wanted.holds(ruleset, &scenario), "{words}: {lines:?}");
    }
    lines
}

/// Prime implicants and smallest covers of a function of four yes/no attributes with two combinations
/// that cannot occur: the usual textbook example of the method of Quine and `McCluskey`.
mod textbook {
    use super::*;

    const ON: [u32; 6] = [4, 8, 10, 11, 12, 15];
    const NEVER: [u32; 2] = [9, 14];

    /// A row of `1`, `0` and `-`, the first attribute first.
    type Row = [char; 4];

    fn holds(row: Row, point: u32) -> bool {
        (0..4).all(|place| {
            let bit = if point >> (3 - place) & 1 == 1 {
                '1'
            } else {
                '0'
            };
            row[place] == '-' || row[place] == bit
        })
    }

    fn rows() -> Vec<Row> {
        let mut all = vec![Vec::new()];
        for _ in 0..4 {
            let longer = |row: &Vec<char>| {
                ['0', '1', '-'].map(|sign| row.iter().copied().chain([sign]).collect())
            };
            all = all.iter().flat_map(longer).collect();
        }
        all.into_iter()
            .map(|row: Vec<char>| row.try_into().unwrap())
            .collect()
    }

    /// The rows that hold nothing but what is on or cannot occur, and that no wider such row holds.
    fn primes() -> BTreeSet<Row> {
        let clear = |row: &Row| {
            let mut points = (0..16).filter(|point| holds(*row, *point));
            points.all(|point| ON.contains(&point) || NEVER.contains(&point))
        };
        let clear: Vec<Row> = rows().into_iter().filter(clear).collect();
        let within =
            |one: &Row, other: &Row| (0..16).all(|at| !holds(*one, at) || holds(*other, at));
        let widest = |row: &&Row| {
            !clear
                .iter()
                .any(|other| other != *row && within(row, other))
        };
        clear.iter().filter(widest).copied().collect()
    }

    fn smallest_covers() -> Vec<BTreeSet<Row>> {
        let primes: Vec<Row> = primes().into_iter().collect();
        let chosen = |mask: u32| -> BTreeSet<Row> {
            let some = primes.iter().enumerate();
            some.filter(|(index, _)| mask >> index & 1 == 1)
                .map(|(_, row)| *row)
                .collect()
        };
        let all = (0..1u32 << primes.len()).map(chosen);
        let covers = |rows: &BTreeSet<Row>| {
            ON.iter()
                .all(|point| rows.iter().any(|row| holds(*row, *point)))
        };
        let covers: Vec<BTreeSet<Row>> = all.filter(covers).collect();
        let least = covers.iter().map(BTreeSet::len).min().unwrap();
        covers
            .into_iter()
            .filter(|cover| cover.len() == least)
            .collect()
    }

    fn words(point: u32) -> String {
        let names = ["a", "b", "c", "d"].into_iter().enumerate();
        let parts = names.map(|(place, name)| {
            let no = if point >> (3 - place) & 1 == 1 {
                ""
            } else {
                "not "
            };
            format!("{no}{name}")
        });
        parts.collect::<Vec<String>>().join(" and ")
    }

    #[test]
    fn primes_and_a_smallest_cover() {
        let rows = |rows: &[&str]| -> BTreeSet<Row> {
            let row = |row: &&str| row.chars().collect::<Vec<_>>().try_into().unwrap();
            rows.iter().map(row).collect()
        };
        assert_eq!(primes(), rows(&["10--", "1-1-", "1--0", "-100"]));
        let covers = smallest_covers();
        assert_eq!(covers.len(), 2);
        assert!(covers.iter().all(|cover| cover.len() == 3));

        let never = NEVER.map(|point| format!("  - never: {}\n", words(point)));
        let text = format!(
            "ruleset: A function\nattributes:\n  a:\n  b:\n  c:\n  d:\nbackground:\n{}\
             rulings:\n  lamp:\n    choice: [dark, lit]\n    otherwise: dark\n\
             clauses:\n  - id: \"1\"\n    when: a and b and c and d\n    ruling: {{lamp: lit}}\n",
            never.concat()
        );
        let ruleset = load_text("function.yaml", &text).unwrap();
        let wanted = ON.map(|point| format!("({})", words(point))).join(" or ");
        let said: BTreeSet<Row> = exact_lines(&ruleset, &wanted)
            .iter()
            .map(|line| {
                let mut row = ['-'; 4];
                for part in line.split(" and ") {
                    let (sign, name) = match part.strip_prefix("not ") {
                        Some(name) => ('0', name),
                        None => ('1', part),
                    };
                    row[["a", "b", "c", "d"]
                        .iter()
                        .position(|one| *one == name)
                        .unwrap()] = sign;
                }
                row
            })
            .collect();
        assert!(covers.contains(&said), "{said:?}");
    }
}

/// Random sets of the 24 scenarios of a yes/no, a choice of three and a number of four values, against
/// the least number of boxes that cover them.
mod boxes {
    use super::*;

    const TEXT: &str = "ruleset: Twenty-four scenarios
attributes:
  fast:
  place:
    choice: [gate, field, fence]
  tries:
    number: 0 to 3
rulings:
  score:
    choice: [none, full]
    otherwise: none
clauses:
  - id: \"1\"
    when: fast and place is gate and tries is 0
    ruling: {score: full}
";

    fn point(fast: u32, place: u32, tries: u32) -> u32 {
        fast * 12 + place * 4 + tries
    }

    /// Every box as a mask of scenarios: any values of a yes/no and of a choice; of a number a range, or
    /// all but a range.
    fn all() -> BTreeSet<u32> {
        let runs: Vec<u32> = (0..4u32)
            .flat_map(|low| (low..4).map(move |high| (1 << (high + 1)) - (1 << low)))
            .collect();
        let numbers: BTreeSet<u32> = runs.iter().flat_map(|run| [*run, 0b1111 & !*run]).collect();
        let mut found = BTreeSet::new();
        for fast in 1..4u32 {
            for place in 1..8u32 {
                for tries in numbers.iter().filter(|tries| **tries != 0) {
                    let mut mask = 0u32;
                    for at in 0..24 {
                        let (f, p, t) = (at / 12, at % 12 / 4, at % 4);
                        if fast >> f & 1 == 1 && place >> p & 1 == 1 && tries >> t & 1 == 1 {
                            mask |= 1 << at;
                        }
                    }
                    found.insert(mask);
                }
            }
        }
        found
    }

    /// How few boxes cover the set and nothing else.
    fn fewest(set: u32) -> usize {
        let within: Vec<u32> = all().into_iter().filter(|one| one & !set == 0).collect();
        let widest = |one: &&u32| {
            !within
                .iter()
                .any(|other| other != *one && *one & !other == 0)
        };
        let primes: Vec<u32> = within.iter().filter(widest).copied().collect();
        let mut reached = BTreeSet::from([0u32]);
        for lines in 0.. {
            if reached.contains(&set) {
                return lines;
            }
            let further = reached.iter().flat_map(|so_far| {
                // Some line must cover the lowest scenario that is left.
                let left = set & !so_far;
                let lowest = left & left.wrapping_neg();
                primes
                    .iter()
                    .filter(move |one| *one & lowest != 0)
                    .map(move |one| so_far | one)
            });
            reached = further.collect();
        }
        unreachable!("single scenarios are boxes")
    }

    fn words(set: u32) -> String {
        let mut lines = Vec::new();
        for (fast, fast_words) in [(0, "not fast"), (1, "fast")] {
            for (place, name) in [(0, "gate"), (1, "field"), (2, "fence")] {
                for tries in 0..4 {
                    if set >> point(fast, place, tries) & 1 == 1 {
                        lines.push(format!(
                            "({fast_words} and place is {name} and tries is {tries})"
                        ));
                    }
                }
            }
        }
        lines.join(" or ")
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(160))]

        #[test]
        fn no_fewer_lines_would_do(one: u32, other: u32, both: bool) {
            let set = if both { one & other } else { one | other } & 0x00ff_ffff;
            prop_assume!(set != 0);
            let ruleset = load_text("boxes.yaml", TEXT).unwrap();
            let lines = exact_lines(&ruleset, &words(set));
            prop_assert_eq!(lines.len(), fewest(set), "{:#026b}: {:?}", set, lines);
        }
    }
}

/// What the ruleset has words for is said in them.
mod own_words {
    use super::*;

    const TEXT: &str = "ruleset: Words of an invented union
quantities:
  long_from: 20 s
  lead: 2
attributes:
  hold:
    choice: [lock, pin, throw]
  joint:
    choice: [elbow, knee, ankle, hip, neck]
    asked_when: hold is lock
  touching:
    several: [hand, elbow, knee, back]
  seconds_held:
    number: 0 to 60
    unit: s
  force:
    scale: [light, firm, hard, full]
  ours:
    number: 0 to 30
  theirs:
    number: 0 to 30
terms:
  joint_attack:
    means: hold is lock and joint is not elbow
rulings:
  penalty:
    scale: [none, caution]
    otherwise: none
clauses:
  - id: \"1\"
    when: joint_attack and seconds_held at least long_from
    ruling: {penalty: caution}
  - id: \"2\"
    when: ours - theirs at least lead
    ruling: {penalty: caution}
  - id: \"3\"
    when: touching includes at least 3 of (hand, elbow, knee, back)
    ruling: {penalty: caution}
";

    fn said(asked: &str) -> Vec<String> {
        let ruleset = load_text("words.yaml", TEXT).unwrap();
        let found = when(&ruleset, asked);
        assert!(found.open.is_none(), "{asked}");
        found.lines.into_iter().map(|line| line.condition).collect()
    }

    fn check(asked: &str, expected: &[&str]) {
        assert_eq!(said(asked), expected, "{asked}");
    }

    #[test]
    fn terms_and_quantities_by_name() {
        check("joint_attack", &["joint_attack"]);
        check(
            "joint is one of (knee, ankle, hip, neck) and seconds_held at least 20",
            &["joint_attack and seconds_held at least long_from"],
        );
        check(
            "seconds_held at most 19",
            &["seconds_held less than long_from"],
        );
        check(
            "seconds_held is not between 20 and 30",
            &["seconds_held is not between long_from and 30"],
        );
    }

    #[test]
    fn sums_and_counts_as_the_rules_say_them() {
        check("ours - theirs at least 2", &["ours - theirs at least lead"]);
        check(
            "not (ours - theirs at least 2)",
            &["ours - theirs less than lead"],
        );
        check(
            "touching includes any of (hand, knee) and hold is pin",
            &["hold is pin and touching includes any of (hand, knee)"],
        );
        check(
            "(touching includes hand and touching includes knee) or (touching includes hand and touching includes back) \
             or (touching includes knee and touching includes back)",
            &["touching includes at least 2 of (hand, knee, back)"],
        );
        check("touching is not empty", &["touching is not empty"]);
    }

    #[test]
    fn what_is_shorter() {
        check("hold is not throw", &["hold is not throw"]);
        check(
            "joint is elbow or joint is knee",
            &["joint is one of (elbow, knee)"],
        );
        check("seconds_held is not 7", &["seconds_held is not 7"]);
        check(
            "force is light or force is full",
            &["force is one of (light, full)"],
        );
        check("force is not firm", &["force is not firm"]);
        check("force is hard or force is full", &["force at least hard"]);
    }
}

/// Values that the background rules out beside the rest of a line are not told where that takes fewer
/// words.
mod values {
    use super::*;

    const ATTRIBUTES: [(&str, &str, &[&str]); 3] = [
        ("act", "choice", &["none", "strike", "grab"]),
        ("target", "choice", &["none", "head", "neck", "arm"]),
        ("force", "scale", &["light", "firm", "full"]),
    ];

    fn rules(never: &[(usize, usize, usize, usize)]) -> String {
        let mut text = String::from("ruleset: Acts\nattributes:\n");
        for (name, kind, values) in ATTRIBUTES {
            let _ = writeln!(text, "  {name}: {{{kind}: [{}]}}", values.join(", "));
        }
        text.push_str("background:\n  - never: act is none and target is not none\n");
        for (one, value, other, beside) in never {
            let said = |attribute: usize, value: usize| {
                let (name, _, values) = ATTRIBUTES[attribute % 3];
                format!("{name} is {}", values[value % values.len()])
            };
            let (one, other) = (said(*one, *value), said(*other, *beside));
            let _ = writeln!(text, "  - never: {one} and {other}");
        }
        text.push_str(
            "rulings:\n  score: {choice: [none, full], otherwise: none}\nclauses:\n  - id: \"1\"\n    when: target is neck\n    ruling: {score: full}\n",
        );
        text
    }

    /// Every way to say which values are meant, by single words, lists and the contrary of both.
    fn ways(name: &str, values: &[&str]) -> Vec<String> {
        let mut ways = Vec::new();
        for value in values {
            // Of a scale it is said from where and up to where.
            let contrary = if name == "force" {
                "at least"
            } else {
                "is not"
            };
            ways.push(format!("{name} is {value}"));
            ways.push(format!("{name} {contrary} {value}"));
            if name == "force" {
                ways.push(format!("{name} at most {value}"));
            }
        }
        for chosen in 1..1usize << values.len() {
            let listed = values.iter().enumerate();
            let listed = listed.filter(|(at, _)| chosen >> at & 1 == 1);
            let listed: Vec<&str> = listed.map(|(_, value)| *value).collect();
            if listed.len() > 1 {
                ways.push(format!("{name} is one of ({})", listed.join(", ")));
                ways.push(format!("{name} is not one of ({})", listed.join(", ")));
            }
        }
        ways
    }

    fn no_fewer_words_mean_the_same(ruleset: &Ruleset, said: &str) {
        let all: Vec<_> = outcomes(ruleset).map(|(it, _)| it).collect();
        let meant = |words: &str| -> Vec<bool> {
            let line = lines::line(ruleset, words);
            all.iter().map(|it| line.holds(ruleset, it)).collect()
        };
        let whole = meant(said);
        let parts: Vec<&str> = said.split(" and ").collect();
        for (at, part) in parts.iter().enumerate() {
            let name = part.split(' ').next().unwrap();
            let (_, _, values) = ATTRIBUTES.iter().find(|(it, ..)| *it == name).unwrap();
            // A single value is what a reader looks for, however long its name.
            if values
                .iter()
                .any(|value| *part == format!("{name} is {value}"))
            {
                continue;
            }
            for way in ways(name, values) {
                let mut other = parts.clone();
                other[at] = &way;
                let other = other.join(" and ");
                let fewer = other.chars().count() < said.chars().count();
                assert!(!fewer || meant(&other) != whole, "{said}: {other}");
            }
        }
    }

    #[test]
    fn a_value_that_cannot_be_there_is_not_told() {
        let ruleset = load_text("acts.yaml", &rules(&[])).unwrap();
        let lines = exact_lines(&ruleset, "act is strike and target is one of (none, neck)");
        assert_eq!(lines, ["act is strike and target is one of (none, neck)"]);
        let never = [(0, 1, 1, 0), (0, 2, 1, 0)];
        let ruleset = load_text("acts.yaml", &rules(&never)).unwrap();
        let asked = "act is not none and target is one of (none, neck)";
        assert_eq!(exact_lines(&ruleset, asked), ["target is neck"]);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(120))]

        #[test]
        fn no_line_lists_what_it_need_not(
            never in prop::collection::vec((0..3usize, 0..4usize, 0..3usize, 0..4usize), 1..7),
            wanted in prop::collection::vec((0..3usize, 0..4usize, 0..3usize), 1..14),
        ) {
            let Ok(ruleset) = load_text("acts.yaml", &rules(&never)) else { return Ok(()) };
            let wanted = wanted.iter().map(|(act, target, force)| {
                let values = [*act, *target, *force];
                let parts = ATTRIBUTES.iter().zip(values);
                let parts = parts.map(|((name, _, all), value)| format!("{name} is {}", all[value]));
                format!("({})", parts.collect::<Vec<_>>().join(" and "))
            });
            let wanted = wanted.collect::<Vec<_>>().join(" or ");
            for line in exact_lines(&ruleset, &wanted) {
                if line != "always" {
                    no_fewer_words_mean_the_same(&ruleset, &line);
                }
            }
        }
    }
}

/// Of an item of a list that must not be there it is said that it is not.
#[test]
fn one_item_that_is_not_there_is_told_plainly() {
    let ruleset = load_text(
        "items.yaml",
        "ruleset: Items
attributes:
  target: {several: [head, neck, arm]}
rulings:
  score: {choice: [none, full], otherwise: none}
clauses:
  - id: \"1\"
    when: target includes head
    ruling: {score: full}
",
    )
    .unwrap();
    for (asked, said) in [
        (
            "target includes none of (head)",
            "not (target includes head)",
        ),
        (
            "target includes neck and target includes none of (head)",
            "target includes neck and not (target includes head)",
        ),
        (
            "target includes none of (head, neck)",
            "target includes none of (head, neck)",
        ),
    ] {
        assert_eq!(exact_lines(&ruleset, asked), [said], "{asked}");
    }
}

/// A gap of twenty thousand scenarios is one line.
#[test]
fn a_large_gap_is_one_line() {
    let ruleset = load_text(
        "gap.yaml",
        "ruleset: Two sides
attributes:
  ours:
    number: 0 to 199
  theirs:
    number: 0 to 199
rulings:
  result:
    choice: [won, lost]
clauses:
  - id: \"1\"
    when: ours - theirs more than 1
    ruling: {result: won}
",
    )
    .unwrap();
    let checked = checked(&ruleset);
    let gap = checked
        .findings
        .iter()
        .find(|one| one.kind == Kind::Gap)
        .unwrap();
    assert_eq!(gap.general.lines, ["ours - theirs at most 1"]);
    let share = gap.share.as_ref().unwrap();
    let counted = (0..200).flat_map(|ours| (0..200).map(move |theirs| ours - theirs));
    let counted = counted.filter(|lead| *lead <= 1).count();
    assert!(share.exact && counted > 20_000);
    assert_eq!(share.scenarios.to_string(), counted.to_string());
}
