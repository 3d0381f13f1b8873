//! The fragment of the address.

use wasm_bindgen::JsValue;

/// The fragment as it stands, with `#`.
#[must_use]
pub fn fragment() -> String {
    web_sys::window().and_then(|w| w.location().hash().ok()).unwrap_or_default()
}

/// The whole address of this page, with another fragment.
#[must_use]
pub fn with(fragment: &str) -> String {
    let whole = web_sys::window().and_then(|w| w.location().href().ok()).unwrap_or_default();
    format!("{}#{fragment}", whole.split('#').next().unwrap_or_default())
}

/// Puts a fragment into the address. Inside another site's frame no history is made, so that its Back stays its own.
pub fn set(fragment: &str, push: bool) {
    let Some(window) = web_sys::window() else { return };
    let Ok(history) = window.history() else { return };
    let framed = window.top().ok().flatten().is_none_or(|top| top != window);
    let url = format!("#{fragment}");
    // A frame whose address may not be touched works on without one.
    let _done = if push && !framed {
        history.push_state_with_url(&JsValue::NULL, "", Some(&url))
    } else {
        history.replace_state_with_url(&JsValue::NULL, "", Some(&url))
    };
}

/// Whether the present entry of the history has been seen before; marks it as seen. Entries made by following a link are
/// fresh, those that Back and Forward lead to are not.
#[must_use]
pub fn seen() -> bool {
    let Some(history) = web_sys::window().and_then(|w| w.history().ok()) else { return false };
    let seen = history.state().is_ok_and(|state| !state.is_null());
    let _marked = history.replace_state_with_url(&JsValue::TRUE, "", None);
    seen
}

/// The page itself goes back to where it was left: the browser would do it before the page is drawn.
pub fn scroll_by_hand() {
    if let Some(history) = web_sys::window().and_then(|w| w.history().ok()) {
        let _done = history.set_scroll_restoration(web_sys::ScrollRestoration::Manual);
    }
}

/// Goes to another page of the site.
pub fn go(to: &str) {
    if let Some(window) = web_sys::window() {
        let _gone = window.location().set_href(to);
    }
}
