//! What each question means, as a formula over the names of the theory.

use crate::logic::{Formula, Mode, Name, Theory, Unasked, World, is_true};
use crate::model::{ClauseId, DimensionId, Meaning, Ruleset, Step, TermId};
use crate::proof::Question;
use crate::read::draft::WhenSeveral;

/// Where a scenario answers the question.
pub(super) fn formula(theory: &Theory<'_>, question: &Question) -> Formula {
    let ruleset = theory.ruleset();
    match question {
        Question::Scenario => Formula::True,
        Question::Clash(dimension, beside) => {
            let told = beside
                .iter()
                .map(|family| together(*dimension, family).negated());
            Formula::all(std::iter::once(clash(*dimension)).chain(told))
        }
        Question::Together(dimension, clauses) => {
            Formula::all([together(*dimension, clauses), clash(*dimension)])
        }
        Question::Gap(dimension) => Name::Gap(World::Actual, *dimension).into(),
        Question::Open(dimension) if ruleset[*dimension].when_several == WhenSeveral::AllApply => {
            Formula::False
        }
        Question::Open(dimension) => {
            let values = values(ruleset, *dimension);
            let allowed = |value| Name::Allowed(World::Actual, *dimension, value).into();
            Formula::at_least(2, values.map(allowed).collect())
        }
        Question::Loose(term) => loose(ruleset, *term),
        Question::OtherLoose(told) => {
            let all = (0..ruleset.terms.len()).map(TermId::new);
            let others = all.filter(|term| !told.contains(term));
            Formula::any(others.map(|term| loose(ruleset, term)))
        }
        Question::Presupposes(clause) => presupposes(theory, *clause),
        Question::OtherPresupposes(told) => {
            let all = (0..ruleset.clauses.len()).map(ClauseId::new);
            let others = all.filter(|clause| !told.contains(clause));
            Formula::any(others.map(|clause| presupposes(theory, clause)))
        }
        Question::Met(clause) => Name::Met(World::Actual, *clause).into(),
        Question::Counts(clause) => {
            let rulings = &ruleset[*clause].rulings;
            if rulings.is_empty() {
                return Name::InForce(World::Actual, *clause).into();
            }
            let stands = |on: DimensionId| Name::Stands(World::Actual, *clause, on).into();
            Formula::any(rulings.iter().map(|(dimension, _)| stands(*dimension)))
        }
        Question::Any(several) => Formula::any(several.iter().map(|one| formula(theory, one))),
        Question::Matters(clause) => {
            let without = World::Without(*clause);
            let compared =
                concerned(theory, *clause).flat_map(|on| told_by(ruleset, on, World::Actual));
            let there = concerned(theory, *clause).flat_map(|on| told_by(ruleset, on, without));
            let somewhere = compared.zip(there).map(|(one, other)| either(one, other));
            Formula::all([
                Name::Met(World::Actual, *clause).into(),
                Formula::any(somewhere),
            ])
        }
    }
}

fn values(ruleset: &Ruleset, dimension: DimensionId) -> impl Iterator<Item = u8> {
    let count = ruleset[dimension].values.len();
    (0..count).map(|value| u8::try_from(value).unwrap_or(u8::MAX))
}

fn clash(dimension: DimensionId) -> Formula {
    Name::Clash(World::Actual, dimension).into()
}

fn together(dimension: DimensionId, clauses: &[ClauseId]) -> Formula {
    let stands = |clause: &ClauseId| Name::Stands(World::Actual, *clause, dimension).into();
    Formula::all(clauses.iter().map(stands))
}

fn loose(ruleset: &Ruleset, term: TermId) -> Formula {
    match &ruleset[term].meaning {
        Meaning::Sharp(_) => Formula::False,
        Meaning::Vague { narrow, broad, .. } => Formula::all([
            is_true(narrow, Mode::ACTUAL),
            is_true(broad, Mode::ACTUAL).negated(),
        ]),
    }
}

fn presupposes(theory: &Theory<'_>, clause: ClauseId) -> Formula {
    let mode = Mode {
        world: World::Actual,
        unasked: Unasked::TakenAsNo,
    };
    let met: Formula = Name::Met(World::Actual, clause).into();
    Formula::all([theory.met(clause, mode), met.negated()])
}

/// The announced dimensions that a clause can change anything about.
pub(super) fn concerned(
    theory: &Theory<'_>,
    clause: ClauseId,
) -> impl Iterator<Item = DimensionId> {
    let ruleset = theory.ruleset();
    let dimensions = (0..ruleset.dimensions.len()).map(DimensionId::new);
    dimensions.filter(move |dimension| {
        !ruleset[*dimension].intermediate && theory.depends(Step::Dimension(*dimension), clause)
    })
}

/// The names by which a ruling is told.
fn told_by(ruleset: &Ruleset, on: DimensionId, world: World) -> impl Iterator<Item = Name> {
    let allowed = values(ruleset, on).map(move |value| Name::Allowed(world, on, value));
    allowed.chain([
        Name::Settled(world, on),
        Name::Gap(world, on),
        Name::Clash(world, on),
    ])
}

fn either(one: Name, other: Name) -> Formula {
    let (one, other) = (Formula::from(one), Formula::from(other));
    Formula::any([
        Formula::all([one.clone(), other.clone().negated()]),
        Formula::all([one.negated(), other]),
    ])
}
