//! States of records on their way into the store. A state is kept under a name made of its piece, its version and its own
//! bytes: to save it twice is to save it once, and nothing that says something else can be written over it.

use cabinet::archive::digest;
use cabinet::find::Card;
use cabinet::merge::Shelf;
use cabinet::record::{Record, Uuid, Version};
use cabinet::text;

/// A state ready to be saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Saving {
    /// Its name in the store.
    pub key: String,
    /// As text.
    pub text: String,
}

/// The name of a state whose text is given. Those of one piece begin with its id.
#[must_use]
pub fn key_of(version: &Version, text: &str) -> String {
    let own = digest(text.as_bytes());
    format!("{}/{}/{}", version.stamp.id, version.stamp.version, &own[..16])
}

/// A version as it is saved.
#[must_use]
pub fn saving(version: &Version) -> Saving {
    let text = text::write(version);
    Saving { key: key_of(version, &text), text }
}

impl Saving {
    /// The id of its piece, as the store has it.
    #[must_use]
    pub fn piece(&self) -> &str {
        self.key.split('/').next().unwrap_or_default()
    }
}

/// States out of the store. What cannot be read is passed over and counted: it stays in the store.
#[must_use]
pub fn states(texts: &[String]) -> (Vec<Version>, usize) {
    let read: Vec<Version> = texts.iter().filter_map(|t| text::read(t.as_bytes()).ok()).collect();
    let lost = texts.len() - read.len();
    (read, lost)
}

/// The card of a piece out of all its states, as it is kept; nothing when none can be read.
#[must_use]
pub fn card(texts: &[String]) -> Option<String> {
    Card::of(states(texts).0).map(|card| card.write())
}

/// The records that states show, those that were taken out left aside.
#[must_use]
pub fn heads(texts: &[String]) -> Vec<(Uuid, Record)> {
    let shelf = Shelf::of(states(texts).0);
    let there = shelf.records().into_iter().filter(|kept| !kept.is_gone());
    there.map(|kept| (kept.shown.stamp.id, kept.shown.record.clone())).collect()
}
