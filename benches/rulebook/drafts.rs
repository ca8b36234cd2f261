//! How vetting a draft and comparing two editions grow with the rulebook, and with the change.

use super::generate::Silence;
use super::{book, peak_memory, seconds};
use evenhand::amendment::{Vetted, compare, vet};
use evenhand::analysis::{Options, check};
use evenhand::load::{Layered, load};
use std::fmt::Write as _;
use std::process::Command;
use std::time::{Duration, Instant};

const LENGTHS: [usize; 4] = [250, 1_000, 2_000, 4_000];
/// Where the new clause of the broad draft is met.
const BROAD: &str =
    "fact_0 is v1, fact_3 is between 30 and 54, fact_6 is v1, fact_8 is v1, fact_33";
/// How many clauses of the later edition have another ruling.
const CHANGED: usize = 30;

/// Every length in a process of its own.
pub(crate) fn table() {
    println!(
        "A draft of three changes vetted, and two editions with {CHANGED} clauses changed, one thread"
    );
    println!(
        "           the rules    a narrow draft                a broad draft                 editions"
    );
    println!(
        "clauses    check        changes  vetting  questions   changes  vetting  questions   changes  comparing  questions  peak memory"
    );
    let Ok(program) = std::env::current_exe() else {
        return;
    };
    for clauses in LENGTHS {
        match Command::new(&program)
            .args(["--vet", &clauses.to_string()])
            .output()
        {
            Ok(output) => print!("{}", String::from_utf8_lossy(&output.stdout)),
            Err(error) => println!("{clauses}: {error}"),
        }
    }
    println!();
}

/// How far a draft's new clause reaches.
#[derive(Clone, Copy)]
enum Reach {
    /// It is an exception to one clause: what it changes is the same in every rulebook.
    Narrow,
    /// It is met beside a share of all clauses: what it changes grows with the rulebook.
    Broad,
}

/// One line of the table: how long the check of the rules as they are takes; then of each draft the
/// changes alone, the whole command with the check of both editions, and how many questions it asks
/// beyond those of the check of the rules as they are.
pub(crate) fn line(clauses: usize) -> String {
    let (written, ruleset) = book(clauses, Silence::Default);
    let ids: Vec<&str> = ruleset
        .clauses
        .iter()
        .map(|clause| clause.id.as_str())
        .collect();
    let id = |place: usize| ids.get(place % ids.len()).copied().unwrap_or_default();
    let few = Options {
        kinds: vec![evenhand::model::Kind::LooseTerm],
        ..Options::default()
    };
    let begun = Instant::now();
    let alone = Options::default();
    let _ = check(&ruleset, &alone);
    let (checking, questions) = (begun.elapsed(), alone.budget.questions());
    let mut times = format!(" {:>9}", seconds(checking));
    let mut open = false;
    for reach in [Reach::Narrow, Reach::Broad] {
        let when = match reach {
            Reach::Narrow => condition(&written.yaml, id(clauses / 4)),
            Reach::Broad => BROAD.to_owned(),
        };
        let draft = format!(
            "amendment: A draft
changes:
  - set:
      clause: \"{}\"
      ruling: {{penalty: point, play: stops}}
  - set:
      clause: \"{}\"
      unless: fact_0 is v0 and fact_3 at least 30
  - insert:
      id: new
      when: [{when}, fact_39 at least 20]
      ruling: {{play: restarts}}
      notwithstanding: \"{}\"
",
            id(clauses / 3),
            id(clauses / 2),
            id(clauses / 4),
        );
        let layered = match Layered::read(
            "generated.yaml",
            written.yaml.as_str(),
            &[("draft.yaml".to_owned(), draft)],
        ) {
            Ok(layered) => layered,
            Err(refused) => panic!("the draft can't be read: {:?}", refused.problems),
        };
        let vetted = |options: &Options<'_>| -> (Duration, Vetted) {
            let begun = Instant::now();
            match vet(&layered, &[0], options) {
                Ok(vetted) => (begun.elapsed(), vetted),
                Err(problems) => panic!("the draft can't be made: {problems:?}"),
            }
        };
        let (changes, _) = vetted(&few);
        let options = Options::default();
        let (vetting, found) = vetted(&options);
        open |= !found.open.is_empty();
        let (changes, vetting) = (seconds(changes), seconds(vetting));
        let beyond = options.budget.questions().saturating_sub(questions);
        let _ = write!(times, " {changes:>12} {vetting:>9} {beyond:>7}");
    }
    let mut later = String::with_capacity(written.yaml.len());
    for (place, block) in written.yaml.split("  - id: ").enumerate() {
        let changed = place > 0 && place % (clauses / CHANGED) == 0;
        let separator = if place == 0 { "" } else { "  - id: " };
        let block = if changed {
            block
                .replace("penalty: warning", "penalty: point")
                .replace("penalty: none", "penalty: warning")
        } else {
            block.to_owned()
        };
        let _ = write!(later, "{separator}{block}");
    }
    let read = |text: &str| match load("generated.yaml", text) {
        Ok(loaded) => loaded,
        Err(refused) => panic!("an edition can't be read: {refused:?}"),
    };
    let (before, after) = (read(&written.yaml), read(&later));
    let begun = Instant::now();
    let _ = compare(&before, &after, &few);
    let editions = begun.elapsed();
    let begun = Instant::now();
    let options = Options::default();
    let compared = compare(&before, &after, &options);
    format!(
        "{clauses:>7}{times} {:>12} {:>9} {:>7} {:>8} MiB{}",
        seconds(editions),
        seconds(begun.elapsed()),
        options.budget.questions().saturating_sub(questions),
        peak_memory().unwrap_or(0) / 1024,
        if !open && compared.open.is_empty() {
            ""
        } else {
            "  (something undecided)"
        },
    )
}

/// The lines of a clause's condition, with commas between.
fn condition(yaml: &str, id: &str) -> String {
    let clause = yaml.split("  - id: ").find(|block| {
        block
            .lines()
            .next()
            .is_some_and(|line| line.trim_matches('"') == id)
    });
    let lines = clause.unwrap_or_default().lines();
    let lines = lines.filter_map(|line| line.strip_prefix("      - "));
    lines.collect::<Vec<&str>>().join(", ")
}
