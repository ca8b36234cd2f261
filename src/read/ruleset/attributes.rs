//! What officials can establish, and the terms that are made of it.

use crate::problem::Problem;
use crate::read::draft::{
    AttributeDraft, AttributeKindDraft, BackgroundDraft, BackgroundRule, MeaningDraft, TermDraft,
    ValueDraft, Words,
};
use crate::read::node::{Entry, Node, NodeKind};
use crate::read::reader::{Content, Fields, Reader, shortened};
use crate::read::scalar::Mapped;
use crate::source::Spanned;

const KINDS: &[&str] = &["choice", "scale", "several", "number"];

impl Reader<'_> {
    pub(super) fn attributes(&mut self, node: &Node) -> Vec<AttributeDraft> {
        let help = "write `name:` alone for yes or no, or `name:` with `choice`, `scale`, `several` or `number` below it";
        let entries = self.entries(node, "`attributes`", help);
        entries
            .iter()
            .filter_map(|entry| self.attribute(entry))
            .collect()
    }

    fn attribute(&mut self, entry: &Entry) -> Option<AttributeDraft> {
        let name = self.name_of_key(&entry.key, "an attribute");
        if matches!(entry.value.kind, NodeKind::Nothing) {
            return Some(AttributeDraft {
                name: name?,
                label: None,
                kind: AttributeKindDraft::YesNo,
                judged: false,
                asked_when: None,
                set_by: None,
            });
        }
        let known = [
            "label",
            "choice",
            "scale",
            "several",
            "number",
            "step",
            "unit",
            "judged",
            "asked_when",
            "set_by",
        ];
        if !matches!(entry.value.kind, NodeKind::Mapping(_)) {
            self.no_attribute(entry);
            return None;
        }
        let fields = self.fields(&entry.value, "an attribute", &known)?;
        let kind = self.attribute_kind(&fields);
        let label = fields
            .get("label")
            .and_then(|node| self.text(node, "a label"));
        let judged = fields
            .get("judged")
            .is_some_and(|node| self.yes_or_no(node, "`judged`"));
        let asked_when = fields
            .get("asked_when")
            .map(|node| self.condition(node, "`asked_when`"));
        let set_by = fields
            .get("set_by")
            .and_then(|node| self.words(node, "`set_by`", Content::Word));
        Some(AttributeDraft {
            name: name?,
            label,
            kind: kind?,
            judged,
            asked_when: asked_when.flatten(),
            set_by,
        })
    }

    /// Says what to write where words or a list stand right behind an attribute's name.
    fn no_attribute(&mut self, entry: &Entry) {
        let name = &entry.key.words;
        let help = match &entry.value.kind {
            NodeKind::List(items) => {
                let items: Option<Vec<&str>> = items.iter().map(Node::words).collect();
                items.filter(|items| !items.is_empty()).map(|items| {
                    format!(
                        "write `choice: [{}]` on a line of its own below it",
                        items.join(", ")
                    )
                })
            }
            NodeKind::Scalar(scalar) => Some(told(name, scalar.words.trim())),
            _ => None,
        };
        self.expected(
            &entry.value,
            &format!("the attribute `{name}`"),
            "keys with values",
            &help.unwrap_or_else(|| "write its keys below it: `choice: [one, another]`".to_owned()),
        );
    }

    fn attribute_kind(&mut self, fields: &Fields<'_>) -> Option<AttributeKindDraft> {
        let mut kinds: Vec<&Entry> = KINDS.iter().filter_map(|kind| fields.entry(kind)).collect();
        kinds.sort_by_key(|entry| entry.key.span);
        let mut kinds = kinds.into_iter();
        let first = kinds.next();
        for other in kinds {
            let first = first.unwrap_or(other);
            let problem = Problem::error(
                other.key.span,
                format!(
                    "an attribute has both `{}` and `{}`",
                    first.key.words, other.key.words
                ),
                "a second kind",
            )
            .other(first.key.span, "the first kind")
            .help("keep one of `choice`, `scale`, `several` and `number`");
            self.say(problem);
        }
        if first.is_none_or(|entry| entry.key.words != "number") {
            for key in ["step", "unit"] {
                if let Some(entry) = fields.entry(key) {
                    let problem = Problem::error(
                        entry.key.span,
                        format!("an attribute that is no number has a `{key}`"),
                        "stands beside `number` only",
                    )
                    .help("delete it, or write `number: 0 to 60` beside it");
                    self.say(problem);
                }
            }
        }
        let Some(first) = first else {
            return Some(AttributeKindDraft::YesNo);
        };
        if matches!(first.key.words.as_str(), "choice" | "scale") {
            self.more_than_one(
                first,
                "write its other values too; an attribute answered yes or no is its name alone",
            );
        }
        match first.key.words.as_str() {
            "choice" => self
                .values(&first.value, "`choice`")
                .map(AttributeKindDraft::Choice),
            "scale" => self
                .values(&first.value, "`scale`")
                .map(AttributeKindDraft::Scale),
            "several" => self
                .values(&first.value, "`several`")
                .map(AttributeKindDraft::Several),
            _ => {
                let step = fields
                    .get("step")
                    .and_then(|node| self.words(node, "`step`", Content::Word));
                let unit = fields
                    .get("unit")
                    .and_then(|node| self.words(node, "`unit`", Content::Word));
                self.number(&first.value, step, unit)
            }
        }
    }

    /// Says that a choice or a scale of one value decides nothing.
    pub(super) fn more_than_one(&mut self, entry: &Entry, help: &str) {
        let one = match &entry.value.kind {
            NodeKind::Mapping(entries) => entries.len() == 1,
            NodeKind::List(items) => items.len() == 1,
            NodeKind::Scalar(scalar) => {
                !scalar.words.contains(',') && !scalar.words.trim().is_empty()
            }
            NodeKind::Nothing => false,
        };
        if one {
            let key = &entry.key.words;
            let problem = Problem::error(
                entry.value.span,
                format!("a `{key}` has one value; it needs two or more"),
                "with one value there is nothing to tell apart",
            )
            .help(help);
            self.say(problem);
        }
    }

    /// The values of a choice, scale or several: a list, or each with its label.
    pub(super) fn values(&mut self, node: &Node, what: &str) -> Option<Vec<ValueDraft>> {
        let values: Vec<ValueDraft> = match &node.kind {
            NodeKind::Nothing => {
                self.expected(
                    node,
                    what,
                    "a list of values",
                    "write its values: `[one_value, another]`",
                );
                return None;
            }
            NodeKind::List(items) if items.is_empty() => {
                self.empty_list(node, what);
                return None;
            }
            NodeKind::Scalar(scalar) if scalar.words.contains([',', '/']) => {
                let values = scalar.words.split([',', '/']).map(str::trim);
                let values: Vec<&str> = values.filter(|value| !value.is_empty()).collect();
                let help = format!(
                    "write the values in square brackets: `[{}]`",
                    values.join(", ")
                );
                self.expected(node, what, "a list of values", &help);
                return None;
            }
            NodeKind::Mapping(entries) => entries
                .iter()
                .filter_map(|entry| {
                    let name = self.name_of_key(&entry.key, "a value");
                    let label = match entry.value.kind {
                        NodeKind::Nothing => None,
                        _ => self.text(&entry.value, "the label of a value"),
                    };
                    Some(ValueDraft { name: name?, label })
                })
                .collect(),
            _ => node
                .items()
                .iter()
                .filter_map(|item| {
                    let name = self.name(item, "a value")?;
                    Some(ValueDraft { name, label: None })
                })
                .collect(),
        };
        (!values.is_empty()).then_some(values)
    }

    /// `0 to 60`, `0 to 4 or more`
    fn number(
        &mut self,
        node: &Node,
        step: Option<Words>,
        unit: Option<Words>,
    ) -> Option<AttributeKindDraft> {
        let help = "write the lowest and the highest value: `0 to 60`, `-5 to 5`, `0.0 to 9.9`, or `0 to 4 or more`; the unit stands in `unit:`";
        let NodeKind::Scalar(scalar) = &node.kind else {
            self.expected(node, "`number`", "a range", help);
            return None;
        };
        let mapped = Mapped::scalar(self.file(node.span), node.span, scalar.style, &scalar.words);
        let words: Vec<(usize, &str)> = words_of(&scalar.words);
        let place = |index: usize| {
            words.get(index).map(|(at, word)| {
                Spanned::new((*word).to_owned(), mapped.span(*at..at + word.len()))
            })
        };
        let texts: Vec<&str> = words.iter().map(|(_, word)| *word).collect();
        let or_more = match texts.as_slice() {
            [_, "to", _] => false,
            [_, "to", _, "or", "more"] => true,
            _ => {
                self.expected(node, "`number`", "a range such as `0 to 60`", help);
                return None;
            }
        };
        let (low, high) = (place(0)?, place(2)?);
        let mut fine = true;
        for end in [&low, &high] {
            if !is_number(&end.value) {
                fine = false;
                let problem = Problem::error(
                    end.span,
                    format!("`{}` is no number", end.value),
                    "expected digits, with a point for decimals",
                )
                .help(help);
                self.say(problem);
            }
        }
        fine.then_some(AttributeKindDraft::Number {
            low,
            high,
            or_more,
            step,
            unit,
        })
    }

    pub(super) fn terms(&mut self, node: &Node) -> Vec<TermDraft> {
        let help = "write `name:` with `means:` below it, or with `narrow:` and `broad:`";
        let entries = self.entries(node, "`terms`", help);
        entries
            .iter()
            .filter_map(|entry| self.term(entry))
            .collect()
    }

    fn term(&mut self, entry: &Entry) -> Option<TermDraft> {
        let name = self.name_of_key(&entry.key, "a term");
        if !matches!(entry.value.kind, NodeKind::Mapping(_)) {
            let what = format!("the term `{}`", entry.key.words);
            self.expected(
                &entry.value,
                &what,
                "keys with values",
                "write `means: ...` below it, or `narrow: ...` and `broad: ...`",
            );
            return None;
        }
        let fields = self.fields(
            &entry.value,
            "a term",
            &["label", "text", "means", "narrow", "broad"],
        )?;
        let label = fields
            .get("label")
            .and_then(|node| self.text(node, "a label"));
        let text = fields
            .get("text")
            .and_then(|node| self.text(node, "the text of a term"));
        let meaning = self.meaning(entry, &fields);
        Some(TermDraft {
            name: name?,
            label,
            text,
            meaning: meaning?,
        })
    }

    fn meaning(&mut self, term: &Entry, fields: &Fields<'_>) -> Option<MeaningDraft> {
        let what = format!("the term `{}`", term.key.words);
        let help = "write `means:`, or, where careful officials may read it two ways, `narrow:` and `broad:`";
        let mut read = |key: &str| {
            let node = fields.get(key)?;
            Some(self.condition(node, &format!("`{key}`")))
        };
        match (read("means"), read("narrow"), read("broad")) {
            (Some(means), None, None) => means.map(MeaningDraft::Sharp),
            (None, Some(narrow), Some(broad)) => Some(MeaningDraft::Vague {
                narrow: narrow?,
                broad: broad?,
            }),
            (None, narrow, broad) => {
                let (headline, expected) = match (narrow, broad) {
                    (Some(_), _) => (
                        format!("{what} has `narrow` and no `broad`"),
                        "expected `broad:` as well",
                    ),
                    (_, Some(_)) => (
                        format!("{what} has `broad` and no `narrow`"),
                        "expected `narrow:` as well",
                    ),
                    _ => (
                        format!("{what} has no meaning"),
                        "expected `means:` below it",
                    ),
                };
                self.say(Problem::error(term.key.span, headline, expected).help(help));
                None
            }
            (Some(_), _, _) => {
                let other = fields.entry("narrow").or_else(|| fields.entry("broad"))?;
                let problem = Problem::error(
                    other.key.span,
                    format!("{what} has both `means` and `{}`", other.key.words),
                    "a second meaning",
                )
                .help(help);
                self.say(problem);
                None
            }
        }
    }

    pub(super) fn background(&mut self, node: &Node) -> Vec<BackgroundDraft> {
        let lines = node.chapter();
        lines
            .iter()
            .filter_map(|line| self.background_line(line))
            .collect()
    }

    fn background_line(&mut self, node: &Node) -> Option<BackgroundDraft> {
        let what = "a line of `background`";
        if let Some(words) = node.words() {
            let words = shortened(words);
            self.expected(
                node,
                what,
                "`never:` or `always:` before its condition",
                &format!(
                    "write `never: {words}` where that cannot happen, `always: {words}` where it holds everywhere"
                ),
            );
            return None;
        }
        let fields = self.fields(node, what, &["id", "never", "always", "because"])?;
        let id = fields
            .get("id")
            .and_then(|node| self.words(node, "an id", Content::Phrase));
        let because = fields
            .get("because")
            .and_then(|node| self.text(node, "`because`"));
        let never = fields
            .get("never")
            .map(|node| self.condition(node, "`never`"));
        let always = fields
            .get("always")
            .map(|node| self.condition(node, "`always`"));
        let rule = match (never, always) {
            (Some(never), None) => BackgroundRule::Never(never?),
            (None, Some(always)) => BackgroundRule::Always(always?),
            (None, None) => {
                self.missing(&fields, what, "never", "write `never:` with what cannot happen, or `always:` with what holds everywhere");
                return None;
            }
            (Some(_), Some(_)) => {
                let other = fields.entry("always")?;
                let problem = Problem::error(
                    other.key.span,
                    format!("{what} has both `never` and `always`"),
                    "a second rule",
                )
                .help("make it two lines");
                self.say(problem);
                return None;
            }
        };
        Some(BackgroundDraft {
            id,
            rule,
            because,
            span: node.span,
        })
    }
}

/// What to write for the words right behind the name of an attribute.
fn told(name: &str, words: &str) -> String {
    let plain: String = words.to_lowercase().split(' ').collect();
    let answers = [
        "yes/no",
        "yes|no",
        "true/false",
        "boolean",
        "bool",
        "yesorno",
        "yes,no",
    ];
    if answers.contains(&plain.as_str())
        || matches!(plain.as_str(), "yes" | "no" | "true" | "false")
    {
        return format!(
            "write `{name}:` alone, with nothing behind it: it is answered yes or no then"
        );
    }
    if words.contains(" to ")
        && words.starts_with(|first: char| first == '-' || first.is_ascii_digit())
    {
        return format!("write `number: {words}` on a line of its own below it");
    }
    if words.contains([',', '/']) {
        let values = words.split([',', '/']).map(str::trim);
        let values: Vec<&str> = values.filter(|value| !value.is_empty()).collect();
        return format!(
            "write `choice: [{}]` on a line of its own below it",
            values.join(", ")
        );
    }
    "write its keys on lines of their own below it: `label: ...`, `choice: [...]`; with nothing below it, it is answered yes or no".to_owned()
}

/// The words of a text with their bytes.
fn words_of(text: &str) -> Vec<(usize, &str)> {
    let mut words = Vec::new();
    let mut at = 0;
    for word in text.split(char::is_whitespace) {
        if !word.is_empty() {
            words.push((at, word));
        }
        at += word.len();
        at += text
            .get(at..)
            .and_then(|rest| rest.chars().next())
            .map_or(0, char::len_utf8);
    }
    words
}

/// Digits with an optional sign and decimal point.
fn is_number(word: &str) -> bool {
    let digits = word.strip_prefix('-').unwrap_or(word);
    let (whole, decimals) = digits.split_once('.').unwrap_or((digits, "0"));
    [whole, decimals]
        .iter()
        .all(|part| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit()))
}
