//! Conditions in three truth values, each as a pair of statements.

use super::worlds::World;
use super::{Rules, Side, Statement, Thing, Unasked, at_least};
use crate::model::{Condition, ConditionKind, DimensionId, Meaning, RulingTest, TermId, ValueSet};

/// That something is true, and that it is false; both fail where it is neither.
pub(super) struct Truth {
    pub(super) yes: Statement,
    pub(super) no: Statement,
}

impl Rules<'_> {
    /// The truth of a condition that reads no ruling, as the language has it.
    pub(super) fn plain(&mut self, condition: &Condition, world: World) -> Truth {
        self.truth(condition, Unasked::Neither, world)
    }

    pub(super) fn truth(&mut self, condition: &Condition, unasked: Unasked, world: World) -> Truth {
        match &condition.kind {
            ConditionKind::Always => Truth {
                yes: Statement::Always,
                no: Statement::Never,
            },
            ConditionKind::Missing(_) => Truth {
                yes: Statement::Never,
                no: Statement::Never,
            },
            ConditionKind::Fact { test, positive } => {
                let so = self.comparison(test, world);
                let (so, other) = if *positive {
                    (so.clone(), Statement::not(so))
                } else {
                    (Statement::not(so.clone()), so)
                };
                let yes = self.where_asked(test, so, world);
                let no = match unasked {
                    Unasked::Neither => self.where_asked(test, other, world),
                    Unasked::No => Statement::not(yes.clone()),
                };
                Truth { yes, no }
            }
            ConditionKind::Ruling {
                dimension,
                test,
                positive,
            } => {
                if let Some(choice) = self.chosen.get(dimension).copied() {
                    return as_chosen(choice, test, *positive);
                }
                let settled = self.thing(Thing::Settled(world, *dimension));
                let says = self.ruling(*dimension, test, world);
                let so = Statement::All(vec![settled.clone(), says.clone()]);
                let not_so = Statement::All(vec![settled, Statement::not(says)]);
                if *positive {
                    Truth {
                        yes: so,
                        no: not_so,
                    }
                } else {
                    Truth {
                        yes: not_so,
                        no: so,
                    }
                }
            }
            ConditionKind::Term(term) => Truth {
                yes: self.thing(Thing::Term(world, *term, Side::True, unasked)),
                no: self.thing(Thing::Term(world, *term, Side::False, unasked)),
            },
            ConditionKind::Not(inner) => {
                let inner = self.truth(inner, unasked, world);
                Truth {
                    yes: inner.no,
                    no: inner.yes,
                }
            }
            ConditionKind::NotTrue(inner) => {
                let inner = self.truth(inner, unasked, world);
                Truth {
                    yes: Statement::not(inner.yes.clone()),
                    no: inner.yes,
                }
            }
            ConditionKind::All(parts) => {
                let (yes, no) = self.truths(parts, unasked, world);
                Truth {
                    yes: Statement::All(yes),
                    no: Statement::Any(no),
                }
            }
            ConditionKind::Any(parts) => {
                let (yes, no) = self.truths(parts, unasked, world);
                Truth {
                    yes: Statement::Any(yes),
                    no: Statement::All(no),
                }
            }
            ConditionKind::Count { least, most, of } => {
                let (yes, no) = self.truths(of, unasked, world);
                let (least, most, all) = (*least as usize, *most as usize, of.len());
                // However the parts that are neither might fall.
                let enough = at_least(least, &yes);
                let not_more = at_least(all.saturating_sub(most), &no);
                let too_few = at_least((all + 1).saturating_sub(least), &no);
                let too_many = at_least(most.saturating_add(1), &yes);
                Truth {
                    yes: Statement::All(vec![enough, not_more]),
                    no: Statement::Any(vec![too_few, too_many]),
                }
            }
        }
    }

    fn truths(
        &mut self,
        parts: &[Condition],
        unasked: Unasked,
        world: World,
    ) -> (Vec<Statement>, Vec<Statement>) {
        let truths = parts.iter().map(|part| self.truth(part, unasked, world));
        truths.map(|truth| (truth.yes, truth.no)).unzip()
    }

    pub(super) fn term(&mut self, term: TermId, unasked: Unasked, world: World) -> Truth {
        let rules = self.ruleset;
        match &rules[term].meaning {
            Meaning::Sharp(condition) => self.truth(condition, unasked, world),
            Meaning::Vague {
                narrow,
                broad,
                reading,
            } => {
                let narrow = self.truth(narrow, unasked, world);
                let broad = self.truth(broad, unasked, world);
                let read = self.thing(Thing::Value(world, *reading, 1));
                let open = self.has_value(*reading, world);
                let taken = Statement::All(vec![open, read]);
                let between = |taken| Statement::All(vec![broad.yes.clone(), taken]);
                Truth {
                    yes: Statement::Any(vec![narrow.yes.clone(), between(taken.clone())]),
                    no: Statement::All(vec![
                        Statement::not(narrow.yes.clone()),
                        Statement::Any(vec![broad.no.clone(), between(Statement::not(taken))]),
                    ]),
                }
            }
        }
    }

    fn ruling(&mut self, dimension: DimensionId, test: &RulingTest, world: World) -> Statement {
        let mut named = |values: &ValueSet| -> Vec<Statement> {
            let values = values.iter();
            values
                .map(|value| self.thing(Thing::MayBe(world, dimension, value)))
                .collect()
        };
        match test {
            RulingTest::OneOf(values) => Statement::Any(named(values)),
            RulingTest::Includes { items, least, most } => {
                let items = named(items);
                let over = at_least((*most as usize).saturating_add(1), &items);
                Statement::All(vec![
                    at_least(*least as usize, &items),
                    Statement::not(over),
                ])
            }
        }
    }
}

/// A comparison of a ruling that was chosen; without a ruling it is neither.
fn as_chosen(choice: Option<usize>, test: &RulingTest, positive: bool) -> Truth {
    let so = match (choice, test) {
        (Some(value), RulingTest::OneOf(values)) => values.contains(value) == positive,
        (None, _) | (Some(_), RulingTest::Includes { .. }) => {
            return Truth {
                yes: Statement::Never,
                no: Statement::Never,
            };
        }
    };
    let [yes, no] = [so, !so].map(|so| {
        if so {
            Statement::Always
        } else {
            Statement::Never
        }
    });
    Truth { yes, no }
}
