//! Days as spreadsheets write them.

use crate::record::{Date, Value, short};

/// A day, month or year: as ISO writes it, or with points or strokes where it can be read in one way only.
pub(super) fn day(text: &str) -> Result<Date, String> {
    let text = text.trim();
    if let Ok(date) = Date::read(text) {
        return Ok(date);
    }
    let unclear = || format!("\u{201c}{}\u{201d} is no day. Write it as 2026-10-03.", short(text));
    // A time behind it is midnight, which a spreadsheet adds by itself.
    let bare = text.strip_suffix(" 00:00:00").or_else(|| text.strip_suffix(" 00:00")).unwrap_or(text);
    let parts: Vec<&str> = bare.split(['/', '.', '-']).map(str::trim).collect();
    let number = |t: &str| {
        if t.len() <= 4 && t.bytes().all(|b| b.is_ascii_digit()) { t.parse::<i16>().ok() } else { None }
    };
    let [Some(a), Some(b), Some(c)] = [0, 1, 2].map(|at| parts.get(at).and_then(|t| number(t))) else {
        return Err(unclear());
    };
    let lengths = [0, 2].map(|at| parts.get(at).map_or(0, |t| t.len()));
    let (year, month, day) = match lengths {
        _ if parts.len() != 3 => return Err(unclear()),
        [4, _] => (a, b, c),
        [_, 4] if a > 12 || a == b => (c, b, a),
        [_, 4] if b > 12 => (c, a, b),
        [_, 4] => {
            return Err(format!(
                "\u{201c}{}\u{201d} may begin with the day or with the month. Write it as 2026-10-03.",
                short(text)
            ));
        }
        _ => return Err(unclear()),
    };
    let small = |n: i16| u8::try_from(n).ok().filter(|n| *n > 0);
    small(month).zip(small(day)).and_then(|(m, d)| Date::new(year, m, d)).ok_or_else(unclear)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_spreadsheets() {
        // Orders of day and month by country: common practice.
        for (text, shown) in [
            ("2026-10-03", "2026-10-03"),
            ("2026/10/3", "2026-10-03"),
            ("23.10.2026", "2026-10-23"),
            ("10/23/2026", "2026-10-23"),
            ("3/3/2026", "2026-03-03"),
            ("2026-10-03 00:00:00", "2026-10-03"),
            ("2026", "2026"),
        ] {
            assert_eq!(day(text).map(|d| d.shown()), Ok(shown.to_string()), "{text}");
        }
        for text in [
            "3/10/2026",
            "10.3.2026",
            "3/10/26",
            "31/2/2026",
            "",
            "soon",
            "1/2/3/2026",
            "0/0/2026",
            "-/-/2026",
        ] {
            assert!(day(text).is_err(), "{text} was taken");
        }
    }
}
