//! What everything is called: the names by which recorded clauses are compared with these rules.

use super::{Left, Rules, Side, Thing, Unasked};
use crate::model::{AttributeKind, ClauseId, DimensionId, Origin, Unit};

impl Rules<'_> {
    pub(super) fn words(&self, thing: &Thing) -> String {
        let rules = self.ruleset;
        let left = |left: &Left| match left {
            Some(clause) => format!("without {:?}: ", rules[*clause].id),
            None => String::new(),
        };
        let id = |clause: &ClauseId| format!("{:?}", rules[*clause].id);
        let on = |dimension: &DimensionId| rules[*dimension].name.clone();
        match thing {
            Thing::HasValue(attribute) => {
                let reading = matches!(rules[*attribute].origin, Origin::Reading(_));
                let end = if reading {
                    "is open to reading"
                } else {
                    "has a value"
                };
                format!("{} {end}", rules[*attribute].name)
            }
            Thing::Background => "the background is kept".to_owned(),
            Thing::Term(term, side, unasked) => {
                let side = if *side == Side::True { "true" } else { "false" };
                let end = match unasked {
                    Unasked::Neither => "",
                    Unasked::No => " with the unasked taken as no",
                };
                format!("{} is {side}{end}", rules[*term].name)
            }
            Thing::Met(out, clause) => left(out) + &id(clause) + " is met",
            Thing::InForce(out, clause) => left(out) + &id(clause) + " is in force",
            Thing::Stands(out, clause, dimension) => {
                left(out) + &id(clause) + " stands on " + &on(dimension)
            }
            Thing::Speaks(out, dimension) => left(out) + "a clause speaks on " + &on(dimension),
            Thing::Due(out, dimension) => left(out) + "silence on " + &on(dimension) + " is a gap",
            Thing::Gap(out, dimension) => left(out) + "there is a gap in " + &on(dimension),
            Thing::Clash(out, dimension) => left(out) + "rulings clash on " + &on(dimension),
            Thing::Settled(out, dimension) => left(out) + &on(dimension) + " is settled",
            Thing::MayBe(out, dimension, value) => {
                let value = rules[*dimension].values.get(*value);
                let value = value.map_or("", |value| value.name.as_str());
                left(out) + &on(dimension) + " may come out as " + value
            }
            Thing::Value(attribute, value) => {
                let this = &rules[*attribute];
                let named = || {
                    let index = usize::try_from(*value).unwrap_or(usize::MAX);
                    this.kind
                        .names()
                        .get(index)
                        .map_or("", |value| value.name.as_str())
                };
                match &this.kind {
                    AttributeKind::YesNo if matches!(this.origin, Origin::Reading(_)) => {
                        format!("{} is read broadly", this.name)
                    }
                    AttributeKind::YesNo => this.name.clone(),
                    AttributeKind::Choice(_) | AttributeKind::Scale(_) => {
                        format!("{} is {}", this.name, named())
                    }
                    AttributeKind::Several(_) => format!("{} includes {}", this.name, named()),
                    AttributeKind::Number(range) => {
                        let amount = range.value(*value).to_string();
                        let unit = match &range.unit {
                            Unit::None => String::new(),
                            unit @ Unit::Named(_) => format!(" {unit}"),
                        };
                        format!("{} at least {amount}{unit}", this.name)
                    }
                }
            }
            Thing::Sum(sum) => {
                let summed: Vec<String> = sum
                    .parts
                    .iter()
                    .map(|(weight, of)| format!("{weight} * steps of {}", rules[*of].name))
                    .collect();
                summed.join(" + ") + " at most " + &sum.bound.to_string()
            }
        }
    }
}
