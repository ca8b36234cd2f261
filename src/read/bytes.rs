//! The bytes of a file as text, or why they are none.
//!
//! Whoever opens files hands their bytes in here; this module refuses to know where they came
//! from. What it lets through is UTF-8 of a sane size without characters that nobody can see.

use crate::problem::Problem;
use crate::source::{SourceId, Span};

/// The largest file that is read, in bytes (16 MiB).
pub const LARGEST_FILE: usize = 16 << 20;

/// Bytes that are no usable text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// What can be shown of the file: the part before the fault and the fault itself, which is
    /// written as U+FFFD where it is no character. Empty where the file is too large.
    pub text: String,
    /// The bytes of `text` that are at fault.
    pub range: std::ops::Range<u32>,
    /// What is wrong.
    pub fault: ByteFault,
}

/// What can be wrong with the bytes of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ByteFault {
    /// More than [`LARGEST_FILE`] bytes; the number of bytes.
    TooLarge(usize),
    /// Not UTF-8; the first byte that is not.
    NotUtf8(u8),
    /// UTF-16, by its byte order mark.
    Utf16,
    /// A control character that has no place in a text, NUL among them.
    Control(char),
}

impl Refused {
    /// The problem to show, once `text` has been added to the sources under `id`.
    pub fn problem(&self, id: SourceId) -> Problem {
        let span = Span {
            source: id,
            start: self.range.start,
            end: self.range.end,
        };
        match self.fault {
            ByteFault::TooLarge(bytes) => Problem::error(
                span,
                format!("the file is too large: {bytes} bytes, where {LARGEST_FILE} are read"),
                "no file of this size is read",
            )
            .help("a rulebook of ten thousand clauses has about 4 MB; split the file, or check that it is the right one"),
            ByteFault::NotUtf8(byte) => Problem::error(
                span,
                format!("the file is not UTF-8 text: byte 0x{byte:02X} is no character"),
                "text up to here, then a byte that is no UTF-8",
            )
            .help("save the file with the encoding UTF-8"),
            ByteFault::Utf16 => Problem::error(
                span,
                "the file is UTF-16 text, where UTF-8 is read",
                "a UTF-16 byte order mark",
            )
            .help("save the file with the encoding UTF-8"),
            ByteFault::Control(character) => Problem::error(
                span,
                format!(
                    "a control character stands in the text: U+{:04X}",
                    u32::from(character)
                ),
                "an invisible character that has no place in a text",
            )
            .help("delete it; it often comes from copying out of another program"),
        }
    }
}

/// Takes the bytes of a file as text.
///
/// A byte order mark of UTF-8 is kept in the text, so that places count as in the file.
///
/// # Errors
/// [`Refused`] where the bytes are too many, are not UTF-8, or hold control characters other than
/// tabs and line ends.
pub fn text_from_bytes(bytes: Vec<u8>) -> Result<String, Refused> {
    let refused = |text: String, start: usize, fault: ByteFault| {
        let place = |byte: usize| u32::try_from(byte).unwrap_or(u32::MAX);
        Refused {
            range: place(start)..place(text.len()),
            text,
            fault,
        }
    };
    if bytes.len() > LARGEST_FILE {
        return Err(refused(String::new(), 0, ByteFault::TooLarge(bytes.len())));
    }
    if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) {
        return Err(refused("\u{FFFD}".to_owned(), 0, ByteFault::Utf16));
    }
    let text = String::from_utf8(bytes).map_err(|error| {
        let valid = error.utf8_error().valid_up_to();
        let bytes = error.as_bytes();
        let mut shown =
            String::from_utf8_lossy(bytes.get(..valid).unwrap_or_default()).into_owned();
        shown.push('\u{FFFD}');
        let byte = bytes.get(valid).copied().unwrap_or_default();
        refused(shown, valid, ByteFault::NotUtf8(byte))
    })?;
    match control_character(&text) {
        None => Ok(text),
        Some((at, character)) => {
            let shown = text
                .get(..at + character.len_utf8())
                .unwrap_or_default()
                .to_owned();
            Err(refused(shown, at, ByteFault::Control(character)))
        }
    }
}

/// The first control character that has no place in a text, and its byte.
pub(super) fn control_character(text: &str) -> Option<(usize, char)> {
    text.char_indices().find(|(at, character)| match character {
        '\t' | '\n' | '\r' | '\u{85}' => false,
        // A byte order mark opens a text and has no place inside.
        '\u{FEFF}' => *at > 0,
        other => other.is_control(),
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]
    use super::*;

    #[test]
    fn text_is_taken_as_it_is() {
        for text in ["", "a: é\r\n\tb", "\u{FEFF}ruleset: x\n"] {
            assert_eq!(text_from_bytes(text.as_bytes().to_vec()).unwrap(), text);
        }
    }

    #[test]
    fn what_is_no_text_is_refused_with_its_place() {
        let check = |bytes: &[u8], fault: ByteFault, range: std::ops::Range<u32>| {
            let refused = text_from_bytes(bytes.to_vec()).unwrap_err();
            assert_eq!((refused.fault, refused.range.clone()), (fault, range));
            assert!(refused.text.is_char_boundary(refused.range.start as usize));
            assert_eq!(refused.text.len(), refused.range.end as usize);
        };
        check(b"ab\xFFcd", ByteFault::NotUtf8(0xFF), 2..5);
        check("é\u{0}".as_bytes(), ByteFault::Control('\0'), 2..3);
        check(b"a\x1b[1m", ByteFault::Control('\u{1b}'), 1..2);
        check("a\u{FEFF}".as_bytes(), ByteFault::Control('\u{FEFF}'), 1..4);
        check(b"\xFF\xFEa\0", ByteFault::Utf16, 0..3);
        check(b"caf\xE9", ByteFault::NotUtf8(0xE9), 3..6);
        let large = vec![b'a'; LARGEST_FILE + 1];
        check(&large, ByteFault::TooLarge(LARGEST_FILE + 1), 0..0);
    }
}
