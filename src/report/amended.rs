//! What is said of a draft, in the same words wherever it is told: as text, as Markdown, on the page.

use super::{text_capital, verdict, words};
use crate::amendment::{
    Affected, CaseChange, Direction, Fate, Grade, Line, Match, Mention, Noted, Only, Piece,
    Redlined, Row, Sign, State, Subject, Vetted,
};
use crate::read::amendment::Part;

/// What a draft is called; several by all their titles, editions by the title of the rules.
pub(super) fn title(vetted: &Vetted) -> String {
    match vetted.drafts.as_slice() {
        [] => vetted.after.title.clone(),
        drafts => {
            let titles: Vec<String> = drafts.iter().map(|it| it.title.clone()).collect();
            words::and_list(&titles)
        }
    }
}

/// What it is a draft to, in a sentence.
pub(super) fn subject(vetted: &Vetted) -> String {
    let edition = |edition: &str| match edition {
        "" => "no edition".to_owned(),
        edition => format!("edition {edition}"),
    };
    let what = match vetted.subject {
        Subject::Draft => "Draft amendment to",
        Subject::Drafts => "Draft amendments to",
        Subject::Edition => "Editions compared of",
    };
    let from = edition(&vetted.before.edition);
    let to = edition(&vetted.after.edition);
    let editions = if from == to {
        from
    } else {
        format!("from {from} to {to}")
    };
    let files = match (super::file(&vetted.before), super::file(&vetted.after)) {
        (old, new) if old == new => String::new(),
        (old, new) => format!(" ({old} and {new})"),
    };
    format!("{what} {}, {editions}{files}.", vetted.before.title)
}

/// Which clauses were taken for the same, and why.
pub(super) fn matched(vetted: &Vetted, found: &Match) -> String {
    let (old, new) = (&found.before, &found.after);
    if old == new {
        return format!(
            "{new} is taken for what {old} was by its number alone, which is a guess: it says something \
             else."
        );
    }
    let signs = found.same.iter().map(|sign| sign_words(*sign).to_owned());
    let signs: Vec<String> = signs.collect();
    let verb = if signs.len() == 1 { "is" } else { "are" };
    let same = format!("{} {verb} the same", words::and_list(&signs));
    let said = match (found.guess, signs.is_empty()) {
        (false, _) => format!("{new} is what {old} was: {same}"),
        (true, true) => {
            format!(
                "{new} is taken for what {old} was, which is a guess: most of its words are the same"
            )
        }
        (true, false) => {
            format!(
                "{new} is taken for what {old} was, which is a guess: {same}, and most of its words"
            )
        }
    };
    let mut clauses = vetted.after.clauses.iter();
    if clauses.any(|clause| clause.id == *old) {
        format!("{said}. The number {old} has gone to another clause.")
    } else {
        format!("{said}.")
    }
}

fn sign_words(sign: Sign) -> &'static str {
    match sign {
        Sign::Text => "the text",
        Sign::Condition => "the condition",
        Sign::Ruling => "the ruling",
        Sign::Title => "the title",
        Sign::Number => "the number",
    }
}

/// What a thing is called: `Clause 7`. A background line without an id goes by what it says.
pub(super) fn thing(thing: &Redlined) -> String {
    let own = thing.lines.first();
    let nameless =
        thing.part == Part::Background && own.is_some_and(|line| plain(line) == thing.name);
    let noun = text_capital(thing.part.noun());
    if nameless {
        noun
    } else {
        format!("{noun} {}", thing.name)
    }
}

/// What becomes of it.
pub(super) fn fate(fate: &Fate) -> String {
    match fate {
        Fate::Inserted => "new".to_owned(),
        Fate::Repealed => "struck out".to_owned(),
        Fate::Changed => "changed".to_owned(),
        Fate::Renumbered(old) => format!("renumbered; it was {old}"),
        Fate::ChangedAndRenumbered(old) => format!("changed and renumbered; it was {old}"),
    }
}

/// The lines of a thing that are shown. A clause is read whole; of other things, and of what only
/// moves, what is the same is left out.
pub(super) fn lines(thing: &Redlined) -> impl Iterator<Item = &Line> {
    let whole = thing.part == Part::Clause && !matches!(thing.fate, Fate::Renumbered(_));
    let lines = thing.lines.iter();
    lines
        .filter(move |line| whole || line.changes())
        .filter(|line| line.label != "Number" || line.changes())
}

/// The words of a line, without marks.
fn plain(line: &Line) -> String {
    let pieces = line.pieces.iter();
    pieces
        .map(|piece| match piece {
            Piece::Kept(words) | Piece::Deleted(words) | Piece::Inserted(words) => words.as_str(),
        })
        .collect()
}

/// Marks stand at the words themselves, spaces outside: the words between the spaces around them.
/// `None` where there are no words.
pub(super) fn set_off(words: &str) -> Option<(&str, &str, &str)> {
    let inner = words.trim();
    if inner.is_empty() {
        return None;
    }
    let (before, rest) = words.split_at(words.len() - words.trim_start().len());
    let (inner, after) = rest.split_at(inner.len());
    Some((before, inner, after))
}

/// `penalty to the attacker: none before, caution after`.
pub(super) fn ruling(vetted: &Vetted, row: &Row) -> String {
    on_dimension(vetted, &row.dimension, &row.from, &row.to)
}

/// The same of a dimension whose rulings are known.
pub(super) fn on_dimension(vetted: &Vetted, name: &str, from: &State, to: &State) -> String {
    format!(
        "{}: {} before, {} after",
        verdict::dimension(vetted, name),
        verdict::state(vetted, name, from),
        verdict::state(vetted, name, to)
    )
}

/// Units of the draft by index, as what they do.
pub(super) fn units(vetted: &Vetted, which: &[usize]) -> Vec<String> {
    let units = which.iter().filter_map(|unit| vetted.units.get(*unit));
    units.map(|unit| unit.does.clone()).collect()
}

/// That some units bring a change about only together.
pub(super) fn together(units: &[String]) -> String {
    format!(
        "{}: somewhere none of them brings it about by itself",
        words::and_list(units)
    )
}

/// Said of general conditions that are not all of it.
pub(super) const PARTIAL: &str = "and elsewhere: these conditions are only a part of it";

/// What is said where no ruling is known to change.
pub(super) fn no_ruling(vetted: &Vetted) -> &'static str {
    if vetted.open.is_empty() {
        "None, and that is proved."
    } else {
        "None was found, and not everything could be decided."
    }
}

/// The rulings that change through a thing, each with its number; `None` where they were not put down
/// to changes of the draft.
pub(super) fn effects(vetted: &Vetted, thing: &Redlined) -> Option<Vec<(usize, String)>> {
    let rows = thing.rows.as_ref()?.iter();
    let told = rows.filter_map(|index| {
        let row = vetted.rows.get(*index)?;
        Some((index.saturating_add(1), ruling(vetted, row)))
    });
    Some(told.collect())
}

/// The clauses that do something else through a thing, if there are any.
pub(super) fn also_affected(thing: &Redlined) -> Option<String> {
    let noun = match thing.affected.len() {
        0 => return None,
        1 => "clause",
        _ => "clauses",
    };
    let clauses = words::and_list(&thing.affected);
    Some(format!("{noun} {clauses}, untouched in words"))
}

/// How far a ruling moves, in words.
pub(super) fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::Minor => "minor: one step of the scale",
        Grade::Major => "major",
        Grade::Reversal => "reversal: from one end of the scale to the other",
    }
}

/// In which direction rulings change, dimension by dimension, in words; none where nothing changes.
pub(super) fn directions(vetted: &Vetted) -> Vec<(String, &'static str)> {
    if vetted.rows.is_empty() {
        return Vec::new();
    }
    let each = vetted.direction.iter();
    each.map(|(name, direction)| {
        let words = match direction {
            Direction::Unchanged => "no ruling changes, and that is proved",
            Direction::NeverLower => "never lower than before",
            Direction::NeverHigher => "never higher than before",
            Direction::Both => "higher in some scenarios, lower in others",
            Direction::Unordered => "changes that are neither higher nor lower",
        };
        let open = vetted.open.iter().any(|(about, _)| about == name);
        let words = if open { "undecided" } else { words };
        (text_capital(&verdict::dimension(vetted, name)), words)
    })
    .collect()
}

/// Over clauses that the draft leaves as they are.
pub(super) const AFFECTED: &str = "Clauses untouched in their words that do something else";
/// Over those that it could have changed.
pub(super) const THE_SAME: &str = "Clauses that rest on what changes and do the same";

/// Through what a clause is affected.
pub(super) fn through(affected: &Affected) -> String {
    let end = match affected.changed {
        None => " (undecided)",
        Some(true) => "",
        Some(false) => "; proved",
    };
    format!("through {}{end}", words::and_list(&affected.through))
}

/// A text that names a clause which is gone or has another number.
pub(super) fn mention(mention: &Mention) -> String {
    let now = match &mention.now {
        Some(now) => format!("which is {now} now"),
        None => "which is gone".to_owned(),
    };
    let words = format!("{} speaks of {}, {now}", mention.of, mention.names);
    text_capital(&words)
}

/// What only one of the editions knows of.
pub(super) fn spaces(vetted: &Vetted) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for (names, words) in vetted.other_attributes.iter().zip(["is gone", "is new"]) {
        let each = names.iter();
        lines.extend(each.map(|name| format!("The attribute {name} {words}.")));
    }
    for (names, words) in vetted.other_dimensions.iter().zip(["is gone", "is new"]) {
        let each = names.iter();
        lines.extend(
            each.map(|name| format!("The dimension {name} {words}; its rulings are not compared.")),
        );
    }
    let apart = vetted.apart.iter();
    lines.extend(apart.map(|name| {
        format!("The values of {name} before and after can't be laid beside each other; each stands for itself.")
    }));
    lines
}

/// What one edition alone allows, each with words before it.
pub(super) fn only(vetted: &Vetted) -> impl Iterator<Item = (&'static str, &Only)> {
    let titles = [
        "Only the rules as they are know such incidents; they are left out above:",
        "Only the rules as they would be know such incidents; they are left out above:",
    ];
    let both = titles.into_iter().zip(&vetted.only);
    both.filter_map(|(title, only)| Some((title, only.as_ref()?)))
}

/// What becomes of a case, one line for each answer that changes.
pub(super) fn case(vetted: &Vetted, case: &CaseChange) -> Vec<String> {
    let states = |name: &str, states: &[State]| -> String {
        let told = states.iter().map(|it| verdict::state(vetted, name, it));
        match told.collect::<Vec<_>>().as_slice() {
            [] => "no incident has these facts".to_owned(),
            several => words::or_list(several),
        }
    };
    let mut lines: Vec<String> = case
        .answers
        .iter()
        .map(|answer| {
            let name = &answer.dimension;
            let noted = match &answer.noted {
                None => String::new(),
                Some(Noted {
                    ruled,
                    agreed,
                    agrees,
                }) => {
                    let ruled = verdict::state(vetted, name, ruled);
                    let agrees = match (agreed, agrees) {
                        (true, true) => "it still agrees",
                        (true, false) => "it agreed and no longer does",
                        (false, true) => "it disagreed and agrees now",
                        (false, false) => "it does not agree, before or after",
                    };
                    format!("; noted is {ruled}: {agrees}")
                }
            };
            format!(
                "{}, {}: {} before, {} after{noted}",
                case.id,
                verdict::dimension(vetted, name),
                states(name, &answer.before),
                states(name, &answer.after)
            )
        })
        .collect();
    if !case.lost.is_empty() {
        lines.push(format!(
            "{}: the later rules don't know what it says of {}; that is left out",
            case.id,
            words::and_list(&case.lost)
        ));
    }
    if let Some(reason) = &case.open {
        lines.push(format!("{}: undecided, {reason}", case.id));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_set_off_from_the_spaces_around_them() {
        assert_eq!(set_off(" two words\n"), Some((" ", "two words", "\n")));
        assert_eq!(set_off("é"), Some(("", "é", "")));
        assert_eq!(set_off("  "), None);
        assert_eq!(set_off(""), None);
    }
}
