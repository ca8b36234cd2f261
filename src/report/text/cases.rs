//! A case book against the text, for people: what agrees, what does not and by which clauses, what
//! would have to be known, and how far officials agree.

use super::look::{Detail, Look, Tone};
use super::page::{Page, capital};
use crate::cases::{Case, Inconsistent, Review, Told};
use crate::labels;
use crate::model::{ClauseId, Ruleset};
use crate::report::caution::caution;
use crate::report::reviewed::{self, Grounds, State, Words, counted, number};

/// How far the parts of a case stand in.
const INDENT: usize = 3;
/// Cases of one sort that are told in full, and that are told in a line.
const MOST: (usize, usize) = (12, 40);
/// The report of a review; `file` is how the case book is called.
pub fn cases(ruleset: &Ruleset, file: &str, review: &Review, look: &Look) -> String {
    let mut page = Page::new(look);
    let quiet = look.detail == Detail::Headlines;
    if !quiet {
        super::title(&mut page, ruleset);
        let words = format!("{file}: {}", counted(review.cases, "case"));
        page.paragraph(0, &words, Tone::Quiet);
        page.gap();
    }
    let (words, state) = reviewed::summary(review);
    let tone = match state {
        State::Nothing => Tone::Plain,
        State::Good => Tone::Good,
        State::Open => Tone::Warning,
        State::Bad => Tone::Fault,
    };
    page.paragraph(0, &words, tone);
    let writer = Writer {
        words: Words { ruleset },
    };
    section(
        &mut page,
        &review.disagree,
        reviewed::DISAGREEING,
        Tone::Fault,
        |page, told, whole| {
            writer.disagreeing(page, told, whole);
        },
    );
    writer.inconsistent(&mut page, &review.inconsistent, review.compared_all);
    section(
        &mut page,
        &review.undetermined,
        reviewed::OPEN,
        Tone::Warning,
        |page, told, whole| {
            writer.open(page, told, whole);
        },
    );
    section(
        &mut page,
        &review.miscited,
        reviewed::MISCITED,
        Tone::Warning,
        |page, told, _| {
            writer.miscited(page, told);
        },
    );
    if !quiet {
        writer.agreement(&mut page, review);
    }
    section(
        &mut page,
        &review.differing,
        reviewed::DIFFERING,
        Tone::Note,
        |page, told, _| {
            writer.differing(page, told);
        },
    );
    page.gap();
    for words in caution(ruleset) {
        page.paragraph(0, &words, Tone::Quiet);
    }
    page.finish()
}

/// Whether a case is told with its facts, or in a line.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Fullness {
    Whole,
    Line,
}

/// Writes the cases of one sort: some in full, more in a line, the rest as a number.
fn section(
    page: &mut Page<'_>,
    told: &(Vec<Told>, u64),
    title: &str,
    tone: Tone,
    mut write: impl FnMut(&mut Page<'_>, &Told, Fullness),
) {
    let all = told.0.len() as u64 + told.1;
    if all == 0 {
        return;
    }
    page.heading(
        &format!("{}: {title}", capital(&counted(all, "case"))),
        tone,
    );
    let everything = page.look.detail == Detail::Whole;
    let (in_full, in_a_line) = match page.look.detail {
        Detail::Whole => (usize::MAX, 0),
        Detail::Digest => MOST,
        Detail::Headlines => (0, MOST.0 + MOST.1),
    };
    let shown = in_full.saturating_add(in_a_line).min(told.0.len());
    for (index, one) in told.0.iter().take(shown).enumerate() {
        let fullness = if index < in_full {
            Fullness::Whole
        } else {
            Fullness::Line
        };
        write(page, one, fullness);
    }
    let left = all - shown as u64;
    if left > 0 {
        page.gap();
        let how = if everything {
            ""
        } else {
            "; `--all` shows every one that is kept"
        };
        page.paragraph(0, &format!("and {} more{how}", number(left)), Tone::Quiet);
    }
    page.gap();
}

struct Writer<'r> {
    words: Words<'r>,
}

impl Writer<'_> {
    fn disagreeing(&self, page: &mut Page<'_>, told: &Told, fullness: Fullness) {
        for (words, grounds) in self.words.against(told) {
            headline(page, &told.case, &words, Tone::Fault);
            if fullness == Fullness::Whole {
                self.clauses(page, &grounds);
            }
        }
        if fullness == Fullness::Whole {
            if let Some(words) = Words::because(told) {
                page.row(INDENT, "Because", &words, Tone::Plain);
            }
            self.noted(page, &told.case);
        }
    }

    fn clauses(&self, page: &mut Page<'_>, grounds: &Grounds) {
        let named = |clauses: &[ClauseId]| {
            let named = clauses
                .iter()
                .map(|clause| labels::clause(self.words.ruleset, *clause));
            named.collect::<Vec<_>>().join("; ")
        };
        let mut lines = Vec::new();
        for each in &grounds.each {
            let by = match each.silent {
                "" => named(&each.standing),
                silent => silent.to_owned(),
            };
            lines.push((format!("{}{by}", each.ruled), Tone::Plain));
            if !each.through.is_empty() {
                lines.push((format!("through {}", named(&each.through)), Tone::Plain));
            }
        }
        if !lines.is_empty() {
            page.row_lines(INDENT, grounds.label, &lines);
        }
    }

    fn noted(&self, page: &mut Page<'_>, case: &Case) {
        page.row(INDENT, "Noted", &self.words.noted(case), Tone::Plain);
        let source = Words::source(case);
        if !source.is_empty() {
            page.row(INDENT, "Taken from", &source, Tone::Quiet);
        }
        page.gap();
    }

    fn open(&self, page: &mut Page<'_>, told: &Told, fullness: Fullness) {
        for (words, help) in self.words.open(told) {
            headline(page, &told.case, &words, Tone::Warning);
            if let Some(help) = help.filter(|_| fullness == Fullness::Whole) {
                page.row(INDENT, "Not noted", &help, Tone::Plain);
            }
        }
        if fullness == Fullness::Whole {
            self.noted(page, &told.case);
        }
    }

    fn miscited(&self, page: &mut Page<'_>, told: &Told) {
        for cited in &told.judged.cited {
            headline(page, &told.case, &self.words.cited(cited), Tone::Warning);
        }
    }

    fn inconsistent(&self, page: &mut Page<'_>, found: &(Vec<Inconsistent>, u64), all: bool) {
        let total = found.0.len() as u64 + found.1;
        if total > 0 {
            page.heading(&reviewed::pairs(total), Tone::Fault);
            let most = match page.look.detail {
                Detail::Whole => usize::MAX,
                Detail::Digest | Detail::Headlines => MOST.1,
            };
            for pair in found.0.iter().take(most) {
                let mark = format!("{} and {}: ", pair.first.0, pair.second.0);
                let mark = super::page::clean(&mark);
                page.hanging(0, &mark, Tone::Fault, &self.words.pair(pair), Tone::Plain);
            }
            let left = total.saturating_sub(found.0.len().min(most) as u64);
            if left > 0 {
                page.paragraph(0, &format!("and {} more", number(left)), Tone::Quiet);
            }
        }
        if !all {
            page.gap();
            page.paragraph(0, reviewed::NOT_ALL_COMPARED, Tone::Quiet);
        }
    }

    fn agreement(&self, page: &mut Page<'_>, review: &Review) {
        let whole = page.look.detail == Detail::Whole;
        let told = self.words.agreement(review, whole);
        if told.is_empty() {
            return;
        }
        page.heading(reviewed::AGREEMENT, Tone::Note);
        for (title, rows) in told {
            page.paragraph(0, title, Tone::Strong);
            for row in rows {
                let line = format!("{}: {}", row.name, row.overall);
                page.hanging(INDENT, "", Tone::Plain, &line, Tone::Plain);
                for pair in row.pairs {
                    page.hanging(INDENT + 3, "", Tone::Plain, &pair, Tone::Quiet);
                }
            }
        }
        page.gap();
        page.paragraph(0, reviewed::KAPPA, Tone::Quiet);
    }

    fn differing(&self, page: &mut Page<'_>, told: &Told) {
        for (words, why) in self.words.differing(told) {
            headline(page, &told.case, &words, Tone::Note);
            let why: Vec<(String, Tone)> = why.into_iter().map(|it| (it, Tone::Plain)).collect();
            page.row_lines(INDENT, "Why", &why);
        }
    }
}

fn headline(page: &mut Page<'_>, case: &Case, words: &str, tone: Tone) {
    let mark = super::page::clean(&format!("{}: ", case.id));
    page.hanging(0, &mark, tone, words, Tone::Plain);
}
