//! Findings as cards: each tells what was found, where, in which incident, how often, and what to do.

use super::clause_title;
use super::excerpt::{self, ExcerptLine};
use super::pieces::{Links, Piece, clause_anchor};
use crate::analysis::{Checked, Cover, Finding};
use crate::logic::Code;
use crate::model::{AttributeId, ClauseId, Ruleset, Severity};
use crate::report::condition::factored;
use crate::report::story::{self, Story};
use crate::report::{explain, words};
use std::fmt::Write;

/// Findings of one severity, or those that are accepted.
pub(super) struct Group {
    /// Where it stands on the page.
    pub(super) anchor: &'static str,
    pub(super) title: &'static str,
    pub(super) sign: &'static str,
    pub(super) cards: Vec<Card>,
}

/// One finding.
pub(super) struct Card {
    /// Its number, which runs through the whole page.
    pub(super) number: usize,
    /// Where it stands on the page.
    pub(super) anchor: String,
    /// Its place among the findings of the check.
    pub(super) index: usize,
    pub(super) severity: Severity,
    pub(super) sign: &'static str,
    pub(super) kind: &'static str,
    /// What the kind is, in one sentence.
    pub(super) kind_means: &'static str,
    pub(super) headline: Vec<Piece>,
    pub(super) clauses: Vec<ClauseLink>,
    pub(super) excerpt: Vec<ExcerptLine>,
    /// How many places are not shown.
    pub(super) more_places: usize,
    pub(super) story: Option<Story>,
    /// The facts of its incident, for the place where cases are tried.
    pub(super) facts: String,
    /// What all general conditions have in common, then each; the names in them lead to what they mean.
    pub(super) common: Vec<Piece>,
    pub(super) whenever: Vec<Vec<Piece>>,
    pub(super) partial: bool,
    pub(super) share: String,
    pub(super) rulings: Vec<(ClauseLink, String)>,
    pub(super) repairs: Vec<Vec<Piece>>,
    pub(super) help: Vec<Piece>,
    /// Why it is accepted.
    pub(super) accepted: Option<String>,
    /// The attributes that its general conditions read.
    pub(super) reads: Vec<String>,
    /// The principle that it is about.
    pub(super) principle: Option<String>,
}

/// A clause and where it stands on the page; nowhere where that is empty.
#[derive(Clone)]
pub(super) struct ClauseLink {
    pub(super) clause: ClauseId,
    pub(super) id: String,
    pub(super) title: String,
    pub(super) to: String,
}

impl ClauseLink {
    pub(super) fn new(ruleset: &Ruleset, clause: ClauseId) -> ClauseLink {
        ClauseLink {
            clause,
            id: ruleset[clause].id.clone(),
            title: clause_title(ruleset, &ruleset[clause]),
            to: clause_anchor(clause),
        }
    }
}

/// What stands for a severity beside its name, told apart by its shape.
pub(super) fn sign(severity: Severity) -> &'static str {
    match severity {
        Severity::Fault => "■",
        Severity::Warning => "▲",
        Severity::Note => "●",
    }
}

/// What stands for an accepted finding.
pub(super) const ACCEPTED: &str = "○";

/// The findings as cards, in groups that stand in the order of gravity; groups without any are left out.
pub(super) fn groups(ruleset: &Ruleset, checked: &Checked) -> Vec<Group> {
    let links = Links::new(ruleset);
    let mut number = 0;
    let mut group = |anchor, title, sign, wanted: &dyn Fn(&Finding) -> bool| {
        let findings = checked.findings.iter().enumerate();
        let cards = findings
            .filter(|(_, finding)| wanted(finding))
            .map(|(index, finding)| {
                number += 1;
                card(ruleset, &links, checked, number, (index, finding))
            })
            .collect();
        Group {
            anchor,
            title,
            sign,
            cards,
        }
    };
    let open = |severity: Severity| {
        move |finding: &Finding| finding.severity == severity && finding.accepted.is_none()
    };
    let mut groups = vec![
        group("faults", "Faults", "■", &open(Severity::Fault)),
        group("warnings", "Warnings", "▲", &open(Severity::Warning)),
        group("notes", "Notes", "●", &open(Severity::Note)),
        group("accepted", "Known and accepted", ACCEPTED, &|finding| {
            finding.accepted.is_some()
        }),
    ];
    groups.retain(|group| !group.cards.is_empty());
    groups
}

/// Findings about the rules as a draft would have them, by index; their numbers begin anew.
pub(super) fn apart(
    ruleset: &Ruleset,
    links: &Links<'_>,
    checked: &Checked,
    which: &[usize],
    anchor: &str,
) -> Vec<Card> {
    let found = which
        .iter()
        .filter_map(|index| Some((*index, checked.findings.get(*index)?)));
    let cards = (1..).zip(found);
    cards
        .map(|(number, found)| Card {
            anchor: format!("{anchor}-{number}"),
            // The place where cases are tried knows other rules.
            facts: String::new(),
            ..card(ruleset, links, checked, number, found)
        })
        .collect()
}

fn card(
    ruleset: &Ruleset,
    links: &Links<'_>,
    checked: &Checked,
    number: usize,
    (index, finding): (usize, &Finding),
) -> Card {
    let (excerpt, more_places) = excerpt::excerpt(&ruleset.sources, &finding.labels);
    let general = factored(&finding.general.lines);
    Card {
        number,
        anchor: format!("finding-{number}"),
        index,
        severity: finding.severity,
        sign: if finding.accepted.is_some() {
            ACCEPTED
        } else {
            sign(finding.severity)
        },
        kind: finding.kind.word(),
        kind_means: explain::line(finding.kind),
        headline: Piece::told(&finding.headline),
        clauses: finding
            .clauses
            .iter()
            .map(|clause| links.clause(*clause))
            .collect(),
        excerpt,
        more_places,
        story: story::told(ruleset, finding),
        facts: finding
            .scenario
            .as_ref()
            .map_or_else(String::new, |scenario| facts(scenario.facts())),
        common: links.condition_words(&general.common),
        whenever: general
            .each
            .iter()
            .map(|line| links.condition_words(line))
            .collect(),
        partial: finding.general.cover == Cover::Partial,
        share: finding.share.as_ref().map_or_else(String::new, |share| {
            words::share(share, checked.space.as_ref())
        }),
        rulings: rulings(ruleset, links, finding),
        repairs: finding
            .repairs
            .iter()
            .map(|repair| Piece::told(&story::repair(repair)))
            .collect(),
        help: Piece::told(finding.help.as_deref().unwrap_or_default()),
        accepted: story::accepted(ruleset, finding),
        reads: reads(ruleset, finding),
        principle: finding.principle.clone(),
    }
}

fn reads(ruleset: &Ruleset, finding: &Finding) -> Vec<String> {
    let in_name = |letter: char| letter.is_alphanumeric() || letter == '_';
    let is_read = |name: &str| {
        let mut lines = finding.general.lines.iter();
        lines.any(|line| {
            line.split(|letter| !in_name(letter))
                .any(|word| word == name)
        })
    };
    let names = ruleset.attributes.iter().map(|it| it.name.as_str());
    names
        .filter(|name| is_read(name))
        .map(str::to_owned)
        .collect()
}

fn rulings(ruleset: &Ruleset, links: &Links<'_>, finding: &Finding) -> Vec<(ClauseLink, String)> {
    let Some(dimension) = finding.dimension else {
        return Vec::new();
    };
    let each = finding.rulings.iter();
    each.map(|(clause, values)| {
        let values = words::or_list(&words::ruling(ruleset, dimension, *values));
        (links.clause(*clause), values)
    })
    .collect()
}

/// Facts as a list of attribute and code, as the place where cases are tried takes them; empty where
/// there are none.
pub(super) fn facts(all: impl Iterator<Item = (AttributeId, Code)>) -> String {
    let mut out = String::new();
    for (attribute, code) in all {
        let before = if out.is_empty() { '[' } else { ',' };
        // Writing to a string can't fail.
        let _ = write!(out, "{before}[{},\"{}\"]", attribute.index(), code.0);
    }
    if !out.is_empty() {
        out.push(']');
    }
    out
}
