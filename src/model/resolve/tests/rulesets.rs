//! Clauses, their groups and precedence, and the order of working out.

use super::{ruleset, shown};
use crate::model::{Meaning, Origin, Promise, Ruleset, Step, ValueSet};

fn ids(ruleset: &Ruleset, clauses: &[crate::model::ClauseId]) -> String {
    let ids: Vec<&str> = clauses.iter().map(|id| ruleset[*id].id.as_str()).collect();
    ids.join(" ")
}

const HEAD: &str = "
ruleset: Clauses
attributes:
  ended:
  deliberate:
  blood:
  force:
    scale: [light, full]
rulings:
  penalty:
    scale: [none, caution, out]
    otherwise: none
  play:
    choice: [continues, stops]
";

#[test]
fn opening_words_of_groups_come_first_and_the_widest_outermost() {
    let text = format!(
        "{HEAD}
headings:
  '7.1': {{title: Locks, when: deliberate}}
  '7': {{title: Prohibited acts, when: not ended}}
  Safety rules: {{covers: ['7.1(a)', '9'], when: blood}}
clauses:
  - id: 7.1(a)
    when: force is full
    unless: ended
    ruling: {{penalty: caution}}
  - id: '7.10'
    ruling: {{penalty: none}}
  - id: '71'
    ruling: {{play: stops}}
  - id: '7.1.2'
    unless: blood
    ruling: {{penalty: out}}
  - id: '9'
    ruling: {{play: stops, penalty: {{may_be: [out, caution]}}}}
"
    );
    let ruleset = ruleset(&text);
    let whens: Vec<String> = ruleset
        .clauses
        .iter()
        .map(|clause| format!("{}: {}", clause.id, shown(&ruleset, &clause.when)))
        .collect();
    assert_eq!(
        whens,
        [
            "7.1(a): all(not([ended 10]), [deliberate 10], [blood 10], [force in {full}], unless([ended 10]))",
            "7.10: not([ended 10])",
            "71: always",
            "7.1.2: all(not([ended 10]), [deliberate 10], unless([blood 10]))",
            "9: [blood 10]",
        ]
    );
    let covers: Vec<String> = ruleset
        .headings
        .iter()
        .map(|heading| ids(&ruleset, &heading.covers))
        .collect();
    assert_eq!(covers, ["7.1(a) 7.1.2", "7.1(a) 7.10 7.1.2", "7.1(a) 9"]);
    let rulings: Vec<(usize, u128)> = ruleset.clauses[4]
        .rulings
        .iter()
        .map(|(dimension, values)| (dimension.index(), values.bits()))
        .collect();
    assert_eq!(rulings, [(0, 0b110), (1, 0b10)]);
}

#[test]
fn of_groups_with_the_same_clauses_the_shorter_number_is_outermost() {
    let text = format!(
        "{HEAD}
headings:
  '7.1': {{when: deliberate}}
  '7': {{when: not ended}}
clauses:
  - {{id: '7.1.1', ruling: {{penalty: caution}}}}
"
    );
    let ruleset = ruleset(&text);
    let when = shown(&ruleset, &ruleset.clauses[0].when);
    assert_eq!(when, "all(not([ended 10]), [deliberate 10])");
}

#[test]
fn references_and_both_directions_of_precedence() {
    let text = format!(
        "{HEAD}
headings:
  Basics: {{covers: ['5', '8']}}
clauses:
  - {{id: '5', ruling: {{play: stops}}}}
  - {{id: '5.1', ruling: {{play: stops}}}}
  - {{id: '5(b)', ruling: {{play: stops}}}}
  - {{id: 5a, ruling: {{play: stops}}}}
  - {{id: '50', ruling: {{play: stops}}}}
  - {{id: '6', ruling: {{play: stops}}, notwithstanding: '5'}}
  - {{id: '7', ruling: {{play: stops}}, subject_to: ['6', '6'], disapplies: Basics}}
  - {{id: '8', ruling: {{play: stops}}}}
  - {{id: '9', ruling: {{play: stops}}, notwithstanding: every other clause}}
"
    );
    let ruleset = ruleset(&text);
    let shown: Vec<String> = ruleset
        .clauses
        .iter()
        .map(|clause| {
            format!(
                "{}: over {}; under {}; off {}; off by {}",
                clause.id,
                ids(&ruleset, &clause.prevails_over),
                ids(&ruleset, &clause.yields_to),
                ids(&ruleset, &clause.disapplies),
                ids(&ruleset, &clause.disapplied_by)
            )
        })
        .collect();
    assert_eq!(
        shown,
        [
            "5: over ; under 6 9; off ; off by 7",
            "5.1: over ; under 6 9; off ; off by 7",
            "5(b): over ; under 6 9; off ; off by 7",
            "5a: over ; under 9; off ; off by ",
            "50: over ; under 9; off ; off by ",
            "6: over 5 5.1 5(b) 7; under 9; off ; off by ",
            "7: over ; under 6 9; off 5 5.1 5(b) 8; off by ",
            "8: over ; under 9; off ; off by 7",
            "9: over 5 5.1 5(b) 5a 50 6 7 8; under ; off ; off by ",
        ]
    );
    let position = |step: Step| ruleset.order.iter().position(|it| *it == step).unwrap();
    for (index, clause) in ruleset.clauses.iter().enumerate() {
        let own = position(Step::Clause(crate::model::ClauseId::new(index)));
        for before in clause.yields_to.iter().chain(&clause.disapplied_by) {
            assert!(position(Step::Clause(*before)) < own);
        }
        for (dimension, _) in &clause.rulings {
            assert!(own < position(Step::Dimension(*dimension)));
        }
    }
    assert_eq!(ruleset.order.len(), 11);
}

#[test]
fn readings_stand_after_what_their_term_reads() {
    let ruleset = ruleset(
        "
ruleset: Asking
attributes:
  late: {asked_when: long_hold}
  held: {number: 0 to 9, asked_when: holding}
  holding:
terms:
  gripping: {means: holding}
  long_hold: {narrow: held at least 5 and gripping, broad: held at least 3}
rulings:
  play: {choice: [continues, stops]}
clauses:
  - {id: '1', ruling: {play: stops}}
principles:
  - {id: P1, impartial_to: [long_hold, late]}
",
    );
    let names: Vec<&str> = ruleset
        .asking_order
        .iter()
        .map(|id| ruleset[*id].name.as_str())
        .collect();
    assert_eq!(names, ["holding", "held", "long_hold", "late"]);
    let reading = &ruleset.attributes[3];
    assert!(reading.judged && reading.asked_when.is_none());
    assert!(matches!(reading.origin, Origin::Reading(_)));
    let Meaning::Vague { reading, .. } = &ruleset.terms[1].meaning else {
        panic!("a vague term");
    };
    assert_eq!(reading.index(), 3);
    let Promise::ImpartialTo(ids) = &ruleset.principles[0].promise else {
        panic!("a promise of impartiality");
    };
    let ids: Vec<usize> = ids.iter().map(|id| id.index()).collect();
    assert_eq!(ids, [0, 3]);
}

#[test]
fn silence_and_sets_of_rulings() {
    let ruleset = ruleset(
        "
ruleset: Silence
attributes:
  foul:
rulings:
  sanctions: {choice: [advice, time, exclusion], when_several: all_apply, otherwise: [time, advice]}
  nothing: {choice: [a, b], when_several: all_apply, otherwise: []}
  grade: {scale: [low, high], when_several: highest, required_when: sanctions includes time}
clauses:
  - {id: '1', when: foul, ruling: {sanctions: exclusion, nothing: a, grade: low}}
",
    );
    let otherwise: Vec<Option<u128>> = ruleset
        .dimensions
        .iter()
        .map(|dimension| dimension.otherwise.map(ValueSet::bits))
        .collect();
    assert_eq!(otherwise, [Some(0b11), Some(0), None]);
    assert_eq!(
        ruleset.dimensions[2]
            .required_when
            .as_ref()
            .map(|condition| shown(&ruleset, condition))
            .as_deref(),
        Some("<sanctions has 1..1 of {time}>")
    );
}

#[test]
fn ten_thousand_clauses_are_no_trouble() {
    use std::fmt::Write;
    let mut text = String::from("ruleset: Many\nattributes:\n");
    for index in 0..40 {
        writeln!(text, "  a{index}: {{choice: [u, v, w]}}").unwrap();
    }
    text.push_str(
        "rulings:\n  play: {choice: [continues, stops], otherwise: continues}\nclauses:\n",
    );
    for index in 0..10_000 {
        let (one, other) = (index % 40, (index * 7 + 3) % 40);
        writeln!(
            text,
            "  - {{id: '{}.{}', when: a{one} is u and a{other} is not v, ruling: {{play: stops}}}}",
            index / 100,
            index % 100
        )
        .unwrap();
    }
    text.push_str("  - {id: last, ruling: {play: stops}, notwithstanding: every other clause}\n");
    let ruleset = ruleset(&text);
    assert_eq!(ruleset.clauses.len(), 10_001);
    assert_eq!(ruleset.clauses[10_000].prevails_over.len(), 10_000);
    assert_eq!(
        ruleset.order.first(),
        Some(&Step::Clause(crate::model::ClauseId::new(10_000)))
    );
}
