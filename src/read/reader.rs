//! What reading any kind of file needs: words, texts, lists, conditions, and the keys of a mapping.
//!
//! **Comments that cut a text short.** YAML ends unquoted words at ` #`. Behind free text (titles,
//! labels, wordings) that is always refused, since a `#` there is as likely part of the text as
//! not. Behind a condition, an id or a reference a comment is let through where at least two blanks
//! set it apart, as in a column of comments, and refused where a single blank does. Behind names,
//! numbers and yes or no nothing can be cut off that would still be read, and comments are comments.

mod conditions;

use super::cuts::quoted;
use super::draft::{ClauseDraft, TextDraft, Words};
use super::lexer::names;
use super::node::{Entry, Key, Layout, Node, NodeKind, Scalar, Style};
use super::yaml::span_of;
use crate::problem::{Problem, nearest};
use crate::source::{Source, SourceId, Span, Spanned};
use std::sync::Arc;

/// A file that is being read, and the problems found so far.
pub(crate) struct Reader<'a> {
    /// The files that its nodes come from: one, or those of an amended ruleset.
    files: Vec<(SourceId, &'a str)>,
    problems: &'a mut Vec<Problem>,
    /// What was read before of the items of the list of clauses, by place.
    pub(crate) read_before: Vec<Option<Arc<ClauseDraft>>>,
}

/// The keys of a mapping that were asked for.
pub(crate) struct Fields<'n> {
    entries: &'n [Entry],
    /// Where a key that is missing is said to be missing: the first key.
    pub(crate) place: Span,
}

impl<'n> Fields<'n> {
    /// The entry of a key.
    pub(crate) fn entry(&self, key: &str) -> Option<&'n Entry> {
        self.entries.iter().find(|entry| entry.key.words == key)
    }

    /// The value of a key.
    pub(crate) fn get(&self, key: &str) -> Option<&'n Node> {
        self.entry(key).map(|entry| &entry.value)
    }
}

/// What a comment may cut off.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Content {
    /// Free text, in which a `#` is as good as any character.
    Text,
    /// Conditions, ids and references.
    Phrase,
    /// Names, numbers, yes or no.
    Word,
}

impl<'a> Reader<'a> {
    /// Starts reading a file.
    pub(crate) fn new(source: &'a Source, id: SourceId, problems: &'a mut Vec<Problem>) -> Self {
        Reader::over(vec![(id, source.text())], problems)
    }

    /// Starts reading a tree whose nodes come from several files.
    pub(crate) fn over(files: Vec<(SourceId, &'a str)>, problems: &'a mut Vec<Problem>) -> Self {
        Reader {
            files,
            problems,
            read_before: Vec::new(),
        }
    }

    /// The text of the file that a place lies in.
    pub(crate) fn file(&self, place: Span) -> &'a str {
        let file = self.files.iter().find(|(id, _)| *id == place.source);
        file.map_or("", |(_, text)| text)
    }

    /// Says a problem.
    pub(crate) fn say(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// Says that something else was expected at a value.
    pub(crate) fn expected(&mut self, node: &Node, what: &str, expected: &str, help: &str) {
        let (headline, span) = match &node.kind {
            NodeKind::Nothing => (format!("nothing is written for {what}"), node.span),
            NodeKind::Scalar(scalar) if scalar.words.trim().is_empty() => {
                (format!("nothing is written for {what}"), node.span)
            }
            NodeKind::Scalar(scalar) => (
                format!(
                    "{what} is `{}`; expected {expected}",
                    shortened(&scalar.words)
                ),
                node.span,
            ),
            NodeKind::List(_) | NodeKind::Mapping(_) => (
                format!("{what} is {}; expected {expected}", node.described()),
                self.opening(node.span),
            ),
        };
        self.say(Problem::error(span, headline, format!("expected {expected}")).help(help));
    }

    /// The first line of a long place.
    pub(crate) fn opening(&self, span: Span) -> Span {
        let words = self
            .file(span)
            .get(span.start as usize..span.end as usize)
            .unwrap_or_default();
        let line = words.lines().next().unwrap_or_default().trim_end();
        span_of(
            span.source,
            span.start as usize,
            span.start as usize + line.len(),
        )
    }

    /// The keys of a mapping; unknown ones are said. `what` is what has these keys: `a clause`.
    pub(crate) fn fields<'n>(
        &mut self,
        node: &'n Node,
        what: &str,
        known: &[&str],
    ) -> Option<Fields<'n>> {
        let NodeKind::Mapping(entries) = &node.kind else {
            let help = match glued_key(node, known) {
                Some((key, value)) => {
                    format!("write a space behind the colon: `{key}: {value}`")
                }
                None => format!(
                    "write keys with values; the keys of {what} are {}",
                    list_of(known)
                ),
            };
            self.expected(node, what, "keys with values", &help);
            return None;
        };
        for entry in entries {
            if !known.contains(&entry.key.words.as_str()) {
                let problem = unknown_key(entry, what, known, node.layout);
                self.say(problem);
            }
        }
        Some(Fields {
            entries,
            place: entries.first().map_or(node.span, |entry| entry.key.span),
        })
    }

    /// Says that a key is missing.
    pub(crate) fn missing(&mut self, fields: &Fields<'_>, what: &str, key: &str, help: &str) {
        let problem = Problem::error(
            fields.place,
            format!("{what} has no `{key}`"),
            format!("expected `{key}:` beside this key"),
        )
        .help(help);
        self.say(problem);
    }

    /// The entries of a mapping whose keys are names of the writer's choosing.
    pub(crate) fn entries<'n>(&mut self, node: &'n Node, what: &str, help: &str) -> &'n [Entry] {
        match &node.kind {
            NodeKind::Mapping(entries) => entries,
            // `terms:` alone is an empty chapter.
            NodeKind::Nothing => &[],
            _ => {
                self.expected(node, what, "names with values", help);
                &[]
            }
        }
    }

    /// Words of one kind or another.
    pub(crate) fn words(&mut self, node: &Node, what: &str, content: Content) -> Option<Words> {
        match &node.kind {
            NodeKind::Scalar(scalar) if scalar.words.trim().is_empty() => {
                let problem = Problem::error(
                    node.span,
                    format!("nothing is written for {what}"),
                    "an empty text",
                )
                .help("write it, or delete its key");
                self.say(problem);
                None
            }
            NodeKind::Scalar(scalar) => {
                if self.cut_by_comment(node, scalar, what, content)
                    || self.quoted_by_typesetters(node, scalar, content)
                {
                    return None;
                }
                Some(Spanned::new(scalar.words.clone(), node.span))
            }
            _ => {
                let expected = match content {
                    Content::Text | Content::Phrase => "a text",
                    Content::Word => "one word",
                };
                self.expected(
                    node,
                    what,
                    expected,
                    "write it behind the colon, on the same line",
                );
                None
            }
        }
    }

    /// Words for each item of a list, or for one item alone.
    pub(crate) fn words_list(&mut self, node: &Node, what: &str, content: Content) -> Vec<Words> {
        if let NodeKind::List(items) = &node.kind
            && items.is_empty()
        {
            self.empty_list(node, what);
        }
        let items = node.items().iter();
        items
            .filter_map(|item| self.words(item, what, content))
            .collect()
    }

    /// Says that a list has no items, or that `{}` has no keys.
    pub(crate) fn empty_list(&mut self, node: &Node, what: &str) {
        let problem = match node.kind {
            NodeKind::Mapping(_) => Problem::error(
                node.span,
                format!("nothing is written for {what}"),
                "nothing between `{` and `}`",
            )
            .help("write what belongs there, or delete its key"),
            _ => Problem::error(
                node.span,
                format!("the list for {what} has no items"),
                "an empty list",
            )
            .help("write its items, or delete its key"),
        };
        self.say(problem);
    }

    /// A text, or texts by language.
    pub(crate) fn text(&mut self, node: &Node, what: &str) -> Option<TextDraft> {
        let NodeKind::Mapping(entries) = &node.kind else {
            if let NodeKind::List(_) = node.kind {
                self.expected(
                    node,
                    what,
                    "a text",
                    "write one text; if it begins with a bracket, put it in quotes",
                );
                return None;
            }
            let words = self.words(node, what, Content::Text)?;
            return Some(TextDraft {
                by_language: vec![(String::new(), words)],
            });
        };
        let mut by_language = Vec::with_capacity(entries.len());
        for entry in entries {
            if !is_language(&entry.key.words) {
                let problem = Problem::error(
                    entry.key.span,
                    format!("`{}` is no language tag", shortened(&entry.key.words)),
                    format!("{what} by language: expected a tag such as `en` or `pt-BR`"),
                )
                .help(match node.layout {
                    Layout::Flow => {
                        "inside `{}` a comma ends an item: put a text with commas in quotes"
                    }
                    Layout::Block => {
                        "write `en: ...`; if all of this is one text, put it in quotes"
                    }
                });
                self.say(problem);
                continue;
            }
            if let Some(words) = self.words(&entry.value, what, Content::Text) {
                by_language.push((entry.key.words.clone(), words));
            }
        }
        if entries.is_empty() {
            self.empty_list(node, what);
        }
        (!by_language.is_empty()).then_some(TextDraft { by_language })
    }

    /// Yes or no, as written.
    pub(crate) fn yes_or_no(&mut self, node: &Node, what: &str) -> bool {
        match node.words() {
            Some("true" | "yes") => true,
            Some("false" | "no") => false,
            _ => {
                self.expected(node, what, "`true` or `false`", "write `true` or `false`");
                false
            }
        }
    }

    /// A name of the writer's choosing, as a key.
    pub(crate) fn name_of_key(&mut self, key: &Key, what: &str) -> Option<Words> {
        self.check_name(Spanned::new(key.words.clone(), key.span), what)
    }

    /// A name of the writer's choosing, as a value.
    pub(crate) fn name(&mut self, node: &Node, what: &str) -> Option<Words> {
        let words = self.words(node, what, Content::Word)?;
        self.check_name(words, what)
    }

    /// Says what keeps words from being a name that conditions can use.
    fn check_name(&mut self, words: Words, what: &str) -> Option<Words> {
        if words.value.is_empty() {
            let problem = Problem::error(
                words.span,
                format!("{what} has no name"),
                "a name is one word of letters, digits and `_`",
            )
            .help("write a name with a letter in it");
            self.say(problem);
            return None;
        }
        let wrong = words
            .value
            .char_indices()
            .find(|(_, character)| !names(*character));
        let Some((at, character)) = wrong else {
            return Some(words);
        };
        let suggestion: String = words
            .value
            .split(|character| !names(character))
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join("_");
        let headline = if character.is_whitespace() {
            format!(
                "{what} has a space in its name: `{}`",
                shortened(&words.value)
            )
        } else {
            format!(
                "{what} has a `{character}` in its name: `{}`",
                shortened(&words.value)
            )
        };
        // Where the name stands as it is, the character alone; else the name.
        let verbatim = self
            .file(words.span)
            .get(words.span.start as usize..words.span.end as usize)
            == Some(words.value.as_str());
        let span = if verbatim && !character.is_whitespace() {
            let start = words.span.start as usize + at;
            span_of(words.span.source, start, start + character.len_utf8())
        } else {
            words.span
        };
        let problem = Problem::error(
            span,
            headline,
            "a name is one word of letters, digits and `_`",
        );
        self.say(if suggestion.is_empty() {
            problem.help("write a name of letters, digits and `_`")
        } else {
            problem.help(format!(
                "write `{suggestion}`; a label can say it in other words"
            ))
        });
        None
    }

    /// Says that quotes which only typesetters use stand around an id or a reference: to YAML they
    /// are letters of it.
    fn quoted_by_typesetters(&mut self, node: &Node, scalar: &Scalar, content: Content) -> bool {
        const QUOTES: [char; 7] = [
            '\u{201c}', '\u{201d}', '\u{201e}', '\u{2018}', '\u{2019}', '\u{ab}', '\u{bb}',
        ];
        let curly = content == Content::Phrase
            && scalar.style == Style::Plain
            && scalar.words.starts_with(QUOTES);
        if curly {
            let bare = scalar.words.trim_matches(QUOTES);
            let problem = Problem::error(
                node.span,
                format!("curly quotes stand around `{bare}`"),
                "read as a part of it",
            )
            .help(format!(
                "write straight quotes: {}; word processors turn them into curly ones",
                quoted(bare)
            ));
            self.say(problem);
        }
        curly
    }

    /// A comment on the line where unquoted words end.
    fn comment_behind(&self, node: &Node, scalar: &Scalar) -> Option<Comment> {
        if scalar.style != Style::Plain {
            return None;
        }
        let end = node.span.end as usize;
        let behind = self.file(node.span).get(end..)?;
        let blanks = behind.len() - behind.trim_start_matches([' ', '\t']).len();
        let comment = behind.get(blanks..)?;
        // Looking for the end of the line only now keeps long lines cheap.
        if blanks == 0 || !comment.starts_with('#') {
            return None;
        }
        let comment = comment.split(['\n', '\r']).next()?.trim_end();
        Some(Comment {
            span: span_of(node.span.source, end + blanks, end + blanks + comment.len()),
            tight: behind.get(..blanks) == Some(" "),
        })
    }

    /// Says that a comment cut a text short, where it did.
    fn cut_by_comment(
        &mut self,
        node: &Node,
        scalar: &Scalar,
        what: &str,
        content: Content,
    ) -> bool {
        let Some(comment) = self.comment_behind(node, scalar) else {
            return false;
        };
        let cuts = match content {
            Content::Text => true,
            Content::Phrase => comment.tight,
            Content::Word => false,
        };
        if cuts {
            let whole = self
                .file(node.span)
                .get(node.span.start as usize..comment.span.end as usize)
                .unwrap_or_default();
            let whole = whole.split_whitespace().collect::<Vec<_>>().join(" ");
            self.say(cut_short(comment.span, what, &quoted(&whole)));
        }
        cuts
    }
}

struct Comment {
    span: Span,
    /// Whether a single space is all that sets it apart.
    tight: bool,
}

fn cut_short(comment: Span, what: &str, whole: &str) -> Problem {
    let problem = Problem::error(
        comment,
        format!("a `#` cuts {what} short: what follows it is a comment"),
        "not a part of the text",
    );
    if whole == "a condition" {
        problem.help("a `#` has no meaning in a condition: write the condition to its end, and put comments on a line of their own")
    } else {
        problem.help(format!(
            "if it belongs to the text, put the text in quotes: {whole}; if it is a comment, put it on a line of its own"
        ))
    }
}

/// The key and the value of words such as `id:"3"`, where the space behind the colon is missing.
fn glued_key<'n>(node: &'n Node, known: &[&str]) -> Option<(&'n str, &'n str)> {
    let NodeKind::Scalar(scalar) = &node.kind else {
        return None;
    };
    // Of words that go on over lines only those of the first line are looked at.
    let first = scalar.words.split_whitespace().next()?;
    let (key, value) = first.split_once(':')?;
    (known.contains(&key) && !value.is_empty()).then_some((key, value))
}

fn unknown_key(entry: &Entry, what: &str, known: &[&str], layout: Layout) -> Problem {
    let key = &entry.key;
    let words = shortened(&key.words);
    let problem = Problem::error(
        key.span,
        format!("`{words}` is no key of {what}"),
        format!("not a key of {what}"),
    );
    let bare = matches!(entry.value.kind, NodeKind::Nothing);
    if layout == Layout::Flow && bare && key.words.ends_with(')') {
        return Problem::error(
            key.span,
            format!("a comma inside `{{}}` or `[]` ends an item, and made a key of `{words}`"),
            "cut off from what stands before the comma",
        )
        .help("put the whole condition or text in quotes, from before the comma to its end");
    }
    if layout == Layout::Flow && bare && key.words.contains(char::is_whitespace) {
        return problem.help(
            "a comma inside `{}` or `[]` ends an item, so what follows it became a key: put the whole text or condition before it in quotes",
        );
    }
    let near = nearest(&key.words, known.iter().copied());
    match near.or_else(|| begins_alike(&key.words, known)) {
        Some(near) => problem.help(format!("did you mean `{near}`?")),
        None => problem.help(format!("the keys of {what} are {}", list_of(known))),
    }
}

/// The key that begins as a word does, for most of its length: `disapply` and `disapplies`.
fn begins_alike<'k>(word: &str, known: &[&'k str]) -> Option<&'k str> {
    let shared = |key: &str| {
        let pairs = word.chars().zip(key.chars());
        pairs.take_while(|(one, other)| one == other).count()
    };
    let near = known.iter().copied().filter(|key| {
        let longer = word.chars().count().max(key.chars().count());
        shared(key) >= 4 && shared(key) * 3 >= longer * 2
    });
    near.max_by_key(|key| shared(key))
}

/// Names in a row: `a`, `b`, `c`.
pub(crate) fn list_of(names: &[&str]) -> String {
    let names: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    names.join(", ")
}

/// The first words of a text, for a headline.
pub(crate) fn shortened(words: &str) -> String {
    const LONGEST: usize = 40;
    let line = words.split_whitespace().collect::<Vec<_>>().join(" ");
    if line.chars().count() <= LONGEST {
        return line;
    }
    let mut short: String = line.chars().take(LONGEST - 3).collect();
    short.push_str("...");
    short
}

/// Whether a key looks like a language tag: `en`, `pt-BR`, `zh-Hans-CN`.
fn is_language(tag: &str) -> bool {
    let mut parts = tag.split('-');
    let first = parts.next().unwrap_or_default();
    (2..=3).contains(&first.len())
        && first.bytes().all(|byte| byte.is_ascii_alphabetic())
        && parts.all(|part| {
            (1..=8).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_alphanumeric())
        })
}
