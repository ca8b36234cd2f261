//! A draft vetted, or two editions compared: everything that a committee asks of it.

use super::asking::Asking;
use super::casebook::{CaseChange, changed_cases};
use super::changes::{Comparing, Open, Row, State, state};
use super::consequential::Consequential;
use super::effects::{Affected, affected};
use super::grades::{Direction, Grade, direction, grade};
use super::joined::{Edition, Joined};
use super::matching::Match;
use super::mentions::{Mention, mentions};
use super::numbers::{Earlier, after_changes};
use super::redline::{Redlined, put_down, redline};
use super::units::{Unit, Units};
use crate::analysis::{self, Checked, Finding, General};
use crate::cases::Case;
use crate::load::{Layered, Loaded};
use crate::logic::{Count, Evaluator, Formula, Scenario};
use crate::model::{
    ClauseId, Condition, ConditionKind, ConditionScope, DimensionId, Kind, Ruleset, Severity, Text,
    resolve_condition,
};
use crate::problem::{Gravity, Problem};
use crate::read::amendment::{AmendmentDraft, Change, Part};
use crate::read::draft::{Expr, TextDraft};
use crate::solve::{Answer, Budget};
use std::collections::{BTreeMap, BTreeSet};

/// What is vetted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// One draft.
    Draft,
    /// Several drafts together.
    Drafts,
    /// A new edition as a whole.
    Edition,
}

/// Everything that was found out about a draft, or about two editions.
#[derive(Debug)]
pub struct Vetted {
    /// What was vetted.
    pub subject: Subject,
    /// The rules as they are.
    pub before: Ruleset,
    /// The rules as they would be.
    pub after: Ruleset,
    /// A ruleset of which the scenarios of both are scenarios; those shown are told in it.
    pub space: Ruleset,
    /// How many scenarios the two have in common, where that could be counted.
    pub scenarios: Option<Count>,
    /// What is said of the drafts at their head; none where editions are compared.
    pub drafts: Vec<Head>,
    /// What is not the same, thing by thing, with the words that go and come.
    pub redline: Vec<Redlined>,
    /// Which clauses of two editions were taken for the same where their numbers don't say so; and those
    /// of which only the number is the same. Empty where drafts are vetted, which say it themselves.
    pub matches: Vec<Match>,
    /// The cases of which the text's answer changes, where a case book was given.
    pub cases: Option<Vec<CaseChange>>,
    /// The parts of the draft that the rulings are put down to.
    pub units: Vec<Unit>,
    /// The rulings that change.
    pub rows: Vec<Row>,
    /// For each row how far the ruling moves.
    pub grades: Vec<Grade>,
    /// For each row the announced rulings of its scenario, before and after.
    pub side_by_side: Vec<Vec<(String, State, State)>>,
    /// In which direction each announced dimension changes.
    pub direction: BTreeMap<String, Direction>,
    /// What became of the scope.
    pub scope: Scope,
    /// What became of the claim that no ruling changes.
    pub editorial: Editorial,
    /// Findings about the rules as they are.
    pub checked_before: Checked,
    /// Findings about the rules as they would be.
    pub checked_after: Checked,
    /// Findings that the draft brings in, by index in `checked_after`.
    pub introduced: Vec<usize>,
    /// Findings that it takes away, by index in `checked_before`.
    pub resolved: Vec<usize>,
    /// Findings that are there before and after, by index in `checked_after`.
    pub standing: Vec<usize>,
    /// Clauses that rest on what changes and are left as they are.
    pub affected: Vec<Affected>,
    /// Texts that name a clause which is gone or has another number.
    pub mentions: Vec<Mention>,
    /// What would have to be changed in such texts.
    pub consequential: Consequential,
    /// What one edition alone allows.
    pub only: [Option<Only>; 2],
    /// Announced dimensions that only one edition has.
    pub other_dimensions: [Vec<String>; 2],
    /// Attributes that only one edition has.
    pub other_attributes: [Vec<String>; 2],
    /// Attributes whose values can't be laid beside each other.
    pub apart: Vec<String>,
    /// What stayed open, and why.
    pub open: Vec<Open>,
}

/// What a draft says of itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// Its title.
    pub title: String,
    /// Why it is moved.
    pub reason: Option<Text>,
    /// Where rulings are meant to change, in its words.
    pub scope: Option<String>,
}

/// What became of a scope.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// None was given.
    None,
    /// It was proved that no ruling changes outside it.
    Kept,
    /// Some ruling changes outside it.
    Broken,
    /// Neither could be shown.
    Undecided,
}

/// What became of the claim that a draft is editorial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Editorial {
    /// It was not claimed.
    NotClaimed,
    /// It was proved that no ruling changes.
    Proved,
    /// Some ruling changes.
    Refuted,
    /// Neither could be shown.
    Undecided,
}

/// What one edition alone allows.
#[derive(Clone, Debug)]
pub struct Only {
    /// A scenario of it.
    pub scenario: Scenario,
    /// In general.
    pub general: General,
    /// How many.
    pub share: Option<Count>,
}

impl Vetted {
    /// Whether the draft does harm: faults that it brings in, a scope that it breaks, a ruling that it
    /// changes though it claims not to.
    pub fn does_harm(&self) -> bool {
        self.introduced_faults().next().is_some()
            || self.scope == Scope::Broken
            || self.editorial == Editorial::Refuted
    }

    /// Faults that the draft brings in and that nobody accepts.
    pub fn introduced_faults(&self) -> impl Iterator<Item = &Finding> {
        let found = self.introduced.iter();
        found
            .filter_map(|index| self.checked_after.findings.get(*index))
            .filter(|finding| finding.severity == Severity::Fault && finding.accepted.is_none())
    }

    /// The same with the cases of a case book of which the answer changes. `cases` are read against the
    /// rules as they are.
    #[must_use]
    pub fn with_cases(mut self, cases: &[Case], budget: &Budget) -> Vetted {
        let announced = announced(&self.before, &self.after);
        let changed = changed_cases(&self.before, &self.after, cases, &announced, budget);
        self.cases = Some(changed);
        self
    }

    /// Whether something stayed open.
    pub fn is_open(&self) -> bool {
        let undecided = |checked: &Checked| {
            let mut verdicts = checked.verdicts.iter();
            verdicts.any(|it| matches!(it.outcome, analysis::Outcome::Undecided(_)))
        };
        let mut cases = self.cases.iter().flatten();
        !self.open.is_empty()
            || undecided(&self.checked_after)
            || cases.any(|case| case.open.is_some())
    }
}

/// Vets drafts: those of `drafts` together, by index. With several, rulings are put down to drafts, with
/// one to its changes.
///
/// # Errors
/// Everything that is wrong with the drafts, or with the ruleset that they make.
pub fn vet(
    layered: &Layered,
    drafts: &[usize],
    options: &analysis::Options<'_>,
) -> Result<Vetted, Vec<Problem>> {
    let amended = layered.with(drafts)?;
    let chosen = || {
        drafts
            .iter()
            .filter_map(|index| layered.amendments.get(*index))
    };
    let changes: Vec<&Change> = chosen().flat_map(|draft| &draft.changes).collect();
    let units = match drafts {
        [_] => Units::of_changes(layered, &changes),
        _ => Units::of_drafts(layered, drafts),
    };
    let scopes: Option<Vec<&Expr>> = chosen().map(|draft| draft.scope.as_ref()).collect();
    let scope = scope(&amended.ruleset, &scopes.unwrap_or_default())?;
    let claims = chosen().all(|draft| draft.editorial.as_ref().is_some_and(|it| it.value));
    let earlier = after_changes(&layered.base.ruleset, &changes);
    let mut touched: BTreeSet<String> = BTreeSet::new();
    for change in changes.iter().filter(|change| change.part == Part::Clause) {
        let name = change.name.as_ref().map(|name| name.value.clone());
        touched.extend(name.iter().cloned());
        touched.extend(name.and_then(|name| earlier.get(&name).cloned()));
    }
    let compared = Compared {
        subject: match drafts {
            [_] => Subject::Draft,
            _ => Subject::Drafts,
        },
        before: &layered.base,
        after: &amended,
        drafts: chosen().map(|draft| head(layered, draft)).collect(),
        units,
        scope,
        claims,
        earlier,
        matches: Vec::new(),
        touched,
    };
    Ok(compared.vetted(options))
}

fn head(layered: &Layered, draft: &AmendmentDraft) -> Head {
    let words = |span| {
        let words = layered.sources.slice(span).split_whitespace();
        words.collect::<Vec<_>>().join(" ")
    };
    let texts = |text: &TextDraft| Text {
        by_language: text
            .by_language
            .iter()
            .map(|(language, words)| (language.clone(), words.value.clone()))
            .collect(),
    };
    Head {
        title: draft.title.value.clone(),
        reason: draft.reason.as_ref().map(texts),
        scope: draft.scope.as_ref().map(|scope| words(scope.span)),
    }
}

/// The scope of some drafts as one condition over facts of the amended ruleset.
fn scope(amended: &Ruleset, scopes: &[&Expr]) -> Result<Option<Condition>, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut parts = Vec::new();
    for expr in scopes {
        let known = ConditionScope::Facts;
        parts.extend(resolve_condition(amended, expr, known, &mut problems));
    }
    let wrong = problems.iter().any(|it| it.gravity == Gravity::Error);
    if wrong {
        return Err(problems);
    }
    let span = parts.first().map(|part| part.span);
    Ok(span.map(|span| Condition {
        kind: ConditionKind::Any(parts),
        span,
    }))
}

/// Two editions, and what there is to know about how one became the other.
pub(super) struct Compared<'a> {
    pub(super) subject: Subject,
    pub(super) before: &'a Loaded,
    pub(super) after: &'a Loaded,
    pub(super) drafts: Vec<Head>,
    pub(super) units: Units,
    pub(super) scope: Option<Condition>,
    pub(super) claims: bool,
    pub(super) earlier: Earlier,
    /// The clauses of two editions that are told which they were taken for.
    pub(super) matches: Vec<Match>,
    /// The clauses whose words change, by their earlier ids.
    pub(super) touched: BTreeSet<String>,
}

impl Compared<'_> {
    pub(super) fn vetted(self, options: &analysis::Options<'_>) -> Vetted {
        let (before, after) = (&self.before.ruleset, &self.after.ruleset);
        let mut editions = vec![
            Edition::new(before),
            Edition::new(after).renumbered(&self.earlier),
        ];
        let mut variants = Vec::new();
        for unit in 0..self.units.alone.len() {
            let mut placed = [None, None];
            let lists = [&self.units.alone, &self.units.all_but];
            for (slot, list) in placed.iter_mut().zip(lists) {
                if let Some(Some(variant)) = list.get(unit) {
                    *slot = Some(editions.len());
                    let edition = Edition::new(&variant.ruleset);
                    editions.push(edition.renumbered(&variant.earlier));
                }
            }
            let [alone, all_but] = placed;
            variants.push((alone, all_but));
        }
        let joined = Joined::new(&editions, 2, self.scope.as_ref().map(|scope| (1, scope)));
        let asking = Asking::new(&joined.ruleset, options.budget.clone());
        let announced = announced(before, after);
        let mut comparing = Comparing {
            joined: &joined,
            asking: &asking,
            before: 0,
            after: 1,
            open: Vec::new(),
        };
        options
            .progress
            .stage("rulings that change", announced.len());
        let mut rows = Vec::new();
        for name in &announced {
            let mut found = comparing.rows(name);
            for row in &mut found {
                if self.units.all.len() == 1 {
                    row.by = vec![0];
                } else if !variants.is_empty() && self.units.told_apart() {
                    comparing.attribute(row, &variants);
                }
            }
            rows.extend(found);
            options.progress.advance(1);
        }
        let mut open = comparing.open;
        let keys = |edition: usize| {
            editions
                .get(edition)
                .map_or(&[][..], |it| it.keys.as_slice())
        };
        let affected = affected(
            &joined,
            &asking,
            [keys(0), keys(1)],
            &self.touched,
            &mut open,
        );
        let side_by_side = rows
            .iter()
            .map(|row| side_by_side(&joined, &announced, &row.scenario))
            .collect();
        let only =
            [(0, 1), (1, 0)].map(|(one, other)| only(&joined, &asking, one, other, &mut open));
        let scenarios = asking
            .diagrams(&asking.everyone())
            .and_then(|mut diagrams| {
                let kept = Formula::all([joined.kept(0), joined.kept(1)]);
                let set = diagrams.set(&kept).ok()?;
                asking.count(&set)
            });
        let was = known_before(keys(0), keys(1));
        let (checked_before, checked_after) =
            analysis::check_editions(before, after, &was, options);
        let (introduced, resolved, standing) = sorted_out(
            (before, &checked_before),
            (after, &checked_after),
            &self.earlier,
        );
        let undecided = !open.is_empty();
        let mut redline = redline(before, after, &self.earlier);
        if self.units.all.len() == 1 || self.units.told_apart() && !self.units.all.is_empty() {
            let by: Vec<Vec<usize>> = rows.iter().map(|row| row.by.clone()).collect();
            put_down(&mut redline, &self.units.all, &by);
        }
        touched_by(&mut redline, &affected);
        let direction = announced
            .iter()
            .map(|name| (name.clone(), direction(before, after, name, &rows)))
            .collect();
        let mut vetted = Vetted {
            subject: self.subject,
            drafts: self.drafts,
            redline,
            matches: self.matches,
            cases: None,
            direction,
            scope: match &self.scope {
                None => Scope::None,
                Some(_) if rows.iter().any(|row| row.in_scope == Some(false)) => Scope::Broken,
                Some(_) if undecided => Scope::Undecided,
                Some(_) => Scope::Kept,
            },
            editorial: match (self.claims, rows.is_empty()) {
                (false, _) => Editorial::NotClaimed,
                (true, false) => Editorial::Refuted,
                (true, true) if undecided => Editorial::Undecided,
                (true, true) => Editorial::Proved,
            },
            mentions: mentions(before, after, &self.earlier),
            other_dimensions: [
                missing_dimensions(before, after),
                missing_dimensions(after, before),
            ],
            other_attributes: [
                missing_attributes(before, after),
                missing_attributes(after, before),
            ],
            apart: joined.apart.clone(),
            before: before.clone(),
            after: after.clone(),
            space: joined.ruleset.clone(),
            scenarios,
            units: self.units.all,
            grades: rows.iter().map(|row| grade(before, after, row)).collect(),
            rows,
            side_by_side,
            checked_before,
            checked_after,
            introduced,
            resolved,
            standing,
            affected,
            only,
            open,
            consequential: Consequential::default(),
        };
        vetted.consequential = Consequential::of_texts(&vetted, &self.earlier);
        vetted
    }
}

/// The dimensions that both editions announce, in the order of the later one.
fn announced(before: &Ruleset, after: &Ruleset) -> Vec<String> {
    let was = |name: &str| {
        before
            .dimensions
            .iter()
            .any(|it| it.name == name && !it.intermediate)
    };
    let is = after.dimensions.iter().filter(|it| !it.intermediate);
    is.map(|it| it.name.clone())
        .filter(|name| was(name))
        .collect()
}

/// For each clause of a later edition which of the earlier it was, by what they are known by.
fn known_before(earlier: &[String], later: &[String]) -> Vec<Option<ClauseId>> {
    let places = earlier.iter().enumerate();
    let places: BTreeMap<&str, ClauseId> = places
        .map(|(index, key)| (key.as_str(), ClauseId::new(index)))
        .collect();
    let was = later.iter().map(|key| places.get(key.as_str()).copied());
    was.collect()
}

fn missing_dimensions(one: &Ruleset, other: &Ruleset) -> Vec<String> {
    let has = |name: &str| {
        other
            .dimensions
            .iter()
            .any(|it| it.name == name && !it.intermediate)
    };
    let own = one.dimensions.iter().filter(|it| !it.intermediate);
    own.map(|it| it.name.clone())
        .filter(|name| !has(name))
        .collect()
}

fn missing_attributes(one: &Ruleset, other: &Ruleset) -> Vec<String> {
    let has = |name: &str| other.attributes.iter().any(|it| it.name == name);
    let own = one.attributes.iter().map(|it| it.name.clone());
    own.filter(|name| !has(name)).collect()
}

fn side_by_side(
    joined: &Joined<'_>,
    announced: &[String],
    scenario: &Scenario,
) -> Vec<(String, State, State)> {
    let outcome = Evaluator::new(&joined.ruleset).outcome(scenario);
    let says = |edition: usize, name: &str| -> Option<State> {
        let id: DimensionId = joined.dimension(edition, name)?;
        Some(state(&joined.ruleset, id, &outcome))
    };
    announced
        .iter()
        .filter_map(|name| Some((name.clone(), says(0, name)?, says(1, name)?)))
        .collect()
}

/// What one edition allows and the other doesn't.
fn only(
    joined: &Joined<'_>,
    asking: &Asking<'_>,
    one: usize,
    other: usize,
    open: &mut Vec<Open>,
) -> Option<Only> {
    let question = Formula::all([joined.kept(one), joined.kept(other).negated()]);
    if question == Formula::False {
        return None;
    }
    let everyone = asking.everyone();
    match asking.ask(&everyone, &question) {
        Answer::Yes(scenario) => {
            let set = asking
                .diagrams(&everyone)
                .and_then(|mut diagrams| diagrams.set(&question).ok());
            let none = BTreeSet::new();
            Some(Only {
                scenario,
                general: set.as_ref().map_or_else(General::default, |set| {
                    asking.described(set, &none, &joined.words)
                }),
                share: set.and_then(|set| asking.count(&set)),
            })
        }
        Answer::No => None,
        Answer::Undecided(reason) => {
            open.push(("what one edition alone allows".to_owned(), reason));
            None
        }
    }
}

type SortedOut = (Vec<usize>, Vec<usize>, Vec<usize>);

/// Which findings are new, gone, and there before and after: they are the same where they are of one
/// kind and about the same. A broken promise is about its principle, and a ruling that turns on judgement
/// about what is judged: which clauses they name is a matter of the incident that is shown.
fn sorted_out(
    (before, was): (&Ruleset, &Checked),
    (after, is): (&Ruleset, &Checked),
    earlier: &Earlier,
) -> SortedOut {
    type Key = (
        Kind,
        BTreeSet<String>,
        Option<String>,
        Option<String>,
        Option<String>,
        Option<String>,
    );
    let key = |ruleset: &Ruleset, finding: &Finding, renumbered: bool| -> Key {
        let (by_clauses, by_dimension) = match finding.kind {
            Kind::BrokenPrinciple => (false, false),
            Kind::TurnsOnJudgement => (false, true),
            _ => (true, true),
        };
        let clauses = finding.clauses.iter().filter(|_| by_clauses);
        let clauses = clauses.map(|clause| {
            let id = &ruleset[*clause].id;
            let old = earlier.get(id).filter(|_| renumbered);
            old.unwrap_or(id).clone()
        });
        (
            finding.kind,
            clauses.collect(),
            finding
                .dimension
                .filter(|_| by_dimension)
                .map(|id| ruleset[id].name.clone()),
            finding.principle.clone(),
            finding.attribute.clone(),
            finding.term.clone(),
        )
    };
    let mut left: BTreeMap<Key, Vec<usize>> = BTreeMap::new();
    for (index, finding) in was.findings.iter().enumerate().rev() {
        left.entry(key(before, finding, false))
            .or_default()
            .push(index);
    }
    let (mut introduced, mut standing) = (Vec::new(), Vec::new());
    for (index, finding) in is.findings.iter().enumerate() {
        let known = left.get_mut(&key(after, finding, true)).and_then(Vec::pop);
        match known {
            Some(_) => standing.push(index),
            None => introduced.push(index),
        }
    }
    let mut resolved: Vec<usize> = left.into_values().flatten().collect();
    resolved.sort_unstable();
    (introduced, resolved, standing)
}

/// Says of each thing which clauses, untouched in their words, do something else through it.
fn touched_by(redline: &mut [Redlined], affected: &[Affected]) {
    for thing in redline {
        let earlier = thing.earlier().to_owned();
        let names = [&thing.name, &earlier].map(|name| format!("{} {name}", thing.part.word()));
        let through = affected.iter().filter(|it| it.changed != Some(false));
        let through = through.filter(|it| names.iter().any(|name| it.through.contains(name)));
        thing.affected = through.map(|it| it.clause.clone()).collect();
    }
}
