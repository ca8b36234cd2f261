//! Sets of scenarios in the ruleset's own words, for every kind of finding and every command.
//!
//! Here is found out what a ruleset has words for (defined terms, quantities, sums, what is counted);
//! which of them are used, and where, is the choice of `logic`, which proves each line by diagram.

use super::finding::{Cover, General};
use crate::logic::{
    Count, Diagrams, Formula, Line, Mode, Phrase, Set, TooLarge, Vocabulary, Wanted,
    attributes_read, conditions, is_false, is_true,
};
use crate::model::{
    AttributeId, AttributeKind, ClauseId, Condition, ConditionKind, ConditionScope, NumberRange,
    Resolver, Ruleset, TermId, Test,
};
use crate::read;
use crate::read::draft::{Comparison, Expr, ExprKind, Operand, Sum};
use crate::source::{Source, Sources};
use std::collections::BTreeSet;

/// The most lines that a general condition is given.
const MOST_LINES: usize = 24;

/// Conditions of the text that are looked through for words.
const MOST_CONDITIONS: usize = 4_000;

/// A set in words.
#[derive(Clone, Debug, Default)]
pub(crate) struct Described {
    /// The general conditions.
    pub(crate) general: General,
    /// How many scenarios there are, where they could be counted.
    pub(crate) share: Option<Count>,
    /// The lines as boxes, where there are any.
    pub(crate) lines: Vec<Line>,
}

impl Described {
    /// Takes it as a part of something larger: there are at least so many, under these conditions and
    /// perhaps under others.
    pub(super) fn bound_from_below(&mut self) {
        if self.general.cover == Cover::Exact {
            self.general.cover = Cover::Partial;
        }
        if let Some(share) = &mut self.share {
            share.exact = false;
        }
    }
}

/// Puts a set into the words of a vocabulary. `mentioned` are the attributes that a reader expects to
/// see.
pub(crate) fn described(
    diagrams: &mut Diagrams<'_>,
    set: &Set,
    mentioned: &BTreeSet<AttributeId>,
    vocabulary: &Vocabulary,
) -> Described {
    let share = diagrams.count(set).ok().map(|scenarios| Count {
        scenarios,
        exact: true,
    });
    let wanted = Wanted {
        vocabulary,
        mentioned,
        most: MOST_LINES,
    };
    let (lines, cover) = match diagrams.region(set, wanted) {
        Ok(region) if region.complete => (region.lines, Cover::Exact),
        Ok(region) if region.lines.is_empty() => (Vec::new(), Cover::None),
        Ok(region) => (region.lines, Cover::Partial),
        Err(TooLarge) => (Vec::new(), Cover::None),
    };
    let said = lines
        .iter()
        .map(|line| diagrams.line_text(line, vocabulary));
    Described {
        general: General {
            lines: said.collect(),
            cover,
        },
        share,
        lines,
    }
}

/// Says a set by the conditions of one clause, or of all of them together, as they stand in the file,
/// where they hold in exactly these scenarios.
pub(crate) fn own_words(
    ruleset: &Ruleset,
    diagrams: &mut Diagrams<'_>,
    set: &Set,
    clauses: &[ClauseId],
) -> Option<String> {
    let singly = clauses.iter().map(std::slice::from_ref);
    let choices = singly.chain(std::iter::once(clauses));
    for some in choices.filter(|some| !some.is_empty()) {
        let written: Option<Vec<String>> = some
            .iter()
            .map(|clause| written_condition(ruleset, *clause))
            .collect();
        let Some(written) = written else { continue };
        let several = written.len() > 1;
        let bracketed = written.into_iter().map(|words| {
            if several && words.contains(" or ") {
                format!("({words})")
            } else {
                words
            }
        });
        let words = bracketed.collect::<Vec<_>>().join(" and ");
        if let Some(meant) = meant_by(&Resolver::new(ruleset), &words)
            && diagrams
                .set(&is_true(&meant, Mode::ACTUAL))
                .is_ok_and(|meant| *meant == **set)
        {
            return Some(words);
        }
    }
    None
}

/// A clause's `when` as it stands in the file, if it is one line.
fn written_condition(ruleset: &Ruleset, clause: ClauseId) -> Option<String> {
    let this = &ruleset[clause];
    let words = ruleset
        .sources
        .slice(this.when_span)
        .trim_matches(['"', '\'']);
    let one_line = !words.contains(['\n', '[', ']', '{', '}', '"', '\'']);
    (one_line && this.when_span != this.id_span && !words.is_empty()).then(|| words.to_owned())
}

/// What words mean as a condition over facts, if they are one.
pub(crate) fn meant_by(resolver: &Resolver<'_>, words: &str) -> Option<Condition> {
    meaning(resolver, words).map(|(_, meant)| meant)
}

/// What words mean as a condition over facts, if they are one; and how they are built.
fn meaning(resolver: &Resolver<'_>, words: &str) -> Option<(Expr, Condition)> {
    let source = Source::new("condition", words);
    let id = Sources::default().add(source.clone());
    let mut problems = Vec::new();
    let read = read::condition(&source, id, &mut problems)?;
    let meant = resolver.condition(&read, ConditionScope::Facts, &mut problems)?;
    problems.is_empty().then_some((read, meant))
}

/// What a ruleset has words for.
pub(crate) fn vocabulary(ruleset: &Ruleset) -> Vocabulary {
    let said = sayings(ruleset, &mut |_, meant| Some(meant.clone()));
    vocabulary_of(ruleset, said)
}

/// A condition that a ruleset has words for.
#[derive(Clone, Debug)]
pub(crate) struct Saying {
    /// The words, as a condition of the language.
    words: String,
    /// What they mean.
    meant: Condition,
    /// The contrary in its own turn of phrase, where it has one.
    contrary: Option<(String, Condition)>,
    is_term: bool,
    /// The number that the words compare with by the name of a quantity: of an attribute with this range
    /// the step, and the name.
    quantity: Option<(NumberRange, i64, String)>,
}

/// Everything that the text of a ruleset has words for, terms first. `place` says what words that mean
/// this in the ruleset mean where they are to be used; what means nothing there is left out.
pub(crate) fn sayings(
    ruleset: &Ruleset,
    place: &mut dyn FnMut(&str, &Condition) -> Option<Condition>,
) -> Vec<Saying> {
    let mut found = Vec::new();
    for (index, term) in ruleset.terms.iter().enumerate() {
        let condition = Condition {
            kind: ConditionKind::Term(TermId::new(index)),
            span: term.span,
        };
        found.extend(place(&term.name, &condition).map(|meant| Saying {
            words: term.name.clone(),
            meant,
            contrary: None,
            is_term: true,
            quantity: None,
        }));
    }
    let resolver = Resolver::new(ruleset);
    let mut seen = BTreeSet::new();
    for condition in conditions(ruleset).into_iter().take(MOST_CONDITIONS) {
        each_comparison(condition, &mut |part| {
            let words = ruleset.sources.slice(part.span);
            let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
            if seen.insert(words.clone()) {
                found.extend(saying(ruleset, &resolver, words, place));
            }
        });
    }
    found
}

fn saying(
    ruleset: &Ruleset,
    resolver: &Resolver<'_>,
    words: String,
    place: &mut dyn FnMut(&str, &Condition) -> Option<Condition>,
) -> Option<Saying> {
    let one_line = !words.contains(['[', ']', '{', '}', '"', '\'', '#']);
    if !one_line || words.is_empty() {
        return None;
    }
    let (expr, meant) = meaning(resolver, &words)?;
    let placed = place(&words, &meant)?;
    let contrary = contrary(&expr, &words).and_then(|words| {
        let meant = meant_by(resolver, &words)?;
        let placed = place(&words, &meant)?;
        Some((words, placed))
    });
    Some(Saying {
        words,
        meant: placed,
        contrary,
        is_term: false,
        quantity: quantity(ruleset, &expr, &meant),
    })
}

/// What such words say in the ruleset that their meanings are conditions of.
pub(crate) fn vocabulary_of(ruleset: &Ruleset, said: Vec<Saying>) -> Vocabulary {
    let mut known = Vocabulary::default();
    for one in said {
        add_quantity(ruleset, &one, &mut known);
        if !one.is_term && cells_say(&one.meant) {
            continue;
        }
        let reads: BTreeSet<AttributeId> = attributes_read(ruleset, &one.meant)
            .ones()
            .map(AttributeId::new)
            .collect();
        let mut add = |words: String, is_so: Formula| {
            if !known.phrases.iter().any(|other| other.words == words) {
                known.phrases.push(Phrase {
                    words,
                    is_so,
                    reads: reads.clone(),
                    is_term: one.is_term,
                });
            }
        };
        add(one.words.clone(), is_true(&one.meant, Mode::ACTUAL));
        if let Some((words, contrary)) = &one.contrary {
            add(words.clone(), is_true(contrary, Mode::ACTUAL));
        } else {
            let contrary = if one.is_term {
                format!("not {}", one.words)
            } else {
                format!("not ({})", one.words)
            };
            add(contrary, is_false(&one.meant, Mode::ACTUAL));
        }
    }
    known
}

/// Visits each comparison as it was written, and each count: what the language made of one comparison
/// (a case for each row of a table) is one.
fn each_comparison<'c>(condition: &'c Condition, visit: &mut impl FnMut(&'c Condition)) {
    match &condition.kind {
        ConditionKind::All(parts) | ConditionKind::Any(parts) => {
            if parts.iter().all(|part| part.span == condition.span) {
                visit(condition);
            } else {
                for part in parts {
                    each_comparison(part, visit);
                }
            }
        }
        ConditionKind::Count { of, .. } => {
            visit(condition);
            for part in of {
                each_comparison(part, visit);
            }
        }
        ConditionKind::Not(part) | ConditionKind::NotTrue(part) => each_comparison(part, visit),
        ConditionKind::Fact { .. } => visit(condition),
        ConditionKind::Always
        | ConditionKind::Missing(_)
        | ConditionKind::Ruling { .. }
        | ConditionKind::Term(_) => {}
    }
}

/// Whether cells of one attribute say the same: then their own words are as good.
fn cells_say(meant: &Condition) -> bool {
    match &meant.kind {
        ConditionKind::Fact { test, .. } => match test {
            Test::OneOf { .. } | Test::Within { .. } => true,
            Test::Several {
                items, least, most, ..
            } => {
                let all = u32::try_from(items.len()).unwrap_or(u32::MAX);
                *least == all || *most == 0
            }
            Test::Same { .. } | Test::Linear(_) => false,
        },
        _ => false,
    }
}

/// The contrary of a comparison in its own turn of phrase.
fn contrary(expr: &Expr, words: &str) -> Option<String> {
    let exchanged = |one: &str, other: &str| {
        let (one, other) = (format!(" {one} "), format!(" {other} "));
        let mut found = words.match_indices(&one);
        let (at, _) = found.next()?;
        let (before, after) = (words.get(..at)?, words.get(at + one.len()..)?);
        found
            .next()
            .is_none()
            .then(|| format!("{before}{other}{after}"))
    };
    match &expr.kind {
        ExprKind::Compare { comparison, .. } => match comparison {
            Comparison::Is => exchanged("is", "is not"),
            Comparison::IsNot => exchanged("is not", "is"),
            Comparison::AtLeast => exchanged("at least", "less than"),
            Comparison::LessThan => exchanged("less than", "at least"),
            Comparison::AtMost => exchanged("at most", "more than"),
            Comparison::MoreThan => exchanged("more than", "at most"),
        },
        ExprKind::Between { negated, .. } if !negated => exchanged("is between", "is not between"),
        ExprKind::Between { .. } => exchanged("is not between", "is between"),
        ExprKind::SameAs { negated, .. } if !negated => exchanged("is same as", "is not same as"),
        ExprKind::SameAs { .. } => exchanged("is not same as", "is same as"),
        ExprKind::Only { negated, .. } if !negated => exchanged("is only", "is not only"),
        ExprKind::Only { .. } => exchanged("is not only", "is only"),
        _ => None,
    }
}

/// The number that a comparison names by a quantity: the range that it is of, its step, and the name.
fn quantity(
    ruleset: &Ruleset,
    expr: &Expr,
    meant: &Condition,
) -> Option<(NumberRange, i64, String)> {
    let ExprKind::Compare {
        left,
        comparison,
        right,
    } = &expr.kind
    else {
        return None;
    };
    name_alone(left)?;
    let quantity = name_alone(right)?;
    let is_quantity = ruleset.quantities.iter().any(|one| one.name == quantity);
    let ConditionKind::Fact {
        test: Test::Within {
            attribute,
            low,
            high,
        },
        positive,
    } = &meant.kind
    else {
        return None;
    };
    let AttributeKind::Number(range) = &ruleset[*attribute].kind else {
        return None;
    };
    let step = match (comparison, positive) {
        _ if !is_quantity => return None,
        (Comparison::AtLeast, true) | (Comparison::LessThan, false) => *low,
        (Comparison::LessThan, true) | (Comparison::AtLeast, false) => high + 1,
        (Comparison::AtMost, true) | (Comparison::MoreThan, false) => *high,
        (Comparison::MoreThan, true) | (Comparison::AtMost, false) => low - 1,
        (Comparison::Is | Comparison::IsNot, _) if low == high => *low,
        (Comparison::Is | Comparison::IsNot, _) => return None,
    };
    Some((range.clone(), step, quantity.to_owned()))
}

/// Notes that a number is compared with a quantity by name, where its steps are the same.
fn add_quantity(ruleset: &Ruleset, one: &Saying, known: &mut Vocabulary) {
    if let Some((range, step, name)) = &one.quantity
        && let ConditionKind::Fact {
            test: Test::Within { attribute, .. },
            ..
        } = &one.meant.kind
        && ruleset[*attribute].kind == AttributeKind::Number(range.clone())
    {
        known
            .quantities
            .entry((*attribute, *step))
            .or_insert_with(|| name.clone());
    }
}

fn name_alone(sum: &Sum) -> Option<&str> {
    let [part] = sum.parts.as_slice() else {
        return None;
    };
    match &part.operand {
        Operand::Name(words) if part.factor.is_none() && !part.negative => Some(&words.value),
        _ => None,
    }
}
