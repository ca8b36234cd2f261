//! The checker against facts that this project did not make.
//!
//! Each test names its source, recomputes the expected numbers by a plain loop that shares no code
//! with the program, and compares what the program says about a ruleset of `tests/published/`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests"
)]

mod common;

use common::{
    attribute, checked, clause, count, dimension, load, load_text, names, outcomes, said_of,
    scenario, text_of,
};
use evenhand::analysis::{Checked, Options, Outcome, Repairs, check};
use evenhand::logic::{Basis, Code, Evaluator, Formula, Name, World};
use evenhand::model::{Kind, Ruleset};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

fn published(name: &str) -> Ruleset {
    load(&format!("tests/published/{name}.yaml"))
}

fn allowed(ruleset: &Ruleset, on: &str, value: &str) -> Formula {
    let on = dimension(ruleset, on);
    let values = &ruleset[on].values;
    let index = values.iter().position(|known| known.name == value).unwrap();
    Name::Allowed(World::Actual, on, u8::try_from(index).unwrap()).into()
}

fn clash(ruleset: &Ruleset, on: &str) -> Formula {
    Name::Clash(World::Actual, dimension(ruleset, on)).into()
}

fn gap(ruleset: &Ruleset, on: &str) -> Formula {
    Name::Gap(World::Actual, dimension(ruleset, on)).into()
}

/// Every verdict on a kind is that there is none.
fn proved(checked: &Checked, kind: Kind) -> bool {
    let mut verdicts = checked
        .verdicts
        .iter()
        .filter(|verdict| verdict.kind == kind);
    verdicts.all(|verdict| verdict.outcome == Outcome::Proved)
        && checked.verdicts.iter().any(|verdict| verdict.kind == kind)
}

/// The repairs of the first finding of a kind, with how many scenarios change their ruling.
fn repairs(ruleset: &Ruleset, kind: Kind) -> Vec<(String, String)> {
    let options = Options {
        repairs: Repairs::Offered,
        ..Options::default()
    };
    let checked = check(ruleset, &options);
    let mut found = checked.findings.iter().filter(|found| found.kind == kind);
    let repairs = found.next().unwrap().repairs.iter();
    let changed =
        |count: &Option<evenhand::logic::Count>| count.as_ref().unwrap().scenarios.to_string();
    repairs
        .map(|repair| (repair.edit.clone(), changed(&repair.scenarios_changed)))
        .collect()
}

fn space(checked: &Checked) -> String {
    let space = checked.space.as_ref().expect("a space that can be counted");
    assert!(space.exact);
    space.scenarios.to_string()
}

/// The clauses and the exact share of each finding of a kind.
fn shares(ruleset: &Ruleset, checked: &Checked, kind: Kind) -> BTreeMap<BTreeSet<String>, u64> {
    let findings = checked.findings.iter().filter(|found| found.kind == kind);
    findings
        .map(|found| {
            let ids = found
                .clauses
                .iter()
                .map(|clause| ruleset[*clause].id.clone());
            let share = found.share.as_ref().expect("a share");
            assert!(share.exact, "{}", found.headline);
            (ids.collect(), share.scenarios.to_string().parse().unwrap())
        })
        .collect()
}

/// UCI Machine Learning Repository, Tic-Tac-Toe Endgame (D. Aha, 1991), from memory: 958 final
/// boards, 626 with a line of x, 332 without.
mod three_in_a_row {
    use super::*;

    const LINES: [([usize; 3], &str); 8] = [
        ([0, 1, 2], "top row"),
        ([3, 4, 5], "middle row"),
        ([6, 7, 8], "bottom row"),
        ([0, 3, 6], "left column"),
        ([1, 4, 7], "middle column"),
        ([2, 5, 8], "right column"),
        ([0, 4, 8], "diagonal down"),
        ([2, 4, 6], "diagonal up"),
    ];

    type Board = [u8; 9];

    fn has(board: &Board, line: &[usize; 3], player: u8) -> bool {
        line.iter().all(|square| board[*square] == player)
    }

    fn wins(board: &Board, player: u8) -> bool {
        LINES.iter().any(|(line, _)| has(board, line, player))
    }

    /// Plays every game from here and keeps the boards on which one ended.
    fn play(board: Board, player: u8, finals: &mut BTreeSet<Board>) {
        if wins(&board, 1) || wins(&board, 2) || !board.contains(&0) {
            finals.insert(board);
            return;
        }
        for square in 0..9 {
            if board[square] == 0 {
                let mut next = board;
                next[square] = player;
                play(next, 3 - player, finals);
            }
        }
    }

    #[test]
    fn legal_final_boards() {
        let mut finals = BTreeSet::new();
        play([0; 9], 1, &mut finals);
        let x = finals.iter().filter(|board| wins(board, 1)).count() as u64;
        let o = finals.iter().filter(|board| wins(board, 2)).count() as u64;
        let drawn = finals.len() as u64 - x - o;
        assert_eq!((finals.len(), x, o, drawn), (958, 626, 316, 16));

        let ruleset = published("tic-tac-toe");
        let checked = checked(&ruleset);
        assert_eq!(space(&checked), "958");
        assert_eq!(count(&ruleset, &allowed(&ruleset, "winner", "x")), x);
        assert_eq!(count(&ruleset, &allowed(&ruleset, "winner", "o")), o);
        assert!(proved(&checked, Kind::Contradiction));
        let gaps = shares(&ruleset, &checked, Kind::Gap);
        assert_eq!(gaps.values().collect::<Vec<_>>(), [&drawn]);
    }

    #[test]
    fn any_board() {
        let mut both = 0;
        let mut pairs: BTreeMap<BTreeSet<String>, u64> = BTreeMap::new();
        for number in 0..3usize.pow(9) {
            let mut rest = number;
            let board: Board = std::array::from_fn(|_| {
                let square = rest % 3;
                rest /= 3;
                u8::try_from(square).unwrap()
            });
            both += u64::from(wins(&board, 1) && wins(&board, 2));
            for (_, x_name) in LINES.iter().filter(|(line, _)| has(&board, line, 1)) {
                for (_, o_name) in LINES.iter().filter(|(line, _)| has(&board, line, 2)) {
                    let pair = [format!("x, {x_name}"), format!("o, {o_name}")];
                    *pairs.entry(pair.into()).or_default() += 1;
                }
            }
        }
        assert_eq!(both, 312);

        let ruleset = published("tic-tac-toe-any-board");
        let checked = checked(&ruleset);
        assert_eq!(space(&checked), "19683");
        assert_eq!(count(&ruleset, &clash(&ruleset, "winner")), both);
        assert_eq!(shares(&ruleset, &checked, Kind::Contradiction), pairs);
    }
}

/// MONK's problems 1 and 3 (Thrun et al., 1991; UCI Machine Learning Repository), from memory.
mod monks {
    use super::*;

    /// Head, body, smiling, holding, jacket, tie; counted from zero.
    type Monk = [u64; 6];
    const DOMAINS: Monk = [3, 3, 2, 3, 4, 2];
    const NAMES: [&str; 6] = ["head", "body", "smiling", "holding", "jacket", "tie"];

    fn all() -> Vec<Monk> {
        let mut monks = vec![[0; 6]];
        for (place, domain) in DOMAINS.iter().enumerate() {
            let grown = monks.iter().flat_map(|monk| {
                (0..*domain).map(move |value| {
                    let mut next = *monk;
                    next[place] = value;
                    next
                })
            });
            monks = grown.collect();
        }
        monks
    }

    /// The attributes, counted from one, without which a class can always be told.
    fn idle(class: &BTreeMap<Monk, bool>) -> Vec<usize> {
        let same = |place: usize| {
            class.iter().all(|(monk, positive)| {
                (0..DOMAINS[place]).all(|value| {
                    let mut other = *monk;
                    other[place] = value;
                    class[&other] == *positive
                })
            })
        };
        (0..6)
            .filter(|place| same(*place))
            .map(|place| place + 1)
            .collect()
    }

    fn compare(name: &str, parts: [fn(&Monk) -> bool; 2], expected: (u64, u64, &[usize])) {
        let positive = |monk: &Monk| parts.iter().any(|part| part(monk));
        let truth: BTreeMap<Monk, bool> = all()
            .into_iter()
            .map(|monk| (monk, positive(&monk)))
            .collect();
        let positives = truth.values().filter(|positive| **positive).count() as u64;
        let both = truth
            .keys()
            .filter(|monk| parts.iter().all(|part| part(monk)))
            .count() as u64;
        assert_eq!((positives, both, idle(&truth).as_slice()), expected);

        let ruleset = published(name);
        let checked = checked(&ruleset);
        assert_eq!(space(&checked), "432");
        assert!(proved(&checked, Kind::Contradiction));
        let gaps = shares(&ruleset, &checked, Kind::Gap);
        assert_eq!(gaps.values().collect::<Vec<_>>(), [&(432 - positives)]);
        assert_eq!(
            count(&ruleset, &allowed(&ruleset, "monk", "positive")),
            positives
        );
        let in_force =
            ["1", "2"].map(|id| Name::InForce(World::Actual, clause(&ruleset, id)).into());
        assert_eq!(count(&ruleset, &Formula::all(in_force)), both);
        let monk_of = |scenario: &evenhand::logic::Scenario| {
            NAMES.map(|name| scenario.get(attribute(&ruleset, name)).unwrap().0)
        };
        let told: BTreeMap<Monk, bool> = outcomes(&ruleset)
            .map(|(scenario, outcome)| {
                (
                    monk_of(&scenario),
                    outcome.rulings[0].basis == Basis::Clauses,
                )
            })
            .collect();
        assert_eq!(told, truth);
        assert_eq!(idle(&told), expected.2);
        impartiality(name, &truth, expected.2);
    }

    /// Of all sets of attributes, the class is impartial to those within `idle` and to no other.
    fn impartiality(name: &str, class: &BTreeMap<Monk, bool>, idle: &[usize]) {
        let sets = (1usize..1 << 6).map(|bits| {
            let places = (0..6).filter(move |place| bits >> place & 1 == 1);
            places.collect::<Vec<usize>>()
        });
        let sets: Vec<Vec<usize>> = sets.collect();
        let mut text = text_of(&format!("tests/published/{name}.yaml")) + "principles:\n";
        for (number, set) in sets.iter().enumerate() {
            let names: Vec<&str> = set.iter().map(|place| NAMES[*place]).collect();
            let names = names.join(", ");
            let _ = writeln!(text, "  - id: P{number}\n    impartial_to: [{names}]");
        }
        let checked = checked(&load_text("published.yaml", &text).unwrap());
        for (number, set) in sets.iter().enumerate() {
            let id = Some(format!("P{number}"));
            let mut verdicts = checked.verdicts.iter();
            let verdict = verdicts.find(|verdict| verdict.principle == id).unwrap();
            let kept = set.iter().all(|place| idle.contains(&(place + 1)));
            let wanted = if kept {
                Outcome::Proved
            } else {
                Outcome::Found
            };
            assert_eq!(verdict.outcome, wanted, "{set:?}");
            // Monks that agree in all other attributes, some of this class and some of that.
            let mut groups: BTreeMap<Monk, [u64; 2]> = BTreeMap::new();
            for (monk, positive) in class {
                let mut key = *monk;
                for place in set {
                    key[*place] = 0;
                }
                groups.entry(key).or_default()[usize::from(*positive)] += 1;
            }
            let mixed = groups.values().filter(|counts| !counts.contains(&0));
            let mixed: u64 = mixed.flatten().sum();
            let mut findings = checked.findings.iter();
            let finding = findings.find(|finding| finding.principle == id);
            let share = finding.map(|finding| finding.share.as_ref().unwrap());
            let share = share.map_or_else(|| "0".to_owned(), |share| share.scenarios.to_string());
            assert_eq!(share, mixed.to_string(), "{set:?}");
        }
    }

    #[test]
    fn first_problem() {
        compare(
            "monks-1",
            [|monk| monk[0] == monk[1], |monk| monk[4] == 0],
            (216, 36, &[3, 4, 6]),
        );
    }

    #[test]
    fn third_problem() {
        compare(
            "monks-3",
            [
                |monk| monk[4] == 2 && monk[3] == 0,
                |monk| monk[4] != 3 && monk[1] != 2,
            ],
            (228, 24, &[1, 3, 6]),
        );
    }
}

/// Al-Shaer and Hamed, IEEE Journal on Selected Areas in Communications 23(10), 2005, from public
/// copies of the table: twelve lines of which the first that matches decides.
mod first_match {
    use super::*;

    /// Protocol (tcp 0), source, target, port, in the order of the ruleset's values.
    type Packet = [u64; 4];

    /// Whether each line, numbered from one, matches, and whether it accepts.
    fn lines(packet: &Packet) -> [(bool, bool); 12] {
        let [protocol, source, target, port] = *packet;
        let (tcp, udp) = (protocol == 0, protocol == 1);
        let subnet = source < 3;
        let [at_33_40, at_35] = [target == 0, target == 1];
        let [p21, p53, p80] = [port == 0, port == 1, port == 2];
        [
            (tcp && source == 0 && p80, false),
            (tcp && subnet && p80, true),
            (tcp && at_33_40 && p80, true),
            (tcp && subnet && at_33_40 && p80, false),
            (tcp && source == 1 && p21, false),
            (tcp && subnet && p21, true),
            (tcp && subnet && at_33_40 && p21, true),
            (tcp, false),
            (udp && subnet && at_33_40 && p53, true),
            (udp && at_33_40 && p53, true),
            (udp && source == 3 && at_35, true),
            (udp, false),
        ]
    }

    fn packets() -> Vec<Packet> {
        let mut all = Vec::new();
        for protocol in 0..2 {
            for source in 0..5 {
                for target in 0..3 {
                    all.extend((0..4).map(|port| [protocol, source, target, port]));
                }
            }
        }
        all
    }

    /// The decision of the lines that are kept: the number of the first that matches, and what it says.
    fn decide(packet: &Packet, kept: u16) -> Option<(usize, bool)> {
        let lines = lines(packet).into_iter().zip(1..);
        let mut matching = lines.filter(|((hit, _), number)| *hit && kept >> (number - 1) & 1 == 1);
        matching
            .next()
            .map(|((_, accept), number)| (number, accept))
    }

    const EVERY: u16 = 0b1111_1111_1111;

    fn same(kept: u16) -> bool {
        let answer = |packet, kept| decide(packet, kept).map(|(_, accept)| accept);
        packets()
            .iter()
            .all(|packet| answer(packet, kept) == answer(packet, EVERY))
    }

    fn mask(numbers: &[u16]) -> u16 {
        numbers.iter().map(|number| 1 << (number - 1)).sum()
    }

    fn told(ruleset: &Ruleset) -> BTreeMap<Packet, Vec<String>> {
        let ids = ["protocol", "source", "target", "port"].map(|name| attribute(ruleset, name));
        let on = dimension(ruleset, "action");
        outcomes(ruleset)
            .map(|(scenario, outcome)| {
                let packet = ids.map(|id| scenario.get(id).unwrap().0);
                let values = names(ruleset, on, outcome.rulings[on.index()].values);
                (packet, values.into_iter().map(str::to_owned).collect())
            })
            .collect()
    }

    #[test]
    fn twelve_lines() {
        let applied: BTreeSet<usize> = packets()
            .iter()
            .filter_map(|packet| decide(packet, EVERY))
            .map(|found| found.0)
            .collect();
        let idle: Vec<usize> = (1..=12)
            .filter(|number| !applied.contains(number))
            .collect();
        let removable: Vec<usize> = (1..=12)
            .filter(|number| same(EVERY & !(1 << (number - 1))))
            .collect();
        assert_eq!(
            (idle.as_slice(), removable.as_slice()),
            (&[4, 7][..], &[4, 7, 9][..])
        );

        let ruleset = published("first-match");
        let checked = checked(&ruleset);
        assert_eq!(space(&checked), "120");
        assert!(proved(&checked, Kind::Gap) && proved(&checked, Kind::Contradiction));
        assert_eq!(said_of(&ruleset, &checked, Kind::Displaced), ["4", "7"]);
        assert_eq!(said_of(&ruleset, &checked, Kind::NoEffect), ["9"]);
        let told = told(&ruleset);
        for packet in packets() {
            let (_, accept) = decide(&packet, EVERY).unwrap();
            assert_eq!(
                told[&packet],
                [if accept { "accept" } else { "deny" }],
                "{packet:?}"
            );
        }
    }

    #[test]
    fn smallest_equivalent_list() {
        let nine = mask(&[1, 2, 3, 5, 6, 8, 10, 11, 12]);
        assert!(same(nine));
        let fewest = (0..=EVERY)
            .filter(|kept| same(*kept))
            .map(u16::count_ones)
            .min();
        assert_eq!(fewest, Some(9));

        let short = published("first-match-nine");
        let checked = checked(&short);
        for kind in [
            Kind::Gap,
            Kind::Contradiction,
            Kind::Displaced,
            Kind::NoEffect,
        ] {
            assert!(proved(&checked, kind), "{kind}");
        }
        assert_eq!(told(&short), told(&published("first-match")));
    }
}

/// Badminton World Federation, Laws of Badminton, law 7 (from memory): 21 points; at 20-all two
/// clear points; at 29-all the thirtieth point.
mod badminton {
    use super::*;

    type Score = (u64, u64);

    fn over((ours, theirs): Score) -> bool {
        let won = |a: u64, b: u64| (a >= 21 && a >= b + 2) || (a == 30 && b == 29);
        won(ours, theirs) || won(theirs, ours)
    }

    /// Every score that rallies can lead to: unfinished, and final.
    fn played() -> (BTreeSet<Score>, BTreeSet<Score>) {
        let (mut unfinished, mut finals) = (BTreeSet::new(), BTreeSet::new());
        let mut open = vec![(0, 0)];
        while let Some(score) = open.pop() {
            if over(score) {
                finals.insert(score);
            } else if unfinished.insert(score) {
                open.extend([(score.0 + 1, score.1), (score.0, score.1 + 1)]);
            }
        }
        (unfinished, finals)
    }

    fn scores(ruleset: &Ruleset, basis: Basis) -> BTreeSet<Score> {
        let [ours, theirs] = ["ours", "theirs"].map(|name| attribute(ruleset, name));
        outcomes(ruleset)
            .filter(|(_, outcome)| outcome.rulings[0].basis == basis)
            .map(|(scenario, _)| {
                (
                    scenario.get(ours).unwrap().0,
                    scenario.get(theirs).unwrap().0,
                )
            })
            .collect()
    }

    #[test]
    fn final_and_unfinished_scores() {
        let (unfinished, finals) = played();
        let ours = finals.iter().filter(|(ours, theirs)| ours > theirs).count() as u64;
        assert_eq!((unfinished.len(), finals.len(), ours), (468, 60, 30));

        let ruleset = published("badminton");
        let checked = checked(&ruleset);
        assert_eq!(space(&checked), "528");
        assert!(proved(&checked, Kind::Contradiction));
        let gaps = shares(&ruleset, &checked, Kind::Gap);
        assert_eq!(gaps.values().collect::<Vec<_>>(), [&468]);
        for side in ["we_win", "they_win"] {
            assert_eq!(count(&ruleset, &allowed(&ruleset, "game", side)), ours);
        }
        assert_eq!(scores(&ruleset, Basis::Clauses), finals);
        assert_eq!(scores(&ruleset, Basis::Gap), unfinished);
    }

    #[test]
    fn the_exclusive_reading_clashes_at_the_cap() {
        let ruleset = published("badminton-exclusive");
        let checked = checked(&ruleset);
        let clashes = shares(&ruleset, &checked, Kind::Contradiction);
        let pair = |other: &str| BTreeSet::from(["7.4, only so".to_owned(), other.to_owned()]);
        assert_eq!(clashes, [(pair("7.5"), 1), (pair("7.5, theirs"), 1)].into());
        assert_eq!(
            scores(&ruleset, Basis::Contradiction),
            [(30, 29), (29, 30)].into()
        );
    }
}

/// FIBA Official Basketball Rules 2012 and 2014, article 50 (from memory): the shot clock.
mod basketball {
    use super::*;

    type Shot = (bool, bool);

    /// Whether the ring was touched and the same team regains, and the seconds then given.
    fn told(edition: &str) -> BTreeMap<Shot, Vec<String>> {
        let ruleset = published(&format!("shot-clock-{edition}"));
        let ids = ["ring_touched", "regained_by"].map(|name| attribute(&ruleset, name));
        let on = dimension(&ruleset, "clock");
        outcomes(&ruleset)
            .map(|(scenario, outcome)| {
                let [touched, by] = ids.map(|id| scenario.get(id).unwrap());
                let given = names(&ruleset, on, outcome.rulings[on.index()].values);
                let given = given.into_iter().map(str::to_owned).collect();
                ((touched == Code(1), by == Code(0)), given)
            })
            .collect()
    }

    #[test]
    fn the_editions_differ_where_the_same_team_regains() {
        let (old, new) = (told("2012"), told("2014"));
        assert_eq!(old.len(), 4);
        for ((touched, same_team), given) in &old {
            let then = if *touched { "s24" } else { "runs_on" };
            let now = if *touched && *same_team { "s14" } else { then };
            assert_eq!(given, &[then]);
            assert_eq!(new[&(*touched, *same_team)], [now]);
        }
        let differ = old.iter().filter(|(shot, given)| new[shot] != **given);
        let differ: Vec<Shot> = differ.map(|(shot, _)| *shot).collect();
        assert_eq!(differ, [(true, true)]);
    }

    /// How many times shown are neither 14 or more nor 13 or less, counted in tenths.
    fn left_out(step: i32) -> u64 {
        let shown = (0..=240).filter(|tenths| tenths % step == 0);
        shown
            .filter(|tenths| *tenths < 140 && *tenths > 130)
            .count() as u64
    }

    #[test]
    fn the_throw_in_has_a_hole_at_tenths_only() {
        assert_eq!((left_out(10), left_out(1)), (0, 9));
        let seconds = published("throw-in-seconds");
        assert!(proved(&checked(&seconds), Kind::Gap));
        let tenths = published("throw-in-tenths");
        let checked = checked(&tenths);
        let gaps = shares(&tenths, &checked, Kind::Gap);
        assert_eq!(gaps.values().collect::<Vec<_>>(), [&9]);
        let found = checked
            .findings
            .iter()
            .find(|found| found.kind == Kind::Gap);
        assert_eq!(
            found.unwrap().general.lines,
            ["shown is between 13.1 and 13.9"]
        );
    }

    #[test]
    fn the_hole_is_mended_by_either_neighbour() {
        let offered = repairs(&published("throw-in-tenths"), Kind::Gap);
        let values: Vec<(bool, bool, &str)> = offered
            .iter()
            .map(|(edit, changed)| {
                (
                    edit.contains("clock is as_shown"),
                    edit.contains("clock is s14"),
                    changed.as_str(),
                )
            })
            .collect();
        assert_eq!(offered.len(), 2, "{offered:?}");
        assert!(values.contains(&(true, false, "9")), "{offered:?}");
        assert!(values.contains(&(false, true, "9")), "{offered:?}");
    }
}

/// Futsal Laws of the Game, law 15 (from memory), the penalty kick: what an infringement leads to.
mod futsal {
    use super::*;

    /// What each clause that applies to a kick leads to.
    fn led_to(kick: [bool; 4], both_teams: bool) -> BTreeSet<&'static str> {
        let [goal, defenders, attackers, second_touch] = kick;
        let mut found = BTreeSet::new();
        if both_teams && defenders && attackers {
            found.insert("retaken");
        } else {
            if defenders {
                found.insert(if goal { "goal_stands" } else { "retaken" });
            }
            if attackers {
                found.insert(if goal {
                    "retaken"
                } else {
                    "indirect_free_kick"
                });
            }
        }
        if second_touch {
            found.insert("indirect_free_kick");
        }
        found
    }

    fn clashing(both_teams: bool) -> BTreeSet<[bool; 4]> {
        let kicks = (0..16u8).map(|bits| [0, 1, 2, 3].map(|place| bits >> place & 1 == 1));
        kicks
            .filter(|kick| led_to(*kick, both_teams).len() > 1)
            .collect()
    }

    fn compare(name: &str, expected: &BTreeSet<[bool; 4]>) {
        let ruleset = published(name);
        let checked = checked(&ruleset);
        assert_eq!(space(&checked), "16");
        assert!(proved(&checked, Kind::Gap));
        assert_eq!(
            count(&ruleset, &clash(&ruleset, "outcome")),
            expected.len() as u64
        );
        assert_eq!(count(&ruleset, &gap(&ruleset, "outcome")), 0);
        let ids = ["goal", "defenders", "attackers", "second_touch"]
            .map(|name| attribute(&ruleset, name));
        let found: BTreeSet<[bool; 4]> = outcomes(&ruleset)
            .filter(|(_, outcome)| outcome.rulings[0].basis == Basis::Contradiction)
            .map(|(scenario, _)| ids.map(|id| scenario.get(id) == Some(Code(1))))
            .collect();
        assert_eq!(found, *expected);
    }

    #[test]
    fn seven_then_five_of_sixteen() {
        let (without, with) = (clashing(false), clashing(true));
        assert_eq!((without.len(), with.len()), (7, 5));
        assert!(
            with.iter().all(|kick| kick[3]),
            "each with the second touch"
        );
        compare("futsal", &without);
        compare("futsal-both-teams", &with);
    }
}

/// The classics of default logic: the penguin that does not fly (folklore), and the two-sided
/// president (Reiter and Criscuolo, IJCAI 1981, from memory).
mod defaults {
    use super::*;

    fn lines(name: &str) -> Vec<(Vec<String>, String)> {
        let ruleset = published(name);
        let checked = checked(&ruleset);
        let found = checked
            .findings
            .iter()
            .filter(|found| found.kind == Kind::Contradiction);
        found
            .map(|found| {
                let share = found.share.as_ref().unwrap().scenarios.to_string();
                (found.general.lines.clone(), share)
            })
            .collect()
    }

    #[test]
    fn the_penguin() {
        assert_eq!(
            lines("penguin"),
            [(vec!["penguin".to_owned()], "1".to_owned())]
        );
        let ruleset = published("penguin-precedence");
        assert!(proved(&checked(&ruleset), Kind::Contradiction));
        let penguin = [("bird", "yes"), ("penguin", "yes")];
        assert_eq!(common::ruled(&ruleset, &penguin, "flies"), ["does_not_fly"]);
        let robin = [("bird", "yes"), ("penguin", "no")];
        assert_eq!(common::ruled(&ruleset, &robin, "flies"), ["flies"]);
    }

    /// That the narrower of two rules prevails was the classical answer.
    #[test]
    fn the_penguin_is_the_narrower() {
        let offered = repairs(&published("penguin"), Kind::Contradiction);
        let (edit, changed) = &offered[0];
        assert!(edit.contains("being the narrower"), "{offered:?}");
        assert_eq!(changed, "1");
        let rest = &offered[1..];
        assert!(
            !rest
                .iter()
                .any(|(edit, _)| edit.contains("being the narrower"))
        );
    }

    /// Of a Quaker and a Republican neither is the narrower: both ways are offered.
    #[test]
    fn the_president_may_be_ruled_either_way() {
        let offered = repairs(&published("president"), Kind::Contradiction);
        let prevailing = offered.iter().filter(|(edit, changed)| {
            edit.contains("prevail over") && !edit.contains("narrower") && changed == "1"
        });
        assert_eq!(prevailing.count(), 2, "{offered:?}");
    }

    #[test]
    fn the_president() {
        let overlap = vec!["quaker and republican".to_owned()];
        assert_eq!(lines("president"), [(overlap, "1".to_owned())]);
        let ruleset = published("president-precedence");
        assert!(proved(&checked(&ruleset), Kind::Contradiction));
        let president = [("quaker", "yes"), ("republican", "yes")];
        assert_eq!(
            common::ruled(&ruleset, &president, "view"),
            ["not_pacifist"]
        );
    }
}

/// Shapes of precedence, after P. M. Dung, Artificial Intelligence 77 (1995), from memory: a goes
/// before b, and b before c.
mod precedence {
    use super::*;

    fn counted(name: &str) -> (Vec<&'static str>, Vec<&'static str>) {
        let ruleset = published(name);
        let outcome = Evaluator::new(&ruleset).outcome(&scenario(&ruleset, &[("told", "yes")]));
        let which = |keep: &dyn Fn(evenhand::model::ClauseId) -> bool| {
            let ids = ["a", "b", "c"].into_iter();
            ids.filter(|id| keep(clause(&ruleset, id))).collect()
        };
        (
            which(&|clause| outcome.in_force.contains(clause.index())),
            which(&|clause| outcome.stands(clause, dimension(&ruleset, "answer"))),
        )
    }

    #[test]
    fn chains() {
        let all = vec!["a", "b", "c"];
        assert_eq!(
            counted("chain-disapplies"),
            (vec!["a", "c"], vec!["a", "c"])
        );
        assert_eq!(counted("chain-notwithstanding"), (all, vec!["a"]));
        // In both, no ruling of the second ever stands; in one of them it keeps the third from standing.
        for (name, displaced, advice) in [
            ("chain-disapplies", &["b"][..], "Repeal it"),
            ("chain-notwithstanding", &["b", "c"], "would change rulings"),
        ] {
            let ruleset = published(name);
            let checked = checked(&ruleset);
            assert_eq!(
                said_of(&ruleset, &checked, Kind::Displaced),
                displaced,
                "{name}"
            );
            let mut findings = checked.findings.iter();
            let told = findings.find(|finding| finding.kind == Kind::Displaced);
            let help = told.and_then(|finding| finding.help.as_deref());
            assert!(help.is_some_and(|help| help.contains(advice)), "{help:?}");
        }
    }

    #[test]
    fn circles_are_refused_by_name() {
        for (size, ids) in [("two", &["a", "b"][..]), ("three", &["a", "b", "c"][..])] {
            for relation in ["disapplies", "notwithstanding"] {
                let path = format!("tests/published/circle-of-{size}-{relation}.yaml");
                let problems = load_text(&path, &text_of(&path)).expect_err("a circle");
                let said = problems.iter().map(|problem| {
                    let others = problem.others.iter().map(|(_, words)| words.as_str());
                    let help = problem.help.as_deref().unwrap_or("");
                    let own = [problem.headline.as_str(), &problem.label, help];
                    own.into_iter().chain(others).collect::<Vec<_>>().join("\n")
                });
                let said = said.collect::<Vec<_>>().join("\n");
                for id in ids {
                    assert!(said.contains(&format!("clause {id}")), "{path}: {said}");
                }
            }
        }
    }
}

/// World Athletics, Technical Rules 17 and Competition Rules 31 (from memory): wind from behind of
/// up to 2.0 metres a second counts.
#[test]
fn wind_turns_between_2_0_and_2_1() {
    let ruleset = published("wind");
    let checked = checked(&ruleset);
    assert_eq!(space(&checked), "199");
    assert!(proved(&checked, Kind::Gap) && proved(&checked, Kind::Contradiction));
    let mut before = None;
    for tenths in -99i32..=99 {
        let sign = if tenths < 0 { "-" } else { "" };
        let wind = match (tenths.abs() / 10, tenths.abs() % 10) {
            (whole, 0) => format!("{sign}{whole}"),
            (whole, tenth) => format!("{sign}{whole}.{tenth}"),
        };
        let mark = common::ruled(&ruleset, &[("wind", &wind)], "mark");
        let expected = if tenths <= 20 {
            "counts"
        } else {
            "does_not_count"
        };
        assert_eq!(mark, [expected], "{wind}");
        let milder = before == Some("does_not_count") && expected == "counts";
        assert!(!milder, "more wind is never ruled milder");
        before = Some(expected);
    }
    assert_eq!(count(&ruleset, &allowed(&ruleset, "mark", "counts")), 120);
    assert_eq!(
        count(&ruleset, &allowed(&ruleset, "mark", "does_not_count")),
        79
    );
}

/// The same rules: more wind is never ruled milder, and a head wind never matters; sprint and jump are
/// ruled alike. Turned round, the first is refuted by the two values at the limit.
#[test]
fn more_wind_is_never_ruled_milder() {
    let text = text_of("tests/published/wind.yaml");
    let text = text.replace(
        "attributes:\n",
        "attributes:\n  event:\n    choice: [sprint, jump]\n",
    ) + "  - id: one limit for all\n    impartial_to: [event]\n";
    let promises = [
        "more wind is never ruled milder",
        "head wind never matters",
        "one limit for all",
    ];
    let outcomes = |text: &str| -> Vec<Outcome> {
        let checked = checked(&load_text("published.yaml", text).unwrap());
        let verdict = |id: &str| {
            let mut verdicts = checked.verdicts.iter();
            let verdict = verdicts.find(|it| it.principle.as_deref() == Some(id));
            verdict.unwrap().outcome.clone()
        };
        promises.map(verdict).into()
    };
    let kept = Outcome::Proved;
    assert_eq!(outcomes(&text), [kept.clone(), kept.clone(), kept.clone()]);
    let turned = text
        .replace("wind at most most_wind", "wind more than the_limit")
        .replace("wind more than most_wind", "wind at most most_wind")
        .replace("the_limit", "most_wind");
    assert_eq!(outcomes(&turned), [Outcome::Found, Outcome::Found, kept]);
    let ruleset = load_text("published.yaml", &turned).unwrap();
    let checked = checked(&ruleset);
    let mut findings = checked.findings.iter();
    let found = findings
        .find(|it| it.principle.as_deref() == Some(promises[0]))
        .unwrap();
    let wind = attribute(&ruleset, "wind");
    let tenths = |scenario: &Option<evenhand::logic::Scenario>| {
        let steps = scenario.as_ref().and_then(|scenario| scenario.get(wind));
        steps.map(|Code(steps)| i64::try_from(steps).unwrap() - 99)
    };
    let pair = [tenths(&found.scenario), tenths(&found.pair)];
    assert_eq!(pair, [Some(20), Some(21)], "{}", found.headline);
}

/// Independence pairs, after NASA/TM-2001-210876: for each part of a condition, two scenarios that
/// differ in it alone and are ruled differently. A part that has one is not surplus.
mod independence {
    use super::*;

    fn clause_of(condition: &str) -> Ruleset {
        let names = ["a", "b", "c", "d"].map(|name| format!("  {name}:\n"));
        let text = format!(
            "ruleset: One clause\nattributes:\n{}rulings:\n  signal:\n    choice: [off, on]\n    otherwise: off\nclauses:\n  - id: \"1\"\n    when: {condition}\n    ruling: {{signal: on}}\n",
            names.concat()
        );
        load_text("one.yaml", &text).expect("a ruleset")
    }

    /// For each of the names, how many pairs differ in it alone and turn the truth table.
    fn pairs(names: usize, holds: impl Fn(&[bool]) -> bool) -> Vec<usize> {
        let row = |bits: usize| -> Vec<bool> { (0..names).map(|at| bits >> at & 1 == 1).collect() };
        let one = |at: usize| {
            let without = (0..1usize << names).filter(move |bits| bits >> at & 1 == 0);
            without
                .filter(|bits| holds(&row(*bits)) != holds(&row(bits | 1 << at)))
                .count()
        };
        (0..names).map(one).collect()
    }

    fn surplus(ruleset: &Ruleset) -> Vec<&str> {
        let found = checked(ruleset).findings;
        let found = found.iter().filter(|it| it.kind == Kind::SurplusWords);
        let spans: Vec<_> = found.flat_map(|it| it.labels.clone()).collect();
        spans
            .into_iter()
            .map(|(span, _)| ruleset.sources.slice(span))
            .collect()
    }

    #[test]
    fn parts_with_a_pair_are_not_surplus() {
        let check = |condition: &str, table: &dyn Fn(&[bool]) -> bool, expected: &[usize]| {
            assert_eq!(pairs(expected.len(), table), expected, "{condition}");
            let ruleset = clause_of(condition);
            for (scenario, outcome) in outcomes(&ruleset) {
                let row: Vec<bool> = ["a", "b", "c", "d"]
                    .iter()
                    .map(|name| scenario.get(attribute(&ruleset, name)) == Some(Code(1)))
                    .collect();
                assert_eq!(outcome.met.contains(0), table(&row), "{condition} {row:?}");
            }
            assert_eq!(surplus(&ruleset), Vec::<&str>::new(), "{condition}");
            assert!(proved(&checked(&ruleset), Kind::SurplusWords));
        };
        check("a and (b or c)", &|r| r[0] && (r[1] || r[2]), &[3, 1, 1]);
        check(
            "(a or b) and (c or d)",
            &|r| (r[0] || r[1]) && (r[2] || r[3]),
            &[3, 3, 3, 3],
        );
        check("a and b and c", &|r| r[0] && r[1] && r[2], &[1, 1, 1]);
        check(
            "at least 2 of (a, b, c)",
            &|r| r.iter().take(3).filter(|it| **it).count() >= 2,
            &[2, 2, 2],
        );
    }

    /// Absorption and the like: laws of Boolean algebra, no source.
    #[test]
    fn parts_without_a_pair_are_surplus() {
        // `a and (a or b)`
        let absorbed = |row: &[bool]| row.first() == Some(&true) && row.contains(&true);
        assert_eq!(pairs(2, absorbed), [2, 0]);
        for (condition, expected) in [
            ("a and (a or b)", vec!["a or b"]),
            ("a or (a and b)", vec!["a and b"]),
            ("a and (not a or b)", vec!["not a"]),
            ("(a and b) or (a and not b)", vec!["b", "not b"]),
        ] {
            let ruleset = clause_of(condition);
            let found = surplus(&ruleset);
            for part in expected {
                assert!(found.contains(&part), "{condition}: {found:?}");
            }
        }
    }
}
