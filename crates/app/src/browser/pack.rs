//! The bytes of the pack, loaded and checked by the start script.

use js_sys::{Function, Promise, Reflect, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Loads `core` or `book`.
///
/// # Errors
/// A sentence for the user.
pub async fn load(half: &str) -> Result<Vec<u8>, String> {
    let missing = || "The start script of this page is missing or too old. Load the page again.".to_string();
    let loader = Reflect::get(&js_sys::global(), &"pressmarkPack".into()).ok();
    let loader: Function = loader.and_then(|f| f.dyn_into().ok()).ok_or_else(missing)?;
    let promise = loader.call1(&JsValue::NULL, &half.into()).ok().and_then(|p| p.dyn_into::<Promise>().ok());
    let bytes = JsFuture::from(promise.ok_or_else(missing)?).await.map_err(|e| sentence(&e))?;
    Ok(bytes.dyn_into::<Uint8Array>().map_err(|e| sentence(&e))?.to_vec())
}

fn sentence(error: &JsValue) -> String {
    let message = Reflect::get(error, &"message".into()).ok().and_then(|m| m.as_string());
    message.unwrap_or_else(|| "The guide's data could not be loaded.".to_string())
}
