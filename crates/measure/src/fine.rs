//! Lengths and masses in finer steps than the rest of the house needs: calipers read hundredths of a millimetre, a
//! letter scale for jewellery hundredths of a gram.

use units::{Length, Mass, Misread};

/// A length in hundredths of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct FineLength(pub u32);

/// A mass in hundredths of a gram.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct FineMass(pub u32);

impl FineLength {
    /// The longest that is reckoned with: 2 m, as for any length.
    pub const LONGEST: FineLength = FineLength(Length::LONGEST.0 * 10);

    /// Reads typed millimetres such as `64.55`, `64,5` or `64 mm`.
    ///
    /// # Errors
    /// A sentence when it is no number, nothing at all, or longer than [`FineLength::LONGEST`].
    pub fn typed(text: &str) -> Result<FineLength, Misread> {
        match hundredths(text, "mm")? {
            0 => Err(Misread("A length of nothing cannot be right.".to_string())),
            n if n <= Self::LONGEST.0 => Ok(FineLength(n)),
            _ => Err(Misread("That is too long for anything here. Type millimetres.".to_string())),
        }
    }

    /// Millimetres, for arithmetic only.
    #[must_use]
    pub fn mm(self) -> f64 {
        f64::from(self.0) / 100.0
    }
}

impl FineMass {
    /// The heaviest that is reckoned with: 20 kg, as for any mass.
    pub const HEAVIEST: FineMass = FineMass(Mass::HEAVIEST.0 * 10);

    /// Reads typed grams such as `120`, `48.55` or `48,5 g`. Nothing can be a reading, of a piece that floats.
    ///
    /// # Errors
    /// A sentence when it is no number, or heavier than [`FineMass::HEAVIEST`].
    pub fn typed(text: &str) -> Result<FineMass, Misread> {
        match hundredths(text, "g")? {
            n if n <= Self::HEAVIEST.0 => Ok(FineMass(n)),
            _ => Err(Misread("That is too heavy for anything here. Type grams.".to_string())),
        }
    }

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

/// A typed number of hundredths, rounded half up: digits, then perhaps a point or a comma and more digits, then perhaps
/// the unit. Integers all the way: no float parser is linked into the page.
pub(crate) fn hundredths(text: &str, unit: &str) -> Result<u32, Misread> {
    let text = text.trim();
    let bare = text.strip_suffix(unit).unwrap_or(text).trim_end();
    let (whole, part) = bare.split_once(['.', ',']).unwrap_or((bare, ""));
    let digits = |s: &str| s.len() <= 6 && s.bytes().all(|b| b.is_ascii_digit());
    if (whole.is_empty() && part.is_empty()) || !digits(whole) || !digits(part) {
        let shown: String = text.chars().take(20).collect();
        return Err(Misread(format!("\u{201c}{shown}\u{201d} is not a number. Type it as 64.55 or 64,5.")));
    }
    let number = |s: &str| s.bytes().fold(0, |n: u32, b| n * 10 + u32::from(b - b'0'));
    // A thousandth at a time: the third digit decides which way the rest is rounded.
    let thousandths = part.bytes().chain(*b"000").take(3).fold(0, |n, b| n * 10 + u32::from(b - b'0'));
    Ok(number(whole) * 100 + (thousandths + 5) / 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_figures() {
        // Arithmetic.
        for (text, hundredths) in [
            ("64", 6400),
            ("64.5", 6450),
            (" 64,55 mm ", 6455),
            ("64.55mm", 6455),
            (".5", 50),
            ("64.", 6400),
            ("64.554", 6455),
            ("64.555", 6456),
            ("64.9999", 6500),
            ("2000", 200_000),
        ] {
            assert_eq!(FineLength::typed(text), Ok(FineLength(hundredths)), "{text}");
        }
        for text in [
            "", " ", ".", ",", "mm", "iron", "0", "0.001", "-4", "2000.01", "9999999", "1e3", "6 4", "64.5.5",
        ] {
            assert!(FineLength::typed(text).is_err(), "{text} was taken");
        }
        assert_eq!(FineMass::typed("48,55 g"), Ok(FineMass(4855)));
        assert_eq!(FineMass::typed("0"), Ok(FineMass(0)));
        for text in ["", "g", "20000.01", "48 kg", "4 8", "+4"] {
            assert!(FineMass::typed(text).is_err(), "{text} was taken");
        }
    }
}
