//! The whole program of the question page. It begins with the piece in the address, or goes on where the opening stands.

use app::app::{App, AppProps, Rooms, whole};
use app::browser::{events, page};
use consult::Guide;
use std::rc::Rc;

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

fn main() {
    wasm_bindgen_futures::spawn_local(start());
}

async fn start() {
    match whole().await {
        Ok(guide) if page::is_answered() => {
            // The opening is told only after somebody listens to what it leaves.
            events::hear_once("pressmark:handover", |left| {
                // It must be gone before the page is drawn anew.
                wasm_bindgen_futures::spawn_local(async move { take_over(guide, left) });
            });
            events::tell("whole-ready", None);
        }
        Ok(guide) => take_over(guide, None),
        Err(sentence) if page::is_answered() => events::tell("whole-failed", Some(&sentence)),
        Err(sentence) => events::tell("trouble", Some(&sentence)),
    }
}

fn take_over(guide: Rc<Guide>, left: Option<String>) {
    match page::root() {
        Some(root) => {
            let props = AppProps { guide, rooms: Rooms::EVERY, left: left.map(Rc::from) };
            yew::Renderer::<App>::with_root_and_props(root, props).render();
        }
        None => events::tell("trouble", Some(page::DAMAGED)),
    }
}
