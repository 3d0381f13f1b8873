//! Instruments and what their readings are worth.

/// What a size or weight was read from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instrument {
    /// A ruler or tape with millimetres or sixteenths.
    Ruler,
    /// Calipers reading a tenth of a millimetre.
    Calipers,
    /// Judged from a picture or by hand's breadth.
    ByEye,
    /// Kitchen or letter scales reading one gram.
    Scales,
    /// A photograph beside a card or coin: what this one is worth, as a standard uncertainty in tenths of a millimetre.
    Photo(u16),
}

impl Instrument {
    /// All of them whose readings are always worth the same.
    pub const ALL: [Instrument; 4] =
        [Instrument::Ruler, Instrument::Calipers, Instrument::ByEye, Instrument::Scales];

    /// Standard uncertainty of a reading, in the reading's unit (mm or g), above zero.
    ///
    /// Reading and placing count as rectangular (GUM 4.3.7), a digital step as 0.29 d (GUM F.2.2.1). The half
    /// widths are common practice, no source: ruler 0.5 mm to read and 0.5 mm to place at a rounded toe;
    /// calipers 0.1 mm to place; by eye a tenth of the length; scales one step of 1 g.
    #[must_use]
    pub fn uncertainty(self, reading: f64) -> f64 {
        match self {
            Instrument::Ruler => combined(&[of_half_width(0.5), of_half_width(0.5)]),
            Instrument::Calipers => combined(&[of_step(0.1), of_half_width(0.1)]),
            Instrument::ByEye => of_half_width(0.1 * reading),
            Instrument::Scales => combined(&[of_step(1.0), of_half_width(0.01 * reading)]),
            Instrument::Photo(tenths) => f64::from(tenths.max(1)) / 10.0,
        }
    }
}

/// a / sqrt 3 for a quantity that lies somewhere within +-a (GUM 4.3.7).
#[must_use]
pub fn of_half_width(a: f64) -> f64 {
    a / 3.0_f64.sqrt()
}

/// 0.29 d for a digital reading with step d (GUM F.2.2.1).
#[must_use]
pub fn of_step(d: f64) -> f64 {
    0.29 * d
}

/// Root of the sum of squares (GUM 5.1.2).
#[must_use]
pub fn combined(parts: &[f64]) -> f64 {
    parts.iter().map(|u| u * u).sum::<f64>().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn worked_values() {
        // GUM 4.3.7: half width a gives a / sqrt 3; F.2.2.1: step 1 gives 0.29. Both published.
        assert!((of_half_width(1.0) - 0.577_350).abs() < 1e-6);
        assert!((of_step(1.0) - 0.29).abs() < 1e-12);
        assert!((Instrument::Ruler.uncertainty(64.0) - 0.408).abs() < 1e-3);
        assert!(Instrument::Calipers.uncertainty(64.0) < Instrument::Ruler.uncertainty(64.0));
    }

    #[test]
    fn parts_add_in_quadrature() {
        // 3-4-5: arithmetic. No part at all is no uncertainty.
        assert!((combined(&[3.0, 4.0]) - 5.0).abs() < 1e-12);
        assert!(combined(&[]).abs() < 1e-12);
        // Ruler: two half widths of 0.5 mm; calipers: a step and a half width of 0.1 mm; scales: a step of 1 g and one in a
        // hundred. Practice, as said at the function; the sums are worked out by hand from GUM 4.3.7, F.2.2.1 and 5.1.2.
        for (instrument, reading, u) in [
            (Instrument::Ruler, 64.0, 0.408_248),
            (Instrument::Calipers, 64.0, 0.064_609),
            (Instrument::ByEye, 64.0, 3.695_042),
            (Instrument::Scales, 120.0, 0.751_066),
        ] {
            assert!((instrument.uncertainty(reading) - u).abs() < 1e-6, "{instrument:?}");
        }
    }

    #[test]
    fn every_reading_has_an_uncertainty() {
        for instrument in Instrument::ALL {
            let mut last = 0.0;
            for tenths in 1..=200_000 {
                let u = instrument.uncertainty(f64::from(tenths) / 10.0);
                assert!(
                    u.is_finite() && u > 0.0 && u >= last,
                    "{instrument:?} at {tenths}: {u} after {last}"
                );
                last = u;
            }
        }
    }
}
