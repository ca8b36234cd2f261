//! What a question is made of: a scenario that teaches, and others one fact apart.

use super::answer::{Judge, Settled, is_reading};
use super::difficulty::{Difficulty, Strain};
use super::reason::{because, giving_way, rests_on, rulings_below, turned_however_read};
use super::temptation::Tempter;
use super::{Answer, Claim, Form, Part, Question, Wrong};
use crate::logic::{Outcome, Ruling, Scenario};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset, ValueSet, WhenSeveral};
use crate::narration::{self, Change, Narration, bearing, the_same_but, worth_telling};
use crate::scenario::{Contrast, Entry, Study};
use oorandom::Rand64;
use std::collections::BTreeSet;

/// The most parts of a question.
const MOST_PARTS: usize = 3;
/// How many facts may be newly asked, or no longer asked, in a part that is added.
const MOST_STRUCTURE: usize = 2;
/// The most answers to choose from, and the fewest that are aimed at.
const MOST_OPTIONS: usize = 6;
const ENOUGH_OPTIONS: usize = 4;

/// A question before it is decided how it is put.
pub(super) struct Draft {
    pub(super) clauses: Vec<ClauseId>,
    pub(super) dimension: DimensionId,
    pub(super) difficulty: Difficulty,
    situation: Narration,
    parts: Vec<Part>,
    /// The answers that may be offered, in order.
    options: Vec<Answer>,
}

impl Draft {
    /// Whether its answer is that officials have to judge, in some part.
    pub(super) fn is_judgement(&self) -> bool {
        let mut parts = self.parts.iter();
        parts.any(|part| part.answer.is(&Answer::Judgement))
    }

    /// The facts in which its parts differ.
    pub(super) fn differing(&self) -> impl Iterator<Item = AttributeId> {
        self.parts.iter().filter_map(|part| part.differs)
    }

    /// Whether two would ask much the same.
    pub(super) fn is_like(&self, other: &Draft) -> bool {
        let same = |part: &Part| {
            let mut others = other.parts.iter();
            others.any(|it| it.facts == part.facts)
        };
        self.dimension == other.dimension && self.parts.iter().filter(|part| same(part)).count() > 1
            || self.situation == other.situation
    }

    /// The question, put in a form.
    pub(super) fn put(self, ruleset: &Ruleset, form: Form, chance: &mut Rand64) -> Question {
        let mut parts = self.parts;
        let options = match form {
            Form::Choose => self.options,
            Form::TrueOrFalse | Form::WasItRight => {
                let named = form == Form::WasItRight;
                claim(ruleset, self.dimension, &mut parts, named, chance);
                Vec::new()
            }
        };
        Question {
            clauses: self.clauses,
            dimension: self.dimension,
            form,
            situation: self.situation,
            options,
            parts,
            difficulty: self.difficulty,
        }
    }
}

/// Says something about each part that is right or wrong, as chance has it; where there are several
/// parts, something is right and something is wrong.
fn claim(ruleset: &Ruleset, on: DimensionId, parts: &mut [Part], named: bool, chance: &mut Rand64) {
    let mut coin = |sides: usize| {
        let side = chance.rand_range(0..sides.max(1) as u64);
        usize::try_from(side).unwrap_or(0)
    };
    let mut truthful: Vec<bool> = parts.iter().map(|_| coin(2) == 1).collect();
    if truthful
        .windows(2)
        .all(|two| matches!(two, [one, other] if one == other))
    {
        let odd = coin(truthful.len());
        if let Some(side) = truthful.get_mut(odd) {
            *side = !*side;
        }
    }
    for (part, truthful) in parts.iter_mut().zip(truthful) {
        let tempting = part
            .wrong
            .iter()
            .filter(|wrong| nothing_in_common(&wrong.answer, &part.answer))
            .min_by_key(|wrong| wrong.tempts.rank())
            .cloned();
        let speaking = |ids: &[ClauseId]| {
            let mut ids = ids.iter().copied();
            ids.find(|id| ruleset[*id].ruling_on(on).is_some())
        };
        part.claim = Some(match tempting {
            Some(wrong) if !truthful => Claim {
                answer: wrong.answer,
                by: wrong.tempts.clause().filter(|_| named),
                holds: false,
            },
            _ => Claim {
                answer: part.answer,
                by: speaking(&part.cited).filter(|_| named),
                holds: true,
            },
        });
    }
}

/// Whether two are rulings with nothing in common: an official who chooses one of several rulings that the
/// text leaves open is right.
fn nothing_in_common(one: &Answer, other: &Answer) -> bool {
    match (one, other) {
        (Answer::Ruled(one), Answer::Ruled(other)) => one.values.intersect(other.values).is_empty(),
        _ => false,
    }
}

/// One of the incidents that may become parts.
struct Candidate {
    scenario: Scenario,
    differs: Option<AttributeId>,
    settled: Settled,
}

/// Makes drafts of questions.
pub(super) struct Maker<'s, 'a, 'r> {
    study: &'s Study<'a, 'r>,
    judge: Judge<'r>,
    tempter: Tempter<'r>,
}

impl<'s, 'a, 'r> Maker<'s, 'a, 'r> {
    pub(super) fn new(study: &'s Study<'a, 'r>) -> Self {
        Maker {
            study,
            judge: Judge::new(study.ruleset, study.budget()),
            tempter: Tempter::new(study.ruleset),
        }
    }

    /// A question about what an entry shows; `None` where it gives none.
    pub(super) fn draft(&mut self, entry: &Entry) -> Option<Draft> {
        let ruleset = self.study.ruleset;
        let mut scenarios = entry.scenarios();
        let on = self.dimension(entry, &scenarios)?;
        // Where nothing is ruled on it, there is little to tell: the others come first.
        scenarios.sort_by_key(|scenario| self.is_silent(scenario, on));
        let base = (*scenarios.first()?).clone();
        if self.is_silent(&base, on) {
            return None;
        }
        let settled = self.judge.settle(&base, on)?;
        let mut parts = vec![Candidate {
            scenario: base.clone(),
            differs: None,
            settled,
        }];
        for other in scenarios.into_iter().skip(1) {
            self.add(&mut parts, other, on);
        }
        self.fill(&mut parts, on);
        // One part alone asks little, unless it asks for a judgement.
        let judged = |it: &Candidate| it.settled.answer.is(&Answer::Judgement);
        if parts.len() < 2 && !parts.iter().any(judged) {
            return None;
        }
        for part in &mut parts {
            self.judge.find_enough(&mut part.settled, on);
        }
        let clauses = self.about(entry, &parts, on);
        let difficulty = difficulty(ruleset, &parts, on);
        let beside = met(&parts);
        let options = self.options(&parts, on, &beside);
        let matters = self.matters(&parts);
        let told = narration::tell(ruleset, &parts.first()?.settled.facts, Some(&matters));
        let opening = plain(ruleset, &base);
        let first = parts.first()?.settled.clone();
        let parts = parts
            .into_iter()
            .enumerate()
            .map(|(index, it)| {
                let before = Some(&first).filter(|_| index > 0);
                // The way in which it is read of which the key tells.
                let scenario = match it.settled.first() {
                    Some((scenario, _)) => scenario.clone(),
                    None => it.scenario.clone(),
                };
                let wrong = options
                    .iter()
                    .filter(|option| !option.is(&it.settled.answer))
                    .map(|option| Wrong {
                        answer: *option,
                        tempts: self.tempter.tempts(&it.settled, on, option, &beside),
                    })
                    .collect();
                Part {
                    told: match index {
                        0 => "It is as told.".to_owned(),
                        _ => {
                            the_same_but(ruleset, &opening, &plain(ruleset, &it.scenario), &matters)
                        }
                    },
                    differs: it.differs,
                    claim: None,
                    cited: rests_on(ruleset, &it.settled, on),
                    because: because(ruleset, &it.settled, on),
                    turned: before
                        .and_then(|first| turned_however_read(ruleset, first, &it.settled, on)),
                    wrong,
                    answer: it.settled.answer,
                    enough: it.settled.enough,
                    facts: it.settled.facts,
                    scenario,
                }
            })
            .collect();
        Some(Draft {
            clauses,
            dimension: on,
            difficulty,
            situation: told,
            parts,
            options,
        })
    }

    /// Whether nothing is ruled, and nothing has to be.
    fn is_silent(&self, scenario: &Scenario, on: DimensionId) -> bool {
        let said = self.study.outcome(scenario);
        let ruling = said.rulings.get(on.index());
        ruling.is_none_or(|ruling| ruling.basis == crate::logic::Basis::Silence)
    }

    /// What is to be ruled on: where the scenarios differ, or what there is to tell about them.
    fn dimension(&self, entry: &Entry, scenarios: &[&Scenario]) -> Option<DimensionId> {
        let ruleset = self.study.ruleset;
        let announced = |id: &DimensionId| !ruleset[*id].intermediate;
        match entry {
            Entry::Legal(legal) => return Some(legal.dimension),
            Entry::Competing(it) => {
                if let Some(on) = it.dimension.filter(announced) {
                    return Some(on);
                }
            }
            _ => {}
        }
        let said: Vec<Outcome> = scenarios
            .iter()
            .map(|scenario| self.study.outcome(scenario))
            .collect();
        let differing = said.windows(2).find_map(|two| match two {
            [one, other] => Some(self.study.differing(one, other)).filter(|all| !all.is_empty()),
            _ => None,
        });
        let differing = differing.unwrap_or_default();
        // Best is a ruling that the clause has to do with.
        let cites = |on: &&DimensionId| match entry {
            Entry::Pair(pair, _) => {
                let (Contrast::OneFact { clause, .. } | Contrast::Masked { clause, .. }) =
                    &pair.contrast;
                let mut all = said.iter();
                all.any(|said| narration::cited(ruleset, said, **on).contains(clause))
            }
            _ => false,
        };
        let best = differing.iter().find(cites).or(differing.first()).copied();
        best.or_else(|| worth_telling(ruleset, said.first()?).first().copied())
    }

    /// Takes a scenario in as a part, where it is one fact apart from the first and can be asked for.
    fn add(&self, parts: &mut Vec<Candidate>, scenario: &Scenario, on: DimensionId) {
        let Some(first) = parts.first().filter(|_| parts.len() < MOST_PARTS) else {
            return;
        };
        let Some(differs) = one_fact(self.study.ruleset, &first.scenario, scenario) else {
            return;
        };
        if let Some(settled) = self.judge.settle(scenario, on)
            && parts.iter().all(|part| part.settled.facts != settled.facts)
        {
            parts.push(Candidate {
                scenario: scenario.clone(),
                differs: Some(differs),
                settled,
            });
        }
    }

    /// Adds parts until there are enough: first with an answer that no other part has, then one in
    /// which something changes that does not matter.
    fn fill(&self, parts: &mut Vec<Candidate>, on: DimensionId) {
        let ruleset = self.study.ruleset;
        let Some(first) = parts.first() else {
            return;
        };
        let said = parts
            .iter()
            .flat_map(|part| part.settled.ways.iter().map(|(_, said)| said));
        let among: BTreeSet<AttributeId> = bearing(ruleset, said)
            .into_iter()
            .filter(|id| !is_reading(ruleset, *id))
            .collect();
        let base = first.scenario.clone();
        let mut near: Vec<((usize, u64), AttributeId, Scenario)> = self
            .study
            .neighbours(&base, &among)
            .into_iter()
            .map(|(id, other)| (self.study.unlike(&base, &other), id, other))
            // Another kind of incident altogether teaches nothing about this one.
            .filter(|((structure, _), ..)| *structure <= MOST_STRUCTURE)
            .collect();
        near.sort_by_key(|(unlike, id, _)| (*unlike, *id));
        for fresh in [true, false] {
            for (_, id, scenario) in &near {
                if parts.len() >= MOST_PARTS {
                    return;
                }
                if parts.iter().any(|part| part.differs == Some(*id)) {
                    continue;
                }
                let Some(settled) = self.judge.settle(scenario, on) else {
                    continue;
                };
                let known = parts
                    .iter()
                    .any(|part| part.settled.answer.is(&settled.answer));
                if known == fresh {
                    continue;
                }
                self.add(parts, scenario, on);
            }
        }
    }

    fn matters(&self, parts: &[Candidate]) -> BTreeSet<AttributeId> {
        let ruleset = self.study.ruleset;
        let mut all = BTreeSet::new();
        for part in parts {
            all.extend(self.judge.matters(&part.settled));
            all.extend(part.differs);
        }
        crate::logic::with_askers(ruleset, all)
            .into_iter()
            .filter(|id| !is_reading(ruleset, *id))
            .collect()
    }

    /// The clauses that a question is about.
    fn about(&self, entry: &Entry, parts: &[Candidate], on: DimensionId) -> Vec<ClauseId> {
        match entry {
            Entry::Pair(pair, _) => {
                let (Contrast::OneFact { clause, .. } | Contrast::Masked { clause, .. }) =
                    pair.contrast;
                vec![clause]
            }
            Entry::Competing(it) => vec![it.first, it.second],
            Entry::Legal(it) => vec![it.clause],
            Entry::Threshold(it) if !it.clauses.is_empty() => it.clauses.clone(),
            Entry::Threshold(_) | Entry::Grey(_) => {
                let cited = parts
                    .iter()
                    .flat_map(|part| rests_on(self.study.ruleset, &part.settled, on));
                let all: BTreeSet<ClauseId> = cited.collect();
                all.into_iter().collect()
            }
        }
    }

    /// The answers to choose from: all that are right in some part, then the most tempting, in the
    /// order of the dimension's values.
    fn options(
        &mut self,
        parts: &[Candidate],
        on: DimensionId,
        beside: &BTreeSet<ClauseId>,
    ) -> Vec<Answer> {
        let ruleset = self.study.ruleset;
        let mut chosen: Vec<Answer> = Vec::new();
        let take = |chosen: &mut Vec<Answer>, answer: Answer| {
            if chosen.iter().all(|known| !known.is(&answer)) {
                chosen.push(answer);
            }
        };
        for part in parts {
            take(&mut chosen, part.settled.answer);
            for (_, said) in &part.settled.ways {
                if let Some(ruling) = said.rulings.get(on.index()) {
                    take(&mut chosen, Answer::Ruled(*ruling));
                }
            }
        }
        let mut tempting: Vec<(u8, usize, Answer)> = Vec::new();
        for values in may_come_out(ruleset, on) {
            let answer = Answer::Ruled(Ruling {
                basis: crate::logic::Basis::Clauses,
                values,
            });
            let ranks = parts.iter().map(|part| {
                let tempts = self.tempter.tempts(&part.settled, on, &answer, beside);
                tempts.rank()
            });
            let rank = ranks.min().unwrap_or(u8::MAX);
            tempting.push((rank, tempting.len(), answer));
        }
        tempting.sort_by_key(|(rank, place, _)| (*rank, *place));
        for (rank, _, answer) in tempting {
            let wanted = if rank == 0 {
                MOST_OPTIONS
            } else {
                ENOUGH_OPTIONS
            };
            if chosen.len() < wanted {
                take(&mut chosen, answer);
            }
        }
        let vague = parts.iter().any(|part| !part.settled.open.is_empty());
        if vague && chosen.len() < MOST_OPTIONS {
            take(&mut chosen, Answer::Judgement);
        }
        chosen.sort_by_key(|answer| match answer {
            Answer::Ruled(ruling) => (0, ruling.values.len(), ruling.values),
            Answer::Judgement => (1, 0, ValueSet::EMPTY),
        });
        chosen
    }
}

/// The clauses that are met in some part.
fn met(parts: &[Candidate]) -> BTreeSet<ClauseId> {
    let ways = parts.iter().flat_map(|part| &part.settled.ways);
    ways.flat_map(|(_, said)| said.met.ones().map(ClauseId::new))
        .collect()
}

/// The values that a ruling may come out as: one, or what clauses rule together.
fn may_come_out(ruleset: &Ruleset, on: DimensionId) -> Vec<ValueSet> {
    let dimension = &ruleset[on];
    let mut all: Vec<ValueSet> = (0..dimension.values.len()).map(ValueSet::one).collect();
    if dimension.when_several == WhenSeveral::AllApply {
        let ruled = ruleset
            .clauses
            .iter()
            .filter_map(|clause| clause.ruling_on(on));
        for values in ruled.chain(dimension.otherwise) {
            if !all.contains(&values) {
                all.push(values);
            }
        }
    }
    all
}

/// The one stated fact in which two incidents differ, whatever is asked because of it.
fn one_fact(ruleset: &Ruleset, first: &Scenario, second: &Scenario) -> Option<AttributeId> {
    let (first, second) = (plain(ruleset, first), plain(ruleset, second));
    let differences = narration::differences(ruleset, &first, &second);
    let mut changed = differences
        .iter()
        .filter(|difference| difference.change == Change::Value);
    let id = changed.next()?.attribute;
    changed.next().is_none().then_some(id)
}

/// An incident without the readings of its words.
fn plain(ruleset: &Ruleset, scenario: &Scenario) -> Scenario {
    let mut plain = scenario.clone();
    for (id, _) in scenario.facts() {
        if is_reading(ruleset, id) {
            plain.set(id, None);
        }
    }
    plain
}

/// How hard the hardest part is, in each way in which one can be hard.
fn difficulty(ruleset: &Ruleset, parts: &[Candidate], on: DimensionId) -> Difficulty {
    let said = || parts.iter().filter_map(|part| part.settled.first());
    let most = |of: &dyn Fn(&Outcome) -> usize| said().map(|(_, said)| of(said)).max().unwrap_or(0);
    let met = most(&|said| {
        let met = said.met.ones().map(ClauseId::new);
        met.filter(|id| ruleset[*id].ruling_on(on).is_some())
            .count()
    });
    let exceptions = most(&|said| giving_way(ruleset, said, on).len());
    let chain = most(&|said| rulings_below(ruleset, said, on).len());
    let weighed = parts.iter().map(|part| match &part.settled.enough {
        Some(enough) => enough.len(),
        None => 0,
    });
    let judged = parts.iter().map(|part| {
        let enough = part.settled.enough.iter().flatten();
        enough.filter(|id| ruleset[**id].judged).count()
    });
    let mut strains = vec![
        Strain::ClausesMet(met),
        Strain::Exceptions(exceptions),
        Strain::Chain(chain),
        Strain::Facts(weighed.max().unwrap_or(0)),
        Strain::Judged(judged.max().unwrap_or(0)),
    ];
    if let Some((first, others)) = parts.split_first() {
        let stepped = |part: &Candidate| {
            let id = part.differs?;
            let (one, other) = (first.scenario.get(id)?, part.scenario.get(id)?);
            Some(is_ordered(ruleset, id) && one.0.abs_diff(other.0) == 1)
        };
        if others.iter().any(|part| stepped(part) == Some(true)) {
            strains.push(Strain::OneStep);
        }
        let unchanged = |part: &Candidate| part.settled.answer.is(&first.settled.answer);
        if others.iter().any(unchanged) {
            strains.push(Strain::NoChange);
        }
    }
    let judgement = |part: &Candidate| part.settled.answer.is(&Answer::Judgement);
    if parts.iter().any(judgement) {
        strains.push(Strain::OpenWord);
    }
    Difficulty::new(strains)
}

fn is_ordered(ruleset: &Ruleset, id: AttributeId) -> bool {
    use crate::model::AttributeKind;
    matches!(
        ruleset[id].kind,
        AttributeKind::Number(_) | AttributeKind::Scale(_)
    )
}
