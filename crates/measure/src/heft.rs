//! Mass against the cube of the length: whether a piece weighs what a solid one of some metal would.

use crate::instrument::Instrument;
use pack::metals::{Metal, Metals};
use units::{Length, Mass};

/// How a piece weighs beside a solid one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heft {
    /// Less than a solid one of this metal: hollow, thin, part wood, or a lighter metal.
    Lighter,
    /// What a solid one would, within what shapes and readings leave open.
    AsExpected,
    /// More than a solid one: a heavier metal, or another build.
    Heavier,
}

/// Mass over the cube of the length of the sole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Hefted {
    /// Thousandths of a g/cm3, rounded.
    pub value: u32,
    /// Standard uncertainty in per mille of it, rounded up: the length counts three times.
    pub u: u32,
}

/// The heft of a piece; none without a length or a mass.
#[must_use]
pub fn heft(length: (Length, Instrument), mass: (Mass, Instrument)) -> Option<Hefted> {
    let (l, m) = (length.0.mm(), mass.0.grams());
    let sound = |n: u32, most: u32| n > 0 && n <= most;
    if !sound(length.0.0, Length::LONGEST.0) || !sound(mass.0.0, Mass::HEAVIEST.0) {
        return None;
    }
    let cm = l / 10.0;
    let value = m / (cm * cm * cm);
    let parts = [mass.1.uncertainty(m) / m, 3.0 * length.1.uncertainty(l) / l];
    let u = crate::combined(&parts);
    // What is rounded to nothing would have no logarithm. The heaviest over the shortest still fits.
    let value = libm::round(value * 1000.0).clamp(1.0, 4e9) as u32;
    Some(Hefted { value, u: libm::ceil(u * 1000.0).clamp(1.0, 1e6) as u32 })
}

impl Hefted {
    /// Against a solid piece of this metal; within twice the uncertainty it is as expected.
    #[must_use]
    pub fn beside(self, metals: &Metals, metal: &Metal) -> Heft {
        let (low, high) = range(metals, metal);
        let (value, leeway) = (f64::from(self.value), libm::exp(2.0 * f64::from(self.u) / 1000.0));
        match value {
            v if v * leeway < low => Heft::Lighter,
            v if v > high * leeway => Heft::Heavier,
            _ => Heft::AsExpected,
        }
    }

    /// Natural logarithm and its standard uncertainty.
    pub(crate) fn log(self) -> (f64, f64) {
        (libm::log(f64::from(self.value)), f64::from(self.u) / 1000.0)
    }
}

/// Least and greatest heft of solid pieces of a metal, in thousandths of a g/cm3.
pub(crate) fn range(metals: &Metals, metal: &Metal) -> (f64, f64) {
    let (from, to) = metal.densities();
    let share = |fill: u32| f64::from(fill) / 1000.0;
    (f64::from(from) * share(metals.fill.from), f64::from(to) * share(metals.fill.to))
}

/// What a solid piece of this metal with a sole of this length weighs, least and greatest, rounded outwards.
#[must_use]
pub fn expected(metals: &Metals, metal: &Metal, length: Length) -> (Mass, Mass) {
    let cm = length.mm() / 10.0;
    let (low, high) = range(metals, metal);
    // Thousandths of a gram to tenths.
    let tenths = |heft: f64| heft * cm * cm * cm / 100.0;
    (Mass(libm::floor(tenths(low)) as u32), Mass(libm::ceil(tenths(high)) as u32))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_length_counts_three_times() {
        // 75 mm and 200 g: 200 / 7.5^3 = 0.474. Ruler 0.408 mm of 75 is 5.4 per mille, three times 16.3; scales 1.191 g of
        // 200 is 6.0; together 17.4. Arithmetic, with the instruments' own figures.
        let found = heft((Length(750), Instrument::Ruler), (Mass(2000), Instrument::Scales));
        assert_eq!(found, Some(Hefted { value: 474, u: 18 }));
        assert_eq!(heft((Length(0), Instrument::Ruler), (Mass(2000), Instrument::Scales)), None);
        assert_eq!(heft((Length(750), Instrument::Ruler), (Mass(0), Instrument::Scales)), None);
    }
}
