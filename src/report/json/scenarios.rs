//! Scenarios that teach, as JSON.

use super::{Fact, Pairs, RulesetHead, ScenarioRecord};
use crate::logic::{Outcome, Scenario, written};
use crate::model::{ClauseId, DimensionId, Ruleset};
use crate::narration::{self, Answer, bearing};
use crate::report::caution::caution;
use crate::report::scenarios::{Teller, value_words};
use crate::scenario::{Contrast, Entry, NoPair, Nothing, Telling, Value};
use schemars::JsonSchema;
use serde::Serialize;

/// The scenarios as JSON with a line end.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn scenarios(ruleset: &Ruleset, told: &Telling) -> Result<String, serde_json::Error> {
    let report = ScenariosReport::new(ruleset, told);
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `scenarios --format json` prints.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ScenariosReport {
    format: ScenariosFormat,
    ruleset: RulesetHead,
    /// Incidents that stand alone: where clauses compete, and the rows of a covering set.
    scenarios: Vec<Single>,
    /// Incidents that are held against each other.
    pairs: Vec<Two>,
    /// Numbers at which a ruling turns.
    thresholds: Vec<ThresholdRecord>,
    /// The covering set that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    covering: Option<CoveringRecord>,
    /// The smallest combinations of values that can't occur, which is proved.
    forbidden: Vec<Vec<ValueRecord>>,
    /// What was looked for and has nothing to show.
    nothing: Vec<NothingRecord>,
    /// Whether there are more than the number asked for.
    more: bool,
    /// Why it ended before everything was looked at; null where it didn't.
    stopped: Option<String>,
    /// Words that belong wherever these scenarios are shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum ScenariosFormat {
    #[serde(rename = "evenhand/scenarios/1")]
    Scenarios1,
}

/// One incident, told and ruled.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Told {
    /// A few words by which to call it.
    title: String,
    /// What happened, sentence by sentence.
    sentences: Vec<String>,
    #[serde(flatten)]
    scenario: ScenarioRecord,
    /// The announced rulings by dimension: a value, several that are left open or all apply, null
    /// where there is none, or "contradiction".
    rulings: Pairs<Option<RulingValue>>,
    /// The clauses that are in force.
    clauses: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum RulingValue {
    One(String),
    Several(Vec<String>),
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Single {
    sort: SingleSort,
    #[serde(flatten)]
    told: Told,
    /// What it shows.
    why: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SingleSort {
    Competing,
    Covering,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Two {
    sort: PairSort,
    first: Told,
    second: Told,
    /// The names of the attributes that differ, or that only one of the two asks.
    differs: Vec<String>,
    /// The clause that the first meets and the second does not; of a legal neighbour, the clause that
    /// bans the first.
    #[serde(skip_serializing_if = "Option::is_none")]
    clause: Option<String>,
    /// The part of its condition that makes the difference.
    #[serde(skip_serializing_if = "Option::is_none")]
    part: Option<String>,
    /// The vague term that is read narrowly in the first and broadly in the second.
    #[serde(skip_serializing_if = "Option::is_none")]
    term: Option<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum PairSort {
    /// One fact differs, and what is asked because of it.
    OneFact,
    /// Several facts differ, since one alone can't.
    Masked,
    Grey,
    Legal,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ThresholdRecord {
    attribute: String,
    at: Fact,
    below: Told,
    on: Told,
    #[serde(skip_serializing_if = "Option::is_none")]
    above: Option<Told>,
    /// The clauses that are met on one side only.
    clauses: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CoveringRecord {
    strength: usize,
    /// How many combinations occur in the scenarios of this set; null where no set was made.
    covered: Option<usize>,
    /// How many combinations of this strength can't occur.
    never: Option<usize>,
    /// How many combinations stayed open.
    open: usize,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ValueRecord {
    attribute: String,
    value: Fact,
    /// In words, ranges of numbers among them.
    words: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct NothingRecord {
    #[serde(skip_serializing_if = "Option::is_none")]
    clause: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    part: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    attribute: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<Fact>,
    #[serde(skip_serializing_if = "Option::is_none")]
    term: Option<String>,
    reason: ReasonName,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum ReasonName {
    /// The clause is met in the same incidents without the part; proved.
    Surplus,
    /// No announced ruling turns on it in any pair; proved.
    NothingTurnsOnIt,
    /// The clause is always met.
    AlwaysMet,
    /// It stayed open.
    Undecided,
}

impl ScenariosReport {
    fn new(ruleset: &Ruleset, told: &Telling) -> Self {
        let teller = Teller::new(ruleset, told);
        let mut report = ScenariosReport {
            format: ScenariosFormat::Scenarios1,
            ruleset: RulesetHead::new(ruleset),
            scenarios: Vec::new(),
            pairs: Vec::new(),
            thresholds: Vec::new(),
            covering: None,
            forbidden: Vec::new(),
            nothing: told.nothing.iter().map(|it| nothing(&teller, it)).collect(),
            more: told.more,
            stopped: told.stopped.as_ref().map(ToString::to_string),
            caution: caution(ruleset),
        };
        for entry in &told.entries {
            report.add(&teller, entry);
        }
        match &told.covering {
            Some(Ok(covering)) => {
                report.covering = Some(CoveringRecord {
                    strength: covering.strength,
                    covered: Some(covering.covered),
                    never: Some(covering.never),
                    open: covering.open.len(),
                });
                report
                    .scenarios
                    .extend(covering.scenarios.iter().map(|scenario| Single {
                        sort: SingleSort::Covering,
                        told: one(&teller, scenario, None),
                        why: format!("covering set of strength {}", covering.strength),
                    }));
                let values =
                    |tuple: &Vec<Value>| tuple.iter().map(|it| value(ruleset, it)).collect();
                report.forbidden = covering.impossible.iter().map(values).collect();
            }
            Some(Err(_)) => {
                report.covering = Some(CoveringRecord {
                    strength: 0,
                    covered: None,
                    never: None,
                    open: 0,
                });
            }
            None => {}
        }
        report
    }

    fn add(&mut self, teller: &Teller<'_>, entry: &Entry) {
        let ruleset = teller.ruleset;
        let id = |clause: ClauseId| ruleset[clause].id.clone();
        match entry {
            Entry::Pair(pair, also) => {
                for contrast in std::iter::once(&pair.contrast).chain(also) {
                    let (sort, clause, part) = match contrast {
                        Contrast::OneFact { clause, part } => (PairSort::OneFact, *clause, *part),
                        Contrast::Masked { clause, part } => (PairSort::Masked, *clause, *part),
                    };
                    let mut two = two(teller, sort, &pair.first, &pair.second);
                    two.clause = Some(id(clause));
                    two.part = Some(teller.part_words(clause, part));
                    self.pairs.push(two);
                }
            }
            Entry::Grey(grey) => {
                let mut two = two(teller, PairSort::Grey, &grey.narrow, &grey.broad);
                two.term = Some(ruleset[grey.term].name.clone());
                self.pairs.push(two);
            }
            Entry::Legal(legal) => {
                for other in &legal.legal {
                    let mut two = two(teller, PairSort::Legal, &legal.banned, other);
                    two.clause = Some(id(legal.clause));
                    self.pairs.push(two);
                }
            }
            Entry::Threshold(it) => self.thresholds.push(ThresholdRecord {
                attribute: ruleset[it.attribute].name.clone(),
                at: Fact::of(written(ruleset, it.attribute, it.at)),
                below: one(teller, &it.below, Some(&it.on)),
                on: one(teller, &it.on, Some(&it.below)),
                above: it
                    .above
                    .as_ref()
                    .map(|above| one(teller, above, Some(&it.on))),
                clauses: it.clauses.iter().map(|clause| id(*clause)).collect(),
            }),
            Entry::Competing(it) => self.scenarios.push(Single {
                sort: SingleSort::Competing,
                told: one(teller, &it.scenario, None),
                why: teller.ending(it),
            }),
        }
    }
}

fn two(teller: &Teller<'_>, sort: PairSort, first: &Scenario, second: &Scenario) -> Two {
    let ruleset = teller.ruleset;
    let differences = narration::differences(ruleset, first, second);
    Two {
        sort,
        differs: differences
            .iter()
            .map(|difference| ruleset[difference.attribute].name.clone())
            .collect(),
        first: one(teller, first, Some(second)),
        second: one(teller, second, Some(first)),
        clause: None,
        part: None,
        term: None,
    }
}

fn one(teller: &Teller<'_>, scenario: &Scenario, beside: Option<&Scenario>) -> Told {
    let ruleset = teller.ruleset;
    let said = teller.outcome(scenario);
    let other = beside.map(|other| teller.outcome(other));
    let mut matters = bearing(ruleset, std::iter::once(&said).chain(&other));
    let differing = beside
        .into_iter()
        .flat_map(|other| narration::differences(ruleset, scenario, other));
    matters.extend(differing.map(|it| it.attribute));
    let matters = crate::logic::with_askers(ruleset, matters);
    let told = narration::scenario(ruleset, scenario, Some(&matters));
    Told {
        title: told.title,
        sentences: told.sentences,
        scenario: ScenarioRecord::new(ruleset, scenario),
        rulings: rulings(ruleset, &said),
        clauses: said
            .in_force
            .ones()
            .map(|index| ruleset[ClauseId::new(index)].id.clone())
            .collect(),
    }
}

fn rulings(ruleset: &Ruleset, said: &Outcome) -> Pairs<Option<RulingValue>> {
    let ids = (0..ruleset.dimensions.len()).map(DimensionId::new);
    let announced = ids.filter(|id| !ruleset[*id].intermediate);
    let told = announced.filter_map(|id| {
        let ruling = said.rulings.get(id.index())?;
        let names = &ruleset[id].values;
        let values = ruling.values.iter().filter_map(|index| names.get(index));
        let mut values: Vec<String> = values.map(|value| value.name.clone()).collect();
        let all = ruleset[id].when_several == crate::read::draft::WhenSeveral::AllApply;
        let value = match narration::answer(ruleset, id, *ruling) {
            Answer::Gap | Answer::Silence => None,
            Answer::Contradiction => Some(RulingValue::One("contradiction".to_owned())),
            Answer::Settled if !all => values.pop().map(RulingValue::One),
            Answer::Settled | Answer::Discretion => Some(RulingValue::Several(values)),
        };
        Some((ruleset[id].name.clone(), value))
    });
    Pairs(told.collect())
}

fn value(ruleset: &Ruleset, it: &Value) -> ValueRecord {
    let fact = match it.item {
        Some(_) => Fact::YesNo(it.code.0 == 1),
        None => Fact::of(written(ruleset, it.attribute, it.code)),
    };
    ValueRecord {
        attribute: ruleset[it.attribute].name.clone(),
        value: fact,
        words: value_words(ruleset, it),
    }
}

fn nothing(teller: &Teller<'_>, it: &Nothing) -> NothingRecord {
    let ruleset = teller.ruleset;
    let mut record = NothingRecord {
        clause: None,
        part: None,
        attribute: None,
        at: None,
        term: None,
        reason: ReasonName::NothingTurnsOnIt,
    };
    match it {
        Nothing::Part(clause, index, reason) => {
            record.clause = Some(ruleset[*clause].id.clone());
            record.part = Some(teller.part_words(*clause, *index));
            record.reason = match reason {
                NoPair::Surplus => ReasonName::Surplus,
                NoPair::NothingTurnsOnIt => ReasonName::NothingTurnsOnIt,
                NoPair::Undecided(_) => ReasonName::Undecided,
            };
        }
        Nothing::Clause(clause, _) => {
            record.clause = Some(ruleset[*clause].id.clone());
            if it.is_open() {
                record.reason = ReasonName::Undecided;
            }
        }
        Nothing::AlwaysMet(clause) => {
            record.clause = Some(ruleset[*clause].id.clone());
            record.reason = ReasonName::AlwaysMet;
        }
        Nothing::Threshold(id, at) => {
            record.attribute = Some(ruleset[*id].name.clone());
            record.at = Some(Fact::of(written(ruleset, *id, *at)));
        }
        Nothing::Grey(term) => record.term = Some(ruleset[*term].name.clone()),
        Nothing::Open(..) => record.reason = ReasonName::Undecided,
    }
    record
}
