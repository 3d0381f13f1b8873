//! The density of water, and of the air that things are weighed in.

use crate::fine::hundredths;
use crate::instrument::{combined, of_half_width};
use units::Misread;

/// Tenths of a degree Celsius.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Celsius(pub i16);

impl Celsius {
    /// The water for which the formula holds: 0 to 40 degrees.
    pub const RANGE: core::ops::RangeInclusive<i16> = 0..=400;

    /// Reads typed degrees such as `21` or `18,5`.
    ///
    /// # Errors
    /// A sentence when it is no number, or outside [`Celsius::RANGE`].
    pub fn typed(text: &str) -> Result<Celsius, Misread> {
        let tenths = i16::try_from((hundredths(text, "\u{b0}C")? + 5) / 10).ok();
        let inside = tenths.filter(|t| Self::RANGE.contains(t)).map(Celsius);
        inside.ok_or_else(|| Misread("Water here has 0 to 40 \u{b0}C.".to_string()))
    }
}

/// Density of the air in kg/m3 and its half width: 1.2 within a tenth, the conventional air of OIML D 28 and R 111.
/// It moves a density of 7200 kg/m3 by 7.
pub const AIR: (f64, f64) = (1.2, 0.12);

/// Density of pure water without air at 101 325 Pa in kg/m3, at `t` degrees Celsius from 0 to 40: Tanaka, Girard, Davis,
/// Peuto and Bignell, Metrologia 38 (2001) 301, equation 1.
#[must_use]
pub fn water(t: f64) -> f64 {
    let from_densest = t - 3.983_035;
    999.974_950 * (1.0 - from_densest * from_densest * (t + 301.797) / (522_528.9 * (t + 69.348_81)))
}

/// Density of the water in a bowl and its standard uncertainty, kg/m3. A thermometer counts as right within one degree;
/// water of a room that nobody measured has anything from 15 to 25. What is dissolved in tap water may add or take 0.5.
/// Both are practice.
pub(crate) fn in_a_bowl(at: Option<Celsius>) -> (f64, f64) {
    let (t, half_width) = at.map_or((20.0, 5.0), |at| (f64::from(at.0) / 10.0, 1.0));
    let slope = (water(t + 0.5) - water(t - 0.5)).abs();
    (water(t), combined(&[of_half_width(slope * half_width), of_half_width(0.5)]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published_densities() {
        // The table of the formula's own paper for 20 degrees, as other programs reproduce it.
        assert!((water(20.0) - 998.206_745_6).abs() < 1e-6);
        // An older table (CRC Handbook of Chemistry and Physics): a few thousandths apart, since its water holds air.
        for (t, density) in [
            (4.0, 999.972),
            (10.0, 999.702_6),
            (15.0, 999.102_6),
            (20.0, 998.207_1),
            (22.0, 997.773_5),
            (25.0, 997.047_9),
            (30.0, 995.650_2),
        ] {
            assert!((water(t) - density).abs() < 0.005, "{t}: {}", water(t));
        }
    }

    #[test]
    fn typed_degrees() {
        for (text, tenths) in [("21", 210), ("18,5 \u{b0}C", 185), ("0", 0), ("40", 400)] {
            assert_eq!(Celsius::typed(text), Ok(Celsius(tenths)), "{text}");
        }
        for text in ["", "-1", "40.1", "68 F", "999999", "warm"] {
            assert!(Celsius::typed(text).is_err(), "{text} was taken");
        }
    }

    #[test]
    fn unmeasured_water_is_less_certain() {
        let (measured, guessed) = (in_a_bowl(Some(Celsius(200))), in_a_bowl(None));
        assert!((measured.0 - guessed.0).abs() < 1e-9 && guessed.1 > measured.1);
        // From 15 to 25 degrees the table above falls by 2.05: half of it over root 3 is 0.59, with 0.29 for tap water 0.66.
        assert!((guessed.1 - 0.66).abs() < 0.02, "{}", guessed.1);
    }
}
