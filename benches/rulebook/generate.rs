//! Rulebooks of any length, with faults planted where they are known.
//!
//! A tree of questions cuts the scenario space into parts, and each part gets a clause, so that the
//! clauses neither overlap nor leave anything out. Some clauses then get an exception of their own,
//! and a few get a rival that nobody gave precedence: the planted contradictions, and the only ones.
//! Same plan, same bytes.

use std::fmt::Write;

/// What rulebook to write.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Plan {
    /// How many clauses, at least 10.
    pub(crate) clauses: usize,
    /// How many contradictions to plant; at most a tenth of the clauses are.
    pub(crate) planted: usize,
    /// What the rulings do where no clause speaks.
    pub(crate) silence: Silence,
    /// Which of the many rulebooks of this plan.
    pub(crate) seed: u64,
}

/// What the rulings do where no clause speaks; in these rulebooks some clause always speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Silence {
    /// A default stands: there is no gap by construction.
    Default,
    /// Silence is a gap: that there is none has to be proved.
    Gap,
}

/// A generated rulebook.
#[derive(Clone, Debug)]
pub(crate) struct Rulebook {
    /// The ruleset file.
    pub(crate) yaml: String,
    /// The ids of the clauses that contradict each other, in the order of the file.
    pub(crate) planted: Vec<(String, String)>,
}

/// How many attributes a rulebook has.
const ATTRIBUTES: usize = 40;
/// The sides, each of which has a clause of its own.
const SIDES: [&str; 2] = ["left", "right"];
/// Every so many attributes one is judged.
const JUDGED: usize = 10;
/// A yes/no attribute that a party sets.
const SET_BY_A_PARTY: usize = 5;
/// The values of the two dimensions.
const PENALTIES: [&str; 4] = ["none", "warning", "point", "disqualification"];
const PLAY: [&str; 3] = ["continues", "stops", "restarts"];

/// Writes a rulebook.
pub(crate) fn write(plan: Plan) -> Rulebook {
    let plan = Plan {
        clauses: plan.clauses.max(10),
        planted: plan.planted.min(plan.clauses / 10),
        ..plan
    };
    let mut dice = Dice(plan.seed);
    let attributes: Vec<Kind> = (0..ATTRIBUTES)
        .map(|index| kind(index, &mut dice))
        .collect();
    let exceptions = plan.clauses / 5;
    let leaves = plan.clauses - exceptions - plan.planted - SIDES.len();
    let parts = partition(&attributes, leaves, &mut dice);

    // Which parts get an exception, and which a rival: all different, so that nothing else overlaps.
    let mut chosen: Vec<usize> = (0..parts.len()).collect();
    dice.shuffle(&mut chosen);
    let mut guests = vec![Guest::None; parts.len()];
    for (position, part) in chosen.into_iter().enumerate() {
        guests[part] = match position {
            rival if rival < plan.planted => Guest::Rival,
            exception if exception < plan.planted + exceptions => Guest::Exception,
            _ => break,
        };
    }

    let mut yaml = head(plan, &attributes);
    let mut planted = Vec::new();
    for (index, (part, guest)) in parts.iter().zip(guests).enumerate() {
        let id = format!("{}.{}", index / 10 + 1, index % 10 + 1);
        let ruling = [dice.below(PENALTIES.len()), dice.below(PLAY.len())];
        let lines = condition(&attributes, part);
        clause(&mut yaml, &id, &lines, ruling, None);
        if guest == Guest::None {
            continue;
        }
        let mut narrower = part.clone();
        narrow(&attributes, &mut narrower, &mut dice);
        let other = [(ruling[0] + 1 + dice.below(3)) % 4, ruling[1]];
        let lines = condition(&attributes, &narrower);
        if guest == Guest::Exception {
            clause(&mut yaml, &format!("{id}a"), &lines, other, Some(&id));
        } else {
            clause(&mut yaml, &format!("{id}b"), &lines, other, None);
            planted.push((id.clone(), format!("{id}b")));
        }
    }
    // What they rule together does not depend on the side; only the two of them show it.
    for side in SIDES {
        let _ = writeln!(
            yaml,
            "  - id: ends, {side}\n    when: side is {side} and fact_1\n    ruling:\n      ends: changed"
        );
    }
    Rulebook { yaml, planted }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Guest {
    None,
    Exception,
    Rival,
}

/// The kind of an attribute, and how many values it has.
#[derive(Clone, Copy)]
enum Kind {
    YesNo,
    Choice(usize),
    Scale(usize),
    /// 0 to 60.
    Number,
}

impl Kind {
    fn values(self) -> usize {
        match self {
            Kind::YesNo => 2,
            Kind::Choice(values) | Kind::Scale(values) => values,
            Kind::Number => 61,
        }
    }
}

/// For each attribute the first and the last value that are left.
type Part = Vec<(usize, usize)>;

fn kind(index: usize, dice: &mut Dice) -> Kind {
    match index % 4 {
        0 => Kind::Choice(2 + dice.below(4)),
        1 => Kind::YesNo,
        2 => Kind::Scale(3 + dice.below(3)),
        _ => Kind::Number,
    }
}

/// Cuts the whole space into exactly so many parts, the widest first.
fn partition(attributes: &[Kind], wanted: usize, dice: &mut Dice) -> Vec<Part> {
    let whole = attributes
        .iter()
        .map(|kind| (0, kind.values() - 1))
        .collect();
    let mut parts = std::collections::VecDeque::from([whole]);
    while parts.len() < wanted {
        let Some(part) = parts.pop_front() else { break };
        let pieces = cut(attributes, &part, wanted - parts.len(), dice);
        parts.extend(pieces);
    }
    parts.into()
}

/// Cuts a part along one attribute into two pieces or more, but no more than `most`.
fn cut(attributes: &[Kind], part: &Part, most: usize, dice: &mut Dice) -> Vec<Part> {
    let attribute = loop {
        let attribute = dice.below(attributes.len());
        if part[attribute].0 < part[attribute].1 {
            break attribute;
        }
    };
    let (first, last) = part[attribute];
    let values = last - first + 1;
    let pieces = match attributes[attribute] {
        Kind::Number => 2 + dice.below(3),
        _ => values,
    };
    let pieces = pieces.min(values).min(most).max(2);
    let mut starts: Vec<usize> = (first + 1..=last).collect();
    dice.shuffle(&mut starts);
    starts.truncate(pieces - 1);
    starts.push(first);
    starts.sort_unstable();
    let ends = starts[1..].iter().map(|next| next - 1).chain([last]);
    let ranges: Vec<_> = starts.iter().copied().zip(ends).collect();
    let piece = |range| {
        let mut piece = part.clone();
        piece[attribute] = range;
        piece
    };
    ranges.into_iter().map(piece).collect()
}

/// Narrows a part by one more attribute.
fn narrow(attributes: &[Kind], part: &mut Part, dice: &mut Dice) {
    let pieces = cut(attributes, part, 3, dice);
    let kept = dice.below(pieces.len());
    part.clone_from(&pieces[kept]);
}

fn condition(attributes: &[Kind], part: &Part) -> Vec<String> {
    let limits = attributes.iter().zip(part).enumerate();
    let lines = limits.filter_map(|(index, (kind, (first, last)))| {
        let name = format!("fact_{index}");
        let top = kind.values() - 1;
        if (*first, *last) == (0, top) {
            return None;
        }
        Some(match kind {
            Kind::YesNo if *first == 1 => name,
            Kind::YesNo => format!("not {name}"),
            Kind::Choice(_) | Kind::Scale(_) if first == last => format!("{name} is v{first}"),
            Kind::Scale(_) if *first == 0 => format!("{name} at most v{last}"),
            Kind::Scale(_) if *last == top => format!("{name} at least v{first}"),
            Kind::Choice(_) | Kind::Scale(_) => {
                let values: Vec<_> = (*first..=*last).map(|value| format!("v{value}")).collect();
                format!("{name} is one of ({})", values.join(", "))
            }
            Kind::Number if first == last => format!("{name} is {first}"),
            Kind::Number if *first == 0 => format!("{name} less than {}", last + 1),
            Kind::Number if *last == top => format!("{name} at least {first}"),
            Kind::Number => format!("{name} is between {first} and {last}"),
        })
    });
    lines.collect()
}

fn head(plan: Plan, attributes: &[Kind]) -> String {
    let mut yaml = String::new();
    let mut line = |words: &str| {
        yaml.push_str(words);
        yaml.push('\n');
    };
    line("ruleset: A generated rulebook");
    line(&format!("edition: \"{}/{}\"", plan.clauses, plan.seed));
    line("attributes:");
    for (index, kind) in attributes.iter().enumerate() {
        let values = |count: &usize| {
            let values: Vec<_> = (0..*count).map(|value| format!("v{value}")).collect();
            values.join(", ")
        };
        match kind {
            Kind::YesNo => line(&format!("  fact_{index}:\n    label: a fact")),
            Kind::Choice(count) => {
                line(&format!("  fact_{index}:\n    choice: [{}]", values(count)));
            }
            Kind::Scale(count) => line(&format!("  fact_{index}:\n    scale: [{}]", values(count))),
            Kind::Number => line(&format!("  fact_{index}:\n    number: 0 to 60")),
        }
        if index % JUDGED == JUDGED - 1 {
            line("    judged: true");
        }
        if index == SET_BY_A_PARTY {
            line("    set_by: opponent");
        }
    }
    line(&format!("  side:\n    choice: [{}]", SIDES.join(", ")));
    line("rulings:");
    line(&format!(
        "  penalty:\n    scale: [{}]",
        PENALTIES.join(", ")
    ));
    if plan.silence == Silence::Default {
        line("    otherwise: none");
    }
    line(&format!("  play:\n    choice: [{}]", PLAY.join(", ")));
    if plan.silence == Silence::Default {
        line("    otherwise: continues");
    }
    line("  ends:\n    choice: [kept, changed]\n    otherwise: kept");
    line("principles:");
    line("  - id: ends are changed whatever the side\n    impartial_to: [side]");
    line("  - id: two facts without influence\n    impartial_to: [fact_1, fact_2]");
    line("  - id: more is never milder\n    rises_with: fact_2\n    ruling: penalty");
    line(&format!(
        "  - id: nothing to gain\n    no_gain: opponent\n    by: fact_{SET_BY_A_PARTY}\n    raising: penalty"
    ));
    line(
        "  - id: whoever is out stops play\n    whenever: penalty is disqualification\n    expect: play is stops",
    );
    line("clauses:");
    yaml
}

fn clause(
    yaml: &mut String,
    id: &str,
    lines: &[String],
    [penalty, play]: [usize; 2],
    notwithstanding: Option<&str>,
) {
    let when: String = lines.iter().fold(String::new(), |mut all, line| {
        let _ = write!(all, "\n      - {line}");
        all
    });
    let _ = writeln!(yaml, "  - id: \"{id}\"");
    if !lines.is_empty() {
        let _ = writeln!(yaml, "    when:{when}");
    }
    let (penalty, play) = (PENALTIES[penalty], PLAY[play]);
    let _ = writeln!(
        yaml,
        "    ruling:\n      penalty: {penalty}\n      play: {play}"
    );
    if let Some(other) = notwithstanding {
        let _ = writeln!(yaml, "    notwithstanding: \"{other}\"");
    }
}

/// A small generator of repeatable throws (splitmix64, Steele, Lea and Flood, OOPSLA 2014).
struct Dice(u64);

impl Dice {
    fn throw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, limit: usize) -> usize {
        let limit = u64::try_from(limit).unwrap_or(u64::MAX);
        usize::try_from(self.throw() % limit).unwrap_or(0)
    }

    fn shuffle<T>(&mut self, things: &mut [T]) {
        for end in (1..things.len()).rev() {
            things.swap(end, self.below(end + 1));
        }
    }
}
