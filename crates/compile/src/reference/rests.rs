//! What a figure rests on: the basis and, when it is published, the source.

use super::Context;
use crate::cursor::Table;
use crate::fault::{Spot, meant, quote};
use crate::text::Limit;
use units::Basis;

/// The sources of the tables, in the order of their file.
#[derive(Debug, Default)]
pub(crate) struct Sources {
    pub(crate) list: Vec<pack::Source>,
}

/// Basis and source of a figure.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Rests {
    pub(crate) basis: Basis,
    pub(crate) source: Option<u16>,
}

/// `sources.toml`: key = text.
pub(crate) fn sources(top: &Table<'_>) -> Sources {
    let one = |(key, value): (String, crate::cursor::Value<'_>)| {
        value.text(Limit::SENTENCES).map(|text| pack::Source { key, text })
    };
    Sources { list: top.entries().into_iter().filter_map(one).collect() }
}

impl Context<'_> {
    /// Checks a basis and its source, and counts the figure.
    pub(crate) fn rests(&self, basis: &str, source: &str, at: &Spot, more: usize) -> Rests {
        let words = Basis::ALL.map(Basis::word);
        let Some(found) = Basis::from_word(basis) else {
            let hint = meant(basis, words.into_iter(), "Write one of");
            self.faults.add(&at.of("basis"), format!("{} is no basis.", quote(basis)), hint);
            return Rests { basis: Basis::Memory, source: None };
        };
        let mut counts = self.counts.get();
        counts[Basis::ALL.iter().position(|b| *b == found).unwrap_or(0)] += more;
        self.counts.set(counts);
        let known = self.sources.list.iter().position(|s| s.key == source);
        match (found, source.is_empty(), known) {
            (Basis::Invented, ..) => {
                let hint = "These tables hold facts: leave the row out.";
                self.faults.add(&at.of("basis"), "Nothing here may be invented.", hint);
            }
            (Basis::Published, true, _) => {
                let hint = "Name a key of sources.toml, or say \"memory\" or \"practice\".";
                self.faults.add(&at.of("source"), "What is published has a source.", hint);
            }
            (Basis::Practice | Basis::Memory, false, _) => {
                let hint = "Leave the source out, or say \"published\".";
                self.faults.add(&at.of("source"), "Only what is published has a source.", hint);
            }
            (_, false, None) => {
                let keys = self.sources.list.iter().map(|s| s.key.as_str());
                let hint = self.faults.meant(source, keys, "Sources");
                let says = format!("sources.toml has no source {}.", quote(source));
                self.faults.add_unknown(&at.of("source"), says, hint);
            }
            _ => {}
        }
        Rests { basis: found, source: known.and_then(|k| u16::try_from(k).ok()) }
    }

    /// The `basis` and `source` of a table.
    pub(crate) fn rests_of(&self, table: &Table<'_>) -> Rests {
        let basis = table.need_text("basis", Limit::NAME, "basis = \"published\"");
        let source = table.text("source", Limit::NAME).unwrap_or_default();
        if basis.is_empty() {
            return Rests { basis: Basis::Memory, source: None };
        }
        self.rests(&basis, &source, &table.spot(), 1)
    }
}
