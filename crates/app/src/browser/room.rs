//! How much room this device gives, and whether it promises to keep what is here.

use js_sys::{Promise, Reflect};
use wasm_bindgen::JsCast;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::StorageManager;

/// What the browser says.
#[derive(Debug, Clone, Copy, Default)]
pub struct Room {
    /// Whether it promised; nothing where it does not say.
    pub lasting: Option<bool>,
    /// Kilobytes in use, and that there may be.
    pub kilobytes: (u64, u64),
}

/// Asks for the promise, or only how things stand.
pub async fn room(ask: bool) -> Room {
    let mut room = Room::default();
    let manager = web_sys::window().map(|w| w.navigator());
    let manager = manager.and_then(|n| Reflect::get(&n, &"storage".into()).ok()).filter(JsValue::is_object);
    let Some(manager) = manager.map(JsCast::unchecked_into::<StorageManager>) else { return room };
    room.lasting =
        told(if ask { manager.persist() } else { manager.persisted() }).await.and_then(|l| l.as_bool());
    if let Some(estimate) = told(manager.estimate()).await {
        let kilobytes = |name: &str| {
            let bytes = Reflect::get(&estimate, &name.into()).ok().and_then(|n| n.as_f64());
            (bytes.unwrap_or_default() / 1000.0) as u64
        };
        room.kilobytes = (kilobytes("usage"), kilobytes("quota"));
    }
    room
}

async fn told(asked: Result<Promise, JsValue>) -> Option<JsValue> {
    JsFuture::from(asked.ok()?).await.ok()
}
