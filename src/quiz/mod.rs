//! Questions with a key: a situation in parts that differ in one fact, what is ruled in each, and why.
//!
//! Every answer is the only one under the text: the incident is whole but for the readings of vague
//! terms, all of those are tried by the plain evaluator, and the facts that are told are enough for the
//! ruling. Where the readings bring different rulings, the answer is that officials have to judge, and
//! the key says what follows from each. This module refuses to know how anything is printed.

mod answer;
mod difficulty;
mod material;
mod reason;
mod temptation;

pub use difficulty::{Difficulty, Level, Strain};
pub use temptation::Temptation;

use crate::logic::{Established, Layers, Reach, Ruling, Scenario, same_ruling};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use crate::narration::{self, Answer as Comes, Narration};
use crate::scenario::{Sort, Study, Wanted, telling};
use crate::solve::{Budget, Reason};
use material::Draft;
use oorandom::Rand64;
use std::collections::BTreeMap;
use std::num::NonZeroUsize;

/// What is asked for.
#[derive(Clone, Debug)]
pub struct Request {
    /// The clauses and incidents that the questions are to be about.
    pub wanted: Wanted,
    /// How many questions.
    pub count: usize,
    /// How hard they are to be; of all levels, if left out.
    pub level: Option<Level>,
    /// What chance begins with.
    pub seed: u64,
    /// How many threads may look; one where left out. What is asked does not depend on it.
    pub jobs: Option<NonZeroUsize>,
}

/// Questions and their key.
#[derive(Clone, Debug)]
pub struct Quiz {
    /// The questions, easier ones first.
    pub questions: Vec<Question>,
    /// How many were asked for.
    pub asked_for: usize,
    /// How many more could be made, of another level than the one asked for.
    pub of_other_levels: usize,
    /// Why it ended before everything was looked at, if it did.
    pub stopped: Option<Reason>,
}

/// How a question is put.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Form {
    /// Choose the ruling.
    Choose,
    /// Is it true that it is ruled so?
    TrueOrFalse,
    /// Was the official right to rule so, by this clause?
    WasItRight,
}

/// A situation and its parts.
#[derive(Clone, Debug)]
pub struct Question {
    /// The clauses that it is about.
    pub clauses: Vec<ClauseId>,
    /// What is to be ruled on.
    pub dimension: DimensionId,
    /// How it is put.
    pub form: Form,
    /// What happened.
    pub situation: Narration,
    /// What there is to choose from; empty in other forms. Scales from the mildest up.
    pub options: Vec<Answer>,
    /// The parts. The first is the situation as it is told; each other one differs from it in one fact.
    pub parts: Vec<Part>,
    /// How hard it is, and why.
    pub difficulty: Difficulty,
}

impl Question {
    /// An answer to it in words. Beside an answer that leaves a choice, those that leave none say so.
    pub fn words(&self, ruleset: &Ruleset, answer: &Answer) -> String {
        let words = answer.words(ruleset, self.dimension);
        let is = |answer: &Answer, comes| answer.comes_to(ruleset, self.dimension, comes);
        let mut options = self.options.iter();
        let choice = options.any(|option| is(option, Comes::Discretion));
        if choice && is(answer, Comes::Settled) {
            format!("{words}, and the official has no choice")
        } else {
            words
        }
    }
}

/// What may be answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answer {
    /// It is ruled so.
    Ruled(Ruling),
    /// It depends on how a word is read that can be read either way here.
    Judgement,
}

impl Answer {
    /// Whether both say the same.
    pub fn is(&self, other: &Answer) -> bool {
        match (self, other) {
            (Answer::Ruled(one), Answer::Ruled(other)) => same_ruling(*one, *other),
            (Answer::Judgement, Answer::Judgement) => true,
            _ => false,
        }
    }

    fn comes_to(&self, ruleset: &Ruleset, dimension: DimensionId, comes: Comes) -> bool {
        match self {
            Answer::Ruled(ruling) => narration::answer(ruleset, dimension, *ruling) == comes,
            Answer::Judgement => false,
        }
    }

    /// The answer in words: `caution`.
    pub fn words(&self, ruleset: &Ruleset, dimension: DimensionId) -> String {
        match self {
            _ if self.comes_to(ruleset, dimension, Comes::Silence) => {
                "nothing is ruled on it".to_owned()
            }
            Answer::Ruled(ruling) => narration::ruled(ruleset, dimension, *ruling),
            Answer::Judgement => {
                "it depends on how the officials read a word that is open here".to_owned()
            }
        }
    }
}

/// One part of a question.
#[derive(Clone, Debug)]
pub struct Part {
    /// The incident, with one of the readings that are open in it.
    pub scenario: Scenario,
    /// Its facts, readings left out.
    pub facts: Established,
    /// The facts that are enough for the answer, whatever else is so, where that is known.
    pub enough: Option<Vec<AttributeId>>,
    /// What is different from the situation, in a sentence; of the first part, that nothing is.
    pub told: String,
    /// The fact in which it differs from the first part; what is asked because of that may differ too.
    pub differs: Option<AttributeId>,
    /// What is claimed, where the question is not to choose.
    pub claim: Option<Claim>,
    /// The right answer.
    pub answer: Answer,
    /// The clauses that the answer rests on.
    pub cited: Vec<ClauseId>,
    /// Why, in sentences.
    pub because: Vec<String>,
    /// Which clauses come and go against the first part, where this is another one.
    pub turned: Option<String>,
    /// The wrong answers that are offered, and why each tempts.
    pub wrong: Vec<Wrong>,
}

impl Part {
    /// Why the answer is right, in sentences, for whoever has the first part at hand as `(a)`.
    pub fn reasons(&self) -> Vec<String> {
        self.reasons_against("(a)")
    }

    /// The same where the first part is called otherwise.
    pub fn reasons_against(&self, first: &str) -> Vec<String> {
        let turned = self.turned.iter();
        let turned = turned.map(|turned| format!("Against {first}, {turned}."));
        self.because.iter().cloned().chain(turned).collect()
    }
}

/// Something that somebody says about a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Claim {
    /// What is said to be the ruling.
    pub answer: Answer,
    /// The clause that is named for it.
    pub by: Option<ClauseId>,
    /// Whether it is so.
    pub holds: bool,
}

/// A wrong answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// The answer.
    pub answer: Answer,
    /// Why somebody might give it.
    pub tempts: Temptation,
}

/// The sorts of scenarios that questions are made of.
const SORTS: [Sort; 5] = [
    Sort::Clauses,
    Sort::Thresholds,
    Sort::Competing,
    Sort::Grey,
    Sort::Legal,
];

/// Makes questions. What the budget leaves open is said.
pub fn quiz(ruleset: &Ruleset, request: &Request, budget: &Budget) -> Quiz {
    let few = request.count.saturating_mul(4).max(48);
    let found = drafts(ruleset, request, Some(few), budget);
    let of_level = |draft: &&Draft| is_of(draft, request.level);
    // Where few fit, everything is looked at.
    let found = if found.more && found.drafts.iter().filter(of_level).count() < request.count {
        drafts(ruleset, request, None, budget)
    } else {
        found
    };
    let all = found.drafts.len();
    let fitting: Vec<Draft> = found
        .drafts
        .into_iter()
        .filter(|draft| is_of(draft, request.level))
        .collect();
    let of_other_levels = all - fitting.len();
    let chosen = spread(ruleset, fitting, request.count);
    let mut chance = Rand64::new(u128::from(request.seed) ^ 0x51ed);
    let mut forms = [
        Form::Choose,
        Form::WasItRight,
        Form::Choose,
        Form::TrueOrFalse,
    ]
    .into_iter()
    .cycle()
    .skip(usize::try_from(request.seed % 4).unwrap_or(0));
    let mut questions: Vec<Question> = chosen
        .into_iter()
        .map(|draft| {
            let form = if draft.is_judgement() {
                Form::Choose
            } else {
                forms.next().unwrap_or(Form::Choose)
            };
            draft.put(ruleset, form, &mut chance)
        })
        .collect();
    questions.sort_by_key(|question| question.difficulty.points());
    Quiz {
        questions,
        asked_for: request.count,
        of_other_levels,
        stopped: found.stopped,
    }
}

fn is_of(draft: &Draft, level: Option<Level>) -> bool {
    level.is_none_or(|level| draft.difficulty.level() == level)
}

struct Found {
    drafts: Vec<Draft>,
    more: bool,
    stopped: Option<Reason>,
}

/// Everything of which a question can be made; no more than `most` entries are looked at.
fn drafts(ruleset: &Ruleset, request: &Request, most: Option<usize>, budget: &Budget) -> Found {
    let telling = telling(
        ruleset,
        &crate::scenario::Request {
            wanted: request.wanted.clone(),
            sorts: SORTS.to_vec(),
            count: most.or(Some(usize::MAX)),
            seed: request.seed,
            jobs: request.jobs,
            ..crate::scenario::Request::default()
        },
        budget,
    );
    let reach = Reach::new(ruleset, Layers::new(ruleset));
    let study = Study::new(ruleset, &reach, &request.wanted, budget);
    let mut maker = material::Maker::new(&study);
    let mut drafts: Vec<Draft> = Vec::new();
    let mut stopped = telling.stopped;
    for entry in &telling.entries {
        if let Some(reason) = budget.exhausted() {
            stopped = Some(reason);
            break;
        }
        let Some(draft) = maker.draft(entry) else {
            continue;
        };
        if drafts.iter().all(|other| !other.is_like(&draft)) {
            drafts.push(draft);
        }
    }
    Found {
        drafts,
        more: telling.more,
        stopped,
    }
}

/// Picks questions that have as little as can be in common: clauses first, then chapters, what is
/// ruled on, and what makes the difference.
fn spread(ruleset: &Ruleset, mut drafts: Vec<Draft>, count: usize) -> Vec<Draft> {
    let mut clauses: BTreeMap<ClauseId, usize> = BTreeMap::new();
    let mut chapters: BTreeMap<String, usize> = BTreeMap::new();
    let mut dimensions: BTreeMap<DimensionId, usize> = BTreeMap::new();
    let mut facts: BTreeMap<AttributeId, usize> = BTreeMap::new();
    let chapter = |id: ClauseId| {
        let number = ruleset[id].id.split('.').next();
        number.unwrap_or_default().to_owned()
    };
    let mut chosen = Vec::new();
    while chosen.len() < count {
        let used = |draft: &Draft| {
            let about = &draft.clauses;
            (
                about.iter().filter_map(|id| clauses.get(id)).sum::<usize>(),
                about
                    .iter()
                    .filter_map(|id| chapters.get(&chapter(*id)))
                    .sum::<usize>(),
                dimensions.get(&draft.dimension).copied().unwrap_or(0),
                draft
                    .differing()
                    .filter_map(|id| facts.get(&id))
                    .sum::<usize>(),
            )
        };
        let Some(best) = (0..drafts.len()).min_by_key(|at| drafts.get(*at).map(used)) else {
            break;
        };
        let draft = drafts.remove(best);
        for id in &draft.clauses {
            *clauses.entry(*id).or_default() += 1;
            *chapters.entry(chapter(*id)).or_default() += 1;
        }
        *dimensions.entry(draft.dimension).or_default() += 1;
        for id in draft.differing() {
            *facts.entry(id).or_default() += 1;
        }
        chosen.push(draft);
    }
    chosen
}
