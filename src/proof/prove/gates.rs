//! The variables and gates of a claim in clauses, each called by the ruleset's words.
//!
//! A gate is "all of" or "any of" some literals. It is kept in one form only: what is nested in a gate
//! of the same sort is merged into it, parts stand in the order of their words, once each, and of the
//! two ways to write it (`a and b`, `not (not a or not b)`) the one with fewer negations is taken. So
//! two conditions that say the same in other brackets are one gate, and a gate has a name that does not
//! depend on who made it: its own text. What any of this means is not known here.

use crate::logic::{Name, Unasked, World};
use crate::model::{
    AttributeId, AttributeKind, ClauseId, DimensionId, Linear, Origin, Ruleset, TermId, Unit,
};
use crate::proof::digest;
use std::collections::BTreeMap;
use std::rc::Rc;

/// The most bytes of a gate's text that are its name; a longer one is cut, and told by its digest.
const LONGEST: usize = 160;

/// Something that holds or does not hold, with a variable of its own.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Variable {
    /// A yes/no attribute is yes.
    Yes(AttributeId),
    /// A choice or scale has this value.
    Value(AttributeId, usize),
    /// A number is at least this step.
    AtLeast(AttributeId, i64),
    /// An item is present.
    Item(AttributeId, usize),
    /// A sum of numbers is at most its bound.
    Sum(Linear),
    /// What the theory gives a name.
    Named(Name),
}

impl Variable {
    /// Whether it says what a fact is; the others follow from those that do.
    pub(super) fn is_fact(&self) -> bool {
        match self {
            Variable::Yes(_) | Variable::Value(..) | Variable::AtLeast(..) | Variable::Item(..) => {
                true
            }
            Variable::Sum(_) | Variable::Named(_) => false,
        }
    }
}

/// A point of the net: a variable, or a gate over others.
#[derive(Clone, Debug)]
pub(super) enum Point {
    Variable(Variable),
    /// All of the literals hold (`all`), or any of them.
    Gate {
        all: bool,
        parts: Vec<Literal>,
    },
}

/// A point, or its contrary.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Literal {
    pub(super) point: usize,
    pub(super) holds: bool,
}

impl Literal {
    pub(super) fn negated(self) -> Literal {
        Literal {
            holds: !self.holds,
            ..self
        }
    }
}

/// A literal, or a constant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Signal {
    Constant(bool),
    Of(Literal),
}

impl Signal {
    pub(super) const TRUE: Signal = Signal::Constant(true);
    pub(super) const FALSE: Signal = Signal::Constant(false);

    pub(super) fn negated(self) -> Signal {
        match self {
            Signal::Constant(holds) => Signal::Constant(!holds),
            Signal::Of(literal) => Signal::Of(literal.negated()),
        }
    }
}

/// All points of a claim.
#[derive(Debug)]
pub(super) struct Net<'r> {
    ruleset: &'r Ruleset,
    /// What the edited rulesets are called.
    edits: &'r [String],
    points: Vec<(Point, Rc<str>)>,
    by_words: BTreeMap<Rc<str>, usize>,
}

impl<'r> Net<'r> {
    pub(super) fn new(ruleset: &'r Ruleset, edits: &'r [String]) -> Self {
        Net {
            ruleset,
            edits,
            points: Vec::new(),
            by_words: BTreeMap::new(),
        }
    }

    /// A point and its words.
    pub(super) fn get(&self, point: usize) -> Option<(&Point, &str)> {
        self.points
            .get(point)
            .map(|(point, words)| (point, &**words))
    }

    fn words(&self, point: usize) -> &str {
        self.points.get(point).map_or("", |(_, words)| words)
    }

    fn place(&mut self, point: Point, words: String) -> usize {
        let words: Rc<str> = words.into();
        if let Some(known) = self.by_words.get(&words) {
            return *known;
        }
        let index = self.points.len();
        self.points.push((point, Rc::clone(&words)));
        self.by_words.insert(words, index);
        index
    }

    pub(super) fn variable(&mut self, variable: Variable) -> Signal {
        let words = words((self.ruleset, self.edits), &variable);
        let point = self.place(Point::Variable(variable), words);
        Signal::Of(Literal { point, holds: true })
    }

    /// All of the parts.
    pub(super) fn all(&mut self, parts: impl IntoIterator<Item = Signal>) -> Signal {
        let mut kept = Vec::new();
        for part in parts {
            match part {
                Signal::Constant(true) => {}
                Signal::Constant(false) => return Signal::FALSE,
                Signal::Of(literal) => match self.points.get(literal.point) {
                    Some((Point::Gate { all, parts }, _)) if *all == literal.holds => {
                        let nested = parts.iter().copied();
                        kept.extend(nested.map(|part| if *all { part } else { part.negated() }));
                    }
                    _ => kept.push(literal),
                },
            }
        }
        kept.sort_by(|one, other| {
            (self.words(one.point), !one.holds).cmp(&(self.words(other.point), !other.holds))
        });
        kept.dedup();
        // A part and its contrary stand side by side.
        let contrary = |pair: &[Literal]| matches!(pair, [one, other] if one.point == other.point);
        if kept.windows(2).any(contrary) {
            return Signal::FALSE;
        }
        match kept.as_slice() {
            [] => Signal::TRUE,
            [one] => Signal::Of(*one),
            parts => {
                let negations = parts.iter().filter(|part| !part.holds).count();
                let all = negations * 2 <= parts.len();
                if !all {
                    for part in &mut kept {
                        *part = part.negated();
                    }
                }
                let words = self.gate_words(all, &kept);
                let point = self.place(Point::Gate { all, parts: kept }, words);
                Signal::Of(Literal { point, holds: all })
            }
        }
    }

    /// Any of the parts.
    pub(super) fn any(&mut self, parts: impl IntoIterator<Item = Signal>) -> Signal {
        let contraries: Vec<Signal> = parts.into_iter().map(Signal::negated).collect();
        self.all(contraries).negated()
    }

    /// At least so many of the parts. Of the first parts as many without the next one, or one fewer and the
    /// next one, and so on to the last.
    pub(super) fn at_least(&mut self, least: usize, parts: &[Signal]) -> Signal {
        if least > parts.len() {
            return Signal::FALSE;
        }
        // How many of the parts looked at so far hold: at least 0, 1, 2 ...
        let mut reached = vec![Signal::FALSE; least.saturating_add(1)];
        if let Some(none) = reached.first_mut() {
            *none = Signal::TRUE;
        }
        for part in parts {
            for count in (1..=least).rev() {
                let (Some(fewer), Some(same)) =
                    (reached.get(count - 1).copied(), reached.get(count).copied())
                else {
                    continue;
                };
                let with = self.all([*part, fewer]);
                let now = self.any([with, same]);
                if let Some(slot) = reached.get_mut(count) {
                    *slot = now;
                }
            }
        }
        reached.last().copied().unwrap_or(Signal::FALSE)
    }

    fn gate_words(&self, all: bool, parts: &[Literal]) -> String {
        let mut text = String::from("(");
        for (index, part) in parts.iter().enumerate() {
            if index > 0 {
                text.push_str(if all { " and " } else { " or " });
            }
            if !part.holds {
                text.push_str("not ");
            }
            text.push_str(self.words(part.point));
        }
        text.push(')');
        if text.len() > LONGEST {
            let mut end = LONGEST - 40;
            while !text.is_char_boundary(end) {
                end -= 1;
            }
            let whole = digest(text.as_bytes());
            text.truncate(end);
            text.push_str(" ... ");
            text.extend(whole.chars().take(32));
        }
        text
    }
}

/// What a variable is called.
fn words((ruleset, edits): (&Ruleset, &[String]), variable: &Variable) -> String {
    let value_name = |attribute: AttributeId, index: usize| {
        let names = ruleset[attribute].kind.names();
        names.get(index).map_or("", |value| value.name.as_str())
    };
    let name_of = |attribute: AttributeId| ruleset[attribute].name.as_str();
    match variable {
        Variable::Yes(attribute) => match ruleset[*attribute].origin {
            Origin::Stated => name_of(*attribute).to_owned(),
            Origin::Reading(_) => format!("{} is read broadly", name_of(*attribute)),
        },
        Variable::Value(attribute, value) => {
            format!(
                "{} is {}",
                name_of(*attribute),
                value_name(*attribute, *value)
            )
        }
        Variable::Item(attribute, item) => {
            format!(
                "{} includes {}",
                name_of(*attribute),
                value_name(*attribute, *item)
            )
        }
        Variable::AtLeast(attribute, step) => {
            let AttributeKind::Number(range) = &ruleset[*attribute].kind else {
                return format!("{} at least {step}", name_of(*attribute));
            };
            let unit = match &range.unit {
                Unit::None => String::new(),
                Unit::Named(unit) => format!(" {unit}"),
            };
            format!(
                "{} at least {}{unit}",
                name_of(*attribute),
                range.value(*step)
            )
        }
        Variable::Sum(Linear { parts, bound }) => {
            let parts = parts
                .iter()
                .map(|(weight, attribute)| format!("{weight} * steps of {}", name_of(*attribute)));
            format!("{} at most {bound}", parts.collect::<Vec<_>>().join(" + "))
        }
        Variable::Named(name) => name_words((ruleset, edits), *name),
    }
}

fn name_words((ruleset, edits): (&Ruleset, &[String]), name: Name) -> String {
    let clause = |world: World, id: ClauseId, says: &str| {
        format!(
            "{}{:?} {says}",
            world_words((ruleset, edits), world),
            ruleset[id].id
        )
    };
    let dimension = |world: World, before: &str, id: DimensionId, after: &str| {
        let world = world_words((ruleset, edits), world);
        format!("{world}{before}{}{after}", ruleset[id].name)
    };
    let term = |unasked: Unasked, id: TermId, says: &str| {
        let taken = match unasked {
            Unasked::Neither => "",
            Unasked::TakenAsNo => " with the unasked taken as no",
        };
        format!("{} is {says}{taken}", ruleset[id].name)
    };
    match name {
        Name::Asked(attribute) => match ruleset[attribute].origin {
            Origin::Stated => format!("{} has a value", ruleset[attribute].name),
            Origin::Reading(_) => format!("{} is open to reading", ruleset[attribute].name),
        },
        Name::Possible => "the background is kept".to_owned(),
        Name::TermTrue(unasked, id) => term(unasked, id, "true"),
        Name::TermFalse(unasked, id) => term(unasked, id, "false"),
        Name::Met(world, id) => clause(world, id, "is met"),
        Name::InForce(world, id) => clause(world, id, "is in force"),
        Name::Stands(world, id, on) => {
            clause(world, id, &format!("stands on {}", ruleset[on].name))
        }
        Name::Spoken(world, id) => dimension(world, "a clause speaks on ", id, ""),
        Name::Due(world, id) => dimension(world, "silence on ", id, " is a gap"),
        Name::Gap(world, id) => dimension(world, "there is a gap in ", id, ""),
        Name::Clash(world, id) => dimension(world, "rulings clash on ", id, ""),
        Name::Settled(world, id) => dimension(world, "", id, " is settled"),
        Name::Allowed(world, id, value) => {
            let value = ruleset[id].values.get(usize::from(value));
            let value = value.map_or("", |value| value.name.as_str());
            dimension(world, "", id, &format!(" may come out as {value}"))
        }
    }
}

fn world_words((ruleset, edits): (&Ruleset, &[String]), world: World) -> String {
    match world {
        World::Actual => String::new(),
        World::Without(clause) => format!("without {:?}: ", ruleset[clause].id),
        World::Edited(edit) => {
            let place = (edit.number() as usize).saturating_sub(1);
            edits.get(place).cloned().unwrap_or_default()
        }
    }
}
