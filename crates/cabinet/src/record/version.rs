//! Versions: every save is one, a delete is one without a record. Nothing is ever changed in place.

use super::date::Moment;
use super::uuid::Uuid;
use super::value::{Value, part, short};
use super::whole::Record;

/// How many earlier versions a version names: two devices that part for longer are asked which is right.
pub const MOST_AFTER: usize = 64;

part! {
    /// What says of which piece a version is, and what it came after.
    Stamp {
        /// The piece: its identity for ever.
        id: Uuid = "id",
        /// This version.
        version: Uuid = "version",
        /// When it was saved.
        time: Moment = "saved",
        /// On which device, as the person calls it.
        device: String = "device",
        /// The versions it was made from, nearest first, theirs behind.
        after: Vec<Uuid> = "after",
        /// The piece was taken out of the cabinet.
        deleted: bool = "deleted",
    }
}

/// One state of one record.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Version {
    /// Which and when.
    pub stamp: Stamp,
    /// What stood in the record. Of one that was deleted, what stood last.
    pub record: Record,
}

impl Version {
    /// The version that follows others: all of them and what they name are its past. The record is tidied. With the
    /// heads of a conflict given, the conflict is over. Where the clock stands behind that of another device, the time is
    /// put just after the latest of those it was made from: later is what came after.
    #[must_use]
    pub fn after(from: &[&Version], stamp: Stamp, record: &Record) -> Version {
        let mut after: Vec<Uuid> = from.iter().map(|v| v.stamp.version).collect();
        for step in 0..MOST_AFTER {
            // In turns, so that no line of the past crowds out another.
            after.extend(from.iter().filter_map(|v| v.stamp.after.get(step)));
        }
        let mut past: Vec<Uuid> = Vec::new();
        for id in after {
            if id != stamp.version && !past.contains(&id) && past.len() < MOST_AFTER {
                past.push(id);
            }
        }
        let mut device = stamp.device;
        device.tidy();
        let least = from.iter().map(|v| v.stamp.time.0 + 1).max().unwrap_or_default();
        let time = Moment(stamp.time.0.max(least));
        Version { stamp: Stamp { after: past, device, time, ..stamp }, record: record.tidied() }
    }
}

impl Value for Vec<Uuid> {
    fn shown(&self) -> String {
        self.iter().map(Uuid::to_string).collect::<Vec<_>>().join("\n")
    }

    fn read(text: &str) -> Result<Vec<Uuid>, String> {
        let ids: Vec<&str> = text.split_whitespace().collect();
        if ids.len() > MOST_AFTER {
            return Err(format!("It names {} earlier versions; at most {MOST_AFTER} are kept.", ids.len()));
        }
        ids.iter()
            .map(|id| Uuid::parse(id).ok_or_else(|| format!("\u{201c}{}\u{201d} is no id.", short(id))))
            .collect()
    }
}
