//! Turns: of all windows of this browser one changes what is kept at a time (`www/early.js`).

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// A turn, until it is dropped. A browser without locks gives one to everybody.
pub(super) struct Turn(Option<Function>);

impl Drop for Turn {
    fn drop(&mut self) {
        if let Some(over) = &self.0 {
            let _told = over.call0(&JsValue::NULL);
        }
    }
}

/// Waits for the next turn.
pub(super) async fn next() -> Turn {
    let over = match asked() {
        Some(promise) => JsFuture::from(promise).await.ok().and_then(|over| over.dyn_into().ok()),
        None => None,
    };
    Turn(over)
}

/// A promise of the function that ends the turn.
fn asked() -> Option<Promise> {
    let ask: Function = Reflect::get(&js_sys::global(), &"pressmarkTurn".into()).ok()?.dyn_into().ok()?;
    ask.call0(&JsValue::NULL).ok()?.dyn_into().ok()
}
