//! Impossible: no scenario meets the clause's condition.
//!
//! Question: is there a scenario in which the condition is true? Where there is none, a smallest set
//! of its parts and of background lines that rule each other out is worked out (see `cores`): in the
//! space without any background, so that each line of it counts like a part of the condition. Where
//! they rule each other out only because something is not asked there, that is said too.

use super::cores::{self, Judged, Set};
use super::finding::Finding;
use super::inquiry::Inquiry;
use super::words;
use crate::logic::{
    Formula, Layers, Mode, Name, Replay, Scenario, World, attributes_asked_by, attributes_read,
    dimensions_read, is_false, is_true,
};
use crate::model::{
    AttributeId, BackgroundRule, ClauseId, Condition, ConditionKind, Kind, Ruleset,
};
use crate::solve::{Answer, Budget, DiagramSolver, Reason, Solver, Z3Solver};
use crate::source::Span;
use std::collections::BTreeSet;

/// The most scenarios that are looked at for a smallest set.
const MOST_ROUNDS: usize = 200;

/// The most sets that are looked at for further reasons.
const MOST_SETS: usize = 60;

/// Further reasons that are told.
const MOST_REASONS: usize = 2;

/// Attributes among which those are picked out whose not being asked matters.
const MOST_ASKED: usize = 8;

/// Where the clause is met.
pub(super) fn question(clause: ClauseId) -> Formula {
    Name::Met(World::Actual, clause).into()
}

/// Puts it into words.
pub(super) fn report(inquiry: &mut Inquiry<'_, '_>, clause: ClauseId) -> Finding {
    let ruleset = inquiry.ruleset;
    let this = &ruleset[clause];
    let headline = format!("Clause {} can never be met", this.id);
    let advice = "Correct the condition, or repeal the clause.";
    let reasons = Reasons::new(ruleset, clause, inquiry.budget());
    let Some((first, others)) = reasons.smallest() else {
        let label = "no scenario makes this true";
        return words::finding(Kind::Impossible, headline, this.when_span, label)
            .of_clauses(&[clause])
            .help(format!(
                "Its parts, the opening words of its groups, the background and what is asked when rule each \
                 other out. {advice}"
            ));
    };
    let mut things: Vec<&Thing<'_>> = reasons.of(&first);
    // The clause's own words first: a group's opening words and the background serve others, too.
    let is_own = |thing: &&Thing<'_>| {
        let (place, whole) = (thing.span(), this.span);
        whole.source == place.source && whole.start <= place.start && place.end <= whole.end
    };
    things.sort_by_key(|thing| !is_own(thing));
    let span = things.first().map_or(this.when_span, |thing| thing.span());
    let label = match things.as_slice() {
        [_] => "no scenario makes this true",
        _ => "never true together with what else is marked",
    };
    let mut finding = words::finding(Kind::Impossible, headline, span, label).of_clauses(&[clause]);
    finding.labels.extend(
        things
            .iter()
            .skip(1)
            .map(|thing| (thing.span(), thing.label().to_owned())),
    );
    let unasked = reasons.not_asked(&first);
    for id in &unasked {
        if let Some(condition) = &ruleset[*id].asked_when {
            let label = format!("{} is asked only here", ruleset[*id].name);
            finding.labels.push((condition.span, label));
        }
    }
    let mut help = vec![words::capital(&reasons.told(ruleset, &first))];
    help.extend(asked_only(ruleset, &unasked));
    let told = others.iter().take(MOST_REASONS);
    help.extend(told.map(|set| format!("Another reason: {}", reasons.told(ruleset, set))));
    help.push(advice.to_owned());
    finding.help(help.join(" "))
}

/// Something that a scenario would have to make true, or to keep.
enum Thing<'r> {
    Part(&'r Condition),
    Line(usize, &'r crate::model::Background),
}

impl Thing<'_> {
    fn formula(&self) -> Formula {
        match self {
            Thing::Part(part) => is_true(part, Mode::ACTUAL),
            Thing::Line(_, line) => match &line.rule {
                BackgroundRule::Never(condition) => is_true(condition, Mode::ACTUAL).negated(),
                BackgroundRule::Always(condition) => is_false(condition, Mode::ACTUAL).negated(),
            },
        }
    }

    fn condition(&self) -> &Condition {
        match self {
            Thing::Part(part) => part,
            Thing::Line(_, line) => match &line.rule {
                BackgroundRule::Never(condition) | BackgroundRule::Always(condition) => condition,
            },
        }
    }

    fn span(&self) -> Span {
        match self {
            Thing::Part(part) => part.span,
            Thing::Line(_, line) => line.span,
        }
    }

    fn label(&self) -> &'static str {
        match self {
            Thing::Part(part) if excludes(part) => "where this is true, the clause is not met",
            Thing::Part(_) => "cannot hold beside it",
            Thing::Line(..) => "no scenario breaks this",
        }
    }

    fn named(&self, ruleset: &Ruleset) -> String {
        match self {
            Thing::Part(part) => match words::quoted(ruleset, part.span) {
                Some(words) => words,
                None => "a longer part of the condition".to_owned(),
            },
            Thing::Line(number, line) => match &line.id {
                Some(id) => id.clone(),
                None => (number + 1).to_string(),
            },
        }
    }
}

/// Whether it is what a clause must not meet: its exception, or an item of `none`.
fn excludes(part: &Condition) -> bool {
    matches!(part.kind, ConditionKind::NotTrue(_))
}

/// Says where attributes are asked.
fn asked_only(ruleset: &Ruleset, attributes: &[AttributeId]) -> Option<String> {
    let told = attributes.iter().filter_map(|id| {
        let this = &ruleset[*id];
        let when = words::quoted(ruleset, this.asked_when.as_ref()?.span);
        Some(match when {
            Some(when) => format!("`{}` is asked only where {when}", this.name),
            None => format!("`{}` is not always asked", this.name),
        })
    });
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| format!("{}.", words::and_list(&told)))
}

/// Why a clause can never be met.
struct Reasons<'r> {
    /// Cut for the background, too.
    layers: Layers,
    things: Vec<Thing<'r>>,
    /// The ruleset without its background.
    bare: Ruleset,
    budget: Budget,
}

impl<'r> Reasons<'r> {
    fn new(ruleset: &'r Ruleset, clause: ClauseId, budget: &Budget) -> Self {
        let mut parts = Vec::new();
        conjuncts(&ruleset[clause].when, &mut parts);
        let lines = ruleset.background.iter().enumerate();
        let things = parts.into_iter().map(Thing::Part);
        Reasons {
            layers: Layers::new(ruleset),
            things: things
                .chain(lines.map(|(at, line)| Thing::Line(at, line)))
                .collect(),
            bare: Ruleset {
                background: Vec::new(),
                ..ruleset.clone()
            },
            budget: budget.clone(),
        }
    }

    fn of(&self, set: &Set) -> Vec<&Thing<'r>> {
        set.iter()
            .filter_map(|index| self.things.get(*index))
            .collect()
    }

    fn question(&self, set: &Set) -> Formula {
        Formula::all(self.of(set).into_iter().map(Thing::formula))
    }

    /// A smallest set of things that rule each other out, and other such sets of which none could
    /// leave anything out.
    fn smallest(&self) -> Option<(Set, Vec<Set>)> {
        let layers = self.layers.clone();
        let mut diagrams = DiagramSolver::new(&self.bare, layers, self.budget.clone());
        let mut z3 = Z3Solver::new(&self.bare, self.budget.clone());
        let mut judge = |set: &Set| {
            let question = self.question(set);
            let by_diagrams = diagrams.as_mut().map(|diagrams| diagrams.ask(&question));
            let answer = match by_diagrams {
                None | Some(Answer::Undecided(Reason::DiagramTooLarge)) => z3.ask(&question),
                Some(answer) => answer,
            };
            match answer {
                Answer::No => Judged::Conflict,
                Answer::Undecided(_) => Judged::Open,
                Answer::Yes(scenario) => Judged::Free(self.holding(&scenario)),
            }
        };
        let (first, known) = cores::smallest(self.things.len(), MOST_ROUNDS, &mut judge)?;
        if !known {
            return Some((first, Vec::new()));
        }
        let found = cores::all(self.things.len(), MOST_SETS, &mut judge);
        let others = found
            .conflicts
            .into_iter()
            .filter(|set| *set != first)
            .collect();
        Some((first, others))
    }

    /// The things that hold in a scenario.
    fn holding(&self, scenario: &Scenario) -> Set {
        let replay = Replay::new(&self.bare, scenario);
        let things = self.things.iter().enumerate();
        let holding = things.filter(|(_, thing)| replay.holds(&thing.formula()));
        holding.map(|(index, _)| index).collect()
    }

    /// The attributes without whose `asked_when` the things would not rule each other out.
    fn not_asked(&self, core: &Set) -> Vec<AttributeId> {
        let mut candidates = Vec::new();
        let read = self.of(core).into_iter().map(Thing::condition);
        let mut open: Vec<AttributeId> = read
            .flat_map(|condition| {
                let read = attributes_read(&self.bare, condition);
                read.ones().map(AttributeId::new).collect::<Vec<_>>()
            })
            .collect();
        let mut seen = BTreeSet::new();
        while let Some(id) = open.pop() {
            if seen.insert(id) {
                let asked_by = attributes_asked_by(&self.bare, id);
                open.extend(asked_by.ones().map(AttributeId::new));
                if self.bare[id].asked_when.is_some() {
                    candidates.push(id);
                }
            }
        }
        candidates.sort_unstable();
        if candidates.is_empty() || self.rules_out(core, &candidates) != Some(false) {
            return Vec::new();
        }
        // Those that may be asked always and the things would still rule each other out play no part.
        let mut always = Vec::new();
        let mut needed = Vec::new();
        for id in candidates {
            always.push(id);
            if needed.len() + always.len() > MOST_ASKED
                || self.rules_out(core, &always) != Some(true)
            {
                always.pop();
                needed.push(id);
            }
        }
        needed
    }

    /// Whether the things rule each other out even if these attributes are always asked.
    fn rules_out(&self, core: &Set, always: &[AttributeId]) -> Option<bool> {
        let mut asked = self.bare.clone();
        for id in always {
            if let Some(attribute) = asked.attributes.get_mut(id.index()) {
                attribute.asked_when = None;
            }
        }
        match Z3Solver::new(&asked, self.budget.clone()).ask(&self.question(core)) {
            Answer::Yes(_) => Some(false),
            Answer::No => Some(true),
            Answer::Undecided(_) => None,
        }
    }

    /// A reason as a sentence that begins small.
    fn told(&self, ruleset: &Ruleset, core: &Set) -> String {
        let things = self.of(core);
        let mut wanted = Vec::new();
        let mut excluding = Vec::new();
        let mut lines = Vec::new();
        for thing in &things {
            let list = match thing {
                Thing::Part(part) if excludes(part) => &mut excluding,
                Thing::Part(_) => &mut wanted,
                Thing::Line(..) => &mut lines,
            };
            list.push(thing.named(ruleset));
        }
        let told = words::and_list(&wanted);
        let excluded = match excluding.as_slice() {
            [one] => one.clone(),
            several => format!("one of {}", words::and_list(several)),
        };
        let told = match (wanted.len(), excluding.is_empty()) {
            (1, true) => format!("{told} is never true"),
            (2, true) => format!("{told} are never both true"),
            (_, true) => format!("{told} are never all true together"),
            (0, false) => format!("{excluded} is always true, and then the clause is not met"),
            (1, false) => {
                format!("wherever {told} is true, so is {excluded}, and then the clause is not met")
            }
            (_, false) => {
                format!(
                    "wherever {told} are true, so is {excluded}, and then the clause is not met"
                )
            }
        };
        let because = match lines.as_slice() {
            [] => String::new(),
            [one] => format!(", because of line {one} of the background"),
            several => format!(
                ", because of lines {} of the background",
                words::and_list(several)
            ),
        };
        let reads_rulings = things
            .iter()
            .any(|thing| !dimensions_read(thing.condition()).is_empty());
        let given = if reads_rulings {
            ", as the clauses rule"
        } else {
            ""
        };
        format!("{told}{because}{given}.")
    }
}

/// The parts all of which have to be true for a condition to be true.
fn conjuncts<'r>(condition: &'r Condition, parts: &mut Vec<&'r Condition>) {
    match &condition.kind {
        ConditionKind::All(inner) => inner.iter().for_each(|part| conjuncts(part, parts)),
        ConditionKind::Always => {}
        _ => parts.push(condition),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use crate::analysis::{Options, check};
    use crate::load::load;
    use crate::model::Kind;

    /// What is said of a clause whose condition is written so.
    fn check_help(when: &str, expected: &str) {
        let text = format!(
            "ruleset: t
attributes:
  phase:
    choice: [standing, ground]
  action:
    choice: [throw, lock, pin]
  joint:
    choice: [elbow, knee]
    asked_when: action is lock
  held:
    number: 0 to 60
background:
  - id: B1
    never: action is pin and phase is standing
  - never: action is throw and phase is ground
rulings:
  deserved:
    scale: [nothing, minor, major]
    otherwise: nothing
clauses:
  - id: \"1\"
    when: action is pin
    ruling: {{deserved: minor}}
  - id: \"2\"
{when}
    ruling: {{deserved: minor}}
"
        );
        let ruleset = load("t.yaml", text).unwrap().ruleset;
        let checked = check(&ruleset, &Options::default());
        let found = checked
            .findings
            .iter()
            .find(|one| one.kind == Kind::Impossible);
        let help = found.unwrap().help.clone().unwrap();
        let advice = " Correct the condition, or repeal the clause.";
        assert_eq!(help.strip_suffix(advice), Some(expected));
    }

    #[test]
    fn as_few_parts_as_rule_each_other_out_are_named() {
        check_help(
            "    when: held more than 60",
            "`held more than 60` is never true.",
        );
        check_help(
            "    when: held at least 20 and phase is ground and held less than 10",
            "`held at least 20` and `held less than 10` are never both true.",
        );
        check_help(
            "    when: action is pin and held is 3 and phase is standing",
            "`action is pin` and `phase is standing` are never both true, because of line B1 of the background.",
        );
        check_help(
            "    when: joint is elbow and phase is ground and action is throw",
            "`joint is elbow` and `action is throw` are never both true. `joint` is asked only where `action is lock`. \
             Another reason: `phase is ground` and `action is throw` are never both true, because of line 2 of the background.",
        );
        check_help(
            "    when: action is lock\n    unless: joint is elbow or joint is knee",
            "Wherever `action is lock` is true, so is `joint is elbow or joint is knee`, and then the clause is not met.",
        );
        check_help(
            "    when: action is not one of (lock, throw)\n    unless: phase is ground",
            "Wherever `action is not one of (lock, throw)` is true, so is `phase is ground`, and then the clause is not met, \
             because of line B1 of the background.",
        );
    }
}
