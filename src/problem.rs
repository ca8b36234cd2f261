//! What is wrong with an input, said at the words that are wrong.
//!
//! Reading and resolving collect problems instead of stopping at the first. A problem has exactly
//! one primary place, on the narrowest words; its headline can be understood without the source.

use crate::source::Span;

/// Whether the input can be used in spite of the problem.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gravity {
    /// The input cannot be used.
    Error,
    /// The input can be used; the writer probably wants to know.
    Warning,
}

/// One thing that is wrong with an input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Whether the input can still be used.
    pub gravity: Gravity,
    /// One line that stands alone: what was found.
    pub headline: String,
    /// The narrowest words that are wrong.
    pub span: Span,
    /// What is said right under those words: what was expected there.
    pub label: String,
    /// Other places that explain it, each with a few words.
    pub others: Vec<(Span, String)>,
    /// What to write instead, or how to think about it.
    pub help: Option<String>,
}

impl Problem {
    /// An error at `span`: `headline` says what was found, `label` what was expected there.
    pub fn error(span: Span, headline: impl Into<String>, label: impl Into<String>) -> Self {
        Problem {
            gravity: Gravity::Error,
            headline: headline.into(),
            span,
            label: label.into(),
            others: Vec::new(),
            help: None,
        }
    }

    /// A warning at `span`.
    pub fn warning(span: Span, headline: impl Into<String>, label: impl Into<String>) -> Self {
        Problem {
            gravity: Gravity::Warning,
            ..Problem::error(span, headline, label)
        }
    }

    /// Adds what to write instead.
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Adds another place that explains the problem.
    pub fn other(mut self, span: Span, words: impl Into<String>) -> Self {
        self.others.push((span, words.into()));
        self
    }
}

/// The known name nearest to an unknown one, if any is near enough to be a likely slip.
pub fn nearest<'a>(unknown: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = unknown.chars().count();
    let limit = (length / 3).clamp(1, 4);
    known
        .into_iter()
        .map(|name| {
            (
                strsim::damerau_levenshtein(&unknown.to_lowercase(), &name.to_lowercase()),
                name,
            )
        })
        // A name of which nothing is left is no slip: `9` is not `1` misspelt.
        .filter(|(distance, _)| *distance <= limit && *distance < length)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn nearest_is_a_slip_not_a_guess() {
        assert_eq!(nearest("phaze", ["force", "phase"]), Some("phase"));
        assert_eq!(
            nearest("seconds_hold", ["seconds_held", "seconds"]),
            Some("seconds_held")
        );
        assert_eq!(nearest("belt", ["phase", "force"]), None);
        assert_eq!(nearest("44", ["1", "4"]), Some("4"));
        assert_eq!(nearest("9", ["1", "2"]), None);
        assert_eq!(nearest("A", ["b", "a"]), Some("a"));
    }
}
