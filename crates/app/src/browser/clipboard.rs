//! The clipboard.

use wasm_bindgen_futures::JsFuture;

/// Puts text on the clipboard; false where the browser refuses.
pub async fn copy(text: String) -> bool {
    let Some(window) = web_sys::window() else {
        return false;
    };
    let navigator = window.navigator();
    let offered = js_sys::Reflect::get(&navigator, &"clipboard".into()).is_ok_and(|c| c.is_object());
    offered && JsFuture::from(navigator.clipboard().write_text(&text)).await.is_ok()
}
