//! Lengths in tenths of a millimetre.

use crate::typed::{self, Misread};
use alloc::format;
use alloc::string::{String, ToString};

/// A length in tenths of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Length(pub u32);

/// The unit a person typed a length in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LengthUnit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Inches of 25.4 mm exactly (international inch, 1959).
    Inch,
}

impl Length {
    /// The longest length that can be typed: 2 m.
    pub const LONGEST: Length = Length(20_000);

    /// Reads a typed length such as `64`, `64.5`, `2 5/8`.
    ///
    /// # Errors
    /// A sentence when it is no number, zero, or longer than [`Length::LONGEST`].
    pub fn typed(text: &str, unit: LengthUnit) -> Result<Length, Misread> {
        let number = typed::fraction(text)?;
        let tenths = match unit {
            LengthUnit::Millimetre => typed::scaled(number, 10),
            LengthUnit::Inch => typed::scaled(number, 254),
        };
        match u32::try_from(tenths) {
            Ok(0) => Err(Misread("A length of nothing cannot be right.".to_string())),
            Ok(t) if t <= Self::LONGEST.0 => Ok(Length(t)),
            _ => Err(Misread(format!("{} is too long for anything here. Check the unit.", text.trim()))),
        }
    }

    /// `64.5 mm`, `64 mm`.
    #[must_use]
    pub fn in_mm(self) -> String {
        match self.0 % 10 {
            0 => format!("{} mm", self.0 / 10),
            t => format!("{}.{} mm", self.0 / 10, t),
        }
    }

    /// To the nearest sixteenth of an inch: `2 5/8 in`.
    #[must_use]
    pub fn in_inches(self) -> String {
        let sixteenths = (u64::from(self.0) * 16 * 2 + 254) / (2 * 254);
        let (whole, mut top, mut bottom) = (sixteenths / 16, sixteenths % 16, 16);
        while top != 0 && top % 2 == 0 {
            top /= 2;
            bottom /= 2;
        }
        match (whole, top) {
            (w, 0) => format!("{w} in"),
            (0, t) => format!("{t}/{bottom} in"),
            (w, t) => format!("{w} {t}/{bottom} in"),
        }
    }

    /// Millimetres as a float, for arithmetic only.
    #[must_use]
    pub fn mm(self) -> f64 {
        f64::from(self.0) / 10.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn typed_lengths() {
        // 25.4 mm to the inch: published, international yard and pound agreement 1959. The rest is arithmetic.
        for (text, unit, tenths) in [
            ("64", LengthUnit::Millimetre, 640),
            (" 64.55 ", LengthUnit::Millimetre, 646),
            ("64,5", LengthUnit::Millimetre, 645),
            ("2 5/8", LengthUnit::Inch, 667),
            ("2-5/8", LengthUnit::Inch, 667),
            ("2\u{215d}", LengthUnit::Inch, 667),
            ("5/8", LengthUnit::Inch, 159),
            ("4", LengthUnit::Inch, 1016),
            (".5", LengthUnit::Inch, 127),
        ] {
            assert_eq!(Length::typed(text, unit), Ok(Length(tenths)), "{text}");
        }
        for text in [
            "",
            "iron",
            "0",
            "1/0",
            "2 5",
            "2 5/8 3",
            "-",
            "99999999999",
            "1e3",
            "64.5.5",
            "1.9999999999999999999",
        ] {
            assert!(Length::typed(text, LengthUnit::Millimetre).is_err(), "{text} was taken");
        }
    }

    #[test]
    fn shown_lengths() {
        assert_eq!(Length(640).in_mm(), "64 mm");
        assert_eq!(Length(645).in_mm(), "64.5 mm");
        assert_eq!(Length(667).in_inches(), "2 5/8 in");
        assert_eq!(Length(1016).in_inches(), "4 in");
        assert_eq!(Length(16).in_inches(), "1/16 in");
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in "\\PC{0,40}") {
            let _ = Length::typed(&text, LengthUnit::Inch);
        }

        #[test]
        fn whole_tenths_come_back(t in 1_u32..=20_000) {
            let shown = Length(t).in_mm();
            let text = shown.trim_end_matches(" mm");
            prop_assert_eq!(Length::typed(text, LengthUnit::Millimetre), Ok(Length(t)));
        }
    }
}
