//! Small random rulesets that use the whole language, as text.
//!
//! A ruleset is written from a tape of numbers. A tape that has run out reads as zeros, and zero is
//! always the plainest choice, so that a shorter tape is a simpler ruleset and a failing test
//! shrinks to something that can be read. Relations and readings never run in a circle: clauses
//! stand at levels, read only rulings of lower levels, and touch only clauses of lower rank.

use proptest::collection::vec;
use proptest::prelude::*;
use std::fmt::Write;

/// Ruleset files, most of them valid, with a few thousand scenarios at most.
pub(crate) fn yaml() -> impl Strategy<Value = String> {
    vec(any::<u16>(), 40..400).prop_map(|tape| write_ruleset(&tape))
}

/// The ruleset file that a tape of numbers stands for.
pub(crate) fn write_ruleset(tape: &[u16]) -> String {
    let mut writer = Writer {
        tape: tape.iter().copied().collect(),
        attributes: Vec::new(),
        terms: Vec::new(),
        vague: Vec::new(),
        dimensions: Vec::new(),
        constant: false,
        table: false,
        yaml: String::from("ruleset: Random rules\n"),
    };
    writer.attributes();
    writer.quantities();
    writer.terms();
    writer.background();
    writer.dimensions();
    writer.clauses();
    writer.principles();
    writer.yaml
}

struct Writer {
    tape: std::collections::VecDeque<u16>,
    attributes: Vec<Attribute>,
    terms: Vec<String>,
    /// Those of the terms that have two readings.
    vague: Vec<String>,
    dimensions: Vec<Dimension>,
    /// Whether the constant `limit` is there, and the column `least_time` of a table.
    constant: bool,
    table: bool,
    yaml: String,
}

#[derive(Clone)]
struct Attribute {
    name: String,
    kind: Kind,
    party: bool,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    YesNo,
    Choice(usize),
    Scale(usize),
    /// From 0 to so many, by ones, and whether the last stands for all above.
    Number(usize, bool),
    Several(usize),
}

struct Dimension {
    name: String,
    values: usize,
    ordered: bool,
    all_apply: bool,
}

const CHOICES: [&str; 3] = ["left", "middle", "right"];
const SCALE: [&str; 3] = ["light", "firm", "full"];
const ITEMS: [&str; 3] = ["hand", "elbow", "knee"];
const RULINGS: [&str; 3] = ["none", "caution", "dismissal"];

impl Writer {
    fn throw(&mut self) -> usize {
        usize::from(self.tape.pop_front().unwrap_or(0))
    }

    fn below(&mut self, limit: usize) -> usize {
        self.throw() % limit.max(1)
    }

    /// True once in so many throws; never on a tape that has run out.
    fn one_in(&mut self, many: usize) -> bool {
        self.throw() % many == many - 1
    }

    fn line(&mut self, words: &str) {
        self.yaml.push_str(words);
        self.yaml.push('\n');
    }

    /// `count` different ones of `words`, one at least.
    fn some_of(&mut self, words: &[&str]) -> Vec<String> {
        let mut chosen: Vec<String> = Vec::new();
        for word in words {
            if self.one_in(2) {
                chosen.push((*word).to_owned());
            }
        }
        if chosen.is_empty() {
            let index = self.below(words.len());
            chosen.push(words[index].to_owned());
        }
        chosen
    }

    fn attributes(&mut self) {
        self.line("attributes:");
        let count = 2 + self.below(4);
        let mut product = 1;
        for index in 0..count {
            let kind = match self.below(6) {
                0 => Kind::YesNo,
                1 => Kind::Choice(2 + self.below(2)),
                2 => Kind::Scale(2 + self.below(2)),
                3 | 4 => Kind::Number(2 + self.below(3), self.one_in(3)),
                _ => Kind::Several(2 + self.below(2)),
            };
            let (word, size) = match kind {
                Kind::YesNo => ("held", 2),
                Kind::Choice(values) => ("side", values),
                Kind::Scale(values) => ("force", values),
                Kind::Number(high, _) => ("seconds", high + 1),
                Kind::Several(items) => ("touching", 1 << items),
            };
            product *= size;
            if product > 1500 {
                break;
            }
            let name = format!("{word}_{index}");
            self.line(&format!("  {name}:"));
            self.line(&format!("    label: what is noted as {name}"));
            match kind {
                Kind::YesNo => {}
                Kind::Choice(n) => self.line(&format!("    choice: [{}]", CHOICES[..n].join(", "))),
                Kind::Scale(n) => self.line(&format!("    scale: [{}]", SCALE[..n].join(", "))),
                Kind::Several(n) => self.line(&format!("    several: [{}]", ITEMS[..n].join(", "))),
                Kind::Number(high, or_more) => {
                    let more = if or_more { " or more" } else { "" };
                    self.line(&format!("    number: 0 to {high}{more}\n    unit: s"));
                }
            }
            if self.one_in(4) {
                self.line("    judged: true");
            }
            let party = self.one_in(3);
            if party {
                self.line("    set_by: defender");
            }
            // Earlier attributes only: what decides whether it is asked never runs in a circle.
            if index > 0 && self.one_in(3) {
                let condition = self.condition(1, 0);
                self.line(&format!("    asked_when: {condition}"));
            }
            self.attributes.push(Attribute { name, kind, party });
        }
    }

    fn quantities(&mut self) {
        if self.one_in(2) {
            self.line("quantities:\n  limit: 2 s");
            self.constant = true;
            let choice = self
                .attributes
                .iter()
                .find_map(|attribute| match attribute.kind {
                    Kind::Choice(values) => Some((attribute.name.clone(), values)),
                    _ => None,
                });
            if let Some((name, values)) = choice
                && self.one_in(2)
            {
                self.line(&format!(
                    "  allowance:\n    by: {name}\n    columns: [least_time]"
                ));
                for value in &CHOICES[..values] {
                    let cell = ["1 s", "2 s", "\"-\""][self.below(3)];
                    self.line(&format!("    {value}: [{cell}]"));
                }
                self.table = true;
            }
        }
    }

    fn terms(&mut self) {
        let count = self.below(3);
        if count > 0 {
            self.line("terms:");
        }
        for index in 0..count {
            let name = format!("term_{index}");
            self.line(&format!("  {name}:"));
            let condition = self.condition(1, 0);
            if self.one_in(2) {
                let further = self.condition(0, 0);
                // One in eight the wrong way round: such a term is loose.
                let (narrow, broad) = if self.one_in(8) {
                    (condition.clone(), format!("({condition}) and ({further})"))
                } else {
                    (format!("({condition}) and ({further})"), condition.clone())
                };
                self.line(&format!("    narrow: {narrow}\n    broad: {broad}"));
                self.vague.push(name.clone());
            } else {
                self.line(&format!("    means: {condition}"));
            }
            self.terms.push(name);
        }
    }

    fn background(&mut self) {
        let count = [0, 1, 0, 2][self.below(4)];
        if count > 0 {
            self.line("background:");
        }
        for _ in 0..count {
            let (first, second) = (self.condition(0, 0), self.condition(0, 0));
            if self.one_in(3) {
                self.line(&format!("  - always: ({first}) or ({second})"));
            } else {
                self.line(&format!("  - never: ({first}) and ({second})"));
            }
        }
    }

    fn dimensions(&mut self) {
        self.line("rulings:");
        let count = 1 + self.below(3);
        for index in 0..count {
            let name = format!("ruling_{index}");
            let values = 2 + self.below(2);
            let (ordered, when_several) = [
                (true, ""),
                (false, ""),
                (true, "highest"),
                (true, "lowest"),
                (false, "all_apply"),
            ][self.below(5)];
            let all_apply = when_several == "all_apply";
            let form = if ordered { "scale" } else { "choice" };
            let listed = RULINGS[..values].join(", ");
            self.line(&format!("  {name}:\n    {form}: [{listed}]"));
            if !when_several.is_empty() {
                self.line(&format!("    when_several: {when_several}"));
            }
            if self.one_in(2) {
                let value = RULINGS[self.below(values)];
                if all_apply {
                    let listed = if self.one_in(2) { "" } else { value };
                    self.line(&format!("    otherwise: [{listed}]"));
                } else {
                    self.line(&format!("    otherwise: {value}"));
                }
            }
            if self.one_in(3) {
                let condition = self.condition(1, index);
                self.line(&format!("    required_when: {condition}"));
            }
            if index + 1 < count && self.one_in(3) {
                self.line("    intermediate: true");
            }
            self.dimensions.push(Dimension {
                name,
                values,
                ordered,
                all_apply,
            });
        }
    }

    fn clauses(&mut self) {
        let count = 1 + self.below(7);
        let ids: Vec<String> = (0..count)
            .map(|index| format!("{}.{}", index / 3 + 1, index % 3 + 1))
            .collect();
        let ranks: Vec<(usize, usize, usize)> = (0..count)
            .map(|index| (self.below(self.dimensions.len()), self.throw(), index))
            .collect();
        self.line("clauses:");
        for (index, id) in ids.iter().enumerate() {
            self.line(&format!("  - id: \"{id}\"\n    title: Clause {id}"));
            let level = ranks[index].0;
            self.when(level);
            if self.one_in(4) {
                let condition = self.condition(0, level);
                self.line(&format!("    unless: {condition}"));
            }
            let first = ranks.iter().enumerate();
            let below: Vec<&String> = first
                .clone()
                .filter_map(|(other, rank)| (*rank > ranks[index]).then_some(&ids[other]))
                .collect();
            let above: Vec<&String> = first
                .filter_map(|(other, rank)| (*rank < ranks[index]).then_some(&ids[other]))
                .collect();
            if self.relation("disapplies", &below, count - 1, 4) && self.one_in(2) {
                continue;
            }
            self.rulings(level);
            self.relation("notwithstanding", &below, count - 1, 2);
            self.relation("subject_to", &above, count - 1, 4);
        }
        if count > 3 && self.one_in(2) {
            let condition = self.condition(0, 0);
            self.line(&format!(
                "headings:\n  \"1\":\n    title: The first group\n    when: {condition}"
            ));
        }
    }

    /// Writes a relation to some of the candidates, once in so many throws; says whether it did.
    /// `everyone` is how many other clauses there are.
    fn relation(
        &mut self,
        word: &str,
        candidates: &[&String],
        everyone: usize,
        many: usize,
    ) -> bool {
        if candidates.is_empty() || !self.one_in(many) {
            return false;
        }
        let words: Vec<&str> = candidates.iter().map(|id| id.as_str()).collect();
        let whole_group = words.iter().filter(|id| id.starts_with("1.")).count() == 3;
        let chosen = if candidates.len() > 1 && everyone == candidates.len() && self.one_in(3) {
            self.line(&format!("    {word}: every other clause"));
            return true;
        } else if whole_group && self.one_in(3) {
            vec!["1".to_owned()]
        } else {
            self.some_of(&words)
        };
        let listed: Vec<String> = chosen.iter().map(|id| format!("\"{id}\"")).collect();
        self.line(&format!("    {word}: [{}]", listed.join(", ")));
        true
    }

    fn when(&mut self, level: usize) {
        match self.below(7) {
            0 | 1 => {
                let condition = self.condition(0, level);
                self.line(&format!("    when: {condition}"));
            }
            2 | 3 => {
                let condition = self.condition(2, level);
                self.line(&format!("    when: {condition}"));
            }
            4 => {
                let parts = [self.condition(0, level), self.condition(1, level)];
                self.line(&format!(
                    "    when:\n      - {}\n      - {}",
                    parts[0], parts[1]
                ));
            }
            5 => {
                let form = ["all", "any", "none"][self.below(3)];
                let parts = [self.condition(0, level), self.condition(1, level)];
                self.line(&format!(
                    "    when:\n      {form}:\n        - {}\n        - {}",
                    parts[0], parts[1]
                ));
            }
            _ => {}
        }
    }

    fn rulings(&mut self, level: usize) {
        let mut lines = String::new();
        for dimension in level..self.dimensions.len() {
            if dimension > level && !self.one_in(3) {
                continue;
            }
            let Dimension { name, values, .. } = &self.dimensions[dimension];
            let (name, values) = (name.clone(), *values);
            if self.one_in(5) {
                let listed = self.some_of(&RULINGS[..values]).join(", ");
                let _ = write!(lines, "\n      {name}:\n        may_be: [{listed}]");
            } else {
                let value = RULINGS[self.below(values)];
                let _ = write!(lines, "\n      {name}: {value}");
            }
        }
        self.line(&format!("    ruling:{lines}"));
    }

    fn principles(&mut self) {
        let count = self.below(4);
        if count > 0 {
            self.line("principles:");
        }
        for index in 0..count {
            self.principle(&format!("  - id: P{index}"));
        }
    }

    fn principle(&mut self, id: &str) {
        let attribute = self.below(self.attributes.len());
        let attribute = self.attributes[attribute].clone();
        let ordered = self.dimensions.iter().find(|dimension| dimension.ordered);
        let ordered = ordered.map(|dimension| dimension.name.clone());
        let all = self.attributes.iter().enumerate();
        let party: Vec<usize> = all
            .filter(|(_, attribute)| attribute.party)
            .map(|(index, _)| index)
            .collect();
        let countable = matches!(attribute.kind, Kind::Scale(_) | Kind::Number(..));
        match (self.below(6), ordered) {
            (1, Some(dimension)) if countable => self.line(&format!(
                "{id}\n    rises_with: {}\n    ruling: {dimension}",
                attribute.name
            )),
            (2 | 4, Some(dimension)) if !party.is_empty() => {
                self.line(&format!("{id}\n    no_gain: defender"));
                if self.one_in(2) {
                    let own = party[self.below(party.len())];
                    let by = self.comparison_of(own);
                    self.line(&format!("    by: {by}"));
                }
                if self.one_in(3) {
                    let on = self.below(self.dimensions.len());
                    let to = self.ruling(on);
                    self.line(&format!("    to: {to}"));
                } else {
                    let way = ["raising", "lowering"][self.below(2)];
                    self.line(&format!("    {way}: {dimension}"));
                }
            }
            (3, _) => {
                let mut names = vec![attribute.name];
                if self.one_in(2) {
                    let other = self.below(self.attributes.len());
                    names.push(self.attributes[other].name.clone());
                }
                names.extend(self.vague.clone().into_iter().filter(|_| self.one_in(3)));
                names.sort();
                names.dedup();
                self.line(&format!("{id}\n    impartial_to: [{}]", names.join(", ")));
            }
            _ => {
                let rulings = self.dimensions.len();
                let whenever = if self.one_in(3) {
                    self.condition(1, rulings)
                } else {
                    self.condition(0, 0)
                };
                let dimension = self.below(rulings);
                let mut expect = self.ruling(dimension);
                match self.below(6) {
                    1 => {
                        let other = self.below(rulings);
                        expect = format!("({expect}) or ({})", self.ruling(other));
                    }
                    2 => expect = format!("({expect}) and ({})", self.condition(0, rulings)),
                    3 => expect = format!("not ({expect})"),
                    _ => {}
                }
                self.line(&format!(
                    "{id}\n    whenever: {whenever}\n    expect: {expect}"
                ));
            }
        }
    }

    /// A condition at most so many brackets deep that reads only the first `rulings` dimensions. It
    /// can stand on a line of its own; inside another condition it needs brackets.
    fn condition(&mut self, depth: usize, rulings: usize) -> String {
        if depth == 0 {
            return self.comparison(rulings);
        }
        let form = self.below(8);
        let mut part = || self.condition(depth - 1, rulings);
        match form {
            0 | 1 => part(),
            2 => format!("({}) and ({})", part(), part()),
            3 => format!("({}) or ({})", part(), part()),
            4 => format!("not ({})", part()),
            5 => format!("at least 2 of ({}, {}, {})", part(), part(), part()),
            6 => format!("exactly 1 of ({}, {})", part(), part()),
            _ => format!("at most 1 of ({}, {}, {})", part(), part(), part()),
        }
    }

    fn comparison(&mut self, rulings: usize) -> String {
        if rulings > 0 && self.one_in(2) {
            let dimension = self.below(rulings);
            return self.ruling(dimension);
        }
        if !self.terms.is_empty() && self.one_in(3) {
            let term = self.below(self.terms.len());
            let name = self.terms[term].clone();
            return if self.one_in(3) {
                format!("not {name}")
            } else {
                name
            };
        }
        if self.attributes.is_empty() {
            return "always".to_owned();
        }
        let index = self.below(self.attributes.len());
        self.comparison_of(index)
    }

    fn comparison_of(&mut self, index: usize) -> String {
        let Attribute { name, kind, .. } = self.attributes[index].clone();
        match kind {
            Kind::YesNo if self.one_in(3) => format!("not {name}"),
            Kind::YesNo => name,
            Kind::Choice(values) => {
                if let Some(other) = self.another(index, |kind| matches!(kind, Kind::Choice(_)))
                    && self.one_in(2)
                {
                    let not = if self.one_in(3) { "not " } else { "" };
                    return format!("{name} is {not}same as {other}");
                }
                self.value_of(&name, &CHOICES[..values], false)
            }
            Kind::Scale(values) => self.value_of(&name, &SCALE[..values], true),
            Kind::Number(high, or_more) => self.number(index, &name, high, or_more),
            Kind::Several(items) => self.items_of(&name, &ITEMS[..items]),
        }
    }

    /// Another attribute of a kind, the last one before or after.
    fn another(&self, index: usize, wanted: impl Fn(Kind) -> bool) -> Option<String> {
        let all = self.attributes.iter().enumerate();
        let mut others = all.filter(|(other, attribute)| *other != index && wanted(attribute.kind));
        others.next_back().map(|(_, other)| other.name.clone())
    }

    fn value_of(&mut self, name: &str, values: &[&str], ordered: bool) -> String {
        let value = values[self.below(values.len())];
        match self.below(if ordered { 6 } else { 4 }) {
            0 => format!("{name} is {value}"),
            1 => format!("{name} is not {value}"),
            2 => format!("{name} is one of ({})", self.some_of(values).join(", ")),
            3 => format!("{name} is not one of ({})", self.some_of(values).join(", ")),
            4 => format!("{name} at least {value}"),
            _ => format!("{name} at most {value}"),
        }
    }

    fn items_of(&mut self, name: &str, items: &[&str]) -> String {
        let item = items[self.below(items.len())];
        let some = self.some_of(items).join(", ");
        match self.below(9) {
            0 => format!("{name} includes {item}"),
            1 => format!("{name} includes any of ({some})"),
            2 => format!("{name} includes all of ({some})"),
            3 => format!("{name} includes none of ({some})"),
            4 => format!("{name} includes at least 1 of ({some})"),
            5 => format!("{name} includes exactly 1 of ({some})"),
            6 => format!("{name} is empty"),
            7 => format!("{name} is not empty"),
            _ => format!("{name} is only {item}"),
        }
    }

    fn number(&mut self, index: usize, name: &str, high: usize, or_more: bool) -> String {
        // The top value of `or more` stands for many numbers, which no comparison may tell apart.
        let (low, top) = (self.below(high + 1), if or_more { high - 1 } else { high });
        let amount = low.min(top);
        let other = self.another(index, |kind| matches!(kind, Kind::Number(_, false)));
        match (self.below(12), other) {
            (1, _) => format!("{name} is {amount}"),
            (2, _) => format!("{name} is not {amount} s"),
            (3, _) => format!("{name} at most {amount}"),
            (4, _) => format!("{name} is between {} and {top}", amount.min(1)),
            (5, _) => format!("{name} is not between 0 and {amount}"),
            (6, _) if self.constant && high > 2 => format!("{name} less than limit"),
            (7, _) if self.table && high > 2 => format!("{name} less than least_time"),
            (8, Some(other)) if !or_more => format!("{name} - {other} at least 1"),
            (9, Some(other)) if !or_more => format!("{name} is {other}"),
            (10, Some(other)) if !or_more => format!("2 * {name} + {other} at most {}", high + 1),
            (11, Some(other)) if !or_more => format!("{name} more than {other}"),
            _ => format!("{name} at least {low}"),
        }
    }

    fn ruling(&mut self, dimension: usize) -> String {
        let Dimension {
            name,
            values,
            ordered,
            all_apply,
        } = &self.dimensions[dimension];
        let (name, values, ordered) = (name.clone(), *values, *ordered);
        if *all_apply {
            self.items_of(&name, &RULINGS[..values])
        } else {
            self.value_of(&name, &RULINGS[..values], ordered)
        }
    }
}
