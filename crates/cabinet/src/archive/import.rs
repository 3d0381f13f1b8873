//! Reading an export, a range of bytes at a time: all of it is good, or nothing is taken.

use super::digest::digest;
use super::directory::{Entry, List, MOST_FAULTS, TAIL, entries, find};
use super::name::Sort;
use crate::order::sorted;
use crate::record::Version;
use crate::text;

/// The most records, all their states counted, that are taken from one file.
pub const MOST_RECORDS: usize = 50_000;

/// The most bytes of all records together: they are kept until all of the file is found good.
const MOST_TEXT: u64 = 200 << 20;
/// The longest text of practice in bytes, and from how many packs.
const MOST_PRACTICE: usize = 1 << 20;
const MOST_PACKS: usize = 20;
/// The most states of one record.
const MOST_STATES: usize = 1_000;

/// What to give next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Want {
    /// The first byte of the file that is wanted.
    pub from: u64,
    /// The one behind the last.
    pub to: u64,
}

#[derive(Debug)]
enum Step {
    Tail,
    List(List),
    Entries,
    Done,
}

/// A file being read: [`Import::wants`] says which bytes, [`Import::give`] takes them, [`Import::finish`] says what came of
/// it. To stop, drop it. Only texts are kept; each photograph is checked and let go.
#[derive(Debug)]
pub struct Import {
    total: u64,
    step: Step,
    entries: Vec<Entry>,
    next: usize,
    versions: Vec<Version>,
    practice: Vec<(String, String)>,
    faults: Vec<String>,
}

/// What stands in a sound file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// Its records, in all their states that it holds.
    pub versions: Vec<Version>,
    /// Its photographs: digest, and the entry that holds it.
    pub photos: Vec<(String, Entry)>,
    /// Where a learner stands: id of the pack, and the text. Whether it can be read its own reader says.
    pub practice: Vec<(String, String)>,
    /// What a person should know and that does no harm: sentences.
    pub notes: Vec<String>,
}

impl Import {
    /// A file of so many bytes.
    #[must_use]
    pub fn new(total: u64) -> Import {
        let step = Step::Tail;
        let (entries, versions, practice) = (Vec::new(), Vec::new(), Vec::new());
        Import { total, step, entries, next: 0, versions, practice, faults: Vec::new() }
    }

    /// The bytes to give next; nothing when it is done.
    #[must_use]
    pub fn wants(&self) -> Option<Want> {
        match &self.step {
            Step::Tail => Some(Want { from: self.total.saturating_sub(TAIL), to: self.total }),
            Step::List(list) => Some(Want { from: list.from, to: list.to }),
            Step::Entries => self.entries.get(self.next).map(|entry| {
                let (from, to) = entry.range();
                Want { from, to }
            }),
            Step::Done => None,
        }
    }

    /// Entries that are done, and of how many.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.next, self.entries.len())
    }

    /// Takes the bytes that were wanted.
    pub fn give(&mut self, bytes: &[u8]) {
        let wanted = self.wants().map_or(0, |w| w.to - w.from);
        if wanted != bytes.len() as u64 {
            return self
                .stop("The file could not be read to its end. Perhaps it was moved or changed meanwhile.");
        }
        match core::mem::replace(&mut self.step, Step::Done) {
            Step::Tail => match find(bytes, self.total) {
                Ok(list) => self.step = Step::List(list),
                Err(says) => self.stop(&says),
            },
            Step::List(list) => match entries(bytes, list) {
                Ok(entries) => {
                    let all = || entries.iter().filter(|e| e.sort == Sort::Record);
                    let records = all().count();
                    let bytes: u64 = all().map(|e| e.size).sum();
                    if records > MOST_RECORDS {
                        self.stop(&format!("It holds {records} records; at most {MOST_RECORDS} are taken."));
                    } else if bytes > MOST_TEXT {
                        self.stop("Its records are longer than 200 megabytes, which is more than a cabinet can hold.");
                    } else {
                        self.entries = entries;
                        self.go_on();
                    }
                }
                Err(faults) => self.faults.extend(faults),
            },
            Step::Entries => {
                self.entry(bytes);
                self.next += 1;
                // After so many faults the rest would add none that helps.
                if self.faults.len() < MOST_FAULTS {
                    self.go_on();
                }
            }
            Step::Done => {}
        }
    }

    fn stop(&mut self, says: &str) {
        self.faults.push(says.to_string());
        self.step = Step::Done;
    }

    /// On to the next entry. Those that are not read are checked too: a name that was damaged must not hide a record.
    fn go_on(&mut self) {
        self.step = if self.next < self.entries.len() { Step::Entries } else { Step::Done };
    }

    fn entry(&mut self, bytes: &[u8]) {
        let entry = &self.entries[self.next];
        let data = match entry.data(bytes) {
            Ok(data) => data,
            Err(says) => return self.faults.push(says),
        };
        match &entry.sort {
            Sort::Photo(name) => {
                if *name != digest(data) {
                    self.faults.push(format!("{} is not the photograph that its name says.", entry.name));
                } else if !data.starts_with(&[0xff, 0xd8, 0xff]) {
                    self.faults.push(format!("{} is no JPEG.", entry.name));
                }
            }
            Sort::Practice(pack) => match core::str::from_utf8(data) {
                Ok(text) if data.len() <= MOST_PRACTICE && self.practice.len() < MOST_PACKS => {
                    self.practice.push((pack.clone(), text.to_string()));
                }
                _ => self.faults.push(format!("{} is no text of practice.", entry.name)),
            },
            Sort::ForPeople | Sort::Foreign => {}
            Sort::Record => match text::read(data) {
                Ok(version) => self.versions.push(version),
                Err(faults) => {
                    let say = |f: &text::Fault| match f.line {
                        0 => format!("{}: {}", entry.name, f.says),
                        line => format!("{}, line {line}: {}", entry.name, f.says),
                    };
                    self.faults.extend(faults.iter().map(say));
                }
            },
        }
    }

    /// What came of it.
    ///
    /// # Errors
    /// Sentences: what is wrong with the file. Nothing of it is to be taken then.
    pub fn finish(mut self) -> Result<Found, Vec<String>> {
        if self.faults.is_empty() && self.wants().is_some() {
            self.faults.push("The file was not read to its end.".to_string());
        }
        if self.faults.is_empty() && self.versions.is_empty() && self.practice.is_empty() {
            self.faults.push("There is no record in the file.".to_string());
        }
        let ids = sorted(self.versions.iter().map(|v| v.stamp.id).collect());
        if ids.chunk_by(|a, b| a == b).any(|states| states.len() > MOST_STATES) {
            self.faults.push(format!(
                "It holds more than {MOST_STATES} states of one record, which no export does."
            ));
        }
        if !self.faults.is_empty() {
            self.faults.truncate(MOST_FAULTS + 1);
            return Err(self.faults);
        }
        let foreign = self.entries.iter().filter(|e| e.sort == Sort::Foreign).count();
        let photo =
            |e: Entry| if let Sort::Photo(digest) = e.sort.clone() { Some((digest, e)) } else { None };
        let photos: Vec<(String, Entry)> = self.entries.into_iter().filter_map(photo).collect();
        let have: Vec<&str> = sorted(photos.iter().map(|(digest, _)| digest.as_str()).collect());
        let named = self.versions.iter().flat_map(|v| &v.record.photos).filter(|p| !p.digest.is_empty());
        let missing = named.filter(|p| have.binary_search(&p.digest.as_str()).is_err()).count();
        let mut notes = Vec::new();
        for (count, one, many) in [
            (
                foreign,
                "other thing lies in the file and is left",
                "other things lie in the file and are left",
            ),
            (
                missing,
                "photograph is named and is not in the file",
                "photographs are named and are not in the file",
            ),
        ] {
            if count > 0 {
                notes.push(format!("{count} {}.", if count == 1 { one } else { many }));
            }
        }
        if !self.practice.is_empty() {
            notes.push("What was practised is in it as well.".to_string());
        }
        Ok(Found { versions: self.versions, photos, practice: self.practice, notes })
    }
}
