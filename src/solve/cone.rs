//! What a question rests on: the definitions and attributes below it, and no more.

use crate::logic::{Formula, Name, Theory};
use crate::model::{AttributeId, Origin, Ruleset};
use std::collections::BTreeSet;

/// All that a question rests on, the background included.
pub(super) struct Cone {
    /// The attributes whose value matters.
    pub(super) attributes: BTreeSet<AttributeId>,
    /// The names with their definitions, each after the names that its definition uses.
    pub(super) definitions: Vec<(Name, Formula)>,
}

/// Collects what a question rests on. Goes by a list, not by recursion from clause to clause: a
/// chain of clauses may be as long as the rulebook.
pub(super) fn cone(theory: &Theory<'_>, question: &Formula) -> Cone {
    enum Visit {
        Enter(Name),
        Leave(Name, Formula),
    }
    let mut cone = Cone {
        attributes: BTreeSet::new(),
        definitions: Vec::new(),
    };
    let mut seen = BTreeSet::new();
    let mut open = vec![Visit::Enter(Name::Possible)];
    let enter = |formula: &Formula, cone: &mut Cone, open: &mut Vec<Visit>| {
        let (mut names, mut attributes) = (BTreeSet::new(), BTreeSet::new());
        mentions(formula, &mut names, &mut attributes);
        let read = attributes.iter().copied();
        let asked = read.filter_map(|attribute| sometimes_asked(theory.ruleset(), attribute));
        open.extend(names.into_iter().chain(asked).map(Visit::Enter));
        cone.attributes.extend(attributes);
    };
    enter(question, &mut cone, &mut open);
    while let Some(visit) = open.pop() {
        match visit {
            Visit::Enter(name) => {
                if seen.insert(name) {
                    let definition = theory.define(name);
                    open.push(Visit::Leave(name, definition.clone()));
                    if let Name::Asked(attribute) = name {
                        cone.attributes.insert(attribute);
                    }
                    enter(&definition, &mut cone, &mut open);
                }
            }
            Visit::Leave(name, definition) => cone.definitions.push((name, definition)),
        }
    }
    cone
}

/// The name that says whether the attribute is asked; none where it always is.
pub(super) fn sometimes_asked(ruleset: &Ruleset, attribute: AttributeId) -> Option<Name> {
    let this = &ruleset[attribute];
    let always = this.asked_when.is_none() && this.origin == Origin::Stated;
    (!always).then_some(Name::Asked(attribute))
}

fn mentions(formula: &Formula, names: &mut BTreeSet<Name>, attributes: &mut BTreeSet<AttributeId>) {
    match formula {
        Formula::True | Formula::False => {}
        Formula::Holds(test) | Formula::Fails(test) => attributes.extend(test.attributes()),
        Formula::Named(name) => {
            names.insert(*name);
        }
        Formula::Not(part) => mentions(part, names, attributes),
        Formula::All(parts) | Formula::Any(parts) | Formula::AtLeast(_, parts) => {
            for part in parts {
                mentions(part, names, attributes);
            }
        }
    }
}
