//! What a shelf says of each record: what to show, and what disagrees with it.

use super::shelf::Shelf;
use crate::order::sorted;
use crate::record::{Part, Record, Uuid, Version};

/// One record as the shelf has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept<'a> {
    /// The version to show. It is never chosen silently: see `against`.
    pub shown: &'a Version,
    /// Other versions that nothing came after, newest first: each says something else, and a person decides.
    pub against: Vec<&'a Version>,
}

/// A record of which versions disagree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// The piece.
    pub id: Uuid,
    /// The versions that disagree, newest first.
    pub versions: Vec<Uuid>,
}

impl Kept<'_> {
    /// Whether the piece is out of the cabinet: all say so.
    #[must_use]
    pub fn is_gone(&self) -> bool {
        self.shown.stamp.deleted
    }
}

impl Shelf {
    /// Every record, in the order of its id.
    #[must_use]
    pub fn records(&self) -> Vec<Kept<'_>> {
        self.versions().chunk_by(|a, b| a.stamp.id == b.stamp.id).filter_map(kept).collect()
    }

    /// Every record of which versions disagree.
    #[must_use]
    pub fn conflicts(&self) -> Vec<Conflict> {
        let of = |kept: Kept| {
            let versions = [kept.shown].into_iter().chain(kept.against.iter().copied());
            let versions: Vec<Uuid> = versions.map(|v| v.stamp.version).collect();
            (versions.len() > 1).then_some(Conflict { id: kept.shown.stamp.id, versions })
        };
        self.records().into_iter().filter_map(of).collect()
    }
}

/// The versions of one record, oldest first, to what is shown of it. A version is past when a later one names it; so the
/// latest is never past, whatever names what.
fn kept(versions: &[Version]) -> Option<Kept<'_>> {
    let mut named: Vec<(Uuid, usize)> = Vec::new();
    for (by, version) in versions.iter().enumerate() {
        named.extend(version.stamp.after.iter().map(|id| (*id, by)));
    }
    let named = sorted(named);
    let past = |at: usize| {
        let stamp = &versions[at].stamp;
        let from = named.partition_point(|(id, _)| *id < stamp.version);
        let mut by = named[from..].iter().take_while(|(id, _)| *id == stamp.version);
        by.any(|(_, by)| versions[*by].stamp.time > stamp.time)
    };
    let heads: Vec<&Version> =
        (0..versions.len()).rev().filter(|at| !past(*at)).map(|at| &versions[at]).collect();
    // Equal contents do not disagree: the newest stands for them.
    let mut distinct: Vec<&Version> = Vec::new();
    for head in heads {
        let same = |v: &&Version| v.record == head.record && v.stamp.deleted == head.stamp.deleted;
        if !distinct.iter().any(same) {
            distinct.push(head);
        }
    }
    // What one device deleted and another changed is shown: a piece must not vanish silently.
    let shown = distinct.iter().position(|v| !v.stamp.deleted).unwrap_or_default();
    (!distinct.is_empty()).then(|| {
        let shown = distinct.remove(shown);
        Kept { shown, against: distinct }
    })
}

/// What differs between two states of a record: the key or the part, and how each has it.
#[must_use]
pub fn differences(one: &Record, other: &Record) -> Vec<(String, String, String)> {
    let mut out = Vec::new();
    let mut pairs = |a: Vec<(String, String)>, b: Vec<(String, String)>| {
        for (key, value) in &a {
            let there = b.iter().find(|(k, _)| k == key).map_or("", |(_, v)| v);
            if there != value {
                out.push((key.clone(), value.clone(), there.to_string()));
            }
        }
        for (key, value) in b.iter().filter(|(key, _)| a.iter().all(|(k, _)| k != key)) {
            out.push((key.clone(), String::new(), value.clone()));
        }
    };
    let lines = |r: &Record| r.lines().into_iter().map(|(k, v)| (k.to_string(), v)).collect();
    pairs(lines(one), lines(other));
    // Of parts, the n-th of a name against the n-th.
    let parts = |r: &Record| {
        let mut named: Vec<(String, String)> = Vec::new();
        let parts = r.parts();
        for (at, (name, part)) in parts.iter().enumerate() {
            let n = 1 + parts[..at].iter().filter(|(other, _)| other == name).count();
            let text: Vec<String> = part.lines().iter().map(|(k, v)| format!("{k}: {v}")).collect();
            named.push((format!("{name} {n}"), text.join("; ")));
        }
        named
    };
    pairs(parts(one), parts(other));
    out
}
