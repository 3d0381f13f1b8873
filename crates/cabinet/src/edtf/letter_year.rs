//! Years beyond four figures, `Y170000002`, powers of ten, and estimates to some figures.

use super::{Day, End, Span};

/// Reads `Y-17E7`, `Y171010000S3`.
pub(super) fn read(text: &str) -> Option<Span> {
    let rest = text.strip_prefix('Y')?;
    let (rest, figures) = rest.split_once('S').map_or((rest, None), |(rest, s)| (rest, Some(s)));
    let (number, power) = rest.split_once('E').map_or((rest, None), |(rest, p)| (rest, Some(p)));
    let (sign, digits) = number.strip_prefix('-').map_or((1, number), |rest| (-1, rest));
    let figure =
        |t: &str, most: usize| (1..=most).contains(&t.len()) && t.bytes().all(|b| b.is_ascii_digit());
    if !figure(digits, 15) || digits.starts_with('0') || (power.is_none() && digits.len() < 5) {
        return None;
    }
    let mut year: i64 = digits.parse().ok()?;
    if let Some(power) = power {
        let power: u32 = power.parse().ok().filter(|_| figure(power, 2))?;
        year = year.checked_mul(10_i64.checked_pow(power)?)?;
    }
    match figures {
        Some(figures) => estimate(sign * year, figures),
        None => Some(span(sign * year, sign * year, if power.is_some() { 2 } else { 1 })),
    }
}

/// The years that agree with an estimate in its first figures.
pub(super) fn estimate(year: i64, figures: &str) -> Option<Span> {
    let sound = (1..=2).contains(&figures.len()) && figures.bytes().all(|b| b.is_ascii_digit());
    let figures: usize = figures.parse().ok().filter(|n| sound && *n > 0)?;
    let digits = year.unsigned_abs().to_string().len();
    let step = 10_i64.checked_pow(digits.saturating_sub(figures) as u32)?;
    let near = year.abs() / step * step;
    let far = near.checked_add(step - 1)?;
    Some(if year < 0 { span(-far, -near, 2) } else { span(near, far, 2) })
}

fn span(from: i64, to: i64, level: u8) -> Span {
    Span {
        earliest: End::At(Day { year: from, month: 1, day: 1 }),
        latest: End::At(Day { year: to, month: 12, day: 31 }),
        level,
    }
}
