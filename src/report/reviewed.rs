//! What is said of a case book that was held against the text, in the same words wherever it is told.

use super::{text_capital, words};
use crate::cases::{
    Case, Cited, Examples, Explanation, Inconsistent, Kappa, OnDimension, Rated, Review, Ruled,
    Stance, Told,
};
use crate::labels;
use crate::logic::{Basis, Evaluator, Outcome, Ruling, Scenario, dimensions_read};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use crate::narration;
use crate::read::draft::WhenSeveral;
use num_bigint::BigUint;

/// Facts that are named as worth establishing.
const MOST_FACTS: usize = 3;

/// Over the cases of each sort, behind how many they are.
pub(super) const DISAGREEING: &str = "the text rules otherwise";
pub(super) const OPEN: &str = "the facts noted do not decide it";
pub(super) const MISCITED: &str = "a clause cited is gone, or does not count";
pub(super) const DIFFERING: &str = "officials ruled differently";
/// Over what officials agree on.
pub(super) const AGREEMENT: &str = "How far officials agree";
/// What a coefficient says.
pub(super) const KAPPA: &str =
    "Kappa is 1 where officials always agree, 0 where they agree no more often than by chance.";
/// Where not every two cases were compared.
pub(super) const NOT_ALL_COMPARED: &str = "There are too many different incidents to compare each case with every other; only some of them were compared.";

/// How a case book stands as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum State {
    /// There are no cases.
    Nothing,
    /// All agree.
    Good,
    /// Something can't be decided.
    Open,
    /// Something disagrees.
    Bad,
}

/// `3 cases`; of none, `no cases`.
pub(super) fn counted(number: u64, one: &str) -> String {
    match number {
        0 => format!("no {one}s"),
        1 => format!("1 {one}"),
        _ => format!("{} {one}s", words::grouped(&BigUint::from(number))),
    }
}

pub(super) fn number(number: u64) -> String {
    words::grouped(&BigUint::from(number))
}

/// The state of the case book in a paragraph.
pub(super) fn summary(review: &Review) -> (String, State) {
    if review.cases == 0 {
        return ("There are no cases.".to_owned(), State::Nothing);
    }
    let (bad, open) = (review.disagreeing(), review.undecided());
    let mut parts = vec![match (review.agree, bad, open) {
        (all, 0, 0) if all == review.cases => match all {
            1 => "The case agrees with the text.".to_owned(),
            _ => format!("All {} agree with the text.", counted(all, "case")),
        },
        (agree, bad, open) => {
            let ending = |count| if count == 1 { "s" } else { "" };
            let mut each = vec![format!(
                "{} agree{} with the text",
                number(agree),
                ending(agree)
            )];
            if bad > 0 {
                each.push(format!("{} disagree{}", number(bad), ending(bad)));
            }
            if open > 0 {
                each.push(format!("{} can't be decided", number(open)));
            }
            format!(
                "Of {} {}.",
                counted(review.cases, "case"),
                words::and_list(&each)
            )
        }
    }];
    if review.within_discretion > 0 {
        parts.push(format!(
            "Of those that agree, {} rest on discretion that the text leaves.",
            number(review.within_discretion)
        ));
    }
    let pairs = review.inconsistent.0.len() as u64 + review.inconsistent.1;
    if pairs > 0 {
        parts.push(match pairs {
            1 => "1 pair of cases disagrees with each other.".to_owned(),
            _ => format!(
                "{} of cases disagree with each other.",
                counted(pairs, "pair")
            ),
        });
    }
    let state = match (bad + pairs, open) {
        (0, 0) => State::Good,
        (0, _) => State::Open,
        _ => State::Bad,
    };
    (parts.join(" "), state)
}

/// Over pairs that disagree with each other.
pub(super) fn pairs(total: u64) -> String {
    match total {
        1 => "1 pair of cases disagrees with each other".to_owned(),
        _ => format!(
            "{} of cases disagree with each other",
            counted(total, "pair")
        ),
    }
}

/// How often two or more agree, and the coefficient.
pub(super) fn kappa(kappa: &Kappa, name: &str) -> String {
    let coefficient = match kappa.kappa {
        Some(value) => format!("{name} {value:.2}"),
        None => "always the same".to_owned(),
    };
    format!(
        "{:.0}% agree, {coefficient} ({})",
        kappa.agreed * 100.0,
        counted(kappa.cases, "case")
    )
}

/// Where the ruling of the text comes from, in one incident or in some of those that are possible.
pub(super) struct Grounds {
    /// What stands before them.
    pub(super) label: &'static str,
    /// Incident by incident.
    pub(super) each: Vec<Ground>,
}

/// Why an incident is ruled as it is.
pub(super) struct Ground {
    /// How it is ruled, where that has to be said.
    pub(super) ruled: String,
    /// The clauses whose ruling stands.
    pub(super) standing: Vec<ClauseId>,
    /// Those whose rulings they read.
    pub(super) through: Vec<ClauseId>,
    /// What is said where no ruling stands.
    pub(super) silent: &'static str,
}

/// A row of how far officials agree.
pub(super) struct Agreed {
    /// On what.
    pub(super) name: String,
    /// How far, all of them.
    pub(super) overall: String,
    /// Each two of them.
    pub(super) pairs: Vec<String>,
}

/// The words for the cases of a ruleset.
#[derive(Clone, Copy)]
pub(super) struct Words<'r> {
    pub(super) ruleset: &'r Ruleset,
}

impl Words<'_> {
    /// On each dimension on which the text rules otherwise: what was ruled and what the text says, and
    /// which clauses say so.
    pub(super) fn against(self, told: &Told) -> Vec<(String, Grounds)> {
        if !told.judged.is_possible {
            let nothing = self.grounds(None, &Examples::default());
            return vec![("no incident has all the facts noted".to_owned(), nothing)];
        }
        let against = told.judged.on.iter().zip(&told.examples);
        against
            .filter(|(on, _)| on.stance == Stance::Disagrees)
            .map(|(on, examples)| {
                let words = format!(
                    "{}; by the text: {}",
                    self.what_was_ruled(on),
                    self.possible(on.dimension, &on.possible),
                );
                (words, self.grounds(Some(on.dimension), examples))
            })
            .collect()
    }

    /// What was ruled on a dimension, and by whom.
    fn what_was_ruled(self, on: &OnDimension) -> String {
        let called = words::dimension(self.ruleset, on.dimension);
        let ruled = self.ruled(on.dimension, on.ruled);
        match &on.by {
            None => format!("{called} was ruled {ruled}"),
            Some(name) => format!("{called} was ruled {ruled} by {name}"),
        }
    }

    /// The clauses whose ruling stands where the text rules otherwise, and those whose rulings they
    /// read. Where facts are missing, others of them may come to the same.
    fn grounds(self, dimension: Option<DimensionId>, examples: &Examples) -> Grounds {
        let each = examples.incidents.iter();
        let each = each.filter_map(|incident| Some(self.ground(dimension?, incident, examples)));
        Grounds {
            label: if examples.whole {
                "By clause"
            } else {
                "For instance"
            },
            each: each.collect(),
        }
    }

    fn ground(self, dimension: DimensionId, incident: &Scenario, among: &Examples) -> Ground {
        let outcome = Evaluator::new(self.ruleset).outcome(incident);
        let ruling = outcome.rulings.get(dimension.index()).copied();
        let (standing, through) = self.clauses_behind(&outcome, dimension);
        let is_default = ruling.is_some_and(|ruling| ruling.basis == Basis::Default);
        Ground {
            ruled: match ruling {
                Some(ruling) if !among.whole => {
                    format!("{}: ", narration::ruled(self.ruleset, dimension, ruling))
                }
                _ => String::new(),
            },
            silent: match (standing.is_empty(), is_default) {
                (false, _) => "",
                (true, true) => "no clause says anything; what holds then is the default",
                (true, false) => "no clause says anything",
            },
            standing,
            through,
        }
    }

    /// The clauses whose ruling on a dimension stands, and those behind the rulings that they read.
    fn clauses_behind(
        self,
        outcome: &Outcome,
        dimension: DimensionId,
    ) -> (Vec<ClauseId>, Vec<ClauseId>) {
        let standing = |dimension: DimensionId| {
            outcome
                .standing
                .get(dimension.index())
                .map_or(&[][..], Vec::as_slice)
        };
        let ruling = standing(dimension).to_vec();
        let mut through: Vec<ClauseId> = Vec::new();
        let mut open = ruling.clone();
        while let Some(clause) = open.pop() {
            for read in dimensions_read(&self.ruleset[clause].when) {
                for other in standing(read) {
                    if !through.contains(other) {
                        through.push(*other);
                        open.push(*other);
                    }
                }
            }
        }
        through.sort_unstable();
        (ruling, through)
    }

    /// On each dimension that can't be decided: why, and what would help.
    pub(super) fn open(self, told: &Told) -> Vec<(String, Option<String>)> {
        if told.judged.on.is_empty() {
            return vec![("no ruling is noted".to_owned(), None)];
        }
        let all = told.judged.on.iter().zip(&told.missing);
        all.filter_map(|(on, missing)| {
            let ruled = self.what_was_ruled(on);
            let words = match &on.stance {
                Stance::NeedsFacts => format!(
                    "{ruled}; by the text, on the facts noted: {}",
                    self.possible(on.dimension, &on.possible)
                ),
                Stance::Contradiction => {
                    format!("{ruled}; the text contradicts itself on these facts")
                }
                Stance::Gap => {
                    format!("{ruled}; the text gives no ruling on these facts, and one is due")
                }
                Stance::Undecided(reason) => {
                    format!("{ruled}; whether by the text stayed undecided: {reason}")
                }
                Stance::Agrees | Stance::WithinDiscretion | Stance::Disagrees => return None,
            };
            let help = format!("{} would help most", self.attributes(missing));
            Some((words, (!missing.is_empty()).then_some(help)))
        })
        .collect()
    }

    /// What is wrong with a clause that a ruling cited.
    pub(super) fn cited(self, cited: &Cited) -> String {
        match cited {
            Cited::Gone(id) => format!("cites clause {id}, which the ruleset does not have"),
            Cited::NotInForce(clause) => format!(
                "cites clause {}, which is not in force on these facts",
                self.ruleset[*clause].id
            ),
            Cited::Displaced(clause) => format!(
                "cites clause {}, over which others prevail on these facts",
                self.ruleset[*clause].id
            ),
        }
    }

    /// What two cases say that disagree with each other.
    pub(super) fn pair(self, pair: &Inconsistent) -> String {
        let called = words::dimension(self.ruleset, pair.dimension);
        let same = if pair.same_facts {
            "the same facts, as far as they matter here"
        } else {
            "all facts of the first are facts of the second"
        };
        format!(
            "{called} was ruled {} in the one and {} in the other; {same}",
            self.ruled(pair.dimension, pair.first.1),
            self.ruled(pair.dimension, pair.second.1)
        )
    }

    /// How far officials agree: on the facts, on the clauses cited, on the ruling. Each two of them are
    /// told of the ruling, and of all else where `whole` is.
    pub(super) fn agreement(
        self,
        review: &Review,
        whole: bool,
    ) -> Vec<(&'static str, Vec<Agreed>)> {
        let rated: Vec<Rated> = review.agreement.rated().collect();
        let parts = [
            ("On the facts", 0),
            ("On the clauses cited", 1),
            ("On the ruling", 2),
        ];
        let mut told: Vec<(&'static str, Vec<Agreed>)> = parts
            .into_iter()
            .map(|(title, part)| {
                let of_part = rated.iter().filter(|rated| {
                    part == match rated {
                        Rated::Fact(_) => 0,
                        Rated::Clauses => 1,
                        Rated::Ruling(_) => 2,
                    }
                });
                let rows = of_part.filter_map(|rated| self.agreed(review, *rated, whole));
                (title, rows.collect())
            })
            .collect();
        told.retain(|(_, rows)| !rows.is_empty());
        told
    }

    fn agreed(self, review: &Review, rated: Rated, whole: bool) -> Option<Agreed> {
        let overall = review.agreement.overall(rated)?;
        let wanted = whole || matches!(rated, Rated::Ruling(_));
        let pairs = review.agreement.pairs(rated).into_iter().filter(|_| wanted);
        Some(Agreed {
            name: match rated {
                Rated::Fact(id) => labels::attribute_name(self.ruleset, &self.ruleset[id]),
                Rated::Clauses => "clauses".to_owned(),
                Rated::Ruling(id) => words::dimension(self.ruleset, id),
            },
            overall: kappa(&overall, "Fleiss' kappa"),
            pairs: pairs
                .map(|pair| {
                    let words = kappa(&pair.kappa, "Cohen's kappa");
                    format!("{} and {}: {words}", pair.one, pair.other)
                })
                .collect(),
        })
    }

    /// What officials ruled differently: who ruled what, and why that may be.
    pub(super) fn differing(self, told: &Told) -> Vec<(String, Vec<String>)> {
        let all = told.judged.differences.iter();
        all.map(|difference| {
            let each = difference.ruled.iter();
            let each: Vec<String> = each
                .map(|(name, ruled)| format!("{name} {}", self.ruled(difference.dimension, *ruled)))
                .collect();
            let called = words::dimension(self.ruleset, difference.dimension);
            let why = difference.explanations.iter();
            (
                format!("{called}: {}", each.join(", ")),
                why.map(|it| self.explanation(it)).collect(),
            )
        })
        .collect()
    }

    /// The facts that a case notes.
    pub(super) fn noted(self, case: &Case) -> String {
        if case.found.facts.is_empty() {
            return "no facts".to_owned();
        }
        let told = narration::tell(self.ruleset, &case.found.facts, None);
        told.sentences.join(" ")
    }

    /// Why no incident has the facts that a case notes.
    pub(super) fn because(told: &Told) -> Option<String> {
        let words = told.impossible.as_ref()?;
        Some(format!("{}.", text_capital(words)))
    }

    /// Where a case is taken from, and when.
    pub(super) fn source(case: &Case) -> String {
        let source: Vec<&str> = case
            .source
            .iter()
            .chain(&case.date)
            .map(String::as_str)
            .collect();
        source.join(", ")
    }

    pub(super) fn explanation(self, explanation: &Explanation) -> String {
        match explanation {
            Explanation::Facts(ids) => format!(
                "they saw different facts ({}); each ruled by the text on what they saw",
                self.attributes(ids)
            ),
            Explanation::Judgement(ids) => format!(
                "the text leaves it to judgement ({}); each ruled by the text as they judged",
                self.attributes(ids)
            ),
            Explanation::VagueTerm(ids) => format!(
                "the text can be read both ways ({}); each ruled by the text as they read it",
                self.attributes(ids)
            ),
            Explanation::Contradiction => "the text contradicts itself on these facts".to_owned(),
            Explanation::Gap => {
                "the text gives no ruling on these facts, and one is due".to_owned()
            }
            Explanation::Discretion => "the text leaves these rulings open".to_owned(),
            Explanation::NotNoted(ids) => format!(
                "the text says the one or the other by facts that nobody noted: {} would help most",
                self.attributes(ids)
            ),
            Explanation::AgainstTheText(names) => format!(
                "the text does not explain it: {} ruled against it on the facts that they noted themselves",
                words::and_list(names)
            ),
            Explanation::Undecided => {
                "it could not be found out whether the text explains it".to_owned()
            }
        }
    }

    pub(super) fn attributes(self, ids: &[AttributeId]) -> String {
        let shown = ids.iter().take(MOST_FACTS);
        let shown: Vec<String> = shown
            .map(|id| labels::attribute_name(self.ruleset, &self.ruleset[*id]))
            .collect();
        shown.join("; ")
    }

    pub(super) fn ruled(self, dimension: DimensionId, ruled: Ruled) -> String {
        let named = words::ruling(self.ruleset, dimension, ruled);
        match named.as_slice() {
            [] => "nothing".to_owned(),
            named => words::and_list(named),
        }
    }

    pub(super) fn possible(self, dimension: DimensionId, possible: &[Ruling]) -> String {
        let mut each: Vec<String> = Vec::new();
        for ruling in possible {
            let said = narration::ruled(self.ruleset, dimension, *ruling);
            if !each.contains(&said) {
                each.push(said);
            }
        }
        // Values that all apply are joined by "and"; alternatives by "or" all the same.
        let all_apply = self.ruleset[dimension].when_several == WhenSeveral::AllApply;
        match (each.as_slice(), all_apply) {
            ([one], _) => one.clone(),
            (several, true) => several.join(", or "),
            (several, false) => words::or_list(several),
        }
    }
}
