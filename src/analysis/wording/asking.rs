//! What is asked about the texts of one language: what the list has, less what the ruleset defines,
//! and the loose ends.

use super::known::{Known, Reads};
use super::lists::{List, Silent, Sort};
use super::scan::{self, Hit};
use super::tokens::{Token, tokens};
use super::{Question, Wording};
use crate::model::{AttributeId, Clause, Ruleset};
use crate::read::Mapped;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// What all questions about several verbs for a duty in one clause have in common.
const SEVERAL_DUTIES: &str = "several duties";

/// A question, and what says that another is the same.
pub(super) struct Asked {
    pub(super) question: Question,
    /// The same word of the same class, whatever stands around it.
    pub(super) key: (usize, String),
}

/// What is asked about all texts of a language.
pub(super) struct Asking {
    /// About words, in the order of the file.
    pub(super) asked: Vec<Asked>,
    /// By verb, the duties of the book where it has more than one verb for them; else nothing.
    pub(super) duties: BTreeMap<String, Vec<Question>>,
}

/// The texts of one language, with what is known of the ruleset.
pub(super) struct Language<'a> {
    ruleset: &'a Ruleset,
    list: &'a List,
    tag: &'a str,
    known: Known<'a>,
    /// Ids of clauses and names of headings.
    numbers: BTreeSet<&'a str>,
    /// Numbers that any text cites.
    cited: BTreeSet<String>,
    /// Attributes that clauses with a ruling read.
    ruled_on: BTreeSet<AttributeId>,
}

impl<'a> Language<'a> {
    pub(super) fn new(
        ruleset: &'a Ruleset,
        list: &'a List,
        tag: &'a str,
        wordings: &[Wording<'_>],
    ) -> Self {
        let ids = ruleset.clauses.iter().map(|clause| clause.id.as_str());
        let headings = ruleset.headings.iter().map(|heading| heading.name.as_str());
        let cited = wordings.iter().flat_map(|wording| {
            let tokens = tokens(wording.words);
            let how = list.references.as_ref();
            let cited = how.map_or_else(Vec::new, |how| scan::citations(how, &tokens));
            cited.into_iter().map(|citation| citation.number)
        });
        let silent = |clause: &&Clause| clause.rulings.is_empty() && clause.disapplies.is_empty();
        let ruled_on = if ruleset.clauses.iter().any(|clause| silent(&clause)) {
            let ruling = ruleset.clauses.iter().filter(|clause| !silent(clause));
            let read = ruling.flat_map(|clause| Reads::of(ruleset, clause).attributes);
            read.collect()
        } else {
            BTreeSet::new()
        };
        Language {
            ruleset,
            list,
            tag,
            known: Known::new(ruleset, list),
            numbers: ids.chain(headings).collect(),
            cited: cited.collect(),
            ruled_on,
        }
    }

    /// Whether clauses have this number, or stand below it.
    fn is_there(&self, number: &str) -> bool {
        self.numbers.contains(number)
            || [".", "("].iter().any(|joint| {
                let below = format!("{number}{joint}");
                let mut from = self.numbers.range(below.as_str()..);
                from.next().is_some_and(|next| next.starts_with(&below))
            })
    }

    /// Everything that is to be asked.
    pub(super) fn ask(&self, wordings: &[Wording<'_>]) -> Asking {
        let mut asked: Vec<Asked> = Vec::new();
        let mut duties: BTreeMap<String, Vec<Question>> = BTreeMap::new();
        for wording in wordings {
            self.wording(wording, &mut asked, &mut duties);
        }
        let clauses = duties.values().flatten().map(|duty| duty.clause);
        let clauses: BTreeSet<_> = clauses.collect();
        if duties.len() > 1 && clauses.len() > 1 {
            // What the book mixes is not asked of each clause again.
            asked.retain(|one| one.key.1 != SEVERAL_DUTIES);
        } else {
            duties.clear();
        }
        Asking { asked, duties }
    }

    /// Everything to be asked about one text.
    fn wording(
        &self,
        wording: &Wording<'_>,
        asked: &mut Vec<Asked>,
        duties: &mut BTreeMap<String, Vec<Question>>,
    ) {
        let tokens = tokens(wording.words);
        let clause = &self.ruleset[wording.clause];
        let mut raised = self.listed(wording, clause, &tokens);
        raised.extend(self.dead_references(&tokens));
        raised.extend(self.long_sentences(wording.words, &tokens));
        if clause.rulings.is_empty() && clause.disapplies.is_empty() {
            raised.extend(self.duty_without_consequence(clause, &tokens));
        }
        let mixed = self.mixed_verbs(&tokens, &raised, Choices::of(clause));
        raised.extend(mixed.raised);
        if raised.is_empty() && mixed.duties.is_empty() {
            return;
        }
        raised.sort_by_key(|one| (one.tokens.start, one.tokens.end));
        let source = self.ruleset.sources.get(wording.span.source);
        let file = source.map_or("", |source| source.text());
        let places = Mapped::written(file, wording.span, wording.words);
        let question = |one: Raised| {
            let class = self.list.classes.get(one.class);
            Question {
                clause: wording.clause,
                language: self.tag.to_owned(),
                word: one.word,
                sort: class.map_or(Sort::LooseEnd, |class| class.sort),
                class: class.map_or_else(String::new, |class| class.name.clone()),
                question: one.question,
                span: places.span(bytes(&tokens, &one.tokens)),
            }
        };
        for (duty, one) in mixed.duties {
            duties.entry(duty).or_default().push(question(one));
        }
        asked.extend(raised.into_iter().map(|one| Asked {
            key: (one.class, one.key.clone()),
            question: question(one),
        }));
    }

    /// The words of the list that nothing in the ruleset defines.
    fn listed(&self, wording: &Wording<'_>, clause: &Clause, tokens: &[Token<'_>]) -> Vec<Raised> {
        let hits = scan::hits(self.list, wording.words, tokens);
        if hits.is_empty() {
            return Vec::new();
        }
        let stems = self.known.stems(tokens);
        let reads = Reads::of(self.ruleset, clause);
        let raise = |hit: Hit| {
            let group = self.list.groups.get(hit.group)?;
            let of_clauses = self.is_number(&hit.next) && self.is_number(&hit.then);
            if of_clauses || self.is_silent(group.silent, &reads, &stems, &hit.tokens) {
                return None;
            }
            let word = spelled(tokens, &hit.tokens);
            let question = group
                .ask
                .replace("{word}", &word)
                .replace("{next}", &hit.next)
                .replace("{then}", &hit.then);
            Some(Raised::new(group.class, hit.tokens, word, question))
        };
        hits.into_iter().filter_map(raise).collect()
    }

    /// Whether words are the number of a clause, and no amount.
    fn is_number(&self, words: &str) -> bool {
        words.contains('.') && self.is_there(words)
    }

    fn is_silent(
        &self,
        silent: Silent,
        reads: &Reads,
        stems: &[String],
        phrase: &Range<usize>,
    ) -> bool {
        let modelled = match silent {
            Silent::Never => false,
            Silent::MayBe => reads.may_be,
            Silent::Judged => reads.may_be || reads.judged,
            Silent::JudgedAnywhere => self.known.judges(stems, phrase),
        };
        modelled || self.known.defines(reads, stems, phrase)
    }

    fn dead_references(&self, tokens: &[Token<'_>]) -> Vec<Raised> {
        let Some(how) = &self.list.references else {
            return Vec::new();
        };
        // A book whose clauses have no numbers can't be cited by them.
        let numbered = |id: &&str| id.starts_with(|first: char| first.is_ascii_digit());
        if !self.numbers.iter().any(numbered) {
            return Vec::new();
        }
        let mut dead = scan::citations(how, tokens);
        dead.retain(|citation| !self.is_there(&citation.number));
        dead.dedup_by(|one, other| one.tokens == other.tokens);
        dead.into_iter()
            .map(|citation| {
                let question = how.ask.replace("{word}", &citation.number);
                Raised::new(how.class, citation.tokens, citation.number, question)
            })
            .collect()
    }

    /// The word of a sentence with which it becomes too long.
    fn long_sentences(&self, text: &str, tokens: &[Token<'_>]) -> Vec<Raised> {
        let Some(long) = &self.list.sentence else {
            return Vec::new();
        };
        if tokens.len() <= long.most {
            return Vec::new();
        }
        let question = long.ask.replace("{most}", &long.most.to_string());
        let sentences = scan::sentences(text, tokens).into_iter();
        let ends = sentences.filter_map(|sentence| {
            let words = sentence.filter(|at| tokens.get(*at).is_some_and(|token| token.is_word));
            words.skip(long.most).take(1).next()
        });
        ends.map(|at| {
            let word = spelled(tokens, &(at..at + 1));
            let mut raised = Raised::new(long.class, at..at + 1, word, question.clone());
            raised.key = String::new();
            raised
        })
        .collect()
    }

    /// The first word of a duty in a clause that rules nothing, if nothing else can rule on its breach
    /// as far as that can be told: no text cites the clause, and no clause with a ruling reads what it reads.
    fn duty_without_consequence(&self, clause: &Clause, tokens: &[Token<'_>]) -> Option<Raised> {
        let duty = self.list.duty.as_ref()?;
        let is_cited = self.cited.iter().any(|number| {
            let below = clause.id.strip_prefix(number.as_str());
            below.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '(']))
        });
        let reads = Reads::of(self.ruleset, clause);
        let is_read = reads.attributes.iter().any(|id| self.ruled_on.contains(id));
        if is_cited || is_read {
            return None;
        }
        let found = (0..tokens.len()).find_map(|at| {
            let mut words = duty.words.iter();
            let phrase =
                words.find(|words| scan::stands(words, tokens.get(at..at + words.len())))?;
            Some(at..at + phrase.len())
        })?;
        let word = spelled(tokens, &found);
        let mut raised = Raised::new(duty.class, found, word, duty.ask.clone());
        raised.key = String::new();
        Some(raised)
    }

    /// Verbs for duties, and whether they are mixed with each other or with a choice.
    fn mixed_verbs(&self, tokens: &[Token<'_>], raised: &[Raised], choices: Choices) -> Mixed {
        let mut mixed = Mixed::default();
        let Some(modals) = &self.list.modals else {
            return mixed;
        };
        let mut first: Vec<(&str, usize)> = Vec::new();
        let mut choice = None;
        for (at, token) in tokens.iter().enumerate() {
            let known = modals.duties.iter().find(|duty| **duty == token.folded);
            if let Some(duty) = known
                && !first.iter().any(|(word, _)| word == duty)
            {
                first.push((duty, at));
                let question = modals.ask_book.clone();
                let one = Raised::new(modals.class, at..at + 1, duty.clone(), question);
                mixed.duties.push((duty.clone(), one));
            }
            // `may not` is no choice.
            let taken = raised.iter().any(|one| {
                let class = self.list.classes.get(one.class);
                one.tokens.contains(&at) && class.is_some_and(|it| it.sort == Sort::Ambiguous)
            });
            if token.folded == modals.choice && !taken && choices == Choices::None {
                choice.get_or_insert(at);
            }
        }
        let fill = |ask: &str, word: &str, other: &str| {
            ask.replace("{word}", word).replace("{other}", other)
        };
        match (first.as_slice(), choice) {
            ([(one, _), (other, at), ..], _) => {
                let question = fill(&modals.ask_duties, other, one);
                let mut raise =
                    Raised::new(modals.class, *at..at + 1, (*other).to_owned(), question);
                SEVERAL_DUTIES.clone_into(&mut raise.key);
                mixed.raised.push(raise);
            }
            ([(one, at)], Some(_)) => {
                let question = fill(&modals.ask_choice, one, &modals.choice);
                let mut raise = Raised::new(modals.class, *at..at + 1, (*one).to_owned(), question);
                raise.key = format!("{one} {}", modals.choice);
                mixed.raised.push(raise);
            }
            _ => {}
        }
        mixed
    }
}

/// Whether a clause leaves several rulings open.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Choices {
    None,
    Some,
}

impl Choices {
    fn of(clause: &Clause) -> Choices {
        if clause.rulings.iter().any(|(_, values)| values.len() > 1) {
            Choices::Some
        } else {
            Choices::None
        }
    }
}

/// Something to be asked, in terms of a text's tokens.
struct Raised {
    class: usize,
    tokens: Range<usize>,
    word: String,
    question: String,
    key: String,
}

impl Raised {
    fn new(class: usize, tokens: Range<usize>, word: String, question: String) -> Raised {
        Raised {
            class,
            tokens,
            key: word.clone(),
            word,
            question,
        }
    }
}

/// The verbs of one text.
#[derive(Default)]
struct Mixed {
    raised: Vec<Raised>,
    /// The first of each verb for a duty.
    duties: Vec<(String, Raised)>,
}

/// The words of some tokens, as a phrase.
fn spelled(tokens: &[Token<'_>], range: &Range<usize>) -> String {
    let mut out = String::new();
    let mut last = None;
    for token in tokens.get(range.clone()).unwrap_or_default() {
        if last.is_some_and(|end| end < token.start) {
            out.push(' ');
        }
        out.push_str(&token.folded);
        last = Some(token.end);
    }
    out
}

/// The bytes of the text under some tokens.
fn bytes(tokens: &[Token<'_>], range: &Range<usize>) -> Range<usize> {
    let some = tokens.get(range.clone()).unwrap_or_default();
    let start = some.first().map_or(0, |token| token.start);
    start..some.last().map_or(start, |token| token.end)
}
