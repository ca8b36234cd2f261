//! A page of plain matter that is set as text or as Markdown: headings, numbered entries, rows.
//!
//! What is told to a class is told once; here is only how it is set.

/// A piece of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Leaf {
    /// The title of the whole.
    Title(String),
    /// The title of a part.
    Heading(String),
    /// A paragraph.
    Paragraph(String),
    /// An entry begins: its mark (`1.`) and what it is called.
    Entry(String, String),
    /// A row of an entry: a label and what it says.
    Row(String, String),
    /// Items of a list.
    List(Vec<String>),
    /// What may be skipped.
    Quiet(String),
}

/// The page as Markdown.
pub(super) fn markdown(leaves: &[Leaf]) -> String {
    let mut out = String::new();
    let mut in_rows = false;
    for leaf in leaves {
        let rows = matches!(leaf, Leaf::Row(..));
        // Rows of one entry are one list; everything else stands apart.
        if !(out.is_empty() || rows && in_rows) {
            out.push('\n');
        }
        in_rows = rows;
        match leaf {
            Leaf::Title(words) => line(&mut out, "# ", words),
            Leaf::Heading(words) => line(&mut out, "## ", words),
            Leaf::Entry(mark, words) => line(&mut out, "### ", &format!("{mark} {words}")),
            Leaf::Paragraph(words) => line(&mut out, "", words),
            Leaf::Quiet(words) => {
                out.push('*');
                out.push_str(&escaped(words));
                out.push_str("*\n");
            }
            Leaf::Row(label, words) if label.is_empty() => line(&mut out, "  ", words),
            Leaf::Row(label, words) => {
                out.push_str("- **");
                out.push_str(&escaped(label));
                out.push_str("** ");
                out.push_str(&escaped(words));
                out.push('\n');
            }
            Leaf::List(items) => items.iter().for_each(|item| line(&mut out, "- ", item)),
        }
    }
    out
}

fn line(out: &mut String, start: &str, words: &str) {
    out.push_str(start);
    out.push_str(&escaped(words));
    out.push('\n');
}

/// Words of a file as they are, on one line: no sign of them is a mark of Markdown.
pub(super) fn verbatim(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '`' => out.push_str("\\`"),
            letter => out.push_str(&escaped(letter.encode_utf8(&mut [0; 4]))),
        }
    }
    out
}

/// The words with every sign escaped that Markdown would take for its own; on one line.
fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    let mut code = false;
    for letter in words.chars() {
        match letter {
            '`' => {
                code = !code;
                out.push('`');
            }
            '\n' | '\r' | '\t' => out.push(' '),
            _ if super::text::hidden(letter) => out.push(char::REPLACEMENT_CHARACTER),
            '\\' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '|' | '~' if !code => {
                out.push('\\');
                out.push(letter);
            }
            _ => out.push(letter),
        }
    }
    out
}
