//! How a check grows with the length of a rulebook: `cargo bench --bench rulebook`.
//!
//! Each line of the first table is measured in a process of its own, so that its peak memory is its
//! own. `-- --demo` measures the rulesets that the demo checks alone, `-- --drafts` drafts and editions; `-- --write CLAUSES [--seed N] [--planted N] [--gaps]` writes a rulebook instead.

#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    clippy::disallowed_methods,
    clippy::panic,
    reason = "a program that measures and prints tables"
)]

mod counting;
mod drafts;
mod generate;

use evenhand::analysis::{Options, check};
use evenhand::load::load;
use evenhand::logic::{Formula, Layers, Name, Reach, World};
use evenhand::model::{ClauseId, DimensionId, Kind, Ruleset};
use evenhand::solve::{Answer, Budget, Solver, Z3Solver};
use generate::{Plan, Rulebook, Silence};
use std::num::NonZeroUsize;
use std::process::Command;
use std::time::{Duration, Instant};

const PLANTED: usize = 5;
const LENGTHS: [usize; 4] = [250, 1_000, 4_000, 10_000];
/// How many pairs the solver is asked about where asking about all would take too long.
const SAMPLE: usize = 2_000;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let number = |name: &str| -> Option<usize> {
        let place = arguments.iter().position(|argument| argument == name)?;
        arguments.get(place + 1)?.parse().ok()
    };
    let silence = if arguments.iter().any(|argument| argument == "--gaps") {
        Silence::Gap
    } else {
        Silence::Default
    };
    if let Some(clauses) = number("--write") {
        let book = generate::write(Plan {
            clauses,
            planted: number("--planted").unwrap_or(PLANTED),
            silence,
            seed: number("--seed").map_or(1, |seed| seed as u64),
        });
        print!("{}", book.yaml);
        eprintln!("planted: {:?}", book.planted);
    } else if let Some(clauses) = number("--check") {
        println!(
            "{}",
            check_line(clauses, silence, number("--jobs").unwrap_or(1))
        );
    } else if let Some(clauses) = number("--vet") {
        println!("{}", drafts::line(clauses));
    } else if arguments.iter().any(|argument| argument == "--drafts") {
        drafts::table();
    } else if arguments.iter().any(|argument| argument == "--demo") {
        demo();
    } else {
        demo();
        checks();
        drafts::table();
        pairs();
    }
}

/// How often the demo's rulesets are checked, each time from the file on.
const RUNS: usize = 3;

/// The rulesets that the demo checks.
fn demo() {
    println!("The demo's rulesets, read and checked {RUNS} times, one thread");
    println!("clauses  scenarios  shortest  longest  counting alone, shares  ruleset");
    for name in ["grappling", "grappling-draft"] {
        let path = format!("{}/rulesets/{name}.yaml", env!("CARGO_MANIFEST_DIR"));
        let mut times = Vec::new();
        let mut line = String::new();
        let mut counting = String::new();
        for _ in 0..RUNS {
            let begun = Instant::now();
            let Ok(loaded) = std::fs::read_to_string(&path).map(|text| load(name, text)) else {
                panic!("{path} is not there");
            };
            let Ok(loaded) = loaded else {
                panic!("{path} can't be used");
            };
            let checked = check(&loaded.ruleset, &Options::default());
            times.push(begun.elapsed());
            let (took, shares) = counting::counted(&loaded.ruleset, &checked);
            counting = format!("{:>14} {shares:>7}", seconds(took));
            let space = checked.space.map(|space| space.scenarios.to_string());
            line = format!(
                "{:>7} {:>10}",
                loaded.ruleset.clauses.len(),
                space.unwrap_or_default()
            );
        }
        times.sort_unstable();
        if let (Some(shortest), Some(longest)) = (times.first(), times.last()) {
            println!(
                "{line} {:>9} {:>8} {counting}  {name}",
                seconds(*shortest),
                seconds(*longest)
            );
        }
    }
    println!();
}

pub(crate) fn book(clauses: usize, silence: Silence) -> (Rulebook, Ruleset) {
    let book = generate::write(Plan {
        clauses,
        planted: PLANTED,
        silence,
        seed: 1,
    });
    match load("generated.yaml", book.yaml.as_str()) {
        Ok(loaded) => (book, loaded.ruleset),
        Err(refused) => panic!("the generator wrote what can't be read: {refused:?}"),
    }
}

/// Whole checks, each in a process of its own.
fn checks() {
    println!("Whole checks, one thread");
    println!("clauses  silence    read     check   peak memory  planted found");
    let Ok(program) = std::env::current_exe() else {
        return;
    };
    for clauses in LENGTHS {
        for gaps in [None, Some("--gaps")] {
            let mut child = Command::new(&program);
            child.args(["--check", &clauses.to_string()]).args(gaps);
            match child.output() {
                Ok(output) => print!("{}", String::from_utf8_lossy(&output.stdout)),
                Err(error) => println!("{clauses}: {error}"),
            }
        }
    }
}

fn check_line(clauses: usize, silence: Silence, jobs: usize) -> String {
    let begun = Instant::now();
    let (book, ruleset) = book(clauses, silence);
    let read = begun.elapsed();
    let begun = Instant::now();
    let checked = check(
        &ruleset,
        &Options {
            jobs: NonZeroUsize::new(jobs).unwrap_or(NonZeroUsize::MIN),
            ..Options::default()
        },
    );
    let took = begun.elapsed();
    let id = |clause: &ClauseId| ruleset[*clause].id.as_str();
    let is_found = |one: &str, other: &str| {
        let contradictions = checked.findings.iter();
        contradictions
            .filter(|finding| finding.kind == Kind::Contradiction)
            .any(|finding| finding.clauses.iter().map(id).eq([one, other]))
    };
    let found = book
        .planted
        .iter()
        .filter(|(one, other)| is_found(one, other))
        .count();
    let silence = match silence {
        Silence::Default => "default",
        Silence::Gap => "gap",
    };
    format!(
        "{clauses:>7}  {silence:<7} {:>7} {:>9} {:>9} MiB  {found} of {}",
        seconds(read),
        seconds(took),
        peak_memory().unwrap_or(0) / 1024,
        book.planted.len(),
    )
}

/// The most memory that this process has held, in KiB, where the system tells.
pub(crate) fn peak_memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().trim_end_matches("kB").trim().parse().ok()
}

/// Which clauses can clash: the solver asked about every pair, and the bits first.
fn pairs() {
    println!();
    println!("Pairs of clauses that clash: the solver alone, and the bits before it");
    println!("clauses      pairs  solver alone     bits  pairs left  solver after");
    for clauses in LENGTHS {
        let (_, ruleset) = book(clauses, Silence::Default);
        let on = DimensionId::new(0);
        let differ = |one: ClauseId, other: ClauseId| {
            let values = |id: ClauseId| ruleset[id].ruling_on(on).unwrap_or_default();
            values(one).intersect(values(other)).is_empty()
        };
        let ids = || (0..ruleset.clauses.len()).map(ClauseId::new);
        let all: Vec<(ClauseId, ClauseId)> = ids()
            .flat_map(|one| ids().take(one.index()).map(move |other| (other, one)))
            .filter(|(one, other)| differ(*one, *other))
            .collect();

        let stride = (all.len() / SAMPLE).max(1);
        let sample: Vec<_> = all.iter().copied().step_by(stride).collect();
        let begun = Instant::now();
        ask_about(&ruleset, on, &sample);
        let count = |pairs: &[_]| u32::try_from(pairs.len()).unwrap_or(u32::MAX);
        let alone = begun.elapsed() * count(&all) / count(&sample).max(1);
        let estimate = if stride > 1 { "about " } else { "" };

        let begun = Instant::now();
        let reach = Reach::new(&ruleset, Layers::new(&ruleset));
        let left: Vec<(ClauseId, ClauseId)> = ids()
            .filter_map(|one| Some((one, reach.meeting(reach.cell_box(one)?))))
            .flat_map(|(one, others)| {
                let before = others
                    .into_ones()
                    .take_while(move |other| *other < one.index());
                before.map(move |other| (ClauseId::new(other), one))
            })
            .filter(|(one, other)| differ(*one, *other))
            .collect();
        let bits = begun.elapsed();
        let begun = Instant::now();
        ask_about(&ruleset, on, &left);
        println!(
            "{clauses:>7} {:>10} {:>13} {:>8} {:>11} {:>13}",
            all.len(),
            format!("{estimate}{}", seconds(alone)),
            seconds(bits),
            left.len(),
            seconds(begun.elapsed()),
        );
    }
}

fn ask_about(ruleset: &Ruleset, on: DimensionId, pairs: &[(ClauseId, ClauseId)]) {
    let mut solver = Z3Solver::new(ruleset, Budget::unlimited());
    for (one, other) in pairs {
        let stands = |clause: &ClauseId| Formula::from(Name::Stands(World::Actual, *clause, on));
        let answer = solver.ask(&Formula::all([stands(one), stands(other)]));
        assert!(!matches!(answer, Answer::Undecided(_)), "{answer:?}");
    }
}

pub(crate) fn seconds(time: Duration) -> String {
    format!("{:.2} s", time.as_secs_f64())
}
