//! Packs of other people, and the desk where packs are made: `www/guest.js` does the work and tells what came of it.

use consult::book::Heard;
use js_sys::{Array, Function, Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlInputElement;
use yew::Callback;

const MISSING: &str = "What looks after packs could not be loaded: there seems to be no connection.";

/// Has an errand run; `heard` is told what comes of it. Where `value` names a field for files, these are handed over: they
/// are taken now, since the field may be another by the time they are wanted.
pub fn run(what: &'static str, value: &str, heard: Callback<Heard>) {
    let value = files(value).map_or_else(|| value.into(), JsValue::from);
    wasm_bindgen_futures::spawn_local(async move {
        let told = heard.clone();
        let tell = Closure::<dyn Fn(JsValue, JsValue)>::new(move |what: JsValue, value: JsValue| {
            let text = || value.as_string().unwrap_or_default();
            told.emit(match what.as_string().unwrap_or_default().as_str() {
                "done" => Heard::Done(value.as_f64().unwrap_or(0.0) as u16),
                "told" => Heard::Told(text()),
                "listed" => Heard::Listed(text()),
                "well" => Heard::Well(text()),
                _ => Heard::Failed(text()),
            });
        });
        if ran(what, &value, tell.as_ref()).await.is_none() {
            heard.emit(Heard::Failed(MISSING.to_string()));
        }
    });
}

/// The files of a field, which is then ready for the same again.
fn files(id: &str) -> Option<Array> {
    let field = web_sys::window()?.document()?.get_element_by_id(id)?.dyn_into::<HtmlInputElement>().ok()?;
    let files = Array::from(&JsValue::from(field.files()?));
    field.set_value("");
    Some(files)
}

async fn ran(what: &str, value: &JsValue, tell: &JsValue) -> Option<()> {
    let load: Function = Reflect::get(&js_sys::global(), &"pressmarkGuests".into()).ok()?.dyn_into().ok()?;
    let guests = awaited(load.call0(&JsValue::NULL).ok()?).await?;
    let run: Function = Reflect::get(&guests, &"run".into()).ok()?.dyn_into().ok()?;
    awaited(run.call3(&JsValue::NULL, &what.into(), value, tell).ok()?).await.map(drop)
}

async fn awaited(promise: JsValue) -> Option<JsValue> {
    JsFuture::from(promise.dyn_into::<Promise>().ok()?).await.ok()
}
