//! Masses in tenths of a gram.

use crate::typed::{self, Misread};
use alloc::format;
use alloc::string::{String, ToString};

/// A mass in tenths of a gram.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Mass(pub u32);

impl Mass {
    /// The heaviest mass that can be typed: 20 kg.
    pub const HEAVIEST: Mass = Mass(200_000);

    /// Reads typed grams such as `120` or `48.5`.
    ///
    /// # Errors
    /// A sentence when it is no number, zero, or heavier than [`Mass::HEAVIEST`].
    pub fn typed(text: &str) -> Result<Mass, Misread> {
        match u32::try_from(typed::scaled(typed::fraction(text)?, 10)) {
            Ok(0) => Err(Misread("A weight of nothing cannot be right.".to_string())),
            Ok(t) if t <= Self::HEAVIEST.0 => Ok(Mass(t)),
            _ => Err(Misread(format!("{} g is too heavy for anything here. Check the unit.", text.trim()))),
        }
    }

    /// `48.5 g`, `120 g`.
    #[must_use]
    pub fn in_grams(self) -> String {
        match self.0 % 10 {
            0 => format!("{} g", self.0 / 10),
            t => format!("{}.{} g", self.0 / 10, t),
        }
    }

    /// Grams as a float, for arithmetic only.
    #[must_use]
    pub fn grams(self) -> f64 {
        f64::from(self.0) / 10.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_masses() {
        assert_eq!(Mass::typed("48.5"), Ok(Mass(485)));
        assert_eq!(Mass(485).in_grams(), "48.5 g");
        assert_eq!(Mass(1200).in_grams(), "120 g");
        assert!(Mass::typed("0").is_err());
        assert!(Mass::typed("30000").is_err());
    }
}
