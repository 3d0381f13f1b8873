//! Lengths and masses in finer steps than the rest of the house needs: calipers read hundredths of a millimetre, a
//! letter scale for jewellery hundredths of a gram.

use units::{Length, Mass};

/// A length in hundredths of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct FineLength(pub u32);

/// A mass in hundredths of a gram.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct FineMass(pub u32);

impl FineLength {
    /// The longest that is reckoned with: 2 m, as for any length.
    pub const LONGEST: FineLength = FineLength(Length::LONGEST.0 * 10);

    /// Millimetres, for arithmetic only.
    #[must_use]
    pub fn mm(self) -> f64 {
        f64::from(self.0) / 100.0
    }
}

impl FineMass {
    /// The heaviest that is reckoned with: 20 kg, as for any mass.
    pub const HEAVIEST: FineMass = FineMass(Mass::HEAVIEST.0 * 10);

    /// Grams, for arithmetic only.
    #[must_use]
    pub fn grams(self) -> f64 {
        f64::from(self.0) / 100.0
    }
}

impl From<Length> for FineLength {
    fn from(length: Length) -> FineLength {
        FineLength(length.0.saturating_mul(10))
    }
}

impl From<Mass> for FineMass {
    fn from(mass: Mass) -> FineMass {
        FineMass(mass.0.saturating_mul(10))
    }
}
