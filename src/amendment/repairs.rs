//! The repairs that a check offers, as the text of an amendment.
//!
//! One repair of each finding is among the changes, the others stand beside it as comments. Repairs
//! that clash are not both taken, and the text as a whole is laid over the ruleset and checked again:
//! what does not mend its finding there, or brings a fault in, becomes a comment. Nothing is ever
//! applied by itself.

use crate::analysis::{self, Checked, Finding, KINDS, Options, Outcome, Repairs};
use crate::load::{Layered, Loaded};
use crate::logic::Count;
use crate::model::{Kind, Ruleset, Severity};
use crate::problem::Problem;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// The most times that the whole is checked again with fewer changes.
const MOST_ROUNDS: usize = 8;

/// Columns of a comment.
const WIDTH: usize = 96;

/// Repairs as the text of an amendment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RepairDraft {
    /// The text.
    pub text: String,
    /// How many findings its changes mend, seen by checking the ruleset with all of them in it.
    pub mended: usize,
    /// How many further findings have repairs that stand in comments alone.
    pub set_aside: usize,
    /// Whether that check left something undecided.
    pub open: bool,
}

/// Which repair of which finding is among the changes, both by index.
type Chosen = BTreeMap<usize, usize>;

/// Writes the repairs of a check as an amendment. The kinds that `options` names were looked for;
/// `None` where no repair is offered.
pub fn repairs(ruleset: &Ruleset, checked: &Checked, options: &Options<'_>) -> Option<RepairDraft> {
    if checked.findings.iter().all(|it| it.repairs.is_empty()) {
        return None;
    }
    let known = faults_known(ruleset, checked, options);
    let mut chosen = analysis::together(&checked.findings);
    let mut open = false;
    for round in 0.. {
        if chosen.is_empty() {
            break;
        }
        if round == MOST_ROUNDS {
            chosen.clear();
            break;
        }
        let Ok(amended) = laid_over(ruleset, checked, &chosen) else {
            chosen = that_can_be_made(ruleset, checked, &chosen);
            continue;
        };
        let again = analysis::check(&amended.ruleset, &again(checked, &chosen, options));
        open = again
            .verdicts
            .iter()
            .any(|it| matches!(it.outcome, Outcome::Undecided(_)));
        let failed = that_fail(
            (ruleset, checked),
            (&amended.ruleset, &again),
            &known,
            &chosen,
        );
        if failed.is_empty() {
            break;
        }
        chosen.retain(|finding, _| !failed.contains(finding));
    }
    let offered = checked.findings.iter().filter(|it| !it.repairs.is_empty());
    Some(RepairDraft {
        text: text(ruleset, checked, &chosen),
        mended: chosen.len(),
        set_aside: offered.count() - chosen.len(),
        open: open && !chosen.is_empty(),
    })
}

/// What a finding is about: by this one is known again.
type Key = (
    Kind,
    Vec<String>,
    Option<String>,
    Option<String>,
    Option<String>,
);

fn key(ruleset: &Ruleset, finding: &Finding) -> Key {
    let ids = finding.clauses.iter().map(|id| ruleset[*id].id.clone());
    let clauses = match finding.kind {
        Kind::Contradiction => ids.collect(),
        Kind::BrokenPrinciple => Vec::new(),
        _ => ids.take(1).collect(),
    };
    (
        finding.kind,
        clauses,
        finding.dimension.map(|id| ruleset[id].name.clone()),
        finding.principle.clone(),
        finding
            .term
            .clone()
            .filter(|_| finding.kind == Kind::LooseTerm),
    )
}

fn keys(ruleset: &Ruleset, checked: &Checked) -> BTreeSet<Key> {
    let faults = checked.findings.iter();
    faults
        .filter(|it| it.severity == Severity::Fault)
        .map(|it| key(ruleset, it))
        .collect()
}

fn fault_kinds() -> impl Iterator<Item = Kind> {
    let all = KINDS.iter().copied();
    all.filter(|kind| kind.severity() == Severity::Fault)
}

/// The faults of the ruleset as it stands, all kinds of them.
fn faults_known(ruleset: &Ruleset, checked: &Checked, options: &Options<'_>) -> BTreeSet<Key> {
    let mut kinds = fault_kinds();
    if options.kinds.is_empty() || kinds.all(|kind| options.kinds.contains(&kind)) {
        return keys(ruleset, checked);
    }
    let asked = Options {
        kinds: fault_kinds().collect(),
        budget: options.budget.clone(),
        ..*options
    };
    keys(ruleset, &analysis::check(ruleset, &plain(asked)))
}

fn plain(options: Options<'_>) -> Options<'_> {
    Options {
        repairs: Repairs::LeftOut,
        ..options
    }
}

/// How the ruleset is checked with the changes in it.
fn again<'p>(checked: &Checked, chosen: &Chosen, options: &Options<'p>) -> Options<'p> {
    let mended = chosen
        .keys()
        .filter_map(|index| checked.findings.get(*index));
    let kinds: BTreeSet<Kind> = mended.map(|it| it.kind).chain(fault_kinds()).collect();
    plain(Options {
        kinds: kinds.into_iter().collect(),
        budget: options.budget.clone(),
        ..*options
    })
}

/// Of the chosen, those whose finding is still there and those that may have brought a fault in, by
/// index of finding.
fn that_fail(
    (before, was): (&Ruleset, &Checked),
    (after, is): (&Ruleset, &Checked),
    known: &BTreeSet<Key>,
    chosen: &Chosen,
) -> BTreeSet<usize> {
    let left: BTreeSet<Key> = is.findings.iter().map(|it| key(after, it)).collect();
    let of = |index: &usize| was.findings.get(*index);
    let is_left = |index: &&usize| of(index).is_some_and(|it| left.contains(&key(before, it)));
    let mut failed: BTreeSet<usize> = chosen.keys().filter(is_left).copied().collect();
    let new = is.findings.iter();
    let new = new.filter(|it| it.severity == Severity::Fault && !known.contains(&key(after, it)));
    for fault in new {
        let ids: Vec<&String> = fault.clauses.iter().map(|id| &after[*id].id).collect();
        let concerns = |index: &&usize| {
            let clauses = of(index).map_or(&[][..], |it| it.clauses.as_slice());
            clauses.iter().any(|id| ids.contains(&&before[*id].id))
        };
        let mut near = chosen.keys().filter(concerns).copied().peekable();
        if near.peek().is_none() {
            failed.extend(chosen.keys().next_back());
        }
        failed.extend(near);
    }
    failed
}

fn laid_over(
    ruleset: &Ruleset,
    checked: &Checked,
    chosen: &Chosen,
) -> Result<Loaded, Vec<Problem>> {
    let draft = ("repairs".to_owned(), text(ruleset, checked, chosen));
    let layered = Layered::again(&ruleset.sources, vec![draft]);
    layered.map_err(|refused| refused.problems)?.with(&[0])
}

/// Of the chosen, those that can be made one after the other.
fn that_can_be_made(ruleset: &Ruleset, checked: &Checked, chosen: &Chosen) -> Chosen {
    let mut kept = Chosen::new();
    for (finding, repair) in chosen {
        let mut more = kept.clone();
        more.insert(*finding, *repair);
        if laid_over(ruleset, checked, &more).is_ok() {
            kept = more;
        }
    }
    kept
}

fn text(ruleset: &Ruleset, checked: &Checked, chosen: &Chosen) -> String {
    let mut text = String::new();
    comment(
        &mut text,
        0,
        "Repairs that a check offers, to be read and decided by those who make the rules. Each was tried on \
         a copy: its finding was gone, and no fault was new. Of each finding one repair is a change below, \
         unless it can't be made beside the others; the rest are comments. Give new clauses their numbers, \
         and all of it its wording, before it is laid before anyone.",
    );
    let title = analysis::quoted(&ruleset.title);
    let _ = writeln!(
        text,
        "amendment: {}",
        analysis::quoted(&format!("Repairs of {}", ruleset.title))
    );
    let _ = writeln!(text, "to:\n  ruleset: {title}");
    if !ruleset.edition.is_empty() {
        let _ = writeln!(text, "  edition: {}", analysis::quoted(&ruleset.edition));
    }
    let made: Vec<(usize, &analysis::Mend)> = chosen
        .iter()
        .filter_map(|(index, number)| {
            let repair = checked.findings.get(*index)?.repairs.get(*number)?;
            Some((*index, &repair.mend))
        })
        .collect();
    let mends: Vec<&analysis::Mend> = made.iter().map(|(_, mend)| *mend).collect();
    let changes = analysis::changes(&mends);
    text.push_str(if changes.is_empty() {
        "changes: []\n"
    } else {
        "changes:\n"
    });
    let last_of = |index: usize| {
        changes
            .iter()
            .rposition(|change| change.of.contains(&index))
    };
    let mut told = BTreeSet::new();
    for (place, change) in changes.iter().enumerate() {
        let of: BTreeSet<usize> = change.of.iter().copied().collect();
        let each = || of.iter().filter_map(|of| Some((*of, made.get(*of)?.0)));
        for (_, index) in each() {
            if told.insert(index) {
                text.push('\n');
                headline(&mut text, checked, index);
                let chosen = repair(checked, index, chosen.get(&index));
                if let Some(chosen) = chosen {
                    comment(&mut text, 2, &analysis::capital(&sentence(chosen)));
                }
            }
        }
        for line in &change.lines {
            let _ = writeln!(text, "  {line}");
        }
        for (_, index) in each().filter(|(of, _)| last_of(*of) == Some(place)) {
            others(&mut text, checked, index, chosen.get(&index).copied());
        }
    }
    for (index, finding) in checked.findings.iter().enumerate() {
        if !finding.repairs.is_empty() && !told.contains(&index) {
            text.push('\n');
            headline(&mut text, checked, index);
            others(&mut text, checked, index, None);
        }
    }
    text
}

/// The number that a finding has in the report.
fn number(checked: &Checked, index: usize) -> usize {
    let before = checked.findings.iter().take(index);
    before.filter(|it| it.accepted.is_none()).count() + 1
}

fn headline(text: &mut String, checked: &Checked, index: usize) {
    let number = number(checked, index);
    if let Some(finding) = checked.findings.get(index) {
        comment(text, 2, &format!("{number}. {}.", finding.headline));
    }
}

fn repair<'c>(
    checked: &'c Checked,
    finding: usize,
    which: Option<&usize>,
) -> Option<&'c analysis::Repair> {
    checked.findings.get(finding)?.repairs.get(*which?)
}

/// Writes the repairs of a finding that were not chosen, as comments.
fn others(text: &mut String, checked: &Checked, index: usize, chosen: Option<usize>) {
    let Some(finding) = checked.findings.get(index) else {
        return;
    };
    let instead = if chosen.is_some() {
        "Or "
    } else {
        "Not beside the others: "
    };
    let others = finding.repairs.iter().enumerate();
    for (_, repair) in others.filter(|(which, _)| chosen != Some(*which)) {
        comment(text, 2, &format!("{instead}{}", sentence(repair)));
        let changes = analysis::changes(&[&repair.mend]);
        for line in changes.iter().flat_map(|change| &change.lines) {
            let _ = writeln!(text, "  #   {line}");
        }
    }
}

fn sentence(repair: &analysis::Repair) -> String {
    let changed = match &repair.scenarios_changed {
        Some(Count { scenarios, .. }) if scenarios.bits() == 0 => "no ruling changes".to_owned(),
        Some(Count { scenarios, .. }) if scenarios.to_string() == "1" => {
            "the ruling changes in 1 scenario".to_owned()
        }
        Some(Count { scenarios, .. }) => format!("the ruling changes in {scenarios} scenarios"),
        None => "in how many scenarios the ruling changes could not be counted".to_owned(),
    };
    format!("{} ({changed}).", repair.edit)
}

/// Writes words as comment lines.
fn comment(text: &mut String, indent: usize, words: &str) {
    let margin = " ".repeat(indent);
    let mut line = String::new();
    let plain = words.replace(char::is_control, " ");
    for word in plain.split_whitespace() {
        if !line.is_empty() && line.chars().count() + word.chars().count() >= WIDTH {
            let _ = writeln!(text, "{margin}# {line}");
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    let _ = writeln!(text, "{margin}# {line}");
}
