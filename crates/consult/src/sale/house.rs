//! The conditions of a sale room and what its bidder keeps back, kept on the device:
//! `premium=175;tax=8875;on=whole;shipping=1200;margin=200;currency=USD`.

use appraise::{TaxOn, Terms};
use units::Currency;

/// The longest such text that is read.
const LONGEST: usize = 200;
/// Carriage above this is a slip, minor units.
pub(crate) const MOST_SHIPPING: i64 = 100_000_000;

/// What is kept back for what cannot be seen, per mille; a user chooses. Basis: practice.
pub(super) const MARGINS: [u16; 3] = [0, 200, 400];
/// What tax may be reckoned on, in the order of the keys.
pub(crate) const BASES: [TaxOn; 4] = [TaxOn::Whole, TaxOn::Hammer, TaxOn::Premium, TaxOn::Nothing];

/// The terms of a room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct House {
    pub(crate) terms: Terms,
    /// Kept back, per mille.
    pub(crate) margin: u16,
    /// None until it is said: then that of the guide's figures.
    pub(crate) currency: Option<Currency>,
}

impl Default for House {
    fn default() -> House {
        let terms = Terms { premium: 0, tax: 0, on: TaxOn::Whole, shipping: 0 };
        House { terms, margin: MARGINS[1], currency: None }
    }
}

pub(crate) fn on_key(on: TaxOn) -> &'static str {
    match on {
        TaxOn::Whole => "hammer and premium",
        TaxOn::Hammer => "hammer alone",
        TaxOn::Premium => "premium alone",
        TaxOn::Nothing => "nothing",
    }
}

fn word(on: TaxOn) -> &'static str {
    match on {
        TaxOn::Whole => "whole",
        TaxOn::Hammer => "hammer",
        TaxOn::Premium => "premium",
        TaxOn::Nothing => "nothing",
    }
}

impl House {
    /// As it is kept.
    pub(crate) fn text(&self) -> String {
        let Terms { premium, tax, on, shipping } = self.terms;
        let currency = self.currency.as_ref().map_or("", |c| c.code());
        let on = word(on);
        let margin = self.margin;
        format!("premium={premium};tax={tax};on={on};shipping={shipping};margin={margin};currency={currency}")
    }

    /// Reads it; an empty text is a fresh start.
    ///
    /// # Errors
    /// A sentence for the user.
    pub(crate) fn read(text: &str) -> Result<House, String> {
        let mut house = House::default();
        if text.is_empty() {
            return Ok(house);
        }
        let damaged =
            |what: &str| format!("The terms kept on this device are damaged ({what}); they begin anew.");
        if text.len() > LONGEST {
            return Err(damaged("too long"));
        }
        let mut seen: Vec<&str> = Vec::new();
        for pair in text.split(';') {
            let (name, value) = pair.split_once('=').ok_or_else(|| damaged("a part without a name"))?;
            let known = house.take(name, value).is_some() && !seen.contains(&name);
            if !known {
                return Err(damaged("a part that cannot be"));
            }
            seen.push(name);
        }
        if seen.len() == 6 { Ok(house) } else { Err(damaged("a part is missing")) }
    }

    fn take(&mut self, name: &str, value: &str) -> Option<()> {
        match name {
            "premium" => self.terms.premium = value.parse().ok().filter(|p| *p <= 1000)?,
            "tax" => self.terms.tax = value.parse().ok().filter(|t| *t <= 100_000)?,
            "on" => self.terms.on = BASES.into_iter().find(|b| word(*b) == value)?,
            "shipping" => {
                self.terms.shipping = value.parse().ok().filter(|s| (0..=MOST_SHIPPING).contains(s))?;
            }
            "margin" => self.margin = value.parse().ok().filter(|m| MARGINS.contains(m))?,
            "currency" if value.is_empty() => self.currency = None,
            "currency" => self.currency = Some(Currency::new(value)?),
            _ => return None,
        }
        Some(())
    }
}
