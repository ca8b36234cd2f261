//! What each name of a formula stands for: line by line, the meaning of a ruleset.
//!
//! [`Theory::define`] takes a name to its formula and remembers nothing; every solver keeps its own
//! memory of what it has already looked up. The names that a definition uses come before it in the
//! ruleset's order, so looking up ends.

use super::truth::{Mode, is_false, is_true};
use super::{Edit, EditId, Edits, Formula, Precedence};
use crate::model::{
    AttributeId, BackgroundRule, ClauseId, Dimension, DimensionId, Meaning, Origin, Ruleset, Step,
    TermId, Test, ValueSet, WhenSeveral,
};
use fixedbitset::FixedBitSet;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

/// Something that holds or does not hold in a scenario, under a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Name {
    /// The attribute has a value.
    Asked(AttributeId),
    /// No background line is broken.
    Possible,
    /// The term is true, as the unasked is taken.
    TermTrue(Unasked, TermId),
    /// The term is false, as the unasked is taken.
    TermFalse(Unasked, TermId),
    /// The clause's condition is true.
    Met(World, ClauseId),
    /// The clause is met and no clause in force disapplies it.
    InForce(World, ClauseId),
    /// The clause is in force, and no clause in force that prevails over it rules on the dimension.
    Stands(World, ClauseId, DimensionId),
    /// Some clause's ruling stands on the dimension.
    Spoken(World, DimensionId),
    /// Silence on the dimension is a gap here, whether or not anyone is silent.
    Due(World, DimensionId),
    /// A ruling is due on the dimension and no clause's stands.
    Gap(World, DimensionId),
    /// The standing rulings have nothing in common (only where they must agree).
    Clash(World, DimensionId),
    /// The dimension's ruling may come out as this value (for `all_apply`: the value is in the set).
    Allowed(World, DimensionId, u8),
    /// The dimension's ruling is settled: exactly one value (for `all_apply`: there is a ruling).
    Settled(World, DimensionId),
}

/// The ruleset as it stands, or a change of it that a question compares it with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum World {
    /// As it stands.
    Actual,
    /// As if this clause were not there.
    Without(ClauseId),
    /// With this edit made.
    Edited(EditId),
}

impl Name {
    /// The same of another world, where it is of the ruleset as it stands.
    #[must_use]
    pub fn in_world(self, world: World) -> Name {
        match self {
            Name::Met(World::Actual, clause) => Name::Met(world, clause),
            Name::InForce(World::Actual, clause) => Name::InForce(world, clause),
            Name::Stands(World::Actual, clause, on) => Name::Stands(world, clause, on),
            Name::Spoken(World::Actual, on) => Name::Spoken(world, on),
            Name::Due(World::Actual, on) => Name::Due(world, on),
            Name::Gap(World::Actual, on) => Name::Gap(world, on),
            Name::Clash(World::Actual, on) => Name::Clash(world, on),
            Name::Allowed(World::Actual, on, value) => Name::Allowed(world, on, value),
            Name::Settled(World::Actual, on) => Name::Settled(world, on),
            other => other,
        }
    }
}

/// How a comparison over what is not asked is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unasked {
    /// Neither true nor false: the meaning of the language.
    Neither,
    /// False, the contrary comparison too: the slip of a drafter who forgot that it isn't asked.
    TakenAsNo,
}

/// The definitions of one ruleset.
#[derive(Clone, Debug)]
pub struct Theory<'r> {
    ruleset: &'r Ruleset,
    /// For each dimension, the clauses that rule on it.
    speakers: Vec<Vec<ClauseId>>,
    /// For each step, what directly depends on it.
    dependents: Rc<BTreeMap<Step, Vec<Step>>>,
    /// For steps that a world changes, the steps that depend on them.
    downstream: Rc<RefCell<BTreeMap<Step, Downstream>>>,
    /// The edits that names may speak of.
    edits: Edits,
    /// The only clauses that are looked at, where not all are.
    among: Option<FixedBitSet>,
}

/// The steps that something can change.
#[derive(Clone, Debug)]
struct Downstream {
    clauses: FixedBitSet,
    dimensions: FixedBitSet,
}

impl<'r> Theory<'r> {
    /// Takes a ruleset.
    pub fn new(ruleset: &'r Ruleset) -> Self {
        let mut speakers = vec![Vec::new(); ruleset.dimensions.len()];
        let mut dependents: BTreeMap<Step, Vec<Step>> = BTreeMap::new();
        for (index, clause) in ruleset.clauses.iter().enumerate() {
            let id = ClauseId::new(index);
            let step = Step::Clause(id);
            for (dimension, _) in &clause.rulings {
                if let Some(list) = speakers.get_mut(dimension.index()) {
                    list.push(id);
                }
                dependents
                    .entry(step)
                    .or_default()
                    .push(Step::Dimension(*dimension));
            }
            for other in clause.disapplies.iter().chain(&clause.prevails_over) {
                dependents
                    .entry(step)
                    .or_default()
                    .push(Step::Clause(*other));
            }
            for dimension in super::dimensions_read(&clause.when) {
                dependents
                    .entry(Step::Dimension(dimension))
                    .or_default()
                    .push(step);
            }
        }
        for (index, dimension) in ruleset.dimensions.iter().enumerate() {
            for read in dimension
                .required_when
                .iter()
                .flat_map(super::dimensions_read)
            {
                let reader = Step::Dimension(DimensionId::new(index));
                dependents
                    .entry(Step::Dimension(read))
                    .or_default()
                    .push(reader);
            }
        }
        Theory {
            ruleset,
            speakers,
            dependents: Rc::new(dependents),
            downstream: Rc::default(),
            edits: Edits::default(),
            among: None,
        }
    }

    /// The same definitions where no clause but these is met: smaller, and right for any question
    /// that holds only in such scenarios.
    pub fn among(&self, clauses: FixedBitSet) -> Theory<'r> {
        let heard = |list: &Vec<ClauseId>| {
            list.iter()
                .copied()
                .filter(|id| clauses.contains(id.index()))
                .collect()
        };
        Theory {
            ruleset: self.ruleset,
            speakers: self.speakers.iter().map(heard).collect(),
            dependents: Rc::clone(&self.dependents),
            downstream: Rc::clone(&self.downstream),
            edits: self.edits.clone(),
            among: Some(clauses),
        }
    }

    /// Whether the definitions were narrowed to some clauses.
    pub fn is_narrowed(&self) -> bool {
        self.among.is_some()
    }

    /// Every name of the ruleset as it stands, each after the names that its definition uses.
    pub fn actual_names(&self) -> Vec<Name> {
        let ruleset = self.ruleset;
        let world = World::Actual;
        let mut names = Vec::new();
        names.extend(ruleset.asking_order.iter().map(|id| Name::Asked(*id)));
        for term in (0..ruleset.terms.len()).map(TermId::new) {
            let unasked = Unasked::Neither;
            names.extend([
                Name::TermTrue(unasked, term),
                Name::TermFalse(unasked, term),
            ]);
        }
        for step in &ruleset.order {
            match step {
                Step::Clause(clause) => {
                    names.extend([Name::Met(world, *clause), Name::InForce(world, *clause)]);
                }
                Step::Dimension(id) => {
                    let speakers = self.speakers(*id).iter();
                    names.extend(speakers.map(|clause| Name::Stands(world, *clause, *id)));
                    names.extend([Name::Spoken(world, *id), Name::Due(world, *id)]);
                    let values = 0..u8::try_from(ruleset[*id].values.len()).unwrap_or(u8::MAX);
                    names.extend(values.map(|value| Name::Allowed(world, *id, value)));
                    let rest = [Name::Settled, Name::Gap, Name::Clash];
                    names.extend(rest.map(|name| name(world, *id)));
                }
            }
        }
        names
    }

    /// The same definitions with edits of their own.
    pub fn editing(&self, edits: Edits) -> Theory<'r> {
        Theory {
            edits,
            ..self.clone()
        }
    }

    /// Whether the clause can be met where the definitions are right.
    fn is_heard(&self, clause: ClauseId) -> bool {
        self.among
            .as_ref()
            .is_none_or(|clauses| clauses.contains(clause.index()))
    }

    /// The ruleset.
    pub fn ruleset(&self) -> &'r Ruleset {
        self.ruleset
    }

    /// The clauses that rule on a dimension.
    pub fn speakers(&self, dimension: DimensionId) -> &[ClauseId] {
        self.speakers
            .get(dimension.index())
            .map_or(&[], Vec::as_slice)
    }

    /// The clauses whose condition reads a dimension's ruling.
    pub fn readers(&self, dimension: DimensionId) -> impl Iterator<Item = ClauseId> {
        let steps = self
            .dependents
            .get(&Step::Dimension(dimension))
            .into_iter()
            .flatten();
        steps.filter_map(|step| match step {
            Step::Clause(clause) => Some(*clause),
            Step::Dimension(_) => None,
        })
    }

    /// Whether taking the clause away can change a step.
    pub fn depends(&self, step: Step, clause: ClauseId) -> bool {
        self.follows(step, Step::Clause(clause))
    }

    /// Whether a step can change where another does.
    pub fn follows(&self, step: Step, origin: Step) -> bool {
        let mut known = self.downstream.borrow_mut();
        let down = known.entry(origin).or_insert_with(|| self.reach(origin));
        match step {
            Step::Clause(id) => down.clauses.contains(id.index()),
            Step::Dimension(id) => down.dimensions.contains(id.index()),
        }
    }

    /// Whether a step can be another in this world than in the actual one.
    pub fn touches(&self, world: World, step: Step) -> bool {
        match world {
            World::Actual => false,
            World::Without(clause) => self.depends(step, clause),
            World::Edited(id) => self
                .edits
                .get(id)
                .is_some_and(|edit| edit.origins().any(|origin| self.follows(step, origin))),
        }
    }

    /// The steps that are directly others in a world than in the actual one.
    pub fn origins(&self, world: World) -> Vec<Step> {
        match world {
            World::Actual => Vec::new(),
            World::Without(clause) => vec![Step::Clause(clause)],
            World::Edited(id) => self
                .edits
                .get(id)
                .map_or_else(Vec::new, |edit| edit.origins().collect()),
        }
    }

    /// The edits that formulas of these definitions may speak of.
    pub fn edits(&self) -> &Edits {
        &self.edits
    }

    fn edit(&self, world: World) -> Option<Rc<Edit>> {
        match world {
            World::Edited(id) => self.edits.get(id),
            World::Actual | World::Without(_) => None,
        }
    }

    /// The clauses that stand before one.
    fn before(&self, world: World, precedence: Precedence, clause: ClauseId) -> Vec<ClauseId> {
        let stated = match precedence {
            Precedence::Prevails => &self.ruleset[clause].yields_to,
            Precedence::Disapplies => &self.ruleset[clause].disapplied_by,
        };
        let all = match self.edit(world) {
            Some(edit) => edit.before(precedence, clause, stated).into_owned(),
            None => stated.clone(),
        };
        all.into_iter()
            .filter(|other| self.is_heard(*other))
            .collect()
    }

    fn reach(&self, origin: Step) -> Downstream {
        let mut down = Downstream {
            clauses: FixedBitSet::with_capacity(self.ruleset.clauses.len()),
            dimensions: FixedBitSet::with_capacity(self.ruleset.dimensions.len()),
        };
        let mut open = vec![origin];
        while let Some(step) = open.pop() {
            let seen = match step {
                Step::Clause(id) => down.clauses.put(id.index()),
                Step::Dimension(id) => down.dimensions.put(id.index()),
            };
            if !seen {
                open.extend(self.dependents.get(&step).into_iter().flatten().copied());
            }
        }
        down
    }

    /// The world in which a step has to be looked at: the actual one where nothing differs.
    fn local(&self, world: World, step: Step) -> World {
        if self.touches(world, step) {
            world
        } else {
            World::Actual
        }
    }

    /// The same name in the actual world, where an edit changes nothing about it.
    fn as_it_stands(&self, name: Name) -> Option<Name> {
        let (world, step) = match name {
            Name::Asked(_) | Name::Possible | Name::TermTrue(..) | Name::TermFalse(..) => {
                return None;
            }
            Name::Met(world, clause)
            | Name::InForce(world, clause)
            | Name::Stands(world, clause, _) => (world, Step::Clause(clause)),
            Name::Spoken(world, dimension)
            | Name::Due(world, dimension)
            | Name::Gap(world, dimension)
            | Name::Clash(world, dimension)
            | Name::Allowed(world, dimension, _)
            | Name::Settled(world, dimension) => (world, Step::Dimension(dimension)),
        };
        let plain = World::Actual;
        let edited = matches!(world, World::Edited(_));
        (edited && !self.touches(world, step)).then_some(match name {
            Name::Met(_, clause) => Name::Met(plain, clause),
            Name::InForce(_, clause) => Name::InForce(plain, clause),
            Name::Stands(_, clause, dimension) => Name::Stands(plain, clause, dimension),
            Name::Spoken(_, dimension) => Name::Spoken(plain, dimension),
            Name::Due(_, dimension) => Name::Due(plain, dimension),
            Name::Gap(_, dimension) => Name::Gap(plain, dimension),
            Name::Clash(_, dimension) => Name::Clash(plain, dimension),
            Name::Allowed(_, dimension, value) => Name::Allowed(plain, dimension, value),
            Name::Settled(_, dimension) => Name::Settled(plain, dimension),
            other => other,
        })
    }

    fn in_force(&self, world: World, clause: ClauseId) -> Formula {
        Name::InForce(self.local(world, Step::Clause(clause)), clause).into()
    }

    fn stands(&self, world: World, clause: ClauseId, dimension: DimensionId) -> Formula {
        Name::Stands(self.local(world, Step::Clause(clause)), clause, dimension).into()
    }

    /// What a name stands for.
    pub fn define(&self, name: Name) -> Formula {
        if let Some(plain) = self.as_it_stands(name) {
            return plain.into();
        }
        match name {
            Name::Asked(attribute) => self.asked(attribute),
            Name::Possible => {
                Formula::all(self.ruleset.background.iter().map(|line| match &line.rule {
                    BackgroundRule::Never(condition) => is_true(condition, Mode::ACTUAL).negated(),
                    BackgroundRule::Always(condition) => {
                        is_false(condition, Mode::ACTUAL).negated()
                    }
                }))
            }
            Name::TermTrue(unasked, term) => self.term(term, unasked).0,
            Name::TermFalse(unasked, term) => self.term(term, unasked).1,
            Name::Met(World::Without(gone), clause) if gone == clause => Formula::False,
            Name::Met(_, clause) if !self.is_heard(clause) => Formula::False,
            Name::Met(world, clause) => {
                let mode = Mode {
                    world,
                    unasked: Unasked::Neither,
                };
                let edit = self.edit(world);
                match edit.as_ref().and_then(|edit| edit.when(clause)) {
                    Some(when) => is_true(when, mode),
                    None => self.met(clause, mode),
                }
            }
            Name::InForce(world, clause) => {
                let others = self.before(world, Precedence::Disapplies, clause);
                let off = others
                    .into_iter()
                    .map(|other| self.in_force(world, other).negated());
                Formula::all(std::iter::once(Name::Met(world, clause).into()).chain(off))
            }
            Name::Stands(world, clause, dimension) => {
                let above = self.before(world, Precedence::Prevails, clause).into_iter();
                let rivals =
                    above.filter(|other| self.ruleset[*other].ruling_on(dimension).is_some());
                let yields = rivals.map(|other| self.in_force(world, other).negated());
                Formula::all(std::iter::once(Name::InForce(world, clause).into()).chain(yields))
            }
            // Of the clauses in force that rule on it, one that none of the others prevails over stands.
            Name::Spoken(world, dimension) => Formula::any(
                self.speakers(dimension)
                    .iter()
                    .map(|clause| self.in_force(world, *clause))
                    .chain(self.further(world, dimension, &|_| true)),
            ),
            Name::Due(world, dimension) => match &self.ruleset[dimension].required_when {
                Some(condition) => is_true(
                    condition,
                    Mode {
                        world,
                        unasked: Unasked::Neither,
                    },
                ),
                None if self.ruleset[dimension].otherwise.is_none() => Formula::True,
                None => Formula::False,
            },
            Name::Gap(world, dimension) => Formula::all([
                Name::Due(world, dimension).into(),
                Formula::from(Name::Spoken(world, dimension)).negated(),
            ]),
            Name::Clash(world, dimension) => self.clash(world, dimension),
            Name::Allowed(world, dimension, value) => {
                self.allowed(world, dimension, usize::from(value))
            }
            Name::Settled(world, dimension) => self.settled(world, dimension),
        }
    }

    /// Where the clauses that an edit adds on a dimension are met and rule so.
    fn further(
        &self,
        world: World,
        dimension: DimensionId,
        wanted: &dyn Fn(ValueSet) -> bool,
    ) -> Vec<Formula> {
        let mode = Mode {
            world,
            unasked: Unasked::Neither,
        };
        let edit = self.edit(world);
        let added = edit.iter().flat_map(|edit| edit.speaks(dimension));
        added
            .filter(|(_, values)| wanted(*values))
            .map(|(when, _)| is_true(when, mode))
            .collect()
    }

    /// Where the clause's condition is true, read in this mode.
    pub fn met(&self, clause: ClauseId, mode: Mode) -> Formula {
        is_true(&self.ruleset[clause].when, mode)
    }

    fn asked(&self, attribute: AttributeId) -> Formula {
        let this = &self.ruleset[attribute];
        let Origin::Reading(term) = this.origin else {
            let asked_when = this.asked_when.as_ref();
            return asked_when.map_or(Formula::True, |condition| is_true(condition, Mode::ACTUAL));
        };
        match &self.ruleset[term].meaning {
            Meaning::Sharp(_) => Formula::False,
            Meaning::Vague { narrow, broad, .. } => Formula::all([
                is_true(broad, Mode::ACTUAL),
                is_true(narrow, Mode::ACTUAL).negated(),
            ]),
        }
    }

    /// Where a term is true, and where it is false.
    fn term(&self, term: TermId, unasked: Unasked) -> (Formula, Formula) {
        let mode = Mode {
            world: World::Actual,
            unasked,
        };
        match &self.ruleset[term].meaning {
            Meaning::Sharp(condition) => (is_true(condition, mode), is_false(condition, mode)),
            Meaning::Vague {
                narrow,
                broad,
                reading,
            } => {
                let read_broadly = Test::OneOf {
                    attribute: *reading,
                    values: ValueSet::one(1),
                };
                let within = is_true(broad, mode);
                let surely = is_true(narrow, mode);
                let taken = Formula::Holds(read_broadly);
                let holds = Formula::any([
                    surely.clone(),
                    Formula::all([within.clone(), taken.clone()]),
                ]);
                let fails = Formula::all([
                    surely.negated(),
                    Formula::any([
                        is_false(broad, mode),
                        Formula::all([within, taken.negated()]),
                    ]),
                ]);
                (holds, fails)
            }
        }
    }

    fn by_default(world: World, dimension: DimensionId) -> Formula {
        Formula::all([
            Formula::from(Name::Spoken(world, dimension)).negated(),
            Formula::from(Name::Due(world, dimension)).negated(),
        ])
    }

    fn allowed(&self, world: World, dimension: DimensionId, value: usize) -> Formula {
        let this = &self.ruleset[dimension];
        let spoken = self.allowed_by_clauses(world, dimension, this, value);
        let by_default = match this.otherwise {
            Some(values) if values.contains(value) => Self::by_default(world, dimension),
            _ => Formula::False,
        };
        Formula::any([spoken, by_default])
    }

    fn allowed_by_clauses(
        &self,
        world: World,
        id: DimensionId,
        this: &Dimension,
        value: usize,
    ) -> Formula {
        let standing = |wanted_values: &dyn Fn(ValueSet) -> bool| -> Vec<Formula> {
            let clauses = self.speakers(id).iter();
            let wanted = clauses.filter(|clause| {
                let ruling = self.ruleset[**clause].ruling_on(id);
                ruling.is_some_and(wanted_values)
            });
            wanted
                .map(|clause| self.stands(world, *clause, id))
                .chain(self.further(world, id, wanted_values))
                .collect()
        };
        let with_value = |values: ValueSet| values.contains(value);
        let against: Vec<Formula> = match this.when_several {
            WhenSeveral::MustAgree => standing(&|values| !values.contains(value)),
            WhenSeveral::Highest => {
                standing(&|values| values.lowest().is_some_and(|lowest| lowest > value))
            }
            WhenSeveral::Lowest => {
                standing(&|values| values.highest().is_some_and(|highest| highest < value))
            }
            WhenSeveral::AllApply => Vec::new(),
        };
        Formula::all([
            Formula::any(standing(&with_value)),
            Formula::any(against).negated(),
        ])
    }

    fn each_value(&self, world: World, dimension: DimensionId) -> Vec<Formula> {
        let values = 0..self.ruleset[dimension].values.len();
        let name = |value| Name::Allowed(world, dimension, u8::try_from(value).unwrap_or(u8::MAX));
        values.map(|value| name(value).into()).collect()
    }

    fn clash(&self, world: World, dimension: DimensionId) -> Formula {
        if self.ruleset[dimension].when_several != WhenSeveral::MustAgree {
            return Formula::False;
        }
        let some = Formula::any(self.each_value(world, dimension));
        Formula::all([Name::Spoken(world, dimension).into(), some.negated()])
    }

    fn settled(&self, world: World, dimension: DimensionId) -> Formula {
        let this = &self.ruleset[dimension];
        if this.when_several == WhenSeveral::AllApply {
            let by_default = match this.otherwise {
                Some(_) => Self::by_default(world, dimension),
                None => Formula::False,
            };
            return Formula::any([Name::Spoken(world, dimension).into(), by_default]);
        }
        let values = self.each_value(world, dimension);
        Formula::all([
            Formula::any(values.clone()),
            Formula::at_least(2, values).negated(),
        ])
    }
}
