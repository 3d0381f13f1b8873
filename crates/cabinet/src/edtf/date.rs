//! A date of year, month, day, any of which may be doubtful or have lost digits.

use super::calendar::{division, month_length};
use super::component::Component;
use super::{Day, End, Span, letter_year, time};

/// Reads a date that may stand in an interval or a set. With `timed`, a time may follow.
pub(super) fn read(text: &str, timed: bool) -> Option<Span> {
    if let Some((date, clock)) = text.split_once('T') {
        let span = plain(date).filter(|s| s.level == 0 || date.starts_with('-'))?;
        return (timed && date.trim_start_matches('-').len() == 10 && time::is_time(clock)).then_some(span);
    }
    if text.starts_with('Y') {
        return letter_year::read(text);
    }
    significant(text).or_else(|| plain(text))
}

/// `1950S2`: the year is an estimate to so many figures.
fn significant(text: &str) -> Option<Span> {
    let (year, figures) = text.split_once('S')?;
    let (sign, digits) = year.strip_prefix('-').map_or((1, year), |rest| (-1, rest));
    let whole = digits.len() == 4 && digits.bytes().all(|b| b.is_ascii_digit());
    let year: i64 = digits.parse().ok().filter(|_| whole)?;
    letter_year::estimate(sign * year, figures)
}

fn plain(text: &str) -> Option<Span> {
    let doubt = usize::from(text.starts_with(['?', '~', '%']));
    let negative = text[doubt..].starts_with('-');
    // The sign of the year is taken out, so that the rest falls apart at its dashes.
    let unsigned =
        if negative { format!("{}{}", &text[..doubt], &text[doubt + 1..]) } else { text.to_string() };
    let parts: Vec<&str> = unsigned.split('-').collect();
    let year = Component::read(parts[0], 4)?;
    let month = parts.get(1).map(|p| Component::read(p, 2));
    let day = parts.get(2).map(|p| Component::read(p, 2));
    let (month, day) = match (month, day) {
        (None, _) => (None, None),
        (Some(m), None) => (Some(m?), None),
        (Some(m), Some(d)) => (Some(m?), Some(d?)),
    };
    if parts.len() > 3 || (negative && year.digits == "0000") {
        return None;
    }
    let code = month.and_then(|m| m.number()).filter(|m| *m > 12);
    let (earliest, latest) = match code {
        Some(code) => {
            let years = bounds(&year, negative)?;
            let code = u8::try_from(code).ok().filter(|_| day.is_none())?;
            (division(years.0, code)?.0, division(years.1, code)?.1)
        }
        None => days(&year, negative, month.as_ref(), day.as_ref())?,
    };
    let level = level(negative, &year, month.as_ref(), day.as_ref(), code);
    Some(Span { earliest: End::At(earliest), latest: End::At(latest), level })
}

/// The lowest level that has the date.
fn level(
    negative: bool,
    year: &Component,
    month: Option<&Component>,
    day: Option<&Component>,
    code: Option<i64>,
) -> u8 {
    let all: Vec<&Component> = [Some(year), month, day].into_iter().flatten().collect();
    let last = all.len() - 1;
    let partly = all.iter().enumerate().any(|(at, c)| c.before || (c.behind && at < last));
    let lost: Vec<usize> = all.iter().map(|c| c.lost()).collect();
    // Level 1 loses one or two figures of a year that stands alone, a whole day, a whole month with all behind it.
    let whole = match lost.as_slice() {
        [y] => *y == 0 || (*y <= 2 && year.digits[..4 - *y].bytes().all(|b| b != b'X')),
        [0, 0 | 2] | [0, 0, 0 | 2] | [0, 2, 2] => true,
        _ => false,
    };
    if partly || !whole || code.is_some_and(|c| c > 24) {
        2
    } else {
        u8::from(negative || code.is_some() || all[last].behind || lost.iter().any(|l| *l > 0))
    }
}

/// The years that fit, least and greatest.
fn bounds(year: &Component, negative: bool) -> Option<(i64, i64)> {
    let end = |digit: &str| year.digits.replace('X', digit).parse::<i64>().ok();
    let (least, most) = (end("0")?, end("9")?);
    Some(if negative { (-most, -least) } else { (least, most) })
}

/// The first and the last day that fit.
fn days(
    year: &Component,
    negative: bool,
    month: Option<&Component>,
    day: Option<&Component>,
) -> Option<(Day, Day)> {
    let (from, to) = bounds(year, negative)?;
    let months = |m: &u8| month.is_none_or(|c| c.fits(i64::from(*m)));
    let fits = |y: i64, m: u8, d: &u8| *d <= month_length(y, m) && day.is_none_or(|c| c.fits(i64::from(*d)));
    let years = |y: &i64| year.fits(y.abs());
    let mut first = None;
    for y in (from..=to).filter(years) {
        let found = (1..=12).filter(months).find_map(|m| (1..=31).find(|d| fits(y, m, d)).map(|d| (m, d)));
        if let Some((month, day)) = found {
            first = Some(Day { year: y, month, day });
            break;
        }
    }
    for y in (from..=to).rev().filter(years) {
        let found = (1..=12)
            .rev()
            .filter(months)
            .find_map(|m| (1..=31).rev().find(|d| fits(y, m, d)).map(|d| (m, d)));
        if let Some((month, day)) = found {
            return Some((first?, Day { year: y, month, day }));
        }
    }
    None
}
