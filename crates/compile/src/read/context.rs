//! What all readers know, and what they all read: what a figure rests on, and drawings.

use crate::art::drawing;
use crate::cursor::Table;
use crate::fault::{Faults, meant, quote};
use crate::model::Rests;
use crate::text::Limit;
use std::cell::Cell;
use units::Basis;

/// What all readers know.
pub(super) struct Context<'a> {
    pub(super) faults: &'a Faults,
    pub(super) sources: &'a [pack::Source],
    /// The figures that drawings may use; none when the caller did not hand them over.
    pub(super) art: Option<sketch::Art>,
    pub(super) counts: Cell<[usize; 4]>,
}

impl Context<'_> {
    /// What to draw, with the art that the caller handed over.
    pub(super) fn drawing(&self, table: &Table<'_>) -> String {
        drawing(table, self.art.as_ref())
    }

    /// Counts a figure by what it rests on.
    pub(super) fn count(&self, rests: Rests) {
        let mut counts = self.counts.get();
        counts[rests.basis as usize] += 1;
        self.counts.set(counts);
    }

    /// What a table's figures rest on: its own `basis` and `source`, else what is above it.
    pub(super) fn rests(&self, table: &Table<'_>, above: Rests) -> Rests {
        self.rests_named(table, "basis", "source", above)
    }

    /// The same under other names of the fields.
    pub(super) fn rests_named(&self, table: &Table<'_>, basis: &str, source: &str, above: Rests) -> Rests {
        let own = table.get(basis).and_then(|v| {
            let word = v.text(Limit::NAME)?;
            let found = Basis::from_word(&word);
            if found.is_none() {
                let hint = meant(&word, Basis::ALL.into_iter().map(Basis::word), "Write one of");
                v.fault(format!("{} is not a basis.", quote(&word)), hint);
            }
            found
        });
        let named = table.get(source).and_then(|v| {
            let key = v.text(Limit::NAME)?;
            let at = self.sources.iter().position(|s| s.key == key);
            if at.is_none() {
                let hint = self.faults.meant(&key, self.sources.iter().map(|s| s.key.as_str()), "Sources");
                v.unknown(format!("sources.toml has no source {}.", quote(&key)), hint);
            }
            Some(at.and_then(|i| u16::try_from(i).ok()))
        });
        let settled = own.unwrap_or(above.basis);
        match (settled, named) {
            (Basis::Published, None) if own.is_some() && above.source.is_none() => {
                let hint =
                    format!("Add {source} = with a key of sources.toml, or say \"memory\" or \"practice\".");
                self.faults.add(&table.spot_of(basis), "A published figure must name its source.", hint);
            }
            (Basis::Published, None) => {
                return Rests { basis: settled, ..above };
            }
            (Basis::Published, Some(source)) => {
                return Rests { basis: settled, source };
            }
            (_, Some(_)) => {
                let says = format!("A source is named, but the basis is \"{}\".", settled.word());
                self.faults.add(&table.spot_of(source), says, format!("Add {basis} = \"published\"."));
            }
            (_, None) => {}
        }
        Rests { basis: settled, source: None }
    }
}
