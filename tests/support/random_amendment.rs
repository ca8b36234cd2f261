//! Small random amendments to a ruleset, as text.
//!
//! Written from a tape of numbers, like the rulesets; not all of them can be made (a circle, a
//! reference to nothing), and those that can't are told by the program and left out by the tests.

use evenhand::model::{Attribute, AttributeKind, Origin, Ruleset};
use std::collections::VecDeque;
use std::fmt::Write;

/// An amendment of one to four changes.
pub(crate) fn write_amendment(ruleset: &Ruleset, tape: &[u16]) -> String {
    let mut writer = Writer {
        tape: tape.iter().copied().collect(),
        ruleset,
        added: 0,
    };
    let mut yaml = String::from("amendment: Random changes\nchanges:\n");
    for _ in 0..=writer.below(4) {
        yaml.push_str(&writer.change());
    }
    yaml
}

struct Writer<'r> {
    tape: VecDeque<u16>,
    ruleset: &'r Ruleset,
    added: usize,
}

impl Writer<'_> {
    fn below(&mut self, limit: usize) -> usize {
        usize::from(self.tape.pop_front().unwrap_or(0)) % limit.max(1)
    }

    fn pick<'a, T>(&mut self, all: &'a [T]) -> Option<&'a T> {
        let index = self.below(all.len());
        all.get(index)
    }

    fn clause(&mut self) -> String {
        let ruleset = self.ruleset;
        self.pick(&ruleset.clauses)
            .map_or_else(String::new, |clause| clause.id.clone())
    }

    fn ruling(&mut self) -> String {
        let ruleset = self.ruleset;
        let Some(dimension) = self.pick(&ruleset.dimensions) else {
            return String::new();
        };
        let value = self.pick(&dimension.values).unwrap();
        format!("ruling:\n        {}: {}", dimension.name, value.name)
    }

    fn atom(&mut self) -> String {
        let ruleset = self.ruleset;
        if self.below(8) == 7 {
            let dimension = self.pick(&ruleset.dimensions).unwrap();
            let value = self.pick(&dimension.values).unwrap();
            return format!("{} is {}", dimension.name, value.name);
        }
        let stated: Vec<&Attribute> = ruleset
            .attributes
            .iter()
            .filter(|attribute| attribute.origin == Origin::Stated)
            .collect();
        let attribute = stated[self.below(stated.len())];
        let name = &attribute.name;
        match &attribute.kind {
            AttributeKind::YesNo => name.clone(),
            AttributeKind::Choice(values) => {
                format!("{name} is {}", self.pick(values).unwrap().name)
            }
            AttributeKind::Scale(values) => {
                format!("{name} at least {}", self.pick(values).unwrap().name)
            }
            AttributeKind::Several(items) => {
                format!("{name} includes {}", self.pick(items).unwrap().name)
            }
            AttributeKind::Number(range) => {
                let step = self.below(usize::try_from(range.steps).unwrap());
                format!("{name} at least {step}")
            }
        }
    }

    fn condition(&mut self) -> String {
        let one = self.atom();
        match self.below(4) {
            1 => format!("not ({one})"),
            2 => format!("{one} and {}", self.atom()),
            3 => format!("{one} or {}", self.atom()),
            _ => one,
        }
    }

    fn change(&mut self) -> String {
        let ruleset = self.ruleset;
        match self.below(14) {
            0 | 1 => {
                let (clause, condition) = (self.clause(), self.condition());
                format!("  - set:\n      clause: \"{clause}\"\n      when: {condition}\n")
            }
            2 => {
                let (clause, ruling) = (self.clause(), self.ruling());
                format!("  - set:\n      clause: \"{clause}\"\n      {ruling}\n")
            }
            3 | 4 => {
                self.added += 1;
                let (after, condition, ruling) = (self.clause(), self.condition(), self.ruling());
                let over = self.clause();
                let relation = match self.below(3) {
                    0 => format!("\n      notwithstanding: \"{over}\""),
                    1 => format!("\n      disapplies: \"{over}\""),
                    _ => String::new(),
                };
                format!(
                    "  - insert:\n      id: \"9.{}\"\n      when: {condition}\n      {ruling}{relation}\n    after: \"{after}\"\n",
                    self.added
                )
            }
            5 => format!("  - repeal: \"{}\"\n", self.clause()),
            6 => {
                let dimension = self.pick(&ruleset.dimensions).unwrap();
                let value = self.pick(&dimension.values).unwrap();
                format!(
                    "  - set:\n      dimension: {}\n      otherwise: {}\n",
                    dimension.name, value.name
                )
            }
            7 => {
                let condition = self.atom();
                match self.pick(&ruleset.terms) {
                    Some(term) => format!(
                        "  - set:\n      term: {}\n      means: {condition}\n",
                        term.name
                    ),
                    None => format!(
                        "  - insert:\n      background: B9\n      never: {condition} and {condition}\n"
                    ),
                }
            }
            8 => {
                self.added += 1;
                let (name, ruling) = (format!("extra_{}", self.added), self.ruling());
                format!(
                    "  - insert:\n      attribute: {name}\n      choice: [calm, wild]\n  - insert:\n      id: \"8.{}\"\n      when: {name} is wild\n      {ruling}\n",
                    self.added
                )
            }
            9 => {
                let attribute = self.pick(&ruleset.attributes).unwrap();
                let name = &attribute.name;
                let names = attribute.kind.names().iter();
                let mut text = format!("  - set:\n      attribute: {name}\n");
                let names: Vec<&str> = names.map(|value| value.name.as_str()).collect();
                match &attribute.kind {
                    AttributeKind::YesNo => text.push_str("      judged: true\n"),
                    AttributeKind::Choice(_) => {
                        let _ = writeln!(text, "      choice: [added, {}]", names.join(", "));
                    }
                    AttributeKind::Scale(_) => {
                        let _ = writeln!(text, "      scale: [{}, added]", names.join(", "));
                    }
                    AttributeKind::Several(_) => {
                        let _ = writeln!(text, "      several: [{}, added]", names.join(", "));
                    }
                    AttributeKind::Number(range) => {
                        let more = if range.or_more { " or more" } else { "" };
                        let _ = writeln!(text, "      number: 0 to {}{more}", range.steps + 1);
                    }
                }
                text
            }
            10 => {
                let condition = self.atom();
                let attribute = self.pick(&ruleset.attributes).unwrap();
                format!(
                    "  - set:\n      attribute: {}\n      asked_when: {condition}\n",
                    attribute.name
                )
            }
            11 => {
                let (one, other) = (self.atom(), self.atom());
                format!("  - insert:\n      never: ({one}) and ({other})\n")
            }
            // Another clause under a number that a clause has left.
            12 => {
                self.added += 1;
                let (clause, condition, ruling) = (self.clause(), self.condition(), self.ruling());
                format!(
                    "  - renumber: \"{clause}\"\n    to: \"6.{}\"\n  - insert:\n      id: \"{clause}\"\n      when: {condition}\n      {ruling}\n",
                    self.added
                )
            }
            _ => {
                self.added += 1;
                format!(
                    "  - renumber: \"{}\"\n    to: \"7.{}\"\n",
                    self.clause(),
                    self.added
                )
            }
        }
    }
}

/// An amendment that hands the number of each clause on to the next.
pub(crate) fn numbers_handed_on(ruleset: &Ruleset) -> String {
    let ids: Vec<&str> = ruleset.clauses.iter().map(|it| it.id.as_str()).collect();
    let mut yaml = String::from("amendment: Numbers handed on\nchanges:\n");
    let mut renumber = |from: &str, to: &str| {
        let _ = writeln!(yaml, "  - renumber: \"{from}\"\n    to: \"{to}\"");
    };
    if let ([first, ..], [.., last]) = (ids.as_slice(), ids.as_slice()) {
        renumber(last, "5.5");
        for two in ids.windows(2).rev() {
            renumber(two[0], two[1]);
        }
        renumber("5.5", first);
    }
    yaml
}
