//! Which questions make up each verdict, and how each is settled and written down.

use super::clauses::clauses;
use super::formula::{concerned, formula};
use super::refute::{Refutation, refute};
use crate::analysis::{self, Checked, Deed, Instance, Options, Outcome};
use crate::logic::{Formula, Scenario, Theory};
use crate::model::{ClauseId, DimensionId, Kind, Ruleset, TermId};
use crate::proof::dimacs::refutation_text;
use crate::proof::manifest::{
    Claim, ClaimVerdict, FileRecord, Format, MANIFEST, Manifest, Method, NotRecorded, Refuted,
    Shown, Subject,
};
use crate::proof::recheck::{RECORDED, SCENARIO, free_by_form, replay, says, shows};
use crate::proof::{Files, Question, SUMS, digest, facts, sums};
use crate::solve::smtlib::{self, Asks, Expected, Posed};
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

/// The questions of a claim.
struct Plan {
    kind: &'static str,
    dimension: Option<DimensionId>,
    verdict: ClaimVerdict,
    none: Vec<Question>,
    some: Vec<(Question, Option<Scenario>)>,
}

impl Prover<'_> {
    /// Checks the ruleset and records every verdict.
    ///
    /// # Errors
    /// Where two parts of this program disagree, which is a fault of it.
    pub fn record(&self, options: &Options<'_>) -> Result<Recorded, Disagreement> {
        let checked = analysis::check(self.ruleset, options);
        let instances = analysis::instances(self.ruleset, options);
        let plans = self.plans(&checked, &instances);
        let mut files = Files::new();
        let mut claims = Vec::new();
        let mut open = Vec::new();
        let mut not_recorded = Vec::new();
        options.progress.stage("writing records", plans.len());
        for plan in plans {
            let settled = match plan {
                Ok(plan) => self
                    .settle(&plan, options, &mut files)
                    .map_err(|why| (plan.head(self.ruleset), why)),
                Err((head, why)) => Err((head, Unsettled::Open(why))),
            };
            options.progress.advance(1);
            match settled {
                Ok(claim) => claims.push(claim),
                Err((_, Unsettled::Fault(fault))) => return Err(fault),
                Err(((kind, dimension), Unsettled::Open(why))) => {
                    let about = dimension
                        .as_ref()
                        .map_or(String::new(), |on| format!(" on {on}"));
                    open.push(format!("{kind}{about}: {why}"));
                    not_recorded.push(NotRecorded {
                        kind: kind.to_owned(),
                        dimension,
                        verdict: "undecided".to_owned(),
                        why,
                    });
                }
            }
        }
        not_recorded.extend(without_record(&checked));
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

    fn plans(
        &self,
        checked: &Checked,
        instances: &[Instance],
    ) -> Vec<Result<Plan, (Head, String)>> {
        let mut plans = vec![Ok(Plan {
            kind: SCENARIO,
            dimension: None,
            verdict: ClaimVerdict::Found,
            none: Vec::new(),
            some: vec![(Question::Scenario, instances.iter().find_map(somewhere))],
        })];
        for verdict in &checked.verdicts {
            let recorded = RECORDED.iter().any(|(kind, _)| *kind == verdict.kind);
            if !recorded {
                continue;
            }
            let mut plan = Plan {
                kind: verdict.kind.word(),
                dimension: verdict.dimension,
                verdict: match verdict.outcome {
                    Outcome::Proved => ClaimVerdict::Proved,
                    _ => ClaimVerdict::Found,
                },
                none: Vec::new(),
                some: Vec::new(),
            };
            if let Outcome::Undecided(reason) = &verdict.outcome {
                plans.push(Err((plan.head(self.ruleset), reason.to_string())));
                continue;
            }
            let planned = match (verdict.kind, verdict.dimension) {
                (Kind::Impossible | Kind::Displaced | Kind::NoEffect, _) => {
                    by_clause(verdict.kind, instances, &mut plan)
                }
                (kind, dimension) => {
                    self.by_scenario(kind, dimension, checked, verdict.untold, &mut plan);
                    Ok(())
                }
            };
            plans.push(match planned {
                Ok(()) => Ok(plan),
                Err(why) => Err((plan.head(self.ruleset), why)),
            });
        }
        plans
    }

    /// Kinds of which a scenario shows that there is one.
    fn by_scenario(
        &self,
        kind: Kind,
        dimension: Option<DimensionId>,
        checked: &Checked,
        untold: bool,
        plan: &mut Plan,
    ) {
        let findings = checked
            .findings
            .iter()
            .filter(|finding| finding.kind == kind && finding.dimension == dimension)
            .chain(
                // Of these kinds a finding may name a dimension that its verdict does not.
                checked.findings.iter().filter(|finding| {
                    finding.kind == kind && dimension.is_none() && finding.dimension.is_some()
                }),
            );
        let proved = plan.verdict == ClaimVerdict::Proved;
        match (kind, dimension) {
            (Kind::Contradiction, Some(on)) => {
                let mut families = Vec::new();
                for finding in findings {
                    families.push(finding.clauses.clone());
                    plan.some.push((
                        Question::Together(on, finding.clauses.clone()),
                        finding.scenario.clone(),
                    ));
                }
                if families.is_empty() && !proved {
                    plan.some.push((Question::Clash(on, Vec::new()), None));
                } else if !untold {
                    families.sort();
                    plan.none.push(Question::Clash(on, families));
                }
            }
            (Kind::Gap | Kind::LeftToDiscretion, Some(on)) => {
                let question = match kind {
                    Kind::Gap => Question::Gap(on),
                    _ => Question::Open(on),
                };
                if proved {
                    plan.none.push(question);
                } else {
                    let shown = findings.into_iter().find_map(|it| it.scenario.clone());
                    plan.some.push((question, shown));
                }
            }
            (Kind::LooseTerm, _) => {
                let mut told = Vec::new();
                for finding in findings {
                    let named =
                        |term: &crate::model::Term| Some(&term.name) == finding.term.as_ref();
                    if let Some(index) = self.ruleset.terms.iter().position(named) {
                        told.push(TermId::new(index));
                        plan.some.push((
                            Question::Loose(TermId::new(index)),
                            finding.scenario.clone(),
                        ));
                    }
                }
                told.sort_unstable();
                plan.none.push(Question::OtherLoose(told));
            }
            (Kind::Presupposes, _) => {
                let mut told = Vec::new();
                for finding in findings {
                    if let Some(clause) = finding.clauses.first() {
                        told.push(*clause);
                        plan.some
                            .push((Question::Presupposes(*clause), finding.scenario.clone()));
                    }
                }
                told.sort_unstable();
                plan.none.push(Question::OtherPresupposes(told));
            }
            _ => {}
        }
    }

    fn settle(
        &self,
        plan: &Plan,
        options: &Options<'_>,
        files: &mut Files,
    ) -> Result<Claim, Unsettled> {
        let (kind, dimension) = plan.head(self.ruleset);
        let id = match &dimension {
            Some(name) => format!("{kind}-{name}"),
            None => kind.to_owned(),
        };
        let says = says(kind, dimension.as_deref(), plan.verdict);
        let theory = Theory::new(self.ruleset);
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
                by: self.refuted(&theory, question, &stem, options, &mut own)?,
            });
        }
        let mut lines = Vec::new();
        for (question, known) in &plan.some {
            let scenario = self.shown(&theory, question, known.as_ref(), options)?;
            let shown = Shown {
                question: question.to_record(self.ruleset),
                facts: facts::to_record(self.ruleset, &scenario),
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
            let text = self.smtlib(&theory, plan, &says);
            keep(&mut own, format!("{id}.smt2"), text)
        });
        files.append(&mut own);
        Ok(Claim {
            id,
            kind: kind.to_owned(),
            dimension,
            verdict: plan.verdict,
            says,
            none,
            scenarios,
            smtlib,
        })
    }

    fn refuted(
        &self,
        theory: &Theory<'_>,
        question: &Question,
        stem: &str,
        options: &Options<'_>,
        files: &mut Files,
    ) -> Result<Method, Unsettled> {
        if free_by_form(self.ruleset, question) {
            return Ok(Method::Form);
        }
        let asked = formula(theory, question);
        let Ok(cnf) = clauses(self.ruleset, &asked, &|name| theory.define(name)) else {
            return self.on_trust(question, &asked, options);
        };
        match refute(&cnf, &options.budget) {
            Refutation::Open => Err(options.budget.exhausted().map_or(
                Unsettled::Open("the solver gave up".to_owned()),
                Unsettled::from,
            )),
            Refutation::Satisfiable => Err(self.fault(
                question,
                "the clauses have an answer, and the check found none",
            )),
            Refutation::Refuted(steps) => {
                replay(&cnf, &steps).map_err(|why| {
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
        asked: &Formula,
        options: &Options<'_>,
    ) -> Result<Method, Unsettled> {
        match Z3Solver::new(self.ruleset, options.budget.clone()).ask(asked) {
            Answer::No => {}
            Answer::Yes(_) => {
                return Err(self.fault(question, "Z3 has an answer, and the check found none"));
            }
            Answer::Undecided(reason) => return Err(reason.into()),
        }
        let mut solvers = vec![crate::solve::version()];
        let text = smtlib::script(
            self.ruleset,
            asked,
            &question.words(self.ruleset),
            Some(Expected::None),
        );
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
        theory: &Theory<'_>,
        question: &Question,
        known: Option<&Scenario>,
        options: &Options<'_>,
    ) -> Result<Scenario, Unsettled> {
        if let Some(scenario) = known.filter(|known| shows(self.ruleset, question, known)) {
            return Ok(scenario.clone());
        }
        let asked = formula(theory, question);
        match Z3Solver::new(self.ruleset, options.budget.clone()).ask(&asked) {
            Answer::Yes(scenario) if shows(self.ruleset, question, &scenario) => Ok(scenario),
            Answer::Yes(_) => Err(self.fault(question, "the scenario found does not show it")),
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

    fn smtlib(&self, theory: &Theory<'_>, plan: &Plan, says: &str) -> String {
        let some = plan
            .some
            .iter()
            .map(|(question, _)| (question, Expected::Some));
        let none = plan.none.iter().map(|question| (question, Expected::None));
        let each = none
            .chain(some)
            .flat_map(|(question, expected)| match question {
                Question::Any(several) => several.iter().map(|one| (one, expected)).collect(),
                one => vec![(one, expected)],
            });
        let questions: Vec<Posed> = each
            .map(|(question, expected)| Posed {
                words: question.words(self.ruleset),
                asks: match question {
                    Question::Matters(clause) => Asks::Matters {
                        clause: *clause,
                        dimensions: concerned(theory, *clause).collect(),
                    },
                    other => Asks::Holds(formula(theory, other)),
                },
                expected,
            })
            .collect();
        smtlib::claim(
            self.ruleset,
            &format!("{}\n{says}", self.headline()),
            &questions,
        )
    }
}

/// Kind and dimension of a verdict.
type Head = (&'static str, Option<String>);

impl Plan {
    fn head(&self, ruleset: &Ruleset) -> Head {
        let dimension = self
            .dimension
            .map(|dimension| ruleset[dimension].name.clone());
        (self.kind, dimension)
    }
}

/// Kinds of which a scenario for each clause shows that there is none.
fn by_clause(kind: Kind, instances: &[Instance], plan: &mut Plan) -> Result<(), String> {
    let mut none = Vec::new();
    for (instance, index) in instances.iter().zip(0usize..) {
        let clause = ClauseId::new(index);
        let met = (Question::Met(clause), &instance.met);
        let counts = (Question::Counts(clause), &instance.counts);
        let matters = (Question::Matters(clause), &instance.matters);
        // One of these is shown, or all are refuted; then what comes before is shown, or refuted by the
        // verdict before.
        let (wanted, before) = match kind {
            Kind::Impossible => (vec![met], None),
            Kind::Displaced => (vec![counts], Some(met)),
            _ => (vec![matters], Some(counts)),
        };
        let mut refuted = Vec::new();
        let mut shown = None;
        for (question, deed) in wanted {
            match deed {
                Deed::Here(scenario) if shown.is_none() => shown = Some((question, scenario)),
                Deed::Here(_) => {}
                Deed::Nowhere => refuted.push(question),
                Deed::Open(reason) => return Err(reason.to_string()),
            }
        }
        match (shown, before) {
            (Some((question, scenario)), _) => plan.some.push((question, Some(scenario.clone()))),
            (None, None) => none.append(&mut refuted),
            (None, Some((_, Deed::Nowhere))) => {}
            (None, Some((question, Deed::Here(scenario)))) => {
                none.append(&mut refuted);
                plan.some.push((question, Some(scenario.clone())));
            }
            (None, Some((_, Deed::Open(reason)))) => return Err(reason.to_string()),
        }
    }
    match none.len() {
        0 => {}
        1 => plan.none.append(&mut none),
        // All in one: they share what they rest on.
        _ => plan.none.push(Question::Any(none)),
    }
    Ok(())
}

fn somewhere(instance: &Instance) -> Option<Scenario> {
    match &instance.met {
        Deed::Here(scenario) => Some(scenario.clone()),
        Deed::Nowhere | Deed::Open(_) => None,
    }
}

/// What the check says of kinds that have no record.
fn without_record(checked: &Checked) -> Vec<NotRecorded> {
    let kinds = Kind::ALL.iter().copied();
    let kinds = kinds.filter(|kind| !RECORDED.iter().any(|(recorded, _)| recorded == kind));
    kinds
        .map(|kind| {
            let mut of_kind = checked
                .verdicts
                .iter()
                .filter(|it| it.kind == kind)
                .peekable();
            let looked_for = of_kind.peek().is_some();
            let outcomes: Vec<&Outcome> = of_kind.map(|verdict| &verdict.outcome).collect();
            let verdict = match outcomes.iter().map(|outcome| word(outcome)).max() {
                Some((_, word)) => word,
                None => "not looked for",
            };
            let why = match kind {
                Kind::Unused | Kind::Wording | Kind::StepEdge => {
                    "it is read off the text of the ruleset; there is no question about scenarios"
                }
                _ if looked_for => "this version makes no record of it",
                _ => "this version does not look for it",
            };
            NotRecorded {
                kind: kind.word().to_owned(),
                dimension: None,
                verdict: verdict.to_owned(),
                why: why.to_owned(),
            }
        })
        .collect()
}

/// A verdict in one word, and how much it weighs where a kind has several.
fn word(outcome: &Outcome) -> (u8, &'static str) {
    match outcome {
        Outcome::Proved => (0, "proved"),
        Outcome::NoneListed(_) => (1, "none listed"),
        Outcome::Found => (2, "found"),
        Outcome::NotLookedAt(_) => (3, "not looked at"),
        Outcome::Undecided(_) => (4, "undecided"),
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
