//! The text of a file into a tree of words with places.
//!
//! YAML has traps that a writer of rules should never meet: this module refuses several documents
//! in a file, tags, merge keys, keys that are no words, duplicate keys, tabs as indentation and
//! whatever nests or expands without end, each with its own message. It refuses to know what any
//! key means.
//!
//! Anchors and aliases are YAML and are read: an alias stands for the words at its anchor, with
//! their places. What aliases add together is bounded by [`MOST_COPIED`].

use super::bytes::{LARGEST_FILE, control_character};
use super::cuts::mend;
use super::node::{Entry, Key, Layout, Node, NodeKind, Scalar, Style};
use super::yaml_faults::{fault, tabs};
use crate::problem::Problem;
use crate::source::{Source, SourceId, Span};
use saphyr_parser::{Event, Marker, Parser, ScalarStyle, ScanError};
use std::collections::BTreeMap;

/// Levels of lists and keys inside each other that are read.
pub(crate) const DEEPEST: usize = 100;
/// Values of a file that are read.
pub(crate) const MOST_VALUES: usize = 2_000_000;
/// Values that the aliases of a file may add together.
pub(crate) const MOST_COPIED: usize = 100_000;

/// Reads the one document of a file. `None`, with a problem, where it is empty or no usable YAML.
pub(crate) fn document(source: &Source, id: SourceId, problems: &mut Vec<Problem>) -> Option<Node> {
    let text = source.text();
    if text.len() > LARGEST_FILE {
        let span = span_of(id, 0, 0);
        problems.push(
            Problem::error(
                span,
                format!(
                    "the file is too large: {} bytes, where {LARGEST_FILE} are read",
                    text.len()
                ),
                "no file of this size is read",
            )
            .help("split the file, or check that it is the right one"),
        );
        return None;
    }
    if let Some((at, character)) = control_character(text) {
        problems.push(
            Problem::error(
                span_of(id, at, at + character.len_utf8()),
                format!(
                    "a control character stands in the text: U+{:04X}",
                    u32::from(character)
                ),
                "an invisible character that has no place in a text",
            )
            .help("delete it; it often comes from copying out of another program"),
        );
        return None;
    }
    let mut tree = Tree {
        text,
        id,
        problems,
        offsets: Offsets::new(text),
        stack: Vec::new(),
        root: None,
        anchors: BTreeMap::new(),
        copied: 0,
        values: 0,
        verbatim: Vec::new(),
    };
    let end = tree.read();
    let verbatim = std::mem::take(&mut tree.verbatim);
    let root = tree.root.take();
    let failed_at = match &end {
        End::Read | End::Refused => None,
        End::Failed(error) => Some(tree.offsets.byte(*error.marker())),
    };
    let tabbed = tabs(text, id, &verbatim, failed_at);
    let has_tabs = !tabbed.is_empty();
    problems.extend(tabbed);
    match end {
        End::Read => {}
        End::Refused => return None,
        End::Failed(error) => {
            // A tab is what the writer must mend first; what YAML makes of it misleads.
            if !has_tabs {
                problems.push(fault(text, id, error.info(), failed_at.unwrap_or(0)));
            }
            return None;
        }
    }
    if root.is_none() && !has_tabs {
        problems.push(
            Problem::error(
                span_of(id, 0, 0),
                "the file says nothing",
                "a ruleset opens with its title: `ruleset: ...`",
            )
            .help("`evenhand new NAME` writes a small ruleset to start from"),
        );
    }
    let mut root = root?;
    mend(text, &mut root, problems);
    Some(root)
}

/// A span of bytes.
pub(super) fn span_of(id: SourceId, start: usize, end: usize) -> Span {
    let byte = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    Span {
        source: id,
        start: byte(start),
        end: byte(end),
    }
}

/// From counts of characters to counts of bytes.
struct Offsets<'t> {
    text: &'t str,
    /// The byte of every [`Offsets::STRIDE`]th character; none where each character is one byte.
    marks: Vec<usize>,
}

impl<'t> Offsets<'t> {
    const STRIDE: usize = 64;

    fn new(text: &'t str) -> Self {
        let marks = if text.is_ascii() {
            Vec::new()
        } else {
            let places = text.char_indices().map(|(at, _)| at);
            places.step_by(Self::STRIDE).collect()
        };
        Offsets { text, marks }
    }

    fn byte(&self, marker: Marker) -> usize {
        let index = marker.index();
        // No marks: the text is ASCII. Asking the text again for every place would take minutes.
        if self.marks.is_empty() {
            return index.min(self.text.len());
        }
        let Some(start) = self.marks.get(index / Self::STRIDE).copied() else {
            return self.text.len();
        };
        let rest = self.text.get(start..).unwrap_or_default();
        rest.char_indices()
            .nth(index % Self::STRIDE)
            .map_or(self.text.len(), |(at, _)| start + at)
    }
}

/// How reading came to its end.
enum End {
    /// The whole document was read.
    Read,
    /// A problem that leaves no tree was said.
    Refused,
    /// The text is no YAML.
    Failed(ScanError),
}

/// A list or mapping that is not closed yet.
struct Open {
    start: usize,
    layout: Layout,
    anchor: usize,
    content: Content,
}

enum Content {
    List(Vec<Node>),
    Mapping { entries: Vec<Entry>, key: Waiting },
}

/// What a mapping waits for.
enum Waiting {
    Key,
    /// The value of this key.
    Value(Key),
    /// The value of a key that was refused.
    ValueToDrop,
}

struct Tree<'t> {
    text: &'t str,
    id: SourceId,
    problems: &'t mut Vec<Problem>,
    offsets: Offsets<'t>,
    stack: Vec<Open>,
    root: Option<Node>,
    anchors: BTreeMap<usize, Node>,
    copied: usize,
    values: usize,
    /// Places of quoted and block scalars, where a tab is part of the words.
    verbatim: Vec<(usize, usize)>,
}

impl Tree<'_> {
    fn read(&mut self) -> End {
        let mut documents = 0;
        // Event by event: the parser itself keeps its own stack and never recurses.
        let mut parser = Parser::new_from_str(self.text);
        while let Some(next) = parser.next_event() {
            let (event, place) = match next {
                Ok(next) => next,
                Err(error) if error.info() == "recursion limit exceeded" => {
                    let at = self.offsets.byte(*error.marker());
                    return self.too_deep(span_of(self.id, at, word_end(self.text, at)));
                }
                Err(error) => return End::Failed(error),
            };
            let start = self.offsets.byte(place.start);
            let end = self.offsets.byte(place.end);
            let step = match event {
                Event::DocumentStart(_) => {
                    documents += 1;
                    if documents > 1 {
                        self.second_document(start)
                    } else {
                        Ok(())
                    }
                }
                Event::Scalar(words, style, anchor, tag) => {
                    let at = self.properties(start, anchor, tag.is_some());
                    self.scalar(&words, style, at, end).map(|node| {
                        self.remember(anchor, &node);
                        self.add(node);
                    })
                }
                Event::SequenceStart(anchor, tag) => {
                    let at = self.properties(start, anchor, tag.is_some());
                    self.open(at, start < end, anchor, Content::List(Vec::new()))
                }
                Event::MappingStart(anchor, tag) => {
                    let at = self.properties(start, anchor, tag.is_some());
                    let content = Content::Mapping {
                        entries: Vec::new(),
                        key: Waiting::Key,
                    };
                    self.open(at, start < end, anchor, content)
                }
                Event::SequenceEnd | Event::MappingEnd => {
                    self.close(start, end);
                    Ok(())
                }
                Event::Alias(anchor) => self.alias(anchor, span_of(self.id, start, end)),
                Event::Nothing | Event::StreamStart | Event::StreamEnd | Event::DocumentEnd => {
                    Ok(())
                }
            };
            if let Err(end) = step {
                return end;
            }
        }
        End::Read
    }

    fn too_deep(&mut self, span: Span) -> End {
        self.problems.push(
            Problem::error(
                span,
                format!("the file nests more than {DEEPEST} levels deep"),
                "one level too many",
            )
            .help("give the inner parts names of their own, as terms"),
        );
        End::Refused
    }

    fn second_document(&mut self, at: usize) -> Result<(), End> {
        self.problems.push(
            Problem::error(
                span_of(self.id, at, word_end(self.text, at)),
                "the file holds more than one document",
                "a second one begins here",
            )
            .help("a file is one ruleset: delete the line `---`, or move what follows into a file of its own"),
        );
        Err(End::Refused)
    }

    /// Passes `&anchor` (0 where there is none) and `!tag` before a value; a tag is a problem.
    fn properties(&mut self, start: usize, anchor: usize, tagged: bool) -> usize {
        let mut at = start;
        loop {
            let rest = self.text.get(at..).unwrap_or_default();
            let tag = rest.starts_with('!') && tagged;
            // Without an anchor, the `&` opens the words of a block.
            if !tag && (anchor == 0 || !rest.starts_with('&')) {
                return at;
            }
            let end = word_end(self.text, at);
            if tag {
                let words = self.text.get(at..end).unwrap_or_default();
                self.problems.push(
                    Problem::error(
                        span_of(self.id, at, end),
                        format!("a YAML tag stands in the file: `{words}`"),
                        "values are always the words that are written",
                    )
                    .help("delete it; if the `!` belongs to the text, put the text in quotes"),
                );
            }
            at = end;
            // Blanks, line ends and comments up to the value.
            loop {
                let rest = self.text.get(at..).unwrap_or_default();
                at += rest.len() - rest.trim_start().len();
                let rest = self.text.get(at..).unwrap_or_default();
                if !rest.starts_with('#') {
                    break;
                }
                at += rest.find('\n').unwrap_or(rest.len());
            }
        }
    }

    fn scalar(
        &mut self,
        words: &str,
        style: ScalarStyle,
        start: usize,
        end: usize,
    ) -> Result<Node, End> {
        let style = match style {
            ScalarStyle::Plain => Style::Plain,
            ScalarStyle::SingleQuoted => Style::SingleQuoted,
            ScalarStyle::DoubleQuoted => Style::DoubleQuoted,
            ScalarStyle::Literal => Style::Literal,
            ScalarStyle::Folded => Style::Folded,
        };
        let (words, start, end) = match style {
            Style::Plain => (words, start, end),
            Style::SingleQuoted | Style::DoubleQuoted => (
                words,
                start,
                closing_quote(self.text, start, style).unwrap_or(end),
            ),
            Style::Literal | Style::Folded => {
                let start = block_content(self.text, start);
                let slice = self.text.get(start..end.max(start)).unwrap_or_default();
                let end = start + slice.trim_end().len();
                if words.trim_end().is_empty() {
                    // Nothing but a header, which then stands for the empty text.
                    let before = self.text.get(..=start).unwrap_or(self.text);
                    let header = before.rfind(['|', '>']).unwrap_or(start);
                    ("", header, header + 1)
                } else {
                    (words.trim_end(), start, end)
                }
            }
        };
        if style != Style::Plain {
            self.verbatim.push((start, end));
        }
        let kind = if words.is_empty() && style == Style::Plain {
            NodeKind::Nothing
        } else {
            NodeKind::Scalar(Scalar {
                words: words.to_owned(),
                style,
            })
        };
        let node = Node {
            kind,
            span: span_of(self.id, start, end.max(start)),
            layout: self.layout(),
        };
        self.count(1, node.span)?;
        Ok(node)
    }

    /// The notation around the value that comes next.
    fn layout(&self) -> Layout {
        self.stack.last().map_or(Layout::Block, |open| open.layout)
    }

    fn count(&mut self, values: usize, span: Span) -> Result<(), End> {
        self.values += values;
        if self.values <= MOST_VALUES {
            return Ok(());
        }
        self.problems.push(
            Problem::error(
                span,
                format!("the file holds more than {MOST_VALUES} values"),
                "one value too many",
            )
            .help("split the file, or check that it is the right one"),
        );
        Err(End::Refused)
    }

    fn remember(&mut self, anchor: usize, node: &Node) {
        if anchor > 0 {
            self.anchors.insert(anchor, node.clone());
        }
    }

    fn open(
        &mut self,
        start: usize,
        wide: bool,
        anchor: usize,
        content: Content,
    ) -> Result<(), End> {
        let opens = self
            .text
            .get(start..)
            .unwrap_or_default()
            .starts_with(['[', '{']);
        // Of a block, the event has no width of its own.
        let layout = if wide && opens {
            Layout::Flow
        } else {
            self.layout()
        };
        // The bracket or the first character is enough to point at.
        let first = self.text.get(start..).and_then(|rest| rest.chars().next());
        let place = span_of(self.id, start, start + first.map_or(0, char::len_utf8));
        if self.stack.len() >= DEEPEST {
            return Err(self.too_deep(place));
        }
        self.stack.push(Open {
            start,
            layout,
            anchor,
            content,
        });
        self.count(1, place)
    }

    fn close(&mut self, start: usize, end: usize) {
        let Some(open) = self.stack.pop() else {
            return;
        };
        let (kind, inside) = match open.content {
            Content::List(items) => {
                let last = items.last().map(|item| item.span.end);
                (NodeKind::List(items), last)
            }
            Content::Mapping { entries, .. } => {
                let last = entries
                    .last()
                    .map(|entry| entry.value.span.end.max(entry.key.span.end));
                (NodeKind::Mapping(entries), last)
            }
        };
        let end = if end > start {
            // The closing bracket.
            end
        } else {
            inside.map_or(start, |byte| byte as usize)
        };
        let node = Node {
            kind,
            span: span_of(self.id, open.start, end.max(open.start)),
            layout: open.layout,
        };
        self.remember(open.anchor, &node);
        self.add(node);
    }

    fn alias(&mut self, anchor: usize, span: Span) -> Result<(), End> {
        let endless = |span: Span, label: &str| {
            Problem::error(span, "an alias expands without end", label)
                .help("write the words out where they are needed, or make them a term")
        };
        let Some(node) = self.anchors.get(&anchor) else {
            self.problems
                .push(endless(span, "it stands inside what it stands for"));
            return Err(End::Refused);
        };
        let size = node.size();
        if self.copied + size > MOST_COPIED {
            self.problems.push(endless(
                span,
                "with this one, the aliases of the file stand for more than 100000 values",
            ));
            return Err(End::Refused);
        }
        if self.stack.len() + node.depth() > DEEPEST {
            return Err(self.too_deep(span));
        }
        self.copied += size;
        let node = node.clone();
        self.count(size, span)?;
        self.add(node);
        Ok(())
    }

    /// Puts a finished value where the innermost open list or mapping waits for one.
    fn add(&mut self, mut node: Node) {
        let layout = self.layout();
        let Some(open) = self.stack.last_mut() else {
            self.root.get_or_insert(node);
            return;
        };
        match &mut open.content {
            Content::List(items) => {
                if matches!(node.kind, NodeKind::Nothing) {
                    node.span = dash_before(self.text, node.span);
                }
                items.push(node);
            }
            Content::Mapping { entries, key } => match std::mem::replace(key, Waiting::Key) {
                Waiting::Key => match key_of(self.text, node, layout) {
                    Ok(name) => *key = Waiting::Value(name),
                    Err(problem) => {
                        self.problems.push(problem);
                        *key = Waiting::ValueToDrop;
                    }
                },
                Waiting::ValueToDrop => {}
                Waiting::Value(name) => {
                    if matches!(node.kind, NodeKind::Nothing) {
                        node.span = name.span;
                    }
                    entries.push(Entry {
                        key: name,
                        value: node,
                    });
                }
            },
        }
    }
}

/// Takes a node as the key of a mapping.
fn key_of(text: &str, node: Node, layout: Layout) -> Result<Key, Problem> {
    Err(match node.kind {
        NodeKind::Scalar(scalar) if scalar.words == "<<" && scalar.style == Style::Plain => {
            Problem::error(
                node.span,
                "a merge key stands in the file: `<<`",
                "not a part of YAML 1.2, and not read",
            )
            .help("write the keys out where they are needed")
        }
        NodeKind::Scalar(scalar) => {
            return Ok(Key {
                words: scalar.words,
                span: node.span,
            });
        }
        NodeKind::Nothing => {
            let start = node.span.start as usize;
            Problem::error(
                span_of(node.span.source, start, word_end(text, start)),
                "a colon stands without a key before it",
                "expected a key",
            )
            .help("write the key, or put the text in quotes")
        }
        NodeKind::List(_) | NodeKind::Mapping(_) => Problem::error(
            node.span,
            "brackets stand where a key was expected",
            match layout {
                Layout::Flow => "a key is words",
                Layout::Block => "a key is words; `{` and `[` open keys and lists",
            },
        )
        .help("if this is a text that begins with a bracket, put it in quotes"),
    })
}

/// The byte after the word (or mark) at `at`, which a blank or a bracket or comma ends.
fn word_end(text: &str, at: usize) -> usize {
    let ends = |character: char| character.is_whitespace() || ",[]{}".contains(character);
    let rest = text.get(at..).unwrap_or_default();
    let mut characters = rest.char_indices().skip(1);
    let end = characters.find(|(_, character)| ends(*character));
    at + end.map_or(rest.len(), |(end, _)| end)
}

/// The byte after the quote that closes the scalar that opens at `start`.
fn closing_quote(text: &str, start: usize, style: Style) -> Option<usize> {
    let inner = start + 1;
    let mut bytes = text.as_bytes().get(inner..)?.iter().enumerate().peekable();
    while let Some((at, byte)) = bytes.next() {
        match (style, byte) {
            (Style::DoubleQuoted, b'\\') => {
                bytes.next();
            }
            (Style::DoubleQuoted, b'"') => return Some(inner + at + 1),
            (Style::SingleQuoted, b'\'') => {
                let doubled = bytes.next_if(|(_, next)| **next == b'\'').is_some();
                if !doubled {
                    return Some(inner + at + 1);
                }
            }
            _ => {}
        }
    }
    None
}

/// The first content character of a block scalar, from its header on where that is where its
/// place begins.
fn block_content(text: &str, start: usize) -> usize {
    let rest = text.get(start..).unwrap_or_default();
    let header = text.get(..start).unwrap_or_default();
    let opens_line = header
        .rsplit(['\n', '\r'])
        .next()
        .is_none_or(|before| before.trim_matches(' ').is_empty());
    if opens_line || !rest.starts_with(['|', '>']) {
        return start;
    }
    let line = rest.find(['\n', '\r']).unwrap_or(rest.len());
    let below = rest.get(line..).unwrap_or_default();
    start + line + (below.len() - below.trim_start().len())
}

/// What stands before an item that says nothing: its dash, the comma or bracket that opens it, or
/// an anchor or tag that has nothing behind it.
fn dash_before(text: &str, span: Span) -> Span {
    let before = text.get(..span.start as usize).unwrap_or_default();
    let before = before.trim_end();
    let opens = |character: char| character.is_whitespace() || ",[]{}".contains(character);
    let start = match before.chars().next_back() {
        None => return span,
        Some(last) if last == '-' || opens(last) => before.len() - last.len_utf8(),
        Some(_) => before.rfind(opens).map_or(0, |at| {
            let opening = before.get(at..).and_then(|rest| rest.chars().next());
            at + opening.map_or(0, char::len_utf8)
        }),
    };
    span_of(span.source, start, before.len())
}
