//! What a draft changes: its words marked, what becomes of rulings, clauses, findings and cases.

use super::cards::{self, Card};
use super::pieces::{Links, Piece, clause_anchor, draft_anchor};
use super::{Remark, remark};
use crate::amendment::{self, Fate, Line, Redlined, Row, Vetted};
use crate::analysis::{self, Cover, General};
use crate::model::{ClauseId, Ruleset};
use crate::problem::Problem;
use crate::read::amendment::Part;
use crate::report::condition::factored;
use crate::report::{amended, story, text_capital, verdict, words};

/// A draft that is vetted, or several together.
#[derive(Clone, Copy, Debug)]
pub struct Draft<'a> {
    /// What was found out about it; its rules as they are have to be those of the page.
    pub vetted: &'a Vetted,
    /// The same drafts one by one, where there are several.
    pub alone: &'a [(String, Vetted)],
    /// What reading them had to say.
    pub warnings: &'a [Problem],
}

/// The same, ready to be set.
pub(super) struct DraftView {
    pub(super) title: String,
    pub(super) subject: String,
    pub(super) several: bool,
    pub(super) heads: Vec<Head>,
    pub(super) verdict: String,
    pub(super) verdict_class: &'static str,
    pub(super) alone: Vec<(String, String)>,
    pub(super) things: Vec<Thing>,
    pub(super) rows: Vec<RowView>,
    pub(super) no_ruling: &'static str,
    pub(super) directions: Vec<(String, &'static str)>,
    /// Clauses by what becomes of them: a title, then each with what it rests on.
    pub(super) affected: Vec<(&'static str, Vec<(Place, String)>)>,
    pub(super) introduced: Vec<Card>,
    pub(super) resolved: Vec<Known>,
    pub(super) standing: Vec<Known>,
    pub(super) cases: Option<Vec<String>>,
    pub(super) mentions: Vec<String>,
    pub(super) spaces: Vec<String>,
    pub(super) only: Vec<Only>,
    pub(super) open: Vec<String>,
    pub(super) remarks: Vec<Remark>,
}

/// What a draft says of itself.
pub(super) struct Head {
    pub(super) title: String,
    pub(super) reason: String,
    pub(super) scope: String,
}

/// Something that the draft touches, with its words laid over each other.
pub(super) struct Thing {
    pub(super) anchor: String,
    pub(super) title: String,
    pub(super) fate: String,
    /// Where it stands on the page as it is; empty where it is new.
    pub(super) to: String,
    pub(super) lines: Vec<(String, Vec<Run>)>,
    /// The rulings that change through it, by number.
    pub(super) effects: Option<Vec<(usize, String)>>,
    pub(super) also: String,
}

/// Words that stay, go or come.
pub(super) struct Run {
    pub(super) fate: WordFate,
    /// Space before the marks.
    pub(super) before: String,
    pub(super) words: String,
    /// Space behind the marks.
    pub(super) after: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum WordFate {
    Stay,
    Go,
    Come,
}

/// Rulings that change in the same way.
pub(super) struct RowView {
    pub(super) number: usize,
    pub(super) title: String,
    pub(super) outside: bool,
    pub(super) common: Vec<Piece>,
    pub(super) whenever: Vec<Vec<Piece>>,
    pub(super) partial: bool,
    pub(super) share: String,
    pub(super) told: String,
    /// What is ruled otherwise in the incident told: on what, before, after.
    pub(super) ruled: Vec<(String, String, String)>,
    /// Whether anything else is ruled on.
    pub(super) all_else_same: bool,
    pub(super) through: String,
    pub(super) together: String,
    pub(super) grade: &'static str,
}

/// Something and where it stands on the page; nowhere where that is empty.
pub(super) struct Place {
    pub(super) name: String,
    pub(super) to: String,
}

/// A finding that is on the page.
pub(super) struct Known {
    pub(super) to: String,
    pub(super) severity: String,
    pub(super) headline: Vec<Piece>,
}

/// What one edition alone allows.
pub(super) struct Only {
    pub(super) title: &'static str,
    pub(super) common: Vec<Piece>,
    pub(super) whenever: Vec<Vec<Piece>>,
    pub(super) partial: bool,
    pub(super) share: String,
    pub(super) told: String,
}

/// The draft, ready to be set; `cards` are the findings that are on the page.
pub(super) fn view(draft: &Draft<'_>, cards: &[&Card]) -> DraftView {
    let vetted = draft.vetted;
    let harm = vetted.does_harm();
    let of_before = |index: &usize| {
        let finding = vetted.checked_before.findings.get(*index)?;
        let card = cards.iter().find(|card| card.index == *index);
        Some(Known {
            to: card.map_or_else(String::new, |card| card.anchor.clone()),
            severity: text_capital(&finding.severity.to_string()),
            headline: Piece::told(&finding.headline),
        })
    };
    DraftView {
        title: amended::title(vetted),
        subject: amended::subject(vetted),
        several: vetted.drafts.len() > 1,
        heads: heads(vetted),
        verdict: verdict::paragraph(vetted),
        verdict_class: match (harm, vetted.is_open()) {
            (true, _) => "at-fault",
            (false, true) => "open",
            (false, false) => "in-order",
        },
        alone: draft
            .alone
            .iter()
            .map(|(title, vetted)| (title.clone(), verdict::paragraph(vetted)))
            .collect(),
        things: things(vetted),
        rows: (0..vetted.rows.len())
            .filter_map(|index| row(vetted, index))
            .collect(),
        no_ruling: amended::no_ruling(vetted),
        directions: amended::directions(vetted),
        affected: affected(vetted),
        introduced: cards::apart(
            &vetted.after,
            &Links::amended(&vetted.after, &vetted.before, &vetted.redline),
            &vetted.checked_after,
            &vetted.introduced,
            "new-finding",
        ),
        resolved: vetted.resolved.iter().filter_map(of_before).collect(),
        standing: standing(vetted),
        cases: vetted.cases.as_ref().map(|cases| {
            let each = cases.iter();
            each.flat_map(|case| amended::case(vetted, case)).collect()
        }),
        mentions: vetted.mentions.iter().map(amended::mention).collect(),
        spaces: amended::spaces(vetted),
        only: amended::only(vetted)
            .map(|(title, only)| only_view(vetted, title, only))
            .collect(),
        open: vetted
            .open
            .iter()
            .map(|(about, reason)| format!("{about}: {reason}"))
            .collect(),
        remarks: draft
            .warnings
            .iter()
            .map(|problem| remark(&vetted.after.sources, problem))
            .collect(),
    }
}

fn heads(vetted: &Vetted) -> Vec<Head> {
    let language = &vetted.after.language;
    let heads = vetted.drafts.iter();
    heads
        .map(|head| Head {
            title: head.title.clone(),
            reason: head.reason.as_ref().map_or_else(String::new, |reason| {
                reason.in_language(language).trim().to_owned()
            }),
            scope: head.scope.clone().unwrap_or_default(),
        })
        .collect()
}

fn things(vetted: &Vetted) -> Vec<Thing> {
    let all = (1..).zip(&vetted.redline);
    all.map(|(number, thing)| Thing {
        anchor: draft_anchor(number),
        title: amended::thing(thing),
        fate: amended::fate(&thing.fate),
        to: as_it_is(&vetted.before, thing),
        lines: amended::lines(thing)
            .map(|line| (line.label.clone(), marked(line)))
            .collect(),
        effects: amended::effects(vetted, thing),
        also: amended::also_affected(thing).unwrap_or_default(),
    })
    .collect()
}

/// Where a clause that the draft touches stands on the page.
fn as_it_is(before: &Ruleset, thing: &Redlined) -> String {
    if thing.part != Part::Clause || thing.fate == Fate::Inserted {
        return String::new();
    }
    anchor_of(before, thing.earlier())
}

fn anchor_of(ruleset: &Ruleset, id: &str) -> String {
    let index = ruleset.clauses.iter().position(|clause| clause.id == id);
    index.map_or_else(String::new, |index| clause_anchor(ClauseId::new(index)))
}

/// A line with its marks; a space between words that go and those that come in their place.
fn marked(line: &Line) -> Vec<Run> {
    use amendment::Piece;
    let mut out: Vec<Run> = Vec::new();
    for piece in &line.pieces {
        let (fate, words) = match piece {
            Piece::Kept(words) => (WordFate::Stay, words),
            Piece::Deleted(words) => (WordFate::Go, words),
            Piece::Inserted(words) => (WordFate::Come, words),
        };
        let set_off = match fate {
            WordFate::Stay => None,
            WordFate::Go | WordFate::Come => amended::set_off(words),
        };
        let (fate, before, words, after) = match set_off {
            Some((before, inner, after)) => (fate, before, inner, after),
            None => (WordFate::Stay, "", words.as_str(), ""),
        };
        let touches = fate == WordFate::Come
            && before.is_empty()
            && out
                .last()
                .is_some_and(|last| last.fate == WordFate::Go && last.after.is_empty());
        out.push(Run {
            fate,
            before: if touches { " " } else { before }.to_owned(),
            words: words.to_owned(),
            after: after.to_owned(),
        });
    }
    out
}

/// General conditions: what all have in common, each, and whether they are only a part.
fn general(general: &General) -> (Vec<Piece>, Vec<Vec<Piece>>, bool) {
    let told = factored(&general.lines);
    // The conditions are those of another ruleset than the one on the page.
    let words = |line: &String| match line.as_str() {
        "" => Vec::new(),
        line => vec![Piece::plain(line)],
    };
    (
        words(&told.common),
        told.each.iter().map(words).collect(),
        general.cover == Cover::Partial,
    )
}

fn row(vetted: &Vetted, index: usize) -> Option<RowView> {
    let row: &Row = vetted.rows.get(index)?;
    let (common, whenever, partial) = general(&row.general);
    let through = amended::units(vetted, &row.by);
    let together = amended::units(vetted, &row.together);
    let side = vetted.side_by_side.get(index).into_iter().flatten();
    let mut same = side.clone().filter(|(_, was, is)| was == is);
    let differing = side.filter(|(_, was, is)| was != is);
    Some(RowView {
        number: index.saturating_add(1),
        title: text_capital(&amended::ruling(vetted, row)),
        outside: row.in_scope == Some(false),
        common,
        whenever,
        partial,
        share: row.share.as_ref().map_or_else(String::new, |share| {
            words::share(share, vetted.scenarios.as_ref())
        }),
        told: told(vetted, &row.general, &row.scenario),
        all_else_same: same.next().is_some(),
        ruled: differing
            .map(|(name, was, is)| {
                (
                    text_capital(&verdict::dimension(vetted, name)),
                    verdict::state(vetted, name, was),
                    verdict::state(vetted, name, is),
                )
            })
            .collect(),
        through: if vetted.units.len() > 1 {
            through.join("; ")
        } else {
            String::new()
        },
        together: if together.is_empty() {
            String::new()
        } else {
            amended::together(&together)
        },
        grade: vetted
            .grades
            .get(index)
            .map_or("", |grade| amended::grade(*grade)),
    })
}

/// An incident of both editions in sentences.
fn told(vetted: &Vetted, general: &General, scenario: &crate::logic::Scenario) -> String {
    let finding = analysis::shown(scenario, general);
    story::sentences(&vetted.space, &finding).unwrap_or_default()
}

fn affected(vetted: &Vetted) -> Vec<(&'static str, Vec<(Place, String)>)> {
    let of = |wanted: &dyn Fn(Option<bool>) -> bool| -> Vec<(Place, String)> {
        let those = vetted.affected.iter().filter(|it| wanted(it.changed));
        those
            .map(|it| {
                let place = Place {
                    name: it.clause.clone(),
                    to: anchor_of(&vetted.before, &it.clause),
                };
                (place, amended::through(it))
            })
            .collect()
    };
    let mut groups = vec![
        (amended::AFFECTED, of(&|changed| changed != Some(false))),
        (amended::THE_SAME, of(&|changed| changed == Some(false))),
    ];
    groups.retain(|(_, list)| !list.is_empty());
    groups
}

/// Findings that are there before and after; those after are other values than those on the page.
fn standing(vetted: &Vetted) -> Vec<Known> {
    let found = vetted.standing.iter();
    found
        .filter_map(|index| vetted.checked_after.findings.get(*index))
        .map(|finding| Known {
            to: String::new(),
            severity: text_capital(&finding.severity.to_string()),
            headline: Piece::told(&finding.headline),
        })
        .collect()
}

fn only_view(vetted: &Vetted, title: &'static str, only: &amendment::Only) -> Only {
    let (common, whenever, partial) = general(&only.general);
    Only {
        title,
        common,
        whenever,
        partial,
        share: only
            .share
            .as_ref()
            .map_or_else(String::new, words::scenarios),
        told: told(vetted, &only.general, &only.scenario),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::amendment::Piece;

    #[test]
    fn words_that_come_for_others_stand_apart_from_them() {
        let line = Line {
            label: "Text".to_owned(),
            pieces: vec![
                Piece::Kept("at least ".to_owned()),
                Piece::Deleted("two".to_owned()),
                Piece::Inserted("three".to_owned()),
                Piece::Kept(" strokes".to_owned()),
                Piece::Deleted(" ".to_owned()),
                Piece::Inserted(" <b>each </b> ".to_owned()),
            ],
        };
        let told: Vec<(WordFate, String)> = marked(&line)
            .into_iter()
            .map(|it| (it.fate, format!("{}|{}|{}", it.before, it.words, it.after)))
            .collect();
        let expected = [
            (WordFate::Stay, "|at least |"),
            (WordFate::Go, "|two|"),
            (WordFate::Come, " |three|"),
            (WordFate::Stay, "| strokes|"),
            (WordFate::Stay, "| |"),
            (WordFate::Come, " |<b>each </b>| "),
        ];
        let expected = expected.map(|(fate, words)| (fate, words.to_owned()));
        assert_eq!(told, expected);
    }
}
