//! A size as it was measured: a number with its unit. It is converted only to be compared.

use super::value::{Value, choice, short};
use units::{Length, Mass, decimal, scaled};

choice! {
    /// The unit of a measurement.
    Unit {
        /// Millimetre.
        Mm = "mm",
        /// Centimetre.
        Cm = "cm",
        /// Inch of 25.4 mm.
        Inch = "in",
        /// Foot of 304.8 mm.
        Foot = "ft",
        /// Gram.
        Gram = "g",
        /// Kilogram.
        Kilogram = "kg",
        /// Grain of 64.79891 mg.
        Grain = "gr",
        /// Ounce avoirdupois of 28.349523125 g.
        Ounce = "oz",
        /// Pound avoirdupois of 453.59237 g.
        Pound = "lb",
    }
}

impl Unit {
    /// The code of the Unified Code for Units of Measure (UCUM 2.2).
    #[must_use]
    pub fn ucum(self) -> &'static str {
        ["mm", "cm", "[in_i]", "[ft_i]", "g", "kg", "[gr]", "[oz_av]", "[lb_av]"][self as usize]
    }

    /// Whether it measures a weight.
    #[must_use]
    pub fn weighs(self) -> bool {
        self >= Unit::Gram
    }

    /// Thousandths of a micrometre or of a milligram in one unit: exact (UCUM 2.2; the international yard and pound).
    fn exact(self) -> i128 {
        match self {
            Unit::Mm => 1_000_000,
            Unit::Cm => 10_000_000,
            Unit::Inch => 25_400_000,
            Unit::Foot => 304_800_000,
            Unit::Gram => 1_000_000_000,
            Unit::Kilogram => 1_000_000_000_000,
            Unit::Grain => 64_798_910,
            Unit::Ounce => 28_349_523_125,
            Unit::Pound => 453_592_370_000,
        }
    }
}

/// A size: millionths of its unit, so that a sixty-fourth of an inch is exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    /// Millionths of the unit.
    pub millionths: i64,
    /// The unit.
    pub unit: Unit,
}

impl Size {
    /// As a length in tenths of a millimetre, rounded half up; nothing when it is a weight, below nothing or too long.
    #[must_use]
    pub fn length(self) -> Option<Length> {
        // A tenth of a millimetre is 100,000 thousandths of a micrometre.
        (!self.unit.weighs()).then(|| self.whole(100_000).map(Length))?
    }

    /// As a mass in tenths of a gram, rounded half up; nothing when it is a length, below nothing or too heavy.
    #[must_use]
    pub fn mass(self) -> Option<Mass> {
        self.unit.weighs().then(|| self.whole(100_000_000).map(Mass))?
    }

    fn whole(self, step: i128) -> Option<u32> {
        let exact = i128::from(self.millionths) * self.unit.exact();
        let step = step * 1_000_000;
        u32::try_from((2 * exact + step).div_euclid(2 * step)).ok()
    }

    /// A length of tenths of a millimetre.
    #[must_use]
    pub fn of_length(length: Length) -> Size {
        Size { millionths: i64::from(length.0) * 100_000, unit: Unit::Mm }
    }

    /// A mass of tenths of a gram.
    #[must_use]
    pub fn of_mass(mass: Mass) -> Size {
        Size { millionths: i64::from(mass.0) * 100_000, unit: Unit::Gram }
    }

    /// The number without its unit.
    #[must_use]
    pub fn number(self) -> String {
        decimal(self.millionths, 6, 0)
    }
}

impl Value for Size {
    fn shown(&self) -> String {
        format!("{} {}", self.number(), self.unit.word())
    }

    fn read(text: &str) -> Result<Size, String> {
        let unclear =
            || format!("\u{201c}{}\u{201d} is no size with its unit. Write 64.5 mm or 212 g.", short(text));
        let (number, unit) = text.rsplit_once(' ').ok_or_else(unclear)?;
        Ok(Size { unit: Unit::read(unit)?, millionths: scaled(number, 6)? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn conversions() {
        // Published: the exact factors of UCUM 2.2. 3 in = 76.2 mm, 2 3/4 in = 69.85 mm, 7 oz = 198.447 g, 1 lb 2 oz =
        // 510.291 g are computed from them; here in tenths, rounded half up.
        let size = |text: &str| Size::read(text).ok();
        for (text, tenths) in
            [("3 in", 762), ("2.75 in", 699), ("64.5 mm", 645), ("6.45 cm", 645), ("1 ft", 3048)]
        {
            assert_eq!(size(text).and_then(Size::length), Some(Length(tenths)), "{text}");
        }
        for (text, tenths) in
            [("7 oz", 1984), ("18 oz", 5103), ("1.125 lb", 5103), ("0.212 kg", 2120), ("1000 gr", 648)]
        {
            assert_eq!(size(text).and_then(Size::mass), Some(Mass(tenths)), "{text}");
        }
        assert_eq!(size("64.5 mm").and_then(Size::mass), None);
        assert_eq!(size("-1 mm").and_then(Size::length), None);
        assert_eq!(size("0.015625 in").map(|s| s.shown()), Some("0.015625 in".to_string()));
        for wrong in ["", "64", "64 miles", "mm", "x mm", "1.2345678 mm"] {
            assert!(Size::read(wrong).is_err(), "{wrong} was taken");
        }
    }

    proptest! {
        #[test]
        fn comes_back(millionths in -9_000_000_000_000_i64..9_000_000_000_000, unit in 0..9_usize) {
            let size = Size { millionths, unit: Unit::ALL[unit] };
            prop_assert_eq!(Size::read(&size.shown()), Ok(size));
        }

        #[test]
        fn any_number_converts(millionths in i64::MIN..i64::MAX, unit in 0..9_usize) {
            let size = Size { millionths, unit: Unit::ALL[unit] };
            let _ = (size.length(), size.mass());
        }
    }
}
