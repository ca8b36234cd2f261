//! What each kind of finding means, as a page that is written once: in the repository, in the program
//! and in its tests.
//!
//! A page is Markdown of a fixed shape: the kind's name, one line, how grave it is, then sections with
//! an example that is tested. How a page looks on a terminal is for `text` to know.

use crate::model::Kind;

/// The page of a kind, as it stands in `docs/findings/`.
pub fn page(kind: Kind) -> &'static str {
    macro_rules! pages {
        ($($name:ident $file:literal;)*) => {
            match kind {
                $(Kind::$name => include_str!(concat!("../../docs/findings/", $file, ".md")),)*
            }
        };
    }
    pages! {
        Contradiction "contradiction";
        Gap "gap";
        Impossible "impossible";
        Displaced "displaced";
        LooseTerm "loose-term";
        BrokenPrinciple "broken-principle";
        NoEffect "no-effect";
        Presupposes "presupposes";
        TurnsOnJudgement "turns-on-judgement";
        LeftToDiscretion "left-to-discretion";
        SurplusWords "surplus-words";
        IdleException "idle-exception";
        StepEdge "step-edge";
        Unused "unused";
        Wording "wording";
    }
}

/// What a kind is, in one sentence: the first of its page.
pub fn line(kind: Kind) -> &'static str {
    let mut lines = page(kind).lines().filter(|line| !line.is_empty());
    lines.nth(1).unwrap_or("")
}

/// The same within a sentence: with a small letter, and no full stop.
pub(super) fn phrase(kind: Kind) -> String {
    let mut letters = line(kind).trim_end_matches('.').chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
