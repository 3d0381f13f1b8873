//! The program that works on a photograph (`www/darkroom.js`): loaded when the first picture is chosen, and told what to do
//! from then on. Nothing leaves the device.

use js_sys::{Array, Function, Int32Array, Promise, Reflect};
use std::cell::RefCell;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, HtmlInputElement};

/// What it tells.
pub enum Heard {
    /// The picture can be shown from this address.
    Shown(String),
    /// An answer.
    Told(Vec<i32>),
    /// So much is done, per mille.
    Done(i32),
    /// A sentence why not.
    Failed(String),
}

thread_local! {
    /// Once it has been opened.
    static ROOM: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

const MISSING: &str = "What works on pictures could not be loaded: there seems to be no connection.";

/// Opens the file in a field, for whoever listens.
pub fn take(id: &str, hear: impl Fn(Heard) + 'static) {
    let field = web_sys::window().and_then(|w| w.document()).and_then(|d| d.get_element_by_id(id));
    let Some(field) = field.and_then(|f| f.dyn_into::<HtmlInputElement>().ok()) else { return };
    let Some(file) = field.files().and_then(|files| files.get(0)) else { return };
    // The same file may be chosen again.
    field.set_value("");
    wasm_bindgen_futures::spawn_local(async move {
        let hear = std::rc::Rc::new(hear);
        if !ROOM.with_borrow(Option::is_some) {
            match open(hear.clone()).await {
                Some(room) => ROOM.set(Some(room)),
                None => return hear(Heard::Failed(MISSING.to_string())),
            }
        }
        send("take", &file);
    });
}

/// Asks about the picture.
pub fn ask(words: &[i32]) {
    send("ask", &Int32Array::from(words));
}

/// A small JPEG of the picture with nothing in it but its pixels, under its digest, for whoever keeps it.
pub async fn kept() -> Option<(String, Blob)> {
    let promise = call("kept", &JsValue::UNDEFINED)?;
    let both = JsFuture::from(promise.dyn_into::<Promise>().ok()?).await.ok()?;
    let both = both.dyn_ref::<Array>()?;
    Some((both.get(0).as_string()?, both.get(1).dyn_into().ok()?))
}

fn send(what: &str, value: &JsValue) {
    let _sent = call(what, value);
}

fn call(what: &str, value: &JsValue) -> Option<JsValue> {
    let room = ROOM.with_borrow(Clone::clone)?;
    let method: Function = Reflect::get(&room, &what.into()).ok()?.dyn_into().ok()?;
    method.call1(&room, value).ok()
}

async fn open(hear: std::rc::Rc<impl Fn(Heard) + 'static>) -> Option<JsValue> {
    let global = |name: &str| Reflect::get(&js_sys::global(), &name.into()).ok()?.dyn_into::<Function>().ok();
    let loaded = global("pressmarkPhoto")?.call0(&JsValue::NULL).ok()?;
    JsFuture::from(loaded.dyn_into::<Promise>().ok()?).await.ok()?;
    let tell = Closure::<dyn Fn(JsValue, JsValue)>::new(move |what: JsValue, value: JsValue| {
        let heard = match what.as_string().as_deref() {
            Some("shown") => value.as_string().map(Heard::Shown),
            Some("told") => value.dyn_into::<Int32Array>().ok().map(|words| Heard::Told(words.to_vec())),
            Some("done") => value.as_f64().map(|mille| Heard::Done(mille as i32)),
            Some("failed") => value.as_string().map(Heard::Failed),
            _ => None,
        };
        if let Some(heard) = heard {
            hear(heard);
        }
    });
    let opened = global("pressmarkDarkroom")?.call1(&JsValue::NULL, tell.as_ref()).ok()?;
    // As long as the page.
    tell.forget();
    JsFuture::from(opened.dyn_into::<Promise>().ok()?).await.ok()
}
