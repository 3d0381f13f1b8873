//! A whole expression: a date, an interval, a set.

use super::{End, Span, date};

/// The longest text that is read.
const LONGEST: usize = 200;

/// Reads a text; nothing when it is not EDTF. An interval must not end before it begins: its first day must not lie behind
/// its last possible one; one end at least is a date.
#[must_use]
pub fn read(text: &str) -> Option<Span> {
    if text.is_empty() || text.len() > LONGEST || !text.is_ascii() {
        return None;
    }
    let inside = |from, to| text.strip_prefix(from).map(|rest: &str| rest.strip_suffix(to));
    if let Some(inside) = inside('[', ']').or_else(|| inside('{', '}')) {
        return set(inside?);
    }
    match text.split_once('/') {
        None => date::read(text, true),
        Some((from, to)) => interval(from, to),
    }
}

fn interval(from: &str, to: &str) -> Option<Span> {
    let end = |text: &str| match text {
        "" => Some((End::Unknown, End::Unknown, 1)),
        ".." => Some((End::Open, End::Open, 1)),
        // Lost digits within an interval belong to level 2.
        text => date::read(text, false)
            .map(|s| (s.earliest, s.latest, if text.contains('X') { 2 } else { s.level })),
    };
    let (from, to) = (end(from)?, end(to)?);
    let dates = [from.0, to.0].iter().filter(|e| matches!(e, End::At(_))).count();
    let level = from.2.max(to.2);
    (dates > 0 && in_order(from.0, to.1)).then_some(Span { earliest: from.0, latest: to.1, level })
}

fn in_order(from: End, to: End) -> bool {
    match (from, to) {
        (End::At(from), End::At(to)) => from <= to,
        _ => true,
    }
}

/// `1667,1668,1670..1672`, open at its first and its last member.
fn set(text: &str) -> Option<Span> {
    let members: Vec<&str> = text.split(',').collect();
    let mut spans = Vec::new();
    for (at, member) in members.iter().enumerate() {
        let one = |text: &str| date::read(text, false);
        spans.push(match member.split_once("..") {
            None => one(member)?,
            Some(("", to)) if at == 0 => Span { earliest: End::Open, ..one(to)? },
            Some((from, "")) if at + 1 == members.len() => Span { latest: End::Open, ..one(from)? },
            Some((from, to)) => {
                let span = Span { latest: one(to)?.latest, ..one(from)? };
                in_order(span.earliest, span.latest).then_some(span)?
            }
        });
    }
    let first = spans.iter().map(|s| s.earliest).reduce(|a, b| nearer(a, b, true))?;
    let last = spans.iter().map(|s| s.latest).reduce(|a, b| nearer(a, b, false))?;
    Some(Span { earliest: first, latest: last, level: 2 })
}

/// The earlier or the later of two ends.
fn nearer(a: End, b: End, early: bool) -> End {
    match (a, b) {
        (End::At(x), End::At(y)) => End::At(if early { x.min(y) } else { x.max(y) }),
        _ => End::Open,
    }
}
