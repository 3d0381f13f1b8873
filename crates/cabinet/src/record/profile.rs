//! What of a record may be seen by whom. Everything that leaves the cabinet goes through here.

use super::value::choice;
use super::whole::Record;

choice! {
    /// For whom a record is written.
    Profile {
        /// Anybody: no value, no price, no seller, no place, no person's name but that of the maker.
        Public = "public",
        /// An insurer: everything.
        Insurance = "insurance",
        /// A buyer: no place, no price that was paid, no value.
        Sale = "sale",
    }
}

/// The record as the profile lets it be seen. Lines and parts that this edition does not know may say anything: only an
/// insurer sees them.
#[must_use]
pub fn redacted(record: &Record, profile: Profile) -> Record {
    let mut seen = record.clone();
    if profile == Profile::Insurance {
        return seen;
    }
    seen.location.clear();
    seen.acquired = None;
    seen.parted = None;
    seen.valuations.clear();
    seen.notes.clear();
    seen.ask.clear();
    seen.recorder.clear();
    seen.unknown.clear();
    seen.other.clear();
    for part in &mut seen.measurements {
        part.other.clear();
    }
    for part in &mut seen.marks {
        part.other.clear();
    }
    for photo in &mut seen.photos {
        photo.note.clear();
        photo.other.clear();
    }
    for event in &mut seen.provenance {
        event.other.clear();
    }
    if profile == Profile::Public {
        // The past names people and places.
        seen.provenance.clear();
        seen.opinions.clear();
    }
    for opinion in &mut seen.opinions {
        opinion.other.clear();
    }
    seen
}
