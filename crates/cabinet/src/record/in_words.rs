//! Parts of a record as one line each.

use super::{Deal, Event, Included, Mark, Measurement, Size, Valuation, Value, amount};

/// The pieces that are not empty, with a sign between.
fn joined(pieces: &[String], sign: &str) -> String {
    pieces.iter().filter(|p| !p.is_empty()).map(String::as_str).collect::<Vec<_>>().join(sign)
}

/// `No 3 (raised; upper face)`.
pub(crate) fn mark_in_words(mark: &Mark) -> String {
    let what = joined(&[mark.text.replace('\n', " / "), mark.sign.clone()], ", ");
    match joined(&[mark.how.clone(), mark.place.clone()], "; ") {
        more if more.is_empty() => what,
        more => format!("{what} ({more})").trim().to_string(),
    }
}

/// `1931: given to her daughter, the family, London`.
pub(crate) fn event_in_words(event: &Event) -> String {
    let what = joined(&[event.what.clone(), event.who.clone(), event.place.clone()], ", ");
    joined(&[event.when.clone(), what], ": ")
}

/// `bought 2026-10-03, from a friend, a market, 12.50 EUR`.
pub(crate) fn deal_in_words(deal: &Deal, came: bool) -> String {
    let with = if deal.with.is_empty() {
        String::new()
    } else {
        format!("{} {}", if came { "from" } else { "to" }, deal.with)
    };
    let when = joined(&[deal.how.clone(), deal.date.shown()], " ");
    joined(&[when, with, deal.place.clone(), deal.price.shown(), deal.note.clone()], ", ")
}

/// `20.00 to 45.00 USD, fair market, as of 2026-10-03; rests on: three sales; by the owner`.
pub(crate) fn valuation_in_words(v: &Valuation) -> String {
    let ends = match (v.low, v.high) {
        (Some(low), Some(high)) if low == high => low.shown(),
        (Some(low), Some(high)) if low.currency == high.currency => {
            format!("{} to {}", amount(low), high.shown())
        }
        (low, high) => joined(&[low.shown(), high.shown()], " to "),
    };
    let basis = v.basis.map_or_else(String::new, |b| b.word().to_string());
    let date = v.date.map_or_else(String::new, |d| format!("as of {}", d.shown()));
    let said = |what: &str, text: &str| if text.is_empty() { String::new() } else { format!("{what}{text}") };
    let included = |what: &str, told: Option<Included>| match told {
        Some(Included::Yes) => format!("with {what}"),
        Some(Included::No) => format!("without {what}"),
        None => String::new(),
    };
    let first = joined(&[ends, basis, date, included("premium", v.premium), included("tax", v.tax)], ", ");
    let rest = [said("rests on: ", &v.source), said("method: ", &v.method), said("by ", &v.valuer)];
    joined(&[first, joined(&rest, "; ")], "; ")
}

/// The measurement in words: `length 74 mm, plus or minus 1 mm (ruler)`.
pub(crate) fn measured_in_words(m: &Measurement) -> String {
    let size = |s: Option<Size>| s.map_or_else(String::new, |s| s.shown());
    let mut out = format!("{} {}", m.what, size(m.value)).trim().to_string();
    if m.uncertainty.is_some() {
        out.push_str(&format!(", plus or minus {}", size(m.uncertainty)));
    }
    if !m.method.is_empty() {
        out.push_str(&format!(" ({})", m.method));
    }
    out
}
