//! What a draft changes: the verdict in one paragraph, then the tables.

use super::finding::{self, headline};
use super::look::{Detail, Look, Tone};
use super::page::{Page, capital};
use super::{problem, telling};
use crate::amendment::{Row, Vetted};
use crate::analysis::{Checked, Cover, Finding, General};
use crate::labels;
use crate::logic::Scenario;
use crate::problem::Problem;
use crate::report::caution::caution;
use crate::report::{self, amended, tally, verdict, words};

/// The report of drafts. `alone` are the same drafts one by one, where there are several; `warnings`
/// are what reading them had to say.
pub fn vetted(
    vetted: &Vetted,
    alone: &[(String, Vetted)],
    warnings: &[Problem],
    look: &Look,
) -> String {
    let mut page = Page::new(look);
    let whole = Report { vetted };
    if look.detail == Detail::Headlines {
        page.paragraph(0, &verdict::paragraph(vetted), whole.tone());
        return page.finish();
    }
    whole.header(&mut page);
    page.gap();
    page.paragraph(0, &verdict::paragraph(vetted), whole.tone());
    for (draft, alone) in alone {
        page.gap();
        let words = format!("\"{draft}\" alone: {}", verdict::paragraph(alone));
        page.paragraph(0, &words, Tone::Plain);
    }
    whole.changes(&mut page);
    whole.directions(&mut page);
    whole.findings(&mut page);
    whole.matches(&mut page);
    whole.affected(&mut page);
    whole.cases(&mut page);
    whole.mentions(&mut page);
    whole.spaces(&mut page);
    if !vetted.open.is_empty() {
        page.heading("Undecided", Tone::Warning);
        for (about, reason) in &vetted.open {
            page.paragraph(0, &format!("{about}: {reason}"), Tone::Plain);
        }
    }
    if !warnings.is_empty() {
        page.heading("About the files", Tone::Warning);
        problem::list(&mut page, &vetted.after.sources, warnings.iter());
    }
    page.heading("Caution", Tone::Quiet);
    for words in caution(&vetted.after) {
        page.paragraph(0, &words, Tone::Quiet);
    }
    page.finish()
}

struct Report<'v> {
    vetted: &'v Vetted,
}

impl Report<'_> {
    fn tone(&self) -> Tone {
        if self.vetted.does_harm() {
            Tone::Fault
        } else if self.vetted.is_open() {
            Tone::Warning
        } else {
            Tone::Good
        }
    }

    fn header(&self, page: &mut Page<'_>) {
        let (before, after) = (&self.vetted.before, &self.vetted.after);
        let title = if before.edition == after.edition {
            labels::ruleset(after)
        } else {
            let beside = match after.edition.as_str() {
                "" => "one without an edition".to_owned(),
                edition => format!("edition {edition}"),
            };
            format!("{}, beside {beside}", labels::ruleset(before))
        };
        page.paragraph(0, &title, Tone::Strong);
        let (clauses, then, space) = (
            words::counted(before.clauses.len(), "clause"),
            words::grouped(&after.clauses.len().into()),
            tally::space(self.vetted.scenarios.as_ref()),
        );
        let line = match (report::file(before), report::file(after)) {
            (old, new) if old == new => {
                format!("{new}: {clauses} before, {then} after; {space}")
            }
            (old, new) => format!("{old}: {clauses}; {new}: {then}; {space}"),
        };
        page.paragraph(0, &line, Tone::Quiet);
    }

    fn matches(&self, page: &mut Page<'_>) {
        if self.vetted.matches.is_empty() {
            return;
        }
        page.heading("Which clauses are taken for the same", Tone::Quiet);
        for found in &self.vetted.matches {
            let tone = if found.guess {
                Tone::Warning
            } else {
                Tone::Plain
            };
            let words = amended::matched(self.vetted, found);
            page.hanging(0, "• ", tone, &words, Tone::Plain);
        }
    }

    fn changes(&self, page: &mut Page<'_>) {
        let rows = &self.vetted.rows;
        if rows.is_empty() {
            return;
        }
        let title = match rows.len() {
            1 => "One kind of change".to_owned(),
            number => format!("{number} kinds of change"),
        };
        page.heading(&title, Tone::Strong);
        for (number, row) in (1..).zip(rows) {
            self.change(page, number, row);
        }
    }

    fn change(&self, page: &mut Page<'_>, number: usize, row: &Row) {
        let vetted = self.vetted;
        let line = capital(&amended::ruling(vetted, row));
        let outside = row.in_scope == Some(false);
        let tone = if outside { Tone::Fault } else { Tone::Note };
        page.hanging(0, &format!("{number}. "), tone, &line, Tone::Strong);
        if outside {
            page.row(3, "Scope", "outside the scope of the draft", Tone::Fault);
        }
        Self::general(page, &row.general);
        if let Some(share) = &row.share {
            let share = words::share(share, vetted.scenarios.as_ref());
            page.row(3, "How often", &share, Tone::Plain);
        }
        self.told(page, &row.general, &row.scenario);
        let index = number.saturating_sub(1);
        let side = vetted
            .side_by_side
            .get(index)
            .map_or(&[][..], Vec::as_slice);
        let lines: Vec<(String, Tone)> = side
            .iter()
            .filter(|(_, was, is)| was != is)
            .map(|(name, was, is)| {
                let words = amended::on_dimension(vetted, name, was, is);
                (words, Tone::Plain)
            })
            .collect();
        page.row_lines(3, "Ruled", &lines);
        let through = amended::units(vetted, &row.by);
        if vetted.units.len() > 1 && !through.is_empty() {
            page.row(3, "Through", &through.join("; "), Tone::Plain);
        }
        if !row.together.is_empty() {
            let words = amended::together(&amended::units(vetted, &row.together));
            page.row(3, "Together", &words, Tone::Note);
        }
        if let Some(grade) = vetted.grades.get(index) {
            page.row(3, "Grade", amended::grade(*grade), Tone::Quiet);
        }
        page.gap();
    }

    fn general(page: &mut Page<'_>, general: &General) {
        let mut lines: Vec<(String, Tone)> = Vec::new();
        for (index, line) in general.lines.iter().enumerate() {
            let or = if index == 0 { "" } else { "or " };
            lines.push((format!("{or}{line}"), Tone::Plain));
        }
        if general.cover == Cover::Partial {
            lines.push((amended::PARTIAL.to_owned(), Tone::Quiet));
        }
        if !lines.is_empty() {
            page.row_lines(3, "Whenever", &lines);
        }
    }

    /// Tells a scenario of both editions as findings tell theirs.
    fn told(&self, page: &mut Page<'_>, general: &General, scenario: &Scenario) {
        let finding = crate::analysis::shown(scenario, general);
        telling::scenario(page, &self.vetted.space, &finding, 3);
    }

    fn directions(&self, page: &mut Page<'_>) {
        let directions = amended::directions(self.vetted);
        if directions.is_empty() {
            return;
        }
        page.heading("In which direction", Tone::Strong);
        for (name, words) in directions {
            page.paragraph(0, &format!("{name}: {words}"), Tone::Plain);
        }
    }

    fn findings(&self, page: &mut Page<'_>) {
        let vetted = self.vetted;
        let of = |checked: &'_ Checked, which: &[usize]| -> Vec<Finding> {
            let found = which
                .iter()
                .filter_map(|index| checked.findings.get(*index));
            found.cloned().collect()
        };
        let introduced = of(&vetted.checked_after, &vetted.introduced);
        let resolved = of(&vetted.checked_before, &vetted.resolved);
        let standing = of(&vetted.checked_after, &vetted.standing);
        if !introduced.is_empty() {
            page.heading("Findings that are new", Tone::Warning);
            let space = vetted.checked_after.space.as_ref();
            for (number, found) in (1..).zip(&introduced) {
                finding::write(page, &vetted.after, space, number, found);
            }
        }
        if !resolved.is_empty() {
            page.heading("Findings that are gone", Tone::Good);
            for (number, found) in (1..).zip(&resolved) {
                headline(page, number, found);
            }
        }
        if !standing.is_empty() {
            page.heading("Findings that stay", Tone::Quiet);
            for (number, found) in (1..).zip(&standing) {
                headline(page, number, found);
            }
        }
    }

    fn affected(&self, page: &mut Page<'_>) {
        let (changed, same): (Vec<_>, Vec<_>) = self
            .vetted
            .affected
            .iter()
            .partition(|affected| affected.changed != Some(false));
        for (title, tone, list) in [
            (amended::AFFECTED, Tone::Warning, changed),
            (amended::THE_SAME, Tone::Good, same),
        ] {
            if !list.is_empty() {
                page.heading(title, tone);
            }
            for it in list {
                page.row(0, &it.clause, &amended::through(it), Tone::Plain);
            }
        }
    }

    fn cases(&self, page: &mut Page<'_>) {
        let Some(cases) = &self.vetted.cases else {
            return;
        };
        page.heading("Cases whose answer changes", Tone::Warning);
        if cases.is_empty() {
            page.paragraph(0, "None of the case book.", Tone::Plain);
        }
        for case in cases {
            for words in amended::case(self.vetted, case) {
                page.hanging(0, "- ", Tone::Quiet, &words, Tone::Plain);
            }
        }
    }

    fn mentions(&self, page: &mut Page<'_>) {
        if self.vetted.mentions.is_empty() {
            return;
        }
        page.heading("Wording to read again", Tone::Warning);
        for mention in &self.vetted.mentions {
            page.paragraph(0, &amended::mention(mention), Tone::Plain);
        }
    }

    fn spaces(&self, page: &mut Page<'_>) {
        let vetted = self.vetted;
        let lines = amended::spaces(vetted);
        if lines.is_empty() && vetted.only.iter().all(Option::is_none) {
            return;
        }
        page.heading("What can happen", Tone::Strong);
        for line in lines {
            page.paragraph(0, &line, Tone::Plain);
        }
        for (title, only) in amended::only(vetted) {
            page.gap();
            page.paragraph(0, title, Tone::Plain);
            Self::general(page, &only.general);
            if let Some(share) = &only.share {
                page.row(3, "How many", &words::scenarios(share), Tone::Plain);
            }
            self.told(page, &only.general, &only.scenario);
        }
    }
}
