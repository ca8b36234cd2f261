//! Which questions make up each verdict, and how each is settled and written down.

use super::clauses::clauses;
use super::formula::{Formal, Put};
use super::plans::{self, Plan};
use super::refute::{Refutation, refute};
use super::scripts;
use crate::analysis::{self, Options};
use crate::model::Ruleset;
use crate::proof::dimacs::refutation_text;
use crate::proof::manifest::{
    Claim, FileRecord, Format, MANIFEST, Manifest, Method, NotRecorded, Refuted, Shown, Subject,
};
use crate::proof::recheck::{Example, Head, free_by_form, replay, says, shows};
use crate::proof::{Files, Question, SUMS, digest, facts, sums};
use crate::solve::{Answer, Reason, Solver, Z3Solver};

/// Asks another solver about SMT-LIB text with one question: its name with its version, and whether it
/// says that there is none. `None` where it is not there or gives no answer.
pub type SecondSolver<'a> = &'a dyn Fn(&str) -> Option<(String, bool)>;

/// Makes records.
pub struct Prover<'a> {
    /// Of this ruleset.
    pub ruleset: &'a Ruleset,
    /// The name of its file, without folders.
    pub file: String,
    /// The SHA-256 of its file as it was read.
    pub fingerprint: String,
    /// Words that belong wherever scenarios and rulings are shown to people.
    pub caution: Vec<String>,
    /// Who else is asked where a question can't be put into clauses.
    pub second: SecondSolver<'a>,
}

/// A record.
#[derive(Clone, Debug)]
pub struct Recorded {
    /// Its files.
    pub files: Files,
    /// What it claims.
    pub manifest: Manifest,
    /// What stayed open, in words.
    pub open: Vec<String>,
}

/// A fault of this program: two of its parts disagree. Nothing is recorded then.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Disagreement(pub String);

/// Why a claim has no record.
enum Unsettled {
    Open(String),
    Fault(Disagreement),
}

impl From<Reason> for Unsettled {
    fn from(reason: Reason) -> Self {
        Unsettled::Open(reason.to_string())
    }
}

impl Prover<'_> {
    /// Checks the ruleset and records every verdict.
    ///
    /// # Errors
    /// Where two parts of this program disagree, which is a fault of it.
    pub fn record(&self, options: &Options<'_>) -> Result<Recorded, Disagreement> {
        let checked = analysis::check(self.ruleset, options);
        let instances = analysis::instances(self.ruleset, options);
        let plans = plans::plans(self.ruleset, &checked, &instances);
        let mut files = Files::new();
        let mut claims = Vec::new();
        let mut open = Vec::new();
        let mut not_recorded = Vec::new();
        options.progress.stage("writing records", plans.len());
        for plan in plans {
            let settled = match plan {
                Ok(plan) => self
                    .settle(&plan, options, &mut files)
                    .map_err(|why| (plan.head, why)),
                Err((head, why)) => Err((head, Unsettled::Open(why))),
            };
            options.progress.advance(1);
            match settled {
                Ok(claim) => claims.push(claim),
                Err((_, Unsettled::Fault(fault))) => return Err(fault),
                Err((head, Unsettled::Open(why))) => {
                    open.push(format!("{}: {why}", head.words()));
                    not_recorded.push(NotRecorded {
                        kind: head.kind,
                        dimension: head.dimension,
                        principle: head.principle,
                        verdict: "undecided".to_owned(),
                        why,
                    });
                }
            }
        }
        not_recorded.extend(plans::without_record(&checked));
        let manifest = Manifest {
            format: Format::Proof1,
            ruleset: Subject {
                title: self.ruleset.title.clone(),
                edition: self.ruleset.edition.clone(),
                file: self.file.clone(),
                sha256: self.fingerprint.clone(),
            },
            made_by: concat!("evenhand ", env!("CARGO_PKG_VERSION")).to_owned(),
            claims,
            not_recorded,
            caution: self.caution.clone(),
        };
        let text = serde_json::to_string_pretty(&manifest)
            .map_err(|error| Disagreement(format!("the manifest can't be written: {error}")))?;
        files.insert(MANIFEST.to_owned(), text + "\n");
        let listed = sums(&files);
        files.insert(SUMS.to_owned(), listed);
        Ok(Recorded {
            files,
            manifest,
            open,
        })
    }

    fn settle(
        &self,
        plan: &Plan,
        options: &Options<'_>,
        files: &mut Files,
    ) -> Result<Claim, Unsettled> {
        let Head {
            kind,
            dimension,
            principle,
        } = plan.head.clone();
        let id = plan.id.clone();
        let says = says(&plan.head, plan.verdict);
        let mut own = Files::new();
        let mut none = Vec::new();
        for (question, number) in plan.none.iter().zip(1usize..) {
            let stem = match plan.none.len() {
                1 => id.clone(),
                _ => format!("{id}-{number}"),
            };
            none.push(Refuted {
                question: question.to_record(self.ruleset),
                words: question.words(self.ruleset),
                by: self.refuted(question, &stem, options, &mut own)?,
            });
        }
        let mut lines = Vec::new();
        for (question, known) in &plan.some {
            let example = self.shown(question, known.as_ref(), options)?;
            let told = |scenario| facts::to_record(self.ruleset, scenario);
            let shown = Shown {
                question: question.to_record(self.ruleset),
                facts: told(&example.first),
                second: example.second.as_ref().map(told),
            };
            let line = serde_json::to_string(&shown).map_err(|error| {
                Unsettled::Fault(Disagreement(format!(
                    "a scenario can't be written: {error}"
                )))
            })?;
            lines.push(line);
        }
        let scenarios = (!lines.is_empty()).then(|| {
            let text = format!("[\n{}\n]\n", lines.join(",\n"));
            keep(&mut own, format!("{id}.scenarios.json"), text)
        });
        let asks = !plan.none.is_empty() || !plan.some.is_empty();
        let smtlib = asks.then(|| {
            let comment = format!("{}\n{says}", self.headline());
            let text = scripts::claim(self.ruleset, plan, &comment);
            keep(&mut own, format!("{id}.smt2"), text)
        });
        files.append(&mut own);
        Ok(Claim {
            id,
            kind,
            dimension,
            principle,
            verdict: plan.verdict,
            says,
            none,
            scenarios,
            smtlib,
        })
    }

    fn refuted(
        &self,
        question: &Question,
        stem: &str,
        options: &Options<'_>,
        files: &mut Files,
    ) -> Result<Method, Unsettled> {
        if free_by_form(self.ruleset, question) {
            return Ok(Method::Form);
        }
        let formal = Formal::new(self.ruleset, question);
        let put = formal.put();
        let define = |name| put.theory.define(name);
        let Ok(claimed) = clauses((put.theory.ruleset(), &put.edits), &put.asked, &define) else {
            return self.on_trust(question, put, options);
        };
        let cnf = &claimed.cnf;
        match refute(&claimed, &options.budget) {
            Refutation::Open => Err(options.budget.exhausted().map_or(
                Unsettled::Open("the solver gave up".to_owned()),
                Unsettled::from,
            )),
            Refutation::Satisfiable => Err(self.fault(
                question,
                "the clauses have an answer, and the check found none",
            )),
            Refutation::Refuted(steps) => {
                replay(cnf, &steps).map_err(|why| {
                    self.fault(question, &format!("the refutation does not hold: {why}"))
                })?;
                let comment = format!(
                    "{}\nIs there a scenario in which {}?\nThe words of the variables are in {stem}.words, the refutation in {stem}.drat.",
                    self.headline(),
                    question.words(self.ruleset)
                );
                Ok(Method::Clauses {
                    clauses: keep(files, format!("{stem}.cnf"), cnf.to_dimacs(&comment)),
                    words: keep(files, format!("{stem}.words"), cnf.to_words()),
                    refutation: keep(files, format!("{stem}.drat"), refutation_text(&steps)),
                })
            }
        }
    }

    /// Two solvers in place of a refutation.
    fn on_trust(
        &self,
        question: &Question,
        put: Put<'_>,
        options: &Options<'_>,
    ) -> Result<Method, Unsettled> {
        let text = scripts::one(&put, &question.words(self.ruleset));
        match Z3Solver::over(put.theory, options.budget.clone()).ask(&put.asked) {
            Answer::No => {}
            Answer::Yes(_) => {
                return Err(self.fault(question, "Z3 has an answer, and the check found none"));
            }
            Answer::Undecided(reason) => return Err(reason.into()),
        }
        let mut solvers = vec![crate::solve::version()];
        match (self.second)(&text) {
            Some((name, true)) => solvers.push(name),
            Some((name, false)) => {
                return Err(self.fault(question, &format!("Z3 finds no answer and {name} does")));
            }
            None => {}
        }
        Ok(Method::Solvers { solvers })
    }

    fn shown(
        &self,
        question: &Question,
        known: Option<&Example>,
        options: &Options<'_>,
    ) -> Result<Example, Unsettled> {
        if let Some(known) = known.filter(|known| shows(self.ruleset, question, known)) {
            return Ok(known.clone());
        }
        let formal = Formal::new(self.ruleset, question);
        let Put { theory, asked, .. } = formal.put();
        match Z3Solver::over(theory, options.budget.clone()).ask(&asked) {
            Answer::Yes(scenario) => {
                let (first, second) = formal.split(&scenario);
                let example = Example { first, second };
                if shows(self.ruleset, question, &example) {
                    return Ok(example);
                }
                Err(self.fault(question, "the scenario found does not show it"))
            }
            Answer::No => Err(self.fault(question, "the check found it, and there is none")),
            Answer::Undecided(reason) => Err(reason.into()),
        }
    }

    fn fault(&self, question: &Question, what: &str) -> Unsettled {
        Unsettled::Fault(Disagreement(format!(
            "evenhand does not agree with itself on whether there is a scenario in which {}: {what}. \
             Please report it with the ruleset.",
            question.words(self.ruleset)
        )))
    }

    fn headline(&self) -> String {
        let Ruleset { title, edition, .. } = self.ruleset;
        if edition.is_empty() {
            title.clone()
        } else {
            format!("{title}, edition {edition}")
        }
    }
}

fn keep(files: &mut Files, name: String, text: String) -> FileRecord {
    let record = FileRecord {
        sha256: digest(text.as_bytes()),
        file: name.clone(),
    };
    files.insert(name, text);
    record
}
