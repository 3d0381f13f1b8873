//! Events between the program and the script that started it (`www/boot.js`).

use gloo_events::EventListener;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CustomEvent, CustomEventInit};

/// Sends `pressmark:<name>`.
pub fn tell(name: &str, detail: Option<&str>) {
    let init = CustomEventInit::new();
    init.set_detail(&detail.map_or(JsValue::NULL, JsValue::from_str));
    let event = CustomEvent::new_with_event_init_dict(&format!("pressmark:{name}"), &init);
    if let (Some(window), Ok(event)) = (web_sys::window(), event) {
        let _taken = window.dispatch_event(&event);
    }
}

/// Listens for an event on the window once.
pub fn hear_once(name: &'static str, then: impl FnOnce(Option<String>) + 'static) {
    let Some(window) = web_sys::window() else { return };
    EventListener::once(&window, name, move |event| then(text_of(event))).forget();
}

fn text_of(event: &web_sys::Event) -> Option<String> {
    event.dyn_ref::<CustomEvent>().and_then(|e| e.detail().as_string())
}

/// Listens for an event on the window until the listener is dropped; hands over the detail when it is text.
pub fn hear(name: &'static str, then: impl Fn(Option<String>) + 'static) -> Option<EventListener> {
    let window = web_sys::window()?;
    Some(EventListener::new(&window, name, move |event| {
        then(text_of(event));
    }))
}
