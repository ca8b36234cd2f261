//! What the tests of whole rulesets share: loading, asking, and facts by their names.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "tests; each test file uses a part of this"
)]

use evenhand::analysis::{Checked, Options, check};
use evenhand::logic::{
    Code, Diagrams, Evaluator, Formula, Layers, Outcome, Scenario, Theory, highest_code, is_valid,
    written,
};
use evenhand::model::{
    AttributeId, AttributeKind, ClauseId, Condition, ConditionScope, DimensionId, Kind, Ruleset,
    ValueSet, resolve_condition,
};
use evenhand::problem::Problem;
use evenhand::source::{Source, Sources};
use std::path::Path;

/// Reads and resolves a text; the problems where it can't be used.
pub(crate) fn load_text(name: &str, text: &str) -> Result<Ruleset, Vec<Problem>> {
    match evenhand::load::load(name, text) {
        Ok(loaded) => Ok(loaded.ruleset),
        Err(refused) => Err(refused.problems),
    }
}

/// The text of a file of the repository.
pub(crate) fn text_of(path: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// A ruleset of the repository, which must be usable and give no cause for warnings.
pub(crate) fn load(path: &str) -> Ruleset {
    match evenhand::load::load(path, text_of(path)) {
        Ok(loaded) => {
            assert_eq!(loaded.warnings, [], "{path}");
            loaded.ruleset
        }
        Err(refused) => panic!("{path}: {:#?}", refused.problems),
    }
}

/// Everything that the checker finds.
pub(crate) fn checked(ruleset: &Ruleset) -> Checked {
    check(ruleset, &Options::default())
}

/// The ids of the first clause of every finding of a kind, in order.
pub(crate) fn said_of<'r>(ruleset: &'r Ruleset, checked: &Checked, kind: Kind) -> Vec<&'r str> {
    let findings = checked.findings.iter().filter(|found| found.kind == kind);
    let first = findings.filter_map(|found| found.clauses.first());
    first.map(|clause| ruleset[*clause].id.as_str()).collect()
}

/// In how many scenarios a formula holds, by decision diagrams.
pub(crate) fn count(ruleset: &Ruleset, formula: &Formula) -> u64 {
    let never = std::sync::Arc::new(|| false);
    let theory = Theory::new(ruleset);
    let mut diagrams = Diagrams::new(theory, Layers::new(ruleset), 10_000_000, never).unwrap();
    let set = diagrams.set(formula).unwrap();
    diagrams.count(&set).unwrap().to_string().parse().unwrap()
}

/// Every scenario of a small ruleset with what it is ruled.
pub(crate) fn outcomes(ruleset: &Ruleset) -> impl Iterator<Item = (Scenario, Outcome)> {
    let evaluator = Evaluator::new(ruleset);
    evenhand::solve::scenarios(ruleset)
        .expect("a small space")
        .map(move |scenario| {
            let outcome = evaluator.outcome(&scenario);
            (scenario, outcome)
        })
}

pub(crate) fn clause(ruleset: &Ruleset, id: &str) -> ClauseId {
    let index = ruleset.clauses.iter().position(|clause| clause.id == id);
    ClauseId::new(index.unwrap_or_else(|| panic!("no clause {id}")))
}

pub(crate) fn dimension(ruleset: &Ruleset, name: &str) -> DimensionId {
    let all = &ruleset.dimensions;
    let index = all.iter().position(|dimension| dimension.name == name);
    DimensionId::new(index.unwrap_or_else(|| panic!("no dimension {name}")))
}

pub(crate) fn attribute(ruleset: &Ruleset, name: &str) -> AttributeId {
    let all = &ruleset.attributes;
    let index = all.iter().position(|attribute| attribute.name == name);
    AttributeId::new(index.unwrap_or_else(|| panic!("no attribute {name}")))
}

/// The values of a set by name.
pub(crate) fn names(ruleset: &Ruleset, on: DimensionId, values: ValueSet) -> Vec<&str> {
    let all = &ruleset[on].values;
    values
        .iter()
        .map(|index| all[index].name.as_str())
        .collect()
}

/// A scenario from facts by name (`yes` and `no`, a value, a number, items split by `|`). What is
/// asked beside them gets its first value; what is given must be asked.
pub(crate) fn scenario(ruleset: &Ruleset, facts: &[(&str, &str)]) -> Scenario {
    let mut scenario = Scenario::unasked(ruleset.attributes.len());
    for (name, value) in facts {
        let attribute = attribute(ruleset, name);
        scenario.set(attribute, Some(code(ruleset, attribute, value)));
    }
    for attribute in &ruleset.asking_order {
        let asked = evenhand::logic::is_asked(ruleset, &scenario, *attribute);
        let given = scenario.get(*attribute);
        assert!(
            asked || given.is_none(),
            "{} isn't asked",
            ruleset[*attribute].name
        );
        if asked && given.is_none() {
            scenario.set(*attribute, Some(Code(0)));
        }
    }
    assert!(is_valid(ruleset, &scenario), "no scenario: {facts:?}");
    scenario
}

fn code(ruleset: &Ruleset, attribute: AttributeId, value: &str) -> Code {
    let kind = &ruleset[attribute].kind;
    if let AttributeKind::Several(items) = kind {
        let position = |item: &str| items.iter().position(|known| known.name == item).unwrap();
        let bits = value.split('|').filter(|item| !item.is_empty());
        return Code(bits.map(|item| 1 << position(item)).sum());
    }
    let codes = (0..=highest_code(kind)).map(Code);
    let mut fitting = codes.filter(|code| written(ruleset, attribute, *code).to_string() == value);
    fitting
        .next()
        .unwrap_or_else(|| panic!("{} has no value {value}", ruleset[attribute].name))
}

/// The ruling on a dimension in the scenario of these facts: the values it may come out as.
pub(crate) fn ruled<'r>(ruleset: &'r Ruleset, facts: &[(&str, &str)], on: &str) -> Vec<&'r str> {
    let outcome = Evaluator::new(ruleset).outcome(&scenario(ruleset, facts));
    let dimension = dimension(ruleset, on);
    names(
        ruleset,
        dimension,
        outcome.rulings[dimension.index()].values,
    )
}

/// A condition as it is typed, over facts and rulings.
pub(crate) fn condition(ruleset: &Ruleset, words: &str) -> Condition {
    let source = Source::new("condition", words);
    let id = Sources::default().add(source.clone());
    let mut problems = Vec::new();
    let read = evenhand::read::condition(&source, id, &mut problems).unwrap();
    let meant = resolve_condition(ruleset, &read, ConditionScope::Rulings, &mut problems);
    meant.unwrap_or_else(|| panic!("{words}: {problems:?}"))
}
