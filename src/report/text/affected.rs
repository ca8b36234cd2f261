//! What rests on a thing, and what it can change of it, for people.

use super::graph::named;
use super::look::{Detail, Look, Tone};
use super::page::{Page, capital};
use crate::graph::{Affected, Change, Effect, Graph, Node, NodeId, Thing};
use crate::model::Ruleset;
use crate::narration;
use crate::report::caution::caution;
use crate::report::words::counted;
use std::collections::BTreeSet;

/// What rests on some things, asked about one after another.
pub fn affected(ruleset: &Ruleset, graph: &Graph, found: &[Affected<'_>], look: &Look) -> String {
    let mut page = Page::new(look);
    super::title(&mut page, ruleset);
    for affected in found {
        one(&mut page, graph, affected);
    }
    page.heading("Caution", Tone::Quiet);
    for words in caution(ruleset) {
        page.paragraph(0, &words, Tone::Quiet);
    }
    page.finish()
}

fn one(page: &mut Page<'_>, graph: &Graph, affected: &Affected<'_>) {
    let things = affected.things.iter().filter_map(|id| graph.node(*id));
    let things: Vec<&Node> = things.collect();
    page.heading(&capital(&named(&things)), Tone::Strong);
    page.paragraph(0, &summary(&things, affected), Tone::Plain);
    for (title, fits, tone) in SORTS {
        let fitting = affected.dependents.iter().filter(|it| fits(&it.change));
        let fitting: Vec<&Effect<'_>> = fitting.collect();
        if fitting.is_empty() {
            continue;
        }
        page.gap();
        page.paragraph(0, &format!("{title}:"), tone);
        for effect in fitting {
            told(page, graph, affected, effect);
        }
    }
}

type Sort = (&'static str, fn(&Change) -> bool, Tone);

const SORTS: [Sort; 3] = [
    ("Can change", can_change, Tone::Warning),
    ("Never changes, which is proved", never, Tone::Good),
    ("Undecided", undecided, Tone::Warning),
];

fn can_change(change: &Change) -> bool {
    matches!(change, Change::Shown(_) | Change::BySpeakingOfIt)
}

fn never(change: &Change) -> bool {
    *change == Change::Never
}

fn undecided(change: &Change) -> bool {
    matches!(change, Change::Undecided(_))
}

/// What is asked, and what came of it, in two sentences.
fn summary(things: &[&Node], affected: &Affected<'_>) -> String {
    let number = affected.dependents.len();
    if number == 0 {
        return "Nothing rests on it.".to_owned();
    }
    let asked = match things.first().map(|node| node.thing) {
        Some(Thing::Attribute(_)) => "what it is in an incident",
        Some(Thing::Clause(_)) if things.len() > 1 => "whether they are struck out",
        Some(Thing::Clause(_)) => "whether it is struck out",
        Some(Thing::Term(_)) => "whether it holds, however it were defined",
        Some(Thing::Quantity(_)) => "which amount it is",
        Some(Thing::Dimension(_)) => "which ruling is read",
        _ => "it",
    };
    let count = |fits: fn(&Change) -> bool| {
        let fitting = affected.dependents.iter().filter(|it| fits(&it.change));
        fitting.count()
    };
    let (changing, never, open) = (count(can_change), count(never), count(undecided));
    let open = match open {
        0 => String::new(),
        open => format!(", {open} stayed undecided"),
    };
    let rest = if number == 1 { "rests" } else { "rest" };
    let it = if things.len() > 1 { "them" } else { "it" };
    format!(
        "{} {rest} on {it}. Asked of each: does it turn on {asked}? {changing} can change, {never} never {}{open}.",
        counted(number, "thing"),
        if never == 1 { "does" } else { "do" },
    )
}

fn told(page: &mut Page<'_>, graph: &Graph, affected: &Affected<'_>, effect: &Effect<'_>) {
    let Some(node) = graph.node(effect.dependent.node) else {
        return;
    };
    let why = match &effect.change {
        Change::BySpeakingOfIt => "; it speaks of that ruling itself".to_owned(),
        Change::Undecided(reason) => format!("; {reason}"),
        Change::Shown(_) | Change::Never => String::new(),
    };
    let title = node.title.as_ref();
    let title = title.map_or_else(String::new, |title| format!(" ({title})"));
    let way = way(graph, effect);
    let mark = format!("{node}: ");
    page.hanging(2, &mark, Tone::Strong, &format!("{way}{why}"), Tone::Plain);
    if page.look.detail != Detail::Whole {
        return;
    }
    if !title.is_empty() {
        page.paragraph(6, title.trim(), Tone::Quiet);
    }
    if let Change::Shown(pair) = &effect.change {
        let space = &affected.space;
        let [first, second] = pair.as_ref();
        let matters: BTreeSet<_> = narration::differences(space, first, second)
            .into_iter()
            .map(|difference| difference.attribute)
            .collect();
        let told = narration::scenario(space, first, Some(&matters));
        let words = format!(
            "{} {}",
            told.sentences.join(" "),
            narration::the_same_but(space, first, second, &matters)
        );
        page.row(6, "Between", &words, Tone::Quiet);
    }
}

/// The way from a thing to what rests on it: what it says of it, or through what else.
fn way(graph: &Graph, effect: &Effect<'_>) -> String {
    let name = |id: NodeId| graph.node(id).map(ToString::to_string).unwrap_or_default();
    let path = &effect.dependent.path;
    match path.as_slice() {
        [one] if one.from == effect.dependent.node => {
            format!("directly; it {} {}", one.relation, name(one.to))
        }
        [one] => format!("directly; {} {} it", name(one.from), one.relation),
        several => {
            let between = several.iter().map(|edge| edge.influence().1);
            let between: Vec<String> = between
                .take(several.len().saturating_sub(1))
                .map(name)
                .collect();
            format!("through {}", between.join(", "))
        }
    }
}
