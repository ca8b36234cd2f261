//! The page, in a browser: it is loaded, searched, filtered, printed and checked for accessibility, and
//! what it says of single incidents is held against the plain evaluator.
//!
//! Needs Chromium, Node.js and what `tests/browser/package.json` names; where one is missing the tests say
//! so (LEFT OUT) and look at nothing.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test runs a browser on files that it has made"
)]

#[path = "support/mod.rs"]
mod support;

use evenhand::amendment::{Vetted, vet};
use evenhand::analysis::{Options, Silent, check};
use evenhand::cases::{self, Review};
use evenhand::graph::overlaps;
use evenhand::load::Layered;
use evenhand::logic::{Basis, Established, Evaluator, Outcome, Ruling, Scenario};
use evenhand::model::{ClauseId, DimensionId, Ruleset};
use evenhand::quiz::{self, Quiz};
use evenhand::report::html::{Besides, Book, CaseBook, Decision, Draft, page};
use evenhand::scenario::{self, Asked};
use evenhand::solve::{Budget, scenarios};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::io::{self, Write};
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::thread;
use support::random_ruleset;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The folder that the pages of one test are written into, empty.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("page-{name}"));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn made(ruleset: &Ruleset) -> String {
    with(ruleset, Besides::default())
}

/// A page with more than what a check finds out.
fn with(ruleset: &Ruleset, besides: Besides<'_>) -> String {
    let checked = check(ruleset, &Options::default());
    let book = Book {
        ruleset,
        warnings: &[],
        checked: &checked,
        date: Some("2031-04-02"),
        fingerprint: "0123456789abcdef",
        besides,
    };
    page(&book).unwrap()
}

fn ruleset(name: &str, text: &str) -> Ruleset {
    match evenhand::load::load(name, text) {
        Ok(loaded) => loaded.ruleset,
        Err(refused) => panic!("{name}: {:?}", refused.problems),
    }
}

/// Says that a test has looked at nothing, and why: to whoever runs the tests, though it passes.
fn left_out(missing: &[&str]) {
    let here = thread::current();
    let test = here.name().unwrap_or("a test of the page");
    let words = format!("LEFT OUT: {test}, for want of {}\n", missing.join(" and "));
    // Not by a macro: what those print is kept back where a test passes.
    io::stderr().lock().write_all(words.as_bytes()).unwrap();
}

/// Runs a script of `tests/browser/` on a folder; `None` where the machine lacks what it needs.
fn browser(script: &str, folder: &Path) -> Option<String> {
    let scripts = root().join("tests/browser");
    let has = |program: &str| Command::new(program).arg("--version").output().is_ok();
    let missing: Vec<&str> = [
        ("Node.js", has("node")),
        ("Chromium", has("chromium")),
        (
            "what `npm ci` installs in tests/browser",
            scripts.join("node_modules/playwright-core").exists(),
        ),
    ]
    .iter()
    .filter(|(_, there)| !there)
    .map(|(name, _)| *name)
    .collect();
    if !missing.is_empty() {
        left_out(&missing);
        return None;
    }
    let output = Command::new("node")
        .arg(scripts.join(script))
        .arg(folder)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}\n{complaint}");
    Some(said)
}

#[test]
fn people_can_use_the_page() {
    let folder = folder("use");
    let draft = "rulesets/grappling-draft.yaml";
    let text = fs::read_to_string(root().join(draft)).unwrap();
    let draft = made(&ruleset(draft, &text));
    assert!(draft.len() < 1 << 20, "{} bytes", draft.len());
    fs::write(folder.join("draft.html"), draft).unwrap();
    let clean = "rulesets/ball.yaml";
    let text = fs::read_to_string(root().join(clean)).unwrap();
    fs::write(folder.join("clean.html"), made(&ruleset(clean, &text))).unwrap();
    let text = fs::read_to_string(root().join("tests/browser/hostile.yaml")).unwrap();
    let hostile = made(&ruleset("<hostile>.yaml", &text));
    assert!(!hostile.contains('\u{202e}'));
    fs::write(folder.join("hostile.html"), hostile).unwrap();
    browser("use.mjs", &folder);
}

/// A file of the repository: its name and text.
fn read(name: &str) -> (String, String) {
    (
        name.to_owned(),
        fs::read_to_string(root().join(name)).unwrap(),
    )
}

/// A ruleset and drafts to it, vetted together and each alone.
fn vetted(base: &str, drafts: &[&str]) -> (Vetted, Vec<(String, Vetted)>) {
    let (name, text) = read(base);
    let drafts: Vec<(String, String)> = drafts.iter().map(|draft| read(draft)).collect();
    let layered = match Layered::read(name, text, &drafts) {
        Ok(layered) => layered,
        Err(refused) => panic!("{base}: {:?}", refused.problems),
    };
    let every: Vec<usize> = (0..drafts.len()).collect();
    let vet = |which: &[usize]| vet(&layered, which, &Options::default()).unwrap();
    let alone = every.iter().filter(|_| every.len() > 1);
    let alone = alone.map(|one| {
        let title = layered.amendments[*one].title.value.clone();
        (title, vet(&[*one]))
    });
    (vet(&every), alone.collect())
}

/// Cases against a ruleset.
fn reviewed(ruleset: &Ruleset, file: &str) -> Review {
    let (name, text) = read(file);
    let cases = match cases::book(ruleset, &name, &text) {
        Ok(cases) => cases,
        Err(refused) => panic!("{file}: {:?}", refused.problems),
    };
    let how = cases::Options {
        jobs: NonZeroUsize::MIN,
        budget: Budget::unlimited(),
        progress: &Silent,
    };
    cases::review(ruleset, cases, &how)
}

fn asked(ruleset: &Ruleset, count: usize) -> Quiz {
    let request = quiz::Request {
        wanted: scenario::meant(ruleset, &Asked::default()).unwrap().wanted,
        count,
        level: None,
        seed: 1,
        jobs: None,
    };
    quiz::quiz(ruleset, &request, &Budget::unlimited())
}

/// Everything that can stand on a page, of one dimension by its place.
fn whole_page(
    ruleset: &Ruleset,
    draft: Option<Draft<'_>>,
    file: &str,
    (dimension, questions): (usize, usize),
) -> String {
    let review = reviewed(ruleset, file);
    let quiz = asked(ruleset, questions);
    let dimension = DimensionId::new(dimension);
    let mut chart = scenario::chart(ruleset, &[dimension], &Budget::unlimited()).unwrap();
    let outlook = chart.outlook(&Established::nothing(ruleset.attributes.len()));
    let protocol = chart.protocol(&outlook, &|| false).unwrap();
    let found = overlaps(ruleset, &Budget::unlimited());
    let besides = Besides {
        draft,
        cases: Some(CaseBook {
            file,
            review: &review,
        }),
        quiz: Some(&quiz),
        decision: Some(Decision {
            dimension,
            order: Ok((&chart, &protocol)),
        }),
        overlaps: Some(&found),
    };
    with(ruleset, besides)
}

#[test]
fn what_is_asked_for_stands_on_the_page() {
    let folder = folder("besides");
    let (together, alone) = vetted(
        "rulesets/ball.yaml",
        &["rulesets/ball-strokes.yaml", "rulesets/ball-let.yaml"],
    );
    let draft = Draft {
        vetted: &together,
        alone: &alone,
        warnings: &[],
    };
    let besides = Besides {
        draft: Some(draft),
        ..Besides::default()
    };
    fs::write(folder.join("draft.html"), with(&together.before, besides)).unwrap();
    let (hostile, _) = vetted(
        "tests/browser/hostile.yaml",
        &["tests/browser/hostile-draft.yaml"],
    );
    let draft = Draft {
        vetted: &hostile,
        alone: &[],
        warnings: &[],
    };
    let cases = "tests/browser/hostile-cases.yaml";
    let page = whole_page(&hostile.before, Some(draft), cases, (0, 3));
    fs::write(folder.join("hostile.html"), page).unwrap();
    let (name, text) = read("rulesets/grappling.yaml");
    let rules = ruleset(&name, &text);
    let penalty = rules.dimensions.iter().position(|it| it.name == "penalty");
    let cases = "rulesets/grappling-cases.yaml";
    let page = whole_page(&rules, None, cases, (penalty.unwrap(), 6));
    assert!(page.len() < 1 << 20, "{} bytes", page.len());
    fs::write(folder.join("whole.html"), page).unwrap();
    browser("besides.mjs", &folder);
}

/// A ruling as the page names it.
fn named(ruling: Ruling) -> String {
    let bits = ruling.values.bits();
    match ruling.basis {
        Basis::Clauses | Basis::Default => format!("ruled {bits}"),
        Basis::Gap => "gap 0".to_owned(),
        Basis::Silence => "silence 0".to_owned(),
        Basis::Contradiction => "contradiction 0".to_owned(),
    }
}

fn facts(scenario: &Scenario) -> Vec<(usize, String)> {
    scenario
        .facts()
        .map(|(id, code)| (id.index(), code.0.to_string()))
        .collect()
}

/// What the plain evaluator says of a whole incident.
fn whole(ruleset: &Ruleset, scenario: &Scenario, said: &Outcome) -> Value {
    let clauses = |holds: &dyn Fn(ClauseId) -> bool| -> Vec<usize> {
        let all = (0..ruleset.clauses.len()).map(ClauseId::new);
        all.filter(|id| holds(*id)).map(ClauseId::index).collect()
    };
    let standing: Vec<Vec<usize>> = said
        .standing
        .iter()
        .map(|list| list.iter().map(|id| id.index()).collect())
        .collect();
    json!({
        "facts": facts(scenario),
        "met": clauses(&|id| said.met.contains(id.index())),
        "inForce": clauses(&|id| said.in_force.contains(id.index())),
        "standing": standing,
        "rulings": said.rulings.iter().map(|ruling| named(*ruling)).collect::<Vec<_>>(),
    })
}

/// Numbers that look random and are the same in every run.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        // A linear congruential generator; the multiplier and increment are Knuth's for MMIX (from memory).
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % sides
    }
}

/// The rulings that are possible with some of the facts of a scenario, by trying every scenario.
fn partly(
    ruleset: &Ruleset,
    all: &[(Scenario, Outcome)],
    scenario: &Scenario,
    dice: &mut Dice,
) -> Value {
    let keep = dice.roll(4);
    let kept: Vec<_> = scenario.facts().filter(|_| dice.roll(4) < keep).collect();
    let mut possible = vec![BTreeSet::new(); ruleset.dimensions.len()];
    for (other, said) in all {
        if kept.iter().all(|(id, code)| other.get(*id) == Some(*code)) {
            for (set, ruling) in possible.iter_mut().zip(&said.rulings) {
                set.insert(named(*ruling));
            }
        }
    }
    let kept: Vec<(usize, String)> = kept
        .iter()
        .map(|(id, code)| (id.index(), code.0.to_string()))
        .collect();
    json!({"facts": kept, "possible": possible})
}

#[test]
fn the_page_rules_as_the_evaluator_does() {
    const RULESETS: usize = 30;
    const CASES: usize = 120;
    let folder = folder("ruling");
    let mut dice = Dice(20_310_101);
    let mut written = 0;
    while written < RULESETS {
        let tape: Vec<u16> = (0..80 + dice.roll(300))
            .map(|_| u16::try_from(dice.roll(1 << 16)).unwrap())
            .collect();
        let text = random_ruleset::write_ruleset(&tape);
        let Ok(loaded) = evenhand::load::load("random.yaml", text.as_str()) else {
            continue;
        };
        let ruleset = loaded.ruleset;
        let Some(some) = scenarios(&ruleset) else {
            continue;
        };
        let evaluator = Evaluator::new(&ruleset);
        let all: Vec<(Scenario, Outcome)> = some
            .take(20_001)
            .map(|scenario| {
                let said = evaluator.outcome(&scenario);
                (scenario, said)
            })
            .collect();
        if all.is_empty() || all.len() > 20_000 {
            continue;
        }
        let mut wholes = Vec::new();
        let mut parts = Vec::new();
        for _ in 0..CASES {
            let at = usize::try_from(dice.roll(all.len() as u64)).unwrap();
            let (scenario, said) = &all[at];
            wholes.push(whole(&ruleset, scenario, said));
            if parts.len() < CASES / 2 {
                parts.push(partly(&ruleset, &all, scenario, &mut dice));
            }
        }
        let cases = json!({"whole": wholes, "partly": parts});
        fs::write(folder.join(format!("{written}.html")), made(&ruleset)).unwrap();
        fs::write(folder.join(format!("{written}.json")), cases.to_string()).unwrap();
        fs::write(folder.join(format!("{written}.yaml")), text).unwrap();
        written += 1;
    }
    if let Some(said) = browser("ruling.mjs", &folder) {
        let expected = format!("{} whole incidents", RULESETS * CASES);
        assert!(said.contains(&expected), "{said}");
    }
}
