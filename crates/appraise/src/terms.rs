//! What a bid really costs, and the highest bid that keeps a limit. Whole minor units throughout, rounded as an invoice
//! rounds: the premium half up to the minor unit, then the tax half up.

use crate::round::part;

/// Amounts above this are taken for this: ten thousand million units of a currency.
const MOST: i64 = 1_000_000_000_000;

/// What the tax is reckoned on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TaxOn {
    /// Hammer price and premium.
    Whole,
    /// The hammer price alone.
    Hammer,
    /// The premium alone.
    Premium,
    /// Nothing.
    Nothing,
}

/// The conditions of a sale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Terms {
    /// The house's premium on the hammer price, per mille.
    pub premium: u16,
    /// The rate of the tax, in thousandths of a per cent: 8875 is 8.875 %.
    pub tax: u32,
    /// What it is reckoned on. Carriage is never taxed here.
    pub on: TaxOn,
    /// Carriage and packing, minor units; below nothing counts as nothing.
    pub shipping: i64,
}

/// A bid, line by line, in minor units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cost {
    /// The bid.
    pub hammer: i64,
    /// The premium on it.
    pub premium: i64,
    /// What the tax is reckoned on.
    pub taxed: i64,
    /// The tax.
    pub tax: i64,
    /// Carriage.
    pub shipping: i64,
    /// All of it.
    pub total: i64,
}

impl Terms {
    /// What a hammer price costs in the end.
    #[must_use]
    pub fn cost(&self, hammer: i64) -> Cost {
        let (hammer, shipping) = (hammer.clamp(0, MOST), self.shipping.clamp(0, MOST));
        let premium = part(hammer, u64::from(self.premium), 1000);
        let taxed = match self.on {
            TaxOn::Whole => hammer + premium,
            TaxOn::Hammer => hammer,
            TaxOn::Premium => premium,
            TaxOn::Nothing => 0,
        };
        let tax = part(taxed, u64::from(self.tax), 100_000);
        Cost { hammer, premium, taxed, tax, shipping, total: hammer + premium + tax + shipping }
    }

    /// The highest hammer price that costs no more than the limit: a minor unit more would. It is what (limit - shipping) /
    /// ((1 + premium) (1 + tax)) comes to in whole minor units. None when not even the smallest bid is left.
    #[must_use]
    pub fn most(&self, limit: i64) -> Option<i64> {
        let limit = limit.min(MOST);
        // A greater bid never costs less, so halving finds the last that fits.
        let (mut fits, mut over) = (0, limit.max(0) + 1);
        while over - fits > 1 {
            let middle = fits + (over - fits) / 2;
            if self.cost(middle).total <= limit { fits = middle } else { over = middle }
        }
        (fits > 0).then_some(fits)
    }
}
