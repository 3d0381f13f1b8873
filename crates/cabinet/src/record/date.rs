//! Days and moments of a record: given, never asked from a clock.

use super::value::{Value, short};
use dating::calendar;

/// A day, a month or a year: `2026-10-03`, `2026-10`, `2026` (EDTF level 0). Month and day are 0 where they are not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Date {
    /// 1600 to 2299.
    pub year: i16,
    /// 1 to 12, or 0.
    pub month: u8,
    /// From 1, or 0.
    pub day: u8,
}

impl Date {
    /// The day, when there is one in the calendar.
    #[must_use]
    pub fn new(year: i16, month: u8, day: u8) -> Option<Date> {
        let sound = (1600..=2299).contains(&year)
            && month <= 12
            && (day == 0 || (month > 0 && day <= calendar::month_length(year, month)));
        sound.then_some(Date { year, month, day })
    }

    /// The same day some years on.
    #[must_use]
    pub fn later(self, years: i16) -> Date {
        Date { year: self.year + years, ..self }
    }

    /// The last day that it may mean, for comparing: an unknown day counts as the last.
    #[must_use]
    pub fn end(self) -> Date {
        let month = if self.month == 0 { 12 } else { self.month };
        let last = calendar::month_length(self.year, month);
        Date { year: self.year, month, day: if self.day == 0 { last } else { self.day } }
    }
}

impl Value for Date {
    fn shown(&self) -> String {
        match (self.month, self.day) {
            (0, _) => format!("{:04}", self.year),
            (m, 0) => format!("{:04}-{m:02}", self.year),
            (m, d) => format!("{:04}-{m:02}-{d:02}", self.year),
        }
    }

    fn read(text: &str) -> Result<Date, String> {
        let unclear =
            || format!("\u{201c}{}\u{201d} is no day. Write 2026-10-03, 2026-10 or 2026.", short(text));
        let parts: Vec<&str> = text.trim().split('-').collect();
        let figures = |at: usize, length: usize| match parts.get(at) {
            None => Some(0),
            Some(p) if p.len() == length && p.bytes().all(|b| b.is_ascii_digit()) => p.parse::<i16>().ok(),
            Some(_) => None,
        };
        let date = match (figures(0, 4), figures(1, 2), figures(2, 2)) {
            (Some(y), Some(m), Some(d)) if parts.len() <= 3 => Date::new(y, m as u8, d as u8),
            _ => None,
        };
        // A month that is written must be one: "2026-00" is not 2026.
        date.filter(|d| (d.month > 0) == (parts.len() > 1) && (d.day > 0) == (parts.len() > 2))
            .ok_or_else(unclear)
    }
}

/// A moment in milliseconds since 1 January 1970, UTC: `2026-10-03 14:05:09.250 UTC`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Moment(pub i64);

const DAY: i64 = 86_400_000;
/// 1 January 1970 in days of [`calendar`].
const EPOCH: i64 = 135_140;
/// The last moment that can be written: the end of 2299.
pub const LAST: Moment = Moment(120_530 * DAY - 1);

impl Moment {
    /// Whether it can be written: 1970 to 2299.
    #[must_use]
    pub fn is_sound(self) -> bool {
        (0..=LAST.0).contains(&self.0)
    }

    /// The day it falls on, UTC.
    #[must_use]
    pub fn date(self) -> Date {
        let days = self.0.clamp(0, LAST.0) / DAY + EPOCH;
        let (year, month, day) = calendar::date(i32::try_from(days).unwrap_or_default());
        Date { year, month, day }
    }
}

impl Value for Moment {
    fn shown(&self) -> String {
        let ms = self.0.clamp(0, LAST.0) % DAY;
        let (h, m, s, ms) = (ms / 3_600_000, ms / 60_000 % 60, ms / 1000 % 60, ms % 1000);
        format!("{} {h:02}:{m:02}:{s:02}.{ms:03} UTC", self.date().shown())
    }

    fn read(text: &str) -> Result<Moment, String> {
        let moment = moment(text).filter(|m| m.is_sound());
        moment.ok_or_else(|| {
            format!("\u{201c}{}\u{201d} is no moment. It reads 2026-10-03 14:05:09.250 UTC.", short(text))
        })
    }
}

fn moment(text: &str) -> Option<Moment> {
    let (date, rest) = text.split_once(' ')?;
    let date = Date::read(date).ok()?;
    let day = i64::from(calendar::day(date.year, date.month, date.day)?) - EPOCH;
    let time = rest.strip_suffix(" UTC")?;
    if time.len() != 12 || !time.is_ascii() {
        return None;
    }
    let figures = |from: usize, to: usize, most: i64| {
        let part = &time[from..to];
        let sound = part.bytes().all(|b| b.is_ascii_digit());
        part.parse::<i64>().ok().filter(|n| sound && *n < most)
    };
    let signs = [2, 5, 8].map(|at| time.as_bytes()[at]);
    if signs != *b"::." {
        return None;
    }
    let (h, m, s, ms) = (figures(0, 2, 24)?, figures(3, 5, 60)?, figures(6, 8, 60)?, figures(9, 12, 1000)?);
    Some(Moment(day * DAY + h * 3_600_000 + m * 60_000 + s * 1000 + ms))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn days_and_moments() {
        // Days since 1970 and the seconds of well-known moments: published (POSIX, "Seconds Since the Epoch"; the second
        // 1,000,000,000 was 2001-09-09 01:46:40 UTC).
        assert_eq!(Moment(1_000_000_000_000).shown(), "2001-09-09 01:46:40.000 UTC");
        assert_eq!(Moment(0).shown(), "1970-01-01 00:00:00.000 UTC");
        assert_eq!(LAST.shown(), "2299-12-31 23:59:59.999 UTC");
        for text in ["2026-10-03", "2026-10", "2026", "2024-02-29"] {
            assert_eq!(Date::read(text).map(|d| d.shown()), Ok(text.to_string()));
        }
        for text in [
            "",
            "2026-13",
            "2025-02-29",
            "2026-1-3",
            "2026-00",
            "2026-10-00",
            "3/10/2026",
            "2026-10-03-1",
            "+026",
        ] {
            assert!(Date::read(text).is_err(), "{text} was taken");
        }
        for text in [
            "2026-10-03",
            "2026-10-03 24:00:00.000 UTC",
            "2026-10 10:00:00.000 UTC",
            "2026-10-03 10:00:00.0000UTC",
        ] {
            assert!(Moment::read(text).is_err(), "{text} was taken");
        }
        assert_eq!(Date { year: 2024, month: 2, day: 0 }.end(), Date { year: 2024, month: 2, day: 29 });
    }

    proptest! {
        #[test]
        fn moments_come_back(ms in 0..=LAST.0) {
            prop_assert_eq!(Moment::read(&Moment(ms).shown()), Ok(Moment(ms)));
        }
    }
}
