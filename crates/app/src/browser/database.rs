//! The store of this device: an IndexedDB with the states of records as text, a card of each piece, photographs under their
//! digests, and notes. States are only ever added. A save is acknowledged when the browser says that it is on the disk
//! (`durability: "strict"`), and the cards change in the same transaction.

use super::turns::{self, Turn};
use js_sys::{Array, Function, Object, Promise, Reflect, Uint8Array};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, IdbDatabase, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction};

const NAME: &str = "pressmark";
/// Raised with every change of the stores. An edition opens a store of a higher number to read only.
const NUMBER: u32 = 1;
/// States of records as text.
pub const STATES: &str = "states";
/// A card of each piece as text.
pub const CARDS: &str = "cards";
/// Photographs as blobs.
pub const PHOTOS: &str = "photos";
/// Drafts and small things as text.
pub const NOTES: &str = "notes";

/// How the names of notes begin that say where a learner stands; behind it the id of the pack.
pub const PRACTICE: &str = "practice/";

/// How the names of notes begin that a file of the cabinet left for the page of practice.
#[must_use]
pub fn brought(pack: &str) -> String {
    format!("practice-in/{pack}/")
}

/// A store that is open.
#[derive(Clone)]
pub struct Database {
    db: IdbDatabase,
    /// Whether a newer edition wrote it.
    pub newer: bool,
}

/// The browser's name for what went wrong.
#[derive(Debug, Clone)]
pub struct Fault(pub String);

impl From<JsValue> for Fault {
    fn from(error: JsValue) -> Fault {
        let name = Reflect::get(&error, &"name".into()).ok().and_then(|n| n.as_string());
        Fault(name.unwrap_or_else(|| "Error".to_string()))
    }
}

/// A promise that is kept by the handlers of a request or a transaction. `good` and `bad` name the events.
fn promised(on: &JsValue, good: &str, bad: &[&str]) -> Promise {
    Promise::new(&mut |resolve: Function, reject: Function| {
        let _set = Reflect::set(on, &good.into(), &resolve);
        for name in bad {
            let _set = Reflect::set(on, &(*name).into(), &reject);
        }
    })
}

async fn answered(request: &IdbRequest) -> Result<JsValue, Fault> {
    match JsFuture::from(promised(request, "onsuccess", &["onerror"])).await {
        Ok(_) => Ok(request.result()?),
        Err(_) => Err(fault_of(request)),
    }
}

fn fault_of(request: &IdbRequest) -> Fault {
    request.error().ok().flatten().map_or(Fault("Error".to_string()), |e| Fault(e.name()))
}

/// Opens the store; a newer one is opened as it is. `left` is called when another window needs a newer one.
///
/// # Errors
/// The browser's name for what keeps it from being opened.
pub async fn open(left: Option<Function>) -> Result<Database, Fault> {
    let factory = web_sys::window().and_then(|w| w.indexed_db().ok().flatten());
    let factory = factory.ok_or_else(|| Fault("SecurityError".to_string()))?;
    let request = factory.open_with_u32(NAME, NUMBER)?;
    let asked = request.clone();
    let upgrade = Closure::once_into_js(move |_: JsValue| {
        let db: Option<IdbDatabase> = asked.result().ok().and_then(|r| r.dyn_into().ok());
        for store in db.iter().flat_map(|db| [STATES, CARDS, PHOTOS, NOTES].map(|name| (db, name))) {
            let _made = store.0.create_object_store(store.1);
        }
    });
    request.set_onupgradeneeded(Some(upgrade.unchecked_ref()));
    let (db, newer) = match answered(&request).await {
        Ok(db) => (db, false),
        Err(fault) if fault.0 == "VersionError" => (answered(factory.open(NAME)?.as_ref()).await?, true),
        Err(fault) => return Err(fault),
    };
    let db: IdbDatabase = db.dyn_into()?;
    // Whoever holds on to an old store would keep a newer edition from opening it.
    let own = db.clone();
    let give_way = Closure::<dyn FnMut(JsValue)>::new(move |_: JsValue| {
        own.close();
        if let Some(left) = &left {
            let _told = left.call0(&JsValue::NULL);
        }
    });
    db.set_onversionchange(Some(give_way.as_ref().unchecked_ref()));
    give_way.forget();
    Ok(Database { db, newer })
}

impl Database {
    fn reading(&self, store: &str) -> Result<IdbObjectStore, Fault> {
        Ok(self.db.transaction_with_str(store)?.object_store(store)?)
    }

    /// A transaction that writes, alone; `strict` is over when everything is on the disk.
    ///
    /// Two that write at once cost Chromium 156 the whole store when its process was killed between them: at the next start it
    /// found their traces and took the store for spoilt (about one kill of five, with the disk whole). So each waits its turn,
    /// in all windows.
    async fn writing(&self, stores: &[&str], strict: bool) -> Result<(IdbTransaction, Turn), Fault> {
        let turn = turns::next().await;
        let names: Array = stores.iter().map(|s| JsValue::from_str(s)).collect();
        let options = Object::new();
        let durability = if strict { "strict" } else { "relaxed" };
        let _set = Reflect::set(&options, &"durability".into(), &durability.into());
        let begin: Function = Reflect::get(&self.db, &"transaction".into())?.dyn_into()?;
        let transaction = begin.call3(&self.db, &names, &"readwrite".into(), &options)?.dyn_into()?;
        Ok((transaction, turn))
    }

    /// All texts of a store in one, with a sign between.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn joined(&self, store: &str, between: char) -> Result<String, Fault> {
        let all = answered(&self.reading(store)?.get_all()?).await?;
        let all = all.dyn_ref::<Array>().map(|all| String::from(all.join(&between.to_string())));
        Ok(all.unwrap_or_default())
    }

    /// The texts of a store whose names begin with something.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn texts(&self, store: &str, begin: &str) -> Result<Vec<String>, Fault> {
        let request = self.reading(store)?.get_all_with_key(range(begin)?.as_ref())?;
        Ok(strings(&answered(&request).await?))
    }

    /// The names of a store, in order.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn names(&self, store: &str) -> Result<Vec<String>, Fault> {
        Ok(strings(&answered(&self.reading(store)?.get_all_keys()?).await?))
    }

    /// So many texts and their names behind a name.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn after(&self, store: &str, name: &str, most: u32) -> Result<Vec<(String, String)>, Fault> {
        let all = IdbKeyRange::lower_bound_with_open(&name.into(), true)?;
        let store = self.reading(store)?;
        let (names, texts) = (
            store.get_all_keys_with_key_and_limit(&all, most)?,
            store.get_all_with_key_and_limit(&all, most)?,
        );
        // Asked for together, so that both are of one moment.
        let both = Array::of2(
            &promised(&names, "onsuccess", &["onerror"]),
            &promised(&texts, "onsuccess", &["onerror"]),
        );
        JsFuture::from(Promise::all(&both)).await?;
        Ok(strings(&names.result()?).into_iter().zip(strings(&texts.result()?)).collect())
    }

    /// A text by its name; empty when there is none.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn note(&self, name: &str) -> Result<String, Fault> {
        let note = answered(&self.reading(NOTES)?.get(&name.into())?).await?;
        Ok(note.as_string().unwrap_or_default())
    }

    /// Keeps a note, in time: what it says is not worth waiting for. An empty one is taken away.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn keep(&self, name: &str, text: &str, strict: bool) -> Result<(), Fault> {
        let (transaction, _turn) = self.writing(&[NOTES], strict).await?;
        let store = transaction.object_store(NOTES)?;
        if text.is_empty() {
            store.delete(&name.into())?;
        } else {
            store.put_with_key(&text.into(), &name.into())?;
        }
        done(&transaction).await
    }

    /// A photograph.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn photo(&self, digest: &str) -> Result<Option<Blob>, Fault> {
        Ok(answered(&self.reading(PHOTOS)?.get(&digest.into())?).await?.dyn_into().ok())
    }

    /// Keeps photographs under their digests.
    ///
    /// # Errors
    /// The browser's name for what went wrong; then none of them is kept.
    pub async fn keep_photos(&self, photos: &[(String, Blob)]) -> Result<(), Fault> {
        let (transaction, _turn) = self.writing(&[PHOTOS], true).await?;
        let store = transaction.object_store(PHOTOS)?;
        for (digest, photo) in photos {
            store.put_with_key(photo, &digest.as_str().into())?;
        }
        done(&transaction).await
    }

    /// Takes photographs away that came with a file that was not taken.
    ///
    /// # Errors
    /// The browser's name for what went wrong.
    pub async fn drop_photos(&self, digests: &[String]) -> Result<(), Fault> {
        let (transaction, _turn) = self.writing(&[PHOTOS], false).await?;
        let store = transaction.object_store(PHOTOS)?;
        for digest in digests {
            store.delete(&digest.as_str().into())?;
        }
        done(&transaction).await
    }

    /// Adds states, all of them or none, and makes the cards of their pieces anew in the same breath, out of everything that is
    /// kept of them then: another window may have saved meanwhile. `card` makes a card of all states of a piece. Gives the
    /// cards once all of it is on the disk.
    ///
    /// # Errors
    /// The browser's name for what went wrong; then nothing was saved.
    pub async fn save(
        &self,
        states: &[(String, String)],
        pieces: &[String],
        card: fn(&[String]) -> Option<String>,
    ) -> Result<Vec<String>, Fault> {
        let (transaction, _turn) = self.writing(&[STATES, CARDS], true).await?;
        let store = transaction.object_store(STATES)?;
        let cards = transaction.object_store(CARDS)?;
        for (name, text) in states {
            store.put_with_key(&text.as_str().into(), &name.as_str().into())?;
        }
        let made = Rc::new(RefCell::new(Vec::new()));
        for piece in pieces {
            let request = store.get_all_with_key(range(&format!("{piece}/"))?.as_ref())?;
            let (cards, made, piece, asked) = (cards.clone(), made.clone(), piece.clone(), request.clone());
            let then = Closure::once_into_js(move |_: JsValue| {
                let texts = asked.result().map(|all| strings(&all)).unwrap_or_default();
                if let Some(text) = card(&texts) {
                    let _put = cards.put_with_key(&text.as_str().into(), &piece.as_str().into());
                    made.borrow_mut().push(text);
                }
            });
            request.set_onsuccess(Some(then.unchecked_ref()));
        }
        done(&transaction).await?;
        Ok(made.take())
    }
}

/// Waits until a transaction is complete.
async fn done(transaction: &IdbTransaction) -> Result<(), Fault> {
    match JsFuture::from(promised(transaction, "oncomplete", &["onabort"])).await {
        Ok(_) => Ok(()),
        Err(_) => Err(transaction.error().map_or(Fault("AbortError".to_string()), |e| Fault(e.name()))),
    }
}

/// All names that begin with something.
fn range(begin: &str) -> Result<IdbKeyRange, Fault> {
    Ok(IdbKeyRange::bound(&begin.into(), &format!("{begin}\u{ffff}").as_str().into())?)
}

fn strings(list: &JsValue) -> Vec<String> {
    list.dyn_ref::<Array>().map(|all| all.iter().filter_map(|s| s.as_string()).collect()).unwrap_or_default()
}

/// The bytes of a blob, or of a part of it.
///
/// # Errors
/// The browser's name for what went wrong.
pub async fn bytes(blob: &Blob) -> Result<Vec<u8>, Fault> {
    let buffer = JsFuture::from(blob.array_buffer()).await?;
    Ok(Uint8Array::new(&buffer).to_vec())
}
