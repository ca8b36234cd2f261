//! Whole editions compared, held to what is published about them.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod common;

use common::text_of;
use evenhand::amendment::{Direction, Fate, Match, Sign, State, Vetted, compare, vet};
use evenhand::analysis::Options;
use evenhand::load::{Layered, Loaded, load};
use evenhand::model::Kind;
use num_bigint::BigUint;

fn loaded(name: &str, text: &str) -> Loaded {
    match load(name, text) {
        Ok(loaded) => loaded,
        Err(refused) => panic!("{:#?}", refused.problems),
    }
}

fn compared(old: &str, new: &str) -> Vetted {
    let found = compare(
        &loaded("old.yaml", old),
        &loaded("new.yaml", new),
        &Options::default(),
    );
    assert!(found.open.is_empty(), "{:?}", found.open);
    found
}

fn value(name: &str) -> State {
    State::Values(vec![name.to_owned()])
}

/// Basketball: FIBA Official Basketball Rules 2012 and 2014, art. 50: the ring touched, the clock was
/// set to 24 s; from 2014 it is 14 s where the same team regains the ball.
#[test]
fn the_shot_clock_differs_where_the_same_team_regains_after_the_ring() {
    let found = compared(
        &text_of("tests/published/shot-clock-2012.yaml"),
        &text_of("tests/published/shot-clock-2014.yaml"),
    );
    let [row] = found.rows.as_slice() else {
        panic!("{:#?}", found.rows);
    };
    assert_eq!((&row.from, &row.to), (&value("s24"), &value("s14")));
    assert_eq!(
        row.general.lines,
        ["ring_touched and regained_by is same_team"]
    );
    assert_eq!(row.share.as_ref().unwrap().scenarios, BigUint::from(1u8));
    assert_eq!(found.scenarios.unwrap().scenarios, BigUint::from(4u8));
}

/// The same article on the throw-in in the front court: 14 or more shown stays, 13 or less becomes 14.
/// Whole seconds leave no hole; tenths leave one between 13 and 14.
#[test]
fn a_finer_clock_changes_no_ruling_at_whole_seconds_and_opens_a_hole_between_them() {
    let found = compared(
        &text_of("tests/published/throw-in-seconds.yaml"),
        &text_of("tests/published/throw-in-tenths.yaml"),
    );
    assert_eq!(found.direction["clock"], Direction::Unchanged);
    assert_eq!(
        found.scenarios.as_ref().unwrap().scenarios,
        BigUint::from(25u8)
    );
    // 241 tenths from 0 to 24, of which 25 are whole seconds.
    let only = found.only[1].as_ref().unwrap();
    assert_eq!(only.share.as_ref().unwrap().scenarios, BigUint::from(216u8));
    let new: Vec<_> = found
        .introduced
        .iter()
        .map(|index| &found.checked_after.findings[*index])
        .collect();
    let [gap] = new.as_slice() else {
        panic!("{new:#?}");
    };
    assert_eq!(gap.kind, Kind::Gap);
    assert_eq!(gap.general.lines, ["shown is between 13.1 and 13.9"]);
    // The other way round the hole is closed.
    let back = compared(
        &text_of("tests/published/throw-in-tenths.yaml"),
        &text_of("tests/published/throw-in-seconds.yaml"),
    );
    let kind = |checked: &evenhand::analysis::Checked, index: &usize| checked.findings[*index].kind;
    let new: Vec<Kind> = back
        .introduced
        .iter()
        .map(|it| kind(&back.checked_after, it))
        .collect();
    let gone: Vec<Kind> = back
        .resolved
        .iter()
        .map(|it| kind(&back.checked_before, it))
        .collect();
    // It is closed by the step alone, which is worth a note.
    assert_eq!((new, gone), (vec![Kind::StepEdge], vec![Kind::Gap]));
}

/// Table tennis: ITTF Laws of Table Tennis, 2.11 (from memory): a game was won at 21 points, from
/// September 2001 at 11, in both by at least two points.
fn table_tennis(edition: &str, points: u32) -> String {
    format!(
        "\
ruleset: Games of table tennis
edition: \"{edition}\"
quantities:
  game_at: {points}
attributes:
  leader: {{number: 0 to 30}}
  trailer: {{number: 0 to 30}}
background:
  - never: trailer more than leader
rulings:
  game:
    choice: [goes_on, won]
    otherwise: goes_on
clauses:
  - id: 2.11.1
    when: leader at least game_at and leader - trailer at least 2
    ruling: {{game: won}}
"
    )
}

#[test]
fn a_game_to_eleven_is_won_earlier_by_as_many_scores_as_a_count_by_hand_finds() {
    let found = compared(&table_tennis("2000", 21), &table_tennis("2001", 11));
    let won = |leader: u32, trailer: u32, at: u32| leader >= at && leader >= trailer + 2;
    let mut earlier = 0u32;
    let mut all = 0u32;
    for leader in 0..=30 {
        for trailer in 0..=leader {
            all += 1;
            assert!(!won(leader, trailer, 21) || won(leader, trailer, 11));
            earlier += u32::from(won(leader, trailer, 11) && !won(leader, trailer, 21));
        }
    }
    let [row] = found.rows.as_slice() else {
        panic!("{:#?}", found.rows);
    };
    assert_eq!((&row.from, &row.to), (&value("goes_on"), &value("won")));
    assert_eq!(
        row.share.as_ref().unwrap().scenarios,
        BigUint::from(earlier)
    );
    assert_eq!(found.scenarios.unwrap().scenarios, BigUint::from(all));
}

#[test]
fn a_clause_under_another_number_is_matched_by_what_it_says() {
    let old = "ruleset: R\nattributes:\n  a:\n  b:\nrulings:\n  r: {choice: [x, y], otherwise: x}\nclauses:\n  - id: \"1\"\n    when: a\n    ruling: {r: y}\n  - id: \"2\"\n    text: In words.\n    when: b\n    ruling: {r: y}\n";
    let new = old
        .replace("id: \"1\"", "id: \"7\"")
        .replace("id: \"2\"", "id: \"8\"")
        .replace("when: b", "when: b and not a");
    let found = compared(old, &new);
    assert!(found.rows.is_empty(), "{:#?}", found.rows);
    // The reach of 8 is smaller; where it is, 7 rules the same.
    let faults = found.introduced_faults().count();
    assert_eq!((faults, found.resolved.len()), (0, 0));
}

/// Three clauses with texts.
const THREE: &str = "\
ruleset: R
attributes:
  a:
  b:
  c:
rulings:
  r: {choice: [x, y, z], otherwise: x}
clauses:
  - id: \"4.5\"
    text: Whoever steps out of the ring loses the point.
    when: a and not b
    ruling: {r: y}
  - id: \"4.6\"
    text: Whoever is treated twice for one wound loses the bout.
    when: b and not a
    ruling: {r: z}
";

/// `4.5` becomes `4.6`, that becomes `4.7`, and another clause has the number `4.5`.
fn moved_on() -> String {
    let moved = THREE
        .replace("\"4.6\"", "\"4.7\"")
        .replace("\"4.5\"", "\"4.6\"");
    let new = "clauses:\n  - id: \"4.5\"\n    text: A torn jacket is changed.\n    when: c and a and b\n    ruling: {r: z}\n";
    moved.replace("clauses:\n", new)
}

fn told(found: &Match) -> (&str, &str, bool) {
    (&found.before, &found.after, found.guess)
}

#[test]
fn a_number_that_has_gone_to_another_clause_misleads_nobody() {
    let found = compared(THREE, &moved_on());
    let matches: Vec<_> = found.matches.iter().map(told).collect();
    assert_eq!(matches, [("4.5", "4.6", false), ("4.6", "4.7", false)]);
    assert_eq!(
        found.matches[0].same,
        [Sign::Text, Sign::Condition, Sign::Ruling]
    );
    let fates: Vec<(&str, &Fate)> = found
        .redline
        .iter()
        .map(|thing| (thing.name.as_str(), &thing.fate))
        .collect();
    assert_eq!(
        fates,
        [
            ("4.5", &Fate::Inserted),
            ("4.6", &Fate::Renumbered("4.5".to_owned())),
            ("4.7", &Fate::Renumbered("4.6".to_owned())),
        ]
    );
    let [row] = found.rows.as_slice() else {
        panic!("{:#?}", found.rows);
    };
    assert_eq!((&row.from, &row.to), (&value("x"), &value("z")));
    assert_eq!(row.general.lines, ["a and b and c"]);
}

#[test]
fn what_is_a_guess_is_said_to_be_one() {
    // One word of the text and a number in place of another: it is most like the old 4.5.
    let new = moved_on()
        .replace("steps out of the ring", "steps out of the area")
        .replace("a and not b", "a and not b and not c");
    let found = compared(THREE, &new);
    let matches: Vec<_> = found.matches.iter().map(told).collect();
    assert_eq!(matches, [("4.5", "4.6", true), ("4.6", "4.7", false)]);
    assert_eq!(found.matches[0].same, [Sign::Ruling]);
    // Nothing is like the old 4.5 but its number.
    let new = THREE
        .replace(
            "Whoever steps out of the ring loses the point.",
            "A torn jacket is changed.",
        )
        .replace("a and not b\n    ruling: {r: y}", "c\n    ruling: {r: z}");
    let found = compared(THREE, &new);
    let matches: Vec<_> = found.matches.iter().map(told).collect();
    assert_eq!(matches, [("4.5", "4.5", true)]);
    // A few other words under the same number need no telling.
    let new = THREE.replace("out of the ring", "out of the area");
    assert!(compared(THREE, &new).matches.is_empty());
}

#[test]
fn which_of_two_twins_is_meant_is_left_open() {
    let twin = "  - id: \"4.7\"\n    text: Whoever is treated twice for one wound loses the bout.\n    when: b and not a\n    ruling: {r: z}\n";
    let old = format!("{THREE}{twin}");
    let new = old
        .replace("\"4.6\"", "\"5.1\"")
        .replace("\"4.7\"", "\"5.2\"");
    let found = compared(&old, &new);
    assert!(found.matches.is_empty(), "{:?}", found.matches);
    assert!(found.rows.is_empty());
}

#[test]
fn a_draft_may_give_a_number_away_and_put_another_clause_in_its_place() {
    let draft = "amendment: A\nchanges:\n  - renumber: \"4.5\"\n    to: \"4.7\"\n  - insert:\n      id: \"4.5\"\n      text: A torn jacket is changed.\n      when: c and a and b\n      ruling: {r: z}\n  - set:\n      clause: \"4.6\"\n      when: b and not a and not c\n";
    let drafts = [("draft.yaml".to_owned(), draft.to_owned())];
    let layered = Layered::read("old.yaml", THREE, &drafts).unwrap();
    let found = vet(&layered, &[0], &Options::default()).unwrap();
    let mut rows: Vec<(&State, &State, &[usize])> = found
        .rows
        .iter()
        .map(|row| (&row.from, &row.to, row.by.as_slice()))
        .collect();
    rows.sort();
    let (x, z) = (value("x"), value("z"));
    // The first unit renumbers and inserts, the second sets.
    assert_eq!(rows, [(&x, &z, &[0][..]), (&z, &x, &[1][..])]);
    let fates: Vec<(&str, &Fate)> = found
        .redline
        .iter()
        .map(|thing| (thing.name.as_str(), &thing.fate))
        .collect();
    assert!(fates.contains(&("4.5", &Fate::Inserted)), "{fates:?}");
    assert!(
        fates.contains(&("4.7", &Fate::Renumbered("4.5".to_owned()))),
        "{fates:?}"
    );
}
