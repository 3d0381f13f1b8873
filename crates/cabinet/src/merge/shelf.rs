//! A set of versions.

use crate::record::Version;
use crate::text;
use core::cmp::Ordering;
use units::{arranged, order};

/// All versions of all records, each once, by record, time and version. Two versions are one when everything in them is
/// the same: equal ids with unequal contents stay both.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shelf {
    versions: Vec<Version>,
}

/// By record, time, version; then by what stands in them.
fn compare(a: &Version, b: &Version) -> Ordering {
    let key = |v: &Version| (v.stamp.id, v.stamp.time, v.stamp.version);
    key(a)
        .cmp(&key(b))
        .then_with(|| if a == b { Ordering::Equal } else { text::write(a).cmp(&text::write(b)) })
}

impl Shelf {
    /// A shelf of versions in any order.
    #[must_use]
    pub fn of(versions: Vec<Version>) -> Shelf {
        let by = order(versions.len(), &|a, b| compare(&versions[a], &versions[b]));
        let mut versions = arranged(versions, &by);
        versions.dedup_by(|a, b| compare(a, b) == Ordering::Equal);
        Shelf { versions }
    }

    /// All versions: those of one record together, oldest first.
    #[must_use]
    pub fn versions(&self) -> &[Version] {
        &self.versions
    }

    /// Both together: the union.
    #[must_use]
    pub fn merged(&self, other: &Shelf) -> Shelf {
        Shelf::of(self.versions.iter().chain(&other.versions).cloned().collect())
    }

    /// The versions of `other` that this shelf does not have: what an import adds.
    #[must_use]
    pub fn new_in<'a>(&self, other: &'a Shelf) -> Vec<&'a Version> {
        let have = |v: &Version| self.versions.binary_search_by(|known| compare(known, v)).is_ok();
        other.versions.iter().filter(|v| !have(v)).collect()
    }
}
