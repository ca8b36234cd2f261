//! The kinds of finding, by the names that a ruleset's `accepted` list uses.

use std::fmt;

macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident $word:literal $severity:ident;)*) => {
        /// The kinds of finding, the gravest first.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Kind { $($(#[$doc])* $name,)* }

        impl Kind {
            /// Every kind, the gravest first.
            pub const ALL: &[Kind] = &[$(Kind::$name,)*];

            /// The kind's name in outputs and in `accepted`.
            pub fn word(self) -> &'static str {
                match self { $(Kind::$name => $word,)* }
            }

            /// How grave a finding of this kind is, unless it says otherwise.
            pub fn severity(self) -> Severity {
                match self { $(Kind::$name => Severity::$severity,)* }
            }

            /// The kind of this name.
            pub fn from_word(word: &str) -> Option<Kind> {
                Kind::ALL.iter().copied().find(|kind| kind.word() == word)
            }
        }
    };
}

kinds! {
    /// Standing rulings that have nothing in common on a dimension that must agree.
    Contradiction "contradiction" Fault;
    /// A ruling is due and none is given.
    Gap "gap" Fault;
    /// No scenario meets the clause's condition.
    Impossible "impossible" Fault;
    /// The clause can be met, but no ruling of it ever stands.
    Displaced "displaced" Fault;
    /// A narrow reading that is not within its broad one.
    LooseTerm "loose-term" Fault;
    /// A scenario, or a pair, against a stated principle.
    BrokenPrinciple "broken-principle" Fault;
    /// In force somewhere, but no scenario's ruling would change without it.
    NoEffect "no-effect" Warning;
    /// The clause would be met somewhere if what isn't asked were taken as "no".
    Presupposes "presupposes" Warning;
    /// Two officials who agree on every plain fact reach different rulings.
    TurnsOnJudgement "turns-on-judgement" Warning;
    /// The text leaves several rulings open.
    LeftToDiscretion "left-to-discretion" Note;
    /// A part of a condition that could go with no ruling changed.
    SurplusWords "surplus-words" Note;
    /// A relation or exception that changes no scenario's ruling.
    IdleException "idle-exception" Note;
    /// Thresholds that close only because of the step.
    StepEdge "step-edge" Note;
    /// Something that nothing uses.
    Unused "unused" Note;
    /// A vague or forked word that the model does not define.
    Wording "wording" Note;
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// How grave a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The rules are broken.
    Fault,
    /// Somebody should look.
    Warning,
    /// Worth knowing.
    Note,
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Severity::Fault => "fault",
            Severity::Warning => "warning",
            Severity::Note => "note",
        })
    }
}
