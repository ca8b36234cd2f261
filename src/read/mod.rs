//! YAML and condition text into drafts with places.
//!
//! Reading collects every problem of a file instead of stopping at the first, and refuses to know
//! what names mean: that is for `model`. A draft that came with an error lacks the parts that could
//! not be read, so it is resolved only where there was none.

pub mod amendment;
pub mod draft;

mod bytes;
mod cases;
mod condition;
mod cuts;
mod lexer;
mod node;
mod reader;
mod ruleset;
mod scalar;
mod scenario;
mod yaml;
mod yaml_faults;

pub use bytes::{ByteFault, LARGEST_FILE, Refused, text_from_bytes};
pub use lexer::{RESERVED, is_reserved};
pub(crate) use node::{Node, NodeKind};
pub(crate) use scalar::Mapped;

use crate::problem::Problem;
use crate::source::{Source, SourceId};
use amendment::{AmendmentDraft, Tree};
use draft::{CaseBookDraft, Expr, FactDraft, RulesetDraft, ScenarioDraft};
use reader::Reader;

/// Reads a ruleset file; problems are added to `problems`, in the order of their places.
///
/// `None` where no usable draft could be made. A draft that comes with an error lacks what could not
/// be read.
pub fn ruleset(source: &Source, id: SourceId, problems: &mut Vec<Problem>) -> Option<RulesetDraft> {
    let mut found = Vec::new();
    let root = yaml::document(source, id, &mut found);
    let draft = root.and_then(|root| Reader::new(source, id, &mut found).ruleset(&root));
    hand_over(found, problems);
    draft
}

/// Reads a scenario file; problems are added to `problems`, in the order of their places.
///
/// `None` where no usable draft could be made. A draft that comes with an error lacks what could not
/// be read.
pub fn scenario(
    source: &Source,
    id: SourceId,
    problems: &mut Vec<Problem>,
) -> Option<ScenarioDraft> {
    let mut found = Vec::new();
    let root = yaml::document(source, id, &mut found);
    let draft = root.and_then(|root| Reader::new(source, id, &mut found).scenario(&root));
    hand_over(found, problems);
    draft
}

/// Reads a ruleset file as a tree, to which changes can be made before it is read any further.
///
/// `None`, with a problem, where the file is empty or no usable YAML.
pub fn tree(source: &Source, id: SourceId, problems: &mut Vec<Problem>) -> Option<Tree> {
    let mut found = Vec::new();
    let root = yaml::document(source, id, &mut found);
    hand_over(found, problems);
    root.map(Tree::new)
}

/// Reads an amendment file; problems are added to `problems`, in the order of their places.
///
/// `None` where no usable draft could be made. A draft that comes with an error lacks what could not
/// be read.
pub fn amendment(
    source: &Source,
    id: SourceId,
    problems: &mut Vec<Problem>,
) -> Option<AmendmentDraft> {
    let mut found = Vec::new();
    let root = yaml::document(source, id, &mut found);
    let draft = root.and_then(|root| Reader::new(source, id, &mut found).amendment(&root));
    hand_over(found, problems);
    draft
}

/// Reads a case book; problems are added to `problems`, in the order of their places.
///
/// `None` where no usable draft could be made. A draft that comes with an error lacks what could not
/// be read.
pub fn cases(source: &Source, id: SourceId, problems: &mut Vec<Problem>) -> Option<CaseBookDraft> {
    let mut found = Vec::new();
    let root = yaml::document(source, id, &mut found);
    let draft = root.and_then(|root| Reader::new(source, id, &mut found).cases(&root));
    hand_over(found, problems);
    draft
}

/// Reads one fact as it is typed in a call, `NAME=VALUE`. It stands in the source `id` from byte
/// `start` on.
///
/// `None` after adding what is wrong with it to `problems`.
pub fn typed_fact(
    text: &str,
    start: usize,
    id: SourceId,
    problems: &mut Vec<Problem>,
) -> Option<FactDraft> {
    scenario::typed(text, start, id, problems)
}

/// Reads one condition that stands alone (on a command line, in a test), with the same grammar.
pub fn condition(source: &Source, id: SourceId, problems: &mut Vec<Problem>) -> Option<Expr> {
    let text = Mapped::verbatim(source.text(), 0, id);
    let mut found = Vec::new();
    let reading = condition::read(&text, &mut found);
    if reading.expr.is_none() && found.is_empty() {
        found.push(
            Problem::error(
                yaml::span_of(id, 0, 0),
                "the condition is empty",
                "expected a condition",
            )
            .help("write a condition such as `phase is ground`; `always` holds everywhere"),
        );
    }
    hand_over(found, problems);
    reading.expr
}

/// Reads a file of the program's own that is no ruleset; `None` where it is no usable YAML.
pub(crate) fn data(text: &str) -> Option<Node> {
    let mut problems = Vec::new();
    yaml::document(&Source::new("", text), SourceId::default(), &mut problems)
        .filter(|_| problems.is_empty())
}

/// Adds what was found in the order of places, each problem once: words that an alias repeats are
/// read once for each place where they are used.
fn hand_over(mut found: Vec<Problem>, problems: &mut Vec<Problem>) {
    found.sort_by(|one, other| (one.span, &one.headline).cmp(&(other.span, &other.headline)));
    found.dedup();
    problems.append(&mut found);
}
