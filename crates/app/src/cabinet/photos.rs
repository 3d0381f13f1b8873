//! Photographs on the screen: brought from the store when they are asked for, one address each.

use super::{Cabinet, Happened};
use crate::browser::database::Database;
use std::cell::RefCell;
use web_sys::Url;
use yew::prelude::*;

/// How many addresses are held; older ones are given back.
const MOST: usize = 400;

/// What is shown.
#[derive(Default)]
pub(super) struct Shown {
    /// Digests with their addresses, the latest last.
    come: Vec<(String, String)>,
    /// Digests that a screen asked for and that were not there.
    wanted: RefCell<Vec<String>>,
    /// Digests that are on their way, or are in no store.
    asked: Vec<String>,
}

impl Shown {
    /// The address of a photograph; asked for when it is not there.
    pub(super) fn address(&self, digest: &str) -> Option<String> {
        let there = self.come.iter().find(|(d, _)| d == digest).map(|(_, address)| address.clone());
        if there.is_none() && !digest.is_empty() && !self.asked.iter().any(|d| d == digest) {
            self.wanted.borrow_mut().push(digest.to_string());
        }
        there
    }

    /// Some have come.
    pub(super) fn come(&mut self, all: Vec<(String, String)>) {
        for (digest, address) in all {
            self.asked.retain(|d| *d != digest);
            self.come.push((digest, address));
        }
        while self.come.len() > MOST {
            let (_, old) = self.come.remove(0);
            let _given_back = Url::revoke_object_url(&old);
        }
    }

    /// Brings what was asked for: all of it before the screen is drawn anew, so that a list is drawn once.
    pub(super) fn bring(&mut self, ctx: &Context<Cabinet>, db: Option<&Database>) {
        let Some(db) = db else { return };
        let mut wanted = self.wanted.take();
        wanted.retain(|digest| !self.asked.contains(digest));
        wanted.dedup();
        if wanted.is_empty() {
            return;
        }
        self.asked.extend(wanted.iter().cloned());
        let (db, come) = (db.clone(), ctx.link().clone());
        wasm_bindgen_futures::spawn_local(async move {
            let mut all = Vec::new();
            for digest in wanted {
                let blob = db.photo(&digest).await.ok().flatten();
                let address = blob.and_then(|b| Url::create_object_url_with_blob(&b).ok());
                all.extend(address.map(|address| (digest, address)));
            }
            if !all.is_empty() {
                come.send_message(Happened::Photos(all));
            }
        });
    }

    /// One that is new in the store may be asked for again.
    pub(super) fn again(&mut self, digest: &str) {
        self.asked.retain(|d| d != digest);
    }
}
