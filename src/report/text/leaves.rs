//! A page of plain matter as text.

use super::look::{Look, Tone};
use super::page::Page;
use crate::report::leaf::Leaf;

/// The page as text.
pub(in crate::report) fn leaves(leaves: &[Leaf], look: &Look) -> String {
    let mut page = Page::new(look);
    for leaf in leaves {
        match leaf {
            Leaf::Title(words) => page.paragraph(0, words, Tone::Strong),
            Leaf::Heading(words) => page.heading(words, Tone::Strong),
            Leaf::Paragraph(words) => {
                page.gap();
                page.paragraph(0, words, Tone::Plain);
            }
            Leaf::Entry(mark, words) => {
                page.gap();
                page.hanging(0, &format!("{mark} "), Tone::Note, words, Tone::Strong);
            }
            Leaf::Row(label, words) => page.row(3, label, words, Tone::Plain),
            Leaf::List(items) => {
                page.gap();
                for item in items {
                    page.hanging(0, "- ", Tone::Quiet, item, Tone::Plain);
                }
            }
            Leaf::Quiet(words) => {
                page.gap();
                page.paragraph(0, words, Tone::Quiet);
            }
        }
    }
    page.finish()
}
