//! What it is for a thing to come out otherwise, as a formula over two scenarios.

use super::network::Thing;
use crate::cases::{Case, Found};
use crate::logic::{Established, Formula, Mode, Name, Twin, Unasked, World, is_false, is_true};
use crate::model::{
    BackgroundRule, ClauseId, ConditionKind, DimensionId, Gain, Promise, QuantityValue, Ruleset,
    Test, ValueSet,
};
use std::collections::BTreeMap;

/// Where a thing does not come out the same in both scenarios of a pair.
pub(super) fn otherwise(twin: &Twin, ruleset: &Ruleset, thing: Thing, cases: &[Case]) -> Formula {
    let differs = |formula: Formula| {
        let second = twin.second_formula(&formula);
        either(formula, second)
    };
    match thing {
        Thing::Attribute(id) => differs(Name::Asked(id).into()),
        Thing::Term(id) => Formula::any([
            differs(Name::TermTrue(Unasked::Neither, id).into()),
            differs(Name::TermFalse(Unasked::Neither, id).into()),
        ]),
        Thing::Quantity(index) => {
            let quantity = ruleset.quantities.get(index).map(|it| &it.value);
            let Some(QuantityValue::Column { by, cells }) = quantity else {
                return Formula::False;
            };
            let mut amounts: BTreeMap<String, ValueSet> = BTreeMap::new();
            for (row, cell) in cells.iter().enumerate() {
                let rows = amounts.entry(format!("{cell:?}")).or_default();
                *rows = rows.with(row);
            }
            Formula::any(amounts.into_values().map(|values| {
                differs(Formula::Holds(Test::OneOf {
                    attribute: *by,
                    values,
                }))
            }))
        }
        Thing::Clause(id) => {
            let rulings = &ruleset[id].rulings;
            if rulings.is_empty() {
                return differs(Name::InForce(World::Actual, id).into());
            }
            let rulings = rulings.iter();
            Formula::any(
                rulings.map(|(on, _)| differs(Name::Stands(World::Actual, id, *on).into())),
            )
        }
        Thing::Dimension(id) => ruling_differs(twin, ruleset, id),
        Thing::Background(index) => match ruleset.background.get(index).map(|it| &it.rule) {
            Some(BackgroundRule::Never(condition)) => differs(is_true(condition, Mode::ACTUAL)),
            Some(BackgroundRule::Always(condition)) => differs(is_false(condition, Mode::ACTUAL)),
            None => Formula::False,
        },
        Thing::Principle(index) => ruleset
            .principles
            .get(index)
            .map_or(Formula::False, |it| promise(twin, ruleset, &it.promise)),
        Thing::Case(index) => cases
            .get(index)
            .map_or(Formula::False, |it| case(twin, ruleset, it)),
    }
}

/// Where the ruling of a dimension is not the same in both.
fn ruling_differs(twin: &Twin, ruleset: &Ruleset, id: DimensionId) -> Formula {
    let world = World::Actual;
    let values = 0..u8::try_from(ruleset[id].values.len()).unwrap_or(u8::MAX);
    let allowed = values.map(|value| Name::Allowed(world, id, value));
    let names = allowed.chain([
        Name::Settled(world, id),
        Name::Gap(world, id),
        Name::Clash(world, id),
    ]);
    Formula::any(names.map(|name| {
        let first = Formula::from(name);
        let second = twin.second_formula(&first);
        either(first, second)
    }))
}

/// Where a principle does not apply in both, or applies and a ruling that it speaks of is not the
/// same.
fn promise(twin: &Twin, ruleset: &Ruleset, promise: &Promise) -> Formula {
    let rulings =
        |ids: &[DimensionId]| Formula::any(ids.iter().map(|id| ruling_differs(twin, ruleset, *id)));
    match promise {
        Promise::Expect { whenever, expect } => {
            let first = is_true(whenever, Mode::ACTUAL);
            let second = twin.second_formula(&first);
            let expected = [
                is_true(expect, Mode::ACTUAL),
                is_false(expect, Mode::ACTUAL),
            ];
            let expected = expected.map(|first| {
                let second = twin.second_formula(&first);
                either(first, second)
            });
            let spoken = rulings(&crate::logic::dimensions_read(expect));
            Formula::any([
                either(first.clone(), second.clone()),
                Formula::all([
                    first,
                    second,
                    Formula::any(expected.into_iter().chain([spoken])),
                ]),
            ])
        }
        Promise::ImpartialTo(_) => {
            let all = (0..ruleset.dimensions.len()).map(DimensionId::new);
            let announced: Vec<DimensionId> = all.filter(|id| !ruleset[*id].intermediate).collect();
            rulings(&announced)
        }
        Promise::RisesWith { dimension, .. } => rulings(&[*dimension]),
        Promise::NoGain { by, gain, .. } => {
            let spoken = match gain {
                Gain::Raising(dimension) | Gain::Lowering(dimension) => vec![*dimension],
                Gain::To(condition) => crate::logic::dimensions_read(condition),
            };
            let step = by.as_ref().map(|by| {
                let first = is_true(by, Mode::ACTUAL);
                let second = twin.second_formula(&first);
                either(first, second)
            });
            Formula::any(step.into_iter().chain([rulings(&spoken)]))
        }
    }
}

/// Where both have the facts of a case, and a ruling that it notes, or the standing of a clause that
/// it cites, is not the same.
fn case(twin: &Twin, ruleset: &Ruleset, case: &Case) -> Formula {
    let one = |facts: &Established, found: &Found| {
        let first = facts.formula(ruleset);
        let second = twin.second_formula(&first);
        let noted = found.ruled.iter().map(|(on, _)| *on);
        let noted = noted.map(|on| ruling_differs(twin, ruleset, on));
        let cited = found.clauses.iter().filter_map(|cited| {
            let index = ruleset.clauses.iter().position(|it| it.id == *cited)?;
            Some(otherwise(
                twin,
                ruleset,
                Thing::Clause(ClauseId::new(index)),
                &[],
            ))
        });
        Formula::all([first, second, Formula::any(noted.chain(cited))])
    };
    let own = one(&case.found.facts, &case.found);
    let officials = case.officials.values().map(|official| {
        let facts = crate::cases::as_seen_by(case, official, ruleset);
        one(&facts, official)
    });
    Formula::any(std::iter::once(own).chain(officials))
}

/// Where exactly one of the two holds.
fn either(one: Formula, other: Formula) -> Formula {
    if one == other {
        return Formula::False;
    }
    Formula::any([
        Formula::all([one.clone(), other.clone().negated()]),
        Formula::all([one.negated(), other]),
    ])
}

/// Whether a principle or a case speaks of a dimension's ruling itself, so that it changes with it by
/// what it is.
pub(super) fn speaks_of(ruleset: &Ruleset, thing: Thing, on: DimensionId, cases: &[Case]) -> bool {
    match thing {
        Thing::Principle(index) => {
            let promise = ruleset.principles.get(index).map(|it| &it.promise);
            promise.is_some_and(|promise| match promise {
                // Its condition reads the ruling, which is varied there.
                Promise::Expect { .. } => false,
                Promise::ImpartialTo(_) => !ruleset[on].intermediate,
                Promise::RisesWith { dimension, .. } => *dimension == on,
                Promise::NoGain { gain, .. } => match gain {
                    Gain::Raising(dimension) | Gain::Lowering(dimension) => *dimension == on,
                    Gain::To(condition) => {
                        let mut reads = false;
                        condition.each_part(&mut |part| {
                            reads |= matches!(&part.kind, ConditionKind::Ruling { dimension, .. } if *dimension == on);
                        });
                        reads
                    }
                },
            })
        }
        Thing::Case(index) => cases.get(index).is_some_and(|case| {
            let mut all = std::iter::once(&case.found).chain(case.officials.values());
            all.any(|found| found.on(on).is_some())
        }),
        _ => false,
    }
}
