//! The state of a case book: what agrees with the text, what does not and by which clauses, what can't
//! be decided, and how far officials agree.

use super::cards::{ClauseLink, facts};
use crate::cases::{Review, Told};
use crate::model::{ClauseId, Ruleset};
use crate::report::reviewed::{self, Agreed, Grounds, State, Words, counted, number};
use crate::report::text_capital;

/// A case book that was held against the text of the page.
#[derive(Clone, Copy, Debug)]
pub struct CaseBook<'a> {
    /// What it is called.
    pub file: &'a str,
    /// What became of its cases.
    pub review: &'a Review,
}

/// The same, ready to be set.
pub(super) struct CasesView {
    pub(super) file: String,
    pub(super) number: String,
    pub(super) summary: String,
    pub(super) class: &'static str,
    pub(super) groups: Vec<Group>,
    pub(super) pairs: Pairs,
    pub(super) agreement: Vec<(&'static str, Vec<Agreed>)>,
    pub(super) kappa: &'static str,
}

/// Cases of one sort.
pub(super) struct Group {
    pub(super) title: String,
    pub(super) sign: &'static str,
    pub(super) cases: Vec<CaseView>,
    pub(super) more: String,
}

/// One case.
pub(super) struct CaseView {
    pub(super) anchor: String,
    pub(super) id: String,
    pub(super) said: Vec<Said>,
    pub(super) because: String,
    pub(super) noted: String,
    pub(super) source: String,
    /// Its facts, for the place where cases are tried.
    pub(super) facts: String,
}

/// One thing that is said of a case.
#[derive(Default)]
pub(super) struct Said {
    pub(super) label: &'static str,
    pub(super) words: String,
    /// What stands before the grounds.
    pub(super) by: &'static str,
    pub(super) grounds: Vec<By>,
    pub(super) help: String,
    pub(super) why: Vec<String>,
}

/// The clauses by which the text rules otherwise.
pub(super) struct By {
    pub(super) ruled: String,
    pub(super) silent: &'static str,
    pub(super) clauses: Vec<ClauseLink>,
    pub(super) through: Vec<ClauseLink>,
}

/// Cases that disagree with each other.
pub(super) struct Pairs {
    pub(super) title: String,
    pub(super) all: Vec<(String, String, String)>,
    pub(super) more: String,
    pub(super) not_all: &'static str,
}

/// Cases of one sort that stand on the page.
const MOST: usize = 60;

type Telling<'a> = &'a dyn Fn(&Told) -> Vec<Said>;

/// The case book, ready to be set.
pub(super) fn view(ruleset: &Ruleset, book: &CaseBook<'_>) -> CasesView {
    let review = book.review;
    let words = Words { ruleset };
    let (summary, state) = reviewed::summary(review);
    let against = |told: &Told| {
        let all = words.against(told).into_iter();
        let label = if told.judged.is_possible {
            "Ruled"
        } else {
            "Facts"
        };
        all.map(|(words, grounds)| said_by(ruleset, label, &words, &grounds))
            .collect()
    };
    let open = |told: &Told| {
        let all = words.open(told).into_iter();
        all.map(|(words, help)| Said {
            label: "Ruled",
            words: text_capital(&words),
            help: help.unwrap_or_default(),
            ..Said::default()
        })
        .collect()
    };
    let cited = |told: &Told| {
        let all = told.judged.cited.iter();
        all.map(|cited| Said {
            label: "Cited",
            words: text_capital(&words.cited(cited)),
            ..Said::default()
        })
        .collect()
    };
    let differing = |told: &Told| {
        let all = words.differing(told).into_iter();
        all.map(|(words, why)| Said {
            label: "Ruled",
            words: text_capital(&words),
            why,
            ..Said::default()
        })
        .collect()
    };
    let sorts: [(_, _, _, _, Telling<'_>); 4] = [
        (
            "case",
            reviewed::DISAGREEING,
            "■",
            &review.disagree,
            &against,
        ),
        (
            "open-case",
            reviewed::OPEN,
            "?",
            &review.undetermined,
            &open,
        ),
        ("cites", reviewed::MISCITED, "▲", &review.miscited, &cited),
        (
            "differing",
            reviewed::DIFFERING,
            "●",
            &review.differing,
            &differing,
        ),
    ];
    let groups = sorts
        .into_iter()
        .filter_map(|(anchor, title, sign, told, telling)| {
            let total = told.0.len() as u64 + told.1;
            (total > 0).then(|| Group {
                title: format!("{}: {title}", text_capital(&counted(total, "case"))),
                sign,
                cases: (1..)
                    .zip(told.0.iter().take(MOST))
                    .map(|(place, told)| case(words, anchor, place, told, telling(told)))
                    .collect(),
                more: more(total, told.0.len().min(MOST)),
            })
        });
    CasesView {
        file: book.file.to_owned(),
        number: counted(review.cases, "case"),
        summary,
        class: match state {
            State::Nothing => "",
            State::Good => "in-order",
            State::Open => "open",
            State::Bad => "at-fault",
        },
        groups: groups.collect(),
        pairs: pairs(words, review),
        agreement: words.agreement(review, true),
        kappa: reviewed::KAPPA,
    }
}

fn said_by(ruleset: &Ruleset, label: &'static str, words: &str, grounds: &Grounds) -> Said {
    let links = |clauses: &[ClauseId]| -> Vec<ClauseLink> {
        let clauses = clauses.iter();
        clauses
            .map(|clause| ClauseLink::new(ruleset, *clause))
            .collect()
    };
    let each = grounds.each.iter();
    Said {
        label,
        words: text_capital(words),
        by: grounds.label,
        grounds: each
            .map(|ground| By {
                ruled: ground.ruled.clone(),
                silent: ground.silent,
                clauses: links(&ground.standing),
                through: links(&ground.through),
            })
            .collect(),
        ..Said::default()
    }
}

fn case(words: Words<'_>, sort: &str, place: usize, told: &Told, said: Vec<Said>) -> CaseView {
    CaseView {
        anchor: format!("{sort}-{place}"),
        id: told.case.id.clone(),
        said,
        because: Words::because(told).unwrap_or_default(),
        noted: words.noted(&told.case),
        source: Words::source(&told.case),
        facts: if told.judged.is_possible {
            facts(told.case.found.facts.facts())
        } else {
            String::new()
        },
    }
}

fn pairs(words: Words<'_>, review: &Review) -> Pairs {
    let (found, besides) = &review.inconsistent;
    let total = found.len() as u64 + besides;
    let shown = found.iter().take(MOST);
    Pairs {
        title: reviewed::pairs(total),
        all: shown
            .map(|pair| {
                (
                    pair.first.0.clone(),
                    pair.second.0.clone(),
                    words.pair(pair),
                )
            })
            .collect(),
        more: more(total, found.len().min(MOST)),
        not_all: if review.compared_all {
            ""
        } else {
            reviewed::NOT_ALL_COMPARED
        },
    }
}

fn more(total: u64, shown: usize) -> String {
    match total.saturating_sub(shown as u64) {
        0 => String::new(),
        left => format!("and {} more", number(left)),
    }
}
