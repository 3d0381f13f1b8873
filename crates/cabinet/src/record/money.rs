//! Money of a record: minor units and a currency, with as many places as the currency has.

use super::value::{Value, short};
use units::{Currency, Money, decimal, scaled};

/// How many places an amount has behind the point (ISO 4217, list of 2026: column "minor unit"; what is not named
/// here has two).
#[must_use]
pub fn places(currency: Currency) -> u32 {
    const NONE: &str = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF";
    const THREE: &str = "BHD IQD JOD KWD LYD OMR TND";
    const FOUR: &str = "CLF UYW";
    let among = |list: &str| list.split(' ').any(|code| code == currency.code());
    match () {
        () if among(NONE) => 0,
        () if among(THREE) => 3,
        () if among(FOUR) => 4,
        () => 2,
    }
}

/// The number alone: `20.00`.
#[must_use]
pub fn number(money: Money) -> String {
    let places = places(money.currency);
    decimal(money.minor, places, places)
}

impl Value for Money {
    fn shown(&self) -> String {
        format!("{} {}", number(*self), self.currency.code())
    }

    fn read(text: &str) -> Result<Money, String> {
        let unclear =
            || format!("\u{201c}{}\u{201d} is no amount with its currency. Write 20.00 USD.", short(text));
        let (amount, code) = text.trim().rsplit_once(' ').ok_or_else(unclear)?;
        let currency = Currency::new(&code.to_ascii_uppercase()).ok_or_else(unclear)?;
        Ok(Money { minor: scaled(amount, places(currency))?, currency })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn amounts() {
        // Minor units by ISO 4217 (published list): USD, GBP, EUR, HUF two, JPY none, KWD three.
        for (text, minor) in
            [("20.00 USD", 2000), ("5 GBP", 500), ("1500 JPY", 1500), ("1.250 KWD", 1250), ("0.01 HUF", 1)]
        {
            assert_eq!(Money::read(text).map(|m| m.minor), Ok(minor), "{text}");
        }
        assert_eq!(Money::read("20 usd").map(|m| m.shown()), Ok("20.00 USD".to_string()));
        for wrong in ["20", "20 dollars", "USD 20", "1.5 JPY", "20.001 USD", "1.234 USD", ""] {
            assert!(Money::read(wrong).is_err(), "{wrong} was taken");
        }
    }

    proptest! {
        #[test]
        fn comes_back(minor in -9_999_999_999_i64..9_999_999_999, code in "USD|EUR|JPY|KWD|CLF") {
            let money = Currency::new(&code).map(|currency| Money { minor, currency });
            prop_assert_eq!(money.map(|m| Money::read(&m.shown())), money.map(Ok));
        }
    }
}
