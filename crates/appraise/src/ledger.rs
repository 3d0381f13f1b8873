//! Sales of a ledger as prices to compare with.

use crate::sale::{Comparable, Of};
use pack::prices::{Ledger, Prices};

/// What a ledger holds for a pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// Its sales, in its order.
    pub sales: Vec<Comparable>,
    /// How many were left out: the pack has no such kind or make, or the tables no such condition.
    pub left_out: usize,
}

/// The caller's numbers of a kind and a make, by their ids.
pub type Find<'a> = dyn Fn(&str, &str) -> Option<(u16, u16)> + 'a;

/// The sales of a ledger.
#[must_use]
pub fn comparables(ledger: &Ledger, prices: &Prices, find: &Find<'_>) -> Found {
    let of: Vec<Option<Of>> = ledger
        .of
        .iter()
        .map(|o| find(&o.kind, &o.make).map(|(kind, make)| Of { kind, make, family: o.family }))
        .collect();
    let place = |id: &String| prices.conditions.iter().position(|c| c.id == *id);
    let conditions: Vec<Option<u16>> =
        ledger.conditions.iter().map(|id| place(id).and_then(|at| u16::try_from(at).ok())).collect();
    let sales: Vec<Comparable> = ledger
        .sales
        .iter()
        .filter_map(|s| {
            let held = s.condition.iter().map(|c| conditions.get(usize::from(*c)).copied().flatten());
            Some(Comparable {
                date: s.date,
                price: s.price,
                premium: s.premium,
                sort: s.sort,
                of: of.get(usize::from(s.of)).copied().flatten()?,
                condition: held.collect::<Option<Vec<u16>>>()?,
                likeness: s.likeness,
                basis: s.basis,
            })
        })
        .collect();
    Found { left_out: ledger.sales.len() - sales.len(), sales }
}
