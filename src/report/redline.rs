//! A draft as it is circulated, as Markdown: old and new text with every word marked that goes or comes,
//! what it changes in rulings, and what it touches beside.
//!
//! Words that go are struck and stand in `[− −]`, words that come are underlined and stand in `[+ +]`,
//! so that neither colours nor a program that shows them are needed.

use super::caution::caution;
use super::leaf::verbatim;
use super::{text_capital, verdict, words};
use crate::amendment::{
    CaseChange, Fate, Grade, Line, Noted, Piece, Redlined, Row, State, Subject, Vetted,
};
use crate::problem::Problem;
use crate::read::amendment::Part;
use std::fmt::Write;

/// The draft as it is circulated. `alone` are the same drafts one by one, where there are several;
/// `warnings` are what reading them had to say.
pub fn markdown(vetted: &Vetted, alone: &[(String, Vetted)], warnings: &[Problem]) -> String {
    let mut page = Page {
        vetted,
        out: String::new(),
    };
    page.head();
    page.paragraph(&format!(
        "**Verdict.** {}",
        verbatim(&verdict::paragraph(vetted))
    ));
    for (draft, vetted) in alone {
        page.paragraph(&format!(
            "**{} alone.** {}",
            verbatim(draft),
            verbatim(&verdict::paragraph(vetted))
        ));
    }
    page.changes();
    page.rulings();
    page.untouched();
    page.cases();
    page.mentions();
    page.findings();
    page.warnings(warnings);
    page.heading("Caution");
    for words in caution(&vetted.after) {
        page.paragraph(&verbatim(&words));
    }
    page.out
}

struct Page<'v> {
    vetted: &'v Vetted,
    out: String,
}

impl Page<'_> {
    fn paragraph(&mut self, words: &str) {
        if !self.out.is_empty() {
            self.out.push('\n');
        }
        self.out.push_str(words);
        self.out.push('\n');
    }

    fn heading(&mut self, title: &str) {
        self.paragraph(&format!("## {title}"));
    }

    fn item(&mut self, words: &str) {
        // Writing to a string can't fail.
        let _ = writeln!(self.out, "- {words}");
    }

    fn items(&mut self, all: &[String]) {
        if !all.is_empty() {
            self.out.push('\n');
        }
        for words in all {
            self.item(words);
        }
    }

    fn head(&mut self) {
        let vetted = self.vetted;
        let (before, after) = (&vetted.before, &vetted.after);
        let title = match vetted.drafts.as_slice() {
            [] => after.title.clone(),
            drafts => {
                let titles: Vec<String> = drafts.iter().map(|it| it.title.clone()).collect();
                words::and_list(&titles)
            }
        };
        self.paragraph(&format!("# {}", verbatim(&title)));
        let edition = |edition: &str| match edition {
            "" => "no edition".to_owned(),
            edition => format!("edition {}", verbatim(edition)),
        };
        let what = match vetted.subject {
            Subject::Draft => "Draft amendment to",
            Subject::Drafts => "Draft amendments to",
            Subject::Edition => "Editions compared of",
        };
        let from = edition(&before.edition);
        let to = edition(&after.edition);
        let editions = if from == to {
            from
        } else {
            format!("from {from} to {to}")
        };
        self.paragraph(&format!("{what} {}, {editions}.", verbatim(&before.title)));
        for draft in &vetted.drafts {
            let several = vetted.drafts.len() > 1;
            let of = if several {
                format!(" of {}", verbatim(&draft.title))
            } else {
                String::new()
            };
            if let Some(reason) = &draft.reason {
                let reason = verbatim(reason.in_language(&after.language));
                self.paragraph(&format!("**Rationale{of}.** {}", reason.trim()));
            }
            if let Some(scope) = &draft.scope {
                self.paragraph(&format!("**Scope{of}.** {}", verbatim(scope)));
            }
        }
    }

    fn changes(&mut self) {
        self.heading("What is changed");
        if self.vetted.redline.is_empty() {
            self.paragraph("No words are changed.");
            return;
        }
        self.paragraph(&format!(
            "How to read it: {} is struck out, {} is new.",
            marked(&Piece::Deleted("this".to_owned())),
            marked(&Piece::Inserted("this".to_owned()))
        ));
        for thing in &self.vetted.redline {
            self.thing(thing);
        }
    }

    fn thing(&mut self, thing: &Redlined) {
        // A background line without an id goes by what it says.
        let own = thing.lines.first();
        let nameless =
            thing.part == Part::Background && own.is_some_and(|line| plain(line) == thing.name);
        let name = if nameless {
            String::new()
        } else {
            format!(" {}", verbatim(&thing.name))
        };
        let fate = match &thing.fate {
            Fate::Inserted => "new".to_owned(),
            Fate::Repealed => "struck out".to_owned(),
            Fate::Changed => "changed".to_owned(),
            Fate::Renumbered(old) => format!("renumbered; it was {}", verbatim(old)),
            Fate::ChangedAndRenumbered(old) => {
                format!("changed and renumbered; it was {}", verbatim(old))
            }
        };
        let title = format!("{}{name}", text_capital(thing.part.noun()));
        self.paragraph(&format!("### {title}: {fate}"));
        // A clause is read whole; of other things, and of what only moves, what is the same is left out.
        let whole = thing.part == Part::Clause && !matches!(thing.fate, Fate::Renumbered(_));
        let lines: Vec<String> = thing
            .lines
            .iter()
            .filter(|line| whole || line.changes())
            .filter(|line| line.label != "Number" || line.changes())
            .map(|line| format!("**{}:** {}", verbatim(&line.label), laid_over(line)))
            .collect();
        self.items(&lines);
        let mut effects = Vec::new();
        if let Some(rows) = &thing.rows {
            let told = rows.iter().filter_map(|index| {
                let row = self.vetted.rows.get(*index)?;
                Some(format!("{} ({})", self.told(row), index.saturating_add(1)))
            });
            let told: Vec<String> = told.collect();
            effects.push(if told.is_empty() {
                "**Effect in rulings:** none".to_owned()
            } else {
                format!("**Effect in rulings:** {}", told.join("; "))
            });
        }
        if !thing.affected.is_empty() {
            let clauses: Vec<String> = thing.affected.iter().map(|it| verbatim(it)).collect();
            effects.push(format!(
                "**Also affected:** {} {}, untouched in words",
                if clauses.len() == 1 {
                    "clause"
                } else {
                    "clauses"
                },
                words::and_list(&clauses)
            ));
        }
        self.items(&effects);
    }

    /// `penalty to the attacker: none before, caution after`.
    fn told(&self, row: &Row) -> String {
        let state = |state: &State| verbatim(&verdict::state(self.vetted, &row.dimension, state));
        format!(
            "{}: {} before, {} after",
            verbatim(&verdict::dimension(self.vetted, &row.dimension)),
            state(&row.from),
            state(&row.to)
        )
    }

    fn rulings(&mut self) {
        self.heading("Rulings that change");
        let vetted = self.vetted;
        if vetted.rows.is_empty() {
            self.paragraph(if vetted.open.is_empty() {
                "None, and that is proved."
            } else {
                "None was found, and not everything could be decided."
            });
            return;
        }
        for (index, row) in vetted.rows.iter().enumerate() {
            let number = index.saturating_add(1);
            let outside = if row.in_scope == Some(false) {
                " **(outside the scope)**"
            } else {
                ""
            };
            self.paragraph(&format!(
                "### {number}. {}{outside}",
                text_capital(&self.told(row))
            ));
            let mut items = Vec::new();
            for (place, line) in row.general.lines.iter().enumerate() {
                let or = if place == 0 { "**Whenever** " } else { "or " };
                items.push(format!("{or}{}", verbatim(line)));
            }
            if row.general.cover == crate::analysis::Cover::Partial {
                items.push("and elsewhere: these conditions are only a part of it".to_owned());
            }
            if let Some(share) = &row.share {
                let share = words::share(share, vetted.scenarios.as_ref());
                items.push(format!("**How often:** {share}"));
            }
            let told = crate::narration::scenario(&vetted.space, &row.scenario, None);
            let told = verbatim(&told.sentences.join(" "));
            items.push(format!("**For instance:** {told}"));
            let units: Vec<String> = row
                .by
                .iter()
                .filter_map(|unit| vetted.units.get(*unit))
                .map(|unit| verbatim(&unit.does))
                .collect();
            if vetted.units.len() > 1 && !units.is_empty() {
                items.push(format!("**Through:** {}", units.join("; ")));
            }
            if let Some(grade) = vetted.grades.get(index) {
                items.push(format!("**Grade:** {}", grade_words(*grade)));
            }
            self.items(&items);
        }
    }

    fn untouched(&mut self) {
        let vetted = self.vetted;
        let all = vetted
            .affected
            .iter()
            .filter(|it| it.changed != Some(false));
        let all: Vec<String> = all
            .map(|it| {
                let open = if it.changed.is_none() {
                    " (undecided)"
                } else {
                    ""
                };
                let through: Vec<String> = it.through.iter().map(|it| verbatim(it)).collect();
                format!(
                    "{}: through {}{open}",
                    verbatim(&it.clause),
                    words::and_list(&through)
                )
            })
            .collect();
        if !all.is_empty() {
            self.heading("Clauses untouched in their words that do something else");
            self.items(&all);
        }
    }

    fn cases(&mut self) {
        let Some(cases) = &self.vetted.cases else {
            return;
        };
        self.heading("Cases whose answer changes");
        if cases.is_empty() {
            self.paragraph("None of the case book.");
            return;
        }
        let told: Vec<String> = cases
            .iter()
            .flat_map(|case| case_told(self.vetted, case))
            .map(|words| verbatim(&words))
            .collect();
        self.items(&told);
    }

    fn mentions(&mut self) {
        let mentions: Vec<String> = self
            .vetted
            .mentions
            .iter()
            .map(|mention| {
                let now = match &mention.now {
                    Some(now) => format!("which is {now} now"),
                    None => "which is gone".to_owned(),
                };
                let words = format!("{} speaks of {}, {now}", mention.of, mention.names);
                verbatim(&text_capital(&words))
            })
            .collect();
        if !mentions.is_empty() {
            self.heading("Wording to read again");
            self.items(&mentions);
        }
    }

    fn findings(&mut self) {
        let vetted = self.vetted;
        let of = |checked: &crate::analysis::Checked, which: &[usize]| -> Vec<String> {
            let found = which
                .iter()
                .filter_map(|index| checked.findings.get(*index));
            found
                .map(|finding| {
                    let severity = text_capital(&finding.severity.to_string());
                    format!("{severity}: {}", verbatim(&finding.headline))
                })
                .collect()
        };
        for (title, list) in [
            (
                "Findings that are new",
                of(&vetted.checked_after, &vetted.introduced),
            ),
            (
                "Findings that are gone",
                of(&vetted.checked_before, &vetted.resolved),
            ),
        ] {
            if !list.is_empty() {
                self.heading(title);
                self.items(&list);
            }
        }
    }

    fn warnings(&mut self, warnings: &[Problem]) {
        if warnings.is_empty() {
            return;
        }
        self.heading("About the files");
        let all = warnings.iter().map(|problem| verbatim(&problem.headline));
        self.items(&all.map(|words| text_capital(&words)).collect::<Vec<_>>());
    }
}

/// How far a ruling moves, in words.
pub(super) fn grade_words(grade: Grade) -> &'static str {
    match grade {
        Grade::Minor => "minor: one step of the scale",
        Grade::Major => "major",
        Grade::Reversal => "reversal: from one end of the scale to the other",
    }
}

/// What becomes of a case, one line for each answer that changes.
pub(super) fn case_told(vetted: &Vetted, case: &CaseChange) -> Vec<String> {
    let states = |name: &str, states: &[State]| -> String {
        let told = states.iter().map(|it| verdict::state(vetted, name, it));
        match told.collect::<Vec<_>>().as_slice() {
            [] => "no incident has these facts".to_owned(),
            several => words::or_list(several),
        }
    };
    let mut lines: Vec<String> = case
        .answers
        .iter()
        .map(|answer| {
            let name = &answer.dimension;
            let noted = match &answer.noted {
                None => String::new(),
                Some(Noted {
                    ruled,
                    agreed,
                    agrees,
                }) => {
                    let ruled = verdict::state(vetted, name, ruled);
                    let agrees = match (agreed, agrees) {
                        (true, true) => "it still agrees",
                        (true, false) => "it agreed and no longer does",
                        (false, true) => "it disagreed and agrees now",
                        (false, false) => "it does not agree, before or after",
                    };
                    format!("; noted is {ruled}: {agrees}")
                }
            };
            format!(
                "{}, {}: {} before, {} after{noted}",
                case.id,
                verdict::dimension(vetted, name),
                states(name, &answer.before),
                states(name, &answer.after)
            )
        })
        .collect();
    if !case.lost.is_empty() {
        lines.push(format!(
            "{}: the later rules don't know what it says of {}; that is left out",
            case.id,
            words::and_list(&case.lost)
        ));
    }
    if let Some(reason) = &case.open {
        lines.push(format!("{}: undecided, {reason}", case.id));
    }
    lines
}

/// The words of a line, without marks.
fn plain(line: &Line) -> String {
    let pieces = line.pieces.iter();
    pieces
        .map(|piece| match piece {
            Piece::Kept(words) | Piece::Deleted(words) | Piece::Inserted(words) => words.as_str(),
        })
        .collect()
}

/// A line with its marks; a space between words that go and those that come in their place.
fn laid_over(line: &Line) -> String {
    let mut out = String::new();
    for piece in &line.pieces {
        if matches!(piece, Piece::Inserted(_)) && out.ends_with("</del>") {
            out.push(' ');
        }
        out.push_str(&marked(piece));
    }
    out
}

/// Words with the marks of what becomes of them. Marks stand at the words themselves, spaces outside.
fn marked(piece: &Piece) -> String {
    let set = |words: &str, open: &str, close: &str| {
        let inner = words.trim();
        if inner.is_empty() {
            return words.to_owned();
        }
        let start = words.len() - words.trim_start().len();
        let end = start + inner.len();
        format!(
            "{}{open}{}{close}{}",
            words.get(..start).unwrap_or_default(),
            verbatim(inner),
            words.get(end..).unwrap_or_default()
        )
    };
    match piece {
        Piece::Kept(words) => verbatim(words),
        Piece::Deleted(words) => set(words, "<del>\\[− ", " −\\]</del>"),
        Piece::Inserted(words) => set(words, "<ins>\\[+ ", " +\\]</ins>"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_go_and_come_are_marked_by_signs_too() {
        let gone = marked(&Piece::Deleted("two ".to_owned()));
        assert_eq!(gone, "<del>\\[− two −\\]</del> ");
        let new = marked(&Piece::Inserted("<b>*x*".to_owned()));
        assert_eq!(new, "<ins>\\[+ \\<b\\>\\*x\\* +\\]</ins>");
    }
}
