//! The ruling of one incident as JSON.

use super::{Fact, Pairs, Ruled, RulesetHead, ScenarioRecord, Scenarios, facts_of, source_name};
use crate::logic::{Basis, Count, Outcome, Ruling};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset, ValueSet};
use crate::narration::{self, Answer};
use crate::report::caution::caution;
use crate::scenario::{Decision, Enough, Incident, Nearby, Next, OnDimension, Possible, Reason};
use num_bigint::BigUint;
use schemars::JsonSchema;
use serde::Serialize;

/// The report of a decision, as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn ruling(
    ruleset: &Ruleset,
    incident: &Incident,
    decision: &Decision,
) -> Result<String, serde_json::Error> {
    let report = RulingReport::new(ruleset, incident, decision);
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `ruling --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct RulingReport {
    format: RulingFormat,
    ruleset: RulesetHead,
    /// What the writer of the scenario calls it.
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<String>,
    /// The facts that are established.
    facts: Pairs<Fact>,
    /// Whether nothing is left to establish.
    whole: bool,
    told: Told,
    /// By dimension, in the order of the ruleset.
    rulings: Pairs<RulingRecord>,
    /// The clauses that are met, in the order in which one rests on the other; empty where facts are
    /// missing.
    reasons: Vec<ReasonRecord>,
    /// By dimension the values that the ruling may still come out as: a value, a list where several
    /// are left to discretion or all apply, null where none is given or rulings clash.
    possible: Pairs<Vec<Option<Ruled>>>,
    /// The same in full, with an incident for each.
    possible_rulings: Vec<PossibleRecord>,
    /// How many incidents have the facts; null where that was not counted.
    #[serde(skip_serializing_if = "Option::is_none")]
    incidents: Option<Scenarios>,
    /// Attributes worth establishing next, the best first.
    establish_next: Vec<String>,
    /// The same in full.
    questions: Vec<QuestionRecord>,
    /// The facts that were enough; null where the ruling is not settled.
    enough: Option<EnoughRecord>,
    /// The nearest incidents that are ruled otherwise; empty where facts are missing.
    nearest_other: Vec<NeighbourRecord>,
    /// In how many facts those differ, and whether they are all of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    nearest: Option<NearestRecord>,
    /// What stayed undecided, in words.
    undecided: Vec<String>,
    /// Words that belong wherever this is shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum RulingFormat {
    #[serde(rename = "evenhand/ruling/1")]
    Ruling1,
}

/// An incident in words.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Told {
    title: String,
    sentences: Vec<String>,
}

/// A ruling on one dimension.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RulingRecord {
    /// Null where the text gives none, gives rulings that clash, leaves several to discretion or lets
    /// all apply, and where the facts leave it open.
    value: Option<String>,
    /// The values that are left to discretion, or that all apply.
    #[serde(skip_serializing_if = "Option::is_none")]
    values: Option<Vec<String>>,
    /// The clauses whose ruling stands, whatever else is established.
    clauses: Vec<String>,
    from: From,
}

/// Where a ruling comes from.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum From {
    /// Clauses whose rulings stand.
    Clause,
    /// No clause says anything: what holds otherwise.
    Default,
    /// The text leaves several rulings open.
    Discretion,
    /// The text gives none.
    None,
    /// Rulings that stand have nothing in common.
    Contradiction,
    /// The facts leave it open.
    Open,
}

/// A clause that is met, and what became of it.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ReasonRecord {
    clause: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    title: Option<String>,
    /// The file of the amendment that it is from, where it is from one.
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<String>,
    /// The clauses because of which it is off altogether.
    disapplied_by: Vec<String>,
    rulings: Vec<GivenRecord>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GivenRecord {
    dimension: String,
    /// The value, or a list of those that it leaves open.
    ruled: Ruled,
    stands: bool,
    /// The clauses that prevail over it there.
    displaced_by: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PossibleRecord {
    dimension: String,
    /// As in `possible`.
    ruled: Option<Ruled>,
    from: From,
    #[serde(skip_serializing_if = "Option::is_none")]
    share: Option<Scenarios>,
    scenario: ScenarioRecord,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct QuestionRecord {
    attribute: String,
    /// Of several items: whether this one is there.
    #[serde(skip_serializing_if = "Option::is_none")]
    item: Option<String>,
    /// In how many incidents the answer settles all rulings.
    #[serde(skip_serializing_if = "Option::is_none")]
    settles: Option<Scenarios>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct EnoughRecord {
    /// The attributes whose values are enough for the ruling.
    facts: Vec<String>,
    /// Whether it is proved that fewer would not do; otherwise only that none can be left out.
    smallest: bool,
    /// How many sets of so few facts are enough, as decimal digits.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(regex(pattern = "^[0-9]+$"))]
    sets: Option<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NearestRecord {
    /// In how many facts; fewer do not do.
    distance: usize,
    complete: bool,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NeighbourRecord {
    /// The attributes that have another value, or are asked in one of the two alone.
    differs: Vec<String>,
    scenario: ScenarioRecord,
    /// By dimension the value, as in `possible`.
    rulings: Pairs<Option<Ruled>>,
}

impl RulingReport {
    fn new(ruleset: &Ruleset, incident: &Incident, decision: &Decision) -> Self {
        let narration = narration::tell(ruleset, &decision.facts, None);
        let name_of = |on: &OnDimension| ruleset[on.dimension].name.clone();
        let whole = decision.whole.as_ref();
        let mut undecided: Vec<String> = Vec::new();
        for on in &decision.dimensions {
            if let Some(why) = &on.open {
                undecided.push(format!("the rulings on {}: {why}", name_of(on)));
            }
        }
        if let Some(Err(why)) = &decision.enough {
            undecided.push(format!("the facts that were enough: {why}"));
        }
        if let Some(Err(why)) = whole.map(|whole| &whole.nearest) {
            undecided.push(format!("the nearest incidents with another ruling: {why}"));
        }
        let near = whole.and_then(|whole| whole.nearest.as_ref().ok()?.as_ref());
        RulingReport {
            format: RulingFormat::Ruling1,
            ruleset: RulesetHead::new(ruleset),
            name: incident.name.clone(),
            facts: facts_of(ruleset, decision.facts.facts()),
            whole: whole.is_some(),
            told: Told {
                title: narration.title,
                sentences: narration.sentences,
            },
            rulings: Pairs(
                decision
                    .dimensions
                    .iter()
                    .map(|on| (name_of(on), RulingRecord::new(ruleset, on)))
                    .collect(),
            ),
            reasons: whole.map_or_else(Vec::new, |whole| {
                let all = whole.reasons.iter();
                all.map(|reason| ReasonRecord::new(ruleset, reason))
                    .collect()
            }),
            possible: Pairs(
                decision
                    .dimensions
                    .iter()
                    .map(|on| {
                        let all = on.possible.iter();
                        let all = all.map(|it| ruled(ruleset, on.dimension, it.ruling));
                        (name_of(on), all.collect())
                    })
                    .collect(),
            ),
            possible_rulings: decision
                .dimensions
                .iter()
                .flat_map(|on| {
                    let all = on.possible.iter();
                    all.map(|it| PossibleRecord::new(ruleset, on.dimension, it))
                })
                .collect(),
            incidents: decision.possible.as_ref().map(exactly),
            establish_next: names_of(ruleset, &decision.next),
            questions: decision
                .next
                .iter()
                .map(|next| QuestionRecord::new(ruleset, next))
                .collect(),
            enough: match &decision.enough {
                Some(Ok(enough)) => Some(EnoughRecord::new(ruleset, enough)),
                _ => None,
            },
            nearest_other: near.map_or_else(Vec::new, |near| neighbours(ruleset, decision, near)),
            nearest: near.map(|near| NearestRecord {
                distance: near.distance,
                complete: near.complete,
            }),
            undecided,
            caution: caution(ruleset),
        }
    }
}

fn exactly(count: &BigUint) -> Scenarios {
    Scenarios::new(&Count {
        scenarios: count.clone(),
        exact: true,
    })
}

/// Attributes in order, each once.
fn names_of(ruleset: &Ruleset, next: &[Next]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for next in next {
        let name = &ruleset[next.attribute].name;
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    names
}

fn ids(ruleset: &Ruleset, clauses: &[ClauseId]) -> Vec<String> {
    clauses.iter().map(|id| ruleset[*id].id.clone()).collect()
}

fn attributes(ruleset: &Ruleset, ids: &[AttributeId]) -> Vec<String> {
    ids.iter().map(|id| ruleset[*id].name.clone()).collect()
}

/// The value of a ruling, a list of several; `None` where it has none.
pub(super) fn ruled(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> Option<Ruled> {
    match narration::answer(ruleset, dimension, ruling) {
        Answer::Settled | Answer::Discretion => {
            let all_apply = all_apply(ruleset, dimension);
            Some(match Ruled::new(ruleset, dimension, ruling.values) {
                Ruled::One(one) if all_apply => Ruled::Several(vec![one]),
                ruled => ruled,
            })
        }
        Answer::Gap | Answer::Silence | Answer::Contradiction => None,
    }
}

fn all_apply(ruleset: &Ruleset, dimension: DimensionId) -> bool {
    ruleset[dimension].when_several == crate::read::draft::WhenSeveral::AllApply
}

fn words(ruleset: &Ruleset, dimension: DimensionId, values: ValueSet) -> Vec<String> {
    let names = &ruleset[dimension].values;
    let present = values.iter().filter_map(|index| names.get(index));
    present.map(|value| value.name.clone()).collect()
}

fn from(ruleset: &Ruleset, dimension: DimensionId, ruling: Ruling) -> From {
    match (narration::answer(ruleset, dimension, ruling), ruling.basis) {
        (Answer::Gap | Answer::Silence, _) => From::None,
        (Answer::Contradiction, _) => From::Contradiction,
        (Answer::Discretion, _) => From::Discretion,
        (Answer::Settled, Basis::Default) => From::Default,
        (Answer::Settled, _) => From::Clause,
    }
}

impl RulingRecord {
    fn new(ruleset: &Ruleset, on: &OnDimension) -> Self {
        let clauses = ids(ruleset, &on.clauses);
        let Some(ruling) = on.settled() else {
            return RulingRecord {
                value: None,
                values: None,
                clauses,
                from: From::Open,
            };
        };
        let (value, values) = match ruled(ruleset, on.dimension, ruling) {
            Some(Ruled::One(one)) => (Some(one), None),
            Some(Ruled::Several(all)) => (None, Some(all)),
            None => (None, None),
        };
        RulingRecord {
            value,
            values,
            clauses,
            from: from(ruleset, on.dimension, ruling),
        }
    }
}

impl ReasonRecord {
    fn new(ruleset: &Ruleset, reason: &Reason) -> Self {
        let clause = &ruleset[reason.clause];
        let title = clause.title.as_ref();
        ReasonRecord {
            clause: clause.id.clone(),
            title: title.map(|text| text.in_language(&ruleset.language).trim().to_owned()),
            file: ruleset
                .layers
                .iter()
                .find(|layer| layer.source == clause.id_span.source)
                .map(|layer| source_name(ruleset, layer.source)),
            disapplied_by: ids(ruleset, &reason.disapplied_by),
            rulings: reason
                .rulings
                .iter()
                .map(|given| {
                    let mut values = words(ruleset, given.dimension, given.values);
                    GivenRecord {
                        dimension: ruleset[given.dimension].name.clone(),
                        ruled: match (values.len(), values.pop()) {
                            (1, Some(one)) => Ruled::One(one),
                            (_, last) => {
                                values.extend(last);
                                Ruled::Several(values)
                            }
                        },
                        stands: reason.disapplied_by.is_empty() && given.displaced_by.is_empty(),
                        displaced_by: ids(ruleset, &given.displaced_by),
                    }
                })
                .collect(),
        }
    }
}

impl PossibleRecord {
    fn new(ruleset: &Ruleset, dimension: DimensionId, possible: &Possible) -> Self {
        PossibleRecord {
            dimension: ruleset[dimension].name.clone(),
            ruled: ruled(ruleset, dimension, possible.ruling),
            from: from(ruleset, dimension, possible.ruling),
            share: possible.count.as_ref().map(exactly),
            scenario: ScenarioRecord::new(ruleset, &possible.scenario),
        }
    }
}

impl QuestionRecord {
    fn new(ruleset: &Ruleset, next: &Next) -> Self {
        let attribute = &ruleset[next.attribute];
        let names = attribute.kind.names();
        let item = next.item.and_then(|item| names.get(item));
        QuestionRecord {
            attribute: attribute.name.clone(),
            item: item.map(|item| item.name.clone()),
            settles: next.settles.as_ref().map(exactly),
        }
    }
}

impl EnoughRecord {
    fn new(ruleset: &Ruleset, enough: &Enough) -> Self {
        EnoughRecord {
            facts: attributes(ruleset, &enough.facts),
            smallest: enough.sets.is_some(),
            sets: enough.sets.as_ref().map(ToString::to_string),
        }
    }
}

fn neighbours(ruleset: &Ruleset, decision: &Decision, near: &Nearby) -> Vec<NeighbourRecord> {
    let rulings = |outcome: &Outcome| {
        let all = decision.dimensions.iter().filter_map(|on| {
            let ruling = outcome.rulings.get(on.dimension.index())?;
            let name = ruleset[on.dimension].name.clone();
            Some((name, ruled(ruleset, on.dimension, *ruling)))
        });
        Pairs(all.collect())
    };
    near.others
        .iter()
        .map(|other| NeighbourRecord {
            differs: attributes(ruleset, &other.differs),
            scenario: ScenarioRecord::new(ruleset, &other.scenario),
            rulings: rulings(&other.outcome),
        })
        .collect()
}
