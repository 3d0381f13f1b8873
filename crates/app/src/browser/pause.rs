//! Work that waits for what is shown.

use js_sys::{Function, Promise};
use wasm_bindgen_futures::JsFuture;

/// Lets the browser draw and listen before work goes on.
pub async fn breathe() {
    let turn = Promise::new(&mut |resolve: Function, _: Function| {
        if let Some(window) = web_sys::window() {
            let _set = window.set_timeout_with_callback(&resolve);
        }
    });
    let _waited = JsFuture::from(turn).await;
}

/// Waits until what was drawn last has been painted.
pub async fn painted() {
    let frame = Promise::new(&mut |resolve: Function, _: Function| {
        if let Some(window) = web_sys::window() {
            let _asked = window.request_animation_frame(&resolve);
        }
    });
    let _waited = JsFuture::from(frame).await;
    breathe().await;
}
