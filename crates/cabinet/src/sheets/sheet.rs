//! A sheet and its blocks.

use crate::record::{Record, Size, Value, valuation_in_words};

/// One thing after another on a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Block {
    /// A heading.
    Heading(String),
    /// A sentence or more.
    Says(String),
    /// A sentence that must not be overlooked.
    Care(String),
    /// Names with what stands behind them.
    Facts(Vec<(String, String)>),
    /// A table: heads, and rows of as many cells.
    Table(Vec<String>, Vec<Vec<String>>),
    /// Photographs: digest and caption.
    Photos(Vec<(String, String)>),
    /// Something to be filled in by hand: what, and how many lines.
    Blank(String, usize),
}

/// A sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Its title.
    pub title: String,
    /// What stands on it.
    pub blocks: Vec<Block>,
}

/// What is said under every figure of money.
pub(super) const NO_APPRAISAL: &str =
    "Figures are evidence of prices as their owner found it. They are not an appraisal.";

impl Sheet {
    pub(super) fn new(title: impl Into<String>) -> Sheet {
        Sheet { title: title.into(), blocks: Vec::new() }
    }

    pub(super) fn heading(&mut self, text: &str) {
        self.blocks.push(Block::Heading(text.to_string()));
    }

    pub(super) fn says(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Says(text.into()));
    }

    /// Facts that are not empty; nothing when there are none.
    pub(super) fn facts(&mut self, facts: Vec<(&str, String)>) {
        let facts: Vec<(String, String)> = facts
            .into_iter()
            .filter(|(_, value)| !value.is_empty())
            .map(|(name, value)| (name.to_string(), value))
            .collect();
        if !facts.is_empty() {
            self.blocks.push(Block::Facts(facts));
        }
    }

    /// A table, when it has rows.
    pub(super) fn table(&mut self, heads: &[&str], rows: Vec<Vec<String>>) {
        if !rows.is_empty() {
            self.blocks.push(Block::Table(heads.iter().map(|h| (*h).to_string()).collect(), rows));
        }
    }

    /// A heading with a sentence for each of a list, when there are any.
    pub(super) fn list(&mut self, heading: &str, sentences: Vec<String>) {
        if !sentences.is_empty() {
            self.heading(heading);
            self.blocks.extend(sentences.into_iter().map(Block::Says));
        }
    }
}

/// How a piece is called on a sheet: `2026.4.2, Small flat iron`.
pub(super) fn called(record: &Record) -> String {
    let title = [&record.title, &record.kind, &record.class].into_iter().find(|t| !t.is_empty());
    let title = title.map_or("a piece without a title", String::as_str);
    match &record.number {
        Some(number) => format!("{}, {title}", number.text()),
        None => format!("(no number), {title}"),
    }
}

/// A description in one line: kind, material, size, marks.
pub(super) fn described(record: &Record) -> String {
    let size = |what: &str| {
        let value: Option<Size> = record.measured(what).and_then(|m| m.value);
        value.map_or_else(String::new, |v| format!("{what} {}", v.shown()))
    };
    let marks: Vec<String> =
        record.marks.iter().map(|m| m.text.replace('\n', " / ")).filter(|t| !t.is_empty()).collect();
    let marks = if marks.is_empty() { String::new() } else { format!("marked {}", marks.join("; ")) };
    let all = [record.kind.clone(), record.materials.join(", "), size("length"), size("weight"), marks];
    all.into_iter().filter(|t| !t.is_empty()).collect::<Vec<_>>().join("; ")
}

/// The latest valuation in words; empty without any.
pub(super) fn value(record: &Record) -> String {
    record.valued().map_or_else(String::new, valuation_in_words)
}

/// `1 piece`, `7 pieces`.
pub(super) fn pieces(n: usize) -> String {
    if n == 1 { "1 piece".to_string() } else { format!("{n} pieces") }
}
