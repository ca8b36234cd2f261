//! Which units of a draft bring a change of rulings about, alone or only together.
//!
//! Each question is about two editions that differ in few clauses, so it is asked where one of these
//! is met; most answers are seen in the scenario that the row shows anyway.

use super::asking::Asking;
use super::changes::{Comparing, Piece, Row, State, differs, state};
use super::joined::Joined;
use crate::logic::{Evaluator, Formula, Outcome};
use crate::model::DimensionId;
use crate::solve::{Answer, Reason};

/// For a unit of a draft, the edition with it alone and the one with all but it, where there are such.
pub(super) type Variant = (Option<usize>, Option<usize>);

/// A row's dimension in the editions that are compared.
struct Dimensions<'a> {
    joined: &'a Joined<'a>,
    name: &'a str,
    before: DimensionId,
    after: DimensionId,
}

impl Dimensions<'_> {
    fn of(&self, edition: Option<usize>) -> Option<DimensionId> {
        edition.and_then(|edition| self.joined.dimension(edition, self.name))
    }
}

impl Comparing<'_, '_> {
    /// Says of a row which units bring it about.
    pub(super) fn attribute(&mut self, row: &mut Row, units: &[Variant]) {
        if let [_] = units {
            row.by = vec![0];
            return;
        }
        let dimension = |edition| self.joined.dimension(edition, &row.dimension);
        let (Some(before), Some(after)) = (dimension(self.before), dimension(self.after)) else {
            return;
        };
        let name = row.dimension.clone();
        let dimensions = Dimensions {
            joined: self.joined,
            name: &name,
            before,
            after,
        };
        let shown = Evaluator::new(&self.joined.ruleset).outcome(&row.scenario);
        let mut open = Vec::new();
        for (unit, variant) in units.iter().enumerate() {
            match self.concerned(row, &shown, *variant, &dimensions) {
                Ok(true) => row.by.push(unit),
                Ok(false) => {}
                Err(reason) => open.push(reason),
            }
        }
        match self.needing_several(row, shown, units, &dimensions) {
            Ok(None) => {}
            Ok(Some(outcome)) => row.together = self.needed(row, &outcome, units, &dimensions),
            Err(reason) => open.push(reason),
        }
        let about = format!("which change brings {name} about");
        self.open
            .extend(open.into_iter().map(|reason| (about.clone(), reason)));
    }

    /// Whether, somewhere in the row, the ruling is another without the unit, or the same with it
    /// alone.
    fn concerned(
        &self,
        row: &Row,
        shown: &Outcome,
        (alone, all_but): Variant,
        dimensions: &Dimensions<'_>,
    ) -> Result<bool, Reason> {
        let (before, after) = (dimensions.before, dimensions.after);
        let without = dimensions.of(all_but).filter(|id| *id != after);
        let alone = dimensions.of(alone).filter(|id| *id != before);
        let is_other = |id: DimensionId| self.ruled(id, shown) != row.to;
        if without.is_some_and(is_other) || alone.is_some_and(|id| !is_other(id)) {
            return Ok(true);
        }
        let ruleset = &self.joined.ruleset;
        let without = without.and_then(|id| {
            let place = self.apart(id, after)?;
            Some((place, differs(ruleset, id, after)))
        });
        // Where the unit alone changes nothing, the ruling is not the one after.
        let alone = alone.and_then(|id| {
            let same = differs(ruleset, id, after).negated();
            Some((self.apart(before, id)?, same))
        });
        let mut open = None;
        for (place, question) in without.into_iter().chain(alone) {
            match ask(self.asking, row, place, &question) {
                Answer::Yes(_) => return Ok(true),
                Answer::No => {}
                Answer::Undecided(reason) => open = Some(reason),
            }
        }
        open.map_or(Ok(false), Err)
    }

    /// What is ruled in a scenario of the row in which no unit alone brings it about, if there is one.
    fn needing_several(
        &self,
        row: &Row,
        shown: Outcome,
        units: &[Variant],
        dimensions: &Dimensions<'_>,
    ) -> Result<Option<Outcome>, Reason> {
        let alone = units.iter().filter_map(|(alone, _)| dimensions.of(*alone));
        let alone: Vec<DimensionId> = alone.collect();
        if alone.iter().all(|id| self.ruled(*id, &shown) != row.to) {
            return Ok(Some(shown));
        }
        let (ruleset, after) = (&self.joined.ruleset, dimensions.after);
        let places: Option<Vec<Piece>> = alone.iter().map(|id| self.apart(*id, after)).collect();
        // With one of them alone the ruling is always as it is after.
        let Some(place) = places.and_then(|places| places.into_iter().reduce(Piece::and)) else {
            return Ok(None);
        };
        let fails = alone.iter().map(|id| differs(ruleset, *id, after));
        match ask(self.asking, row, place, &Formula::all(fails)) {
            Answer::Yes(scenario) => Ok(Some(Evaluator::new(ruleset).outcome(&scenario))),
            Answer::No => Ok(None),
            Answer::Undecided(reason) => Err(reason),
        }
    }

    /// The units without which another ruling is given. Where none is needed, since a draft does the same
    /// twice, all that do anything to the rulings on the dimension.
    fn needed(
        &self,
        row: &Row,
        outcome: &Outcome,
        units: &[Variant],
        dimensions: &Dimensions<'_>,
    ) -> Vec<usize> {
        let chosen = |acts: &dyn Fn(&Variant) -> bool| -> Vec<usize> {
            let all = units.iter().enumerate();
            let chosen = all.filter(|(_, variant)| acts(variant));
            chosen.map(|(unit, _)| unit).collect()
        };
        let needed = chosen(&|(_, all_but)| {
            let without = dimensions.of(*all_but);
            without.is_some_and(|id| self.ruled(id, outcome) != row.to)
        });
        if !needed.is_empty() {
            return needed;
        }
        chosen(&|(alone, all_but)| {
            dimensions.of(*alone) != Some(dimensions.before)
                || dimensions.of(*all_but) != Some(dimensions.after)
        })
    }

    fn ruled(&self, dimension: DimensionId, outcome: &Outcome) -> State {
        state(&self.joined.ruleset, dimension, outcome)
    }
}

/// Is there a scenario of a row in which something holds that holds only in some place?
fn ask(asking: &Asking<'_>, row: &Row, place: Piece, question: &Formula) -> Answer {
    let Piece { guard, mut among } = place;
    among.intersect_with(&row.among);
    if let Some(set) = &row.set {
        let question = Formula::all([guard, question.clone()]);
        asking.ask_within(set, &row.formula, &among, &question)
    } else {
        let question = Formula::all([guard, row.formula.clone(), question.clone()]);
        asking.ask(&among, &question)
    }
}
