//! Incidents told, beside what is expected of the words.
#![allow(clippy::unwrap_used, reason = "tests")]

use super::*;
use crate::load::load;

const RULES: &str = "
ruleset: t
attributes:
  matter:
    label: what is to be ruled on
    choice: {hold: a hold, words: words}
  hold:
    label: the hold
    choice: {pin: pins the opponent, lock: locks a joint}
    asked_when: matter is hold
  joint:
    label: joint that is loaded
    choice: [elbow, knee]
    asked_when: hold is lock
  seconds:
    label: how long it lasts
    number: 0 to 9 or more
    unit: s
    asked_when: hold is pin
  touching:
    label: what touches the mat
    several: [hand, knee]
  deliberate:
    label: it is done on purpose
terms:
  long:
    label: long hold
    narrow: seconds at least 7
    broad: seconds at least 5
rulings:
  penalty:
    label: penalty
    scale: {none: no penalty, caution: a caution}
    otherwise: none
clauses:
  - id: \"1\"
    when: long or deliberate or joint is knee or touching includes hand
    ruling: {penalty: caution}
";

fn facts(ruleset: &Ruleset, given: &[(&str, u64)]) -> Established {
    let mut facts = Established::nothing(ruleset.attributes.len());
    for (name, code) in given {
        let at = ruleset.attributes.iter().position(|it| it.name == *name);
        facts.set(AttributeId::new(at.unwrap()), Some(Code(*code)));
    }
    facts
}

fn told(given: &[(&str, u64)], matters: Option<&[&str]>) -> String {
    let ruleset = load("t", RULES).unwrap().ruleset;
    let matters: Option<BTreeSet<AttributeId>> = matters.map(|names| {
        let all = ruleset.attributes.iter().enumerate();
        all.filter(|(_, it)| names.contains(&it.name.as_str()))
            .map(|(index, _)| AttributeId::new(index))
            .collect()
    });
    tell(&ruleset, &facts(&ruleset, given), matters.as_ref()).to_string()
}

#[test]
fn facts_stand_beside_what_they_are_asked_because_of() {
    let given = [
        ("matter", 0),
        ("hold", 1),
        ("joint", 1),
        ("touching", 3),
        ("deliberate", 1),
    ];
    assert_eq!(
        told(&given, None),
        "A hold, locks a joint\n\
         What is to be ruled on: a hold. The hold: locks a joint; joint that is loaded: knee. \
         What touches the mat: hand and knee. It is done on purpose."
    );
}

#[test]
fn what_is_as_usual_and_has_no_bearing_is_left_out() {
    let given = [
        ("matter", 0),
        ("hold", 1),
        ("joint", 0),
        ("touching", 2),
        ("deliberate", 0),
    ];
    assert_eq!(
        told(&given, Some(&["hold", "joint"])),
        "A hold, locks a joint\nWhat is to be ruled on: a hold. \
         The hold: locks a joint; joint that is loaded: elbow. \
         Besides: what touches the mat: knee."
    );
    assert_eq!(
        told(&given, Some(&["deliberate"])).lines().last().unwrap(),
        "It is done on purpose: no. Besides: the hold: locks a joint; what touches the mat: knee."
    );
}

#[test]
fn a_vague_term_is_said_to_be_open() {
    let given = [("matter", 0), ("hold", 0), ("seconds", 5), ("long", 1)];
    assert_eq!(
        told(&given, Some(&["seconds"])),
        "A hold, pins the opponent\nWhat is to be ruled on: a hold. \
         The hold: pins the opponent; how long it lasts: 5 s. \
         Besides: \"long hold\" can be read either way here, and is taken broadly."
    );
    let top = [("seconds", 9)];
    assert_eq!(
        told(&top, None),
        "How long it lasts: 9 s or more\nHow long it lasts: 9 s or more."
    );
    assert_eq!(told(&[], None), "An incident\n");
}

#[test]
fn differences_say_what_comes_in_and_what_falls_away() {
    let ruleset = load("t", RULES).unwrap().ruleset;
    let whole = |given: &[(&str, u64)]| facts(&ruleset, given).scenario(&ruleset).unwrap();
    let common = [("matter", 0), ("touching", 0), ("deliberate", 0)];
    let with = |more: &[(&'static str, u64)]| [&common[..], more].concat();
    let lock = whole(&with(&[("hold", 1), ("joint", 0)]));
    let knee = whole(&with(&[("hold", 1), ("joint", 1)]));
    let pin = whole(&with(&[("hold", 0), ("seconds", 6), ("long", 0)]));
    let words = |one: &Scenario, other: &Scenario| -> Vec<(Change, String)> {
        let found = differences(&ruleset, one, other);
        found.into_iter().map(|it| (it.change, it.words)).collect()
    };
    assert_eq!(
        words(&lock, &knee),
        [(
            Change::Value,
            "joint that is loaded: knee (not elbow)".to_owned()
        )]
    );
    assert_eq!(
        words(&lock, &pin),
        [
            (
                Change::Value,
                "the hold: pins the opponent (not locks a joint)".to_owned()
            ),
            (Change::NewlyAsked, "how long it lasts: 6 s".to_owned()),
            (
                Change::NewlyAsked,
                "\"long hold\" can be read either way here, and is taken narrowly".to_owned()
            ),
            (Change::NoLongerAsked, "joint that is loaded".to_owned()),
        ]
    );
    assert!(words(&lock, &lock).is_empty());
}
