//! Conditions where they stand in a file: one text, a list, or a group of lists.

use super::{Content, Reader, cut_short, unknown_key};
use crate::problem::Problem;
use crate::read::condition;
use crate::read::draft::{Expr, ExprKind};
use crate::read::node::{Entry, Node, NodeKind, Scalar};
use crate::read::scalar::Mapped;

impl Reader<'_> {
    /// A condition: one text, a list of which all hold, or `all`, `any`, `none` of a list.
    pub(crate) fn condition(&mut self, node: &Node, what: &str) -> Option<Expr> {
        match &node.kind {
            NodeKind::Nothing => {
                self.expected(
                    node,
                    what,
                    "a condition",
                    "write a condition, or delete the key",
                );
                None
            }
            NodeKind::Scalar(scalar) => self.condition_text(node, scalar, what),
            NodeKind::List(items) => {
                if items.is_empty() {
                    self.empty_list(node, what);
                }
                let mut parts = self.conditions(items, what)?;
                if parts.len() == 1 {
                    return parts.pop();
                }
                Some(Expr {
                    kind: ExprKind::All(parts),
                    span: node.span,
                })
            }
            NodeKind::Mapping(entries) => self.condition_group(node, entries, what),
        }
    }

    /// Each of some conditions; `None` where there is none or one of them has a problem.
    fn conditions(&mut self, items: &[Node], what: &str) -> Option<Vec<Expr>> {
        // Not stopping at the first, so that every problem is said.
        let parts: Vec<Option<Expr>> = items
            .iter()
            .map(|item| self.condition(item, what))
            .collect();
        let parts: Option<Vec<Expr>> = parts.into_iter().collect();
        parts.filter(|parts| !parts.is_empty())
    }

    fn condition_group(&mut self, node: &Node, entries: &[Entry], what: &str) -> Option<Expr> {
        const KINDS: &[&str] = &["all", "any", "none"];
        let help = "write one text, a list of which all hold, or one of `all:`, `any:`, `none:` with a list";
        let mut known = entries
            .iter()
            .filter(|entry| KINDS.contains(&entry.key.words.as_str()));
        let first = known.next();
        let second = known.next();
        for entry in entries {
            if !KINDS.contains(&entry.key.words.as_str()) {
                let mut problem = unknown_key(entry, "a condition", KINDS, node.layout);
                if let Some(value) = entry.value.words() {
                    let key = &entry.key.words;
                    problem =
                        problem.help(format!("write it as a text: `{key} is {value}`; {help}"));
                }
                self.say(problem);
            }
        }
        let Some(first) = first else {
            if entries.is_empty() {
                self.expected(node, what, "a condition", help);
            }
            return None;
        };
        if let Some(second) = second {
            let problem = Problem::error(
                second.key.span,
                format!(
                    "a condition has both `{}` and `{}`",
                    first.key.words, second.key.words
                ),
                "a second one",
            )
            .other(first.key.span, "the first")
            .help("nest them: a list item may itself be `all:`, `any:` or `none:`");
            self.say(problem);
        }
        let items = match &first.value.kind {
            NodeKind::Nothing => &[],
            _ => first.value.items(),
        };
        if items.is_empty() {
            let problem = Problem::error(
                first.key.span,
                format!("`{}` has no conditions", first.key.words),
                "expected a list of conditions",
            )
            .help("write its conditions as a list, or delete it");
            self.say(problem);
        }
        let parts = self.conditions(items, what)?;
        if second.is_some() || entries.len() > 1 {
            return None;
        }
        Some(Expr {
            kind: match first.key.words.as_str() {
                "any" => ExprKind::Any(parts),
                "none" => ExprKind::NoneOf(parts),
                _ => ExprKind::All(parts),
            },
            span: node.span,
        })
    }

    fn condition_text(&mut self, node: &Node, scalar: &Scalar, what: &str) -> Option<Expr> {
        if scalar.words.trim().is_empty() {
            self.words(node, what, Content::Phrase);
            return None;
        }
        if self.cut_by_comment(node, scalar, what, Content::Phrase) {
            return None;
        }
        let mapped = Mapped::scalar(self.file(node.span), node.span, scalar.style, &scalar.words);
        let said = self.problems.len();
        let reading = condition::read(&mapped, self.problems);
        if reading.ended_early
            && let Some(comment) = self.comment_behind(node, scalar)
        {
            self.problems.truncate(said);
            self.say(cut_short(comment.span, what, "a condition"));
        }
        reading.expr
    }
}
