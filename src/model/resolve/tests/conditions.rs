//! Every form of a condition: what it becomes.

use super::{resolved, ruleset, shown};

const RULESET: &str = "
ruleset: Forms of conditions
quantities:
  long_hold_from: 20 s
  half_minute: 0.5 min
  bare: 3
  implement:
    by: category
    columns: [least_weight, least_length]
    women: [600 g, 2.20 m]
    men: [0.8 kg, '-']
  club:
    by: grade
    columns: [club_limit]
    novice: [10 s]
    master: [20 s]
attributes:
  phase:
    choice: [standing, transition, ground]
  grip:
    choice: [collar, sleeve, belt]
  other_grip:
    choice: [belt, none, collar]
  category:
    choice: [women, men, youth]
  grade:
    choice: [novice, master]
  force:
    scale: [light, firm, full]
  deliberate:
  seconds_held:
    number: 0 to 60
    unit: s
  minutes:
    number: 1 to 10
    step: 0.5
    unit: min
  weight:
    number: 500 to 1000
    unit: g
  leader:
    number: 0 to 30
  trailer:
    number: 0 to 30
  warnings:
    number: 0 to 4 or more
  touching:
    several: [hand, elbow, knee]
terms:
  long_hold:
    narrow: seconds_held at least 25
    broad: seconds_held at least long_hold_from
  low:
    means: phase is not standing
rulings:
  penalty:
    scale: [none, caution, disqualification]
  play:
    choice: [continues, stops]
  extra:
    choice: [stops, medical]
  marks:
    choice: [blue, red, black]
    when_several: all_apply
clauses:
  - id: '1'
    ruling: {penalty: none, play: continues, extra: medical, marks: red}
";

fn check(cases: &[(&str, &str)]) {
    let ruleset = ruleset(RULESET);
    for (text, expect) in cases {
        let found = resolved(&ruleset, text).map(|condition| shown(&ruleset, &condition));
        assert_eq!(found.as_deref(), Ok(*expect), "{text}");
    }
}

fn refused(cases: &[(&str, &str)]) {
    let ruleset = ruleset(RULESET);
    for (text, expect) in cases {
        let found = resolved(&ruleset, text).map(|condition| shown(&ruleset, &condition));
        assert_eq!(found, Err(vec![(*expect).to_owned()]), "{text}");
    }
}

#[test]
fn names_and_what_joins_them() {
    check(&[
        ("always", "always"),
        ("deliberate", "[deliberate 10]"),
        ("not deliberate", "not([deliberate 10])"),
        ("long_hold", "term long_hold"),
        ("not long_hold", "not(term long_hold)"),
        ("deliberate and low", "all([deliberate 10], term low)"),
        (
            "deliberate or (low and long_hold)",
            "any([deliberate 10], all(term low, term long_hold))",
        ),
        (
            "at least 2 of (deliberate, low, long_hold)",
            "2..3 of ([deliberate 10], term low, term long_hold)",
        ),
        (
            "exactly 1 of (deliberate, low)",
            "1..1 of ([deliberate 10], term low)",
        ),
        (
            "at most 1 of (deliberate, low)",
            "0..1 of ([deliberate 10], term low)",
        ),
    ]);
}

#[test]
fn choices_and_scales() {
    check(&[
        ("phase is ground", "[phase in {ground}]"),
        ("phase is not ground", "![phase in {ground}]"),
        (
            "phase is one of (ground, standing)",
            "[phase in {standing ground}]",
        ),
        (
            "phase is not one of (ground, standing)",
            "![phase in {standing ground}]",
        ),
        ("force at least firm", "[force in {firm full}]"),
        ("force is at least firm", "[force in {firm full}]"),
        ("force at most firm", "[force in {light firm}]"),
        ("force more than firm", "[force in {full}]"),
        ("force less than firm", "[force in {light}]"),
        ("force less than light", "[force in {}]"),
        ("force is between light and firm", "[force in {light firm}]"),
        (
            "force is not between light and firm",
            "![force in {light firm}]",
        ),
        (
            "grip is same as other_grip",
            "[grip same other_grip [(0, 2), (2, 0)]]",
        ),
        (
            "grip is not same as other_grip",
            "![grip same other_grip [(0, 2), (2, 0)]]",
        ),
    ]);
}

#[test]
fn numbers_become_steps() {
    check(&[
        ("seconds_held is 20", "[seconds_held 20..20]"),
        ("seconds_held is not 20", "![seconds_held 20..20]"),
        ("seconds_held at least 20 s", "[seconds_held 20..60]"),
        (
            "seconds_held at most long_hold_from",
            "[seconds_held 0..20]",
        ),
        (
            "seconds_held more than half_minute",
            "[seconds_held 31..60]",
        ),
        ("seconds_held less than 20000 ms", "[seconds_held 0..19]"),
        ("20 at most seconds_held", "[seconds_held 20..60]"),
        ("seconds_held is between 10 and 20", "[seconds_held 10..20]"),
        (
            "seconds_held is not between 10 and 20",
            "![seconds_held 10..20]",
        ),
        (
            "seconds_held is one of (10, long_hold_from)",
            "any([seconds_held 10..10], [seconds_held 20..20])",
        ),
        (
            "seconds_held is not one of (10, 20)",
            "all(![seconds_held 10..10], ![seconds_held 20..20])",
        ),
        ("minutes at least 90 s", "[minutes 1..18]"),
        ("minutes is 1.5", "[minutes 1..1]"),
        ("seconds_held at least bare", "[seconds_held 3..60]"),
        (
            "seconds_held at least long_hold_from - 5 s",
            "[seconds_held 15..60]",
        ),
        ("2 * seconds_held at least 25", "[seconds_held 13..60]"),
        ("2 * seconds_held at most 25", "[seconds_held 0..12]"),
        ("2 * seconds_held is 25", "[seconds_held 13..12]"),
        (
            "seconds_held + seconds_held more than 24",
            "[seconds_held 13..60]",
        ),
        ("30 - seconds_held at least 10", "[seconds_held 0..20]"),
        (
            "-2 * seconds_held is between -20 and -10",
            "[seconds_held 5..10]",
        ),
        ("seconds_held at least 0", "[seconds_held 0..60]"),
    ]);
}

#[test]
fn sums_become_whole_weights() {
    check(&[
        (
            "leader - trailer at least 2",
            "[-1*leader + 1*trailer <= -2]",
        ),
        ("leader - trailer at most 2", "[1*leader + -1*trailer <= 2]"),
        ("leader more than trailer", "[-1*leader + 1*trailer <= -1]"),
        ("leader less than trailer", "[1*leader + -1*trailer <= -1]"),
        (
            "leader is trailer",
            "all([1*leader + -1*trailer <= 0], [-1*leader + 1*trailer <= 0])",
        ),
        (
            "leader is not trailer",
            "any([1*leader + -1*trailer <= -1], [-1*leader + 1*trailer <= -1])",
        ),
        (
            "2 * leader + 2 * trailer at most 5",
            "[1*leader + 1*trailer <= 2]",
        ),
        (
            "leader + trailer is between 10 and 20",
            "all([-1*leader + -1*trailer <= -10], [1*leader + 1*trailer <= 20])",
        ),
        (
            "leader + trailer is not between 10 and 20",
            "any([1*leader + 1*trailer <= 9], [-1*leader + -1*trailer <= -21])",
        ),
        // 60 (1 + m/2) s against s: thirty times the steps of `minutes`, from its low end of 60 s.
        (
            "seconds_held at most minutes",
            "[1*seconds_held + -30*minutes <= 60]",
        ),
        (
            "seconds_held + minutes at most 2 min",
            "[1*seconds_held + 30*minutes <= 60]",
        ),
    ]);
}

#[test]
fn what_cancels_out_is_still_read() {
    let asked = |name: &str| format!("[{name} 0..30], ![{name} 0..30]");
    check(&[
        ("leader - leader at least 0", "[leader 0..30]"),
        ("leader - leader at least 1", "![leader 0..30]"),
        (
            "leader + trailer - trailer at least 5",
            &format!("2..3 of ({}, [leader 5..30])", asked("trailer")),
        ),
        (
            "leader + trailer at most trailer + leader",
            &format!("2..3 of ({}, [leader 0..30])", asked("trailer")),
        ),
        (
            "leader is between trailer and 20",
            &format!(
                "all([-1*leader + 1*trailer <= 0], 2..3 of ({}, [leader 0..20]))",
                asked("trailer")
            ),
        ),
    ]);
}

#[test]
fn a_table_is_a_case_for_each_row() {
    check(&[
        (
            "weight less than least_weight",
            "any(all([category in {women}], [weight 0..99]), all([category in {men}], [weight 0..299]), all([category in {youth}], missing youth/least_weight))",
        ),
        (
            "weight is not least_weight",
            "any(all([category in {women}], ![weight 100..100]), all([category in {men}], ![weight 300..300]), all([category in {youth}], missing youth/least_weight))",
        ),
        (
            "seconds_held at least club_limit",
            "any(all([grade in {novice}], [seconds_held 10..60]), all([grade in {master}], [seconds_held 20..60]))",
        ),
        (
            "seconds_held is between club_limit and half_minute",
            "any(all([grade in {novice}], [seconds_held 10..30]), all([grade in {master}], [seconds_held 20..30]))",
        ),
        (
            "least_length at least 2 m",
            "any(all([category in {women}], always), all([category in {men}], missing men/least_length), all([category in {youth}], missing youth/least_length))",
        ),
    ]);
}

#[test]
fn lists_of_items() {
    check(&[
        ("touching includes knee", "[touching has 1..1 of {knee}]"),
        (
            "touching includes any of (hand, knee)",
            "[touching has 1..2 of {hand knee}]",
        ),
        (
            "touching includes all of (hand, knee)",
            "[touching has 2..2 of {hand knee}]",
        ),
        (
            "touching includes none of (hand, knee)",
            "[touching has 0..0 of {hand knee}]",
        ),
        (
            "touching includes at least 2 of (hand, elbow, knee)",
            "[touching has 2..3 of {hand elbow knee}]",
        ),
        (
            "touching includes exactly 1 of (hand, knee)",
            "[touching has 1..1 of {hand knee}]",
        ),
        (
            "touching includes at most 1 of (hand, knee)",
            "[touching has 0..1 of {hand knee}]",
        ),
        (
            "touching is empty",
            "[touching has 0..0 of {hand elbow knee}]",
        ),
        (
            "touching is not empty",
            "![touching has 0..0 of {hand elbow knee}]",
        ),
        (
            "touching is only hand",
            "all([touching has 1..1 of {hand}], [touching has 0..0 of {elbow knee}])",
        ),
        (
            "touching is not only hand",
            "any(![touching has 1..1 of {hand}], ![touching has 0..0 of {elbow knee}])",
        ),
        (
            "touching is only (hand, elbow, knee)",
            "[touching has 3..3 of {hand elbow knee}]",
        ),
    ]);
}

#[test]
fn rulings_are_read_like_choices() {
    check(&[
        ("penalty is caution", "<penalty in {caution}>"),
        ("penalty is not caution", "!<penalty in {caution}>"),
        (
            "penalty at least caution",
            "<penalty in {caution disqualification}>",
        ),
        (
            "penalty is one of (none, caution)",
            "<penalty in {none caution}>",
        ),
        ("marks includes red", "<marks has 1..1 of {red}>"),
        ("marks is empty", "<marks has 0..0 of {blue red black}>"),
        (
            "marks is only red",
            "all(<marks has 1..1 of {red}>, <marks has 0..0 of {blue black}>)",
        ),
        (
            "play is same as extra",
            "2..3 of (<extra in {stops medical}>, !<extra in {stops medical}>, 2..3 of (<play in {continues stops}>, !<play in {continues stops}>, any(all(<play in {stops}>, <extra in {stops}>))))",
        ),
    ]);
}

#[test]
fn a_top_that_stands_for_more_is_not_split() {
    check(&[
        ("warnings at least 4", "[warnings 4..4]"),
        ("warnings less than 4", "[warnings 0..3]"),
        ("warnings is 3", "[warnings 3..3]"),
        ("warnings is not 3", "![warnings 3..3]"),
        ("warnings at most 3", "[warnings 0..3]"),
        ("warnings more than 3", "[warnings 4..4]"),
        ("warnings is between 1 and 3", "[warnings 1..3]"),
        ("2 * warnings at least 7", "[warnings 4..4]"),
    ]);
    let split = "this would split the top value of `warnings`: 4 there means 4 or more";
    refused(&[
        ("warnings is 4", split),
        ("warnings is not 4", split),
        ("warnings at most 4", split),
        ("warnings more than 4", split),
        ("warnings is between 1 and 4", split),
        ("2 * warnings at least 9", split),
        ("2 * warnings less than 9", split),
        (
            "warnings + leader at least 3",
            "`warnings` cannot be part of a sum: its top value stands for all above it",
        ),
        (
            "warnings at least 5",
            "5 lies outside `warnings`, which runs from 0 to 4 or more",
        ),
    ]);
}

#[test]
fn numbers_too_large_to_be_exact_are_refused() {
    let large = "the numbers of this comparison are too large to be worked with exactly";
    refused(&[
        ("9000000000000000000 * leader + trailer at most 3", large),
        ("leader + trailer at most 99999999999999999999", large),
        (
            "4000000000000000000 * leader + 4000000000000000000 * leader + 4000000000000000000 * leader + trailer at most 3",
            large,
        ),
    ]);
}
