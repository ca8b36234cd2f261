//! Case books and logs: the demo's, brute force on random rulesets, tables in and out without loss,
//! and what is wrong with a table told at its cells.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    missing_docs,
    reason = "a test says what went wrong by failing"
)]

mod common;
#[path = "common/program.rs"]
mod program;
mod support;

use common::{attribute, dimension, load, outcomes, text_of};
use evenhand::analysis::Silent;
use evenhand::cases::{
    self, Case, Cited, Columns, Explanation, Found, Judge, Log, Options, Place, Review, Stance,
};
use evenhand::logic::{Basis, Code, Established, Outcome, Scenario, highest_code};
use evenhand::model::{AttributeId, DimensionId, Ruleset, ValueSet};
use evenhand::read::draft::WhenSeveral;
use evenhand::solve::Budget;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::num::NonZeroUsize;
use support::random_ruleset;

const BOOK: &str = "rulesets/grappling-cases.yaml";

fn grappling() -> Ruleset {
    load("rulesets/grappling.yaml")
}

fn book(ruleset: &Ruleset) -> Vec<Case> {
    match cases::book(ruleset, BOOK, &text_of(BOOK)) {
        Ok(cases) => cases,
        Err(refused) => panic!("{:#?}", refused.problems),
    }
}

fn options(jobs: usize) -> Options<'static> {
    Options {
        jobs: NonZeroUsize::new(jobs).unwrap(),
        budget: Budget::unlimited(),
        progress: &Silent,
    }
}

fn reviewed(ruleset: &Ruleset, jobs: usize) -> Review {
    cases::review(ruleset, book(ruleset), &options(jobs))
}

fn ids(told: &[cases::Told]) -> Vec<&str> {
    told.iter().map(|told| told.case.id.as_str()).collect()
}

/// What the demo's case book is to show. That a lock on the elbow is lawful while its pressure is
/// drawn away, that dropping one's weight on a straight arm from standing is not unless the opponent
/// turned into it, and that pulling a stretched leg while strangling earns a minor penalty and no
/// more, are facts of the trade: common practice, no source.
#[test]
fn the_demo_case_book_shows_every_sort_of_case() {
    let ruleset = grappling();
    let review = reviewed(&ruleset, 1);
    assert_eq!(review.cases, 10);
    assert_eq!(ids(&review.disagree.0), ["C-4", "C-10"]);
    assert_eq!(ids(&review.undetermined.0), ["C-6", "C-8"]);
    assert_eq!(ids(&review.miscited.0), ["C-7"]);
    assert_eq!(
        review.miscited.0[0].judged.cited,
        [Cited::Gone("9.7".to_owned())]
    );
    assert_eq!(review.agree, 6);
    // C-10 says what no incident can be; C-4 was ruled past the clause that prevails.
    assert!(!review.disagree.0[1].judged.is_possible);
    let wrong = &review.disagree.0[0].judged.on[0];
    assert_eq!(
        common::names(&ruleset, wrong.dimension, wrong.possible[0].values),
        ["caution"]
    );
    // C-6: how many cautions there were decides, and nothing else noted would.
    let open = &review.undetermined.0[0];
    assert_eq!(open.judged.on[0].stance, Stance::NeedsFacts);
    assert_eq!(
        open.missing[0].first(),
        Some(&attribute(&ruleset, "cautions_before"))
    );
    let pairs: Vec<(&str, &str)> = review
        .inconsistent
        .0
        .iter()
        .map(|pair| (pair.first.0.as_str(), pair.second.0.as_str()))
        .collect();
    assert_eq!(pairs, [("C-4", "C-5")]);
    assert!(review.compared_all);
    let id = |name: &str| vec![attribute(&ruleset, name)];
    let explained: Vec<&Explanation> = review
        .differing
        .0
        .iter()
        .flat_map(|told| &told.judged.differences)
        .flat_map(|difference| &difference.explanations)
        .collect();
    // Three officials on one blow: purpose is a judgement, hard contact a vague term, and all the same
    // each ruled as the text says. Two on another: they saw different things.
    assert_eq!(
        explained,
        [
            &Explanation::VagueTerm(id("hard_contact")),
            &Explanation::Judgement(id("deliberate")),
            &Explanation::Facts(id("force")),
        ]
    );
}

#[test]
fn a_review_is_the_same_with_any_number_of_threads() {
    let ruleset = grappling();
    let show = |review: &Review| evenhand::report::json::cases(&ruleset, BOOK, review).unwrap();
    assert_eq!(show(&reviewed(&ruleset, 1)), show(&reviewed(&ruleset, 4)));
}

#[test]
fn a_log_longer_than_a_batch_is_told_in_its_order() {
    let ruleset = grappling();
    let mut log =
        String::from("id,matter,conduct,force,cautions_before,after_call,category,ruled.penalty\n");
    for line in 0..10_000 {
        let (force, ruled) = match line % 1_000 {
            7 => ("light", "caution"),
            _ => ("firm", "caution"),
        };
        writeln!(log, "n{line},conduct,eye,{force},0,no,senior,{ruled}").unwrap();
    }
    let opened = Log::open(&ruleset, "log.csv", log.as_bytes());
    let mut rows = opened.unwrap_or_else(|refused| panic!("{:?}", refused.problems));
    let columns = rows.columns().clone();
    let review = cases::review_rows(&ruleset, &columns, &mut rows, &options(3)).unwrap();
    assert_eq!((review.cases, review.agree), (10_000, 9_990));
    let wrong: Vec<String> = (0..10)
        .map(|number| format!("n{}", number * 1_000 + 7))
        .collect();
    assert_eq!(ids(&review.disagree.0), wrong);
    assert_eq!(review.disagree.0[0].case.place, Place(9));
}

/// The stance that plain enumeration gives a ruling on some facts.
fn stance_by_force(
    ruleset: &Ruleset,
    all: &[(Scenario, Outcome)],
    facts: &Established,
    on: DimensionId,
    ruled: ValueSet,
) -> Option<Stance> {
    let all_apply = ruleset[on].when_several == WhenSeveral::AllApply;
    let mut seen = BTreeSet::new();
    for (scenario, outcome) in all {
        if facts
            .facts()
            .any(|(id, code)| scenario.get(id) != Some(code))
        {
            continue;
        }
        let ruling = outcome.rulings[on.index()];
        seen.insert(match ruling.basis {
            Basis::Contradiction => "contradiction",
            Basis::Gap => "gap",
            Basis::Silence if all_apply && ruled.is_empty() => "so",
            Basis::Silence => "not so",
            _ if all_apply && ruling.values == ruled => "so",
            _ if !all_apply && ruling.values == ruled => "so",
            _ if !all_apply && ruling.values.intersect(ruled) == ruled => "may be",
            _ => "not so",
        });
    }
    let seen: Vec<&str> = seen.into_iter().collect();
    Some(match seen.as_slice() {
        [] => return None,
        ["so"] => Stance::Agrees,
        ["may be"] | ["may be", "so"] => Stance::WithinDiscretion,
        ["not so"] => Stance::Disagrees,
        ["contradiction"] => Stance::Contradiction,
        ["gap"] => Stance::Gap,
        _ => Stance::NeedsFacts,
    })
}

/// Facts of a random scenario, some of them left out, by a tape of numbers.
fn some_facts(ruleset: &Ruleset, scenario: &Scenario, tape: &[u16]) -> Established {
    let mut facts = Established::nothing(ruleset.attributes.len());
    for ((id, code), number) in scenario.facts().zip(tape.iter().cycle()) {
        if number % 3 != 0 {
            facts.set(id, Some(code));
        }
    }
    facts
}

fn case(id: &str, facts: Established, ruled: Vec<(DimensionId, ValueSet)>) -> Case {
    Case {
        id: id.to_owned(),
        date: None,
        kind: None,
        source: None,
        note: None,
        found: Found {
            facts,
            ruled,
            clauses: Vec::new(),
        },
        officials: BTreeMap::new(),
        place: Place(1),
    }
}

/// What was ruled, by a tape: often what the text says, else anything.
fn some_ruling(ruleset: &Ruleset, on: DimensionId, outcome: &Outcome, number: u16) -> ValueSet {
    let said = outcome.rulings[on.index()].values;
    let values = ruleset[on].values.len();
    if ruleset[on].when_several == WhenSeveral::AllApply {
        return if number.is_multiple_of(2) {
            said
        } else {
            ValueSet::one(usize::from(number / 2) % values)
        };
    }
    match said.lowest() {
        Some(value) if number.is_multiple_of(2) => ValueSet::one(value),
        _ => ValueSet::one(usize::from(number / 2) % values),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn stances_are_those_of_plain_enumeration(
        text in random_ruleset::yaml(),
        tape in prop::collection::vec(any::<u16>(), 24),
    ) {
        let Ok(loaded) = evenhand::load::load("random.yaml", text) else { return Ok(()) };
        let ruleset = loaded.ruleset;
        let all: Vec<(Scenario, Outcome)> = outcomes(&ruleset).take(5_001).collect();
        prop_assume!(!all.is_empty() && all.len() <= 5_000);
        let mut judge = Judge::new(&ruleset, Budget::unlimited());
        for (round, number) in tape.iter().enumerate() {
            let (scenario, outcome) = &all[usize::from(*number) * 7 % all.len()];
            let rest = tape.get(round..).unwrap();
            let facts = match round {
                0 => Established::whole(scenario, ruleset.attributes.len()),
                _ => some_facts(&ruleset, scenario, rest),
            };
            let ruled: Vec<(DimensionId, ValueSet)> = (0..ruleset.dimensions.len())
                .map(DimensionId::new)
                .map(|on| (on, some_ruling(&ruleset, on, outcome, *number)))
                .collect();
            let judged = judge.judge(&case("R", facts.clone(), ruled.clone()));
            prop_assert!(judged.is_possible);
            for (on, (dimension, ruled)) in judged.on.iter().zip(&ruled) {
                let expected = stance_by_force(&ruleset, &all, &facts, *dimension, *ruled);
                prop_assert_eq!(Some(&on.stance), expected.as_ref());
                // What would help to know is not known yet, and knowing all of it settles the ruling.
                if on.stance == Stance::NeedsFacts {
                    let missing = judge.text().missing(&facts, *dimension);
                    prop_assert!(missing.iter().all(|id| facts.get(*id).is_none()));
                    prop_assert!(!missing.is_empty());
                }
            }
        }
    }

    #[test]
    fn cases_that_disagree_with_each_other_are_all_found(
        tape in prop::collection::vec(any::<u16>(), 12..40),
    ) {
        let ruleset = load("rulesets/ball.yaml");
        let on = DimensionId::new(0);
        let book: Vec<Case> = tape.chunks(3).enumerate().map(|(index, numbers)| {
            let mut facts = Established::nothing(ruleset.attributes.len());
            for (number, id) in numbers.iter().zip((0..ruleset.attributes.len()).map(AttributeId::new)) {
                if number % 3 != 0 {
                    let most = highest_code(&ruleset[id].kind).min(1);
                    facts.set(id, Some(Code(u64::from(number / 3) % (most + 1))));
                }
            }
            let values = ruleset[on].values.len();
            let ruled = ValueSet::one(usize::from(numbers[0] / 7) % values);
            case(&format!("c{index}"), facts, vec![(on, ruled)])
        }).collect();
        let mut seen = cases::Seen::new(&ruleset);
        for case in &book {
            seen.add(case);
        }
        let (found, more, complete) = seen.finish();
        prop_assert!(complete && more == 0);
        // Every case that some other contradicts stands in a pair, and every pair is one.
        let covered = |one: &Case, other: &Case| one.found.facts.facts().all(|(id, code)| {
            !matters(&ruleset, on, id) || other.found.facts.get(id) == Some(code)
        });
        let clash = |one: &Case, other: &Case| {
            one.found.ruled != other.found.ruled && (covered(one, other) || covered(other, one))
        };
        let named: BTreeSet<&str> = found.iter().flat_map(|pair| [pair.first.0.as_str(), pair.second.0.as_str()]).collect();
        let by_id = |id: &str| book.iter().find(|case| case.id == id).unwrap();
        for pair in &found {
            prop_assert!(clash(by_id(&pair.first.0), by_id(&pair.second.0)));
        }
        let clashes = book.iter().any(|one| book.iter().any(|other| clash(one, other)));
        prop_assert_eq!(clashes, !named.is_empty());
    }

    #[test]
    fn what_is_written_out_is_read_again_without_loss(
        text in random_ruleset::yaml(),
        tape in prop::collection::vec(any::<u16>(), 24),
        note in "\\PC{0,20}",
        words in prop::collection::vec("[a-z,;\"'#: \\-é|\t]{1,8}", 3),
    ) {
        let Ok(loaded) = evenhand::load::load("random.yaml", text) else { return Ok(()) };
        let ruleset = loaded.ruleset;
        let all: Vec<(Scenario, Outcome)> = outcomes(&ruleset).take(500).collect();
        prop_assume!(!all.is_empty());
        let free = |words: &str| (!words.trim().is_empty()).then(|| words.to_owned());
        let mut book = Vec::new();
        for (index, numbers) in tape.chunks(3).enumerate() {
            let (scenario, outcome) = &all[usize::from(numbers[0]) % all.len()];
            let facts = some_facts(&ruleset, scenario, numbers);
            let ruled: Vec<(DimensionId, ValueSet)> = (0..ruleset.dimensions.len())
                .map(DimensionId::new)
                .filter(|on| (usize::from(numbers[1]) + on.index()) % 3 != 0)
                .map(|on| (on, some_ruling(&ruleset, on, outcome, numbers[2])))
                .collect();
            let mut one = case(&format!("c.{index}"), facts.clone(), ruled.clone());
            one.note = free(&note);
            one.source = free(&words[index % 3]);
            one.found.clauses = vec!["7.1".to_owned(), "7.10".to_owned()];
            if numbers[2] % 2 == 0 && !facts.is_empty() {
                let found = Found { facts, ruled, clauses: vec!["1".to_owned()] };
                one.officials = BTreeMap::from([("off.icial 1".to_owned(), found)]);
            }
            book.push(one);
        }
        let plain = |cases: &[Case]| -> Vec<Case> {
            cases.iter().map(|case| Case { place: Place(0), ..case.clone() }).collect()
        };
        let yaml = cases::to_yaml(&ruleset, &book);
        let from_yaml = cases::book(&ruleset, "a.yaml", &yaml);
        let from_yaml = from_yaml.unwrap_or_else(|refused| panic!("{yaml}\n{:#?}", refused.problems));
        prop_assert_eq!(plain(&from_yaml), plain(&book));
        let csv = cases::to_csv(&ruleset, &book).unwrap();
        let mut log = Log::open(&ruleset, "a.csv", csv.as_bytes()).unwrap_or_else(|refused| panic!("{csv}\n{:#?}", refused.problems));
        let rows: Vec<_> = log.by_ref().map(Result::unwrap).collect();
        let mut columns = log.columns().clone();
        let mut read = |row| columns.case(&ruleset, row).unwrap_or_else(|wrong| panic!("{csv}\n{wrong:#?}")).unwrap();
        let from_csv: Vec<Case> = rows.iter().map(&mut read).collect();
        prop_assert_eq!(plain(&from_csv), plain(&book));
        let sheet = cases::to_sheet(&ruleset, &book).unwrap();
        prop_assert_eq!(&cases::to_sheet(&ruleset, &book).unwrap(), &sheet);
        let (mut columns, rows) = cases::sheet_rows(&ruleset, "a.xlsx", sheet).unwrap_or_else(|refused| panic!("{:#?}", refused.problems));
        let from_sheet: Vec<Case> = rows.iter().filter_map(|row| columns.case(&ruleset, row).unwrap()).collect();
        prop_assert_eq!(plain(&from_sheet), plain(&book));
    }

    #[test]
    fn no_table_whatsoever_makes_the_reader_fail(bytes in prop::collection::vec(any::<u8>(), 0..200), rows in ".{0,80}") {
        let ruleset = load("rulesets/ball.yaml");
        let name = &ruleset.attributes[0].name;
        let table = format!("id,{name}\n{rows}\n");
        for input in [bytes.clone(), table.into_bytes()] {
            if let Ok(mut log) = Log::open(&ruleset, "log.csv", input.as_slice()) {
                let columns = log.columns().clone();
                if let Err(wrong) = cases::review_rows(&ruleset, &columns, log.by_ref().take(500), &options(1)) {
                    prop_assert!(log.refused(wrong).problems.iter().all(|problem| !problem.headline.is_empty()));
                }
            }
            let _ = cases::sheet_rows(&ruleset, "log.xlsx", input);
        }
        let _ = cases::book(&ruleset, "cases.yaml", &rows);
    }
}

/// Whether an attribute can come to matter on a dimension: whether two scenarios that differ in it,
/// and in what is asked because of it, are ruled differently somewhere, or it decides what is asked.
/// In the ball game every attribute is read on its first dimension or on none.
fn matters(ruleset: &Ruleset, on: DimensionId, id: AttributeId) -> bool {
    let clauses = ruleset
        .clauses
        .iter()
        .filter(|clause| clause.ruling_on(on).is_some());
    let mut conditions: Vec<_> = clauses.map(|clause| &clause.when).collect();
    conditions.extend(&ruleset[on].required_when);
    let mut read = conditions
        .iter()
        .map(|it| evenhand::logic::attributes_read(ruleset, it));
    read.any(|read| read.contains(id.index()))
}

#[test]
fn the_separator_is_found_out() {
    let ruleset = grappling();
    for (header, expected) in [
        ("id,matter,phase", b','),
        ("id;matter;phase", b';'),
        ("id\tmatter\tphase", b'\t'),
        ("\u{feff}id;note, long;matter;phase", b';'),
        ("\"id\";\"matter\"", b';'),
        ("id", b','),
    ] {
        assert_eq!(cases::separator(&ruleset, header), expected, "{header}");
    }
    let log = "\u{feff}id;matter;conduct;force;cautions_before;after_call;category;ruled.penalty\r\nn1;conduct;eye;firm;0;no;senior;caution\r\n\r\n;;;;;;;\r\n";
    let mut rows = Log::open(&ruleset, "log.csv", log.as_bytes())
        .unwrap_or_else(|it| panic!("{:?}", it.problems));
    let columns = rows.columns().clone();
    let review = cases::review_rows(&ruleset, &columns, &mut rows, &options(1)).unwrap();
    assert_eq!((review.cases, review.agree), (1, 1));
}

/// What is wrong with a table: the words underlined, the line, and the headline.
fn told(ruleset: &Ruleset, table: &[u8]) -> Vec<(String, u32, String)> {
    let refused = match Log::open(ruleset, "log.csv", table) {
        Err(refused) => refused,
        Ok(mut log) => {
            let columns: Columns = log.columns().clone();
            match cases::review_rows(ruleset, &columns, &mut log, &options(1)) {
                Err(wrong) => log.refused(wrong),
                Ok(review) => panic!("it was read: {review:?}"),
            }
        }
    };
    let place = |span| refused.sources.place(span).position.line.0.get();
    let problems = refused.problems.iter();
    problems
        .map(|it| {
            let words = refused.sources.slice(it.span).to_owned();
            (words, place(it.span), it.headline.clone())
        })
        .collect()
}

#[test]
fn what_is_wrong_with_a_table_is_told_at_its_cells() {
    let ruleset = grappling();
    let one = |words: &str, line, headline: &str| (words.to_owned(), line, headline.to_owned());
    assert_eq!(
        told(&ruleset, b"id,phaze,ruled.penaltie,penalty\n"),
        [
            one("phaze", 1, "`phaze` is no column of a table of cases"),
            one(
                "ruled.penaltie",
                1,
                "`penaltie` is nothing that the rules decide"
            ),
            one("penalty", 1, "`penalty` is no column of a table of cases"),
        ]
    );
    assert_eq!(
        told(
            &ruleset,
            b"id,phase,seconds_held,ruled.penalty\nn1,grund,12,none\n\"n\n2\",ground,soon,warned\n"
        ),
        [
            one("grund", 2, "`grund` is not a value of `phase`"),
            one("soon", 3, "`seconds_held` is `soon`; expected a number"),
            one("warned", 3, "`warned` is not a ruling on `penalty`"),
        ]
    );
    assert_eq!(
        told(&ruleset, b"id,phase\nn1,ground,12\n"),
        [one("12", 2, "a row has 3 cells; the header has 2")]
    );
    assert_eq!(
        told(&ruleset, b"id,phase,phase\n"),
        [one("phase", 1, "the column `phase` stands twice")]
    );
    assert_eq!(told(&ruleset, b"")[0].2, "the file is empty");
    assert_eq!(
        told(&ruleset, b"id,note\nn1,fine\nn2,caf\xe9\n"),
        [one(
            "caf\u{fffd}",
            3,
            "line 3 holds bytes that are no UTF-8 text"
        )]
    );
    assert_eq!(
        told(&ruleset, b"\xff\xfei\0d\0")[0].2,
        "the file is text in UTF-16, which is not read as a table"
    );
}

const TWO_DATES: &str = "ruleset: T
attributes:
  foul:
  Date:
rulings:
  penalty:
    scale: [none, caution, out]
    otherwise: none
clauses:
  - id: \"1\"
    when: foul
    ruling: {penalty: caution}
";

#[test]
fn headers_are_found_whatever_their_case() {
    let table = |header: &str| format!("{header}\nn1,yes,2031-04-02\n");
    let read = |header: &str| {
        let table = table(header);
        let ruleset = evenhand::load::load("t.yaml", TWO_DATES).unwrap().ruleset;
        let log = Log::open(&ruleset, "log.csv", table.as_bytes());
        let mut log = log.unwrap_or_else(|it| panic!("{header}: {:?}", it.problems));
        let mut columns = log.columns().clone();
        let row = log.next().unwrap().unwrap();
        columns
            .case(&ruleset, &row)
            .unwrap()
            .map(|it| (it.id, it.date))
    };
    let whole = Some(("n1".to_owned(), Some("2031-04-02".to_owned())));
    for header in ["id,foul,date", "ID,foul,DATE", "Id,foul,date"] {
        assert_eq!(read(header), whole, "{header}");
    }
    // `Date` is an attribute here, and no date is a yes or a no.
    let ruleset = evenhand::load::load("t.yaml", TWO_DATES).unwrap().ruleset;
    let refused = told(&ruleset, table("ID,foul,Date").as_bytes());
    assert_eq!(refused[0].0, "2031-04-02", "{refused:?}");
}

#[test]
fn every_ruling_that_is_possible_is_told_with_its_clauses() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("possible");
    std::fs::create_dir_all(&folder).unwrap();
    let ruleset = TWO_DATES.replace("  Date:\n", "");
    std::fs::write(folder.join("rules.yaml"), ruleset).unwrap();
    let log = "ID,foul,ruled.penalty\nopen,,out\nfoul,yes,out\nfair,no,out\n";
    std::fs::write(folder.join("log.csv"), log).unwrap();
    let (code, out, _) = program::run_in(&folder, &["cases", "rules.yaml", "log.csv"]);
    assert_eq!(code, 1, "{out}");
    for lines in [
        "open: penalty was ruled out; by the text: none or caution
   For instance  none: no clause says anything; what holds then is the default
                 caution: 1
",
        "foul: penalty was ruled out; by the text: caution
   By clause     1
",
        "fair: penalty was ruled out; by the text: none
   By clause     no clause says anything; what holds then is the default
",
    ] {
        assert!(out.contains(lines), "{lines}{out}");
    }
}

#[test]
fn an_empty_table_names_every_attribute_and_is_read_again() {
    let ruleset = grappling();
    let template = cases::template_csv(&ruleset).unwrap();
    let header: Vec<&str> = template.trim_end().split(',').collect();
    for attribute in &ruleset.attributes {
        assert!(
            header.contains(&attribute.name.as_str()),
            "{}",
            attribute.name
        );
    }
    assert!(header.contains(&"ruled.penalty") && !header.contains(&"ruled.deserved"));
    assert!(Log::open(&ruleset, "t.csv", template.as_bytes()).is_ok());
    let sheet = cases::template_sheet(&ruleset).unwrap();
    let (_, rows) = cases::sheet_rows(&ruleset, "t.xlsx", sheet)
        .unwrap_or_else(|it| panic!("{:?}", it.problems));
    assert_eq!(rows, []);
}

#[test]
fn what_is_wrong_with_a_case_book_is_told_at_its_words() {
    let ruleset = grappling();
    let told = |text: &str| -> Vec<String> {
        let refused = cases::book(&ruleset, "cases.yaml", text).unwrap_err();
        let problems = refused.problems.iter();
        problems
            .map(|it| format!("{} | {}", refused.sources.slice(it.span), it.headline))
            .collect()
    };
    assert_eq!(
        told(
            "cases:\n  - id: a\n    facts: {phaze: ground}\n    ruled: {penalty: [none, caution]}\n  - id: a\n    fact: {}\n"
        ),
        [
            "phaze | `phaze` is no attribute of this ruleset",
            "[none, caution] | `penalty` has one ruling, and 2 are given",
            "a | the case `a` is given twice",
            "fact | `fact` is no key of a case",
        ]
    );
    assert_eq!(
        told("ruleset: x\n"),
        ["ruleset | the file is a ruleset; expected a case book"]
    );
    assert_eq!(told("cases:\n  - facts: {}\n").len(), 1);
    assert_eq!(dimension(&ruleset, "penalty"), DimensionId::new(2));
}

/// The example of `docs/cases.md` is a case book of the demo's rules.
#[test]
fn the_case_book_that_is_documented_is_read() {
    let ruleset = grappling();
    let page = text_of("docs/cases.md");
    let example = page
        .split("```yaml\n")
        .nth(1)
        .unwrap()
        .split("```")
        .next()
        .unwrap();
    let read = cases::book(&ruleset, "docs/cases.md", example);
    let read = read.unwrap_or_else(|refused| panic!("{:#?}", refused.problems));
    let review = cases::review(&ruleset, read, &options(1));
    assert_eq!((review.cases, review.differing.0.len()), (1, 1));
}

#[test]
fn the_command_tells_writes_out_and_ends_as_it_says() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("cases");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    for name in ["grappling.yaml", "grappling-cases.yaml"] {
        std::fs::write(folder.join(name), text_of(&format!("rulesets/{name}"))).unwrap();
    }
    let go = |line: &str| program::run_in(&folder, &line.split(' ').collect::<Vec<_>>());
    let (code, out, _) = go("cases grappling.yaml grappling-cases.yaml");
    assert_eq!(code, 1, "{out}");
    assert!(
        out.contains(
            "C-4: penalty to the athlete was ruled disqualification; by the text: caution"
        ),
        "{out}"
    );
    assert!(
        out.contains("through 5.1 (The lawful strangle); 5.4"),
        "{out}"
    );
    assert!(
        out.contains("appointed officials") && out.lines().all(|line| line.chars().count() <= 80),
        "{out}"
    );
    let (code, first, _) = go("cases grappling.yaml grappling-cases.yaml --format json");
    assert_eq!(code, 1);
    let json: serde_json::Value = serde_json::from_str(&first).unwrap();
    let schema: serde_json::Value =
        serde_json::from_str(&text_of("docs/schemas/cases-1.json")).unwrap();
    assert!(jsonschema::is_valid(&schema, &json), "{first}");
    assert_eq!(
        (&json["cases"], &json["agree"]),
        (&serde_json::json!(10), &serde_json::json!(6))
    );
    // Through a table and a spreadsheet and back, it is the same book.
    for (from, to) in [
        ("grappling-cases.yaml", "a.csv"),
        ("a.csv", "b.xlsx"),
        ("b.xlsx", "c.yaml"),
    ] {
        let (code, out, err) = go(&format!("cases grappling.yaml {from} --export {to}"));
        assert_eq!(
            (code, out),
            (0, format!("10 cases written to {to}\n")),
            "{err}"
        );
    }
    let ruleset = grappling();
    let back = std::fs::read_to_string(folder.join("c.yaml")).unwrap();
    let back =
        cases::book(&ruleset, "c.yaml", &back).unwrap_or_else(|it| panic!("{:?}", it.problems));
    let same = |one: &[Case], other: &[Case]| {
        one.len() == other.len()
            && one.iter().zip(other).all(|(one, other)| {
                Case {
                    place: other.place,
                    ..one.clone()
                } == *other
            })
    };
    assert!(same(&back, &book(&ruleset)));
    let (code, _, err) = go("cases grappling.yaml grappling-cases.yaml --export a.csv");
    assert!(code == 2 && err.contains("a.csv is there already"), "{err}");
    let (code, out, _) = go("cases grappling.yaml a.csv --quiet");
    assert!(code == 1 && !out.contains("Noted"), "{out}");
    // What can't be used.
    for (line, expected) in [
        ("cases grappling.yaml", "no case book is named"),
        ("cases grappling.yaml none.csv", "there is no such file"),
        ("cases grappling.yaml book.doc", "ends in .doc"),
        (
            "cases grappling.yaml --template xlsx",
            "--output cases.xlsx",
        ),
    ] {
        let (code, _, err) = go(line);
        assert!(code == 2 && err.contains(expected), "{line}: {err}");
    }
    std::fs::write(folder.join("bad.csv"), "id,phase\nn1,grund\n").unwrap();
    let (code, out, _) = go("cases grappling.yaml bad.csv");
    assert!(
        code == 2 && out.contains("bad.csv, line 2") && out.contains("Did you mean `ground`?"),
        "{out}"
    );
    std::fs::write(folder.join("bad.xlsx"), "no spreadsheet").unwrap();
    let (code, out, _) = go("cases grappling.yaml bad.xlsx");
    assert!(code == 2 && out.contains("is no spreadsheet"), "{out}");
    let (code, out, _) = go("cases grappling.yaml --template csv");
    assert!(
        code == 0 && out.starts_with("id,date,kind,source,matter,"),
        "{out}"
    );
}

#[test]
fn clauses_cited_that_do_not_count_are_told_apart() {
    let text = "ruleset: Small rules\nattributes: {late: {}, loud: {}}\nrulings: {penalty: {scale: [none, caution]}}\n\
                clauses:\n  - {id: '1', when: always, ruling: {penalty: none}}\n  \
                - {id: '2', when: late, ruling: {penalty: caution}, notwithstanding: ['1']}\n";
    let ruleset = common::load_text("small.yaml", text).unwrap();
    let book = "cases:\n  - {id: a, facts: {late: yes, loud: no}, ruled: {penalty: none}, clauses: ['1']}\n  \
                - {id: b, facts: {late: no, loud: no}, ruled: {penalty: none}, clauses: ['2', '3', '1']}\n";
    let book =
        cases::book(&ruleset, "cases.yaml", book).unwrap_or_else(|it| panic!("{:?}", it.problems));
    let mut judge = Judge::new(&ruleset, Budget::unlimited());
    let cited: Vec<Vec<Cited>> = book.iter().map(|case| judge.judge(case).cited).collect();
    let clause = |id| common::clause(&ruleset, id);
    assert_eq!(
        cited,
        [
            vec![Cited::Displaced(clause("1"))],
            vec![Cited::Gone("3".to_owned()), Cited::NotInForce(clause("2"))],
        ]
    );
}
