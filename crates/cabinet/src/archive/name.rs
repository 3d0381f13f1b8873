//! Names of entries: what they may be, and what they say.

use crate::record::{Version, is_digest};

/// The longest name in bytes.
pub(super) const LONGEST: usize = 200;

/// What an entry is, by its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sort {
    /// A record as text.
    Record,
    /// A photograph, with its digest.
    Photo(String),
    /// Where a learner stands, with the id of the pack that was practised with: a text that is handed on as it is.
    Practice(String),
    /// The explanation or the list: written for people, not read.
    ForPeople,
    /// Nothing that this edition knows.
    Foreign,
}

/// What is wrong with a name, if anything. A name must stay where it is put: no way up, no root, no drive, no sign that
/// some system takes for a division.
pub(super) fn fault(name: &str) -> Option<&'static str> {
    let bad = |c: char| c.is_control() || matches!(c, '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|');
    let parts = name.strip_suffix('/').unwrap_or(name);
    match () {
        () if name.is_empty() => Some("has no name"),
        () if name.len() > LONGEST => Some("has a name that is too long"),
        () if name.chars().any(bad) => Some("has a sign in its name that may lead elsewhere"),
        () if parts.split('/').any(|p| p.is_empty() || p.ends_with(['.', ' '])) => {
            Some("has a name that leads elsewhere")
        }
        () => None,
    }
}

/// What a sound name says.
pub(super) fn sort(name: &str) -> Sort {
    let inside = |folder: &str, end: &str| name.strip_prefix(folder).and_then(|rest| rest.strip_suffix(end));
    if inside("records/", ".txt").is_some() {
        return Sort::Record;
    }
    if let Some(pack) = inside("practice/", ".txt").filter(|p| is_pack(p)) {
        return Sort::Practice(pack.to_string());
    }
    match inside("photos/", ".jpg") {
        Some(digest) if is_digest(digest) => Sort::Photo(digest.to_string()),
        _ if matches!(name, README | INDEX) => Sort::ForPeople,
        _ => Sort::Foreign,
    }
}

/// The explanation, first in the file.
pub const README: &str = "README.txt";
/// The list of the records, a table.
pub const INDEX: &str = "index.csv";

/// The name of a record: its number for people, its version so that no two are alike.
#[must_use]
pub fn record_name(version: &Version) -> String {
    let number = version.record.number.as_ref().map_or("unnumbered", |n| n.text());
    format!("records/{number}_{}.txt", version.stamp.version)
}

/// The name of what was practised with a pack.
#[must_use]
pub fn practice_name(pack: &str) -> String {
    format!("practice/{pack}.txt")
}

/// Ids of packs are small letters, digits and hyphens.
fn is_pack(id: &str) -> bool {
    !id.is_empty() && id.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

/// The name of a photograph.
#[must_use]
pub fn photo_name(digest: &str) -> String {
    format!("photos/{digest}.jpg")
}
