//! Checks a record without the program that made it.
//!
//! Nothing here uses the solvers, the formulas that they are given, or the code that makes records: the
//! clauses are made once more by [`rules`], the refutations replayed by another's checker, the scenarios put
//! to the plain evaluator. What has to be taken on trust is said.

mod principles;
mod refutation;
mod rules;
mod shows;
mod statement;
mod verdict;
mod wording;

pub use refutation::replay;
pub use shows::{Example, shows};
pub(super) use verdict::{Head, RECORDED, SCENARIO, free_by_form, says};

use super::dimacs::{self, Cnf};
use super::manifest::{Claim, FileRecord, MANIFEST, Manifest, Method, NotRecorded, Shown};
use super::{Files, Question, SUMS, digest, facts};
use crate::model::Ruleset;
use statement::Clause;
use std::collections::{BTreeMap, BTreeSet};
use verdict::{Established, carries};

/// What became of a record.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// The claims that hold, in words, each with what it rests on.
    pub holds: Vec<Held>,
    /// What does not hold, and where.
    pub refused: Vec<Refusal>,
    /// What was not checked here but taken on the word of solvers.
    pub trusted: Vec<String>,
    /// Verdicts that have no record.
    pub not_recorded: Vec<NotRecorded>,
}

/// A claim that holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Held {
    /// Its name.
    pub id: String,
    /// What it says.
    pub says: String,
    /// How many refutations were replayed.
    pub refuted: usize,
    /// How many scenarios were replayed.
    pub shown: usize,
    /// How many questions the form of the ruleset leaves no room for.
    pub by_form: usize,
    /// How many answers of solvers were taken on trust.
    pub trusted: usize,
}

/// Something that does not hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The file, or the claim.
    pub place: String,
    /// Why.
    pub why: String,
}

/// A record whose manifest cannot be read: nothing can be said of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unreadable(pub String);

/// Reads the manifest of a record.
///
/// # Errors
/// Where it is missing or is none.
pub fn manifest(files: &Files) -> Result<Manifest, Unreadable> {
    let text = files
        .get(MANIFEST)
        .ok_or_else(|| Unreadable(format!("there is no {MANIFEST}")))?;
    serde_json::from_str(text).map_err(|error| Unreadable(format!("{MANIFEST}: {error}")))
}

/// Checks the record of a ruleset; `fingerprint` is the SHA-256 of the ruleset's file.
///
/// # Errors
/// Where the manifest is missing or is none.
pub fn recheck(ruleset: &Ruleset, fingerprint: &str, files: &Files) -> Result<Report, Unreadable> {
    let manifest = manifest(files)?;
    let mut check = Check {
        ruleset,
        files,
        report: Report::default(),
        known: Established::default(),
        named: BTreeSet::from([MANIFEST.to_owned(), SUMS.to_owned()]),
    };
    check.fingerprints();
    check.subject(&manifest, fingerprint);
    let answered: Vec<Held> = manifest
        .claims
        .iter()
        .map(|claim| check.answers(claim))
        .collect();
    for (claim, held) in manifest.claims.iter().zip(answered) {
        check.claim(claim, held);
    }
    check.complete(&manifest);
    let Check {
        mut report, named, ..
    } = check;
    for name in files.keys().filter(|name| !named.contains(*name)) {
        report.refuse(name, "the manifest does not know this file");
    }
    report.not_recorded = manifest.not_recorded;
    Ok(report)
}

impl Report {
    fn refuse(&mut self, place: &str, why: impl Into<String>) {
        self.refused.push(Refusal {
            place: place.to_owned(),
            why: why.into(),
        });
    }
}

struct Check<'a> {
    ruleset: &'a Ruleset,
    files: &'a Files,
    report: Report,
    known: Established,
    /// Files that the manifest names.
    named: BTreeSet<String>,
}

impl<'a> Check<'a> {
    fn fingerprints(&mut self) {
        match self.files.get(SUMS) {
            None => self.report.refuse(SUMS, "this file is missing"),
            Some(listed) if *listed != super::sums(self.files) => {
                let whole: BTreeMap<&str, &str> = listed
                    .lines()
                    .filter_map(|line| line.split_once("  "))
                    .map(|(sum, name)| (name, sum))
                    .collect();
                let mut told = false;
                for (name, text) in self.files.iter().filter(|(name, _)| *name != SUMS) {
                    if whole.get(name.as_str()) != Some(&digest(text.as_bytes()).as_str()) {
                        told = true;
                        self.report
                            .refuse(name, format!("its fingerprint is not the one in {SUMS}"));
                    }
                }
                if !told {
                    self.report
                        .refuse(SUMS, "it does not list the files that are there");
                }
            }
            Some(_) => {}
        }
    }

    fn subject(&mut self, manifest: &Manifest, fingerprint: &str) {
        let subject = &manifest.ruleset;
        if subject.sha256 != fingerprint {
            self.report.refuse(
                MANIFEST,
                format!(
                    "the record was made of another text of the ruleset (SHA-256 {}); this one has {fingerprint}",
                    subject.sha256
                ),
            );
        }
        if (&subject.title, &subject.edition) != (&self.ruleset.title, &self.ruleset.edition) {
            self.report
                .refuse(MANIFEST, "the ruleset has another title or edition");
        }
    }

    /// A file of the record whose fingerprint is as the manifest says.
    fn file(&mut self, record: &FileRecord) -> Option<&'a str> {
        self.named.insert(record.file.clone());
        match self.files.get(&record.file) {
            None => self.report.refuse(&record.file, "this file is missing"),
            Some(text) if digest(text.as_bytes()) != record.sha256 => {
                self.report.refuse(
                    &record.file,
                    format!("its fingerprint is not the one in {MANIFEST}"),
                );
            }
            Some(text) => return Some(text),
        }
        None
    }

    /// Looks at all that a claim's questions were answered by, and counts what holds of each sort.
    fn answers(&mut self, claim: &Claim) -> Held {
        let mut held = Held {
            id: claim.id.clone(),
            ..Held::default()
        };
        for question in &claim.none {
            let Some(asked) = Question::from_record(self.ruleset, &question.question) else {
                self.report.refuse(
                    &claim.id,
                    "it asks what this ruleset has no question for, or not in the form of the records",
                );
                continue;
            };
            if question.words != asked.words(self.ruleset) {
                self.report
                    .refuse(&claim.id, "the words of a question say something else");
            }
            match self.refutation(&asked, &question.by) {
                Ok(true) => {
                    match question.by {
                        Method::Form => held.by_form += 1,
                        Method::Clauses { .. } => held.refuted += 1,
                        Method::Solvers { .. } => held.trusted += 1,
                    }
                    if let Question::Any(several) = &asked {
                        self.known.none.extend(several.iter().cloned());
                    }
                    self.known.none.insert(asked);
                }
                // The files are refused already.
                Ok(false) => {}
                Err((place, why)) => {
                    let place = if place.is_empty() { &claim.id } else { place };
                    self.report.refuse(place, why);
                }
            }
        }
        held.shown = claim.scenarios.as_ref().map_or(0, |record| {
            let text = self.file(record);
            text.map_or(0, |text| self.scenarios(&record.file, text))
        });
        if let Some(record) = &claim.smtlib {
            self.file(record);
        }
        held
    }

    fn refutation<'m>(
        &mut self,
        asked: &Question,
        by: &'m Method,
    ) -> Result<bool, (&'m str, String)> {
        match by {
            Method::Form if verdict::free_by_form(self.ruleset, asked) => Ok(true),
            Method::Form => Err((
                "",
                format!(
                    "the form of the ruleset leaves room for a scenario in which {}",
                    asked.words(self.ruleset)
                ),
            )),
            Method::Solvers { solvers } => {
                self.report.trusted.push(format!(
                    "that there is no scenario in which {}: answered by {}",
                    asked.words(self.ruleset),
                    if solvers.is_empty() {
                        "nobody".to_owned()
                    } else {
                        solvers.join(" and ")
                    }
                ));
                Ok(!solvers.is_empty())
            }
            Method::Clauses {
                clauses,
                words,
                refutation,
            } => {
                let texts = (self.file(clauses), self.file(words), self.file(refutation));
                let (Some(cnf), Some(named), Some(steps)) = texts else {
                    return Ok(false);
                };
                let at_clauses = |why| (clauses.file.as_str(), why);
                let at_steps = |why| (refutation.file.as_str(), why);
                let cnf = Cnf::read(cnf, named).map_err(at_clauses)?;
                let own = rules::clauses(self.ruleset, asked).map_err(at_clauses)?;
                compare(&cnf, &own).map_err(at_clauses)?;
                let steps = dimacs::read_refutation(steps, cnf.words.len()).map_err(at_steps)?;
                replay(&cnf, &steps).map_err(at_steps)?;
                Ok(true)
            }
        }
    }

    fn scenarios(&mut self, file: &str, text: &str) -> usize {
        let shown: Vec<Shown> = match serde_json::from_str(text) {
            Ok(shown) => shown,
            Err(error) => {
                self.report.refuse(file, error.to_string());
                return 0;
            }
        };
        let mut good = 0;
        for (one, number) in shown.iter().zip(1usize..) {
            match self.shown(one) {
                Ok(asked) => {
                    good += 1;
                    self.known.some.insert(asked);
                }
                Err(why) => self
                    .report
                    .refuse(file, format!("scenario {number}: {why}")),
            }
        }
        good
    }

    fn shown(&self, one: &Shown) -> Result<Question, String> {
        let asked = Question::from_record(self.ruleset, &one.question)
            .ok_or("it is shown for a question that this ruleset does not have")?;
        let scenario = |facts| facts::from_record(self.ruleset, facts);
        let example = Example {
            first: scenario(&one.facts)?,
            second: one.second.as_ref().map(scenario).transpose()?,
        };
        if shows(self.ruleset, &asked, &example) {
            Ok(asked)
        } else {
            Err(format!(
                "in it, it is not so that {}",
                asked.words(self.ruleset)
            ))
        }
    }

    fn claim(&mut self, claim: &Claim, held: Held) {
        let says = says(&claim.head(), claim.verdict);
        if says != claim.says {
            self.report
                .refuse(&claim.id, "its words say something else than its verdict");
            return;
        }
        match carries(self.ruleset, claim, &self.known) {
            Ok(()) => self.report.holds.push(Held { says, ..held }),
            Err(why) => self.report.refuse(&claim.id, why),
        }
    }

    /// Every verdict of a check is either claimed or said to have no record, once.
    fn complete(&mut self, manifest: &Manifest) {
        let mut told: BTreeMap<Head, usize> = BTreeMap::new();
        let claims = manifest.claims.iter().map(Claim::head);
        let others = manifest.not_recorded.iter().map(NotRecorded::head);
        for one in claims.chain(others) {
            *told.entry(one).or_default() += 1;
        }
        for head in verdict::due(self.ruleset) {
            let about = head.words();
            match told.remove(&head) {
                Some(1) => {}
                Some(_) => self
                    .report
                    .refuse(MANIFEST, format!("it tells of {about} twice")),
                None => self
                    .report
                    .refuse(MANIFEST, format!("it says nothing of {about}")),
            }
        }
        for head in told.into_keys() {
            let about = head.words();
            self.report.refuse(
                MANIFEST,
                format!("it tells of {about}, which is no verdict"),
            );
        }
    }
}

/// Whether recorded clauses are those that the rules make.
///
/// # Errors
/// Names a clause that is missing, or one that is too much.
fn compare(cnf: &Cnf, own: &BTreeSet<Clause>) -> Result<(), String> {
    let numbers: BTreeMap<&str, i32> = cnf.words.iter().map(String::as_str).zip(1..).collect();
    let mut expected: BTreeSet<Vec<i32>> = BTreeSet::new();
    for clause in own {
        let numbered: Option<Vec<i32>> = clause
            .iter()
            .map(|(words, so)| {
                let number = *numbers.get(words.as_str())?;
                Some(if *so { number } else { -number })
            })
            .collect();
        let Some(mut numbered) = numbered else {
            let said: Vec<String> = clause
                .iter()
                .map(|(words, so)| {
                    if *so {
                        words.clone()
                    } else {
                        format!("not {words}")
                    }
                })
                .collect();
            return Err(format!(
                "the rules say what is not recorded: {}",
                said.join(" or ")
            ));
        };
        numbered.sort_unstable();
        expected.insert(numbered);
    }
    let mut recorded: BTreeSet<Vec<i32>> = BTreeSet::new();
    for clause in &cnf.clauses {
        let mut clause = clause.clone();
        clause.sort_unstable();
        if !expected.contains(&clause) {
            return Err(format!(
                "the rules do not say what is recorded: {}",
                cnf.clause_words(&clause)
            ));
        }
        recorded.insert(clause);
    }
    match expected.difference(&recorded).next() {
        None => Ok(()),
        Some(clause) => Err(format!(
            "the rules say what is not recorded: {}",
            cnf.clause_words(clause)
        )),
    }
}

/// The question's clauses by the rules of this module, in words; for comparison with those that are
/// recorded.
///
/// # Errors
/// Where a sum is too large for clauses.
pub fn compare_with_rules(
    ruleset: &Ruleset,
    question: &Question,
    recorded: &Cnf,
) -> Result<(), String> {
    compare(recorded, &rules::clauses(ruleset, question)?)
}
