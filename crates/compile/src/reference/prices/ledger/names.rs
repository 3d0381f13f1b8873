//! What the rows of a ledger may name: kinds and makes of a pack, conditions of the tables.

use crate::fault::{Faults, Spot, quote};
use crate::files::Files;
use crate::model::Model;
use pack::prices::Prices;

/// The pack and the tables that a ledger goes with.
pub(super) struct Names<'a> {
    model: Model,
    pub(super) prices: &'a Prices,
}

impl<'a> Names<'a> {
    /// Reads the pack. Its own faults are told when it is compiled; here only that it has some.
    pub(super) fn of(pack: &Files, prices: &'a Prices, faults: &Faults) -> Names<'a> {
        let own = Faults::default();
        let sound = pack.within_limits(&own);
        let (model, unparsed) = crate::read::read(pack, &own);
        if !sound || !unparsed.is_empty() || !own.is_clean() {
            let hint = "Check the pack first.";
            faults.add(&Spot::file("ledger.toml"), "The pack that it goes with has faults of its own.", hint);
        }
        Names { model, prices }
    }

    /// Whether the ledger names this pack.
    pub(super) fn fits(&self, id: &str, at: &Spot, faults: &Faults) {
        let own = &self.model.manifest.head.id;
        if !id.is_empty() && id != own {
            let says = format!("The ledger goes with {}, but this pack is {}.", quote(id), quote(own));
            faults.add(at, says, "Name the pack whose kinds the rows are of.");
        }
    }

    /// The family of a kind as a number; a kind without one is its own.
    pub(super) fn family(&self, kind: &str) -> Option<u16> {
        let at = self.model.kinds.iter().position(|k| k.id == kind)?;
        let alone = self.model.families.len() + at;
        u16::try_from(self.model.kinds[at].family.unwrap_or(alone)).ok()
    }

    /// The ids of kinds.
    pub(super) fn kinds(&self) -> impl Iterator<Item = &str> + Clone {
        self.model.kinds.iter().map(|k| k.id.as_str())
    }

    /// The ids of makes.
    pub(super) fn makes(&self) -> impl Iterator<Item = &str> + Clone {
        self.model.manifest.makes.iter().map(|m| m.id.as_str())
    }
}
