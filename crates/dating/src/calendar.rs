//! Days as numbers: the calendar that patent offices kept, from 1 January 1600.

use units::Year;

/// Days since 1 January 1600, which was a Saturday.
pub type Day = i32;

/// The months in words.
pub const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
/// The weekdays in words, from Monday.
pub const WEEKDAYS: [&str; 7] =
    ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/// The day on which a year begins; years before 1600 begin with it.
#[must_use]
pub fn new_year(year: Year) -> Day {
    let n = (Day::from(year) - 1600).max(0);
    // Leap years among those that have passed; 1600 was one.
    365 * n + (n + 3) / 4 - (n + 99) / 100 + (n + 399) / 400
}

/// How many days a month has, from 1 for January; none for what is no month.
#[must_use]
pub fn month_length(year: Year, month: u8) -> u8 {
    match month {
        2 => 28 + u8::from(new_year(year + 1) - new_year(year) == 366),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

/// The day of a date; none when there is no such date.
#[must_use]
pub fn day(year: Year, month: u8, day: u8) -> Option<Day> {
    let sound = (1600..=2299).contains(&year) && (1..=month_length(year, month)).contains(&day);
    let before = |m: u8| Day::from(month_length(year, m));
    sound.then(|| new_year(year) + (1..month).map(before).sum::<Day>() + Day::from(day) - 1)
}

/// The year of a day.
#[must_use]
pub fn year_of(day: Day) -> Year {
    let day = day.max(0);
    // 400 years have 146,097 days; the estimate is at most one year out.
    let mut year = (1600 + i64::from(day) * 400 / 146_097).min(9999) as Year;
    while new_year(year + 1) <= day {
        year += 1;
    }
    while year > 1600 && new_year(year) > day {
        year -= 1;
    }
    year
}

/// Year, month and day of the month.
#[must_use]
pub fn date(day: Day) -> (Year, u8, u8) {
    let year = year_of(day);
    let mut left = day.max(0) - new_year(year);
    for month in 1..12 {
        let length = Day::from(month_length(year, month));
        if left < length {
            return (year, month, left as u8 + 1);
        }
        left -= length;
    }
    (year, 12, left as u8 + 1)
}

/// The weekday, 0 for Monday.
#[must_use]
pub fn weekday(day: Day) -> usize {
    (day.rem_euclid(7) as usize + 5) % 7
}

/// `23 May 1871`.
#[must_use]
pub fn day_in_words(day: Day) -> String {
    let (year, month, day) = date(day);
    format!("{day} {} {year}", MONTHS[usize::from(month) - 1])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_that_are_known() {
        // 1 January 1600 was a Saturday and 1 January 2000 too, 146,097 days on (arithmetic of the Gregorian rule).
        // Weekdays of issue, published: 7 March 1876, 27 January 1880 and 1 January 1929 are Tuesdays (dates of issue
        // of the office); 10 March 1849 is a Saturday (issue-tuesdays in the data).
        assert_eq!(day(1600, 1, 1), Some(0));
        assert_eq!(day(2000, 1, 1), Some(146_097));
        for (y, m, d, name) in [
            (1600, 1, 1, "Saturday"),
            (2000, 1, 1, "Saturday"),
            (1876, 3, 7, "Tuesday"),
            (1880, 1, 27, "Tuesday"),
            (1929, 1, 1, "Tuesday"),
            (1849, 3, 10, "Saturday"),
        ] {
            let day = day(y, m, d);
            assert_eq!(day.map(|d| WEEKDAYS[weekday(d)]), Some(name), "{y}-{m}-{d}");
        }
    }

    #[test]
    fn every_day_comes_back() {
        let mut expected = (1600, 1, 1);
        for n in 0..255_670 {
            assert_eq!(date(n), expected);
            assert_eq!(day(expected.0, expected.1, expected.2), Some(n));
            let (y, m, d) = expected;
            let leap = y % 4 == 0 && (y % 100 != 0 || y % 400 == 0);
            let length = [31, if leap { 29 } else { 28 }, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
            expected = match (d < length[usize::from(m) - 1], m) {
                (true, _) => (y, m, d + 1),
                (false, 12) => (y + 1, 1, 1),
                (false, _) => (y, m + 1, 1),
            };
        }
    }

    #[test]
    fn what_is_no_date() {
        for (y, m, d) in
            [(1871, 2, 29), (1900, 2, 29), (1871, 0, 1), (1871, 13, 1), (1871, 5, 0), (1599, 1, 1)]
        {
            assert_eq!(day(y, m, d), None, "{y}-{m}-{d}");
        }
        assert_eq!(day_in_words(day(1871, 5, 23).unwrap_or_default()), "23 May 1871");
    }
}
