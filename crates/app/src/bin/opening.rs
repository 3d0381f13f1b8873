//! The opening: the first questions from the core of the pack alone. It gives the page over when the whole has come.

use app::app::{App, AppProps, Rooms, core};
use app::browser::{events, page};

#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

fn main() {
    wasm_bindgen_futures::spawn_local(start());
}

async fn start() {
    match (core().await, page::root()) {
        (Ok(guide), Some(root)) => {
            let props = AppProps { guide, rooms: Rooms::OPENING, left: None };
            let program = yew::Renderer::<App>::with_root_and_props(root, props).render();
            events::hear_once("pressmark:handover", move |_| program.destroy());
        }
        (Err(sentence), _) => events::tell("trouble", Some(&sentence)),
        (Ok(_), None) => events::tell("trouble", Some(page::DAMAGED)),
    }
}
