//! Changes made to the tree of a ruleset file.
//!
//! The nodes of a changed tree keep the places where they were written, in whichever file.

use super::plan::{chapter, is_below, plan};
use super::{AmendmentDraft, Change, Part};
use crate::problem::{Gravity, Problem};
use crate::read::draft::{ClauseDraft, RulesetDraft, Words};
use crate::read::node::{Entry, Key, Layout, Node, NodeKind, Scalar, Style};
use crate::read::reader::Reader;
use crate::source::{SourceId, Sources, Span};
use std::sync::Arc;

/// A ruleset file as a tree of words, possibly with changes made to it.
#[derive(Clone, Debug)]
pub struct Tree {
    pub(super) root: Node,
    /// What changes have taken away or renumbered, the latest last.
    pub(super) gone: Vec<Gone>,
    /// For each item of the list of clauses its place in the file's list, where no change touched it.
    untouched: Vec<Option<usize>>,
    /// Whether a change touched something that a name of a condition or a ruling may mean.
    defines_anew: bool,
}

/// What a change has taken away.
#[derive(Clone, Debug)]
pub(super) struct Gone {
    pub(super) part: Part,
    pub(super) name: String,
    pub(super) by: Span,
}

impl Gone {
    /// Whether words that refer to nothing meant this.
    fn leaves(&self, words: &str) -> bool {
        self.name == words || self.part == Part::Clause && is_below(&self.name, words)
    }
}

impl Tree {
    pub(in crate::read) fn new(root: Node) -> Tree {
        let mut tree = Tree {
            root,
            gone: Vec::new(),
            untouched: Vec::new(),
            defines_anew: false,
        };
        tree.settle();
        tree
    }

    /// Forgets what changes have touched: the tree as it is now is what later ones are made to.
    pub fn settle(&mut self) {
        let clauses = self.clauses().map_or(0, |(_, items)| items);
        self.untouched = (0..clauses).map(Some).collect();
        self.defines_anew = false;
    }

    /// Whether changes have touched a definition, so that a name may mean something else in clauses that
    /// they have not touched.
    pub fn defines_anew(&self) -> bool {
        self.defines_anew
    }

    /// The items of the list of clauses that no change has touched: for each item, in order, its place
    /// before the changes.
    pub fn untouched(&self) -> &[Option<usize>] {
        &self.untouched
    }

    /// Where the list of clauses stands, and how many items it has.
    fn clauses(&self) -> Option<(usize, usize)> {
        let (at, node) = chapter(&self.root, Part::Clause)?;
        match &node.kind {
            NodeKind::List(items) => Some((at, items.len())),
            _ => None,
        }
    }

    /// Whether an operation is not about clauses or about what only refers to them.
    fn is_definition(&self, operation: &Operation) -> bool {
        let key = match (operation.path(), operation) {
            ([at, ..], _) | ([], Operation::RemoveEntry(_, at) | Operation::Rekey(_, at, _)) => {
                match &self.root.kind {
                    NodeKind::Mapping(entries) => entries.get(*at).map(|it| it.key.words.as_str()),
                    _ => None,
                }
            }
            ([], Operation::SetEntry(_, key, _) | Operation::InsertEntry(_, _, key, _)) => {
                Some(key.words.as_str())
            }
            _ => None,
        };
        let others = [
            Part::Clause,
            Part::Heading,
            Part::Principle,
            Part::Background,
        ];
        !key.is_some_and(|key| {
            matches!(key, "edition" | "accepted") || others.iter().any(|it| it.chapter() == key)
        })
    }

    fn perform(&mut self, operation: Operation) {
        if let Some((at, _)) = self.clauses() {
            operation.touch(at, &mut self.untouched);
        }
        self.defines_anew |= self.is_definition(&operation);
        operation.perform(&mut self.root);
        // A list that came or went as a whole.
        let left = self.clauses().map_or(0, |(_, items)| items);
        if left != self.untouched.len() {
            self.untouched = vec![None; left];
        }
    }

    /// The tree after the changes of an amendment, its new edition included. Everything that is
    /// wrong with the changes is added to `problems`; `None` where something is.
    pub fn amended(&self, amendment: &AmendmentDraft, problems: &mut Vec<Problem>) -> Option<Tree> {
        let changes: Vec<&Change> = amendment.changes.iter().collect();
        let mut tree = self.changed(&changes, problems)?;
        if let Some(edition) = &amendment.edition {
            for operation in edition_set(&tree.root, edition) {
                tree.perform(operation);
            }
        }
        Some(tree)
    }

    /// The tree after some changes, in this order.
    pub fn changed(&self, changes: &[&Change], problems: &mut Vec<Problem>) -> Option<Tree> {
        let mut tree = self.clone();
        let mut sound = true;
        for change in changes {
            match plan(change, &tree) {
                Ok(planned) => {
                    for operation in planned.operations {
                        tree.perform(operation);
                    }
                    tree.gone.extend(planned.gone);
                }
                Err(problem) => {
                    sound = false;
                    problems.push(problem);
                }
            }
        }
        sound.then_some(tree)
    }

    /// Reads the ruleset that the tree is; `sources` hold the files that its nodes come from, `read` is
    /// what was read before the changes of items of the list of clauses, without a problem.
    pub fn ruleset(
        &self,
        sources: &Sources,
        read: &[Option<Arc<ClauseDraft>>],
        problems: &mut Vec<Problem>,
    ) -> Option<RulesetDraft> {
        let files = sources
            .ids()
            .filter_map(|id| Some((id, sources.get(id)?.text())));
        let files: Vec<(SourceId, &str)> = files.collect();
        let mut found = Vec::new();
        let mut reader = Reader::over(files, &mut found);
        let untouched = self.untouched.iter();
        reader.read_before = untouched
            .map(|before| before.and_then(|before| read.get(before)?.clone()))
            .collect();
        let draft = reader.ruleset(&self.root);
        crate::read::hand_over(found, problems);
        draft
    }

    /// Puts what is wrong with a ruleset that was resolved from this tree into terms of the changes:
    /// a name that nothing has any more is told where it was taken away, with every place that
    /// still uses it.
    pub fn told_by_changes(&self, problems: Vec<Problem>, sources: &Sources) -> Vec<Problem> {
        let mut kept: Vec<Problem> = Vec::new();
        let mut orphans: Vec<(usize, Vec<Span>)> = Vec::new();
        for problem in problems {
            let words = sources.slice(problem.span);
            let words = words.trim_matches(['"', '\'', ' ']);
            let gone = self.gone.iter().rposition(|gone| gone.leaves(words));
            match gone.filter(|_| problem.gravity == Gravity::Error) {
                Some(index) => match orphans.iter_mut().find(|(known, _)| *known == index) {
                    Some((_, places)) => places.push(problem.span),
                    None => orphans.push((index, vec![problem.span])),
                },
                None => kept.push(problem),
            }
        }
        let mut told = Vec::with_capacity(orphans.len() + kept.len());
        for (index, places) in orphans {
            let Some(gone) = self.gone.get(index) else {
                continue;
            };
            let mut problem = Problem::error(
                gone.by,
                format!(
                    "{} `{}` is taken away, and others still refer to it",
                    gone.part.noun(),
                    gone.name
                ),
                "taken away here",
            );
            for place in &places {
                problem = problem.other(*place, "still refers to it");
            }
            let changes = consequential(&self.root, &places);
            told.push(problem.help(if changes.len() == places.len() {
                format!(
                    "add the changes that follow from it: {}",
                    and_then(&changes)
                )
            } else {
                format!(
                    "change what refers to {} in the same amendment: `set` or `replace` it without the reference, or repeal it too",
                    gone.name
                )
            }));
        }
        told.append(&mut kept);
        told
    }

    /// The changes that would have to be made besides, so that nothing refers to what was taken away:
    /// lines of an amendment. `None` where something else is wrong too, or where more than lists of
    /// references would have to be changed.
    pub fn follow_ups(&self, problems: &[Problem], sources: &Sources) -> Option<Vec<String>> {
        let wrong = problems.iter().filter(|it| it.gravity == Gravity::Error);
        let places: Vec<Span> = wrong.map(|problem| problem.span).collect();
        let left = |place: &Span| {
            let words = sources.slice(*place).trim_matches(['"', '\'', ' ']);
            self.gone.iter().any(|gone| gone.leaves(words))
        };
        if !places.iter().all(left) {
            return None;
        }
        let changes = consequential(&self.root, &places);
        let whole = changes.len() == places.len();
        whole.then(|| changes.into_iter().filter(|it| !it.is_empty()).collect())
    }
}

fn and_then(changes: &[String]) -> String {
    let said: Vec<String> = changes
        .iter()
        .filter(|change| !change.is_empty())
        .map(|change| format!("`{change}`"))
        .collect();
    said.join(" ")
}

/// The changes that take away references at these places, for lists of references of clauses and
/// headings; a condition has to be thought about.
fn consequential(root: &Node, places: &[Span]) -> Vec<String> {
    const LISTS: &[&str] = &["notwithstanding", "subject_to", "disapplies", "covers"];
    let mut changes = Vec::new();
    let NodeKind::Mapping(chapters) = &root.kind else {
        return changes;
    };
    let quoted = |words: &str| format!("\"{words}\"");
    for chapter in chapters {
        let named: Vec<(Part, String, &Node)> = match &chapter.value.kind {
            NodeKind::List(items) if chapter.key.words == "clauses" => items
                .iter()
                .filter_map(|item| {
                    Some((Part::Clause, item.value_of("id")?.words()?.to_owned(), item))
                })
                .collect(),
            NodeKind::Mapping(entries) if chapter.key.words == "headings" => entries
                .iter()
                .map(|entry| (Part::Heading, entry.key.words.clone(), &entry.value))
                .collect(),
            _ => continue,
        };
        for (part, name, node) in named {
            for key in LISTS {
                let Some(value) = node.value_of(key) else {
                    continue;
                };
                let is_orphan = |item: &&Node| places.contains(&item.span);
                let orphans = value.items().iter().filter(is_orphan).count();
                if orphans == 0 {
                    continue;
                }
                let left = value.items().iter().filter(|item| !is_orphan(item));
                let left: Vec<String> = left.filter_map(Node::words).map(quoted).collect();
                let thing = format!("{}: {}", part.word(), quoted(&name));
                let change = if left.is_empty() {
                    format!("- set: {{{thing}, leave_out: {key}}}")
                } else {
                    format!("- set: {{{thing}, {key}: [{}]}}", left.join(", "))
                };
                // One change for each reference that it takes away, so that none is overlooked.
                changes.push(change);
                changes.extend((1..orphans).map(|_| String::new()));
            }
        }
    }
    changes
}

/// A way to a node: for a mapping the index of an entry, for a list of an item.
pub(super) type Path = Vec<usize>;

/// One step of a change on a tree. Its paths are those of the tree before it.
#[derive(Clone, Debug)]
pub(super) enum Operation {
    ReplaceItem(Path, usize, Node),
    InsertItem(Path, usize, Node),
    RemoveItem(Path, usize),
    /// Gives a key of a mapping a value; behind the others where it has none yet.
    SetEntry(Path, Key, Node),
    InsertEntry(Path, usize, Key, Node),
    RemoveEntry(Path, usize),
    /// Other words in place of a scalar's.
    Reword(Path, String, Option<Span>),
    /// Another key for an entry.
    Rekey(Path, usize, String),
}

impl Operation {
    /// The way to what it changes.
    fn path(&self) -> &[usize] {
        match self {
            Operation::InsertEntry(path, ..)
            | Operation::InsertItem(path, ..)
            | Operation::Rekey(path, ..)
            | Operation::RemoveEntry(path, _)
            | Operation::RemoveItem(path, _)
            | Operation::ReplaceItem(path, ..)
            | Operation::Reword(path, ..)
            | Operation::SetEntry(path, ..) => path,
        }
    }

    /// Notes what the operation touches in the list of clauses, which stands at this place of the root.
    fn touch(&self, list: usize, untouched: &mut Vec<Option<usize>>) {
        use Operation::{InsertItem, Rekey, RemoveEntry, RemoveItem, ReplaceItem, SetEntry};
        match (self.path(), self) {
            ([at, item, ..], _) if *at == list => {
                if let Some(slot) = untouched.get_mut(*item) {
                    *slot = None;
                }
            }
            ([at], InsertItem(_, item, _)) if *at == list => {
                untouched.insert((*item).min(untouched.len()), None);
            }
            ([at], RemoveItem(_, item)) if *at == list && *item < untouched.len() => {
                untouched.remove(*item);
            }
            ([at], ReplaceItem(_, item, _)) if *at == list => {
                if let Some(slot) = untouched.get_mut(*item) {
                    *slot = None;
                }
            }
            ([at], _) if *at == list => untouched.clear(),
            // A key of the ruleset itself, which may be that of the clauses.
            ([], SetEntry(_, key, _)) if key.words == Part::Clause.chapter() => untouched.clear(),
            ([], RemoveEntry(_, at) | Rekey(_, at, _)) if *at == list => untouched.clear(),
            _ => {}
        }
    }

    pub(super) fn perform(self, root: &mut Node) {
        match self {
            Operation::ReplaceItem(path, index, node) => {
                if let Some(slot) = items(root, &path).and_then(|items| items.get_mut(index)) {
                    *slot = node;
                }
            }
            Operation::InsertItem(path, index, node) => {
                if let Some(items) = items(root, &path) {
                    items.insert(index.min(items.len()), node);
                }
            }
            Operation::RemoveItem(path, index) => {
                if let Some(items) = items(root, &path).filter(|items| index < items.len()) {
                    items.remove(index);
                }
            }
            Operation::SetEntry(path, key, value) => {
                if let Some(entries) = entries(root, &path) {
                    let known = entries
                        .iter_mut()
                        .find(|entry| entry.key.words == key.words);
                    match known {
                        Some(entry) => *entry = Entry { key, value },
                        None => entries.push(Entry { key, value }),
                    }
                }
            }
            Operation::InsertEntry(path, index, key, value) => {
                if let Some(entries) = entries(root, &path) {
                    entries.insert(index.min(entries.len()), Entry { key, value });
                }
            }
            Operation::RemoveEntry(path, index) => {
                if let Some(entries) = entries(root, &path).filter(|all| index < all.len()) {
                    entries.remove(index);
                }
            }
            Operation::Reword(path, words, span) => {
                if let Some(node) = node_mut(root, &path) {
                    if let NodeKind::Scalar(scalar) = &mut node.kind {
                        scalar.words = words;
                    }
                    node.span = span.unwrap_or(node.span);
                }
            }
            Operation::Rekey(path, index, words) => {
                if let Some(entry) = entries(root, &path).and_then(|all| all.get_mut(index)) {
                    entry.key.words = words;
                }
            }
        }
    }
}

/// The node at a path.
pub(super) fn node_at<'n>(root: &'n Node, path: &[usize]) -> Option<&'n Node> {
    path.iter().try_fold(root, |node, step| match &node.kind {
        NodeKind::List(items) => items.get(*step),
        NodeKind::Mapping(entries) => entries.get(*step).map(|entry| &entry.value),
        NodeKind::Nothing | NodeKind::Scalar(_) => None,
    })
}

fn node_mut<'n>(root: &'n mut Node, path: &[usize]) -> Option<&'n mut Node> {
    path.iter()
        .try_fold(root, |node, step| match &mut node.kind {
            NodeKind::List(items) => items.get_mut(*step),
            NodeKind::Mapping(entries) => entries.get_mut(*step).map(|entry| &mut entry.value),
            NodeKind::Nothing | NodeKind::Scalar(_) => None,
        })
}

fn items<'n>(root: &'n mut Node, path: &[usize]) -> Option<&'n mut Vec<Node>> {
    match &mut node_mut(root, path)?.kind {
        NodeKind::List(items) => Some(items),
        _ => None,
    }
}

/// The entries of a mapping; what says nothing becomes an empty one.
fn entries<'n>(root: &'n mut Node, path: &[usize]) -> Option<&'n mut Vec<Entry>> {
    let node = node_mut(root, path)?;
    if matches!(node.kind, NodeKind::Nothing) {
        node.kind = NodeKind::Mapping(Vec::new());
    }
    match &mut node.kind {
        NodeKind::Mapping(entries) => Some(entries),
        _ => None,
    }
}

/// What gives a ruleset another edition: after its title where it had none.
pub(super) fn edition_set(root: &Node, edition: &Words) -> Vec<Operation> {
    let NodeKind::Mapping(entries) = &root.kind else {
        return Vec::new();
    };
    let value = Node {
        kind: NodeKind::Scalar(Scalar {
            words: edition.value.clone(),
            style: Style::DoubleQuoted,
        }),
        span: edition.span,
        layout: Layout::Block,
    };
    let find = |key: &str| entries.iter().position(|entry| entry.key.words == key);
    let key = Key {
        words: "edition".to_owned(),
        span: edition.span,
    };
    match (find("edition"), find("ruleset")) {
        (Some(_), _) => vec![Operation::SetEntry(Vec::new(), key, value)],
        (None, Some(title)) => {
            vec![Operation::InsertEntry(Vec::new(), title + 1, key, value)]
        }
        (None, None) => Vec::new(),
    }
}
