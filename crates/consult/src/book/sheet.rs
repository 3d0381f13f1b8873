//! What a page shows, as plain data. Few sorts of block, so that few lines draw them all.

use units::{Period, Year};

/// A page to read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sheet {
    /// The heading.
    pub title: String,
    /// What stands first; beside the rest where there is room.
    pub lead: Vec<Block>,
    /// The rest.
    pub body: Vec<Block>,
    /// The keys of the lower bar: address and label.
    pub keys: Vec<(String, String)>,
    /// Address of the page to find something.
    pub find: String,
}

/// A piece of a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A paragraph.
    Text(Tone, Line),
    /// Blocks under a heading; in a card or not.
    Section(String, bool, Vec<Block>),
    /// Lines with a name at their left.
    Rows(Vec<(String, String)>),
    /// Names with a figure at their right.
    Shares(Vec<(String, String)>),
    /// A list.
    Lines(Vec<Line>),
    /// Cards with a drawing.
    Cards(Vec<Card>),
    /// Keys that lead to other pages; of each, whether it is this page.
    Keys(Vec<(String, String, bool)>),
    /// Whole pieces, large, side by side where there are several.
    Pieces(Vec<Piece>),
    /// A table.
    Table(Table),
    /// Years of making by make.
    Years(Vec<(String, Period)>),
    /// What is hidden until it is asked for, and whether it was.
    Money(Vec<Block>, bool),
    /// A place to type what is looked for: label and text.
    Search(String, String),
    /// Keys to save the drawing of the page.
    Save,
    /// A piece with numbers on its parts.
    Numbered(Piece, Vec<Part>),
    /// Keys for light, dark and sun.
    Themes,
    /// The heading of what came of it: the focus moves there.
    Said(String),
    /// Keys that have something done.
    Acts(Vec<Act>),
    /// A place to choose files or to drop them.
    Pick {
        /// Its name in the document.
        id: &'static str,
        /// What stands on it.
        says: String,
        /// What is done with them.
        what: &'static str,
        /// Whether there may be several.
        several: bool,
    },
    /// A line to type, read when a key beside it is tapped.
    Field {
        /// Its name in the document.
        id: &'static str,
        /// What is to be typed.
        says: String,
    },
}

/// A key that has something done by a program behind the page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Act {
    /// Its label.
    pub says: String,
    /// What is done.
    pub what: &'static str,
    /// With what.
    pub value: String,
}

/// How a paragraph is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Plain.
    Plain,
    /// A remark under a heading.
    Hint,
    /// Small print.
    Small,
    /// A warning.
    Care,
    /// The check that decides between two kinds.
    Check,
    /// A question in a list.
    Ask,
}

/// A line of words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Line {
    /// Where it leads, an address; empty for nowhere.
    pub to: String,
    /// Its beginning, in strong letters.
    pub strong: String,
    /// The rest.
    pub says: String,
}

/// A drawing with words under it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Card {
    /// Where it leads, an address; empty for nowhere.
    pub to: String,
    /// What to draw, in the words of the sketches; empty for nothing.
    pub draw: String,
    /// In strong letters.
    pub says: String,
    /// Beneath; may be empty.
    pub note: String,
}

/// A whole piece to be drawn.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Piece {
    /// What to draw, in the words of the sketches.
    pub draw: String,
    /// The length of its sole, mm.
    pub mm: u32,
    /// What stands under it.
    pub says: String,
    /// What a file with it is called, without an ending.
    pub file: String,
}

/// A part with a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The key of the sketches that draws it.
    pub key: String,
    /// What can be seen.
    pub says: String,
    /// What the words in it mean.
    pub words: Vec<Line>,
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// What it shows, for those who do not see it.
    pub caption: String,
    /// Of the columns.
    pub heads: Vec<String>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// A row of a table: a line of its own, with the cells beneath.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What it is about.
    pub name: Line,
    /// How far the columns differ: per mille of the most, and in words.
    pub mark: Option<(u16, String)>,
    /// By column, lines; of each, whether it stands out.
    pub cells: Vec<Vec<(String, bool)>>,
}

/// First and last year of some periods, at least one year apart.
#[must_use]
pub fn reach(periods: &[(String, Period)]) -> (Year, Year) {
    let from = periods.iter().map(|p| p.1.earliest).min().unwrap_or(0);
    let to = periods.iter().map(|p| p.1.latest).max().unwrap_or(0);
    (from, to.max(from + 1))
}
