//! Files that the user chose: pictures, a file of a cabinet, a table.

use super::{Cabinet, Happened, long};
use crate::browser::database::{Fault, STATES, bytes};
use crate::browser::photo;
use ::cabinet::archive::{Entry, digest};
use keep::{Failure, Msg, Preview, Saving, Take, preview};
use web_sys::{Blob, File, FileList};
use yew::prelude::*;

/// The largest table that is read, in bytes; what is larger is told so by the reader.
const MOST_TABLE: f64 = 33_000_000.0;

/// A file that was looked at.
pub struct Pending {
    pub(super) file: File,
    pub(super) states: Vec<Saving>,
    pub(super) photos: Vec<(String, Entry)>,
    pub(super) practice: Vec<(String, String)>,
    pub(super) preview: Preview,
}

/// A part of a file as bytes.
pub(super) async fn part(file: &File, from: u64, to: u64) -> Result<Vec<u8>, Fault> {
    bytes(&file.slice_with_f64_and_f64(from as f64, to as f64)?).await
}

impl Cabinet {
    pub(super) fn files(&mut self, ctx: &Context<Self>, take: Take, list: &FileList) {
        let Some(db) = self.db.clone() else { return };
        let all: Vec<File> = (0..list.length()).filter_map(|at| list.get(at)).collect();
        let (come, link) = (ctx.link().callback(Happened::Do), ctx.link().clone());
        self.stop.set(false);
        let stop = self.stop.clone();
        wasm_bindgen_futures::spawn_local(async move {
            for file in all {
                match take {
                    Take::Photos => match photo::taken(&file).await {
                        Ok((bytes, blob)) => {
                            let name = digest(&bytes);
                            match db.keep_photos(&[(name.clone(), blob)]).await {
                                Ok(()) => come.emit(Msg::Photo(name)),
                                Err(fault) => come.emit(Msg::Failed(Failure::named(&fault.0))),
                            }
                        }
                        Err(says) => come.emit(Msg::NoPhoto(says)),
                    },
                    Take::Table => {
                        let few: Result<Blob, _> = file.slice_with_f64_and_f64(0.0, MOST_TABLE);
                        match few {
                            Ok(few) => come.emit(Msg::Table(bytes(&few).await.unwrap_or_default())),
                            Err(error) => come.emit(Msg::Failed(Failure::named(&Fault::from(error).0))),
                        }
                    }
                    Take::Archive => match long::look(&file, &stop, &come).await {
                        Some(Ok(found)) => {
                            let known = db.names(STATES).await.unwrap_or_default();
                            let (preview, states) = preview(&found, &known);
                            let (photos, practice) = (found.photos, found.practice);
                            let pending = Pending { file: file.clone(), states, photos, practice, preview };
                            link.send_message(Happened::Pending(Box::new(pending)));
                        }
                        Some(Err(faults)) => come.emit(Msg::Looked(Err(faults))),
                        None => come.emit(Msg::Stopped),
                    },
                }
            }
        });
    }
}
