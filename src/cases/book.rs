//! What a case is, and how one is made from its draft.

use crate::load::Refused;
use crate::logic::Established;
use crate::model::{DimensionId, Ruleset, ValueSet};
use crate::problem::{Gravity, Problem, nearest};
use crate::read;
use crate::read::draft::{CaseDraft, FactValueDraft, FoundDraft, WhenSeveral, Words};
use crate::scenario::{facts, quoted, split};
use crate::source::{Source, Sources, Span};
use std::collections::BTreeMap;

/// One case of a case book, or one incident of a log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Case {
    /// By which reports name it.
    pub id: String,
    /// Free text.
    pub date: Option<String>,
    /// Which instrument it stands in: case, clarification, interpretation ... Free text.
    pub kind: Option<String>,
    /// Where it was taken from. Free text.
    pub source: Option<String>,
    /// Free text.
    pub note: Option<String>,
    /// What was found, ruled and cited.
    pub found: Found,
    /// What each of several officials found and ruled, by the name that each has in the file. Facts
    /// that an official does not speak of are those of the case.
    pub officials: BTreeMap<String, Found>,
    /// Where it stands.
    pub place: Place,
}

/// What was found, ruled and cited.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// The facts, as far as they were established.
    pub facts: Established,
    /// What was ruled, in the order of the dimensions.
    pub ruled: Vec<(DimensionId, Ruled)>,
    /// The ids of the clauses that the ruling cited.
    pub clauses: Vec<String>,
}

impl Found {
    /// Nothing found and nothing ruled.
    pub fn nothing(ruleset: &Ruleset) -> Self {
        Found {
            facts: Established::nothing(ruleset.attributes.len()),
            ruled: Vec::new(),
            clauses: Vec::new(),
        }
    }

    /// Whether nothing was found, ruled or cited.
    pub fn is_nothing(&self) -> bool {
        self.facts.is_empty() && self.ruled.is_empty() && self.clauses.is_empty()
    }

    /// What was ruled on a dimension.
    pub fn on(&self, dimension: DimensionId) -> Option<Ruled> {
        let found = self.ruled.iter().find(|(on, _)| *on == dimension);
        found.map(|(_, ruled)| *ruled)
    }
}

/// What was ruled on a dimension: one value; where all apply, the set of all that were imposed.
pub type Ruled = ValueSet;

/// Where a case stands: a line of a text, or a row of a sheet, counted from one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place(pub u64);

/// Reads a case book in YAML; `name` is how the file is called in places.
///
/// # Errors
/// Every problem of the file; where there is one, no case is used.
pub fn book(ruleset: &Ruleset, name: &str, text: &str) -> Result<Vec<Case>, Refused> {
    let source = Source::new(name, text);
    let mut sources = Sources::default();
    let id = sources.add(source.clone());
    let mut problems = Vec::new();
    let draft = read::cases(&source, id, &mut problems);
    let mut known: BTreeMap<String, Span> = BTreeMap::new();
    let mut cases = Vec::new();
    for draft in draft.into_iter().flat_map(|draft| draft.cases) {
        if let Some(earlier) = known.insert(draft.id.value.clone(), draft.id.span) {
            let headline = format!("the case `{}` is given twice", draft.id.value);
            let problem = Problem::error(draft.id.span, headline, "given again")
                .other(earlier, "given here already")
                .help("give each case an id of its own");
            problems.push(problem);
        }
        let line = source.position(draft.span.start).line.0.get();
        cases.push(case(ruleset, draft, Place(u64::from(line)), &mut problems));
    }
    let refused = problems.iter().any(|it| it.gravity == Gravity::Error);
    if refused {
        problems.sort_by_key(|problem| problem.span);
        return Err(Refused { sources, problems });
    }
    Ok(cases)
}

fn case(ruleset: &Ruleset, draft: CaseDraft, place: Place, problems: &mut Vec<Problem>) -> Case {
    let noted = found(ruleset, draft.found, problems);
    let words = |words: Option<Words>| words.map(|words| words.value);
    let officials = draft.officials.into_iter();
    let officials = officials.map(|(name, draft)| (name.value, found(ruleset, draft, problems)));
    // Who found nothing, ruled nothing and cited nothing was not heard.
    let officials = officials.filter(|(_, found)| !found.is_nothing()).collect();
    Case {
        id: draft.id.value,
        date: words(draft.date),
        kind: words(draft.kind),
        source: words(draft.source),
        note: words(draft.note),
        found: noted,
        officials,
        place,
    }
}

fn found(ruleset: &Ruleset, draft: FoundDraft, problems: &mut Vec<Problem>) -> Found {
    let mut all: BTreeMap<DimensionId, (Ruled, Span)> = BTreeMap::new();
    for (name, value) in &draft.ruled {
        let Some(id) = dimension(ruleset, name, problems) else {
            continue;
        };
        if let Some(value) = ruled(ruleset, id, value, problems)
            && let Some((_, earlier)) = all.insert(id, (value, name.span))
        {
            let headline = format!("a ruling on `{}` is given twice", name.value);
            let problem = Problem::error(name.span, headline, "given again")
                .other(earlier, "given here already")
                .help("give it once");
            problems.push(problem);
        }
    }
    for id in draft.clauses.iter().filter(|id| id.value.contains('|')) {
        let headline = format!("the clause `{}` has a `|` in its id", id.value);
        let problem = Problem::error(id.span, headline, "`|` stands between the items of a list");
        problems.push(
            problem.help("write the clauses that were cited as a list: `[\"7.1\", \"7.2\"]`"),
        );
    }
    Found {
        facts: facts(ruleset, &draft.facts, problems).0,
        ruled: all
            .into_iter()
            .map(|(id, (ruled, _))| (id, ruled))
            .collect(),
        clauses: draft.clauses.into_iter().map(|id| id.value).collect(),
    }
}

/// The dimension of a name, or after adding a problem none.
pub(super) fn dimension(
    ruleset: &Ruleset,
    name: &Words,
    problems: &mut Vec<Problem>,
) -> Option<DimensionId> {
    let names = || ruleset.dimensions.iter().map(|it| it.name.as_str());
    if let Some(index) = names().position(|known| known == name.value) {
        return Some(DimensionId::new(index));
    }
    let headline = format!("`{}` is nothing that the rules decide", name.value);
    let problem = Problem::error(name.span, headline, "expected a dimension");
    let is_fact = ruleset.attributes.iter().any(|it| it.name == name.value);
    problems.push(match nearest(&name.value, names()) {
        Some(near) => problem.help(format!("did you mean `{near}`?")),
        None if is_fact => problem.help("it is an attribute: facts stand in `facts`"),
        None => problem.help(format!("known are {}", quoted(names(), "and"))),
    });
    None
}

/// What some words say was ruled on a dimension; `None` where they say nothing, or after adding what
/// is wrong to `problems`.
pub(super) fn ruled(
    ruleset: &Ruleset,
    id: DimensionId,
    draft: &FactValueDraft,
    problems: &mut Vec<Problem>,
) -> Option<Ruled> {
    let dimension = &ruleset[id];
    let several = dimension.when_several == WhenSeveral::AllApply;
    let (items, span) = match draft {
        FactValueDraft::NotEstablished(_) => return None,
        FactValueDraft::Words(words) if several => (split(words), words.span),
        FactValueDraft::Words(words) => (vec![words.clone()], words.span),
        FactValueDraft::Items(items, span) => (items.clone(), *span),
    };
    let names = || dimension.values.iter().map(|value| value.name.as_str());
    if !several && items.len() != 1 {
        let headline = format!(
            "`{}` has one ruling, and {} are given",
            dimension.name,
            items.len()
        );
        let problem = Problem::error(
            span,
            headline,
            format!("expected one of {}", quoted(names(), "or")),
        );
        problems.push(problem.help("give the one that was announced"));
        return None;
    }
    // Where no value has that name, `none` and `-` say that nothing was imposed.
    if let [only] = items.as_slice()
        && several
        && matches!(only.value.as_str(), "none" | "-")
        && names().all(|name| name != only.value)
    {
        return Some(ValueSet::EMPTY);
    }
    let mut values = ValueSet::EMPTY;
    for item in &items {
        if let Some(index) = names().position(|name| name == item.value) {
            values = values.union(ValueSet::one(index));
            continue;
        }
        let headline = format!("`{}` is not a ruling on `{}`", item.value, dimension.name);
        let expected = format!("expected {}", quoted(names(), "or"));
        let problem = Problem::error(item.span, headline, expected);
        problems.push(match nearest(&item.value, names()) {
            Some(near) => problem.help(format!("did you mean `{near}`?")),
            None => problem.help("write one of them, or leave it out where nothing was ruled"),
        });
        return None;
    }
    Some(values)
}
