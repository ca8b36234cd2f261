//! A case book against the text, for people: what agrees, what does not and by which clauses, what
//! would have to be known, and how far officials agree.

use super::look::{Detail, Look, Tone};
use super::page::{Page, capital};
use crate::cases::{
    Case, Cited, Examples, Explanation, Inconsistent, Kappa, OnDimension, Rated, Review, Ruled,
    Stance, Told,
};
use crate::labels;
use crate::logic::{Basis, Established, Evaluator, Outcome, Ruling, Scenario, dimensions_read};
use crate::model::{AttributeId, ClauseId, DimensionId, Ruleset};
use crate::narration;
use crate::read::draft::WhenSeveral;
use crate::report::caution::caution;
use crate::report::words;
use num_bigint::BigUint;

/// How far the parts of a case stand in.
const INDENT: usize = 3;
/// Cases of one sort that are told in full, and that are told in a line.
const MOST: (usize, usize) = (12, 40);
/// Facts that are named as worth establishing.
const MOST_FACTS: usize = 3;

/// The report of a review; `file` is how the case book is called.
pub fn cases(ruleset: &Ruleset, file: &str, review: &Review, look: &Look) -> String {
    let mut page = Page::new(look);
    let quiet = look.detail == Detail::Headlines;
    if !quiet {
        super::title(&mut page, ruleset);
        let words = format!("{file}: {}", counted(review.cases, "case"));
        page.paragraph(0, &words, Tone::Quiet);
        page.gap();
    }
    let (words, tone) = summary(review);
    page.paragraph(0, &words, tone);
    let writer = Writer { ruleset };
    let disagreeing = "the text rules otherwise";
    section(
        &mut page,
        &review.disagree,
        disagreeing,
        Tone::Fault,
        |page, told, whole| {
            writer.disagreeing(page, told, whole);
        },
    );
    writer.inconsistent(&mut page, &review.inconsistent, review.compared_all);
    let open = "the facts noted do not decide it";
    section(
        &mut page,
        &review.undetermined,
        open,
        Tone::Warning,
        |page, told, whole| {
            writer.open(page, told, whole);
        },
    );
    let cited = "a clause cited is gone, or does not count";
    section(
        &mut page,
        &review.miscited,
        cited,
        Tone::Warning,
        |page, told, _| {
            writer.miscited(page, told);
        },
    );
    if !quiet {
        writer.agreement(&mut page, review);
    }
    let differing = "officials ruled differently";
    section(
        &mut page,
        &review.differing,
        differing,
        Tone::Note,
        |page, told, _| {
            writer.differing(page, told);
        },
    );
    page.gap();
    for words in caution(ruleset) {
        page.paragraph(0, &words, Tone::Quiet);
    }
    page.finish()
}

/// `3 cases`; of none, `no cases`.
fn counted(number: u64, one: &str) -> String {
    match number {
        0 => format!("no {one}s"),
        1 => format!("1 {one}"),
        _ => format!("{} {one}s", words::grouped(&BigUint::from(number))),
    }
}

fn number(number: u64) -> String {
    words::grouped(&BigUint::from(number))
}

/// The state of the case book in a paragraph.
fn summary(review: &Review) -> (String, Tone) {
    if review.cases == 0 {
        return ("There are no cases.".to_owned(), Tone::Plain);
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
    let tone = match (bad + pairs, open) {
        (0, 0) => Tone::Good,
        (0, _) => Tone::Warning,
        _ => Tone::Fault,
    };
    (parts.join(" "), tone)
}

/// Whether a case is told with its facts, or in a line.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Fullness {
    Whole,
    Line,
}

/// Writes the cases of one sort: some in full, more in a line, the rest as a number.
fn section(
    page: &mut Page<'_>,
    told: &(Vec<Told>, u64),
    title: &str,
    tone: Tone,
    mut write: impl FnMut(&mut Page<'_>, &Told, Fullness),
) {
    let all = told.0.len() as u64 + told.1;
    if all == 0 {
        return;
    }
    page.heading(
        &format!("{}: {title}", capital(&counted(all, "case"))),
        tone,
    );
    let everything = page.look.detail == Detail::Whole;
    let (in_full, in_a_line) = match page.look.detail {
        Detail::Whole => (usize::MAX, 0),
        Detail::Digest => MOST,
        Detail::Headlines => (0, MOST.0 + MOST.1),
    };
    let shown = in_full.saturating_add(in_a_line).min(told.0.len());
    for (index, one) in told.0.iter().take(shown).enumerate() {
        let fullness = if index < in_full {
            Fullness::Whole
        } else {
            Fullness::Line
        };
        write(page, one, fullness);
    }
    let left = all - shown as u64;
    if left > 0 {
        page.gap();
        let how = if everything {
            ""
        } else {
            "; `--all` shows every one that is kept"
        };
        page.paragraph(0, &format!("and {} more{how}", number(left)), Tone::Quiet);
    }
    page.gap();
}

struct Writer<'r> {
    ruleset: &'r Ruleset,
}

impl Writer<'_> {
    fn disagreeing(&self, page: &mut Page<'_>, told: &Told, fullness: Fullness) {
        if !told.judged.is_possible {
            let words = "no incident has all the facts noted";
            headline(page, &told.case, words, Tone::Fault);
            if fullness == Fullness::Whole {
                if let Some(words) = &told.impossible {
                    page.row(
                        INDENT,
                        "Because",
                        &format!("{}.", capital(words)),
                        Tone::Plain,
                    );
                }
                self.noted(page, &told.case);
            }
            return;
        }
        let against = told.judged.on.iter().zip(&told.examples);
        for (on, examples) in against.filter(|(on, _)| on.stance == Stance::Disagrees) {
            let words = format!(
                "{}; by the text: {}",
                self.what_was_ruled(on),
                self.possible(on.dimension, &on.possible),
            );
            headline(page, &told.case, &words, Tone::Fault);
            if fullness == Fullness::Whole {
                self.clauses(page, on.dimension, examples);
            }
        }
        if fullness == Fullness::Whole {
            self.noted(page, &told.case);
        }
    }

    /// What was ruled on a dimension, and by whom.
    fn what_was_ruled(&self, on: &OnDimension) -> String {
        let called = words::dimension(self.ruleset, on.dimension);
        let ruled = self.ruled(on.dimension, on.ruled);
        match &on.by {
            None => format!("{called} was ruled {ruled}"),
            Some(name) => format!("{called} was ruled {ruled} by {name}"),
        }
    }

    /// The clauses whose ruling stands where the text rules otherwise, and those whose rulings they
    /// read. Where facts are missing, others of them may come to the same.
    fn clauses(&self, page: &mut Page<'_>, dimension: DimensionId, examples: &Examples) {
        let each = examples
            .incidents
            .iter()
            .flat_map(|incident| self.because(dimension, incident, !examples.whole));
        let lines: Vec<(String, Tone)> = each.map(|line| (line, Tone::Plain)).collect();
        if !lines.is_empty() {
            let label = if examples.whole {
                "By clause"
            } else {
                "For instance"
            };
            page.row_lines(INDENT, label, &lines);
        }
    }

    /// Why an incident is ruled so on a dimension, with the ruling itself if `with_ruling`.
    fn because(
        &self,
        dimension: DimensionId,
        incident: &Scenario,
        with_ruling: bool,
    ) -> Vec<String> {
        let outcome = Evaluator::new(self.ruleset).outcome(incident);
        let ruling = outcome.rulings.get(dimension.index()).copied();
        let ruled = match ruling {
            Some(ruling) if with_ruling => {
                format!("{}: ", narration::ruled(self.ruleset, dimension, ruling))
            }
            _ => String::new(),
        };
        let (standing, read) = self.clauses_behind(&outcome, dimension);
        if standing.is_empty() {
            let is_default = ruling.is_some_and(|ruling| ruling.basis == Basis::Default);
            let then = if is_default {
                "; what holds then is the default"
            } else {
                ""
            };
            return vec![format!("{ruled}no clause says anything{then}")];
        }
        let mut lines = vec![format!("{ruled}{}", self.named(&standing))];
        if !read.is_empty() {
            lines.push(format!("through {}", self.named(&read)));
        }
        lines
    }

    /// The clauses whose ruling on a dimension stands, and those behind the rulings that they read.
    fn clauses_behind(
        &self,
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

    fn named(&self, clauses: &[ClauseId]) -> String {
        let named = clauses
            .iter()
            .map(|clause| labels::clause(self.ruleset, *clause));
        named.collect::<Vec<_>>().join("; ")
    }

    fn noted(&self, page: &mut Page<'_>, case: &Case) {
        self.facts(page, &case.found.facts);
        let source = case.source.iter().chain(&case.date).cloned();
        let source: Vec<String> = source.collect();
        if !source.is_empty() {
            page.row(INDENT, "Taken from", &source.join(", "), Tone::Quiet);
        }
        page.gap();
    }

    fn facts(&self, page: &mut Page<'_>, facts: &Established) {
        let words = if facts.is_empty() {
            "no facts".to_owned()
        } else {
            narration::tell(self.ruleset, facts, None)
                .sentences
                .join(" ")
        };
        page.row(INDENT, "Noted", &words, Tone::Plain);
    }

    fn open(&self, page: &mut Page<'_>, told: &Told, fullness: Fullness) {
        if told.judged.on.is_empty() {
            headline(page, &told.case, "no ruling is noted", Tone::Warning);
        }
        for (on, missing) in told.judged.on.iter().zip(&told.missing) {
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
                Stance::Agrees | Stance::WithinDiscretion | Stance::Disagrees => continue,
            };
            headline(page, &told.case, &words, Tone::Warning);
            if fullness == Fullness::Whole && !missing.is_empty() {
                let words = format!("{} would help most", self.attributes(missing));
                page.row(INDENT, "Not noted", &words, Tone::Plain);
            }
        }
        if fullness == Fullness::Whole {
            self.noted(page, &told.case);
        }
    }

    fn miscited(&self, page: &mut Page<'_>, told: &Told) {
        for cited in &told.judged.cited {
            let words = match cited {
                Cited::Gone(id) => format!("cites clause {id}, which the ruleset does not have"),
                Cited::NotInForce(clause) => format!(
                    "cites clause {}, which is not in force on these facts",
                    self.ruleset[*clause].id
                ),
                Cited::Displaced(clause) => format!(
                    "cites clause {}, over which others prevail on these facts",
                    self.ruleset[*clause].id
                ),
            };
            headline(page, &told.case, &words, Tone::Warning);
        }
    }

    fn inconsistent(&self, page: &mut Page<'_>, found: &(Vec<Inconsistent>, u64), all: bool) {
        let total = found.0.len() as u64 + found.1;
        if total > 0 {
            let title = match total {
                1 => "1 pair of cases disagrees with each other".to_owned(),
                _ => format!(
                    "{} of cases disagree with each other",
                    counted(total, "pair")
                ),
            };
            page.heading(&title, Tone::Fault);
            let most = match page.look.detail {
                Detail::Whole => usize::MAX,
                Detail::Digest | Detail::Headlines => MOST.1,
            };
            for pair in found.0.iter().take(most) {
                let called = words::dimension(self.ruleset, pair.dimension);
                let same = if pair.same_facts {
                    "the same facts, as far as they matter here"
                } else {
                    "all facts of the first are facts of the second"
                };
                let words = format!(
                    "{called} was ruled {} in the one and {} in the other; {same}",
                    self.ruled(pair.dimension, pair.first.1),
                    self.ruled(pair.dimension, pair.second.1)
                );
                let mark = format!("{} and {}: ", pair.first.0, pair.second.0);
                page.hanging(
                    0,
                    &super::page::clean(&mark),
                    Tone::Fault,
                    &words,
                    Tone::Plain,
                );
            }
            let left = total.saturating_sub(found.0.len().min(most) as u64);
            if left > 0 {
                page.paragraph(0, &format!("and {} more", number(left)), Tone::Quiet);
            }
        }
        if !all {
            page.gap();
            let words = "There are too many different incidents to compare each case with every other; only some of them were compared.";
            page.paragraph(0, words, Tone::Quiet);
        }
    }

    fn agreement(&self, page: &mut Page<'_>, review: &Review) {
        let rated: Vec<Rated> = review.agreement.rated().collect();
        if rated.is_empty() {
            return;
        }
        page.heading("How far officials agree", Tone::Note);
        let whole = page.look.detail == Detail::Whole;
        let parts = [
            ("On the facts", 0),
            ("On the clauses cited", 1),
            ("On the ruling", 2),
        ];
        for (title, part) in parts {
            let of_part = rated.iter().filter(|rated| {
                part == match rated {
                    Rated::Fact(_) => 0,
                    Rated::Clauses => 1,
                    Rated::Ruling(_) => 2,
                }
            });
            let mut first = true;
            for rated in of_part {
                let Some(overall) = review.agreement.overall(*rated) else {
                    continue;
                };
                if std::mem::take(&mut first) {
                    page.paragraph(0, title, Tone::Strong);
                }
                let name = match rated {
                    Rated::Fact(id) => labels::attribute_name(self.ruleset, &self.ruleset[*id]),
                    Rated::Clauses => "clauses".to_owned(),
                    Rated::Ruling(id) => words::dimension(self.ruleset, *id),
                };
                let line = format!("{name}: {}", kappa(&overall, "Fleiss' kappa"));
                page.hanging(INDENT, "", Tone::Plain, &line, Tone::Plain);
                // Each two officials are told of the ruling, and of all else where all is asked for.
                let wanted = whole || matches!(rated, Rated::Ruling(_));
                for pair in review.agreement.pairs(*rated).iter().filter(|_| wanted) {
                    let line = format!(
                        "{} and {}: {}",
                        pair.one,
                        pair.other,
                        kappa(&pair.kappa, "Cohen's kappa")
                    );
                    page.hanging(INDENT + 3, "", Tone::Plain, &line, Tone::Quiet);
                }
            }
        }
        let words = "Kappa is 1 where officials always agree, 0 where they agree no more often than by chance.";
        page.gap();
        page.paragraph(0, words, Tone::Quiet);
    }

    fn differing(&self, page: &mut Page<'_>, told: &Told) {
        for difference in &told.judged.differences {
            let each: Vec<String> = difference
                .ruled
                .iter()
                .map(|(name, ruled)| format!("{name} {}", self.ruled(difference.dimension, *ruled)))
                .collect();
            let called = words::dimension(self.ruleset, difference.dimension);
            let words = format!("{called}: {}", each.join(", "));
            headline(page, &told.case, &words, Tone::Note);
            let why = difference.explanations.iter();
            let why: Vec<(String, Tone)> =
                why.map(|it| (self.explanation(it), Tone::Plain)).collect();
            page.row_lines(INDENT, "Why", &why);
        }
    }

    fn explanation(&self, explanation: &Explanation) -> String {
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

    fn attributes(&self, ids: &[AttributeId]) -> String {
        let shown = ids.iter().take(MOST_FACTS);
        let shown: Vec<String> = shown
            .map(|id| labels::attribute_name(self.ruleset, &self.ruleset[*id]))
            .collect();
        shown.join("; ")
    }

    fn ruled(&self, dimension: DimensionId, ruled: Ruled) -> String {
        let named = words::ruling(self.ruleset, dimension, ruled);
        match named.as_slice() {
            [] => "nothing".to_owned(),
            named => words::and_list(named),
        }
    }

    fn possible(&self, dimension: DimensionId, possible: &[Ruling]) -> String {
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

fn headline(page: &mut Page<'_>, case: &Case, words: &str, tone: Tone) {
    let mark = super::page::clean(&format!("{}: ", case.id));
    page.hanging(0, &mark, tone, words, Tone::Plain);
}

fn kappa(kappa: &Kappa, name: &str) -> String {
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
