//! Dates as they stand in the files: a day as `1871-05-23`, a year as `1871`, which means its first day.

use super::Context;
use crate::cursor::{Table, Value};
use crate::fault::{Spot, quote};
use crate::text::Limit;
use dating::calendar;
use pack::marks::Day;
use units::Year;

/// A day, or the first of a year.
pub(crate) fn parse(text: &str) -> Option<Day> {
    if !text.bytes().all(|b| b.is_ascii_digit() || b == b'-') {
        return None;
    }
    let parts: Vec<&str> = text.split('-').collect();
    match parts[..] {
        [y] if y.len() == 4 => calendar::day(y.parse().ok()?, 1, 1),
        [y, m, d] if y.len() == 4 && m.len() == 2 && d.len() == 2 => {
            calendar::day(y.parse().ok()?, m.parse().ok()?, d.parse().ok()?)
        }
        _ => None,
    }
}

impl Context<'_> {
    /// A day that must be there.
    pub(crate) fn day(&self, text: &str, at: &Spot) -> Option<Day> {
        let day = parse(text);
        if day.is_none() {
            let hint =
                "Write year, month and day, \"1871-05-23\", or a year, \"1871\"; between 1600 and 2299.";
            self.faults.add(at, format!("{} is not a date.", quote(text)), hint);
        }
        day
    }

    /// A field that holds a day.
    pub(crate) fn day_of(&self, table: &Table<'_>, name: &str) -> Option<Day> {
        let text = table.need_text(name, Limit::NAME, &format!("{name} = \"1842-09-01\""));
        if text.is_empty() { None } else { self.day(&text, &table.spot_of(name)) }
    }

    /// A pair of days of which either may be empty: `legal = ["1891-03-01", ""]`.
    pub(crate) fn days_of(&self, table: &Table<'_>, name: &str) -> [Option<Day>; 2] {
        let Some(value) = table.need(name, &format!("{name} = [\"1891-03-01\", \"\"]")) else {
            return [None; 2];
        };
        let list = value.texts(Limit::NAME);
        let [(from, a), (to, b)] = &list[..] else {
            value.fault(
                "This must be two dates, either of which may be empty.",
                "Write: [\"1891-03-01\", \"\"]",
            );
            return [None; 2];
        };
        let end = |t: &String, at: &Spot| if t.is_empty() { None } else { self.day(t, at) };
        let ends = [end(from, a), end(to, b)];
        if let [Some(from), Some(to)] = ends
            && from > to
        {
            value.fault("The end lies before the start.", "Write the earlier date first.");
        }
        ends
    }

    /// A pair of years of which either may be empty: `habit = [1891, ""]`.
    pub(crate) fn years_of(&self, table: &Table<'_>, name: &str) -> [Option<Year>; 2] {
        let Some(value) = table.need(name, &format!("{name} = [1891, \"\"]")) else {
            return [None; 2];
        };
        let list = value.list();
        let [from, to] = &list[..] else {
            value.fault("This must be two years, either of which may be empty.", "Write: [1891, \"\"]");
            return [None; 2];
        };
        let ends = [year(from), year(to)];
        if let [Some(from), Some(to)] = ends
            && from > to
        {
            value.fault("The end lies before the start.", "Write the earlier year first.");
        }
        ends
    }
}

/// A year or an empty text.
fn year(value: &Value<'_>) -> Option<Year> {
    if value.is_text() {
        if value.text(Limit::NAME).is_some_and(|t| !t.is_empty()) {
            value.fault("A year is written without quotes.", "Write 1891, or \"\" where there is none.");
        }
        return None;
    }
    value.whole(1600, 2299).and_then(|y| Year::try_from(y).ok())
}

#[cfg(test)]
mod tests {
    use super::parse;

    #[test]
    fn dates() {
        assert_eq!(parse("1600"), Some(0));
        assert_eq!(parse("1600-02-29"), Some(59));
        for text in ["", "160", "1871-5-23", "1871-02-29", "1871-05", "18710523", "1871-05-23-1", "+871"] {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
