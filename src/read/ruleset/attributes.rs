//! What officials can establish, and the terms that are made of it.

use crate::problem::Problem;
use crate::read::draft::{
    AttributeDraft, AttributeKindDraft, BackgroundDraft, BackgroundRule, MeaningDraft, TermDraft,
    ValueDraft, Words,
};
use crate::read::node::{Entry, Node, NodeKind};
use crate::read::reader::{Content, Fields, Reader};
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

    fn attribute_kind(&mut self, fields: &Fields<'_>) -> Option<AttributeKindDraft> {
        let mut kinds = KINDS.iter().filter_map(|kind| fields.entry(kind));
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
        let mapped = Mapped::scalar(self.file(), node.span, scalar.style, &scalar.words);
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
