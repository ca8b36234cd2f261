//! What a draft changes, as JSON.

use super::{
    CoverName, FindingRecord, Pairs, ProblemRecord, RulesetHead, ScenarioRecord, Scenarios,
};
use crate::amendment::{
    Affected, CaseChange, Direction, Editorial, Fate, Grade, Match, Only, Piece, Redlined, Row,
    Scope, Sign, State, Vetted,
};
use crate::analysis::{Checked, Cover, Outcome};
use crate::model::Ruleset;
use crate::problem::Problem;
use crate::report::caution::caution;
use crate::report::verdict;
use schemars::JsonSchema;
use serde::Serialize;

/// The report of drafts, as JSON with a line end. `alone` are the same drafts one by one, where there
/// are several; `warnings` are what reading them had to say.
///
/// # Errors
/// None that can happen with these types; serialising is passed on as it is.
pub fn vetted(
    vetted: &Vetted,
    alone: &[(String, Vetted)],
    warnings: &[Problem],
) -> Result<String, serde_json::Error> {
    let report = VetReport {
        format: VetFormat::Vet1,
        ruleset: RulesetHead::new(&vetted.after),
        from_edition: vetted.before.edition.clone(),
        found: Found::new(vetted),
        alone: alone
            .iter()
            .map(|(draft, vetted)| Alone {
                draft: draft.clone(),
                found: Found::new(vetted),
            })
            .collect(),
        warnings: warnings
            .iter()
            .map(|problem| ProblemRecord::new(&vetted.after.sources, problem))
            .collect(),
        caution: caution(&vetted.after),
    };
    serde_json::to_string_pretty(&report).map(|text| text + "\n")
}

/// What `vet --format json` prints.
#[derive(Serialize, JsonSchema)]
pub(super) struct VetReport {
    format: VetFormat,
    /// The rules as they would be.
    ruleset: RulesetHead,
    /// The edition of the rules as they are; empty where none is given.
    from_edition: String,
    #[serde(flatten)]
    found: Found,
    /// Each draft by itself, where several are vetted together.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    alone: Vec<Alone>,
    warnings: Vec<ProblemRecord>,
    /// Words that belong wherever this is shown to people.
    caution: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
enum VetFormat {
    #[serde(rename = "evenhand/vet/1")]
    Vet1,
}

#[derive(Serialize, JsonSchema)]
struct Alone {
    draft: String,
    #[serde(flatten)]
    found: Found,
}

#[derive(Serialize, JsonSchema)]
struct Found {
    /// Everything in one paragraph.
    verdict: String,
    /// Whether the draft does harm: faults that it brings in, a scope that it breaks, a ruling that it
    /// changes though it claims not to.
    harm: bool,
    /// How many scenarios both editions allow; null where that could not be counted.
    space: Option<Scenarios>,
    changes: Vec<ChangeRecord>,
    /// Findings that the draft brings in.
    introduced: Vec<FindingRecord>,
    /// Findings that it takes away.
    resolved: Vec<FindingRecord>,
    /// Findings that are there before and after.
    standing: Vec<FindingRecord>,
    /// Clauses that the draft leaves as they are and that rest on what it changes.
    affected: Pairs<AffectedRecord>,
    /// What is not the same, thing by thing, with the words that go and come.
    redline: Vec<RedlineRecord>,
    /// Clauses of two editions that were taken for the same though their numbers differ, or by their
    /// number alone; absent where drafts are vetted.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    matches: Vec<MatchRecord>,
    /// Cases to which the text gives another answer; null where no case book was given.
    cases: Option<Vec<CaseRecord>>,
    scope: ScopeName,
    editorial: EditorialName,
    direction: Pairs<DirectionName>,
    /// Texts that name a clause which is gone or has another number.
    mentions: Vec<MentionRecord>,
    /// What only the rules as they are allow, and what only the rules as they would be.
    #[serde(skip_serializing_if = "Option::is_none")]
    only_before: Option<OnlyRecord>,
    #[serde(skip_serializing_if = "Option::is_none")]
    only_after: Option<OnlyRecord>,
    /// Attributes and announced dimensions that only one of them has.
    removed: Vec<String>,
    added: Vec<String>,
    /// Attributes whose values can't be laid beside each other: each edition's stands for itself.
    apart: Vec<String>,
    undecided: Vec<OpenRecord>,
}

impl Found {
    fn new(vetted: &Vetted) -> Self {
        let findings = |ruleset: &Ruleset, checked: &Checked, which: &[usize]| {
            let found = which
                .iter()
                .filter_map(|index| checked.findings.get(*index));
            found
                .map(|finding| FindingRecord::new(ruleset, finding))
                .collect()
        };
        let only = |only: &Option<Only>| {
            only.as_ref().map(|only| OnlyRecord {
                when: only.general.lines.clone(),
                scenario: ScenarioRecord::new(&vetted.space, &only.scenario),
                share: only.share.as_ref().map(Scenarios::new),
            })
        };
        let [removed, added] = [0, 1].map(|edition| {
            let attributes = vetted.other_attributes.get(edition).into_iter().flatten();
            let dimensions = vetted.other_dimensions.get(edition).into_iter().flatten();
            attributes.chain(dimensions).cloned().collect()
        });
        let [only_before, only_after] = vetted.only.each_ref().map(only);
        let undecided = vetted.checked_after.verdicts.iter();
        let undecided = undecided.filter_map(|verdict| match &verdict.outcome {
            Outcome::Undecided(reason) => Some(OpenRecord {
                about: format!("{} in the amended rules", verdict.kind),
                reason: reason.to_string(),
            }),
            _ => None,
        });
        Found {
            verdict: verdict::paragraph(vetted),
            harm: vetted.does_harm(),
            space: vetted.scenarios.as_ref().map(Scenarios::new),
            changes: (0..vetted.rows.len())
                .filter_map(|index| ChangeRecord::new(vetted, index))
                .collect(),
            introduced: findings(&vetted.after, &vetted.checked_after, &vetted.introduced),
            resolved: findings(&vetted.before, &vetted.checked_before, &vetted.resolved),
            standing: findings(&vetted.after, &vetted.checked_after, &vetted.standing),
            affected: Pairs(
                vetted
                    .affected
                    .iter()
                    .map(|it| (it.clause.clone(), AffectedRecord::new(vetted, it)))
                    .collect(),
            ),
            redline: vetted.redline.iter().map(RedlineRecord::new).collect(),
            matches: vetted.matches.iter().map(MatchRecord::new).collect(),
            cases: vetted
                .cases
                .as_ref()
                .map(|cases| cases.iter().map(CaseRecord::new).collect()),
            scope: match vetted.scope {
                Scope::None => ScopeName::None,
                Scope::Kept => ScopeName::Kept,
                Scope::Broken => ScopeName::Broken,
                Scope::Undecided => ScopeName::Undecided,
            },
            editorial: match vetted.editorial {
                Editorial::NotClaimed => EditorialName::NotClaimed,
                Editorial::Proved => EditorialName::Proved,
                Editorial::Refuted => EditorialName::Refuted,
                Editorial::Undecided => EditorialName::Undecided,
            },
            direction: Pairs(
                vetted
                    .direction
                    .iter()
                    .map(|(name, direction)| (name.clone(), DirectionName::new(*direction)))
                    .collect(),
            ),
            mentions: vetted
                .mentions
                .iter()
                .map(|mention| MentionRecord {
                    of: mention.of.clone(),
                    names: mention.names.clone(),
                    now: mention.now.clone(),
                })
                .collect(),
            only_before,
            only_after,
            removed,
            added,
            apart: vetted.apart.clone(),
            undecided: vetted
                .open
                .iter()
                .map(|(about, reason)| OpenRecord {
                    about: about.clone(),
                    reason: reason.to_string(),
                })
                .chain(undecided)
                .collect(),
        }
    }
}

/// Scenarios of which the ruling on a dimension changes in the same way.
#[derive(Serialize, JsonSchema)]
struct ChangeRecord {
    dimension: String,
    /// A value; null where a ruling is due and none is given; `contradiction`; `nothing due`; a list of
    /// what the text leaves open or of all that apply.
    from: StateRecord,
    to: StateRecord,
    /// How far the ruling moves: one step of its scale; several, or in a way that no scale measures;
    /// from one end to the other.
    grade: GradeName,
    when: Vec<String>,
    cover: CoverName,
    scenario: ScenarioRecord,
    /// The announced rulings of that scenario.
    before: Pairs<StateRecord>,
    after: Pairs<StateRecord>,
    #[serde(skip_serializing_if = "Option::is_none")]
    share: Option<Scenarios>,
    /// Null where the draft has no scope.
    in_scope: Option<bool>,
    /// The changes of the draft (with several: the drafts) that bring it about, each somewhere.
    by: Vec<String>,
    /// Those that bring it about only together, somewhere.
    together: Vec<String>,
}

impl ChangeRecord {
    fn new(vetted: &Vetted, index: usize) -> Option<Self> {
        let row: &Row = vetted.rows.get(index)?;
        let units = |which: &[usize]| {
            let units = which.iter().filter_map(|unit| vetted.units.get(*unit));
            units.map(|unit| unit.does.clone()).collect()
        };
        let side = vetted.side_by_side.get(index)?;
        let (mut before, mut after) = (Vec::new(), Vec::new());
        for (name, was, is) in side {
            before.push((name.clone(), StateRecord::new(was)));
            after.push((name.clone(), StateRecord::new(is)));
        }
        Some(ChangeRecord {
            dimension: row.dimension.clone(),
            from: StateRecord::new(&row.from),
            to: StateRecord::new(&row.to),
            grade: match vetted.grades.get(index)? {
                Grade::Minor => GradeName::Minor,
                Grade::Major => GradeName::Major,
                Grade::Reversal => GradeName::Reversal,
            },
            when: row.general.lines.clone(),
            cover: match row.general.cover {
                Cover::Exact => CoverName::Exact,
                Cover::Partial => CoverName::Partial,
                Cover::None => CoverName::None,
            },
            scenario: ScenarioRecord::new(&vetted.space, &row.scenario),
            before: Pairs(before),
            after: Pairs(after),
            share: row.share.as_ref().map(Scenarios::new),
            in_scope: row.in_scope,
            by: units(&row.by),
            together: units(&row.together),
        })
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum StateRecord {
    Word(String),
    Several(Vec<String>),
    None(()),
}

impl StateRecord {
    fn new(state: &State) -> Self {
        match state {
            State::Values(values) => match values.as_slice() {
                [one] => StateRecord::Word(one.clone()),
                several => StateRecord::Several(several.to_vec()),
            },
            State::Gap => StateRecord::None(()),
            State::NotDue => StateRecord::Word("nothing due".to_owned()),
            State::Contradiction => StateRecord::Word("contradiction".to_owned()),
        }
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum GradeName {
    Minor,
    Major,
    Reversal,
}

/// A thing that is not the same in both editions.
#[derive(Serialize, JsonSchema)]
struct RedlineRecord {
    /// `clause`, `term`, `attribute` and so on.
    part: String,
    /// Its id or name; of what is gone, the one that it had.
    name: String,
    fate: FateName,
    /// The number that it had, where that was another.
    #[serde(skip_serializing_if = "Option::is_none")]
    was: Option<String>,
    lines: Vec<LineRecord>,
    /// The changes of rulings that come about through it, counted from 0 in `changes`; null where they
    /// were not put down to changes of the draft.
    changes: Option<Vec<usize>>,
    /// Clauses untouched in their words that do something else through it.
    affected: Vec<String>,
}

impl RedlineRecord {
    fn new(thing: &Redlined) -> Self {
        let (fate, was) = match &thing.fate {
            Fate::Inserted => (FateName::Inserted, None),
            Fate::Repealed => (FateName::Repealed, None),
            Fate::Changed => (FateName::Changed, None),
            Fate::Renumbered(old) => (FateName::Renumbered, Some(old.clone())),
            Fate::ChangedAndRenumbered(old) => (FateName::Changed, Some(old.clone())),
        };
        RedlineRecord {
            part: thing.part.word().to_owned(),
            name: thing.name.clone(),
            fate,
            was,
            lines: thing
                .lines
                .iter()
                .map(|line| LineRecord {
                    label: line.label.clone(),
                    pieces: line.pieces.iter().map(PieceRecord::new).collect(),
                })
                .collect(),
            changes: thing.rows.clone(),
            affected: thing.affected.clone(),
        }
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum FateName {
    Inserted,
    Repealed,
    Changed,
    Renumbered,
}

/// One part of a thing, such as its text or its condition.
#[derive(Serialize, JsonSchema)]
struct LineRecord {
    label: String,
    pieces: Vec<PieceRecord>,
}

/// Words that stay, go or come.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum PieceRecord {
    Kept(String),
    Deleted(String),
    Inserted(String),
}

impl PieceRecord {
    fn new(piece: &Piece) -> Self {
        match piece.clone() {
            Piece::Kept(words) => PieceRecord::Kept(words),
            Piece::Deleted(words) => PieceRecord::Deleted(words),
            Piece::Inserted(words) => PieceRecord::Inserted(words),
        }
    }
}

/// A case to which the text gives another answer.
#[derive(Serialize, JsonSchema)]
struct CaseRecord {
    id: String,
    /// The line of its file, or the row of its sheet, from one.
    line: u64,
    answers: Vec<AnswerRecord>,
    /// Facts that it states and that the later edition does not know; they are left out there.
    lost: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    undecided: Option<String>,
}

impl CaseRecord {
    fn new(case: &CaseChange) -> Self {
        let states = |states: &[State]| states.iter().map(StateRecord::new).collect();
        CaseRecord {
            id: case.id.clone(),
            line: case.line,
            answers: case
                .answers
                .iter()
                .map(|answer| AnswerRecord {
                    dimension: answer.dimension.clone(),
                    before: states(&answer.before),
                    after: states(&answer.after),
                    noted: answer.noted.as_ref().map(|noted| NotedRecord {
                        ruled: StateRecord::new(&noted.ruled),
                        agreed: noted.agreed,
                        agrees: noted.agrees,
                    }),
                })
                .collect(),
            lost: case.lost.clone(),
            undecided: case.open.as_ref().map(ToString::to_string),
        }
    }
}

#[derive(Serialize, JsonSchema)]
struct AnswerRecord {
    dimension: String,
    /// What the text may rule on the facts; several where the facts leave it open, none where no
    /// incident has them.
    before: Vec<StateRecord>,
    after: Vec<StateRecord>,
    /// What the case notes, where it notes a ruling on this dimension.
    noted: Option<NotedRecord>,
}

#[derive(Serialize, JsonSchema)]
struct NotedRecord {
    ruled: StateRecord,
    /// Whether the text as it is agrees.
    agreed: bool,
    /// Whether the text as it would be does.
    agrees: bool,
}

#[derive(Serialize, JsonSchema)]
struct AffectedRecord {
    /// What the clause rests on that changes.
    through: Vec<String>,
    /// Whether its ruling stands elsewhere than before; null where that stayed open.
    rulings_changed: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    scenario: Option<ScenarioRecord>,
}

impl AffectedRecord {
    fn new(vetted: &Vetted, affected: &Affected) -> Self {
        AffectedRecord {
            through: affected.through.clone(),
            rulings_changed: affected.changed,
            scenario: affected
                .scenario
                .as_ref()
                .map(|scenario| ScenarioRecord::new(&vetted.space, scenario)),
        }
    }
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum ScopeName {
    None,
    Kept,
    Broken,
    Undecided,
}

#[derive(Serialize, JsonSchema)]
enum EditorialName {
    #[serde(rename = "not claimed")]
    NotClaimed,
    #[serde(rename = "proved")]
    Proved,
    #[serde(rename = "refuted")]
    Refuted,
    #[serde(rename = "undecided")]
    Undecided,
}

#[derive(Serialize, JsonSchema)]
enum DirectionName {
    #[serde(rename = "unchanged")]
    Unchanged,
    #[serde(rename = "never lower")]
    NeverLower,
    #[serde(rename = "never higher")]
    NeverHigher,
    #[serde(rename = "both")]
    Both,
    #[serde(rename = "without order")]
    Unordered,
}

impl DirectionName {
    fn new(direction: Direction) -> Self {
        match direction {
            Direction::Unchanged => DirectionName::Unchanged,
            Direction::NeverLower => DirectionName::NeverLower,
            Direction::NeverHigher => DirectionName::NeverHigher,
            Direction::Both => DirectionName::Both,
            Direction::Unordered => DirectionName::Unordered,
        }
    }
}

#[derive(Serialize, JsonSchema)]
struct MentionRecord {
    /// Whose text.
    of: String,
    /// The number that it names.
    names: String,
    /// The number that the clause has now; null where it is gone.
    now: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct OnlyRecord {
    when: Vec<String>,
    scenario: ScenarioRecord,
    #[serde(skip_serializing_if = "Option::is_none")]
    share: Option<Scenarios>,
}

#[derive(Serialize, JsonSchema)]
struct OpenRecord {
    about: String,
    reason: String,
}

#[derive(Serialize, JsonSchema)]
struct MatchRecord {
    /// The id in the earlier edition.
    before: String,
    /// The id in the later edition.
    after: String,
    /// What both have that is the same.
    same: Vec<SignName>,
    /// Whether it is a guess: neither is the text the same, nor are condition and ruling.
    guess: bool,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum SignName {
    Text,
    Condition,
    Ruling,
    Title,
    Number,
}

impl MatchRecord {
    fn new(found: &Match) -> Self {
        let same = found.same.iter().map(|sign| match sign {
            Sign::Text => SignName::Text,
            Sign::Condition => SignName::Condition,
            Sign::Ruling => SignName::Ruling,
            Sign::Title => SignName::Title,
            Sign::Number => SignName::Number,
        });
        MatchRecord {
            before: found.before.clone(),
            after: found.after.clone(),
            same: same.collect(),
            guess: found.guess,
        }
    }
}
