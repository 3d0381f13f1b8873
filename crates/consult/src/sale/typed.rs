//! Amounts and rates as a person types and reads them, in whole numbers all the way.

use units::Currency;

/// More digits before the point are not taken: ten million million units of money is no price of an iron.
const MOST_DIGITS: usize = 9;

/// `12`, `12.5`, `12,50`: times ten to the `places`, none for an empty text.
///
/// # Errors
/// A sentence for the person who typed it.
pub(crate) fn decimal(text: &str, places: usize) -> Result<Option<i64>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let digits = |t: &str| t.bytes().all(|b| b.is_ascii_digit());
    if (whole.is_empty() && part.is_empty()) || !digits(whole) || !digits(part) {
        let shown: String = text.chars().take(20).collect();
        return Err(format!("\u{201c}{shown}\u{201d} is not a number. Write it as in the hint."));
    }
    if whole.len() > MOST_DIGITS {
        return Err("The number is too large.".to_string());
    }
    if part.len() > places {
        let most = ["no place", "one place", "two places", "three places"];
        return Err(format!(
            "Too fine: {} behind the point at most.",
            most.get(places).unwrap_or(&"few places")
        ));
    }
    let filled = format!("{whole}{part:0<places$}");
    Ok(filled.parse().ok())
}

/// The other way: as few places as say it, or all of them.
pub(crate) fn shown(value: i64, places: u32, all: bool) -> String {
    let sign = if value < 0 { "-" } else { "" };
    let (value, by) = (value.unsigned_abs(), 10_u64.pow(places));
    let part = format!("{:0width$}", value % by, width = places as usize);
    let part = if all { part.as_str() } else { part.trim_end_matches('0') };
    let stop = if part.is_empty() { "" } else { "." };
    format!("{sign}{}{stop}{part}", value / by)
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
