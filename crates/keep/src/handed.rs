//! What the question page leaves for the cabinet: the piece that was looked at last, and a record that is to be kept. Both are
//! plain text under a name, written by a page that knows no record.

use cabinet::record::{Moment, Record};
use cabinet::text;

/// The longest record that is taken from the question page, in bytes.
pub const MOST_HANDED: usize = 100_000;

/// The name of the draft of the piece in the hand.
pub(crate) const LAST: &str = "piece";

/// The draft of a piece in the hand: when, and its link.
#[must_use]
pub fn draft(now: Moment, link: &str) -> String {
    format!("{} {link}", now.0)
}

/// Out of that text.
#[must_use]
pub fn drafted(text: &str) -> Option<(Moment, String)> {
    let (time, link) = text.split_once(' ')?;
    let time = Moment(time.parse().ok()?);
    // A link of one question has hardly begun.
    (time.is_sound() && !link.is_empty()).then(|| (time, link.to_string()))
}

/// A record out of what the question page wrote: lines and parts as in a file of a cabinet, without its head.
pub(crate) fn handed(body: &str) -> Result<Record, String> {
    const STAMP: &str = "id: 00000000-0000-4000-8000-000000000001\n\
                         version: 00000000-0000-4000-8000-000000000002\nsaved: 2000-01-01 00:00:00.000 UTC\n";
    if body.len() > MOST_HANDED {
        return Err("The finding is longer than a record can be.".to_string());
    }
    let whole = format!("Pressmark record, format {}\n{STAMP}{body}", text::FORMAT);
    text::read(whole.as_bytes()).map(|v| v.record).map_err(|faults| {
        let says: Vec<&str> = faults.iter().map(|f| f.says.as_str()).collect();
        format!("The finding could not be made a record. {}", says.join(" "))
    })
}
