//! A draft as it is circulated, as Markdown: old and new text with every word marked that goes or comes,
//! what it changes in rulings, and what it touches beside.
//!
//! Words that go are struck and stand in `[− −]`, words that come are underlined and stand in `[+ +]`,
//! so that neither colours nor a program that shows them are needed.

use super::caution::caution;
use super::leaf::verbatim;
use super::{amended, text_capital, verdict, words};
use crate::amendment::{Line, Piece, Redlined, Vetted};
use crate::analysis::{Checked, Cover};
use crate::problem::Problem;
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
    page.matches();
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
        self.paragraph(&format!("# {}", verbatim(&amended::title(vetted))));
        self.paragraph(&verbatim(&amended::subject(vetted)));
        for draft in &vetted.drafts {
            let several = vetted.drafts.len() > 1;
            let of = if several {
                format!(" of {}", verbatim(&draft.title))
            } else {
                String::new()
            };
            if let Some(reason) = &draft.reason {
                let reason = verbatim(reason.in_language(&vetted.after.language));
                self.paragraph(&format!("**Rationale{of}.** {}", reason.trim()));
            }
            if let Some(scope) = &draft.scope {
                self.paragraph(&format!("**Scope{of}.** {}", verbatim(scope)));
            }
        }
    }

    fn matches(&mut self) {
        let vetted = self.vetted;
        if vetted.matches.is_empty() {
            return;
        }
        self.heading("Which clauses are taken for the same");
        let all = vetted.matches.iter();
        let all: Vec<String> = all
            .map(|found| verbatim(&amended::matched(vetted, found)))
            .collect();
        self.items(&all);
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
        let title = verbatim(&amended::thing(thing));
        let fate = verbatim(&amended::fate(&thing.fate));
        self.paragraph(&format!("### {title}: {fate}"));
        let lines: Vec<String> = amended::lines(thing)
            .map(|line| format!("**{}:** {}", verbatim(&line.label), laid_over(line)))
            .collect();
        self.items(&lines);
        let effect = amended::effects(self.vetted, thing).map(|effects| {
            let each = effects.iter();
            let each = each.map(|(number, words)| format!("{words} ({number})"));
            let all = match each.collect::<Vec<_>>().join("; ") {
                all if all.is_empty() => "none".to_owned(),
                all => all,
            };
            format!("**Effect in rulings:** {}", verbatim(&all))
        });
        let also = amended::also_affected(thing);
        let also = also.map(|words| format!("**Also affected:** {}", verbatim(&words)));
        self.items(&effect.into_iter().chain(also).collect::<Vec<_>>());
    }

    fn rulings(&mut self) {
        self.heading("Rulings that change");
        let vetted = self.vetted;
        if vetted.rows.is_empty() {
            self.paragraph(amended::no_ruling(vetted));
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
                verbatim(&text_capital(&amended::ruling(vetted, row)))
            ));
            let mut items = Vec::new();
            for (place, line) in row.general.lines.iter().enumerate() {
                let or = if place == 0 { "**Whenever** " } else { "or " };
                items.push(format!("{or}{}", verbatim(line)));
            }
            if row.general.cover == Cover::Partial {
                items.push(amended::PARTIAL.to_owned());
            }
            if let Some(share) = &row.share {
                let share = words::share(share, vetted.scenarios.as_ref());
                items.push(format!("**How often:** {share}"));
            }
            let told = crate::narration::scenario(&vetted.space, &row.scenario, None);
            let told = verbatim(&told.sentences.join(" "));
            items.push(format!("**For instance:** {told}"));
            let units = amended::units(vetted, &row.by);
            if vetted.units.len() > 1 && !units.is_empty() {
                items.push(format!("**Through:** {}", verbatim(&units.join("; "))));
            }
            if let Some(grade) = vetted.grades.get(index) {
                items.push(format!("**Grade:** {}", amended::grade(*grade)));
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
            .map(|it| verbatim(&format!("{}: {}", it.clause, amended::through(it))))
            .collect();
        if !all.is_empty() {
            self.heading(amended::AFFECTED);
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
            .flat_map(|case| amended::case(self.vetted, case))
            .map(|words| verbatim(&words))
            .collect();
        self.items(&told);
    }

    fn mentions(&mut self) {
        let mentions = self.vetted.mentions.iter();
        let mentions: Vec<String> = mentions
            .map(|mention| verbatim(&amended::mention(mention)))
            .collect();
        if !mentions.is_empty() {
            self.heading("Wording to read again");
            self.items(&mentions);
        }
    }

    fn findings(&mut self) {
        let vetted = self.vetted;
        let of = |checked: &Checked, which: &[usize]| -> Vec<String> {
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
    let set = |words: &str, open: &str, close: &str| match amended::set_off(words) {
        None => words.to_owned(),
        Some((before, inner, after)) => {
            format!("{before}{open}{}{close}{after}", verbatim(inner))
        }
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
