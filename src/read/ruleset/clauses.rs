//! What the rules decide, and the clauses that decide it.

use crate::problem::{Problem, nearest};
use crate::read::draft::{
    ClauseDraft, DimensionDraft, HeadingDraft, RulingDraft, WhenSeveral, Words,
};
use crate::read::node::{Entry, Node, NodeKind};
use crate::read::reader::{Content, Fields, Reader, list_of};
use crate::source::Spanned;
use std::sync::Arc;

const WAYS: &[(&str, WhenSeveral)] = &[
    ("must_agree", WhenSeveral::MustAgree),
    ("highest", WhenSeveral::Highest),
    ("lowest", WhenSeveral::Lowest),
    ("all_apply", WhenSeveral::AllApply),
];

/// The keys of a clause, in the order in which they are best written.
pub(crate) const CLAUSE_KEYS: &[&str] = &[
    "id",
    "title",
    "text",
    "when",
    "unless",
    "ruling",
    "notwithstanding",
    "subject_to",
    "disapplies",
];

impl Reader<'_> {
    pub(super) fn dimensions(&mut self, node: &Node) -> Vec<DimensionDraft> {
        let help = "write `name:` with `scale:` or `choice:` below it";
        let entries = self.entries(node, "`rulings`", help);
        entries
            .iter()
            .filter_map(|entry| self.dimension(entry))
            .collect()
    }

    fn dimension(&mut self, entry: &Entry) -> Option<DimensionDraft> {
        let name = self.name_of_key(&entry.key, "a dimension");
        let what = format!("the dimension `{}`", entry.key.words);
        let known = [
            "label",
            "scale",
            "choice",
            "when_several",
            "otherwise",
            "required_when",
            "intermediate",
        ];
        if !matches!(entry.value.kind, NodeKind::Mapping(_)) {
            self.expected(
                &entry.value,
                &what,
                "keys with values",
                "write `scale:` (lowest first) or `choice:` below it, with its values",
            );
            return None;
        }
        let fields = self.fields(&entry.value, "a dimension", &known)?;
        let (scale, choice) = (fields.entry("scale"), fields.entry("choice"));
        let ordered = scale.is_some();
        if let (Some(scale), Some(choice)) = (scale, choice) {
            let (first, second) = if scale.key.span < choice.key.span {
                (scale, choice)
            } else {
                (choice, scale)
            };
            let problem = Problem::error(
                second.key.span,
                format!(
                    "{what} has both `{}` and `{}`",
                    first.key.words, second.key.words
                ),
                "a second list of values",
            )
            .other(first.key.span, "the first")
            .help("keep `scale` where its values have an order, `choice` where they have none");
            self.say(problem);
        }
        let values = if let Some(entry) = scale.or(choice) {
            let key = format!("`{}`", entry.key.words);
            self.values(&entry.value, &key)
        } else {
            let problem = Problem::error(
                entry.key.span,
                format!("{what} has no values"),
                "expected `scale:` or `choice:` below it",
            )
            .help("write `scale: [none, caution]`, lowest first, or `choice: [...]` where there is no order");
            self.say(problem);
            None
        };
        let label = fields
            .get("label")
            .and_then(|node| self.text(node, "a label"));
        let when_several = fields
            .get("when_several")
            .and_then(|node| self.when_several(node));
        // Where all apply, one value is imposed or it is not.
        let all_apply = fields
            .get("when_several")
            .is_some_and(|node| node.words() == Some("all_apply"));
        if let Some(entry) = scale.or(choice)
            && !all_apply
        {
            self.more_than_one(
                entry,
                "write its other values too; what is imposed or not stands beside `when_several: all_apply`",
            );
        }
        let otherwise = self.otherwise(&fields, when_several.as_ref().map(|way| way.value));
        let required_when = fields
            .get("required_when")
            .and_then(|node| self.condition(node, "`required_when`"));
        let intermediate = fields
            .get("intermediate")
            .is_some_and(|node| self.yes_or_no(node, "`intermediate`"));
        Some(DimensionDraft {
            name: name?,
            label,
            values: values?,
            ordered,
            when_several,
            otherwise,
            required_when,
            intermediate,
        })
    }

    fn when_several(&mut self, node: &Node) -> Option<Spanned<WhenSeveral>> {
        let words = self.words(node, "`when_several`", Content::Word)?;
        if let Some((_, way)) = WAYS.iter().find(|(word, _)| *word == words.value) {
            return Some(Spanned::new(*way, words.span));
        }
        let known: Vec<&str> = WAYS.iter().map(|(word, _)| *word).collect();
        let problem = Problem::error(
            words.span,
            format!(
                "`{}` is no way for several rulings to come together",
                words.value
            ),
            format!("expected one of {}", list_of(&known)),
        );
        let near = nearest(&words.value, known.iter().copied());
        self.say(match near {
            Some(near) => problem.help(format!("did you mean `{near}`?")),
            None => problem.help("without this key several rulings must agree"),
        });
        None
    }

    fn otherwise(
        &mut self,
        fields: &Fields<'_>,
        way: Option<WhenSeveral>,
    ) -> Option<Spanned<Vec<Words>>> {
        let node = fields.get("otherwise")?;
        let listed = matches!(node.kind, NodeKind::List(_));
        if listed && way != Some(WhenSeveral::AllApply) {
            let problem = Problem::error(
                node.span,
                "`otherwise` is a list where one ruling was expected",
                "expected one value",
            )
            .help("write one value; a list stands only beside `when_several: all_apply`");
            self.say(problem);
            return None;
        }
        let values = match &node.kind {
            // An empty set is a ruling of its own where all apply.
            NodeKind::List(items) if items.is_empty() => Vec::new(),
            _ => self.words_list(node, "`otherwise`", Content::Word),
        };
        Some(Spanned::new(values, node.span))
    }

    pub(super) fn clauses(&mut self, node: &Node) -> Vec<Arc<ClauseDraft>> {
        let mut known = std::mem::take(&mut self.read_before).into_iter();
        let mut clauses = Vec::with_capacity(node.chapter().len());
        for item in node.chapter() {
            let clause = match known.next().flatten() {
                Some(clause) => Some(clause),
                None => self.clause(item).map(Arc::new),
            };
            clauses.extend(clause);
        }
        clauses
    }

    /// Reads one clause.
    pub(crate) fn clause(&mut self, node: &Node) -> Option<ClauseDraft> {
        let fields = self.fields(node, "a clause", CLAUSE_KEYS)?;
        let id = if let Some(node) = fields.get("id") {
            self.words(node, "the id of a clause", Content::Phrase)
        } else {
            self.missing(
                &fields,
                "a clause",
                "id",
                "write `id: \"7.1\"`, the number or name by which the clause is cited",
            );
            None
        };
        let mut text = |key: &str, what: &str| {
            let node = fields.get(key)?;
            self.text(node, what)
        };
        let title = text("title", "the title of a clause");
        let wording = text("text", "the text of a clause");
        let when = fields
            .get("when")
            .and_then(|node| self.condition(node, "`when`"));
        let unless = fields
            .get("unless")
            .and_then(|node| self.condition(node, "`unless`"));
        let ruling = fields
            .get("ruling")
            .map_or_else(Vec::new, |node| self.ruling(node));
        let mut references = |key: &str| {
            fields.get(key).map_or_else(Vec::new, |node| {
                self.words_list(node, &format!("`{key}`"), Content::Phrase)
            })
        };
        let notwithstanding = references("notwithstanding");
        let subject_to = references("subject_to");
        let disapplies = references("disapplies");
        Some(ClauseDraft {
            id: id?,
            title,
            text: wording,
            when,
            unless,
            ruling,
            notwithstanding,
            subject_to,
            disapplies,
            span: node.span,
        })
    }

    fn ruling(&mut self, node: &Node) -> Vec<RulingDraft> {
        let help = "write the dimension and its value: `penalty: caution`";
        let NodeKind::Mapping(entries) = &node.kind else {
            self.expected(node, "`ruling`", "a dimension with its value", help);
            return Vec::new();
        };
        if entries.is_empty() {
            self.empty_list(node, "`ruling`");
        }
        let mut rulings = Vec::with_capacity(entries.len());
        for entry in entries {
            let dimension = Spanned::new(entry.key.words.clone(), entry.key.span);
            let what = format!("the ruling on `{}`", entry.key.words);
            let (values, discretion) = match &entry.value.kind {
                NodeKind::Mapping(_) => {
                    let Some(fields) = self.fields(&entry.value, "a ruling", &["may_be"]) else {
                        continue;
                    };
                    let Some(node) = fields.get("may_be") else {
                        continue;
                    };
                    (self.words_list(node, "`may_be`", Content::Word), true)
                }
                NodeKind::List(_) => {
                    self.expected(
                        &entry.value,
                        &what,
                        "one value",
                        "where the official may choose, write `{may_be: [...]}`; where all apply, write a clause for each",
                    );
                    continue;
                }
                _ => {
                    let words = self.words(&entry.value, &what, Content::Word);
                    (words.into_iter().collect(), false)
                }
            };
            if !values.is_empty() {
                rulings.push(RulingDraft {
                    dimension,
                    values,
                    discretion,
                });
            }
        }
        rulings
    }

    pub(super) fn headings(&mut self, node: &Node) -> Vec<HeadingDraft> {
        let help = "write `\"5\": Holds`, or `\"5\":` with `title:` and `when:` below it";
        let entries = self.entries(node, "`headings`", help);
        let mut headings = Vec::with_capacity(entries.len());
        for entry in entries {
            let name = Spanned::new(entry.key.words.clone(), entry.key.span);
            let heading = match &entry.value.kind {
                NodeKind::Mapping(_) => {
                    let Some(fields) =
                        self.fields(&entry.value, "a heading", &["title", "when", "covers"])
                    else {
                        continue;
                    };
                    HeadingDraft {
                        name,
                        title: fields
                            .get("title")
                            .and_then(|node| self.text(node, "the title of a heading")),
                        when: fields
                            .get("when")
                            .and_then(|node| self.condition(node, "`when`")),
                        covers: fields.get("covers").map_or_else(Vec::new, |node| {
                            self.words_list(node, "`covers`", Content::Phrase)
                        }),
                    }
                }
                _ => HeadingDraft {
                    name,
                    title: self.text(&entry.value, &format!("the heading `{}`", entry.key.words)),
                    when: None,
                    covers: Vec::new(),
                },
            };
            headings.push(heading);
        }
        headings
    }
}
