//! What each question means, as a formula over the names of the theory.

use crate::analysis::asked::{self, Against, Turning};
use crate::logic::{Formula, Mode, Name, Scenario, Theory, Twin, Unasked, World, is_true};
use crate::model::{ClauseId, DimensionId, Meaning, Ruleset, TermId};
use crate::proof::Question;
use crate::read::draft::WhenSeveral;

/// A question in formal words: of a ruleset, or of the ruleset whose scenarios are its pairs.
#[derive(Clone, Debug)]
pub struct Formal<'r> {
    ruleset: &'r Ruleset,
    question: Question,
    /// The twin and the question about it, where it is about two scenarios.
    pairs: Option<(Twin, Formula)>,
}

/// A question put to the definitions that it is about.
#[derive(Clone, Debug)]
pub struct Put<'t> {
    /// The definitions, with the edits that the question speaks of.
    pub theory: Theory<'t>,
    /// Where a scenario of their ruleset answers it.
    pub asked: Formula,
    /// What the edited rulesets are called, in the order of the edits.
    pub edits: Vec<String>,
}

impl<'r> Formal<'r> {
    /// Takes a question about a ruleset.
    pub fn new(ruleset: &'r Ruleset, question: &Question) -> Formal<'r> {
        let pairs = match question {
            Question::Turns(judged) => {
                let judged = judged.iter().copied().collect();
                Some(asked::turns_on(ruleset, &judged))
            }
            Question::Breaks(place) => match broken(ruleset, *place) {
                Some(Against::Two(twin, asked)) => Some((*twin, asked)),
                Some(Against::One(_)) | None => None,
            },
            _ => None,
        };
        Formal {
            ruleset,
            question: question.clone(),
            pairs,
        }
    }

    /// The twin, where the question is about two scenarios.
    pub fn twin(&self) -> Option<&Twin> {
        self.pairs.as_ref().map(|(twin, _)| twin)
    }

    /// The question, put to fresh definitions.
    pub fn put(&self) -> Put<'_> {
        let mut edits = Vec::new();
        let (theory, asked) = if let Some((twin, asked)) = &self.pairs {
            (Theory::new(twin.ruleset()), asked.clone())
        } else {
            let theory = Theory::new(self.ruleset);
            let asked = formula(&theory, &self.question, &mut edits);
            (theory, asked)
        };
        Put {
            theory,
            asked,
            edits,
        }
    }

    /// The scenarios of an answer.
    pub fn split(&self, answer: &Scenario) -> (Scenario, Option<Scenario>) {
        match self.twin() {
            Some(twin) => {
                let (first, second) = twin.split(answer);
                (first, Some(second))
            }
            None => (answer.clone(), None),
        }
    }
}

/// What is against the principle at this place.
pub(super) fn broken(ruleset: &Ruleset, place: usize) -> Option<Against> {
    asked::breaks(ruleset, ruleset.principles.get(place)?)
}

/// Where a scenario answers a question about single scenarios; what the edits are called that it speaks
/// of is put behind those already there.
pub(super) fn formula(
    theory: &Theory<'_>,
    question: &Question,
    edits: &mut Vec<String>,
) -> Formula {
    let ruleset = theory.ruleset();
    edits.extend(question.edit_words(ruleset));
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
        Question::Any(several) => {
            Formula::any(several.iter().map(|one| formula(theory, one, edits)))
        }
        Question::Breaks(place) => match broken(ruleset, *place) {
            Some(Against::One(asked)) => asked,
            Some(Against::Two(..)) | None => Formula::False,
        },
        // Only ever put to a twin.
        Question::Turns(_) => Formula::False,
        Question::Matters(_) | Question::TurnsOnPart(..) | Question::TurnsOnReference(..) => {
            turning(theory, question).map_or(Formula::False, |turning| turning.formula(theory))
        }
    }
}

/// The question in its pieces, where it is about a change of the rules; the change becomes one of the
/// edits of the definitions.
pub(super) fn turning(theory: &Theory<'_>, question: &Question) -> Option<Turning> {
    let ruleset = theory.ruleset();
    Some(match question {
        Question::Matters(clause) => Turning::on_clause(theory, *clause),
        Question::TurnsOnPart(clause, path) => {
            let edit = asked::without_part(ruleset, *clause, path);
            Turning::on_condition(theory, *clause, theory.edits().world(edit))
        }
        Question::TurnsOnReference(clause, index) => {
            let edit = asked::without_reference(ruleset, *clause, *index)?;
            Turning::on_reference(theory, *clause, theory.edits().world(edit))
        }
        _ => return None,
    })
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
