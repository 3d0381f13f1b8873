//! Sums of valuations: currencies and bases are never added together.

use super::sheet::Sheet;
use crate::record::{Record, Valuation, Value, Worth};
use units::{Currency, Money, arranged, order};

/// A sum of one currency and one basis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Total {
    /// The currency.
    pub currency: Currency,
    /// What sort of figure.
    pub basis: Worth,
    /// How many pieces.
    pub pieces: usize,
    /// Sum of the lower ends, minor units.
    pub low: i64,
    /// Sum of the upper ends; of a single figure, that figure.
    pub high: i64,
}

/// The sums of the latest valuations, by currency, then by basis. A valuation without a basis or a figure is left out.
#[must_use]
pub fn totals(records: &[&Record]) -> Vec<Total> {
    let mut all: Vec<Total> = Vec::new();
    for valuation in records.iter().filter_map(|r| r.valued()) {
        let Some((low, high, basis)) = ends(valuation) else { continue };
        let at = all.iter().position(|t| (t.currency, t.basis) == (low.currency, basis));
        let at = at.unwrap_or_else(|| {
            all.push(Total { currency: low.currency, basis, pieces: 0, low: 0, high: 0 });
            all.len() - 1
        });
        let total = &mut all[at];
        total.pieces += 1;
        total.low = total.low.saturating_add(low.minor);
        total.high = total.high.saturating_add(high.minor);
    }
    let by = order(all.len(), &|a, b| (all[a].currency, all[a].basis).cmp(&(all[b].currency, all[b].basis)));
    arranged(all, &by)
}

/// Both ends of a valuation, when it has a basis and at least one end, both of one currency.
fn ends(v: &Valuation) -> Option<(Money, Money, Worth)> {
    let (low, high) = (v.low.or(v.high)?, v.high.or(v.low)?);
    (low.currency == high.currency).then_some((low, high, v.basis?))
}

impl Sheet {
    /// The table of the totals, and what the bases mean.
    pub(super) fn sums(&mut self, totals: &[Total]) {
        let money = |minor, currency| Money { minor, currency }.shown();
        let row = |t: &Total| {
            let pieces = t.pieces.to_string();
            vec![t.basis.word().to_string(), pieces, money(t.low, t.currency), money(t.high, t.currency)]
        };
        self.table(&["basis", "pieces", "from", "to"], totals.iter().map(row).collect());
        if totals.len() > 1 {
            self.says("Different currencies, and figures of different sorts, are not added together.");
        }
        for basis in Worth::ALL.iter().filter(|b| totals.iter().any(|t| t.basis == **b)) {
            self.says(format!("\u{201c}{}\u{201d} is {}.", basis.word(), basis.meaning()));
        }
    }
}
