//! A YAML file as a tree of words with places.
//!
//! A scalar is always the words that were written: `7.10` never becomes a number, nor `no` a truth
//! value. The tree knows how the words were written, not what they mean.

use crate::source::Span;

/// One value in the file.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    /// What stands there.
    pub(crate) kind: NodeKind,
    /// Where: without the properties before it and the comments behind it. For [`NodeKind::Nothing`]
    /// the key (or the dash) that has nothing behind it.
    pub(crate) span: Span,
    /// In which notation.
    pub(crate) layout: Layout,
}

/// What can stand in a file.
#[derive(Clone, Debug)]
pub(crate) enum NodeKind {
    /// A key or dash with nothing behind it.
    Nothing,
    /// Words.
    Scalar(Scalar),
    /// A list.
    List(Vec<Node>),
    /// Keys with their values, in the order of the file, no key twice.
    Mapping(Vec<Entry>),
}

/// A key and its value.
#[derive(Clone, Debug)]
pub(crate) struct Entry {
    /// The key.
    pub(crate) key: Key,
    /// The value.
    pub(crate) value: Node,
}

/// A key: always words.
#[derive(Clone, Debug)]
pub(crate) struct Key {
    /// The words.
    pub(crate) words: String,
    /// Where.
    pub(crate) span: Span,
}

/// Words as written.
#[derive(Clone, Debug)]
pub(crate) struct Scalar {
    /// The words, as YAML reads the notation; a block's closing blank space is left out.
    pub(crate) words: String,
    /// The notation.
    pub(crate) style: Style,
}

/// How words are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Style {
    /// Without quotes.
    Plain,
    /// `'...'`
    SingleQuoted,
    /// `"..."`
    DoubleQuoted,
    /// `|`
    Literal,
    /// `>`
    Folded,
}

/// Where a comma has a meaning, and where it has none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Layout {
    /// Lines and indentation: a comma is a comma.
    Block,
    /// Inside `{}` or `[]`: a comma ends an item.
    Flow,
}

impl Node {
    /// What stands there, for a message: `a list`.
    pub(crate) fn described(&self) -> &'static str {
        match self.kind {
            NodeKind::Nothing => "nothing",
            NodeKind::Scalar(_) => "words",
            NodeKind::List(_) => "a list",
            NodeKind::Mapping(_) => "keys with values",
        }
    }

    /// The words, where it is words.
    pub(crate) fn words(&self) -> Option<&str> {
        match &self.kind {
            NodeKind::Scalar(scalar) => Some(&scalar.words),
            _ => None,
        }
    }

    /// The value of a key, where it is keys with values.
    pub(crate) fn value_of(&self, key: &str) -> Option<&Node> {
        match &self.kind {
            NodeKind::Mapping(entries) => {
                let entry = entries.iter().find(|entry| entry.key.words == key);
                entry.map(|entry| &entry.value)
            }
            _ => None,
        }
    }

    /// The items of a list; of anything else, itself alone: one item may stand without a list.
    pub(crate) fn items(&self) -> &[Node] {
        match &self.kind {
            NodeKind::List(items) => items,
            _ => std::slice::from_ref(self),
        }
    }

    /// The items of a chapter, which may say nothing.
    pub(crate) fn chapter(&self) -> &[Node] {
        match self.kind {
            NodeKind::Nothing => &[],
            _ => self.items(),
        }
    }

    /// The values that stand in it, itself among them.
    pub(crate) fn size(&self) -> usize {
        1 + match &self.kind {
            NodeKind::Nothing | NodeKind::Scalar(_) => 0,
            NodeKind::List(items) => items.iter().map(Node::size).sum(),
            NodeKind::Mapping(entries) => entries.iter().map(|entry| entry.value.size()).sum(),
        }
    }

    /// How many levels it has: one for words.
    pub(crate) fn depth(&self) -> usize {
        1 + match &self.kind {
            NodeKind::Nothing | NodeKind::Scalar(_) => 0,
            NodeKind::List(items) => items.iter().map(Node::depth).max().unwrap_or(0),
            NodeKind::Mapping(entries) => entries
                .iter()
                .map(|entry| entry.value.depth())
                .max()
                .unwrap_or(0),
        }
    }
}
