//! Amounts in rows: decimals as whole numbers, without a float on the way.

use super::super::Context;
use super::super::rows::Row;
use crate::fault::quote;

/// `12`, `12.5`, `12.50`: as a whole number of the last of so many places.
pub(super) fn decimal(text: &str, places: u32) -> Option<u64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let digits = |t: &str| !t.is_empty() && t.len() <= 10 && t.bytes().all(|b| b.is_ascii_digit());
    let behind = u32::try_from(part.len()).ok()?;
    if !digits(whole) || !digits(part) || (behind > places && part != "0") {
        return None;
    }
    let behind = behind.min(places);
    let part: u64 = if places == 0 { 0 } else { part.parse().ok()? };
    Some(whole.parse::<u64>().ok()? * 10_u64.pow(places) + part * 10_u64.pow(places - behind))
}

impl Row {
    /// A number with at most so many places behind the point, between bounds in units of the last place.
    pub(super) fn decimal(
        &self,
        column: &str,
        places: u32,
        least: u64,
        most: u64,
        context: &Context<'_>,
    ) -> Option<u64> {
        let cell = self.get(column);
        let found = decimal(cell, places).filter(|n| (least..=most).contains(n));
        if found.is_none() {
            let hint = format!("Write digits with a point before at most {places} more, such as 12 or 12.5.");
            context.faults.add(
                &self.at(column),
                format!("{} is no number that can stand here.", quote(cell)),
                hint,
            );
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::decimal;

    #[test]
    fn decimals_are_whole_numbers_of_their_last_place() {
        for (text, places, n) in [
            ("12", 2, 1200),
            ("12.5", 2, 1250),
            ("12.50", 2, 1250),
            ("0.05", 2, 5),
            ("321.943", 3, 321_943),
            ("9.9", 3, 9_900),
            ("7", 0, 7),
        ] {
            assert_eq!(decimal(text, places), Some(n), "{text}");
        }
        for text in ["", ".", "1.", ".5", "1,5", "1.234", "-1", "1e3", " 1", "12345678901", "+1", "1.2.3"] {
            assert_eq!(decimal(text, 2), None, "{text}");
        }
    }
}
