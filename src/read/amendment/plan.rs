//! A change of an amendment as steps on the tree of a ruleset, or what is wrong with it.

use super::apply::{Gone, Operation, Tree, node_at};
use super::renumber::renumber;
use super::{Action, Change, Matter, Part, Position};
use crate::problem::{Problem, nearest};
use crate::read::draft::Words;
use crate::read::node::{Entry, Key, Layout, Node, NodeKind};
use crate::source::Span;

/// The steps of a change, and what it takes away.
pub(super) struct Plan {
    pub(super) operations: Vec<Operation>,
    pub(super) gone: Vec<Gone>,
}

impl From<Vec<Operation>> for Plan {
    fn from(operations: Vec<Operation>) -> Plan {
        Plan {
            operations,
            gone: Vec::new(),
        }
    }
}

/// Plans one change on a tree.
///
/// # Errors
/// What is wrong with it, at its words and at those of the ruleset that stand against it.
pub(super) fn plan(change: &Change, tree: &Tree) -> Result<Plan, Problem> {
    match (&change.matter, &change.name) {
        (Matter::Nothing, Some(name)) => repeal(change.part, name, tree),
        (Matter::Number(to), Some(name)) => renumber(name, to, tree),
        (Matter::Whole(node, position), name) if change.action == Action::Insert => {
            insert(change, name.as_ref(), node, position, tree)
        }
        (Matter::Whole(node, _), Some(name)) => replace(change.part, name, node, tree),
        (Matter::Keys(keys, without), Some(name)) => set(change.part, name, keys, without, tree),
        (Matter::Amount { row, column, value }, Some(name)) => {
            amount(name, row.as_ref(), column.as_ref(), value, tree).map(Plan::from)
        }
        (_, None) => Ok(Plan::from(Vec::new())),
    }
}

/// A chapter of a ruleset: where it stands, and the node.
pub(super) fn chapter(root: &Node, part: Part) -> Option<(usize, &Node)> {
    let NodeKind::Mapping(entries) = &root.kind else {
        return None;
    };
    let index = entries
        .iter()
        .position(|entry| entry.key.words == part.chapter())?;
    entries.get(index).map(|entry| (index, &entry.value))
}

/// What a chapter holds: each one's name, with its place.
pub(super) fn members(root: &Node, part: Part) -> Vec<(String, Span)> {
    let Some((_, node)) = chapter(root, part) else {
        return Vec::new();
    };
    match &node.kind {
        NodeKind::List(_) | NodeKind::Mapping(_) if part.is_listed() => {
            let ids = node.items().iter().map(id_of);
            ids.map(|id| id.unwrap_or((String::new(), node.span)))
                .collect()
        }
        NodeKind::Mapping(entries) => entries
            .iter()
            .map(|entry| (entry.key.words.clone(), entry.key.span))
            .collect(),
        _ => Vec::new(),
    }
}

fn id_of(item: &Node) -> Option<(String, Span)> {
    let id = entry(item, "id")?;
    Some((id.value.words()?.to_owned(), id.value.span))
}

fn entry<'n>(node: &'n Node, key: &str) -> Option<&'n Entry> {
    let NodeKind::Mapping(entries) = &node.kind else {
        return None;
    };
    entries.iter().find(|entry| entry.key.words == key)
}

/// Whether an id continues a number with `.` or `(`.
pub(super) fn is_below(id: &str, number: &str) -> bool {
    let rest = id.strip_prefix(number);
    rest.is_some_and(|rest| rest.starts_with(['.', '(']))
}

/// Where a thing stands in its chapter.
fn find(tree: &Tree, part: Part, name: &Words) -> Result<usize, Problem> {
    let members = members(&tree.root, part);
    let found = members.iter().position(|(known, _)| *known == name.value);
    found.ok_or_else(|| absent(tree, part, name, &members))
}

/// Says that what is changed is not there: where it went, or what is near.
pub(super) fn absent(tree: &Tree, part: Part, name: &Words, members: &[(String, Span)]) -> Problem {
    let noun = part.noun();
    let problem = Problem::error(
        name.span,
        format!("there is no {noun} `{}` to change", name.value),
        "not in the ruleset as it stands before this change",
    );
    let gone = tree.gone.iter().rev();
    let mut gone = gone.filter(|gone| gone.part == part && gone.name == name.value);
    if let Some(gone) = gone.next() {
        return problem
            .other(gone.by, "taken away or renumbered here")
            .help("changes are made in the order in which they stand");
    }
    let known = members.iter().map(|(name, _)| name.as_str());
    if let Some(near) = nearest(&name.value, known) {
        let place = members.iter().find(|(name, _)| name == near);
        let problem = match place {
            Some((_, place)) => problem.other(*place, format!("there is `{near}`")),
            None => problem,
        };
        return problem.help(format!("did you mean `{near}`?"));
    }
    let problem = match members.first() {
        Some((_, place)) => problem.other(
            *place,
            format!("the ruleset's {} begin here", part.chapter()),
        ),
        None => match &tree.root.kind {
            NodeKind::Mapping(entries) => {
                let title = entries
                    .first()
                    .map_or(tree.root.span, |entry| entry.key.span);
                problem.other(title, format!("this ruleset has no {}", part.chapter()))
            }
            _ => problem,
        },
    };
    problem.help(format!("to add {}, write `insert`", part.one()))
}

/// Says that a name is there already.
pub(super) fn taken(name: &Words, part: Part, place: Span) -> Problem {
    Problem::error(
        name.span,
        format!("there is {} `{}` already", part.one(), name.value),
        "expected a name of its own",
    )
    .other(place, "the name is taken here")
    .help("choose another, or `replace` or `renumber` the one that is there first")
}

fn repeal(part: Part, name: &Words, tree: &Tree) -> Result<Plan, Problem> {
    let members = members(&tree.root, part);
    let is_meant =
        |known: &str| known == name.value || part == Part::Clause && is_below(known, &name.value);
    let mut wanted: Vec<usize> = Vec::new();
    let mut gone = columns_of(tree, part, name);
    for (index, (known, _)) in members.iter().enumerate() {
        if is_meant(known) {
            wanted.push(index);
            gone.push(Gone {
                part,
                name: known.clone(),
                by: name.span,
            });
        }
    }
    let Some((index, node)) = chapter(&tree.root, part).filter(|_| !wanted.is_empty()) else {
        return Err(absent(tree, part, name, &members));
    };
    // From the last to the first, so that the others stay where they are; chapters that would be
    // left empty go whole, after everything else.
    let (accepted, moot, entries) = moot_accepted(&tree.root, part, &gone);
    let listed = matches!(node.kind, NodeKind::List(_));
    let mut operations = Vec::new();
    let mut chapters = Vec::new();
    if !moot.is_empty() && moot.len() == entries {
        chapters.push(accepted);
    } else {
        let moot = moot.iter().rev();
        operations.extend(moot.map(|at| Operation::RemoveItem(vec![accepted], *at)));
    }
    if wanted.len() == members.len() {
        chapters.push(index);
    } else if listed {
        let wanted = wanted.iter().rev();
        operations.extend(wanted.map(|at| Operation::RemoveItem(vec![index], *at)));
    } else {
        let wanted = wanted.iter().rev();
        operations.extend(wanted.map(|at| Operation::RemoveEntry(vec![index], *at)));
    }
    chapters.sort_unstable();
    let chapters = chapters.into_iter().rev();
    operations.extend(chapters.map(|at| Operation::RemoveEntry(Vec::new(), at)));
    Ok(Plan { operations, gone })
}

/// The entries of `accepted` that name what is taken away: the findings that they accept go with it.
/// Given are the chapter, the entries by index, and how many there are in all.
fn moot_accepted(root: &Node, part: Part, gone: &[Gone]) -> (usize, Vec<usize>, usize) {
    let NodeKind::Mapping(chapters) = &root.kind else {
        return (0, Vec::new(), 0);
    };
    let found = chapters
        .iter()
        .position(|chapter| chapter.key.words == "accepted");
    let Some((index, chapter)) = found.and_then(|index| Some((index, chapters.get(index)?))) else {
        return (0, Vec::new(), 0);
    };
    let key = match part {
        Part::Clause => "clauses",
        other => other.word(),
    };
    let names_it = |entry: &Node| {
        let words = entry.value_of(key).map_or(&[][..], Node::items).iter();
        let mut words = words.filter_map(Node::words);
        words.any(|word| gone.iter().any(|gone| gone.name == word))
    };
    let entries = chapter.value.chapter();
    let moot = entries.iter().enumerate();
    let moot = moot.filter(|(_, entry)| names_it(entry));
    (index, moot.map(|(at, _)| at).collect(), entries.len())
}

/// The columns that go with a table.
fn columns_of(tree: &Tree, part: Part, name: &Words) -> Vec<Gone> {
    let table = chapter(&tree.root, part)
        .filter(|_| part == Part::Quantity)
        .and_then(|(_, node)| entry(node, &name.value));
    let columns = table.and_then(|table| entry(&table.value, "columns"));
    let items = columns.map_or(&[][..], |columns| columns.value.items());
    let names = items.iter().filter_map(Node::words);
    names
        .map(|column| Gone {
            part,
            name: column.to_owned(),
            by: name.span,
        })
        .collect()
}

fn replace(part: Part, name: &Words, with: &Node, tree: &Tree) -> Result<Plan, Problem> {
    let at = find(tree, part, name)?;
    let members = members(&tree.root, part);
    let Some((index, node)) = chapter(&tree.root, part) else {
        return Err(absent(tree, part, name, &members));
    };
    if !part.is_listed() {
        let key = Key {
            words: name.value.clone(),
            span: name.span,
        };
        let set = Operation::SetEntry(vec![index], key, with.clone());
        return Ok(Plan::from(vec![set]));
    }
    let gone = renamed(part, name, id_of(with), &members)?;
    if !matches!(node.kind, NodeKind::List(_)) {
        return Err(no_list(name.span, part, node.span));
    }
    Ok(Plan {
        operations: vec![Operation::ReplaceItem(vec![index], at, with.clone())],
        gone,
    })
}

/// What is taken away where a change gives a thing another id, which must be free.
fn renamed(
    part: Part,
    name: &Words,
    new: Option<(String, Span)>,
    members: &[(String, Span)],
) -> Result<Vec<Gone>, Problem> {
    let Some((id, span)) = new.filter(|(id, _)| *id != name.value) else {
        return Ok(Vec::new());
    };
    if let Some((_, place)) = members.iter().find(|(known, _)| *known == id) {
        return Err(taken(&Words::new(id, span), part, *place));
    }
    Ok(vec![Gone {
        part,
        name: name.value.clone(),
        by: name.span,
    }])
}

fn no_list(span: Span, part: Part, place: Span) -> Problem {
    let chapter = part.chapter();
    Problem::error(
        span,
        format!("`{chapter}` of the ruleset is no list yet"),
        "can't be changed there",
    )
    .other(place, "one that stands without a dash")
    .help(format!(
        "put a dash before what stands under `{chapter}:` in the ruleset"
    ))
}

fn insert(
    change: &Change,
    name: Option<&Words>,
    whole: &Node,
    position: &Position,
    tree: &Tree,
) -> Result<Plan, Problem> {
    let part = change.part;
    let members = members(&tree.root, part);
    if let Some(name) = name
        && let Some((_, place)) = members.iter().find(|(known, _)| *known == name.value)
    {
        return Err(taken(name, part, *place));
    }
    let at = match position {
        Position::Last => members.len(),
        Position::After(other) => find(tree, part, other)? + 1,
        Position::Before(other) => find(tree, part, other)?,
    };
    let span = name.map_or(change.span, |name| name.span);
    let key = |words: &str| Key {
        words: words.to_owned(),
        span,
    };
    let known =
        chapter(&tree.root, part).filter(|(_, node)| !matches!(node.kind, NodeKind::Nothing));
    let Some((index, node)) = known else {
        let kind = match name {
            Some(name) if !part.is_listed() => NodeKind::Mapping(vec![Entry {
                key: key(&name.value),
                value: whole.clone(),
            }]),
            _ => NodeKind::List(vec![whole.clone()]),
        };
        let first = Node {
            kind,
            span,
            layout: Layout::Block,
        };
        let set = Operation::SetEntry(Vec::new(), key(part.chapter()), first);
        return Ok(Plan::from(vec![set]));
    };
    let operation = match (&node.kind, name) {
        (NodeKind::List(_), _) if part.is_listed() => {
            Operation::InsertItem(vec![index], at, whole.clone())
        }
        (NodeKind::Mapping(_), Some(name)) if !part.is_listed() => {
            Operation::InsertEntry(vec![index], at, key(&name.value), whole.clone())
        }
        _ => return Err(no_list(span, part, node.span)),
    };
    Ok(Plan::from(vec![operation]))
}

/// Keys that a key drives out, since they say the same thing in another way.
fn rivals(part: Part, key: &str) -> &'static [&'static str] {
    match (part, key) {
        (Part::Attribute, "choice") => &["scale", "several", "number", "step", "unit"],
        (Part::Attribute, "scale") => &["choice", "several", "number", "step", "unit"],
        (Part::Attribute, "several") => &["choice", "scale", "number", "step", "unit"],
        (Part::Attribute, "number") => &["choice", "scale", "several"],
        (Part::Term, "means") => &["narrow", "broad"],
        (Part::Term, "narrow" | "broad") => &["means"],
        (Part::Background, "never") => &["always"],
        (Part::Background, "always") => &["never"],
        (Part::Dimension, "scale") => &["choice"],
        (Part::Dimension, "choice") => &["scale"],
        (Part::Principle, "whenever" | "expect") => &[
            "impartial_to",
            "rises_with",
            "ruling",
            "no_gain",
            "by",
            "raising",
            "lowering",
            "to",
        ],
        (Part::Principle, "impartial_to") => &[
            "whenever",
            "expect",
            "rises_with",
            "ruling",
            "no_gain",
            "by",
            "raising",
            "lowering",
            "to",
        ],
        (Part::Principle, "rises_with") => &[
            "whenever",
            "expect",
            "impartial_to",
            "no_gain",
            "by",
            "raising",
            "lowering",
            "to",
        ],
        (Part::Principle, "no_gain") => {
            &["whenever", "expect", "impartial_to", "rises_with", "ruling"]
        }
        (Part::Principle, "raising") => &["lowering", "to"],
        (Part::Principle, "lowering") => &["raising", "to"],
        (Part::Principle, "to") => &["raising", "lowering"],
        _ => &[],
    }
}

fn set(
    part: Part,
    name: &Words,
    keys: &[Entry],
    without: &[Words],
    tree: &Tree,
) -> Result<Plan, Problem> {
    let at = find(tree, part, name)?;
    let all = members(&tree.root, part);
    let Some((index, node)) = chapter(&tree.root, part) else {
        return Err(absent(tree, part, name, &all));
    };
    let path = match &node.kind {
        NodeKind::Mapping(_) if part.is_listed() => vec![index],
        _ => vec![index, at],
    };
    let Some(target) = node_at(&tree.root, &path) else {
        return Err(absent(tree, part, name, &all));
    };
    // A heading's title may stand alone behind its number.
    if let NodeKind::Scalar(_) = target.kind {
        return Ok(Plan::from(vec![title_and(index, name, target, keys)]));
    }
    let known: Vec<(&str, Span)> = match &target.kind {
        NodeKind::Mapping(entries) => {
            let keys = entries.iter().map(|entry| &entry.key);
            keys.map(|key| (key.words.as_str(), key.span)).collect()
        }
        _ => Vec::new(),
    };
    let mut out: Vec<usize> = Vec::new();
    for word in without {
        let Some(found) = known.iter().position(|(key, _)| *key == word.value) else {
            let problem = Problem::error(
                word.span,
                format!(
                    "the {} `{}` has no `{}` to leave out",
                    part.noun(),
                    name.value,
                    word.value
                ),
                "not among its keys",
            );
            let place = known.first().map_or(target.span, |(_, span)| *span);
            return Err(problem
                .other(place, "its keys begin here")
                .help("delete it from `leave_out`"));
        };
        out.push(found);
    }
    let set_too = |word: &str| keys.iter().any(|key| key.key.words == word);
    for key in keys {
        let rivals = rivals(part, &key.key.words);
        let driven = known.iter().enumerate();
        let driven = driven.filter(|(_, (word, _))| rivals.contains(word) && !set_too(word));
        out.extend(driven.map(|(index, _)| index));
    }
    out.sort_unstable();
    out.dedup();
    let mut operations: Vec<Operation> = keys
        .iter()
        .map(|entry| Operation::SetEntry(path.clone(), entry.key.clone(), entry.value.clone()))
        .collect();
    let removed = out.into_iter().rev();
    operations.extend(removed.map(|index| Operation::RemoveEntry(path.clone(), index)));
    let id = keys
        .iter()
        .find(|key| part.is_listed() && key.key.words == "id");
    let id = id.and_then(|id| Some((id.value.words()?.to_owned(), id.value.span)));
    let gone = renamed(part, name, id, &all)?;
    Ok(Plan { operations, gone })
}

/// A heading whose title stood alone, with the keys that are set beside it.
fn title_and(chapter: usize, name: &Words, title: &Node, keys: &[Entry]) -> Operation {
    let mut entries = vec![Entry {
        key: Key {
            words: "title".to_owned(),
            span: title.span,
        },
        value: title.clone(),
    }];
    for key in keys {
        match entries
            .iter_mut()
            .find(|entry| entry.key.words == key.key.words)
        {
            Some(entry) => *entry = key.clone(),
            None => entries.push(key.clone()),
        }
    }
    let whole = Node {
        kind: NodeKind::Mapping(entries),
        span: name.span,
        layout: Layout::Block,
    };
    let key = Key {
        words: name.value.clone(),
        span: name.span,
    };
    Operation::SetEntry(vec![chapter], key, whole)
}

/// Sets a constant, or the cell of a table: the table by its own name or by that of the column.
fn amount(
    name: &Words,
    row: Option<&Words>,
    column: Option<&Words>,
    value: &Node,
    tree: &Tree,
) -> Result<Vec<Operation>, Problem> {
    let part = Part::Quantity;
    let members = members(&tree.root, part);
    let lost = || absent(tree, part, name, &members);
    let (index, node) = chapter(&tree.root, part).ok_or_else(lost)?;
    let NodeKind::Mapping(entries) = &node.kind else {
        return Err(lost());
    };
    let has_column = |table: &Entry, column: &str| {
        let columns = entry(&table.value, "columns");
        let items = columns.map_or(&[][..], |columns| columns.value.items());
        items.iter().any(|item| item.words() == Some(column))
    };
    let own = entries
        .iter()
        .position(|entry| entry.key.words == name.value);
    let by_column = || {
        entries
            .iter()
            .position(|entry| has_column(entry, &name.value))
    };
    let at = own.or_else(by_column).ok_or_else(lost)?;
    let found = entries.get(at).ok_or_else(lost)?;
    let NodeKind::Mapping(rows) = &found.value.kind else {
        if let Some(extra) = row.or(column) {
            let problem = Problem::error(
                extra.span,
                format!("`{}` is one amount and no table", name.value),
                "it has no rows and columns",
            );
            return Err(problem
                .other(found.key.span, "the quantity")
                .help("delete `row` and `column`"));
        }
        let key = Key {
            words: found.key.words.clone(),
            span: name.span,
        };
        let set = Operation::SetEntry(vec![index], key, value.clone());
        return Ok(vec![set]);
    };
    let said = |what: &str, word: Option<&Words>| {
        word.cloned().ok_or_else(|| {
            Problem::error(
                name.span,
                format!(
                    "`{}` is a table; which {what} is meant is not said",
                    name.value
                ),
                format!("expected `{what}:` beside it"),
            )
            .other(found.key.span, "the table")
            .help(format!(
                "write `{what}:`; to put another table in its place, write `replace`"
            ))
        })
    };
    let row = said("row", row)?;
    let column = match own {
        Some(_) => said("column", column)?,
        None => name.clone(),
    };
    let missing = |what: &str, word: &Words| {
        Problem::error(
            word.span,
            format!("the table has no {what} `{}`", word.value),
            format!("not a {what} of the table"),
        )
        .other(found.key.span, "the table")
        .help(format!("name a {what} that is there"))
    };
    let columns = entry(&found.value, "columns").map_or(&[][..], |columns| columns.value.items());
    let place = columns
        .iter()
        .position(|item| item.words() == Some(&column.value))
        .ok_or_else(|| missing("column", &column))?;
    let is_row = |entry: &Entry| {
        entry.key.words == row.value && !matches!(row.value.as_str(), "by" | "columns")
    };
    let line = rows
        .iter()
        .position(is_row)
        .ok_or_else(|| missing("row", &row))?;
    let line_of = rows.get(line).ok_or_else(|| missing("row", &row))?;
    if matches!(line_of.value.kind, NodeKind::List(_)) {
        let path = vec![index, at, line];
        return Ok(vec![Operation::ReplaceItem(path, place, value.clone())]);
    }
    let set = Operation::SetEntry(vec![index, at], line_of.key.clone(), value.clone());
    Ok(vec![set])
}
