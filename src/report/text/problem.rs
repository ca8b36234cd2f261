//! What is wrong with an input, at the words that are wrong.

use super::excerpt::{Mark, excerpt};
use super::look::{Look, Tone};
use super::page::Page;
use crate::problem::{Gravity, Problem};
use crate::report::words;
use crate::source::Sources;

/// Problems shown in full; the rest are counted.
const MOST: usize = 50;

/// The report of an input that cannot be used.
pub fn problems(sources: &Sources, problems: &[Problem], look: &Look) -> String {
    let mut page = Page::new(look);
    let sorted = crate::report::by_place(problems);
    list(&mut page, sources, sorted.iter().copied().take(MOST));
    if sorted.len() > MOST {
        let words = format!(
            "and {} more; they may go away with the ones above",
            words::counted(sorted.len() - MOST, "problem")
        );
        page.paragraph(0, &words, Tone::Quiet);
        page.gap();
    }
    let errors = problems
        .iter()
        .filter(|problem| problem.gravity == Gravity::Error)
        .count();
    let summary = format!(
        "{}; nothing was checked.",
        words::counted(errors, "problem")
    );
    page.paragraph(0, &super::page::capital(&summary), Tone::Strong);
    page.finish()
}

/// What there is to say about an input that can be used all the same.
pub fn warnings(sources: &Sources, problems: &[Problem], look: &Look) -> String {
    let mut page = Page::new(look);
    list(
        &mut page,
        sources,
        crate::report::by_place(problems).into_iter(),
    );
    page.finish()
}

/// Writes problems one after the other.
pub(super) fn list<'p>(
    page: &mut Page<'_>,
    sources: &Sources,
    problems: impl Iterator<Item = &'p Problem>,
) {
    for problem in problems {
        let tone = match problem.gravity {
            Gravity::Error => Tone::Fault,
            Gravity::Warning => Tone::Warning,
        };
        let bullet = match page.look.drawing {
            super::Drawing::Ascii => "* ",
            super::Drawing::Unicode => "• ",
        };
        let headline = super::page::capital(&problem.headline);
        page.hanging(0, bullet, tone, &headline, Tone::Strong);
        let others = problem.others.iter().map(|(span, words)| Mark {
            span: *span,
            label: words,
            tone: Tone::Note,
        });
        let marks: Vec<Mark<'_>> = std::iter::once(Mark {
            span: problem.span,
            label: &problem.label,
            tone,
        })
        .chain(others)
        .collect();
        let drawn = excerpt(sources, &marks, page.look);
        page.raw(&drawn);
        if let Some(help) = &problem.help {
            let help = super::page::capital(help);
            page.row(3, "What to do", &help, Tone::Plain);
        }
        page.gap();
    }
}
