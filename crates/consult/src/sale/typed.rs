//! Amounts and rates as a person types and reads them, in whole numbers all the way.

use units::Currency;

/// More before the point is not taken: a thousand million units of money is no price of an iron.
const MOST: i64 = 999_999_999;

/// `12`, `12.5`, `12,50`: times ten to the `places`, none for an empty text.
///
/// # Errors
/// A sentence for the person who typed it.
pub(crate) fn decimal(text: &str, places: usize) -> Result<Option<i64>, String> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let places = u32::try_from(places).unwrap_or_default();
    let value = units::scaled(text, places)?;
    if value < 0 {
        return Err("A figure here is not below nothing.".to_string());
    }
    if value / 10_i64.pow(places.min(9)) > MOST {
        return Err("The number is too large.".to_string());
    }
    Ok(Some(value))
}

/// The other way: as few places as say it, or all of them.
pub(crate) fn shown(value: i64, places: u32, all: bool) -> String {
    units::decimal(value, places, if all { places } else { 0 })
}

/// `105.50 USD`.
pub(crate) fn money(minor: i64, currency: Currency) -> String {
    format!("{} {}", shown(minor, 2, true), currency.code())
}

/// Per mille as `17.5 %`.
pub(crate) fn per_cent(per_mille: i64) -> String {
    format!("{} %", shown(per_mille, 1, false))
}

/// A share of a band: `about 6 in 10`, `about 32 in 100`, `about 1.25 times`.
pub(crate) fn share(per_mille: u32) -> String {
    match per_mille {
        0..1000 if per_mille.is_multiple_of(100) && per_mille > 0 => {
            format!("about {} in 10", per_mille / 100)
        }
        0..995 => format!("about {} in 100", ((per_mille + 5) / 10).max(1)),
        995..1005 => "about all".to_string(),
        _ => format!("about {} times", shown(i64::from((per_mille + 5) / 10), 2, false)),
    }
}
