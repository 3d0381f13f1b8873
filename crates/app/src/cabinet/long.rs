//! What takes long: in steps, so that the page stays alive, with progress, and stopped when the user says so. Of the
//! photographs one at a time is in memory.

use super::carry::{pieces, texts};
use super::files::{Pending, part};
use crate::browser::database::{Database, Fault, NOTES, PRACTICE, STATES, brought};
use crate::browser::pause::breathe;
use crate::browser::photo::blob;
use crate::browser::save;
use crate::browser::windows::Windows;
use crate::browser::{clock, database};
use ::cabinet::archive::{Export, Found, Import};
use ::cabinet::csv;
use ::cabinet::record::{Moment, Record, Uuid, Value};
use js_sys::Array;
use keep::{Failure, Gather, Msg, card, heads, states};
use std::cell::Cell;
use std::rc::Rc;
use web_sys::{Blob, BlobPropertyBag, File};
use yew::Callback;

/// States that are read at a time.
const AT_A_TIME: u32 = 200;
/// Bytes that are gathered before they become a blob, which the browser may put on the disk.
const ENOUGH: usize = 4 << 20;

type Stop = Rc<Cell<bool>>;

/// Reads all states, in the order of their pieces, a few at a time, whole pieces together.
async fn all(
    db: &Database,
    mut each: impl FnMut(&[String]) -> Result<(), String>,
) -> Result<Result<(), String>, Fault> {
    let (mut name, mut open, mut texts) = (String::new(), String::new(), Vec::new());
    loop {
        let some = db.after(STATES, &name, AT_A_TIME).await?;
        let last = some.len() < AT_A_TIME as usize;
        for (key, text) in some {
            let piece = key.split('/').next().unwrap_or_default();
            if piece != open {
                if let Err(says) = each(&std::mem::take(&mut texts)) {
                    return Ok(Err(says));
                }
                open = piece.to_string();
            }
            texts.push(text);
            name = key;
        }
        if last {
            return Ok(each(&texts));
        }
        breathe().await;
    }
}

pub(super) async fn gather(db: Database, gather: Gather, come: Callback<Msg>) {
    let mut out: Vec<(Uuid, Record)> = Vec::new();
    let read = all(&db, |texts| {
        out.extend(heads(texts));
        Ok(())
    });
    match read.await {
        Ok(_) => {
            let by = units::order(out.len(), &|a, b| number(&out[a].1).cmp(&number(&out[b].1)));
            come.emit(Msg::Gathered(gather, units::arranged(out, &by)));
        }
        Err(fault) => come.emit(Msg::Failed(Failure::named(&fault.0))),
    }
}

/// What a record is ordered by: its number part by part, those without one last.
fn number(record: &Record) -> (bool, Vec<u32>, String) {
    let text = record.number.shown();
    let parts =
        text.split('.').map(|p| p.trim_matches(|c: char| !c.is_ascii_digit()).parse().unwrap_or(u32::MAX));
    (text.is_empty(), parts.collect(), text.clone())
}

/// A file that grows.
struct Growing {
    parts: Array,
    bytes: Vec<u8>,
}

impl Growing {
    fn put(&mut self, bytes: &[u8]) {
        self.bytes.extend(bytes);
        if self.bytes.len() >= ENOUGH {
            self.turn();
        }
    }

    /// What is in memory becomes a blob.
    fn turn(&mut self) {
        if let Some(blob) = blob(&std::mem::take(&mut self.bytes), "application/octet-stream") {
            self.parts.push(&blob);
        }
    }

    fn whole(mut self) -> Option<Blob> {
        self.turn();
        let about = BlobPropertyBag::new();
        about.set_type("application/zip");
        Blob::new_with_blob_sequence_and_options(&self.parts, &about).ok()
    }
}

pub(super) async fn export(db: Database, stop: Stop, come: Callback<Msg>) {
    match written(&db, &stop, &come).await {
        Ok(Some(Ok(file))) => {
            let day = Moment(clock::now()).date().shown();
            if save::blob(&format!("pressmark-cabinet-{day}.zip"), &file) {
                come.emit(Msg::Exported);
            } else {
                come.emit(Msg::NoPhoto("This browser does not let pages hand over files.".to_string()));
            }
        }
        Ok(Some(Err(says))) => {
            come.emit(Msg::Stopped);
            come.emit(Msg::NoPhoto(says));
        }
        Ok(None) => come.emit(Msg::Stopped),
        Err(fault) => come.emit(Msg::Failed(Failure::named(&fault.0))),
    }
}

/// The file; nothing when it was stopped.
async fn written(
    db: &Database,
    stop: &Stop,
    come: &Callback<Msg>,
) -> Result<Option<Result<Blob, String>>, Fault> {
    let (mut index, mut count, mut photos) = (csv::head(), 0, Vec::<String>::new());
    let told = all(db, |texts| {
        for (id, record) in heads(texts) {
            index.push_str(&csv::row(id, &record));
        }
        for version in states(texts).0 {
            count += 1;
            photos.extend(version.record.photos.into_iter().map(|p| p.digest));
        }
        if stop.get() { Err(String::new()) } else { Ok(()) }
    });
    if told.await?.is_err() {
        return Ok(None);
    }
    let by = units::order(photos.len(), &|a, b| photos[a].cmp(&photos[b]));
    let mut photos = units::arranged(photos, &by);
    photos.dedup();
    let steps = count + photos.len();
    let begun = Export::begin(Moment(clock::now()), count, photos.len(), &index);
    let (mut export, first) = match begun {
        Ok(begun) => begun,
        Err(says) => return Ok(Some(Err(says))),
    };
    let mut file = Growing { parts: Array::new(), bytes: first };
    drop(index);
    let mut done = 0;
    let told = all(db, |texts| {
        for version in states(texts).0 {
            file.put(&export.record(&version)?);
            done += 1;
        }
        if done % 50 == 0 {
            come.emit(Msg::Progress(done, steps));
        }
        if stop.get() { Err("stopped".to_string()) } else { Ok(()) }
    });
    match told.await? {
        Err(_) if stop.get() => return Ok(None),
        Err(says) => return Ok(Some(Err(says))),
        Ok(()) => {}
    }
    for (pack, text) in practised(db).await? {
        match export.practice(&pack, &text) {
            Ok(entry) => file.put(&entry),
            Err(says) => return Ok(Some(Err(says))),
        }
    }
    for (at, digest) in photos.iter().enumerate() {
        if stop.get() {
            return Ok(None);
        }
        if let Some(photo) = db.photo(digest).await? {
            let bytes = database::bytes(&photo).await?;
            match export.photo(digest, &bytes) {
                Ok(head) => file.put(&head),
                Err(says) => return Ok(Some(Err(says))),
            }
            file.put(&bytes);
        }
        if at % 25 == 0 {
            come.emit(Msg::Progress(count + at, steps));
            breathe().await;
        }
    }
    file.put(&export.finish());
    Ok(file.whole().map(Ok))
}

/// Where a learner stands, by the id of the pack.
async fn practised(db: &Database) -> Result<Vec<(String, String)>, Fault> {
    let mut all = Vec::new();
    for name in db.names(NOTES).await? {
        if let Some(pack) = name.strip_prefix(PRACTICE).filter(|pack| !pack.contains('/')) {
            all.push((pack.to_string(), db.note(&name).await?));
        }
    }
    Ok(all)
}

/// Leaves it for the page of practice, which knows how to take it in; nothing that came before is written over.
async fn leave_practice(db: &Database, all: &[(String, String)]) -> Result<(), Fault> {
    for (pack, text) in all {
        db.keep(&format!("{}{}", brought(pack), clock::now()), text, true).await?;
    }
    Ok(())
}

/// Looks through a file to its end; nothing when it was stopped.
pub(super) async fn look(
    file: &File,
    stop: &Stop,
    come: &Callback<Msg>,
) -> Option<Result<Found, Vec<String>>> {
    let mut import = Import::new(file.size() as u64);
    let mut step = 0_u32;
    while let Some(want) = import.wants() {
        if stop.get() {
            return None;
        }
        // What cannot be read is given as nothing, and the import says so.
        import.give(&part(file, want.from, want.to).await.unwrap_or_default());
        step += 1;
        if step % 50 == 1 {
            let (done, all) = import.progress();
            come.emit(Msg::Progress(done, all));
            breathe().await;
        }
    }
    Some(import.finish())
}

/// Takes a file that was looked at: photographs first, which nothing shows yet, then all states at once.
pub(super) async fn take_in(
    db: Database,
    pending: Rc<Pending>,
    stop: Stop,
    windows: Windows,
    come: Callback<Msg>,
) {
    let mut new = Vec::new();
    let outcome = photographs(&db, &pending, &stop, &come, &mut new).await;
    let saved = match outcome {
        Ok(true) => {
            let all = pieces(&pending.states);
            let saved = db.save(&texts(&pending.states), &all, card).await;
            if saved.is_ok() {
                windows.tell(&all);
            }
            match saved {
                Ok(cards) => leave_practice(&db, &pending.practice).await.map(|()| Some(cards)),
                Err(fault) => Err(fault),
            }
        }
        Ok(false) => Ok(None),
        Err(fault) => Err(fault),
    };
    if !matches!(saved, Ok(Some(_))) {
        // All or nothing.
        let _gone = db.drop_photos(&new).await;
    }
    come.emit(match saved {
        Ok(Some(cards)) => Msg::Saved(cards),
        Ok(None) => Msg::Stopped,
        Err(fault) => Msg::Failed(Failure::named(&fault.0)),
    });
}

/// Keeps the photographs that are not here; `false` when it was stopped. `new` gets their digests.
async fn photographs(
    db: &Database,
    pending: &Pending,
    stop: &Stop,
    come: &Callback<Msg>,
    new: &mut Vec<String>,
) -> Result<bool, Fault> {
    let have = db.names(database::PHOTOS).await?;
    let mut some: Vec<(String, Blob)> = Vec::new();
    let mut weight = 0;
    for (at, (digest, entry)) in pending.photos.iter().enumerate() {
        if stop.get() {
            return Ok(false);
        }
        if have.binary_search(digest).is_ok() {
            continue;
        }
        let (from, to) = entry.range();
        let bytes = part(&pending.file, from, to).await?;
        let data = entry.data(&bytes).map_err(|_| Fault("DataError".to_string()))?;
        weight += data.len();
        some.extend(blob(data, "image/jpeg").map(|b| (digest.clone(), b)));
        new.push(digest.clone());
        if weight >= ENOUGH {
            db.keep_photos(&std::mem::take(&mut some)).await?;
            weight = 0;
            come.emit(Msg::Progress(at, pending.photos.len()));
            breathe().await;
        }
    }
    db.keep_photos(&some).await?;
    Ok(true)
}
