//! Figures in words: years, lengths, weights.

use units::Period;

/// `mostly 1880 to 1915, hardly before 1850 or after 1935`.
pub(super) fn mostly(period: Period) -> String {
    let Period { earliest, likely_from, likely_to, latest } = period;
    format!("mostly {likely_from} to {likely_to}, hardly before {earliest} or after {latest}")
}

/// Whole millimetres of tenths.
pub(super) fn mm(tenths: f64) -> u32 {
    (tenths / 10.0 + 0.5).max(1.0) as u32
}

/// `38 to 94 mm, 19 in 20`, of tenths of a millimetre.
pub(super) fn length((low, _, high): (f64, f64, f64)) -> String {
    format!("{} to {} mm, 19 in 20", mm(low), mm(high))
}

/// `0.40 to 0.65 g/cm\u{b3}, 19 in 20`, of thousandths of the logarithm.
pub(super) fn heft((low, _, high): (f64, f64, f64)) -> String {
    let hundredths = |heft: f64| (libm::exp(heft / 1000.0) * 100.0 + 0.5) as u32;
    let (low, high) = (hundredths(low), hundredths(high));
    let (a, b, c, d) = (low / 100, low % 100, high / 100, high % 100);
    format!("{a}.{b:02} to {c}.{d:02} g/cm\u{b3}, 19 in 20")
}

/// To about two digits: a weight from a length is no better.
pub(super) fn rounded(grams: f64) -> u32 {
    let step = match grams {
        g if g < 20.0 => 1.0,
        g if g < 200.0 => 5.0,
        g if g < 1000.0 => 20.0,
        _ => 100.0,
    };
    ((grams / step + 0.5) as u32 * step as u32).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_in_words() {
        let period = Period { earliest: 1850, likely_from: 1880, likely_to: 1915, latest: 1935 };
        assert_eq!(mostly(period), "mostly 1880 to 1915, hardly before 1850 or after 1935");
        assert_eq!(length((380.4, 660.0, 939.6)), "38 to 94 mm, 19 in 20");
        assert_eq!(length((-3.0, 20.0, 43.0)), "1 to 4 mm, 19 in 20");
        // By definition: thousandths of ln 0.4 = -916.3 and of ln 0.65 = -430.8.
        assert_eq!(heft((-916.3, -673.5, -430.8)), "0.40 to 0.65 g/cm\u{b3}, 19 in 20");
        for (grams, printed) in [(0.2, 1), (4.4, 4), (131.4, 130), (213.5, 220), (1_249.0, 1_200)] {
            assert_eq!(rounded(grams), printed);
        }
    }
}
