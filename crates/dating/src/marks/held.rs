//! A number held against what was measured on the piece: what it would have to be, and how far the measure speaks for it.

use pack::marks::{Fits, Irons, Size};
use units::{Length, Mass};

/// Beside what the table says, a person measures a sole to some millimetres: tenths of one. Basis: practice.
const BY_HAND: f64 = 20.0;
/// A number stands for whole steps: rectangular, half a step either way. Published: GUM (JCGM 100:2008), 4.3.7.
const STEP: f64 = 0.288_675_134_594_812_9;
/// From here on a measure bears a number out, and under here it speaks against it: how much likelier the measure is on
/// such a piece than on any iron. Basis: practice.
const FOR: f64 = 1.5;
const AGAINST: f64 = 0.3;
/// What bears a number out lies within so many of its spreads. Basis: practice.
const WITHIN: f64 = 2.0;

/// What was measured on the piece; it tells numbers apart.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Measured {
    /// Of the sole.
    pub length: Option<Length>,
    /// Of the whole piece.
    pub mass: Option<Mass>,
}

/// What a number is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// The mass of the piece.
    Mass,
    /// The length of its sole.
    Length,
}

/// What a measure says of a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It bears the number out.
    For,
    /// It leaves the number open.
    Open,
    /// It speaks against the number.
    Against,
    /// Nothing was measured that the number could be held against.
    NotMeasured,
}

/// A number beside a measure; masses in tenths of a gram, lengths in tenths of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Held {
    /// What it is held against.
    pub measure: Measure,
    /// What the piece would have to measure: one figure twice, or the least and the most where digits are lost.
    pub would_be: (u32, u32),
    /// What it measures; of a mass that was not taken, what most pieces of its length weigh.
    pub found: Option<(u32, u32)>,
    /// The mass was not taken but guessed from the length.
    pub guessed: bool,
    /// What that says.
    pub verdict: Verdict,
}

/// How much likelier the measure is if the number is right, beside any iron, and what is said of it.
pub(crate) struct Fit {
    pub(crate) factor: f64,
    pub(crate) held: Held,
}

/// A normal density, but for a factor that is the same everywhere.
#[derive(Clone, Copy)]
struct Normal {
    middle: f64,
    spread: f64,
}

impl Normal {
    fn z(self, x: f64) -> f64 {
        (x - self.middle) / self.spread
    }

    fn density(self, x: f64) -> f64 {
        let z = self.z(x);
        libm::exp(-0.5 * z * z) / self.spread
    }
}

fn per_mille(n: impl Into<f64>) -> f64 {
    n.into() / 1000.0
}

/// Tenths of a gram that an iron of so many tenths of a millimetre weighs.
fn mass_of(irons: &Irons, tenths: f64) -> f64 {
    let cm = tenths / 100.0;
    10.0 * per_mille(irons.heft) * cm * cm * cm
}

/// Holds a number against what was measured; none for what is held against nothing.
pub(crate) fn hold(size: &Size, irons: &Irons, n: u32, measured: Measured) -> Option<Fit> {
    let (measure, per) = match size.fits {
        Fits::Free => return None,
        Fits::Mass => (Measure::Mass, f64::from(n.max(1)) * f64::from(size.per)),
        Fits::Length => (Measure::Length, f64::from(n) * f64::from(size.per) + f64::from(size.plus)),
    };
    let expected = per.max(1.0);
    let would_be = (expected.min(1e9) as u32, expected.min(1e9) as u32);
    let (length, mass) = (measured.length.filter(|l| l.0 > 0), measured.mass.filter(|m| m.0 > 0));
    // The logarithm of the measure, such a piece, any iron.
    let lengths =
        Normal { middle: libm::log(f64::from(irons.length)), spread: per_mille(irons.length_spread) };
    let (found, at, such, any) = match (measure, mass, length) {
        (Measure::Length, _, Some(length)) => {
            let spread = (f64::from(size.spread) + BY_HAND) / expected;
            let such = Normal { middle: libm::log(expected), spread };
            ((length.0, length.0), libm::log(f64::from(length.0)), such, lengths)
        }
        (Measure::Mass, Some(mass), _) => {
            let (give, step) = (per_mille(size.spread), STEP / f64::from(n.max(1)));
            let such = Normal { middle: libm::log(expected), spread: libm::sqrt(give * give + step * step) };
            // Of irons of any sort the mass goes with the cube of the length.
            let (cubed, heft) = (3.0 * lengths.spread, per_mille(irons.heft_spread));
            let any = Normal {
                middle: libm::log(mass_of(irons, f64::from(irons.length))),
                spread: libm::sqrt(cubed * cubed + heft * heft),
            };
            ((mass.0, mass.0), libm::log(f64::from(mass.0)), such, any)
        }
        (Measure::Mass, None, Some(length)) => {
            let tenths = f64::from(length.0);
            let spread = per_mille(irons.heft_spread) / 3.0;
            // The length of a piece of that mass.
            let long = 100.0 * libm::cbrt(expected / mass_of(irons, 100.0));
            let likely = |way: f64| {
                (mass_of(irons, tenths) * libm::exp(way * per_mille(irons.heft_spread))).min(1e9) as u32
            };
            let such = Normal { middle: libm::log(long), spread };
            ((likely(-1.0), likely(1.0)), libm::log(tenths), such, lengths)
        }
        _ => {
            let held = Held { measure, would_be, found: None, guessed: false, verdict: Verdict::NotMeasured };
            return Some(Fit { factor: 1.0, held });
        }
    };
    // Never wholly against it: a number may be of another maker's scale.
    let factor = (such.density(at) / any.density(at).max(1e-300)).clamp(0.02, 50.0);
    let verdict = match factor {
        f if f > FOR && such.z(at).abs() <= WITHIN => Verdict::For,
        f if f < AGAINST => Verdict::Against,
        _ => Verdict::Open,
    };
    let guessed = measure == Measure::Mass && mass.is_none();
    Some(Fit { factor, held: Held { measure, would_be, found: Some(found), guessed, verdict } })
}

/// Several numbers that a row of worn digits may be, as one: what speaks for any of them does not speak against the row.
pub(crate) fn several(mut all: impl Iterator<Item = Held>) -> Option<Held> {
    let first = all.next()?;
    Some(all.fold(first, |one, other| {
        let verdict = match (one.verdict, other.verdict) {
            (a, b) if a == b => a,
            _ => Verdict::Open,
        };
        let would_be = (one.would_be.0.min(other.would_be.0), one.would_be.1.max(other.would_be.1));
        Held { would_be, verdict, ..one }
    }))
}

impl Held {
    /// One sentence: `24 would be 10.9 kg; this piece weighs 400 g, which speaks against it.`
    #[must_use]
    pub fn in_words(&self, number: &str) -> String {
        let would_be = match self.measure {
            Measure::Mass => range(self.would_be, mass),
            Measure::Length => format!("a sole of {}", range(self.would_be, length)),
        };
        let start = format!("{number} would be {would_be}");
        let Some(found) = self.found else {
            let take = match self.measure {
                Measure::Mass => "the scales tell",
                Measure::Length => "measure the sole",
            };
            return format!("{start}: {take}.");
        };
        let measures = match (self.measure, self.guessed) {
            (Measure::Mass, true) => format!("most pieces of this length weigh {}", range(found, mass)),
            (Measure::Mass, false) => format!("this piece weighs {}", range(found, mass)),
            (Measure::Length, _) => format!("this one measures {}", range(found, length)),
        };
        let says = match self.verdict {
            Verdict::For => "which bears it out",
            Verdict::Against => "which speaks against it",
            Verdict::Open | Verdict::NotMeasured => "which leaves it open",
        };
        let more = if self.guessed { " The scales tell more." } else { "" };
        format!("{start}; {measures}, {says}.{more}")
    }
}

/// `454 g`, `10.9 kg`, from tenths of a gram.
fn mass(tenths: u32) -> String {
    let grams = (u64::from(tenths) + 5) / 10;
    if grams < 1000 {
        return format!("{grams} g");
    }
    let kilos = (grams + 50) / 100;
    match kilos % 10 {
        0 => format!("{} kg", kilos / 10),
        tenth => format!("{}.{tenth} kg", kilos / 10),
    }
}

/// `163 mm`, from tenths.
fn length(tenths: u32) -> String {
    format!("{} mm", (u64::from(tenths) + 5) / 10)
}

fn range((from, to): (u32, u32), shown: fn(u32) -> String) -> String {
    let (from, to) = (shown(from), shown(to));
    if from == to { from } else { format!("{from} to {to}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_shown_in_whole_numbers() {
        // Arithmetic: 453.59237 g to the pound (published: international yard and pound agreement, 1959).
        for (tenths, shown) in [
            (4_536, "454 g"),
            (108_862, "10.9 kg"),
            (9_994, "999 g"),
            (9_995, "1 kg"),
            (136_078, "13.6 kg"),
            (4, "0 g"),
        ] {
            assert_eq!(mass(tenths), shown);
        }
        assert_eq!(length(1_634), "163 mm");
        assert_eq!(length(1_635), "164 mm");
        assert_eq!(range((4_536, 108_862), mass), "454 g to 10.9 kg");
    }
}
