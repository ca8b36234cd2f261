//! Amendment files: what a draft changes in a ruleset, change by change.
//!
//! An amendment keeps what it puts into a ruleset as it was written. Whether that makes sense is
//! found out when the ruleset is read and resolved with the changes in it ([`Tree::amended`]), so
//! that names are looked up anew and every problem points into the file that has the words.

mod apply;
mod consolidate;
mod plan;
mod render;
mod renumber;

pub use apply::Tree;
pub use consolidate::{Unwritable, consolidated};
pub(crate) use render::double_quoted;

use super::draft::{Expr, TextDraft, Words};
use super::node::{Entry, Node, NodeKind};
use super::reader::{Content, Fields, Reader, list_of, shortened};
use crate::problem::Problem;
use crate::source::{Span, Spanned};
use std::fmt;

/// An amendment as written.
#[derive(Clone, Debug)]
pub struct AmendmentDraft {
    /// `amendment:`, the title.
    pub title: Words,
    /// `to:`, `ruleset:`: the title of the ruleset that it was written for.
    pub to_ruleset: Option<Words>,
    /// `to:`, `edition:`: the edition that it was written for.
    pub to_edition: Option<Words>,
    /// `edition:`, what the amended ruleset is called.
    pub edition: Option<Words>,
    /// `reason:`.
    pub reason: Option<TextDraft>,
    /// `editorial:`; true claims that no ruling changes.
    pub editorial: Option<Spanned<bool>>,
    /// `scope:`, where rulings are meant to change.
    pub scope: Option<Expr>,
    /// `changes:`, in the order in which they are made.
    pub changes: Vec<Change>,
}

/// One change of an amendment.
#[derive(Clone, Debug)]
pub struct Change {
    /// What it does.
    pub action: Action,
    /// To what kind of thing.
    pub part: Part,
    /// To which: the id, name or number in the ruleset; what is inserted may have none.
    pub name: Option<Words>,
    /// The word that opens it.
    pub span: Span,
    matter: Matter,
}

/// What a change does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Action {
    /// Something else takes the place of a thing.
    Replace,
    /// A thing is added.
    Insert,
    /// A thing is taken out.
    Repeal,
    /// A clause or a group gets another number, and so do references to it.
    Renumber,
    /// Some keys of a thing get other values.
    Set,
}

impl Action {
    const ALL: &[Action] = &[
        Action::Replace,
        Action::Insert,
        Action::Repeal,
        Action::Renumber,
        Action::Set,
    ];

    /// Its key in an amendment.
    pub fn word(self) -> &'static str {
        match self {
            Action::Replace => "replace",
            Action::Insert => "insert",
            Action::Repeal => "repeal",
            Action::Renumber => "renumber",
            Action::Set => "set",
        }
    }

    fn keys(self) -> &'static [&'static str] {
        match self {
            Action::Replace => &["replace", "with"],
            Action::Insert => &["insert", "after", "before"],
            Action::Repeal => &["repeal"],
            Action::Renumber => &["renumber", "to"],
            Action::Set => &["set"],
        }
    }
}

/// The kinds of thing that can be changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// A clause, or for `repeal` and `renumber` a group of them.
    Clause,
    /// An attribute.
    Attribute,
    /// A defined term.
    Term,
    /// A constant, a table, or a cell of one.
    Quantity,
    /// A background line.
    Background,
    /// A dimension of rulings.
    Dimension,
    /// A principle.
    Principle,
    /// A heading.
    Heading,
}

impl Part {
    const ALL: &[Part] = &[
        Part::Clause,
        Part::Attribute,
        Part::Term,
        Part::Quantity,
        Part::Background,
        Part::Dimension,
        Part::Principle,
        Part::Heading,
    ];

    /// The key that names one in an amendment.
    pub fn word(self) -> &'static str {
        match self {
            Part::Clause => "clause",
            Part::Attribute => "attribute",
            Part::Term => "term",
            Part::Quantity => "quantity",
            Part::Background => "background",
            Part::Dimension => "dimension",
            Part::Principle => "principle",
            Part::Heading => "heading",
        }
    }

    /// The chapter of a ruleset file that holds them.
    fn chapter(self) -> &'static str {
        match self {
            Part::Clause => "clauses",
            Part::Attribute => "attributes",
            Part::Term => "terms",
            Part::Quantity => "quantities",
            Part::Background => "background",
            Part::Dimension => "rulings",
            Part::Principle => "principles",
            Part::Heading => "headings",
        }
    }

    /// Whether the chapter is a list whose items have an `id`, not a mapping of names.
    fn is_listed(self) -> bool {
        matches!(self, Part::Clause | Part::Background | Part::Principle)
    }

    /// The part with an article: `a clause`.
    pub fn one(self) -> &'static str {
        match self {
            Part::Clause => "a clause",
            Part::Attribute => "an attribute",
            Part::Term => "a term",
            Part::Quantity => "a quantity",
            Part::Background => "a background line",
            Part::Dimension => "a dimension",
            Part::Principle => "a principle",
            Part::Heading => "a heading",
        }
    }

    /// The part before a name: `clause`, `background line`.
    pub fn noun(self) -> &'static str {
        match self {
            Part::Background => "background line",
            other => other.word(),
        }
    }
}

/// What a change puts where.
#[derive(Clone, Debug)]
enum Matter {
    /// Nothing: a repeal.
    Nothing,
    /// A whole thing; where it goes, for an insertion.
    Whole(Box<Node>, Position),
    /// Another number.
    Number(Words),
    /// Keys with their values, and keys to leave out.
    Keys(Vec<Entry>, Vec<Words>),
    /// The value of a constant or of a table's cell.
    Amount {
        row: Option<Words>,
        column: Option<Words>,
        value: Box<Node>,
    },
}

/// Where an insertion goes.
#[derive(Clone, Debug)]
enum Position {
    /// Behind all others.
    Last,
    /// Right behind this one.
    After(Words),
    /// Right before this one.
    Before(Words),
}

/// `replace 9.1`, `insert 9.1a`, `set term long_hold`: the change in few words.
impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.action.word())?;
        if self.part != Part::Clause || self.action == Action::Set {
            write!(f, " {}", self.part.noun())?;
        }
        if let Some(name) = &self.name {
            write!(f, " {}", name.value)?;
        }
        if let Matter::Number(to) = &self.matter {
            write!(f, " to {}", to.value)?;
        }
        Ok(())
    }
}

impl Change {
    /// The number that it gives to what it names, where that is another.
    pub fn new_number(&self) -> Option<&str> {
        let id = match &self.matter {
            Matter::Number(to) => Some(to.value.as_str()),
            Matter::Whole(whole, _) if self.action == Action::Replace => {
                whole.value_of("id").and_then(Node::words)
            }
            Matter::Keys(keys, _) => {
                let id = keys.iter().find(|key| key.key.words == "id");
                id.and_then(|id| id.value.words())
            }
            _ => None,
        };
        id.filter(|id| self.name.as_ref().is_some_and(|name| name.value != **id))
    }
}

const KEYS: &[&str] = &[
    "amendment",
    "to",
    "edition",
    "reason",
    "editorial",
    "scope",
    "changes",
];

impl Reader<'_> {
    /// Reads a whole amendment.
    pub(super) fn amendment(&mut self, root: &Node) -> Option<AmendmentDraft> {
        let help = format!(
            "an amendment opens with its title, `amendment: ...`; its keys are {}",
            list_of(KEYS)
        );
        let NodeKind::Mapping(entries) = &root.kind else {
            self.expected(root, "the file", "an amendment", &help);
            return None;
        };
        let has = |key: &str| entries.iter().find(|entry| entry.key.words == key);
        if has("amendment").is_none()
            && let Some(entry) = has("ruleset")
                .or_else(|| has("scenario"))
                .or_else(|| has("cases"))
        {
            let problem = Problem::error(
                entry.key.span,
                format!("the file has `{}:`; expected an amendment", entry.key.words),
                "expected `amendment:`, the title of an amendment",
            );
            self.say(problem.help(help));
            return None;
        }
        let fields = self.fields(root, "an amendment", KEYS)?;
        let title = if let Some(node) = fields.get("amendment") {
            self.words(node, "the title of the amendment", Content::Text)
        } else {
            self.missing(&fields, "the file", "amendment", &help);
            None
        };
        let (mut to_ruleset, mut to_edition) = (None, None);
        if let Some(node) = fields.get("to")
            && let Some(base) = self.fields(node, "`to`", &["ruleset", "edition"])
        {
            to_ruleset = base
                .get("ruleset")
                .and_then(|node| self.words(node, "the title of the ruleset", Content::Text));
            to_edition = base
                .get("edition")
                .and_then(|node| self.words(node, "the edition", Content::Phrase));
        }
        let edition = fields
            .get("edition")
            .and_then(|node| self.words(node, "the edition", Content::Phrase));
        let reason = fields
            .get("reason")
            .and_then(|node| self.text(node, "the reason"));
        let editorial = fields
            .get("editorial")
            .map(|node| Spanned::new(self.yes_or_no(node, "`editorial`"), node.span));
        let scope = fields
            .get("scope")
            .and_then(|node| self.condition(node, "`scope`"));
        let changes = if let Some(node) = fields.get("changes") {
            let items = node.chapter().iter();
            items.filter_map(|item| self.change(item)).collect()
        } else {
            self.missing(
                &fields,
                "the amendment",
                "changes",
                "write the list of changes: `- repeal: \"9.3\"`",
            );
            Vec::new()
        };
        Some(AmendmentDraft {
            title: title.unwrap_or_else(|| Spanned::new(String::new(), fields.place)),
            to_ruleset,
            to_edition,
            edition,
            reason,
            editorial,
            scope,
            changes,
        })
    }

    fn change(&mut self, node: &Node) -> Option<Change> {
        let words: Vec<&str> = Action::ALL.iter().map(|action| action.word()).collect();
        let help = format!("a change opens with one of {}", list_of(&words));
        let NodeKind::Mapping(entries) = &node.kind else {
            self.expected(node, "a change", "keys with values", &help);
            return None;
        };
        let mut opened = Action::ALL.iter().filter_map(|action| {
            let entry = entries
                .iter()
                .find(|entry| entry.key.words == action.word())?;
            Some((*action, entry))
        });
        let Some((action, entry)) = opened.next() else {
            let known: Vec<&str> = Action::ALL
                .iter()
                .flat_map(|action| action.keys())
                .copied()
                .collect();
            let said = self.fields(node, "a change", &known)?;
            self.say(
                Problem::error(
                    said.place,
                    "a change does not say what it does",
                    "expected one of the words that open a change",
                )
                .help(help),
            );
            return None;
        };
        if let Some((other, second)) = opened.next() {
            let problem = Problem::error(
                second.key.span,
                format!(
                    "a change has both `{}` and `{}`",
                    action.word(),
                    other.word()
                ),
                "a second change",
            )
            .other(entry.key.span, "the first")
            .help("begin each change with a dash of its own");
            self.say(problem);
            return None;
        }
        let what = format!("a change that begins with `{}`", action.word());
        let fields = self.fields(node, &what, action.keys())?;
        let span = entry.key.span;
        let made = |part, name, matter| Change {
            action,
            part,
            name,
            span,
            matter,
        };
        match action {
            Action::Repeal => {
                let (part, name) = self.target(&entry.value, action)?;
                Some(made(part, Some(name), Matter::Nothing))
            }
            Action::Renumber => {
                let name = self.words(&entry.value, "`renumber`", Content::Phrase);
                let Some(to) = fields.get("to") else {
                    self.missing(&fields, &what, "to", "write `to: \"9.3\"`, the new number");
                    return None;
                };
                let to = self.words(to, "`to`", Content::Phrase)?;
                Some(made(Part::Clause, Some(name?), Matter::Number(to)))
            }
            Action::Replace => {
                let target = self.target(&entry.value, action);
                let Some(with) = fields.get("with") else {
                    self.missing(
                        &fields,
                        &what,
                        "with",
                        "write `with:` and below it what takes its place",
                    );
                    return None;
                };
                let (part, name) = target?;
                if with.layout == super::node::Layout::Block
                    && !matches!(with.kind, NodeKind::Mapping(_))
                    && part == Part::Clause
                {
                    self.expected(
                        with,
                        "`with`",
                        "a clause",
                        "write its keys below `with:`: `id`, `when`, `ruling`",
                    );
                    return None;
                }
                let matter = Matter::Whole(Box::new(with.clone()), Position::Last);
                Some(made(part, Some(name), matter))
            }
            Action::Insert => {
                let position = self.position(&fields)?;
                let (part, name, whole) = self.inserted(&entry.value)?;
                Some(made(part, name, Matter::Whole(Box::new(whole), position)))
            }
            Action::Set => {
                let (part, name, matter) = self.set(&entry.value)?;
                Some(made(part, Some(name), matter))
            }
        }
    }

    fn position(&mut self, fields: &Fields<'_>) -> Option<Position> {
        match (fields.entry("after"), fields.entry("before")) {
            (Some(after), Some(before)) => {
                let problem = Problem::error(
                    before.key.span,
                    "an insertion has both `after` and `before`",
                    "a second place",
                )
                .other(after.key.span, "the first")
                .help("keep one of them");
                self.say(problem);
                None
            }
            (Some(after), None) => self
                .words(&after.value, "`after`", Content::Phrase)
                .map(Position::After),
            (None, Some(before)) => self
                .words(&before.value, "`before`", Content::Phrase)
                .map(Position::Before),
            (None, None) => Some(Position::Last),
        }
    }

    /// What is repealed or replaced: the id of a clause, or the kind and name of something else.
    fn target(&mut self, node: &Node, action: Action) -> Option<(Part, Words)> {
        let key = format!("`{}`", action.word());
        let NodeKind::Mapping(entries) = &node.kind else {
            let id = self.words(node, &key, Content::Phrase)?;
            return Some((Part::Clause, id));
        };
        let (part, entry) = self.part(node, entries, &key)?;
        if let Some(extra) = entries
            .iter()
            .find(|other| other.key.span != entry.key.span)
        {
            let problem = Problem::error(
                extra.key.span,
                format!(
                    "{key} names one thing, and `{}` stands beside it",
                    shortened(&extra.key.words)
                ),
                "one key too many",
            );
            self.say(problem.help("write a change of its own for each thing"));
            return None;
        }
        let name = self.words(&entry.value, &key, Content::Phrase)?;
        Some((part, name))
    }

    /// The one entry that says which kind of thing is meant, and its name.
    fn part<'n>(
        &mut self,
        node: &Node,
        entries: &'n [Entry],
        key: &str,
    ) -> Option<(Part, &'n Entry)> {
        let mut parts = Part::ALL.iter().filter_map(|part| {
            let entry = entries
                .iter()
                .find(|entry| entry.key.words == part.word())?;
            Some((*part, entry))
        });
        let words: Vec<&str> = Part::ALL.iter().map(|part| part.word()).collect();
        let Some((part, entry)) = parts.next() else {
            self.expected(
                node,
                key,
                "what is changed, by its kind and name",
                &format!(
                    "write one of {} with its name: `term: long_hold`",
                    list_of(&words)
                ),
            );
            return None;
        };
        if let Some((_, second)) = parts.next() {
            let problem = Problem::error(
                second.key.span,
                format!("{key} names two things at once"),
                "a second thing",
            )
            .other(entry.key.span, "the first")
            .help("write a change of its own for each");
            self.say(problem);
            return None;
        }
        Some((part, entry))
    }

    /// What is inserted, in the form in which its chapter holds it.
    fn inserted(&mut self, node: &Node) -> Option<(Part, Option<Words>, Node)> {
        let NodeKind::Mapping(entries) = &node.kind else {
            self.expected(
                node,
                "`insert`",
                "a clause, or another thing by its kind and name",
                "write the clause's keys below `insert:`, or `term: NAME` and its keys",
            );
            return None;
        };
        let named = |part: Part| entries.iter().any(|entry| entry.key.words == part.word());
        if !Part::ALL.iter().any(|part| named(*part)) {
            let is = |key: &str| entries.iter().any(|entry| entry.key.words == key);
            let part = if is("never") || is("always") {
                Part::Background
            } else if is("whenever") || is("impartial_to") || is("rises_with") || is("no_gain") {
                Part::Principle
            } else {
                Part::Clause
            };
            let id = entries.iter().find(|entry| entry.key.words == "id");
            let name =
                id.and_then(|id| Some(Spanned::new(id.value.words()?.to_owned(), id.value.span)));
            if part == Part::Clause && name.is_none() {
                self.clause(node)?;
            }
            return Some((part, name, node.clone()));
        }
        let (part, entry) = self.part(node, entries, "`insert`")?;
        let name = self.words(&entry.value, "`insert`", Content::Phrase)?;
        let rest = entries
            .iter()
            .filter(|other| other.key.span != entry.key.span);
        let mut kept: Vec<Entry> = rest.cloned().collect();
        let whole = if part.is_listed() {
            let mut id = entry.clone();
            "id".clone_into(&mut id.key.words);
            kept.insert(0, id);
            NodeKind::Mapping(kept)
        } else if part == Part::Quantity
            && let [only] = kept.as_slice()
            && only.key.words == "to"
        {
            return Some((part, Some(name), only.value.clone()));
        } else if kept.is_empty() {
            NodeKind::Nothing
        } else {
            NodeKind::Mapping(kept)
        };
        let whole = Node {
            kind: whole,
            span: entry.value.span,
            layout: super::node::Layout::Block,
        };
        Some((part, Some(name), whole))
    }

    fn set(&mut self, node: &Node) -> Option<(Part, Words, Matter)> {
        let NodeKind::Mapping(entries) = &node.kind else {
            self.expected(
                node,
                "`set`",
                "what is changed, by its kind and name, and its new keys",
                "write `term: long_hold` and below it the keys that change",
            );
            return None;
        };
        let (part, entry) = self.part(node, entries, "`set`")?;
        let name = self.words(&entry.value, "`set`", Content::Phrase)?;
        let rest = || {
            entries
                .iter()
                .filter(|other| other.key.span != entry.key.span)
        };
        let find = |key: &str| rest().find(|entry| entry.key.words == key);
        if part == Part::Quantity {
            let known = ["quantity", "row", "column", "to"];
            let fields = self.fields(node, "`set` of a quantity", &known)?;
            let Some(to) = fields.get("to") else {
                let help = "write `to: 25 s`; for a cell of a table `row:` and `column:` as well";
                self.missing(&fields, "`set` of a quantity", "to", help);
                return None;
            };
            self.words(to, "`to`", Content::Phrase)?;
            let mut word = |key: &str| {
                let node = fields.get(key)?;
                self.words(node, &format!("`{key}`"), Content::Phrase)
            };
            let (row, column) = (word("row"), word("column"));
            let value = Box::new(to.clone());
            return Some((part, name, Matter::Amount { row, column, value }));
        }
        let without = find("leave_out").map_or_else(Vec::new, |entry| {
            self.words_list(&entry.value, "`leave_out`", Content::Word)
        });
        let kept: Vec<Entry> = rest()
            .filter(|entry| entry.key.words != "leave_out")
            .cloned()
            .collect();
        if kept.is_empty() && without.is_empty() {
            let problem = Problem::error(
                entry.key.span,
                format!(
                    "`set` changes nothing of the {} `{}`",
                    part.noun(),
                    name.value
                ),
                "expected the keys that change below it",
            );
            self.say(problem.help(
                "write the keys with their new values, or `leave_out:` with the keys to take away",
            ));
            return None;
        }
        Some((part, name, Matter::Keys(kept, without)))
    }
}
