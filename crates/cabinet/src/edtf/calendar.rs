//! Months and seasons of any year.

use super::Day;

/// Days of a month of the proleptic Gregorian calendar; `month` is 1 to 12.
pub(super) fn month_length(year: i64, month: u8) -> u8 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        2 => 28 + u8::from(leap),
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// First and last day of a division of the year, 21 to 41: seasons (months of the north where no hemisphere is said, a
/// convention of libraries), seasons north and south, quarters, thirds, halves.
pub(super) fn division(year: i64, code: u8) -> Option<(Day, Day)> {
    let (from, months) = match code {
        21..=24 => (3 + 3 * (code - 21), 3),
        25..=28 => (3 + 3 * (code - 25), 3),
        29..=32 => (9 + 3 * (code - 29), 3),
        33..=36 => (1 + 3 * (code - 33), 3),
        37..=39 => (1 + 4 * (code - 37), 4),
        40..=41 => (1 + 6 * (code - 40), 6),
        _ => return None,
    };
    // The southern seasons run over the end of the year; autumn and winter belong to the year that is named.
    let from = if from > 12 { from - 12 } else { from };
    let to = from + months - 1;
    let (last_year, to) = if to > 12 { (year + 1, to - 12) } else { (year, to) };
    Some((
        Day { year, month: from, day: 1 },
        Day { year: last_year, month: to, day: month_length(last_year, to) },
    ))
}
