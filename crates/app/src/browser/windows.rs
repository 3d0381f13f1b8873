//! Telling other windows of this browser what was saved, and hearing it from them.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{BroadcastChannel, MessageEvent};

const NAME: &str = "pressmark.cabinet";

/// The line to the other windows.
#[derive(Clone)]
pub struct Windows(Option<BroadcastChannel>);

impl Windows {
    /// Listens: `then` gets the ids of pieces that another window saved.
    #[must_use]
    pub fn new(then: impl Fn(Vec<String>) + 'static) -> Windows {
        let line = BroadcastChannel::new(NAME).ok();
        if let Some(line) = &line {
            let hear = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
                if let Some(ids) = event.data().as_string() {
                    then(ids.split(' ').map(String::from).collect());
                }
            });
            line.set_onmessage(Some(hear.as_ref().unchecked_ref()));
            hear.forget();
        }
        Windows(line)
    }

    /// Tells them.
    pub fn tell(&self, ids: &[String]) {
        if let Some(line) = &self.0 {
            let _told = line.post_message(&ids.join(" ").as_str().into());
        }
    }
}
