//! What everything is called: the names by which recorded clauses are compared with these rules.

use super::worlds::World;
use super::{Rules, Side, Thing, Unasked};
use crate::model::{AttributeId, AttributeKind, ClauseId, DimensionId, Origin, Unit};

impl Rules<'_> {
    pub(super) fn words(&self, thing: &Thing) -> String {
        let rules = self.ruleset;
        let left = |world: &World| match world {
            World::Without(clause) => format!("without {:?}: ", rules[*clause].id),
            World::Changed(place) => {
                let change = self.changes.get(*place);
                change.map_or(String::new(), |change| change.words.clone())
            }
            World::Now | World::Second => String::new(),
        };
        let called = |name: &str, world: World| match world {
            World::Second => format!("{name} in the second"),
            _ => name.to_owned(),
        };
        let of = |world: &World, attribute: &AttributeId| called(&rules[*attribute].name, *world);
        let id = |world: &World, clause: &ClauseId| {
            let world = self.world_of_clause(*world, *clause);
            format!("{:?}", called(&rules[*clause].id, world))
        };
        let on = |world: &World, dimension: &DimensionId| called(&rules[*dimension].name, *world);
        match thing {
            Thing::HasValue(world, attribute) => {
                let reading = matches!(rules[*attribute].origin, Origin::Reading(_));
                let end = if reading {
                    "is open to reading"
                } else {
                    "has a value"
                };
                format!("{} {end}", of(world, attribute))
            }
            Thing::Background => "the background is kept".to_owned(),
            Thing::Term(world, term, side, unasked) => {
                let side = if *side == Side::True { "true" } else { "false" };
                let end = match unasked {
                    Unasked::Neither => "",
                    Unasked::No => " with the unasked taken as no",
                };
                format!("{} is {side}{end}", called(&rules[*term].name, *world))
            }
            Thing::Met(out, clause) => left(out) + &id(out, clause) + " is met",
            Thing::InForce(out, clause) => left(out) + &id(out, clause) + " is in force",
            Thing::Stands(out, clause, dimension) => {
                left(out) + &id(out, clause) + " stands on " + &on(out, dimension)
            }
            Thing::Speaks(out, dimension) => {
                left(out) + "a clause speaks on " + &on(out, dimension)
            }
            Thing::Due(out, dimension) => {
                left(out) + "silence on " + &on(out, dimension) + " is a gap"
            }
            Thing::Gap(out, dimension) => left(out) + "there is a gap in " + &on(out, dimension),
            Thing::Clash(out, dimension) => left(out) + "rulings clash on " + &on(out, dimension),
            Thing::Settled(out, dimension) => left(out) + &on(out, dimension) + " is settled",
            Thing::MayBe(out, dimension, value) => {
                let value = rules[*dimension].values.get(*value);
                let value = value.map_or("", |value| value.name.as_str());
                left(out) + &on(out, dimension) + " may come out as " + value
            }
            Thing::Value(world, attribute, value) => {
                let this = &rules[*attribute];
                let name = of(world, attribute);
                let named = || {
                    let index = usize::try_from(*value).unwrap_or(usize::MAX);
                    this.kind
                        .names()
                        .get(index)
                        .map_or("", |value| value.name.as_str())
                };
                match &this.kind {
                    AttributeKind::YesNo if matches!(this.origin, Origin::Reading(_)) => {
                        format!("{name} is read broadly")
                    }
                    AttributeKind::YesNo => name,
                    AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
                        format!("{name} is {}", named())
                    }
                    AttributeKind::Several(_) => format!("{name} includes {}", named()),
                    AttributeKind::Number(range) => {
                        let amount = range.value(*value).to_string();
                        let unit = match &range.unit {
                            Unit::None => String::new(),
                            unit @ Unit::Named(_) => format!(" {unit}"),
                        };
                        format!("{name} at least {amount}{unit}")
                    }
                }
            }
            Thing::Sum(parts, bound) => {
                let summed: Vec<String> = parts
                    .iter()
                    .map(|(weight, world, attribute)| {
                        format!("{weight} * steps of {}", of(world, attribute))
                    })
                    .collect();
                summed.join(" + ") + " at most " + &bound.to_string()
            }
        }
    }

    /// The thing as it is called: of a second scenario only what stands twice is another there.
    pub(super) fn once(&self, thing: Thing) -> Thing {
        match thing {
            Thing::Background => Thing::Background,
            Thing::HasValue(world, attribute) => {
                Thing::HasValue(self.world_of_attribute(world, attribute), attribute)
            }
            Thing::Value(world, attribute, value) => {
                Thing::Value(self.world_of_attribute(world, attribute), attribute, value)
            }
            Thing::Sum(parts, bound) => Thing::Sum(parts, bound),
            Thing::Term(world, term, side, unasked) => {
                Thing::Term(self.world_of_term(world, term), term, side, unasked)
            }
            Thing::Met(world, clause) => Thing::Met(self.world_of_clause(world, clause), clause),
            Thing::InForce(world, clause) => {
                Thing::InForce(self.world_of_clause(world, clause), clause)
            }
            Thing::Stands(world, clause, on) => {
                Thing::Stands(self.world_of_dimension(world, on), clause, on)
            }
            Thing::Speaks(world, on) => Thing::Speaks(self.world_of_dimension(world, on), on),
            Thing::Due(world, on) => Thing::Due(self.world_of_dimension(world, on), on),
            Thing::Gap(world, on) => Thing::Gap(self.world_of_dimension(world, on), on),
            Thing::Clash(world, on) => Thing::Clash(self.world_of_dimension(world, on), on),
            Thing::Settled(world, on) => Thing::Settled(self.world_of_dimension(world, on), on),
            Thing::MayBe(world, on, value) => {
                Thing::MayBe(self.world_of_dimension(world, on), on, value)
            }
        }
    }
}
