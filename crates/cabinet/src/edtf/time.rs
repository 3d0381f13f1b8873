//! The time of a day behind a date.

/// Whether it is `23:20:30` with nothing, `Z`, `-04` or `+04:30` behind it.
pub(super) fn is_time(text: &str) -> bool {
    let Some((clock, zone)) = text.get(..8).zip(text.get(8..)) else { return false };
    let two = |t: &str, most: u8| {
        t.len() == 2 && t.bytes().all(|b| b.is_ascii_digit()) && t.parse::<u8>().is_ok_and(|n| n <= most)
    };
    let parts: Vec<&str> = clock.split(':').collect();
    let sound = matches!(parts.as_slice(), [h, m, s] if two(h, 23) && two(m, 59) && two(s, 59));
    // No place is farther than fourteen hours, and nothing is not written with a minus (ISO 8601-1, 4.3.13).
    let shift = match zone.strip_prefix(['+', '-']) {
        None => zone.is_empty() || zone == "Z",
        Some(shift) => {
            let (h, m) = shift.split_once(':').unwrap_or((shift, "00"));
            let most = if h == "14" { 0 } else { 59 };
            two(h, 14) && two(m, most) && !(zone.starts_with('-') && h == "00" && m == "00")
        }
    };
    sound && shift
}
