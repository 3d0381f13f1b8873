//! Dates as EDTF (Library of Congress, Extended Date/Time Format, 4 February 2019; ISO 8601-2:2019, annex A): whether a
//! text is one, and between which days it lies. What is written here is level 0 and 1 and `[A,B]`; all levels are read.

mod calendar;
mod component;
mod date;
mod interval;
mod letter_year;
mod time;

pub use interval::read;

/// A day of the proleptic Gregorian calendar. Ordered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day {
    /// The year; 0 is the year before 1.
    pub year: i64,
    /// 1 to 12.
    pub month: u8,
    /// 1 to 31.
    pub day: u8,
}

/// One end of a date.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// This day.
    At(Day),
    /// `..`: there is no end.
    Open,
    /// Nothing is known of it.
    Unknown,
}

/// What a text says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// Not before.
    pub earliest: End,
    /// Not after.
    pub latest: End,
    /// The lowest level that has the text: 0, 1, 2.
    pub level: u8,
}

impl Span {
    /// The years from the first to the last, where both are days.
    #[must_use]
    pub fn years(&self) -> Option<(i64, i64)> {
        match (self.earliest, self.latest) {
            (End::At(a), End::At(b)) => Some((a.year, b.year)),
            _ => None,
        }
    }
}
