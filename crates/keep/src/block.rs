//! What a screen of the cabinet is made of: few sorts of block, so that what draws them is small.

use crate::label::Label;
use crate::msg::{Msg, Spot};

/// A screen.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct View {
    /// Its heading.
    pub title: String,
    /// A sentence to show once, with a key that answers it.
    pub notice: Option<(String, Vec<Key>)>,
    /// What stands on it.
    pub blocks: Vec<Block>,
    /// The keys of the lower bar.
    pub bar: Vec<Key>,
    /// Whether it is made for paper.
    pub paper: bool,
}

/// One thing after another.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading.
    Heading(String),
    /// A sentence or more.
    Says(String),
    /// The same, smaller.
    Hint(String),
    /// A sentence that must not be overlooked.
    Care(String),
    /// Names with what stands behind them.
    Facts(Vec<(String, String)>),
    /// Heads and rows.
    Table(Vec<String>, Vec<Vec<String>>),
    /// Photographs: digest and caption.
    Photos(Vec<(String, String)>),
    /// Something to be filled in by hand: what, and how many lines.
    Blank(String, usize),
    /// Pieces, a line each.
    Rows(Vec<Row>),
    /// Pieces by their pictures.
    Wall(Vec<Row>),
    /// Keys side by side, with what they are about.
    Keys(String, Vec<Key>),
    /// Fields to type into.
    Fields(Vec<Field>),
    /// A key that asks for a file.
    File(Take, String),
    /// Labels for tags.
    Labels(Vec<Label>),
    /// Blocks in a frame.
    Card(Vec<Block>),
    /// How far something has come: done, of how many.
    Progress(usize, usize),
}

/// A piece in a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its photograph; empty for none.
    pub photo: String,
    /// The first line.
    pub title: String,
    /// The second.
    pub says: String,
    /// What must not be overlooked.
    pub care: String,
    /// What a tap does.
    pub does: Does,
    /// While several are being chosen: whether this one is.
    pub chosen: Option<bool>,
}

/// What a key does.
#[derive(Debug, Clone, PartialEq)]
pub enum Does {
    /// Sends a message.
    Msg(Msg),
    /// Leads to an address.
    To(String),
}

/// A key.
#[derive(Debug, Clone, PartialEq)]
pub struct Key {
    /// On it.
    pub label: String,
    /// What it does.
    pub does: Does,
    /// On or off, where it is one that is.
    pub on: Option<bool>,
    /// Whether it is the one that is meant.
    pub strong: bool,
}

impl Key {
    /// A key that sends a message.
    #[must_use]
    pub fn new(label: &str, msg: Msg) -> Key {
        Key { label: label.to_string(), does: Does::Msg(msg), on: None, strong: false }
    }

    /// A key that leads somewhere.
    #[must_use]
    pub fn to(label: &str, address: &str) -> Key {
        Key { label: label.to_string(), does: Does::To(address.to_string()), on: None, strong: false }
    }

    /// A key that is on or off.
    #[must_use]
    pub fn toggle(label: &str, on: bool, msg: Msg) -> Key {
        Key { on: Some(on), ..Key::new(label, msg) }
    }

    /// The one that is meant.
    #[must_use]
    pub fn strong(self) -> Key {
        Key { strong: true, ..self }
    }
}

/// A field.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Which.
    pub spot: Spot,
    /// Above it.
    pub label: String,
    /// What stands in it.
    pub text: String,
    /// Why that cannot be used.
    pub fault: Option<String>,
    /// How it is typed.
    pub sort: Sort,
}

/// How a field is typed.
#[derive(Debug, Clone, PartialEq)]
pub enum Sort {
    /// A line.
    Line,
    /// Words to look for.
    Search,
    /// Several lines.
    Lines,
    /// One of several words; the first may be empty.
    Choice(Vec<String>),
}

/// What a file is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Take {
    /// Photographs of the piece that is being edited.
    Photos,
    /// A file of a cabinet.
    Archive,
    /// A table.
    Table,
}
