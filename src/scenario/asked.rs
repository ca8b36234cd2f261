//! What a call asks for, in the words that were typed: clauses, conditions, attributes.

use super::study::Wanted;
use crate::load::Refused;
use crate::model::{
    AttributeId, ClauseId, ConditionScope, DimensionId, Origin, Ruleset, resolve_condition,
};
use crate::problem::{Gravity, Problem, nearest};
use crate::read;
use crate::source::{Source, Sources, Span};

/// What was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Asked {
    /// Ids of clauses, numbers of groups, or names of headings.
    pub clauses: Vec<String>,
    /// Conditions over facts.
    pub given: Vec<String>,
    /// Conditions over rulings and facts.
    pub ruled: Vec<String>,
    /// Names of attributes.
    pub among: Vec<String>,
    /// Names of dimensions.
    pub dimensions: Vec<String>,
}

/// What it stands for.
#[derive(Clone, Debug, Default)]
pub struct Meant {
    /// The clauses and conditions.
    pub wanted: Wanted,
    /// The attributes.
    pub among: Vec<AttributeId>,
    /// The dimensions.
    pub dimensions: Vec<DimensionId>,
}

/// Looks up what was typed.
///
/// # Errors
/// Every name that is not there and every condition that can't be used, each at its words.
pub fn meant(ruleset: &Ruleset, asked: &Asked) -> Result<Meant, Refused> {
    let mut call = Call {
        ruleset,
        sources: ruleset.sources.clone(),
        problems: Vec::new(),
    };
    let mut meant = Meant::default();
    for words in &asked.clauses {
        meant.wanted.clauses.extend(call.clauses(words));
    }
    for words in &asked.given {
        let condition = call.condition("--given", words, ConditionScope::Facts);
        meant.wanted.conditions.extend(condition);
    }
    for words in &asked.ruled {
        let condition = call.condition("--ruled", words, ConditionScope::Rulings);
        meant.wanted.conditions.extend(condition);
    }
    for words in &asked.among {
        let attributes = ruleset.attributes.iter().enumerate();
        let stated = attributes.filter(|(_, it)| it.origin == Origin::Stated);
        let names = stated.map(|(index, it)| (it.name.as_str(), AttributeId::new(index)));
        meant
            .among
            .extend(call.named("--among", words, "attribute", &names.collect::<Vec<_>>()));
    }
    for words in &asked.dimensions {
        let dimensions = ruleset.dimensions.iter().enumerate();
        let announced = dimensions.filter(|(_, it)| !it.intermediate);
        let names = announced.map(|(index, it)| (it.name.as_str(), DimensionId::new(index)));
        let found = call.named(
            "--dimension",
            words,
            "announced ruling",
            &names.collect::<Vec<_>>(),
        );
        meant.dimensions.extend(found);
    }
    let refused = call.problems.iter().any(|it| it.gravity == Gravity::Error);
    if refused {
        return Err(Refused {
            sources: call.sources,
            problems: call.problems,
        });
    }
    Ok(meant)
}

struct Call<'r> {
    ruleset: &'r Ruleset,
    sources: Sources,
    problems: Vec<Problem>,
}

impl Call<'_> {
    /// Words of the call as a source of their own, and where they stand in it.
    fn source(&mut self, option: &str, words: &str) -> Span {
        let length = u32::try_from(words.len()).unwrap_or(u32::MAX);
        let source = self
            .sources
            .add(Source::new(format!("the call, {option}"), words));
        Span {
            source,
            start: 0,
            end: length,
        }
    }

    fn clauses(&mut self, words: &str) -> Vec<ClauseId> {
        let clauses = self.ruleset.clauses.iter().enumerate();
        let below = |id: &str| {
            let rest = id.strip_prefix(words);
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '(']))
        };
        let found = clauses.filter(|(_, clause)| below(&clause.id));
        let found: Vec<ClauseId> = found.map(|(index, _)| ClauseId::new(index)).collect();
        if !found.is_empty() && !words.is_empty() {
            return found;
        }
        let heading = self
            .ruleset
            .headings
            .iter()
            .find(|heading| heading.name == words);
        if let Some(heading) = heading {
            return heading.covers.clone();
        }
        let ids = self.ruleset.clauses.iter().map(|clause| clause.id.as_str());
        let headings = self
            .ruleset
            .headings
            .iter()
            .map(|heading| heading.name.as_str());
        let near = nearest(words, ids.chain(headings)).map(str::to_owned);
        self.unknown("--clause", words, "clause", near);
        Vec::new()
    }

    fn named<T: Copy>(
        &mut self,
        option: &str,
        words: &str,
        what: &str,
        known: &[(&str, T)],
    ) -> Option<T> {
        let found = known.iter().find(|(name, _)| *name == words);
        if let Some((_, id)) = found {
            return Some(*id);
        }
        let near = nearest(words, known.iter().map(|(name, _)| *name)).map(str::to_owned);
        self.unknown(option, words, what, near);
        None
    }

    fn unknown(&mut self, option: &str, words: &str, what: &str, near: Option<String>) {
        let span = self.source(option, words);
        let problem = Problem::error(
            span,
            format!("No {what} is called `{words}`"),
            format!("expected the name of one: `{option}` takes one each time"),
        );
        self.problems.push(match near {
            Some(near) => problem.help(format!("Did you mean `{near}`?")),
            None => problem,
        });
    }

    fn condition(
        &mut self,
        option: &str,
        words: &str,
        scope: ConditionScope,
    ) -> Option<crate::model::Condition> {
        let span = self.source(option, words);
        let source = Source::new(format!("the call, {option}"), words);
        let read = read::condition(&source, span.source, &mut self.problems)?;
        resolve_condition(self.ruleset, &read, scope, &mut self.problems)
    }
}
