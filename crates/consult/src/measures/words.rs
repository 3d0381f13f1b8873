//! Figures of the room in words, made of whole numbers alone.

use crate::words::sentence;
use measure::Size;
use pack::metals::{Figure, Metals};

/// Parts of 100 000 as a percentage with two figures: `0.78`, `1.04`.
pub(super) fn hundredths(parts: u32) -> String {
    let n = (u64::from(parts) + 5) / 10;
    format!("{}.{:02}", n / 100, n % 100)
}

/// `0.9 % shorter, give or take 0.2 %`. What is uncertain is rounded up.
pub(super) fn size(size: &Size) -> String {
    let apart = (u64::from(size.ratio.abs_diff(100_000)) + 50) / 100;
    let doubt = size.u.div_ceil(100);
    let which = match (apart, size.ratio < 100_000) {
        (0, _) => "equally long".to_string(),
        (n, true) => format!("{}.{} % shorter", n / 10, n % 10),
        (n, false) => format!("{}.{} % longer", n / 10, n % 10),
    };
    let from = match size.lengths {
        1 => "one length".to_string(),
        n => format!("{n} lengths"),
    };
    format!("{which}, give or take {}.{} %, by {from}", doubt / 10, doubt % 10)
}

/// kg/m3 as `7.21 g/cm3`.
pub(super) fn density(value: u32) -> String {
    let n = (u64::from(value) + 5) / 10;
    format!("{}.{:02} g/cm\u{b3}", n / 100, n % 100)
}

/// A range of kg/m3 as `6.60 to 7.80 g/cm3`.
pub(super) fn densities(from: u32, to: u32) -> String {
    if from == to {
        return density(from);
    }
    let first = density(from);
    format!("{} to {}", first.split(' ').next().unwrap_or_default(), density(to))
}

/// `4 times`, `1.3 times`, of a number of at least one.
pub(super) fn times(ratio: f64) -> String {
    let tenths = libm::round(ratio.clamp(1.0, 1e6) * 10.0) as u32;
    match (tenths / 10, tenths % 10) {
        (whole, 1..) if whole < 2 => format!("{whole}.{} times", tenths % 10),
        _ => format!("{} times", (tenths + 5) / 10),
    }
}

/// A figure with what it rests on: `0.78 %, from a published source: ...`.
pub(super) fn rests(metals: &Metals, shown: &str, figure: &Figure) -> String {
    let source = figure.source.and_then(|s| metals.sources.get(usize::from(s)));
    let source = source.map_or(String::new(), |s| format!(": {}", s.text));
    sentence(&format!("{shown}, {}{source}", figure.basis.phrase()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_in_words() {
        // Arithmetic.
        assert_eq!([hundredths(781), hundredths(1042)], ["0.78", "1.04"]);
        let of = |ratio, u, lengths| size(&Size { ratio, u, lengths });
        assert_eq!(of(99_060, 165, 2), "0.9 % shorter, give or take 0.2 %, by 2 lengths");
        assert_eq!(of(101_500, 100, 1), "1.5 % longer, give or take 0.1 %, by one length");
        assert_eq!(of(99_960, 1, 3), "equally long, give or take 0.1 %, by 3 lengths");
        assert!(of(u32::MAX, u32::MAX, 1).contains("% longer"));
        assert_eq!(densities(6600, 7800), "6.60 to 7.80 g/cm\u{b3}");
        assert_eq!(densities(7210, 7210), "7.21 g/cm\u{b3}");
        let said = [1.0, 1.26, 1.96, 2.4, 3.6, 15.0].map(times);
        assert_eq!(said, ["1 times", "1.3 times", "2 times", "2 times", "4 times", "15 times"]);
    }
}
