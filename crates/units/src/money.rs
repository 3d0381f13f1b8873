//! Money in minor units with its currency. Never a float.

use alloc::format;
use alloc::string::String;

/// An ISO 4217 code, three capital letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Currency([u8; 3]);

impl Currency {
    /// The code, when it is three capital letters.
    #[must_use]
    pub fn new(code: &str) -> Option<Currency> {
        let bytes: [u8; 3] = code.as_bytes().try_into().ok()?;
        bytes.iter().all(u8::is_ascii_uppercase).then_some(Currency(bytes))
    }

    /// `USD`.
    #[must_use]
    pub fn code(&self) -> &str {
        core::str::from_utf8(&self.0).unwrap_or("???")
    }

    /// Whether the bytes are a code (they may have come from outside).
    #[must_use]
    pub fn is_sound(self) -> bool {
        self.0.iter().all(u8::is_ascii_uppercase)
    }
}

/// An amount in minor units (cents) of a currency with two decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Money {
    /// Minor units.
    pub minor: i64,
    /// The currency.
    pub currency: Currency,
}

impl Money {
    /// Whole units with the code behind, rounded half up: `35 USD`. The page prints it the reader's way.
    #[must_use]
    pub fn in_whole_units(self) -> String {
        format!("{} {}", (self.minor + 50).div_euclid(100), self.currency.code())
    }
}
