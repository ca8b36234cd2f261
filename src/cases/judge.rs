//! One case against the text: whether what was ruled is what the text says on the facts noted.

use super::book::{Case, Found, Ruled};
use super::officials::{Difference, as_seen_by, differences};
use super::text_says::{Possible, TextSays};
use crate::logic::{Basis, Ruling};
use crate::model::{ClauseId, DimensionId, Ruleset};
use crate::read::draft::WhenSeveral;
use crate::solve::{Budget, Reason};
use std::collections::BTreeMap;

/// How what was ruled on one dimension stands to the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stance {
    /// The text says so, whatever else may have been the case.
    Agrees,
    /// The text leaves it to discretion, and it is one of the rulings left open.
    WithinDiscretion,
    /// The text does not say so, whatever else may have been the case.
    Disagrees,
    /// It depends on facts that are not established.
    NeedsFacts,
    /// The text contradicts itself here.
    Contradiction,
    /// The text gives no ruling here, and one is due.
    Gap,
    /// It could not be found out.
    Undecided(Reason),
}

impl Stance {
    /// Whether the text bears the ruling out.
    pub fn is_agreement(&self) -> bool {
        matches!(self, Stance::Agrees | Stance::WithinDiscretion)
    }
}

/// What was ruled on a dimension, and what the text says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnDimension {
    /// Whose ruling it is, where the case has none of its own and its officials are heard instead.
    pub by: Option<String>,
    /// The dimension.
    pub dimension: DimensionId,
    /// What was ruled.
    pub ruled: Ruled,
    /// The rulings that the text may give on the facts noted.
    pub possible: Vec<Ruling>,
    /// How the one stands to the other.
    pub stance: Stance,
}

impl OnDimension {
    /// Whether some incident has the facts, as far as was found out.
    fn is_possible(&self) -> bool {
        !self.possible.is_empty() || matches!(self.stance, Stance::Undecided(_))
    }
}

/// What is wrong with a clause that a ruling cited.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cited {
    /// The ruleset has no such clause.
    Gone(String),
    /// On the facts noted it is not in force.
    NotInForce(ClauseId),
    /// On the facts noted it is in force, but others prevail over all that it rules.
    Displaced(ClauseId),
}

/// A case against the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// Whether some incident has all the facts noted; where none has, nothing else is said.
    pub is_possible: bool,
    /// What was ruled, in the order of the dimensions; where the case has no ruling of its own, what
    /// each official ruled, held against the facts as that official saw them.
    pub on: Vec<OnDimension>,
    /// What is wrong with the clauses cited.
    pub cited: Vec<Cited>,
    /// Where several officials ruled differently.
    pub differences: Vec<Difference>,
}

impl Judged {
    /// Whether the case disagrees with the text: another ruling, or facts that no incident has.
    pub fn disagrees(&self) -> bool {
        !self.is_possible || self.on.iter().any(|it| it.stance == Stance::Disagrees)
    }

    /// Whether everything that was ruled is borne out, and something was.
    pub fn agrees(&self) -> bool {
        let mut on = self.on.iter();
        self.is_possible && !self.on.is_empty() && on.all(|it| it.stance.is_agreement())
    }
}

/// Holds cases against the text of a ruleset.
pub struct Judge<'r> {
    ruleset: &'r Ruleset,
    text: TextSays<'r>,
    clauses: BTreeMap<&'r str, ClauseId>,
}

impl<'r> Judge<'r> {
    /// Takes a ruleset.
    pub fn new(ruleset: &'r Ruleset, budget: Budget) -> Self {
        let ids = (0..ruleset.clauses.len()).map(ClauseId::new);
        Judge {
            ruleset,
            text: TextSays::new(ruleset, budget),
            clauses: ids.map(|id| (ruleset[id].id.as_str(), id)).collect(),
        }
    }

    /// The ruleset.
    pub fn ruleset(&self) -> &'r Ruleset {
        self.ruleset
    }

    /// What the text says.
    pub fn text(&mut self) -> &mut TextSays<'r> {
        &mut self.text
    }

    /// Holds a case against the text.
    pub fn judge(&mut self, case: &Case) -> Judged {
        let says = self.text.on(&case.found.facts);
        let mut on = Vec::new();
        if case.found.ruled.is_empty() {
            for (name, official) in &case.officials {
                let facts = as_seen_by(case, official, self.ruleset);
                let says = self.text.on(&facts);
                on.extend(self.held(Some(name), &says, official));
            }
        } else {
            on = self.held(None, &says, &case.found);
        }
        let differences = if case.officials.len() > 1 {
            differences(self.ruleset, &mut self.text, case)
        } else {
            Vec::new()
        };
        let mut cited = self.cited(&case.found, &says);
        for official in case.officials.values() {
            let facts = as_seen_by(case, official, self.ruleset);
            let says = self.text.on(&facts);
            cited.extend(self.cited(official, &says));
        }
        cited.sort();
        cited.dedup();
        Judged {
            is_possible: says.is_possible() && on.iter().all(OnDimension::is_possible),
            on,
            cited,
            differences,
        }
    }

    /// What was ruled, held against what the text may say on the same facts.
    fn held(&self, by: Option<&String>, says: &Possible, found: &Found) -> Vec<OnDimension> {
        let ruled = found.ruled.iter().map(|(dimension, ruled)| {
            let possible = says.on(*dimension);
            OnDimension {
                by: by.cloned(),
                dimension: *dimension,
                ruled: *ruled,
                stance: match &says.open {
                    Some(reason) => Stance::Undecided(reason.clone()),
                    None => stance(self.ruleset, *dimension, *ruled, possible),
                },
                possible: possible.to_vec(),
            }
        });
        ruled.collect()
    }

    /// What is wrong with the clauses that a ruling cited.
    fn cited(&self, found: &Found, says: &Possible) -> Vec<Cited> {
        let wrong = found.clauses.iter().filter_map(|id| {
            let Some(clause) = self.clauses.get(id.as_str()).copied() else {
                return Some(Cited::Gone(id.clone()));
            };
            let outcome = says.outcome.as_ref()?;
            if !outcome.in_force.contains(clause.index()) {
                return Some(Cited::NotInForce(clause));
            }
            let mut ruled = self.ruleset[clause].rulings.iter().map(|(on, _)| *on);
            let displaced = ruled.len() > 0 && ruled.all(|on| !outcome.stands(clause, on));
            displaced.then_some(Cited::Displaced(clause))
        });
        wrong.collect()
    }
}

/// How a ruling stands to the rulings that the text may give.
pub(super) fn stance(
    ruleset: &Ruleset,
    dimension: DimensionId,
    ruled: Ruled,
    possible: &[Ruling],
) -> Stance {
    if possible.is_empty() {
        return Stance::Disagrees;
    }
    let all_apply = ruleset[dimension].when_several == WhenSeveral::AllApply;
    let gives = |ruling: &Ruling| match ruling.basis {
        Basis::Contradiction | Basis::Gap => None,
        Basis::Silence => Some(all_apply && ruled.is_empty()),
        Basis::Clauses | Basis::Default if all_apply => Some(ruling.values == ruled),
        Basis::Clauses | Basis::Default => Some(ruled.iter().all(|it| ruling.values.contains(it))),
    };
    let given: Vec<Option<bool>> = possible.iter().map(gives).collect();
    if given.iter().all(|it| *it == Some(true)) {
        let open = possible
            .iter()
            .any(|ruling| !all_apply && ruling.values.len() > 1);
        return if open {
            Stance::WithinDiscretion
        } else {
            Stance::Agrees
        };
    }
    if given.iter().all(|it| *it == Some(false)) {
        return Stance::Disagrees;
    }
    let all = |basis| possible.iter().all(|ruling: &Ruling| ruling.basis == basis);
    if all(Basis::Contradiction) {
        Stance::Contradiction
    } else if all(Basis::Gap) {
        Stance::Gap
    } else {
        Stance::NeedsFacts
    }
}
