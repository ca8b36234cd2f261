//! The word lists: one file a language, read into phrases with what is asked of each.
//!
//! A list says which words a drafter should look at twice, of which class and sort they are, and the
//! question to ask. It refuses to know any ruleset.

use crate::read::{Node, NodeKind, data};
use std::collections::BTreeMap;

/// The languages that have a list, by tag, with the list's file.
const FILES: &[(&str, &str)] = &[("en", include_str!("en.yaml"))];

/// What kind of openness a word brings in. The three are different things and have different cures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// No sharp edge.
    Vague,
    /// Two readings.
    Ambiguous,
    /// Somebody decides.
    Discretion,
    /// None of these: something is missing.
    LooseEnd,
}

impl Sort {
    /// Every sort, in the order in which they are told.
    pub const ALL: [Sort; 4] = [
        Sort::Vague,
        Sort::Ambiguous,
        Sort::Discretion,
        Sort::LooseEnd,
    ];

    /// The sort's name in outputs.
    pub fn word(self) -> &'static str {
        match self {
            Sort::Vague => "vague",
            Sort::Ambiguous => "ambiguous",
            Sort::Discretion => "discretion",
            Sort::LooseEnd => "loose-end",
        }
    }

    fn from_word(word: &str) -> Option<Sort> {
        Sort::ALL.into_iter().find(|sort| sort.word() == word)
    }
}

/// The words of one language.
#[derive(Debug)]
pub(super) struct List {
    /// What the language is called.
    pub(super) name: String,
    /// The classes, in the order of the file.
    pub(super) classes: Vec<Class>,
    /// What is asked of the words of a group.
    pub(super) groups: Vec<Group>,
    /// Phrases by their first word, the longest first.
    phrases: BTreeMap<String, Vec<Phrase>>,
    endings: Vec<(String, String)>,
    pub(super) numbers: Vec<String>,
    /// Words that say whether the ends of a range are in.
    pub(super) edges: Vec<String>,
    pub(super) articles: Vec<String>,
    pub(super) persons: Vec<String>,
    pub(super) functions: Vec<String>,
    pub(super) verbs: Vec<String>,
    pub(super) modals: Option<Modals>,
    pub(super) references: Option<References>,
    pub(super) sentence: Option<LongSentence>,
    pub(super) duty: Option<Duty>,
}

/// A class of words.
#[derive(Debug)]
pub(super) struct Class {
    pub(super) name: String,
    pub(super) sort: Sort,
}

/// Words that are asked about alike.
#[derive(Debug)]
pub(super) struct Group {
    pub(super) class: usize,
    pub(super) ask: String,
    pub(super) next: Next,
    /// A word that follows further on, with a number behind it.
    pub(super) then: Option<String>,
    /// Whether two things must have been named before.
    pub(super) nouns: Nouns,
    pub(super) silent: Silent,
}

/// What must follow a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Next {
    Anything,
    Number,
    Verb,
}

/// What must have been named before a word in its sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Nouns {
    Any,
    /// Two different things.
    Two,
}

/// What in the ruleset stands for a word besides its names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Silent {
    /// Nothing.
    Never,
    /// The clause leaves several rulings open.
    MayBe,
    /// So it does, or it reads what is judged.
    Judged,
    /// A judged attribute has the word in its name or label.
    JudgedAnywhere,
}

/// A phrase of a list; of a neutral one there is no group.
#[derive(Debug)]
pub(super) struct Phrase {
    pub(super) words: Vec<String>,
    pub(super) group: Option<usize>,
}

/// Verbs for duties and for choices.
#[derive(Debug)]
pub(super) struct Modals {
    pub(super) class: usize,
    pub(super) duties: Vec<String>,
    pub(super) choice: String,
    pub(super) ask_duties: String,
    pub(super) ask_choice: String,
    pub(super) ask_book: String,
}

/// How texts cite clauses.
#[derive(Debug)]
pub(super) struct References {
    pub(super) class: usize,
    pub(super) ask: String,
    /// Words that say what is cited: `clause`.
    pub(super) heads: Vec<String>,
    /// Words before a number with a point in it: `subject to`.
    pub(super) leads: Vec<Vec<String>>,
    pub(super) joins: Vec<String>,
    /// Words that say that another book is cited.
    pub(super) elsewhere: Vec<Vec<String>>,
}

/// When a sentence is long.
#[derive(Debug)]
pub(super) struct LongSentence {
    pub(super) class: usize,
    pub(super) most: usize,
    pub(super) ask: String,
}

/// Words that lay down a duty.
#[derive(Debug)]
pub(super) struct Duty {
    pub(super) class: usize,
    pub(super) words: Vec<Vec<String>>,
    pub(super) ask: String,
}

/// The list of a language, by its tag or the part of it before the first `-`.
///
/// `None` where there is none.
pub(super) fn list(tag: &str) -> Option<List> {
    let language = tag.split('-').next().unwrap_or(tag).to_ascii_lowercase();
    let (_, text) = FILES.iter().find(|(known, _)| *known == language)?;
    // That every file is sound is held by a test.
    List::read(text).ok()
}

impl List {
    /// Reads a list.
    fn read(text: &str) -> Result<List, String> {
        let root = data(text).ok_or("no YAML")?;
        let mut list = List {
            name: words_at(&root, "name")?,
            classes: Vec::new(),
            groups: Vec::new(),
            phrases: BTreeMap::new(),
            endings: Vec::new(),
            numbers: all_at(&root, "numbers")?,
            edges: all_at(&root, "edges")?,
            articles: all_at(&root, "articles")?,
            persons: all_at(&root, "persons")?,
            functions: all_at(&root, "functions")?,
            verbs: all_at(&root, "verbs")?,
            modals: None,
            references: None,
            sentence: None,
            duty: None,
        };
        for pair in at(&root, "endings").map_or(&[][..], Node::items) {
            match strings(pair)?.as_slice() {
                [from, to] => list.endings.push((from.clone(), to.clone())),
                other => return Err(format!("an ending is two words, not {other:?}")),
            }
        }
        for phrase in all_at(&root, "neutral")? {
            list.add(&phrase, None)?;
        }
        for class in at(&root, "classes").map_or(&[][..], Node::items) {
            list.class(class)?;
        }
        for phrases in list.phrases.values_mut() {
            phrases.sort_by_key(|phrase| std::cmp::Reverse(phrase.words.len()));
        }
        Ok(list)
    }

    fn class(&mut self, node: &Node) -> Result<(), String> {
        let name = words_at(node, "class")?;
        let sort = words_at(node, "sort")?;
        let sort = Sort::from_word(&sort).ok_or(format!("{name}: what sort is `{sort}`?"))?;
        // What the class is and where it comes from is for readers of the file, but never missing.
        words_at(node, "what")?;
        all_at(node, "source")?;
        let class = self.classes.len();
        for group in at(node, "words").map_or(&[][..], Node::items) {
            let next = match at(group, "next").and_then(Node::words) {
                None => Next::Anything,
                Some("number") => Next::Number,
                Some("verb") => Next::Verb,
                Some(other) => return Err(format!("{name}: next is `{other}`")),
            };
            let silent = match at(group, "silent").and_then(Node::words) {
                None => Silent::Never,
                Some("may_be") => Silent::MayBe,
                Some("judged") => Silent::Judged,
                Some("judged-anywhere") => Silent::JudgedAnywhere,
                Some(other) => return Err(format!("{name}: silent is `{other}`")),
            };
            let nouns = match at(group, "nouns").and_then(Node::words) {
                None => Nouns::Any,
                Some("two") => Nouns::Two,
                Some(other) => return Err(format!("{name}: nouns is `{other}`")),
            };
            let index = self.groups.len();
            self.groups.push(Group {
                class,
                ask: words_at(group, "ask")?,
                next,
                then: at(group, "then").and_then(Node::words).map(str::to_owned),
                nouns,
                silent,
            });
            for phrase in all_at(group, "any")? {
                self.add(&phrase, Some(index))?;
            }
        }
        let phrases = |key| -> Result<Vec<Vec<String>>, String> {
            Ok(all_at(node, key)?.iter().map(|it| split(it)).collect())
        };
        match name.as_str() {
            "mixed-verbs" => {
                self.modals = Some(Modals {
                    class,
                    duties: all_at(node, "duties")?,
                    choice: words_at(node, "choice")?,
                    ask_duties: words_at(node, "ask-duties")?,
                    ask_choice: words_at(node, "ask-choice")?,
                    ask_book: words_at(node, "ask-book")?,
                });
            }
            "dead-reference" => {
                self.references = Some(References {
                    class,
                    ask: words_at(node, "ask")?,
                    heads: all_at(node, "heads")?,
                    leads: phrases("leads")?,
                    joins: all_at(node, "joins")?,
                    elsewhere: phrases("elsewhere")?,
                });
            }
            "long-sentence" => {
                let most = words_at(node, "most")?;
                self.sentence = Some(LongSentence {
                    class,
                    most: most.parse().map_err(|_| format!("most is `{most}`"))?,
                    ask: words_at(node, "ask")?,
                });
            }
            "duty-without-consequence" => {
                self.duty = Some(Duty {
                    class,
                    words: phrases("any")?,
                    ask: words_at(node, "ask")?,
                });
            }
            _ => {}
        }
        self.classes.push(Class { name, sort });
        Ok(())
    }

    fn add(&mut self, phrase: &str, group: Option<usize>) -> Result<(), String> {
        let words = split(phrase);
        let first = words.first().ok_or("an empty phrase")?.clone();
        let phrases = self.phrases.entry(first).or_default();
        let twice = phrases.iter().any(|known| {
            let other = known.group.and_then(|known| self.groups.get(known));
            let conditional = other.is_some_and(|group| group.next != Next::Anything);
            known.words == words && !conditional
        });
        if twice {
            return Err(format!("`{phrase}` stands in two places"));
        }
        phrases.push(Phrase { words, group });
        Ok(())
    }

    /// The phrases that begin with a word, the longest first.
    pub(super) fn beginning_with(&self, word: &str) -> &[Phrase] {
        self.phrases.get(word).map_or(&[], Vec::as_slice)
    }

    /// What a word's inflections have in common, roughly: enough to tell a word of a list from one of
    /// a ruleset.
    pub(super) fn stem(&self, word: &str) -> String {
        /// Letters that stay in any case.
        const LEAST: usize = 3;
        let mut stem = word
            .trim_end_matches("'s")
            .trim_end_matches('\'')
            .to_owned();
        // `intentionally` is two endings away.
        for _ in 0..2 {
            let fitting = self.endings.iter().find_map(|(from, to)| {
                let rest = stem.strip_suffix(from.as_str())?;
                let whole = from == "s" && rest.ends_with('s');
                (rest.chars().count() >= LEAST && !whole).then(|| format!("{rest}{to}"))
            });
            match fitting {
                Some(shorter) => stem = shorter,
                None => break,
            }
        }
        if stem.chars().count() > LEAST && stem.ends_with('e') {
            stem.pop();
        }
        let mut letters = stem.chars().rev();
        if let (Some(last), Some(before)) = (letters.next(), letters.next())
            && last == before
            && stem.chars().count() > LEAST
            && last != 's'
        {
            stem.pop();
        }
        stem
    }
}

/// The words and marks of a phrase, as a text's are told apart.
pub(super) fn split(phrase: &str) -> Vec<String> {
    super::tokens::tokens(phrase)
        .into_iter()
        .map(|token| token.folded.into_owned())
        .collect()
}

fn at<'n>(node: &'n Node, key: &str) -> Option<&'n Node> {
    let NodeKind::Mapping(entries) = &node.kind else {
        return None;
    };
    let entry = entries.iter().find(|entry| entry.key.words == key);
    entry.map(|entry| &entry.value)
}

fn words_at(node: &Node, key: &str) -> Result<String, String> {
    let words = at(node, key).and_then(Node::words);
    words.map(str::to_owned).ok_or(format!("no `{key}`"))
}

fn all_at(node: &Node, key: &str) -> Result<Vec<String>, String> {
    strings(at(node, key).ok_or(format!("no `{key}`"))?)
}

fn strings(node: &Node) -> Result<Vec<String>, String> {
    let items = node.items().iter();
    items
        .map(|item| item.words().map(str::to_owned).ok_or("a word".to_owned()))
        .collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "tests")]

    use super::*;

    #[test]
    fn every_list_is_sound() {
        for (tag, text) in FILES {
            let list = List::read(text);
            assert!(list.is_ok(), "{tag}: {:?}", list.err());
            let list = list.unwrap();
            assert!(list.groups.len() > 10, "{tag}");
            for sort in Sort::ALL {
                assert!(
                    list.classes.iter().any(|class| class.sort == sort),
                    "{tag} has no words that are {}",
                    sort.word()
                );
            }
            for group in &list.groups {
                assert!(
                    group.ask.contains('?'),
                    "{tag}: `{}` is no question",
                    group.ask
                );
                assert_eq!(
                    group.ask.contains("{then}"),
                    group.then.is_some(),
                    "{tag}: {}",
                    group.ask
                );
            }
        }
    }

    #[test]
    fn regions_share_their_languages_list_and_others_have_none() {
        assert_eq!(list("en-GB").unwrap().name, "English");
        assert!(list("EN").is_some());
        assert!(list("tlh").is_none() && list("").is_none() && list("eng").is_none());
    }

    #[test]
    fn inflections_share_a_stem() {
        let list = list("en").unwrap();
        for words in [
            &["deliberate", "deliberately"][..],
            &["reasonable", "reasonably"],
            &["careless", "carelessly"],
            &["strike", "strikes", "striking"],
            &["drop", "dropped", "drops", "dropping"],
            &["injury", "injuries"],
            &["easy", "easily"],
            &["intentional", "intentionally"],
            &["athlete", "athlete's", "athletes"],
            &["pass", "passes", "passed"],
        ] {
            let stems: Vec<String> = words.iter().map(|word| list.stem(word)).collect();
            assert!(stems.iter().all(|stem| *stem == stems[0]), "{stems:?}");
        }
        for (one, other) in [
            ("reasonable", "reason"),
            ("careless", "care"),
            ("hard", "hand"),
        ] {
            assert_ne!(list.stem(one), list.stem(other));
        }
    }
}
