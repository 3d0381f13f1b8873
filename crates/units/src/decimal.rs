//! Whole numbers as decimals and back: no float is printed or parsed.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// A number of 10^-places as a decimal without zeros at its end, but with at least `least` places: `2.6875`, `20.00`.
#[must_use]
pub fn decimal(number: i64, places: u32, least: u32) -> String {
    let ten = 10_u64.pow(places.min(18));
    let (whole, part) = (number.unsigned_abs() / ten, number.unsigned_abs() % ten);
    let mut text = format!("{}{whole}", if number < 0 { "-" } else { "" });
    if places > 0 {
        let mut digits = format!("{part:0width$}", width = places as usize);
        while digits.len() > least as usize && digits.ends_with('0') {
            digits.pop();
        }
        if !digits.is_empty() {
            text.push('.');
            text.push_str(&digits);
        }
    }
    text
}

/// A decimal as a number of 10^-places, exactly. Takes `.` or `,` before the decimals and, where both stand, the last
/// one as that sign; a lone sign with just three figures behind it is asked about, unless three places are usual.
///
/// # Errors
/// A sentence when it is no number, has more places than there may be, or may be read in two ways.
pub fn scaled(text: &str, places: u32) -> Result<i64, String> {
    let quoted = short(text);
    let unclear = || format!("\u{201c}{quoted}\u{201d} is not a number. Write it as 1234 or 12.5.");
    let bare: String = text
        .trim()
        .chars()
        .filter(|c| !matches!(c, ' ' | '\u{a0}' | '\u{202f}' | '\'' | '\u{2019}'))
        .collect();
    let (negative, digits) = match bare.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, bare.as_str()),
    };
    let signs: Vec<(usize, char)> = digits.char_indices().filter(|(_, c)| matches!(c, '.' | ',')).collect();
    let kinds = [',', '.'].map(|kind| signs.iter().filter(|(_, c)| *c == kind).count());
    let last = signs.last().copied();
    let (whole, part) = match (last, kinds) {
        (None, _) => (digits, ""),
        // Both signs, the last one once: that one stands before the decimals.
        (Some((at, c)), [commas, points]) if commas > 0 && points > 0 => {
            if (if c == ',' { commas } else { points }) > 1 {
                return Err(unclear());
            }
            (&digits[..at], &digits[at + 1..])
        }
        // The same sign several times groups thousands.
        (Some(_), _) if signs.len() > 1 => (digits, ""),
        (Some((at, _)), _) => {
            let behind = digits.len() - at - 1;
            if behind == 3 && at > 0 && at <= 3 && places < 3 && !digits.starts_with('0') {
                return Err(format!(
                    "\u{201c}{quoted}\u{201d} may be thousands or decimals. Write it without a sign for thousands."
                ));
            }
            (&digits[..at], &digits[at + 1..])
        }
    };
    let groups: Vec<&str> = whole.split(['.', ',']).collect();
    if groups.len() > 1 && (groups[0].is_empty() || groups[1..].iter().any(|g| g.len() != 3)) {
        return Err(unclear());
    }
    let whole: String = groups.concat();
    let part = part.trim_end_matches('0');
    let sound = |t: &str| t.len() <= 15 && t.bytes().all(|b| b.is_ascii_digit());
    if (whole.is_empty() && part.is_empty() && !digits.contains('0')) || !sound(&whole) || !sound(part) {
        return Err(unclear());
    }
    let places = places as usize;
    if part.len() > places {
        return Err(match places {
            0 => format!("\u{201c}{quoted}\u{201d} has decimals where there are none."),
            n => format!("\u{201c}{quoted}\u{201d} has more than {n} places behind the point."),
        });
    }
    let all = format!("{whole}{part:0<places$}");
    let number: i64 = if all.is_empty() { 0 } else { all.parse().map_err(|_| unclear())? };
    Ok(if negative { -number } else { number })
}

/// The beginning of a text, for a sentence about it.
fn short(text: &str) -> String {
    let mut out: String = text.chars().take(30).filter(|c| !c.is_control()).collect();
    if text.chars().nth(30).is_some() {
        out.push('\u{2026}');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_as_people_write_them() {
        // Decimal signs by country: common practice. The values are arithmetic.
        for (text, places, number) in [
            ("64", 2, 6400),
            ("64.5", 2, 6450),
            ("64,5", 2, 6450),
            (" 1 234,50 ", 2, 123_450),
            ("1.234,50", 2, 123_450),
            ("1,234.50", 2, 123_450),
            ("1,234,567", 2, 123_456_700),
            ("1'234.50", 2, 123_450),
            ("-3", 0, -3),
            ("0.125", 6, 125_000),
            ("1.500", 3, 1500),
            ("2.6875", 6, 2_687_500),
            (".5", 1, 5),
            ("7.", 1, 70),
            ("0,00", 2, 0),
        ] {
            assert_eq!(scaled(text, places), Ok(number), "{text}");
        }
        for text in [
            "",
            "-",
            ".",
            "iron",
            "1.2.3",
            "1,23,456",
            "1.234",
            "1,234",
            "12.345,67,8",
            "1e3",
            "12.345",
            "1.239",
            "64.125",
        ] {
            assert!(scaled(text, 2).is_err(), "{text} was taken");
        }
        assert!(scaled("99999999999999999", 2).is_err());
        assert_eq!(decimal(2_687_500, 6, 0), "2.6875");
        assert_eq!(decimal(2000, 2, 2), "20.00");
        assert_eq!(decimal(-5, 2, 0), "-0.05");
        assert_eq!(decimal(7, 0, 0), "7");
    }

    proptest! {
        #[test]
        fn comes_back(number in -9_999_999_999_i64..9_999_999_999, places in 0_u32..7, least in 0_u32..3) {
            // A lone sign and three figures may be asked about; what this edition writes with a unit has six places.
            let text = decimal(number, places, least.min(places));
            match scaled(&text, places) {
                Ok(read) => prop_assert_eq!(read, number),
                Err(_) => prop_assert!(false, "{} was refused", text),
            }
        }

        #[test]
        fn any_text_is_answered(text in "[-0-9., ']{0,24}", places in 0_u32..7) {
            let _ = scaled(&text, places);
        }
    }
}
