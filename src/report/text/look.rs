//! How a text report looks: how wide, how coloured, drawn with what, and how much of it.

use owo_colors::Style;

/// How a text report looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Columns that a line may take; taken as at least 30.
    pub width: usize,
    /// Whether there are colours.
    pub colours: Colours,
    /// What lines are drawn with.
    pub drawing: Drawing,
    /// How much is shown.
    pub detail: Detail,
}

/// Whether there are colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colours {
    /// Text alone.
    None,
    /// The terminal's own sixteen colours.
    Ansi,
}

/// What lines are drawn with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drawing {
    /// ASCII alone, for terminals that know nothing else.
    Ascii,
    /// Box-drawing characters.
    Unicode,
}

/// How much is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// The headlines of faults, and the summary.
    Headlines,
    /// Everything, but long lists of one kind cut short.
    Digest,
    /// Everything.
    Whole,
}

/// What a piece of text is, for colouring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tone {
    Plain,
    /// A title or headline.
    Strong,
    /// What may be skipped.
    Quiet,
    Fault,
    Warning,
    Note,
    Good,
}

impl Look {
    /// The width, never so narrow that nothing fits.
    pub(super) fn columns(&self) -> usize {
        self.width.max(30)
    }

    pub(super) fn style(&self, tone: Tone) -> Style {
        let style = Style::new();
        if self.colours == Colours::None {
            return style;
        }
        match tone {
            Tone::Plain => style,
            Tone::Strong => style.bold(),
            Tone::Quiet => style.dimmed(),
            Tone::Fault => style.red().bold(),
            Tone::Warning => style.yellow().bold(),
            Tone::Note => style.cyan().bold(),
            Tone::Good => style.green().bold(),
        }
    }

    /// The words in the tone's colour.
    pub(super) fn paint(&self, words: &str, tone: Tone) -> String {
        if self.colours == Colours::None || tone == Tone::Plain || words.trim().is_empty() {
            words.to_owned()
        } else {
            self.style(tone).style(words).to_string()
        }
    }

    pub(super) fn rule_line(&self) -> &'static str {
        match self.drawing {
            Drawing::Ascii => "-",
            Drawing::Unicode => "─",
        }
    }

    /// What stands where text was left out.
    pub(super) fn ellipsis(&self) -> &'static str {
        match self.drawing {
            Drawing::Ascii => "...",
            Drawing::Unicode => "…",
        }
    }
}
